//! Whether work that must stay straight or run true is brought to size at one end before the other has lost its skin: told, with the wish that roughs both ends first.

use super::Given;
use super::from_bar::parted;
use crate::model::plan::{Operation, Verb};
use crate::model::{Feature, Plan};
use crate::tell;
use crate::unit::Length;

/// Diameters of bar from which work is slender enough to bow (common practice, no source: where lathe texts begin to ask for a rest).
const SLENDER: i64 = 12;
/// Run-out asked from which it counts, micrometres (common practice, no source: what a bar that bows a little takes up).
const CLOSE_RUNOUT: i64 = 25;
/// Share of the section a roughing leaves, from which it springs the bar (common practice, no source).
const LEAVES: f64 = 0.75;

/// The remark, where a close section is finished before heavy roughing from the other end.
pub(super) fn remark(given: &Given<'_>, plan: &Plan) -> Option<String> {
    if parted(plan).is_some() || !must_stay_straight(given) {
        return None;
    }
    let operations: Vec<&Operation> = plan.operations().map(|(_, o)| o).collect();
    let finished = |o: &&&Operation| o.close && !o.inside && matches!(o.verb, Verb::Finish | Verb::Turn);
    let (first, later) = operations.iter().enumerate().find_map(|(i, f)| {
        let first = Some(f).filter(finished)?;
        let later = operations[i..].iter().find(|r| r.end != first.end && is_heavy(r))?;
        Some((*first, *later))
    })?;
    let (one, other) = (name(given, first)?, name(given, later)?);
    let does = |verb, feature: Option<usize>| operations.iter().any(|o| o.verb == verb && o.feature == feature);
    let mut wish = format!("[rough {other}, finish {one}]");
    if does(Verb::Rough, first.feature) && does(Verb::Finish, later.feature) {
        wish.extend([", [rough ", one, ", finish ", other, "]"]);
    }
    Some(tell!(
        "{one} is to size before {other} is roughed from the other end: a bar bows as its skin comes off, and heavy cuts spring what is finished. Both ends are roughed first with `plan: {{before: [{wish}]}}`",
        "{one} ist fertig, bevor {other} vom anderen Ende geschruppt wird: eine Stange krümmt sich, wenn ihre Haut abkommt, und schwere Schnitte verziehen, was fertig ist. Erst beide Enden schruppen: `plan: {{before: [{wish}]}}`"
    ))
}

fn must_stay_straight(given: &Given<'_>) -> bool {
    let close = |f: &Feature| f.true_to.as_ref().is_some_and(|t| t.within.nominal <= Length::micrometres(CLOSE_RUNOUT));
    given.layout.sawn >= given.layout.bar.times(SLENDER) || given.part.features.iter().any(close)
}

fn is_heavy(o: &Operation) -> bool {
    let sizes = o.from_diameter.zip(o.to_diameter).filter(|_| o.verb == Verb::Rough && !o.inside && o.throw.is_none());
    sizes.is_some_and(|(from, to)| to.mm().powi(2) <= LEAVES * from.mm().powi(2))
}

/// As a wish calls it: by its name, else by its letter.
fn name<'a>(given: &Given<'a>, o: &Operation) -> Option<&'a str> {
    let feature = given.part.features.get(o.feature?)?;
    Some(feature.name.as_ref().map_or(feature.letter.as_str(), |n| n.text.as_str()))
}
