//! The words of the pages, in one place.

use super::view::Rich;

/// Over the number of a setup.
pub const SETUP: &str = "SETUP";
/// On the flag and in the box of the datum end.
pub const DATUM_END: &str = "DATUM END";
/// Before going on.
pub const STOP: &str = "STOP";

/// `page 3`.
pub fn page(number: usize) -> String {
    format!("page {number}")
}

/// In the running foot.
pub fn description(hash: &str) -> String {
    format!("description {hash}")
}

/// Where a mounting goes on.
pub fn go_on(next: usize) -> Rich {
    Rich::from("Not done: go on at ").strong(page(next)).plain(". Nothing is moved.")
}
