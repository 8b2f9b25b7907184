#![doc = include_str!("loose.md")]

use crate::check::description::of_slip;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "chain-loose",
    severity: Severity::Error,
    group: "chain",
    source: "a part hangs together only if every face is reached by a dimension (spanning tree)",
    page: include_str!("loose.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    if of_slip::text_is_broken(facts) {
        return;
    }
    for (n, face) in facts.chain.graph.faces.iter().enumerate().filter(|(n, _)| facts.chain.at[*n].is_none()) {
        // An overall that is missing or cannot be read is told already.
        if n == facts.chain.far && facts.part.overall.is_none() {
            continue;
        }
        let feature = face.ends.or(face.begins).and_then(|id| facts.part.features.get(id));
        let Some(feature) = feature else { continue };
        if facts.slips.iter().any(|s| feature.place.covers(s.place)) {
            continue;
        }
        out.push(
            Finding::new(
                CHECK.id,
                Severity::Error,
                tell!("no dimension locates the {}", "kein Maß legt {} fest", face.name),
            )
            .at(feature.head)
            .of(feature.letter.clone())
            .help(told!(
                "Say where it ends: `to:` from the datum end, or `long:` from its own start",
                "Angeben, wo es endet: `to:` vom Bezugsende, oder `long:` vom eigenen Anfang"
            )),
        );
    }
}
