//! Topics, options and their help.

use clap::{Parser, Subcommand, ValueEnum};

use crate::cli::args::Format;
use crate::unit::Unit;

/// The table in the plastic sleeve: threads, fits, keys, center holes, drills, tapers, reliefs, materials, speeds and more.
#[derive(Debug, Parser)]
#[command(name = "handbook", subcommand_required = false)]
#[command(
    after_help = "Examples:\n  turnwright handbook\n  turnwright handbook fit \"25 mm k6\"\n  turnwright handbook key \"Woodruff 606\" --shaft 0.875\n  turnwright handbook speed --material 1045 --diameter \"1.25 in\" --format json\n\nFigures marked \"from memory\" were not seen in print: look them up before metal depends on them."
)]
pub struct HandbookArgs {
    /// What to look up; without one, the topics are listed.
    #[command(subcommand)]
    pub topic: Option<Topic>,
}

/// Units as options name them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Units {
    /// Inches.
    In,
    /// Millimetres.
    Mm,
}

/// What every topic takes.
#[derive(Debug, Clone, Copy, clap::Args)]
pub struct Show {
    /// Unit of numbers that carry none, and of the answer.
    #[arg(long, value_enum)]
    pub units: Option<Units>,
    /// How the answer is printed.
    #[arg(long, value_enum, default_value = "text")]
    pub format: Format,
    /// Show lengths in the other unit too (text).
    #[arg(long)]
    pub both: bool,
}

impl Show {
    /// The unit asked for, if one was.
    pub fn unit(self) -> Option<Unit> {
        self.units.map(|u| match u {
            Units::In => Unit::Inch,
            Units::Mm => Unit::Millimetre,
        })
    }
}

