//! A domed end: what is set, and where the tool is run in before the file blends it.

use super::Figure;
use super::given::Given;
use crate::language::Message;
use crate::model::Kind;
use crate::model::feature::Crown;
use crate::model::part::Holding;
use crate::model::plan::{Operation, Setup};
use crate::unit::{Length, Unit};
use crate::{tell, told};

/// Fewest and most parts the dome is divided into.
const PARTS: std::ops::RangeInclusive<u32> = 6..=16;

/// What a dome wants that is cut while the tailstock carries its end (common practice, no source).
const CENTER_STANDS_THERE: Message = Message {
    english: "The center stands in this end: leave out the steps inside its hole, keep tool, file and hand clear of it, and file what it covers by hand, off the lathe",
    german: "In diesem Ende steckt die Spitze: Stufen in ihrer Zentrierung weglassen, Stahl, Feile und Hand von ihr weg; was sie verdeckt, außerhalb der Maschine von Hand feilen",
};

/// A domed end.
#[derive(Debug, Clone, PartialEq)]
pub struct CrownCut {
    /// Radius of the dome: the template's.
    pub radius: Figure,
    /// From the edge to the summit.
    pub height: Figure,
    /// Diameter at the edge.
    pub over: Figure,
    /// From the summit inward: so far behind the summit (carriage), the diameter of the dome there.
    pub steps: Vec<(Figure, Figure)>,
    /// The most that stands over the dome between two steps, square to it: what the file takes.
    pub ridge: Figure,
    /// What to do.
    pub recipe: Vec<String>,
    /// `crown .750 radius, .098 high`.
    pub says: String,
}

/// Works a crown. The steps stand at equal angles around the dome, so that the ridges are about alike; the diameters are rounded
/// up, so that no step cuts into the dome.
pub(super) fn crown_cut(given: &Given, setup: &Setup, op: &Operation) -> Option<CrownCut> {
    let Kind::Crown { crown } = &given.feature(op.feature?)?.kind else { return None };
    let unit = given.unit;
    let grain = match unit {
        Unit::Inch => Length::micro_inches(1_000),
        Unit::Millimetre => Length::micrometres(10),
    };
    let shown = |l: Length| Figure::usual(l, unit);
    // As few steps as leave the file little to do (common practice, no source).
    let little = given.pick(8_000, 200);
    let mut steps = Vec::new();
    for parts in PARTS {
        steps = stepped(crown, parts, grain);
        if ridge(crown, &steps) <= little {
            break;
        }
    }
    let ridge = ridge(crown, &steps);
    let (radius, height, over) = (shown(crown.radius), shown(crown.height), shown(crown.over));
    let mut recipe = vec![
        tell!(
            "Dye the end; touch the face, carriage 0; scribe the edge {} back on \u{d8} {}",
            "Ende einfärben; Stirn berühren, Schlitten 0; die Kante {} dahinter auf \u{d8} {} anreißen",
            height.text(unit),
            over.text(unit)
        ),
        told!(
            "Run the tool in at each step to its diameter, the deepest length first; nothing is cut past the scribed edge",
            "An jeder Stufe den Stahl auf ihren Durchmesser zustellen, die längste zuerst; nichts über die angerissene Kante hinaus"
        )
        .to_owned(),
        told!(
            "Take off the ridges with a file, handle on it, spindle slow, until the dye is gone and the template shows no light",
            "Grate mit der Feile nehmen, Heft daran, Spindel langsam, bis die Farbe weg ist und die Schablone keinen Lichtspalt zeigt"
        )
        .to_owned(),
        told!(
            "Leave the summit: overall is measured over it",
            "Den Scheitel stehen lassen: über ihn wird die Gesamtlänge gemessen"
        )
        .to_owned(),
    ];
    if matches!(setup.holding, Holding::ChuckAndCenter | Holding::BetweenCenters) {
        recipe.push(CENTER_STANDS_THERE.say().to_owned());
    }
    let says = if crown.high {
        tell!("crown {} high, radius {}", "Wölbung {} hoch, Radius {}", height.text(unit), radius.text(unit))
    } else {
        tell!("crown radius {}, {} high", "Wölbung Radius {}, {} hoch", radius.text(unit), height.text(unit))
    };
    Some(CrownCut {
        radius,
        height,
        over,
        steps: steps.iter().map(|(z, d)| (shown(*z), shown(*d))).collect(),
        ridge: shown(ridge),
        recipe,
        says,
    })
}

/// Steps at equal angles from the summit to the edge, without either.
fn stepped(crown: &Crown, parts: u32, grain: Length) -> Vec<(Length, Length)> {
    let mut whole = (crown.over.half().mm() / crown.radius.mm()).clamp(0.0, 1.0).asin();
    if crown.height > crown.radius {
        whole = std::f64::consts::PI - whole;
    }
    let mut steps: Vec<(Length, Length)> = Vec::new();
    for i in 1..parts {
        let angle = whole * f64::from(i) / f64::from(parts);
        let behind = Length::from_f64(crown.radius.mm() * (1.0 - angle.cos()), Unit::Millimetre).round_to(grain);
        let across = crown.across(behind).ceil_to(grain);
        let farther = steps.last().is_none_or(|s| s.0 < behind);
        if behind.is_positive() && behind < crown.height && across < crown.over && farther {
            steps.push((behind, across));
        }
    }
    steps
}

/// The outer corner between two steps, measured to the dome along its radius.
fn ridge(crown: &Crown, steps: &[(Length, Length)]) -> Length {
    let radius = crown.radius.mm();
    let mut most: f64 = 0.0;
    let mut before = 0.0;
    let ends = steps.iter().copied().chain([(crown.height, crown.over)]);
    for (behind, across) in ends {
        // The corner stands as far out as this step and as far forward as the one before.
        let (out, forward) = (across.half().mm(), radius - before);
        most = most.max((out * out + forward * forward).sqrt() - radius);
        before = behind.mm();
    }
    Length::from_f64(most, Unit::Millimetre)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::{End, LimitsFrom, Size};
    use crate::unit::ToleranceText;

    /// A ball end of 1 in: 60 degrees down from the summit the ball is .866 across and .250 back (plain geometry), and every step
    /// stays outside the dome.
    #[test]
    fn steps_stay_on_the_dome() {
        let inch = Length::PER_INCH;
        let place = crate::finding::Place::new(crate::finding::FileId::Part, 0, 0);
        let size = Size {
            nominal: inch.half(),
            limits: None,
            from: LimitsFrom::Written,
            tolerance: ToleranceText::None,
            unit: Unit::Inch,
            form: crate::unit::NumberForm::Decimal(3),
            reference: false,
            place,
            text: String::new(),
        };
        let crown = Crown {
            size,
            high: false,
            radius: inch.half(),
            height: inch.half(),
            over: inch,
            end: End::Far,
            section: 0,
        };
        let grain = Length::micro_inches(1_000);
        assert_eq!(crown.behind(Length::micro_inches(866_025)).round_to(grain), Length::micro_inches(250_000));
        assert_eq!(crown.across(Length::micro_inches(250_000)).round_to(grain), Length::micro_inches(866_000));
        for parts in PARTS {
            let steps = stepped(&crown, parts, grain);
            assert!(steps.len() + 1 >= parts as usize / 2, "{parts}");
            assert!(steps.iter().all(|(z, d)| *d >= crown.across(*z)), "{steps:?}");
            assert!(ridge(&crown, &steps).is_positive());
        }
        assert!(ridge(&crown, &stepped(&crown, 16, grain)) < ridge(&crown, &stepped(&crown, 6, grain)));
    }
}
