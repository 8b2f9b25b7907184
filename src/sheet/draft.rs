//! A sheet before it is broken into pages.

use super::draw::Scene;
use super::view::{Block, Head, Paper, Step};

/// Everything the sheet says, in order.
#[derive(Debug, Clone, PartialEq)]
pub struct Draft {
    /// Title of the document.
    pub title: String,
    /// Unit of all numbers: `in` or `mm`.
    pub units: &'static str,
    /// Sign before the decimals.
    pub decimal: &'static str,
    /// Paper.
    pub paper: Paper,
    /// Hash of the description.
    pub hash: String,
    /// Why it must not be cut; empty when it may.
    pub do_not_cut: String,
    /// Part, for the running foot.
    pub part: String,
    /// Drawing and revision, for the running foot.
    pub drawing: String,
    /// Sections, each beginning a page.
    pub sections: Vec<Section>,
}

/// What begins a page of its own: the cover, a setup, the marks …
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// Anchor of its first page.
    pub id: String,
    /// Name in the list of bookmarks.
    pub bookmark: String,
    /// Head of its first page.
    pub head: Head,
    /// Head of those that follow.
    pub again: Head,
    /// What stands first on its first page.
    pub opening: Vec<Block>,
    /// What stands first on those that follow.
    pub reopening: Vec<Block>,
    /// Its contents.
    pub items: Vec<Item>,
    /// Whether it may begin on a page that something else has begun.
    pub joins: bool,
    /// A mounting: its picture is drawn anew for each page, into the first picture of the opening.
    pub scene: Option<Scene>,
}

/// Something that goes onto a page.
#[derive(Debug, Clone, PartialEq)]
#[expect(clippy::large_enum_variant, reason = "a sheet has a few dozen")]
pub enum Item {
    /// A block; lists are split between rows where they do not fit.
    Block(Block),
    /// An operation with what must stay on its page.
    Step {
        /// The operation.
        step: Step,
        /// Heads of the columns, if its row has columns.
        columns: Option<super::view::Columns>,
    },
    /// What follows begins a new page.
    NewPage,
}
