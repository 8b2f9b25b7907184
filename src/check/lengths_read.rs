//! What the lengths that were read come to: of begun work as the plan of its rest has it, of a finished part by the same sums.

use super::Facts;
use crate::chain::{Chain, Link, finished, locate};
use crate::model::Part;
use crate::model::rest::{Give, Outlook};
use crate::tell;
use crate::unit::{Length, show};

/// Lengths as read.
#[derive(Default)]
pub(super) struct LengthsRead {
    /// What is cut again to save them.
    pub(super) again: Vec<String>,
    /// The least the drawing would have to give in sum.
    pub(super) gives: Vec<Give>,
    /// Limits that no recut keeps together.
    pub(super) clash: Vec<String>,
    /// By how much they miss each other.
    pub(super) misses: Length,
    /// Whether the readings' errors alone could make the clash.
    pub(super) doubtful: bool,
    /// What to do first.
    pub(super) instead: Option<String>,
}

/// None where nothing was read, or what is still to be cut is not known: then the plan of the rest tells it.
pub(super) fn lengths_read(facts: &Facts<'_>) -> Option<LengthsRead> {
    if let Some(rest) = facts.plan.and_then(|p| p.rest.as_ref()) {
        let again = if rest.outlook < Outlook::Scrap {
            rest.again.iter().map(|a| a.what.clone()).collect()
        } else {
            Vec::new()
        };
        let gives = rest.gives.iter().filter(|g| g.place.is_some()).cloned().collect();
        let clash = rest.clash.clone();
        let instead = rest.instead.clone();
        return Some(LengthsRead { again, gives, clash, misses: rest.misses, doubtful: rest.doubtful, instead });
    }
    let part = facts.part;
    if !part.done.is_empty() || part.measured.is_empty() {
        return None;
    }
    let drawn = locate(part);
    let profile = crate::chain::Profile::of(part, &drawn);
    let saving = finished(part, &drawn, &profile, facts.shop).filter(|s| s.is_out(&drawn))?;
    let gives = saving.concession().into_iter().map(|c| {
        let link = &drawn.graph.links[c.link];
        Give { what: length_called(part, &drawn, link), drawn: c.drawn, to: c.to, place: Some(link.place) }
    });
    let words = |l: &Link| {
        let (what, min, max) = (length_called(part, &drawn, l), facts.show(l.limits.min), facts.show(l.limits.max));
        tell!("{what}: {min} to {max}", "{what}: {min} bis {max}")
    };
    let link = |i: &usize| saving.links[*i].map(|l| &drawn.graph.links[l]);
    let saves = saving.found.clash.is_empty();
    Some(LengthsRead {
        again: saving.found.again.iter().filter(|_| saves).map(|f| face_called(part, &drawn, *f)).collect(),
        gives: gives.collect(),
        clash: saving.found.clash.iter().filter_map(link).map(words).collect(),
        misses: saving.found.misses,
        doubtful: saving.found.doubtful,
        instead: (!saving.measure.is_empty())
            .then(|| measure_first(&saving.measure.iter().map(|f| face_called(part, &drawn, *f)).collect::<Vec<_>>())),
    })
}

impl LengthsRead {
    /// What to ask of whoever owns the drawing.
    pub(super) fn asks(&self, facts: &Facts<'_>) -> String {
        let each = self.gives.iter().map(|g| {
            let limits = |min, max| tell!("{} to {}", "{} bis {}", facts.show(min), facts.show(max));
            tell!(
                "{} would have to be {}, not {}",
                "{} müsste {} sein, nicht {}",
                g.what,
                limits(g.to.min, g.to.max),
                limits(g.drawn.min, g.drawn.max)
            )
        });
        each.collect::<Vec<_>>().join("; ")
    }

    /// What its limits give in sum.
    pub(super) fn sum(&self) -> Length {
        let by = |g: &Give| (g.to.max - g.drawn.max) + (g.drawn.min - g.to.min);
        self.gives.iter().map(by).fold(Length::ZERO, |a, b| a + b)
    }
}

fn shown(part: &Part, length: Length) -> String {
    let usual = show::usual_decimals(part.units);
    show::exact(length, part.units, usual, usual + 2)
}

/// How a sentence speaks of a face.
pub fn face_called(part: &Part, drawn: &Chain, face: usize) -> String {
    match drawn.at[face] {
        _ if face == 0 => "the datum face".to_owned(),
        _ if face == drawn.far => "the far face".to_owned(),
        Some(at) => tell!("the face at {}", "die Fläche bei {}", shown(part, at.0)),
        None => drawn.graph.faces[face].name.clone(),
    }
}

/// What to do before a part is given up whose datum face could still save it.
pub fn measure_first(faces: &[String]) -> String {
    let mut named = faces.to_vec();
    named.dedup();
    tell!(
        "measure first: {}; where they are as drawn, the datum face cut again saves everything",
        "zuerst messen: {}; stehen sie wie gezeichnet, rettet ein neuer Schnitt an der Bezugsfläche alles",
        named.join(", ")
    )
}

/// How a sentence speaks of a stated length.
pub fn length_called(part: &Part, drawn: &Chain, link: &Link) -> String {
    tell!(
        "{} from {} to {}",
        "{} von {} auf {}",
        shown(part, link.nominal.abs()),
        face_called(part, drawn, link.from),
        face_called(part, drawn, link.to)
    )
}
