//! Knurls, flats, undercuts, eccentrics and finishes as plain numbers.

use super::{End, Feature, Kind, Size};
use crate::finding::Place;
use crate::unit::{Length, Limits};

/// Which way the teeth of a knurl run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum KnurlPattern {
    /// Along the axis.
    Straight,
    /// All on one spiral.
    Diagonal,
    /// Two spirals that cross, points raised.
    Diamond,
}

impl KnurlPattern {
    /// The trade's word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Straight => "straight",
            Self::Diagonal => "diagonal",
            Self::Diamond => "diamond",
        }
    }

    /// Form letters of DIN 82, for the growth of the blank.
    pub const fn din_82(self) -> &'static str {
        match self {
            Self::Straight => "RAA",
            Self::Diagonal => "RBL",
            Self::Diamond => "RGE",
        }
    }
}

/// A knurled length.
#[derive(Debug, Clone)]
pub struct Knurl {
    /// Diameter over the teeth when done.
    pub diameter: Size,
    /// Distance of the teeth around the blank.
    pub pitch: Length,
    /// The pitch as written: `0.8`, `96 DP`, `20 tpi`.
    pub pitch_text: String,
    /// Pattern.
    pub pattern: KnurlPattern,
    /// `blank:` the diameter to turn before.
    pub blank: Option<Size>,
    /// How much the knurl grows the diameter, by DIN 82.
    pub growth: Length,
    /// The blank to turn: as stated, else the one on which the teeth come out whole.
    pub turn_to: Length,
    /// Whole number of teeth on that blank.
    pub teeth: i64,
    /// Diameter expected over the teeth when that blank is knurled.
    pub expected: Length,
}

/// What the size of a flat is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FlatMeasure {
    /// From flat to opposite flat.
    Across,
    /// From the flat to the far side of the round.
    ToFarSide,
    /// Depth below the round.
    Deep,
}

/// An undercut at a shoulder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Undercut {
    /// As the standard writes it, `DIN 509 F 0.6x0.3`; empty for a plain one.
    pub designation: String,
    /// Form letter of DIN 509: E, F, G or H.
    pub form: Option<char>,
    /// Corner radius.
    pub radius: Length,
    /// Depth a side below the seat.
    pub depth: Limits,
    /// Width along the seat.
    pub width: Length,
    /// Depth in the face of the shoulder.
    pub face_depth: Option<Length>,
    /// How far up the face it goes.
    pub face_height: Option<Length>,
    /// Table, or that the description says so.
    pub source: String,
}

/// A domed end: its summit lies in the end face of the part, its edge `height` behind it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Crown {
    /// Radius or height as written.
    pub size: Size,
    /// Whether that is the height.
    pub high: bool,
    /// Radius of the dome.
    pub radius: Length,
    /// From the edge to the summit, along the axis.
    pub height: Length,
    /// Diameter at the edge.
    pub over: Length,
    /// The end.
    pub end: super::End,
    /// The section it closes.
    pub section: usize,
}

impl Crown {
    /// How far the dome lies behind its summit at a diameter. Plain geometry: R − √(R² − r²).
    pub fn behind(&self, diameter: Length) -> Length {
        let (radius, half) = (self.radius.mm(), diameter.half().mm());
        Length::from_f64(radius - (radius * radius - half * half).max(0.0).sqrt(), crate::unit::Unit::Millimetre)
    }

    /// Diameter of the dome so far behind its summit.
    pub fn across(&self, behind: Length) -> Length {
        let (radius, deep) = (self.radius.mm(), behind.mm());
        Length::from_f64(2.0 * (2.0 * radius * deep - deep * deep).max(0.0).sqrt(), crate::unit::Unit::Millimetre)
    }
}

/// `finish:` arithmetic mean roughness.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finish {
    /// As written (`32 µin`).
    pub text: String,
    /// In nanometres.
    pub ra_nm: u32,
    /// Where.
    pub place: Place,
}

impl Feature {
    /// What an eccentric sweeps about the part's axis beyond its own diameter: twice the throw. Zero of anything else.
    pub fn sweeps(&self) -> Length {
        let throw = self.offset.as_ref().filter(|_| matches!(self.kind, Kind::Eccentric { .. }));
        throw.map_or(Length::ZERO, |o| o.nominal.abs().times(2))
    }

    /// The same where the throw is as large as its limits allow.
    pub fn sweeps_most(&self) -> Length {
        let throw = self.offset.as_ref().filter(|_| matches!(self.kind, Kind::Eccentric { .. }));
        throw.map_or(Length::ZERO, |o| o.max().abs().max(o.min().abs()).times(2))
    }

    /// The throw of an eccentric that is set: the middle of its limits. None of anything else.
    pub fn throw(&self) -> Option<Length> {
        let throw = self.offset.as_ref().filter(|_| matches!(self.kind, Kind::Eccentric { .. }));
        throw.map(|o| o.aim().abs()).filter(|t| t.is_positive())
    }
}

impl super::Part {
    /// The end that the small end of a taper pipe thread looks to: the one with fewer sections between. None of anything else.
    pub fn pipe_small_end(&self, feature: usize) -> Option<End> {
        let is_pipe = |f: &Feature| matches!(&f.kind, Kind::Thread { thread, .. } if thread.taper.is_some());
        self.features.get(feature).filter(|f| is_pipe(f))?;
        let before = self.sections().take_while(|f| f.id != feature).count();
        let behind = self.sections().count() - before - 1;
        Some(if before <= behind { End::Datum } else { End::Far })
    }

    /// Limits of a taper pipe thread's major diameter at the start and the end of its section, which is so long.
    pub fn pipe_ends(&self, feature: usize, long: Length) -> Option<(Limits, Limits)> {
        let small_end = self.pipe_small_end(feature)?;
        let Kind::Thread { thread, .. } = &self.features.get(feature)?.kind else { return None };
        let rise = thread.taper?.rise(long);
        let small = thread.major;
        let large = Limits::new(small.min + rise, small.max + rise);
        Some(if small_end == End::Datum { (small, large) } else { (large, small) })
    }
}
