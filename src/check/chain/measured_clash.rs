#![doc = include_str!("measured_clash.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "measured-clash",
    severity: Severity::Error,
    group: "chain",
    source: "the drawing's own limits; difference constraints: Dechter, Meiri and Pearl, Artificial Intelligence 49, 1991",
    page: include_str!("measured_clash.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(rest) = facts.plan.and_then(|p| p.rest.as_ref()) else { return };
    if rest.clash.is_empty() {
        return;
    }
    let mut gives = rest.gives.iter().filter(|g| g.place.is_some());
    let asks: Vec<String> = gives
        .clone()
        .map(|g| {
            let (drawn, to) = (g.drawn, g.to);
            let limits = |min, max| format!("{} to {}", facts.show(min), facts.show(max));
            tell!(
                "{} would have to be {}, not {}",
                "{} müsste {} sein, nicht {}",
                g.what,
                limits(to.min, to.max),
                limits(drawn.min, drawn.max)
            )
        })
        .collect();
    let message = tell!(
        "no cut brings what was measured within all limits; these miss each other by {}: {}",
        "kein Schnitt bringt das Gemessene in alle Grenzen; diese verfehlen sich um {}: {}",
        facts.show(rest.misses),
        rest.clash.join("; ")
    );
    let mut finding = Finding::new(CHECK.id, CHECK.severity, message).length("misclosure", rest.misses).help(tell!(
        "The least the drawing would have to give: {}",
        "Das wenigste, was die Zeichnung geben müsste: {}",
        asks.join("; ")
    ));
    if rest.doubtful {
        finding = finding.help(told!(
            "Readings off by no more than their errors would leave no clash: measure again with something surer",
            "Läse man nur um die Messfehler anders, wäre nichts im Weg: mit etwas Genauerem noch einmal messen"
        ));
    }
    if let Some(place) = gives.find_map(|g| g.place) {
        finding = finding.at(place);
    }
    out.push(finding);
}
