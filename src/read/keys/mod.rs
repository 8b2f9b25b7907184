//! The words of the two files: one table, from which come what is known, what a wrong word was meant to be, where a word
//! belongs, the shape of its value, and (elsewhere) the schema and the completion.

mod chart;
mod elsewhere;
mod kinds;
mod measured;
mod part;
mod scope;
mod shop;
mod trade;
mod trade_find;
mod values;

use std::collections::BTreeMap;
use std::sync::LazyLock;

pub(super) use elsewhere::elsewhere;
pub use kinds::{INSIDE_KINDS, KINDS, KindWord};
pub use scope::{Scope, Takes};
pub use trade::{Spot, TRADE_WORDS, TradeWord};
pub(super) use trade_find::{in_size, meaning};
pub use values::{examples, kind_examples, words};

/// A key.
#[derive(Debug)]
pub struct Key {
    /// The word of this page.
    pub word: &'static str,
    /// Other spellings and other trades' words, folded as [`fold`] does.
    pub also: &'static [&'static str],
    /// What its value is.
    pub takes: Takes,
    /// Where it may stand.
    pub scopes: &'static [Scope],
    /// What it says, in a few words.
    pub about: &'static str,
}

/// All keys, those of the description first.
pub fn all() -> impl Iterator<Item = &'static Key> {
    part::KEYS.iter().chain(measured::KEYS).chain(chart::KEYS).chain(shop::KEYS)
}

static BY_WORD: LazyLock<BTreeMap<(Scope, &'static str), &'static Key>> = LazyLock::new(|| {
    let mut words = BTreeMap::new();
    for key in all() {
        for scope in key.scopes {
            for word in std::iter::once(&key.word).chain(key.also) {
                words.entry((*scope, *word)).or_insert(key);
            }
        }
    }
    words
});

static KIND_BY_WORD: LazyLock<BTreeMap<&'static str, &'static KindWord>> =
    LazyLock::new(|| KINDS.iter().flat_map(|k| std::iter::once(&k.word).chain(k.also).map(move |w| (*w, k))).collect());

/// A key as it is compared: small letters, one space for spaces, hyphens and underscores, `center` and `gauge` however spelt.
pub fn fold(word: &str) -> String {
    let mut out = String::with_capacity(word.len() + 1);
    for part in word.split([' ', '-', '_']).filter(|p| !p.is_empty()) {
        if !out.is_empty() {
            out.push(' ');
        }
        out.extend(part.chars().flat_map(char::to_lowercase));
    }
    for (other, ours) in [("centre", "center"), ("gage", "gauge")] {
        if out.contains(other) {
            out = out.replace(other, ours);
        }
    }
    out
}

/// The keys that may stand here, in the order of the tables.
pub fn of(scope: Scope) -> impl Iterator<Item = &'static Key> {
    all().filter(move |k| k.scopes.contains(&scope))
}

/// The key that this word names here.
pub fn find(scope: Scope, word: &str) -> Option<&'static Key> {
    BY_WORD.get(&(scope, fold(word).as_str())).copied()
}

/// The kind of feature that this word names.
pub fn kind(word: &str) -> Option<&'static KindWord> {
    KIND_BY_WORD.get(fold(word).as_str()).copied()
}

/// The kind of thing cut inside that this word names.
pub(super) fn inside_kind(word: &str) -> Option<&'static KindWord> {
    let folded = fold(word);
    INSIDE_KINDS.iter().find(|k| std::iter::once(&k.word).chain(k.also).any(|w| *w == folded))
}

/// The kind that this word names in a list of kinds: `features` or `inside`; none elsewhere.
pub fn kind_in(scope: Scope, word: &str) -> Option<&'static KindWord> {
    match scope {
        Scope::Kind => kind(word),
        Scope::InsideKind => inside_kind(word),
        _ => None,
    }
}

