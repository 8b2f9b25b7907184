//! The values, read by `serde_yaml`. This file alone names that library.
//!
//! The tree of the events says what shape to ask for, so that every value is asked for as a string and keeps its text as
//! written (`7.000` is not `7`, `NO` is a word), and no shape can fail. Where the two readers see different things, both are kept.

use std::fmt;

use serde::de::{DeserializeSeed, Error, IgnoredAny, MapAccess, SeqAccess, Visitor};

use super::tree::{Body, Entry, Node};
use crate::finding::Place;

/// The two readers see different things.
#[derive(Debug)]
pub(super) enum Disagreement {
    /// A value.
    Value {
        /// Where.
        place: Place,
        /// What the events have.
        events: String,
        /// What `serde_yaml` has.
        serde: String,
    },
    /// `serde_yaml` cannot follow; line and column from 1.
    Stop {
        /// Line and column, from 1, in characters.
        at: Option<(usize, usize)>,
        /// Its words.
        said: String,
    },
}

/// Reads the first document of `clean` into the shape of `tree`; each text becomes what `serde_yaml` says.
pub(super) fn fill(clean: &str, tree: &mut Node) -> Vec<Disagreement> {
    let mut found = Vec::new();
    let Some(document) = serde_yaml::Deserializer::from_str(clean).next() else { return found };
    if let Err(error) = (Into { node: tree, found: &mut found }).deserialize(document) {
        let at = error.location().map(|l| (l.line(), l.column()));
        found.push(Disagreement::Stop { at, said: error.to_string() });
    }
    found
}

/// A node that waits for its value.
struct Into<'a> {
    node: &'a mut Node,
    found: &'a mut Vec<Disagreement>,
}

impl<'de> DeserializeSeed<'de> for Into<'_> {
    type Value = ();

    fn deserialize<D: serde::Deserializer<'de>>(self, from: D) -> Result<(), D::Error> {
        match &mut self.node.body {
            Body::Text(scalar) => {
                let text = from.deserialize_str(Text)?;
                if text != scalar.text {
                    let events = std::mem::replace(&mut scalar.text, text.clone());
                    self.found.push(Disagreement::Value { place: self.node.place, events, serde: text });
                    scalar.offset = None;
                }
                Ok(())
            }
            Body::List(list) => from.deserialize_seq(List { list, found: self.found }),
            Body::Keys(keys) => from.deserialize_map(Keys { keys, found: self.found }),
            Body::Broken => from.deserialize_ignored_any(IgnoredAny).map(|_| ()),
        }
    }
}

struct Text;

impl Visitor<'_> for Text {
    type Value = String;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("one value")
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<String, E> {
        Ok(text.to_owned())
    }

    fn visit_unit<E: Error>(self) -> Result<String, E> {
        Ok(String::new())
    }
}

struct List<'a> {
    list: &'a mut Vec<Node>,
    found: &'a mut Vec<Disagreement>,
}

impl<'de> Visitor<'de> for List<'_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a list")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut from: A) -> Result<(), A::Error> {
        for node in self.list {
            if from.next_element_seed(Into { node, found: self.found })?.is_none() {
                return Err(A::Error::custom("the list ends early"));
            }
        }
        match from.next_element::<IgnoredAny>()? {
            Some(_) => Err(A::Error::custom("the list goes on")),
            None => Ok(()),
        }
    }
}

struct Keys<'a> {
    keys: &'a mut Vec<Entry>,
    found: &'a mut Vec<Disagreement>,
}

impl<'de> Visitor<'de> for Keys<'_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("keys with values")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut from: A) -> Result<(), A::Error> {
        for entry in self.keys {
            if entry.key.is_empty() && !entry.usable {
                from.next_key::<IgnoredAny>()?;
            } else {
                match from.next_key_seed(Key)? {
                    None => return Err(A::Error::custom("the keys end early")),
                    Some(key) if key != entry.key => {
                        let events = std::mem::replace(&mut entry.key, key.clone());
                        self.found.push(Disagreement::Value { place: entry.key_place, events, serde: key });
                    }
                    Some(_) => {}
                }
            }
            from.next_value_seed(Into { node: &mut entry.value, found: self.found })?;
        }
        match from.next_key::<IgnoredAny>()? {
            Some(_) => Err(A::Error::custom("the keys go on")),
            None => Ok(()),
        }
    }
}

struct Key;

impl<'de> DeserializeSeed<'de> for Key {
    type Value = String;

    fn deserialize<D: serde::Deserializer<'de>>(self, from: D) -> Result<String, D::Error> {
        from.deserialize_str(Text)
    }
}
