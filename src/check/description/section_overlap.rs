#![doc = include_str!("section_overlap.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::inside::Reach;
use crate::model::{End, Kind};

use super::meeting;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "section-overlap",
    severity: Severity::Error,
    group: "description",
    source: "sections meet end to end",
    page: include_str!("section_overlap.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for meeting in meeting::all(facts).into_iter().filter(|m| m.begins < m.ends) {
        let (begins, ends) = (facts.show(meeting.begins.0), facts.show(meeting.ends.0));
        let mut finding = Finding::new(
            CHECK.id,
            CHECK.severity,
            tell!(
                "{} begins at {begins}, before {} ends at {ends}",
                "{} beginnt bei {begins}, bevor {} bei {ends} endet",
                meeting.section.called(),
                meeting.before
            ),
        )
        .at(meeting.place)
        .of(meeting.section.letter.clone())
        .length("begins", meeting.begins.0)
        .length("before_ends", meeting.ends.0)
        .help(tell!("Let it begin at {ends}", "Bei {ends} beginnen lassen"));
        if let Some(place) = meeting.before_place {
            finding = finding.also(place, "the one before ends here");
        }
        out.push(finding);
    }
    lost_inside(facts, out);
    for section in facts.part.sections() {
        let Some((from, to)) = facts.chain.span(section.id).filter(|(from, to)| to <= from) else { continue };
        let no_length =
            matches!(section.kind.extent(), Some(crate::model::feature::Extent::Long(l)) if !l.nominal.is_positive());
        if no_length || facts.slips.iter().any(|s| s.entry == Some(section.place)) {
            continue;
        }
        let message = tell!(
            "{} ends at {}, and it begins at {}",
            "{} endet bei {} und beginnt bei {}",
            section.called(),
            facts.show(to.0),
            facts.show(from.0)
        );
        out.push(
            Finding::new(CHECK.id, CHECK.severity, message)
                .at(end_of(section))
                .of(section.letter.clone())
                .length("begins", from.0)
                .length("ends", to.0)
                .help(told!(
                    "Say where it ends, counted from the datum end, or put the sections in their order",
                    "Sagen, wo es endet, vom Bezugsende gezählt, oder die Abschnitte ordnen"
                )),
        );
    }
}

/// What is cut inside and has nothing left of its length: something from the same end is as deep, and lies over it.
fn lost_inside(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for feature in &facts.part.features {
        let Kind::Inside(inside) = &feature.kind else { continue };
        let chained = matches!(inside.reach, Reach::Deep(_) | Reach::To(_));
        let told = facts.slips.iter().any(|s| s.entry == Some(feature.place));
        let Some((from, to)) = facts.chain.span(feature.id).filter(|(from, to)| chained && !told && to <= from) else {
            continue;
        };
        let (mouth, bottom) = if inside.end == End::Datum { (from, to) } else { (to, from) };
        let message = tell!(
            "nothing is left of {}: what lies before it reaches {} from the datum end, and it ends at {}",
            "von {} bleibt nichts: was davor liegt, reicht bis {} vom Bezugsende, und es endet bei {}",
            feature.called(),
            facts.show(mouth.0),
            facts.show(bottom.0)
        );
        out.push(
            Finding::new(CHECK.id, CHECK.severity, message)
                .at(feature.head)
                .of(feature.letter.clone())
                .length("begins", mouth.0)
                .length("ends", bottom.0)
                .help("Say how deep each of them goes, counted from the face of its end; what is wider comes first from the mouth"),
        );
    }
}

/// Where the section's end is written.
fn end_of(section: &crate::model::Feature) -> crate::finding::Place {
    use crate::model::feature::Extent;
    match section.kind.extent() {
        Some(Extent::To(to) | Extent::Both(to, _)) => to.place(),
        Some(Extent::Long(long)) => long.place,
        Some(Extent::Open) | None => section.head,
    }
}
