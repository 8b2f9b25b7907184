//! Sockets and bores of shafts: held true and indicated before they are bored, cut in passes, their 60° mouths last, roughed and
//! drilled before the seats where that can be.

use turnwright::figures::{Job, work};
use turnwright::finding::Severity;
use turnwright::model::plan::{Setup, Verb};
use turnwright::model::{Shop, Workholder};
use turnwright::plan::Planned;
use turnwright::sheet::build::{self, Pages, Sources};
use turnwright::sheet::view::Paper;
use turnwright::unit::{Length, Unit};

use crate::planning::believable::judged;
use crate::planning::parts::{self, thou};
use crate::planning::{found, number};

/// A shaft of two seats with a bore in one end.
const SHAFT: &str = "part: fan shaft\nunits: in\nmaterial: 1045\nstock: 1.500 x 9.125\ndatum: fan end\noverall: 9.000 ±0.010\n\
tolerances: {lengths: ±0.005, diameters: ±0.003}\nfeatures:\n  - turn: 0.9998 +0/-0.0005\n    to: 2.500\n    name: fan seat\n  \
- turn: 1.250\n    to: 5.500\n    name: collar\n  - turn: 0.9842 +0.0002/-0.0002\n    to: 7.000\n    name: rear bearing\n    \
true to: fan seat within 0.001 TIR\n  - turn: 0.875\n    to: end\ninside:\n  - bore: 0.3750 +0.0006/-0\n    end: far\n    \
depth: 1.250\n    name: pilot\n";

/// A spindle with a socket behind a hole that runs through.
const SPINDLE: &str = "part: polishing spindle\nunits: in\nmaterial: 1045\nstock: 1.750 x 9.125\ndatum: nose\noverall: 9.000 ±0.010\n\
tolerances: {lengths: ±0.005, diameters: ±0.003}\nfeatures:\n  - turn: 1.4998 +0/-0.0005\n    to: 3.500\n    name: front bearing\n  \
- turn: 1.625\n    to: 5.000\n  - turn: 1.2498 +0/-0.0005\n    to: end\n    name: rear bearing\n    \
true to: front bearing within 0.001 TIR\n  - hole: 1/2\n    deep: through\n    end: far\ninside:\n  - taper: MT3\n    \
end: datum\n    depth: 2.500\n    name: socket\n";

const MOUTHS: [&str; 2] = ["  - chamfer: 0.080 x 30°\n    end: far\n", "  - chamfer: 0.080 x 30°\n    end: datum\n"];

fn planned(text: &str, shop: &Shop) -> (Planned, Vec<turnwright::finding::Finding>) {
    let (p, findings) = judged(text, Some(shop)).expect("a plan");
    assert_eq!(p.certificate.verify(), Ok(()));
    (p, findings)
}

fn three_jaws() -> Shop {
    let mut shop = parts::shop();
    shop.chucks.retain(|c| c.jaws == 3);
    shop
}

/// What the checks say on seats in two holdings, with how grave it is.
fn told(findings: &[turnwright::finding::Finding]) -> Vec<(Severity, &str)> {
    findings.iter().filter(|f| f.check == "seats-two-setups").map(|f| (f.severity, f.message.as_str())).collect()
}

fn figures_of(text: &str, p: &Planned, shop: &Shop) -> turnwright::figures::Figures {
    let part = parts::part(text);
    let chain = turnwright::chain::locate(&part);
    let profile = turnwright::chain::Profile::of(&part, &chain);
    work(&part, &chain, &profile, &p.plan, Some(shop))
}

