//! Every rule R1 to R27 on a small part where it bites: the proven plan keeps it, an order that breaks it is refused with its id,
//! a soft one switched off changes the plan or the sheet and says what it is worth, a hard one cannot be switched off, and what is
//! a sentence stands on the sheets it concerns and on no other.
//!
//! The kinds and sources are those of the project's own list (PLANNING, part b); each test names its source again.

use std::collections::BTreeSet;
use std::path::Path;
use std::process::Command;

use turnwright::chain::{self, Profile};
use turnwright::figures::{self, OperationFigures};
use turnwright::model::Shop;
use turnwright::model::part::Holding;
use turnwright::model::plan::{Operation, Verb};
use turnwright::plan::Planned;
use turnwright::plan::order::{replay, violations};
use turnwright::plan::rules::{RULES, rule};
use turnwright::sheet::build::{self, Pages, Sources};
use turnwright::sheet::view::Paper;
use turnwright::sheet::{self};
use turnwright::unit::Length;

use crate::planning::believable::judged;
use crate::planning::parts::{self, STUB, part};
use crate::planning::{found, number, plan_of};

/// An order of (operation, setup).
type Order = Vec<(String, String)>;

/// A plain shaft turned in the chuck, of a bar in some state.
fn pin(material: &str) -> String {
    format!(
        "part: pin\nunits: in\nmaterial: {material}\nstock: 1.500 x 3.125\ndatum: left end\noverall: 3.000 ±0.010\n\
         tolerances: {{lengths: ±0.010, diameters: ±0.005}}\nfeatures:\n  - turn: 1.250\n    to: 1.500\n  - turn: stock\n    to: end\n  \
         - center hole: none\n    end: both\n"
    )
}

/// A long shaft with two keyseats at one clocking and one across from them.
const KEYED: &str = "part: keyed shaft\nunits: in\nmaterial: 1045 annealed\nstock: 1.250 x 8.125\ndatum: left end\noverall: 8.000 ±0.010\n\
tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 0.8750 +0/-0.0010\n    to: 2.500\n    name: seat\n  - turn: stock\n    to: 5.500\n  \
- turn: 0.8750 +0/-0.0010\n    to: end\n    name: far seat\n  - keyseat: Woodruff 606\n    at: 1.250\n    name: near key\n  \
- keyseat: Woodruff 606\n    at: 6.750\n    name: far key\n  - center hole: A 1/8\n    end: both\n";

/// A knurled knob on a thin neck.
const KNOB: &str = "part: knob\nunits: in\nmaterial: 12L14\nstock: 1.125 x 3.125\ndatum: neck end\noverall: 3.000 ±0.010\n\
tolerances: {lengths: ±0.010, diameters: ±0.005}\nfeatures:\n  - turn: 0.500\n    to: 1.000\n    name: neck\n  \
- knurl: 0.8 mm straight\n    diameter: 1.000\n    to: 1.750\n    name: grip\n  - turn: stock\n    to: end\n  - center hole: A 1/8\n    end: datum\n";

/// A long bar whose ends take no center.
fn long_bar(material: &str) -> String {
    format!(
        "part: roller\nunits: in\nmaterial: {material}\nstock: 2.000 x 16.125\ndatum: left end\noverall: 16.000 ±0.010\n\
         tolerances: {{lengths: ±0.010, diameters: ±0.005}}\nfeatures:\n  - turn: 1.500\n    to: 14.000\n  - turn: 1.900\n    to: end\n  \
         - center hole: A 1/8\n    end: both\n"
    )
}

/// A slender spindle between centers.
const SPINDLE: &str = "part: spindle\nunits: in\nmaterial: 1045 cold drawn\nstock: 0.750 x 16.125\ndatum: left end\noverall: 16.000 ±0.010\n\
tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 0.500 +0/-0.0005\n    to: 14.000\n  - turn: 0.700\n    to: end\n  \
- center hole: A 1/8\n    end: both\n";

/// A description with a `plan:`.
fn wishing(text: &str, wishes: &str) -> String {
    format!("{text}plan: {{{wishes}}}\n")
}

fn off(text: &str, id: &str) -> String {
    wishing(text, &format!("off: [{id}]"))
}

/// The order with one operation taken out and put before another, in its own mounting.
fn moved(p: &Planned, id: &str, before: &str) -> Order {
    let mut order = p.certificate.order.clone();
    let from = order.iter().position(|(o, _)| o == id).unwrap_or_else(|| panic!("no {id} in {order:?}"));
    let step = order.remove(from);
    let to = order.iter().position(|(o, _)| o == before).unwrap_or_else(|| panic!("no {before} in {order:?}"));
    order.insert(to, step);
    order
}

/// Rules of the trade that an order breaks.
fn against(p: &Planned, order: &Order) -> BTreeSet<String> {
    let broken = violations(&p.certificate.problem, order);
    let rules = broken.iter().filter_map(turnwright::plan::order::Violation::rule);
    rules
        .flat_map(|r| p.certificate.problem.because_of(&r).into_iter().map(str::to_owned).collect::<Vec<_>>())
        .collect()
}

/// Whether anything stands in the problem because of a rule.
fn stands(p: &Planned, id: &str) -> bool {
    p.certificate.problem.reasons.contains_key(id)
}

/// The plan keeps its own rules, and this order is refused, by the replay and at the terminal, with the rule's id.
fn refused(p: &Planned, order: &Order, id: &str) {
    assert_eq!(p.certificate.verify(), Ok(()));
    assert!(p.plan.proven_optimal);
    assert!(replay(&p.certificate.problem, order).is_err(), "{id} is broken");
    let broken = against(p, order);
    assert!(broken.contains(id), "{id}: {broken:?}");
    let mut spoiled = p.certificate.clone();
    spoiled.order.clone_from(order);
    let said = verify(&serde_json::to_string(&spoiled).expect("JSON"));
    let rule = rule(id).expect("a rule");
    assert!(said.contains("does not hold") && said.contains(&format!("{id}: {}", rule.text)), "{said}");
}

/// What `plan --verify` says of a certificate.
fn verify(certificate: &str) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("certificate.json");
    std::fs::write(&path, certificate).expect("written");
    let run = Command::new(env!("CARGO_BIN_EXE_turnwright")).args(["plan", "--verify"]).arg(&path).output();
    let run = run.expect("the program starts");
    assert_eq!(run.status.code(), Some(i32::from(!String::from_utf8_lossy(&run.stdout).contains(": holds"))));
    String::from_utf8_lossy(&run.stdout).into_owned()
}

