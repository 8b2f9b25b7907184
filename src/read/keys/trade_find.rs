//! The trade's words looked up: as a key or value, or within a size.

use super::fold;
use super::trade::{Spot, TRADE_WORDS, TradeWord};

/// What the trade means by a word that is not known here.
pub(in crate::read) fn meaning(word: &str, spot: Spot) -> Option<&'static TradeWord> {
    let folded = fold(word);
    TRADE_WORDS.iter().find(|t| t.spots.contains(&spot) && t.words.contains(&folded.as_str()))
}

/// The longest trade word within a size, with the bytes it stands at.
pub(in crate::read) fn in_size(text: &str) -> Option<(std::ops::Range<usize>, &'static TradeWord)> {
    let lower = text.to_ascii_lowercase();
    let mut best: Option<(std::ops::Range<usize>, &'static TradeWord)> = None;
    for trade in TRADE_WORDS.iter().filter(|t| t.spots.contains(&Spot::Size)) {
        for word in trade.words {
            for (at, _) in lower.match_indices(word) {
                let end = at + word.len();
                let letter = |c: Option<char>| c.is_some_and(char::is_alphabetic);
                let alone = !letter(lower[..at].chars().next_back()) && !letter(lower[end..].chars().next());
                if alone && best.as_ref().is_none_or(|(b, _)| b.len() < word.len()) {
                    best = Some((at..end, trade));
                }
            }
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_folded_and_have_one_or_two_readings() {
        for trade in TRADE_WORDS {
            assert!((1..=2).contains(&trade.readings.len()), "{:?}", trade.words);
            for word in trade.words {
                assert_eq!(*word, fold(word));
            }
        }
    }

    #[test]
    fn the_longest_word_in_a_size_counts() {
        let found = in_size("0.750 light press fit").map(|(at, _)| at);
        assert_eq!(found, Some(6..21));
        assert!(in_size("0.750 pressure").is_none());
        assert!(meaning("Depth of thread", Spot::Key).is_some());
    }
}
