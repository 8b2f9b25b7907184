#![doc = include_str!("held_by_turning.md")]

use crate::check::{Check, Facts};
use crate::finding::{Compared, Finding, Severity};
use crate::handbook::fit::{Grade, it_grade_of, it_value};
use crate::model::inside::Reach;
use crate::model::shop::ToolKind;
use crate::model::{InsideCut, Kind, LimitsFrom, Size};
use crate::unit::Length;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "held-by-turning",
    severity: Severity::Warning,
    group: "chain",
    source: "ISO 286-1 grades; what turning holds is common practice, no source",
    page: include_str!("held_by_turning.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let grade = |name| Grade::read(&format!("{:.0}", facts.limit_number(CHECK.id, name)));
    let (Some(coarse), Some(fine)) = (grade("coarsest"), grade("finest")) else { return };
    let grinds = facts.shop.and_then(|s| s.grinding) == Some(true);
    for section in facts.part.sections() {
        let Kind::Turn { diameter, kept: false, .. } = &section.kind else { continue };
        let written = matches!(diameter.from, LimitsFrom::Written | LimitsFrom::Fit);
        let Some(limits) = diameter.limits.filter(|l| written && l.band().is_positive()) else { continue };
        let band = limits.band();
        let Some(by_turning) = it_value(coarse, diameter.nominal).filter(|it| band <= *it) else { continue };
        let Some(by_care) = it_value(fine, diameter.nominal) else { continue };
        // Inch limits fall between the grades: what is nearest to the finest grade of turning is not finer than it.
        let nearest = it_grade_of(diameter.nominal, band);
        let too_fine = nearest.is_some_and(|g| g < fine);
        if too_fine && grinds {
            continue;
        }
        let named = nearest.map_or(String::new(), |g| tell!(", about {g}", ", etwa {g}"));
        let (severity, message, help) = if too_fine {
            let message = tell!(
                "{} has a band of {}{named}: finer than {fine} ({}), and no grinding is at hand",
                "{} hat eine Toleranz von {}{named}: feiner als {fine} ({}), und Schleifen ist nicht möglich",
                section.called(),
                facts.show(band),
                facts.show(by_care)
            );
            (
                Severity::Error,
                message,
                told!(
                    "Leave stock and have it ground, or open the limits",
                    "Zugabe lassen und schleifen lassen, oder die Grenzen öffnen"
                ),
            )
        } else {
            let message = tell!(
                "{} has a band of {}{named}, within {coarse} ({}): turning holds it only with care",
                "{} hat eine Toleranz von {}{named}, innerhalb {coarse} ({}): Drehen hält sie nur mit Sorgfalt",
                section.called(),
                facts.show(band),
                facts.show(by_turning)
            );
            let help = told!(
                "Last cuts of equal depth, measured cold between them, then polish to size",
                "Letzte Schnitte gleich tief, dazwischen kalt messen, dann auf Maß polieren"
            );
            (Severity::Warning, message, help)
        };
        let against: Length = if too_fine { by_care } else { by_turning };
        let mut finding = Finding::new(CHECK.id, severity, message)
            .by_limit(if too_fine { "finest" } else { "coarsest" })
            .at(section.value)
            .of(section.letter.clone())
            .length("band", band)
            .length("grade_band", against)
            .help(help);
        finding.compared.push(("grade", Compared::Text(if too_fine { fine } else { coarse }.to_string())));
        out.push(finding);
    }
    if !grinds {
        beyond_the_lathe(facts, out);
    }
}

/// Diameters held closer than the shop file says its lathe holds one (`can hold: {diameter: ±…}`): a band below the whole width of that.
fn beyond_the_lathe(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(holds) = facts.shop.and_then(|s| s.can_hold_diameter).filter(|l| l.is_positive()) else { return };
    for feature in &facts.part.features {
        let Some((size, inside)) = turned(&feature.kind) else { continue };
        let Some(limits) = size.limits.filter(|l| !size.reference && l.band().is_positive()) else { continue };
        let (band, width) = (limits.band(), holds.times(2));
        let reamed = is_through(&feature.kind) && reamer_at_hand(facts, size.nominal);
        if band >= width || reamed {
            continue;
        }
        let help = if inside {
            told!(
                "Leave it small and ream, hone or grind it to size; or open the limits",
                "Kleiner lassen und auf Maß reiben, honen oder schleifen; oder die Grenzen öffnen"
            )
        } else {
            told!(
                "Leave metal for the abrasive strip (a fine `finish`, and `polish allowance` under `plan`), or have it ground; or open the limits",
                "Etwas für das Schmirgelleinen stehen lassen (feines `finish`, dazu `polish allowance` unter `plan`), oder schleifen lassen; oder die Grenzen öffnen"
            )
        };
        let message = tell!(
            "{} has a band of {}, and by the shop file this lathe holds a diameter to ±{}, a band of {}",
            "{} hat eine Toleranz von {}, und nach der Werkstattdatei hält diese Drehmaschine einen Durchmesser auf ±{}, eine Toleranz von {}",
            feature.called(),
            facts.show(band),
            facts.show(holds),
            facts.show(width)
        );
        // What was told of this size by its grade is told with the lathe's own number instead.
        out.retain(|f| f.check != CHECK.id || f.severity == Severity::Error || f.place != Some(size.place));
        if out.iter().any(|f| f.check == CHECK.id && f.place == Some(size.place)) {
            continue;
        }
        out.push(
            Finding::new(CHECK.id, Severity::Warning, message)
                .at(size.place)
                .of(feature.letter.clone())
                .length("band", band)
                .length("lathe_holds", width)
                .help(help)
                .source("`can hold` of the shop file"),
        );
    }
}

/// A diameter that a turning or boring tool brings to size, and whether it is inside.
fn turned(kind: &Kind) -> Option<(&Size, bool)> {
    match kind {
        Kind::Turn { diameter, kept: false, .. } | Kind::Eccentric { diameter, .. } => Some((diameter, false)),
        Kind::Inside(inside) => match &inside.cut {
            InsideCut::Bore { diameter, kept: false, hole: false, .. } => Some((diameter, true)),
            _ => None,
        },
        _ => None,
    }
}

/// A reamer finishes a bore that it can pass through.
fn is_through(kind: &Kind) -> bool {
    matches!(kind, Kind::Inside(inside) if matches!(inside.reach, Reach::Through))
}

fn reamer_at_hand(facts: &Facts<'_>, size: Length) -> bool {
    facts.shop.is_some_and(|s| s.tools_of(ToolKind::Reamer).any(|t| t.diameter == Some(size)))
}
