//! Reading: text to part and shop, everything that can be read, and everything that cannot told at its line and column.
//!
//! What the format's own traps do was tried on the two YAML libraries this project uses (no other source); the sizes and words
//! are those of the project's description language.

mod found;
mod generate;
mod limits;
mod meaning;
mod random;
mod samples;
mod styles;
mod texts;
mod trade;
mod traps;
mod words;
