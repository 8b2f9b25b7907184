//! How long hostile descriptions take and the most memory they make a command hold.
//!
//! `cargo bench --bench hostile` (or `-- NAME` for those whose name holds it). The promise is 5 s and 500 MB for each; what breaks it is marked.
//! Seconds are of a processor, so that what else the machine does is not counted.
//! A search may take the seconds it is given: plan and sheet get `--seconds 1`.

#[path = "../hostile/corpus.rs"]
#[expect(dead_code, reason = "what must be answered is for the test")]
mod corpus;
#[path = "../hostile/probe.rs"]
#[expect(dead_code, reason = "what is answered is for the test")]
mod probe;

use std::fmt::Write as _;
use std::time::Duration;

use corpus::Scale;

fn main() {
    let wanted = std::env::args().skip(1).find(|a| !a.starts_with('-'));
    let folder = tempfile::tempdir().expect("a folder");
    println!("{:28} {:>9}   {:>16} {:>16} {:>16} {:>16}", "s and MB", "input", "check", "check json", "plan", "sheet");
    let (mut slowest, mut largest, mut over) = (Duration::ZERO, 0, 0);
    for input in corpus::all(Scale::FULL) {
        if wanted.as_ref().is_some_and(|w| !input.name.contains(w.as_str())) {
            continue;
        }
        let file = probe::put(folder.path(), &input);
        let name = file.file_name().and_then(|n| n.to_str()).expect("a plain name");
        let mut cells = String::new();
        for args in [
            vec!["check", name],
            vec!["check", "--format", "json", name],
            vec!["plan", "--seconds", "1", name],
            vec!["sheet", "--seconds", "1", "-o", "sheet.html", name],
        ] {
            let ended = probe::run(file.parent().expect("a folder"), &args, Duration::from_secs(120));
            let broken = ended.cpu > Duration::from_secs(5) || ended.peak > 500 << 20 || ended.code.is_none();
            over += u32::from(broken);
            slowest = slowest.max(ended.cpu);
            largest = largest.max(ended.peak);
            let mark = if broken { '!' } else { ' ' };
            let _ = write!(cells, " {:>8.2} {:>6}{mark}", ended.cpu.as_secs_f64(), ended.peak >> 20);
        }
        println!("{:28} {:>6} kB  {cells}", input.name, input.text.len() >> 10);
        let _ = std::fs::remove_dir_all(file.parent().expect("a folder"));
    }
    println!("slowest {:.2} s, most memory {} MB, {over} over 5 s or 500 MB", slowest.as_secs_f64(), largest >> 20);
}
