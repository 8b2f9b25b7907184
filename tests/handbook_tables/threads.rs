//! Thread tables that other printings confirm: tolerance grades, two-letter classes, lengths of engagement, buttress.

use turnwright::handbook::thread::{
    Asked, Designation, EngagementGroup, Family, ThreadData, Unknown, limits, normal_engagement, read, series,
};
use turnwright::unit::{Length, Unit};

use crate::handbook_tables::walk::{Walk, number, rows};

fn asked(text: &str, asked: &Asked) -> ThreadData {
    let d = read(text).unwrap_or_else(|e| panic!("{text}: {e:?}"));
    limits(&d, asked).unwrap_or_else(|e| panic!("{text}: {e:?}"))
}

fn data(text: &str) -> ThreadData {
    asked(text, &Asked::special())
}

fn at_engagement(text: &str, engagement: Length) -> ThreadData {
    asked(text, &Asked { engagement: Some(engagement), ..Asked::default() })
}

fn um(length: Length) -> f64 {
    length.mm() * 1000.0
}

fn mm(value: f64) -> Length {
    Length::from_f64(value, Unit::Millimetre)
}

fn inch(value: f64) -> Length {
    Length::from_f64(value, Unit::Inch)
}

/// The tolerance of one grade: the pitch diameter's (Td2, TD2) or the internal minor diameter's (TD1).
fn tolerance(kind: &str, size: &str, grade: u32) -> Length {
    match kind {
        "Td2" => data(&format!("{size}-{grade}h6h")).external.expect("external").pitch_diameter.band(),
        "TD2" => data(&format!("{size}-{grade}H6H")).internal.expect("internal").pitch_diameter.band(),
        _ => data(&format!("{size}-6H{grade}H")).internal.expect("internal").minor.band(),
    }
}

#[test]
fn iso_965_grades_in_other_printings() {
    let mut walk = Walk::new("metric_grades.csv");
    for row in rows("metric_grades.csv") {
        let (kind, size) = (row["kind"].as_str(), format!("M{}x{}", row["to"], row["pitch"]));
        for grade in 3..=9 {
            if let Some(printed) = number(&row, &grade.to_string()) {
                walk.cell(&format!("{kind} {size} {grade}"), printed, Some(um(tolerance(kind, &size, grade))), 0.0);
            }
        }
    }
    walk.finish(200);
}

/// ISO 965-1 takes the grades from grade 6 by fixed factors and rounds to preferred numbers, which lie 6 % apart: with grade
/// 6 confirmed for every size (`metric_threadlib.csv`), no other grade can be a step off.
#[test]
fn every_iso_965_grade_follows_from_grade_6() {
    let factors = [(3, 0.5), (4, 0.63), (5, 0.8), (7, 1.25), (8, 1.6), (9, 2.0)];
    let mut asked = 0;
    for d in series(Family::IsoMetric) {
        let band = |class: String, external: bool| {
            let t = limits(&Designation { class: Some(class), ..d.clone() }, &Asked::default()).ok()?;
            let pd = if external { t.external?.pitch_diameter } else { t.internal?.pitch_diameter };
            Some(um(pd.band()))
        };
        let six = (band("6h".into(), true).expect("6h"), band("6H".into(), false).expect("6H"));
        // TD2 of grade 6 is 1.32 times Td2, each rounded to preferred numbers.
        assert!((six.1 / six.0 / 1.32 - 1.0).abs() < 0.04, "{}", d.show());
        for (grade, factor) in factors {
            for (tolerance, six) in
                [(band(format!("{grade}h6h"), true), six.0), (band(format!("{grade}H6H"), false), six.1)]
            {
                let Some(tolerance) = tolerance else { continue };
                assert!((tolerance / six / factor - 1.0).abs() < 0.032, "{} grade {grade}: {tolerance}", d.show());
                asked += 1;
            }
        }
    }
    assert!(asked > 2_500, "{asked}");
}

