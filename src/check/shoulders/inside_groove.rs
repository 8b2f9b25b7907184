#![doc = include_str!("inside_groove.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::inside::{InsideCut, Reach};
use crate::model::{End, Feature, Kind};
use crate::unit::Station;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "inside-groove",
    severity: Severity::Error,
    group: "shoulders",
    source: "geometry",
    page: include_str!("inside_groove.md"),
    look,
};

/// A groove in a bore, with its walls.
struct Groove<'a> {
    feature: &'a Feature,
    end: End,
    from: Station,
    to: Station,
}

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let grooves: Vec<Groove> = facts.part.features.iter().filter_map(|f| groove(facts, f)).collect();
    for (i, a) in grooves.iter().enumerate() {
        if let Some(b) = grooves[..i].iter().find(|b| a.from < b.to && b.from < a.to) {
            let message = tell!(
                "{} and {} lie in one place inside, {} to {} from the datum face",
                "{} und {} liegen innen an derselben Stelle, {} bis {} von der Bezugsfläche",
                a.feature.called(),
                b.feature.called(),
                facts.show(a.from.0),
                facts.show(a.to.0)
            );
            let help = told!(
                "`from` counts from the datum face, whichever end the groove is cut from",
                "`from` zählt von der Bezugsfläche, von welchem Ende der Einstich auch gedreht wird"
            );
            out.push(
                Finding::new(CHECK.id, Severity::Error, message)
                    .at(a.feature.head)
                    .of(a.feature.letter.clone())
                    .help(help),
            );
        }
        out.extend(from_the_wrong_end(facts, a));
    }
}

fn groove<'a>(facts: &Facts<'_>, feature: &'a Feature) -> Option<Groove<'a>> {
    let Kind::Inside(inside) = &feature.kind else { return None };
    let InsideCut::Groove { .. } = inside.cut else { return None };
    let (from, to) = facts.chain.span(feature.id)?;
    Some(Groove { feature, end: inside.end, from, to })
}

/// A groove nearer the end it is not cut from, where the bore is open there.
fn from_the_wrong_end(facts: &Facts<'_>, groove: &Groove<'_>) -> Option<Finding> {
    let whole = facts.chain.overall(facts.part)?;
    let (from_datum, from_far) = (groove.to.0, whole - groove.from.0);
    let (deep, other, mirrored) = match groove.end {
        End::Datum => (from_datum, from_far, None),
        End::Far => (from_far, from_datum, Some(whole - groove.to.0)),
    };
    if deep <= other || !open_at(facts, groove.end.other()) {
        return None;
    }
    let word = |end: End| if end == End::Datum { "datum" } else { "far" };
    let (own, nearer) = (word(groove.end), word(groove.end.other()));
    let message = format!(
        "{} is cut from the {own} end, {} deep, and lies {} from the {nearer} end, where the bore is open",
        groove.feature.called(),
        facts.show(deep),
        facts.show(other)
    );
    let finding = Finding::new(CHECK.id, Severity::Warning, message)
        .at(groove.feature.head)
        .of(groove.feature.letter.clone())
        .length("deep", deep)
        .length("other", other)
        .help(format!("Cut it from there: `end: {nearer}`"));
    Some(match mirrored {
        Some(at) => finding.help(format!(
            "Or, if {} was meant from the far face, write `from: {}`: places count from the datum face",
            facts.show(groove.from.0),
            facts.show(at)
        )),
        None => finding,
    })
}

/// Whether a bore is open at an end.
fn open_at(facts: &Facts<'_>, end: End) -> bool {
    facts.part.features.iter().any(|f| {
        matches!(&f.kind, Kind::Inside(i) if !matches!(i.cut, InsideCut::Groove { .. } | InsideCut::Chamfer { .. })
            && (i.end == end || matches!(i.reach, Reach::Through)))
    })
}
