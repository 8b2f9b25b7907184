//! What a description may hold at most, and the refusal of the rest. A plan and a sheet of what passes are made in bounded time and memory.

use super::tree::{Body, Entry, Node};
use crate::finding::{FileId, Place};
use crate::model::slip::{Fault, Slip, Unreadable};

/// Entries of one list: features, dims, accepted findings.
pub(super) const MOST_ENTRIES: usize = 2_000;
/// Characters of one value; notes may have more.
const MOST_CHARACTERS: usize = 1_000;
/// Characters of the notes: some eight pages of a sheet.
const MOST_OF_NOTES: usize = 20_000;

/// Leaves out what is too long or too many, and tells each kind once.
pub(super) fn keep(file: FileId, tree: &mut Node) -> Vec<Slip> {
    let mut limits = Limits { file, slips: Vec::new() };
    if let Body::Keys(keys) = &mut tree.body {
        for entry in keys {
            let notes = entry.key.trim().eq_ignore_ascii_case("notes");
            limits.entry(entry, if notes { MOST_OF_NOTES } else { MOST_CHARACTERS });
        }
    } else {
        limits.node(tree, "entries of one list", MOST_CHARACTERS);
    }
    limits.slips
}

struct Limits {
    file: FileId,
    slips: Vec<Slip>,
}

impl Limits {
    fn entry(&mut self, entry: &mut Entry, most: usize) {
        if longer(&entry.key, MOST_CHARACTERS) && entry.usable {
            self.tell(entry.key_place, "characters in a key", MOST_CHARACTERS);
            entry.usable = false;
        }
        let list = match entry.key.trim() {
            "features" => "features",
            "inside" => "entries of inside",
            "dims" => "dims",
            _ => "entries of one list",
        };
        self.node(&mut entry.value, list, most);
    }

    fn node(&mut self, node: &mut Node, list: &'static str, most: usize) {
        let place = node.place;
        match &mut node.body {
            Body::Text(scalar) if longer(&scalar.text, most) => {
                let what = if most == MOST_OF_NOTES { "characters in the notes" } else { "characters in one value" };
                self.tell(place, what, most);
                node.body = Body::Broken;
            }
            Body::List(entries) => {
                if let Some(next) = entries.get(MOST_ENTRIES) {
                    self.tell(next.place, list, MOST_ENTRIES);
                    entries.truncate(MOST_ENTRIES);
                }
                for entry in entries {
                    self.node(entry, "entries of one list", MOST_CHARACTERS);
                }
            }
            Body::Keys(keys) => {
                for entry in keys {
                    self.entry(entry, MOST_CHARACTERS);
                }
            }
            Body::Text(_) | Body::Broken => {}
        }
    }

    /// The first characters are enough to show which value it is.
    fn tell(&mut self, place: Place, what: &'static str, most: usize) {
        let place = Place { file: self.file, end: place.end.min(place.start.saturating_add(40)), ..place };
        self.slips.push(Slip { place, fault: Fault::Unreadable(Unreadable::TooMany { what, most }), entry: None });
    }
}

fn longer(text: &str, most: usize) -> bool {
    text.len() > most && text.chars().nth(most).is_some()
}
