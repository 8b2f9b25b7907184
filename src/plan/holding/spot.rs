//! The spot that a steady rest runs on, where the bar is neither round nor smooth: turned true in chuck and center before anything else, on a
//! rough center drilled by hand in the sawn end. The end is faced and centered in the rest then, and the rough center goes with that.

use super::decide::is_forbidden;
use super::grip::Lengths;
use super::milled::bare;
use super::offset_centers::{drills, usual_center};
use crate::handbook::center::{self, CenterHole};
use crate::model::part::Holding;
use crate::model::plan::{Operation, Setup, Verb, Zero};
use crate::model::shop::ToolKind;
use crate::model::{End, Kind, Part, Shop};
use crate::plan::derive::{Layout, Shape, of_no_feature};
use crate::plan::rules::because;
use crate::unit::{Length, Limits, Station, Unit, show};
use crate::{tell, told};

/// Name of the place where rough centers are drilled.
const BENCH: &str = "bench, rough center";

/// A spot for the rest of one end, with what it takes.
#[derive(Debug, Clone)]
pub(in crate::plan) struct Spot {
    /// The rough center, and the spot.
    pub(in crate::plan) operations: [Operation; 2],
    /// Where they are done.
    pub(in crate::plan) mountings: [Setup; 2],
    /// What to mind when the end is faced.
    pub(in crate::plan) at_the_face: String,
    /// What to mind when its true center is drilled, where something of the rough one is left.
    pub(in crate::plan) at_the_center: Option<String>,
}

/// The spot under the rest of a mounting; none where it has no room, or where the rough center would be left in the part. `under_scale` is what
/// clears the scale, a side.
pub(in crate::plan) fn spot(
    part: &Part,
    layout: &Layout,
    shop: Option<&Shop>,
    rested: &Setup,
    under_scale: Length,
) -> Option<Spot> {
    let (end, rest) = (rested.works?, rested.rest.as_ref()?);
    let pick = |micro_inches: i64, micrometres: i64| match part.units {
        Unit::Inch => Length::micro_inches(micro_inches),
        Unit::Millimetre => Length::micrometres(micrometres),
    };
    // Room for the jaws to either side (common practice, no source).
    let room = pick(125_000, 3_000);
    let (from, to) = (rest.from - room, rest.to + room);
    let clear = |at: Station| layout.depth(end, at) + Lengths::of(layout, shop).clearance;
    if rested.stick_out.is_none_or(|out| clear(from).max(clear(to)) > out) {
        return None;
    }
    let (size, limits) = size(layout, end, (from, to), under_scale)?;
    let (hole, left) = rough_hole(part, layout, shop, end)?;
    let shown = |l: Length| show::exact(l, part.units, show::usual_decimals(part.units), 4);

    let word = end.word();
    let sawn = Layout::toward(end, layout.face(end), layout.over(end));
    let mut center = of_no_feature(&format!("rough-center-{word}"), Verb::Center, end, ToolKind::CenterDrill);
    (center.from, center.to) = (Some(sawn), Some(Layout::toward(end.other(), sawn, hole.depth)));
    center.to_diameter = Some(hole.mouth_diameter);
    center.why.push(because(
        "R15",
        told!(
            "only the spot for the steady rest runs on it: light cuts, light pressure of the tailstock",
            "nur die Laufstelle der Lünette wird darauf gedreht: leichte Schnitte, Reitstock leicht angestellt"
        ),
    ));
    let mut turn = of_no_feature(&format!("turn-spot-{word}"), Verb::Turn, end, ToolKind::Finishing);
    let (outer, inner) = if end == End::Datum { (from, to) } else { (to, from) };
    (turn.from, turn.to, turn.to_diameter, turn.limits) = (Some(outer), Some(inner), Some(size), Some(limits));
    turn.from_diameter = Some(layout.bar);
    turn.why.push(because(
        "R15",
        told!(
            "the jaws of a steady rest want a surface that is round, smooth and true: the bar has neither",
            "die Backen einer Lünette wollen eine runde, glatte, laufende Stelle: die Stange ist weder rund noch glatt"
        ),
    ));
    turn.why.push(because(
        "R6",
        told!(
            "the first cut goes under the scale: skin as hard as that takes the edge off a tool that rubs in it",
            "der erste Schnitt geht unter die Haut: sie ist so hart, dass ein Stahl, der darin reibt, die Schneide verliert"
        ),
    ));
    (center.for_rest, turn.for_rest) = (true, true);

    let off = layout.faced(end);
    let at_the_face = match left {
        None => tell!(
            "the rough center is {} deep and goes with the {} that come off here",
            "die rohe Zentrierung ist {} tief und verschwindet mit den {}, die hier abkommen",
            shown(hole.depth),
            shown(off)
        ),
        Some((left, _)) => tell!(
            "the rough center is {} deep: {} of it stay when {} are off",
            "die rohe Zentrierung ist {} tief: {} davon bleiben, wenn {} ab sind",
            shown(hole.depth),
            shown(left),
            shown(off)
        ),
    };
    let at_the_center = matches!(left, Some((_, Goes::Recut))).then(|| {
        told!(
            "what is left of the rough center does not run true: bore its mouth true with a small tool before the center drill goes in, else the drill follows it",
            "der Rest der rohen Zentrierung läuft nicht rund: die Mündung erst mit einem kleinen Stahl ausdrehen, sonst läuft der Zentrierbohrer ihr nach"
        )
        .to_owned()
    });
    Some(Spot { mountings: [bench(), on_rough_center(rested)], operations: [center, turn], at_the_face, at_the_center })
}

