//! `accept:` a finding stays visible, but its force is taken away by a reason.

use super::Facts;
use crate::finding::Finding;
use crate::model::part::{Accept, AcceptAt};
use crate::model::{Feature, Kind};

/// Marks the findings that the description accepts.
pub fn apply(facts: &Facts<'_>, findings: &mut [Finding]) {
    for finding in findings.iter_mut() {
        let accept = facts.part.accept.iter().find(|a| accepts(facts, a, finding));
        finding.accepted = accept.and_then(|a| a.because.as_ref()).map(|b| b.text.clone());
    }
}

/// Whether this entry takes the force from this finding: same check, its place or name, and a reason.
pub(super) fn accepts(facts: &Facts<'_>, accept: &Accept, finding: &Finding) -> bool {
    if accept.check.text != finding.check || accept.because.as_ref().is_none_or(|b| b.text.is_empty()) {
        return false;
    }
    let own = feature_of(facts, finding);
    let about = |f: &&Feature| match own {
        Some(own) => own.id == f.id,
        // What stands at the bar or in the head may still be about sections: their names and places accept it too.
        None => !f.letter.is_empty() && finding.features.contains(&f.letter),
    };
    let mut features = facts.part.features.iter().filter(about);
    match &accept.at {
        None => false,
        Some(AcceptAt::Part) => own.is_none(),
        Some(AcceptAt::Feature(name)) => features.any(|f| {
            f.letter.eq_ignore_ascii_case(&name.text)
                || f.name.as_ref().is_some_and(|n| n.text.eq_ignore_ascii_case(&name.text))
        }),
        Some(AcceptAt::Place(place)) => {
            let Some(at) = facts.chain.station(place) else { return false };
            features.any(|f| match facts.chain.span(f.id) {
                Some((from, to)) => at == from || at == to,
                None => edge_place(facts, f) == Some(at),
            })
        }
    }
}

/// The feature at the finding's own line.
fn feature_of<'a>(facts: &Facts<'a>, finding: &Finding) -> Option<&'a Feature> {
    let place = finding.place?;
    facts.part.features.iter().find(|f| f.place.covers(place))
}

/// Where a chamfer or fillet sits.
fn edge_place(facts: &Facts<'_>, feature: &Feature) -> Option<crate::unit::Station> {
    use crate::model::feature::EdgeAt;
    match &feature.kind {
        Kind::Chamfer { at: EdgeAt::Face(place), .. } | Kind::Fillet { at: place, .. } => facts.chain.station(place),
        Kind::Crown { crown } if crown.end == crate::model::End::Datum => Some(crate::unit::Station::DATUM),
        Kind::Chamfer { at: EdgeAt::End(crate::model::End::Datum), .. } => Some(crate::unit::Station::DATUM),
        Kind::Crown { .. } | Kind::Chamfer { at: EdgeAt::End(crate::model::End::Far), .. } => {
            facts.chain.at[facts.chain.far]
        }
        _ => None,
    }
}
