//! The block of a knurl: the blank, the teeth, what it grows to, and how the work is carried against the press of the wheels.

use super::given::Given;
use super::{Figure, SizeLimits};
use crate::model::feature::KnurlPattern;
use crate::model::part::Holding;
use crate::model::plan::{Operation, Setup};
use crate::model::{End, Kind, Workholder};
use crate::unit::{Length, Station};
use crate::{tell, told};

/// Diameters out of the jaws beyond which wheels pressed in from one side bend the work away (common practice, no source).
const STIFF: f64 = 2.0;

/// Everything for a knurl.
#[derive(Debug, Clone, PartialEq)]
pub struct KnurlCut {
    /// `diamond, 0.8 mm pitch`.
    pub says: String,
    /// Distance of the teeth around the blank.
    pub pitch: Figure,
    /// Diameter the blank is turned to.
    pub blank: Figure,
    /// Whole number of teeth on that blank.
    pub teeth: i64,
    /// How much the knurl grows the diameter, about.
    pub growth: Figure,
    /// Diameter over the teeth when done, about.
    pub expected: Figure,
    /// What the drawing asks over the teeth.
    pub over: Option<SizeLimits>,
    /// Step by step.
    pub recipe: Vec<String>,
    /// Where the growth comes from.
    pub source: String,
}

/// The block of a knurl.
pub(super) fn knurl_cut(given: &Given, setup: &Setup, op: &Operation) -> Option<KnurlCut> {
    let Kind::Knurl { knurl, .. } = &given.feature(op.feature?)?.kind else { return None };
    let fine = |l| Figure::fine(l, given.unit);
    let usual = |l| Figure::usual(l, given.unit);
    let over = knurl.diameter.limits.filter(|l| l.band().is_positive()).map(|l| SizeLimits::of(l, given.unit));
    let blank = usual(knurl.turn_to);
    let expected = usual(knurl.expected);
    let wheels = if knurl.pattern == KnurlPattern::Diamond {
        told!("both wheels", "Beide Rändelräder")
    } else {
        told!("the wheel", "Das Rändelrad")
    };
    let recipe = vec![
        carried(setup, out_of_jaws(given, setup, op), knurl.turn_to),
        tell!(
            "Press {wheels} in hard over half its width and turn the spindle once by hand: the teeth must fall into each other. If they double, move along and begin anew.",
            "{wheels} mit halber Breite kräftig eindrücken und die Spindel einmal von Hand drehen: die Zähne müssen ineinander fallen. Werden sie doppelt, daneben neu beginnen."
        ),
        told!(
            "Then feed along without leaving the work; run back in the same track, deeper, until the points are full.",
            "Dann Vorschub, ohne abzusetzen; in derselben Spur tiefer zurück, bis die Spitzen voll sind."
        )
        .to_owned(),
        tell!(
            "Over the points about {}: it depends on the bar and the press.",
            "Über die Spitzen etwa {}: das hängt von Werkstoff und Druck ab.",
            expected.text(given.unit)
        ),
    ];
    Some(KnurlCut {
        says: tell!("{}, {} pitch", "{}, Teilung {}", pattern(knurl.pattern), super::kind_word(&knurl.pitch_text)),
        pitch: fine(knurl.pitch),
        blank,
        teeth: knurl.teeth,
        growth: usual(knurl.growth),
        expected,
        over,
        recipe,
        source: "DIN 82: finished diameter less a part of the pitch".to_owned(),
    })
}

/// How far the outer edge of the knurl stands out of the jaws.
fn out_of_jaws(given: &Given, setup: &Setup, op: &Operation) -> Option<Length> {
    let (out, end, from, to) = (setup.stick_out?, setup.works?, op.from?, op.to?);
    let depth = |at: Station| match end {
        End::Datum => at - Station::DATUM,
        End::Far => at.from_far_end(given.overall),
    };
    Some(out - depth(from).min(depth(to)))
}

/// What carries the work against the wheels, by the holding; where nothing does, how slender it is there.
fn carried(setup: &Setup, out: Option<Length>, blank: Length) -> String {
    let carrier = match (setup.holding, setup.by) {
        (Holding::ChuckAndCenter | Holding::BetweenCenters, _) => told!("Center up tight", "Spitze fest angestellt"),
        (Holding::ChuckAndRest, _) => told!("Steady rest close behind it", "Lünette dicht dahinter"),
        (_, Workholder::Collet(_)) => {
            told!("No center here, short out of the collet", "Ohne Spitze, kurz aus der Zange")
        }
        _ => told!("No center here, short out of the jaws", "Ohne Spitze, kurz aus den Backen"),
    };
    let alone = matches!(setup.holding, Holding::Chuck);
    let diameters = out.map_or(0.0, |out| out.mm() / blank.mm().max(f64::MIN_POSITIVE));
    if alone && diameters > STIFF {
        return tell!(
            "No center carries it, {diameters:.1} diameters out of the jaws: wheels pressed in from one side bend it. Squeeze it between two wheels, or give the end a center. Slow gear, plenty of oil, on center height.",
            "Keine Spitze trägt, {diameters:.1} Durchmesser aus den Backen: einseitiger Druck biegt es. Zwischen zwei Rädern klemmen oder Zentrum bohren. Langsamer Gang, viel Öl, auf Spitzenhöhe."
        );
    }
    tell!(
        "{carrier}, slow gear, plenty of oil; the knurl's axis on center height.",
        "{carrier}, langsamer Gang, viel Öl; Achse des Rändels auf Spitzenhöhe."
    )
}

/// A knurl's pattern.
fn pattern(pattern: KnurlPattern) -> &'static str {
    match pattern {
        KnurlPattern::Straight => told!("straight", "gerade"),
        KnurlPattern::Diagonal => told!("diagonal", "schräg"),
        KnurlPattern::Diamond => told!("diamond", "kreuz"),
    }
}
