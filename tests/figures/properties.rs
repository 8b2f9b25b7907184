//! What must hold of every part, whatever its numbers.

use std::fmt::Write as _;

use proptest::prelude::*;

use crate::figures::hand::{bare, figures_of, one_setup, part, plan, shop, stub, stub_figures};
use turnwright::figures::{Edge, Figures, Job, OperationFigures, Position};
use turnwright::model::plan::{DatumEnd, Operation, Plan, Setup, Verb, Zero};
use turnwright::model::shop::{Reads, ToolKind};
use turnwright::model::{End, Shop};
use turnwright::unit::{Length, Station};

fn operations(figures: &Figures) -> impl Iterator<Item = &OperationFigures> {
    figures.setups.iter().flat_map(|s| &s.operations)
}

#[test]
fn a_diameter_dial_is_exactly_twice_a_radius_dial() {
    let (radius, diameter) = (stub_figures(Some(&shop(Reads::Radius))), stub_figures(Some(&shop(Reads::Diameter))));
    let mut seen = 0;
    for (r, d) in operations(&radius).zip(operations(&diameter)) {
        assert_eq!(
            (r.from, r.aim, &r.positions),
            (d.from, d.aim, &d.positions),
            "sizes and lengths do not depend on the dial"
        );
        if let (Some(r), Some(d)) = (r.cross_dial, d.cross_dial) {
            assert_eq!(d.infeed.exact, r.infeed.exact.times(2));
            assert_eq!(d.from_zero.exact, r.from_zero.exact.times(2));
            seen += 1;
        }
        if let (Job::Thread(r), Job::Thread(d)) = (&r.job, &d.job) {
            assert_eq!(d.straight.map(|s| s.exact), r.straight.map(|s| s.exact.times(2)));
            assert_eq!((&d.passes, &d.compound), (&r.passes, &r.compound), "the compound counts its own travel");
        }
        if let (Some(r), Some(d)) = (&r.passes, &d.passes) {
            assert_eq!((r.count, r.depth), (d.count, d.depth), "depths are a side on either dial");
            for (r, d) in r.cuts.iter().zip(&d.cuts) {
                assert_eq!(d.dial.map(|s| s.shown.value), r.dial.map(|s| s.shown.value.times(2)));
            }
        }
    }
    assert!(seen > 10);
}

#[test]
fn turns_and_divisions_make_up_what_is_shown() {
    for reads in [Reads::Radius, Reads::Diameter] {
        let shop = shop(reads);
        let dial = shop.cross_dial.expect("a dial");
        for cross in operations(&stub_figures(Some(&shop))).filter_map(|o| o.cross_dial) {
            let sum = dial.turn.times(cross.infeed.turns) + dial.division.times(cross.infeed.divisions);
            assert_eq!(sum, cross.infeed.shown.value);
            assert!((sum - cross.infeed.exact).abs().times(2) <= dial.division);
        }
    }
}

#[test]
fn positions_lie_between_the_tailstock_face_and_the_grip() {
    let part = stub();
    let plan = plan(&part);
    let figures = figures_of(&part, &plan, Some(&shop(Reads::Radius)));
    let overall = Length::PER_INCH.times(7);
    let mut seen = 0;
    for (setup, numbers) in plan.setups.iter().zip(&figures.setups) {
        let reach = match (setup.works, &setup.grip) {
            (Some(End::Datum), Some(grip)) => grip.from - Station::DATUM,
            (Some(End::Far), Some(grip)) => grip.to.from_far_end(overall),
            _ => overall,
        };
        for position in numbers.operations.iter().flat_map(|o| &o.positions) {
            assert_eq!(position.from_datum.value + position.from_far_end.value, overall);
            if let Some(carriage) = position.carriage {
                assert!(
                    carriage.value >= Length::ZERO && carriage.value <= reach,
                    "setup {}: {}",
                    setup.number,
                    position.what
                );
                seen += 1;
            }
        }
    }
    assert!(seen > 20);
}

/// A plan with the part turned end for end: every place counted from the other end, the mountings the same.
fn mirrored(plan: &Plan, overall: Length) -> Plan {
    let flip = |at: Option<Station>| at.map(|s| Station(s.from_far_end(overall)));
    let turn = |setup: &Setup| Setup {
        datum_end: match setup.datum_end {
            DatumEnd::Tailstock => DatumEnd::Headstock,
            DatumEnd::Headstock => DatumEnd::Tailstock,
            DatumEnd::Left => DatumEnd::Left,
        },
        works: setup.works.map(End::other),
        zero: match setup.zero {
            Zero::DatumFace => Zero::FarFace,
            Zero::FarFace => Zero::DatumFace,
            other => other,
        },
        operations: setup
            .operations
            .iter()
            .map(|o| Operation { from: flip(o.from), to: flip(o.to), face: flip(o.face), ..o.clone() })
            .collect(),
        ..setup.clone()
    };
    Plan { setups: plan.setups.iter().map(turn).collect(), ..plan.clone() }
}

