//! The pages' templates: those compiled in, or a folder's own in their place.
//!
//! A folder is read once, here; a template can then reach no other file: Tera knows only the texts it was given, and `typst` runs
//! with a folder of its own as its root.

use std::borrow::Cow;
use std::fmt;
use std::fs;
use std::path::{Path, PathBuf};

/// The files of `templates/` that make a sheet.
pub const NAMES: [&str; 5] = ["sheet.html", "sheet.css", "sheet.js", "sheet.typ", "sheet.md"];
const BUILT_IN: [&str; 5] = [
    include_str!("../../templates/sheet.html"),
    include_str!("../../templates/sheet.css"),
    include_str!("../../templates/sheet.js"),
    include_str!("../../templates/sheet.typ"),
    include_str!("../../templates/sheet.md"),
];
/// Largest template, in bytes.
const MOST_BYTES: u64 = 1_000_000;

/// One text for each of [`NAMES`].
#[derive(Debug, Clone)]
pub struct Templates {
    texts: [Cow<'static, str>; 5],
    /// Where each comes from; none for one that is compiled in.
    paths: [Option<PathBuf>; 5],
}

impl Default for Templates {
    fn default() -> Self {
        Self { texts: BUILT_IN.map(Cow::Borrowed), paths: [const { None }; 5] }
    }
}

/// A folder of templates that cannot be used.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NoTemplates(String);

impl fmt::Display for NoTemplates {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for NoTemplates {}

impl Templates {
    /// Those of a folder; what it does not hold is taken from those compiled in.
    ///
    /// # Errors
    /// When there is no such folder, when it holds none of [`NAMES`], when one of them leads out of the folder, is too large, or is
    /// not text.
    pub fn of(folder: &Path) -> Result<Self, NoTemplates> {
        let no = |path: &Path, why: &str| NoTemplates(format!("{}: {why}", path.display()));
        let root = fs::canonicalize(folder).map_err(|e| no(folder, &e.to_string()))?;
        let mut templates = Self::default();
        for (i, name) in NAMES.iter().enumerate() {
            let named = folder.join(name);
            let Ok(path) = fs::canonicalize(&named) else { continue };
            if !path.starts_with(&root) {
                return Err(no(&named, "it leads out of the folder of templates; put the file itself there"));
            }
            if !path.is_file() {
                return Err(no(&named, "this is no file"));
            }
            if fs::metadata(&path).is_ok_and(|m| m.len() > MOST_BYTES) {
                return Err(no(&named, "it is larger than 1 MB"));
            }
            let bytes = fs::read(&path).map_err(|e| no(&named, &e.to_string()))?;
            let text = String::from_utf8(bytes).map_err(|_| no(&named, "it is not UTF-8 text"))?;
            (templates.texts[i], templates.paths[i]) = (Cow::Owned(text), Some(named));
        }
        if templates.paths.iter().all(Option::is_none) {
            return Err(no(folder, &format!("it holds none of {}", NAMES.join(", "))));
        }
        Ok(templates)
    }

    /// The files that were taken from a folder.
    pub fn files(&self) -> impl Iterator<Item = &Path> {
        self.paths.iter().flatten().map(PathBuf::as_path)
    }

    pub(super) fn html(&self) -> &str {
        &self.texts[0]
    }

    pub(super) fn style(&self) -> &str {
        &self.texts[1]
    }

    pub(super) fn script(&self) -> &str {
        &self.texts[2]
    }

    pub(super) fn typst(&self) -> &str {
        &self.texts[3]
    }

    pub(super) fn markdown(&self) -> &str {
        &self.texts[4]
    }

    /// What a message calls a template: its file, where it has one.
    pub(super) fn called(&self, name: &str) -> String {
        let at = NAMES.iter().position(|n| *n == name);
        let path = at.and_then(|i| self.paths[i].as_ref());
        path.map_or_else(|| name.to_owned(), |p| p.display().to_string())
    }

    /// A failure of the template engine with the file and, where it can be told, the line it is about.
    pub(super) fn bad(&self, name: &'static str, error: &tera::Error) -> BadTemplate {
        let mut because = error.to_string();
        let mut source = std::error::Error::source(error);
        while let Some(s) = source {
            because = format!("{because}: {s}");
            source = s.source();
        }
        let text = NAMES.iter().position(|n| *n == name).map_or("", |i| &self.texts[i]);
        let line = parse_line(&because).or_else(|| line_that_names(&because, text));
        BadTemplate { template: self.called(name), line, because }
    }
}

/// A template that cannot be filled in; only one that somebody changed can fail.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BadTemplate {
    /// The template's file.
    pub template: String,
    /// The line it is about, where that can be told.
    pub line: Option<usize>,
    /// What the template engine says.
    pub because: String,
}

impl fmt::Display for BadTemplate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the template {}", self.template)?;
        if let Some(line) = self.line {
            write!(f, ", line {line},")?;
        }
        write!(f, " cannot be filled in: {}", self.because)
    }
}

impl std::error::Error for BadTemplate {}

/// A parser's error shows its place as ` --> 12:3`.
fn parse_line(because: &str) -> Option<usize> {
    because.split("--> ").nth(1)?.split(':').next()?.trim().parse().ok()
}

/// An error while filling in names what it stumbled over, and no place: the first line with that name is told.
fn line_that_names(because: &str, text: &str) -> Option<usize> {
    let names = because.split(['`', '\'', '"']).skip(1).step_by(2);
    let mut known = names.filter(|n| !n.is_empty() && !n.starts_with("sheet."));
    known.find_map(|name| text.lines().position(|l| l.contains(name))).map(|i| i + 1)
}
