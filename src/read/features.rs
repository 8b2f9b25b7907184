//! The list of features: kinds, names, letters, and what every entry may have.

use super::forms::Wants;
use super::keys::{self, KindWord, Scope};
use super::reader::{Field, Fields, Reader, clipped};
use super::size::Role;
use super::tree::{Body, Entry, Node};
use super::{corner, countersink, crown, grooves, inside, outside, taper};
use crate::finding::Place;
use crate::model::feature::{EdgeAt, Extent, Feature, Kind};
use crate::model::inside::{Inside, InsideCut};
use crate::model::part::DatumFace;
use crate::model::slip::{BadSize, Fault, WordOf};
use crate::model::{End, FaceSide, Size, Text};
use crate::unit::Length;

/// What the header says that features need.
#[derive(Debug, Clone, Default)]
pub(super) struct Header {
    /// The bar's size.
    pub bar: Option<Size>,
    /// Its section.
    pub shape: Option<crate::model::part::StockShape>,
    /// The overall length.
    pub overall: Option<Length>,
    /// The datum, as written.
    pub datum: Option<Text>,
    /// The rotation of the part in service.
    pub rotation: Option<Text>,
}

/// An entry of the list, before it is read.
struct Head<'t> {
    node: &'t Node,
    entries: &'t [Entry],
    kind: Option<(usize, &'static KindWord)>,
    scope: Scope,
}

/// What can only be settled when all features are read.
#[derive(Debug, Default)]
struct Later {
    tapers: Vec<taper::Raw>,
    o_rings: Vec<grooves::Raw>,
    undercuts: Vec<corner::Raw>,
    crowns: Vec<crown::Raw>,
    crowns_at_both: Vec<usize>,
    both: Vec<usize>,
    countersinks: Vec<countersink::Raw>,
}

/// A feature's own keys, and what it stands among.
pub(super) struct Item<'t> {
    /// Main value.
    pub main: Field<'t>,
    /// Other keys.
    pub fields: Fields<'t>,
    /// Where it ends, for a section.
    pub to: Option<Extent>,
}

/// Reads `features:` and `inside:`: what lies inside stands behind the features.
pub(super) fn read(
    r: &mut Reader<'_>,
    field: Option<Field<'_>>,
    inside: Option<Field<'_>>,
    header: &Header,
) -> Vec<Feature> {
    let mut heads = heads_of(r, field, "features", Scope::Kind);
    let outside = heads.len();
    heads.extend(heads_of(r, inside, "inside", Scope::InsideKind));
    names(r, &heads);
    r.datum_face = header.datum.as_ref().and_then(|d| inner_face(r, d, &heads));
    let mut features = Vec::with_capacity(heads.len());
    let mut later = Later::default();
    let mut opening = None;
    for (id, head) in heads.iter().enumerate() {
        r.entry = Some(head.node.place);
        let feature = if id < outside {
            one(r, id, head, header, &mut later)
        } else {
            one_inside(r, id, head, header, &mut opening, &mut later)
        };
        features.push(feature);
    }
    r.entry = None;
    taper::settle(r, &mut features, later.tapers, header);
    if !later.o_rings.is_empty() || !later.undercuts.is_empty() {
        let spans = taper::spans(&features, header);
        grooves::settle(r, &mut features, later.o_rings, &spans, header);
        corner::settle(r, &mut features, later.undercuts, &spans, header);
    }
    if !later.crowns.is_empty() {
        let spans = taper::spans(&features, header);
        crown::settle(r, &mut features, later.crowns, &spans, header, &later.crowns_at_both);
    }
    countersink::settle(r, &mut features, later.countersinks, header);
    both_ends(&mut features, &later.both);
    letters(&mut features);
    features
}

/// The entries of a list.
fn heads_of<'t>(r: &mut Reader<'_>, field: Option<Field<'t>>, called: &'static str, scope: Scope) -> Vec<Head<'t>> {
    let Some(field) = field else { return Vec::new() };
    let Body::List(list) = &field.value.body else {
        if !matches!(field.value.body, Body::Broken) {
            r.wrong_shape(called, field.value, scope);
        }
        return Vec::new();
    };
    list.iter().filter_map(|node| head(r, node, called, scope)).collect()
}

