//! What grips the work: collet, soft jaws, four jaws, mandrel, dividing head, a tailstock set over; each by what the shop has and
//! what the part asks, each with the truth it gives, each refused by name where it is not at hand.

use turnwright::model::part::Holding;
use turnwright::model::plan::{DatumEnd, Setup, Verb, Zero};
use turnwright::model::{Shop, Workholder};
use turnwright::plan::Planned;
use turnwright::unit::{Length, Station};

use crate::planning::believable::{is_holding_error, judged, nothing_else_could};
use crate::planning::generated::believable;
use crate::planning::parts::{self, shop_with, thou};

const PLUG: &str = "part: plug\nunits: in\nmaterial: 1018\nstock: 1.250 x 3.125\ndatum: stem end\noverall: 3.000 ±0.005\n\
tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 0.7500 +0/-0.0005\n    to: 1.250\n    name: stem\n  \
- turn: 1.200\n    to: 1.750\n  - turn: 1.0000 +0/-0.0005\n    to: end\n    name: guide\n    true to: stem within 0.001 TIR\n  \
- center hole: none\n    end: both\n";

const BUSH: &str = "part: bush\nunits: in\nmaterial: 1018\nstock: 2.250 x 2.375\ndatum: flange face\noverall: 2.250 ±0.005\n\
tolerances: {lengths: ±0.005, diameters: ±0.003}\nfeatures:\n  - turn: 2.125\n    to: 0.375\n  - turn: 1.3760 +0.0005/-0\n    \
to: end\n    name: press seat\n    true to: running bore within 0.001 TIR\ninside:\n  - bore: 1.0000 +0.0008/-0\n    \
end: through\n    name: running bore\n";

const KEY: &str = "part: key\nunits: in\nmaterial: 1018\nstock: 1.000 x 9.125\ndatum: square end\noverall: 9.000 ±0.010\n\
tolerances: {lengths: ±0.010, diameters: ±0.003}\nfeatures:\n  - turn: 0.700\n    to: 1.000\n  - turn: 0.875 +0/-0.001\n    \
to: 3.500\n    name: grip\n  - taper: 0.500 per foot\n    to: end\n    large: 0.750\n  - square: 0.500 +0/-0.003\n    \
from: 0\n    to: 0.750\n";

fn planned(text: &str, shop: &Shop) -> Planned {
    let (p, findings) = judged(text, Some(shop)).expect("a plan");
    assert_eq!(p.certificate.verify(), Ok(()));
    assert!(p.plan.proven_optimal);
    assert!(findings.iter().all(|f| f.check != "seats-two-setups"), "{findings:?}");
    p
}

fn of<'a>(p: &'a Planned, verb: Verb, letter: &str) -> &'a Setup {
    let id = format!("{}-{letter}", verb.word());
    p.plan.operations().find(|(_, o)| o.id == id).unwrap_or_else(|| panic!("no {id}")).0
}

#[test]
fn a_finished_seat_is_held_true_by_the_best_the_shop_has() {
    // The stem is .7498 when the guide is turned: a 3/4 in collet closes on it.
    for (more, by, name, runs) in [
        (
            "collets: [1/2, 3/4, 1]\ncollet runout: 0.0005\nsoft jaws: yes",
            Workholder::Collet(thou(750)),
            "collet, far end out, on A",
            500,
        ),
        ("collets: [1/2]\nsoft jaws: yes", Workholder::SoftJaws, "soft jaws, far end out, on A", 500),
        // A collet that runs out more than is asked is passed over.
        (
            "collets: [3/4]\ncollet runout: 0.002\nsoft jaws: yes",
            Workholder::SoftJaws,
            "soft jaws, far end out, on A",
            500,
        ),
        ("soft jaws: no", Workholder::FourJaw, "4-jaw chuck, far end out, on A", 500),
    ] {
        let p = planned(PLUG, &shop_with(more));
        let setup = of(&p, Verb::Finish, "C");
        assert_eq!((setup.by, setup.name.as_str()), (by, name), "{more}");
        assert_eq!(setup.runs_true, Some(Length::micro_inches(runs)), "{more}");
        let grip = setup.grip.as_ref().expect("held");
        assert_eq!(grip.protect, !by.spares(), "copper under hard jaws alone");
        assert!(grip.to <= Station(thou(1250)) && setup.stick_out.is_some());
        let told = &setup.why[0];
        assert!(
            told.rule == "workholder" && told.reason.contains("guide must run true to stem within .001"),
            "{told:?}"
        );
    }
}

