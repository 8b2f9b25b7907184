//! Words of the trade that are not words of this description: those with two readings, which are refused with both, and
//! those that say something this description says elsewhere, which are answered with where.
//!
//! The readings are common practice in the shops of both countries (no source for a single one, but where it is named).

/// Where a word stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Spot {
    /// As a key or a kind of feature.
    Key,
    /// As a value, or part of one.
    Value,
    /// Behind or within a size.
    Size,
}

/// A word of the trade.
#[derive(Debug)]
pub struct TradeWord {
    /// The word and its other spellings, folded as `fold` does.
    pub words: &'static [&'static str],
    /// Where it is looked for.
    pub spots: &'static [Spot],
    /// What it may mean: two readings, each with how to write it; one where it is plain.
    pub readings: &'static [&'static str],
}

const fn word(words: &'static [&'static str], spots: &'static [Spot], readings: &'static [&'static str]) -> TradeWord {
    TradeWord { words, spots, readings }
}

const KEY: &[Spot] = &[Spot::Key];
const ANY: &[Spot] = &[Spot::Key, Spot::Value];
const SIZE: &[Spot] = &[Spot::Size];

/// Every one.
pub static TRADE_WORDS: &[TradeWord] = &[
    // Two readings: geometry.
    word(
        &["land", "lands"],
        KEY,
        &[
            "the metal left between two grooves: write the grooves, the land is what stays",
            "a ground or raised ring that carries something: write `turn`",
        ],
    ),
    word(
        &["neck"],
        KEY,
        &["a thread relief, into which a thread runs out: write `relief`", "a reduced middle: write `turn`"],
    ),
    word(
        &["recess"],
        KEY,
        &[
            "a groove in the outside: write `groove` or `undercut`",
            "a groove or counterbore in a bore: write it under `inside`",
        ],
    ),
    word(
        &["gland"],
        KEY,
        &[
            "the groove an O-ring lies in: write `groove`",
            "the part that presses the packing of a stuffing box: that is a part of its own",
        ],
    ),
    word(
        &["radius", "rad"],
        KEY,
        &[
            "an inside corner: write `fillet` with `at`",
            "a rounded outside edge: write `chamfer`, or say what the edge is broken by",
        ],
    ),
    word(
        &["arbor", "arbour"],
        ANY,
        &[
            "what the work is mounted on, a mandrel: holdings are `chuck`, `chuck and center`, `between centers`",
            "the part itself: write `part: Arbor`",
        ],
    ),
    word(
        &["clearance"],
        KEY,
        &[
            "the room a thread runs out into: write `relief`",
            "how loose two parts sit on each other: write limits, or a fit code, on the section",
        ],
    ),
    word(
        &["shoulder"],
        KEY,
        &[
            "the face where two diameters meet: it lies where the sections meet, write `turn` on each side of it",
            "a ring larger than what lies on both sides of it: write `turn`",
        ],
    ),
    word(&["job"], KEY, &["the part: write `part`", "the bar it is cut from: write `stock`"]),
    word(
        &[
            "front",
            "back",
            "left",
            "right",
            "front end",
            "back end",
            "left end",
            "right end",
            "left hand end",
            "right hand end",
            "headstock",
            "tailstock",
            "headstock end",
            "tailstock end",
        ],
        &[Spot::Value],
        &[
            "the end the lengths are measured from: write `datum`",
            "the other end: write `far`; which one is at the headstock changes with each setup",
        ],
    ),
    word(&["spot"], KEY, &["a center hole: write `center hole: A 1/8`", "a spot face: plan it by hand"]),
    word(
        &["runout", "run out", "eccentricity", "concentricity", "out of true"],
        KEY,
        &[
            "total indicator reading: write `true to: NAME within 0.001 TIR`",
            "the distance between two axes, half of that: write `offset`",
        ],
    ),
    // Two readings: threads, fits and figures.
    word(
        &["depth", "thread depth", "depth of thread", "double depth", "single depth"],
        KEY,
        &[
            "the height of the thread on one side: the designation gives it, take it out",
            "the difference of the diameters, twice that (double depth): the designation gives it, take it out",
        ],
    ),
    word(
        &["tenth", "tenths"],
        SIZE,
        &["a ten-thousandth of an inch: write 0.0001", "a tenth of a millimetre: write 0.1 mm"],
    ),
    word(&["mil", "mils"], SIZE, &["a thousandth of an inch: write 0.001 in", "a millimetre: write 1 mm"]),
    word(
        &["snug", "snug fit"],
        SIZE,
        &[
            "a fit that goes on by hand without shake: write limits, or a fit code such as h6 or g6",
            "a fit that takes light blows: write limits, or a fit code such as js6 or k6",
        ],
    ),
    word(
        &["light press", "light press fit", "light drive"],
        SIZE,
        &[
            "a transition fit, sometimes loose: write limits, or a fit code such as k6 or m6",
            "a fit that is always tight: write limits, or a fit code such as n6 or p6",
        ],
    ),
    word(
        &["push", "push fit"],
        SIZE,
        &[
            "a fit that slides under hand pressure: write limits, or a fit code such as h6",
            "a fit that is tapped home, a transition fit: write limits, or a fit code such as js6 or k6",
        ],
    ),
    word(
        &["wringing", "wringing fit", "tap", "tap fit", "drive", "drive fit", "driving fit"],
        SIZE,
        &[
            "a transition fit, sometimes loose: write limits, or a fit code such as k6",
            "a fit that is always tight: write limits, or a fit code such as n6 or p6",
        ],
    ),
    word(
        &["slip", "slip fit", "sliding", "sliding fit", "slide fit", "running", "running fit", "close running"],
        SIZE,
        &["a fit with clearance, by how much is not said: write limits, or a fit code such as h6, g6, f7 or RC3"],
    ),
    word(
        &["press", "press fit", "force fit", "shrink", "shrink fit", "interference", "interference fit", "tight fit"],
        SIZE,
        &["a fit with interference, by how much is not said: write limits, or a fit code such as p6, s6 or FN2"],
    ),
    word(&["transition", "transition fit"], SIZE, &["a transition fit: write limits, or a fit code such as k6"]),
    word(
        &["off the diameter", "on the diameter", "on diameter", "a side", "per side", "each side"],
        SIZE,
        &[
            "a figure on the diameter: write the diameter that is left",
            "a figure on the radius, half of that: write the diameter that is left",
        ],
    ),
    word(
        &["sharp", "square corner"],
        SIZE,
        &["no corner is quite sharp: write the largest radius that may stay, `fillet: 0.010 max`"],
    ),
    word(&["full", "scant", "bare"], SIZE, &["a little over or under: write limits"]),
    word(
        &["live center", "live centers", "running center"],
        ANY,
        &[
            "a center that turns in its own bearings in the tailstock: write `live` in the shop file",
            "the center in the headstock spindle, which turns with the work: every lathe has it",
        ],
    ),
    // One reading, said elsewhere.
    word(&["center height"], KEY, &["half of the swing: write `swing` with twice this figure"]),
    word(
        &[
            "tpi",
            "threads per inch",
            "lead",
            "starts",
            "double start",
            "two start",
            "class",
            "hand",
            "left hand",
            "right hand",
            "single start",
        ],
        KEY,
        &["it belongs to the designation: `thread: 5/8-11 UNC-2A LH`, `1 1/8-0.2P-0.4L ACME-2G`"],
    ),
    word(
        &[
            "major",
            "major diameter",
            "outside diameter",
            "full diameter",
            "minor",
            "minor diameter",
            "root diameter",
            "core diameter",
            "pitch diameter",
            "effective diameter",
            "over wires",
            "three wires",
            "go/no go",
        ],
        KEY,
        &["the designation gives it by its standard: `thread: 5/8-11 UNC-2A`; what to turn first is `blank`"],
    ),
    word(
        &[
            "face",
            "facing",
            "square the end",
            "turning",
            "rough",
            "roughing",
            "finish cut",
            "scratch pass",
            "spring pass",
            "plunge",
            "ream",
            "polish",
            "file",
            "touch off",
            "pick up",
            "indicate",
            "clock",
            "true up",
            "chase",
            "single point",
            "screw cut",
            "semi finish",
            "deburr",
        ],
        KEY,
        &[
            "an operation: the plan derives the operations from the finished part; wishes stand under `plan:`, `before: [[polish seat, keyseat]]`",
        ],
    ),
    word(
        &[
            "chuck",
            "collet",
            "mandrel",
            "faceplate",
            "dog",
            "carrier",
            "drive plate",
            "catch plate",
            "steady",
            "steady rest",
            "fixed steady",
            "follow rest",
            "travelling steady",
            "traveling steady",
            "v block",
            "angle plate",
            "cathead",
            "spider",
            "vise",
            "vice",
            "dead center",
            "rotating center",
            "revolving center",
            "soft jaws",
            "three jaw chuck",
            "3 jaw chuck",
            "four jaw chuck",
            "4 jaw chuck",
        ],
        KEY,
        &["how it is held: write `plan: {holding: chuck}`, or list what the shop has in the shop file"],
    ),
    word(
        &[
            "compound",
            "compound rest",
            "top slide",
            "cross slide",
            "carriage",
            "saddle",
            "apron",
            "half nut",
            "half nuts",
            "tailstock",
            "poppet",
            "ways",
            "bed",
            "quick change gearbox",
            "change wheels",
            "leadscrew",
            "thread dial",
            "chasing dial",
            "thread indicator",
        ],
        KEY,
        &["a part of the lathe: what it reads and reaches stands in the shop file"],
    ),
    word(
        &["counterbore", "c'bore", "cbore", "countersink", "csk", "spot face", "spotface"],
        KEY,
        &["in a bore: write it under `inside`; a countersunk edge is a `chamfer`"],
    ),
    word(
        &["snap ring", "circlip", "retaining ring", "o ring"],
        KEY,
        &["the ring itself is bought: write what it lies in, `ring groove: DIN 471 25`, `o ring groove: 2-214`"],
    ),
    word(
        &[
            "mic",
            "micrometer",
            "caliper",
            "vernier",
            "height gauge",
            "surface plate",
            "dti",
            "dial indicator",
            "depth mic",
            "depth micrometer",
        ],
        KEY,
        &["what it is measured with: list it under `instruments` in the shop file"],
    ),
    word(
        &["gib head key", "gib head", "feather key", "sunk key", "sliding key", "disc key", "half moon key"],
        KEY,
        &["the key itself is a part of its own: write its seat, `keyseat: 6 x 6 x 25` or `keyseat: Woodruff 606`"],
    ),
];
