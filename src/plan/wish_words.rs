//! What the words of a wish name: an operation, a feature, an end; and what to write instead where they name nothing.

use crate::model::plan::Verb;
use crate::model::{End, Feature, Part};
use crate::{tell, told};

/// What a wish names: verbs, if it names some, and a feature or an end.
pub(super) struct Named {
    /// Any of these; where empty, every cut.
    pub(super) verbs: Vec<Verb>,
    pub(super) feature: Option<usize>,
    pub(super) end: Option<End>,
}

/// Words of operations, longer ones first where one begins with another. What is turned in one cut has no finish of its own, so the word
/// for the last cut names that one too.
const WORDS: &[(&str, &[Verb])] = &[
    ("center drill", &[Verb::Center]),
    ("centre drill", &[Verb::Center]),
    ("fit test", &[Verb::FitTest]),
    ("heat treatment", &[Verb::HeatTreat]),
    ("heat treating", &[Verb::HeatTreat]),
    ("part off", &[Verb::PartOff]),
    ("parting off", &[Verb::PartOff]),
    ("cut off", &[Verb::PartOff]),
    ("taper turn", &[Verb::Taper]),
    ("finish turning", &[Verb::Finish, Verb::Turn]),
    ("finish turn", &[Verb::Finish, Verb::Turn]),
    ("rough turning", &[Verb::Rough]),
    ("rough turn", &[Verb::Rough]),
    ("finish bore", &[Verb::Bore]),
    ("face", &[Verb::Face]),
    ("facing", &[Verb::Face]),
    ("center", &[Verb::Center]),
    ("centre", &[Verb::Center]),
    ("rough", &[Verb::Rough]),
    ("roughing", &[Verb::Rough]),
    ("finish", &[Verb::Finish, Verb::Turn]),
    ("finishing", &[Verb::Finish, Verb::Turn]),
    ("turn", &[Verb::Turn, Verb::Rough, Verb::Finish]),
    ("turning", &[Verb::Turn, Verb::Rough, Verb::Finish]),
    ("groove", &[Verb::Groove]),
    ("grooving", &[Verb::Groove]),
    ("chamfer", &[Verb::Chamfer]),
    ("chamfering", &[Verb::Chamfer]),
    ("thread", &[Verb::Thread]),
    ("threading", &[Verb::Thread]),
    ("taper", &[Verb::Taper]),
    ("knurl", &[Verb::Knurl]),
    ("knurling", &[Verb::Knurl]),
    ("drill", &[Verb::Drill]),
    ("drilling", &[Verb::Drill]),
    ("bore", &[Verb::Bore]),
    ("boring", &[Verb::Bore]),
    ("ream", &[Verb::Ream]),
    ("reaming", &[Verb::Ream]),
    ("tap", &[Verb::Tap]),
    ("tapping", &[Verb::Tap]),
    ("mill", &[Verb::Mill]),
    ("milling", &[Verb::Mill]),
    ("polish", &[Verb::Polish]),
    ("polishing", &[Verb::Polish]),
    ("file", &[Verb::File]),
    ("filing", &[Verb::File]),
    ("deburr", &[Verb::Deburr]),
    ("deburring", &[Verb::Deburr]),
    ("inspect", &[Verb::Inspect]),
    ("inspection", &[Verb::Inspect]),
];
/// Words for the operations that are told where none fits.
const TOLD: [&str; 20] = [
    "face", "center", "rough", "finish", "turn", "groove", "chamfer", "thread", "taper", "knurl", "drill", "bore",
    "ream", "tap", "mill", "polish", "file", "deburr", "part off", "inspect",
];
/// Words that say nothing of which feature is meant.
const FILLERS: [&str; 7] = ["the", "of", "section", "diameter", "feature", "on", "at"];
/// Names of the part that are told at most.
const MOST_NAMES: usize = 16;

/// What a text names.
pub(super) fn read(part: &Part, text: &str) -> Option<Named> {
    let text = text.trim();
    let whole = |feature| Named { verbs: Vec::new(), feature: Some(feature), end: None };
    if let Some(feature) = alone(part, text).or_else(|| only(part, text)) {
        return Some(whole(feature));
    }
    // `thread A` is its threading; `keyseat L` no operation, and the feature.
    let of_verb = WORDS.iter().find_map(|(word, verbs)| {
        let rest = after(text, word)?;
        let named = |feature, end| Some(Named { verbs: verbs.to_vec(), feature, end });
        if rest.is_empty() {
            return named(None, None);
        }
        if let Some(f) = feature(part, rest) {
            return named(Some(f), None);
        }
        // `face far`, `center datum end`.
        let end = [End::Datum, End::Far].into_iter().find(|e| bare(rest).trim_end_matches(" end") == e.word())?;
        named(None, Some(end))
    });
    of_verb.or_else(|| feature(part, text).map(whole))
}

