//! JSON replies: field names of the design, numbers in the description's unit.

use serde_json::{Map, Value, json};

use crate::chain::{Chain, Remedies, Schemes};
use crate::figures::OnScale;
use crate::finding::{Compared, FileId, Finding, Source};
use crate::unit::{Length, Limits, Unit, show};

/// A length as a JSON number, exact to 1e-7 in or 1e-6 mm.
pub(super) fn number(value: Length, unit: Unit) -> Value {
    let decimals = if unit == Unit::Inch { 7 } else { 6 };
    let text = show::plain(value, unit, decimals);
    text.parse::<f64>().map_or(Value::Null, |n| json!(n))
}

/// `{min, max}`.
pub(super) fn limits(band: Option<Limits>, unit: Unit) -> Value {
    band.map_or(Value::Null, |l| json!({"min": number(l.min, unit), "max": number(l.max, unit)}))
}

/// `{units, size, min, max}` on an instrument in the other unit; null where it reads in the part's.
pub(super) fn on_scale(read: Option<OnScale>) -> Value {
    read.map_or(Value::Null, |r| {
        json!({
            "units": r.unit.word(),
            "size": r.size.map(|s| number(s.value, r.unit)),
            "min": r.limits.map(|l| number(l.min.value, r.unit)),
            "max": r.limits.map(|l| number(l.max.value, r.unit)),
        })
    })
}

/// The texts a finding's place may lie in.
#[derive(Clone, Copy)]
pub(super) struct Texts<'a> {
    /// The description.
    pub(super) part: &'a Source,
    /// The shop file.
    pub(super) shop: Option<&'a Source>,
}

impl<'a> Texts<'a> {
    /// The text of a file.
    pub(super) fn of(self, file: FileId) -> Option<&'a Source> {
        match file {
            FileId::Part => Some(self.part),
            FileId::Shop => self.shop,
        }
    }
}

/// One finding.
pub(super) fn finding(f: &Finding, texts: Texts<'_>, unit: Unit) -> Value {
    let compared: Map<String, Value> = f
        .compared
        .iter()
        .map(|(name, value)| {
            let value = match value {
                Compared::Length(l) => number(*l, unit),
                Compared::Number(n) => json!(n),
                Compared::Text(t) => json!(t),
            };
            ((*name).to_owned(), value)
        })
        .collect();
    let at = f.place.and_then(|p| texts.of(p.file).map(|s| (s, s.line_column(p.start), s.line_column(p.end))));
    let mut out = json!({
        "check": f.check,
        "severity": f.severity.word(),
        "message": f.message,
        "features": f.features,
        "compared": compared,
        "help": f.help,
        "source": f.source,
        "assumed": f.assumed,
        "file": at.map(|(s, _, _)| s.name.clone()),
        "line": at.map(|(_, start, _)| start.0),
        "column": at.map(|(_, start, _)| start.1),
        "end_line": at.map(|(_, _, end)| end.0),
        "end_column": at.map(|(_, _, end)| end.1),
        "accepted": f.accepted,
    });
    if let Some(edit) = &f.edit
        && let Some(source) = texts.of(edit.place.file)
    {
        let (start, end) = (source.line_column(edit.place.start), source.line_column(edit.place.end));
        out["fix"] = json!({
            "file": source.name, "text": edit.text,
            "line": start.0, "column": start.1, "end_line": end.0, "end_column": end.1,
        });
    }
    if !f.others.is_empty() {
        let labels = f.others.iter().filter_map(|(place, label)| {
            let source = texts.of(place.file)?;
            let (start, end) = (source.line_column(place.start), source.line_column(place.end));
            Some(json!({
                "file": source.name, "label": label,
                "line": start.0, "column": start.1, "end_line": end.0, "end_column": end.1,
            }))
        });
        out["labels"] = json!(labels.collect::<Vec<_>>());
    }
    if !f.chain_loop.is_empty() {
        let lines: Vec<Value> = f
            .chain_loop
            .iter()
            .filter_map(|p| texts.of(p.file).map(|s| s.line_column(p.start)))
            .map(|(line, column)| json!({"line": line, "column": column}))
            .collect();
        out["loop"] = json!(lines);
    }
    out
}

