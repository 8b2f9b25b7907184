//! Eccentrics: what stands before they are cut, how the work is thrown over, what the indicator reads and what packing brings it near.

use turnwright::figures::{Inspected, Job, SecondLayout, Thrown};
use turnwright::model::part::Holding;
use turnwright::model::plan::{Operation, Setup, State, Verb};
use turnwright::model::{Shop, Workholder};
use turnwright::plan::Planned;
use turnwright::unit::{Length, Unit};

use crate::planning::believable::{is_holding_error, judged};
use crate::planning::parts;

const PIN: &str = "part: pin\nunits: in\nmaterial: 1018\nstock: 1.500 x 4.125\ndatum: shank end\noverall: 4.000 ±0.010\n\
tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 0.7500 +0/-0.0005\n    to: 1.500\n    name: shank\n  \
- turn: 1.250\n    to: 2.500\n    name: collar\n  - turn: 0.8750 +0/-0.001\n    offset: 0.1250 ±0.0005\n    to: 3.250\n    \
name: throw\n  - turn: 0.500\n    to: end\n    name: pilot\n  - chamfer: 0.030 x 45°\n    end: both\n";

const TWO: &str = "part: crank\nunits: mm\nmaterial: C45\nstock: 40 x 92\ndatum: plain end\noverall: 90 ±0.3\n\
tolerances: ISO 2768-m\nfeatures:\n  - turn: 25 h9\n    to: 45\n  - turn: 28 h9\n    to: 55\n    offset: 4 ±0.05\n    angle: 0°\n  \
- turn: 24\n    to: 62\n  - turn: 28 h9\n    to: 72\n    offset: 4 ±0.05\n    angle: 180°\n  - turn: 20 h9\n    to: end\n";

fn inch(micro: i64) -> Length {
    Length::micro_inches(micro)
}

fn planned(text: &str, shop: Option<&Shop>) -> Planned {
    let (p, findings) = judged(text, shop).expect("a plan");
    assert_eq!(p.certificate.verify(), Ok(()));
    assert!(p.plan.proven_optimal);
    assert!(!findings.iter().any(|f| f.check == "not-supported" || is_holding_error(f)), "{findings:?}");
    p
}

fn thrown(p: &Planned) -> Vec<(&Setup, &Operation)> {
    p.plan.operations().filter(|(_, o)| o.throw.is_some()).collect()
}

fn figures(text: &str, shop: Option<&Shop>, p: &Planned) -> turnwright::figures::Figures {
    let part = parts::part(text);
    let chain = turnwright::chain::locate(&part);
    let profile = turnwright::chain::Profile::of(&part, &chain);
    turnwright::figures::work(&part, &chain, &profile, &p.plan, shop)
}

fn thrown_over(f: &turnwright::figures::Figures) -> Thrown {
    f.setups.iter().find_map(|s| s.thrown.clone()).expect("thrown over")
}

/// A disc of radius `r` whose middle lies `e` from the spindle's axis: farthest and nearest point of its rim, found on the rim itself.
fn rim(r: f64, e: f64) -> (f64, f64) {
    let at = |i: u32| {
        let a = f64::from(i) / 36_000.0 * std::f64::consts::TAU;
        (e + r * a.cos()).hypot(r * a.sin())
    };
    let all = (0..36_000).map(at);
    all.fold((0.0, f64::INFINITY), |(most, least), d| (f64::max(most, d), f64::min(least, d)))
}

#[test]
fn the_eccentric_comes_last_on_the_lathe_and_is_held_on_what_is_finished() {
    let p = planned(PIN, None);
    let cuts = thrown(&p);
    assert_eq!(cuts.iter().map(|(_, o)| o.verb).collect::<Vec<_>>(), [Verb::Rough, Verb::Finish]);
    let setup = cuts[0].0;
    assert!(cuts.iter().all(|(s, _)| s.number == setup.number), "one holding");
    assert_eq!(setup.by, Workholder::Thrown(inch(125_000)));
    // Held where the work is finished, over copper, and nothing about the part's own axis comes behind it.
    let grip = setup.grip.as_ref().expect("a grip");
    let under = setup.before.iter().filter(|s| s.from < grip.to && grip.from < s.to);
    assert!(under.clone().count() > 0 && under.clone().all(|s| s.state == State::Finished) && grip.protect);
    let last = cuts.last().expect("a cut").1.number;
    let after: Vec<Verb> = p.plan.operations().map(|(_, o)| o).filter(|o| o.number > last).map(|o| o.verb).collect();
    assert_eq!(after, [Verb::Deburr, Verb::Inspect]);
}

