//! How deep a roughing cut may be: the hand's own, else the usual, and no deeper than the lathe's power drives.

use crate::handbook::material;
use crate::handbook::{cutting, speed::SurfaceSpeed};
use crate::model::{Operation, Part, Shop};
use crate::unit::{Length, Unit};

/// What decided a depth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DepthBy {
    /// `depth of cut` in the shop file.
    Hand,
    /// The usual depth (common practice, no source).
    Practice,
    /// The lathe's power.
    Power,
    /// How far the work gives way under it in its mounting.
    Stiffness,
}

/// Share of the motor's power that reaches the edge through belts and gears (tool makers print .7 to .8).
pub const EFFICIENCY: f64 = 0.7;
/// Usual roughing feed, mm a revolution (common practice, no source).
const FEED_MM: f64 = 0.2;
/// 90 ft/min, the usual for high-speed steel in mild steel.
const SPEED_M_MIN: f64 = 27.4;

/// .060 in, 1.5 mm: the usual on a small lathe (common practice, no source).
pub const fn default_rough_depth(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::micro_inches(60_000),
        Unit::Millimetre => Length::micrometres(1_500),
    }
}

/// Deepest roughing cut a side, and what decided it.
pub fn rough_depth(part: &Part, shop: Option<&Shop>) -> (Length, DepthBy) {
    if let Some(own) = shop.and_then(|s| s.depth_rough).filter(|d| d.is_positive()) {
        return (own, DepthBy::Hand);
    }
    let usual = default_rough_depth(part.units);
    let driven = shop.and_then(|s| s.power_w).map(|watts| by_power(part, shop, watts));
    match driven.filter(|d| *d < usual) {
        Some(depth) => (depth, DepthBy::Power),
        None => (usual, DepthBy::Practice),
    }
}

/// Deepest cut a side of an operation as the plan has it, and what decided that.
pub fn depth_of(operation: &Operation, part: &Part, shop: Option<&Shop>) -> (Length, DepthBy) {
    let (most, by) = rough_depth(part, shop);
    operation.lighter.filter(|l| *l < most).map_or((most, by), |lighter| (lighter, DepthBy::Stiffness))
}

/// What a dial sets of a roughing cut.
pub(super) const fn dial_step(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::micro_inches(1_000),
        Unit::Millimetre => Length::micrometres(20),
    }
}

/// Rounded down to what a dial sets: .001 in, 0.02 mm, and never nothing.
fn by_power(part: &Part, shop: Option<&Shop>, watts: f64) -> Length {
    let named = part.material.as_ref().and_then(|m| material::find(&m.text));
    let own = shop.and_then(|s| s.surface_speed_hss.or(s.surface_speed_carbide)).filter(|v| *v > 0.0);
    let listed = named.as_ref().map(|n| n.material.speeds(material::Tool::Hss, n.condition).rough.metres_per_minute);
    let share =
        material::share_of_own(part.material.is_some(), named.as_ref(), named.as_ref().and_then(|n| n.condition));
    let own = own.map(|own| own * share);
    let speed = SurfaceSpeed::metres(own.or(listed).unwrap_or(SPEED_M_MIN));
    let (specific, _) = cutting::specific(named.as_ref().map(|n| &n.material), FEED_MM);
    let step = dial_step(part.units);
    cutting::deepest(specific, FEED_MM, speed, watts * EFFICIENCY).floor_to(step).max(step)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::read;

    fn depth(material: &str, shop: &str) -> (Length, DepthBy) {
        let text = format!(
            "part: bar\nunits: in\nmaterial: {material}\nstock: 1 x 4.1\ndatum: left\noverall: 4\nfeatures:\n- turn: .75\n"
        );
        let part = read::part("bar.yaml", text.as_bytes()).part.expect("a part");
        let shop = read::shop("shop.yaml", format!("units: in\n{shop}").as_bytes()).shop.expect("a shop");
        rough_depth(&part, Some(&shop))
    }

    /// By hand: 250 W, .7 of it at the edge, mild steel at .2 mm a revolution 3100 N/mm² (the tool maker's table) and 90 ft/min
    /// (27.43 m/min): 175 · 60 / (3100 · .2 · 27.43) = .617 mm = .0243 in.
    #[test]
    fn a_small_lathe_takes_lighter_cuts() {
        assert_eq!(depth("1018 cold drawn", "power: 250 W\n"), (Length::micro_inches(24_000), DepthBy::Power));
        assert_eq!(depth("1018 cold drawn", "power: 1.5 kW\n"), (Length::micro_inches(60_000), DepthBy::Practice));
        let own = "power: 250 W\ndepth of cut: {rough: 0.040}\n";
        assert_eq!(depth("1018 cold drawn", own), (Length::micro_inches(40_000), DepthBy::Hand));
    }
}
