#![doc = include_str!("relief_width.md")]

use crate::check::shape::{Relief, number, times};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::feature::{Hand, Thread};
use crate::unit::Length;

/// The check.
pub const CHECK: Check = Check {
    id: "relief-width",
    severity: Severity::Warning,
    group: "shoulders",
    source: "common practice, no source",
    page: include_str!("relief_width.md"),
    look,
};

/// What the relief should measure at least, in words and length.
struct Wanted {
    width: Length,
    words: String,
    source: String,
}

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for (_, thread, _, relief) in facts.reliefs() {
        if !relief.shut {
            continue;
        }
        let wanted = wanted(facts, thread);
        if relief.width < wanted.width {
            out.push(finding(facts, thread, relief, &wanted));
        }
    }
}

fn finding(facts: &Facts<'_>, thread: &Thread, relief: Relief<'_>, wanted: &Wanted) -> Finding {
    let least = times(thread.pitch, facts.limit_number(CHECK.id, "least"));
    let severity = if relief.width < least { Severity::Error } else { Severity::Warning };
    let message = format!(
        "{} is {} wide, {} pitches of {}: the tool wants {} ({}) to stop in",
        relief.feature.called(),
        facts.show(relief.width),
        number(relief.width.mm() / thread.pitch.mm()),
        thread.designation,
        facts.show(wanted.width),
        wanted.words
    );
    Finding::new(CHECK.id, severity, message)
        .at(relief.feature.head)
        .of(relief.feature.letter.clone())
        .length("width", relief.width)
        .length("wanted", wanted.width)
        .help(format!(
            "Make it at least {} wide, or cut the thread at the slowest gear and accept it",
            facts.show(wanted.width)
        ))
        .source(wanted.source.clone())
}

/// DIN 76-1 rules a standard metric thread; a left-hand thread starts in the relief and wants room for that; a multi-start one
/// moves a whole lead in a turn.
fn wanted(facts: &Facts<'_>, thread: &Thread) -> Wanted {
    let practice = |width, words: String| Wanted { width, words, source: CHECK.source.to_owned() };
    let pitches = |n: f64| practice(times(thread.pitch, n), format!("{} pitches", number(n)));
    if thread.hand == Hand::Left {
        let mut wanted = pitches(facts.limit_number(CHECK.id, "left hand"));
        wanted.words.push_str(" where a left-hand thread starts");
        return wanted;
    }
    if thread.starts > 1 {
        return practice(thread.lead, "one lead".to_owned());
    }
    if !thread.inch
        && let Some((width, source)) = din_76(thread)
    {
        return Wanted { width, words: "the least of DIN 76-1".to_owned(), source };
    }
    pitches(facts.limit_number(CHECK.id, "pitches"))
}

/// Least width of the metric standard, where it has this pitch.
fn din_76(_thread: &Thread) -> Option<(Length, String)> {
    None
}
