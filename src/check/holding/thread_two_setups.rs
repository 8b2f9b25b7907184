#![doc = include_str!("thread_two_setups.md")]

use crate::check::shape::RunOut;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::part::Holding;
use crate::model::plan::{Setup, Verb};
use crate::model::{End, Feature};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "thread-two-setups",
    severity: Severity::Warning,
    group: "holding",
    source: "a thread, its blank and its relief are cut in one holding (US Navy Machinery Repairman manual; practice)",
    page: include_str!("thread_two_setups.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(plan) = facts.plan else { return };
    for (section, thread, piece) in facts.threads() {
        let cut_in = |feature: &Feature, verbs: &[Verb]| -> Option<&Setup> {
            let mut row = plan.operations();
            row.find(|(_, o)| {
                verbs.contains(&o.verb) && (o.feature == Some(feature.id) || o.with.contains(&feature.id))
            })
            .map(|(s, _)| s)
        };
        let Some(threaded) = cut_in(section, &[Verb::Thread]) else { continue };
        let sides = [End::Datum, End::Far].map(|side| facts.run_out(piece, thread, side));
        let reliefs =
            sides.iter().filter_map(|r| if let RunOut::Relief(relief) = r { Some(relief.feature) } else { None });
        for relief in reliefs {
            let Some(faced) = cut_in(relief, &[Verb::Groove]) else { continue };
            let between = |s: &Setup| s.holding == Holding::BetweenCenters;
            if faced.number == threaded.number || (between(faced) && between(threaded)) {
                continue;
            }
            let message = tell!(
                "{} is cut in setup {}, but the face it pulls against, beside {}, in setup {}",
                "{} wird in Aufspannung {} gedreht, aber die Fläche, gegen die es zieht, neben {}, in Aufspannung {}",
                thread.designation,
                threaded.number,
                relief.called(),
                faced.number
            );
            out.push(
                Finding::new(CHECK.id, Severity::Warning, message)
                    .at(section.head)
                    .also(relief.head, "its face")
                    .of(section.letter.clone())
                    .of(relief.letter.clone())
                    .number("thread_setup", f64::from(threaded.number))
                    .number("face_setup", f64::from(faced.number))
                    .help(told!("Cut both in one holding, or between centers: a nut pulls square only on a face true with its thread", "Beide in einer Aufspannung drehen, oder zwischen Spitzen: eine Mutter zieht nur gegen eine Fläche gerade, die zum Gewinde läuft")),
            );
        }
    }
}
