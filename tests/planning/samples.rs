//! The three sample parts as the trade notes plan them by hand (TRADE §10 and §11, and the sheet drawn from them): which
//! setups, which diameters, how far. The order of seats and threads follows the checks instead (order-thread-seat).

use turnwright::model::part::Holding;
use turnwright::model::plan::{DatumEnd, State, Zero};
use turnwright::plan::Planned;
use turnwright::unit::{Length, Station};

use crate::planning::{found, number, parts, plan_of};

/// Thousandths of an inch.
fn thou(n: i64) -> Length {
    Length::micro_inches(n * 1000)
}

fn tenths(n: i64) -> Length {
    Length::inch_tenths(n)
}

fn names(p: &Planned) -> Vec<&str> {
    p.plan.setups.iter().map(|s| s.name.as_str()).collect()
}

fn proven(p: &Planned) {
    assert!(p.plan.proven_optimal, "not proven");
    assert_eq!(p.certificate.verify(), Ok(()));
    let numbers: Vec<u32> = p.plan.operations().map(|(_, o)| o.number).collect();
    assert_eq!(numbers, (1..=numbers.len() as u32).map(|n| n * 10).collect::<Vec<_>>());
    for (setup, operation) in p.plan.operations() {
        assert!(!operation.why.is_empty(), "{} has no reason", operation.id);
        assert!(operation.why.iter().all(|w| !w.reason.is_empty() && !w.source.is_empty()), "{}", operation.id);
        assert!(operation.minutes > 0.0, "{}", operation.id);
        assert!(!setup.why.is_empty(), "{} has no reason", setup.name);
    }
}

#[test]
fn stub_setups_are_the_hand_worked_six() {
    let p = plan_of(parts::STUB);
    proven(&p);
    assert_eq!(
        names(&p),
        [
            "chuck, datum end out",
            "chuck, far end out",
            "between centers, datum end at tailstock",
            "between centers, datum end at headstock, dog on C",
            "mill vise or V-blocks",
            "bench",
        ]
    );
    let [face, turned_round, third, fourth, ..] = p.plan.setups.as_slice() else { panic!("six setups") };
    let ids = |s: &turnwright::model::Setup| s.operations.iter().map(|o| o.id.clone()).collect::<Vec<_>>();
    assert_eq!(ids(face), ["face-datum", "center-datum"]);
    assert_eq!(ids(turned_round), ["face-far", "center-far"]);
    assert_eq!((face.zero, turned_round.zero), (Zero::DatumFace, Zero::FacedToOverall));
    assert_eq!((third.zero, fourth.zero), (Zero::DatumFace, Zero::FarFace));
    assert_eq!((third.datum_end, fourth.datum_end), (DatumEnd::Tailstock, DatumEnd::Headstock));
    // The dog covers .600 of the bar in setup 3, and sits on the pulley seat over copper in setup 4.
    let dog = third.grip.as_ref().expect("a dog");
    assert_eq!((dog.from, dog.to, dog.protect), (Station(thou(6400)), Station(thou(7000)), false));
    let dog = fourth.grip.as_ref().expect("a dog");
    assert_eq!((dog.letter.as_str(), dog.protect, dog.diameter), ("C", true, tenths(8743)));
}

