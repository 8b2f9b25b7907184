//! Numbers that a hand would miss where they are small: what a dial cannot set, a bottom that is to be flat, sizes on instruments of the other unit.

use crate::figures::hand::{operation_of, part, shop};
use crate::figures::planned::worked;
use turnwright::figures::{Job, OperationFigures};
use turnwright::model::Shop;
use turnwright::model::plan::Verb;
use turnwright::model::shop::Reads;
use turnwright::read;
use turnwright::unit::{Length, Unit};

const SHAFT: &str = "part: shaft\nunits: in\nmaterial: 1018 cold drawn\nstock: 1.25 x 4.25\ndatum: right\noverall: 4.000 ±0.010\n\
    tolerances: {lengths: ±0.005, diameters: ±0.005}\nfeatures:\n  - {turn: 0.7500 +0/-0.001, name: seat, to: 2.000}\n  - {turn: 1.125, to: 4.000}\n";

fn mixed(dials: &str, instruments: &str) -> Shop {
    let text = format!(
        "shop: s\nunits: {dials}\nspeeds: [60, 120, 240, 480]\ninstruments:\n  - {{instrument: micrometer, range: {instruments}}}\n  - {{instrument: caliper, range: {instruments}}}\n"
    );
    let dial = if dials == "mm" {
        "cross dial: {reads: radius, division: 0.05, turn: 4}\n"
    } else {
        "cross dial: {reads: radius, division: 0.001, turn: 0.1}\n"
    };
    let read = read::shop("s", (text + dial).as_bytes());
    assert_eq!(read.slips, []);
    read.shop.expect("a shop")
}

fn finish<'a>(w: &'a crate::figures::planned::Worked, letter: &str) -> &'a OperationFigures {
    let is = |o: &turnwright::model::plan::Operation| {
        o.verb == Verb::Finish && o.feature.is_some_and(|f| w.part.features[f].letter == letter)
    };
    let number = w.plan.operations().map(|(_, o)| o).find(|o| is(o)).expect("a last cut").number;
    operation_of(&w.figures, number)
}

/// By hand: the seat reads .7502 and aims at .7495: .00035 a side, under half of the .001 of the dial. A dial told to 0 would leave it as it is.
#[test]
fn a_recut_below_a_division_is_no_reading_of_nothing() {
    let text = format!("{SHAFT}done: [10, 20, 30, 40, 50, 60]\nmeasured:\n  - {{feature: seat, diameter: 0.7502}}\n");
    let w = worked(text.as_bytes(), Some(&shop(Reads::Radius)));
    let of = finish(&w, "A");
    let dial = of.cross_dial.as_ref().expect("a dial");
    assert!(dial.below_a_division() && dial.infeed.exact == Length::micro_inches(350), "{dial:?}");
    assert_eq!(dial.infeed_text(Unit::Inch), "less than a division");
    assert!(of.remarks.iter().any(|r| r.contains("nothing for it to set")), "{:?}", of.remarks);
    assert!(!of.remarks.iter().any(|r| r.starts_with("one light cut")), "{:?}", of.remarks);
    // A thou and a half a side is set as ever.
    let w = worked(text.replace("0.7502", "0.7525").as_bytes(), Some(&shop(Reads::Radius)));
    let dial = finish(&w, "A").cross_dial.expect("a dial");
    assert!(!dial.below_a_division() && dial.infeed_text(Unit::Inch) != "less than a division");
}

/// By hand: .780 less twice .25 mm (.00984 in) is .7603 in, .7406 after the next. Three decimals would say .760, three tenths off a band of ten.
#[test]
fn readings_after_cuts_on_a_dial_in_the_other_unit_keep_their_tenths() {
    let w = worked(SHAFT.as_bytes(), Some(&mixed("mm", "0..2 in")));
    let cuts = &finish(&w, "A").passes.as_ref().expect("cuts").cuts;
    for (i, cut) in cuts.iter().enumerate() {
        let (Some(depth), Some(reads)) = (cut.depth, cut.should_read) else { continue };
        let by_hand = 0.780 - 2.0 * depth.value.inches() * (i + 1) as f64;
        let shown: f64 = reads.text(Unit::Inch).parse().expect("a number");
        assert!((shown - by_hand).abs() < 0.000_051, "cut {i}: {shown}, by hand {by_hand}");
    }
    assert!(cuts.len() >= 2 && cuts[0].should_read.is_some_and(|r| r.decimals == 4));
    // A dial in the part's own unit is set to round numbers, and so reads the work.
    let w = worked(SHAFT.as_bytes(), Some(&mixed("in", "0..2 in")));
    let cuts = &finish(&w, "A").passes.as_ref().expect("cuts").cuts;
    assert!(cuts[0].should_read.is_some_and(|r| r.decimals == 3));
}

