//! The sheet as paper: PDF through the real `typst`, HTML through the real Chromium, read again by poppler's tools.
//!
//! Where a program is missing the test says loudly what it did not run; under `tests/run` (`TURNWRIGHT_ALL`) it fails instead.

use std::path::Path;
use std::process::Command;

use serde_json::Value;

const SAMPLES: [&str; 8] = [
    "tool-post-stud",
    "idler-shaft",
    "pulley-stub",
    "pulley-stub-no-shop",
    "winch-axle",
    "vise-screw",
    "press-screw",
    "pump-shaft",
];

fn turnwright(args: &[&str]) -> std::process::Output {
    Command::new(env!("CARGO_BIN_EXE_turnwright"))
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .args(args)
        .output()
        .expect("the program starts")
}

/// Whether a program can be run; if not, says so, and fails where everything must run.
fn have(program: &str, what: &str) -> bool {
    let there = Command::new(program).arg("--version").output().is_ok_and(|o| o.status.success())
        || Command::new(program).arg("-v").output().is_ok_and(|o| o.status.success());
    if !there {
        eprintln!("\nNOT RUN: {what}: there is no {program} here (tests/run installs it)\n");
        assert!(std::env::var_os("TURNWRIGHT_ALL").is_none(), "{program} is missing: {what}");
    }
    there
}

fn have_typst() -> bool {
    let typst = turnwright::sheet::pdf::program();
    if let Err(why) = &typst {
        eprintln!("\nNOT RUN: PDF: {why}\n");
        assert!(std::env::var_os("TURNWRIGHT_ALL").is_none(), "typst is missing");
    }
    typst.is_ok()
}

fn chromium() -> String {
    std::env::var("TURNWRIGHT_CHROMIUM").unwrap_or_else(|_| "chromium".to_owned())
}

fn pages(pdf: &Path) -> usize {
    let info = Command::new("pdfinfo").arg(pdf).output().expect("pdfinfo");
    let info = String::from_utf8_lossy(&info.stdout).into_owned();
    let line = info.lines().find(|l| l.starts_with("Pages:")).expect("a page count");
    line.trim_start_matches("Pages:").trim().parse().expect("a number")
}

fn text(pdf: &Path) -> String {
    let out = Command::new("pdftotext").arg("-layout").arg(pdf).arg("-").output().expect("pdftotext");
    String::from_utf8_lossy(&out.stdout).into_owned()
}

fn aims(sample: &str) -> Vec<String> {
    let output = turnwright(&["plan", &format!("samples/{sample}.yaml"), "--format", "json"]);
    let plan: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let operations =
        plan["setups"].as_array().expect("setups").iter().flat_map(|s| s["operations"].as_array().expect("ops"));
    operations
        .filter(|o| o["verb"] != "polish")
        .filter_map(|o| o["to_diameter"].as_f64())
        .map(|aim| format!("{aim:.4}").trim_start_matches('0').trim_end_matches('0').to_owned())
        .collect()
}

