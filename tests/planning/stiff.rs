//! Rests where the work would give way or cannot be held by a center.

use turnwright::finding::Compared;
use turnwright::model::part::Holding;
use turnwright::model::plan::Verb;
use turnwright::plan::Planned;
use turnwright::unit::Length;

use crate::planning::believable::judged;
use crate::planning::parts;

/// A slender spindle between centers: 14 inches of half-inch journal held to half a thousandth.
fn spindle(diameter: &str) -> String {
    format!(
        "part: spindle\nunits: in\nmaterial: 1045 cold drawn\nstock: 0.750 x 16.125\ndatum: left end\noverall: 16.000 ±0.010\n\
         tolerances: {{lengths: ±0.005, diameters: ±0.002}}\nfeatures:\n  - turn: {diameter}\n    to: 14.000\n  \
         - turn: 0.700\n    to: end\n  - center hole: A 1/8\n    end: both\n"
    )
}

fn follows(p: &Planned) -> usize {
    p.plan.setups.iter().filter(|s| s.rest.as_ref().is_some_and(|r| r.follows)).count()
}

#[test]
fn a_slender_journal_gets_the_follow_rest_and_no_error() {
    let shop = parts::shop();
    let (p, findings) = judged(&spindle("0.500 +0/-0.0005"), Some(&shop)).expect("a plan");
    assert_eq!(follows(&p), 1);
    assert!(findings.iter().all(|f| f.check != "deflection"), "{findings:?}");
    let carried = p.plan.setups.iter().find(|s| s.rest.is_some()).expect("a rest");
    assert!(carried.why.iter().any(|w| w.rule == "R16" && w.reason.contains("follow rest")), "{:?}", carried.why);
    // The same in a shop without one is an error of the plan.
    let mut bare = parts::shop();
    bare.rests.clear();
    let (p, findings) = judged(&spindle("0.500 +0/-0.0005"), Some(&bare)).expect("a plan");
    assert_eq!(follows(&p), 0);
    assert!(findings.iter().any(|f| f.check == "deflection"));
    // A loose diameter needs none where it is stout: seven diameters between centers.
    let (p, _) = judged(&spindle("2.000 ±0.020").replace("0.750 x", "2.250 x").replace("0.700", "2.200"), Some(&shop))
        .expect("a plan");
    assert_eq!(follows(&p), 0);
}

/// More than ten diameters between supports are not turned without a rest (limit of `slender`, common practice), however loose the size.
#[test]
fn what_is_slender_gets_the_follow_rest_whatever_its_limits() {
    let text = spindle("0.500 ±0.020");
    let shop = parts::shop();
    let (p, findings) = judged(&text, Some(&shop)).expect("a plan");
    assert_eq!(follows(&p), 1);
    assert!(findings.iter().all(|f| f.check != "slender"), "{findings:?}");
    let mut bare = parts::shop();
    bare.rests.clear();
    let (p, findings) = judged(&text, Some(&bare)).expect("a plan");
    assert_eq!(follows(&p), 0);
    let told = findings.iter().find(|f| f.check == "slender").expect("slender");
    assert!(told.help.iter().any(|h| h.contains("follow rest") && h.contains("rests")), "{told:?}");
    // Too large a part for the rest at hand, and a rule switched off, are as no rest.
    for (rests, text) in [
        (vec![("follow".to_owned(), Some((Length::inch_tenths(10_000), Length::inch_tenths(20_000))))], text.clone()),
        (parts::shop().rests, format!("{text}plan: {{off: [R16]}}\n")),
    ] {
        let mut shop = parts::shop();
        shop.rests = rests;
        let (p, findings) = judged(&text, Some(&shop)).expect("a plan");
        assert_eq!(follows(&p), 0);
        assert!(findings.iter().any(|f| f.check == "slender"), "{findings:?}");
    }
}

