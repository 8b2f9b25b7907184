//! The sections as the lathe sees them: what is turned, to what size, and from which end.

use super::aims::Allowances;
use crate::chain::{Chain, Hollow, Mouth, Profile};
use crate::model::part::StockShape;
use crate::model::{End, Kind, Part, Size};
use crate::unit::{Length, Limits, Station};

/// What a section is to the hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::plan) enum Shape {
    /// The bar's own surface stays.
    Kept,
    /// A cylinder.
    Cylinder,
    /// The blank of a thread.
    Blank,
    /// A relief, plunged from its neighbour.
    Neck,
    /// A taper.
    Taper,
}

/// One located section.
#[expect(clippy::struct_excessive_bools, reason = "each is a plain fact about one section")]
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::plan) struct Section {
    /// Feature id.
    pub(in crate::plan) feature: usize,
    /// Letter on the sheet.
    pub(in crate::plan) letter: String,
    /// Start, toward the datum end.
    pub(in crate::plan) from: Station,
    /// End.
    pub(in crate::plan) to: Station,
    /// What it is.
    pub(in crate::plan) shape: Shape,
    /// Diameter to aim at; the larger end of a taper.
    pub(in crate::plan) aim: Length,
    /// Diameters aimed at its start and its end; they differ on a taper only.
    pub(in crate::plan) ends: (Length, Length),
    /// Limits of that diameter.
    pub(in crate::plan) limits: Limits,
    /// Held to a close size.
    pub(in crate::plan) close: bool,
    /// Something sits on it in service, other than on a thread.
    pub(in crate::plan) seat: bool,
    /// It holds an eccentric: a rough body about the part's axis that the eccentric is turned out of at the end. What stands here is
    /// that body.
    pub(in crate::plan) thrown: bool,
    /// The end it is worked from; none when either will do.
    pub(in crate::plan) end: Option<End>,
    /// It reaches from one end of the part to the other and is turned in two bites.
    pub(in crate::plan) whole: bool,
}

impl Section {
    /// Its face nearer the tailstock when `end` is there.
    pub(in crate::plan) fn outer(&self, end: End) -> Station {
        if end == End::Datum { self.from } else { self.to }
    }

    /// Its face nearer the headstock.
    pub(in crate::plan) fn inner(&self, end: End) -> Station {
        self.outer(end.other())
    }

    /// Length.
    pub(in crate::plan) fn long(&self) -> Length {
        self.to - self.from
    }

    /// Whether the lathe turns it by longitudinal cuts.
    pub(in crate::plan) fn is_turned(&self) -> bool {
        matches!(self.shape, Shape::Cylinder | Shape::Blank | Shape::Taper)
    }
}

/// All sections, the bar, and the allowances.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::plan) struct Layout {
    /// Sections from the datum end outward.
    pub(in crate::plan) sections: Vec<Section>,
    /// Finished length.
    pub(in crate::plan) overall: Length,
    /// Diameter of the bar; of a hexagon or square what the tool meets, across its corners.
    pub(in crate::plan) bar: Length,
    /// What jaws close on: the diameter, or across flats.
    pub(in crate::plan) jaws_on: Length,
    /// Length of the bar.
    pub(in crate::plan) sawn: Length,
    /// Allowances.
    pub(in crate::plan) allow: Allowances,
    /// By feature id: where its section stands in `sections`.
    places: Vec<Option<usize>>,
    /// Diameter of the largest section.
    top: Length,
    /// By section: the largest diameter nearer the datum end, and nearer the far end.
    beyond: Vec<(Length, Length)>,
    /// What is cut inside.
    pub(in crate::plan) hollows: Vec<Hollow>,
    /// What a center finds at the datum end and at the far end.
    mouths: [Mouth; 2],
    /// The bore of a tube, whose ends are open from the start.
    pub(in crate::plan) tube: Option<Length>,
    /// The end that stands out of the chuck while the part is cut from the bar and parted off behind the other.
    pub(in crate::plan) parted: Option<End>,
}

impl Layout {
    /// Diameter of the hole that runs through where the part is cut off the bar: a tube's own, or what is cut right through from the end
    /// that is out, which is done before (R23). Nothing where there is none.
    pub(in crate::plan) fn open_where_parted(&self) -> Length {
        let open = |h: &&Hollow| h.through && !h.recess && Some(h.end) == self.parted;
        self.hollows.iter().filter(open).map(Hollow::smallest).min().unwrap_or_default()
    }

