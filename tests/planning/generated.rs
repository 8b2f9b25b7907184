//! Random parts as people draw them, each from a seed: a profile that rises to a summit and falls, threads at the ends with their reliefs,
//! seats, ring grooves, a keyseat.

use std::fmt::Write as _;

/// A small generator, `SplitMix64`, and the same everywhere.
pub(crate) struct Dice(pub(crate) u64);

impl Dice {
    pub(crate) fn roll(&mut self, below: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        (z ^ (z >> 31)) % below.max(1)
    }

    fn one_in(&mut self, n: u64) -> bool {
        self.roll(n) == 0
    }

    fn between(&mut self, low: i64, high: i64) -> i64 {
        low + self.roll((high - low).max(1).unsigned_abs()).cast_signed()
    }
}

/// Threads by nominal in thousandths, with the least relief below the root and its width.
const THREADS: [(i64, &str, i64, i64); 6] = [
    (250, "1/4-28 UNF-2A", 195, 90),
    (375, "3/8-24 UNF-2A", 315, 105),
    (500, "1/2-20 UNF-2A", 425, 125),
    (625, "5/8-18 UNF-2A", 545, 140),
    (750, "3/4-16 UNF-2A", 660, 160),
    (1000, "1-12 UNF-2A", 880, 210),
];

/// What a generated part is made of.
pub(crate) struct Generated {
    pub(crate) text: String,
    /// Ends in which the drawing forbids a center hole: datum, far.
    pub(crate) forbidden: [bool; 2],
    pub(crate) with_shop: bool,
}

struct Writer {
    text: String,
    at: i64,
}

fn inches(thousandths: i64) -> String {
    format!("{}.{:03}", thousandths / 1000, thousandths % 1000)
}

impl Writer {
    fn section(&mut self, what: &str, long: i64) {
        self.at += long;
        let _ = write!(self.text, "  - {what}\n    to: {}\n", inches(self.at));
    }
}

/// Diameters of one side, from the end inward: rising.
fn side(d: &mut Dice, steps: u64, summit: i64) -> Vec<i64> {
    let mut list: Vec<i64> = (0..steps).map(|_| d.between(summit / 3, summit - 40) / 5 * 5).collect();
    list.sort_unstable();
    list.dedup();
    list
}

/// One side, written from its end inward or outward.
fn write_side(d: &mut Dice, w: &mut Writer, diameters: &[i64], datum_side: bool) {
    let threaded = d.one_in(2);
    let mut rows: Vec<(String, i64)> = Vec::new();
    for (i, diameter) in diameters.iter().enumerate() {
        let thread = THREADS.iter().rfind(|t| t.0 <= *diameter).filter(|_| i == 0 && threaded);
        if let Some((_, name, relief, wide)) = thread {
            rows.push((format!("thread: {name}"), d.between(400, 1400)));
            rows.push((format!("relief: {} +0/-0.010", inches(*relief)), *wide * 3 / 2));
            continue;
        }
        let long = d.between(200, 2200) / 10 * 10;
        let seat = d.one_in(3);
        let what = if seat {
            format!(
                "turn: {} +0/-0.0005\n    carries: {{part: bearing, bore: {}, wide: 0.25, enters: {}}}",
                inches(*diameter),
                inches(*diameter),
                if datum_side { "datum" } else { "far" }
            )
        } else {
            format!("turn: {} ±0.002", inches(*diameter))
        };
        rows.push((what, long));
        if d.one_in(6) {
            rows.push((format!("relief: {} +0/-0.010", inches(diameter * 85 / 100)), 100));
        }
    }
    if !datum_side {
        rows.reverse();
    }
    for (what, long) in rows {
        w.section(&what, long);
    }
}

/// A part from a seed.
pub(crate) fn believable(seed: u64) -> Generated {
    of_size(seed, 6)
}

/// A part of few sections.
pub(crate) fn small(seed: u64) -> Generated {
    of_size(seed, 3)
}

/// A plain bar with one or two steps at most.
pub(crate) fn tiny(seed: u64) -> Generated {
    of_size(seed, 2)
}

fn of_size(seed: u64, most: u64) -> Generated {
    let d = &mut Dice(seed);
    let summit = d.between(600, 2500) / 5 * 5;
    let (left, right) = (d.roll(most), d.roll(most));
    let (one, other) = (side(d, left, summit), side(d, right, summit));
    let kept = d.one_in(3);
    let mut w = Writer { text: String::new(), at: 0 };
    write_side(d, &mut w, &one, true);
    let from = w.at;
    let long = d.between(300, 4000) / 10 * 10;
    w.section(&if kept { "turn: stock".to_owned() } else { format!("turn: {} ±0.002", inches(summit)) }, long);
    if d.one_in(4) {
        let _ = write!(
            w.text,
            "  - groove: {} ±0.005\n    from: {}\n    wide: 0.100\n",
            inches(summit * 8 / 10),
            inches(from + 80)
        );
    }
    write_side(d, &mut w, &other, false);
    if summit > 1000 && long > 1200 && d.one_in(3) {
        let _ = write!(w.text, "  - keyseat: Woodruff 606\n    at: {}\n", inches(from + long / 2));
    }
    w.text += "  - chamfer: 0.020 x 45°\n    end: datum\n  - chamfer: 0.020 x 45°\n    end: far\n";
    let forbidden = match d.roll(8) {
        0 => [true, true],
        1 => [true, false],
        2 => [false, true],
        _ => [false, false],
    };
    for (none, end) in forbidden.iter().zip(["datum", "far"]) {
        if *none {
            let _ = write!(w.text, "  - center hole: none\n    end: {end}\n");
        }
    }
    let bar = if kept { summit } else { summit + 63 };
    let head = format!(
        "part: believable {seed}\nunits: in\nmaterial: 1045 cold drawn\nstock: {} x {}\ndatum: left end\noverall: {}\n\
         tolerances: {{lengths: ±0.005, diameters: ±0.002}}\nfeatures:\n",
        inches(bar),
        inches(w.at + 125),
        inches(w.at)
    );
    Generated { text: head + &w.text, forbidden, with_shop: d.one_in(2) }
}
