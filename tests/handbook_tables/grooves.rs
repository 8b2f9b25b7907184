//! Undercuts, ring grooves, O-ring grooves, bearings.

use turnwright::handbook::bearing::{self, Turns};
use turnwright::handbook::o_ring::{self, Motion};
use turnwright::handbook::undercut::{self, Duty};
use turnwright::handbook::{bearing_limits, fit, retaining_ring};
use turnwright::unit::{Length, Unit};

use crate::handbook_tables::walk::{Walk, number, rows};

fn mm(value: f64) -> Length {
    Length::from_f64(value, Unit::Millimetre)
}

#[test]
fn undercuts_of_din_509() {
    let mut walk = Walk::new("din509.csv");
    for row in rows("din509.csv") {
        let (r, t1) = (number(&row, "r").expect("r"), number(&row, "t1").expect("t1"));
        let name = format!("{} {r}x{t1}", row["form"]);
        let ours = undercut::by_designation(&format!("DIN 509 {name}"));
        let get = |l: fn(&undercut::Undercut) -> Option<Length>| ours.as_ref().and_then(l).map(Length::mm);
        for (column, value) in [
            ("r", get(|u| Some(u.radius))),
            ("t1", get(|u| Some(u.depth.min))),
            ("t2", get(|u| u.face_depth)),
            ("f", get(|u| Some(u.width))),
            ("g", get(|u| u.face_height)),
            ("over", get(|u| u.shafts.0)),
            ("to", get(|u| u.shafts.1)),
        ] {
            if let Some(printed) = number(&row, column) {
                walk.cell(&format!("{name} {column}"), printed, value, 0.0);
            }
        }
        let duty = if row["duty"] == "fatigue" { Duty::Fatigue } else { Duty::Usual };
        assert_eq!(ours.map(|u| u.duty), Some(duty), "{name}");
    }
    walk.finish(159);
}

#[test]
fn undercuts_of_the_reference_rows() {
    let mut walk = Walk::new("reliefs.csv");
    for row in rows("reliefs.csv") {
        let r = number(&row, "pitch_or_r").expect("a radius");
        let shaft = number(&row, "dia_to").expect("a range");
        let duty = if row["series"] == "usual" { Duty::Usual } else { Duty::Fatigue };
        for form in ['E', 'F'] {
            let ours = undercut::for_shaft(form, mm(shaft), duty).into_iter().find(|u| u.radius == mm(r));
            for (column, value) in [
                ("f1_or_t1", ours.as_ref().map(|u| u.depth.min.mm())),
                ("f2_or_f", ours.as_ref().map(|u| u.width.mm())),
                ("r", ours.as_ref().map(|u| u.radius.mm())),
                ("t2", ours.as_ref().and_then(|u| u.face_depth).map(Length::mm)),
            ] {
                if let Some(printed) = number(&row, column).filter(|_| column != "t2" || form == 'F') {
                    walk.cell(&format!("{form} {r} {shaft} {column}"), printed, value, 0.0);
                }
            }
        }
    }
    walk.finish(35);
    assert_eq!(
        undercut::for_shaft('F', mm(25.0), Duty::Usual).first().map(undercut::Undercut::designation).as_deref(),
        Some("DIN 509 F 0.6x0.3")
    );
    assert!(undercut::by_designation("DIN 509 F 0.7x0.3").is_none() && undercut::by_designation("").is_none());
}