    /// Takes the located sections; none when the part has no length or nothing to turn.
    pub(in crate::plan) fn of(part: &Part, chain: &Chain, profile: &Profile) -> Option<Self> {
        let allow = Allowances::of(part);
        let overall = chain.overall(part).filter(|l| l.is_positive())?;
        let mut sections: Vec<Section> =
            profile.pieces.iter().filter_map(|p| section(part, &allow, p.feature, p.from, p.to)).collect();
        sections.sort_by_key(|s| (s.from, s.to));
        let largest = sections.iter().map(|s| s.limits.max.max(s.aim)).max()?;
        let stock = part.stock.as_ref();
        let jaws_on = stock.map(|s| s.size.nominal).filter(|d| d.is_positive()).unwrap_or(largest + allow.finish);
        let bar = stock.map_or(jaws_on, |s| s.shape.across_corners(jaws_on));
        let sawn = stock.map(|s| s.length.nominal).filter(|l| *l >= overall).unwrap_or(overall + allow.face.times(2));
        let mouths = [profile.mouth(End::Datum), profile.mouth(End::Far)];
        let tube = stock.and_then(|s| match s.shape {
            StockShape::Tube { bore } => Some(bore),
            _ => None,
        });
        let hollows = profile.hollows.clone();
        let mut layout = Self {
            sections: Vec::new(),
            overall,
            bar,
            jaws_on,
            sawn,
            allow,
            places: vec![None; part.features.len()],
            top: Length::ZERO,
            beyond: Vec::new(),
            hollows,
            mouths,
            tube,
            parted: None,
        }
        .with_sections(sections);
        layout.assign_ends();
        layout.settle_necks();
        Some(if part.wishes.part_off { layout.parted_from(End::Datum) } else { layout })
    }

    /// The same work with other sections, in order: as it stands between two of its cuts.
    pub(in crate::plan) fn with_sections(mut self, sections: Vec<Section>) -> Self {
        self.places.fill(None);
        for (i, section) in sections.iter().enumerate() {
            self.places[section.feature] = Some(i);
        }
        self.top = sections.iter().map(|s| s.aim).max().unwrap_or_default();
        let before = running(sections.iter().map(|s| s.aim));
        let mut behind = running(sections.iter().rev().map(|s| s.aim));
        behind.reverse();
        self.beyond = before.into_iter().zip(behind).collect();
        self.sections = sections;
        self
    }

    /// What a center finds at an end.
    pub(in crate::plan) const fn mouth(&self, end: End) -> Mouth {
        if matches!(end, End::Datum) { self.mouths[0] } else { self.mouths[1] }
    }

    /// The face of an end.
    pub(in crate::plan) fn face(&self, end: End) -> Station {
        if end == End::Datum { Station::DATUM } else { Station(self.overall) }
    }

    /// `at` moved toward `end` by so much.
    pub(in crate::plan) fn toward(end: End, at: Station, by: Length) -> Station {
        if end == End::Datum { at - by } else { at + by }
    }

    /// How far a place lies from an end.
    pub(in crate::plan) fn depth(&self, end: End, at: Station) -> Length {
        if end == End::Datum { at - Station::DATUM } else { Station(self.overall) - at }
    }

    /// The section of a feature.
    pub(in crate::plan) fn section(&self, feature: usize) -> Option<&Section> {
        self.sections.get(self.place(feature)?)
    }

    /// The largest diameter behind a section, seen from an end.
    pub(in crate::plan) fn largest_behind(&self, end: End, feature: usize) -> Length {
        let beyond = self.place(feature).and_then(|i| self.beyond.get(i)).copied().unwrap_or_default();
        if end == End::Datum { beyond.1 } else { beyond.0 }
    }

    /// The largest finished diameter between an end and a place; none where nothing lies there.
    pub(in crate::plan) fn largest_outboard(&self, end: End, at: Station) -> Option<Length> {
        match end {
            End::Datum => {
                let last = self.sections.partition_point(|s| s.to <= at).checked_sub(1)?;
                self.beyond.get(last).map(|(before, _)| (*before).max(self.sections[last].aim))
            }
            End::Far => {
                let first = self.sections.partition_point(|s| s.from < at);
                self.beyond.get(first).map(|(_, behind)| (*behind).max(self.sections[first].aim))
            }
        }
    }

