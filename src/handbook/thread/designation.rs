//! What a thread is called, as data, and how it is written.

use crate::unit::{Length, Unit, show};

use super::{EngagementGroup, Pitch};

/// Series of Unified threads.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum UnifiedSeries {
    /// Coarse.
    Unc,
    /// Fine.
    Unf,
    /// Extra fine.
    Unef,
    /// Constant pitch.
    Un,
    /// Special diameter, pitch or length of engagement.
    Uns,
}

/// Series of Whitworth-form screw threads.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum WhitworthSeries {
    /// BSW, coarse.
    Bsw,
    /// BSF, fine.
    Bsf,
}

/// Which of the ISO 7-1 pipe threads.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum TaperPipe {
    /// R: taper external.
    R,
    /// Rc: taper internal.
    Rc,
    /// Rp: parallel internal.
    Rp,
}

/// The standard a thread belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Family {
    /// Unified inch, ASME B1.1.
    UnifiedInch {
        /// Series.
        series: UnifiedSeries,
        /// Whether the designation asks for the rounded root (UNR).
        rounded_root: bool,
    },
    /// Acme general purpose (ASME B1.5) or stub Acme (ASME B1.8).
    Acme {
        /// Stub form.
        stub: bool,
    },
    /// ISO metric, ISO 261 and 965.
    IsoMetric,
    /// ISO metric trapezoidal, ISO 2901 to 2904.
    IsoTrapezoidal,
    /// Whitworth form, BS 84.
    Whitworth {
        /// Series.
        series: WhitworthSeries,
    },
    /// Parallel pipe thread not sealing in the thread (G), ISO 228-1.
    PipeParallel,
    /// American taper pipe thread, ASME B1.20.1.
    PipeTaperNpt,
    /// Pipe threads sealing in the thread, ISO 7-1.
    PipeTaperR {
        /// Which of them.
        kind: TaperPipe,
    },
    /// Square thread; no standard, common proportions.
    Square,
    /// 7°/45° buttress, ASME B1.9.
    Buttress {
        /// The leading flank is the pressure flank (`PUSH-BUTT`).
        push: bool,
    },
}

/// Hand of a thread.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Hand {
    /// Advances when turned clockwise.
    Right,
    /// `LH`.
    Left,
}

/// A thread by its name.
///
/// Equality leaves out [`Designation::text`], the way it was written.
#[derive(Debug, Clone)]
pub struct Designation {
    /// Standard and series.
    pub family: Family,
    /// Nominal size. For pipe threads the size's name (1/2 in), which is no diameter of it.
    pub nominal: Length,
    /// Pitch (not lead).
    pub pitch: Pitch,
    /// Number of starts, 1 or more.
    pub starts: u8,
    /// Hand.
    pub hand: Hand,
    /// Tolerance class as the standard writes it: `2A`, `3G`, `6g`, `4g6g`, `7H`; `None` where none was given.
    pub class: Option<String>,
    /// Group of lengths of engagement, metric and trapezoidal threads; normal where none was given.
    pub engagement: EngagementGroup,
    /// As it was written.
    pub text: String,
}

impl PartialEq for Designation {
    fn eq(&self, other: &Self) -> bool {
        self.key() == other.key()
    }
}

impl Eq for Designation {}

impl Designation {
    fn key(&self) -> (Family, Length, Pitch, u8, Hand, Option<&str>, EngagementGroup) {
        (self.family, self.nominal, self.pitch, self.starts, self.hand, self.class.as_deref(), self.engagement)
    }

    /// Lead: pitch times starts.
    pub fn lead(&self) -> Pitch {
        self.pitch.times(u32::from(self.starts))
    }

    /// The unit the thread's standard gives sizes in. Pipe threads G and R are named in inches and sized in millimetres.
    pub const fn unit(&self) -> Unit {
        match self.family {
            Family::PipeParallel | Family::PipeTaperR { .. } => Unit::Millimetre,
            _ => self.pitch.unit(),
        }
    }

    /// Whether an external thread was asked for by its class; `None` when the class does not say.
    pub fn external(&self) -> Option<bool> {
        if let Family::PipeTaperR { kind } = self.family {
            return Some(kind == TaperPipe::R);
        }
        let class = self.class.as_deref()?;
        match self.family {
            Family::UnifiedInch { .. } | Family::PipeParallel => {
                Some(!class.ends_with('B') || self.family == Family::PipeParallel)
            }
            Family::IsoMetric | Family::IsoTrapezoidal => match (
                class.contains(|c: char| c.is_ascii_lowercase()),
                class.contains(|c: char| c.is_ascii_uppercase()),
            ) {
                (true, false) => Some(true),
                (false, true) => Some(false),
                _ => None,
            },
            _ => None,
        }
    }

