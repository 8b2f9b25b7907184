//! Why the setups and operations stand where they stand: each rule once, where it first counts.

use super::Sources;
use crate::model::plan::Why;
use crate::sheet::draft::{Item, Section};
use crate::sheet::view::Rich;
use crate::sheet::{blocks, words};

/// The page of reasons; none when the plan gives none.
pub(super) fn section(s: &Sources) -> Option<Section> {
    let mut told: Vec<&str> = Vec::new();
    let mut items: Vec<Rich> = Vec::new();
    for (setup, _) in s.mounted() {
        for why in &setup.why {
            push(&mut items, &mut told, &words::setup_word(setup.number), why);
        }
        for op in &setup.operations {
            let verb = words::operation_word(op.number, op.verb.word(), op.feature.map_or("", |f| s.letter(f)));
            for why in &op.why {
                push(&mut items, &mut told, &verb, why);
            }
        }
    }
    (!items.is_empty()).then(|| Section {
        id: "why".to_owned(),
        bookmark: words::WHY.to_owned(),
        head: blocks::title_head(words::WHY, words::WHY_ONCE.into(), None),
        again: blocks::title_head(&words::continued(words::WHY), Rich::new(), None),
        opening: Vec::new(),
        reopening: Vec::new(),
        items: vec![Item::Block(blocks::list("", items))],
        scene: None,
    })
}

fn push<'a>(items: &mut Vec<Rich>, told: &mut Vec<&'a str>, place: &str, why: &'a Why) {
    // A rule without an id is told by its own sentence.
    let rule = if why.rule.is_empty() { why.reason.as_str() } else { why.rule };
    if told.contains(&rule) {
        return;
    }
    told.push(rule);
    items.push(words::why(place, &words::from_file(&why.reason), &words::from_file(why.source)));
}
