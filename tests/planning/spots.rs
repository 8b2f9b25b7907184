//! A steady rest does not run on scale: a spot is turned true for it first, on a rough center (R15, US Army TC 9-524: the rest wants a spot that
//! is round and true). How that is done, and what is left alone: common practice, no source, unless a test names one.

use turnwright::figures::{self, Job};
use turnwright::model::part::Holding;
use turnwright::model::plan::{Operation, Setup, Verb};
use turnwright::plan::Planned;

use crate::planning::parts::{self, thou};
use crate::planning::{derived, found, number, plan_of};

/// Too thick for the spindle (1.375 in the sample shop), too long for the chuck alone, a socket in one end.
const ROLL: &str = include_str!("../figures/parts/inch-rolled-roll.yaml");

fn spots(p: &Planned) -> Vec<(&Setup, &Operation)> {
    p.plan.operations().filter(|(_, o)| o.is_spot()).collect()
}

fn on_the_bar(p: &Planned) -> Vec<&Setup> {
    let steady = |s: &&Setup| s.rest.as_ref().is_some_and(|r| !r.follows && r.letter.is_empty());
    p.plan.setups.iter().filter(steady).collect()
}

#[test]
fn a_spot_is_turned_before_the_rest_runs_on_scale() {
    let p = plan_of(ROLL);
    assert!(p.plan.proven_optimal);
    assert_eq!(p.certificate.verify(), Ok(()));
    assert_eq!((spots(&p).len(), on_the_bar(&p).len()), (2, 2));
    for end in ["datum", "far"] {
        let (rough, spot, face) = (format!("rough-center-{end}"), format!("turn-spot-{end}"), format!("face-{end}"));
        assert!(number(&p, &rough) < number(&p, &spot) && number(&p, &spot) < number(&p, &face), "{end}");
        let (bench, center) = found(&p, &rough);
        assert_eq!(bench.holding, Holding::Bench);
        let (held, turned) = found(&p, &spot);
        assert_eq!((held.holding, held.operations.len()), (Holding::ChuckAndCenter, 1), "nothing else runs on it");
        // The rest is set on it without unchucking.
        let rested = found(&p, &face).0;
        assert_eq!((rested.number, &rested.grip), (held.number + 1, &held.grip));
        let rest = rested.rest.as_ref().expect("a rest");
        assert!(turned.carries(rest) && Some(rest.diameter) == turned.to_diameter, "{rest:?} {turned:?}");
        // A thirty-second a side clears the scale (the check stock-scale); B is roughed to 2.280.
        assert_eq!(turned.to_diameter, Some(thou(2437)));
        assert!(turned.limits.is_some_and(|l| l.min > thou(2280)));
        // The hole is no larger than the true one that is cut over it.
        assert!(center.to_diameter.is_some_and(|mouth| mouth <= thou(266)), "{center:?}");
    }
    // The sawn end stands an eighth over the datum face: the carriage counts from it.
    let part = parts::part(ROLL);
    let chain = turnwright::chain::locate(&part);
    let profile = turnwright::chain::Profile::of(&part, &chain);
    let worked = figures::work(&part, &chain, &profile, &p.plan, Some(&parts::shop()));
    let of = |id: &str| {
        let n = number(&p, id);
        worked.setups.iter().flat_map(|s| &s.operations).find(|o| o.number == n).expect("figures")
    };
    let read: Vec<_> =
        of("turn-spot-datum").positions.iter().map(|p| (p.from_datum.value, p.carriage.map(|c| c.value))).collect();
    assert_eq!(read, [(thou(2625), Some(thou(2750))), (thou(3625), Some(thou(3750)))]);
    let Job::Center(layout) = &of("rough-center-far").job else { panic!("a center") };
    assert_eq!(layout.odd_legs.map(|l| l.value), Some(thou(1250)), "half of the bar");
    // It is in no chain of lengths.
    let chart =
        turnwright::chain::chart::of_plan(&part, &chain, &profile, &p.plan, Some(&parts::shop())).expect("a chart");
    assert!(chart.chart.cuts.iter().all(|c| spots(&p).iter().all(|(_, o)| o.number != c.op)));
}

