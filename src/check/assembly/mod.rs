//! Checks of what is put on the part, and how it gets there.

pub mod bore_fit;
pub mod cannot_pass;
pub mod hand_of_thread;
pub mod lead_chamfer;
pub mod passes_seat;
pub mod seal_edge;
pub mod trapped;