/// The vise screw and the press screw: the long thread, its blank and its roughing run in the rest, nothing else of the mounting does. The
/// thread is cut on crests that were finished before.
#[test]
fn long_threads_are_carried_on_their_finished_crests() {
    for (sample, letter) in [("vise-screw", "F"), ("press-screw", "C")] {
        let text =
            std::fs::read_to_string(format!("{}/samples/{sample}.yaml", env!("CARGO_MANIFEST_DIR"))).expect("a sample");
        let file = std::fs::read(format!("{}/samples/shop-large.yaml", env!("CARGO_MANIFEST_DIR"))).expect("a shop");
        let shop = turnwright::read::shop("shop-large.yaml", &file).shop.expect("a shop");
        let (p, findings) = judged(&text, Some(&shop)).expect("a plan");
        let carried: Vec<(Verb, String)> =
            p.plan.operations().filter(|(_, o)| o.followed).map(|(_, o)| (o.verb, o.id.clone())).collect();
        let verbs: Vec<Verb> = carried.iter().map(|(v, _)| *v).collect();
        assert_eq!(verbs, [Verb::Rough, Verb::Finish, Verb::Thread], "{sample}: {carried:?}");
        assert!(carried.iter().all(|(_, id)| id.ends_with(&format!("-{letter}"))), "{carried:?}");
        assert!(findings.iter().all(|f| f.check != "deflection" && f.check != "slender"), "{findings:?}");
    }
}

/// The last cut of a thread straight in: the table's force over the groove of ASME B1.5 (2 starts, .2 in pitch, depth .110, flat .0689), the work
/// as thin as its root, by virtual work on the plain stretch between chuck and center.
#[test]
fn a_thread_gives_way_by_the_chip_of_its_whole_groove() {
    let text = "part: screw\nunits: mm\nmaterial: C45\nstock: 20 x 204\ndatum: left end\noverall: 200 ±0.3\n\
         tolerances: ISO 2768-m\nfeatures:\n  - turn: 18\n    to: 30\n  - thread: Tr16x4-7e\n    to: end\n  \
         - center hole: A 2\n    end: both\n";
    let (_, findings) = judged(text, None).expect("a plan");
    let told = findings.iter().find(|f| f.check == "deflection" && f.message.contains("pitch diameter")).expect("told");
    let Some(Compared::Number(force)) = told.compared.iter().find(|(k, _)| *k == "force_newtons").map(|(_, v)| v)
    else {
        panic!("{told:?}")
    };
    // Depth .5 P + .25 = 2.25 mm (ISO 2901), straight in; a sixteenth of it. Mouth P − .366 P = 2.536, root 2.536 − 2 · 2.25 tan 15°.
    let (depth, mouth): (f64, f64) = (2.25, 4.0 * 0.634);
    let infeed = (depth / 16.0).min(0.13);
    let edge = mouth - 2.0 * depth * 15f64.to_radians().tan() + 2.0 * depth / 15f64.to_radians().cos();
    let wanted = medium_steel(infeed * mouth / edge) * infeed * mouth * 0.4;
    assert!((force / wanted - 1.0).abs() < 1e-3, "{force} {wanted}");
    assert_eq!(
        told.severity,
        turnwright::finding::Severity::Warning,
        "wires and passes without infeed bring it to size"
    );
}

#[test]
fn what_gives_a_little_is_told_with_its_spring_passes() {
    let mut bare = parts::shop();
    bare.rests.clear();
    let (p, _) = judged(&spindle("0.600 ±0.003"), Some(&bare)).expect("a plan");
    let last =
        p.plan.operations().map(|(_, o)| o).find(|o| o.verb == Verb::Finish && o.spring > 0).expect("a last cut");
    let told = last.why.iter().find(|w| w.rule == "deflection").expect("a barrel");
    assert!(told.reason.contains("without infeed"), "{}", told.reason);
}

#[test]
fn a_bar_too_thick_for_the_spindle_is_faced_in_the_steady_rest() {
    let text = spindle("1.500 ±0.002").replace("stock: 0.750", "stock: 2.000").replace("turn: 0.700", "turn: 1.900");
    let shop = parts::shop();
    let (p, findings) = judged(&text, Some(&shop)).expect("a plan");
    let first = &p.plan.setups[0];
    assert_eq!(first.holding, Holding::ChuckAndRest);
    let (rest, grip) = (first.rest.as_ref().expect("a rest"), first.grip.as_ref().expect("jaws"));
    assert!(rest.to <= grip.from || grip.to <= rest.from);
    assert!(first.why.iter().any(|w| w.rule == "R15"));
    assert!(findings.iter().all(|f| f.check != "overhang"), "{findings:?}");
    let mut bare = parts::shop();
    bare.rests.clear();
    let (p, findings) = judged(&text, Some(&bare)).expect("a plan");
    assert!(p.plan.setups.iter().all(|s| s.rest.is_none()));
    assert!(findings.iter().any(|f| f.check == "overhang"));
}

