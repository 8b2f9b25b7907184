//! Measured sizes judged: what passes, what another cut can still save, what is scrap.

use super::{Inspected, InspectionRow};
use crate::chain::adjust::{Adjusted, Reading, adjust};
use crate::chain::{Chain, Profile};
use crate::model::measured::MeasuredWhat;
use crate::model::{End, Kind, Part, Shop};
use crate::unit::{Length, Limits, Station, Unit, show};

/// What a measured size comes to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// Within its limits.
    Pass,
    /// Nothing was measured.
    NotMeasured,
    /// Metal is left: another cut brings it right.
    Recut,
    /// No cut brings it right.
    Scrap,
}

impl Verdict {
    /// As the JSON and the record have it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Pass => "pass",
            Self::NotMeasured => "not measured",
            Self::Recut => "recut",
            Self::Scrap => "scrap",
        }
    }
}

/// One size of the inspection, judged.
#[derive(Debug, Clone, PartialEq)]
pub struct Judged {
    /// The size.
    pub row: InspectionRow,
    /// As it came out.
    pub measured: Option<Length>,
    /// Verdict.
    pub verdict: Verdict,
    /// What to do, or why nothing helps; empty for what passes.
    pub action: String,
}

/// A whole part, judged.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Inspection {
    /// Every size.
    pub rows: Vec<Judged>,
    /// Faces as the readings put them, with their standard deviations: only where there are more readings than needed.
    pub adjusted: Vec<(usize, Length, Length)>,
    /// The reading (index into `measured:`) that does not fit the others.
    pub suspect: Option<usize>,
}

impl Inspection {
    /// The worst of all.
    pub fn overall(&self) -> Verdict {
        self.rows.iter().map(|r| r.verdict).max().unwrap_or(Verdict::NotMeasured)
    }
}

/// Judges what `measured:` says. `drawn` are the faces as the drawing has them.
pub fn inspect(
    part: &Part,
    drawn: &Chain,
    profile: &Profile,
    shop: Option<&Shop>,
    rows: &[InspectionRow],
) -> Inspection {
    let read = readings(part, drawn, shop);
    let adjusted = adjust(drawn.graph.faces.len(), 0, &read.iter().map(|(_, r)| *r).collect::<Vec<_>>());
    let judge = Judge { part, drawn, profile, at: places(drawn, adjusted.as_ref()) };
    let mut out = Inspection { rows: rows.iter().map(|row| judge.row(row)).collect(), ..Inspection::default() };
    if let Some(a) = adjusted.filter(|a| a.redundancy > 0) {
        let sure = |face: &usize| Some((*face, a.at[*face]?, a.deviations[*face]?));
        out.adjusted =
            (1..drawn.graph.faces.len()).filter(|f| drawn.at[*f].is_some()).filter_map(|f| sure(&f)).collect();
        out.suspect = a.suspect.and_then(|i| read.get(i)).map(|(entry, _)| *entry);
    }
    out
}

/// Readings of lengths, each with its entry. An instrument's error is taken as two standard deviations (common practice, no source).
fn readings(part: &Part, drawn: &Chain, shop: Option<&Shop>) -> Vec<(usize, Reading)> {
    let usual = match part.units {
        Unit::Inch => Length::micro_inches(1_000),
        Unit::Millimetre => Length::micrometres(20),
    };
    let kinds = ["caliper", "depth micrometer", "height gauge", "micrometer"];
    let error = |size: Length| {
        let fit = shop.iter().flat_map(|s| &s.instruments).filter(|i| kinds.contains(&i.kind.as_str()));
        let fit = fit.filter(|i| i.range.is_none_or(|(least, most)| least <= size && size <= most));
        fit.filter_map(|i| i.error).filter(|e| e.is_positive()).min().unwrap_or(usual)
    };
    let node = |place: &crate::model::PlaceRef| {
        let at = drawn.station(place)?;
        drawn.at.iter().position(|s| *s == Some(at))
    };
    let mut out = Vec::new();
    for (entry, measured) in part.measured.iter().enumerate() {
        let (from, to, length) = match &measured.what {
            MeasuredWhat::Overall(size) => (0, drawn.far, size.nominal),
            MeasuredWhat::Face { face, at, from } => match (node(face), from) {
                (Some(face), End::Datum) => (0, face, at.nominal),
                (Some(face), End::Far) => (face, drawn.far, at.nominal),
                (None, _) => continue,
            },
            MeasuredWhat::Diameter { .. } => continue,
        };
        if from != to {
            out.push((
                entry,
                Reading { from, to, length, deviation: error(length.abs()).half().max(Length::from_pm(1)) },
            ));
        }
    }
    out
}

/// Where each face came out, as far as readings reach; faces at one place of the drawing are one face.
fn places(drawn: &Chain, adjusted: Option<&Adjusted>) -> Vec<Option<Length>> {
    let mut at: Vec<Option<Length>> = adjusted.map_or_else(|| vec![None; drawn.at.len()], |a| a.at.clone());
    for face in 0..at.len() {
        if at[face].is_none() {
            let same =
                (0..at.len()).find(|o| at[*o].is_some() && drawn.at[*o] == drawn.at[face] && drawn.at[face].is_some());
            at[face] = same.and_then(|o| at[o]);
        }
    }
    at
}

