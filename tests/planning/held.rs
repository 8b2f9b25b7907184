//! How work is held: the dog by its tail's reach, discs on the steps of the jaws, no more out of the jaws than the cuts ask, thin walls, knurls
//! by what carries them. Rules of the bench: common practice, no source, unless a test names one.

use turnwright::chain::{self, Profile};
use turnwright::figures::{self, Job};
use turnwright::model::part::Holding;
use turnwright::model::plan::{DatumEnd, Setup, Verb};
use turnwright::model::{End, Shop, Workholder};
use turnwright::plan::Planned;
use turnwright::unit::Length;

use crate::planning::believable::judged;
use crate::planning::generated::believable;
use crate::planning::parts::{shop_with, thou};
use crate::planning::{derived, parts};

fn planned(text: &str, shop: &Shop) -> Planned {
    let (p, _) = judged(text, Some(shop)).expect("a plan");
    assert_eq!(p.certificate.verify(), Ok(()));
    assert!(p.plan.proven_optimal);
    p
}

/// A fan's shaft, seats on both sides of a plain body that is the largest and the least welcome to mark.
const FAN: &str = "part: fan shaft\nunits: in\nmaterial: 1045 annealed\nstock: 2.000 x 14.250\ndatum: hub end\noverall: 14.000 ±0.010\n\
tolerances: {lengths: ±0.010, diameters: ±0.005}\nfeatures:\n  - turn: 1.0000 +0/-0.0005\n    to: 2.500\n    name: hub seat\n  \
- turn: 1.250 +0/-0.0005\n    to: 5.000\n  - turn: 1.875\n    to: 8.000\n  - turn: 1.500\n    to: 10.000\n  - turn: 1.250 +0/-0.0005\n    \
to: 12.000\n  - turn: 1.0000 +0/-0.0005\n    to: end\n    name: coupling seat\n";

/// How far the dog of a mounting sits from the end of the work that is at the headstock.
fn dog_from_the_end(setup: &Setup) -> Option<Length> {
    let grip = setup.grip.as_ref().filter(|_| setup.holding == Holding::BetweenCenters)?;
    let (first, last) = (setup.before.first()?.from, setup.before.last()?.to);
    Some(if setup.datum_end == DatumEnd::Headstock { grip.from - first } else { last - grip.to })
}

/// The bent tail of a dog ends in the slot of the plate, an inch and a half in from the end of the work at most (common practice, no source);
/// Rose and Jones draw it at the very end.
#[test]
fn a_dog_sits_where_its_tail_reaches_the_plate() {
    let p = planned(FAN, &parts::shop());
    let between: Vec<&Setup> = p.plan.setups.iter().filter(|s| s.holding == Holding::BetweenCenters).collect();
    assert_eq!(between.len(), 2, "{:?}", p.plan.setups.iter().map(|s| &s.name).collect::<Vec<_>>());
    assert!(between.iter().all(|s| dog_from_the_end(s).is_some_and(|d| d <= thou(1500))));
    let turned_round = between.iter().find(|s| s.datum_end == DatumEnd::Headstock).expect("turned round");
    let grip = turned_round.grip.as_ref().expect("a dog");
    assert_eq!((grip.letter.as_str(), grip.protect), ("A", true), "over copper: A is finished by then");
    // Nothing is cut under the dog there.
    for o in &turned_round.operations {
        let (a, b) = (o.from.expect("a place"), o.to.expect("a place"));
        assert!(o.verb == Verb::Face || a.min(b) >= grip.to || a.max(b) <= grip.from, "{}", o.id);
    }
}

#[test]
fn no_dog_of_a_random_part_is_out_of_reach() {
    let shop = parts::shop();
    let mut dogs = 0;
    for seed in 0..60 {
        let g = believable(seed);
        let (p, _) = judged(&g.text, g.with_shop.then_some(&shop)).unwrap_or_else(|e| panic!("seed {seed}: {e:?}"));
        for setup in &p.plan.setups {
            if let Some(from) = dog_from_the_end(setup) {
                dogs += 1;
                assert!(from <= thou(1500), "seed {seed}: {} {from:?}\n{}", setup.name, g.text);
            }
        }
    }
    assert!(dogs > 5, "{dogs}");
}

fn disc(more: &str) -> String {
    format!(
        "part: flange blank\nunits: in\nmaterial: 1018\nstock: 4.125 x 0.875\ndatum: front face\noverall: 0.750 ±0.005\n\
         tolerances: {{lengths: ±0.005, diameters: ±0.005}}\nfeatures:\n  - turn: 4.000\n    to: end\n{more}"
    )
}

