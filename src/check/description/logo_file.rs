#![doc = include_str!("logo_file.md")]

use std::path::Path;

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::shop::NoLogo;

/// The check.
pub const CHECK: Check = Check {
    id: "logo-file",
    severity: Severity::Warning,
    group: "description",
    source: "common practice, no source",
    page: include_str!("logo_file.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some((shop, logo)) = facts.shop.and_then(|s| Some((s, s.logo.as_ref()?))) else { return };
    let why = match &shop.logo_file {
        Some(Ok(_)) => return,
        Some(Err(NoLogo::Missing)) => "there is no such file, or it may not be read",
        Some(Err(NoLogo::Elsewhere)) => "it lies away from the shop file, and is not opened",
        Some(Err(NoLogo::TooLarge)) => "it is larger than 200 kB",
        Some(Err(NoLogo::Unknown)) => "it is neither PNG nor SVG",
        Some(Err(NoLogo::Broken)) => "it begins as a picture and does not go on as one",
        // A shop that came without its folder: the name alone is judged.
        None if shown(&logo.text) => return,
        None => "it is neither PNG nor SVG by its name",
    };
    out.push(
        Finding::new(CHECK.id, CHECK.severity, format!("the logo `{}` is left out of the sheet: {why}", logo.text))
            .at(logo.place)
            .help("Name a .png or .svg file of at most 200 kB, counted from the shop file's folder"),
    );
}

fn shown(name: &str) -> bool {
    let ending = Path::new(name).extension();
    ending.is_some_and(|e| ["png", "svg"].iter().any(|known| e.eq_ignore_ascii_case(known)))
}
