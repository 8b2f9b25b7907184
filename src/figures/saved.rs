//! What can be saved of a part whose lengths came out wrong: the fewest faces cut again that bring every stated length right, or the
//! limits that no recut keeps together.

use super::verdict::{Judged, Verdict, opens};
use super::{Inspected, Inspection};
use crate::chain::{Chain, Link, Saving, diameter_gives};
use crate::check::{length_called, measure_first};
use crate::model::rest::{Outlook, Rest};
use crate::model::{Kind, Part};
use crate::unit::{Length, Limits, Unit, show};

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
    /// The least the drawing would have to give.
    pub gives: Vec<Given>,
    /// Faces that were not measured, and are taken as drawn.
    pub unmeasured: Vec<String>,
    /// So many faces would all have to be cut again to keep everything; that many are not proposed.
    pub instead: Option<usize>,
    /// Faces to measure first, in a sentence.
    pub measure: Option<String>,
    /// What the plan of the rest says of it, where work has begun.
    pub rest: Vec<String>,
}

/// A limit that would have to give.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Given {
    /// What is limited, in words.
    pub what: String,
    /// Limits as drawn.
    pub drawn: Limits,
    /// Limits it would have to have.
    pub to: Limits,
}

/// What saves the lengths of a finished part; none where no length is out.
pub(super) fn saved(part: &Part, drawn: &Chain, saving: &Saving, rows: &[Judged]) -> Option<Saved> {
    let out = |r: &Judged| r.row.faces.is_some() && matches!(r.verdict, Verdict::Recut | Verdict::Scrap);
    if !rows.iter().any(out) && !saving.is_out(drawn) {
        return None;
    }
    let (found, nows) = (&saving.found, &saving.nows);
    let said =
        |l: Length| show::exact(l, part.units, show::usual_decimals(part.units), show::usual_decimals(part.units) + 2);
    let name = |face: usize| drawn.graph.faces[face].name.clone();
    let what = |l: &Link| format!("{} to {}", name(l.from), name(l.to));
    let words = |l: &Link| format!("{}: {} to {}", what(l), said(l.limits.min), said(l.limits.max));
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
    let gives = saving.concession().into_iter().map(|c| Given {
        what: length_called(part, drawn, &drawn.graph.links[c.link]),
        drawn: c.drawn,
        to: c.to,
    });
    let unmeasured = (1..nows.len()).filter(|f| nows[*f].at.is_none() && nows[*f].drawn.is_some()).map(name).collect();
    let link = |i: usize| saving.links[i].map(|l| &drawn.graph.links[l]);
    Some(Saved {
        recuts: recuts.collect(),
        fewest: found.fewest,
        clash: found.clash.iter().filter_map(|i| link(*i)).map(words).collect(),
        misses: found.misses,
        doubtful: found.doubtful,
        gives: gives.collect(),
        unmeasured,
        instead: saving.instead,
        measure: (!saving.measure.is_empty())
            .then(|| measure_first(&saving.measure.iter().map(|f| name(*f)).collect::<Vec<_>>())),
        rest: Vec::new(),
    })
}

/// The same of work that has begun, as the plan of the rest has it.
pub(super) fn of_rest(rest: &Rest, unit: Unit) -> Option<Saved> {
    let length = |g: &&crate::model::rest::Give| g.place.is_some();
    (rest.outlook > Outlook::AsDrawn).then(|| Saved {
        fewest: rest.fewest,
        clash: rest.clash.clone(),
        misses: rest.misses,
        doubtful: rest.doubtful,
        gives: rest
            .gives
            .iter()
            .filter(length)
            .map(|g| Given { what: g.what.clone(), drawn: g.drawn, to: g.to })
            .collect(),
        rest: super::rest_words(rest, unit),
        ..Saved::default()
    })
}

impl Given {
    /// In a sentence.
    pub fn says(&self, said: &dyn Fn(Length) -> String) -> String {
        format!(
            "scrap, unless the drawing gives: {}: {} to {} would have to be {} to {}",
            self.what,
            said(self.drawn.min),
            said(self.drawn.max),
            said(self.to.min),
            said(self.to.max)
        )
    }
}

impl Saved {
    /// Whether cutting again saves the lengths.
    pub const fn can_be_saved(&self) -> bool {
        self.clash.is_empty()
    }

    /// In sentences.
    pub fn says(&self, said: &dyn Fn(Length) -> String) -> Vec<String> {
        if !self.rest.is_empty() {
            return self.rest.clone();
        }
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
            if let Some(many) = self.instead {
                out.push(format!("or {many} faces would all have to be cut again: the part made anew"));
            }
            out.extend(self.measure.clone());
            if self.doubtful {
                out.push(
                    "the readings may be off by that much: measure again with something surer before it is scrapped"
                        .to_owned(),
                );
            }
            out.extend(self.gives.iter().map(|g| g.says(said)));
        }
        if !self.unmeasured.is_empty() {
            out.push(format!("not measured, and taken as drawn: {}", self.unmeasured.join(", ")));
        }
        out
    }
}

/// The whole of the lengths against one length alone: what several recuts save is no scrap, and what clashes is.
pub(super) fn with_what_saves(out: &mut Inspection) {
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
}

/// Puts in what is still thought of where no cut helps.
pub(super) fn what_else(out: &mut Inspection, part: &Part) {
    for r in &mut out.rows {
        r.otherwise = otherwise(r, part);
    }
}

/// Diameters of a finished part whose limits would have to give.
pub(super) fn diameters(rows: &[Judged], part: &Part) -> Vec<Given> {
    let scrap = rows.iter().filter(|r| r.row.kind == Inspected::Diameter && r.verdict == Verdict::Scrap);
    let given = |r: &Judged| {
        let drawn = r.row.limits.exact;
        let to = diameter_gives(drawn, opens(part, &r.row), r.measured?)?;
        Some(Given { what: r.row.what.clone(), drawn, to })
    };
    scrap.filter_map(given).collect()
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
