//! `handbook key`.

use serde_json::{Value, json};

use super::answer::{Answer, min_max, number};
use super::size;
use crate::handbook::key_parallel::{self, ParallelKey};
use crate::handbook::{keyseat, woodruff};
use crate::unit::{Length, Unit, show};

/// `key`.
#[derive(Debug, clap::Args)]
pub struct KeyArgs {
    /// The shaft's diameter (parallel key), or Woodruff and a number; without one, the keys are listed.
    pub key: Option<String>,
    /// Shaft of a Woodruff key.
    #[arg(long)]
    pub shaft: Option<String>,
    /// Width of a parallel key, to overrule the table.
    #[arg(long, requires = "height")]
    pub width: Option<String>,
    /// Height of a parallel key, to overrule the table.
    #[arg(long, requires = "width")]
    pub height: Option<String>,
    /// Units and format.
    #[command(flatten)]
    pub show: super::args::Show,
}

pub(super) fn answer(args: &KeyArgs) -> Result<Answer, String> {
    let Some(asked) = args.key.as_deref().map(str::trim) else { return Ok(list(args)) };
    let lower = asked.to_lowercase();
    if lower.starts_with("woodruff") && lower.contains('x') {
        return Err(format!(
            "{asked}: not supported yet: metric Woodruff keys (ISO 3912); the numbers of B17.2 are known"
        ));
    }
    // A Woodruff number alone is no shaft anybody means.
    let number = asked.len() >= 3 && asked.chars().all(|c| c.is_ascii_digit()) && args.show.unit().is_none();
    if lower.starts_with("woodruff") || number && woodruff::find(asked).is_some() {
        return by_number(asked, args);
    }
    let shaft = size::read(asked, "shaft", args.show, None)?;
    let unit = shaft.unit;
    let key = match (&args.width, &args.height) {
        (Some(width), Some(height)) => {
            let width = size::read(width, "width", args.show, Some(unit))?;
            let height = size::read(height, "height", args.show, Some(unit))?;
            key_parallel::with_size(shaft.value, width.value, height.value, unit)
        }
        _ => key_parallel::for_shaft(shaft.value, unit),
    };
    Ok(parallel(&key.map_err(|e| e.to_string())?, shaft.value, args))
}

fn parallel(key: &ParallelKey, shaft: Length, args: &KeyArgs) -> Answer {
    let unit = key.unit;
    let mut answer = Answer::new("key", unit, String::new(), args.show);
    let title = format!(
        "Parallel key {} x {} in a shaft of {}",
        answer.bare(key.width),
        answer.bare(key.height),
        answer.length(shaft)
    );
    answer = Answer::new("key", unit, title, args.show);
    answer.field("kind", json!("parallel"));
    answer.field("number", Value::Null);
    answer.length_field("shaft", Some(shaft));
    answer.length_field("width", Some(key.width));
    answer.length_field("height", Some(key.height));
    answer.field("cutter_diameter", Value::Null);
    answer.field("seat_depth", min_max(key.seat_depth, unit));
    answer.length_field("hub_depth", Some(key.hub_depth.min));
    answer.length_field("depth_from_top", Some(key.depths.from_top));
    answer.length_field("across_bottom", Some(key.depths.across_bottom));
    answer.length_field("S", key.s);
    answer.length_field("T", key.t);
    answer.length_field("arc_height", Some(key.depths.arc_height));
    answer.field("slot_length", Value::Null);
    answer.length_field("corner", key.corner);
    let widths: Vec<Value> = key
        .seat_width
        .iter()
        .map(|(name, l)| json!({"class": name, "min": number(l.min, unit), "max": number(l.max, unit)}))
        .collect();
    answer.field("seat_width", Value::Array(widths));
    answer.length_row("width", key.width);
    answer.length_row("height", key.height);
    let depth = if unit == Unit::Inch { "seat depth at the side" } else { "seat depth from the top (t1)" };
    answer.limits_row(depth, key.seat_depth);
    answer.length_row("depth from the top", key.depths.from_top);
    answer.length_row("across the bottom", key.depths.across_bottom);
    answer.length_row("arc height", key.depths.arc_height);
    answer.length_row("hub depth", key.hub_depth.min);
    answer.length_row("S, across the shaft's seat", key.s);
    answer.length_row("T, across the hub's keyway", key.t);
    for (name, limits) in &key.seat_width {
        answer.limits_row(&format!("seat width, {name}"), *limits);
    }
    answer.length_row("raise after side touch", keyseat::side_touch(shaft, key.width));
    if let Some(usual) = key_parallel::usual_shafts(key.width, unit).filter(|u| shaft <= u.min || shaft > u.max) {
        let range = format!("over {} to {}", answer.bare(usual.min), answer.length(usual.max));
        answer.note(format!("a key of this width is usual in shafts {range}"));
    }
    answer.source(key.source);
    answer.source(key.tolerance_source);
    answer
}

