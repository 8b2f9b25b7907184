#![doc = include_str!("long.md")]

use crate::check::shape::{number, times};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::tell;

/// The check.
pub const CHECK: Check = Check {
    id: "keyseat-long",
    severity: Severity::Warning,
    group: "keyseats",
    source: "common practice, no source",
    page: include_str!("long.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for key in facts.keyseats().filter(|k| k.open.is_none() && k.through.is_none()) {
        let hub = key.seat.carries.iter().filter_map(|c| Some((c, c.wide.as_ref()?.nominal))).max_by_key(|(_, w)| *w);
        let diameters = facts.limit_number(CHECK.id, "diameters");
        let most = times(key.shaft, diameters);
        let (limit, words) = match hub {
            Some((hub, wide)) if wide < most => (wide, tell!("the {} is that wide", "{} ist so breit", hub.part.text)),
            _ => (most, tell!("{} diameters", "{} Durchmesser", number(diameters))),
        };
        if key.long() <= limit {
            continue;
        }
        let message = tell!(
            "the keyseat is {} long, more than {} ({words})",
            "die Nut ist {} lang, mehr als {} ({words})",
            facts.show(key.long()),
            facts.show(limit)
        );
        let mut finding = Finding::new(CHECK.id, Severity::Warning, message)
            .at(key.feature.head)
            .of(key.feature.letter.clone())
            .of(key.seat.letter.clone())
            .length("length", key.long())
            .length("limit", limit)
            .help(tell!("Make it {} or shorter", "{} oder kürzer machen", facts.at_most(limit)));
        if limit == most {
            finding = finding.by_limit("diameters");
        }
        out.push(finding);
    }
}
