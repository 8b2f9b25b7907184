//! The story strip: every shoulder at full size along one edge, to be cut out and held against the work.

use super::Picture;
use super::canvas::{Anchor, Canvas, Dash, Label, weight};
use super::part::Reading;
use super::spread::spread;

/// Width of the page's body.
const WIDTH: f64 = 178.0;
/// Height of a picture: a page without its title and two lines under it.
const HEIGHT: f64 = 220.0;
/// Room above the pieces for the bars that prove the scale.
const TOP: f64 = 27.0;
/// Longest piece of the part on one strip.
const PIECE: f64 = 190.0;
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

/// One piece of the part on one strip.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Piece {
    from: f64,
    to: f64,
}

/// The strips of a part of this length, a picture a page. `readings` stand at the faces; `says` names a piece by its number.
pub fn strips(
    overall: f64,
    readings: &[Reading],
    gauge: &Gauge,
    says: &dyn Fn(usize, usize) -> String,
    alt: &str,
) -> Vec<Picture> {
    let count = (overall / PIECE).ceil().max(1.0);
    let long = overall / count;
    let pieces: Vec<Piece> = (0..count as usize)
        .map(|i| Piece {
            from: long * i as f64,
            to: if i + 1 == count as usize { overall } else { long * (i + 1) as f64 },
        })
        .collect();
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
                strip(&mut canvas, left, *piece, readings, &label);
            }
            Picture::of(&canvas, &format!("strip-{}", page + 1), alt.to_owned())
        })
        .collect()
}

fn scale_bar(canvas: &mut Canvas, gauge: &Gauge) {
    let (left, y) = (2.0, 6.0);
    canvas.line((left, y), (left + gauge.long, y), weight::THICK, Dash::Solid);
    for x in [left, left + gauge.long] {
        canvas.line((x, y - 3.0), (x, y + 3.0), weight::THICK, Dash::Solid);
    }
    canvas.text((left + 2.0, y + 8.5), Label::plain(&gauge.text));
}

fn strip(canvas: &mut Canvas, left: f64, piece: Piece, readings: &[Reading], label: &str) {
    let y = |place: f64| TOP + place - piece.from;
    let right = left + STRIP;
    if !label.is_empty() {
        canvas.text((left, TOP - 4.0), Label { bold: true, ..Label::plain(label) });
    }
    canvas.rectangle(left, TOP, right, y(piece.to), "#fff", weight::THICK);
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
        assert_eq!(pictures(560.0, &[0.0, 560.0]).len(), 1);
        assert_eq!(pictures(600.0, &[0.0, 600.0]).len(), 2);
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