#[test]
fn class_4g6g_as_printed() {
    let mut walk = Walk::new("metric_4g6g.csv");
    for row in rows("metric_4g6g.csv") {
        let name = format!("{}-{}", row["designation"], row["class"]);
        let e = data(&name).external.expect("external");
        for (column, ours) in [
            ("major_max", e.major.max),
            ("major_min", e.major.min),
            ("pd_max", e.pitch_diameter.max),
            ("pd_min", e.pitch_diameter.min),
            ("minor_max", e.minor.max),
            ("minor_min", e.minor.min),
        ] {
            walk.cell(&format!("{name} {column}"), number(&row, column).expect("a cell"), Some(ours.mm()), 0.0);
        }
    }
    walk.finish(78);
}

#[test]
fn two_letter_classes_take_each_diameter_from_its_own_half() {
    for (both, pitch, crest) in
        [("4h6h", "4h", "6h"), ("7g6g", "7g6g", "6g"), ("5g6g", "5g6g", "6g"), ("5h6g", "5h6h", "6g")]
    {
        let of = |class: &str| data(&format!("M16x1.5-{class}")).external.expect("external");
        assert_eq!(of(both).pitch_diameter, of(pitch).pitch_diameter, "{both}");
        assert_eq!(of(both).major, of(crest).major, "{both}");
    }
    let of = |class: &str| data(&format!("M16x1.5-{class}")).internal.expect("internal");
    assert_eq!(of("5H6H").pitch_diameter, of("5H").pitch_diameter);
    assert_eq!(of("5H6H").minor, of("6H").minor);
    // Td2 grade 5 and 7 of M16x1.5: 112 and 180 µm (metric_grades.csv).
    assert_eq!(data("M16x1.5-5g6g").external.expect("external").pitch_diameter.band(), Length::micrometres(112));
    assert_eq!(data("M16x1.5-7g6g").external.expect("external").pitch_diameter.band(), Length::micrometres(180));
}

#[test]
fn lengths_of_engagement_of_another_printing() {
    let mut walk = Walk::new("metric_engagement.csv");
    for row in rows("metric_engagement.csv") {
        let cell = |column| number(&row, column).expect("a cell");
        let normal = normal_engagement(mm(cell("to")), mm(cell("pitch")));
        // The rows of pitch 0.2 are from memory in the table itself.
        assert_eq!(normal.source.confirmed, cell("pitch") > 0.2 + 1e-9);
        let key = format!("{} {}", row["to"], row["pitch"]);
        walk.cell(&format!("{key} from"), cell("from"), Some(normal.above.mm()), 0.0);
        walk.cell(&format!("{key} until"), cell("until"), Some(normal.to.mm()), 0.0);
        assert_eq!(normal.group(normal.above), EngagementGroup::Short, "up to and including");
        assert_eq!(normal.group(normal.to), EngagementGroup::Normal, "up to and including");
        assert_eq!(normal.group(normal.to + Length::from_pm(1)), EngagementGroup::Long);
    }
    walk.finish(90);
}

/// ISO 965-1, medium quality: short 5g6g and 5H, long 7g6g and 7H (recommended classes; from memory).
#[test]
fn the_length_group_decides_the_usual_metric_class() {
    for (text, millimetres, external, internal) in [
        ("M16x1.5", 5.6, "5g6g", "5H"),
        ("M16x1.5", 5.7, "6g", "6H"),
        ("M16x1.5", 16.0, "6g", "6H"),
        ("M16x1.5", 16.1, "7g6g", "7H"),
        ("M1.4", 2.5, "6h", "6H"),
    ] {
        let t = at_engagement(text, mm(millimetres));
        assert_eq!(t.external.as_ref().map(|e| e.class.as_str()), Some(external), "{text} at {millimetres}");
        assert_eq!(t.internal.as_ref().map(|i| i.class.as_str()), Some(internal), "{text} at {millimetres}");
        assert!(t.notes.iter().any(|n| n.contains("engagement")));
    }
    assert_eq!(data("M16x1.5-L").external.expect("external").class, "7g6g");
    assert_eq!(data("M16x1.5-S").external.expect("external").class, "5g6g");
    // A class that is named stays as it is.
    let named = at_engagement("M16x1.5-6g", mm(25.0));
    assert_eq!(named.external, data("M16x1.5-6g").external);
    assert!(named.source.iter().any(|s| !s.confirmed), "the recommendation is from memory and says so");
    assert_eq!(data("Tr 40x7-L").external.expect("external").class, "8e");
    assert_eq!(at_engagement("Tr 40x7", mm(60.0)).external.expect("external").class, "7e");
    assert!(data("Tr 40x7-8e").source.iter().any(|s| !s.confirmed), "grade 8 is from memory and says so");
    assert!(data("Tr 40x7-7e").source.iter().all(|s| s.confirmed || s.name.contains("practice")));
}

