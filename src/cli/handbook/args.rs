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
        after_help = "Examples:\n  turnwright handbook thread\n  turnwright handbook thread \"3/4-16 UNF-2A\"\n  turnwright handbook thread \"M16x1.5-6g LH\" --wire 0.866"
    )]
    Thread(ThreadArgs),
    /// A fit: ISO 286 (k6, H7, H7/k6) or ANSI B4.1 (RC3)
    #[command(
        after_help = "Examples:\n  turnwright handbook fit \"25 mm k6\"\n  turnwright handbook fit \"1.000 RC3\" --units in\n  turnwright handbook fit"
    )]
    Fit(FitArgs),
    /// A key and its keyseat: parallel for a shaft, or Woodruff by number
    #[command(
        after_help = "Examples:\n  turnwright handbook key \"1.250 in\"\n  turnwright handbook key 25 --units mm\n  turnwright handbook key \"Woodruff 606\" --shaft 0.875"
    )]
    Key(KeyArgs),
    /// A center hole: A 2.5, B 3.15, R 4, D M8, No. 3, A 1/8
    #[command(
        after_help = "Examples:\n  turnwright handbook center \"A 2.5\"\n  turnwright handbook center \"No. 3\"\n  turnwright handbook center --shaft \"25 mm\""
    )]
    Center(CenterArgs),
    /// A drill by its name, or the tap drill of a thread
    #[command(after_help = "Examples:\n  turnwright handbook drill 27/64\n  turnwright handbook drill \"1/2-13 UNC\"")]
    Drill(DrillArgs),
    /// A taper: ratio, per foot, angle, or a named machine taper; set-over of the tailstock
    #[command(
        after_help = "Examples:\n  turnwright handbook taper 1:10 --whole \"196 mm\"\n  turnwright handbook taper MT3\n  turnwright handbook taper \"2.86° a side\""
    )]
    Taper(TaperArgs),
    /// A thread relief (DIN 76-1, practice) or an undercut (DIN 509)
    #[command(
        after_help = "Examples:\n  turnwright handbook relief M16x1.5\n  turnwright handbook relief \"DIN 509 F\" --shaft 25"
    )]
    Relief(ReliefArgs),
    /// A groove for a retaining ring on a shaft: DIN 471, ASME B18.27
    #[command(after_help = "Example:\n  turnwright handbook ring \"25 mm\"")]
    Ring(RingArgs),
    /// An O-ring groove on a shaft, by the ring's cross-section
    #[command(name = "o-ring", after_help = "Example:\n  turnwright handbook o-ring \".139 in\" --bore \"1.500 in\"")]
    ORing(ORingArgs),
    /// A deep-groove ball bearing by number, or those with a bore
    #[command(
        after_help = "Examples:\n  turnwright handbook bearing 6204\n  turnwright handbook bearing --bore \"20 mm\""
    )]
    Bearing(BearingArgs),
    /// Widths across flats and corners, and flats on a round
    #[command(after_help = "Example:\n  turnwright handbook wrench \"14 mm\" --round \"18 mm\"")]
    Wrench(WrenchArgs),
    /// A knurl: growth by DIN 82, whole teeth around the blank
    #[command(after_help = "Example:\n  turnwright handbook knurl RAA --pitch \"0.8 mm\" --blank \"20 mm\"")]
    Knurl(KnurlArgs),
    /// A bar material: names, cautions, weight, growth, speeds
    #[command(
        after_help = "Examples:\n  turnwright handbook material \"4140 pre-hardened\"\n  turnwright handbook material"
    )]
    Material(MaterialArgs),
    /// Speed of rotation from surface speed and diameter
    #[command(
        after_help = "Examples:\n  turnwright handbook speed --material 1045 --tool hss --diameter \"1.25 in\"\n  turnwright handbook speed --surface-speed 90 --diameter 1.25 --units in"
    )]
    Speed(SpeedArgs),
    /// At which lines of the thread dial the half-nuts may be closed
    #[command(
        after_help = "Example:\n  turnwright handbook dial \"13 tpi\" --leadscrew \"8 tpi\" --teeth 32 --marks 8 --engraved \"1 - 2 - 3 - 4 -\""
    )]
    Dial(DialArgs),
    /// How far a stepped bar gives under the tool
    #[command(
        after_help = "Example:\n  turnwright handbook deflection --hold chuck-center --bar \"30x150 20x150\" --force 200 --at 150 --units mm\n\nMillimetres: newtons, MPa, N/mm. Inches: pounds-force, psi, lbf/in."
    )]
    Deflection(DeflectionArgs),
    /// When a bar out of the spindle's rear begins to whip
    #[command(after_help = "Example:\n  turnwright handbook whip 25 --length 1000 --units mm")]
    Whip(WhipArgs),
    /// How much a piece grows when it warms
    #[command(
        after_help = "Example:\n  turnwright handbook heat 50 --rise 30 --material steel --units mm\n\nThe rise is in kelvin for millimetres, in degrees Fahrenheit for inches."
    )]
    Heat(HeatArgs),
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
        }
    }
}

