//! Taper pipe threads: the taper turned first, the thread on it in the same setting, gauged by hand.

use turnwright::figures::{Inspected, Job, PipeCut};
use turnwright::model::plan::{State, Verb};
use turnwright::model::{Shop, Workholder};
use turnwright::plan::Planned;
use turnwright::unit::{Length, Unit};

use crate::planning::believable::{is_holding_error, judged};
use crate::planning::parts;

fn nipple(thread: &str) -> String {
    format!(
        "part: adapter\nunits: in\nmaterial: 12L14\nstock: 2.750 x 4.125\ndatum: pipe end\noverall: 4.000 ±0.010\n\
tolerances: {{lengths: ±0.010, diameters: ±0.005}}\nfeatures:\n  - thread: {thread}\n    long: 1.000\n    run-out: 0.150\n  \
- turn: 2.600\n    to: end\n  - chamfer: 0.060 x 45°\n    end: datum\n"
    )
}

fn planned(text: &str, shop: Option<&Shop>) -> Planned {
    let (p, findings) = judged(text, shop).expect("a plan");
    assert_eq!(p.certificate.verify(), Ok(()));
    assert!(!findings.iter().any(|f| f.check == "not-supported" || is_holding_error(f)), "{findings:?}");
    p
}

fn pipe(text: &str, p: &Planned, shop: Option<&Shop>) -> (PipeCut, turnwright::figures::Figures) {
    let part = parts::part(text);
    let chain = turnwright::chain::locate(&part);
    let profile = turnwright::chain::Profile::of(&part, &chain);
    let f = turnwright::figures::work(&part, &chain, &profile, &p.plan, shop);
    let cut = f.setups.iter().flat_map(|s| &s.operations).find_map(|o| match &o.job {
        Job::Thread(t) => t.pipe.clone(),
        _ => None,
    });
    (cut.expect("a pipe thread"), f)
}

fn inch(l: Length) -> f64 {
    l.to_f64(Unit::Inch)
}

/// A printing of ASME B1.20.1, basic dimensions of NPT (a pipe dealer's page): E1, L1, L1 in threads, L2.
const PRINTED: [(&str, f64, f64, f64, f64); 6] = [
    ("1/8-27 NPT", 0.37360, 0.162, 4.36, 0.2639),
    ("1/4-18 NPT", 0.49163, 0.228, 4.10, 0.4018),
    ("1/2-14 NPT", 0.77843, 0.320, 4.48, 0.5337),
    ("3/4-14 NPT", 0.98887, 0.339, 4.75, 0.5457),
    ("1-11.5 NPT", 1.23863, 0.400, 4.60, 0.6828),
    ("2-11.5 NPT", 2.29627, 0.436, 5.01, 0.7565),
];

#[test]
fn npt_is_gauged_as_the_standard_is_printed() {
    for (name, e1, l1, threads, l2) in PRINTED {
        let text = nipple(name);
        let p = planned(&text, None);
        let (cut, f) = pipe(&text, &p, None);
        assert!((inch(cut.gauge_plane.value) - e1).abs() < 6e-6, "{name} E1");
        assert!((cut.turns - threads).abs() < 0.011, "{name}: {} turns", cut.turns);
        assert!((inch(cut.useful_length.value) - l2).abs() < 6e-5, "{name} L2");
        let (least, most) = (inch(cut.gauge_length.exact.min), inch(cut.gauge_length.exact.max));
        assert!((f64::midpoint(least, most) - l1).abs() < 6e-4, "{name} L1");
        // E1 = E0 + L1 / 16: the small end from the plane, by the taper alone.
        let small = inch(cut.small_end.exact.middle());
        assert!((small + f64::midpoint(least, most) / 16.0 - e1).abs() < 1e-5, "{name} E0");
        let row = f.inspection.iter().find(|r| r.kind == Inspected::Gauge).expect("a row");
        assert_eq!(row.limits.exact, cut.gauge_length.exact);
        // No nut goes on a taper: what is tried, laid out and assumed speaks of gauge and fitting.
        let stops: Vec<&String> =
            f.setups.iter().flat_map(|s| &s.operations).filter_map(|o| o.stop_after.as_ref()).collect();
        assert!(stops.iter().any(|s| s.contains("the ring gauge or the fitting")), "{stops:?}");
        assert!(f.layout.instruments.contains(&format!("fitting for {name}")), "{:?}", f.layout.instruments);
        let said = format!("{:?} {stops:?} {:?}", f.layout, f.assumed);
        assert!(
            !said.contains("nut for") && !said.contains("the nut") && !said.contains("wires decide"),
            "{name}: {said}"
        );
    }
}

