//! The dial of a mounting after the flip, simulated with the overall off nominal: every drawn length must come out within its limits, whichever face it is
//! drawn from. The limits are those written in the parts below; the arithmetic (common practice, no source) is worked here anew: the far face is touched
//! where it is, the dial is set to overall − measured there, and the carriage goes to the reading the sheet gives.

use crate::figures::hand::{part, shop};
use turnwright::chain::{self, Profile};
use turnwright::figures::{self, CountsFrom, Figures};
use turnwright::model::plan::Verb;
use turnwright::model::shop::Reads;
use turnwright::model::{Part, Plan};
use turnwright::plan;
use turnwright::unit::Length;

const BORED: &str = "part: bored\nunits: in\nmaterial: 1018 cold drawn\nstock: 2.000 x 3.250\ndatum: left end\noverall: 3.000 ±0.010\n\
tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 1.500\n    to: 1.000\n  - turn: 1.900\n    to: 2.200\n  - turn: 1.700\n    to: end\n  \
- chamfer: 0.030 x 45°\n    end: far\ninside:\n  - bore: 1.000 +0.001/-0\n    end: far\n    depth: 0.700\n";

const SHOULDER: &str = "part: shoulder\nunits: in\nmaterial: 1018 cold drawn\nstock: 2.000 x 6.250\ndatum: left end\noverall: 6.000 ±0.010\n\
tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 1.500\n    to: 1.000\n  - turn: 1.900\n    to: 3.000\n  - turn: 1.700\n    \
to: 5.000\n  - turn: 1.400\n    to: end\n  - groove: 1.250\n    from: -0.500 ±0.003 from far end\n    wide: 0.125\ndims:\n  \
- {from: 5.000, to: far end, is: 1.000 ±0.002}\n";

struct Made {
    part: Part,
    plan: Plan,
    figures: Figures,
}

fn made(text: &str) -> Made {
    let part = part(text.as_bytes());
    let shop = shop(Reads::Radius);
    let chain = chain::locate(&part);
    let profile = Profile::of(&part, &chain);
    let plan = plan::plan(&part, &chain, &profile, Some(&shop), 10).expect("a plan").plan;
    let figures = figures::work(&part, &chain, &profile, &plan, Some(&shop));
    Made { part, plan, figures }
}

fn mil(thousandths: i64) -> Length {
    Length::micro_inches(thousandths * 1000)
}

/// Where a place of an operation comes out from the datum face and from the far face, in thousandths, where the overall is `off` nominal.
fn comes_out(made: &Made, verb: Verb, letter: &str, what: &str, off: i64) -> Option<(Length, Length, CountsFrom)> {
    let overall = made.part.overall.as_ref().expect("an overall").nominal;
    let measured = overall + mil(off);
    made.plan.setups.iter().zip(&made.figures.setups).find_map(|(setup, numbers)| {
        let ops = setup.operations.iter().zip(&numbers.operations);
        let mut found = ops.filter(|(o, _)| {
            o.verb == verb && o.feature.map_or(letter.is_empty(), |f| made.part.features[f].letter == letter)
        });
        let (_, f) = found.next_back()?;
        let row = f.positions.iter().find(|p| p.what == what)?;
        let (reading, zero) = (row.carriage?.value, row.zero.expect("on the lathe"));
        // What the dial stands at where the tool touches the far face.
        let set = numbers.correction.as_ref().map_or(Length::ZERO, |_| overall - measured);
        let goes_to = if zero == CountsFrom::FarFace { reading + set } else { reading };
        let from_far = goes_to - set;
        Some(match zero {
            CountsFrom::DatumFace => (reading, measured - reading, zero),
            CountsFrom::Corrected | CountsFrom::FarFace => (measured - from_far, from_far, zero),
        })
    })
}

fn within(name: &str, got: Length, aim: i64, by: i64) {
    assert!((got - mil(aim)).abs() <= mil(by), "{name}: {got:?}, drawn {aim} ±{by} thousandths");
}

