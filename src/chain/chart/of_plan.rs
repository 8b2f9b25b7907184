//! The chart of a plan: which face each length is measured from when it is cut, in the holding it is cut in.
//!
//! The work is counted from the datum face, or after the flip from the far face with the zero corrected by the measured overall.
//! Such a zero is a face of its own here, joined to the datum face by the error of measuring: it is shared by all cuts of its
//! mounting, so it leaves out of the distances between them.

use std::collections::BTreeMap;

use super::super::{Chain, Profile, Says};
use super::good::{Good, good};
use super::zero::{Zeros, touched};
use crate::model::chart::{Chart, Cut, Face, MeasuredBy, Wanted};
use crate::model::plan::{Assumed, Operation, Setup, Verb};
use crate::model::{End, Kind, Part, Plan, Shop, Text};
use crate::unit::{Length, Station, show};

/// A plan as a chart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PlanChart {
    /// The chart.
    pub chart: Chart,
    /// Place of each face of the chart.
    pub at: Vec<Station>,
    /// Faces of the chart that are corrected zeros, with the number of their setup.
    pub zeros: BTreeMap<usize, u32>,
    /// Cuts that are no operation of the plan: the saw, and readings that correct a zero.
    pub before_plan: Vec<usize>,
    /// Cuts that leave a face proud for a later one: the saw, and roughing.
    pub proud: Vec<usize>,
    /// Error of measuring a length, ±.
    pub error: Length,
    /// What nobody stated.
    pub assumed: Vec<Assumed>,
    /// Faces (by the chain's names) that no operation of the plan makes.
    pub not_cut: Vec<String>,
}

struct Maker<'a> {
    part: &'a Part,
    chain: &'a Chain,
    profile: &'a Profile,
    good: Good,
    out: PlanChart,
    overall: Station,
    face_at: BTreeMap<Station, usize>,
    /// The end that was faced before the other.
    first_faced: Option<End>,
    /// The far face is cut in this setup, before the datum face.
    far_first: bool,
    roughed: BTreeMap<Station, Station>,
}

/// The chart of a plan; none when the part has no located length.
pub fn of_plan(part: &Part, chain: &Chain, profile: &Profile, plan: &Plan, shop: Option<&Shop>) -> Option<PlanChart> {
    let overall = chain.at.get(chain.far).copied().flatten().filter(|o| *o > Station::DATUM)?;
    let (good, assumed) = good(part.units, shop, overall.0);
    let chart = Chart {
        name: Text { text: part.name.text.clone(), place: part.name.place },
        units: part.units,
        faces: Vec::new(),
        cuts: Vec::new(),
        dims: Vec::new(),
        hash: part.hash.clone(),
    };
    let out = PlanChart {
        chart,
        at: Vec::new(),
        zeros: BTreeMap::new(),
        before_plan: Vec::new(),
        proud: Vec::new(),
        error: good.reading,
        assumed,
        not_cut: Vec::new(),
    };
    let mut maker = Maker {
        part,
        chain,
        profile,
        good,
        out,
        overall,
        face_at: BTreeMap::new(),
        first_faced: None,
        far_first: false,
        roughed: BTreeMap::new(),
    };
    maker.faces(plan);
    maker.bar(plan);
    plan.setups.iter().for_each(|s| maker.setup(s));
    maker.threads(plan);
    maker.dims();
    maker.find_means();
    maker.leave_something();
    Some(maker.out)
}

