//! What stands on a page, from top to bottom.

use serde::Serialize;

use super::{Columns, Frame, Head, Line, Mm, OperationRow, Rich, SignRow};

/// A block of a page with its height: every output gives it just that much room.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Block {
    /// Its height.
    pub height: Mm,
    /// Whether it is set in the small type of the short sheet.
    pub small: bool,
    /// Its contents.
    #[serde(flatten)]
    pub body: Body,
}

/// Kinds of blocks.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Body {
    /// Name, drawing and bar on the cover.
    Cover {
        /// Company of the shop file, or empty.
        company: String,
        /// Its logo, if the shop file names one that can be shown.
        logo: Option<LogoBox>,
        /// The name of the part, broken into lines.
        name: Vec<String>,
        /// Sentences under it.
        lines: Vec<Rich>,
        /// Material, bar, saw length …
        facts: Vec<Pair>,
    },
    /// Name, drawing, picture and bar at the top of the short sheet.
    Brief {
        /// The name of the part, broken into lines.
        name: Vec<String>,
        /// Drawing, unit, datum.
        text: Rich,
        /// Material, bar, saw length …, beside the picture.
        facts: Vec<Pair>,
        /// Width of the picture.
        width: Mm,
        /// SVG, or empty.
        svg: String,
        /// What it shows, in words.
        alt: String,
    },
    /// A picture.
    Picture {
        /// Width.
        width: Mm,
        /// SVG, without references to anything outside.
        svg: String,
        /// What it shows, in words.
        alt: String,
    },
    /// What each letter of the picture is, in two columns.
    Legend {
        /// Left, right.
        columns: Vec<Vec<LegendRow>>,
    },
    /// The setups in one sentence each.
    Setups {
        /// Over the list.
        heading: String,
        /// One a setup.
        rows: Vec<SetupLine>,
    },
    /// A framed text.
    Boxed {
        /// Its heading.
        heading: String,
        /// Its paragraphs with the height each takes.
        paragraphs: Vec<(Rich, Mm)>,
    },
    /// Lists to tick off, side by side.
    Ticks {
        /// Left, right.
        columns: Vec<TickList>,
    },
    /// What was assumed.
    Assumed {
        /// Its heading.
        heading: String,
        /// What and how much.
        rows: Vec<Pair>,
    },
    /// A heading with a list of sentences.
    List {
        /// Its heading, or empty.
        heading: String,
        /// Sentences with the height each takes.
        items: Vec<(Rich, Mm)>,
    },
    /// A paragraph.
    Text {
        /// Its text.
        text: Rich,
    },
    /// A paragraph in the smallest type, 9 pt: the short sheet's cautions and assumptions.
    Fine {
        /// Its text.
        text: Rich,
    },
    /// What would have begun a page of its own begins on this one: a short mounting behind another.
    Begin {
        /// Its anchor (`setup-2`).
        id: String,
        /// Name in the list of bookmarks.
        bookmark: String,
        /// Its head, under a rule.
        head: Head,
    },
    /// A heading inside a page.
    Heading {
        /// Its text.
        text: String,
        /// What stands behind it in the same line, or empty.
        beside: Rich,
    },
    /// What the dials read and how their zeros are set.
    Zeros {
        /// One a dial.
        dials: Vec<Zero>,
    },
    /// The correction for the measured overall, made once, at the zero.
    Correction {
        /// `Overall measured ___ 7.000 − measured = ___`.
        line: Line,
        /// What to do with it.
        text: Rich,
    },
    /// STOP, with what to do before going on.
    Stop {
        /// `STOP`.
        word: String,
        /// What to do.
        text: Rich,
    },
    /// Operations of a setup.
    Operations {
        /// Heads of the columns; none when every row runs across them.
        columns: Option<Columns>,
        /// The operations.
        rows: Vec<OperationRow>,
    },
    /// Lines to scribe, beside the bar standing on its datum end.
    Marks {
        /// Number and name of the list.
        heading: String,
        /// Width of the picture.
        width: Mm,
        /// SVG.
        svg: String,
        /// What it shows, in words.
        alt: String,
        /// Heads: mark, height gauge, scribe on, means.
        head: Vec<String>,
        /// Highest first.
        rows: Vec<MarkRow>,
        /// A paragraph under the list, or empty.
        note: Rich,
    },
    /// Sizes to inspect, in two columns.
    Inspection {
        /// Left, right.
        columns: Vec<InspectionList>,
    },
    /// A ruled table, with blanks to write in.
    Table {
        /// Heads of the columns.
        heads: Vec<String>,
        /// Widths of the columns.
        widths: Vec<Mm>,
        /// From top to bottom.
        rows: Vec<TableRow>,
    },
    /// Names and dates.
    SignOff {
        /// One a person.
        rows: Vec<SignRow>,
    },
    /// Lines to write on.
    Lines {
        /// Over them.
        heading: String,
        /// How many.
        count: usize,
    },
    /// A piece of the description's notes.
    Note {
        /// What it is.
        note: NoteKind,
        /// List indent or heading level, from 1; 0 for a paragraph.
        level: u8,
        /// `•`, `3.` or empty.
        marker: String,
        /// Its text; line breaks are kept.
        lines: Vec<Rich>,
    },
}

