//! The language server driven as an editor drives it: a child process, messages on its input and output.
//! Protocol: Language Server Protocol 3.17, "Base Protocol" and "Text Documents"; error codes of JSON-RPC 2.0.

mod editor;

use editor::Editor;
use serde_json::{Value, json};

const PART: &str = "\
part: Stub ± µ
units: in
material: 1045
stock: 1.25 x 4.125
datum: left end
overall: 4.000 ±0.010
tolerances: {lengths: ±0.005, diameters: ±0.002}
features:
  - thread: 5/8-18 UNF-2A
    to: 0.850
  - relief: 0.545 +0/-0.010
    to: 1.000
  - turn: 20 mm k5
    to: 3.000
    name: pulley seat
  - turn: 1.000
    to: 4.000
  - fillet: 0.015 max
    at: pulley seat end
dims:
  - {from: pulley seat start, to: pulley seat end, is: 2.000 ±0.010}
";

const URI: &str = "file:///nowhere/stub.yaml";

fn codes(diagnostics: &Value) -> Vec<&str> {
    diagnostics.as_array().expect("a list").iter().filter_map(|d| d["code"].as_str()).collect()
}

/// The place of `¦` in a text without it, as editors count.
fn marked(text: &str) -> (String, Value) {
    let at = text.find('¦').expect("a mark");
    let before = &text[..at];
    let line = before.matches('\n').count();
    let column: usize = before.rsplit('\n').next().unwrap_or_default().chars().map(char::len_utf16).sum();
    (text.replace('¦', ""), json!({"line": line, "character": column}))
}

fn asked(at: &Value) -> Value {
    json!({"textDocument": {"uri": URI}, "position": at})
}

fn labels(items: &Value) -> Vec<&str> {
    items.as_array().expect("a list").iter().filter_map(|i| i["label"].as_str()).collect()
}

#[test]
fn a_session_from_hello_to_goodbye() {
    let mut editor = Editor::new();
    let hello = editor.request("initialize", json!({"capabilities": {}}));
    assert_eq!(hello["capabilities"]["positionEncoding"], "utf-16");
    editor.notify("initialized", json!({}));
    let found = editor.open(URI, PART);
    assert!(!codes(&found).contains(&"bad-size"), "{found:#}");
    assert_eq!(editor.request("shutdown", Value::Null), Value::Null);
    assert_eq!(editor.fails("textDocument/hover", asked(&json!({"line": 0, "character": 0}))), -32600);
    editor.notify("exit", Value::Null);
    assert_eq!(editor.ends(), Some(0));
}

#[test]
fn goodbye_without_shutdown_is_1() {
    let mut editor = Editor::started();
    editor.notify("exit", Value::Null);
    assert_eq!(editor.ends(), Some(1));
    let mut editor = Editor::started();
    editor.hang_up();
    assert_eq!(editor.ends(), Some(1));
}

#[test]
fn what_cannot_be_understood_is_told_and_survived() {
    let mut editor = Editor::new();
    assert_eq!(editor.fails("textDocument/hover", json!({})), -32002);
    editor.request("initialize", json!({"capabilities": {}}));
    assert_eq!(editor.fails("initialize", json!({})), -32600);
    assert_eq!(editor.fails("textDocument/fly", json!({})), -32601);
    assert_eq!(editor.fails("textDocument/hover", json!({"position": "there"})), -32602);
    for (raw, code) in [
        ("Content-Length: 6\r\n\r\n{\"a\": ", -32700),
        ("Content-Length: 2\r\n\r\n[]", -32600),
        ("Content-Length: 999999999999999999999\r\n\r\n", -32700),
        ("Length: 2\r\n\r\n", -32700),
        ("no header\r\n\r\n", -32700),
    ] {
        editor.raw(raw.as_bytes());
        let answer = editor.receive();
        assert_eq!((&answer["id"], &answer["error"]["code"]), (&Value::Null, &json!(code)), "{raw}");
    }
    editor.notify("$/setTrace", json!({"value": "off"}));
    editor.notify("textDocument/didChange", json!({"nonsense": true}));
    editor.notify("textDocument/didClose", json!({"textDocument": {"uri": "file:///never/opened.yaml"}}));
    // Every question about a text that is not open has an empty answer.
    for method in ["hover", "completion", "definition"] {
        let answer = editor.request(&format!("textDocument/{method}"), asked(&json!({"line": 1, "character": 1})));
        assert!(answer.is_null() || answer == json!([]), "{method}: {answer}");
    }
    editor.goodbye();
}