/// What the tool meets first, and how deep it must go until it cuts all round, measured on a rim by trigonometry.
#[test]
fn what_the_tool_meets_is_the_rim_thrown_over() {
    let p = planned(PIN, None);
    let (rough, finish) = (thrown(&p)[0].1, thrown(&p)[1].1);
    let body = p.plan.operations().find(|(_, o)| o.id == "rough-C").expect("the body").1;
    let round = body.to_diameter.expect("a size");
    // The body holds the eccentric with its throw at most, and some metal around it.
    assert!(round >= inch(875_000 + 2 * 125_500), "{round:?}");
    let (far, near) = rim(round.mm() / 2.0, 3.175);
    let begins = rough.from_diameter.expect("found").mm();
    assert!((begins - 2.0 * far).abs() < 1e-6, "{begins} {far}");
    assert_eq!(finish.from_diameter, rough.to_diameter);
    assert_eq!(finish.limits.map(|l| (l.min, l.max)), Some((inch(874_000), inch(875_000))));
    let f = figures(PIN, None, &p);
    let all: Vec<&String> = f.setups.iter().flat_map(|s| &s.operations).flat_map(|o| &o.remarks).collect();
    let full = turnwright::figures::Figure::usual(Length::from_f64(2.0 * near, Unit::Millimetre), Unit::Inch);
    let says = format!("strikes once a turn down to {}", full.text(Unit::Inch));
    assert!(all.iter().any(|r| r.contains(&says)), "{says}: {all:?}");
}

#[test]
fn the_indicator_reads_twice_the_throw_and_the_speed_is_held_down() {
    let p = planned(PIN, None);
    let f = figures(PIN, None, &p);
    let t = thrown_over(&f);
    assert_eq!((t.throw.value, t.reading.value), (inch(125_000), inch(250_000)));
    let limits = t.reading_limits.expect("limits").exact;
    assert_eq!((limits.min, limits.max), (inch(249_000), inch(251_000)));
    // 1 1/2 in of bar stand in the corner before the shoulder until it is faced, thrown over by .125.
    assert_eq!(t.sweeps.value, inch(1_750_000));
    assert_eq!((t.packing_flat, t.packing_narrow), (None, None));
    for (setup, figures) in p.plan.setups.iter().zip(&f.setups) {
        for o in figures.operations.iter().filter_map(|o| o.speed.as_ref()) {
            assert!(setup.by.throw().is_none() || o.rpm() <= t.most_rpm + 1e-9);
        }
    }
    let row = f.inspection.iter().find(|r| r.kind == Inspected::Throw).expect("a row");
    assert_eq!((row.limits.exact.min, row.limits.exact.max), (inch(124_500), inch(125_500)));
    assert!(row.with.contains("half"), "{}", row.with);
    assert!(f.cautions[0].contains("out of balance"), "{:?}", f.cautions);
    assert!(f.not_supported.is_empty());
}

/// R. Thibault, Turning an eccentric hole in a 3-jaw chuck (2000): radius 1.6875, throw .313, block .448. The article turns a hole; the
/// packing does not ask.
#[test]
fn packing_where_the_shop_has_no_four_jaws() {
    let text = "part: strap pin\nunits: in\nmaterial: 1018\nstock: 3.500 x 5.125\ndatum: big end\noverall: 5.000 ±0.010\n\
tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 3.375\n    to: 3.000\n  - turn: 1.500\n    offset: 0.313\n    \
to: end\n";
    let shop = "shop: small\nunits: in\nchucks:\n  - {jaws: 3, largest: 5}\n";
    let read = turnwright::read::shop("shop.yaml", shop.as_bytes());
    let shop = read.shop.expect("a shop");
    let p = planned(text, Some(&shop));
    assert_eq!(thrown(&p)[0].0.by, Workholder::Packed(inch(313_000)));
    let t = thrown_over(&figures(text, Some(&shop), &p));
    let to_thou = |f: Option<turnwright::figures::Figure>| f.expect("packing").value.round_to(inch(1_000));
    assert_eq!((to_thou(t.packing_narrow), to_thou(t.packing_flat)), (inch(448_000), inch(470_000)));
    assert_eq!(t.reading.value, inch(626_000));
}

