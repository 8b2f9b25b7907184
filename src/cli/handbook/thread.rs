//! `handbook thread`.

use serde_json::{Value, json};

use super::answer::{Answer, max_min, min_max, number, physics};
use super::size;
use super::thread_near;
use crate::handbook::thread::{self, Asked, BadThread, BadThreadWhy, Feed, Form, Hand, Pitch, ThreadData, Unknown};
use crate::unit::{Length, Limits, Unit, show};

/// `thread`.
#[derive(Debug, clap::Args)]
pub struct ThreadArgs {
    /// Designation: 3/4-16 UNF-2A, M16x1.5-6g, Tr 40x14(P7)-7e, G 1/2; without one, the series are listed.
    pub designation: Option<String>,
    /// A measuring wire at hand; readings are worked for it.
    #[arg(long)]
    pub wire: Option<String>,
    /// Length of engagement: the tolerance (inch) or the usual class (metric) depends on it.
    #[arg(long)]
    pub engagement: Option<String>,
    /// Work a pair of diameter and pitch that is in no series, as a special thread.
    #[arg(long)]
    pub special: bool,
    /// Units and format.
    #[command(flatten)]
    pub show: super::args::Show,
}

pub(super) fn answer(args: &ThreadArgs) -> Result<Answer, String> {
    let Some(text) = &args.designation else { return Ok(list(args)) };
    let designation = thread::read(text).map_err(|e| unreadable(text, &e))?;
    let own = designation.unit();
    let read = |text: &Option<String>, what: &str| {
        text.as_ref().map(|t| size::read(t, what, args.show, Some(own)).map(|s| s.value)).transpose()
    };
    let asked = Asked {
        wire: read(&args.wire, "wire")?,
        special: args.special,
        engagement: read(&args.engagement, "engagement")?,
    };
    let data = thread::limits(&designation, &asked).map_err(|why| unknown(text, &why))?;
    let unit = args.show.unit().unwrap_or(data.unit);
    let mut answer = Answer::new("thread", unit, format!("{}: {}", designation.show(), data.form.name()), args.show);
    head(&mut answer, &data, unit);
    limits(&mut answer, &data, unit);
    cutting(&mut answer, &data, unit);
    measuring(&mut answer, &data, unit);
    beside(&mut answer, &data, unit);
    for note in &data.notes {
        answer.note(note.clone());
    }
    for source in &data.source {
        answer.source(*source);
    }
    Ok(answer)
}

/// What cannot be read, and where.
pub(super) fn unreadable(text: &str, bad: &BadThread) -> String {
    let why = match bad.why {
        BadThreadWhy::Empty => "nothing is there",
        BadThreadWhy::Missing => "a number is missing behind this",
        BadThreadWhy::Number => "this number cannot be read",
        BadThreadWhy::Comma => "a decimal comma: write a point",
        BadThreadWhy::NoPitch | BadThreadWhy::NoSeries if !thread_near::of_size(text).is_empty() => {
            let near = thread_near::of_size(text).join(", ");
            let why = if bad.why == BadThreadWhy::NoSeries { "is in no series" } else { "needs a pitch" };
            return format!("\"{text}\" {why}; near it: {near}");
        }
        BadThreadWhy::NoPitch => "the pitch is missing, and no usual one is known",
        BadThreadWhy::NoSeries => "the size is in no series: give pitch and letters",
        BadThreadWhy::Class if !thread_near::classes(text, &bad.at).is_empty() => {
            let class = text.get(bad.at.clone()).unwrap_or_default();
            return format!(
                "\"{text}\": there is no class {class} here; there are {}",
                thread_near::classes(text, &bad.at)
            );
        }
        BadThreadWhy::Lead => "the lead is no whole multiple of the pitch",
        BadThreadWhy::Letters => "no thread known here has these letters",
        BadThreadWhy::Class => "this kind of thread has no such class",
        BadThreadWhy::Twice => "said twice, or two things that exclude each other",
        BadThreadWhy::Character => "this has no place in a designation",
        BadThreadWhy::NotSupported(what) => return format!("\"{text}\": not supported yet: {what}"),
    };
    let at = text.get(bad.at.clone()).unwrap_or_default();
    format!(
        "\"{text}\" cannot be read at \"{at}\": {why}; write 5/8-18 UNF-2A, 10-32, M16x1.5-6g, Tr 40x7-7e, G 1/2 or 1/2-14 NPT"
    )
}

fn unknown(text: &str, why: &Unknown) -> String {
    match why {
        Unknown::Pair { nearest } => {
            let near: Vec<String> = nearest.iter().map(thread::Designation::show).collect();
            format!(
                "{text} is in no series; near it: {} (--special works it by the formulas for special threads)",
                near.join(", ")
            )
        }
        Unknown::Class { known } => format!("{text}: no such class here; there are {}", known.join(", ")),
        Unknown::Range(range) => format!("{text} is beyond its standard: {range}"),
        Unknown::NotSupported(what) => format!("{text}: not supported yet: {what}"),
    }
}

