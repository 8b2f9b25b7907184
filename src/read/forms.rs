//! What is wanted in a place, and how it would be written.

use super::keys::Scope;
use crate::unit::{Unit, Why, read_size};

/// What a value should be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Wants {
    Words,
    Size,
    Division,
    Diameter,
    Radius,
    Limits,
    Place,
    Name,
    Angle,
    Number,
    YesNo,
    Thread,
    Taper,
    Chamfer,
    Crown,
    Keyseat,
    CenterHole,
    Knurl,
    Flat,
    Undercut,
    RingGroove,
    ORing,
    Stock,
    Finish,
    TrueTo,
    General,
    Pitch,
    Power,
    SurfaceSpeed,
    Range,
    Stiffness,
    Engraving,
    Coating,
    Rotation,
    Temperature,
}

impl Wants {
    /// With its article.
    pub(super) const fn called(self) -> &'static str {
        match self {
            Self::Words => "words",
            Self::Size => "a size",
            Self::Division => "a size on a dial",
            Self::Diameter => "a diameter",
            Self::Radius => "a radius",
            Self::Limits => "limits",
            Self::Place => "a place",
            Self::Name => "a name",
            Self::Angle => "an angle",
            Self::Number => "a number",
            Self::YesNo => "yes or no",
            Self::Thread => "a thread",
            Self::Taper => "a taper",
            Self::Chamfer => "a chamfer",
            Self::Crown => "a crown",
            Self::Keyseat => "a keyseat",
            Self::CenterHole => "a center hole",
            Self::Knurl => "a knurl",
            Self::Flat => "a flat",
            Self::Undercut => "an undercut",
            Self::RingGroove => "a retaining ring",
            Self::Temperature => "a temperature",
            Self::ORing => "an O-ring",
            Self::Stock => "a bar",
            Self::Finish => "a roughness",
            Self::TrueTo => "a runout",
            Self::General => "general tolerances",
            Self::Pitch => "a pitch",
            Self::Power => "a power",
            Self::SurfaceSpeed => "a surface speed",
            Self::Range => "a range",
            Self::Stiffness => "a stiffness",
            Self::Engraving => "the words on a dial",
            Self::Coating => "a coating",
            Self::Rotation => "a rotation",
        }
    }

    /// Whether the size grammar reads it.
    pub(super) const fn is_size(self) -> bool {
        matches!(self, Self::Size | Self::Diameter | Self::Radius | Self::Place | Self::Chamfer | Self::Stock)
    }
}

