//! Making operations: one at a time, with names that stay unique.

use crate::model::plan::{Operation, Verb};
use crate::model::shop::ToolKind;
use crate::model::{End, Part};

/// A fresh operation of a feature.
pub(in crate::plan) fn on(part: &Part, verb: Verb, feature: usize, end: Option<End>, tool: ToolKind) -> Operation {
    let letter = part.features.get(feature).map_or("", |f| f.letter.as_str());
    let mark = match (letter, end) {
        ("", Some(end)) => end.word().to_owned(),
        ("", None) => format!("{feature}"),
        (letter, _) => letter.to_owned(),
    };
    Operation { feature: Some(feature), ..named(&format!("{}-{mark}", dashed(verb)), verb, end, tool) }
}

/// A fresh operation of no feature in particular.
pub(super) fn named(id: &str, verb: Verb, end: Option<End>, tool: ToolKind) -> Operation {
    Operation {
        id: id.to_owned(),
        number: 0,
        verb,
        feature: None,
        with: Vec::new(),
        end,
        tool,
        from_diameter: None,
        to_diameter: None,
        limits: None,
        from: None,
        to: None,
        face: None,
        close: false,
        inside: false,
        throw: None,
        followed: false,
        lighter: None,
        spring: 0,
        barrel: None,
        for_rest: false,
        travel: None,
        minutes: 0.0,
        again: None,
        not_before: None,
        not_after: None,
        why: Vec::new(),
    }
}

/// The verb as an id has it.
pub(super) fn dashed(verb: Verb) -> String {
    verb.word().replace(' ', "-")
}

/// Gives every later operation of the same id a number of its own.
pub(super) fn make_unique(operations: &mut [Operation]) {
    let mut seen: std::collections::BTreeMap<String, u32> = std::collections::BTreeMap::new();
    for operation in operations {
        let count = seen.entry(operation.id.clone()).or_insert(0);
        *count += 1;
        if *count > 1 {
            operation.id = format!("{}-{count}", operation.id);
        }
    }
}
