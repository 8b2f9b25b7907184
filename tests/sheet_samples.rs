//! The samples' own sheets, from the description to the page.

use std::path::Path;

use turnwright::chain::{self, Profile};
use turnwright::check::{self, Facts};
use turnwright::figures;
use turnwright::model::Shop;
use turnwright::plan;
use turnwright::read;
use turnwright::sheet::build::{self, Pages, Sources};
use turnwright::sheet::view::{Body, Paper, Shape, View};
use turnwright::sheet::{self, layout};

fn view(sample: &str, paper: Paper) -> View {
    view_of(sample, paper, Pages::default())
}

fn view_of(sample: &str, paper: Paper, pages: Pages) -> View {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples").join(sample);
    let loaded = read::load(path.to_str().expect("a path")).expect("a sample");
    let shop = loaded.shop.and_then(Result::ok).and_then(|s| s.shop);
    of_pages(&loaded.part, shop.as_ref(), paper, pages)
}

/// The sheet of any description that can be planned.
fn of(read: &read::ReadPart, shop: Option<&Shop>, paper: Paper) -> View {
    of_pages(read, shop, paper, Pages::default())
}

fn of_pages(read: &read::ReadPart, shop: Option<&Shop>, paper: Paper, pages: Pages) -> View {
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
    build::view_of(
        &Sources { part, chain: &chain, plan: &planned.plan, figures: &figures, findings: &findings, shop },
        paper,
        pages,
    )
}

const SAMPLES: [&str; 7] = [
    "pulley-stub.yaml",
    "pulley-stub-no-shop.yaml",
    "tool-post-stud.yaml",
    "idler-shaft.yaml",
    "winch-axle.yaml",
    "vise-screw.yaml",
    "press-screw.yaml",
];

fn keep(name: &str, bytes: &[u8]) {
    if let Some(dir) = std::env::var_os("TURNWRIGHT_PICTURES") {
        std::fs::write(Path::new(&dir).join(name), bytes).expect("a folder to write to");
    }
}

fn assert_pages_hold(name: &str, view: &View) {
    for page in &view.pages {
        assert!(sheet::used(page) <= layout::HEIGHT + 0.01, "{name:.60} page {}: {}", page.number, sheet::used(page));
        assert_eq!(
            (page.of, page.foot.page.as_str()),
            (view.pages.len(), format!("{} / {}", page.number, page.of).as_str())
        );
    }
}

/// Numbers of the operations in the order of the pages.
fn operations(view: &View) -> Vec<u32> {
    let blocks = view.pages.iter().flat_map(|p| &p.blocks);
    let rows = blocks.filter_map(|b| match &b.body {
        Body::Operations { rows, columns } => {
            let headless = rows.iter().any(|r| matches!(r.shape, Shape::Columns { .. })) && columns.is_none();
            assert!(!headless, "a row in columns without their heads");
            Some(rows)
        }
        _ => None,
    });
    rows.flatten().map(|r| r.number.parse().expect("a number")).collect()
}

#[test]
fn every_operation_stands_once_whole_and_in_order() {
    for sample in SAMPLES {
        let view = view(sample, Paper::A4);
        let numbers = operations(&view);
        let tens: Vec<u32> = (1..=u32::try_from(numbers.len()).expect("few")).map(|n| n * 10).collect();
        assert_eq!(numbers, tens, "{sample}");
        for (page, next) in view.pages.iter().zip(&view.pages[1..]) {
            let goes_on = next.continued && next.id.starts_with("setup");
            assert_eq!(!page.go_on.is_empty(), goes_on, "{sample} page {}", page.number);
            if goes_on {
                assert!(page.go_on.text().contains(&format!("page {}", next.number)));
            }
        }
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
        assert_pages_hold(sample, &view);
    }
}

