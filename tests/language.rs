//! The sheet in two languages. Each message stands with its languages side by side (`told!`, `tell!`, the table of fixed words), so
//! a missing one does not compile; here it is looked at that the two say the same numbers, and that nothing was forgotten beside them.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::Command;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Files of words that are English only, each with the reason.
const ENGLISH: [(&str, &str); 1] =
    [("chart.rs", "the tolerance chart's page and its sentences: for whoever planned the part, not at the machine")];

fn sources(folder: &str) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(root().join(folder)).expect("a folder of the tree");
    let mut out: Vec<PathBuf> =
        entries.map(|e| e.expect("an entry").path()).filter(|p| p.extension().is_some_and(|e| e == "rs")).collect();
    out.sort();
    out
}

/// The string literals of a Rust source without its comments, each with the byte it begins at.
fn literals(text: &str) -> Vec<(usize, String)> {
    let mut out = Vec::new();
    let mut at = 0;
    for line in text.split_inclusive('\n') {
        let code = line.trim_start();
        if !code.starts_with("//") && !code.starts_with("#[") {
            let mut rest = 0;
            while let Some(from) = line[rest..].find('"').map(|i| i + rest) {
                // A quote as a character, '"', begins nothing.
                if line[..from].ends_with('\'') {
                    rest = from + 1;
                    continue;
                }
                let body = &line[from + 1..];
                let mut escaped = false;
                let end = body.find(|c: char| {
                    let ends = c == '"' && !escaped;
                    escaped = c == '\\' && !escaped;
                    ends
                });
                let Some(end) = end else { break };
                out.push((at + from, body[..end].to_owned()));
                rest = from + end + 2;
            }
        }
        at += line.len();
    }
    out
}

/// What a message leaves open: the names between its braces, in the order of the alphabet; those without a name counted.
fn places(message: &str) -> BTreeMap<String, usize> {
    let mut out = BTreeMap::new();
    for part in message.replace("{{", "").split('{').skip(1) {
        let name = part.split(['}', ':']).next().unwrap_or_default();
        *out.entry(name.to_owned()).or_default() += 1;
    }
    out
}

/// Pairs of messages: what stands in `told!`, in `tell!`, in the table of fixed words and in a `Message`.
fn pairs(text: &str) -> Vec<(String, String)> {
    let found = literals(text);
    let mut out = Vec::new();
    for pair in found.windows(2) {
        let (at, english) = &pair[0];
        let (next, german) = &pair[1];
        let before: String = text[..*at]
            .chars()
            .rev()
            .filter(|c| !c.is_whitespace())
            .take(8)
            .collect::<String>()
            .chars()
            .rev()
            .collect();
        let between: String = text[at + english.len() + 2..*next].chars().filter(|c| !c.is_whitespace()).collect();
        let macro_call = before.ends_with("told!(") || before.ends_with("tell!(");
        let table = before.ends_with('=') && between == ",";
        if (macro_call && between == ",") || table || before.ends_with("english:") {
            out.push((english.clone(), german.clone()));
        }
    }
    out
}

/// Where the words of a sheet come from.
const FOLDERS: [&str; 19] = [
    "src/sheet/words",
    "src/sheet/build",
    "src/figures",
    "src/handbook/material",
    "src/model",
    "src/plan",
    "src/plan/choose",
    "src/plan/derive",
    "src/plan/holding",
    "src/plan/precede",
    "src/check/assembly",
    "src/check/chain",
    "src/check/description",
    "src/check/holding",
    "src/check/keyseats",
    "src/check/order",
    "src/check/process",
    "src/check/shoulders",
    "src/check/threads",
];

