//! The kinds of change: how each is made, by what sum it is wrong, which checks say the right thing about it, and the least share
//! that must be caught.

mod assembly;
mod lengths;
mod outside;
mod threads;
mod words;

use crate::mutations::sample::Sample;

pub(crate) use words::harmless;

/// A changed description.
pub(crate) struct Mutant {
    /// Its text.
    pub(crate) text: String,
    /// Another shop file than the sample's.
    pub(crate) shop: Option<String>,
    /// What was changed.
    pub(crate) said: String,
    /// By what it is wrong.
    pub(crate) why: String,
}

impl Mutant {
    /// A changed text.
    pub(crate) fn new(text: String, said: impl Into<String>, why: impl Into<String>) -> Self {
        Self { text, shop: None, said: said.into(), why: why.into() }
    }
}

/// A kind of change.
pub(crate) struct Kind {
    /// Name.
    pub(crate) name: &'static str,
    /// Makes the changes that are wrong.
    pub(crate) make: fn(&Sample) -> Vec<Mutant>,
    /// Checks that say the right thing; empty when any error or warning does.
    pub(crate) by: &'static [&'static str],
    /// Least share caught.
    pub(crate) floor: f64,
}

const fn kind(name: &'static str, make: fn(&Sample) -> Vec<Mutant>, by: &'static [&'static str], floor: f64) -> Kind {
    Kind { name, make, by, floor }
}

const CHAIN: &[&str] = &["chain-contradiction", "chain-disagrees", "chain-not-guaranteed"];
/// With `chain-loose` at the end: where the datum is named by a section that is moved inside, all hangs loose.
const SWAPPED: &[&str] = &[
    "section-overlap",
    "section-gap",
    "no-overall",
    "outside-part",
    "chain-contradiction",
    "chain-disagrees",
    "not-positive",
    // A taper whose section has no length left has no diameter either.
    "missing-key",
    "chain-loose",
];
const ORDER_OF_FACES: &[&str] = match SWAPPED.split_last() {
    Some((_, rest)) => rest,
    None => &[],
};
const READING: &[&str] = &[
    "unknown-key",
    "missing-key",
    "no-units",
    "no-datum",
    "no-overall",
    "unreadable",
    "bad-size",
    "duplicate-key",
    "value-lost-to-comment",
];
const THREAD: &[&str] = &[
    "thread-unknown",
    "relief-diameter",
    "relief-width",
    "thread-not-cuttable",
    "thread-no-runout",
    "stock-diameter",
    "cannot-pass",
    "passes-seat",
    "trapped",
    "bad-size",
];

/// All kinds.
pub(crate) const KINDS: &[Kind] = &[
    kind("a diameter over the bar", assembly::over_the_bar, &["stock-diameter"], 1.0),
    kind("a diameter over a bore that passes", assembly::over_a_bore, &["cannot-pass", "passes-seat", "trapped"], 1.0),
    kind("put on from the wrong end", assembly::wrong_end, &["cannot-pass", "trapped", "passes-seat"], 1.0),
    kind("seat and bore of no fit", assembly::no_fit, &["bore-fit", "cannot-pass", "trapped"], 1.0),
    kind("digits of a diameter swapped", assembly::digits_swapped, &[], 1.0),
    kind("a neck much thinner", assembly::thin_neck, &["neck-weak"], 1.0),
    kind("ring groove moved", assembly::ring_moved, &["play-negative", "ring-wall", "outside-part"], 1.0),
    kind("ring thicker than its groove", assembly::ring_thick, &["play-negative"], 1.0),
    kind("fillet over the bearing's corner", assembly::fillet_large, &["fillet-bearing"], 1.0),
    kind("a face past its neighbour", lengths::past_a_neighbour, ORDER_OF_FACES, 1.0),
    kind("two sections swapped", lengths::swapped, SWAPPED, 1.0),
    kind("overall changed", lengths::overall_changed, ORDER_OF_FACES, 1.0),
    kind("a required distance changed", lengths::requirement_changed, CHAIN, 1.0),
    kind("a face of a required distance moved", lengths::required_face_moved, CHAIN, 1.0),
    kind("bar too thin", lengths::thin_bar, &["stock-diameter", "section-overlap"], 1.0),
    kind("bar too short", lengths::short_bar, &["stock-length"], 1.0),
    kind("keyseat moved", outside::keyseat_moved, &["keyseat-outside-seat", "outside-part"], 1.0),
    kind("groove above the surface", outside::groove_up, &["outside-part"], 1.0),
    kind(
        "groove or hole off the part",
        outside::off_the_part,
        &["outside-part", "bad-size", "keyseat-outside-seat"],
        1.0,
    ),
    kind("chamfer or fillet too large", outside::edge_too_large, &["outside-part", "fillet-bearing"], 1.0),
    kind("cross hole as large as the part", outside::hole_too_large, &["cross-hole-breaks"], 1.0),
    kind("center hole as large as the end", outside::center_too_large, &["center-too-big"], 1.0),
    kind("taper that does not add up", outside::taper_changed, &["taper-inconsistent"], 1.0),
    kind(
        "relief above the root",
        threads::relief_above_root,
        &["relief-diameter", "thread-no-runout", "relief-width"],
        1.0,
    ),
    kind("relief too narrow", threads::relief_narrow, &["relief-width"], 1.0),
    kind("relief left out", threads::relief_left_out, &["thread-no-runout", "relief-width", "relief-diameter"], 1.0),
    kind("thread pitch changed", threads::pitch_changed, THREAD, 1.0),
    kind("thread diameter changed", threads::diameter_changed, THREAD, 1.0),
    kind("wrong hand", threads::wrong_hand, &["thread-left-start", "relief-width", "hand-of-thread"], 1.0),
    kind(
        "lathe without what is needed",
        threads::poorer_lathe,
        &["thread-not-cuttable", "too-big", "groove-narrow", "tool-missing", "too-long"],
        1.0,
    ),
    kind("another unit for the part", words::other_units, &[], 1.0),
    kind(
        "another unit for a diameter",
        words::diameter_in_other_unit,
        &[
            "mixed-units",
            "stock-diameter",
            "neck-weak",
            "bore-fit",
            "cannot-pass",
            "trapped",
            "relief-too-deep",
            "relief-diameter",
        ],
        1.0,
    ),
    kind("limits the wrong way round", words::limits_swapped, &["limits-reversed", "bad-size"], 1.0),
    kind("header line missing", words::header_missing, &["no-units", "no-datum", "no-overall", "missing-key"], 1.0),
    kind("key misspelt", words::key_misspelt, READING, 1.0),
    kind("key twice", words::key_twice, &["duplicate-key", "unreadable"], 1.0),
    kind("a slip of YAML", words::yaml_slip, READING, 1.0),
    kind("acceptance of another check", words::accept_other, &["accept-unused"], 1.0),
];
