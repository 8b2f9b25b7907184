//! `check --format sarif`: the Static Analysis Results Interchange Format, version 2.1.0 (OASIS, with errata 01), for editors and
//! continuous integration. Lines and columns count from 1, columns in UTF-16 code units (3.14.27 `columnKind`).

use serde_json::{Map, Value, json};

use super::explain::{plain, sections};
use super::job::Job;
use super::json::Texts;
use crate::check::{ALL, Check};
use crate::editor::{Lines, encoded, file_uri};
use crate::finding::{Finding, Place, Severity, Source};

/// A log while it is written: the head, results as they come, the end.
#[derive(Default)]
pub(super) struct Log {
    results: usize,
    unread: Vec<Value>,
}

impl Log {
    /// Everything before the first result.
    pub(super) fn head() -> String {
        let rules: Vec<Value> = ALL.iter().map(|c| rule(c)).collect();
        let tool = json!({"driver": {
            "name": "turnwright",
            "version": env!("CARGO_PKG_VERSION"),
            "semanticVersion": env!("CARGO_PKG_VERSION"),
            "shortDescription": {"text": env!("CARGO_PKG_DESCRIPTION")},
            "rules": rules,
        }});
        format!(
            "{{\n\"$schema\": \"https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json\",\n\
             \"version\": \"2.1.0\",\n\"runs\": [{{\n\"tool\": {tool},\n\"columnKind\": \"utf16CodeUnits\",\n\"results\": ["
        )
    }

    /// The results of one part, as they were worked by [`results`].
    pub(super) fn add(&mut self, results: &[String]) -> String {
        let mut out = String::new();
        for result in results {
            out.push_str(if self.results == 0 { "\n" } else { ",\n" });
            out.push_str(result);
            self.results += 1;
        }
        out
    }

    /// A part that could not be read.
    pub(super) fn unread(&mut self, why: &str) {
        self.unread.push(json!({"level": "error", "message": {"text": why}}));
    }

    /// What closes the log.
    pub(super) fn end(self) -> String {
        let invocation = json!({
            "executionSuccessful": self.unread.is_empty(),
            "toolExecutionNotifications": self.unread,
        });
        format!("\n],\n\"invocations\": [{invocation}]\n}}]\n}}\n")
    }
}

/// The findings of a part as results, one text each.
pub(super) fn results(job: &Job, findings: &[Finding]) -> Vec<String> {
    let texts = job.texts();
    let lines = Places { part: Lines::of(&texts.part.text), shop: texts.shop.map(|s| Lines::of(&s.text)), texts };
    findings.iter().map(|f| result(f, &lines).to_string()).collect()
}

/// A check as a reporting descriptor (3.49).
fn rule(check: &Check) -> Value {
    let sections = sections(check.page);
    let said: Vec<String> = sections.iter().map(|(heading, text)| format!("{heading}: {}", plain(text))).collect();
    let marked: Vec<String> = sections.iter().map(|(heading, text)| format!("### {heading}\n\n{text}")).collect();
    let full = sections.first().map(|(_, text)| plain(text)).unwrap_or_default();
    let short = full.split_inclusive(". ").next().unwrap_or(&full).trim().to_owned();
    json!({
        "id": check.id,
        "shortDescription": {"text": short},
        "fullDescription": {"text": full},
        "help": {"text": said.join("\n"), "markdown": marked.join("\n\n")},
        "defaultConfiguration": {"level": check.severity.word()},
        "properties": {"tags": [check.group], "source": check.source},
    })
}

fn result(f: &Finding, places: &Places<'_>) -> Value {
    let level = match f.severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
        Severity::Note => "note",
    };
    let mut message = f.message.clone();
    for help in &f.help {
        message.push('\n');
        message.push_str(help);
    }
    let mut out = Map::new();
    out.insert("ruleId".to_owned(), json!(f.check));
    if let Some(index) = ALL.iter().position(|c| c.id == f.check) {
        out.insert("ruleIndex".to_owned(), json!(index));
    }
    out.insert("level".to_owned(), json!(level));
    out.insert("message".to_owned(), json!({"text": message}));
    let at = f.place.and_then(|p| places.physical(p));
    out.insert("locations".to_owned(), json!([{"physicalLocation": at.unwrap_or_else(|| places.whole_part())}]));
    let related: Vec<Value> = f
        .others
        .iter()
        .filter_map(|(place, label)| Some((places.physical(*place)?, label)))
        .enumerate()
        .map(|(i, (at, label))| json!({"id": i + 1, "physicalLocation": at, "message": {"text": label}}))
        .collect();
    if !related.is_empty() {
        out.insert("relatedLocations".to_owned(), json!(related));
    }
    if let Some(edit) = &f.edit
        && let (Some(uri), Some(region)) = (places.uri(edit.place), places.region(edit.place))
    {
        let fix = json!([{
            "description": {"text": format!("Write {}", edit.text.trim())},
            "artifactChanges": [{
                "artifactLocation": {"uri": uri},
                "replacements": [{"deletedRegion": region, "insertedContent": {"text": edit.text}}],
            }],
        }]);
        out.insert("fixes".to_owned(), fix);
    }
    if let Some(reason) = &f.accepted {
        let suppressed = json!([{"kind": "inSource", "status": "accepted", "justification": reason}]);
        out.insert("suppressions".to_owned(), suppressed);
    }
    out.insert("properties".to_owned(), json!({"features": f.features, "source": f.source}));
    Value::Object(out)
}

/// The texts with their lines.
struct Places<'a> {
    texts: Texts<'a>,
    part: Lines,
    shop: Option<Lines>,
}

impl Places<'_> {
    fn file(&self, place: Place) -> Option<(&Source, &Lines)> {
        let source = self.texts.of(place.file)?;
        match place.file {
            crate::finding::FileId::Part => Some((source, &self.part)),
            crate::finding::FileId::Shop => Some((source, self.shop.as_ref()?)),
        }
    }

    fn uri(&self, place: Place) -> Option<String> {
        self.file(place).map(|(source, _)| uri(source))
    }

    fn region(&self, place: Place) -> Option<Value> {
        let (source, lines) = self.file(place)?;
        let start = lines.position(&source.text, place.start as usize);
        let end = lines.position(&source.text, place.end as usize);
        Some(json!({
            "startLine": start.line + 1, "startColumn": start.unit + 1,
            "endLine": end.line + 1, "endColumn": end.unit + 1,
        }))
    }

    fn physical(&self, place: Place) -> Option<Value> {
        Some(json!({"artifactLocation": {"uri": self.uri(place)?}, "region": self.region(place)?}))
    }

    /// For a finding without a place.
    fn whole_part(&self) -> Value {
        json!({"artifactLocation": {"uri": uri(self.texts.part)}})
    }
}

/// How a log names a file; standard input has a name of its own.
fn uri(source: &Source) -> String {
    if source.name == "-" { encoded("standard-input.yaml") } else { file_uri(std::path::Path::new(&source.name)) }
}
