//! What keeps a cut slow in a mounting before it is known what else is cut there: no more than any plan would.

use crate::check::Facts;
use crate::check::holding::bar_whip;
use crate::model::End;
use crate::model::part::Holding;
use crate::model::plan::{Operation, Setup, Slow, Verb};
use crate::plan::derive::Layout;
use crate::plan::spindle::{diameters, rest_rpm};
use crate::unit::{Length, Station};

use super::grip::{Lengths, bar_stick_out};

/// The least that keeps a cut slow in a mounting: the bar drawn in as far as this cut alone allows, the end behind faced.
pub(in crate::plan) fn least_slow(
    facts: &Facts<'_>,
    layout: &Layout,
    lengths: &Lengths,
    setup: &Setup,
    operation: &Operation,
) -> Slow {
    let whip = behind(layout, setup).and_then(|long| bar_whip::of_bar(facts, layout.bar, long));
    Slow {
        rest: rest_rpm(facts, setup),
        overhung: overhung(facts, layout, lengths, setup, operation),
        whip: whip.map(|w| w.allowed),
    }
}

fn overhung(facts: &Facts<'_>, layout: &Layout, lengths: &Lengths, setup: &Setup, operation: &Operation) -> bool {
    let held = setup.grip.as_ref().zip(setup.stick_out).filter(|_| setup.holding == Holding::Chuck);
    let Some((grip, out)) = held else { return false };
    let drawn_in = layout.parted.is_none() && setup.by.throw().is_none() && grip.letter.is_empty();
    let least = setup.works.filter(|_| drawn_in).map_or(out, |end| {
        let ends = [operation.from, operation.to].into_iter().flatten();
        let deep = ends.map(|at| layout.depth(end, at)).max();
        // Other cuts may ask for less than a bar that is only faced.
        let deep = if matches!(operation.verb, Verb::Face | Verb::Center) { Some(Length::ZERO) } else { deep };
        out.min(bar_stick_out(layout, &lengths.at_end(layout, Some(end)), end, deep))
    });
    least.mm() / grip.diameter.mm() > diameters(facts)
}

/// How far the work at least reaches behind the jaws.
fn behind(layout: &Layout, setup: &Setup) -> Option<Length> {
    let chucks = [Holding::Chuck, Holding::ChuckAndCenter, Holding::ChuckAndRest];
    let grip = setup.grip.as_ref().filter(|_| chucks.contains(&setup.holding))?;
    let datum = Station::DATUM - layout.over(End::Datum);
    let (first, last) = match layout.parted {
        Some(_) => (datum, datum + layout.sawn),
        None => (layout.face(End::Datum), layout.face(End::Far)),
    };
    Some(match setup.works? {
        End::Datum => last - grip.to,
        End::Far => grip.from - first,
    })
}
