//! From the worn sample to a description: the form of every sample, filled, comes back as the same part. The samples are our own; which
//! size a reading was made as is arithmetic (0.984 in = 25 mm), the tables of the standards, or marked.

use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use turnwright::chain::{self, Profile};
use turnwright::model::Kind;
use turnwright::plan;
use turnwright::read::sample::{Cell, SampleForm};
use turnwright::read::{self, ReadPart, sample};
use turnwright::unit::{Length, Unit, read_size, show};

const SAMPLES: [&str; 7] = [
    "tool-post-stud.yaml",
    "idler-shaft.yaml",
    "pulley-stub.yaml",
    "pump-shaft.yaml",
    "vise-screw.yaml",
    "winch-axle.yaml",
    "press-screw.yaml",
];

fn samples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("samples")
}

fn text(name: &str) -> String {
    std::fs::read_to_string(samples().join(name)).expect("a sample")
}

fn form(name: &str) -> SampleForm {
    let read = sample::sample(name, text(name).as_bytes());
    assert!(!read.is_form && read.faults.is_empty(), "{:?}", read.faults);
    read.form.expect("a form")
}

/// Every operation that follows, in words: what is done, to which feature, from which diameter to which, from where to where.
fn operations(name: &str, read: &ReadPart) -> Vec<String> {
    let part = read.part.as_ref().unwrap_or_else(|| panic!("{name}: {:?}", read.slips));
    let shop = part
        .lathe
        .as_ref()
        .and_then(|l| read::load(samples().join(name).to_str()?).ok().filter(|_| !l.text.is_empty()));
    let shop = shop.and_then(|l| l.shop).and_then(Result::ok).and_then(|s| s.shop);
    let chain = chain::locate(part);
    let profile = Profile::of(part, &chain);
    let derived = plan::derive(part, &chain, &profile, shop.as_ref());
    derived
        .operations
        .iter()
        .map(|(o, at)| {
            format!(
                "{:?} {:?} {:?} {:?} {:?} {:?} {:?} {:?}",
                o.verb, o.feature, o.with, o.end, o.to_diameter, o.from, o.to, at
            )
        })
        .collect()
}

/// The text to fill, back and forth: what `sheet --measure --format yaml` writes is read as it was meant.
fn written_and_read(form: &SampleForm) -> SampleForm {
    let text = sample::form_text(form, &|_| "look here: # not there".to_owned());
    let read = sample::sample("form.yaml", text.as_bytes());
    assert!(
        read.is_form && read.faults.is_empty() && read.slips.is_empty(),
        "{:?} {:?}\n{text}",
        read.faults,
        read.slips
    );
    read.form.expect("a form")
}

/// An empty form is the sketch again, all of it on trust.
#[test]
fn an_empty_form_gives_the_rough_description_again() {
    for name in SAMPLES {
        let made = sample::from_sample(&written_and_read(&form(name)));
        assert!(made.faults.is_empty(), "{name}: {:?}", made.faults);
        let again = read::part(name, made.text.as_bytes());
        assert!(again.slips.is_empty(), "{name}: {:?}\n{}", again.slips, made.text);
        let was = read::part(name, text(name).as_bytes());
        assert_eq!(operations(name, &again), operations(name, &was), "{name}");
        assert!(made.trusted.len() > 10 && made.trusted.iter().any(|t| t.contains("not measured")), "{name}");
        assert_eq!(again.part.expect("a part").on_trust.len(), made.trusted.len(), "{name}");
    }
}

/// Every row, and which feature it is of.
fn rows(form: &mut SampleForm, mut each: impl FnMut(usize, &str, bool, &mut sample::SampleRow)) {
    for (id, f) in form.features.iter_mut().chain(&mut form.inside).enumerate() {
        for (i, e) in f.entries.iter_mut().enumerate() {
            if let Cell::Row(row) = &mut e.cell {
                each(id, &e.key, i == 0, row);
            }
        }
    }
}

