//! The inspection record, and what a reading is worth: warm parts, mates as measured, wires of any size, what several recuts save.

use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Output, Stdio};

use serde_json::Value;

fn run(folder: &Path, args: &[&str], input: &str) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_turnwright"))
        .current_dir(folder)
        .args(args)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    child.stdin.take().expect("a pipe").write_all(input.as_bytes()).expect("read");
    child.wait_with_output().expect("it ends")
}

const SHAFT: &str = "\
part: Short shaft
drawing: SS-1
revision: C
units: in
material: 1045 cold drawn
stock: 1.375 x 5.125
datum: head
overall: 5.000 ±0.010
tolerances: {lengths: ±0.005, diameters: ±0.002}
features:
- turn: 1.0000 +0/-0.0005
  to: 1.000
  name: left seat
  carries: {part: gear, bore: 1.0005 +0.0005/-0}
- turn: 1.250
  to: 3.250
  name: collar
- turn: 0.900
  to: 3.450
- thread: 3/4-10 UNC-2A
  to: 5.000
";

fn inspect(more: &str) -> (Option<i32>, Value) {
    let folder = tempfile::tempdir().expect("a folder");
    let out = run(folder.path(), &["inspect", "-", "--format", "json"], &format!("{SHAFT}{more}"));
    let json =
        serde_json::from_slice(&out.stdout).unwrap_or_else(|e| panic!("{e}: {}", String::from_utf8_lossy(&out.stderr)));
    (out.status.code(), json)
}

fn row<'a>(d: &'a Value, name: &str) -> &'a Value {
    d["rows"].as_array().expect("rows").iter().find(|r| r["name"] == name).unwrap_or_else(|| panic!("no {name}: {d:#}"))
}

/// No two rows have one name; a thread's crests and its wires are two sizes.
#[test]
fn every_row_has_a_name_of_its_own() {
    let (_, d) = inspect("");
    let names: Vec<&str> = d["rows"].as_array().expect("rows").iter().filter_map(|r| r["name"].as_str()).collect();
    let mut once = names.clone();
    once.sort_unstable();
    once.dedup();
    assert_eq!(once.len(), names.len(), "{names:?}");
    assert!(names.contains(&"thread D") && names.contains(&"thread D, over wires"), "{names:?}");
    assert_eq!((&d["drawing"], &d["revision"]), (&"SS-1".into(), &"C".into()));
}

/// By hand: 1.0000 read at 40 °C with the instrument at 20 °C. 1045 grows 11.x millionths a kelvin by the handbook's table: the shaft is
/// smaller cold by 20 times that. Part and instrument of like steel at one temperature: hardly anything.
#[test]
fn a_warm_part_is_brought_to_twenty_degrees() {
    let warm = |temperatures: &str| {
        let (_, d) = inspect(&format!("measured:\n- {{feature: left seat, diameter: 1.0000{temperatures}}}\n"));
        let t = &d["temperatures"][0];
        (row(&d, "left seat")["measured"].as_f64().expect("a size"), t.clone())
    };
    let (cold, none) = warm("");
    assert!((cold - 1.0).abs() < 1e-9 && none.is_null());
    let (size, t) = warm(", part temperature: 40 °C, gauge temperature: 20 °C");
    let grows = t["part_per_kelvin"].as_f64().expect("a coefficient");
    assert!((10e-6..14e-6).contains(&grows), "{grows}");
    assert!((size - (1.0 - 20.0 * grows)).abs() < 2e-6, "{size} by {grows}");
    assert_eq!(t["as_read"], 1.0);
    assert_eq!(t["gauge_stated"], true);
    // 104 °F is 40 °C; the instrument is taken at 20 °C and that is told.
    let (same, t) = warm(", part temperature: 104 °F");
    assert!((same - size).abs() < 1e-6 && t["gauge_stated"] == false, "{same} {size}");
    let (both, t) = warm(", part temperature: 35 °C, gauge temperature: 35 °C");
    let apart = t["part_per_kelvin"].as_f64().expect("one") - t["gauge_per_kelvin"].as_f64().expect("one");
    assert!((both - (1.0 - 15.0 * apart)).abs() < 1e-6, "{both}");
    // By hand: 2 · sqrt((0.1 · 11.3 · 20)² + 11.3² + 11.5²) / sqrt(3) millionths of an inch are 32 or so, with the .0002 of a micrometer.
    let (_, d) = inspect("measured:\n- {feature: left seat, diameter: 1.0000, part temperature: 40 °C}\n");
    let u = row(&d, "left seat")["uncertainty"].as_f64().expect("one");
    assert!((u - 0.000_202_6).abs() < 1.5e-6, "{u}");
    let (_, d) =
        inspect("measured:\n- {feature: left seat, diameter: 1.0000, part temperature: 40 °C, uncertainty: 0.0001}\n");
    assert_eq!(row(&d, "left seat")["uncertainty"], 0.0001);
    // Temperatures alone hold for what is read behind them.
    let (_, d) = inspect(
        "measured:\n- {overall: 5.002}\n- {part temperature: 40 °C}\n- {feature: left seat, diameter: 1.0000}\n- {feature: collar, diameter: 1.2500}\n",
    );
    assert_eq!(d["temperatures"].as_array().expect("a list").len(), 2, "{:#}", d["temperatures"]);
}

