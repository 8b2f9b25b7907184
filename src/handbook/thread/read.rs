//! Reading thread designations.

use std::ops::Range;

use crate::unit::{Length, Unit};

use super::designation::number_diameter;
use super::scan::{Ratio, Scan};
use super::words::{Words, class_for, tail};
use super::{Designation, EngagementGroup, Family, Hand, Pitch, TaperPipe, series};

/// Why a designation cannot be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BadThreadWhy {
    /// Nothing is there.
    Empty,
    /// A number is wanted behind the marked text.
    Missing,
    /// A number that cannot be read, or beyond what is read.
    Number,
    /// A decimal comma.
    Comma,
    /// No pitch is given and the size has no usual one in that series.
    NoPitch,
    /// The size is in no series, so its pitch and letters must be given.
    NoSeries,
    /// The lead is no whole multiple of the pitch, up to 12 starts.
    Lead,
    /// Letters that name no thread known here.
    Letters,
    /// A class that this kind of thread does not have.
    Class,
    /// The same thing is said twice, or two things that exclude each other.
    Twice,
    /// A character that has no place in a designation.
    Character,
    /// A kind of thread, or a part of its name, that is known but not worked here.
    NotSupported(&'static str),
}

/// A piece of text that is no thread designation: where (bytes of the text) and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BadThread {
    /// Bytes of the text that was read.
    pub at: Range<usize>,
    /// Reason.
    pub why: BadThreadWhy,
}

const CROSS: [char; 4] = ['x', 'X', '×', '*'];
const DASH: [char; 3] = ['-', '\u{2013}', '\u{2212}'];

/// Reads a thread designation from the whole of `text`: `5/8-18 UNF-2A`, `No. 10-32`, `1 1/8-5 ACME-2G LH`,
/// `1 1/8-0.2P-0.4L ACME-2G`, `M16`, `M16x1.5-6g LH`, `M14xPh6P2`, `Tr 40x14(P7)-7e`, `G 1/2 A`, `1/2-14 NPT`, `1/2-12 BSW`,
/// `1-4 SQUARE`, `2 1/2-8 BUTT-2A`.
///
/// # Errors
/// The characters that cannot be read, and why.
pub fn read(text: &str) -> Result<Designation, BadThread> {
    let mut s = Scan::new(text);
    s.spaces();
    if s.rest().trim().is_empty() {
        return Err(BadThread { at: 0..text.len(), why: BadThreadWhy::Empty });
    }
    let start = s.at;
    let letters = s.word().to_ascii_uppercase();
    let head = start..s.at;
    s.spaces();
    match letters.as_str() {
        "" if s.peek() == Some('#') => {
            s.take();
            number_sized(s)
        }
        "" => inch(s),
        "NO" => {
            s.sign(&['.']);
            number_sized(s)
        }
        "M" => metric(s),
        "TR" => trapezoidal(s),
        "G" => pipe(s, Family::PipeParallel),
        "R" => pipe(s, Family::PipeTaperR { kind: TaperPipe::R }),
        "RC" => pipe(s, Family::PipeTaperR { kind: TaperPipe::Rc }),
        "RP" => pipe(s, Family::PipeTaperR { kind: TaperPipe::Rp }),
        "SQ" | "SQUARE" => square(s),
        "MJ" => Err(BadThread { at: head, why: BadThreadWhy::NotSupported("MJ") }),
        "S" => Err(BadThread { at: head, why: BadThreadWhy::NotSupported("saw-tooth 3°/30°") }),
        "RD" => Err(BadThread { at: head, why: BadThreadWhy::NotSupported("knuckle") }),
        _ => Err(BadThread { at: head, why: BadThreadWhy::Letters }),
    }
}

/// `No. 10-32 UNF-2A`, behind the `No.`.
fn number_sized(mut s: Scan<'_>) -> Result<Designation, BadThread> {
    let at = s.here();
    let number = s.number()?;
    if !number.whole || number.top > 12 {
        return Err(BadThread { at, why: BadThreadWhy::Number });
    }
    inch_behind_size(s, number_diameter(number.top), false)
}

