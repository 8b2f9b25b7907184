//! The three verdicts of the dimension chain (can it exist, what is implied, what is guaranteed) and what would make a distance
//! hold: by hand, by enumeration, and by laws.

use std::fmt::Write as _;

use proptest::prelude::*;
use turnwright::chain::{self, Chain, schemes};
use turnwright::check::{self, Facts};
use turnwright::model::Part;
use turnwright::read;
use turnwright::unit::{Length, Limits};

fn part(text: &str) -> Part {
    let read = read::part("case.yaml", text.as_bytes());
    assert!(read.slips.is_empty(), "{text}\n{:?}", read.slips);
    read.part.expect("a part")
}

fn bar(features: &str, rest: &str) -> String {
    format!(
        "part: bar\nunits: mm\nmaterial: 1045 cold drawn\nstock: 40 x 130\ndatum: left\ntolerances: {{lengths: ±0.05, diameters: ±0.05}}\n\
         features:\n{features}{rest}"
    )
}

fn located(text: &str) -> (Part, Chain) {
    let part = part(text);
    let chain = chain::locate(&part);
    (part, chain)
}

/// Ids of the chain's findings.
fn found(text: &str) -> Vec<&'static str> {
    let (part, chain) = located(text);
    let profile = chain::Profile::of(&part, &chain);
    let facts =
        Facts { part: &part, slips: &[], chain: &chain, profile: &profile, shop: None, derived: None, plan: None };
    let chained = |id: &str| id.starts_with("chain-") || id == "implied-tighter";
    check::check(&facts).into_iter().map(|f| f.check).filter(|id| chained(id)).collect()
}

fn um(n: i64) -> Length {
    Length::micrometres(n)
}

fn row(chain: &Chain, index: usize) -> &chain::Distance {
    chain.distances.iter().find(|(i, _)| *i == Some(index)).map(|(_, d)| d).expect("a dims entry")
}

const FOUR: &str = "- turn: 20\n  to: 20\n- turn: 30\n  to: 50\n- turn: 25\n  to: 80\n- turn: 20\n  to: 120\n";

#[test]
fn a_chain_dimension_is_kept_as_one() {
    let (_, c) = located(&bar(
        "- turn: 20\n  to: 20 ±0.02\n- turn: 30\n  long: 30 ±0.03\n- turn: 25\n  long: 30 ±0.04\n- turn: 20\n",
        "overall: 120 ±0.1\ndims:\n- {from: 20, to: 80, is: 60 ±0.07}\n",
    ));
    let d = row(&c, 0);
    assert_eq!(d.path.len(), 2, "the two lengths between, not the datum");
    assert_eq!(d.worst_case, Some(Limits::new(um(59_930), um(60_070))));
    assert!(d.is_guaranteed());
    // Root sum square by hand: √(30² + 40²) = 50 µm.
    assert_eq!(d.rss, Some(Limits::new(um(59_950), um(60_050))));
}

#[test]
fn unequal_limits_are_worked_on_their_ends() {
    let (_, c) = located(&bar(
        "- turn: 20\n  to: 20 +0.04/-0\n- turn: 30\n  to: 50 +0/-0.02\n- turn: 25\n  to: 80\n- turn: 20\n",
        "overall: 120 ±0.1\ndims:\n- {from: 20, to: 50, is: 30 +0/-0.06}\n",
    ));
    let d = row(&c, 0);
    assert_eq!(d.worst_case, Some(Limits::new(um(29_940), um(30_000))), "50 − 0.02 − 20.04 to 50 − 20");
    assert!(d.is_guaranteed(), "by nominals ±, it would not be");
}

#[test]
fn a_bracketed_size_is_no_link_and_asks_nothing() {
    let text = bar(FOUR, "overall: (120)\ndims:\n- {from: 20, to: 50, is: (30)}\n");
    let (_, c) = located(&text);
    assert!(c.graph.links.iter().all(|l| l.nominal != um(30_000)));
    assert_eq!(row(&c, 0).stated, None);
    assert!(found(&text).is_empty());
}

