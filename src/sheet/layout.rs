//! Sizes of the page in millimetres, as `templates/sheet.css` and `templates/sheet.typ` have them, and the height of text.
//!
//! A page is what Letter and A4 share, 210 × 279 mm, with 20 mm at the binding edge and 12 mm elsewhere. Every block gets
//! just the height worked here in every output, so page breaks are the same in all.

use super::measure::{self, POINT};
use super::view::Rich;

/// Width of the body.
pub const WIDTH: f64 = 178.0;
/// Height of the body: the page without its margins and the running foot.
pub const HEIGHT: f64 = 247.5;
/// Height of the body of a bench card: what half of Letter and A5 share, lying, with less above and below.
pub const CARD_HEIGHT: f64 = 116.0;
/// Margin over a page and under its foot, and of a card.
pub const EDGES: [f64; 2] = [12.0, 8.0];
/// Body text, points.
pub const BODY: f64 = 12.0;
/// Text that is read first: verbs, STOP, headings.
pub const LARGE: f64 = 14.0;
/// Height of a line of body text.
pub const LINE: f64 = 12.0 * 1.3 * POINT;
/// Height of a line of large text.
pub const LARGE_LINE: f64 = 14.0 * 1.2 * POINT;
/// Height of a page title.
pub const TITLE_LINE: f64 = 24.0 * 1.15 * POINT;
/// Height of a line under a number or a verb.
pub const TIGHT_LINE: f64 = 12.0 * 1.2 * POINT;
/// Height of the bar that says DO NOT CUT.
pub const BANNER: f64 = 12.0;
/// Height of the box that says where to go on.
pub const GO_ON: f64 = 8.5;
/// Least height of a blank to write in.
pub const BLANK: f64 = 9.5;

/// Widths of the columns of operations: tick box, number, letter, verb, size, length, cross dial, measured.
pub const COLUMNS: [f64; 8] = [8.5, 11.5, 8.5, 34.0, 33.0, 33.5, 29.0, 20.0];
/// Where the text of a wide row and of a detail block begins.
pub const DETAIL_LEFT: f64 = COLUMNS[0] + COLUMNS[1];

/// Height of a text in lines of `line` millimetres at `points`, in `room` millimetres of width.
pub fn text(text: &Rich, points: f64, line: f64, room: f64) -> f64 {
    measure::lines(text, points, room) as f64 * line
}

/// Height of body text.
pub fn body(rich: &Rich, room: f64) -> f64 {
    text(rich, BODY, LINE, room)
}