/// `thread`.
#[derive(Debug, clap::Args)]
pub struct ThreadArgs {
    /// Designation: 3/4-16 UNF-2A, M16x1.5-6g, Tr 40x14(P7)-7e, G 1/2; without one, the series are listed.
    pub designation: Option<String>,
    /// A measuring wire at hand; readings are worked for it.
    #[arg(long)]
    pub wire: Option<String>,
    /// Length of engagement, where the tolerance depends on it.
    #[arg(long)]
    pub engagement: Option<String>,
    /// Work a pair of diameter and pitch that is in no series, as a special thread.
    #[arg(long)]
    pub special: bool,
    /// Units and format.
    #[command(flatten)]
    pub show: Show,
}

/// `fit`.
#[derive(Debug, clap::Args)]
pub struct FitArgs {
    /// Size and code: 25 mm k6, 1.000 in RC3, 25 mm H7/k6; without one, preferred fits are listed.
    pub fit: Option<String>,
    /// Units and format.
    #[command(flatten)]
    pub show: Show,
}

/// `key`.
#[derive(Debug, clap::Args)]
pub struct KeyArgs {
    /// The shaft's diameter (parallel key), or Woodruff and a number.
    pub key: String,
    /// Shaft of a Woodruff key.
    #[arg(long)]
    pub shaft: Option<String>,
    /// Width of a parallel key, to overrule the table.
    #[arg(long, requires = "height")]
    pub width: Option<String>,
    /// Height of a parallel key, to overrule the table.
    #[arg(long, requires = "width")]
    pub height: Option<String>,
    /// Units and format.
    #[command(flatten)]
    pub show: Show,
}

/// `center`.
#[derive(Debug, clap::Args)]
pub struct CenterArgs {
    /// Designation: A 2.5, B 3.15, R 4, D M8, DS M8, No. 3, A 1/8; without one, the sizes are listed.
    pub designation: Option<String>,
    /// The size usual for this shaft (practice).
    #[arg(long, conflicts_with = "designation")]
    pub shaft: Option<String>,
    /// Units and format.
    #[command(flatten)]
    pub show: Show,
}

/// `drill`.
#[derive(Debug, clap::Args)]
pub struct DrillArgs {
    /// A drill's name (27/64, 42, I, 8.5 mm) or a thread (1/2-13 UNC).
    pub name: String,
    /// Units and format.
    #[command(flatten)]
    pub show: Show,
}

/// `taper`.
#[derive(Debug, clap::Args)]
pub struct TaperArgs {
    /// 1:10, 0.600 per foot, 7° (included), 2.86° a side, MT3, B&S 9, Jarno 7, JT 33; without one, the named tapers are listed.
    pub taper: Option<String>,
    /// Length of the taper itself: shows the change of diameter over it.
    #[arg(long)]
    pub length: Option<String>,
    /// Length of the whole work between centers: shows the tailstock's set-over.
    #[arg(long)]
    pub whole: Option<String>,
    /// Units and format.
    #[command(flatten)]
    pub show: Show,
}

