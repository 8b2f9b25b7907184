//! `tidy`: a description rewritten in place, whole or not at all.

use std::fmt::Write as _;
use std::path::Path;

use super::args::TidyArgs;
use super::json::Texts;
use super::run::Outcome;
use super::screen::Screen;
use super::write;
use crate::read;

/// Tidies every file; one that does not read is told, left as it is, and does not stop the others.
pub(super) fn run(args: &TidyArgs, screen: Screen) -> Outcome {
    let mut outcome = Outcome::default();
    for path in &args.parts {
        one(path, args, screen, &mut outcome);
    }
    outcome
}

fn one(path: &Path, args: &TidyArgs, screen: Screen, outcome: &mut Outcome) {
    let name = path.to_string_lossy().into_owned();
    let bytes = match read::file(&name) {
        Ok(bytes) => bytes,
        Err(why) => {
            let _ = writeln!(outcome.err, "turnwright: {why}");
            outcome.code = 2;
            return;
        }
    };
    let tidied = match read::tidy(&name, &bytes) {
        Ok(tidied) => tidied,
        Err(read) => {
            for finding in crate::check::slips_alone(&read.slips) {
                outcome.err.push_str(&screen.draw(&finding, Texts { part: &read.source, shop: None }));
                outcome.err.push_str("\n\n");
            }
            let _ = writeln!(outcome.err, "{name}: left as it is: mend these first");
            outcome.code = outcome.code.max(1);
            return;
        }
    };
    if args.print || name == "-" {
        outcome.bytes.extend_from_slice(&tidied);
    } else if tidied == bytes {
        let _ = writeln!(outcome.out, "{name}: tidy already");
    } else if args.check {
        let _ = writeln!(outcome.out, "{name}: would be rewritten");
        outcome.code = outcome.code.max(1);
    } else {
        // A link keeps pointing at the file that is rewritten.
        let real = std::fs::canonicalize(path).unwrap_or_else(|_| path.to_path_buf());
        match write::whole(&real, &tidied) {
            Ok(()) => {
                let _ = writeln!(outcome.out, "{name}: tidied");
            }
            Err(why) => {
                let _ = writeln!(outcome.err, "turnwright: {why}");
                outcome.code = 2;
            }
        }
    }
}
