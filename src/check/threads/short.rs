#![doc = include_str!("short.md")]

use crate::chain::Piece;
use crate::check::shape::{face, largest_written, number, smallest_written, times};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::feature::Thread;
use crate::model::{End, Kind};
use crate::unit::Length;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "thread-short",
    severity: Severity::Warning,
    group: "threads",
    source: "a standard nut is about 0.8 diameters high (ISO 4032, ASME B18.2.2)",
    page: include_str!("short.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for (section, thread, piece) in facts.threads() {
        let full = full_length(facts, thread, piece);
        let nut =
            section.carries.iter().filter_map(|c| Some((c, largest_written(c.wide.as_ref()?)))).max_by_key(|(_, w)| *w);
        let share = facts.limit_number(CHECK.id, "diameters");
        let useful = thread.taper.map(|t| t.useful_length);
        let (wanted, words) = match (useful, nut) {
            (Some(useful), _) => {
                (useful, told!("the useful length of its standard", "die nutzbare Länge nach seiner Norm").to_owned())
            }
            (None, Some((carried, wide))) => (wide, tell!("the {} is that wide", "{} ist so breit", carried.part.text)),
            (None, None) => (
                times(thread.nominal, share),
                tell!("{} diameters, a standard nut", "{} Durchmesser, eine Normmutter", number(share)),
            ),
        };
        if full >= wanted {
            continue;
        }
        let message = tell!(
            "{} has {} of full thread, less than {} ({words})",
            "{} hat {} volles Gewinde, weniger als {} ({words})",
            thread.designation,
            facts.show(full),
            facts.show(wanted)
        );
        let mut finding = Finding::new(CHECK.id, Severity::Warning, message)
            .at(section.head)
            .of(section.letter.clone())
            .length("full_thread", full)
            .length("wanted", wanted)
            .help(tell!("Make the thread {} longer, or say what is screwed on: `carries: {{part: nut, wide: …}}`", "Das Gewinde {} länger machen, oder sagen, was daraufgeschraubt wird: `carries: {{part: nut, wide: …}}`",
                facts.show(wanted - full)
            ));
        if nut.is_none() && useful.is_none() {
            finding = finding.by_limit("diameters");
        }
        out.push(finding);
    }
}

/// The stated full thread, or the section less what the chamfers, the run-out and a groove inside it take.
fn full_length(facts: &Facts<'_>, thread: &Thread, piece: &Piece) -> Length {
    if let Some(full) = &thread.full {
        return smallest_written(full);
    }
    let chamfers: Length = [End::Datum, End::Far]
        .into_iter()
        .filter_map(|side| facts.chamfer_on(piece, side))
        .map(|(_, leg, _)| leg)
        .sum();
    let inside = |f: &&crate::model::Feature| matches!(f.kind, Kind::Groove { .. });
    let grooves: Length = facts
        .part
        .features
        .iter()
        .filter(inside)
        .filter_map(|f| {
            let (from, to) = facts.chain.span(f.id)?;
            (face(piece, End::Datum) <= from && to <= face(piece, End::Far)).then(|| to - from)
        })
        .sum();
    let run_out = thread.run_out.as_ref().map_or(Length::ZERO, |r| r.nominal);
    piece.long() - chamfers - grooves - run_out
}
