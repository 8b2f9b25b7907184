#![doc = include_str!("cannot_pass.md")]

use crate::check::passing::{Obstacle, Sliding};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::End;
use crate::tell;

/// The check.
pub const CHECK: Check = Check {
    id: "cannot-pass",
    severity: Severity::Error,
    group: "assembly",
    source: "geometry; bores of rolling bearings by ISO 492, normal class",
    page: include_str!("cannot_pass.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for sliding in facts.sliding() {
        let Some(from) = sliding.carried.enters else { continue };
        if let Some(obstacle) = facts.blocked(&sliding, from) {
            out.push(finding(facts, &sliding, obstacle, from));
        }
    }
}

fn finding(facts: &Facts<'_>, sliding: &Sliding<'_>, obstacle: Obstacle<'_>, from: End) -> Finding {
    let message = tell!(
        "the {} ({}) cannot reach {} from the {} end: {} may be {}, {} too large",
        "{} ({}) erreicht {} vom {}ende nicht: {} kann {} haben, {} zu groß",
        sliding.carried.part.text,
        sliding.by,
        sliding.seat.called(),
        from.word(),
        obstacle.feature.called(),
        facts.show(obstacle.largest),
        facts.show(obstacle.largest - sliding.smallest)
    );
    let mut finding = Finding::new(CHECK.id, Severity::Error, message)
        .at(sliding.carried.place)
        .also(obstacle.feature.head, "in its way")
        .of(sliding.seat.letter.clone())
        .of(obstacle.feature.letter.clone())
        .length("bore", sliding.smallest)
        .length("in_the_way", obstacle.largest)
        .help(tell!(
            "Make {} {} or less",
            "{} {} oder kleiner machen",
            obstacle.feature.called(),
            facts.at_most(sliding.smallest)
        ));
    if facts.obstacles(sliding, from.other()).is_empty() {
        finding = finding.help(tell!(
            "Or put it on from the other end, where the way is free: `enters: {}`",
            "Oder vom anderen Ende aufschieben, wo der Weg frei ist: `enters: {}`",
            from.other().word()
        ));
    }
    finding
}