#[test]
fn stub_diameters_and_lengths_are_the_hand_worked_ones() {
    let p = plan_of(parts::STUB);
    // id, from diameter, to diameter (ten-thousandths), stops at, finished face (thousandths from the datum)
    let rows: &[(&str, i64, i64, i64, Option<i64>)] = &[
        ("rough-C", 12_500, 9_040, 3_230, Some(3_250)),
        ("rough-A", 9_040, 6_500, 980, Some(1_000)),
        ("finish-A", 6_500, 6_200, 1_000, None),
        ("groove-B", 6_200, 5_400, 1_000, None),
        ("finish-C", 9_040, 8_743, 3_250, None),
        ("rough-E", 12_500, 10_900, 3_670, Some(3_650)),
        ("rough-F", 10_900, 8_180, 3_770, Some(3_750)),
        ("rough-H", 8_180, 7_000, 6_020, Some(6_000)),
        ("rough-K", 7_000, 5_260, 6_520, Some(6_500)),
        ("finish-E", 10_900, 10_600, 3_650, None),
        ("finish-G", 8_180, 7_700, 4_350, None),
        ("finish-K", 5_260, 4_960, 6_500, None),
        ("groove-J", 4_960, 4_200, 6_500, None),
        ("finish-F", 8_180, 7_877, 3_750, None),
        ("finish-H", 7_000, 6_695, 6_000, None),
    ];
    for (id, from, to, stop, face) in rows {
        let (_, o) = found(&p, id);
        assert_eq!(o.from_diameter, Some(tenths(*from)), "{id} from");
        assert_eq!(o.to_diameter, Some(tenths(*to)), "{id} to");
        assert_eq!(o.to, Some(Station(thou(*stop))), "{id} stops");
        assert_eq!(o.face, face.map(|f| Station(thou(f))), "{id} face");
    }
    let close: Vec<&str> = p.plan.operations().filter(|(_, o)| o.close).map(|(_, o)| o.id.as_str()).collect();
    assert_eq!(close, ["finish-C", "finish-F", "finish-H"]);
    let g = found(&p, "rough-F").1.with.clone();
    assert_eq!(g, [6], "F is roughed with G");
}

#[test]
fn stub_order_keeps_the_rules() {
    let p = plan_of(parts::STUB);
    let before = |a: &str, b: &str| assert!(number(&p, a) < number(&p, b), "{a} before {b}");
    before("rough-C", "rough-A");
    before("groove-B", "thread-A");
    before("chamfer-datum", "thread-A");
    before("groove-B", "finish-C");
    before("finish-C", "thread-A");
    before("finish-C", "polish-C");
    before("polish-C", "mill-L");
    before("finish-F", "thread-K");
    before("finish-H", "thread-K");
    before("mill-L", "deburr");
    before("deburr", "fit-test");
    before("fit-test", "inspect");
    let reason = |id: &str, rule: &str| {
        assert!(found(&p, id).1.why.iter().any(|w| w.rule == rule), "{id}: {:?}", found(&p, id).1.why);
    };
    reason("thread-A", "R9");
    reason("thread-A", "order-thread-seat");
    reason("finish-C", "R5");
    reason("mill-L", "order-polish-keyseat");
    reason("rough-A", "R20");
    assert!(p.plan.setups[2].why.iter().any(|w| w.rule == "R18"));
}

#[test]
fn stub_shapes_follow_the_cuts() {
    let p = plan_of(parts::STUB);
    let first = p.plan.setups.first().expect("setups");
    let whole: Length = first.before.iter().map(|s| s.to - s.from).sum();
    assert_eq!(whole, thou(7125), "the sawn bar");
    let end = &p.plan.setups.last().expect("setups").after;
    let ends: Vec<(i64, i64)> = end
        .iter()
        .map(|s| ((s.to.0.inches() * 1000.0).round() as i64, (s.diameter.inches() * 1e4).round() as i64))
        .collect();
    assert_eq!(
        ends,
        [
            (850, 6200),
            (1000, 5400),
            (3250, 8743),
            (3650, 12_500),
            (3750, 10_600),
            (4350, 7877),
            (6000, 7700),
            (6500, 6695),
            (6620, 4200),
            (7000, 4960),
        ]
    );
    assert_eq!(end[0].state, State::Threaded);
    assert!(end.iter().all(|s| matches!(s.state, State::Finished | State::Threaded) && s.feature.is_some()));
}

