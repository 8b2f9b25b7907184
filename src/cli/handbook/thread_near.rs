//! What is near a thread that cannot be read: sizes, and classes.

use std::ops::Range;

use crate::handbook::thread::{self, Asked, Designation, Family, Unknown};
use crate::unit::{Length, Unit, read_number};

/// The standard threads of the size a text begins with, or of the sizes nearest to it; at most six. Empty when it does not
/// begin with a size.
pub(super) fn of_size(text: &str) -> Vec<String> {
    let text = text.trim();
    let (metric, number) = match text.strip_prefix(['M', 'm']) {
        Some(rest) => (true, rest.trim_start()),
        None => (false, text),
    };
    let unit = if metric { Unit::Millimetre } else { Unit::Inch };
    let Some((size, whole)) = leading_size(number, unit) else { return Vec::new() };
    // A bare whole number beyond the inch sizes is a metric size without its M.
    if !metric && whole && size > Length::PER_INCH.times(4) {
        return nearest(Length::PER_MM.times_ratio(size.pm(), Length::PER_INCH.pm()), true);
    }
    nearest(size, metric)
}

/// The longest beginning that is a size, and whether it is a whole number.
fn leading_size(text: &str, unit: Unit) -> Option<(Length, bool)> {
    let ends = (1..=text.len()).rev().filter(|n| text.is_char_boundary(*n));
    ends.filter_map(|n| text.get(..n)).find_map(|head| {
        let head = head.trim_end_matches(['-', 'x', 'X', ' ']);
        let number = read_number(head, unit).ok()?;
        number.value.is_positive().then(|| (number.value, head.chars().all(|c| c.is_ascii_digit())))
    })
}

fn nearest(size: Length, metric: bool) -> Vec<String> {
    let wanted = |f: &Family| match f {
        Family::IsoMetric => metric,
        Family::UnifiedInch { .. } => !metric,
        _ => false,
    };
    let mut all: Vec<Designation> = thread::ALL.into_iter().filter(wanted).flat_map(thread::series).collect();
    all.sort_by_key(|d| (d.nominal - size).abs());
    let least = all.first().map(|d| (d.nominal - size).abs());
    let same = all.iter().take_while(|d| Some((d.nominal - size).abs()) == least).count();
    // All of one size are shown, or a few of the neighbours where the size itself is in no series.
    all.truncate(if least == Some(Length::ZERO) { same.min(6) } else { 6 });
    all.iter().map(Designation::show).collect()
}

/// The classes of the kind of thread that is left when the text at `class` is taken away.
pub(super) fn classes(text: &str, class: &Range<usize>) -> String {
    let mut plain = text.to_owned();
    if plain.get(class.clone()).is_none() {
        return String::new();
    }
    plain.replace_range(class.clone(), "");
    let plain = plain.trim().trim_end_matches('-');
    let Ok(d) = thread::read(plain) else { return String::new() };
    let asked = Designation { class: Some("?".to_owned()), ..d };
    match thread::limits(&asked, &Asked::special()) {
        Err(Unknown::Class { known }) => known.join(", "),
        _ => String::new(),
    }
}
