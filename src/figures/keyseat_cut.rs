//! The keyseat block: touch-off, depth, across the bottom, where the cutter goes.

use super::given::Given;
use super::{Figure, OnScale, SizeLimits, scale, surface};
use crate::check::round::Surface;
use crate::handbook::keyseat;
use crate::model::plan::Operation;
use crate::model::{End, Feature, Kind};
use crate::plan::keyseat::{seat, standard};
use crate::tell;
use crate::unit::{Length, Limits, Station, Unit, show};

/// From one place to another along the part, from the datum face.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reach {
    /// Nearer the datum end.
    pub from: Figure,
    /// Farther.
    pub to: Figure,
}

/// Everything for milling a keyseat.
#[derive(Debug, Clone, PartialEq)]
pub struct KeyseatCut {
    /// `Woodruff 606`, `6 × 6 × 25`.
    pub key: String,
    /// Width of seat and cutter.
    pub width: Figure,
    /// Diameter of the cutter.
    pub cutter: Figure,
    /// Diameter of the seat the figures are worked for: its nominal size.
    pub seat: Figure,
    /// Depth at the side of the seat, least.
    pub at_side: Figure,
    /// Depth from the top of the round, for the least depth the standard asks.
    pub depth_from_top: Figure,
    /// Depth from the top with the standard's tolerance, on the seat's nominal diameter.
    pub depth_limits: SizeLimits,
    /// From the bottom across to the far side of the round.
    pub across_bottom: Figure,
    /// Across the bottom, from the largest seat at the least depth to the smallest seat at the greatest.
    pub across_limits: SizeLimits,
    /// The same on a micrometer in the other unit.
    pub across_on_scale: Option<OnScale>,
    /// Height of the arc: by how much depth from the top and depth at the side differ.
    pub arc_height: Figure,
    /// After touching the side of the round: across by this, plus the paper (an upright spindle: the table across; a level one: up).
    pub side_touch: Figure,
    /// Slot at the top of the round.
    pub slot: Reach,
    /// Centre of a Woodruff cutter.
    pub center: Option<Figure>,
    /// Centre of an end mill, from and to.
    pub cutter_center: Option<Reach>,
    /// Clocking in degrees, counter-clockwise seen from the datum end.
    pub angle_deg: Option<f64>,
    /// Whether it lies on an eccentric, whose own round it is touched off on.
    pub thrown: bool,
    /// Where it is milled before its seat is finished: the same from the roughed round that it is touched off on.
    pub roughed: Option<OnRoughed>,
    /// Touch-off, step by step.
    pub recipe: Vec<String>,
    /// Standard.
    pub source: String,
}

/// A keyseat as it is milled in a seat that is only roughed. The bottom lies where the finished seat wants it: the metal still to come off, a side,
/// is added to the depth and to what is measured across.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OnRoughed {
    /// Diameter as roughed.
    pub diameter: Figure,
    /// What the finish still takes off, a side.
    pub still: Figure,
    /// Depth from the roughed top.
    pub depth_from_top: Figure,
    /// From the bottom across to the far side of the roughed round; the seat's own tolerance is not in it.
    pub across_limits: SizeLimits,
    /// After touching the side of the roughed round: raise by this, plus the paper.
    pub side_touch: Figure,
}

fn on_roughed(given: &Given, rough: Length, seat: Length, (least, most): (Length, Length), width: Length) -> OnRoughed {
    let fine = |l| Figure::fine(l, given.unit);
    let still = (rough - seat).half();
    let across = Limits::new(rough - most - still, rough - least - still);
    OnRoughed {
        diameter: fine(rough),
        still: fine(still),
        depth_from_top: fine(least + still),
        across_limits: nearest(across, given.unit),
        side_touch: fine(keyseat::side_touch(rough, width)),
    }
}

/// The block of a keyseat; none when no section carries it or the handbook does not know the key.
pub(super) fn keyseat_cut(given: &Given, op: &Operation) -> Option<KeyseatCut> {
    let feature = given.feature(op.feature?)?;
    let (from, to) = given.chain.span(feature.id)?;
    let center = from + (to - from).half();
    let seat = seat(&given.facts(), center)?;
    let diameter = seat.worked_for;
    let standard = standard(&feature.kind, diameter)?;
    let depths = |shaft, depth| (standard.depths)(shaft, standard.width, depth);
    let least = depths(diameter, standard.depth.min);
    let most = depths(diameter, standard.depth.max);
    let across = Limits::new(
        depths(seat.limits.min, standard.depth.max).across_bottom,
        depths(seat.limits.max, standard.depth.min).across_bottom,
    );
    let fine = |l| Figure::fine(l, given.unit);
    let place = |s: Station| Figure::usual(s - Station::DATUM, given.unit);
    let side_touch = keyseat::side_touch(diameter, standard.width);
    let woodruff = matches!(feature.kind, Kind::Woodruff { .. });
    let slot = if woodruff {
        let half = keyseat::slot_length(least.from_top, standard.cutter).half();
        Reach { from: place(center - half), to: place(center + half) }
    } else {
        Reach { from: place(from), to: place(to) }
    };
    let cutter_center = (!woodruff).then(|| cutter_path(given, feature, from, to, standard.width.half()));
    let mut cut = KeyseatCut {
        key: standard.key,
        width: fine(standard.width),
        cutter: Figure::usual(standard.cutter, given.unit),
        seat: fine(diameter),
        at_side: fine(least.at_side),
        depth_from_top: fine(least.from_top),
        depth_limits: nearest(Limits::new(least.from_top, most.from_top), given.unit),
        across_bottom: fine(least.across_bottom),
        across_limits: nearest(across, given.unit),
        across_on_scale: scale::on_scale(given, "micrometer", None, Some(nearest(across, given.unit))),
        arc_height: fine(least.arc_height),
        side_touch: fine(side_touch),
        slot,
        center: woodruff.then(|| place(center)),
        cutter_center,
        angle_deg: feature.angle_mdeg.map(|a| a as f64 / 1000.0),
        thrown: matches!(seat.round.is, Surface::Thrown { .. }),
        roughed: op
            .from_diameter
            .map(|rough| on_roughed(given, rough, diameter, (least.from_top, most.from_top), standard.width)),
        recipe: Vec::new(),
        source: standard.source,
    };
    cut.recipe = surface::first(given, &seat.round, feature);
    cut.recipe.extend(recipe(given, &cut));
    Some(cut)
}

