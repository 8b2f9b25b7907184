//! `handbook deflection`.

use serde_json::json;

use super::answer::{Answer, number, physics};
use super::size;
use crate::handbook::beam::{self, Beam, Hold};
use crate::unit::{Length, Unit};

/// Newtons in a pound-force.
const POUND: f64 = 4.448_221_615_260_5;

/// Holdings of a bar.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum HoldKind {
    /// Chuck only.
    Chuck,
    /// Chuck and tailstock center.
    ChuckCenter,
    /// Between centers.
    Centers,
    /// Chuck and steady rest; `--rest` says where it stands.
    ChuckRest,
}

/// `deflection`.
#[derive(Debug, clap::Args)]
pub struct DeflectionArgs {
    /// Holding.
    #[arg(long, value_enum)]
    pub hold: HoldKind,
    /// The bar from the chuck or left center: diameter x length, piece by piece.
    #[arg(long)]
    pub bar: String,
    /// Where the steady rest stands, from the chuck.
    #[arg(long, required_if_eq("hold", "chuck-rest"))]
    pub rest: Option<String>,
    /// Force sideways at the tool: N, or lbf with inches.
    #[arg(long, value_parser = super::args::positive)]
    pub force: f64,
    /// Where it acts, from the chuck or left center.
    #[arg(long)]
    pub at: String,
    /// Modulus of elasticity.
    #[arg(long, value_parser = super::args::positive, help = "Modulus of elasticity: MPa, or psi with inches; steel when left out")]
    pub modulus: Option<f64>,
    /// Stiffness of chuck or spindle sideways: N/mm, or lbf/in; rigid when left out.
    #[arg(long, value_parser = super::args::positive)]
    pub chuck_stiffness: Option<f64>,
    /// Stiffness of a center sideways: N/mm, or lbf/in; rigid when left out.
    #[arg(long, value_parser = super::args::positive)]
    pub center_stiffness: Option<f64>,
    /// Units and format.
    #[command(flatten)]
    pub show: super::args::Show,
}

pub(super) fn answer(args: &DeflectionArgs) -> Result<Answer, String> {
    let unit = args.show.unit().ok_or("say --units mm (newtons, MPa, N/mm) or --units in (pounds, psi, lbf/in)")?;
    let inch = unit == Unit::Inch;
    let (force, pressure, stiffness) =
        if inch { (POUND, POUND / (25.4 * 25.4), POUND / 25.4) } else { (1.0, 1.0, 1.0) };
    let hold = match args.hold {
        HoldKind::Chuck => Hold::Chuck,
        HoldKind::ChuckCenter => Hold::ChuckAndCenter,
        HoldKind::Centers => Hold::Centers,
        HoldKind::ChuckRest => Hold::ChuckAndRest,
    };
    let center = args.center_stiffness.map(|k| k * stiffness);
    let near = if hold == Hold::Centers { center } else { args.chuck_stiffness.map(|k| k * stiffness) };
    let bar = Beam {
        pieces: pieces(args)?,
        hold,
        modulus: args.modulus.map_or(beam::STEEL_MPA, |m| m * pressure),
        near_stiffness: near,
        tail_stiffness: if matches!(hold, Hold::Chuck | Hold::ChuckAndRest) { None } else { center },
        rest_at: rest_at(args, hold)?,
    };
    let at = size::read_from_zero(&args.at, "place of the force", args.show, None)?;
    let d = bar.under(args.force * force, at.value.mm()).map_err(|e| e.to_string())?;
    let length = |mm: f64| Length::from_f64(mm, Unit::Millimetre);
    let mut answer = Answer::new("deflection", unit, "Deflection under the tool", args.show);
    answer.field("deflection", physics(length_in(d.at_force, unit)));
    answer.field("diameter_error", physics(length_in(d.diameter_error, unit)));
    let rested = hold == Hold::ChuckAndRest;
    let (on_center, on_rest) = if rested { (0.0, d.tail_reaction) } else { (d.tail_reaction, 0.0) };
    answer.field("tail_reaction", physics(on_center / force));
    if rested {
        answer.field("rest_reaction", physics(on_rest / force));
    }
    answer.field(
        "greatest",
        json!({"at": number(length(d.greatest_at), unit), "deflection": physics(length_in(d.greatest, unit))}),
    );
    let (force_word, digits) = if inch { ("lbf", 5) } else { ("N", 4) };
    answer.row("under the tool, a side", format!("{:.digits$} {}", length_in(d.at_force, unit), unit.word()));
    answer.row("error of the diameter", format!("{:.digits$} {}", length_in(d.diameter_error, unit), unit.word()));
    let carries = if rested { "force on the steady rest" } else { "force on the tailstock center" };
    answer.row(carries, format!("{:.1} {force_word}", d.tail_reaction / force));
    let greatest =
        format!("{:.digits$} {} at {:.1}", length_in(d.greatest, unit), unit.word(), length_in(d.greatest_at, unit));
    answer.row("greatest", greatest);
    answer.note("a smooth round bar as drawn; the real one also gives at jaws, centers and the tool post");
    answer.source(beam::source());
    Ok(answer)
}

/// Where the steady rest stands; it belongs to `chuck-rest` alone.
fn rest_at(args: &DeflectionArgs, hold: Hold) -> Result<Option<f64>, String> {
    let Some(text) = &args.rest else { return Ok(None) };
    if hold != Hold::ChuckAndRest {
        return Err("--rest belongs to --hold chuck-rest".to_owned());
    }
    Ok(Some(size::read_from_zero(text, "place of the rest", args.show, None)?.value.mm()))
}

fn length_in(mm: f64, unit: Unit) -> f64 {
    if unit == Unit::Inch { mm / 25.4 } else { mm }
}

/// `30x150 20x150`.
fn pieces(args: &DeflectionArgs) -> Result<Vec<(f64, f64)>, String> {
    let joined = args.bar.replace(['×', 'X'], "x").replace(" x ", "x");
    joined
        .split_whitespace()
        .map(|piece| {
            let (d, l) = piece.split_once('x').ok_or_else(|| format!("bar: \"{piece}\" is no diameter x length"))?;
            let read = |t: &str| size::read(t, "bar", args.show, None).map(|s| s.value.mm());
            Ok((read(d)?, read(l)?))
        })
        .collect()
}
