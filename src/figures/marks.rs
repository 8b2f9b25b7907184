//! Lines to scribe: warnings, never sizes.

use super::Figure;

/// Which side of the line is cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Leave {
    /// The cut stops short of it.
    Line,
    /// The cut takes half of it.
    Split,
}

impl Leave {
    /// As the sheet says it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Line => "leave line",
            Self::Split => "split line",
        }
    }
}

/// One line around the bar.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// `M1`, counted through both lists from the datum end.
    pub label: String,
    /// From the datum face.
    pub from_datum: Figure,
    /// Setting of the height gauge.
    pub height_gauge: Figure,
    /// Diameter it is scribed on.
    pub on_diameter: Figure,
    /// Surface: `bar, collar D`, `C at .904`.
    pub on: String,
    /// Section it is scribed on.
    pub feature: Option<usize>,
    /// Number of the operation after which it is scribed; 0 before any.
    pub after: u32,
    /// What it means: `seat C starts`.
    pub means: String,
    /// Which side is cut.
    pub leave: Leave,
}

/// Lines scribed in one go.
#[derive(Debug, Clone, PartialEq)]
pub struct MarkList {
    /// `blank`, `after roughing`.
    pub name: String,
    /// When: `after setup 2`.
    pub when: String,
    /// What the bar stands on.
    pub standing_on: String,
    /// From the datum end outward.
    pub marks: Vec<Mark>,
}

/// All lists, with what is to be said about them.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Marks {
    /// Lists in the order they are scribed.
    pub lists: Vec<MarkList>,
    /// Sentences: what a line is for, what gets none and why.
    pub notes: Vec<String>,
}
