//! The same small part in forty styles (`tests/good/*.yaml`): every one is read without a slip and means the same.

use std::path::Path;

use turnwright::chain;
use turnwright::model::Part;
use turnwright::read;

fn files() -> Vec<(String, Vec<u8>)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/good");
    let mut files: Vec<(String, Vec<u8>)> = std::fs::read_dir(folder)
        .expect("the folder")
        .map(|e| e.expect("an entry").path())
        .map(|p| (p.file_name().expect("a name").to_string_lossy().into_owned(), std::fs::read(&p).expect("a file")))
        .collect();
    files.sort();
    files
}

/// What a part is, whatever it was written like: faces with their limits, and each feature's kind, place and sizes.
fn meaning(part: &Part) -> String {
    let chain = chain::locate(part);
    let mut out: Vec<String> = Vec::new();
    for (i, face) in chain.graph.faces.iter().enumerate() {
        out.push(format!("{} {:?} {:?}", face.name, chain.at[i], chain.guaranteed(0, i)));
    }
    let profile = chain::Profile::of(part, &chain);
    out.extend(profile.pieces.iter().map(|p| format!("{:?} {:?} {:?} {:?}", p.from, p.to, p.start, p.end)));
    let mut lying: Vec<String> = Vec::new();
    for f in part.features.iter().filter(|f| !f.kind.is_section()) {
        use turnwright::model::feature::{EdgeAt, Kind};
        let what = match &f.kind {
            Kind::Chamfer { leg, angle_mdeg, at: EdgeAt::End(end) } => format!("{:?} {angle_mdeg} {end:?}", leg.limits),
            Kind::Fillet { radius, at } => format!("{:?} {:?}", radius.limits, chain.station(at)),
            other => format!("{other:?}"),
        };
        lying.push(format!("{} {what}", f.kind.word()));
    }
    lying.sort();
    out.extend(lying);
    out.push(format!("{:?} {:?}", part.units, part.overall.as_ref().map(|o| (o.nominal, o.limits))));
    let text = |t: &Option<turnwright::model::Text>| t.as_ref().map(|t| t.text.clone());
    out.push(format!("{} {:?} {:?}", part.name.text, text(&part.datum), text(&part.material)));
    out.join("\n")
}

#[test]
fn forty_styles_mean_the_same_part() {
    let files = files();
    assert!(files.len() >= 40, "{}", files.len());
    let plain = files.iter().find(|(name, _)| name == "plain.yaml").expect("the plain one");
    let wanted = meaning(&read::part("plain", &plain.1).part.expect("a part"));
    for (name, bytes) in &files {
        let read = read::part(name, bytes);
        assert_eq!(read.slips, [], "{name}");
        assert_eq!(meaning(&read.part.expect("a part")), wanted, "{name}");
    }
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
    assert!(seen >= 43, "{seen}");
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
