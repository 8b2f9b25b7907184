//! `handbook heat`.

use serde_json::json;

use super::answer::{Answer, number, physics};
use super::{material, size};
use crate::handbook::heat;
use crate::unit::Unit;

/// `heat`.
#[derive(Debug, clap::Args)]
pub struct HeatArgs {
    /// Length or diameter that grows.
    pub size: String,
    /// Rise of temperature: kelvin, or degrees Fahrenheit with inches.
    #[arg(long, allow_negative_numbers = true, value_parser = super::args::finite)]
    pub rise: f64,
    /// Material.
    #[arg(long, default_value = "steel")]
    pub material: String,
    /// Units and format.
    #[command(flatten)]
    pub show: super::args::Show,
}

pub(super) fn answer(args: &HeatArgs) -> Result<Answer, String> {
    let size = size::read(&args.size, "size", args.show, None)?;
    let expansion = match heat::expansion(&args.material) {
        Some(e) => e,
        None => heat::of(&material::find(&args.material)?.material),
    };
    let growth = heat::growth(size.value, args.rise, expansion, size.unit);
    let degrees = if size.unit == Unit::Inch { "°F" } else { "K" };
    let mut answer = Answer::new("heat", size.unit, "", args.show);
    let long = answer.length_alone(size.value);
    answer.titled(format!("{long} of {} warmed by {} {degrees}", args.material, args.rise));
    answer.field("growth", number(growth, size.unit));
    let rate = if size.unit == Unit::Inch { expansion.per_fahrenheit } else { expansion.per_kelvin };
    answer.field("expansion", physics(rate * 1e-6));
    answer.field("material", json!(args.material));
    answer.length_row("grows by", growth);
    answer.row("expansion", format!("{rate:.1} e-6 per {degrees}"));
    answer.note("a piece turned to size while warm is under size when cold");
    answer.source(expansion.source);
    Ok(answer)
}
