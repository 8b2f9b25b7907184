//! What speaks for a candidate, in words, and what to make.

use super::readings::{Pitched, ThreadReadings};
use super::{Candidate, Ranked, likelihood};
use crate::unit::{Length, Unit, show};

/// A diameter or length in the thread's own unit, and how it reads in the other.
fn both(value: Length, unit: Unit) -> String {
    let of = |u: Unit| format!("{} {}", show::length(value, u, if u == Unit::Inch { 4 } else { 3 }), u.word());
    let other = if unit == Unit::Inch { Unit::Millimetre } else { Unit::Inch };
    format!("{} ({})", of(unit), of(other))
}

fn one(value: f64, unit: Unit) -> String {
    let size = Length::from_f64(value, Unit::Millimetre);
    format!("{} {}", show::length(size, unit, if unit == Unit::Inch { 4 } else { 3 }), unit.word())
}

/// A pitch both ways: threads per inch and millimetres.
pub(super) fn pitch_words(mm: f64) -> String {
    format!("{mm:.4} mm = {:.2} threads per inch", 25.4 / mm.max(1e-9))
}

fn unit(c: &Candidate) -> Unit {
    c.pitch.unit()
}

/// One sentence for each reading.
pub(super) fn why(read: &ThreadReadings, c: &Candidate, starts: u8) -> Vec<String> {
    let mut out = Vec::new();
    if let Some(major) = read.major {
        let new = format!("new crests {} to {}", one(c.major.min.mm(), unit(c)), both(c.major.max, unit(c)));
        let lost = c.major.max - major;
        out.push(if major > c.major.max {
            format!(
                "{new}; read {} more than the largest: no wear does that, only {} of error",
                one(-lost.mm(), unit(c)),
                sigmas(-lost.mm(), read.diameter_error)
            )
        } else if major >= c.major.min {
            format!("{new}; read within them")
        } else {
            format!("{new}; read {} below the smallest: wear", one((c.major.min - major).mm(), unit(c)))
        });
    }
    if let (Some(minor), Some(made)) = (read.minor, c.minor) {
        let off = if minor > made.max {
            format!("read {} above the largest: wear", one((minor - made.max).mm(), unit(c)))
        } else if minor < made.min {
            format!("read {} below the smallest: no wear does that", one((made.min - minor).mm(), unit(c)))
        } else {
            "read within them".to_owned()
        };
        out.push(format!("new bore {} to {}; {off}", one(made.min.mm(), unit(c)), both(made.max, unit(c))));
    }
    let measured =
        c.pitch_mm() * if starts > 1 && read.starts.is_none() && read.lead.is_none() { f64::from(starts) } else { 1.0 };
    for reading in &read.pitch {
        let (is, would, sigma) = match *reading {
            Pitched::Span(long, over) => (long.mm(), measured * f64::from(over.max(1)), read.span_error.mm()),
            Pitched::Leaf(pitch) => (pitch.mm(), measured, pitch.mm() * likelihood::LEAF),
        };
        let what = match *reading {
            Pitched::Span(_, over) => {
                format!("over {over} pitches it would be {}; read {}", one(would, unit(c)), one(is, unit(c)))
            }
            Pitched::Leaf(_) => format!("pitch {}; the leaf has {}", pitch_words(measured), pitch_words(is)),
        };
        out.push(format!(
            "{what}: off by {:.1} times what such a reading is usually off",
            (is - would).abs() / sigma.max(1e-9)
        ));
    }
    if starts > 1 && read.starts.is_none() && read.lead.is_none() {
        out.push(format!(
            "only if the pitch that was read is the lead of {starts} starts: count the starts at the end"
        ));
    }
    if let Some(angle) = read.angle {
        out.push(format!("flanks {}° apart; read {angle}°", c.angle));
    }
    out
}

fn sigmas(off: f64, sigma: Length) -> String {
    format!("{:.1} standard deviations", off / sigma.mm().max(1e-9))
}

