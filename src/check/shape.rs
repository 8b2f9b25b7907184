//! Questions about the finished shape that several checks ask: what lies beside a section, where a thread runs out, which way
//! something slides on.

use std::cell::RefCell;

use super::Facts;
use crate::chain::Piece;
use crate::handbook::{
    self,
    thread::{Asked, ThreadData},
};
use crate::model::feature::{EdgeAt, Thread};
use crate::model::{Carried, End, Feature, Kind, LimitsFrom, Size};
use crate::tell;
use crate::unit::{Length, Limits, Station, Unit, show};

/// Threads of one part that several checks ask about.
const THREADS_KEPT: usize = 8;

thread_local! {
    /// The last threads asked for.
    static THREADS: RefCell<Vec<(String, Option<ThreadData>)>> = const { RefCell::new(Vec::new()) };
}

/// What lies beside a section.
#[derive(Debug, Clone, Copy)]
pub(super) enum Beside<'a> {
    /// The end of the part.
    PartEnd,
    /// Another section.
    Section(&'a Piece),
    /// A section that is not located, or not worked.
    Unknown,
}

impl<'a> Beside<'a> {
    /// The section, if there is one.
    pub(super) fn section(self) -> Option<&'a Piece> {
        if let Self::Section(piece) = self { Some(piece) } else { None }
    }
}

/// Where the tool of a thread comes out.
#[derive(Debug, Clone, Copy)]
pub(super) enum RunOut<'a> {
    /// Nothing is in its way as far as the end of the part.
    Open,
    /// A neck.
    Relief(Relief<'a>),
    /// A surface above the pitch diameter.
    Against(&'a Feature),
    /// It cannot be told.
    Unknown,
}

/// A neck beside a thread, whatever the description calls it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Relief<'a> {
    /// The section or groove.
    pub(super) feature: &'a Feature,
    /// Its diameter.
    pub(super) diameter: Limits,
    /// Room from the thread to what the tool would hit.
    pub(super) width: Length,
    /// Whether something is there to hit.
    pub(super) shut: bool,
    /// Whether the description calls it a relief or a groove.
    pub(super) called: bool,
}

