//! Bearings by the number on the ring, or by bore, outside diameter and width.

use super::likelihood::normal;
use crate::handbook::bearing::{self, Bearing, Turns, usual_seat};
use crate::handbook::fit;
use crate::unit::{Length, Limits, Unit, show};

/// A bearing that fits what was read.
#[derive(Debug, Clone, PartialEq)]
pub struct BearingFound {
    /// Number.
    pub number: String,
    /// Its sizes, where the table has it.
    pub bearing: Option<Bearing>,
    /// Bore.
    pub bore: Length,
    /// Share of the belief, 0 to 1.
    pub score: f64,
    /// How the size follows from marks or readings.
    pub why: String,
    /// Seats to restore, by which ring turns: class, limits, words.
    pub seats: Vec<(&'static str, Limits, String)>,
}

/// The bore a basic number tells: its last two digits are fifths of a millimetre's multiple from 04 up (x5), and 00 to 03 are
/// 10, 12, 15 and 17; three-digit numbers of the small sizes end in the bore itself (ISO 15 numbering, common practice).
fn bore_of(number: &str) -> Option<(Length, String)> {
    let digits: String = number.chars().filter(char::is_ascii_digit).collect();
    let basic = digits.get(..4.min(digits.len()))?;
    if let Some(b) = bearing::find(basic).or_else(|| bearing::find(digits.get(..3)?)) {
        return Some((b.bore, format!("{} is in the table", b.number)));
    }
    if basic.len() < 4 {
        return None;
    }
    let code: i64 = basic.get(2..)?.parse().ok()?;
    let mm = match code {
        0 => 10,
        1 => 12,
        2 => 15,
        3 => 17,
        4..=96 => code * 5,
        _ => return None,
    };
    Some((Length::PER_MM.times(mm), format!("the last two digits of {basic}, {code:02}, tell the bore: {mm} mm")))
}

/// The seats for a bore, by which ring turns.
fn seats(bore: Length) -> Vec<(&'static str, Limits, String)> {
    [(Turns::Shaft, "shaft turns against the load"), (Turns::Housing, "housing turns, load stands on the shaft")]
        .into_iter()
        .filter_map(|(turns, words)| {
            let (code, source) = usual_seat(bore, turns);
            let limits = fit::shaft(code, bore).ok()?.limits(bore);
            Some((code, limits, format!("{words} ({})", source.name)))
        })
        .collect()
}

/// What the marks on a ring tell.
pub fn inner_ring(marks: &str) -> Option<BearingFound> {
    let (bore, why) = bore_of(marks)?;
    let digits: String = marks.chars().filter(char::is_ascii_digit).collect();
    Some(BearingFound {
        number: marks.trim().to_owned(),
        bearing: bearing::find(digits.get(..4).unwrap_or(&digits)).or_else(|| bearing::find(digits.get(..3)?)),
        bore,
        score: 1.0,
        why,
        seats: seats(bore),
    })
}

/// Bearings by readings; rings wear little, so errors go both ways. `error` is one standard deviation.
pub fn bearings(
    bore: Option<Length>,
    outside: Option<Length>,
    width: Option<Length>,
    error: Length,
) -> Vec<BearingFound> {
    if bore.is_none() && outside.is_none() && width.is_none() {
        return Vec::new();
    }
    let log = |read: Option<Length>, is: Length| read.map_or(0.0, |r| normal((r - is).mm(), error.mm()));
    let mut all: Vec<(f64, Bearing)> =
        bearing::all().map(|b| (log(bore, b.bore) + log(outside, b.outside) + log(width, b.width), b)).collect();
    all.sort_by(|a, b| b.0.total_cmp(&a.0));
    let Some(best) = all.first().map(|a| a.0) else { return Vec::new() };
    let sum: f64 = all.iter().map(|a| (a.0 - best).exp()).sum();
    let far = |b: &Bearing| {
        let off = |read: Option<Length>, is: Length| read.is_some_and(|r| (r - is).abs() > error.times(5));
        off(bore, b.bore) || off(outside, b.outside) || off(width, b.width)
    };
    let fitting = all.into_iter().filter(|(_, b)| !far(b)).map(|(l, b)| ((l - best).exp() / sum, b));
    fitting
        .filter(|(score, _)| *score >= 0.001)
        .take(6)
        .map(|(score, b)| BearingFound {
            number: b.number.to_owned(),
            bore: b.bore,
            score,
            why: words(&b),
            seats: seats(b.bore),
            bearing: Some(b),
        })
        .collect()
}

fn words(b: &Bearing) -> String {
    let mm = |l| show::exact(l, Unit::Millimetre, 0, 3);
    format!("{} x {} x {} mm ({} in bore)", mm(b.bore), mm(b.outside), mm(b.width), show::length(b.bore, Unit::Inch, 4))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 15 numbering as bearing catalogues print it: 6204 has a bore of 20, 6000 of 10, 6305 of 25, 608 of 8 mm; 6220 of 100.
    #[test]
    fn numbers_tell_bores() {
        for (number, bore) in
            [("6204-2RS", 20), ("6000 ZZ", 10), ("6305", 25), ("608", 8), ("6220", 100), ("NU 1012", 60)]
        {
            assert_eq!(inner_ring(number).unwrap().bore, Length::PER_MM.times(bore), "{number}");
        }
        assert!(inner_ring("no mark").is_none());
    }

    /// .984 in is 25 mm (the trade's own example of a metric size read in inches).
    #[test]
    fn a_bore_read_in_inches() {
        let found =
            bearings(Some(Length::inch_tenths(9842)), None, Some(Length::inch_tenths(5906)), Length::micrometres(20));
        assert_eq!(found[0].number, "6205");
    }
}
