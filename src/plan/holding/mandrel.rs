//! On a mandrel: a part whose bore runs through, and whose outside must run true to it.

use super::decide::EndHolding;
use super::grip::Held;
use super::mountings::{Candidate, Candidates, mounting};
use crate::chain::Hollow;
use crate::model::inside::InsideCut;
use crate::model::part::Holding;
use crate::model::plan::{Grip, Operation};
use crate::model::{Kind, Part, Shop, Workholder};
use crate::plan::derive::Layout;
use crate::plan::rules::because;
use crate::unit::{Length, Unit, show};
use crate::{tell, told};

/// The bore that takes a mandrel, and what of the outside must run true to it.
#[derive(Debug, Clone)]
pub(in crate::plan) struct Bored {
    /// The bore.
    pub(in crate::plan) feature: usize,
    letter: String,
    size: Length,
    /// Sections that must run true to it.
    pub(in crate::plan) outside: Vec<usize>,
}

/// The bore a mandrel of this shop goes into: one cylinder that comes out at the other end, at least as long as it is wide.
pub(in crate::plan) fn bored(part: &Part, layout: &Layout, shop: Option<&Shop>) -> Option<Bored> {
    let mandrels = &shop?.mandrels;
    let near = match part.units {
        Unit::Inch => Length::micro_inches(1_500),
        Unit::Millimetre => Length::micrometres(40),
    };
    let size_of = |h: &Hollow| {
        let middle = h.start.middle();
        let nearest = mandrels.iter().copied().min_by_key(|m| (*m - middle).abs())?;
        Some(nearest).filter(|m| (*m - middle).abs() <= near)
    };
    let fits = |h: &&Hollow| {
        let plain = part.features.get(h.feature).is_some_and(
            |f| matches!(&f.kind, Kind::Inside(inside) if matches!(inside.cut, InsideCut::Bore { kept: false, .. })),
        );
        plain && h.through && h.start == h.stop && h.long() >= h.start.min && size_of(h).is_some()
    };
    let hollow = layout.hollows.iter().find(fits)?;
    let feature = hollow.feature;
    let pairs = part.features.iter().filter_map(|f| Some((f.id, f.true_to.as_ref()?.feature)));
    let outside = pairs
        .filter_map(|(a, b)| if b == feature { Some(a) } else { (a == feature).then_some(b) })
        .filter(|f| layout.section(*f).is_some())
        .collect();
    let letter = part.features.get(feature).map_or_else(String::new, |f| f.letter.clone());
    Some(Bored { feature, letter, size: size_of(hollow)?, outside })
}

/// The mounting on a mandrel for one end: nothing outside is held, so all of it is free.
pub(super) fn on_mandrel(part: &Part, layout: &Layout, holding: &EndHolding, bored: &Bored) -> Candidate {
    let face = layout.face(holding.end.other());
    let grip = Grip {
        from: face,
        to: face,
        diameter: bored.size,
        letter: bored.letter.clone(),
        protect: true,
        roughed: false,
    };
    let held = Held { grip, section: None, poor: false };
    let mut candidate = mounting(layout, holding, Holding::Mandrel, held, Length::ZERO, true);
    candidate.setup.by = Workholder::Mandrel(bored.size, bored.feature);
    candidate.setup.grip = None;
    candidate.setup.stick_out = None;
    candidate.setup.name =
        candidate.setup.name.replacen(Holding::Mandrel.word(), &format!("mandrel in {}", bored.letter), 1);
    candidate.setup.why.retain(|w| w.rule == "wish");
    let size = show::exact(bored.size, part.units, 0, 4);
    let letters = bored.outside.iter().filter_map(|f| part.features.get(*f)).map(|f| f.letter.clone());
    let letters = letters.collect::<Vec<_>>().join(", ");
    let outside = if letters.is_empty() { told!("the outside", "außen").to_owned() } else { letters };
    candidate.setup.why.push(because(
        "mandrel",
        tell!(
            "{outside} turned on the {size} mandrel in {} runs true to the bore by itself",
            "{outside}, auf dem Dorn {size} in {} gedreht, läuft von selbst zur Bohrung",
            bored.letter
        ),
    ));
    candidate
}

/// The bore is finished before the mandrel goes in; what must be true to it, and is not cut in its holding, is turned on it.
pub(super) fn mandrel_rules(
    layout: &Layout,
    operations: &[Operation],
    on_lathe: &[Candidate],
    bored: &Bored,
    result: &mut Candidates,
) {
    let ours: Vec<usize> = (0..on_lathe.len()).filter(|m| on_lathe[*m].setup.holding == Holding::Mandrel).collect();
    for (i, operation) in operations.iter().enumerate() {
        if operation.inside {
            for m in &ours {
                let reason = tell!(
                    "{} is finished before the mandrel goes into it",
                    "{} ist fertig, bevor der Dorn hineingeht",
                    bored.letter
                );
                result.needs.push((*m, i, because("mandrel", reason)));
            }
        }
    }
    let of_bore = layout.hollows.iter().find(|h| h.feature == bored.feature).map(|h| h.end);
    for (i, operation) in operations.iter().enumerate() {
        let section = operation.feature.filter(|f| bored.outside.contains(f));
        let elsewhere = operation.end.is_none() || operation.end != of_bore;
        let last = crate::plan::precede::is_last_cut(layout, operation);
        if section.is_some() && last && elsewhere && result.allowed[i].iter().any(|m| ours.contains(m)) {
            result.allowed[i].retain(|m| ours.contains(m));
        }
    }
}
