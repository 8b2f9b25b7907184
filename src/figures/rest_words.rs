//! What the readings of begun work come to, in sentences.

use crate::model::rest::{Outlook, Rest};
use crate::unit::{Length, Limits, Unit, show};
use crate::{tell, told};

/// The sentences, what matters most first.
pub fn rest_words(rest: &Rest, unit: Unit) -> Vec<String> {
    let shown = |l: Length| show::exact(l, unit, show::usual_decimals(unit), show::usual_decimals(unit) + 2);
    let limits = |l: Limits| tell!("{} to {}", "{} bis {}", shown(l.min), shown(l.max));
    let mut list = Vec::new();
    if rest.outlook == Outlook::Scrap {
        list.push(
            told!(
                "SCRAP unless the drawing gives: no cut brings everything measured so far within its limits",
                "AUSSCHUSS, wenn die Zeichnung nicht nachgibt: kein Schnitt bringt alles bisher Gemessene in seine Grenzen"
            )
            .to_owned(),
        );
    }
    if !rest.clash.is_empty() {
        list.push(tell!(
            "these cannot be kept together, whatever is cut again; they miss each other by {}: {}",
            "diese sind zusammen nicht zu halten, was auch nachgedreht wird; sie verfehlen einander um {}: {}",
            shown(rest.misses),
            rest.clash.join("; ")
        ));
    }
    for give in &rest.gives {
        list.push(tell!(
            "the least it asks: {}, {} on the drawing, may be {}; ask before going on",
            "das Wenigste, was es verlangt: {}, laut Zeichnung {}, darf {} sein; fragen, bevor es weitergeht",
            give.what,
            limits(give.drawn),
            limits(give.to)
        ));
    }
    if rest.doubtful {
        list.push(
            told!(
                "readings off by no more than their errors would leave no clash: measure again with something surer before it is scrapped",
                "Messwerte, die nur um ihre Fehler daneben liegen, ließen keinen Widerspruch: genauer nachmessen, bevor es Ausschuss wird"
            )
            .to_owned(),
        );
    }
    list.extend(rest.instead.clone());
    let given =
        if rest.outlook == Outlook::Scrap { told!("if that is given: ", "wenn das nachgegeben wird: ") } else { "" };
    for again in &rest.again {
        if again.what == "the datum face" {
            let off = shown(again.to);
            list.push(tell!(
                "{given}cut again, operation {}: {off} off the datum face; every length then counts from the new one",
                "{given}nachdrehen, Arbeitsgang {}: {off} von der Bezugsfläche; jede Länge zählt dann von der neuen",
                again.number
            ));
            continue;
        }
        let frame = if again.diameter { "" } else { told!(" from the datum face", " ab Bezugsfläche") };
        list.push(tell!(
            "{given}cut again, operation {}: {}, measured {}, to {}{frame}",
            "{given}nachdrehen, Arbeitsgang {}: {}, gemessen {}, auf {}{frame}",
            again.number,
            again.what,
            shown(again.from),
            shown(again.to)
        ));
    }
    let faces = rest.again.iter().filter(|a| !a.diameter).count();
    if faces > 1 && rest.fewest {
        list.push(tell!(
            "no fewer than {faces} faces cut again will do",
            "mit weniger als {faces} nachgedrehten Flächen geht es nicht"
        ));
    }
    for aimed in &rest.aims {
        let within =
            aimed.window.map_or(String::new(), |w| tell!("; {} keeps everything", "; {} hält alles ein", limits(w)));
        list.push(tell!(
            "{given}{} is aimed at {} from the datum face, not at {}{within}",
            "{given}{}: Ziel {} ab Bezugsfläche, nicht {}{within}",
            aimed.face,
            shown(aimed.to),
            shown(aimed.drawn)
        ));
    }
    for unsure in &rest.unsure {
        list.push(tell!(
            "{}, {}, is kept by the readings and not surely: off by their errors it may miss by {}",
            "{}, {}, ist nach den Messwerten eingehalten, doch nicht sicher: um ihre Fehler kann es {} daneben liegen",
            unsure.what,
            limits(unsure.limits),
            shown(unsure.by)
        ));
    }
    if rest.outlook == Outlook::AsDrawn {
        list.push(
            told!(
                "what was measured fits what is drawn: the rest is cut as drawn",
                "was gemessen ist, passt zur Zeichnung: der Rest wird wie gezeichnet gedreht"
            )
            .to_owned(),
        );
    }
    list.extend(rest.void.iter().cloned());
    list
}
