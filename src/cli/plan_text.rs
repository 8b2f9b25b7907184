//! `plan` and `marks` for a person at a terminal.

use std::fmt::Write;

use super::job::{Job, Planned};
use crate::figures::{Edge, Figure, Job as Work, OperationFigures, rest_words};
use crate::model::plan::{Alternative, Operation, Plan, Setup};
use crate::unit::Unit;

/// The plan, a block a setup.
pub(super) fn plan(job: &Job, planned: &Planned) -> String {
    let unit = job.unit();
    let mut out = String::new();
    if let Some(part) = job.part() {
        let _ = writeln!(out, "{} ({})", part.name.text, unit.word());
    }
    begun(&mut out, planned, unit);
    for (setup, figures) in planned.plan.setups.iter().zip(&planned.figures.setups) {
        let _ = writeln!(out, "\n{}", heading(setup));
        for w in &setup.why {
            let _ = writeln!(out, "    why: {} ({})", w.reason, w.source);
        }
        for (operation, figures) in setup.operations.iter().zip(&figures.operations) {
            let _ = writeln!(out, "{}", row(job, operation, figures));
            for c in &figures.changed {
                let _ = writeln!(out, "           CHANGED {}: {}, was {}", c.what, c.now, c.was);
            }
            if let Some(says) = &operation.again {
                let _ = writeln!(out, "           {says}");
            }
            for w in &operation.why {
                let rule = if w.rule.is_empty() { String::new() } else { format!("{}: ", w.rule) };
                let _ = writeln!(out, "           {rule}{} ({})", w.reason, w.source);
            }
        }
    }
    let proof = if planned.plan.proven_optimal {
        "no order that keeps the rules costs less".to_owned()
    } else {
        format!("not proven the least: no order costs less than {:.1}", planned.plan.lower_bound)
    };
    let _ = writeln!(out, "\n{:.1} minutes by the shop's own times; {proof}", planned.plan.cost);
    if planned.plan.proven_optimal && planned.plan.floor < planned.plan.cost - 0.005 {
        let why = why_no_lower(&planned.plan);
        let floor = planned.plan.floor;
        let _ =
            writeln!(out, "that is with the minutes told here; {why}, and no order at all costs less than {floor:.1}");
    }
    for way in &planned.plan.compared {
        let _ = writeln!(out, "searched by itself: {}: {:.1} minutes", way.says, way.cost);
    }
    equally_good(&mut out, planned);
    for w in &planned.plan.given_way {
        let why =
            if w.reason.starts_with(crate::model::plan::OUTWEIGHED) { "" } else { ", since no order keeps all rules" };
        let _ = writeln!(out, "given way{why}: {}: {} ({})", w.rule, w.reason, w.source);
    }
    assumed(&mut out, planned);
    out
}

/// What is done already, and what to know of the rest.
fn begun(out: &mut String, planned: &Planned, unit: Unit) {
    let done: Vec<String> = planned.plan.done.iter().map(|(n, verb)| format!("{n} {verb}")).collect();
    if !done.is_empty() {
        let _ = writeln!(out, "\ndone and left out: {}", done.join(", "));
    }
    if planned.plan.setups.is_empty() {
        let _ = writeln!(out, "nothing is left to do");
    }
    for says in planned.plan.rest.iter().flat_map(|r| rest_words(r, unit)) {
        let _ = writeln!(out, "measured: {says}");
    }
    for (wish, why) in planned.derived.wishes_not_followed() {
        let rule = if matches!(why.rule, "wish" | "") { String::new() } else { format!("{}: ", why.rule) };
        let _ = writeln!(out, "not followed: `{wish}`: {rule}{} ({})", why.reason, why.source);
    }
    for remark in &planned.plan.remarks {
        let _ = writeln!(out, "note: {remark}");
    }
}

/// Why no order is proven to cost less than the floor, and the plan still costs more.
fn why_no_lower(plan: &crate::model::Plan) -> &'static str {
    if plan.operations().any(|(_, o)| o.spring > 0 || o.lighter.is_some()) {
        "lighter cuts and passes without infeed where the work gives way are known only of an order that was found"
    } else if plan.setups.iter().any(|s| s.rest.as_ref().is_some_and(|r| r.follows)) {
        "whether a follow rest is set, how slow a mounting turns and what a cut finds is known only of an order that was found"
    } else {
        "how slow a mounting turns and what a cut finds depends on what else is cut, and when"
    }
}

/// How many orders are as good, and what it costs to do without a holding: the price of disagreeing.
fn equally_good(out: &mut String, planned: &Planned) {
    if let Some(count) = planned.certificate.optimal_orders.filter(|n| *n > 1) {
        // Which of them grips with the least harm is not searched where there are too many.
        let gentle = if planned.certificate.gentlest { "grips bar and loose sections before seats, then " } else { "" };
        let _ =
            writeln!(out, "{count} orders are equally good; this one {gentle}keeps closest to the order of the hand");
    }
    let plan = &planned.plan;
    let mut said: Vec<&Alternative> = Vec::new();
    for (i, other) in plan.others.iter().enumerate() {
        if said.iter().any(|known| known.is_same(other)) {
            continue;
        }
        let more = other.more(plan);
        let proof = if other.lower_bound < other.cost { " at most" } else { "" };
        if other.is_as_quick(plan) {
            let _ = writeln!(out, "an equally quick plan: {}", instead(plan, other));
            said.push(other);
        } else if i == 0 {
            let same = plan.others.iter().filter(|o| o.is_same(other)).map(|o| format!("\"{}\"", o.without));
            let (without, does) = (same.collect::<Vec<_>>().join(" and "), instead(plan, other));
            let _ = writeln!(out, "the next best plan, {more:.1} minutes more{proof}, does without {without}: {does}");
            said.push(other);
        } else {
            let _ = writeln!(out, "without \"{}\": {more:.1} minutes more{proof}", other.without);
        }
    }
    if let Some(why) = plan.no_second {
        let _ = writeln!(out, "{}", crate::sheet::words::no_second(why));
    }
}

