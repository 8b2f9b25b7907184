//! Pieces of text and paper.

use serde::{Serialize, Serializer};

/// Millimetres of paper; written with two decimals at most, so that outputs are alike everywhere.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
pub struct Mm(pub f64);

impl Serialize for Mm {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_f64((self.0 * 100.0).round() / 100.0)
    }
}

/// How a run of text is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Style {
    /// As the text around it.
    Plain,
    /// Bold.
    Strong,
    /// Grey: a number for information beside the one to use.
    Grey,
    /// Literal text of a note.
    Code,
}

/// Some text of one style.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Run {
    /// The text.
    pub text: String,
    /// Its style.
    pub style: Style,
}

/// Text in runs.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
#[serde(transparent)]
pub struct Rich(pub Vec<Run>);

impl Rich {
    /// Nothing yet.
    pub const fn new() -> Self {
        Self(Vec::new())
    }

    /// Adds text as it is.
    #[must_use]
    pub fn plain(self, text: impl Into<String>) -> Self {
        self.with(text, Style::Plain)
    }

    /// Adds bold text.
    #[must_use]
    pub fn strong(self, text: impl Into<String>) -> Self {
        self.with(text, Style::Strong)
    }

    /// Adds grey text.
    #[must_use]
    pub fn grey(self, text: impl Into<String>) -> Self {
        self.with(text, Style::Grey)
    }

    /// Adds text of a style; nothing when it is empty.
    #[must_use]
    pub fn with(mut self, text: impl Into<String>, style: Style) -> Self {
        let text = text.into();
        if !text.is_empty() {
            self.0.push(Run { text, style });
        }
        self
    }

    /// Adds other runs.
    #[must_use]
    pub fn and(mut self, other: Self) -> Self {
        self.0.extend(other.0);
        self
    }

    /// The text without its styles.
    pub fn text(&self) -> String {
        self.0.iter().map(|r| r.text.as_str()).collect()
    }

    /// Whether there is no text.
    pub fn is_empty(&self) -> bool {
        self.0.iter().all(|r| r.text.is_empty())
    }
}

impl From<&str> for Rich {
    fn from(text: &str) -> Self {
        Self::new().plain(text)
    }
}

impl From<String> for Rich {
    fn from(text: String) -> Self {
        Self::new().plain(text)
    }
}
