//! What may be written here: kinds, keys, the few words a key takes, designations of the standards, names of features.

use lsp_types::{
    CompletionItem, CompletionItemKind, CompletionTextEdit, Documentation, MarkupContent, MarkupKind, TextEdit,
};

use super::cursor::{Cursor, On, Word};
use super::diagnostics::range_in;
use super::document::Analysis;
use crate::handbook::thread::{self, Family};
use crate::handbook::{center, fit, material, taper, woodruff};
use crate::read::keys::{self, KINDS, Key, KindWord, Scope, Takes};
use crate::unit::Unit;

/// Most that are offered at once; a longer list is typed into, not read.
const MOST: usize = 1000;

/// What may be written at byte `at`. `names` are those of the features, as they last could be read.
pub(super) fn complete(analysis: &Analysis, at: usize, names: &[String]) -> Vec<CompletionItem> {
    let text = &analysis.source.text;
    let Some(cursor) = Cursor::at(analysis.which, text, &analysis.lines, at) else { return Vec::new() };
    let (range, offers) = match &cursor.on {
        On::Key { range, colon } => (range, of_keys(&cursor, *colon, &text[range.clone()])),
        On::Value { range, .. } => (range, of_values(analysis, &cursor, names)),
    };
    let range = range_in(text, &analysis.lines, range.clone());
    offers.into_iter().take(MOST).enumerate().map(|(i, offer)| offer.item(range, i)).collect()
}

/// One thing that may be written.
struct Offer {
    label: String,
    text: String,
    kind: CompletionItemKind,
    detail: String,
    about: String,
}

impl Offer {
    fn value(label: impl Into<String>, detail: impl Into<String>) -> Self {
        let label = label.into();
        Self {
            text: label.clone(),
            label,
            kind: CompletionItemKind::VALUE,
            detail: detail.into(),
            about: String::new(),
        }
    }

    fn item(self, range: lsp_types::Range, order: usize) -> CompletionItem {
        let about = MarkupContent { kind: MarkupKind::Markdown, value: self.about };
        CompletionItem {
            kind: Some(self.kind),
            detail: (!self.detail.is_empty()).then_some(self.detail),
            documentation: (!about.value.is_empty()).then_some(Documentation::MarkupContent(about)),
            sort_text: Some(format!("{order:04}")),
            filter_text: Some(self.label.clone()),
            text_edit: Some(CompletionTextEdit::Edit(TextEdit { range, new_text: self.text })),
            label: self.label,
            ..CompletionItem::default()
        }
    }
}

/// Keys that are not there yet; where a feature has no kind, the kinds.
fn of_keys(cursor: &Cursor, colon: bool, typed: &str) -> Vec<Offer> {
    let Some(scope) = cursor.scope else { return Vec::new() };
    let written = |word: &str| if colon { word.to_owned() } else { format!("{word}: ") };
    let kinds = keys::kinds_of(scope);
    if !kinds.is_empty() {
        return kinds.iter().map(|k| of_kind(k, written(k.word))).collect();
    }
    let there = |key: &Key| {
        cursor.keys.iter().any(|k| k != typed && keys::find(scope, k).is_some_and(|known| known.word == key.word))
    };
    let free = keys::of(scope).filter(|k| !there(k) && k.takes != Takes::NotYet);
    let mut offers: Vec<Offer> = free.map(|k| of_key(k, written(k.word))).collect();
    if cursor.kind.is_some_and(|k| keys::fold(typed) == k.word) {
        let listed = cursor.kind.is_some_and(|k| keys::INSIDE_KINDS.iter().any(|i| std::ptr::eq(i, k)));
        let kinds = if listed { keys::INSIDE_KINDS } else { KINDS };
        offers.extend(kinds.iter().map(|k| of_kind(k, written(k.word))));
    }
    offers
}

fn of_kind(kind: &KindWord, text: String) -> Offer {
    let detail = kind.wants.to_owned();
    Offer { label: kind.word.to_owned(), text, kind: CompletionItemKind::CLASS, detail, about: kind.about.to_owned() }
}

fn of_key(key: &Key, text: String) -> Offer {
    let about = key.about.to_owned();
    let detail = key.takes.called().to_owned();
    Offer { label: key.word.to_owned(), text, kind: CompletionItemKind::PROPERTY, detail, about }
}

/// Values of the key or kind.
fn of_values(analysis: &Analysis, cursor: &Cursor, names: &[String]) -> Vec<Offer> {
    let text = &analysis.source.text;
    match cursor.word(text) {
        Some(Word::Kind(kind)) => {
            let On::Value { range, .. } = &cursor.on else { return Vec::new() };
            match fits(kind, &text[range.clone()]) {
                Some(fits) => fits,
                None => of_kind_value(kind, unit(analysis)),
            }
        }
        Some(Word::Key(scope, key)) => of_key_value(scope, key, unit(analysis), names),
        None => Vec::new(),
    }
}

