//! The rules of order and holding as data: what a lathe hand keeps to, hard or soft, with the source.
//!
//! `R` numbers are the project's own list; the others carry the id of the check that judges the same thing.

use crate::model::plan::Why;

/// What a rule is used for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Use {
    /// It puts one operation before another.
    Order,
    /// It says how the work is held, or what stays in one holding.
    Holding,
    /// It sets an allowance or a size.
    Allowance,
    /// Working practice for the sheet; it moves nothing in the plan.
    Practice,
}

impl Use {
    /// In one word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Order => "order",
            Self::Holding => "holding",
            Self::Allowance => "allowance",
            Self::Practice => "practice",
        }
    }
}

/// One rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rule {
    /// Id, as `off: [R3]` names it.
    pub id: &'static str,
    /// Hard rules cannot be switched off.
    pub hard: bool,
    /// What for.
    pub used: Use,
    /// The rule in one sentence.
    pub text: &'static str,
    /// Source.
    pub source: &'static str,
}

const PRACTICE: &str = "common practice";
const NAVY: &str = "US Navy, Machinery Repairman (NAVEDTRA 14345)";
const SEQUENCE: &str =
    "e-works 2011, general sequencing rules: datum surfaces first, rough before finish, main before minor";
const ARMY: &str = "US Army, Machinist's course OD1645, p. 60";
const JONES: &str = "F. D. Jones, Turning and Boring, 1914";

const fn hard(id: &'static str, used: Use, text: &'static str, source: &'static str) -> Rule {
    Rule { id, hard: true, used, text, source }
}

const fn soft(id: &'static str, used: Use, text: &'static str, source: &'static str) -> Rule {
    Rule { id, hard: false, used, text, source }
}

