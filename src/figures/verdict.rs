//! Measured sizes judged: what passes, what another cut can still save, what is scrap.

use super::decision::{self, Decision, Rule, Sure};
use super::saved::{Given, Saved, diameters, saved, what_else, with_what_saves};
use super::wires_read::{over_row_wire, pitch_diameter};
use super::{Inspected, InspectionRow};
use crate::chain::{Chain, Profile, Standing, diameter_gives, finished, looks};
use crate::handbook::conformity;
use crate::model::measured::{Measured, MeasuredWhat, Reads, SureFrom, Warm};
use crate::model::rest::Rest;
use crate::model::{End, Kind, Part, Shop};
use crate::unit::{Length, Limits, Unit, show};

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
    /// How sure the reading is.
    pub sure: Option<Sure>,
    /// What it proves under the rule.
    pub decision: Option<Decision>,
    /// Probability that the size is within its limits, nothing else being known of it.
    pub probability: Option<f64>,
    /// Verdict.
    pub verdict: Verdict,
    /// What to do, or why nothing helps; empty for what passes.
    pub action: String,
    /// What is still thought of where no cut brings it right; empty else.
    pub otherwise: String,
    /// What the reading comes to, where that is another size: a pitch diameter.
    pub note: String,
}

/// A whole part, judged.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Inspection {
    /// How uncertainty counted.
    pub rule: Rule,
    /// Every size.
    pub rows: Vec<Judged>,
    /// Faces as the readings put them, with their standard deviations: only where there are more readings than needed.
    pub adjusted: Vec<(usize, Length, Length)>,
    /// The reading (index into `measured:`) that does not fit the others.
    pub suspect: Option<usize>,
    /// What cutting again saves of the lengths; none where none is out.
    pub saved: Option<Saved>,
    /// Diameters whose limits would have to give.
    pub gives: Vec<Given>,
    /// Readings that count no more, and why.
    pub void: Vec<String>,
}

impl Inspection {
    /// The worst of all.
    pub fn overall(&self) -> Verdict {
        let lost = self.saved.as_ref().is_some_and(|s| !s.can_be_saved());
        let rows = self.rows.iter().map(|r| r.verdict).max().unwrap_or(Verdict::NotMeasured);
        if lost { Verdict::Scrap } else { rows }
    }

    /// The worst that a reading proves; none where nothing was read.
    pub fn decision(&self) -> Option<Decision> {
        self.rows.iter().filter_map(|r| r.decision).max()
    }
}

/// Judges what `measured:` says of a finished part. `drawn` are the faces as the drawing has them.
pub fn inspect(
    part: &Part,
    drawn: &Chain,
    profile: &Profile,
    shop: Option<&Shop>,
    rows: &[InspectionRow],
    rule: Rule,
) -> Inspection {
    inspect_begun(part, (drawn, profile), shop, rows, rule, None)
}

/// The same of work that has begun, by the plan of its rest: a reading taken before a face was cut again counts no more, and what is
/// still to be cut is no scrap.
pub fn inspect_begun(
    part: &Part,
    (drawn, profile): (&Chain, &Profile),
    shop: Option<&Shop>,
    rows: &[InspectionRow],
    rule: Rule,
    rest: Option<&Rest>,
) -> Inspection {
    let void: &[usize] = rest.map_or(&[], |r| &r.void_entries);
    let counts = |measured: &Measured| part.measured.iter().position(|m| m.place == measured.place);
    let standing = Standing::of(part, drawn, shop, &|m, _| counts(m).is_none_or(|entry| !void.contains(&entry)));
    let judge = Judge {
        part,
        drawn,
        profile,
        shop,
        rule,
        void,
        from: standing.read.iter().map(|r| r.from).max().unwrap_or(SureFrom::Assumed),
        standing: &standing,
    };
    let mut out = Inspection { rule, rows: rows.iter().map(|row| judge.row(row)).collect(), ..Inspection::default() };
    if let Some(a) = standing.adjusted.as_ref().filter(|a| a.redundancy > 0) {
        let sure = |face: &usize| Some((*face, a.at[*face]?, a.deviations[*face]?));
        out.adjusted =
            (1..drawn.graph.faces.len()).filter(|f| drawn.at[*f].is_some()).filter_map(|f| sure(&f)).collect();
        out.suspect = a.suspect.and_then(|i| standing.read.get(i)).map(|r| r.entry);
    }
    if let Some(rest) = rest {
        out.by_rest(part, drawn, rest);
    } else {
        let saving = finished(part, drawn, profile, shop);
        out.saved = saving.and_then(|s| saved(part, drawn, &s, &out.rows));
        with_what_saves(&mut out);
        out.gives = diameters(&out.rows, part);
    }
    what_else(&mut out, part);
    out
}

