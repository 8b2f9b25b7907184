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
    ("idler-shaft.yaml", "warning", "gauge-missing", "", "the overall may be 12.260 and the caliper reads to 12"),
    ("idler-shaft.yaml", "warning", "held-by-turning", "A", ".0004 on 1.000: IT5 is .00035"),
    ("idler-shaft.yaml", "warning", "held-by-turning", "C", ".0004 on 1.000: IT5 is .00035"),
    ("idler-shaft.yaml", "warning", "play-negative", "D", "0 to .015 by worst case; the limit is .010"),
    ("idler-shaft.yaml", "warning", "play-negative", "E", "0 to .015 by worst case; the limit is .010"),
    ("idler-shaft.yaml", "warning", "stock-kept-runout", "B", "the body is bar, the seats are turned"),
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
