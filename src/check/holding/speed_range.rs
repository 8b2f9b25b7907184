#![doc = include_str!("speed_range.md")]

use crate::chain::Piece;
use crate::check::shape::number;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::handbook::material::{self, Tool};
use crate::handbook::speed::{Cut, SurfaceSpeed, factor, rpm};
use crate::model::{Feature, Kind, Shop};
use crate::unit::Length;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "speed-range",
    severity: Severity::Warning,
    group: "holding",
    source: "rpm = surface speed / (π · diameter); surface speeds as the handbook gives them",
    page: include_str!("speed_range.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(shop) = facts.shop else { return };
    let (Some(slowest), Some(fastest)) = (shop.speeds.iter().min(), shop.speeds.iter().max()) else { return };
    let base = surface_speed(facts, facts.shop);
    if let Some((what, diameter, share)) = slowest_cut(facts)
        && let Some(wanted) = rpm(base.times(share), diameter)
        && wanted < f64::from(*slowest)
    {
        out.push(finding(facts, &what, diameter, wanted, *slowest, "slowest"));
    }
    if let Some((section, diameter)) = facts.largest_turned()
        && let Some(wanted) = rpm(base, diameter)
        && wanted > f64::from(*fastest)
    {
        out.push(finding(
            facts,
            &tell!("turning {}", "{} drehen", section.called()),
            diameter,
            wanted,
            *fastest,
            "fastest",
        ));
    }
}

/// The cut that wants the fewest turns: roughing the bar, threading the largest thread, a groove, a knurl, parting off. An edge
/// is broken in a moment at any speed: of that the sheet tells alone.
fn slowest_cut(facts: &Facts<'_>) -> Option<(String, Length, f64)> {
    let bar = facts.bar();
    let rough = bar.map(|bar| (told!("roughing the bar", "die Stange schruppen").to_owned(), bar, Cut::Rough));
    let part_off = bar.filter(|_| facts.part.wishes.part_off);
    let part_off = part_off.map(|bar| (told!("parting off", "abstechen").to_owned(), bar, Cut::Part));
    let cuts = facts.part.features.iter().filter_map(|f| of_feature(facts, f));
    let turns = |(_, d, share): &(String, Length, f64)| share / d.mm().max(f64::MIN_POSITIVE);
    rough
        .into_iter()
        .chain(part_off)
        .chain(cuts)
        .map(|(what, on, cut)| (what, on, factor(cut).0))
        .min_by(|a, b| turns(a).total_cmp(&turns(b)))
}

/// What is cut slower than it would be turned, and on which diameter.
fn of_feature(facts: &Facts<'_>, feature: &Feature) -> Option<(String, Length, Cut)> {
    match &feature.kind {
        Kind::Thread { thread, .. } => {
            Some((tell!("threading {}", "Gewinde {}", thread.designation), thread.nominal, Cut::Thread))
        }
        Kind::Knurl { knurl, .. } => {
            Some((tell!("knurling {}", "{} rändeln", feature.called()), knurl.turn_to, Cut::Knurl))
        }
        Kind::Groove { .. } => {
            let (from, to) = facts.chain.span(feature.id)?;
            let on = facts.profile.between(from, to).map(Piece::largest).max()?;
            Some((tell!("cutting {}", "{} stechen", feature.called()), on, Cut::Groove))
        }
        _ => None,
    }
}

/// The hand's own speed, else the material's; slow where nothing is known.
pub(super) fn surface_speed(facts: &Facts<'_>, shop: Option<&Shop>) -> SurfaceSpeed {
    let state = facts.bar_state();
    let condition = (!state.assumed).then_some(state.condition);
    if let Some(own) = shop.and_then(|s| s.surface_speed_hss.or(s.surface_speed_carbide)) {
        let share = material::share_of_own(facts.material().is_some(), facts.grade().as_ref(), condition);
        return SurfaceSpeed::metres(own).times(share);
    }
    match facts.grade() {
        Some(grade) => grade.material.speeds(Tool::Hss, condition).rough,
        None => material::assumed_speeds(Tool::Hss).rough,
    }
}

fn finding(facts: &Facts<'_>, what: &str, diameter: Length, wanted: f64, gear: u32, which: &str) -> Finding {
    let message = tell!(
        "{what} on a diameter of {} wants {} rpm, and the lathe's {which} gear is {gear}",
        "{what} bei einem Durchmesser von {} verlangt {} U/min, und der {which} Gang der Maschine ist {gear}",
        facts.show(diameter),
        number(wanted.round())
    );
    let help = if which == "slowest" {
        told!(
            "Take it at the slowest gear with carbide or light cuts, or turn the spindle by hand where little is cut",
            "Im langsamsten Gang mit Hartmetall oder leichten Schnitten, oder mit der Hand drehen, wo wenig geschnitten wird"
        )
    } else {
        told!(
            "Take the fastest gear; expect a rougher finish, and feed finely",
            "Den schnellsten Gang nehmen; die Oberfläche wird rauer, fein vorschieben"
        )
    };
    let place = facts.part.stock.as_ref().map_or(facts.part.name.place, |s| s.place);
    Finding::new(CHECK.id, Severity::Warning, message)
        .at(place)
        .number("wanted_rpm", wanted)
        .number("gear_rpm", f64::from(gear))
        .help(help)
}
