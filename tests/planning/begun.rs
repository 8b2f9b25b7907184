//! Work that has begun: operations done are left out with the others' numbers kept, and measured sizes feed the rest.

use turnwright::chain::{self, Chain, Profile};
use turnwright::model::Part;
use turnwright::model::plan::Verb;
use turnwright::plan::Planned;
use turnwright::unit::{Length, Station, Unit, show};
use turnwright::{figures, plan};

use turnwright::model::rest::{Outlook, Rest};

use crate::planning::parts::{self, part};
use crate::planning::{number, plan_of};

fn as_measured(part: &Part) -> (Chain, Profile, Planned) {
    let chain = chain::locate(part).as_measured(part);
    let profile = Profile::of(part, &chain);
    let planned = plan::plan(part, &chain, &profile, Some(&parts::shop()), 10).expect("a plan");
    (chain, profile, planned)
}

fn located(text: &str) -> Chain {
    chain::locate(&part(text))
}

fn with(more: &str) -> Part {
    part(&format!("{}\n{more}\n", parts::STUB))
}

#[test]
fn every_operation_done_in_turn_leaves_the_same_rest() {
    let whole = plan_of(parts::STUB);
    let all: Vec<(u32, String)> = whole.plan.operations().map(|(_, o)| (o.number, o.id.clone())).collect();
    for count in [1, 2, 5, 9, all.len() - 1] {
        let numbers: Vec<String> = all[..count].iter().map(|(n, _)| n.to_string()).collect();
        let (.., rest) = as_measured(&with(&format!("done: [{}]", numbers.join(", "))));
        let left: Vec<(u32, String)> = rest.plan.operations().map(|(_, o)| (o.number, o.id.clone())).collect();
        assert_eq!(left, all[count..], "{count} done");
        assert_eq!(rest.certificate.verify(), Ok(()));
        assert_eq!(rest.plan.done.len(), count);
        assert!(rest.plan.remarks.is_empty(), "{:?}", rest.plan.remarks);
        assert!(rest.plan.cost < whole.plan.cost, "less is left to pay");
        // The work looks the same when the rest begins as it did in the whole plan.
        let first = rest.plan.setups.first().expect("a setup");
        let same = whole.plan.setups.iter().find(|s| s.number == first.number).expect("its number is kept");
        assert_eq!(same.name, first.name);
    }
    let numbers: Vec<String> = all.iter().map(|(n, _)| n.to_string()).collect();
    let (.., nothing) = as_measured(&with(&format!("done: [{}]", numbers.join(", "))));
    assert!(nothing.plan.setups.is_empty() && nothing.plan.done.len() == all.len());
}

#[test]
fn what_was_done_against_a_rule_is_said() {
    let whole = plan_of(parts::STUB);
    let thread = whole.plan.operations().find(|(_, o)| o.id == "thread-A").expect("a thread").1.number;
    let (.., rest) = as_measured(&with(&format!("done: [{thread}, 5]")));
    assert!(rest.plan.remarks.iter().any(|r| r.contains("R9")), "{:?}", rest.plan.remarks);
    assert!(rest.plan.remarks.iter().any(|r| r == "done: 5 is no operation of the plan"), "{:?}", rest.plan.remarks);
    assert!(rest.plan.operations().all(|(_, o)| o.verb != Verb::Thread || o.id != "thread-A"));
}

#[test]
fn a_measured_overall_puts_the_zero_on_the_far_face() {
    // TRADE 11: overall 7.003 and the shoulder at 3.750 is then 3.253 from the far face, with the dial at 0 there.
    let part = with("measured: [{overall: 7.003}]");
    let (chain, profile, planned) = as_measured(&part);
    let sheet = figures::work(&part, &chain, &profile, &planned.plan, Some(&parts::shop()));
    let far = planned.plan.setups.iter().zip(&sheet.setups);
    let mut seen = false;
    for (setup, figures) in far {
        assert!(figures.correction.is_none(), "setup {}", setup.number);
        for (operation, f) in setup.operations.iter().zip(&figures.operations) {
            if operation.id == "finish-F" {
                let readings: Vec<f64> =
                    f.positions.iter().filter_map(|p| p.carriage).map(|c| c.value.to_f64(Unit::Inch)).collect();
                assert!(readings.iter().any(|r| (r - 3.253).abs() < 1e-9), "{readings:?}");
                seen = true;
            }
        }
    }
    assert!(seen);
}

