//! The form for measuring a worn sample: a description with a row to fill in place of each size, and the way back from the filled
//! form to a description.
//!
//! A row has five cells: `sketch` (what the rough description said), `worn reads`, `unworn reads`, `taken as`, `why`. What needs no
//! measuring is carried over as it stands.

mod made;
mod sorts;
mod suggest;
mod write;

pub use made::{FromSample, from_sample};
pub use write::form_text;

use super::keys::{self, KindWord, Scope, Takes};
use super::tree::{Body, Node};
use super::{syntax, text};
use crate::finding::{FileId, Place, Source};
use crate::model::Slip;
use crate::unit::Unit;

/// A row of the form: one size.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct SampleRow {
    /// The size as the rough description has it.
    pub sketch: String,
    /// From what it counts, where that is no end of the part: `from left seat end`.
    pub counted: String,
    /// As read where it is worn.
    pub worn: String,
    /// As read where it is not.
    pub unworn: String,
    /// As a description would say it.
    pub taken: String,
    /// Why.
    pub why: String,
    /// Where the row stands.
    pub place: Option<Place>,
}

/// A value that is carried over.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Plain {
    /// One value.
    Text(String),
    /// A list.
    List(Vec<Plain>),
    /// Keys with values.
    Keys(Vec<(String, Plain)>),
}

/// What stands under a key.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Cell {
    /// It is carried over as it stands.
    Kept(Plain),
    /// A row to fill.
    Row(SampleRow),
}

/// A key with what stands under it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SampleEntry {
    /// The key.
    pub key: String,
    /// What stands there.
    pub cell: Cell,
}

/// A feature of the form: its kind first, then its other keys.
#[derive(Debug, Clone)]
pub struct SampleFeature {
    /// Its kind; none for a word that names none.
    pub kind: Option<&'static KindWord>,
    /// Its keys, the kind first.
    pub entries: Vec<SampleEntry>,
}

/// The form.
#[derive(Debug, Clone)]
pub struct SampleForm {
    /// Unit of its sizes.
    pub unit: Unit,
    /// Name of the sample.
    pub name: String,
    /// Keys of the head, in their order.
    pub head: Vec<SampleEntry>,
    /// Sections from the datum end outward, and what lies on them.
    pub features: Vec<SampleFeature>,
    /// What lies inside.
    pub inside: Vec<SampleFeature>,
}

/// A form, or a description as a form, after reading.
#[derive(Debug, Clone)]
pub struct ReadSample {
    /// Its text.
    pub source: Source,
    /// The form; none when the text cannot be read at all, or states no units.
    pub form: Option<SampleForm>,
    /// Whether it was a form and no description.
    pub is_form: bool,
    /// What breaks the rules of the file format.
    pub slips: Vec<Slip>,
    /// What is wrong with the form, each with its place.
    pub faults: Vec<(Place, String)>,
}

/// The five cells of a row, as keys.
pub const CELLS: [&str; 5] = ["sketch", "worn reads", "unworn reads", "taken as", "why"];

/// Rows a form has besides the keys of the description: of a thread its pitch and starts, of a keyseat the length of the slot and what is
/// left under it.
pub const PITCH: &str = "pitch";
/// Threads that begin at the end of a screw.
pub const STARTS: &str = "starts";
/// Length of a keyseat's slot on top of the round.
pub const SLOT: &str = "slot";
/// From a keyseat's bottom to the far side.
pub const BOTTOM: &str = "bottom";

/// Keys that say how far the work has come: a sample has none.
const LEFT_OUT: [&str; 4] = ["measured", "done", "taken on trust", "accept"];

impl SampleFeature {
    /// The value of a key that is carried over as one text.
    pub fn text(&self, key: &str) -> Option<&str> {
        self.entries.iter().find(|e| e.key == key).and_then(|e| match &e.cell {
            Cell::Kept(Plain::Text(text)) => Some(text.as_str()),
            _ => None,
        })
    }

    /// The row under a key.
    pub fn row(&self, key: &str) -> Option<&SampleRow> {
        self.entries.iter().find(|e| e.key == key).and_then(|e| match &e.cell {
            Cell::Row(row) => Some(row),
            Cell::Kept(_) => None,
        })
    }

    /// Its word.
    pub fn word(&self) -> &str {
        self.kind.map_or_else(|| self.entries.first().map_or("", |e| e.key.as_str()), |k| k.word)
    }
}