/// Paper is not wasted: no page of a mounting without an operation, and none under a third full that its neighbours had room for
/// (common practice, no source: a page turned as seldom as possible).
#[test]
fn pages_are_filled() {
    let mut counts = Vec::new();
    for sample in SAMPLES.iter().chain(["pump-shaft.yaml"].iter()) {
        let view = view(sample, Paper::LETTER);
        let cuts = |b: &sheet::view::Block| matches!(b.body, Body::Operations { .. });
        for (i, page) in view.pages.iter().enumerate() {
            let used = sheet::used(page);
            if matches!(page.head, sheet::view::Head::Setup { .. }) {
                assert!(page.blocks.iter().any(cuts), "{sample} page {}: nothing is cut", page.number);
            }
            if used < layout::HEIGHT / 3.0 && i + 1 < view.pages.len() {
                let before = sheet::used(&view.pages[i - 1]);
                assert!(before + used > layout::HEIGHT, "{sample} page {}: {used} behind {before}", page.number);
            }
        }
        // What begins on a page is on the list of setups with that page.
        for page in &view.pages {
            for block in &page.blocks {
                let Body::Begin { id, .. } = &block.body else { continue };
                let mut rows = view.pages.iter().flat_map(|p| &p.blocks).filter_map(|b| match &b.body {
                    Body::Setups { rows, .. } => rows.iter().find(|r| r.id == *id),
                    _ => None,
                });
                if let Some(row) = rows.next() {
                    assert!(row.page.ends_with(&format!(" {}", page.number)), "{sample}: {id} on {}", row.page);
                }
            }
        }
        counts.push((*sample, view.pages.len()));
    }
    println!("{counts:?}");
    let all: usize = counts.iter().map(|(_, n)| n).sum();
    // 149 when each mounting began a page of its own.
    assert!(all <= 134, "{all} pages: {counts:?}");
}

/// The short sheet has every operation, STOP and size to inspect of the full one, on fewer pages; the strip adds its own.
#[test]
fn the_short_sheet_leaves_nothing_out_that_is_cut_by() {
    let kinds = |view: &View, wanted: fn(&Body) -> usize| -> usize {
        view.pages.iter().flat_map(|p| &p.blocks).map(|b| wanted(&b.body)).sum()
    };
    let stops = |b: &Body| usize::from(matches!(b, Body::Stop { .. }));
    let sizes = |b: &Body| match b {
        Body::Inspection { columns } => columns.iter().map(|c| c.rows.len()).sum(),
        _ => 0,
    };
    for sample in SAMPLES {
        let full = view(sample, Paper::LETTER);
        let short = view_of(sample, Paper::LETTER, Pages { compact: true, ..Pages::default() });
        assert_eq!(operations(&short), operations(&full), "{sample}");
        assert_eq!(kinds(&short, stops), kinds(&full, stops), "{sample}");
        assert_eq!(kinds(&short, sizes), kinds(&full, sizes), "{sample}");
        assert!(short.pages.len() * 2 <= full.pages.len() + 2, "{sample}: {}", short.pages.len());
        assert_pages_hold(sample, &short);
        let both = view_of(sample, Paper::LETTER, Pages { compact: true, strip: true, ..Pages::default() });
        assert!(both.pages.len() > short.pages.len() && both.pages.last().is_some_and(|p| p.id.starts_with("strip")));
        assert_pages_hold(sample, &both);
        keep(
            &format!("{}-short.html", sample.trim_end_matches(".yaml")),
            sheet::html::html(&both).expect("html").as_bytes(),
        );
    }
}