/// Filled with the nominal sizes of the drawing as what they are taken as, and read on unworn metal.
#[test]
fn a_filled_form_derives_the_same_operations() {
    for name in SAMPLES {
        let mut form = form(name);
        let unit = form.unit;
        let fill = |row: &mut sample::SampleRow| {
            row.taken = row.sketch.clone();
            row.why = "read twice: \"ok\", # and so".to_owned();
            if let Ok(size) = read_size(&row.sketch, unit) {
                let middle = size.limits().map_or(size.nominal.value, turnwright::unit::Limits::middle);
                row.unworn = show::plain(middle, unit, if unit == Unit::Inch { 4 } else { 3 });
            }
            row.sketch.clear();
        };
        rows(&mut form, |_, _, _, row| fill(row));
        for e in &mut form.head {
            if let Cell::Row(row) = &mut e.cell {
                fill(row);
            }
        }
        let made = sample::from_sample(&written_and_read(&form));
        assert!(made.faults.is_empty(), "{name}: {:?}", made.faults);
        let again = read::part(name, made.text.as_bytes());
        let was = read::part(name, text(name).as_bytes());
        assert_eq!(operations(name, &again), operations(name, &was), "{name}\n{}", made.text);
        // What unworn metal was read for is no trust.
        assert!(
            !made.trusted.iter().any(|t| t.contains("ends at") || t.contains("seat, turn")),
            "{name}: {:?}",
            made.trusted
        );
    }
}

/// Verbs and features alone, in the order of the alphabet. Polishing follows from how close the limits are, which the class decides.
fn kinds(operations: &[String]) -> Vec<String> {
    let mut kinds: Vec<String> = operations
        .iter()
        .map(|o| o.split_whitespace().take(2).collect::<Vec<_>>().join(" "))
        // Neighbours of one diameter are turned as one, under the name of the closer.
        .map(|o| if o.starts_with("Rough") || o.starts_with("Finish") { o.split(' ').take(1).collect() } else { o })
        .filter(|o| !o.starts_with("Polish"))
        .collect();
    kinds.sort_unstable();
    kinds
}

