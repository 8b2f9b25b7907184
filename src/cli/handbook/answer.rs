//! An answer: JSON for scripts, aligned lines with their source for people.

use std::fmt::Write;

use serde_json::{Map, Value, json};

use super::args::Show;
use crate::cli::args::Format;
pub(super) use crate::cli::json::number;
use crate::handbook::Source;
use crate::unit::{Length, Limits, Unit, show};

/// One line of the text.
#[derive(Debug, Clone)]
enum Line {
    /// Label and value.
    Row(String, String),
    /// A heading or a list's line.
    Plain(String),
}

/// An answer being put together.
#[derive(Debug, Clone)]
pub(super) struct Answer {
    unit: Unit,
    title: String,
    json: Map<String, Value>,
    lines: Vec<Line>,
    sources: Vec<Source>,
    notes: Vec<String>,
    both: bool,
}

/// A number from physics as JSON, to nine significant places.
pub(super) fn physics(value: f64) -> Value {
    format!("{value:.9e}").parse::<f64>().map_or(Value::Null, |n| json!(n))
}

/// `{min, max}`.
pub(super) fn min_max(limits: Limits, unit: Unit) -> Value {
    json!({"min": number(limits.min, unit), "max": number(limits.max, unit)})
}

/// `{max, min}`, as threads are read off.
pub(super) fn max_min(limits: Limits, unit: Unit) -> Value {
    json!({"max": number(limits.max, unit), "min": number(limits.min, unit)})
}

impl Answer {
    /// An answer in `unit`, with a first line.
    pub(super) fn new(topic: &str, unit: Unit, title: impl Into<String>, shown: Show) -> Self {
        let mut json = Map::new();
        json.insert("format".into(), json!("turnwright/handbook/1"));
        json.insert("topic".into(), json!(topic));
        json.insert("units".into(), json!(unit.word()));
        Self {
            unit,
            title: title.into(),
            json,
            lines: Vec::new(),
            sources: Vec::new(),
            notes: Vec::new(),
            both: shown.both,
        }
    }

    /// A field of the JSON.
    pub(super) fn field(&mut self, name: &str, value: Value) {
        self.json.insert(name.to_owned(), value);
    }

    /// A length in the JSON; null where there is none.
    pub(super) fn length_field(&mut self, name: &str, value: Option<Length>) {
        self.field(name, value.map_or(Value::Null, |l| number(l, self.unit)));
    }

    /// A line of the text.
    pub(super) fn row(&mut self, label: &str, value: impl Into<String>) {
        self.lines.push(Line::Row(label.to_owned(), value.into()));
    }

    /// A line of the text without a label.
    pub(super) fn line(&mut self, text: impl Into<String>) {
        self.lines.push(Line::Plain(text.into()));
    }

    /// A length in the text; nothing where there is none.
    pub(super) fn length_row(&mut self, label: &str, value: impl Into<Option<Length>>) {
        if let Some(value) = value.into() {
            let text = self.length(value);
            self.row(label, text);
        }
    }

    /// Limits in the text, largest first, both with the same decimals.
    pub(super) fn limits_row(&mut self, label: &str, limits: impl Into<Option<Limits>>) {
        if let Some(l) = limits.into() {
            let own = pair(l, self.unit);
            let both = if self.both { format!("   ({})", pair(l, other(self.unit))) } else { String::new() };
            self.row(label, format!("{own}{both}"));
        }
    }

    /// A length and its unit, with the other unit when both were asked for.
    pub(super) fn length(&self, value: Length) -> String {
        let own = format!("{} {}", self.bare(value), self.unit.word());
        if self.both {
            let unit = other(self.unit);
            return format!("{own}   ({} {})", length(value, unit), unit.word());
        }
        own
    }

    /// A length with its unit, never with the other one.
    pub(super) fn length_alone(&self, value: Length) -> String {
        format!("{} {}", self.bare(value), self.unit.word())
    }

    /// Another first line.
    pub(super) fn titled(&mut self, title: impl Into<String>) {
        self.title = title.into();
    }

    /// A length in the other unit, when both were asked for.
    pub(super) fn in_other_unit(&self, value: Length) -> Option<String> {
        self.both.then(|| length(value, other(self.unit)))
    }

    /// A length without its unit.
    pub(super) fn bare(&self, value: Length) -> String {
        length(value, self.unit)
    }

    /// Names where figures come from; the same source is named once.
    pub(super) fn source(&mut self, source: Source) {
        if !self.sources.contains(&source) {
            self.sources.push(source);
        }
    }

    /// Says something that must be said with the figures.
    pub(super) fn note(&mut self, note: impl Into<String>) {
        self.notes.push(note.into());
    }

    /// The answer as asked for.
    pub(super) fn show(mut self, shown: Show) -> String {
        match shown.format {
            Format::Json => {
                let lines: Vec<Value> = self.sources.iter().map(|s| json!(s.line())).collect();
                self.json.insert("source".into(), Value::Array(lines));
                self.json.insert("confirmed".into(), json!(self.sources.iter().all(|s| s.confirmed)));
                self.json.insert("notes".into(), json!(self.notes));
                let mut text = serde_json::to_string_pretty(&Value::Object(self.json)).unwrap_or_default();
                text.push('\n');
                text
            }
            Format::Text => self.text(),
        }
    }

    fn text(&self) -> String {
        let wide = self
            .lines
            .iter()
            .filter_map(|l| if let Line::Row(label, _) = l { Some(label.chars().count()) } else { None });
        let wide = wide.max().unwrap_or(0) + 2;
        let mut text = format!("{}\n", self.title);
        for line in &self.lines {
            let _ = match line {
                Line::Row(label, value) => writeln!(text, "  {label:<wide$}{value}"),
                Line::Plain(line) => writeln!(text, "  {line}"),
            };
        }
        for note in &self.notes {
            let _ = writeln!(text, "Note: {note}");
        }
        for source in &self.sources {
            let _ = writeln!(text, "Source: {}", source.line());
        }
        text
    }
}

fn other(unit: Unit) -> Unit {
    match unit {
        Unit::Inch => Unit::Millimetre,
        Unit::Millimetre => Unit::Inch,
    }
}

/// As many decimals as the value needs, three to five in inches, one to four in millimetres.
fn length(value: Length, unit: Unit) -> String {
    show::length(value, unit, decimals(value, unit))
}

fn decimals(value: Length, unit: Unit) -> u8 {
    match unit {
        Unit::Inch => show::decimals_needed(value, unit, 3, 5),
        Unit::Millimetre => show::decimals_needed(value, unit, 1, 4),
    }
}

fn pair(l: Limits, unit: Unit) -> String {
    let places = decimals(l.max, unit).max(decimals(l.min, unit));
    format!("{} / {} {}", show::length(l.max, unit, places), show::length(l.min, unit, places), unit.word())
}
