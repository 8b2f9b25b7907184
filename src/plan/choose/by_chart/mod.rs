//! The tolerance chart judges the chosen plan: where its cuts cannot hold a drawn distance, the cheapest plan that can is searched
//! for among all ways to hold, and the fewest setups that do are proved.

mod branch;
mod misses;

use std::collections::BTreeSet;

use super::{Given, Planned};
use crate::chain::{Chain, Profile};
use crate::model::Plan;
use crate::model::plan::{ChartAnswer, Derived};
use crate::plan::order::{Limits, Minutes};
use crate::plan::rules::because;
use crate::unit::{Length, show};
use crate::{tell, told};
use branch::{Branching, Count, Outcome};
use misses::{Miss, places};

/// Operations beyond which a plan is not planned again for its chart; the chart itself still tells what it does not hold.
const MOST_OPS: usize = 150;
/// Searches again at most so often with the minutes of the order found.
const AGAIN: usize = 3;

/// What was found out about a distance.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Fate {
    /// Some plan holds it.
    Held,
    /// All ways to hold were tried, none does.
    Never,
    /// The search ended before it was settled.
    Open,
}

/// The plan, or the cheapest that holds what this one does not; with words about it.
pub(super) fn answered(
    given: &Given<'_>,
    faces: (&Chain, &Profile),
    whole: Planned,
    limits: &dyn Fn() -> Limits,
) -> Planned {
    let ways = Branching { given, faces, limits };
    let missed = ways.misses(&whole.plan);
    if missed.is_empty() {
        return whole;
    }
    if whole.certificate.order.len() > MOST_OPS {
        let mut whole = whole;
        whole.plan.remarks.push(format!(
            "not planned again for {} distances that its cuts do not hold: more than {MOST_OPS} operations",
            missed.len()
        ));
        return whole;
    }
    let fates: Vec<Fate> = missed.iter().map(|m| fate(&ways, &whole.derived, m)).collect();
    let given_up = |m: &Miss| missed.iter().zip(&fates).any(|(x, fate)| x.is(m) && *fate != Fate::Held);
    let asked = |m: &Miss| !given_up(m);
    let holds_some = fates.contains(&Fate::Held);
    let better = holds_some.then(|| cheapest(&ways, &whole, &missed, &asked)).flatten();
    let (mut plan, least) = better.unwrap_or_else(|| (whole.clone(), false));
    let left = ways.misses(&plan.plan);
    let kept = |m: &Miss| !left.iter().any(|l| l.is(m));
    if missed.iter().any(kept)
        && let Outcome::Least(way) =
            ways.least(&whole.derived, Count::Setups, &|m| asked(m) && !left.iter().any(|l| l.is(m)))
    {
        plan.fewest_setups = Some(way.certificate);
    }
    let told =
        Told { cheapest: &whole, plan: &plan.plan, least, several: missed.iter().filter(|m| kept(m)).count() > 1 };
    let fewest = plan.fewest_setups.as_ref().map(|c| setups_in(c.cost));
    let answers: Vec<ChartAnswer> = missed
        .iter()
        .zip(&fates)
        .map(|(m, fate)| {
            let holds = kept(m);
            let gives = shown(given, m.gives);
            ChartAnswer {
                from: m.from.clone(),
                to: m.to.clone(),
                at: m.at,
                asked: m.wanted.clone(),
                asked_half: m.asked,
                cheapest_gives: m.gives,
                holds,
                more_minutes: plan.plan.cost - whole.plan.cost,
                fewest_setups: fewest.filter(|_| holds),
                says: if holds { told.solved(m, &gives, fewest) } else { told.unsolved(m, &gives, *fate) },
            }
        })
        .collect();
    plan.plan.remarks.extend(answers.iter().filter(|a| a.holds).map(|a| a.says.clone()));
    plan.plan.chart_answers = answers;
    plan
}

fn shown(given: &Given<'_>, l: Length) -> String {
    show::exact(l, given.part.units, show::usual_decimals(given.part.units), 5)
}

/// Whether any plan holds a distance, whatever becomes of the others.
fn fate(ways: &Branching<'_>, root: &Derived, m: &Miss) -> Fate {
    match ways.least(root, Count::Minutes, &|x| x.is(m)) {
        Outcome::Least(_) => Fate::Held,
        Outcome::None => Fate::Never,
        Outcome::Unfinished => Fate::Open,
    }
}

/// The cheapest plan that holds all that is asked, and whether it is proved to be; else the cheapest of those found that miss
/// fewest.
fn cheapest(
    ways: &Branching<'_>,
    whole: &Planned,
    missed: &[Miss],
    asked: &dyn Fn(&Miss) -> bool,
) -> Option<(Planned, bool)> {
    let open = |plan: &Planned| ways.misses(&plan.plan).iter().filter(|m| asked(m)).count();
    let settle = |derived: Derived| {
        let reasoned = with_reasons(&whole.derived, derived, missed);
        ways.given.plan_from(reasoned, (ways.limits)(), None).ok()
    };
    let mut root = whole.derived.clone();
    let mut found = Vec::new();
    // Other orders leave other work to a roughing: what was least by the minutes of one order is searched by those of the next.
    for _ in 0..AGAIN {
        let Outcome::Least(way) = ways.least(&root, Count::Minutes, asked) else { break };
        let Some(plan) = settle(way.derived) else { break };
        if open(&plan) == 0 {
            return Some((plan, true));
        }
        take_minutes(&mut root, &plan.derived);
        found.push(plan);
    }
    for m in missed.iter().filter(|m| asked(m)) {
        if let Outcome::Least(way) = ways.least(&whole.derived, Count::Minutes, &|x| x.is(m)) {
            found.extend(settle(way.derived));
        }
    }
    let rank = |plan: &Planned| open(plan);
    let best = found.into_iter().min_by(|a, b| rank(a).cmp(&rank(b)).then(a.plan.cost.total_cmp(&b.plan.cost)))?;
    (rank(&best) < rank(whole)).then_some((best, false))
}

