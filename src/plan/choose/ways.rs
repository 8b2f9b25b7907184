//! The ways round that the order found hangs on, and the least minutes of each cut.
//!
//! What a cut finds depends on what was cut before it. The largest section is roughed before all others, from the face of either end: from
//! which one decides how far its cuts are fed and what is left there for the others. So each choice is searched by itself, with
//! the least that any order can leave each cut to take: what such a search finds is a bound for every order of that choice, and the order itself
//! where its cuts find no more.

use crate::check::Facts;
use crate::model::plan::{Derived, Operation, Verb};
use crate::model::{End, Part};
use crate::plan::cost::Rates;
use crate::plan::derive::Layout;
use crate::plan::shape::Work;

/// Sections that either end could rough, up to which every choice is searched; operations up to which the least minutes are worked out.
const MOST_FREE: usize = 3;
const MOST_OPS: usize = 150;

/// One choice.
pub(super) struct Way {
    /// The derivation where it is made, with the least minutes of each cut.
    pub(super) derived: Derived,
    /// In words: `C is roughed from the far end`; empty where there is nothing to choose.
    pub(super) says: String,
    /// Whether its minutes are the least of any order.
    pub(super) least: bool,
}

/// Every choice of the ends from which the largest sections are roughed.
pub(super) fn ways(facts: &Facts<'_>, layout: &Layout, derived: &Derived) -> Vec<Way> {
    let free: Vec<usize> = (0..derived.operations.len()).filter(|i| is_free(layout, derived, *i)).collect();
    let many = free.len() > MOST_FREE || derived.operations.len() > MOST_OPS;
    let choices = if free.is_empty() || many { 1 } else { 1_usize << free.len() };
    let after = if derived.operations.len() > MOST_OPS { Vec::new() } else { follow(derived) };
    let mut list = Vec::new();
    for choice in 0..choices {
        let mut way = Way { derived: derived.clone(), says: String::new(), least: !after.is_empty() };
        let mut ends: Vec<Option<End>> = derived.operations.iter().map(|(o, _)| o.end).collect();
        if choices > 1 {
            let mut says = Vec::new();
            for (bit, i) in free.iter().enumerate() {
                let end = if choice >> bit & 1 == 0 { End::Datum } else { End::Far };
                let (operation, allowed) = &mut way.derived.operations[*i];
                allowed.retain(|m| derived.mountings[*m].works == Some(end));
                ends[*i] = Some(end);
                says.push(format!("{} from the {} end", called(facts.part, operation), end.word()));
            }
            way.says = says.join(", ");
        }
        if way
            .derived
            .operations
            .iter()
            .zip(&derived.operations)
            .any(|((_, now), (_, all))| now.is_empty() && !all.is_empty())
        {
            continue;
        }
        if way.least {
            least_minutes(facts, layout, &mut way.derived, &after, &ends);
        }
        list.push(way);
    }
    list
}

/// Roughed from the face of whichever end is at the tailstock, and either may be.
fn is_free(layout: &Layout, derived: &Derived, i: usize) -> bool {
    let (operation, allowed) = &derived.operations[i];
    let summit = operation.feature.and_then(|f| layout.section(f)).is_some_and(|s| s.aim == layout.top());
    let from = |end| allowed.iter().any(|m| derived.mountings[*m].works == Some(end));
    operation.verb == Verb::Rough
        && operation.end.is_none()
        && operation.throw.is_none()
        && !operation.inside
        && summit
        && from(End::Datum)
        && from(End::Far)
}

fn called(part: &Part, operation: &Operation) -> String {
    let letter = operation.feature.and_then(|f| part.features.get(f)).map_or("", |f| f.letter.as_str());
    format!("{} {letter}", operation.verb.word()).trim_end().to_owned()
}

/// For each operation, which must come after it.
pub(super) fn follow(derived: &Derived) -> Vec<Vec<bool>> {
    let n = derived.operations.len();
    let mut next = vec![Vec::new(); n];
    for (a, b, _) in &derived.before {
        next[*a].push(*b);
    }
    (0..n)
        .map(|i| {
            let (mut seen, mut open) = (vec![false; n], vec![i]);
            while let Some(at) = open.pop() {
                for b in &next[at] {
                    if !seen[*b] {
                        seen[*b] = true;
                        open.push(*b);
                    }
                }
            }
            seen
        })
        .collect()
}

/// Gives each cut what it finds when all is done that may be done before it, and the minutes of that: no order has less.
fn least_minutes(facts: &Facts<'_>, layout: &Layout, derived: &mut Derived, after: &[Vec<bool>], ends: &[Option<End>]) {
    let rates = Rates::of(*facts, layout);
    let both = [Some(End::Datum), Some(End::Far)];
    for i in 0..derived.operations.len() {
        let mut work = Work::bar(layout);
        for (j, (done, _)) in derived.operations.iter().enumerate() {
            // A knurl grows what it is rolled on, and is left out.
            if j != i && !after[i][j] && done.verb != Verb::Knurl {
                match ends[j] {
                    Some(end) => work.apply(done, Some(end)),
                    // Reached through from whichever end: all that either could take is gone.
                    None => both.iter().for_each(|end| work.apply(done, *end)),
                }
            }
        }
        let operation = &mut derived.operations[i].0;
        if !operation.inside {
            operation.from_diameter = work.found(operation);
        }
        let travels = both.iter().filter(|e| ends[i].is_none() || ends[i] == **e).map(|e| work.travel(operation, *e));
        operation.travel = travels.flatten().min();
        operation.minutes = rates.minutes(operation);
    }
}
