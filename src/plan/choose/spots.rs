//! A steady rest does not run on scale: the plan again with a spot turned true for it, or without the holdings that would want one.

use super::too_soft::too_soft;
use super::{Given, Planned};
use crate::handbook::material::Condition;
use crate::model::End;
use crate::model::plan::{Derived, Plan, Setup, Verb};
use crate::plan::cost::Rates;
use crate::plan::derive::bar_of;
use crate::plan::holding::{Spot, spot};
use crate::plan::order::Limits;
use crate::plan::rules::because;
use crate::told;

/// Plans are searched again at most so often: one end's spot may make the rest at the other the cheaper one.
const AGAIN: usize = 3;

impl Given<'_> {
    /// The plan with the spots that its steady rests run on, or the cheaper one that does without such a rest. Where neither can be, as it was: then
    /// the sheet advises the spot.
    pub(super) fn on_true_spots(&self, planned: Planned, limits: Limits) -> Planned {
        if !bar_of(self.part).is_some_and(Condition::has_scale) || !planned.certificate.proven_optimal {
            return planned;
        }
        let bare = planned.derived.clone();
        let soft = too_soft(&self.facts, &planned.plan).len();
        let elsewhere = self.without(&bare, limits).filter(|w| too_soft(&self.facts, &w.plan).len() <= soft);
        let turned = self.turned(&bare, &planned.plan, limits);
        [turned, elsewhere].into_iter().flatten().min_by(|a, b| a.plan.cost.total_cmp(&b.plan.cost)).unwrap_or(planned)
    }

    /// The plan with a spot for every rest that it sets on the bar; none where one has no room.
    fn turned(&self, bare: &Derived, first: &Plan, limits: Limits) -> Option<Planned> {
        let mut ends = self.on_the_bar(first);
        for _ in 0..AGAIN {
            if ends.is_empty() {
                return None;
            }
            let derived = ends.iter().try_fold(bare.clone(), |derived, end| self.with_spot(derived, first, *end))?;
            let found = self.plan_from(derived, limits, None).ok()?;
            // What runs on the bar at the other end has come in by this.
            let more = self.on_the_bar(&found.plan);
            let Some(more) = more.into_iter().find(|e| !ends.contains(e)) else {
                return Some(found).filter(|f| self.on_the_bar(&f.plan).is_empty() && !is_idle(&f.plan));
            };
            ends.push(more);
        }
        None
    }

    /// The plan without any rest on the bar.
    fn without(&self, bare: &Derived, limits: Limits) -> Option<Planned> {
        let mut fewer = bare.clone();
        for (_, allowed) in &mut fewer.operations {
            allowed.retain(|m| !runs_on_bar(&bare.mountings[*m]));
        }
        let together = |a: usize, b: usize| {
            let (a, b) = (&fewer.operations[a].1, &fewer.operations[b].1);
            a.iter().any(|m| b.contains(m))
        };
        let possible =
            fewer.operations.iter().zip(&bare.operations).all(|(now, was)| !now.1.is_empty() || was.1.is_empty())
                && fewer.together.iter().all(|(a, b, _)| together(*a, *b));
        let found = self.plan_from(fewer, limits, None).ok().filter(|_| possible)?;
        // Nothing is gained by what stands out too far instead.
        (!found.plan.setups.iter().any(super::overhangs)).then_some(found)
    }

    /// Ends whose work runs in a rest on the bar as it was bought.
    fn on_the_bar(&self, plan: &Plan) -> Vec<End> {
        let mut ends: Vec<End> = plan.setups.iter().filter(|s| self.is_on_bar(s)).filter_map(|s| s.works).collect();
        ends.dedup();
        ends
    }

    /// The same of a mounting of a plan: what stands there then is the bar.
    fn is_on_bar(&self, setup: &Setup) -> bool {
        runs_on_bar(setup) && setup.rest.as_ref().is_some_and(|r| r.diameter == self.layout.bar)
    }

    /// The derivation with the spot of an end, and what must come before what.
    fn with_spot(&self, mut derived: Derived, plan: &Plan, end: End) -> Option<Derived> {
        let on_end = |s: &Setup| s.works == Some(end) && runs_on_bar(s);
        let used = plan.setups.iter().find(|s| on_end(s))?;
        let model = derived.mountings.iter().position(|m| m.name == used.name)?;
        let under_scale = self.facts.limit("stock-scale", "a side");
        let found = spot(self.part, self.layout, self.shop, &derived.mountings[model], under_scale)?;
        let same = |s: &Setup| {
            let at = |s: &Setup| s.rest.as_ref().map(|r| (r.from, r.to));
            on_end(s) && at(s) == at(&derived.mountings[model])
        };
        let rests: Vec<usize> = (0..derived.mountings.len()).filter(|m| same(&derived.mountings[*m])).collect();
        // A rest on the bar elsewhere would want a spot of its own.
        let others: Vec<usize> =
            (0..derived.mountings.len()).filter(|m| on_end(&derived.mountings[*m]) && !rests.contains(m)).collect();
        for (_, allowed) in &mut derived.operations {
            allowed.retain(|m| !others.contains(m));
        }
        self.add(&mut derived, found, (end, model, &rests));
        Some(derived)
    }

    fn add(&self, derived: &mut Derived, found: Spot, (end, model, rests): (End, usize, &[usize])) {
        let rates = Rates::of(self.facts, self.layout);
        let [mut center, mut turn] = found.operations;
        let [bench, on_center] = found.mountings;
        (center.minutes, turn.minutes) = (rates.minutes(&center), rates.minutes(&turn));
        let bench = derived.mountings.iter().position(|m| m.name == bench.name).unwrap_or_else(|| {
            derived.mountings.push(bench);
            derived.mountings.len() - 1
        });
        let on = derived.mountings.len();
        derived.mountings.push(on_center);
        let (c, t) = (derived.operations.len(), derived.operations.len() + 1);
        let region = turn.from.zip(turn.to).map(|(a, b)| (a.min(b), a.max(b)));
        derived.operations.push((center, vec![bench]));
        derived.operations.push((turn, vec![on]));

        let on_rough = because(
            "R15",
            told!(
                "the spot is turned on the rough center, before that goes with the face",
                "die Laufstelle wird auf der rohen Zentrierung gedreht, bevor diese mit der Planfläche verschwindet"
            ),
        );
        derived.before.push((c, t, on_rough.clone()));
        derived.needs.push((on, c, on_rough.clone()));
        for (i, (operation, _)) in derived.operations.iter_mut().enumerate().filter(|(_, (o, _))| o.end == Some(end)) {
            if operation.verb == Verb::Face {
                derived.before.push((t, i, on_rough.clone()));
                derived.ends.push((on, i, on_rough.clone()));
                operation.why.push(because("R15", found.at_the_face.clone()));
            } else if operation.is_true_center() {
                operation.why.extend(found.at_the_center.iter().map(|says| because("R15", says.clone())));
            }
        }
        // The same is held, and nothing may have been cut where the rest will run.
        let copied = |list: &[(usize, usize, crate::model::plan::Why)]| -> Vec<_> {
            list.iter().filter(|(m, ..)| *m == model).map(|(_, o, why)| (on, *o, why.clone())).collect()
        };
        let (needs, ends) = (copied(&derived.needs), copied(&derived.ends));
        derived.needs.extend(needs);
        derived.ends.extend(ends);
        let runs = because(
            "R15",
            told!(
                "the rest runs on the spot turned true for it",
                "die Lünette läuft auf der Stelle, die dafür rund gedreht ist"
            ),
        );
        for m in rests {
            derived.mountings[*m].why.retain(|w| w.rule != "R15");
            derived.needs.push((*m, t, runs.clone()));
        }
        // Jaws do not stand half on the spot, half beside it.
        let half = because(
            "feature-in-jaws",
            told!(
                "the bar is held where this cuts, so the holding comes before it",
                "die Stange ist gespannt, wo dieser Schnitt liegt: die Aufspannung kommt vorher"
            ),
        );
        for (m, setup) in derived.mountings.iter().enumerate() {
            let grip = setup.grip.as_ref().filter(|g| g.letter.is_empty() || setup.works != Some(end));
            if let Some((grip, (from, to))) = grip.zip(region)
                && m != on
                && from < grip.to
                && grip.from < to
            {
                derived.ends.push((m, t, half.clone()));
            }
        }
    }
}

/// Whether a mounting sets a steady rest on bar, not on a section.
fn runs_on_bar(setup: &Setup) -> bool {
    setup.rest.as_ref().is_some_and(|r| !r.follows && r.letter.is_empty())
}

/// A spot that no rest of the plan runs on.
fn is_idle(plan: &Plan) -> bool {
    let mut spots = plan.operations().filter(|(_, o)| o.is_spot());
    spots.any(|(_, o)| !plan.setups.iter().filter_map(|s| s.rest.as_ref()).any(|r| o.carries(r)))
}
