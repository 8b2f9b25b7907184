#![doc = include_str!("chamfer.md")]

use crate::check::shape::{number, times};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::End;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "thread-chamfer",
    severity: Severity::Warning,
    group: "threads",
    source: "common practice, no source: the chamfer goes a little below the root",
    page: include_str!("chamfer.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for (section, thread, piece) in facts.threads() {
        let longest = times(thread.pitch, facts.limit_number(CHECK.id, "pitches"));
        for side in [End::Datum, End::Far] {
            let Some((chamfer, leg, deep)) = facts.chamfer_on(piece, side) else { continue };
            let (what, is, wanted) = if deep < thread.depth {
                (told!("shallower than the thread", "flacher als das Gewinde"), deep, thread.depth)
            } else if leg > longest {
                (
                    told!("longer than the start of the thread wants", "länger, als der Gewindeanfang braucht"),
                    leg,
                    longest,
                )
            } else {
                continue;
            };
            let message = tell!(
                "the chamfer on {} is {}, {what}: {}",
                "die Fase an {} ist {}, {what}: {}",
                thread.designation,
                facts.show(is),
                facts.show(wanted)
            );
            let mut finding = Finding::new(CHECK.id, Severity::Warning, message)
                .at(chamfer.value)
                .of(section.letter.clone())
                .length("chamfer", is)
                .length("wanted", wanted)
                .number("pitches", leg.mm() / thread.pitch.mm())
                .help(tell!(
                    "Make it {} x 45° to {} ({} pitches)",
                    "{} x 45° bis {} machen ({} Steigungen)",
                    facts.at_least(thread.depth),
                    facts.at_most(longest),
                    number(facts.limit_number(CHECK.id, "pitches"))
                ));
            if deep >= thread.depth {
                finding = finding.by_limit("pitches");
            }
            out.push(finding);
        }
    }
}
