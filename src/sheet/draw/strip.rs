//! The story strip: every shoulder at full size along one edge, to be cut out and held against the work.

use super::Picture;
use super::canvas::{Anchor, Canvas, Dash, Label, weight};
use super::part::Reading;
use super::spread::spread;

/// Width of the page's body.
const WIDTH: f64 = 178.0;
/// Height of a picture: a page without its title and two lines under it.
const HEIGHT: f64 = 208.0;
/// Room above the pieces for the bars that prove the scale.
const TOP: f64 = 27.0;
/// Longest part that goes on one strip.
const WHOLE: f64 = 178.0;
/// Longest piece of a longer part, without what overlaps.
const PIECE: f64 = 162.0;
/// How far a piece goes on beyond its joint, so that joint can be laid on joint.
const OVERLAP: f64 = 8.0;
/// Strips side by side on a page.
const A_PAGE: usize = 3;
/// Paper of a strip with its words.
const PITCH: f64 = WIDTH / A_PAGE as f64;
/// Width of the strip itself.
const STRIP: f64 = 18.0;
/// Paper between two lengths.
const LINE: f64 = 5.2;

/// The bar that proves the print to be full size.
#[derive(Debug, Clone, PartialEq)]
pub struct Gauge {
    /// Its length in millimetres.
    pub long: f64,
    /// What it says.
    pub text: String,
}

/// One piece of the part on one strip, overlaps included.
#[derive(Debug, Clone, PartialEq)]
struct Piece {
    from: f64,
    to: f64,
    /// Where it meets its neighbours.
    joints: Vec<f64>,
}

/// The pieces a part of this length goes in.
fn pieces(overall: f64) -> Vec<Piece> {
    let count = if overall <= WHOLE { 1 } else { (overall / PIECE).ceil() as usize };
    let joint = |i: usize| overall * i as f64 / count as f64;
    let piece = |i: usize| Piece {
        from: (joint(i) - OVERLAP).max(0.0),
        to: (joint(i + 1) + OVERLAP).min(overall),
        joints: [i, i + 1].into_iter().filter(|n| *n > 0 && *n < count).map(joint).collect(),
    };
    (0..count).map(piece).collect()
}

/// Whether the part goes over several strips.
pub fn in_pieces(overall: f64) -> bool {
    pieces(overall).len() > 1
}

/// The strips of a part of this length, a picture a page. `readings` stand at the faces; `says` names a piece by its number.
pub fn strips(
    overall: f64,
    readings: &[Reading],
    gauge: &Gauge,
    says: &dyn Fn(usize, usize) -> String,
    alt: &str,
) -> Vec<Picture> {
    let pieces = pieces(overall);
    let of = pieces.len();
    let numbered: Vec<(usize, Piece)> = pieces.into_iter().enumerate().collect();
    numbered
        .chunks(A_PAGE)
        .enumerate()
        .map(|(page, chunk)| {
            let mut canvas = Canvas::new(WIDTH, HEIGHT);
            scale_bar(&mut canvas, gauge);
            for (column, (i, piece)) in chunk.iter().enumerate() {
                let left = PITCH * column as f64 + 2.0;
                let label = if of > 1 { says(i + 1, of) } else { String::new() };
                strip(&mut canvas, left, piece, readings, &label);
            }
            Picture::of(&canvas, &format!("strip-{}", page + 1), alt.to_owned())
        })
        .collect()
}

fn scale_bar(canvas: &mut Canvas, gauge: &Gauge) {
    let (left, y) = (2.0, 6.0);
    canvas.line((left, y), (left + gauge.long, y), weight::THICK, Dash::Solid);
    for x in [left, left + gauge.long] {
        canvas.line((x, y - 3.0), (x, y + 3.0), weight::THIN, Dash::Solid);
    }
    canvas.text((left + 2.0, y + 8.5), Label::plain(&gauge.text));
}

