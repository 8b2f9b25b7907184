//! Knurls, flats and undercuts.

/// In a setup's title.
pub const MAKE_MILL_FLATS: &str = "mill flats";
/// Label of the ways to cut a taper.
pub const WAY: &str = "How";
/// Behind the verb.
pub const UNDERCUT: &str = "undercut";
/// Label of the blank of a knurl.
pub const KNURL_BLANK: &str = "Blank";
/// Label over the points.
pub const OVER_POINTS: &str = "Over the points";
/// Label of the steps.
pub const HOW: &str = "How";
/// Label of the depth.
pub const DEPTH_EACH: &str = "Depth of each";
/// Behind the depth.
pub const BELOW_ROUND: &str = "below the top of the round";
/// Label of the stretch.
pub const ALONG: &str = "Along";
/// Label of the first reading.
pub const FIRST_FLAT: &str = "After the first";
/// Behind it.
pub const TO_FAR_SIDE: &str = "from the flat to the far side of the round";
/// Label across.
pub const ACROSS_FLATS: &str = "Across flats";
/// Label across one flat.
pub const FLAT_TO_FAR_SIDE: &str = "To the far side";
/// Label of the width.
pub const FLAT_WIDE: &str = "Flat comes out";
/// Label of an undercut's depth.
pub const DEPTH_A_SIDE: &str = "Depth a side";

/// Label of a crown's height.
pub const CROWN_EDGE: &str = "Edge lies";
/// Label of its steps.
pub const CROWN_STEPS: &str = "So far back";
/// Label of what the steps leave.
pub const CROWN_LEFT: &str = "Ridges stand";
/// Behind it.
pub const CROWN_RIDGE: &str = "over the dome at most: file work";

/// Behind a length of a step.
pub fn to_diameter(size: &str) -> String {
    format!("to \u{d8} {size}")
}

/// Where the edge of a crown lies.
pub fn crown_edge(over: &str) -> String {
    format!("behind the summit, at \u{d8} {over}")
}

/// On the picture of a crown.
pub fn crown_radius(size: &str) -> String {
    format!("radius {size}")
}

/// Text alternative of a crown's picture.
pub fn crown_alt(radius: &str, height: &str, over: &str) -> String {
    format!("The domed end with its steps: {radius}, {height} high over {over}.")
}

/// Teeth around the blank.
pub fn knurl_teeth(teeth: i64, pitch: &str) -> String {
    format!("{teeth} teeth of {pitch} come out whole")
}

/// From a place to a place.
pub fn from_to(from: &str, to: &str) -> String {
    format!("{from} to {to}")
}

/// What becomes of the corners.
pub fn corners(across: &str, truncated: bool, count: u8) -> String {
    match (count, truncated) {
        (1 | 2, _) => "wide".to_owned(),
        (_, true) => format!("wide; the round, Ø {across}, cuts the corners short"),
        (_, false) => format!("wide, {across} across the corners"),
    }
}

/// An undercut's shape.
pub fn undercut_form(radius: &str, width: &str) -> String {
    format!("below the seat, radius {radius}, {width} wide")
}

/// On the section.
pub fn across_flats(size: &str) -> String {
    format!("{size} across flats")
}

/// On the section.
pub fn to_far_side(size: &str) -> String {
    format!("{size} to the far side")
}

/// On the section.
pub fn deep(size: &str) -> String {
    format!("{size} deep")
}

/// On the section.
pub fn flat_is_wide(size: &str) -> String {
    format!("flat {size} wide")
}

/// Text alternative of the section.
pub fn flats_alt(says: &str, sizes: &[&str]) -> String {
    format!("Section through the {says}: {}.", sizes.join(", "))
}