/// A spacer, turned in one chucking and parted off, stands on one side of paper; nothing on it is below 9 pt.
#[test]
fn the_short_sheet_of_a_simple_part_is_one_page() {
    const SPACER: &str = "part: Spacer\nunits: in\nmaterial: 1018\ndatum: plain end\noverall: 1.625 ±.005\nstock: 1.000 x 3.250\n\
        tolerances: {lengths: ±.005, diameters: ±.005}\nplan: {part off: true}\nfeatures:\n  - turn: .875\n    to: end\n";
    let read = read::part("spacer.yaml", SPACER.as_bytes());
    let shop = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples/shop.yaml");
    let text = std::fs::read_to_string(shop).expect("the sample shop");
    let text = text.replacen("tools:\n", "tools:\n  - {tool: parting, width: .093}\n", 1);
    let shop = read::shop("shop.yaml", text.as_bytes()).shop.expect("a shop");
    for paper in [Paper::LETTER, Paper::A4] {
        let view = of_pages(&read, Some(&shop), paper, Pages { compact: true, ..Pages::default() });
        assert_eq!(view.do_not_cut, "");
        assert_eq!(view.pages.len(), 1, "{:?}", view.pages.iter().map(sheet::used).collect::<Vec<_>>());
        assert_pages_hold("spacer", &view);
    }
    for (file, text) in
        [("css", include_str!("../templates/sheet.css")), ("typ", include_str!("../templates/sheet.typ"))]
    {
        let small = text.split("hort sheet").skip(1).collect::<String>();
        let sizes = small.split("pt").filter_map(|before| before.rsplit([' ', '(', ':']).next()?.parse::<f64>().ok());
        let sizes: Vec<f64> = sizes.collect();
        assert!(sizes.len() > 10 && sizes.iter().all(|pt| *pt >= 9.0), "{file}: {sizes:?}");
    }
}

/// `decimal sign: comma`: every number shown has a comma, the numbers a screen reckons with a point, and nothing else changes.
#[test]
fn a_sheet_with_decimal_commas_says_the_same() {
    for sample in ["tool-post-stud.yaml", "winch-axle.yaml"] {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples").join(sample);
        let shop = read::load(path.to_str().expect("a path")).expect("a sample").shop.and_then(Result::ok);
        let shop = shop.and_then(|s| s.shop);
        let text = std::fs::read_to_string(&path).expect("a sample");
        let with = |line: &str| {
            let read = read::part(sample, text.replacen("units:", &format!("{line}units:"), 1).as_bytes());
            of(&read, shop.as_ref(), Paper::A4)
        };
        let (point, comma) = (with("decimal sign: point\n"), with("decimal sign: comma\n"));
        assert_eq!(comma.decimal, ",");
        let (points, commas) = (
            sheet::markdown::markdown(&point).expect("markdown"),
            sheet::markdown::markdown(&comma).expect("markdown"),
        );
        let signs = |text: &str, sign: char| {
            let chars: Vec<char> = text.chars().collect();
            chars.windows(2).filter(|w| w[0] == sign && w[1].is_ascii_digit()).count()
        };
        assert!(signs(&commas, ',') > 100, "{sample}: {}", signs(&commas, ','));
        // What is left with a point is a name.
        let left: Vec<&str> = commas.split_whitespace().filter(|w| signs(w, '.') > 0).collect();
        assert!(left.is_empty(), "{sample}: {left:?}");
        let same = |text: &str| text.replace(['.', ','], "").lines().filter(|l| !l.contains("escription")).count();
        assert_eq!(same(&points), same(&commas));
        let html = sheet::html::html(&comma).expect("html");
        assert!(html.contains("data-decimal=\",\"") && html.contains("data-value=\""));
        assert!(html.split("data-value=\"").skip(1).all(|v| !v.split('"').next().unwrap_or_default().contains(',')));
    }
}

