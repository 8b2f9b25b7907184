//! Which files a sheet is made from, as a rule that make and ninja read.

use std::fmt::Write;
use std::path::Path;

use super::job::Job;
use crate::model::shop::NoLogo;
use crate::read;
use crate::sheet::templates::Templates;

/// `sheet: part shop logo templates`; nothing for a part from standard input.
pub(super) fn rule(sheet: &Path, part: &Path, job: &Job, templates: &Templates) -> String {
    if part.as_os_str() == "-" {
        return String::new();
    }
    let mut rule = escaped(&sheet.to_string_lossy());
    let _ = write!(rule, ": {}", escaped(&part.to_string_lossy()));
    if let Some(shop) = job.texts().shop {
        let _ = write!(rule, " {}", escaped(&shop.name));
        // Only a logo that is there: make cannot build a missing one.
        let logo = job.shop().filter(|s| !matches!(s.logo_file, Some(Err(NoLogo::Missing))));
        if let Some(at) = logo.and_then(|s| read::logo_path(&shop.name, s)) {
            let _ = write!(rule, " {}", escaped(&at.to_string_lossy()));
        }
    }
    for file in templates.files() {
        let _ = write!(rule, " {}", escaped(&file.to_string_lossy()));
    }
    rule.push('\n');
    rule
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