#[test]
fn both_languages_leave_the_same_places_open() {
    let mut seen = 0;
    for folder in FOLDERS {
        for file in sources(folder) {
            let text = std::fs::read_to_string(&file).expect("a source file");
            for (english, german) in pairs(&text) {
                seen += 1;
                assert!(!german.is_empty(), "{}: {english:?} has no German", file.display());
                assert_eq!(places(&english), places(&german), "{}: {english:?} and {german:?}", file.display());
                // A blank at an end joins what stands beside it.
                let ends = |t: &str| (t.starts_with(' '), t.ends_with(' '));
                assert_eq!(ends(&english), ends(&german), "{}: {english:?} and {german:?}", file.display());
            }
        }
    }
    assert!(seen > 1000, "{seen} messages: the test reads the sources");
}

#[test]
fn no_word_of_the_sheet_stands_alone_in_one_language() {
    let mut alone = Vec::new();
    for file in sources("src/sheet/words") {
        let name = file.file_name().expect("a name").to_string_lossy().into_owned();
        if ENGLISH.iter().any(|(f, _)| *f == name) {
            continue;
        }
        let text = std::fs::read_to_string(&file).expect("a source file");
        let told: Vec<String> = pairs(&text).into_iter().flat_map(|(a, b)| [a, b]).collect();
        for (_, literal) in literals(&text) {
            // Two words, or one of more than three letters, outside the braces.
            let mut words = String::new();
            let mut depth = 0;
            for c in literal.replace("\\u{", "{").chars() {
                match c {
                    '{' => depth += 1,
                    '}' => depth -= 1,
                    c if depth == 0 => words.push(c),
                    _ => {}
                }
            }
            let long = words.split(|c: char| !c.is_alphabetic()).any(|w| w.chars().count() > 3);
            if long && !told.contains(&literal) && !KEYS.contains(&literal.as_str()) {
                alone.push(format!("{name}: {literal:?}"));
            }
        }
    }
    assert!(alone.is_empty(), "{alone:#?}");
}

/// Words that are looked for or compared, not printed.
const KEYS: [&str; 26] = [
    "depth micrometer",
    "dial indicator",
    "the word is its own description",
    "micrometer",
    "blank",
    "after roughing",
    "datum face",
    "far face",
    "bearing",
    "bottom",
    "corner",
    "crown",
    "fillet",
    "from",
    "full",
    "hole",
    "large",
    "o ring groove",
    "packing",
    "pitch",
    "seal",
    "slot",
    "small",
    "starts",
    "thread",
    "turn",
];

fn sheet(args: &[&str]) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_turnwright"))
        .current_dir(root())
        .arg("sheet")
        .args(args)
        .args(["-o", "-", "--format", "md"])
        .output();
    let output = output.expect("the program starts");
    assert!(output.status.code() < Some(2), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).expect("UTF-8").replace('\\', "")
}

/// Every number of a page, in order.
fn numbers(text: &str) -> Vec<String> {
    let parts = text.split(|c: char| !c.is_ascii_digit() && c != '.');
    parts.map(|p| p.trim_matches('.').to_owned()).filter(|p| p.len() > 2 && p.contains('.')).collect()
}

#[test]
fn a_german_sheet_says_the_same_sizes() {
    for sample in ["samples/pulley-stub.yaml", "samples/pump-shaft.yaml", "samples/vise-screw.yaml"] {
        let (english, german) = (sheet(&[sample]), sheet(&[sample, "--language", "de"]));
        let (mut a, mut b) = (numbers(&english), numbers(&german));
        a.sort();
        b.sort();
        a.dedup();
        b.dedup();
        assert_eq!(a, b, "{sample}");
        for word in [
            "BEZUGSENDE",
            "am SPINDELSTOCK",
            "Werkzeuge bereitlegen",
            "Schruppen",
            "Schlichten",
            "Prüfung",
            "HALT",
            "Vorsicht bei diesem Teil",
            "Ausbildung",
        ] {
            assert!(german.contains(word), "{sample}: {word}");
            assert!(!english.contains(word), "{sample}: {word}");
        }
        for word in
            ["DATUM END", "HEADSTOCK", "MEASURE", "Tools to lay out", "Cautions", "STOP", "rpm", "Inspection", "passes"]
        {
            assert!(english.contains(word), "{sample}: {word}");
            assert!(!german.contains(word), "{sample}: {word} is left in the German sheet");
        }
    }
}