/// Bench cards hold every operation once; what a card cannot hold names the page of the sheet that does.
#[test]
fn bench_cards_hold_every_operation_or_name_its_page() {
    for sample in SAMPLES {
        for paper in [Paper::LETTER, Paper::A4] {
            let full = view(sample, paper);
            let cards = view_of(sample, paper, Pages { cards: true, ..Pages::default() });
            assert_eq!(operations(&cards), operations(&full), "{sample}");
            assert_eq!(cards.paper.width, paper.width);
            assert!(cards.paper.height.0 * 2.0 <= paper.height.0 + 0.01);
            for page in &cards.pages {
                assert!(
                    sheet::used(page) <= layout::CARD_HEIGHT + 0.01,
                    "{sample} card {}: {}",
                    page.number,
                    sheet::used(page)
                );
            }
            let rows = |view: &View| -> Vec<(usize, sheet::view::OperationRow)> {
                let of = |p: &sheet::view::Page| {
                    let blocks = p.blocks.iter().filter_map(|b| match &b.body {
                        Body::Operations { rows, .. } => Some(rows.clone()),
                        _ => None,
                    });
                    blocks.flatten().map(|r| (p.number, r)).collect::<Vec<_>>()
                };
                view.pages.iter().flat_map(of).collect()
            };
            let mut pointed = 0;
            for ((page, whole), (_, card)) in rows(&full).into_iter().zip(rows(&cards)) {
                if card != whole {
                    let Shape::Wide { text } = &card.shape else { panic!("{sample}: {} changed", card.number) };
                    assert!(text.text().contains(&format!("page {page}")), "{sample}: {}", text.text());
                    pointed += 1;
                }
            }
            println!("{sample}: {} cards, {pointed} operations left on the sheet", cards.pages.len());
            keep(
                &format!("{}-cards.html", sample.trim_end_matches(".yaml")),
                sheet::html::html(&cards).expect("html").as_bytes(),
            );
        }
    }
}

/// Everything that stands on the pages, without markup.
fn said(view: &View) -> String {
    sheet::markdown::markdown(view).expect("markdown").replace(['\\', '*'], "").replace('\u{a0}', " ")
}

#[test]
fn the_stub_shows_the_numbers_worked_by_hand() {
    // The worked example of the trade notes, section 11: the mounting with the datum end at the headstock, and the keyseat.
    let text = said(&view("pulley-stub.yaml", Paper::LETTER));
    for number in [
        ".904",
        "3.230",
        ".173 1 turn + .073",
        ".8743",
        ".8745",
        ".8740",
        ".540",
        "3.350",
        "3.250",
        "2.650",
        ".500",
        ".6695",
        ".6696",
        ".6694",
        ".7877",
        ".7878",
        ".7875",
        "29½°",
        ".013",
        ".039",
        "18 tpi",
        "20 tpi",
        "any mark",
        ".2245",
        ".5310",
        ".6500",
        "1.782 to 2.468",
        "2.125",
        "7.000 − measured =",
        "7.003 measured gives −.003",
        "90 rpm",
        "6.620",
    ] {
        assert!(text.contains(number), "{number} is missing");
    }
}

#[test]
fn without_a_shop_file_no_dial_is_printed() {
    let view = view("pulley-stub-no-shop.yaml", Paper::A4);
    let text = said(&view);
    assert!(
        !text.contains("RADIUS") && !text.contains("DIAMETER") && !text.contains("CARRIAGE"),
        "a dial nobody told of"
    );
    assert!(!text.contains("any mark") && !text.contains("turn +"), "thread dial or turns of a dial nobody told of");
    assert!(text.contains("cross dial") && text.contains("not told here"));
    assert!(text.contains("3.230"), "lengths stay");
}

/// The stub with another name, notes and reason.
fn hostile(word: &str) -> View {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples/pulley-stub-no-shop.yaml");
    let quoted = serde_json::to_string(word).expect("a string");
    let text = std::fs::read_to_string(path).expect("the sample");
    let text: String = text
        .lines()
        .map(|l| match l {
            _ if l.starts_with("part:") => format!("part: {quoted}\n"),
            _ if l.starts_with("datum:") => format!("datum: {quoted}\n"),
            _ if l.trim_start().starts_with("because: short nut") => format!("    because: {quoted}\n"),
            _ if l.starts_with("notes:") => format!("notes: {quoted}\n"),
            _ if l.starts_with("  Try the pulley") => String::new(),
            _ => format!("{l}\n"),
        })
        .collect();
    of(&read::part("part.yaml", text.as_bytes()), None, Paper::LETTER)
}

