//! One text through the stages, as the commands take it.

use std::panic::{AssertUnwindSafe, catch_unwind};

use turnwright::chain::{self, Profile};
use turnwright::check::{self, Facts};
use turnwright::figures;
use turnwright::model::Shop;
use turnwright::plan;
use turnwright::read;
use turnwright::sheet::build::{self, Sources};
use turnwright::sheet::view::Paper;
use turnwright::sheet::{html, markdown, pdf, typst};

/// How far a text goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Stage {
    /// Reading, chain, operations, checks.
    Check,
    /// And the plan, its numbers and every page.
    Sheet,
    /// And the PDF.
    Pdf,
}

/// What came of it.
#[derive(Debug, Default, Clone, Copy)]
pub(crate) struct Got {
    /// A part without an error.
    pub(crate) whole: bool,
    /// A plan.
    pub(crate) planned: bool,
}

const SHOP: &[u8] = include_bytes!("../../samples/shop.yaml");

fn shop() -> Option<Shop> {
    read::shop("shop.yaml", SHOP).shop
}

/// Tries a text.
///
/// # Errors
/// What a panic or a check of the result says.
pub(crate) fn tried(text: &[u8], stage: Stage) -> Result<Got, String> {
    catch_unwind(AssertUnwindSafe(|| through(text, stage))).unwrap_or_else(|panic| {
        let said = panic.downcast_ref::<String>().cloned();
        Err(format!(
            "panic: {}",
            said.or_else(|| panic.downcast_ref::<&str>().map(|s| (*s).to_owned())).unwrap_or_default()
        ))
    })
}

fn through(text: &[u8], stage: Stage) -> Result<Got, String> {
    let read = read::part("case.yaml", text);
    for slip in &read.slips {
        let (start, end) = (slip.place.start as usize, slip.place.end as usize);
        if read.source.text.get(start..end).is_none() {
            return Err(format!("a slip outside the text: {slip:?}"));
        }
    }
    let Some(part) = &read.part else {
        return if read.slips.is_empty() { Err("no part and nothing said".to_owned()) } else { Ok(Got::default()) };
    };
    let shop = if text.len().is_multiple_of(3) { None } else { shop() };
    let chain = chain::locate(part);
    let profile = Profile::of(part, &chain);
    let derived = plan::derive(part, &chain, &profile, shop.as_ref());
    let facts = |plan| Facts {
        part,
        slips: &read.slips,
        chain: &chain,
        profile: &profile,
        shop: shop.as_ref(),
        derived: Some(&derived),
        plan,
    };
    let findings = check::check(&facts(None));
    let mut got = Got { whole: !findings.iter().any(turnwright::finding::Finding::is_open_error), planned: false };
    if stage == Stage::Check {
        return Ok(got);
    }
    let Ok(planned) = plan::plan(part, &chain, &profile, shop.as_ref(), 1) else { return Ok(got) };
    got.planned = true;
    let figures = figures::work(part, &chain, &profile, &planned.plan, shop.as_ref());
    let findings = check::check(&facts(Some(&planned.plan)));
    let sources = Sources {
        part,
        chain: &chain,
        plan: &planned.plan,
        figures: &figures,
        findings: &findings,
        shop: shop.as_ref(),
    };
    let view = build::view(&sources, Paper::A4);
    if view.pages.len() > 400 {
        return Err(format!("{} pages", view.pages.len()));
    }
    html::html(&view).map_err(|e| e.to_string())?;
    markdown::markdown(&view).map_err(|e| e.to_string())?;
    let _ = typst::typst(&view);
    if stage == Stage::Pdf {
        pdf::pdf(&view).map_err(|e| e.to_string())?;
    }
    Ok(got)
}
