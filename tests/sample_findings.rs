//! What `check` says of each sample, judged by hand: every finding is true, and none that a foreman would raise is missing.
//!
//! Judged against the trade facts the checks' pages stand on and the worked data of the samples; the limits of the checks are common
//! practice, no source. A sample that is not in the table must still have no open error.

use std::path::Path;

use turnwright::chain::{self, Profile};
use turnwright::check::{self, Facts};
use turnwright::finding::{Finding, Severity};
use turnwright::{plan, read};

/// Sample, severity (`accepted` for what its description accepts), check, first feature's letter, and why it is true.
const TRUE: &[(&str, &str, &str, &str, &str)] = &[
    ("idler-shaft.yaml", "note", "frame-change", "C", "the shoulder at 11.450 faces the far end"),
    ("idler-shaft.yaml", "warning", "gauge-missing", "", "the overall may be 12.260 and the caliper reads to 12"),
    ("idler-shaft.yaml", "warning", "held-by-turning", "A", ".0004 on 1.000: IT5 is .00035"),
    ("idler-shaft.yaml", "warning", "held-by-turning", "C", ".0004 on 1.000: IT5 is .00035"),
    ("idler-shaft.yaml", "warning", "play-negative", "D", "0 to .015 by worst case; the limit is .010"),
    ("idler-shaft.yaml", "warning", "play-negative", "E", "0 to .015 by worst case; the limit is .010"),
    ("idler-shaft.yaml", "warning", "stock-kept-runout", "B", "the body is bar, the seats are turned"),
    ("press-screw.yaml", "note", "cross-hole-large", "H", ".750 in 1.500; a third is .500; a head for a bar"),
    ("press-screw.yaml", "note", "frame-change", "F", "the shoulder at 15.000 faces the far end: cut after the flip"),
    (
        "press-screw.yaml",
        "note",
        "groove-plunges",
        "D",
        ".375 with a tool of .125: 3 plunges, the last at 13.375 − .125 = 13.250",
    ),
    ("press-screw.yaml", "warning", "relief-width", "D", ".375 at 5 to the inch is 1.875 pitches; 2.5 are .500"),
    (
        "pump-shaft.yaml",
        "accepted",
        "play-negative",
        "J",
        "233.30 − 215.015 − 17 − 1.2 = .085; 233.54 − 214.985 − 16.88 − 1.14 = .535",
    ),
    ("pump-shaft.yaml", "note", "frame-change", "G", "the shoulder at 215 faces the far end"),
    ("pump-shaft.yaml", "note", "groove-plunges", "B", "5 with a tool of 3: 18 and 23 − 3 = 20"),
    ("pump-shaft.yaml", "note", "groove-plunges", "J", "1.3 with a tool of 1.1: 232 and 233.3 − 1.1 = 232.2"),
    (
        "pump-shaft.yaml",
        "note",
        "keyseat-depth-from",
        "K",
        "9 − √(81 − 9) = .5147; 3.5 − .5147 = 2.9853; 18 − 3.5 = 14.5",
    ),
    (
        "pump-shaft.yaml",
        "note",
        "keyseat-depth-from",
        "L",
        "11 − √(121 − 9) = .4170; 3.5 − .4170 = 3.0830; 22 − 3.5 = 18.5",
    ),
    ("pump-shaft.yaml", "warning", "held-by-turning", "C", "18 h6: .011, IT6; IT7 is .018"),
    ("pump-shaft.yaml", "warning", "held-by-turning", "E", "25 k6: .013, IT6; IT7 is .021"),
    ("pump-shaft.yaml", "warning", "held-by-turning", "G", "25 k6: .013, IT6; IT7 is .021"),
    ("pump-shaft.yaml", "warning", "held-by-turning", "H", "22 j6: .013, IT6; IT7 is .021"),
    ("pump-shaft.yaml", "warning", "stock-bow", "K", "a parallel keyseat in cold drawn bar"),
    ("pump-shaft.yaml", "warning", "stock-bow", "L", "a parallel keyseat in cold drawn bar"),
    ("pulley-stub.yaml", "accepted", "relief-width", "J", ".120 at 20 to the inch is 2.4 pitches"),
    ("pulley-stub.yaml", "note", "frame-change", "E", "the far side is cut after the flip"),
    ("pulley-stub.yaml", "note", "groove-plunges", "B", ".150 with a tool of .093"),
    ("pulley-stub.yaml", "note", "groove-plunges", "J", ".120 with a tool of .093"),
    ("pulley-stub.yaml", "note", "stock-bow", "L", "one short Woodruff seat in cold drawn bar"),
    ("pulley-stub.yaml", "warning", "center-too-big", "K", "a mouth of .265 on an end of .500"),
    ("pulley-stub.yaml", "warning", "corner-unstated", "C", "the pulley bears at 3.250; no fillet is stated there"),
    ("pulley-stub.yaml", "warning", "held-by-turning", "C", ".0005 on .8745: about IT6"),
    ("pulley-stub.yaml", "warning", "held-by-turning", "F", "k5"),
    ("pulley-stub.yaml", "warning", "held-by-turning", "H", "k5"),
    ("pulley-stub.yaml", "warning", "lead-chamfer", "C", "no chamfer is stated at 1.000"),
    ("pulley-stub.yaml", "warning", "lead-chamfer", "F", "no chamfer is stated at 4.350"),
    ("pulley-stub.yaml", "warning", "lead-chamfer", "H", "no chamfer is stated at 6.500"),
    ("pulley-stub.yaml", "warning", "stock-kept-runout", "D", "the collar is bar, the seats are turned"),
    ("pulley-stub.yaml", "warning", "thread-short", "K", ".380 less a chamfer of .040; a nut is .400 high"),
    ("tool-post-stud.yaml", "note", "frame-change", "D", "the shank is cut after the flip"),
    ("tool-post-stud.yaml", "note", "groove-plunges", "B", ".250 with a tool of .093"),
    ("tool-post-stud.yaml", "warning", "stock-hard", "", "4140 pre-hardened, about 28 HRC"),
    ("tool-post-stud.yaml", "warning", "stock-kept-runout", "C", "the collar is bar, the shank is turned"),
    ("vise-screw.yaml", "note", "cross-hole-large", "H", "41/64 in 1.625; a third is .542; a head for a bar"),
    (
        "vise-screw.yaml",
        "note",
        "frame-change",
        "C",
        "the far side of the keeper groove and all beyond it are cut after the flip",
    ),
    (
        "vise-screw.yaml",
        "note",
        "groove-plunges",
        "E",
        ".500 with a tool of .125: 4 plunges, the last at 3.125 − .125 = 3.000",
    ),
    ("vise-screw.yaml", "warning", "stock-dust", "", "12L14 holds lead"),
    (
        "vise-screw.yaml",
        "warning",
        "thread-helix",
        "F",
        "a lead of .4 on a pitch diameter of 1.025: arctan (.4 / 3.2201) = 7.08°",
    ),
    ("winch-axle.yaml", "note", "frame-change", "D", "the shoulder at 64 faces the far end"),
    ("winch-axle.yaml", "note", "groove-plunges", "F", "5 with a tool of 3.175: 150 and 155 − 3.175 = 151.825"),
    ("winch-axle.yaml", "note", "groove-plunges", "K", "3.556 with a tool of 3.175: 31 and 34.556 − 3.175 = 31.381"),
    ("winch-axle.yaml", "note", "keyseat-depth-from", "L", "12 − √(144 − 16) = .6863; 4 − .6863 = 3.3137; 24 − 4 = 20"),
    ("winch-axle.yaml", "note", "stock-work-hardens", "", "1.4404 is austenitic"),
    ("winch-axle.yaml", "warning", "held-by-turning", "B", "25 f7: .021 is IT7"),
    ("winch-axle.yaml", "warning", "held-by-turning", "D", "24 h7: .021 is IT7"),
    ("winch-axle.yaml", "warning", "stock-kept-runout", "C", "the flange is bar, the seats are turned"),
    (
        "winch-axle.yaml",
        "warning",
        "thread-keep-engaged",
        "G",
        "1.5 mm on a leadscrew of 4 to the inch: they meet each 190.5 mm only",
    ),
];

