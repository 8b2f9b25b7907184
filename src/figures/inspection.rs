//! Every toleranced size with its limits and what measures it.

use super::given::Given;
use super::{Job, OnScale, OperationFigures, SizeLimits, instrument, scale};
use crate::chain::Says;
use crate::model::{End, Feature, Inside, InsideCut, Kind, Size, Tapped};
use crate::unit::{Length, Limits};

/// Kinds of sizes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Inspected {
    /// A diameter.
    Diameter,
    /// A thread over wires.
    OverWires,
    /// A keyseat across its bottom.
    AcrossBottom,
    /// Across flats.
    AcrossFlats,
    /// Radius or height of a crown.
    Radius,
    /// A width.
    Width,
    /// A length from the datum face.
    Length,
    /// A distance between two faces.
    Distance,
    /// A feature's own length, from its own start.
    Own,
    /// How true a surface runs to another, total indicator reading.
    Runout,
    /// Where a ring gauge stops on a taper pipe thread, from its small end.
    Gauge,
    /// The throw of an eccentric: half of the indicator's total reading.
    Throw,
}

impl Inspected {
    /// Which of a feature's sizes, where it is not its diameter.
    pub const fn across(self) -> &'static str {
        match self {
            Self::OverWires => ", over wires",
            Self::AcrossBottom => ", across bottom",
            Self::AcrossFlats => ", across flats",
            Self::Width => ", width",
            Self::Own => ", its own length",
            _ => "",
        }
    }
}

/// One size to measure.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct InspectionRow {
    /// Letter or letters, as on the drawing.
    pub letters: String,
    /// In words: `pulley seat`, `overall`.
    pub what: String,
    /// Kind.
    pub kind: Inspected,
    /// Limits; one end may be open for `max` and `min` sizes and is then the nominal's.
    pub limits: SizeLimits,
    /// Instrument: `micrometer 0–1`, `micrometer and wires .0321`.
    pub with: String,
    /// Limits on that instrument where it reads in the other unit.
    pub on_scale: Option<OnScale>,
    /// Feature, if it is one.
    pub feature: Option<usize>,
    /// The two faces of a length, as the chain counts them.
    pub faces: Option<(usize, usize)>,
}

impl InspectionRow {
    /// Whether it is the length over all.
    pub fn is_overall(&self) -> bool {
        self.letters.is_empty() && self.what == "overall"
    }
}

/// Rows for diameters, then lengths, then what the drawing asks besides. `done` are the operations' figures, for wires and keyseats.
pub(super) fn inspection(given: &Given, done: &[(usize, &OperationFigures)]) -> Vec<InspectionRow> {
    let mut rows = Vec::new();
    for feature in &given.part.features {
        diameters(given, feature, &mut rows);
        for (_, figures) in done.iter().filter(|(id, _)| *id == feature.id) {
            rows.extend(from_job(given, feature, &figures.job));
        }
    }
    rows.extend(given.part.features.iter().filter_map(|f| runout(given, f)));
    rows.extend(lengths(given));
    for row in &mut rows {
        row.on_scale = graduated(&row.with).and_then(|kind| scale::on_scale(given, kind, None, Some(row.limits)));
    }
    rows
}

/// The kind of instrument in words like `micrometer 0–1 in, wires .0341`, where it has a scale.
fn graduated(with: &str) -> Option<&'static str> {
    ["micrometer", "caliper", "depth micrometer", "dial indicator"].into_iter().find(|kind| with.starts_with(kind))
}

/// How true a feature must run to another: nothing to what is allowed, total indicator reading.
fn runout(given: &Given, feature: &Feature) -> Option<InspectionRow> {
    let to = feature.true_to.as_ref()?;
    let other = given.feature(to.feature)?;
    let limits = Limits::new(Length::ZERO, to.within.nominal);
    let with = instrument::named(given, "dial indicator", to.within.nominal);
    let what = format!("{} true to {}", feature.called(), other.called());
    let letters = format!("{} to {}", feature.letter, other.letter);
    Some(InspectionRow { letters, what, ..row(given, feature, Inspected::Runout, limits, with) })
}