    /// The largest diameter of the sections that reach deeper than this, seen from an end.
    pub(in crate::plan) fn largest_deeper(&self, end: End, depth: Length) -> Option<Length> {
        match end {
            End::Datum => {
                let first = self.sections.partition_point(|s| self.depth(end, s.to) <= depth);
                Some(self.sections.get(first)?.aim.max(self.beyond[first].1))
            }
            End::Far => {
                let last = self.sections.partition_point(|s| self.depth(end, s.from) > depth).checked_sub(1)?;
                Some(self.sections.get(last)?.aim.max(self.beyond[last].0))
            }
        }
    }

    /// Where the section of a feature stands among the sections.
    fn place(&self, feature: usize) -> Option<usize> {
        self.places.get(feature).copied().flatten()
    }

    /// Diameter of the largest section.
    pub(in crate::plan) const fn top(&self) -> Length {
        self.top
    }

    /// No longer than it is wide, with nothing that is thrown over.
    pub(in crate::plan) fn is_short(&self) -> bool {
        self.overall <= self.top && self.sections.iter().all(|s| !s.thrown)
    }

    /// Diameters of a taper at its two ends.
    pub(in crate::plan) fn taper_ends(&self, feature: usize) -> Option<(Length, Length)> {
        self.section(feature).map(|s| s.ends)
    }

    /// The section a place lies on; a shared face belongs to the larger one.
    pub(in crate::plan) fn largest_at(&self, at: Station) -> Option<&Section> {
        let after = self.sections.partition_point(|s| s.from <= at);
        let near = self.sections[..after].iter().rev().take_while(|s| s.to >= at);
        near.collect::<Vec<_>>().into_iter().rev().max_by_key(|s| s.aim)
    }

    /// The section a stretch lies on.
    pub(in crate::plan) fn under(&self, from: Station, to: Station) -> Option<&Section> {
        let middle = from + (to - from).half();
        let after = self.sections.partition_point(|s| s.from <= middle);
        self.sections[..after].last().filter(|s| middle < s.to)
    }

    /// Sections beside a section that are not necks, looking over necks: toward the datum end and toward the far end.
    pub(in crate::plan) fn beside(&self, feature: usize) -> (Option<&Section>, Option<&Section>) {
        let Some(i) = self.place(feature) else { return (None, None) };
        let solid = |s: &&Section| s.shape != Shape::Neck;
        (self.sections[..i].iter().rev().find(solid), self.sections[i + 1..].iter().find(solid))
    }

    /// A neck is plunged from a larger surface outboard of it; one that has none is turned like any cylinder.
    pub(super) fn settle_necks(&mut self) {
        let solid = |s: &Section| if s.shape == Shape::Neck { Length::ZERO } else { s.aim };
        let before = running(self.sections.iter().map(solid));
        let mut behind = running(self.sections.iter().rev().map(solid));
        behind.reverse();
        let cover = |at: usize| match self.sections[at].end {
            Some(End::Datum) => before[at],
            Some(End::Far) => behind[at],
            None => self.top,
        };
        let bare: Vec<usize> = (0..self.sections.len())
            .filter(|i| self.sections[*i].shape == Shape::Neck && self.sections[*i].aim >= cover(*i))
            .collect();
        for i in bare {
            self.sections[i].shape = Shape::Cylinder;
        }
    }

    /// The largest section is the summit: what lies on its datum side is worked with the datum end at the tailstock, what
    /// lies beyond it with the far end there. A turned summit that reaches neither end goes with either, and so does a
    /// valley between two summits.
    pub(super) fn assign_ends(&mut self) {
        let top = |s: &Section| if s.shape == Shape::Kept { s.aim.max(self.bar) } else { s.aim };
        let Some(largest) = self.sections.iter().map(top).max() else { return };
        let is_top: Vec<bool> = self.sections.iter().map(|s| top(s) == largest).collect();
        let first = is_top.iter().position(|t| *t).unwrap_or(0);
        let last = is_top.iter().rposition(|t| *t).unwrap_or(first);
        let count = self.sections.len();
        for (i, section) in self.sections.iter_mut().enumerate() {
            section.end = if i < first || (i == first && first == 0 && (last > 0 || count > 1)) {
                Some(End::Datum)
            } else if i > last || (i == last && last + 1 == count && count > 1) {
                Some(End::Far)
            } else if first < last && i == first {
                Some(End::Datum)
            } else if first < last && i == last {
                Some(End::Far)
            } else {
                None
            };
            section.whole = count == 1;
        }
        self.cut_from_the_bar(largest);
    }
}

