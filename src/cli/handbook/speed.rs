//! `handbook speed`.

use serde_json::{Value, json};

use super::answer::{Answer, physics};
use super::{material, size};
use crate::handbook::Source;
use crate::handbook::material::{Tool, assumed_speeds};
use crate::handbook::speed::{self, Cut, SurfaceSpeed};
use crate::unit::Unit;

/// Tool materials.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum ToolKind {
    /// High-speed steel.
    Hss,
    /// Carbide.
    Carbide,
}

/// Cuts that ask for a part of the turning speed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum CutKind {
    /// Roughing.
    Rough,
    /// Finishing.
    Finish,
    /// Grooving.
    Groove,
    /// Parting off.
    Part,
    /// Threading.
    Thread,
    /// Reaming.
    Ream,
    /// Drilling.
    Drill,
    /// Countersinking, counterboring.
    Form,
    /// Knurling.
    Knurl,
}

/// `speed`.
#[derive(Debug, clap::Args)]
pub struct SpeedArgs {
    /// Material; without it and without --surface-speed a slow speed is assumed.
    #[arg(long, conflicts_with = "surface_speed")]
    pub material: Option<String>,
    /// Tool.
    #[arg(long, value_enum, default_value = "hss")]
    pub tool: ToolKind,
    /// Cut.
    #[arg(long, value_enum, default_value = "rough")]
    pub cut: CutKind,
    /// Surface speed: ft/min with inches, m/min with millimetres.
    #[arg(long, value_parser = super::args::positive)]
    pub surface_speed: Option<f64>,
    /// Diameter at the cut.
    #[arg(long)]
    pub diameter: String,
    /// Units and format.
    #[command(flatten)]
    pub show: super::args::Show,
}

pub(super) fn answer(args: &SpeedArgs) -> Result<Answer, String> {
    let diameter = size::read(&args.diameter, "diameter", args.show, None)?;
    let unit = diameter.unit;
    let tool = if args.tool == ToolKind::Carbide { Tool::Carbide } else { Tool::Hss };
    let cut = cut(args.cut);
    let mut assumed = false;
    let (turning, source) = match (args.surface_speed, &args.material) {
        (Some(v), _) => {
            let v = if unit == Unit::Inch { SurfaceSpeed::feet(v) } else { SurfaceSpeed::metres(v) };
            (v, None)
        }
        (None, material) => {
            let speeds = match material {
                Some(text) => {
                    let named = material::find(text)?;
                    named.material.speeds(tool, named.condition)
                }
                None => assumed_speeds(tool),
            };
            assumed = speeds.assumed;
            (if cut == Cut::Finish { speeds.finish } else { speeds.rough }, Some(speeds.source))
        }
    };
    let (factor, rule) = speed::factor(cut);
    let surface = turning.times(factor);
    let rpm = speed::rpm(surface, diameter.value).ok_or("the diameter must be above zero")?;
    let word = if unit == Unit::Inch { "ft/min" } else { "m/min" };
    let mut answer = Answer::new("speed", unit, "", args.show);
    let slow = if assumed { " (material not known, ASSUMED slow)" } else { "" };
    answer.titled(format!("Speed at {}{slow}", answer.length_alone(diameter.value)));
    answer.field("surface_speed", physics(surface.in_unit(unit)));
    answer.field("rpm", physics(rpm));
    answer.field("speed_unit", json!(word));
    answer.field("assumed", json!(assumed));
    answer.field("material", args.material.as_ref().map_or(Value::Null, |m| json!(m)));
    answer.row("surface speed", format!("{:.0} {word}", surface.in_unit(unit)));
    answer.row("speed", format!("{rpm:.0} rev/min: take the nearest gear not above it"));
    if let Some(source) = source {
        answer.source(source);
    }
    if !matches!(cut, Cut::Rough | Cut::Finish) {
        answer.source(rule);
    }
    let formula = if unit == Unit::Inch { "n = 12 V / (pi D)" } else { "n = 1000 v / (pi d)" };
    answer.source(Source::printed(formula));
    Ok(answer)
}

const fn cut(kind: CutKind) -> Cut {
    match kind {
        CutKind::Rough => Cut::Rough,
        CutKind::Finish => Cut::Finish,
        CutKind::Groove => Cut::Groove,
        CutKind::Part => Cut::Part,
        CutKind::Thread => Cut::Thread,
        CutKind::Ream => Cut::Ream,
        CutKind::Drill => Cut::Drill,
        CutKind::Form => Cut::Form,
        CutKind::Knurl => Cut::Knurl,
    }
}