struct Judge<'a> {
    part: &'a Part,
    drawn: &'a Chain,
    profile: &'a Profile,
    shop: Option<&'a Shop>,
    rule: Rule,
    standing: &'a Standing,
    /// Entries of `measured:` that count no more.
    void: &'a [usize],
    from: SureFrom,
}

const fn kind_of(reads: Reads) -> Inspected {
    match reads {
        Reads::OverWires => Inspected::OverWires,
        Reads::AcrossBottom => Inspected::AcrossBottom,
        Reads::AcrossFlats => Inspected::AcrossFlats,
        Reads::Width => Inspected::Width,
        Reads::Runout => Inspected::Runout,
    }
}

fn probability(kind: Inspected, size: Length, uncertainty: Length, limits: Limits) -> f64 {
    let least = (kind != Inspected::Runout).then(|| limits.min.mm());
    conformity::probability(size.mm(), uncertainty.half().mm(), (least, Some(limits.max.mm())))
}

/// Whether another cut makes the size larger: a bore, and a groove's width.
pub(super) fn opens(part: &Part, row: &InspectionRow) -> bool {
    let feature = row.feature.and_then(|id| part.features.get(id));
    let bore =
        feature.is_some_and(|f| matches!(f.kind, Kind::CrossHole { .. } | Kind::Inside(_) | Kind::CenterHole { .. }));
    bore && row.kind == Inspected::Diameter || row.kind == Inspected::Width
}

