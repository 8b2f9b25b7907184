//! Hand-worked, recomputed: the pulley stub's sheet as it was worked by hand for a lathe with an 8 tpi leadscrew, a thread dial of 32
//! teeth and 8 marks, speeds 60 90 140 215 330 500 780, a grooving tool .093 wide, high-speed steel at 90 ft/min.
//! No outside source: the arithmetic was done once by hand and once by script before this program was written.

use crate::figures::hand::{lettered, operation_of, plan, setup_of, shop, stub, stub_figures, tenths};
use turnwright::figures::{CarriageZero, Edge, Figure, Gearbox, Job, KeyseatCut, ThreadCut};
use turnwright::model::plan::Plan;
use turnwright::model::shop::Reads;
use turnwright::unit::Unit;

fn text(figure: Figure) -> String {
    figure.text(Unit::Inch)
}

fn carriage(number: u32) -> Vec<String> {
    let figures = stub_figures(Some(&shop(Reads::Radius)));
    operation_of(&figures, number).positions.iter().map(|p| text(p.carriage.expect("on the lathe"))).collect()
}

fn thread(number: u32) -> ThreadCut {
    match operation_of(&stub_figures(Some(&shop(Reads::Radius))), number).job.clone() {
        Job::Thread(thread) => *thread,
        other => panic!("{other:?}"),
    }
}

fn keyseat() -> KeyseatCut {
    match operation_of(&stub_figures(None), 220).job.clone() {
        Job::Keyseat(key) => *key,
        other => panic!("{other:?}"),
    }
}

/// By hand, 7.000 less each length from the datum end: common practice, no source prints a sheet of it.
#[test]
fn lengths_after_the_flip_count_from_the_far_face() {
    let figures = stub_figures(Some(&shop(Reads::Radius)));
    let table = [
        (200, "3.750", "3.250"),
        (130, "6.020", ".980"),
        (180, "6.500", ".500"),
        (210, "6.000", "1.000"),
        (160, "4.350", "2.650"),
        (150, "3.650", "3.350"),
        (190, "6.620", ".380"),
    ];
    for (number, datum, far) in table {
        let rows = &operation_of(&figures, number).positions;
        let stop = if number == 190 { &rows[0] } else { rows.last().expect("a stop") };
        assert_eq!(text(stop.from_datum), datum, "{number}");
        assert_eq!(stop.carriage.map(text).as_deref(), Some(far), "{number}");
        assert_eq!(text(stop.from_far_end), far, "{number}");
    }
}

/// By hand, what the overall is too long or short, once, at the zero: common practice, no source.
#[test]
fn the_flip_is_corrected_once() {
    let figures = stub_figures(Some(&shop(Reads::Radius)));
    let fourth = setup_of(&figures, 4);
    assert_eq!(fourth.zero, CarriageZero::FarFace);
    let correction = fourth.correction.clone().expect("a correction");
    assert_eq!(text(correction.overall), "7.000");
    assert_eq!(
        (text(correction.example_measured), text(correction.example_set)),
        ("7.003".into(), "\u{2212}.003".into())
    );
    for number in [1, 2, 3, 5] {
        assert_eq!(setup_of(&figures, number).correction, None, "setup {number}");
    }
}

#[test]
fn grooves_by_the_left_edge() {
    assert_eq!(carriage(80), [".943", "1.000"]);
    assert_eq!(carriage(180), [".473", ".500"]);
    let figures = stub_figures(Some(&shop(Reads::Radius)));
    for (number, walls) in [(80, [".850", "1.000"]), (180, ["6.620", "6.500"])] {
        let rows = &operation_of(&figures, number).positions;
        assert!(rows.iter().all(|r| r.edge == Edge::Left));
        assert_eq!(rows.iter().map(|r| text(r.from_datum)).collect::<Vec<_>>(), walls);
    }
    let cross = operation_of(&figures, 80).cross_dial.expect("a radius dial");
    assert_eq!(text(cross.infeed.shown), ".040");
    assert_eq!(text(cross.zero.diameter), ".620");
    assert_eq!(cross.zero.feature, Some(lettered(&stub(), "A")));
}

