//! The events of `saphyr-parser` to a tree with places. This file alone names that library.
//!
//! Its marks count characters and may lie behind the end of the text; here they become bytes of the text, held inside it.

use std::collections::BTreeMap;

use saphyr_parser::{Event, Parser, ScanError, Span};

use super::tree::{Body, Entry, Node, Scalar};
use crate::finding::{FileId, Place};
use crate::model::slip::{Fault, Slip, Unreadable};

/// Values of a file, those that aliases copy counted in.
const MOST_VALUES: usize = 100_000;
/// Values that aliases may add to a file; a long text counts as one for every so many bytes.
const MOST_COPIED: usize = 10_000;
const BYTES_OF_A_VALUE: usize = 64;
/// The same of what bears an anchor, which is kept for the aliases.
const MOST_ANCHORED: usize = 100_000;
/// Levels that are read.
const MOST_LEVELS: usize = 64;

/// What the events say of a file.
#[derive(Debug)]
pub(super) struct Seen {
    /// The first document; `None` when there is none, or the text breaks the rules of the format.
    pub tree: Option<Node>,
    /// What was found on the way.
    pub slips: Vec<Slip>,
    /// Where the text breaks the rules: line from 0, byte, and the library's words.
    pub broken: Option<Broken>,
}

/// A break of the format's rules.
#[derive(Debug)]
pub(super) struct Broken {
    /// Line, from 0.
    pub line: usize,
    /// Byte of the text.
    pub byte: usize,
    /// The library's words.
    pub said: String,
}

/// Byte of each character of a text.
pub(super) struct Bytes(Option<Vec<u32>>, usize);

impl Bytes {
    pub(super) fn of(text: &str) -> Self {
        let table = (!text.is_ascii())
            .then(|| text.char_indices().map(|(i, _)| u32::try_from(i).unwrap_or(u32::MAX)).collect());
        Self(table, text.len())
    }

    /// Byte at which character `n` begins; the end of the text for any behind it.
    pub(super) fn at(&self, n: usize) -> usize {
        match &self.0 {
            Some(table) => table.get(n).map_or(self.1, |b| *b as usize),
            None => n.min(self.1),
        }
    }
}

/// A list or mapping that is still open.
struct Open {
    start: usize,
    anchor: usize,
    level: Level,
}

enum Level {
    List(Vec<Node>),
    Keys(Vec<Entry>, Option<(String, Place, bool)>),
}

struct Builder<'a> {
    file: FileId,
    text: &'a str,
    bytes: Bytes,
    open: Vec<Open>,
    anchors: BTreeMap<usize, Option<Node>>,
    values: usize,
    copied: usize,
    anchored: usize,
    told_of_copies: bool,
    root: Option<Node>,
    slips: Vec<Slip>,
}

/// Reads the events of `clean`, whose characters stand where those of `text` do.
pub(super) fn look(file: FileId, text: &str, clean: &str) -> Seen {
    let mut b = Builder {
        file,
        text,
        bytes: Bytes::of(text),
        open: Vec::new(),
        anchors: BTreeMap::new(),
        values: 0,
        copied: 0,
        anchored: 0,
        told_of_copies: false,
        root: None,
        slips: Vec::new(),
    };
    let mut documents = 0;
    let mut parser = Parser::new_from_str(clean);
    while let Some(next) = parser.next_event() {
        let (event, span) = match next {
            Ok(next) => next,
            Err(error) => {
                let broken = Some(b.broken(&error));
                return Seen { tree: None, slips: b.slips, broken };
            }
        };
        if matches!(event, Event::DocumentStart(_)) {
            documents += 1;
            if documents > 1 {
                let at = b.bytes.at(span.start.index());
                b.slip(Place::new(file, at, at + 1), Unreadable::SecondDocument);
                break;
            }
        }
        b.values += 1;
        if b.values > MOST_VALUES {
            let at = b.bytes.at(span.start.index());
            b.slip(Place::new(file, at, at + 1), Unreadable::TooMany { what: "values", most: MOST_VALUES });
            return Seen { tree: None, slips: b.slips, broken: None };
        }
        if !b.take(event, span) {
            return Seen { tree: None, slips: b.slips, broken: None };
        }
    }
    Seen { tree: b.root, slips: b.slips, broken: None }
}

