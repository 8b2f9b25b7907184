//! Worked examples printed elsewhere for what the hands set: plunges, infeed, seconds in a relief, wheels that only come near, eccentrics, reaming,
//! stepped shafts, pieces from a bar. The source stands at each; its rounding is the tolerance.

use turnwright::figures::Gearbox;
use turnwright::handbook::beam::{Beam, Hold};
use turnwright::handbook::eccentric;
use turnwright::handbook::speed::{Cut, factor};
use turnwright::model::plan::Verb;
use turnwright::model::shop::{Reads, ToolKind};
use turnwright::model::{End, Shop};
use turnwright::unit::{Length, Station, Unit};

use crate::figures::hand::{figures_of, one_setup, operation_of, part, shop, stub_figures};
use crate::figures::planned::worked;
use crate::figures::published::{operation, ratio, thread_on, wheels};
use crate::figures::published_more::{holds, inch};

fn mm(value: f64) -> Length {
    Length::from_f64(value, Unit::Millimetre)
}

/// A trade magazine's column on wide grooves (thefreelibrary.com, Canned cycle grooving): an insert of .093, the first plunge at .236 from the face, the
/// last at .335, by steps of at most .070, the insert's width counted in. So its left edge is told, and the groove roughed goes from .143 to .335: three
/// plunges. Ours are as many, the first and the last to the digit, the one between evenly spaced.
#[test]
fn plunges_of_a_magazines_wide_groove() {
    let part = part(b"part: roller\nunits: in\ndatum: face\noverall: 3\nfeatures:\n  - turn: 1.500\n    to: 3\n");
    let place = |at: f64| Station(inch(at));
    let op = operation(&part, Verb::Groove, ToolKind::Grooving, (place(0.143), place(0.335)));
    let figures = figures_of(&part, &one_setup(End::Datum, vec![op]), Some(&shop(Reads::Radius)));
    let rows = &operation_of(&figures, 10).positions;
    let at: Vec<f64> = rows.iter().map(|r| r.carriage.expect("in the lathe").value.inches()).collect();
    assert_eq!(rows.len(), 3, "{at:?}");
    holds("first", 0.236, at[0], 0.0);
    holds("last", 0.335, at[2], 0.0);
    assert!(at.windows(2).all(|p| p[1] - p[0] <= 0.070), "{at:?}");
    let walls: Vec<f64> = rows.iter().map(|r| r.from_datum.value.inches()).collect();
    assert!((walls[0] - 0.143).abs() < 1e-9 && (walls[2] - 0.335).abs() < 1e-9, "{walls:?}");
}

/// A shop calculator's page on infeed (machinecalcs.com, threading infeed): M10 x 1.5, .92 mm, equal areas, to .376 .531 .651 .751 .840 .920 in six cuts,
/// d √(i/n); another page (davehylands.com, CNC threading) derives the same. A hand takes ten: its 5th has cut as much as the printed third, its 10th as the
/// sixth. All of them follow the printed rule to a micrometre.
#[test]
fn the_infeed_of_a_calculators_page() {
    let thread = thread_on("M10x1.5-6g", &shop(Reads::Radius));
    let whole = thread.passes.last().expect("cuts").value.mm();
    let cuts: Vec<f64> = thread.passes.iter().map(|p| p.value.mm() * 0.92 / whole).collect();
    assert_eq!(cuts.len(), 10);
    for (cut, printed) in [(5, 0.651), (10, 0.920)] {
        holds("depth", printed, cuts[cut - 1], 0.000_6);
    }
    for (i, cut) in (1..).zip(&cuts) {
        holds("area", 0.92 * (f64::from(i) / 10.0).sqrt(), *cut, 0.001);
    }
}

