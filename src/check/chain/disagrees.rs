#![doc = include_str!("disagrees.md")]

use crate::chain::{Link, Says};
use crate::check::description::of_slip;
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::unit::Length;

use super::contradiction::first_suspect;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "chain-disagrees",
    severity: Severity::Error,
    group: "chain",
    source: "ISO 129-1: a dimension is given once, repetitions are auxiliary",
    page: include_str!("disagrees.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    // A section may be missing: what then seems to disagree may agree.
    if of_slip::text_is_broken(facts) {
        return;
    }
    let elsewhere = crate::check::description::no_overall::ends_elsewhere(facts).is_some();
    let follows = Wrong::of(facts);
    for link in &facts.chain.graph.links {
        if elsewhere && link.says == Says::OverallRequired {
            continue;
        }
        let (Some(from), Some(to)) = (facts.chain.at[link.from], facts.chain.at[link.to]) else { continue };
        let by_lengths = to - from;
        let apart = (by_lengths - link.nominal).abs();
        if contradicts(facts, link)
            || follows.is_some_and(|f| f.explains(link, apart))
            || by_lengths == link.nominal
            || within_picometres(by_lengths, link.nominal)
        {
            continue;
        }
        out.push(finding(facts, link, by_lengths));
    }
}

/// The one length that is wrong, where `chain-contradiction` names it; others disagree with it by as much.
#[derive(Clone, Copy)]
struct Wrong {
    faces: [usize; 2],
    by: Length,
}

impl Wrong {
    fn of(facts: &Facts<'_>) -> Option<Self> {
        let suspect = first_suspect(facts, facts.chain.contradiction.as_ref()?)?;
        let link = &facts.chain.graph.links[suspect.link];
        Some(Self { faces: [link.from, link.to], by: (link.nominal - suspect.would_be).abs() })
    }

    fn explains(&self, link: &Link, apart: Length) -> bool {
        let touches = self.faces.iter().any(|f| *f != 0 && (*f == link.from || *f == link.to));
        touches && within_picometres(apart, self.by)
    }
}

/// A longer loop that cannot hold at all is told by `chain-contradiction`.
fn contradicts(facts: &Facts<'_>, link: &Link) -> bool {
    let Some(found) = &facts.chain.contradiction else { return false };
    found.links.len() > 2 && found.links.iter().any(|i| facts.chain.graph.links[*i].place == link.place)
}

/// Millimetres and inch fractions in one chain may differ by less than anything that can be written.
fn within_picometres(a: Length, b: Length) -> bool {
    (a - b).abs() < Length::from_pm(1_000)
}

fn finding(facts: &Facts<'_>, link: &Link, by_lengths: Length) -> Finding {
    let what = match link.says {
        Says::OverallRequired | Says::Overall => told!("the overall", "die Gesamtlänge"),
        Says::Dim(_) => told!("the drawing's distance", "der Abstand der Zeichnung"),
        Says::Own(_) => told!("the length", "die Länge"),
        Says::Place(_) => told!("the place", "der Ort"),
    };
    let difference = (link.nominal - by_lengths).abs();
    let message = tell!(
        "{what} is {}, but the other lengths give {}: {} apart",
        "{what} ist {}, aber die anderen Längen geben {}: {} Unterschied",
        facts.show(link.nominal),
        facts.show(by_lengths),
        facts.show(difference)
    );
    let mut finding = Finding::new(CHECK.id, Severity::Error, message)
        .at(link.place)
        .length("stated", link.nominal)
        .length("by_the_other_lengths", by_lengths)
        .length("difference", difference)
        .help(told!(
            "Find the one that is wrong and change it; state every distance once, or bracket the repetition",
            "Das falsche Maß finden und ändern; jeden Abstand einmal angeben, die Wiederholung einklammern"
        ));
    let others = facts.chain.graph.links.iter().filter(|l| l.says.is_worked() && l.place != link.place);
    for other in others.filter(|l| l.to == link.to || (l.to == link.from && link.from != 0)).take(3) {
        finding = finding.also(other.place, format!("says {}", facts.show(other.nominal)));
    }
    finding
}