/// A hard rule stays when it is switched off, and the person is told.
fn stays(text: &str, id: &str) {
    assert!(rule(id).expect("a rule").hard, "{id}");
    let p = plan_of(&off(text, id));
    let told = p.derived.unheeded.iter().find(|u| u.wish == format!("off: {id}")).expect("told");
    assert!(told.why.rule == id && told.why.reason.contains("hard rule"), "{told:?}");
    assert_eq!(stands(&p, id), stands(&plan_of(text), id));
}

/// Without a soft rule nothing stands in the problem because of it, the plan is no dearer, and it is told what that is worth.
fn gives_way(text: &str, id: &str) -> Planned {
    let p = worth(text, id);
    assert!(stands(&plan_of(text), id) && !stands(&p, id), "{id}");
    assert!(p.plan.cost <= plan_of(text).plan.cost + 1e-9, "{id}: a rule less never costs");
    p
}

/// The plan without a soft rule, which says what the rule would cost.
fn worth(text: &str, id: &str) -> Planned {
    assert!(!rule(id).expect("a rule").hard, "{id}");
    let (kept, p) = (plan_of(text), plan_of(&off(text, id)));
    assert_eq!(p.certificate.verify(), Ok(()));
    let more = kept.plan.cost - p.plan.cost;
    let said = p.plan.remarks.iter().find(|r| r.starts_with(&format!("{id} is off"))).expect("its worth");
    let number = format!("{:.2} minutes", more.abs());
    assert!(said.contains(&number) || (more.abs() < 0.005 && said.contains("not a minute")), "{said}, {more}");
    p
}

/// The sheet of a description as one line of text.
fn sheet_of(text: &str, shop: Option<&Shop>) -> String {
    let read = turnwright::read::part("test.yaml", text.as_bytes());
    let part = read.part.as_ref().expect("a part");
    let (p, findings) = judged(text, shop).expect("a plan");
    let chain = chain::locate(part);
    let profile = Profile::of(part, &chain);
    let figures = figures::work(part, &chain, &profile, &p.plan, shop);
    let sources = Sources { part, chain: &chain, plan: &p.plan, figures: &figures, findings: &findings, shop };
    let view = build::view_of(&sources, Paper::LETTER, Pages::default());
    let text = sheet::markdown::markdown(&view).expect("the template fits");
    text.replace("<br>", " ").split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A sentence stands on the sheet of the first and not on that of the others.
fn said_only_on(sentence: &str, on: &str, not_on: &[&str]) {
    let shop = parts::shop();
    let sheet = sheet_of(on, Some(&shop));
    assert!(sheet.contains(sentence), "`{sentence}` is missing on the sheet of {}", &on[..40]);
    for other in not_on {
        let sheet = sheet_of(other, Some(&shop));
        let around = sheet.find(sentence).map(|i| sheet[..i].chars().rev().take(80).collect::<String>());
        assert_eq!(around, None, "`{sentence}` does not belong on the sheet of {}", &other[..40]);
    }
}

/// PLANNING part (b): H hard, S soft; R4 has no letter there and is an allowance that the description can change.
const HARD: [u8; 10] = [1, 2, 5, 7, 9, 10, 12, 15, 23, 24];

#[test]
fn every_rule_is_in_the_table_with_kind_reason_and_source() {
    for n in 1..=27_u8 {
        let id = format!("R{n}");
        let rule = rule(&id).unwrap_or_else(|| panic!("{id} is not in the table"));
        assert_eq!(rule.hard, HARD.contains(&n), "{id}");
        assert!(rule.text.len() > 20 && rule.source.len() > 5, "{id}");
    }
    let ids: BTreeSet<&str> = RULES.iter().map(|r| r.id).collect();
    assert_eq!(ids.len(), RULES.len(), "an id stands twice");
    let numbered: Vec<&str> = RULES.iter().map(|r| r.id).filter(|id| id.starts_with('R')).collect();
    assert_eq!(numbered, (1..=27).map(|n| format!("R{n}")).collect::<Vec<_>>(), "in order, and no other");
}

/// `explain R9` is what the person asks who reads `[R9]` on the sheet.
#[test]
fn every_numbered_rule_is_explained() {
    for rule in RULES.iter().filter(|r| r.id.starts_with('R')) {
        let run = |more: &[&str]| {
            let output = Command::new(env!("CARGO_BIN_EXE_turnwright")).args(["explain", rule.id]).args(more).output();
            let output = output.expect("the program starts");
            assert_eq!(output.status.code(), Some(0), "{}", rule.id);
            String::from_utf8(output.stdout).expect("text")
        };
        let text = run(&[]);
        assert!(text.contains(rule.text) && text.contains(rule.source), "{text}");
        assert_eq!(text.contains("cannot be switched off"), rule.hard, "{text}");
        let reply: serde_json::Value = serde_json::from_str(&run(&["--format", "json"])).expect("JSON");
        let reply = if reply.is_array() { &reply[0] } else { &reply };
        assert_eq!((&reply["rule"], &reply["hard"]), (&rule.id.into(), &rule.hard.into()));
    }
}

/// A rule that no test names may rot unseen.
#[test]
fn every_rule_is_named_in_a_test() {
    let mut text = String::new();
    gather(&Path::new(env!("CARGO_MANIFEST_DIR")).join("tests"), &mut text);
    let unnamed: Vec<&str> = RULES.iter().map(|r| r.id).filter(|id| !text.contains(&format!("\"{id}\""))).collect();
    assert!(unnamed.is_empty(), "{unnamed:?}");
    let own = include_str!("rules.rs");
    let elsewhere: Vec<&str> =
        RULES.iter().map(|r| r.id).filter(|id| id.starts_with('R') && !own.contains(&format!("\"{id}\""))).collect();
    assert!(elsewhere.is_empty(), "{elsewhere:?}");
}

fn gather(folder: &Path, text: &mut String) {
    for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
        let path = entry.path();
        if path.is_dir() {
            gather(&path, text);
        } else if path.extension().is_some_and(|e| e == "rs") {
            text.push_str(&std::fs::read_to_string(&path).expect("a test"));
        }
    }
}

/// Machine Shop Work, Turning: the ends are squared up and centered before the work runs on centers.
#[test]
fn r1_an_end_is_faced_and_centered_first() {
    let p = plan_of(STUB);
    assert!(number(&p, "face-datum") < number(&p, "center-datum"));
    assert!(number(&p, "center-datum") < number(&p, "rough-C"));
    refused(&p, &moved(&p, "center-datum", "face-datum"), "R1");
    // Between centers before the far end has its hole.
    refused(&p, &moved(&p, "center-far", "finish-A"), "R1");
    stays(STUB, "R1");
}