/// Heads of what stays English on a German sheet (README): findings, what was assumed, the tolerance chart, the reasons; and the
/// notes, which are the person's own. In both languages.
const STAY: [&str; 12] = [
    "Befunde",
    "Findings",
    "ANGENOMMEN",
    "ASSUMED",
    "Warum so herum",
    "Why in this order",
    "Spielraum",
    "Room to move",
    "Was eine andere",
    "What another",
    "Notizen",
    "Notes",
];

/// Words that are the same in both languages, or a name in both: designations, standards, a few of the trade.
const ALIKE: [&str; 26] = [
    "acme", "chuck", "din", "die", "finger", "fitting", "form", "hand", "iso", "min", "normal", "npt", "nut",
    "picture", "pre", "radius", "ring", "stand", "still", "tir", "tpi", "unc", "unf", "warm", "woodruff", "µin",
];

/// The words of a sheet of three letters and more outside what stays English, each with the line it first stands in.
fn words(page: &str) -> BTreeMap<String, String> {
    let mut out = BTreeMap::new();
    let mut stays = false;
    for line in page.lines() {
        if let Some(head) = line.strip_prefix('#') {
            let head = head.trim_start_matches(['#', ' ']);
            stays = STAY.iter().any(|s| head.starts_with(s));
        }
        // On the compact sheet what was assumed is one line.
        if line.starts_with("**ANGENOMMEN") || line.starts_with("**ASSUMED") {
            continue;
        }
        // A finding stands below its operation, in English too.
        let finding = ["Warnung: ", "Fehler: ", "Hinweis: ", "Warning: ", "Error: ", "Note: "];
        let until = finding.iter().filter_map(|f| line.find(f)).min().unwrap_or(line.len());
        for word in line[..until].split(|c: char| !c.is_alphabetic()).filter(|w| !stays && w.chars().count() > 2) {
            out.entry(word.to_lowercase()).or_insert_with(|| line.to_owned());
        }
    }
    out
}

/// A word that stands on the German sheet and on the English one of the same part is a word that nobody translated, unless it is the
/// person's own or the same in both.
fn left_in_english(part: &str, own: &str, more: &[&str]) -> Vec<String> {
    let args = |language: &[&'static str]| -> Vec<String> {
        [part].iter().chain(more).chain(language).map(|s| (*s).to_owned()).collect()
    };
    let said = |args: Vec<String>| words(&sheet(&args.iter().map(String::as_str).collect::<Vec<_>>()));
    let (english, german) = (said(args(&[])), said(args(&["--language", "de"])));
    assert!(german.len() > 60, "{part}: {} words", german.len());
    let own: Vec<String> = own.split(|c: char| !c.is_alphabetic()).map(str::to_lowercase).collect();
    let left = german.into_iter().filter(|(w, _)| english.contains_key(w));
    let left = left.filter(|(w, _)| !own.contains(w) && !ALIKE.contains(&w.as_str()));
    left.map(|(word, line)| format!("{part} {more:?}: {word}: {line}")).collect()
}

/// What a person called things: the part's name, its ends, its material, its features and what they carry.
fn own_words(text: &str) -> String {
    let keys =
        ["part: ", "material: ", "datum: ", "name: ", "drawing: ", "rotation: ", "heat treatment: ", "because: "];
    let value = |line: &&str| keys.iter().any(|k| line.contains(k));
    let values: Vec<&str> = text.lines().filter(value).filter_map(|l| l.split_once(':')).map(|(_, v)| v).collect();
    values.join(" ")
}

const SHOPS: [&str; 3] = ["samples/shop.yaml", "samples/shop-mm.yaml", "samples/shop-large.yaml"];