/// What to make: nominal, class and its limits.
pub(super) fn restore(c: &Candidate) -> Vec<String> {
    let Some(data) = &c.data else {
        return vec![format!("{}: by BS 93, which the handbook has no limits for; fit it to its nut", c.name)];
    };
    let mut out = Vec::new();
    if let Some(e) = &data.external {
        let class = if e.class.is_empty() { String::new() } else { format!("-{}", e.class) };
        let name = if data.designation.class.is_some() { c.name.clone() } else { named(&c.name, &class) };
        let of = |l: Length| show::length(l, data.unit, if data.unit == Unit::Inch { 4 } else { 3 });
        let at = if c.taper { " at the small end" } else { "" };
        out.push(format!(
            "restore to {name}: blank {} to {}, pitch diameter {} to {} {}{at}; not the worn size",
            of(e.major.min),
            of(e.major.max),
            of(e.pitch_diameter.min),
            of(e.pitch_diameter.max),
            data.unit.word(),
        ));
    }
    out
}

impl Candidate {
    /// As a description says it, with the usual class: of the screw, or of the nut.
    pub fn as_made(&self, nut: bool) -> String {
        let Some(data) = &self.data else { return self.name.clone() };
        let class = if nut {
            data.internal.as_ref().map(|i| i.class.as_str())
        } else {
            data.external.as_ref().map(|e| e.class.as_str())
        };
        match class.filter(|c| !c.is_empty() && data.designation.class.is_none()) {
            Some(class) => named(&self.name, &format!("-{class}")),
            None => self.name.clone(),
        }
    }
}

/// The class stands before the hand.
fn named(name: &str, class: &str) -> String {
    match name.strip_suffix(" LH") {
        Some(right) => format!("{right}{class} LH"),
        None => format!("{name}{class}"),
    }
}

/// Why none of them may be right.
pub(super) fn doubt(read: &ThreadReadings, c: &Candidate, starts: u8) -> Option<String> {
    let times = if read.starts.is_none() && read.lead.is_none() { f64::from(starts) } else { 1.0 };
    for reading in &read.pitch {
        let sigma = likelihood::pitch_sigma(*reading, read.span_error);
        let off = (reading.mm() - c.pitch_mm() * times).abs();
        if off > 4.0 * sigma {
            return Some(format!(
                "no standard thread of this diameter has a pitch of {}: measure it again over a longer span, and look for several starts; it may be a special",
                pitch_words(reading.mm())
            ));
        }
    }
    let wear = read.wear.map_or_else(|| likelihood::usual_wear(c.pitch_mm()), Length::mm);
    let major = read.major?;
    let over = (major - c.major.max).mm();
    let under = (c.major.min - major).mm();
    if over > 4.0 * read.diameter_error.mm() || under > (6.0 * wear).max(4.0 * read.diameter_error.mm()) {
        return Some(format!(
            "the nearest standard thread is off by more than error and usual wear explain: {} was read, {} has {} to {}",
            one(major.mm(), unit(c)),
            c.name,
            one(c.major.min.mm(), unit(c)),
            one(c.major.max.mm(), unit(c))
        ));
    }
    None
}

/// What holds for the whole answer.
pub(super) fn notes(read: &ThreadReadings, first: Option<&Ranked>) -> Vec<String> {
    let mut out = Vec::new();
    if let Some(p) = read.pitch.first() {
        out.push(format!("the pitch both ways: {}", pitch_words(p.mm())));
    } else {
        out.push("no pitch was read: a diameter alone leaves many threads; measure crest to crest over as many pitches as there are".to_owned());
    }
    if let (Some(lead), Some(p)) = (read.lead, read.pitch.first()) {
        let ratio = lead.mm() / p.mm().max(1e-9);
        out.push(format!(
            "lead / pitch = {ratio:.2}: {} start{}",
            read.starts_told(),
            if read.starts_told() == 1 { "" } else { "s" }
        ));
        if (ratio - ratio.round()).abs() > 0.15 {
            out.push("lead / pitch is no whole number: one of the two is misread".to_owned());
        }
    }
    if read.angle.is_none() && read.form.is_none() {
        out.push("no flank angle was read: hold 55° and 60° (or 29° and 30°) leaves against the light in an unworn groove near the end".to_owned());
    }
    if read.taper.is_none() && first.is_some_and(|r| r.candidate.taper) {
        out.push("whether it tapers was not said: read the crests at both ends; 1 in 16 is .0625 an inch".to_owned());
    }
    out.push("usual series count a little more than rare ones (coarse 1, extra fine .6, specials .3): common practice, no source".to_owned());
    out.push("the mate decides: try its nut, or a good screw in it, before cutting".to_owned());
    out
}
