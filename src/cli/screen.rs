//! Findings as source frames for the terminal.

use std::fmt::Write as _;

use annotate_snippets::{AnnotationKind, Group, Level, Origin, Patch, Renderer, Snippet};

use super::excerpt::Excerpt;
use super::json::Texts;
use crate::finding::{FileId, Finding, Place, Severity, Source};

/// How findings are drawn.
#[derive(Debug, Clone, Copy)]
pub(super) struct Screen {
    /// Colours and weights, for a terminal.
    pub(super) styled: bool,
    /// Columns.
    pub(super) width: usize,
}

impl Screen {
    /// Draws the first of them, each with an empty line behind it, and tells how many there are beside.
    pub(super) fn draw_all<'a>(self, findings: impl Iterator<Item = &'a Finding>, texts: Texts<'_>) -> String {
        let (mut out, mut more) = (String::new(), 0_usize);
        for (n, finding) in findings.enumerate() {
            if n < MOST_DRAWN {
                out.push_str(&self.draw(finding, texts));
                out.push_str("\n\n");
            } else {
                more += 1;
            }
        }
        if more > 0 {
            let _ = writeln!(out, "… and {more} more; mend these first (check --format json tells all)\n");
        }
        out
    }

    /// Draws one finding.
    pub(super) fn draw(self, finding: &Finding, texts: Texts<'_>) -> String {
        let level = match finding.severity {
            Severity::Error => Level::ERROR,
            Severity::Warning => Level::WARNING,
            Severity::Note => Level::NOTE,
        };
        let head = finding.severity.word().len() + finding.check.len() + 4;
        let mut group =
            Group::with_title(level.primary_title(wrapped(&finding.message, self.width, head)).id(finding.check));
        for file in [FileId::Part, FileId::Shop] {
            if let Some(source) = texts.of(file) {
                group = framed(group, finding, source, file);
            }
        }
        for help in &finding.help {
            group = group.element(Level::HELP.message(wrapped(help, self.width, HELP_INDENT)));
        }
        for assumed in &finding.assumed {
            group = group.element(Level::NOTE.message(wrapped(assumed, self.width, HELP_INDENT)));
        }
        if let Some(reason) = &finding.accepted {
            group =
                group.element(Level::NOTE.message(wrapped(&format!("accepted: {reason}"), self.width, HELP_INDENT)));
        }
        let mut report = vec![group];
        if let Some(edit) = &finding.edit
            && let Some(source) = texts.of(edit.place.file)
        {
            let at = range(edit.place, source);
            // A line of a thousand signs is not copied by hand.
            if let Some(excerpt) = Excerpt::around(source, std::slice::from_ref(&at)).filter(|e| !e.cut)
                && let Some(at) = excerpt.range(&at)
            {
                let snippet = Snippet::source(excerpt.text).line_start(excerpt.line).path(source.name.as_str());
                let title = Level::HELP.secondary_title("write instead");
                report.push(title.element(snippet.patch(Patch::new(at, edit.text.clone()))));
            }
        }
        let renderer = if self.styled { Renderer::styled() } else { Renderer::plain() };
        renderer.term_width(self.width).render(&report)
    }
}

/// Findings that are drawn; more at once are read by nobody.
pub(super) const MOST_DRAWN: usize = 100;

/// Columns before the words of a help line: the bar, `= help: `.
const HELP_INDENT: usize = 16;

/// The text with line ends put in so that no line is wider than the screen, where its words allow; `before` columns are taken
/// by what stands in front of each line.
fn wrapped(text: &str, width: usize, before: usize) -> String {
    let room = width.saturating_sub(before).max(24);
    let mut out = String::new();
    let mut column = 0;
    for word in clean(text).split(' ') {
        let long = word.chars().count();
        if column > 0 && column + 1 + long > room {
            out.push('\n');
            column = 0;
        } else if column > 0 {
            out.push(' ');
            column += 1;
        }
        out.push_str(word);
        column += long;
    }
    out
}

/// Adds the frame around all places of a finding in one file.
fn framed<'a>(group: Group<'a>, finding: &'a Finding, source: &'a Source, file: FileId) -> Group<'a> {
    let own = finding.place.filter(|p| p.file == file).map(|p| range(p, source));
    let others = finding.others.iter().filter(|o| o.0.file == file);
    let others: Vec<_> = others.map(|(place, label)| (range(*place, source), label.as_str())).collect();
    let places: Vec<_> = own.iter().cloned().chain(others.iter().map(|o| o.0.clone())).collect();
    let Some(excerpt) = Excerpt::around(source, &places) else { return group };
    let mut snippet = Snippet::source(excerpt.text).line_start(excerpt.line);
    if let Some(at) = own.and_then(|own| excerpt.range(&own)) {
        snippet = snippet.annotation(AnnotationKind::Primary.span(at));
    }
    let mut beyond = Vec::new();
    for (place, label) in others {
        match excerpt.range(&place) {
            Some(at) => snippet = snippet.annotation(AnnotationKind::Context.span(at).label(label)),
            None => beyond.push(format!("{}: {label}", whereabouts(source, place.start))),
        }
    }
    if !excerpt.cut {
        return group.element(snippet.path(source.name.as_str()));
    }
    let (line, column) = source.line_column(u32::try_from(places[0].start).unwrap_or(u32::MAX));
    let origin = Origin::path(source.name.as_str()).line(line).char_column(column);
    let group = group.element(origin).element(snippet);
    beyond.into_iter().fold(group, |g, told| g.element(Level::NOTE.message(clean(&told))))
}

/// `line 3, column 2000`.
fn whereabouts(source: &Source, byte: usize) -> String {
    let (line, column) = source.line_column(u32::try_from(byte).unwrap_or(u32::MAX));
    format!("line {line}, column {column}")
}

/// A place as a range of whole characters inside the text; an empty one is widened so that it can be seen.
fn range(place: Place, source: &Source) -> std::ops::Range<usize> {
    let len = source.text.len();
    let whole = |mut n: usize| {
        n = n.min(len);
        while !source.text.is_char_boundary(n) {
            n -= 1;
        }
        n
    };
    let (start, end) = (whole(place.start as usize), whole(place.end as usize));
    if end > start {
        return start..end;
    }
    let next = source.text[start..].chars().next().filter(|c| *c != '\n').map_or(0, char::len_utf8);
    start..start + next
}

/// Control characters from a file must not reach the terminal.
fn clean(text: &str) -> String {
    text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect()
}