fn findings(file: &Path) -> Option<Vec<Finding>> {
    let loaded = read::load(&file.to_string_lossy()).expect("a readable sample");
    let part = loaded.part.part.as_ref().filter(|p| !p.features.is_empty())?;
    let shop_read = loaded.shop.transpose().expect("a readable shop file");
    let shop = shop_read.as_ref().and_then(|s| s.shop.as_ref());
    let mut slips = loaded.part.slips.clone();
    slips.extend(shop_read.iter().flat_map(|s| s.slips.clone()));
    let chain = chain::locate(part);
    let profile = Profile::of(part, &chain);
    let derived = plan::derive(part, &chain, &profile, shop);
    let (chain, profile, derived) = (&chain, &profile, Some(&derived));
    Some(check::check(&Facts { part, slips: &slips, chain, profile, shop, derived, plan: None }))
}

fn samples() -> Vec<(String, Vec<Finding>)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples");
    let files = std::fs::read_dir(folder).expect("samples/").flatten().map(|e| e.path());
    let yaml = files.filter(|f| f.extension().is_some_and(|e| e == "yaml"));
    let parts = yaml.filter(|f| std::fs::read_to_string(f).is_ok_and(|t| t.contains("\nfeatures:")));
    let mut found: Vec<_> =
        parts.filter_map(|f| Some((f.file_name()?.to_string_lossy().into_owned(), findings(&f)?))).collect();
    found.sort_by(|a, b| a.0.cmp(&b.0));
    found
}

