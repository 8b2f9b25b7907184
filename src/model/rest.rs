//! What becomes of the rest of a part whose work has begun: what can still be met, by which recut, or what the drawing must give.

use super::feature::End;
use crate::finding::Place;
use crate::unit::{Length, Limits, Station};

/// What the readings come to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Outlook {
    /// Everything is as drawn: the rest is cut as the sheet says.
    #[default]
    AsDrawn,
    /// Everything can be met when some of the rest is aimed anew.
    AimedAnew,
    /// Everything can be met when something done is cut again.
    CutAgain,
    /// No cut meets everything: scrap, unless the drawing gives.
    Scrap,
}

impl Outlook {
    /// As the JSON has it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::AsDrawn => "as drawn",
            Self::AimedAnew => "aimed anew",
            Self::CutAgain => "cut again",
            Self::Scrap => "scrap unless the drawing gives",
        }
    }
}

/// The rest of a part.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Rest {
    /// What the readings come to.
    pub outlook: Outlook,
    /// Faces still to be cut whose aim the readings moved.
    pub aims: Vec<Aimed>,
    /// What is done and cut again; the fewest that suffice, where `fewest`.
    pub again: Vec<Again>,
    /// Whether it is proved that no fewer recuts of faces do.
    pub fewest: bool,
    /// What the drawing must give, the least in sum.
    pub gives: Vec<Give>,
    /// Limits that no recut keeps together, in words: the proof. Each of them is needed for it.
    pub clash: Vec<String>,
    /// By how much they miss each other.
    pub misses: Length,
    /// Whether the clash could come from the readings' own errors alone.
    pub doubtful: bool,
    /// Lengths that are kept by the readings and might not be, if those are off.
    pub unsure: Vec<Unsure>,
    /// What else could be done, where it is out of proportion: `9 faces cut again`.
    pub instead: Option<String>,
    /// Ends that have their center hole.
    pub centered: Vec<End>,
    /// Readings that are not used, and why.
    pub void: Vec<String>,
    /// The same as entries of `measured:`.
    pub void_entries: Vec<usize>,
    /// What is still to be cut: a size of it that was read is not what it will be.
    pub still: Vec<StillCut>,
}

/// A face or a diameter that an operation still to be done makes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StillCut {
    /// Number of the last operation on it.
    pub number: u32,
    /// The face, as the drawing places it.
    pub face: Option<Station>,
    /// The feature, of a diameter.
    pub feature: Option<usize>,
}

/// A face aimed anew.
#[derive(Debug, Clone, PartialEq)]
pub struct Aimed {
    /// The face, as the drawing places it.
    pub face: String,
    /// Where the drawing has it, from the datum face.
    pub drawn: Length,
    /// Where it is aimed now.
    pub to: Length,
    /// Within what it may come out, the others standing where they are aimed.
    pub window: Option<Limits>,
}

/// Something done that is cut again.
#[derive(Debug, Clone, PartialEq)]
pub struct Again {
    /// Number of the operation that made it, and makes it again.
    pub number: u32,
    /// What it is: `seat C`, `the face at 3.750`.
    pub what: String,
    /// As it was measured.
    pub from: Length,
    /// What it is cut to.
    pub to: Length,
    /// Whether it is a diameter; else a face, from the datum face.
    pub diameter: bool,
    /// The feature, of a diameter.
    pub feature: Option<usize>,
}

/// A length that is kept by the readings, by less than their errors.
#[derive(Debug, Clone, PartialEq)]
pub struct Unsure {
    /// What is limited, in words.
    pub what: String,
    /// Limits as drawn.
    pub limits: Limits,
    /// By how much it may miss them at most.
    pub by: Length,
    /// Where the drawing states it.
    pub place: Place,
}

/// A limit that must give.
#[derive(Debug, Clone, PartialEq)]
pub struct Give {
    /// What is limited, in words.
    pub what: String,
    /// Limits as drawn.
    pub drawn: Limits,
    /// Limits it would have to become.
    pub to: Limits,
    /// Where the drawing states it.
    pub place: Option<Place>,
}
