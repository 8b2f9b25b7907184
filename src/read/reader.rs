//! What all of reading shares: the file, its unit, the slips so far, and how a key's value is fetched.

use std::collections::BTreeMap;

use super::forms::{self, Wants};
use super::keys::{self, Scope, Spot};
use super::tree::{Body, Entry, Node, Written};
use crate::finding::{FileId, Place, Source};
use crate::model::part::GeneralTolerances;
use crate::model::slip::{BadSize, Fault, Shape, Slip, Unreadable, WordOf};
use crate::model::{PlaceRef, Text};
use crate::unit::{Unit, Why, example_in};

/// Characters of a word or value that a message repeats.
const MOST_SHOWN: usize = 80;

/// A file while it is read.
#[derive(Debug)]
pub(super) struct Reader<'s> {
    /// Its text.
    pub source: &'s Source,
    /// Which file it is.
    pub file: FileId,
    /// Unit of sizes that carry none.
    pub unit: Unit,
    /// What sizes without limits mean.
    pub general: GeneralTolerances,
    /// Names of features as keys are compared, with their indices and where they stand.
    pub names: BTreeMap<String, (usize, Place)>,
    /// The inner face that places are counted from, where it is not the datum end.
    pub datum_face: Option<crate::model::part::DatumFace>,
    /// The entry that is being read.
    pub entry: Option<Place>,
    /// The two faces of the `dims` entry that is being read.
    pub between: Option<(PlaceRef, PlaceRef)>,
    /// What could not be taken.
    pub slips: Vec<Slip>,
}

/// A known key of an entry, with its value.
#[derive(Debug, Clone, Copy)]
pub(super) struct Field<'t> {
    /// The key's word, however it was spelt.
    pub word: &'static str,
    /// Where the key stands.
    pub key_place: Place,
    /// Its value.
    pub value: &'t Node,
}

/// The known keys of an entry.
#[derive(Debug)]
pub(super) struct Fields<'t> {
    /// Where the entry stands.
    pub place: Place,
    /// What kind of entry it is.
    pub scope: Scope,
    /// Its keys, each once.
    pub list: Vec<Field<'t>>,
}

impl<'t> Fields<'t> {
    /// The value of a key.
    pub(super) fn get(&self, word: &str) -> Option<Field<'t>> {
        self.list.iter().copied().find(|f| f.word == word)
    }

    /// Whether a key is there.
    pub(super) fn has(&self, word: &str) -> bool {
        self.get(word).is_some()
    }
}

impl<'s> Reader<'s> {
    pub(super) fn new(source: &'s Source, file: FileId) -> Self {
        Self {
            source,
            file,
            unit: Unit::Inch,
            general: GeneralTolerances::default(),
            names: BTreeMap::new(),
            datum_face: None,
            entry: None,
            between: None,
            slips: Vec::new(),
        }
    }

    /// Notes what could not be taken.
    pub(super) fn slip(&mut self, place: Place, fault: Fault) {
        if !self.is_full() {
            self.slips.push(Slip { place, fault, entry: self.entry });
        }
    }

    /// Whether there are more slips than will be told; some are told twice until they are put in order.
    pub(super) fn is_full(&self) -> bool {
        self.slips.len() > 2 * super::MOST_FAULTS
    }

    /// Notes a size that cannot be read.
    pub(super) fn bad(&mut self, written: Written<'_>, at: Place, why: BadSize, wants: Wants) {
        if wants.is_size()
            && let Some((range, found)) = keys::in_size(written.text)
        {
            let word = clipped(&written.text[range.clone()]);
            self.slip(written.at(range), Fault::TradeWord { word, readings: found.readings });
            return;
        }
        // Words without a digit are no size at all: no single letter of them is to blame.
        let no_figure =
            !written.text.is_empty() && !written.text.contains(char::is_numeric) && !written.text.contains("OO");
        let (at, why) = match why {
            BadSize::Number(Why::Character | Why::Tolerance) | BadSize::Unit if no_figure => {
                (written.place, BadSize::Form)
            }
            why => (at, why),
        };
        let meant = match &why {
            BadSize::Number(why) => forms::meant(written.text, *why, wants, self.unit),
            BadSize::Form if wants == Wants::Limits => forms::signed(written.text, self.unit),
            _ => None,
        };
        let forms = forms::of(wants, self.unit);
        let text = written.text.to_owned();
        let from = at.start.saturating_sub(written.place.start) as usize;
        let piece = text.get(from..from + (at.end - at.start) as usize).filter(|_| written.exact);
        let (piece, text) = (clipped(piece.unwrap_or(&text)), clipped(&text));
        let value = written.place;
        let between = self.between.clone().map(Box::new);
        self.slip(at, Fault::BadSize { text, piece, why, value, wants: wants.called(), forms, meant, between });
    }

