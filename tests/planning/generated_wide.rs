//! Random parts of every kind of work the planner knows, each from a seed, in inches and in millimetres: tapers, knurls, left-hand and
//! multi-start threads, eccentrics, flats, squares, keyseats, cross and tapped holes, bores, tapped ends, parting off. Sizes are whole
//! thousandths of an inch or hundredths of a millimetre.

use std::fmt::Write as _;

use crate::planning::generated::{Dice, Generated};

/// Nominal size, designation, diameter of the relief and its width.
type Thread = (i64, &'static str, i64, i64);

const INCH_THREADS: [Thread; 6] = [
    (500, "1/2-20 UNF-2A", 425, 190),
    (625, "5/8-18 UNF-2A LH", 545, 210),
    (750, "3/4-16 UNF-2A", 660, 240),
    (1000, "1-5 ACME-2G", 745, 500),
    (1125, "1 1/8-0.2P-0.4L ACME-2G", 860, 625),
    (1125, "1 1/8-0.2P-0.4L ACME-2G LH", 860, 625),
];
const METRIC_THREADS: [Thread; 6] = [
    (1200, "M12x1.5-6g", 960, 450),
    (1600, "M16x1.5-6g LH", 1360, 500),
    (2000, "M20x2-6g", 1670, 600),
    (2400, "Tr24x5-7e", 1800, 1200),
    (2800, "Tr28x10(P5)-7e", 2100, 1200),
    (2800, "Tr28x5-7e LH", 2100, 1200),
];

/// What a unit needs: how its sizes are written, and the sizes of this trade in it.
#[derive(Clone, Copy)]
struct Unit {
    inch: bool,
}

impl Unit {
    fn show(self, n: i64) -> String {
        if self.inch { format!("{}.{:03}", n / 1000, n % 1000) } else { format!("{}.{:02}", n / 100, n % 100) }
    }

    /// Thousandths of an inch as this unit counts, on a round number.
    fn about(self, thousandths: i64) -> i64 {
        if self.inch { thousandths / 5 * 5 } else { thousandths * 254 / 100 / 10 * 10 }
    }

    const fn pick(self, inch: &'static str, mm: &'static str) -> &'static str {
        if self.inch { inch } else { mm }
    }

    const fn threads(self) -> &'static [Thread; 6] {
        if self.inch { &INCH_THREADS } else { &METRIC_THREADS }
    }
}

/// One section: its first line and what stands beneath, its length and its largest diameter.
struct Row {
    head: String,
    long: i64,
    round: i64,
    slot: bool,
}

struct Maker<'d> {
    d: &'d mut Dice,
    u: Unit,
}