/// Text of a part from its sections: kind with size, and where each ends in thousandths.
fn described(sections: &[(String, i64)]) -> Vec<u8> {
    let overall = sections.last().map_or(0, |s| s.1);
    let mut text = format!("part: pin\nunits: in\ndatum: end\noverall: {}\nfeatures:\n", thousandths(overall));
    for (kind, to) in sections {
        let _ = write!(text, "  - {kind}\n    to: {}\n", thousandths(*to));
    }
    text.into_bytes()
}

fn thousandths(n: i64) -> String {
    format!("{}.{:03}", n / 1000, n % 1000)
}

/// Thread, relief, seat and head with these lengths and this aim, cut with either end as the datum.
fn both_ways(lengths: [i64; 4], seat: i64) -> ((Vec<u8>, Plan), (Vec<u8>, Plan)) {
    let kinds = [
        "thread: 5/8-18 UNF-2A".to_owned(),
        "relief: 0.545 +0/-0.010".to_owned(),
        format!("turn: {} ±0.002", thousandths(seat)),
        "turn: 1.250".to_owned(),
    ];
    let mut sum = 0;
    let mut one: Vec<(String, i64)> = Vec::new();
    for (kind, long) in kinds.iter().zip(lengths) {
        sum += long;
        one.push((kind.clone(), sum));
    }
    let mut other: Vec<(String, i64)> = Vec::new();
    let mut back = 0;
    for (kind, long) in kinds.iter().zip(lengths).rev() {
        back += long;
        other.push((kind.clone(), back));
    }
    let at = |n: i64| Some(Station(Length::micro_inches(n * 1000)));
    let size = |n: i64| Some(Length::micro_inches(n * 1000));
    let op = |verb, tool, feature, from: i64, to: i64| Operation {
        feature: Some(feature),
        from: at(from),
        to: at(to),
        ..bare(verb, tool)
    };
    let (a, b, c) = (lengths[0], lengths[0] + lengths[1], lengths[0] + lengths[1] + lengths[2]);
    let operations = |map: fn(usize) -> usize| {
        vec![
            Operation {
                from_diameter: size(1_250),
                to_diameter: size(seat + 30),
                face: at(c),
                ..op(Verb::Rough, ToolKind::Roughing, map(2), 0, c - 20)
            },
            Operation {
                from_diameter: size(620),
                to_diameter: size(540),
                ..op(Verb::Groove, ToolKind::Grooving, map(1), a, b)
            },
            op(Verb::Thread, ToolKind::Threading60, map(0), 0, a),
            Operation {
                from_diameter: size(seat + 30),
                to_diameter: size(seat),
                close: true,
                ..op(Verb::Finish, ToolKind::Finishing, map(2), b, c)
            },
        ]
    };
    let overall = Length::micro_inches(sum * 1000);
    let plan = one_setup(End::Datum, operations(|i| i));
    let far = mirrored(&one_setup(End::Datum, operations(|i| 3 - i)), overall);
    ((described(&one), plan), (described(&other), far))
}