    /// The designation as the standard writes it; [`super::read`] reads it back to an equal one.
    pub fn show(&self) -> String {
        let mut text = match self.family {
            Family::IsoMetric => self.show_metric(),
            Family::IsoTrapezoidal => self.show_trapezoidal(),
            Family::PipeParallel => format!("G {}", inch_size(self.nominal)),
            Family::PipeTaperR { kind } => format!("{kind:?} {}", inch_size(self.nominal)),
            Family::Square if self.pitch.unit() == Unit::Millimetre => {
                format!("Square {}x{}{}", mm(self.nominal), self.lead().show(), self.starts_suffix())
            }
            _ => self.show_inch(),
        };
        if let Some(class) = &self.class {
            let gap = if self.family == Family::PipeParallel { ' ' } else { '-' };
            text.push(gap);
            text.push_str(class);
        }
        if self.engagement != EngagementGroup::Normal {
            text.push('-');
            text.push(self.engagement.letter());
        }
        if self.hand == Hand::Left {
            text.push_str(" LH");
        }
        text
    }

    fn starts_suffix(&self) -> String {
        if self.starts > 1 { format!("(P{})", self.pitch.show()) } else { String::new() }
    }

    fn show_metric(&self) -> String {
        if self.starts > 1 {
            return format!("M{}xPh{}P{}", mm(self.nominal), self.lead().show(), self.pitch.show());
        }
        format!("M{}x{}", mm(self.nominal), self.pitch.show())
    }

    fn show_trapezoidal(&self) -> String {
        format!("Tr {}x{}{}", mm(self.nominal), self.lead().show(), self.starts_suffix())
    }

    fn show_inch(&self) -> String {
        let size = match self.family {
            Family::UnifiedInch { .. } => number_size(self.nominal).unwrap_or_else(|| inch_size(self.nominal)),
            _ => inch_size(self.nominal),
        };
        let pitch = if self.starts == 1 {
            self.pitch.show()
        } else {
            match (self.pitch.decimal_inch(), self.lead().decimal_inch()) {
                (Some(p), Some(l)) => format!("{p}P-{l}L"),
                _ => format!("{} ({} starts)", self.pitch.show(), self.starts),
            }
        };
        format!("{size}-{pitch} {}", self.family.word())
    }
}

impl Family {
    /// The letters that name it in a designation.
    pub const fn word(self) -> &'static str {
        match self {
            Self::UnifiedInch { series, rounded_root } => match (series, rounded_root) {
                (UnifiedSeries::Unc, false) => "UNC",
                (UnifiedSeries::Unf, false) => "UNF",
                (UnifiedSeries::Unef, false) => "UNEF",
                (UnifiedSeries::Un, false) => "UN",
                (UnifiedSeries::Uns, false) => "UNS",
                (UnifiedSeries::Unc, true) => "UNRC",
                (UnifiedSeries::Unf, true) => "UNRF",
                (UnifiedSeries::Unef, true) => "UNREF",
                (UnifiedSeries::Un, true) => "UNR",
                (UnifiedSeries::Uns, true) => "UNRS",
            },
            Self::Acme { stub: false } => "ACME",
            Self::Acme { stub: true } => "STUB ACME",
            Self::IsoMetric => "M",
            Self::IsoTrapezoidal => "Tr",
            Self::Whitworth { series: WhitworthSeries::Bsw } => "BSW",
            Self::Whitworth { series: WhitworthSeries::Bsf } => "BSF",
            Self::PipeParallel => "G",
            Self::PipeTaperNpt => "NPT",
            Self::PipeTaperR { kind: TaperPipe::R } => "R",
            Self::PipeTaperR { kind: TaperPipe::Rc } => "Rc",
            Self::PipeTaperR { kind: TaperPipe::Rp } => "Rp",
            Self::Square => "SQUARE",
            Self::Buttress { push: false } => "BUTT",
            Self::Buttress { push: true } => "PUSH-BUTT",
        }
    }
}

/// Diameter of a numbered machine screw size: .060 in + .013 in each.
pub(super) fn number_diameter(number: u32) -> Length {
    Length::inch_tenths(600 + 130 * i64::from(number))
}

/// `No. 10` for .190 in; `None` for what is no number size in use.
fn number_size(nominal: Length) -> Option<String> {
    (0..=12).find(|n| number_diameter(*n) == nominal).map(|n| format!("No. {n}"))
}

/// `1 1/8`, `3/4`, `2`, or a decimal where it is no fraction to a 64th.
pub(crate) fn inch_size(nominal: Length) -> String {
    let sixty_fourth = Length::PER_INCH.times_ratio(1, 64).pm();
    let n = nominal.pm() / sixty_fourth;
    if n <= 0 || n * sixty_fourth != nominal.pm() {
        return show::exact(nominal, Unit::Inch, 3, 7);
    }
    let (whole, mut top, mut bottom) = (n / 64, n % 64, 64);
    while top > 0 && top % 2 == 0 {
        top /= 2;
        bottom /= 2;
    }
    match (whole, top) {
        (w, 0) => w.to_string(),
        (0, t) => format!("{t}/{bottom}"),
        (w, t) => format!("{w} {t}/{bottom}"),
    }
}

fn mm(nominal: Length) -> String {
    show::exact(nominal, Unit::Millimetre, 0, 6)
}
