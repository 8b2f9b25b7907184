//! Where a key may stand, and what its value is.

/// Where a key may stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "the words of the description; `called` says each in the trade's words")]
pub enum Scope {
    Header,
    Tolerances,
    Kind,
    Turn,
    Relief,
    Thread,
    Taper,
    Knurl,
    Groove,
    Undercut,
    Crown,
    Chamfer,
    Fillet,
    Keyseat,
    Flat,
    CrossHole,
    TappedHole,
    CenterHole,
    Hole,
    InsideKind,
    InsideBore,
    InsideThread,
    InsideRelief,
    InsideTaper,
    InsideGroove,
    InsideChamfer,
    Carries,
    Dim,
    Accept,
    Measured,
    Plan,
    Cut,
    ChartFaces,
    ChartStock,
    ByEnd,
    Shop,
    CrossDial,
    Dial,
    ThreadDial,
    Gearbox,
    DividingHead,
    Chuck,
    Rest,
    Dog,
    Stiffness,
    SurfaceSpeed,
    DepthOfCut,
    CanHold,
    Minutes,
    Tool,
    Instrument,
}

impl Scope {
    /// What may be asked to run true to something else.
    pub const RUNS_TRUE: &'static [Self] = &[
        Self::Turn,
        Self::Relief,
        Self::Thread,
        Self::Taper,
        Self::Groove,
        Self::InsideBore,
        Self::InsideTaper,
        Self::InsideThread,
    ];

    /// Every one.
    pub const ALL: &'static [Self] = &[
        Self::Header,
        Self::Tolerances,
        Self::Turn,
        Self::Relief,
        Self::Thread,
        Self::Taper,
        Self::Knurl,
        Self::Groove,
        Self::Undercut,
        Self::Crown,
        Self::Chamfer,
        Self::Fillet,
        Self::Keyseat,
        Self::Flat,
        Self::CrossHole,
        Self::TappedHole,
        Self::CenterHole,
        Self::Hole,
        Self::InsideBore,
        Self::InsideThread,
        Self::InsideRelief,
        Self::InsideTaper,
        Self::InsideGroove,
        Self::InsideChamfer,
        Self::Carries,
        Self::Dim,
        Self::Accept,
        Self::Measured,
        Self::Plan,
        Self::Cut,
        Self::ChartFaces,
        Self::ChartStock,
        Self::ByEnd,
        Self::Shop,
        Self::CrossDial,
        Self::Dial,
        Self::ThreadDial,
        Self::Gearbox,
        Self::DividingHead,
        Self::Chuck,
        Self::Rest,
        Self::Dog,
        Self::Stiffness,
        Self::SurfaceSpeed,
        Self::DepthOfCut,
        Self::CanHold,
        Self::Minutes,
        Self::Tool,
        Self::Instrument,
    ];

    /// Whether it stands in a shop file.
    pub const fn is_shop(self) -> bool {
        self as u8 >= Self::Shop as u8
    }

    /// In the trade's words, as a sentence has it behind "in" or "belongs to".
    pub const fn called(self) -> &'static str {
        match self {
            Self::Header => "the head of a description",
            Self::Tolerances => "tolerances",
            Self::Kind => "features",
            Self::Turn => "a turn",
            Self::Relief => "a relief",
            Self::Thread => "a thread",
            Self::Taper => "a taper",
            Self::Knurl => "a knurl",
            Self::Groove => "a groove",
            Self::Undercut => "an undercut",
            Self::Crown => "a crown",
            Self::Chamfer => "a chamfer",
            Self::Fillet => "a fillet",
            Self::Keyseat => "a keyseat",
            Self::Flat => "a flat",
            Self::CrossHole => "a cross hole",
            Self::TappedHole => "a tapped hole",
            Self::CenterHole => "a center hole",
            Self::Hole => "a hole",
            Self::InsideKind => "inside",
            Self::InsideBore => "a bore",
            Self::InsideThread => "an internal thread",
            Self::InsideRelief => "an inside relief",
            Self::InsideTaper => "an inside taper",
            Self::InsideGroove => "an inside groove",
            Self::InsideChamfer => "an inside chamfer",
            Self::Carries => "carries",
            Self::Dim => "an entry of dims",
            Self::Accept => "an entry of accept",
            Self::Measured => "an entry of measured",
            Self::Plan => "plan",
            Self::Cut => "a cut",
            Self::ChartFaces => "faces",
            Self::ChartStock => "stock least",
            Self::ByEnd => "holding",
            Self::Shop => "a shop file",
            Self::CrossDial => "cross dial",
            Self::Dial => "a dial",
            Self::ThreadDial => "thread dial",
            Self::Gearbox => "threads",
            Self::DividingHead => "dividing head",
            Self::Chuck => "an entry of chucks",
            Self::Rest => "an entry of rests",
            Self::Dog => "an entry of dogs",
            Self::Stiffness => "stiffness",
            Self::SurfaceSpeed => "surface speed",
            Self::DepthOfCut => "depth of cut",
            Self::CanHold => "can hold",
            Self::Minutes => "minutes",
            Self::Tool => "an entry of tools",
            Self::Instrument => "an entry of instruments",
        }
    }
}

/// What the value of a key is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Takes {
    /// Words.
    Text,
    /// Many lines of words.
    Prose,
    /// A length with its limits.
    Size,
    /// A diameter with its limits.
    Diameter,
    /// Limits alone, `±0.005`.
    Limits,
    /// A place on the part.
    Place,
    /// An angle in degrees.
    Angle,
    /// A number without a unit.
    Number,
    /// Yes or no.
    YesNo,
    /// One of these words.
    OneOf(&'static [&'static str]),
    /// Keys of their own.
    Keys(Scope),
    /// A list of entries with keys.
    Entries(Scope),
    /// A list of sizes, numbers or words.
    List,
    /// Known to the trade, not worked by this version.
    NotYet,
}

impl Takes {
    /// What is wanted, with its article.
    pub const fn called(self) -> &'static str {
        match self {
            Self::Text | Self::Prose => "words",
            Self::Size => "a size",
            Self::Diameter => "a diameter",
            Self::Limits => "limits",
            Self::Place => "a place",
            Self::Angle => "an angle",
            Self::Number => "a number",
            Self::YesNo => "yes or no",
            Self::OneOf(_) => "one word",
            Self::Keys(_) => "keys with values",
            Self::Entries(_) => "a list of entries",
            Self::List => "a list",
            Self::NotYet => "a value",
        }
    }
}
