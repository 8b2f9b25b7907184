//! From a part to its graph of faces.

use super::graph::{Graph, Link, Says};
use super::{Chain, NoFace, distance, solve};
use crate::model::feature::Extent;
use crate::model::inside::{Inside, InsideCut, Reach};
use crate::model::{End, FaceSide, Feature, Kind, Part, PlaceRef, Size};
use crate::unit::{Length, Limits, Station};

/// The graph while it is being built.
struct Builder<'a> {
    part: &'a Part,
    graph: Graph,
    ends: Vec<Option<(usize, usize)>>,
    far: usize,
    no_face: Vec<NoFace>,
}

pub(super) fn chain(part: &Part) -> Chain {
    let mut b =
        Builder { part, graph: Graph::default(), ends: vec![None; part.features.len()], far: 0, no_face: Vec::new() };
    b.nodes();
    b.sections();
    b.lying();
    b.inside();
    let required = b.overall();
    let at = nominal_places(&b.graph);
    b.dims(&at);
    let contradiction = solve::contradiction(&b.graph);
    let from_far = super::drawn::from_far(&b.graph, &b.ends, b.far);
    let mut chain = Chain {
        graph: b.graph,
        at,
        ends: b.ends,
        far: b.far,
        from_far,
        overall_is_required: required,
        no_face: b.no_face,
        contradiction,
        moved: Vec::new(),
        measured_overall: None,
        distances: Vec::new(),
    };
    chain.distances = distances(part, &chain);
    chain
}

