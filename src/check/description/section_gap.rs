#![doc = include_str!("section_gap.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};

use super::meeting;
use crate::tell;

/// The check.
pub const CHECK: Check = Check {
    id: "section-gap",
    severity: Severity::Error,
    group: "description",
    source: "sections meet end to end",
    page: include_str!("section_gap.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for meeting in meeting::all(facts).into_iter().filter(|m| m.begins > m.ends) {
        let (begins, ends) = (facts.show(meeting.begins.0), facts.show(meeting.ends.0));
        let mut finding = Finding::new(
            CHECK.id,
            CHECK.severity,
            tell!(
                "{} begins at {begins}, after {} ends at {ends}",
                "{} beginnt bei {begins}, nachdem {} bei {ends} endet",
                meeting.section.called(),
                meeting.before
            ),
        )
        .at(meeting.place)
        .of(meeting.section.letter.clone())
        .length("begins", meeting.begins.0)
        .length("before_ends", meeting.ends.0)
        .help(tell!(
            "Let it begin at {ends}, or add the section that lies between",
            "Bei {ends} beginnen lassen, oder den Abschnitt dazwischen ergänzen"
        ));
        if let Some(place) = meeting.before_place {
            finding = finding.also(place, "the one before ends here");
        }
        out.push(finding);
    }
}