fn of_kind_value(kind: &KindWord, unit: Unit) -> Vec<Offer> {
    match (kind.word, kind.wants) {
        (_, "a thread") => {
            threads(unit, if kind.word == "thread" { ("2A", "6g", "2G", "7e") } else { ("2B", "6H", "2G", "7H") })
        }
        ("keyseat", _) => woodruff::all().map(|k| Offer::value(format!("Woodruff {}", k.number), "")).collect(),
        ("center hole", _) => {
            let none = Offer::value("none", "the drawing forbids it");
            center::designations().into_iter().map(|d| Offer::value(d, "")).chain([none]).collect()
        }
        ("taper", _) => taper::names().map(|(name, about)| Offer::value(name, about)).collect(),
        ("turn", _) => vec![Offer::value("stock", "keeps the bar's own surface")],
        _ => keys::kind_examples(kind).into_iter().map(|e| Offer::value(e, "for example")).collect(),
    }
}

fn of_key_value(scope: Scope, key: &Key, unit: Unit, names: &[String]) -> Vec<Offer> {
    let words = keys::words(scope, key);
    if !words.is_empty() {
        return words.into_iter().map(|w| Offer::value(w, "")).collect();
    }
    match (scope, key.word) {
        (Scope::Header, "material") => material::all().map(|m| Offer::value(m.name, m.family)).collect(),
        (Scope::Header, "tolerances") => {
            ["f", "m", "c", "v"].map(|c| Offer::value(format!("ISO 2768-{c}"), "general tolerances")).into()
        }
        (Scope::Accept, "check") => crate::check::ALL
            .iter()
            .map(|c| Offer::value(c.id, format!("{}, {}", c.severity.word(), c.group)))
            .collect(),
        (Scope::Accept, "where") => {
            let part = Offer::value("part", "the part as a whole");
            std::iter::once(part).chain(names.iter().map(|n| Offer::value(n.as_str(), "a feature"))).collect()
        }
        (Scope::Shop, "thread rings") => threads(unit, ("2A", "6g", "2G", "7e")),
        (Scope::Plan, "off") => soft_rules(),
        (Scope::Plan, "before" | "together") | (_, "through" | "meets") => {
            names.iter().map(|n| Offer::value(n.as_str(), "a feature")).collect()
        }
        (_, "true to") => {
            let within = if unit == Unit::Inch { "0.001 TIR" } else { "0.02 TIR" };
            names.iter().map(|n| Offer::value(format!("{n} within {within}"), "a feature")).collect()
        }
        (_, _) if key.takes == Takes::Place => {
            let faces = names.iter().flat_map(|n| ["start", "end"].map(|side| format!("{n} {side}")));
            faces.map(|f| Offer::value(f, "a face")).chain([Offer::value("end", "the far end")]).collect()
        }
        _ => keys::examples(key).into_iter().map(|e| Offer::value(e, "for example")).collect(),
    }
}

/// Threads of the standard series with the usual class; those of the description's unit first.
fn threads(unit: Unit, (unified, metric, acme, trapezoidal): (&str, &str, &str, &str)) -> Vec<Offer> {
    let mut offers = Vec::new();
    let (mut own, mut other) = (Vec::new(), Vec::new());
    for family in thread::ALL {
        let class = match family {
            Family::UnifiedInch { .. } => format!("-{unified}"),
            Family::IsoMetric => format!("-{metric}"),
            Family::Acme { .. } => format!("-{acme}"),
            Family::IsoTrapezoidal => format!("-{trapezoidal}"),
            _ => String::new(),
        };
        for d in thread::series(family) {
            let list = if d.unit() == unit { &mut own } else { &mut other };
            list.push(Offer::value(format!("{}{class}", d.show()), ""));
        }
    }
    offers.append(&mut own);
    offers.append(&mut other);
    offers
}

/// Unit of the description, as its line says even when nothing else can be read.
fn unit(analysis: &Analysis) -> Unit {
    if let Some(part) = analysis.part() {
        return part.units;
    }
    let line = analysis.source.text.lines().find_map(|l| l.strip_prefix("units:"));
    if line.is_some_and(|v| v.trim_start().starts_with('m')) { Unit::Millimetre } else { Unit::Inch }
}

/// Shaft classes behind a diameter that stands there already: `20 mm ` is offered `20 mm k6`.
fn fits(kind: &KindWord, value: &str) -> Option<Vec<Offer>> {
    const SEATS: [&str; 6] = ["h6", "j6", "k5", "k6", "m6", "n6"];
    if kind.wants != "a diameter" || !value.starts_with(|c: char| c.is_ascii_digit() || c == '.') {
        return None;
    }
    let value = value.trim_end();
    // A class that has been begun is written anew; a unit stays.
    let size = match value.rsplit_once(' ') {
        Some((size, last)) if last.starts_with(char::is_alphabetic) && !matches!(last, "mm" | "in" | "inch") => size,
        _ => value,
    };
    let mut offers: Vec<Offer> = fit::preferred()
        .map(|f| Offer::value(format!("{size} {}", f.shaft), format!("{}: {}", f.kind, f.purpose)))
        .collect();
    let seats = SEATS.iter().map(|code| Offer::value(format!("{size} {code}"), "a seat"));
    offers.extend(seats);
    let mut seen = std::collections::BTreeSet::new();
    offers.retain(|o| seen.insert(o.label.clone()));
    Some(offers)
}

/// Rules of the order that may be switched off.
fn soft_rules() -> Vec<Offer> {
    crate::plan::rules::RULES.iter().filter(|r| !r.hard).map(|r| Offer::value(r.id, r.text)).collect()
}
