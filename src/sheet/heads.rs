//! Heads of pages, and of what begins on a page that something else has begun.

use super::layout::{self, TITLE_LINE, WIDTH};
use super::measure;
use super::view::{Block, Body, DatumBox, Head, Mm, Rich};

/// A page title with the space under it.
pub fn title_head(title: &str, text: Rich, datum: Option<DatumBox>) -> Head {
    let room = if datum.is_some() { WIDTH - 62.0 } else { WIDTH };
    let under = if text.is_empty() { 0.0 } else { layout::body(&text, room) + 1.0 };
    let height = (TITLE_LINE + under).max(if datum.is_some() { 15.0 } else { 0.0 }) + 3.0;
    Head::Title { title: title.to_owned(), text, datum, height: Mm(height) }
}

/// Height of the box with a setup's number, and of the low one.
const BOX: f64 = 21.0;
const LOW_BOX: f64 = 14.6;
/// Width of the title and the lines under it.
const BESIDE: f64 = WIDTH - BOX - 10.0 - 42.0;
/// Space under a setup's head.
const BELOW: f64 = 2.5;

fn title_height(title: &str) -> f64 {
    measure::lines(&Rich::new().strong(title), 17.0, BESIDE) as f64 * 17.0 * 1.18 * measure::POINT
}

/// The head of a setup's page, and the lines that have no room beside the number: they go across the page below.
pub fn setup_head(
    word: &str,
    number: &str,
    title: &str,
    mut lines: Vec<Rich>,
    datum: Option<DatumBox>,
    low: bool,
) -> (Head, Vec<Rich>) {
    let number_box = if low { LOW_BOX } else { BOX };
    let (mut beside, mut used) = (0, title_height(title));
    while let Some(high) = lines.get(beside).map(|l| layout::body(l, BESIDE))
        && (used + high <= number_box + 0.5 || (beside == 0 && lines.len() == 1))
    {
        used += high;
        beside += 1;
    }
    let across = lines.split_off(beside);
    let head = Head::Setup {
        word: word.to_owned(),
        number: number.to_owned(),
        title: title.to_owned(),
        lines,
        datum,
        low,
        height: Mm(used.max(number_box) + BELOW),
    };
    (head, across)
}

/// Room over the head of what begins on a page that something else has begun.
const OVER_BEGIN: f64 = 6.0;

/// The same head with a lower box for its number.
pub(super) fn lowered(mut head: Head) -> Head {
    if let Head::Setup { title, lines, low, height, .. } = &mut head {
        let text: f64 = lines.iter().map(|l| layout::body(l, BESIDE)).sum();
        *low = true;
        *height = Mm((title_height(title) + text).max(LOW_BOX) + BELOW);
    }
    head
}

/// A head inside a page.
pub fn begin(id: &str, bookmark: &str, head: Head) -> Block {
    let head = lowered(head);
    let height = OVER_BEGIN + head.height();
    Block {
        height: Mm(height),
        small: false,
        body: Body::Begin { id: id.to_owned(), bookmark: bookmark.to_owned(), head },
    }
}
