//! Readings of work that has begun: which faces and diameters they leave as drawn, aim anew or cut again, and what the drawing
//! would have to give. The sums are those of `chain::replan`; here it is found which face each operation makes.

use std::collections::{BTreeMap, BTreeSet};

use crate::chain::chart::{PlanChart, of_plan};
use crate::chain::replan::Now;
use crate::chain::{Chain, Link, Profile, Saving, Standing, diameter_gives};
use crate::check::{face_called, length_called, measure_first};
use crate::model::measured::{Measured, MeasuredWhat};
use crate::model::plan::{Operation, Verb};
use crate::model::rest::{Again, Aimed, Give, Outlook, Rest, StillCut, Unsure};
use crate::model::{End, Part, Plan, Shop};
use crate::tell;
use crate::unit::{Length, Limits, Station, show};

/// The rest of a part, and where its faces are for it.
pub(super) struct Readings {
    /// What they come to.
    pub(super) rest: Rest,
    /// Faces that came out, or are aimed, elsewhere than drawn: drawn place, place now.
    pub(super) moved: Vec<(Station, Station)>,
    /// The overall, where a reading of it holds.
    pub(super) overall: Option<Length>,
    /// Operations that are done and done again, with what to say of it.
    pub(super) again: BTreeMap<u32, String>,
    /// Diameters measured on what is still to be cut, or is cut again: feature, diameter.
    pub(super) diameters: Vec<(usize, Length)>,
    /// Diameters as they came out on what is done and stays: later tools are touched there.
    pub(super) stand: Vec<(usize, Length)>,
}

/// Works the readings of a part out against the plan of the whole.
pub(super) fn readings(
    part: &Part,
    (drawn, profile): (&Chain, &Profile),
    whole: &Plan,
    shop: Option<&Shop>,
) -> Readings {
    let done: BTreeSet<u32> = part.done.iter().map(|d| d.number).collect();
    let asked = Asked { part, drawn, whole, shop, done };
    let mut out = Readings {
        rest: Rest { fewest: true, ..Rest::default() },
        moved: Vec::new(),
        overall: None,
        again: BTreeMap::new(),
        diameters: Vec::new(),
        stand: Vec::new(),
    };
    asked.diameters(&mut out);
    if let Some(chart) = of_plan(part, drawn, profile, whole, shop) {
        asked.faces(&chart, &mut out);
    }
    let rest = &mut out.rest;
    rest.outlook = match rest {
        Rest { gives, .. } if !gives.is_empty() => Outlook::Scrap,
        Rest { again, .. } if !again.is_empty() => Outlook::CutAgain,
        Rest { aims, .. } if !aims.is_empty() => Outlook::AimedAnew,
        _ => Outlook::AsDrawn,
    };
    out
}

struct Asked<'a> {
    part: &'a Part,
    drawn: &'a Chain,
    whole: &'a Plan,
    shop: Option<&'a Shop>,
    done: BTreeSet<u32>,
}

