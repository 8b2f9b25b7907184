//! Before the first chip: what to lay out, what was assumed, what to mind. It follows the findings on the cover's further pages.

use super::Sources;
use crate::figures::defer;
use crate::finding::Severity;
use crate::sheet::draft::Item;
use crate::sheet::view::Rich;
use crate::sheet::{blocks, notes, words};

/// The lists, one below the other.
pub(super) fn items(s: &Sources) -> Vec<Item> {
    let figures = s.figures;
    let list = |heading: &str, items: &[String]| {
        blocks::tick_list(heading, items.iter().map(|i| Rich::from(words::from_file(i))).collect())
    };
    let instruments: Vec<String> = figures.layout.instruments.iter().map(|i| words::measuring(i)).collect();
    let mut items = vec![Item::Block(blocks::ticks(vec![
        list(words::TOOLS.say(), &figures.layout.tools),
        list(words::INSTRUMENTS.say(), &instruments),
    ]))];
    // Before the lists that can be broken: it goes over whole, and alone on a page nobody turns to it.
    let cautions = figures.cautions.iter().map(|c| Rich::from(words::from_file(c))).chain([defer().into()]).collect();
    items.push(Item::Block(blocks::list(words::CAUTIONS.say(), cautions)));
    if !figures.not_supported.is_empty() {
        let text = figures.not_supported.join("; ");
        items.push(Item::Block(blocks::boxed(words::NOT_WORKED.say(), vec![Rich::from(words::from_file(&text))])));
    }
    let mut assumed: Vec<(String, Rich)> = figures
        .assumed
        .iter()
        .map(|a| (words::from_file(&a.what), words::assumed(&words::from_file(&a.value), &words::source(&a.source))))
        .collect();
    // One word for rows of one kind.
    for i in (1..assumed.len()).rev() {
        if assumed[i].0 == assumed[i - 1].0 {
            assumed[i].0.clear();
        }
    }
    assumed.extend(limits(s));
    if !assumed.is_empty() {
        items.push(Item::Block(blocks::assumed(words::ASSUMED.say(), assumed)));
    }
    let notes = s.part.notes.as_ref().map(|t| notes::blocks_of(&t.text)).unwrap_or_default();
    if !notes.is_empty() {
        items.push(Item::Block(blocks::heading(words::NOTES.say())));
        items.extend(notes.into_iter().map(Item::Block));
    }
    items
}

/// Limits of the checks that decided an error or a warning, accepted or not, and that nobody stated: one row.
fn limits(s: &Sources) -> Option<(String, Rich)> {
    let mut said: Vec<String> = Vec::new();
    for finding in s.findings.iter().filter(|f| f.severity > Severity::Note) {
        for assumed in finding.assumed.iter().filter_map(|a| a.strip_prefix("ASSUMED ")) {
            let value = assumed.split(':').next().unwrap_or_default();
            let one = words::from_file(&format!("{} {value}", finding.check));
            if !said.contains(&one) {
                said.push(one);
            }
        }
    }
    let value = said.join(", ");
    (!said.is_empty())
        .then(|| (words::CHECK_LIMITS.say().to_owned(), words::assumed(&value, words::CHECK_LIMITS_SOURCE.say())))
}
