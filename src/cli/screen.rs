//! Findings as source frames for the terminal.

use annotate_snippets::{Annotation, AnnotationKind, Group, Level, Patch, Renderer, Snippet};

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
            if let Some(source) = texts.of(file)
                && let Some(snippet) = snippet(finding, source, file)
            {
                group = group.element(snippet);
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
            let patch = Patch::new(range(edit.place, source), edit.text.clone());
            let title = Level::HELP.secondary_title("write instead");
            report.push(title.element(Snippet::source(source.text.as_str()).path(source.name.as_str()).patch(patch)));
        }
        let renderer = if self.styled { Renderer::styled() } else { Renderer::plain() };
        renderer.term_width(self.width).render(&report)
    }
}

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

/// The frame around all places of a finding in one file.
fn snippet<'a>(finding: &'a Finding, source: &'a Source, file: FileId) -> Option<Snippet<'a, Annotation<'a>>> {
    let mut snippet = Snippet::source(source.text.as_str()).path(source.name.as_str());
    let mut any = false;
    if let Some(place) = finding.place.filter(|p| p.file == file) {
        snippet = snippet.annotation(AnnotationKind::Primary.span(range(place, source)));
        any = true;
    }
    for (place, label) in finding.others.iter().filter(|o| o.0.file == file) {
        snippet = snippet.annotation(AnnotationKind::Context.span(range(*place, source)).label(label.as_str()));
        any = true;
    }
    any.then_some(snippet)
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