fn row(given: &Given, feature: &Feature, kind: Inspected, limits: Limits, with: String) -> InspectionRow {
    InspectionRow {
        letters: feature.letter.clone(),
        what: feature.called(),
        kind,
        limits: SizeLimits::of(limits, given.unit),
        with,
        on_scale: None,
        feature: Some(feature.id),
        faces: None,
    }
}

/// Limits of a size that is to be inspected: not a reference, and held within a band.
fn held(size: &Size) -> Option<Limits> {
    size.limits.filter(|l| !size.reference && l.band().is_positive())
}

fn diameters(given: &Given, feature: &Feature, rows: &mut Vec<InspectionRow>) {
    let micrometer = |l: Limits| instrument::over(given, "micrometer", l);
    let caliper = |l: Limits| instrument::over(given, "caliper", l);
    let mut add = |limits: Option<Limits>, kind, with: &dyn Fn(Limits) -> String| {
        rows.extend(limits.map(|l| row(given, feature, kind, l, with(l))));
    };
    match &feature.kind {
        // A kept surface is inspected where the description asks more of it than the bar's own limits.
        Kind::Turn { diameter, kept, .. } => {
            let asked = !kept || diameter.from == crate::model::LimitsFrom::Written;
            let with: &dyn Fn(Limits) -> String = if is_slot(given, feature.id) { &caliper } else { &micrometer };
            let flats = *kept && given.part.stock.as_ref().is_some_and(|s| s.shape.has_corners());
            let kind = if flats { Inspected::AcrossFlats } else { Inspected::Diameter };
            add(held(diameter).filter(|_| asked), kind, with);
        }
        Kind::CrossHole { tapped: Some(thread), .. } => rows.push(plug(given, feature, thread)),
        Kind::CenterHole { size: Some(size), .. } => {
            rows.extend(size.tapped.as_deref().map(|(thread, _)| plug(given, feature, thread)));
        }
        Kind::Inside(inside) => bore_rows(given, feature, inside, rows),
        Kind::Relief { diameter, .. } | Kind::CrossHole { diameter, .. } => {
            add(held(diameter), Inspected::Diameter, &caliper);
        }
        // A taper pipe thread is judged by its gauge.
        Kind::Thread { thread, .. } if thread.taper.is_some() => {}
        Kind::Thread { thread, .. } => {
            add(Some(thread.major).filter(|l| l.band().is_positive()), Inspected::Diameter, &micrometer);
        }
        Kind::Crown { crown } => {
            let template: &dyn Fn(Limits) -> String = &|_| "template, or depth micrometer at the edge".to_owned();
            add(held(&crown.size), Inspected::Radius, template);
        }
        Kind::Eccentric { diameter, .. } => {
            add(held(diameter), Inspected::Diameter, &micrometer);
            let by_indicator: &dyn Fn(Limits) -> String = &|_| super::thrown::measured_by().to_owned();
            add(feature.offset.as_ref().and_then(held), Inspected::Throw, by_indicator);
        }
        Kind::Knurl { knurl, .. } => add(held(&knurl.diameter), Inspected::Diameter, &micrometer),
        Kind::Taper { start, end, .. } => {
            add(held(start), Inspected::Diameter, &micrometer);
            add(held(end), Inspected::Diameter, &micrometer);
        }
        Kind::Groove { diameter, wide, .. } => {
            add(held(diameter), Inspected::Diameter, &caliper);
            add(held(wide), Inspected::Width, &|_| "gauge blocks or the ring".to_owned());
        }
        _ => {}
    }
}

/// An internal thread: a plug gauge, or the screw that goes in it; its minor diameter is what can be measured.
fn plug(given: &Given, feature: &Feature, thread: &Tapped) -> InspectionRow {
    if let Some(taper) = thread.taper {
        let with = format!("plug gauge {}, notch flush with the face", thread.designation);
        let (plane, by) = (taper.gauge_length, taper.gauge_tolerance);
        let limits = Limits::new(plane - by, plane + by);
        let what = format!("{}, how far the plug gauge goes in by hand", thread.designation);
        return InspectionRow { what, ..row(given, feature, Inspected::Gauge, limits, with) };
    }
    let with = format!("plug gauge {} or its screw", thread.designation);
    InspectionRow {
        what: format!("{}, minor diameter", thread.designation),
        ..row(given, feature, Inspected::Diameter, thread.minor, with)
    }
}

