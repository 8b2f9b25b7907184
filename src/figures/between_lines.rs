//! Places whose carriage reading falls between two lines of its dial: the hand reads them by eye, and is told so once.

use super::{Figure, OperationFigures};
use crate::model::plan::{Assumed, Operation, Setup, Verb};
use crate::unit::show;
use crate::{tell, told};

/// Readings that are named; of more only which they are.
const MOST: usize = 4;

/// Which readings of a plan stand between two lines of the carriage dial, and at which operations; none where all fall on lines.
pub(super) fn between_lines(
    given: &super::given::Given,
    done: &[(&Setup, &Operation, &OperationFigures)],
) -> Option<Assumed> {
    let shop = given.shop?;
    let (division, unit) = (shop.carriage_dial?.division, shop.units.unwrap_or(given.unit));
    let mut found: Vec<(String, Vec<u32>)> = Vec::new();
    // A rough stop is good to a line.
    for (_, _, figures) in done.iter().filter(|(_, o, _)| o.verb != Verb::Rough) {
        let readings = figures.positions.iter().filter_map(|p| p.dial);
        for dial in readings.filter(|d| d.shown.value.round_to(division) != d.shown.value) {
            let text = dial.shown.text(unit);
            match found.iter_mut().find(|(t, _)| *t == text) {
                Some((_, at)) if at.contains(&figures.number) => {}
                Some((_, at)) => at.push(figures.number),
                None => found.push((text, vec![figures.number])),
            }
        }
    }
    if found.is_empty() {
        return None;
    }
    let least = show::usual_decimals(unit);
    let apart = Figure::new(division, show::decimals_needed(division, unit, least, least + 1)).text(unit);
    let numbers = |list: &[u32]| list.iter().map(u32::to_string).collect::<Vec<_>>().join(", ");
    let which = if found.len() <= MOST {
        let named = found.iter().map(|(text, at)| format!("{text} ({})", numbers(at))).collect::<Vec<_>>().join("; ");
        tell!("read between lines, by eye: {named}", "zwischen den Strichen mit dem Auge abzulesen: {named}")
    } else {
        told!(
            "every reading that is no multiple of it is read between lines, by eye",
            "jeder Wert, der kein Vielfaches davon ist, wird zwischen den Strichen mit dem Auge abgelesen"
        )
        .to_owned()
    };
    let word = unit.word();
    Some(Assumed {
        what: tell!("Carriage dial", "Längsskale"),
        value: tell!("a line every {apart} {word}; {which}", "ein Strich je {apart} {word}; {which}"),
        source: told!("common practice", "Werkstattbrauch").to_owned(),
    })
}