/// Chucked on the rim, faced, bored and turned as far as the jaws leave free; turned round; no center anywhere.
#[test]
fn a_disc_is_chucked_twice_and_never_centered() {
    for more in ["", "inside:\n  - bore: 1.5000 +0.001/-0\n    end: through\n"] {
        let (p, findings) = judged(&disc(more), Some(&shop_with(""))).expect("a plan");
        assert!(p.plan.proven_optimal);
        let lathe: Vec<&Setup> = p.plan.setups.iter().filter(|s| s.works.is_some()).collect();
        assert_eq!(lathe.len(), 2, "{:?}", p.plan.setups.iter().map(|s| &s.name).collect::<Vec<_>>());
        assert!(lathe.iter().all(|s| s.holding == Holding::Chuck));
        assert!(p.plan.operations().all(|(_, o)| o.verb != Verb::Center));
        for setup in &lathe {
            let grip = setup.grip.as_ref().expect("a grip");
            // A quarter of its length, and a sixth of it for the tool: by hand for .750.
            assert!(grip.to - grip.from >= Length::micro_inches(187_500), "{}", setup.name);
            assert!(setup.stick_out.is_some_and(|out| out >= thou(500) && out <= Length::micro_inches(562_500)));
            assert!(
                setup.why.iter().any(|w| w.rule == "short-work") && setup.why.iter().all(|w| w.rule != "grip-short")
            );
        }
        assert!(findings.iter().all(|f| !matches!(f.check, "grip-short" | "overhang")), "{findings:?}");
        if !more.is_empty() {
            let bored = p.plan.operations().find(|(_, o)| o.verb == Verb::Bore).expect("bored");
            assert_eq!(bored.0.number, lathe[0].number, "bored where it was faced");
        }
    }
    // Soft jaws, where the shop has them, seat the second side.
    let p = planned(&disc(""), &shop_with("soft jaws: yes"));
    assert!(p.plan.setups.iter().any(|s| s.by == Workholder::SoftJaws && s.works == Some(End::Far)));
}

/// What is longer than it is wide is no disc: held by three quarters of an inch, as before.
#[test]
fn longer_than_wide_is_no_disc() {
    let text =
        disc("").replace("4.125 x 0.875", "2.125 x 2.375").replace("0.750 ±", "2.250 ±").replace("4.000", "2.000");
    let p = planned(&text, &parts::shop());
    assert!(p.plan.setups.iter().flat_map(|s| &s.why).all(|w| w.rule != "short-work"));
    let again = text.replace("2.250 ±", "2.000 ±").replace("2.375", "2.125");
    let p = planned(&again, &parts::shop());
    assert!(p.plan.setups.iter().flat_map(|s| &s.why).any(|w| w.rule == "short-work"));
}

/// A long rod turned at one end only: the rest of it goes into the spindle.
#[test]
fn no_more_stands_out_than_the_cuts_ask() {
    let rod = |bar: &str| {
        format!(
            "part: clevis rod\nunits: in\nmaterial: 1018 cold drawn\nstock: {bar} x 12.250\ndatum: eye end\noverall: 12.000 ±0.010\n\
             tolerances: {{lengths: ±0.010, diameters: ±0.005}}\nfeatures:\n  - turn: 0.500\n    to: 3.500\n  - turn: stock\n    to: end\n  \
             - cross hole: 0.250\n    at: 11.000\n"
        )
    };
    let p = planned(&rod("0.750"), &parts::shop());
    let setup = p.plan.setups.iter().find(|s| s.holding == Holding::ChuckAndCenter).expect("a center carries it");
    // 3.500 to the shoulder and a quarter of an inch for the tool.
    assert_eq!(setup.stick_out, Some(thou(3750)));
    let grip = setup.grip.as_ref().expect("jaws");
    assert_eq!((grip.from.0, grip.protect), (thou(3750), true), "the bar's own surface stays there");
    // What does not pass the spindle (1.375 in the sample shop) stands out as it must.
    let p = planned(&rod("1.500"), &parts::shop());
    let setup = p.plan.setups.iter().find(|s| s.operations.iter().any(|o| o.verb == Verb::Finish)).expect("turned");
    assert!(setup.stick_out.is_none_or(|out| out > thou(10_000)), "{:?}", setup.stick_out);
}