/// Three forms that are read where this is wanted.
pub(super) fn of(wants: Wants, unit: Unit) -> [String; 3] {
    let inch = unit == Unit::Inch;
    let forms = match (wants, inch) {
        (Wants::Words, _) => ["words", "\"words: with a colon\"", "\"# words with a sign\""],
        (Wants::Size, true) => ["1.250 ±0.002", "1 1/4", "31.75 mm"],
        (Wants::Size, false) => ["31.75 ±0.05", "31.75", "1 1/4 in"],
        (Wants::Division, true) => ["0.001", "0.100", "1/8"],
        (Wants::Division, false) => ["0.02", "0.05", "2.5"],
        (Wants::Diameter, true) => ["0.8745 +0/-0.0005", "7/8", "20 mm k5"],
        (Wants::Diameter, false) => ["25 k6", "25 +0/-0.02", "1 in"],
        (Wants::Radius, true) => ["0.020", "1/64", "0.020 max"],
        (Wants::Radius, false) => ["0.8", "0.8 max", "1/32 in"],
        (Wants::Limits, true) => ["±0.005", "+0.002/-0", "+/-0.005"],
        (Wants::Limits, false) => ["±0.1", "+0.05/-0", "+/-0.1"],
        (Wants::Place, true) => ["3.250", "pulley seat end", "0.500 ±0.003 from pulley seat end"],
        (Wants::Place, false) => ["82.5", "pulley seat end", "12 ±0.05 from pulley seat end"],
        (Wants::Name, _) => ["pulley seat", "bearing seat", "collar"],
        (Wants::Angle, _) => ["90°", "90 deg", "90"],
        (Wants::Number, _) => ["3", "8", "32"],
        (Wants::YesNo, _) => ["yes", "no", "true"],
        (Wants::Thread, true) => ["5/8-18 UNF-2A", "No. 10-32 UNF-2A", "1 1/8-5 ACME-2G LH"],
        (Wants::Thread, false) => ["M16x1.5-6g", "Tr 40x7-7e", "M16x1.5-6g LH"],
        (Wants::Taper, true) => ["1:10", "0.600 per foot", "7°"],
        (Wants::Taper, false) => ["1:10", "2.86° a side", "7°"],
        (Wants::Chamfer, true) => ["0.045 x 45°", "1/32 x 45°", "0.060 x 30°"],
        (Wants::Chamfer, false) => ["1 x 45°", "1.5 x 20°", "0.8 ±0.1 x 45°"],
        (Wants::Crown, true) => ["0.750 radius", "0.060 high", "R 3/4"],
        (Wants::Crown, false) => ["20 radius", "1.5 high", "R 20"],
        (Wants::Keyseat, true) => ["Woodruff 606", "1/4 x 1/4 x 1", "0.250 x 0.250 x 1.000"],
        (Wants::Keyseat, false) => ["6 x 6 x 25", "8 x 7 x 40", "Woodruff 606"],
        (Wants::CenterHole, true) => ["A 1/8", "No. 3", "D 1/4-20"],
        (Wants::CenterHole, false) => ["A 2.5", "B 3.15", "D M8"],
        (Wants::Knurl, true) => ["medium diamond", "96 DP straight", "0.8 mm diamond"],
        (Wants::Knurl, false) => ["0.8 diamond", "1 straight", "96 DP straight"],
        (Wants::Flat, true) => ["9/16 across", "0.220 to far side", "0.030 deep"],
        (Wants::Flat, false) => ["14 across", "5.6 to far side", "0.8 deep"],
        (Wants::Undercut, true) => ["0.010 x 0.060", "DIN 509 E 0.6x0.3", "DIN 509 F"],
        (Wants::Undercut, false) => ["DIN 509 E 0.6x0.3", "DIN 509 F", "0.3 x 2.5"],
        (Wants::RingGroove, true) => ["1", "B18.27 1.000", "DIN 471 25"],
        (Wants::RingGroove, false) => ["25", "DIN 471 25", "B18.27 1"],
        (Wants::ORing, true) => ["2-214", "0.139", "0.139 x 0.984"],
        (Wants::ORing, false) => ["3.53 x 25", "2-214", "3.53"],
        (Wants::Stock, true) => ["1.250 x 7.125", "hex 1 x 3.5", "tube 1.5/0.75 x 3"],
        (Wants::Stock, false) => ["32 x 180", "hex 27 x 90", "tube 40/20 x 80"],
        (Wants::Finish, _) => ["32 µin", "0.8 µm", "Ra 0.8 µm"],
        (Wants::TrueTo, true) => {
            ["pulley seat within 0.001 TIR", "pulley seat within 0.001", "collar within 0.002 TIR"]
        }
        (Wants::TrueTo, false) => ["pulley seat within 0.02 TIR", "pulley seat within 0.02", "collar within 0.05 TIR"],
        (Wants::General, true) => {
            ["{lengths: ±0.005, diameters: ±0.002}", "{2 places: ±0.010, 3 places: ±0.005}", "ISO 2768-m"]
        }
        (Wants::General, false) => ["ISO 2768-m", "{lengths: ±0.1, diameters: ±0.05}", "ISO 2768-f"],
        (Wants::Pitch, true) => ["8 tpi", "4 1/2 tpi", "4 mm"],
        (Wants::Pitch, false) => ["4 mm", "8 tpi", "6"],
        (Wants::Power, _) => ["1.5 hp", "1100 W", "1.1 kW"],
        (Wants::SurfaceSpeed, true) => ["90", "90 ft/min", "28 m/min"],
        (Wants::SurfaceSpeed, false) => ["28", "28 m/min", "90 ft/min"],
        (Wants::Range, true) => ["0..1", "1..2", "0..25 mm"],
        (Wants::Range, false) => ["0..25", "25..50", "0..1 in"],
        (Wants::Coating, true) => ["0.0005 a side, sizes after", "0.0005 a side, sizes before", "0.0002 a side"],
        (Wants::Coating, false) => ["0.012 a side, sizes after", "0.012 a side, sizes before", "0.005 a side"],
        (Wants::Rotation, _) => ["clockwise", "counterclockwise", "clockwise from the far end"],
        (Wants::Engraving, _) => ["\"1 - 2 - 3 - 4 -\"", "[1, -, 2, -]", "1 2 3 4"],
        (Wants::Temperature, _) => ["31 °C", "88 °F", "20 C"],
        (Wants::Stiffness, _) => ["20000 N/mm", "20 N/µm", "110000 lb/in"],
    };
    forms.map(str::to_owned)
}

