//! The texts that are open in an editor, and the answers to what it asks about them.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::rc::Rc;

use lsp_server::Notification;
use lsp_types::{
    CodeActionParams, CompletionParams, DidChangeTextDocumentParams, DidCloseTextDocumentParams,
    DidOpenTextDocumentParams, DidSaveTextDocumentParams, DocumentSymbolParams, DocumentSymbolResponse,
    GotoDefinitionParams, Hover, HoverContents, HoverParams, Location, MarkupContent, MarkupKind,
    PublishDiagnosticsParams, ReferenceParams, Uri,
};
use serde::de::DeserializeOwned;
use serde_json::{Value, json};

use super::document::{Analysis, Document};
use super::names::{self, Definition};
use super::position::{Lines, Position};
use super::uri::{file_uri, path_of};
use super::{complete, diagnostics, hover, symbols};

/// What the server can do, as `initialize` is answered. Places are in UTF-16, which every editor knows.
pub(super) fn capabilities() -> Value {
    json!({
        "capabilities": {
            "positionEncoding": "utf-16",
            "textDocumentSync": {"openClose": true, "change": 2, "save": {"includeText": false}},
            "hoverProvider": true,
            "completionProvider": {"triggerCharacters": [" ", ":", "-", "{", ","]},
            "definitionProvider": true,
            "referencesProvider": true,
            "documentSymbolProvider": true,
            "codeActionProvider": {"codeActionKinds": ["quickfix"]},
        },
        "serverInfo": {"name": "turnwright", "version": env!("CARGO_PKG_VERSION")},
    })
}

/// The open texts.
#[derive(Default)]
pub(super) struct Session {
    open: BTreeMap<String, Open>,
}

struct Open {
    document: Document,
    version: i32,
    /// Worked when it is asked for, thrown away with every change.
    analysis: Option<Rc<Analysis>>,
    /// Names of the features as they last could be read.
    names: Vec<String>,
}

/// A text that a notification is about.
pub(super) struct Touched {
    /// Its URI.
    pub uri: String,
    /// Its file.
    pub path: Option<PathBuf>,
    /// Closed.
    pub gone: bool,
    /// Its findings are wanted now.
    pub at_once: bool,
}

impl Session {
    /// Answers a request; none when it is not known, an error when it cannot be understood.
    pub(super) fn answer(&mut self, method: &str, params: &Value) -> Option<Result<Value, String>> {
        Some(match method {
            "textDocument/hover" => self.hover(params),
            "textDocument/completion" => self.completion(params),
            "textDocument/definition" => self.definition(params),
            "textDocument/references" => self.references(params),
            "textDocument/documentSymbol" => self.symbols(params),
            "textDocument/codeAction" => self.actions(params),
            _ => return None,
        })
    }

    /// Takes a notification in; the text it is about, if it is about one.
    pub(super) fn heard(&mut self, method: &str, params: Value) -> Option<Touched> {
        match method {
            "textDocument/didOpen" => {
                let item = serde_json::from_value::<DidOpenTextDocumentParams>(params).ok()?.text_document;
                let uri = item.uri.as_str().to_owned();
                let path = path_of(&uri);
                let document = Document { path: path.clone(), text: bare(&item.text) };
                let open = Open { document, version: item.version, analysis: None, names: Vec::new() };
                self.open.insert(uri.clone(), open);
                self.forget(path.as_deref());
                Some(Touched { uri, path, gone: false, at_once: true })
            }
            "textDocument/didChange" => {
                let change = serde_json::from_value::<DidChangeTextDocumentParams>(params).ok()?;
                let uri = change.text_document.uri.as_str().to_owned();
                let open = self.open.get_mut(&uri)?;
                for one in change.content_changes {
                    open.document.text = edited(&open.document.text, one.range, &one.text);
                }
                (open.version, open.analysis) = (change.text_document.version, None);
                let path = open.document.path.clone();
                self.forget(path.as_deref());
                Some(Touched { uri, path, gone: false, at_once: false })
            }
            "textDocument/didSave" => {
                let saved = serde_json::from_value::<DidSaveTextDocumentParams>(params).ok()?;
                let uri = saved.text_document.uri.as_str().to_owned();
                let path = self.open.get(&uri)?.document.path.clone();
                Some(Touched { uri, path, gone: false, at_once: true })
            }
            "textDocument/didClose" => {
                let closed = serde_json::from_value::<DidCloseTextDocumentParams>(params).ok()?;
                let uri = closed.text_document.uri.as_str().to_owned();
                let path = self.open.remove(&uri)?.document.path;
                self.forget(path.as_deref());
                Some(Touched { uri, path, gone: true, at_once: false })
            }
            _ => None,
        }
    }

