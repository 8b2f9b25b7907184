//! The kinds of feature: the first key of an entry.

use super::Scope;

/// A kind of feature.
#[derive(Debug)]
pub struct KindWord {
    /// The word of this page.
    pub word: &'static str,
    /// Other spellings and other trades' words.
    pub also: &'static [&'static str],
    /// The keys its entry may have.
    pub scope: Scope,
    /// Whether it is a length of the part.
    pub section: bool,
    /// What its value is, with its article.
    pub wants: &'static str,
    /// What it is, in a few words.
    pub about: &'static str,
}

impl KindWord {
    /// Whether this word, however spelt, names it.
    pub fn names(&self, word: &str) -> bool {
        let folded = super::fold(word);
        std::iter::once(&self.word).chain(self.also).any(|w| *w == folded)
    }
}

const fn kind(
    word: &'static str,
    also: &'static [&'static str],
    scope: Scope,
    section: bool,
    wants: &'static str,
    about: &'static str,
) -> KindWord {
    KindWord { word, also, scope, section, wants, about }
}

/// Every kind.
pub static KINDS: &[KindWord] = &[
    kind(
        "turn",
        &[
            "body", "boss", "collar", "cylinder", "diameter", "flange", "journal", "pilot", "seat", "shank", "spigot",
            "step", "stub", "tang", "turned",
        ],
        Scope::Turn,
        true,
        "a diameter",
        "a cylinder; `stock` keeps the bar's own surface",
    ),
    kind(
        "thread",
        &["external thread", "screw", "screw thread"],
        Scope::Thread,
        true,
        "a thread",
        "an external thread, by its designation",
    ),
    kind(
        "relief",
        &["gorge", "run out groove", "thread relief", "thread run out", "thread undercut", "waist"],
        Scope::Relief,
        true,
        "a diameter",
        "a thread relief or other neck, by its bottom diameter",
    ),
    kind("taper", &["cone"], Scope::Taper, true, "a taper", "`1:10`, per foot, degrees, degrees a side"),
    kind("knurl", &["knurling"], Scope::Knurl, true, "a knurl", "a knurled length"),
    kind("groove", &[], Scope::Groove, false, "a diameter", "a groove on a section, by its bottom diameter"),
    kind(
        "ring groove",
        &["circlip groove", "retaining ring groove", "snap ring groove"],
        Scope::Groove,
        false,
        "a retaining ring",
        "a groove for a retaining ring: `DIN 471 25`, `B18.27 1`; or by its bottom diameter with `wide`",
    ),
    kind(
        "o ring groove",
        &[],
        Scope::Groove,
        false,
        "an O-ring",
        "a groove for an O-ring: `2-214`, `3.53 x 25`; or by its bottom diameter with `wide`",
    ),
    kind("undercut", &["under cut"], Scope::Undercut, false, "an undercut", "an undercut at a shoulder, `DIN 509 F`"),
    kind(
        "chamfer",
        &["bevel", "break edge", "edge break", "lead in"],
        Scope::Chamfer,
        false,
        "a chamfer",
        "leg along the axis x angle, `0.045 x 45°`",
    ),
    kind(
        "crown",
        &["crowned end", "dome", "domed end", "spherical end"],
        Scope::Crown,
        false,
        "a crown",
        "a domed end: `0.750 radius` of the dome, or `0.060 high`",
    ),
    kind(
        "fillet",
        &["corner radius", "inside corner", "inside corner radius"],
        Scope::Fillet,
        false,
        "a radius",
        "the radius of an inside corner",
    ),
    kind(
        "keyseat",
        &["key seat", "key slot", "keyway", "woodruff keyseat"],
        Scope::Keyseat,
        false,
        "a keyseat",
        "`Woodruff 606`, or width x height x length of a parallel key",
    ),
    kind("flat", &["flats"], Scope::Flat, false, "a flat", "`14 across`, `0.220 to far side`, or `0.030 deep`"),
    kind("square", &["squared end"], Scope::Flat, false, "a size across flats", "four flats, by the size across them"),
    kind("hexagon", &["hex"], Scope::Flat, false, "a size across flats", "six flats, by the size across them"),
    kind(
        "cross hole",
        &["cotter hole", "cross drilled hole", "pin hole", "split pin hole"],
        Scope::CrossHole,
        false,
        "a diameter",
        "a hole across the axis",
    ),
    kind(
        "tapped hole",
        &["internal thread", "tap", "tapped"],
        Scope::TappedHole,
        false,
        "a thread",
        "a tapped hole in an end",
    ),
    kind(
        "center hole",
        &["center", "center drill", "center drilled hole"],
        Scope::CenterHole,
        false,
        "a center hole",
        "form and drill, `A 1/8`, `No. 3`; `none` where the drawing forbids it",
    ),
    kind("hole", &["bore", "end hole"], Scope::Hole, false, "a diameter", "a hole in an end"),
];

/// What may stand in `inside:`.
pub static INSIDE_KINDS: &[KindWord] = &[
    kind(
        "bore",
        &["c bore", "cbore", "counterbore", "hole", "step", "through bore", "turn"],
        Scope::InsideBore,
        true,
        "a diameter",
        "a cylinder inside, by its diameter; `stock` keeps a tube's own bore",
    ),
    kind(
        "thread",
        &["internal thread", "tap", "tapped", "tapped hole"],
        Scope::InsideThread,
        true,
        "a thread",
        "an internal thread, by its designation",
    ),
    kind(
        "relief",
        &["neck", "recess", "thread relief", "undercut"],
        Scope::InsideRelief,
        true,
        "a diameter",
        "a relief at the bottom of a bore or thread, by its diameter",
    ),
    kind("taper", &["cone"], Scope::InsideTaper, true, "a taper", "a bored taper: rate, `large` and `small`"),
    kind(
        "groove",
        &["circlip groove", "internal groove", "o ring groove", "ring groove", "snap ring groove"],
        Scope::InsideGroove,
        false,
        "a diameter",
        "a groove in the wall, by the diameter at its bottom",
    ),
    kind(
        "chamfer",
        &["countersink", "csk", "lead in", "seat"],
        Scope::InsideChamfer,
        false,
        "a chamfer",
        "at the mouth: leg along the axis x angle to the axis, 30° makes a seat for a center; or a countersink by its mouth, `Ø0.500 x 82°` included",
    ),
];
