//! The description with its words as this project writes them: canonical words, one space behind each colon and comma. Every
//! other character stays as it is, comments and order with it.

use super::keys::{self, Scope, Takes};
use super::tree::{Body, Entry, Node};
use super::{ReadPart, inside, part, syntax, text};
use crate::finding::FileId;

/// The byte order mark that some editors put first.
const MARK: &[u8] = b"\xEF\xBB\xBF";

/// Tidies a description.
///
/// # Errors
/// The description as it was read, when anything in it cannot be taken: then nothing of it is rewritten.
pub fn tidy(name: &str, bytes: &[u8]) -> Result<Vec<u8>, Box<ReadPart>> {
    let read = part(name, bytes);
    if !read.slips.is_empty() || read.part.is_none() {
        return Err(Box::new(read));
    }
    let mut decoded = text::decode(name, FileId::Part, bytes);
    let Some(tree) = syntax::tree(FileId::Part, &mut decoded) else { return Err(Box::new(read)) };
    let mut edits = Edits { text: &decoded.source.text, list: Vec::new() };
    edits.keys_of(&tree, Scope::Header);
    let mut out = if bytes.starts_with(MARK) { MARK.to_vec() } else { Vec::new() };
    out.extend_from_slice(edits.applied().as_bytes());
    Ok(out)
}

/// What is to be replaced, by bytes of the text.
struct Edits<'t> {
    text: &'t str,
    list: Vec<(usize, usize, String)>,
}

