#![doc = include_str!("cross_hole_breaks.md")]

use crate::check::keyed::Keyed;
use crate::check::passing::is_bearing;
use crate::check::shape::nominal_at;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::{End, Feature, Kind};
use crate::unit::{Length, Station};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "cross-hole-breaks",
    severity: Severity::Error,
    group: "keyseats",
    source: "geometry",
    page: include_str!("cross_hole_breaks.md"),
    look,
};

/// A cross hole along the axis.
struct Hole<'a> {
    feature: &'a Feature,
    diameter: Length,
    from: Station,
    to: Station,
    meets: Option<usize>,
}

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for feature in &facts.part.features {
        let Kind::CrossHole { diameter, meets, .. } = &feature.kind else { continue };
        let Some(center) = facts.chain.center(feature.id) else { continue };
        let radius = diameter.nominal.half();
        let hole =
            Hole { feature, diameter: diameter.nominal, from: center - radius, to: center + radius, meets: *meets };
        let on = facts.profile.at(center).and_then(|p| facts.feature(p.feature));
        if let Some((section, around)) = on.map(|s| (s, nominal_at(s, End::Datum))).filter(|o| o.1.is_positive())
            && hole.diameter >= around
        {
            out.push(cuts_in_two(facts, feature, section, hole.diameter, around));
            continue;
        }
        sections(facts, &hole, out);
        grooves(facts, &hole, out);
        for key in facts.keyseats().filter(|k| hole.meets != Some(k.feature.id)) {
            if hole.from < key.to && key.from < hole.to && in_line(&hole, &key) {
                out.push(finding(facts, &hole, key.feature, told!("a keyseat", "eine Nut"), Severity::Error));
            }
        }
    }
}

fn sections(facts: &Facts<'_>, hole: &Hole<'_>, out: &mut Vec<Finding>) {
    for piece in facts.profile.between(hole.from, hole.to).filter(|p| hole.meets != Some(p.feature)) {
        let Some(section) = facts.feature(piece.feature) else { continue };
        let found = match &section.kind {
            Kind::Relief { .. } => Some((told!("a relief", "einen Freistich"), Severity::Error)),
            Kind::Thread { .. } => Some((told!("a thread", "ein Gewinde"), Severity::Warning)),
            _ if section.carries.iter().any(is_bearing) => {
                Some((told!("a bearing seat", "einen Lagersitz"), Severity::Error))
            }
            _ => None,
        };
        if let Some((what, severity)) = found {
            out.push(finding(facts, hole, section, what, severity));
        }
    }
}

/// A groove is a relief too: its walls are gone where the hole breaks through them.
fn grooves(facts: &Facts<'_>, hole: &Hole<'_>, out: &mut Vec<Finding>) {
    for groove in facts.part.features.iter().filter(|f| matches!(f.kind, Kind::Groove { .. })) {
        let Some((a, b)) = facts.chain.span(groove.id) else { continue };
        if hole.meets != Some(groove.id) && hole.from < a.max(b) && a.min(b) < hole.to {
            out.push(finding(facts, hole, groove, told!("a groove", "einen Einstich"), Severity::Error));
        }
    }
}

/// Whether hole and keyseat meet around the shaft: the hole comes out on both sides. An angle not stated is taken as 0.
fn in_line(hole: &Hole<'_>, key: &Keyed<'_>) -> bool {
    let angle = |f: &Feature| f.angle_mdeg.unwrap_or(0) as f64 / 1000.0;
    let apart = (angle(hole.feature) - angle(key.feature)).rem_euclid(180.0);
    let apart = apart.min(180.0 - apart);
    let half = |chord: Length| (chord.mm() / key.shaft.mm()).clamp(-1.0, 1.0).asin().to_degrees();
    apart < half(hole.diameter) + half(key.width)
}

fn finding(facts: &Facts<'_>, hole: &Hole<'_>, other: &Feature, what: &str, severity: Severity) -> Finding {
    let message = tell!(
        "the cross hole reaches from {} to {} and breaks into {what}, {}",
        "die Querbohrung reicht von {} bis {} und bricht in {what}, {}",
        facts.show(hole.from.0),
        facts.show(hole.to.0),
        other.called()
    );
    let finding = Finding::new(CHECK.id, severity, message)
        .at(hole.feature.head)
        .also(other.head, "what it meets")
        .of(hole.feature.letter.clone())
        .of(other.letter.clone())
        .length("hole_from", hole.from.0)
        .length("hole_to", hole.to.0);
    // `meets` takes a name; a letter is ours, not the file's.
    let meant = match &other.name {
        Some(name) => tell!("If it is meant, say so: `meets: {}`", "Wenn das so sein soll: `meets: {}`", name.text),
        None => tell!(
            "If it is meant, give {} a `name:` and write that behind `meets:`",
            "Wenn das so sein soll, {} einen `name:` geben und diesen hinter `meets:` schreiben",
            other.called()
        ),
    };
    match severity {
        Severity::Warning => finding
            .help(told!(
                "Drill it after the thread is cut, and deburr the thread",
                "Nach dem Gewinde bohren und das Gewinde entgraten"
            ))
            .help(meant),
        _ => finding
            .help(told!(
                "Move it along or around the shaft until it is clear",
                "Längs oder um die Welle verschieben, bis sie frei liegt"
            ))
            .help(meant),
    }
}

/// As large as the section: nothing is left to hold the two ends together.
fn cuts_in_two(facts: &Facts<'_>, feature: &Feature, section: &Feature, hole: Length, around: Length) -> Finding {
    let message = tell!(
        "the cross hole is {}, and {} is {}: it cuts the part in two",
        "die Querbohrung hat {}, und {} hat {}: sie teilt das Teil",
        facts.show(hole),
        section.called(),
        facts.show(around)
    );
    Finding::new(CHECK.id, Severity::Error, message)
        .at(feature.value)
        .of(feature.letter.clone())
        .of(section.letter.clone())
        .length("hole", hole)
        .length("diameter", around)
        .help(told!(
            "Measure the hole again, or say which section it goes through",
            "Die Bohrung noch einmal messen, oder sagen, durch welchen Abschnitt sie geht"
        ))
}
