//! Which mountings count lengths from the far face, and which operations stop at a length.

use crate::model::plan::{Setup, Verb, Zero};

/// Whether a mounting counts lengths from the far face.
pub(super) fn needs_zero(setup: &Setup) -> bool {
    match setup.zero {
        Zero::FarFace => !setup.faces_far_end_first(),
        Zero::FacedToOverall => setup.operations.iter().any(|o| o.verb != Verb::Face && cuts_length(o.verb)),
        Zero::DatumFace | Zero::None => false,
    }
}

/// Whether an operation stops at a length.
pub(super) fn cuts_length(verb: Verb) -> bool {
    use Verb as V;
    matches!(verb, V::Face | V::Rough | V::Finish | V::Turn | V::Groove | V::Thread | V::Taper | V::Knurl)
}
