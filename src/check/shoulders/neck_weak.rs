#![doc = include_str!("neck_weak.md")]

use crate::chain::Piece;
use crate::check::shape::{nominal_at, number, times};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::{End, Feature, Kind};
use crate::tell;
use crate::unit::{Length, Unit};

/// The check.
pub const CHECK: Check = Check {
    id: "neck-weak",
    severity: Severity::Warning,
    group: "shoulders",
    source: "common practice, no source",
    page: include_str!("neck_weak.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for feature in &facts.part.features {
        let Some((neck, beside)) = neck(facts, feature) else { continue };
        let bore = hole(facts, feature);
        let warn = times(beside, facts.limit_number(CHECK.id, "share"));
        let least = times(beside, facts.limit_number(CHECK.id, "least"));
        if neck >= warn {
            continue;
        }
        let severity = if neck < least { Severity::Error } else { Severity::Warning };
        let message = tell!(
            "{} is {}{}, {} of the {} beside it and less than {}: compared with its neighbor, the first place to break",
            "{} hat {}{}, {} von {} daneben und weniger als {}: gegen den Nachbarn die erste Stelle zum Brechen",
            feature.called(),
            facts.show(neck),
            if bore.is_positive() {
                tell!(" (as a solid bar; it is bored {})", " (als Vollstab; gebohrt ist {})", facts.show(bore))
            } else {
                String::new()
            },
            number(neck.mm() / beside.mm()),
            facts.show(beside),
            facts.show(warn)
        );
        out.push(
            Finding::new(CHECK.id, severity, message)
                .by_limit(if severity == Severity::Error { "least" } else { "share" })
                .at(feature.value)
                .of(feature.letter.clone())
                .length("neck", neck)
                .length("beside", beside)
                .help(tell!("Make it {} or larger, or accept it and say what it carries: no load is promised here", "{} oder größer machen, oder annehmen und sagen, was es trägt: eine Last wird hier nicht versprochen",
                    facts.at_least(warn)
                )),
        );
    }
}

/// Diameter of what is hollow under a feature.
fn hole(facts: &Facts<'_>, feature: &Feature) -> Length {
    facts
        .chain
        .span(feature.id)
        .map_or(Length::ZERO, |(from, to)| facts.profile.hollow_between(from.min(to), from.max(to)))
}

/// The solid round that stands as much bending and twisting as one with a bore: the cube root of d³ − b⁴/d.
fn solid(outside: Length, bore: Length) -> Length {
    if !bore.is_positive() || bore >= outside {
        return outside;
    }
    let (d, b) = (outside.mm(), bore.mm());
    Length::from_f64((d.powi(3) - b.powi(4) / d).cbrt(), Unit::Millimetre)
}

/// Diameter of a neck, and the smaller working diameter beside it, as solid rounds.
fn neck(facts: &Facts<'_>, feature: &Feature) -> Option<(Length, Length)> {
    if let Kind::Groove { diameter, .. } = &feature.kind {
        let (from, to) = facts.chain.span(feature.id)?;
        let around = facts.profile.between(from, to);
        let beside = around.filter_map(|p| working(facts, p, End::Datum)).min()?;
        let own = solid(diameter.nominal, hole(facts, feature));
        return (own < beside).then_some((own, beside));
    }
    let piece = facts.profile.piece(feature.id)?;
    let own = match &feature.kind {
        Kind::Relief { diameter, .. } => diameter.nominal,
        Kind::Turn { diameter, .. } if is_narrow(facts, piece, diameter.nominal) => diameter.nominal,
        _ => return None,
    };
    let own = solid(own, hole(facts, feature));
    let near = working(facts, facts.beside(piece, End::Datum).section()?, End::Far)?;
    let far = working(facts, facts.beside(piece, End::Far).section()?, End::Datum)?;
    (own < near && own < far).then(|| (own, near.min(far)))
}

/// A plain section longer than it is thick is a shank, not a neck.
fn is_narrow(facts: &Facts<'_>, piece: &Piece, diameter: Length) -> bool {
    piece.long() <= times(diameter, facts.limit_number(CHECK.id, "narrow"))
}

/// The diameter that carries: of a thread its root.
fn working(facts: &Facts<'_>, piece: &Piece, side: End) -> Option<Length> {
    let feature = facts.feature(piece.feature)?;
    let outside = match &feature.kind {
        Kind::Thread { thread, .. } => thread.root,
        _ => nominal_at(feature, side),
    };
    outside.is_positive().then(|| solid(outside, hole(facts, feature)))
}
