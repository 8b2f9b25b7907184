//! The short sheet, for a part that needs no page a setup: the same numbers in small type one below the other, a simple part on
//! one side of paper. Left out are the list of letters, the pictures of the setups and the page of reasons;
//! every error, warning, caution and STOP stays, and every size to inspect.

use super::{Sources, cover, inspection, outline, setup, steps};
use crate::figures::defer;
use crate::finding::Severity;
use crate::model::plan::{DatumEnd, Setup};
use crate::sheet::draft::{Item, Section};
use crate::sheet::draw;
use crate::sheet::view::{Block, Body, Mm, Pair, Rich, Step};
use crate::sheet::{notes, small, words};

/// All of it.
pub(super) fn section(s: &Sources) -> Section {
    let mut items: Vec<Item> = vec![Item::Block(top(s))];
    items.extend(findings(s).into_iter().map(Item::Block));
    let cautions = s.figures.cautions.iter().map(|c| words::sentence_end(&words::from_file(c)));
    let cautions: Vec<String> = cautions.chain([words::sentence_end(defer())]).collect();
    items.push(Item::Block(run_in(words::CAUTIONS.say(), &cautions.join(" "))));
    items.extend(tools(s).map(Item::Block));
    // Before the mountings that name them.
    items.extend(marks(s).into_iter().map(Item::Block));
    for (mounted, figures) in s.mounted() {
        let held = setup::holding_lines(s, mounted, figures).into_iter().reduce(|all, line| all.plain(" ").and(line));
        items.extend(small::heading_beside(&heading(mounted), held.unwrap_or_default()).into_iter().map(Item::Block));
        let before = setup::correction(s, figures).into_iter().chain(setup::zeros(s, mounted, figures));
        items.extend(before.map(small::of).map(Item::Block));
        items.extend(steps::steps(s, mounted, figures).into_iter().map(short));
    }
    items.extend(assumed(s).map(Item::Block));
    let notes = s.part.notes.as_ref().map(|t| notes::blocks_of(&t.text)).unwrap_or_default();
    if !notes.is_empty() {
        items.push(Item::Block(small::heading(words::NOTES.say())));
        items.extend(notes.into_iter().map(Item::Block));
    }
    let sizes = inspection::section(s).items.into_iter().filter(|i| !is_lines(i));
    items.extend(sizes.map(short));
    Section {
        id: "sheet".to_owned(),
        bookmark: words::cover(&s.name()),
        head: crate::sheet::view::Head::None,
        again: crate::sheet::view::Head::None,
        opening: Vec::new(),
        reopening: vec![small::heading(&words::continued(&s.name()))],
        items,
        joins: false,
        scene: None,
    }
}

/// The same in small type.
fn short(item: Item) -> Item {
    match item {
        Item::Block(block) => Item::Block(small::of(block)),
        Item::Step { step, columns } => {
            let all = |blocks: Vec<Block>| blocks.into_iter().map(small::of).collect();
            let (before, after) = (all(step.before), all(step.after));
            Item::Step { step: Step { before, after, row: small::row(step.row), small: true, ..step }, columns }
        }
        Item::NewPage => Item::NewPage,
    }
}

/// Room to write on is what the back of the sheet is for.
const fn is_lines(item: &Item) -> bool {
    matches!(item, Item::Block(Block { body: Body::Lines { .. }, .. }))
}

fn run_in(heading: &str, text: &str) -> Block {
    small::fine(Rich::new().strong(format!("{heading}: ")).plain(text))
}

fn top(s: &Sources) -> Block {
    let (mut lines, facts) = cover::lines_and_facts(s);
    // A name is long, and the line above has room.
    let (lathe, facts): (Vec<_>, Vec<_>) = facts.into_iter().partition(|(key, _)| key == words::LATHE.say());
    lines.extend(lathe.into_iter().map(|(key, name)| Rich::from(format!("{key}: ")).strong(name).plain(".")));
    let facts: Vec<Pair> =
        facts.into_iter().map(|(key, value)| Pair { key, value: Rich::new().strong(value), height: Mm(0.0) }).collect();
    let body = outline::finished(s);
    let picture = (!body.stretches.is_empty()).then(|| {
        let readings = cover::readings(s);
        let alt = words::part_alt(&s.name(), body.stretches.len(), readings.iter().map(|r| r.text.as_str()));
        draw::part_low(&body, &readings, words::DATUM_END.say(), alt, &s.flagged())
    });
    small::brief(&s.name(), &lines, &facts, picture)
}

