//! Keys by the width of the keyseat, the arc of a Woodruff key, the height, and the shaft.

use super::likelihood::normal;
use crate::handbook::{key_parallel, woodruff};
use crate::unit::{Length, Unit, show};

/// What was read of a key or its seat.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct KeyReadings {
    /// Width, at the bottom of the seat where it is not worn.
    pub width: Option<Length>,
    /// Height of the key.
    pub height: Option<Length>,
    /// Diameter of the arc: of the key, or of the seat's bottom.
    pub arc: Option<Length>,
    /// Length of a round-bottomed slot on top of the shaft; with the shaft it tells the arc.
    pub slot: Option<Length>,
    /// Diameter of the shaft.
    pub shaft: Option<Length>,
    /// Standard deviation of a reading.
    pub error: Length,
}

/// A key that fits what was read.
#[derive(Debug, Clone, PartialEq)]
pub struct KeyFound {
    /// `Woodruff 606`, `3/16 x 3/16`, `6 x 6`.
    pub name: String,
    /// As a description says it: `keyseat: …`.
    pub describe: String,
    /// Width.
    pub width: Length,
    /// Height of the key.
    pub height: Length,
    /// Share of the belief, 0 to 1.
    pub score: f64,
    /// Why, and what to make.
    pub why: Vec<String>,
}

struct Row {
    log: f64,
    found: KeyFound,
}

/// Keys by readings, the likeliest first.
pub fn keys(read: &KeyReadings) -> Vec<KeyFound> {
    let round = read.arc.is_some() || read.slot.is_some();
    let nothing = read.width.is_none() && read.height.is_none() && !round;
    if nothing {
        return Vec::new();
    }
    let mut rows: Vec<Row> = woodruff::all().map(|k| a_woodruff(read, &k)).collect();
    if !round {
        rows.extend(parallel(read));
    }
    rows.sort_by(|a, b| b.log.total_cmp(&a.log));
    let Some(best) = rows.first().map(|r| r.log) else { return Vec::new() };
    let sum: f64 = rows.iter().map(|r| (r.log - best).exp()).sum();
    let scored = rows.into_iter().map(|r| KeyFound { score: (r.log - best).exp() / sum, ..r.found });
    scored.filter(|k| k.score >= 0.002).take(6).collect()
}

fn log(read: Option<Length>, is: Length, sigma: f64) -> f64 {
    read.map_or(0.0, |r| normal((r - is).mm(), sigma))
}

/// A seat's sides wear wide; the bottom of the seat does not (common practice, no source): errors both ways, half as much again.
fn width_sigma(read: &KeyReadings) -> f64 {
    read.error.mm() * 1.5
}

fn inch(l: Length) -> String {
    show::length(l, Unit::Inch, 4)
}

fn a_woodruff(read: &KeyReadings, k: &woodruff::WoodruffKey) -> Row {
    let arc_sigma = read.error.mm() * 6.0; // an arc is laid against a coin or a drill, not calipered
    let mut l = log(read.width, k.width, width_sigma(read))
        + log(read.arc, k.cutter_diameter, arc_sigma)
        + log(read.height, k.height.middle(), read.error.mm() * 3.0);
    let seat = read.shaft.and_then(|shaft| k.seat_in(shaft));
    if read.shaft.is_some() && seat.is_none() {
        l -= 20.0;
    }
    if let (Some(slot), Some(seat)) = (read.slot, seat) {
        l += normal((slot - seat.slot_length).mm(), arc_sigma);
    }
    // Without an arc a straight seat is the commoner (common practice, no source).
    if read.arc.is_none() && read.slot.is_none() {
        l += 0.3_f64.ln();
    }
    let mut why = vec![format!(
        "width {} in in thirty-seconds and diameter {} in in eighths make the number {}",
        inch(k.width),
        inch(k.cutter_diameter),
        k.number
    )];
    if let Some(seat) = seat {
        why.push(format!(
            "seat {} to {} in deep at its side; {} in from the top of the round, {} in across the bottom",
            inch(k.seat_depth.min),
            inch(k.seat_depth.max),
            inch(seat.depths.from_top),
            inch(seat.depths.across_bottom)
        ));
    } else {
        why.push(format!("seat {} to {} in deep at its side", inch(k.seat_depth.min), inch(k.seat_depth.max)));
    }
    why.push("a seat worn wide is cut anew at another place, or to the next wider key".to_owned());
    let found = KeyFound {
        name: format!("Woodruff {}", k.number),
        describe: format!("keyseat: Woodruff {}", k.number),
        width: k.width,
        height: k.height.max,
        score: 0.0,
        why,
    };
    Row { log: l, found }
}

