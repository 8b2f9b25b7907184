//! `handbook eccentric`.

use super::answer::Answer;
use super::size;
use crate::handbook::eccentric;

/// `eccentric`.
#[derive(Debug, clap::Args)]
pub struct EccentricArgs {
    /// Throw: how far the second axis lies from the first.
    pub throw: String,
    /// Diameter of the bar that the jaws hold.
    #[arg(long)]
    pub diameter: String,
    /// Units and format.
    #[command(flatten)]
    pub show: super::args::Show,
}

pub(super) fn answer(args: &EccentricArgs) -> Result<Answer, String> {
    let throw = size::read(&args.throw, "throw", args.show, None)?;
    let diameter = size::read(&args.diameter, "diameter", args.show, Some(throw.unit))?.value;
    let unit = throw.unit;
    let throw = throw.value;
    let Some(narrow) = eccentric::packing_narrow(throw, diameter) else {
        return Err("a throw as large as the bar's radius: the second axis would not lie in the bar".to_owned());
    };
    let flat = eccentric::packing_flat(throw);
    let (reading, swings) = (eccentric::reading(throw), eccentric::swings(throw, diameter));
    let mut answer = Answer::new("eccentric", unit, "", args.show);
    let (off, bar) = (answer.length_alone(throw), answer.length_alone(diameter));
    answer.titled(format!("Bar of {bar} held {off} off its axis"));
    for (name, value) in [
        ("throw", throw),
        ("diameter", diameter),
        ("packing_flat", flat),
        ("packing_narrow", narrow),
        ("reading", reading),
        ("swings", swings),
    ] {
        answer.length_field(name, Some(value));
    }
    answer.line("under one jaw of a three-jaw chuck:");
    answer.length_row("packing, flat jaw tips", flat);
    answer.length_row("packing, narrow jaw tips", narrow);
    answer.line("in any chuck, and between offset centers:");
    answer.length_row("indicator, total reading", reading);
    answer.length_row("sweeps a circle of", swings);
    answer.note("set it by the indicator, packing only brings it near; chucks differ, and packing is squeezed");
    answer.note("the work is out of balance and the cut is interrupted: clamp hard, turn it once by hand past bed, slide and tool, start at the slowest speed, guard it and stand aside; follow your shop's rules and local law");
    answer.source(eccentric::source());
    Ok(answer)
}
