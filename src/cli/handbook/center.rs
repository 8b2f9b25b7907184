//! `handbook center`.

use serde_json::{Value, json};

use super::answer::Answer;
use super::size;
use crate::handbook::Source;
use crate::handbook::center::{self, CenterHole};
use crate::unit::Unit;

/// `center`.
#[derive(Debug, clap::Args)]
pub struct CenterArgs {
    /// Designation: A 2.5, B 3.15, R 4, D M8, DS M8, No. 3, A 1/8; without one, the sizes are listed.
    pub designation: Option<String>,
    /// The size usual for this shaft (practice).
    #[arg(long, conflicts_with = "designation")]
    pub shaft: Option<String>,
    /// Units and format.
    #[command(flatten)]
    pub show: super::args::Show,
}

pub(super) fn answer(args: &CenterArgs) -> Result<Answer, String> {
    if let Some(shaft) = &args.shaft {
        let shaft = size::read(shaft, "shaft", args.show, None)?;
        let hole = center::usual(shaft.value, shaft.unit).ok_or("no usual center hole for a shaft of this size")?;
        let mut answer = hole_answer(&hole, args);
        answer.note("usual for this shaft: the mouth about a quarter of its diameter");
        answer.source(Source::from_memory("usual size for a shaft: common practice, no source"));
        return Ok(answer);
    }
    let Some(text) = &args.designation else { return Ok(list(args)) };
    let hole = center::find(text).map_err(|e| e.to_string())?;
    Ok(hole_answer(&hole, args))
}

fn list(args: &CenterArgs) -> Answer {
    let all = center::designations();
    let mut answer = Answer::new("center", Unit::Millimetre, "Center holes", args.show);
    for form in ["A", "B", "R", "D", "No."] {
        let of: Vec<&str> = all.iter().map(String::as_str).filter(|d| d.split(' ').next() == Some(form)).collect();
        answer.line(of.join(", "));
    }
    answer.line("inch forms: A, B or R and the drill of a numbered center drill: A 1/8");
    answer.field("designations", json!(all));
    answer
}

fn hole_answer(hole: &CenterHole, args: &CenterArgs) -> Answer {
    let unit = args.show.unit().unwrap_or(hole.unit);
    let mut answer = Answer::new("center", unit, format!("Center hole {}", hole.designation), args.show);
    answer.field("designation", json!(hole.designation));
    answer.length_field("drill_diameter", Some(hole.drill_diameter));
    answer.length_field("mouth_diameter", Some(hole.mouth_diameter));
    answer.length_field("depth", Some(hole.depth));
    answer.length_field("protecting_diameter", hole.protecting_diameter);
    answer.length_field("protecting_depth", hole.protecting_depth);
    answer.length_field("body_diameter", hole.body);
    answer.field("thread", hole.thread.as_ref().map_or(Value::Null, |t| json!(t)));
    answer.length_field("thread_depth", hole.thread_depth);
    answer.length_row(if hole.thread.is_some() { "core drill" } else { "drill" }, hole.drill_diameter);
    answer.length_row("mouth of the 60° cone", hole.mouth_diameter);
    answer.length_row("depth", hole.depth);
    answer.length_row("protecting diameter", hole.protecting_diameter);
    answer.length_row("protecting depth", hole.protecting_depth);
    answer.length_row("body of the center drill", hole.body);
    answer.length_row("thread depth", hole.thread_depth);
    answer.source(hole.source);
    answer.source(hole.mouth_source);
    answer
}
