//! Every size to inspect, sign-off, and room for notes.

use super::Sources;
use crate::figures::{Figure, Inspected, InspectionRow as Row, Mate};
use crate::model::{Feature, Kind};
use crate::sheet::draft::{Item, Section};
use crate::sheet::measure::{self, padded};
use crate::sheet::view::{InspectionList, InspectionRow, Rich, SignRow};
use crate::sheet::{blocks, words};
use crate::tell;
use crate::unit::Unit;

/// Width of the column of instruments.
const WITH: f64 = 25.5;
/// The same where the limits stand a second time, as the instrument reads.
const WITH_BESIDE_READ: f64 = 17.5;
/// Lines to write on.
const LINES: usize = 4;

/// The inspection page.
pub(super) fn section(s: &Sources) -> Section {
    let across = |r: &&Row| {
        matches!(
            r.kind,
            Inspected::Diameter
                | Inspected::OverWires
                | Inspected::AcrossBottom
                | Inspected::AcrossFlats
                | Inspected::Width
                | Inspected::Radius
                | Inspected::Runout
                | Inspected::Throw
        )
    };
    let rows = &s.figures.inspection;
    let has = |kind: Inspected| rows.iter().any(|r| r.kind == kind);
    let diameters: Vec<&Row> = rows.iter().filter(across).collect();
    let lengths: Vec<&Row> = rows.iter().filter(|r| !across(r)).collect();
    let mut items = Vec::new();
    if !rows.is_empty() {
        let mut columns = vec![list(s, words::DIAMETERS.say(), &diameters), list(s, words::LENGTHS.say(), &lengths)];
        columns[0].rows.extend(domes(s));
        columns[0].rows.extend(tapers(s));
        items.push(Item::Block(blocks::inspection(columns)));
    }
    let mates: Vec<Rich> = s.figures.mates.iter().map(|m| mate(s, m)).collect();
    if !mates.is_empty() {
        items.push(Item::Block(blocks::list(words::FITS.say(), mates)));
    }
    let sign = |who: &str| SignRow { who: who.to_owned(), date: words::DATE.say().to_owned() };
    items.push(Item::Block(blocks::sign_off(vec![sign(words::MADE_BY.say()), sign(words::INSPECTED.say())])));
    items.push(Item::Block(blocks::lines(words::NOTES.say(), LINES)));
    Section {
        id: "inspection".to_owned(),
        bookmark: words::INSPECTION.say().to_owned(),
        head: blocks::title_head(
            words::INSPECTION.say(),
            words::inspected_cold(has(Inspected::Own), has(Inspected::Distance)).into(),
            None,
        ),
        again: blocks::title_head(&words::continued(words::INSPECTION.say()), Rich::new(), None),
        opening: Vec::new(),
        reopening: Vec::new(),
        items,
        joins: false,
        scene: None,
    }
}

/// Domes without limits of their own: no size to pass or fail, and still looked at.
fn domes(s: &Sources) -> Vec<InspectionRow> {
    let rows = &s.figures.inspection;
    let told = |f: &Feature| rows.iter().any(|r| r.feature == Some(f.id));
    let domes = s.part.features.iter().filter(|f| !told(f)).filter_map(|f| match &f.kind {
        Kind::Crown { crown } => Some((f, crown)),
        _ => None,
    });
    let row = domes.map(|(f, crown)| InspectionRow {
        what: words::inspected(&f.letter, Inspected::Radius),
        upper: format!("R {}", s.length(crown.radius)),
        lower: String::new(),
        read: Vec::new(),
        with: words::instrument("", Inspected::Radius, WITH),
        measured: String::new(),
    });
    row.collect()
}