fn strip(canvas: &mut Canvas, left: f64, piece: &Piece, readings: &[Reading], label: &str) {
    let y = |place: f64| TOP + place - piece.from;
    let right = left + STRIP;
    if !label.is_empty() {
        canvas.text((left, TOP - 4.0), Label { bold: true, ..Label::plain(label) });
    }
    canvas.rectangle(left, TOP, right, y(piece.to), "#fff", weight::THICK);
    for joint in &piece.joints {
        canvas.line((left - 2.0, y(*joint)), (right + 2.0, y(*joint)), weight::THIN, Dash::Hidden);
    }
    let here: Vec<&Reading> =
        readings.iter().filter(|r| piece.from - 1e-6 <= r.at && r.at <= piece.to + 1e-6).collect();
    let wanted: Vec<f64> = here.iter().map(|r| y(r.at)).collect();
    let places = spread(&wanted, &vec![LINE; wanted.len()], 0.0, (TOP - 2.6, HEIGHT - 1.0));
    for ((r, at), text_at) in here.iter().zip(&wanted).zip(places) {
        canvas.line((left, *at), (right, *at), weight::THICK, Dash::Solid);
        let end = right + 6.0;
        canvas.path(
            &[(right, *at), (right + 1.2, *at), (end - 1.2, text_at), (end, text_at)],
            weight::THIN,
            Dash::Solid,
        );
        let label = Label { bold: true, ..Label::plain(&r.text) }.anchored(Anchor::Start);
        canvas.text((end + 1.0, text_at + 1.5), label);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn reading(at: f64) -> Reading {
        Reading { at, text: format!("{at}") }
    }

    fn pictures(overall: f64, at: &[f64]) -> Vec<Picture> {
        let readings: Vec<Reading> = at.iter().copied().map(reading).collect();
        let gauge = Gauge { long: 100.0, text: "100 mm".to_owned() };
        strips(overall, &readings, &gauge, &|n, of| format!("{n} of {of}"), "")
    }

    #[test]
    fn a_short_part_is_one_strip_at_full_size() {
        let made = pictures(150.0, &[0.0, 20.0, 150.0]);
        assert_eq!(made.len(), 1);
        // From the datum face to the far one the outline of the strip is as long as the part.
        assert!(made[0].svg.contains(&format!("M2 {TOP}L20 {TOP}L20 {}", TOP + 150.0)), "{}", made[0].svg);
    }

    #[test]
    fn a_long_part_goes_over_several_strips_and_pages() {
        assert_eq!(pictures(480.0, &[0.0, 480.0]).len(), 1);
        assert_eq!(pictures(520.0, &[0.0, 520.0]).len(), 2);
    }

    /// Each joint stands on both its pieces, which go on beyond it; no piece leaves the page, and together they are the part.
    #[test]
    fn pieces_overlap_at_their_joints() {
        for overall in [150.0, 178.0, 178.1, 324.0, 325.0, 1_000.0] {
            let all = pieces(overall);
            assert!(all[0].from.abs() < 1e-9 && (all[all.len() - 1].to - overall).abs() < 1e-9);
            assert!(all.iter().all(|p| TOP + p.to - p.from < HEIGHT - 1.0), "{overall}: {all:?}");
            for pair in all.windows(2) {
                let joint = *pair[0].joints.last().expect("a joint");
                assert!((joint - pair[1].joints[0]).abs() < 1e-9);
                assert!((pair[0].to - joint - OVERLAP).abs() < 1e-9 && (joint - pair[1].from - OVERLAP).abs() < 1e-9);
            }
        }
        assert!(!in_pieces(178.0) && in_pieces(178.1));
    }

    #[test]
    fn no_length_covers_another() {
        let close: Vec<f64> = (0..30).map(|i| f64::from(i) * 1.3).collect();
        for picture in pictures(120.0, &close) {
            for (i, (a, over)) in picture.words.iter().enumerate() {
                for (b, under) in &picture.words[..i] {
                    assert!(!over.meets(under), "{a} covers {b}");
                }
            }
        }
    }
}