/// By hand; that the last cuts are three and alike is common practice, no source (light, and measured behind the first: `published_hands`).
#[test]
fn roughing_and_the_three_last_cuts() {
    let figures = stub_figures(Some(&shop(Reads::Radius)));
    let rough = operation_of(&figures, 50);
    let passes = rough.passes.as_ref().expect("passes");
    assert_eq!((passes.count, text(passes.depth)), (3, ".058".into()));
    let speed = rough.speed.as_ref().expect("a speed");
    assert_eq!(speed.gear, Some(215));
    assert_eq!(speed.wanted.round() as i64, 275);
    assert_eq!(text(rough.positions[0].carriage.expect("carriage")), "3.230");
    let finish = operation_of(&figures, 100);
    assert_eq!(finish.aim.map(text).as_deref(), Some(".8743"));
    let limits = finish.limits.expect("limits");
    assert_eq!((text(limits.max), text(limits.min)), (".8745".into(), ".8740".into()));
    let cuts = &finish.passes.as_ref().expect("passes").cuts;
    let shown: Vec<_> = cuts.iter().map(|c| (c.dial.map(|d| text(d.shown)), c.should_read.map(text))).collect();
    let some = |s: &str| Some(s.to_owned());
    assert_eq!(shown, [(some(".005"), some(".894")), (some(".005"), some(".884")), (None, None)]);
}

/// The column CROSS of the sheet drawn by hand: readings from where the turning tool touched the skin, turns and what is left over.
#[test]
fn cross_dial_from_the_skin() {
    let figures = stub_figures(Some(&shop(Reads::Radius)));
    let table = [
        (50, ".173", 1, ".073"),
        (60, ".300", 3, ".000"),
        (110, ".080", 0, ".080"),
        (120, ".216", 2, ".016"),
        (130, ".275", 2, ".075"),
        (140, ".362", 3, ".062"),
    ];
    for (number, reading, turns, rest) in table {
        let cross = operation_of(&figures, number).cross_dial.expect("a radius dial");
        assert_eq!(text(cross.from_zero.shown), reading, "{number}");
        assert_eq!((cross.from_zero.turns, text(cross.from_zero.rest)), (turns, rest.to_owned()), "{number}");
    }
    let from_before = operation_of(&figures, 60).cross_dial.expect("a radius dial").infeed;
    assert_eq!(text(from_before.shown), ".127");
}

/// The same column for a lathe whose cross dial reads diameters, worked by hand from the diameters alone (no outside source: what comes off the
/// diameter is what such a dial moves by): 1.250 to .904 is .346, three turns of .100 and .046.
#[test]
fn cross_dial_that_reads_diameters() {
    let figures = stub_figures(Some(&shop(Reads::Diameter)));
    let table = [
        (50, ".346", 3, ".046"),
        (60, ".600", 6, ".000"),
        (110, ".160", 1, ".060"),
        (120, ".432", 4, ".032"),
        (130, ".550", 5, ".050"),
        (140, ".724", 7, ".024"),
    ];
    for (number, reading, turns, rest) in table {
        let cross = operation_of(&figures, number).cross_dial.expect("a diameter dial");
        assert_eq!(text(cross.from_zero.shown), reading, "{number}");
        assert_eq!((cross.from_zero.turns, text(cross.from_zero.rest)), (turns, rest.to_owned()), "{number}");
    }
    // .904 to .650, and the groove from .620 to .540.
    for (number, infeed) in [(60, ".254"), (80, ".080")] {
        let cross = operation_of(&figures, number).cross_dial.expect("a diameter dial");
        assert_eq!(text(cross.infeed.shown), infeed, "{number}");
    }
    let cuts = &operation_of(&figures, 100).passes.as_ref().expect("passes").cuts;
    let shown: Vec<_> = cuts.iter().map(|c| (c.dial.map(|d| text(d.shown)), c.should_read.map(text))).collect();
    let some = |s: &str| Some(s.to_owned());
    assert_eq!(shown, [(some(".010"), some(".894")), (some(".010"), some(".884")), (None, None)]);
}