/// Tapers without limits of their own: the sizes at both ends, the angle, and what proves it.
fn tapers(s: &Sources) -> Vec<InspectionRow> {
    let rows = &s.figures.inspection;
    let mut out = Vec::new();
    for f in &s.part.features {
        let Kind::Taper { start, end, half_angle_deg, .. } = &f.kind else { continue };
        let room = if rows.iter().any(|r| r.on_scale.is_some()) { WITH_BESIDE_READ } else { WITH };
        let row = |upper: String, lower: String, with: Vec<String>| InspectionRow {
            what: words::inspected(&f.letter, Inspected::Radius),
            upper,
            lower,
            read: Vec::new(),
            with,
            measured: String::new(),
        };
        let sized = |size: crate::unit::Length| Figure::fine(size, s.unit()).text(s.unit());
        if !rows.iter().any(|r| r.feature == Some(f.id) && r.kind == Inspected::Diameter) {
            let (large, small) = (start.nominal.max(end.nominal), start.nominal.min(end.nominal));
            out.push(row(sized(large), sized(small), words::taper_ends(room)));
        }
        let angle = words::half_angle(*half_angle_deg);
        out.push(row(angle, String::new(), words::taper_blue(room)));
    }
    out
}

/// How a mate will fit, and how it goes on.
pub(super) fn mate(s: &Sources, mate: &Mate) -> Rich {
    let bore = match (mate.bore.max.text(s.unit()), mate.bore.min.text(s.unit())) {
        (max, min) if max == min => max,
        (max, min) => tell!("{min} to {max}", "{min} bis {max}"),
    };
    let warm = mate.warm.map(|w| words::warm(w.rise, w.most, w.enough, s.unit()));
    let warm = warm.or_else(|| (mate.within && !mate.is_tried()).then(|| words::press_in().to_owned()));
    let seat = if mate.seat_measured { words::seat_measured(&mate.seat.max.text(s.unit())) } else { String::new() };
    let fits = format!("{}{seat}", mate.says(s.unit()));
    let rest = words::mate(&words::from_file(&mate.part), mate.within, &bore, &mate.bore_by, &fits);
    Rich::new().strong(mate.letter.clone()).plain(format!(" {rest}{}", warm.unwrap_or_default()))
}

fn list(s: &Sources, heading: &str, rows: &[&Row]) -> InspectionList {
    let text = |r: &Row| (r.limits.max.text(s.unit()), r.limits.min.text(s.unit()));
    let texts: Vec<(String, String)> = rows.iter().map(|r| text(r)).collect();
    let places = measure::whole_places(texts.iter().flat_map(|(a, b)| [a.as_str(), b.as_str()]));
    let scale = rows.iter().find_map(|r| r.on_scale).map(|r| r.unit);
    let reads: Vec<(String, String)> = rows.iter().map(|r| read(r, scale)).collect();
    let read_places = measure::whole_places(reads.iter().flat_map(|(a, b)| [a.as_str(), b.as_str()]));
    let rows = rows.iter().zip(&texts).zip(&reads).map(|((r, (upper, lower)), (most, least))| InspectionRow {
        what: words::inspected(&r.letters, r.kind),
        upper: padded(upper, places),
        lower: padded(lower, places),
        read: r.on_scale.map_or_else(Vec::new, |_| vec![padded(most, read_places), padded(least, read_places)]),
        with: match scale {
            Some(unit) => words::instrument(&in_short(r, unit), r.kind, WITH_BESIDE_READ),
            None => words::instrument(&r.with, r.kind, WITH),
        },
        measured: String::new(),
    });
    let heads = words::inspection_heads(scale.map(|unit| (s.unit(), unit)));
    InspectionList { heading: heading.to_owned(), head: heads, rows: rows.collect() }
}

/// Limits as the instrument shows them, with a unit where it is not that of the column; empty where it reads the drawing's.
fn read(row: &Row, column: Option<Unit>) -> (String, String) {
    let Some(read) = row.on_scale else { return Default::default() };
    let (max, min) = read.limits_text().unwrap_or_default();
    if Some(read.unit) == column { (max, min) } else { (max, format!("{min} {}", read.unit.word())) }
}

/// Instruments without the unit that the head of the column names; of wires the wires alone, as there is room for no more.
fn in_short(row: &Row, unit: Unit) -> String {
    let suffix = format!(" {}", unit.word());
    let parts: Vec<&str> = row.with.split(", ").map(|part| part.strip_suffix(&suffix).unwrap_or(part)).collect();
    match (row.kind, parts.last()) {
        (Inspected::OverWires, Some(wires)) => (*wires).to_owned(),
        _ => parts.join(", "),
    }
}
