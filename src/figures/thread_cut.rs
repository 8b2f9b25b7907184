//! The thread block: infeed, wires, thread dial, gearbox, time in the relief.

use super::given::{Given, at_tailstock};
use super::over_wires::{StillIn, Wires, still_in, wires};
use super::runs_off::{self, RunsOff};
use super::speed::relief_seconds;
use super::thread_drive::{engage, gearbox, indexing};
use super::{DialReading, Engage, Figure, Gearbox, Indexing, OnScale, SizeLimits, Speed, dial, scale};
use crate::handbook::speed::SurfaceSpeed;
use crate::handbook::thread::{Form, ThreadData};
use crate::model::feature::{Hand, Thread};
use crate::model::plan::{Operation, Setup};
use crate::model::{End, Kind};
use crate::plan::run_out;
use crate::plan::thread_feed::{self, FeedWhy};
use crate::unit::{Length, Limits, show};
use crate::{tell, told};

/// Which way the compound is swung for a thread.
///
/// To the right for a right-hand thread, to the left for a left-hand one (Fox Valley Technical College, left-hand thread cutting): the
/// tool then cuts with its leading edge and its trailing edge follows the flank.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CompoundHandle {
    /// Its handle toward the tailstock.
    Tailstock,
    /// Its handle toward the headstock.
    Headstock,
}

impl CompoundHandle {
    /// `tailstock`, `headstock`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Tailstock => "tailstock",
            Self::Headstock => "headstock",
        }
    }
}

/// Compound set over.
#[derive(Debug, Clone, PartialEq)]
pub struct Compound {
    /// Degrees from square to the axis.
    pub angle_deg: f64,
    /// `29½°`.
    pub angle: String,
    /// End of the lathe toward which its handle is swung: the tool goes in toward the way the carriage travels.
    pub handle: CompoundHandle,
    /// Whole travel along the compound, exact; shown to what its dial shows.
    pub travel: Figure,
    /// The same on its dial, where the shop file has one.
    pub dial: Option<DialReading>,
}

/// What a taper pipe thread has besides.
#[derive(Debug, Clone, PartialEq)]
pub struct PipeCut {
    /// Pitch diameter at the small end.
    pub small_end: SizeLimits,
    /// Pitch diameter at the gauge plane, nominal.
    pub gauge_plane: Figure,
    /// From the small end to the gauge plane: where a ring gauge stops by hand.
    pub gauge_length: SizeLimits,
    /// One turn: by so much the gauge may stand off either way.
    pub turn: Figure,
    /// Turns by hand until it is tight, about.
    pub turns: f64,
    /// Length of useful thread it wants.
    pub useful_length: Figure,
    /// Step by step.
    pub recipe: Vec<String>,
}

/// The block of a taper pipe thread. A ring gauge is as thick as the gauge length: by hand its face comes flush with the small end.
fn pipe_cut(given: &Given, thread: &Thread) -> Option<PipeCut> {
    let taper = thread.taper?;
    let unit = given.unit;
    let (plane, by) = (taper.gauge_length, taper.gauge_tolerance);
    let text = |l: Length| Figure::usual(l, unit).text(unit);
    let turns = plane.mm() / thread.pitch.mm();
    Some(PipeCut {
        small_end: SizeLimits::of(thread.pitch_diameter, unit),
        gauge_plane: Figure::fine(taper.gauge_plane, unit),
        gauge_length: SizeLimits::of(Limits::new(plane - by, plane + by), unit),
        turn: Figure::usual(by, unit),
        turns,
        useful_length: Figure::usual(taper.useful_length, unit),
        recipe: vec![
            told!(
                "Tool square to the axis by its gauge, not to the taper; the carriage follows the taper.",
                "Stahl nach der Lehre rechtwinklig zur Achse, nicht zum Kegel; der Schlitten folgt dem Kegel."
            )
            .to_owned(),
            tell!(
                "Near the depth, try the ring gauge or the fitting by hand: about {} turns, its face flush with the small end, one turn ({}) either way.",
                "Nahe der Tiefe Ringlehre oder Fitting von Hand: etwa {} Umdrehungen, Stirn bündig mit dem dünnen Ende, eine Umdrehung ({}) mehr oder weniger.",
                turns_text(turns),
                text(by)
            ),
            tell!("At least {} of useful thread.", "Mindestens {} nutzbares Gewinde.", text(taper.useful_length)),
        ],
    })
}

/// Turns to the nearest quarter: `4½`.
fn turns_text(turns: f64) -> String {
    let quarters = (turns * 4.0).round() as i64;
    let part = ["", "\u{bc}", "\u{bd}", "\u{be}"][usize::try_from(quarters.rem_euclid(4)).unwrap_or(0)];
    format!("{}{part}", quarters / 4)
}

