//! What an operation does.

/// What an operation does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[expect(missing_docs, reason = "the trade's own verbs")]
pub enum Verb {
    Face,
    Center,
    Rough,
    Finish,
    Turn,
    Groove,
    Chamfer,
    Thread,
    Taper,
    Knurl,
    Drill,
    Bore,
    Ream,
    Tap,
    Mill,
    Polish,
    File,
    Deburr,
    PartOff,
    Inspect,
    FitTest,
    HeatTreat,
}

impl Verb {
    /// As the JSON and the sheet have it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Face => "face",
            Self::Center => "center",
            Self::Rough => "rough",
            Self::Finish => "finish",
            Self::Turn => "turn",
            Self::Groove => "groove",
            Self::Chamfer => "chamfer",
            Self::Thread => "thread",
            Self::Taper => "taper",
            Self::Knurl => "knurl",
            Self::Drill => "drill",
            Self::Bore => "bore",
            Self::Ream => "ream",
            Self::Tap => "tap",
            Self::Mill => "mill",
            Self::Polish => "polish",
            Self::File => "file",
            Self::Deburr => "deburr",
            Self::PartOff => "part off",
            Self::Inspect => "inspect",
            Self::FitTest => "fit test",
            Self::HeatTreat => "heat treat",
        }
    }
}