/// Cold-drawn bar is round and smooth enough; the words say what to do where it is not.
#[test]
fn no_spot_on_cold_drawn_bar() {
    let p = plan_of(&ROLL.replace("hot rolled", "cold drawn"));
    assert!(spots(&p).is_empty() && !on_the_bar(&p).is_empty());
    let told =
        on_the_bar(&p).iter().all(|s| s.why.iter().any(|w| w.rule == "R15" && w.reason.contains("turn a spot true")));
    assert!(told);
}

/// Where the bar's own surface stays, where no metal is left for a light cut, or where the rough center would stay in the part, the spot is advised.
#[test]
fn a_spot_without_room_is_advised() {
    for (what, text) in [
        ("no metal", ROLL.replace("turn: 2.250", "turn: 2.450")),
        (
            "no center allowed",
            ROLL.replace("inside:", "  - center hole: none\n    end: datum\ninside:")
                .replace("bore: 1.0000 +0.001/-0", "bore: 0.1250"),
        ),
    ] {
        let p = plan_of(&text);
        assert!(p.plan.operations().all(|(_, o)| !o.is_spot() || o.end.is_some_and(|e| e.word() == "far")), "{what}");
        let advised = on_the_bar(&p)
            .iter()
            .any(|s| s.why.iter().any(|w| w.reason.contains("turn a spot true for it first, by light cuts")));
        assert!(advised, "{what}: {:?}", p.plan.setups.iter().map(|s| &s.name).collect::<Vec<_>>());
    }
}

/// What keeps the bar's surface gets no spot: the rest runs on a sleeve with screws, set true over it, a cat head (common practice, no source).
#[test]
fn kept_surface_is_carried_by_a_sleeve() {
    for (bar, word) in [("hot rolled", "a cat head"), ("cold drawn", "where that is not round")] {
        let p = plan_of(&ROLL.replace("turn: 2.250", "turn: stock").replace("hot rolled", bar));
        assert!(spots(&p).is_empty());
        let rests = p.plan.setups.iter().filter(|s| s.rest.as_ref().is_some_and(|r| r.letter == "B"));
        let all: Vec<bool> = rests.map(|s| s.why.iter().any(|w| w.rule == "R15" && w.reason.contains(word))).collect();
        assert!(!all.is_empty() && all.iter().all(|told| *told), "{bar}: {all:?}");
    }
}

/// A bore wide enough takes what facing leaves of the rough center, where no true one may be.
#[test]
fn a_bore_takes_the_rough_center() {
    let text = ROLL.replace("inside:", "  - center hole: none\n    end: datum\ninside:");
    let p = plan_of(&text);
    let (_, rough) = found(&p, "rough-center-datum");
    assert!(rough.to_diameter.is_some_and(|mouth| mouth < thou(1000)));
    assert!(
        p.plan.operations().any(|(_, o)| o.verb == Verb::Bore)
            && p.plan.operations().all(|(_, o)| o.id != "center-datum")
    );
}

/// The rest in which the socket of the roll is bored runs on B, whose far part is slotted or grooved: on what is whole of it.
#[test]
fn a_rest_runs_beside_what_breaks_the_surface() {
    let base = ROLL.replace("hot rolled", "cold drawn");
    for (what, feature, taken) in [
        ("a groove", "  - groove: 2.100\n    from: 3.500\n    wide: 0.125\n", (3500, 3625)),
        ("a cross hole", "  - cross hole: 0.250\n    at: 3.500\n", (3375, 3625)),
        ("a keyseat", "  - keyseat: 1/4 x 1/4 x 1\n    from: 3.250\n", (3250, 4250)),
    ] {
        let p = plan_of(&base.replace("inside:", &format!("{feature}inside:")));
        let rests: Vec<_> = p.plan.setups.iter().filter_map(|s| s.rest.as_ref()).filter(|r| r.letter == "B").collect();
        assert!(!rests.is_empty(), "{what}");
        for r in rests {
            assert!(r.to.0 <= thou(taken.0) || r.from.0 >= thou(taken.1), "{what}: {r:?}");
        }
    }
    // No room beside it: no rest on that section.
    let groove = |i: i32| format!("  - groove: 2.100\n    from: {:.3}\n    wide: 0.125\n", 3.1 + 0.6 * f64::from(i));
    let full = (0..23).map(groove).collect::<Vec<_>>().concat();
    let p = derived(&parts::part(&base.replace("inside:", &format!("{full}inside:"))));
    assert!(p.mountings.iter().filter_map(|m| m.rest.as_ref()).all(|r| r.letter != "B"));
}
