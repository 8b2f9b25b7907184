#![doc = include_str!("fit_wrong_side.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::slip::Fault;

use super::of_slip;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "fit-wrong-side",
    severity: Severity::Error,
    group: "description",
    source: "ISO 286-1: capital letters are holes, small letters are shafts",
    page: include_str!("fit_wrong_side.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for slip in facts.slips {
        let Fault::FitWrongSide { code, hole_on_shaft } = &slip.fault else { continue };
        let bolt = !hole_on_shaft && code.starts_with(|c: char| c.is_ascii_digit()) && code.ends_with('A');
        let other = if bolt {
            format!("{}B", code.trim_end_matches('A'))
        } else if *hole_on_shaft {
            code.to_lowercase()
        } else {
            code.to_uppercase()
        };
        let (is, stands) = if *hole_on_shaft {
            (told!("a hole", "eine Bohrung"), told!("a shaft", "eine Welle"))
        } else {
            (told!("a shaft", "eine Welle"), told!("a bore", "eine Bohrung"))
        };
        let message =
            tell!("`{code}` is for {is}, and it stands on {stands}", "`{code}` gilt für {is} und steht bei {stands}");
        let help = if code.ends_with('B') {
            tell!(
                "Write an external class: `{}A`",
                "Eine Klasse für Außengewinde schreiben: `{}A`",
                code.trim_end_matches('B')
            )
        } else {
            tell!(
                "Write a code for {stands}, `{other}` if that is meant, or the two limits",
                "Eine Angabe für {stands} schreiben, `{other}` wenn das gemeint ist, oder die zwei Grenzen"
            )
        };
        let mut finding = of_slip::finding(facts, &CHECK, slip, message).help(help);
        if !code.ends_with('B') {
            finding = finding.mend(slip.place, other);
        }
        out.push(finding);
    }
}