/// `faces`.
pub(super) fn faces(chain: &Chain, unit: Unit) -> Value {
    let guaranteed = chain.guaranteed_from_datum();
    let rows = chain.graph.faces.iter().enumerate().filter_map(|(i, face)| {
        let at = chain.at[i]?;
        let limits = guaranteed.get(i).copied().flatten();
        Some(json!({
            "face": face.name,
            "at": number(at.0, unit),
            "plus": limits.map(|l| number(l.max - at.0, unit)),
            "minus": limits.map(|l| number(at.0 - l.min, unit)),
        }))
    });
    Value::Array(rows.collect())
}

/// `distances`.
pub(super) fn distances(chain: &Chain, unit: Unit) -> Value {
    let rows = chain.distances.iter().map(|(_, d)| {
        let place = |node: usize| chain.at[node].map(|s| number(s.0, unit));
        let faces = &chain.graph.faces;
        let path: Vec<Value> = d
            .path
            .iter()
            .map(|i| {
                let link = &chain.graph.links[*i];
                json!({
                    "from": place(link.from), "to": place(link.to),
                    "from_face": faces[link.from].name, "to_face": faces[link.to].name,
                    "nominal": number(link.nominal, unit), "limits": limits(Some(link.limits), unit),
                    "share": number(link.limits.band().half(), unit),
                })
            })
            .collect();
        json!({
            "from": place(d.from),
            "to": place(d.to),
            "from_face": faces[d.from].name,
            "to_face": faces[d.to].name,
            "nominal": number(d.nominal, unit),
            "stated": limits(d.stated, unit),
            "implied": limits(d.implied, unit),
            "worst_case": limits(d.worst_case, unit),
            "rss": limits(d.rss, unit),
            "guaranteed": d.is_guaranteed(),
            "path": path,
            "remedies": d.remedies(chain).map(|r| remedies(chain, &r, unit)),
        })
    });
    Value::Array(rows.collect())
}

/// What would make a distance hold.
fn remedies(chain: &Chain, r: &Remedies, unit: Unit) -> Value {
    let link = |i: &usize| {
        let link = &chain.graph.links[*i];
        let faces = &chain.graph.faces;
        json!({"from_face": faces[link.from].name, "to_face": faces[link.to].name, "nominal": number(link.nominal, unit)})
    };
    json!({
        "shift": r.shift.map(|s| number(s, unit)),
        "each": {"plus_minus": number(r.each, unit)},
        "fewest": r.fewest.as_ref().map(|(links, half)| {
            json!({"lengths": links.iter().map(link).collect::<Vec<_>>(), "plus_minus": number(*half, unit)})
        }),
    })
}

/// A pair of faces under three ways of dimensioning.
pub(super) fn schemes(chain: &Chain, s: &Schemes, unit: Unit) -> Value {
    let place = |node: usize| chain.at[node].map(|at| number(at.0, unit));
    let half = |l: Length| json!({"plus_minus": number(l, unit)});
    json!({
        "from": place(s.from), "to": place(s.to),
        "from_face": chain.graph.faces[s.from].name, "to_face": chain.graph.faces[s.to].name,
        "nominal": number(s.nominal, unit),
        "stated": limits(s.stated, unit),
        "as_dimensioned": s.as_dimensioned.map(half),
        "baseline": half(s.baseline),
        "chain": {"plus_minus": number(s.chain.1, unit), "lengths": s.chain.0},
        "direct": half(s.direct),
    })
}

/// One reply for one part, an array for several; two-space indents and a line end.
pub(super) fn reply(mut replies: Vec<Value>) -> String {
    let whole = if replies.len() == 1 { replies.remove(0) } else { Value::Array(replies) };
    let mut text = serde_json::to_string_pretty(&whole).unwrap_or_else(|e| format!("{{\"error\": \"{e}\"}}"));
    text.push('\n');
    text
}
