//! From arguments to an exit code.

use std::io::{IsTerminal, Write};

use super::args::{Args, Command};
use super::screen::Screen;
use super::{chart, check, diff, explain, handbook, identify, inspect, plan, sheet, shell, start, tidy, watch};

/// What a command came to.
#[derive(Debug, Default)]
pub(super) struct Outcome {
    /// For standard output.
    pub(super) out: String,
    /// For standard output when it is no text (a PDF on `-`).
    pub(super) bytes: Vec<u8>,
    /// For standard error.
    pub(super) err: String,
    /// 0 fine, 1 findings of error severity, 2 could not run.
    pub(super) code: u8,
}

impl Outcome {
    /// A result and nothing to complain of.
    pub(super) fn fine(out: String) -> Self {
        Self { out, ..Self::default() }
    }

    /// The command could not run.
    pub(super) fn could_not(why: &str) -> Self {
        Self { err: format!("turnwright: {why}\n"), code: 2, ..Self::default() }
    }
}

/// Runs a command and writes its results; the exit code is 0, 1 or 2.
pub fn run(args: &Args) -> u8 {
    let screen = Screen { styled: std::io::stdout().is_terminal() && no_color_is_unset(), width: width() };
    let outcome = match &args.command {
        Command::Check(a) => check::run(a, screen),
        Command::Handbook(a) => handbook::run(a).map_or_else(|e| Outcome::could_not(&e), Outcome::fine),
        Command::Plan(a) => plan::run(a, screen),
        Command::Marks(a) => plan::marks(a, screen),
        Command::Sheet(a) => sheet::run(a, screen),
        Command::Diff(a) => diff::run(a),
        Command::Identify(a) => identify::run(a, screen),
        Command::Inspect(a) => inspect::run(a, screen),
        Command::Chart(a) => chart::run(a, screen),
        Command::Explain(a) => explain::run(a).map_or_else(|e| Outcome::could_not(&e), Outcome::fine),
        Command::Watch(a) => watch::run(a, screen),
        Command::Schema(a) => Outcome::fine(shell::schema_of(a)),
        Command::LanguageServer => serve(),
        Command::Completions(a) => Outcome::fine(shell::completions(a)),
        Command::Man(a) => shell::man(a).map_or_else(|e| Outcome::could_not(&e), Outcome::fine),
        Command::Start(a) => start::run(a).map_or_else(|e| Outcome::could_not(&e), Outcome::fine),
        Command::Tidy(a) => tidy::run(a, screen),
    };
    let mut code = outcome.code;
    let mut stdout = std::io::stdout().lock();
    let written = stdout
        .write_all(outcome.out.as_bytes())
        .and_then(|()| stdout.write_all(&outcome.bytes))
        .and_then(|()| stdout.flush());
    if let Err(why) = written {
        code = code.max(2);
        tell_unwritten(&why);
    }
    let _ = std::io::stderr().lock().write_all(outcome.err.as_bytes());
    code
}

/// Says that a result did not arrive; a reader that went away (`| head`) wants to hear nothing more.
pub(super) fn tell_unwritten(why: &std::io::Error) {
    if why.kind() != std::io::ErrorKind::BrokenPipe {
        let _ = writeln!(std::io::stderr().lock(), "turnwright: cannot write to standard output: {why}");
    }
}

/// Talks to an editor until it says goodbye.
fn serve() -> Outcome {
    match crate::editor::serve() {
        Ok(code) => Outcome { code, ..Outcome::default() },
        Err(e) => Outcome::could_not(&format!("the editor does not listen any more: {e}")),
    }
}

/// The usual wish of a terminal without colours (no-color.org).
fn no_color_is_unset() -> bool {
    std::env::var_os("NO_COLOR").is_none_or(|v| v.is_empty())
}

/// Columns of the screen: what `COLUMNS` says, else the terminal's own, else 100 for a file.
fn width() -> usize {
    let said = std::env::var("COLUMNS").ok().and_then(|c| c.parse().ok());
    let own = || terminal_size::terminal_size().map(|(width, _)| usize::from(width.0));
    said.or_else(own).filter(|c| (40..=400).contains(c)).unwrap_or(100)
}
