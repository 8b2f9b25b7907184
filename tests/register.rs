//! The register of the checks, the files on disk, the ids of the project's list of checks, and the headings of the pages agree.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use turnwright::check::{ALL, LIMITS, LimitDefault};

/// Ids as scripts and `accept:` entries use them.
const IDS: &str = include_str!("check_ids.txt");

/// Ids not written yet. This list only gets shorter.
const NOT_YET: &[&str] = &[];

const HEADINGS: [&str; 6] = [
    "What it finds",
    "Why it matters at the lathe",
    "What to do",
    "Where the number comes from",
    "When to accept it",
    "Cases",
];

fn ids() -> BTreeSet<&'static str> {
    IDS.lines().map(str::trim).filter(|l| !l.is_empty() && !l.starts_with('#')).collect()
}

#[test]
fn every_id_is_registered_or_listed_as_not_yet_written() {
    let registered: BTreeSet<&str> = ALL.iter().map(|c| c.id).collect();
    assert_eq!(registered.len(), ALL.len(), "an id is registered twice");
    let not_yet: BTreeSet<&str> = NOT_YET.iter().copied().collect();
    let both: Vec<_> = registered.intersection(&not_yet).collect();
    assert!(both.is_empty(), "written by now, take it off the list: {both:?}");
    let known: BTreeSet<&str> = registered.union(&not_yet).copied().collect();
    let missing: Vec<_> = ids().difference(&known).copied().collect();
    let unknown: Vec<_> = known.difference(&ids()).copied().collect();
    assert!(missing.is_empty() && unknown.is_empty(), "missing: {missing:?}, not an id: {unknown:?}");
}

#[test]
fn every_page_has_its_check_and_every_check_its_page() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/check");
    let mut pages = Vec::new();
    walk(&root, &mut pages);
    let mut on_disk: Vec<String> = pages
        .iter()
        .map(|page| {
            assert!(page.with_extension("rs").exists(), "{} has no rule beside it", page.display());
            std::fs::read_to_string(page).expect("a page")
        })
        .collect();
    let mut registered: Vec<String> = ALL.iter().map(|c| c.page.to_owned()).collect();
    on_disk.sort();
    registered.sort();
    assert_eq!(on_disk.len(), registered.len(), "pages on disk and in the register");
    assert!(on_disk == registered, "a registered page is not the one on disk");
}

#[test]
fn pages_have_their_headings_in_order() {
    for check in ALL {
        assert!(check.page.starts_with(&format!("# {}\n", check.id)), "{} opens with another id", check.id);
        let headings: Vec<&str> = check.page.lines().filter_map(|l| l.strip_prefix("## ")).map(str::trim).collect();
        assert_eq!(headings, HEADINGS, "headings of {}", check.id);
        assert!(!check.source.is_empty() && !check.group.is_empty(), "{} says neither source nor group", check.id);
    }
}

#[test]
fn every_limit_belongs_to_a_check_and_is_named_on_its_page() {
    for limit in LIMITS {
        let known = ids().contains(limit.check);
        assert!(known, "limit `{}` of unknown check {}", limit.name, limit.check);
        if let Some(check) = ALL.iter().find(|c| c.id == limit.check) {
            let quoted = format!("`{}`", limit.name);
            assert!(check.page.contains(&quoted), "the page of {} does not name its limit {quoted}", check.id);
        }
    }
}

/// A row of the list of checks as it was agreed.
struct Row<'a> {
    id: &'a str,
    severities: &'a str,
    limits: Vec<(&'a str, &'a str)>,
}

fn agreed() -> Vec<Row<'static>> {
    let rows = include_str!("check_list.csv").lines().filter(|l| !l.starts_with('#')).skip(1);
    rows.map(|row| {
        let mut cells = row.splitn(3, ',');
        let mut cell = || cells.next().unwrap_or_else(|| panic!("three cells: {row}"));
        let (id, severities, limits) = (cell(), cell(), cell());
        let limits = limits.split(';').filter_map(|l| l.trim().split_once('=')).collect();
        Row { id, severities, limits }
    })
    .collect()
}

/// Severities that come only from plans which the planner does not make, or from a text that is no description:
/// seen to fire in `changed_plans.rs` and `commands.rs`.
const SEEN_ELSEWHERE: [(&str, char); 4] =
    [("frame-change", 'W'), ("grip-on-finished", 'E'), ("no-zero", 'E'), ("thread-two-setups", 'W')];

#[test]
fn every_agreed_check_fires_with_each_of_its_severities_in_a_case() {
    let rows = agreed();
    assert_eq!(rows.len(), 114, "rows of the list");
    for row in rows {
        let check = ALL.iter().find(|c| c.id == row.id).unwrap_or_else(|| panic!("{} is not registered", row.id));
        let usual = check.severity.word().to_uppercase();
        assert!(usual.starts_with(&row.severities[..1]), "{} is usually {usual}, agreed {}", row.id, row.severities);
        for severity in row.severities.chars() {
            let word = [("error", 'E'), ("warning", 'W'), ("note", 'N')].into_iter().find(|(_, s)| *s == severity);
            let comment = format!("# {}: {}", word.expect("E, W or N").0, row.id);
            let in_a_case = check.page.lines().any(|l| l.contains(&comment));
            let elsewhere = SEEN_ELSEWHERE.contains(&(row.id, severity));
            assert!(in_a_case != elsewhere, "{} as {severity}: in a case {in_a_case}, elsewhere {elsewhere}", row.id);
        }
    }
}

#[test]
fn default_limits_are_the_agreed_ones() {
    for row in agreed() {
        for (name, value) in row.limits {
            let limit = LIMITS.iter().find(|l| l.check == row.id && l.name == name);
            let limit = limit.unwrap_or_else(|| panic!("{} has no limit `{name}`", row.id));
            let number = |text: &str| text.trim().parse::<f64>().unwrap_or_else(|e| panic!("{text}: {e}"));
            let (is, agreed) = match (limit.value, value.split_once('/')) {
                (LimitDefault::Length { inch, mm }, Some((inches, millimetres))) => {
                    ([inch.inches(), mm.mm()], [number(inches), number(millimetres)])
                }
                (LimitDefault::Number(is), None) => ([is; 2], [number(value); 2]),
                _ => panic!("{} `{name}`: a length or a number?", row.id),
            };
            assert!(is.iter().zip(agreed).all(|(a, b)| (a - b).abs() < 1e-9), "{} `{name}`: {is:?}", row.id);
        }
    }
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