/// Machine Shop Work, squaring up first: what either end can take is cut behind the face that stands out in that chucking, and from the other end
/// before it.
#[test]
fn r1_what_either_end_can_take_waits_for_the_face_that_stands_out() {
    let text = "part: roller\nunits: in\nmaterial: 12L14\nstock: 1.500 x 3.125\ndatum: left end\noverall: 3.000 ±0.010\n\
tolerances: {lengths: ±0.010, diameters: ±0.005}\nfeatures:\n  - turn: 1.000\n    to: 1.000\n  - turn: 1.400\n    to: 2.000\n  \
- turn: 1.000\n    to: end\n  - center hole: none\n    end: both\n";
    let p = plan_of(text);
    let (datum, far) = ("chuck, datum end out", "chuck, far end out");
    let order = |steps: &[(&str, &str)]| -> Order {
        let bench = [("deburr", "bench"), ("inspect", "bench")];
        steps.iter().chain(&bench).map(|(op, setup)| ((*op).to_owned(), (*setup).to_owned())).collect()
    };
    let (first, on_b) = ([("face-datum", datum), ("rough-B", datum)], "chuck, datum end out, on B");
    let last = [("rough-C", far), ("finish-C", far), ("rough-A", on_b), ("finish-A", on_b)];
    let faced = order(&[&first[..], &[("face-far", far), ("finish-B", far)], &last].concat());
    assert!(replay(&p.certificate.problem, &faced).is_ok(), "{:?}", violations(&p.certificate.problem, &faced));
    let late = order(&[&first[..], &[("finish-B", far), ("face-far", far)], &last].concat());
    assert_eq!(against(&p, &late), BTreeSet::from(["R1".to_owned()]));
    refused(&p, &late, "R1");
    // From the datum end it need not wait for the far face: the plan itself does not.
    assert!(number(&p, "finish-B") < number(&p, "face-far"));
    stays(text, "R1");
}

/// e-works 2011, general sequencing: rough before finish, main surfaces before minor ones.
#[test]
fn r2_rough_before_finish_and_main_before_minor() {
    let p = plan_of(STUB);
    assert!(number(&p, "rough-C") < number(&p, "finish-C"));
    refused(&p, &moved(&p, "finish-C", "rough-C"), "R2");
    refused(&p, &moved(&p, "polish-C", "finish-C"), "R2");
    refused(&p, &moved(&p, "thread-A", "finish-A"), "R2");
    stays(STUB, "R2");
}

/// US Army OD1645, p. 60: one end roughed all over, then finished.
#[test]
fn r3_an_end_is_roughed_all_over_first() {
    let p = plan_of(STUB);
    assert!(["rough-E", "rough-F", "rough-H", "rough-K"].iter().all(|r| number(&p, r) < number(&p, "finish-E")));
    refused(&p, &moved(&p, "finish-E", "rough-H"), "R3");
    let without = gives_way(STUB, "R3");
    let order = moved(&without, "finish-E", "rough-H");
    assert!(!against(&without, &order).contains("R3"));
}

/// US Army OD1645, p. 60: "rough one end, reverse, rough the part that was in the dog, then finish; finish the other end with shims under the dog". The
/// sequence is the source's; the part is invented.
#[test]
fn r3_one_end_waits_roughed_where_that_is_wished() {
    let text = include_str!("../figures/parts/inch-roughed-shaft.yaml");
    let p = plan_of(text);
    assert!(p.plan.proven_optimal && p.derived.refused.is_empty(), "{:?}", p.derived.refused);
    assert_eq!(p.certificate.verify(), Ok(()));
    // One end, the other, the other, the first.
    let turned: Vec<&str> = p
        .plan
        .operations()
        .filter(|(_, o)| matches!(o.verb, Verb::Rough | Verb::Finish) && o.end.is_some())
        .map(|(_, o)| o.id.as_str())
        .collect();
    assert_eq!(turned, ["rough-B", "rough-A", "rough-D", "finish-D", "finish-B", "finish-A"]);
    let turnings: Vec<_> = p.plan.setups.iter().filter(|s| s.holding == Holding::BetweenCenters).collect();
    let held = |i: usize| {
        let grip = turnings[i].grip.as_ref().expect("a dog");
        (grip.letter.as_str(), grip.roughed, grip.protect, grip.diameter)
    };
    assert_eq!(turnings.len(), 3);
    assert!(!held(0).1 && held(0).0.is_empty(), "the bar, and nothing under the dog");
    // .8743 to aim at and 1/32 in of it left: roughed to .904, no shim.
    assert_eq!((held(1).0, held(1).1, held(1).2), ("A", true, false));
    assert_eq!(Some(held(1).3), found(&p, "rough-A").1.to_diameter);
    assert_eq!((held(2).0, held(2).1, held(2).2), ("D", false, true), "shims under the dog");
    let sheet = sheet_of(text, Some(&parts::shop()));
    assert!(sheet.contains("dog on the roughed A, Ø .904"), "{sheet}");
    // Not before it is roughed, and no more once it is finished.
    refused(&p, &moved(&p, "rough-D", "rough-A"), "feature-in-jaws");
    refused(&p, &moved(&p, "finish-A", "finish-D"), "feature-in-jaws");

    // In the chuck with a center it is the same order, and a shaft that nobody wishes so has none of these mountings.
    let chuck = plan_of(&text.replace("  first end", "  holding: chuck and center\n  first end"));
    assert!(chuck.plan.proven_optimal && chuck.plan.setups.iter().any(|s| s.grip.as_ref().is_some_and(|g| g.roughed)));
    assert!(
        number(&chuck, "rough-D") < number(&chuck, "finish-A") && number(&chuck, "rough-A") < number(&chuck, "rough-D")
    );
    for usual in [STUB, text.split("plan:").next().expect("a part"), KEYED, SPINDLE, KNOB] {
        let p = plan_of(usual);
        assert!(p.derived.mountings.iter().all(|m| m.grip.as_ref().is_none_or(|g| !g.roughed)));
        assert!(p.plan.proven_optimal);
    }
    let free = plan_of(text.split("plan:").next().expect("a part"));
    assert!(free.plan.cost <= p.plan.cost, "a wish costs: {} and {}", free.plan.cost, p.plan.cost);
}

