//! ISO 286 and ANSI B4.1.

use proptest::prelude::*;
use turnwright::handbook::fit::{self, Deviations, NoFit};
use turnwright::unit::{Length, Limits, Unit};

use crate::handbook_tables::walk::{Walk, number, rows};

fn um(length: Length) -> f64 {
    length.mm() * 1000.0
}

fn mm(value: f64) -> Length {
    Length::from_f64(value, Unit::Millimetre)
}

fn either(code: &str, d: Length) -> Option<Deviations> {
    if fit::is_hole_code(code) { fit::hole(code, d).ok() } else { fit::shaft(code, d).ok() }
}

#[test]
fn iso_286_2_as_printed_in_gb_t_1800_2() {
    let mut walk = Walk::new("iso286_2_limits.csv");
    for row in rows("iso286_2_limits.csv") {
        let (code, to) = (&row["code"], number(&row, "to").expect("a range"));
        let over = number(&row, "over").expect("a range");
        let ours = either(code, mm(to));
        walk.cell(&format!("{code} {to} upper"), number(&row, "upper").expect("upper"), ours.map(|d| um(d.upper)), 0.0);
        walk.cell(&format!("{code} {to} lower"), number(&row, "lower").expect("lower"), ours.map(|d| um(d.lower)), 0.0);
        // Every size of a range has the limits of its last one.
        for d in [over + 0.001_5, f64::midpoint(over, to)] {
            assert!(over < 1.0 || either(code, mm(d)) == ours, "{code} {d}");
        }
    }
    walk.finish(9_500);
}

#[test]
fn charts_of_a_general_purpose_library() {
    let mut walk = Walk::new("isofits.csv");
    for row in rows("isofits.csv") {
        let (code, to) = (&row["code"], number(&row, "to").expect("a range"));
        let ours = either(code, mm(to));
        walk.cell(&format!("{code} {to} upper"), number(&row, "upper").expect("upper"), ours.map(|d| um(d.upper)), 0.0);
        walk.cell(&format!("{code} {to} lower"), number(&row, "lower").expect("lower"), ours.map(|d| um(d.lower)), 0.0);
    }
    walk.finish(2_900);
}

#[test]
fn reference_rows_of_both_standards() {
    let mut walk = Walk::new("fits.csv");
    for row in rows("fits.csv") {
        let (table, class, to) = (&row["table"], &row["class"], number(&row, "to").expect("a range"));
        let d = if table == "ISO286_shaft" { mm(to) } else { Length::from_f64(to, Unit::Inch) };
        let scale = |l: Length| if table == "ISO286_shaft" { um(l) } else { l.inches() * 1000.0 };
        let (shaft, hole) = (fit::shaft(class, d).ok(), fit::hole(class, d).ok());
        for (column, ours) in [
            ("shaft_upper", shaft.map(|d| scale(d.upper))),
            ("shaft_lower", shaft.map(|d| scale(d.lower))),
            ("hole_upper", hole.map(|d| scale(d.upper))),
            ("hole_lower", hole.map(|d| scale(d.lower))),
        ] {
            if let Some(printed) = number(&row, column) {
                walk.cell(&format!("{table} {class} {to} {column}"), printed, ours, 0.0);
            }
        }
    }
    walk.finish(390);
}

/// Rows of ANSI B4.1 seen in other printings (each row's source is its last cell): limits, and the clearances or
/// interferences the standard prints beside them, which the handbook works from the limits.
#[test]
fn b41_rows_of_other_printings() {
    let mut walk = Walk::new("b41_printings.csv");
    for row in rows("b41_printings.csv") {
        let (class, to) = (&row["class"], number(&row, "to").expect("a range"));
        let ours = fit::inch_fit(class, Length::from_f64(to, Unit::Inch)).ok();
        let thou = |l: Length| l.inches() * 1000.0;
        for (column, value) in [
            ("hole_upper", ours.map(|f| thou(f.hole.upper))),
            ("shaft_upper", ours.map(|f| thou(f.shaft.upper))),
            ("shaft_lower", ours.map(|f| thou(f.shaft.lower))),
            ("clearance_min", ours.map(|f| thou(f.clearance().min))),
            ("clearance_max", ours.map(|f| thou(f.clearance().max))),
        ] {
            if let Some(printed) = number(&row, column) {
                walk.cell(&format!("{class} {to} {column}"), printed, value, 0.0);
            }
        }
    }
    walk.finish(500);
}

