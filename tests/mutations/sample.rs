//! A sample with its findings, and how its text is changed.

use std::collections::BTreeSet;
use std::path::Path;

use turnwright::chain::{self, Chain, Profile};
use turnwright::check::{self, Facts};
use turnwright::finding::{Finding, Place, Severity};
use turnwright::model::{Part, Size};
use turnwright::unit::{Length, Unit, show};
use turnwright::{plan, read};

/// Findings that stand on nearly every changed number and say nothing about the part: they count for nothing here.
const NOISE: [&str; 8] = [
    "too-fine",
    "near-fraction",
    "untoleranced",
    "frame-change",
    "groove-plunges",
    "heat-growth",
    "gauge-missing",
    "implied-tighter",
];

/// A finding without its words: check, weight, and the features it is about.
type Key = (String, u8, String);

/// A sample and what is known of it.
pub(crate) struct Sample {
    /// File name.
    pub(crate) name: String,
    /// Its text.
    pub(crate) text: String,
    /// The shop file's text.
    pub(crate) shop: Option<String>,
    /// The part.
    pub(crate) part: Part,
    /// Its faces.
    pub(crate) chain: Chain,
    /// What is found on it unchanged.
    known: BTreeSet<Key>,
    /// Its messages: a finding that says other numbers than before is new where the kind of change names its check.
    said: BTreeSet<String>,
}

/// Parts with what the samples may lack: tapers, cross holes, parallel keyseats, left-hand threads.
const MORE: [&str; 3] = ["line-shaft.yaml", "pump-shaft.yaml", "winch-axle.yaml"];

/// Every part of the samples' folder, by name, and a few of the reading tests.
pub(crate) fn all() -> Vec<Sample> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let folder = std::fs::read_dir(root.join("samples")).expect("samples/");
    let mut files: Vec<_> = folder.flatten().map(|e| e.path()).collect();
    files.sort();
    files.extend(MORE.iter().map(|name| root.join("tests/reading/files").join(name)));
    files.into_iter().filter(|f| f.extension().is_some_and(|e| e == "yaml")).filter_map(|f| load(&f)).collect()
}

fn load(file: &Path) -> Option<Sample> {
    let text = std::fs::read_to_string(file).expect("a readable sample");
    if !text.contains("\nfeatures:") {
        return None;
    }
    let part = read::part("part.yaml", text.as_bytes()).part.expect("a sample is a part");
    let shop = part.lathe.as_ref().and_then(|lathe| std::fs::read_to_string(file.with_file_name(&lathe.text)).ok());
    let chain = chain::locate(&part);
    let name = file.file_name()?.to_string_lossy().into_owned();
    let mut sample = Sample { name, text, shop, part, chain, known: BTreeSet::new(), said: BTreeSet::new() };
    let found = findings(&sample.text, sample.shop.as_deref());
    sample.known = found.iter().map(key).collect();
    sample.said = found.into_iter().map(|f| f.message).collect();
    Some(sample)
}

fn key(f: &Finding) -> Key {
    let weight = match f.severity {
        Severity::Error => 2,
        Severity::Warning => 1,
        Severity::Note => 0,
    };
    (f.check.to_owned(), weight, f.features.join(" "))
}

/// What `check` finds, as the command does: no plan is searched.
pub(crate) fn findings(text: &str, shop: Option<&str>) -> Vec<Finding> {
    let read = read::part("part.yaml", text.as_bytes());
    let shop_read = shop.map(|s| read::shop("shop.yaml", s.as_bytes()));
    let mut slips = read.slips.clone();
    slips.extend(shop_read.iter().flat_map(|s| s.slips.clone()));
    let Some(part) = &read.part else { return check::slips_alone(&slips) };
    let chain = chain::locate(part);
    let profile = Profile::of(part, &chain);
    let shop = shop_read.as_ref().and_then(|s| s.shop.as_ref());
    let derived = plan::derive(part, &chain, &profile, shop);
    let (chain, profile, derived) = (&chain, &profile, Some(&derived));
    check::check(&Facts { part, slips: &slips, chain, profile, shop, derived, plan: None })
}

impl Sample {
    /// Findings that the changed text has and the sample has not: id and message. A note counts where it is the loudest its check gets.
    pub(crate) fn new_findings(&self, text: &str, shop: Option<&str>, by: &[&str]) -> Vec<(String, String)> {
        let found = findings(text, shop.or(self.shop.as_deref()));
        let loud =
            |f: &&Finding| (f.severity > Severity::Note || f.check == "hand-of-thread") && !NOISE.contains(&f.check);
        let other_words = |f: &Finding| by.contains(&f.check) && !self.said.contains(&f.message);
        let new = found.iter().filter(loud).filter(|f| !self.known.contains(&key(f)) || other_words(f));
        new.map(|f| (f.check.to_owned(), f.message.clone())).collect()
    }

    /// The text with these places written anew.
    pub(crate) fn with(&self, edits: &[(Place, String)]) -> String {
        let mut sorted: Vec<&(Place, String)> = edits.iter().collect();
        sorted.sort_by_key(|(p, _)| std::cmp::Reverse(p.start));
        let mut text = self.text.clone();
        for (place, new) in sorted {
            text.replace_range(place.start as usize..place.end as usize, new);
        }
        text
    }

    /// What stands at a place.
    pub(crate) fn at(&self, place: Place) -> &str {
        &self.text[place.start as usize..place.end as usize]
    }

    /// Whether a size stands there as a number with nothing but limits behind it, so that another can be written in its place.
    pub(crate) fn is_plain(&self, size: &Size) -> bool {
        let text = self.at(size.place);
        text.split([' ', '+', '±']).next().is_some_and(|n| n.parse::<f64>().is_ok()) && !text.contains(" x ")
    }

    /// A length as a person would write it in this part's unit.
    pub(crate) fn written(&self, value: Length) -> String {
        let unit = self.part.units;
        show::plain(value, unit, if unit == Unit::Inch { 4 } else { 3 })
    }

    /// A size of another nominal with the limits it had, as text for its place; what follows a `from` stays.
    pub(crate) fn moved(&self, size: &Size, nominal: Length) -> String {
        use turnwright::model::LimitsFrom;
        let tail = self.at(size.place).split_once(" from ").map_or(String::new(), |(_, of)| format!(" from {of}"));
        let signed = |d: Length| format!("{}{}", if d < Length::ZERO { "-" } else { "+" }, self.written(d.abs()));
        let limits = size.limits.filter(|_| matches!(size.from, LimitsFrom::Written | LimitsFrom::Fit));
        let limits = limits
            .map_or(String::new(), |l| format!(" {}/{}", signed(l.max - size.nominal), signed(l.min - size.nominal)));
        format!("{}{limits}{tail}", self.written(nominal))
    }
}
