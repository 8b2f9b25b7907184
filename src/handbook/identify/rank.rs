//! The candidates in order of how well they explain the readings.

use super::candidates::{Candidate, candidates, made_to_measure};
use super::readings::{FormGuess, ThreadReadings};
use super::{apart, likelihood, words};
use crate::handbook::thread::{Asked, Designation, Form, ThreadData, limits};

/// One candidate with its share of the belief.
#[derive(Debug, Clone, PartialEq)]
pub struct Ranked {
    /// The thread, of as many starts as were told.
    pub candidate: Candidate,
    /// Its share among all candidates, 0 to 1.
    pub score: f64,
    /// Starts; more than 1 also where the pitch that was read may have been a lead.
    pub starts: u8,
    /// What speaks for and against it.
    pub why: Vec<String>,
    /// How to tell it from the first, or for the first from the second.
    pub tells: Vec<String>,
    /// What to make, never the worn size.
    pub restore: Vec<String>,
}

/// What the readings of a thread come to.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Found {
    /// The likeliest first, at most eight, none below a thousandth.
    pub ranked: Vec<Ranked>,
    /// No standard thread explains the readings well: why, in a sentence.
    pub doubt: Option<String>,
    /// What else must be said.
    pub notes: Vec<String>,
}

/// Most that is listed.
const MOST: usize = 8;

/// Weight of the slip that a lead was read for a pitch, for each further start.
const LEAD_TAKEN_FOR_PITCH: f64 = 0.01;

/// Ranks all threads by what was read.
pub fn threads(read: &ThreadReadings) -> Found {
    let own = match (read.form, read.major) {
        (Some(FormGuess::Square), Some(major)) => made_to_measure(Form::Square, major),
        (Some(FormGuess::Buttress), Some(major)) => made_to_measure(Form::Buttress, major),
        _ => Vec::new(),
    };
    let told = read.starts_told();
    let mut all: Vec<(f64, &Candidate, u8)> = Vec::new();
    for c in candidates().iter().chain(&own) {
        all.push((c.usual.ln() + likelihood::of(read, c, c.pitch_mm()), c, told));
        if read.starts.is_none() && read.lead.is_none() && !read.pitch.is_empty() {
            for starts in [2_u8, 3] {
                let weight = c.usual.ln() + LEAD_TAKEN_FOR_PITCH.ln() * f64::from(starts - 1);
                all.push((weight + likelihood::of(read, c, c.pitch_mm() * f64::from(starts)), c, starts));
            }
        }
    }
    all.sort_by(|a, b| b.0.total_cmp(&a.0));
    let Some(best) = all.first().map(|a| a.0) else { return Found::default() };
    let sum: f64 = all.iter().map(|a| (a.0 - best).exp()).sum();
    let chosen: Vec<_> =
        all.iter().map(|a| ((a.0 - best).exp() / sum, a.1, a.2)).filter(|a| a.0 >= 0.001).take(MOST).collect();
    let candidates: Vec<Candidate> = chosen.iter().map(|(_, c, starts)| of_starts(c, *starts, read)).collect();
    let ranked = chosen.iter().zip(&candidates).enumerate().map(|(i, ((score, _, starts), candidate))| {
        let other = candidates.get(usize::from(i == 0));
        Ranked {
            score: *score,
            starts: *starts,
            why: words::why(read, candidate, *starts),
            tells: other.map_or_else(Vec::new, |o| apart::tells(read, candidate, o)),
            restore: words::restore(candidate),
            candidate: candidate.clone(),
        }
    });
    let ranked: Vec<_> = ranked.collect();
    let doubt = ranked.first().and_then(|r| words::doubt(read, &r.candidate, r.starts));
    Found { notes: words::notes(read, ranked.first()), doubt, ranked }
}

/// The thread with its starts and hand.
fn of_starts(c: &Candidate, starts: u8, read: &ThreadReadings) -> Candidate {
    let Some(single) = &c.designation else { return c.clone() };
    let mut d: Designation = Designation { starts, hand: read.hand, ..single.clone() };
    d.text = d.show();
    let data: Option<ThreadData> =
        if starts == 1 && d == *single { c.data.clone() } else { limits(&d, &Asked::special()).ok() };
    Candidate { name: d.show(), designation: Some(d), data, ..c.clone() }
}