/// For each place the largest of what stands before it.
fn running(diameters: impl Iterator<Item = Length>) -> Vec<Length> {
    let mut largest = Length::ZERO;
    diameters
        .map(|d| {
            let so_far = largest;
            largest = largest.max(d);
            so_far
        })
        .collect()
}

/// The rough body about the part's axis that an eccentric is turned out of: what it sweeps, with the finish allowance around it.
/// Where the bar is hardly more, the bar itself.
fn envelope(part: &Part, allow: &Allowances, sweeps: Length) -> (Shape, Length) {
    let round = allow.rough(sweeps);
    let bar = part.stock.as_ref().filter(|s| !s.shape.has_corners()).map(|s| s.size.nominal);
    // With nothing about the part's axis to hold it by, it is not planned, and the bar stays.
    let alone = !part.sections().any(|f| matches!(f.kind, Kind::Turn { .. }));
    match bar.filter(|b| b.is_positive()) {
        Some(bar) if alone || bar - round < allow.worth_roughing() => (Shape::Kept, bar.max(sweeps)),
        _ => (Shape::Cylinder, round),
    }
}

fn section(part: &Part, allow: &Allowances, feature: usize, from: Station, to: Station) -> Option<Section> {
    let f = part.features.get(feature)?;
    let sized = |shape: Shape, size: &Size| {
        let limits = size.limits.filter(|l| !l.reversed()).unwrap_or(Limits::exactly(size.nominal));
        (shape, allow.aim(limits), limits, allow.is_close(size))
    };
    let (shape, aim, limits, close) = match &f.kind {
        Kind::Turn { diameter, kept: true, .. } => (Shape::Kept, diameter.nominal, diameter.limits_or_nominal(), false),
        Kind::Eccentric { diameter, .. } => {
            let (shape, round) = envelope(part, allow, diameter.max() + f.sweeps_most());
            (shape, round, Limits::exactly(round), false)
        }
        Kind::Turn { diameter, .. } => sized(Shape::Cylinder, diameter),
        Kind::Relief { diameter, .. } => {
            let (shape, aim, limits, _) = sized(Shape::Neck, diameter);
            (shape, aim, limits, false)
        }
        Kind::Thread { thread, .. } if thread.taper.is_some() => {
            let (start, end) = part.pipe_ends(feature, to - from)?;
            let large = if start.max >= end.max { start } else { end };
            (Shape::Taper, allow.aim(large), large, false)
        }
        Kind::Thread { thread, .. } => match &thread.blank {
            Some(blank) => (Shape::Blank, allow.aim(blank.limits_or_nominal()), thread.major, false),
            None => (Shape::Blank, allow.blank(thread.major), thread.major, false),
        },
        Kind::Knurl { knurl, .. } => {
            let band = allow.knurl_blank();
            let own = knurl.blank.as_ref().and_then(|b| b.limits).filter(|l| l.band().is_positive());
            (Shape::Blank, knurl.turn_to, own.unwrap_or(Limits::around(knurl.turn_to, band, -band)), false)
        }
        Kind::Taper { start, end, .. } => sized(Shape::Taper, if start.nominal >= end.nominal { start } else { end }),
        _ => return None,
    };
    let ends = match &f.kind {
        Kind::Taper { start, end, .. } => (allow.aim(start.limits_or_nominal()), allow.aim(end.limits_or_nominal())),
        _ => part.pipe_ends(feature, to - from).map_or((aim, aim), |(a, b)| (allow.aim(a), allow.aim(b))),
    };
    let thread = matches!(f.kind, Kind::Thread { .. });
    let seat = matches!(shape, Shape::Cylinder | Shape::Taper)
        && !thread
        && (close || !f.carries.is_empty() || f.true_to.is_some());
    let letter = f.letter.clone();
    let thrown = matches!(f.kind, Kind::Eccentric { .. });
    Some(Section { feature, letter, from, to, shape, aim, ends, limits, close, seat, thrown, end: None, whole: false })
}
