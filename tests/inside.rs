//! What lies inside a part, from the description to the figures.

use turnwright::chain::{self, Mouth, Profile};
use turnwright::figures::{self, Job};
use turnwright::model::plan::{Operation, Verb};
use turnwright::model::{End, Plan};
use turnwright::plan;
use turnwright::read;
use turnwright::unit::Length;

const SHAFT: &str = "part: shaft\nunits: in\nmaterial: 1045 cold drawn\nstock: 1.250 x 7.125\ndatum: left\noverall: 7.000 ±0.010\n\
    tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n- {turn: 0.875 +0/-0.001, to: 2.500, carries: {part: pulley, bore: 0.8755, enters: datum}}\n\
    - {turn: 1.200, to: 4.500}\n- {turn: 0.875 +0/-0.001, to: 7.000, carries: {part: pulley, bore: 0.8755, enters: far}}\n";

const SHOP: &str =
    "shop: s\nunits: in\nspeeds: [60, 200, 800]\ntailstock dial: {division: 0.001, turn: 0.100}\nspindle bore: 1.375\n";

fn planned(more: &str) -> (Plan, figures::Figures, Profile) {
    let read = read::part("p", format!("{SHAFT}{more}").as_bytes());
    assert_eq!(read.slips, [], "{more}");
    let (part, shop) = (read.part.expect("a part"), read::shop("s", SHOP.as_bytes()).shop.expect("a shop"));
    let chain = chain::locate(&part);
    let profile = Profile::of(&part, &chain);
    let plan = plan::plan(&part, &chain, &profile, Some(&shop), 20).expect("a plan").plan;
    let figures = figures::work(&part, &chain, &profile, &plan, Some(&shop));
    (plan, figures, profile)
}

fn number(plan: &Plan, verb: Verb, inside: bool) -> u32 {
    let found = |o: &&Operation| o.verb == verb && o.inside == inside;
    plan.operations().map(|(_, o)| o).find(found).unwrap_or_else(|| panic!("{verb:?}")).number
}

/// 1/4-20: a No. 7 drill, .201 in, leaves 75 % of thread (the usual tap drill tables; from memory).
#[test]
fn a_tapped_end_is_drilled_when_no_center_is_wanted_there_any_more() {
    let (plan, figures, profile) = planned("- {tapped hole: 1/4-20 UNC-2B, deep: 0.625, end: far}\n");
    assert!(matches!(profile.mouth(End::Far), Mouth::Open { .. }));
    let drill = number(&plan, Verb::Drill, true);
    let last = plan.operations().filter(|(_, o)| o.verb == Verb::Finish).map(|(_, o)| o.number).max();
    assert!(last < Some(drill) && drill < number(&plan, Verb::Tap, true));
    let holes = figures.setups.iter().flat_map(|s| &s.operations).filter_map(|o| match &o.job {
        Job::Hole(hole) => Some(hole),
        _ => None,
    });
    let drilled = holes.clone().find(|h| !h.steps.is_empty()).expect("a drill");
    assert_eq!(drilled.steps.last().map(|s| s.value), Some(Length::inch_tenths(2010)));
    assert!((drilled.percent.expect("a share") - 75.4).abs() < 0.1);
    // Five pitches beyond the thread: .625 + 5/20; the point of a 118° drill is .3 of its diameter longer.
    assert_eq!(drilled.depth.map(|d| d.value), Some(Length::inch_tenths(8750)));
    assert_eq!(drilled.to_point.map(|d| d.value), Some(Length::micro_inches(935_300)));
    assert_eq!(drilled.tailstock.map(|t| (t.turns, t.divisions)), Some((8, 75)));
    let turns = holes.clone().find_map(|h| h.turns).expect("turns of the tap");
    assert!((turns - 12.5).abs() < 1e-9, "0.625 in of 20 threads to the inch");
}

#[test]
fn a_bore_with_a_sixty_degree_mouth_carries_the_center() {
    // A `hole` may keep the drill's point; a `bore` of that size is bored to its flat bottom.
    let inside = "inside:\n- {hole: 0.500 +0.002/0, end: far, depth: 1.000}\n- {chamfer: 0.080 x 30°, end: far}\n";
    let (bored, ..) = planned(&inside.replace("hole", "bore"));
    assert!(number(&bored, Verb::Drill, true) < number(&bored, Verb::Bore, true));
    let (plan, _, profile) = planned(inside);
    assert!(matches!(profile.mouth(End::Far), Mouth::Seat { .. }));
    let chamfer = number(&plan, Verb::Chamfer, true);
    let centers = plan.operations().filter(|(_, o)| o.verb == Verb::Center).count();
    assert_eq!(centers, 1, "the far end has its seat in the bore");
    let first = plan.operations().find(|(_, o)| o.verb == Verb::Finish).map(|(_, o)| o.number);
    assert!(Some(chamfer) < first, "the seat is there before the work runs on it");
    assert!(number(&plan, Verb::Drill, true) < number(&plan, Verb::Ream, true));
}