#[test]
fn findings_come_while_typing_and_go_when_mended() {
    let mut editor = Editor::started();
    let found = editor.open(URI, PART);
    let before = codes(&found).len();
    // `1.000` becomes `1,000`: incremental, on a line behind ± and µ.
    let line = PART.lines().position(|l| l.contains("turn: 1.000")).expect("the line");
    let column = "  - turn: 1".len();
    let range = json!({"start": {"line": line, "character": column}, "end": {"line": line, "character": column + 1}});
    let found = editor.change(URI, 2, json!([{"range": range, "text": ","}]));
    let comma = found.as_array().expect("a list").iter().find(|d| d["code"] == "bad-size").expect("the comma");
    assert_eq!(comma["severity"], 1);
    assert_eq!(comma["range"]["start"]["line"], line);
    // The quick fix puts the point back.
    let actions = editor.request(
        "textDocument/codeAction",
        json!({"textDocument": {"uri": URI}, "range": comma["range"], "context": {"diagnostics": []}}),
    );
    let action = &actions.as_array().expect("actions")[0];
    assert_eq!(action["kind"], "quickfix");
    let edit = &action["edit"]["changes"][URI][0];
    let mended = editor.change(URI, 3, json!([{"range": edit["range"], "text": edit["newText"]}]));
    assert_eq!(codes(&mended).len(), before, "{mended:#}");
    // A broken file, then the whole text anew.
    let broken = editor.change(URI, 4, json!([{"text": "part: x\n\tunits: [in\n{{{"}]));
    assert!(codes(&broken).contains(&"unreadable"), "{broken:#}");
    let again = editor.change(URI, 5, json!([{"text": PART}]));
    assert_eq!(codes(&again).len(), before);
    editor.notify("textDocument/didClose", json!({"textDocument": {"uri": URI}}));
    assert_eq!(editor.published(URI), json!([]));
    editor.goodbye();
}

/// Columns are UTF-16 code units: ±, µ and Ø are one, a letter beyond the first plane two (Unicode 15).
#[test]
fn columns_are_in_utf16() {
    let mut editor = Editor::started();
    let text = PART
        .replace("  - turn: 1.000\n", "  - {name: \u{1D6FC}±µØ, turn: \"1,000\", to: 4.000}\n")
        .replace("    to: 4.000\n", "");
    let found = editor.open(URI, &text);
    let comma = found.as_array().expect("a list").iter().find(|d| d["code"] == "bad-size").expect("the comma");
    let line = text.lines().find(|l| l.contains("1,000")).expect("the line");
    let units: Vec<u16> = line.encode_utf16().collect();
    let column =
        |end: &str| usize::try_from(comma["range"][end]["character"].as_u64().expect("a column")).expect("small");
    let shown = String::from_utf16(&units[column("start")..column("end")]).expect("whole characters");
    assert!(shown.contains(',') && "\"1,000\"".contains(&shown), "{shown}");
    editor.goodbye();
}

