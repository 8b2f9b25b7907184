//! The plan: mountings of the work and the operations in them, before any dial number is worked.

pub use super::alternative::{Alternative, Instead, NoSecond};
pub use super::derived::{Derived, Eased, Refused, TooSoft, Unheeded};
use super::feature::End;
use super::part::Holding;
use super::shop::ToolKind;
pub use super::slow::Slow;
pub use super::verb::Verb;
use super::workholder::Workholder;
use crate::unit::{Length, Limits, Station};

/// Why something stands where it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Why {
    /// Id of the rule (`R9`) or empty.
    pub rule: &'static str,
    /// One sentence.
    pub reason: String,
    /// Source, or `common practice`.
    pub source: &'static str,
}

/// How the reason of a soft rule begins that a wish of the description outweighs.
pub const OUTWEIGHED: &str = "outweighed by the wish ";

/// Which way the datum end looks in a mounting.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum DatumEnd {
    /// Toward the headstock.
    Headstock,
    /// Toward the tailstock.
    Tailstock,
    /// Off the lathe: it lies to the left in the picture.
    Left,
}

impl DatumEnd {
    /// As the JSON has it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Headstock => "headstock",
            Self::Tailstock => "tailstock",
            Self::Left => "left",
        }
    }
}

/// The surface held by jaws or dog.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Grip {
    /// Held from here.
    pub from: Station,
    /// To here.
    pub to: Station,
    /// On this diameter, as it is at that moment.
    pub diameter: Length,
    /// Letter of the section held, empty for bare bar.
    pub letter: String,
    /// Its surface is finished or kept: copper or brass under the jaws or dog.
    pub protect: bool,
    /// It is roughed and not yet finished: what jaws or dog mark there is still cut away.
    pub roughed: bool,
}

/// A rest that carries the work between its holding and the tool.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rest {
    /// It goes with the carriage, behind the tool; else it is bolted to the bed.
    pub follows: bool,
    /// Its jaws run from here; a follow rest travels from here.
    pub from: Station,
    /// To here.
    pub to: Station,
    /// On this diameter, as it is then.
    pub diameter: Length,
    /// Letter of the section it runs on, empty for bare bar.
    pub letter: String,
}

/// One mounting of the work.
#[derive(Debug, Clone, PartialEq)]
pub struct Setup {
    /// From 1, in the order of the plan.
    pub number: u32,
    /// Name in the certificate.
    pub name: String,
    /// How it is held.
    pub holding: Holding,
    /// What grips it.
    pub by: Workholder,
    /// How true the work runs to the surface held, total indicator reading, where that counts.
    pub runs_true: Option<Length>,
    /// Which way the datum end looks.
    pub datum_end: DatumEnd,
    /// The end that is worked (toward the tailstock); none off the lathe.
    pub works: Option<End>,
    /// Surface held.
    pub grip: Option<Grip>,
    /// On the mill the other of two places the work lies on.
    pub also: Option<Grip>,
    /// Rest that carries it, if one does.
    pub rest: Option<Rest>,
    /// How far the work stands out of the jaws.
    pub stick_out: Option<Length>,
    /// The face the carriage is zeroed on, in the frame of this setup.
    pub zero: Zero,
    /// Operations in order.
    pub operations: Vec<Operation>,
    /// Why this holding, why here.
    pub why: Vec<Why>,
    /// Shape of the work when it is mounted: spans from the datum end outward, bar included.
    pub before: Vec<Span>,
    /// Shape when the mounting is left.
    pub after: Vec<Span>,
    /// What keeps its cuts slow, as the plan has it; none of a mounting that is no part of a plan yet.
    pub slow: Option<Slow>,
}

