//! `handbook dial`.

use serde_json::json;

use super::answer::Answer;
use crate::handbook::thread_dial::{self, Lead, ThreadDial};
use crate::unit::{Unit, read_number};

/// `dial`.
#[derive(Debug, clap::Args)]
pub struct DialArgs {
    /// Lead to cut: 13 tpi, 11.5 tpi, 11 1/2 tpi, 1.5 mm, 0.4 in.
    pub lead: String,
    /// The leadscrew: 8 tpi, 6 mm.
    #[arg(long)]
    pub leadscrew: String,
    /// Teeth of the dial's worm gear.
    #[arg(long, value_parser = clap::value_parser!(u32).range(1..=1000))]
    pub teeth: u32,
    /// Lines around the dial.
    #[arg(long, value_parser = clap::value_parser!(u32).range(1..=360))]
    pub marks: u32,
    /// What is engraved at the lines, beginning with line 0: 1 - 2 - 3 - 4 -
    #[arg(long, allow_hyphen_values = true)]
    pub engraved: Option<String>,
    /// Units and format.
    #[command(flatten)]
    pub show: super::args::Show,
}

pub(super) fn answer(args: &DialArgs) -> Result<Answer, String> {
    let (lead, screw) = (lead(&args.lead)?, lead(&args.leadscrew)?);
    let dial = ThreadDial { leadscrew: screw.length(), teeth: args.teeth, marks: args.marks };
    let found =
        thread_dial::engage(dial, screw, lead).ok_or("the lead, the leadscrew and the dial must be above zero")?;
    let title = format!(
        "{} on a leadscrew of {}, dial of {} teeth and {} lines",
        args.lead, args.leadscrew, args.teeth, args.marks
    );
    let mut answer = Answer::new("dial", args.show.unit().unwrap_or(Unit::Inch), title, args.show);
    let labels = args.engraved.as_ref().map_or_else(
        || found.lines.iter().map(ToString::to_string).collect(),
        |engraved| thread_dial::labels(engraved, args.marks, &found.lines),
    );
    answer.field("anywhere", json!(found.anywhere));
    answer.field("lines", json!(found.lines));
    answer.field("labels", json!(labels));
    answer.field("never_open", json!(found.never_open));
    if found.anywhere {
        answer.line("close the half-nuts anywhere: every leadscrew thread is right");
    } else if found.never_open {
        answer.line("keep the half-nuts closed and reverse the lathe: no line comes right within one turn of the dial");
    } else {
        let list: Vec<String> = found.lines.iter().map(ToString::to_string).collect();
        answer.row("lines", format!("{} (line {} is also 0)", list.join(", "), args.marks));
        if args.engraved.is_some() {
            answer.row("engraved", labels.join(", "));
        }
        answer.note("begin at a line of the list and close again only at lines of the list");
    }
    answer.source(thread_dial::source());
    Ok(answer)
}

/// A lead: `13 tpi`, `11 1/2 tpi`, `1.5 mm`, `0.4 in`.
fn lead(text: &str) -> Result<Lead, String> {
    let lower = text.trim().to_lowercase();
    let wrong = || format!("\"{text}\" is no lead; write 13 tpi, 11 1/2 tpi, 1.5 mm or 0.4 in");
    if let Some(count) = lower.strip_suffix("tpi") {
        // Threads to the inch are read like a length in millimetres: a thousand-millionth of a thread is enough.
        let count = read_number(count.trim(), Unit::Millimetre).map_err(|_| wrong())?;
        let lead = Lead::threads_per_inch(count.value.pm(), Unit::Millimetre.one().pm(), 1);
        return if count.own_unit || !lead.is_positive() { Err(wrong()) } else { Ok(lead) };
    }
    let number = read_number(&lower, Unit::Millimetre).map_err(|_| wrong())?;
    if !number.own_unit || !number.value.is_positive() {
        return Err(wrong());
    }
    Ok(Lead::of(number.value))
}
