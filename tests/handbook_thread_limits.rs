//! What must hold for every thread whatever the table says, and the worked figures of books: wires, depth, feed, reliefs.

use std::sync::OnceLock;

use proptest::prelude::*;
use turnwright::handbook::thread::{
    ALL, Asked, Designation, Family, Form, ThreadData, crest, limits, over_wires, percent, pitch_diameter_of, read,
    series, single_point_root, tap_drills,
};
use turnwright::unit::{Length, Limits, Unit};

fn data(text: &str) -> ThreadData {
    let d = read(text).unwrap_or_else(|e| panic!("{text}: {e:?}"));
    limits(&d, &Asked::special()).unwrap_or_else(|e| panic!("{text}: {e:?}"))
}

const fn tenths(n: i64) -> Length {
    Length::inch_tenths(n)
}

fn near(ours: Length, printed: f64, unit: Unit, within: f64, what: &str) {
    let ours = ours.to_f64(unit);
    assert!((ours - printed).abs() <= within + 1e-9, "{what}: ours {ours:.6}, printed {printed}");
}

/// Classes of a family, external and internal, the closest first.
fn classes(family: Family) -> Vec<&'static str> {
    match family {
        Family::UnifiedInch { .. } => vec!["3A", "2A", "1A", "3B", "2B", "1B"],
        Family::IsoMetric => vec!["4h", "6h", "6g", "4H", "5H", "6H"],
        Family::IsoTrapezoidal => vec!["7e", "8e", "7H", "8H"],
        Family::Acme { .. } => vec!["4G", "3G", "2G"],
        Family::Whitworth { .. } => vec!["close", "medium", "free"],
        Family::PipeParallel => vec!["A", "B"],
        _ => vec![],
    }
}

/// Every standard thread, listed once.
fn standard() -> &'static [Designation] {
    static ALL_OF_THEM: OnceLock<Vec<Designation>> = OnceLock::new();
    ALL_OF_THEM.get_or_init(|| ALL.iter().flat_map(|f| series(*f)).collect())
}

/// Every standard thread in every class its standard has at that pitch.
fn everything() -> Vec<ThreadData> {
    let mut all = Vec::new();
    for d in ALL.iter().flat_map(|f| series(*f)) {
        all.extend(limits(&d, &Asked::default()));
        for class in classes(d.family) {
            let d = Designation { class: Some(class.to_owned()), ..d.clone() };
            all.extend(limits(&d, &Asked::default()));
        }
    }
    all
}

#[test]
fn limits_are_ordered_and_the_mate_fits() {
    let all = everything();
    assert!(all.len() > 4000, "{}", all.len());
    for t in all {
        let name = t.designation.show();
        for limits in [t.external.as_ref().map(|e| [e.major, e.pitch_diameter, e.minor])].into_iter().flatten() {
            assert!(limits.iter().all(|l| l.min <= l.max), "{name}: {limits:?}");
            assert!(limits[0].min > limits[1].max && limits[1].min > limits[2].min, "{name}: major, pitch, minor");
        }
        if let Some(i) = &t.internal {
            assert!(i.minor.min <= i.minor.max && i.pitch_diameter.min <= i.pitch_diameter.max, "{name}");
            assert!(i.major_min > i.pitch_diameter.min && i.pitch_diameter.min > i.minor.min, "{name}");
        }
        let (Some(e), Some(i)) = (&t.external, &t.internal) else { continue };
        if t.taper.is_some() {
            continue;
        }
        // Go and no-go: the largest screw enters the smallest nut.
        assert!(e.pitch_diameter.max <= i.pitch_diameter.min, "{name}: pitch diameters");
        assert!(e.major.max <= i.major_min, "{name}: major diameters");
        assert!(e.minor.max <= i.minor.min + tenths(5), "{name}: the screw's root and the nut's crest");
        assert!(single_point_root(&t).is_some_and(|r| r < e.pitch_diameter.min && r.is_positive()), "{name}");
        assert_eq!(crest(&t), Some(e.major.max));
    }
}

