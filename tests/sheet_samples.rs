//! The samples' own sheets, from the description to the page.

use std::path::Path;

use turnwright::chain::{self, Profile};
use turnwright::figures;
use turnwright::plan;
use turnwright::read;
use turnwright::sheet::build::{self, Sources};
use turnwright::sheet::view::{Paper, View};
use turnwright::sheet::{self, layout};

fn view(sample: &str, paper: Paper) -> View {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples").join(sample);
    let loaded = read::load(path.to_str().expect("a path")).expect("a sample");
    let part = loaded.part.part.expect("a part");
    let shop = loaded.shop.and_then(Result::ok).and_then(|s| s.shop);
    let chain = chain::locate(&part);
    let profile = Profile::of(&part, &chain);
    let planned = plan::plan(&part, &chain, &profile, shop.as_ref(), 10).expect("a plan");
    let figures = figures::work(&part, &chain, &profile, &planned.plan, shop.as_ref());
    let sources = Sources { part: &part, chain: &chain, plan: &planned.plan, figures: &figures, findings: &[], shop: shop.as_ref() };
    build::view(&sources, paper)
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
