#![doc = include_str!("outside_seat.md")]

use crate::check::keyed::Keyed;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::{End, Feature, Kind};
use crate::unit::Length;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "keyseat-outside-seat",
    severity: Severity::Error,
    group: "keyseats",
    source: "geometry: slot length 2 √(T (D − T)) for a Woodruff cutter",
    page: include_str!("outside_seat.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for key in facts.keyseats() {
        if let Some(other) = cut_into(facts, &key) {
            out.push(finding(facts, &key, &other.called()).of(other.letter.clone()));
        } else if let Some(end) = past_the_end(facts, &key) {
            out.push(finding(facts, &key, &tell!("the {} end", "das {}ende", end.word())));
        }
    }
}

/// A feature beside the seat, or a groove on it, that the slot reaches without being meant to.
fn cut_into<'a>(facts: &Facts<'a>, key: &Keyed<'a>) -> Option<&'a Feature> {
    let meant = |f: &Feature| key.through == Some(f.id);
    let sections = facts.profile.between(key.from, key.to).filter(|p| p.feature != key.seat.id);
    let mut beside = sections.filter_map(|p| Some((p, facts.feature(p.feature)?))).filter(|(_, f)| !meant(f));
    let reached = beside.find(|(p, f)| {
        let side = if p.from < key.piece.from { End::Datum } else { End::Far };
        let plain = matches!(f.kind, Kind::Turn { .. } | Kind::Relief { .. }) && p.largest() <= key.piece.largest();
        let runs_out = key.open == Some(side) && (plain || p.largest() <= key.bottom());
        !runs_out
    });
    reached.map(|(_, f)| f).or_else(|| {
        facts.part.features.iter().find(|f| {
            let groove = matches!(f.kind, Kind::Groove { .. }) && !meant(f);
            groove && facts.chain.span(f.id).is_some_and(|(a, b)| a < key.to && key.from < b)
        })
    })
}

/// The end of the part it runs over without saying so.
fn past_the_end(facts: &Facts<'_>, key: &Keyed<'_>) -> Option<End> {
    let far = facts.chain.at.get(facts.chain.far).copied().flatten()?;
    let first = facts.chain.at.first().copied().flatten()?;
    let over = |end| match end {
        End::Datum => key.from < first,
        End::Far => key.to > far,
    };
    [End::Datum, End::Far].into_iter().find(|end| over(*end) && key.open != Some(*end))
}

fn finding(facts: &Facts<'_>, key: &Keyed<'_>, into: &str) -> Finding {
    let message = tell!(
        "the slot runs from {} to {}, but {} only from {} to {}: it cuts into {into}",
        "die Nut läuft von {} bis {}, aber {} nur von {} bis {}: sie schneidet in {into}",
        facts.show(key.from.0),
        facts.show(key.to.0),
        key.seat.called(),
        facts.show(key.piece.from.0),
        facts.show(key.piece.to.0)
    );
    let mut finding = Finding::new(CHECK.id, Severity::Error, message)
        .at(key.feature.head)
        .of(key.feature.letter.clone())
        .of(key.seat.letter.clone())
        .length("slot_from", key.from.0)
        .length("slot_to", key.to.0)
        .length("seat_from", key.piece.from.0)
        .length("seat_to", key.piece.to.0);
    let (low, high) = (key.piece.from + half(key), key.piece.to - half(key));
    if low <= high {
        let what = if key.cutter.is_some() { "center" } else { "middle" };
        finding = finding.help(tell!(
            "Put its {what} between {} and {}, or take a shorter key",
            "Ihre {what} zwischen {} und {} legen, oder eine kürzere Passfeder nehmen",
            facts.show(low.0),
            facts.show(high.0)
        ));
    } else {
        finding = finding.help(tell!(
            "Take a key no longer than {}",
            "Eine Passfeder nicht länger als {} nehmen",
            facts.show(key.piece.long())
        ));
    }
    if key.cutter.is_none() {
        finding = finding.help(told!(
            "If it is meant to run out, say so: `open: datum`, `open: far` or `through: NAME`",
            "Wenn sie auslaufen soll: `open: datum`, `open: far` oder `through: NAME`"
        ));
    }
    finding
}

fn half(key: &Keyed<'_>) -> Length {
    key.long().half()
}
