//! Knurls, flats and undercuts.

use crate::language::Message;
use crate::{tell, told};
/// In a setup's title.
pub const MAKE_MILL_FLATS: Message = Message { english: "mill flats", german: "Flächen fräsen" };
/// The same of one alone.
pub const MAKE_MILL_FLAT: Message = Message { english: "mill flat", german: "Fläche fräsen" };
/// Label of the ways to cut a taper.
pub const WAY: Message = Message { english: "How", german: "Wie" };
/// Behind the verb.
pub const UNDERCUT: Message = Message { english: "undercut", german: "Freistich" };
/// Label of the blank of a knurl.
pub const KNURL_BLANK: Message = Message { english: "Blank", german: "Rohmaß" };
/// Label over the points.
pub const OVER_POINTS: Message = Message { english: "Over the points", german: "Über die Spitzen" };
/// Label of the steps.
pub const HOW: Message = Message { english: "How", german: "Wie" };
/// Label of the depth.
pub const DEPTH_EACH: Message = Message { english: "Depth of each", german: "Tiefe je Fläche" };
/// Behind the depth.
pub const BELOW_ROUND: Message = Message { english: "below the top of the round", german: "unter der Kuppe" };
/// Label of the stretch.
pub const ALONG: Message = Message { english: "Along", german: "Längs" };
/// Label of the first reading.
pub const FIRST_FLAT: Message = Message { english: "After the first", german: "Nach der ersten" };
/// Behind it.
pub const TO_FAR_SIDE: Message =
    Message { english: "from the flat to the far side of the round", german: "von der Fläche zur Gegenseite" };
/// Label across.
pub const ACROSS_FLATS: Message = Message { english: "Across flats", german: "Schlüsselweite" };
/// Label across one flat.
pub const FLAT_TO_FAR_SIDE: Message = Message { english: "To the far side", german: "Zur Gegenseite" };
/// Label of the width.
pub const FLAT_WIDE: Message = Message { english: "Flat comes out", german: "Fläche wird" };
/// Label of an undercut's depth.
pub const DEPTH_A_SIDE: Message = Message { english: "Depth a side", german: "Tiefe je Seite" };

/// Label of a crown's height.
pub const CROWN_EDGE: Message = Message { english: "Edge lies", german: "Kante liegt" };
/// Label of its steps.
pub const CROWN_STEPS: Message = Message { english: "So far back", german: "So weit zurück" };
/// Label of what the steps leave.
pub const CROWN_LEFT: Message = Message { english: "Ridges stand", german: "Grate stehen" };
/// Behind it.
pub const CROWN_RIDGE: Message =
    Message { english: "over the dome at most: file work", german: "höchstens über der Kuppe: feilen" };

/// Behind a length of a step.
pub fn to_diameter(size: &str) -> String {
    tell!("to \u{d8} {size}", "bis \u{d8} {size}")
}

/// Where the edge of a crown lies.
pub fn crown_edge(over: &str) -> String {
    tell!("behind the summit, at \u{d8} {over}", "hinter dem Scheitel, bei \u{d8} {over}")
}

/// On the picture of a crown.
pub fn crown_radius(size: &str) -> String {
    tell!("radius {size}", "Radius {size}")
}

/// Text alternative of a crown's picture.
pub fn crown_alt(radius: &str, height: &str, over: &str) -> String {
    tell!(
        "The domed end with its steps: {radius}, {height} high over {over}.",
        "Das gewölbte Ende mit seinen Stufen: {radius}, {height} hoch über {over}."
    )
}

/// Teeth around the blank.
pub fn knurl_teeth(teeth: i64, pitch: &str) -> String {
    tell!("{teeth} teeth of {pitch} come out whole", "{teeth} Zähne zu {pitch} gehen auf")
}

/// From a place to a place.
pub fn from_to(from: &str, to: &str) -> String {
    tell!("{from} to {to}", "{from} bis {to}")
}

/// What becomes of the corners.
pub fn corners(across: &str, truncated: bool, count: u8) -> String {
    match (count, truncated) {
        (1 | 2, _) => told!("wide", "breit").to_owned(),
        (_, true) => {
            tell!("wide; the round, Ø {across}, cuts the corners short", "breit; das Rund, Ø {across}, kürzt die Ecken")
        }
        (_, false) => tell!("wide, {across} across the corners", "breit, {across} über Eck"),
    }
}

/// An undercut's width; the nose's radius stands in the first step.
pub fn undercut_form(width: &str) -> String {
    tell!("below the seat, {width} wide", "unter dem Sitz, {width} breit")
}

/// On the section.
pub fn across_flats(size: &str) -> String {
    tell!("{size} across flats", "{size} Schlüsselweite")
}

/// On the section.
pub fn to_far_side(size: &str) -> String {
    tell!("{size} to the far side", "{size} zur Gegenseite")
}

/// On the section.
pub fn deep(size: &str) -> String {
    tell!("{size} deep", "{size} tief")
}

/// On the section.
pub fn flat_is_wide(size: &str) -> String {
    tell!("flat {size} wide", "Fläche {size} breit")
}

/// Text alternative of the section.
pub fn flats_alt(says: &str, sizes: &[&str]) -> String {
    tell!("Section through the {says}: {}.", "Schnitt: {says}: {}.", sizes.join(", "))
}