#[test]
fn without_anything_true_the_check_tells() {
    let mut bare = parts::shop();
    bare.chucks.retain(|c| c.jaws == 3);
    let (p, findings) = judged(PLUG, Some(&bare)).expect("a plan");
    assert!(p.plan.setups.iter().all(|s| s.by == Workholder::Usual));
    assert!(findings.iter().any(|f| f.check == "seats-two-setups"));
}

#[test]
fn four_jaws_where_three_do_not_reach() {
    // A bar of 7 in is more than the 6 in three-jaw chuck takes.
    let text = PLUG.replace("1.250 x 3.125", "7.000 x 3.125").replace("turn: 1.200", "turn: 6.900");
    let (p, _) = judged(&text, Some(&parts::shop())).expect("a plan");
    assert!(p.plan.setups.iter().any(|s| s.by == Workholder::FourJaw && s.held() == "4-jaw chuck"));
}

#[test]
fn what_must_be_true_to_a_bore_is_turned_on_a_mandrel() {
    let with = shop_with("mandrels: [0.750, 1.000]");
    let p = planned(BUSH, &with);
    let setup = of(&p, Verb::Finish, "B");
    assert_eq!((setup.holding, setup.held().as_str()), (Holding::Mandrel, "mandrel between centers"));
    assert!(matches!(setup.by, Workholder::Mandrel(size, _) if size == thou(1000)));
    assert_eq!((setup.zero, setup.datum_end), (Zero::FacedToOverall, DatumEnd::Headstock));
    let bored = of(&p, Verb::Bore, "C");
    assert!(bored.number < setup.number, "the bore comes before the mandrel");
    // No center is drilled where a bore goes through.
    assert!(p.plan.operations().all(|(_, o)| o.verb != Verb::Center));
    // Without one of its size the outside is held true another way: four jaws, indicated.
    let p = planned(BUSH, &shop_with("mandrels: [0.750]"));
    assert!(p.plan.setups.iter().all(|s| s.holding != Holding::Mandrel));
}

#[test]
fn a_long_taper_is_turned_with_the_tailstock_set_over_after_the_cylinders() {
    let p = planned(KEY, &parts::shop());
    let setup = of(&p, Verb::Taper, "C");
    // .5 per foot over 5.5 in: .1146 a side, over the whole 9 in.
    let Workholder::SetOver(by) = setup.by else { panic!("{:?}", setup.by) };
    assert!((by - Length::micro_inches(187_500)).abs() < Length::micro_inches(1), "{by:?}");
    assert_eq!(setup.holding, Holding::BetweenCenters);
    assert!(setup.operations.iter().all(|o| matches!(o.verb, Verb::Taper | Verb::Chamfer)));
    assert!(of(&p, Verb::Finish, "B").number < setup.number);
    // With an attachment the tailstock stays where it is.
    let mut with = parts::shop();
    with.taper_attachment = Some(true);
    let (p, _) = judged(KEY, Some(&with)).expect("a plan");
    assert!(p.plan.setups.iter().all(|s| !matches!(s.by, Workholder::SetOver(_))));
}

#[test]
fn a_square_is_indexed_in_the_dividing_head() {
    let p = planned(KEY, &shop_with("dividing head: {ratio: 40, circles: [15, 18, 20]}"));
    let setup = of(&p, Verb::Mill, "D");
    assert_eq!((setup.by, setup.held().as_str()), (Workholder::DividingHead, "dividing head on the mill"));
    assert_eq!(setup.datum_end, DatumEnd::Tailstock, "the square stands toward the footstock");
    let (p, _) = judged(KEY, Some(&parts::shop())).expect("a plan");
    assert_eq!(of(&p, Verb::Mill, "D").by, Workholder::Usual);
}