/// The heads of the standard's tables name the hole's and the shaft's grade of every class (RC3: H7, f6), so the printed
/// grades of its Table 1 give every hole and the width of every shaft. `0`: the head names no grade.
const HEADS: [(&str, u8, u8); 26] = [
    ("RC1", 5, 4),
    ("RC2", 6, 5),
    ("RC3", 7, 6),
    ("RC4", 8, 7),
    ("RC5", 8, 7),
    ("RC6", 9, 8),
    ("RC7", 9, 8),
    ("RC8", 10, 9),
    ("LC1", 6, 5),
    ("LC2", 7, 6),
    ("LC3", 8, 7),
    ("LC4", 10, 9),
    ("LC5", 7, 6),
    ("LC6", 9, 8),
    ("LC7", 10, 9),
    ("LC8", 10, 9),
    ("LC9", 11, 10),
    ("LT3", 7, 6),
    ("LT4", 8, 7),
    ("LT5", 7, 6),
    ("LT6", 7, 7),
    ("LN1", 6, 5),
    ("LN2", 7, 6),
    ("LN3", 7, 6),
    ("FN1", 6, 0),
    ("FN5", 8, 7),
];

#[test]
fn inch_fits_follow_the_printed_grades() {
    let mut walk = Walk::new("b41_grades.csv");
    for row in rows("b41_grades.csv") {
        let d = Length::from_f64(number(&row, "to").expect("a range"), Unit::Inch);
        let thou = |l: Length| l.inches() * 1000.0;
        for (class, hole, shaft) in HEADS {
            let Ok(ours) = fit::inch_fit(class, d) else { continue };
            let key = |cell: &str| format!("{class} {} {cell}", row["to"]);
            let grade = |n: u8| number(&row, &n.to_string()).expect("a grade");
            walk.cell(&key("hole"), grade(hole), Some(thou(ours.hole.band())), 0.0);
            if shaft > 0 {
                walk.cell(&key("shaft"), grade(shaft), Some(thou(ours.shaft.band())), 0.0);
            }
        }
        // h shafts begin at the size, js lie evenly about it, e of RC5 is that of RC6, g of LC5 that of RC2 to 9.85 in.
        let upper = |class: &str| fit::inch_fit(class, d).expect("to 19.69 in").shaft.upper;
        for class in ["LC1", "LC2", "LC3", "LC4"] {
            assert_eq!(upper(class), Length::ZERO, "{class}");
        }
        for class in ["LT1", "LT2"] {
            let js = fit::inch_fit(class, d).expect("to 19.69 in").shaft;
            assert_eq!(js.upper, -js.lower, "{class}");
        }
        assert_eq!(upper("RC5"), upper("RC6"));
        if d <= Length::micro_inches(9_850_000) {
            assert_eq!(upper("LC5"), upper("RC2"));
        } else {
            assert!(!fit::inch_fit("LC5", d).expect("to 19.69 in").source.confirmed);
        }
    }
    walk.finish(600);
}

#[test]
fn every_class_of_b41_keeps_its_family() {
    // RC and LC always leave clearance, FN and LN (but LN1, LN2 to 1.97 in, where it may be nil) always interfere: B4.1 section 4.
    let mut count = 0;
    for class in fit::inch_classes() {
        for thou in (10..19_690).step_by(37) {
            let Ok(pair) = fit::inch_fit(&class, Length::micro_inches(thou * 1000)) else { continue };
            let Limits { min, max } = pair.clearance();
            assert!(pair.hole.lower == Length::ZERO && min < max);
            match &class[..2] {
                "RC" | "LC" => assert!(min >= Length::ZERO, "{class} {thou}"),
                "LT" => assert!(min < Length::ZERO && max > Length::ZERO, "{class} {thou}"),
                _ => assert!(max <= Length::ZERO, "{class} {thou}"),
            }
            count += 1;
        }
    }
    assert!(count > 15_000, "{count}");
}

#[test]
fn questions_as_people_write_them() {
    let ask = |text: &str, unit| fit::parse(text, unit);
    let k6 = ask("25 k6", Some(Unit::Millimetre)).expect("k6");
    assert_eq!((um(k6.limits.max), um(k6.limits.min)), (25_015.0, 25_002.0));
    assert_eq!(ask("25 mm k6", None).expect("own unit").limits, k6.limits);
    let rc3 = ask("1.000 RC3", Some(Unit::Inch)).expect("RC3");
    // RC3 over .71 to 1.19 in: hole +.8 0, shaft -.8 -1.3; clearance .8 to 2.1 (B4.1-1967, Machinery's Handbook Table 8a).
    let thou = |n: i64| Length::micro_inches(n * 100);
    assert_eq!(rc3.clearance, Some(Limits::new(thou(8), thou(21))));
    assert_eq!(rc3.limits, Limits::new(Length::PER_INCH - thou(13), Length::PER_INCH - thou(8)));
    let pair = ask("25 H7/k6", Some(Unit::Millimetre)).expect("a pair");
    assert_eq!(pair.clearance.map(|c| (um(c.min), um(c.max))), Some((-15.0, 19.0)));
    assert!(matches!(ask("25 k6", None), Err(NoFit::NoUnit(_))));
    assert!(matches!(ask("25 k66", Some(Unit::Millimetre)), Err(NoFit::Unknown(_))));
    assert!(matches!(ask("k6", Some(Unit::Millimetre)), Err(NoFit::Size(_))));
    assert!(matches!(ask("", None), Err(NoFit::Unknown(_))));
    assert!(matches!(ask("30 ef6", Some(Unit::Millimetre)), Err(NoFit::NotTabulated { .. })));
    assert!(matches!(fit::shaft("H7", mm(25.0)), Err(NoFit::WrongSide { other, .. }) if other == "h7"));
    assert!(matches!(fit::hole("k6", mm(25.0)), Err(NoFit::WrongSide { other, .. }) if other == "K6"));
    for code in ["Kk6", "q6", "i7", "o5", "l5", "w6", "H19", "H", "7", "H007", "RC10", "FN0"] {
        assert!(!fit::is_code(code), "{code}");
    }
}