impl Maker<'_> {
    /// Every located face, in order, and a corrected zero beside the far face for each mounting that counts from it.
    fn faces(&mut self, plan: &Plan) {
        let mut places: Vec<Station> = self.chain.at.iter().flatten().copied().collect();
        places.sort_unstable();
        places.dedup();
        let decimals = show::usual_decimals(self.part.units);
        for at in places {
            if at == self.overall {
                for setup in plan.setups.iter().filter(|s| self.chain.needs_correction(self.part, s)) {
                    self.out.zeros.insert(self.out.chart.faces.len(), setup.number);
                    self.face(at, format!("zero of setup {}", setup.number), End::Far);
                }
            }
            let name = match at {
                Station::DATUM => "datum face".to_owned(),
                at if at == self.overall => "far face".to_owned(),
                at => show::exact(at.0, self.part.units, decimals, decimals + 3),
            };
            let looks = self.looks(at);
            self.face_at.insert(at, self.out.chart.faces.len());
            self.face(at, name, looks);
        }
    }

    fn face(&mut self, at: Station, name: String, looks: End) {
        self.out.at.push(at);
        self.out.chart.faces.push(Face { name, looks, stock_least: None, place: None });
    }

    /// The end a face looks to: away from the larger side.
    fn looks(&self, at: Station) -> End {
        if at == self.overall {
            return End::Far;
        }
        let groove = self.part.features.iter().filter(|f| matches!(f.kind, Kind::Groove { .. }));
        for (from, to) in groove.filter_map(|f| self.chain.span(f.id)) {
            if from == at || to == at {
                return if from == at { End::Far } else { End::Datum };
            }
        }
        let before = self.profile.pieces.iter().find(|p| p.to == at).map(|p| p.end.max);
        let behind = self.profile.pieces.iter().find(|p| p.from == at).map(|p| p.start.max);
        if before > behind && at > Station::DATUM { End::Far } else { End::Datum }
    }

    fn far(&self) -> usize {
        self.out.chart.faces.len() - 1
    }

    fn datum(&self) -> usize {
        self.face_at.get(&Station::DATUM).copied().unwrap_or(0)
    }

    fn cut(&mut self, op: u32, face: usize, by: MeasuredBy, mean: Length, tolerance: Option<Length>) {
        let can_hold = tolerance.is_none().then_some(self.good.length);
        let mean = Some(mean);
        self.out.chart.cuts.push(Cut { op, face, by, mean, tolerance, can_hold, least: None, place: None });
    }

    /// The sawn bar: its far end from its datum end. Where the part is cut off it, that end is none of the part's.
    fn bar(&mut self, plan: &Plan) {
        if plan.operations().any(|(_, o)| o.verb == Verb::PartOff) {
            return;
        }
        let Some(stock) = &self.part.stock else { return };
        let length = stock.length.limits.map_or(stock.length.nominal, crate::unit::Limits::middle);
        let saw = stock.length.limits.map_or(self.good.saw, |l| l.band().half());
        if length > self.overall.0 {
            self.out.before_plan.push(self.out.chart.cuts.len());
            self.out.proud.push(self.out.chart.cuts.len());
            self.cut(0, self.far(), MeasuredBy::From(self.datum()), length, Some(saw));
        }
    }

    fn setup(&mut self, setup: &Setup) {
        self.far_first = setup.faces_far_end_first();
        let corrected = self.out.zeros.iter().find(|(_, n)| **n == setup.number).map(|(face, _)| *face);
        let touched = if touched(setup) == End::Far { self.far() } else { self.datum() };
        let zeros = Zeros { touched, corrected };
        // After the face is cut to the overall, where that is done here; the first length that counts from it needs it.
        let first = setup.operations.iter().position(|o| self.chain.stops_by_datum(self.part, o));
        for (i, op) in setup.operations.iter().enumerate().filter(|(_, o)| !o.for_rest) {
            if let Some(zero) = corrected.filter(|_| first == Some(i)) {
                self.reading(op, zero);
            }
            self.operation(op, zeros);
        }
    }

    /// The overall is measured, and the zero set by it.
    fn reading(&mut self, op: &Operation, zero: usize) {
        self.out.before_plan.push(self.out.chart.cuts.len());
        self.cut(op.number, zero, MeasuredBy::From(self.datum()), self.overall.0, Some(self.good.reading));
    }

    fn operation(&mut self, op: &Operation, zeros: Zeros) {
        match op.verb {
            Verb::Face => self.faced(op),
            Verb::Rough => {
                // A second roughing, about another axis, that stops where the first did takes nothing off the wall.
                if let (Some(face), Some(to)) = (op.face, op.to)
                    && !self.is_made(face)
                    && self.roughed.insert(face, to) != Some(to)
                {
                    self.out.proud.push(self.out.chart.cuts.len());
                    let zero = zeros.of(self.part, self.chain, op, face);
                    self.at(op, face, to, zero);
                }
            }
            Verb::PartOff => self.parted(op, zeros.touched),
            Verb::Finish | Verb::Turn | Verb::Knurl | Verb::Taper => {
                for at in self.walls(op) {
                    let zero = zeros.of(self.part, self.chain, op, at);
                    self.at(op, at, at, zero);
                }
            }
            Verb::Groove => self.groove(op, zeros),
            Verb::Mill | Verb::Drill | Verb::Ream | Verb::Bore | Verb::Tap => {
                for at in self.places_of(op) {
                    let zero = zeros.of(self.part, self.chain, op, at);
                    self.at(op, at, at, zero);
                }
            }

            _ => {}
        }
    }

    /// Whether a face stands where the drawing has it. What is roughed about another axis up to such a face leaves a wall of its own proud of it, on the
    /// other side of the same place: nothing comes off the face that is there.
    fn is_made(&self, face: Station) -> bool {
        let cuts = &self.out.chart.cuts;
        let index = self.face_at.get(&face);
        let last = (0..cuts.len()).rev().find(|i| Some(&cuts[*i].face) == index);
        last.is_some_and(|i| !self.out.proud.contains(&i))
    }

    /// The part is cut off the bar: its other end stands proud of where it will be faced.
    fn parted(&mut self, op: &Operation, zero: usize) {
        let face = if op.end == Some(End::Datum) { self.datum() } else { self.far() };
        if let (Some(to), true) = (op.to, face != zero) {
            self.out.proud.push(self.out.chart.cuts.len());
            let mean = (to - self.out.at[zero]).abs();
            self.cut(op.number, face, MeasuredBy::From(zero), mean, None);
        }
    }

    /// The end that is faced first is cut until it is clean: by what comes off. The other is faced to the overall.
    fn faced(&mut self, op: &Operation) {
        let (far, datum) = (self.far(), self.datum());
        let (face, other) = if op.end == Some(End::Datum) { (datum, far) } else { (far, datum) };
        let there = self.first_faced.is_none() && op.end == Some(End::Far) && !self.far_first;
        let first = *self.first_faced.get_or_insert(if there { End::Datum } else { op.end.unwrap_or(End::Far) });
        if op.end != Some(first) {
            self.cut(op.number, face, MeasuredBy::From(other), self.overall.0, None);
            return;
        }
        let over = op.from.zip(op.to).map_or(Length::ZERO, |(from, to)| (to - from).abs());
        if self.part.stock.is_some() && over.is_positive() {
            self.cut(op.number, face, MeasuredBy::Stock, over, Some(self.good.clean.min(over)));
        }
    }

    /// A cut of the face that will be at `face`, now cut at `to`.
    fn at(&mut self, op: &Operation, face: Station, to: Station, zero: usize) {
        let Some(index) = self.face_at.get(&face).copied() else { return };
        if index != zero && face != Station::DATUM && face != self.overall {
            let mean = (to - self.out.at[zero]).abs();
            self.cut(op.number, index, MeasuredBy::From(zero), mean, None);
        }
    }

    /// Shoulders that an operation stops at: what lies beyond is larger than what it turns.
    fn walls(&self, op: &Operation) -> Vec<Station> {
        let (Some(from), Some(to)) = (op.from, op.to) else { return Vec::new() };
        let size = op.to_diameter.unwrap_or(Length::ZERO);
        let (near, far) = (from.min(to), from.max(to));
        let before = self.profile.pieces.iter().find(|p| p.to == near).is_some_and(|p| p.end.max > size);
        let behind = self.profile.pieces.iter().find(|p| p.from == far).is_some_and(|p| p.start.max > size);
        let mut walls = Vec::new();
        walls.extend(before.then_some(near));
        walls.extend(behind.then_some(far));
        walls
    }

    /// A groove whose width the drawing states is cut to it: one wall from the zero, the other from that wall. Otherwise both
    /// walls are cut where the carriage says.
    fn groove(&mut self, op: &Operation, zeros: Zeros) {
        let (Some(from), Some(to)) = (op.from, op.to) else { return };
        let stated = self.chain.graph.links.iter().find_map(|l| {
            let (a, b) = (self.chain.at[l.from]?, self.chain.at[l.to]?);
            ((a, b) == (from, to) || (b, a) == (from, to)).then_some((l.from, l.to))
        });
        let Some((first, second)) = stated else {
            for at in [from, to] {
                let zero = zeros.of(self.part, self.chain, op, at);
                self.at(op, at, at, zero);
            }
            return;
        };
        let (Some(first), Some(second)) = (self.chain.at[first], self.chain.at[second]) else { return };
        let zero = zeros.of(self.part, self.chain, op, first);
        self.at(op, first, first, zero);
        if let (Some(wall), Some(other)) = (self.face_at.get(&first).copied(), self.face_at.get(&second).copied()) {
            self.cut(op.number, other, MeasuredBy::From(wall), (second - first).abs(), None);
            if let Some(cut) = self.out.chart.cuts.last_mut() {
                cut.can_hold = Some(self.good.width);
            }
        }
    }

    /// Walls of what is milled or drilled, or its centre; of what is cut inside, the bottom, where this cut goes there and not short of it or beyond.
    fn places_of(&self, op: &Operation) -> Vec<Station> {
        let all = op.feature.into_iter().chain(op.with.iter().copied());
        let places = all.filter_map(|id| self.chain.span(id)).flat_map(|(a, b)| [a, b]);
        let here = places.filter(|at| !op.inside || op.to == Some(*at));
        here.collect::<std::collections::BTreeSet<Station>>().into_iter().collect()
    }

    /// A thread ends where nothing else makes a face: then the thread itself is measured.
    fn threads(&mut self, plan: &Plan) {
        for (setup, op) in plan.operations().filter(|(_, o)| o.verb == Verb::Thread) {
            let Some(at) = op.to else { continue };
            let Some(face) = self.face_at.get(&at).copied() else { continue };
            if self.out.chart.cuts.iter().any(|c| c.face == face) {
                continue;
            }
            let own = self.out.zeros.iter().find(|(_, n)| **n == setup.number).map(|(face, _)| *face);
            let touched = if touched(setup) == End::Far { self.far() } else { self.datum() };
            let zero = Zeros { touched, corrected: own }.of(self.part, self.chain, op, at);
            self.at(op, at, at, zero);
        }
    }

    /// The last cut of a face is aimed at the middle of what the drawing allows: its mean is found, where a stated length reaches
    /// the face.
    fn find_means(&mut self) {
        let chart = &mut self.out.chart;
        for i in 0..chart.cuts.len() {
            let face = chart.cuts[i].face;
            let last = !chart.cuts[i + 1..].iter().any(|c| c.face == face);
            let stated = chart.dims.iter().any(|d| d.from == face || d.to == face);
            let aimed = chart.cuts[i].tolerance.is_none();
            if last && stated && aimed {
                chart.cuts[i].mean = None;
            }
        }
    }

    /// What was left on a face comes off with its next cut: roughing is held as the carriage can, and no tolerance of the next cut may let it find
    /// less there than the last digit shown.
    fn leave_something(&mut self) {
        let unit = self.part.units;
        let least = show::step(unit, show::usual_decimals(unit));
        for i in 0..self.out.chart.cuts.len() {
            let cuts = &mut self.out.chart.cuts;
            let before = (0..i).rev().find(|b| cuts[*b].face == cuts[i].face);
            if let Some(before) = before.filter(|b| self.out.proud.contains(b))
                && cuts[i].by != MeasuredBy::Stock
            {
                cuts[i].least = Some(least);
                cuts[before].tolerance = cuts[before].tolerance.or(cuts[before].can_hold);
            }
        }
    }

    /// Everything the drawing states between two faces.
    fn dims(&mut self) {
        let cut = |maker: &Self, face: usize| maker.out.chart.cuts.iter().any(|c| c.face == face);
        let mut not_cut: Vec<String> = Vec::new();
        for link in &self.chain.graph.links {
            let (Some(a), Some(b)) = (self.chain.at[link.from], self.chain.at[link.to]) else { continue };
            let (Some(from), Some(to)) = (self.face_at.get(&a).copied(), self.face_at.get(&b).copied()) else {
                continue;
            };
            if from == to {
                continue;
            }
            let missing =
                [(from, link.from), (to, link.to)].into_iter().find(|(f, _)| *f != self.datum() && !cut(self, *f));
            if let Some((_, node)) = missing {
                let name = self.chain.graph.faces[node].name.clone();
                if !not_cut.contains(&name) {
                    not_cut.push(name);
                }
                continue;
            }
            let swap = b < a;
            let (from, to) = if swap { (to, from) } else { (from, to) };
            let limits = if swap { link.limits.mirrored() } else { link.limits };
            let stated = limits.band().is_positive() || link.says == Says::OverallRequired;
            let nominal = (b - a).abs();
            let limits = (stated && limits.band().is_positive()).then_some(limits);
            let same = self.out.chart.dims.iter().any(|d| d.from == from && d.to == to && d.limits == limits);
            if !same {
                self.out.chart.dims.push(Wanted { from, to, nominal, limits, place: Some(link.place) });
            }
        }
        self.out.not_cut = not_cut;
    }
}
