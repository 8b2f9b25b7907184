#![doc = include_str!("land_thin.md")]

use crate::check::shape::{face, nominal_at, number, times};
use crate::check::slots::Slot;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::{End, Kind};
use crate::tell;
use crate::unit::Length;

/// The check.
pub const CHECK: Check = Check {
    id: "land-thin",
    severity: Severity::Warning,
    group: "shoulders",
    source: "common practice, no source; DIN 471 gives the edge margin of each ring",
    page: include_str!("land_thin.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let mut slots: Vec<Slot<'_>> = facts.slots().collect();
    slots.sort_by_key(|s| s.from);
    for pair in slots.windows(2) {
        let (near, far) = (&pair[0], &pair[1]);
        let (land, deep) = (far.from - near.to, near.deep.max(far.deep));
        if land.is_positive() && land < deep {
            out.push(between(facts, near, far, land, deep));
        }
    }
    for slot in &slots {
        let Kind::Groove { ring: Some(_), .. } = &slot.feature.kind else { continue };
        let wanted = times(slot.deep, facts.limit_number(CHECK.id, "depths"));
        for side in [End::Datum, End::Far] {
            if let Some(land) = to_the_edge(facts, slot, side)
                && land < wanted
            {
                out.push(at_the_end(facts, slot, land, wanted));
            }
        }
    }
}

/// From a groove's wall to where the land ends: the next smaller section, or the end of the part.
fn to_the_edge(facts: &Facts<'_>, slot: &Slot<'_>, side: End) -> Option<Length> {
    let wall = if side == End::Datum { slot.from } else { slot.to };
    let bottom = nominal_at(slot.feature, side);
    let mut piece = facts.profile.between(slot.from, slot.to).next()?;
    loop {
        let Some(next) = facts.beside(piece, side).section() else {
            let edge = matches!(facts.beside(piece, side), crate::check::shape::Beside::PartEnd);
            return edge.then(|| (face(piece, side) - wall).abs());
        };
        if nominal_at(facts.feature(next.feature)?, side.other()) <= bottom {
            return Some((face(piece, side) - wall).abs());
        }
        piece = next;
    }
}

fn between(facts: &Facts<'_>, near: &Slot<'_>, far: &Slot<'_>, land: Length, deep: Length) -> Finding {
    let message = tell!(
        "the land between {} and {} is {} wide, thinner than the groove is deep, {}",
        "der Steg zwischen {} und {} ist {} breit, dünner als der Einstich tief, {}",
        near.feature.called(),
        far.feature.called(),
        facts.show(land),
        facts.show(deep)
    );
    Finding::new(CHECK.id, Severity::Warning, message)
        .at(far.feature.head)
        .also(near.feature.head, "the other wall of the land")
        .of(near.feature.letter.clone())
        .of(far.feature.letter.clone())
        .length("land", land)
        .length("deep", deep)
        .help(tell!(
            "Move the grooves apart: leave {} or more between them",
            "Die Einstiche auseinanderlegen: {} oder mehr dazwischen lassen",
            facts.show(deep)
        ))
}

fn at_the_end(facts: &Facts<'_>, slot: &Slot<'_>, land: Length, wanted: Length) -> Finding {
    let message = tell!(
        "{} leaves {} to the end, less than {} ({} times its depth): the ring shears it off",
        "{} lässt {} bis zum Ende, weniger als {} ({} mal seine Tiefe): der Ring schert es ab",
        slot.feature.called(),
        facts.show(land),
        facts.show(wanted),
        number(wanted.mm() / slot.deep.mm())
    );
    Finding::new(CHECK.id, Severity::Warning, message)
        .at(slot.feature.head)
        .of(slot.feature.letter.clone())
        .length("land", land)
        .by_limit("depths")
        .length("wanted", wanted)
        .help(tell!(
            "Leave {} or more between the groove and the end",
            "{} oder mehr zwischen Einstich und Ende lassen",
            facts.show(wanted)
        ))
}
