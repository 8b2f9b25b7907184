//! One slip, one finding: what only follows from another finding is told with that one.

use super::Facts;
use super::description::no_overall::ends_elsewhere;
use crate::finding::{Compared, Finding, Place, Severity};
use crate::model::slip::{Fault, Unreadable, WordOf};
use crate::unit::Length;

/// Keys of a shop file in the head of a description, at least, for it to be taken for one.
const SHOP_KEYS: usize = 3;

/// A shop file that was given as a part: the one thing to be said of it.
pub(super) fn shop_given_as_part(facts: &Facts<'_>) -> Option<Finding> {
    let no_features = |f: &Fault| matches!(f, Fault::Missing { key: "features", .. });
    if !facts.slips.iter().any(|s| no_features(&s.fault)) {
        return None;
    }
    let of_shop = |f: &Fault| matches!(f, Fault::UnknownWord { of: WordOf::Key, belongs, .. } if belongs.iter().any(|b| b == "the shop file"));
    let keys: Vec<Place> = facts.slips.iter().filter(|s| of_shop(&s.fault)).map(|s| s.place).collect();
    let first = keys.iter().min_by_key(|p| p.start).filter(|_| keys.len() >= SHOP_KEYS)?;
    let message = format!("this is a shop file, not a part: {} of its keys are those of a shop file", keys.len());
    Some(
        Finding::new("shop-file", Severity::Error, message)
            .at(*first)
            .help("Name it in the part's description, `lathe: FILE`, or on the command line, `--shop FILE`, and give the part instead"),
    )
}

/// Leaves out what follows from another finding, and hands its advice on to that.
pub(super) fn fold(facts: &Facts<'_>, findings: &mut Vec<Finding>) {
    after_what_cannot_be_read(facts, findings);
    lengths(facts, findings);
    same_missing_face(findings);
}

/// A line that cannot be read makes the lines after it look wrong too.
fn after_what_cannot_be_read(facts: &Facts<'_>, findings: &mut Vec<Finding>) {
    let unlike: Vec<Place> = facts
        .slips
        .iter()
        .filter(|s| matches!(s.fault, Fault::Unreadable(Unreadable::Indent)))
        .map(|s| s.place)
        .collect();
    let other = facts.slips.iter().any(|s| matches!(&s.fault, Fault::Unreadable(u) if *u != Unreadable::Indent));
    let told = usize::from(!other);
    findings.retain(|f| f.check != "unreadable" || !unlike.iter().skip(told).any(|p| f.place == Some(*p)));
}

/// Findings on lengths that stand in the way of other ones.
fn lengths(facts: &Facts<'_>, findings: &mut Vec<Finding>) {
    let at = |f: &Finding, id: &str| (f.check == id).then_some(f.place).flatten();
    if let Some(place) = ends_elsewhere(facts).map(|(last, _)| last.place) {
        // The last section's end and the overall contradict each other: that they differ is what was told.
        findings
            .retain(|f| f.check != "chain-contradiction" || f.chain_loop.len() > 2 || !f.chain_loop.contains(&place));
        // Nor is the bar judged by a length that is in doubt.
        findings.retain(|f| !["stock-long", "stock-length"].contains(&f.check));
        hand_on(findings, "no-overall", "section-overlap");
    }
    if findings.iter().any(|f| f.check == "not-positive" && f.place == facts.part.overall.as_ref().map(|o| o.place)) {
        findings
            .retain(|f| !["chain-disagrees", "chain-contradiction", "stock-long", "stock-length"].contains(&f.check));
    }
    let before_the_face: Vec<Place> = findings.iter().filter_map(|f| at(f, "outside-part")).collect();
    let entry = |p: Place| facts.part.features.iter().find(|f| f.place.covers(p)).map(|f| f.id);
    let same = |p: Option<Place>| {
        p.is_some_and(|p| entry(p).is_some() && before_the_face.iter().any(|b| entry(*b) == entry(p)))
    };
    findings.retain(|f| !["section-overlap", "no-overall"].contains(&f.check) || !same(f.place));
    without_places(facts, findings);
}

/// Where sections do not meet, or one has no end, what is judged of the places themselves says nothing.
fn without_places(facts: &Facts<'_>, findings: &mut Vec<Finding>) {
    let wrong = ["section-overlap", "section-gap", "chain-loose"];
    let before_the_face = |f: &Finding| {
        f.check == "outside-part" && f.place.is_some_and(|p| facts.part.sections().any(|s| s.place.covers(p)))
    };
    let broken = findings.iter().any(|f| wrong.contains(&f.check) || before_the_face(f));
    let open_end = facts.part.sections().any(|s| facts.slips.iter().any(|slip| slip.entry == Some(s.place)));
    if broken || open_end {
        // What an acceptance itself lacks is told; that its finding is not there may come from the gap.
        let idle = |f: &Finding| f.check == "accept-unused" && f.message.starts_with("no finding of");
        findings.retain(|f| f.check != "frame-change" && !idle(f));
    }
    if broken {
        findings.retain(|f| {
            !["heat-growth", "gauge-missing", "thread-lead-travel"].contains(&f.check) || f.severity == Severity::Error
        });
        findings.retain(|f| f.check != "keyseat-outside-seat");
    }
    if broken || open_end {
        findings.retain(|f| f.check != "outside-part" || missing_face(f).is_none());
    }
}

/// Two findings at one place: the second goes, and its advice is told with the first.
fn hand_on(findings: &mut Vec<Finding>, from: &str, to: &str) {
    let Some((i, place)) = findings.iter().position(|f| f.check == from).and_then(|i| Some((i, findings[i].place?)))
    else {
        return;
    };
    if let Some(keep) = findings.iter().position(|f| f.check == to && f.place == Some(place)) {
        let help = findings[i].help.clone();
        findings[keep].help.extend(help);
        findings.remove(i);
    }
}

/// The place of `outside-part` at which no face lies.
fn missing_face(finding: &Finding) -> Option<Length> {
    let asked = finding.compared.iter().find(|(name, _)| finding.check == "outside-part" && *name == "asked")?;
    if let Compared::Length(at) = asked.1 { Some(at) } else { None }
}

/// Several things at one place where no face lies: told once, with each of them.
fn same_missing_face(findings: &mut Vec<Finding>) {
    let mut i = 0;
    while i < findings.len() {
        let Some(at) = missing_face(&findings[i]) else {
            i += 1;
            continue;
        };
        let twin = (i + 1..findings.len()).find(|j| missing_face(&findings[*j]) == Some(at));
        match twin {
            Some(j) => {
                let other = findings.remove(j);
                if let Some(place) = other.place {
                    findings[i].others.push((place, other.message));
                }
            }
            None => i += 1,
        }
    }
}