/// Of two places as good the jaws take the one nearer to the cut: less stands out.
#[test]
fn the_nearer_of_two_places_is_held() {
    let text = "part: spool\nunits: in\nmaterial: 1018\nstock: 1.250 x 8.125\ndatum: left end\noverall: 8.000 ±0.010\n\
                tolerances: {lengths: ±0.010, diameters: ±0.005}\nfeatures:\n  - turn: 1.040\n    to: 2.000\n  - turn: 1.000\n    to: 4.500\n  \
                - turn: 1.1500 +0/-0.0005\n    to: 6.500\n  - turn: 0.900\n    to: end\n";
    let derived = derived(&parts::part(text));
    let on = |m: &&Setup| m.works == Some(End::Far) && m.grip.as_ref().is_some_and(|g| !g.letter.is_empty());
    let outs: Vec<_> = derived.mountings.iter().filter(on).map(|m| (m.name.as_str(), m.stick_out)).collect();
    // B ends at 4.500 and its jaws begin a quarter of an inch behind that; A, as plain and a little larger, would leave 6.250 out.
    assert!(outs.contains(&("chuck, far end out, on B", Some(thou(3750)))), "{outs:?}");
}

fn bush(outside: &str, bore: &str) -> String {
    format!(
        "part: sleeve\nunits: in\nmaterial: 1018\nstock: 3.250 x 2.125\ndatum: flange face\noverall: 2.000 ±0.005\n\
         tolerances: {{lengths: ±0.005, diameters: ±0.005}}\nfeatures:\n  - turn: 3.100\n    to: 1.000\n  - turn: {outside}\n    to: end\n\
         inside:\n  - bore: {bore} +0.0005/-0\n    end: through\n    name: bore\n"
    )
}

/// How far three jaws of 2 kN each move a ring's wall, inches, by the waves round it (another way than the program's formula).
fn by_waves(outer: f64, bore: f64, wide: f64) -> f64 {
    let (radius, wall) = ((outer + bore) / 4.0 * 25.4, (outer - bore) / 2.0 * 25.4);
    let inertia = wide * 25.4 * wall.powi(3) / 12.0;
    let waves: f64 = (1..500).map(|m| ((3.0 * f64::from(m)).powi(2) - 1.0).powi(-2)).sum();
    3.0 / std::f64::consts::PI * waves * 2000.0 * radius.powi(3) / (207_000.0 * inertia) / 25.4
}

#[test]
fn thin_walls_are_held_all_round_or_told() {
    let thin = bush("2.900", "2.7000");
    let held = |p: &Planned| -> Vec<Setup> {
        p.plan.setups.iter().filter(|s| s.why.iter().any(|w| w.rule == "thin-wall")).cloned().collect()
    };
    let told = held(&planned(&thin, &shop_with("")));
    assert!(!told.is_empty(), "three jaws on a wall of a fifth");
    for setup in &told {
        let why = setup.why.iter().find(|w| w.rule == "thin-wall").expect("told");
        let grip = setup.grip.as_ref().expect("a grip");
        assert!(why.reason.contains("gauge C again"), "{why:?}");
        let moves = by_waves(grip.diameter.mm() / 25.4, 2.7005, (grip.to - grip.from).mm() / 25.4);
        // Told where it is more than a quarter of the bore's half thousandth.
        assert!(moves > 0.000_125, "{moves} {grip:?}");
    }
    let soft = held(&planned(&thin, &shop_with("soft jaws: yes")));
    assert!(
        soft.iter().any(|s| s.by == Workholder::SoftJaws),
        "{:?}",
        soft.iter().map(|s| &s.name).collect::<Vec<_>>()
    );
    // With plenty of metal round the bore nothing is told.
    assert!(held(&planned(&bush("2.900", "1.2500"), &shop_with(""))).is_empty());
    assert!(by_waves(2.9, 1.25, 0.75) < 0.000_125);
}

/// What a knurl's recipe says of the holding, in a shop.
fn knurl_says(text: &str) -> String {
    let part = parts::part(text);
    let chain = chain::locate(&part);
    let profile = Profile::of(&part, &chain);
    let p = planned(text, &parts::shop());
    let worked = figures::work(&part, &chain, &profile, &p.plan, Some(&parts::shop()));
    let jobs = worked.setups.iter().flat_map(|s| &s.operations).map(|o| &o.job);
    jobs.into_iter()
        .find_map(|j| if let Job::Knurl(k) = j { Some(k.recipe[0].clone()) } else { None })
        .expect("a knurl")
}

