//! The pictures, as SVG, for every output: the part, each mounting, the bar with its lines, the keyseat's section.
//!
//! Pictures are drawn in millimetres of paper from millimetres of the part, in floating point; no number that is printed is
//! worked here. Grey is not used; what is cut is told by weight, what is still bar by hatching.

pub mod axis;
pub mod body;
pub mod canvas;
pub mod chart;
pub mod crown;
pub mod detail;
pub mod flats;
pub mod holding;
pub mod keyseat;
mod knurl;
pub mod labels;
pub mod marks;
pub mod outline;
pub mod part;
pub mod setup;
pub mod spread;
pub mod strip;

pub use canvas::{Area, Canvas};
pub use chart::{ChartRow, ChartRows, charts};
pub use crown::{CrownEnd, crown};
pub use flats::{FlatsSection, flats};
pub use keyseat::{KeyseatSection, keyseat};
pub use marks::{MarkLine, marks};
pub use outline::{OnIt, OnShape, Outline, Stretch, Surface};
pub use part::{Reading, details, part, part_flagged, part_low};
pub use setup::{Focus, Gripper, Held, Scene};

/// A picture with its text alternative.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// SVG element.
    pub svg: String,
    /// What it shows, in words.
    pub alt: String,
    /// Width in millimetres of paper.
    pub width: f64,
    /// Height.
    pub height: f64,
    /// What its words and letters cover, to prove that none covers another.
    pub words: Vec<(String, Area)>,
}

impl Picture {
    pub(crate) fn of(canvas: &Canvas, id: &str, alt: String) -> Self {
        Self {
            svg: canvas.svg(id),
            alt,
            width: canvas.width(),
            height: canvas.height(),
            words: canvas.words().to_vec(),
        }
    }
}
