//! Findings as an editor shows them, and the quick fixes they carry.

use lsp_types::{
    CodeAction, CodeActionKind, CodeActionOrCommand, Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity,
    DiagnosticTag, Location, NumberOrString, Range, TextEdit, Uri, WorkspaceEdit,
};

use super::document::Analysis;
use super::position::{Lines, Position};
use super::uri::file_uri;
use crate::finding::{Finding, Place, Severity};

/// Every finding of a text, at its characters. A finding in the shop file stands at the line that names the file.
pub(super) fn diagnostics(own: &Uri, analysis: &Analysis) -> Vec<Diagnostic> {
    analysis.findings.iter().map(|f| diagnostic(own, analysis, f)).collect()
}

fn diagnostic(own: &Uri, analysis: &Analysis, f: &Finding) -> Diagnostic {
    let mut related: Vec<(Place, String)> = f.others.clone();
    let mut at = f.place;
    if let Some(place) = f.place
        && analysis.file(place).is_none_or(|(_, other)| other.is_some())
    {
        related.insert(0, (place, "here".to_owned()));
        at = analysis.part().and_then(|p| p.lathe.as_ref()).map(|l| l.place);
    }
    let mut message = f.message.clone();
    for help in &f.help {
        message.push_str("\nhelp: ");
        message.push_str(help);
    }
    if let Some(reason) = &f.accepted {
        message.push_str("\naccepted: ");
        message.push_str(reason);
    }
    let severity = match (f.severity, &f.accepted) {
        (_, Some(_)) => DiagnosticSeverity::HINT,
        (Severity::Error, None) => DiagnosticSeverity::ERROR,
        (Severity::Warning, None) => DiagnosticSeverity::WARNING,
        (Severity::Note, None) => DiagnosticSeverity::INFORMATION,
    };
    let related = related.into_iter().filter_map(|(place, message)| {
        location(own, analysis, place).map(|location| DiagnosticRelatedInformation { location, message })
    });
    Diagnostic {
        range: at.map_or_else(Range::default, |p| range(analysis, p)),
        severity: Some(severity),
        code: Some(NumberOrString::String(f.check.to_owned())),
        source: Some("turnwright".to_owned()),
        message,
        related_information: Some(related.collect()),
        tags: f.accepted.as_ref().map(|_| vec![DiagnosticTag::UNNECESSARY]),
        ..Diagnostic::default()
    }
}

/// The fixes of the findings that touch a range.
pub(super) fn fixes(own: &Uri, analysis: &Analysis, wanted: Range) -> Vec<CodeActionOrCommand> {
    let touches = |r: Range| r.start <= wanted.end && wanted.start <= r.end;
    let with_fix = analysis.findings.iter().filter_map(|f| Some((f, f.edit.as_ref()?)));
    with_fix
        .filter(|(_, edit)| analysis.file(edit.place).is_some_and(|(_, other)| other.is_none()))
        .map(|(f, edit)| (f, edit, diagnostic(own, analysis, f)))
        .filter(|(_, edit, shown)| touches(shown.range) || touches(range(analysis, edit.place)))
        .map(|(_, edit, shown)| {
            let change = TextEdit { range: range(analysis, edit.place), new_text: edit.text.clone() };
            #[expect(clippy::mutable_key_type, reason = "the library's own type: a URI does not change as a key")]
            let changes = std::iter::once((own.clone(), vec![change])).collect();
            CodeActionOrCommand::CodeAction(CodeAction {
                title: format!("Write {}", edit.text.trim().lines().next().unwrap_or_default()),
                kind: Some(CodeActionKind::QUICKFIX),
                diagnostics: Some(vec![shown]),
                edit: Some(WorkspaceEdit { changes: Some(changes), ..WorkspaceEdit::default() }),
                is_preferred: Some(true),
                ..CodeAction::default()
            })
        })
        .collect()
}

/// A place as an editor's range; one that is empty stays so.
pub(super) fn range(analysis: &Analysis, place: Place) -> Range {
    range_in(&analysis.source.text, &analysis.lines, place.start as usize..place.end as usize)
}

/// Bytes as an editor's range.
pub(super) fn range_in(text: &str, lines: &Lines, bytes: std::ops::Range<usize>) -> Range {
    let of = |p: Position| lsp_types::Position { line: p.line, character: p.unit };
    Range { start: of(lines.position(text, bytes.start)), end: of(lines.position(text, bytes.end)) }
}

/// A place with its file.
pub(super) fn location(own: &Uri, analysis: &Analysis, place: Place) -> Option<Location> {
    match analysis.file(place)? {
        (_, None) => Some(Location { uri: own.clone(), range: range(analysis, place) }),
        (source, Some(path)) => {
            let lines = Lines::of(&source.text);
            let range = range_in(&source.text, &lines, place.start as usize..place.end as usize);
            Some(Location { uri: file_uri(path).parse().ok()?, range })
        }
    }
}
