//! `handbook fit`.

use serde_json::{Value, json};

use super::answer::{Answer, min_max, number};
use crate::handbook::fit::{self, Deviations};
use crate::unit::{Length, Unit, show};

/// `fit`.
#[derive(Debug, clap::Args)]
pub struct FitArgs {
    /// Size and code: 25 mm k6, 1.000 in RC3, 25 mm H7/k6; without one, preferred fits are listed.
    pub fit: Option<String>,
    /// Units and format.
    #[command(flatten)]
    pub show: super::args::Show,
}

pub(super) fn answer(args: &FitArgs) -> Result<Answer, String> {
    let Some(text) = &args.fit else { return Ok(preferred(args)) };
    let found = fit::parse(text, args.show.unit()).map_err(|e| e.to_string())?;
    let unit = found.unit;
    let mut answer = Answer::new(
        "fit",
        unit,
        format!("{} {} {}", show::exact(found.size, unit, 0, 6), unit.word(), found.code),
        args.show,
    );
    answer.field("size", number(found.size, unit));
    answer.field("code", json!(found.code));
    let deviations = |d: Option<Deviations>| {
        d.map_or(Value::Null, |d| json!({"upper": number(d.upper, unit), "lower": number(d.lower, unit)}))
    };
    answer.field("hole", deviations(found.hole));
    answer.field("shaft", deviations(found.shaft));
    answer.field("max", number(found.limits.max, unit));
    answer.field("min", number(found.limits.min, unit));
    answer.field("clearance", found.clearance.map_or(Value::Null, |c| min_max(c, unit)));
    for (label, part) in [("hole", found.hole), ("shaft", found.shaft)] {
        if let Some(d) = part {
            answer.row(
                &format!("{label} deviations"),
                format!("{} / {} {}", signed(d.upper, unit), signed(d.lower, unit), unit.word()),
            );
            answer.limits_row(label, d.limits(found.size));
        }
    }
    if let Some(c) = found.clearance {
        let word = match (c.min < Length::ZERO, c.max <= Length::ZERO) {
            (false, _) => "clearance",
            (true, false) => "clearance or interference",
            (true, true) => "interference",
        };
        answer.row(word, format!("{} to {} {}", signed(c.min, unit), signed(c.max, unit), unit.word()));
    }
    answer.source(found.source);
    Ok(answer)
}

/// A signed deviation, with as many decimals as it needs.
fn signed(value: Length, unit: Unit) -> String {
    let most = if unit == Unit::Inch { 6 } else { 4 };
    let text = show::exact(value, unit, if unit == Unit::Inch { 4 } else { 3 }, most);
    if value.is_positive() { format!("+{text}") } else { text }
}

fn preferred(args: &FitArgs) -> Answer {
    let mut answer =
        Answer::new("fit", args.show.unit().unwrap_or(Unit::Millimetre), "Preferred fits, loosest first", args.show);
    let mut list = Vec::new();
    for f in fit::preferred() {
        answer.row(&format!("{}/{}", f.hole, f.shaft), format!("{}: {}", f.kind, f.purpose));
        list.push(json!({"hole": f.hole, "shaft": f.shaft, "kind": f.kind, "purpose": f.purpose}));
        answer.source(f.source);
    }
    let classes: Vec<String> = fit::inch_classes().collect();
    answer.line(format!("Inch classes: {}", classes.join(" ")));
    answer.field("preferred", Value::Array(list));
    answer.field("inch_classes", json!(classes));
    answer
}