#[test]
fn hover_tells_limits_faces_and_meanings() {
    let mut editor = Editor::started();
    editor.open(URI, PART);
    let mut version = 1;
    let mut hover = |from: &str, to: &str| {
        let (text, at) = marked(&PART.replacen(from, to, 1));
        assert_eq!(text, PART, "{to}");
        version += 1;
        editor.request("textDocument/hover", asked(&at))["contents"]["value"].as_str().unwrap_or_default().to_owned()
    };
    // ASME B1.1: 5/8-18 UNF-2A has a pitch diameter of .5875 to .5828 and a major diameter of .6236 to .6149.
    let thread = hover("5/8-18", "5/¦8-18");
    assert!(thread.contains(".5828 … .5875") && thread.contains(".6149 … .6236"), "{thread}");
    // ISO 286-2: 20 k5 is +11/+2 µm.
    let fit = hover("20 mm k5", "20 mm¦ k5");
    assert!(fit.contains("20.002 … 20.011 mm") && fit.contains("by the fit"), "{fit}");
    let face = hover("to: 3.000", "to: 3.0¦00");
    assert!(face.contains("3.000 from the datum end") && face.contains("2.9950 … 3.0050"), "{face}");
    let key = hover("    name:", "    na¦me:");
    assert!(key.contains("a name that others may point at"), "{key}");
    let material = hover("1045", "10¦45");
    assert!(material.contains("1045"), "{material}");
    editor.goodbye();
}

#[test]
fn completion_knows_what_may_stand_where() {
    let mut editor = Editor::started();
    editor.open(URI, PART);
    let mut version = 1;
    let mut complete = |from: &str, to: &str| -> Value {
        let (text, at) = marked(&PART.replacen(from, to, 1));
        version += 1;
        editor.change(URI, version, json!([{"text": text}]));
        editor.request("textDocument/completion", asked(&at))
    };
    let kinds = complete("dims:\n", "  - ¦\ndims:\n");
    assert!(labels(&kinds).contains(&"turn") && labels(&kinds).contains(&"keyseat"), "{:?}", labels(&kinds));
    let keys = complete("    name: pulley seat\n", "    name: pulley seat\n    ¦\n");
    assert!(labels(&keys).contains(&"finish") && !labels(&keys).contains(&"to"), "{:?}", labels(&keys));
    let finish = keys.as_array().expect("a list").iter().find(|i| i["label"] == "finish").expect("finish");
    assert_eq!(finish["textEdit"]["newText"], "finish: ");
    let threads = complete("5/8-18 UNF-2A", "5/8¦");
    assert!(
        labels(&threads).contains(&"5/8-18 UNF-2A") && labels(&threads).contains(&"M16x2-6g"),
        "{}",
        threads.as_array().map_or(0, Vec::len)
    );
    let units = complete("units: in", "units: ¦");
    assert_eq!(labels(&units), ["in", "mm"]);
    let materials = complete("1045", "¦");
    assert!(labels(&materials).len() > 20, "{:?}", labels(&materials));
    let fits = complete("20 mm k5", "20 mm ¦");
    assert!(labels(&fits).contains(&"20 mm k6"), "{:?}", labels(&fits));
    let faces = complete("at: pulley seat end", "at: ¦");
    assert!(labels(&faces).contains(&"pulley seat end"), "{:?}", labels(&faces));
    let ends = complete("dims:\n", "  - center hole: A 1/8\n    end: ¦\ndims:\n");
    assert_eq!(labels(&ends), ["datum", "far", "both"]);
    // In a file that is broken elsewhere too.
    let broken = complete("dims:\n", "  - fillet: [\ndims:\naccept:\n  - che¦\n");
    assert!(labels(&broken).contains(&"check"), "{:?}", labels(&broken));
    editor.goodbye();
}

#[test]
fn names_lead_to_their_features() {
    let mut editor = Editor::started();
    editor.open(URI, PART);
    let (_, at) = marked(&PART.replacen("at: pulley seat end", "at: pulley¦ seat end", 1));
    let found = editor.request("textDocument/definition", asked(&at));
    let line = PART.lines().position(|l| l.contains("name: pulley seat")).expect("the line");
    assert_eq!(found["range"]["start"], json!({"line": line, "character": 10}));
    let mut with = asked(&at);
    with["context"] = json!({"includeDeclaration": true});
    let uses = editor.request("textDocument/references", with);
    assert_eq!(uses.as_array().map(Vec::len), Some(4), "{uses:#}");
    let outline = editor.request("textDocument/documentSymbol", json!({"textDocument": {"uri": URI}}));
    let names: Vec<&str> = outline.as_array().expect("a list").iter().filter_map(|s| s["name"].as_str()).collect();
    assert_eq!(names[0], "A  thread: 5/8-18 UNF-2A");
    assert_eq!(names[2], "C  turn: 20 mm k5, pulley seat");
    editor.goodbye();
}

