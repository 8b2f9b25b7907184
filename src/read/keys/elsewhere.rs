//! Keys that stand where something else is written: what to write there instead. Looked at before the words of the trade.

use super::{Scope, fold};

/// What one would write there by another key's pattern, and what this description writes.
struct Elsewhere {
    scopes: &'static [Scope],
    words: &'static [&'static str],
    instead: &'static str,
}

static ALL: &[Elsewhere] = &[
    Elsewhere {
        scopes: &[Scope::Kind],
        words: &["eccentric", "cam", "crank pin", "throw"],
        instead: "an eccentric is a section with its throw beside it: `- turn: 0.900` and under it `offset: 0.100`, the distance between the two axes",
    },
    Elsewhere {
        scopes: &[Scope::Kind],
        words: &["woodruff", "woodruff key", "woodruff keyway"],
        instead: "it is a keyseat, at the middle of its cutter: `- keyseat: Woodruff 606` and under it `at: 2.125`",
    },
    Elsewhere {
        scopes: &[Scope::Groove],
        words: &["inside", "internal"],
        instead: "a groove in a bore stands in the list `inside:` at the head, beside the bore it lies in, with `end`, `depth` and `wide`",
    },
    Elsewhere {
        scopes: &[Scope::Keyseat],
        words: &["to", "long", "wide", "deep"],
        instead: "a keyseat for a parallel key has its width, the key's height and its length in one line: `keyseat: 1/4 x 1/4 x 2`, and under it `from:`",
    },
    Elsewhere {
        scopes: &[
            Scope::InsideBore,
            Scope::InsideThread,
            Scope::InsideRelief,
            Scope::InsideTaper,
            Scope::InsideChamfer,
        ],
        words: &["from"],
        instead: "a cut inside is measured from an end of the part: write `end: datum` or `end: far`",
    },
];

/// What to write instead of this key, where this description writes it another way.
pub(in crate::read) fn elsewhere(scope: Scope, word: &str) -> Option<&'static str> {
    let folded = fold(word);
    let at = |e: &&Elsewhere| e.scopes.contains(&scope) && e.words.contains(&folded.as_str());
    ALL.iter().find(at).map(|e| e.instead)
}

#[cfg(test)]
mod tests {
    use super::super::{find, kind};
    use super::*;

    #[test]
    fn nothing_is_sent_elsewhere_that_is_known_here() {
        for entry in ALL {
            for word in entry.words {
                assert_eq!(*word, fold(word));
                for scope in entry.scopes {
                    assert!(find(*scope, word).is_none(), "{word} is known in {}", scope.called());
                }
                assert!(entry.scopes != [Scope::Kind] || kind(word).is_none(), "{word} is a kind");
            }
        }
    }
}