#[test]
fn closer_classes_have_narrower_bands() {
    for d in ALL.iter().flat_map(|f| series(*f)) {
        let of = |class: &str| {
            limits(&Designation { class: Some(class.to_owned()), ..d.clone() }, &Asked::default()).ok().and_then(|t| {
                let external = t.external.as_ref().is_some_and(|e| e.class == class);
                let band = if external { t.external?.pitch_diameter } else { t.internal?.pitch_diameter };
                Some((external, band.band()))
            })
        };
        let bands: Vec<(bool, Length)> = classes(d.family).into_iter().filter_map(of).collect();
        for pair in bands.windows(2).filter(|p| p[0].0 == p[1].0) {
            assert!(pair[0].1 <= pair[1].1, "{}: {bands:?}", d.show());
        }
    }
}

/// Internal classes of one standard begin at the same size, so a nut of the closer class is always one of the wider.
#[test]
fn internal_classes_nest() {
    let mut asked = 0;
    for d in ALL.iter().flat_map(|f| series(*f)) {
        let of = |class: &str| {
            let d = Designation { class: Some(class.to_owned()), ..d.clone() };
            limits(&d, &Asked::default()).ok()?.internal.filter(|i| i.class == class).map(|i| i.pitch_diameter)
        };
        let bands: Vec<Limits> = classes(d.family).into_iter().filter_map(of).collect();
        for pair in bands.windows(2) {
            assert!(pair[1].covers(pair[0]), "{}: {bands:?}", d.show());
            asked += 1;
        }
    }
    assert!(asked > 1_000, "{asked}");
}

/// Positions e and f: 50 + 11 P and 30 + 11 P below the size, rounded (ISO 965-1, formulas; from memory).
#[test]
fn positions_e_and_f_lie_near_their_formulas() {
    let mut asked = 0;
    for d in series(Family::IsoMetric) {
        for (class, from) in [("6e", 50.0), ("6f", 30.0)] {
            let d = Designation { class: Some(class.to_owned()), ..d.clone() };
            let Ok(t) = limits(&d, &Asked::default()) else { continue };
            let (es, p) = (t.external.expect("external").allowance.mm() * 1000.0, t.pitch.to_f64(Unit::Millimetre));
            assert!((es - from - 11.0 * p).abs() < 6.0, "{}: {es}", d.show());
            assert!(t.source.iter().any(|s| !s.confirmed), "from memory, and says so");
            asked += 1;
        }
    }
    assert!(asked > 400, "{asked}");
}

#[test]
fn metric_h_classes_nest_and_g_lies_below() {
    for d in series(Family::IsoMetric) {
        let of = |class: &str| {
            let d = Designation { class: Some(class.to_owned()), ..d.clone() };
            limits(&d, &Asked::default()).ok()?.external.map(|e| e.pitch_diameter)
        };
        let (Some(h4), Some(h6), Some(g6)) = (of("4h"), of("6h"), of("6g")) else { continue };
        assert!(h6.covers(h4) && h6.max == h4.max && g6.max < h6.max && g6.band() == h6.band(), "{}", d.show());
    }
}

proptest! {
    #[test]
    fn a_reading_over_wires_means_its_pitch_diameter(pick in 0_usize..10_000, wire in 0.46_f64..0.9, pd in 0.0_f64..1.0) {
        let all = standard();
        let d = &all[pick % all.len()];
        let t = limits(d, &Asked::default()).expect("standard");
        let w = Length::from_f64(t.pitch.to_f64(t.unit) * wire, t.unit);
        let Some(readings) = over_wires(&t, w) else {
            prop_assert!(t.taper.is_some());
            return Ok(());
        };
        let band = t.external.as_ref().expect("external").pitch_diameter;
        prop_assert_eq!(pitch_diameter_of(&t, w, readings.max), Some(band.max));
        prop_assert_eq!(pitch_diameter_of(&t, w, readings.min), Some(band.min));
        prop_assert_eq!(readings.max - readings.min, band.band());
        let at = band.min + Length::from_pm((band.band().pm() as f64 * pd) as i64);
        let reading = Limits::new(readings.min, readings.max);
        prop_assert!(reading.holds(at + (readings.min - band.min)));
    }

    #[test]
    fn a_metric_thread_worked_in_inches_is_the_same(pick in 0_usize..10_000, wire in 0.56_f64..0.9) {
        let all: Vec<&Designation> = standard().iter().filter(|d| d.family == Family::IsoMetric).collect();
        let t = limits(all[pick % all.len()], &Asked::default()).expect("standard");
        let p = t.pitch.to_f64(Unit::Inch);
        let w = Length::from_f64(p * wire, Unit::Inch);
        let reading = over_wires(&t, w).expect("60 degrees").max.inches();
        let by_hand = t.external.expect("external").pitch_diameter.max.inches() + 3.0 * w.inches() - 0.866_025_4 * p;
        prop_assert!((reading - by_hand).abs() < 1e-7);
    }
}

