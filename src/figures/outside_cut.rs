//! The blocks of knurls, flats and undercuts: what is turned or milled, by how much, and what it should read.

use super::given::Given;
use super::{Figure, OnScale, Reach, SizeLimits, scale, surface};
use crate::check::round::{Round, Surface};
use crate::handbook::{flats, indexing};
use crate::model::feature::FlatMeasure;
use crate::model::plan::Operation;
use crate::model::{Kind, Size};
use crate::plan::cutter::depth_of;
use crate::unit::Station;
use crate::{tell, told};

/// Everything for flats.
#[derive(Debug, Clone, PartialEq)]
pub struct FlatsCut {
    /// `square, 14 across`.
    pub says: String,
    /// How many.
    pub count: u8,
    /// Diameter of the section they are cut on, as the figures are worked for it.
    pub round: Figure,
    /// From flat to flat, or from the one flat to the far side.
    pub across: Figure,
    /// Its limits, where it has any.
    pub across_limits: Option<SizeLimits>,
    /// The same on a micrometer in the other unit.
    pub across_on_scale: Option<OnScale>,
    /// Depth of each flat below the round.
    pub depth: Figure,
    /// What a micrometer reads from the first flat to the far side of the round.
    pub after_first: Figure,
    /// The same on a micrometer in the other unit.
    pub after_first_on_scale: Option<OnScale>,
    /// Width of a flat.
    pub width: Figure,
    /// Across the corners, as they come out.
    pub corners: Figure,
    /// Whether the corners are cut short by the round.
    pub truncated: bool,
    /// Turned between two flats, degrees; 0 for one flat.
    pub divide_deg: f64,
    /// Clocking of the first flat's middle, counter-clockwise seen from the datum end.
    pub angle_deg: Option<f64>,
    /// On a taper: where the round is so large, the place it is touched at, from the datum face.
    pub round_at: Option<Figure>,
    /// On a taper: where the flats run out, from the datum face.
    pub runs_out: Option<Figure>,
    /// Whether they lie on an eccentric, whose own round they are touched off on.
    pub thrown: bool,
    /// The stretch along the part.
    pub along: Reach,
    /// Step by step.
    pub recipe: Vec<String>,
}

/// Everything for an undercut.
#[derive(Debug, Clone, PartialEq)]
pub struct UndercutCut {
    /// `DIN 509 F 0.6x0.3`, or `undercut`.
    pub says: String,
    /// Radius of the tool's nose.
    pub radius: Figure,
    /// Depth a side below the seat, least and most.
    pub depth: SizeLimits,
    /// Width along the seat.
    pub width: Figure,
    /// Depth in the face.
    pub face_depth: Option<Figure>,
    /// How far up the face.
    pub face_height: Option<Figure>,
    /// Step by step.
    pub recipe: Vec<String>,
    /// Table.
    pub source: String,
}

/// The block of flats.
pub(super) fn flats_cut(given: &Given, op: &Operation) -> Option<FlatsCut> {
    let feature = given.feature(op.feature?)?;
    let Kind::Flats { size, measure, count, .. } = &feature.kind else { return None };
    let (a, b) = given.chain.span(feature.id)?;
    let (from, to) = (a.min(b), a.max(b));
    let on = given.facts().round_under(from, to)?;
    let round = on.diameter;
    let worked = flats::on_round(round, depth_of(round, size.nominal, *measure), *count)?;
    let fine = |l| Figure::fine(l, given.unit);
    let place = |s: Station| Figure::usual(s - Station::DATUM, given.unit);
    let across_limits = (*measure != FlatMeasure::Deep)
        .then_some(size)
        .filter(|s| s.limits.is_some_and(|l| l.band().is_positive()))
        .map(|s| SizeLimits::of(s.limits_or_nominal(), given.unit));
    let read = |size, limits| scale::on_scale(given, "micrometer", size, limits);
    let divide = if *count > 1 { 360.0 / f64::from(*count) } else { 0.0 };
    let mut cut = FlatsCut {
        says: says(given, size, *measure, *count),
        count: *count,
        round: fine(round),
        across: fine(worked.across),
        across_limits,
        across_on_scale: read(None, across_limits),
        depth: fine(worked.depth),
        after_first: fine(round - worked.depth),
        after_first_on_scale: read(Some(fine(round - worked.depth)), None),
        width: Figure::usual(worked.width, given.unit),
        corners: Figure::usual(worked.corners, given.unit),
        truncated: worked.truncated,
        divide_deg: divide,
        angle_deg: feature.angle_mdeg.map(|a| a as f64 / 1000.0),
        thrown: matches!(on.is, Surface::Thrown { .. }),
        round_at: surface::at(given, &on),
        runs_out: surface::runs_out(given, &on, round - worked.depth.times(2), (from, to)),
        along: Reach { from: place(from), to: place(to) },
        recipe: Vec::new(),
    };
    cut.recipe = surface::first(given, &on, feature);
    cut.recipe.extend(recipe(given, &cut, from, to, &on));
    Some(cut)
}

fn says(given: &Given, size: &Size, measure: FlatMeasure, count: u8) -> String {
    let text = crate::unit::show::exact(size.nominal, given.unit, 0, 4);
    let word = match count {
        1 => told!("flat", "Fläche").to_owned(),
        4 => told!("square", "Vierkant").to_owned(),
        6 => told!("hexagon", "Sechskant").to_owned(),
        n => tell!("{n} flats", "{n} Flächen"),
    };
    match measure {
        FlatMeasure::Across => tell!("{word}, {text} across", "{word}, Schlüsselweite {text}"),
        FlatMeasure::ToFarSide => tell!("{word}, {text} to the far side", "{word}, {text} zur Gegenseite"),
        FlatMeasure::Deep => tell!("{word}, {text} deep", "{word}, {text} tief"),
    }
}