#[test]
fn wishes_for_a_workholder_are_followed_or_refused_by_name() {
    let wish = |text: &str, word: &str| format!("{text}plan: {{holding: {word}}}\n");
    let p = planned(&wish(PLUG, "4-jaw chuck"), &shop_with("collets: [3/4]"));
    assert!(p.plan.setups.iter().filter(|s| s.holding == Holding::Chuck).all(|s| s.by == Workholder::FourJaw));
    assert!(p.derived.unheeded.is_empty());
    for (word, against) in
        [("collet", "no collet for"), ("soft jaws", "no soft jaws"), ("mandrel", "no bore runs through")]
    {
        let (p, _) = judged(&wish(PLUG, word), Some(&parts::shop())).expect("a plan");
        let told: Vec<&str> = p.derived.unheeded.iter().map(|u| u.why.reason.as_str()).collect();
        assert!(told.iter().any(|t| t.contains(against)), "{word}: {told:?}");
    }
}

/// Random parts in a shop that has everything: plans verify, jaws and collets hold what is there, and no error of holding comes of
/// having more to hold with.
#[test]
fn a_full_shop_holds_random_parts_no_worse() {
    let full = shop_with(
        "collets: [1/4, 3/8, 1/2, 5/8, 3/4, 7/8, 1]\ncollet runout: 0.0005\nsoft jaws: yes\nmandrels: [0.5, 0.75, 1]\n\
         dividing head: {ratio: 40, circles: [15, 18, 20]}",
    );
    let mut used = std::collections::BTreeSet::new();
    for seed in 0..40 {
        let g = believable(seed);
        let (p, findings) = judged(&g.text, Some(&full)).unwrap_or_else(|e| panic!("seed {seed}: {e:?}"));
        assert_eq!(p.certificate.verify(), Ok(()), "seed {seed}");
        for finding in findings.iter().filter(|f| is_holding_error(f)) {
            assert!(nothing_else_could(&g, finding), "seed {seed}: {}\n{}", finding.message, g.text);
        }
        for setup in &p.plan.setups {
            if let (Workholder::Collet(size), Some(grip)) = (setup.by, &setup.grip) {
                assert!((size - grip.diameter).abs() <= thou(5), "seed {seed}: {}", setup.name);
            }
            assert!(!setup.by.spares() || setup.grip.as_ref().is_some_and(|g| !g.protect), "seed {seed}");
            used.insert(setup.held());
        }
    }
    assert!(used.len() >= 4, "{used:?}");
}

/// A finished body that does not pass the spindle is not held near its free end: the rest of it would have nowhere to go. The seat at
/// the headstock end is held, and a steady rest carries the body.
#[test]
fn what_does_not_pass_the_spindle_is_held_at_its_end() {
    let roll = |body: &str, bar: &str| {
        format!(
            "part: roll\nunits: in\nmaterial: 1045 cold drawn\nstock: {bar} x 24.125\ndatum: driven end\noverall: 24.000 ±0.015\n\
             tolerances: {{lengths: ±0.010, diameters: ±0.003}}\nfeatures:\n  - turn: 1.0000 +0/-0.0008\n    to: 2.500\n    name: drive seat\n  \
             - turn: {body} ±0.005\n    to: 21.500\n  - turn: 0.9995 +0/-0.0005\n    to: end\n  - center hole: none\n    end: far\n"
        )
    };
    // The spindle of the sample shop takes 1.375.
    for (body, bar, passes) in [("1.1875", "1.250", true), ("1.4375", "1.500", false)] {
        let (p, _) = judged(&roll(body, bar), Some(&shop_with(""))).expect("a plan");
        let setup = of(&p, Verb::Finish, "C");
        let grip = setup.grip.as_ref().expect("a grip");
        let on_the_seat = grip.to.0 <= thou(2_500);
        assert!(passes || on_the_seat, "{body}: {} leaves the body in the spindle", setup.name);
        assert_eq!(setup.rest.is_some(), !passes, "{body}: {}", setup.name);
    }
}
