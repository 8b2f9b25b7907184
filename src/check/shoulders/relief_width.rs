#![doc = include_str!("relief_width.md")]

use crate::check::shape::{Relief, number, times};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::handbook::thread::relief_source;
use crate::model::feature::{Hand, Thread};
use crate::unit::Length;
use crate::{tell, told};

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
    limit: Option<&'static str>,
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
    let message = tell!(
        "{} is {} wide, {} pitches of {}: the tool wants {} ({}) to stop in",
        "{} ist {} breit, {} Steigungen von {}: der Stahl braucht {} ({}) zum Anhalten",
        relief.feature.called(),
        facts.show(relief.width),
        number(relief.width.mm() / thread.pitch.mm()),
        thread.designation,
        facts.show(wanted.width),
        wanted.words
    );
    let mut finding = Finding::new(CHECK.id, severity, message)
        .at(relief.feature.head)
        .of(relief.feature.letter.clone())
        .length("width", relief.width)
        .length("wanted", wanted.width)
        .help(tell!(
            "Make it at least {} wide, or cut the thread at the slowest gear and accept it",
            "Mindestens {} breit machen, oder das Gewinde im langsamsten Gang schneiden und dies annehmen",
            facts.at_least(wanted.width)
        ))
        .source(wanted.source.clone());
    finding.by_limits = if severity == Severity::Error { vec!["least"] } else { wanted.limit.into_iter().collect() };
    finding
}

/// DIN 76-1 rules a standard right-hand metric thread; a left-hand one starts in the relief and wants room for that; a multi-start
/// one moves a whole lead in a turn.
fn wanted(facts: &Facts<'_>, thread: &Thread) -> Wanted {
    let practice = |width, words: String, limit| Wanted { width, words, source: CHECK.source.to_owned(), limit };
    let left = thread.hand == Hand::Left;
    let name = if left { "left hand" } else { "pitches" };
    let count = facts.limit_number(CHECK.id, name);
    let pitches = times(thread.pitch, count);
    if thread.starts > 1 && thread.lead > pitches {
        return practice(thread.lead, "one lead".to_owned(), None);
    }
    if !left
        && !thread.inch
        && let Some(din) = din_76(thread)
    {
        return din;
    }
    let start = if left { told!(" where a left-hand thread starts", " wo ein Linksgewinde beginnt") } else { "" };
    practice(pitches, tell!("{} pitches{start}", "{} Steigungen{start}", number(count)), Some(name))
}

/// Least width of the metric standard, where it has this pitch.
fn din_76(thread: &Thread) -> Option<Wanted> {
    let data = Facts::thread_data(thread)?;
    let relief = data.relief.filter(|r| r.radius.is_some())?;
    let source = relief_source(&data).line();
    Some(Wanted {
        width: relief.width_min,
        words: told!("the least of DIN 76-1", "das wenigste nach DIN 76-1").to_owned(),
        source,
        limit: None,
    })
}