/// What was most likely meant by a size that cannot be read, if that can be read.
pub(super) fn meant(text: &str, why: Why, wants: Wants, unit: Unit) -> Option<String> {
    let guess = match why {
        Why::Gap => join_digits(text),
        Why::Comma => points_for_commas(text)?,
        Why::SquareBrackets => format!("({})", text.trim_start_matches('[').trim_end_matches(']').trim()),
        Why::Character | Why::Tolerance | Why::OneLimit if text.contains(VULGAR) => plain_fractions(text),
        Why::Character | Why::Tolerance if text.contains("thou") => thousandths(text)?,
        Why::Character | Why::Tolerance => digits_for_letters(text),
        Why::OneLimit => other_limit(text)?,
        Why::Bracket => format!("{text})"),
        _ => return None,
    };
    (wants.is_size() && guess != text && read_size(&guess, unit).is_ok()).then_some(guess)
}

/// `612,5 ±0,5` → `612.5 ±0.5`; none where a number has both signs or one twice, which then part thousands.
fn points_for_commas(text: &str) -> Option<String> {
    let apart = text.replace("..", " ");
    let mut numbers = apart.split(|c: char| !(c.is_ascii_digit() || matches!(c, ',' | '.')));
    let plain = numbers.all(|n| n.matches([',', '.']).count() <= 1 && !n.ends_with(','));
    plain.then(|| text.replace(',', "."))
}

/// `0.005` → `±0.005`, where limits alone are wanted.
pub(super) fn signed(text: &str, unit: Unit) -> Option<String> {
    let meant = format!("±{text}");
    let plain = text.starts_with(|c: char| c.is_ascii_digit() || c == '.');
    (plain && read_size(&format!("0 {meant}"), unit).is_ok()).then_some(meant)
}

/// Fractions that a word processor makes one character of, and its fraction bar.
const VULGAR: [char; 8] = ['½', '¼', '¾', '⅛', '⅜', '⅝', '⅞', '\u{2044}'];

/// `1½` → `1 1/2`.
fn plain_fractions(text: &str) -> String {
    let mut out = String::new();
    for c in text.chars() {
        let plain = match c {
            '½' => "1/2",
            '¼' => "1/4",
            '¾' => "3/4",
            '⅛' => "1/8",
            '⅜' => "3/8",
            '⅝' => "5/8",
            '⅞' => "7/8",
            '\u{2044}' => "/",
            c => {
                out.push(c);
                continue;
            }
        };
        if c != '\u{2044}' && out.ends_with(|c: char| c.is_ascii_digit()) {
            out.push(' ');
        }
        out.push_str(plain);
    }
    out
}

/// `1.250 ±2 thou` → `1.250 ±0.002`: a thou is a thousandth of an inch everywhere.
fn thousandths(text: &str) -> Option<String> {
    let at = text.find("thou")?;
    let head = text[..at].trim_end();
    let start = head
        .rfind(|c: char| !c.is_ascii_digit() && c != '.')
        .map_or(0, |i| i + head[i..].chars().next().map_or(1, char::len_utf8));
    let (whole, part) = head[start..].split_once('.').unwrap_or((&head[start..], ""));
    if whole.is_empty() && part.is_empty() || whole.len() > 6 {
        return None;
    }
    let digits = format!("{whole:0>4}");
    let (inches, thou) = digits.split_at(digits.len() - 3);
    let tail = text[at..].trim_start_matches("thousandths").trim_start_matches("thou").trim_start_matches('s');
    let inches = inches.trim_start_matches('0');
    let inches = if inches.is_empty() { "0" } else { inches };
    Some(format!("{}{inches}.{thou}{part} in{tail}", &text[..start]))
}

/// `1.2 50` → `1.250`.
fn join_digits(text: &str) -> String {
    let characters: Vec<char> = text.chars().collect();
    let digit = |i: usize| characters.get(i).is_some_and(char::is_ascii_digit);
    let mut out = String::new();
    let mut joined = false;
    for (i, c) in characters.iter().enumerate() {
        if !joined && *c == ' ' && i > 0 && digit(i - 1) && digit(i + 1) {
            joined = true;
        } else {
            out.push(*c);
        }
    }
    out
}

/// `l.25O` → `1.250`: letters that stand for digits.
fn digits_for_letters(text: &str) -> String {
    let characters: Vec<char> = text.chars().collect();
    let figure = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit() || c == '.');
    let mut out = String::new();
    for (i, c) in characters.iter().enumerate() {
        let beside = figure(characters.get(i + 1).copied()) || figure(out.chars().next_back());
        out.push(match c {
            'l' | 'I' | '|' if beside => '1',
            'O' | 'o' if beside => '0',
            'S' if beside => '5',
            'B' if beside => '8',
            'Z' if beside => '2',
            c => *c,
        });
    }
    out
}

