//! From readings of a worn sample back to the standard it was made to: threads, keys, bearings and round seats.
//!
//! A thread is found by a plain Bayesian likelihood ([`likelihood`] says the model and its sigmas): a worn crest reads small and
//! never large, a caliper errs both ways, a pitch is as good as the span it was taken over. Nothing here decides: every answer
//! lists its rivals and how to tell them apart. Floating point is used for likelihoods only; sizes to restore are the tables' own.
//!
//! ```
//! use turnwright::handbook::identify::{Pitched, ThreadReadings, threads};
//! use turnwright::unit::Length;
//! let read = ThreadReadings {
//!     major: Some(Length::micrometres(13_800)),
//!     pitch: vec![Pitched::Leaf(Length::micrometres(1_500))],
//!     ..ThreadReadings::default()
//! };
//! assert_eq!(threads(&read).ranked[0].candidate.name, "M14x1.5");
//! ```

mod apart;
mod bearing;
mod british_association;
mod candidates;
mod key;
pub mod likelihood;
mod rank;
mod readings;
mod round;
mod words;

pub use bearing::{BearingFound, bearings, inner_ring};
pub use candidates::{Candidate, candidates};
pub use key::{KeyFound, KeyReadings, keys};
pub use rank::{Found, Ranked, threads};
pub use readings::{FormGuess, Pitched, ThreadReadings};
pub use round::{RoundFound, SeatUse, seats};
