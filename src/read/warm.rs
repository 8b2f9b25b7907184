//! Readings taken warm: brought to 20 °C (68 °F), the temperature that sizes are meant at (ISO 1:2022; ASME B89.6.2).

use super::forms::Wants;
use super::reader::{Fields, Reader};
use super::tree::Written;
use crate::handbook::heat;
use crate::model::measured::{Measured, MeasuredWhat, Warm};
use crate::model::slip::BadSize;
use crate::model::{Feature, Text};
use crate::unit::{Length, Unit};

/// Temperatures of a reading, °C.
#[derive(Debug, Clone, Copy)]
pub(super) struct Temperatures<'t> {
    part: f64,
    gauge: Option<f64>,
    written: Written<'t>,
}

/// Instruments are of steel: 11.5 millionths a kelvin (ISO 3650:1998, gauge blocks: 11.5 ± 1; from memory).
const GAUGE: f64 = 11.5;
/// What sizes are meant at, °C.
const REFERENCE: f64 = 20.0;
/// A part beyond these is not measured, °C: it burns the hand and bends the frame of the instrument (common practice, no source).
const PART: (f64, f64) = (-10.0, 60.0);
/// An instrument beyond these is not trusted, °C (common practice, no source).
const INSTRUMENT: (f64, f64) = (0.0, 40.0);

/// `part temperature: 31 °C`, `gauge temperature: 24 °C`.
pub(super) fn temperatures<'t>(r: &mut Reader<'_>, fields: &Fields<'t>) -> Option<Temperatures<'t>> {
    let mut of = |key: &str, reach: (f64, f64), what: &str| {
        let field = fields.get(key)?;
        let written = field.value.written()?;
        let Some(celsius) = celsius(written.text) else {
            r.bad(written, written.place, BadSize::Form, Wants::Temperature);
            return None;
        };
        if celsius < reach.0 || celsius > reach.1 {
            let fahrenheit = |c: f64| c * 1.8 + 32.0;
            let why = format!(
                "{what} is measured between {:.0} and {:.0} °C ({:.0} and {:.0} °F); let it come to the room's temperature",
                reach.0,
                reach.1,
                fahrenheit(reach.0),
                fahrenheit(reach.1)
            );
            r.bad(written, written.place, BadSize::Designation(why), Wants::Temperature);
            return None;
        }
        Some((celsius, written))
    };
    let gauge = of("gauge temperature", INSTRUMENT, "an instrument");
    let (part, written) = of("part temperature", PART, "a part")?;
    // A gauge temperature that cannot be taken leaves the reading as it is.
    if fields.has("gauge temperature") && gauge.is_none() {
        return None;
    }
    Some(Temperatures { part, gauge: gauge.map(|(c, _)| c), written })
}

/// `31 °C`, `88 F`; never without its scale.
fn celsius(text: &str) -> Option<f64> {
    let text = text.trim().replace('\u{2212}', "-");
    let (number, fahrenheit) = match text.char_indices().next_back()? {
        (i, 'C' | 'c' | '\u{2103}') => (&text[..i], false),
        (i, 'F' | 'f' | '\u{2109}') => (&text[..i], true),
        _ => return None,
    };
    let number: f64 = number.trim_end_matches([' ', '°', '\u{a0}', '\u{202f}']).trim().parse().ok()?;
    number.is_finite().then_some(if fahrenheit { (number - 32.0) / 1.8 } else { number })
}

/// Brings a reading to 20 °C: `L20 = L (1 + αg (tg − 20)) / (1 + αp (tp − 20))`; an instrument of no stated temperature is taken at 20 °C.
pub(super) fn to_twenty(
    r: &mut Reader<'_>,
    measured: &mut Measured,
    at: Temperatures<'_>,
    features: &[Feature],
    material: Option<&Text>,
) {
    let mate = match &measured.what {
        MeasuredWhat::Mate { feature, carried, .. } => {
            features.get(*feature).and_then(|f| f.carries.get(*carried)).map(|c| c.part.text.as_str())
        }
        _ => None,
    };
    let expansion = match mate {
        // What sits on it is of steel unless its name says otherwise.
        Some(name) => Some(heat::expansion(name).unwrap_or(heat::STEEL)),
        None => material.and_then(|m| heat::expansion(&m.text)),
    };
    let Some(expansion) = expansion else {
        let why = "how this material grows is not in the handbook; measure it cold, at 20 °C".to_owned();
        r.bad(at.written, at.written.place, BadSize::Designation(why), Wants::Temperature);
        return;
    };
    // How true it runs does not grow.
    if matches!(&measured.what, MeasuredWhat::Other { of: crate::model::measured::Reads::Runout, .. }) {
        return;
    }
    let size = match &mut measured.what {
        MeasuredWhat::Overall(size)
        | MeasuredWhat::Diameter { size, .. }
        | MeasuredWhat::Other { size, .. }
        | MeasuredWhat::Mate { size, .. } => size,
        MeasuredWhat::Face { at, .. } => at,
    };
    let gauge = at.gauge.unwrap_or(REFERENCE);
    let grown = |per_kelvin: f64, at: f64| 1.0 + per_kelvin * 1e-6 * (at - REFERENCE);
    let ratio = grown(GAUGE, gauge) / grown(expansion.per_kelvin, at.part);
    measured.warm = Some(Warm {
        part: at.part,
        gauge,
        gauge_stated: at.gauge.is_some(),
        per_kelvin: expansion.per_kelvin,
        gauge_per_kelvin: GAUGE,
        as_read: size.nominal,
    });
    let correction = Length::from_f64(size.nominal.mm() * (ratio - 1.0), Unit::Millimetre);
    // A tenth of a micrometre is finer than any reading.
    size.nominal += correction.round_to(Length::from_pm(100_000));
}

#[cfg(test)]
mod tests {
    use super::celsius;

    #[test]
    fn temperatures_with_their_scale() {
        let near = |text: &str, c: f64| assert!((celsius(text).expect(text) - c).abs() < 1e-9, "{text}");
        near("31 °C", 31.0);
        near("31C", 31.0);
        near("68 °F", 20.0);
        near("95 F", 35.0);
        near("−4 °F", -20.0);
        assert!(celsius("31").is_none() && celsius("warm").is_none() && celsius("").is_none());
    }
}
