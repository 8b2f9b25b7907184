//! The shop file: what this lathe, its dials and its drawers can do.

use std::collections::BTreeMap;

use super::Text;
use crate::finding::Place;
use crate::unit::{Length, Unit};

/// What the cross dial counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reads {
    /// The tool's travel: 1 takes 2 off the diameter.
    Radius,
    /// The diameter.
    Diameter,
}

impl Reads {
    /// `radius` or `diameter`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Radius => "radius",
            Self::Diameter => "diameter",
        }
    }
}

/// Kinds of picture a sheet can carry.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PictureKind {
    /// Portable Network Graphics.
    Png,
    /// Scalable Vector Graphics.
    Svg,
}

/// A logo as its file has it.
#[derive(Debug, Clone, PartialEq)]
pub struct Logo {
    /// Kind of picture.
    pub kind: PictureKind,
    /// The file.
    pub bytes: Vec<u8>,
    /// Width by height.
    pub aspect: f64,
}

/// Why a logo cannot be shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoLogo {
    /// There is no such file, or it may not be read.
    Missing,
    /// Its name leads out of the folders around the shop file.
    Elsewhere,
    /// It is larger than a sheet can carry.
    TooLarge,
    /// Neither PNG nor SVG by its contents.
    Unknown,
    /// It begins as a picture and is none.
    Broken,
}

/// A graduated dial.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Dial {
    /// One division, in what the dial counts.
    pub division: Length,
    /// One turn, in what the dial counts.
    pub turn: Length,
}

/// The threading dial on the apron.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ThreadDial {
    /// Teeth of its worm wheel.
    pub teeth: u32,
    /// Lines around it.
    pub marks: u32,
    /// Words on the lines, in order, `-` where a line has none.
    pub engraved: Vec<String>,
}

/// How the start of a multi-start thread is found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StartIndex {
    /// By the compound slide.
    Compound,
    /// By the thread dial.
    Dial,
    /// By a marked gear.
    Gear,
    /// No way.
    None,
}

/// A chuck.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chuck {
    /// Number of jaws.
    pub jaws: u32,
    /// Largest diameter it grips.
    pub largest: Option<Length>,
    /// Length of the jaws' grip.
    pub jaw_length: Option<Length>,
    /// Runout (TIR) it holds without indicating.
    pub runout: Option<Length>,
}

/// A dividing head.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DividingHead {
    /// Turns of the crank for one turn of the work.
    pub ratio: u32,
    /// Holes in the circles of its plates.
    pub circles: Vec<u32>,
}

/// A lathe dog.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Dog {
    /// Largest diameter.
    pub largest: Length,
    /// Length of work it covers.
    pub long: Option<Length>,
}

/// Kinds of cutting tool.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum ToolKind {
    /// Facing tool.
    Facing,
    /// Roughing tool.
    Roughing,
    /// Finishing tool.
    Finishing,
    /// Grooving tool.
    Grooving,
    /// Parting tool.
    Parting,
    /// 60° threading tool.
    Threading60,
    /// 29° Acme threading tool.
    Acme29,
    /// Threading tool ground to another form (Whitworth, trapezoidal, square, buttress).
    ThreadingForm,
    /// Chamfer tool.
    Chamfer,
    /// Center drill.
    CenterDrill,
    /// Twist drill.
    Drill,
    /// Reamer.
    Reamer,
    /// Tap.
    Tap,
    /// Boring tool.
    Boring,
    /// Knurling tool.
    Knurl,
    /// Woodruff cutter.
    WoodruffCutter,
    /// End mill.
    EndMill,
    /// File.
    File,
    /// Abrasive strip.
    AbrasiveStrip,
    /// Deburring tool, gauges, hands: nothing that cuts to size.
    None,
}

impl ToolKind {
    /// As the shop file writes it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Facing => "facing",
            Self::Roughing => "roughing",
            Self::Finishing => "finishing",
            Self::Grooving => "grooving",
            Self::Parting => "parting",
            Self::Threading60 => "threading 60°",
            Self::Acme29 => "acme 29°",
            Self::ThreadingForm => "threading to the form",
            Self::Chamfer => "chamfer",
            Self::CenterDrill => "center drill",
            Self::Drill => "drill",
            Self::Reamer => "reamer",
            Self::Tap => "tap",
            Self::Boring => "boring",
            Self::Knurl => "knurl",
            Self::WoodruffCutter => "woodruff cutter",
            Self::EndMill => "end mill",
            Self::File => "file",
            Self::AbrasiveStrip => "abrasive strip",
            Self::None => "none",
        }
    }
}

/// A tool in the drawer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tool {
    /// Kind.
    pub kind: ToolKind,
    /// Width of the edge (grooving, parting).
    pub width: Option<Length>,
    /// Nose radius.
    pub nose: Option<Length>,
    /// How deep it reaches.
    pub reach: Option<Length>,
    /// Diameter (drills, cutters).
    pub diameter: Option<Length>,
    /// Number (Woodruff cutters, center drills).
    pub number: Option<String>,
    /// Size as written (`A 1/8`, `M8`).
    pub size: Option<String>,
    /// Where it is listed.
    pub place: Place,
}

/// A measuring instrument.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Instrument {
    /// `micrometer`, `caliper`, `depth micrometer`, `dial indicator`, `height gauge`, `thread ring`.
    pub kind: String,
    /// Smallest and largest it measures.
    pub range: Option<(Length, Length)>,
    /// Error, ± half-width.
    pub error: Option<Length>,
    /// Unit it reads in: its range's, which is the file's where the range names none.
    pub unit: Unit,
}

