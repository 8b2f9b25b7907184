//! The tolerance chart against published examples, against its own laws, and as a command.

mod command;
mod examples;
mod independent;
mod laws;
mod plans;

use turnwright::chain::chart::{Worked, work};
use turnwright::model::chart::Chart;
use turnwright::read;
use turnwright::unit::{Length, Unit};

/// A chart from its text, without slips.
pub(crate) fn chart(text: &str) -> Chart {
    let read = read::chart("chart.yaml", text.as_bytes());
    assert!(read.slips.is_empty(), "{text}: {:?}", read.slips);
    read.chart.expect("a chart")
}

pub(crate) fn worked(text: &str) -> (Chart, Worked) {
    let chart = chart(text);
    let worked = work(&chart);
    (chart, worked)
}

/// Millimetres as text, exact.
pub(crate) fn mm(length: Option<Length>) -> String {
    turnwright::unit::show::plain(length.expect("a length"), Unit::Millimetre, 4)
        .trim_end_matches('0')
        .trim_end_matches('.')
        .to_owned()
}

/// Inches as text, exact.
pub(crate) fn inches(length: Option<Length>) -> String {
    turnwright::unit::show::plain(length.expect("a length"), Unit::Inch, 5).trim_end_matches('0').to_owned()
}
