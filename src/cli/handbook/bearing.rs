//! `handbook bearing`.

use serde_json::{Value, json};

use super::answer::{Answer, min_max, number};
use super::size;
use crate::handbook::bearing::{self, Bearing, Turns};
use crate::handbook::{bearing_limits, fit};
use crate::unit::Unit;

/// `bearing`.
#[derive(Debug, clap::Args)]
pub struct BearingArgs {
    /// Number: 6204, 6305-2RS; without one and without --bore, the numbers are listed.
    pub number: Option<String>,
    /// List those with this bore.
    #[arg(long)]
    pub bore: Option<String>,
    /// The housing turns, not the shaft.
    #[arg(long)]
    pub housing_turns: bool,
    /// Units and format.
    #[command(flatten)]
    pub show: super::args::Show,
}

pub(super) fn answer(args: &BearingArgs) -> Result<Answer, String> {
    if let Some(bore) = &args.bore {
        let bore = size::read(bore, "bore", args.show, Some(Unit::Millimetre))?;
        let found = bearing::with_bore(bore.value, None);
        if found.is_empty() {
            return Err("no deep-groove bearing of series 60, 62 or 63 has this bore".to_owned());
        }
        return Ok(list(&found, bore.unit, args));
    }
    let Some(asked) = args.number.as_deref() else { return Ok(numbers(args)) };
    let found = bearing::find(asked).ok_or_else(|| {
        format!(
            "no deep-groove bearing {asked}; series 60, 62 and 63 are known: 6000 to 6020, 6200 to 6220, 6300 to 6320"
        )
    })?;
    Ok(one(&found, args))
}

fn one(found: &Bearing, args: &BearingArgs) -> Answer {
    let unit = args.show.unit().unwrap_or(Unit::Millimetre);
    let mut answer = Answer::new("bearing", unit, format!("Deep-groove ball bearing {}", found.number), args.show);
    answer.field("number", json!(found.number));
    for (name, label, value) in [
        ("bore", "bore", found.bore),
        ("outside", "outside diameter", found.outside),
        ("width", "width", found.width),
        ("corner", "smallest corner", found.corner),
    ] {
        answer.length_field(name, Some(value));
        answer.length_row(label, value);
    }
    answer.source(found.source);
    if let Some((limits, source)) = bearing_limits::bore(found.bore) {
        answer.field("bore_limits", min_max(limits, unit));
        answer.limits_row("bore, normal class", limits);
        answer.source(source);
    }
    if let Some((fillet, height, source)) = bearing::shoulder(found.corner) {
        answer.field("shoulder", json!({"largest_fillet": number(fillet, unit), "least_height": number(height, unit)}));
        answer.length_row("largest fillet on the shaft", fillet);
        answer.length_row("least shoulder height, a side", height);
        answer.source(source);
    }
    let turns = if args.housing_turns { Turns::Housing } else { Turns::Shaft };
    let (code, source) = bearing::usual_seat(found.bore, turns);
    if let Ok(seat) = fit::shaft(code, found.bore) {
        answer.field("usual_seat", json!({"code": code, "max": number(seat.limits(found.bore).max, unit), "min": number(seat.limits(found.bore).min, unit)}));
        answer.limits_row(&format!("usual seat, {code}"), seat.limits(found.bore));
        answer.source(source);
    }
    answer
}

fn list(found: &[Bearing], unit: Unit, args: &BearingArgs) -> Answer {
    let mut answer =
        Answer::new("bearing", unit, "Bearings with this bore: outside diameter x width, corner", args.show);
    let mut all = Vec::new();
    for b in found {
        answer
            .row(b.number, format!("{} x {}, {}", answer.bare(b.outside), answer.bare(b.width), answer.bare(b.corner)));
        all.push(json!({"number": b.number, "bore": number(b.bore, unit), "outside": number(b.outside, unit), "width": number(b.width, unit), "corner": number(b.corner, unit)}));
        answer.source(b.source);
    }
    answer.field("bearings", Value::Array(all));
    answer
}

/// All numbers, a line for each series.
fn numbers(args: &BearingArgs) -> Answer {
    let unit = args.show.unit().unwrap_or(Unit::Millimetre);
    let mut answer = Answer::new(
        "bearing",
        unit,
        "Deep-groove ball bearings: handbook bearing 6204, or --bore \"20 mm\"",
        args.show,
    );
    let mut all: Vec<&str> = bearing::all().map(|b| b.number).collect();
    all.sort_by_key(|n| (n.len(), *n));
    for series in ["62", "63", "60", "6"] {
        let of = |n: &&&str| if series == "6" { n.len() < 4 } else { n.len() == 4 && n.starts_with(series) };
        let line: Vec<&str> = all.iter().filter(of).copied().collect();
        if !line.is_empty() {
            answer.row(if series == "6" { "small" } else { series }, line.join(" "));
        }
    }
    answer.field("numbers", json!(all));
    answer
}
