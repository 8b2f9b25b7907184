//! The JSON Schema (2020-12) of the two files, made from the tables of keys that reading uses.
//!
//! A schema knows shapes and words, not sizes: it lets through whatever may be read, and refuses unknown keys, wrong shapes,
//! unknown words and decimal commas. Keys may be spelt as reading takes them: any case, space, hyphen or underscore.

use serde_json::{Map, Value, json};

use super::schema_words::{any_of_words, spelt};
use crate::read::Which;
use crate::read::keys::{self, INSIDE_KINDS, KINDS, Key, KindWord, Scope, Takes};

/// The schema of a part description or a shop file.
pub fn schema(which: Which) -> Value {
    let (title, about, command) = match which {
        Which::Part => ("Part description", "A turned part, every length measured from one datum end", "part"),
        Which::Shop => ("Shop file", "A lathe, its tools and instruments; whatever it leaves out stays unsaid", "shop"),
    };
    let mut defs = Map::new();
    for scope in Scope::ALL.iter().filter(|s| s.is_shop() == (which == Which::Shop)) {
        if *scope != which.scope() {
            defs.insert(slug(*scope), mapping(*scope, None));
        }
    }
    if which == Which::Part {
        for kind in KINDS {
            defs.insert(kind_slug(kind), mapping(kind.scope, Some(kind)));
        }
        defs.insert("feature".to_owned(), feature(KINDS, kind_slug));
        for kind in INSIDE_KINDS {
            defs.insert(inside_slug(kind), mapping(kind.scope, Some(kind)));
        }
        defs.insert("inside".to_owned(), feature(INSIDE_KINDS, inside_slug));
    }
    let mut root = Map::new();
    root.insert("$schema".to_owned(), json!("https://json-schema.org/draft/2020-12/schema"));
    root.insert("title".to_owned(), json!(title));
    root.insert("$comment".to_owned(), json!(format!("made by: turnwright schema {command}")));
    let Value::Object(head) = mapping(which.scope(), None) else { return Value::Object(root) };
    root.extend(head);
    root.insert("description".to_owned(), json!(about));
    root.insert("$defs".to_owned(), Value::Object(defs));
    Value::Object(root)
}

/// Keys that an entry cannot do without, whatever else it has.
const fn needed(scope: Scope) -> &'static [&'static str] {
    match scope {
        Scope::Header | Scope::Shop => &["units"],
        Scope::Dim => &["from", "to", "is"],
        Scope::Accept => &["check"],
        Scope::Carries => &["part"],
        Scope::Tool => &["tool"],
        Scope::Instrument => &["instrument"],
        _ => &[],
    }
}

/// A mapping with the keys of a scope, and the main key of a kind.
fn mapping(scope: Scope, kind: Option<&KindWord>) -> Value {
    let mut properties = Map::new();
    let mut spellings = Map::new();
    let mut needs = Vec::new();
    if let Some(kind) = kind {
        properties.insert(kind.word.to_owned(), main_value(kind));
        let pattern = spelt(kind.word, kind.also);
        needs.push(has(kind.word, &pattern));
        spellings.insert(pattern, main_value(kind));
    }
    for key in keys::of(scope) {
        let pattern = spelt(key.word, key.also);
        if needed(scope).contains(&key.word) {
            needs.push(has(key.word, &pattern));
        }
        let value = value(scope, key);
        spellings.insert(pattern, value.clone());
        properties.insert(key.word.to_owned(), value);
    }
    if scope == Scope::Tolerances {
        spellings.insert(BY_PLACES.to_owned(), scalar("limits of sizes written with so many decimals"));
    }
    let mut out = json!({
        "type": "object",
        "description": kind.map_or_else(|| scope.called().to_owned(), |k| format!("{}: {}", k.word, k.about)),
        "properties": properties,
        "patternProperties": spellings,
        "additionalProperties": false,
    });
    if !needs.is_empty() {
        out["allOf"] = Value::Array(needs);
    }
    out
}

/// `2 places`, `3-decimals`, `two places`.
const BY_PLACES: &str = "^(?:[0-9]|[Nn][Oo]|[Oo][Nn][Ee]|[Tt][Ww][Oo]|[Tt][Hh][Rr][Ee][Ee]|[Ff][Oo][Uu][Rr]|[Ff][Ii][Vv][Ee]|[Ss][Ii][Xx])\
    [ _-]+(?:[Pp][Ll][Aa][Cc][Ee][Ss]?|[Dd][Ee][Cc][Ii][Mm][Aa][Ll][Ss]?)$";

/// That a key is there, as this page spells it or otherwise.
fn has(word: &str, pattern: &str) -> Value {
    json!({"anyOf": [{"required": [word]}, {"not": {"propertyNames": {"not": {"pattern": pattern}}}}]})
}

/// An entry of `features` or `inside`: one of the kinds.
fn feature(kinds: &[KindWord], slug: fn(&KindWord) -> String) -> Value {
    let words: Map<String, Value> =
        kinds.iter().map(|k| (k.word.to_owned(), json!({"description": described(k.about, k.also)}))).collect();
    let each: Vec<Value> = kinds.iter().map(|k| json!({"$ref": format!("#/$defs/{}", slug(k))})).collect();
    json!({"type": "object", "description": "its first key is its kind", "properties": words, "anyOf": each})
}