#[test]
fn codes_are_judged_by_their_side() {
    for (inside, wrong) in [("bore: 0.750 H7", false), ("bore: 0.750 h7", true), ("thread: 1/2-13 UNC-2A", true)] {
        let text = format!("{SHAFT}inside:\n- {{{inside}, end: datum, depth: 1.000}}\n");
        let slips = read::part("p", text.as_bytes()).slips;
        assert_eq!(!slips.is_empty(), wrong, "{inside}: {slips:?}");
    }
}

#[test]
fn a_tube_says_what_becomes_of_its_bore() {
    let tube = SHAFT.replace("stock: 1.250", "stock: tube 1.250/0.500");
    assert_eq!(read::part("p", tube.as_bytes()).slips.len(), 1);
    let kept = format!("{tube}inside:\n- {{bore: stock, end: through}}\n");
    let read = read::part("p", kept.as_bytes());
    assert_eq!(read.slips, []);
    let part = read.part.expect("a part");
    let profile = Profile::of(&part, &chain::locate(&part));
    assert_eq!(profile.hollows.len(), 1);
    assert_eq!(profile.hollows[0].long(), Length::PER_INCH.times(7));
}

/// In whatever order an end's cuts are written, the one that goes deeper begins where the other stops, and none is lost.
#[test]
fn an_end_may_be_written_from_its_bottom_or_from_its_mouth() {
    let bore = "- {bore: 0.500, end: far, depth: 2.000}\n";
    for (other, verb) in [
        ("- {taper: 1:10, large: 0.700, end: far, depth: 1.250}\n", Verb::Taper),
        ("- {taper: 0.700 to 0.575, end: far, depth: 1.250}\n", Verb::Taper),
        ("- {thread: 5/8-11 UNC-2B, end: far, depth: 1.250}\n", Verb::Tap),
    ] {
        let (one, _, profile) = planned(&format!("inside:\n{bore}{other}"));
        let (two, _, again) = planned(&format!("inside:\n{other}{bore}"));
        let places = |p: &Profile| p.hollows.iter().map(|h| (h.from, h.to, h.start, h.stop)).collect::<Vec<_>>();
        assert_eq!((places(&profile), profile.hollows.len()), (places(&again), 2), "{other}");
        for plan in [&one, &two] {
            assert!(plan.operations().any(|(_, o)| o.verb == verb && o.inside), "{other}");
        }
    }
}

/// A Morse 2 socket: .700 at the gauge line, .59941 to the foot (ASME B5.10), so .5751 two and a half inches in.
#[test]
fn a_socket_is_said_by_its_number() {
    let (plan, _, profile) = planned("inside:\n- {taper: MT2, end: datum, depth: 2.500}\n");
    let [hollow] = profile.hollows[..] else { panic!("{:?}", profile.hollows) };
    assert_eq!(hollow.start.middle(), Length::inch_tenths(7000));
    assert!((hollow.stop.middle().inches() - 0.575_12).abs() < 2e-5, "{:?}", hollow.stop);
    assert!(plan.operations().any(|(_, o)| o.verb == Verb::Taper && o.inside));
}

/// Two cuts of one depth lie over each other: nothing is left of one of them, and that is told.
#[test]
fn what_has_nothing_left_is_told() {
    let text = format!(
        "{SHAFT}inside:\n- {{bore: 0.500, end: far, depth: 1.250}}\n- {{taper: 1:10, large: 0.700, end: far, depth: 1.250}}\n"
    );
    let read = read::part("p", text.as_bytes());
    let part = read.part.expect("a part");
    let chain = chain::locate(&part);
    let profile = Profile::of(&part, &chain);
    let facts = turnwright::check::Facts {
        part: &part,
        slips: &[],
        chain: &chain,
        profile: &profile,
        shop: None,
        derived: None,
        plan: None,
    };
    let found = turnwright::check::check(&facts);
    assert!(found.iter().any(|f| f.check == "section-overlap" && f.message.contains("nothing is left")), "{found:?}");
}

/// `depth: through` is what a drawing says; it is the bore from end to end, whichever end it is bored from.
#[test]
fn a_depth_may_be_through() {
    let bored = |text: &str| planned(&format!("inside:\n- {{bore: 0.500, {text}}}\n")).2.hollows;
    let through: Vec<_> = bored("end: through").iter().map(|h| (h.from, h.to)).collect();
    assert_eq!(through.len(), 1);
    for text in ["end: datum, depth: through", "end: datum, depth: thru"] {
        assert_eq!(bored(text).iter().map(|h| (h.from, h.to)).collect::<Vec<_>>(), through, "{text}");
    }
}

