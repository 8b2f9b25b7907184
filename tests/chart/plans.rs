//! The chart that a plan comes to.

use std::path::Path;

use turnwright::chain::chart::{Charted, StockRow, charted};
use turnwright::chain::{self, Profile};
use turnwright::model::{Part, Shop};
use turnwright::unit::Length;
use turnwright::{plan, read};

fn of(sample: &str) -> Charted {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(sample);
    let loaded = read::load(&path.to_string_lossy()).expect("a sample");
    let part = loaded.part.part.expect("a part");
    let shop = loaded.shop.and_then(Result::ok).and_then(|s| s.shop);
    chart_of(&part, shop.as_ref())
}

fn chart_of(part: &Part, shop: Option<&Shop>) -> Charted {
    let chain = chain::locate(part);
    let profile = Profile::of(part, &chain);
    let planned = plan::plan(part, &chain, &profile, shop, 10).expect("a plan");
    charted(part, &chain, &profile, &planned.plan, shop).expect("a chart")
}

/// What each cut takes off a face that was left proud: operation, least, mean, most, in millimetres.
fn removals(c: &Charted) -> Vec<(u32, f64, f64, f64)> {
    let rows = (0..c.worked.stock.len()).filter(|i| c.is_removal(*i)).map(|i| &c.worked.stock[i]);
    let row = |r: &StockRow| {
        let l = r.limits()?;
        Some((c.plan.chart.cuts[r.cut].op, l.min.mm(), r.mean?.mm(), l.max.mm()))
    };
    rows.filter_map(row).collect()
}

/// A cam between two larger sections: its wall at 60 is another face than the one that the journal's shoulder was faced to, so nothing
/// comes off that; 0.5 mm are left at the wall at 85 (the face allowance of the plan), and no tolerance may eat them up.
#[test]
fn no_cut_finds_less_than_nothing() {
    let text = "part: cam pin\nunits: mm\nmaterial: 16MnCr5\nstock: 36 x 113\ndatum: handle end\noverall: 110 ±0.3\n\
tolerances: ISO 2768-m\nfeatures:\n  - turn: 16 h8\n    to: 30\n  - turn: 20 f7\n    to: 60\n  - turn: 18 f7\n    to: 85\n    \
offset: 2.5 ±0.05\n  - turn: 32\n    to: 92\n  - turn: 20 f7\n    to: end\n";
    let part = read::part("cam.yaml", text.as_bytes()).part.expect("a part");
    let c = chart_of(&part, None);
    let rows = removals(&c);
    // Datum face, far face, the shoulders at 30, 60 and 92, the cam's wall at 85; not its wall at 60.
    assert_eq!(rows.len(), 6, "{rows:?}");
    assert!(rows.iter().filter(|(_, _, mean, _)| (mean - 0.5).abs() < 1e-9).count() >= 4, "{rows:?}");
    let mut charts = vec![c];
    charts.extend(["samples", "tests/figures/parts"].into_iter().flat_map(|folder| {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
        let files = std::fs::read_dir(&folder).expect("a folder").map(|e| e.expect("an entry").path());
        let parts =
            files.filter(|f| std::fs::read_to_string(f).is_ok_and(|t| t.lines().any(|l| l.starts_with("part:"))));
        parts.map(|f| of(&f.to_string_lossy())).collect::<Vec<_>>()
    }));
    assert!(charts.len() > 10, "{}", charts.len());
    for c in charts {
        for row in removals(&c) {
            assert!(row.1 >= -1e-9, "{}: {row:?}", c.plan.chart.name.text);
        }
    }
}

/// A part cut off the bar: parting leaves its far end 0.5 mm proud (the face allowance of the plan), counted from the datum face as all of that
/// holding; the second holding faces that off. The saw's cut of the bar is no end of the part.
#[test]
fn parting_leaves_the_far_end_proud() {
    let text = "part: knob\nunits: mm\nmaterial: C45\nstock: 30 x 200\ndatum: head\noverall: 60 ±0.1\ntolerances: ISO 2768-m\n\
features:\n  - turn: 20\n    to: 40\n  - turn: 26\n    to: end\nplan: {part off: true}\n";
    let part = read::part("knob.yaml", text.as_bytes()).part.expect("a part");
    let c = chart_of(&part, None);
    let chart = &c.plan.chart;
    let far: Vec<(Option<f64>, bool)> = (0..chart.cuts.len())
        .filter(|i| chart.faces[chart.cuts[*i].face].name == "far face")
        .map(|i| (c.worked.cuts[i].mean.map(Length::mm), c.plan.proud.contains(&i)))
        .collect();
    assert_eq!(far, [(Some(60.5), true), (Some(60.0), false)]);
    let rows = removals(&c);
    let last = rows.last().expect("the far end is faced");
    assert!((last.2 - 0.5).abs() < 1e-9 && last.1 >= 0.0, "{rows:?}");
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
