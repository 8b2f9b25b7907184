//! `measured:` and `done:`: how far the work has come.

use super::forms::Wants;
use super::keys::Scope;
use super::reader::{Field, Fields, Reader, items};
use super::size::Role;
use crate::model::measured::{Done, Measured, MeasuredWhat, Reads};
use crate::model::{End, Feature, Size};

/// `measured: [{overall: 7.003}, {feature: pulley seat, diameter: 0.8743}, {face: 3.250, at: 3.2515, from: datum, after: 70}]`.
pub(super) fn sizes(r: &mut Reader<'_>, field: Option<Field<'_>>, features: &[Feature]) -> Vec<Measured> {
    items(field).into_iter().filter_map(|item| entry(r, item, features)).collect()
}

fn entry(r: &mut Reader<'_>, item: Field<'_>, features: &[Feature]) -> Option<Measured> {
    let fields = r.fields("measured", item.value, Scope::Measured)?;
    let what = if fields.has("overall") {
        MeasuredWhat::Overall(reading(r, &fields, "overall")?)
    } else if fields.has("face") || fields.has("at") {
        face(r, &fields)?
    } else {
        of_feature(r, &fields, features)?
    };
    let uncertainty = reading(r, &fields, "uncertainty");
    let after = fields.get("after").and_then(|field| {
        let written = r.value(&field, Wants::Number)?;
        r.count_of(written)
    });
    Some(Measured { what, after, uncertainty, place: fields.place })
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

fn of_feature(r: &mut Reader<'_>, fields: &Fields<'_>, features: &[Feature]) -> Option<MeasuredWhat> {
    let other = Reads::KEYS.into_iter().find(|(_, key)| fields.has(key));
    for (key, example) in [("feature", "feature: pulley seat"), ("diameter", "diameter: 0.8743")] {
        if !fields.has(key) && (key == "feature" || other.is_none()) {
            r.missing(fields.place, key, "an entry of measured", example);
        }
    }
    let size = reading(r, fields, other.map_or("diameter", |(_, key)| key));
    let field = fields.get("feature")?;
    let written = r.value(&field, Wants::Name)?;
    // A name, or the letter the sheet gave it.
    let lettered = || features.iter().find(|f| !f.letter.is_empty() && f.letter == written.text).map(|f| f.id);
    let feature = match r.feature_called(written.text).or_else(lettered) {
        Some(id) => id,
        None => r.feature_of(written)?,
    };
    let size = size?;
    Some(other.map_or(MeasuredWhat::Diameter { feature, size: size.clone() }, |(of, _)| MeasuredWhat::Other {
        feature,
        of,
        size,
    }))
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
