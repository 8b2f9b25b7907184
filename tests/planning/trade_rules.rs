//! Plans judged by the rules of the trade from outside: a program in Python reads the description and the plan, not the certificate, and asks of
//! verbs, spans, grips and holdings whether each rule is kept (`tests/independent/rules_check.py`, which names the sources of the rules); in the plan
//! found, and in other orders that its certificate allows. Over the samples, `tests/figures/parts` and a hundred generated parts, two hundred under `TURNWRIGHT_ALL`.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::OnceLock;

use crate::planning::generated::{Generated, believable};
use crate::planning::generated_wide::{keyed, wide};

/// Generated parts of every kind of work, and plain shafts of many steps; all of them under `TURNWRIGHT_ALL`.
const WIDE: [u64; 2] = [90, 150];
const SHAFTS: [u64; 2] = [20, 50];
/// Of the first kind, how many are spoilt.
const SPOILT: u64 = 60;
/// Shafts with several keyseats, so that R14 has something to notice; all are spoilt.
const KEYED: u64 = 12;
/// Other orders drawn of each plan.
const ORDERS: &str = "4";

/// As many as are asked for.
fn of([plain, all]: [u64; 2]) -> u64 {
    if std::env::var_os("TURNWRIGHT_ALL").is_some() { all } else { plain }
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn have_python() -> bool {
    let have = Command::new("python3").arg("--version").output().is_ok_and(|o| o.status.success());
    if !have {
        assert!(std::env::var_os("TURNWRIGHT_ALL").is_none(), "the rules from outside need python3");
        eprintln!("NOT RUN: the rules from outside need python3");
    }
    have
}

/// The description as a file, with its shop beside it.
fn write(folder: &Path, name: &str, g: &Generated) -> PathBuf {
    let shop = if g.text.contains("units: mm\n") { "shop-mm.yaml" } else { "shop.yaml" };
    let lathe = if g.with_shop { format!("lathe: {shop}\nfeatures:") } else { "features:".to_owned() };
    let path = folder.join(name);
    std::fs::write(&path, g.text.replacen("features:", &lathe, 1)).expect("written");
    path
}

/// Every part in a folder that is a description.
fn drawn() -> Vec<PathBuf> {
    let mut list = Vec::new();
    for folder in ["samples", "tests/figures/parts"] {
        for entry in std::fs::read_dir(root().join(folder)).expect("a folder") {
            let path = entry.expect("an entry").path();
            let text = std::fs::read_to_string(&path).unwrap_or_default();
            if text.lines().any(|l| l.starts_with("part:")) {
                list.push(path);
            }
        }
    }
    list.sort();
    list
}

/// Replies of `plan`, each for several parts: of those drawn, of those to be spoilt, of the rest. Planned once for all tests here.
fn plans() -> &'static (tempfile::TempDir, [PathBuf; 3]) {
    static PLANS: OnceLock<(tempfile::TempDir, [PathBuf; 3])> = OnceLock::new();
    PLANS.get_or_init(|| {
        let folder = tempfile::tempdir().expect("a folder");
        for shop in ["shop.yaml", "shop-mm.yaml"] {
            std::fs::copy(root().join("samples").join(shop), folder.path().join(shop)).expect("copied");
        }
        let of_every_kind = |seeds: std::ops::Range<u64>| {
            seeds.map(|s| write(folder.path(), &format!("wide-{s:03}.yaml"), &wide(s, 4)))
        };
        let keyed = (0..KEYED).map(|s| write(folder.path(), &format!("keyed-{s:03}.yaml"), &keyed(s)));
        let spoilt: Vec<PathBuf> = of_every_kind(0..SPOILT).chain(keyed).collect();
        let mut rest: Vec<PathBuf> = of_every_kind(SPOILT..of(WIDE)).collect();
        rest.extend((0..of(SHAFTS)).map(|s| write(folder.path(), &format!("shaft-{s:03}.yaml"), &believable(s))));
        let replies = [("drawn", drawn()), ("spoilt", spoilt), ("rest", rest)].map(|(name, parts)| {
            let file = std::fs::File::create(folder.path().join(format!("{name}.json"))).expect("a file");
            let program = Command::new(env!("CARGO_BIN_EXE_turnwright"))
                .args(["plan", "--seconds", "60", "--format", "json"])
                .args(&parts)
                .stdout(file)
                .stderr(std::process::Stdio::null())
                .status()
                .expect("the program starts");
            assert!(program.code().is_some_and(|c| c < 2), "{name}: {program}");
            folder.path().join(format!("{name}.json"))
        });
        (folder, replies)
    })
}

fn python(script: &str, args: &[&str], files: &[PathBuf]) -> Output {
    let script = root().join("tests/independent").join(script);
    Command::new("python3").arg("-B").arg(script).args(args).args(files).output().expect("python3")
}

#[test]
fn plans_and_what_their_certificates_allow_keep_the_rules_of_the_trade() {
    if !have_python() {
        return;
    }
    let (_, files) = plans();
    let output = python("rules_check.py", &["--orders", ORDERS], files);
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(output.status.success(), "{said}{}", String::from_utf8_lossy(&output.stderr));
    let count = |before: &str| -> usize {
        let at = said.find(before).expect("counted");
        said[..at].split_whitespace().next_back().and_then(|w| w.parse().ok()).expect("a number")
    };
    assert!(count(" plans and") >= drawn().len() + (of(WIDE) + of(SHAFTS)) as usize, "{said}");
    assert!(count(" other orders") > 300, "{said}");
}