/// What the carriage is zeroed on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Zero {
    /// The datum face, at the tailstock.
    DatumFace,
    /// The far face, at the tailstock: the zero is corrected by the measured overall.
    FarFace,
    /// The far face while it is being faced to length: the datum face is at the headstock and the overall is measured.
    FacedToOverall,
    /// The sawn end of the bar at the tailstock: nothing is faced yet.
    SawnEnd,
    /// No carriage: the mill or the bench, measured from the datum face.
    None,
}

/// A stretch of the work as it is at some moment.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Span {
    /// From.
    pub from: Station,
    /// To.
    pub to: Station,
    /// Diameter at `from`.
    pub diameter: Length,
    /// Diameter at `to`; differs on a taper only.
    pub diameter_to: Length,
    /// State of its surface.
    pub state: State,
    /// Feature whose final shape it is, if it is.
    pub feature: Option<usize>,
}

/// State of a surface.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum State {
    /// Still the bar.
    Bar,
    /// Rough turned.
    Rough,
    /// Finished, or kept on purpose.
    Finished,
    /// Threaded.
    Threaded,
}

/// One operation.
#[expect(clippy::struct_excessive_bools, reason = "each is a plain fact about one operation")]
#[derive(Debug, Clone, PartialEq)]
pub struct Operation {
    /// Id in the certificate.
    pub id: String,
    /// 10, 20, 30 … through the part; 0 until it is placed.
    pub number: u32,
    /// What is done.
    pub verb: Verb,
    /// Main feature.
    pub feature: Option<usize>,
    /// Further features it covers ("with J, K").
    pub with: Vec<usize>,
    /// The end it belongs to.
    pub end: Option<End>,
    /// Kind of tool.
    pub tool: ToolKind,
    /// Diameter before.
    pub from_diameter: Option<Length>,
    /// Size to aim at.
    pub to_diameter: Option<Length>,
    /// Limits of that size, where it has any.
    pub limits: Option<Limits>,
    /// Cut from here (the end nearer the tailstock's face).
    pub from: Option<Station>,
    /// To here (the shoulder, wall or centre it stops at).
    pub to: Option<Station>,
    /// Where the finished face will be, when roughing leaves it proud.
    pub face: Option<Station>,
    /// Close size: three equal cuts, or as many as its metal has in it, cold, measured between.
    pub close: bool,
    /// It cuts inside the part, from the end it belongs to: diameters grow.
    pub inside: bool,
    /// It cuts about an axis so far from the part's own: an eccentric, what lies on it, the centers it is turned between.
    pub throw: Option<Length>,
    /// A follow rest behind the tool carries the work under it.
    pub followed: bool,
    /// No cut of it is deeper than this, a side, since the work would give way farther: every cut of roughing, else the equal last cuts.
    pub lighter: Option<Length>,
    /// Passes without infeed behind its last cut; of a thread one goes without saying.
    pub spring: u32,
    /// What the work gives way by under its last cut, on the diameter, and what those passes leave of it: the barrel to expect. None where it is not worth a word.
    pub barrel: Option<(Length, Length)>,
    /// It makes the spot that a steady rest runs on, or the rough center which that alone is turned on.
    pub for_rest: bool,
    /// How far each of its cuts along the work is fed: from where the metal begins at that moment. None where it is fed from `from` to `to`, or by hand.
    pub travel: Option<Length>,
    /// Minutes the plan counts for it.
    pub minutes: f64,
    /// Done once already, and done again: what was measured, and what is left of it to do.
    pub again: Option<String>,
    /// Why it stands where it stands.
    pub why: Vec<Why>,
    /// Number of the last operation it must follow, and the rule it would break before that.
    pub not_before: Option<(u32, Why)>,
    /// Number of the first operation it must precede, and the rule it would break behind that.
    pub not_after: Option<(u32, Why)>,
}

