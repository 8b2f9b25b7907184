//! Parallel and Woodruff keys.

use proptest::prelude::*;
use turnwright::handbook::{key_parallel, keyseat, woodruff};
use turnwright::unit::{Length, Limits, Unit};

use crate::handbook_tables::walk::{Walk, number, rows};

fn inch(value: f64) -> Length {
    Length::from_f64(value, Unit::Inch)
}

#[test]
fn parallel_keys_of_the_reference_rows() {
    let mut walk = Walk::new("keys_parallel.csv");
    for row in rows("keys_parallel.csv") {
        let table = row["table"].as_str();
        let unit = if row["units"] == "mm" { Unit::Millimetre } else { Unit::Inch };
        let cell = |column| number(&row, column);
        let Some(to) = cell("shaft_to") else { continue };
        let shaft = Length::from_f64(to, unit);
        let key = match table {
            "B17.1_size" => key_parallel::for_shaft(shaft, unit).ok().and_then(|square| {
                let (width, height) = key_parallel::rectangular(shaft)?;
                assert_eq!((square.width, square.height), (width, width), "square keys are preferred to 6 1/2 in");
                key_parallel::with_size(shaft, width, height, unit).ok()
            }),
            "ISO773_DIN6885-1" => key_parallel::for_shaft(shaft, unit).ok(),
            _ => {
                let size = cell("key_w").zip(cell("key_h")).map(|(w, h)| (inch(w), inch(h)));
                size.and_then(|(w, h)| key_parallel::with_size(shaft, w, h, unit).ok())
            }
        };
        let ours =
            |l: fn(&key_parallel::ParallelKey) -> Option<Length>| key.as_ref().and_then(l).map(|l| l.to_f64(unit));
        for (column, value, within) in [
            ("key_w", ours(|k| Some(k.width)), 0.0),
            ("key_h", ours(|k| Some(k.height)), 0.0),
            ("seat_depth_shaft_t1", ours(|k| Some(k.seat_depth.min)), 5e-6),
            ("seat_depth_hub_t2", ours(|k| Some(k.hub_depth.min)), 0.0),
            ("S", ours(|k| k.s), 0.0005),
            ("T", ours(|k| k.t), 0.0005),
        ] {
            if let Some(printed) = cell(column) {
                walk.cell(&format!("{table} {to} {} {column}", row["key_h"]), printed, value, within);
            }
        }
        if table == "ISO773_DIN6885-1" {
            let deep = key.as_ref().map(|k| k.seat_depth.band().mm());
            walk.cell(&format!("{table} {to} t1_t2_tol"), 0.1, deep, 0.0);
        }
    }
    walk.finish(188);
}

#[test]
fn metric_keys_of_a_general_purpose_library() {
    let mut walk = Walk::new("din6885.csv");
    for row in rows("din6885.csv") {
        let (over, to) = (number(&row, "over").expect("over"), number(&row, "to").expect("to"));
        for at in [to, f64::midpoint(over, to)] {
            let key = key_parallel::for_shaft(Length::from_f64(at, Unit::Millimetre), Unit::Millimetre).ok();
            let mm = |l: fn(&key_parallel::ParallelKey) -> Length| key.as_ref().map(|k| l(k).mm());
            for (column, ours) in [
                ("b", mm(|k| k.width)),
                ("h", mm(|k| k.height)),
                ("t1", mm(|k| k.depths.from_top)),
                ("t2", mm(|k| k.hub_depth.min)),
            ] {
                if let Some(printed) = number(&row, column) {
                    walk.cell(&format!("{at} {column}"), printed, ours, 0.0);
                }
            }
        }
    }
    walk.finish(170);
}

#[test]
fn woodruff_keys_of_the_reference_rows() {
    let mut walk = Walk::new("woodruff.csv");
    for row in rows("woodruff.csv") {
        let key = woodruff::find(&row["key_no"]);
        let ours = |l: fn(&woodruff::WoodruffKey) -> Length| key.as_ref().map(|k| l(k).inches());
        for (column, value, within) in [
            ("width_nominal", ours(|k| k.width), 5e-6),
            ("dia_nominal", ours(|k| k.cutter_diameter), 0.0),
            ("key_height_C_max", ours(|k| k.height.max), 0.0),
            ("key_height_C_min", ours(|k| k.height.min), 0.0),
            ("key_height_D_max", ours(|k| k.flat_height), 0.0),
            ("E_below_center", ours(|k| k.below_center), 6e-6),
            ("seat_depth_B_min", ours(|k| k.seat_depth.min), 0.0),
            ("hub_depth", ours(|k| k.hub_depth.min), 0.0),
        ] {
            if let Some(printed) = number(&row, column) {
                walk.cell(&format!("{} {column}", row["key_no"]), printed, value, within);
            }
        }
    }
    walk.finish(160);
}

#[test]
fn woodruff_keyseats_of_two_textbooks() {
    let mut walk = Walk::new("woodruff_shigley.csv");
    for row in rows("woodruff_shigley.csv") {
        let key = woodruff::find(&format!("Woodruff {}", row["number"]));
        let ours = |l: fn(&woodruff::WoodruffKey) -> Length| key.as_ref().map(|k| l(k).inches());
        for (column, value) in [
            ("width", ours(|k| k.width)),
            ("diameter", ours(|k| k.cutter_diameter)),
            ("height", ours(|k| k.height.max)),
            ("below_center", ours(|k| k.below_center)),
            ("seat_depth", ours(|k| k.seat_depth.min)),
            ("hub_depth", ours(|k| k.hub_depth.min)),
        ] {
            if let Some(printed) = number(&row, column) {
                walk.cell(&format!("{} {column}", row["number"]), printed, value, 0.0);
            }
        }
    }
    walk.finish(148);
}

