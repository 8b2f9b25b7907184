#![doc = include_str!("unknown.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::handbook::thread::{self as standard, Designation};
use crate::unit::Length;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "thread-unknown",
    severity: Severity::Error,
    group: "threads",
    source: "the series of ASME B1.1, B1.5, ISO 261, ISO 2902",
    page: include_str!("unknown.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for (section, thread, _) in facts.threads().filter(|(_, t, _)| !t.standard) {
        let odd = Odd { designation: &thread.designation, nominal: thread.nominal, pitch: thread.pitch };
        out.push(odd.finding(facts, &thread.nearest).at(thread.place).of(section.letter.clone()));
    }
    for (feature, thread) in facts.part.features.iter().filter_map(|f| Some((f, f.tapped()?))) {
        if !thread.standard {
            let odd = Odd { designation: &thread.designation, nominal: thread.nominal, pitch: thread.pitch };
            let near = standard::read(&thread.designation).map(|d| standard::nearest(&d, 3)).unwrap_or_default();
            let near: Vec<String> = near.iter().map(Designation::show).collect();
            out.push(odd.finding(facts, &near).at(thread.place).of(feature.letter.clone()));
        }
    }
}

/// A diameter and pitch that stand together nowhere.
struct Odd<'a> {
    designation: &'a str,
    nominal: Length,
    pitch: Length,
}

impl Odd<'_> {
    fn finding(&self, facts: &Facts<'_>, nearest: &[String]) -> Finding {
        let message = tell!(
            "{} is in no series of its standard: diameter {}, pitch {}",
            "{} steht in keiner Reihe seiner Norm: Durchmesser {}, Steigung {}",
            self.designation,
            facts.show(self.nominal),
            facts.show(self.pitch)
        );
        let mut finding = Finding::new(CHECK.id, Severity::Error, message)
            .length("nominal", self.nominal)
            .length("pitch", self.pitch);
        if !nearest.is_empty() {
            finding = finding.help(tell!(
                "Measure the mate again; the nearest are {}",
                "Das Gegenstück noch einmal messen; am nächsten sind {}",
                nearest.join(", ")
            ));
        }
        finding.help(told!(
            "If the mate really is odd, accept this with the reason; its limits are then those of a special thread",
            "Wenn das Gegenstück wirklich so ist, dies mit Grund annehmen; die Grenzen sind dann die eines Sondergewindes"
        ))
    }
}