#[test]
fn hostile_words_stay_words() {
    let long = "x".repeat(600);
    let novel = "a word or two more ".repeat(1500);
    for word in [
        "\"); #panic(\"typst\") \\ #import \"x\" $x$ ]]] */",
        "<script>alert(1)</script>{{ view }}{% raw %} & &lt; ]]>",
        "漢字 😀 \u{202e}right to left ∅ µ",
        "# not a heading\n\n- x\n\n```\n<b>code</b>\n```\n[a](javascript:alert(1)) ![b](http://x/y.png)",
        &long,
        &novel,
    ] {
        let view = hostile(word);
        assert_pages_hold(word, &view);
        let html = sheet::html::html(&view).expect("html");
        assert_eq!(html.matches("<script>").count(), 1, "only our own script");
        assert!(!html.contains("<b>code") && !html.contains("javascript:alert(1)\"") && !html.contains("<img"));
        if let Ok(program) = sheet::pdf::program() {
            sheet::pdf::pdf_with(&program, &view).unwrap_or_else(|e| panic!("{word:.60}: {e}"));
        } else {
            println!("NOT RUN: no typst program for the PDF");
        }
    }
}

#[test]
fn an_open_error_marks_every_page() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples/pulley-stub-no-shop.yaml");
    let text = std::fs::read_to_string(path).expect("the sample").replace("0.545 +0/-0.010", "0.600 +0/-0.010");
    let view = of(&read::part("part.yaml", text.as_bytes()), None, Paper::LETTER);
    assert!(view.do_not_cut.starts_with("DO NOT CUT"), "a relief above the root of its thread");
    assert_pages_hold("with an error", &view);
    let html = sheet::html::html(&view).expect("html");
    assert_eq!(html.matches("class=\"banner\"").count(), view.pages.len());
    keep("error.html", html.as_bytes());
    keep("error.typ", sheet::typst::typst(&view).as_bytes());
}

/// A domed end with its list of steps, under the bar that says DO NOT CUT, takes more than a page with the setup's picture has left.
#[test]
fn an_operation_that_fills_its_page_leaves_out_the_picture_of_the_setup() {
    let text = "part: pin\nunits: in\nmaterial: 1018 cold drawn\nstock: hex 1 x 5.125\ndatum: head\noverall: 5.000 ±0.010\n\
        tolerances: {lengths: ±0.010, diameters: ±0.003}\nfeatures:\n- turn: stock\n  to: 0.500\n- turn: 0.750 +0/-0.002\n  to: 4.250\n  \
        carries: {part: hinge, bore: 0.745, enters: far}\n- turn: 0.625\n  to: end\n- crown: 0.500 radius\n  end: far\n";
    for paper in [Paper::LETTER, Paper::A4] {
        let view = of(&read::part("pin.yaml", text.as_bytes()), None, paper);
        assert!(!view.do_not_cut.is_empty());
        for page in &view.pages {
            let used = sheet::used(page) + layout::BANNER;
            assert!(used <= layout::HEIGHT + 0.01, "page {}: {used}", page.number);
        }
    }
}

/// A thread of which much is said: its page keeps all numbers and STOP, and sends the last findings to the cover.
#[test]
fn an_operation_with_more_findings_than_its_page_has_room_for_sends_them_to_the_cover() {
    let samples = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples");
    let shop = std::fs::read(samples.join("shop-mm.yaml")).expect("the sample");
    // Without rests, so that all that can be said of a slender thread is said.
    let shop = read::shop("shop-mm.yaml", &shop).shop.map(|mut s| {
        s.rests.clear();
        s
    });
    let text = "part: lift screw\nunits: mm\nmaterial: C45\nstock: 30 x 265\ndatum: drive end\noverall: 260 ±0.2\ntolerances: ISO 2768-m\n\
        features:\n- turn: 15 k6\n  to: 30\n  finish: 0.8 µm\n- turn: 18\n  to: 40\n- thread: Tr24x10 P5 LH\n  to: 230\n- relief: 17.90 +0/-0.20\n  to: 240\n\
        - turn: 16 h7\n  to: end\n- chamfer: 2.75 x 30°\n  at: 40\n- center hole: A 3.15\n  end: both\n";
    for paper in [Paper::LETTER, Paper::A4] {
        let view = of(&read::part("lift.yaml", text.as_bytes()), shop.as_ref(), paper);
        let blocks = || view.pages.iter().flat_map(|p| &p.blocks);
        let rows = blocks().filter_map(|b| if let Body::Operations { rows, .. } = &b.body { Some(rows) } else { None });
        let thread = rows.flatten().find(|r| r.verb == "Thread").expect("the thread");
        for over in [5.0, 12.0, 18.0] {
            let short = sheet::blocks::with_fewer_findings(thread.clone(), over);
            assert!(
                short.height.0 <= thread.height.0 - over,
                "{} from {}, {over} less",
                short.height.0,
                thread.height.0
            );
            let words: Vec<&str> = short.detail.iter().flat_map(|l| &l.pieces).map(|p| p.text.as_str()).collect();
            let words = words.join(" ");
            assert!(
                words.ends_with("see the cover.") && words.contains("235.00") && words.contains("70 rpm"),
                "{words}"
            );
        }
        for page in &view.pages {
            let used = sheet::used(page) + layout::BANNER;
            assert!(used <= layout::HEIGHT + 0.01, "page {}: {used}", page.number);
        }
    }
}