/// Finds the kind of an entry; an entry that has no keys is told and left out.
fn head<'t>(r: &mut Reader<'_>, node: &'t Node, called: &str, scope: Scope) -> Option<Head<'t>> {
    let Body::Keys(entries) = &node.body else {
        if !matches!(node.body, Body::Broken) {
            let entry = if scope == Scope::Kind { Scope::Turn } else { scope };
            let called = if scope == Scope::Kind { "an entry of features" } else { called };
            r.wrong_shape(called, node, entry);
        }
        return None;
    };
    let find = if scope == Scope::InsideKind { keys::inside_kind } else { keys::kind };
    let mut kinds = entries.iter().enumerate().filter(|(_, e)| e.usable);
    let kind = kinds.find_map(|(i, e)| find(&e.key).map(|k| (i, k)));
    Some(Head { node, entries, kind, scope })
}

/// The inner face that the datum names. The first and last sections give the ends of the part their names, so a face of theirs
/// is taken for the end.
fn inner_face(r: &Reader<'_>, datum: &Text, heads: &[Head<'_>]) -> Option<DatumFace> {
    let (name, side) = datum.text.rsplit_once(' ')?;
    let side = match side {
        "start" => FaceSide::Start,
        "end" => FaceSide::End,
        _ => return None,
    };
    if r.feature_called(&datum.text).is_some() {
        return None;
    }
    let feature = r.feature_called(name)?;
    let mut sections = (0..heads.len()).filter(|i| heads[*i].kind.is_some_and(|(_, k)| k.section));
    let ends_the_part = sections.next() == Some(feature) || sections.next_back() == Some(feature);
    let section = heads[feature].kind.is_some_and(|(_, k)| k.section);
    (section && !ends_the_part).then(|| DatumFace { feature, side, text: datum.clone() })
}

/// Collects the names that others may point at.
fn names(r: &mut Reader<'_>, heads: &[Head<'_>]) {
    for (id, head) in heads.iter().enumerate() {
        r.entry = Some(head.node.place);
        let entry = head.entries.iter().find(|e| e.usable && matches!(keys::fold(&e.key).as_str(), "name" | "called"));
        let Some(written) = entry.and_then(|e| e.value.written()) else { continue };
        let name = keys::fold(written.text);
        if name.is_empty() {
            continue;
        }
        if written.text.starts_with(|c: char| c.is_ascii_digit()) {
            r.bad(written, written.place, BadSize::NameDigit, Wants::Name);
        } else if matches!(name.as_str(), "end" | "start" | "far" | "datum" | "part" | "far end" | "datum end") {
            let why = BadSize::Designation("it names an end of the part already".to_owned());
            r.bad(written, written.place, why, Wants::Name);
        }
        if let Some((_, first)) = r.names.get(&name).copied() {
            r.slip(written.place, Fault::Duplicate { word: clipped(written.text), name: true, first });
        } else {
            r.names.insert(name, (id, written.place));
        }
    }
    r.entry = None;
}

