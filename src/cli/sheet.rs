//! `sheet`: the paper you cut metal by.

use std::fmt::{self, Write as _};
use std::io::Write as _;
use std::path::{Path, PathBuf};

use super::args::{Pages, Paper, SheetArgs, SheetFormat, SheetLanguage};
use super::batch::{self, Parts};
use super::job::Tally;
use super::made::{self, Record};
use super::measure::{self, Form};
use super::plan::{self, Tried};
use super::run::Outcome;
use super::screen::Screen;
use super::summary::Summary;
use super::{check, depfile, write};
use crate::language::{self, Language};
use crate::read::Shops;
use crate::sheet::build::{self, Sources};
use crate::sheet::templates::Templates;
use crate::sheet::{html, markdown, pdf, typst, view};

/// Makes the sheet of every part; one bad part does not stop the others.
pub(super) fn run(args: &SheetArgs, screen: Screen) -> Outcome {
    let parts = Parts::of(&args.parts);
    if args.output.is_some() && parts.paths.len() > 1 {
        return Outcome::could_not("several parts cannot go into one file: use --out-dir");
    }
    if let Err(why) = two_in_one(args, &parts.paths) {
        return Outcome::could_not(&why);
    }
    if let Some(folder) = &args.out_dir
        && let Err(e) = std::fs::create_dir_all(folder)
    {
        return Outcome::could_not(&format!("cannot make the folder {}: {e}", folder.display()));
    }
    let mut outcome = Outcome { code: if batch::tell(&parts) { 2 } else { 0 }, ..Outcome::default() };
    let mut rules = String::new();
    let mut summary = Summary::default();
    let shops = Shops::of(args.shop.clone());
    let record = args.out_dir.as_ref().filter(|_| args.changed).map(|folder| Record::of(folder, args));
    let mut kept = Vec::new();
    let work = |path: &Path| {
        let known = record.as_ref().and_then(|r| left_alone(args, path, r));
        known.map_or_else(|| one(args, path, &shops, record.as_ref(), screen), Ok)
    };
    parts.each("making sheets", work, |path, result| {
        let mut err = std::io::stderr().lock();
        match result {
            Ok(made) => {
                outcome.bytes.extend(made.bytes);
                outcome.code = outcome.code.max(made.code);
                rules.push_str(&made.rule);
                summary.part(path, made.tally);
                summary.left_alone(made.left_alone);
                kept.extend(made.kept);
                let _ = err.write_all(made.err.as_bytes());
            }
            Err(no) => {
                let _ = writeln!(err, "turnwright: {no}");
                outcome.code = 2;
                match no {
                    NoSheet::Unread(_) => summary.unread(path),
                    NoSheet::Unmade(_) => summary.unmade(path),
                }
            }
        }
        true
    });
    if parts.many && args.output.is_none() {
        let _ = std::io::stderr().lock().write_all(summary.text().as_bytes());
    }
    if let Some(mut record) = record {
        for (path, sheet) in kept {
            record.keep(&path, sheet);
        }
        if let Err(why) = record.write() {
            let _ = writeln!(outcome.err, "turnwright: {why}");
            outcome.code = 2;
        }
    }
    if let Some(file) = &args.depfile
        && let Err(why) = batch::refuse_description(file).and_then(|()| write::whole(file, rules.as_bytes()))
    {
        let _ = writeln!(outcome.err, "turnwright: {why}");
        outcome.code = 2;
    }
    outcome
}

/// A sheet that is still what would be made.
fn left_alone(args: &SheetArgs, part: &Path, record: &Record) -> Option<Made> {
    let path = target(args, part).ok()?.path?;
    let known = record.unchanged(&path, part)?;
    let rule = rule(args, &path, part, known.shop.as_deref(), &known.more).ok()?;
    let (tally, code) = (known.tally, known.tally.code(args.strict));
    let made = Made { rule, tally, code, left_alone: true, kept: Some((path, known)), ..Made::default() };
    Some(made)
}

/// The sheet's rule for make and ninja, where one is asked for.
fn rule(args: &SheetArgs, sheet: &Path, part: &Path, shop: Option<&Path>, more: &[PathBuf]) -> Result<String, String> {
    if args.depfile.is_none() { Ok(String::new()) } else { depfile::rule(sheet, part, shop, more) }
}

