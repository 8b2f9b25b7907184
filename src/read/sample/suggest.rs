//! What a reading of a worn sample was made as: plain sizes by the nearest round number, seats, threads and keys as `identify` finds
//! them.

use crate::handbook::identify::{KeyReadings, Pitched, Ranked, SeatUse, ThreadReadings, keys, seats, threads};
use crate::handbook::thread::Hand;
use crate::handbook::{fit, thread};
use crate::unit::{Length, ToleranceText, Unit, read_number, read_size, show};

/// What a size may have been made as.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Suggested {
    /// As a description says it.
    pub(super) text: String,
    /// Its nominal.
    pub(super) nominal: Option<Length>,
    /// How far a plain size is from its reading; none for classes, threads and keys.
    pub(super) reads: Option<Length>,
    /// Why.
    pub(super) why: String,
}

/// Which way a surface wears.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Wears {
    /// It does not, or was read beside the wear.
    Not,
    /// Smaller.
    Small,
    /// Larger.
    Large,
}

/// Standard deviation of a caliper's reading, mm (common practice, no source).
const SIGMA: f64 = 0.03;
/// Mean wear of a surface that was read where it is worn, mm (common practice, no source).
const WEAR: f64 = 0.05;

/// A reading in the form's unit, or one that carries its own.
pub(super) fn reading(text: &str, unit: Unit) -> Option<Length> {
    let negative = text.trim().strip_prefix(['-', '\u{2212}']);
    let value = read_number(negative.unwrap_or(text).trim(), unit).ok()?.value;
    Some(if negative.is_some() { -value } else { value })
}

/// The nearest round size: coarse grids count more than fine ones, grids of the other unit a fifth as much (common practice, no source).
pub(super) fn plain(read: Length, wears: Wears, unit: Unit) -> Suggested {
    let inch = |n: i64, d: i64| Length::PER_INCH.times_ratio(n, d);
    let mm = |n: i64, d: i64| Length::PER_MM.times_ratio(n, d);
    let inches = [(1, 4), (1, 8), (1, 16), (1, 32), (1, 64), (1, 10), (1, 20), (1, 100), (1, 200), (1, 1000)];
    let millimetres = [(10, 1), (5, 1), (1, 1), (1, 2), (1, 10), (1, 20), (1, 50)];
    let mut grids: Vec<(Length, Unit, f64)> = Vec::new();
    let (own, other) = (unit == Unit::Inch, 5.0_f64.ln());
    grids.extend(
        inches
            .iter()
            .take(if own { 10 } else { 3 })
            .map(|(n, d)| (inch(*n, *d), Unit::Inch, if own { 0.0 } else { other })),
    );
    grids.extend(
        millimetres
            .iter()
            .take(if own { 4 } else { 7 })
            .map(|(n, d)| (mm(*n, *d), Unit::Millimetre, if own { other } else { 0.0 })),
    );
    let size = read.abs();
    let off = |at: Length| {
        let d = (at - size).mm();
        match wears {
            Wears::Small if d > 0.0 => d / WEAR,
            Wears::Large if d < 0.0 => -d / WEAR,
            _ => d * d / (2.0 * SIGMA * SIGMA),
        }
    };
    let mut best: Option<(f64, Length, Unit)> = None;
    for (grid, of, more) in grids {
        for at in [size.floor_to(grid), size.ceil_to(grid)] {
            let cost = off(at) - grid.mm().ln() + more;
            if at.is_positive() && best.is_none_or(|b| cost < b.0) {
                best = Some((cost, at, of));
            }
        }
    }
    let (_, at, of) = best.unwrap_or((0.0, size, unit));
    let sign = if read < Length::ZERO { "-" } else { "" };
    let nominal = if sign.is_empty() { at } else { -at };
    Suggested {
        text: format!("{sign}{}", written(at, of, unit)),
        nominal: Some(nominal),
        reads: Some((at - size).abs()),
        why: both(at, unit),
    }
}

/// A size as a description writes it: decimals, a fraction where they are too many, its own unit where it is not the file's.
fn written(at: Length, of: Unit, unit: Unit) -> String {
    let least = show::usual_decimals(of).min(if of == Unit::Inch { 3 } else { 0 });
    let most = if of == Unit::Inch { 4 } else { 3 };
    let decimals = show::decimals_needed(at, of, least, most);
    let exact = show::step(of, decimals);
    let text = if at.round_to(exact) == at { show::plain(at, of, decimals) } else { thread::inch_size(at) };
    if of == unit { text } else { format!("{text} {}", of.word()) }
}

fn both(at: Length, unit: Unit) -> String {
    let (inch, mm) = (show::plain(at, Unit::Inch, 4), show::plain(at, Unit::Millimetre, 3));
    if unit == Unit::Inch { format!("{mm} mm") } else { format!("{inch} in") }
}

/// A seat of something in service: nominal and class as `identify` finds them.
pub(super) fn seat(read: Length, of: SeatUse, unit: Unit) -> Option<Suggested> {
    let found = seats(read, of, Length::micrometres(10), None).into_iter().next()?;
    let text = if found.unit == Unit::Millimetre {
        let nominal =
            show::plain(found.nominal, Unit::Millimetre, show::decimals_needed(found.nominal, Unit::Millimetre, 0, 3));
        let own = if unit == Unit::Millimetre { "" } else { " mm" };
        format!("{nominal}{own} {}", found.class)
    } else {
        let places = if unit == Unit::Inch { 4 } else { 3 };
        let step = show::step(unit, places);
        let (least, most) = (found.limits.min.ceil_to(step), found.limits.max.floor_to(step));
        format!("{}..{}", show::plain(least, unit, places), show::plain(most.max(least), unit, places))
    };
    let why = format!("{}, {}; the mate decides", found.name, found.class);
    Some(Suggested { text, nominal: Some(found.nominal), reads: None, why })
}