/// An aluminium bar 500 mm long, 10 K warm: 23 to 24 millionths a kelvin of printed tables make about .12 mm (Callister, table B.6).
#[test]
fn aluminium_grows_more_than_the_instrument() {
    let folder = tempfile::tempdir().expect("a folder");
    let part = "part: bar\nunits: mm\nmaterial: 6061-T6\nstock: 40 x 505\ndatum: head\noverall: 500 ±0.2\ntolerances: {lengths: ±0.1, diameters: ±0.05}\n\
        features:\n- {turn: 35, to: 200}\n- {turn: 30, to: end}\nmeasured:\n- {overall: 500.00, part temperature: 30 °C, gauge temperature: 20 °C}\n";
    let out = run(folder.path(), &["inspect", "-", "--format", "json"], part);
    let d: Value =
        serde_json::from_slice(&out.stdout).unwrap_or_else(|e| panic!("{e}: {}", String::from_utf8_lossy(&out.stderr)));
    let long = row(&d, "overall")["measured"].as_f64().expect("a length");
    assert!((500.0 - long - 0.117).abs() < 0.004, "{long}");
}

/// Temperatures nobody measures at, without a scale, or of a material whose growth is not known are refused.
#[test]
fn temperatures_out_of_reason_are_refused() {
    let folder = tempfile::tempdir().expect("a folder");
    for (temperatures, said) in [
        ("part temperature: 300 °C", "let it come to the room's temperature"),
        ("part temperature: 31", "is not a temperature"),
        ("part temperature: 31 °C, gauge temperature: 90 °C", "an instrument is measured between"),
        ("gauge temperature: hot, part temperature: 31 °C", "is not a temperature"),
    ] {
        let text = format!("{SHAFT}measured:\n- {{feature: left seat, diameter: 1.0000, {temperatures}}}\n");
        let out = run(folder.path(), &["check", "-"], &text);
        let all = String::from_utf8_lossy(&out.stdout).into_owned() + &String::from_utf8_lossy(&out.stderr);
        assert_eq!(out.status.code(), Some(1), "{temperatures}: {all}");
        let all = all.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(all.contains(said), "{temperatures}: {all}");
    }
    let unknown = format!(
        "{}measured:\n- {{overall: 5.001, part temperature: 31 °C}}\n",
        SHAFT.replace("1045 cold drawn", "old axle")
    );
    let out = run(folder.path(), &["check", "-"], &unknown);
    let all = String::from_utf8_lossy(&out.stdout).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(all.contains("how this material grows is not in the handbook"), "{all}");
}

/// Seat .9998, gear 1.0003: .0005 clearance, whatever the limits allowed. Without readings 0.0005 to 0.0015 (arithmetic).
#[test]
fn a_mate_as_measured_gives_the_real_fit() {
    let fit = |more: &str| {
        let (_, d) = inspect(more);
        let f = d["fits"][0].clone();
        let of = |end: &str| f["clearance"][end].as_f64().expect("a number");
        (of("min"), of("max"), f["bore_measured"].clone(), f["seat_measured"].clone())
    };
    let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-9, "{a} {b}");
    let (least, most, ..) = fit("");
    near(least, 0.0005);
    near(most, 0.0015);
    let (least, most, bore, seat) =
        fit("measured:\n- {feature: left seat, mate: 1.0003}\n- {feature: left seat, diameter: 0.9998}\n");
    near(least, 0.0005);
    near(most, 0.0005);
    assert!(bore == true && seat == true);
    let (least, most, ..) = fit("measured:\n- {feature: left seat, mate: 0.9996}\n");
    near(least, -0.0004);
    near(most, 0.0001);
    let folder = tempfile::tempdir().expect("a folder");
    let out = run(folder.path(), &["check", "-"], &format!("{SHAFT}measured:\n- {{feature: collar, mate: 1.2}}\n"));
    assert_eq!(out.status.code(), Some(1), "nothing sits on the collar");
}