/// Everything for cutting a thread.
#[derive(Debug, Clone, PartialEq)]
pub struct ThreadCut {
    /// Designation.
    pub designation: String,
    /// Right hand.
    pub right_hand: bool,
    /// Limits of the blank: the thread's major diameter.
    pub blank: SizeLimits,
    /// The same on a micrometer in the other unit.
    pub blank_on_scale: Option<OnScale>,
    /// From one thread to the next, exact.
    pub pitch: Length,
    /// In one turn, exact.
    pub lead: Length,
    /// Limits of its pitch diameter, before a coating if it gets one.
    pub pitch_diameter: Limits,
    /// Depth a side to the standard's root, straight in.
    pub depth: Figure,
    /// Which height that is: `0.6134 P`, `total height`.
    pub depth_is: String,
    /// Straight in on the cross dial, where the shop file says what it reads.
    pub straight: Option<DialReading>,
    /// Compound set over; none where the thread is cut straight in.
    pub compound: Option<Compound>,
    /// Why straight in, or why this angle.
    pub infeed_why: String,
    /// Cumulative travel of each cut, on the compound or a side straight in, exact; shown to what the dial shows. Spring passes left out.
    pub passes: Vec<Figure>,
    /// The same on the dial that feeds the tool, as that dial counts: the compound's, or straight in the cross dial's. Empty where the
    /// shop file does not tell of it.
    pub on_dial: Vec<DialReading>,
    /// Spring passes after the last.
    pub spring_passes: u32,
    /// Flat of the tool; of a 60° tool the one of the basic form, which is not that of the depth told.
    pub tool_flat: Figure,
    /// Radius of the nose that the depth belongs to: H/6 for `0.6134 P` (ASME B1.1, ISO 68-1). A sharper nose must go deeper to bring the
    /// flanks to size, up to 3/4 H.
    pub nose_radius: Option<Figure>,
    /// Wires and readings, where the form is measured so.
    pub wires: Option<Wires>,
    /// What a reading over them means for the infeed.
    pub still_in: Option<StillIn>,
    /// Where it runs off toward a center that stands in the work.
    pub runs_off: Option<RunsOff>,
    /// Where the half-nuts may be closed; none where the shop file does not tell of a leadscrew.
    pub dial: Option<Engage>,
    /// Gearbox; none without a shop file.
    pub gearbox: Option<Gearbox>,
    /// Seconds the tool is in the relief or run-out; none where it runs off the end.
    pub relief_time: Option<f64>,
    /// The relief or run-out it has.
    pub relief: Option<Figure>,
    /// Section that is the relief.
    pub relief_feature: Option<usize>,
    /// Lead angle at the pitch diameter, degrees: the tool's side clearance must exceed it.
    pub lead_angle_deg: f64,
    /// Which way the carriage goes and where the cut begins.
    pub direction: String,
    /// A taper pipe thread: how it is cut and gauged.
    pub pipe: Option<PipeCut>,
    /// More than one start.
    pub indexing: Option<Indexing>,
    /// Standard.
    pub source: String,
}

/// The thread an operation cuts.
pub(super) fn thread_of<'a>(given: &Given<'a>, op: &Operation) -> Option<&'a Thread> {
    match &given.feature(op.feature?)?.kind {
        Kind::Thread { thread, .. } => Some(thread),
        _ => None,
    }
}

/// The relief or run-out at the headstock side of a thread: what it is, and the section that is one.
pub(super) fn relief_of(
    given: &Given,
    setup: &Setup,
    op: &Operation,
    thread: &Thread,
) -> Option<(Length, Option<usize>)> {
    run_out::relief(&given.facts(), setup, op, thread)
}

