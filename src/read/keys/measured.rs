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
    key(
        "mate",
        &["mate bore"],
        Takes::Diameter,
        &[Scope::Measured],
        "the bore of what sits on the feature, as measured",
    ),
    key(
        "which",
        &["carried part"],
        Takes::Text,
        &[Scope::Measured],
        "which of the mates, by its part, where several sit there",
    ),
    key(
        "wire",
        &["wires"],
        Takes::Size,
        &[Scope::Measured],
        "the wire a thread was read over, where it is not the sheet's",
    ),
    key(
        "part temperature",
        &["work temperature"],
        Takes::Text,
        &[Scope::Measured],
        "of the work when it was read, `31 °C`: the reading is brought to 20 °C (68 °F); alone in an entry it holds for those behind it",
    ),
    key(
        "gauge temperature",
        &["instrument temperature"],
        Takes::Text,
        &[Scope::Measured],
        "of the instrument, `22 °C`; else it is taken at 20 °C",
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
