//! One slip, one finding: usual slips of a pen on a sample, and how many errors each brings. The slips are common practice, no source.

use turnwright::chain::{self, Profile};
use turnwright::check::{self, Facts};
use turnwright::finding::{Finding, Severity};
use turnwright::read;

const SHAFT: &str = "part: shaft\nunits: in\nmaterial: 1045 cold drawn\nstock: 1.250 x 7.125\ndatum: left\noverall: 7.000 ±0.010\n\
    tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 0.875\n    to: 2.500\n  - turn: 1.125\n    to: 4.500\n  - turn: 0.875\n    to: 7.000\n\
  \u{20} - fillet: 0.030 max\n    at: 2.500\n\
dims:\n  - {from: 2.500, to: 4.500, is: 2.000 ±0.010}\n";

fn findings(text: &str) -> Vec<Finding> {
    let read = read::part("p", text.as_bytes());
    let Some(part) = &read.part else { return check::slips_alone(&read.slips) };
    let chain = chain::locate(part);
    let profile = Profile::of(part, &chain);
    check::check(&Facts {
        part,
        slips: &read.slips,
        chain: &chain,
        profile: &profile,
        shop: None,
        derived: None,
        plan: None,
    })
}

fn errors(text: &str) -> Vec<String> {
    let open = findings(text).into_iter().filter(|f| f.severity == Severity::Error);
    open.map(|f| format!("{}: {}", f.check, f.message)).collect()
}

#[test]
fn a_slip_in_a_length_is_told_once() {
    assert_eq!(errors(SHAFT), Vec::<String>::new());
    for (was, is, told) in [
        ("overall: 7.000", "overall: 7.500", "no-overall"),
        ("overall: 7.000", "overall: 6.500", "no-overall"),
        ("overall: 7.000", "overall: -7.000", "not-positive"),
        ("to: 7.000", "to: 6.500", "no-overall"),
        ("to: 7.000", "to: 4.000", "section-overlap"),
        ("to: 7.000", "to: -7.000", "outside-part"),
        ("    to: 2.500", "    to: -2.500", "outside-part"),
        ("    to: 4.500", "    to: 4.500 mm", "section-overlap"),
        ("    to: 4.500", "    too: 4.500", "unknown-key"),
        ("    to: 4.500", "    to: 4,500", "bad-size"),
        ("to: 7.000", "to: 7,000", "bad-size"),
        ("    at: 2.500", "    at: 2.400", "outside-part"),
        ("overall: 7.000 ±0.010\n", "", "no-overall"),
    ] {
        assert!(SHAFT.contains(was), "{was}");
        let found = errors(&SHAFT.replacen(was, is, 1));
        assert!(found.len() == 1 && found[0].starts_with(told), "{was} -> {is}: {found:#?}");
    }
}

/// A face that moved is missed by all that names it: each of those is a place of one finding.
#[test]
fn what_named_a_face_that_moved_is_told_together() {
    let moved = findings(&SHAFT.replacen("    to: 2.500", "    to: 2.400", 1));
    let lost: Vec<&Finding> = moved.iter().filter(|f| f.check == "outside-part").collect();
    assert!(lost.len() == 1 && lost[0].others.len() == 1, "{moved:#?}");
}

#[test]
fn a_shop_file_given_as_a_part_is_told_once() {
    for name in ["shop.yaml", "shop-mm.yaml", "shop-large.yaml"] {
        let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("samples").join(name);
        let found = findings(&std::fs::read_to_string(path).expect("a sample"));
        assert!(
            matches!(&found[..], [f] if f.check == "shop-file" && f.help[0].contains("--shop")),
            "{name}: {found:#?}"
        );
    }
    // A part with one key of a shop file in it is a part.
    let part = SHAFT.replacen("datum:", "leadscrew: 8 tpi\ndatum:", 1);
    assert!(findings(&part).iter().all(|f| f.check != "shop-file"));
}

/// Advice for a part in millimetres has examples in millimetres.
#[test]
fn examples_are_in_the_unit_of_the_part() {
    let metric = "part: pin\nunits: mm\nmaterial: C45\nstock: 32 x 110\ndatum: left\noverall: 100 ±0.2\nfeatures:\n  - turn: 20\n    to: 50\n  - turn: 28\n    to: 100\n  - fillet: 0.5\n";
    let found = findings(metric);
    let help: Vec<&String> = found.iter().flat_map(|f| &f.help).collect();
    assert!(help.iter().any(|h| h.contains("±0.1")) && help.iter().any(|h| h.contains("at: 95")), "{help:#?}");
    assert!(!help.iter().any(|h| h.contains("0.005") || h.contains("3.750")), "{help:#?}");
}