fn markdown(text: &str, p: &Planned, shop: &Shop) -> String {
    let part = parts::part(text);
    let chain = turnwright::chain::locate(&part);
    let profile = turnwright::chain::Profile::of(&part, &chain);
    let figures = work(&part, &chain, &profile, &p.plan, Some(shop));
    let sources =
        Sources { part: &part, chain: &chain, plan: &p.plan, figures: &figures, findings: &[], shop: Some(shop) };
    let view = build::view_of(&sources, Paper::LETTER, Pages::default());
    let text = turnwright::sheet::markdown::markdown(&view).expect("the template fits");
    text.replace("<br>", " ").split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Common practice, no source: four jaws, the indicator on what is held, beside the jaws and where it is bare farthest out, before a
/// drill touches the work and again before the last cuts.
#[test]
fn a_bore_true_to_a_seat_is_indicated_before_it_is_bored() {
    let asked = format!("{SHAFT}    true to: rear bearing within 0.001 TIR\n");
    let shop = parts::shop();
    for text in [asked.as_str(), SHAFT] {
        let (p, findings) = planned(text, &shop);
        let (setup, _) = found(&p, "bore-E");
        assert_eq!(setup.by, Workholder::FourJaw, "{}", setup.name);
        assert_eq!(setup.runs_true, Some(Length::micro_inches(500)));
        assert_eq!(told(&findings), []);
        // About a diameter of what is held stands free for the indicator, and no cut is nearer to the jaws than before.
        let grip = setup.grip.as_ref().expect("held");
        assert_eq!((grip.letter.as_str(), setup.stick_out), ("D", Some(thou(875))));
        assert_eq!(grip.to, turnwright::unit::Station(thou(9_000 - 875)));
        let figures = figures_of(text, &p, &shop);
        let own = figures.setups.iter().find(|s| s.number == setup.number).expect("its figures");
        assert_eq!(own.indicated.as_deref(), Some("D"));
        let stops: Vec<bool> = own.operations.iter().map(|o| o.stop_before.is_some()).collect();
        assert!(stops[0] && stops[stops.len() - 1] && stops.iter().filter(|s| **s).count() == 2, "{stops:?}");
        assert!(own.in_spindle.is_some_and(|f| f.value == thou(1250)), "the collar stands in the spindle");
        let sheet = markdown(text, &p, &shop);
        for says in
            ["4-jaw chuck on D over copper", "Indicate D beside the jaws", "STOP", "in the spindle, up to Ø 1.250"]
        {
            assert!(sheet.contains(says), "{says}");
        }
    }
}

/// Where only three jaws are listed, which run out more than is asked, the check tells; unasked it is a note.
#[test]
fn without_four_jaws_a_bore_that_must_run_true_is_told() {
    let asked = format!("{SHAFT}    true to: rear bearing within 0.001 TIR\n");
    let (p, findings) = planned(&asked, &three_jaws());
    assert!(p.plan.setups.iter().all(|s| s.by == Workholder::Usual));
    assert!(
        matches!(told(&findings)[..], [(Severity::Warning, m)] if m.contains("pilot") && m.contains(".001")),
        "{findings:?}"
    );
    let (_, findings) = planned(SHAFT, &three_jaws());
    assert!(matches!(told(&findings)[..], [(Severity::Note, m)] if m.contains("pilot")), "{:?}", told(&findings));
    // Three jaws that run as true as is asked do.
    let mut good = three_jaws();
    good.chucks[0].runout = Some(Length::micro_inches(800));
    let (p, findings) = planned(&asked, &good);
    assert_eq!((found(&p, "bore-E").0.runs_true, told(&findings)), (Some(Length::micro_inches(800)), vec![]));
}

/// Morse taper 3 rises .60235 in a foot from .938 at its mouth (ASME B5.10, table 1): at 2.5 deep .8125. Bored straight to .030 under that, it
/// leaves .0777 a side at the mouth: all but the shop's last cut, .005, in equal cuts of no more than half a roughing cut (common practice).
#[test]
fn an_inside_taper_is_bored_straight_and_then_in_cuts_along_its_slope() {
    let shop = parts::shop();
    let text = format!("{SPINDLE}    true to: front bearing within 0.0005 TIR\n");
    let (p, findings) = planned(&text, &shop);
    assert_eq!(told(&findings), []);
    let (setup, taper) = found(&p, "taper-E");
    assert_eq!((setup.by, setup.runs_true), (Workholder::FourJaw, Some(Length::micro_inches(500))));
    let bore = &found(&p, "bore-E").1;
    let near = |l: Option<Length>, inches: f64| (l.expect("a size").to_f64(Unit::Inch) - inches).abs() < 2e-4;
    assert!(near(bore.from_diameter, 0.5) && near(bore.to_diameter, 0.938 - 0.60235 * 2.5 / 12.0 - 0.030));
    assert_eq!((taper.from_diameter, number(&p, "bore-E") < number(&p, "taper-E")), (bore.to_diameter, true));
    let figures = figures_of(&text, &p, &shop);
    let own = figures.setups.iter().flat_map(|s| &s.operations).find(|o| o.number == number(&p, "taper-E"));
    let Some(Job::Taper(cut)) = own.map(|o| &o.job) else { panic!("no taper") };
    let cuts = cut.cuts.expect("cuts");
    let a_side = (0.938 - bore.to_diameter.unwrap().to_f64(Unit::Inch)) / 2.0 - 0.005;
    assert_eq!(cuts.count, (a_side / 0.030).ceil() as u32, "{cuts:?}");
    assert!(near(Some(cuts.depth.value), a_side / f64::from(cuts.count)) && near(Some(cuts.left.value), 0.005));
    let sheet = markdown(&text, &p, &shop);
    assert!(sheet.contains("set out toward you") && sheet.contains(".0251 a side"), "{sheet}");
    // Inside 8 diameters or more, what the drill must reach stands on the sheet.
    assert!(sheet.contains("Must reach: **9.000**"));
}

/// The mouth is the taper's edge: it is cut after it, and the center that bears on it is a large one.
#[test]
fn the_mouth_of_a_socket_is_cut_after_it_and_wants_a_large_center() {
    let shop = parts::shop();
    let text = format!("{SPINDLE}{}{}", MOUTHS[0], MOUTHS[1]);
    let (p, _) = planned(&text, &shop);
    let row: Vec<(&Setup, _)> = p.plan.operations().collect();
    let mouth =
        row.iter().find(|(s, o)| o.verb == Verb::Chamfer && o.inside && s.works == Some(turnwright::model::End::Datum));
    let (setup, mouth) = mouth.expect("the mouth");
    let (cut, taper) = found(&p, "taper-E");
    assert!(taper.number < mouth.number && cut.number == setup.number);
    // .938 and twice .080 tan 30°.
    let figures = figures_of(&text, &p, &shop);
    assert!(
        figures.layout.tools.iter().any(|t| t.contains("pipe") && t.contains("1.030")),
        "{:?}",
        figures.layout.tools
    );
    // The hole, the socket and their mouths come before every seat: nothing heavy after.
    assert!(number(&p, "drill-D") < number(&p, "finish-A") && taper.number < number(&p, "finish-A"));
}

/// Where no center has a seat, the hole comes last; the check says what would let it come first.
#[test]
fn a_deep_hole_after_the_seats_is_told_with_what_helps() {
    let shop = parts::shop();
    let (_, findings) = planned(SPINDLE, &shop);
    let late = findings.iter().find(|f| f.check == "order-drilled-late").expect("told");
    assert!(late.help.iter().any(|h| h.contains("both mouths") && h.contains("x 30°")), "{:?}", late.help);
    let (_, findings) = planned(&format!("{SPINDLE}{}{}", MOUTHS[0], MOUTHS[1]), &shop);
    assert!(findings.iter().all(|f| f.check != "order-drilled-late"));
}

/// A close bore whose mouth carries the center: roughed before it is bored where a holding allows that, else bored first; never no plan.
#[test]
fn an_end_that_runs_on_the_mouth_of_its_bore_has_a_plan() {
    let text = format!("{SHAFT}{}", MOUTHS[0]);
    let shop = parts::shop();
    let (p, findings) = planned(&text, &shop);
    assert!(number(&p, "bore-E") < number(&p, "finish-C"), "the seat is turned on the mouth");
    assert_eq!(told(&findings), []);
    assert!(turnwright::plan::rules::rule("rough-then-bore").is_some_and(|r| !r.hard));
    // A short stub roughed in the chuck that bores it keeps the rule.
    let stub = "part: cap\nunits: in\nmaterial: 1045\nstock: 2.000 x 4.125\ndatum: face\noverall: 4.000 ±0.010\n\
        tolerances: {lengths: ±0.005, diameters: ±0.003}\nfeatures:\n  - turn: 1.500\n    to: 1.500\n  - turn: 1.875\n    to: end\n\
        inside:\n  - bore: 1.0000 +0.0008/-0\n    end: datum\n    depth: 1.000\n  - chamfer: 0.080 x 30°\n    end: datum\n";
    let (p, _) = planned(stub, &shop);
    let kept = p.plan.operations().flat_map(|(_, o)| &o.why).any(|w| w.rule == "rough-then-bore");
    assert!(kept && number(&p, "rough-A") < number(&p, "bore-C"));
}
