#![doc = include_str!("value_lost_to_comment.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::slip::{Fault, Unreadable};

use super::of_slip;

/// The check.
pub const CHECK: Check = Check {
    id: "value-lost-to-comment",
    severity: Severity::Error,
    group: "description",
    source: "YAML 1.2: a # behind a space begins a comment",
    page: include_str!("value_lost_to_comment.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for slip in facts.slips {
        match &slip.fault {
            Fault::LostToComment { key, comment, meant } => {
                let message = format!("`{comment}` is read as a comment, and the value of `{key}` is lost to it");
                let quoted = if meant.starts_with(['"', 'N']) { meant.clone() } else { format!("\"{comment}\"") };
                let mut finding = of_slip::finding(facts, &CHECK, slip, message)
                    .help(format!("Write `{key}: {quoted}`"))
                    .help("Put a space behind the # where a comment is meant");
                // A meaning in quotes takes in the value before the comment, which lies outside this place.
                if meant.starts_with('N') {
                    finding = finding.mend(slip.place, meant.clone());
                }
                out.push(finding);
            }
            Fault::Unreadable(Unreadable::CommentInBrackets { comment }) => {
                let message = format!("`{comment}` is read as a comment, and the closing bracket is lost to it");
                let number = comment.trim_start_matches('#').trim_end_matches(['}', ']', ' ']);
                out.push(
                    of_slip::finding(facts, &CHECK, slip, message)
                        .help(format!("Write `No. {number}`, or put quotes around the value: \"#{number}\"")),
                );
            }
            _ => {}
        }
    }
}