/// Gear and wanted speed of every turning operation of the sheet drawn by hand.
#[test]
fn gears_not_above_the_wanted_speed() {
    let figures = stub_figures(Some(&shop(Reads::Radius)));
    let table = [
        (50, 215, 275),
        (60, 330, 380),
        (70, 500, 529),
        (80, 90, 139),
        (100, 330, 380),
        (110, 215, 275),
        (120, 215, 315),
        (130, 330, 420),
        (140, 330, 491),
        (150, 215, 315),
        (160, 330, 420),
        (170, 500, 654),
        (180, 140, 173),
        (200, 330, 420),
        (210, 330, 491),
    ];
    for (number, gear, wanted) in table {
        let speed = operation_of(&figures, number).speed.clone().expect("a speed");
        assert_eq!((speed.gear, speed.wanted.round() as i64), (Some(gear), wanted), "{number}");
    }
}

#[test]
fn passes_of_the_rough_cuts() {
    let figures = stub_figures(Some(&shop(Reads::Radius)));
    for (number, count, depth) in
        [(50, 3, ".058"), (60, 3, ".042"), (110, 2, ".040"), (120, 3, ".045"), (130, 1, ".059"), (140, 2, ".044")]
    {
        let passes = operation_of(&figures, number).passes.clone().expect("passes");
        // .0435 prints as .044 and .1733/3 as .058: halves go up.
        assert_eq!((passes.count, text(passes.depth)), (count, depth.to_owned()), "{number}");
    }
}

#[test]
fn the_thread_at_the_datum_end() {
    let thread = thread(90);
    let compound = thread.compound.as_ref().expect("set over");
    assert_eq!(compound.angle, "29\u{bd}\u{b0}");
    let tenth = |f: &Figure| Figure::new(f.value, 4).text(Unit::Inch);
    assert_eq!(tenth(&compound.travel), ".0392");
    let exact: Vec<String> = thread.passes.iter().map(tenth).collect();
    assert_eq!(exact, [".0131", ".0185", ".0226", ".0261", ".0292", ".0320", ".0345", ".0369", ".0392"]);
    let shown: Vec<String> = thread.passes.iter().map(|f| text(*f)).collect();
    assert_eq!(shown, [".013", ".018", ".023", ".026", ".029", ".032", ".035", ".037", ".039"]);
    assert_eq!(thread.spring_passes, 1);
    assert_eq!(text(thread.straight.expect("radius dial").shown), ".034");
    assert_eq!((text(thread.blank.max), text(thread.blank.min)), (".6236".into(), ".6149".into()));
    let wires = thread.wires.expect("wires");
    assert!(wires.at_hand);
    assert_eq!(
        (text(wires.wire), text(wires.over.max), text(wires.over.min)),
        (".0321".into(), ".6357".into(), ".6310".into())
    );
    let dial = thread.dial.clone().expect("a thread dial");
    assert_eq!((dial.says.as_str(), dial.lines.len(), dial.never_open), ("any mark", 8, false));
    assert_eq!(thread.gearbox, Some(Gearbox::Listed("18 tpi".to_owned())));
    let speed = operation_of(&stub_figures(Some(&shop(Reads::Radius))), 90).speed.clone().expect("a speed");
    assert_eq!(speed.gear, Some(90));
    assert!((thread.relief_time.expect("a relief") - 1.8).abs() < 1e-9);
    assert_eq!(thread.relief.map(text).as_deref(), Some(".150"));
}

