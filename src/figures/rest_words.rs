//! What the readings of begun work come to, in sentences.

use crate::model::rest::{Outlook, Rest};
use crate::unit::{Length, Limits, Unit, show};

/// The sentences, what matters most first.
pub fn rest_words(rest: &Rest, unit: Unit) -> Vec<String> {
    let shown = |l: Length| show::exact(l, unit, show::usual_decimals(unit), show::usual_decimals(unit) + 2);
    let limits = |l: Limits| format!("{} to {}", shown(l.min), shown(l.max));
    let mut list = Vec::new();
    if rest.outlook == Outlook::Scrap {
        list.push(
            "SCRAP unless the drawing gives: no cut brings everything measured so far within its limits".to_owned(),
        );
    }
    if !rest.clash.is_empty() {
        list.push(format!(
            "these cannot be kept together, whatever is cut again; they miss each other by {}: {}",
            shown(rest.misses),
            rest.clash.join("; ")
        ));
    }
    for give in &rest.gives {
        list.push(format!(
            "the least it asks: {}, {} on the drawing, may be {}; ask before going on",
            give.what,
            limits(give.drawn),
            limits(give.to)
        ));
    }
    if rest.doubtful {
        list.push(
            "readings off by no more than their errors would leave no clash: measure again with something surer before it is scrapped"
                .to_owned(),
        );
    }
    list.extend(rest.instead.clone());
    let given = if rest.outlook == Outlook::Scrap { "if that is given: " } else { "" };
    for again in &rest.again {
        if again.what == "the datum face" {
            let off = shown(again.to);
            list.push(format!(
                "{given}cut again, operation {}: {off} off the datum face; every length then counts from the new one",
                again.number
            ));
            continue;
        }
        let frame = if again.diameter { "" } else { " from the datum face" };
        list.push(format!(
            "{given}cut again, operation {}: {}, measured {}, to {}{frame}",
            again.number,
            again.what,
            shown(again.from),
            shown(again.to)
        ));
    }
    let faces = rest.again.iter().filter(|a| !a.diameter).count();
    if faces > 1 && rest.fewest {
        list.push(format!("no fewer than {faces} faces cut again will do"));
    }
    for aimed in &rest.aims {
        let within = aimed.window.map_or(String::new(), |w| format!("; {} keeps everything", limits(w)));
        list.push(format!(
            "{given}{} is aimed at {} from the datum face, not at {}{within}",
            aimed.face,
            shown(aimed.to),
            shown(aimed.drawn)
        ));
    }
    for unsure in &rest.unsure {
        list.push(format!(
            "{}, {}, is kept by the readings and not surely: off by their errors it may miss by {}",
            unsure.what,
            limits(unsure.limits),
            shown(unsure.by)
        ));
    }
    if rest.outlook == Outlook::AsDrawn {
        list.push("what was measured fits what is drawn: the rest is cut as drawn".to_owned());
    }
    list.extend(rest.void.iter().cloned());
    list
}
