#![doc = include_str!("bar_whip.md")]

use super::bar_past_spindle::behind_the_jaws;
use super::speed_range::surface_speed;
use crate::check::shape::number;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::handbook::speed::{gear, rpm};
use crate::handbook::whip::{STEEL_DENSITY, first_bending_rpm};
use crate::model::part::{Holding, StockShape};
use crate::model::plan::Setup;
use crate::model::{End, Kind};
use crate::unit::Length;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "bar-whip",
    severity: Severity::Error,
    group: "holding",
    source: "first bending speed of a round bar built in at one end, 3.52 sqrt(EI/(rho A L^4)) (R. J. Roark and W. C. Young, Formulas for Stress and Strain); half of it is practice, no source",
    page: include_str!("bar_whip.md"),
    look,
};

/// A bar that hangs out of the spindle's rear, and how fast it may turn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Whip {
    /// How far it hangs out.
    pub hangs_out: Length,
    /// Its first bending speed, revolutions a minute.
    pub bends: f64,
    /// The share of that which is let pass.
    pub allowed: f64,
}

/// How fast a mounting may turn for the bar that hangs out behind its spindle; none where none does. Reads the shape of the work as it is mounted.
pub fn behind(facts: &Facts<'_>, setup: &Setup) -> Option<Whip> {
    let chucks = [Holding::Chuck, Holding::ChuckAndCenter, Holding::ChuckAndRest];
    let grip = setup.grip.as_ref().filter(|_| chucks.contains(&setup.holding))?;
    let (first, last) = (setup.before.first()?, setup.before.last()?);
    let (behind, bar) = match setup.works? {
        End::Datum => (last.to - grip.to, last.diameter_to),
        End::Far => (grip.from - first.from, first.diameter),
    };
    of_bar(facts, bar, behind)
}

/// The same of a bar of this diameter that reaches so far behind the jaws.
pub fn of_bar(facts: &Facts<'_>, bar: Length, behind: Length) -> Option<Whip> {
    let stock = facts.part.stock.as_ref()?;
    // A bar that does not pass the spindle is another finding.
    let passes = facts.shop.and_then(|s| s.spindle_bore).is_none_or(|bore| bar <= bore);
    let hangs_out = behind - facts.limit(CHECK.id, "spindle");
    if !passes || !hangs_out.is_positive() || matches!(stock.shape, StockShape::Tube { .. }) {
        return None;
    }
    let modulus = facts.grade().map_or(crate::handbook::beam::STEEL_MPA, |g| g.material.modulus * 1000.0);
    let density = facts.grade().map_or(STEEL_DENSITY, |g| g.material.density);
    let bends = first_bending_rpm(bar, hangs_out, modulus, density)?;
    Some(Whip { hangs_out, bends, allowed: bends * facts.limit_number(CHECK.id, "share") })
}

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let (Some(stock), Some(behind)) = (&facts.part.stock, behind_the_jaws(facts)) else { return };
    let Some(Whip { hangs_out, bends, allowed }) = of_bar(facts, stock.size.nominal, behind) else { return };
    let Some((turned, fastest)) = fastest(facts) else { return };
    if fastest <= allowed {
        return;
    }
    // The sheet keeps every cut to what the bar stands, where the lathe has a gear for that.
    let slowest = facts.shop.and_then(|s| s.speeds.iter().min());
    let slow_enough = slowest.is_some_and(|gear| f64::from(*gear) <= allowed);
    let (severity, so) = if slow_enough {
        (Severity::Warning, told!(": the sheet turns it no faster", ": das Blatt dreht nicht schneller"))
    } else {
        (Severity::Error, "")
    };
    let message = tell!(
        "{} of bar hangs out of the spindle's rear and begins to bend at {} rpm; turning {} wants {} rpm, and more than {} is not safe without a support{so}",
        "{} Stange hängen hinten aus der Spindel und beginnen sich bei {} U/min zu biegen; {} zu drehen verlangt {} U/min, und mehr als {} ist ohne Stütze nicht sicher{so}",
        facts.show(hangs_out),
        number(bends.round()),
        facts.show(turned),
        number(fastest.round()),
        number(allowed.floor())
    );
    out.push(
        Finding::new(CHECK.id, severity, message)
            .at(stock.length.place)
            .length("hangs_out", hangs_out)
            .number("first_bending_rpm", bends)
            .number("allowed_rpm", allowed)
            .number("wanted_rpm", fastest)
            .help(told!("Saw the bar shorter, carry its end in a bushed stand, or keep every cut below the allowed speed", "Die Stange kürzer sägen, ihr Ende in einem gebuchsten Ständer führen, oder jeden Schnitt langsamer als erlaubt")),
    );
}

/// The smallest diameter that is turned, and the speed it wants: the lathe's gear for it where the gears are known.
fn fastest(facts: &Facts<'_>) -> Option<(Length, f64)> {
    let turned = facts.part.sections().filter_map(|f| match &f.kind {
        Kind::Turn { kept: true, .. } => None,
        Kind::Turn { diameter, .. } => Some(diameter.nominal),
        Kind::Thread { thread, .. } => Some(thread.nominal),
        Kind::Taper { start, end, .. } => Some(start.nominal.min(end.nominal)),
        _ => None,
    });
    let smallest = turned.filter(|d| d.is_positive()).min()?;
    let wanted = rpm(surface_speed(facts, facts.shop), smallest)?;
    let gears: Vec<f64> = facts.shop.into_iter().flat_map(|s| &s.speeds).map(|s| f64::from(*s)).collect();
    Some((smallest, gear(wanted, &gears).unwrap_or(wanted)))
}