/// A dial written in the other unit than the shop file: the forms shown are none of those that were just refused.
#[test]
fn the_forms_shown_for_a_dial_are_forms_a_dial_takes() {
    let shop = read::shop("s", b"shop: s\nunits: in\ncross dial: {reads: radius, division: 0.02 mm, turn: 4 mm}\n");
    let part = read::part("p", SHAFT.as_bytes()).part.expect("a part");
    let chain = chain::locate(&part);
    let profile = Profile::of(&part, &chain);
    let facts = Facts {
        part: &part,
        slips: &shop.slips,
        chain: &chain,
        profile: &profile,
        shop: shop.shop.as_ref(),
        derived: None,
        plan: None,
    };
    let found = check::check(&facts);
    let bad: Vec<&Finding> = found.iter().filter(|f| f.check == "bad-size").collect();
    assert_eq!(bad.len(), 2, "{found:#?}");
    assert!(bad.iter().all(|f| f.help.iter().all(|h| !h.contains(" mm`") && !h.contains('±'))), "{bad:#?}");
}

/// Pipe by its nominal size; `tests` of the handbook have its sizes from another printing.
#[test]
fn pipe_by_its_nominal_size() {
    use turnwright::model::part::StockShape;
    use turnwright::unit::Length;
    for (written, outside, bore) in [
        ("pipe 1/2 x 6", 840, 622),
        ("1/2 pipe x 6", 840, 622),
        ("pipe 1/2 sch 80 x 6", 840, 546),
        ("pipe 1 1/4 xs x 6", 1_660, 1_278),
        ("pipe 0.840/0.622 x 6", 840, 622),
        ("tube 0.840/0.622 x 6", 840, 622),
    ] {
        let text = SHAFT.replacen("stock: 1.250 x 7.125", &format!("stock: {written}"), 1);
        let read = read::part("p", text.as_bytes());
        let stock = read.part.and_then(|p| p.stock).unwrap_or_else(|| panic!("{written}: {:?}", read.slips));
        let inch = |n: i64| Length::micro_inches(n * 1_000);
        assert_eq!(
            (stock.size.nominal, stock.shape),
            (inch(outside), StockShape::Tube { bore: inch(bore) }),
            "{written}"
        );
        assert_eq!(stock.length.nominal, inch(6_000), "{written}");
    }
    let none = findings(&SHAFT.replacen("stock: 1.250 x 7.125", "stock: pipe 5/8 x 6", 1));
    assert!(none.iter().any(|f| f.check == "bad-size" && f.message.contains("1 1/4")), "{none:#?}");
}

/// What stands at the bar is about a section: its name accepts it as `part` does.
#[test]
fn a_bar_too_thin_is_accepted_by_the_section_it_is_too_thin_for() {
    let thin = SHAFT.replacen("stock: 1.250", "stock: 1.130", 1);
    for place in ["B", "part", "4.500"] {
        let text =
            format!("{thin}accept:\n  - {{check: stock-diameter, where: {place}, because: ground bar in a collet}}\n");
        let found = findings(&text);
        let of_bar: Vec<_> = found.iter().filter(|f| f.check == "stock-diameter").collect();
        assert!(of_bar.len() == 1 && of_bar[0].accepted.is_some(), "{place}: {found:#?}");
        assert!(found.iter().all(|f| f.check != "accept-unused"), "{place}: {found:#?}");
    }
    let other = format!("{thin}accept:\n  - {{check: stock-diameter, where: A, because: no}}\n");
    assert!(findings(&other).iter().any(|f| f.check == "stock-diameter" && f.accepted.is_none()));
}

/// A place told by the other word, where a thing begins for where its centre is, is one finding, and so is an overall with one limit from which other
/// faces hang.
#[test]
fn a_place_by_the_wrong_word_is_told_once() {
    for entry in [
        "groove: 0.800\n    at: 1.000\n    wide: 0.093",
        "keyseat: 1/4 x 1/4 x 1\n    at: 3.000",
        "keyseat: Woodruff 606\n    from: 3.000",
        "cross hole: 0.250\n    from: 3.000",
    ] {
        let text = SHAFT.replace("dims:", &format!("  - {entry}\ndims:"));
        let told = errors(&text);
        assert!(told.len() == 1 && told[0].starts_with("unknown-key"), "{entry}: {told:?}");
    }
    let hung = SHAFT.replace("to: 4.500", "to: 2.500 from end").replace("7.000 ±0.010", "7.000 +0.010");
    let told = errors(&hung);
    assert!(
        told.iter().any(|t| t.starts_with("bad-size")) && !told.iter().any(|t| t.starts_with("chain-loose")),
        "{told:?}"
    );
}
