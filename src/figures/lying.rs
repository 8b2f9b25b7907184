//! Lines scribed with the work lying in V-blocks: middles of holes across, keyseats and flats on surfaces that are not finished.
//!
//! The gauge is first read over the top of the round; the axis lies half of the round below that, whatever the blocks are high (C. Knight, The Mechanician,
//! spindle key-ways: two V-blocks, a line for either edge). A line beside a hole or slot would stay, so it is drawn no longer than what is cut away.

use super::given::Given;
use super::keyseat_cut::keyseat_cut;
use super::outside_cut::flats_cut;
use super::{Figure, OnScale, scale};
use crate::check::round::Surface;
use crate::model::plan::{Operation, Setup, Verb};
use crate::model::{Feature, Kind, Plan};
use crate::unit::{Length, Station};
use crate::{tell, told};

/// One line along the work.
#[derive(Debug, Clone, PartialEq)]
pub struct LyingMark {
    /// `L1`, from the datum end.
    pub label: String,
    /// Set the gauge this much below what it reads over the round.
    pub below_top: Figure,
    /// The same on a gauge in the other unit.
    pub on_scale: Option<OnScale>,
    /// Above the axis; below it where negative.
    pub above_axis: Figure,
    /// Diameter it is scribed on.
    pub on_diameter: Figure,
    /// Where it begins, from the datum face.
    pub from: Figure,
    /// Where it ends: of a hole where it began, its middle.
    pub to: Figure,
    /// Letter of the feature.
    pub letter: String,
    /// What it means.
    pub means: String,
    /// Whether it may be pricked: the metal under it is cut away.
    pub prick: bool,
    /// Where around the part, where the lines do not all lie at one angle: degrees counter-clockwise seen from the datum end.
    pub angle_deg: Option<f64>,
}

/// Everything scribed lying.
#[derive(Debug, Clone, PartialEq)]
pub struct Lying {
    /// `before setup 5`.
    pub when: String,
    /// From the datum end outward.
    pub marks: Vec<LyingMark>,
    /// Features that have a line.
    pub features: Vec<usize>,
}

/// Most lines that are read.
const MOST: usize = 10;

/// A line before it has its label: section's diameter, above the axis, from, to, what it means, whether pricked.
struct Line {
    round: Length,
    above: Length,
    from: Station,
    to: Station,
    means: String,
    prick: bool,
}

/// The lines of a plan that are scribed lying; none where nothing is milled or drilled across, or only on finished surfaces.
pub(super) fn lying(given: &Given, plan: &Plan) -> Option<Lying> {
    let cuts = plan.operations().filter(|(_, o)| matches!(o.verb, Verb::Mill | Verb::Drill) && !o.inside);
    let mut found: Vec<(&Setup, &Feature, Line)> = Vec::new();
    for (setup, op) in cuts {
        let Some(feature) = op.feature.and_then(|f| given.feature(f)) else { continue };
        found.extend(lines(given, plan, op, feature).into_iter().map(|line| (setup, feature, line)));
    }
    let first = found.iter().map(|(s, ..)| s.number).min()?;
    found.sort_by_key(|(_, f, line)| (line.from, f.id));
    found.truncate(MOST);
    let mut angles: Vec<i64> = found.iter().map(|(_, f, _)| f.angle_mdeg.unwrap_or(0)).collect();
    angles.sort_unstable();
    angles.dedup();
    let mut features: Vec<usize> = found.iter().map(|(_, f, _)| f.id).collect();
    features.dedup();
    let marks = found.into_iter().enumerate().map(|(i, (_, feature, line))| {
        let below = Figure::fine(line.round.half() - line.above, given.unit);
        let place = |s: Station| Figure::usual(s - Station::DATUM, given.unit);
        LyingMark {
            label: format!("L{}", i + 1),
            below_top: below,
            on_scale: scale::on_scale(given, "height gauge", Some(below), None),
            above_axis: Figure::fine(line.above, given.unit),
            on_diameter: Figure::fine(line.round, given.unit),
            from: place(line.from),
            to: place(line.to),
            letter: feature.letter.clone(),
            means: line.means,
            prick: line.prick,
            angle_deg: (angles.len() > 1).then(|| feature.angle_mdeg.unwrap_or(0) as f64 / 1000.0),
        }
    });
    let when = tell!("before setup {first}", "vor Spannlage {first}");
    Some(Lying { when, marks: marks.collect(), features })
}

