#![doc = include_str!("implied_tighter.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "implied-tighter",
    severity: Severity::Note,
    group: "chain",
    source: "tightest implied limits by shortest paths (Dechter, Meiri and Pearl 1991)",
    page: include_str!("implied_tighter.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    if facts.chain.contradiction.is_some() {
        return;
    }
    for (index, distance) in &facts.chain.distances {
        let (Some(stated), Some(worst)) = (distance.stated, distance.worst_case) else { continue };
        let place = match index {
            Some(i) => facts.part.dims[*i].is.place,
            None if facts.chain.overall_is_required => match &facts.part.overall {
                Some(overall) => overall.place,
                None => continue,
            },
            None => continue,
        };
        if !stated.covers(worst) || stated.band() <= worst.band() {
            continue;
        }
        let message = tell!(
            "asked {} to {}, but the lengths already keep it between {} and {}",
            "verlangt {} bis {}, aber die Längen halten es schon zwischen {} und {}",
            facts.show(stated.min),
            facts.show(stated.max),
            facts.show(worst.min),
            facts.show(worst.max)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Note, message)
                .at(place)
                .length("stated_band", stated.band())
                .length("implied_band", worst.band())
                .help(told!(
                    "Nothing needs doing; the lengths that make it could be held more loosely",
                    "Nichts zu tun; die Längen, die es machen, dürften weiter sein"
                )),
        );
    }
}
