//! What can be saved of a part whose lengths came out wrong: the fewest faces cut again that bring every stated length right, or the
//! limits that no recut keeps together.

use super::Inspection;
use super::verdict::{Judged, Verdict};
use crate::chain::replan::{Now, replan, stated};
use crate::chain::{Chain, Link, Profile};
use crate::model::{End, Kind, Part};
use crate::unit::{Length, Limits, Station, show};

/// A face to cut again.
#[derive(Debug, Clone, PartialEq)]
pub struct Recut {
    /// The face (node of the chain).
    pub face: usize,
    /// How sentences call it.
    pub name: String,
    /// What comes off.
    pub off: Length,
    /// Where it then stands, from the datum face (the new one, once that is cut).
    pub to: Length,
    /// Within what it may come out, the others standing where they are to be.
    pub window: Option<Limits>,
}

/// What the lengths come to.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Saved {
    /// Faces to cut again.
    pub recuts: Vec<Recut>,
    /// Whether no fewer do.
    pub fewest: bool,
    /// Limits that no recut keeps together, in words; empty where the recuts do.
    pub clash: Vec<String>,
    /// By how much they miss each other.
    pub misses: Length,
    /// Whether readings off by no more than their uncertainty could leave no clash.
    pub doubtful: bool,
    /// The least the drawing would have to give, in words.
    pub gives: Vec<String>,
    /// Faces that were not measured, and are taken as drawn.
    pub unmeasured: Vec<String>,
}

/// Works out what saves the lengths; none where no length is out, or none was measured.
pub(super) fn saved(
    part: &Part,
    drawn: &Chain,
    profile: &Profile,
    (at, deviations): (&[Option<Length>], &[Option<Length>]),
    rows: &[Judged],
) -> Option<Saved> {
    let out = |r: &Judged| r.row.faces.is_some() && matches!(r.verdict, Verdict::Recut | Verdict::Scrap);
    if !rows.iter().any(out) {
        return None;
    }
    let fixed = not_recut(part, drawn);
    // The datum face moves every length: it is cut again only where all of them are known.
    let all = (1..drawn.at.len()).all(|f| at[f].is_some() || drawn.at[f].is_none() || fixed.contains(&f));
    let now = |face: usize| Now {
        at: if face == 0 { Some(Length::ZERO) } else { at[face] },
        looks: looks(drawn, profile, face),
        open: false,
        again: (face == 0 && all || face > 0 && at[face].is_some()) && !fixed.contains(&face),
        drawn: drawn.at[face].map(|s| s.0),
        error: deviations[face].map_or(Length::ZERO, |d| d.times(2)),
    };
    let nows: Vec<Now> = (0..drawn.at.len()).map(now).collect();
    let (stated, links) = stated(drawn);
    let step = show::step(part.units, show::usual_decimals(part.units));
    let found = replan(&nows, &stated, step)?;
    let said =
        |l: Length| show::exact(l, part.units, show::usual_decimals(part.units), show::usual_decimals(part.units) + 2);
    let link = |i: usize| links[i].map(|l| &drawn.graph.links[l]);
    let name = |face: usize| drawn.graph.faces[face].name.clone();
    let words =
        |l: &Link| format!("{} to {}: {} to {}", name(l.from), name(l.to), said(l.limits.min), said(l.limits.max));
    let shift = found.at[0].unwrap_or_default();
    let recuts = found.again.iter().filter_map(|face| {
        let to = found.at[*face]?;
        Some(Recut {
            face: *face,
            name: name(*face),
            off: (to - nows[*face].at?).abs(),
            to: to - shift,
            window: found.windows[*face].map(|w| Limits::new(w.min - shift, w.max - shift)),
        })
    });
    let gives = found.gives.iter().filter_map(|(i, by)| {
        let l = link(*i)?;
        let end = if by.is_positive() { "largest up" } else { "smallest down" };
        Some(format!("{}, its {end} by {}", words(l), said(by.abs())))
    });
    let unmeasured = (1..nows.len()).filter(|f| nows[*f].at.is_none() && nows[*f].drawn.is_some()).map(name).collect();
    Some(Saved {
        recuts: recuts.collect(),
        fewest: found.fewest,
        clash: found.clash.iter().filter_map(|i| link(*i)).map(words).collect(),
        misses: found.misses,
        doubtful: found.doubtful,
        gives: gives.collect(),
        unmeasured,
    })
}

/// Nodes that no facing moves: centres of keyseats and holes, the ends of milled slots.
fn not_recut(part: &Part, drawn: &Chain) -> Vec<usize> {
    let milled = |kind: &Kind| {
        matches!(
            kind,
            Kind::Woodruff { .. } | Kind::ParallelKeyseat { .. } | Kind::CrossHole { .. } | Kind::Flats { .. }
        )
    };
    let nodes =
        part.features.iter().filter(|f| milled(&f.kind)).filter_map(|f| drawn.ends.get(f.id).copied().flatten());
    nodes.flat_map(|(a, b)| [a, b]).filter(|n| *n > 0 && *n != drawn.far).collect()
}

