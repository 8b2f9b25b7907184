//! Runs the cases in the pages of the checks, `src/check/**/*.md`: each YAML fence under `## Cases` is a test of its own.
//!
//! A fence says `fires: …` or `silent: …`; with `planned` before the colon it is judged with a plan. Its keys replace those of a small base part; a list alone is put behind the base part's
//! features; `# without: key` leaves a key of the base part out. What follows a line `--- # shop` is the shop file. In a `fires` case comments such as `# error: relief-width` say what
//! must be found: at the end of a line on that line, on a line of their own anywhere. No other finding of the page's check may
//! appear. A `silent` case must have no finding of the page's check, and no error of any.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use libtest_mimic::{Arguments, Failed, Trial};
use pulldown_cmark::{CodeBlockKind, Event, Parser, Tag, TagEnd};
use turnwright::chain::{self, Profile};
use turnwright::check::{self, Facts};
use turnwright::finding::{FileId, Finding, Source};
use turnwright::plan;
use turnwright::read;

/// The base part: every key that a case does not give.
const BASE: [(&str, &str); 8] = [
    ("part", "part: case\n"),
    ("units", "units: in\n"),
    ("material", "material: 1045 cold drawn\n"),
    ("stock", "stock: 1.375 x 4.125\n"),
    ("datum", "datum: left end\n"),
    ("overall", "overall: 4.000 ±0.010\n"),
    ("tolerances", "tolerances: {lengths: ±0.005, diameters: ±0.002}\n"),
    ("features", "features:\n- turn: 1.000\n  to: 1.000\n- turn: 1.250\n  to: 3.250\n- turn: 1.000\n  to: 4.000\n"),
];

/// Groups whose cases are about what cannot be read.
const READING: [&str; 1] = ["description"];

/// Checks of plans that no description leads to: `tests/changed_plans.rs` changes a plan by hand and sees them fire.
const JUDGED_BY_HAND: [&str; 3] = ["grip-on-finished", "no-zero", "thread-two-setups"];

fn main() {
    let args = Arguments::from_args();
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/check");
    let mut pages = Vec::new();
    walk(&root, &mut pages);
    pages.sort();
    let mut trials: Vec<Trial> = Vec::new();
    for page in pages {
        let text = std::fs::read_to_string(&page).unwrap_or_else(|e| panic!("{}: {e}", page.display()));
        let group = page.parent().and_then(Path::file_name).map_or(String::new(), |f| f.to_string_lossy().into_owned());
        let cases = cases(&text, &group);
        let (fires, silent) = (cases.iter().filter(|c| c.fires).count(), cases.iter().filter(|c| !c.fires).count());
        let id = id(&text);
        let name = format!("{group}/{id}: at least two cases that fire and two that do not");
        trials.push(Trial::test(name, move || {
            let judges_plans = JUDGED_BY_HAND.contains(&id.as_str());
            if (fires >= 2 || judges_plans) && silent >= 2 {
                Ok(())
            } else {
                Err(format!("{fires} fire, {silent} are silent").into())
            }
        }));
        trials.extend(cases.into_iter().map(|case| Trial::test(case.name(), move || case.run())));
    }
    libtest_mimic::run(&args, trials).exit();
}

fn walk(folder: &Path, pages: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
        let path = entry.path();
        if path.is_dir() {
            walk(&path, pages);
        } else if path.extension().is_some_and(|e| e == "md") {
            pages.push(path);
        }
    }
}

/// One fence.
struct Case {
    group: String,
    id: String,
    fires: bool,
    planned: bool,
    title: String,
    text: String,
}

/// A finding the case asks for.
#[derive(Debug)]
struct Expected {
    severity: String,
    id: String,
    file: FileId,
    /// Line it must stand on; none for a comment on a line of its own.
    line: Option<usize>,
}

fn id(page: &str) -> String {
    page.lines().next().unwrap_or("").trim_start_matches('#').trim().to_owned()
}

fn cases(page: &str, group: &str) -> Vec<Case> {
    let (mut found, mut in_cases, mut in_heading, mut fence) = (Vec::new(), false, false, None::<(String, String)>);
    for event in Parser::new(page) {
        match event {
            Event::Start(Tag::Heading { .. }) => in_heading = true,
            Event::End(TagEnd::Heading(_)) => in_heading = false,
            Event::Text(text) if in_heading => in_cases = &*text == "Cases",
            Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(info))) if in_cases => {
                fence = Some((info.to_string(), String::new()));
            }
            Event::Text(text) => {
                if let Some((_, body)) = &mut fence {
                    body.push_str(&text);
                }
            }
            Event::End(TagEnd::CodeBlock) => {
                if let Some((info, text)) = fence.take() {
                    found.push(case(page, group, &info, text));
                }
            }
            _ => {}
        }
    }
    found
}

fn case(page: &str, group: &str, info: &str, text: String) -> Case {
    let said = info.strip_prefix("yaml ").unwrap_or(info);
    let (fires, planned, title) = match said.split_once(':') {
        Some(("fires", title)) => (true, false, title),
        Some(("fires planned", title)) => (true, true, title),
        Some(("silent", title)) => (false, false, title),
        Some(("silent planned", title)) => (false, true, title),
        _ => panic!("{}: a case must say `yaml fires: …` or `yaml silent: …`, not `{info}`", id(page)),
    };
    Case { group: group.to_owned(), id: id(page), fires, planned, title: title.trim().to_owned(), text }
}

impl Case {
    fn name(&self) -> String {
        let word = if self.fires { "fires" } else { "silent" };
        format!("{}/{} {word}: {}", self.group, self.id, self.title)
    }

