//! Which files a sheet is made from, as a rule that make and ninja read.

use std::fmt::Write;
use std::path::{Path, PathBuf};

use super::job::Job;
use crate::model::shop::NoLogo;
use crate::read;
use crate::sheet::templates::Templates;

/// What a sheet is made from beside its part and its shop file: the logo and the folder's own templates.
pub(super) fn more(job: &Job, templates: &Templates) -> Vec<PathBuf> {
    // Only a logo that is there: make cannot build a missing one.
    let logo = job.shop().filter(|s| !matches!(s.logo_file, Some(Err(NoLogo::Missing))));
    let logo = logo.zip(job.texts().shop).and_then(|(shop, text)| read::logo_path(&text.name, shop));
    logo.into_iter().chain(templates.files().map(Path::to_path_buf)).collect()
}

/// `sheet: part shop logo templates`; nothing for a part from standard input.
///
/// # Errors
/// A name with a line end in it, which would begin a rule of its own.
pub(super) fn rule(sheet: &Path, part: &Path, shop: Option<&Path>, more: &[PathBuf]) -> Result<String, String> {
    if part.as_os_str() == "-" {
        return Ok(String::new());
    }
    let mut names = [sheet, part].into_iter().chain(shop).chain(more.iter().map(PathBuf::as_path));
    if let Some(name) = names.find(|n| n.to_string_lossy().contains(char::is_control)) {
        let name = name.to_string_lossy().escape_debug().to_string();
        return Err(format!("{name} cannot stand in a depfile: rename it without the line end"));
    }
    let mut rule = escaped(&sheet.to_string_lossy());
    let _ = write!(rule, ": {}", escaped(&part.to_string_lossy()));
    for file in shop.into_iter().chain(more.iter().map(PathBuf::as_path)) {
        let _ = write!(rule, " {}", escaped(&file.to_string_lossy()));
    }
    rule.push('\n');
    Ok(rule)
}

/// A file's name as make reads it: a space, `#` and `\` behind a backslash, `$` doubled.
fn escaped(name: &str) -> String {
    let mut out = String::with_capacity(name.len());
    for c in name.chars() {
        match c {
            ' ' | '#' => out.extend(['\\', c]),
            '$' => out.push_str("$$"),
            '\\' if cfg!(windows) => out.push('/'),
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_that_make_would_misread() {
        // GNU make manual, "Rule Syntax" and "Types of Prerequisites"; ninja manual, "Depfile".
        assert_eq!(escaped("parts of 1926/#2 $5.yaml"), "parts\\ of\\ 1926/\\#2\\ $$5.yaml");
    }
}