/// What stands behind a word at the beginning of a text.
fn after<'a>(text: &'a str, word: &str) -> Option<&'a str> {
    let head = text.get(..word.len()).filter(|h| h.eq_ignore_ascii_case(word))?;
    let rest = &text[head.len()..];
    (rest.is_empty() || rest.starts_with(char::is_whitespace)).then(|| rest.trim_start())
}

/// Without the words that say nothing.
fn bare(text: &str) -> String {
    let words = text.split_whitespace().filter(|w| !FILLERS.contains(&w.to_ascii_lowercase().as_str()));
    words.collect::<Vec<_>>().join(" ")
}

/// A feature by its name, its letter, both beside each other or beside its kind (`keyseat L`), or the word of its kind where only one
/// has it.
fn feature(part: &Part, text: &str) -> Option<usize> {
    alone(part, text).or_else(|| {
        let text = bare(text);
        alone(part, &text).or_else(|| beside(part, &text)).or_else(|| only(part, &text))
    })
}

/// By its name or its letter alone.
fn alone(part: &Part, text: &str) -> Option<usize> {
    let lettered = || part.features.iter().find(|f| !f.letter.is_empty() && f.letter == text);
    part.named(text).or_else(lettered).map(|f| f.id)
}

/// By the word of its kind, where no other has it.
fn only(part: &Part, text: &str) -> Option<usize> {
    let mut of_kind = part.features.iter().filter(|f| f.kind.word().eq_ignore_ascii_case(text));
    let only = of_kind.next()?;
    of_kind.next().is_none().then_some(only.id)
}

/// `keyseat L`, `pulley seat C`: words of the feature's own kind and name, then its letter.
fn beside(part: &Part, text: &str) -> Option<usize> {
    let (words, letter) = text.rsplit_once(' ')?;
    let feature = part.features.iter().find(|f| !f.letter.is_empty() && f.letter == letter)?;
    let own = format!("{} {}", feature.kind.word(), feature.called()).to_lowercase();
    let fits = |w: &str| own.split(' ').any(|o| o == w.to_lowercase());
    words.split(' ').all(fits).then_some(feature.id)
}

/// What is wrong with words that name nothing, and what to write.
pub(super) fn instead(part: &Part, text: &str) -> String {
    let text = text.trim();
    let found = WORDS.iter().find_map(|(word, _)| Some((*word, after(text, word)?)));
    let names = names(part);
    let near = |wanted: &str, among: &mut dyn Iterator<Item = &str>| {
        let like = |s: &str| strsim::jaro_winkler(&s.to_lowercase(), &wanted.to_lowercase());
        among.max_by(|a, b| like(a).total_cmp(&like(b))).unwrap_or_default().to_owned()
    };
    let all = names.iter().take(MOST_NAMES).map(String::as_str).collect::<Vec<_>>().join(", ");
    let more = if names.len() > MOST_NAMES { ", …" } else { "" };
    if let Some((word, rest)) = found {
        let of_kind: Vec<&Feature> =
            part.features.iter().filter(|f| f.kind.word().eq_ignore_ascii_case(&bare(rest))).collect();
        if of_kind.len() > 1 {
            let letters: Vec<String> = of_kind.iter().map(|f| format!("`{word} {}`", short(f))).collect();
            let count = letters.len();
            return tell!(
                "`{rest}` could be any of {count}: write {}",
                "`{rest}` kann jedes von {count} sein: schreiben Sie {}",
                letters.join(told!(" or ", " oder "))
            );
        }
        let nearest = near(&bare(rest), &mut names.iter().map(String::as_str));
        return tell!(
            "`{rest}` is no feature of this part; its names are {all}{more}. Write `{word} {nearest}`, say",
            "`{rest}` ist kein Merkmal dieses Teils; die Namen sind {all}{more}. Schreiben Sie etwa `{word} {nearest}`"
        );
    }
    let nearest = near(text, &mut names.iter().map(String::as_str).chain(TOLD));
    let words = TOLD.join(", ");
    tell!(
        "`{text}` names no feature and no operation of this part. Write a feature ({all}{more}), an operation ({words}), or an operation and a feature; nearest is `{nearest}`",
        "`{text}` benennt kein Merkmal und keinen Arbeitsgang dieses Teils. Schreiben Sie ein Merkmal ({all}{more}), einen Arbeitsgang ({words}) oder beides; am nächsten ist `{nearest}`"
    )
}

/// The shortest words that name a feature and no other.
fn short(feature: &Feature) -> String {
    match (&feature.name, feature.letter.as_str()) {
        (Some(name), _) => name.text.clone(),
        (None, letter) => letter.to_owned(),
    }
}

/// Every word that names a feature of a part.
fn names(part: &Part) -> Vec<String> {
    part.features.iter().map(short).filter(|n| !n.is_empty()).collect()
}
