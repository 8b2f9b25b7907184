//! Depth and the travel of the compound.

use super::limits::times;
use super::{Feed, Form, ThreadData};
use crate::unit::Length;

/// Compound angles for 60° threads, degrees.
const SIXTY: [f64; 3] = [29.0, 29.5, 30.0];

/// The ways to feed the tool to depth: for 60° threads the three usual compound angles for each of the two heights in use
/// (.6495 P of the old sharp-V form, .6134 P of today's), then straight in; for the others half the thread's angle and straight in.
pub(super) fn feeds(data: &ThreadData) -> Vec<Feed> {
    match data.form {
        Form::Sixty => {
            let heights = [(0.649_519_05, "0.6495 P"), (0.613_434_66, "0.6134 P")];
            let mut feeds: Vec<Feed> = heights
                .iter()
                .flat_map(|(h, name)| SIXTY.map(|angle| feed(angle, times(data.pitch, *h), name)))
                .collect();
            feeds.extend(heights.map(|(h, name)| feed(0.0, times(data.pitch, h), name)));
            feeds
        }
        Form::Whitworth => vec![feed(27.5, data.depth, "0.6403 P"), feed(0.0, data.depth, "0.6403 P")],
        Form::TaperWhitworth | Form::TaperSixty => vec![feed(0.0, data.depth, "full depth")],
        Form::Square => vec![feed(0.0, data.depth, "P/2 and clearance")],
        Form::Buttress => vec![feed(0.0, data.depth, "0.6627 P")],
        Form::Acme | Form::StubAcme | Form::Trapezoidal => {
            let half = data.form.half_angle().unwrap_or(0.0);
            vec![feed(half, data.depth, "total height"), feed(0.0, data.depth, "total height")]
        }
    }
}

fn feed(angle: f64, depth: Length, height: &'static str) -> Feed {
    let travel = depth.pm() as f64 / angle.to_radians().cos();
    Feed { angle, depth, travel: Length::from_pm(travel.round() as i64), height }
}
