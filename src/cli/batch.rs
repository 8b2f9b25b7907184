//! Many parts in one run: folders and patterns spread into files, all cores used, results taken in the order of the names.
//! What is held in memory does not grow with their number: a group of parts is worked, shown, and let go.

use std::collections::BTreeSet;
use std::io::{IsTerminal, Write};
use std::path::{Path, PathBuf};

use indicatif::{ProgressBar, ProgressStyle};
use rayon::prelude::*;

use crate::editor::{Which, which};

/// Parts worked before their results are shown.
const GROUP: usize = 64;

/// Fewer parts than this are done before a progress bar could be read.
const FEWEST_FOR_BAR: usize = 8;

/// What a thread of a batch may nest: as deep as the first thread of a program usually may.
const STACK: usize = 8 << 20;

/// The parts of a run.
pub(super) struct Parts {
    /// Files, in the order they were named; those of a folder or pattern by name.
    pub(super) paths: Vec<PathBuf>,
    /// What was named and holds no part, each in a sentence.
    pub(super) nothing: Vec<String>,
    /// Files of a folder that hold no key of a part description, each in a sentence.
    pub(super) left_out: Vec<String>,
    /// Whether the run is for several, so that a reply is a list.
    pub(super) many: bool,
}

impl Parts {
    /// Spreads folders (with the folders in them) and patterns (`parts/*.yaml`). Shop files in them are left out.
    pub(super) fn of(named: &[PathBuf]) -> Self {
        let mut parts = Self { paths: Vec::new(), nothing: Vec::new(), left_out: Vec::new(), many: named.len() > 1 };
        let mut seen = BTreeSet::new();
        for name in named {
            let Some(found) = spread(name, &mut parts.left_out) else {
                parts.paths.push(name.clone());
                continue;
            };
            parts.many = true;
            let before = parts.paths.len();
            parts.paths.extend(found.into_iter().filter(|p| seen.insert(p.clone())));
            if parts.paths.len() == before {
                parts.nothing.push(format!("{}: no part description in it; name a file (.yaml)", name.display()));
            }
        }
        parts
    }

    /// Works every part and takes the results in order; stops early when `take` says so.
    pub(super) fn each<T: Send>(
        &self,
        doing: &'static str,
        work: impl Fn(&Path) -> T + Sync,
        mut take: impl FnMut(&Path, T) -> bool,
    ) {
        if let [path] = self.paths.as_slice() {
            take(path, work(path));
            return;
        }
        // Fails only when threads exist already; then those are used.
        let _ = rayon::ThreadPoolBuilder::new().stack_size(STACK).build_global();
        let bar = bar(self.paths.len(), doing);
        for group in self.paths.chunks(GROUP) {
            let results: Vec<T> = group
                .par_iter()
                .map(|path| {
                    let result = work(path);
                    bar.inc(1);
                    result
                })
                .collect();
            let go_on = bar.suspend(|| group.iter().zip(results).all(|(path, result)| take(path, result)));
            if !go_on {
                break;
            }
        }
        bar.finish_and_clear();
    }
}

/// Tells what was left out and what holds no part; true when something that was named holds none.
pub(super) fn tell(parts: &Parts) -> bool {
    let mut err = std::io::stderr().lock();
    for sentence in parts.left_out.iter().chain(&parts.nothing) {
        let _ = writeln!(err, "turnwright: {sentence}");
    }
    !parts.nothing.is_empty()
}

/// The files of a folder or pattern; none for a name that is taken as it stands.
fn spread(name: &Path, left_out: &mut Vec<String>) -> Option<Vec<PathBuf>> {
    if name.is_dir() {
        let mut found = Vec::new();
        walk(name, &mut found, left_out);
        return Some(found);
    }
    let text = name.to_string_lossy();
    if name.exists() || !text.contains(['*', '?', '[']) {
        return None;
    }
    let files = glob::glob(&text).ok()?.filter_map(Result::ok);
    let mut found: Vec<PathBuf> = files.filter(|p| p.is_file() && kind(p) != Some(Which::Shop)).collect();
    found.sort();
    Some(found)
}

/// The descriptions in a folder and those in it; hidden ones and links to folders are left out.
fn walk(folder: &Path, found: &mut Vec<PathBuf>, left_out: &mut Vec<String>) {
    let Ok(entries) = std::fs::read_dir(folder) else { return };
    let mut entries: Vec<_> = entries.filter_map(Result::ok).collect();
    entries.sort_by_key(std::fs::DirEntry::file_name);
    for entry in entries {
        let (path, hidden) = (entry.path(), entry.file_name().to_string_lossy().starts_with('.'));
        if hidden {
            continue;
        }
        match entry.file_type() {
            Ok(kind) if kind.is_dir() => walk(&path, found, left_out),
            Ok(_) if is_yaml(&path) && path.is_file() => match kind(&path) {
                Some(Which::Part) => found.push(path),
                Some(Which::Shop) => {}
                None => left_out.push(format!("{}: left out, it looks like no part description", path.display())),
            },
            _ => {}
        }
    }
}

/// Whether a file's name ends as a description's does.
pub(super) fn is_yaml(path: &Path) -> bool {
    path.extension().is_some_and(|e| e.eq_ignore_ascii_case("yaml") || e.eq_ignore_ascii_case("yml"))
}

/// Which of the two files this is; the beginning of it tells. What cannot be read is tried as a part, and told.
fn kind(path: &Path) -> Option<Which> {
    use std::io::Read;
    let mut head = Vec::new();
    match std::fs::File::open(path).and_then(|f| f.take(4096).read_to_end(&mut head)) {
        Ok(_) => which(&String::from_utf8_lossy(&head)),
        Err(_) => Some(Which::Part),
    }
}

/// Refuses to write over a file that begins as a description or a shop file does.
pub(super) fn refuse_description(out: &Path) -> Result<(), String> {
    // The first lines of a sheet in Markdown may look alike; these keys stand in no sheet.
    let keys = |line: &str| line.starts_with("units:") || line.starts_with("features:");
    let head = || std::fs::read(out).is_ok_and(|b| String::from_utf8_lossy(&b).lines().any(keys));
    match out.is_file().then(|| kind(out)).flatten() {
        Some(_) if head() => {
            Err(format!("{} looks like a description or a shop file: choose another name", out.display()))
        }
        _ => Ok(()),
    }
}

/// A bar on a terminal; elsewhere nothing.
fn bar(parts: usize, doing: &'static str) -> ProgressBar {
    if parts < FEWEST_FOR_BAR || !std::io::stderr().is_terminal() {
        return ProgressBar::hidden();
    }
    let style = ProgressStyle::with_template("{msg} {wide_bar} {pos} of {len}, {eta} to go");
    ProgressBar::new(parts as u64)
        .with_style(style.unwrap_or_else(|_| ProgressStyle::default_bar()))
        .with_message(doing)
}
