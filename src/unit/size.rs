//! A size with its limits as people write it: the grammar of `DESIGN` §3.

use super::number::number_at;
use super::{BadNumber, Length, Limits, Number, NumberForm, Unit, Why};

/// What was said of a size's limits.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ToleranceText {
    /// Nothing: the general tolerance applies.
    None,
    /// `±t` or `+a/-b`: signed deviations from the nominal.
    Deviations {
        /// Upper deviation, signed.
        upper: Length,
        /// Lower deviation, signed.
        lower: Length,
        /// Digits behind the point of the finer one.
        decimals: u8,
    },
    /// `a..b`: the two ends themselves.
    Ends(Limits),
    /// A fit code such as `k6`, `h7` or `RC3`.
    Fit(String),
    /// `… max`.
    Max,
    /// `… min`.
    Min,
}

/// A size as written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SizeText {
    /// Nominal size; for `a..b` the first of the two.
    pub nominal: Number,
    /// Limits as written.
    pub tolerance: ToleranceText,
    /// In round brackets: for reference only.
    pub reference: bool,
}

impl SizeText {
    /// The limits, where the text itself gives both.
    pub fn limits(&self) -> Option<Limits> {
        match &self.tolerance {
            ToleranceText::Deviations { upper, lower, .. } => Some(Limits::around(self.nominal.value, *upper, *lower)),
            ToleranceText::Ends(limits) => Some(*limits),
            _ => None,
        }
    }
}

/// Reads a size and its limits from the whole of `text`; numbers are in `unit` unless they carry their own.
///
/// # Errors
/// The characters that cannot be read, and why.
pub fn read_size(text: &str, unit: Unit) -> Result<SizeText, BadNumber> {
    let trimmed = text.trim();
    let lead = text.len() - text.trim_start().len();
    if trimmed.is_empty() {
        return Err(BadNumber::new(0..text.len(), Why::Empty));
    }
    if trimmed.starts_with('[') {
        return Err(BadNumber::new(lead..lead + trimmed.len(), Why::SquareBrackets));
    }
    if let Some(inner) = trimmed.strip_prefix('(') {
        let Some(inner) = inner.strip_suffix(')') else {
            return Err(BadNumber::new(lead..lead + 1, Why::Bracket));
        };
        let mut size = read_size(inner, unit).map_err(|e| shift(e, lead + 1))?;
        size.reference = true;
        return Ok(size);
    }
    let sign = ["Ø", "ø", "⌀", "∅", "dia.", "dia"].iter().find(|s| trimmed.starts_with(**s)).map_or(0, |s| s.len());
    let (nominal, rest) = number_at(text, lead + sign, unit)?;
    let (tolerance, nominal) = tolerance_at(text, rest, nominal)?;
    Ok(SizeText { nominal, tolerance, reference: false })
}

fn shift(mut bad: BadNumber, by: usize) -> BadNumber {
    bad.at = bad.at.start + by..bad.at.end + by;
    bad
}

/// What stands behind the nominal size.
fn tolerance_at(text: &str, rest: usize, nominal: Number) -> Result<(ToleranceText, Number), BadNumber> {
    let tail = text[rest..].trim();
    let at = rest + (text[rest..].len() - text[rest..].trim_start().len());
    if tail.is_empty() {
        return Ok((ToleranceText::None, nominal));
    }
    for sign in ["±", "+/-", "+/\u{2212}", "+-", "+/\u{2013}"] {
        if tail.starts_with(sign) {
            let (t, end) = number_at(text, at + sign.len(), nominal.unit)?;
            let (t, nominal) = common_unit(text, at + sign.len(), t, nominal)?;
            nothing_behind(text, end)?;
            let decimals = decimals(t.form);
            return Ok((ToleranceText::Deviations { upper: t.value, lower: -t.value, decimals }, nominal));
        }
    }
    if let Some(dots) = tail.strip_prefix("..") {
        let from = at + 2 + (dots.len() - dots.trim_start_matches('.').len());
        let (other, end) = number_at(text, from, nominal.unit)?;
        let (other, nominal) = common_unit(text, from, other, nominal)?;
        nothing_behind(text, end)?;
        return Ok((ToleranceText::Ends(Limits::new(nominal.value, other.value)), nominal));
    }
    if tail.starts_with(['+', '-', '\u{2212}', '\u{2013}']) {
        return deviations(text, at, nominal);
    }
    match tail.to_ascii_lowercase().trim_end_matches('.') {
        "max" | "maximum" => return Ok((ToleranceText::Max, nominal)),
        "min" | "minimum" => return Ok((ToleranceText::Min, nominal)),
        _ => {}
    }
    if is_fit_code(tail) {
        return Ok((ToleranceText::Fit(tail.to_owned()), nominal));
    }
    let why = if tail.starts_with(',') {
        Why::Comma
    } else if tail.starts_with(|c: char| c.is_ascii_digit()) {
        Why::Gap
    } else if tail.starts_with(char::is_alphabetic) {
        Why::Tolerance
    } else {
        Why::Character
    };
    Err(BadNumber::new(at..at + tail.len(), why))
}