/// Each rule notices some spoiling that no other does; what is left out, or cut under the jaws, is always noticed.
#[test]
fn a_spoilt_plan_is_noticed_by_each_rule() {
    if !have_python() {
        return;
    }
    let (_, files) = plans();
    let output = python("rules_spoil.py", &[], &files[..2]);
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(output.status.success(), "{said}{}", String::from_utf8_lossy(&output.stderr));
    // Keyseats at one clocking taken apart, which nothing but R14 minds.
    let alone = said.split("R14 ").nth(1).and_then(|s| s.split(|c: char| !c.is_ascii_digit()).next()?.parse().ok());
    assert!(alone.is_some_and(|n: u32| n >= 20), "R14 alone: {alone:?}\n{said}");
}

/// The generator makes each kind of work that it promises, in both units.
#[test]
fn the_generated_parts_are_of_every_kind() {
    let texts: Vec<String> = (0..WIDE[1]).map(|s| wide(s, 4).text).collect();
    for kind in [
        "units: in",
        "units: mm",
        "taper:",
        "knurl:",
        " LH",
        "L ACME",
        "(P5)",
        "offset:",
        "keyseat: Woodruff",
        "keyseat: 3/16",
        "keyseat: 5 x",
        "square:",
        "hexagon:",
        "cross hole:",
        "tapped hole:",
        "groove:",
        "bore:",
        "end: through",
        "inside:\n  - {thread:",
        "turn: stock",
        "part off: true",
        "center hole: none",
        "run-out:",
    ] {
        let with = texts.iter().filter(|t| t.contains(kind)).count();
        assert!(with >= 2, "{kind}: {with}");
    }
}

/// A spindle whose wall only one holding can keep from its shoulder: its plan has the certificate of the fewest setups.
const SPINDLE: &str = "part: spindle\nunits: in\nmaterial: 1045 cold drawn\nstock: 1.250 x 8.125\ndatum: nose\noverall: 8.000 ±0.010\n\
    lathe: shop.yaml\ntolerances: {lengths: ±0.010, diameters: ±0.002}\nfeatures:\n  - turn: 1.0000 +0/-0.0006\n    to: 2.000\n    name: nose seat\n    \
    carries: {part: bearing, bore: 1.000, enters: datum}\n  - turn: 1.200\n    to: 5.500\n  - turn: 1.0000 +0/-0.0006\n    to: 6.750\n    \
    carries: {part: bearing, bore: 1.000, enters: far}\n  - relief: 0.860 +0/-0.010\n    to: 7.000\n  - thread: 1-12 UNF-2A\n    to: end\n  \
    - groove: 1.050\n    from: 3.000 ±0.010\n    wide: 0.125\ndims:\n  - {from: 2.000, to: 3.000, is: 1.000 ±0.0045}\n";

/// What a plan would cost without each of its holdings, and the fewest setups, solved again by the second program: every price of the samples and of
/// `tests/figures/parts`, of sixty generated parts, and of a plan that the tolerance chart moved. A price or bound that is off is noticed.
#[test]
fn a_second_program_finds_the_same_price_without_each_holding() {
    if !have_python() {
        return;
    }
    let (folder, files) = plans();
    let part = folder.path().join("spindle.yaml");
    std::fs::write(&part, SPINDLE).expect("written");
    let reply = Command::new(env!("CARGO_BIN_EXE_turnwright")).args(["plan", "--format", "json"]).arg(&part).output();
    let reply = String::from_utf8(reply.expect("the program starts").stdout).expect("UTF-8");
    let spindle = folder.path().join("spindle.json");
    std::fs::write(&spindle, &reply).expect("written");
    let output = python("order_check.py", &[], &[files[0].clone(), files[1].clone(), spindle.clone()]);
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(output.status.success(), "{said}{}", String::from_utf8_lossy(&output.stderr));
    // What is told beside the plan: prices, other ways round, fewest setups.
    let prices = |line: &str| line.split(", and ").nth(1).and_then(|w| w.split(' ').next()?.parse::<usize>().ok());
    let others: usize = said.lines().filter_map(prices).sum();
    assert!(others >= 40, "{others} prices: {said}");
    let json = |text: &str| serde_json::from_str::<serde_json::Value>(text).expect("JSON");
    let drawn = json(&std::fs::read_to_string(&files[0]).expect("read"));
    let priced = |p: &&serde_json::Value| p.pointer("/without_a_holding/0").is_some();
    let priced = drawn.as_array().expect("several").iter().find(priced).expect("a price");
    let moved = json(&reply);
    assert!(moved["fewest_setups_certificate"].is_object(), "{}", moved["chart_answers"]);
    for (plan, key, off) in [
        (priced, "/without_a_holding/0/cost", -0.01),
        (priced, "/without_a_holding/0/lower_bound", 0.01),
        (&moved, "/fewest_setups_certificate/lower_bound", 1.0),
    ] {
        let mut bad = plan.clone();
        let number = bad.pointer_mut(key).unwrap_or_else(|| panic!("{key}"));
        *number = serde_json::json!(number.as_f64().expect("a number") + off);
        std::fs::write(&spindle, bad.to_string()).expect("written");
        assert_eq!(python("order_check.py", &[], std::slice::from_ref(&spindle)).status.code(), Some(1), "{key}");
    }
}

/// Every number that follows from its neighbours, worked again by the second reckoning, in sixty generated parts of every kind of work.
#[test]
fn the_numbers_of_generated_parts_are_worked_again() {
    if !have_python() {
        return;
    }
    let (_, files) = plans();
    let output = python("figures_check.py", &["--several"], &files[1..2]);
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(output.status.success(), "{said}{}", String::from_utf8_lossy(&output.stderr));
    let numbers = said.split(" numbers of").next().and_then(|w| w.split_whitespace().last()?.parse::<u32>().ok());
    assert!(numbers.is_some_and(|n| n > 15_000), "{said}");
}
