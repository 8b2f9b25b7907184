//! The outline of a description: its features with their letters.

use lsp_types::{DocumentSymbol, SymbolKind};

use super::diagnostics::range;
use super::document::Analysis;
use super::hover::span_words;
use crate::model::Kind;

/// The features of a part, in the order of the file; nothing for a shop file.
pub(super) fn symbols(analysis: &Analysis) -> Vec<DocumentSymbol> {
    let Some((part, chain)) = &analysis.part else { return Vec::new() };
    let own = part.features.iter().filter(|f| f.place.start < f.place.end);
    let mut seen = std::collections::BTreeSet::new();
    own.filter(|f| seen.insert(f.place.start))
        .map(|f| {
            let head = analysis.source.text.get(f.head.start as usize..f.head.end as usize).unwrap_or_default();
            let head = head.split_whitespace().collect::<Vec<_>>().join(" ");
            let letter = if f.letter.is_empty() { String::new() } else { format!("{}  ", f.letter) };
            let name = f.name.as_ref().map(|n| format!(", {}", n.text)).unwrap_or_default();
            let kind = match f.kind {
                Kind::Thread { .. } => SymbolKind::OPERATOR,
                _ if f.kind.is_section() => SymbolKind::FIELD,
                _ => SymbolKind::PROPERTY,
            };
            #[expect(deprecated, reason = "the library's struct still has the field")]
            DocumentSymbol {
                name: format!("{letter}{head}{name}"),
                detail: span_words(part, chain, f.id),
                kind,
                tags: None,
                deprecated: None,
                range: range(analysis, f.place),
                selection_range: range(analysis, f.head),
                children: None,
            }
        })
        .collect()
}