impl Edits<'_> {
    fn applied(mut self) -> String {
        self.list.sort();
        let mut out = String::with_capacity(self.text.len());
        let mut at = 0;
        for (start, end, new) in &self.list {
            if *start < at || end < start {
                continue;
            }
            out.push_str(&self.text[at..*start]);
            out.push_str(new);
            at = *end;
        }
        out.push_str(&self.text[at..]);
        out
    }

    fn slice(&self, start: usize, end: usize) -> &str {
        self.text.get(start..end).unwrap_or_default()
    }

    /// A mapping whose keys are of a scope.
    fn keys_of(&mut self, node: &Node, scope: Scope) {
        let Body::Keys(entries) = &node.body else { return };
        let kind = entries.iter().enumerate().find_map(|(i, e)| keys::kind_in(scope, &e.key).map(|k| (i, k)));
        for (i, entry) in entries.iter().enumerate() {
            // The places of what an alias copied are those of the alias: it is tidied where it is written.
            if entry.key_place.start < node.place.start || entry.key_place == node.place {
                return;
            }
            self.colon(entry);
            match kind {
                // A hole stays as drilled: the one other word of a kind that says more than the kind's own.
                Some((at, kind)) if at == i && kind.scope == Scope::InsideBore && inside::is_hole(&entry.key) => {
                    self.word(entry, "hole");
                }
                Some((at, kind)) if at == i => self.word(entry, kind.word),
                Some((_, kind)) => self.key(entry, kind.scope),
                None => self.key(entry, scope),
            }
            if let Some(next) = entries.get(i + 1) {
                self.comma(entry.value.place.end as usize, next.key_place.start as usize);
            }
        }
    }

    /// A key, then what stands under it.
    fn key(&mut self, entry: &Entry, scope: Scope) {
        let Some(key) = keys::find(scope, &entry.key) else { return self.below(&entry.value, None) };
        self.word(entry, key.word);
        match key.takes {
            Takes::Keys(inner) | Takes::Entries(inner) => self.below(&entry.value, Some(inner)),
            Takes::OneOf(known) => self.value(&entry.value, known),
            _ => self.below(&entry.value, None),
        }
    }

    /// Lists and mappings, whatever they mean.
    fn below(&mut self, node: &Node, scope: Option<Scope>) {
        match &node.body {
            Body::List(list) => {
                for (i, item) in list.iter().enumerate() {
                    if item.place == node.place {
                        return;
                    }
                    self.below(item, scope);
                    if let Some(next) = list.get(i + 1) {
                        self.comma(item.place.end as usize, next.place.start as usize);
                    }
                }
            }
            Body::Keys(entries) => match scope {
                Some(scope) => self.keys_of(node, scope),
                None => {
                    for (i, entry) in entries.iter().enumerate().filter(|(_, e)| e.key_place != node.place) {
                        self.colon(entry);
                        self.below(&entry.value, None);
                        if let Some(next) = entries.get(i + 1) {
                            self.comma(entry.value.place.end as usize, next.key_place.start as usize);
                        }
                    }
                }
            },
            Body::Text(_) | Body::Broken => {}
        }
    }

    /// The key by its own word, unless it stands in quotes.
    fn word(&mut self, entry: &Entry, word: &str) {
        let (start, end) = (entry.key_place.start as usize, entry.key_place.end as usize);
        if self.slice(start, end) == entry.key && entry.key != word {
            self.list.push((start, end, word.to_owned()));
        }
    }

    /// One of a few words, by its own spelling.
    fn value(&mut self, node: &Node, known: &[&str]) {
        let Some(written) = node.written() else { return };
        let (start, end) = (written.place.start as usize, written.place.end as usize);
        let folded = keys::fold(written.text);
        let word = known.iter().find(|w| keys::fold(w) == folded).copied().or(match folded.as_str() {
            "inch" | "inches" if known.contains(&"in") => Some("in"),
            "millimeters" | "millimetres" | "millimeter" | "millimetre" | "metric" if known.contains(&"mm") => {
                Some("mm")
            }
            _ => None,
        });
        if let Some(word) = word
            && written.exact
            && self.slice(start, end) == written.text
            && written.text != word
        {
            self.list.push((start, end, word.to_owned()));
        }
    }

    /// One space behind the colon, none before it, where the value stands on the same line.
    fn colon(&mut self, entry: &Entry) {
        let (start, end) = (entry.key_place.end as usize, entry.value.place.start as usize);
        let gap = self.slice(start, end);
        let blank = |s: &str| s.chars().all(|c| matches!(c, ' ' | '\t'));
        if let Some((before, behind)) = gap.split_once(':')
            && blank(before)
            && blank(behind)
            && !behind.is_empty()
            && gap != ": "
        {
            self.list.push((start, end, ": ".to_owned()));
        }
    }

    /// One space behind a comma, none before it, on one line.
    fn comma(&mut self, start: usize, end: usize) {
        let gap = self.slice(start, end);
        let blank = |s: &str| s.chars().all(|c| matches!(c, ' ' | '\t'));
        if let Some((before, behind)) = gap.split_once(',')
            && blank(before)
            && blank(behind)
            && gap != ", "
        {
            self.list.push((start, end, ", ".to_owned()));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_and_spaces_and_nothing_else() {
        let text = "\u{feff}Part:   pin # the name\r\nunits: inch\nDatum-End: head\noal:\t1\nfeatures:\n  - {journal : 0.5,to: end,carry: {what: pulley,bore:  0.5 , enters: Far}}\n  - bevel:  0.03 x 45°   # a lead\n    end: BOTH\n";
        let wanted = "\u{feff}part: pin # the name\r\nunits: in\ndatum: head\noverall: 1\nfeatures:\n  - {turn: 0.5, to: end, carries: {part: pulley, bore: 0.5, enters: far}}\n  - chamfer: 0.03 x 45°   # a lead\n    end: both\n";
        let once = tidy("x", text.as_bytes()).expect("it reads");
        assert_eq!(String::from_utf8_lossy(&once), wanted);
        assert_eq!(tidy("x", &once).expect("it reads"), once);
    }

    #[test]
    fn what_does_not_read_is_left_alone() {
        let read = tidy("x", b"part: pin\nunits: in\ndatm: a\noverall: 1\n").expect_err("a slip");
        assert!(!read.slips.is_empty());
    }
}
