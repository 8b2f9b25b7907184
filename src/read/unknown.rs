//! Keys that are not known where they stand: what is said of them.

use super::keys::{self, Scope, Spot};
use super::reader::{Reader, clipped};
use super::tree::Entry;
use crate::finding::Place;
use crate::model::slip::{Fault, WordOf};

impl Reader<'_> {
    /// Answers a word of the trade that stands where it is not known; false when the trade has no such word.
    pub(super) fn trade_word(&mut self, place: Place, word: &str, spot: Spot) -> bool {
        let Some(found) = keys::meaning(word, spot) else { return false };
        self.slip(place, Fault::TradeWord { word: clipped(word), readings: found.readings });
        true
    }

    /// Answers a key that is written in another way here; false when none is known.
    pub(super) fn written_else(&mut self, entry: &Entry, scope: Scope) -> bool {
        let Some(instead) = keys::elsewhere(scope, &entry.key) else { return false };
        let word = clipped(&entry.key);
        self.slip(entry.key_place, Fault::WrittenElse { word, within: scope.called(), instead });
        true
    }

    /// Tells a key that is not known where it stands, with the best that can be said of it.
    pub(super) fn unknown_key(&mut self, entry: &Entry, scope: Scope) {
        if self.is_full() {
            return;
        }
        if self.written_else(entry, scope) {
            return;
        }
        // The depth of a thread has two readings; a depth elsewhere is just out of place.
        let depth = scope != Scope::Thread && keys::fold(&entry.key) == "depth";
        if !depth && self.trade_word(entry.key_place, &entry.key, Spot::Key) {
            return;
        }
        let belongs = keys::belongs(&entry.key, scope);
        let nearest = keys::nearest(scope, &entry.key);
        self.slip(
            entry.key_place,
            Fault::UnknownWord {
                word: clipped(&entry.key),
                of: WordOf::Key,
                within: scope.called().to_owned(),
                nearest,
                belongs,
                known: Vec::new(),
            },
        );
    }
}
