//! Exact lengths, limits and the sizes people write; knows nothing of lathes.
//!
//! A length is a whole number of picometres, in which inch decimals, binary fractions of an inch and
//! millimetres all add up without rounding. Rounding happens once, in [`show`].
//!
//! ```
//! use turnwright::unit::{Length, Unit, show};
//! let shoulder = Length::from_f64(0.5, Unit::Inch).checked_add(Length::from_f64(1.0, Unit::Millimetre)).expect("no overflow");
//! assert_eq!(show::length(shoulder, Unit::Millimetre, 3), "13.700");
//! ```

mod example;
mod length;
mod limits;
mod number;
pub mod show;
mod size;

pub use example::example_in;
pub use length::{Diameter, Length, Station, Unit};
pub use limits::Limits;
pub use number::{BadNumber, Number, NumberForm, Why, read_number};
pub use size::{SizeText, ToleranceText, read_size};
