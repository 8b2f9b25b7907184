//! `plan:` what the person wants otherwise.

use super::forms::Wants;
use super::keys::Scope;
use super::reader::{Field, Reader, items};
use super::size::Role;
use super::tree::{Body, Written};
use crate::model::part::{Holding, Wishes};
use crate::model::slip::Fault;
use crate::model::{End, Text, Workholder};

/// Reads `plan:`.
pub(super) fn read(r: &mut Reader<'_>, field: Option<Field<'_>>) -> Wishes {
    let mut wishes = Wishes::default();
    let Some(fields) = field.and_then(|f| r.fields("plan", f.value, Scope::Plan)) else { return wishes };
    wishes.place = Some(fields.place);
    wishes.first_end = r.end(fields.get("first end"));
    if let Some(field) = fields.get("holding") {
        holding(r, field, &mut wishes);
    }
    wishes.before = pairs(r, fields.get("before"));
    wishes.together = pairs(r, fields.get("together"));
    wishes.part_off = r.yes_no(fields.get("part off")).unwrap_or(false);
    wishes.off = items(fields.get("off")).into_iter().filter_map(|f| r.text(Some(f))).collect();
    wishes.finish_allowance = r.size(fields.get("finish allowance"), Role::Bare);
    wishes.face_allowance = r.size(fields.get("face allowance"), Role::Bare);
    wishes.polish_allowance = r.size(fields.get("polish allowance"), Role::Bare);
    wishes
}

/// `holding: between centers`, or `{datum: chuck, far: chuck and center}`.
fn holding(r: &mut Reader<'_>, field: Field<'_>, wishes: &mut Wishes) {
    if !matches!(field.value.body, Body::Keys(_)) {
        match r.value(&field, Wants::Words).and_then(|w| holding_word(r, w)) {
            Some(Held::In(holding)) => wishes.holding = Some(holding),
            Some(Held::By(by)) => wishes.by = Some(by),
            None => {}
        }
        return;
    }
    let Some(by_end) = r.fields("holding", field.value, Scope::ByEnd) else { return };
    for (word, end) in [("datum", End::Datum), ("far", End::Far)] {
        let written = by_end.get(word).and_then(|f| r.value(&f, Wants::Words));
        match written.and_then(|w| holding_word(r, w)) {
            Some(Held::In(holding)) => {
                wishes.holding_by_end.insert(end, holding);
            }
            Some(Held::By(by)) => {
                wishes.by_end.insert(end, by);
            }
            None => {}
        }
    }
}

/// Holdings that can be wished for.
pub(super) const HOLDINGS: &[&str] = &[
    "chuck",
    "chuck and center",
    "between centers",
    "chuck and steady rest",
    "4-jaw chuck",
    "collet",
    "soft jaws",
    "mandrel",
];

/// What a wish names: a kind of holding, or what grips the work in whichever holding there is.
enum Held {
    In(Holding),
    By(Workholder),
}

fn holding_word(r: &mut Reader<'_>, written: Written<'_>) -> Option<Held> {
    let known = [HOLDINGS, &["four-jaw chuck", "faceplate", "arbor"]].concat();
    Some(match r.word(written, &known, "holding")? {
        "chuck" => Held::In(Holding::Chuck),
        "chuck and center" => Held::In(Holding::ChuckAndCenter),
        "between centers" => Held::In(Holding::BetweenCenters),
        "chuck and steady rest" => Held::In(Holding::ChuckAndRest),
        "mandrel" | "arbor" => Held::In(Holding::Mandrel),
        "four-jaw chuck" => Held::By(Workholder::FourJaw),
        other => {
            if let Some(by) = Workholder::named(other) {
                return Some(Held::By(by));
            }
            let holds = "its clamps and the weight that balances them are not planned; `4-jaw chuck` is, and holds what is short or eccentric";
            r.not_supported(written.place, &format!("holding on a {other}: {holds}"));
            return None;
        }
    })
}

/// `[[X, Y], [X, Z]]`; one pair alone may leave out the outer brackets.
fn pairs(r: &mut Reader<'_>, field: Option<Field<'_>>) -> Vec<(Text, Text)> {
    let Some(field) = field else { return Vec::new() };
    let Body::List(list) = &field.value.body else {
        shape(r, &field);
        return Vec::new();
    };
    let each = |value| Field { value, key_place: field.value.place, ..field };
    if let [one, other] = list.as_slice()
        && one.written().is_some()
        && other.written().is_some()
    {
        return r.text(Some(each(one))).zip(r.text(Some(each(other)))).into_iter().collect();
    }
    let mut pairs = Vec::new();
    for node in list {
        match &node.body {
            Body::List(pair) if pair.len() == 2 => {
                let (one, other) = (r.text(Some(each(&pair[0]))), r.text(Some(each(&pair[1]))));
                pairs.extend(one.zip(other));
            }
            Body::Broken => {}
            _ => shape(r, &each(node)),
        }
    }
    pairs
}

fn shape(r: &mut Reader<'_>, field: &Field<'_>) {
    let found = super::reader::shape(field.value);
    let example = format!("{}: [[thread, bearing seat]]", field.word);
    let fault = Fault::WrongShape { key: field.word.to_owned(), wants: "pairs of features", found, example };
    r.slip(field.value.place, fault);
}
