//! What jaws and dogs hold on: the bare bar, or the best surface that is there once the other end is done.

use super::surfaces::room;
use crate::model::part::Holding;
use crate::model::plan::{Assumed, Grip, Setup, Span, Verb};
use crate::model::shop::ToolKind;
use crate::model::{End, Shop};
use crate::plan::derive::{Layout, Section, Shape};
use crate::unit::{Length, Station, Unit, show};
use crate::{tell, told};

/// Lengths of jaws, dogs and the room between jaws and tool.
#[derive(Debug, Clone, Copy)]
pub(in crate::plan) struct Lengths {
    unit: Unit,
    jaws: Length,
    jaws_stated: bool,
    dog: Length,
    dog_stated: bool,
    /// Room between the jaws and the nearest cut.
    pub(in crate::plan) clearance: Length,
    /// Work that the jaws of a steady rest cover.
    pub(in crate::plan) track: Length,
    /// How far in from the end at the headstock a dog may sit, its tail still deep in the slot of the plate.
    pub(in crate::plan) tail: Length,
    /// Length of work that is no longer than it is wide: it lies against the steps of the jaws, and a short grip holds it.
    short: Option<Length>,
    /// Width of the widest parting tool: it goes in behind the part, before the jaws.
    parting: Length,
    /// Whether a bar of some diameter passes the spindle; unknown passes.
    bore: Option<Length>,
}

impl Lengths {
    /// The shop's own lengths, else the usual.
    pub(in crate::plan) fn of(layout: &Layout, shop: Option<&Shop>) -> Self {
        let unit = layout.allow.unit;
        let pick = |micro_inches: i64, micrometres: i64| match unit {
            Unit::Inch => Length::micro_inches(micro_inches),
            Unit::Millimetre => Length::micrometres(micrometres),
        };
        let positive = |l: &Length| l.is_positive();
        let jaws = shop.and_then(|s| s.chucks.iter().find_map(|c| c.jaw_length)).filter(positive);
        // The smallest dog that goes over the bar.
        let fitting = |s: &Shop| s.dogs.iter().filter(|d| d.largest >= layout.bar).min_by_key(|d| d.largest).copied();
        let dog = shop.and_then(fitting).and_then(|d| d.long).filter(positive);
        let short = Some(layout.overall).filter(|_| layout.is_short());
        let room = pick(250_000, 6_000);
        Self {
            unit,
            jaws: jaws.unwrap_or(pick(1_000_000, 25_000)),
            jaws_stated: jaws.is_some(),
            dog: dog.unwrap_or(pick(600_000, 15_000)),
            dog_stated: dog.is_some(),
            // On short work there is less of it to spare (common practice, no source).
            clearance: short.map_or(room, |long| room.min(long.times_ratio(1, 6).max(pick(62_500, 1_500)))),
            track: pick(750_000, 20_000),
            // Common practice, no source.
            tail: pick(1_500_000, 40_000),
            short,
            parting: shop
                .and_then(|s| s.tools_of(ToolKind::Parting).filter_map(|t| t.width).max())
                .unwrap_or(pick(125_000, 3_000)),
            bore: shop.and_then(|s| s.spindle_bore),
        }
    }

    /// The lengths for an end that stands out of the chuck: a part that still hangs on its bar has no face that could be tapped back on the steps
    /// of the jaws, so it is held and given room like any bar.
    pub(in crate::plan) fn at_end(self, layout: &Layout, end: Option<End>) -> Self {
        if layout.parted.is_none() || layout.parted != end {
            return self;
        }
        Self { clearance: self.pick(250_000, 6_000), short: None, ..self }
    }

    /// How deep parting off goes, by the edge of its tool nearer to the jaws and a little beside it (.020 in, 0.5 mm: common practice, no source).
    pub(in crate::plan) fn parted_at(&self, layout: &Layout) -> Length {
        layout.overall + layout.allow.face + self.parting + self.pick(20_000, 500)
    }

    /// A grip that is long enough: a diameter, or 3/4 in / 19 mm where the diameter is more; of short work, which lies against the steps of
    /// the jaws, a quarter of its length, 1/8 in / 3 mm at least (common practice, no source).
    pub(in crate::plan) fn least_grip(&self, diameter: Length) -> Length {
        let enough = diameter.min(self.pick(750_000, 19_000));
        self.short.map_or(enough, |long| enough.min(long.times_ratio(1, 4).max(self.pick(125_000, 3_000))))
    }