impl Asked<'_> {
    fn shown(&self, length: Length) -> String {
        show::exact(
            length,
            self.part.units,
            show::usual_decimals(self.part.units),
            show::usual_decimals(self.part.units) + 2,
        )
    }

    /// Whether a reading still tells of the work: nothing that was cut since, among what `cuts`, has been done.
    fn holds(&self, measured: &Measured, cuts: &[u32]) -> bool {
        measured.after.is_none_or(|after| !cuts.iter().any(|n| *n > after && self.done.contains(n)))
    }

    fn void(&self, out: &mut Readings, what: &str, entry: usize, cuts: &[u32]) {
        let measured = &self.part.measured[entry];
        out.rest.void_entries.push(entry);
        let since = cuts.iter().filter(|n| self.done.contains(n) && measured.after.is_some_and(|a| **n > a)).max();
        out.rest.void.push(tell!("the reading of {what} after operation {} is not used: operation {} cut it again; measure it anew", "die Ablesung von {what} nach Arbeitsgang {} gilt nicht mehr: Arbeitsgang {} hat dort noch einmal gedreht; neu messen",
            measured.after.unwrap_or_default(),
            since.copied().unwrap_or_default()
        ));
    }

    /// Diameters: what is too large is cut again, what is too small stays so.
    fn diameters(&self, out: &mut Readings) {
        let mut told = BTreeSet::new();
        for (entry, measured) in self.part.measured.iter().enumerate().rev() {
            let MeasuredWhat::Diameter { feature, size } = &measured.what else { continue };
            let cuts: Vec<&Operation> = self.cuts_of(*feature);
            let numbers: Vec<u32> = cuts.iter().map(|o| o.number).collect();
            let called = self.called(*feature);
            if !self.holds(measured, &numbers) {
                self.void(out, &called, entry, &numbers);
                continue;
            }
            if !told.insert(*feature) {
                continue;
            }
            let Some(last) = cuts.last().filter(|o| self.done.contains(&o.number)) else {
                let number = cuts.last().map(|o| o.number);
                out.rest.still.extend(number.map(|number| StillCut { number, face: None, feature: Some(*feature) }));
                let limits = cuts.last().and_then(|o| Some((o.limits?, o.inside)));
                if let Some((drawn, to)) =
                    limits.and_then(|(l, inside)| Some((l, diameter_gives(l, inside, size.nominal)?)))
                {
                    let what = tell!("the diameter of {}", "der Durchmesser von {}", called);
                    out.rest.gives.push(Give { what, drawn, to, place: None });
                }
                out.diameters.push((*feature, size.nominal));
                continue;
            };
            let Some(limits) = last.limits else { continue };
            self.judge(out, (&cuts, last), *feature, size.nominal, limits);
        }
    }

    fn judge(
        &self,
        out: &mut Readings,
        (cuts, last): (&[&Operation], &Operation),
        feature: usize,
        size: Length,
        limits: Limits,
    ) {
        if limits.holds(size) {
            out.stand.push((feature, size));
            return;
        }
        if let Some(to) = diameter_gives(limits, last.inside, size) {
            out.stand.push((feature, size));
            out.rest.gives.push(Give {
                what: tell!("the diameter of {}", "der Durchmesser von {}", self.called(feature)),
                drawn: limits,
                to,
                place: None,
            });
            return;
        }
        let aim = last.to_diameter.unwrap_or(limits.middle());
        let says = format!(
            "again: {} measures {}, and {} is still to come {}",
            self.called(feature),
            self.shown(size),
            self.shown((size - aim).abs()),
            if last.inside { "out of it" } else { "off" }
        );
        // A strip takes what it was left, and no more: beyond that the tool comes first.
        let turned = cuts.iter().rev().find(|o| o.verb != Verb::Polish);
        let tool = turned.filter(|o| last.verb == Verb::Polish && o.to_diameter.is_some_and(|d| size > d));
        for number in tool.into_iter().map(|o| o.number).chain([last.number]) {
            out.again.insert(number, says.clone());
        }
        out.diameters.push((feature, size));
        out.rest.again.push(Again {
            number: tool.map_or(last.number, |o| o.number),
            what: self.called(feature),
            from: size,
            to: aim,
            diameter: true,
            feature: Some(feature),
        });
    }

    /// The operations that bring a feature to a diameter, in order.
    fn cuts_of(&self, feature: usize) -> Vec<&Operation> {
        let sizes = |v: Verb| {
            use Verb as V;
            matches!(
                v,
                V::Rough | V::Finish | V::Turn | V::Groove | V::Polish | V::Bore | V::Drill | V::Ream | V::Knurl
            )
        };
        let own = |o: &&Operation| sizes(o.verb) && (o.feature == Some(feature) || o.with.contains(&feature));
        self.whole.operations().map(|(_, o)| o).filter(own).collect()
    }

    fn called(&self, feature: usize) -> String {
        self.part.features.get(feature).map_or_else(String::new, crate::model::Feature::called)
    }

    /// Lengths: the faces as they are, and everything stated between them.
    fn faces(&self, chart: &PlanChart, out: &mut Readings) {
        let states: Vec<State> = (0..self.drawn.at.len()).map(|f| self.state(chart, f)).collect();
        let mut nows: Vec<Now> = states.iter().map(|s| s.now).collect();
        let (overall, from_far) = self.read(&states, &mut nows, out);
        for (at, state) in self.drawn.at.iter().zip(&states).filter(|(_, s)| s.now.open) {
            out.rest.still.extend(state.last.map(|number| StillCut { number, face: *at, feature: None }));
        }
        if nows.iter().skip(1).all(|n| n.at.is_none()) {
            return;
        }
        let Some(saving) = Saving::of(self.part, self.drawn, nows, &from_far) else { return };
        out.rest.instead = saving.instead.map(|many| {
            tell!(
                "or {many} faces that are done would all have to be cut again",
                "oder {many} fertige Flächen müssten alle noch einmal gedreht werden"
            )
        });
        if !saving.measure.is_empty() {
            let faces: Vec<String> = saving.measure.iter().map(|f| self.face(*f)).collect();
            out.rest.instead = Some(measure_first(&faces));
        }
        self.tell(&saving, &states, out);
        let ends = saving.found.at[0].zip(saving.found.at[self.drawn.far]);
        out.overall = ends.filter(|_| overall).map(|(datum, far)| far - datum);
    }

    /// What makes a face, and whether it is still to be made.
    fn state(&self, chart: &PlanChart, face: usize) -> State {
        let at = self.drawn.at[face];
        let of_chart =
            at.and_then(|at| (0..chart.at.len()).find(|i| chart.at[*i] == at && !chart.zeros.contains_key(i)));
        let mut cuts: Vec<u32> = Vec::new();
        if let Some(i) = of_chart {
            let made = chart.chart.cuts.iter().enumerate();
            cuts.extend(made.filter(|(c, cut)| cut.face == i && !chart.before_plan.contains(c)).map(|(_, cut)| cut.op));
        }
        cuts.sort_unstable();
        cuts.dedup();
        let last = cuts.last().copied();
        let verb = last.and_then(|n| self.whole.operations().find(|(_, o)| o.number == n)).map(|(_, o)| o.verb);
        let looks = of_chart.map_or(End::Datum, |i| chart.chart.faces[i].looks);
        let open = last.is_some_and(|n| !self.done.contains(&n));
        let again = matches!(verb, Some(Verb::Face | Verb::Finish | Verb::Turn | Verb::Groove | Verb::Bore));
        let now = Now { at: None, looks, open, again, drawn: at.map(|s| s.0), error: Length::ZERO };
        State { now, cuts, last }
    }

    /// Puts the readings in that still hold; whether the overall is among them, and what was read from the far face alone.
    fn read(&self, states: &[State], nows: &mut [Now], out: &mut Readings) -> (bool, Vec<(usize, Length)>) {
        let node = |measured: &Measured| {
            let at = match &measured.what {
                MeasuredWhat::Overall(_) => self.drawn.at[self.drawn.far],
                MeasuredWhat::Face { face, .. } => self.drawn.station(face),
                MeasuredWhat::Diameter { .. } | MeasuredWhat::Other { .. } | MeasuredWhat::Mate { .. } => None,
            }?;
            self.drawn.at.iter().position(|s| *s == Some(at))
        };
        let mut overall = false;
        for (entry, measured) in self.part.measured.iter().enumerate() {
            let Some(node) = node(measured) else { continue };
            if self.holds(measured, &states[node].cuts) {
                overall |= self.drawn.at[node] == self.drawn.at[self.drawn.far];
            } else {
                self.void(out, &self.face(node), entry, &states[node].cuts);
            }
        }
        let standing = Standing::of(self.part, self.drawn, self.shop, &|measured, _| {
            node(measured).is_some_and(|node| self.holds(measured, &states[node].cuts))
        });
        for (f, at) in standing.counted(self.drawn).into_iter().enumerate().filter(|(_, at)| at.is_some()) {
            nows[f].at = at;
            nows[f].error = standing.error(self.drawn, f);
        }
        for now in nows.iter_mut().skip(1) {
            now.again &= now.at.is_some();
        }
        // The datum face is where everything is measured from.
        (nows[0].at, nows[0].open, nows[0].error) = (Some(Length::ZERO), false, Length::ZERO);
        (overall, standing.from_far(self.drawn))
    }

    fn tell(&self, saving: &Saving, states: &[State], out: &mut Readings) {
        let (found, nows) = (&saving.found, &saving.nows);
        let link = |i: usize| saving.links[i].map(|l| &self.drawn.graph.links[l]);
        for give in saving.concession() {
            let l = &self.drawn.graph.links[give.link];
            out.rest.gives.push(Give { what: self.length(l), drawn: give.drawn, to: give.to, place: Some(l.place) });
        }
        let words =
            |l: &Link| format!("{}: {} to {}", self.length(l), self.shown(l.limits.min), self.shown(l.limits.max));
        out.rest.clash.extend(found.clash.iter().filter_map(|i| link(*i)).map(words));
        out.rest.misses = found.misses;
        out.rest.fewest = found.fewest;
        out.rest.doubtful = found.doubtful && out.rest.gives.iter().all(|g| g.place.is_some());
        for (i, by) in &found.unsure {
            let Some(l) = link(*i) else { continue };
            out.rest.unsure.push(Unsure { what: self.length(l), limits: l.limits, by: *by, place: l.place });
        }
        // Once the datum face is cut again, lengths count from the new one.
        let shift = found.at[0].unwrap_or_default();
        let mut told: BTreeSet<Station> = BTreeSet::new();
        for f in 0..nows.len() {
            let (Some(drawn), Some(at)) = (self.drawn.at[f], found.at[f].map(|at| at - shift)) else { continue };
            if !told.insert(drawn) {
                continue;
            }
            if Station(at) != drawn {
                out.moved.push((drawn, Station(at)));
            }
            if found.again.contains(&f) {
                self.cut_again(out, &states[f], nows[f], f, (at, shift));
            } else if nows[f].open && at != drawn.0 {
                out.rest.aims.push(Aimed {
                    face: self.face(f),
                    drawn: drawn.0,
                    to: at,
                    window: found.windows[f].map(|w| Limits::new(w.min - shift, w.max - shift)),
                });
            }
        }
        out.rest.again.sort_by_key(|a| a.number);
    }

    fn cut_again(&self, out: &mut Readings, state: &State, now: Now, face: usize, (to, shift): (Length, Length)) {
        let Some(number) = state.last else { return };
        let from = now.at.or(now.drawn).map_or(to, |at| at - shift);
        // What comes off the datum face is told as such: the face itself stays the zero.
        let (from, to) = if face == 0 { (Length::ZERO, shift) } else { (from, to) };
        let off = (to - from).abs();
        let says = if face == 0 {
            format!("again: {} comes off the datum face, and every length counts from the new one", self.shown(off))
        } else {
            format!(
                "again: {} stands at {}, and {} comes off it to {}; the diameter beside it is left alone",
                self.face(face),
                self.shown(from),
                self.shown(off),
                self.shown(to)
            )
        };
        let said = out.again.entry(number).or_default();
        if !said.is_empty() {
            said.push_str("; ");
        }
        said.push_str(&says);
        out.rest.again.push(Again { number, what: self.face(face), from, to, diameter: false, feature: None });
    }

    /// How a sentence speaks of a face.
    fn face(&self, face: usize) -> String {
        face_called(self.part, self.drawn, face)
    }

    /// How a sentence speaks of a stated length.
    fn length(&self, link: &Link) -> String {
        length_called(self.part, self.drawn, link)
    }
}

/// A face with what cuts it.
struct State {
    now: Now,
    /// Numbers of the operations that cut it.
    cuts: Vec<u32>,
    /// The one that makes it.
    last: Option<u32>,
}
