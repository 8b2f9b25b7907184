//! `handbook ring`.

use serde_json::{Value, json};

use super::answer::{Answer, min_max};
use super::size;
use crate::handbook::retaining_ring;
use crate::unit::{Unit, show};

/// `ring`.
#[derive(Debug, clap::Args)]
pub struct RingArgs {
    /// Diameter of the shaft; without one, the shafts that have a ring are listed.
    pub shaft: Option<String>,
    /// Units and format.
    #[command(flatten)]
    pub show: super::args::Show,
}

pub(super) fn answer(args: &RingArgs) -> Result<Answer, String> {
    let Some(text) = &args.shaft else { return Ok(list(args)) };
    let shaft = size::read(text, "shaft", args.show, None)?;
    let unit = shaft.unit;
    let Some(groove) = retaining_ring::for_shaft(shaft.value, unit) else {
        let mut near: Vec<_> = retaining_ring::shafts(unit).collect();
        near.sort_by_key(|s| (*s - shaft.value).abs());
        let near: Vec<String> = near.iter().take(3).map(|s| show::exact(*s, unit, 0, 4)).collect();
        return Err(format!("no ring for a shaft of {text}; near it: {} {}", near.join(", "), unit.word()));
    };
    let mut answer = Answer::new("ring", unit, "", args.show);
    answer.titled(format!("Groove for a retaining ring on a shaft of {}", answer.length_alone(groove.shaft)));
    answer.length_field("shaft", Some(groove.shaft));
    answer.field("diameter", min_max(groove.diameter, unit));
    answer.field("width", min_max(groove.width, unit));
    answer.length_field("depth_a_side", Some(groove.depth_a_side()));
    answer.length_field("ring", Some(groove.ring));
    answer.length_field("edge", Some(groove.edge));
    answer.limits_row("groove diameter", groove.diameter);
    answer.length_row("depth, per side", groove.depth_a_side());
    answer.limits_row("groove width", groove.width);
    answer.length_row("ring thickness", groove.ring);
    answer.length_row("least length to the end", groove.edge);
    answer.note("the loaded wall is sharp and square; the depth is a side, not on the diameter");
    answer.source(groove.source);
    answer.source(groove.tolerance_source);
    Ok(answer)
}

/// The shafts that have a ring.
fn list(args: &RingArgs) -> Answer {
    let mut answer = Answer::new(
        "ring",
        args.show.unit().unwrap_or(Unit::Millimetre),
        "Shafts with a retaining ring: handbook ring \"25 mm\"",
        args.show,
    );
    let mut all = Vec::new();
    for (unit, standard) in [(Unit::Millimetre, "DIN 471, mm"), (Unit::Inch, "ASME B18.27, in")] {
        let sizes: Vec<String> = retaining_ring::shafts(unit).map(|s| show::exact(s, unit, 0, 4)).collect();
        answer.row(standard, sizes.join(" "));
        all.push(json!({"standard": standard, "shafts": sizes}));
    }
    answer.field("shafts", Value::Array(all));
    answer
}