#[test]
fn mixed_units_add_up_exactly() {
    // 1 in is 25.4 mm: 50.8 − 25.4 = 25.4 exactly.
    let (_, c) = located(&bar(
        "- turn: 20\n  to: 1 in\n- turn: 30\n  to: 50.8\n- turn: 25\n  to: 80\n- turn: 20\n",
        "overall: 120 ±0.1\ndims:\n- {from: 25.4, to: 2 in, is: 1 ±0.1 in}\n",
    ));
    assert_eq!(row(&c, 0).nominal, Length::PER_INCH);
}

#[test]
fn loose_faces_redundant_links_and_contradictions_are_told_apart() {
    assert_eq!(found(&bar("- turn: 20\n- turn: 30\n  to: 50\n- turn: 20\n", "overall: 120 ±0.1\n")), ["chain-loose"]);
    let closed = "- turn: 20\n  to: 20\n- turn: 30\n  long: 30\n- turn: 25\n  long: 30\n- turn: 20\n  long: 40\n";
    assert!(found(&bar(closed, "overall: 120 ±0.5\n")).contains(&"chain-redundant"));
    assert!(!found(&bar(closed, "overall: (120)\n")).contains(&"chain-redundant"));
    assert_eq!(
        found(&bar(FOUR, "overall: 120 ±0.1\ndims:\n- {from: 20, to: 50, is: 30.5 ±0.05}\n")),
        ["chain-contradiction"]
    );
}

/// Every link of the loop is needed: without any one of them the rest can hold, and the misclosure is by how much they miss.
#[test]
fn the_loop_is_just_the_contradictory_dimensions() {
    let text = bar(
        FOUR,
        "overall: 120 ±0.1\ndims:\n- {from: 20, to: 50, is: 30.5 ±0.05}\n- {from: 50, to: 80, is: 30 ±0.1}\n",
    );
    let (_, c) = located(&text);
    let found = c.contradiction.expect("30.5 is not 30");
    assert_eq!(found.links.len(), 3, "20, 50 and the distance between them");
    // 30.45 at least is asked; 50.05 − 19.95 = 30.10 at most.
    assert_eq!(found.misclosure, um(350));
}

#[test]
fn remedies_by_hand() {
    let (_, c) = located(&bar(
        "- turn: 20\n  to: 20 ±0.02\n- turn: 30\n  to: 50 ±0.10\n- turn: 25\n  to: 80\n- turn: 20\n",
        "overall: 120 ±0.1\ndims:\n- {from: 20, to: 50, is: 30 ±0.06}\n",
    ));
    let r = row(&c, 0).remedies(&c).expect("±0.12 is not ±0.06");
    assert_eq!(r.each, um(30), "half of 0.06 each");
    let (links, half) = r.fewest.expect("one suffices");
    assert_eq!((links.len(), half), (1, um(40)), "50 alone to ±0.04, beside ±0.02");
    assert_eq!(c.graph.links[links[0]].nominal, um(50_000));
    // Where only the middle is off, moving it is enough.
    let (_, c) = located(&bar(
        "- turn: 20\n  to: 20 ±0.01\n- turn: 30\n  to: 50 ±0.01\n- turn: 25\n  to: 80\n- turn: 20\n",
        "overall: 120 ±0.1\ndims:\n- {from: 20, to: 50, is: 30 +0.05/-0.01}\n",
    ));
    assert_eq!(row(&c, 0).remedies(&c).expect("−0.02").shift, Some(um(20)));
}

#[test]
fn schemes_by_hand() {
    let (_, c) = located(&bar(FOUR, "overall: 120 ±0.1\n"));
    let face = |mm: i64| c.at.iter().position(|s| s.is_some_and(|s| s.0 == um(mm * 1000))).expect("a face");
    let s = schemes(&c, face(20), face(80), um(50)).expect("located");
    assert_eq!((s.baseline, s.chain, s.direct), (um(100), (2, um(100)), um(50)));
    assert_eq!(s.as_dimensioned, Some(um(100)));
    // Far apart, the baseline keeps what the chain loses.
    let s = schemes(&c, 0, face(80), um(50)).expect("located");
    assert_eq!((s.baseline, s.chain), (um(50), (3, um(150))));
}

/// Lengths with their half bands, and distances between faces.
type Bars = (Vec<(i64, i64, bool)>, Vec<(usize, usize, i64)>);

