#![doc = include_str!("bore_fit.md")]

use crate::check::passing::bore_limits;
use crate::check::shape::times;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::{Carried, Feature, Kind};
use crate::unit::Limits;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "bore-fit",
    severity: Severity::Error,
    group: "assembly",
    source: "common practice, no source; the limits lie outside every usual fit of ISO 286 and ASME B4.1",
    page: include_str!("bore_fit.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for seat in facts.part.sections().filter(|s| matches!(s.kind, Kind::Turn { .. })) {
        let Some(piece) = facts.profile.piece(seat.id) else { continue };
        let on_seat = Limits::new(piece.smallest(), piece.largest());
        for carried in seat.carries.iter().filter(|c| Facts::loads(c)) {
            let Some(bore) = &carried.bore else { continue };
            let (limits, _) = bore_limits(carried, bore);
            out.extend(too_large(facts, seat, carried, on_seat, limits));
            out.extend(too_small(facts, seat, carried, on_seat, limits));
        }
    }
}

/// The seat at its smallest is larger than the bore at its largest by more than a press or heat overcomes.
fn too_large(facts: &Facts<'_>, seat: &Feature, carried: &Carried, is: Limits, bore: Limits) -> Option<Finding> {
    let over = is.min - bore.max;
    let most = times(bore.max, facts.limit_number(CHECK.id, "press"));
    if over <= most {
        return None;
    }
    let message = tell!(
        "{} is at least {}, {} larger than the bore of the {}, {}: a press or heat takes {}",
        "{} ist mindestens {}, {} größer als die Bohrung von {}, {}: Presse oder Wärme schaffen {}",
        seat.called(),
        facts.show(is.min),
        facts.show(over),
        carried.part.text,
        facts.show(bore.max),
        facts.show(most)
    );
    let finding = finding(Severity::Error, message, seat, carried).by_limit("press");
    Some(finding.length("seat", is.min).length("bore", bore.max).length("over", over).length("most", most))
}

/// The bore at its smallest is larger than the seat at its largest by more than a running fit has.
fn too_small(facts: &Facts<'_>, seat: &Feature, carried: &Carried, is: Limits, bore: Limits) -> Option<Finding> {
    let under = bore.min - is.max;
    let share = times(bore.min, facts.limit_number(CHECK.id, "loose"));
    let most = share.max(facts.limit(CHECK.id, "loose least"));
    if under <= most {
        return None;
    }
    let by = if most == share { "loose" } else { "loose least" };
    let message = tell!(
        "{} is at most {}, {} smaller than the bore of the {}, {}: the loosest running fit leaves {}",
        "{} ist höchstens {}, {} kleiner als die Bohrung von {}, {}: die loseste Laufpassung lässt {}",
        seat.called(),
        facts.show(is.max),
        facts.show(under),
        carried.part.text,
        facts.show(bore.min),
        facts.show(most)
    );
    let finding = finding(Severity::Warning, message, seat, carried).by_limit(by);
    Some(finding.length("seat", is.max).length("bore", bore.min).length("under", under).length("most", most))
}

fn finding(severity: Severity, message: String, seat: &Feature, carried: &Carried) -> Finding {
    Finding::new(CHECK.id, severity, message)
        .at(seat.value)
        .also(carried.place, "what sits on it")
        .of(seat.letter.clone())
        .help(told!(
            "Measure seat and bore again: two digits changed places, another bore, or another unit",
            "Sitz und Bohrung noch einmal messen: zwei Ziffern vertauscht, eine andere Bohrung oder eine andere Einheit"
        ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::unit::Length;

    /// The loosest and tightest of the usual fits stay silent: 25 H11/c11 leaves at most .110 + .130 + .130 mm, 25 H7/u6 presses at
    /// most .061 mm (ISO 286-2, from memory).
    #[test]
    fn usual_fits_lie_inside() {
        let bore = Length::micrometres(25_000);
        assert!(Length::micrometres(110) < times(bore, 0.01), "c11: least clearance .110 against .250");
        assert!(Length::micrometres(61) < times(bore, 0.004), "u6: .061 against .100");
    }
}
