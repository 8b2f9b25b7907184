//! Random descriptions: whole ones are read without a word, spoiled ones never stop the program, and every place that is told
//! lies inside the text. `TURNWRIGHT_RANDOM` says how many.

use turnwright::read;

use super::found::findings;
use super::generate::{Dice, spoiled, whole};

fn count(usual: usize) -> usize {
    std::env::var("TURNWRIGHT_RANDOM").ok().and_then(|n| n.parse().ok()).unwrap_or(usual)
}

#[test]
fn whole_descriptions_have_nothing_to_say() {
    let mut dice = Dice(1);
    let (mut most, mut lying) = (0, 0);
    for _ in 0..count(200) {
        let made = whole(&mut dice);
        let read = read::part("p", made.text.as_bytes());
        assert_eq!(read.slips, [], "{}", made.text);
        let part = read.part.expect("a part");
        assert_eq!((part.sections().count(), part.features.len()), (made.sections, made.sections + made.others));
        most = most.max(made.sections);
        lying += made.others;
    }
    assert!(most >= 8 && lying > 200, "the generator reaches long parts with much on them");
}

#[test]
fn spoiled_descriptions_are_told_inside_their_text() {
    let mut dice = Dice(2);
    let (mut told, mut parts, mut lines) = (0, 0, 0);
    let all = count(500);
    for _ in 0..all {
        let made = whole(&mut dice).text;
        let text = spoiled(&mut dice, &made);
        let read = read::part("p", text.as_bytes());
        told += usize::from(!read.slips.is_empty());
        parts += usize::from(read.part.is_some());
        for slip in &read.slips {
            let (start, end) = (slip.place.start as usize, slip.place.end as usize);
            assert!(start <= end && end <= read.source.text.len(), "{slip:?} in {text:?}");
            assert!(read.source.text.get(start..end).is_some(), "between characters: {slip:?} in {text:?}");
        }
        for finding in findings(read.part.as_ref(), &read.slips) {
            let Some(place) = finding.place else { continue };
            lines = lines.max(read.source.line_column(place.start).0);
            assert!(!finding.help.is_empty(), "{} says no remedy: {}", finding.check, finding.message);
            assert!(!finding.message.ends_with('.') && !finding.message.contains('\n'), "{}", finding.message);
        }
    }
    assert!(told * 2 > all && parts * 2 > all && lines > 20, "spoiling shows: {told} told, {parts} parts of {all}");
}

/// Spoiling one size leaves every other feature as it was.
#[test]
fn one_broken_feature_hides_no_other() {
    let mut dice = Dice(3);
    let mut tried = 0;
    for _ in 0..count(100) {
        let made = whole(&mut dice).text;
        let whole = read::part("p", made.as_bytes()).part.expect("a part");
        let victim = &whole.features[dice.below(whole.features.len())];
        let value = victim.value.start as usize..victim.value.end as usize;
        let mut text = made.clone();
        text.replace_range(value, "about 3");
        let read = read::part("p", text.as_bytes());
        let part = read.part.expect("still a part");
        assert_eq!(read.slips.len(), 1, "{:?}\n{text}", read.slips);
        assert_eq!(part.features.len(), whole.features.len());
        assert_eq!(part.sections().count(), whole.sections().count(), "its length is kept");
        for (one, other) in part.features.iter().zip(&whole.features).filter(|(_, o)| o.id != victim.id) {
            assert_eq!(one.kind.word(), other.kind.word());
        }
        tried += 1;
    }
    assert!(tried > 50);
}