#[test]
fn a_pdf_holds_every_size_on_both_papers() {
    if !have_typst() || !have("pdftotext", "reading the PDF again") {
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    for sample in SAMPLES {
        for paper in ["letter", "a4"] {
            let pdf = folder.path().join(format!("{sample}-{paper}.pdf"));
            let path = pdf.to_str().expect("a path");
            let output = turnwright(&["sheet", &format!("samples/{sample}.yaml"), "-o", path, "--paper", paper]);
            assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
            let text = text(&pdf);
            for aim in aims(sample) {
                assert!(text.contains(&aim), "{sample} on {paper}: {aim}");
            }
            assert!(
                text.contains("DATUM END") && text.contains(&format!("{} / {}", pages(&pdf), pages(&pdf))),
                "{sample}"
            );
            assert!(std::fs::metadata(&pdf).expect("a file").len() < 300_000, "{sample} is too large");
        }
    }
}

#[test]
fn html_prints_to_the_pages_of_the_pdf() {
    if !have_typst() || !have(&chromium(), "printing the HTML") || !have("pdfinfo", "counting pages") {
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    for sample in SAMPLES {
        let at = |ending: &str| folder.path().join(format!("{sample}{ending}"));
        let part = format!("samples/{sample}.yaml");
        for ending in [".html", ".pdf"] {
            let output = turnwright(&["sheet", &part, "-o", at(ending).to_str().expect("a path")]);
            assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
        }
        let printed = at("-printed.pdf");
        let status = Command::new(chromium())
            .args(["--headless", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking"])
            .args(["--disable-component-update", "--disable-sync", "--no-pdf-header-footer"])
            .arg(format!("--user-data-dir={}", folder.path().join("profile").display()))
            .arg(format!("--print-to-pdf={}", printed.display()))
            .arg(format!("file://{}", at(".html").display()))
            .output()
            .expect("chromium");
        assert!(printed.exists(), "{}", String::from_utf8_lossy(&status.stderr));
        assert_eq!(pages(&printed), pages(&at(".pdf")), "{sample}: the browser prints other pages than the PDF has");
        let text = text(&printed);
        for aim in aims(sample) {
            assert!(text.contains(&aim), "{sample}: {aim}");
        }
        look_alike(sample, &at(".pdf"), &printed, folder.path());
    }
}

/// A word on a page of a PDF, in points: left, top, right, bottom.
type Word = ([f64; 4], String);

/// The words of each page, by poppler: another program's reading of where they stand.
fn words_of(pdf: &Path) -> Vec<Vec<Word>> {
    let out = Command::new("pdftotext").arg("-bbox").arg(pdf).arg("-").output().expect("pdftotext");
    let mut pages: Vec<Vec<Word>> = Vec::new();
    for line in String::from_utf8_lossy(&out.stdout).lines() {
        if line.contains("<page ") {
            pages.push(Vec::new());
        }
        let Some((numbers, text)) = line.split_once("<word ").and_then(|(_, rest)| rest.split_once('>')) else {
            continue;
        };
        let sides: Vec<f64> = numbers.split('"').skip(1).step_by(2).filter_map(|n| n.parse().ok()).collect();
        let [left, top, right, bottom] = sides[..] else { panic!("{line}") };
        let text = text.trim_end_matches("</word>").to_owned();
        pages.last_mut().expect("a page").push(([left, top, right, bottom], text));
    }
    pages
}

/// The ink of a word: a font's box is higher than its letters, and lines stand closer than boxes; upright words are turned.
fn ink(([left, top, right, bottom], text): &Word) -> [f64; 4] {
    let (wide, high) = (right - left, bottom - top);
    if text.chars().count() > 2 && high > 1.6 * wide {
        return [left + 0.32 * wide, top + 0.6, right - 0.32 * wide, bottom - 0.6];
    }
    [left + 0.6, top + 0.3 * high, right - 0.6, bottom - 0.28 * high]
}

/// Nothing is printed over anything else, or beyond the margins: the full sheet, the compact one and the cards, in both languages.
#[test]
fn no_word_stands_on_another() {
    if !have_typst() || !have("pdftotext", "reading where words stand") {
        return;
    }
    // The measure finds what it looks for.
    let word = |left: f64, top: f64| ([left, top, left + 40.0, top + 16.0], "word".to_owned());
    let clash = |a: &Word, b: &Word| {
        let (a, b) = (ink(a), ink(b));
        a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3]
    };
    assert!(clash(&word(0.0, 0.0), &word(30.0, 4.0)) && !clash(&word(0.0, 0.0), &word(0.0, 14.4)));
    let folder = tempfile::tempdir().expect("a folder");
    let mut seen = 0;
    for sample in SAMPLES {
        for (pages, language) in [("full", "en"), ("compact", "en"), ("cards", "en"), ("full", "de"), ("cards", "de")] {
            let pdf = folder.path().join(format!("{sample}-{pages}-{language}.pdf"));
            let part = format!("samples/{sample}.yaml");
            let path = pdf.to_str().expect("a path");
            let output = turnwright(&["sheet", &part, "-o", path, "--pages", pages, "--language", language]);
            assert!(pdf.exists(), "{}", String::from_utf8_lossy(&output.stderr));
            for (i, words) in words_of(&pdf).iter().enumerate() {
                for (n, a) in words.iter().enumerate() {
                    // 20 mm at the binding edge, 12 mm at the other of the 210 mm that both papers share.
                    let at = format!("{sample} {pages} {language} page {}: {a:?}", i + 1);
                    assert!(a.0[0] > 56.0 && a.0[2] < 562.0, "beyond the margins: {at}");
                    let on = words[n + 1..].iter().find(|b| clash(a, b));
                    assert!(on.is_none(), "{at} on {on:?}");
                }
                seen += words.len();
            }
        }
    }
    assert!(seen > 50_000, "{seen} words");
}

/// Brightness of each dot of a page at 20 dots an inch: coarse enough that two programs' edges of letters do not count.
fn dots(pdf: &Path, page: usize, folder: &Path) -> Vec<u8> {
    let number = page.to_string();
    let picture = folder.join("dots");
    let done = Command::new("pdftoppm")
        .args(["-gray", "-r", "20", "-f", &number, "-l", &number, "-singlefile"])
        .args([pdf, &picture])
        .status()
        .expect("pdftoppm");
    assert!(done.success());
    let bytes = std::fs::read(folder.join("dots.pgm")).expect("a picture");
    // PGM: P5, width, height, 255, each followed by one white space.
    let head: usize = bytes.split_inclusive(u8::is_ascii_whitespace).take(4).map(<[u8]>::len).sum();
    bytes[head..].to_vec()
}

/// The page that Typst set against the page that Chromium printed: two programs, one drawing code, the same paper.
fn look_alike(sample: &str, pdf: &Path, printed: &Path, folder: &Path) {
    let of = pages(pdf);
    let mut last = Vec::new();
    for page in [1, 2, of / 2, of] {
        let (a, b) = (dots(pdf, page, folder), dots(printed, page, folder));
        // The two round the size of the paper to whole dots, each in its own way.
        assert!(a.len().abs_diff(b.len()) <= 500, "{sample} page {page}: {} and {} dots", a.len(), b.len());
        let ink = |dots: &[u8]| dots.iter().map(|d| u64::from(255 - d)).sum::<u64>() as f64;
        let share = [-ROW, -1, 0, 1, ROW].into_iter().map(|by| moved(&a, &b, by)).fold(f64::INFINITY, f64::min)
            / ink(&a).max(1.0);
        println!("{sample} page {page}: {:.0} % of the ink stands elsewhere", share * 100.0);
        assert!(share < MOVED, "{sample} page {page}: {share:.2} of the ink stands elsewhere");
        // Another page is told from this one, or the measure means nothing.
        if !last.is_empty() {
            let other = moved(&last, &b, 0) / ink(&b).max(1.0);
            assert!(other > 1.4 * share, "{sample} page {page} is no nearer to itself than to another");
        }
        last = a;
    }
}

/// Dots of a row of Letter at 20 dots an inch.
const ROW: isize = 170;

/// How much ink two pages have in different places, when one is moved by so many dots.
fn moved(a: &[u8], b: &[u8], by: isize) -> f64 {
    let there = |i: usize| i.checked_add_signed(by).and_then(|i| b.get(i)).copied().unwrap_or(255);
    a.iter().enumerate().map(|(i, a)| u64::from(a.abs_diff(there(i)))).sum::<u64>() as f64
}

/// Share of a page's ink that may stand elsewhere between two programs (measured on the samples: 9 to 40 %, 73 % on
/// a page of thin lines alone; between two different pages 87 % and more).
const MOVED: f64 = 0.8;

/// Tags, titles and bookmarks, read by a library that had no part in writing them.
#[test]
fn a_pdf_is_tagged_titled_and_has_a_bookmark_a_setup() {
    if !have_typst() {
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    for sample in SAMPLES {
        let pdf = folder.path().join(format!("{sample}.pdf"));
        turnwright(&["sheet", &format!("samples/{sample}.yaml"), "-o", pdf.to_str().expect("a path")]);
        let bytes = std::fs::read(&pdf).expect("a PDF");
        let document = lopdf::Document::load_mem(&bytes).expect("a PDF");
        let catalog = document.catalog().expect("a catalog");
        let follow = |o: &lopdf::Object| document.dereference(o).expect("an object").1.clone();
        let says = |o: &lopdf::Object, key: &[u8]| {
            o.as_dict().and_then(|d| d.get(key)).and_then(lopdf::Object::as_bool).is_ok_and(|b| b)
        };
        let marked = follow(catalog.get(b"MarkInfo").expect("MarkInfo"));
        assert!(says(&marked, b"Marked"));
        assert_eq!(follow(catalog.get(b"Lang").expect("a language")).as_str().expect("text"), b"en");
        let metadata = follow(catalog.get(b"Metadata").expect("metadata"));
        let metadata = String::from_utf8_lossy(&metadata.as_stream().expect("a stream").content).into_owned();
        // ISO 14289-1 (PDF/UA-1), 5: the file says which part it keeps; 7.1: it has a title, and shows it.
        assert!(
            metadata.contains("pdfuaid:part>1<") || metadata.contains("pdfuaid:part=\"1\""),
            "{sample}: {metadata:.400}"
        );
        assert!(metadata.contains("setup sheet"), "{sample}: no title");
        let shown = follow(catalog.get(b"ViewerPreferences").expect("preferences"));
        assert!(says(&shown, b"DisplayDocTitle"));
        let mut figures = 0;
        let mut kinds = std::collections::BTreeMap::<String, usize>::new();
        for object in document.objects.values() {
            let Ok(element) = object.as_dict() else { continue };
            let Ok(kind) = element.get(b"S").and_then(lopdf::Object::as_name) else { continue };
            if element.get(b"P").is_err() {
                continue;
            }
            *kinds.entry(String::from_utf8_lossy(kind).into_owned()).or_default() += 1;
            if kind == b"Figure" {
                figures += 1;
                let alt = element.get(b"Alt").map(follow).expect("ISO 14289-1, 7.3: a figure has its alternative text");
                assert!(alt.as_str().expect("text").len() > 20, "{sample}: a figure says {alt:?}");
            }
        }
        for kind in ["H1", "H2", "Table", "TR", "TH", "TD", "LI"] {
            assert!(kinds.contains_key(kind), "{sample}: no {kind} among {kinds:?}");
        }
        let plan = turnwright(&["plan", &format!("samples/{sample}.yaml"), "--format", "json"]);
        let plan: Value = serde_json::from_slice(&plan.stdout).expect("JSON");
        let setups = plan["setups"].as_array().expect("setups").len();
        let toc = document.get_toc().expect("bookmarks");
        let titles: Vec<&str> = toc.toc.iter().map(|t| t.title.as_str()).collect();
        for n in 1..=setups {
            assert_eq!(
                titles.iter().filter(|t| t.starts_with(&format!("Setup {n}:"))).count(),
                1,
                "{sample}: {titles:?}"
            );
        }
        assert!(figures >= setups - 1, "{sample}: {figures} pictures for {setups} setups");
        println!("{sample}: {} bytes, {kinds:?}", bytes.len());
    }
}

/// Nothing is fetched: the page names no address outside itself, and its policy forbids every request.
#[test]
fn html_asks_nothing_of_the_network() {
    for sample in SAMPLES {
        let html = String::from_utf8(turnwright(&["sheet", &format!("samples/{sample}.yaml"), "-o", "-"]).stdout)
            .expect("UTF-8");
        assert!(html.contains("Content-Security-Policy") && html.contains("default-src 'none'"), "{sample}");
        for outside in ["src=\"http", "href=\"http", "url(http", "@import"] {
            assert!(!html.contains(outside), "{sample}: {outside}");
        }
    }
}

#[test]
fn without_typst_the_error_says_how_to_get_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let pdf = folder.path().join("stub.pdf");
    let output = Command::new(env!("CARGO_BIN_EXE_turnwright"))
        .current_dir(folder.path())
        .env("PATH", folder.path())
        .env("TURNWRIGHT_TYPST", folder.path().join("no-such-typst"))
        .arg("sheet")
        .arg(Path::new(env!("CARGO_MANIFEST_DIR")).join("samples/pulley-stub-no-shop.yaml"))
        .arg("-o")
        .arg(&pdf)
        .output()
        .expect("the program starts");
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(said.contains("typst") && said.contains("cargo install") && said.contains("HTML"), "{said}");
    assert!(!pdf.exists());
}
