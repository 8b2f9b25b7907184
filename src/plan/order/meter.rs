//! What a search may spend.

use std::time::{Duration, Instant};

/// How long and how large a search may get before it hands back the best it has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limits {
    /// Time in seconds.
    pub seconds: u64,
    /// Memory for the states kept, in bytes.
    pub bytes: usize,
    /// When several searches share their time: the moment it is over for all of them.
    pub until: Option<Instant>,
}

impl Default for Limits {
    /// Ten seconds and 400 MiB.
    fn default() -> Self {
        Self { seconds: 10, bytes: 400 << 20, until: None }
    }
}

/// [`Limits`] with the clock running.
#[derive(Debug, Clone, Copy)]
pub(super) struct Meter {
    end: Option<Instant>,
    pub(super) bytes: usize,
}

impl Meter {
    pub(super) fn start(limits: Limits) -> Self {
        let own = Instant::now().checked_add(Duration::from_secs(limits.seconds));
        let end = limits.until.map_or(own, |until| Some(own.map_or(until, |own| own.min(until))));
        Self { end, bytes: limits.bytes }
    }

    /// The same, without the clock.
    pub(super) fn patient(self) -> Self {
        Self { end: None, ..self }
    }

    pub(super) fn out_of_time(&self) -> bool {
        self.end.is_some_and(|end| Instant::now() >= end)
    }
}

/// Looks at the limits once in so many steps, since looking costs more than a step.
#[derive(Debug)]
pub(super) struct Pace {
    every: u32,
    steps: u32,
}

impl Pace {
    /// For steps whose work grows with the square of the number of blocks.
    pub(super) fn of(blocks: usize) -> Self {
        Self { every: (1_000_000 / blocks.pow(2).max(1)).clamp(1, 256) as u32, steps: 0 }
    }

    pub(super) fn due(&mut self) -> bool {
        self.steps = self.steps.wrapping_add(1);
        self.steps.is_multiple_of(self.every)
    }
}

/// Bytes of a hash table or list of `T`; one that is nearly full is about to be copied into one twice as large.
pub(super) fn table_bytes<T>(len: usize, capacity: usize) -> usize {
    let now = capacity * (size_of::<T>() + 1) / 7 * 8;
    if len + len / 16 >= capacity { now * 3 } else { now }
}
