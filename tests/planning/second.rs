//! The plans beside the one chosen: what the runner-up does without, what it does instead, and that it is said where none was looked for.

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::process::Command;

use turnwright::model::End;
use turnwright::model::plan::{Alternative, NoSecond};
use turnwright::plan::Planned;
use turnwright::plan::order::{Limits, Minutes, solve};
use turnwright::plan::without_each_holding;

use crate::planning::parts::STUB;
use crate::planning::plan_of;

/// A roller whose body is turned from either end.
const ROLLER: &str = "part: roller\nunits: in\nmaterial: 12L14\nstock: 1.500 x 3.125\ndatum: left end\noverall: 3.000 ±0.010\n\
tolerances: {lengths: ±0.010, diameters: ±0.005}\nfeatures:\n  - turn: 1.000\n    to: 1.000\n  - turn: 1.400\n    to: 2.000\n  - turn: 1.000\n    \
to: end\n  - center hole: none\n    end: both\n";

/// A stop of bar that stays, with a journal: held on the bar or on its own finished part, it takes as long.
const STOP: &str = "part: stop\nunits: in\nmaterial: 1045 cold drawn\nstock: 1.065 x 4.287\ndatum: left end\noverall: 4.162\n\
tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 0.500\n    to: 0.632\n  - turn: stock\n    to: end\n";

fn with_others(text: &str) -> Planned {
    let mut p = plan_of(text);
    without_each_holding(&p.certificate, &p.beside, &p.derived.mountings, &mut p.plan);
    p
}

/// What the program prints: the plan, or a sheet in a language.
fn printed(text: &str, args: &[&str]) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("part.yaml"), text).expect("written");
    std::fs::write(folder.path().join("shop.yaml"), include_str!("../../samples/shop.yaml")).expect("written");
    let run = Command::new(env!("CARGO_BIN_EXE_turnwright")).args(args).current_dir(folder.path()).output();
    String::from_utf8_lossy(&run.expect("the program starts").stdout).into_owned()
}

fn sheet(text: &str, language: &str) -> String {
    printed(text, &["sheet", "part.yaml", "--format", "md", "--language", language, "-o", "-"])
}

/// Held against the certificate: the minutes are those of the problem without the holding, what was done there is done elsewhere, each operation in a
/// mounting of its own list, and nothing is left out that moved.
fn holds(p: &Planned, other: &Alternative) {
    let least = [&p.certificate].into_iter().chain(&p.beside).filter_map(|c| {
        let mut fewer = c.problem.clone();
        fewer.ops.iter_mut().for_each(|op| op.setups.retain(|s| *s != other.without));
        solve(&fewer, Limits::default()).ok()
    });
    let least = least.map(|a| a.cost).min().expect("an order without it");
    assert_eq!(Minutes::from_thousandths((other.cost * 1000.0).round() as u64), least);
    let moved: BTreeSet<&str> = other.instead.iter().flat_map(|i| i.operations.iter().map(String::as_str)).collect();
    for (setup, o) in p.plan.operations() {
        let place = other.instead.iter().find(|i| i.operations.contains(&o.id)).map(|i| i.setup.name.as_str());
        assert_eq!(place.is_some(), moved.contains(o.id.as_str()));
        assert!(place.is_some() || setup.name != other.without, "{} has no other place", o.id);
        let now = place.unwrap_or(&setup.name);
        // In one of the ways round that were searched.
        let ops = [&p.certificate].into_iter().chain(&p.beside).flat_map(|c| &c.problem.ops);
        let allowed = ops.filter(|op| op.id == o.id).flat_map(|op| &op.setups).any(|s| s == now);
        assert!(allowed && place != Some(setup.name.as_str()), "{} in {now}", o.id);
        assert!(other.setups.iter().any(|s| s == now), "{now} is no setup of it");
    }
    assert!(other.instead.iter().all(|i| i.setup.name != other.without));
}

