//! Center holes.

use turnwright::handbook::center::{self, Form};
use turnwright::unit::{Length, Unit};

use crate::handbook_tables::walk::{Walk, number, rows};

#[test]
fn center_holes_of_the_reference_rows() {
    let mut walk = Walk::new("centers.csv");
    for row in rows("centers.csv") {
        let size = row["size"].as_str();
        let tapped = row["table"] == "DIN332-2_D_DS";
        let text = match size.split_at(1) {
            _ if tapped => format!("DS {size}"),
            (form, drill) => format!("{form} {drill}"),
        };
        let hole = center::find(&text).ok();
        let mm = |l: fn(&center::CenterHole) -> Option<Length>| hole.as_ref().and_then(l).map(Length::mm);
        let guard = if tapped { "b" } else { "d3" };
        let guard_depth = if tapped { "none" } else { "b" };
        for (column, ours) in [
            ("drill_d1", mm(|h| Some(h.drill_diameter))),
            ("body_or_d2", mm(|h| Some(h.mouth_diameter))),
            ("drill_length_or_t", mm(|h| Some(h.depth))),
            (guard, mm(|h| h.protecting_diameter)),
            (guard_depth, mm(|h| h.protecting_depth)),
        ] {
            if let Some(printed) = number(&row, column) {
                walk.cell(&format!("{size} {column}"), printed, ours, 0.0);
            }
        }
    }
    walk.finish(150);
}

/// Form B is form A with a 120° chamfer around it: the same drill and mouth, deeper by the chamfer (DIN 332-1).
#[test]
fn form_b_is_form_a_with_a_guard() {
    let mut count = 0;
    for text in center::designations().iter().filter(|d| d.starts_with("B ")) {
        let (b, a) =
            (center::find(text).expect("listed"), center::find(&text.replace('B', "A")).expect("form A has it"));
        assert_eq!((b.drill_diameter, b.mouth_diameter), (a.drill_diameter, a.mouth_diameter), "{text}");
        let guard = b.protecting_depth.expect("a guard");
        // The standard's depths are rounded minima: to a tenth, and to half a millimetre from 40 mm.
        let within = if b.drill_diameter < Length::PER_MM.times(40) { 101 } else { 501 };
        assert!((b.depth - a.depth - guard).abs() <= Length::micrometres(within), "{text}");
        // A 120° chamfer of depth b widens the mouth by 2 b tan 60° = 3.46 b.
        let wide = b.protecting_diameter.expect("a guard") - b.mouth_diameter;
        assert!((wide.mm() - 3.464 * guard.mm()).abs() < 0.25, "{text} {wide:?} {guard:?}");
        count += 1;
    }
    assert_eq!(count, 18);
}

#[test]
fn what_people_write_for_a_center_hole() {
    let find = |t: &str| center::find(t).unwrap_or_else(|e| panic!("{e}"));
    let a = find("A 1/8");
    // Plain center drill No. 4: 1/8 drill, 5/16 body (ASME B94.11M; from memory).
    assert_eq!(
        (a.form, a.drill_diameter, a.body),
        (Form::A, Length::PER_INCH.times_ratio(1, 8), Some(Length::PER_INCH.times_ratio(5, 16)))
    );
    assert!(a.mouth_diameter < Length::PER_INCH.times_ratio(5, 16));
    let three = find("No. 3");
    assert_eq!((three.form, three.drill_diameter), (Form::Plain, Length::PER_INCH.times_ratio(7, 64)));
    assert_eq!(find("no 3"), find("#3"));
    assert_eq!(find("No. 13").form, Form::Bell);
    let d = find("D M8");
    assert_eq!((d.drill_diameter.mm(), d.mouth_diameter.mm(), d.protecting_diameter), (6.8, 12.2, None));
    assert_eq!(find("a2.5"), find("A 2.5"));
    for bad in ["A 2.6", "B 0.5", "No. 9", "D M7", "Z 3", "", "A", "A x", "No."] {
        assert!(center::find(bad).is_err(), "{bad}");
    }
    assert_eq!(center::find("A 2.6").expect_err("no such size").nearest, ["A 2.5", "A 3.15", "A 2"]);
}

#[test]
fn tapped_and_numbered_center_holes() {
    let mut walk = Walk::new("din332_threaded.csv");
    for row in rows("din332_threaded.csv") {
        let hole = center::find(&format!("DS {}", row["thread"])).expect("listed");
        for (column, ours) in [
            ("d2", Some(hole.drill_diameter)),
            ("d4", Some(hole.mouth_diameter)),
            ("d5", hole.protecting_diameter),
            ("t1", hole.thread_depth),
            ("t2", Some(hole.depth)),
            ("t5", hole.protecting_depth),
        ] {
            let printed = number(&row, column).expect(column);
            walk.cell(&format!("{} {column}", row["thread"]), printed, ours.map(Length::mm), 0.0);
        }
    }
    walk.finish(60);
    let mut walk = Walk::new("center_drills.csv");
    for row in rows("center_drills.csv") {
        let hole = center::find(&format!("No. {}", row["number"])).expect("listed");
        let cone = (hole.mouth_diameter - hole.drill_diameter).inches() / 2.0 * 3.0_f64.sqrt();
        for (column, ours, within) in [
            ("body", hole.body.expect("a body").inches(), 0.0),
            ("pilot", hole.drill_diameter.inches(), 0.0),
            ("pilot_length", hole.depth.inches() - cone, 0.0006),
        ] {
            let printed = number(&row, column).expect(column);
            walk.cell(&format!("{} {column}", row["number"]), printed, Some(ours), within);
        }
        assert!(hole.source.confirmed);
    }
    walk.finish(30);
}

/// Usual sizes (common practice, no source): the mouth stays well under half of the end.
#[test]
fn a_usual_center_is_never_over_half_the_shaft() {
    for tenth in 25..4_000 {
        let shaft = Length::micrometres(tenth * 100);
        for unit in [Unit::Millimetre, Unit::Inch] {
            if let Some(hole) = center::usual(shaft, unit) {
                assert!(hole.mouth_diameter.times(2) <= shaft, "{tenth} {unit:?} {}", hole.designation);
            }
        }
    }
    assert_eq!(center::usual(Length::PER_MM.times(25), Unit::Millimetre).expect("25 mm").designation, "A 2.5");
}
