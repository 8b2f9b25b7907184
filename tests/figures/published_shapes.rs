//! More worked examples and tables that were published elsewhere; the source stands at each.

use crate::figures::hand::{bare, figures_of, one_setup, operation_of, part, shop};
use crate::figures::planned::worked;
use turnwright::figures::{Job, Mate};
use turnwright::model::End;
use turnwright::model::plan::{Operation, Verb};
use turnwright::model::shop::{Reads, ToolKind};
use turnwright::unit::{Length, Station, Unit};

/// The job of one operation on the first feature of this kind.
fn job_on(text: &str, word: &str, verb: Verb, tool: ToolKind) -> Job {
    let part = part(text.as_bytes());
    let feature = part.features.iter().find(|f| f.kind.word() == word).expect("the feature").id;
    let op = Operation { feature: Some(feature), ..bare(verb, tool) };
    operation_of(&figures_of(&part, &one_setup(End::Datum, vec![op]), None), 10).job.clone()
}

/// Turning and Boring Tapers (Derry-Collard, 1902), table of degrees included and taper per inch: 10° .17498, 20° .35266, 25° .44338, 30° .53590, 40° .72794,
/// 45° .82842, 50° .93262. An indicator that goes an inch along sees one side of it: half of that.
#[test]
fn an_indicator_along_a_taper_sees_half_of_it() {
    let table = [
        (10.0, 17_498),
        (20.0, 35_266),
        (25.0, 44_338),
        (30.0, 53_590),
        (40.0, 72_794),
        (45.0, 82_842),
        (50.0, 93_262),
    ];
    for (included, per_inch) in table {
        let text = format!(
            "part: arbor\nunits: in\ndatum: end\noverall: 3\nfeatures:\n  - taper: {:.5} per foot\n    large: 2\n    to: 1\n  - turn: 1\n    to: 3\n",
            f64::from(per_inch) * 12.0 / 100_000.0
        );
        let Job::Taper(cut) = job_on(&text, "taper", Verb::Taper, ToolKind::Finishing) else { panic!("{included}") };
        let half = Length::micro_inches(i64::from(per_inch) * 10).half();
        assert!((cut.drop.value - half).abs() <= Length::micro_inches(60), "{included}: {:?}", cut.drop);
        assert!((2.0 * cut.half_angle_deg - included).abs() < 2e-3, "{included}: {}", cut.half_angle_deg);
    }
}

/// F. D. Jones, Turning and Boring (1914), rules for calculating cutting speeds: C = R π d / 12, and its example: 46 revolutions of 5 inches are 60 ft/min.
#[test]
fn surface_speed_of_jones() {
    let part = part(b"part: disk\nunits: in\ndatum: face\noverall: 6\nfeatures:\n  - turn: 4.9\n    to: 6\n");
    let mut own = shop(Reads::Radius);
    (own.surface_speed_hss, own.speeds) = (Some(60.5 * 0.3048), vec![46]);
    let op = Operation {
        feature: Some(0),
        from: Some(Station::DATUM),
        to: Some(Station(Length::PER_INCH)),
        from_diameter: Some(Length::PER_INCH.times(5)),
        to_diameter: Some(Length::inch_tenths(49_000)),
        ..bare(Verb::Rough, ToolKind::Roughing)
    };
    let figures = figures_of(&part, &one_setup(End::Datum, vec![op]), Some(&own));
    let speed = operation_of(&figures, 10).speed.clone().expect("a speed");
    assert_eq!((speed.gear, speed.surface_in(Unit::Inch).round() as i64), (Some(46), 60));
}

