//! `tolerances:` what a size without limits means.

use super::forms::Wants;
use super::keys::{self, Scope};
use super::reader::{Field, Reader};
use super::tree::{Body, Written};
use crate::model::part::GeneralTolerances;
use crate::model::slip::BadSize;

/// Reads `tolerances:`, a mapping or `ISO 2768-m`.
pub(super) fn read(r: &mut Reader<'_>, field: Option<Field<'_>>) -> GeneralTolerances {
    let mut general = GeneralTolerances::default();
    let Some(field) = field else { return general };
    general.place = Some(field.value.place);
    let Body::Keys(entries) = &field.value.body else {
        if let Some(written) = r.value(&field, Wants::General) {
            general.iso_2768 = class(written);
            if general.iso_2768.is_none() {
                r.bad(written, written.place, BadSize::Form, Wants::General);
            }
        }
        return general;
    };
    for entry in entries.iter().filter(|e| e.usable && places(&e.key).is_some()) {
        let Some(n) = places(&entry.key) else { continue };
        let one = Field { word: "by places", key_place: entry.key_place, value: &entry.value };
        if let Some((upper, lower)) = r.limits_alone(Some(one)) {
            if upper == -lower {
                general.by_places.insert(n, upper);
            } else if let Some(written) = entry.value.written() {
                r.bad(written, written.place, BadSize::Form, Wants::Limits);
            }
        }
    }
    let rest = entries.iter().filter(|e| places(&e.key).is_none());
    let fields = r.fields_of(rest, Scope::Tolerances, field.value.place);
    if let Some(by_places) = fields.get("by places") {
        let inner = read(r, Some(by_places));
        general.by_places.extend(inner.by_places);
    }
    general.lengths = r.limits_alone(fields.get("lengths"));
    general.diameters = r.limits_alone(fields.get("diameters"));
    general
}

/// `2 places`, `3 decimals`: the number of decimals.
fn places(key: &str) -> Option<u8> {
    let folded = keys::fold(key);
    let (n, word) = folded.split_once(' ')?;
    let words = ["no", "one", "two", "three", "four", "five", "six"];
    let said = words.iter().position(|w| *w == n).and_then(|i| u8::try_from(i).ok());
    let n: u8 = said.or_else(|| n.parse().ok().filter(|n| *n <= 9))?;
    matches!(word, "place" | "places" | "decimal" | "decimals").then_some(n)
}

/// The class letter of `ISO 2768-m`, `ISO 2768-mK`, `DIN ISO 2768 m`.
fn class(written: Written<'_>) -> Option<char> {
    let lower = written.text.to_ascii_lowercase();
    let (_, rest) = lower.split_once("2768")?;
    let rest = rest.trim_start_matches("-1").trim_start_matches(|c: char| !c.is_ascii_alphabetic());
    rest.chars().next().filter(|c| matches!(c, 'f' | 'm' | 'c' | 'v'))
}
