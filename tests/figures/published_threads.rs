//! Threads, fits, warmth, beams and bars as they were printed elsewhere, through the program itself; as in `published_more`.

use turnwright::figures::Mate;
use turnwright::handbook::heat::{self, Expansion, STEEL};
use turnwright::handbook::thread::{self, Asked};
use turnwright::model::Shop;
use turnwright::model::plan::Plan;
use turnwright::model::shop::Reads;
use turnwright::unit::{Length, Unit};

use crate::figures::hand::{figures_of, part, shop};
use crate::figures::published::{ratio, thread_on, wheels};
use crate::figures::published_more::{holds, inch, reply};

// Threads.

/// An insert maker's standard of depths of cut for external metric threads: heights, and noses of the tool; each of its lists of cuts sums to the
/// height. To the hundredth. A hand takes no fewer cuts than its lists, that are made for driven lathes, and as theirs they grow ever smaller.
#[test]
fn heights_and_noses_of_an_insert_maker() {
    let table: [(&str, f64, f64, &[i64]); 7] = [
        ("M6x1-6g", 0.61, 0.14, &[20, 15, 10, 10, 6]),
        ("M8x1.25-6g", 0.77, 0.18, &[20, 18, 12, 12, 10, 5]),
        ("M10x1.5-6g", 0.92, 0.22, &[25, 20, 15, 15, 10, 7]),
        ("M12x1.75-6g", 1.07, 0.25, &[25, 20, 20, 15, 12, 10, 5]),
        ("M16x2-6g", 1.23, 0.29, &[25, 25, 20, 15, 15, 10, 8, 5]),
        ("M20x2.5-6g", 1.53, 0.36, &[30, 25, 20, 20, 15, 10, 10, 10, 8, 5]),
        ("M24x3-6g", 1.84, 0.43, &[30, 25, 25, 20, 20, 15, 15, 10, 10, 9, 5]),
    ];
    for (designation, height, nose, cuts) in table {
        let thread = thread_on(designation, &shop(Reads::Radius));
        holds(designation, height, thread.depth.value.mm(), 0.005);
        holds(designation, nose, thread.nose_radius.expect("a 60° thread").value.mm(), 0.005);
        let sum: i64 = cuts.iter().sum();
        holds(designation, sum as f64 / 100.0, thread.depth.value.mm(), 0.005);
        let last = thread.passes.last().expect("passes").value.mm();
        holds(designation, thread.compound.expect("set over").travel.value.mm(), last, 0.0);
        assert!(thread.passes.len() >= cuts.len(), "{designation}: {} cuts", thread.passes.len());
        let depths: Vec<f64> = thread.passes.iter().map(|p| p.value.mm()).collect();
        let steps: Vec<f64> = std::iter::once(depths[0]).chain(depths.windows(2).map(|p| p[1] - p[0])).collect();
        assert!(steps.windows(2).all(|p| p[1] < p[0] + 1e-9), "{designation}: {steps:?}");
    }
}

/// A shop's threading page (finelinehair.com), travel of a compound set at 29° for the height .6495 of the pitch, cut off or rounded by a unit of its
/// last place. Two of its rows are further off by its own rule, .7426 of the pitch: 12 to the inch has .0620 and is .0619, 13 has .0570 and is .0571.
#[test]
fn compound_travel_at_twenty_nine_degrees() {
    for (tpi, nominal, printed, misprint) in [
        (4, 2.5, 0.1856, false),
        (5, 1.75, 0.1485, false),
        (6, 1.5, 0.1237, false),
        (8, 1.0, 0.0928, false),
        (9, 0.875, 0.0825, false),
        (10, 0.75, 0.0742, false),
        (11, 0.625, 0.0675, false),
        (12, 1.0, 0.0620, true),
        (13, 0.5, 0.0570, true),
        (16, 0.375, 0.0464, false),
        (18, 0.625, 0.0412, false),
        (20, 0.5, 0.0371, false),
        (24, 0.375, 0.0310, false),
        (28, 0.25, 0.0265, false),
        (32, 0.25, 0.0232, false),
        (40, 0.25, 0.0186, false),
    ] {
        let designation = thread::read(&format!("{nominal}-{tpi} UNS-2A")).expect("a thread");
        let data = thread::limits(&designation, &Asked::special()).expect("limits");
        let own = data.compound.iter().find(|f| f.height == "0.6495 P" && (f.angle - 29.0).abs() < 1e-9);
        let travel = own.expect("29 degrees").travel.inches();
        assert_eq!((printed - travel).abs() > 0.000_1, misprint, "{tpi}: printed {printed}, worked {travel}");
        let worked = 0.742_6 / f64::from(tpi);
        holds("by its own rule", worked, travel, 0.000_01);
    }
}

