//! What the bar weighs and what its length is the sum of; what a bearing's outer ring does in its bore.

use turnwright::chain::{self, Profile};
use turnwright::figures::{self, Figures};
use turnwright::plan;
use turnwright::sheet;
use turnwright::sheet::build::{self, Pages, Sources};
use turnwright::sheet::view::Paper;
use turnwright::unit::{Length, Unit};

use crate::figures::hand::part;

fn made(text: &str) -> (Figures, String) {
    let part = part(text.as_bytes());
    let chain = chain::locate(&part);
    let profile = Profile::of(&part, &chain);
    let planned = plan::plan(&part, &chain, &profile, None, 10).expect("a plan");
    let figures = figures::work(&part, &chain, &profile, &planned.plan, None);
    let sources =
        Sources { part: &part, chain: &chain, plan: &planned.plan, figures: &figures, findings: &[], shop: None };
    let view = build::view_of(&sources, Paper::LETTER, Pages::default());
    let text = sheet::markdown::markdown(&view).expect("the template fits");
    (figures, text.replace("<br>", " ").split_whitespace().collect::<Vec<_>>().join(" "))
}

fn rod(units: &str, stock: &str, overall: &str, turn: &str) -> String {
    format!(
        "part: rod\nunits: {units}\nmaterial: 1018 cold drawn\nstock: {stock}\ndatum: end\noverall: {overall}\n\
tolerances: {{lengths: ±{}, diameters: ±{}}}\nfeatures:\n  - turn: {turn}\n    to: end\n",
        if units == "in" { "0.010" } else { "0.2" },
        if units == "in" { "0.005" } else { "0.1" }
    )
}

/// A bar maker's worked examples give 32.04 lb for 12 ft of 1 in round: 8.01 lb for 36 in; a bar table 2.466 kg for a metre of 20 mm, with 7850 kg/m³; ours
/// is 7870 for 1018 (Callister). 3 in round by 36 in weighs nine times the inch bar, 72.1 lb or 32.7 kg: heavy enough for both units.
#[test]
fn the_mass_stands_on_the_stock_line() {
    let (figures, sheet) = made(&rod("in", "1.000 x 36", "35.500", "0.900"));
    let bar = figures.bar.as_ref().expect("a bar");
    let (mass, word) = bar.mass(Unit::Inch);
    assert!((mass - 8.01).abs() < 0.05 && word == "lb", "{mass} {word}");
    assert!(
        sheet.contains(&format!(", {}", bar.mass_text(Unit::Inch))) && !bar.mass_text(Unit::Inch).contains("kg"),
        "{sheet}"
    );
    assert!((bar.density - 7870.0).abs() < 1.0 && bar.by.contains("Callister"), "{}", bar.by);
    let (_, sheet) = made(&rod("in", "1.000 x 36", "35.500", "0.900").replace("1018 cold drawn", "unobtainium"));
    assert!(sheet.contains("steel, 7850 kg/m³"), "{sheet}");
    let (figures, sheet) = made(&rod("mm", "20 x 1000", "995", "18"));
    let bar = figures.bar.as_ref().expect("a bar");
    assert!((bar.mass(Unit::Millimetre).0 - 2.466 * 7870.0 / 7850.0).abs() < 0.006, "{:?}", bar.mass(Unit::Millimetre));
    assert!(sheet.contains("2.47 kg"), "{sheet}");
    let (figures, sheet) = made(&rod("in", "3.000 x 36", "35.500", "2.900"));
    let bar = figures.bar.as_ref().expect("a bar");
    assert!((bar.mass(Unit::Inch).0 - 72.1).abs() < 0.6 && (bar.mass(Unit::Millimetre).0 - 32.7).abs() < 0.6);
    assert!(sheet.contains("weighs about 72 lb (33 kg)"), "{sheet}");
}

/// By hand: the part at its longest 35.510, and 1/32 in to face at either end (common practice, no source).
#[test]
fn the_saw_length_is_a_sum() {
    let (figures, sheet) = made(&rod("in", "1.000 x 36", "35.500 ±0.010", "0.900"));
    let bar = figures.bar.as_ref().expect("a bar");
    let terms: Vec<String> = bar.wants.iter().map(|(_, f)| f.text(Unit::Inch)).collect();
    assert_eq!(terms, ["35.510", ".063"]);
    assert_eq!(bar.least.text(Unit::Inch), "35.573");
    assert!(sheet.contains("Saw at least 35.573: 35.510 overall + .063 facing."), "{sheet}");
    // Parted off: the tool, 1/8 in where no shop lists one, and what holds the bar then.
    let (figures, _) = made(&format!("{}plan: {{part off: true}}\n", rod("in", "1.000 x 38", "35.500", "0.900")));
    let bar = figures.bar.as_ref().expect("a bar");
    assert_eq!(bar.wants.len(), 4);
    assert_eq!(bar.wants[2].1.value, Length::PER_INCH.times_ratio(1, 8));
    assert_eq!(bar.least.value, bar.wants.iter().map(|(_, f)| f.value).sum());
}

const HUB: &str = "part: idler hub\nunits: mm\nmaterial: C45\nstock: 80 x 45\ndatum: near end\noverall: 40 ±0.2\ntolerances: ISO 2768-m\n\
features:\n  - turn: 76\n    to: end\ninside:\n  - bore: 47 H7\n    end: datum\n    depth: 14\n    carries: {part: bearing, outside: 47}\n  \
- bore: 30\n    to: end\n";

/// 47 H7 is 0/+25 µm (ISO 286-2, in the tables of the tests), a normal outer ring of over 30 to 50 mm 0/−11 µm (two pages beside its table): 0 to 36 µm of
/// clearance. In N7 (−8/−33) 33 µm of interference to 3 of clearance. The same by the bearing's number, 6204: 20 x 47 x 14.
#[test]
fn an_outer_ring_in_its_bore() {
    let clearance = |text: &str| {
        let (figures, sheet) = made(text);
        let mate = figures.mates.iter().find(|m| m.within).expect("a ring in its bore").clone();
        assert!(
            mate.bore_by.contains("ISO 492") && sheet.contains("outside 46.989 to 47.000"),
            "{} {sheet}",
            mate.bore_by
        );
        (mate.clearance.min, mate.clearance.max, sheet)
    };
    let (min, max, _) = clearance(HUB);
    assert_eq!((min, max), (Length::ZERO, Length::micrometres(36)));
    let (min, max, sheet) = clearance(&HUB.replace("H7", "N7"));
    assert_eq!((min, max), (Length::micrometres(-33), Length::micrometres(3)));
    assert!(sheet.contains("press it in square by its outer ring"), "{sheet}");
    let (min, max, _) = clearance(&HUB.replace("{part: bearing, outside: 47}", "{part: bearing 6204}"));
    assert_eq!((min, max), (Length::ZERO, Length::micrometres(36)));
    // Stated limits count before the standard's.
    let (figures, _) = made(&HUB.replace("outside: 47", "outside: 46.990 +0/-0.005"));
    let mate = figures.mates.iter().find(|m| m.within).expect("a ring in its bore");
    assert_eq!((mate.clearance.min, mate.clearance.max), (Length::micrometres(10), Length::micrometres(40)));
}
