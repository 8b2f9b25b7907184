//! Two descriptions key by key: what stands in one and not in the other, in the words of the description.
//!
//! Texts are compared as sizes where both can be read as one: `1.0` and `1.000` in a file with limits by places are not alike,
//! `1/2` and `0.5 in` with the same limits are. Nothing here knows what a key means, so no key can be overlooked.

use super::tree::{Body, Node};
use super::{keys, syntax, text};
use crate::finding::FileId;
use crate::unit::{NumberForm, SizeText, ToleranceText, Unit, read_size};

/// An entry of a description with everything in it: path (`carries > bore`) and text, in the order of the file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Entry {
    /// First line, from 1.
    pub line: usize,
    /// What it says.
    pub says: Vec<(String, String)>,
}

impl Entry {
    /// The text of a path.
    pub fn get(&self, path: &str) -> Option<&str> {
        self.says.iter().find(|(p, _)| p == path).map(|(_, t)| t.as_str())
    }
}

/// A description as entries.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Said {
    /// Its head: everything outside lists.
    pub head: Vec<(String, String)>,
    /// `features`, `inside`, `dims`, `accept`, `measured` …: each list with its entries.
    pub lists: Vec<(String, Vec<Entry>)>,
}

impl Said {
    /// The entries of a list.
    pub fn list(&self, key: &str) -> &[Entry] {
        self.lists.iter().find(|(k, _)| k == key).map_or(&[], |(_, entries)| entries)
    }
}

/// One thing that is said otherwise: path, old text, new text; an empty path is the entry itself.
pub type Change = (String, Option<String>, Option<String>);

/// Reads a description as entries; none when it is no YAML.
pub fn said(name: &str, bytes: &[u8]) -> Option<Said> {
    let mut decoded = text::decode(name, FileId::Part, bytes);
    let tree = syntax::tree(FileId::Part, &mut decoded)?;
    let Body::Keys(entries) = &tree.body else { return None };
    let mut out = Said::default();
    for entry in entries {
        let key = keys::fold(&entry.key);
        match &entry.value.body {
            Body::List(items) if items.iter().any(|i| matches!(i.body, Body::Keys(_))) => {
                let list = items.iter().map(|item| {
                    let mut says = Vec::new();
                    walk(item, "", &mut says);
                    Entry { line: decoded.source.line_column(item.place.start).0, says }
                });
                out.lists.push((key, list.collect()));
            }
            _ => walk(&entry.value, &key, &mut out.head),
        }
    }
    Some(out)
}

fn walk(node: &Node, path: &str, out: &mut Vec<(String, String)>) {
    match &node.body {
        Body::Text(_) => out.extend(node.written().map(|w| (path.to_owned(), w.text.to_owned()))),
        Body::List(items) => {
            for (i, item) in items.iter().enumerate() {
                walk(item, &if i == 0 { path.to_owned() } else { format!("{path} {}", i + 1) }, out);
            }
        }
        Body::Keys(entries) => {
            for entry in entries {
                let key = keys::fold(&entry.key);
                walk(&entry.value, &if path.is_empty() { key } else { format!("{path} > {key}") }, out);
            }
        }
        Body::Broken => {}
    }
}

/// Whether two texts say the same. Decimals count only where a size has no limits of its own, since general limits go by them.
pub fn same(old: &str, new: &str, unit: Unit) -> bool {
    let squeeze = |t: &str| t.split_whitespace().collect::<Vec<_>>().join(" ");
    if squeeze(old) == squeeze(new) {
        return true;
    }
    let (Ok(a), Ok(b)) = (read_size(old, unit), read_size(new, unit)) else { return false };
    let places = |s: &SizeText| match s.nominal.form {
        NumberForm::Decimal(places) => Some(places),
        NumberForm::Fraction => None,
    };
    a.nominal.value == b.nominal.value
        && a.reference == b.reference
        && match (&a.tolerance, &b.tolerance) {
            (ToleranceText::None, ToleranceText::None) => places(&a) == places(&b),
            (a_says, b_says) => a_says == b_says || a.limits().is_some() && a.limits() == b.limits(),
        }
}

/// What two lists of sayings do not share.
pub fn changes(old: &[(String, String)], new: &[(String, String)], unit: Unit) -> Vec<Change> {
    let find = |list: &[(String, String)], path: &str| list.iter().find(|(p, _)| p == path).map(|(_, t)| t.clone());
    let mut out = Vec::new();
    for (path, text) in old {
        match find(new, path) {
            Some(now) if same(text, &now, unit) => {}
            now => out.push((path.clone(), Some(text.clone()), now)),
        }
    }
    for (path, text) in new.iter().filter(|(p, _)| find(old, p).is_none()) {
        out.push((path.clone(), None, Some(text.clone())));
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_are_compared_as_sizes() {
        assert!(same("1/2 ±0.005", "0.500 +0.005/-0.005", Unit::Inch));
        assert!(same("25.4 mm h7", "25.4  mm  h7", Unit::Inch));
        assert!(!same("1.00", "1.000", Unit::Inch), "limits may go by places");
        assert!(!same("1.000 ±0.002", "1.000 ±0.003", Unit::Inch));
        assert!(!same("pulley seat", "gear seat", Unit::Inch));
    }
}
