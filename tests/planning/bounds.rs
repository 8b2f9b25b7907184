//! What the plan says would break if an operation were moved: just before the operation it must follow, exactly the rule that is told breaks; just
//! behind it, none does; and the same at the other end. Held against the certificate's precedences and the rules it names for them.

use std::collections::BTreeSet;
use std::path::Path;

use turnwright::plan::order::Certificate;
use turnwright::plan::{Planned, bounds};

use crate::planning::believable::judged;
use crate::planning::generated::{Generated, small};
use crate::planning::generated_wide::wide;
use crate::planning::parts;

/// Pairs of the certificate that an order does not keep; those that count in one mounting alone where the plan does them there.
fn broken<'a>(c: &'a Certificate, order: &[&str]) -> BTreeSet<(&'a str, &'a str)> {
    let at = |id: &str| order.iter().position(|o| *o == id).expect("listed");
    let pairs = c.problem.precedences.iter().map(|(a, b)| (a.as_str(), b.as_str()));
    let gates =
        c.problem.setup_gates.iter().flat_map(|(s, gates)| gates.iter().map(move |(waits, first)| (s, waits, first)));
    let there = gates.filter(|(s, waits, _)| c.order.iter().any(|(id, setup)| id == *waits && setup == *s));
    let there = there.map(|(_, waits, first)| (first.as_str(), waits.as_str()));
    pairs.chain(there).filter(|(a, b)| at(a) > at(b)).collect()
}

/// The order with one operation put where another stands now: before it, or just behind it.
fn moved<'a>(order: &[&'a str], id: &'a str, other: &str, behind: bool) -> Vec<&'a str> {
    let mut list: Vec<&str> = order.iter().copied().filter(|o| *o != id).collect();
    let at = list.iter().position(|o| *o == other).expect("listed");
    list.insert(at + usize::from(behind), id);
    list
}

/// Whether a rule is one of those that put the first before the second.
fn is_a_reason(p: &Planned, first: &str, then: &str, rule: &str) -> bool {
    let id = |i: usize| p.derived.operations[i].0.id.as_str();
    let gates = p.derived.gates.iter().map(|(_, b, a, why)| (a, b, why));
    let pairs = p.derived.before.iter().map(|(a, b, why)| (a, b, why)).chain(gates);
    pairs.into_iter().any(|(a, b, why)| id(*a) == first && id(*b) == then && why.rule == rule)
}

/// Moves each operation of a plan to either side of its bounds; how many were moved.
fn moves(name: &str, p: &Planned) -> (usize, usize) {
    let order: Vec<&str> = p.plan.operations().map(|(_, o)| o.id.as_str()).collect();
    let numbered =
        |n: u32| p.plan.operations().find(|(_, o)| o.number == n).map(|(_, o)| o.id.as_str()).expect("numbered");
    assert_eq!(broken(&p.certificate, &order), BTreeSet::new(), "{name}");
    let (mut earlier, mut later) = (0, 0);
    for (id, bound) in bounds(&p.derived, &p.plan) {
        if let Some((number, why)) = &bound.not_before {
            let first = numbered(*number);
            assert!(is_a_reason(p, first, &id, why.rule), "{name}: {id} behind {first}: {}", why.rule);
            let off = moved(&order, &id, first, false);
            assert_eq!(
                broken(&p.certificate, &off),
                BTreeSet::from([(first, id.as_str())]),
                "{name}: {id} before {first}"
            );
            assert_eq!(
                broken(&p.certificate, &moved(&order, &id, first, true)),
                BTreeSet::new(),
                "{name}: {id} behind {first}"
            );
            earlier += 1;
        }
        if let Some((number, why)) = &bound.not_after {
            let then = numbered(*number);
            assert!(is_a_reason(p, &id, then, why.rule), "{name}: {id} ahead of {then}: {}", why.rule);
            let off = moved(&order, &id, then, true);
            assert_eq!(
                broken(&p.certificate, &off),
                BTreeSet::from([(id.as_str(), then)]),
                "{name}: {id} behind {then}"
            );
            assert_eq!(
                broken(&p.certificate, &moved(&order, &id, then, false)),
                BTreeSet::new(),
                "{name}: {id} before {then}"
            );
            later += 1;
        }
    }
    (earlier, later)
}

fn of_generated(name: &str, g: &Generated) -> (usize, usize) {
    let shop = parts::shop_for(&g.text);
    // A knurled button with nothing to hold it by is refused.
    judged(&g.text, g.with_shop.then_some(&shop)).map_or((0, 0), |(p, _)| moves(name, &p))
}

#[test]
fn what_would_break_is_what_is_told() {
    let (mut earlier, mut later, mut parts_moved) = (0, 0, 0);
    let mut add = |(a, b): (usize, usize)| {
        earlier += a;
        later += b;
        parts_moved += usize::from(a > 0);
    };
    for seed in 0..30 {
        add(of_generated(&format!("shaft {seed}"), &small(seed)));
        add(of_generated(&format!("wide {seed}"), &wide(seed, 3)));
    }
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples");
    for entry in std::fs::read_dir(folder).expect("samples") {
        let text = std::fs::read_to_string(entry.expect("an entry").path()).unwrap_or_default();
        if text.lines().any(|l| l.starts_with("part:")) {
            let (p, _) = judged(&text, None).unwrap_or_else(|e| panic!("{e:?}"));
            add(moves(&p.plan.setups[0].name.clone(), &p));
        }
    }
    assert!(parts_moved >= 64 && earlier > 800 && later > 800, "{parts_moved} parts, {earlier}, {later}");
}