impl Builder<'_> {
    fn broken(&self, error: &ScanError) -> Broken {
        let byte = self.bytes.at(error.marker().index());
        Broken { line: error.marker().line().saturating_sub(1), byte, said: error.info().to_owned() }
    }

    fn slip(&mut self, place: Place, why: Unreadable) {
        let end = u32::try_from(self.text.len()).unwrap_or(u32::MAX);
        let place = Place { start: place.start.min(end), end: place.end.min(end), ..place };
        // Some more than will be told, so that the rest is told to be there.
        if self.slips.len() <= 2 * super::MOST_FAULTS {
            self.slips.push(Slip { place, fault: Fault::Unreadable(why), entry: None });
        }
    }

    /// Takes an event; false when reading must stop.
    fn take(&mut self, event: Event<'_>, span: Span) -> bool {
        let (start, end) = (self.bytes.at(span.start.index()), self.bytes.at(span.end.index()));
        let end = end.max(start);
        match event {
            Event::Scalar(text, _, anchor, tag) => {
                let node = self.scalar(&text, start, end, tag.is_some());
                self.remember(anchor, &node);
                self.put(node);
            }
            Event::SequenceStart(anchor, tag) => {
                return self.begin(start, end, anchor, tag.is_some(), Level::List(Vec::new()));
            }
            Event::MappingStart(anchor, tag) => {
                return self.begin(start, end, anchor, tag.is_some(), Level::Keys(Vec::new(), None));
            }
            Event::SequenceEnd | Event::MappingEnd => self.finish(start, end),
            Event::Alias(anchor) => {
                let node = self.alias(anchor, Place::new(self.file, start, end));
                self.put(node);
            }
            _ => {}
        }
        true
    }

    fn scalar(&mut self, text: &str, start: usize, end: usize, tagged: bool) -> Node {
        let slice = self.text.get(start..end).unwrap_or_default();
        let end = start + slice.trim_end().len();
        let slice = slice.trim_end();
        let place = Place::new(self.file, start, end);
        if tagged {
            self.slip(place, Unreadable::Tag);
            return Node { place, body: Body::Broken };
        }
        let quoted = slice.len() >= 2 && slice.len() == text.len() + 2;
        let offset = if slice == text {
            Some(0)
        } else if quoted && slice.starts_with(['"', '\'']) && slice.get(1..slice.len() - 1) == Some(text) {
            Some(1)
        } else {
            None
        };
        Node { place, body: Body::Text(Scalar { text: text.to_owned(), offset }) }
    }

    fn begin(&mut self, start: usize, end: usize, anchor: usize, tagged: bool, level: Level) -> bool {
        if tagged {
            self.slip(Place::new(self.file, start, end), Unreadable::Tag);
        }
        self.open.push(Open { start, anchor, level });
        if self.open.len() > MOST_LEVELS {
            self.slip(Place::new(self.file, start, start + 1), Unreadable::TooDeep);
        }
        self.open.len() <= MOST_LEVELS
    }

    fn finish(&mut self, start: usize, end: usize) {
        let Some(open) = self.open.pop() else { return };
        let closed = self.text.get(start..end).is_some_and(|s| s.ends_with([']', '}']));
        let last = match &open.level {
            Level::List(list) => list.last().map(|n| n.place.end),
            Level::Keys(keys, _) => keys.last().map(|e| e.value.place.end.max(e.key_place.end)),
        };
        let end = if closed { end } else { last.map_or(open.start, |e| e as usize) };
        let body = match open.level {
            Level::List(list) => Body::List(list),
            Level::Keys(keys, _) => Body::Keys(keys),
        };
        let node = Node { place: Place::new(self.file, open.start, end), body };
        self.remember(open.anchor, &node);
        self.put(node);
    }

    fn remember(&mut self, anchor: usize, node: &Node) {
        if anchor == 0 {
            return;
        }
        self.anchored += size(node);
        let kept = if self.anchored > MOST_ANCHORED {
            // An alias to it is then told to copy too much.
            None
        } else {
            Some(node.clone())
        };
        self.anchors.insert(anchor, kept);
    }

    /// A copy of what the anchor names, with every place at the alias.
    fn alias(&mut self, anchor: usize, place: Place) -> Node {
        let left = MOST_COPIED.saturating_sub(self.copied);
        let copy = self.anchors.get(&anchor).and_then(Option::as_ref).filter(|n| size(n) <= left).cloned();
        let Some(mut copy) = copy else {
            if !self.anchors.contains_key(&anchor) {
                self.slip(place, Unreadable::Alias);
            } else if !self.told_of_copies {
                self.told_of_copies = true;
                self.slip(place, Unreadable::TooMany { what: "values copied by aliases", most: MOST_COPIED });
            }
            return Node { place, body: Body::Broken };
        };
        self.copied += size(&copy);
        move_to(&mut copy, place);
        copy
    }

    /// Puts a finished node where it belongs.
    fn put(&mut self, node: Node) {
        match self.open.last_mut() {
            None => self.root = self.root.take().or(Some(node)),
            Some(Open { level: Level::List(list), .. }) => list.push(node),
            Some(Open { level: Level::Keys(keys, pending), .. }) => {
                if let Some((key, key_place, usable)) = pending.take() {
                    keys.push(Entry { key, key_place, value: node, usable });
                    return;
                }
                let (key, usable) = match &node.body {
                    Body::Text(scalar) => (scalar.text.clone(), scalar.text != "<<"),
                    _ => (String::new(), false),
                };
                *pending = Some((key.clone(), node.place, usable));
                if key == "<<" {
                    self.slip(node.place, Unreadable::MergeKey);
                } else if !usable && !matches!(node.body, Body::Broken) {
                    self.slip(node.place, Unreadable::KeyNotText);
                }
            }
        }
    }
}

/// Nodes in a tree.
fn size(node: &Node) -> usize {
    1 + match &node.body {
        Body::List(list) => list.iter().map(size).sum(),
        Body::Keys(keys) => keys.iter().map(|e| size(&e.value) + e.key.len() / BYTES_OF_A_VALUE).sum(),
        Body::Text(scalar) => scalar.text.len() / BYTES_OF_A_VALUE,
        Body::Broken => 0,
    }
}

fn move_to(node: &mut Node, place: Place) {
    node.place = place;
    match &mut node.body {
        Body::Text(scalar) => scalar.offset = None,
        Body::List(list) => list.iter_mut().for_each(|n| move_to(n, place)),
        Body::Keys(keys) => {
            for entry in keys {
                entry.key_place = place;
                move_to(&mut entry.value, place);
            }
        }
        Body::Broken => {}
    }
}