#[test]
fn nearest_grade_of_a_band() {
    // IT14 at 10 mm is .36, at 100 mm .87; IT7 over 10 to 18 mm is 18 µm (encyclopedia copy of ISO 286-1 Table 1; TRADE example 21).
    let grade = |d: f64, band: f64| fit::it_grade_of(mm(d), mm(band)).map(|g| g.to_string());
    assert_eq!(grade(10.0, 0.36).as_deref(), Some("IT14"));
    assert_eq!(grade(100.0, 0.87).as_deref(), Some("IT14"));
    assert_eq!(grade(16.0, 0.018).as_deref(), Some("IT7"));
    // .0005 in at .8745 in is 12.7 µm; IT6 over 18 to 30 mm is 13, so it is nearest, and IT5 is what must be held.
    let (d, band) = (Length::micro_inches(874_500), Length::micro_inches(500));
    assert_eq!(fit::it_grade_of(d, band).map(fit::Grade::number), Some(6));
    assert_eq!(fit::it_grade_within(d, band).map(fit::Grade::number), Some(5));
    assert_eq!(fit::it_grade_of(d, Length::ZERO), None);
    assert_eq!(fit::it_grade_of(mm(4000.0), band), None);
}

fn letters() -> impl Strategy<Value = &'static str> {
    prop::sample::select(vec!["a", "b", "c", "d", "e", "f", "g", "h"])
}

proptest! {
    #[test]
    fn the_first_letters_mirror(letter in letters(), grade in 1u8..=13, um in 1_001i64..=500_000) {
        let d = Length::micrometres(um);
        let shaft = fit::shaft(&format!("{letter}{grade}"), d).expect("a to h are given to 500 mm");
        let hole = fit::hole(&format!("{}{grade}", letter.to_uppercase()), d).expect("A to H too");
        prop_assert_eq!((shaft.upper, shaft.lower), (-hole.lower, -hole.upper));
    }

    #[test]
    fn limits_are_ordered_and_as_wide_as_the_grade(
        code in prop::sample::select(vec!["f", "g", "h", "js", "k", "m", "n", "p", "r", "s", "u", "F", "G", "H", "JS", "K", "M", "N", "P", "R", "S", "U"]),
        grade in 3i8..=8, um in 1_001i64..=3_150_000,
    ) {
        let d = Length::micrometres(um);
        let Some(dev) = either(&format!("{code}{grade}"), d) else { return Ok(()) };
        let it = fit::Grade::read(&grade.to_string()).and_then(|g| fit::it_value(g, d)).expect("to 3150 mm");
        prop_assert_eq!(dev.band(), it);
        prop_assert!(dev.upper > dev.lower);
    }

    #[test]
    fn grades_are_nested(um in 1_001i64..=3_150_000) {
        let d = Length::micrometres(um);
        let widths: Vec<_> = fit::Grade::all().filter_map(|g| fit::it_value(g, d)).collect();
        prop_assert!(widths.len() >= 18 && widths.windows(2).all(|w| w[0] < w[1]));
        // h6 lies inside h7, k6 inside k7, js6 inside js7.
        for letter in ["h", "k", "js", "f"] {
            let (fine, wide) = (fit::shaft(&format!("{letter}6"), d), fit::shaft(&format!("{letter}7"), d));
            if let (Ok(fine), Ok(wide)) = (fine, wide) {
                prop_assert!(wide.limits(d).covers(fine.limits(d)));
            }
        }
    }

    #[test]
    fn an_inch_size_has_the_deviations_of_the_same_size_in_millimetres(thou in 40i64..=100_000) {
        let d = Length::micro_inches(thou * 1000);
        let inch = fit::parse(&format!("{}.{:03} in k6", thou / 1000, thou % 1000), None).expect("k6 to 3150 mm");
        prop_assert_eq!(inch.size, d);
        prop_assert_eq!(inch.shaft, fit::shaft("k6", d).ok());
    }
}
