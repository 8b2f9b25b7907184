#![doc = include_str!("knurl_growth.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::handbook::knurl::around;
use crate::model::feature::Knurl;
use crate::model::{End, Feature, Kind};
use crate::tell;

/// The check.
pub const CHECK: Check = Check {
    id: "knurl-growth",
    severity: Severity::Warning,
    group: "process",
    source: "DIN 82: finished diameter less a part of the pitch",
    page: include_str!("knurl_growth.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for feature in facts.part.sections() {
        let Kind::Knurl { knurl, .. } = &feature.kind else { continue };
        out.extend(teeth(facts, feature, knurl));
        out.extend(over_the_points(facts, feature, knurl));
        out.extend(in_the_way(facts, feature, knurl));
    }
}

/// A stated blank that does not hold a whole number of teeth, at no size within its limits.
fn teeth(facts: &Facts<'_>, feature: &Feature, knurl: &Knurl) -> Option<Finding> {
    let blank = knurl.blank.as_ref()?;
    let whole = around(blank.nominal, knurl.pitch)?;
    let share = facts.limit_number(CHECK.id, "tooth");
    let one = knurl.pitch.pm() as f64 / std::f64::consts::PI;
    let off = (blank.nominal - whole.blank).abs().pm() as f64 / one;
    if off <= share || blank.limits.is_some_and(|l| l.holds(whole.blank)) {
        return None;
    }
    let message = tell!(
        "{} has a blank of {}, which holds {:.2} teeth: the pattern doubles",
        "{} hat einen Durchmesser von {} mit {:.2} Zähnen: das Muster verdoppelt sich",
        feature.called(),
        facts.show(blank.nominal),
        std::f64::consts::PI * blank.nominal.pm() as f64 / knurl.pitch.pm() as f64
    );
    Some(
        Finding::new(CHECK.id, Severity::Warning, message)
            .at(blank.place)
            .of(feature.letter.clone())
            .length("blank", blank.nominal)
            .length("whole", whole.blank)
            .help(tell!(
                "Turn it to {}, which holds {} teeth",
                "Auf {} drehen, das gibt {} Zähne",
                facts.show(whole.blank),
                whole.teeth
            )),
    )
}

/// What is expected over the points lies outside what the drawing asks.
fn over_the_points(facts: &Facts<'_>, feature: &Feature, knurl: &Knurl) -> Option<Finding> {
    let limits = knurl.diameter.limits.filter(|l| l.band().is_positive())?;
    if limits.holds(knurl.expected) {
        return None;
    }
    let message = tell!(
        "{} comes out at about {} over the points, and the drawing asks {} to {}",
        "{} wird etwa {} über die Spitzen, und die Zeichnung verlangt {} bis {}",
        feature.called(),
        facts.show(knurl.expected),
        facts.show(limits.min),
        facts.show(limits.max)
    );
    Some(
        Finding::new(CHECK.id, Severity::Warning, message)
            .at(knurl.diameter.place)
            .of(feature.letter.clone())
            .length("expected", knurl.expected)
            .length("max", limits.max)
            .help(tell!(
                "{} teeth on a blank of {} give it; widen the limits to hold that, or take another pitch",
                "{} Zähne auf einem Durchmesser von {} geben es; die Grenzen dafür weiten, oder eine andere Teilung",
                knurl.teeth,
                facts.show(knurl.turn_to)
            )),
    )
}

/// Something slides on over the knurl, and its bore is smaller than the knurl grows.
fn in_the_way(facts: &Facts<'_>, feature: &Feature, knurl: &Knurl) -> Option<Finding> {
    let own = facts.profile.piece(feature.id)?;
    let grown = knurl.expected.max(own.largest());
    let stopped = facts.sliding().into_iter().find(|s| {
        let from = facts.enters(s.piece, s.carried);
        let on_the_way = match from {
            Some(End::Datum) => own.to <= s.piece.from,
            Some(End::Far) => own.from >= s.piece.to,
            None => false,
        };
        on_the_way && s.smallest < grown
    })?;
    let message = tell!(
        "{} grows from {} to about {}, and the {} with its bore of {} must pass over it",
        "{} wächst von {} auf etwa {}, und {} mit Bohrung {} muss darüber",
        feature.called(),
        facts.show(knurl.turn_to),
        facts.show(grown),
        stopped.carried.part.text,
        facts.show(stopped.smallest)
    );
    Some(
        Finding::new(CHECK.id, Severity::Warning, message)
            .at(feature.head)
            .of(feature.letter.clone())
            .of(stopped.seat.letter.clone())
            .length("grown", grown)
            .length("bore", stopped.smallest)
            .help(tell!(
                "Make the blank smaller than {}, or put the {} on before it is knurled",
                "Den Durchmesser kleiner als {} machen, oder {} vor dem Rändeln aufschieben",
                facts.show(stopped.smallest - knurl.growth),
                stopped.carried.part.text
            )),
    )
}