/// US Navy NAVEDTRA 14345: 1/32 in for finishing; OD1645: 1/32 to 1/64.
#[test]
fn r4_metal_is_left_for_the_finish_cuts() {
    let p = plan_of(STUB);
    for letter in ["C", "E", "F", "H", "K"] {
        let (rough, finish) = (found(&p, &format!("rough-{letter}")).1, found(&p, &format!("finish-{letter}")).1);
        assert!(rough.why.iter().any(|w| w.rule == "R4"), "{letter}");
        let left = rough.to_diameter.zip(finish.to_diameter).map(|(r, f)| (r - f).inches()).expect("sizes");
        assert!((1.0 / 64.0..=1.0 / 32.0).contains(&left), "{letter}: {left}");
    }
    // It cannot be done without: the description says how much instead.
    let told = plan_of(&off(STUB, "R4"));
    let told = told.derived.unheeded.iter().find(|u| u.wish == "off: R4").expect("told");
    assert!(told.why.rule == "R4" && told.why.reason.contains("finish allowance"), "{told:?}");
    let more = plan_of(&wishing(STUB, "finish allowance: 0.020"));
    assert_ne!(found(&more, "rough-C").1.to_diameter, found(&p, "rough-C").1.to_diameter);
}

/// US Navy NAVEDTRA 14345: a close size is finished cold.
#[test]
fn r5_a_close_size_is_finished_cold() {
    let p = plan_of(STUB);
    refused(&p, &moved(&p, "finish-C", "rough-A"), "R5");
    refused(&p, &moved(&p, "finish-F", "finish-E"), "R5");
    stays(STUB, "R5");
    said_only_on("Let it cool until it feels cold", STUB, &[&pin("1018 cold drawn")]);
}

/// US Navy NAVEDTRA 14345: the first roughing cut goes under the scale.
#[test]
fn r6_the_first_cut_goes_under_the_scale() {
    let (rolled, drawn) = (pin("1018 hot rolled"), pin("1018 cold drawn"));
    said_only_on("irst cut under the scale", &rolled, &[&drawn, &off(&rolled, "R6")]);
    let says = |text: &str| {
        let p = plan_of(text);
        p.plan.operations().filter(|(_, o)| o.why.iter().any(|w| w.rule == "R6")).count()
    };
    assert_eq!((says(&rolled), says(&drawn), says(&off(&rolled, "R6"))), (1, 0, 0), "one cut finds the bar's skin");
    worth(&rolled, "R6");
}

/// US Navy NAVEDTRA 14345; Machine Shop Work: the lathe stands for every measurement.
#[test]
fn r7_the_spindle_stands_for_every_measurement() {
    // Every part of a lathe is measured, so it stands on every sheet, however many other cautions the part earns.
    for text in [STUB, KEYED, KNOB, SPINDLE, &pin("1018 hot rolled"), &long_bar("1018 cold drawn")] {
        said_only_on("Spindle stopped and still before you measure", text, &[]);
    }
    stays(STUB, "R7");
    said_only_on("Spindle stopped and still before you measure", &off(STUB, "R7"), &[]);
}

/// Lathe course text: the feed goes toward the headstock.
#[test]
fn r8_the_feed_goes_toward_the_headstock() {
    let faced = pin("1018 cold drawn").replace("  - turn: 1.250\n    to: 1.500\n", "");
    said_only_on("a turn, toward the headstock", STUB, &[&faced, &off(STUB, "R8")]);
    worth(STUB, "R8");
    // What is turned is told from the tailstock inward: the numbers themselves go that way.
    let p = plan_of(STUB);
    for (setup, o) in p.plan.operations().filter(|(_, o)| matches!(o.verb, Verb::Rough | Verb::Finish)) {
        let (from, to) = (o.from.expect("from"), o.to.expect("to"));
        let at_tailstock = setup.works == Some(turnwright::model::End::Datum);
        assert_eq!(from < to, at_tailstock, "{}", o.id);
    }
}

/// G. Schneider, Cutting Tool Applications, ch. 6: the groove is there where the thread runs out.
#[test]
fn r9_relief_and_chamfer_before_the_thread() {
    let p = plan_of(STUB);
    refused(&p, &moved(&p, "thread-A", "groove-B"), "R9");
    refused(&p, &moved(&p, "thread-A", "chamfer-datum"), "R9");
    refused(&p, &moved(&p, "thread-K", "groove-J"), "R9");
    stays(STUB, "R9");
}

/// US Navy NAVEDTRA 14345, p. 179: never unclamped before the thread is done.
#[test]
fn r10_a_thread_is_cut_in_one_holding() {
    let p = plan_of(STUB);
    assert_eq!(found(&p, "finish-A").0.number, found(&p, "thread-A").0.number);
    assert_eq!(found(&p, "groove-B").0.number, found(&p, "thread-A").0.number);
    // Threaded when the work comes back between the same centers.
    refused(&p, &moved(&p, "thread-A", "mill-L"), "R10");
    stays(STUB, "R10");
    said_only_on("Leave the dog on. Lift out, try", STUB, &[SPINDLE]);
    said_only_on("Then once more at", STUB, &[SPINDLE]);
}

/// J. R. Walker, Modern Metalworking, 2004, p. 453: knurl before the thin neighbours are turned.
#[test]
fn r11_knurl_before_thin_neighbours() {
    let p = plan_of(KNOB);
    assert!(number(&p, "knurl-B") < number(&p, "finish-A"));
    refused(&p, &moved(&p, "finish-A", "knurl-B"), "R11");
    gives_way(KNOB, "R11");
}

/// Common practice, no source: the knurl's press closes a thin wall and spoils the thread in it.
#[test]
fn knurl_hole_the_knurl_comes_before_the_hole_under_it() {
    let nut = "part: nut\nunits: in\nmaterial: 360 brass\nstock: 1.25 x 12\ndatum: face\noverall: 0.625\n\
tolerances: {lengths: ±0.005, diameters: ±0.003}\nfeatures:\n  - knurl: 1.125 ±0.020\n    to: .400\n    pitch: coarse\n  - turn: .75\n    to: .625\n\
inside:\n  - thread: 1/2-13 UNC-2B\n    end: through\n";
    let text = wishing(nut, "part off: yes");
    let p = plan_of(&text);
    assert!(number(&p, "knurl-A") < number(&p, "drill-C") && number(&p, "drill-C") < number(&p, "tap-C"));
    refused(&p, &moved(&p, "drill-C", "knurl-A"), "knurl-hole");
    let free = plan_of(&wishing(nut, "part off: yes, off: [knurl-hole]"));
    assert!(stands(&p, "knurl-hole") && !stands(&free, "knurl-hole"));
}