impl Saved {
    /// Whether cutting again saves the lengths.
    pub const fn can_be_saved(&self) -> bool {
        self.clash.is_empty()
    }

    /// In sentences.
    pub fn says(&self, said: &dyn Fn(Length) -> String) -> Vec<String> {
        let mut out = Vec::new();
        let count = |n: usize| if n == 1 { "one face".to_owned() } else { format!("{n} faces") };
        if !self.recuts.is_empty() && self.can_be_saved() {
            let fewest = if self.fewest { "; no fewer do" } else { "" };
            out.push(format!("cutting {} again brings every measured length right{fewest}", count(self.recuts.len())));
        }
        for r in self.recuts.iter().filter(|_| self.can_be_saved()) {
            let window = r.window.map_or_else(String::new, |w| format!(" ({} to {})", said(w.min), said(w.max)));
            out.push(if r.face == 0 {
                format!("take {} off the datum face; every length counts from the new one", said(r.off))
            } else {
                format!(
                    "take {} off the {}, to {}{window} from the datum face; leave the diameter beside it alone",
                    said(r.off),
                    r.name,
                    said(r.to)
                )
            });
        }
        if !self.can_be_saved() {
            out.push(format!(
                "no recut keeps these together; they miss each other by {}: {}",
                said(self.misses),
                self.clash.join("; ")
            ));
            if self.doubtful {
                out.push(
                    "the readings may be off by that much: measure again with something surer before it is scrapped"
                        .to_owned(),
                );
            }
            out.extend(self.gives.iter().map(|g| format!("scrap, unless the drawing gives: {g}")));
        }
        if !self.unmeasured.is_empty() {
            out.push(format!("not measured, and taken as drawn: {}", self.unmeasured.join(", ")));
        }
        out
    }
}

/// The whole of the lengths against one length alone: what several recuts save is no scrap, and what clashes is.
pub(super) fn with_what_saves(out: &mut Inspection, part: &Part) {
    if let Some(saved) = out.saved.as_ref().filter(|s| s.can_be_saved()) {
        let how = match &saved.recuts[..] {
            [one] if one.face == 0 => "facing the datum end again saves it",
            [_] => "cutting one face again saves it",
            _ => "cutting several faces again saves it",
        };
        for r in out.rows.iter_mut().filter(|r| r.row.faces.is_some() && r.verdict == Verdict::Scrap) {
            r.verdict = Verdict::Recut;
            r.action = format!("{how}: see below what comes off");
        }
    } else if out.saved.is_some() {
        // One face can be right again, and all of them together not.
        for r in out.rows.iter_mut().filter(|r| r.row.faces.is_some() && r.verdict == Verdict::Recut) {
            r.action.push_str("; that does not save the others, see below");
        }
    }
    for r in &mut out.rows {
        r.otherwise = otherwise(r, part);
    }
}

/// The end a face looks to.
pub(super) fn looks(drawn: &Chain, profile: &Profile, face: usize) -> End {
    if face == drawn.far {
        return End::Far;
    }
    let at: Option<Station> = drawn.at[face];
    let before = profile.pieces.iter().find(|p| Some(p.to) == at).map(|p| p.end.max);
    let behind = profile.pieces.iter().find(|p| Some(p.from) == at).map(|p| p.start.max);
    if before > behind { End::Far } else { End::Datum }
}

/// What is still thought of where no cut brings a size right (common practice, no source); the drawing's owner decides.
fn otherwise(judged: &Judged, part: &Part) -> String {
    use super::Inspected as I;
    if judged.verdict != Verdict::Scrap {
        return String::new();
    }
    let feature = judged.row.feature.and_then(|id| part.features.get(id));
    let carries = feature.is_some_and(|f| !f.carries.is_empty());
    let thread = feature.is_some_and(|f| matches!(f.kind, Kind::Thread { .. }));
    match judged.row.kind {
        I::OverWires => "a nut made to it; else that end anew",
        I::Diameter if thread => "the crests are low: its pitch diameter decides; a nut made to it",
        I::Diameter if carries => "a mate made to it, a sleeve, or building it up and turning it anew",
        I::Diameter => "a concession, where nothing sits on it",
        I::AcrossBottom => "a new keyseat a quarter turn round, clear of the old one; or a stepped key",
        I::Width => "a wider ring, or the ring with a shim washer",
        I::Length | I::Distance | I::Own => "a spacer, where what matters is the room between its mates",
        I::Gauge => "a longer thread, cut on to its gauge, where there is length for it",
        I::AcrossFlats | I::Radius | I::Runout | I::Throw => "a concession",
    }
    .to_owned()
}

impl Inspection {
    /// A name for each row that no other has: `thread A, over wires`; the second of one name has its number.
    pub fn names(&self) -> Vec<String> {
        let mut out: Vec<String> = Vec::new();
        for r in &self.rows {
            let base = format!("{}{}", r.row.what, r.row.kind.across());
            let same = out
                .iter()
                .filter(|n| **n == base || n.strip_prefix(&base).is_some_and(|rest| rest.starts_with(" (")))
                .count();
            out.push(if same == 0 { base } else { format!("{base} ({})", same + 1) });
        }
        out
    }
}
