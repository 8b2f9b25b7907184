#![doc = include_str!("held_by_turning.md")]

use crate::check::{Check, Facts};
use crate::finding::{Compared, Finding, Severity};
use crate::handbook::fit::{Grade, it_grade_of, it_value};
use crate::model::{Kind, LimitsFrom};
use crate::unit::Length;

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
        let named = nearest.map_or(String::new(), |g| format!(", about {g}"));
        let (severity, message, help) = if too_fine {
            let message = format!(
                "{} has a band of {}{named}: finer than {fine} ({}), and no grinding is at hand",
                section.called(),
                facts.show(band),
                facts.show(by_care)
            );
            (Severity::Error, message, "Leave stock and have it ground, or open the limits")
        } else {
            let message = format!(
                "{} has a band of {}{named}, within {coarse} ({}): turning holds it only with care",
                section.called(),
                facts.show(band),
                facts.show(by_turning)
            );
            let help = "Last cuts of equal depth, measured cold between them, then polish to size";
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
}
