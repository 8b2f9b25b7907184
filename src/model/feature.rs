//! Sections and what lies on them.

pub use super::carried::{Carried, TrueTo};
pub use super::outside::{Crown, Finish, FlatMeasure, Knurl, KnurlPattern, Undercut};
pub use super::thread::{Hand, PipeTaper, Thread, ThreadForm};
use super::trade_words::kind_word;
use super::{Size, Text};
use crate::finding::Place;
use crate::unit::Length;

/// One of the part's two ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum End {
    /// The end every length is measured from.
    Datum,
    /// The other one.
    Far,
}

impl End {
    /// `datum` or `far`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Datum => "datum",
            Self::Far => "far",
        }
    }

    /// The other end.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Datum => Self::Far,
            Self::Far => Self::Datum,
        }
    }
}

/// `end: datum | far | both`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ends {
    /// One end.
    One(End),
    /// Both.
    Both,
}

impl Ends {
    /// Whether it is at this end.
    pub fn at(self, end: End) -> bool {
        self == Self::Both || self == Self::One(end)
    }
}

/// Which of a feature's two faces: the one nearer the datum end, or the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum FaceSide {
    /// Toward the datum end.
    Start,
    /// Toward the far end.
    End,
}

/// A place as written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PlaceRef {
    /// A distance from the datum end.
    FromDatum(Size),
    /// The far end (`end`).
    FarEnd(Place),
    /// `start` or `end` of a named feature.
    Face {
        /// Feature.
        feature: usize,
        /// Which face.
        side: FaceSide,
        /// Where it is written.
        place: Place,
    },
    /// A signed distance from another face, positive away from the datum end.
    Relative {
        /// Distance.
        size: Size,
        /// From here.
        of: Box<PlaceRef>,
    },
}

impl PlaceRef {
    /// Where it is written.
    pub fn place(&self) -> Place {
        match self {
            Self::FromDatum(size) | Self::Relative { size, .. } => size.place,
            Self::FarEnd(place) | Self::Face { place, .. } => *place,
        }
    }
}

/// Where a chamfer or fillet sits.
#[derive(Debug, Clone)]
pub enum EdgeAt {
    /// The edge of an end face.
    End(End),
    /// The step at a face between two sections.
    Face(PlaceRef),
}

/// One entry of `features:`.
#[derive(Debug, Clone)]
pub struct Feature {
    /// Index in the file.
    pub id: usize,
    /// Letter on the sheet: sections first, then what lies on them. Empty for chamfers, fillets and center holes.
    pub letter: String,
    /// `name:`.
    pub name: Option<Text>,
    /// What it is, with its own sizes.
    pub kind: Kind,
    /// `from:` of a section, where its start is said again: it names a face and is no dimension.
    pub starts: Option<PlaceRef>,
    /// `finish:` roughness.
    pub finish: Option<Finish>,
    /// `carries:`.
    pub carries: Vec<Carried>,
    /// `true to: NAME within 0.001 TIR`.
    pub true_to: Option<TrueTo>,
    /// `offset:` of an eccentric section's axis from the part's own.
    pub offset: Option<Size>,
    /// `angle:` clocking in thousandths of a degree, counter-clockwise seen from the datum end.
    pub angle_mdeg: Option<i64>,
    /// The whole entry.
    pub place: Place,
    /// Its first line: kind and main size.
    pub head: Place,
    /// The main size alone.
    pub value: Place,
}

impl Feature {
    /// Name, else letter, else kind: how a sentence speaks of it.
    pub fn called(&self) -> String {
        match (&self.name, self.letter.as_str()) {
            (Some(name), _) => name.text.clone(),
            (None, "") => kind_word(self.kind.word()),
            (None, letter) => format!("{} {letter}", kind_word(self.kind.word())),
        }
    }
}