/// ASME B1.1 §5.8.1: .0015 D^1/3 + .0015 Le^1/2 + .015 P^2/3 (Machinery's Handbook, formulas of Table 3); to 1 1/2
/// diameters, or 5 to 15 pitches, the table's tolerance holds. That the allowance stays is from memory.
#[test]
fn unified_tolerances_at_other_lengths_of_engagement() {
    let base = data("1/2-13 UNC-2A");
    let e = base.external.as_ref().expect("external");
    for short in [0.1, 0.5, 0.75] {
        assert_eq!(at_engagement("1/2-13 UNC-2A", inch(short)).external.as_ref(), Some(e), "{short}");
    }
    let long = at_engagement("1/2-13 UNC-2A", inch(1.0)).external.expect("external");
    assert_eq!((long.major, long.allowance, long.pitch_diameter.max), (e.major, e.allowance, e.pitch_diameter.max));
    let formula = |le: f64| 0.0015 * 0.5_f64.cbrt() + 0.0015 * le.sqrt() + 0.015 * (1.0_f64 / 13.0).powf(2.0 / 3.0);
    assert!((long.pitch_diameter.band().inches() - formula(1.0)).abs() < 0.000_05);
    assert_eq!(long.pitch_diameter.min, Length::inch_tenths(4431));
    // Nine pitches are usual for UNEF and UN, five to fifteen are covered.
    let fine = data("1-20 UNEF-2A").external;
    assert_eq!(at_engagement("1-20 UNEF-2A", inch(0.25)).external, fine);
    assert_eq!(at_engagement("1-20 UNEF-2A", inch(0.75)).external, fine);
    let outside = at_engagement("1-20 UNEF-2A", inch(1.5));
    assert!(outside.external.expect("external").pitch_diameter.band() > fine.expect("external").pitch_diameter.band());
    assert!(outside.notes.iter().any(|n| n.contains("outside the lengths of engagement of 5 to 15 pitches")));
    let mut last = Length::ZERO;
    for tenths in 8..40 {
        let t = at_engagement("1/2-13 UNC-2B", inch(f64::from(tenths) / 10.0)).internal.expect("internal");
        assert!(t.pitch_diameter.band() >= last, "longer is never closer");
        last = t.pitch_diameter.band();
    }
}

/// A 55° catalogue (a tap maker's page 456) draws close, medium and free bolts at 66 2/3, 100 and 150 % of the tolerance,
/// medium and normal nuts at 100 and 150, and an allowance to 3/4 in on the medium and free bolts. Its size, .3 T, is from memory.
#[test]
fn whitworth_classes_and_allowance() {
    let bolt = |name: &str| data(name).external.expect("external");
    let close = bolt("1 BSW-close").pitch_diameter.band().inches();
    let medium = bolt("1 BSW-medium").pitch_diameter.band().inches();
    let free = bolt("1 BSW-free").pitch_diameter.band().inches();
    assert!((close / medium - 2.0 / 3.0).abs() < 0.015 && (free / medium - 1.5).abs() < 0.015);
    let nut = |name: &str| data(name).internal.expect("internal").pitch_diameter.band().inches();
    assert!((nut("1 BSW-normal") / nut("1 BSW-medium") - 1.5).abs() < 0.015);
    assert_eq!(bolt("1 BSW-medium").allowance, Length::ZERO);
    assert_eq!(bolt("3/4 BSW-close").allowance, Length::ZERO);
    for name in ["3/4 BSW-medium", "1/2 BSW-free", "1/4 BSF-medium", "3/16 BSW-medium"] {
        let b = bolt(name);
        assert!(b.allowance.is_positive(), "{name}");
        assert_eq!(data(name).nominal.round_to(Length::inch_tenths(1)) - b.major.max, b.allowance, "{name}");
    }
    assert_eq!(bolt("3/16 BSW-medium").allowance, bolt("1/4 BSW-medium").allowance);
}