#[test]
fn a_measured_face_moves_what_is_cut_to_it() {
    let part = with("measured: [{face: 3.250, at: 3.2515, from: datum}]");
    let (chain, ..) = as_measured(&part);
    let thou = |n: i64| Station(Length::micro_inches(n));
    assert_eq!(chain.span(2).map(|s| s.1), Some(thou(3_251_500)));
    assert_eq!(chain.moved, [(thou(3_250_000), thou(3_251_500))]);
    assert_eq!(chain.as_measured(&part).span(2), chain.span(2), "measuring twice moves nothing twice");
}

#[test]
fn a_diameter_measured_after_roughing_is_where_the_next_cut_begins() {
    let whole = plan_of(parts::STUB);
    let rough = whole.plan.operations().find(|(_, o)| o.id == "rough-C").expect("roughed").1.number;
    let done: Vec<String> = (1..=rough / 10).map(|n| (n * 10).to_string()).collect();
    let (.., rest) = as_measured(&with(&format!(
        "done: [{}]\nmeasured: [{{feature: pulley seat, diameter: 0.9062}}]",
        done.join(", ")
    )));
    let finish = rest.plan.operations().find(|(_, o)| o.id == "finish-C").expect("to finish").1;
    assert_eq!(finish.from_diameter, Some(Length::inch_tenths(9_062)));
}

/// The rest of a changed stub when everything before operation `id` of its plan is done, with readings.
fn rest_before(text: &str, id: &str, measured: &str) -> (Planned, Rest, Vec<figures::OperationFigures>) {
    let whole = plan_of(text);
    let upto = number(&whole, id);
    let done: Vec<String> =
        whole.plan.operations().map(|(_, o)| o.number).filter(|n| *n < upto).map(|n| n.to_string()).collect();
    let part = part(&format!("{text}\ndone: [{}]\nmeasured: [{measured}]\n", done.join(", ")));
    let (_, _, planned) = as_measured(&part);
    let begun = planned.begun.as_ref().expect("begun");
    let shop = parts::shop();
    let was = figures::work(&part, &begun.drawn.0, &begun.drawn.1, &begun.whole, Some(&shop));
    let mut now = figures::work(&part, &begun.now.0, &begun.now.1, &planned.plan, Some(&shop));
    figures::tell_changes(&mut now, &was, Unit::Inch);
    let rest = planned.plan.rest.clone().expect("a rest");
    let operations = now.setups.into_iter().flat_map(|s| s.operations).collect();
    assert_eq!(planned.certificate.verify(), Ok(()));
    (planned, rest, operations)
}

fn thou(n: i64) -> Length {
    Length::micro_inches(n * 1000)
}

#[test]
fn a_seat_left_too_large_is_cut_again_and_polished_again() {
    let whole = plan_of(parts::STUB);
    let (finish, polish) = (number(&whole, "finish-C"), number(&whole, "polish-C"));
    let (planned, rest, _) = rest_before(parts::STUB, "mill-L", "{feature: pulley seat, diameter: 0.8760}");
    assert_eq!(rest.outlook, Outlook::CutAgain);
    assert_eq!(rest.again.iter().map(|a| a.number).collect::<Vec<_>>(), [finish]);
    let again: Vec<u32> = planned.plan.operations().filter(|(_, o)| o.again.is_some()).map(|(_, o)| o.number).collect();
    assert_eq!(again, [finish, polish]);
    let (setup, o) = planned.plan.operations().find(|(_, o)| o.id == "finish-C").expect("again");
    assert_eq!(o.from_diameter, Some(Length::inch_tenths(8760)), "it begins where it was measured");
    assert_eq!(setup.holding, turnwright::model::part::Holding::BetweenCenters);
    // Milled after, as before: the rules still hold for what is done again.
    assert!(
        number(&planned, "polish-C") < number(&planned, "mill-L") || {
            let at = |id: &str| planned.plan.operations().position(|(_, o)| o.id == id);
            at("polish-C") < at("mill-L")
        }
    );
}

