//! What sits on a section in service.

use super::keys::Scope;
use super::reader::{Field, Reader, items};
use super::size::Role;
use crate::model::Carried;

/// Reads `carries:`, one thing or a list of them.
pub(super) fn read(r: &mut Reader<'_>, field: Option<Field<'_>>) -> Vec<Carried> {
    items(field).into_iter().filter_map(|item| one(r, item)).collect()
}

fn one(r: &mut Reader<'_>, item: Field<'_>) -> Option<Carried> {
    let fields = r.fields("carries", item.value, Scope::Carries)?;
    if !fields.has("part") {
        r.missing(fields.place, "part", "carries", "part: bearing");
    }
    Some(Carried {
        bore: r.size(fields.get("bore"), Role::Bore),
        outside: r.size(fields.get("outside"), Role::Bare),
        wide: r.size(fields.get("wide"), Role::Bare),
        corner: r.size(fields.get("corner"), Role::Bare),
        land: r.size(fields.get("land"), Role::Bare),
        enters: r.end(fields.get("enters")),
        part: r.text(fields.get("part"))?,
        place: fields.place,
    })
}
