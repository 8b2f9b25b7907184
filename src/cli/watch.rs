//! `watch`: look again whenever a part or its shop file is saved.

use std::collections::BTreeMap;
use std::io::{IsTerminal, Write};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{self, Receiver};
use std::sync::{Arc, OnceLock};
use std::time::{Duration, Instant};

use notify::event::{AccessKind, AccessMode};
use notify::{Event, EventKind, RecursiveMode, Watcher};

use super::args::{SheetArgs, WatchArgs};
use super::batch::{Parts, is_yaml};
use super::job::{Job, Tally};
use super::run::Outcome;
use super::screen::Screen;
use super::{check, sheet, watch_screen};
use crate::read::Shops;

/// A save is over when nothing more is heard for so long.
const QUIET: Duration = Duration::from_millis(10);

/// The longest that one save is waited out.
const LONGEST: Duration = Duration::from_millis(60);

/// How long a sheet that is being written may take when the person wants to stop.
const LAST_WORDS: Duration = Duration::from_millis(300);

/// Looks until Ctrl-C.
pub(super) fn run(args: &WatchArgs, screen: Screen) -> Outcome {
    let args = &args.sheet;
    let parts = Parts::of(&args.parts);
    if args.output.as_ref().is_some_and(|o| o.as_os_str() == "-") {
        return Outcome::could_not("a sheet after every save goes into a file: -o part.html");
    }
    if args.output.is_some() && (parts.paths.len() > 1 || args.parts.iter().any(|p| p.is_dir())) {
        return Outcome::could_not("several parts cannot go into one file: use --out-dir");
    }
    if parts.paths.iter().any(|p| p.as_os_str() == "-") {
        return Outcome::could_not("standard input cannot be watched: name a file");
    }
    if let Some(folder) = &args.out_dir
        && let Err(e) = std::fs::create_dir_all(folder)
    {
        return Outcome::could_not(&format!("cannot make the folder {}: {e}", folder.display()));
    }
    let (stop, stopped) = mpsc::channel();
    if let Err(e) = ctrlc::set_handler(move || {
        // Nobody hears it twice: the first ends the run.
        let _ = stop.send(());
    }) {
        return Outcome::could_not(&format!("cannot hear Ctrl-C: {e}"));
    }
    let (send, heard) = mpsc::channel();
    let watcher = match notify::recommended_watcher(send) {
        Ok(watcher) => watcher,
        Err(e) => return Outcome::could_not(&format!("cannot watch files here: {e}")),
    };
    let mut watch = Watch {
        sheet: (args.output.is_some() || args.out_dir.is_some()).then(|| args.clone()),
        shop: args.shop.clone(),
        screen,
        folders: args.parts.iter().filter(|p| p.is_dir()).cloned().collect(),
        parts: BTreeMap::new(),
        followed: Vec::new(),
        watcher: Box::new(watcher),
        busy: Arc::new(AtomicBool::new(true)),
    };
    for folder in watch.folders.clone() {
        if let Err(why) = watch.follow(&folder, RecursiveMode::Recursive) {
            return Outcome::could_not(&why);
        }
    }
    for part in parts.paths {
        if let Err(why) = watch.add(&part) {
            return Outcome::could_not(&why);
        }
    }
    let busy = Arc::clone(&watch.busy);
    std::thread::spawn(move || watch.work(&heard));
    let _ = stopped.recv();
    let since = Instant::now();
    while busy.load(Ordering::SeqCst) && since.elapsed() < LAST_WORDS {
        std::thread::sleep(Duration::from_millis(5));
    }
    Outcome::default()
}

/// A part, and what it was when it was last looked at.
struct Part {
    named: PathBuf,
    shop: Option<PathBuf>,
    seen: Option<Vec<u8>>,
    verdict: String,
}

struct Watch {
    sheet: Option<SheetArgs>,
    /// The shop file the user named.
    shop: Option<PathBuf>,
    screen: Screen,
    folders: Vec<PathBuf>,
    /// By the path that events name.
    parts: BTreeMap<PathBuf, Part>,
    followed: Vec<PathBuf>,
    watcher: Box<dyn Watcher + Send>,
    busy: Arc<AtomicBool>,
}

impl Watch {
    /// Adds a part; its folder is followed, so that a file put in its place is seen.
    fn add(&mut self, part: &Path) -> Result<(), String> {
        let folder = part.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
        self.follow(folder, RecursiveMode::NonRecursive)?;
        let known = Part { named: part.to_owned(), shop: None, seen: None, verdict: String::new() };
        self.parts.entry(absolute(part)).or_insert(known);
        Ok(())
    }

    fn follow(&mut self, folder: &Path, mode: RecursiveMode) -> Result<(), String> {
        let place = folder.canonicalize().map_err(|e| format!("{}: {e}", folder.display()))?;
        if self.followed.contains(&place)
            || self.folders.iter().any(|f| place != absolute(f) && place.starts_with(absolute(f)))
        {
            return Ok(());
        }
        self.watcher.watch(&place, mode).map_err(|e| format!("cannot watch {}: {e}", folder.display()))?;
        self.followed.push(place);
        Ok(())
    }