/// `tests/reference/wires.csv`, whose rows name their books.
#[test]
fn wires_of_the_books() {
    let mut asked = 0;
    for line in include_str!("reference/wires.csv").lines().skip(1) {
        let c: Vec<&str> = line.splitn(10, ',').collect();
        let (kind, tpi, wire, what, value) = (c[0], c[3], c[6], c[7], c[8]);
        let printed: f64 = value.parse().expect("a value");
        let places: i32 = c[9].split(',').next().expect("places").parse().expect("places");
        let half = 0.5 * 10_f64.powi(-places);
        let nominal = if c[2].is_empty() { "1" } else { c[2] };
        let t = data(&format!("{nominal}-{tpi} UNS-2A"));
        asked += 1;
        match (kind, what) {
            ("best_wire", _) => near(t.wire.expect("wire").best, printed, Unit::Inch, half, line),
            ("wire_range", "smallest wire") => near(t.wire.expect("wire").smallest, printed, Unit::Inch, half, line),
            ("wire_range", "largest wire") => near(t.wire.expect("wire").largest, printed, Unit::Inch, half, line),
            ("M_over_wires", _) => {
                let t = data(c[1].trim_end_matches(" max PD"));
                let w = Length::from_f64(wire.parse().expect("wire"), Unit::Inch);
                near(over_wires(&t, w).expect("readings").max, printed, Unit::Inch, half, line);
            }
            ("M_from_major", _) => {
                let w = Length::from_f64(wire.parse().expect("wire"), Unit::Inch);
                // The books round 1.515544 to 1.5155, up to .00001 in at these pitches; one works from a rounded depth.
                let slack = if line.contains("scribd 236796121") { 0.0002 } else { half + 0.000_012 };
                near(over_wires(&t, w).expect("readings").basic, printed, Unit::Inch, slack, line);
            }
            ("constant", _) => {
                let w = Length::ZERO;
                let constant = t.basic_pitch_diameter - over_wires(&t, w).expect("readings").basic;
                near(constant, printed, Unit::Inch, half, line);
            }
            other => panic!("{other:?}"),
        }
    }
    assert!(asked > 30);
}

/// Adding the wire's constant to the major diameter's limits, as a trade article does for 9/16-18 (wire .0395, .595/.586),
/// would pass a thread that is .005 too thin: the pitch diameter's limits give .5954/.5909.
#[test]
fn readings_come_from_the_pitch_diameter() {
    let t = data("9/16-18 UNF-2A");
    let readings = over_wires(&t, tenths(395)).expect("60 degrees");
    near(readings.max, 0.5954, Unit::Inch, 0.000_05, "max");
    near(readings.min, 0.5909, Unit::Inch, 0.000_05, "min");
    assert!(readings.min.inches() > 0.586 + 0.004);
}