/// A countersink as drawings give it: mouth by included angle. Its leg is (mouth - hole) / 2 / tan(half of the angle), plain geometry: from .375 to .500 at
/// 82 degrees .0719, at 90 degrees .0625; a thread's hole counts with the middle of its minor diameter, 3/8-16: .307 to .321 (ASME B1.1). Before its hole in the list or behind it, the angle first or last.
#[test]
fn a_countersink_by_its_mouth() {
    for (inside, end, leg, says) in [
        (
            "- {hole: 0.375, end: datum, depth: 1.000}\n- {countersink: Ø0.500 x 82°, end: datum}\n",
            End::Datum,
            0.071_9,
            "Ø .500 × 82°",
        ),
        (
            "- {countersink: 90° x ⌀0.500, end: far}\n- {bore: 0.375, end: far, depth: 1.000}\n",
            End::Far,
            0.062_5,
            "Ø .500 × 90°",
        ),
        (
            "- {chamfer: dia 13 mm x 90°, end: far}\n- {thread: 3/8-16 UNC-2B, depth: 0.750, end: far}\n",
            End::Far,
            0.098_9,
            "Ø .512 × 90°",
        ),
    ] {
        let (plan, figures, _) = planned(&format!("inside:\n{inside}"));
        let all: Vec<_> = plan.operations().zip(figures.setups.iter().flat_map(|s| &s.operations)).collect();
        let found = all.iter().find_map(|((_, o), f)| match &f.job {
            Job::Chamfer(c) if o.inside => Some((o.end, c)),
            _ => None,
        });
        let (at, cut) = found.expect("a chamfer inside");
        assert_eq!((at, cut.says.as_str()), (Some(end), says), "{inside}");
        assert!((cut.leg.value.inches() - leg).abs() < 0.000_06, "{inside}: {}", cut.leg.value.inches());
    }
}

/// What a countersink cannot be is told at its place, and nothing is guessed: a wide angle without the sign of a diameter was once a leg half an inch deep.
#[test]
fn a_countersink_that_is_none() {
    for (inside, why) in [
        ("- {hole: 0.375, end: through}\n- {countersink: 0.500 x 82°, end: datum}\n", "put Ø before it"),
        ("- {countersink: Ø0.500 x 82°, end: datum}\n", "no hole opens at this end"),
        ("- {hole: 0.500, end: through}\n- {countersink: Ø0.500 x 82°, end: datum}\n", "no larger than the hole"),
        ("- {hole: 0.375, end: through}\n- {countersink: Ø0.500 x 180°, end: datum}\n", "Form"),
        ("- {hole: 0.375, end: through}\n- {countersink: Ø0.500, end: datum}\n", "Form"),
    ] {
        let read = read::part("p", format!("{SHAFT}inside:\n{inside}").as_bytes());
        let told = format!("{:?}", read.slips);
        assert!(read.slips.len() == 1 && told.contains(why), "{inside}: {told}");
    }
    let outside = read::part("p", format!("{SHAFT}- {{chamfer: Ø0.500 x 45°, end: datum}}\n").as_bytes());
    assert!(format!("{:?}", outside.slips).contains("and not by a diameter"), "{:?}", outside.slips);
}

/// The tool for an inside relief is touched on the wall that stands, the bore as it was aimed at, and not on the least its limits allow: from there the dial
/// brings it to size. 1 1/4-7 UNC-2B: minor diameter 1.095 to 1.123 (ASME B1.1), bored to 1.109; a relief of 1.300 is .0955 a side from it.
#[test]
fn a_relief_is_counted_from_the_wall_that_stands() {
    let text = include_str!("figures/parts/inch-bushing.yaml");
    let part = read::part("p", text.as_bytes()).part.expect("a part");
    let shop = read::shop("s", include_bytes!("figures/parts/inch-shop.yaml")).shop.expect("a shop");
    let (chain, aim) = (chain::locate(&part), Length::inch_tenths(11_090));
    let profile = Profile::of(&part, &chain);
    let plan = plan::plan(&part, &chain, &profile, Some(&shop), 20).expect("a plan").plan;
    let figures = figures::work(&part, &chain, &profile, &plan, Some(&shop));
    let groove = plan
        .operations()
        .zip(figures.setups.iter().flat_map(|s| &s.operations))
        .find(|((_, o), _)| o.inside && o.verb == Verb::Groove);
    let ((_, groove), numbers) = groove.expect("a relief inside");
    assert_eq!(groove.from_diameter, Some(aim));
    let bored = plan.operations().map(|(_, o)| o).find(|o| o.verb == Verb::Bore && o.to_diameter == Some(aim));
    assert!(bored.is_some_and(|b| b.number < groove.number));
    assert_eq!(numbers.cross_dial.map(|c| c.infeed.exact), Some(Length::micro_inches(95_500)));
}