/// ASME B18.2.1, hex cap screws (from memory): across flats F and across corners G, basic: 1/2 in .750 and .866, 5/8 .938 and 1.083, 3/4 1.125 and 1.299, 1 in 1.500 and
/// 1.732. A round of G takes six flats of F: each is half of G wide, (G - F) / 2 deep, 60° on from the last, and from the first to the far side G less its depth.
#[test]
fn hexagons_of_cap_screws() {
    for (across, corners) in [(7_500, 8_660), (9_375, 10_830), (11_250, 12_990), (15_000, 17_320)] {
        let (f, g) = (Length::inch_tenths(across), Length::inch_tenths(corners));
        let told = |l: i64| l as f64 / 10_000.0;
        let text = format!(
            "part: screw\nunits: in\ndatum: end\noverall: 2\ntolerances: {{lengths: ±0.01, diameters: ±0.005}}\nfeatures:\n  - turn: {}\n    to: 2\n  - hexagon: {} +0/-0.01\n    from: 0\n    to: 0.5\n",
            told(corners),
            told(across)
        );
        let Job::Flats(cut) = job_on(&text, "hexagon", Verb::Mill, ToolKind::EndMill) else { panic!("{across}") };
        // Printed to a thousandth.
        let near = |a: Length, b: Length| (a - b).abs() <= Length::micro_inches(510);
        assert_eq!((cut.count, cut.divide_deg.round() as i64), (6, 60));
        assert!(near(cut.across.value, f) && near(cut.round.value, g), "{across}");
        assert!(near(cut.depth.value, (g - f).half()) && near(cut.after_first.value, g - (g - f).half()), "{across}");
        assert!(near(cut.width.value, g.half()) && near(cut.corners.value, g), "{across}: {:?}", cut.width);
        let limits = cut.across_limits.expect("limits");
        assert_eq!((limits.exact.max, limits.exact.min), (f, f - Length::inch_tenths(100)));
        assert_eq!((cut.along.from.value, cut.along.to.value), (Length::ZERO, Length::inch_tenths(5_000)));
    }
}

/// Segments of circles of radius 1, as handbooks print them (from memory; chord 2 sin(a/2), height 1 - cos(a/2)): 60° height .13397 chord 1.0000; 90° .29289 and 1.4142;
/// 120° .5000 and 1.7321.
#[test]
fn crowns_by_a_table_of_segments() {
    for (height, chord) in [(1_340, 10_000), (2_929, 14_142), (5_000, 17_321)] {
        let text = format!(
            "part: stud\nunits: in\ndatum: end\noverall: 2\nfeatures:\n  - turn: {:.4}\n    to: 2\n  - crown: 1.000 radius\n    end: datum\n",
            f64::from(chord) / 10_000.0
        );
        let Job::Crown(cut) = job_on(&text, "crown", Verb::File, ToolKind::File) else { panic!("{chord}") };
        let near =
            |a: Length, tenths: i32| (a - Length::inch_tenths(i64::from(tenths))).abs() <= Length::micro_inches(600);
        assert_eq!(cut.radius.value, Length::PER_INCH);
        assert!(
            near(cut.height.value, height) && near(cut.over.value, chord),
            "{chord}: {:?} {:?}",
            cut.height,
            cut.over
        );
    }
}

/// Fits on a 25 mm shaft as textbooks work them from ISO 286-2 (from memory; the limits stand in `tests/reference`): H7/g6 0.007 to 0.041 clearance, H7/h6 0 to 0.034,
/// H7/k6 0.015 interference to 0.019 clearance, H7/p6 0.001 to 0.035 interference, H7/s6 0.014 to 0.048.
#[test]
fn fits_as_textbooks_work_them() {
    for (code, least, most) in [("g6", 7, 41), ("h6", 0, 34), ("k6", -15, 19), ("p6", -35, -1), ("s6", -48, -14)] {
        let text = format!(
            "part: shaft\nunits: mm\nmaterial: C45\nstock: 30 x 104\ndatum: end\noverall: 100 ±0.2\ntolerances: ISO 2768-m\nfeatures:\n  - turn: 25 {code}\n    to: 100\n    carries: {{part: hub, bore: 25 H7, enters: datum}}\n"
        );
        let w = worked(text.as_bytes(), None);
        let mate: &Mate = w.figures.mates.first().expect("a mate");
        let told = (mate.clearance.min, mate.clearance.max);
        assert_eq!(told, (Length::micrometres(least), Length::micrometres(most)), "{code}");
    }
}