/// Figures that a hand would look up, each with where it is printed.
#[test]
fn worked_figures() {
    // Depth and compound travel: a lathe course's table at 29° for .6495 P: 8 tpi .0928, 10 .0742 (.07426, cut), 16 .0464,
    // 20 .0371, 32 .0232.
    for (text, printed) in [
        ("1-8 UNC", 0.0928),
        ("3/4-10 UNC", 0.0742),
        ("3/8-16 UNC", 0.0464),
        ("1/4-20 UNC", 0.0371),
        ("No. 8-32", 0.0232),
    ] {
        let t = data(text);
        let feed = t.compound.iter().find(|f| (f.angle - 29.0).abs() < 1e-9 && f.height == "0.6495 P").expect("feed");
        near(feed.travel, printed, Unit::Inch, 0.000_065, text);
    }
    // M10x1.5: 0.92 straight in, 1.06 at 30° (tool maker's threading guide).
    let t = data("M10-6g");
    let straight = t.compound.iter().find(|f| f.angle < 0.1 && f.height == "0.6134 P").expect("straight");
    near(straight.travel, 0.92, Unit::Millimetre, 0.005, "M10 straight in");
    let at_30 = t.compound.iter().find(|f| (f.angle - 30.0).abs() < 1e-9 && f.height == "0.6134 P").expect("30°");
    near(at_30.travel, 1.06, Unit::Millimetre, 0.005, "M10 at 30°");
    assert_eq!(t.compound.iter().filter(|f| f.angle > 1.0).count(), 6);
    // Lead angle: 3/4-10, pitch diameter .6850: 2.6605° (Machinery's Handbook); 1/2-10 Acme and Tr 20x4: 4.046°.
    assert!((data("3/4-10 UNC").lead_angle - 2.6605).abs() < 0.0005);
    assert!((data("1/2-10 ACME").lead_angle - 4.046).abs() < 0.0005);
    assert!((data("Tr 20x4").lead_angle - 4.046).abs() < 0.0005);
    assert!((data("1 1/8-0.2P-0.4L ACME").lead_angle - 7.08).abs() < 0.005);
    // Acme depth P/2 + .010 (F. D. Jones): 5 tpi .110, and a tool flat of .0689 (ASME B1.5).
    let acme = data("1 1/8-5 ACME-2G");
    assert_eq!(acme.depth, tenths(1100));
    near(acme.tool_flat, 0.0689, Unit::Inch, 0.000_05, "flat");
    near(acme.wire.expect("wire").best, 0.1033, Unit::Inch, 0.000_01, "Acme wire .51645 P");
    // Tap drill percentages: 1/4-20 with a No. 7 drill leaves 75 %; M10 with 8.5 mm leaves 77 %.
    let quarter = data("1/4-20 UNC");
    assert!(percent(&quarter, tenths(2010)).is_some_and(|p| (p - 75.0).abs() < 0.6));
    assert!(
        data("M10").tap_drill.is_some_and(|d| d.name == "8.5 mm" && d.percent.is_some_and(|p| (p - 77.0).abs() < 0.1))
    );
}

/// The lead angle's share of a reading: the exact root against the usual term w/2·tan²λ·cos α·cot α, and nothing for single 60° threads.
#[test]
fn the_lead_angle_is_in_acme_readings() {
    for (text, half) in [("1 1/8-0.2P-0.4L ACME-2G", 14.5_f64), ("1 1/8-5 ACME-2G", 14.5), ("Tr 40x14(P7)-7e", 15.0)] {
        let t = data(text);
        let w = t.wire.expect("wire").best;
        let alpha = half.to_radians();
        let plain = w.mm() * (1.0 + 1.0 / alpha.sin()) - t.pitch.to_f64(Unit::Millimetre) / 2.0 / alpha.tan();
        let readings = over_wires(&t, w).expect("readings");
        let share = (readings.basic - t.basic_pitch_diameter).mm() - plain;
        let slope = t.lead_angle.to_radians().tan();
        let term = w.mm() / 2.0 * slope * slope * alpha.cos() / alpha.tan();
        assert!(share > 0.0 && (share - term).abs() < term * 0.02, "{text}: {share} and {term}");
    }
    let t = data("M16x1.5-6g");
    let basic = over_wires(&t, Length::micrometres(866)).expect("readings").basic;
    near(basic, 16.325, Unit::Millimetre, 0.0005, "M16x1.5 over .866 wires, without");
}

