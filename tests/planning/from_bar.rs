//! Flanged bushings from bar, the trade's way: the bar stands out of the chuck by the whole part, which is faced, drilled, bored and
//! turned in one holding, flange and all, and parted off; turned round, it is held by the barrel and the flange is faced to length.
//! Common practice, no source: what must run true together is cut in one holding (Huang, Zhang and Oldham, "Tolerance analysis for
//! setup planning", by its abstract: tightly related surfaces go into one setup). The sums of bar are by hand.

use turnwright::model::End;
use turnwright::model::part::Holding;
use turnwright::model::plan::{Operation, Setup, Verb, Zero};
use turnwright::plan::Planned;
use turnwright::unit::{Length, Station};

use super::{found, parts, plan_of, try_plan};

/// Barrel 1.250 and flange 1.750, bored 1.000, 1.875 long.
fn bushing(stock: &str, flange: &str, at_datum: bool, more: &str) -> String {
    let sections = if at_datum {
        format!("- {{turn: 1.750, to: {flange}, name: flange}}\n- {{turn: 1.2494..1.2500, to: 1.875, name: barrel}}\n")
    } else {
        let shoulder = 1.875 - flange.parse::<f64>().unwrap_or(0.0);
        format!(
            "- {{turn: 1.2494..1.2500, to: {shoulder:.3}, name: barrel}}\n- {{turn: 1.750, to: 1.875, name: flange}}\n"
        )
    };
    format!(
        "part: flanged bushing\nunits: in\nmaterial: SAE 660 bronze\nstock: {stock}\ndatum: one end\noverall: 1.875 ±0.005\n\
         tolerances: {{lengths: ±0.005, diameters: ±0.005}}\nfeatures:\n{sections}inside:\n\
         - {{bore: 1.0000..1.0008, end: through}}\n{more}"
    )
}

fn works(setup: &Setup, verb: Verb) -> Vec<&Operation> {
    setup.operations.iter().filter(|o| o.verb == verb).collect()
}

/// All of it in the first holding, on bar, the barrel's end out; then held by the barrel.
fn is_the_trades_way(p: &Planned, out: End) {
    let [first, second, bench] = p.plan.setups.as_slice() else { panic!("{} setups", p.plan.setups.len()) };
    assert_eq!((first.holding, first.works), (Holding::Chuck, Some(out)));
    assert!(first.operations.iter().any(|o| o.inside && o.close), "the bore is not in the first holding");
    for letter in ["A", "B"] {
        assert!(first.operations.iter().any(|o| o.id.ends_with(&format!("finish-{letter}"))), "{letter}");
    }
    assert_eq!(first.operations.last().map(|o| o.verb), Some(Verb::PartOff), "parted off last");
    assert_eq!(second.works, Some(out.other()));
    let barrel = if out == End::Far { "B" } else { "A" };
    assert_eq!(second.grip.as_ref().map(|g| g.letter.as_str()), Some(barrel));
    assert_eq!(works(second, Verb::Face).len(), 1);
    assert!(p.plan.faces_to_overall(works(second, Verb::Face)[0]), "the end parted off is faced to length");
    assert!(!p.plan.faces_to_overall(works(first, Verb::Face)[0]), "the first face is only cleaned");
    assert_eq!(bench.works, None);
    assert!(p.plan.proven_optimal);
    for setup in [first, second] {
        assert!(setup.why.iter().all(|w| w.rule != "grip-short"), "{:?}", setup.why);
    }
}

#[test]
fn from_bar_the_flange_is_at_the_jaws_whichever_end_it_is() {
    for flange in [".125", ".500"] {
        is_the_trades_way(&plan_of(&bushing("2 x 3.5", flange, true, "")), End::Far);
        is_the_trades_way(&plan_of(&bushing("2 x 3.5", flange, false, "")), End::Datum);
    }
}