const CUP: &str = "part: cup\nunits: in\nmaterial: 1018 cold drawn\nstock: 1.5 x 2.125\ndatum: right\noverall: 2.000 ±0.010\n\
    tolerances: {lengths: ±0.005, diameters: ±0.010}\nfeatures:\n  - {turn: 1.250, to: 2.000}\ninside:\n";

fn inside(more: &str) -> Vec<(Verb, Vec<String>)> {
    let w = worked(format!("{CUP}{more}").as_bytes(), Some(&shop(Reads::Radius)));
    let labels = |n: u32| match &operation_of(&w.figures, n).job {
        Job::Hole(h) => h.lines.iter().map(|l| format!("{} {}", l.label, l.value)).collect(),
        _ => Vec::new(),
    };
    w.plan.operations().filter(|(_, o)| o.inside).map(|(_, o)| (o.verb, labels(o.number))).collect()
}

/// A `hole` is left as drilled, point and all (README); a `bore` has a bottom. The point of a 118° drill is .3 of its diameter longer than the hole (plain
/// geometry), so a half-inch drill to the full depth would leave a cone .15 deep behind a bottom that is drawn flat.
#[test]
fn a_blind_bore_gets_its_flat_bottom() {
    let verbs = |more: &str| inside(more).into_iter().map(|(v, _)| v).collect::<Vec<_>>();
    assert_eq!(verbs("  - {bore: 0.500, end: datum, depth: 0.750}\n"), [Verb::Drill, Verb::Bore]);
    assert_eq!(verbs("  - {bore: 0.500, end: through}\n"), [Verb::Drill]);
    assert_eq!(verbs("  - {hole: 0.500, end: datum, depth: 0.750}\n"), [Verb::Drill]);
    // Its bottom lies in a wider relief: nothing to be flat.
    let relieved = "  - {bore: 0.500, end: datum, depth: 0.750}\n  - {relief: 0.560, end: datum, depth: 0.900}\n";
    assert!(!verbs(relieved).is_empty());
    // Too small for a boring tool: drilled, and squared by a drill ground flat.
    let small = inside("  - {bore: 0.1875, end: datum, depth: 0.500}\n");
    assert_eq!(small.iter().map(|(v, _)| *v).collect::<Vec<_>>(), [Verb::Drill]);
    assert!(small[0].1.iter().any(|l| l == "Bottom flat"), "{small:?}");
}

/// 1 in = 25.4 mm: the mouth of a No. 3 center drill, .109 in, is 7.0 mm or what 2.12 times its drill is, and a taper's ends as the micrometer shows them.
#[test]
fn center_mouths_and_taper_ends_as_the_instrument_shows_them() {
    let text = "part: arbor\nunits: in\nmaterial: 1018 cold drawn\nstock: 1.25 x 6.125\ndatum: nose\noverall: 6.000 ±0.010\n\
        tolerances: {lengths: ±0.005, diameters: ±0.005}\nfeatures:\n  - {taper: 1.000 to 0.850, to: 3.000}\n  - {turn: 1.125, to: 6.000}\n  - {center hole: No. 3, end: both}\n";
    let w = worked(text.as_bytes(), Some(&mixed("mm", "0..150 mm")));
    let all: Vec<&OperationFigures> = w.figures.setups.iter().flat_map(|s| &s.operations).collect();
    let center = all.iter().find_map(|o| if let Job::Center(c) = &o.job { Some(c) } else { None }).expect("a center");
    let read = center.mouth_on_scale.expect("read in millimetres");
    assert_eq!(read.unit, Unit::Millimetre);
    let told: f64 = read.size_text().parse().expect("a number");
    assert!((told - center.mouth.value.inches() * 25.4).abs() <= 0.0051 + 0.0127, "{told}");
    let taper = all.iter().find_map(|o| if let Job::Taper(t) = &o.job { Some(t) } else { None }).expect("a taper");
    let told: Vec<String> = taper.checks.iter().map(|c| c.2.expect("read in millimetres").size_text()).collect();
    let mut by_hand = [25.4, 0.85 * 25.4];
    by_hand.sort_by(f64::total_cmp);
    let mut told: Vec<f64> = told.iter().map(|t| t.parse().expect("a number")).collect();
    told.sort_by(f64::total_cmp);
    assert!(told.iter().zip(by_hand).all(|(a, b)| (a - b).abs() < 0.001), "{told:?}");
    let none = worked(text.as_bytes(), Some(&mixed("mm", "0..6 in")));
    let all = none.figures.setups.iter().flat_map(|s| &s.operations);
    assert!(all.into_iter().all(|o| !matches!(&o.job, Job::Center(c) if c.mouth_on_scale.is_some())));
}