/// `relief`.
#[derive(Debug, clap::Args)]
pub struct ReliefArgs {
    /// A thread (M16x1.5, 5/8-18 UNF-2A) or an undercut (DIN 509 F, DIN 509 F 0.6x0.3).
    pub relief: String,
    /// Shaft of an undercut.
    #[arg(long)]
    pub shaft: Option<String>,
    /// The undercut for raised fatigue load.
    #[arg(long)]
    pub fatigue: bool,
    /// Units and format.
    #[command(flatten)]
    pub show: Show,
}

/// `ring`.
#[derive(Debug, clap::Args)]
pub struct RingArgs {
    /// Diameter of the shaft.
    pub shaft: String,
    /// Units and format.
    #[command(flatten)]
    pub show: Show,
}

/// `o-ring`.
#[derive(Debug, clap::Args)]
pub struct ORingArgs {
    /// Cross-section of the ring: .070 .103 .139 .210 .275 in, or 1.78 2.62 3.53 5.33 6.99 mm.
    pub section: String,
    /// Bore that closes the groove: shows the groove's diameter.
    #[arg(long)]
    pub bore: Option<String>,
    /// The parts slide on each other.
    #[arg(long)]
    pub sliding: bool,
    /// Units and format.
    #[command(flatten)]
    pub show: Show,
}

/// `bearing`.
#[derive(Debug, clap::Args)]
pub struct BearingArgs {
    /// Number: 6204, 6305-2RS.
    #[arg(required_unless_present = "bore")]
    pub number: Option<String>,
    /// List those with this bore.
    #[arg(long)]
    pub bore: Option<String>,
    /// The housing turns, not the shaft.
    #[arg(long)]
    pub housing_turns: bool,
    /// Units and format.
    #[command(flatten)]
    pub show: Show,
}

/// `wrench`.
#[derive(Debug, clap::Args)]
pub struct WrenchArgs {
    /// Width across flats.
    pub across_flats: String,
    /// Round the flats are milled on: shows their width.
    #[arg(long)]
    pub round: Option<String>,
    /// Units and format.
    #[command(flatten)]
    pub show: Show,
}

/// `knurl`.
#[derive(Debug, clap::Args)]
pub struct KnurlArgs {
    /// Form of DIN 82: RAA, RBL, RBR, RGE, RGV, RKE, RKV.
    pub form: String,
    /// Pitch.
    #[arg(long)]
    pub pitch: String,
    /// Blank's diameter.
    #[arg(long)]
    pub blank: Option<String>,
    /// Units and format.
    #[command(flatten)]
    pub show: Show,
}

/// `material`.
#[derive(Debug, clap::Args)]
pub struct MaterialArgs {
    /// A grade, with its condition if you like; without one, the grades are listed.
    pub material: Option<String>,
    /// Bar diameter: shows the bar's own tolerance.
    #[arg(long)]
    pub bar: Option<String>,
    /// Units and format.
    #[command(flatten)]
    pub show: Show,
}

/// Tool materials.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum ToolKind {
    /// High-speed steel.
    Hss,
    /// Carbide.
    Carbide,
}

/// Cuts that ask for a part of the turning speed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum CutKind {
    /// Roughing.
    Rough,
    /// Finishing.
    Finish,
    /// Grooving.
    Groove,
    /// Parting off.
    Part,
    /// Threading.
    Thread,
    /// Reaming.
    Ream,
    /// Drilling.
    Drill,
    /// Countersinking, counterboring.
    Form,
    /// Knurling.
    Knurl,
}