fn bars() -> impl Strategy<Value = Bars> {
    (
        prop::collection::vec((5..40_i64, 10..200_i64, any::<bool>()), 3..8),
        prop::collection::vec((0..8_usize, 0..8_usize, 20..600_i64), 0..5),
    )
}

/// A bar of sections, each by its place or its length; distances asked between its faces; `unit` is `mm` or `in`.
fn text(sections: &[(i64, i64, bool)], asked: &[(usize, usize, i64)], unit: &str) -> String {
    let thousandths = |n: i64| format!("{}{}.{:03}", if n < 0 { "-" } else { "" }, n.abs() / 1000, n.abs() % 1000);
    let mut at = vec![0];
    let mut features = String::new();
    for (i, (long, half, own)) in sections.iter().enumerate() {
        let end = at[i] + long * 1000;
        at.push(end);
        let (key, value) = if *own { ("long", long * 1000) } else { ("to", end) };
        let diameter = 20 + i % 2;
        let _ = writeln!(features, "- turn: {diameter}\n  {key}: {} ±{}", thousandths(value), thousandths(*half));
    }
    let mut dims = String::new();
    for (from, to, half) in asked {
        let (from, to) = (from % at.len(), to % at.len());
        if from < to {
            let _ = writeln!(
                dims,
                "- {{from: {}, to: {}, is: {} ±{}}}",
                thousandths(at[from]),
                thousandths(at[to]),
                thousandths(at[to] - at[from]),
                thousandths(*half)
            );
        }
    }
    let dims = if dims.is_empty() { String::new() } else { format!("dims:\n{dims}") };
    format!(
        "part: bar\nunits: {unit}\ndatum: left\noverall: ({})\nfeatures:\n{features}{dims}",
        thousandths(at[at.len() - 1])
    )
}

/// The same bar described from its other end: every dimension still joins the same two faces, so what stood at a section's end may
/// now stand at the next one's, or count from the far end.
fn from_the_other_end(sections: &[(i64, i64, bool)], asked: &[(usize, usize, i64)]) -> String {
    let thousandths = |n: i64| format!("{}.{:03}", n / 1000, n % 1000);
    let n = sections.len();
    let mut at = vec![0];
    sections.iter().enumerate().for_each(|(i, (long, ..))| at.push(at[i] + long * 1000));
    let total = at[n];
    let mut features = String::new();
    for k in 0..n {
        let _ = writeln!(features, "- turn: {}", 20 + (n - 1 - k) % 2);
        let (long, half, own) = sections[n - 1 - k];
        if own {
            let _ = writeln!(features, "  long: {} ±{}", thousandths(long * 1000), thousandths(half));
        }
        // The face this section ends at was the end of the section before it.
        let (face, by) = if k + 1 < n { (n - 1 - k, n - 2 - k) } else { (n, n - 1) };
        let (_, half, own) = sections[by];
        if !own {
            let from_end = if k + 1 < n { " from end" } else { "" };
            let _ = writeln!(features, "  to: {} ±{}{from_end}", thousandths(at[face]), thousandths(half));
        }
    }
    let mut dims = String::new();
    for (from, to, half) in asked.iter().map(|(a, b, h)| (a % at.len(), b % at.len(), h)).filter(|(a, b, _)| a < b) {
        let (a, b) = (thousandths(total - at[to]), thousandths(total - at[from]));
        let _ =
            writeln!(dims, "- {{from: {a}, to: {b}, is: {} ±{}}}", thousandths(at[to] - at[from]), thousandths(*half));
    }
    let dims = if dims.is_empty() { String::new() } else { format!("dims:\n{dims}") };
    format!("part: bar\nunits: mm\ndatum: right\noverall: ({})\nfeatures:\n{features}{dims}", thousandths(total))
}