/// Every rule, in the order of its number.
pub static RULES: &[Rule] = &[
    hard(
        "R1",
        Use::Order,
        "an end is faced and centered before any work on centers at that end, and faced before it is turned where it stands out of the jaws, but for the spot of a steady rest (R15)",
        "Machine Shop Work: Turning",
    ),
    hard("R2", Use::Order, "rough before finish, main surfaces before minor ones", SEQUENCE),
    soft("R3", Use::Order, "an end is roughed all over before its first finish cut", ARMY),
    soft("R4", Use::Allowance, "leave 1/64 to 1/32 in on the diameter for the finish cuts", NAVY),
    hard("R5", Use::Order, "a close size is finished cold, after all heavier cuts of that end", NAVY),
    soft("R6", Use::Practice, "the first roughing cut goes under the scale", NAVY),
    hard("R7", Use::Practice, "the spindle stands still for every measurement", NAVY),
    soft("R8", Use::Practice, "turn with the feed toward the headstock", "lathe course text"),
    hard(
        "R9",
        Use::Order,
        "reliefs, grooves and the start chamfer come before the thread that needs them",
        "G. Schneider, Cutting Tool Applications, ch. 6",
    ),
    hard("R10", Use::Holding, "a thread, its blank and its relief are cut in one holding", NAVY),
    soft(
        "R11",
        Use::Order,
        "knurl before the smaller diameters beside it are turned",
        "J. R. Walker, Modern Metalworking, 2004, p. 453",
    ),
    hard("R12", Use::Order, "a keyseat is cut after its seat is finished, and before the last deburring", NAVY),
    soft(
        "R13",
        Use::Order,
        "cold-drawn bar moves when a slot is cut on one side: rough, let it move, then finish",
        "Cutting Tool Engineering, July 2021",
    ),
    soft("R14", Use::Holding, "keyseats at one clocking are cut in one setup", PRACTICE),
    hard(
        "R15",
        Use::Order,
        "a steady rest runs on a spot turned true; on bar with scale it is turned on a rough center, which nothing else runs on",
        "US Army TC 9-524",
    ),
    soft("R16", Use::Practice, "a follow rest is set on a turned start, near the center", JONES),
    soft("R17", Use::Practice, "a long overhang is faced in a steady rest", "GTZ course B247"),
    soft(
        "R18",
        Use::Holding,
        "diameters that must run true together are finished in one holding or between centers",
        "lathe maker's support note",
    ),
    soft("R19", Use::Practice, "prove the tailstock by two test cuts before finishing on centers", JONES),
    soft(
        "R20",
        Use::Order,
        "larger diameters are roughed before smaller ones, so that the work stays stiff",
        "common practice, from memory",
    ),
    soft(
        "R21",
        Use::Order,
        "the datum end is faced first: every length is measured from it",
        "OpenWA, Machining 1; Rose, Modern Machine-Shop Practice",
    ),
    soft("R22", Use::Practice, "come to every dial reading from the same side", PRACTICE),
    hard("R23", Use::Order, "part off last, and never between centers", PRACTICE),
    hard("R24", Use::Practice, "bar behind the spindle is carried or turns slowly", "makerspace guide"),
    soft("R25", Use::Holding, "finished seats and threads are not gripped bare", ARMY),
    soft("R26", Use::Practice, "groove at about a quarter of the turning speed", "OpenWA, Machining 1, ch. 10.6"),
    soft(
        "R27",
        Use::Order,
        "grinding last; threads after hardening that would distort them",
        "common practice, from memory",
    ),
    hard(
        "order-polish-keyseat",
        Use::Order,
        "polishing and filing come before any slot, flat or cross hole is cut: a strip that catches in one takes the hand with it",
        "Ontario labour ministry, alert on polishing entanglement",
    ),
    soft("order-turn-keyseat", Use::Order, "the lathe is done before a slot or hole interrupts its cuts", PRACTICE),
    soft("order-thread-seat", Use::Order, "the seat beside a thread is finished before the thread is cut", PRACTICE),
    hard("order-bench", Use::Order, "deburr, then try the mates, then inspect, all after the last cut", PRACTICE),
    hard(
        "overhang",
        Use::Holding,
        "no more than three diameters out of the jaws without a center",
        "a lathe maker's safety rule",
    ),
    hard(
        "deflection",
        Use::Holding,
        "what gives way under the tool by more than its band is carried by a center or a rest, or brought to size by passes without infeed",
        "stepped beam; cutting force by Kienzle; follow rest: F. D. Jones, Turning and Boring, 1914",
    ),
    soft(
        "workholder",
        Use::Holding,
        "what must run true to a finished surface is held by a collet of its size, soft jaws bored to it, or four jaws indicated",
        "lathe maker's support note: a scroll chuck does not repeat true; four jaws indicated to .002 TIR and finer: a machine shop course",
    ),
    hard(
        "mandrel",
        Use::Holding,
        "what must run true to a bore is turned in the bore's own holding, or on a mandrel in it",
        "O. E. Perrigo, Lathe Operation, ch. 13: mandrels and arbors",
    ),
    soft(
        "dividing",
        Use::Holding,
        "squares, hexagons and clocked work are turned by exact parts of a turn in a dividing head",
        "US Army Ordnance, milling course OD1644: plain indexing",
    ),
    hard("center-missing", Use::Holding, "no center where there is no center hole", PRACTICE),
    soft(
        "short-work",
        Use::Holding,
        "work no longer than it is wide lies against the steps of the jaws: a quarter of its length is grip enough",
        "common practice, no source",
    ),
    soft(
        "thin-wall",
        Use::Holding,
        "jaws do not press a close bore out of round: thin walls are held all round, or lightly and gauged again",
        "S. Timoshenko, Strength of Materials (thin ring under equal loads), from memory",
    ),
    soft("grip-short", Use::Holding, "grip about a diameter of length, on nothing that a jaw spoils", PRACTICE),
    hard("feature-in-jaws", Use::Holding, "nothing is cut where the jaws or the dog hold", PRACTICE),
    soft(
        "slender-last",
        Use::Order,
        "a slender screw or journal is finished after what is roughed at the other end: nothing heavy is driven through it",
        PRACTICE,
    ),
    soft("close-last", Use::Order, "close sizes come after the heavier cuts that either end could take", PRACTICE),
    soft(
        "last-cut-takes-burr",
        Use::Order,
        "a groove on a close seat is cut before the seat's last cuts, which take its burr away",
        PRACTICE,
    ),
    soft(
        "taper-method",
        Use::Order,
        "a taper is cut by the attachment, by the compound where its slide is long enough, or with the tailstock set over",
        "US Navy, Machinery Repairman (NAVEDTRA 14345), tapers",
    ),
    hard(
        "order-bore",
        Use::Order,
        "drill, bore, ream; the hole, its chamfer and its relief before the thread in it; the deepest hole first",
        "common practice, no source",
    ),
    hard(
        "order-center-lost",
        Use::Holding,
        "an end hole is drilled after the last use of the center in that end, unless it carries a 60° seat",
        "common practice, no source",
    ),
    soft(
        "knurl-hole",
        Use::Order,
        "knurl before the hole under the knurl is drilled, bored and tapped: its press closes a thin wall and spoils a thread",
        PRACTICE,
    ),
    soft(
        "rough-then-bore",
        Use::Order,
        "an end whose center bears on the mouth of a close bore is roughed before that is bored, where it can be",
        PRACTICE,
    ),
    soft(
        "drill-first",
        Use::Order,
        "an end is drilled before its close sizes are finished: drilling heats and pushes the work",
        PRACTICE,
    ),
    hard(
        "eccentric",
        Use::Order,
        "what runs true to the part's own axis is finished first; then the work is thrown over for an eccentric",
        "common practice, no source",
    ),
    hard(
        "offset-centers",
        Use::Holding,
        "a long shaft's eccentric is turned between second centers, its throw off the first, in line in both ends",
        "Machine Shop Work: Eccentric turning; Rose, Modern Machine-Shop Practice (mandrel with two pairs of centers)",
    ),
    hard(
        "chart",
        Use::Holding,
        "faces whose distance is held closer than two zeros allow are cut in one holding",
        "the tolerance chart: each face by what it is measured from",
    ),
    soft("interrupted", Use::Practice, "corners of a bar are struck, not cut: slow, tough tool", PRACTICE),
    soft("wish", Use::Order, "asked for in the description", "the description's `plan:`"),
];

/// The rule with this id.
pub fn rule(id: &str) -> Option<&'static Rule> {
    RULES.iter().find(|r| r.id.eq_ignore_ascii_case(id.trim()))
}

/// What can be taken out of a plan as one: a rule with all that it asks, or one wish.
pub(super) type Asked = (&'static str, String);

/// What asks for something.
pub(super) fn asked(why: &Why) -> Asked {
    (why.rule, if why.rule == "wish" { why.reason.clone() } else { String::new() })
}

/// A reason under a rule, with the rule's source.
pub(super) fn because(id: &'static str, reason: impl Into<String>) -> Why {
    let source = rule(id).map_or(PRACTICE, |r| r.source);
    Why { rule: id, reason: reason.into(), source }
}
