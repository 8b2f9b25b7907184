#![doc = include_str!("diameter.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::Kind;
use crate::model::part::StockShape;
use crate::unit::Length;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "stock-diameter",
    severity: Severity::Error,
    group: "stock",
    source: "common practice, no source",
    page: include_str!("diameter.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let (Some(stock), Some((section, largest))) = (&facts.part.stock, facts.largest_turned()) else { return };
    let state = facts.bar_state();
    let name = if state.condition.has_scale() { "hot rolled" } else { "cold drawn" };
    // A pipe's own outside is the blank of its thread (ASME B1.20.1): nothing is to clean up.
    let on_pipe = matches!(stock.shape, StockShape::Tube { .. })
        && matches!(&section.kind, Kind::Thread { thread, .. } if thread.taper.is_some());
    let clean_up = if on_pipe { Length::ZERO } else { facts.limit(CHECK.id, name) };
    let (bar, wanted) = (stock.size.nominal, largest + clean_up);
    if bar >= wanted {
        return;
    }
    let message = tell!(
        "the bar is {}{}, but {} {} {} and wants {} of clean-up ({})",
        "die Stange hat {}{}, aber {} {} {} und braucht {} zum Säubern ({})",
        facts.show(bar),
        if stock.shape.has_corners() {
            told!(
                " across flats, and no larger round can be turned from it",
                " über die Flächen, und ein größeres Rund lässt sich daraus nicht drehen"
            )
        } else {
            ""
        },
        section.called(),
        if section.sweeps().is_positive() { told!("sweeps", "schwingt") } else { told!("is", "hat") },
        facts.show(largest),
        facts.show(clean_up),
        state.words()
    );
    out.push(
        Finding::new(CHECK.id, Severity::Error, message)
            .by_limit(name)
            .at(stock.size.place)
            .also(section.head, "the largest that is turned")
            .of(section.letter.clone())
            .length("bar", bar)
            .length("wanted", wanted)
            .help(tell!(
                "Take a bar of {} or larger, or keep its own surface there: `turn: stock`",
                "Eine Stange von {} oder größer nehmen, oder dort ihre Oberfläche lassen: `turn: stock`",
                facts.show(wanted)
            )),
    );
}
