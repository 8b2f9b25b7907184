//! A command as a child process: how it ended, what it said, how long it took and the most memory it held.

use std::io::Read;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use super::corpus::Hostile;

/// What became of one command.
pub(crate) struct Ended {
    /// Exit code; none when a signal ended it, or we did.
    pub(crate) code: Option<i32>,
    /// How long it took.
    pub(crate) took: Duration,
    /// Time of a processor it took; what a busy machine adds by waiting is not in it. Nothing where the system does not tell.
    pub(crate) cpu: Duration,
    /// Most memory held, bytes; 0 where the system does not tell.
    pub(crate) peak: u64,
    /// Bytes on standard output.
    pub(crate) out: usize,
    /// What stood on standard output and standard error, its first and last parts.
    pub(crate) said: String,
}

/// Writes an input and the files beside it into a folder of its own.
pub(crate) fn put(folder: &Path, input: &Hostile) -> PathBuf {
    let folder = folder.join(input.name);
    std::fs::create_dir_all(&folder).expect("a folder");
    for (name, bytes) in &input.beside {
        std::fs::write(folder.join(name), bytes).expect("a file beside it");
    }
    let file = folder.join(format!("{}.yaml", input.name));
    std::fs::write(&file, &input.text).expect("the input");
    file
}

/// Runs `turnwright` with these arguments; what takes longer than `patience` is ended.
pub(crate) fn run(folder: &Path, args: &[&str], patience: Duration) -> Ended {
    let begun = Instant::now();
    let mut child = Command::new(env!("CARGO_BIN_EXE_turnwright"))
        .current_dir(folder)
        .args(args)
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    let (out, err) = (drained(child.stdout.take()), drained(child.stderr.take()));
    let status = format!("/proc/{}/status", child.id());
    let stat = format!("/proc/{}/stat", child.id());
    let (mut peak, mut cpu) = (0, Duration::ZERO);
    let code = loop {
        peak = peak.max(held(&status));
        cpu = cpu.max(worked(&stat));
        match child.try_wait().expect("the program is ours") {
            Some(status) => break status.code(),
            None if begun.elapsed() > patience => {
                let _ = child.kill();
                let _ = child.wait();
                break None;
            }
            None => std::thread::sleep(Duration::from_millis(1)),
        }
    };
    let took = begun.elapsed();
    let (out, err) = (out.join().expect("its output"), err.join().expect("its errors"));
    Ended { code, took, cpu, peak, out: out.0, said: out.1 + &err.1 }
}

/// Reads everything and keeps the ends of it.
fn drained(from: Option<impl Read + Send + 'static>) -> std::thread::JoinHandle<(usize, String)> {
    const KEPT: usize = 1 << 20;
    std::thread::spawn(move || {
        let (mut all, mut head, mut buffer) = (0, Vec::new(), vec![0; 1 << 16]);
        let Some(mut from) = from else { return (0, String::new()) };
        while let Ok(n @ 1..) = from.read(&mut buffer) {
            all += n;
            head.extend_from_slice(&buffer[..n]);
            if head.len() > 2 * KEPT {
                head.drain(KEPT..head.len() - KEPT / 2);
            }
        }
        (all, String::from_utf8_lossy(&head).into_owned())
    })
}

/// The most memory a process has held, bytes.
fn held(status: &str) -> u64 {
    let status = std::fs::read_to_string(status).unwrap_or_default();
    let line = status.lines().find_map(|l| l.strip_prefix("VmHWM:")).unwrap_or_default();
    line.split_whitespace().next().and_then(|n| n.parse::<u64>().ok()).unwrap_or(0) << 10
}

/// The time of a processor that a process and its threads took: user and system, in hundredths of a second (proc(5), `stat`).
fn worked(stat: &str) -> Duration {
    let stat = std::fs::read_to_string(stat).unwrap_or_default();
    let fields = stat.rsplit_once(')').map_or("", |(_, rest)| rest).split_whitespace();
    let ticks: u64 = fields.skip(11).take(2).filter_map(|n| n.parse::<u64>().ok()).sum();
    Duration::from_millis(10 * ticks)
}