#[test]
fn opposite_throws_are_two_mountings_and_like_ones_are_one() {
    let p = planned(TWO, None);
    let names: std::collections::BTreeSet<&str> = thrown(&p).iter().map(|(s, _)| s.name.as_str()).collect();
    assert_eq!(names.len(), 2, "{names:?}");
    let like = TWO.replace("180°", "0°");
    let p = planned(&like, None);
    let names: std::collections::BTreeSet<&str> = thrown(&p).iter().map(|(s, _)| s.name.as_str()).collect();
    assert_eq!(names.len(), 1, "{names:?}");
}

#[test]
fn an_edge_of_an_eccentric_is_broken_in_its_holding() {
    let text = format!("{PIN}  - chamfer: 0.020 x 45°\n    at: throw end\n");
    let p = planned(&text, None);
    let cuts = thrown(&p);
    assert_eq!(cuts.last().map(|(_, o)| o.verb), Some(Verb::Chamfer), "{cuts:?}");
    assert!(cuts.iter().all(|(s, _)| s.number == cuts[0].0.number));
}

#[test]
fn what_nothing_can_hold_is_refused_with_what_to_do_by_hand() {
    let text = "part: bush\nunits: in\nmaterial: 1018\nstock: 1.500 x 2.125\ndatum: end\noverall: 2.000 ±0.010\n\
tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 1.000\n    offset: 0.125\n    to: end\n";
    let (_, findings) = judged(text, None).expect("a plan");
    let refused = findings.iter().find(|f| f.check == "not-supported").expect("refused");
    assert!(refused.help.iter().any(|h| h.contains("packing")), "{refused:?}");
}

const LONG: &str = "part: pump shaft\nunits: mm\nmaterial: C45\nstock: 40 x 224\ndatum: drive end\noverall: 220 ±0.3\n\
tolerances: ISO 2768-m\nfeatures:\n  - turn: 30 k6\n    to: 60\n  - turn: 37\n    to: 90\n  - turn: 20 h7\n    to: 130\n    offset: 8 ±0.03\n  \
- turn: 37\n    to: 160\n  - turn: 30 k6\n    to: end\n  - chamfer: 1 x 45°\n    end: both\n";

fn mm(micro: i64) -> Length {
    Length::micrometres(micro)
}

/// Machine Shop Work, Eccentric turning: where the throw is less than the shaft's radius, both pairs of centers are made in its ends. The layout
/// is that of Shop Practice (1907), Eccentric arbors: in V-blocks, the axis first, the point raised by the eccentricity, both ends alike.
#[test]
fn a_long_shaft_runs_between_second_centers() {
    let p = planned(LONG, None);
    let cuts = thrown(&p);
    let verbs: Vec<Verb> = cuts.iter().map(|(_, o)| o.verb).collect();
    assert_eq!(verbs, [Verb::Center, Verb::Center, Verb::Rough, Verb::Finish]);
    let (plate, lathe) = (cuts[0].0, cuts[2].0);
    assert_eq!((plate.number, plate.by), (cuts[1].0.number, Workholder::VBlocks));
    assert_eq!((lathe.by, lathe.holding), (Workholder::SecondCenters(mm(8_000)), Holding::BetweenCenters));
    assert_eq!((plate.held().as_str(), lathe.held().as_str()), ("V-blocks and drill press", "between second centers"));
    assert!(lathe.why.iter().any(|w| w.rule == "offset-centers"), "{:?}", lathe.why);
    // The dog lies near its plate, over copper, on what is finished.
    let grip = lathe.grip.as_ref().expect("a dog");
    assert!(grip.protect && (grip.letter == "A" || grip.letter == "E"), "{grip:?}");
    assert!(lathe.before.iter().filter(|s| s.from < grip.to && grip.from < s.to).all(|s| s.state == State::Finished));
    let f = figures(LONG, None, &p);
    let t = thrown_over(&f);
    assert_eq!((t.throw.value, t.reading.value), (mm(8_000), mm(16_000)));
    let limits = t.reading_limits.expect("limits").exact;
    assert_eq!((limits.min, limits.max), (mm(15_940), mm(16_060)));
    let holes: Vec<(String, SecondLayout)> = f
        .setups
        .iter()
        .flat_map(|s| &s.operations)
        .filter_map(|o| if let Job::Center(c) = &o.job { Some((c.size.clone(), c.second.clone()?)) } else { None })
        .collect();
    assert_eq!(holes.len(), 2);
    for (size, layout) in &holes {
        // DIN 332-1: A 3.15 (usual for 30 mm) has a mouth of 6.70, A 2.5 one of 5.30. 8 - 6.70 / 2 - 6.70 / 2 = 1.30 is less than a quarter of 6.70.
        assert_eq!(size, "A 2.5");
        assert_eq!((layout.axis_below.value, layout.line_below.value), (mm(15_000), mm(7_000)));
        assert_eq!((layout.between.value, layout.outside.value), (mm(2_000), mm(3_350)));
    }
    assert!(f.not_supported.is_empty());
    assert!(f.cautions[0].contains("out of balance"), "{:?}", f.cautions);
    assert!(f.assumed.iter().any(|a| a.what == "Second center holes"), "{:?}", f.assumed);
}

