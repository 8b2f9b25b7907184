//! What a finding is: facts and words, with places in the text; drawing it is the command line's work.
//!
//! ```
//! let source = turnwright::finding::Source::new("pin.yaml", "part: pin\nunits: in\n");
//! assert_eq!(source.line_column(10), (2, 1));
//! ```

mod place;
mod source;

pub use place::{FileId, Place};
pub use source::Source;

use crate::unit::Length;

/// How much a finding weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Good to know.
    Note,
    /// Think before you cut.
    Warning,
    /// Do not cut.
    Error,
}

impl Severity {
    /// `error`, `warning` or `note`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Error => "error",
            Self::Warning => "warning",
            Self::Note => "note",
        }
    }
}

/// One of the numbers a finding compares; shown and written to JSON in the description's unit.
#[derive(Debug, Clone, PartialEq)]
pub enum Compared {
    /// A length.
    Length(Length),
    /// A pure number, an angle in degrees, seconds, rpm: what it is stands in its name.
    Number(f64),
    /// A word.
    Text(String),
}

/// A replacement that mends the description.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edit {
    /// What is replaced.
    pub place: Place,
    /// By what.
    pub text: String,
}

/// One thing that somebody should know before cutting.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// Id of the check, as in `explain ID`.
    pub check: &'static str,
    /// Weight.
    pub severity: Severity,
    /// What is wrong, with both numbers, in one sentence without a full stop.
    pub message: String,
    /// Where it is; none when nothing in a file can be pointed at.
    pub place: Option<Place>,
    /// Other places that belong to it, each with a few words.
    pub others: Vec<(Place, String)>,
    /// Letters of the features it is about.
    pub features: Vec<String>,
    /// The numbers compared, each with its name (`snake_case`).
    pub compared: Vec<(&'static str, Compared)>,
    /// What to do, each an imperative sentence.
    pub help: Vec<String>,
    /// The one obvious remedy, if there is one.
    pub edit: Option<Edit>,
    /// Where the limit comes from.
    pub source: String,
    /// Limits of the checks that decided it: the name of one of its own check, or `check/name`.
    pub by_limits: Vec<&'static str>,
    /// What each of those limits is, and how a shop file changes it: printed as assumed.
    pub assumed: Vec<String>,
    /// For a contradiction: the places of just the stated dimensions that cannot hold together.
    pub chain_loop: Vec<Place>,
    /// The reason, if the description accepts it.
    pub accepted: Option<String>,
}

impl Finding {
    /// A finding with its message; the rest is added by the methods below.
    pub fn new(check: &'static str, severity: Severity, message: impl Into<String>) -> Self {
        Self {
            check,
            severity,
            message: message.into(),
            place: None,
            others: Vec::new(),
            features: Vec::new(),
            compared: Vec::new(),
            help: Vec::new(),
            edit: None,
            source: String::new(),
            by_limits: Vec::new(),
            assumed: Vec::new(),
            chain_loop: Vec::new(),
            accepted: None,
        }
    }

    /// Where it is.
    #[must_use]
    pub fn at(mut self, place: Place) -> Self {
        self.place = Some(place);
        self
    }

    /// A further place.
    #[must_use]
    pub fn also(mut self, place: Place, label: impl Into<String>) -> Self {
        self.others.push((place, label.into()));
        self
    }

    /// A feature it is about.
    #[must_use]
    pub fn of(mut self, letter: impl Into<String>) -> Self {
        self.features.push(letter.into());
        self
    }

    /// A length it compares.
    #[must_use]
    pub fn length(mut self, name: &'static str, value: Length) -> Self {
        self.compared.push((name, Compared::Length(value)));
        self
    }

    /// A number it compares.
    #[must_use]
    pub fn number(mut self, name: &'static str, value: f64) -> Self {
        self.compared.push((name, Compared::Number(value)));
        self
    }

    /// What to do.
    #[must_use]
    pub fn help(mut self, sentence: impl Into<String>) -> Self {
        self.help.push(sentence.into());
        self
    }

    /// The text that mends it.
    #[must_use]
    pub fn mend(mut self, place: Place, text: impl Into<String>) -> Self {
        self.edit = Some(Edit { place, text: text.into() });
        self
    }

    /// Where the limit comes from.
    #[must_use]
    pub fn source(mut self, source: impl Into<String>) -> Self {
        self.source = source.into();
        self
    }

    /// A limit that decided it: its name in the table of limits, or `check/name` for another check's.
    #[must_use]
    pub fn by_limit(mut self, name: &'static str) -> Self {
        self.by_limits.push(name);
        self
    }

    /// An error that nobody accepted.
    pub fn is_open_error(&self) -> bool {
        self.severity == Severity::Error && self.accepted.is_none()
    }
}