/// R. Limpert, as ARCCA quotes him (arcca.com, Human reaction time): 1.5 s from seeing to the act done. A wider relief, a finer or coarser thread: the
/// carriage goes the whole relief in that time, no faster. With gears the sheet tells the seconds that are left of it, never fewer.
#[test]
fn a_relief_is_crossed_in_the_printed_reaction_time() {
    for (designation, neck, wide, lead) in
        [("3/4-10 UNC-2A", 0.600, 0.25, 0.1), ("3/4-16 UNF-2A", 0.660, 0.200, 0.0625)]
    {
        let text = format!(
            "part: stud\nunits: in\nmaterial: 1018 cold drawn\nstock: 1.250 x 4.250\ndatum: tip\noverall: 4.000 ±0.010\n\
             tolerances: {{lengths: ±0.010, diameters: ±0.003}}\nfeatures:\n  - thread: {designation}\n    to: 1.000\n  - relief: {neck}\n    to: {}\n  \
             - turn: 1.000\n    to: end\n",
            1.0 + wide
        );
        let fast =
            |speeds: &[u32]| Shop { speeds: speeds.to_vec(), surface_speed_hss: Some(200.0), ..shop(Reads::Radius) };
        let cut = |own: &Shop| {
            let w = worked(text.as_bytes(), Some(own));
            let number = w.plan.operations().find(|(_, o)| o.verb == Verb::Thread).expect("a thread").1.number;
            operation_of(&w.figures, number).clone()
        };
        let wanted = cut(&fast(&[])).speed.expect("a speed").wanted;
        holds("seconds", 1.5, wide / lead * 60.0 / wanted, 1e-6);
        let geared = cut(&fast(&[30, 47, 71, 108, 164]));
        let rpm = geared.speed.as_ref().and_then(|s| s.gear).expect("a gear");
        assert!(f64::from(rpm) <= wanted);
        let turnwright::figures::Job::Thread(thread) = &geared.job else { panic!("a thread") };
        let told = thread.relief_time.expect("seconds");
        holds("told", wide / lead * 60.0 / f64::from(rpm), told, 0.051);
        assert!(told >= 1.45, "{told}");
    }
}

/// A metal-workers' board (homemadetools.net, Gears for cutting metric threads on an inch lathe) prints how far pairs of wheels are off 1.27: 47 and 37
/// .021281 %, 80 and 63 -.012498 %. The leadscrew turns by their inverse, so the lead is off by as much the other way, here over a nut of M20.
#[test]
fn wheels_that_come_near_are_off_as_printed() {
    for (set, printed) in [([37, 47], 0.021_281), ([63, 80], -0.012_498)] {
        let found = wheels("M20x2.5-6g", (Some((8, 1)), None), &set);
        let Gearbox::Nearly { train, error } = found else { panic!("{found:?}") };
        assert_eq!(train, format!("{} drives {}", set[0], set[1]));
        let off = error.value.mm() / 20.0;
        holds(&train, printed, 100.0 * (1.0 / (1.0 + off) - 1.0), 0.000_000_6);
    }
}

/// A chart for 8 to the inch with 80 and 63 in the train (hobby-machinist.com, Cutting metric threads on an imperial lathe, 2019): driver, 80/63, leadscrew. Each
/// of its rows is 1 part in 8 000 long (3.175 x driver / leadscrew x 63/80). With those wheels and no others ours is as near, or nearer.
#[test]
fn a_chart_of_metric_threads_by_63_and_80() {
    for (designation, pitch, driver, screw) in [
        ("M6x1-6g", 1.0, 30, 75),
        ("M8x1.25-6g", 1.25, 30, 60),
        ("M10x1.5-6g", 1.5, 30, 50),
        ("M12x1.75-6g", 1.75, 35, 50),
        ("M16x2-6g", 2.0, 40, 50),
        ("M24x3-6g", 3.0, 60, 50),
    ] {
        let chart = 3.175 * f64::from(driver) / f64::from(screw) * 63.0 / 80.0;
        holds(designation, 0.000_125, chart / pitch - 1.0, 0.000_001);
        let found = wheels(designation, (Some((8, 1)), None), &[driver, 63, 80, screw]);
        let Gearbox::Nearly { train, error } = found else { panic!("{designation}: {found:?}") };
        let nominal: f64 = designation[1..designation.find('x').expect("a pitch")].parse().expect("a size");
        assert!((error.value.mm() / nominal).abs() <= 0.000_126, "{designation}: {train}");
    }
}

/// A page on metric threads (conradhoffman.com, Metric threading on the lathe): with 127 and 100 a screw of 8 to the inch counts as 2.5 mm, exactly.
#[test]
fn transposing_wheels_make_two_and_a_half_of_eight() {
    assert_eq!(ratio(&wheels("M20x2.5-6g", (Some((8, 1)), None), &[100, 127])), (100, 127));
}

/// A model turner's dividing head (home.scarlet.be, mini draaien frezen, project 7): an eccentric 2.5 mm off the middle is set until the indicator differs by
/// 5 mm over a turn.
#[test]
fn the_indicator_of_a_model_turner() {
    assert_eq!(eccentric::reading(mm(2.5)), mm(5.0));
    assert_eq!(eccentric::swings(mm(2.5), mm(49.0)), mm(54.0));
}