/// Wheels pressed in from one side want something behind the work: R11, J. R. Walker, Modern Metalworking, 2004, p. 453 (with the tailstock).
#[test]
fn a_knurl_is_told_what_carries_it() {
    let knob = |from: &str, to: &str, center: &str| {
        format!(
            "part: knob\nunits: in\nmaterial: 12L14\nstock: 1.125 x 3.125\ndatum: grip end\noverall: 3.000 ±0.010\n\
             tolerances: {{lengths: ±0.010, diameters: ±0.005}}\nfeatures:\n{from}  - knurl: 0.8 mm straight\n    diameter: 1.000\n    to: {to}\n  \
             - turn: stock\n    to: end\n  - center hole: {center}\n    end: datum\n"
        )
    };
    assert!(knurl_says(&knob("", "0.750", "none")).starts_with("No center here, short out of the jaws"));
    let slender = knurl_says(&knob("  - turn: 0.980\n    to: 0.500\n", "2.000", "none"));
    assert!(!slender.contains("Tailstock") && !slender.contains("Center up"), "{slender}");
    let long = knob("", "2.400", "none").replace("1.125 x", "0.750 x").replace("diameter: 1.000", "diameter: 0.700");
    let long = knurl_says(&long);
    assert!(long.starts_with("No center carries it, 3") || long.starts_with("Steady rest"), "{long}");
    let carried = knob("", "6.000", "A 1/8").replace("1.125 x 3.125", "1.125 x 8.125").replace("3.000 ±", "8.000 ±");
    assert!(knurl_says(&carried).starts_with("Center up tight"), "{}", knurl_says(&carried));
}

/// A shaft too thick for the spindle, tapped in one end: the tapped hole wants its center gone and so comes last, in what is finished. That is no
/// reason to face and center without a steady rest. `collets` are those of the shop.
fn thick_and_tapped(collets: &str) -> Planned {
    let text = "part: thick shaft\nunits: in\nmaterial: 1018 cold drawn\nstock: 2.000 x 8.250\ndatum: seat end\noverall: 8.000 ±0.010\n\
tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 0.8745 +0/-0.0005\n    to: 2.250\n  - turn: stock\n    to: 3.500\n  \
- turn: 1.250 +0/-0.001\n    to: end\ninside:\n  - tapped hole: 3/8-16\n    end: datum\n    deep: 0.75\n";
    planned(text, &shop_with(collets))
}

#[test]
fn one_tapped_end_does_not_drop_the_steady_rests() {
    for collets in ["", "collets: [1, 1 1/4]"] {
        let p = thick_and_tapped(collets);
        for setup in &p.plan.setups {
            let Some((out, grip)) = setup.stick_out.zip(setup.grip.as_ref()) else { continue };
            let carried = setup.holding != Holding::Chuck;
            assert!(carried || out <= grip.diameter.times(3), "{}: {out:?}", setup.name);
        }
        let rested = p.plan.setups.iter().filter(|s| s.holding == Holding::ChuckAndRest).count();
        assert_eq!(rested, 2, "each end is faced and centered in a steady rest");
    }
}

#[test]
fn nothing_is_cut_beside_the_jaws_that_hold_it_for_a_hole() {
    let p = thick_and_tapped("collets: [1, 1 1/4]");
    let tapped = p.plan.setups.iter().find(|s| s.operations.iter().any(|o| o.verb == Verb::Tap)).expect("tapped");
    // Up to the shoulder at 3.500, which three times 1.2495 reaches; with the usual room before the jaws it would not.
    assert_eq!(tapped.stick_out, Some(thou(3500)));
}

/// Either finished end of a spool takes the dog for as many minutes: one is a seat of .0005, the other a section of ±.002.
#[test]
fn of_plans_that_cost_the_same_the_one_that_grips_no_seat() {
    let text = "part: spool\nunits: in\nmaterial: 1045 annealed\nstock: 1.500 x 6.250\ndatum: hub end\noverall: 6.000 ±0.010\n\
tolerances: {lengths: ±0.010, diameters: ±0.005}\nfeatures:\n  - turn: 1.0000 +0/-0.0005\n    to: 2.000\n  - turn: 1.375\n    to: 4.000\n  \
- turn: 1.000 ±0.002\n    to: end\nplan: {holding: between centers}\n";
    let p = planned(text, &parts::shop());
    let letters: Vec<&str> = p.plan.setups.iter().filter_map(|s| s.grip.as_ref()).map(|g| g.letter.as_str()).collect();
    assert!(letters.contains(&"C") && !letters.contains(&"A"), "{letters:?}");
}