/// The topics.
#[derive(Debug, Subcommand)]
pub enum Topic {
    /// A screw thread: limits, depths, compound travel, wires, tap drill, relief
    #[command(
        after_help = "Examples:\n  turnwright handbook thread\n  turnwright handbook thread \"3/4-16 UNF-2A\"\n  turnwright handbook thread \"M16x1.5-6g LH\" --wire 0.866\n  turnwright handbook thread M16x1.5 --engagement 20"
    )]
    Thread(super::thread::ThreadArgs),
    /// A fit: ISO 286 (k6, H7, H7/k6) or ANSI B4.1 (RC3)
    #[command(
        after_help = "Examples:\n  turnwright handbook fit \"25 mm k6\"\n  turnwright handbook fit \"1.000 RC3\" --units in\n  turnwright handbook fit"
    )]
    Fit(super::fit::FitArgs),
    /// A key and its keyseat: parallel for a shaft, or Woodruff by number
    #[command(
        after_help = "Examples:\n  turnwright handbook key \"1.250 in\"\n  turnwright handbook key 25 --units mm\n  turnwright handbook key \"Woodruff 606\" --shaft 0.875"
    )]
    Key(super::key::KeyArgs),
    /// A center hole: A 2.5, B 3.15, R 4, D M8, No. 3, A 1/8
    #[command(
        after_help = "Examples:\n  turnwright handbook center \"A 2.5\"\n  turnwright handbook center \"No. 3\"\n  turnwright handbook center --shaft \"25 mm\""
    )]
    Center(super::center::CenterArgs),
    /// A drill by its name, or the tap drill of a thread
    #[command(after_help = "Examples:\n  turnwright handbook drill 27/64\n  turnwright handbook drill \"1/2-13 UNC\"")]
    Drill(super::drill::DrillArgs),
    /// A taper: ratio, per foot, angle, or a named machine taper; set-over of the tailstock
    #[command(
        after_help = "Examples:\n  turnwright handbook taper 1:10 --whole \"196 mm\"\n  turnwright handbook taper MT3\n  turnwright handbook taper \"2.86° a side\""
    )]
    Taper(super::taper::TaperArgs),
    /// A thread relief (DIN 76-1, practice) or an undercut (DIN 509)
    #[command(
        after_help = "Examples:\n  turnwright handbook relief M16x1.5\n  turnwright handbook relief \"DIN 509 F\" --shaft 25"
    )]
    Relief(super::relief::ReliefArgs),
    /// A groove for a retaining ring on a shaft: DIN 471, ASME B18.27
    #[command(after_help = "Example:\n  turnwright handbook ring \"25 mm\"")]
    Ring(super::ring::RingArgs),
    /// An O-ring groove on a shaft, by the ring's cross-section
    #[command(
        name = "o-ring",
        alias = "oring",
        after_help = "Example:\n  turnwright handbook o-ring \".139 in\" --bore \"1.500 in\""
    )]
    ORing(super::o_ring::ORingArgs),
    /// A deep-groove ball bearing by number, or those with a bore
    #[command(
        after_help = "Examples:\n  turnwright handbook bearing 6204\n  turnwright handbook bearing --bore \"20 mm\""
    )]
    Bearing(super::bearing::BearingArgs),
    /// Widths across flats and corners, and flats on a round
    #[command(after_help = "Example:\n  turnwright handbook wrench \"14 mm\" --round \"18 mm\"")]
    Wrench(super::wrench::WrenchArgs),
    /// A knurl: growth by DIN 82 or diametral pitch (ASME B94.6), whole teeth around the blank
    #[command(
        after_help = "Examples:\n  turnwright handbook knurl RAA --pitch \"0.8 mm\" --blank \"20 mm\"\n  turnwright handbook knurl \"96 DP\" --blank \"0.500 in\""
    )]
    Knurl(super::knurl::KnurlArgs),
    /// A bar material: names, cautions, weight, growth, speeds
    #[command(
        after_help = "Examples:\n  turnwright handbook material \"4140 pre-hardened\"\n  turnwright handbook material"
    )]
    Material(super::material::MaterialArgs),
    /// Speed of rotation from surface speed and diameter
    #[command(
        after_help = "Examples:\n  turnwright handbook speed --material 1045 --tool hss --diameter \"1.25 in\"\n  turnwright handbook speed --surface-speed 90 --diameter 1.25 --units in"
    )]
    Speed(super::speed::SpeedArgs),
    /// At which lines of the thread dial the half-nuts may be closed
    #[command(
        after_help = "Example:\n  turnwright handbook dial \"13 tpi\" --leadscrew \"8 tpi\" --teeth 32 --marks 8 --engraved \"1 - 2 - 3 - 4 -\""
    )]
    Dial(super::dial::DialArgs),
    /// How far a stepped bar gives under the tool
    #[command(
        after_help = "Example:\n  turnwright handbook deflection --hold chuck-center --bar \"30x150 20x150\" --force 200 --at 150 --units mm\n  turnwright handbook deflection --hold chuck-rest --rest 300 --bar \"30x360\" --force 200 --at 360 --units mm\n\nMillimetres: newtons, MPa, N/mm. Inches: pounds-force, psi, lbf/in."
    )]
    Deflection(super::deflection::DeflectionArgs),
    /// When a bar out of the spindle's rear begins to whip
    #[command(after_help = "Example:\n  turnwright handbook whip 25 --length 1000 --units mm")]
    Whip(super::whip::WhipArgs),
    /// How much a piece grows when it warms
    #[command(
        after_help = "Example:\n  turnwright handbook heat 50 --rise 30 --material steel --units mm\n\nThe rise is in kelvin for millimetres, in degrees Fahrenheit for inches."
    )]
    Heat(super::heat::HeatArgs),
    /// A bar held off its axis: packing under one jaw, what the indicator reads, what swings
    #[command(after_help = "Example:\n  turnwright handbook eccentric \"0.313 in\" --diameter 3.375")]
    Eccentric(super::eccentric::EccentricArgs),
}

impl Topic {
    /// How this topic's answer is to be shown.
    pub(super) fn show(&self) -> Show {
        match self {
            Self::Thread(a) => a.show,
            Self::Fit(a) => a.show,
            Self::Key(a) => a.show,
            Self::Center(a) => a.show,
            Self::Drill(a) => a.show,
            Self::Taper(a) => a.show,
            Self::Relief(a) => a.show,
            Self::Ring(a) => a.show,
            Self::ORing(a) => a.show,
            Self::Bearing(a) => a.show,
            Self::Wrench(a) => a.show,
            Self::Knurl(a) => a.show,
            Self::Material(a) => a.show,
            Self::Speed(a) => a.show,
            Self::Dial(a) => a.show,
            Self::Deflection(a) => a.show,
            Self::Whip(a) => a.show,
            Self::Heat(a) => a.show,
            Self::Eccentric(a) => a.show,
        }
    }
}

/// A number above zero.
pub(super) fn positive(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(v) if v.is_finite() && v > 0.0 && v <= 1e15 => Ok(v),
        _ => Err("say a number above zero".to_owned()),
    }
}

/// A number of degrees.
pub(super) fn finite(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(v) if v.is_finite() && v.abs() <= 1e6 => Ok(v),
        _ => Err("say a number of degrees".to_owned()),
    }
}