/// Two parts of one name in two folders must not overwrite each other's sheet.
fn two_in_one(args: &SheetArgs, parts: &[PathBuf]) -> Result<(), String> {
    let mut taken = std::collections::BTreeMap::new();
    for part in parts {
        let Ok(Target { path: Some(path), .. }) = target(args, part) else { continue };
        // Some systems take a.html and A.html for one file.
        let name = path.to_string_lossy();
        let name = if cfg!(any(windows, target_os = "macos")) { name.to_lowercase() } else { name.into_owned() };
        if let Some(other) = taken.insert(name, part) {
            let (one, other) = (part.display(), other.display());
            return Err(format!("{other} and {one} would both be written to {}", path.display()));
        }
    }
    Ok(())
}

impl Made {
    /// What was made, how long ago its part was saved.
    pub(super) fn words(&self, took: std::time::Duration) -> String {
        format!("{} ({} ms)", self.err.trim_end(), took.as_millis())
    }
}

/// What making one sheet came to.
#[derive(Default)]
pub(super) struct Made {
    bytes: Vec<u8>,
    err: String,
    rule: String,
    tally: Tally,
    code: u8,
    /// The sheet that is there already is the one.
    left_alone: bool,
    /// For the record of the folder.
    kept: Option<(PathBuf, made::Sheet)>,
}

/// Why there is no sheet, in a sentence.
pub(super) enum NoSheet {
    /// The description, or its shop file, cannot be read.
    Unread(String),
    /// It was read; the sheet cannot be made or written.
    Unmade(String),
}

impl From<String> for NoSheet {
    fn from(why: String) -> Self {
        Self::Unmade(why)
    }
}

impl fmt::Display for NoSheet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (Self::Unread(why) | Self::Unmade(why)) = self;
        f.write_str(why)
    }
}

/// Makes the sheet of one part.
pub(super) fn one(
    args: &SheetArgs,
    path: &Path,
    shops: &Shops,
    record: Option<&Record>,
    screen: Screen,
) -> Result<Made, NoSheet> {
    let target = target(args, path)?;
    if args.measure {
        return Ok(measured(args, path, shops, &target, screen)?);
    }
    let (Tried { job, findings, mut planned }, language) =
        plan::one_in(path, shops, args.seconds, language(args)).map_err(NoSheet::Unread)?;
    if let Some(planned) = &mut planned {
        planned.look_for_others();
    }
    let tally = Tally::of(&findings);
    let (Some(planned), Some(part), Some(located)) = (planned, job.to_cut(), &job.located) else {
        let err = plan::why_not(&job, &findings, tally, screen);
        return Ok(Made { err, tally, code: 1, ..Made::default() });
    };
    let paper = paper(args);
    let sources = Sources {
        part,
        chain: planned.chain(located),
        plan: &planned.plan,
        figures: &planned.figures,
        findings: &findings,
        shop: job.shop(),
    };
    let pages =
        build::Pages { compact: args.pages == Pages::Compact, cards: args.pages == Pages::Cards, strip: args.strip };

    let templates = args.templates.as_deref().map(Templates::of).transpose().map_err(|e| e.to_string())?;
    let templates = templates.unwrap_or_default();
    let bytes = language::speaking(language, || {
        let view = build::view_of(&sources, paper, pages);
        make(target.format, &view, &templates)
    })?;
    let err = plan::errors(&job, &findings, screen);
    let mut made = Made { err, tally, code: tally.code(args.strict), ..Made::default() };
    match &target.path {
        Some(file) => {
            write::whole(file, &bytes)?;
            let (shop, more) = (job.texts().shop.map(|s| Path::new(s.name.as_str())), depfile::more(&job, &templates));
            made.rule = rule(args, file, path, shop, &more)?;
            made.kept = record.map(|r| (file.clone(), r.sheet(path, job.texts(), more, &bytes, tally)));
            let _ = writeln!(made.err, "{}: {}", file.display(), check::verdict(tally));
        }
        None => made.bytes = bytes,
    }
    Ok(made)
}

/// Makes the form for measuring a sample.
fn measured(args: &SheetArgs, path: &Path, shops: &Shops, target: &Target, screen: Screen) -> Result<Made, String> {
    let templates = args.templates.as_deref().map(Templates::of).transpose().map_err(|e| e.to_string())?;
    let how = (target.format, paper(args));
    let bytes = match measure::form(path, shops, how, language(args), args.seconds, screen)? {
        Form::No(err) => return Ok(Made { err, code: 1, ..Made::default() }),
        Form::Text(text) => text.into_bytes(),
        Form::Pages(view, language) => {
            language::speaking(language, || make(target.format, &view, &templates.unwrap_or_default()))?
        }
    };
    let mut made = Made::default();
    match &target.path {
        Some(file) if target.format == SheetFormat::Yaml => write::new_file(file, &bytes)?,
        Some(file) => write::whole(file, &bytes)?,
        None => made.bytes = bytes,
    }
    if let Some(file) = &target.path {
        let _ = writeln!(made.err, "{}: the form for measuring a sample", file.display());
    }
    Ok(made)
}

