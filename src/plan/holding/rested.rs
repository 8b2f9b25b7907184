//! Mountings in a chuck and a steady rest: for ends that no center may carry, and for bars that do not pass the spindle.

use super::decide::{EndHolding, OVERHANG_DIAMETERS};
use super::grip::{Held, Lengths, OUT_OF_JAWS, bar_end, best_surface};
use super::mountings::{Candidate, mounting, out_of_jaws};
use crate::handbook::material::Condition;
use crate::model::End;
use crate::model::Part;
use crate::model::part::Holding;
use crate::model::plan::{Grip, Rest};
use crate::plan::derive::{Layout, Section, Shape, bar_of};
use crate::plan::rules::because;
use crate::unit::Length;
use crate::{tell, told};

/// Chuck at the headstock and a steady rest behind the cut: on the bar, or on a section that is finished by then.
pub(super) fn rested(
    part: &Part,
    layout: &Layout,
    lengths: &Lengths,
    holding: &EndHolding,
    turns: bool,
) -> Vec<Candidate> {
    let end = holding.end;
    let deep = if turns { holding.depth } else { layout.bar };
    let grips =
        [Some(bar_end(layout, lengths, end, Holding::Chuck)), best_surface(part, layout, lengths, end, Holding::Chuck)];
    let mut list = Vec::new();
    for held in grips.into_iter().flatten() {
        for track in tracks(layout, lengths, end, deep) {
            let (out, beyond) = (out_of_jaws(layout, end, &held), out_of_jaws(layout, end, &track));
            let apart = track.grip.to <= held.grip.from || held.grip.to <= track.grip.from;
            if !apart || out <= beyond || beyond > track.grip.diameter.times(OVERHANG_DIAMETERS) {
                continue;
            }
            let on = if track.section.is_some() {
                tell!(", rest on {}", ", Lünette auf {}", track.grip.letter)
            } else {
                String::new()
            };
            let mut candidate = mounting(layout, holding, Holding::ChuckAndRest, held.clone(), out, turns);
            candidate.setup.name += &on;
            let runs = if track.section.is_some() {
                tell!(
                    "the rest runs on {}, finished and true",
                    "die Lünette läuft auf {}, fertig und rund",
                    track.grip.letter
                )
            } else if bar_of(part).is_some_and(Condition::has_scale) {
                told!(
                    "the rest runs on the bar, which is rough: turn a spot true for it first, by light cuts",
                    "die Lünette läuft auf der rauen Stange: erst mit leichten Schnitten eine Stelle dafür rund drehen"
                )
                .to_owned()
            } else {
                told!("the rest runs on the bar: where that is not round and smooth, turn a spot true for it first", "die Lünette läuft auf der Stange: wo diese nicht rund und glatt ist, erst eine Stelle dafür rund drehen").to_owned()
            };
            for why in &mut candidate.setup.why {
                if let Some((diameters, _)) = why.reason.split_once(OUT_OF_JAWS.say()) {
                    why.reason = tell!(
                        "{diameters}{}: the steady rest carries it",
                        "{diameters}{}: die Lünette trägt es",
                        OUT_OF_JAWS.say()
                    );
                }
            }
            candidate.setup.why.push(because("R15", runs));
            let Grip { from, to, diameter, ref letter, .. } = track.grip;
            candidate.setup.rest = Some(Rest { follows: false, from, to, diameter, letter: letter.clone() });
            candidate.track = Some(track);
            list.push(candidate);
        }
    }
    list
}

/// Where a steady rest may run while an end is cut so deep: on the bar just behind, and on the nearest section of the other
/// side that is long enough.
fn tracks(layout: &Layout, lengths: &Lengths, end: End, deep: Length) -> Vec<Held> {
    let spot = |depth: Length, diameter: Length, section: Option<usize>, letter: &str| {
        let near = Layout::toward(end.other(), layout.face(end), depth);
        let away = Layout::toward(end.other(), near, lengths.track);
        let (from, to) = (near.min(away), near.max(away));
        Held { grip: Grip { from, to, diameter, letter: letter.to_owned(), protect: false }, section, poor: false }
    };
    let room = lengths.clearance.min(layout.bar.half());
    // Its jaws do not run on flats.
    let flats = layout.bar > layout.jaws_on;
    let mut list = if flats { Vec::new() } else { vec![spot(deep + room, layout.bar, None, "")] };
    let long_enough = |s: &&Section| {
        let behind = layout.depth(end, s.outer(end)).max(deep + room);
        let round = s.shape == Shape::Cylinder || (s.shape == Shape::Kept && !flats);
        round && s.end != Some(end) && !s.whole && layout.depth(end, s.inner(end)) - behind >= lengths.track
    };
    let nearest = layout.sections.iter().filter(long_enough).min_by_key(|s| layout.depth(end, s.outer(end)));
    list.extend(
        nearest.map(|s| spot(layout.depth(end, s.outer(end)).max(deep + room), s.aim, Some(s.feature), &s.letter)),
    );
    list
}
