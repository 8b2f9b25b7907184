//! What sits on a section in service, and what it must run true to.

use super::{End, Size, Text};
use crate::finding::Place;

/// Something that sits on a section in service.
#[derive(Debug, Clone)]
pub struct Carried {
    /// What it is.
    pub part: Text,
    /// Its bore (or the thread it runs on, when none).
    pub bore: Option<Size>,
    /// Its outside diameter, where it sits in a bore.
    pub outside: Option<Size>,
    /// Its width.
    pub wide: Option<Size>,
    /// Its corner radius or chamfer.
    pub corner: Option<Size>,
    /// Largest diameter of the shoulder it may meet.
    pub land: Option<Size>,
    /// Which end it is put on from.
    pub enters: Option<End>,
    /// Whole entry.
    pub place: Place,
}

/// Runout to another feature.
#[derive(Debug, Clone)]
pub struct TrueTo {
    /// The other feature.
    pub feature: usize,
    /// Total indicator reading.
    pub within: Size,
}