/// The pin of the page of `deflection`: roughed to .328 (the aim .298 and the allowance .030) up to 5.980, the bar's .375 beyond.
const PIN: &str = "part: pin\nunits: in\nmaterial: 1045 cold drawn\ndatum: left end\nstock: 0.375 x 7.125\noverall: 7.000 ±0.010\n\
         tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 0.3000 +0/-0.0040\n    to: 6.000\n  \
         - turn: 0.3430 +0/-0.0020\n    to: 7.000\n  - center hole: A 1\n    end: both\nplan: {holding: between centers}\n";

/// The hand's own last cut: no plan makes it lighter, and what gives way under it is told.
fn own_depth() -> turnwright::model::Shop {
    turnwright::read::shop("shop.yaml", b"units: in\ndepth of cut: {finish: 0.005}\n").shop.expect("a shop")
}

#[test]
fn what_gives_way_is_the_roughed_bar_by_virtual_work() {
    let (_, findings) = judged(PIN, Some(&own_depth())).expect("a plan");
    let told = findings.iter().find(|f| f.check == "deflection").expect("it gives way");
    let number = |key: &str| match told.compared.iter().find(|(k, _)| *k == key).map(|(_, v)| v) {
        Some(Compared::Number(n)) => *n,
        Some(Compared::Length(l)) => l.mm(),
        other => panic!("{key}: {other:?}"),
    };
    let (force, told) = (number("force_newtons"), number("deflection_on_diameter"));
    // The page's depth, feed and share, and the table's steel of .45 carbon.
    assert!((force - medium_steel(0.1016) * 0.127 * 0.1016 * 0.4).abs() < 1e-6);
    let worst = (1..600).map(|n| by_virtual_work(force, f64::from(n) / 600.0 * 152.4)).fold(0.0, f64::max);
    assert!((told / worst - 1.0).abs() < 0.01, "told {told}, worst {worst}");
}

/// N/mm² of medium steel, below .2 mm of feed: the tool maker's table has 3080 at .1 and 2700 at .2, a straight line of logarithms.
fn medium_steel(feed: f64) -> f64 {
    3080.0 * (feed.max(0.02) / 0.1).powf((2700.0_f64 / 3080.0).log2())
}

/// The same pin in a shop that states stiffnesses. Springs under centers add 2 F [(b/L)²/k + (a/L)²/k] (PLANNING A7), each end its own: between centers
/// the chuck's does not count, and one of the two stated alone is not dropped. `kc` of the shop file goes before the table.
#[test]
fn a_soft_center_counts_at_both_ends_and_the_chuck_at_none() {
    let shop = |text: &str| {
        let text = format!("{text}depth of cut: {{finish: 0.127}}\n");
        turnwright::read::shop("shop.yaml", text.as_bytes()).shop.expect("a shop")
    };
    let told = |text: &str| {
        let (_, findings) = judged(PIN, Some(&shop(text))).expect("a plan");
        let told = findings.into_iter().find(|f| f.check == "deflection").expect("it gives way");
        let number = |key: &str| match told.compared.iter().find(|(k, _)| *k == key).map(|(_, v)| v) {
            Some(Compared::Number(n)) => *n,
            Some(Compared::Length(l)) => l.mm(),
            other => panic!("{key}: {other:?}"),
        };
        (number("force_newtons"), number("deflection_on_diameter"), told.message.clone())
    };
    let (force, soft, message) = told("units: mm\nstiffness: {center: 2000}\n");
    let springs = |load: f64| 2.0 * force * (((177.8 - load) / 177.8).powi(2) + (load / 177.8).powi(2)) / 2000.0;
    let places = (0..=600).map(|n| f64::from(n) / 600.0 * 152.4);
    let worst = places.map(|load| by_virtual_work(force, load) + springs(load)).fold(0.0, f64::max);
    assert!((soft / worst - 1.0).abs() < 0.01, "told {soft}, worst {worst}");
    assert!(message.contains("medium steel"), "{message}");
    let rigid = told("units: mm\n").1;
    assert!(soft > 1.05 * rigid, "{soft} {rigid}");
    for chuck in ["1", "1000000"] {
        let also = told(&format!("units: mm\nstiffness: {{chuck: {chuck}, center: 2000}}\n")).1;
        assert!((also - soft).abs() < 1e-9, "a chuck of {chuck}: {also} {soft}");
    }
    assert!((told("units: mm\nstiffness: {chuck: 1}\n").1 - rigid).abs() < 1e-9);
    let (own, _, message) = told("units: mm\nlimits: {deflection: {kc: 1700}}\n");
    assert!(
        (own - 1700.0 * 0.127 * 0.1016_f64.powf(0.75) * 0.4).abs() < 1e-6 && !message.contains("N/mm²"),
        "{message}"
    );
}