#[test]
fn a_hair_too_large_is_polished_only() {
    let (planned, ..) = rest_before(parts::STUB, "mill-L", "{feature: pulley seat, diameter: 0.8746}");
    let again: Vec<&str> =
        planned.plan.operations().filter(|(_, o)| o.again.is_some()).map(|(_, o)| o.id.as_str()).collect();
    let polished = planned.begun.as_ref().expect("begun").whole.operations().find(|(_, o)| o.id == "finish-C");
    let left = polished.and_then(|(_, o)| o.to_diameter).expect("its size");
    if left >= Length::inch_tenths(8746) {
        assert_eq!(again, ["polish-C"]);
    } else {
        assert_eq!(again, ["finish-C", "polish-C"], "the tool left {left:?}");
    }
}

#[test]
fn a_seat_turned_too_small_is_scrap_by_just_so_much() {
    let (planned, rest, _) = rest_before(parts::STUB, "mill-L", "{feature: pulley seat, diameter: 0.8735}");
    assert_eq!(rest.outlook, Outlook::Scrap);
    assert_eq!(rest.gives.len(), 1);
    assert_eq!(rest.gives[0].to.min, Length::inch_tenths(8735));
    assert!(planned.plan.operations().all(|(_, o)| o.again.is_none()));
}

/// 2.250 ±.002 between the bearing faces: the first came out .004 deep, within its own ±.005, so the second follows it.
#[test]
fn the_face_still_to_be_cut_follows_the_one_that_is_and_its_numbers_are_flagged() {
    let text = parts::STUB.replace("is: 2.250 ±0.010", "is: 2.250 ±0.002");
    let whole = plan_of(&text);
    let (first, second) = if number(&whole, "finish-F") < number(&whole, "finish-H") {
        (("finish-F", "{face: 3.750, at: 3.754, from: datum}"), "finish-H")
    } else {
        (("finish-H", "{face: 6.000, at: 6.004, from: datum}"), "finish-F")
    };
    let (planned, rest, figures) = rest_before(&text, second, first.1);
    assert_eq!(rest.outlook, Outlook::AimedAnew, "{rest:?}");
    assert!(rest.again.is_empty() && rest.gives.is_empty());
    let aimed = &rest.aims[0];
    let drawn = if second == "finish-H" { thou(6_000) } else { thou(3_750) };
    assert_eq!(aimed.drawn, drawn);
    // .004 deep, ±.002 between them, ±.005 of its own: from .002 to .005 over, and the middle of that to a thousandth. The shop's
    // height gauge is good to ±.001 on the reading it is aimed by: .001 less at the end that the reading decides.
    let window = aimed.window.expect("a window");
    assert_eq!((window.min, window.max), (drawn + thou(3), drawn + thou(5)));
    assert!(window.holds(aimed.to) && aimed.to != drawn);
    let number = planned.plan.operations().find(|(_, o)| o.id == second).expect("left").1.number;
    let flagged = figures.iter().find(|f| f.number == number).expect("its figures");
    assert!(flagged.changed.iter().any(|c| c.what.contains("from datum")), "{:?}", flagged.changed);
    assert!(rest.unsure.is_empty() && !rest.doubtful, "{rest:?}");
    // A reading said to be good to ±.0002 leaves .0008 more, and one of ±.002 none to be sure of: then the limit counts as read, and is told.
    let said = |uncertainty: &str| first.1.replace('}', &format!(", uncertainty: {uncertainty}}}"));
    let (_, surer, _) = rest_before(&text, second, &said("0.0002"));
    let window = surer.aims[0].window.expect("a window");
    assert_eq!((window.min, window.max), (drawn + Length::micro_inches(2_200), drawn + thou(5)));
    let (_, worse, _) = rest_before(&text, second, &said("0.003"));
    let window = worse.aims[0].window.expect("a window");
    assert_eq!((window.min, window.max), (drawn + thou(2), drawn + thou(5)));
    assert_eq!(worse.unsure.len(), 2, "the length between them, and the face past its own .005: {:?}", worse.unsure);
    // What it does not touch keeps its numbers.
    let others = figures.iter().filter(|f| f.number != number && !f.changed.is_empty());
    assert_eq!(others.map(|f| f.number).collect::<Vec<_>>(), Vec::<u32>::new());
}

