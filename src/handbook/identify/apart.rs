//! How to tell two threads apart: by span, by mate, by leaf, by wire, by depth.

use super::Candidate;
use super::readings::ThreadReadings;
use crate::handbook::thread::over_wires;
use crate::unit::{Length, Unit, show};

fn size(mm: f64, unit: Unit) -> String {
    show::length(Length::from_f64(mm, Unit::Millimetre), unit, if unit == Unit::Inch { 4 } else { 3 })
        + " "
        + unit.word()
}

/// What tells `this` from `other`.
pub(super) fn tells(read: &ThreadReadings, this: &Candidate, other: &Candidate) -> Vec<String> {
    let unit = this.pitch.unit();
    let mut out = Vec::new();
    let starts = |c: &Candidate| c.designation.as_ref().map_or(1, |d| d.starts);
    if starts(this) != starts(other) {
        out.push(format!(
            "{} from {}: count the starts at the end, or follow one groove once round",
            this.name, other.name
        ));
    }
    let (p, q) = (this.pitch_mm(), other.pitch_mm());
    if (p - q).abs() / p > 1e-6 {
        // Three standard deviations of the difference settle it.
        let apart = (p - q).abs();
        let over = (3.0 * read.span_error.mm() / apart).ceil().max(1.0);
        out.push(format!(
            "{} from {}: over {over:.0} pitch{} {} against {}; a mate of the other runs off by {} a turn and binds",
            this.name,
            other.name,
            if over > 1.0 { "es" } else { "" },
            size(p * over, unit),
            size(q * over, unit),
            size(apart, unit)
        ));
    }
    if (this.angle - other.angle).abs() > 0.4 {
        let look = if this.angle < 40.0 && other.angle < 40.0 {
            "a 29° gauge in a 30° groove shows light at the crest on both flanks; the inch or metric pitch tells sooner"
        } else {
            "hold both leaves against the light in an unworn groove; a rounded crest and root speak for 55° and 47½°, flats for 60°"
        };
        out.push(format!("{}° from {}°: {look}", this.angle, other.angle));
        wires(&mut out, this, other, unit);
    }
    if this.taper != other.taper {
        out.push(
            "taper or parallel: read the crests twice, as far apart as the thread allows; 1 in 16 is .0625 an inch"
                .to_owned(),
        );
    }
    if let (Some(a), Some(b)) = (&this.data, &other.data)
        && (this.angle - other.angle).abs() < 0.1
        && (a.depth - b.depth).abs() > a.depth.times_ratio(1, 8)
    {
        out.push(format!(
            "by depth: the groove of {} is {} deep, of {} {}",
            this.name,
            size(a.depth.mm(), unit),
            other.name,
            size(b.depth.mm(), unit)
        ));
    }
    let gap = (this.major.middle() - other.major.middle()).abs().mm();
    if gap > 2.0 * read.diameter_error.mm() {
        out.push(format!(
            "by diameter: crests of {} and {} lie {} apart; read an unworn one, under the nut or by the shoulder",
            this.name,
            other.name,
            size(gap, unit)
        ));
    }
    if out.is_empty() {
        out.push(format!(
            "{} and {} do not differ in anything a hand measures here: the mate decides",
            this.name, other.name
        ));
    }
    out
}

/// The same wires read differently in flanks of another angle.
fn wires(out: &mut Vec<String>, this: &Candidate, other: &Candidate, unit: Unit) {
    let (Some(a), Some(b)) = (&this.data, &other.data) else { return };
    let Some(wire) = a.wire.map(|w| w.best) else { return };
    if let Some((x, y)) = over_wires(a, wire).zip(over_wires(b, wire))
        && (x.min > y.max || x.max < y.min)
    {
        let of = |l: Length| size(l.mm(), unit);
        out.push(format!(
            "over wires of {} on unworn flanks: {} reads {} to {}, {} {} to {}",
            of(wire),
            this.name,
            of(x.min),
            of(x.max),
            other.name,
            of(y.min),
            of(y.max)
        ));
    }
}