struct Judge<'a> {
    part: &'a Part,
    drawn: &'a Chain,
    profile: &'a Profile,
    at: Vec<Option<Length>>,
}

impl Judge<'_> {
    fn show(&self, value: Length) -> String {
        let least = show::usual_decimals(self.part.units);
        show::exact(value, self.part.units, least, least + 2)
    }

    fn row(&self, row: &InspectionRow) -> Judged {
        let measured = match (row.kind, row.faces) {
            (Inspected::Diameter, _) => {
                row.feature.and_then(|id| self.part.measured_diameter(id)).map(|size| size.nominal)
            }
            (_, Some((from, to))) => self.at[from].zip(self.at[to]).map(|(a, b)| (b - a).abs()),
            _ => None,
        };
        let limits = row.limits.exact;
        let (verdict, action) = match measured {
            None => (Verdict::NotMeasured, String::new()),
            Some(size) if limits.holds(size) => (Verdict::Pass, String::new()),
            Some(size) => match row.faces {
                Some((from, to)) => self.length(from, to, size, limits),
                None => self.diameter(row, size, limits),
            },
        };
        Judged { row: row.clone(), measured, verdict, action }
    }

    /// A shaft that is too large has metal left; one that is too small has not.
    fn diameter(&self, row: &InspectionRow, size: Length, limits: Limits) -> (Verdict, String) {
        let hole = row
            .feature
            .and_then(|id| self.part.features.get(id))
            .is_some_and(|f| matches!(f.kind, Kind::CrossHole { .. } | Kind::Inside(_) | Kind::CenterHole { .. }));
        let left = if hole { size < limits.min } else { size > limits.max };
        let off = (size - limits.middle()).abs();
        if left {
            let side = if hole { "open it by" } else { "take off" };
            return (Verdict::Recut, format!("{side} {} on the diameter", self.show(off)));
        }
        let by = if hole { size - limits.max } else { limits.min - size };
        let what = if hole { "too large" } else { "too small" };
        (Verdict::Scrap, format!("{} {what}: metal cannot be put back", self.show(by)))
    }

    /// A length: one of its two faces is cut where that brings it right and keeps what else is measured from that face.
    fn length(&self, from: usize, to: usize, size: Length, limits: Limits) -> (Verdict, String) {
        for face in [to, from] {
            if let Some((by, new)) = self.cut(face) {
                let name = &self.drawn.graph.faces[face].name;
                let kept =
                    self.at[if face == to { from } else { to }].is_some_and(|other| limits.holds((new - other).abs()));
                if kept {
                    return (
                        Verdict::Recut,
                        format!(
                            "take {} off the {name}: it then stands at {} from the datum face",
                            self.show(by),
                            self.show(new)
                        ),
                    );
                }
            }
        }
        let by = if size > limits.max { size - limits.max } else { limits.min - size };
        let what = if size > limits.max { "too long" } else { "too short" };
        (
            Verdict::Scrap,
            format!("{} {what}: no cut of one of its faces brings it right and keeps the others", self.show(by)),
        )
    }

    /// How much can be cut off a face, and where it then stands, so that everything stated between it and measured faces holds.
    fn cut(&self, face: usize) -> Option<(Length, Length)> {
        let now = self.at[face].filter(|_| face != 0)?;
        let mut window = Limits::new(Length::from_pm(i64::MIN / 4), Length::from_pm(i64::MAX / 4));
        for link in self.drawn.graph.links.iter().filter(|l| l.limits.band().is_positive()) {
            let (other, limits) = match (link.from == face, link.to == face) {
                (true, _) => (link.to, link.limits.mirrored()),
                (_, true) => (link.from, link.limits),
                _ => continue,
            };
            let Some(other) = self.at[other] else { continue };
            window = window.both(Limits::new(other + limits.min, other + limits.max))?;
        }
        let reach = match self.looks(face) {
            End::Datum => Limits::new(now, Length::from_pm(i64::MAX / 4)),
            End::Far => Limits::new(Length::from_pm(i64::MIN / 4), now),
        };
        let reach = window.both(reach)?;
        let aim = window.middle().max(reach.min).min(reach.max);
        (aim != now).then(|| ((aim - now).abs(), aim))
    }

    /// The end a face looks to.
    fn looks(&self, face: usize) -> End {
        if face == self.drawn.far {
            return End::Far;
        }
        let at: Option<Station> = self.drawn.at[face];
        let before = self.profile.pieces.iter().find(|p| Some(p.to) == at).map(|p| p.end.max);
        let behind = self.profile.pieces.iter().find(|p| Some(p.from) == at).map(|p| p.start.max);
        if before > behind { End::Far } else { End::Datum }
    }
}