    /// The keys of an entry.
    pub(super) fn fields<'t>(&mut self, under: &str, node: &'t Node, scope: Scope) -> Option<Fields<'t>> {
        match &node.body {
            Body::Keys(entries) => Some(self.fields_of(entries.iter(), scope, node.place)),
            Body::Broken => None,
            _ => {
                self.wrong_shape(under, node, scope);
                None
            }
        }
    }

    /// The known keys among these; the others are told.
    pub(super) fn fields_of<'t>(
        &mut self,
        entries: impl Iterator<Item = &'t Entry>,
        scope: Scope,
        place: Place,
    ) -> Fields<'t> {
        let mut list: Vec<Field<'t>> = Vec::new();
        for entry in entries.filter(|e| e.usable) {
            let Some(key) = keys::find(scope, &entry.key) else {
                self.unknown_key(entry, scope);
                continue;
            };
            if let Some(first) = list.iter().find(|f| f.word == key.word) {
                let first = first.key_place;
                self.slip(entry.key_place, Fault::Duplicate { word: clipped(&entry.key), name: false, first });
                continue;
            }
            list.push(Field { word: key.word, key_place: entry.key_place, value: &entry.value });
        }
        Fields { place, scope, list }
    }

    /// Notes a value of the wrong shape under a key.
    pub(super) fn wrong_shape(&mut self, under: &str, node: &Node, scope: Scope) {
        if let Some(written) = node.written()
            && let Some((_, why)) = super::syntax::glued(written.text)
        {
            self.slip(node.place, Fault::Unreadable(why));
            return;
        }
        let (wants, example) = forms::shape(scope);
        let fault = Fault::WrongShape { key: under.to_owned(), wants, found: shape(node), example: example.to_owned() };
        self.slip(node.place, fault);
    }

    /// The one value of a key; what else stands there is told.
    pub(super) fn value<'t>(&mut self, field: &Field<'t>, wants: Wants) -> Option<Written<'t>> {
        let node = field.value;
        match &node.body {
            Body::Broken => None,
            Body::Text(_) => {
                let written = node.written()?;
                if self.lost_to_comment(field, written) {
                    return None;
                }
                let nothing = matches!(written.text, "" | "~" | "null") && wants != Wants::Words;
                if nothing || written.text.is_empty() {
                    self.bad(written, field.key_place, BadSize::Number(crate::unit::Why::Empty), wants);
                    return None;
                }
                Some(written)
            }
            Body::List(list) => {
                let brackets = self.source.text.get(node.place.start as usize..node.place.end as usize);
                if let (Some(text), [one]) = (brackets.filter(|t| t.starts_with('[')), list.as_slice())
                    && one.written().is_some()
                {
                    let written = Written { text, place: node.place, exact: true };
                    self.bad(written, node.place, BadSize::Number(crate::unit::Why::SquareBrackets), wants);
                } else {
                    self.one_value(field, wants);
                }
                None
            }
            Body::Keys(_) => {
                self.one_value(field, wants);
                None
            }
        }
    }

    fn one_value(&mut self, field: &Field<'_>, wants: Wants) {
        let [example, ..] = forms::of(wants, self.unit);
        let fault = Fault::WrongShape {
            key: field.word.to_owned(),
            wants: wants.called(),
            found: shape(field.value),
            example: format!("{}: {example}", field.word),
        };
        self.slip(field.value.place, fault);
    }

    /// Whether a `#` took the value, or its end.
    fn lost_to_comment(&mut self, field: &Field<'_>, written: Written<'_>) -> bool {
        let empty = written.text.is_empty();
        let from = if empty { field.key_place.end } else { field.value.place.end } as usize;
        let line = self.source.text.get(from..).unwrap_or_default().lines().next().unwrap_or_default();
        let rest = if empty { line.strip_prefix(':').unwrap_or_default() } else { line };
        let Some(comment) = rest.trim_start().strip_prefix('#') else { return false };
        let comment = comment.trim_end();
        let length = comment.len();
        let digit = comment.starts_with(|c: char| c.is_ascii_digit());
        let gap = if comment.starts_with(' ') { " " } else { "" };
        let (comment, shown) = (&*clipped(comment), clipped(written.text));
        let behind_value = !empty && rest.starts_with(char::is_whitespace);
        if !(empty && !comment.is_empty() || behind_value && digit) {
            return false;
        }
        let hash = from + line.len() - rest.trim_start().len();
        let place = Place::new(self.file, hash, hash + 1 + length);
        let meant = match (empty, digit) {
            (true, true) => format!("No. {comment}"),
            (true, false) => comment.trim().to_owned(),
            (false, _) => format!("\"{shown} #{comment}\""),
        };
        let fault = Fault::LostToComment { key: field.word.to_owned(), comment: format!("#{gap}{comment}"), meant };
        self.slip(place, fault);
        empty
    }

    /// Words under a key.
    pub(super) fn text(&mut self, field: Option<Field<'_>>) -> Option<Text> {
        let written = self.value(&field?, Wants::Words)?;
        Some(Text { text: written.text.to_owned(), place: written.place })
    }

    /// A value that must be one of a few words; compared as keys are.
    pub(super) fn word(&mut self, written: Written<'_>, known: &[&'static str], within: &str) -> Option<&'static str> {
        let folded = keys::fold(written.text);
        if let Some(word) = known.iter().find(|w| keys::fold(w) == folded) {
            return Some(*word);
        }
        let nearest = keys::nearest_of(written.text, known.iter().map(|w| (*w, *w)));
        self.unknown_value(written, within, nearest, known.iter().map(|w| (*w).to_owned()).collect());
        None
    }

    /// Notes a word that is not one of those known here.
    pub(super) fn unknown_value(
        &mut self,
        written: Written<'_>,
        within: &str,
        nearest: Option<String>,
        known: Vec<String>,
    ) {
        if self.trade_word(written.place, written.text, Spot::Value) {
            return;
        }
        self.slip(
            written.place,
            Fault::UnknownWord {
                word: clipped(written.text),
                of: WordOf::Value,
                within: within.to_owned(),
                nearest,
                belongs: Vec::new(),
                known,
            },
        );
    }

    /// Yes or no.
    pub(super) fn yes_no(&mut self, field: Option<Field<'_>>) -> Option<bool> {
        let field = field?;
        let written = self.value(&field, Wants::YesNo)?;
        match written.text.to_ascii_lowercase().as_str() {
            "yes" | "true" | "on" => Some(true),
            "no" | "false" | "off" | "none" => Some(false),
            _ => {
                self.unknown_value(written, field.word, None, vec!["yes".into(), "no".into()]);
                None
            }
        }
    }

    /// Notes a key that an entry cannot do without.
    pub(super) fn missing(&mut self, place: Place, key: &'static str, within: &str, example: &str) {
        // A key that is there with a slip in its name is told once, as the slip.
        let misspelt = |s: &Slip| {
            let of_key = |n: &Option<String>| n.as_deref() == Some(key);
            s.entry == self.entry
                && matches!(&s.fault, Fault::UnknownWord { of: WordOf::Key, nearest, .. } if of_key(nearest))
        };
        if self.slips.iter().any(misspelt) {
            return;
        }
        // Nor one place told by the word of the other: where a thing begins, and where its centre is.
        let entry = self.entry;
        let other = match key {
            "from" => "at",
            "at" => "from",
            _ => "",
        };
        let swapped = self.slips.iter_mut().find_map(|s| match &mut s.fault {
            Fault::UnknownWord { word, of: WordOf::Key, belongs, known, .. } if s.entry == entry && word == other => {
                Some((belongs, known))
            }
            _ => None,
        });
        if let Some((belongs, known)) = swapped {
            belongs.clear();
            *known = vec![key.to_owned()];
            return;
        }
        let example = example_in(example, self.unit);
        self.slip(place, Fault::Missing { key, within: within.to_owned(), example });
    }

    /// Notes what is known to the trade and not worked.
    pub(super) fn not_supported(&mut self, place: Place, word: &str) {
        self.slip(place, Fault::NotSupported { word: word.to_owned() });
    }
}