#[test]
fn in_millimetres_too() {
    let mm = "part: flanged bushing\nunits: mm\nmaterial: CuSn12\nstock: 50 x 90\ndatum: flange end\noverall: 48 ±0.1\n\
         tolerances: ISO 2768-m\nfeatures:\n- {turn: 45, to: 4, name: flange}\n- {turn: 31.984..32.000, to: 48, name: barrel}\n\
         inside:\n- {bore: 25.000..25.021, end: through}\n";
    is_the_trades_way(&plan_of(mm), End::Far);
}

/// The lengths count from the fresh far face, since there is no datum face yet: nothing is corrected by an overall.
#[test]
fn the_zero_is_the_face_that_was_cut() {
    let p = plan_of(&bushing("2 x 3.5", ".125", true, ""));
    let (first, part_off) = found(&p, "part-off");
    assert_eq!(first.zero, Zero::FarFace);
    assert!(first.faces_far_end_first());
    // .020 is left on the flange's face: face allowance.
    assert_eq!(part_off.to, Some(Station::DATUM - Length::micro_inches(20_000)));
}

/// A wish for one end out keeps it; a wish for a holding leaves no bar to part from.
#[test]
fn wishes_come_first() {
    let p = plan_of(&bushing("2 x 3.5", ".125", true, "plan: {first end: far}\n"));
    is_the_trades_way(&p, End::Far);
    let wished = bushing("2 x 3.5", ".125", true, "plan: {holding: chuck}\n");
    if let Ok(p) = try_plan(&parts::part(&wished)) {
        assert!(p.plan.operations().all(|(_, o)| o.verb != Verb::PartOff));
    }
}

/// By hand: 1.875, .020 left to face, .125 the parting tool, .020 beside it and .250 of room before the jaws go up to the next quarter, 2.500;
/// .020 to clean the face; .750 held.
#[test]
fn a_bar_that_is_too_short_is_told_its_length() {
    let p = plan_of(&bushing("2 x 2.0", ".125", true, ""));
    assert!(p.plan.operations().all(|(_, o)| o.verb != Verb::PartOff));
    assert!(p.plan.remarks.iter().any(|r| r.contains("from a bar 3.270 long")), "{:?}", p.plan.remarks);
    is_the_trades_way(&plan_of(&bushing("2 x 3.270", ".125", true, "")), End::Far);
}

/// What the bar has over is at the far end, but for what cleans the datum end: 1/8 in, 3 mm (common practice, no source).
#[test]
fn the_datum_end_is_cleaned_up_and_the_rest_is_at_the_far_end() {
    let stub = |stock: &str| {
        format!(
            "part: stub\nunits: in\nmaterial: 1018 cold drawn\nstock: {stock}\ndatum: left\noverall: 4 ±0.005\n\
             tolerances: {{lengths: ±0.005, diameters: ±0.005}}\nfeatures:\n- {{turn: .750, to: 1}}\n- {{turn: stock, to: 4}}\n"
        )
    };
    let over = |stock: &str| {
        let p = plan_of(&stub(stock));
        let spans = &p.plan.setups[0].before;
        let (first, last) = (spans.first().expect("a span"), spans.last().expect("a span"));
        (Station::DATUM - first.from, last.to - Station(Length::micro_inches(4_000_000)))
    };
    let thou = |n: i64| Length::micro_inches(n * 1000);
    assert_eq!(over("1.000 x 4.125"), (thou(125).half(), thou(125).half()), "little is halved");
    assert_eq!(over("1.000 x 4.500"), (thou(125), thou(375)));
}

/// A pin with a hole in its front end, so long that a center carries it, and parted off.
fn bored_pin(inside: &str, bar: &str, long: &str) -> String {
    format!(
        "part: pin\nunits: in\nmaterial: 1018 cold drawn\nstock: {bar} x 30.000\ndatum: eye end\noverall: {long} ±0.010\n\
         tolerances: {{lengths: ±0.010, diameters: ±0.005}}\nfeatures:\n  - turn: 0.750\n    to: 4.500\n  - turn: 0.900\n    to: end\n\
         inside:\n{inside}plan: {{part off: true}}\n"
    )
}