/// US Navy NAVEDTRA 14345, keyseats: the depth counts from the finished diameter.
#[test]
fn r12_a_keyseat_after_its_seat() {
    let p = plan_of(STUB);
    refused(&p, &moved(&p, "mill-L", "finish-C"), "R12");
    let deburred = moved(&p, "deburr", "mill-L");
    assert!(against(&p, &deburred).contains("order-bench"), "the last deburring comes after it");
    stays(STUB, "R12");
}

/// Cutting Tool Engineering, July 2021: slots let the stress of drawn bar go.
#[test]
fn r13_a_slot_lets_drawn_bar_move() {
    let annealed = STUB.replace("1045 cold drawn", "1045 annealed");
    said_only_on("lets its drawing stress go", STUB, &[&annealed, &off(STUB, "R13"), &pin("1018 cold drawn")]);
    worth(STUB, "R13");
}

/// Cutting Tool Engineering, July 2021: diameters roughed, the slot cut, then finished. The keyseat's depth counts from the finished diameter all the
/// same (US Navy NAVEDTRA 14345: T = d + f, f = R - sqrt(R² - (W/2)²)), and half of what the finish still takes off is added to it (geometry).
#[test]
fn r13_a_keyseat_between_roughing_and_finish_where_that_is_wished() {
    let shaft = "part: fan shaft\nunits: in\nmaterial: 1018 cold drawn\nstock: 1.250 x 9.125\ndatum: left end\noverall: 9.000 ±0.010\n\
        tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 0.875 +0/-0.0005\n    to: 3.000\n    name: pulley seat\n  \
        - turn: 1.100\n    to: 6.500\n    name: body\n  - turn: 0.900 +0/-0.0010\n    to: end\n    name: far journal\n  \
        - keyseat: 3/16 x 3/16 x 3/4\n    from: 1.750\n    name: key\n  - center hole: A 1/8\n    end: both\n";
    let wished = wishing(shaft, "before: [[key, finish pulley seat]]");
    let p = plan_of(&wished);
    assert!(
        p.plan.proven_optimal && p.derived.refused.is_empty() && p.plan.given_way.is_empty(),
        "{:?}",
        p.derived.refused
    );
    assert_eq!(p.certificate.verify(), Ok(()));
    let mill = number(&p, "mill-D");
    for (_, o) in p.plan.operations() {
        match o.verb {
            Verb::Rough => assert!(o.number < mill, "{}", o.id),
            Verb::Finish => assert!(o.number > mill, "{}", o.id),
            _ => {}
        }
    }
    refused(&p, &moved(&p, "mill-D", "rough-A"), "R2");
    refused(&p, &moved(&p, "finish-C", "mill-D"), "R13");
    // Roughed to .904: 1/32 in over the seat, less what rounding takes.
    assert_eq!(found(&p, "mill-D").1.from_diameter, found(&p, "rough-A").1.to_diameter);

    let read = turnwright::read::part("test.yaml", wished.as_bytes());
    let part = read.part.as_ref().expect("a part");
    let chain = chain::locate(part);
    let profile = Profile::of(part, &chain);
    let figures = figures::work(part, &chain, &profile, &p.plan, Some(&parts::shop()));
    let key = figures.setups.iter().flat_map(|s| &s.operations).find_map(|o| match &o.job {
        figures::Job::Keyseat(k) => Some(k),
        _ => None,
    });
    let key = key.expect("a keyseat");
    let (rough, finished, width): (f64, f64, f64) = (0.904, 0.875, 0.1875);
    let arc = |d: f64| d / 2.0 - ((d / 2.0).powi(2) - (width / 2.0).powi(2)).sqrt();
    let close = |a: Length, b: f64| assert!((a.inches() - b).abs() < 1e-4, "{} and {b}", a.inches());
    // ASME B17.1 for .875: half of the key's height at the side.
    let deep = key.at_side.value.inches() + arc(finished);
    close(key.depth_from_top.value, deep);
    let on_rough = key.roughed.expect("milled in the roughed seat");
    close(on_rough.diameter.value, rough);
    close(on_rough.depth_from_top.value, deep + (rough - finished) / 2.0);
    close(on_rough.across_limits.exact.max, f64::midpoint(rough, finished) - deep);
    close(on_rough.side_touch.value, f64::midpoint(rough, width));
    // The bottom lies as far from the axis either way.
    close(on_rough.diameter.value - on_rough.depth_from_top.value.times(2), rough - 2.0 * deep - (rough - finished));

    let sheet = sheet_of(&wished, Some(&parts::shop()));
    for says in
        ["from the roughed top, Ø .9040", "After the finish", "Try the key then", "strikes the tool: interrupted cut"]
    {
        assert!(sheet.contains(says), "{says}: {sheet}");
    }
    for not in ["order-polish-keyseat", "lets its drawing stress go"] {
        assert!(!sheet.contains(not), "{not}");
    }
    // Elsewhere R12 stays: no wish, annealed bar, R13 off, a polished seat.
    assert!(number(&plan_of(shaft), "finish-A") < number(&plan_of(shaft), "mill-D"));
    for kept in [wished.replace("cold drawn", "annealed"), wished.replace("plan: {", "plan: {off: [R13], ")] {
        let p = plan_of(&kept);
        assert_eq!(p.derived.refused.iter().map(|r| r.why.rule).collect::<Vec<_>>(), ["R12"]);
        assert!(number(&p, "finish-A") < number(&p, "mill-D"));
    }
    let polished = plan_of(&wishing(STUB, "before: [[keyseat, finish pulley seat]]"));
    assert_eq!(polished.derived.refused[0].why.rule, "R12");
}

/// An exercise with two keyseats (at one clocking in one setup); common practice.
#[test]
fn r14_keyseats_at_one_clocking_in_one_setup() {
    let p = plan_of(KEYED);
    let keys: Vec<String> =
        p.plan.operations().filter(|(_, o)| o.verb == Verb::Mill).map(|(_, o)| o.id.clone()).collect();
    assert_eq!(keys.len(), 2);
    assert_eq!(found(&p, &keys[0]).0.number, found(&p, &keys[1]).0.number);
    refused(&p, &moved(&p, "deburr", &keys[1]), "R14");
    gives_way(KEYED, "R14");
    // Clocked apart they are turned between the cuts, in a dividing head or not: the rule does not bind them.
    let apart = KEYED
        .replace("    at: 6.750\n", "    at: 6.750\n    angle: 90°\n")
        .replace("    at: 1.250\n", "    at: 1.250\n    angle: 0°\n");
    assert!(!stands(&plan_of(&apart), "R14"));
}

