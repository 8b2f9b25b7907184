//! The part description: its head, and the lists below it.

use super::features::{self, Header};
use super::forms::Wants;
use super::keys::Scope;
use super::reader::{Field, Fields, Reader, items};
use super::size::Role;
use super::tree::Node;
use super::{measured, named, stock, tolerances, wishes};
use crate::finding::{FileId, Source};
use crate::language::Language;
use crate::model::part::{Accept, Dim, Part};
use crate::model::slip::Slip;
use crate::model::{Size, Text};
use crate::unit::Unit;

/// Reads a description from its tree. Without units there is no part, but all that can be told is told.
pub(super) fn read(source: &Source, tree: &Node, before: &[Slip]) -> (Option<Part>, Vec<Slip>) {
    let mut r = Reader::new(source, FileId::Part);
    let Some(head) = r.fields("the description", tree, Scope::Header) else { return (None, r.slips) };
    let units = units(&mut r, &head, super::reader::broken_text(before));
    r.unit = units.unwrap_or(Unit::Inch);
    r.general = tolerances::read(&mut r, head.get("tolerances"));
    if let Some(field) = head.get("cuts") {
        r.not_supported(field.key_place, "a tolerance chart in a part description; the chart command reads it");
    }
    if !super::reader::broken_text(before) && !head.has("cuts") {
        for (key, example) in
            [("part", "part: Pulley stub"), ("datum", "datum: pulley end"), ("overall", "overall: 7.000 ±0.010")]
        {
            if !head.has(key) {
                r.missing(head.place.inside(0, 1), key, head.scope.called(), example);
            }
        }
        let features = head.get("features");
        let none = features.is_some_and(|f| matches!(&f.value.body, super::tree::Body::List(l) if l.is_empty()));
        if none || features.is_none() {
            let place = features.map_or(head.place.inside(0, 1), |f| f.key_place);
            r.missing(place, "features", head.scope.called(), "features: [{turn: 0.750, to: end}]");
        }
    }
    let overall = r.size(head.get("overall"), Role::Length);
    let material = r.text(head.get("material"));
    let stock = stock::read(&mut r, head.get("stock"), material.as_ref());
    let datum = r.text(head.get("datum"));
    let rotation = r.rotation(head.get("rotation"));
    let header = Header {
        bar: stock.as_ref().map(|s| s.size.clone()),
        shape: stock.as_ref().map(|s| s.shape),
        overall: overall.as_ref().map(|o| o.nominal),
        datum: datum.clone(),
        rotation: rotation.clone(),
    };
    let features = features::read(&mut r, head.get("features"), head.get("inside"), &header);
    let through = features.iter().any(|f| super::inside::is_through(&f.kind));
    super::inside::tube_has_bore(&mut r, head.get("stock"), &header, through);
    let measured = measured::sizes(&mut r, head.get("measured"), &features, material.as_ref());
    let (coating, sizes_after_coating) = coating(&mut r, head.get("coating"));
    let part = Part {
        name: r.text(head.get("part")).unwrap_or_else(|| nameless(&head)),
        drawing: r.text(head.get("drawing")),
        revision: r.text(head.get("revision")),
        units: r.unit,
        material,
        stock,
        datum: datum.map(|d| end_name(&r, d)),
        datum_face: r.datum_face.clone(),
        overall,
        general: r.general.clone(),
        lathe: named::lathe(&mut r, head.get("lathe")),
        features,
        dims: dims(&mut r, head.get("dims")),
        accept: accepts(&mut r, head.get("accept")),
        wishes: wishes::read(&mut r, head.get("plan")),
        measured,
        done: measured::done(&mut r, head.get("done")),
        on_trust: items(head.get("taken on trust")).into_iter().filter_map(|item| r.text(Some(item))).collect(),
        notes: notes(&mut r, head.get("notes")),
        heat_treatment: r.text(head.get("heat treatment")),
        coating,
        sizes_after_coating,
        rotation,
        language: language(&mut r, head.get("language")),
        decimal_comma: decimal_comma(&mut r, head.get("decimal sign")),
        place: head.place,
        hash: super::hash(&source.text),
    };
    (units.map(|_| part), r.slips)
}

/// `decimal sign: comma`.
fn decimal_comma(r: &mut Reader<'_>, field: Option<super::reader::Field<'_>>) -> bool {
    let written = field.and_then(|f| r.value(&f, Wants::Words));
    written.and_then(|w| r.word(w, &["point", "comma"], "decimal sign")) == Some("comma")
}

/// `language: de`; a language that no sheet speaks is told.
fn language(r: &mut Reader<'_>, field: Option<super::reader::Field<'_>>) -> Option<Language> {
    let written = r.value(&field?, Wants::Words)?;
    r.word(written, &["en", "de"], "language").and_then(Language::of)
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

/// The datum end's name; where an inner face is the datum, that end is the one before it.
fn end_name(r: &Reader<'_>, datum: Text) -> Text {
    if r.datum_face.is_none() {
        return datum;
    }
    Text { text: format!("the near end (stated from {})", datum.text), ..datum }
}

/// `coating: 0.0005 a side, sizes after`: thickness, and whether the sizes count after it.
fn coating(r: &mut Reader<'_>, field: Option<Field<'_>>) -> (Option<Size>, Option<bool>) {
    let Some(written) = field.and_then(|f| r.value(&f, Wants::Coating)) else { return (None, None) };
    let lower = written.text.to_ascii_lowercase();
    let (figure, count) = match lower.split_once([',', ';']) {
        // A comma between digits is a decimal comma, and told as one.
        Some((figure, count)) if !count.starts_with(|c: char| c.is_ascii_digit()) => (figure, Some(count)),
        _ => (lower.as_str(), None),
    };
    let after = match count.map(|c| (c.contains("after"), c.contains("before"))) {
        Some((true, false)) => Some(true),
        Some((false, true)) => Some(false),
        Some(_) => {
            r.bad(
                written,
                written.at(figure.len() + 1..lower.len()),
                crate::model::slip::BadSize::Form,
                Wants::Coating,
            );
            None
        }
        None => None,
    };
    let figure = figure.trim_end();
    let figure = ["a side", "per side", "each side"].iter().find_map(|s| figure.strip_suffix(s)).unwrap_or(figure);
    (r.size_of(written.cut(0..figure.len()), Role::Bare, Wants::Coating), after)
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