/// F. D. Jones, Turning and Boring (1914): a U.S. standard thread of 1 1/2 in, 6 to the inch, over wires of .140 is 1.6674. Class 3A has no
/// allowance, so that its largest is the book's.
#[test]
fn wires_of_jones() {
    let own = Shop { wires: vec![Length::inch_tenths(1_400)], ..shop(Reads::Radius) };
    let wires = thread_on("1 1/2-6 UNC-3A", &own).wires.expect("a V thread");
    assert_eq!((wires.wire.text(Unit::Inch), wires.over.max.text(Unit::Inch)), (".1400".into(), "1.6674".into()));
}

/// US Army, OD1645, p. 123: the best wire for 8 to the inch is .072, for 12 .04811.
#[test]
fn best_wires_of_the_army() {
    let best = |designation| thread_on(designation, &shop(Reads::Radius)).wires.expect("a V thread").best.value;
    holds("8", 0.072, best("1-8 UNC-2A").inches(), 0.0005);
    assert_eq!(best("1 1/2-12 UNF-2A"), Length::inch_tenths(481));
}

/// US Army Air Corps, TM 1-420 Lathes (1940), p. 81: a double thread of pitch 8 to the inch has the depth of a single one of 8, and a lead of 1/4 in.
#[test]
fn a_double_thread_of_the_manual() {
    let double = thread_on("1 1/8-0.125P-0.25L ACME-2G", &shop(Reads::Radius));
    let single = thread_on("1 1/8-8 ACME-2G", &shop(Reads::Radius));
    assert_eq!((double.pitch, double.lead), (inch(0.125), inch(0.25)));
    assert_eq!((double.depth, single.pitch, single.lead), (single.depth, inch(0.125), inch(0.125)));
}

/// Change gears. F. D. Jones (1914): screw constant 6, lead 3 mm: 90 and 127; constant 8, 1 3/4 to the inch: 72 and 64 drive, 36 and 28 are driven.
/// Two old works on screw cutting: a screw of 2 to the inch cuts 4 with 20 on the stud and 40 on the screw, 1 1/2 with 40 and 30, 5 with 40 and 100.
#[test]
fn change_gears_of_old_books() {
    let screw = |tpi| (Some((tpi, 1)), None);
    assert_eq!(ratio(&wheels("M24x3-6g", screw(6), &[30, 90, 127])), (90, 127));
    let (drivers, driven) = ratio(&wheels("4-1.75 UNS-2A", screw(8), &[28, 36, 64, 72]));
    assert_eq!((drivers, driven), (72 * 64, 36 * 28));
    for (designation, set, pair) in [
        ("2-4 ACME-2G", &[20, 40][..], (20, 40)),
        ("4-1.5 UNS-2A", &[30, 40], (40, 30)),
        ("1-5 ACME-2G", &[40, 100], (40, 100)),
    ] {
        assert_eq!(ratio(&wheels(designation, screw(2), set)), pair, "{designation}");
    }
}

// Fits and warmth.

fn mate(seat: &str, bore: &str, carried: &str) -> Mate {
    let text = format!(
        "part: shaft\nunits: mm\ndatum: left\noverall: 300\nfeatures:\n  - turn: {seat}\n    to: 60\n    carries: {{part: {carried}, bore: {bore}, enters: datum}}\n  - turn: 150\n    to: 300\n"
    );
    let part = part(text.as_bytes());
    figures_of(&part, &Plan::default(), None).mates.first().cloned().expect("a mate")
}

/// Clearances as printed, in thousandths of a millimetre: 50 H8/f7 25 to 89 (an encyclopedia's page on fits); 25 H7/h6 0 to 34 (a page on ISO 286
/// fits); a bush of 50.000 to 50.025 on a shaft of 49.950 to 49.975: 25 to 75, and one of 100.037 to 100.059 in a housing of 100.000 to 100.035: 2 to
/// 59 of interference (Machine Drawing, ch. 15 step 4, p. 225, which misprints the shaft as 49.050 and 49.075).
#[test]
fn clearances_as_printed() {
    for (seat, bore, least, most) in [
        ("50 f7", "50 H8", 25, 89),
        ("25 h6", "25 H7", 0, 34),
        ("49.950..49.975", "50.000..50.025", 25, 75),
        ("100.037..100.059", "100.000..100.035", -59, -2),
    ] {
        let found = mate(seat, bore, "bush").clearance;
        assert_eq!((found.min, found.max), (Length::micrometres(least), Length::micrometres(most)), "{seat} {bore}");
    }
}