fn take_minutes(derived: &mut Derived, settled: &Derived) {
    for (o, _) in &mut derived.operations {
        if let Some((known, _)) = settled.operations.iter().find(|(s, _)| s.id == o.id) {
            (o.minutes, o.from_diameter, o.travel) = (known.minutes, known.from_diameter, known.travel);
        }
    }
}

/// An operation whose holding was chosen for a distance says so.
fn with_reasons(drawn: &Derived, mut held: Derived, missed: &[Miss]) -> Derived {
    for m in missed {
        for i in places(&held, m) {
            let fewer = held.operations[i].1.len() < drawn.operations[i].1.len();
            let why = &mut held.operations[i].0.why;
            if fewer && !why.iter().any(|w| w.rule == "chart") {
                why.push(because(
                    "chart",
                    tell!(
                        "cut in this holding, else {} to {} would not hold {}",
                        "in dieser Aufspannung gedreht, sonst hielte {} bis {} nicht {}",
                        face(&m.from),
                        face(&m.to),
                        m.wanted
                    ),
                ));
            }
        }
    }
    held
}

const fn setups_in(cost: Minutes) -> u64 {
    cost.thousandths() / 1000
}

/// What the sentences are told from.
struct Told<'a> {
    cheapest: &'a Planned,
    plan: &'a Plan,
    /// No plan that holds what is asked is cheaper.
    least: bool,
    /// More than one distance is held now.
    several: bool,
}

impl Told<'_> {
    fn solved(&self, m: &Miss, gives: &str, fewest: Option<u64>) -> String {
        let what = if self.several { told!("them all", "sie alle") } else { m.wanted.as_str() };
        let fewest = fewest.map_or(String::new(), |n| {
            tell!(
                "; no plan with fewer than {} setups holds {}",
                "; kein Plan mit weniger als {} Spannlagen hält {}",
                n,
                what
            )
        });
        let least = if self.least { told!(", the least that does", ", der kürzeste, der das tut") } else { "" };
        let (cheapest, more) = (self.cheapest.plan.cost, self.plan.cost - self.cheapest.plan.cost);
        let (from, to) = (face(&m.from), face(&m.to));
        tell!(
            "the cheapest plan, {cheapest:.1} minutes, would hold {from} to {to} only to \u{b1}{gives}: this one costs {more:.1} more and holds it{least}{fewest}",
            "der kürzeste Plan, {cheapest:.1} Minuten, hielte {from} bis {to} nur auf \u{b1}{gives}: dieser kostet {more:.1} mehr und hält es{least}{fewest}"
        )
    }

    fn unsolved(&self, m: &Miss, gives: &str, fate: Fate) -> String {
        let whole = self.cheapest;
        let setups: BTreeSet<u32> =
            whole.plan.operations().filter(|(_, o)| m.cuts.contains(&o.id)).map(|(s, _)| s.number).collect();
        let claim = match fate {
            Fate::Never => told!("no plan of these holdings holds", "kein Plan aus diesen Aufspannungen hält"),
            Fate::Held => {
                told!(
                    "no plan was found that holds, beside the others,",
                    "es fand sich kein Plan, der neben den anderen hält:"
                )
            }
            Fate::Open => told!("no plan was found that holds", "es fand sich kein Plan, der hält:"),
        };
        let why = if setups.len() < 2 && !m.reading {
            told!("its cuts are made in one holding already", "seine Schnitte liegen schon in einer Aufspannung")
        } else if !shared(&whole.derived, m) {
            told!(
                "its faces are cut from both ends, and no holding at hand leaves both free",
                "seine Flächen werden von beiden Enden gedreht, und keine Aufspannung lässt beide frei"
            )
        } else if fate == Fate::Never {
            told!(
                "every way to hold the work for its cuts was tried",
                "jede Art, das Werkstück für seine Schnitte zu spannen, wurde versucht"
            )
        } else {
            told!(
                "not all ways to hold the work for its cuts could be tried",
                "nicht jede Art, das Werkstück für seine Schnitte zu spannen, konnte versucht werden"
            )
        };
        let (from, to, wanted) = (face(&m.from), face(&m.to), &m.wanted);
        tell!(
            "{claim} {from} to {to}, asked {wanted}: {why}, and with the cuts as close as `can hold` says it comes out to \u{b1}{gives}",
            "{claim} {from} bis {to}, verlangt {wanted}: {why}, und mit Schnitten so genau, wie `can hold` sagt, wird es auf \u{b1}{gives} genau"
        )
    }
}

/// A face of the chain as a sentence calls it.
fn face(name: &str) -> &str {
    match name {
        "datum face" => told!("datum face", "Bezugsfläche"),
        "far face" => told!("far face", "Gegenfläche"),
        other => other,
    }
}

/// Whether one holding leaves two cuts of a distance free.
fn shared(derived: &Derived, m: &Miss) -> bool {
    let reaches = |a: usize, b: usize| derived.operations[a].1.iter().any(|x| derived.operations[b].1.contains(x));
    places(derived, m).windows(2).any(|pair| reaches(pair[0], pair[1]))
}