#[test]
fn ring_grooves_of_din_471() {
    let mut walk = Walk::new("din471.csv");
    for row in rows("din471.csv") {
        let d1 = number(&row, "d1").expect("a shaft");
        let ours = retaining_ring::for_shaft(mm(d1), Unit::Millimetre);
        let get = |l: fn(&retaining_ring::RingGroove) -> Length| ours.as_ref().map(|g| l(g).mm());
        for (column, value) in [
            ("d2", get(|g| g.diameter.max)),
            ("m", get(|g| g.width.min)),
            ("s", get(|g| g.ring)),
            ("n", get(|g| g.edge)),
        ] {
            if let Some(printed) = number(&row, column) {
                walk.cell(&format!("{d1} {column}"), printed, value, 0.0);
            }
        }
    }
    walk.finish(220);
    // TRADE example 22: a groove of 23.9 on 25 is .55 a side, not 1.1 deep (DIN 471; from memory there).
    let groove = retaining_ring::for_shaft(mm(25.0), Unit::Millimetre).expect("25 mm");
    assert_eq!(groove.depth_a_side(), mm(0.55));
    assert!(groove.width.min > groove.ring && !groove.tolerance_source.confirmed);
}

#[test]
fn every_ring_fits_its_groove() {
    for unit in [Unit::Millimetre, Unit::Inch] {
        let mut last = Length::ZERO;
        for shaft in retaining_ring::shafts(unit) {
            let groove = retaining_ring::for_shaft(shaft, unit).expect("listed");
            assert!(shaft > last, "shafts rise");
            last = shaft;
            assert!(groove.width.min > groove.ring && groove.diameter.max < shaft, "{shaft:?}");
            // The edge is about three times the groove's depth (DIN 471 note; the rule of a text: n = 3 t).
            let ratio = groove.edge.mm() / groove.depth_a_side().mm();
            assert!((2.4..=3.6).contains(&ratio), "{shaft:?} {ratio}");
        }
    }
    // P2 of TRADE: 1.000 shaft, groove .940 ±.003, .046 to .049 wide, ring .042 (from memory there).
    let one = retaining_ring::for_shaft(Length::PER_INCH, Unit::Inch).expect("1 in");
    let thou = |n: i64| Length::micro_inches(n * 1000);
    assert_eq!((one.diameter.min, one.diameter.max), (thou(937), thou(943)));
    assert_eq!((one.width.min, one.width.max, one.ring), (thou(46), thou(49), thou(42)));
}

#[test]
fn o_ring_grooves_of_two_handbooks() {
    let mut walk = Walk::new("o_ring.csv");
    for row in rows("o_ring.csv") {
        let section = Length::from_f64(number(&row, "section").expect("a section"), Unit::Inch);
        let motion = if row["use"] == "static" { Motion::Static } else { Motion::Sliding };
        let gland = o_ring::gland(section, motion).expect("listed");
        for (column, value) in [
            ("depth_min", gland.depth.min),
            ("depth_max", gland.depth.max),
            ("width_min", gland.width.min),
            ("width_max", gland.width.max),
            ("radius_min", gland.radius.min),
            ("radius_max", gland.radius.max),
        ] {
            let printed = number(&row, column).expect(column);
            walk.cell(&format!("{} {} {column}", row["use"], row["section"]), printed, Some(value.inches()), 0.0);
        }
        // The squeeze printed is over all tolerances of ring and groove, to a percent.
        let squeeze = |section: Length, depth: Length| (1.0 - depth.inches() / section.inches()) * 100.0;
        let (least, most) = (squeeze(gland.section.min, gland.depth.max), squeeze(gland.section.max, gland.depth.min));
        for (column, value) in [("squeeze_min", least), ("squeeze_max", most)] {
            let printed = number(&row, column).expect(column);
            walk.cell(&format!("{} {} {column}", row["use"], row["section"]), printed, Some(value), 1.5);
        }
        assert!(gland.squeeze_permille().0 < gland.squeeze_permille().1);
    }
    walk.finish(80);
    assert_eq!(o_ring::gland(mm(3.53), Motion::Static), o_ring::gland(Length::micro_inches(139_000), Motion::Static));
    assert!(o_ring::gland(mm(4.0), Motion::Static).is_none());
}

