#![doc = include_str!("contradiction.md")]

use crate::chain::{Contradiction, Suspect};
use crate::check::description::of_slip;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "chain-contradiction",
    severity: Severity::Error,
    group: "chain",
    source: "temporal constraint networks (Dechter, Meiri and Pearl 1991): a negative loop has no solution",
    page: include_str!("contradiction.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    // A section may be missing, or a length be no length: then that is the finding.
    if of_slip::text_is_broken(facts) || facts.part.overall.as_ref().is_some_and(|o| !o.nominal.is_positive()) {
        return;
    }
    let Some(found) = &facts.chain.contradiction else { return };
    let links: Vec<_> = found.links.iter().map(|i| &facts.chain.graph.links[*i]).collect();
    let mut places: Vec<_> = links.iter().map(|l| l.place).collect();
    places.sort_by_key(|p| p.start);
    places.dedup();
    let first = first_suspect(facts, found);
    let Some(at) = first.map(|s| facts.chain.graph.links[s.link].place).or(places.last().copied()) else { return };
    let message = tell!(
        "no part can meet these {} dimensions together: their limits miss each other by {}",
        "kein Teil kann diese {} Maße zusammen einhalten: ihre Grenzen verfehlen sich um {}",
        places.len(),
        facts.show(found.misclosure)
    );
    let mut finding = Finding::new(CHECK.id, Severity::Error, message).at(at).length("misclosure", found.misclosure);
    let here = found.suspects.iter().find(|s| facts.chain.graph.links[s.link].place == at);
    if let Some(here) = here.filter(|s| s.would_be.is_positive()) {
        let would_be = facts.show(here.would_be);
        let closes = match first {
            Some(_) => tell!(
                "Look at this one first: with {would_be} here the others hold together",
                "Dieses zuerst ansehen: mit {would_be} hier halten die anderen zusammen"
            ),
            None => tell!(
                "It closes with {would_be} here, or with what stands beside one of the others",
                "Es schließt mit {would_be} hier, oder mit dem, was bei einem der anderen steht"
            ),
        };
        finding = finding.help(closes).length("would_close", here.would_be);
    }
    finding = finding.help(told!(
        "Measure again, and change the one that is wrong; or put the one that matters least in round brackets",
        "Noch einmal messen und das falsche ändern; oder das unwichtigste in runde Klammern setzen"
    ));
    for suspect in &found.suspects {
        let link = &facts.chain.graph.links[suspect.link];
        if link.place != at {
            let (from, to) = (&facts.chain.graph.faces[link.from].name, &facts.chain.graph.faces[link.to].name);
            let label = format!("{from} to {to}: {} to {}", facts.show(link.limits.min), facts.show(link.limits.max));
            let closes =
                suspect.would_be.is_positive().then(|| format!("; {} would close", facts.show(suspect.would_be)));
            finding = finding.also(link.place, label + &closes.unwrap_or_default());
        }
    }
    finding.others.sort_by_key(|o| o.0.start);
    finding.chain_loop = places;
    out.push(finding);
}

/// The link that is most likely wrong: the only one without which nothing contradicts, else the only one of those that a slip of the pen
/// would mend. None where several are as likely.
pub(super) fn first_suspect<'c>(facts: &Facts<'_>, found: &'c Contradiction) -> Option<&'c Suspect> {
    let clears: Vec<&Suspect> = found.suspects.iter().filter(|s| s.clears_all && s.would_be.is_positive()).collect();
    if let [one] = clears.as_slice()
        && found.suspects.len() > 2
    {
        return Some(one);
    }
    let nominal = |s: &Suspect| facts.chain.graph.links[s.link].nominal;
    let mut slips = clears.into_iter().filter(|s| is_slip(&facts.show(nominal(s)), &facts.show(s.would_be)));
    slips.next().filter(|_| slips.next().is_none())
}

/// Whether one number is written for another by a slip: one figure wrong, two neighbours changed about, the point in the wrong place.
fn is_slip(written: &str, meant: &str) -> bool {
    let figures = |t: &str| t.chars().filter(|c| *c != '.').collect::<String>().trim_matches('0').to_owned();
    if figures(written) == figures(meant) {
        return true;
    }
    let (a, b): (Vec<char>, Vec<char>) = (written.chars().collect(), meant.chars().collect());
    if a.len() != b.len() {
        return false;
    }
    let apart: Vec<usize> = (0..a.len()).filter(|i| a[*i] != b[*i]).collect();
    match apart.as_slice() {
        [_] => true,
        [i, j] => j - i == 1 && a[*i] == b[*j] && a[*j] == b[*i],
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::is_slip;

    #[test]
    fn slips_of_the_pen() {
        for (written, meant) in [("2.350", "2.250"), ("2.530", "2.350"), ("12.5", "1.25"), ("0.125", "1.250")] {
            assert!(is_slip(written, meant), "{written} for {meant}");
        }
        for (written, meant) in [("1.500", "1.470"), ("2.350", "2.350 in"), ("1.23", "3.21")] {
            assert!(!is_slip(written, meant), "{written} for {meant}");
        }
    }
}
