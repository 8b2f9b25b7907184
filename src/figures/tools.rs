//! What to lay out before the first chip.

/// Two lists to tick off.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Layout {
    /// Tools and what holds the work.
    pub tools: Vec<String>,
    /// Instruments, wires and mating parts.
    pub instruments: Vec<String>,
}