/// A thread whose size is given in inches, first.
fn inch(mut s: Scan<'_>) -> Result<Designation, BadThread> {
    let start = s.at;
    let number = s.number()?;
    let size_at = start..s.at;
    let bare = number.whole;
    if bare && number.top == 0 {
        // `0-80`: no size in inches, but a number.
        let d = inch_behind_size(s, Length::ZERO, true)?;
        let bad = BadThread { at: size_at, why: BadThreadWhy::Number };
        return if d.nominal.is_positive() { Ok(d) } else { Err(bad) };
    }
    let nominal = size(number, Unit::Inch, size_at)?;
    for word in ["inch", "in.", "in", "\"", "\u{2033}"] {
        if let Some(rest) = s.rest().trim_start().strip_prefix(word)
            && !rest.starts_with(char::is_alphabetic)
        {
            s.at = s.text.len() - rest.len();
            return inch_behind_size(s, nominal, false);
        }
    }
    inch_behind_size(s, nominal, bare)
}

fn size(number: Ratio, unit: Unit, at: Range<usize>) -> Result<Length, BadThread> {
    let most = if unit == Unit::Inch { 40.0 } else { 1000.0 };
    match number.length(unit) {
        Some(l) if l.is_positive() && number.to_f64() <= most => Ok(l),
        _ => Err(BadThread { at, why: BadThreadWhy::Number }),
    }
}

/// What follows the size of an inch thread. `bare`: the size was a whole number, which may be a number size.
fn inch_behind_size(mut s: Scan<'_>, nominal: Length, bare: bool) -> Result<Designation, BadThread> {
    let text = s.text.trim().to_owned();
    s.spaces();
    let at_pitch = s.at;
    s.sign(&DASH);
    s.sign(&CROSS);
    let (pitch, starts, tpi) = if s.digit_here() { inch_pitch(&mut s)? } else { (None, 1, None) };
    if pitch.is_none() {
        s.at = at_pitch;
    }
    let nominal = match tpi {
        Some(tpi) if bare && is_number_size(nominal, tpi) => {
            number_diameter(u32::try_from(nominal.pm() / Length::PER_INCH.pm()).unwrap_or(0))
        }
        _ => nominal,
    };
    let words = tail(&mut s)?;
    let family = match (words.family, pitch) {
        (Some(f), _) => f,
        (None, Some(p)) => series::unified_series_of(nominal, p)
            .map(|series| Family::UnifiedInch { series, rounded_root: false })
            .ok_or(BadThread { at: 0..s.text.len(), why: BadThreadWhy::NoSeries })?,
        (None, None) => return Err(BadThread { at: 0..s.text.len(), why: BadThreadWhy::NoPitch }),
    };
    let Some(pitch) = pitch.or_else(|| series::usual_pitch(family, nominal)) else {
        return Err(BadThread { at: 0..s.text.len(), why: BadThreadWhy::NoPitch });
    };
    if words.starts.is_some() && starts > 1 && words.starts != Some(starts) {
        return Err(BadThread { at: 0..s.text.len(), why: BadThreadWhy::Twice });
    }
    let starts = words.starts.unwrap_or(starts);
    finish(&words, text, family, nominal, pitch, starts)
}

/// Whole sizes up to 12 with this many threads per inch are number sizes: `10-32`, `0-80`, `1-64`; `1-8` and `2-12` are inches.
fn is_number_size(nominal: Length, tpi: f64) -> bool {
    let n = nominal.pm() / Length::PER_INCH.pm();
    n <= 12 && (tpi >= 40.0 || n >= 2 && tpi >= 24.0)
}

