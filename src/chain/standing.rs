//! Where faces stand by the readings of them. Checks, the plan of the rest and the inspection all ask here, so that they agree.

use super::adjust::{Adjusted, Reading, adjust};
use super::{Chain, Profile};
use crate::model::measured::{Measured, MeasuredWhat, SureFrom};
use crate::model::{End, Part, Shop};
use crate::unit::{Length, Station, Unit};

/// One reading of a length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReadLength {
    /// Index into `measured:`.
    pub entry: usize,
    /// Between which faces, and what was read; an instrument's error is taken as two standard deviations (common practice, no source).
    pub reading: Reading,
    /// Where its uncertainty is from.
    pub from: SureFrom,
}

/// Where the faces of a part stand.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Standing {
    /// The readings that count.
    pub read: Vec<ReadLength>,
    /// Place of each face from the datum face, as far as readings reach; faces at one place of the drawing are one face.
    pub at: Vec<Option<Length>>,
    /// Standard deviation of each.
    pub deviations: Vec<Option<Length>>,
    /// What the readings come to together; none where there is none.
    pub adjusted: Option<Adjusted>,
}

impl Standing {
    /// By the readings for which `holds` (entry of `measured:`, and the face it is of): those taken after the face was cut for the last time.
    pub fn of(part: &Part, drawn: &Chain, shop: Option<&Shop>, holds: &dyn Fn(&Measured, usize) -> bool) -> Self {
        let read = readings(part, drawn, shop, holds);
        let adjusted = adjust(drawn.graph.faces.len(), 0, &read.iter().map(|r| r.reading).collect::<Vec<_>>());
        Self {
            at: everywhere(drawn, adjusted.as_ref().map(|a| a.at.as_slice())),
            deviations: everywhere(drawn, adjusted.as_ref().map(|a| a.deviations.as_slice())),
            read,
            adjusted,
        }
    }

    /// Where each face stands once what was read from the far face alone is counted from the drawing's overall: the best that is
    /// known of it, not what was read.
    pub fn counted(&self, drawn: &Chain) -> Vec<Option<Length>> {
        let far = drawn.at.get(drawn.far).copied().flatten();
        let (Some(far), true) = (far, self.at.get(drawn.far).is_some_and(Option::is_none)) else {
            return self.at.clone();
        };
        let counted = |f: usize| self.at[f].or_else(|| Some(far.0 - self.alone(f, drawn.far)?.reading.length));
        everywhere(drawn, Some(&(0..self.at.len()).map(counted).collect::<Vec<_>>()))
    }

    /// What was read from the far face, where that was not read itself.
    pub fn from_far(&self, drawn: &Chain) -> Vec<(usize, Length)> {
        if self.at.get(drawn.far).is_none_or(Option::is_some) {
            return Vec::new();
        }
        let alone = |f: usize| Some((f, self.alone(f, drawn.far)?.reading.length));
        (1..self.at.len()).filter(|f| self.at[*f].is_none()).filter_map(alone).collect()
    }

    /// What was read between two faces itself, where no place of theirs from the datum face is known.
    pub fn between(&self, from: usize, to: usize) -> Option<Length> {
        match self.at[from].zip(self.at[to]) {
            Some((a, b)) => Some((b - a).abs()),
            None => self.alone(from, to).map(|r| r.reading.length),
        }
    }

    /// The last reading from one face to another.
    pub fn alone(&self, from: usize, to: usize) -> Option<&ReadLength> {
        self.read.iter().rev().find(|r| (r.reading.from, r.reading.to) == (from, to))
    }

    /// By how much the place of a face may be off: what its reading is good for, and that of the overall too where it was read from
    /// the far face.
    pub fn error(&self, drawn: &Chain, face: usize) -> Length {
        let same = |f: &usize| drawn.at[*f] == drawn.at[face] && drawn.at[face].is_some();
        let named: Vec<usize> = (0..drawn.at.len()).filter(|f| *f == face || same(f)).collect();
        let adjusted = self.deviations[face].map(|d| d.times(2));
        if named.iter().any(|f| self.alone(0, *f).is_some()) {
            return adjusted.unwrap_or_default();
        }
        let from_far = named.iter().find_map(|f| self.alone(*f, drawn.far)).map(|r| r.reading.deviation.times(2));
        let overall = self.deviations.get(drawn.far).copied().flatten().map_or(Length::ZERO, |d| d.times(2));
        from_far.map(|own| own + overall).or(adjusted).unwrap_or_default()
    }
}