/// The reliefs of the shop's sample parts clear the thread (roots worked from the printed pitch diameters).
#[test]
fn roots_that_a_relief_must_clear() {
    // PD min - .64952 P: 5/8-18 UNF-2A .5828 -> .5467; 5/8-11 UNC-2A .5589 -> .4999.
    near(single_point_root(&data("5/8-18 UNF-2A")).expect("root"), 0.5467, Unit::Inch, 0.000_05, "5/8-18");
    near(single_point_root(&data("5/8-11 UNC-2A")).expect("root"), 0.4999, Unit::Inch, 0.000_06, "5/8-11");
    assert_eq!(single_point_root(&data("1 1/8-5 ACME-2G")), Some(tenths(8753)));
    for text in [
        "5/8-18 UNF-2A",
        "1/2-20 UNF-2A",
        "M16x1.5-6g LH",
        "1 1/8-0.2P-0.4L ACME-2G",
        "Tr 40x7-7e",
        "1/2-12 BSW",
        "G 1/2",
    ] {
        let t = data(text);
        let relief = t.relief.expect("relief");
        assert!(relief.diameter < single_point_root(&t).expect("root"), "{text}");
        assert!(relief.width_min <= relief.width_max, "{text}");
        if t.starts > 1 {
            assert!(relief.width_min >= t.lead.nearest(), "{text}: at least one lead");
        }
    }
}

/// DIN 76-1 for pitch 1.5: 3.2 to 5.2 wide; a left-hand thread is started in it, so three pitches at least (common practice).
#[test]
fn a_left_hand_start_needs_a_wider_relief() {
    let width = |text: &str| data(text).relief.map(|r| (r.width_min.mm(), r.width_max.mm()));
    assert_eq!(width("M16x1.5-6g"), Some((3.2, 5.2)));
    assert_eq!(width("M16x1.5-6g LH"), Some((4.5, 5.2)));
}

#[test]
fn every_form_is_reached() {
    let forms: Vec<Form> = everything().iter().map(|t| t.form).collect();
    for form in [
        Form::Sixty,
        Form::Acme,
        Form::StubAcme,
        Form::Trapezoidal,
        Form::Whitworth,
        Form::TaperSixty,
        Form::TaperWhitworth,
    ] {
        assert!(forms.contains(&form), "{form:?}");
    }
    // No series lists these two; their notes say what they rest on.
    assert!(!data("1-4 SQUARE").notes.is_empty());
    let buttress = data("2 1/2-8 BUTT-2A");
    // Its class 2 tolerances are printed, what class 3 and the allowance are of them is from memory.
    assert!(buttress.source.iter().any(|s| s.confirmed) && buttress.source.iter().any(|s| !s.confirmed));
}

/// ASME B1.1: the table's tolerances serve engagements to 1 1/2 diameters (UNC, UNF) or 5 to 15 pitches (the others); longer
/// ones get more by the standard's formula: 0.0015 D^1/3 + 0.0015 LE^1/2 + 0.015 P^2/3.
#[test]
fn long_engagements_get_more_tolerance() {
    let with = |text: &str, thousandths: i64| {
        let asked = Asked { engagement: Some(Length::micro_inches(thousandths * 1000)), ..Asked::default() };
        let t = limits(&read(text).expect(text), &asked).expect(text);
        t.external.expect("external").pitch_diameter.band()
    };
    let table = data("3/4-10 UNC-2A").external.expect("external").pitch_diameter.band();
    assert_eq!(with("3/4-10 UNC-2A", 1_125), table);
    // 0.00136284 + 0.0015 x 1.2247 (LE 1.5) + 0.00323165 = .0064315.
    assert_eq!(with("3/4-10 UNC-2A", 1_500), tenths(64));
    assert_eq!(table, tenths(59));
    let fine = data("1-20 UNEF-2A").external.expect("external").pitch_diameter.band();
    assert_eq!(with("1-20 UNEF-2A", 750), fine);
    assert!(with("1-20 UNEF-2A", 1_500) > fine);
}

#[test]
fn tap_drills_leave_the_minor_diameter_inside_its_limits() {
    for d in standard() {
        let t = limits(d, &Asked::default()).expect("standard");
        let (Some(drill), Some(i)) = (&t.tap_drill, &t.internal) else { continue };
        if t.taper.is_some() {
            continue;
        }
        let choice = tap_drills(&t);
        assert!(choice.iter().all(|c| i.minor.holds(c.diameter)), "{}", d.show());
        assert!(choice.is_empty() || choice.contains(drill), "{}: {drill:?}", d.show());
    }
    let m8: Vec<String> = tap_drills(&data("M8")).into_iter().map(|d| d.name).collect();
    assert!(m8.contains(&"6.8 mm".to_owned()) && m8.contains(&"6.75 mm".to_owned()), "{m8:?}");
}
