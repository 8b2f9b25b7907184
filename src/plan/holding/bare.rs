//! Jaws without copper, where the person switches R25 off.

use super::mountings::Candidates;
use crate::plan::rules::because;
use crate::told;

/// Nothing between the jaws and what is finished, and no slot that ends a grip: the person answers for the marks.
pub(super) fn bare_jaws(result: &mut Candidates) {
    result.ends.retain(|(_, _, why)| why.rule != "R25");
    for setup in &mut result.mountings {
        setup.why.retain(|w| w.rule != "R25");
        let Some(grip) = setup.grip.as_mut().filter(|g| g.protect) else { continue };
        grip.protect = false;
        setup.why.push(because(
            "wish",
            told!(
                "asked for: `off: [R25]`, so nothing lies under the jaws: they mark what they hold",
                "verlangt: `off: [R25]`, also liegt nichts unter den Backen: sie drücken sich ein"
            ),
        ));
    }
}