    /// Throws away what was worked with a file's text.
    fn forget(&mut self, file: Option<&Path>) {
        for open in self.open.values_mut() {
            let uses = open.analysis.as_ref().and_then(|a| a.shop.as_ref()).is_some_and(|(p, _)| Some(&**p) == file);
            // A shop file that could not be read may be there now.
            let misses = open.analysis.as_ref().is_some_and(|a| a.shop.is_none());
            if uses || misses {
                open.analysis = None;
            }
        }
    }

    /// The open parts that a change of this file may concern.
    pub(super) fn users_of(&self, file: &Path) -> Vec<String> {
        let name = file.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
        let uses = |o: &Open| o.document.path.as_deref() != Some(file) && o.document.text.contains(&name);
        self.open.iter().filter(|(_, o)| !name.is_empty() && uses(o)).map(|(uri, _)| uri.clone()).collect()
    }

    /// The findings of a text.
    pub(super) fn diagnostics(&mut self, uri: &str) -> Option<Notification> {
        let (own, analysis) = self.analysis(uri)?;
        let found = diagnostics::diagnostics(&own, &analysis);
        let version = self.open.get(uri).map(|o| o.version);
        Some(published(&PublishDiagnosticsParams { uri: own, diagnostics: found, version }))
    }

    /// No findings any more, for a text that was closed.
    pub(super) fn nothing(uri: &str) -> Notification {
        published(&json!({"uri": uri, "diagnostics": []}))
    }

    /// What follows from a text as it stands.
    fn analysis(&mut self, uri: &str) -> Option<(Uri, Rc<Analysis>)> {
        let own: Uri = uri.parse().ok()?;
        let known = self.open.get(uri)?;
        if let Some(analysis) = &known.analysis {
            return Some((own, Rc::clone(analysis)));
        }
        let text_of = |path: &Path| {
            let mut open = self.open.values().filter(|o| o.document.path.as_deref() == Some(path));
            open.next().map(|o| o.document.text.clone())
        };
        let analysis = Rc::new(known.document.analyse(&text_of));
        let open = self.open.get_mut(uri)?;
        if let Some(part) = analysis.part() {
            let names = part.features.iter().filter_map(|f| f.name.as_ref().map(|n| n.text.clone()));
            let names: Vec<String> = names.collect();
            if !names.is_empty() {
                open.names = names;
            }
        }
        open.analysis = Some(Rc::clone(&analysis));
        Some((own, analysis))
    }

    /// A text with the byte of a place in it.
    fn at(&mut self, uri: &Uri, at: lsp_types::Position) -> Option<(Uri, Rc<Analysis>, usize)> {
        let (own, analysis) = self.analysis(uri.as_str())?;
        let byte = analysis.lines.byte(&analysis.source.text, Position { line: at.line, unit: at.character });
        Some((own, analysis, byte))
    }

    fn hover(&mut self, params: &Value) -> Result<Value, String> {
        let at = read::<HoverParams>(params)?.text_document_position_params;
        let Some((_, analysis, byte)) = self.at(&at.text_document.uri, at.position) else { return Ok(Value::Null) };
        Ok(hover::hover(&analysis, byte).map_or(Value::Null, |(value, range)| {
            let contents = HoverContents::Markup(MarkupContent { kind: MarkupKind::Markdown, value });
            let range = diagnostics::range_in(&analysis.source.text, &analysis.lines, range);
            json!(Hover { contents, range: Some(range) })
        }))
    }

