//! `handbook relief`.

use serde_json::{Value, json};

use super::answer::Answer;
use super::size;
use crate::handbook::thread;
use crate::handbook::undercut::{self, Duty, Undercut};
use crate::unit::Unit;

/// `relief`.
#[derive(Debug, clap::Args)]
pub struct ReliefArgs {
    /// A thread (M16x1.5, 5/8-18 UNF-2A) or an undercut (DIN 509 F, DIN 509 F 0.6x0.3); without one, the
    /// undercuts are listed.
    pub relief: Option<String>,
    /// Shaft of an undercut.
    #[arg(long)]
    pub shaft: Option<String>,
    /// The undercut for raised fatigue load.
    #[arg(long)]
    pub fatigue: bool,
    /// Units and format.
    #[command(flatten)]
    pub show: super::args::Show,
}

pub(super) fn answer(args: &ReliefArgs) -> Result<Answer, String> {
    let Some(text) = args.relief.as_deref().map(str::trim) else { return Ok(list(args)) };
    if text.to_uppercase().replace([' ', '-'], "").starts_with("DIN509") {
        return by_din_509(text, args);
    }
    if text.starts_with("509") {
        return by_din_509(&format!("DIN {text}"), args);
    }
    let designation = thread::read(text)
        .map_err(|_| format!("\"{text}\" is neither a thread (M16x1.5) nor an undercut (DIN 509 F)"))?;
    let data = thread::limits(&designation, &thread::Asked::special()).map_err(|_| format!("no limits for {text}"))?;
    let relief = data.relief.ok_or_else(|| format!("{} has no usual relief", designation.show()))?;
    let unit = args.show.unit().unwrap_or(data.unit);
    let mut answer = Answer::new("relief", unit, format!("Relief for {}", designation.show()), args.show);
    answer.length_field("diameter", Some(relief.diameter));
    answer.field("depth", Value::Null);
    answer.length_field("width_min", Some(relief.width_min));
    answer.length_field("width_max", Some(relief.width_max));
    answer.length_field("radius", relief.radius);
    answer.field("t2", Value::Null);
    answer.length_row("diameter", relief.diameter);
    answer.length_row("width, least", relief.width_min);
    answer.length_row("width, greatest", relief.width_max);
    answer.length_row("radius", relief.radius);
    answer.source(thread::relief_source(&data));
    Ok(answer)
}

fn by_din_509(text: &str, args: &ReliefArgs) -> Result<Answer, String> {
    let shaft = args.shaft.as_ref().map(|s| size::read(s, "shaft", args.show, Some(Unit::Millimetre))).transpose()?;
    let (found, others) = if let Some(found) = undercut::by_designation(text) {
        (found, Vec::new())
    } else {
        let shaft = shaft
            .ok_or("say the shaft: handbook relief \"DIN 509 F\" --shaft 25, or the size: \"DIN 509 F 0.6x0.3\"")?;
        let form = text.chars().last().unwrap_or(' ');
        let duty = if args.fatigue { Duty::Fatigue } else { Duty::Usual };
        let mut all = undercut::for_shaft(form, shaft.value, duty);
        if all.is_empty() {
            let sizes: Vec<String> = undercut::all().map(|u| u.designation()).collect();
            return Err(format!("DIN 509 gives no such undercut for this shaft; it has {}", sizes.join(", ")));
        }
        (all.remove(0), all)
    };
    let unit = args.show.unit().or(shaft.map(|s| s.unit)).unwrap_or(Unit::Millimetre);
    let mut answer = Answer::new("relief", unit, found.designation(), args.show);
    answer.field("designation", json!(found.designation()));
    answer.length_field("depth", Some(found.depth.min));
    answer.length_field("diameter", shaft.map(|s| s.value - found.depth.min.times(2)));
    answer.length_field("width_min", Some(found.width));
    answer.length_field("width_max", None);
    answer.length_field("radius", Some(found.radius));
    answer.length_field("t2", found.face_depth);
    answer.length_field("face_height", found.face_height);
    answer.limits_row("depth a side", found.depth);
    answer.length_row("diameter", shaft.map(|s| s.value - found.depth.min.times(2)));
    answer.length_row("width", found.width);
    answer.length_row("radius", found.radius);
    answer.length_row("depth in the face (t2)", found.face_depth);
    answer.length_row("height up the face", found.face_height);
    if !others.is_empty() {
        let names: Vec<String> = others.iter().map(Undercut::designation).collect();
        answer.note(format!("also for this shaft: {}", names.join(", ")));
    }
    answer.source(found.source);
    Ok(answer)
}

/// The undercuts of DIN 509; every thread has its own relief besides.
fn list(args: &ReliefArgs) -> Answer {
    let unit = args.show.unit().unwrap_or(Unit::Millimetre);
    let mut answer = Answer::new(
        "relief",
        unit,
        "Reliefs: any thread (handbook relief M16x1.5), and the undercuts of DIN 509",
        args.show,
    );
    let mut all = Vec::new();
    for form in ['E', 'F', 'G', 'H'] {
        let of: Vec<Undercut> = undercut::all().filter(|u| u.form == form).collect();
        let names: Vec<String> = of.iter().map(|u| u.designation().replace("DIN 509 ", "")).collect();
        answer.row(&format!("form {form}"), names.join(", "));
        all.extend(of.iter().map(|u| json!(u.designation())));
        for undercut in of {
            answer.source(undercut.source);
        }
    }
    answer.field("undercuts", Value::Array(all));
    answer
}