impl Builder<'_> {
    /// Node 0 is the datum face, then the end of each section.
    fn nodes(&mut self) {
        let first = self.part.sections().next().map(|f| f.id);
        let mut near = self.graph.face("datum face".to_owned(), None, first);
        for section in self.part.sections() {
            if near > 0 {
                self.graph.faces[near].begins = Some(section.id);
            }
            let end = self.graph.face(format!("end of {}", section.called()), Some(section.id), None);
            self.ends[section.id] = Some((near, end));
            near = end;
        }
        self.far = near;
        if near > 0 {
            "far end".clone_into(&mut self.graph.faces[near].name);
        }
    }

    fn link(&mut self, from: usize, to: usize, size: &Size, says: Says) {
        if size.reference {
            return;
        }
        let limits = size.limits.filter(|l| !l.reversed()).unwrap_or(Limits::exactly(size.nominal));
        self.graph.links.push(Link { from, to, nominal: size.nominal, limits, says, place: size.place });
    }

    /// States where a node is: from the datum, or from another feature's face.
    fn place(&mut self, node: usize, place: &PlaceRef, says: Says) {
        match place {
            PlaceRef::FromDatum(size) => self.link(0, node, size, says),
            PlaceRef::FarEnd(place) => self.same(self.far, node, *place, says),
            PlaceRef::Face { feature, side, place } => {
                if let Some(other) = self.node_of(*feature, *side) {
                    self.same(other, node, *place, says);
                }
            }
            PlaceRef::Relative { size, of } => {
                match self.find(of, says) {
                    Some(other) if other != node => self.link(other, node, size, says),
                    // A face is at no distance from itself.
                    Some(_) if size.nominal == Length::ZERO => {}
                    Some(_) | None => self.lost(of, size),
                }
            }
        }
    }

    fn same(&mut self, one: usize, other: usize, place: crate::finding::Place, says: Says) {
        if one != other {
            let limits = Limits::exactly(Length::ZERO);
            self.graph.links.push(Link { from: one, to: other, nominal: Length::ZERO, limits, says, place });
        }
    }

    fn node_of(&self, feature: usize, side: FaceSide) -> Option<usize> {
        let (start, end) = (*self.ends.get(feature)?)?;
        Some(if side == FaceSide::Start { start } else { end })
    }

    /// The node a place names as the origin of another length.
    fn find(&mut self, place: &PlaceRef, says: Says) -> Option<usize> {
        match place {
            PlaceRef::FarEnd(_) => Some(self.far),
            PlaceRef::Face { feature, side, .. } => self.node_of(*feature, *side),
            PlaceRef::FromDatum(size) if size.nominal == Length::ZERO => Some(0),
            PlaceRef::FromDatum(size) => {
                let stated = self.graph.links.iter().find(|l| l.from == 0 && l.nominal == size.nominal).map(|l| l.to);
                // A face that chain dimensions locate, or the overall.
                stated.or_else(|| {
                    let asked = Some(Station(size.nominal));
                    let overall = self.part.overall.as_ref().is_some_and(|o| o.nominal == size.nominal);
                    if overall { Some(self.far) } else { nominal_places(&self.graph).iter().position(|s| *s == asked) }
                })
            }
            PlaceRef::Relative { size, of } => {
                // A place that is measured from, and is itself measured from a face: a node of its own.
                let from = self.find(of, says)?;
                let node = self.graph.face(size.text.clone(), None, None);
                self.link(from, node, size, says);
                Some(node)
            }
        }
    }

    /// A length from nowhere, or from a face to itself.
    fn lost(&mut self, of: &PlaceRef, size: &Size) {
        let (place, asked) = match of {
            PlaceRef::FromDatum(of) => (of.place, of.nominal),
            _ => (size.place, size.nominal),
        };
        let asked = Station(asked);
        let at = nominal_places(&self.graph);
        let nearest = at.iter().flatten().min_by_key(|s| (**s - asked).abs()).copied();
        self.no_face.push(NoFace { place, asked, nearest });
    }

    fn sections(&mut self) {
        let sections: Vec<&Feature> = self.part.sections().collect();
        let count = sections.len();
        for (i, section) in sections.into_iter().enumerate() {
            let Some((start, end)) = self.ends[section.id] else { continue };
            // Where an inner face is the datum, the place of the part's own end is a dimension like any other.
            if i == 0
                && self.part.datum_face.is_some()
                && let Some(starts) = &section.starts
            {
                self.place(start, starts, Says::Place(section.id));
            }
            let last = i + 1 == count;
            let (to, long) = match section.kind.extent() {
                Some(Extent::To(place)) => (Some(place), None),
                Some(Extent::Long(size)) => (None, Some(size)),
                Some(Extent::Both(place, size)) => (Some(place), Some(size)),
                Some(Extent::Open) | None => (None, None),
            };
            if let Some(place) = to
                && !(last && self.repeats_overall(place))
            {
                self.place(end, place, Says::Place(section.id));
            }
            if let Some(size) = long {
                self.link(start, end, size, Says::Own(section.id));
            }
        }
    }

    /// The last section's `to` is the overall, not a second dimension.
    fn repeats_overall(&self, place: &PlaceRef) -> bool {
        let Some(overall) = &self.part.overall else { return false };
        match place {
            // A bracketed overall is no dimension, so the place is one.
            PlaceRef::FromDatum(size) => !overall.reference && size.nominal == overall.nominal,
            PlaceRef::FarEnd(_) => true,
            _ => false,
        }
    }

    fn lying(&mut self) {
        for feature in &self.part.features {
            match &feature.kind {
                Kind::Groove { from, wide, .. } => self.stretch(feature, from, wide),
                Kind::ParallelKeyseat { from, length, .. } => self.stretch(feature, from, length),
                Kind::Undercut { at, seat, wide, .. } => self.corner(feature, at, *seat, wide),
                Kind::Flats { from, to, .. } => self.flats(feature, from, to),
                Kind::Woodruff { at, .. } | Kind::CrossHole { at, .. } => {
                    let node = self.graph.face(format!("center of {}", feature.called()), None, None);
                    self.ends[feature.id] = Some((node, node));
                    self.place(node, at, Says::Place(feature.id));
                }
                _ => {}
            }
        }
    }

    /// What is cut inside: each from the bottom of the one before it at the same end; a through bore joins both.
    fn inside(&mut self) {
        let part = self.part;
        let mut bottoms = [0, self.far];
        let all = part.features.iter().filter_map(|f| match &f.kind {
            Kind::Inside(inside) => Some((f, inside.as_ref())),
            _ => None,
        });
        // From the mouth inward, in whatever order they were written: what is deeper begins where the other stops.
        let mut inward: Vec<_> = all.clone().collect();
        if let Some(overall) = part.overall.as_ref().map(|o| o.nominal) {
            let depth = |inside: &Inside| match (&inside.reach, inside.end) {
                (Reach::Deep(size) | Reach::To(PlaceRef::FromDatum(size)), End::Datum)
                | (Reach::Deep(size), End::Far) => Some(size.nominal),
                (Reach::To(PlaceRef::FromDatum(size)), End::Far) => Some(overall - size.nominal),
                _ => None,
            };
            if inward.iter().all(|(_, i)| depth(i).is_some() || matches!(i.reach, Reach::Own | Reach::Through)) {
                inward.sort_by_key(|(_, i)| depth(i));
            }
        }
        for (feature, inside) in inward {
            let side = usize::from(inside.end == End::Far);
            match (&inside.reach, &inside.cut) {
                (_, InsideCut::Groove { from, wide, .. }) => self.stretch(feature, from, wide),
                (Reach::Deep(_) | Reach::To(_), _) => {
                    let bottom = self.graph.face(format!("bottom of {}", feature.called()), Some(feature.id), None);
                    self.ends[feature.id] = Some(if side == 0 { (bottoms[0], bottom) } else { (bottom, bottoms[1]) });
                    match &inside.reach {
                        Reach::Deep(size) if side == 0 => self.link(0, bottom, size, Says::Own(feature.id)),
                        Reach::Deep(size) => self.link(bottom, self.far, size, Says::Own(feature.id)),
                        Reach::To(place) => self.place(bottom, place, Says::Place(feature.id)),
                        Reach::Through | Reach::Own => {}
                    }
                    bottoms[side] = bottom;
                }
                _ => {}
            }
        }
        for (feature, inside) in all {
            if matches!(inside.reach, Reach::Through) && bottoms[0] != bottoms[1] {
                self.ends[feature.id] = Some((bottoms[0], bottoms[1]));
            }
        }
    }

    fn stretch(&mut self, feature: &Feature, from: &PlaceRef, long: &Size) {
        let start = self.graph.face(format!("start of {}", feature.called()), None, Some(feature.id));
        let end = self.graph.face(format!("end of {}", feature.called()), Some(feature.id), None);
        self.ends[feature.id] = Some((start, end));
        self.place(start, from, Says::Place(feature.id));
        self.link(start, end, long, Says::Own(feature.id));
    }

    /// An undercut: one end at its shoulder, the other on the seat.
    fn corner(&mut self, feature: &Feature, at: &PlaceRef, seat: End, wide: &Size) {
        let start = self.graph.face(format!("start of {}", feature.called()), None, Some(feature.id));
        let end = self.graph.face(format!("end of {}", feature.called()), Some(feature.id), None);
        self.ends[feature.id] = Some((start, end));
        let (shoulder, other) = if seat == End::Datum { (end, start) } else { (start, end) };
        self.place(shoulder, at, Says::Place(feature.id));
        self.link(shoulder, other, wide, Says::Own(feature.id));
    }

    /// Flats from one place to another, or over a length.
    fn flats(&mut self, feature: &Feature, from: &PlaceRef, to: &Extent) {
        let start = self.graph.face(format!("start of {}", feature.called()), None, Some(feature.id));
        let end = self.graph.face(format!("end of {}", feature.called()), Some(feature.id), None);
        self.ends[feature.id] = Some((start, end));
        self.place(start, from, Says::Place(feature.id));
        if let Extent::To(place) | Extent::Both(place, _) = to {
            self.place(end, place, Says::Place(feature.id));
        }
        if let Extent::Long(size) | Extent::Both(_, size) = to {
            self.link(start, end, size, Says::Own(feature.id));
        }
    }

    /// The overall locates the far end unless the lengths do; then it is a requirement. Says which.
    fn overall(&mut self) -> bool {
        let Some(overall) = &self.part.overall else { return false };
        if self.far == 0 {
            return false;
        }
        let located = nominal_places(&self.graph)[self.far].is_some();
        let says = if located { Says::OverallRequired } else { Says::Overall };
        self.link(0, self.far, overall, says);
        located
    }

    fn dims(&mut self, at: &[Option<Station>]) {
        for (i, dim) in self.part.dims.iter().enumerate() {
            let from = self.dim_end(&dim.from, at);
            let to = self.dim_end(&dim.to, at);
            if let (Some(from), Some(to)) = (from, to)
                && from != to
            {
                self.link(from, to, &dim.is, Says::Dim(i));
            }
        }
    }

    /// The face a `dims` entry names: by place, the face whose nominal is there.
    fn dim_end(&mut self, place: &PlaceRef, at: &[Option<Station>]) -> Option<usize> {
        let asked = match place {
            PlaceRef::FarEnd(_) => return Some(self.far),
            PlaceRef::Face { feature, side, .. } => return self.node_of(*feature, *side),
            PlaceRef::FromDatum(_) | PlaceRef::Relative { .. } => self.station(place, at)?,
        };
        let exact = at.iter().position(|s| *s == Some(asked));
        if exact.is_none() {
            let nearest = at.iter().flatten().min_by_key(|s| (**s - asked).abs()).copied();
            self.no_face.push(NoFace { place: place.place(), asked, nearest });
        }
        exact
    }

    /// Where a place lies, as far as the nominal lengths give it.
    fn station(&self, place: &PlaceRef, at: &[Option<Station>]) -> Option<Station> {
        match place {
            PlaceRef::FromDatum(size) => Some(Station(size.nominal)),
            PlaceRef::FarEnd(_) => at[self.far],
            PlaceRef::Face { feature, side, .. } => at[self.node_of(*feature, *side)?],
            PlaceRef::Relative { size, of } => Some(self.station(of, at)? + size.nominal),
        }
    }
}

