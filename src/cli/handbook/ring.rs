//! `handbook ring`.

use super::answer::{Answer, min_max};
use super::size;
use crate::handbook::retaining_ring;
use crate::unit::show;

/// `ring`.
#[derive(Debug, clap::Args)]
pub struct RingArgs {
    /// Diameter of the shaft.
    pub shaft: String,
    /// Units and format.
    #[command(flatten)]
    pub show: super::args::Show,
}

pub(super) fn answer(args: &RingArgs) -> Result<Answer, String> {
    let shaft = size::read(&args.shaft, "shaft", args.show, None)?;
    let unit = shaft.unit;
    let Some(groove) = retaining_ring::for_shaft(shaft.value, unit) else {
        let mut near: Vec<_> = retaining_ring::shafts(unit).collect();
        near.sort_by_key(|s| (*s - shaft.value).abs());
        let near: Vec<String> = near.iter().take(3).map(|s| show::exact(*s, unit, 0, 4)).collect();
        return Err(format!("no ring for a shaft of {}; near it: {} {}", args.shaft, near.join(", "), unit.word()));
    };
    let mut answer =
        Answer::new("ring", unit, format!("Groove for a retaining ring on a shaft of {}", args.shaft), args.show);
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