/// What a feature is.
#[derive(Debug, Clone)]
pub enum Kind {
    /// A cylinder.
    Turn {
        /// Diameter; for a kept surface the bar's own with its limits.
        diameter: Size,
        /// `stock`: the bar's own surface stays.
        kept: bool,
        /// Where it ends.
        to: Extent,
    },
    /// A cylinder whose axis lies `offset` away from the part's own.
    Eccentric {
        /// Diameter about its own axis.
        diameter: Size,
        /// Where it ends.
        to: Extent,
    },
    /// A thread relief or other neck.
    Relief {
        /// Bottom diameter.
        diameter: Size,
        /// `corner:` radius.
        corner: Option<Size>,
        /// Where it ends.
        to: Extent,
    },
    /// An external thread.
    Thread {
        /// The thread.
        thread: Box<Thread>,
        /// Where it ends.
        to: Extent,
    },
    /// A taper.
    Taper {
        /// Diameter at the section's start (toward the datum end).
        start: Size,
        /// Diameter at its end.
        end: Size,
        /// Half of the included angle, degrees, from the diameters or the rate as written.
        half_angle_deg: f64,
        /// As written: `1:10`, `MT3` …
        rate: Text,
        /// Where it ends.
        to: Extent,
    },
    /// A knurled length.
    Knurl {
        /// The knurl.
        knurl: Box<Knurl>,
        /// Where it ends.
        to: Extent,
    },
    /// A groove on a section.
    Groove {
        /// Bottom diameter.
        diameter: Size,
        /// The wall nearer the datum end, or the one the other is dimensioned from.
        from: PlaceRef,
        /// Width.
        wide: Size,
        /// `ring:` thickness of the retaining ring it is for.
        ring: Option<Size>,
        /// The ring it is cut for, where the size was given by it: `ring DIN 471 25`, `O-ring 2-214`.
        fits: Option<Text>,
    },
    /// An undercut in the corner of a shoulder.
    Undercut {
        /// Its form.
        undercut: Box<Undercut>,
        /// The shoulder.
        at: PlaceRef,
        /// On which side of the shoulder the seat lies.
        seat: End,
        /// Its width as a distance from the shoulder: below zero toward the datum end.
        wide: Size,
    },
    /// Flats around a section: one, two, a square, a hexagon.
    Flats {
        /// Size with its limits, as `measure` says.
        size: Size,
        /// What the size is.
        measure: FlatMeasure,
        /// How many, evenly around.
        count: u8,
        /// End nearer the datum end.
        from: PlaceRef,
        /// Other end.
        to: Extent,
    },
    /// A chamfer.
    Chamfer {
        /// Leg along the axis.
        leg: Size,
        /// Angle to the axis in thousandths of a degree.
        angle_mdeg: i64,
        /// Where.
        at: EdgeAt,
    },
    /// A domed end.
    Crown {
        /// Its shape.
        crown: Box<Crown>,
    },
    /// An inside corner radius.
    Fillet {
        /// Radius; its limits are 0 to the size unless more is said.
        radius: Size,
        /// Where.
        at: PlaceRef,
    },
    /// A Woodruff keyseat.
    Woodruff {
        /// Key number as written (`606`).
        number: String,
        /// Its centre.
        at: PlaceRef,
    },
    /// A keyseat for a parallel key, end-milled unless open.
    ParallelKeyseat {
        /// Key width.
        width: Size,
        /// Key height.
        height: Size,
        /// Length.
        length: Size,
        /// End nearer the datum end.
        from: PlaceRef,
        /// `open: datum | far`: runs out at this end.
        open: Option<End>,
        /// `through: NAME`: the feature it is meant to run through.
        through: Option<usize>,
    },
    /// A hole across the axis.
    CrossHole {
        /// Diameter.
        diameter: Size,
        /// Its centre.
        at: PlaceRef,
        /// `meets: NAME`: the feature it is meant to run into.
        meets: Option<usize>,
        /// `deep:` from the surface, to the drill's full diameter, where it does not go through.
        deep: Option<Size>,
        /// A tapped hole across the part; `diameter` is then its drill.
        tapped: Option<Box<super::Tapped>>,
    },
    /// A bore or hole along the axis, or what is cut in one.
    Inside(Box<super::Inside>),
    /// Center holes, or none (`center hole: none`).
    CenterHole {
        /// Form letter (A, B, R …) or empty; none when the drawing forbids the hole.
        size: Option<CenterSize>,
        /// Which ends.
        ends: Ends,
    },
    /// A kind that is known but not worked yet, or one whose main size could not be read; a slip tells which.
    NotYet {
        /// The trade's word.
        word: String,
        /// Where it ends, when it is a section: the lengths are told even when the rest is not.
        to: Option<Extent>,
    },
}

impl Kind {
    /// Whether it is a length of the part, one of those that meet end to end.
    pub const fn is_section(&self) -> bool {
        self.extent().is_some()
    }

    /// Where a section ends.
    pub const fn extent(&self) -> Option<&Extent> {
        match self {
            Self::Turn { to, .. }
            | Self::Eccentric { to, .. }
            | Self::Relief { to, .. }
            | Self::Thread { to, .. }
            | Self::Taper { to, .. }
            | Self::Knurl { to, .. }
            | Self::NotYet { to: Some(to), .. } => Some(to),
            _ => None,
        }
    }

    /// The trade's word.
    pub fn word(&self) -> &str {
        match self {
            Self::Turn { .. } => "turn",
            Self::Eccentric { .. } => "eccentric",
            Self::Relief { .. } => "relief",
            Self::Thread { .. } => "thread",
            Self::Taper { .. } => "taper",
            Self::Knurl { .. } => "knurl",
            Self::Groove { .. } => "groove",
            Self::Undercut { .. } => "undercut",
            Self::Flats { count, .. } => match count {
                1 => "flat",
                4 => "square",
                6 => "hexagon",
                _ => "flats",
            },
            Self::Chamfer { .. } => "chamfer",
            Self::Crown { .. } => "crown",
            Self::Fillet { .. } => "fillet",
            Self::Woodruff { .. } | Self::ParallelKeyseat { .. } => "keyseat",
            Self::CrossHole { tapped: Some(_), .. } => "tapped hole",
            Self::CrossHole { .. } => "cross hole",
            Self::Inside(inside) => inside.cut.word(),
            Self::CenterHole { .. } => "center hole",
            Self::NotYet { word, .. } => word,
        }
    }
}

/// How a section's end is located.
#[derive(Debug, Clone)]
pub enum Extent {
    /// `to:` a place.
    To(PlaceRef),
    /// `long:` from its own start.
    Long(Size),
    /// Both: a stated length and a stated place, which must agree.
    Both(PlaceRef, Size),
    /// Neither: the overall, or the other lengths, locate it.
    Open,
}

/// A center hole.
#[derive(Debug, Clone)]
pub struct CenterSize {
    /// As written: `A 1/8`, `No. 3`, `B 2.5`.
    pub text: String,
    /// Form letter.
    pub form: String,
    /// Drill diameter.
    pub drill: Length,
    /// Mouth of the 60° cone.
    pub mouth: Length,
    /// Depth from the face to the end of the cone plus pilot; of a tapped form that of the core hole.
    pub depth: Length,
    /// A tapped form: its thread, and the depth of full thread from the face.
    pub tapped: Option<Box<(super::Tapped, Length)>>,
}
