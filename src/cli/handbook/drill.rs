//! `handbook drill`.

use serde_json::{Value, json};

use super::answer::Answer;
use crate::handbook::drill::{self, Drill, Series};
use crate::handbook::{Source, thread};
use crate::unit::{Unit, read_number};

/// `drill`.
#[derive(Debug, clap::Args)]
pub struct DrillArgs {
    /// A drill's name (27/64, 42, I, 8.5 mm) or a thread (1/2-13 UNC); without one, the series are listed.
    pub name: Option<String>,
    /// Units and format.
    #[command(flatten)]
    pub show: super::args::Show,
}

pub(super) fn answer(args: &DrillArgs) -> Result<Answer, String> {
    let Some(name) = args.name.as_deref().map(str::trim) else { return Ok(list(args)) };
    if let Some(found) = drill::find(name) {
        return Ok(one(found, args));
    }
    if let Ok(designation) = thread::read(name) {
        let asked = thread::Asked::special();
        let data = thread::limits(&designation, &asked).map_err(|_| format!("no limits for {name}"))?;
        let tap = data.tap_drill.clone().ok_or_else(|| format!("{name} has no tap drill"))?;
        let unit = args.show.unit().unwrap_or(data.unit);
        let mut answer =
            Answer::new("drill", unit, format!("Tap drill for {}: {}", designation.show(), tap.name), args.show);
        answer.field("name", json!(tap.name));
        answer.length_field("diameter", Some(tap.diameter));
        answer.field("percent", tap.percent.map_or(Value::Null, |p| json!((p * 10.0).round() / 10.0)));
        answer.length_row("diameter", tap.diameter);
        if let Some(percent) = tap.percent {
            answer.row(
                "thread left",
                format!("{percent:.0} % of the full height, {} a side", super::thread::full_height(&data)),
            );
        }
        for source in &data.source {
            answer.source(*source);
        }
        answer.source(drill::source());
        return Ok(answer);
    }
    Err(
        match read_number(
            name,
            args.show.unit().unwrap_or(if name.starts_with('.') { Unit::Inch } else { Unit::Millimetre }),
        ) {
            Ok(number) => {
                let series = [Series::Number, Series::Letter, Series::Fraction, Series::Millimetre];
                let near: Vec<&str> =
                    drill::nearest(number.value, &series, 4).iter().map(|d| d.name.as_str()).collect();
                format!("no drill is stamped {name}; near it: {}", near.join(", "))
            }
            Err(_) => format!("\"{name}\" is no drill (27/64, 42, I, 8.5 mm) and no thread (1/2-13 UNC)"),
        },
    )
}

fn one(found: &Drill, args: &DrillArgs) -> Answer {
    let own = if found.series == Series::Millimetre { Unit::Millimetre } else { Unit::Inch };
    let unit = args.show.unit().unwrap_or(own);
    let mut answer = Answer::new("drill", unit, format!("Drill {}", found.name), args.show);
    answer.field("name", json!(found.name));
    answer.length_field("diameter", Some(found.diameter));
    answer.length_row("diameter", found.diameter);
    answer.source(match found.series {
        Series::Number | Series::Letter => drill::source(),
        Series::Fraction | Series::Millimetre => {
            Source::printed("fraction and millimetre drills: the name is the size")
        }
    });
    answer
}

/// The series, each from its smallest to its largest.
fn list(args: &DrillArgs) -> Answer {
    let unit = args.show.unit().unwrap_or(Unit::Inch);
    let mut answer = Answer::new("drill", unit, "Drills: handbook drill 42, or a thread for its tap drill", args.show);
    let mut all = Vec::new();
    for (series, name) in [
        (Series::Number, "number"),
        (Series::Letter, "letter"),
        (Series::Fraction, "fraction"),
        (Series::Millimetre, "millimetre"),
    ] {
        let of: Vec<&Drill> = drill::drills().iter().filter(|d| d.series == series).collect();
        if let (Some(first), Some(last)) = (of.first(), of.last()) {
            let text = format!(
                "{} to {} ({} to {}), {} sizes",
                first.name,
                last.name,
                answer.bare(first.diameter),
                answer.length_alone(last.diameter),
                of.len()
            );
            answer.row(name, text);
            all.push(json!({"series": name, "first": first.name, "last": last.name, "sizes": of.len()}));
        }
    }
    answer.field("series", Value::Array(all));
    answer.source(drill::source());
    answer
}
