//! The traps of the file format, one by one: what YAML would swallow is told with a remedy, at its line and column.

use std::fmt::Write as _;

use super::found::in_part;

/// A description with these lines in it instead of its own.
fn with(key: &str, lines: &str) -> String {
    let own = [
        ("part", "part: pin\n"),
        ("units", "units: in\n"),
        ("material", "material: 1018\n"),
        ("datum", "datum: left end\n"),
        ("overall", "overall: 2.000 ±0.010\n"),
        ("tolerances", "tolerances: {lengths: ±0.005, diameters: ±0.002}\n"),
        ("features", "features:\n  - turn: 1.000\n    to: 1.000\n  - turn: 0.750\n    to: 2.000\n"),
    ];
    own.iter().map(|(k, text)| if *k == key { lines } else { text }).collect()
}

/// The first line of what is found.
fn first(text: &str) -> String {
    in_part(text.as_bytes()).lines().next().unwrap_or_default().to_owned()
}

#[track_caller]
fn tells(key: &str, lines: &str, wanted: &str) {
    assert_eq!(first(&with(key, lines)), wanted, "{lines}");
}

#[track_caller]
fn silent(key: &str, lines: &str) {
    assert_eq!(in_part(with(key, lines).as_bytes()), "", "{lines}");
}

#[test]
fn comments_that_take_a_value() {
    tells(
        "material",
        "material: #12\n",
        "3:11 error value-lost-to-comment: `#12` is read as a comment, and the value of `material` is lost to it",
    );
    tells(
        "material",
        "material: drill rod #12\n",
        "3:21 error value-lost-to-comment: `#12` is read as a comment, and the value of `material` is lost to it",
    );
    tells(
        "tolerances",
        "tolerances: {lengths: ±0.005, diameters: #2}\n",
        "6:42 error value-lost-to-comment: `#2}` is read as a comment, and the closing bracket is lost to it",
    );
    silent("material", "material: 1018 # 12 bars left\n");
    silent("material", "material: \"drill rod #12\"\n");
    silent("material", "material: drill rod#12\n");
}

#[test]
fn colons() {
    tells("material", "material:1018\n", "3:1 error unreadable: no space stands behind the colon of `material:1018`");
    tells(
        "part",
        "part: stud: short\n",
        "1:7 error unreadable: `stud: short` has a colon in it, which would begin a second value",
    );
    silent("part", "part: 'stud: short'\n");
    silent("part", "part: stud:short\n");
}

#[test]
fn the_only_key_of_an_entry_without_its_space() {
    let text = with("features", "features:\n  - turn:1.000\n  - turn: 0.750\n    to: 2.000\n");
    assert_eq!(first(&text), "8:5 error unreadable: no space stands behind the colon of `turn:1.000`");
}

#[test]
fn tabs() {
    silent("material", "material:\t1018\n");
    let text = with("features", "features:\n\t- turn: 1.000\n\t  to: end\n");
    assert_eq!(first(&text), "8:1 error unreadable: this line is indented with a tab");
}

#[test]
fn the_byte_order_mark_and_line_ends() {
    let text = with("part", "part: pin\n");
    assert_eq!(in_part(format!("\u{feff}{text}").as_bytes()), "");
    assert_eq!(in_part(text.replace('\n', "\r\n").as_bytes()), "");
    assert_eq!(in_part(text.replace('\n', "\r").as_bytes()), "");
    assert_eq!(in_part(text.trim_end().as_bytes()), "");
    let notes = format!("{text}notes: |\n  the last line has no end");
    assert_eq!(in_part(notes.as_bytes()), "");
}

#[test]
fn characters_that_are_not_seen() {
    for (character, name) in [('\u{2028}', "2028"), ('\u{2029}', "2029"), ('\u{85}', "0085"), ('\u{7}', "0007")] {
        let text = with("material", &format!("material: 10{character}18\n"));
        let wanted = format!("3:13 error unreadable: a character that cannot be seen stands here: U+{name}");
        assert_eq!(first(&text), wanted);
    }
    // A no-break space is a space that came along when a line was pasted.
    silent("material", "material:\u{a0}1018\n");
    silent("overall", "overall: 2\u{a0}in ±0.010\n");
}

#[test]
fn brackets_signs_and_quotes() {
    tells(
        "overall",
        "overall: [2.000]\n",
        "5:10 error bad-size: `[2.000]` stands in square brackets, which make a list of it",
    );
    for sign in ['@', '`', '%', '*', '&', '-', '|', '>', '!', '}', ']'] {
        let text = with("material", &format!("material: {sign} x\n"));
        let found = first(&text);
        assert!(found.starts_with("3:11 error unreadable"), "{sign}: {found}");
    }
    tells("material", "material: {1018\n", "3:11 error unreadable: this `{` is not closed");
    tells("material", "material: \"1018\n", "3:11 error unreadable: this `\"` is not closed");
    tells(
        "material",
        "material: {a: 1}\n",
        "3:11 error unreadable: `material` wants words, and keys with values stand there",
    );
}

#[test]
fn the_same_key_twice() {
    tells(
        "material",
        "material: 1018\nmaterial: 1045\n",
        "4:1 error duplicate-key: the key `material` is written twice, and only one can count",
    );
}

#[test]
fn values_that_are_not_there() {
    for nothing in ["", "~", "null", "''"] {
        let text = with(
            "features",
            &format!("features:\n  - turn: {nothing}\n    to: 1.000\n  - turn: 0.750\n    to: 2.000\n"),
        );
        assert_eq!(first(&text), "8:5 error bad-size: nothing is written where a diameter belongs", "{nothing}");
    }
}