/// A bore: a plug or small-hole gauge up to 10 mm / 3/8 in, a telescoping gauge or bore gauge beyond, each read by a micrometer;
/// a caliper where the limits are wide.
fn bore_rows(given: &Given, feature: &Feature, inside: &Inside, rows: &mut Vec<InspectionRow>) {
    let gauge = |l: Limits| {
        let wide = l.band() >= given.pick(8_000, 200);
        let micrometer = instrument::over(given, "micrometer", l);
        if wide {
            instrument::over(given, "caliper", l)
        } else if l.max < given.pick(375_000, 10_000) {
            format!("{micrometer}, small-hole gauge")
        } else if l.band() < given.pick(1_000, 25) {
            format!("{micrometer}, bore gauge")
        } else {
            format!("{micrometer}, telescoping gauge")
        }
    };
    let mut add = |size: &Size| {
        rows.extend(held(size).map(|l| row(given, feature, Inspected::Diameter, l, gauge(l))));
    };
    match &inside.cut {
        InsideCut::Bore { kept: true, .. } | InsideCut::Chamfer { .. } => {}
        InsideCut::Bore { diameter, .. } | InsideCut::Relief { diameter, .. } => add(diameter),
        InsideCut::Taper { start, end, .. } => {
            add(start);
            add(end);
        }
        InsideCut::Groove { diameter, wide, .. } => {
            add(diameter);
            let with = "gauge blocks or the ring".to_owned();
            rows.extend(held(wide).map(|l| row(given, feature, Inspected::Width, l, with)));
        }
        InsideCut::Thread { thread, .. } => rows.push(plug(given, feature, thread)),
    }
}

/// Whether a section lies so narrow between two larger ones that a micrometer's anvils (1/4 in, 6.35 mm) do not go in.
fn is_slot(given: &Given, feature: usize) -> bool {
    let Some(piece) = given.profile.piece(feature) else { return false };
    let larger = |end| given.beside(piece, end).is_some_and(|p| p.largest() > piece.largest());
    let anvil = Length::PER_INCH.times_ratio(1, 4);
    piece.long() < anvil && larger(End::Datum) && larger(End::Far)
}

/// Sizes that only the worked figures give: over wires, across the bottom of a keyseat.
fn from_job(given: &Given, feature: &Feature, job: &Job) -> Option<InspectionRow> {
    let shown =
        |limits: SizeLimits, kind, with| InspectionRow { limits, ..row(given, feature, kind, limits.exact, with) };
    match job {
        Job::Thread(thread) if thread.pipe.is_some() => thread
            .pipe
            .as_ref()
            .map(|p| shown(p.gauge_length, Inspected::Gauge, format!("ring gauge {}, by hand", thread.designation))),
        Job::Thread(thread) => thread.wires.map(|w| {
            let with = instrument::over(given, "micrometer", w.over.exact);
            shown(w.over, Inspected::OverWires, format!("{with}, wires {}", super::over_wires::wire_text(given, &w)))
        }),
        Job::Keyseat(key) => {
            let with = instrument::over(given, "micrometer", key.across_limits.exact);
            Some(shown(key.across_limits, Inspected::AcrossBottom, format!("{with}, bottom to far side")))
        }
        Job::Flats(flats) => flats.across_limits.map(|l| {
            let with = instrument::over(given, "micrometer", l.exact);
            shown(l, Inspected::AcrossFlats, with)
        }),
        _ => None,
    }
}

