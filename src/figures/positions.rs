//! Places along the part in every frame a setup uses.

use super::{DialReading, Figure};

/// Which edge of the tool stands at a carriage reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Edge {
    /// The one nearer the headstock.
    Left,
    /// The one nearer the tailstock.
    Right,
    /// Its point, or it does not matter.
    None,
}

impl Edge {
    /// As the JSON has it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
            Self::None => "none",
        }
    }
}

/// One place an operation goes to.
#[derive(Debug, Clone, PartialEq)]
pub struct Position {
    /// What is there: `shoulder`, `stop`, `plunge 1`, `thread ends`.
    pub what: String,
    /// From the datum face. For a plunge: the wall it serves.
    pub from_datum: Figure,
    /// From the far end.
    pub from_far_end: Figure,
    /// From the face at the tailstock, for the tool's edge named here; none off the lathe.
    pub carriage: Option<Figure>,
    /// Which edge.
    pub edge: Edge,
    /// `carriage` on the carriage's dial, where it has one.
    pub dial: Option<DialReading>,
}
