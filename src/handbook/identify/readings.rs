//! What was read off a worn thread.

use crate::handbook::thread::Hand;
use crate::unit::Length;

/// What the thread looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FormGuess {
    /// Pointed, of any flank angle from 47 to 60°.
    Vee,
    /// Flat crests with leaning flanks, 29° or 30°.
    Acme,
    /// Flanks square to the axis.
    Square,
    /// One steep flank and one at 45°.
    Buttress,
}

/// One reading of the pitch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pitched {
    /// So long from crest to crest over so many pitches.
    Span(Length, u32),
    /// This leaf of a pitch gauge seems to fit.
    Leaf(Length),
}

impl Pitched {
    /// The pitch it comes to, in mm.
    pub fn mm(self) -> f64 {
        match self {
            Self::Span(long, over) => long.mm() / f64::from(over.max(1)),
            Self::Leaf(pitch) => pitch.mm(),
        }
    }
}

/// Everything read off one thread; what was not read is `None` or empty.
#[derive(Debug, Clone, PartialEq)]
pub struct ThreadReadings {
    /// Over the crests of the external thread.
    pub major: Option<Length>,
    /// Bore of the internal thread: it wears large.
    pub minor: Option<Length>,
    /// Readings of the pitch.
    pub pitch: Vec<Pitched>,
    /// Advance of one groove in one turn.
    pub lead: Option<Length>,
    /// Threads that begin at the end of the screw.
    pub starts: Option<u8>,
    /// Angle between the flanks, degrees.
    pub angle: Option<f64>,
    /// Hand; it tells no series from another.
    pub hand: Hand,
    /// Whether the crests lie on a taper.
    pub taper: Option<bool>,
    /// What it looks like.
    pub form: Option<FormGuess>,
    /// Standard deviation of a reading of diameter.
    pub diameter_error: Length,
    /// Standard deviation of a length from crest to crest.
    pub span_error: Length,
    /// Standard deviation of the angle, degrees.
    pub angle_error: f64,
    /// Mean wear of a diameter; `None` takes [`super::likelihood::usual_wear`] for its pitch.
    pub wear: Option<Length>,
}

impl Default for ThreadReadings {
    /// Nothing read; a caliper's .001 in (0.02 mm) as one standard deviation, .003 in (0.08 mm) from crest to crest, 2° by a leaf
    /// held against the light (common practice, no source).
    fn default() -> Self {
        Self {
            major: None,
            minor: None,
            pitch: Vec::new(),
            lead: None,
            starts: None,
            angle: None,
            hand: Hand::Right,
            taper: None,
            form: None,
            diameter_error: Length::micrometres(20),
            span_error: Length::micrometres(80),
            angle_error: 2.0,
            wear: None,
        }
    }
}

impl ThreadReadings {
    /// Starts as counted, or as lead and pitch tell; 1 where neither is known.
    pub fn starts_told(&self) -> u8 {
        self.starts.unwrap_or_else(|| match (self.lead, self.pitch.first()) {
            (Some(lead), Some(pitch)) if pitch.mm() > 0.0 => (lead.mm() / pitch.mm()).round().clamp(1.0, 12.0) as u8,
            _ => 1,
        })
    }
}
