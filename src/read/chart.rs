//! A tolerance chart worked by hand: `cuts:` between `faces:`, what the drawing asks, and the least stock.

use std::collections::BTreeMap;

use super::forms::Wants;
use super::keys::{self, Scope};
use super::reader::{Field, Fields, Reader, clipped, items};
use super::size::Role;
use super::tree::{Body, Entry, Node, Written};
use super::{in_order, part, syntax, text};
use crate::finding::{FileId, Place, Source};
use crate::model::chart::{Chart, Cut, Face, MeasuredBy, Wanted};
use crate::model::slip::{BadSize, Fault, Slip, WordOf};
use crate::model::{End, Size, Text};
use crate::unit::{Length, Limits, Unit};

/// Most cuts that are read: a chart is worked by hand.
const MOST_CUTS: usize = 1_000;

/// A chart after reading.
#[derive(Debug, Clone)]
pub struct ReadChart {
    /// Its text.
    pub source: Source,
    /// The chart; none when the text cannot be read at all, or states no units, faces or cuts.
    pub chart: Option<Chart>,
    /// What could not be taken, in the order of the text.
    pub slips: Vec<Slip>,
}

/// Reads a chart. `name` is what messages call the file.
pub fn chart(name: &str, bytes: &[u8]) -> ReadChart {
    let mut decoded = text::decode(name, FileId::Part, bytes);
    let tree = syntax::tree(FileId::Part, &mut decoded);
    let (chart, more) = tree.map_or((None, Vec::new()), |t| whole(&decoded.source, &t, &decoded.slips));
    ReadChart { slips: in_order(&decoded.source, decoded.slips, more), source: decoded.source, chart }
}

fn whole(source: &Source, tree: &Node, before: &[Slip]) -> (Option<Chart>, Vec<Slip>) {
    let mut r = Reader::new(source, FileId::Part);
    let Some(head) = r.fields("the chart", tree, Scope::Header) else { return (None, r.slips) };
    let broken = super::reader::broken_text(before);
    let units = part::units(&mut r, &head, broken);
    r.unit = units.unwrap_or(Unit::Inch);
    if !broken {
        let wanted = [
            ("part", "part: Spacer"),
            ("faces", "faces: {A: datum, B: far}"),
            ("cuts", "cuts: [{op: 1, cut: A, from: B, mean: 34.0, tol: 0.5}]"),
        ];
        for (key, example) in wanted.into_iter().filter(|(key, _)| !head.has(key)) {
            r.missing(head.place.inside(0, 1), key, "the head of a chart", example);
        }
    }
    let faces = faces(&mut r, &head);
    let named = Named::among(&faces);
    let cuts = items(head.get("cuts"));
    if cuts.len() > MOST_CUTS {
        let why = crate::model::slip::Unreadable::TooMany { what: "cuts", most: MOST_CUTS };
        r.slip(head.place.inside(0, 1), Fault::Unreadable(why));
    }
    let cuts: Vec<Cut> = cuts.into_iter().take(MOST_CUTS).filter_map(|item| cut(&mut r, item, &named)).collect();
    let dims = items(head.get("dims")).into_iter().filter_map(|item| dim(&mut r, item, &named)).collect();
    let place = head.place.inside(0, 1);
    let name = r.text(head.get("part")).unwrap_or_else(|| Text { text: "unnamed part".to_owned(), place });
    let usable = units.is_some() && !faces.is_empty() && !cuts.is_empty();
    let hash = super::hash(&source.text);
    (usable.then_some(Chart { name, units: r.unit, faces, cuts, dims, hash }), r.slips)
}

/// Faces by their names as they are compared.
struct Named {
    by_word: BTreeMap<String, usize>,
    names: Vec<String>,
}

impl Named {
    fn among(faces: &[Face]) -> Self {
        let by_word = faces.iter().enumerate().map(|(i, f)| (keys::fold(&f.name), i)).collect();
        Self { by_word, names: faces.iter().map(|f| f.name.clone()).collect() }
    }

