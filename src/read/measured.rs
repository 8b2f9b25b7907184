//! `measured:` and `done:`: how far the work has come.

use super::forms::Wants;
use super::keys::Scope;
use super::reader::{Field, Fields, Reader, items};
use super::size::Role;
use super::warm::{Temperatures, temperatures, to_twenty};
use crate::model::measured::{Done, Measured, MeasuredWhat, Reads};
use crate::model::{End, Feature, Size, Text};

/// `measured: [{overall: 7.003}, {feature: pulley seat, diameter: 0.8743}, {face: 3.250, at: 3.2515, from: datum, after: 70}]`.
pub(super) fn sizes(
    r: &mut Reader<'_>,
    field: Option<Field<'_>>,
    features: &[Feature],
    material: Option<&Text>,
) -> Vec<Measured> {
    let mut standing = None;
    let mut out = Vec::new();
    for item in items(field) {
        let Some(fields) = r.fields("measured", item.value, Scope::Measured) else { continue };
        let own = temperatures(r, &fields);
        // Temperatures alone hold for the readings behind them.
        let sized = ["overall", "face", "at", "feature", "diameter", "mate"].iter().any(|k| fields.has(k))
            || Reads::KEYS.iter().any(|(_, k)| fields.has(k));
        if !sized && fields.has("part temperature") {
            standing = own;
            continue;
        }
        out.extend(entry(r, &fields, features, own.or(standing), material));
    }
    out
}

fn entry(
    r: &mut Reader<'_>,
    fields: &Fields<'_>,
    features: &[Feature],
    at: Option<Temperatures>,
    material: Option<&Text>,
) -> Vec<Measured> {
    let what: Vec<MeasuredWhat> = if fields.has("overall") {
        reading(r, fields, "overall").map(MeasuredWhat::Overall).into_iter().collect()
    } else if fields.has("face") || fields.has("at") {
        face(r, fields).into_iter().collect()
    } else {
        of_feature(r, fields, features)
    };
    let uncertainty = reading(r, fields, "uncertainty");
    let wire = reading(r, fields, "wire");
    let after = fields.get("after").and_then(|field| {
        let written = r.value(&field, Wants::Number)?;
        r.count_of(written)
    });
    let one = |what| {
        let mut measured = Measured {
            what,
            after,
            uncertainty: uncertainty.clone(),
            wire: wire.clone(),
            warm: None,
            place: fields.place,
        };
        if let Some(at) = at {
            to_twenty(r, &mut measured, at, features, material);
        }
        measured
    };
    what.into_iter().map(one).collect()
}

/// A measured size has no limits: what the file's general tolerances say is not meant for it.
fn reading(r: &mut Reader<'_>, fields: &Fields<'_>, key: &str) -> Option<Size> {
    r.size(fields.get(key), Role::Bare)
}

fn face(r: &mut Reader<'_>, fields: &Fields<'_>) -> Option<MeasuredWhat> {
    for (key, example) in [("face", "face: 3.250"), ("at", "at: 3.2515")] {
        if !fields.has(key) {
            r.missing(fields.place, key, "an entry of measured", example);
        }
    }
    let face = r.place(fields.get("face"));
    let at = reading(r, fields, "at");
    let from = r.end(fields.get("from")).unwrap_or(End::Datum);
    Some(MeasuredWhat::Face { face: face?, at: at?, from })
}

/// Every size that is stated of a feature: its diameter, its mate's bore and its width may stand in one entry.
fn of_feature(r: &mut Reader<'_>, fields: &Fields<'_>, features: &[Feature]) -> Vec<MeasuredWhat> {
    let others: Vec<(Reads, &str)> = Reads::KEYS.into_iter().filter(|(_, key)| fields.has(key)).collect();
    let mate = fields.has("mate");
    for (key, example) in [("feature", "feature: pulley seat"), ("diameter", "diameter: 0.8743")] {
        if !fields.has(key) && (key == "feature" || others.is_empty() && !mate) {
            r.missing(fields.place, key, "an entry of measured", example);
        }
    }
    let Some(feature) = named(r, fields, features) else { return Vec::new() };
    let mut out = Vec::new();
    if let Some(size) = fields.has("diameter").then(|| reading(r, fields, "diameter")).flatten() {
        out.push(MeasuredWhat::Diameter { feature, size });
    }
    for (of, key) in others {
        out.extend(reading(r, fields, key).map(|size| MeasuredWhat::Other { feature, of, size }));
    }
    if let Some(size) = mate.then(|| reading(r, fields, "mate")).flatten() {
        out.extend(carried(r, fields, features, feature, size));
    }
    out
}

/// The feature by its name, or the letter the sheet gave it.
fn named(r: &mut Reader<'_>, fields: &Fields<'_>, features: &[Feature]) -> Option<usize> {
    let field = fields.get("feature")?;
    let written = r.value(&field, Wants::Name)?;
    let lettered = || features.iter().find(|f| !f.letter.is_empty() && f.letter == written.text).map(|f| f.id);
    match r.feature_called(written.text).or_else(lettered) {
        Some(id) => Some(id),
        None => r.feature_of(written),
    }
}

/// `{feature: bearing seat, mate: 0.7873}`: the bore of what sits there; `which` names it where several do.
fn carried(
    r: &mut Reader<'_>,
    fields: &Fields<'_>,
    features: &[Feature],
    feature: usize,
    size: Size,
) -> Option<MeasuredWhat> {
    let carries = &features.get(feature)?.carries;
    let bored: Vec<usize> =
        (0..carries.len()).filter(|i| carries[*i].bore.is_some() || carries[*i].outside.is_some()).collect();
    let names: Vec<String> = bored.iter().map(|i| carries[*i].part.text.clone()).collect();
    let carried = match fields.get("which") {
        Some(field) => {
            let written = r.value(&field, Wants::Words)?;
            let found = bored.iter().find(|i| carries[**i].part.text.eq_ignore_ascii_case(written.text)).copied();
            if found.is_none() {
                r.unknown_value(written, "carries", None, names);
            }
            found?
        }
        None if bored.len() == 1 => bored[0],
        None => {
            let example =
                names.first().map_or("carries: {part: pulley, bore: 0.875}".to_owned(), |n| format!("which: {n}"));
            r.missing(fields.place, if names.is_empty() { "carries" } else { "which" }, "a measured mate", &example);
            return None;
        }
    };
    Some(MeasuredWhat::Mate { feature, carried, size })
}

/// `done: [10, 20, 30]`.
pub(super) fn done(r: &mut Reader<'_>, field: Option<Field<'_>>) -> Vec<Done> {
    let mut list: Vec<Done> = Vec::new();
    for item in items(field) {
        let Some(written) = r.value(&item, Wants::Number) else { continue };
        if let Some(number) = r.count_of(written)
            && !list.iter().any(|d| d.number == number)
        {
            list.push(Done { number, place: written.place });
        }
    }
    list
}