/// `18`, `4 1/2`, or `0.2P-0.4L`: pitch, starts, and threads per inch where so given.
fn inch_pitch(s: &mut Scan<'_>) -> Result<(Option<Pitch>, u8, Option<f64>), BadThread> {
    let start = s.at;
    let number = s.number()?;
    let bad = |s: &Scan<'_>, why| BadThread { at: start..s.at, why };
    let behind = s.rest().chars().next();
    if !matches!(behind, Some('P' | 'p')) || s.rest()[1..].starts_with(char::is_alphabetic) {
        if number.to_f64() > 200.0 || number.to_f64() < 0.25 {
            return Err(bad(s, BadThreadWhy::Number));
        }
        let pitch = Pitch::inch(number.bottom, number.top).ok_or(bad(s, BadThreadWhy::Number))?;
        return Ok((Some(pitch), 1, Some(number.to_f64())));
    }
    s.take();
    if number.to_f64() > 4.0 {
        return Err(bad(s, BadThreadWhy::Number));
    }
    let pitch = Pitch::inch(number.top, number.bottom).ok_or(bad(s, BadThreadWhy::Number))?;
    let after_pitch = s.at;
    s.sign(&DASH);
    if !s.digit_here() {
        s.at = after_pitch;
        return Ok((Some(pitch), 1, None));
    }
    let lead_at = s.at;
    let lead = s.number()?;
    if !matches!(s.peek(), Some('L' | 'l')) {
        s.at = after_pitch;
        return Ok((Some(pitch), 1, None));
    }
    s.take();
    let starts = Pitch::inch(lead.top, lead.bottom)
        .and_then(|l| pitch.starts_in(l))
        .filter(|n| *n <= 12)
        .ok_or(BadThread { at: lead_at..s.at, why: BadThreadWhy::Lead })?;
    Ok((Some(pitch), starts, None))
}

/// A pitch or lead in millimetres.
fn mm_pitch(s: &mut Scan<'_>) -> Result<Length, BadThread> {
    let start = s.at;
    let number = s.number()?;
    match number.length(Unit::Millimetre) {
        Some(l) if l.is_positive() && number.to_f64() <= 500.0 => Ok(l),
        _ => Err(BadThread { at: start..s.at, why: BadThreadWhy::Number }),
    }
}

fn starts_of(pitch: Length, lead: Length, at: Range<usize>) -> Result<u8, BadThread> {
    Pitch::Metric(pitch)
        .starts_in(Pitch::Metric(lead))
        .filter(|n| *n <= 12)
        .ok_or(BadThread { at, why: BadThreadWhy::Lead })
}

/// `16`, `16x1.5`, `14xPh6P2`, behind the `M`.
fn metric(mut s: Scan<'_>) -> Result<Designation, BadThread> {
    let text = s.text.trim().to_owned();
    let start = s.at;
    let number = s.number()?;
    let nominal = size(number, Unit::Millimetre, start..s.at)?;
    let (pitch, starts) = if s.sign(&CROSS) {
        let lead_at = s.at;
        if s.rest().get(..2).is_some_and(|w| w.eq_ignore_ascii_case("Ph")) {
            s.at += 2;
            s.spaces();
            let lead = mm_pitch(&mut s)?;
            if !s.sign(&['P', 'p']) {
                return Err(s.bad(BadThreadWhy::NoPitch));
            }
            let pitch = mm_pitch(&mut s)?;
            (pitch, starts_of(pitch, lead, lead_at..s.at)?)
        } else {
            let lead = mm_pitch(&mut s)?;
            pitch_in_brackets(&mut s, lead, lead_at)?
        }
    } else {
        let coarse = series::metric_coarse(nominal).ok_or(BadThread { at: start..s.at, why: BadThreadWhy::NoPitch })?;
        (coarse, 1)
    };
    let words = tail(&mut s)?;
    metric_family_only(&words, s.text)?;
    finish(&words, text, Family::IsoMetric, nominal, Pitch::Metric(pitch), starts)
}

/// `(P7)` behind a lead; without it the lead is the pitch.
fn pitch_in_brackets(s: &mut Scan<'_>, lead: Length, lead_at: usize) -> Result<(Length, u8), BadThread> {
    let here = s.at;
    let bracket = s.sign(&['(']);
    if !s.sign(&['P', 'p']) {
        s.at = here;
        return Ok((lead, 1));
    }
    let pitch = mm_pitch(s)?;
    let starts = starts_of(pitch, lead, lead_at..s.at)?;
    if bracket && !s.sign(&[')']) {
        return Err(s.bad(BadThreadWhy::Character));
    }
    Ok((pitch, starts))
}

