//! What `identify` is told.

use crate::cli::args::{Format, StartUnits};

/// `identify`: what was read off a worn sample. A size may carry its own unit; without one it is in `--units`.
#[derive(Debug, clap::Args)]
pub struct IdentifyArgs {
    /// Unit of sizes that carry none.
    #[arg(long, value_enum)]
    pub units: Option<StartUnits>,
    /// Thread: over the crests, at the least worn place.
    #[arg(long, value_name = "SIZE", help_heading = "Thread")]
    pub major: Option<String>,
    /// Thread of a nut: its bore.
    #[arg(long, value_name = "SIZE", help_heading = "Thread")]
    pub minor: Option<String>,
    /// Thread: crest to crest over several pitches, such as "0.180 over 5"; may be given several times.
    #[arg(long, value_name = "LENGTH over N", help_heading = "Thread")]
    pub span: Vec<String>,
    /// Thread: this leaf of an inch gauge seems to fit.
    #[arg(long, value_name = "THREADS", help_heading = "Thread")]
    pub tpi: Vec<f64>,
    /// Thread: this leaf of a metric gauge seems to fit, or the pitch as measured.
    #[arg(long, value_name = "SIZE", help_heading = "Thread")]
    pub pitch: Vec<String>,
    /// Thread: how far one groove advances in one turn.
    #[arg(long, value_name = "SIZE", help_heading = "Thread")]
    pub lead: Option<String>,
    /// Thread: threads that begin at the end of the screw.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u8).range(1..=12), help_heading = "Thread")]
    pub starts: Option<u8>,
    /// Thread: degrees between the flanks.
    #[arg(long, value_name = "DEGREES", help_heading = "Thread")]
    pub angle: Option<f64>,
    /// Thread: its hand.
    #[arg(long, value_enum, help_heading = "Thread")]
    pub hand: Option<HandArg>,
    /// Thread: what it looks like.
    #[arg(long, value_enum, help_heading = "Thread")]
    pub form: Option<FormArg>,
    /// Thread: whether the crests lie on a taper.
    #[arg(long, value_enum, help_heading = "Thread")]
    pub taper: Option<YesNo>,
    /// Mean wear to reckon with, on the diameter.
    #[arg(long, value_name = "SIZE", help_heading = "Errors")]
    pub wear: Option<String>,
    /// Standard deviation of a reading of the caliper [default: .001 in or 0.02 mm].
    #[arg(long, value_name = "SIZE", help_heading = "Errors")]
    pub error: Option<String>,
    /// Standard deviation of a length from crest to crest [default: .003 in or 0.08 mm].
    #[arg(long, value_name = "SIZE", help_heading = "Errors")]
    pub span_error: Option<String>,
    /// Key: width of the key, or of its seat at the bottom.
    #[arg(long, value_name = "SIZE", help_heading = "Key")]
    pub key_width: Option<String>,
    /// Key: height of the key.
    #[arg(long, value_name = "SIZE", help_heading = "Key")]
    pub key_height: Option<String>,
    /// Woodruff key: diameter of its arc.
    #[arg(long, value_name = "SIZE", help_heading = "Key")]
    pub key_arc: Option<String>,
    /// Woodruff seat: its length on top of the shaft (say --shaft too).
    #[arg(long, value_name = "SIZE", help_heading = "Key")]
    pub key_slot: Option<String>,
    /// Key: diameter of the shaft it sits in.
    #[arg(long, value_name = "SIZE", help_heading = "Key")]
    pub shaft: Option<String>,
    /// Bearing: what its ring is marked with, such as 6204-2RS.
    #[arg(long, value_name = "MARKS", help_heading = "Bearing")]
    pub ring: Vec<String>,
    /// Bearing: its bore.
    #[arg(long, value_name = "SIZE", help_heading = "Bearing")]
    pub bore: Option<String>,
    /// Bearing: its outside diameter.
    #[arg(long, value_name = "SIZE", help_heading = "Bearing")]
    pub outside: Option<String>,
    /// Bearing: its width.
    #[arg(long, value_name = "SIZE", help_heading = "Bearing")]
    pub wide: Option<String>,
    /// Plain seat: its diameter as read; may be given several times.
    #[arg(long, value_name = "SIZE", help_heading = "Seat")]
    pub seat: Vec<String>,
    /// Plain seat: what sits on it.
    #[arg(long, value_enum, help_heading = "Seat")]
    pub carries: Option<CarriesArg>,
    /// How the result is printed.
    #[arg(long, value_enum, default_value = "text")]
    pub format: Format,
}

/// Hand of a thread.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum HandArg {
    /// Advances when turned clockwise.
    Right,
    /// The other way.
    Left,
}

/// What a thread looks like.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum FormArg {
    /// Pointed, of any angle from 47 to 60°.
    Vee,
    /// Flat crests and leaning flanks, 29° or 30°.
    Acme,
    /// Flanks square to the axis.
    Square,
    /// One steep flank, one at 45°.
    Buttress,
}

/// Yes or no.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum YesNo {
    /// It does.
    Yes,
    /// It does not.
    No,
}

/// What sits on a seat.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum CarriesArg {
    /// A bearing; the shaft turns against the load.
    Bearing,
    /// A bearing; the housing turns.
    IdlerBearing,
    /// Something that runs on it.
    Running,
    /// Something put on by hand, keyed or clamped.
    Sliding,
    /// Something pressed on.
    Pressed,
}
