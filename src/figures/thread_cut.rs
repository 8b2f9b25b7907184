//! The thread block: infeed, wires, thread dial, gearbox, time in the relief.

use super::{DialReading, Figure, SizeLimits};

/// Compound set over.
#[derive(Debug, Clone, PartialEq)]
pub struct Compound {
    /// Degrees from square to the axis.
    pub angle_deg: f64,
    /// `29½°`.
    pub angle: String,
    /// Whole travel along the compound, exact; shown to what its dial shows.
    pub travel: Figure,
    /// The same on its dial, where the shop file has one.
    pub dial: Option<DialReading>,
}

/// Three wires.
#[derive(Debug, Clone, PartialEq)]
pub struct Wires {
    /// Wire to use: the shop's nearest to the best one, else the best.
    pub wire: Figure,
    /// Whether the shop lists it.
    pub at_hand: bool,
    /// Best wire by the form.
    pub best: Figure,
    /// Reading over the wires.
    pub over: SizeLimits,
}

/// Where the half-nuts may be closed again.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Engage {
    /// At every thread of the leadscrew.
    pub anywhere: bool,
    /// Lines, counted 1 to the number of marks around the dial; empty when the half-nuts stay closed.
    pub lines: Vec<u32>,
    /// What is engraved at those lines.
    pub labels: Vec<String>,
    /// The half-nuts are never opened: reverse the lathe.
    pub never_open: bool,
    /// In words: `anywhere`, `any mark`, `marks 1 2 3 4`, `never open the half-nuts: …`.
    pub says: String,
}

/// Whether the gearbox or the wheels give the lead.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Gearbox {
    /// The gearbox has it; how it is set (`18 tpi`, `1.5 mm`).
    Listed(String),
    /// Change gears give it, driver over driven from the spindle on.
    Wheels(String),
    /// Neither the gearbox nor the wheels give it; what is wanted.
    NotListed(String),
    /// The shop file lists neither; what is wanted.
    Unknown(String),
}

/// How further starts are found.
#[derive(Debug, Clone, PartialEq)]
pub struct Indexing {
    /// Starts.
    pub starts: u8,
    /// Axial distance from one start to the next.
    pub shift: Figure,
    /// The same on the compound's dial, set parallel to the axis.
    pub dial: Option<DialReading>,
    /// What to do.
    pub says: String,
}

/// Everything for cutting a thread.
#[derive(Debug, Clone, PartialEq)]
pub struct ThreadCut {
    /// Designation.
    pub designation: String,
    /// Right hand.
    pub right_hand: bool,
    /// Diameter of the blank, limits as the thread's major diameter.
    pub blank: SizeLimits,
    /// Depth a side to the standard's root, straight in.
    pub depth: Figure,
    /// Which height that is: `.6134 P`, `total height`.
    pub depth_is: String,
    /// Straight in on the cross dial, where the shop file says what it reads.
    pub straight: Option<DialReading>,
    /// Compound set over; none where the thread is cut straight in.
    pub compound: Option<Compound>,
    /// Why straight in, or why this angle.
    pub infeed_why: String,
    /// Cumulative travel of each cut, on the compound or straight in, exact; shown to what the dial shows. Spring passes left out.
    pub passes: Vec<Figure>,
    /// Spring passes after the last.
    pub spring_passes: u32,
    /// Flat of the tool.
    pub tool_flat: Option<Figure>,
    /// Wires and readings, where the form is measured so.
    pub wires: Option<Wires>,
    /// Thread dial; none where the shop file does not tell of one.
    pub dial: Option<Engage>,
    /// Gearbox.
    pub gearbox: Gearbox,
    /// Seconds the tool is in the relief or run-out at the gear; none where it runs off the end.
    pub relief_time: Option<f64>,
    /// The relief or run-out it has.
    pub relief: Option<Figure>,
    /// Section that is the relief.
    pub relief_feature: Option<usize>,
    /// Lead angle at the pitch diameter, degrees: the tool's side clearance must exceed it.
    pub lead_angle_deg: f64,
    /// Which way the carriage goes and where the cut begins.
    pub direction: String,
    /// More than one start.
    pub indexing: Option<Indexing>,
}