fn row(f: &Finding) -> (String, String, String) {
    let word = if f.accepted.is_some() { "accepted" } else { f.severity.word() };
    (word.to_owned(), f.check.to_owned(), f.features.first().cloned().unwrap_or_default())
}

#[test]
fn the_findings_of_the_samples_are_those_judged_true() {
    let mut wrong = Vec::new();
    for (name, found) in samples() {
        let mut wanted: Vec<_> =
            TRUE.iter().filter(|t| t.0 == name).map(|t| (t.1.to_owned(), t.2.to_owned(), t.3.to_owned())).collect();
        if wanted.is_empty() {
            continue;
        }
        let mut rows: Vec<_> = found.iter().map(row).collect();
        wanted.sort();
        rows.sort();
        for extra in rows.iter().filter(|r| !wanted.contains(r)) {
            wrong.push(format!("{name}: not judged: {extra:?}"));
        }
        for missing in wanted.iter().filter(|r| !rows.contains(r)) {
            wrong.push(format!("{name}: gone: {missing:?}"));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn no_sample_has_an_open_error() {
    let mut errors = Vec::new();
    for (name, found) in samples() {
        errors
            .extend(found.iter().filter(|f| f.is_open_error()).map(|f| format!("{name}: {}: {}", f.check, f.message)));
    }
    assert!(errors.is_empty(), "{errors:#?}");
}

/// Errors and warnings compare numbers, say what to do, and name their source.
#[test]
fn findings_say_what_they_compare_and_what_to_do() {
    for (name, found) in samples() {
        for f in found {
            assert!(!f.compared.is_empty(), "{name}: {} compares nothing", f.check);
            assert!(!f.help.is_empty(), "{name}: {} says nothing to do", f.check);
            assert!(!f.source.is_empty(), "{name}: {} has no source", f.check);
            assert!(!f.message.ends_with('.'), "{name}: {} ends with a full stop", f.check);
            let short = f.message.chars().count() <= 190 || f.severity == Severity::Note;
            assert!(short, "{name}: {}: {} characters", f.check, f.message.chars().count());
        }
    }
}
