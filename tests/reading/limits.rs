//! The limits that README and `explain unreadable` state, and input made to be slow or large: all of it is read or refused by name.
//! Times and memory are measured by hand (`/usr/bin/time -v`); nothing here asserts them.

use turnwright::read;

use super::found::in_part;

#[test]
fn the_page_states_the_limits_that_hold() {
    let page = turnwright::check::find("unreadable").expect("the check").page;
    let readme = include_str!("../../README.md");
    assert_eq!(read::MOST_BYTES, 2 << 20);
    for text in ["2 MB", "200 000 characters", "64 levels", "2 000 features", "1 000 characters", "20 000 in the notes"]
    {
        assert!(page.contains(text) && readme.contains(text), "{text}");
    }
    let list = |n: usize| {
        format!("part: p\nunits: in\ndatum: a\noverall: 1\nfeatures:\n{}", "  - {turn: 1, to: 1}\n".repeat(n))
    };
    assert!(in_part(list(2_001).as_bytes()).contains("there are more features than the 2000 that are read"));
    let text = |key: &str, n: usize| in_part(format!("part: p\n{key}: |\n  {}\n", "word ".repeat(n)).as_bytes());
    assert!(text("drawing", 201).contains("more characters in one value than the 1000"));
    assert!(!text("notes", 3_999).contains("characters"));
    assert!(text("notes", 4_001).contains("more characters in the notes than the 20000"));
    let line = |n: usize| in_part(format!("part: p # {}\n", "x".repeat(n)).as_bytes());
    assert!(
        line(200_001).contains("more characters in one line than the 200000") && !line(199_000).contains("line than")
    );
    let deep = |n: usize| format!("part: p\nnotes: {}{}\n", "[".repeat(n), "]".repeat(n));
    assert!(!in_part(deep(60).as_bytes()).contains("nested deeper"));
    assert!(in_part(deep(64).as_bytes()).contains("nested deeper"));
}

/// Much of one thing: read to the end, told briefly.
#[test]
fn much_of_one_thing_is_told_briefly() {
    let head = "part: p\nunits: in\ndatum: a\noverall: 1\n";
    for (line, all) in [
        ("# a comment line of some length to fill the file with\n", 1 << 20),
        ("notes: x\n", 1 << 19),
        ("- - - - - - - -\n", 1 << 18),
        ("{", 1 << 16),
        ("\"", 1 << 18),
        ("&a *a ", 1 << 18),
        ("? ", 1 << 16),
        ("a: b\n", 1 << 19),
        ("\u{200b}", 1 << 18),
        (": ", 1 << 18),
        ("!!x ", 1 << 18),
        ("%YAML 1.2\n---\n", 1 << 18),
        ("key: |\n", 1 << 18),
    ] {
        let text = format!("{head}{}", line.repeat(all / line.len()));
        let read = read::part("big", text.as_bytes());
        assert!(read.slips.len() <= 1_001, "{line:?}: {}", read.slips.len());
    }
}
