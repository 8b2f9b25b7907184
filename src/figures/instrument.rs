//! Which instrument measures a size.

use super::given::Given;
use crate::model::shop::Instrument;
use crate::unit::{Length, Limits, Unit, show};

/// `micrometer 0–1`: the shop's instrument of this kind whose range holds the size, the narrowest first; where none
/// reaches, how far it must; without any the kind alone.
pub(super) fn named(given: &Given, kind: &str, size: Length) -> String {
    let list = listed(given);
    let best = best(list, kind, size);
    match best.and_then(|i| Some((i.range?, i.unit))) {
        Some(((from, to), unit)) => {
            let shown = |l| show::exact(l, unit, 0, 3);
            let word = if unit == given.unit { String::new() } else { format!(" {}", unit.word()) };
            format!("{kind} {}\u{2013}{}{word}", shown(from), shown(to))
        }
        // The shop lists instruments, but none that reaches: say how far it must.
        None if list.iter().any(|i| i.kind == kind) && best.is_none() => {
            format!("{kind} that reaches {}", show::exact(size, given.unit, 0, 3))
        }
        None => kind.to_owned(),
    }
}

/// The same for both limits of a size: where none holds both, the two that read one each, `micrometer 0–1 and 1–2`.
pub(super) fn over(given: &Given, kind: &str, limits: Limits) -> String {
    let list = listed(given);
    let large = named(given, kind, limits.max);
    let both = best(list, kind, limits.max).is_none_or(|i| i.range.is_none_or(|(from, _)| from <= limits.min));
    if both || best(list, kind, limits.min).is_none() {
        return large;
    }
    let small = named(given, kind, limits.min);
    format!("{small} and {}", large.strip_prefix(kind).unwrap_or(&large).trim_start())
}

/// The names in what [`over`] says: one, or the two.
pub(super) fn each(with: &str) -> Vec<String> {
    match with.split_once(" and ") {
        Some((one, other)) => {
            let kind = one.rsplit_once(' ').map_or("", |(kind, _)| kind);
            vec![one.to_owned(), format!("{kind} {other}")]
        }
        None => vec![with.to_owned()],
    }
}

fn listed<'a>(given: &Given<'a>) -> &'a [Instrument] {
    given.shop.map(|s| s.instruments.as_slice()).unwrap_or_default()
}

fn best<'a>(list: &'a [Instrument], kind: &str, size: Length) -> Option<&'a Instrument> {
    let holds = |i: &&Instrument| i.kind == kind && i.range.is_none_or(|(from, to)| from <= size && size <= to);
    list.iter().filter(holds).min_by_key(|i| i.range.map_or(Length::GREATEST, |(from, to)| to - from))
}

/// Unit of the instrument of this kind that reads the size; where none does, of one of the kind, else of any; none where none is listed.
pub(super) fn unit(given: &Given, kind: &str, size: Length) -> Option<Unit> {
    let list = listed(given);
    let of_kind = || list.iter().find(|i| i.kind == kind);
    best(list, kind, size).or_else(of_kind).or(list.first()).map(|i| i.unit)
}

/// Whether the shop lists one of this kind that holds the size; true without a shop file.
pub(super) fn at_hand(given: &Given, kind: &str, size: Length) -> bool {
    given.shop.is_none_or(|s| {
        s.instruments.is_empty()
            || s.instruments
                .iter()
                .any(|i| i.kind == kind && i.range.is_none_or(|(from, to)| from <= size && size <= to))
    })
}
