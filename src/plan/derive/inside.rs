//! What is cut inside: drill, bore, ream, tap, thread, groove, chamfer, each end from its bottom out to its mouth.

use super::draft::on;
use super::drill_sizes::least_bored;
use super::layout::Layout;
use super::through::{follow, led_from_other, opened_to, right_through};
use crate::chain::{Hollow, Mouth};
use crate::handbook::drill;
use crate::model::inside::{InsideCut, Tapped};
use crate::model::plan::{Operation, Verb};
use crate::model::shop::ToolKind;
use crate::model::{End, Feature, Kind, LimitsFrom, Part, Shop, Size};
use crate::plan::rules::because;
use crate::told;
use crate::unit::{Length, Limits, Station, Unit};

/// How a bore gets its size.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Way {
    Drilled,
    Reamed,
    Bored,
}

/// Operations inside one end, in the order a hand would take them.
pub(super) fn of_end(part: &Part, layout: &Layout, end: End, shop: Option<&Shop>) -> Vec<Operation> {
    let mut list: Vec<&Hollow> = layout.hollows.iter().filter(|h| h.end == end).collect();
    // The deepest hole is drilled first: it leads the larger ones.
    list.sort_by_key(|h| (h.recess, std::cmp::Reverse(layout.depth(end, h.inner())), layout.depth(end, h.outer())));
    let maker = Maker { part, layout, end, shop };
    let mut operations = Vec::new();
    let there =
        led_from_other(part, layout, end).map_or(Length::ZERO, Hollow::stands).max(layout.tube.unwrap_or_default());
    let mut open = there;
    let leads = led_from_other(part, layout, end.other()).is_some();
    for hollow in list {
        let Some(feature) = part.features.get(hollow.feature) else { continue };
        let whole = right_through(layout, hollow);
        let hollow = if leads && hollow.through && hollow.start == hollow.stop { &whole } else { hollow };
        let made = maker.hollow(feature, hollow, open);
        if !hollow.recess {
            open = opened_to(&made).unwrap_or(hollow.stands()).max(layout.tube.unwrap_or_default());
        }
        operations.extend(made);
    }
    for feature in &part.features {
        let Kind::Inside(inside) = &feature.kind else { continue };
        if let InsideCut::Chamfer { leg, .. } = &inside.cut
            && inside.end == end
        {
            operations.push(maker.chamfer(feature, leg.nominal));
        }
    }
    operations.extend(maker.center());
    // What the tap or the tool needs is there before it.
    operations.sort_by_key(|o| match o.verb {
        Verb::Drill => 0,
        Verb::Bore | Verb::Taper => 1,
        Verb::Groove => 2,
        Verb::Chamfer => 3,
        Verb::Ream => 4,
        _ => 5,
    });
    for bore in operations.iter_mut().filter(|o| o.verb == Verb::Bore && !o.close) {
        // The wide bores wait for it: it goes in from the face.
        bore.from = Some(layout.face(end));
    }
    follow(&mut operations, there);
    operations
}

/// What the description says of the hole before a thread.
struct Asked<'a> {
    drill: Option<Length>,
    drill_depth: Option<&'a Size>,
    tap: bool,
}

pub(super) struct Maker<'a> {
    part: &'a Part,
    layout: &'a Layout,
    end: End,
    pub(super) shop: Option<&'a Shop>,
}