    fn of(&self, r: &mut Reader<'_>, field: Option<Field<'_>>) -> Option<usize> {
        let written = r.value(&field?, Wants::Name)?;
        self.written(r, written)
    }

    fn written(&self, r: &mut Reader<'_>, written: Written<'_>) -> Option<usize> {
        let found = self.by_word.get(&keys::fold(written.text)).copied();
        if found.is_none() {
            self.unknown(r, written.text, written.place);
        }
        found
    }

    fn unknown(&self, r: &mut Reader<'_>, word: &str, place: Place) {
        // Without any face the missing `faces` are told, once.
        if self.by_word.is_empty() {
            return;
        }
        let nearest = keys::nearest_of(word, self.names.iter().map(|n| (n.as_str(), n.as_str())));
        let known = self.names.iter().take(24).map(|n| clipped(n)).collect();
        let fault = Fault::UnknownWord {
            word: clipped(word),
            of: WordOf::Value,
            within: "faces".to_owned(),
            nearest,
            belongs: Vec::new(),
            known,
        };
        r.slip(place, fault);
    }
}

/// The entries of a mapping whose keys are faces.
fn by_face<'t>(r: &mut Reader<'_>, field: &Field<'t>, scope: Scope) -> Vec<&'t Entry> {
    match &field.value.body {
        Body::Keys(entries) => entries.iter().filter(|e| e.usable).collect(),
        Body::Broken => Vec::new(),
        _ => {
            r.wrong_shape(field.word, field.value, scope);
            Vec::new()
        }
    }
}

/// `faces: {A: datum, B: far}` and `stock least: {A: 0.3}`.
fn faces(r: &mut Reader<'_>, head: &Fields<'_>) -> Vec<Face> {
    let mut faces: Vec<Face> = Vec::new();
    let mut first: BTreeMap<String, Place> = BTreeMap::new();
    let entries = head.get("faces").map(|f| by_face(r, &f, Scope::ChartFaces)).unwrap_or_default();
    for entry in entries {
        if let Some(before) = first.insert(keys::fold(&entry.key), entry.key_place) {
            r.slip(entry.key_place, Fault::Duplicate { word: clipped(&entry.key), name: true, first: before });
            continue;
        }
        let field = Field { word: "faces", key_place: entry.key_place, value: &entry.value };
        let looks = r.value(&field, Wants::Words).and_then(|w| r.word(w, &["datum", "far"], "faces"));
        let looks = if looks == Some("far") { End::Far } else { End::Datum };
        faces.push(Face { name: entry.key.trim().to_owned(), looks, stock_least: None, place: Some(entry.key_place) });
    }
    let named = Named::among(&faces);
    let least = head.get("stock least").map(|f| by_face(r, &f, Scope::ChartStock)).unwrap_or_default();
    for entry in least {
        let field = Field { word: "stock least", key_place: entry.key_place, value: &entry.value };
        let value = magnitude(r, Some(field));
        match named.by_word.get(&keys::fold(&entry.key)).copied() {
            Some(face) => faces[face].stock_least = value,
            None => named.unknown(r, &entry.key, entry.key_place),
        }
    }
    faces
}

/// A length without limits, its sign taken off when it is written `±0.2`.
fn magnitude(r: &mut Reader<'_>, field: Option<Field<'_>>) -> Option<Length> {
    let written = r.value(&field?, Wants::Size)?;
    let bare = ["±", "+/-", "+-"].iter().find_map(|s| written.text.strip_prefix(s)).unwrap_or(written.text);
    let figure = written.cut(written.text.len() - bare.len()..written.text.len());
    let size = r.size_of(figure, Role::Bare, Wants::Size)?;
    if size.nominal < Length::ZERO || size.limits.is_some() {
        let why = if size.limits.is_some() { BadSize::LimitsHere } else { BadSize::Form };
        r.bad(written, written.place, why, Wants::Size);
        return None;
    }
    Some(size.nominal)
}

/// A mean, with its tolerance where limits are written beside it: unequal limits are centred.
fn centred(size: &Size) -> (Length, Option<Length>) {
    match size.limits.filter(|l| !l.reversed()) {
        Some(limits) => (limits.middle(), Some(limits.band().half())),
        None => (size.nominal, None),
    }
}

