//! The bar as sawn: what it weighs, and what its length is the sum of.

use super::Figure;
use super::cautions::fastest;
use super::given::Given;
use super::speed::material;
use crate::check::holding::bar_whip;
use crate::check::stock::length;
use crate::model::Plan;
use crate::model::part::StockShape;
use crate::model::plan::Assumed;
use crate::unit::{Length, Unit};
use crate::{tell, told};

/// A pound in kilograms (1959).
const POUND: f64 = 0.453_592_37;
/// Of steel of no stated grade, kg/m³: the usual figure of engineering tables.
const STEEL: f64 = 7850.0;
/// Heavier bars ask for help (common practice, no source): kilograms.
const HEAVY_KG: f64 = 20.0;

/// The bar of a description that states one.
#[derive(Debug, Clone, PartialEq)]
pub struct Bar {
    /// Mass as sawn, kilograms.
    pub kg: f64,
    /// Density it is worked with, kg/m³.
    pub density: f64,
    /// Where that comes from.
    pub by: String,
    /// What the part wants of the saw length, term by term; the last digit up.
    pub wants: Vec<(&'static str, Figure)>,
    /// Their sum.
    pub least: Figure,
}

impl Bar {
    /// Whether it asks for help.
    pub fn is_heavy(&self) -> bool {
        self.kg >= HEAVY_KG
    }

    /// Mass as printed in the unit of a description, and that unit's word.
    pub fn mass(&self, unit: Unit) -> (f64, &'static str) {
        match unit {
            Unit::Inch => (printed(self.kg / POUND), "lb"),
            Unit::Millimetre => (printed(self.kg), "kg"),
        }
    }

