//! `handbook taper`.

use serde_json::{Value, json};

use super::answer::{Answer, physics};
use super::size;
use crate::handbook::taper;
use crate::unit::Unit;

/// `taper`.
#[derive(Debug, clap::Args)]
pub struct TaperArgs {
    /// 1:10, 0.600 per foot, 7° (included), 2.86° a side, MT3, B&S 9, Jarno 7, JT 33; without one, the named tapers are listed.
    pub taper: Option<String>,
    /// Length of the taper itself: shows the change of diameter over it.
    #[arg(long)]
    pub length: Option<String>,
    /// Length of the whole work between centers: shows the tailstock's set-over.
    #[arg(long)]
    pub whole: Option<String>,
    /// Units and format.
    #[command(flatten)]
    pub show: super::args::Show,
}

pub(super) fn answer(args: &TaperArgs) -> Result<Answer, String> {
    let Some(text) = &args.taper else { return Ok(list(args)) };
    let found = taper::find(text).map_err(|e| e.to_string())?;
    let read =
        |text: &Option<String>, what: &str| text.as_ref().map(|t| size::read(t, what, args.show, None)).transpose();
    let (length, whole) = (read(&args.length, "length")?, read(&args.whole, "whole length")?);
    let unit = length.or(whole).map(|s| s.unit).or(args.show.unit()).unwrap_or(Unit::Inch);
    let rate = found.rate;
    let mut answer = Answer::new("taper", unit, format!("Taper {}", found.name), args.show);
    answer.field("included_angle_deg", physics(rate.included_angle()));
    answer.field("half_angle_deg", physics(rate.half_angle()));
    answer.field("per_foot", physics(rate.per_foot()));
    answer.field("ratio", physics(1.0 / rate.ratio()));
    answer.length_field("change_of_diameter", length.map(|l| rate.over(l.value)));
    answer.length_field("setover", whole.map(|w| rate.setover(w.value)));
    answer.length_field("large", found.large);
    answer.length_field("small", found.small);
    answer.length_field("length", found.length);
    answer.row("compound, a side", format!("{:.4}°  ({})", rate.half_angle(), minutes(rate.half_angle())));
    answer.row("included angle", format!("{:.4}°", rate.included_angle()));
    answer.row("ratio", format!("1:{:.3}", 1.0 / rate.ratio()));
    answer.row("per foot on diameter", format!("{:.5} in", rate.per_foot()));
    answer.row("indicator drop along 1", format!("{:.5} a side", rate.ratio() / 2.0));
    answer.length_row("diameter at the gauge line", found.large);
    answer.length_row("diameter at the small end", found.small);
    answer.length_row("from gauge line to small end", found.length);
    if let Some(length) = length {
        answer.length_row("change of diameter", rate.over(length.value));
    }
    if let Some(whole) = whole {
        answer.length_row("set-over of the tailstock", rate.setover(whole.value));
        answer.note("set-over goes by the whole work between centers, not by the taper's own length");
    }
    answer.source(found.source);
    Ok(answer)
}

/// Degrees as degrees and minutes.
fn minutes(degrees: f64) -> String {
    let whole = (degrees * 60.0).round();
    format!("{}° {}'", (whole / 60.0).floor(), whole % 60.0)
}

fn list(args: &TaperArgs) -> Answer {
    let mut answer = Answer::new("taper", args.show.unit().unwrap_or(Unit::Inch), "Named tapers", args.show);
    let mut names: Vec<(&str, Vec<&str>)> = Vec::new();
    for (series, number) in taper::names() {
        match names.last_mut().filter(|(s, _)| *s == series) {
            Some((_, numbers)) => numbers.push(number),
            None => names.push((series, vec![number])),
        }
    }
    for (series, numbers) in &names {
        answer.row(series, numbers.join(" "));
    }
    let series: Vec<Value> = names.iter().map(|(s, n)| json!({"series": s, "numbers": n})).collect();
    answer.field("series", Value::Array(series));
    answer
}
