//! Which files a sheet is made from, as a rule that make and ninja read.

use std::fmt::Write;
use std::path::Path;

use super::job::Job;

/// `sheet: part shop`; nothing for a part from standard input.
pub(super) fn rule(sheet: &Path, part: &Path, job: &Job) -> String {
    if part.as_os_str() == "-" {
        return String::new();
    }
    let mut rule = escaped(&sheet.to_string_lossy());
    let _ = write!(rule, ": {}", escaped(&part.to_string_lossy()));
    if let Some(shop) = job.texts().shop {
        let _ = write!(rule, " {}", escaped(&shop.name));
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
