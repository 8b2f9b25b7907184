//! Every row of every published table in `tests/reference` against the handbook: cells that agree of all asked, each
//! disagreement explained in `tests/reference/handbook_exceptions.txt`, which fails when a line of it is no longer needed.
//!
//! The tables here were copied from other printings than the handbook's own data; the first line of each names its source.

mod centers;
mod fits;
mod grooves;
mod keys;
mod material;
mod physics;
mod threads;
mod walk;
mod worked_beams;
