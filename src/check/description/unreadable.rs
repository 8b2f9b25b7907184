#![doc = include_str!("unreadable.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::slip::{Fault, Shape, Unreadable};

use super::of_slip;

/// The check.
pub const CHECK: Check = Check {
    id: "unreadable",
    severity: Severity::Error,
    group: "description",
    source: "YAML 1.2",
    page: include_str!("unreadable.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for slip in facts.slips {
        let (message, help) = match &slip.fault {
            Fault::WrongShape { key, wants, found, example } => {
                let found = match found {
                    Shape::Nothing => "nothing stands",
                    Shape::Text => "one value stands",
                    Shape::List => "a list stands",
                    Shape::Keys => "keys with values stand",
                };
                (format!("`{key}` wants {wants}, and {found} there"), format!("Write it like this: `{example}`"))
            }
            Fault::Unreadable(Unreadable::CommentInBrackets { .. }) => continue,
            Fault::Unreadable(why) => (message(why), help(why)),
            _ => continue,
        };
        let mut finding = of_slip::finding(facts, &CHECK, slip, message).help(help);
        if let Fault::Unreadable(why) = &slip.fault
            && let Some(text) = mended(why)
        {
            finding = finding.mend(slip.place, text);
        }
        out.push(finding);
    }
}

/// What the characters should be, where there is no doubt.
fn mended(why: &Unreadable) -> Option<String> {
    match why {
        Unreadable::NoSpaceAfterColon { key, value } if !value.ends_with('…') => Some(format!("{key}: {value}")),
        Unreadable::NoSpaceAfterDash { rest } if !rest.ends_with('…') => Some(format!("- {rest}")),
        Unreadable::ColonInValue { value } if !value.contains(['"', '…', '\\']) => Some(format!("\"{value}\"")),
        Unreadable::Character { character: '\u{85}' | '\u{2028}' | '\u{2029}' } => Some(" ".to_owned()),
        Unreadable::Character { .. } => Some(String::new()),
        _ => None,
    }
}

fn message(why: &Unreadable) -> String {
    match why {
        Unreadable::Empty => "the file is empty".to_owned(),
        Unreadable::NotUtf8 { byte } => format!("the text is not UTF-8: byte {} cannot be read", byte + 1),
        Unreadable::TooLarge { most } => {
            format!("the file has more than {} MB, and no more is read of one part", most >> 20)
        }
        Unreadable::Character { character } => {
            format!("a character that cannot be seen stands here: U+{:04X}", u32::from(*character))
        }
        Unreadable::Tab => "this line is indented with a tab".to_owned(),
        Unreadable::NoSpaceAfterColon { key, value } => {
            format!("no space stands behind the colon of `{key}:{value}`")
        }
        Unreadable::NoSpaceAfterDash { .. } => "no space stands behind the dash of this entry".to_owned(),
        Unreadable::ColonInValue { value } => format!("`{value}` has a colon in it, which would begin a second value"),
        Unreadable::StartsWith { sign: ',' } => "nothing stands between two commas".to_owned(),
        Unreadable::StartsWith { sign: ':' } => "a comma is missing before this key".to_owned(),
        Unreadable::StartsWith { sign } => format!("a value cannot begin with `{sign}`"),
        Unreadable::NotClosed { sign } => format!("this `{sign}` is not closed"),
        Unreadable::NoColon { text } => format!("`{text}` has no colon: a key and its value are wanted"),
        Unreadable::CommentInBrackets { comment } => format!("`{comment}` is read as a comment"),
        Unreadable::Indent => "this line is indented unlike its neighbours".to_owned(),
        Unreadable::MergeKey => "merge keys (`<<`) are not read".to_owned(),
        Unreadable::SecondDocument => "a second document begins here, and only one is read".to_owned(),
        Unreadable::Tag => "tags (`!`) are not read".to_owned(),
        Unreadable::KeyNotText => "a key must be one word or a few".to_owned(),
        Unreadable::Alias => "this points at nothing that can be copied here".to_owned(),
        Unreadable::TooDeep => "this is nested deeper than any description needs".to_owned(),
        Unreadable::TooMany { what, most } => format!("there are more {what} than the {most} that are read"),
        Unreadable::ReadersDisagree { one, other } => {
            format!("two readers of the text see different things here: `{one}` and `{other}`")
        }
        Unreadable::Syntax { said } => format!("the text cannot be read: {said}"),
    }
}

fn help(why: &Unreadable) -> String {
    let fixed = match why {
        Unreadable::Empty => "Write a description, or begin from the one that `turnwright start` prints",
        Unreadable::NotUtf8 { byte: 0 } => "Save the file as UTF-8; it looks like UTF-16",
        Unreadable::NotUtf8 { .. } => "Save the file as UTF-8",
        Unreadable::TooLarge { .. } => "Give one part a file of its own",
        Unreadable::Character { .. } => "Take it out and type the line again",
        Unreadable::Tab | Unreadable::Indent => "Indent with spaces, as much as the lines beside it",
        Unreadable::NoSpaceAfterColon { key, value } => return format!("Write `{key}: {value}`"),
        Unreadable::NoSpaceAfterDash { rest } => return format!("Write `- {rest}`"),
        Unreadable::ColonInValue { value } => return format!("Put quotes around it: `\"{value}\"`"),
        Unreadable::StartsWith { sign: ',' } => "Take one comma out",
        Unreadable::StartsWith { sign: ':' } => "Put a comma between the entries of the brackets",
        Unreadable::StartsWith { .. } | Unreadable::CommentInBrackets { .. } => "Put quotes around the value",
        Unreadable::NotClosed { sign } => {
            let close = match sign {
                '{' => '}',
                '[' => ']',
                other => *other,
            };
            return format!("Close it with `{close}`");
        }
        Unreadable::NoColon { .. } => "Write it as `key: value`, or begin the line with # for a comment",
        Unreadable::MergeKey | Unreadable::Alias => "Write the values out",
        Unreadable::SecondDocument => "Give each part a file of its own",
        Unreadable::Tag => "Take the tag out",
        Unreadable::KeyNotText => "Write the key as words, with a colon behind them",
        Unreadable::TooDeep => "Write it flatter",
        Unreadable::TooMany { what: "values copied by aliases", .. } => "Write the values out where they stand",
        Unreadable::TooMany { what, .. } if what.starts_with("characters") => {
            "Write it shorter; what needs so many words belongs on paper of its own"
        }
        Unreadable::TooMany { .. } => "Give each part a file of its own, and mend these first",
        Unreadable::ReadersDisagree { .. } => "Put quotes around the value, on one line",
        Unreadable::Syntax { .. } => "Mend this line, or put quotes around its value",
    };
    fixed.to_owned()
}
