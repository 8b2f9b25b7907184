//! Faces as they came out: the rest of the sheet is worked from them. Limits and what they guarantee stay those of the drawing.

use super::Chain;
use crate::model::measured::MeasuredWhat;
use crate::model::{End, Part};
use crate::unit::{Length, Station};

impl Chain {
    /// The same with the far end and the measured faces where they were measured: what plan and figures work from.
    #[must_use]
    pub fn as_measured(&self, part: &Part) -> Self {
        let mut chain = self.clone();
        chain.take_measured(part);
        chain
    }

    fn take_measured(&mut self, part: &Part) {
        self.measured_overall = part.measured_overall().map(|size| size.nominal);
        let drawn_overall = self.at.get(self.far).copied().flatten();
        if let (Some(size), Some(drawn)) = (part.measured_overall(), drawn_overall) {
            self.move_face(drawn, Station(size.nominal));
        }
        let far_face = self.at.get(self.far).copied().flatten();
        for measured in &part.measured {
            let MeasuredWhat::Face { face, at, from } = &measured.what else { continue };
            let came = match (from, far_face) {
                (End::Datum, _) => Station(at.nominal),
                (End::Far, Some(far)) => far - at.nominal,
                (End::Far, None) => continue,
            };
            if let Some(drawn) = self.drawn(face) {
                self.move_face(drawn, came);
            }
        }
    }

    /// Where a face stands in the drawing.
    pub fn drawn(&self, face: &crate::model::PlaceRef) -> Option<Station> {
        let now = self.station(face)?;
        Some(self.moved.iter().find(|(_, came)| *came == now).map_or(now, |(drawn, _)| *drawn))
    }

    /// The same with faces where they came out or are to be cut to (drawn place, and place now), and with the overall measured.
    #[must_use]
    pub fn with_faces_at(&self, moved: &[(Station, Station)], overall: Option<Length>) -> Self {
        let mut chain = self.clone();
        chain.measured_overall = overall;
        // Each by its place in the drawing, so that none is taken for another that was moved there.
        for (face, at) in self.at.iter().enumerate() {
            if let Some((_, came)) = at.and_then(|at| moved.iter().find(|(drawn, _)| *drawn == at)) {
                chain.at[face] = Some(*came);
            }
        }
        chain.moved = moved.iter().copied().filter(|(drawn, came)| drawn != came).collect();
        chain
    }

    fn move_face(&mut self, drawn: Station, came: Station) {
        let now = self.moved.iter().find(|(at, _)| *at == drawn).map_or(drawn, |(_, came)| *came);
        for at in self.at.iter_mut().flatten().filter(|at| **at == now) {
            *at = came;
        }
        self.moved.retain(|(at, _)| *at != drawn);
        if drawn != came {
            self.moved.push((drawn, came));
        }
    }
}