/// The kinds of a list of kinds; none elsewhere.
pub const fn kinds_of(scope: Scope) -> &'static [KindWord] {
    match scope {
        Scope::Kind => KINDS,
        Scope::InsideKind => INSIDE_KINDS,
        _ => &[],
    }
}

/// The nearest kind of thing cut inside.
pub(super) fn nearest_inside(word: &str) -> Option<String> {
    let spellings = INSIDE_KINDS.iter().flat_map(|k| std::iter::once(&k.word).chain(k.also).map(move |w| (*w, k.word)));
    nearest_of(word, spellings)
}

/// Whether a word is a key or a kind anywhere.
pub(super) fn known_anywhere(word: &str) -> bool {
    let folded = fold(word);
    !folded.is_empty()
        && (kind(word).is_some() || Scope::ALL.iter().any(|s| BY_WORD.contains_key(&(*s, folded.as_str()))))
}

/// Where in the same file a word is known, in the trade's words, each once.
pub(super) fn belongs(word: &str, but: Scope) -> Vec<String> {
    let folded = fold(word);
    let mut places: Vec<String> = Scope::ALL
        .iter()
        .filter(|s| **s != but && s.is_shop() == but.is_shop() && BY_WORD.contains_key(&(**s, folded.as_str())))
        .map(|s| s.called().to_owned())
        .collect();
    if kind(word).is_some() && but != Scope::Kind && !but.is_shop() {
        places.push("features, as an entry of its own".to_owned());
    }
    if places.is_empty() && !but.is_shop() && find(Scope::Shop, word).is_some() {
        places.push("the shop file".to_owned());
    }
    places.dedup();
    places
}

/// The nearest key that may stand here.
pub(super) fn nearest(scope: Scope, word: &str) -> Option<String> {
    let of = BY_WORD.range((scope, "")..).take_while(|((s, _), _)| *s == scope);
    nearest_of(word, of.map(|((_, spelling), key)| (*spelling, key.word)))
}

/// The nearest kind of feature.
pub(super) fn nearest_kind(word: &str) -> Option<String> {
    nearest_of(word, KIND_BY_WORD.iter().map(|(spelling, kind)| (*spelling, kind.word)))
}

/// Bytes of the longest word that another is sought for.
const LONGEST: usize = 60;

/// The word whose spelling is nearest, if it is near enough to have been meant.
pub fn nearest_of<'w>(word: &str, known: impl Iterator<Item = (&'w str, &'w str)>) -> Option<String> {
    if word.len() > LONGEST {
        return None;
    }
    let folded = fold(word);
    let most = (folded.chars().count() / 3).clamp(1, 4);
    known
        .filter(|(spelling, _)| spelling.len() <= LONGEST)
        .map(|(spelling, answer)| (strsim::damerau_levenshtein(&folded, &spelling.to_lowercase()), answer))
        .filter(|(distance, _)| *distance <= most)
        .min()
        .map(|(_, answer)| answer.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_spelling_is_folded_and_names_one_key() {
        for key in all() {
            for word in std::iter::once(&key.word).chain(key.also) {
                assert_eq!(*word, fold(word), "{word}");
                for scope in key.scopes {
                    let found = find(*scope, word).map(|k| k.word);
                    assert_eq!(found, Some(key.word), "{word} in {scope:?}");
                }
            }
        }
        for known in KINDS {
            for word in std::iter::once(&known.word).chain(known.also) {
                assert_eq!(*word, fold(word), "{word}");
                assert_eq!(kind(word).map(|k| k.word), Some(known.word), "{word}");
            }
        }
    }

    #[test]
    fn words_near_enough_are_found() {
        assert_eq!(nearest(Scope::Header, "materal").as_deref(), Some("material"));
        assert_eq!(nearest_kind("trun").as_deref(), Some("turn"));
        assert_eq!(nearest(Scope::Header, "zzzz"), None);
        assert_eq!(belongs("ring", Scope::Header), ["a groove"]);
        assert!(find(Scope::Thread, "run_out").is_some());
        assert!(kind("Centre-Hole").is_some());
    }
}