#[test]
fn a_shoulder_left_proud_is_faced_again_and_one_too_deep_takes_its_neighbour_along() {
    // 3.250 looks to the datum end: at 3.242 it is .003 short of its least, and is faced again.
    let (planned, rest, _) = rest_before(parts::STUB, "mill-L", "{face: 3.250, at: 3.242, from: datum}");
    assert_eq!(rest.outlook, Outlook::CutAgain, "{rest:?}");
    let again = &rest.again[0];
    assert!(!again.diameter && again.from == thou(3_242) && again.to == thou(3_250));
    let (_, o) = planned.plan.operations().find(|(_, o)| o.again.is_some()).expect("again");
    assert_eq!((o.id.as_str(), o.to), ("finish-C", Some(Station(thou(3_250)))));
    // .003 too deep: its own metal is gone. The datum face moves every length, so the others are to be measured first.
    let (_, rest, _) = rest_before(parts::STUB, "mill-L", "{face: 3.250, at: 3.258, from: datum}");
    assert_eq!(rest.outlook, Outlook::Scrap);
    let first = rest.instead.as_deref().unwrap_or_default().to_owned();
    assert!(first.contains("measure first: the face at") && first.contains("the far face"), "{first}");
    // They are as drawn: the datum face is cut again, and every length counts from there.
    let whole = located(parts::STUB);
    let places = whole.at.iter().flatten().filter(|at| at.0.is_positive() && at.0 != thou(3_250));
    let as_drawn: std::collections::BTreeSet<String> = places.map(|at| show::plain(at.0, Unit::Inch, 4)).collect();
    let others: Vec<String> = as_drawn.iter().map(|at| format!(", {{face: {at}, at: {at}, from: datum}}")).collect();
    let others = others.concat();
    let (_, rest, _) = rest_before(parts::STUB, "mill-L", &format!("{{face: 3.250, at: 3.258, from: datum}}{others}"));
    assert_eq!(rest.outlook, Outlook::CutAgain);
    assert_eq!(rest.again.iter().map(|a| a.what.as_str()).collect::<Vec<_>>(), ["the datum face"]);
    let off = rest.again[0].to;
    assert!(off >= thou(3) && off <= thou(10), "within 7.000 ±.010: {off:?}");
    // .015 too deep: the collar's other face, at 3.650 ±.005, lets .005 come off the datum face, and .010 is missing.
    let (_, rest, _) = rest_before(parts::STUB, "mill-L", &format!("{{face: 3.250, at: 3.270, from: datum}}{others}"));
    assert_eq!(rest.outlook, Outlook::Scrap);
    assert_eq!(rest.misses, thou(10));
    let sum: Length = rest.gives.iter().map(|g| (g.to.max - g.drawn.max) + (g.drawn.min - g.to.min)).sum();
    assert_eq!(sum, thou(10));
    assert_eq!(rest.clash.len(), 2, "3.250 and 3.650: {:?}", rest.clash);
}