fn paper(args: &SheetArgs) -> view::Paper {
    match args.paper {
        Paper::Letter => view::Paper::LETTER,
        Paper::A4 => view::Paper::A4,
    }
}

fn language(args: &SheetArgs) -> Option<Language> {
    args.language.map(|l| match l {
        SheetLanguage::En => Language::English,
        SheetLanguage::De => Language::German,
    })
}

/// One kind of output.
fn make(format: SheetFormat, view: &view::View, with: &Templates) -> Result<Vec<u8>, String> {
    Ok(match format {
        SheetFormat::Html => html::html_with(view, with).map_err(|e| e.to_string())?.into_bytes(),
        SheetFormat::Typ => typst::typst_with(view, with).into_bytes(),
        SheetFormat::Md => markdown::markdown_with(view, with).map_err(|e| e.to_string())?.into_bytes(),
        SheetFormat::Pdf => pdf::pdf_of(view, with).map_err(|e| e.to_string())?,
        SheetFormat::Svg => drawing(view).ok_or("this part has no drawing")?.into_bytes(),
        SheetFormat::Yaml => return Err("yaml is the form for measuring a sample: add --measure".to_owned()),
    })
}

/// The drawing of the part, as it stands on the cover.
fn drawing(view: &view::View) -> Option<String> {
    view.pages.iter().flat_map(|p| &p.blocks).find_map(|b| match &b.body {
        view::Body::Picture { svg, .. } => Some(svg.clone()),
        _ => None,
    })
}

/// Where a sheet goes, and what it is.
struct Target {
    path: Option<PathBuf>,
    format: SheetFormat,
}

fn target(args: &SheetArgs, part: &Path) -> Result<Target, String> {
    let wanted = args.format.unwrap_or(SheetFormat::Html);
    if let Some(out) = &args.output {
        if out.as_os_str() == "-" {
            return Ok(Target { path: None, format: wanted });
        }
        let format = match ending(out).as_deref() {
            Some("html" | "htm") => SheetFormat::Html,
            Some("pdf") => SheetFormat::Pdf,
            Some("typ") => SheetFormat::Typ,
            Some("md") => SheetFormat::Md,
            Some("svg") => SheetFormat::Svg,
            Some("yaml" | "yml") if args.measure => SheetFormat::Yaml,
            _ if args.format.is_some() => wanted,
            _ => {
                let name = out.display();
                return Err(format!(
                    "{name}: the ending says what is made: .html, .pdf, .typ, .md or .svg (or say --format)"
                ));
            }
        };
        refuse_description(out, part)?;
        return Ok(Target { path: Some(out.clone()), format });
    }
    let stem = if part.as_os_str() == "-" { "sheet".into() } else { part.file_stem().unwrap_or_default().to_owned() };
    let mut name = PathBuf::from(stem);
    if args.measure && wanted != SheetFormat::Yaml {
        name.as_mut_os_string().push("-sample");
    }
    name.as_mut_os_string().push(match wanted {
        SheetFormat::Html => ".html",
        SheetFormat::Pdf => ".pdf",
        SheetFormat::Typ => ".typ",
        SheetFormat::Md => ".md",
        SheetFormat::Svg => ".svg",
        SheetFormat::Yaml => "-sample.yaml",
    });
    let path = args.out_dir.as_ref().map_or(name.clone(), |folder| folder.join(name));
    refuse_description(&path, part)?;
    Ok(Target { path: Some(path), format: wanted })
}

fn ending(path: &Path) -> Option<String> {
    path.extension().map(|e| e.to_string_lossy().to_ascii_lowercase())
}

/// A sheet never overwrites a description, be it its own or another, nor a shop file.
fn refuse_description(out: &Path, part: &Path) -> Result<(), String> {
    let same = std::fs::canonicalize(out).ok().zip(std::fs::canonicalize(part).ok()).is_some_and(|(a, b)| a == b);
    if same {
        return Err(format!("{} is the description itself: choose another name", out.display()));
    }
    batch::refuse_description(out)
}