/// The metal's own force: what is told of one pin in steels and aluminum is as the table's rows are.
#[test]
fn what_a_harder_metal_gives_way_by_is_more() {
    let force = |material: &str| {
        let text = PIN.replace("1045 cold drawn", material).replace("+0/-0.0040", "+0/-0.0010");
        let (_, findings) = judged(&text, Some(&own_depth())).expect("a plan");
        let told = findings.iter().find(|f| f.check == "deflection").expect("it gives way");
        match told.compared.iter().find(|(k, _)| *k == "force_newtons").map(|(_, v)| v) {
            Some(Compared::Number(n)) => *n,
            other => panic!("{other:?}"),
        }
    };
    // Rows of the table at .1 and .2 mm, mild steel and chrome molybdenum steel; aluminum from memory, 950 at .2 and an exponent of .25.
    let at = |a: f64, b: f64| a * 1.016_f64.powf((b / a).log2()) * 0.127 * 0.1016 * 0.4;
    for (material, wanted) in [
        ("1018 cold drawn", at(3610.0, 3100.0)),
        ("4140", at(3610.0, 3200.0)),
        ("6061", 950.0 * 0.508_f64.powf(-0.25) * 0.127 * 0.1016 * 0.4),
    ] {
        assert!((force(material) / wanted - 1.0).abs() < 1e-6, "{material}: {} {wanted}", force(material));
    }
}

/// Twice the give of the pin where the load stands, mm: the integral of M m/EI over a beam on two supports, E 207 `GPa` as
/// the handbook's table of grades has it.
fn by_virtual_work(force: f64, load: f64) -> f64 {
    let (length, step) = (177.8, 0.0889);
    let inertia = |x: f64| std::f64::consts::PI / 64.0 * if x < 151.892 { 8.3312_f64 } else { 9.525 }.powi(4);
    let unit = |x: f64| if x < load { (1.0 - load / length) * x } else { load / length * (length - x) };
    let sum = (0..2000).map(|n| (f64::from(n) + 0.5) * step).map(|x| unit(x).powi(2) / inertia(x)).sum::<f64>();
    2.0 * force * sum * step / 207_000.0
}

