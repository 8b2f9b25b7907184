//! Bars with corners: what jaws close on, what the tool meets, what may carry the work (geometry and common practice).

use turnwright::model::Workholder;
use turnwright::model::plan::Verb;
use turnwright::unit::{Length, Unit};

use crate::planning::believable::judged;

const HEAD: &str = "part: bolt\nunits: in\nmaterial: 1018\nstock: hex 1 x 3.625\ndatum: head\noverall: 3.500 ±0.010\n\
tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: stock\n    to: 0.750\n  - turn: 0.750\n    to: end\n";

#[test]
fn a_hexagon_is_held_on_its_flats_and_cut_from_its_corners() {
    let (p, _) = judged(HEAD, None).expect("a plan");
    let (setup, rough) = p.plan.operations().find(|(_, o)| o.verb == Verb::Rough).expect("roughing");
    let corners = rough.from_diameter.expect("known").to_f64(Unit::Inch);
    assert!((corners - 2.0 / 3f64.sqrt()).abs() < 0.0001, "{corners}");
    assert!(rough.why.iter().any(|w| w.reason.contains("corners") && w.reason.contains("1.000")), "{:?}", rough.why);
    assert_eq!(setup.grip.as_ref().expect("a grip").diameter, Length::PER_INCH);
    assert_eq!(setup.by, Workholder::Usual);
}

#[test]
fn a_square_goes_in_four_jaws_on_its_own_surface_and_on_the_bar() {
    let text = HEAD.replace("hex 1", "square 1");
    let (p, _) = judged(&text, None).expect("a plan");
    for setup in p.plan.setups.iter().filter(|s| s.works.is_some() && s.grip.is_some()) {
        let on_flats = setup.grip.as_ref().is_some_and(|g| g.diameter == Length::PER_INCH);
        assert!(!on_flats || setup.by == Workholder::FourJaw || setup.held().contains("centers"), "{}", setup.name);
    }
}

#[test]
fn a_steady_rest_never_runs_on_flats() {
    let text = HEAD
        .replace("x 3.625", "x 15.125")
        .replace("3.500", "15.000")
        .replace("0.750\n  - turn: 0.750\n    to: end", "14.000\n  - turn: 0.750\n    to: end");
    let shop = turnwright::read::shop(
        "shop.yaml",
        b"units: in\nrests: [{rest: steady, smallest: 0.25, largest: 3}]\nspindle bore: 0.5\n",
    );
    let (p, _) = judged(&text, shop.shop.as_ref()).expect("a plan");
    assert!(
        p.plan.setups.iter().all(|s| s.rest.is_none()),
        "{:?}",
        p.plan.setups.iter().map(|s| &s.name).collect::<Vec<_>>()
    );
}
