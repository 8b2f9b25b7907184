//! `handbook knurl`.

use serde_json::json;

use super::answer::Answer;
use super::size;
use crate::handbook::knurl;
use crate::unit::Unit;

/// `knurl`.
#[derive(Debug, clap::Args)]
pub struct KnurlArgs {
    /// Form of DIN 82: RAA, RBL, RBR, RGE, RGV, RKE, RKV.
    pub form: String,
    /// Pitch.
    #[arg(long)]
    pub pitch: String,
    /// Blank's diameter.
    #[arg(long)]
    pub blank: Option<String>,
    /// Units and format.
    #[command(flatten)]
    pub show: super::args::Show,
}

pub(super) fn answer(args: &KnurlArgs) -> Result<Answer, String> {
    let pitch = size::read(&args.pitch, "pitch", args.show, Some(Unit::Millimetre))?;
    let Some((growth, source)) = knurl::growth(&args.form, pitch.value) else {
        let forms: Vec<String> = knurl::forms().map(|(letters, name)| format!("{letters} ({name})")).collect();
        return Err(format!("DIN 82 has no form {}; it has {}", args.form, forms.join(", ")));
    };
    let blank = args.blank.as_ref().map(|b| size::read(b, "blank", args.show, Some(pitch.unit))).transpose()?;
    let unit = blank.map_or(pitch.unit, |b| b.unit);
    let mut answer =
        Answer::new("knurl", unit, format!("Knurl {} {}", args.form.to_uppercase(), args.pitch), args.show);
    answer.length_field("growth", Some(growth));
    answer.length_row("grows on diameter, about", growth);
    if let Some(blank) = blank {
        answer.length_field("finished", Some(blank.value + growth));
        answer.length_row("finished diameter, about", blank.value + growth);
        if let Some(around) = knurl::around(blank.value, pitch.value) {
            answer.field("teeth", json!(around.teeth));
            answer.length_field("blank_for_whole_teeth", Some(around.blank));
            let text = format!("{} teeth on {}", around.teeth, answer.length(around.blank));
            answer.row("whole teeth", text);
        }
    }
    answer.note("growth depends on the material and the pressure: try it on a spare end");
    answer.source(source);
    Ok(answer)
}
