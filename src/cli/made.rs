//! `--changed`: which sheets of a folder are still those of their parts, told by what is in the files, not by their dates.
//!
//! The folder of the sheets holds a record, `.turnwright.json`: for each sheet a hash of everything it was made from (the part, its shop
//! file, the options, this program) and a hash of the sheet itself. A sheet is left alone when both still hold; one that was edited or
//! is gone is made anew. A record that cannot be read counts for nothing.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use serde_json::{Value, json};
use sha2::{Digest, Sha256};

use super::args::{SheetArgs, SheetFormat};
use super::job::Tally;
use super::json::Texts;
use super::write;
use crate::read;
use crate::sheet::pdf;

/// The record's name.
const RECORD: &str = ".turnwright.json";
const FORMAT: &str = "turnwright/made/1";

/// One sheet of the record.
#[derive(Debug, Clone)]
pub(super) struct Sheet {
    /// Hash of what it was made from.
    from: String,
    /// Hash of what was written.
    made: String,
    /// The shop file that counted.
    pub(super) shop: Option<PathBuf>,
    /// Other files that counted: a logo, templates.
    pub(super) more: Vec<PathBuf>,
    /// What its findings were.
    pub(super) tally: Tally,
}

/// The record of a folder.
#[derive(Debug, Default)]
pub(super) struct Record {
    file: PathBuf,
    options: String,
    known: BTreeMap<String, Sheet>,
    now: BTreeMap<String, Sheet>,
}

impl Record {
    /// Reads the record of a folder.
    pub(super) fn of(folder: &Path, args: &SheetArgs) -> Self {
        let file = folder.join(RECORD);
        let text = std::fs::read(&file).unwrap_or_default();
        let reply: Value = serde_json::from_slice(&text).unwrap_or_default();
        let rows = (reply["format"] == FORMAT).then(|| reply["sheets"].as_object()).flatten();
        let known = rows.into_iter().flatten().filter_map(|(name, row)| Some((name.clone(), sheet(row)?))).collect();
        Self { file, options: options(args), known, now: BTreeMap::new() }
    }

    /// The sheet, if it is still what would be made.
    pub(super) fn unchanged(&self, sheet: &Path, part: &Path) -> Option<Sheet> {
        let known = self.known.get(&key(sheet))?;
        let text = |path: &Path| read::file(&path.to_string_lossy()).ok().map(|bytes| read::decoded(&bytes));
        let shop = known.shop.as_deref().map(|path| text(path).ok_or(())).transpose().ok()?;
        let same = hash(&std::fs::read(sheet).ok()?) == known.made
            && self.from(part, &text(part)?, shop.as_deref(), &known.more) == known.from;
        same.then(|| known.clone())
    }

    /// What a sheet was made from, to be kept with it: the texts as they were read, whatever the files hold by now.
    pub(super) fn sheet(&self, part: &Path, texts: Texts<'_>, more: Vec<PathBuf>, bytes: &[u8], tally: Tally) -> Sheet {
        let from = self.from(part, &texts.part.text, texts.shop.map(|s| s.text.as_str()), &more);
        Sheet { from, made: hash(bytes), shop: texts.shop.map(|s| PathBuf::from(&s.name)), more, tally }
    }

    /// Notes what holds after this run.
    pub(super) fn keep(&mut self, path: &Path, sheet: Sheet) {
        self.now.insert(key(path), sheet);
    }

    /// Writes the record: what this run made or found, and what it did not look at.
    pub(super) fn write(mut self) -> Result<(), String> {
        self.known.append(&mut self.now);
        let rows: serde_json::Map<String, Value> = self.known.iter().map(|(name, s)| (name.clone(), row(s))).collect();
        let text = json!({"format": FORMAT, "sheets": rows});
        write::whole(&self.file, format!("{text:#}\n").as_bytes())
    }

    /// Hash of everything that a sheet follows from.
    fn from(&self, part: &Path, text: &str, shop: Option<&str>, more: &[PathBuf]) -> String {
        let mut digest = Sha256::new();
        let mut add = |piece: &[u8]| {
            digest.update((piece.len() as u64).to_le_bytes());
            digest.update(piece);
        };
        for piece in [self.options.as_str(), &part.to_string_lossy(), text, shop.unwrap_or_default()] {
            add(piece.as_bytes());
        }
        for file in more {
            add(file.to_string_lossy().as_bytes());
            add(&std::fs::read(file).unwrap_or_default());
        }
        hex(&digest.finalize())
    }
}

/// This program and what it was asked.
fn options(args: &SheetArgs) -> String {
    let own = std::env::current_exe().ok();
    let typst = (args.format == Some(SheetFormat::Pdf)).then(|| pdf::program().ok()).flatten();
    let about =
        |file: Option<&Path>| file.and_then(|f| std::fs::metadata(f).ok()).map(|m| (m.len(), m.modified().ok()));
    format!(
        "{} {:?} {:?} {:?} {:?} {:?} {:?} {:?} {:?} {} {}",
        env!("CARGO_PKG_VERSION"),
        about(own.as_deref()),
        about(typst.as_deref()),
        args.format,
        args.shop,
        args.paper,
        args.pages,
        args.language,
        args.templates,
        args.strip,
        args.seconds
    )
}

fn key(sheet: &Path) -> String {
    sheet.file_name().unwrap_or_default().to_string_lossy().into_owned()
}

fn sheet(row: &Value) -> Option<Sheet> {
    let text = |key: &str| row[key].as_str().map(str::to_owned);
    let count = |key: &str| row[key].as_u64().and_then(|n| usize::try_from(n).ok());
    let tally = Tally {
        errors: count("errors")?,
        warnings: count("warnings")?,
        notes: count("notes")?,
        accepted: count("accepted")?,
    };
    let more = row["more"].as_array()?.iter().filter_map(Value::as_str).map(PathBuf::from).collect();
    Some(Sheet { from: text("from")?, made: text("made")?, shop: text("shop").map(PathBuf::from), more, tally })
}

fn row(s: &Sheet) -> Value {
    json!({
        "from": s.from, "made": s.made, "shop": s.shop.as_ref().map(|p| p.to_string_lossy()),
        "more": s.more.iter().map(|p| p.to_string_lossy()).collect::<Vec<_>>(),
        "errors": s.tally.errors, "warnings": s.tally.warnings, "notes": s.tally.notes, "accepted": s.tally.accepted,
    })
}

fn hash(bytes: &[u8]) -> String {
    hex(&Sha256::digest(bytes))
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().fold(String::with_capacity(2 * bytes.len()), |mut out, b| {
        let _ = write!(out, "{b:02x}");
        out
    })
}