/// Times the plan counts, in minutes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Minutes {
    /// A setup change.
    pub setup: f64,
    /// A tool change.
    pub tool: f64,
    /// A measurement.
    pub measure: f64,
}

/// The shop file after reading. Whatever it does not say is `None` or empty: nothing that would scrap a part is guessed.
#[derive(Debug, Clone, Default)]
pub struct Shop {
    /// `shop:` name.
    pub name: Option<String>,
    /// `units:` of the file.
    pub units: Option<Unit>,
    /// Spindle speeds, rpm, rising.
    pub speeds: Vec<u32>,
    /// Feeds a revolution, rising.
    pub feeds: Vec<Length>,
    /// What the cross dial reads.
    pub cross_reads: Option<Reads>,
    /// Cross dial.
    pub cross_dial: Option<Dial>,
    /// Carriage dial; none when the carriage has none.
    pub carriage_dial: Option<Dial>,
    /// Compound dial.
    pub compound_dial: Option<Dial>,
    /// Dial of the tailstock's handwheel.
    pub tailstock_dial: Option<Dial>,
    /// Leadscrew: threads per inch, or pitch as a fraction of an inch or millimetre through [`Length`].
    pub leadscrew_pitch: Option<Length>,
    /// Leadscrew threads per inch, if it is an inch screw.
    pub leadscrew_tpi: Option<(i64, i64)>,
    /// Thread dial.
    pub thread_dial: Option<ThreadDial>,
    /// Threads per inch of the gearbox, as fractions.
    pub tpi: Vec<(i64, i64)>,
    /// Metric pitches of the gearbox.
    pub pitches: Vec<Length>,
    /// Change gears by their teeth.
    pub change_gears: Vec<u32>,
    /// How multiple starts are indexed.
    pub start_index: Option<StartIndex>,
    /// Motor power, watts.
    pub power_w: Option<f64>,
    /// Tailstock set-over travel.
    pub tailstock_travel: Option<Length>,
    /// Taper attachment at hand.
    pub taper_attachment: Option<bool>,
    /// A grinder at hand.
    pub grinding: Option<bool>,
    /// Thread rings at hand, by designation.
    pub thread_rings: Vec<String>,
    /// Company name on the sheet.
    pub company: Option<String>,
    /// Path of a logo file.
    pub logo: Option<Text>,
    /// What that file holds, once it was looked for.
    pub logo_file: Option<Result<Logo, NoLogo>>,
    /// Swing over the bed.
    pub swing: Option<Length>,
    /// Swing over the cross slide.
    pub swing_over_cross_slide: Option<Length>,
    /// Distance between centers.
    pub between_centers: Option<Length>,
    /// Spindle bore.
    pub spindle_bore: Option<Length>,
    /// Chucks.
    pub chucks: Vec<Chuck>,
    /// Collets by size.
    pub collets: Vec<Length>,
    /// Runout of work in a collet.
    pub collet_runout: Option<Length>,
    /// Soft jaws at hand, to be bored in place.
    pub soft_jaws: Option<bool>,
    /// Mandrels by size.
    pub mandrels: Vec<Length>,
    /// Dividing head on the mill: turns of its crank for one of the work, and the hole circles of its plates.
    pub dividing_head: Option<DividingHead>,
    /// Rests: `steady`, `follow`, with the diameters they take.
    pub rests: Vec<(String, Option<(Length, Length)>)>,
    /// `dead`, `live`.
    pub centers: Vec<String>,
    /// Dogs.
    pub dogs: Vec<Dog>,
    /// Stiffness of the chuck sideways, newtons per millimetre; what is not stated counts as rigid.
    pub chuck_stiffness: Option<f64>,
    /// Stiffness of a center sideways, newtons per millimetre.
    pub center_stiffness: Option<f64>,
    /// The hand's own surface speed for high-speed steel, metres a minute.
    pub surface_speed_hss: Option<f64>,
    /// The hand's own surface speed for carbide, metres a minute.
    pub surface_speed_carbide: Option<f64>,
    /// Roughing depth of cut a side.
    pub depth_rough: Option<Length>,
    /// Finishing depth of cut a side.
    pub depth_finish: Option<Length>,
    /// What the lathe holds on a length, ±.
    pub can_hold_length: Option<Length>,
    /// On a diameter, ±.
    pub can_hold_diameter: Option<Length>,
    /// On a length after turning end for end, ±.
    pub can_hold_turned_round: Option<Length>,
    /// Times.
    pub minutes: Option<Minutes>,
    /// Tools.
    pub tools: Vec<Tool>,
    /// Thread wires by diameter.
    pub wires: Vec<Length>,
    /// Instruments.
    pub instruments: Vec<Instrument>,
    /// `limits:` changed defaults: check id, then name (`""` for a check's only value), then the value in the shop's unit or as a pure number.
    pub limits: BTreeMap<String, BTreeMap<String, LimitValue>>,
    /// Path as written in the description, for messages and the sheet.
    pub path: Option<Text>,
}

/// A changed default of a check.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LimitValue {
    /// As a number.
    pub number: f64,
    /// As a length in the shop file's unit, or its own.
    pub length: Option<Length>,
    /// Where it is written.
    pub place: Place,
}

impl Shop {
    /// Tools of a kind.
    pub fn tools_of(&self, kind: ToolKind) -> impl Iterator<Item = &Tool> {
        self.tools.iter().filter(move |t| t.kind == kind)
    }
}
