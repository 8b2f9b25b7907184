//! Descriptions to begin from: two commented ones, and one written from answers or from a plain table.

use std::fmt::Write as _;

use super::start_table::Row;
use crate::unit::{Length, NumberForm, SizeText, Unit, read_size, show};

/// An inch part.
pub const START_INCH: &str = include_str!("../../templates/start-inch.yaml");

/// A millimetre part.
pub const START_MM: &str = include_str!("../../templates/start-mm.yaml");

/// What somebody answers about a part to begin with; sizes as people write them.
#[derive(Debug, Clone)]
pub struct Answers {
    /// Name of the part.
    pub part: Option<String>,
    /// Unit of sizes that carry none.
    pub units: Unit,
    /// Overall length with its limits, `7.000 ±0.010`; a table may leave it out.
    pub overall: Option<String>,
    /// Diameter of the bar, `1.25`, or diameter x saw length, `1.25 x 7 1/8`.
    pub stock: Option<String>,
    /// Name of the end every length is measured from.
    pub datum: Option<String>,
    /// Grade and condition.
    pub material: Option<String>,
}

/// An answer that cannot be taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BadAnswer {
    /// Which one: `overall`.
    pub of: &'static str,
    /// Why, and what would do.
    pub why: String,
}

/// A description from answers: one section of the bar's own surface over the whole length, to be cut up into the part's own.
///
/// # Errors
/// The first answer that is missing or cannot be read.
pub fn from_answers(answers: &Answers) -> Result<String, BadAnswer> {
    let overall = answers.overall.as_deref().ok_or_else(|| missing("overall", "--overall 7.000"))?;
    let mut out = head(answers, overall)?;
    let stock = answers.stock.as_deref().ok_or_else(|| missing("stock", "--stock 1.25"))?;
    let bar = size("stock", stock.split(['x', 'X', '×']).next().unwrap_or(stock), answers.units)?.nominal.value;
    let turn = smaller(bar, answers.units);
    out.push_str("\nfeatures:\n  # sections, from the datum end outward; they meet end to end: put your own in place of this one\n");
    let _ = writeln!(out, "  - turn: {turn}\n    to: end\n    name: body");
    let edge = if answers.units == Unit::Inch { "0.030 x 45°" } else { "0.8 x 45°" };
    let center = center(bar);
    let _ = writeln!(out, "  # what lies on the sections and ends\n  - chamfer: {edge}\n    end: both");
    let _ = writeln!(out, "  - center hole: {center}\n    end: both");
    Ok(out)
}

/// A description from a table's rows.
///
/// # Errors
/// The first answer that is missing or cannot be read.
pub fn from_rows(answers: &Answers, rows: &[Row]) -> Result<(String, Vec<usize>), BadAnswer> {
    let last = rows.iter().rev().find_map(|r| r.cell("to").filter(|to| super::keys::fold(to) != "end"));
    let overall = answers.overall.as_deref().or(last).ok_or_else(|| missing("overall", "--overall 7.000"))?;
    let mut out = head(answers, overall)?;
    out.push_str("\nfeatures:\n");
    // The line of the description at which each row begins, from 1.
    let mut lines = Vec::with_capacity(rows.len());
    for row in rows {
        lines.push(out.lines().count() + 1);
        let _ = writeln!(out, "  - {}: {}", row.kind, scalar(&row.size));
        for (key, value) in &row.others {
            let _ = writeln!(out, "    {key}: {}", scalar(value));
        }
    }
    Ok((out, lines))
}

/// The head: every answer, and the general tolerances a lathe hand would take, stated.
fn head(answers: &Answers, overall: &str) -> Result<String, BadAnswer> {
    let unit = answers.units;
    let length = size("overall", overall, unit)?;
    let datum = answers.datum.as_deref().ok_or_else(|| missing("datum", "--datum \"pulley end\""))?;
    let inch = unit == Unit::Inch;
    let mut out = String::new();
    let _ = writeln!(out, "part: {}", scalar(answers.part.as_deref().unwrap_or("New part")));
    let _ = writeln!(out, "units: {}", unit.word());
    let material = answers.material.as_deref().unwrap_or(if inch { "1018 cold drawn" } else { "C45 cold drawn" });
    let _ = writeln!(out, "material: {}", scalar(material));
    if let Some(stock) = &answers.stock {
        let _ =
            writeln!(out, "stock: {}   # diameter x saw length", scalar(&stock_of(stock, length.nominal.value, unit)?));
    }
    let _ = writeln!(out, "datum: {}   # the end every length is measured from", scalar(datum));
    let limits = if length.tolerance == crate::unit::ToleranceText::None {
        if inch { " ±0.010" } else { " ±0.3" }
    } else {
        ""
    };
    let _ = writeln!(out, "overall: {}{limits}", overall.trim());
    let general = if inch { "{lengths: ±0.005, diameters: ±0.002}" } else { "{lengths: ±0.1, diameters: ±0.05}" };
    let _ = writeln!(out, "tolerances: {general}   # what a size without limits means: change it to the drawing's");
    Ok(out)
}