/// Nominal places by following worked links outward from the datum face; the first link that reaches a face decides.
fn nominal_places(graph: &Graph) -> Vec<Option<Station>> {
    let mut at: Vec<Option<Station>> = vec![None; graph.faces.len()];
    let mut next_to: Vec<Vec<(usize, Length)>> = vec![Vec::new(); graph.faces.len()];
    for link in graph.links.iter().filter(|l| l.says.is_worked()) {
        next_to[link.from].push((link.to, link.nominal));
        next_to[link.to].push((link.from, -link.nominal));
    }
    at[0] = Some(Station::DATUM);
    let mut queue = std::collections::VecDeque::from([(0, Station::DATUM)]);
    while let Some((node, here)) = queue.pop_front() {
        for (other, away) in &next_to[node] {
            if at[*other].is_none() {
                let there = here + *away;
                at[*other] = Some(there);
                queue.push_back((*other, there));
            }
        }
    }
    at
}

fn distances(part: &Part, chain: &Chain) -> Vec<(Option<usize>, distance::Distance)> {
    let mut rows = Vec::new();
    let mut row = |index: Option<usize>, from: usize, to: usize, stated: Option<Limits>| {
        if let (Some(a), Some(b)) = (chain.at[from], chain.at[to]) {
            rows.push(distance::Asked { index, from, to, nominal: b - a, stated });
        }
    };
    let node = |place: &PlaceRef| match place {
        PlaceRef::FromDatum(size) => chain.at.iter().position(|s| *s == Some(Station(size.nominal))),
        PlaceRef::FarEnd(_) => Some(chain.far),
        PlaceRef::Face { feature, side, .. } => {
            let (start, end) = (*chain.ends.get(*feature)?)?;
            Some(if *side == FaceSide::Start { start } else { end })
        }
        PlaceRef::Relative { .. } => {
            let asked = chain.station(place);
            asked.and_then(|asked| chain.at.iter().position(|s| *s == Some(asked)))
        }
    };
    for (i, dim) in part.dims.iter().enumerate() {
        if let (Some(from), Some(to)) = (node(&dim.from), node(&dim.to)) {
            row(Some(i), from, to, if dim.is.reference { None } else { dim.is.limits });
        }
    }
    if chain.far > 0 {
        row(None, 0, chain.far, part.overall.as_ref().filter(|s| !s.reference).and_then(|s| s.limits));
    }
    distance::work_all(&chain.graph, &rows)
}
