//! Pieces of real descriptions: the samples, and every case in the pages of the checks. What a new feature's cases say is thereby
//! tried in every mixture from the day they are written.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// Pieces to make descriptions of.
pub(crate) struct Corpus {
    /// Whole descriptions of the samples.
    pub(crate) whole: Vec<String>,
    /// Blocks of the header, by key.
    pub(crate) header: BTreeMap<String, Vec<String>>,
    /// Entries of `features:` that have a `to` or a `long`.
    pub(crate) sections: Vec<String>,
    /// The other entries.
    pub(crate) lying: Vec<String>,
}

impl Corpus {
    pub(crate) fn gather(root: &Path) -> Self {
        let mut corpus = Self { whole: Vec::new(), header: BTreeMap::new(), sections: Vec::new(), lying: Vec::new() };
        for file in files(&root.join("samples"), "yaml") {
            let text = std::fs::read_to_string(file).expect("a sample");
            if text.lines().any(|l| l.starts_with("part:")) {
                corpus.take(&text);
                corpus.whole.push(text);
            }
        }
        for file in files(&root.join("src/check"), "md") {
            let text = std::fs::read_to_string(file).expect("a page");
            for fence in text.split("```yaml").skip(1) {
                let Some((_, body)) = fence.split("```").next().unwrap_or_default().split_once('\n') else { continue };
                corpus.take(body.split("\n--- # shop").next().unwrap_or_default());
            }
        }
        assert!(corpus.sections.len() > 200 && corpus.lying.len() > 100, "the corpus is there");
        corpus
    }

    fn take(&mut self, text: &str) {
        let mut block = String::new();
        for line in text.lines().chain(["end:"]) {
            let starts = line.starts_with(|c: char| c.is_alphabetic()) && line.contains(':');
            let begins_list = line.starts_with("- ") && block.is_empty();
            if starts && !block.is_empty() {
                self.sort(&std::mem::take(&mut block));
            }
            if starts || begins_list || !block.is_empty() {
                block.push_str(line);
                block.push('\n');
            }
        }
    }

    fn sort(&mut self, block: &str) {
        let (key, rest) = block.split_once(':').unwrap_or((block, ""));
        if key.trim() != "features" && !block.starts_with("- ") {
            self.header.entry(key.trim().to_owned()).or_default().push(block.to_owned());
            return;
        }
        let entries = if block.starts_with("- ") { block } else { rest };
        let mut entry = String::new();
        for line in entries.lines().chain(["- "]) {
            if line.trim_start().starts_with("- ") && !entry.is_empty() {
                let made = std::mem::take(&mut entry);
                let is_section = made.contains("to:") || made.contains("long:");
                if is_section { self.sections.push(made) } else { self.lying.push(made) }
            }
            if !line.trim().is_empty() {
                entry.push_str(line.trim_end());
                entry.push('\n');
            }
        }
    }
}

fn files(folder: &Path, ending: &str) -> Vec<PathBuf> {
    let mut out = Vec::new();
    for entry in std::fs::read_dir(folder).expect("a folder of the tree").flatten() {
        let path = entry.path();
        if path.is_dir() {
            out.extend(files(&path, ending));
        } else if path.extension().is_some_and(|e| e == ending) {
            out.push(path);
        }
    }
    out.sort();
    out
}