/// The vise screw's hexagon head, the press screw's holes, the pulley stub's keyseat: what lies in the vise or the V-blocks is a plain section as it stands by
/// then, away from the cutter, long enough for a block (common practice, no source).
#[test]
fn what_lies_on_the_mill_is_free_of_the_cut() {
    let mut places = 0;
    for text in
        [parts::STUB, include_str!("../../samples/press-screw.yaml"), include_str!("../../samples/vise-screw.yaml")]
    {
        let p = planned(text, &parts::shop_for(text));
        for setup in p.plan.setups.iter().filter(|s| s.holding == Holding::Mill) {
            let first = setup.grip.as_ref().expect("a place to lie on");
            for g in [Some(first), setup.also.as_ref()].into_iter().flatten() {
                places += 1;
                assert!(g.to - g.from >= thou(375) && g.protect, "{g:?}");
                let under = setup.before.iter().filter(|s| s.from < g.to && g.from < s.to);
                assert!(under.clone().all(|s| s.diameter == g.diameter && s.diameter_to == g.diameter), "{g:?}");
                assert!(under.clone().all(|s| s.state != turnwright::model::plan::State::Threaded), "{g:?}");
                for o in &setup.operations {
                    let (a, b) = (o.from.expect("a place"), o.to.expect("a place"));
                    assert!(g.to + thou(250) <= a.min(b) || a.max(b) + thou(250) <= g.from, "{}: {g:?}", o.id);
                }
            }
        }
    }
    assert!(places >= 5, "{places}");
}

/// A pin with a plain head is turned, with a center in its thin end, and parted off behind the head in one chucking: the head's end does not
/// stand out first only to be parted from what is still to be turned.
#[test]
fn a_pin_is_turned_before_it_is_parted_off() {
    let text = "part: pin\nunits: in\nmaterial: 1018 cold drawn\nstock: 1/2 x 12\ndatum: head\noverall: 3.000 ±0.010\n\
tolerances: {lengths: ±0.005, diameters: ±0.003}\nfeatures:\n  - turn: stock\n    to: 0.500\n  - turn: 0.375\n    to: end\nplan: {part off: true}\n";
    let p = planned(text, &parts::shop());
    let place = |verb: Verb| p.plan.operations().position(|(_, o)| o.verb == verb).expect("there");
    assert!(
        place(Verb::Finish) < place(Verb::PartOff),
        "{:?}",
        p.plan.setups.iter().map(|s| &s.name).collect::<Vec<_>>()
    );
    assert!(
        p.plan.setups.iter().all(|s| !(s.holding == Holding::Chuck && s.stick_out.is_some_and(|o| o > thou(1500))))
    );
}

/// Grooves and edges on bar that stays as it is are cut in whichever chucking leaves them free: no setup, and no center hole, is made for them alone.
/// The one drawn from the left and the same part drawn from the right.
#[test]
fn a_groove_on_bar_that_stays_takes_no_setup_of_its_own() {
    let head = "part: stop\nunits: in\nmaterial: 1045 cold drawn\nstock: 1.065 x 4.287\ndatum: left end\noverall: 4.162\n\
tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n";
    let one = "  - turn: 0.500\n    to: 0.632\n  - turn: stock\n    to: end\n    name: body\n  - groove: 0.852 ±0.005\n    from: 0.712\n    wide: 0.100\n    name: ring\n  \
- chamfer: 0.020 x 45°\n    at: 0.632\n  - chamfer: 0.020 x 45°\n    end: far\n";
    let other = "  - turn: stock\n    to: 3.530\n    name: body\n  - turn: 0.500\n    to: end\n  - groove: 0.852 ±0.005\n    from: 3.350\n    wide: 0.100\n    name: ring\n  \
- chamfer: 0.020 x 45°\n    at: 3.530\n  - chamfer: 0.020 x 45°\n    end: datum\n";
    for (features, end) in [(one, End::Datum), (other, End::Far)] {
        let p = planned(&format!("{head}{features}"), &parts::shop());
        let lathe: Vec<&Setup> = p.plan.setups.iter().filter(|s| s.works.is_some()).collect();
        assert_eq!(lathe.len(), 2, "{:?}", lathe.iter().map(|s| &s.name).collect::<Vec<_>>());
        assert!(lathe.iter().all(|s| s.holding == Holding::Chuck));
        let (setup, groove) = p.plan.operations().find(|(_, o)| o.verb == Verb::Groove).expect("a groove");
        assert_eq!((setup.works, groove.end), (Some(end), None));
        // In the holding that turns the journal beside it, and not before that end is faced.
        let at = |verb: Verb| setup.operations.iter().position(|o| o.verb == verb).expect("there");
        assert!(at(Verb::Face) < at(Verb::Groove) && setup.operations.iter().any(|o| o.verb == Verb::Finish));
        let edges = setup.operations.iter().filter(|o| o.verb == Verb::Chamfer).count();
        assert_eq!(edges, 1, "the shoulder's edge");
    }
}
