#![doc = include_str!("overhang.md")]

use crate::check::shape::{number, times};
use crate::check::{Check, Facts};
use crate::finding::{Compared, Finding, Severity};
use crate::model::Kind;
use crate::model::part::Holding;
use crate::model::plan::Setup;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "overhang",
    severity: Severity::Error,
    group: "holding",
    source: "a lathe maker's safety rule: more than three diameters want a center or a rest",
    page: include_str!("overhang.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for unheeded in facts.derived.into_iter().flat_map(|d| &d.unheeded).filter(|u| u.why.rule == CHECK.id) {
        let place = unheeded.place.or(facts.part.wishes.place).unwrap_or(facts.part.name.place);
        let mut finding =
            Finding::new(CHECK.id, Severity::Error, format!("`{}`: {}", unheeded.wish, unheeded.why.reason))
                .at(place)
                .by_limit("diameters")
                .help(told!(
                    "Ask for `holding: chuck and center` or `between centers`",
                    "`holding: chuck and center` oder `between centers` verlangen"
                ));
        finding.compared.push(("wish", Compared::Text(unheeded.wish.clone())));
        out.push(finding);
    }
    let diameters = facts.limit_number(CHECK.id, "diameters");
    let stands_out = |setup: &Setup| {
        let (grip, out) = (setup.grip.as_ref()?, setup.stick_out?);
        (setup.holding == Holding::Chuck && !setup.only_parts()).then_some((out, times(grip.diameter, diameters)))
    };
    // Without a plan a center can still be brought up, unless the drawing forbids its hole.
    let judged = |s: &Setup| facts.plan.is_some() || s.works.is_some_and(|end| facts.center_forbidden(end));
    for setup in facts.unavoidable(|s| judged(s) && stands_out(s).is_some_and(|(out, most)| out > most)) {
        let (Some(grip), Some((out_of_jaws, most))) = (&setup.grip, stands_out(setup)) else { continue };
        let message = tell!(
            "{}: the work stands {} out of the jaws on a diameter of {}, more than {} times that, without a center",
            "{}: das Werkstück steht {} aus den Backen bei einem Durchmesser von {}, mehr als das {}-fache, ohne Spitze",
            setup.name,
            facts.show(out_of_jaws),
            facts.show(grip.diameter),
            number(diameters)
        );
        // Screwed into a bush up to its shoulder, it leans on the bush and not on the thread alone.
        let threaded =
            facts.part.features.iter().any(|f| f.letter == grip.letter && matches!(f.kind, Kind::Thread { .. }));
        let severity = if threaded { Severity::Warning } else { Severity::Error };
        out.push(
            Finding::new(CHECK.id, severity, message)
                .by_limit("diameters")
                .at(facts.setup_place(setup))
                .of(grip.letter.clone())
                .length("stick_out", out_of_jaws)
                .length("most", most)
                .help(if setup.by.throw().is_some() {
                    told!(
                        "No center helps: its hole lies off this axis. Leave end pieces on the bar large enough for second centers, or hold it nearer to the cut, or turn it from the other end",
                        "Keine Spitze hilft: ihre Zentrierung liegt neben dieser Achse. Endstücke stehen lassen, die für zweite Zentrierungen groß genug sind, oder näher am Schnitt spannen, oder vom anderen Ende drehen"
                    )
                } else { told!(
                    "Bring up the center, set a steady rest, or hold it nearer to the cut",
                    "Die Spitze anstellen, eine Lünette setzen, oder näher am Schnitt spannen"
                ) }),
        );
    }
}