/// Reads a form, or a description as an empty form. `name` is what messages call the file.
pub fn sample(name: &str, bytes: &[u8]) -> ReadSample {
    let mut decoded = text::decode(name, FileId::Part, bytes);
    let tree = syntax::tree(FileId::Part, &mut decoded);
    let mut reading = Reading { faults: Vec::new(), is_form: false };
    let form = tree.as_ref().and_then(|t| reading.form(t));
    ReadSample { source: decoded.source, form, is_form: reading.is_form, slips: decoded.slips, faults: reading.faults }
}

struct Reading {
    faults: Vec<(Place, String)>,
    is_form: bool,
}

fn text_of(node: &Node) -> String {
    node.written().map_or_else(String::new, |w| w.text.to_owned())
}

fn plain(node: &Node) -> Plain {
    match &node.body {
        // The end of a line belongs to a text of many lines.
        Body::Text(scalar) if scalar.text.contains('\n') => Plain::Text(scalar.text.clone()),
        Body::Text(_) => Plain::Text(text_of(node)),
        Body::List(list) => Plain::List(list.iter().map(plain).collect()),
        Body::Keys(keys) => {
            Plain::Keys(keys.iter().filter(|e| e.usable).map(|e| (e.key.clone(), plain(&e.value))).collect())
        }
        Body::Broken => Plain::Text(String::new()),
    }
}

fn has_digit(text: &str) -> bool {
    text.contains(|c: char| c.is_ascii_digit())
}

impl Reading {
    fn fault(&mut self, place: Place, why: impl Into<String>) {
        self.faults.push((place, why.into()));
    }

    fn form(&mut self, tree: &Node) -> Option<SampleForm> {
        let Body::Keys(entries) = &tree.body else {
            self.fault(tree.place, "a form begins with `sample:` and its name");
            return None;
        };
        self.is_form = entries.iter().any(|e| keys::fold(&e.key) == "sample");
        let mut form = SampleForm {
            unit: Unit::Inch,
            name: String::new(),
            head: Vec::new(),
            features: Vec::new(),
            inside: Vec::new(),
        };
        let mut unit = None;
        for e in entries.iter().filter(|e| e.usable) {
            let folded = keys::fold(&e.key);
            let word = keys::find(Scope::Header, &e.key).map_or(folded.as_str(), |k| k.word).to_owned();
            match word.as_str() {
                "sample" | "part" => form.name = text_of(&e.value),
                "units" => match text_of(&e.value).to_ascii_lowercase().trim_end_matches('.') {
                    "in" | "inch" | "inches" | "\"" => unit = Some(Unit::Inch),
                    "mm" | "metric" | "millimetre" | "millimeter" | "millimetres" | "millimeters" => {
                        unit = Some(Unit::Millimetre);
                    }
                    _ => self.fault(e.value.place, "units are `in` or `mm`"),
                },
                "features" => form.features = self.features(&e.value, Scope::Kind),
                "inside" => form.inside = self.features(&e.value, Scope::InsideKind),
                _ if LEFT_OUT.contains(&word.as_str()) && !(word == "accept" && self.is_form) => {}
                _ => {
                    let measured = matches!(word.as_str(), "overall" | "material");
                    let cell = self.cell(&e.value, measured);
                    form.head.push(SampleEntry { key: word, cell });
                }
            }
        }
        let Some(unit) = unit else {
            self.fault(tree.place.inside(0, 1), "units are never assumed; write `units: in` or `units: mm`");
            return None;
        };
        form.unit = unit;
        Some(form)
    }

    fn features(&mut self, node: &Node, list: Scope) -> Vec<SampleFeature> {
        let Body::List(items) = &node.body else {
            self.fault(node.place, "a list of features, each with a `-` before it");
            return Vec::new();
        };
        items.iter().filter_map(|item| self.feature(item, list)).collect()
    }

