//! A description as the tree that is written, every value as its text, so that a test can write the same part another way.

use saphyr_parser::{Event, Parser};

/// A value of a description.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Written {
    Text(String),
    List(Vec<Written>),
    Keys(Vec<(String, Written)>),
}

impl Written {
    /// Reads a description that keeps the rules of the format and has no aliases.
    pub(crate) fn of(text: &str) -> Self {
        let mut open: Vec<Vec<Self>> = vec![Vec::new()];
        for event in Parser::new_from_str(text) {
            let done = match event.expect("the format's rules are kept").0 {
                Event::Scalar(text, ..) => Self::Text(text.into_owned()),
                Event::SequenceStart(..) | Event::MappingStart(..) => {
                    open.push(Vec::new());
                    continue;
                }
                Event::SequenceEnd => Self::List(open.pop().expect("a list")),
                Event::MappingEnd => {
                    let mut flat = open.pop().expect("keys").into_iter();
                    let mut keys = Vec::new();
                    while let (Some(Self::Text(key)), Some(value)) = (flat.next(), flat.next()) {
                        keys.push((key, value));
                    }
                    Self::Keys(keys)
                }
                _ => continue,
            };
            open.last_mut().expect("a level").push(done);
        }
        open.pop().and_then(|mut whole| whole.pop()).expect("a document")
    }

    /// As text again, each value in quotes.
    pub(crate) fn text(&self) -> String {
        match self {
            Self::Text(text) => format!("{text:?}"),
            Self::List(list) => format!("[{}]", list.iter().map(Self::text).collect::<Vec<_>>().join(",\n  ")),
            Self::Keys(keys) => {
                let each = keys.iter().map(|(key, value)| format!("{key:?}: {}", value.text()));
                format!("{{{}}}", each.collect::<Vec<_>>().join(", "))
            }
        }
    }

    /// What stands under a key.
    pub(crate) fn get(&self, key: &str) -> Option<&Self> {
        match self {
            Self::Keys(keys) => keys.iter().find(|(k, _)| k == key).map(|(_, value)| value),
            _ => None,
        }
    }

    /// The text under a key.
    pub(crate) fn word(&self, key: &str) -> Option<&str> {
        match self.get(key) {
            Some(Self::Text(text)) => Some(text),
            _ => None,
        }
    }

    /// Puts a text under a key.
    pub(crate) fn put(&mut self, key: &str, text: impl Into<String>) {
        let Self::Keys(keys) = self else { panic!("{key} belongs to keys") };
        let new = Self::Text(text.into());
        match keys.iter_mut().find(|(k, _)| k == key) {
            Some((_, value)) => *value = new,
            None => keys.push((key.to_owned(), new)),
        }
    }

    /// Takes a key away.
    pub(crate) fn drop_key(&mut self, key: &str) {
        if let Self::Keys(keys) = self {
            keys.retain(|(k, _)| k != key);
        }
    }

    /// The entries of a list under a key.
    pub(crate) fn entries(&mut self, key: &str) -> &mut [Self] {
        match self {
            Self::Keys(keys) => match keys.iter_mut().find(|(k, _)| k == key) {
                Some((_, Self::List(list))) => list,
                _ => &mut [],
            },
            _ => &mut [],
        }
    }
}
