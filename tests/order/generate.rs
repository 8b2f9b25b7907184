//! Random problems with every kind of rule and cost.

use std::collections::BTreeMap;

use turnwright::plan::order::{Cost, Minutes, Op, Problem, Setup};

/// A small generator of pseudo-random numbers (splitmix64, Steele, Lea and Flood 2014; constants from memory).
pub(crate) struct Dice(pub(crate) u64);

impl Dice {
    pub(crate) fn roll(&mut self, sides: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) % sides as u64) as usize
    }

    fn one_in(&mut self, n: usize) -> bool {
        self.roll(n) == 0
    }

    fn minutes(&mut self, most: usize) -> Minutes {
        let fine = if self.one_in(3) { 250 } else { 1000 };
        Minutes::from_thousandths((1 + self.roll(most)) as u64 * fine)
    }

    pub(crate) fn pair(&mut self, ops: usize) -> (String, String) {
        let (a, b) = (self.roll(ops), self.roll(ops));
        // Mostly forward, so that rules seldom contradict each other.
        let (a, b) = if a > b && !self.one_in(20) { (b, a) } else { (a, b) };
        (op_name(a), op_name(b))
    }
}

fn op_name(i: usize) -> String {
    format!("o{i}")
}

fn setup_name(i: usize) -> String {
    format!("S{i}")
}

/// A random problem of 1 to `most` operations with every kind of rule and cost now and then.
pub(crate) fn random_problem(seed: u64, most: usize) -> Problem {
    let d = &mut Dice(seed);
    let n = 1 + d.roll(most);
    let setups = 1 + d.roll(3);
    let tools = 1 + d.roll(3);
    let mut ops = Vec::new();
    for i in 0..n {
        let mut allowed = vec![setup_name(d.roll(setups))];
        let other = setup_name(d.roll(setups));
        if d.one_in(2) && !allowed.contains(&other) {
            allowed.push(other);
        }
        let cost = if d.one_in(3) {
            Cost::Each(allowed.iter().map(|s| (s.clone(), d.minutes(3))).collect())
        } else {
            Cost::Same(d.minutes(5))
        };
        let (verb, feature, end) = ("turn".to_owned(), format!("f{i}"), d.one_in(2).then(|| "datum".to_owned()));
        ops.push(Op { id: op_name(i), setups: allowed, tool: format!("T{}", d.roll(tools)), cost, verb, feature, end });
    }
    let mut problem = Problem {
        ops,
        setups: (0..setups)
            .map(|i| Setup { name: setup_name(i), holding: "chuck".into(), datum_end: "headstock".into() })
            .collect(),
        setup_change: Cost::Same(d.minutes(9)),
        setup_first: Cost::Same(d.minutes(9)),
        tool_change: if d.one_in(6) { Minutes::ZERO } else { d.minutes(4) },
        tool_first: d.minutes(2),
        tool_kept_over_setup: !d.one_in(3),
        ..Problem::default()
    };
    if d.one_in(3) {
        let mut table = BTreeMap::from([("*".to_owned(), d.minutes(9))]);
        for _ in 0..d.roll(4) {
            let (from, to) = (d.roll(setups), d.roll(setups));
            table.insert(format!("S{from}>S{to}"), d.minutes(12));
        }
        problem.setup_change = Cost::Each(table);
        problem.setup_first = Cost::Each((0..setups).map(|s| (setup_name(s), d.minutes(6))).collect());
    }
    let dense = 1 + d.roll(3);
    problem.precedences = (0..d.roll(dense * n)).map(|_| d.pair(n)).filter(|(a, b)| a != b).collect();
    if d.one_in(3) {
        problem.adjacent = (0..=d.roll(2)).map(|_| d.pair(n)).filter(|(a, b)| a != b).collect();
    }
    if d.one_in(3) {
        problem.same_setup = (0..=d.roll(2)).map(|_| d.pair(n)).collect();
    }
    for table in [&mut problem.setup_needs, &mut problem.setup_ends] {
        if d.one_in(3) {
            for _ in 0..=d.roll(2) {
                table.entry(setup_name(d.roll(setups))).or_default().push(op_name(d.roll(n)));
            }
        }
    }
    // Rolled last, so that the problems of old seeds stay what they were but for this.
    if d.one_in(2) {
        for _ in 0..=d.roll(4) {
            // The one that waits is mostly the later one, in a setup that it may be done in, at times in any.
            let (first, waiting) = d.pair(n);
            let own = problem.ops.iter().find(|op| op.id == waiting).map_or(&[][..], |op| &op.setups);
            let setup = if d.one_in(4) { setup_name(d.roll(setups)) } else { own[d.roll(own.len())].clone() };
            problem.setup_gates.entry(setup).or_default().push((waiting, first));
        }
    }
    problem
}