#[test]
fn anchors_aliases_merge_keys_and_tags() {
    let twice = "features:\n  - turn: &d 1.000\n    to: 1.000\n  - turn: *d\n    to: 2.000\n";
    silent("features", twice);
    let bad = "features:\n  - turn: &d 1.0 00\n    to: 1.000\n  - turn: *d\n    to: 2.000\n";
    let found = in_part(with("features", bad).as_bytes());
    let places: Vec<&str> = found.lines().filter(|l| !l.starts_with(' ')).filter_map(|l| l.split(' ').next()).collect();
    assert_eq!(places, ["8:11", "10:11"], "at the size, and at the alias");
    tells("material", "<<: {material: 1018}\n", "3:1 error unreadable: merge keys (`<<`) are not read");
    tells("material", "material: !steel 1018\n", "3:11 error unreadable: tags (`!`) are not read");
    let itself = in_part(with("material", "material: &a [*a]\n").as_bytes());
    assert!(itself.contains("3:15 error unreadable: this points at nothing that can be copied here"), "{itself}");
    tells("material", "[material]: 1018\n", "3:1 error unreadable: a key must be one word or a few");
}

#[test]
fn aliases_do_not_explode() {
    let mut text = String::from("a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n");
    for n in 1..12 {
        let row = vec![format!("*a{}", n - 1); 10].join(", ");
        let _ = writeln!(text, "a{n}: &a{n} [{row}]");
    }
    let found = in_part(with("material", &text).as_bytes());
    assert_eq!(
        found.matches("there are more values copied by aliases than the 10000 that are read").count(),
        1,
        "{found}"
    );
}

#[test]
fn second_documents_and_depth() {
    let text = with("part", "part: pin\n") + "---\npart: other\n";
    assert_eq!(first(&text), "12:1 error unreadable: a second document begins here, and only one is read");
    let text = with("part", "part: pin\n") + "...\npart: other\n";
    assert!(first(&text).starts_with("13:1 error unreadable: a second document"), "{}", first(&text));
    let deep = format!("material: {}x{}\n", "[".repeat(70), "]".repeat(70));
    assert!(first(&with("material", &deep)).contains("nested deeper"), "{}", first(&with("material", &deep)));
    let deeper = format!("material: {}\n", "[".repeat(20_000));
    assert!(first(&with("material", &deeper)).contains("error unreadable"));
}

#[test]
fn what_is_no_text() {
    assert_eq!(first(""), "1:1 error unreadable: the file is empty");
    assert_eq!(first("   \n"), "1:1 error unreadable: the file is empty");
    assert_eq!(first("# only a comment\n"), "1:1 error unreadable: the file is empty");
    let found = in_part(b"part: pin\noverall: 2 \xB10.010\n");
    assert!(found.starts_with("2:12 error unreadable: the text is not UTF-8: byte 22 cannot be read\n"), "{found}");
    let found = in_part(b"\xFF\xFEp\0a\0r\0t\0");
    assert!(found.starts_with("1:1 error unreadable: the text is not UTF-8"), "{found}");
    let found = in_part(&vec![b' '; turnwright::read::MOST_BYTES + 1]);
    assert!(found.starts_with("1:1 error unreadable: the file has more than 2 MB"), "{found}");
    assert!(
        first("- a\n- b\n")
            .starts_with("1:1 error unreadable: `the description` wants keys with values, and a list stands there")
    );
    assert!(first("just words\n").starts_with("1:1 error unreadable"), "{}", first("just words\n"));
}

/// Columns count characters, also behind signs that take several bytes, in every style, and inside the value.
#[test]
fn columns_are_right_behind_signs() {
    for (line, column) in [
        ("  - {turn: Ø1.000 ±0.00x, to: 1.000}", 24),
        ("  - {name: µ±Ø seat, turn: 1.0;0, to: 1.000}", 31),
        ("  - {\"name\": \"µ é\", turn: \"1.0;0\", to: 1.000}", 31),
        ("  - turn: Ø1.0;0\n    to: 1.000", 15),
        ("  - turn: 1.000\n    finish: 32 µin\n    to: 1.0;0", 12),
    ] {
        let text = with("features", &format!("features:\n{line}\n  - turn: 0.750\n    to: 2.000\n"));
        let found = first(&text);
        let at = found.split(' ').next().and_then(|p| p.split(':').nth(1)).unwrap_or_default();
        assert_eq!(at, column.to_string(), "{line}: {found}");
    }
}

/// A file of thousands of mistakes is told briefly, and soon.
#[test]
fn huge_files_are_told_briefly() {
    let many = |line: &str| with("features", &format!("features:\n{}", line.repeat(3_000)));
    for text in [
        many("  - {turn: about, to: here}\n"),
        many("  - {trun: 1, name: seat}\n"),
        many("  - turn:1\n"),
        many("  - !x {turn: 1}\n"),
        with("material", &"materiel: 1\n".repeat(3_000)),
        with("material", &format!("materi{}: 1\n", "a".repeat(1 << 20))),
        with("material", &format!("material: \"{}\n", "a".repeat(1 << 20))),
        with("overall", &format!("overall: {}\n", "1".repeat(1 << 20))),
    ] {
        let read = turnwright::read::part("huge", text.as_bytes());
        assert!(!read.slips.is_empty() && read.slips.len() <= 1_001, "{}", read.slips.len());
        let longest = read.slips.iter().map(|s| format!("{:?}", s.fault).len()).max();
        assert!(longest < Some(4_000), "{longest:?}");
    }
}
