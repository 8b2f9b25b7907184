//! Default limits of the checks: one table. Each can be changed under `limits:` in the shop file.

use crate::unit::Length;

/// A default.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LimitDefault {
    /// A length, with its value for inch and for millimetre parts.
    Length {
        /// For inch parts.
        inch: Length,
        /// For millimetre parts.
        mm: Length,
    },
    /// A pure number: a ratio, seconds, degrees.
    Number(f64),
}

/// One limit.
#[derive(Debug, Clone, Copy)]
pub struct Limit {
    /// Check it belongs to.
    pub check: &'static str,
    /// Its name in `limits: {check: {name: value}}`; the first of a check may be written without a name.
    pub name: &'static str,
    /// Default.
    pub value: LimitDefault,
    /// What it limits.
    pub what: &'static str,
    /// Source, or `common practice, no source`.
    pub source: &'static str,
}

const fn length(micro_inches: i64, micrometres: i64) -> LimitDefault {
    LimitDefault::Length { inch: Length::micro_inches(micro_inches), mm: Length::micrometres(micrometres) }
}

const PRACTICE: &str = "common practice, no source";

const fn limit(
    check: &'static str,
    name: &'static str,
    value: LimitDefault,
    what: &'static str,
    source: &'static str,
) -> Limit {
    Limit { check, name, value, what, source }
}