/// What the key of a kind takes.
fn main_value(kind: &KindWord) -> Value {
    let mut out = sized(&described(kind.about, kind.also));
    out["examples"] = json!(keys::kind_examples(kind));
    out
}

/// What a key takes.
fn value(scope: Scope, key: &Key) -> Value {
    let about = described(key.about, key.also);
    let words = keys::words(scope, key);
    let mut out = match key.takes {
        Takes::NotYet => json!({"description": format!("{about} (not supported yet)"), "not": {}}),
        Takes::Prose | Takes::Text if words.is_empty() => scalar(&about),
        Takes::Size | Takes::Diameter | Takes::Limits | Takes::Place | Takes::Angle | Takes::Number => sized(&about),
        Takes::YesNo => json!({
            "description": about,
            "anyOf": [{"enum": ["yes", "no"]}, {"type": "boolean"}, {"pattern": "^([Yy][Ee][Ss]|[Nn][Oo]|[Oo][NnFf]{1,2}|[Nn]one|[Tt]rue|[Ff]alse)$", "type": "string"}],
        }),
        Takes::List if words.is_empty() => json!({"description": about, "anyOf": [list(), scalar("")]}),
        Takes::Text | Takes::Prose | Takes::OneOf(_) => {
            json!({"description": about, "anyOf": any_of_words(&words, key.word)})
        }
        Takes::List => {
            let item = json!({"anyOf": any_of_words(&words, key.word)});
            json!({"description": about, "anyOf": [{"type": "array", "items": item}, item]})
        }
        Takes::Keys(inner) => json!({"description": about, "anyOf": [reference(inner)]}),
        Takes::Entries(Scope::Kind) => {
            json!({"description": about, "type": "array", "items": {"$ref": "#/$defs/feature"}})
        }
        Takes::Entries(Scope::InsideKind) => {
            json!({"description": about, "type": "array", "items": {"$ref": "#/$defs/inside"}})
        }
        Takes::Entries(inner) => {
            json!({"description": about, "anyOf": [{"type": "array", "items": reference(inner)}, reference(inner)]})
        }
    };
    for other in other_shapes(scope, key.word) {
        match out.get_mut("anyOf") {
            Some(Value::Array(any)) => any.push(other),
            _ => out = json!({"description": about, "anyOf": [without_description(out), other]}),
        }
    }
    let examples = keys::examples(key);
    if !examples.is_empty() && !matches!(key.takes, Takes::Keys(_) | Takes::Entries(_) | Takes::NotYet) {
        out["examples"] = json!(examples);
    }
    out
}

/// Shapes that reading takes for a key beside its own.
fn other_shapes(scope: Scope, word: &str) -> Vec<Value> {
    let a_list_of = |inner: Scope| json!({"type": "array", "items": reference(inner)});
    match (scope, word) {
        (Scope::Header, "tolerances") => vec![json!({"type": "string", "pattern": "2768", "examples": ["ISO 2768-m"]})],
        (Scope::Tolerances, "by places") => {
            vec![json!({"type": "object", "patternProperties": {BY_PLACES: scalar("")}, "additionalProperties": false})]
        }
        (_, "carries") => vec![a_list_of(Scope::Carries)],
        (Scope::Shop, "carriage dial" | "compound dial") => vec![json!({"enum": ["none", "no"]})],
        (Scope::Shop, "rests" | "dogs" | "tools") => {
            vec![json!({"type": "array", "items": {"anyOf": [{"type": "object"}, scalar("")]}}), scalar("")]
        }
        (Scope::Shop, "limits") => vec![json!({"type": "object"})],
        (Scope::Plan, "holding") => vec![reference(Scope::ByEnd)],
        (Scope::ThreadDial, "engraved") => vec![list()],
        _ => Vec::new(),
    }
}

/// A reference to the mapping of a scope.
fn reference(scope: Scope) -> Value {
    json!({"$ref": format!("#/$defs/{}", slug(scope))})
}

/// One value, as YAML may see it.
fn scalar(about: &str) -> Value {
    let mut out = json!({"type": ["string", "number", "boolean"]});
    if !about.is_empty() {
        out["description"] = json!(about);
    }
    out
}

/// A value with figures in it: a decimal comma is refused.
fn sized(about: &str) -> Value {
    json!({"description": about, "type": ["string", "number"], "not": {"type": "string", "pattern": "[0-9],[0-9]"}})
}

/// A list of values, or of lists of values.
fn list() -> Value {
    json!({"type": "array", "items": {"anyOf": [scalar(""), {"type": "array", "items": scalar("")}]}})
}

fn without_description(mut value: Value) -> Value {
    if let Value::Object(map) = &mut value {
        map.shift_remove("description");
    }
    value
}

/// What it says, and its other names.
fn described(about: &str, also: &[&str]) -> String {
    if also.is_empty() { about.to_owned() } else { format!("{about} (also: {})", also.join(", ")) }
}

/// The name of a scope's mapping.
fn slug(scope: Scope) -> String {
    format!("{scope:?}")
}

/// The name of an inside kind's mapping.
fn inside_slug(kind: &KindWord) -> String {
    format!("inside {}", kind.word).replace(' ', "-")
}

/// The name of a kind's mapping.
fn kind_slug(kind: &KindWord) -> String {
    format!("feature {}", kind.word).replace(' ', "-")
}