/// Readings of a pitch: `0.278 over 5`, `18 tpi`, `1.5 mm`.
pub(super) fn pitch(text: &str, unit: Unit) -> Option<Pitched> {
    let text = text.trim();
    if let Some((long, over)) = text.split_once(" over ") {
        let over: u32 = over.trim().parse().ok().filter(|n| (1..=10_000).contains(n))?;
        return Some(Pitched::Span(reading(long, unit)?, over));
    }
    let lower = text.to_ascii_lowercase();
    if let Some(tpi) = lower.strip_suffix("tpi") {
        let tpi: f64 = tpi.trim().parse().ok().filter(|t: &f64| (0.25..=200.0).contains(t))?;
        return Some(Pitched::Leaf(thread::Pitch::inch(1_000, (tpi * 1_000.0).round() as u32)?.nearest()));
    }
    reading(text, unit).filter(|l| l.is_positive()).map(Pitched::Leaf)
}

/// A thread by its crests (a nut by its bore) and its pitch.
pub(super) fn thread(
    (crests, worn): (Length, bool),
    (pitch, starts): (Pitched, Option<u8>),
    nut: bool,
    left: bool,
) -> Option<Suggested> {
    let read = ThreadReadings {
        major: (!nut).then_some(crests),
        minor: nut.then_some(crests),
        pitch: vec![pitch],
        starts,
        hand: if left { Hand::Left } else { Hand::Right },
        wear: (!worn).then(|| Length::micrometres(20)),
        ..ThreadReadings::default()
    };
    let found = threads(&read);
    let first: &Ranked = found.ranked.first()?;
    let share = (first.score * 100.0).round();
    let second = found.ranked.get(1).map_or_else(String::new, |r| format!(", next {}", r.candidate.name));
    let why = found.doubt.unwrap_or_else(|| format!("{share} % of the belief{second}; try its mate"));
    Some(Suggested { text: first.candidate.as_made(nut), nominal: Some(first.candidate.major.max), reads: None, why })
}

/// A keyseat by its width, its slot and the shaft under it.
pub(super) fn keyseat(
    width: Length,
    slot: Option<Length>,
    shaft: Option<Length>,
    woodruff: bool,
    unit: Unit,
) -> Option<Suggested> {
    let read = KeyReadings {
        width: Some(width),
        slot: slot.filter(|_| woodruff && shaft.is_some()),
        shaft,
        error: Length::micrometres(20),
        ..KeyReadings::default()
    };
    let found = keys(&read).into_iter().find(|k| k.name.starts_with("Woodruff") == woodruff)?;
    let why = found.name.clone();
    if woodruff {
        return Some(Suggested { text: found.name, nominal: None, reads: None, why });
    }
    let long = plain(slot?, Wears::Not, unit).nominal?;
    let size = |l: Length| {
        let of = if unit == Unit::Inch { (4, 4) } else { (0, 3) };
        show::plain(l, unit, show::decimals_needed(l, unit, of.0, of.1))
    };
    let text = format!("{} x {} x {}", size(found.width), size(found.height), size(long));
    Some(Suggested { text, nominal: None, reads: None, why })
}

/// Whether a size is written with its limits.
pub(super) fn has_limits(sketch: &str, unit: Unit) -> bool {
    read_size(sketch, unit).is_ok_and(|s| s.tolerance != ToleranceText::None)
}

/// Whether the sketch states limits and the reading lies in them, or it states none and the reading is it: within a caliper's error.
pub(super) fn confirms(sketch: &str, read: Length, unit: Unit) -> bool {
    let Ok(size) = read_size(sketch, unit) else { return false };
    let nominal = size.nominal.value;
    let slack = Length::micrometres(12);
    let limits = size.limits().or_else(|| match &size.tolerance {
        ToleranceText::Fit(code) => {
            fit::shaft(code, nominal).or_else(|_| fit::hole(code, nominal)).ok().map(|d| d.limits(nominal))
        }
        _ => None,
    });
    limits.map_or((read - nominal).abs() <= slack, |l| read >= l.min - slack && read <= l.max + slack)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 25 mm read in inches is .9843; a plain .770 stays one; worn shafts read small (arithmetic).
    #[test]
    fn plain_sizes() {
        let of = |tenths: i64, wears| plain(Length::inch_tenths(tenths), wears, Unit::Inch).text;
        assert_eq!(of(9_840, Wears::Not), "25 mm");
        assert_eq!(of(7_700, Wears::Not), "0.770");
        assert_eq!(of(10_600, Wears::Not), "1.060");
        assert_eq!(of(8_742, Wears::Not), "0.875");
        assert_eq!(of(12_470, Wears::Small), "1.250");
        assert_eq!(of(36_505, Wears::Not), "3.650");
        assert_eq!(plain(Length::micrometres(31_730), Wears::Not, Unit::Millimetre).text, "1.250 in");
    }

    #[test]
    fn pitches_as_people_write_them() {
        let near = |p: Option<Pitched>, mm: f64| assert!((p.expect("a pitch").mm() - mm).abs() < 1e-3, "{p:?}");
        near(pitch("0.278 over 5", Unit::Inch), 1.412);
        near(pitch("18 tpi", Unit::Inch), 1.4111);
        near(pitch("1.5", Unit::Millimetre), 1.5);
        near(pitch("1.5 mm", Unit::Inch), 1.5);
        assert!(pitch("0.2 over 0", Unit::Inch).is_none() && pitch("fine", Unit::Inch).is_none());
    }
}