#[test]
fn the_thread_at_the_far_end() {
    let thread = thread(190);
    let shown: Vec<String> = thread.passes.iter().map(|f| text(*f)).collect();
    assert_eq!(shown, [".012", ".018", ".022", ".025", ".028", ".031", ".033", ".035"]);
    let wires = thread.wires.expect("wires");
    assert_eq!(
        (text(wires.wire), text(wires.over.max), text(wires.over.min)),
        (".0289".into(), ".5096".into(), ".5053".into())
    );
    assert_eq!(thread.straight.map(|d| text(d.shown)).as_deref(), Some(".031"));
    assert!((thread.relief_time.expect("a relief") - 1.6).abs() < 1e-9);
}

#[test]
fn the_keyseat() {
    let key = keyseat();
    assert_eq!(text(key.side_touch), ".5310");
    assert_eq!(key.side_touch.value, tenths(5_310));
    assert_eq!((text(key.depth_from_top), text(key.across_bottom)), (".2245".into(), ".6500".into()));
    assert_eq!((text(key.across_limits.max), text(key.across_limits.min)), (".6500".into(), ".6445".into()));
    assert_eq!((text(key.slot.from), text(key.slot.to)), ("1.782".into(), "2.468".into()));
    assert_eq!(key.center.map(text).as_deref(), Some("2.125"));
    assert_eq!(text(key.arc_height), ".0102");
}

/// By hand: a height gauge stands at the length itself, from the face the bar stands on. Common practice, no source.
#[test]
fn lines_of_the_blank_and_after_roughing() {
    let figures = stub_figures(Some(&shop(Reads::Radius)));
    let [blank, rough] = figures.marks.lists.as_slice() else { panic!("two lists") };
    let rows = |list: &turnwright::figures::MarkList| -> Vec<(String, String, String)> {
        list.marks.iter().map(|m| (m.label.clone(), text(m.height_gauge), m.leave.word().to_owned())).collect()
    };
    let row = |label: &str, at: &str, leave: &str| (label.to_owned(), at.to_owned(), leave.to_owned());
    assert_eq!((blank.name.as_str(), blank.when.as_str()), ("blank", "after setup 2"));
    assert_eq!(
        rows(blank),
        [row("M1", "3.250", "leave line"), row("M2", "3.650", "leave line"), row("M3", "6.250", "leave line")]
    );
    assert_eq!(
        rows(rough),
        [
            row("M4", ".850", "split line"),
            row("M5", "1.000", "split line"),
            row("M6", "3.750", "split line"),
            row("M7", "4.350", "leave line"),
            row("M8", "6.000", "split line"),
            row("M9", "6.500", "split line"),
            row("M10", "6.620", "split line"),
        ]
    );
    let on: Vec<&str> = rough.marks.iter().map(|m| m.on.as_str()).collect();
    assert_eq!(
        on,
        ["A at .620", "C at .904", "E at 1.090", "F\u{2013}G at .818", "G at .818", "H at .700", "K at .496"]
    );
    let after: Vec<u32> = rough.marks.iter().map(|m| m.after).collect();
    assert_eq!(after, [70, 60, 140, 140, 140, 140, 170]);
    assert_eq!(setup_of(&figures, 3).grip_mark.as_deref(), Some("M3"));
    assert!(figures.marks.notes.iter().any(|n| n.contains("Keyseat L gets no line") && n.contains("2.125")));
}

/// Without a shop file no number that would scrap a part when guessed.
#[test]
fn without_a_shop_file() {
    let figures = stub_figures(None);
    for op in figures.setups.iter().flat_map(|s| &s.operations) {
        assert!(op.cross_dial.is_none());
        assert!(op.speed.as_ref().is_none_or(|s| s.gear.is_none()));
        assert!(op.positions.iter().all(|p| p.dial.is_none()));
        if let Job::Thread(thread) = &op.job {
            assert!(thread.dial.is_none() && thread.gearbox.is_none() && thread.straight.is_none());
            assert!(thread.compound.as_ref().is_some_and(|c| c.dial.is_none()));
            assert!(thread.wires.is_some() && !thread.passes.is_empty());
        }
    }
    assert_eq!(operation_of(&figures, 50).speed.as_ref().map(|s| s.wanted.round() as i64), Some(275));
    assert!(figures.assumed.iter().any(|a| a.value.contains("cross dial")));
    let walls: Vec<(Edge, String)> =
        operation_of(&figures, 80).positions.iter().map(|p| (p.edge, text(p.carriage.expect("carriage")))).collect();
    assert_eq!(walls, [(Edge::Right, ".850".to_owned()), (Edge::Left, "1.000".to_owned())]);
}