impl Maker<'_> {
    fn one_in(&mut self, n: u64) -> bool {
        self.d.roll(n) == 0
    }

    /// A length between two, told in thousandths of an inch.
    fn length(&mut self, low: i64, high: i64) -> i64 {
        let span = (high - low).max(1).unsigned_abs();
        self.u.about(low + self.d.roll(span).cast_signed())
    }

    fn row(head: String, long: i64, round: i64, slot: bool) -> Row {
        Row { head, long, round, slot }
    }

    /// A cylinder, sometimes a seat, sometimes close.
    fn cylinder(&mut self, round: i64, enters: &str) -> Row {
        let long = self.length(300, 1600);
        let d = self.u.show(round);
        let head = match self.d.roll(5) {
            0 => format!(
                "turn: {d} {}\n    carries: {{part: bearing, bore: {d}, wide: {}, enters: {enters}}}",
                self.u.pick("+0/-0.0005", "k6"),
                self.u.show(self.u.about(250))
            ),
            1 => {
                format!("turn: {d} {}\n    finish: {}", self.u.pick("+0/-0.001", "h7"), self.u.pick("32 µin", "0.8 µm"))
            }
            2 => format!("turn: {d} {}", self.u.pick("+0/-0.003", "h9")),
            _ => format!("turn: {d}"),
        };
        Self::row(head, long, round, true)
    }

    /// One side from its end inward: a thread with its relief or a plain end, then what rises to the summit.
    fn side(&mut self, summit: i64, most: u64, enters: &str) -> Vec<Row> {
        let mut rows: Vec<Row> = Vec::new();
        let threads: Vec<Thread> =
            self.u.threads().iter().copied().filter(|t| t.0 + self.u.about(125) <= summit).collect();
        let mut least = self.u.about(400);
        if !threads.is_empty() && self.one_in(2) {
            let t = threads[self.d.roll(threads.len() as u64) as usize];
            let long = self.length(600, 1500);
            // One in four has no relief: the tool is drawn out at its end.
            if self.one_in(4) {
                let out = self.u.show(self.u.about(150));
                rows.push(Self::row(format!("thread: {}\n    run-out: {out}", t.1), long, t.0, false));
                rows.push(self.cylinder(t.0 + self.u.about(60), enters));
                return rows;
            }
            rows.push(Self::row(format!("thread: {}", t.1), long, t.0, false));
            rows.push(Self::row(
                format!("relief: {} {}", self.u.show(t.2), self.u.pick("+0/-0.010", "+0/-0.2")),
                t.3,
                t.2,
                false,
            ));
            least = t.0;
        }
        for _ in 0..self.d.roll(most) {
            let room = summit - self.u.about(60) - least;
            if room < self.u.about(100) {
                break;
            }
            let round = least + self.u.about(50) + self.d.roll(room.unsigned_abs()).cast_signed() / 10 * 10;
            let round = round.min(summit - self.u.about(60));
            let row = match self.d.roll(6) {
                0 => {
                    let long = self.length(500, 1500);
                    Self::row(format!("taper: 1:20\n    large: {}", self.u.show(round)), long, round, false)
                }
                1 => {
                    let long = self.length(400, 1000);
                    let knurl = self.u.pick("diamond 0.060", "diamond 1.0 mm");
                    Self::row(format!("knurl: {knurl}\n    diameter: {}", self.u.show(round)), long, round, false)
                }
                _ => self.cylinder(round, enters),
            };
            rows.push(row);
            least = round;
        }
        rows
    }

    /// The thickest section, or two collars with an eccentric between them.
    fn middle(&mut self, summit: i64, bar: i64) -> Vec<Row> {
        let d = self.u.show(summit);
        let long = self.length(500, 3000);
        match self.d.roll(8) {
            0 if self.u.inch || bar > summit => {
                let throw = self.u.about(90);
                let small = summit - 2 * throw - self.u.about(60);
                let (collar, body) = (self.u.about(500), self.length(600, 1400));
                let eccentric = format!(
                    "turn: {} {}\n    offset: {}",
                    self.u.show(small),
                    self.u.pick("±0.002", "h9"),
                    self.u.show(throw)
                );
                vec![
                    Self::row(format!("turn: {d}"), collar, summit, false),
                    Self::row(eccentric, body, small, false),
                    Self::row(format!("turn: {d}"), collar, summit, false),
                ]
            }
            n if n != 3 && bar == summit => vec![Self::row("turn: stock".to_owned(), long, summit, true)],
            3 => {
                let knurl = self.u.pick("diamond 0.060", "diamond 1.0 mm");
                vec![Self::row(format!("knurl: {knurl}\n    diameter: {d}"), long, summit, false)]
            }
            _ => vec![Self::row(format!("turn: {d}"), long, summit, true)],
        }
    }

    /// Grooves, keyseats, flats and holes on the sections.
    fn lying(&mut self, rows: &[Row]) -> String {
        let (mut at, mut list) = (0, String::new());
        let last = rows.len() - 1;
        for (i, row) in rows.iter().enumerate() {
            let (from, long) = (at, row.long);
            at += long;
            let kept = row.head.starts_with("turn: stock");
            if !row.slot || self.one_in(3) {
                continue;
            }
            let u = self.u;
            let (place, middle) = (u.show(from + u.about(80)), u.show(from + long / 2));
            match self.d.roll(10) {
                0 if long > u.about(300) => {
                    let bottom = u.show(row.round * 85 / 100);
                    let _ =
                        write!(list, "  - groove: {bottom}\n    from: {place}\n    wide: {}\n", u.show(u.about(100)));
                }
                1 | 6 | 7 if !kept && long > u.about(1100) && row.round > u.about(700) => {
                    let seat = u.pick("3/16 x 3/16 x 3/4", "5 x 5 x 20");
                    let _ = write!(list, "  - keyseat: {seat}\n    from: {place}\n");
                }
                2 | 8 if u.inch && !kept && long > 1000 && row.round > 800 => {
                    let _ = write!(list, "  - keyseat: Woodruff 606\n    at: {middle}\n");
                }
                3 | 9 if (i == 0 || i == last) && !kept => {
                    let (word, share) = [("square", 72), ("hexagon", 88)][self.d.roll(2) as usize];
                    let flats = u.about(300).min(long);
                    let (a, b) = if i == 0 { (from, from + flats) } else { (at - flats, at) };
                    let _ = write!(
                        list,
                        "  - {word}: {}\n    from: {}\n    to: {}\n",
                        u.show(row.round * share / 100),
                        u.show(a),
                        u.show(b)
                    );
                }
                4 => {
                    let _ = write!(list, "  - cross hole: {}\n    at: {middle}\n", u.show(row.round / 5 / 10 * 10));
                }
                5 if row.round > u.about(800) => {
                    let (thread, deep) = (u.pick("1/4-20 UNC-2B", "M6"), u.show(row.round / 4));
                    let _ = write!(list, "  - tapped hole: {thread}\n    at: {middle}\n    deep: {deep}\n");
                }
                _ => {}
            }
        }
        list
    }

    /// A bore, a tapped end, a hole right through with what is wider at one end.
    fn inside(&mut self, narrowest: (i64, i64), long: i64) -> String {
        let u = self.u;
        let (datum, far) = narrowest;
        let bore = |round: i64| u.show(round * 45 / 100 / 10 * 10);
        let deep = u.show((long / 4).min(u.about(900)));
        let close = u.pick("+0.0008/-0", "H7");
        match self.d.roll(5) {
            0 => format!("inside:\n  - {{bore: {} {close}, depth: {deep}, end: datum}}\n", bore(datum)),
            1 => format!("inside:\n  - {{bore: {}, depth: {deep}, end: far}}\n", bore(far)),
            2 => format!(
                "inside:\n  - {{thread: {}, depth: {}, end: far}}\n",
                u.pick("1/4-20 UNC-2B", "M6"),
                u.show(u.about(500))
            ),
            3 if long < u.about(4000) => {
                format!("inside:\n  - {{bore: {} {close}, end: through}}\n", bore(datum.min(far)))
            }
            _ => format!(
                "inside:\n  - {{bore: {} {close}, depth: {deep}, end: far}}\n  - {{thread: {}, depth: {}, end: datum}}\n",
                bore(far),
                u.pick("1/4-20 UNC-2B", "M6"),
                u.show(u.about(500))
            ),
        }
    }
}