#[test]
fn buttress_tolerances_as_printed() {
    let mut walk = Walk::new("buttress.csv");
    for row in rows("buttress.csv") {
        let name = format!("{}-{} BUTT-2A", row["to"], row["tpi"]);
        let t = data(&name);
        let (e, i) = (t.external.expect("external"), t.internal.expect("internal"));
        let printed = number(&row, "tolerance").expect("a cell");
        for (cell, band) in [
            ("major", e.major.band()),
            ("pitch", e.pitch_diameter.band()),
            ("internal pitch", i.pitch_diameter.band()),
            ("internal minor", i.minor.band()),
        ] {
            walk.cell(&format!("{name} {cell}"), printed, Some(band.inches()), 0.0);
        }
        // The allowance is the class 3 tolerance, for both classes (ANSI B1.9, Machinery's Handbook 27th ed. p. 1855).
        let three = data(&name.replace("2A", "3A")).external.expect("external");
        assert_eq!(three.pitch_diameter.band(), e.allowance, "{name}");
        assert_eq!(three.allowance, e.allowance, "{name}");
    }
    walk.finish(76);
}

#[test]
fn buttress_form_as_printed() {
    let mut walk = Walk::new("buttress_form.csv");
    for row in rows("buttress_form.csv") {
        let name = format!("1-{} BUTT-2A", row["tpi"]);
        let t = data(&name);
        let i = t.internal.as_ref().expect("internal");
        let e = t.external.as_ref().expect("external");
        let cell = |column| number(&row, column).expect("a cell");
        walk.cell(&format!("{name} pitch"), cell("pitch"), Some(t.pitch.to_f64(Unit::Inch)), 0.000_05);
        let height = (i.pitch_diameter.min - i.minor.min).inches();
        walk.cell(&format!("{name} basic height"), cell("basic_height"), Some(height), 0.000_1);
        walk.cell(&format!("{name} height"), cell("height"), Some(t.depth.inches()), 0.000_05);
        walk.cell(&format!("{name} truncation"), cell("root_truncation"), Some(t.tool_flat.inches()), 0.000_05);
        // The least root truncation is half the largest: so much deeper a side may the root go besides the tolerance.
        let deeper = (e.minor.max - e.minor.min - e.pitch_diameter.band()).half().inches();
        walk.cell(&format!("{name} least truncation"), cell("root_truncation") / 2.0, Some(deeper), 0.000_1);
    }
    walk.finish(10);
}

#[test]
fn classes_that_do_not_exist_are_named() {
    let d = read("M16x1.5-3e").expect("a designation");
    assert!(
        limits(&d, &Asked::default()).is_err_and(|e| matches!(e, Unknown::Class { known } if known.contains(&"7g6g")))
    );
    assert!(read("Tr 40x7-7e-S").is_err() && read("1/2-13 UNC-2A-L").is_err());
    for text in ["M16x1.5-7g6g-L", "M16x1.5-L LH", "Tr 40x7-8e-L"] {
        let d = read(text).expect("a designation");
        assert_eq!(d.engagement, EngagementGroup::Long, "{text}");
        assert_eq!(read(&d.show()), Ok(d), "{text}");
    }
}
