//! `identify`: from readings of a worn sample to what it was made as.

mod args;
mod asked;
mod show;

pub use args::IdentifyArgs;

use serde_json::{Value, json};

use super::args::Format;
use super::json::{self, number};
use super::run::Outcome;
use super::screen::Screen;
use crate::handbook::identify::{
    BearingFound, Found, KeyFound, RoundFound, bearings, inner_ring, keys, seats, threads,
};
use crate::unit::{Length, Unit};
use asked::Asked;

/// Everything that was found.
pub(super) struct Answer {
    /// Unit of the reply.
    unit: Unit,
    /// Of a thread.
    thread: Option<Found>,
    /// Of a key.
    keys: Option<Vec<KeyFound>>,
    /// Of bearings, by marks and by sizes.
    bearings: Option<Vec<BearingFound>>,
    /// Of seats, each with its reading.
    seats: Vec<(Length, Vec<RoundFound>)>,
    /// Marks that tell nothing.
    unknown: Vec<String>,
}

impl Answer {
    fn of(asked: &Asked) -> Self {
        let marks = asked.rings.iter().map(|r| (r, inner_ring(r)));
        let (known, unknown): (Vec<_>, Vec<_>) = marks.partition(|(_, found)| found.is_some());
        let sizes = bearings(asked.bearing.0, asked.bearing.1, asked.bearing.2, asked.thread.diameter_error);
        let about_bearings = !asked.rings.is_empty() || asked.asks_bearing();
        let all: Vec<BearingFound> = known.into_iter().filter_map(|(_, f)| f).chain(sizes).collect();
        Self {
            unit: asked.unit,
            thread: asked.asks_thread().then(|| threads(&asked.thread)),
            keys: asked.asks_key().then(|| keys(&asked.key)),
            bearings: about_bearings.then_some(all),
            seats: asked
                .seats
                .iter()
                .map(|s| (*s, seats(*s, asked.carries, asked.thread.diameter_error.half(), asked.thread.wear)))
                .collect(),
            unknown: unknown.into_iter().map(|(r, _)| r.clone()).collect(),
        }
    }

    /// Something that was asked has no answer.
    fn wanting(&self) -> bool {
        self.thread.as_ref().is_some_and(|t| t.doubt.is_some() || t.ranked.is_empty())
            || self.keys.as_ref().is_some_and(Vec::is_empty)
            || self.bearings.as_ref().is_some_and(Vec::is_empty)
            || self.seats.iter().any(|(_, found)| found.is_empty())
            || !self.unknown.is_empty()
    }
}

/// Looks for what was read.
pub(super) fn run(args: &IdentifyArgs, screen: Screen) -> Outcome {
    let asked = match Asked::of(args) {
        Ok(asked) => asked,
        Err(why) => return Outcome::could_not(&why),
    };
    let answer = Answer::of(&asked);
    let out = match args.format {
        Format::Json => json::reply(vec![reply(&answer)]),
        Format::Text => show::text(&answer, screen.width),
    };
    Outcome { out, code: u8::from(answer.wanting()), ..Outcome::default() }
}

/// `turnwright/identify/1`.
fn reply(a: &Answer) -> Value {
    let n = |l: Length| number(l, a.unit);
    let score = |s: f64| json!((s * 10_000.0).round() / 10_000.0);
    let threads = a.thread.iter().flat_map(|t| &t.ranked).map(|r| {
        json!({
            "designation": r.candidate.name,
            "score": score(r.score),
            "starts": r.starts,
            "major": json::limits(Some(r.candidate.major), a.unit),
            "pitch": n(r.candidate.pitch.nearest()),
            "angle_deg": r.candidate.angle,
            "why": r.why,
            "tells": r.tells,
            "restore": r.restore,
            "source": r.candidate.data.iter().flat_map(|d| &d.source).map(|s| s.line()).collect::<Vec<_>>(),
        })
    });
    let keys = a.keys.iter().flatten().map(|k| {
        json!({"key": k.name, "score": score(k.score), "width": n(k.width), "height": n(k.height), "describe": k.describe, "why": k.why})
    });
    let bearings = a.bearings.iter().flatten().map(|b| {
        let size = |f: fn(&crate::handbook::bearing::Bearing) -> Length| b.bearing.as_ref().map(|x| n(f(x)));
        json!({
            "number": b.number,
            "score": score(b.score),
            "bore": n(b.bore),
            "outside": size(|x| x.outside),
            "width": size(|x| x.width),
            "corner": size(|x| x.corner),
            "why": b.why,
            "seats": b.seats.iter().map(|(class, limits, words)| {
                json!({"class": class, "limits": json::limits(Some(*limits), a.unit), "when": words})
            }).collect::<Vec<_>>(),
        })
    });
    let seats = a.seats.iter().map(|(read, found)| {
        let found = found.iter().map(|s| {
            json!({"nominal": s.name, "size": n(s.nominal), "score": score(s.score), "class": s.class, "limits": json::limits(Some(s.limits), a.unit), "why": s.why})
        });
        json!({"read": n(*read), "candidates": found.collect::<Vec<_>>()})
    });
    json!({
        "format": "turnwright/identify/1",
        "units": a.unit.word(),
        "threads": threads.collect::<Vec<_>>(),
        "doubt": a.thread.as_ref().and_then(|t| t.doubt.clone()),
        "notes": a.thread.iter().flat_map(|t| t.notes.clone()).collect::<Vec<_>>(),
        "keys": keys.collect::<Vec<_>>(),
        "bearings": bearings.collect::<Vec<_>>(),
        "seats": seats.collect::<Vec<_>>(),
        "unknown_marks": a.unknown,
    })
}