/// What has no room for a second center says so, with what it wants, and is thrown over in a chuck as far as that goes.
#[test]
fn without_room_for_second_centers_the_chuck_says_why() {
    let why = |text: &str| -> String {
        let (p, _) = judged(text, None).expect("a plan");
        let (setup, _) = thrown(&p)[0];
        assert_eq!(setup.by, Workholder::Thrown(setup.by.throw().expect("a throw")));
        setup.why.iter().filter(|w| w.rule == "offset-centers").map(|w| w.reason.clone()).collect()
    };
    // A 1.6: mouth 3.35; beside one of 6.70 it wants 5.025 + .8375 = 5.8625.
    let close = why(&LONG.replace("offset: 8", "offset: 5"));
    assert!(close.contains("run into each other") && close.contains("5.8625"), "{close}");
    // A face of 20 - 2 holds no hole at 8: 16 + 2.12 + .53 and more.
    let small = why(&LONG.replace("turn: 30 k6\n    to: 60", "turn: 20 k6\n    to: 60"));
    assert!(small.contains("datum end's face of 18.00") && small.contains("end piece"), "{small}");
    let forbidden = why(&format!("{LONG}  - center hole: none\n    end: far\n"));
    assert!(forbidden.contains("forbids a center hole in the far end"), "{forbidden}");
    assert_eq!(why(&format!("{LONG}plan: {{holding: 4-jaw chuck}}\n")), "");
}

/// Asked for, a short pin runs between second centers too; a rim that meets no other is found by trying.
#[test]
fn second_centers_are_taken_where_they_are_asked_for() {
    let short = PIN
        .replace("offset: 0.1250 ±0.0005", "offset: 0.3000 ±0.0005")
        .replace("0.500", "1.250")
        .replace("1.500 x", "1.750 x")
        .replace("turn: 0.7500 +0/-0.0005", "turn: 1.2500 +0/-0.0005")
        .replace("turn: 0.8750", "turn: 0.7500");
    let p = planned(&short, None);
    assert!(thrown(&p).iter().all(|(s, _)| !matches!(s.by, Workholder::SecondCenters(_))));
    let p = planned(&format!("{short}plan: {{holding: between centers}}\n"), None);
    let cuts = thrown(&p);
    assert_eq!(cuts.last().expect("a cut").0.by, Workholder::SecondCenters(inch(300_000)));
    let f = figures(&format!("{short}plan: {{holding: between centers}}\n"), None, &p);
    for center in f.setups.iter().flat_map(|s| &s.operations) {
        let Job::Center(cut) = &center.job else {
            continue;
        };
        let turnwright::figures::CenterCut { mouth, second: Some(layout), .. } = &**cut else {
            continue;
        };
        // Points of the second mouth's rim: none nearer to the axis than the first hole and its metal, none farther out than the face.
        let (most, least) = rim(mouth.value.mm() / 2.0, layout.throw.value.mm());
        assert!(
            least - layout.between.value.mm() > 0.0
                && most + layout.outside.value.mm() <= layout.on_diameter.value.mm() / 2.0 + 1e-9
        );
        assert!(layout.between.value.mm().min(layout.outside.value.mm()) >= mouth.value.mm() / 4.0 - 1e-4);
    }
}

