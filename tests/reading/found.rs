//! Whole files with what must be found in them: `files/NAME.yaml` beside `files/NAME.found`. To add a case, add the two files.
//!
//! A line of `.found` is `line:column severity check: message`, in the order of the text; checks of the description only.

use std::fmt::Write as _;
use std::path::Path;
use std::sync::LazyLock;

use turnwright::chain::{self, Profile};
use turnwright::check::{self, Facts};
use turnwright::finding::{Finding, Source};
use turnwright::model::{Part, Slip};
use turnwright::read;

/// What stands in for a part that could not be read at all.
const NO_PART: &str = "part: none\nunits: in\ndatum: left end\noverall: 1 ±0.1\ntolerances: {lengths: ±0.1, diameters: ±0.1}\n\
    features: [{turn: 1}]\n";

/// The description's own findings.
pub(crate) fn findings(part: Option<&Part>, slips: &[Slip]) -> Vec<Finding> {
    static NONE: LazyLock<Option<Part>> = LazyLock::new(|| read::part("none", NO_PART.as_bytes()).part);
    let part = part.or(NONE.as_ref()).expect("a part");
    let chain = chain::locate(part);
    let profile = Profile::of(part, &chain);
    let facts = Facts { part, slips, chain: &chain, profile: &profile, shop: None, derived: None, plan: None };
    let mut all = check::check(&facts);
    all.retain(|f| check::find(f.check).is_some_and(|c| c.group == "description"));
    all
}

/// As a `.found` file has them.
pub(crate) fn listed(source: &Source, findings: &[Finding]) -> String {
    let mut out = String::new();
    for f in findings {
        let (line, column) = f.place.map_or((0, 0), |p| source.line_column(p.start));
        let _ = writeln!(out, "{line}:{column} {} {}: {}", f.severity.word(), f.check, f.message);
        for help in &f.help {
            let _ = writeln!(out, "    {help}");
        }
    }
    out
}

/// What is found in a part description.
pub(crate) fn in_part(bytes: &[u8]) -> String {
    let read = read::part("part.yaml", bytes);
    listed(&read.source, &findings(read.part.as_ref(), &read.slips))
}

/// What is found in a shop file.
pub(crate) fn in_shop(bytes: &[u8]) -> String {
    let read = read::shop("shop.yaml", bytes);
    listed(&read.source, &findings(None, &read.slips))
}

#[test]
fn files_have_what_stands_beside_them() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reading/files");
    let mut files: Vec<_> = std::fs::read_dir(&folder).expect("files").map(|e| e.expect("entry").path()).collect();
    files.retain(|p| p.extension().is_some_and(|e| e == "yaml"));
    files.sort();
    assert!(files.len() >= 2, "the files are there");
    let mut wrong = String::new();
    for file in files {
        let bytes = std::fs::read(&file).expect("a file");
        let shop = file.file_name().is_some_and(|n| n.to_string_lossy().starts_with("shop"));
        let found = if shop { in_shop(&bytes) } else { in_part(&bytes) };
        let wanted = std::fs::read_to_string(file.with_extension("found")).unwrap_or_default();
        if found != wanted {
            let _ = writeln!(wrong, "== {}\n-- wanted\n{wanted}-- found\n{found}", file.display());
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
}

/// The samples are the descriptions a user copies, and `start` prints two more: each reads completely, with nothing to say.
#[test]
fn samples_read_completely() {
    let mut seen = 0;
    for entry in std::fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("samples")).expect("samples") {
        let path = entry.expect("entry").path();
        if path.extension().is_none_or(|e| e != "yaml") {
            continue;
        }
        let bytes = std::fs::read(&path).expect("a sample");
        let shop = path.file_name().is_some_and(|n| n.to_string_lossy().starts_with("shop"));
        let slips = if shop { read::shop("s", &bytes).slips } else { read::part("p", &bytes).slips };
        assert_eq!(slips, [], "{}", path.display());
        seen += 1;
    }
    assert!(seen >= 5);
    for start in [read::START_INCH, read::START_MM] {
        assert_eq!(in_part(start.as_bytes()), "");
    }
}