fn parallel(read: &KeyReadings) -> Vec<Row> {
    let mut out: Vec<Row> = Vec::new();
    for unit in [Unit::Inch, Unit::Millimetre] {
        for (shafts, width, square) in key_parallel::sizes(unit) {
            let other = (unit == Unit::Inch).then(|| key_parallel::rectangular(shafts.max)).flatten().map(|(_, h)| h);
            for height in std::iter::once(square).chain(other.filter(|h| *h != square)) {
                if out.iter().any(|r| r.found.width == width && r.found.height == height) {
                    continue;
                }
                let mut l = log(read.width, width, width_sigma(read)) + log(read.height, height, read.error.mm() * 2.0);
                let usual = read.shaft.is_none_or(|s| s > shafts.min && s <= shafts.max);
                if !usual {
                    l += 0.1_f64.ln();
                }
                if height != square {
                    l += 0.5_f64.ln();
                }
                out.push(Row { log: l, found: a_parallel(read, unit, (width, height), usual) });
            }
        }
    }
    out
}

fn a_parallel(read: &KeyReadings, unit: Unit, size: (Length, Length), usual: bool) -> KeyFound {
    let least = if unit == Unit::Inch { 4 } else { 0 };
    let of = |l: Length| show::exact(l, unit, least, if unit == Unit::Inch { 5 } else { 3 });
    let (width, height) = size;
    let mut why = Vec::new();
    if let Some(r) = read.width {
        let off = (r - width).abs();
        why.push(format!(
            "width {} {}; read {} {} off",
            of(width),
            unit.word(),
            show::length(off, unit, if unit == Unit::Inch { 4 } else { 3 }),
            if r > width { "(over)" } else { "(under)" }
        ));
    }
    if let Some(shaft) = read.shaft {
        why.push(if usual { "usual in this shaft".to_owned() } else { "not the usual key of this shaft".to_owned() });
        if let Ok(k) = key_parallel::with_size(shaft, width, height, unit) {
            why.push(format!(
                "seat {} {} from the top of the round, {} across the bottom",
                show::length(k.depths.from_top, unit, if unit == Unit::Inch { 4 } else { 2 }),
                unit.word(),
                show::length(k.depths.across_bottom, unit, if unit == Unit::Inch { 4 } else { 2 })
            ));
        }
    }
    let standard = if unit == Unit::Inch { "B17.1" } else { "ISO 773" };
    KeyFound {
        name: format!("{} x {} {} ({standard})", of(width), of(height), unit.word()),
        describe: format!(
            "keyseat: {} x {} x LENGTH{}",
            of(width),
            of(height),
            if unit == Unit::Millimetre { " mm" } else { "" }
        ),
        width,
        height,
        score: 0.0,
        why,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 608: 1 in diameter, 3/16 wide (ASME B17.2: last two digits eighths of the diameter, those before thirty-seconds of the width).
    #[test]
    fn woodruff_by_width_and_arc() {
        let read = KeyReadings {
            width: Some(Length::inch_tenths(1880)),
            arc: Some(Length::inch_tenths(9950)),
            error: Length::micrometres(20),
            ..KeyReadings::default()
        };
        assert_eq!(keys(&read)[0].name, "Woodruff 608");
    }

    /// A 6 mm seat read in inches is .236; 1/4 in is .250. ISO/R 773: shafts over 17 to 22 mm have 6 x 6; B17.1: over 7/8 to 1 1/4 in, 1/4.
    #[test]
    fn metric_or_inch_key() {
        let of = |width: i64, shaft: Length| {
            let read = KeyReadings {
                width: Some(Length::inch_tenths(width)),
                shaft: Some(shaft),
                error: Length::micrometres(20),
                ..KeyReadings::default()
            };
            keys(&read)[0].name.clone()
        };
        assert_eq!(of(2365, Length::PER_MM.times(20)), "6 x 6 mm (ISO 773)");
        assert_eq!(of(2510, Length::PER_INCH), ".2500 x .2500 in (B17.1)");
    }
}
