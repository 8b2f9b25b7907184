//! Flats, keyseats and holes across on rounds that are no plain cylinders: the points of a knurl, a taper, an eccentric. Sizes worked by hand in each
//! test; plain geometry unless a source is named. The parts are our own.

use turnwright::chain::{self, Profile};
use turnwright::check;
use turnwright::figures::{self, Figures, FlatsCut, HoleCut, Job, KeyseatCut};
use turnwright::plan;

use crate::figures::hand::part;

fn figures(text: &str) -> Figures {
    let part = part(text.as_bytes());
    let chain = chain::locate(&part);
    let profile = Profile::of(&part, &chain);
    let planned = plan::plan(&part, &chain, &profile, None, 10).expect("a plan");
    figures::work(&part, &chain, &profile, &planned.plan, None)
}

fn jobs(figures: &Figures) -> impl Iterator<Item = &Job> {
    figures.setups.iter().flat_map(|s| &s.operations).map(|o| &o.job)
}

fn flats(figures: &Figures) -> Vec<&FlatsCut> {
    jobs(figures).filter_map(|j| if let Job::Flats(f) = j { Some(&**f) } else { None }).collect()
}

fn keyseat(figures: &Figures) -> &KeyseatCut {
    jobs(figures).find_map(|j| if let Job::Keyseat(k) = j { Some(&**k) } else { None }).expect("a keyseat with numbers")
}

fn hole(figures: &Figures) -> &HoleCut {
    let mut holes = jobs(figures).filter_map(|j| if let Job::Hole(h) = j { Some(&**h) } else { None });
    holes.find(|h| h.touch.is_some()).expect("a hole with its touch-off")
}

fn near(figure: figures::Figure, mm: f64) {
    assert!((figure.value.mm() - mm).abs() < 1e-4, "{figure:?} against {mm}");
}

const ROD: &str = "part: clamp rod\nunits: mm\nmaterial: C45\nstock: 50 x 205\ndatum: handle end\noverall: 200 ±0.5\ntolerances: ISO 2768-m\n\
features:\n  - knurl: diamond 0.8 mm\n    diameter: 30\n    to: 40\n    name: grip\n  - turn: 34\n    to: 60\n  - taper: 1:10\n    large: 40\n    \
tapers to: datum\n    to: 100\n    name: cone\n  - turn: 48\n    to: 120\n  - turn: 40\n    offset: 3\n    to: 150\n    name: cam\n  \
- turn: 30 h8\n    to: end\n";

/// The taper grows by 4 over 40: Ø 40 at 100, Ø 38 at 80, Ø 37 at 70. Flats of 37 across lie 1.5 deep at its large end, where an end mill
/// touches it first, and leave it at 70.
#[test]
fn flats_on_a_taper_count_from_its_large_end() {
    let made = figures(&format!("{ROD}  - flat: 37 across\n    on: cone\n"));
    let cut = flats(&made)[0];
    near(cut.round, 40.0);
    near(cut.depth, 1.5);
    near(cut.round_at.expect("a place"), 100.0);
    near(cut.runs_out.expect("they leave it"), 70.0);
    near(cut.after_first, 38.5);
    assert!(cut.recipe.iter().any(|s| s.contains("edge 100.00 from the datum face")), "{:?}", cut.recipe);
    // Between two places: the larger of them counts, Ø 39 at 90.
    let made = figures(&format!("{ROD}  - flat: 1.2 deep\n    from: 75\n    to: 90\n"));
    let cut = flats(&made)[0];
    near(cut.round, 39.0);
    near(cut.round_at.expect("a place"), 90.0);
    assert!(cut.runs_out.is_none(), "Ø 36.6 is below the taper at 75");
}