/// Names of the shops, as they stand on the cover.
fn shops() -> String {
    let text = |shop: &&str| std::fs::read_to_string(root().join(shop)).expect("a shop file");
    let names = SHOPS.iter().map(text).filter_map(|t| Some(t.lines().find(|l| l.starts_with("shop: "))?.to_owned()));
    names.collect::<Vec<_>>().join(" ")
}

#[test]
fn no_english_is_left_on_german_sheets_of_the_samples() {
    let mut left = Vec::new();
    for file in std::fs::read_dir(root().join("samples")).expect("the samples") {
        let name = file.expect("a file").file_name().to_string_lossy().into_owned();
        if std::path::Path::new(&name).extension().is_none_or(|e| e != "yaml") || name.starts_with("shop") {
            continue;
        }
        let part = format!("samples/{name}");
        let text = std::fs::read_to_string(root().join(&part)).expect("a sample");
        left.extend(left_in_english(&part, &format!("{} {}", own_words(&text), shops()), &[]));
    }
    assert!(left.is_empty(), "{left:#?}");
}

/// Parts of `tests/language` name nothing in their own words: eccentric, tapers, square, hexagon, one flat, pipe thread, tapped holes,
/// bores, left-hand and two-start threads, keyseats, knurl, dome, rests, mandrel. Without a shop file and at three lathes.
#[test]
fn no_english_is_left_on_german_sheets_of_other_parts() {
    let mut left = Vec::new();
    let mut parts = 0;
    for file in std::fs::read_dir(root().join("tests/language")).expect("the parts") {
        let name = file.expect("a file").file_name().to_string_lossy().into_owned();
        let part = format!("tests/language/{name}");
        parts += 1;
        let text = std::fs::read_to_string(root().join(&part)).expect("a part");
        let material = text.lines().find(|l| l.starts_with("material: ")).unwrap_or_default();
        let own = format!("{material} {}", shops());
        left.extend(left_in_english(&part, &own, &[]));
        for shop in SHOPS {
            left.extend(left_in_english(&part, &own, &["--shop", shop]));
        }
        left.extend(left_in_english(&part, &own, &["--shop", SHOPS[parts % 3], "--pages", "compact"]));
        left.extend(left_in_english(&part, &own, &["--shop", SHOPS[parts % 3], "--pages", "cards"]));
    }
    assert!(parts >= 9, "{parts}");
    assert!(left.is_empty(), "{left:#?}");
}

#[test]
fn the_description_or_the_command_says_the_language_and_scripts_read_english() {
    let dir = tempfile::tempdir().expect("a folder");
    let text = std::fs::read_to_string(root().join("samples/pulley-stub-no-shop.yaml")).expect("a sample");
    let path = dir.path().join("part.yaml");
    std::fs::write(&path, format!("language: de\n{text}")).expect("a file");
    let part = path.to_str().expect("a path");
    assert!(sheet(&[part]).contains("BEZUGSENDE"));
    assert!(sheet(&[part, "--language", "en"]).contains("DATUM END"), "the command comes first");
    let run =
        |args: &[&str]| Command::new(env!("CARGO_BIN_EXE_turnwright")).args(args).output().expect("the program starts");
    let plan = String::from_utf8(run(&["plan", part, "--format", "json"]).stdout).expect("UTF-8");
    assert!(plan.contains("headstock") && !plan.contains("Spindelstock"));
    std::fs::write(&path, format!("language: fr\n{text}")).expect("a file");
    let said = String::from_utf8(run(&["check", part]).stdout).expect("UTF-8");
    assert!(said.contains("language") && said.contains("de"), "{said}");
    let html = Command::new(env!("CARGO_BIN_EXE_turnwright"))
        .current_dir(root())
        .args(["sheet", "samples/pulley-stub.yaml", "--language", "de", "-o", "-"])
        .output();
    assert!(String::from_utf8(html.expect("it starts").stdout).expect("UTF-8").contains("<html lang=\"de\""));
}
