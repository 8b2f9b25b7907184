//! turnwright: from a part description, every length measured from one datum end, to the setup sheet a person at a manual
//! lathe cuts metal by.
//!
//! The folders stand in the order of the data's way; each uses only those above it.

pub mod chain;
pub mod check;
pub mod cli;
pub mod editor;
pub mod figures;
pub mod finding;
pub mod handbook;
pub mod language;
pub mod model;
pub mod plan;
pub mod read;
pub mod sheet;
pub mod unit;
