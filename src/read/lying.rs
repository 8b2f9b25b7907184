//! What lies on sections and ends: groove, chamfer, fillet, cross hole, center hole.

use super::features::Item;
use super::forms::Wants;
use super::reader::Reader;
use super::size::Role;
use super::tree::Written;
use crate::handbook::center;
use crate::model::End;
use crate::model::feature::{CenterSize, EdgeAt, Ends, Kind};
use crate::model::slip::BadSize;

/// `groove: 0.940 ±0.003` with `from` and `wide`.
pub(super) fn groove(r: &mut Reader<'_>, item: &Item<'_>) -> Option<Kind> {
    let diameter = r.size(Some(item.main), Role::Diameter);
    let from = r.place(item.fields.get("from"));
    let wide = r.size(item.fields.get("wide"), Role::Width);
    let ring = r.size(item.fields.get("ring"), Role::Bare);
    for (key, example) in [("from", "from: 0.254"), ("wide", "wide: 0.046 +0.003/-0")] {
        if !item.fields.has(key) {
            r.missing(item.main.key_place, key, "a groove", example);
        }
    }
    Some(Kind::Groove { diameter: diameter?, from: from?, wide: wide?, ring, fits: None })
}

/// `chamfer: 0.045 x 45°` with `end` or `at`.
pub(super) fn chamfer(r: &mut Reader<'_>, item: &Item<'_>, id: usize, both: &mut Vec<usize>) -> Option<Kind> {
    let leg = r.value(&item.main, Wants::Chamfer).and_then(|w| {
        if super::countersink::is_by_diameter(w.text) {
            let why = "an outside chamfer is given by its leg along the axis, and not by a diameter";
            r.bad(w, w.place, BadSize::Designation(why.to_owned()), Wants::Chamfer);
            return None;
        }
        leg_and_angle(r, w)
    });
    let at = if let Some(field) = item.fields.get("end") {
        match r.ends(Some(field))? {
            Ends::One(end) => EdgeAt::End(end),
            Ends::Both => {
                both.push(id);
                EdgeAt::End(End::Datum)
            }
        }
    } else if let Some(field) = item.fields.get("at") {
        EdgeAt::Face(r.place(Some(field))?)
    } else {
        r.missing(item.main.key_place, "end", "a chamfer", "end: datum");
        return None;
    };
    let (leg, angle_mdeg) = leg?;
    Some(Kind::Chamfer { leg, angle_mdeg, at })
}

/// `0.045 x 45°`; the angle may stand first when it carries its sign.
pub(super) fn leg_and_angle(r: &mut Reader<'_>, written: Written<'_>) -> Option<(crate::model::Size, i64)> {
    let parts = written.split_by(|c| matches!(c, 'x' | '×' | 'X'));
    let [one, other] = parts[..] else {
        r.bad(written, written.place, BadSize::Form, Wants::Chamfer);
        return None;
    };
    let is_angle = |w: Written<'_>| w.text.ends_with(['°', 'º']) || w.text.to_ascii_lowercase().contains("deg");
    let (leg, angle) = if is_angle(one) && !is_angle(other) { (other, one) } else { (one, other) };
    let leg = r.size_of(leg, Role::Edge, Wants::Chamfer);
    let angle_mdeg = r.angle_of(angle, Wants::Chamfer)?;
    if !(1..90_000).contains(&angle_mdeg) {
        r.bad(angle, angle.place, BadSize::Form, Wants::Chamfer);
        return None;
    }
    Some((leg?, angle_mdeg))
}

/// `fillet: 0.020` with `at`.
pub(super) fn fillet(r: &mut Reader<'_>, item: &Item<'_>) -> Option<Kind> {
    let radius = r.size(Some(item.main), Role::Corner);
    if !item.fields.has("at") {
        r.missing(item.main.key_place, "at", "a fillet", "at: 3.750");
    }
    Some(Kind::Fillet { at: r.place(item.fields.get("at"))?, radius: radius? })
}

/// `cross hole: 0.125` with `at`.
pub(super) fn cross_hole(r: &mut Reader<'_>, item: &Item<'_>) -> Option<Kind> {
    let diameter = r.size(Some(item.main), Role::Inner);
    let meets = r.feature(item.fields.get("meets"));
    let deep = r.size(item.fields.get("deep"), Role::Length);
    if !item.fields.has("at") {
        r.missing(item.main.key_place, "at", "a cross hole", "at: 2.125");
    }
    Some(Kind::CrossHole { at: r.place(item.fields.get("at"))?, diameter: diameter?, meets, deep, tapped: None })
}

/// `center hole: A 1/8`, `center hole: none`, with `end`.
pub(super) fn center_hole(r: &mut Reader<'_>, item: &Item<'_>) -> Option<Kind> {
    let ends = r.ends(item.fields.get("end"));
    if !item.fields.has("end") {
        r.missing(item.main.key_place, "end", "a center hole", "end: both");
    }
    let written = r.value(&item.main, Wants::CenterHole)?;
    if matches!(written.text.to_ascii_lowercase().as_str(), "none" | "no") {
        return Some(Kind::CenterHole { size: None, ends: ends? });
    }
    match center::find(written.text) {
        Ok(found) => {
            let size = CenterSize {
                text: written.text.to_owned(),
                form: found.form.letter().to_owned(),
                drill: found.drill_diameter,
                mouth: found.mouth_diameter,
                depth: found.depth,
                tapped: super::inside::center_thread(&found, written).map(Box::new),
            };
            Some(Kind::CenterHole { size: Some(size), ends: ends? })
        }
        Err(none) => {
            let why = match none.nearest.first() {
                Some(nearest) => BadSize::Designation(format!("the nearest is {nearest}")),
                None => BadSize::Form,
            };
            r.bad(written, written.place, why, Wants::CenterHole);
            None
        }
    }
}