/// Whether the section's surface is finished work: held close, polished, or a seat.
fn is_finished(given: &Given, plan: &Plan, section: usize) -> bool {
    let worked = |o: &Operation| o.feature == Some(section) || o.with.contains(&section);
    let finished = plan.operations().any(|(_, o)| worked(o) && (o.close || o.verb == Verb::Polish));
    finished || given.feature(section).is_some_and(|f| !f.carries.is_empty())
}

fn lines(given: &Given, plan: &Plan, op: &Operation, feature: &Feature) -> Vec<Line> {
    let Some(center) = given.chain.center(feature.id) else { return Vec::new() };
    let (from, to) = given.chain.span(feature.id).unwrap_or((center, center));
    let Some(on) = given.facts().round_under(from.min(to), from.max(to)) else { return Vec::new() };
    let (section, round) = (on.section.id, on.diameter);
    if matches!(on.is, Surface::Points { .. }) {
        // No line is seen on a knurl.
        return Vec::new();
    }
    let finished = is_finished(given, plan, section);
    let letter = &feature.letter;
    match feature.kind {
        Kind::CrossHole { .. } => {
            let means = if finished {
                tell!(
                    "middle of hole {letter}, no longer than it is wide",
                    "Mitte Bohrung {letter}, nicht länger als ihr Ø"
                )
            } else {
                tell!("middle of hole {letter}", "Mitte Bohrung {letter}")
            };
            vec![Line { round, above: Length::ZERO, from: center, to: center, means, prick: true }]
        }
        Kind::Woodruff { .. } | Kind::ParallelKeyseat { .. } if !finished => {
            let Some(key) = keyseat_cut(given, op) else { return Vec::new() };
            let at = |above: Length, what: &str, prick: bool| Line {
                round,
                above,
                from: Station(key.slot.from.value),
                to: Station(key.slot.to.value),
                means: format!("{what} {letter}"),
                prick,
            };
            let half = key.width.value.half();
            vec![
                at(half, told!("upper edge of keyseat", "Oberkante Nut"), false),
                at(Length::ZERO, told!("middle of keyseat", "Mitte Nut"), true),
                at(Length::ZERO - half, told!("lower edge of keyseat", "Unterkante Nut"), false),
            ]
        }
        Kind::Flats { .. } if !finished => {
            let Some(flats) = flats_cut(given, op) else { return Vec::new() };
            let means = tell!("flat {letter}, on both sides", "Fläche {letter}, auf beiden Seiten");
            let (from, to) = (Station(flats.along.from.value), Station(flats.along.to.value));
            vec![Line { round, above: round.half() - flats.depth.value, from, to, means, prick: false }]
        }
        _ => Vec::new(),
    }
}

/// Whether a line on the bar may be pricked: so much metal comes off there that no prick is left (.040 in, 1 mm a side; common practice, no source).
pub(super) fn may_be_pricked(given: &Given, at: Station, on: Length) -> bool {
    let beside = given.profile.pieces.iter().filter(|p| p.from <= at && at <= p.to);
    let stays = beside.map(crate::chain::Piece::largest).max();
    stays.is_some_and(|d| on - d >= given.pick(80_000, 2_000))
}

/// Sentences beside the list.
pub(super) fn notes(lying: &Lying) -> Vec<String> {
    let mut notes = vec![
        told!(
            "Lying: read the gauge over the top of the round there, then down by what the line says; where the round measures otherwise, half of that counts.",
            "Liegend: dort über die Kuppe messen, dann um das Maß des Risses herunter; misst das Rund anders, zählt dessen Hälfte."
        )
        .to_owned(),
    ];
    if lying.marks.iter().any(|m| m.angle_deg.is_some()) {
        notes.push(
            told!(
                "Carry the first line across the end face: the other angles are turned from it, 90° by a square.",
                "Den ersten Riss über die Stirn ziehen: von ihm aus werden die anderen Winkel gedreht, 90° mit dem Winkel."
            )
            .to_owned(),
        );
    }
    notes
}

impl LyingMark {
    /// The setting as the gauge shows it, in its own unit, which is named where it is not the part's.
    pub fn setting(&self, unit: crate::unit::Unit) -> String {
        self.on_scale.map_or_else(|| self.below_top.text(unit), |s| format!("{} {}", s.size_text(), s.unit.word()))
    }
}
