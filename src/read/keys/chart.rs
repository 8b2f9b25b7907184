//! The keys of a tolerance chart.

use super::part::key;
use super::{Key, Scope, Takes};

/// The keys of a cut.
pub(super) static KEYS: &[Key] = &[
    key("op", &["operation", "no"], Takes::Number, &[Scope::Cut], "number of the operation"),
    key("cut", &["face"], Takes::Text, &[Scope::Cut], "the face that is cut"),
    key("from", &["measured from", "locate"], Takes::Text, &[Scope::Cut], "the face it is measured from"),
    key("mean", &["is"], Takes::Size, &[Scope::Cut], "mean working dimension"),
    key("tol", &["tolerance"], Takes::Size, &[Scope::Cut], "its tolerance, ±"),
    key("can hold", &[], Takes::Size, &[Scope::Cut], "what can be held, ±"),
    key("stock", &[], Takes::Size, &[Scope::Cut], "what comes off, where the cut is measured by that"),
    key("least", &["stock least"], Takes::Size, &[Scope::Cut], "the least that must come off"),
];
