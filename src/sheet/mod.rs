//! The sheet: one view model of plain strings, and the outputs that read only that.
//!
//! A [`view::View`] is complete: every number in it is rounded, every sentence worded, every page break decided and every
//! picture drawn. HTML, Typst, PDF and Markdown show it; none of them computes.
//!
//! ```
//! # let text = std::fs::read("samples/pulley-stub-no-shop.yaml").expect("a sample");
//! # let read = turnwright::read::part("pulley-stub", &text);
//! # let part = read.part.as_ref().expect("a part");
//! # let chain = turnwright::chain::locate(part);
//! # let profile = turnwright::chain::Profile::of(part, &chain);
//! # let planned = turnwright::plan::plan(part, &chain, &profile, None, 10).expect("a plan");
//! # let figures = turnwright::figures::work(part, &chain, &profile, &planned.plan, None);
//! use turnwright::sheet::{build, markdown, view::Paper};
//! let sources = build::Sources { part, chain: &chain, plan: &planned.plan, figures: &figures, findings: &[], shop: None };
//! let view = build::view(&sources, Paper::A4);
//! assert!(markdown::markdown(&view).expect("a sheet").contains("Setup 1"));
//! ```

pub mod blocks;
pub mod build;
pub mod decimal;
pub mod draft;
pub mod draw;
mod fit;
mod heads;
pub mod html;
mod join;
pub mod layout;
pub mod markdown;
pub mod measure;
pub mod notes;
mod packed;
mod paginate;
pub mod pdf;
pub mod small;
mod split;
pub mod table;
pub mod templates;
pub mod typst;
pub mod view;
pub mod words;

pub use paginate::{paginate, used};