/// The number names the size: last two digits eighths of the diameter, the rest thirty-seconds of the width.
/// Source: Woodruff keyseat sheet of a technical college; TRADE example 4.
#[test]
fn woodruff_numbers_name_their_size() {
    let mut count = 0;
    for key in woodruff::all() {
        let base = key.number.split(['-', '.']).next().expect("a number");
        let n: i64 = base.parse().expect("digits");
        assert_eq!(key.width, Length::PER_INCH.times_ratio(n / 100, 32), "{}", key.number);
        let eighths = Length::PER_INCH.times_ratio(n % 100, 8);
        let half = if key.number.contains(".5") { Length::PER_INCH.times_ratio(1, 16) } else { Length::ZERO };
        assert_eq!(key.cutter_diameter, eighths + half, "{}", key.number);
        // The key stands out of the seat by what the hub takes, and a little less (B17.2: a clearance over the key).
        let clearance = key.seat_depth.min + key.hub_depth.min - key.height.max;
        assert!(clearance > Length::ZERO && clearance < Length::micro_inches(2_000), "{}", key.number);
        assert!(key.seat_width.min < key.width && key.width < key.seat_width.max + Length::micro_inches(1_000));
        assert!(key.seat_diameter.min == key.cutter_diameter && key.seat_diameter.max > key.cutter_diameter);
        count += 1;
    }
    assert_eq!(count, 66);
    assert!(woodruff::find("607.5").is_none() && woodruff::find("").is_none());
    assert!(woodruff::nearest("613").contains(&"612".to_owned().as_str()) || woodruff::nearest("613").contains(&"610"));
}

/// TRADE 4.2: shaft ranges by width, Shigley table 7-8; example 20: 606 suits 7/8, a key 1/4 wide does not suit 5/8.
#[test]
fn woodruff_widths_and_their_shafts() {
    let eighth = |n| Length::PER_INCH.times_ratio(n, 8);
    let usual = |n: &str| woodruff::find(n).and_then(|k| woodruff::usual_shafts(k.width)).expect("a usual range").0;
    assert!(usual("606").holds(eighth(7)));
    assert!(!usual("808").holds(eighth(5)));
    assert_eq!(usual("204"), Limits::new(Length::PER_INCH.times_ratio(5, 16), eighth(4)));
    assert_eq!(usual("1212"), Limits::new(eighth(8), eighth(21)));
}

#[test]
fn keys_outside_the_tables_say_so() {
    let mm = |n| Length::PER_MM.times(n);
    assert_eq!(key_parallel::for_shaft(mm(6), Unit::Millimetre), Err(key_parallel::NoKey::Shaft));
    assert_eq!(key_parallel::for_shaft(mm(501), Unit::Millimetre), Err(key_parallel::NoKey::Shaft));
    assert_eq!(key_parallel::with_size(mm(10), mm(10), mm(8), Unit::Millimetre), Err(key_parallel::NoKey::Size));
    let odd = key_parallel::with_size(mm(20), mm(7), mm(7), Unit::Millimetre).expect("an odd key can be cut");
    assert!(!odd.source.confirmed);
    // P9 and N9 over 3 to 6 mm: -12 -42 and 0 -30 µm (GB/T 1800.2-2020 Tables 9 and 10); over 6 to 10: -15 -51, 0 -36.
    let eight = key_parallel::for_shaft(mm(25), Unit::Millimetre).expect("8x7");
    let um = |l: Length| (l.mm() * 1000.0).round();
    let widths: Vec<_> = eight.seat_width.iter().map(|(_, l)| (um(l.min) - 8000.0, um(l.max) - 8000.0)).collect();
    assert_eq!(widths, [(-36.0, 0.0), (-51.0, -15.0)]);
    // Alignment by B17.1: .010 offset; .002 to 4 in, .0005 an inch to 10 in, .005 beyond (Machinery's Handbook 31st ed. p. 2552).
    let lead = |n: i64| key_parallel::alignment(Length::PER_INCH.times(n)).1;
    assert_eq!([lead(4), lead(6), lead(12)], [2_000, 3_000, 5_000].map(Length::micro_inches));
}

proptest! {
    #[test]
    fn a_seat_measured_from_the_top_is_the_same_seat(shaft in 500i64..4_000, width in 1i64..400, deep in 1i64..200) {
        let thou = |n: i64| Length::micro_inches(n * 1000);
        let (s, w, b) = (thou(shaft), thou(width.min(shaft / 2)), thou(deep));
        let a = keyseat::from_side(s, w, b);
        let back = keyseat::from_top(s, w, a.from_top);
        prop_assert_eq!((back.at_side, back.across_bottom), (b, s - b - a.arc_height));
        // f = r - sqrt(r² - (w/2)²) in floating point, to a millionth of an inch.
        let (r, h) = (s.inches() / 2.0, w.inches() / 2.0);
        prop_assert!((a.arc_height.inches() - (r - (r * r - h * h).sqrt())).abs() < 1e-9);
    }

    #[test]
    fn a_slot_grows_with_its_depth_to_the_cutter(deep in 1i64..600, more in 1i64..50) {
        let thou = |n: i64| Length::micro_inches(n * 1000);
        let cutter = thou(1_000);
        let (short, long) = (keyseat::slot_length(thou(deep), cutter), keyseat::slot_length(thou(deep + more), cutter));
        prop_assert!(short <= long && long <= cutter);
    }
}
