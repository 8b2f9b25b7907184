#![doc = include_str!("grip_short.md")]

use crate::chain::Piece;
use crate::check::shape::times;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::part::{Holding, StockShape};
use crate::model::plan::{Setup, Verb};
use crate::unit::Length;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "grip-short",
    severity: Severity::Warning,
    group: "holding",
    source: "common practice, no source",
    page: include_str!("grip_short.md"),
    look,
};

/// A limit in force, and its name.
type Limit = (Length, &'static str);

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let grips = |setup: &Setup| {
        let grip = setup
            .grip
            .as_ref()
            .filter(|_| matches!(setup.holding, Holding::Chuck | Holding::ChuckAndCenter | Holding::ChuckAndRest))?;
        Some((grip.to - grip.from, grip.diameter))
    };
    let is_short = |setup: &Setup| grips(setup).is_some_and(|(long, d)| long < wanted(facts, setup, d).0);
    let mut said = Vec::new();
    for setup in facts.unavoidable(is_short) {
        let (Some(grip), Some((long, diameter))) = (&setup.grip, grips(setup)) else { continue };
        let thrown = setup.by.throw().is_some();
        if facts.plan.is_none() && said.contains(&(long, diameter, thrown)) {
            continue;
        }
        said.push((long, diameter, thrown));
        let least = least(facts, setup, diameter, thrown);
        let (severity, (against, limit)) =
            if long < least.0 { (Severity::Error, least) } else { (Severity::Warning, wanted(facts, setup, diameter)) };
        let message = tell!(
            "{}: the jaws grip {} of a diameter of {}, less than {}",
            "{}: die Backen fassen {} bei einem Durchmesser von {}, weniger als {}",
            setup.name,
            facts.show(long),
            facts.show(grip.diameter),
            facts.show(against)
        );
        out.push(
            Finding::new(CHECK.id, severity, message)
                .by_limit(limit)
                .at(facts.setup_place(setup))
                .of(grip.letter.clone())
                .length("grip", long)
                .length("wanted", against)
                .help(if setup.holding == Holding::Chuck {
                    told!(
                        "Hold it by a longer length, saw the bar longer, or bring up the center and take light cuts",
                        "Länger fassen, die Stange länger sägen, oder die Spitze anstellen und leicht schneiden"
                    )
                } else {
                    told!(
                        "Hold it by a longer length, saw the bar longer, or take light cuts",
                        "Länger fassen, die Stange länger sägen, oder leicht schneiden"
                    )
                }),
        );
    }
}

/// The grip that is enough, of the limits the one that decides.
fn wanted(facts: &Facts<'_>, setup: &Setup, diameter: Length) -> Limit {
    let usual = smaller(by_diameter(facts, "diameters", diameter), by_length(facts, "long"));
    short_work(facts, setup).map_or(usual, |long| {
        let share = (times(long, facts.limit_number(CHECK.id, "of short work")), "of short work");
        smaller(usual, larger(share, by_length(facts, "least of short work")))
    })
}

/// The grip below which it is an error.
fn least(facts: &Facts<'_>, setup: &Setup, diameter: Length, thrown: bool) -> Limit {
    let share = by_diameter(facts, "least diameters", diameter);
    // What hangs out of the middle pulls at the jaws with every turn: no short grip is long enough for it.
    if thrown {
        return share;
    }
    let usual = smaller(share, by_length(facts, "least long"));
    if short_work(facts, setup).is_some() { smaller(usual, by_length(facts, "least of short work")) } else { usual }
}

fn by_diameter(facts: &Facts<'_>, name: &'static str, diameter: Length) -> Limit {
    (times(diameter, facts.limit_number(CHECK.id, name)), name)
}

fn by_length(facts: &Facts<'_>, name: &'static str) -> Limit {
    (facts.limit(CHECK.id, name), name)
}

fn smaller(one: Limit, other: Limit) -> Limit {
    if one.0 < other.0 { one } else { other }
}

fn larger(one: Limit, other: Limit) -> Limit {
    if one.0 > other.0 { one } else { other }
}

/// Length of work no longer than it is wide, which lies against the steps of the jaws and cannot tip.
fn short_work(facts: &Facts<'_>, setup: &Setup) -> Option<Length> {
    // While it hangs on the bar it has no face there.
    if setup.operations.iter().any(|o| o.verb == Verb::PartOff) {
        return None;
    }
    let long = facts.chain.overall(facts.part)?;
    // No section is wider than its bar: asked of every mounting, a long part is not gone through each time.
    if facts.part.stock.as_ref().is_some_and(|s| s.shape == StockShape::Round && s.size.nominal < long) {
        return None;
    }
    let wide = facts.profile.pieces.iter().map(Piece::largest).max()?;
    // What is thrown over hangs out of the middle: its length does not help.
    let plain = facts.part.features.iter().all(|f| f.throw().is_none());
    (plain && long <= wide).then_some(long)
}