/// Every default, in the order of the register.
pub static LIMITS: &[Limit] = &[
    limit("too-fine", "steps", LimitDefault::Number(50.0), "steps of the last decimal within the limits", PRACTICE),
    limit("play-negative", "play", length(10_000, 250), "largest play of bearing, ring and groove", PRACTICE),
    limit("method-too-coarse", "times", LimitDefault::Number(2.0), "tolerance band over the method's error", PRACTICE),
    limit("held-by-turning", "coarsest", LimitDefault::Number(7.0), "coarsest ISO grade that wants care", PRACTICE),
    limit("held-by-turning", "finest", LimitDefault::Number(5.0), "finest ISO grade of turning", PRACTICE),
    limit("taper-inconsistent", "slack", length(1_000, 20), "difference left for rounded angles", PRACTICE),
    limit("heat-growth", "rise", LimitDefault::Number(17.0), "rise in kelvin", PRACTICE),
    limit("stock-diameter", "cold drawn", length(31_250, 800), "clean-up on cold drawn bar, on the diameter", PRACTICE),
    limit(
        "stock-diameter",
        "hot rolled",
        length(125_000, 3_000),
        "clean-up on hot rolled bar, on the diameter",
        PRACTICE,
    ),
    limit("stock-length", "facing", length(31_250, 800), "facing allowance at each end", PRACTICE),
    limit(
        "stock-length",
        "saw",
        length(31_250, 800),
        "what a saw cut is good to, where the saw length has no limits",
        PRACTICE,
    ),
    limit("stock-length", "parting", length(125_000, 3_000), "parting tool when the shop file gives none", PRACTICE),
    limit("stock-long", "spare", length(500_000, 12_000), "spare beyond overall and facing that is let pass", PRACTICE),
    limit("stock-scale", "a side", length(31_250, 800), "least depth under the scale, a side", PRACTICE),
    limit("grip-short", "diameters", LimitDefault::Number(1.0), "grip in diameters, warning", PRACTICE),
    limit("grip-short", "long", length(750_000, 19_000), "grip that is always enough", PRACTICE),
    limit("grip-short", "least diameters", LimitDefault::Number(0.5), "grip in diameters, error", PRACTICE),
    limit("grip-short", "least long", length(250_000, 6_000), "grip that is no longer an error", PRACTICE),
    limit(
        "grip-short",
        "of short work",
        LimitDefault::Number(0.25),
        "grip as a share of short work's length",
        PRACTICE,
    ),
    limit("grip-short", "least of short work", length(125_000, 3_000), "least grip of short work", PRACTICE),
    limit("jaws-room", "room", length(250_000, 6_000), "room between the jaws and the nearest cut", PRACTICE),
    limit(
        "overhang",
        "diameters",
        LimitDefault::Number(3.0),
        "diameters out of the jaws without a center",
        "a lathe maker's safety rule",
    ),
    limit("slender", "diameters", LimitDefault::Number(10.0), "length over diameter on a center", PRACTICE),
    limit("deflection", "share", LimitDefault::Number(0.5), "share of the diameter tolerance", PRACTICE),
    limit(
        "deflection",
        "kc",
        LimitDefault::Number(1700.0),
        "specific cutting force kc1.1, N/mm², instead of the material's own",
        PRACTICE,
    ),
    limit("deflection", "radial", LimitDefault::Number(0.4), "radial share of the cutting force", PRACTICE),
    limit("deflection", "depth", length(5_000, 130), "depth of a last cut, a side", PRACTICE),
    limit("deflection", "feed", length(4_000, 100), "feed of a last cut", PRACTICE),
    limit("bar-past-spindle", "room", length(2_000_000, 50_000), "bar that has room inside the chuck", PRACTICE),
    limit("bar-whip", "share", LimitDefault::Number(0.5), "share of the first bending speed", PRACTICE),
    limit("bar-whip", "spindle", length(15_000_000, 380_000), "bar carried inside the spindle", PRACTICE),
    limit("too-long", "dog and centers", length(500_000, 12_000), "room beside the work", PRACTICE),
    limit("too-long", "chuck and center", length(4_000_000, 100_000), "room beside the work", PRACTICE),
    limit("tailstock-room", "chuck", length(3_500_000, 90_000), "spindle nose to the jaws' faces", PRACTICE),
    limit(
        "tailstock-room",
        "drill chuck",
        length(3_500_000, 90_000),
        "drill chuck and shank beside the hole's depth",
        PRACTICE,
    ),
    limit(
        "tool-reach",
        "bar diameters",
        LimitDefault::Number(4.0),
        "overhang of a boring bar in its diameters",
        PRACTICE,
    ),
    limit(
        "order-drilled-late",
        "diameters",
        LimitDefault::Number(5.0),
        "depth of a hole from which drilling it is heavy work, in its diameters",
        PRACTICE,
    ),
    limit("center-too-big", "share", LimitDefault::Number(0.5), "mouth over the end's diameter", PRACTICE),
    limit("groove-deep", "widths", LimitDefault::Number(8.0), "depth over the tool's width", PRACTICE),
    limit("relief-too-deep", "deep", length(30_000, 800), "below the root, on the diameter", PRACTICE),
    limit(
        "relief-too-deep",
        "pitches",
        LimitDefault::Number(0.35),
        "below the root in pitches, on the diameter",
        PRACTICE,
    ),
    limit(
        "relief-too-deep",
        "narrow",
        LimitDefault::Number(6.0),
        "pitches up to which a plain section counts as a relief",
        PRACTICE,
    ),
    limit("relief-width", "pitches", LimitDefault::Number(2.5), "width in pitches", PRACTICE),
    limit(
        "relief-width",
        "left hand",
        LimitDefault::Number(3.0),
        "width in pitches where a left-hand thread starts",
        PRACTICE,
    ),
    limit("relief-width", "least", LimitDefault::Number(1.5), "width in pitches, error", PRACTICE),
    limit("neck-weak", "share", LimitDefault::Number(0.8), "of the smaller neighbour, warning", PRACTICE),
    limit("neck-weak", "least", LimitDefault::Number(0.6), "of the smaller neighbour, error", PRACTICE),
    limit("neck-weak", "narrow", LimitDefault::Number(1.0), "longest neck, in its own diameters", PRACTICE),
    limit("shoulder-height", "corners", LimitDefault::Number(2.0), "height of a shoulder in corners", PRACTICE),
    limit(
        "land-thin",
        "depths",
        LimitDefault::Number(3.0),
        "distance of a ring groove from the end, in groove depths",
        PRACTICE,
    ),
    limit("undercut-deep", "share", LimitDefault::Number(0.1), "of the seat's diameter", PRACTICE),
    limit(
        "bore-fit",
        "press",
        LimitDefault::Number(0.004),
        "interference of the heaviest press, as a share of the bore",
        PRACTICE,
    ),
    limit(
        "bore-fit",
        "loose",
        LimitDefault::Number(0.01),
        "clearance of the loosest running fit, as a share of the bore",
        PRACTICE,
    ),
    limit("bore-fit", "loose least", length(4_000, 100), "clearance that is never too much", PRACTICE),
    limit("passes-seat", "share", LimitDefault::Number(0.002), "interference that can be pushed over", PRACTICE),
    limit("seal-edge", "lip", LimitDefault::Number(0.95), "free lip of a seal, as a share of its seat", PRACTICE),
    limit(
        "thread-not-cuttable",
        "error",
        LimitDefault::Number(0.0005),
        "error of change gears, as a share of the lead",
        PRACTICE,
    ),
    limit("thread-lead-travel", "leads", LimitDefault::Number(2.0), "room to start and stop, in leads", PRACTICE),
    limit("thread-short", "diameters", LimitDefault::Number(0.8), "full thread in diameters", PRACTICE),
    limit("thread-chamfer", "pitches", LimitDefault::Number(1.5), "longest start chamfer in pitches", PRACTICE),
    limit("thread-helix", "degrees", LimitDefault::Number(4.0), "lead angle", PRACTICE),
    limit("thread-runout-time", "seconds", LimitDefault::Number(1.0), "time in the relief", PRACTICE),
    limit("keyseat-wall", "wall", length(60_000, 1_500), "least wall to a bore", PRACTICE),
    limit("cross-hole-large", "times", LimitDefault::Number(3.0), "diameters over the hole", PRACTICE),
    limit("flat-usable", "share", LimitDefault::Number(0.5), "width of a flat over its full width", PRACTICE),
    limit("knurl-growth", "tooth", LimitDefault::Number(0.15), "part of a tooth that the wheels close", PRACTICE),
    limit("keyseat-long", "diameters", LimitDefault::Number(2.0), "key length in diameters", PRACTICE),
];
