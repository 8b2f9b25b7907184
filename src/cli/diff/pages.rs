//! Which pages of a sheet and which operations differ: the two sheets' own views compared, so that nothing is guessed.

use std::path::Path;

use serde_json::{Value, json};

use crate::cli::job::Tally;
use crate::cli::plan::{self, Tried};
use crate::read::Shops;
use crate::sheet::build::{self, Sources};
use crate::sheet::view::{self, View};

/// A sheet, or why there is none.
pub(super) struct Sheet {
    /// Its pages: name, and their whole content without what only counts pages or names the file.
    pages: Vec<(String, String)>,
    /// Its operations: setup, number, what, and everything that stands on their rows.
    operations: Vec<(String, String, String, String)>,
    /// What the checks found.
    pub(super) tally: Tally,
    /// The description has a sheet.
    pub(super) made: bool,
}

/// Plans a description and lays out its sheet.
pub(super) fn sheet(path: &Path, seconds: f64) -> Result<Sheet, String> {
    let Tried { job, findings, planned } = plan::one(path, &Shops::default(), seconds)?;
    let tally = Tally::of(&findings);
    let (Some(planned), Some(part), Some(located)) = (planned, job.to_cut(), &job.located) else {
        return Ok(Sheet { pages: Vec::new(), operations: Vec::new(), tally, made: false });
    };
    let (chain, shop) = (planned.chain(located), job.shop());
    let sources = Sources { part, chain, plan: &planned.plan, figures: &planned.figures, findings: &findings, shop };
    let view = build::view(&sources, view::Paper::LETTER);
    Ok(Sheet { pages: pages(&view), operations: operations(&view), tally, made: true })
}

/// Page numbers, the hash and anchors are not what a page says.
fn bare(value: &mut Value, hash: &str) {
    match value {
        Value::Object(map) => {
            for key in ["foot", "number_of_pages", "id", "page"] {
                map.remove(key);
            }
            map.values_mut().for_each(|v| bare(v, hash));
        }
        Value::Array(items) => items.iter_mut().for_each(|v| bare(v, hash)),
        Value::String(text) if !hash.is_empty() && text.contains(hash) => *text = text.replace(hash, ""),
        _ => {}
    }
}

fn pages(view: &View) -> Vec<(String, String)> {
    let of = |page: &view::Page| {
        let mut value = json!({
            "head": page.head, "blocks": page.blocks, "go_on": page.go_on.is_empty(), "do_not_cut": view.do_not_cut
        });
        bare(&mut value, &view.hash);
        (page.bookmark.clone(), value.to_string())
    };
    view.pages.iter().map(of).collect()
}

fn operations(view: &View) -> Vec<(String, String, String, String)> {
    let mut out = Vec::new();
    let mut setup = String::new();
    for page in &view.pages {
        if let view::Head::Setup { number, .. } = &page.head {
            setup.clone_from(number);
        }
        for block in &page.blocks {
            if let view::Body::Begin { head: view::Head::Setup { number, .. }, .. } = &block.body {
                setup.clone_from(number);
            }
            if let view::Body::Operations { rows, .. } = &block.body {
                out.extend(rows.iter().map(|row| {
                    let mut value = json!(row);
                    if let Value::Object(map) = &mut value {
                        map.remove("number");
                        map.remove("top");
                    }
                    let what = [row.verb.as_str(), row.letter.as_str(), row.what.as_str()];
                    let what = what.iter().filter(|w| !w.is_empty()).copied().collect::<Vec<_>>().join(" ");
                    (setup.clone(), row.number.clone(), what, value.to_string())
                }));
            }
        }
    }
    out
}

/// What to do with the pages on paper.
pub(super) struct Replace {
    /// New page number and name: put in place of the old.
    pub(super) anew: Vec<(usize, String)>,
    /// Old page number, new page number, name: still true.
    pub(super) keep: Vec<(usize, usize, String)>,
    /// Old page number and name: nothing of the new sheet says this, and no page to replace has its number.
    pub(super) take_out: Vec<(usize, String)>,
    /// Operations of the new sheet that stand so on none of the old: setup, number, what.
    pub(super) operations: Vec<(String, String, String)>,
    /// Operations that are no more.
    pub(super) gone: Vec<(String, String, String)>,
}

/// Compares two sheets by what their pages say.
pub(super) fn compare(old: &Sheet, new: &Sheet) -> Replace {
    let mut used = vec![false; old.pages.len()];
    let mut out =
        Replace { anew: Vec::new(), keep: Vec::new(), take_out: Vec::new(), operations: Vec::new(), gone: Vec::new() };
    for (i, (name, content)) in new.pages.iter().enumerate() {
        // The page of the same number first, then any other that says the same.
        let same = |j: &usize| !used[*j] && old.pages[*j].1 == *content;
        let found = Some(i).filter(|j| *j < used.len() && same(j)).or_else(|| (0..used.len()).find(same));
        match found {
            Some(j) => {
                used[j] = true;
                out.keep.push((j + 1, i + 1, name.clone()));
            }
            None => out.anew.push((i + 1, name.clone())),
        }
    }
    let replaced = |j: &usize| out.anew.iter().any(|(page, _)| *page == j + 1);
    out.take_out =
        (0..used.len()).filter(|j| !used[*j] && !replaced(j)).map(|j| (j + 1, old.pages[j].0.clone())).collect();
    let without = |from: &Sheet, others: &Sheet| {
        let mut rest: Vec<&String> = others.operations.iter().map(|o| &o.3).collect();
        let mut alone = Vec::new();
        for (setup, number, what, says) in &from.operations {
            if let Some(at) = rest.iter().position(|r| *r == says) {
                rest.swap_remove(at);
            } else {
                alone.push((setup.clone(), number.clone(), what.clone()));
            }
        }
        alone
    };
    out.operations = without(new, old);
    out.gone = without(old, new);
    out
}