/// Throws on opposite sides have their own pairs of second centers, laid out in one mounting.
#[test]
fn opposite_throws_have_their_own_second_centers() {
    let text = LONG.replace("    offset: 8 ±0.03\n", "    offset: 8 ±0.03\n    angle: 0°\n  - turn: 37\n    to: 140\n  - turn: 20 h7\n    to: 155\n    offset: 8 ±0.03\n    angle: 180°\n");
    let p = planned(&text, None);
    let centers: Vec<u32> = thrown(&p).iter().filter(|(_, o)| o.verb == Verb::Center).map(|(s, _)| s.number).collect();
    assert_eq!(centers.len(), 4);
    assert!(centers.iter().all(|n| *n == centers[0]));
    let names: std::collections::BTreeSet<&str> =
        thrown(&p).iter().filter(|(_, o)| o.verb != Verb::Center).map(|(s, _)| s.name.as_str()).collect();
    assert_eq!(names.len(), 2, "{names:?}");
}

/// Two throws of one offset at one place: one holding, both roughed before either is finished (rough before finish: the rule's source), in every order that
/// costs the least; and all of it after what runs true to the part's own axis. Throws on opposite sides are each finished in their own holding.
#[test]
fn throws_of_one_holding_are_roughed_before_one_is_finished() {
    let p = planned(&TWO.replace("180°", "0°"), None);
    let at =
        |verb: Verb| -> Vec<u32> { thrown(&p).iter().filter(|(_, o)| o.verb == verb).map(|(_, o)| o.number).collect() };
    let (rough, finish) = (at(Verb::Rough), at(Verb::Finish));
    assert_eq!((rough.len(), finish.len()), (2, 2));
    assert!(rough.iter().all(|r| finish.iter().all(|f| r < f)), "{rough:?} {finish:?}");
    let pairs = |p: &Planned| {
        let op = |i: usize| &p.derived.operations[i].0;
        let between =
            |a: usize, b: usize| op(a).throw.is_some() && op(b).throw.is_some() && op(a).feature != op(b).feature;
        p.derived.before.iter().filter(|(a, b, w)| w.rule == "R3" && between(*a, *b)).count()
    };
    assert_eq!(pairs(&p), 2, "each roughing before the other's finish, by rule and not by chance");
    assert_eq!(pairs(&planned(TWO, None)), 0);
    let own = p.plan.operations().filter(|(s, o)| s.works.is_some() && o.throw.is_none()).map(|(_, o)| o.number).max();
    assert!(own < rough.iter().min().copied(), "the seats first, {own:?}");
}

/// A crank throw: about its axis, .300 off, journals of 1.250 sweep 2 x (.300 + .625) = 1.850 (by hand), more than the eccentric's 1.500.
const CRANK: &str = "part: crank\nunits: in\nmaterial: 1045 cold drawn\nstock: 2 1/4 x 9 1/8\ndatum: drive end\noverall: 9.000 ±0.010\n\
tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 1.250 +0/-0.001\n    to: 3.000\n  - turn: 1.500 +0/-0.001\n    offset: 0.300 ±0.002\n    \
to: 5.000\n  - turn: 1.250 +0/-0.001\n    to: 9.000\n  - center hole: A 1/8\n    end: both\nplan: {holding: between centers}\n";

#[test]
fn a_crank_throw_lies_between_walls() {
    let (p, findings) = judged(CRANK, None).expect("a plan");
    let walls = findings.iter().find(|f| f.check == "eccentric-walls").expect("told");
    let lengths: Vec<String> = walls.compared.iter().map(|c| format!("{c:?}")).collect();
    // (1.850 - 1.499) / 2, the eccentric at its least.
    for at in [inch(1_850_000), inch(175_500), inch(2_000_000)] {
        assert!(lengths.iter().any(|l| l.contains(&at.pm().to_string())), "{at:?} in {lengths:?}");
    }
    let f = figures(CRANK, None, &p);
    let cuts: Vec<_> = thrown(&p).into_iter().filter(|(_, o)| matches!(o.verb, Verb::Rough | Verb::Finish)).collect();
    assert_eq!(cuts.len(), 2);
    for (_, o) in cuts {
        let of = f.setups.iter().flat_map(|s| &s.operations).find(|x| x.number == o.number).expect("figures");
        let at: Vec<i64> = of.positions.iter().map(|p| p.from_datum.value.pm() / inch(1_000).pm()).collect();
        let wanted = if o.verb == Verb::Rough { vec![3020, 4980] } else { vec![3000, 5000] };
        assert_eq!(at, wanted, "both walls stand on the sheet");
        assert!(of.remarks.iter().any(|r| r.contains("A and C sweep Ø 1.850")), "{:?}", of.remarks);
    }
}