/// A part of every kind of work from a seed, of up to so many sections a side.
pub(crate) fn wide(seed: u64, most: u64) -> Generated {
    let d = &mut Dice(seed ^ 0x0005_eed0_fa11);
    let u = Unit { inch: d.roll(5) < 3 };
    let mut m = Maker { d, u };
    let summit = m.length(900, 1900);
    // One in three keeps the bar's own surface.
    let bar = if m.one_in(3) { summit } else { summit + u.about(125) };
    let mut rows = m.side(summit, most, "datum");
    let middle = m.middle(summit, bar);
    let thick = rows.len();
    rows.extend(middle);
    let mut other = m.side(summit, most, "far");
    other.reverse();
    rows.extend(other);
    let mut text = String::new();
    let mut at = 0;
    for (i, row) in rows.iter().enumerate() {
        at += row.long;
        let to = if i + 1 == rows.len() { "end".to_owned() } else { u.show(at) };
        // The larger end of a taper is nearer the thickest section.
        let tapers = if row.head.starts_with("taper") {
            if i < thick { "\n    tapers to: datum" } else { "\n    tapers to: far" }
        } else {
            ""
        };
        let _ = write!(text, "  - {}{tapers}\n    to: {to}\n", row.head);
    }
    text += &m.lying(&rows);
    let c = u.show(u.about(30));
    let _ = write!(text, "  - chamfer: {c} x 45°\n    end: datum\n  - chamfer: {c} x 45°\n    end: far\n");
    let eccentric = text.contains("offset:");
    let mut inside = String::new();
    if !eccentric && m.one_in(3) {
        inside = m.inside((rows[0].round, rows[rows.len() - 1].round), at);
    }
    let forbidden = match m.d.roll(8) {
        0 if !eccentric => [true, false],
        1 if !eccentric => [false, true],
        _ => [false, false],
    };
    for (none, end) in forbidden.iter().zip(["datum", "far"]) {
        if *none && inside.is_empty() {
            let _ = write!(text, "  - center hole: none\n    end: {end}\n");
        }
    }
    // What wants a center and has a hole in that end is refused when it is to be parted off (told of as a fault): short ones only.
    let held = inside.is_empty() || at < 2 * bar;
    let parted = !eccentric && held && at < u.about(4500) && bar < u.about(1375) && m.one_in(2);
    let saw = at + u.about(if parted { 3000 } else { 125 });
    let wishes = if parted { "plan: {part off: true}\n" } else { "" };
    let with_shop = m.one_in(2);
    let text = format!(
        "part: wide {seed}\nunits: {}\nmaterial: {}\nstock: {} x {}\ndatum: left end\noverall: {}\ntolerances: {}\nfeatures:\n{text}{inside}{wishes}",
        if u.inch { "in" } else { "mm" },
        u.pick("1045 cold drawn", "C45 cold drawn"),
        u.show(bar),
        u.show(saw),
        u.show(at),
        u.pick("{lengths: ±0.005, diameters: ±0.002}", "{lengths: ±0.1, diameters: ±0.05}"),
    );
    Generated { text, forbidden: if inside.is_empty() { forbidden } else { [false, false] }, with_shop }
}

