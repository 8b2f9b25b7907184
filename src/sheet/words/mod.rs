//! The words of the pages, in one place.

mod another;
mod chart;
mod cuts;
mod fixed;
mod lists;
mod outside;
mod pages;
mod record;
mod rows;
mod sample;
mod setups;
mod text;
mod trade;
mod waiting;
mod workholders;

pub use another::*;
pub use chart::*;
pub use cuts::*;
pub use fixed::*;
pub use lists::*;
pub use outside::*;
pub use pages::*;
pub use record::*;
pub use rows::*;
pub use sample::*;
pub use setups::*;
pub use text::*;
pub use trade::*;
pub use waiting::*;
pub use workholders::*;