/// A bar too thick for the spindle, its journal turned in chuck and steady rest: jaws to 15 in from the datum face, the rest's jaws from 4.25 to 5, the journal
/// roughed to .630 up to 3.980. What the journal gives way by at its free end follows by virtual work on the bar built in at the jaws, with the push of the
/// rest from its own equation; work taken as built in at the rest would give but a part of it.
#[test]
fn work_in_the_steady_rest_is_no_work_built_in_there() {
    let text = "part: spindle\nunits: in\nmaterial: 1045 cold drawn\nstock: 2.000 x 16.125\ndatum: left end\noverall: 16.000 ±0.010\n\
         tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 0.600 +0/-0.0010\n    to: 4.000\n  - turn: stock\n    \
         to: end\n  - center hole: none\n    end: both\n";
    let (p, findings) = judged(text, Some(&parts::shop())).expect("a plan");
    let first = &p.plan.setups[0];
    let (rest, grip) = (first.rest.as_ref().expect("a rest"), first.grip.as_ref().expect("jaws"));
    let inches = |s: turnwright::unit::Station| s.0.inches();
    assert_eq!((first.holding, inches(grip.from)), (Holding::ChuckAndRest, 15.0));
    assert_eq!((inches(rest.from), inches(rest.to)), (4.25, 5.0));
    let told = findings.iter().find(|f| f.check == "deflection").expect("it gives way");
    let number = |key: &str| match told.compared.iter().find(|(k, _)| *k == key).map(|(_, v)| v) {
        Some(Compared::Number(n)) => *n,
        Some(Compared::Length(l)) => l.mm(),
        other => panic!("{key}: {other:?}"),
    };
    let (force, told) = (number("force_newtons"), number("deflection_on_diameter"));
    let (end, prop, step) = (15.0 * 25.4, (15.0 - 4.625) * 25.4, 0.05);
    let inertia =
        |x: f64| std::f64::consts::PI / 64.0 * (25.4 * if x < (15.0 - 3.98) * 25.4 { 2.0_f64 } else { 0.63 }).powi(4);
    let places = || (0..7620).map(|n| (f64::from(n) + 0.5) * step);
    let sum = |of: &dyn Fn(f64) -> f64| places().map(|x| of(x) / inertia(x)).sum::<f64>() * step / 207_000.0;
    let (by_force, at_rest) = (|x: f64| end - x, |x: f64| (prop - x).max(0.0));
    let push = sum(&|x| by_force(x) * at_rest(x)) / sum(&|x| at_rest(x).powi(2));
    let give = 2.0 * force * sum(&|x| by_force(x) * (by_force(x) - push * at_rest(x)));
    assert!((told / give - 1.0).abs() < 0.01, "told {told}, by virtual work {give}");
    let built_in = 2.0 * force * sum(&|x| if x < prop { 0.0 } else { by_force(x).powi(2) });
    assert!(told > 1.02 * built_in, "{told} {built_in}");
}

/// A journal of a quarter inch on inch bar, 2 in long: two inches and a quarter out of the jaws, no more than three diameters of the bar.
fn stub(band: &str, more: &str) -> String {
    format!(
        "part: stub\nunits: in\nmaterial: 1045 cold drawn\nstock: 1.000 x 4.250\ndatum: left end\noverall: 3.500 ±0.010\n\
         tolerances: {{lengths: ±0.005, diameters: ±0.002}}\nfeatures:\n  - turn: 0.250 {band}\n    to: 2.000\n  - turn: stock\n    \
         to: end\n{more}"
    )
}

/// By hand: medium steel 3071 N/mm², 15.85 N; out of the jaws the bar's 1 in for .270 and, roughed, .280 for 1.980 in (50.292 mm): F a³/3EI = 15.85 · 50.292³ /
/// (3 · 207000 · 125.6) = .02585 mm for the journal (the bar adds .00007), .00204 in on the diameter: twice a band of .001, nothing beside .030. So with the close
/// band a center carries it, whether the drawing has a center hole there or none is stated, and with the wide one the chuck alone does.
#[test]
fn a_center_is_chosen_where_the_chuck_alone_would_give_way() {
    let shop = parts::shop();
    let turned_in = |p: &Planned| {
        let held = p.plan.operations().find(|(_, o)| o.verb == Verb::Finish).expect("a last cut").0;
        (held.holding, held.why.iter().find(|w| w.rule == "deflection").map(|w| w.reason.clone()))
    };
    let inertia = |d: f64| std::f64::consts::PI / 64.0 * d.powi(4);
    let (force, a, whole) = (medium_steel(0.1016) * 0.127 * 0.1016 * 0.4, 50.292_f64, 57.15_f64);
    let by_hand =
        2.0 * force / (3.0 * 207_000.0) * (a.powi(3) / inertia(7.112) + (whole.powi(3) - a.powi(3)) / inertia(25.4));
    for center in ["", "  - center hole: A 1\n    end: datum\n"] {
        let (p, findings) = judged(&stub("+0/-0.0010", center), Some(&shop)).expect("a plan");
        let (holding, why) = turned_in(&p);
        assert_eq!(holding, Holding::ChuckAndCenter);
        let why = why.expect("told");
        assert!(
            why.contains("in the chuck alone A would give way by about .00204") && why.contains("2.0 times"),
            "{why}"
        );
        assert!(findings.iter().all(|f| f.check != "deflection"), "{findings:?}");
        assert!(p.plan.proven_optimal);
        let soft = p.derived.too_soft.first().expect("an exclusion");
        assert!((soft.gives.mm() / by_hand - 1.0).abs() < 1e-3, "{} {by_hand}", soft.gives.mm());
        assert_eq!(soft.band, Length::inch_tenths(10));
        let (p, _) = judged(&stub("+0/-0.0300", center), Some(&shop)).expect("a plan");
        assert_eq!((turned_in(&p), p.derived.too_soft.len()), ((Holding::Chuck, None), 0));
    }
    // The problem of the certificate has no such pair.
    let (p, _) = judged(&stub("+0/-0.0010", "  - center hole: A 1\n    end: datum\n"), Some(&shop)).expect("a plan");
    for soft in &p.derived.too_soft {
        let stated = p.certificate.problem.ops.iter().find(|o| o.id == soft.operation).expect("stated");
        assert!(!stated.setups.contains(&soft.mounting), "{soft:?}");
    }
    // Where the drawing forbids a center nothing is stiffer: the plan stays, and the check tells it.
    let (p, findings) =
        judged(&stub("+0/-0.0010", "  - center hole: none\n    end: both\n"), Some(&shop)).expect("a plan");
    assert_eq!(turned_in(&p), (Holding::Chuck, None));
    assert!(findings.iter().any(|f| f.check == "deflection"));
}

