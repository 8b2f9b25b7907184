#![doc = include_str!("unknown_key.md")]

use crate::check::{Check, Facts, LIMITS};
use crate::finding::{Finding, Severity};
use crate::model::slip::{Fault, WordOf};
use crate::unit::example_in;

use super::of_slip;
use crate::told;

/// The check.
pub const CHECK: Check = Check {
    id: "unknown-key",
    severity: Severity::Error,
    group: "description",
    source: "the words of this description; nothing is dropped in silence",
    page: include_str!("unknown_key.md"),
    look,
};

/// Known words are listed when there are no more of them than this.
const MOST_LISTED: usize = 24;

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for slip in facts.slips {
        if let Fault::TradeWord { word, readings: [one] } = &slip.fault {
            let message = format!("`{word}` is not a word of a description");
            out.push(of_slip::finding(facts, &CHECK, slip, message).help(said(facts, one)));
            continue;
        }
        if let Fault::WrittenElse { word, within, instead } = &slip.fault {
            let message = format!("`{word}` is not known in {within}");
            out.push(of_slip::finding(facts, &CHECK, slip, message).help(said(facts, instead)));
            continue;
        }
        let Fault::UnknownWord { word, of, within, nearest, belongs, known } = &slip.fault else { continue };
        let message = match of {
            WordOf::Key => format!("the key `{word}` is not known in {within}"),
            WordOf::Kind => format!("`{word}` is no kind of feature"),
            WordOf::Value => format!("`{word}` is not known under {within}"),
            WordOf::Name => format!("no feature is called `{word}`"),
        };
        let mut finding = of_slip::finding(facts, &CHECK, slip, message);
        if let Some(nearest) = nearest {
            finding = finding.help(format!("Write `{nearest}`, if that is meant")).mend(slip.place, nearest.clone());
        }
        if *of == WordOf::Key && !word.is_empty() && word.chars().all(|c| c.is_ascii_digit()) {
            let help = format!(
                "Inside braces a comma parts the entries: write the number with a point, `0.{word}`, and not `0,{word}`"
            );
            out.push(finding.help(help));
            continue;
        }
        let own_entry = belongs.iter().any(|b| b.starts_with("features"));
        if own_entry && belongs.len() == 1 {
            let help = format!(
                "`{word}` is an entry of its own: begin it with a dash, `- {word}: …`, in line with the others"
            );
            finding = finding.help(help);
        } else if !belongs.is_empty() {
            finding = finding.help(format!("`{word}` belongs to {}: put it there", of_slip::one_of(belongs)));
        }
        if nearest.is_none() && belongs.is_empty() {
            finding = finding.help(match of {
                WordOf::Name if known.is_empty() => "Give a feature this name with `name:`".to_owned(),
                WordOf::Key if known.len() == 1 && known[0] == "from" => told!(
                    "Say where it begins, toward the datum end: `from:`",
                    "Angeben, wo es beginnt, zum Bezugsende hin: `from:`"
                )
                .to_owned(),
                WordOf::Key if known.len() == 1 && known[0] == "at" => {
                    told!("Say where its centre lies: `at:`", "Angeben, wo die Mitte liegt: `at:`").to_owned()
                }
                _ if !known.is_empty() && known.len() <= MOST_LISTED => {
                    format!("Write one of: {}", known.join(", "))
                }
                _ => "Take it out, or move it to a line that begins with #".to_owned(),
            });
        }
        out.push(finding);
    }
    out.extend(unknown_limits(facts));
}

/// How it is said here, its examples in the unit of the description.
fn said(facts: &Facts<'_>, how: &str) -> String {
    of_slip::capital(&example_in(how, facts.part.units))
}

/// Limits of the shop file that no check has.
fn unknown_limits(facts: &Facts<'_>) -> Vec<Finding> {
    let mut found = Vec::new();
    for (id, values) in facts.shop.into_iter().flat_map(|s| &s.limits) {
        let names: Vec<&str> = LIMITS.iter().filter(|l| l.check == id).map(|l| l.name).collect();
        for (name, value) in values {
            let (word, known, within) = if names.is_empty() {
                (id, LIMITS.iter().map(|l| l.check).collect(), "limits".to_owned())
            } else if !name.is_empty() && !names.contains(&name.as_str()) {
                (name, names.clone(), format!("the limits of {id}"))
            } else {
                continue;
            };
            let nearest =
                known.iter().max_by(|a, b| strsim::jaro_winkler(a, word).total_cmp(&strsim::jaro_winkler(b, word)));
            let message = format!("the key `{word}` is not known in {within}");
            let finding = Finding::new(CHECK.id, CHECK.severity, message).at(value.place);
            found.push(finding.help(format!("Write `{}`, if that is meant", nearest.unwrap_or(&"limits"))));
        }
    }
    found
}
