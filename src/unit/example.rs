//! Examples of what to write: inch ones, told in millimetres where the description is in millimetres.

use super::Unit;

/// An example written in inches, in `unit`: each of its decimals in round millimetres. What names its own unit, an angle or a rate stays.
///
/// ```
/// use turnwright::unit::{Unit, example_in};
/// assert_eq!(example_in("wide: 0.046 +0.003/-0", Unit::Millimetre), "wide: 1.2 +0.1/-0");
/// assert_eq!(example_in("to: 0.750", Unit::Inch), "to: 0.750");
/// ```
pub fn example_in(example: &str, unit: Unit) -> String {
    if unit == Unit::Inch {
        return example.to_owned();
    }
    let mut out = String::new();
    let mut rest = example;
    while let Some(at) = rest.find(|c: char| c.is_ascii_digit()) {
        let (before, from) = rest.split_at(at);
        out.push_str(before);
        let end = from.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(from.len());
        let (number, after) = from.split_at(end);
        out.push_str(&one(number, before, after).unwrap_or_else(|| number.to_owned()));
        rest = after;
    }
    out + rest
}

/// A decimal in round millimetres: only whole figures (counts, names, pitches) have no point.
fn one(number: &str, before: &str, after: &str) -> Option<String> {
    let own = [" in", "in ", " mm", "mm", "\u{b0}", " hp", " per", " tpi", ":"];
    let named = before.ends_with(|c: char| c.is_ascii_alphanumeric() || c == '-' && !before.ends_with("/-"));
    if !number.contains('.') || named || own.iter().any(|o| after.starts_with(o)) {
        return None;
    }
    let mm = number.parse::<f64>().ok()? * 25.4;
    let step = match mm {
        m if m < 0.05 => 0.01,
        m if m < 3.0 => 0.1,
        m if m < 10.0 => 0.5,
        _ => 1.0,
    };
    let round = (mm / step).round() * step;
    let digits = if step < 0.05 { 2 } else { 1 };
    let text = format!("{round:.digits$}");
    Some(text.trim_end_matches('0').trim_end_matches('.').to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 25.4 times each, rounded.
    #[test]
    fn inch_examples_in_millimetres() {
        for (inch, mm) in [
            ("to: 0.750", "to: 19"),
            ("overall: 7.000 \u{b1}0.010", "overall: 178 \u{b1}0.3"),
            ("{division: 0.001, turn: 0.100}", "{division: 0.03, turn: 2.5}"),
            ("stock: 1.250 x 7.125", "stock: 32 x 181"),
            ("fillet: 0.010 max", "fillet: 0.3 max"),
            ("`0.045 x 45\u{b0}`", "`1.1 x 45\u{b0}`"),
            ("write `\u{b1}0.005`", "write `\u{b1}0.1`"),
            ("wide: 0.046 +0.003/-0.001", "wide: 1.2 +0.1/-0.03"),
            ("on: square end", "on: square end"),
            ("write 0.1 mm, or 0.001 in", "write 0.1 mm, or 0.001 in"),
            ("Woodruff 606, ISO 2768-m, 1/4 x 1/4", "Woodruff 606, ISO 2768-m, 1/4 x 1/4"),
        ] {
            assert_eq!(example_in(inch, Unit::Millimetre), mm);
            assert_eq!(example_in(inch, Unit::Inch), inch);
        }
    }
}
