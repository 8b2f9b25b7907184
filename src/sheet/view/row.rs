//! An operation on the sheet.

use serde::Serialize;

use super::{Block, Mm, Rich};
use crate::sheet::draw::Focus;

/// Heads of the columns of a table of operations.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Columns {
    /// Their heads stand higher up on the same page already.
    pub again: bool,
    /// Over tick box, number, letter and verb.
    pub operation: String,
    /// Over the size to aim at.
    pub measure: String,
    /// Under it.
    pub measure_sub: String,
    /// Over the lengths of this mounting.
    pub length: String,
    /// Under it: the face they count from.
    pub length_sub: String,
    /// Frame of the lengths: the carriage dial, or none where there is no dial.
    pub length_frame: Frame,
    /// Over the cross dial; empty when the shop file does not say what it reads.
    pub cross: String,
    /// Under it: `RADIUS` or `DIAMETER`.
    pub cross_sub: String,
    /// Over the blanks.
    pub measured: String,
}

/// What the frame around a number says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Frame {
    /// None: measure it.
    None,
    /// Square: set the carriage dial to it.
    Carriage,
    /// Round: turn the cross or compound dial to it.
    Dial,
    /// Foot and upright: set the height gauge to it.
    Gauge,
}

/// The size to aim at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Aim {
    /// The size, padded with figure spaces so that the points of a column stand over each other.
    pub size: String,
    /// Upper limit, or empty.
    pub upper: String,
    /// Lower limit, or empty.
    pub lower: String,
}

/// One or more numbers in frames, with a line under them.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
pub struct Cell {
    /// The numbers, padded as in [`Aim`].
    pub readings: Vec<String>,
    /// What stands under them, a line each: `1 turn + .073`, `LEFT edge`, `datum 3.670`.
    pub under: Vec<String>,
}

/// How the first line of a row is laid out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(tag = "shape", rename_all = "snake_case")]
pub enum Shape {
    /// In the columns of the table.
    Columns {
        /// Size to aim at.
        aim: Option<Aim>,
        /// Under it, a line each: `3 passes of .058`.
        under_aim: Vec<String>,
        /// Lengths in the frame of this mounting.
        length: Cell,
        /// Cross dial.
        cross: Cell,
        /// Whether there is a blank to write the size in.
        blank: bool,
    },
    /// One text across the columns.
    Wide {
        /// The text behind the verb.
        text: Rich,
    },
}

/// One operation: never split over two pages.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OperationRow {
    /// 10, 20, 30 …
    pub number: String,
    /// Letter of the feature, or empty.
    pub letter: String,
    /// The verb, with a capital.
    pub verb: String,
    /// What stands behind the verb: `seat`, `with B`.
    pub what: String,
    /// Small lines under the verb: speed, tool.
    pub second: Vec<Rich>,
    /// The first line.
    #[serde(flatten)]
    pub shape: Shape,
    /// Lines below it: cuts, thread block, keyseat block.
    pub detail: Vec<Line>,
    /// How many of the last lines of `detail` each finding takes, in their order.
    #[serde(skip)]
    pub told: Vec<usize>,
    /// Whether it is done already.
    pub done: bool,
    /// Height of its first line.
    pub top: Mm,
    /// Height of all of it.
    pub height: Mm,
}

/// A line of a thread, keyseat or three-cuts block, or of the correction box.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Line {
    /// What it is about.
    pub label: Rich,
    /// Width kept for the label.
    pub label_width: Mm,
    /// Numbers, words and blanks from left to right.
    pub pieces: Vec<Piece>,
    /// What follows from the first blank, for a screen that can work it; the pieces say the same in words.
    pub works: Works,
    /// The number it is worked with.
    pub value: String,
    /// Unit of that number: `in`, `mm`; empty where it is the part's.
    pub units: &'static str,
    /// Its height.
    pub height: Mm,
}

/// What the further blanks of a line hold once the first is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Works {
    /// Nothing follows.
    #[default]
    Nothing,
    /// Given − measured.
    GivenMinusMeasured,
    /// Given − measured, and the last blank half of it.
    GivenMinusMeasuredHalf,
    /// Measured − given, and the last blank the same.
    MeasuredMinusGiven,
    /// Measured − given, and the last blank half of it.
    MeasuredMinusGivenHalf,
}

/// A number, word or blank in a line.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Piece {
    /// What it is.
    pub kind: PieceKind,
    /// Its text; empty for a blank.
    pub text: String,
    /// Its width; zero for as wide as its text.
    pub width: Mm,
}

/// Kinds of pieces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum PieceKind {
    /// Body text.
    Plain,
    /// A size or word that counts, 14 pt bold.
    Strong,
    /// A number on the cross dial or compound.
    Dial,
    /// A number on the carriage dial.
    Carriage,
    /// A box to write in.
    Blank,
    /// A box to write in that is no part of what its line works out.
    OwnBlank,
    /// A box to write in and then turn the cross dial to.
    DialBlank,
    /// A box to write in and then turn the carriage dial to.
    CarriageBlank,
}

/// An operation with what must stay on its page.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Lines before it: a STOP.
    pub before: Vec<Block>,
    /// The operation.
    pub row: OperationRow,
    /// Lines after it: what to mind, a STOP.
    pub after: Vec<Block>,
    /// What it cuts, for the picture of its page.
    pub focus: Focus,
    /// Whether it is set in the small type of the short sheet.
    pub small: bool,
}

/// A line to sign on.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SignRow {
    /// `Made by`.
    pub who: String,
    /// `date`.
    pub date: String,
}