#[test]
fn the_runner_up_says_what_it_does_instead() {
    for text in [STUB, ROLLER, STOP] {
        let p = with_others(text);
        assert!(!p.plan.others.is_empty() && p.plan.no_second.is_none());
        p.plan.others.iter().for_each(|other| holds(&p, other));
    }
    let p = with_others(ROLLER);
    let next = &p.plan.others[0];
    assert_eq!((next.setups.len(), next.first_end), (4, Some(End::Far)), "{next:?}");
    let (more, said) = (format!("{:.1}", next.more(&p.plan)), printed(ROLLER, &["plan", "part.yaml"]));
    let line = said.lines().find(|l| l.starts_with("the next best plan, ")).expect("a runner-up");
    assert!(line.starts_with(&format!("the next best plan, {more} minutes more, does without \"{}\"", next.without)));
    assert!(
        line.ends_with("in \"chuck, datum end out, on B\"; 4 setups instead of 3; the far end turned first"),
        "{line}"
    );
    let german = sheet(ROLLER, "de");
    let line = german.lines().find(|l| l.contains("Der nächstbeste Plan")).expect("a runner-up");
    assert!(line.contains(&format!("{more} Minuten mehr, kommt aus ohne „Futter, Gegenende frei, auf B“: ")), "{line}");
    assert!(
        line.ends_with("„Futter, Bezugsende frei, auf B“; 4 Spannlagen statt 3; das Gegenende zuerst gedreht."),
        "{line}"
    );
    assert!(
        sheet(ROLLER, "en")
            .contains("in “Chuck, datum end out, on B”; 4 setups instead of 3; the far end turned first.")
    );
}

/// The stub's runner-up turns the far end first; both holdings it does without are told in one line.
#[test]
fn the_runner_up_says_which_end_it_turns_first() {
    let p = with_others(STUB);
    let next = &p.plan.others[0];
    assert_eq!(next.first_end, Some(End::Far));
    let same = p.plan.others.iter().filter(|o| o.is_same(next)).count();
    assert!(same > 1 && !next.is_as_quick(&p.plan));
    let said = printed(STUB, &["plan", "part.yaml"]);
    assert_eq!(
        said.matches("the next best plan").count() + said.matches("without \"").count(),
        1 + p.plan.others.len() - same + 1
    );
    assert!(said.contains("\" and \"") && said.contains("; the far end turned first"), "{said}");
    assert!(sheet(STUB, "de").contains("; das Gegenende zuerst gedreht."));
}

#[test]
fn a_plan_that_takes_no_longer_is_told_as_such() {
    let p = with_others(STOP);
    assert!(p.plan.others[0].is_as_quick(&p.plan));
    let said = printed(STOP, &["plan", "part.yaml"]);
    assert!(said.contains("\nan equally quick plan: 10 to ") && !said.contains("next best"), "{said}");
    let (english, german) = (sheet(STOP, "en"), sheet(STOP, "de"));
    assert!(english.contains("An equally quick plan: 10 to ") && !english.contains("takes no longer"), "{english}");
    assert!(german.contains("Ein gleich schneller Plan: 10 bis "), "{german}");
}

#[test]
fn where_no_second_plan_is_looked_for_it_is_said() {
    let mut text = "part: organ pipe\nunits: in\nmaterial: 12L14\nstock: 2.500 x 12.125\ndatum: thin end\noverall: 12.000 ±0.010\n\
tolerances: {lengths: ±0.010, diameters: ±0.005}\nfeatures:\n"
        .to_owned();
    for i in 1..=21 {
        let (size, at) = (0.500 + 0.080 * f64::from(i), 0.500 * f64::from(i));
        let _ = write!(
            text,
            "  - turn: {size:.3}\n    to: {at:.3}\n  - groove: {:.3}\n    from: {:.3}\n    wide: 0.100\n",
            size - 0.06,
            at - 0.300
        );
    }
    text += "  - turn: 2.400\n    to: end\n";
    let p = with_others(&text);
    assert!(p.certificate.order.len() > 64, "{}", p.certificate.order.len());
    assert_eq!((p.plan.no_second, p.plan.others.len()), (Some(NoSecond::TooMany(64)), 0));
    let says = "o second plan was looked for: more than 64 operations";
    assert!(printed(&text, &["plan", "part.yaml"]).contains(says));
    assert!(sheet(&text, "de").contains("Nach einem zweiten Plan wurde nicht gesucht: mehr als 64 Arbeitsgänge."));
}