fn cut(r: &mut Reader<'_>, item: Field<'_>, named: &Named) -> Option<Cut> {
    r.entry = Some(item.value.place);
    let cut = r.fields("cuts", item.value, Scope::Cut).and_then(|fields| cut_of(r, &fields, named));
    r.entry = None;
    cut
}

fn cut_of(r: &mut Reader<'_>, fields: &Fields<'_>, named: &Named) -> Option<Cut> {
    for (key, example) in [("op", "op: 10"), ("cut", "cut: A")] {
        if !fields.has(key) {
            r.missing(fields.place, key, "a cut", example);
        }
    }
    let stock = r.size(fields.get("stock"), Role::Bare);
    if !fields.has("from") && !fields.has("stock") {
        r.missing(fields.place, "from", "a cut", "from: D");
    }
    let op = operation(r, fields.get("op"));
    let face = named.of(r, fields.get("cut"));
    let from = named.of(r, fields.get("from"));
    let (mut mean, mut beside) = (None, None);
    let by = match (fields.has("from"), &stock) {
        (true, _) => {
            if let (Some(_), Some(field)) = (&stock, fields.get("stock")) {
                // Two measures of one cut: the second is told, and the first is worked by.
                let fault = Fault::WrongShape {
                    key: "stock".to_owned(),
                    wants: "one measure for one cut: `from` or `stock`",
                    found: crate::model::slip::Shape::Text,
                    example: "{op: 4, cut: B, stock: 0.1 ±0.02}".to_owned(),
                };
                r.slip(field.key_place, fault);
            }
            let size = r.size(fields.get("mean"), Role::Bare);
            if let Some(size) = size {
                let (m, t) = centred(&size);
                (mean, beside) = (Some(m), t);
            }
            from.map(MeasuredBy::From)
        }
        (false, Some(size)) => {
            let (m, t) = centred(size);
            (mean, beside) = (Some(m), t);
            Some(MeasuredBy::Stock)
        }
        (false, None) => None,
    };
    let tolerance = magnitude(r, fields.get("tol")).or(beside);
    let can_hold = magnitude(r, fields.get("can hold"));
    let least = magnitude(r, fields.get("least"));
    Some(Cut { op: op?, face: face?, by: by?, mean, tolerance, can_hold, least, place: Some(fields.place) })
}

/// `op: 10`.
fn operation(r: &mut Reader<'_>, field: Option<Field<'_>>) -> Option<u32> {
    let written = r.value(&field?, Wants::Number)?;
    let number = written.text.parse::<u32>().ok();
    if number.is_none() {
        r.bad(written, written.place, BadSize::Form, Wants::Number);
    }
    number
}

fn dim(r: &mut Reader<'_>, item: Field<'_>, named: &Named) -> Option<Wanted> {
    r.entry = Some(item.value.place);
    let dim = r.fields("dims", item.value, Scope::Dim).and_then(|fields| {
        for (key, example) in [("from", "from: A"), ("to", "to: C"), ("is", "is: 2.250 ±0.010")] {
            if !fields.has(key) {
                r.missing(fields.place, key, "an entry of dims", example);
            }
        }
        let (from, to) = (named.of(r, fields.get("from")), named.of(r, fields.get("to")));
        let is = r.size(fields.get("is"), Role::Bare);
        let (from, to, is) = (from?, to?, is?);
        if from == to {
            let place = fields.get("to").map_or(fields.place, |f| f.value.place);
            let fault = Fault::WrongShape {
                key: "to".to_owned(),
                wants: "another face than `from`",
                found: crate::model::slip::Shape::Text,
                example: "{from: A, to: C, is: 2.250 ±0.010}".to_owned(),
            };
            r.slip(place, fault);
            return None;
        }
        let limits: Option<Limits> = is.limits.filter(|l| !l.reversed() && !is.reference);
        Some(Wanted { from, to, nominal: is.nominal, limits, place: Some(is.place) })
    });
    r.entry = None;
    dim
}