/// 3/4-10 UNC-2A, pitch diameter .6773 to .6832 (ASME B1.1, table 2A). Over the best wire .0577 M = E + 3 W - .866025 P: .6800 reads
/// .7665 (NBS Handbook H28's formula). The same pitch diameter over .060 wires reads .0069 more.
#[test]
fn a_thread_over_wires_of_another_size() {
    let (_, d) = inspect("");
    let limits = row(&d, "thread D, over wires")["limits"].clone();
    let reading = 0.6800 + 3.0 * 0.060 - 0.866_025 * 0.1;
    let (code, d) = inspect(&format!("measured:\n- {{feature: D, over wires: {reading:.5}, wire: 0.0600}}\n"));
    let wires = row(&d, "thread D, over wires");
    assert_eq!(code, Some(0), "{wires:#}");
    assert_eq!(wires["verdict"], "pass");
    let note = wires["note"].as_str().expect("a note");
    assert!(note.contains("pitch diameter .680,") && note.contains("over .060"), "{note}");
    let inside = wires["measured"].as_f64().expect("a size") - limits["min"].as_f64().expect("a limit");
    assert!((inside - (0.6800 - 0.6773)).abs() < 1e-4, "{inside}: from the least pitch diameter");
    let (code, d) =
        inspect(&format!("measured:\n- {{feature: D, over wires: {:.5}, wire: 0.0600}}\n", reading - 0.004));
    assert_eq!((code, row(&d, "thread D, over wires")["verdict"].as_str()), (Some(1), Some("scrap")));
    assert!(row(&d, "thread D, over wires")["otherwise"].as_str().is_some_and(|o| o.contains("nut")));
}

/// Every kind of record says the same sizes; none replaces a description.
#[test]
fn the_record_in_every_kind() {
    let folder = tempfile::tempdir().expect("a folder");
    let text = format!(
        "{SHAFT}measured:\n- {{feature: left seat, diameter: 0.9997, uncertainty: 0.0001}}\n- {{feature: collar, diameter: 1.260}}\n- {{overall: 5.003}}\n"
    );
    std::fs::write(folder.path().join("part.yaml"), text.replace("Short shaft", "\"=1+1 <b>shaft</b>\""))
        .expect("written");
    for ending in ["html", "csv", "json"] {
        let name = format!("record.{ending}");
        let out = run(folder.path(), &["inspect", "part.yaml", "-o", &name, "--paper", "a4"], "");
        assert_eq!(out.status.code(), Some(1), "the collar is to be recut: {}", String::from_utf8_lossy(&out.stderr));
        let made = std::fs::read_to_string(folder.path().join(&name)).expect("a record");
        let reads = if ending == "html" { ".9997" } else { "0.9997" };
        assert!(made.contains(reads) && made.contains("recut") && made.contains("SS-1"), "{ending}: {made}");
        assert!(ending != "html" || !made.contains("<b>shaft"), "{ending}");
    }
    let csv = std::fs::read_to_string(folder.path().join("record.csv")).expect("a table");
    let mut lines = csv::Reader::from_reader(csv.as_bytes());
    let heads = lines.headers().expect("heads").clone();
    let rows: Vec<csv::StringRecord> = lines.records().map(|r| r.expect("a row")).collect();
    let column = |name: &str| heads.iter().position(|h| h == name).unwrap_or_else(|| panic!("{name}"));
    let seat = rows.iter().find(|r| &r[column("size")] == "left seat").expect("the seat");
    assert_eq!((&seat[column("lower limit")], &seat[column("upper limit")]), ("0.9995", "1.000"));
    assert_eq!(
        (&seat[column("reading")], &seat[column("verdict")], &seat[column("uncertainty from")]),
        ("0.9997", "pass", "stated")
    );
    assert!(seat[column("part")].starts_with('\''), "no spreadsheet takes it for a formula: {}", &seat[0]);
    let over = run(folder.path(), &["inspect", "part.yaml", "-o", "part.yaml"], "");
    assert_eq!(over.status.code(), Some(2));
    let what = run(folder.path(), &["inspect", "part.yaml", "-o", "record.doc"], "");
    assert!(String::from_utf8_lossy(&what.stderr).contains(".html, .pdf, .csv or .json"));
}

/// The collar's left shoulder is .012 too far from the datum face, the whole too long by the same: the datum face alone, cut again by
/// that, brings all right, which no cut of one face beside a failing length could. By hand.
#[test]
fn several_recuts_or_the_datum_face_save_what_one_face_cannot() {
    let all = |faces: [f64; 4]| {
        format!(
            "measured:\n- {{face: 1.000, at: {:.4}}}\n- {{face: 3.250, at: {:.4}}}\n- {{face: 3.450, at: {:.4}}}\n- {{overall: {:.4}}}\n",
            faces[0], faces[1], faces[2], faces[3]
        )
    };
    let (_, d) = inspect(&all([1.012, 3.262, 3.462, 5.012]));
    assert_eq!(d["saved"]["can_be_saved"], true, "{:#}", d["saved"]);
    let recuts = d["saved"]["recuts"].as_array().expect("recuts");
    assert_eq!(recuts.len(), 1, "{recuts:?}");
    assert_eq!(recuts[0]["face"], "datum face");
    let off = recuts[0]["off"].as_f64().expect("a number");
    assert!((0.007..=0.017).contains(&off), "{off}");
    assert_eq!(d["overall_verdict"], "recut");
    // Too short from the far end: nothing brings metal back.
    let (_, d) = inspect(&all([1.000, 3.250, 3.450, 4.985]));
    assert_eq!((&d["overall_verdict"], &d["saved"]["can_be_saved"]), (&"scrap".into(), &false.into()));
    assert!((d["saved"]["misses"].as_f64().expect("a number") - 0.005).abs() < 1e-9, "{:#}", d["saved"]);
}