/// Shafts of three or four sections with two to five keyseats, all at one clocking or at two: what stays in one setup of the mill, and what is
/// turned on in the dividing head.
pub(crate) fn keyed(seed: u64) -> Generated {
    let mut d = Dice(seed ^ 0x4b45_5953);
    let u = Unit { inch: seed.is_multiple_of(2) };
    let (clockings, sections) = (1 + d.roll(2), 3 + d.roll(2).cast_signed());
    let round = |i: i64| if i == 1 { u.about(1125) } else { u.about(875) + u.about(25) * i };
    let (mut rows, mut seats, mut at, mut cut) = (String::new(), String::new(), 0, 0);
    for i in 0..sections {
        let long = u.about(1300 + 250 * d.roll(3).cast_signed());
        let _ = write!(rows, "  - turn: {}\n    to: {}\n", u.show(round(i)), u.show(at + long));
        // At least two in all; the others as it falls.
        if cut < 2 || d.roll(2) == 0 {
            let angle = if clockings == 2 && cut % 2 == 1 { 90 } else { 0 };
            let seat = u.pick("3/16 x 3/16 x 3/4", "5 x 5 x 20");
            let from = u.show(at + u.about(250));
            let _ = write!(seats, "  - keyseat: {seat}\n    from: {from}\n    angle: {angle}°\n");
            cut += 1;
        }
        at += long;
    }
    let (unit, tolerances) = (u.pick("in", "mm"), u.pick("{lengths: ±0.005, diameters: ±0.002}", "ISO 2768-m"));
    let text = format!(
        "part: keyed {seed}\nunits: {unit}\nmaterial: 1045 cold drawn\nstock: {} x {}\ndatum: left end\noverall: {} {}\ntolerances: {tolerances}\n\
         features:\n{rows}{seats}",
        u.show(u.about(1250)),
        u.show(at + u.about(125)),
        u.show(at),
        u.pick("±0.010", "±0.3"),
    );
    Generated { text, forbidden: [false, false], with_shop: !seed.is_multiple_of(3) }
}
