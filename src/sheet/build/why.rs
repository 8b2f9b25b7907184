//! Why the setups and operations stand where they stand: each rule once, where it first counts.

use super::Sources;
use crate::model::plan::{Alternative, Why};
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

/// Plans that take no longer by what they do instead, the runner-up with it, the others by what doing without a holding would cost; or why none is told.
fn others(s: &Sources) -> Option<Block> {
    let plan = s.plan;
    let (quick, dear): (Vec<_>, Vec<_>) = plan.others.iter().partition(|other| other.is_as_quick(plan));
    let fresh = |at: usize| !quick[..at].iter().any(|known| known.is_same(quick[at]));
    let mut lines: Vec<String> =
        (0..quick.len()).filter(|at| fresh(*at)).map(|at| words::as_quick(&words::instead(plan, quick[at]))).collect();
    let what = |other: &Alternative| {
        let held = plan.setups.iter().find(|setup| setup.name == other.without);
        held.map_or_else(|| other.without.clone(), words::quoted)
    };
    let more = |other: &Alternative| (format!("{:.1}", other.more(plan)), other.lower_bound < other.cost);
    let (next, rest) = runner_up(&quick, &dear);
    if let Some((first, at_most)) = next.first().map(|first| (first, next.iter().any(|o| o.lower_bound < o.cost))) {
        let all: Vec<String> = next.iter().map(|other| what(other)).collect();
        lines.push(words::next_best(&all, &more(first).0, at_most, &words::instead(plan, first)));
    }
    lines.extend(rest.iter().map(|other| words::without(&what(other), &more(other).0, more(other).1)));
    lines.extend(plan.no_second.map(words::no_second));
    (!lines.is_empty()).then(|| blocks::list(words::NEXT_BEST.say(), lines.into_iter().map(Rich::from).collect()))
}

/// Of the dearer plans the runner-up, once for each holding it does without, and the others; none where one is as quick as the plan.
fn runner_up<'a>(quick: &[&Alternative], dear: &[&'a Alternative]) -> (Vec<&'a Alternative>, Vec<&'a Alternative>) {
    let next = dear.first().filter(|_| quick.is_empty());
    dear.iter().partition(|other| next.is_some_and(|next| next.is_same(other)))
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
