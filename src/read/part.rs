//! The part description: its head, and the lists below it.

use super::features::{self, Header};
use super::forms::Wants;
use super::keys::Scope;
use super::reader::{Field, Fields, Reader, items};
use super::size::Role;
use super::tree::Node;
use super::{measured, stock, tolerances, wishes};
use crate::finding::{FileId, Source};
use crate::model::part::{Accept, Dim, Part};
use crate::model::slip::Slip;
use crate::model::{Feature, Size, Text};
use crate::unit::Unit;

/// Reads a description from its tree. Without units there is no part, but all that can be told is told.
pub(super) fn read(source: &Source, tree: &Node, before: &[Slip]) -> (Option<Part>, Vec<Slip>) {
    let mut r = Reader::new(source, FileId::Part);
    let Some(head) = r.fields("the description", tree, Scope::Header) else { return (None, r.slips) };
    let units = units(&mut r, &head, super::reader::broken_text(before));
    r.unit = units.unwrap_or(Unit::Inch);
    r.general = tolerances::read(&mut r, head.get("tolerances"));
    for word in ["inside", "cuts", "faces", "stock least"] {
        if let Some(field) = head.get(word) {
            r.not_supported(field.key_place, word);
        }
    }
    if !super::reader::broken_text(before) && !head.has("cuts") {
        for (key, example) in
            [("part", "part: Pulley stub"), ("datum", "datum: pulley end"), ("overall", "overall: 7.000 ±0.010")]
        {
            if !head.has(key) {
                r.missing(head.place.inside(0, 1), key, head.scope.called(), example);
            }
        }
    }
    let overall = r.size(head.get("overall"), Role::Length);
    let material = r.text(head.get("material"));
    let stock = stock::read(&mut r, head.get("stock"), material.as_ref());
    let header = Header { bar: stock.as_ref().map(|s| s.size.clone()), overall: overall.as_ref().map(|o| o.nominal) };
    let features = features::read(&mut r, head.get("features"), &header);
    let measured = measured::sizes(&mut r, head.get("measured"), &features);
    let part = Part {
        name: r.text(head.get("part")).unwrap_or_else(|| nameless(&head)),
        drawing: r.text(head.get("drawing")),
        revision: r.text(head.get("revision")),
        units: r.unit,
        material,
        stock,
        datum: datum(&mut r, &head, &features),
        overall,
        general: r.general.clone(),
        lathe: r.text(head.get("lathe")),
        features,
        dims: dims(&mut r, head.get("dims")),
        accept: accepts(&mut r, head.get("accept")),
        wishes: wishes::read(&mut r, head.get("plan")),
        measured,
        done: measured::done(&mut r, head.get("done")),
        notes: notes(&mut r, head.get("notes")),
        heat_treatment: r.text(head.get("heat treatment")),
        coating: coating(&mut r, head.get("coating")),
        place: head.place,
        hash: super::hash(&source.text),
    };
    (units.map(|_| part), r.slips)
}

/// A part without a name is called so.
fn nameless(head: &Fields<'_>) -> Text {
    Text { text: "unnamed part".to_owned(), place: head.place.inside(0, 1) }
}

/// `units: in | mm`; never assumed. A broken text may have had them, so then nothing is said of them.
pub(super) fn units(r: &mut Reader<'_>, head: &Fields<'_>, broken: bool) -> Option<Unit> {
    let Some(field) = head.get("units") else {
        if !broken {
            r.missing(head.place.inside(0, 1), "units", head.scope.called(), "units: in");
        }
        return None;
    };
    let written = r.value(&field, Wants::Words)?;
    match written.text.to_ascii_lowercase().trim_end_matches('.') {
        "in" | "inch" | "inches" | "\"" => Some(Unit::Inch),
        "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" | "metric" => Some(Unit::Millimetre),
        _ => {
            r.unknown_value(written, "units", None, vec!["in".to_owned(), "mm".to_owned()]);
            None
        }
    }
}

/// `datum:` the end's name. An inner face as datum is known and not worked. The first and last sections give the ends of the
/// part their names, so a face of theirs is taken for the end.
fn datum(r: &mut Reader<'_>, head: &Fields<'_>, features: &[Feature]) -> Option<Text> {
    let text = r.text(head.get("datum"))?;
    let Some((name, side)) = text.text.rsplit_once(' ') else { return Some(text) };
    let inner = matches!(side, "start" | "end")
        && r.feature_called(&text.text).is_none()
        && r.feature_called(name).is_some_and(|id| {
            let mut sections = features.iter().filter(|f| f.kind.is_section()).map(|f| f.id);
            sections.next() != Some(id) && sections.next_back() != Some(id)
        });
    if inner {
        r.not_supported(text.place, "an inner face as datum");
    }
    Some(text)
}

/// `coating: 0.0005 a side`.
fn coating(r: &mut Reader<'_>, field: Option<Field<'_>>) -> Option<Size> {
    let written = r.value(&field?, Wants::Size)?;
    let lower = written.text.to_ascii_lowercase();
    let figure = ["a side", "per side", "each side"].iter().find_map(|s| lower.strip_suffix(s)).unwrap_or(&lower);
    r.size_of(written.cut(0..figure.len()), Role::Bare, Wants::Size)
}

/// Notes keep their line ends.
fn notes(r: &mut Reader<'_>, field: Option<Field<'_>>) -> Option<Text> {
    let field = field?;
    let text = r.text(Some(field))?;
    let whole = field.value.written().map_or(text.text, |w| w.text.to_owned());
    Some(Text { text: whole, place: text.place })
}

/// `dims:`.
fn dims(r: &mut Reader<'_>, field: Option<Field<'_>>) -> Vec<Dim> {
    items(field).into_iter().filter_map(|item| dim(r, item)).collect()
}

fn dim(r: &mut Reader<'_>, item: Field<'_>) -> Option<Dim> {
    r.entry = Some(item.value.place);
    let fields = r.fields("dims", item.value, Scope::Dim);
    let dim = fields.and_then(|fields| {
        for (key, example) in [("from", "from: 3.750"), ("to", "to: 6.000"), ("is", "is: 2.250 ±0.010")] {
            if !fields.has(key) {
                r.missing(fields.place, key, "an entry of dims", example);
            }
        }
        let (from, to) = (r.place(fields.get("from")), r.place(fields.get("to")));
        r.between = from.clone().zip(to.clone());
        let is = r.size(fields.get("is"), Role::Length);
        r.between = None;
        let because = r.text(fields.get("because"));
        Some(Dim { from: from?, to: to?, is: is?, because, place: fields.place })
    });
    r.entry = None;
    dim
}

/// `accept:`.
fn accepts(r: &mut Reader<'_>, field: Option<Field<'_>>) -> Vec<Accept> {
    items(field).into_iter().filter_map(|item| accept(r, item)).collect()
}

fn accept(r: &mut Reader<'_>, item: Field<'_>) -> Option<Accept> {
    r.entry = Some(item.value.place);
    let accept = r.fields("accept", item.value, Scope::Accept).and_then(|fields| accept_of(r, &fields));
    r.entry = None;
    accept
}

fn accept_of(r: &mut Reader<'_>, fields: &Fields<'_>) -> Option<Accept> {
    if !fields.has("check") {
        r.missing(fields.place, "check", "an entry of accept", "check: relief-width");
    }
    let at = r.accept_at(fields.get("where"));
    let because = r.text(fields.get("because"));
    Some(Accept { check: r.text(fields.get("check"))?, at, because, place: fields.place })
}
