//! Named features: where a name is given, and where it is used.

use std::ops::Range;

use super::document::Analysis;
use crate::finding::FileId;
use crate::model::{Feature, Part};
use crate::read::keys::fold;

/// Where a name is given, and the file it names.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Definition {
    /// Bytes of this text.
    Here(Range<usize>),
    /// The shop file.
    ShopFile,
}

/// Where the name under byte `at` is given.
pub(super) fn definition(analysis: &Analysis, at: usize) -> Option<Definition> {
    let part = analysis.part()?;
    if let Some(lathe) = &part.lathe
        && covers(lathe.place, at)
    {
        return Some(Definition::ShopFile);
    }
    let feature = named_at(part, &analysis.source.text, at)?;
    Some(Definition::Here(given(feature)))
}

/// Every use of the name under byte `at`; the place where it is given too, if asked.
pub(super) fn references(analysis: &Analysis, at: usize, with_definition: bool) -> Vec<Range<usize>> {
    let Some(part) = analysis.part() else { return Vec::new() };
    let text = &analysis.source.text;
    let Some(feature) = named_at(part, text, at).or_else(|| feature_at(part, at)) else { return Vec::new() };
    let Some(name) = &feature.name else { return Vec::new() };
    let own = given(feature);
    let mut found = uses(part, text, &name.text);
    found.retain(|r| with_definition || *r != own);
    found
}

/// The feature whose entry covers a byte.
pub(super) fn feature_at(part: &Part, at: usize) -> Option<&Feature> {
    part.features.iter().find(|f| covers(f.place, at))
}

/// The feature whose name stands at a byte: the longest name there.
fn named_at<'p>(part: &'p Part, text: &str, at: usize) -> Option<&'p Feature> {
    let named = part.features.iter().filter_map(|f| f.name.as_ref().map(|n| (f, &n.text)));
    let here = named.filter(|(_, name)| uses(part, text, name).iter().any(|r| r.start <= at && at <= r.end));
    here.max_by_key(|(_, name)| name.len()).map(|(f, _)| f)
}

/// Where a feature's name is given; its head where it has none.
fn given(feature: &Feature) -> Range<usize> {
    let place = feature.name.as_ref().map_or(feature.head, |n| n.place);
    place.start as usize..place.end as usize
}

/// Places where a name stands as whole words, in no comment, and not in the notes.
fn uses(part: &Part, text: &str, name: &str) -> Vec<Range<usize>> {
    let wanted = fold(name);
    let mut found = Vec::new();
    if wanted.is_empty() {
        return found;
    }
    let notes = part.notes.as_ref().map(|n| n.place.start as usize..n.place.end as usize);
    let mut start = 0;
    for line in text.split_inclusive('\n') {
        let code = super::flow::without_comment(line);
        for (i, _) in code.char_indices().filter(|(i, c)| c.is_alphanumeric() && !wordy_before(code, *i)) {
            let Some(end) = match_words(&code[i..], &wanted).map(|n| start + i + n) else { continue };
            let inside_notes = notes.as_ref().is_some_and(|n| n.contains(&(start + i)));
            if !inside_notes && !is_key(text, end) {
                found.push(start + i..end);
            }
        }
        start += line.len();
    }
    found
}

/// Bytes of the words at the start of `text` that are `wanted` when folded.
fn match_words(text: &str, wanted: &str) -> Option<usize> {
    let mut at = 0;
    for (n, word) in wanted.split(' ').enumerate() {
        if n > 0 {
            let gap = text[at..].len() - text[at..].trim_start_matches([' ', '-', '_']).len();
            at += if gap > 0 { gap } else { return None };
        }
        let rest = &text[at..];
        let end = rest.find(|c: char| c.is_whitespace() || "-_,:{}[]\"'".contains(c)).unwrap_or(rest.len());
        if fold(&rest[..end]) != word {
            return None;
        }
        at += end;
    }
    Some(at)
}

fn wordy_before(text: &str, at: usize) -> bool {
    text[..at].chars().next_back().is_some_and(char::is_alphanumeric)
}

/// Whether a colon of a key follows.
fn is_key(text: &str, end: usize) -> bool {
    text[end..].strip_prefix(':').is_some_and(|rest| rest.starts_with([' ', '\n', '\r']) || rest.is_empty())
}

fn covers(place: crate::finding::Place, at: usize) -> bool {
    place.file == FileId::Part && place.start as usize <= at && at <= place.end as usize
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whole_words_however_spelt() {
        assert_eq!(match_words("Pulley-Seat end", "pulley seat"), Some(11));
        assert_eq!(match_words("pulley seats", "pulley seat"), None);
        assert_eq!(match_words("pulley", "pulley seat"), None);
    }
}