fn readings(
    part: &Part,
    drawn: &Chain,
    shop: Option<&Shop>,
    holds: &dyn Fn(&Measured, usize) -> bool,
) -> Vec<ReadLength> {
    let node = |place: &crate::model::PlaceRef| {
        let at = drawn.station(place)?;
        drawn.at.iter().position(|s| *s == Some(at))
    };
    let mut out: Vec<ReadLength> = Vec::new();
    for (entry, measured) in part.measured.iter().enumerate() {
        let (from, to, face, length) = match &measured.what {
            MeasuredWhat::Overall(size) => (0, drawn.far, drawn.far, size.nominal),
            MeasuredWhat::Face { face, at, from } => match (node(face), from) {
                (Some(face), End::Datum) => (0, face, face, at.nominal),
                (Some(face), End::Far) => (face, drawn.far, face, at.nominal),
                (None, _) => continue,
            },
            MeasuredWhat::Diameter { .. } | MeasuredWhat::Other { .. } | MeasuredWhat::Mate { .. } => continue,
        };
        if from == to || !holds(measured, face) {
            continue;
        }
        let (error, source) = error(part.units, shop, measured, length.abs());
        let deviation = error.half().max(Length::from_pm(1));
        // The latest stands last, and counts: the one before may have been taken before a cut.
        out.retain(|r| (r.reading.from, r.reading.to) != (from, to));
        out.push(ReadLength { entry, reading: Reading { from, to, length, deviation }, from: source });
    }
    out
}

/// How far a reading of a length may be off: as stated, as the finest instrument of the shop that reaches it, or as usual.
fn error(unit: Unit, shop: Option<&Shop>, measured: &Measured, size: Length) -> (Length, SureFrom) {
    if let Some(stated) = measured.uncertainty.as_ref().filter(|u| u.nominal.is_positive()) {
        return (stated.nominal, SureFrom::Stated);
    }
    // Common practice, no source.
    let usual = match unit {
        Unit::Inch => Length::micro_inches(1_000),
        Unit::Millimetre => Length::micrometres(20),
    };
    let kinds = ["caliper", "depth micrometer", "height gauge", "micrometer"];
    let fit = shop.iter().flat_map(|s| &s.instruments).filter(|i| kinds.contains(&i.kind.as_str()));
    let fit = fit.filter(|i| i.range.is_none_or(|(least, most)| least <= size && size <= most));
    let least = fit.filter_map(|i| i.error).filter(|e| e.is_positive()).min();
    let (error, from) = least.map_or((usual, SureFrom::Assumed), |e| (e, SureFrom::Instrument));
    (measured.warm.map_or(error, |w| w.with(error)), from)
}

/// What is known of each face, as far as readings reach; faces at one place of the drawing are one face.
fn everywhere(drawn: &Chain, known: Option<&[Option<Length>]>) -> Vec<Option<Length>> {
    let mut at = known.map_or_else(|| vec![None; drawn.at.len()], <[_]>::to_vec);
    for face in 0..at.len() {
        if at[face].is_none() {
            let same =
                (0..at.len()).find(|o| at[*o].is_some() && drawn.at[*o] == drawn.at[face] && drawn.at[face].is_some());
            at[face] = same.and_then(|o| at[o]);
        }
    }
    at
}

/// The end a face looks to.
pub fn looks(drawn: &Chain, profile: &Profile, face: usize) -> End {
    if face == drawn.far {
        return End::Far;
    }
    let at: Option<Station> = drawn.at[face];
    let before = profile.pieces.iter().find(|p| Some(p.to) == at).map(|p| p.end.max);
    let behind = profile.pieces.iter().find(|p| Some(p.from) == at).map(|p| p.start.max);
    if before > behind { End::Far } else { End::Datum }
}