    /// So long a grip where so much room lies behind the nearest cut: the tool wants its room before the jaws more than they want the last of
    /// their length, as long as they hold enough.
    fn drawn_back(&self, long: Length, room: Length, diameter: Length) -> Length {
        let least = self.least_grip(diameter);
        let long = long.min((room - self.clearance).max(least));
        // Where it is too short for that a hair is left at least, be the grip that much too short: a cut that ends at the jaws strikes them.
        let hair = self.pick(31_250, 1_000);
        if room < least + hair && room > hair.times(4) { long.min(room - hair) } else { long }
    }

    /// Jaws so short hold nothing, whatever is bored to fit: half a diameter, or 1/4 in / 6 mm (common practice, no source; the check's limits).
    pub(super) fn hopeless(&self, diameter: Length) -> Length {
        diameter.half().min(self.pick(250_000, 6_000)).min(self.least_grip(diameter))
    }

    /// Whether the work is no longer than it is wide, and so lies against the steps of the jaws.
    pub(super) const fn is_short(&self) -> bool {
        self.short.is_some()
    }

    /// Work that must lie in a V-block or between the jaws of a vise, and as much as is enough in one place (common practice, no source).
    pub(super) const fn v_block(&self) -> Length {
        self.pick(375_000, 10_000)
    }

    pub(super) const fn vise(&self) -> Length {
        self.pick(1_500_000, 40_000)
    }

    /// What jaws grip.
    pub(super) const fn in_jaws(&self) -> Length {
        self.jaws
    }

    const fn pick(&self, micro_inches: i64, micrometres: i64) -> Length {
        match self.unit {
            Unit::Inch => Length::micro_inches(micro_inches),
            Unit::Millimetre => Length::micrometres(micrometres),
        }
    }

    fn wanted(&self, holding: Holding) -> Length {
        if holding == Holding::BetweenCenters { self.dog } else { self.jaws }
    }

    fn enough(&self, holding: Holding, diameter: Length) -> Length {
        if holding == Holding::BetweenCenters { self.dog } else { self.least_grip(diameter) }
    }

    /// Whether a bar passes the spindle.
    pub(in crate::plan) fn passes(&self, bar: Length) -> bool {
        self.bore.is_none_or(|bore| bar <= bore)
    }

    /// For the box of assumptions, what the chosen holdings used.
    pub(in crate::plan) fn assumed(&self, layout: &Layout, chuck: bool, dog: bool, rest: bool) -> Vec<Assumed> {
        let shown = |l: Length| show::exact(l, self.unit, show::usual_decimals(self.unit), 4);
        let line =
            |what: &str, value: String| Assumed { what: what.to_owned(), value, source: "common practice".to_owned() };
        let mut list = Vec::new();
        if chuck && !self.jaws_stated {
            list.push(line(
                told!("Jaws", "Backen"),
                tell!("grip {} of the work", "fassen {} des Werkstücks", shown(self.jaws)),
            ));
        }
        if chuck {
            let on_bar = self.at_end(layout, layout.parted);
            list.push(line(told!("Room before the jaws", "Platz vor den Backen"), shown(on_bar.clearance)));
            if on_bar.clearance != self.clearance {
                list.push(line(
                    told!("Room before the jaws, off the bar", "Platz vor den Backen, ab der Stange"),
                    shown(self.clearance),
                ));
            }
        }
        if rest {
            list.push(line(
                told!("Steady rest", "Lünette"),
                tell!("its jaws cover {} of the work", "ihre Backen decken {} des Werkstücks", shown(self.track)),
            ));
        }
        if dog && !self.dog_stated {
            list.push(line(
                told!("Dog", "Drehherz"),
                tell!("covers {} of the work", "deckt {} des Werkstücks", shown(self.dog)),
            ));
        }
        list
    }
}

/// A stretch held, and what is good or bad about it.
#[derive(Debug, Clone)]
pub(super) struct Held {
    pub(super) grip: Grip,
    /// Section held once it is finished; none on the bar.
    pub(super) section: Option<usize>,
    /// Too short, or on a thread: a bush or soft jaws must be made for it.
    pub(super) poor: bool,
}

/// How far the bar must stand out for a cut so deep: with the room before the jaws, in steps that a rule sets.
pub(super) fn wanted_out(lengths: &Lengths, deep: Length) -> Length {
    in_steps(lengths, deep + lengths.clearance)
}

fn in_steps(lengths: &Lengths, out: Length) -> Length {
    out.ceil_to(if lengths.is_short() { lengths.pick(15_625, 500) } else { lengths.pick(250_000, 5_000) })
}

