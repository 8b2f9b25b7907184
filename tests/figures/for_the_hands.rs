//! Small things the hands must be told once: where a dial is read between its lines, that no gear is slow enough, what a section measured when a later tool
//! is touched on it, that an overall held closer than the instrument reads is measured finer, where soft jaws end, that a center goes. Common practice, no
//! source, unless one is named; numbers by hand.

use turnwright::chain::{self, Profile};
use turnwright::figures::{self, Figures, Job};
use turnwright::model::plan::Verb;
use turnwright::model::shop::{Instrument, Reads};
use turnwright::model::{Part, Plan, Shop};
use turnwright::plan;
use turnwright::sheet;
use turnwright::sheet::build::{self, Pages, Sources};
use turnwright::sheet::view::Paper;
use turnwright::unit::{Length, Unit};

use crate::figures::hand::{part, shop};

fn made(text: &str, shop: Option<&Shop>) -> (Plan, Figures, String) {
    let part: Part = part(text.as_bytes());
    let chain = chain::locate(&part).as_measured(&part);
    let profile = Profile::of(&part, &chain);
    let planned = plan::plan(&part, &chain, &profile, shop, 10).expect("a plan");
    let figures = figures::work(&part, &chain, &profile, &planned.plan, shop);
    let sources = Sources { part: &part, chain: &chain, plan: &planned.plan, figures: &figures, findings: &[], shop };
    let view = build::view_of(&sources, Paper::LETTER, Pages::default());
    let sheet = sheet::markdown::markdown(&view).expect("the template fits");
    let sheet = sheet.replace("<br>", " ").split_whitespace().collect::<Vec<_>>().join(" ");
    (planned.plan, figures, sheet)
}

const PIN: &str = "part: pin\nunits: in\nmaterial: 1045\nstock: 1.250 x 5.125\ndatum: left end\noverall: 5.000 ±0.010\n\
tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 0.750\n    to: 0.943\n  - turn: 1.125\n    to: 3.000\n  - turn: 0.875\n    \
to: end\n";

/// On a dial with a line every .005 the wall at .943 lies between two, at .940 and .945; one at .945 does not.
#[test]
fn read_between_the_lines_is_said_once() {
    let own = shop(Reads::Radius);
    assert_eq!(own.carriage_dial.expect("a dial").division, Length::micro_inches(5_000));
    let said = |text: &str| {
        let (_, figures, sheet) = made(text, Some(&own));
        let rows: Vec<String> =
            figures.assumed.iter().filter(|a| a.what == "Carriage dial").map(|a| a.value.clone()).collect();
        assert_eq!(rows.len(), sheet.matches("read between lines").count(), "{sheet}");
        rows
    };
    let rows = said(PIN);
    assert!(rows.len() == 1 && rows[0].contains("a line every .005 in") && rows[0].contains(".943 ("), "{rows:?}");
    let rows = said(&PIN.replace("0.943", "0.945"));
    assert!(rows.iter().all(|r| !r.contains(".945")), "{rows:?}");
}

/// 90 ft/min on the 1.250 bar are 275 rpm; a lathe with no gear under 400 has none so slow.
#[test]
fn no_gear_slow_enough_is_told_at_every_cut() {
    let mut own = shop(Reads::Radius);
    let (.., sheet) = made(PIN, Some(&own));
    assert!(!sheet.contains("no gear so slow"), "{sheet}");
    own.speeds = vec![400, 800];
    let (_, figures, sheet) = made(PIN, Some(&own));
    let above =
        figures.setups.iter().flat_map(|s| &s.operations).filter(|o| o.speed.as_ref().is_some_and(|s| s.above_wanted));
    assert_eq!(sheet.matches("no gear so slow").count(), above.count(), "{sheet}");
}

const SEAT: &str = "part: driver\nunits: in\nmaterial: 1045\nstock: 1.250 x 5.125\ndatum: left end\noverall: 5.000 ±0.010\n\
tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 0.8745 +0/-0.0005\n    to: 2.000\n    name: seat\n  - turn: 1.125\n    to: end\n  \
- groove: 0.820\n    from: 0.200\n    wide: 0.093\n  - keyseat: Woodruff 606\n    at: 1.200\n";

/// A seat that came out at .8742: the groove is touched off there and the keyseat's cutter raised by half of it, (.8742 + .1875) / 2 = .53085; T = d + f
/// (NAVEDTRA 14345) with f = (S − √(S² − w²)) / 2 for S = .8742.
#[test]
fn what_came_out_is_what_later_tools_touch() {
    let (whole, ..) = made(SEAT, None);
    let numbers: Vec<String> = whole
        .operations()
        .filter(|(_, o)| !matches!(o.verb, Verb::Groove | Verb::Mill | Verb::Deburr | Verb::Inspect | Verb::FitTest))
        .map(|(_, o)| o.number.to_string())
        .collect();
    let text = format!("{SEAT}done: [{}]\nmeasured:\n  - {{feature: seat, diameter: 0.8742}}\n", numbers.join(", "));
    let (plan, figures, sheet) = made(&text, None);
    let at = |verb: Verb| {
        let n = plan.operations().position(|(_, o)| o.verb == verb).expect("it is left to do");
        figures.setups.iter().flat_map(|s| &s.operations).nth(n).expect("its figures")
    };
    assert_eq!(at(Verb::Groove).from.expect("a surface").text(Unit::Inch), ".8742");
    let Job::Keyseat(key) = &at(Verb::Mill).job else { panic!("a keyseat") };
    assert!((key.side_touch.value.inches() - 0.53085).abs() < 1e-6, "{:?}", key.side_touch);
    let rise = (0.8742 - (0.8742f64.powi(2) - 0.1875f64.powi(2)).sqrt()) / 2.0;
    assert!((key.arc_height.value.inches() - rise).abs() < 1e-6, "{:?}", key.arc_height);
    assert!(sheet.contains("as it was measured, .8742"), "{sheet}");
}

/// A caliper good to ±.001 says nothing of an overall within ±.0002.
#[test]
fn an_overall_held_closer_than_it_is_read() {
    let mut own = shop(Reads::Radius);
    let caliper = Instrument {
        kind: "caliper".to_owned(),
        range: Some((Length::ZERO, Length::PER_INCH.times(12))),
        error: Some(Length::micro_inches(1_000)),
        unit: Unit::Inch,
    };
    own.instruments = vec![caliper];
    let coarse = |text: &str| {
        let (_, figures, sheet) = made(text, Some(&own));
        let told = figures.setups.iter().filter_map(|s| s.correction.as_ref()).any(|c| c.coarse.is_some());
        assert!(figures.setups.iter().any(|s| s.correction.is_some()));
        assert_eq!(told, sheet.contains("the zero is no better than that reading"), "{sheet}");
        told
    };
    assert!(!coarse(PIN));
    assert!(coarse(&PIN.replace("5.000 ±0.010", "5.0000 ±0.0002")));
}
