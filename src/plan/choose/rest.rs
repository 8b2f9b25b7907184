//! The rest of a plan, once some of its operations are done: they are left out, the others keep their numbers, and the order
//! of the rest is searched again from the mounting the work is in.

use std::collections::{BTreeMap, BTreeSet};

use crate::model::plan::{Derived, Operation, Setup};
use crate::model::{End, Part};

use super::Planned;
use super::replan::Readings;
use crate::chain::Chain;
use crate::tell;
use crate::unit::{Length, Station};

/// What is known of the work when the rest is planned.
#[derive(Debug, Clone, Default)]
pub(super) struct Begun {
    /// Number of each operation in the plan of the whole.
    pub(super) numbers: BTreeMap<String, u32>,
    /// Operations done, in the order of their numbers, with the end that was at the tailstock.
    pub(super) done: Vec<(Operation, Option<End>)>,
    /// Operations done once and done again, what to say of each.
    pub(super) again: Vec<(Operation, Option<End>, String)>,
    /// Diameters measured on what is still to be cut.
    pub(super) diameters: Vec<(usize, Length)>,
    /// Diameters measured on what is done and stays.
    pub(super) stand: Vec<(usize, Length)>,
    /// The mounting the work is in, and its number in the plan of the whole.
    pub(super) mounted: Option<(String, u32)>,
    /// What the person should know.
    pub(super) remarks: Vec<String>,
}

/// Rules that count for what is done again though it comes late.
const STILL_COUNTS: [&str; 5] = ["order-polish-keyseat", "R12", "R9", "order-turn-keyseat", "order-center-lost"];

/// What the description says is done, found in the plan of the whole.
pub(super) fn begun(part: &Part, whole: &Planned, readings: &Readings) -> Begun {
    let listed: Vec<(&Setup, &Operation)> = whole.plan.operations().collect();
    let numbers = listed.iter().map(|(_, o)| (o.id.clone(), o.number)).collect();
    let wanted: BTreeSet<u32> = part.done.iter().map(|d| d.number).collect();
    let done: Vec<&(&Setup, &Operation)> = listed.iter().filter(|(_, o)| wanted.contains(&o.number)).collect();
    let mut remarks = Vec::new();
    for number in wanted.iter().filter(|n| !listed.iter().any(|(_, o)| o.number == **n)) {
        remarks
            .push(tell!("done: {number} is no operation of the plan", "done: {number} ist kein Arbeitsgang des Plans"));
    }
    let mounted = done.last().map(|(s, _)| (s.name.clone(), s.number));
    let again = |o: &Operation| readings.again.get(&o.number).cloned();
    let recut = done.iter().filter_map(|(s, o)| Some(((*o).clone(), s.works, again(o)?))).collect();
    let done = done.iter().filter(|(_, o)| again(o).is_none()).map(|(s, o)| ((*o).clone(), s.works)).collect();
    Begun {
        numbers,
        done,
        again: recut,
        diameters: readings.diameters.clone(),
        stand: readings.stand.clone(),
        mounted,
        remarks,
    }
}

