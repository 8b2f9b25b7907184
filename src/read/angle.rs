//! Angles, plain numbers, roughness and other values that are no lengths.

use super::forms::Wants;
use super::reader::{Field, Reader};
use super::tree::Written;
use crate::model::Text;
use crate::model::feature::{End, Ends, Finish, TrueTo};
use crate::model::slip::BadSize;
use crate::unit::{Unit, Why};

impl Reader<'_> {
    /// An angle in thousandths of a degree.
    pub(super) fn angle(&mut self, field: Option<Field<'_>>) -> Option<i64> {
        let written = self.value(&field?, Wants::Angle)?;
        self.angle_of(written, Wants::Angle)
    }

    /// `45°`, `45 deg`, `45` in thousandths of a degree.
    pub(super) fn angle_of(&mut self, written: Written<'_>, wants: Wants) -> Option<i64> {
        let found = angle_text(written.text);
        if found.is_none() {
            self.bad(written, written.place, BadSize::Form, wants);
        }
        found
    }

    /// A number without a unit.
    pub(super) fn number(&mut self, field: Option<Field<'_>>) -> Option<f64> {
        let written = self.value(&field?, Wants::Number)?;
        self.number_of(written)
    }

    /// A number without a unit from its text.
    pub(super) fn number_of(&mut self, written: Written<'_>) -> Option<f64> {
        let found = plain_number(written.text);
        if found.is_none() {
            let why = if written.text.contains(',') { Why::Comma } else { Why::Character };
            self.bad(written, written.place, BadSize::Number(why), Wants::Number);
        }
        found
    }

    /// A whole number above zero.
    pub(super) fn count_of(&mut self, written: Written<'_>) -> Option<u32> {
        let found = written.text.parse::<u32>().ok().filter(|n| (1..1_000_000).contains(n));
        if found.is_none() {
            self.bad(written, written.place, BadSize::Form, Wants::Number);
        }
        found
    }

    /// One end.
    pub(super) fn end(&mut self, field: Option<Field<'_>>) -> Option<End> {
        let field = field?;
        let written = self.value(&field, Wants::Words)?;
        match self.word(written, &["datum", "far"], field.word)? {
            "datum" => Some(End::Datum),
            _ => Some(End::Far),
        }
    }

    /// One end or both.
    pub(super) fn ends(&mut self, field: Option<Field<'_>>) -> Option<Ends> {
        let field = field?;
        let written = self.value(&field, Wants::Words)?;
        match self.word(written, &["datum", "far", "both"], field.word)? {
            "datum" => Some(Ends::One(End::Datum)),
            "far" => Some(Ends::One(End::Far)),
            _ => Some(Ends::Both),
        }
    }

    /// `32 µin`, `0.8 µm`; a bare number is in the file's unit.
    pub(super) fn finish(&mut self, field: Option<Field<'_>>) -> Option<Finish> {
        let written = self.value(&field?, Wants::Finish)?;
        let lower = written.text.to_lowercase().replace(['\u{3bc}', '\u{b5}'], "u");
        let bare = lower.trim_start_matches("ra").trim();
        let digits = bare.trim_end_matches(|c: char| !c.is_ascii_digit() && c != '.');
        let unit = match bare[digits.len()..].trim() {
            "uin" | "microinch" | "microinches" => Some(Unit::Inch),
            "um" | "micrometre" | "micrometer" => Some(Unit::Millimetre),
            "" => Some(self.unit),
            _ => None,
        };
        let ra = plain_number(digits).zip(unit).map(|(n, unit)| match unit {
            Unit::Inch => n * 25.4,
            Unit::Millimetre => n * 1000.0,
        });
        let Some(nm) = ra.filter(|n| (1.0..1e6).contains(n)) else {
            self.bad(written, written.place, BadSize::Unit, Wants::Finish);
            return None;
        };
        Some(Finish { text: written.text.to_owned(), ra_nm: nm.round() as u32, place: written.place })
    }

    /// `clockwise`, `counterclockwise from the far end`.
    pub(super) fn rotation(&mut self, field: Option<Field<'_>>) -> Option<Text> {
        let written = self.value(&field?, Wants::Rotation)?;
        let lower = written.text.to_ascii_lowercase();
        let mut words = lower.split(|c: char| !c.is_ascii_alphabetic());
        if words.any(|w| matches!(w, "cw" | "ccw") || w.ends_with("clockwise")) {
            return Some(Text { text: written.text.to_owned(), place: written.place });
        }
        self.bad(written, written.place, BadSize::Form, Wants::Rotation);
        None
    }

    /// `pulley seat within 0.001 TIR`.
    pub(super) fn true_to(&mut self, field: Option<Field<'_>>) -> Option<TrueTo> {
        let written = self.value(&field?, Wants::TrueTo)?;
        let Some((name, rest)) = written.split_at_mark(" within ") else {
            self.bad(written, written.place, BadSize::Form, Wants::TrueTo);
            return None;
        };
        let lower = rest.text.to_ascii_lowercase();
        let figure = lower.trim_end_matches("tir").trim_end_matches("fim").trim_end();
        let feature = self.feature_of(name);
        let within = self.size_of(rest.cut(0..figure.len()), super::size::Role::Bare, Wants::TrueTo);
        Some(TrueTo { feature: feature?, within: within? })
    }
}

/// `45°`, `45 deg`, `7.5`, in thousandths of a degree.
pub(super) fn angle_text(text: &str) -> Option<i64> {
    let text = text.trim();
    let bare = ["degrees", "degree", "deg.", "deg", "\u{b0}", "\u{ba}"].iter().find_map(|s| text.strip_suffix(s));
    let degrees = plain_number(bare.unwrap_or(text).trim())?;
    (degrees.abs() <= 360.0).then(|| (degrees * 1000.0).round() as i64)
}

/// A decimal number, digits and one point, with a sign or without; no exponents, no words.
pub(super) fn plain_number(text: &str) -> Option<f64> {
    let digits = text.strip_prefix(['+', '-', '\u{2212}']).unwrap_or(text);
    let plain = !digits.is_empty()
        && digits.len() <= 15
        && digits.chars().all(|c| c.is_ascii_digit() || c == '.')
        && digits.chars().any(|c| c.is_ascii_digit());
    let value: f64 = if plain { digits.parse().ok()? } else { return None };
    Some(if text.starts_with(['-', '\u{2212}']) { -value } else { value })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn angles_and_numbers() {
        assert_eq!(angle_text("45°"), Some(45_000));
        assert_eq!(angle_text("2.8624 deg"), Some(2_862));
        assert_eq!(angle_text("7"), Some(7_000));
        assert_eq!(angle_text("1e3"), None);
        assert_eq!(plain_number("-.5"), Some(-0.5));
        assert_eq!(plain_number("."), None);
        assert_eq!(plain_number("1.2.3"), None);
    }
}