    fn completion(&mut self, params: &Value) -> Result<Value, String> {
        let at = read::<CompletionParams>(params)?.text_document_position;
        let Some((own, analysis, byte)) = self.at(&at.text_document.uri, at.position) else { return Ok(json!([])) };
        let names = self.open.get(own.as_str()).map(|o| o.names.clone()).unwrap_or_default();
        Ok(json!(complete::complete(&analysis, byte, &names)))
    }

    fn definition(&mut self, params: &Value) -> Result<Value, String> {
        let at = read::<GotoDefinitionParams>(params)?.text_document_position_params;
        let Some((own, analysis, byte)) = self.at(&at.text_document.uri, at.position) else { return Ok(Value::Null) };
        Ok(match names::definition(&analysis, byte) {
            Some(Definition::Here(bytes)) => json!(here(&own, &analysis, bytes)),
            Some(Definition::ShopFile) => match analysis.shop.as_ref().and_then(|(p, _)| file_uri(p).parse().ok()) {
                Some(uri) => json!(Location { uri, range: lsp_types::Range::default() }),
                None => Value::Null,
            },
            None => Value::Null,
        })
    }

    fn references(&mut self, params: &Value) -> Result<Value, String> {
        let asked = read::<ReferenceParams>(params)?;
        let at = asked.text_document_position;
        let Some((own, analysis, byte)) = self.at(&at.text_document.uri, at.position) else { return Ok(json!([])) };
        let found = names::references(&analysis, byte, asked.context.include_declaration);
        Ok(json!(found.into_iter().map(|bytes| here(&own, &analysis, bytes)).collect::<Vec<_>>()))
    }

    fn symbols(&mut self, params: &Value) -> Result<Value, String> {
        let uri = read::<DocumentSymbolParams>(params)?.text_document.uri;
        let Some((_, analysis)) = self.analysis(uri.as_str()) else { return Ok(json!([])) };
        Ok(json!(DocumentSymbolResponse::Nested(symbols::symbols(&analysis))))
    }

    fn actions(&mut self, params: &Value) -> Result<Value, String> {
        let asked = read::<CodeActionParams>(params)?;
        let Some((own, analysis)) = self.analysis(asked.text_document.uri.as_str()) else { return Ok(json!([])) };
        Ok(json!(diagnostics::fixes(&own, &analysis, asked.range)))
    }
}

fn here(own: &Uri, analysis: &Analysis, bytes: std::ops::Range<usize>) -> Location {
    Location { uri: own.clone(), range: diagnostics::range_in(&analysis.source.text, &analysis.lines, bytes) }
}

fn published(params: &impl serde::Serialize) -> Notification {
    Notification::new("textDocument/publishDiagnostics".to_owned(), params)
}

fn read<T: DeserializeOwned>(params: &Value) -> Result<T, String> {
    serde_json::from_value(params.clone()).map_err(|e| e.to_string())
}

/// A text without a byte order mark, as reading sees it.
fn bare(text: &str) -> String {
    text.strip_prefix('\u{FEFF}').unwrap_or(text).to_owned()
}

/// A text after one change; a range that lies outside it is held inside.
fn edited(text: &str, range: Option<lsp_types::Range>, new: &str) -> String {
    let Some(range) = range else { return bare(new) };
    let lines = Lines::of(text);
    let byte = |p: lsp_types::Position| lines.byte(text, Position { line: p.line, unit: p.character });
    let (start, end) = (byte(range.start), byte(range.end));
    let mut out = String::with_capacity(text.len() + new.len());
    out.push_str(&text[..start]);
    out.push_str(new);
    out.push_str(&text[end.max(start)..]);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_change_is_made_at_its_characters() {
        let range = |a: (u32, u32), b: (u32, u32)| lsp_types::Range {
            start: lsp_types::Position::new(a.0, a.1),
            end: lsp_types::Position::new(b.0, b.1),
        };
        assert_eq!(edited("a: ±1\nb: 2\n", Some(range((0, 4), (0, 5))), "5"), "a: ±5\nb: 2\n");
        assert_eq!(edited("a: 1\n", Some(range((9, 9), (9, 9))), "x"), "a: 1\nx");
        assert_eq!(edited("old", None, "\u{FEFF}new"), "new");
    }
}