#[test]
fn bearings_of_two_lists() {
    let mut walk = Walk::new("bearings.csv");
    for row in rows("bearings.csv") {
        let ours = bearing::find(&row["number"]);
        let get = |l: fn(&bearing::Bearing) -> Length| ours.as_ref().map(|b| l(b).mm());
        for (column, value) in
            [("d", get(|b| b.bore)), ("D", get(|b| b.outside)), ("B", get(|b| b.width)), ("r", get(|b| b.corner))]
        {
            if let Some(printed) = number(&row, column) {
                walk.cell(&format!("{} {column}", row["number"]), printed, value, 0.0);
            }
        }
    }
    walk.finish(140);
    assert_eq!(bearing::find("6204-2RS").map(|b| b.number), Some("6204"));
    assert!(bearing::find("6299").is_none() && bearing::find("").is_none());
    let twenty: Vec<_> = bearing::with_bore(mm(20.0), Some(mm(14.0))).iter().map(|b| b.number).collect();
    assert_eq!(twenty, ["6204"]);
}

/// DIN 5418 and ISO 582 (from memory): the fillet is no larger than the ring's corner, the shoulder higher than the fillet.
#[test]
fn a_bearings_corner_and_seat() {
    for b in bearing::all() {
        let (fillet, height, _) =
            bearing::shoulder(b.corner).unwrap_or_else(|| panic!("{}: corner {:?}", b.number, b.corner));
        assert!(fillet <= b.corner && height > fillet, "{}", b.number);
        assert!(b.bore < b.outside && b.corner.times(2) < b.width);
        assert!(bearing_limits::bore(b.bore).is_some() && bearing_limits::width(b.bore, b.width).is_some());
        let (code, _) = bearing::usual_seat(b.bore, Turns::Shaft);
        assert!(fit::shaft(code, b.bore).is_ok());
    }
    assert_eq!(bearing::usual_seat(mm(20.0), Turns::Shaft).0, "k5");
    assert_eq!(bearing::usual_seat(mm(20.0), Turns::Housing).0, "g6");
}

/// DIN 76-1:2004 table 1, every pitch, asked through the thread it relieves.
#[test]
fn thread_reliefs_of_din_76() {
    use turnwright::handbook::thread::{self, Asked};
    let sizes = [
        "1", "1.2", "1.4", "1.6", "2", "2.5", "3", "3.5", "4", "4.5", "5", "6", "8", "10", "12", "16", "20", "24",
        "30", "36", "42", "48", "56", "64",
    ];
    let mut walk = Walk::new("din76_external.csv");
    let table = rows("din76_external.csv");
    assert_eq!(table.len(), sizes.len());
    for (row, size) in table.iter().zip(sizes) {
        let name = format!("M{size}x{}", row["pitch"]);
        let designation = thread::read(&name).unwrap_or_else(|e| panic!("{name}: {e:?}"));
        let data = thread::limits(&designation, &Asked::special()).unwrap_or_else(|e| panic!("{name}: {e:?}"));
        let relief = data.relief.expect("a relief");
        for (column, value) in [
            ("below_d", designation.nominal - relief.diameter),
            ("g1_min", relief.width_min),
            ("g2_max", relief.width_max),
            ("r", relief.radius.expect("a radius")),
        ] {
            walk.cell(&format!("{name} {column}"), number(row, column).expect(column), Some(value.mm()), 0.0);
        }
        assert!(thread::relief_source(&data).confirmed, "{name}");
        // Geometry: a relief that does not clear its thread is wrong, whatever the table says. From pitch 0.5 it also clears the
        // root a tool leaves at the least pitch diameter; below, the standard's tenths of a millimetre are too coarse for that.
        let root = thread::single_point_root(&data).expect("an external thread");
        let pitch = number(row, "pitch").expect("a pitch");
        assert!(relief.diameter.mm() < designation.nominal.mm() - 1.226_87 * pitch, "{name}: inside the basic root");
        assert!(pitch < 0.5 || relief.diameter < root, "{name}: {:?} does not clear {root:?}", relief.diameter);
    }
    walk.finish(96);
}