#[test]
fn a_reading_is_not_used_once_its_face_or_diameter_was_cut_again() {
    let whole = plan_of(parts::STUB);
    let rough = number(&whole, "rough-C");
    // Taken after roughing; the finish cut is done since: neither says anything of the part now.
    let readings = format!(
        "{{feature: pulley seat, diameter: 0.9062, after: {rough}}}, {{face: 3.250, at: 3.231, from: datum, after: {rough}}}"
    );
    let (planned, rest, _) = rest_before(parts::STUB, "mill-L", &readings);
    assert_eq!(rest.outlook, Outlook::AsDrawn, "{rest:?}");
    assert_eq!(rest.void.len(), 2, "{:?}", rest.void);
    assert!(planned.begun.as_ref().expect("begun").now.0.moved.is_empty());
    // The same two before the finish cut: they are where it begins, and move no face.
    let (planned, rest, _) = rest_before(parts::STUB, "finish-C", &readings);
    assert!(rest.void.is_empty());
    let finish = planned.plan.operations().find(|(_, o)| o.id == "finish-C").expect("left").1;
    assert_eq!(finish.from_diameter, Some(Length::inch_tenths(9_062)));
    assert_eq!(finish.to, Some(Station(thou(3_250))), "what is still to be cut goes where it is drawn");
}

/// The numbers of `done:` are those of the sheet the hand holds, whatever was measured since.
#[test]
fn readings_do_not_renumber_what_is_done() {
    let whole = plan_of(parts::STUB);
    let all: Vec<(u32, String)> = whole.plan.operations().map(|(_, o)| (o.number, o.id.clone())).collect();
    for at in [5, 9, 14, 20] {
        let (id, measured) = (&all[at].1, "{overall: 7.004}, {face: 3.250, at: 3.2515, from: datum}");
        let (planned, ..) = rest_before(parts::STUB, id, measured);
        let left: Vec<(u32, String)> = planned.plan.operations().map(|(_, o)| (o.number, o.id.clone())).collect();
        assert!(left.iter().all(|l| all.contains(l)), "{left:?}");
        assert_eq!(left.len(), all.len() - at);
    }
}

/// The overall measured, lengths from the datum end stay and are reached from the far face; what is counted from the far face itself,
/// the leg of its chamfer, goes with it.
#[test]
fn what_is_counted_from_the_far_face_goes_with_it() {
    let (planned, rest, figures) = rest_before(parts::STUB, "finish-F", "{overall: 7.004}");
    assert_eq!(rest.outlook, Outlook::AsDrawn, "{rest:?}");
    let figure = |id: &str| {
        let number = planned.plan.operations().find(|(_, o)| o.id == id).expect("left").1.number;
        figures.iter().find(|f| f.number == number).expect("its figures")
    };
    let carriage =
        |id: &str| -> Vec<Length> { figure(id).positions.iter().filter_map(|p| p.carriage).map(|c| c.value).collect() };
    assert!(carriage("finish-F").contains(&(thou(7_004) - thou(3_750))));
    let chamfer =
        planned.plan.operations().find(|(_, o)| o.verb == Verb::Chamfer && o.end == Some(turnwright::model::End::Far));
    let chamfer = chamfer.expect("a chamfer").1.id.clone();
    assert_eq!(carriage(&chamfer), [Length::ZERO, thou(40)]);
    assert!(figure(&chamfer).changed.iter().all(|c| !c.what.contains("carriage")), "{:?}", figure(&chamfer).changed);
    // Its center holes are there: nothing says otherwise.
    let part = part(&format!("{}\ndone: [10, 20, 30, 40]\n", parts::STUB));
    let (chain, profile, planned) = as_measured(&part);
    let facts = turnwright::check::Facts {
        part: &part,
        slips: &[],
        chain: &chain,
        profile: &profile,
        shop: Some(&parts::shop()),
        derived: Some(&planned.derived),
        plan: Some(&planned.plan),
    };
    assert!(turnwright::check::check(&facts).iter().all(|f| f.check != "center-missing"));
}
