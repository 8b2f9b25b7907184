//! The keys of a size as it came out.

use super::part::key;
use super::{Key, Scope, Takes};

/// The keys of an entry of `measured:`.
pub(super) static KEYS: &[Key] = &[
    key("feature", &[], Takes::Text, &[Scope::Measured], "the feature measured, by its name or letter"),
    key("diameter", &["measures"], Takes::Size, &[Scope::Measured], "the diameter as it came out"),
    key("over wires", &[], Takes::Size, &[Scope::Measured], "a thread's reading over the wires the sheet names"),
    key(
        "across bottom",
        &[],
        Takes::Size,
        &[Scope::Measured],
        "a keyseat from its bottom to the far side of the shaft",
    ),
    key("across flats", &[], Takes::Size, &[Scope::Measured], "the size across flats as it came out"),
    key("width", &["wide"], Takes::Size, &[Scope::Measured], "the width of a groove as it came out"),
    key(
        "runout",
        &["total indicator reading"],
        Takes::Size,
        &[Scope::Measured],
        "how true it runs, total indicator reading",
    ),
    key(
        "uncertainty",
        &["measuring uncertainty"],
        Takes::Size,
        &[Scope::Measured],
        "expanded uncertainty of the reading (k = 2), without the sign ±; else the instrument's error of the shop file",
    ),
    key("face", &[], Takes::Place, &[Scope::Measured], "the face measured, by its place in the description"),
    key(
        "after",
        &["after operation"],
        Takes::Number,
        &[Scope::Measured],
        "number of the operation it was measured after: what was cut again since is measured anew",
    ),
];
