//! Two hundred generated parts: what the plan says is the best order is so by two other means, a plain enumeration for the
//! small ones and the dynamic programme in Python, which share no line with the search.

use turnwright::plan::order::Certificate;

use crate::believable::small;
use crate::parts;

/// Operations up to which the Python programme takes well under a second.
const MOST_OPS: usize = 17;
const PARTS: usize = 200;

fn certificates() -> Vec<Certificate> {
    let shop = parts::shop();
    let mut list = Vec::new();
    for seed in 0.. {
        let g = small(seed);
        let (p, _) = crate::believable::judged(&g.text, g.with_shop.then_some(&shop))
            .unwrap_or_else(|e| panic!("seed {seed}: {e:?}\n{}", g.text));
        assert_eq!(p.certificate.verify(), Ok(()), "seed {seed}");
        assert!(p.plan.proven_optimal, "seed {seed}");
        if p.certificate.order.len() <= MOST_OPS {
            list.push(p.certificate);
        }
        if list.len() == PARTS {
            return list;
        }
    }
    list
}

#[test]
fn a_second_program_finds_no_better_order_of_two_hundred_parts() {
    let list = certificates();
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/independent/order_check.py");
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("parts.json");
    std::fs::write(&path, serde_json::to_string(&list).expect("json")).expect("written");
    let Ok(output) = std::process::Command::new("python3").arg(script).arg(&path).output() else {
        eprintln!("NOT RUN: the second program needs python3");
        return;
    };
    let says = String::from_utf8_lossy(&output.stdout);
    assert!(output.status.success(), "{says}{}", String::from_utf8_lossy(&output.stderr));
    assert_eq!(says.matches("agrees").count(), PARTS, "{says}");
}