#[test]
fn idler_runs_between_centers() {
    let p = plan_of(parts::IDLER);
    proven(&p);
    let holdings: Vec<Holding> = p.plan.setups.iter().map(|s| s.holding).collect();
    let expected = [Holding::Chuck, Holding::Chuck, Holding::BetweenCenters, Holding::BetweenCenters, Holding::Bench];
    assert_eq!(holdings, expected);
    for (id, to) in [("rough-A", 10_300), ("finish-A", 10_000), ("groove-D", 9_400), ("groove-E", 9_400)] {
        assert_eq!(found(&p, id).1.to_diameter, Some(tenths(to)), "{id}");
    }
    // The ring groove is cut before the seat's last cuts, which take its burr away; the body's own surface is held over copper.
    assert!(number(&p, "groove-D") < number(&p, "finish-A"));
    assert!(found(&p, "finish-A").1.why.iter().any(|w| w.rule == "last-cut-takes-burr"));
    let dog = found(&p, "finish-C").0.grip.as_ref().expect("a dog");
    assert_eq!((dog.letter.as_str(), dog.protect), ("B", true));
}

#[test]
fn stud_is_made_in_the_chuck_and_on_one_center() {
    let p = plan_of(parts::STUD);
    proven(&p);
    assert_eq!(
        names(&p),
        [
            "chuck, datum end out",
            "chuck, far end out",
            "chuck and center, far end at tailstock",
            "chuck, datum end out, on D",
            "bench",
        ]
    );
    // The shank's .618 to .620 lies inside the thread's major limits: one cut makes both.
    let (_, finish) = found(&p, "finish-D");
    assert_eq!((finish.to_diameter, finish.with.as_slice()), (Some(tenths(6190)), &[4][..]));
    assert_eq!(finish.limits.map(|l| (l.min, l.max)), Some((thou(618), thou(620))));
    assert_eq!(found(&p, "thread-E").1.from_diameter, Some(tenths(6190)));
    assert_eq!(found(&p, "groove-B").1.to_diameter, Some(thou(485)));
    assert_eq!(found(&p, "finish-A").1.to_diameter, Some(thou(620)));
    // Never the thread, and not the collar: a quarter of an inch is too short to hold.
    let grip = found(&p, "thread-A").0.grip.as_ref().expect("jaws");
    assert_eq!((grip.letter.as_str(), grip.protect), ("D", true));
    assert!(p.plan.setups.iter().all(|s| s.stick_out.is_none() || s.holding != Holding::Chuck || {
        let (out, grip) = (s.stick_out.expect("checked"), s.grip.as_ref().expect("jaws"));
        out <= grip.diameter.times(3)
    }));
}

#[test]
fn without_a_shop_file_the_same_setups_and_what_was_assumed() {
    let read = turnwright::read::part("p", include_bytes!("../../samples/pulley-stub-no-shop.yaml"));
    let part = read.part.expect("a part");
    let chain = turnwright::chain::locate(&part);
    let profile = turnwright::chain::Profile::of(&part, &chain);
    let bare = turnwright::plan::plan(&part, &chain, &profile, None, 10).expect("a plan");
    proven(&bare);
    assert_eq!(names(&bare), names(&plan_of(parts::STUB)));
    let assumed: Vec<&str> = bare.plan.assumed.iter().map(|a| a.what.as_str()).collect();
    for what in ["Finish allowance", "Face allowance", "Minutes", "Jaws", "Dog"] {
        assert!(assumed.contains(&what), "{what}: {assumed:?}");
    }
    let with: Vec<String> = plan_of(parts::STUB).plan.assumed.into_iter().map(|a| a.what).collect();
    assert!(
        !with.iter().any(|w| ["Minutes", "Jaws", "Dog"].contains(&w.as_str())),
        "the shop file says these: {with:?}"
    );
}

/// With an allowance for polishing the tool leaves it, and its limits move with it; the strip brings the section to size.
#[test]
fn an_allowance_for_polishing_is_left_by_the_tool() {
    let p = crate::planning::planned(&parts::with(parts::STUB, "polish allowance: 0.0004"));
    let (turned, polished) = (found(&p, "finish-C").1, found(&p, "polish-C").1);
    assert_eq!((turned.to_diameter, polished.to_diameter), (Some(tenths(8_747)), Some(tenths(8_743))));
    let (over, sized) = (turned.limits.expect("limits"), polished.limits.expect("limits"));
    assert_eq!((over.min - sized.min, over.max - sized.max), (tenths(4), tenths(4)));
}
