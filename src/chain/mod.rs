//! Lengths as a graph: faces are nodes, stated lengths are links with limits. Exact integers throughout.
//!
//! [`locate`] places every face; [`Chain::distances`] say what the stated lengths imply and guarantee.
//! Facts only: the sentences are written in `check`.
//!
//! ```
//! # let text = std::fs::read("samples/pulley-stub-no-shop.yaml").expect("a sample");
//! # let read = turnwright::read::part("pulley-stub", &text);
//! # let part = read.part.as_ref().expect("a part");
//! let chain = turnwright::chain::locate(part);
//! assert!(chain.distances.iter().all(|(_, d)| d.is_guaranteed()));
//! ```

pub mod adjust;
mod arcs;
mod build;
pub mod chart;
mod distance;
mod drawn;
mod graph;
mod hollow;
mod measured;
mod pair;
mod profile;
pub mod replan;
mod saving;
mod solve;
mod standing;

pub use distance::{Distance, Rss};
pub use graph::{Face, Graph, Link, Says};
pub use hollow::{Hollow, Mouth};
pub use pair::{Remedies, Schemes, schemes};
pub use profile::{Piece, Profile};
pub use saving::{Concession, Saving, diameter_gives, finished};
pub use standing::{ReadLength, Standing, looks};

use crate::model::{Part, PlaceRef};
use crate::unit::{Length, Limits, Station};

/// The part's faces, located, with everything that does not add up.
#[derive(Debug, Clone)]
pub struct Chain {
    /// Faces and links.
    pub graph: Graph,
    /// Nominal place of each face, where the lengths give one.
    pub at: Vec<Option<Station>>,
    /// Nodes of each feature: start and end (the same twice for a centre), by feature id.
    pub ends: Vec<Option<(usize, usize)>>,
    /// The far end's node.
    pub far: usize,
    /// Whether each face is drawn from the far face, not from the datum face.
    pub from_far: Vec<bool>,
    /// Whether sections and overall close, so that the overall is a requirement and not a link.
    pub overall_is_required: bool,
    /// Places that name no face: where it is written, the nominal asked, the nearest face.
    pub no_face: Vec<NoFace>,
    /// A loop of links that no part can satisfy, with by how much the limits miss each other.
    pub contradiction: Option<Contradiction>,
    /// Faces that came out elsewhere: as drawn, as measured.
    pub moved: Vec<(Station, Station)>,
    /// The overall as it came out, once the chain is as measured.
    pub measured_overall: Option<Length>,
    /// Rows for each `dims` entry (by index) and the overall (`None`).
    pub distances: Vec<(Option<usize>, Distance)>,
}

/// A place that should name a face and does not.
#[derive(Debug, Clone)]
pub struct NoFace {
    /// Where it is written.
    pub place: crate::finding::Place,
    /// What was asked.
    pub asked: Station,
    /// The nearest face, if there is any.
    pub nearest: Option<Station>,
}

/// Stated lengths that cannot hold together.
#[derive(Debug, Clone)]
pub struct Contradiction {
    /// Indices into [`Graph::links`], in the order of the loop.
    pub links: Vec<usize>,
    /// By how much the limits miss each other (above zero).
    pub misclosure: Length,
    /// The same links, each as the one that is wrong.
    pub suspects: Vec<Suspect>,
}

/// A link of a contradiction, taken for the wrong one.
#[derive(Debug, Clone, Copy)]
pub struct Suspect {
    /// Index into [`Graph::links`].
    pub link: usize,
    /// The nominal with which the others of the loop close.
    pub would_be: Length,
    /// Whether nothing at all contradicts without it; false where that was not tried.
    pub clears_all: bool,
}

/// Builds the graph of a part and places its faces.
pub fn locate(part: &Part) -> Chain {
    build::chain(part)
}

impl Chain {
    /// Nominal span of a feature along the axis.
    pub fn span(&self, feature: usize) -> Option<(Station, Station)> {
        let (start, end) = (*self.ends.get(feature)?)?;
        Some((self.at[start]?, self.at[end]?))
    }

    /// Nominal centre of a feature (a keyseat's or hole's `at`).
    pub fn center(&self, feature: usize) -> Option<Station> {
        let (from, to) = self.span(feature)?;
        Some(from + (to - from).half())
    }

    /// Nominal overall length, from the description or from the lengths.
    pub fn overall(&self, part: &Part) -> Option<Length> {
        let stated = self.measured_overall.or(part.overall.as_ref().map(|s| s.nominal));
        stated.or_else(|| self.at[self.far].map(|s| s.0))
    }

    /// The place a reference names.
    pub fn station(&self, place: &PlaceRef) -> Option<Station> {
        match place {
            PlaceRef::FromDatum(size) => {
                let drawn = Station(size.nominal);
                Some(self.moved.iter().find(|(at, _)| *at == drawn).map_or(drawn, |(_, came)| *came))
            }
            PlaceRef::FarEnd(_) => self.at[self.far],
            PlaceRef::Face { feature, side, .. } => {
                let (start, end) = (*self.ends.get(*feature)?)?;
                self.at[if *side == crate::model::FaceSide::Start { start } else { end }]
            }
            PlaceRef::Relative { size, of } => Some(self.station(of)? + size.nominal),
        }
    }

    /// What the worked lengths (without `dims`) guarantee between the datum face and each face, in one go.
    pub fn guaranteed_from_datum(&self) -> Vec<Option<Limits>> {
        solve::from_one(&self.graph, 0, solve::Use::Worked)
    }

    /// What the worked lengths (without `dims`) guarantee between two faces, where they connect them.
    pub fn guaranteed(&self, from: usize, to: usize) -> Option<Limits> {
        solve::between(&self.graph, from, to, solve::Use::Worked).map(|b| b.limits)
    }
}
