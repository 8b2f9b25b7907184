//! Lines to scribe: the lists beside the bar.

use super::{Sources, outline};
use crate::figures::MarkList;
use crate::sheet::draft::{Item, Section};
use crate::sheet::draw::{self, MarkLine};
use crate::sheet::measure::{self, padded};
use crate::sheet::view::{Block, DatumBox, MarkRow, Rich};
use crate::sheet::{blocks, words};

/// Width of the column of surfaces.
const ON: f64 = 37.0;

/// The marks page; none when there is nothing to scribe and nothing to say about it.
pub(super) fn section(s: &Sources) -> Option<Section> {
    let marks = &s.figures.marks;
    if marks.lists.is_empty() && marks.notes.is_empty() {
        return None;
    }
    let datum = marks.lists.iter().all(|l| stands_on_datum(l)).then(|| DatumBox {
        what: words::DATUM_END.to_owned(),
        place: words::DOWN.to_owned(),
    });
    let notes: Vec<Rich> = marks.notes.iter().map(|n| Rich::from(words::sentence_end(&words::from_file(n)))).collect();
    let mut items: Vec<Item> = Vec::new();
    if !notes.is_empty() {
        let all = notes.iter().map(Rich::text).collect::<Vec<_>>().join(" ");
        items.push(Item::Block(blocks::text(Rich::from(all))));
    }
    items.extend(marks.lists.iter().enumerate().map(|(i, l)| Item::Block(list(s, i + 1, l))));
    Some(Section {
        id: "marks".to_owned(),
        bookmark: words::MARKS.to_owned(),
        head: blocks::title_head(words::MARKS, Rich::new(), datum.clone()),
        again: blocks::title_head(&words::continued(words::MARKS), Rich::new(), datum),
        opening: Vec::new(),
        reopening: Vec::new(),
        items,
        scene: None,
    })
}

fn stands_on_datum(list: &MarkList) -> bool {
    list.standing_on.starts_with("datum")
}

fn list(s: &Sources, number: usize, list: &MarkList) -> Block {
    let on_bar = number == 1 && list.marks.iter().all(|m| m.after == 0);
    let finished = outline::finished(s);
    let body = if on_bar { outline::blank(s) } else { draw::Outline { on: Vec::new(), ..finished } };
    let body = if stands_on_datum(list) { body } else { outline::turned_over(&body, s.overall().mm()) };
    let height = blocks::marks_picture_height(list.marks.len());
    let lines: Vec<MarkLine> = list
        .marks
        .iter()
        .rev()
        .enumerate()
        .map(|(i, m)| MarkLine {
            at: m.height_gauge.value.mm(),
            row: blocks::MARK_HEADS + blocks::MARK_ROW * (i as f64 + 0.5),
        })
        .collect();
    let gauges: Vec<String> = list.marks.iter().map(|m| m.height_gauge.text(s.unit())).collect();
    let places = measure::whole_places(gauges.iter().map(String::as_str));
    let rows: Vec<MarkRow> = list
        .marks
        .iter()
        .rev()
        .map(|m| {
            let when = if m.after == 0 { String::new() } else { words::after_operation(m.after) };
            let on = words::from_file(&m.on);
            let text = if when.is_empty() { on } else { format!("{on}, {when}") };
            MarkRow {
                label: m.label.clone(),
                gauge: padded(&m.height_gauge.text(s.unit()), places),
                on: measure::broken(&text, 12.0, false, ON),
                means: words::from_file(&m.means),
                leave: m.leave.word().to_owned(),
            }
        })
        .collect();
    let alt = words::marks_alt(&list.standing_on, &list.name, rows.iter().map(|r| (r.label.as_str(), r.gauge.trim())));
    let picture = draw::marks(&body, &lines, height, &format!("marks-{number}"), alt);
    let heading = words::mark_list(number, &list.name, &list.when, (!stands_on_datum(list)).then_some(list.standing_on.as_str()));
    blocks::marks(&heading, picture, words::mark_heads(), rows, Rich::new())
}