/// What the spot is turned to, and its limits: under the scale, larger than what is roughed there later. None where that leaves no cut, or the
/// bar's own surface stays.
fn size(layout: &Layout, end: End, (from, to): (Station, Station), under_scale: Length) -> Option<(Length, Limits)> {
    let under = || layout.sections.iter().filter(|s| s.from < to && from < s.to);
    if under().any(|s| s.shape == Shape::Kept) {
        return None;
    }
    let inner = if end == End::Datum { to } else { from };
    let largest = under().map(|s| s.aim).max().max(layout.largest_outboard(end, inner))?;
    let least = layout.allow.rough(largest);
    let step = show::step(layout.allow.unit, show::usual_decimals(layout.allow.unit));
    let size = (layout.bar - under_scale.times(2)).floor_to(step).max(least);
    let lowest = least.max((size - under_scale.times(2)).ceil_to(step));
    (layout.bar - size >= under_scale).then(|| (size, Limits::new(lowest, size)))
}

/// What takes away what facing leaves of a rough center.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Goes {
    /// The true center is cut over it.
    Recut,
    /// A hole in that end is wider.
    Bored,
}

/// The smallest center drill, from half of what is usual for the bar up to that, whose hole does not stay in the part; how deep it still is when the
/// end is faced, and where that goes.
fn rough_hole(
    part: &Part,
    layout: &Layout,
    shop: Option<&Shop>,
    end: End,
) -> Option<(CenterHole, Option<(Length, Goes)>)> {
    let usual = center::usual(layout.bar, part.units)?;
    let mut list = drills(part, shop);
    list.retain(|c| c.drill_diameter <= usual.drill_diameter && c.drill_diameter.times(2) >= usual.drill_diameter);
    // The smaller is drilled truer by hand, and less of it is left.
    list.sort_by_key(|c| c.drill_diameter);
    let bored = layout.hollows.iter().filter(|h| h.from == layout.face(end) || h.to == layout.face(end));
    let bored = bored.filter(|h| !h.recess).map(|h| h.start.min.min(h.stop.min)).max();
    let recut = true_mouth(part, shop, end).filter(|_| bored.is_none() && !is_forbidden(part, end));
    let over = |hole: &CenterHole| {
        let left = hole.depth - layout.faced(end);
        if !left.is_positive() {
            return Some(None);
        }
        match (bored, recut) {
            (Some(across), _) if across >= hole.mouth_diameter => Some(Some((left, Goes::Bored))),
            (_, Some(mouth)) if mouth >= hole.mouth_diameter => Some(Some((left, Goes::Recut))),
            _ => None,
        }
    };
    list.into_iter().find_map(|hole| over(&hole).map(|left| (hole, left)))
}

/// Mouth of the true center hole of an end: as drawn, else the usual one.
fn true_mouth(part: &Part, shop: Option<&Shop>, end: End) -> Option<Length> {
    let drawn = part.features.iter().find_map(|f| match &f.kind {
        Kind::CenterHole { size: Some(size), ends } if ends.at(end) => Some(size.mouth),
        _ => None,
    });
    drawn.or_else(|| usual_center(part, shop, end).map(|(_, hole)| hole.mouth_diameter))
}

/// The rough center that an operation drills.
pub fn rough_center(part: &Part, shop: Option<&Shop>, operation: &Operation) -> Option<CenterHole> {
    let deep = operation.from.zip(operation.to).map(|(a, b)| (b - a).abs())?;
    drills(part, shop).into_iter().find(|c| Some(c.mouth_diameter) == operation.to_diameter && c.depth == deep)
}

fn bench() -> Setup {
    let why = because(
        "R15",
        told!(
            "the sawn end is laid out and drilled by hand, by eye: nothing but the spot runs on it",
            "das gesägte Ende wird von Hand angerissen und gebohrt, nach Augenmaß: nur die Laufstelle dreht sich darauf"
        ),
    );
    Setup { name: BENCH.to_owned(), ..bare(Holding::Bench, why) }
}

/// The grip of the mounting with the rest, a center in the rough hole instead of the rest.
fn on_rough_center(rested: &Setup) -> Setup {
    let end = rested.works.map_or("", End::word);
    let mut setup = Setup {
        name: format!("chuck and rough center, {end} end at tailstock"),
        holding: Holding::ChuckAndCenter,
        rest: None,
        zero: Zero::SawnEnd,
        ..rested.clone()
    };
    setup.why.retain(|w| !matches!(w.rule, "R1" | "R15" | "overhang"));
    setup.why.push(because(
        "R15",
        told!(
            "the center stands in the rough hole, for the spot alone; then the rest is set on the spot and the center drawn back, the work staying in the jaws",
            "die Spitze steht in der rohen Zentrierung, nur für die Laufstelle; dann wird die Lünette darauf angestellt und die Spitze zurückgezogen, das Werkstück bleibt in den Backen"
        ),
    ));
    setup
}