/// The whole plan.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Plan {
    /// Mountings in order.
    pub setups: Vec<Setup>,
    /// Minutes.
    pub cost: f64,
    /// No order costs less than this at the minutes told of each operation.
    pub lower_bound: f64,
    /// Whether `cost` is the least at those minutes.
    pub proven_optimal: bool,
    /// No order costs less than this, whatever its cuts find: what a cut takes depends on what was cut before it.
    pub floor: f64,
    /// What was assumed to make it: key, value, why.
    pub assumed: Vec<Assumed>,
    /// Soft rules that had to give way: to a wish, or because no order keeps all rules.
    pub given_way: Vec<Why>,
    /// Operations already done, left out: number and words.
    pub done: Vec<(u32, String)>,
    /// What the person should know of the rest.
    pub remarks: Vec<String>,
    /// What the readings come to, where work has begun.
    pub rest: Option<super::rest::Rest>,
    /// The cheapest plans that do without one of the holdings, the cheapest of them first: the runner-up.
    pub others: Vec<Alternative>,
    /// Why there are none of those, where they were not looked for, or not found.
    pub no_second: Option<NoSecond>,
    /// The ways round that were searched beside one another, where the order found hangs on one: the plan is the cheapest of them.
    pub compared: Vec<Compared>,
    /// What the tolerance chart changed.
    pub chart_answers: Vec<ChartAnswer>,
}

/// One way round that was searched: from which end the largest section is roughed.
#[derive(Debug, Clone, PartialEq)]
pub struct Compared {
    /// In words: `rough C from the far end`.
    pub says: String,
    /// Minutes of its cheapest order found.
    pub cost: f64,
    /// No order of it costs less.
    pub lower_bound: f64,
}

/// A drawn distance that the cheapest plan does not hold, and what became of it.
#[derive(Debug, Clone, PartialEq)]
pub struct ChartAnswer {
    /// One face.
    pub from: String,
    /// The other.
    pub to: String,
    /// Where the two faces lie.
    pub at: (Station, Station),
    /// What the drawing asks, in words: `10.650 ±.005`.
    pub asked: String,
    /// The tolerance ± it asks.
    pub asked_half: Length,
    /// What the cheapest plan holds it to with every cut as close as the shop file says, ±.
    pub cheapest_gives: Length,
    /// Whether this plan holds it.
    pub holds: bool,
    /// What this plan costs more, minutes.
    pub more_minutes: f64,
    /// No plan that holds it has fewer setups, where that is proved.
    pub fewest_setups: Option<u64>,
    /// In words.
    pub says: String,
}

/// A value nobody stated.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Assumed {
    /// What (`Cross dial`, `Rough cut`).
    pub what: String,
    /// The value used, in words.
    pub value: String,
    /// Source, or `common practice`.
    pub source: String,
}

impl Operation {
    /// Whether a parting tool ends in a hole that was cut before, not at the middle.
    pub fn parts_into_a_hole(&self) -> bool {
        let deep = self.travel.zip(self.from_diameter).filter(|_| self.verb == Verb::PartOff);
        deep.is_some_and(|(deep, d)| d - deep.times(2) > Length::micrometres(1))
    }

    /// A center hole off the part's axis, for an eccentric.
    pub fn is_second_center(&self) -> bool {
        self.verb == Verb::Center && self.throw.is_some()
    }
}

impl Plan {
    /// Whether an operation faces the work to its overall length: the other end is faced before it.
    pub fn faces_to_overall(&self, operation: &Operation) -> bool {
        let Some(end) = operation.end.filter(|_| operation.verb == Verb::Face) else { return false };
        let other = |o: &Operation| o.verb == Verb::Face && o.end == Some(end.other());
        let mut before = self.operations().take_while(|(_, o)| o.number != operation.number);
        let begun = !self.done.is_empty() && !self.operations().any(|(_, o)| other(o));
        begun || before.any(|(_, o)| other(o))
    }

    /// All operations in order, with the setup each stands in.
    pub fn operations(&self) -> impl Iterator<Item = (&Setup, &Operation)> {
        self.setups.iter().flat_map(|s| s.operations.iter().map(move |o| (s, o)))
    }
}
