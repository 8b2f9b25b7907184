//! The standards a turned part needs: fits, keys, center holes, materials, speeds and the rest of the table in the plastic
//! sleeve. Depends on [`crate::unit`] only.
//!
//! Every table says where it was printed ([`Source`]); what no published source confirms says so, and so does its answer.

pub mod bearing_limits;
pub mod center;
pub mod drill;
pub mod fit;
pub mod iso_2768;
pub mod key_parallel;
pub mod keyseat;
pub mod material;
pub mod speed;
mod table;
pub mod thread;
pub mod thread_dial;
pub mod woodruff;

pub use table::{Row, Source, Table};
