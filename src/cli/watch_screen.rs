//! One screen of `watch`: the verdict, and the findings that fit, worst first.

use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::time::Duration;

use super::job::Job;
use super::screen::{MOST_DRAWN, Screen};
use super::watch::{on_terminal, put};
use crate::finding::Finding;

/// Lines where the terminal does not tell.
const LINES: usize = 50;

/// More parts than this are not listed above the findings.
const MOST_PARTS: usize = 12;

/// Findings as frames, worst first; accepted ones last.
pub(super) fn findings(job: &Job, mut findings: Vec<Finding>, screen: Screen) -> Vec<String> {
    findings.sort_by_key(|f| (f.accepted.is_some(), std::cmp::Reverse(f.severity)));
    findings.iter().take(MOST_DRAWN).map(|f| screen.draw(f, job.texts())).collect()
}

/// Shows a part that was looked at.
pub(super) fn show(part: &Path, verdict: &str, parts: &[(String, String)], findings: &[String], took: Duration) {
    put(&page(part, verdict, parts, findings, took, on_terminal().then(lines)));
}

/// The screen as text; on a terminal of so many lines it begins at the top and does not run over.
fn page(
    part: &Path,
    verdict: &str,
    parts: &[(String, String)],
    findings: &[String],
    took: Duration,
    lines: Option<usize>,
) -> String {
    let mut out = String::new();
    if lines.is_some() {
        out.push_str("\u{1b}[2J\u{1b}[3J\u{1b}[H");
    }
    if parts.len() > 1 && parts.len() <= MOST_PARTS {
        for (name, verdict) in parts.iter().filter(|(_, v)| !v.is_empty()) {
            let _ = writeln!(out, "{name}: {verdict}");
        }
        out.push('\n');
    }
    let _ = writeln!(out, "{}: {verdict} ({} ms)\n", part.display(), took.as_millis());
    let mut used = out.lines().count() + 3;
    for (i, finding) in findings.iter().enumerate() {
        used += finding.lines().count() + 1;
        if i > 0 && used > lines.unwrap_or(usize::MAX) {
            let more = findings.len() - i;
            let _ = writeln!(out, "… {more} more: turnwright check {}", part.display());
            break;
        }
        out.push_str(finding);
        out.push_str("\n\n");
    }
    out
}

/// A line under the findings.
pub(super) fn line(text: &str) {
    put(&format!("{}\n", text.trim_end()));
}

/// Nothing is there to look at yet.
pub(super) fn waiting(folders: &[PathBuf]) {
    for folder in folders {
        line(&format!("{}: no part yet; waiting for one", folder.display()));
    }
}

/// Lines of the terminal.
fn lines() -> usize {
    terminal_size::terminal_size().map_or(LINES, |(_, terminal_size::Height(lines))| usize::from(lines)).max(10)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_does_not_fit_is_counted() {
        let findings: Vec<String> = (0..9).map(|i| format!("finding {i}\n  line\n  line")).collect();
        let page = |lines| page(Path::new("a.yaml"), "DO NOT CUT: 9 errors", &[], &findings, Duration::ZERO, lines);
        let shown = page(Some(20));
        assert!(shown.lines().count() <= 20, "{shown}");
        assert!(shown.contains("… 6 more: turnwright check a.yaml"), "{shown}");
        assert!(!page(None).contains("more:") && !page(None).contains('\u{1b}'));
    }
}
