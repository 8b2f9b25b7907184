//! The whole sheet as data: what every output shows, already rounded, worded, drawn and broken into pages.

mod block;
mod row;
mod text;

pub use block::{
    Block, Body, CellKind, InspectionList, InspectionRow, LegendRow, LogoBox, MarkRow, NoteKind, Pair, SetupLine,
    TableCell, TableRow, TickItem, TickList, Zero,
};
pub use row::{Aim, Cell, Columns, Frame, Line, OperationRow, Piece, PieceKind, Shape, SignRow, Step, Works};
pub use text::{Mm, Rich, Run, Style};

use serde::Serialize;

use super::layout::{CARD_HEIGHT, EDGES, HEIGHT};

/// A sheet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct View {
    /// Language of the words (`en`).
    pub lang: String,
    /// Unit of all numbers: `in` or `mm`.
    pub units: &'static str,
    /// Sign before the decimals of all numbers: `.` or `,`. The texts here have a point; [`shown`](super::decimal::shown) sets it.
    pub decimal: &'static str,
    /// Title of the document: part, drawing, revision.
    pub title: String,
    /// Paper it is laid out on.
    pub paper: Paper,
    /// Height of the body of a page.
    pub body: Mm,
    /// Margin over it, and under the running foot.
    pub edge: Mm,
    /// Hash of the description, in two groups of four digits.
    pub hash: String,
    /// Why it must not be cut, printed on every page; empty when it may.
    pub do_not_cut: String,
    /// Every page in order.
    pub pages: Vec<Page>,
}

/// A paper size. The pages use what Letter and A4 share, 210 × 279 mm, at the top left.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Paper {
    /// `letter` or `a4`.
    pub name: &'static str,
    /// Width.
    pub width: Mm,
    /// Height.
    pub height: Mm,
}

impl Paper {
    /// 8 1/2 × 11 inches.
    pub const LETTER: Self = Self { name: "letter", width: Mm(215.9), height: Mm(279.4) };
    /// 210 × 297 mm (ISO 216).
    pub const A4: Self = Self { name: "a4", width: Mm(210.0), height: Mm(297.0) };

    /// Half of it, lying: 8 1/2 × 5 1/2 inches, or A5.
    #[must_use]
    pub const fn half(self) -> Self {
        let name = if self.height.0 > 290.0 { "a5" } else { "half letter" };
        Self { name, width: self.width, height: Mm(if self.height.0 > 290.0 { 148.0 } else { 139.7 }) }
    }

    /// Height of the body of a page.
    pub const fn body(self) -> f64 {
        if self.is_card() { CARD_HEIGHT } else { HEIGHT }
    }

    /// Margin over the body, and under the running foot.
    pub const fn edge(self) -> f64 {
        if self.is_card() { EDGES[1] } else { EDGES[0] }
    }

    const fn is_card(self) -> bool {
        self.height.0 < 200.0
    }
}

/// One side of paper.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Page {
    /// From 1.
    pub number: usize,
    /// How many there are.
    pub of: usize,
    /// Anchor (`cover`, `setup-3`, `setup-3-2` …).
    pub id: String,
    /// Name in the list of bookmarks.
    pub bookmark: String,
    /// Whether it carries on with what the page before began.
    pub continued: bool,
    /// What stands at its top.
    pub head: Head,
    /// Its contents from top to bottom, each with its height.
    pub blocks: Vec<Block>,
    /// What stands above the running foot when the mounting goes on overleaf; empty otherwise.
    pub go_on: Rich,
    /// The running foot.
    pub foot: Foot,
}

/// The top of a page.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Head {
    /// The cover has its own.
    None,
    /// A page title.
    Title {
        /// Title.
        title: String,
        /// A sentence under it, or empty.
        text: Rich,
        /// Which way the datum end looks, if it matters here.
        datum: Option<DatumBox>,
        /// Height of all of it.
        height: Mm,
    },
    /// A setup.
    Setup {
        /// The word over the number.
        word: String,
        /// Number of the setup.
        number: String,
        /// What is made in it.
        title: String,
        /// How the work is held, as far as it has room beside the number.
        lines: Vec<Rich>,
        /// Which way the datum end looks.
        datum: Option<DatumBox>,
        /// On a page that carries on: a lower box for the number.
        low: bool,
        /// Height of all of it.
        height: Mm,
    },
}

impl Head {
    /// Its height in millimetres.
    pub const fn height(&self) -> f64 {
        match self {
            Self::None => 0.0,
            Self::Title { height, .. } | Self::Setup { height, .. } => height.0,
        }
    }
}

/// The box that says where the datum end is.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct DatumBox {
    /// `DATUM END`.
    pub what: String,
    /// `at TAILSTOCK`, `DOWN on the plate`.
    pub place: String,
}

/// The running foot.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Foot {
    /// Part.
    pub part: String,
    /// Drawing and revision.
    pub drawing: String,
    /// Hash of the description.
    pub description: String,
    /// `3 / 9`.
    pub page: String,
}
