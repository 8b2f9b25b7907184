//! Mountings in which the work gives way too far: taken away where another of the same derivation holds it, and the order searched again.

use super::stiffness::{called, is_long};
use super::{Given, Planned};
use crate::check::Facts;
use crate::check::holding::deflection::{Give, give};
use crate::check::holding::follow;
use crate::model::Plan;
use crate::model::part::Holding;
use crate::model::plan::{Derived, Operation, Setup, TooSoft, Verb, Why};
use crate::plan::derive::on_centers;
use crate::plan::holding::{Lengths, draw_in};
use crate::plan::order::Limits;
use crate::plan::rules::because;
use crate::{tell, told};

/// Searches again at most so often: each time at least one mounting of an operation is taken away.
const ROUNDS: usize = 4;
/// Operations beyond which a part is not planned again for it; the check `deflection` tells what gives way.
const MOST_OPS: usize = 150;

impl Given<'_> {
    /// The plan, or the cheapest one in which less gives way by more than its band.
    ///
    /// What is taken away is what is too soft as the work is at that step of the order found; another order might have left it stouter
    /// there, and is not looked for. The problem of the certificate is the one without it: what is proven is that no order of those
    /// mountings that are left costs less. Where nothing stiffer is at hand, or no order keeps the rules without it, the plan stays.
    pub(super) fn held_stiffly(&self, planned: Planned, limits: Limits) -> Planned {
        let mut best = planned;
        for _ in 0..ROUNDS {
            let soft = too_soft(&self.facts, &best.plan).len();
            let many = best.certificate.order.len() > MOST_OPS;
            if many || !best.certificate.proven_optimal {
                break;
            }
            let Some(stiffer) = self.without_the_soft(&best) else { break };
            let Ok(next) = self.plan_from(stiffer, limits, None) else { break };
            let left = too_soft(&self.facts, &next.plan).len();
            let dearer = left == soft && next.plan.cost > best.plan.cost + 1e-9;
            let worse = next.plan.given_way.len() > best.plan.given_way.len() || !next.certificate.proven_optimal;
            if worse || left > soft || dearer {
                break;
            }
            best = next;
        }
        best
    }

    /// The derivation of a plan without the mountings in which its operations give way by more than their bands and need not; none
    /// where there are none.
    fn without_the_soft(&self, planned: &Planned) -> Option<Derived> {
        let mut derived = planned.derived.clone();
        let before = derived.too_soft.len();
        for (setup, operation, found) in too_soft(&self.facts, &planned.plan) {
            let Some(i) = derived.operations.iter().position(|(o, _)| o.id == operation.id) else { continue };
            let usual = at_usual_depth(operation);
            let here = derived.mountings.iter().position(|m| m.name == setup.name);
            let gives: Vec<(usize, Option<f64>, Give)> = derived.operations[i]
                .1
                .iter()
                .map(|m| {
                    let other = self.held_in(&derived.mountings[*m], setup);
                    let give = give(&self.facts, &planned.plan.setups, &other, &usual);
                    let carried = follow::on_center(&other) && is_long(&self.facts, operation);
                    match give {
                        _ if here == Some(*m) => (*m, Some(found.share()), found),
                        Some(_) if carried => (*m, Some(0.0), found),
                        Some(give) => (*m, Some(give.share()), give),
                        None => (*m, None, found),
                    }
                })
                .collect();
            let least = gives.iter().filter_map(|(_, share, _)| *share).fold(f64::INFINITY, f64::min);
            // One that holds it to its band, or at least halves what it gives way by.
            let most = if least <= 1.0 { 1.0 } else { found.share() / 2.0 };
            if least > most {
                continue;
            }
            for (m, _, give) in gives.into_iter().filter(|(_, share, _)| share.is_some_and(|s| s > most)) {
                derived.operations[i].1.retain(|x| *x != m);
                derived.too_soft.push(of(operation, &derived.mountings[m], give));
            }
        }
        self.left_for_it(planned, &mut derived);
        (derived.too_soft.len() > before).then_some(derived)
    }

    /// What gives way by more than the limit share of its band and by no more than the whole of it, where another holding at hand would keep it
    /// under that share.
    ///
    /// No mounting is taken away for it: at up to the whole band K C is at most the band over twice the depth, some .4 at the usual ones, so
    /// the first pass without infeed leaves less than a third of it and the fourth less than a hundredth; lighter last cuts come first. Another
    /// holding costs more than those passes, which the minutes count. The hand is told, and may ask for it.
    pub(super) fn told_between(&self, planned: &Planned) -> Vec<String> {
        let limit = self.facts.limit_number("deflection", "share");
        // The plan may come from a derivation without the center that another has.
        let centers = || on_centers(self.part, self.facts.chain, self.layout, self.shop);
        let (mut carried, mut list) = (None, Vec::new());
        for (setup, operation) in planned.plan.operations().filter(|(_, o)| o.verb != Verb::Thread && !o.followed) {
            let usual = at_usual_depth(operation);
            let here = give(&self.facts, &planned.plan.setups, setup, &usual);
            if !here.is_some_and(|g| g.share() > limit && g.share() <= 1.0) {
                continue;
            }
            let at_hand = [Some(&planned.derived), carried.get_or_insert_with(centers).as_ref()];
            let others = at_hand.into_iter().flatten().flat_map(|d| {
                let of = d.operations.iter().find(|(o, _)| o.id == operation.id);
                of.into_iter().flat_map(|(_, allowed)| allowed.iter().map(|m| &d.mountings[*m]))
            });
            let stiffer = others.filter(|m| m.name != setup.name && m.holding != setup.holding).find(|m| {
                let there = give(&self.facts, &planned.plan.setups, &self.held_in(m, setup), &usual);
                there.is_some_and(|g| g.share() <= limit)
            });
            let (Some(other), Some(feature)) = (stiffer, operation.feature) else { continue };
            let letter = called(&self.facts, feature);
            let held = there(other.holding);
            list.push(tell!(
                "{letter} gives way under its last cut by more than the limit `share` of its band; {held} it would not. Lighter cuts and passes without infeed, as told there, take less time than that; `holding:` asks for it",
                "{letter} weicht beim letzten Schnitt um mehr als den Grenzwert `share` der Toleranz aus; {held} nicht. Leichtere Schnitte und Züge ohne Zustellung, wie dort angegeben, dauern weniger lang; `holding:` verlangt es"
            ));
        }
        list
    }

    /// Takes away what the search left by itself, since cuts so eased cost more minutes than what holds the work.
    fn left_for_it(&self, planned: &Planned, derived: &mut Derived) {
        let soft = |setup: &Setup, operation: &Operation| {
            give(&self.facts, &planned.plan.setups, setup, operation).filter(|g| g.share() > 1.0)
        };
        for eased in &planned.derived.eased {
            let Some((setup, operation)) = planned.plan.operations().find(|(_, o)| o.id == eased.operation) else {
                continue;
            };
            let Some(m) = derived.mountings.iter().position(|m| m.name == eased.mounting) else { continue };
            let Some((_, allowed)) = derived.operations.iter_mut().find(|(o, _)| o.id == eased.operation) else {
                continue;
            };
            if setup.name == eased.mounting || operation.verb == Verb::Thread || !allowed.contains(&m) {
                continue;
            }
            let usual = at_usual_depth(operation);
            let other = self.held_in(&derived.mountings[m], setup);
            if let (None, Some(give)) = (soft(setup, &usual), soft(&other, &usual)) {
                allowed.retain(|x| *x != m);
                derived.too_soft.push(of(operation, &derived.mountings[m], give));
            }
        }
    }

    /// The work of a setup in another mounting.
    fn held_in(&self, mounting: &Setup, setup: &Setup) -> Setup {
        let mut other = mounting.clone();
        other.before.clone_from(&setup.before);
        other.operations.clone_from(&setup.operations);
        other.rest = other.rest.filter(|r| !r.follows);
        if self.layout.parted.is_none() {
            draw_in(self.layout, &Lengths::of(self.layout, self.shop), &mut other);
        }
        other
    }
}