/// US Army TC 9-524: a steady rest runs on a spot turned true.
#[test]
fn r15_a_steady_rest_on_a_true_spot() {
    let told = |text: &str| {
        let p = plan_of(text);
        let all: Vec<String> =
            p.plan.setups.iter().flat_map(|s| &s.why).filter(|w| w.rule == "R15").map(|w| w.reason.clone()).collect();
        all
    };
    let rolled = plan_of(&long_bar("1018 hot rolled"));
    let spots = rolled.plan.operations().filter(|(_, o)| o.is_spot()).count();
    assert!(spots > 0 && stands(&rolled, "R15"), "a spot for each end (planning/spots)");
    let drawn = told(&long_bar("1018 cold drawn"));
    assert!(drawn.iter().any(|r| r.contains("turn a spot true")), "{drawn:?}");
    assert!(told(STUB).is_empty());
    // A rest that the shop has not is not wished for.
    let wish = wishing(&long_bar("1018 cold drawn"), "holding: chuck and steady rest");
    let mut bare = parts::shop();
    bare.rests.clear();
    let (p, _) = judged(&wish, Some(&bare)).expect("a plan");
    assert!(p.derived.unheeded.iter().any(|u| u.why.rule == "R15"), "{:?}", p.derived.unheeded);
    said_only_on("teady rest on", &long_bar("1018 hot rolled"), &[STUB, SPINDLE]);
    stays(&long_bar("1018 hot rolled"), "R15");
}

/// F. D. Jones, Turning and Boring, 1914; Rose: the follow rest on a turned start, behind the tool.
#[test]
fn r16_a_follow_rest_on_a_turned_start() {
    said_only_on("Follow rest on A: turn a start", SPINDLE, &[STUB, &off(SPINDLE, "R16")]);
    let shop = parts::shop();
    let (kept, _) = judged(SPINDLE, Some(&shop)).expect("a plan");
    assert!(kept.plan.setups.iter().flat_map(|s| &s.why).any(|w| w.rule == "R16"));
    let (without, findings) = judged(&off(SPINDLE, "R16"), Some(&shop)).expect("a plan");
    assert!(without.plan.setups.iter().all(|s| s.rest.is_none()));
    assert!(findings.iter().any(|f| f.check == "deflection"), "what it gives way is told");
    worth(SPINDLE, "R16");
}

/// GTZ course B247: the steady rest lets a long overhang be faced.
#[test]
fn r17_a_long_overhang_in_a_steady_rest() {
    let text = long_bar("1018 cold drawn");
    let shop = parts::shop();
    let rested = |p: &Planned| p.plan.setups.iter().filter(|s| s.holding == Holding::ChuckAndRest).count();
    let (kept, findings) = judged(&text, Some(&shop)).expect("a plan");
    assert!(rested(&kept) > 0 && findings.iter().all(|f| f.check != "overhang"));
    let (without, findings) = judged(&off(&text, "R17"), Some(&shop)).expect("a plan");
    assert!(rested(&without) == 0 && findings.iter().any(|f| f.check == "overhang"), "the check tells what that costs");
    worth(&text, "R17");
}

/// A lathe maker's support note: a scroll chuck does not repeat true.
#[test]
fn r18_what_runs_true_together_in_one_holding() {
    let p = plan_of(STUB);
    assert_eq!(found(&p, "finish-F").0.number, found(&p, "finish-H").0.number);
    assert_eq!(found(&p, "finish-C").0.holding, Holding::BetweenCenters);
    refused(&p, &moved(&p, "finish-H", "fit-test"), "R18");
    gives_way(STUB, "R18");
}

/// F. D. Jones, Turning and Boring, 1914: two test cuts prove the tailstock.
#[test]
fn r19_the_tailstock_is_proved() {
    said_only_on("Test cut first: same Ø at both ends of C", STUB, &[&pin("1018 cold drawn"), &off(STUB, "R19")]);
    worth(STUB, "R19");
}

/// Common practice, from memory: larger diameters first.
#[test]
fn r20_larger_diameters_first() {
    let p = plan_of(STUB);
    refused(&p, &moved(&p, "rough-K", "rough-F"), "R20");
    gives_way(STUB, "R20");
}

/// Open course text `OpenWA`, Machining 1; Rose: lengths count from the face that is cut first, and shoulders are faced last.
#[test]
fn r21_the_datum_is_faced_first() {
    let p = plan_of(STUB);
    assert!(number(&p, "face-datum") < number(&p, "face-far"));
    refused(&p, &moved(&p, "face-far", "face-datum"), "R21");
    gives_way(STUB, "R21");
    // Shoulders stand proud after roughing, and not where nothing is roughed.
    let faced = pin("1018 cold drawn").replace("  - turn: 1.250\n    to: 1.500\n", "");
    said_only_on("Rough faces stand .020 proud", STUB, &[&faced]);
}

/// Common practice (collar texts): one side, because of the slack in the screw.
#[test]
fn r22_dials_are_come_to_from_one_side() {
    said_only_on("come to it that way", STUB, &[&off(STUB, "R22")]);
    said_only_on("come to it going in", STUB, &[&off(STUB, "R22")]);
    worth(STUB, "R22");
    // Without a shop file there is no dial to come to.
    assert!(!sheet_of(STUB, None).contains("come to it"));
}

/// Common practice: parted off last, never between centers.
#[test]
fn r23_parted_off_last_and_never_between_centers() {
    let bar = pin("1018 cold drawn")
        .replace("1.500 x 3.125", "1.500 x 12")
        .replace("  - center hole: none\n    end: both\n", "");
    let text = wishing(&bar, "part off: yes");
    let p = plan_of(&text);
    let (setup, _) = found(&p, "part-off");
    assert_ne!(setup.holding, Holding::BetweenCenters);
    let at = p.certificate.order.iter().position(|(o, _)| o == "part-off").expect("parted off");
    let before = p.certificate.order[at - 1].0.clone();
    refused(&p, &moved(&p, "part-off", &before), "R23");
    let between = plan_of(&wishing(&bar, "part off: yes, holding: between centers"));
    assert!(between.derived.unheeded.iter().any(|u| u.why.rule == "R23"), "{:?}", between.derived.unheeded);
    let kept = plan_of(&wishing(&bar, "part off: yes, off: [R23]"));
    assert!(kept.derived.unheeded.iter().any(|u| u.wish == "off: R23"));
    assert!(stands(&kept, "R23"));
}

