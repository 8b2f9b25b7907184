//! Names and notes that mean harm: in every kind of sheet they stay the words they are. And the program that sets PDFs, asked for what it
//! must not have.

use std::path::Path;
use std::process::Command;
use std::time::Duration;

use turnwright::sheet::pdf::{self, NoPdf};

/// Words that would do something if a sheet took them for its own.
const HARM: [&str; 9] = [
    "<script>alert(1)</script>",
    "</svg><img src=x onerror=alert(1)>",
    "\"onload=\"alert(1)",
    "' onclick='alert(1)",
    "&lt;b&gt; {{ view }} {% raw %}",
    "#panic(\"x\") $x$ #read(\"/etc/passwd\")",
    "\\\"); #panic(\\\"x",
    "]] > --> ``` | [a](javascript:alert(1)) ![b](http://example.org/x.png)",
    "<a href=javascript:alert(1)>x</a> <iframe src=//example.org> <link rel=stylesheet href=//example.org/x.css>",
];

/// A pin whose every name, remark and note is harm.
fn part(harm: &str) -> String {
    let quoted = serde_json::to_string(harm).expect("text");
    let stripped: String = harm.chars().filter(|c| !c.is_control()).collect();
    format!(
        "part: {quoted}\ndrawing: {quoted}\nrevision: {quoted}\nunits: in\nmaterial: 1018 cold drawn\nstock: 1 1/8 x 3.2\n\
         datum: {quoted}\noverall: 3.000 ±0.010\ntolerances: {{lengths: ±0.005, diameters: ±0.002}}\nheat treatment: {quoted}\n\
         features:\n  - turn: 0.750\n    to: 1.000\n    name: {quoted}\n    carries: {{part: {quoted}, bore: 0.760}}\n  - turn: 1.000\n    \
         to: end\ndims:\n  - {{from: 1.000, to: 3.000, is: 2.000 ±0.050, because: {quoted}}}\naccept:\n  \
         - {{check: untoleranced, where: part, because: {quoted}}}\nnotes: |\n  {stripped}\n\n  ```html\n  {stripped}\n  ```\n"
    )
}

fn sheet(folder: &Path, harm: &str, name: &str) -> String {
    std::fs::write(folder.join("part.yaml"), part(harm)).expect("a part");
    let output = Command::new(env!("CARGO_BIN_EXE_turnwright"))
        .current_dir(folder)
        .args(["sheet", "part.yaml", "-o", name])
        .output()
        .expect("the program starts");
    let err = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(output.status.code().is_some_and(|c| c < 2), "{harm}: {err}");
    std::fs::read_to_string(folder.join(name)).unwrap_or_else(|e| panic!("{harm}: {e}: {err}"))
}

/// The tags of an HTML or SVG text: whatever stands between `<` and `>`, outside of scripts and styles.
fn tags(html: &str) -> Vec<String> {
    let mut out = Vec::new();
    let mut rest = html;
    while let Some(at) = rest.find('<') {
        rest = &rest[at..];
        let mut quote = None;
        let end = rest.char_indices().find(|(_, c)| {
            match (quote, *c) {
                (None, '"' | '\'') => quote = Some(*c),
                (Some(q), c) if q == c => quote = None,
                (None, '>') => return true,
                _ => {}
            }
            false
        });
        let Some((end, _)) = end else { break };
        let tag = rest[1..end].to_owned();
        rest = &rest[end..];
        for raw in ["script", "style"] {
            if tag.split([' ', '\n']).next() == Some(raw) {
                let close = format!("</{raw}>");
                rest = rest.find(&close).map_or("", |n| &rest[n..]);
            }
        }
        out.push(tag);
    }
    out
}

/// The names of the tags and of their attributes, each once: what a browser could act upon.
fn vocabulary(html: &str) -> std::collections::BTreeSet<String> {
    let mut words = std::collections::BTreeSet::new();
    for tag in tags(html) {
        let name = tag.split(|c: char| c.is_whitespace() || c == '/').find(|s| !s.is_empty()).unwrap_or_default();
        words.insert(format!("<{}>", name.to_lowercase()));
        let mut inside = None;
        let mut word = String::new();
        for c in tag.chars() {
            match (inside, c) {
                (None, '"' | '\'') => inside = Some(c),
                (Some(q), c) if q == c => inside = None,
                (Some(_), _) => {}
                (None, '=') => {
                    words.insert(std::mem::take(&mut word).to_lowercase());
                }
                (None, c) if c.is_whitespace() => word.clear(),
                (None, c) => word.push(c),
            }
        }
    }
    words
}

