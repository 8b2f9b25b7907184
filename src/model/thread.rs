//! An external thread as plain numbers.

use super::{Size, Text};
use crate::finding::Place;
use crate::unit::{Length, Limits};

/// Right or left hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hand {
    /// Right.
    Right,
    /// Left.
    Left,
}

/// The form of a thread, as far as later stages need it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ThreadForm {
    /// 60 degrees (Unified, ISO metric).
    V60,
    /// 55 degrees (Whitworth, pipe).
    V55,
    /// Acme, 29 degrees.
    Acme,
    /// Trapezoidal, 30 degrees.
    Trapezoidal,
    /// Square.
    Square,
    /// Buttress.
    Buttress,
}

/// What a taper pipe thread has besides. Its diameters are those at the small end, which looks outward.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PipeTaper {
    /// Taper on the diameter: 1 in so many.
    pub one_in: u32,
    /// From the small end to the gauge plane, hand-tight.
    pub gauge_length: Length,
    /// By how much the gauge plane may lie nearer or farther: one turn.
    pub gauge_tolerance: Length,
    /// Length of useful thread.
    pub useful_length: Length,
    /// Pitch diameter at the gauge plane.
    pub gauge_plane: Length,
}

impl PipeTaper {
    /// How much larger it is on the diameter after some length.
    pub fn rise(&self, long: Length) -> Length {
        long.times_ratio(1, i64::from(self.one_in))
    }
}

/// An external thread with the limits its standard gives. Lengths that the standard works from 1/pitch are held to a picometre.
#[derive(Debug, Clone)]
pub struct Thread {
    /// Designation as the standard writes it; `handbook::thread` reads it again for details.
    pub designation: String,
    /// Where it is written.
    pub place: Place,
    /// Form.
    pub form: ThreadForm,
    /// Inch series (for what a metric or inch leadscrew can cut).
    pub inch: bool,
    /// Threads per inch as a fraction, where it is an inch thread.
    pub tpi: Option<(i64, i64)>,
    /// Pitch.
    pub pitch: Length,
    /// Lead: pitch times starts.
    pub lead: Length,
    /// Starts.
    pub starts: u8,
    /// Hand.
    pub hand: Hand,
    /// Nominal diameter.
    pub nominal: Length,
    /// Major diameter.
    pub major: Limits,
    /// Pitch diameter.
    pub pitch_diameter: Limits,
    /// Largest minor diameter, as the table gives it.
    pub minor_max: Length,
    /// Smallest root: what a relief must lie below (60 degrees: PD min − 0.64952 P; Acme, Tr: minor min).
    pub root: Length,
    /// Depth a side for straight infeed to the standard's root, by the height the handbook says.
    pub depth: Length,
    /// Whether the diameter and pitch stand in a series of the standard.
    pub standard: bool,
    /// If not: the nearest that do.
    pub nearest: Vec<String>,
    /// A taper pipe thread.
    pub taper: Option<PipeTaper>,
    /// `full:` length of full thread.
    pub full: Option<Size>,
    /// `run-out:` length.
    pub run_out: Option<Size>,
    /// `blank:` diameter to turn before threading.
    pub blank: Option<Size>,
    /// `rotation:` of the part in service, as written.
    pub rotation: Option<Text>,
}
