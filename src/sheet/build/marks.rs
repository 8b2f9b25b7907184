//! Lines to scribe: the lists beside the bar.

use super::{Sources, outline};
use crate::figures::{Lying, LyingMark, Mark, MarkList};
use crate::sheet::draft::{Item, Section};
use crate::sheet::draw::{self, MarkLine};
use crate::sheet::measure::{self, padded};
use crate::sheet::view::{Block, DatumBox, MarkRow, Rich};
use crate::sheet::{blocks, words};
use crate::unit::Unit;

/// The marks page; none when there is nothing to scribe and nothing to say about it.
pub(super) fn section(s: &Sources) -> Option<Section> {
    let marks = &s.figures.marks;
    if marks.lists.is_empty() && marks.lying.is_none() && marks.notes.is_empty() {
        return None;
    }
    // What is scribed in the lathe stands on nothing.
    let on_plate = marks.lists.is_empty() || marks.lists.iter().flat_map(|l| &l.marks).any(|m| m.carriage.is_none());
    let datum = (on_plate && marks.lists.iter().all(stands_on_datum))
        .then(|| DatumBox { what: words::DATUM_END.say().to_owned(), place: words::DOWN.say().to_owned() });
    let notes: Vec<String> = marks.notes.iter().map(|n| words::sentence_end(&words::from_file(n))).collect();
    let notes = Rich::from(notes.join(" "));
    let mut items: Vec<Item> = Vec::new();
    if marks.lists.is_empty() {
        items.push(Item::Block(blocks::text(notes.clone())));
    }
    for (i, marked) in marks.lists.iter().enumerate() {
        let note = if i == 0 { notes.clone() } else { Rich::new() };
        items.push(Item::Block(list(s, i + 1, marked, note)));
    }
    items.extend(marks.lying.as_ref().map(|l| Item::Block(lying(s, marks.lists.len() + 1, l))));
    Some(Section {
        id: "marks".to_owned(),
        bookmark: words::MARKS.say().to_owned(),
        head: blocks::title_head(words::MARKS.say(), Rich::new(), datum.clone()),
        again: blocks::title_head(&words::continued(words::MARKS.say()), Rich::new(), datum),
        opening: Vec::new(),
        reopening: Vec::new(),
        items,
        joins: true,
        scene: None,
    })
}

/// A setting of the height gauge, on its own scale.
pub(super) fn gauge_text(s: &Sources, mark: &Mark) -> String {
    mark.on_scale.map_or_else(|| mark.height_gauge.text(s.unit()), |read| read.size_text())
}

/// The same with its unit where that is not the part's.
pub(super) fn gauge_named(s: &Sources, mark: &Mark) -> String {
    let unit = mark.on_scale.map_or(String::new(), |read| format!(" {}", read.unit.word()));
    gauge_text(s, mark) + &unit
}

/// Unit of the height gauge where it is not the part's.
fn gauge_unit(s: &Sources) -> Option<Unit> {
    s.figures.marks.lists.iter().flat_map(|l| &l.marks).find_map(|m| m.on_scale).map(|r| r.unit)
}

/// The lines scribed lying, a sentence each.
fn lying(s: &Sources, number: usize, lying: &Lying) -> Block {
    blocks::list(&words::lying_list(number, &lying.when), lying_items(s, lying))
}

/// A sentence for each line scribed lying.
pub(super) fn lying_items(s: &Sources, lying: &Lying) -> Vec<Rich> {
    let item = |m: &LyingMark| {
        let (from, to) = (m.from.text(s.unit()), m.to.text(s.unit()));
        let along = if m.from == m.to { from } else { words::from_to(&from, &to) };
        let rest = words::lying_line(&words::from_file(&m.means), &along, m.angle_deg, m.prick);
        Rich::new().strong(words::lying_setting(&m.label, &m.setting(s.unit()))).plain(rest)
    };
    lying.marks.iter().map(item).collect()
}

fn stands_on_datum(list: &MarkList) -> bool {
    list.standing_on.starts_with("datum")
}

fn list(s: &Sources, number: usize, list: &MarkList, note: Rich) -> Block {
    let on_bar = number == 1 && list.marks.iter().all(|m| m.after == 0);
    let finished = outline::finished(s);
    let body = if on_bar { outline::blank(s) } else { draw::Outline { on: Vec::new(), ..finished } };
    let body = if stands_on_datum(list) { body } else { outline::turned_over(&body, s.overall().mm()) };
    let gauges: Vec<String> = list.marks.iter().map(|m| gauge_text(s, m)).collect();
    let places = measure::whole_places(gauges.iter().map(String::as_str));
    let row = |m: &Mark| {
        let on = words::from_file(&m.on);
        let on = if m.after == 0 { on } else { format!("{on}, {}", words::after_operation(m.after)) };
        let gauge = padded(&gauge_text(s, m), places);
        blocks::mark_row(&m.label, &gauge, &on, &words::from_file(&m.means), &words::leave_and_prick(m))
    };
    let rows: Vec<MarkRow> = list.marks.iter().rev().map(row).collect();
    let height = blocks::marks_picture_height(&rows);
    let middles = blocks::mark_middles(&rows);
    let highest_first = list.marks.iter().rev();
    let lines: Vec<MarkLine> =
        highest_first.zip(middles).map(|(m, row)| MarkLine { at: m.height_gauge.value.mm(), row }).collect();
    let alt = words::marks_alt(&list.standing_on, &list.name, rows.iter().map(|r| (r.label.as_str(), r.gauge.trim())));
    let picture = draw::marks(&body, &lines, height, &format!("marks-{number}"), alt);
    let heading =
        words::mark_list(number, &list.name, &list.when, (!stands_on_datum(list)).then_some(list.standing_on.as_str()));
    blocks::marks(&heading, picture, words::mark_heads(gauge_unit(s)), rows, note)
}
