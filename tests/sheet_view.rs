//! A sheet worked by hand, through every output.

use turnwright::sheet::view::View;
use turnwright::sheet::{self, layout};

fn view() -> View {
    sheet::paginate(crate::stub::sheet::draft())
}

/// Where outputs are put to be looked at: `TURNWRIGHT_PICTURES=dir cargo test sheet_view::`.
fn keep(name: &str, bytes: &[u8]) {
    if let Some(dir) = std::env::var_os("TURNWRIGHT_PICTURES") {
        std::fs::write(std::path::Path::new(&dir).join(name), bytes).expect("a folder to write to");
    }
}

#[test]
fn pages_hold_what_stands_on_them() {
    let view = view();
    for page in &view.pages {
        assert!(sheet::used(page) <= layout::HEIGHT + 0.01, "page {} takes {}", page.number, sheet::used(page));
    }
    assert_eq!(view.pages.iter().filter(|p| p.id.starts_with("setup-3")).count(), 2);
}

#[test]
fn html_is_one_file() {
    let html = sheet::html::html(&view()).expect("the template fits");
    keep("hand.html", html.as_bytes());
    assert!(html.starts_with("<!DOCTYPE html>"));
    assert!(html.contains("&lt;script&gt;alert(1)"));
    assert!(!html.contains("<script>alert"));
}

#[test]
fn typst_source_holds_everything_as_data() {
    let source = sheet::typst::typst(&view());
    keep("hand.typ", source.as_bytes());
    assert_eq!(source.matches("@@DATA@@").count(), 0);
}

#[test]
fn markdown_shows_every_operation() {
    let text = sheet::markdown::markdown(&view()).expect("the template fits");
    keep("hand.md", text.as_bytes());
    for number in ["50", "60", "70", "80", "90", "100", "110"] {
        assert!(text.contains(&format!("**{number}**")), "{number}");
    }
    assert!(text.contains("\\<script\\>"));
}

#[test]
fn pdf_is_tagged_and_the_same_twice() {
    let program = match sheet::pdf::program() {
        Ok(program) => program,
        Err(missing) => {
            println!("NOT RUN: {missing}");
            return;
        }
    };
    let once = sheet::pdf::pdf_with(&program, &view()).expect("a PDF");
    keep("hand.pdf", &once);
    assert!(once.starts_with(b"%PDF-"));
    assert!(once.len() < 300_000, "{} bytes", once.len());
    assert_eq!(once, sheet::pdf::pdf_with(&program, &view()).expect("a PDF again"));
}
