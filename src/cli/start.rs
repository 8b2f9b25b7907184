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
    if let Some(path) = &args.from_sample {
        return from_sample(&path.to_string_lossy());
    }
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

/// A filled form becomes a description when every row of it can be taken.
fn from_sample(name: &str) -> Result<String, String> {
    let bytes = read::file(name).map_err(|e| e.to_string())?;
    let sample = read::sample::sample(name, &bytes);
    let mut bad: Vec<(usize, String)> = Vec::new();
    let line = |place: crate::finding::Place| sample.source.line_column(place.start).0;
    for finding in crate::check::slips_alone(&sample.slips).iter().filter(|f| f.severity == Severity::Error) {
        bad.push((finding.place.map_or(1, line), finding.message.clone()));
    }
    bad.extend(sample.faults.iter().map(|(place, why)| (line(*place), why.clone())));
    if sample.form.is_some() && !sample.is_form {
        return Err(format!(
            "{name}: this is a description, not a form: `turnwright sheet {name} --measure -o form.yaml` writes the form of it"
        ));
    }
    let made = sample.form.as_ref().map(read::sample::from_sample).unwrap_or_default();
    bad.extend(made.faults.iter().map(|(place, why)| (place.map_or(1, line), why.clone())));
    let read = read::part(name, made.text.as_bytes());
    if bad.is_empty() {
        for finding in crate::check::slips_alone(&read.slips).iter().filter(|f| f.severity == Severity::Error) {
            let at = finding.place.map_or(1, |p| read.source.line_column(p.start).0);
            let row = made.lines.iter().rev().find(|(made, _)| *made <= at).map_or(1, |(_, place)| line(*place));
            let help = finding.help.first().map_or(String::new(), |h| format!("; {h}"));
            bad.push((row, format!("{}{help}", finding.message)));
        }
    }
    bad.sort();
    bad.dedup();
    if bad.is_empty() {
        return Ok(made.text);
    }
    let mut out = format!(
        "{name}: {} to mend",
        if bad.len() == 1 { "one row".to_owned() } else { format!("{} rows", bad.len()) }
    );
    for (line, why) in bad {
        let _ = write!(out, "\n  line {line}: {why}");
    }
    Err(out)
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