/// Applied Science for Metal Workers (chestofbooks.com, Operation of reaming): drilled 1/64 in or 1/100 smaller, never over 1/32. US Army Air Corps, TM 1-420 Lathes (1940),
/// par. 37: about half the drilling speed; a chart of allowances (utilitiesbunker.com) two thirds. Ours lies between. (TM 1-420 leaves .005 to
/// .010 for a machine reamer, as it bores first.)
#[test]
fn what_a_reamer_is_left_and_how_slowly_it_runs() {
    let text = "part: bush\nunits: in\nmaterial: 1018 cold drawn\nstock: 1.500 x 1.625\ndatum: face\noverall: 1.500 ±0.010\n\
        tolerances: {lengths: ±0.010, diameters: ±0.003}\nfeatures:\n  - turn: 1.250\n    to: end\ninside:\n  - {bore: 0.500 +0.001/-0, end: through}\n";
    let w = worked(text.as_bytes(), None);
    let size = |verb| w.plan.operations().filter(|(_, o)| o.verb == verb).filter_map(|(_, o)| o.to_diameter).max();
    let (drilled, reamed) = (size(Verb::Drill).expect("drilled"), size(Verb::Ream).expect("reamed"));
    holds("left", 1.0 / 64.0, (reamed - drilled).inches(), 0.000_6);
    assert!(reamed - drilled <= inch(1.0 / 32.0));
    let slower = factor(Cut::Ream).0 / factor(Cut::Drill).0;
    assert!((0.5..=2.0 / 3.0).contains(&slower), "{slower}");
}

/// A stepped shaft of a textbook (Ugural's critical speed of a stepped shaft, as holooly.com works it): on two bearings, its middle half of twice the moment of inertia, loaded
/// in the middle: 3 W L³ / (256 E I); W 400 N, L 1 m, I .3e-6 m⁴, E 200 kN/mm².
#[test]
fn a_stepped_shaft_of_a_textbook() {
    let thin = (64.0 * 0.3e6 / std::f64::consts::PI).powf(0.25);
    let pieces = vec![(thin, 250.0), (thin * 2.0_f64.powf(0.25), 500.0), (thin, 250.0)];
    let beam = Beam { pieces, modulus: 200_000.0, ..Beam::steel(&[], Hold::Centers) };
    let printed = 3.0 * 400.0 * 1e9 / (256.0 * 200_000.0 * 0.3e6);
    holds("mm", printed, beam.under(400.0, 500.0).expect("a beam").at_force, printed * 1e-9);
    // By the formula of the same chapter, √(g/δ): to 3384 turns a minute (from memory).
    holds("rpm", 3384.0, (9.81e3 / printed).sqrt() * 30.0 / std::f64::consts::PI, 0.6);
}

/// A shop book on tools (issuhub.com, view 4752, p. 138): finishing cuts are light, usually less than .015 in; where it must be close two of them, the first measured
/// behind. The last cuts of every close size of the sheet drawn by hand are three, alike, and what they take is what was left.
#[test]
fn last_cuts_are_light_and_measured() {
    let figures = stub_figures(Some(&shop(Reads::Radius)));
    let mut close = 0;
    for op in figures.setups.iter().flat_map(|s| &s.operations) {
        let Some(passes) = op.passes.as_ref().filter(|p| !p.cuts.is_empty()) else { continue };
        let (from, to) = (op.from.expect("a size").value, op.aim.expect("a size").value);
        let set: Vec<Length> = passes.cuts.iter().filter_map(|c| c.depth.map(|d| d.value)).collect();
        assert!(passes.cuts.len() >= 2 && set.len() + 1 == passes.cuts.len());
        assert!(set.iter().all(|d| *d == set[0] && *d < inch(0.015)), "{set:?}");
        let before_last = passes.cuts[set.len() - 1].should_read.expect("a reading").value;
        let off: Length = set.iter().map(|d| *d + *d).sum();
        assert_eq!(before_last, from - off);
        assert!((before_last - to).half() < inch(0.015) && before_last > to);
        close += 1;
    }
    assert!(close >= 3, "{close}");
}

/// Pieces of 12 in from 96 in with a cut of 1/8 between them (oldlinewoodcraft.com, Pieces from stock): seven, 84.75 used, 11.25 left over; eight would want 96.875. Here a piece is
/// the part with both its faces, and the one in hand is the first of the seven.
#[test]
fn pieces_from_a_bar() {
    let text = "part: spacer\nunits: in\nmaterial: 1018 cold drawn\nstock: 1.125 x 96\ndatum: face\noverall: 11.9375 +0/-0.010\n\
        tolerances: {lengths: ±0.010, diameters: ±0.003}\nfeatures:\n  - turn: 1.000\n    to: end\nplan: {part off: true}\n";
    let w = worked(text.as_bytes(), None);
    let left = w.figures.remains.expect("parted off");
    holds("each", 12.125, left.each.value.inches(), 1e-6);
    assert_eq!(1 + left.more, 7);
    let unused = left.length.value.inches() - f64::from(left.more) * left.each.value.inches();
    holds("left over", 11.25 - 0.125, unused, 0.04);
}
