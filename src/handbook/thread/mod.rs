//! Screw threads: what they are called, their limits, and what a hand needs to cut and measure them.
//!
//! [`read`] turns a designation into data, [`limits`] tells everything about it, [`series()`] and [`nearest`] list what exists.
//!
//! ```
//! use turnwright::{handbook::thread, unit::Length};
//! let stud = thread::read("5/8-18 UNF-2A").expect("a Unified thread");
//! let data = thread::limits(&stud, &thread::Asked::default()).expect("in the series");
//! let external = data.external.expect("2A is external");
//! assert_eq!(external.pitch_diameter.max, Length::inch_tenths(5875));
//! assert_eq!(external.pitch_diameter.min, Length::inch_tenths(5828));
//! ```

mod acme;
mod asked;
mod buttress;
mod data;
mod designation;
mod engagement;
mod feed;
mod limits;
mod metric;
mod pipe;
mod pitch;
mod read;
mod relief;
mod scan;
mod series;
mod square;
mod tap;
mod taper;
mod trapezoidal;
mod unified;
mod whitworth;
mod wires;
mod words;

pub use asked::{Asked, Unknown};
pub use data::{External, Feed, Form, Internal, OverWires, Relief, TapDrill, Taper, ThreadData, Wire};
pub(crate) use designation::inch_size;
pub use designation::{Designation, Family, Hand, TaperPipe, UnifiedSeries, WhitworthSeries};
pub use engagement::{EngagementGroup, NormalEngagement, normal_engagement};
pub use limits::{crest, limits, single_point_root};
pub use pitch::Pitch;
pub use read::{BadThread, BadThreadWhy, read};
pub use relief::relief_source;
pub use series::{ALL, is_standard, nearest, series};
pub use tap::{percent, tap_drills};
pub use wires::{over_wires, pitch_diameter_of};