impl Judge<'_> {
    fn show(&self, value: Length) -> String {
        let least = show::usual_decimals(self.part.units);
        show::exact(value, self.part.units, least, least + 2)
    }

    fn row(&self, row: &InspectionRow) -> Judged {
        let entry = row.feature.and_then(|id| self.entry(row, id));
        let note = row.feature.and_then(|id| self.pitch_diameter(row, id)).unwrap_or_default();
        let measured = match (row.kind, row.faces) {
            (_, Some((from, to))) => self.standing.between(from, to),
            _ => entry.map(|(size, ..)| size),
        };
        let limits = row.limits.exact;
        let read = |size: Length| {
            let sure = decision::sure(entry.and_then(|(_, u, _)| u), row, size, self.shop, self.part.units);
            decision::with_warmth(sure, entry.and_then(|(.., warm)| warm))
        };
        let sure = measured.map(|size| row.faces.map_or_else(|| read(size), |faces| self.sure_of_length(faces)));
        let decided = measured.zip(sure);
        let decision = decided.map(|(size, s)| self.rule.decide(row.kind, size, s.uncertainty, limits));
        let (verdict, mut action) = match measured {
            None => (Verdict::NotMeasured, String::new()),
            Some(size) if limits.holds(size) => (Verdict::Pass, String::new()),
            Some(size) => match row.faces {
                Some((from, to)) => self.length(from, to, size, limits),
                None if row.kind == Inspected::Runout => self.runout(row, size, limits),
                None => self.across(row, size, limits),
            },
        };
        if decision == Some(Decision::TooClose) {
            let surer = "too close to call: measure it with something surer";
            action = if action.is_empty() { surer.to_owned() } else { format!("{surer}; if it is so, {action}") };
        }
        Judged {
            row: row.clone(),
            measured,
            sure,
            decision,
            probability: decided.map(|(size, s)| probability(row.kind, size, s.uncertainty, limits)),
            verdict,
            action,
            otherwise: String::new(),
            note,
        }
    }

    /// The last reading of this kind of a feature, and its stated uncertainty.
    fn entry(&self, row: &InspectionRow, id: usize) -> Option<(Length, Option<Length>, Option<Warm>)> {
        let kind = row.kind;
        self.part.measured.iter().enumerate().rev().filter(|(i, _)| !self.void.contains(i)).find_map(|(_, m)| {
            let size = match (&m.what, kind) {
                // A kept hexagon is read as a diameter too.
                (MeasuredWhat::Diameter { feature, size }, Inspected::Diameter | Inspected::AcrossFlats)
                    if *feature == id =>
                {
                    size
                }
                (MeasuredWhat::Other { feature, of, size }, kind) if *feature == id && kind_of(*of) == kind => size,
                _ => return None,
            };
            let over = (kind == Inspected::OverWires).then(|| over_row_wire(self.part, row, m, size.nominal)).flatten();
            Some((
                over.unwrap_or(size.nominal),
                m.uncertainty.as_ref().map(|u| u.nominal).filter(|u| u.is_positive()),
                m.warm,
            ))
        })
    }

    /// What a reading over wires means.
    fn pitch_diameter(&self, row: &InspectionRow, id: usize) -> Option<String> {
        (row.kind == Inspected::OverWires).then(|| pitch_diameter(self.part, id, row, &|l| self.show(l))).flatten()
    }

    /// Places of two faces lean the same way where they share readings (the inverse of a network's normal matrix has no entry below
    /// zero), so the root of the sum of squares is never too small.
    fn sure_of_length(&self, (from, to): (usize, usize)) -> Sure {
        let s = self.standing;
        if let (None, Some(alone)) = (s.at[from].zip(s.at[to]), s.alone(from, to)) {
            return Sure { uncertainty: alone.reading.deviation.times(2), from: alone.from };
        }
        let of = |face: usize| s.deviations[face].map_or(0.0, Length::mm);
        let uncertainty = Length::from_f64(2.0 * of(from).hypot(of(to)), Unit::Millimetre);
        Sure { uncertainty, from: self.from }
    }

    /// Running out is mended by a skim where the diameter has that much to give.
    fn runout(&self, row: &InspectionRow, size: Length, limits: Limits) -> (Verdict, String) {
        let by = self.show(size - limits.max);
        let id = row.feature.and_then(|id| self.part.features.get(id));
        let least = id.and_then(|f| match &f.kind {
            Kind::Turn { diameter, .. } => diameter.limits.map(|l| l.min),
            _ => None,
        });
        let now = row.feature.and_then(|id| self.part.measured_diameter(id)).map(|d| d.nominal);
        match now.zip(least) {
            Some((now, least)) if now - size < least => (
                Verdict::Scrap,
                format!(
                    "{by} too much, and a skim that trues it takes {}: more than its diameter has to give",
                    self.show(size)
                ),
            ),
            Some(_) => (Verdict::Recut, format!("indicate and skim it: {} on the diameter trues it", self.show(size))),
            None => (
                Verdict::Recut,
                format!("{by} too much: measure its diameter; a skim that trues it takes {}", self.show(size)),
            ),
        }
    }

    /// A shaft that is too large has metal left; one that is too small has not.
    fn across(&self, row: &InspectionRow, size: Length, limits: Limits) -> (Verdict, String) {
        let hole = opens(self.part, row);
        if diameter_gives(limits, hole, size).is_none() {
            let off = (size - limits.middle()).abs();
            let off = self.show(off);
            let action = match row.kind {
                Inspected::Width => format!("widen it by {off}"),
                Inspected::OverWires => format!("chase it: the reading over wires comes down by {off}"),
                Inspected::AcrossBottom => format!("cut it {off} deeper"),
                Inspected::AcrossFlats => format!("take {off} off across the flats"),
                _ if hole => format!("open it by {off} on the diameter"),
                _ => format!("take off {off} on the diameter"),
            };
            return (Verdict::Recut, action);
        }
        let by = if hole { size - limits.max } else { limits.min - size };
        let what = match row.kind {
            Inspected::Width => "too wide",
            Inspected::AcrossBottom => "too deep",
            _ if hole => "too large",
            _ => "too small",
        };
        (Verdict::Scrap, format!("{} {what}: metal cannot be put back", self.show(by)))
    }

    /// A length: one of its two faces is cut where that brings it right and keeps what else is measured from that face.
    fn length(&self, from: usize, to: usize, size: Length, limits: Limits) -> (Verdict, String) {
        for face in [to, from] {
            if let Some((by, new)) = self.cut(face) {
                let name = &self.drawn.graph.faces[face].name;
                let kept = self.standing.at[if face == to { from } else { to }]
                    .is_some_and(|other| limits.holds((new - other).abs()));
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
        let now = self.standing.at[face].filter(|_| face != 0)?;
        let mut window = Limits::new(Length::from_pm(i64::MIN / 4), Length::from_pm(i64::MAX / 4));
        for link in self.drawn.graph.links.iter().filter(|l| l.limits.band().is_positive()) {
            let (other, limits) = match (link.from == face, link.to == face) {
                (true, _) => (link.to, link.limits.mirrored()),
                (_, true) => (link.from, link.limits),
                _ => continue,
            };
            let Some(other) = self.standing.at[other] else { continue };
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

    fn looks(&self, face: usize) -> End {
        looks(self.drawn, self.profile, face)
    }
}