/// The block of a thread operation; none when the handbook has no limits for the thread.
pub(super) fn thread_cut(given: &Given, setup: &Setup, op: &Operation, speed: Option<&Speed>) -> Option<ThreadCut> {
    let thread = thread_of(given, op)?;
    let data = data(thread)?;
    let unit = given.unit;
    let relief = relief_of(given, setup, op, thread);
    let (feed, why) = thread_feed::chosen(&data, given.shop)?;
    let decimals = dial_decimals(given, feed.angle > 0.0);
    let compound = (feed.angle > 0.0).then(|| Compound {
        angle_deg: feed.angle,
        angle: angle_text(feed.angle),
        handle: handle(thread, relief.is_some_and(|(_, neck)| neck.is_some())),
        travel: Figure::new(feed.travel, decimals),
        dial: dial::compound(feed.travel, given.shop, unit),
    });
    let surface = speed.map(|s| SurfaceSpeed::metres(s.surface_speed));
    let travels = thread_feed::passes(given.part, given.shop, &data, &feed, surface);
    let wires = wires(given, &data, thread);
    let still_in = wires.map(|w| still_in(given, &w, compound.as_ref().map(|c| c.angle_deg)));
    let blank = SizeLimits::of(thread.major, unit);
    let on_its_dial = |l: &Length| match compound {
        Some(_) => dial::compound(*l, given.shop, unit),
        None => dial::cross(*l, given.shop, unit),
    };
    let on_dial = travels.iter().filter_map(on_its_dial).collect();
    let time = run_out::of_thread(&given.facts(), setup, op).zip(speed).and_then(|(r, s)| relief_seconds(&r, s.rpm()));
    let off = run_out::before_the_center(&given.facts(), setup, op, thread);
    Some(ThreadCut {
        designation: thread.designation.clone(),
        right_hand: thread.hand == Hand::Right,
        blank,
        blank_on_scale: scale::on_scale(given, "micrometer", None, Some(blank)),
        pitch: thread.pitch,
        lead: thread.lead,
        pitch_diameter: thread.pitch_diameter,
        depth: Figure::fine(feed.depth, unit),
        depth_is: feed.height.to_owned(),
        straight: dial::cross(feed.depth, given.shop, unit),
        compound,
        infeed_why: infeed_why(why),
        passes: travels.into_iter().map(|l| Figure::new(l, decimals)).collect(),
        on_dial,
        spring_passes: op.spring.max(thread_feed::SPRING_PASSES),
        tool_flat: Figure::fine(data.tool_flat, unit),
        nose_radius: (data.form == Form::Sixty && feed.height == "0.6134 P")
            .then(|| Figure::fine(thread.pitch.times_ratio(144_338, 1_000_000), unit)),
        wires,
        still_in,
        dial: engage(given, thread),
        gearbox: gearbox(given, thread),
        relief_time: time.filter(|_| off.is_none()),
        runs_off: off.map(|room| runs_off::figures(room, unit, time)),
        relief: relief.map(|(width, _)| Figure::usual(width, unit)),
        relief_feature: relief.and_then(|(_, feature)| feature),
        lead_angle_deg: data.lead_angle,
        direction: direction(given, setup, thread, relief.and_then(|(_, f)| f)),
        pipe: pipe_cut(given, thread),
        indexing: indexing(given, thread),
        source: data.source.iter().map(|s| s.line()).collect::<Vec<_>>().join("; "),
    })
}

/// What the handbook tells of the thread.
pub(super) fn data(thread: &Thread) -> Option<ThreadData> {
    thread_feed::data(&thread.designation)
}

/// Why the tool is fed to depth as it is.
fn infeed_why(why: FeedWhy) -> String {
    let text = match why {
        FeedWhy::StartsByCompound => told!(
            "straight in: the compound stands along the axis to find the other starts",
            "gerade: der Oberschlitten steht längs der Achse, um die anderen Gänge zu finden"
        ),
        FeedWhy::HalfDegreeLess => told!(
            "half a degree less than half the thread's angle: the trailing flank is shaved (US Navy, NAVEDTRA 14345)",
            "ein halbes Grad weniger als der halbe Flankenwinkel: die hintere Flanke wird geschabt (US Navy, NAVEDTRA 14345)"
        ),
        FeedWhy::HalfAngle => {
            told!("half of the thread's angle (common practice)", "der halbe Flankenwinkel (Werkstattbrauch)")
        }
        FeedWhy::FinePitch => told!(
            "straight in: a fine pitch (US Navy, NAVEDTRA 14345)",
            "gerade: feine Steigung (US Navy, NAVEDTRA 14345)"
        ),
        FeedWhy::StraightIn => told!("straight in", "gerade"),
    };
    text.to_owned()
}

/// Decimals of the dial the tool is fed in by; the usual ones where none is known.
fn dial_decimals(given: &Given, compound: bool) -> u8 {
    let usual = show::usual_decimals(given.unit);
    let dial = given.shop.and_then(|s| if compound { s.compound_dial } else { s.cross_dial });
    dial.map_or(usual, |d| show::decimals_needed(d.division, given.unit, usual, usual + 1))
}

/// `29½°`, `14½°`, `15°`.
fn angle_text(degrees: f64) -> String {
    let halves = (degrees * 2.0).round() as i64;
    if halves % 2 == 0 { format!("{}\u{b0}", halves / 2) } else { format!("{}\u{bd}\u{b0}", halves / 2) }
}

/// The carriage goes toward the headstock but for a left-hand thread that can begin in a relief.
fn handle(thread: &Thread, begins_in_relief: bool) -> CompoundHandle {
    if thread.hand == Hand::Left && begins_in_relief { CompoundHandle::Headstock } else { CompoundHandle::Tailstock }
}

fn direction(given: &Given, setup: &Setup, thread: &Thread, relief: Option<usize>) -> String {
    if thread.hand == Hand::Right {
        return told!("right hand: carriage toward the headstock", "rechts: Schlitten zum Spindelstock").to_owned();
    }
    let far = at_tailstock(setup) == Some(End::Far);
    let end = if far { told!("far end", "Gegenende") } else { told!("datum end", "Bezugsende") };
    match relief {
        Some(neck) => {
            tell!(
                "left hand: begin in {}, carriage away from the headstock, off the {end}",
                "links: in {} beginnen, Schlitten vom Spindelstock weg, am {end} hinaus",
                given.spoken(neck)
            )
        }
        None => told!(
            "left hand: nothing to begin in; tool upside down or spindle reversed, carriage toward the shoulder",
            "links: kein Freistich zum Beginnen; Stahl umgedreht oder Spindel rückwärts, Schlitten zum Absatz"
        )
        .to_owned(),
    }
}
