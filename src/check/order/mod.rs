//! Checks of the order of operations: of the plan, and of what the description wishes.

pub mod center_lost;
pub mod drilled_late;
pub mod polish_keyseat;
pub mod relief_thread;
pub mod thread_seat;
pub mod wish_not_followed;
