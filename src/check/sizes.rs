//! Sizes that are held within limits, as something to set and to measure.

use super::Facts;
use crate::chain::Says;
use crate::finding::Place;
use crate::model::{Kind, Size};
use crate::unit::Limits;
use crate::{tell, told};

/// What kind of size it is: what measures it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Measure {
    /// Across the axis.
    Diameter,
    /// Along the axis.
    Length,
}

/// A size with both limits.
#[derive(Debug, Clone)]
pub(super) struct Held {
    /// How a sentence speaks of it.
    pub(super) what: String,
    /// Letter of its feature; empty for a distance.
    pub(super) letter: String,
    /// What measures it.
    pub(super) measure: Measure,
    /// Its limits.
    pub(super) limits: Limits,
    /// Where it is written.
    pub(super) place: Place,
}

impl Facts<'_> {
    /// Every turned diameter and every length that is held within a band.
    pub(super) fn held_sizes(&self) -> Vec<Held> {
        let mut held = self.held_diameters();
        held.extend(self.held_lengths());
        held
    }

    /// Diameters of sections that are turned to limits, and of grooves.
    pub(super) fn held_diameters(&self) -> Vec<Held> {
        let mut held = Vec::new();
        for feature in &self.part.features {
            let (Kind::Turn { diameter, kept: false, .. }
            | Kind::Relief { diameter, .. }
            | Kind::Groove { diameter, .. }) = &feature.kind
            else {
                continue;
            };
            if let Some(limits) = band(diameter) {
                held.push(Held {
                    what: feature.called(),
                    letter: feature.letter.clone(),
                    measure: Measure::Diameter,
                    limits,
                    place: diameter.place,
                });
            }
        }
        held
    }

    /// Stated lengths: places, lengths of sections and grooves, the overall, and what the drawing asks besides.
    pub(super) fn held_lengths(&self) -> Vec<Held> {
        let graph = &self.chain.graph;
        let mut held = Vec::new();
        for link in graph.links.iter().filter(|l| l.limits.band().is_positive()) {
            let (Some(near), Some(far)) = (graph.faces.get(link.from), graph.faces.get(link.to)) else { continue };
            let letter = match link.says {
                Says::Place(id) | Says::Own(id) => self.feature(id).map_or(String::new(), |f| f.letter.clone()),
                _ => String::new(),
            };
            let what = if matches!(link.says, Says::Overall | Says::OverallRequired) {
                told!("the overall", "die Gesamtlänge").to_owned()
            } else {
                tell!("{} to {}", "{} bis {}", near.name, far.name)
            };
            held.push(Held { what, letter, measure: Measure::Length, limits: link.limits, place: link.place });
        }
        held
    }
}

fn band(size: &Size) -> Option<Limits> {
    size.limits.filter(|l| !size.reference && l.band().is_positive())
}