/// Reads one entry; what cannot be read leaves a feature that only keeps its length.
fn one(r: &mut Reader<'_>, id: usize, head: &Head<'_>, header: &Header, later: &mut Later) -> Feature {
    let place = head.node.place;
    let Some((at, kind)) = head.kind else { return unknown(r, id, head) };
    let main = &head.entries[at];
    let rest = head.entries.iter().enumerate().filter(|(i, _)| *i != at).map(|(_, e)| e);
    let fields = r.fields_of(rest, kind.scope, place);
    let main = Field { word: kind.word, key_place: main.key_place, value: &main.value };
    let to = kind.section.then(|| extent(r, &fields));
    let mut feature = common(r, id, &main, &fields, place);
    if let Some(to) = feature.true_to.take_if(|t| t.feature == id) {
        let why = BadSize::Designation("a seat is always true to itself; name the other one".to_owned());
        if let Some(written) = item_value(&fields, "true to") {
            r.bad(written, to.within.place, why, Wants::TrueTo);
        }
    }
    feature.starts = if kind.section { r.place(fields.get("from")) } else { None };
    let item = Item { main, fields, to };
    let read = match kind.scope {
        Scope::Turn => super::sections::turn(r, &item, header, feature.offset.as_ref()),
        Scope::Relief => super::sections::relief(r, &item),
        Scope::Thread => super::thread::read(r, &item),
        Scope::Taper => taper::read(r, &item, id, &mut later.tapers),
        Scope::Knurl => outside::knurl(r, &item),
        Scope::Groove => match kind.word {
            "ring groove" => grooves::ring(r, &item),
            "o ring groove" => grooves::o_ring(r, &item, id, &mut later.o_rings),
            _ => super::lying::groove(r, &item),
        },
        Scope::Undercut => corner::read(r, &item, id, &mut later.undercuts),
        Scope::Flat => outside::flats(r, &item),
        Scope::Chamfer => super::lying::chamfer(r, &item, id, &mut later.both),
        Scope::Crown => crown::read(r, &item, id, &mut later.crowns, &mut later.crowns_at_both),
        Scope::Fillet => super::lying::fillet(r, &item),
        Scope::Keyseat => super::keyseat::read(r, &item),
        Scope::CrossHole => super::lying::cross_hole(r, &item),
        Scope::CenterHole => super::lying::center_hole(r, &item),
        Scope::Hole | Scope::TappedHole => inside::in_features(r, &item),
        _ => {
            // Not worked yet, but a `#` that swallows the size is told all the same.
            let _ = r.value(&item.main, Wants::Words);
            r.not_supported(item.main.key_place, kind.word);
            None
        }
    };
    let mut read = read;
    if let Some(Kind::Thread { thread, .. }) = &mut read
        && thread.rotation.is_none()
    {
        thread.rotation.clone_from(&header.rotation);
    }
    feature.kind = read.unwrap_or_else(|| Kind::NotYet { word: kind.word.to_owned(), to: item.to });
    feature
}

/// The value of a key, when it is one.
fn item_value<'t>(fields: &Fields<'t>, key: &str) -> Option<super::tree::Written<'t>> {
    fields.get(key).and_then(|f| f.value.written())
}

/// Reads one entry of `inside:`.
fn one_inside(
    r: &mut Reader<'_>,
    id: usize,
    head: &Head<'_>,
    header: &Header,
    opening: &mut Option<inside::Opening>,
    later: &mut Later,
) -> Feature {
    let place = head.node.place;
    let Some((at, kind)) = head.kind else {
        let mut feature = unknown(r, id, head);
        feature.kind = Kind::NotYet { word: feature.kind.word().to_owned(), to: None };
        return feature;
    };
    let main = &head.entries[at];
    let named = inside::named(&main.key);
    let rest = head.entries.iter().enumerate().filter(|(i, _)| *i != at).map(|(_, e)| e);
    let fields = r.fields_of(rest, kind.scope, place);
    let main = Field { word: kind.word, key_place: main.key_place, value: &main.value };
    let mut feature = common(r, id, &main, &fields, place);
    let item = Item { main, fields, to: None };
    *opening = inside::opening(r, &item, *opening);
    let read = opening.and_then(|o| inside::entry(r, &item, o, named, header, id, &mut later.countersinks));
    feature.kind = read.unwrap_or_else(|| Kind::NotYet { word: kind.word.to_owned(), to: None });
    feature
}

/// An entry without a known kind.
fn unknown(r: &mut Reader<'_>, id: usize, head: &Head<'_>) -> Feature {
    let place = head.node.place;
    let Some(first) = head.entries.iter().find(|e| e.usable) else {
        let main = Field { word: "turn", key_place: place, value: head.node };
        let none = Fields { place, scope: Scope::Turn, list: Vec::new() };
        return common(r, id, &main, &none, place);
    };
    let known = if head.scope == Scope::InsideKind { keys::INSIDE_KINDS } else { keys::KINDS };
    let fault = Fault::UnknownWord {
        word: clipped(&first.key),
        of: WordOf::Kind,
        within: head.scope.called().to_owned(),
        nearest: match (r.is_full(), head.scope) {
            (true, _) => None,
            (_, Scope::InsideKind) => keys::nearest_inside(&first.key),
            _ => keys::nearest_kind(&first.key),
        },
        belongs: keys::belongs(&first.key, Scope::Kind),
        known: known.iter().map(|k| k.word.to_owned()).collect(),
    };
    let fault = match fault {
        // A key of a section stands first: the kind itself is what is missing.
        Fault::UnknownWord { word, of, within, known, .. } if keys::find(Scope::Turn, &first.key).is_some() => {
            Fault::UnknownWord { word, of, within, known, nearest: None, belongs: Vec::new() }
        }
        other => other,
    };
    let merged = head.entries.iter().any(|e| !e.usable);
    let instead = r.written_else(first, head.scope);
    if !instead && !merged && !r.trade_word(first.key_place, &first.key, keys::Spot::Key) {
        r.slip(first.key_place, fault);
    }
    // The rest is read for its length and name alone, without telling which of its keys do not belong.
    let known = |e: &Entry| keys::find(Scope::Turn, &e.key).is_some() && !(instead && e.key == first.key);
    let rest = head.entries.iter().filter(|e| known(e));
    let fields = r.fields_of(rest, Scope::Turn, place);
    let to = (fields.has("to") || fields.has("long")).then(|| extent(r, &fields));
    let main = Field { word: "turn", key_place: first.key_place, value: &first.value };
    let mut feature = common(r, id, &main, &fields, place);
    feature.kind = Kind::NotYet { word: clipped(&first.key), to };
    feature
}