    /// `2.47 lb`; of a heavy one the other unit beside it.
    pub fn mass_text(&self, unit: Unit) -> String {
        let (own, word) = self.mass(unit);
        let own = format!("{} {word}", text(own));
        if !self.is_heavy() {
            return own;
        }
        let (other, word) = self.mass(if unit == Unit::Inch { Unit::Millimetre } else { Unit::Inch });
        format!("{own} ({} {word})", text(other))
    }
}

/// Three digits, none behind the point from 100 on.
fn printed(mass: f64) -> f64 {
    let places = places(mass);
    let tens = 10f64.powi(places);
    (mass * tens).round() / tens
}

fn places(mass: f64) -> i32 {
    match mass {
        m if m < 10.0 => 2,
        m if m < 20.0 => 1,
        _ => 0,
    }
}

fn text(mass: f64) -> String {
    format!("{mass:.*}", usize::try_from(places(mass)).unwrap_or(0))
}

/// The bar; none where the description states none.
pub(super) fn bar(given: &Given) -> Option<Bar> {
    let kg = mass(given)?;
    let up = |l: Length| {
        let shown = Figure::usual(l, given.unit);
        let step = crate::unit::show::step(given.unit, shown.decimals);
        Figure { value: l.ceil_to(step), ..shown }
    };
    let wants: Vec<(&'static str, Figure)> =
        length::needs(&given.facts()).unwrap_or_default().into_iter().map(|(l, what)| (what, up(l))).collect();
    let least = Figure::usual(wants.iter().map(|(_, f)| f.value).sum(), given.unit);
    let (density, known) = density(given);
    Some(Bar { kg, density, by: density_by(known), wants, least })
}

/// Density of the material, kg/m³, and whether the handbook knows it.
fn density(given: &Given) -> (f64, bool) {
    material(given).map_or((STEEL, false), |m| (m.material.density, true))
}

/// Mass of the bar, kilograms.
fn mass(given: &Given) -> Option<f64> {
    let stock = given.part.stock.as_ref()?;
    let across = stock.size.nominal.mm() / 1000.0;
    let area = match stock.shape {
        StockShape::Round => across * across * std::f64::consts::FRAC_PI_4,
        StockShape::Hexagon => across * across * 3f64.sqrt() / 2.0,
        StockShape::Square => across * across,
        StockShape::Tube { bore } => (across * across - (bore.mm() / 1000.0).powi(2)) * std::f64::consts::FRAC_PI_4,
    };
    Some(area * stock.length.nominal.mm() / 1000.0 * density(given).0)
}

/// Whether the bar asks for help.
pub(super) fn is_heavy(given: &Given) -> bool {
    bar(given).is_some_and(|b| b.is_heavy())
}

/// The caution of a heavy bar.
pub(super) fn heavy(given: &Given) -> Option<String> {
    let bar = bar(given).filter(Bar::is_heavy)?;
    Some(tell!(
        "The bar weighs about {}: help or a hoist, a board over the ways.",
        "Das Rohteil wiegt etwa {}: Hilfe oder Hebezeug, ein Brett über das Bett.",
        bar.mass_text(given.unit)
    ))
}

/// Where that density comes from.
fn density_by(known: bool) -> String {
    if known {
        told!("Callister, appendix B, or from memory", "Callister, Anhang B, oder aus dem Gedächtnis").to_owned()
    } else {
        told!("ASSUMED steel", "ANGENOMMEN: Stahl").to_owned()
    }
}

/// The density of a bar whose material is not known.
pub(super) fn assumed(given: &Given) -> Option<Assumed> {
    given.part.stock.as_ref()?;
    let (density, known) = density(given);
    (!known).then(|| Assumed {
        what: told!("Mass of the bar", "Masse der Stange").to_owned(),
        value: tell!("steel, {density:.0} kg/m³", "Stahl, {density:.0} kg/m³"),
        source: told!("engineering tables", "Tabellenbücher").to_owned(),
    })
}

/// How much of a bar the spindle carries, and how fast that turns which hangs out of its rear. Told where more lies behind the jaws than three quarters of what is
/// taken for the spindle's length.
pub(super) fn behind(given: &Given, plan: &Plan) -> Option<Assumed> {
    let facts = given.facts();
    let text = |l: Length| Figure::usual(l, given.unit).text(given.unit);
    let spindle = facts.limit("bar-whip", "spindle");
    let entry = |value: String, source: &str| Assumed {
        what: told!("Bar behind the spindle", "Stange hinter der Spindel").to_owned(),
        value,
        source: source.to_owned(),
    };
    let carried = text(spindle);
    let whips = plan.setups.iter().filter_map(|s| bar_whip::behind(&facts, s));
    if let Some(whip) = whips.min_by(|a, b| a.allowed.total_cmp(&b.allowed)) {
        // What no gear reaches is no limit.
        if whip.allowed > fastest(given) {
            return None;
        }
        let (out, allowed, bends) = (text(whip.hangs_out), whip.allowed.floor(), whip.bends);
        return Some(entry(
            tell!(
                "no faster than {allowed:.0} rpm: beyond the {carried} that jaws and spindle carry, {out} of it hangs out of the rear and begins to bend at {bends:.0}",
                "nicht schneller als {allowed:.0} U/min: hinter den {carried}, die Backen und Spindel führen, hängen {out} heraus und beginnen bei {bends:.0} zu schlagen"
            ),
            told!(
                "first bending speed (Roark and Young); the share of it and the spindle: common practice",
                "erste Biegedrehzahl (Roark und Young); der Anteil daran und die Spindel: Werkstattbrauch"
            ),
        ));
    }
    let deepest =
        plan.setups.iter().filter_map(|s| super::remains::behind_the_jaws(given, s)).map(|f| f.value).max()?;
    (deepest.times(4) > spindle.times(3)).then(|| {
        entry(
            tell!(
                "{} of it behind the jaws, in a spindle taken to carry {carried}: measure it; what hangs out whips",
                "{} davon hinter den Backen, in einer Spindel, die {carried} führen soll: nachmessen; was heraushängt, schlägt",
                text(deepest)
            ),
            told!("common practice", "Werkstattbrauch"),
        )
    })
}
