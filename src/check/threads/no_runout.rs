#![doc = include_str!("no_runout.md")]

use crate::check::shape::{RunOut, nominal_at, relief_that_clears};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::End;
use crate::tell;
use crate::unit::Length;

/// The check.
pub const CHECK: Check = Check {
    id: "thread-no-runout",
    severity: Severity::Error,
    group: "threads",
    source: "the tool needs a place to come out (US Navy Machinery Repairman manual; Schneider, Cutting Tool Applications)",
    page: include_str!("no_runout.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for (section, thread, piece) in facts.threads() {
        let full = thread.full.as_ref().is_some_and(|f| f.nominal < piece.long());
        if thread.run_out.is_some() || full {
            continue;
        }
        for side in [End::Datum, End::Far] {
            let RunOut::Against(feature) = facts.run_out(piece, thread, side) else { continue };
            let wall = nominal_at(feature, side.other());
            // A taper thread runs out on its own pipe: its roots rise to the outside and beyond.
            if thread.taper.is_some() && wall <= thread.nominal {
                continue;
            }
            let message = tell!(
                "{} runs up to {}, {}, above its pitch diameter {}, with neither relief nor run-out",
                "{} läuft bis an {}, {}, über seinem Flankendurchmesser {}, ohne Freistich und ohne Auslauf",
                thread.designation,
                feature.called(),
                facts.show(wall),
                facts.show(thread.pitch_diameter.max)
            );
            out.push(
                Finding::new(CHECK.id, Severity::Error, message)
                    .at(section.head)
                    .also(feature.head, "what the tool meets")
                    .of(section.letter.clone())
                    .of(feature.letter.clone())
                    .length("beside", wall)
                    .length("pitch_diameter", thread.pitch_diameter.max)
                    .help(tell!(
                        "Put a relief of {} between them",
                        "Einen Freistich von {} dazwischen drehen",
                        relief_that_clears(thread, facts.part.units)
                    ))
                    .help(tell!(
                        "Or say how long the thread may fade out: `run-out: {}`",
                        "Oder sagen, wie lang das Gewinde auslaufen darf: `run-out: {}`",
                        run_out(facts, thread.pitch)
                    )),
            );
        }
    }
}

/// Two pitches, the usual run-out, rounded up to a hundredth of an inch or half a millimetre.
fn run_out(facts: &Facts<'_>, pitch: Length) -> String {
    let step = match facts.part.units {
        crate::unit::Unit::Inch => Length::inch_tenths(100),
        crate::unit::Unit::Millimetre => Length::micrometres(500),
    };
    facts.show(pitch.times(2).ceil_to(step))
}
