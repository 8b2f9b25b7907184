//! `handbook knurl`.

use serde_json::{Map, json};

use super::answer::{Answer, number};
use super::size;
use crate::handbook::knurl::{self, Diametral};
use crate::unit::{Length, Unit};

/// `knurl`.
#[derive(Debug, clap::Args)]
pub struct KnurlArgs {
    /// Form of DIN 82 (RAA, RBL, RBR, RGE, RGV, RKE, RKV), or a diametral pitch (96, "96 DP"); without one, they are listed.
    pub form: Option<String>,
    /// Pitch of a DIN 82 knurl.
    #[arg(long)]
    pub pitch: Option<String>,
    /// Blank's diameter.
    #[arg(long)]
    pub blank: Option<String>,
    /// Units and format.
    #[command(flatten)]
    pub show: super::args::Show,
}

pub(super) fn answer(args: &KnurlArgs) -> Result<Answer, String> {
    let Some(form) = &args.form else { return Ok(list(args)) };
    if let Some(pitch) = diametral_pitch(form) {
        return by_diametral_pitch(pitch, args);
    }
    let Some(pitch_text) = &args.pitch else {
        return Err(format!("say the knurl's pitch: handbook knurl {form} --pitch \"0.8 mm\" (DIN 82: 0.5 to 1.6 mm)"));
    };
    let pitch = size::read(pitch_text, "pitch", args.show, Some(Unit::Millimetre))?;
    let Some((growth, source)) = knurl::growth(form, pitch.value) else {
        let forms: Vec<String> = knurl::forms().map(|(letters, name)| format!("{letters} ({name})")).collect();
        return Err(format!("DIN 82 has no form {form}; it has {}; by diametral pitch: 96 DP", forms.join(", ")));
    };
    let blank = args.blank.as_ref().map(|b| size::read(b, "blank", args.show, Some(pitch.unit))).transpose()?;
    let unit = args.show.unit().or(blank.map(|b| b.unit)).unwrap_or(pitch.unit);
    let mut answer = Answer::new("knurl", unit, String::new(), args.show);
    let title = format!("Knurl {}, pitch {}", form.to_uppercase(), answer.length(pitch.value));
    answer = Answer::new("knurl", unit, title, args.show);
    answer.length_field("growth", Some(growth));
    answer.length_row("grows on diameter, about", growth);
    if let Some(blank) = blank {
        finished(&mut answer, blank.value, growth);
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

fn finished(answer: &mut Answer, blank: Length, growth: Length) {
    answer.length_field("blank", Some(blank));
    answer.length_field("finished", Some(blank + growth));
    answer.length_row("blank", blank);
    answer.length_row("finished diameter, about", blank + growth);
}

/// `96`, `96 DP`, `DP 96`, `96dp`.
fn diametral_pitch(text: &str) -> Option<i64> {
    let upper = text.to_ascii_uppercase();
    let digits = upper.replace("DP", "");
    digits.trim().parse().ok()
}

fn by_diametral_pitch(pitch: i64, args: &KnurlArgs) -> Result<Answer, String> {
    let Some(knurl) = knurl::diametral(pitch) else {
        let all: Vec<String> = knurl::diametral_pitches().map(|p| p.to_string()).collect();
        return Err(format!("ASME B94.6 has no diametral pitch {pitch}; it has {}", all.join(", ")));
    };
    let blank = args.blank.as_ref().map(|b| size::read(b, "blank", args.show, Some(Unit::Inch))).transpose()?;
    let unit = args.show.unit().or(blank.map(|b| b.unit)).unwrap_or(Unit::Inch);
    let mut answer = Answer::new("knurl", unit, format!("Knurl of diametral pitch {pitch}"), args.show);
    answer.field("diametral_pitch", json!(pitch));
    answer.length_field("growth", Some(knurl.growth));
    answer.length_field("blank_tolerance", Some(knurl.blank_tolerance));
    let classes: Map<_, _> = knurl
        .knurled
        .iter()
        .map(|(name, l)| ((*name).to_owned(), json!({"upper": number(l.max, unit), "lower": number(l.min, unit)})))
        .collect();
    answer.field("knurled", json!(classes));
    answer.length_row("grows on diameter, about", knurl.growth);
    let tolerance = format!("± {}", answer.length(knurl.blank_tolerance));
    answer.row("blank before knurling", tolerance);
    for (name, limits) in &knurl.knurled {
        let use_of = if *name == "I" { "any form" } else { "straight only" };
        let text = format!("+{} / {} ({use_of})", answer.bare(limits.max), signed(&answer, limits.min));
        answer.row(&format!("knurled diameter, class {name}"), text);
    }
    let every = format!("every {}", answer.length(knurl.tracks_every));
    answer.row("whole teeth on blanks", every);
    if let Some(blank) = blank {
        on_blank(&mut answer, &knurl, blank.value);
    }
    answer.note("growth depends on the material and the pressure: try it on a spare end");
    answer.source(knurl.source);
    answer.source(knurl.other_source);
    Ok(answer)
}

fn signed(answer: &Answer, value: Length) -> String {
    format!("\u{2212}{}", answer.bare(value.abs()))
}

fn on_blank(answer: &mut Answer, knurl: &Diametral, blank: Length) {
    finished(answer, blank, knurl.growth);
    if let Some(around) = knurl.around(blank) {
        answer.field("teeth", json!(around.teeth));
        answer.field("tracks", json!(knurl.tracks(blank)));
        answer.length_field("blank_for_whole_teeth", Some(around.blank));
        let text = format!("{} teeth on {}", around.teeth, answer.length(around.blank));
        answer.row("whole teeth", text);
        if !knurl.tracks(blank) {
            answer.note("the standard's tools track on the blanks named; on another, turn it to the whole teeth or expect double lines");
        }
    }
}

/// What can be asked.
fn list(args: &KnurlArgs) -> Answer {
    let mut answer = Answer::new("knurl", args.show.unit().unwrap_or(Unit::Millimetre), "Knurls", args.show);
    let forms: Vec<_> = knurl::forms().collect();
    for (letters, name) in &forms {
        answer.row(letters, format!("{name} (DIN 82)"));
    }
    for pitch in knurl::diametral_pitches() {
        answer.row(&format!("{pitch} DP"), "diametral pitch (ASME B94.6)");
    }
    answer.field("forms", json!(forms.iter().map(|(letters, _)| letters).collect::<Vec<_>>()));
    answer.field("diametral_pitches", json!(knurl::diametral_pitches().collect::<Vec<_>>()));
    answer
}