impl<'a> Facts<'a> {
    /// The feature of a piece.
    pub(super) fn feature(&self, id: usize) -> Option<&'a Feature> {
        self.part.features.get(id)
    }

    /// What lies beside a section, toward one end.
    pub(super) fn beside(&self, piece: &Piece, side: End) -> Beside<'a> {
        let Some((start, end)) = self.chain.ends.get(piece.feature).copied().flatten() else { return Beside::Unknown };
        let outermost = match side {
            End::Datum => start == 0,
            End::Far => end == self.chain.far,
        };
        if outermost {
            return Beside::PartEnd;
        }
        let pieces = &self.profile.pieces;
        let Ok(at) = pieces.binary_search_by_key(&piece.feature, |p| p.feature) else { return Beside::Unknown };
        let next = match side {
            End::Datum => at.checked_sub(1).and_then(|i| pieces.get(i)).filter(|p| p.to == piece.from),
            End::Far => pieces.get(at + 1).filter(|p| p.from == piece.to),
        };
        next.map_or(Beside::Unknown, Beside::Section)
    }

    /// Where the tool of a thread comes out toward one end.
    pub(super) fn run_out(&self, piece: &Piece, thread: &Thread, side: End) -> RunOut<'a> {
        if let Some(relief) = self.groove_at(face(piece, side)) {
            return RunOut::Relief(relief);
        }
        let near = match self.beside(piece, side) {
            Beside::PartEnd => return RunOut::Open,
            Beside::Unknown => return RunOut::Unknown,
            Beside::Section(near) => near,
        };
        let Some(feature) = self.feature(near.feature) else { return RunOut::Unknown };
        let called = matches!(feature.kind, Kind::Relief { .. });
        let meets = at_face(near, side.other());
        if !called && nominal_at(feature, side.other()) >= thread.pitch_diameter.min {
            return RunOut::Against(feature);
        }
        let clears = |p: &Piece| p.largest() < thread.root;
        let (mut width, mut last) = (near.long(), near);
        let shut = loop {
            match self.beside(last, side) {
                Beside::PartEnd => break false,
                Beside::Unknown => return RunOut::Unknown,
                Beside::Section(next) if clears(last) && clears(next) => {
                    width += next.long();
                    last = next;
                }
                Beside::Section(next) => break at_face(next, side.other()).max > at_face(last, side).max,
            }
        };
        if !shut && !called {
            return RunOut::Open;
        }
        RunOut::Relief(Relief { feature, diameter: meets, width, shut, called })
    }

    /// A groove with a wall at this face.
    fn groove_at(&self, at: Station) -> Option<Relief<'a>> {
        self.part.features.iter().find_map(|feature| {
            let Kind::Groove { diameter, .. } = &feature.kind else { return None };
            let (from, to) = self.chain.span(feature.id)?;
            (from == at || to == at).then(|| Relief {
                feature,
                diameter: diameter.limits_or_nominal(),
                width: to - from,
                shut: true,
                called: true,
            })
        })
    }

    /// The thread sections, located, with their pieces.
    pub(super) fn threads(&self) -> impl Iterator<Item = (&'a Feature, &'a Thread, &'a Piece)> {
        let profile = self.profile;
        self.part.sections().filter_map(move |f| match &f.kind {
            Kind::Thread { thread, .. } => Some((f, thread.as_ref(), profile.piece(f.id)?)),
            _ => None,
        })
    }

    /// Axial leg and depth a side of the chamfer on a face, if one is stated there.
    pub(super) fn chamfer_at(&self, at: Station) -> Option<(&'a Feature, Length, Length)> {
        self.part.features.iter().find_map(|f| {
            let Kind::Chamfer { leg, angle_mdeg, at: edge } = &f.kind else { return None };
            let place = match edge {
                EdgeAt::End(End::Datum) => Some(Station::DATUM),
                EdgeAt::End(End::Far) => self.chain.at.get(self.chain.far).copied().flatten(),
                EdgeAt::Face(place) => self.chain.station(place),
            };
            (place == Some(at)).then(|| (f, leg.nominal, rise(leg.nominal, *angle_mdeg)))
        })
    }

    /// The chamfer on the edge of a section toward one end: the section is the larger one there, or the part ends.
    pub(super) fn chamfer_on(&self, piece: &Piece, side: End) -> Option<(&'a Feature, Length, Length)> {
        let edge = match self.beside(piece, side) {
            Beside::PartEnd => true,
            Beside::Section(next) => at_face(next, side.other()).max < at_face(piece, side).max,
            Beside::Unknown => false,
        };
        if edge { self.chamfer_at(face(piece, side)) } else { None }
    }

    /// The fillet at a face, if one is stated there.
    pub(super) fn fillet_at(&self, at: Station) -> Option<(&'a Feature, Length)> {
        self.part.features.iter().find_map(|f| {
            let Kind::Fillet { radius, at: place } = &f.kind else { return None };
            (self.chain.station(place) == Some(at)).then(|| (f, largest_written(radius)))
        })
    }

    /// The undercut in the corner at this face.
    pub(super) fn undercut_at(&self, at: Station) -> Option<&'a Feature> {
        self.part
            .features
            .iter()
            .find(|f| matches!(&f.kind, Kind::Undercut { at: place, .. } if self.chain.station(place) == Some(at)))
    }

    /// Whether a groove has a wall at this face.
    pub(super) fn grooved_at(&self, at: Station) -> bool {
        self.groove_at(at).is_some()
    }

    /// Whether a carried thing presses on its seat and shoulder: seals and light rings do not.
    pub(super) fn loads(carried: &Carried) -> bool {
        let soft = ["seal", "o-ring", "o ring", "gasket", "wiper", "cover", "cap", "guard"];
        // A seal runs on its sleeve; the sleeve itself sits tight.
        carried.bore.is_some() && (!says_any(&carried.part.text, &soft) || says_any(&carried.part.text, &["sleeve"]))
    }

    /// Sections from a section outward to one end, nearest first.
    pub(super) fn outward(&self, piece: &Piece, side: End) -> Vec<&'a Piece> {
        let mut row: Vec<&Piece> = match side {
            End::Datum => self.profile.pieces.iter().filter(|p| p.to <= piece.from).collect(),
            End::Far => self.profile.pieces.iter().filter(|p| p.from >= piece.to).collect(),
        };
        if side == End::Datum {
            row.reverse();
        }
        row
    }

    /// The side of a section on which a carried thing meets its shoulder: away from the end it enters by, or, if that is not
    /// said, the only side with something larger.
    pub(super) fn shoulder_side(&self, piece: &Piece, carried: &Carried) -> Option<End> {
        let higher =
            |side| self.beside(piece, side).section().is_some_and(|n| at_face(n, side.other()).min > piece.largest());
        if let Some(enters) = carried.enters {
            return higher(enters.other()).then_some(enters.other());
        }
        match (higher(End::Datum), higher(End::Far)) {
            (true, false) => Some(End::Datum),
            (false, true) => Some(End::Far),
            _ => None,
        }
    }

    /// Everything the handbook tells of a thread.
    pub(super) fn thread_data(thread: &Thread) -> Option<ThreadData> {
        THREADS.with_borrow_mut(|known| {
            if let Some((_, found)) = known.iter().find(|(asked, _)| *asked == thread.designation) {
                return found.clone();
            }
            let designation = handbook::thread::read(&thread.designation).ok();
            let found = designation.and_then(|d| handbook::thread::limits(&d, &Asked::special()).ok());
            if known.len() >= THREADS_KEPT {
                known.remove(0);
            }
            known.push((thread.designation.clone(), found.clone()));
            found
        })
    }

    /// Every neck a thread runs out into: thread, its section, the side, the neck.
    pub(super) fn reliefs(&self) -> Vec<(&'a Feature, &'a Thread, End, Relief<'a>)> {
        let mut found = Vec::new();
        for (feature, thread, piece) in self.threads() {
            for side in [End::Datum, End::Far] {
                if let RunOut::Relief(relief) = self.run_out(piece, thread, side) {
                    found.push((feature, thread, side, relief));
                }
            }
        }
        found
    }
}