/// A makerspace guide; the speed from the bending of a bar: Roark and Young.
#[test]
fn r24_bar_behind_the_spindle_turns_slowly() {
    let (short, long) = (pin("1018 cold drawn"), pin("1018 cold drawn").replace("1.500 x 3.125", "1.500 x 120"));
    let text = format!("{}\n", include_str!("../../samples/shop.yaml"));
    let text = text.lines().map(|l| if l.starts_with("spindle bore") { "spindle bore: 1.625" } else { l });
    let text = text.collect::<Vec<_>>().join("\n");
    let shop = turnwright::read::shop("shop.yaml", text.as_bytes()).shop.expect("a shop");
    let tells = |text: &str| judged(text, Some(&shop)).expect("a plan").1.iter().any(|f| f.check == "bar-whip");
    assert!(tells(&long) && !tells(&short));
    assert!(tells(&off(&long, "R24")), "a hard rule stays");
    let carried = "hangs out of the spindle’s rear";
    let sheet = |text: &str| sheet_of(text, Some(&shop)).replace('\'', "’");
    assert!(sheet(&long).contains(carried) && !sheet(&short).contains(carried));
    stays(&short, "R24");
}

/// OD1645: shims under the dog on what is finished.
#[test]
fn r25_finished_seats_are_not_gripped_bare() {
    said_only_on("dog on C over copper", STUB, &[&off(STUB, "R25")]);
    let (p, without) = (plan_of(STUB), plan_of(&off(STUB, "R25")));
    let protects = |p: &Planned| p.plan.setups.iter().filter(|s| s.grip.as_ref().is_some_and(|g| g.protect)).count();
    assert!(protects(&p) > 0 && protects(&without) == 0);
    worth(STUB, "R25");
    // The dog does not go over a slot: the keyseat in C comes after that holding.
    let on_c = plan_of(&format!("{STUB}\nplan: {{first end: datum}}\n"));
    refused(&on_c, &moved(&on_c, "mill-L", "finish-E"), "R25");
    // Where it is switched off the check still tells it.
    let (_, findings) = judged(&off(STUB, "R25"), Some(&parts::shop())).expect("a plan");
    assert!(findings.iter().any(|f| f.check == "grip-on-finished"));
}

/// Open course text `OpenWA`, Machining 1, ch. 10.6: grooves at about a quarter of the turning speed.
#[test]
fn r26_grooves_at_a_quarter() {
    let shop = parts::shop();
    let of = |text: &str, id: &str| -> OperationFigures {
        let part = part(text);
        let p = plan_of(text);
        let chain = chain::locate(&part);
        let profile = Profile::of(&part, &chain);
        let figures = figures::work(&part, &chain, &profile, &p.plan, Some(&shop));
        let number = number(&p, id);
        figures.setups.iter().flat_map(|s| &s.operations).find(|o| o.number == number).expect("figures").clone()
    };
    let surface = |f: &OperationFigures| {
        let speed = f.speed.as_ref().expect("a speed");
        speed.wanted * speed.diameter.value.mm()
    };
    let (groove, turn) = (of(STUB, "groove-B"), of(STUB, "finish-A"));
    assert!((surface(&groove) / surface(&turn) - 0.25).abs() < 1e-6);
    let fast = of(&off(STUB, "R26"), "groove-B");
    assert!((surface(&fast) / surface(&turn) - 1.0).abs() < 1e-6);
    let (kept, without) = (plan_of(STUB), worth(STUB, "R26"));
    assert!(without.plan.cost < kept.plan.cost, "faster grooves are cheaper by the clock");
}

/// Common practice, from memory: ground last, threads after a hardening that would distort them.
#[test]
fn r27_hardening_before_threads_and_grinding_last() {
    let hard = STUB.replacen("material:", "heat treatment: harden and temper to 45 HRC\nmaterial:", 1);
    said_only_on("eat treatment asked", &hard, &[STUB, &off(&hard, "R27")]);
    worth(&hard, "R27");
}

/// Common practice, from memory: threads after a hardening that would distort them, what is left on close sizes off after it, polish or grinding last;
/// of what a steel tool does not cut any more (45 HRC and over) all but that is cut soft.
#[test]
fn r27_hardening_is_sent_out_between_the_cuts_that_a_wish_names() {
    let arbor = |treatment: &str| {
        format!(
            "part: gear arbor\nunits: in\nmaterial: 4140 annealed\nheat treatment: {treatment}\nstock: 1.250 x 9.125\ndatum: left end\noverall: 9.000 ±0.010\n\
             tolerances: {{lengths: ±0.005, diameters: ±0.002}}\nfeatures:\n  - turn: 0.875 +0/-0.0005\n    to: 3.000\n    name: gear seat\n    finish: 16 µin\n  \
             - turn: 1.100\n    to: 6.500\n  - turn: 0.900 +0/-0.0010\n    to: 8.000\n  - relief: 0.600\n    to: 8.125\n  - thread: 3/4-16 UNF-2A\n    to: end\n    \
             name: nut thread\n  - chamfer: 0.050 x 45°\n    end: far\n  - center hole: A 1/8\n    end: both\n"
        )
    };
    let tough = arbor("harden and temper to 30-34 HRC");
    let wished = wishing(&tough, "before: [[heat treatment, nut thread]]");
    let p = plan_of(&wished);
    assert!(
        p.plan.proven_optimal && p.derived.refused.is_empty() && p.plan.given_way.is_empty(),
        "{:?}",
        p.plan.given_way
    );
    assert_eq!(p.certificate.verify(), Ok(()));
    let (sent, heat) = found(&p, "heat-treat");
    assert!(sent.operations.len() == 1 && sent.works.is_none() && sent.grip.is_none(), "out of the lathe, by itself");
    assert!(heat.minutes <= 0.1, "the time it is away is nobody's at the lathe: {}", heat.minutes);
    for (_, o) in p.plan.operations() {
        let after = matches!(o.verb, Verb::Thread | Verb::Polish | Verb::Deburr | Verb::Inspect) || o.close;
        if matches!(o.verb, Verb::Rough | Verb::Face | Verb::Center) {
            assert!(o.number < heat.number, "{} is cut soft", o.id);
        } else if after {
            assert!(o.number > heat.number, "{} after it", o.id);
        }
    }
    assert!(p.plan.setups.iter().any(|s| s.grip.as_ref().is_some_and(|g| g.roughed)), "it waits roughed meanwhile");
    refused(&p, &moved(&p, "heat-treat", "rough-A"), "R27");
    refused(&p, &moved(&p, "heat-treat", "polish-A"), "R27");
    let sheet = sheet_of(&wished, Some(&parts::shop()));
    for says in ["Sent out", "30-34 HRC. Left for after it", "A Ø .904 for", "run-out indicated before the first cut"]
    {
        assert!(sheet.contains(says), "{says}: {sheet}");
    }
    assert!(!sheet.contains("eat treatment asked"), "decided");

    // Too hard for a steel tool: cut soft, polished last.
    let hard =
        plan_of(&wishing(&arbor("case harden .030 deep, 58 HRC"), "before: [[heat treatment, polish gear seat]]"));
    let heat = number(&hard, "heat-treat");
    assert!(hard.plan.given_way.is_empty() && hard.plan.proven_optimal, "{:?}", hard.plan.given_way);
    for (_, o) in hard.plan.operations() {
        let late = matches!(o.verb, Verb::Polish | Verb::Deburr | Verb::FitTest | Verb::Inspect | Verb::HeatTreat);
        assert!(late || o.number < heat, "{}", o.id);
    }
    assert!(number(&hard, "polish-A") > heat);

    // The line in the head alone keeps the plan as it was; what does not harden is not sent out.
    let alone = plan_of(&tough);
    let none = plan_of(&tough.replace("heat treatment: harden and temper to 30-34 HRC\n", ""));
    assert_eq!(alone.certificate.order, none.certificate.order);
    let relieved = plan_of(&wishing(&arbor("stress relieve"), "before: [[heat treatment, nut thread]]"));
    assert!(relieved.derived.operations.iter().all(|(o, _)| o.verb != Verb::HeatTreat));
    assert_eq!(relieved.derived.unheeded.len(), 1);
}

