//! The inspection record: every size with its limits, reading, uncertainty and verdict, what can be saved and how, by which rule it was
//! judged, and who signs for it.

use super::{Sources, cover, document, outline};
use crate::figures::{Decision, Inspection, Judged, SureFrom, Verdict};
use crate::model::Size;
use crate::model::measured::{MeasuredWhat, Warm};
use crate::sheet::draft::{Item, Section};
use crate::sheet::draw;
use crate::sheet::paginate::paginate;
use crate::sheet::view::{CellKind, Paper, Rich, SignRow, TableCell, TableRow, View};
use crate::sheet::{blocks, table, words};
use crate::unit::{Length, show};

/// Widths of the columns: size, limits, reading, uncertainty, instrument, verdict.
const COLUMNS: [f64; 6] = [51.0, 25.0, 25.0, 17.0, 31.0, 29.0];

/// The record on this paper.
pub fn record_view(s: &Sources, inspection: &Inspection, paper: Paper) -> View {
    paginate(document(s, words::record_title(&s.name(), &s.drawing()), paper, vec![section(s, inspection)]))
}

fn section(s: &Sources, inspection: &Inspection) -> Section {
    let readings = cover::readings(s);
    let alt = words::part_alt(&s.name(), s.part.sections().count(), readings.iter().map(|r| r.text.as_str()));
    let picture = draw::part(&outline::finished(s), &readings, words::DATUM_END.say(), alt);
    let text = |t: &Option<crate::model::Text>| t.as_ref().map(|t| words::name(&t.text)).unwrap_or_default();
    let drawing = words::drawing_sentence(&text(&s.part.drawing), &text(&s.part.revision), s.unit());
    let mut items = vec![Item::Block(blocks::text(came_to(inspection))), Item::Block(blocks::picture(picture))];
    let rows: Vec<TableRow> =
        inspection.rows.iter().zip(inspection.names()).flat_map(|(r, name)| row(s, r, &name)).collect();
    items.push(Item::Block(table::table(words::record_heads(), &COLUMNS, rows)));
    let said = |l: Length| fine(s, l);
    let lengths = inspection.saved.as_ref().map(|s| s.says(&said)).unwrap_or_default();
    let others = inspection.gives.iter().map(|g| g.says(&said)).chain(inspection.void.iter().cloned());
    // What the plan of the rest says of diameters stands among its sentences.
    let others = others.filter(|_| inspection.saved.as_ref().is_none_or(|s| s.rest.is_empty()));
    let says: Vec<String> = lengths.into_iter().chain(others).collect();
    if !says.is_empty() {
        let says = says.into_iter().map(|t| Rich::from(words::sentence_end(&words::from_file(&t))));
        items.push(Item::Block(blocks::list(words::SAVED.say(), says.collect())));
    }
    let mates: Vec<Rich> = s.figures.mates.iter().map(|m| super::inspection::mate(s, m)).collect();
    if !mates.is_empty() {
        items.push(Item::Block(blocks::list(words::FITS.say(), mates)));
    }
    let warm = warm(s);
    if !warm.is_empty() {
        items.push(Item::Block(blocks::list(words::TO_TWENTY.say(), warm)));
    }
    if !inspection.adjusted.is_empty() {
        let face = |f: usize| words::from_file(&s.chain.graph.faces[f].name);
        let lines = inspection
            .adjusted
            .iter()
            .map(|(f, at, deviation)| words::adjusted(&face(*f), &fine(s, *at), &fine(s, *deviation)));
        items.push(Item::Block(blocks::list(words::ADJUSTED.say(), lines.collect())));
    }
    let assumed = inspection.rows.iter().any(|r| r.sure.is_some_and(|s| s.from == SureFrom::Assumed));
    let rule = words::record_rule(inspection.rule.word(), inspection.rule.says(), assumed);
    items.push(Item::Block(blocks::list(words::RULE.say(), rule)));
    let sign = |who: &str| SignRow { who: who.to_owned(), date: words::DATE.say().to_owned() };
    items.push(Item::Block(blocks::sign_off(vec![
        sign(words::MADE_BY.say()),
        sign(words::INSPECTED.say()),
        sign(words::GAUGES.say()),
    ])));
    items.push(Item::Block(blocks::lines(words::NOTES.say(), 3)));
    let title = words::RECORD.say();
    let head = Rich::new().strong(s.name()).plain(format!(". {drawing}"));
    Section {
        id: "record".to_owned(),
        bookmark: title.to_owned(),
        head: blocks::title_head(title, head, None),
        again: blocks::title_head(&words::continued(title), Rich::new(), None),
        opening: Vec::new(),
        reopening: Vec::new(),
        items,
        joins: false,
        scene: None,
    }
}