/// Over the points, and from the round as measured there.
#[test]
fn flats_on_a_knurl_count_from_its_points() {
    let made = figures(&format!("{ROD}  - flat: 26 across\n    on: grip\n"));
    let cut = flats(&made)[0];
    let knurl = jobs(&made).find_map(|j| if let Job::Knurl(k) = j { Some(&**k) } else { None }).expect("a knurl");
    assert_eq!(cut.round.value, knurl.expected.value);
    near(cut.depth, (knurl.expected.value.mm() - 26.0) / 2.0);
    assert!(cut.recipe[0].contains("over the points") && cut.recipe[0].contains("measure it"), "{:?}", cut.recipe);
}

/// About its own axis an eccentric is a cylinder like another: the numbers are those of the same keyseat in a plain one. Around the part it is clocked
/// from the high side.
#[test]
fn on_an_eccentric_from_its_own_round() {
    for key in ["12 x 8 x 20\n    from: 125", "Woodruff 1212\n    at: 135"] {
        let with = format!("{ROD}  - keyseat: {key}\n    angle: 50°\n");
        let (thrown, plain) = (figures(&with), figures(&with.replace("    offset: 3\n", "")));
        let (thrown, plain) = (keyseat(&thrown), keyseat(&plain));
        assert!(thrown.thrown && !plain.thrown);
        assert_eq!(thrown.depth_from_top, plain.depth_from_top);
        assert_eq!((thrown.across_limits, thrown.side_touch), (plain.across_limits, plain.side_touch));
        assert_eq!((thrown.slot, thrown.cutter_center), (plain.slot, plain.cutter_center));
        assert!(
            thrown.recipe[0].contains("axis 3.000 off") && thrown.recipe[0].contains("50° on"),
            "{:?}",
            thrown.recipe
        );
    }
    // NAVEDTRA 14345: T = d + f, here from the top 5 by ISO 773 in a shaft of 38 to 44.
    let with = format!("{ROD}  - keyseat: 12 x 8 x 20\n    from: 125\n    angle: 50°\n");
    near(keyseat(&figures(&with)).depth_from_top, 5.0);
    let made = figures(&format!("{ROD}  - flat: 36 across\n    from: 125\n    to: 145\n"));
    let cut = flats(&made)[0];
    near(cut.round, 40.0);
    near(cut.depth, 2.0);
    assert!(cut.recipe[0].contains("No angle to its high side"), "{:?}", cut.recipe);
    assert!(cut.recipe.iter().any(|s| s.contains("the heights differ")), "{:?}", cut.recipe);
}

/// Half of the taper's Ø 38 at the hole's middle and half of the drill.
#[test]
fn a_hole_across_a_taper_is_found() {
    let made = figures(&format!("{ROD}  - cross hole: 6\n    at: 80\n"));
    let touch = hole(&made).touch.expect("a touch-off");
    near(touch.half_round, 19.0);
    near(touch.with_drill, 22.0);
    near(touch.along, 80.0);
    near(touch.from_far, 120.0);
}

/// Where there are no numbers a finding says so: on a taper, in a round that a key is too wide for, for flats that do not cut.
#[test]
fn no_operation_is_empty_without_a_word() {
    let key = |key: &str| format!("  - keyseat: {key}\n");
    for (says, id) in [
        (key("8 x 7 x 20\n    from: 70"), "keyseat-on-taper"),
        (key("32 x 18 x 40\n    from: 155"), "keyseat-width"),
        ("  - flat: 49 across\n    from: 105\n    to: 115\n".to_owned(), "flat-usable"),
        ("  - flat: 41 across\n    on: cone\n".to_owned(), "flat-usable"),
        ("  - flat: 41 across\n    on: cam\n".to_owned(), "flat-usable"),
    ] {
        let text = format!("{ROD}{says}");
        let part = part(text.as_bytes());
        let chain = chain::locate(&part);
        let profile = Profile::of(&part, &chain);
        let facts = check::Facts {
            part: &part,
            slips: &[],
            chain: &chain,
            profile: &profile,
            shop: None,
            derived: None,
            plan: None,
        };
        let found = check::check(&facts);
        assert!(found.iter().any(|f| f.check == id), "{says}: {:?}", found.iter().map(|f| f.check).collect::<Vec<_>>());
    }
}
