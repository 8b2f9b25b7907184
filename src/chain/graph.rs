//! Faces and the lengths stated between them.

use crate::finding::Place;
use crate::unit::{Length, Limits};

/// A face, wall or centre that lengths locate.
#[derive(Debug, Clone)]
pub struct Face {
    /// How sentences speak of it: `datum face`, `A end`, `L centre`.
    pub name: String,
    /// The feature that ends here, seen from the datum end.
    pub ends: Option<usize>,
    /// The feature that begins here.
    pub begins: Option<usize>,
}

/// What stated a length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Says {
    /// `to:`, `from:`, `at:` of a feature.
    Place(usize),
    /// `long:` or `wide:` of a feature.
    Own(usize),
    /// The overall, where nothing else locates the far end.
    Overall,
    /// The overall as a requirement.
    OverallRequired,
    /// A `dims` entry.
    Dim(usize),
}

impl Says {
    /// Whether the part is made by it, so that it counts toward what is guaranteed.
    pub const fn is_worked(self) -> bool {
        matches!(self, Self::Place(_) | Self::Own(_) | Self::Overall)
    }
}

/// A stated length: the far node's place minus the near node's lies within `limits`.
#[derive(Debug, Clone)]
pub struct Link {
    /// Near node.
    pub from: usize,
    /// Far node.
    pub to: usize,
    /// Nominal.
    pub nominal: Length,
    /// Limits; exactly the nominal where none are known.
    pub limits: Limits,
    /// What stated it.
    pub says: Says,
    /// Where.
    pub place: Place,
}

/// The faces of a part and its stated lengths.
#[derive(Debug, Clone, Default)]
pub struct Graph {
    /// Node 0 is the datum face, nodes 1 to n the ends of the sections in order; walls and centres follow.
    pub faces: Vec<Face>,
    /// Stated lengths.
    pub links: Vec<Link>,
}

impl Graph {
    /// Adds a node.
    pub(super) fn face(&mut self, name: String, ends: Option<usize>, begins: Option<usize>) -> usize {
        self.faces.push(Face { name, ends, begins });
        self.faces.len() - 1
    }
}