fn pitch(pitch: Pitch, unit: Unit) -> Value {
    physics(pitch.to_f64(unit))
}

fn head(answer: &mut Answer, data: &ThreadData, unit: Unit) {
    answer.field("designation", json!(data.designation.show()));
    answer.field("form", json!(data.form.name()));
    answer.length_field("nominal", Some(data.nominal));
    answer.field("pitch", pitch(data.pitch, unit));
    answer.field("lead", pitch(data.lead, unit));
    answer.field("starts", json!(data.starts));
    answer.field("hand", json!(if data.hand == Hand::Left { "left" } else { "right" }));
    answer.field("standard", json!(data.standard));
    let mut line = match data.pitch {
        Pitch::Inch { .. } => format!("{} threads per inch", data.pitch.show()),
        Pitch::Metric(_) => format!("{} mm", data.pitch.show()),
    };
    if data.starts > 1 {
        line = format!("{line}, {} starts", data.starts);
    }
    if data.hand == Hand::Left {
        line.push_str(", LEFT HAND");
    }
    answer.row("pitch", line);
    answer.row("lead angle", format!("{:.2}°", data.lead_angle));
}

fn limits(answer: &mut Answer, data: &ThreadData, unit: Unit) {
    let external = data.external.as_ref().map(|e| {
        json!({
            "class": e.class, "allowance": number(e.allowance, unit), "major": max_min(e.major, unit),
            "pitch_diameter": max_min(e.pitch_diameter, unit), "minor": max_min(e.minor, unit),
        })
    });
    let internal = data.internal.as_ref().map(|i| {
        json!({
            "class": i.class, "minor": min_max(i.minor, unit), "pitch_diameter": min_max(i.pitch_diameter, unit),
            "major": {"min": number(i.major_min, unit)},
        })
    });
    answer.field("external", external.unwrap_or(Value::Null));
    answer.field("internal", internal.unwrap_or(Value::Null));
    if let Some(e) = &data.external {
        answer.limits_row(&side("external", &e.class, "major"), e.major);
        answer.limits_row("    pitch diameter", e.pitch_diameter);
        answer.limits_row("    minor", e.minor);
    }
    if let Some(i) = &data.internal {
        answer.limits_row(&side("internal", &i.class, "minor"), i.minor);
        answer.limits_row("    pitch diameter", i.pitch_diameter);
        answer.length_row("    major, least", i.major_min);
    }
}

/// `external 2A: major`; without a class `external: major`.
fn side(which: &str, class: &str, diameter: &str) -> String {
    let gap = if class.is_empty() { "" } else { " " };
    format!("{which}{gap}{class}: {diameter}")
}

fn cutting(answer: &mut Answer, data: &ThreadData, unit: Unit) {
    answer.length_field("depth", Some(data.depth));
    let feeds = data.compound.iter().map(|f| json!({"angle": f.angle, "depth": number(f.depth, unit), "travel": number(f.travel, unit), "height": f.height}));
    answer.field("compound", Value::Array(feeds.collect()));
    answer.field("blank", data.blank.map_or(Value::Null, |b| max_min(b, unit)));
    answer.length_field("tool_flat", Some(data.tool_flat));
    answer.length_field("start_chamfer", Some(data.start_chamfer));
    answer.limits_row("blank", data.blank);
    answer.length_row("depth, a side", data.depth);
    travel(answer, data);
    answer.length_row("tool flat", data.tool_flat);
    answer.length_row("start chamfer, least", data.start_chamfer);
}

/// How far to feed: a column an angle, a line a depth.
fn travel(answer: &mut Answer, data: &ThreadData) {
    let mut heights: Vec<&str> = Vec::new();
    for feed in &data.compound {
        if !heights.contains(&feed.height) {
            heights.push(feed.height);
        }
    }
    let Some(first) = heights.first().copied() else { return };
    let named = |angle: f64| if angle == 0.0 { "straight in".to_owned() } else { format!("{angle}° compound") };
    let head: Vec<String> = of_height(data, first).map(|f| format!("{:<15}", named(f.angle))).collect();
    answer.row("travel to full depth by", head.concat().trim_end());
    for height in heights {
        let line = |show: &dyn Fn(Length) -> String| -> String {
            let cells: Vec<String> = of_height(data, height).map(|f| format!("{:<15}", show(f.travel))).collect();
            cells.concat().trim_end().to_owned()
        };
        answer.row(&format!("    {}", height_in_words(height)), line(&|l| answer.length_alone(l)));
        if answer.in_other_unit(data.depth).is_some() {
            answer.row("", line(&|l| answer.in_other_unit(l).unwrap_or_default()));
        }
    }
    if data.form == Form::Sixty {
        answer.note("the pitch diameter decides when the thread is done, not the depth: the two heights differ by 6 %");
    }
}

