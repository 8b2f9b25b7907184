//! A text that never comes back is a failure too: a guard beside each, and what a crash would need to be found again.

use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

use crate::stages::Stage;

/// Guards one text until it is dropped.
pub(crate) struct Watch {
    done: Arc<AtomicBool>,
    file: PathBuf,
}

/// The bound is 5 s; a build without optimisation and a busy machine get more.
fn limit(stage: Stage) -> Duration {
    let slower = if cfg!(debug_assertions) { 12 } else { 1 };
    Duration::from_secs(slower * if stage == Stage::Check { 5 } else { 15 })
}

impl Watch {
    /// Writes the text down, so that a crash leaves it behind, and ends the run when it takes too long.
    pub(crate) fn begin(text: &[u8], stage: Stage) -> Self {
        let name = format!("fuzz-{:?}.yaml", std::thread::current().id()).replace(['(', ')'], "");
        let file = folder().join(name);
        let _ = std::fs::write(&file, text);
        let done = Arc::new(AtomicBool::new(false));
        let (flag, at) = (Arc::clone(&done), file.clone());
        guard().push((std::time::Instant::now() + limit(stage), flag, at));
        Self { done, file }
    }
}

impl Drop for Watch {
    fn drop(&mut self) {
        self.done.store(true, Ordering::Relaxed);
        let _ = std::fs::remove_file(&self.file);
    }
}

type Guarded = (std::time::Instant, Arc<AtomicBool>, PathBuf);

struct Guard(&'static std::sync::Mutex<Vec<Guarded>>);

impl Guard {
    fn push(&self, guarded: Guarded) {
        let mut all = self.0.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
        all.retain(|g| !g.1.load(Ordering::Relaxed));
        all.push(guarded);
    }
}

fn guard() -> Guard {
    static ALL: std::sync::Mutex<Vec<Guarded>> = std::sync::Mutex::new(Vec::new());
    static BEGUN: std::sync::Once = std::sync::Once::new();
    BEGUN.call_once(|| {
        std::thread::spawn(|| {
            loop {
                std::thread::sleep(Duration::from_millis(200));
                let all = ALL.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
                let late = all.iter().find(|g| !g.1.load(Ordering::Relaxed) && std::time::Instant::now() > g.0);
                if let Some((_, _, file)) = late {
                    println!("FAILED: no end in sight for {}", file.display());
                    std::process::exit(1);
                }
            }
        });
    });
    Guard(&ALL)
}

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_TARGET_TMPDIR"))
}

/// Writes a failing text down and says where.
pub(crate) fn keep(text: &[u8], seed: u64) -> String {
    let file = folder().join(format!("fuzz-failed-{seed}.yaml"));
    match std::fs::write(&file, text) {
        Ok(()) => format!("kept in {}", file.display()),
        Err(e) => format!("not kept: {e}"),
    }
}

/// The most memory this run has had, bytes; 0 where the system does not tell.
pub(crate) fn peak_memory() -> u64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|l| l.strip_prefix("VmHWM:")).unwrap_or_default();
    line.split_whitespace().next().and_then(|n| n.parse::<u64>().ok()).unwrap_or(0) << 10
}