fn heading(setup: &Setup) -> String {
    let place = match setup.datum_end {
        DatumEnd::Tailstock => words::DATUM_AT_TAILSTOCK.say(),
        DatumEnd::Headstock => words::DATUM_AT_HEADSTOCK.say(),
        DatumEnd::Left => "",
    };
    words::short_setup(setup.number, &words::held(setup.by, setup.holding), place)
}

/// What is open, without the advice: that is what the full sheet and `check` are for.
fn findings(s: &Sources) -> Vec<Block> {
    let mut paragraphs = Vec::new();
    for severity in [Severity::Error, Severity::Warning] {
        paragraphs.extend(s.open(severity).map(|f| {
            Rich::new().strong(words::severity(severity)).plain(words::sentence_end(&words::from_file(&f.message)))
        }));
    }
    paragraphs.extend(cover::of_the_plan(s));
    let accepted = s.findings.iter().filter(|f| f.accepted.is_some());
    paragraphs.extend(accepted.map(|f| {
        let reason = words::from_file(f.accepted.as_deref().unwrap_or_default());
        words::accepted(&words::sentence_end(&words::from_file(&f.message)), &reason)
    }));
    let count = |severity| s.open(severity).count();
    let accepted = s.findings.iter().filter(|f| f.accepted.is_some()).count();
    let heading = words::findings(count(Severity::Error), count(Severity::Warning), count(Severity::Note), accepted);
    if paragraphs.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![small::heading(&heading)];
    blocks.extend(paragraphs.into_iter().map(small::text));
    blocks
}

/// What to lay out, in a paragraph.
fn tools(s: &Sources) -> Option<Block> {
    let layout = &s.figures.layout;
    let listed = |items: Vec<String>| words::sentence_end(&items.join("; "));
    let tools: Vec<String> = layout.tools.iter().map(|t| words::from_file(t)).collect();
    let instruments: Vec<String> = layout.instruments.iter().map(|i| words::from_file(&words::measuring(i))).collect();
    let mut text = Rich::new();
    for (heading, items) in [(words::TOOLS.say(), tools), (words::INSTRUMENTS.say(), instruments)] {
        if !items.is_empty() {
            text = text.strong(format!("{heading}: ")).plain(format!("{} ", listed(items)));
        }
    }
    (!text.is_empty()).then(|| small::fine(text))
}

/// The lines to scribe, in sentences.
fn marks(s: &Sources) -> Vec<Block> {
    let lists = s.figures.marks.lists.iter().map(|list| {
        let lines: Vec<String> = list
            .marks
            .iter()
            .map(|m| {
                words::short_mark(
                    &m.label,
                    &super::marks::gauge_named(s, m),
                    &words::from_file(&m.means),
                    &words::leave_and_prick(m),
                )
            })
            .collect();
        words::short_marks(&list.name, &list.when, &words::from_file(&list.standing_on), &lines)
    });
    let lying = s.figures.marks.lying.as_ref().map(|l| {
        let heading = Rich::new().strong(words::lying_list(s.figures.marks.lists.len() + 1, &l.when));
        super::marks::lying_items(s, l).into_iter().fold(heading, |all, item| all.plain(" ").and(item))
    });
    let lists: Vec<Rich> = lists.chain(lying).collect();
    let named = |list: Rich| small::text(Rich::new().strong(format!("{}. ", words::MARKS.say())).and(list));
    lists.into_iter().map(named).collect()
}

/// What was assumed, without the sources.
fn assumed(s: &Sources) -> Option<Block> {
    let said = s.figures.assumed.iter().map(|a| {
        let value = words::from_file(&a.value);
        Rich::new().strong(words::from_file(&a.what)).plain(format!(" {value}. "))
    });
    let text = said.fold(Rich::new().strong(words::ASSUMED.say()).plain(". "), Rich::and);
    (!s.figures.assumed.is_empty()).then(|| small::fine(text))
}
