//! `watch` driven as a person drives it: a child process, files saved in the ways editors save them, Ctrl-C at the end.
//! Nothing here measures time; what is waited for may take as long as a slow machine needs.

use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::time::Duration;

/// The longest that something is waited for.
const PATIENCE: Duration = Duration::from_secs(60);

struct Watch {
    child: Child,
    lines: Receiver<String>,
}

impl Watch {
    fn start(folder: &Path, args: &[&str]) -> Self {
        let mut child = Command::new(env!("CARGO_BIN_EXE_turnwright"))
            .current_dir(folder)
            .arg("watch")
            .args(args)
            .stdout(Stdio::piped())
            .stderr(Stdio::inherit())
            .spawn()
            .expect("the program starts");
        let output = BufReader::new(child.stdout.take().expect("its output"));
        let (send, lines) = channel();
        std::thread::spawn(move || {
            for line in output.lines().map_while(Result::ok) {
                if send.send(line).is_err() {
                    break;
                }
            }
        });
        Self { child, lines }
    }

    /// Waits for a line with these words.
    fn says(&self, words: &str) -> String {
        let mut heard = Vec::new();
        loop {
            match self.lines.recv_timeout(PATIENCE) {
                Ok(line) if line.contains(words) => return line,
                Ok(line) => heard.push(line),
                Err(e) => panic!("never said {words:?} ({e}), but:\n{}", heard.join("\n")),
            }
        }
    }
}

impl Drop for Watch {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn sample() -> String {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("samples/pulley-stub-no-shop.yaml");
    std::fs::read_to_string(path).expect("a sample")
}

fn bad() -> String {
    sample().replace("relief: 0.545 +0/-0.010", "relief: 0.560 +0/-0.010")
}

/// As many editors save: a new file is put in the old one's place.
fn put_in_place(path: &Path, text: &str) {
    let beside = path.with_extension("yaml~");
    std::fs::write(&beside, text).expect("written");
    std::fs::rename(&beside, path).expect("renamed");
}

#[test]
fn every_way_of_saving_is_seen() {
    let folder = tempfile::tempdir().expect("a folder");
    let part = folder.path().join("stub.yaml");
    std::fs::write(&part, sample()).expect("written");
    let watch = Watch::start(folder.path(), &["stub.yaml", "-o", "stub.html"]);
    let verdict = watch.says("stub.yaml: ");
    assert!(!verdict.contains("DO NOT CUT"), "{verdict}");
    watch.says("stub.html: ");
    let sheet = folder.path().join("stub.html");
    assert!(std::fs::read_to_string(&sheet).expect("a sheet").trim_end().ends_with("</html>"));
    std::fs::write(&part, bad()).expect("written");
    watch.says("stub.yaml: DO NOT CUT");
    watch.says("relief-diameter");
    watch.says("stub.html: DO NOT CUT");
    assert!(std::fs::read_to_string(&sheet).expect("a sheet").contains("DO NOT CUT"));
    put_in_place(&part, &sample());
    let verdict = watch.says("stub.yaml: ");
    assert!(!verdict.contains("DO NOT CUT"), "{verdict}");
    std::fs::write(&part, "part: [\n\t:").expect("written");
    watch.says("stub.yaml: DO NOT CUT");
    std::fs::remove_file(&part).expect("removed");
    watch.says("stub.yaml: cannot be read");
    std::fs::write(&part, sample()).expect("written");
    watch.says("stub.html: ");
}

#[test]
fn the_shop_file_is_watched_too() {
    let folder = tempfile::tempdir().expect("a folder");
    let samples = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples");
    std::fs::create_dir(folder.path().join("shops")).expect("a folder");
    let shop = std::fs::read_to_string(samples.join("shop.yaml")).expect("a sample");
    let part = std::fs::read_to_string(samples.join("pulley-stub.yaml")).expect("a sample");
    std::fs::write(folder.path().join("shops/mine.yaml"), &shop).expect("written");
    let part = part.replace("lathe: shop.yaml", "lathe: shops/mine.yaml");
    std::fs::write(folder.path().join("stub.yaml"), part).expect("written");
    let watch = Watch::start(folder.path(), &["stub.yaml"]);
    let verdict = watch.says("stub.yaml: ");
    assert!(!verdict.contains("DO NOT CUT"), "{verdict}");
    std::fs::write(folder.path().join("shops/mine.yaml"), shop.replace("swing:", "swnig:")).expect("written");
    watch.says("stub.yaml: DO NOT CUT");
    watch.says("swnig");
}

#[test]
fn a_part_put_into_a_watched_folder_is_looked_at() {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::create_dir(folder.path().join("parts")).expect("a folder");
    std::fs::write(folder.path().join("parts/a.yaml"), sample()).expect("written");
    let watch = Watch::start(folder.path(), &["parts", "--out-dir", "sheets"]);
    watch.says("a.html: ");
    put_in_place(&folder.path().join("parts/b.yaml"), &bad());
    watch.says("b.yaml: DO NOT CUT");
    watch.says("b.html: DO NOT CUT");
    assert!(folder.path().join("sheets/b.html").exists());
}

#[cfg(unix)]
#[test]
fn ctrl_c_ends_it_well() {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("stub.yaml"), sample()).expect("written");
    let mut watch = Watch::start(folder.path(), &["stub.yaml", "-o", "stub.html"]);
    watch.says("stub.html: ");
    let id = watch.child.id().to_string();
    assert!(Command::new("kill").args(["-INT", &id]).status().expect("kill runs").success());
    assert_eq!(watch.child.wait().expect("it ends").code(), Some(0));
    let left: Vec<String> = std::fs::read_dir(folder.path())
        .expect("the folder")
        .map(|e| e.expect("an entry").file_name().to_string_lossy().into_owned())
        .filter(|n| n.starts_with('.'))
        .collect();
    assert!(left.is_empty(), "{left:?}");
}

#[test]
fn what_cannot_be_watched_is_told() {
    for args in
        [&["-"][..], &["no-such-folder/stub.yaml"], &["samples", "-o", "all.html"], &["samples/shop.yaml", "-o", "-"]]
    {
        let output = Command::new(env!("CARGO_BIN_EXE_turnwright"))
            .current_dir(env!("CARGO_MANIFEST_DIR"))
            .arg("watch")
            .args(args)
            .output()
            .expect("the program starts");
        assert_eq!(output.status.code(), Some(2), "{args:?}");
        assert!(!output.stderr.is_empty(), "{args:?} says why");
    }
}