fn without_words(figures: &Figures) -> Vec<OperationFigures> {
    operations(figures)
        .map(|o| {
            let mut o = o.clone();
            for p in &mut o.positions {
                std::mem::swap(&mut p.from_datum, &mut p.from_far_end);
            }
            o
        })
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    /// The same part measured from its other end is cut by the same dial readings; only "from datum" and "from far end" change places.
    #[test]
    fn the_datum_may_be_the_other_end(a in 400_i64..2_000, b in 100_i64..400, c in 300_i64..3_000, d in 200_i64..900, seat in 640_i64..1_100) {
        let ((one, plan_one), (other, plan_other)) = both_ways([a, b, c, d], seat);
        let shop = shop(Reads::Radius);
        let first = figures_of(&part(&one), &plan_one, Some(&shop));
        let second = figures_of(&part(&other), &plan_other, Some(&shop));
        for (x, y) in operations(&first).zip(without_words(&second)) {
            // What is the datum face of one is the far face of the other.
            let reading = |p: &Position| Position { zero: None, ..p.clone() };
            let alike = x.positions.iter().map(reading).eq(y.positions.iter().map(reading));
            prop_assert!(alike, "{:?} {:?}", x.positions, y.positions);
            prop_assert_eq!((x.from, x.aim, &x.speed, &x.passes), (y.from, y.aim, &y.speed, &y.passes));
            prop_assert_eq!(x.cross_dial.map(|c| (c.infeed, c.from_zero)), y.cross_dial.map(|c| (c.infeed, c.from_zero)));
            if let (Job::Thread(x), Job::Thread(y)) = (&x.job, &y.job) {
                prop_assert_eq!((&x.passes, x.relief_time, &x.dial), (&y.passes, y.relief_time, &y.dial));
            }
        }
    }

    /// Plunges cut the whole groove and nothing beside it, with as few as there can be.
    #[test]
    fn plunges_cover_the_groove(near in 100_i64..3_000, width in 50_i64..700, tool in 31_i64..140) {
        let own = Shop { tools: shop(Reads::Radius).tools.into_iter().map(|mut t| {
            if t.kind == ToolKind::Grooving { t.width = Some(Length::micro_inches(tool * 1000)); t.reach = None; }
            t
        }).collect(), ..shop(Reads::Radius) };
        let far = near + width;
        let text = described(&[("turn: 1".to_owned(), near), ("relief: 0.5 ±0.01".to_owned(), far), ("turn: 1".to_owned(), far + 500)]);
        let at = |n: i64| Some(Station(Length::micro_inches(n * 1000)));
        let groove = Operation {
            feature: Some(1),
            from: at(near),
            to: at(far),
            from_diameter: Some(Length::PER_INCH),
            to_diameter: Some(Length::PER_INCH.half()),
            ..bare(Verb::Groove, ToolKind::Grooving)
        };
        let figures = figures_of(&part(&text), &one_setup(End::Datum, vec![groove]), Some(&own));
        let rows = &operations(&figures).next().expect("one").positions;
        let thou = |n: i64| Length::micro_inches(n * 1000);
        if tool > width {
            prop_assert!(rows.iter().map(|r| r.edge).eq([Edge::Right, Edge::Left]), "no tool fits: walls only");
        } else {
            prop_assert!(rows.iter().all(|r| r.edge == Edge::Left));
            let least = (width + tool - 1) / tool;
            prop_assert_eq!(i64::try_from(rows.len()), Ok(least));
            let mut reached = thou(near);
            for row in rows {
                let left = row.carriage.expect("carriage").value;
                prop_assert!(left - thou(tool) <= reached && left - thou(tool) >= thou(near), "{:?}", rows);
                reached = left;
            }
            prop_assert_eq!(reached, thou(far));
        }
    }
}

/// An inch part and the same part in millimetres: every exact number agrees.
#[test]
fn inch_and_metric_agree() {
    let inch = b"part: pin\nunits: in\ndatum: end\noverall: 4\nfeatures:\n  - turn: 0.500 +0/-0.002\n    to: 1.5\n  - relief: 0.400 +0.01/-0.01\n    to: 1.75\n  - turn: 1.000\n    to: 4\n";
    let metric = b"part: pin\nunits: mm\ndatum: end\noverall: 101.6\nfeatures:\n  - turn: 12.7 +0/-0.0508\n    to: 38.1\n  - relief: 10.16 +0.254/-0.254\n    to: 44.45\n  - turn: 25.4\n    to: 101.6\n";
    let at = |n: i64| Some(Station(Length::micro_inches(n * 1000)));
    let groove = Operation {
        feature: Some(1),
        from: at(1_500),
        to: at(1_750),
        from_diameter: Some(Length::PER_INCH.half()),
        to_diameter: Some(Length::inch_tenths(4_000)),
        ..bare(Verb::Groove, ToolKind::Grooving)
    };
    let plan = one_setup(End::Datum, vec![groove]);
    let own = shop(Reads::Radius);
    let (a, b) = (figures_of(&part(inch), &plan, Some(&own)), figures_of(&part(metric), &plan, Some(&own)));
    for (x, y) in operations(&a).zip(operations(&b)) {
        let places = |o: &OperationFigures| {
            o.positions.iter().map(|p| (p.from_datum.value, p.carriage.map(|c| c.value))).collect::<Vec<_>>()
        };
        assert_eq!(places(x), places(y));
        assert_eq!(x.cross_dial.map(|c| c.infeed.exact), y.cross_dial.map(|c| c.infeed.exact));
        assert_eq!(x.speed.as_ref().map(|s| s.gear), y.speed.as_ref().map(|s| s.gear));
    }
    let limits = |f: &Figures| f.inspection.iter().map(|r| r.limits.exact).collect::<Vec<_>>();
    assert_eq!(limits(&a), limits(&b));
}