/// NCERT, Physics for class XI, exercise 10.7, as printed at 1mole.com: a steel shaft of 8.70 cm at 27 °C goes into a hole of 8.69 cm when cooled to
/// about -69 °C, by 1.20e-5 to the kelvin. The sheet warms the wheel instead: by the same share of 8.69, by 11.5e-6, for the room to slide besides,
/// and rounded up to 5.
#[test]
fn a_wheel_too_small_for_its_shaft() {
    let printed = 27.0 + 69.0;
    let twelve = Expansion { per_kelvin: 12.0, ..STEEL };
    let shrinks = heat::growth(Length::micrometres(87_000), -printed, twelve, Unit::Millimetre).mm();
    holds("shrinks", -0.1, shrinks, 0.5 / printed * 0.1);
    let warm = mate("87.00..87.00", "86.90", "wheel").warm.expect("tight");
    let for_the_room = warm.room.mm() / (86.9 * 11.5e-6);
    let over = warm.rise - printed * (12.0 / 11.5) * (87.0 / 86.9) - for_the_room;
    assert!((-0.6..5.0).contains(&over), "{over}");
}

/// Cutting Tool Engineering, Coefficient of linear thermal expansion: 5 ft of aluminium at 12.3e-6 to the °F, 60 to 90 °F, .022 in.
#[test]
fn growth_of_a_long_bar() {
    let aluminium = Expansion { per_fahrenheit: 12.3, ..STEEL };
    holds("5 ft", 0.022, heat::growth(Length::PER_INCH.times(60), 30.0, aluminium, Unit::Inch).inches(), 0.0005);
}

// Beams, bars, eccentrics.

/// E. Isakov, Boring: Calculating deflection (Cutting Tool Engineering, July 2019, p. 75): a bar of 1 in, 4 in out, 207.8 lbf, 30e6 psi: .003 in; in
/// millimetres 25.4, 101.6, 911.1 N, 20.6e4 N/mm²: .0757. (Two numbers on the way are misprints: the numerator is that of 197.7 lbf, and the metric
/// divisor is 12.627e9.)
#[test]
fn deflection_of_a_boring_bar() {
    let deflects = |args: [&str; 10]| {
        let mut all = vec!["deflection", "--hold", "chuck"];
        all.extend(args);
        reply(&all)["deflection"].as_f64().expect("a number")
    };
    let inches = ["--bar", "1x4", "--force", "207.8", "--at", "4", "--modulus", "30000000", "--units", "in"];
    holds("inches", 0.003, deflects(inches), 0.0005);
    let metric = ["--bar", "25.4x101.6", "--force", "911.1", "--at", "101.6", "--modulus", "206000", "--units", "mm"];
    holds("millimetres", 0.0757, deflects(metric), 0.000_05);
}

/// Craftsman Cribsheet 106, weights of bars (Production Machining): pounds to the foot of an inch bar at .2833 lb to the cubic inch, 2.670 round, 3.4
/// square, 2.9445 hexagon; brass 1.08 as much, aluminium .346. Ours weighs each grade by its own density (1018 7870 kg/m³, .2843).
#[test]
fn bars_of_a_cribsheet() {
    let weighs = |material: &str, stock: &str| {
        let text = format!(
            "part: bar\nunits: in\nmaterial: {material}\nstock: {stock} x 12\ndatum: end\noverall: 11.5\nfeatures:\n  - turn: 0.5\n    to: 11.5\n"
        );
        figures_of(&part(text.as_bytes()), &Plan::default(), None).bar_kg.expect("a mass") / 0.453_592_37
    };
    let per_cubic_inch = 7870.0 / 27_679.904_7;
    for (stock, pounds) in [("1", 2.670), ("square 1", 3.4), ("hex 1", 2.9445)] {
        holds(stock, pounds, weighs("1018 cold drawn", stock) * 0.2833 / per_cubic_inch, 0.000_55);
        holds("brass", 1.08, weighs("C36000", stock) / pounds, 0.006);
        holds("aluminium", 0.346, weighs("6061", stock) / pounds, 0.0035);
    }
}

/// R. Thibault, Turning an Eccentric Hole in a 3-Jaw Chuck (2000): a bar of radius 1.6875, its hole .313 off: packing .448 (one line of the
/// derivation has a sign wrong; the last line is right). J. Rose, Modern Machine-Shop Practice (figs. 796-799) counts the whole throw as the
/// eccentricity and moves the centers by half of it: the indicator reads twice what the axis is off.
#[test]
fn packing_for_an_eccentric() {
    let answer = reply(&["eccentric", "0.313", "--diameter", "3.375", "--units", "in"]);
    holds("packing", 0.448, answer["packing_narrow"].as_f64().expect("a number"), 0.0005);
    holds("reading", 2.0 * 0.313, answer["reading"].as_f64().expect("a number"), 0.0);
}