/// The entries of a list; one entry alone counts as a list of one.
pub(super) fn items(field: Option<Field<'_>>) -> Vec<Field<'_>> {
    let Some(field) = field else { return Vec::new() };
    let each = |value| Field { value, key_place: field.value.place, ..field };
    match &field.value.body {
        Body::List(list) => list.iter().map(each).collect(),
        Body::Keys(_) => vec![each(field.value)],
        Body::Text(scalar) if !scalar.text.is_empty() => vec![each(field.value)],
        Body::Text(_) | Body::Broken => Vec::new(),
    }
}

/// Whether the text itself broke a rule, so that what seems missing may be there.
pub(super) fn broken_text(slips: &[Slip]) -> bool {
    slips.iter().any(|s| matches!(s.fault, Fault::Unreadable(ref u) if *u != Unreadable::Tag))
}

/// A text as a message repeats it: on one line, and not too much of it.
pub(super) fn clipped(text: &str) -> String {
    let end = text.char_indices().nth(MOST_SHOWN).map(|(end, _)| end);
    let line = text[..end.unwrap_or(text.len())].split(['\n', '\r']).map(str::trim).filter(|l| !l.is_empty());
    let mut shown = line.collect::<Vec<_>>().join(" ");
    if end.is_some() {
        shown.push('…');
    }
    shown
}

/// The shape of a node.
pub(super) fn shape(node: &Node) -> Shape {
    match &node.body {
        Body::Text(s) if s.text.is_empty() => Shape::Nothing,
        Body::Text(_) | Body::Broken => Shape::Text,
        Body::List(_) => Shape::List,
        Body::Keys(_) => Shape::Keys,
    }
}