fn by_number(asked: &str, args: &KeyArgs) -> Result<Answer, String> {
    let Some(key) = woodruff::find(asked) else {
        return Err(format!("{asked} is no key of B17.2; near it: {}", woodruff::nearest(asked).join(", ")));
    };
    let shaft = args.shaft.as_ref().map(|s| size::read(s, "shaft", args.show, Some(Unit::Inch))).transpose()?;
    let unit = args.show.unit().or(shaft.map(|s| s.unit)).unwrap_or(Unit::Inch);
    let seat = match shaft {
        Some(s) => Some(key.seat_in(s.value).ok_or("the key is as wide as the shaft")?),
        None => None,
    };
    let mut answer = Answer::new("key", unit, format!("Woodruff key {}", key.number), args.show);
    answer.field("kind", json!("woodruff"));
    answer.field("number", json!(key.number));
    answer.length_field("shaft", shaft.map(|s| s.value));
    answer.length_field("width", Some(key.width));
    answer.length_field("height", Some(key.height.max));
    answer.length_field("cutter_diameter", Some(key.cutter_diameter));
    answer.field("seat_depth", min_max(key.seat_depth, unit));
    answer.length_field("hub_depth", Some(key.hub_depth.min));
    answer.length_field("depth_from_top", seat.map(|s| s.depths.from_top));
    answer.length_field("across_bottom", seat.map(|s| s.depths.across_bottom));
    answer.field("S", Value::Null);
    answer.field("T", Value::Null);
    answer.length_field("arc_height", seat.map(|s| s.depths.arc_height));
    answer.length_field("slot_length", seat.map(|s| s.slot_length));
    answer.field("seat_width", min_max(key.seat_width, unit));
    answer.field("seat_diameter", min_max(key.seat_diameter, unit));
    answer.length_row("width", key.width);
    answer.limits_row("height", key.height);
    answer.length_row("cutter diameter", key.cutter_diameter);
    answer.limits_row("seat width", key.seat_width);
    answer.limits_row("seat depth at the side", key.seat_depth);
    answer.limits_row("hub depth", key.hub_depth);
    if let (Some(seat), Some(shaft)) = (seat, shaft) {
        answer.length_row("depth from the top", seat.depths.from_top);
        answer.length_row("across the bottom", seat.depths.across_bottom);
        answer.length_row("arc height", seat.depths.arc_height);
        answer.length_row("slot length on the shaft", seat.slot_length);
        answer.length_row("raise after side touch", keyseat::side_touch(shaft.value, key.width));
        if let Some((usual, source)) = woodruff::usual_shafts(key.width).filter(|(u, _)| !u.holds(shaft.value)) {
            let range = format!("{} to {}", answer.bare(usual.min), answer.length(usual.max));
            answer.note(format!("this width is usual in shafts of {range} (practice)"));
            answer.source(source);
        }
    } else {
        answer.note("say --shaft for the depth from the top, the measure across the bottom and the slot's length");
    }
    answer.source(key.source);
    answer.source(key.width_source);
    Ok(answer)
}

/// Parallel keys by shaft, and the Woodruff numbers.
fn list(args: &KeyArgs) -> Answer {
    let own = args.show.unit().unwrap_or(Unit::Millimetre);
    let title = "Keys: handbook key \"25 mm\", handbook key \"1.250 in\", handbook key \"Woodruff 606\" --shaft 0.875";
    let mut answer = Answer::new("key", own, title, args.show);
    let mut all = Vec::new();
    for unit in [Unit::Millimetre, Unit::Inch].into_iter().filter(|u| args.show.unit().is_none_or(|o| o == *u)) {
        answer.line(format!("parallel keys, shaft over and to: width x height, {}", unit.word()));
        for (shafts, width, height) in key_parallel::sizes(unit) {
            let short = |l| show::exact(l, unit, 0, 5);
            let range = format!("  {} to {}", short(shafts.min), short(shafts.max));
            answer.row(&range, format!("{} x {}", short(width), short(height)));
            all.push(json!({"unit": unit.word(), "over": number(shafts.min, unit), "to": number(shafts.max, unit), "width": number(width, unit), "height": number(height, unit)}));
        }
    }
    let numbers: Vec<&str> = woodruff::all().map(|k| k.number).collect();
    answer.line("Woodruff numbers");
    for line in numbers.chunks(16) {
        answer.line(format!("  {}", line.join(" ")));
    }
    answer.field("parallel", Value::Array(all));
    answer.field("woodruff", json!(numbers));
    answer
}