/// A part in millimetres on an inch lathe: 1 in is 25.4 mm exactly (ISO 80000-3, from memory), and no length in millimetres is set on an inch dial unturned.
/// Where the instruments read inches too, the sums are in inches; where they read millimetres, the step stands in the line.
#[test]
fn a_dial_in_the_other_unit_is_reached_by_25_4() {
    for (sample, foreign) in [("winch-axle.yaml", true), ("pump-shaft.yaml", false), ("pulley-stub.yaml", false)] {
        let text = sheet::html::html(&view(sample, Paper::LETTER)).expect("html");
        assert!(!text.contains("measured ÷ 25.4 ="), "{sample}");
        assert_eq!(text.contains("DIAMETER: .010 in is Ø 0.254 mm."), foreign, "{sample}");
        assert_eq!(text.contains("measured gives \u{2212}.0020 in"), foreign, "{sample}");
        // 25 f7, 24.980 to 24.959, within which lie .9834 and .9827; 196 / 25.4 = 7.7165.
        for reads in [".9834", ".9827", "7.7165"] {
            assert_eq!(text.contains(reads), foreign, "{sample}: {reads}");
        }
    }
    let in_mm = include_str!("../samples/shop-large.yaml")
        .replace("0..1,", "0..25 mm,")
        .replace("1..2,", "25..50 mm,")
        .replace("0..24,", "0..600 mm,");
    let shop = read::shop("shop.yaml", in_mm.as_bytes()).shop;
    let text = std::fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join("samples/winch-axle.yaml")).expect("a sample");
    let html =
        sheet::html::html(&of(&read::part("winch-axle.yaml", &text), shop.as_ref(), Paper::LETTER)).expect("html");
    assert!(html.contains("measured ÷ 25.4 =") && !html.contains(".9834"));
}

/// A flanged bushing is parted off the bar and turned round: its last face is the datum end's, and the sheet names that one.
#[test]
fn the_end_that_is_faced_to_length_is_named() {
    let text = "part: bushing\nunits: in\nmaterial: C93200 bronze\nstock: 2 x 4\ndatum: flange face\noverall: 1.875 ±0.005\n\
        tolerances: {lengths: ±0.005, diameters: ±0.002}\nplan: {part off: true}\nfeatures:\n- turn: 1.750\n  to: 0.125\n\
        - turn: 1.2500 +0/-0.0008\n  to: end\ninside:\n- bore: 1.0000 +0.0008/-0\n  end: through\n";
    let view = of(&read::part("bushing.yaml", text.as_bytes()), None, Paper::LETTER);
    let markdown = sheet::markdown::markdown(&view).expect("markdown");
    assert!(markdown.contains("**Face** the datum end: 1.875 ±.005 overall"), "{markdown}");
    assert!(markdown.contains("**Face** the far end clean"), "{markdown}");
}
