//! Keyseats: Woodruff by number, parallel by width x height x length.

use super::features::Item;
use super::forms::Wants;
use super::reader::Reader;
use super::size::Role;
use super::tree::Written;
use crate::handbook::woodruff;
use crate::model::End;
use crate::model::feature::Kind;
use crate::model::slip::BadSize;

/// `keyseat: Woodruff 606` with `at`; `keyseat: 6 x 6 x 25` with `from`.
pub(super) fn read(r: &mut Reader<'_>, item: &Item<'_>) -> Option<Kind> {
    let written = r.value(&item.main, Wants::Keyseat)?;
    let lower = written.text.to_ascii_lowercase();
    let number = ["woodruff", "no.", "no ", "half-moon", "disc key"].iter().any(|s| lower.starts_with(s));
    if number { by_number(r, item, written) } else { parallel(r, item, written) }
}

fn by_number(r: &mut Reader<'_>, item: &Item<'_>, written: Written<'_>) -> Option<Kind> {
    for key in ["open", "from"] {
        if let Some(field) = item.fields.get(key) {
            r.slip(field.key_place, does_not_belong(key, "a Woodruff keyseat", "a keyseat for a parallel key"));
        }
    }
    let at = r.place(item.fields.get("at"));
    if !item.fields.has("at") {
        r.missing(item.main.key_place, "at", "a Woodruff keyseat", "at: 2.125");
    }
    let from = written.text.find(|c: char| c.is_ascii_digit()).unwrap_or(written.text.len());
    let number = written.cut(from..written.text.len());
    let Some(key) = woodruff::find(number.text) else {
        let nearest = woodruff::nearest(number.text);
        let nearest: Vec<&str> = nearest.into_iter().take(3).collect();
        let why = if nearest.is_empty() {
            BadSize::Form
        } else {
            BadSize::Designation(format!("no Woodruff key has this number; near it are {}", nearest.join(", ")))
        };
        r.bad(written, number.place, why, Wants::Keyseat);
        return None;
    };
    Some(Kind::Woodruff { number: key.number.to_owned(), at: at? })
}

fn parallel(r: &mut Reader<'_>, item: &Item<'_>, written: Written<'_>) -> Option<Kind> {
    let parts = written.split_by(|c| matches!(c, 'x' | '×' | 'X'));
    let [width, height, length] = parts[..] else {
        r.bad(written, written.place, BadSize::Form, Wants::Keyseat);
        return None;
    };
    let width = r.size_of(width, Role::Bare, Wants::Keyseat);
    let height = r.size_of(height, Role::Bare, Wants::Keyseat);
    let length = r.size_of(length, Role::Length, Wants::Keyseat);
    let open = r.end(item.fields.get("open"));
    let through = r.feature(item.fields.get("through"));
    let from = match (item.fields.get("from"), open) {
        (None, Some(End::Datum)) => r.place_of(Written { text: "datum", exact: false, ..written }),
        (field, _) => r.place(field),
    };
    if let Some(field) = item.fields.get("at") {
        r.slip(field.key_place, does_not_belong("at", "a keyseat for a parallel key", "a Woodruff keyseat"));
    }
    if !item.fields.has("from") && from.is_none() {
        r.missing(item.main.key_place, "from", "a keyseat", "from: 1.250");
    }
    Some(Kind::ParallelKeyseat { width: width?, height: height?, length: length?, from: from?, open, through })
}

/// A key of the other kind of keyseat.
fn does_not_belong(key: &str, within: &str, belongs: &str) -> crate::model::Fault {
    crate::model::Fault::UnknownWord {
        word: key.to_owned(),
        of: crate::model::slip::WordOf::Key,
        within: within.to_owned(),
        nearest: None,
        belongs: vec![belongs.to_owned()],
        known: Vec::new(),
    }
}
