//! How a thread's tool is fed to depth: by the compound or straight in, and in how many cuts. The minutes are counted with it and the sheet
//! tells it.

use crate::handbook::infeed::{Groove, Shape, cuts, cuts_no_deeper, last_cuts};
use crate::handbook::speed::SurfaceSpeed;
use crate::handbook::thread::{self as standard, Asked, Feed, Form, ThreadData};
use crate::handbook::{cutting, material};
use crate::model::inside::Tapped;
use crate::model::shop::StartIndex;
use crate::model::{Part, Shop};
use crate::unit::{Length, Unit};

use super::EFFICIENCY;

/// Passes without infeed after the last cut outside, for each start: "a finishing pass or two … or none at all [of infeed], to deal with the
/// spring-back" (a lathe maker's manual, 1440 size, 2017).
pub const SPRING_PASSES: u32 = 1;
/// The same inside, where the bar springs more (common practice, no source).
pub const SPRING_PASSES_INSIDE: u32 = 2;

/// Why a thread is fed as it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FeedWhy {
    /// Straight in: the compound stands along the axis to find the other starts.
    StartsByCompound,
    /// Half a degree less than half the thread's angle.
    HalfDegreeLess,
    /// Half of the thread's angle.
    HalfAngle,
    /// Straight in: a fine pitch.
    FinePitch,
    /// Straight in.
    StraightIn,
}

/// Finest pitch that is still fed in by the compound: 32 threads to the inch (straight in for fine pitches: US Navy, NAVEDTRA 14345;
/// the figure is common practice, no source).
const FINEST_BY_COMPOUND: Length = Length::from_pm(Length::PER_INCH.pm() / 32);

/// What the handbook tells of a thread; special pairs by the formulas, as the limits of the description were.
pub fn data(designation: &str) -> Option<ThreadData> {
    let designation = standard::read(designation).ok()?;
    standard::limits(&designation, &Asked::special()).ok()
}

fn pitch(data: &ThreadData) -> Length {
    Length::from_f64(data.pitch.to_f64(Unit::Millimetre), Unit::Millimetre)
}

/// How the tool is fed to depth: 29½° for 60° threads by the modern height, half the thread's angle for the others.
pub fn chosen(data: &ThreadData, shop: Option<&Shop>) -> Option<(Feed, FeedWhy)> {
    let modern = |f: &&Feed| data.form != Form::Sixty || f.height == "0.6134 P";
    let straight = data.compound.iter().find(|f| modern(f) && f.angle <= 0.0).copied()?;
    if data.starts > 1 && shop.and_then(|s| s.start_index) == Some(StartIndex::Compound) {
        return Some((straight, FeedWhy::StartsByCompound));
    }
    let over = data.compound.iter().find(|f| match data.form {
        Form::Sixty => modern(f) && (f.angle - 29.5).abs() < 0.01,
        _ => f.angle > 0.0,
    });
    let set_over = over.copied().filter(|_| pitch(data) >= FINEST_BY_COMPOUND);
    Some(match set_over {
        Some(feed) if data.form == Form::Sixty => (feed, FeedWhy::HalfDegreeLess),
        Some(feed) => (feed, FeedWhy::HalfAngle),
        None if over.is_some() => (straight, FeedWhy::FinePitch),
        None => (straight, FeedWhy::StraightIn),
    })
}

/// Cumulative travel of the cuts of one start, spring passes left out; at a surface speed where it is known.
pub fn passes(
    part: &Part,
    shop: Option<&Shop>,
    data: &ThreadData,
    feed: &Feed,
    speed: Option<SurfaceSpeed>,
) -> Vec<Length> {
    let groove =
        Groove { shape: Shape::of(data), pitch: pitch(data), depth: feed.depth, travel: feed.travel, inside: false };
    cuts_no_deeper(&groove, driven(part, shop, data.tool_flat, speed), part.units)
}

/// The same inside a hole of this diameter: straight in.
pub fn passes_inside(thread: &Tapped, hole: Length, unit: Unit) -> Vec<Length> {
    let deep = (thread.nominal - hole).half();
    let shape = data(&thread.designation).map_or(Shape::V, |data| Shape::of(&data));
    cuts(&Groove { shape, pitch: thread.pitch, depth: deep, travel: deep, inside: true }, unit)
}

/// The deepest first cut of a tool with a flat this wide that the lathe's power drives at this speed (area × specific force × speed, as in turning), never
/// less than the last cut but one; none where the shop file tells of no power.
fn driven(part: &Part, shop: Option<&Shop>, flat: Length, speed: Option<SurfaceSpeed>) -> Option<Length> {
    let (watts, surface) = shop.and_then(|s| s.power_w).zip(speed)?;
    let named: Option<material::Named> = super::cutting::named_material(part);
    let (specific, _) = cutting::specific(named.as_ref().map(|n| &n.material), CHIP_MM);
    let [least, _] = last_cuts(part.units);
    Some(cutting::deepest(specific, flat.mm(), surface, watts * EFFICIENCY).max(least))
}

/// Thickness of a first chip, for its specific force.
const CHIP_MM: f64 = 0.25;
