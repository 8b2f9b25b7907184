//! `handbook o-ring`.

use serde_json::json;

use super::answer::{Answer, min_max};
use super::size;
use crate::handbook::o_ring::{self, Motion};
use crate::unit::{Unit, show};

/// `o-ring`.
#[derive(Debug, clap::Args)]
pub struct ORingArgs {
    /// Cross-section of the ring: .070 .103 .139 .210 .275 in, or 1.78 2.62 3.53 5.33 6.99 mm; without one, they are
    /// listed.
    pub section: Option<String>,
    /// Bore that closes the groove: shows the groove's diameter.
    #[arg(long)]
    pub bore: Option<String>,
    /// The parts slide on each other.
    #[arg(long)]
    pub sliding: bool,
    /// Units and format.
    #[command(flatten)]
    pub show: super::args::Show,
}

pub(super) fn answer(args: &ORingArgs) -> Result<Answer, String> {
    let Some(text) = &args.section else { return Ok(list(args)) };
    let section = size::read(text, "cross-section", args.show, None)?;
    let motion = if args.sliding { Motion::Sliding } else { Motion::Static };
    let Some(gland) = o_ring::gland(section.value, motion) else {
        let all: Vec<String> = o_ring::sections().map(|s| show::exact(s, Unit::Inch, 3, 3)).collect();
        return Err(format!("no ring of this cross-section; AS568 has {} in", all.join(", ")));
    };
    let bore = args.bore.as_ref().map(|b| size::read(b, "bore", args.show, Some(section.unit))).transpose()?;
    let unit = section.unit;
    let mut answer = Answer::new(
        "o-ring",
        unit,
        format!(
            "O-ring groove, cross-section {}, parts that {}",
            if text.ends_with(|c: char| c.is_ascii_digit()) { format!("{text} {}", unit.word()) } else { text.clone() },
            if args.sliding { "slide" } else { "stand still" }
        ),
        args.show,
    );
    answer.field("section", min_max(gland.section, unit));
    answer.field("depth_a_side", min_max(gland.depth, unit));
    answer.field("width", min_max(gland.width, unit));
    answer.field("radius", min_max(gland.radius, unit));
    answer.field("groove_diameter", bore.map_or(serde_json::Value::Null, |b| min_max(gland.groove_in(b.value), unit)));
    let (least, most) = gland.squeeze_permille();
    answer.field("squeeze_percent", json!({"min": least as f64 / 10.0, "max": most as f64 / 10.0}));
    answer.limits_row("depth to the bore, a side", gland.depth);
    answer.limits_row("width", gland.width);
    answer.limits_row("corner radius", gland.radius);
    if let Some(bore) = bore {
        answer.limits_row("groove diameter", gland.groove_in(bore.value));
    }
    answer.row("squeeze, nominal ring", format!("{:.0} to {:.0} %", least as f64 / 10.0, most as f64 / 10.0));
    answer.note("depth is taken from the bore, so clearance between shaft and bore is part of it; lead chamfers 15 to 20°, no sharp edge in the ring's way");
    answer.source(gland.source);
    Ok(answer)
}

/// The cross-sections.
fn list(args: &ORingArgs) -> Answer {
    let unit = args.show.unit().unwrap_or(Unit::Inch);
    let mut answer = Answer::new(
        "o-ring",
        unit,
        "O-ring cross-sections: handbook o-ring \".139 in\" --bore \"1.500 in\"",
        args.show,
    );
    let sections: Vec<_> = o_ring::sections().collect();
    for section in &sections {
        let text = format!("{} in", show::exact(*section, Unit::Inch, 3, 3));
        answer.row(&text, format!("{} mm", show::plain(*section, Unit::Millimetre, 2)));
    }
    answer.field("sections", json!(sections.iter().map(|s| super::answer::number(*s, unit)).collect::<Vec<_>>()));
    answer
}