/// How far the bar stands out of the chuck: enough for the deepest cut, or about a diameter for facing and centering.
pub(super) fn bar_stick_out(layout: &Layout, lengths: &Lengths, end: End, deep: Option<Length>) -> Length {
    let to_face = || {
        lengths.short.map_or_else(|| in_steps(lengths, layout.bar), |long| wanted_out(lengths, long.times_ratio(1, 4)))
    };
    let wanted = deep.map_or_else(to_face, |d| wanted_out(lengths, d));
    let least_held = lengths.least_grip(layout.bar);
    let long = layout.held_by(end);
    // A bar that does not pass the spindle goes no farther in than the jaws are long.
    let behind = if lengths.passes(layout.bar) { long } else { lengths.jaws };
    wanted.max(long - behind).min((long - least_held).max(long.half()))
}

/// Draws the bar back into the chuck as far as the operations that were chosen for a mounting allow.
pub(in crate::plan) fn draw_in(layout: &Layout, lengths: &Lengths, setup: &mut Setup) {
    let (Some(end), Some(out)) = (setup.works, setup.stick_out) else { return };
    // With a center too, where the bar behind goes into the spindle.
    let slides =
        setup.holding == Holding::Chuck || setup.holding == Holding::ChuckAndCenter && lengths.passes(layout.bar);
    if !slides || setup.by.throw().is_some() {
        return;
    }
    let cuts = setup.operations.iter().filter(|o| !matches!(o.verb, Verb::Face | Verb::Center));
    let deep = cuts.flat_map(|o| [o.from, o.to]).flatten().map(|at| layout.depth(end, at)).max();
    let enough = bar_stick_out(layout, lengths, end, deep);
    if setup.holding == Holding::ChuckAndCenter && deep.is_none_or(|d| enough < d + lengths.clearance) {
        return;
    }
    let held = bar_behind(layout, lengths, end, enough);
    let bare = |s: &Span| s.diameter == layout.bar && s.diameter_to == layout.bar;
    let still_bar = setup.before.iter().filter(|s| s.from < held.grip.to && held.grip.from < s.to).all(bare);
    let on_bar = setup.grip.as_ref().is_some_and(|g| g.diameter == layout.jaws_on);
    if on_bar && still_bar && !held.poor && enough < out {
        setup.stick_out = Some(enough);
        // What grips all round, or is soft, needs nothing put between.
        let protect = held.grip.protect && !setup.by.spares();
        setup.grip = Some(Grip { protect, ..held.grip });
    }
}

/// The bar, gripped in the chuck just behind what stands out.
pub(super) fn bar_behind(layout: &Layout, lengths: &Lengths, end: End, stick_out: Length) -> Held {
    let from = at_depth(layout, end, stick_out);
    let room = layout.overall + layout.over(end.other()) - stick_out;
    let long = lengths.jaws.min(room.max(Length::ZERO));
    bar(layout, from, Layout::toward(end.other(), from, long), long < lengths.least_grip(layout.bar))
}

/// The bar, gripped at the headstock end; jaws as short as they still hold where the nearest cut would else strike them.
pub(super) fn bar_end(layout: &Layout, lengths: &Lengths, end: End, holding: Holding) -> Held {
    let face = layout.face(end.other());
    let long = lengths.wanted(holding).min(layout.overall.half());
    let poor = long < lengths.enough(holding, layout.bar);
    let held = |long: Length| bar(layout, Layout::toward(end, face, long), face, poor);
    let mut long = long;
    // Shorter jaws may let another cut come up to them.
    while holding != Holding::BetweenCenters
        && let Some(room) = room(layout, end, &held(long)).filter(|room| !room.is_positive())
    {
        let shorter = lengths.drawn_back(long, long + room, layout.bar);
        if shorter >= long {
            break;
        }
        long = shorter;
    }
    held(long)
}

fn bar(layout: &Layout, one: Station, other: Station, poor: bool) -> Held {
    let (from, to) = (one.min(other), one.max(other));
    let kept = layout.sections.iter().find(|s| s.shape == Shape::Kept && !s.thrown && s.from < to && from < s.to);
    let letter = kept.filter(|s| s.from <= from && to <= s.to).map_or_else(String::new, |s| s.letter.clone());
    Held {
        grip: Grip { from, to, diameter: layout.jaws_on, letter, protect: kept.is_some(), roughed: false },
        section: None,
        poor,
    }
}

