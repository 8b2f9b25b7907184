//! What is left of the bar: behind the jaws, and once the part is off it; how long to saw it where nobody said.

use super::Figure;
use super::given::{Given, at_tailstock};
use crate::check::stock::length;
use crate::model::part::Holding;
use crate::model::plan::{Operation, Setup, Verb};
use crate::model::{End, Plan};
use crate::told;
use crate::unit::{Length, Station, Unit};

/// What stays in the chuck when the part is off the bar.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Remains {
    /// Length left.
    pub length: Figure,
    /// What the jaws want of it, as the check `stock-length` reckons.
    pub grip: Figure,
    /// What a part takes: overall, both faces and the parting tool.
    pub each: Figure,
    /// How many more parts it is good for.
    pub more: u32,
}

/// How long to saw the bar, where the description states none.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SawTo {
    /// Rounded up to a sixteenth of an inch, a millimetre.
    pub length: Figure,
    /// What it is the sum of, the saw's own error last.
    pub sum: Vec<(&'static str, Figure)>,
}

/// The saw length by the sum of `stock-length`, and what a saw is good to; none where the description states a bar.
pub(super) fn saw_to(given: &Given) -> Option<SawTo> {
    if given.part.stock.is_some() {
        return None;
    }
    let facts = given.facts();
    let mut parts = length::needs(&facts)?;
    parts.push((facts.limit("stock-length", "saw"), told!("the saw", "die Säge")));
    let whole: Length = parts.iter().map(|(l, _)| *l).sum();
    let step = match given.unit {
        Unit::Inch => Length::PER_INCH.times_ratio(1, 16),
        Unit::Millimetre => Length::PER_MM,
    };
    let shown = |l: Length| Figure::usual(l, given.unit);
    let sum = parts.into_iter().map(|(l, what)| (what, shown(l))).collect();
    Some(SawTo { length: shown(whole.ceil_to(step)), sum })
}

/// What is left in the chuck once the part is cut off; none where it is not, or no bar is stated.
pub(super) fn remains(given: &Given, plan: &Plan) -> Option<Remains> {
    given.part.stock.as_ref()?;
    let (setup, op): (&Setup, &Operation) = plan.operations().find(|(_, o)| o.verb == Verb::PartOff)?;
    let facts = given.facts();
    let kerf = length::parting(&facts);
    let at = op.to.or(op.from)?;
    // What is behind the cut as the bar is in this mounting: faced at its other end or not.
    let behind = match at_tailstock(setup)? {
        End::Datum => setup.before.last()?.to - at,
        End::Far => at - setup.before.first()?.from,
    };
    let left = behind - kerf;
    let grip = length::grip(&facts);
    let needs: Length = length::needs(&facts)?.iter().map(|(l, _)| *l).sum();
    // The sum of a part that is parted off by wish has tool and grip already.
    let each = if given.part.wishes.part_off { needs - grip } else { needs + kerf };
    let more = ((left - grip).pm().max(0) / each.pm().max(1)).try_into().unwrap_or(0);
    let shown = |l: Length| Figure::usual(l, given.unit);
    left.is_positive().then(|| Remains { length: shown(left), grip: shown(grip), each: shown(each), more })
}

/// How far the work stands behind the jaws' inner ends, toward the spindle; none without a chuck.
pub(super) fn behind_the_jaws(given: &Given, setup: &Setup) -> Option<Figure> {
    let chuck = matches!(setup.holding, Holding::Chuck | Holding::ChuckAndCenter | Holding::ChuckAndRest);
    let grip = setup.grip.as_ref().filter(|_| chuck)?;
    let (from, to): (Station, Station) = (grip.from.min(grip.to), grip.from.max(grip.to));
    let behind = match at_tailstock(setup)? {
        End::Datum => setup.before.last()?.to - to,
        End::Far => from - setup.before.first()?.from,
    };
    Some(Figure::usual(behind.max(Length::ZERO), given.unit))
}
