//! `plan:` what the person wants otherwise.

use super::forms::Wants;
use super::keys::Scope;
use super::reader::{Field, Reader, items};
use super::size::Role;
use super::tree::{Body, Written};
use crate::model::part::{Holding, Wishes};
use crate::model::slip::Fault;
use crate::model::{End, Text};

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
        wishes.holding = r.value(&field, Wants::Words).and_then(|w| holding_word(r, w));
        return;
    }
    let Some(by_end) = r.fields("holding", field.value, Scope::ByEnd) else { return };
    for (word, end) in [("datum", End::Datum), ("far", End::Far)] {
        let written = by_end.get(word).and_then(|f| r.value(&f, Wants::Words));
        if let Some(holding) = written.and_then(|w| holding_word(r, w)) {
            wishes.holding_by_end.insert(end, holding);
        }
    }
}

/// Holdings that can be wished for.
pub(super) const HOLDINGS: &[&str] = &["chuck", "chuck and center", "between centers"];

fn holding_word(r: &mut Reader<'_>, written: Written<'_>) -> Option<Holding> {
    let known = ["chuck", "chuck and center", "between centers", "chuck and steady rest", "collet", "faceplate"];
    match r.word(written, &known, "holding")? {
        "chuck" => Some(Holding::Chuck),
        "chuck and center" => Some(Holding::ChuckAndCenter),
        "between centers" => Some(Holding::BetweenCenters),
        "chuck and steady rest" => Some(Holding::ChuckAndRest),
        other => {
            r.not_supported(written.place, &format!("holding in a {other}"));
            None
        }
    }
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