/// Centered, turned on the center, the center bored away then, held near that end or in a steady rest; parted off last, beside the jaws, since no
/// center carries the work any more (common practice, no source).
#[test]
fn a_hole_in_the_front_end_takes_the_center_before_parting_off() {
    for (what, inside, bar) in [
        ("a bore", "  - bore: 0.3750\n    depth: 1.000\n    end: datum\n", "1.000"),
        ("a tapped hole", "  - thread: 3/8-16 UNC-2B\n    depth: 0.750\n    end: datum\n", "1.000"),
        ("a bar that does not pass the spindle", "  - bore: 0.3750\n    depth: 1.000\n    end: datum\n", "1.500"),
    ] {
        let p = plan_of(&bored_pin(inside, bar, "6.000"));
        assert!(p.plan.proven_optimal, "{what}");
        assert_eq!(p.certificate.verify(), Ok(()), "{what}");
        let at = |wanted: &dyn Fn(&Setup, &Operation) -> bool| -> Vec<u32> {
            p.plan.operations().filter(|(s, o)| wanted(s, o)).map(|(_, o)| o.number).collect()
        };
        let on_center = at(&|s, _| s.holding == Holding::ChuckAndCenter);
        let center = at(&|_, o| o.verb == Verb::Center);
        let inside = at(&|_, o| o.inside && o.end == Some(End::Datum));
        let off = at(&|_, o| o.verb == Verb::PartOff);
        assert!(!on_center.is_empty() && !inside.is_empty(), "{what}");
        assert!(center.iter().all(|c| on_center.iter().all(|n| c < n)), "{what}: centered first");
        assert!(on_center.iter().all(|c| inside.iter().all(|n| c < n)), "{what}: bored when no center is wanted");
        assert!(inside.iter().all(|n| *n < off[0]), "{what}: parted off last");
        let parting = p.plan.operations().find(|(_, o)| o.verb == Verb::PartOff).expect("parted off").0;
        assert_ne!(parting.holding, Holding::ChuckAndCenter, "{what}");
        assert!(parting.holding == Holding::Chuck && parting.only_parts() && parting.operations.len() == 1, "{what}");
    }
}

/// A nut shorter than it is wide, knurled and tapped on the end of a bar.
const NUT: &str = "part: nut\nunits: in\nmaterial: 360 brass\nstock: 1.25 x 12\ndatum: face\noverall: OVERALL\n\
tolerances: {lengths: ±0.005, diameters: ±0.003}\nfeatures:\n  - knurl: 1.125 ±0.020\n    to: .400\n    pitch: coarse\n  - turn: .75\n    to: OVERALL\n\
inside:\n  - thread: 1/2-13 UNC-2B\n    end: through\nplan: {part off: yes}\n";

fn nut(overall: &str) -> Planned {
    plan_of(&NUT.replace("OVERALL", overall))
}

/// By hand: the part, .020 to face, the parting tool's .125 and .250 of room. A bar that stands out behind has no face on the steps of the jaws
/// (a master turner's judgement of a plan that had it so).
#[test]
fn the_parting_tool_goes_in_before_the_jaws() {
    for (overall, thou) in [("0.625", 625), ("0.9", 900), ("1.05", 1050)] {
        let p = nut(overall);
        let (setup, _) = found(&p, "part-off");
        let least = parts::thou(thou + 20 + 125 + 250);
        assert!(setup.stick_out.is_some_and(|out| out >= least), "{overall}: {:?}", setup.stick_out);
        assert!(setup.why.iter().all(|w| w.rule != "short-work"), "{:?}", setup.why);
        // Turned round, its own face does lie there.
        assert!(p.plan.setups[1].why.iter().any(|w| w.rule == "short-work"), "{overall}");
    }
}

/// No collar of bar is left for the parting tool: .020 to face, its .125, and .020 beside it.
#[test]
fn roughing_goes_past_the_parting_tools_path() {
    let p = nut("0.625");
    let (_, rough) = found(&p, "rough-A");
    assert_eq!(rough.to, Some(Station::DATUM - parts::thou(165)));
    let (_, last) = found(&p, "finish-A");
    assert_eq!(last.to, Some(Station::DATUM));
}