/// 1 in 16 over the section, the small end outward, whichever end it lies at; then the thread, in the same mounting.
#[test]
fn the_taper_stands_before_the_thread_and_rises_one_in_sixteen() {
    let far = "part: adapter\nunits: in\nmaterial: 12L14\nstock: 1.500 x 4.125\ndatum: plain end\noverall: 4.000 ±0.010\n\
tolerances: {lengths: ±0.010, diameters: ±0.005}\nfeatures:\n  - turn: 1.375\n    to: 3.000\n  - thread: 1/2-14 NPT\n    to: end\n    \
run-out: 0.150\n  - chamfer: 0.060 x 45°\n    end: far\n";
    for (text, letter, datum) in [(nipple("1/2-14 NPT"), "A", true), (far.to_owned(), "B", false)] {
        let p = planned(&text, None);
        let at = |verb: Verb| {
            let id = format!("{}-{letter}", verb.word());
            p.plan.operations().find(|(_, o)| o.id == id).unwrap_or_else(|| panic!("no {id}"))
        };
        let (taper, thread) = (at(Verb::Taper), at(Verb::Thread));
        assert!(taper.1.number < thread.1.number && taper.0.number == thread.0.number);
        assert!(
            matches!(taper.0.by, Workholder::SetOver(by) if (inch(by) - 4.0 / 32.0).abs() < 5e-4),
            "{:?}",
            taper.0.by
        );
        let last = p.plan.setups.last().expect("a setup");
        let span = last.before.iter().find(|s| s.state == State::Threaded).expect("threaded");
        let rise = inch(span.diameter_to) - inch(span.diameter);
        let wanted = inch(span.to - span.from) / 16.0;
        assert!((rise.abs() - wanted).abs() < 2e-4 && (rise > 0.0) == datum, "{rise} {wanted}");
    }
}

#[test]
fn with_an_attachment_it_is_cut_in_the_chuck() {
    let shop = include_str!("../../samples/shop.yaml").replace("taper attachment: no", "taper attachment: yes");
    let read = turnwright::read::shop("shop.yaml", shop.as_bytes());
    let shop = read.shop.expect("a shop");
    let text = nipple("1/2-14 NPT");
    let p = planned(&text, Some(&shop));
    assert!(!p.plan.setups.iter().any(|s| matches!(s.by, Workholder::SetOver(_))));
}

/// R 1/2: diameters at the gauge plane are those of G 1/2 (ISO 7-1, ISO 228-1: 20.955, 19.793, 18.631), 8.2 from the small end.
#[test]
fn r_has_the_diameters_of_g_at_its_gauge_plane() {
    let text = "part: tail\nunits: mm\nmaterial: C45\nstock: 32 x 82\ndatum: pipe end\noverall: 80 ±0.3\ntolerances: ISO 2768-m\n\
features:\n  - thread: R 1/2\n    long: 20\n    run-out: 4\n  - turn: 30\n    to: end\n  - chamfer: 1.5 x 45°\n    end: datum\n";
    let p = planned(text, None);
    let (cut, _) = pipe(text, &p, None);
    assert_eq!(cut.gauge_plane.value, Length::micrometres(19_793));
    let small = cut.small_end.exact.middle();
    assert!(
        (small - (Length::micrometres(19_793) - Length::micrometres(8_200).times_ratio(1, 16))).abs()
            <= Length::micrometres(1)
    );
    assert!((cut.turns - 8.2 / (25.4 / 14.0)).abs() < 1e-6);
}

/// A thread shorter than L2 is told.
#[test]
fn a_short_one_is_told() {
    let text = nipple("1/2-14 NPT").replace("long: 1.000", "long: 0.500");
    let (_, findings) = judged(&text, None).expect("a plan");
    let short = findings.iter().find(|f| f.check == "thread-short").expect("told");
    assert!(short.message.contains(".5337") && short.message.contains("useful length"), "{}", short.message);
}

/// An internal one is tapped, and the tap goes in until the plug gauge's notch is flush.
#[test]
fn an_internal_one_is_tapped_to_its_gauge() {
    let text = "part: cap\nunits: in\nmaterial: 12L14\nstock: 1.500 x 1.625\ndatum: open end\noverall: 1.500 ±0.010\n\
tolerances: {lengths: ±0.010, diameters: ±0.005}\nfeatures:\n  - turn: 1.375\n    to: end\n  - tapped hole: 1/2-14 NPT\n    deep: 0.650\n    \
end: datum\n";
    let p = planned(text, None);
    let drill = p.plan.operations().find(|(_, o)| o.verb == Verb::Drill).expect("drilled").1;
    // 23/32: the usual drill of the table, with a printing in tests/reference.
    assert_eq!(drill.to_diameter.map(inch), Some(23.0 / 32.0));
    let part = parts::part(text);
    let chain = turnwright::chain::locate(&part);
    let profile = turnwright::chain::Profile::of(&part, &chain);
    let f = turnwright::figures::work(&part, &chain, &profile, &p.plan, None);
    let row = f.inspection.iter().find(|r| r.kind == Inspected::Gauge).expect("a row");
    assert!((inch(row.limits.exact.middle()) - 0.320).abs() < 1e-9);
    let lines = f.setups.iter().flat_map(|s| &s.operations).filter_map(|o| match &o.job {
        Job::Hole(h) => Some(&h.lines),
        _ => None,
    });
    assert!(lines.flatten().any(|l| l.note.contains("notch flush")));
}