/// The finished surface nearest to an end that jaws can hold, whatever end it was turned from: all of the part behind it must
/// pass the spindle.
pub(super) fn nearest_surface(layout: &Layout, lengths: &Lengths, end: End) -> Option<Held> {
    let sound = |s: &&Section| matches!(s.shape, Shape::Cylinder | Shape::Kept) && !s.whole && !s.thrown;
    let passes = |s: &&Section| {
        let behind =
            layout.sections.iter().filter(|b| layout.depth(end, b.outer(end)) >= layout.depth(end, s.outer(end)));
        behind.map(|b| b.aim).max().is_none_or(|d| lengths.passes(d))
    };
    let held = layout.sections.iter().filter(sound).filter(passes);
    let held = held.filter(|s| !is_swallowed(layout, lengths, end, s));
    let held = held.filter_map(|s| held_on(lengths, end, Holding::Chuck, s).map(|h| (s, h)));
    held.min_by_key(|(s, h)| (h.poor, layout.depth(end, s.outer(end)))).map(|(_, h)| h)
}

/// Whether jaws on a section would bear on something larger behind it instead: it is shorter than they are.
pub(super) fn is_swallowed(layout: &Layout, lengths: &Lengths, end: End, section: &Section) -> bool {
    let away = layout.depth(end, section.inner(end));
    let room = (section.inner(end) - section.outer(end)).abs();
    let over = lengths.jaws - room;
    over.is_positive()
        && layout.sections.iter().any(|s| {
            let near = layout.depth(end, s.outer(end));
            s.feature != section.feature && s.aim > section.aim && away <= near && near < away + over
        })
}

/// The same where all of the part behind the jaws passes the spindle, by `more` on the diameter where it is thrown over; else held so far back that it ends in the chuck. None where
/// that is not on this section.
pub(super) fn in_spindle(
    layout: &Layout,
    lengths: &Lengths,
    end: End,
    section: &Section,
    held: Held,
    more: Length,
) -> Option<Held> {
    let edge = |at: Station| layout.depth(end, at);
    let behind = edge(held.grip.from).max(edge(held.grip.to));
    if layout.largest_deeper(end, behind).is_none_or(|d| lengths.passes(d + more)) {
        return Some(held);
    }
    let near = (layout.overall - lengths.jaws).max(edge(section.outer(end)));
    let away = edge(section.inner(end));
    let long = away - near;
    // A hold that begins where the part does not yet end in the chuck leaves the rest nowhere to go.
    if !long.is_positive() || layout.overall - away > lengths.jaws.half() {
        return None;
    }
    let (a, b) = (at_depth(layout, end, near), at_depth(layout, end, away));
    let grip = Grip { from: a.min(b), to: a.max(b), ..held.grip };
    Some(Held { grip, poor: held.poor || long < lengths.least_grip(section.aim), section: held.section })
}

pub(super) fn held_on(lengths: &Lengths, end: End, holding: Holding, section: &Section) -> Option<Held> {
    let mut outer = section.outer(end);
    let inner = section.inner(end);
    if section.whole {
        outer = section.from + section.long().half();
    }
    let room = (inner - outer).abs();
    let mut long = lengths.wanted(holding).min(room);
    if !long.is_positive() {
        return None;
    }
    if holding != Holding::BetweenCenters {
        long = lengths.drawn_back(long, room, section.aim);
    }
    let (near, away) = if holding == Holding::BetweenCenters {
        (Layout::toward(end, inner, long), inner)
    } else {
        let gap = lengths.clearance.min(room - long);
        let near = Layout::toward(end.other(), outer, gap);
        (near, Layout::toward(end.other(), near, long))
    };
    let unfit = matches!(section.shape, Shape::Blank | Shape::Neck | Shape::Taper);
    let poor = unfit || room.min(lengths.wanted(holding)) < lengths.enough(holding, section.aim);
    let letter = section.letter.clone();
    let grip =
        Grip { from: near.min(away), to: near.max(away), diameter: section.aim, letter, protect: true, roughed: false };
    Some(Held { grip, section: Some(section.feature), poor })
}

/// The place at some depth from an end.
fn at_depth(layout: &Layout, end: End, depth: Length) -> Station {
    Layout::toward(end.other(), layout.face(end), depth)
}

/// Bar that lets the whole part stand out of the chuck with room to part it off, and be held; none where it would stand out too far.
pub(in crate::plan) fn bar_for_one_holding(layout: &Layout, lengths: &Lengths) -> Option<Length> {
    let lengths = &Lengths { short: None, clearance: lengths.pick(250_000, 6_000), ..*lengths };
    let out = wanted_out(lengths, lengths.parted_at(layout));
    let stiff = out <= layout.bar.times(super::decide::OVERHANG_DIAMETERS);
    stiff.then(|| layout.bar_wanted(out, lengths.least_grip(layout.bar)))
}
