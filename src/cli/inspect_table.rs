//! The inspection record as a table for a spreadsheet: one row a size, part, revision and hash in each.

use super::job::Job;
use crate::figures::{Decision, Inspection};
use crate::unit::{Length, show};

/// Heads of the columns.
const HEADS: [&str; 18] = [
    "part",
    "drawing",
    "revision",
    "description",
    "feature",
    "size",
    "unit",
    "lower limit",
    "upper limit",
    "reading",
    "uncertainty (k=2)",
    "uncertainty from",
    "instrument",
    "rule",
    "verdict",
    "decision",
    "probability of conformity",
    "action",
];

/// Comma-separated, UTF-8, as RFC 4180 has it.
pub(super) fn csv(job: &Job, inspection: &Inspection) -> Result<Vec<u8>, String> {
    let unit = job.unit();
    let part = job.part();
    let number = |l: Length| {
        let least = show::usual_decimals(unit);
        show::plain(l, unit, show::decimals_needed(l, unit, least, least + 3))
    };
    let text = |t: Option<&crate::model::Text>| t.map(|t| safe(&t.text)).unwrap_or_default();
    let bad = |e: csv::Error| e.to_string();
    let mut out = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    out.write_record(HEADS).map_err(bad)?;
    for (r, name) in inspection.rows.iter().zip(inspection.names()) {
        let limits = r.row.limits.exact;
        out.write_record([
            text(part.map(|p| &p.name)),
            text(part.and_then(|p| p.drawing.as_ref())),
            text(part.and_then(|p| p.revision.as_ref())),
            part.map(|p| p.hash.clone()).unwrap_or_default(),
            safe(&r.row.letters),
            safe(&name),
            unit.word().to_owned(),
            number(limits.min),
            number(limits.max),
            r.measured.map(number).unwrap_or_default(),
            r.sure.map(|s| number(s.uncertainty)).unwrap_or_default(),
            r.sure.map(|s| s.from.word().to_owned()).unwrap_or_default(),
            r.row.with.clone(),
            inspection.rule.word().to_owned(),
            r.verdict.word().to_owned(),
            r.decision.map(|d| Decision::word(d).to_owned()).unwrap_or_default(),
            r.probability.map(|p| format!("{p:.4}")).unwrap_or_default(),
            [&r.action, &r.otherwise, &r.note]
                .into_iter()
                .filter(|t| !t.is_empty())
                .cloned()
                .collect::<Vec<_>>()
                .join("; "),
        ])
        .map_err(bad)?;
    }
    out.into_inner().map_err(|e| e.to_string())
}

/// A text that a spreadsheet would take for a formula gets a quote before it.
fn safe(text: &str) -> String {
    if text.starts_with(['=', '+', '-', '@', '\t', '\r']) { format!("'{text}") } else { text.to_owned() }
}