/// The same stub where no center may be drilled and nobody says how deep a last cut is: .005 a side would give way by .00204, twice the band; half of the band
/// wants .005 · .5 / 2.04 = .00122, but the .01525 a side that roughing left come off in at most eight equal cuts, .00191 each. What is left of .00204 · .0019 / .005 goes by passes without infeed, each leaving K C/(1 + K C).
#[test]
fn last_cuts_become_lighter_where_nothing_holds_the_work() {
    let mut shop = parts::shop();
    shop.depth_finish = None;
    let (p, findings) =
        judged(&stub("+0/-0.0010", "  - center hole: none\n    end: both\n"), Some(&shop)).expect("a plan");
    let last = p.plan.operations().map(|(_, o)| o).find(|o| o.verb == Verb::Finish).expect("a last cut");
    let a_side = (last.from_diameter.expect("before") - last.to_diameter.expect("after")).half();
    let lighter = last.lighter.expect("lighter");
    assert_eq!(lighter, a_side.times_ratio(1, 8));
    let told = findings.iter().find(|f| f.check == "deflection").map(|f| f.severity);
    assert_eq!(told, Some(turnwright::finding::Severity::Warning), "under its band, over half of it");
    // K, N a mm of depth, and C, mm a newton, as worked by hand above.
    let (stiff, soft) = (medium_steel(0.1016) * 0.1016 * 0.4, 0.002_041_3 * 12.7 / 15.85);
    let leaves = stiff * soft / (1.0 + stiff * soft);
    let mut left = 0.002_041_3 * lighter.inches() / 0.005;
    let mut passes = 0;
    while passes == 0 || left > 0.0001 {
        (left, passes) = (left * leaves, passes + 1);
    }
    assert_eq!(last.spring, passes);
    let why = last.why.iter().find(|w| w.rule == "deflection").expect("told");
    assert!(why.reason.starts_with("last cuts of at most .00191 a side: at .005"), "{}", why.reason);
    // Eight cuts, each measured after, and the passes without infeed: what the same cut takes in three, without, less.
    let (q, _) = judged(&stub("+0/-0.0010", ""), Some(&shop)).expect("a plan");
    let held = q.plan.operations().map(|(_, o)| o).find(|o| o.verb == Verb::Finish).expect("a last cut");
    assert_eq!((held.lighter, held.spring), (None, 0));
    let each = (held.minutes / 3.0 - 0.5).max(0.0);
    let wanted = held.minutes + 5.0 * held.minutes / 3.0 + f64::from(passes) * each;
    assert!((last.minutes - wanted).abs() < 0.05, "{} {wanted}", last.minutes);
    // A hand's own depth stays his.
    let (own, _) =
        judged(&stub("+0/-0.0010", "  - center hole: none\n    end: both\n"), Some(&parts::shop())).expect("a plan");
    assert!(own.plan.operations().all(|(_, o)| o.lighter.is_none()));
}