    fn run(&self) -> Result<(), Failed> {
        let (part, shop) = match self.text.split_once("--- # shop\n") {
            Some((part, shop)) => (part, Some(shop)),
            None => (self.text.as_str(), None),
        };
        let text = over_base(part);
        let read = read::part("case.yaml", text.as_bytes());
        let shop_read = shop.map(|s| read::shop("shop.yaml", s.as_bytes()));
        let mut slips = read.slips.clone();
        slips.extend(shop_read.iter().flat_map(|s| s.slips.clone()));
        if !slips.is_empty() && !READING.contains(&self.group.as_str()) {
            return Err(format!("the case cannot be read: {slips:#?}\n{text}").into());
        }
        // Where there is no part at all, what could not be read is judged beside the base part.
        let base = read::part("base.yaml", over_base("").as_bytes());
        let Some(part) = read.part.as_ref().or(base.part.as_ref()) else { return Err("no base part".into()) };
        let chain = chain::locate(part);
        let profile = Profile::of(part, &chain);
        let shop_file = shop_read.as_ref().and_then(|s| s.shop.as_ref());
        let derived = plan::derive(part, &chain, &profile, shop_file);
        let planned = match self.planned.then(|| plan::plan(part, &chain, &profile, shop_file, 10)) {
            Some(Err(no)) => return Err(format!("no plan: {no:?}\n{text}").into()),
            other => other.and_then(Result::ok),
        };
        let facts = Facts {
            part,
            slips: &slips,
            chain: &chain,
            profile: &profile,
            shop: shop_file,
            derived: Some(&derived),
            plan: planned.as_ref().map(|p| &p.plan),
        };
        let findings = check::check(&facts);
        let sources = (&read.source, shop_read.as_ref().map(|s| &s.source));
        self.judge(&findings, &expected(&text, shop), sources)
            .map_err(|why| format!("{why}\nfound:\n{}in:\n{text}", listed(&findings, sources)).into())
    }

    fn judge(&self, findings: &[Finding], expected: &[Expected], sources: Sources<'_>) -> Result<(), String> {
        if !self.fires {
            let loud = findings.iter().find(|f| f.check == self.id || f.is_open_error());
            return loud.map_or(Ok(()), |f| Err(format!("{} fires: {}", f.check, f.message)));
        }
        if !expected.iter().any(|e| e.id == self.id) {
            return Err(format!("the case expects no `{}`", self.id));
        }
        for wanted in expected {
            if !findings.iter().any(|f| matches(wanted, f, sources)) {
                return Err(format!("missing: {wanted:?}"));
            }
        }
        let unwanted = findings.iter().find(|f| f.check == self.id && !expected.iter().any(|e| matches(e, f, sources)));
        unwanted.map_or(Ok(()), |f| Err(format!("not expected there: {} {}", f.check, f.message)))
    }
}

type Sources<'a> = (&'a Source, Option<&'a Source>);

fn matches(wanted: &Expected, finding: &Finding, sources: Sources<'_>) -> bool {
    wanted.id == finding.check
        && wanted.severity == finding.severity.word()
        && (wanted.line.is_none() || wanted.line == line(finding, wanted.file, sources))
}

fn line(finding: &Finding, file: FileId, (part, shop): Sources<'_>) -> Option<usize> {
    let place = finding.place.filter(|p| p.file == file)?;
    let source = if file == FileId::Part { part } else { shop? };
    Some(source.line_column(place.start).0)
}

/// The case's text over the base part.
fn over_base(case: &str) -> String {
    let first = case.lines().find(|l| !l.trim().is_empty() && !l.starts_with('#')).unwrap_or("");
    let list = first.starts_with("- ");
    let given: Vec<String> = case.lines().filter_map(top_level_key).collect();
    let mut text = String::new();
    let left_out =
        |key: &str| case.lines().filter_map(|l| l.strip_prefix("# without: ")).any(|l| l.split(", ").any(|k| k == key));
    for (key, value) in BASE {
        if !given.iter().any(|g| g == key) && !left_out(key) {
            text.push_str(value);
        }
    }
    assert!(!(list && given.iter().any(|g| g == "features")), "a case is either a list of features or keys:\n{case}");
    text + case
}

fn top_level_key(line: &str) -> Option<String> {
    let key = line.split(':').next()?;
    let plain = line.contains(':') && !line.starts_with([' ', '-', '#']);
    plain.then(|| key.trim().to_owned())
}

fn expected(part: &str, shop: Option<&str>) -> Vec<Expected> {
    let mut found = comments(part, FileId::Part);
    found.extend(shop.map(|s| comments(s, FileId::Shop)).unwrap_or_default());
    found
}

fn comments(text: &str, file: FileId) -> Vec<Expected> {
    let mut found = Vec::new();
    for (i, line) in text.lines().enumerate() {
        let Some((before, comment)) = line.rsplit_once("# ") else { continue };
        for said in comment.split(',') {
            let Some((severity, id)) = said.trim().split_once(": ") else { continue };
            if !["error", "warning", "note"].contains(&severity) {
                continue;
            }
            let at = if before.trim().is_empty() { None } else { Some(i + 1) };
            found.push(Expected { severity: severity.to_owned(), id: id.trim().to_owned(), file, line: at });
        }
    }
    found
}

fn listed(findings: &[Finding], sources: Sources<'_>) -> String {
    let mut text = String::new();
    for f in findings {
        let line = line(f, FileId::Part, sources).map_or(String::from("shop or nowhere"), |l| format!("line {l}"));
        let _ = writeln!(text, "  {} {} ({line}): {}", f.severity.word(), f.check, f.message);
    }
    text
}
