//! `plan --verify`: a certificate looked at again, without the search that made it.

use std::fmt::Write;
use std::path::Path;

use super::run::Outcome;
use crate::plan::order::{Certificate, Fault, Violation, violations};
use crate::plan::rules::rule;

/// Replays the order of each reply of `plan --format json`, or of a certificate alone.
pub(super) fn run(files: &[std::path::PathBuf]) -> Outcome {
    let mut outcome = Outcome::default();
    for path in files {
        match read(path) {
            Err(why) => {
                let _ = writeln!(outcome.err, "turnwright: {}: {why}", path.display());
                outcome.code = 2;
            }
            Ok(certificates) => {
                for certificate in certificates {
                    let (says, holds) = judge(&certificate);
                    let _ = writeln!(outcome.out, "{}: {says}", path.display());
                    outcome.code = outcome.code.max(u8::from(!holds));
                }
            }
        }
    }
    outcome
}

fn read(path: &Path) -> Result<Vec<Certificate>, String> {
    let text = if path.as_os_str() == "-" {
        std::io::read_to_string(std::io::stdin()).map_err(|e| e.to_string())?
    } else {
        std::fs::read_to_string(path).map_err(|e| e.to_string())?
    };
    let hint = "write one with `turnwright plan PART --format json`";
    let value: serde_json::Value = serde_json::from_str(&text).map_err(|e| format!("no JSON ({e}); {hint}"))?;
    let replies = match value {
        serde_json::Value::Array(replies) => replies,
        one => vec![one],
    };
    let of = |mut reply: serde_json::Value| {
        let inner = reply.get_mut("certificate").map(serde_json::Value::take);
        serde_json::from_value(inner.unwrap_or(reply)).map_err(|e| format!("no certificate ({e}); {hint}"))
    };
    replies.into_iter().map(of).collect()
}

/// What is to be said of a certificate, and whether it holds.
fn judge(certificate: &Certificate) -> (String, bool) {
    let rules = certificate.problem.precedences.len()
        + certificate.problem.adjacent.len()
        + certificate.problem.same_setup.len()
        + certificate
            .problem
            .setup_needs
            .values()
            .chain(certificate.problem.setup_ends.values())
            .map(Vec::len)
            .sum::<usize>()
        + certificate.problem.setup_gates.values().map(Vec::len).sum::<usize>();
    match certificate.verify() {
        Ok(()) => {
            let bound = if certificate.proven_optimal {
                "and its bound is its cost; that nothing costs less is for a second solver to show".to_owned()
            } else {
                format!("and its bound is {}: it is not claimed to be the cheapest", certificate.lower_bound)
            };
            let done = certificate.order.len();
            (format!("holds: {done} operations keep all {rules} rules and cost {}, {bound}", certificate.cost), true)
        }
        Err(Fault::Order(first)) => (format!("does not hold: {}", all_broken(certificate, &first)), false),
        Err(Fault::Cost(cost)) => {
            (format!("does not hold: the order costs {cost}, not the stated {}", certificate.cost), false)
        }
        Err(Fault::Bound) => (
            format!(
                "does not hold: a bound of {} does not go with a cost of {}",
                certificate.lower_bound, certificate.cost
            ),
            false,
        ),
    }
}

/// Everything that is broken, one of each rule of the trade that it stands there for, and how many more of it.
fn all_broken(certificate: &Certificate, first: &Violation) -> String {
    let all = violations(&certificate.problem, &certificate.order);
    let mut told: Vec<(String, String, usize)> = Vec::new();
    for violation in if all.is_empty() { std::slice::from_ref(first) } else { &all } {
        let rule = against(certificate, violation);
        match told.iter_mut().find(|(_, known, _)| *known == rule && !rule.is_empty()) {
            Some((_, _, more)) => *more += 1,
            None => told.push((broken(violation), rule, 0)),
        }
    }
    let says = told.into_iter().map(|(one, rule, more)| match more {
        0 => format!("{one}{rule}"),
        more => format!("{one} (and {more} more like it){rule}"),
    });
    says.collect::<Vec<_>>().join("; ")
}

/// `, against R9: reliefs, grooves and the start chamfer come before the thread that needs them`.
fn against(certificate: &Certificate, violation: &Violation) -> String {
    let Some(breaks) = violation.rule() else { return String::new() };
    let ids = certificate.problem.because_of(&breaks);
    let each: Vec<String> =
        ids.iter().map(|id| rule(id).map_or_else(|| (*id).to_owned(), |r| format!("{}: {}", r.id, r.text))).collect();
    if each.is_empty() { String::new() } else { format!(", against {}", each.join(" and ")) }
}

fn broken(violation: &Violation) -> String {
    match violation {
        Violation::UnknownOp(op) => format!("{op} is no operation of it"),
        Violation::Repeated(op) => format!("{op} comes twice"),
        Violation::Missing(op) => format!("{op} does not come"),
        Violation::WrongSetup(op, setup) => format!("{op} cannot be done in \"{setup}\""),
        Violation::Precedence(a, b) => format!("{b} comes before {a}"),
        Violation::Adjacent(a, b) => format!("{b} does not come right after {a}"),
        Violation::SameSetup(a, b) => format!("{a} and {b} are not done in one mounting"),
        Violation::SetupNeeds(setup, op) => format!("\"{setup}\" is used before {op} is done"),
        Violation::SetupEnds(setup, op) => format!("\"{setup}\" is used after {op} has ended it"),
        Violation::SetupGate(setup, op, first) => format!("{op} is done in \"{setup}\" before {first}"),
        Violation::NoCost(field, name) => format!("{field} gives no cost for {name}"),
    }
}
