#![doc = include_str!("bad_size.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::PlaceRef;
use crate::model::slip::{BadSize, Fault};
use crate::unit::Why;

use super::of_slip;

/// The check.
pub const CHECK: Check = Check {
    id: "bad-size",
    severity: Severity::Error,
    group: "description",
    source: "the sizes of this description",
    page: include_str!("bad_size.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for slip in facts.slips {
        let Fault::BadSize { text, piece, why, value, wants, forms, meant, between } = &slip.fault else { continue };
        let message = match why {
            BadSize::Number(why) => number(*why, text, piece, wants, meant.as_deref()),
            BadSize::TwoFaces { name } => format!("`{name}` has two faces, and a place is one of them"),
            BadSize::NameDigit => format!("the name `{text}` begins with a digit and would be read as a place"),
            BadSize::Unit => format!("`{text}` is not {wants}: its unit is not known here"),
            BadSize::Designation(what) => format!("`{text}` is not {wants} that can be read: {what}"),
            BadSize::LimitsHere => format!("`{text}` has limits, and {wants} takes none here"),
            BadSize::FitUnknown { code } => format!("the tables have no fit `{code}` for `{text}`"),
            BadSize::Form => format!("`{text}` is not {wants} that can be read"),
        };
        let mut finding = of_slip::finding(facts, &CHECK, slip, message);
        if let Some(meant) = meant {
            finding = finding.help(format!("Write `{meant}`, if that is meant")).mend(*value, meant.clone());
        }
        let [one, two, three] = forms;
        let otherwise = match why {
            BadSize::TwoFaces { name } => format!("Write `{name} start` or `{name} end`"),
            BadSize::Number(Why::Empty) if *wants == "words" => {
                "Write it behind the colon, or take the key out".to_owned()
            }
            BadSize::NameDigit => "Begin the name with a letter".to_owned(),
            _ => format!("Write {wants} in one of these forms: `{one}`, `{two}`, `{three}`"),
        };
        // Where it is plain what was meant, other forms only distract.
        if meant.is_none() {
            finding = finding.help(otherwise);
        }
        if let Some(distance) = between.as_ref().and_then(|b| by_the_lengths(facts, &b.0, &b.1)) {
            finding = finding.help(format!("The lengths give {} between these faces", facts.show(distance)));
            finding = finding.length("by_the_lengths", distance);
        }
        out.push(finding);
    }
}

/// Why a number cannot be read, in words.
fn number(why: Why, text: &str, piece: &str, wants: &str, meant: Option<&str>) -> String {
    let joined = meant.map_or(String::new(), |m| format!("; joined they are {m}"));
    match why {
        Why::Empty if wants == "words" => "nothing is written behind this key".to_owned(),
        Why::Empty => format!("nothing is written where {wants} belongs"),
        Why::Character => format!("`{piece}` cannot be read in `{text}`"),
        Why::Comma => format!("`{text}` has a comma where the decimal point belongs"),
        Why::Gap => format!("the digits of `{text}` have a gap between them{joined}"),
        Why::Denominator => format!("`{text}` is no inch fraction: its denominator must be 2, 4, 8 … 512"),
        Why::TooManyDigits => format!("`{text}` has more digits than can be held exactly"),
        Why::TooLarge => format!("`{text}` is longer than 100 m"),
        Why::OneLimit => format!("`{text}` has one limit, and the other is missing"),
        Why::Tolerance => format!("`{piece}` behind `{text}` is neither limits nor a fit code"),
        Why::SquareBrackets => format!("`{text}` stands in square brackets, which make a list of it"),
        Why::Bracket => format!("the bracket of `{text}` is not closed"),
    }
}

/// What the lengths give between the two faces of a `dims` entry.
fn by_the_lengths(facts: &Facts<'_>, from: &PlaceRef, to: &PlaceRef) -> Option<crate::unit::Length> {
    Some((facts.chain.station(to)? - facts.chain.station(from)?).abs())
}