/// The ways to feed to one depth.
fn of_height<'d>(data: &'d ThreadData, height: &'d str) -> impl Iterator<Item = &'d Feed> {
    data.compound.iter().filter(move |f| f.height == height)
}

/// Which height a depth is.
fn height_in_words(height: &str) -> String {
    match height {
        "0.6495 P" => "0.6495 P (old sharp V)".to_owned(),
        "0.6134 P" => "0.6134 P (today's)".to_owned(),
        _ => height.to_owned(),
    }
}

fn measuring(answer: &mut Answer, data: &ThreadData, unit: Unit) {
    let wire = data.wire.map(|w| json!({"best": number(w.best, unit), "smallest": number(w.smallest, unit), "largest": number(w.largest, unit)}));
    answer.field("wire", wire.unwrap_or(Value::Null));
    let over = data.over_wires.map(|o| json!({"wire": number(o.wire, unit), "basic": number(o.basic, unit), "max": number(o.max, unit), "min": number(o.min, unit)}));
    answer.field("over_wires", over.unwrap_or(Value::Null));
    answer.field("lead_angle_deg", physics(data.lead_angle));
    if let Some(w) = data.wire {
        let text =
            format!("{} (from {} to {})", answer.length(w.best), answer.bare(w.smallest), answer.bare(w.largest));
        answer.row("best wire", text);
    }
    if let Some(o) = data.over_wires {
        let label = format!("over wires of {}", answer.bare(o.wire));
        // A reading, to the nearest tenth of a thousandth or micrometre as a table prints it.
        let step = show::step(unit, show::usual_decimals(unit) + 1);
        answer.limits_row(&label, Limits::new(o.min.round_to(step), o.max.round_to(step)));
    }
}

/// The height a percentage of thread counts from, a side.
pub(super) fn full_height(data: &ThreadData) -> &'static str {
    if data.form == thread::Form::Whitworth { "0.6403 P" } else { "0.6495 P" }
}

fn beside(answer: &mut Answer, data: &ThreadData, unit: Unit) {
    let drill = data.tap_drill.as_ref().map(|t| json!({"name": t.name, "diameter": number(t.diameter, unit), "percent": t.percent.map(|p| (p * 10.0).round() / 10.0)}));
    answer.field("tap_drill", drill.unwrap_or(Value::Null));
    let relief = data.relief.map(|r| {
        json!({"width_min": number(r.width_min, unit), "width_max": number(r.width_max, unit), "diameter": number(r.diameter, unit), "radius": r.radius.map(|l| number(l, unit))})
    });
    answer.field("relief", relief.unwrap_or(Value::Null));
    if let Some(t) = &data.tap_drill {
        let left = t.percent.map(|p| format!(", leaves {p:.0} % of {}", full_height(data))).unwrap_or_default();
        let text = format!("{} ({}{left})", t.name, answer.length_alone(t.diameter));
        answer.row("tap drill", text);
    }
    if let Some(r) = data.relief {
        let text = format!(
            "diameter {}, {} to {} wide",
            answer.bare(r.diameter),
            answer.bare(r.width_min),
            answer.length_alone(r.width_max)
        );
        answer.row("relief", text);
        answer.source(thread::relief_source(data));
    }
    if let Some(t) = data.taper {
        answer.field("taper", json!({
            "one_in": t.one_in, "gauge_length": number(t.gauge_length, unit), "gauge_tolerance": number(t.gauge_tolerance, unit),
            "useful_length": number(t.useful_length, unit), "small_end": number(t.small_end, unit), "gauge_plane": number(t.gauge_plane, unit),
        }));
        answer.row("taper", format!("1 in {} on the diameter", t.one_in));
        let plane = format!("{} ± {}", answer.bare(t.gauge_length), answer.length(t.gauge_tolerance));
        answer.row("gauge plane from the small end", plane);
        answer.length_row("pitch diameter at the small end", t.small_end);
        answer.length_row("pitch diameter at the gauge plane", t.gauge_plane);
    }
}

/// The series, each with its sizes.
fn list(args: &ThreadArgs) -> Answer {
    let mut answer = Answer::new("thread", args.show.unit().unwrap_or(Unit::Inch), "Thread series", args.show);
    let mut all = Vec::new();
    for family in thread::ALL {
        let sizes: Vec<String> = thread::series(family).iter().map(thread::Designation::show).collect();
        if let (Some(first), Some(last)) = (sizes.first(), sizes.last()) {
            answer.row(&format!("{first} to {last}"), format!("{} sizes", sizes.len()));
            all.push(json!(sizes));
        }
    }
    answer.field("series", Value::Array(all));
    answer
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::unit::Length;

    #[test]
    fn a_pitch_shows_in_either_unit() {
        assert_eq!(pitch(Pitch::tpi(16), Unit::Inch), json!(0.0625));
        assert_eq!(pitch(Pitch::Metric(Length::micrometres(1_500)), Unit::Millimetre), json!(1.5));
    }
}
