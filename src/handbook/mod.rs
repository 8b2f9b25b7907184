//! The standards a turned part needs: fits, keys, center holes, materials, speeds and the rest of the table in the plastic
//! sleeve. Depends on [`crate::unit`] only.
//!
//! Every table says where it was printed ([`Source`]); what no published source confirms says so, and so does its answer.
//!
//! Tables are text in the program, read when first asked (`LazyLock`), so a look-up adds less than starting the program
//! takes (one millisecond to two, measured). To see that, time a release build both ways, for instance
//! `hyperfine -N 'turnwright --version' 'turnwright handbook thread "3/4-16 UNF-2A"' 'turnwright handbook fit "25 mm k6"'`.
//!
//! ```
//! let thread = turnwright::handbook::thread::read("5/8-18 UNF-2A").expect("a thread");
//! assert!((thread.nominal.inches() - 0.625).abs() < 1e-9);
//! assert!(turnwright::handbook::thread::read("5/8-18 UNQ").is_err());
//! ```

pub mod beam;
pub mod bearing;
pub mod bearing_limits;
pub mod center;
pub mod conformity;
pub mod cutting;
pub mod drill;
pub mod eccentric;
pub mod fit;
pub mod flats;
pub mod heat;
pub mod identify;
pub mod indexing;
pub(crate) mod infeed;
pub mod iso_2768;
pub mod key_parallel;
pub mod keyseat;
pub mod knurl;
pub mod material;
pub mod o_ring;
pub mod pipe_size;
pub mod retaining_ring;
pub mod ring;
pub mod speed;
mod table;
pub mod taper;
pub mod thread;
pub mod thread_dial;
pub mod undercut;
pub mod v_block;
pub mod whip;
pub mod woodruff;
pub mod wrench;

pub use table::{Row, Source, Table};
