//! One length as people write it: `1.250`, `1 1/4`, `1-1/4`, `7/16`, `31.75 mm`, `1/2"`.

use std::ops::Range;

use super::{Length, Unit};

/// How the digits were written; decides how the value is shown again and what "too fine" means.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NumberForm {
    /// Decimal with so many digits behind the point.
    Decimal(u8),
    /// An inch fraction or mixed number, in lowest terms a half to a 512th.
    Fraction,
}

/// A length as written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Number {
    /// Exact value.
    pub value: Length,
    /// Unit: its own if it carried one, else the one it was read in.
    pub unit: Unit,
    /// Whether it carried its own unit.
    pub own_unit: bool,
    /// Decimal or fraction.
    pub form: NumberForm,
}

/// What cannot be read in a number or size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Why {
    /// Nothing is there.
    Empty,
    /// A character that has no place here.
    Character,
    /// A decimal comma.
    Comma,
    /// Two groups of digits with a gap between.
    Gap,
    /// A fraction whose denominator is zero or not a power of two up to 512.
    Denominator,
    /// More digits than can be held exactly.
    TooManyDigits,
    /// Beyond the largest length that is read.
    TooLarge,
    /// One signed limit with its partner missing.
    OneLimit,
    /// A tolerance that is neither limits, a deviation pair nor a fit code.
    Tolerance,
    /// Square brackets around a reference size.
    SquareBrackets,
    /// A bracket that is not closed.
    Bracket,
}

/// A piece of text that is not a number or size: where (bytes of the text) and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BadNumber {
    /// Bytes of the text that was read.
    pub at: Range<usize>,
    /// Reason.
    pub why: Why,
}

impl BadNumber {
    pub(crate) fn new(at: Range<usize>, why: Why) -> Self {
        Self { at, why }
    }
}

/// Reads one unsigned or signed length from the whole of `text`, in `unit` unless it carries its own.
///
/// # Errors
/// The characters that cannot be read, and why.
pub fn read_number(text: &str, unit: Unit) -> Result<Number, BadNumber> {
    let (number, rest) = number_at(text, 0, unit)?;
    let left = text[rest..].trim_start();
    if left.is_empty() {
        return Ok(number);
    }
    let start = text.len() - left.len();
    let why = if left.starts_with(',') {
        Why::Comma
    } else if left.starts_with(|c: char| c.is_ascii_digit()) {
        Why::Gap
    } else {
        Why::Character
    };
    Err(BadNumber::new(start..start + left.chars().next().map_or(0, char::len_utf8), why))
}

/// A cursor over the text of a size.
struct Cursor<'a> {
    text: &'a str,
    at: usize,
}

impl Cursor<'_> {
    fn peek(&self) -> Option<char> {
        self.text[self.at..].chars().next()
    }
    fn take(&mut self) {
        self.at += self.peek().map_or(0, char::len_utf8);
    }
    /// Whether a digit stands behind the next character (`+0/-.001` is no fraction).
    fn digit_next(&self) -> bool {
        self.text[self.at..].chars().nth(1).is_some_and(|c| c.is_ascii_digit())
    }
    fn spaces(&mut self) {
        while self.peek().is_some_and(char::is_whitespace) {
            self.take();
        }
    }
    fn digits(&mut self) -> &str {
        let from = self.at;
        while self.peek().is_some_and(|c| c.is_ascii_digit()) {
            self.take();
        }
        &self.text[from..self.at]
    }
}

/// Reads a number that begins at byte `from` (leading spaces allowed); returns it and the byte behind it.
pub(super) fn number_at(text: &str, from: usize, unit: Unit) -> Result<(Number, usize), BadNumber> {
    let mut c = Cursor { text, at: from };
    c.spaces();
    let start = c.at;
    let negative = match c.peek() {
        Some('-' | '\u{2212}' | '\u{2013}') => {
            c.take();
            true
        }
        Some('+') => {
            c.take();
            false
        }
        _ => false,
    };
    c.spaces();
    let whole_at = c.at;
    let whole = c.digits().to_owned();
    match c.peek() {
        Some('.') if !c.text[c.at..].starts_with("..") => decimal(&mut c, start, negative, &whole, unit),
        Some(',') if !whole.is_empty() => Err(BadNumber::new(c.at..c.at + 1, Why::Comma)),
        Some('/') if !whole.is_empty() && c.digit_next() => fraction(&mut c, start, negative, "", &whole, unit),
        _ if whole.is_empty() => {
            let end = c.at + c.peek().map_or(0, char::len_utf8);
            let why = if c.peek().is_none() { Why::Empty } else { Why::Character };
            Err(BadNumber::new(whole_at..end, why))
        }
        Some(' ' | '-') => mixed_or_whole(&mut c, start, negative, &whole, unit),
        _ => finish(
            &mut c,
            start,
            negative,
            exact(&whole, "", unit_after(text, whole_at + whole.len(), unit).0),
            NumberForm::Decimal(0),
            unit,
        ),
    }
}