/// `40x14(P7)`, behind the `Tr`.
fn trapezoidal(mut s: Scan<'_>) -> Result<Designation, BadThread> {
    let text = s.text.trim().to_owned();
    let start = s.at;
    let number = s.number()?;
    let nominal = size(number, Unit::Millimetre, start..s.at)?;
    if !s.sign(&CROSS) {
        return Err(BadThread { at: start..s.at, why: BadThreadWhy::NoPitch });
    }
    let lead_at = s.at;
    let lead = mm_pitch(&mut s)?;
    let (pitch, starts) = pitch_in_brackets(&mut s, lead, lead_at)?;
    let words = tail(&mut s)?;
    metric_family_only(&words, s.text)?;
    finish(&words, text, Family::IsoTrapezoidal, nominal, Pitch::Metric(pitch), starts)
}

/// Metric names carry no further letters that would name a kind of thread.
fn metric_family_only(words: &Words, text: &str) -> Result<(), BadThread> {
    match words.family {
        None => Ok(()),
        Some(_) => Err(BadThread { at: words.family_at.clone().unwrap_or(0..text.len()), why: BadThreadWhy::Twice }),
    }
}

/// `1/2`, behind `G` or `R`.
fn pipe(mut s: Scan<'_>, family: Family) -> Result<Designation, BadThread> {
    let text = s.text.trim().to_owned();
    let start = s.at;
    let number = s.number()?;
    let nominal = size(number, Unit::Inch, start..s.at)?;
    let end = s.at;
    let words = tail(&mut s)?;
    metric_family_only(&words, s.text)?;
    let pitch = series::usual_pitch(family, nominal).ok_or(BadThread { at: start..end, why: BadThreadWhy::NoPitch })?;
    finish(&words, text, family, nominal, pitch, words.starts.unwrap_or(1))
}

/// `24x5` (mm) or `1-4` (inches), behind `Square`.
fn square(mut s: Scan<'_>) -> Result<Designation, BadThread> {
    let text = s.text.trim().to_owned();
    let start = s.at;
    let number = s.number()?;
    let size_at = start..s.at;
    if s.sign(&CROSS) {
        let nominal = size(number, Unit::Millimetre, size_at)?;
        let lead_at = s.at;
        let lead = mm_pitch(&mut s)?;
        let (pitch, starts) = pitch_in_brackets(&mut s, lead, lead_at)?;
        let words = tail(&mut s)?;
        metric_family_only(&words, s.text)?;
        return finish(&words, text, Family::Square, nominal, Pitch::Metric(pitch), starts);
    }
    let nominal = size(number, Unit::Inch, size_at.clone())?;
    if !s.sign(&DASH) {
        return Err(BadThread { at: size_at, why: BadThreadWhy::NoPitch });
    }
    let (pitch, starts, _) = inch_pitch(&mut s)?;
    let words = tail(&mut s)?;
    metric_family_only(&words, s.text)?;
    let pitch = pitch.ok_or(BadThread { at: size_at, why: BadThreadWhy::NoPitch })?;
    finish(&words, text, Family::Square, nominal, pitch, words.starts.unwrap_or(starts))
}

fn finish(
    words: &Words,
    text: String,
    family: Family,
    nominal: Length,
    pitch: Pitch,
    starts: u8,
) -> Result<Designation, BadThread> {
    let class = match &words.class {
        Some((class, at)) => {
            Some(class_for(family, class).ok_or(BadThread { at: at.clone(), why: BadThreadWhy::Class })?)
        }
        None => None,
    };
    let engagement = match &words.engagement {
        None => EngagementGroup::Normal,
        Some((group, at)) => group_for(family, *group).map_err(|why| BadThread { at: at.clone(), why })?,
    };
    let hand = words.hand.unwrap_or(Hand::Right);
    Ok(Designation { family, nominal, pitch, starts, hand, class, engagement, text })
}

/// The length group, if the family's standard has such groups.
fn group_for(family: Family, group: EngagementGroup) -> Result<EngagementGroup, BadThreadWhy> {
    match (family, group) {
        (_, EngagementGroup::Normal) | (Family::IsoMetric, _) | (Family::IsoTrapezoidal, EngagementGroup::Long) => {
            Ok(group)
        }
        (Family::IsoTrapezoidal, _) => {
            Err(BadThreadWhy::NotSupported("a short length group of trapezoidal threads (ISO 2903 has N and L)"))
        }
        _ => Err(BadThreadWhy::NotSupported(
            "a length group on other than metric threads; give the length of engagement",
        )),
    }
}
