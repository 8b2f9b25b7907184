//! What grips the work, and how true it runs.

use crate::model::Workholder;
use crate::model::part::Holding;

/// What grips the work, to begin a sentence.
pub fn gripped(by: Workholder, size: &str) -> String {
    match by {
        Workholder::FourJaw => "4-jaw chuck".to_owned(),
        Workholder::Collet(_) => format!("Collet {size}"),
        Workholder::SoftJaws => "Soft jaws".to_owned(),
        _ => "Chuck".to_owned(),
    }
}

/// How the work is held, to begin a sentence, with what grips it.
pub fn held(by: Workholder, holding: Holding) -> String {
    if by == Workholder::Usual { super::holding(holding).to_owned() } else { super::capital(&by.word(holding)) }
}

/// What is done about running true before the first cut.
pub fn runs_true(by: Workholder, letter: &str, within: &str) -> Option<String> {
    Some(match by {
        Workholder::FourJaw => {
            format!("Indicate {letter} at both ends of the grip: within {within} TIR before the first cut.")
        }
        Workholder::Collet(_) => format!("Collet and spindle wiped clean; prove {letter}: within {within} TIR."),
        Workholder::SoftJaws => {
            format!(
                "Bore the jaws to the measured size of {letter}, a little clear at the back; prove within {within} TIR."
            )
        }
        _ => return None,
    })
}

/// A mandrel in a bore.
pub fn on_mandrel(size: &str, letter: &str) -> String {
    format!(
        "On the {size} mandrel in {letter}, between centers, dog on the mandrel: oil it, press it in, prove it on its centers."
    )
}

/// A dividing head.
pub const DIVIDING_HEAD: &str = "Dividing head on the mill, footstock brought up, spindle level with the table.";

/// A tailstock set over.
pub fn set_over(by: &str, toward: bool) -> String {
    let way = if toward { "toward you" } else { "away from you" };
    format!("Tailstock set over {by} {way}, by indicator on its quill. Set back and proved by test cuts afterwards.")
}
