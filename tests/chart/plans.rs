//! The chart that a plan comes to.

use std::path::Path;

use turnwright::chain::chart::{Charted, charted};
use turnwright::chain::{self, Profile};
use turnwright::{plan, read};

fn of(sample: &str) -> Charted {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(sample);
    let loaded = read::load(&path.to_string_lossy()).expect("a sample");
    let part = loaded.part.part.expect("a part");
    let shop = loaded.shop.and_then(Result::ok).and_then(|s| s.shop);
    let chain = chain::locate(&part);
    let profile = Profile::of(&part, &chain);
    let planned = plan::plan(&part, &chain, &profile, shop.as_ref(), 10).expect("a plan");
    charted(&part, &chain, &profile, &planned.plan, shop.as_ref()).expect("a chart")
}

/// TRADE §11 (the project's own hand-worked sheet): far lengths are cut from the far face at 7.000 − z, with the zero corrected.
#[test]
fn the_far_side_is_cut_from_the_far_face_with_a_corrected_zero() {
    let c = of("samples/pulley-stub.yaml");
    let chart = &c.plan.chart;
    let unit = chart.units;
    let show = |l| turnwright::unit::show::plain(l, unit, 4);
    let mut far: Vec<(String, String)> = Vec::new();
    for (i, cut) in chart.cuts.iter().enumerate() {
        if let turnwright::model::chart::MeasuredBy::From(from) = cut.by
            && c.plan.zeros.contains_key(&from)
            && !c.plan.proud.contains(&i)
        {
            far.push((chart.faces[cut.face].name.clone(), show(c.worked.cuts[i].mean.expect("a mean"))));
        }
    }
    far.sort();
    far.dedup();
    let hand = [
        ("3.650", "3.3500"),
        ("3.750", "3.2500"),
        ("4.350", "2.6500"),
        ("6.000", "1.0000"),
        ("6.500", "0.5000"),
        ("6.620", "0.3800"),
    ];
    assert_eq!(far, hand.map(|(a, b)| (a.to_owned(), b.to_owned())));
    assert!(c.plan.not_cut.is_empty(), "{:?}", c.plan.not_cut);
    assert!(c.worked.results.iter().all(|r| r.guaranteed));
    // Lengths ±.005 with .001 of the reading of the overall leave ±.004 to a cut that can be held to ±.002.
    assert!((c.worked.factor.expect("a factor") - 2.0).abs() < 1e-9);
    // Between two faces of one mounting the error of the zero leaves out: the bearing faces are two cuts apart.
    let between =
        c.worked.results.iter().find(|r| chart.faces[chart.dims[r.dim].from].name == "3.750").expect("the dims entry");
    assert_eq!(between.path.len(), 2);
    let gain = c.zeros().next().expect("a corrected zero");
    assert!(gain.after < gain.before);
}

#[test]
fn every_sample_has_a_chart_in_which_every_drawn_length_is_reached() {
    for sample in ["samples/tool-post-stud.yaml", "samples/idler-shaft.yaml", "samples/pulley-stub-no-shop.yaml"] {
        let c = of(sample);
        assert!(c.plan.not_cut.is_empty(), "{sample}: {:?}", c.plan.not_cut);
        assert!(!c.worked.results.is_empty(), "{sample}");
        for r in &c.worked.results {
            let d = &c.plan.chart.dims[r.dim];
            let faces = (&c.plan.chart.faces[d.from].name, &c.plan.chart.faces[d.to].name);
            assert!(r.guaranteed, "{sample}: {faces:?} {r:?}");
        }
        for (i, row) in c.worked.stock.iter().enumerate().filter(|(i, _)| c.is_removal(*i)) {
            assert!(row.limits().is_some_and(|l| l.min.is_positive()), "{sample}: row {i} {row:?}");
        }
    }
}
