//! `handbook whip`.

use super::answer::{Answer, physics};
use super::{material, size};
use crate::handbook::{beam, whip};

/// `whip`.
#[derive(Debug, clap::Args)]
pub struct WhipArgs {
    /// Diameter of the bar.
    pub diameter: String,
    /// How far it stands out behind its last support.
    #[arg(long)]
    pub length: String,
    /// Material; steel when left out.
    #[arg(long)]
    pub material: Option<String>,
    /// Units and format.
    #[command(flatten)]
    pub show: super::args::Show,
}

pub(super) fn answer(args: &WhipArgs) -> Result<Answer, String> {
    let diameter = size::read(&args.diameter, "diameter", args.show, None)?;
    let length = size::read(&args.length, "length", args.show, Some(diameter.unit))?;
    let (modulus, density) = match args.material.as_deref() {
        None | Some("steel") => (beam::STEEL_MPA, whip::STEEL_DENSITY),
        Some(text) => {
            let found = material::find(text)?.material;
            (found.modulus * 1000.0, found.density)
        }
    };
    let rpm = whip::first_bending_rpm(diameter.value, length.value, modulus, density)
        .ok_or("diameter and length must be above zero")?;
    let mut answer = Answer::new("whip", diameter.unit, "", args.show);
    let (thick, out) = (answer.length_alone(diameter.value), answer.length_alone(length.value));
    answer.titled(format!("Bar of {thick} standing out {out}"));
    answer.field("rpm", physics(rpm));
    answer.row("first bending speed", format!("{rpm:.0} rev/min"));
    answer.row("half of it", format!("{:.0} rev/min", rpm / 2.0));
    answer.note("a bar bends and whips without warning well below this speed when it is not straight: carry it in a tube or stand along its length, start slow, fence it off; follow your shop's rules and local law");
    answer.source(whip::source());
    Ok(answer)
}