/// The derivation of what is left. What can no longer be kept, because it was done otherwise, becomes a remark.
pub(super) fn left(whole: &Planned, begun: &mut Begun) -> Derived {
    let derived = &whole.derived;
    let is_done: Vec<bool> =
        derived.operations.iter().map(|(o, _)| begun.done.iter().any(|(d, _)| d.id == o.id)).collect();
    let mut places = vec![None; is_done.len()];
    for (new, old) in (0..is_done.len()).filter(|i| !is_done[*i]).enumerate() {
        places[old] = Some(new);
    }
    let number = |i: usize| begun.numbers.get(&derived.operations[i].0.id).copied().unwrap_or(0);
    let recut = |i: usize| begun.again.iter().any(|(o, ..)| o.id == derived.operations[i].0.id);
    let mut remarks = Vec::new();
    let mut before = Vec::new();
    for (a, b, why) in &derived.before {
        match (places[*a], places[*b]) {
            (Some(x), Some(y)) => before.push((x, y, why.clone())),
            // What is done again cannot come before all that it came before: what matters then is a slot, a thread, a hole.
            (Some(_), None) if recut(*a) && !STILL_COUNTS.contains(&why.rule) => {}
            (Some(_), None) => remarks.push(tell!(
                "operation {} is done before {}, against {}: {}",
                "Arbeitsgang {} ist vor {} getan, gegen {}: {}",
                number(*b),
                number(*a),
                why.rule,
                why.reason
            )),
            _ => {}
        }
    }
    let mounted = begun.mounted.as_ref().and_then(|(name, _)| derived.mountings.iter().position(|m| m.name == *name));
    let over: BTreeSet<usize> =
        derived.ends.iter().filter(|(m, o, _)| is_done[*o] && Some(*m) != mounted).map(|(m, ..)| *m).collect();
    let mut operations: Vec<(Operation, Vec<usize>)> = Vec::new();
    for (i, (operation, allowed)) in derived.operations.iter().enumerate().filter(|(i, _)| !is_done[*i]) {
        let mut still: Vec<usize> = allowed.iter().copied().filter(|m| !over.contains(m)).collect();
        if still.is_empty() {
            remarks.push(tell!(
                "operation {} has lost the surface it was to be held on: hold it with care",
                "Arbeitsgang {} hat die Fläche verloren, an der gespannt werden sollte: vorsichtig spannen",
                number(i)
            ));
            still.clone_from(allowed);
        }
        let again = begun.again.iter().find(|(o, ..)| o.id == operation.id).map(|(.., says)| says.clone());
        operations.push((Operation { again, ..operation.clone() }, still));
    }
    let mut together = Vec::new();
    for (a, b, why) in &derived.together {
        let (done, left) = match (places[*a], places[*b]) {
            (Some(x), Some(y)) => {
                together.push((x, y, why.clone()));
                continue;
            }
            (None, Some(y)) => (*a, y),
            (Some(x), None) => (*b, x),
            (None, None) => continue,
        };
        // What is not yet cut cannot have been held: then it was done in some other holding.
        let was_there = |m: usize| derived.needs.iter().all(|(x, o, _)| *x != m || is_done[*o]);
        let there =
            mounted.filter(|m| operations[left].1.contains(m) && was_in(whole, done) == Some(*m) && was_there(*m));
        match there {
            Some(m) => operations[left].1 = vec![m],
            None => remarks.push(tell!(
                "operation {} is done in another holding, against {}: {}",
                "Arbeitsgang {} ist in einer anderen Aufspannung getan, gegen {}: {}",
                number(done),
                why.rule,
                why.reason
            )),
        }
    }
    remarks.sort();
    remarks.dedup();
    begun.remarks.extend(remarks);
    let kept = |list: &[(usize, usize, crate::model::plan::Why)]| {
        list.iter().filter_map(|(m, o, w)| Some((*m, places[*o]?, w.clone()))).collect()
    };
    let gates = derived.gates.iter().filter_map(|(m, a, b, w)| Some((*m, places[*a]?, places[*b]?, w.clone())));
    Derived {
        operations,
        before,
        together,
        needs: kept(&derived.needs),
        ends: kept(&derived.ends),
        gates: gates.collect(),
        ..derived.clone()
    }
}

/// The mounting in which the plan of the whole does an operation.
fn was_in(whole: &Planned, operation: usize) -> Option<usize> {
    let id = &whole.derived.operations.get(operation)?.0.id;
    let name = &whole.plan.operations().find(|(_, o)| o.id == *id)?.0.name;
    whole.derived.mountings.iter().position(|m| m.name == *name)
}

/// Puts the operations where the faces are now: each stop by its place in the drawing. What is counted from a face, a rough stop
/// or the leg of a chamfer, goes with the face of its operation.
pub(super) fn move_stops(derived: &mut Derived, drawn: &Chain, moved: &[(Station, Station)]) {
    let by = |at: Station| moved.iter().find(|(was, _)| *was == at).map_or(Length::ZERO, |(was, now)| *now - *was);
    let is_face = |at: &Station| drawn.at.contains(&Some(*at));
    for (operation, _) in &mut derived.operations {
        let own = [operation.face, operation.from, operation.to].into_iter().flatten().find(is_face);
        let with = own.map_or(Length::ZERO, by);
        // A rough stop stands proud of the face it is for.
        let proud = operation.face.is_some() && operation.to != operation.face;
        let go = |at: Station, counted: bool| at + if is_face(&at) && !counted { by(at) } else { with };
        operation.from = operation.from.map(|at| go(at, false));
        operation.to = operation.to.map(|at| go(at, proud));
        operation.face = operation.face.map(|at| go(at, false));
    }
}
