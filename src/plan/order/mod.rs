//! The order of operations as an exact search.
//!
//! [`Problem`] is plain data with names for everything; it knows nothing of parts or lathes. [`solve`] finds a
//! cheapest order, proves it and counts the equally good ones; [`replay`] checks an order without the search;
//! [`Certificate`] is both together as JSON.
//!
//! A sequential ordering problem: the rest of the work depends on what is done, the setup and the tool in use, and on
//! nothing else, so dynamic programming over sets done closes it (Held and Karp 1962; restarted for precedence-bound
//! problems by Salii, European Journal of Operational Research 272, 2019, 32-42). Here the states are taken in the
//! order of a lower bound, and those in which something free is left undone are skipped; see `moves`.
//!
//! | file | |
//! |---|---|
//! | `problem` `certificate` `minutes` | what goes in and out |
//! | `index` `relations` `core` `set` | names to numbers; what the rules imply together |
//! | `moves` | states, and what may come next |
//! | `bound` `tour` `openings` | what the rest costs at least |
//! | `beam` | a good order at once |
//! | `best_first` | the best order, proved |
//! | `finish` `count` | which of the best orders; how many |
//! | `gentle` | of the best orders the one that grips with the least harm |
//! | `feasible` `conflict` | whether there is any order; which rules clash |
//! | `replay` | an answer checked by other means |
//! | `meter` `solve` | limits; the whole |

mod beam;
mod best_first;
mod bound;
mod certificate;
mod conflict;
mod core;
mod count;
mod feasible;
mod finish;
mod found;
mod gentle;
mod index;
mod meter;
mod minutes;
mod moves;
mod openings;
mod problem;
mod relations;
mod replay;
mod set;
mod solve;
mod tour;

pub use certificate::{Certificate, Fault};
pub use conflict::any_order;
pub use gentle::gentlest;
pub use meter::Limits;
pub use minutes::{Minutes, NotMinutes};
pub use problem::{Cost, Malformed, Op, Problem, Rule, Setup};
pub use replay::{Violation, replay, violations};
pub use solve::{Answer, MOST_OPS, Refusal, solve};
