#![doc = include_str!("method_too_coarse.md")]

use crate::check::shape::{number, times};
use crate::check::sizes::{Held, Measure};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Place, Severity};
use crate::model::plan::ChartAnswer;
use crate::model::{Feature, PlaceRef};
use crate::unit::Length;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "method-too-coarse",
    severity: Severity::Warning,
    group: "chain",
    source: "common practice, no source",
    page: include_str!("method_too_coarse.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    by_the_chart(facts, out);
    let factor = facts.limit_number(CHECK.id, "times");
    for held in facts.held_sizes() {
        let Some((error, method)) = best(facts, &held) else { continue };
        let wanted = times(error, factor);
        let band = held.limits.band();
        if band >= wanted {
            continue;
        }
        let message = tell!(
            "{} must be held within {}, but the finest method at hand, the {method}, is good for ±{}: {} times that is {}",
            "{} muss auf {} stimmen, aber das feinste vorhandene Messzeug, {method}, ist auf ±{} gut: {} mal das ist {}",
            held.what,
            facts.show(band),
            facts.show(error),
            number(factor),
            facts.show(wanted)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Warning, message)
                .by_limit("times")
                .at(held.place)
                .of(held.letter.clone())
                .length("band", band)
                .length("wanted", wanted)
                .help(told!(
                    "Borrow a finer instrument and list it, or open the limits",
                    "Ein feineres Messzeug leihen und eintragen, oder die Grenzen öffnen"
                )),
        );
    }
}

/// Distances told one by one; the rest in one sentence.
const MOST: usize = 4;

/// Drawn distances that the plan does not hold with every cut as close as the lathe holds it, whatever order was tried.
fn by_the_chart(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let open: Vec<&ChartAnswer> = facts.plan.into_iter().flat_map(|p| &p.chart_answers).filter(|a| !a.holds).collect();
    for answer in open.iter().take(MOST) {
        let (place, letter) = drawn_at(facts, answer);
        let mut finding = Finding::new(CHECK.id, Severity::Warning, answer.says.clone())
            .at(place)
            .length("asked", answer.asked_half)
            .length("gives", answer.cheapest_gives)
            .help(told!("Measure the first face and aim the last cut by the reading; or hold the cuts closer and say so with `can hold` in the shop file", "Die erste Fläche messen und den letzten Schnitt nach dem Ergebnis setzen; oder die Schnitte enger halten und in der Werkstattdatei `can hold` sagen"))
            .source("worst case over the cuts as the plan makes them (tolerance chart)");
        if let Some(letter) = letter {
            finding = finding.of(letter);
        }
        out.push(finding);
    }
    if open.len() > MOST {
        let message = tell!(
            "{} more drawn distances are missed in the same way: see the tolerance chart",
            "{} weitere Zeichnungsmaße werden ebenso verfehlt: siehe Maßkettenplan",
            open.len() - MOST
        );
        out.push(Finding::new(CHECK.id, Severity::Warning, message).at(facts.part.name.place));
    }
}

/// Where the distance is drawn: its `dims` entry, else the length of the section that ends at one of its faces.
fn drawn_at(facts: &Facts<'_>, answer: &ChartAnswer) -> (Place, Option<String>) {
    let faces = [answer.at.0.min(answer.at.1), answer.at.0.max(answer.at.1)];
    let between = |a: &PlaceRef, b: &PlaceRef| Some((facts.chain.station(a)?, facts.chain.station(b)?));
    let asked =
        facts.part.dims.iter().find(|d| between(&d.from, &d.to).is_some_and(|(a, b)| [a.min(b), a.max(b)] == faces));
    if let Some(asked) = asked {
        return (asked.is.place, None);
    }
    let ends = |f: &&Feature| facts.chain.span(f.id).is_some_and(|(_, to)| to == faces[1]);
    let section = facts.part.sections().find(ends);
    section.map_or((facts.part.name.place, None), |f| (f.head, Some(f.letter.clone())))
}

/// The finest method at hand that sets or measures a size; none when the shop file tells none.
fn best(facts: &Facts<'_>, held: &Held) -> Option<(Length, String)> {
    let shop = facts.shop?;
    let (kinds, lathe): (&[&str], _) = match held.measure {
        Measure::Diameter => (&["micrometer", "caliper"], shop.can_hold_diameter),
        Measure::Length => {
            (&["depth micrometer", "caliper", "height gauge", "dial indicator", "micrometer"], shop.can_hold_length)
        }
    };
    let size = held.limits.max.abs();
    let instruments = shop.instruments.iter().filter(|i| kinds.contains(&i.kind.as_str()));
    let reach = instruments.filter(|i| i.range.is_none_or(|(least, most)| least <= size && size <= most));
    let measured = reach.filter_map(|i| Some((i.error?, i.kind.clone())));
    measured.chain(lathe.map(|l| (l, "lathe".to_owned()))).min()
}