#[test]
fn no_tag_and_no_attribute_comes_from_a_description() {
    let folder = tempfile::tempdir().expect("a folder");
    for name in ["a.html", "a.svg"] {
        let plain = vocabulary(&sheet(folder.path(), "plain words", name));
        assert!(plain.len() > 10, "{name}: {plain:?}");
        for harm in HARM {
            let text = sheet(folder.path(), harm, name);
            let more: Vec<_> = vocabulary(&text).difference(&plain).cloned().collect();
            assert!(more.is_empty(), "{name}: {harm} brought {more:?}");
            assert!(!text.contains("<script>alert") && !text.contains("<img"), "{name}: {harm}");
        }
    }
}

/// `CommonMark` 0.31 by a reader of its own: no raw HTML, no picture, no link comes of a description.
#[test]
fn markdown_stays_words() {
    use pulldown_cmark::{Event, Parser, Tag};
    let folder = tempfile::tempdir().expect("a folder");
    for harm in HARM {
        let text = sheet(folder.path(), harm, "a.md");
        for event in Parser::new(&text) {
            let bad = match &event {
                // The line ends of our own tables.
                Event::InlineHtml(own) if &**own == "<br>" => false,
                Event::Html(_) | Event::InlineHtml(_) => true,
                Event::Start(tag) => matches!(tag, Tag::Image { .. } | Tag::Link { .. } | Tag::HtmlBlock),
                _ => false,
            };
            assert!(!bad, "{harm}: {event:?}");
        }
    }
}

fn typst() -> Option<std::path::PathBuf> {
    match pdf::program() {
        Ok(program) => Some(program),
        Err(why) => {
            eprintln!("\nNOT RUN: what the PDF program may do: {why}\n");
            assert!(std::env::var_os("TURNWRIGHT_ALL").is_none(), "typst is missing");
            None
        }
    }
}

/// The source is set, and the harm is printed as words.
#[test]
fn typst_takes_harm_for_words() {
    let Some(program) = typst() else { return };
    let folder = tempfile::tempdir().expect("a folder");
    for harm in HARM {
        let source = sheet(folder.path(), harm, "a.typ");
        let pdf =
            pdf::pdf_of_source(&program, &source, Duration::from_secs(120)).unwrap_or_else(|e| panic!("{harm}: {e}"));
        assert!(pdf.starts_with(b"%PDF-"));
    }
}

const HEAD: &str = "#set document(title: \"x\")\n#set text(font: \"Noto Sans\", lang: \"en\")\n";

#[test]
fn the_pdf_program_reads_nothing_outside_its_folder_and_nothing_of_the_network() {
    let Some(program) = typst() else { return };
    let limit = Duration::from_secs(120);
    assert!(pdf::pdf_of_source(&program, &format!("{HEAD}words"), limit).is_ok(), "what asks for nothing is set");
    let folder = tempfile::tempdir().expect("a folder");
    let secret = folder.path().join("secret.txt");
    std::fs::write(&secret, "secret").expect("written");
    for asks in [
        format!("#read({:?})", secret.to_string_lossy()),
        format!("#read({:?})", format!("../../../../../../..{}", secret.to_string_lossy())),
        format!("#include {:?}", secret.to_string_lossy()),
        "#read(\"/etc/hostname\")".to_owned(),
        "#import \"@preview/none:1.0.0\": *".to_owned(),
        "#import \"@local/none:1.0.0\": *".to_owned(),
    ] {
        match pdf::pdf_of_source(&program, &format!("{HEAD}{asks}"), limit) {
            Err(NoPdf::Refused { message, .. }) => assert!(!message.contains("secret\n"), "{asks}: {message}"),
            other => panic!("{asks}: {:?}", other.map(|pdf| pdf.len())),
        }
    }
}

#[test]
fn the_pdf_program_is_ended_when_it_takes_too_long() {
    let Some(program) = typst() else { return };
    let source = format!("{HEAD}#for i in range(1000000) {{ for j in range(1000000) {{ [] }} }}");
    let ended = pdf::pdf_of_source(&program, &source, Duration::from_millis(300));
    assert!(matches!(ended, Err(NoPdf::TooLong { .. })), "{:?}", ended.map(|pdf| pdf.len()));
}

/// The same description makes the same PDF, byte for byte.
#[test]
fn a_pdf_can_be_made_again() {
    if typst().is_none() {
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("part.yaml"), part("words")).expect("a part");
    let make = |name: &str| {
        let output = Command::new(env!("CARGO_BIN_EXE_turnwright"))
            .current_dir(folder.path())
            .env("TZ", if name == "a.pdf" { "UTC" } else { "Asia/Tokyo" })
            .args(["sheet", "part.yaml", "-o", name])
            .output()
            .expect("the program starts");
        assert!(output.status.code().is_some_and(|c| c < 2), "{}", String::from_utf8_lossy(&output.stderr));
        std::fs::read(folder.path().join(name)).expect("a PDF")
    };
    let (once, again) = (make("a.pdf"), make("b.pdf"));
    assert!(once == again && once.len() > 10_000);
}