/// What another plan does instead, its holdings by their names here.
fn instead(plan: &Plan, other: &Alternative) -> String {
    crate::sheet::words::instead_named(plan, other, |setup| format!("\"{}\"", setup.name))
}

fn assumed(out: &mut String, planned: &Planned) {
    let mut head = "\nASSUMED: change what is not true of your shop\n";
    for a in planned.assumed() {
        let source = if a.source.is_empty() { String::new() } else { format!(" ({})", a.source) };
        let _ = writeln!(out, "{head}  {}: {}{source}", a.what, a.value);
        head = "";
    }
}

fn heading(setup: &Setup) -> String {
    let mut text = format!("SETUP {}  {}", setup.number, setup.held());
    if setup.works.is_some() {
        let _ = write!(text, ", DATUM END at the {}", setup.datum_end.word().to_uppercase());
    }
    text
}

fn row(job: &Job, o: &Operation, f: &OperationFigures) -> String {
    let unit = job.unit();
    let letter = o.feature.and_then(|id| job.part()?.features.get(id)).map(|f| f.letter.clone()).unwrap_or_default();
    let mut text = format!("{:>5}  {:<2} {:<9}", o.number, letter, o.verb.word());
    if let Some(aim) = f.aim {
        let _ = write!(text, " Ø {}", aim.text(unit));
        if let Some(l) = f.limits {
            let _ = write!(text, " ({}/{})", l.max.text(unit), l.min.text(unit));
        }
        if let Some(read) = f.on_scale {
            let limits = read.limits_text().map_or(String::new(), |(max, min)| format!(" ({max}/{min})"));
            let _ = write!(text, " = {} {}{limits}", read.size_text(), read.unit.word());
        }
    }
    for p in &f.positions {
        let edge = match p.edge {
            Edge::Left => " left edge",
            Edge::Right => " right edge",
            Edge::None => "",
        };
        let _ = write!(text, "; {} {} from datum", p.what, p.from_datum.text(unit));
        if let Some(c) = p.carriage {
            let _ = write!(text, ", carriage {}{edge}", p.dial.map_or_else(|| c.text(unit), |d| d.text(unit)));
        }
    }
    if let Some(d) = &f.cross_dial {
        let _ = write!(text, "; cross dial {} {}", d.infeed_text(unit), d.reads.word());
    }
    if let Some(gear) = f.speed.as_ref().and_then(|s| s.gear) {
        let _ = write!(text, "; {gear} rpm");
    }
    match &f.job {
        Work::Thread(t) => {
            let _ = write!(text, " {}; passes {}", t.designation, list(&t.passes, unit));
            if let Some(w) = &t.wires {
                let _ = write!(
                    text,
                    "; over {} wires {}/{}",
                    w.wire.text(unit),
                    w.over.max.text(unit),
                    w.over.min.text(unit)
                );
            }
        }
        Work::Keyseat(k) => {
            let (top, across) = (k.depth_from_top.text(unit), k.across_bottom.text(unit));
            let _ = write!(text, " {}; {top} deep from the top, {across} across the bottom", k.key);
            if let Some(r) = k.roughed {
                let (rough, deep) = (r.diameter.text(unit), r.depth_from_top.text(unit));
                let _ = write!(text, " once finished; now {deep} deep from the top of the roughed Ø {rough}");
            }
        }
        Work::Chamfer(c) => {
            let _ = write!(text, " {}", c.says);
        }
        _ => {}
    }
    text
}

fn list(figures: &[Figure], unit: Unit) -> String {
    figures.iter().map(|f| f.text(unit)).collect::<Vec<_>>().join(" ")
}

/// The two lists of marks.
pub(super) fn marks(job: &Job, planned: &Planned) -> String {
    let unit = job.unit();
    let mut out = String::new();
    for l in &planned.figures.marks.lists {
        let _ = writeln!(out, "{}: {}; standing on the {}", l.name, l.when, l.standing_on);
        for m in &l.marks {
            let gauge = m.height_gauge.text(unit);
            let _ =
                writeln!(out, "  {:<4} height gauge {gauge:>7}  on {}: {}, {}", m.label, m.on, m.means, m.leave.word());
        }
    }
    if let Some(l) = &planned.figures.marks.lying {
        let _ = writeln!(out, "lying: {}; in V-blocks", l.when);
        for m in &l.marks {
            let prick = if m.prick { ", prick" } else { "" };
            let below = m.setting(unit);
            let _ = writeln!(out, "  {:<4} over the round less {below:>7}: {}{prick}", m.label, m.means);
        }
    }
    for note in &planned.figures.marks.notes {
        let _ = writeln!(out, "{note}");
    }
    out
}