/// What every feature may have.
fn common(r: &mut Reader<'_>, id: usize, main: &Field<'_>, fields: &Fields<'_>, place: Place) -> Feature {
    let name = fields.get("name").and_then(|f| r.text(Some(f)));
    let value = main.value.place;
    Feature {
        id,
        letter: String::new(),
        name: name.map(|n| Text { text: n.text.split_whitespace().collect::<Vec<_>>().join(" "), ..n }),
        kind: Kind::NotYet { word: String::new(), to: None },
        starts: None,
        finish: r.finish(fields.get("finish")),
        carries: super::carried::read(r, fields.get("carries")),
        true_to: r.true_to(fields.get("true to")),
        offset: r.size(fields.get("offset"), Role::Length),
        angle_mdeg: r.angle(fields.get("angle")),
        place,
        head: Place { end: value.end.max(main.key_place.end), ..main.key_place },
        value: if value.start < value.end { value } else { main.key_place },
    }
}

/// Where a section ends.
fn extent(r: &mut Reader<'_>, fields: &Fields<'_>) -> Extent {
    let to = r.place(fields.get("to"));
    let long = r.size(fields.get("long"), Role::Length);
    match (to, long) {
        (Some(to), Some(long)) => Extent::Both(to, long),
        (Some(to), None) => Extent::To(to),
        (None, Some(long)) => Extent::Long(long),
        (None, None) => Extent::Open,
    }
}

/// A chamfer at both ends is two chamfers: these have so far been read at the datum end.
fn both_ends(features: &mut Vec<Feature>, both: &[usize]) {
    for id in both {
        let Some(mut feature) = features.get(*id).cloned() else { continue };
        if let Kind::Chamfer { at, .. } = &mut feature.kind {
            *at = EdgeAt::End(End::Far);
            feature.id = features.len();
            feature.name = None;
            features.push(feature);
        }
    }
}

/// A, B, C … without I and O: the sections first, then what a hand cuts on its own.
fn letters(features: &mut [Feature]) {
    let lying = |k: &Kind| {
        let chamfer = |inside: &Inside| matches!(inside.cut, InsideCut::Chamfer { .. });
        matches!(
            k,
            Kind::Groove { .. }
                | Kind::Undercut { .. }
                | Kind::Flats { .. }
                | Kind::Woodruff { .. }
                | Kind::ParallelKeyseat { .. }
                | Kind::CrossHole { .. }
        ) || matches!(k, Kind::Inside(inside) if !chamfer(inside))
    };
    let sections = (0..features.len()).filter(|i| features[*i].kind.is_section());
    let order: Vec<usize> = sections.chain((0..features.len()).filter(|i| lying(&features[*i].kind))).collect();
    for (n, i) in order.into_iter().enumerate() {
        features[i].letter = letter(n);
    }
}

/// The letter of number `n` from 0: A to Z without I and O, then AA, AB …
fn letter(n: usize) -> String {
    const LETTERS: &[u8; 24] = b"ABCDEFGHJKLMNPQRSTUVWXYZ";
    let last = char::from(LETTERS[n % LETTERS.len()]);
    match n / LETTERS.len() {
        0 => last.to_string(),
        before => format!("{}{last}", letter(before - 1)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_leave_out_i_and_o() {
        assert_eq!([0, 7, 8, 12, 13, 23, 24, 48].map(letter), ["A", "H", "J", "N", "P", "Z", "AA", "BA"]);
    }
}