/// Worked limits, printed to the nearest digit as tables print them.
fn nearest(exact: Limits, unit: Unit) -> SizeLimits {
    let decimals = show::usual_decimals(unit) + 1;
    let shown = |l| Figure::new(l, decimals).rounded(unit);
    SizeLimits { exact, max: shown(exact.max), min: shown(exact.min) }
}

/// Where the centre of an end mill goes: half its width inside each closed end, half its width beyond an open one.
fn cutter_path(given: &Given, feature: &Feature, from: Station, to: Station, half: Length) -> Reach {
    let open = match &feature.kind {
        Kind::ParallelKeyseat { open, .. } => *open,
        _ => None,
    };
    let start = if open == Some(End::Datum) { from - half } else { from + half };
    let end = if open == Some(End::Far) { to + half } else { to - half };
    let place = |s: Station| Figure::usual(s - Station::DATUM, given.unit);
    Reach { from: place(start), to: place(end) }
}

/// Touch-off in the order of the hands; the paper is measured, not assumed.
fn recipe(given: &Given, cut: &KeyseatCut) -> Vec<String> {
    let unit = given.unit;
    // What is set on the machine is told in the unit of its dials.
    let dials = given.shop.and_then(|s| s.units).filter(|u| *u != unit);
    let text = |f: Figure| match dials {
        Some(own) => format!("{} {}", f.on_dials(unit, own).text(own), own.word()),
        None => f.text(unit),
    };
    let drawn = |f: Figure| match dials {
        Some(_) => format!("{} {}", f.text(unit), unit.word()),
        None => f.text(unit),
    };
    let along = match (cut.center, cut.cutter_center) {
        (Some(center), _) => {
            tell!("Cutter's centre {} from the datum face.", "Fräsermitte {} ab Bezugsfläche.", text(center))
        }
        (_, Some(path)) => {
            tell!(
                "Cutter's centre from {} to {} from the datum face.",
                "Fräsermitte von {} bis {} ab Bezugsfläche.",
                text(path.from),
                text(path.to)
            )
        }
        _ => String::new(),
    };
    let rough = cut.roughed;
    let (side, deep) = rough.map_or((cut.side_touch, cut.depth_from_top), |r| (r.side_touch, r.depth_from_top));
    let (most, least) = match cut.across_on_scale.and_then(|read| Some((read.limits_text()?, read.unit))) {
        Some(((most, least), unit)) => (format!("{most} {}", unit.word()), least),
        None => (drawn(cut.across_limits.max), cut.across_limits.min.text(unit)),
    };
    let across = match rough {
        Some(r) => tell!(
            "Micrometer from the bottom across the roughed round: {} to {}.",
            "Messschraube vom Grund zur Gegenseite des geschruppten Runds: {} bis {}.",
            drawn(r.across_limits.min),
            drawn(r.across_limits.max)
        ),
        None => tell!(
            "Micrometer from the bottom across: {} to {}.",
            "Messschraube vom Grund zur Gegenseite: {} bis {}.",
            least,
            most
        ),
    };
    let (before, after) = match rough {
        Some(r) => (
            tell!(
                "Measure the roughed Ø: {} is what these numbers take it for. Half of what it has more goes on every depth, height and reading below, half of what it lacks comes off.",
                "Den geschruppten Ø messen: die Zahlen hier gelten für {}. Die Hälfte von dem, was er mehr hat, kommt zu jeder Tiefe, Höhe und Ablesung unten dazu, die Hälfte von dem, was fehlt, geht ab.",
                drawn(r.diameter)
            ),
            tell!(
                "Edges broken before the finish runs over them. After the finish {} from the top; from the bottom across {} to {}. Try the key then, not before.",
                "Kanten brechen, bevor das Schlichten darüberläuft. Nach dem Schlichten {} von der Kuppe; vom Grund zur Gegenseite {} bis {}. Erst dann die Passfeder probieren.",
                drawn(cut.depth_from_top),
                least,
                most
            ),
        ),
        None => (String::new(), String::new()),
    };
    [
        before,
        tell!("Touch the side of the round with paper; clear of the work, then across by {} and the paper: the cutter is on the middle (half of {} and half of {}).", "Seite des Runds mit Papier ankratzen; freifahren, dann quer um {} und das Papier: der Fräser steht auf Mitte (halb {} und halb {}).",
            text(side),
            drawn(rough.map_or(cut.seat, |r| r.diameter)),
            drawn(cut.width)
        ),
        along,
        tell!("Touch the top with paper, zero, in by the paper, then {} deep from the top.", "Kuppe mit Papier ankratzen, Null, um das Papier zu, dann {} tief von oben.",
            text(deep)
        ),
        across,
        after,
    ]
    .into_iter()
    .filter(|s| !s.is_empty())
    .collect()
}