/// The verdict on the whole, and how many of each.
fn came_to(inspection: &Inspection) -> Rich {
    let count = |v: Verdict| inspection.rows.iter().filter(|r| r.verdict == v).count();
    let close = inspection.rows.iter().filter(|r| r.decision == Some(Decision::TooClose)).count();
    let counts = [Verdict::Pass, Verdict::Recut, Verdict::Scrap, Verdict::NotMeasured].map(count);
    let whole = match inspection.overall() {
        // What passes by itself and what was not measured is no scrap, and no pass either.
        Verdict::NotMeasured if counts[0] > 0 => words::NOT_ALL_MEASURED.say().to_owned(),
        verdict => words::verdict(verdict),
    };
    words::came_to(&whole, counts, close)
}

/// An uncertainty, never made smaller by rounding.
fn rounded_up(s: &Sources, l: Length) -> String {
    let decimals = show::usual_decimals(s.unit()) + 1;
    show::exact(l.ceil_to(show::step(s.unit(), decimals)), s.unit(), decimals - 1, decimals)
}

/// With as many decimals as the reading has.
fn fine(s: &Sources, l: Length) -> String {
    let usual = show::usual_decimals(s.unit());
    show::exact(l, s.unit(), usual, usual + 2)
}

fn row(s: &Sources, r: &Judged, name: &str) -> Vec<TableRow> {
    let cell = |cell: CellKind, lines: Vec<Rich>| TableCell { cell, lines, value: String::new(), label: String::new() };
    // `A thread` says as much as `A thread A`.
    let lettered = format!(" {}", r.row.letters);
    let name_alone = if r.row.letters.is_empty() { name.to_owned() } else { name.replacen(&lettered, "", 1) };
    let gap = if r.row.letters.is_empty() { "" } else { " " };
    let what = Rich::new().strong(r.row.letters.clone()).plain(format!("{gap}{}", words::from_file(&name_alone)));
    let limits = vec![Rich::from(r.row.limits.max.text(s.unit())), Rich::from(r.row.limits.min.text(s.unit()))];
    let reading = match r.measured {
        Some(m) => cell(CellKind::Figures, vec![Rich::new().strong(fine(s, m))]),
        None => TableCell { label: words::from_file(name), ..cell(CellKind::Blank, Vec::new()) },
    };
    let sure = r.sure.map_or_else(Vec::new, |u| vec![Rich::from(format!("±{}", rounded_up(s, u.uncertainty)))]);
    let with = words::from_file(&r.row.with.replace("micrometer", "mic"));
    let verdict = match (r.verdict, r.decision) {
        (_, Some(Decision::TooClose)) => words::TOO_CLOSE.say().to_owned(),
        (Verdict::NotMeasured, _) => String::new(),
        (verdict, _) => words::verdict(verdict),
    };
    let cells = vec![
        cell(CellKind::Text, vec![what]),
        cell(CellKind::Figures, limits),
        reading,
        cell(CellKind::Figures, sure),
        cell(CellKind::Text, vec![Rich::from(with)]),
        cell(CellKind::Text, vec![Rich::new().strong(verdict)]),
    ];
    let mut rows = vec![table::table_row(cells, &COLUMNS)];
    let says: Vec<String> = [&r.action, &r.otherwise, &r.note]
        .into_iter()
        .filter(|t| !t.is_empty())
        .map(|t| words::sentence_end(&words::from_file(t)))
        .collect();
    if !says.is_empty() {
        rows[0].leads = true;
        let mut under = table::table_across("", Rich::from(says.join(" ")));
        under.leads = false;
        rows.push(under);
    }
    rows
}

/// Readings taken warm, and what they come to at 20 °C: one paragraph for all of one pair of temperatures.
fn warm(s: &Sources) -> Vec<Rich> {
    let mut all: Vec<(Warm, Vec<String>)> = Vec::new();
    for m in &s.part.measured {
        let Some(warm) = m.warm else { continue };
        let (what, size) = read_of(s, &m.what);
        let says = words::comes_to(&what, &fine(s, warm.as_read), &fine(s, size.nominal));
        let like = |w: &Warm| Warm { as_read: warm.as_read, ..*w } == warm;
        match all.iter_mut().find(|(w, _)| like(w)) {
            Some((_, list)) => list.push(says),
            None => all.push((warm, vec![says])),
        }
    }
    all.into_iter().map(|(warm, list)| words::to_twenty(warm, &list, s.unit())).collect()
}

/// What was read, in words, and its size.
fn read_of<'a>(s: &Sources, what: &'a MeasuredWhat) -> (String, &'a Size) {
    let called = |id: usize| s.feature(id).map(|f| words::from_file(&f.called())).unwrap_or_default();
    match what {
        MeasuredWhat::Overall(size) => (words::sample_head_row("overall"), size),
        MeasuredWhat::Diameter { feature, size } | MeasuredWhat::Other { feature, size, .. } => {
            (called(*feature), size)
        }
        MeasuredWhat::Mate { feature, carried, size } => {
            let mate =
                s.feature(*feature).and_then(|f| f.carries.get(*carried)).map(|c| words::from_file(&c.part.text));
            (words::mate_of(&mate.unwrap_or_default(), &called(*feature)), size)
        }
        MeasuredWhat::Face { face, at, from } => {
            let place = s.chain.station(face).map(|p| s.length(p.0)).unwrap_or_default();
            (words::face_words(&place, *from), at)
        }
    }
}