impl Maker<'_> {
    pub(super) fn unit(&self) -> Unit {
        self.layout.allow.unit
    }

    pub(super) fn pick(&self, micro_inches: i64, micrometres: i64) -> Length {
        match self.unit() {
            Unit::Inch => Length::micro_inches(micro_inches),
            Unit::Millimetre => Length::micrometres(micrometres),
        }
    }

    fn op(&self, verb: Verb, feature: usize, tool: ToolKind, from: Station, to: Station) -> Operation {
        let mut operation = on(self.part, verb, feature, Some(self.end), tool);
        operation.inside = true;
        (operation.from, operation.to) = (Some(from), Some(to));
        operation
    }

    fn hollow(&self, feature: &Feature, hollow: &Hollow, open: Length) -> Vec<Operation> {
        let Kind::Inside(inside) = &feature.kind else { return Vec::new() };
        match &inside.cut {
            InsideCut::Bore { kept: true, .. } | InsideCut::Chamfer { .. } => Vec::new(),
            InsideCut::Bore { diameter, hole, drill_depth, .. } => {
                self.bore(feature.id, hollow, diameter, *hole, drill_depth.as_ref(), open)
            }
            InsideCut::Thread { thread, drill, drill_depth, tap } => {
                let nominal = drill.as_ref().map(|d| d.nominal);
                let asked = Asked { drill: nominal, drill_depth: drill_depth.as_ref(), tap: *tap };
                self.thread(feature.id, hollow, thread, &asked, open)
            }
            InsideCut::Relief { diameter, .. } | InsideCut::Groove { diameter, .. } => {
                let mut groove = self.op(Verb::Groove, feature.id, ToolKind::Boring, hollow.outer(), hollow.inner());
                groove.from_diameter = Some(self.wall_at(hollow)).filter(|d| d.is_positive());
                self.to_size(&mut groove, diameter);
                vec![groove]
            }
            InsideCut::Taper { start, end, .. } => {
                let (large, small) = if self.end == End::Datum { (start, end) } else { (end, start) };
                let mut list = self.opened(feature.id, hollow, small.nominal, None, open, true);
                let mut taper = self.op(Verb::Taper, feature.id, ToolKind::Boring, hollow.outer(), hollow.inner());
                taper.from_diameter = Some(list.iter().filter_map(|o| o.to_diameter).max().unwrap_or(open));
                self.to_size(&mut taper, large);
                if let Some(straight) = self.bored_straight(&taper, small.nominal) {
                    taper.from_diameter = straight.to_diameter;
                    list.push(straight);
                }
                list.push(taper);
                list
            }
        }
    }

    /// The wall a groove is cut in.
    fn wall_at(&self, groove: &Hollow) -> Length {
        let holds = |h: &&Hollow| {
            !h.recess
                && h.end == groove.end
                && (h.from < groove.to && groove.from < h.to || h.inner() == groove.outer())
        };
        self.layout.hollows.iter().filter(holds).map(Hollow::stands).min().unwrap_or_default()
    }

    fn to_size(&self, operation: &mut Operation, size: &Size) {
        let limits = size.limits_or_nominal();
        operation.to_diameter = Some(if limits.band().is_positive() { limits.middle() } else { size.nominal });
        operation.limits = Some(limits).filter(|l| l.band().is_positive());
        operation.close = self.layout.allow.is_close(size);
    }

    fn bore(
        &self,
        feature: usize,
        hollow: &Hollow,
        size: &Size,
        hole: bool,
        drill_depth: Option<&Size>,
        open: Length,
    ) -> Vec<Operation> {
        let flat = !hole && drill_depth.is_none() && self.has_bottom(hollow);
        let way = match self.way(size, hole) {
            // Neither a drill nor a reamer leaves the bottom of a blind bore flat; a smaller one is squared by a drill ground flat.
            Way::Drilled | Way::Reamed if flat && size.nominal >= least_bored(self.unit()) => Way::Bored,
            way => way,
        };
        let mut list = match way {
            Way::Drilled => {
                let mut drill = self.drill(feature, hollow, size.nominal, None, open);
                drill.limits = size.limits.filter(|l| l.band().is_positive());
                return vec![drill];
            }
            Way::Reamed => self.opened(feature, hollow, size.nominal - self.under_reamer(), drill_depth, open, false),
            Way::Bored => self.opened(feature, hollow, size.nominal, drill_depth, open, true),
        };
        let (verb, tool) =
            if way == Way::Reamed { (Verb::Ream, ToolKind::Reamer) } else { (Verb::Bore, ToolKind::Boring) };
        let mut last = self.op(verb, feature, tool, hollow.outer(), hollow.inner());
        self.to_size(&mut last, size);
        last.from_diameter = Some(list.iter().filter_map(|o| o.to_diameter).max().unwrap_or(open));
        if way == Way::Reamed {
            last.close = false;
            last.to_diameter = Some(size.nominal);
            last.why.push(because(
                "order-bore",
                told!(
                    "drilled a little under, then reamed slowly, with oil, in one pass",
                    "etwas kleiner gebohrt, dann langsam gerieben, mit Öl, in einem Zug"
                ),
            ));
        }
        list.extend(self.rough_bore(&last));
        if let Some(rough) = list.last().filter(|o| o.verb == Verb::Bore) {
            last.from_diameter = rough.to_diameter;
        }
        list.push(last);
        list
    }

    /// Whether a hole ends at a face of its own, and not in one as wide or wider, or out of the part.
    fn has_bottom(&self, hollow: &Hollow) -> bool {
        let (bottom, wide) = (hollow.inner(), hollow.stands());
        let opens =
            |h: &Hollow| h.feature != hollow.feature && h.from <= bottom && bottom <= h.to && h.stands() >= wide;
        !hollow.through && !self.layout.hollows.iter().any(opens)
    }

    /// A close bore is bored near its size first, so that its equal last cuts are light.
    fn rough_bore(&self, last: &Operation) -> Option<Operation> {
        let (from, to) = (last.from_diameter?, last.to_diameter?);
        let near = to - self.layout.allow.finish;
        if last.verb != Verb::Bore || !last.close || near - from < self.layout.allow.finish {
            return None;
        }
        let mut rough = self.op(Verb::Bore, last.feature?, ToolKind::Boring, last.from?, last.to?);
        rough.id = format!("rough-{}", rough.id);
        (rough.from_diameter, rough.to_diameter) = (Some(from), Some(near));
        Some(rough)
    }

    /// A taper is bored straight near its small end first: the slide is then set over once, for even cuts along the slope.
    fn bored_straight(&self, taper: &Operation, small: Length) -> Option<Operation> {
        let (from, near) = (taper.from_diameter?, small - self.layout.allow.finish);
        if near - from < self.layout.allow.finish {
            return None;
        }
        let mut bore = self.op(Verb::Bore, taper.feature?, ToolKind::Boring, taper.from?, taper.to?);
        (bore.from_diameter, bore.to_diameter) = (Some(from), Some(near));
        Some(bore)
    }

    /// Opens a hole for a boring tool or a reamer: nothing where it is open wide enough.
    fn opened(
        &self,
        feature: usize,
        hollow: &Hollow,
        below: Length,
        drill_depth: Option<&Size>,
        open: Length,
        bored: bool,
    ) -> Vec<Operation> {
        let enters = self.bar_goes_in().unwrap_or_default().max(self.pick(375_000, 10_000));
        if bored && open >= enters {
            return Vec::new();
        }
        let diameter = if bored { self.pilot(below) } else { self.nearest_drill(below) };
        // A drill that finds a hole nearly as wide takes a shaving and wanders: the boring tool goes in as it is.
        let worth = if bored && open.is_positive() { open + self.pick(62_500, 1_500) } else { open };
        if !diameter.is_positive() || diameter <= worth {
            return Vec::new();
        }
        let mut drill = self.drill(feature, hollow, diameter, drill_depth, open);
        if bored && drill_depth.is_none() && !hollow.through {
            // The point must not go through the bottom that is bored flat.
            let point = drill::point_length(diameter) + self.pick(20_000, 500);
            let to = hollow.inner();
            let short = Layout::toward(self.end, to, point.min(hollow.long()));
            // Too shallow for its point: the hole that is there is bored out.
            if open.is_positive() && !self.layout.depth(self.end, short).is_positive() {
                return Vec::new();
            }
            drill.to = Some(short);
        }
        vec![drill]
    }

    fn drill(
        &self,
        feature: usize,
        hollow: &Hollow,
        diameter: Length,
        depth: Option<&Size>,
        open: Length,
    ) -> Operation {
        // A drill starts at the face, or where a larger bore will stop.
        let face = self.layout.face(self.end);
        let bottom = match depth {
            Some(depth) => Layout::toward(self.end.other(), face, depth.nominal),
            None => hollow.inner(),
        };
        let mut drill = self.op(Verb::Drill, feature, ToolKind::Drill, face, bottom);
        drill.to_diameter = Some(diameter);
        drill.from_diameter = Some(open).filter(|d| d.is_positive());
        drill
    }

    fn thread(
        &self,
        feature: usize,
        hollow: &Hollow,
        thread: &Tapped,
        asked: &Asked<'_>,
        open: Length,
    ) -> Vec<Operation> {
        let &Asked { drill, drill_depth, tap } = asked;
        let tapped = tap || thread.nominal <= self.pick(750_000, 20_000);
        let minor = thread.minor;
        if tapped {
            let usual = thread.usual_drill.as_ref().map_or(minor.middle(), |(_, d, _)| *d);
            let usual = self.own_drill(minor, usual);
            let mut hole = self.drill(feature, hollow, drill.unwrap_or(usual), drill_depth, open);
            hole.limits = Some(minor);
            if drill_depth.is_none() && !hollow.through {
                hole.to = Some(Layout::toward(self.end.other(), hollow.inner(), beyond_thread(thread)));
            }
            let mut cut = self.op(Verb::Tap, feature, ToolKind::Tap, self.layout.face(self.end), hollow.inner());
            cut.from = Some(hollow.outer());
            cut.from_diameter = hole.to_diameter;
            cut.to_diameter = Some(thread.nominal);
            return if open >= minor.min { vec![cut] } else { vec![hole, cut] };
        }
        let mut list = self.opened(feature, hollow, minor.min, drill_depth, open, true);
        let mut bore = self.op(Verb::Bore, feature, ToolKind::Boring, hollow.outer(), hollow.inner());
        bore.from_diameter = Some(list.iter().filter_map(|o| o.to_diameter).max().unwrap_or(open));
        bore.to_diameter = Some(minor.middle());
        bore.limits = Some(minor);
        let mut cut = self.op(Verb::Thread, feature, ToolKind::Boring, hollow.outer(), hollow.inner());
        cut.from_diameter = bore.to_diameter;
        cut.to_diameter = Some(thread.nominal);
        list.push(bore);
        list.push(cut);
        list
    }

    fn chamfer(&self, feature: &Feature, leg: Length) -> Operation {
        let face = self.layout.face(self.end);
        let to = Layout::toward(self.end.other(), face, leg);
        self.op(Verb::Chamfer, feature.id, ToolKind::Chamfer, face, to)
    }

    /// A tapped center hole: its core drill and its tap, beside the center drill that cuts the seat.
    fn center(&self) -> Vec<Operation> {
        let found = self.part.features.iter().find_map(|f| match &f.kind {
            Kind::CenterHole { size: Some(size), ends } if ends.at(self.end) => {
                size.tapped.as_deref().map(|t| (f.id, size, t))
            }
            _ => None,
        });
        let Some((feature, size, (thread, deep))) = found else { return Vec::new() };
        let face = self.layout.face(self.end);
        let at = |depth: Length| Layout::toward(self.end.other(), face, depth);
        let mut core = self.op(Verb::Drill, feature, ToolKind::Drill, face, at(size.depth));
        core.to_diameter = Some(size.drill);
        core.limits = Some(thread.minor);
        let mut tap = self.op(Verb::Tap, feature, ToolKind::Tap, face, at(*deep));
        tap.from_diameter = Some(size.drill);
        tap.to_diameter = Some(thread.nominal);
        vec![core, tap]
    }

    fn way(&self, size: &Size, hole: bool) -> Way {
        let band = size.limits.map(Limits::band);
        let coarse = band.is_none_or(|b| b >= self.pick(8_000, 200));
        let is_drill = drill::drills().iter().any(|d| d.diameter == size.nominal);
        // A plain `hole` whose limits are only the general ones is drilled; nobody bores what is long and narrow.
        let drilled = hole && size.from != LimitsFrom::Written && size.from != LimitsFrom::Fit;
        if is_drill && (coarse || drilled) && (hole || size.nominal <= self.pick(1_000_000, 26_000)) {
            return Way::Drilled;
        }
        let listed = self.shop.filter(|s| !s.tools.is_empty());
        let reamer_at_hand = |s: &Shop| s.tools_of(ToolKind::Reamer).any(|t| t.diameter == Some(size.nominal));
        let usual_size = match self.unit() {
            Unit::Inch => size.nominal.pm() % (Length::PER_INCH.pm() / 32) == 0,
            Unit::Millimetre => size.nominal.pm() % Length::PER_MM.pm() == 0,
        };
        let small = size.nominal <= self.pick(750_000, 20_000);
        // A reamer cuts on the plus side: H7, or limits that begin at the size.
        let upward = size.limits.is_some_and(|l| l.min == size.nominal && l.band() >= self.pick(300, 8));
        let reamed = match listed {
            Some(shop) => upward && reamer_at_hand(shop),
            None => upward && small && usual_size,
        };
        if reamed { Way::Reamed } else { Way::Bored }
    }
}

/// How much deeper than the full thread a blind hole is drilled for a plug tap's lead: five pitches (common practice).
pub(in crate::plan) fn beyond_thread(thread: &Tapped) -> Length {
    thread.pitch.times(5)
}

/// Whether the end is opened by something that leaves no seat for a center.
pub(in crate::plan) fn is_open(layout: &Layout, end: End) -> bool {
    matches!(layout.mouth(end), Mouth::Open { .. })
}