    /// Looks at everything once, then whenever something is saved.
    fn work(mut self, heard: &Receiver<notify::Result<Event>>) {
        let all: Vec<PathBuf> = self.parts.keys().cloned().collect();
        for part in all {
            self.look(&part, Instant::now());
        }
        if self.parts.is_empty() {
            watch_screen::waiting(&self.folders);
        }
        loop {
            self.busy.store(false, Ordering::SeqCst);
            let Ok(first) = heard.recv() else { return };
            let start = Instant::now();
            let mut touched = paths(first);
            while let Ok(next) = heard.recv_timeout(QUIET) {
                touched.extend(paths(next));
                if start.elapsed() > LONGEST {
                    break;
                }
            }
            if touched.is_empty() {
                continue;
            }
            self.busy.store(true, Ordering::SeqCst);
            self.new_parts(&touched);
            let concerned =
                |(path, part): &(&PathBuf, &Part)| touched.iter().any(|t| t == *path || Some(t) == part.shop.as_ref());
            let due: Vec<PathBuf> = self.parts.iter().filter(concerned).map(|(path, _)| path.clone()).collect();
            for part in due {
                self.look(&part, start);
            }
        }
    }

    /// Parts that were put into a followed folder.
    fn new_parts(&mut self, touched: &[PathBuf]) {
        for path in touched {
            let inside = self.folders.iter().find(|f| path.starts_with(absolute(f))).cloned();
            let Some(folder) = inside.filter(|_| is_yaml(path) && path.is_file() && !self.parts.contains_key(path))
            else {
                continue;
            };
            let below = path.strip_prefix(absolute(&folder)).map_or_else(|_| path.clone(), |p| folder.join(p));
            if Parts::of(&[folder]).paths.contains(&below) {
                // Its folder is followed already.
                let _ = self.add(&below);
            }
        }
    }

    /// Looks at one part, if it or its shop file is not what it was.
    fn look(&mut self, path: &Path, since: Instant) {
        let Some(part) = self.parts.get_mut(path) else { return };
        let now = fingerprint(&part.named, part.shop.as_deref());
        if part.seen.as_ref() == Some(&now) {
            return;
        }
        part.seen = Some(now);
        let named = part.named.clone();
        let job = Job::load(&named, &Shops::of(self.shop.clone()));
        let (shown, verdict) = match &job {
            Ok(job) => {
                let findings = job.findings(None);
                let verdict = check::verdict(Tally::of(&findings));
                (watch_screen::findings(job, findings, self.screen), verdict)
            }
            Err(why) => (vec![why.clone()], "cannot be read".to_owned()),
        };
        verdict.clone_into(&mut part.verdict);
        let shop = job.as_ref().ok().and_then(|j| j.texts().shop).map(|s| PathBuf::from(&s.name));
        // A shop file that is not there yet may come.
        let shop = shop.or_else(|| job.is_err().then(|| part.shop.clone()).flatten());
        if let Some(shop) = shop {
            part.shop = Some(absolute(&shop));
            let seen = fingerprint(&named, part.shop.as_deref());
            part.seen = Some(seen);
            if let Some(folder) = shop.parent().filter(|p| !p.as_os_str().is_empty()) {
                let _ = self.follow(folder, RecursiveMode::NonRecursive);
            }
        }
        let others: Vec<(String, String)> =
            self.parts.values().map(|p| (p.named.display().to_string(), p.verdict.clone())).collect();
        watch_screen::show(&named, &verdict, &others, &shown, since.elapsed());
        if job.is_ok()
            && let Some(args) = &self.sheet
        {
            match sheet::one(args, &named, &Shops::of(self.shop.clone()), None, self.screen) {
                Ok(made) => watch_screen::line(&made.words(since.elapsed())),
                Err(why) => watch_screen::line(&format!("turnwright: {why}")),
            }
        }
    }
}

/// The paths of an event that may change a file.
fn paths(event: notify::Result<Event>) -> Vec<PathBuf> {
    let Ok(event) = event else { return Vec::new() };
    match event.kind {
        EventKind::Access(AccessKind::Close(AccessMode::Write)) => event.paths,
        // To read a file is no change of it.
        EventKind::Access(_) => Vec::new(),
        _ => event.paths,
    }
}

/// A path as events name it: its folder without links, its own name as it is.
fn absolute(path: &Path) -> PathBuf {
    let folder = path.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    match (folder.canonicalize(), path.file_name()) {
        (Ok(folder), Some(name)) if !path.is_dir() => folder.join(name),
        _ => path.canonicalize().unwrap_or_else(|_| path.to_owned()),
    }
}

/// What a part and its shop file are now; a file that is gone is none.
fn fingerprint(part: &Path, shop: Option<&Path>) -> Vec<u8> {
    use sha2::{Digest, Sha256};
    let mut digest = Sha256::new();
    for path in [Some(part), shop] {
        match path.map(std::fs::read) {
            Some(Ok(bytes)) => {
                digest.update(bytes.len().to_le_bytes());
                digest.update(&bytes);
            }
            _ => digest.update([0xFF]),
        }
    }
    digest.finalize().to_vec()
}

/// Whether standard output is a terminal.
pub(super) fn on_terminal() -> bool {
    static TERMINAL: OnceLock<bool> = OnceLock::new();
    *TERMINAL.get_or_init(|| std::io::stdout().is_terminal())
}

/// Writes to standard output at once.
pub(super) fn put(text: &str) {
    let mut out = std::io::stdout().lock();
    let _ = out.write_all(text.as_bytes()).and_then(|()| out.flush());
}