/// The rules behind the numbered ones: each stands in a plan of its own.
#[test]
fn the_rules_without_a_number_bite_too() {
    let square = "part: key\nunits: in\nmaterial: 1018\nstock: 1.000 x 5.125\ndatum: square end\noverall: 5.000 ±0.010\n\
        tolerances: {lengths: ±0.010, diameters: ±0.003}\nfeatures:\n  - turn: 0.700\n    to: 1.000\n  - turn: 0.875 +0/-0.001\n    \
        to: 3.500\n    name: grip\n  - taper: 0.500 per foot\n    to: end\n    large: 0.750\n  - square: 0.500 +0/-0.003\n    \
        from: 0\n    to: 0.750\n";
    let bush = "part: bush\nunits: in\nmaterial: 1018\nstock: 2.250 x 2.375\ndatum: flange face\noverall: 2.250 ±0.005\n\
        tolerances: {lengths: ±0.005, diameters: ±0.003}\nfeatures:\n  - turn: 2.125\n    to: 0.375\n  - turn: 1.3760 +0.0005/-0\n    \
        to: end\n    name: press seat\ninside:\n  - bore: 1.0000 +0.0008/-0\n    end: through\n    name: running bore\n";
    let hexagon = pin("1018 cold drawn").replace("stock: 1.500 x", "stock: hex 1.500 x");
    let between = KEYED.replace("turn: stock", "turn: 1.100").replace("+0/-0.0010", "+0/-0.0005");
    let cap = pin("1018").replace("1.250\n", "1.2500 +0/-0.0005\n")
        + "inside:\n  - bore: 0.500\n    end: datum\n    to: 1.000\n";
    let screw = "part: slender screw\nunits: in\nmaterial: 1018 cold drawn\nstock: 1.000 x 14.250\ndatum: journal end\noverall: 14.000 ±0.010\n\
        tolerances: {lengths: ±0.010, diameters: ±0.003}\nfeatures:\n  - turn: 0.625\n    to: 2.500\n  - turn: stock\n    to: 3.000\n  - turn: 0.500\n    \
        to: end\n";
    let headed = parts::shop();
    let text =
        format!("{}\ndividing head: {{ratio: 40, circles: [15, 18, 20]}}\n", include_str!("../../samples/shop.yaml"));
    let dividing = turnwright::read::shop("shop.yaml", text.as_bytes()).shop.expect("a shop");
    let has = |text: &str, shop: &Shop, id: &str| {
        let (p, _) = judged(text, Some(shop)).expect("a plan");
        let told = p.plan.setups.iter().flat_map(|s| s.why.iter().chain(s.operations.iter().flat_map(|o| &o.why)));
        stands(&p, id) || told.into_iter().any(|w| w.rule == id)
    };
    for (on, not_on, shop, id) in [
        (square, STUB, &dividing, "dividing"),
        (square, STUB, &headed, "taper-method"),
        (bush, STUB, &headed, "order-bore"),
        (cap.as_str(), STUB, &headed, "drill-first"),
        (hexagon.as_str(), STUB, &headed, "interrupted"),
        (between.as_str(), STUB, &headed, "close-last"),
        (screw, STUB, &headed, "slender-last"),
    ] {
        assert!(has(on, shop, id), "{id}");
        assert!(!has(not_on, shop, id), "{id} on the stub");
    }
}

/// What is left on a diameter is a length, and R4's own test would not see a sign turned round.
#[test]
fn every_roughing_leaves_metal() {
    for text in [STUB, KEYED, SPINDLE] {
        let p = plan_of(text);
        for (_, rough) in p.plan.operations().filter(|(_, o)| o.verb == Verb::Rough) {
            let last = |o: &&Operation| o.feature == rough.feature && matches!(o.verb, Verb::Finish | Verb::Taper);
            let finish = p.plan.operations().map(|(_, o)| o).find(last);
            let (Some(r), Some(f)) = (rough.to_diameter, finish.and_then(|f| f.to_diameter)) else { continue };
            assert!(r - f > Length::ZERO, "{}", rough.id);
        }
    }
}

/// R14: in V-blocks, a slot beyond both of them has nothing under it (plain statics): it is clamped down and carried.
#[test]
fn a_slot_beyond_both_blocks_is_carried() {
    let pin = "part: Lever pin\nunits: in\nmaterial: 1045 hot rolled\nstock: 1.500 x 6.125\ndatum: big end\noverall: 6.000 ±0.010\n\
        tolerances: {lengths: ±0.010, diameters: ±0.003}\nfeatures:\n  - {turn: 1.250 +0/-0.001, to: 2.000}\n  - {turn: 1.375, to: 2.750}\n  \
        - {knurl: 1.000, to: 4.000, pitch: coarse}\n  - {turn: 0.625 +0/-0.002, to: 5.250}\n  - {thread: 1/2-13 UNC-2A, run-out: 0.150, to: end}\n  \
        - {keyseat: 1/4 x 1/4 x 1, from: 0.500}\n  - {center hole: A 1/8, end: both}\n";
    let without = pin.replace("  - {keyseat: 1/4 x 1/4 x 1, from: 0.500}\n", "");
    said_only_on("What is cut hangs outside the blocks: clamp the work down on both", pin, &[&without, STUB]);
}