/// Whether a text holds one of these words, capital or small.
pub(super) fn says_any(text: &str, words: &[&str]) -> bool {
    let text = text.to_lowercase();
    words.iter().any(|w| text.contains(w))
}

/// The face of a piece toward one end.
pub(super) const fn face(piece: &Piece, side: End) -> Station {
    match side {
        End::Datum => piece.from,
        End::Far => piece.to,
    }
}

/// The diameter of a piece at its face toward one end.
pub(super) const fn at_face(piece: &Piece, side: End) -> Limits {
    match side {
        End::Datum => piece.start,
        End::Far => piece.end,
    }
}

/// Nominal diameter of a section at its face toward one end; a thread counts with its nominal.
pub(crate) fn nominal_at(feature: &Feature, side: End) -> Length {
    match &feature.kind {
        Kind::Turn { diameter, .. } | Kind::Relief { diameter, .. } | Kind::Groove { diameter, .. } => diameter.nominal,
        Kind::Eccentric { diameter, .. } => diameter.nominal + feature.sweeps(),
        Kind::Thread { thread, .. } => thread.nominal,
        Kind::Knurl { knurl, .. } => knurl.expected,
        Kind::Taper { start, end, .. } => match side {
            End::Datum => start.nominal,
            End::Far => end.nominal,
        },
        _ => Length::ZERO,
    }
}

/// Largest value of a radius: by its own limits if they are written, else the size itself.
pub(super) fn largest_written(size: &Size) -> Length {
    if matches!(size.from, LimitsFrom::Written) { size.max() } else { size.nominal }
}

/// Smallest value of a size: by its own limits if they are written, else the size itself.
pub(super) fn smallest_written(size: &Size) -> Length {
    if matches!(size.from, LimitsFrom::Written | LimitsFrom::Fit) { size.min() } else { size.nominal }
}

/// What a chamfer rises over its axial leg. An angle is no link of a chain, so floating point serves; 45 degrees is exact.
fn rise(leg: Length, angle_mdeg: i64) -> Length {
    if angle_mdeg == 45_000 {
        return leg;
    }
    let tangent = (angle_mdeg as f64 / 1000.0).to_radians().tan();
    times(leg, tangent)
}

/// `number` times a length, to a picometre.
pub(super) fn times(length: Length, number: f64) -> Length {
    length.times_ratio((number * 1e6).round() as i64, 1_000_000)
}

/// A relief size below the root of this thread, as the description writes it.
pub(super) fn relief_that_clears(thread: &Thread, unit: Unit) -> String {
    let (step, decimals, below) = match unit {
        Unit::Inch => (Length::inch_tenths(50), 3, "+0/-0.010"),
        Unit::Millimetre => (Length::micrometres(100), 2, "+0/-0.20"),
    };
    let largest = (thread.root - Length::from_pm(1)).floor_to(step);
    tell!("{} {below}", "{} {below}", show::plain(largest, unit, decimals))
}

/// A number as a sentence shows it: at most two decimals, none where it is whole.
pub(super) fn number(value: f64) -> String {
    let text = format!("{value:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}
