//! `handbook wrench`.

use serde_json::{Value, json};

use super::answer::Answer;
use super::size;
use crate::handbook::wrench;
use crate::unit::{Unit, show};

/// `wrench`.
#[derive(Debug, clap::Args)]
pub struct WrenchArgs {
    /// Width across flats; without one, the standard ones are listed.
    pub across_flats: Option<String>,
    /// Round the flats are milled on: shows their width.
    #[arg(long)]
    pub round: Option<String>,
    /// Units and format.
    #[command(flatten)]
    pub show: super::args::Show,
}

pub(super) fn answer(args: &WrenchArgs) -> Result<Answer, String> {
    let Some(text) = &args.across_flats else { return Ok(list(args)) };
    let flats = size::read(text, "across flats", args.show, None)?;
    let round = args.round.as_ref().map(|r| size::read(r, "round", args.show, Some(flats.unit))).transpose()?;
    let mut answer = Answer::new("wrench", flats.unit, "", args.show);
    answer.titled(format!("{} across flats", answer.length_alone(flats.value)));
    answer.length_field("across_flats", Some(flats.value));
    answer.length_field("hexagon_corners", Some(wrench::hexagon_corners(flats.value)));
    answer.length_field("square_corners", Some(wrench::square_corners(flats.value)));
    answer.length_row("hexagon, across corners", wrench::hexagon_corners(flats.value));
    answer.length_row("square, across corners", wrench::square_corners(flats.value));
    if let Some((size, off)) = wrench::nearest(flats.value, flats.unit) {
        answer.length_field("nearest_standard", Some(size));
        let text = format!("{} (this one is {} off)", answer.length(size), answer.bare(off));
        answer.row("nearest wrench", text);
        answer.source(wrench::source());
    }
    if let Some(round) = round {
        let wide = wrench::flat_width(round.value, flats.value);
        answer.length_field("flat_width", Some(wide));
        answer.length_field("depth_a_side", Some((round.value - flats.value).half()));
        answer.length_row("width of each flat", wide);
        answer.length_row("depth a side", (round.value - flats.value).half());
    }
    Ok(answer)
}

/// The standard widths across flats.
fn list(args: &WrenchArgs) -> Answer {
    let own = args.show.unit().unwrap_or(Unit::Millimetre);
    let mut answer =
        Answer::new("wrench", own, "Widths across flats: handbook wrench \"18 mm\" --round \"22 mm\"", args.show);
    let mut all = Vec::new();
    for unit in [Unit::Millimetre, Unit::Inch] {
        let sizes: Vec<String> = wrench::across_flats(unit).map(|s| show::exact(s, unit, 0, 4)).collect();
        answer.row(unit.word(), sizes.join(" "));
        all.push(json!({"unit": unit.word(), "across_flats": sizes}));
    }
    answer.field("sizes", Value::Array(all));
    answer.source(wrench::source());
    answer
}