fn verdicts(c: &Chain) -> Vec<(bool, Option<i64>)> {
    c.distances.iter().map(|(_, d)| (d.is_guaranteed(), d.worst_case.map(|w| w.band().pm()))).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(120))]

    /// The same numbers read as inches: every band 25.4 times as wide, no verdict another.
    #[test]
    fn inches_for_millimetres_change_no_verdict((sections, asked) in bars()) {
        let (_, mm) = located(&text(&sections, &asked, "mm"));
        let (_, inch) = located(&text(&sections, &asked, "in"));
        let scaled: Vec<_> = verdicts(&mm).into_iter().map(|(g, b)| (g, b.map(|b| b / 10 * 254))).collect();
        prop_assert_eq!(scaled, verdicts(&inch));
        prop_assert_eq!(mm.contradiction.is_some(), inch.contradiction.is_some());
    }

    /// The datum at the other end: the same dimensions, the same verdicts.
    #[test]
    fn the_other_end_as_datum_changes_no_verdict((sections, asked) in bars()) {
        let (_, one) = located(&text(&sections, &asked, "mm"));
        let (_, other) = located(&from_the_other_end(&sections, &asked));
        let last = one.far;
        for (index, d) in one.distances.iter().filter_map(|(i, d)| Some(((*i)?, d))) {
            let same = row(&other, index);
            prop_assert_eq!((same.from, same.to), (last - d.to, last - d.from));
            prop_assert_eq!((d.is_guaranteed(), d.worst_case, d.implied), (same.is_guaranteed(), same.worst_case, same.implied));
            prop_assert_eq!(d.path.len(), same.path.len());
        }
        prop_assert_eq!(one.contradiction.is_some(), other.contradiction.is_some());
    }

    /// Worst case by every corner of the links on the path; nothing between corners is beyond them.
    #[test]
    fn corners_are_the_worst_case((sections, asked) in bars()) {
        let (_, c) = located(&text(&sections, &asked, "mm"));
        for (_, d) in &c.distances {
            let Some(worst) = d.worst_case else { continue };
            let (mut least, mut most) = (Length::from_pm(i64::MAX), Length::from_pm(i64::MIN));
            for corner in 0..1_u32 << d.path.len().min(10) {
                let mut node = d.from;
                let mut sum = Length::ZERO;
                for (i, link) in d.path.iter().enumerate() {
                    let link = &c.graph.links[*link];
                    let size = if corner >> i & 1 == 1 { link.limits.max } else { link.limits.min };
                    let outward = link.from == node;
                    sum += if outward { size } else { -size };
                    node = if outward { link.to } else { link.from };
                }
                prop_assert_eq!(node, d.to);
                (least, most) = (least.min(sum), most.max(sum));
            }
            prop_assert_eq!(Limits::new(least, most), worst);
        }
    }

    /// What all stated lengths allow is never wider than what they guarantee, and one more of them never widens it.
    #[test]
    fn implied_lies_within_guaranteed((sections, asked) in bars()) {
        let (_, c) = located(&text(&sections, &asked, "mm"));
        let (_, fewer) = located(&text(&sections, &asked[..asked.len() / 2], "mm"));
        for (_, d) in &c.distances {
            if let (Some(implied), Some(worst)) = (d.implied, d.worst_case) {
                prop_assert!(worst.covers(implied));
                let before = fewer.distances.iter().find(|(_, f)| (f.from, f.to) == (d.from, d.to)).and_then(|(_, f)| f.implied);
                prop_assert!(before.is_none_or(|b| b.covers(implied)));
            }
        }
    }

    /// A remedy holds: with its lengths held so, the distance is guaranteed.
    #[test]
    fn remedies_hold((sections, asked) in bars()) {
        let (_, c) = located(&text(&sections, &asked, "mm"));
        for (_, d) in &c.distances {
            let (Some(r), Some(stated)) = (d.remedies(&c), d.stated) else { continue };
            let held = |closer: &dyn Fn(usize, Length) -> Length| -> Length {
                d.path.iter().map(|i| closer(*i, c.graph.links[*i].limits.band().half())).sum()
            };
            let room = stated.band().half();
            prop_assert!(held(&|_, _| r.each) <= room);
            if let Some((links, half)) = &r.fewest {
                let closer = |i: usize, own: Length| if links.contains(&i) { *half } else { own };
                prop_assert!(held(&closer) <= room);
                prop_assert!(links.iter().all(|i| *half < c.graph.links[*i].limits.band().half()));
            }
        }
    }
}