fn recipe(given: &Given, cut: &FlatsCut, from: Station, to: Station, on: &Round<'_>) -> Vec<String> {
    let text = |f: Figure| f.text(given.unit);
    let read = |f: Figure| scale::read_as(given, f);
    let shut = |at: Station, open: Station| at != open;
    let overall = Station(given.overall);
    let edge = match (shut(from, Station::DATUM), shut(to, overall)) {
        (false, true) => edge_stops(&text(cut.along.to)),
        (true, false) => edge_stops(&text(cut.along.from)),
        _ => tell!(
            "The cutter's edges stop {} and {} from the datum face.",
            "Die Kanten des Fräsers enden {} und {} ab Bezugsfläche.",
            text(cut.along.from),
            text(cut.along.to)
        ),
    };
    let measured = if cut.count == 1 {
        tell!(
            "Micrometer from the flat to the far side: {} if the round is {}; else the round as measured less {}.",
            "Messschraube von der Fläche zur Gegenseite: {}, wenn das Rund {} misst; sonst das gemessene Rund weniger {}.",
            read(cut.after_first),
            read(cut.round),
            read(cut.depth)
        )
    } else {
        tell!(
            "Micrometer from the first flat to the far side: {} if the round is {}; else the round as measured less {}.",
            "Messschraube von der ersten Fläche zur Gegenseite: {}, wenn das Rund {} misst; sonst das gemessene Rund weniger {}.",
            read(cut.after_first),
            read(cut.round),
            read(cut.depth)
        )
    };
    let mut steps = vec![surface::top(on, cut.round_at.map(text), &text(cut.depth)), edge, measured];
    if let Some(at) = cut.runs_out {
        steps.push(tell!(
            "It runs out {} from the datum face, where the taper is no larger.",
            "Sie läuft {} ab Bezugsfläche aus, wo der Kegel nicht mehr größer ist.",
            text(at)
        ));
    }
    if cut.count > 1 {
        steps.push(tell!(
            "Turn {}° for the next, {} in all, {}{}.",
            "Für die nächste um {}° drehen, {} insgesamt, {}{}.",
            degrees(cut.divide_deg),
            cut.count,
            surface::next_height(on),
            crank(given, cut.count)
        ));
    }
    steps
}

/// Where a cutter's edge stops.
fn edge_stops(at: &str) -> String {
    tell!("The cutter's edge stops {at} from the datum face.", "Die Kante des Fräsers endet {at} ab Bezugsfläche.")
}

/// What the crank of the shop's dividing head does from one flat to the next.
fn crank(given: &Given, count: u8) -> String {
    let Some(head) = given.shop.and_then(|s| s.dividing_head.as_ref()) else { return String::new() };
    match indexing::plain(head.ratio, &head.circles, u32::from(count)) {
        Some(indexing::Indexing { turns, spaces: None }) => {
            tell!(": {turns} turns of the crank", ": {turns} Umdrehungen der Kurbel")
        }
        Some(indexing::Indexing { turns, spaces: Some((spaces, circle)) }) => {
            tell!(
                ": {turns} turns of the crank and {spaces} spaces on the circle of {circle} holes",
                ": {turns} Umdrehungen der Kurbel und {spaces} Teilungen auf dem {circle}er Lochkreis"
            )
        }
        None => tell!(
            ": {} / {count} turns of the crank, and no circle of the shop file divides it",
            ": {} / {count} Umdrehungen der Kurbel, und kein Lochkreis der Werkstattdatei teilt das",
            head.ratio
        ),
    }
}

/// Degrees with at most two decimals.
fn degrees(value: f64) -> String {
    let text = format!("{value:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// The block of an undercut.
pub(super) fn undercut_cut(given: &Given, op: &Operation) -> Option<UndercutCut> {
    let Kind::Undercut { undercut, .. } = &given.feature(op.feature?)?.kind else { return None };
    let fine = |l| Figure::fine(l, given.unit);
    let depth = SizeLimits::of(undercut.depth, given.unit);
    let radius = fine(undercut.radius);
    let mut recipe = vec![tell!(
        "Nose radius {}, its slopes ground to 15° along the seat. Touch the seat, in by {} a side, along to the face.",
        "Spitzenradius {}, zum Sitz hin mit 15° geschliffen. Sitz ankratzen, je Seite {} zustellen, längs bis zur Planfläche.",
        radius.text(given.unit),
        Figure::fine(undercut.depth.middle(), given.unit).text(given.unit)
    )];
    if let (Some(deep), Some(high)) = (undercut.face_depth, undercut.face_height) {
        recipe.push(tell!(
            "Then {} into the face, and out along it at 8° until it runs out, {} up from the seat.",
            "Dann {} in die Planfläche und mit 8° an ihr heraus, bis er ausläuft, {} über dem Sitz.",
            fine(deep).text(given.unit),
            fine(high).text(given.unit)
        ));
    }
    Some(UndercutCut {
        says: if undercut.designation.is_empty() {
            told!("undercut", "Freistich").to_owned()
        } else {
            undercut.designation.clone()
        },
        radius,
        depth,
        width: Figure::usual(undercut.width, given.unit),
        face_depth: undercut.face_depth.map(fine),
        face_height: undercut.face_height.map(fine),
        recipe,
        source: undercut.source.clone(),
    })
}