/// Roughing the same stub at .060 a side and .008 a turn: the force's radial share is 2811 N/mm² (2700 at .2, a line of logarithms) · 1.524 · .2032 · .4 = 348 N, at the
/// end of 50.29 mm of .280 in it springs away by F a³/3EI = .5 mm, and half of the .015 in that finishing takes are .19 mm: so .060 comes down to about
/// .020 a side, and the count of cuts on the sheet and in the minutes goes up with it. Chucked stout it stays.
#[test]
fn slender_work_is_roughed_lighter() {
    let mut shop = parts::shop();
    (shop.depth_rough, shop.power_w, shop.feeds) = (None, None, Vec::new());
    let rough = |text: &str| {
        let (p, _) = judged(text, Some(&shop)).expect("a plan");
        p.plan.operations().map(|(_, o)| o.clone()).find(|o| o.verb == Verb::Rough).expect("roughing")
    };
    let none = "  - center hole: none\n    end: both\n";
    let slender = rough(&stub("+0/-0.0040", none));
    let feed = 0.2032;
    let force = 2700.0 * (feed / 0.2_f64).powf((2570.0_f64 / 2700.0).ln() / 1.5_f64.ln()) * 1.524 * feed * 0.4;
    let inertia = |d: f64| std::f64::consts::PI / 64.0 * d.powi(4);
    let bar = (57.15_f64.powi(3) - 50.292_f64.powi(3)) / inertia(25.4);
    let rough_to = slender.to_diameter.expect("a size");
    let gives = force / (3.0 * 207_000.0) * (50.292_f64.powi(3) / inertia(rough_to.mm()) + bar);
    let finished = Length::inch_tenths(2480);
    let room = (rough_to - finished).mm() / 4.0;
    let wanted = 0.060 * room / gives;
    let deep = slender.lighter.expect("lighter").inches();
    assert!(deep <= wanted && deep > wanted - 0.001, "{deep} {wanted}: to the thousandth below");
    let stout = rough(&stub("+0/-0.0040", none).replace("turn: 0.250", "turn: 0.750"));
    assert_eq!(stout.lighter, None);
    assert!(
        slender.why.iter().any(|w| w.rule == "deflection" && w.reason.contains("a side: under .060")),
        "{:?}",
        slender.why
    );
}

/// The same stub between half of its band and the whole: .00204 is 68 % of .003 (84 % of .0025, as held when its cut begins), so no mounting is taken away,
/// and the plan tells that a center would carry it: lighter cuts and a pass without infeed, which leaves K C/(1 + K C) of it, a sixth here, are quicker. Up to
/// half of the band nothing is said; above the whole the center is taken.
#[test]
fn between_half_of_the_band_and_the_whole_a_stiffer_holding_is_told_and_not_taken() {
    let mut shop = parts::shop();
    shop.depth_finish = None;
    let of = |band: &str| {
        let (p, findings) = judged(&stub(band, ""), Some(&shop)).expect("a plan");
        let finish = p.plan.operations().find(|(_, o)| o.verb == Verb::Finish).expect("a last cut");
        let told = p.plan.remarks.iter().filter(|r| r.contains("gives way under its last cut")).count();
        let wrong = findings.iter().any(|f| f.check == "deflection" && f.is_open_error());
        (finish.0.holding, told, wrong, finish.1.barrel)
    };
    for band in ["+0/-0.0025", "+0/-0.0030"] {
        let (holding, told, wrong, barrel) = of(band);
        assert_eq!((holding, told, wrong), (Holding::Chuck, 1, false), "{band}");
        let (gives, left) = barrel.expect("a barrel");
        let (stiff, soft) = (medium_steel(0.1016) * 0.1016 * 0.4, 0.002_1 * 12.7 / 15.85);
        let leaves = stiff * soft / (1.0 + stiff * soft);
        assert!((left.mm() / gives.mm() - leaves).abs() < 0.01, "{} {} {leaves}", left.mm(), gives.mm());
    }
    assert_eq!(of("+0/-0.0060").1, 0);
    let (holding, told, ..) = of("+0/-0.0010");
    assert_eq!((holding, told), (Holding::ChuckAndCenter, 0));
}