/// Diameter x saw length; the saw length is the overall and what facing takes, rounded up to what a saw is set by.
fn stock_of(stock: &str, overall: Length, unit: Unit) -> Result<String, BadAnswer> {
    let parts: Vec<&str> = stock.split(['x', 'X', '×']).map(str::trim).collect();
    size("stock", parts[0].trim_start_matches(|c: char| c.is_ascii_alphabetic() || c == ' '), unit)?;
    if parts.len() > 1 {
        size("stock", parts[1], unit)?;
        return Ok(format!("{} x {}", parts[0], parts[1]));
    }
    // 1/8 in or 3 mm for both ends, then up to the next 1/16 in or millimetre.
    let (over, step, decimals) = match unit {
        Unit::Inch => (Length::PER_INCH.times_ratio(1, 8), Length::PER_INCH.times_ratio(1, 16), 4),
        Unit::Millimetre => (Length::PER_MM.times(3), Length::PER_MM, 0),
    };
    let least = (overall + over).pm();
    let steps = (least + step.pm() - 1) / step.pm();
    Ok(format!("{} x {}", parts[0], leading_zero(&show::exact(step.times(steps), unit, 0, decimals))))
}

/// A center hole whose mouth stays under half of the turned bar (forms and drills: ISO 866, ASME B94.11M).
fn center(bar: Length) -> &'static str {
    match bar.pm() / (Length::PER_MM.pm() / 10) {
        190.. => "A 2.5",
        130..190 => "A 1.6",
        _ => "A 1",
    }
}

/// The bar less a cut on the diameter: 1/16 in, or 2 mm.
fn smaller(bar: Length, unit: Unit) -> String {
    let (cut, decimals) = match unit {
        Unit::Inch => (Length::PER_INCH.times_ratio(1, 16), 3),
        Unit::Millimetre => (Length::PER_MM.times(2), 0),
    };
    let left = if bar > cut + cut { bar - cut } else { bar };
    leading_zero(&show::exact(left, unit, decimals, 4))
}

fn leading_zero(text: &str) -> String {
    if text.starts_with('.') { format!("0{text}") } else { text.to_owned() }
}

fn missing(of: &'static str, example: &str) -> BadAnswer {
    BadAnswer { of, why: format!("it is not said; add {example}") }
}

fn size(of: &'static str, text: &str, unit: Unit) -> Result<SizeText, BadAnswer> {
    let found = read_size(text, unit).map_err(|bad| BadAnswer {
        of,
        why: format!("`{}` cannot be read in `{}`", text.get(bad.at).unwrap_or(text), text.trim()),
    })?;
    if found.nominal.value.is_positive() && !matches!(found.nominal.form, NumberForm::Decimal(10..)) {
        Ok(found)
    } else {
        Err(BadAnswer { of, why: format!("`{}` is not above zero", text.trim()) })
    }
}

/// A value as YAML takes it: in quotes where it would be read otherwise.
pub(super) fn scalar(text: &str) -> String {
    let text = text.trim();
    let first = text.chars().next();
    let risky = text.is_empty()
        || first.is_some_and(|c| {
            "#&*!|>'\"%@`{}[],?-:~".contains(c) && !(c == '-' && text[1..].starts_with(|d: char| d.is_ascii_digit()))
        })
        || text.contains(": ")
        || text.contains(" #")
        || text.ends_with(':')
        || text.chars().any(char::is_control);
    if !risky {
        return text.to_owned();
    }
    let escaped: String = text
        .chars()
        .map(|c| match c {
            '"' => "\\\"".to_owned(),
            '\\' => "\\\\".to_owned(),
            c if c.is_control() => " ".to_owned(),
            c => c.to_string(),
        })
        .collect();
    format!("\"{escaped}\"")
}