/// An editor may send every YAML file it has.
#[test]
fn other_files_are_left_alone() {
    let mut editor = Editor::started();
    assert_eq!(editor.open("file:///nowhere/ci.yaml", "name: ci\non: push\njobs:\n  a: [1,\n"), json!([]));
    assert_eq!(editor.open("file:///nowhere/new.yaml", ""), json!([]));
    editor.goodbye();
}

/// A part and its shop file: findings of the part follow the shop file as it stands in the editor.
#[test]
fn the_shop_file_counts_as_it_stands_in_the_editor() {
    let folder = tempfile::tempdir().expect("a folder");
    let samples = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("samples");
    let shop = std::fs::read_to_string(samples.join("shop.yaml")).expect("a sample");
    let part = std::fs::read_to_string(samples.join("pulley-stub.yaml")).expect("a sample");
    std::fs::write(folder.path().join("shop.yaml"), &shop).expect("written");
    std::fs::write(folder.path().join("stub.yaml"), &part).expect("written");
    let uri = |name: &str| turnwright::editor::file_uri(&folder.path().join(name));
    let mut editor = Editor::started();
    let clean = editor.open(&uri("stub.yaml"), &part);
    assert!(!codes(&clean).contains(&"unknown-key"), "{clean:#}");
    let own = editor.open(&uri("shop.yaml"), &shop.replace("swing:", "swnig:"));
    assert!(codes(&own).contains(&"unknown-key"), "{own:#}");
    let told = editor.published(&uri("stub.yaml"));
    let found = told.as_array().expect("a list").iter().find(|d| d["code"] == "unknown-key").expect("of the shop file");
    let lathe = part.lines().position(|l| l.starts_with("lathe:")).expect("the line");
    assert_eq!(found["range"]["start"]["line"], lathe);
    assert_eq!(found["relatedInformation"][0]["location"]["uri"], uri("shop.yaml"));
    let at = json!({"textDocument": {"uri": uri("stub.yaml")}, "position": {"line": lathe, "character": 9}});
    assert_eq!(editor.request("textDocument/definition", at)["uri"], uri("shop.yaml"));
    editor.goodbye();
}

/// Cuts, doublings and swaps of good text at places that are drawn: the server answers all questions about each, and ends well.
#[test]
fn no_text_ends_it() {
    let mut editor = Editor::started();
    editor.open(URI, PART);
    let mut seed: u64 = 20_261_125;
    let mut draw = |n: usize| {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from((seed >> 33) % n.max(1) as u64).expect("small")
    };
    for version in 2..60 {
        let mut text: Vec<char> = PART.chars().collect();
        for _ in 0..=draw(4) {
            let (a, b) = (draw(text.len()), draw(text.len()));
            match draw(4) {
                0 => text.truncate(a),
                1 => text.insert(a.min(text.len()), ['{', '[', ':', '\n', '"', '-', '±', '\u{1D6FC}'][draw(8)]),
                2 if a < b => drop(text.drain(a..b)),
                _ => text.extend(PART.chars().skip(a).take(40)),
            }
            if text.is_empty() {
                break;
            }
        }
        let text: String = text.into_iter().collect();
        editor.notify(
            "textDocument/didChange",
            json!({"textDocument": {"uri": URI, "version": version}, "contentChanges": [{"text": text}]}),
        );
        let lines = text.matches('\n').count() + 1;
        let at = json!({"line": draw(lines + 2), "character": draw(40)});
        for method in ["hover", "completion", "definition"] {
            editor.request(&format!("textDocument/{method}"), asked(&at));
        }
        editor.request("textDocument/documentSymbol", json!({"textDocument": {"uri": URI}}));
    }
    editor.goodbye();
}
