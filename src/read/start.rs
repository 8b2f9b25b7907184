//! Two commented descriptions to begin from.

/// An inch part.
pub const START_INCH: &str = include_str!("../../templates/start-inch.yaml");

/// A millimetre part.
pub const START_MM: &str = include_str!("../../templates/start-mm.yaml");