/// A word and what it stands for.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Pair {
    /// The word.
    pub key: String,
    /// What it stands for.
    pub value: Rich,
    /// Height of the row.
    pub height: Mm,
}

/// A logo on the cover.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LogoBox {
    /// `png` or `svg`.
    pub kind: &'static str,
    /// Width.
    pub width: Mm,
    /// Height.
    pub height: Mm,
    /// Text alternative.
    pub alt: String,
    /// The file as a `data:` address.
    pub data: String,
    /// The file.
    #[serde(skip)]
    pub bytes: Vec<u8>,
}

/// One letter of the part picture.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LegendRow {
    /// Letter, or empty.
    pub letter: String,
    /// Size with its limits.
    pub size: String,
    /// What it is.
    pub what: String,
    /// Height of the row.
    pub height: Mm,
}

/// A setup in one sentence.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SetupLine {
    /// Number.
    pub number: String,
    /// Sentence.
    pub text: Rich,
    /// `page 3`.
    pub page: String,
    /// Anchor of that page.
    pub id: String,
    /// Height of the row.
    pub height: Mm,
}

/// A list to tick off.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TickList {
    /// Its heading.
    pub heading: String,
    /// What to tick.
    pub items: Vec<TickItem>,
}

/// Something to lay out.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TickItem {
    /// What it is.
    pub text: Rich,
    /// Height of the row.
    pub height: Mm,
}

/// A dial and its zero.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Zero {
    /// `CARRIAGE`, `CROSS`, `COMPOUND`.
    pub name: String,
    /// Its frame.
    pub frame: Frame,
    /// Sentences, one a line.
    pub lines: Vec<Rich>,
}

/// A line to scribe.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MarkRow {
    /// `M3`.
    pub label: String,
    /// Height gauge, padded.
    pub gauge: String,
    /// Surface it is scribed on, at most two lines.
    pub on: Vec<String>,
    /// What it means.
    pub means: String,
    /// `leave line`, `split line`.
    pub leave: String,
    /// Height of the row.
    pub height: Mm,
}

/// One column of sizes to inspect.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct InspectionList {
    /// Its heading.
    pub heading: String,
    /// Heads: feature, limits, with, measured, ok.
    pub head: Vec<String>,
    /// The sizes.
    pub rows: Vec<InspectionRow>,
}

/// A size to inspect.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct InspectionRow {
    /// Letter or letters.
    pub what: String,
    /// Upper limit, padded.
    pub upper: String,
    /// Lower limit, padded.
    pub lower: String,
    /// Upper and lower limit on an instrument in the other unit, padded; empty where its list has no such column.
    pub read: Vec<String>,
    /// Instrument, at most two lines.
    pub with: Vec<String>,
    /// As measured already, or empty.
    pub measured: String,
}

/// A row of a table.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TableRow {
    /// Height.
    pub height: Mm,
    /// Whether it stays on the page of the row behind it.
    pub leads: bool,
    /// Letter in a ring before a row that runs across the columns, or empty.
    pub letter: String,
    /// Text across the columns; a row that has it has no cells.
    pub wide: Rich,
    /// One a column.
    pub cells: Vec<TableCell>,
}

/// A cell of a table.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TableCell {
    /// What it is.
    pub cell: CellKind,
    /// Its lines.
    pub lines: Vec<Rich>,
    /// What stands in a blank already, or empty.
    pub value: String,
    /// What a blank is for, in words.
    pub label: String,
}

/// Kinds of cells.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum CellKind {
    /// Lines of text.
    Text,
    /// Lines of figures.
    Figures,
    /// A blank to write in.
    Blank,
}

/// Parts of a note.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum NoteKind {
    /// A paragraph.
    Paragraph,
    /// A heading.
    Heading,
    /// An item of a list.
    Item,
    /// Literal text.
    Code,
    /// A quotation.
    Quote,
    /// A rule across.
    Rule,
}