    fn feature(&mut self, node: &Node, list: Scope) -> Option<SampleFeature> {
        let Body::Keys(entries) = &node.body else {
            self.fault(node.place, "a feature begins with its kind: `- turn: {…}`");
            return None;
        };
        let usable: Vec<_> = entries.iter().filter(|e| e.usable).collect();
        let found = usable.iter().enumerate().find_map(|(i, e)| keys::kind_in(list, &e.key).map(|k| (i, k)));
        let Some((main, kind)) = found else {
            if self.is_form {
                self.fault(node.place, "which kind of feature? turn, thread, relief, groove, keyseat, fillet …");
            }
            let kept = usable.iter().map(|e| SampleEntry { key: e.key.clone(), cell: Cell::Kept(plain(&e.value)) });
            return Some(SampleFeature { kind: None, entries: kept.collect() });
        };
        let cell = self.cell(&usable[main].value, true);
        let kept = matches!(&cell, Cell::Kept(_));
        // A journal is a turn, an o ring groove stays one.
        let mut out = vec![SampleEntry { key: kind.word.to_owned(), cell }];
        for (_, e) in usable.iter().enumerate().filter(|(i, _)| *i != main) {
            let known = keys::find(kind.scope, &e.key);
            let word = known.map_or_else(|| keys::fold(&e.key), |k| k.word.to_owned());
            let cell = self.cell(&e.value, known.is_some_and(|k| is_measured(kind, k.word, k.takes)));
            out.push(SampleEntry { key: word, cell });
        }
        if !self.is_form && !kept {
            let besides: &[&str] = match kind.word {
                "thread" => &[PITCH, STARTS],
                "keyseat" => &[SLOT, BOTTOM],
                _ => &[],
            };
            let row = |key: &&str| SampleEntry { key: (*key).to_owned(), cell: Cell::Row(SampleRow::default()) };
            let rows: Vec<SampleEntry> = besides.iter().map(row).collect();
            out.splice(1..1, rows);
        }
        Some(SampleFeature { kind: Some(kind), entries: out })
    }

    /// A row, where the form has one or the description a size to measure.
    fn cell(&mut self, node: &Node, measured: bool) -> Cell {
        if self.is_form {
            let Body::Keys(entries) = &node.body else { return Cell::Kept(plain(node)) };
            let is_cell = |key: &str| CELLS.contains(&key) || key == "counted";
            if !entries.is_empty() && !entries.iter().any(|e| is_cell(&keys::fold(&e.key))) {
                return Cell::Kept(plain(node));
            }
            let mut row = SampleRow { place: Some(node.place), ..SampleRow::default() };
            for e in entries.iter().filter(|e| e.usable) {
                let text = text_of(&e.value);
                match keys::fold(&e.key).as_str() {
                    "sketch" => row.sketch = text,
                    "counted" => row.counted = text,
                    "worn reads" => row.worn = text,
                    "unworn reads" => row.unworn = text,
                    "taken as" => row.taken = text,
                    "why" => row.why = text,
                    other => {
                        let near = keys::nearest_of(other, CELLS.into_iter().map(|c| (c, c)));
                        let near = near.map_or_else(String::new, |n| format!("; did you mean `{n}`?"));
                        self.fault(e.key_place, format!("a row has no `{other}`{near}"));
                    }
                }
            }
            return Cell::Row(row);
        }
        let text = text_of(node);
        if !measured || !matches!(node.body, Body::Text(_)) || !has_digit(&text) && !measured_words(&text) {
            return Cell::Kept(plain(node));
        }
        let (sketch, counted) = match text.split_once(" from ") {
            Some((size, of)) if has_digit(size) => (size.trim().to_owned(), format!("from {}", of.trim())),
            _ => (text, String::new()),
        };
        Cell::Row(SampleRow { sketch, counted, ..SampleRow::default() })
    }
}

/// A material without a number in its name is still asked for.
fn measured_words(text: &str) -> bool {
    !text.is_empty() && !matches!(keys::fold(text).as_str(), "stock" | "none" | "start" | "end" | "datum" | "far") && {
        let folded = keys::fold(text);
        !folded.ends_with(" end") && !folded.ends_with(" start")
    }
}

/// Whether a key's value is read off the sample. A face named again, the mates and the way of making are not.
fn is_measured(kind: &KindWord, key: &str, takes: Takes) -> bool {
    let named_again = match key {
        "at" => matches!(kind.word, "chamfer" | "fillet" | "undercut"),
        "from" => kind.section,
        _ => false,
    };
    let sized =
        matches!(takes, Takes::Size | Takes::Diameter | Takes::Place) || (kind.word == "knurl" && key == "pitch");
    sized && !named_again && !matches!(key, "blank" | "ring" | "bore" | "drill depth" | "offset")
}