/// A form with readings and nothing taken: every size is suggested from what the unworn metal reads, over a sketch rounded to hundredths.
/// The description then has the same operations on the same features, every diameter and length within a caliper's error and a
/// round number's reach, and the threads, keys and bearing seats are those of the drawing.
#[test]
fn readings_alone_find_what_it_was_made_as() {
    for name in SAMPLES {
        let was = read::part(name, text(name).as_bytes());
        let part = was.part.as_ref().expect("a part");
        let mut form = form(name);
        let unit = form.unit;
        let shown = |l: Length| show::plain(l, unit, if unit == Unit::Inch { 4 } else { 3 });
        let rough = |l: Length| show::plain(l, unit, if unit == Unit::Inch { 2 } else { 0 });
        rows(&mut form, |id, key, main, row| match (&part.features[id].kind, main) {
            (Kind::Thread { thread, .. }, true) => row.unworn = shown(thread.major.middle()),
            (Kind::Thread { thread, .. }, false) if key == sample::PITCH => {
                row.unworn = format!("{} over 8", shown(thread.pitch.times(8)));
            }
            (Kind::Thread { thread, .. }, false) if key == sample::STARTS => {
                row.unworn = (thread.lead.pm() / thread.pitch.pm()).to_string();
            }
            (Kind::ParallelKeyseat { width, length, .. }, _) if main || key == sample::SLOT => {
                row.unworn = shown(if main { width.nominal } else { length.nominal });
            }
            (Kind::Woodruff { number, .. }, true) => {
                let key = turnwright::handbook::woodruff::find(number).expect("a key");
                row.unworn = shown(key.width);
            }
            (Kind::Woodruff { number, .. }, false) if key == sample::SLOT => {
                let key = turnwright::handbook::woodruff::find(number).expect("a key");
                let shaft = Length::inch_tenths(8_745);
                row.unworn = shown(key.seat_in(shaft).expect("a seat").slot_length);
            }
            (Kind::Turn { diameter, .. }, true) => {
                row.unworn = shown(diameter.aim());
                row.sketch = rough(diameter.aim());
            }
            _ => {
                if let Ok(size) = read_size(&row.sketch, unit) {
                    row.unworn = shown(size.limits().map_or(size.nominal.value, turnwright::unit::Limits::middle));
                }
            }
        });
        let made = sample::from_sample(&written_and_read(&form));
        assert!(made.faults.is_empty(), "{name}: {:?}", made.faults);
        let again = read::part(name, made.text.as_bytes());
        assert_eq!(kinds(&operations(name, &again)), kinds(&operations(name, &was)), "{name}\n{}", made.text);
        let found = again.part.expect("a part");
        for (a, b) in part.features.iter().zip(&found.features) {
            match (&a.kind, &b.kind) {
                (Kind::Turn { diameter, .. }, Kind::Turn { diameter: new, .. }) => {
                    let off = (diameter.aim() - new.aim()).abs();
                    assert!(
                        off <= Length::micrometres(40),
                        "{name} {}: {} became {}",
                        a.called(),
                        diameter.text,
                        new.text
                    );
                }
                (Kind::Thread { thread, .. }, Kind::Thread { thread: new, .. }) => {
                    assert_eq!(
                        (thread.nominal, thread.pitch, thread.hand),
                        (new.nominal, new.pitch, new.hand),
                        "{name}"
                    );
                }
                (
                    Kind::ParallelKeyseat { width, height, length, .. },
                    Kind::ParallelKeyseat { width: w, height: h, length: l, .. },
                ) => {
                    let all = [width.nominal, height.nominal, length.nominal];
                    assert_eq!(all, [w.nominal, h.nominal, l.nominal], "{name}");
                }
                (Kind::Woodruff { number, .. }, Kind::Woodruff { number: new, .. }) => assert_eq!(number, new),
                _ => {}
            }
        }
        // Which class a seat had, no metal shows.
        let classed = made.trusted.iter().any(|t| t.contains("suggested"));
        assert!(classed || name == "tool-post-stud.yaml", "{name}: {:?}", made.trusted);
    }
}

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

const FORM: &str = "\
sample: Roller shaft
units: in
datum: left end
material: {taken as: 1018 cold drawn, why: it files like it}
stock: 1.250 x 5.250
overall: {unworn reads: 5.0015}
tolerances: {lengths: ±0.005, diameters: ±0.002}
features:
  - turn: {worn reads: 0.9810, unworn reads: 0.9842}
    to: {unworn reads: 1.2495}
    name: left seat
    carries: {part: bearing, bore: 25 mm}
  - turn: {worn reads: 1.121, why: scored all round}
    to: {unworn reads: 3.751}
  - thread: {worn reads: 0.742}
    pitch: {unworn reads: 0.500 over 5}
    to: end
";

/// .984 in is 25 mm, 3/4-10 UNC has ten threads to the inch; what only worn metal shows is on trust.
#[test]
fn the_command_makes_a_description() {
    let folder = tempfile::tempdir().expect("a folder");
    let made = run(folder.path(), &["start", "--from-sample", "-", "-o", "part.yaml"], FORM);
    assert_eq!(made.status.code(), Some(0), "{}", String::from_utf8_lossy(&made.stderr));
    let text = std::fs::read_to_string(folder.path().join("part.yaml")).expect("a description");
    assert!(text.contains("turn: 25 mm k5"), "{text}");
    assert!(text.contains("thread: 3/4-10 UNC-2A"), "{text}");
    assert!(text.contains("turn: 1.125"), "{text}");
    assert!(text.contains("to: 1.250") && text.contains("to: 3.750") && text.contains("overall: 5.000"), "{text}");
    assert!(
        text.contains("ON TRUST: suggested, as only worn metal was read, 1.121; 28.575 mm; scored all round"),
        "{text}"
    );
    let plan = run(folder.path(), &["plan", "part.yaml", "--format", "json"], "");
    let json: serde_json::Value = serde_json::from_slice(&plan.stdout).expect("a plan");
    let on_trust = json["assumed"].as_array().expect("a list").iter().filter(|a| a["what"] == "Taken on trust").count();
    assert!(on_trust >= 5, "{json:#}");
}