/// `1.250 -.001` → `1.250 +0/-.001`.
fn other_limit(text: &str) -> Option<String> {
    let at = text.rfind(['+', '-', '\u{2212}', '\u{2013}'])?;
    let (nominal, limit) = (text[..at].trim_end(), &text[at..]);
    Some(if limit.starts_with('+') { format!("{nominal} {limit}/-0") } else { format!("{nominal} +0/{limit}") })
}

/// What is wanted where a mapping or list is wanted, and how it would be written.
pub(super) const fn shape(scope: Scope) -> (&'static str, &'static str) {
    match scope {
        Scope::Header => ("keys with values", "part: Pulley stub"),
        Scope::Kind => ("a list of features", "- {turn: 1.060, to: 3.750}"),
        Scope::Turn => ("a kind with its size", "- {turn: 1.060, to: 3.750}"),
        Scope::InsideKind => ("a list of what lies inside", "- {bore: 1.000 H7, end: datum, depth: 0.750}"),
        Scope::Tolerances => ("keys with limits", "{lengths: ±0.005, diameters: ±0.002}"),
        Scope::Carries => ("what sits there", "{part: pulley, bore: 0.8750, enters: datum}"),
        Scope::Dim => ("a distance between two faces", "{from: 3.750, to: 6.000, is: 2.250 ±0.010}"),
        Scope::Accept => ("what is accepted", "{check: relief-width, where: 6.620, because: short nut}"),
        Scope::Plan => ("keys with values", "{first end: far}"),
        Scope::Cut => ("a cut", "{op: 1, cut: A, from: D, mean: 34.0, tol: 0.5}"),
        Scope::ChartFaces => ("faces in order from the datum end, each with the end it looks to", "{A: datum, B: far}"),
        Scope::ChartStock => ("faces, each with its least stock", "{A: 0.3, D: 1.0}"),
        Scope::Shop => ("keys with values", "shop: Shed at the mill race"),
        Scope::CrossDial => ("keys with values", "{reads: radius, division: 0.001, turn: 0.100}"),
        Scope::Dial => ("keys with values", "{division: 0.001, turn: 0.100}"),
        Scope::ThreadDial => ("keys with values", "{teeth: 32, marks: 8}"),
        Scope::Gearbox => ("keys with values", "{tpi: [8, 10, 12], pitches: [1, 1.5]}"),
        Scope::Chuck => ("keys with values", "{jaws: 3, largest: 6}"),
        Scope::Rest => ("keys with values", "{rest: steady, largest: 2}"),
        Scope::DividingHead => ("keys with values", "{ratio: 40, circles: [15, 18, 20]}"),
        Scope::Dog => ("keys with values", "{largest: 1.500, long: 0.600}"),
        Scope::Tool => ("keys with values", "{tool: grooving, width: 0.093}"),
        Scope::Instrument => ("keys with values", "{instrument: micrometer, range: 0..1, error: 0.0001}"),
        _ => ("keys with values", "{key: value}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_meant() {
        for (text, why, answer) in [
            ("1.2 50", Why::Gap, "1.250"),
            ("1,250", Why::Comma, "1.250"),
            ("4,000 ±0.010", Why::Comma, "4.000 ±0.010"),
            ("612,5 ±0,5", Why::Comma, "612.5 ±0.5"),
            ("12,5 +0/-0,02", Why::Comma, "12.5 +0/-0.02"),
            ("7,495..7,500", Why::Comma, "7.495..7.500"),
            ("l.25O", Why::Character, "1.250"),
            ("4.OOO", Why::Tolerance, "4.000"),
            ("[2.250]", Why::SquareBrackets, "(2.250)"),
            ("1.250 -.001", Why::OneLimit, "1.250 +0/-.001"),
            ("1½", Why::Character, "1 1/2"),
            ("7\u{2044}16", Why::Character, "7/16"),
            ("1.250 ±2 thou", Why::Character, "1.250 ±0.002 in"),
            ("1.250 ±2.5 thou", Why::Character, "1.250 ±0.0025 in"),
        ] {
            assert_eq!(meant(text, why, Wants::Size, Unit::Inch).as_deref(), Some(answer), "{text}");
        }
        assert_eq!(meant("1.234,5", Why::Comma, Wants::Size, Unit::Inch), None);
        assert_eq!(meant("about 3", Why::Character, Wants::Size, Unit::Inch), None);
    }
}