/// A ring that roughing left on a wall stands farther out than the wall, and the tool stays outside it. By hand: a bar of 60 thrown over 8 sweeps 76, and
/// 2.5 mm outside, to a whole millimetre, is 79. The tool reaches in (71.3 − 21.979) / 2 = 24.6605: told as 24.67, no less.
#[test]
fn what_roughing_left_on_a_wall_is_in_the_way() {
    let text = "part: crank\nunits: mm\nmaterial: C45\nstock: 60 x 184\ndatum: drive end\noverall: 180 ±0.3\ntolerances: ISO 2768-m\nfeatures:\n  \
        - {turn: 25 k6, to: 50}\n  - {turn: 55, to: 70}\n  - {turn: 22 h7, offset: 8 ±0.05, to: 100}\n  - {turn: 55, to: 120}\n  - {turn: 25 k6, to: end}\n";
    let (p, findings) = judged(text, None).expect("a plan");
    let told = findings.iter().find(|f| f.check == "eccentric-walls").expect("told");
    assert!(told.message.contains("reach in 24.67 over"), "{}", told.message);
    let f = figures(text, None, &p);
    let remarks: Vec<_> = f.setups.iter().flat_map(|s| &s.operations).flat_map(|o| &o.remarks).collect();
    let way = "B and D sweep Ø 71.30, what else stands in the way Ø 76.00: on the way in stay outside Ø 79.00,";
    assert!(remarks.iter().any(|r| r.starts_with(way)), "{remarks:?}");
}

/// Where the throw and the neighbour's radius are no more than the eccentric's, the tool comes along the work as ever.
#[test]
fn an_eccentric_that_stands_out_is_open() {
    let open = CRANK.replace("0.300", "0.124");
    let (p, findings) = judged(&open, None).expect("a plan");
    assert!(findings.iter().all(|f| f.check != "eccentric-walls"));
    let f = figures(&open, None, &p);
    assert!(f.setups.iter().flat_map(|s| &s.operations).all(|o| o.remarks.iter().all(|r| !r.contains("sweep"))));
}

/// Held too far out, an eccentric is not told to bring up a center: its hole lies off this axis.
#[test]
fn no_center_is_asked_for_off_the_axis() {
    let held = CRANK.replace("0.300", "0.125").replace("2 1/4 x", "1 7/8 x");
    let (_, findings) = judged(&held, Some(&parts::shop())).expect("a plan");
    let told: Vec<_> = findings.iter().filter(|f| f.check == "overhang").collect();
    assert!(!told.is_empty());
    for f in told {
        let help = f.help.join(" ");
        assert!(help.contains("No center helps") && !help.contains("Bring up"), "{help}");
    }
}

/// A feed shaft whose thread begins where a finished seat ends: jaws behind the tool hang free there, and must not run over the step (a master
/// turner's judgement). And its bar's whip, beyond every gear, is no line of its own.
#[test]
fn a_follow_rest_is_told_of_the_step_beside_its_thread() {
    let shaft = "part: Feed shaft\nunits: in\nmaterial: 1045 cold drawn\nstock: 1 x 24 1/8\ndatum: gear end\noverall: 24.000 ±0.015\n\
tolerances: {lengths: ±0.010, diameters: ±0.002}\nfeatures:\n  - turn: 0.750 +0/-0.001\n    to: 6.000\n  - thread: 7/8-14 UNF-2A\n    to: 15.700\n  \
- relief: 0.760 +0/-0.010\n    to: 16.000\n  - turn: 15/16\n    to: 16.500\n  - turn: 0.750 +0/-0.001\n    to: 24.000\n  - chamfer: 0.06 x 45°\n    at: 6.000\n  \
- center hole: A 1/8\n    end: both\n";
    let shop = parts::shop();
    let (p, _) = judged(shaft, Some(&shop)).expect("a plan");
    let f = figures(shaft, Some(&shop), &p);
    let says = |verb: Verb| {
        let number = p.plan.operations().find(|(_, o)| o.verb == verb).expect("an operation").1.number;
        let of = f.setups.iter().flat_map(|s| &s.operations).find(|o| o.number == number).expect("figures");
        of.remarks.join(" ")
    };
    let thread = says(Verb::Thread);
    assert!(thread.contains("behind the tool on its tailstock side") && thread.contains("at 6.000"), "{thread}");
    assert!(says(Verb::Groove).contains("beside the groove, carriage locked"), "{}", says(Verb::Groove));
    assert!(f.assumed.iter().all(|a| a.what != "Bar behind the spindle"), "{:?}", f.assumed);
}
