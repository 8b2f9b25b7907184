#![doc = include_str!("trapped.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::End;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "trapped",
    severity: Severity::Error,
    group: "assembly",
    source: "geometry",
    page: include_str!("trapped.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for sliding in facts.sliding() {
        let (Some(near), Some(far)) = (facts.blocked(&sliding, End::Datum), facts.blocked(&sliding, End::Far)) else {
            continue;
        };
        let message = tell!(
            "the {} ({}) sits between {}, {}, and {}, {}: it can come on from neither end, and nothing there comes off",
            "{} ({}) sitzt zwischen {}, {}, und {}, {}: es kommt von keinem Ende darauf, und nichts davon ist abnehmbar",
            sliding.carried.part.text,
            sliding.by,
            near.feature.called(),
            facts.show(near.largest),
            far.feature.called(),
            facts.show(far.largest)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Error, message)
                .at(sliding.carried.place)
                .also(near.feature.head, "in the way from the datum end")
                .also(far.feature.head, "in the way from the far end")
                .of(sliding.seat.letter.clone())
                .of(near.feature.letter.clone())
                .of(far.feature.letter.clone())
                .length("bore", sliding.smallest)
                .length("toward_datum_end", near.largest)
                .length("toward_far_end", far.largest)
                .help(told!(
                    "Make one of the shoulders a ring in a groove, a nut or a pinned collar",
                    "Eine der Schultern als Ring in einem Einstich, Mutter oder verstifteten Stellring ausführen"
                )),
        );
    }
}
