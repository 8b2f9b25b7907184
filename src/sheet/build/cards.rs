//! Bench cards: half a sheet of paper lying, one or more a mounting, for the rail of the lathe. The same numbers at the same size
//! as on the sheet, without pictures; what a card cannot hold whole is named with the page of the sheet that has it.

use super::{Sources, setup};
use crate::sheet::draft::{Item, Section};
use crate::sheet::heads::lowered;
use crate::sheet::view::{Block, Body, Rich, Shape, Step, View};
use crate::sheet::{blocks, layout, words};

/// A section a mounting; `sheet` is the full sheet of the same part.
pub(super) fn sections(s: &Sources, sheet: &View) -> Vec<Section> {
    s.mounted().map(|(mounted, figures)| card(setup::section(s, mounted, figures), sheet)).collect()
}

fn card(mut section: Section, sheet: &View) -> Section {
    section.id = section.id.replace("setup", "card");
    section.scene = None;
    let no_picture = |b: &Block| !matches!(b.body, Body::Picture { .. });
    section.opening.retain(no_picture);
    section.opening = std::mem::take(&mut section.opening).into_iter().filter_map(without_tools).collect();
    section.reopening.retain(no_picture);
    section.head = lowered(section.head);
    let taken = section.again.height() + section.reopening.iter().map(|b| b.height.0).sum::<f64>();
    let room = layout::CARD_HEIGHT - layout::BANNER - layout::GO_ON - taken;
    for item in &mut section.items {
        if let Item::Step { step, columns } = item {
            step.before.retain(no_picture);
            step.after.retain(no_picture);
            let heads = if columns.is_some() { blocks::COLUMN_HEADS } else { 0.0 };
            let around: f64 = step.before.iter().chain(&step.after).map(|b| b.height.0).sum();
            if step.row.height.0 + heads + around > room {
                *columns = None;
                point_to(step, sheet);
            }
        }
    }
    section
}

/// Tools are laid out by the sheet; feeds, and what else stands behind them, stay.
fn without_tools(b: Block) -> Option<Block> {
    let Body::Text { text } = &b.body else { return Some(b) };
    if text.0.first().is_none_or(|run| run.text != words::TOOLS_SHORT.say()) {
        return Some(b);
    }
    let feed = text.0.iter().position(|run| run.text == words::FEED.say())?;
    Some(blocks::text(Rich(text.0[feed..].to_vec())))
}

/// The operation in one line, with the page of the sheet that has all of it.
fn point_to(step: &mut Step, sheet: &View) {
    let holds = |b: &Block| match &b.body {
        Body::Operations { rows, .. } => rows.iter().any(|r| r.number == step.row.number),
        _ => false,
    };
    let page = sheet.pages.iter().find(|p| p.blocks.iter().any(holds)).map_or(0, |p| p.number);
    let mut row = step.row.clone();
    row.shape = Shape::Wide { text: Rich::from(words::see_sheet(page)) };
    row.detail = Vec::new();
    row.second = Vec::new();
    step.row = blocks::sized(row);
}