/// Last cuts of a plan that give way by more than the band of their size. A thread is cut without infeed until it reads right.
pub(super) fn too_soft<'a>(facts: &Facts<'_>, plan: &'a Plan) -> Vec<(&'a Setup, &'a Operation, Give)> {
    let last = plan.operations().filter(|(_, o)| o.verb != Verb::Thread);
    let gives = last.filter_map(|(s, o)| Some((s, o, give(facts, &plan.setups, s, &at_usual_depth(o))?)));
    gives.filter(|(_, _, give)| give.share() > 1.0).collect()
}

/// A center is taken rather than lighter cuts.
fn at_usual_depth(operation: &Operation) -> Operation {
    Operation { lighter: None, ..operation.clone() }
}

/// The same, as a derivation that holds the work otherwise tells it.
pub(super) fn told(facts: &Facts<'_>, plan: &Plan) -> Vec<TooSoft> {
    too_soft(facts, plan).into_iter().map(|(setup, operation, give)| of(operation, setup, give)).collect()
}

fn of(operation: &Operation, mounting: &Setup, give: Give) -> TooSoft {
    TooSoft {
        operation: operation.id.clone(),
        mounting: mounting.name.clone(),
        holding: mounting.holding,
        gives: give.error,
        band: give.band,
    }
}

/// Held so.
fn there(holding: Holding) -> &'static str {
    match holding {
        Holding::Chuck => told!("in the chuck alone", "nur im Futter"),
        Holding::ChuckAndCenter => told!("in chuck and center", "in Futter und Spitze"),
        Holding::ChuckAndRest => told!("in chuck and steady rest", "in Futter und Lünette"),
        _ => told!("held otherwise", "anders gehalten"),
    }
}

/// Why a setup holds as it does, where one of its operations would have given way elsewhere: the one that would have most.
pub(super) fn hence(facts: &Facts<'_>, derived: &Derived, setup: &Setup) -> Option<Why> {
    let here = |s: &&TooSoft| s.mounting != setup.name && setup.operations.iter().any(|o| o.id == s.operation);
    let share = |s: &TooSoft| s.gives.mm() / s.band.mm();
    let worst = derived.too_soft.iter().filter(here).max_by(|a, b| share(a).total_cmp(&share(b)))?;
    let feature = setup.operations.iter().find(|o| o.id == worst.operation)?.feature?;
    let letter = called(facts, feature);
    let (gives, times) = (facts.show(worst.gives), share(worst));
    let there = match worst.holding {
        Holding::Chuck if setup.holding == Holding::Chuck => told!("held elsewhere in the chuck", "anders im Futter"),
        other => there(other),
    };
    let hence = match setup.holding {
        Holding::ChuckAndCenter => told!("hence the center", "daher die Spitze"),
        Holding::BetweenCenters => told!("hence between centers", "daher zwischen Spitzen"),
        Holding::ChuckAndRest => told!("hence the steady rest", "daher die Lünette"),
        _ => told!("hence held here", "daher hier gehalten"),
    };
    Some(because(
        "deflection",
        tell!(
            "{there} {letter} would give way by about {gives} under its last cut, {times:.1} times its band: {hence}",
            "{there} würde {letter} beim letzten Schnitt um etwa {gives} ausweichen, das {times:.1}-fache der Toleranz: {hence}"
        ),
    ))
}
