#![doc = include_str!("tap_drill.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::{Feature, InsideCut, Kind, Size, Tapped};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "thread-tap-drill",
    severity: Severity::Error,
    group: "threads",
    source: "the internal minor diameter of the thread's own standard",
    page: include_str!("tap_drill.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for (feature, thread, drill) in facts.part.features.iter().filter_map(stated) {
        if thread.minor.holds(drill.nominal) {
            continue;
        }
        let large = drill.nominal > thread.minor.max;
        let what = if large {
            told!("the thread will be too shallow", "das Gewinde wird zu flach")
        } else {
            told!("the tap will bind, and may break", "der Gewindebohrer klemmt und bricht vielleicht")
        };
        let message = tell!(
            "a drill of {} for {}: {what}; its minor diameter is {} to {}",
            "ein Bohrer {} für {}: {what}; der Kerndurchmesser ist {} bis {}",
            facts.show(drill.nominal),
            thread.designation,
            facts.show(thread.minor.min),
            facts.show(thread.minor.max)
        );
        let help = thread.usual_drill.as_ref().map_or_else(
            || told!("Take a drill between these two", "Einen Bohrer zwischen diesen beiden nehmen").to_owned(),
            |(name, diameter, _)| {
                tell!("The usual drill is {name}, {}", "Üblich ist der Bohrer {name}, {}", facts.show(*diameter))
            },
        );
        out.push(
            Finding::new(CHECK.id, Severity::Error, message)
                .at(drill.place)
                .of(feature.letter.clone())
                .length("drill", drill.nominal)
                .length("minor_min", thread.minor.min)
                .length("minor_max", thread.minor.max)
                .help(help),
        );
    }
}

/// A thread inside or across, with its drill where one is known.
fn stated(feature: &Feature) -> Option<(&Feature, &Tapped, &Size)> {
    match &feature.kind {
        Kind::Inside(inside) => match &inside.cut {
            InsideCut::Thread { thread, drill: Some(drill), .. } => Some((feature, thread.as_ref(), drill)),
            _ => None,
        },
        Kind::CrossHole { tapped: Some(thread), diameter, .. } => Some((feature, thread.as_ref(), diameter)),
        _ => None,
    }
}