/// `1 1/4`, `1-1/4`, or just `1`.
fn mixed_or_whole(
    c: &mut Cursor<'_>,
    start: usize,
    negative: bool,
    whole: &str,
    unit: Unit,
) -> Result<(Number, usize), BadNumber> {
    let after_whole = c.at;
    if c.peek() == Some('-') {
        c.take();
    } else {
        c.spaces();
    }
    let top = c.digits().to_owned();
    if !top.is_empty() && c.peek() == Some('/') && c.digit_next() {
        return fraction(c, start, negative, whole, &top, unit);
    }
    c.at = after_whole;
    let value = exact(whole, "", unit_after(c.text, after_whole, unit).0);
    finish(c, start, negative, value, NumberForm::Decimal(0), unit)
}

fn decimal(
    c: &mut Cursor<'_>,
    start: usize,
    negative: bool,
    whole: &str,
    unit: Unit,
) -> Result<(Number, usize), BadNumber> {
    c.take();
    let places = c.digits().to_owned();
    if whole.is_empty() && places.is_empty() {
        return Err(BadNumber::new(start..c.at, Why::Character));
    }
    if c.peek() == Some('.') && !c.text[c.at..].starts_with("..") {
        return Err(BadNumber::new(c.at..c.at + 1, Why::Character));
    }
    if c.peek() == Some(',') {
        return Err(BadNumber::new(c.at..c.at + 1, Why::Comma));
    }
    let value = exact(whole, &places, unit_after(c.text, c.at, unit).0);
    let form = NumberForm::Decimal(u8::try_from(places.len()).unwrap_or(u8::MAX));
    finish(c, start, negative, value, form, unit)
}

fn fraction(
    c: &mut Cursor<'_>,
    start: usize,
    negative: bool,
    whole: &str,
    top: &str,
    unit: Unit,
) -> Result<(Number, usize), BadNumber> {
    c.take();
    let at = c.at;
    let bottom: i64 = c.digits().parse().unwrap_or(0);
    if !(1..=512).contains(&bottom) || bottom.count_ones() != 1 {
        return Err(BadNumber::new(at..c.at.max(at), Why::Denominator));
    }
    let of = unit_after(c.text, c.at, unit).0;
    let value = match (exact(whole, "", of), top.parse::<i64>()) {
        (Ok(w), Ok(t)) if t <= 1_000_000 => Ok(w + of.one().times_ratio(t, bottom)),
        _ => Err(Why::TooLarge),
    };
    finish(c, start, negative, value, NumberForm::Fraction, unit)
}

/// The value of `whole.places` in `unit`, if it is a whole number of picometres below the greatest length.
fn exact(whole: &str, places: &str, unit: Unit) -> Result<Length, Why> {
    let kept = places.trim_end_matches('0');
    if kept.len() > 9 {
        return Err(Why::TooManyDigits);
    }
    if whole.len() > 12 {
        return Err(Why::TooLarge);
    }
    // At most 21 digits.
    let digits = whole.bytes().chain(kept.bytes()).fold(0_i128, |n, digit| n * 10 + i128::from(digit - b'0'));
    let scale = 10_i128.pow(u32::try_from(kept.len()).unwrap_or(9));
    let pm = digits * i128::from(unit.one().pm());
    if pm % scale != 0 {
        return Err(Why::TooManyDigits);
    }
    match i64::try_from(pm / scale) {
        Ok(n) if n <= Length::GREATEST.pm() => Ok(Length::from_pm(n)),
        _ => Err(Why::TooLarge),
    }
}

/// The unit word behind byte `at`, if one stands there, and the byte behind it.
fn unit_after(text: &str, at: usize, unit: Unit) -> (Unit, bool, usize) {
    let rest = &text[at..];
    let gap = rest.len() - rest.trim_start_matches(' ').len();
    let word = &rest[gap..];
    for (spelling, is) in [
        ("inches", Unit::Inch),
        ("inch", Unit::Inch),
        ("in.", Unit::Inch),
        ("in", Unit::Inch),
        ("\"", Unit::Inch),
        ("\u{2033}", Unit::Inch),
        ("\u{201d}", Unit::Inch),
        ("mm", Unit::Millimetre),
    ] {
        if let Some(tail) = word.strip_prefix(spelling)
            && !tail.starts_with(|c: char| c.is_alphanumeric())
        {
            return (is, true, at + gap + spelling.len());
        }
    }
    (unit, false, at)
}

fn finish(
    c: &mut Cursor<'_>,
    start: usize,
    negative: bool,
    value: Result<Length, Why>,
    form: NumberForm,
    unit: Unit,
) -> Result<(Number, usize), BadNumber> {
    let (own, own_unit, end) = unit_after(c.text, c.at, unit);
    let value = value.map_err(|why| BadNumber::new(start..c.at, why))?;
    Ok((Number { value: if negative { -value } else { value }, unit: own, own_unit, form }, end))
}
