//! The sheet: one view model of plain strings, and the outputs that read only that.
//!
//! A [`view::View`] is complete: every number in it is rounded, every sentence worded, every page break decided and every
//! picture drawn. HTML, Typst, PDF and Markdown show it; none of them computes.

pub mod blocks;
pub mod build;
pub mod draft;
pub mod draw;
pub mod html;
pub mod layout;
pub mod markdown;
pub mod measure;
pub mod notes;
mod packed;
mod paginate;
pub mod pdf;
mod split;
pub mod templates;
pub mod typst;
pub mod view;
pub mod words;

pub use paginate::{paginate, used};
