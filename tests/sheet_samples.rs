//! The samples' own sheets, from the description to the page.

use std::path::Path;

use turnwright::chain::{self, Profile};
use turnwright::check::{self, Facts};
use turnwright::figures;
use turnwright::model::Shop;
use turnwright::plan;
use turnwright::read;
use turnwright::sheet::build::{self, Sources};
use turnwright::sheet::view::{Paper, View};
use turnwright::sheet::{self, layout};

fn view(sample: &str, paper: Paper) -> View {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples").join(sample);
    let loaded = read::load(path.to_str().expect("a path")).expect("a sample");
    let shop = loaded.shop.and_then(Result::ok).and_then(|s| s.shop);
    of(&loaded.part, shop.as_ref(), paper)
}

/// The sheet of any description that can be planned.
fn of(read: &read::ReadPart, shop: Option<&Shop>, paper: Paper) -> View {
    let part = read.part.as_ref().expect("a part");
    let chain = chain::locate(part);
    let profile = Profile::of(part, &chain);
    let planned = plan::plan(part, &chain, &profile, shop, 10).expect("a plan");
    let figures = figures::work(part, &chain, &profile, &planned.plan, shop);
    let facts = Facts {
        part,
        slips: &read.slips,
        chain: &chain,
        profile: &profile,
        shop,
        derived: Some(&planned.derived),
        plan: Some(&planned.plan),
    };
    let findings = check::check(&facts);
    build::view(
        &Sources { part, chain: &chain, plan: &planned.plan, figures: &figures, findings: &findings, shop },
        paper,
    )
}

const SAMPLES: [&str; 4] = ["pulley-stub.yaml", "pulley-stub-no-shop.yaml", "tool-post-stud.yaml", "idler-shaft.yaml"];

fn keep(name: &str, bytes: &[u8]) {
    if let Some(dir) = std::env::var_os("TURNWRIGHT_PICTURES") {
        std::fs::write(Path::new(&dir).join(name), bytes).expect("a folder to write to");
    }
}

#[test]
fn every_page_holds_what_stands_on_it() {
    for sample in SAMPLES {
        let view = view(sample, Paper::LETTER);
        let name = sample.trim_end_matches(".yaml");
        keep(&format!("{name}.html"), sheet::html::html(&view).expect("html").as_bytes());
        keep(&format!("{name}.md"), sheet::markdown::markdown(&view).expect("markdown").as_bytes());
        keep(&format!("{name}.typ"), sheet::typst::typst(&view).as_bytes());
        for page in &view.pages {
            assert!(sheet::used(page) <= layout::HEIGHT + 0.01, "{sample} page {}: {}", page.number, sheet::used(page));
        }
    }
}