/// Every stated length with limits: places from the datum face, lengths of their own, the overall, what the drawing asks.
fn lengths(given: &Given) -> Vec<InspectionRow> {
    let graph = &given.chain.graph;
    let letter = |id: Option<usize>| id.and_then(|id| given.feature(id)).map_or("", |f| f.letter.as_str());
    let mut rows = Vec::new();
    for link in &graph.links {
        // A place counted toward the datum end is a distance like any other when it is measured.
        let limits = if link.limits.max < Length::ZERO { link.limits.mirrored() } else { link.limits };
        // A thing that begins on the datum face itself has no length there to measure.
        if !limits.band().is_positive() || link.nominal == Length::ZERO || is_width(given, link.says) {
            continue;
        }
        let (Some(near), Some(far)) = (graph.faces.get(link.from), graph.faces.get(link.to)) else { continue };
        let overall = matches!(link.says, Says::Overall | Says::OverallRequired);
        let letters = match link.says {
            _ if overall => String::new(),
            Says::Own(_) if link.from != 0 => owner(given, link.says),
            Says::Dim(_) => format!("{}{}", letter(near.begins.or(near.ends)), letter(far.begins.or(far.ends))),
            Says::Place(_) if link.from != 0 => {
                format!("{}–{}", letter(near.ends.or(near.begins)), owner(given, link.says))
            }
            Says::Own(id) if is_depth(given, Says::Own(id)) => owner(given, link.says),
            _ => match (letter(far.ends), letter(far.begins)) {
                ("", "") => owner(given, link.says),
                (a, b) => format!("{a}{b}"),
            },
        };
        let from_datum = link.from == 0;
        rows.push(InspectionRow {
            letters,
            what: if overall {
                "overall".to_owned()
            } else if is_depth(given, link.says) {
                format!("depth of {}", owner(given, link.says))
            } else {
                words(given, link.says, &near.name, &far.name)
            },
            kind: match link.says {
                says if from_datum || is_depth(given, says) => Inspected::Length,
                Says::Own(_) => Inspected::Own,
                _ => Inspected::Distance,
            },
            limits: SizeLimits::of(limits, given.unit),
            with: length_instrument(
                given,
                from_datum && !overall,
                is_depth(given, link.says),
                link.nominal.abs(),
                limits.max,
            ),
            on_scale: None,
            feature: far.ends.or(far.begins),
            faces: Some((link.from, link.to)),
        });
    }
    rows.sort_by_key(|r| matches!(r.kind, Inspected::Distance | Inspected::Own));
    rows
}

fn is_width(given: &Given, says: Says) -> bool {
    let groove = |kind: &Kind| match kind {
        Kind::Groove { .. } => true,
        Kind::Inside(inside) => matches!(inside.cut, InsideCut::Groove { .. }),
        _ => false,
    };
    matches!(says, Says::Own(id) if given.feature(id).is_some_and(|f| groove(&f.kind)))
}

/// A depth inside, which a depth micrometer's rod or a caliper's blade reaches from the end.
fn is_depth(given: &Given, says: Says) -> bool {
    matches!(says, Says::Own(id) if given.feature(id).is_some_and(|f| matches!(f.kind, Kind::Inside(_))))
}

fn owner(given: &Given, says: Says) -> String {
    match says {
        Says::Place(id) | Says::Own(id) => given.feature(id).map_or(String::new(), |f| f.letter.clone()),
        _ => String::new(),
    }
}

fn words(given: &Given, says: Says, near: &str, far: &str) -> String {
    let because = match says {
        Says::Dim(i) => given.part.dims.get(i).and_then(|d| d.because.as_ref()),
        _ => None,
    };
    because.map_or_else(|| format!("{near} to {far}"), |b| b.text.clone())
}

/// A depth micrometer for a shoulder that its rod reaches from the datum face; a caliper for the rest.
fn length_instrument(given: &Given, from_datum: bool, inside: bool, size: Length, most: Length) -> String {
    if inside && instrument::at_hand(given, "depth micrometer", most) {
        return instrument::named(given, "depth micrometer", most);
    }
    let pieces = &given.profile.pieces;
    let shoulder = pieces.iter().position(|p| (p.from - crate::unit::Station::DATUM) == size).filter(|i| *i > 0);
    let reached = shoulder.is_some_and(|i| pieces[..i].iter().all(|p| p.largest() < pieces[i].smallest()));
    if from_datum && reached && instrument::at_hand(given, "depth micrometer", most) {
        instrument::named(given, "depth micrometer", most)
    } else {
        instrument::named(given, "caliper", most)
    }
}
