//! Some parts, each in several styles (`tests/good/part/style.yaml`), one of them in forty: every text is read without a slip,
//! and those of a part mean the same.

use std::path::{Path, PathBuf};

use turnwright::read;

use super::meaning::meaning;

/// `part/style.yaml`, with its bytes.
fn files() -> Vec<(String, Vec<u8>)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/good");
    let listed = |folder: &Path| -> Vec<PathBuf> {
        std::fs::read_dir(folder).expect("the folder").map(|e| e.expect("an entry").path()).collect()
    };
    let name = |path: &Path| path.file_name().expect("a name").to_string_lossy().into_owned();
    let mut files: Vec<(String, Vec<u8>)> = listed(&folder)
        .iter()
        .flat_map(|part| listed(part))
        .map(|path| {
            let part = name(path.parent().expect("a folder"));
            (format!("{part}/{}", name(&path)), std::fs::read(&path).expect("a file"))
        })
        .collect();
    files.sort();
    files
}

#[test]
fn each_part_means_the_same_in_all_its_styles() {
    let files = files();
    let mut parts: Vec<&str> = files.iter().filter_map(|(name, _)| name.split('/').next()).collect();
    parts.dedup();
    assert!(parts.len() >= 8 && files.len() >= 43 + 4 * (parts.len() - 1), "{parts:?} {}", files.len());
    for part in parts {
        let styles = files.iter().filter(|(name, _)| name.split('/').next() == Some(part));
        let plain = files.iter().find(|(name, _)| *name == format!("{part}/plain.yaml")).expect("the plain one");
        let wanted = meaning(&read::part("plain", &plain.1).part.expect("a part"));
        for (name, bytes) in styles {
            let read = read::part(name, bytes);
            assert_eq!(read.slips, [], "{name}");
            assert_eq!(meaning(&read.part.expect("a part")), wanted, "{name}");
        }
    }
}

/// The texts are other texts, and other parts are other parts: else the test above would say nothing.
#[test]
fn no_two_files_are_alike_and_no_two_parts() {
    let files = files();
    for (i, (name, bytes)) in files.iter().enumerate() {
        assert!(files[..i].iter().all(|(_, other)| other != bytes), "{name}");
    }
    let plain = files.iter().filter(|(name, _)| name.ends_with("/plain.yaml"));
    let mut meanings: Vec<String> =
        plain.map(|(name, bytes)| meaning(&read::part(name, bytes).part.expect("a part"))).collect();
    let all = meanings.len();
    meanings.sort();
    meanings.dedup();
    assert_eq!(meanings.len(), all);
}

/// Tidying changes words and spaces, never what is meant; and what is tidy stays.
#[test]
fn tidying_keeps_the_meaning_and_is_done_once() {
    let samples = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples");
    let mut all = files();
    for entry in std::fs::read_dir(samples).expect("samples") {
        let path = entry.expect("an entry").path();
        if path.extension().is_some_and(|e| e == "yaml") {
            all.push((path.display().to_string(), std::fs::read(&path).expect("a file")));
        }
    }
    let mut seen = 0;
    for (name, bytes) in all {
        let Some(part) = read::part(&name, &bytes).part.filter(|_| read::part(&name, &bytes).slips.is_empty()) else {
            continue;
        };
        let once = read::tidy(&name, &bytes).unwrap_or_else(|r| panic!("{name}: {:?}", r.slips));
        let again = read::part(&name, &once);
        assert_eq!(again.slips, [], "{name}");
        assert_eq!(meaning(&again.part.expect("a part")), meaning(&part), "{name}");
        assert_eq!(read::tidy(&name, &once).expect("it reads"), once, "{name}");
        let lines = |b: &[u8]| b.split(|c| *c == b'\n').count();
        assert_eq!(lines(&once), lines(&bytes), "{name}: no line comes or goes");
        seen += 1;
    }
    assert!(seen >= 71, "{seen}");
}

/// The samples are tidy already, but for the blanks that put their comments in a column.
#[test]
fn what_is_written_in_our_words_stays_byte_for_byte() {
    for text in [read::START_INCH, read::START_MM] {
        let tidied = read::tidy("start", text.as_bytes()).expect("it reads");
        assert_eq!(String::from_utf8(tidied).expect("UTF-8"), text);
    }
}

/// Random parts, written with random words for the same keys and random blanks, mean the same tidied; and tidying is done once.
#[test]
fn tidying_random_parts() {
    use proptest::prelude::*;
    let words = |canonical: &'static str, others: &'static [&'static str]| {
        prop::sample::select(std::iter::once(canonical).chain(others.iter().copied()).collect::<Vec<_>>())
    };
    let section = (
        words("turn", &["journal", "Seat", "collar", "BOSS"]),
        1_u32..40,
        1_u32..30,
        words("long", &["length", "Length"]),
        prop::sample::select(vec!["", " ", "   ", "\t"]),
        any::<bool>(),
    );
    let strategy = prop::collection::vec(section, 1..12);
    let mut runner = proptest::test_runner::TestRunner::new(proptest::test_runner::Config {
        cases: 300,
        failure_persistence: None,
        ..proptest::test_runner::Config::default()
    });
    runner
        .run(&strategy, |sections| {
            let total: u32 = sections.iter().map(|s| s.2).sum();
            let mut text = format!("title:  pin\nUnits: in\nzero-end:\thead # here\noal: {total}\nfeatures:\n");
            for (kind, diameter, long, key, blank, flow) in &sections {
                let line = if *flow {
                    format!("  - {{{kind}: {diameter}/16 ,{key}:{blank} {long}}}  # {long}\n")
                } else {
                    format!(
                        "  - {kind}: {blank}{diameter}/16\n    {key}{blank}: {long} # {long}\n",
                        blank = blank.replace('\t', " ")
                    )
                };
                text.push_str(&line);
            }
            let read = read::part("random", text.as_bytes());
            prop_assert!(read.slips.is_empty(), "{text}\n{:?}", read.slips);
            let once = read::tidy("random", text.as_bytes()).expect("it reads");
            let again = read::part("random", &once);
            prop_assert_eq!(meaning(&again.part.expect("a part")), meaning(&read.part.expect("a part")));
            prop_assert_eq!(read::tidy("random", &once).expect("it reads"), once.clone());
            let shown = String::from_utf8(once).expect("UTF-8");
            prop_assert!(!shown.contains("oal") && !shown.contains("  pin") && !shown.contains("Length"), "{shown}");
            prop_assert_eq!(shown.matches('#').count(), text.matches('#').count());
            Ok(())
        })
        .expect("every random part");
}