/// `1.000 ±.002 in`: a unit written only at the end belongs to the whole size when the number says so nowhere else.
fn common_unit(text: &str, from: usize, last: Number, nominal: Number) -> Result<(Number, Number), BadNumber> {
    if !last.own_unit || nominal.own_unit || last.unit == nominal.unit {
        return Ok((last, nominal));
    }
    let head = text[..from].trim_end_matches(|c: char| !c.is_ascii_digit());
    let (again, _) =
        number_at(head.trim_start_matches(|c: char| !c.is_ascii_digit() && c != '.' && c != '-'), 0, last.unit)?;
    Ok((last, Number { own_unit: true, ..again }))
}

/// `+0.002/-0`, `+0 -.0005`, `-0.020/-0.041`.
fn deviations(text: &str, at: usize, nominal: Number) -> Result<(ToleranceText, Number), BadNumber> {
    let (first, end) = number_at(text, at, nominal.unit)?;
    let tail = text[end..].trim_start();
    let next = text.len() - tail.len();
    let next = if tail.starts_with(['/', '|']) { next + 1 } else { next };
    let second_text = text[next..].trim();
    if second_text.is_empty() {
        return Err(BadNumber::new(at..text.trim_end().len(), Why::OneLimit));
    }
    let (second, end) = number_at(text, next, nominal.unit)?;
    nothing_behind(text, end)?;
    let (second, nominal) = common_unit(&text[..at], at, second, nominal).or(Ok::<_, BadNumber>((second, nominal)))?;
    let first = if second.own_unit && !first.own_unit { number_at(text, at, second.unit)?.0 } else { first };
    let decimals = decimals(first.form).max(decimals(second.form));
    Ok((ToleranceText::Deviations { upper: first.value, lower: second.value, decimals }, nominal))
}

fn nothing_behind(text: &str, end: usize) -> Result<(), BadNumber> {
    let tail = text[end..].trim();
    if tail.is_empty() {
        return Ok(());
    }
    let at = end + (text[end..].len() - text[end..].trim_start().len());
    Err(BadNumber::new(at..at + tail.len(), if tail.starts_with(',') { Why::Comma } else { Why::Character }))
}

fn decimals(form: NumberForm) -> u8 {
    match form {
        NumberForm::Decimal(d) => d,
        NumberForm::Fraction => 0,
    }
}

/// One to three letters and one or two digits: `k6`, `js13`, `H7`, `RC3`, `LC2`.
fn is_fit_code(tail: &str) -> bool {
    let letters = tail.chars().take_while(char::is_ascii_alphabetic).count();
    let digits = &tail[letters..];
    // Grade 0 is no grade of a shaft or hole: `4e0` is a number in another notation.
    (1..=3).contains(&letters)
        && (1..=2).contains(&digits.len())
        && !digits.starts_with('0')
        && digits.chars().all(|c| c.is_ascii_digit())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn limits(text: &str) -> Limits {
        read_size(text, Unit::Inch).expect(text).limits().expect(text)
    }

    #[test]
    fn the_forms_of_the_language() {
        let inch = Length::PER_INCH;
        for text in ["1.250", "1 1/4", "1-1/4", "31.75 mm", "1.25 in", "1 1/4\"", "Ø1.250", "1.250000000"] {
            assert_eq!(read_size(text, Unit::Inch).expect(text).nominal.value, inch.times_ratio(5, 4), "{text}");
        }
        assert_eq!(read_size("7/16", Unit::Inch).expect("7/16").nominal.value, inch.times_ratio(7, 16));
        assert_eq!(read_size("1/2 in", Unit::Millimetre).expect("1/2 in").nominal.value, inch.half());
        let wanted = Limits::new(Length::micro_inches(998_000), Length::micro_inches(1_002_000));
        for text in
            ["1.000 ±0.002", "1.000 +/-.002", "1 ±.002", "0.998..1.002", "1.000 +0.002/-0.002", "1.000 +.002 -.002"]
        {
            assert_eq!(limits(text), wanted, "{text}");
        }
        let wanted = Limits::new(Length::micro_inches(544_500), Length::micro_inches(545_000));
        for text in
            ["0.545 +0/-0.0005", "0.545 +0 -.0005", ".545 +0.000/−0.0005", "0.5445..0.5450", "0.5440 +0.001/+0.0005"]
        {
            assert_eq!(limits(text), wanted, "{text}");
        }
        assert_eq!(read_size("20 mm k5", Unit::Inch).expect("fit").tolerance, ToleranceText::Fit("k5".into()));
        assert_eq!(read_size("0.020 max", Unit::Inch).expect("max").tolerance, ToleranceText::Max);
        assert!(read_size("(2.250)", Unit::Inch).expect("reference").reference);
    }

    #[test]
    fn what_cannot_be_read_says_where_and_why() {
        for (text, why, at) in [
            ("1,250", Why::Comma, 1..2),
            ("1.250 -.001", Why::OneLimit, 6..11),
            ("1.2 50", Why::Gap, 4..6),
            ("1/3", Why::Denominator, 2..3),
            ("l.250", Why::Character, 0..1),
            ("", Why::Empty, 0..0),
            ("[1.250]", Why::SquareBrackets, 0..7),
            ("(1.250", Why::Bracket, 0..1),
            ("1.250 about", Why::Tolerance, 6..11),
            ("99999999999", Why::TooLarge, 0..11),
            ("1.00000000001", Why::TooManyDigits, 0..13),
        ] {
            let bad = read_size(text, Unit::Inch).expect_err(text);
            assert_eq!((bad.why, bad.at), (why, at), "{text}");
        }
    }
}