/// What cannot be taken is told by its line.
#[test]
fn a_form_that_lacks_something_is_told_by_its_lines() {
    let folder = tempfile::tempdir().expect("a folder");
    for (from, to, said) in [
        ("{unworn reads: 3.751}", "{}", "line 14: "),
        ("{unworn reads: 3.751}", "{worn read: 3.751, why: x}", "did you mean `worn reads`?"),
        ("0.9842", "about one", "line 9: left seat, turn: `about one` is no reading"),
        ("0.500 over 5", "ten", "`ten` is no pitch"),
        ("units: in\n", "", "units are never assumed"),
        ("unworn reads: 5.0015", "taken as: 5,001", "line 6: "),
        ("- turn: {worn reads: 1.121", "- trun: {worn reads: 1.121", "which kind of feature?"),
    ] {
        let form = FORM.replacen(from, to, 1);
        assert_ne!(form, FORM, "{from}");
        let made = run(folder.path(), &["start", "--from-sample", "-"], &form);
        let err = String::from_utf8_lossy(&made.stderr).into_owned();
        assert_eq!(made.status.code(), Some(2), "{to}: {}", String::from_utf8_lossy(&made.stdout));
        assert!(err.contains(said), "{to}: {err}");
    }
    let description = text("pulley-stub.yaml");
    let made = run(folder.path(), &["start", "--from-sample", "-"], &description);
    assert!(String::from_utf8_lossy(&made.stderr).contains("this is a description, not a form"));
}

/// The form on paper: a blank for each of the four readings of each row, the letters of the sheet, in every kind of output and both
/// languages; an existing form is never written over.
#[test]
fn the_form_on_paper_has_the_rows_of_the_yaml() {
    let folder = tempfile::tempdir().expect("a folder");
    let part = samples().join("pulley-stub.yaml");
    let part = part.to_str().expect("a path");
    let yaml = run(folder.path(), &["sheet", part, "--measure", "--format", "yaml", "-o", "-"], "");
    let yaml = String::from_utf8(yaml.stdout).expect("UTF-8");
    let rows = yaml.lines().filter(|l| l.contains("worn reads: \"\", unworn reads:")).count();
    assert!(rows > 30, "{yaml}");
    for language in ["en", "de"] {
        let html = run(folder.path(), &["sheet", part, "--measure", "-o", "-", "--language", language], "");
        let html = String::from_utf8(html.stdout).expect("UTF-8");
        // Every row has its four blanks; one more stands for the signature and one for its date.
        assert_eq!(html.matches("class=\"blank\"").count(), 4 * rows + 2, "{language}");
        assert!(!html.contains("DO NOT CUT"));
    }
    let new = run(folder.path(), &["sheet", part, "--measure", "-o", "form.yaml"], "");
    assert_eq!(new.status.code(), Some(0), "{}", String::from_utf8_lossy(&new.stderr));
    let again = run(folder.path(), &["sheet", part, "--measure", "-o", "form.yaml"], "");
    assert_eq!(again.status.code(), Some(2), "a form that is there is not written over");
    let no = run(folder.path(), &["sheet", part, "--format", "yaml", "-o", "-"], "");
    assert_ne!(no.status.code(), Some(0));
    // A filled form prints with what was filled in.
    let filled = FORM.replace("scored all round", "scored <b>all</b> round");
    std::fs::write(folder.path().join("filled.yaml"), filled).expect("written");
    let printed = run(folder.path(), &["sheet", "filled.yaml", "--measure", "-o", "-"], "");
    let html = String::from_utf8(printed.stdout).expect("UTF-8");
    assert!(
        html.contains("value=\"0.9842\"") && !html.contains("<b>all"),
        "{}",
        String::from_utf8_lossy(&printed.stderr)
    );
}