#[test]
fn lengths_from_the_far_face_come_right_whatever_the_overall_is() {
    let bored = made(BORED);
    for off in [-10, -8, 0, 8, 10] {
        let (_, deep, zero) = comes_out(&bored, Verb::Bore, "D", "bottom", off).expect("the bore");
        within("depth of the bore", deep, 700, 5);
        assert_eq!(zero, CountsFrom::FarFace);
        let (shoulder, _, zero) = comes_out(&bored, Verb::Finish, "C", "shoulder", off).expect("the shoulder");
        within("shoulder from the datum face", shoulder, 2200, 5);
        assert_eq!(zero, CountsFrom::Corrected);
        let (_, edge, _) = comes_out(&bored, Verb::Chamfer, "", "edge", off).expect("the chamfer");
        within("edge of the chamfer", edge, 0, 0);
    }
    let set = bored.figures.setups.iter().filter_map(|s| s.correction.as_ref());
    assert!(set.clone().any(|c| c.by_face && c.says.contains("far face itself")), "the sheet says so");
}

#[test]
fn a_distance_or_a_groove_drawn_from_the_far_end_counts_from_it() {
    let part = made(SHOULDER);
    for off in [-10, 10] {
        let (_, far, _) = comes_out(&part, Verb::Finish, "D", "shoulder", off).expect("the shoulder");
        within("shoulder to the far end", far, 1000, 2);
        let (datum, ..) = comes_out(&part, Verb::Finish, "C", "shoulder", off).expect("the other shoulder");
        within("shoulder from the datum face", datum, 3000, 5);
        let (_, groove, zero) = comes_out(&part, Verb::Groove, "E", "plunge 1", off)
            .or_else(|| comes_out(&part, Verb::Groove, "E", "far wall", off))
            .expect("the groove");
        assert_eq!(zero, CountsFrom::FarFace);
        assert!(mil(370) <= groove && groove <= mil(503), "{groove:?}");
    }
}

/// With the zeros exchanged the simulation fails: it can tell them apart.
#[test]
fn the_simulation_tells_one_zero_from_the_other() {
    let mut bored = made(BORED);
    for place in bored.figures.setups.iter_mut().flat_map(|s| &mut s.operations).flat_map(|o| &mut o.positions) {
        place.zero = place.zero.map(|zero| match zero {
            CountsFrom::Corrected => CountsFrom::FarFace,
            CountsFrom::FarFace => CountsFrom::Corrected,
            CountsFrom::DatumFace => zero,
        });
    }
    let (_, deep, _) = comes_out(&bored, Verb::Bore, "D", "bottom", 8).expect("the bore");
    assert_eq!(deep, mil(708));
    let (shoulder, ..) = comes_out(&bored, Verb::Finish, "C", "shoulder", 8).expect("the shoulder");
    assert_eq!(shoulder, mil(2208));
}

/// Each cut of the chart is aimed at what is drawn between its face and the face it is measured from, and every distance is made by cuts or told as not cut.
#[test]
fn the_chart_cuts_what_is_drawn_from_where_it_is_cut() {
    for text in [BORED, SHOULDER] {
        let made = made(text);
        let charted = made.figures.chart.as_ref().expect("a chart");
        let (plan, worked) = (&charted.plan, &charted.worked);
        let mut judged = 0;
        for (i, cut) in plan.chart.cuts.iter().enumerate() {
            let turnwright::model::chart::MeasuredBy::From(from) = cut.by else { continue };
            if plan.proud.contains(&i) {
                continue;
            }
            let drawn = (plan.at[cut.face] - plan.at[from]).abs();
            let mean = worked.cuts[i].mean.expect("a mean");
            assert!((mean - drawn).abs() <= mil(1), "op {}: {mean:?}, drawn {drawn:?}", cut.op);
            judged += 1;
        }
        assert!(judged >= 5, "{judged}");
        assert!(worked.results.iter().all(|r| !r.path.is_empty()) && plan.not_cut.is_empty());
        let bottom = worked.results.iter().map(|r| (r.mean, r.path.len()));
        if text == BORED {
            assert!(
                bottom.clone().any(|(mean, cuts)| mean == Some(mil(700)) && cuts == 1),
                "the bore by its own depth"
            );
        }
    }
}
