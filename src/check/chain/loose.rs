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
    if let Some(finding) = inner_datum(facts) {
        out.push(finding);
        return;
    }
    let by_overall = hung_on_the_far_end(facts);
    for (n, face) in facts.chain.graph.faces.iter().enumerate().filter(|(n, _)| facts.chain.at[*n].is_none()) {
        // An overall that is missing or cannot be read is told already, and what hangs on the far end hangs on it.
        if by_overall.contains(&n) {
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

/// The far face and all that lengths join to it, where no overall says where it is.
fn hung_on_the_far_end(facts: &Facts<'_>) -> Vec<usize> {
    if facts.part.overall.is_some() {
        return Vec::new();
    }
    let mut seen = vec![false; facts.chain.graph.faces.len()];
    let mut joined = vec![facts.chain.far];
    let mut next = 0;
    while let Some(at) = joined.get(next).copied() {
        for link in facts.chain.graph.links.iter().filter(|l| l.from == at || l.to == at) {
            let other = if link.from == at { link.to } else { link.from };
            if !std::mem::replace(&mut seen[other], true) {
                joined.push(other);
            }
        }
        next += 1;
    }
    joined
}

/// The datum names a face inside the part, and no dimension joins that to the part's own end: one slip, and all faces hang loose.
fn inner_datum(facts: &Facts<'_>) -> Option<Finding> {
    let datum = facts.part.datum_face.as_ref()?;
    let loose = facts.chain.at.iter().filter(|at| at.is_none()).count();
    let section = facts.part.features.get(datum.feature)?.called();
    (loose > 1).then(|| {
        let name = &datum.text.text;
        Finding::new(
            CHECK.id,
            Severity::Error,
            tell!(
                "the datum `{name}` is a face of {section}, inside the part, and no dimension joins it to the part's own end",
                "der Bezug `{name}` ist eine Fläche von {section}, innen am Teil, und kein Maß verbindet sie mit dem Ende des Teils"
            ),
        )
        .at(datum.text.place)
        .help(tell!(
            "If {section} is at the end, write it first; if another end is meant, name the datum otherwise, `left end`; else add the length to the end under `dims:`",
            "Liegt {section} am Ende, als Erstes schreiben; ist ein anderes Ende gemeint, den Bezug anders nennen, `left end`; sonst das Maß zum Ende unter `dims:` angeben"
        ))
    })
}