/// DIN 332-2 has M6 with a mouth of 9.6 mm, 21 mm of core and 16 mm of thread, M8 with 12.2, 25 and 19: 1/4 in is 6.35 mm, 17.5 % of the way, so 10.055, 21.7 and 16.525 mm,
/// to .005 in: .395, .855, .650. The tap drill of 1/4-20 UNC is No. 7, .201 in (the usual tables).
#[test]
fn an_inch_thread_in_a_center_hole() {
    let text = "part: arbor\nunits: in\nmaterial: 1018 cold drawn\nstock: 1.25 x 6.125\ndatum: nose\noverall: 6.000 ±0.010\n\
        tolerances: {lengths: ±0.005, diameters: ±0.005}\nfeatures:\n  - {turn: 1.000, to: 3.000}\n  - {turn: 1.125, to: 6.000}\n  - {center hole: D 1/4-20, end: far}\n";
    for text in [text.to_owned(), text.replace("D 1/4-20", "1/4-20 UNC-2B")] {
        let part = part(text.as_bytes());
        let Some(turnwright::model::Kind::CenterHole { size: Some(size), .. }) = part.features.last().map(|f| &f.kind)
        else {
            panic!("a center hole")
        };
        let inch = |n: i64| Length::micro_inches(n * 1_000);
        assert_eq!((size.drill, size.mouth, size.depth), (inch(201), inch(395), inch(855)));
        assert_eq!(size.tapped.as_ref().map(|t| t.1), Some(inch(650)));
        let w = worked(text.as_bytes(), Some(&shop(Reads::Radius)));
        let verbs: Vec<Verb> = w.plan.operations().map(|(_, o)| o.verb).collect();
        assert!(
            verbs.contains(&Verb::Tap) && verbs.contains(&Verb::Center) && verbs.contains(&Verb::Drill),
            "{verbs:?}"
        );
    }
    assert!(read::part("p", text.replace("D 1/4-20", "1/4-20 UNC-2A").as_bytes()).slips.len() == 1, "a screw's class");
}

/// A hole across a tube is through when it is asked as deep as the wall, and says which. By hand: a barrel of 1.437 with a bore of 1.1875 has a wall of
/// .12475; the lead of a plug tap of 20 to the inch, 4 threads (ASME B94.9, from memory), is .200: .32475 / .05 is 6.5 turns.
#[test]
fn a_hole_across_a_tube_says_what_it_goes_through() {
    let text = "part: spacer\nunits: in\nmaterial: 1018 cold drawn\nstock: tube 1.500/1.124 x 3.75\ndatum: plain end\noverall: 2.250 ±0.005\n\
        tolerances: {lengths: ±0.005, diameters: ±0.003}\nfeatures:\n  - {turn: 1.437, to: end}\n  - {tapped hole: 1/4-20 UNC-2B, at: 1.125, deep: 0.130}\n\
        inside:\n  - {bore: 1.1875 +0.002/-0, end: through}\nplan: {part off: true}\n";
    let depth = |text: &str, verb: Verb| {
        let w = worked(text.as_bytes(), Some(&shop(Reads::Radius)));
        let hole = w.figures.setups.iter().flat_map(|s| &s.operations).filter_map(|o| match &o.job {
            Job::Hole(hole)
                if hole.steps.is_empty() == (verb == Verb::Tap) && (hole.touch.is_some() || hole.thread.is_some()) =>
            {
                hole.lines.iter().find(|l| l.label == "Depth")
            }
            _ => None,
        });
        hole.map(|l| format!("{}: {}", l.value, l.note)).next_back().expect("a depth")
    };
    let near = depth(text, Verb::Tap);
    assert_eq!(
        near,
        "through: the wall tapped from only, .1248, and a plug tap's lead (.2000) out beyond: about 6.5 turns; back off every half turn"
    );
    assert!(depth(text, Verb::Drill).starts_with("through: the wall drilled from only, .1248:"));
    assert!(depth(&text.replace(", deep: 0.130", ""), Verb::Tap).starts_with("through: both walls, each .1248,"));
    // What spots it is laid out.
    let laid_out = worked(text.as_bytes(), Some(&shop(Reads::Radius))).figures.layout.tools;
    assert!(laid_out.iter().any(|t| t.starts_with("center drill")), "{laid_out:?}");
    // Short of the wall it is blind.
    let blind = depth(&text.replace("0.130", "0.100"), Verb::Tap);
    assert!(
        blind.starts_with(".100: of full thread: about 2.0 turns;") && blind.ends_with("a bottoming tap"),
        "{blind}"
    );
}
