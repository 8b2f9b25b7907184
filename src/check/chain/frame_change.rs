#![doc = include_str!("frame_change.md")]

use crate::chain::Says;
use crate::check::shape::nominal_at;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::plan::Zero;
use crate::model::{End, Feature};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "frame-change",
    severity: Severity::Note,
    group: "chain",
    source: "z = overall − u: the overall's own error enters every length measured from the other end",
    page: include_str!("frame_change.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    // What could not be read may be what is cut from the other end.
    if facts.slips.iter().any(|s| s.entry.is_some()) {
        return;
    }
    let far: Vec<&Feature> = facts.part.features.iter().filter(|f| after_the_flip(facts, f)).collect();
    let (Some(first), Some(overall)) = (far.first(), facts.chain.overall(facts.part)) else { return };
    let letters: Vec<&str> = far.iter().map(|f| f.letter.as_str()).filter(|l| !l.is_empty()).collect();
    let uncorrected = facts
        .plan
        .is_some_and(|plan| plan.setups.iter().any(|s| s.works == Some(End::Far) && s.zero == Zero::DatumFace));
    let (severity, what) = if uncorrected && facts.parting() != Some(End::Datum) {
        (
            Severity::Warning,
            told!("and the plan corrects no zero for it", "und der Plan berichtigt dafür keinen Nullpunkt"),
        )
    } else {
        (
            Severity::Note,
            told!(
                "the zero there is corrected by the measured overall",
                "der Nullpunkt dort wird um die gemessene Gesamtlänge berichtigt"
            ),
        )
    };
    let on = if letters.is_empty() { told!("the far side", "der Gegenseite").to_owned() } else { letters.join(", ") };
    let from_bar = facts.parting() == Some(End::Datum);
    let message = if from_bar {
        tell!(
            "lengths from the datum end on {on} are cut from the far face, while the datum end is still bar",
            "Längen vom Bezugsende an {on} werden von der Gegenfläche gedreht, solange das Bezugsende noch Stange ist"
        )
    } else {
        tell!(
            "lengths from the datum end on {on} are cut after the flip, from the other end: {what}",
            "Längen vom Bezugsende an {on} werden nach dem Umspannen vom anderen Ende gedreht: {what}"
        )
    };
    let mut finding = Finding::new(CHECK.id, severity, message).at(first.head).length("overall", overall);
    finding.features = letters.iter().map(|l| (*l).to_owned()).collect();
    if let Some(size) = &facts.part.overall {
        finding = finding.length("overall_band", size.limits_or_nominal().band());
    }
    if from_bar {
        out.push(finding.help(
            told!("The datum end is faced last, to the overall: what the overall is out by is in them too. Face by what is drawn from the \
             datum end where that is held closer", "Das Bezugsende wird zuletzt auf Gesamtlänge plangedreht: was die Gesamtlänge abweicht, steckt auch in ihnen. Wo enger verlangt ist, nach dem Maß ab Bezugsende plandrehen"),
        ));
        return;
    }
    out.push(finding.help(tell!("Measure the overall once; set the carriage dial on the far face to {} less the measured length instead of 0", "Die Gesamtlänge einmal messen; die Schlittenskale an der Gegenfläche auf {} weniger das gemessene Maß stellen statt auf 0",
        facts.show(overall)
    )));
}

/// Whether a face of this feature is dimensioned from the datum face and cut from the far end: its own place, or that of the section
/// before it, whose shoulder its cut makes.
fn after_the_flip(facts: &Facts<'_>, feature: &Feature) -> bool {
    let Some(derived) = facts.derived else { return false };
    let begins =
        facts.chain.ends.get(feature.id).copied().flatten().filter(|_| steps_down(facts, feature)).map(|e| e.0);
    let dimensioned = |l: &crate::chain::Link| {
        let its_own = l.says == Says::Place(feature.id);
        let shoulder = matches!(l.says, Says::Place(_)) && Some(l.to) == begins;
        l.from == 0 && l.to != facts.chain.far && (its_own || shoulder)
    };
    let cut = derived.operations.iter().any(|(o, _)| o.end == Some(End::Far) && o.feature == Some(feature.id));
    cut && facts.chain.graph.links.iter().any(dimensioned)
}

/// Whether a section is smaller than the one before it, so that the shoulder between them faces the far end.
fn steps_down(facts: &Facts<'_>, feature: &Feature) -> bool {
    let before = facts.part.sections().take_while(|f| f.id != feature.id).last();
    feature.kind.is_section() && before.is_some_and(|b| nominal_at(b, End::Far) > nominal_at(feature, End::Datum))
}
