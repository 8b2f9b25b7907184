//! A place in one of the files that were read.

/// Which file a place is in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum FileId {
    /// The part description.
    Part,
    /// The shop file.
    Shop,
}

/// A range of bytes in one file. Line and column are worked out where they are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Place {
    /// File.
    pub file: FileId,
    /// First byte.
    pub start: u32,
    /// Byte behind the last.
    pub end: u32,
}

impl Place {
    /// From byte `start` to before byte `end`.
    pub fn new(file: FileId, start: usize, end: usize) -> Self {
        let clip = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        Self { file, start: clip(start), end: clip(end.max(start)) }
    }

    /// The part of it from byte `from` to before `to`, both counted from its own start and held inside it.
    #[must_use]
    pub fn inside(self, from: usize, to: usize) -> Self {
        let clip = |n: usize| (self.start as usize + n).min(self.end as usize);
        Self::new(self.file, clip(from), clip(to))
    }

    /// Whether `other` lies wholly inside.
    pub fn covers(self, other: Self) -> bool {
        self.file == other.file && self.start <= other.start && other.end <= self.end
    }
}
