//! `start`: a description to begin from: a commented example, or one made from answers or a plain table.

use std::fmt::Write as _;

use super::args::{StartArgs, StartUnits};
use super::write;
use crate::finding::Severity;
use crate::read::{self, Answers, BadAnswer, START_INCH, START_MM};
use crate::unit::Unit;

/// Prints the description, or writes it to a file that does not exist yet.
pub(super) fn run(args: &StartArgs) -> Result<String, String> {
    let text = text(args)?;
    match &args.output {
        Some(path) if path.as_os_str() != "-" => {
            write::new_file(path, text.as_bytes())?;
            let path = path.display();
            Ok(format!("wrote {path}; edit it, then: turnwright check {path}\n"))
        }
        _ => Ok(text),
    }
}

fn text(args: &StartArgs) -> Result<String, String> {
    let said = [&args.part, &args.overall, &args.stock, &args.datum, &args.material];
    if args.from.is_none() && said.iter().all(|a| a.is_none()) {
        return Ok(match args.units {
            Some(StartUnits::Mm) => START_MM,
            _ => START_INCH,
        }
        .to_owned());
    }
    let units = match args.units {
        Some(StartUnits::In) => Unit::Inch,
        Some(StartUnits::Mm) => Unit::Millimetre,
        None => return Err("units are never assumed; add --units in or --units mm".to_owned()),
    };
    let answers = Answers {
        part: args.part.clone(),
        units,
        overall: args.overall.clone(),
        stock: args.stock.clone(),
        datum: args.datum.clone(),
        material: args.material.clone(),
    };
    if let Some(path) = &args.from {
        return from_table(&path.to_string_lossy(), &answers);
    }
    let text = read::from_answers(&answers).map_err(|bad| told(&bad))?;
    first_fault(&text).map_or(Ok(text), Err)
}

fn told(bad: &BadAnswer) -> String {
    format!("--{}: {}", bad.of, bad.why)
}

/// A table becomes a description only when every cell of it can be taken.
fn from_table(name: &str, answers: &Answers) -> Result<String, String> {
    let bytes = read::file(name).map_err(|e| e.to_string())?;
    let table = String::from_utf8(bytes).map_err(|_| format!("{name}: not UTF-8; save the table as CSV UTF-8"))?;
    let list = |slips: Vec<(usize, usize, String)>| {
        let mut out = format!(
            "{name}: {} to mend",
            if slips.len() == 1 { "one cell".to_owned() } else { format!("{} cells", slips.len()) }
        );
        for (row, column, why) in slips {
            let _ = write!(out, "\n  row {row}, column {column}: {why}");
        }
        out
    };
    let rows = read::table(&table).map_err(|s| list(s.into_iter().map(|s| (s.row, s.column, s.why)).collect()))?;
    let (text, lines) = read::from_rows(answers, &rows).map_err(|bad| told(&bad))?;
    let read = read::part(name, text.as_bytes());
    let mut bad = Vec::new();
    for finding in crate::check::slips_alone(&read.slips).iter().filter(|f| f.severity == Severity::Error) {
        let Some(place) = finding.place else { continue };
        let line = read.source.line_column(place.start).0;
        let help = finding.help.first().map_or(String::new(), |h| format!("; {h}"));
        let Some(i) = lines.iter().rposition(|l| *l <= line) else {
            return Err(format!("{}{help}", finding.message));
        };
        // The first line of a feature holds its kind and size, each further line one cell.
        let within = line - lines[i];
        let column = rows[i].columns.get(if within == 0 { 1 } else { within + 1 }).copied().unwrap_or(1);
        bad.push((rows[i].number, column, format!("{}{help}", finding.message)));
    }
    if bad.is_empty() { Ok(text) } else { Err(list(bad)) }
}

/// What reading the finished text would not take, in one sentence.
fn first_fault(text: &str) -> Option<String> {
    let read = read::part("answers", text.as_bytes());
    let findings = crate::check::slips_alone(&read.slips);
    findings.first().map(|f| f.help.iter().fold(f.message.clone(), |all, help| format!("{all}; {help}")))
}