#[test]
fn what_to_lay_out_and_to_mind() {
    let figures = stub_figures(Some(&shop(Reads::Radius)));
    let tools = &figures.layout.tools;
    for wanted in
        ["grooving tool .093 wide", "center drill A 1/8", "cutter for Woodruff 606", "dog, drive plate, two centers"]
    {
        assert!(tools.iter().any(|t| t == wanted), "{wanted}: {tools:?}");
    }
    let instruments = &figures.layout.instruments;
    for wanted in
        ["micrometer 0\u{2013}1", "micrometer 1\u{2013}2", "wires .0321", "wires .0289", "pulley, bore 0.8750"]
    {
        assert!(instruments.iter().any(|t| t == wanted), "{wanted}: {instruments:?}");
    }
    assert_eq!(figures.cautions.len(), 7);
    assert!(figures.cautions.iter().any(|c| c.contains("90 rpm") && c.contains("relief B")), "{:?}", figures.cautions);
    let finish = operation_of(&figures, 100);
    assert!(finish.stop_before.is_some());
    assert_eq!(finish.stop_after.as_deref(), Some("Leave the dog on. Lift out, try the nut and the pulley, put back."));
    assert!(operation_of(&figures, 200).remarks.iter().any(|r| r == "corner at most .020"));
}

#[test]
fn every_toleranced_size_is_inspected() {
    let figures = stub_figures(Some(&shop(Reads::Radius)));
    let row = |letters: &str, upper: &str| {
        figures
            .inspection
            .iter()
            .find(|r| r.letters == letters && text(r.limits.max) == upper)
            .map(|r| (text(r.limits.min), r.with.clone()))
    };
    for (letters, upper, lower, with) in [
        ("A", ".6236", ".6149", "micrometer 0\u{2013}1"),
        ("A", ".6357", ".6310", "micrometer 0\u{2013}1, wires .0321"),
        ("B", ".545", ".535", "caliper 0\u{2013}12"),
        ("C", ".8745", ".8740", "micrometer 0\u{2013}1"),
        ("E", "1.062", "1.058", "micrometer 1\u{2013}2"),
        ("F", ".7878", ".7875", "micrometer 0\u{2013}1"),
        ("H", ".6696", ".6694", "micrometer 0\u{2013}1"),
        ("K", ".5096", ".5053", "micrometer 0\u{2013}1, wires .0289"),
        ("L", ".6500", ".6445", "micrometer 0\u{2013}1, bottom to far side"),
        ("AB", ".855", ".845", "caliper 0\u{2013}12"),
        ("CD", "3.255", "3.245", "depth micrometer 0\u{2013}6"),
        ("L", "2.130", "2.120", "caliper 0\u{2013}12"),
        ("", "7.010", "6.990", "caliper 0\u{2013}12"),
        ("FH", "2.260", "2.240", "caliper 0\u{2013}12"),
    ] {
        assert_eq!(row(letters, upper), Some((lower.to_owned(), with.to_owned())), "{letters} {upper}");
    }
}

/// The plan used here is the one these numbers were worked for; a plan with no setups gives no figures and no panic.
#[test]
fn an_empty_plan() {
    let part = stub();
    let figures = crate::figures::hand::figures_of(&part, &Plan::default(), None);
    assert!(figures.setups.is_empty());
    assert!(figures.marks.lists.iter().all(|l| l.name == "blank"));
    assert_eq!(plan(&part).setups.len(), 5);
}
