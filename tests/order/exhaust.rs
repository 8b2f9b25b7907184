//! Every order of a small problem, tried one by one.

use std::collections::BTreeMap;

use turnwright::plan::order::{Cost, Problem};

/// An order by names.
type Order = Vec<(String, String)>;

/// Least cost, number of orders that have it, and the first of them, by trying everything in the listed order; none when
/// there is no order.
pub(crate) fn exhaust(problem: &Problem) -> Option<(u64, u128, Order)> {
    let mut tried = Exhaustion::new(problem);
    tried.go(0);
    tried.best
}

/// The same where nothing dearer than `most` is followed, and not more than so many steps are taken; `Err` where they did not
/// do. What is still to be done costs at least its own cutting: that alone tells a branch that cannot come under `most`.
pub(crate) fn exhaust_within(problem: &Problem, most: u64, steps: u64) -> Result<Option<(u64, u128)>, ()> {
    let mut tried = Exhaustion { most, steps, ..Exhaustion::new(problem) };
    tried.go(0);
    if tried.steps == 0 { Err(()) } else { Ok(tried.best.map(|(cost, count, _)| (cost, count))) }
}

/// Told the operations done so far with their setups, and what they cost: whether to go on.
type GoOn<'a> = dyn FnMut(&[(usize, String)], u64) -> bool + 'a;

/// Shows every beginning of an order that costs no more than `most` minutes to `go_on`, which tells whether to follow it further;
/// whole orders among them. `Err` where so many steps did not do.
pub(crate) fn each_within(problem: &Problem, most: u64, steps: u64, go_on: &mut GoOn<'_>) -> Result<(), ()> {
    let mut tried = Exhaustion { most, steps, ..Exhaustion::new(problem) };
    tried.show(0, go_on);
    if tried.steps == 0 { Err(()) } else { Ok(()) }
}

pub(crate) struct Exhaustion<'a> {
    problem: &'a Problem,
    pub(crate) done: Vec<(usize, String)>,
    best: Option<(u64, u128, Order)>,
    most: u64,
    steps: u64,
}

impl<'a> Exhaustion<'a> {
    pub(crate) fn new(problem: &'a Problem) -> Self {
        Self { problem, done: Vec::new(), best: None, most: u64::MAX, steps: u64::MAX }
    }

    fn go(&mut self, cost: u64) {
        self.steps = self.steps.saturating_sub(1);
        if self.steps == 0 || (self.most < u64::MAX && cost + self.cutting_left() > self.most) {
            return;
        }
        if self.done.len() == self.problem.ops.len() {
            match &mut self.best {
                Some((least, count, _)) if *least == cost => *count += 1,
                Some((least, ..)) if *least < cost => {}
                best => {
                    let named = self.done.iter().map(|(i, s)| (self.problem.ops[*i].id.clone(), s.clone()));
                    *best = Some((cost, 1, named.collect()));
                }
            }
            return;
        }
        for i in 0..self.problem.ops.len() {
            for setup in self.problem.ops[i].setups.clone() {
                if self.may(i, &setup) {
                    let more = self.price(i, &setup);
                    self.done.push((i, setup));
                    self.go(cost + more);
                    self.done.pop();
                }
            }
        }
    }

    fn show(&mut self, cost: u64, go_on: &mut GoOn<'_>) {
        self.steps = self.steps.saturating_sub(1);
        if self.steps == 0 || cost + self.cutting_left() > self.most || !go_on(&self.done, cost) {
            return;
        }
        for i in 0..self.problem.ops.len() {
            for setup in self.problem.ops[i].setups.clone() {
                if self.may(i, &setup) {
                    let more = self.price(i, &setup);
                    self.done.push((i, setup));
                    self.show(cost + more, go_on);
                    self.done.pop();
                }
            }
        }
    }

    fn cutting_left(&self) -> u64 {
        let least = |cost: &Cost| match cost {
            Cost::Same(time) => time.thousandths(),
            Cost::Each(table) => table.values().map(|t| t.thousandths()).min().unwrap_or(0),
        };
        let open = self.problem.ops.iter().filter(|op| !self.is_done(&op.id));
        open.map(|op| least(&op.cost)).sum()
    }

    fn is_done(&self, id: &str) -> bool {
        self.done.iter().any(|(j, _)| self.problem.ops[*j].id == id)
    }

    pub(crate) fn may(&self, i: usize, setup: &str) -> bool {
        let p = self.problem;
        let id = &p.ops[i].id;
        let last = self.done.last().map(|(j, s)| (p.ops[*j].id.as_str(), s.as_str()));
        let listed = |table: &BTreeMap<String, Vec<String>>| table.get(setup).cloned().unwrap_or_default();
        let moves = last.is_some_and(|(_, from)| from != setup);
        !self.is_done(id)
            && p.precedences.iter().all(|(a, b)| b != id || self.is_done(a))
            && p.adjacent.iter().all(|(a, b)| {
                let follows = last == Some((a.as_str(), setup));
                (b != id || follows) && (b == id || last.is_none_or(|(l, _)| l != a))
            })
            && listed(&p.setup_needs).iter().all(|x| self.is_done(x))
            && !listed(&p.setup_ends).iter().any(|x| self.is_done(x))
            && p.setup_gates.get(setup).is_none_or(|gates| gates.iter().all(|(a, b)| a != id || self.is_done(b)))
            && !(moves && p.same_setup.iter().any(|(a, b)| self.is_done(a) != self.is_done(b)))
    }

    pub(crate) fn price(&self, i: usize, setup: &str) -> u64 {
        let p = self.problem;
        let look = |cost: &Cost, key: &str| match cost {
            Cost::Same(time) => time.thousandths(),
            Cost::Each(table) => table.get(key).unwrap_or_else(|| &table["*"]).thousandths(),
        };
        let own = look(&p.ops[i].cost, setup);
        let Some((j, from)) = self.done.last() else {
            return own + look(&p.setup_first, setup) + p.tool_first.thousandths();
        };
        let change = if from == setup { 0 } else { look(&p.setup_change, &format!("{from}>{setup}")) };
        let swap = p.ops[*j].tool != p.ops[i].tool || (from != setup && !p.tool_kept_over_setup);
        own + change + if swap { p.tool_change.thousandths() } else { 0 }
    }
}
