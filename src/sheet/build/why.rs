//! Why the setups and operations stand where they stand: each rule once, where it first counts.

use super::Sources;
use crate::model::plan::Why;
use crate::sheet::draft::{Item, Section};
use crate::sheet::view::{Block, Rich};
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
            let verb = words::operation_word(op.number, words::verb(op.verb), op.feature.map_or("", |f| s.letter(f)));
            for why in &op.why {
                push(&mut items, &mut told, &verb, why);
            }
        }
    }
    (!items.is_empty()).then(|| Section {
        id: "why".to_owned(),
        bookmark: words::WHY.say().to_owned(),
        head: blocks::title_head(words::WHY.say(), words::WHY_ONCE.say().into(), None),
        again: blocks::title_head(&words::continued(words::WHY.say()), Rich::new(), None),
        opening: Vec::new(),
        reopening: Vec::new(),
        items: std::iter::once(blocks::list("", items)).chain(room(s)).chain(others(s)).map(Item::Block).collect(),
        joins: true,
        scene: None,
    })
}

/// Between which others each operation may stand, by the rule it would break beyond; a paragraph a setup.
fn room(s: &Sources) -> Option<Block> {
    let rule = |(number, why): &(u32, Why)| words::at_rule(*number, why.rule);
    let mut lines: Vec<Rich> = Vec::new();
    for (setup, _) in s.mounted() {
        let bound = setup.operations.iter().filter(|o| o.not_before.is_some() || o.not_after.is_some());
        let mut line = Rich::new().plain(format!("{}: ", words::setup_word(setup.number)));
        let mut any = false;
        for o in bound {
            let between = words::room(o.not_before.as_ref().map(rule), o.not_after.as_ref().map(rule));
            line = line.plain(if any { "; " } else { "" }).strong(o.number.to_string()).plain(format!(" {between}"));
            any = true;
        }
        if any {
            lines.push(line.plain("."));
        }
    }
    (!lines.is_empty()).then(|| blocks::list(words::ROOM_TO_MOVE.say(), lines))
}

/// What doing without a holding would cost, the runner-up first.
fn others(s: &Sources) -> Option<Block> {
    let others = s.plan.others.iter().map(|other| (other, format!("{:.1}", other.cost - s.plan.cost)));
    // What can be done without at no cost says nothing line by line.
    let (free, dear): (Vec<_>, Vec<_>) = others.partition(|(_, more)| more == "0.0");
    let free: Vec<&str> = free.iter().map(|(other, _)| other.without.as_str()).collect();
    let mut lines: Vec<Rich> = Vec::new();
    if !free.is_empty() {
        lines.push(Rich::from(words::without_for_nothing(&free)));
    }
    lines.extend(dear.iter().enumerate().map(|(i, (other, more))| {
        let next = i == 0 && free.is_empty();
        Rich::from(words::without(next, &other.without, more, other.lower_bound < other.cost))
    }));
    (!lines.is_empty()).then(|| blocks::list(words::NEXT_BEST.say(), lines))
}

fn push<'a>(items: &mut Vec<Rich>, told: &mut Vec<&'a str>, place: &str, why: &'a Why) {
    // A rule without an id is told by its own sentence.
    let rule = if why.rule.is_empty() { why.reason.as_str() } else { why.rule };
    if told.contains(&rule) {
        return;
    }
    told.push(rule);
    items.push(words::why(place, why.rule, &words::from_file(&why.reason), &words::source(why.source)));
}