/// `speed`.
#[derive(Debug, clap::Args)]
pub struct SpeedArgs {
    /// Material; without it and without --surface-speed a slow speed is assumed.
    #[arg(long, conflicts_with = "surface_speed")]
    pub material: Option<String>,
    /// Tool.
    #[arg(long, value_enum, default_value = "hss")]
    pub tool: ToolKind,
    /// Cut.
    #[arg(long, value_enum, default_value = "rough")]
    pub cut: CutKind,
    /// Surface speed: ft/min with inches, m/min with millimetres.
    #[arg(long, value_parser = positive)]
    pub surface_speed: Option<f64>,
    /// Diameter at the cut.
    #[arg(long)]
    pub diameter: String,
    /// Units and format.
    #[command(flatten)]
    pub show: Show,
}

/// `dial`.
#[derive(Debug, clap::Args)]
pub struct DialArgs {
    /// Lead to cut: 13 tpi, 11.5 tpi, 11 1/2 tpi, 1.5 mm, 0.4 in.
    pub lead: String,
    /// The leadscrew: 8 tpi, 6 mm.
    #[arg(long)]
    pub leadscrew: String,
    /// Teeth of the dial's worm gear.
    #[arg(long, value_parser = clap::value_parser!(u32).range(1..=1000))]
    pub teeth: u32,
    /// Lines around the dial.
    #[arg(long, value_parser = clap::value_parser!(u32).range(1..=360))]
    pub marks: u32,
    /// What is engraved at the lines, beginning with line 0: 1 - 2 - 3 - 4 -
    #[arg(long, allow_hyphen_values = true)]
    pub engraved: Option<String>,
    /// Units and format.
    #[command(flatten)]
    pub show: Show,
}

/// Holdings of a bar.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum HoldKind {
    /// Chuck only.
    Chuck,
    /// Chuck and tailstock center.
    ChuckCenter,
    /// Between centers.
    Centers,
}

/// `deflection`.
#[derive(Debug, clap::Args)]
pub struct DeflectionArgs {
    /// Holding.
    #[arg(long, value_enum)]
    pub hold: HoldKind,
    /// The bar from the chuck or left center: diameter x length, piece by piece.
    #[arg(long)]
    pub bar: String,
    /// Force sideways at the tool: N, or lbf with inches.
    #[arg(long, value_parser = positive)]
    pub force: f64,
    /// Where it acts, from the chuck or left center.
    #[arg(long)]
    pub at: String,
    /// Modulus of elasticity.
    #[arg(long, value_parser = positive, help = "Modulus of elasticity: MPa, or psi with inches; steel when left out")]
    pub modulus: Option<f64>,
    /// Stiffness of chuck or spindle sideways: N/mm, or lbf/in; rigid when left out.
    #[arg(long, value_parser = positive)]
    pub chuck_stiffness: Option<f64>,
    /// Stiffness of a center sideways: N/mm, or lbf/in; rigid when left out.
    #[arg(long, value_parser = positive)]
    pub center_stiffness: Option<f64>,
    /// Units and format.
    #[command(flatten)]
    pub show: Show,
}

/// `whip`.
#[derive(Debug, clap::Args)]
pub struct WhipArgs {
    /// Diameter of the bar.
    pub diameter: String,
    /// How far it stands out behind its last support.
    #[arg(long)]
    pub length: String,
    /// Material; steel when left out.
    #[arg(long)]
    pub material: Option<String>,
    /// Units and format.
    #[command(flatten)]
    pub show: Show,
}

/// `heat`.
#[derive(Debug, clap::Args)]
pub struct HeatArgs {
    /// Length or diameter that grows.
    pub size: String,
    /// Rise of temperature: kelvin, or degrees Fahrenheit with inches.
    #[arg(long, allow_negative_numbers = true, value_parser = finite)]
    pub rise: f64,
    /// Material.
    #[arg(long, default_value = "steel")]
    pub material: String,
    /// Units and format.
    #[command(flatten)]
    pub show: Show,
}

fn positive(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(v) if v.is_finite() && v > 0.0 && v <= 1e15 => Ok(v),
        _ => Err("say a number above zero".to_owned()),
    }
}

fn finite(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(v) if v.is_finite() && v.abs() <= 1e6 => Ok(v),
        _ => Err("say a number of degrees".to_owned()),
    }
}
