//! The form for measuring a worn sample: the picture with its letters, and for each size where unworn metal is found and room for what
//! it reads.

use super::{Sources, cover, document, outline};
use crate::model::{Feature, Kind};
use crate::read::sample::{Cell, SampleFeature, SampleForm, SampleRow};
use crate::sheet::draft::{Item, Section};
use crate::sheet::draw;
use crate::sheet::paginate::paginate;
use crate::sheet::view::{CellKind, Paper, Rich, SignRow, TableCell, TableRow, View};
use crate::sheet::{blocks, table, words};
use crate::unit::{Length, show};

/// Widths of the columns: size, worn, unworn, taken as, why.
const COLUMNS: [f64; 5] = [46.0, 26.5, 29.5, 37.0, 39.0];

/// The whole form on this paper.
pub fn sample_view(s: &Sources, form: &SampleForm, paper: Paper) -> View {
    paginate(document(s, words::sample_title(&s.name()), paper, vec![section(s, form)]))
}

/// Where a feature's unworn metal is, by the number of the feature in the file.
pub fn where_to_look(s: &Sources, feature: usize) -> String {
    s.feature(feature).map_or_else(String::new, |f| words::look(f, beyond(s, f).as_deref()))
}

/// How much of a seat lies beyond what sits on it.
fn beyond(s: &Sources, f: &Feature) -> Option<String> {
    let (from, to) = s.chain.span(f.id)?;
    let wide = f.carries.iter().filter_map(|c| c.wide.as_ref()).map(|w| w.nominal).max()?;
    let by = (to - from) - wide;
    // Less than this is no place to measure: half a millimetre.
    (by >= Length::micrometres(500)).then(|| show::length(by, s.unit(), show::usual_decimals(s.unit())))
}

fn section(s: &Sources, form: &SampleForm) -> Section {
    let readings = cover::readings(s);
    let alt = words::part_alt(&s.name(), s.part.sections().count(), readings.iter().map(|r| r.text.as_str()));
    let picture = draw::part(&outline::finished(s), &readings, words::DATUM_END.say(), alt);
    let mut items: Vec<Item> = words::sample_how().into_iter().map(|l| Item::Block(blocks::text(l))).collect();
    items.insert(0, Item::Block(blocks::picture(picture)));
    let mut rows = Vec::new();
    let head: Vec<(&str, &SampleRow)> = form
        .head
        .iter()
        .filter_map(|e| if let Cell::Row(row) = &e.cell { Some((e.key.as_str(), row)) } else { None })
        .collect();
    if !head.is_empty() {
        rows.push(table::table_across("", Rich::from(words::look_whole())));
        rows.extend(head.iter().map(|(key, row)| to_fill(&words::sample_head_row(key), row)));
    }
    for (id, f) in form.features.iter().chain(&form.inside).enumerate() {
        rows.extend(feature(s, id, f));
    }
    items.push(Item::Block(table::table(words::sample_heads(), &COLUMNS, rows)));
    let sign = SignRow { who: words::MEASURED_BY.say().to_owned(), date: words::DATE.say().to_owned() };
    items.push(Item::Block(blocks::sign_off(vec![sign])));
    items.push(Item::Block(blocks::lines(words::SEEN.say(), 4)));
    let title = words::MEASURE_SAMPLE.say();
    let named = Rich::new().strong(s.name());
    Section {
        id: "sample".to_owned(),
        bookmark: title.to_owned(),
        head: blocks::title_head(title, named, None),
        again: blocks::title_head(&words::continued(title), Rich::new(), None),
        opening: Vec::new(),
        reopening: Vec::new(),
        items,
        joins: false,
        scene: None,
    }
}

/// Where to look, then a row for each size.
fn feature(s: &Sources, id: usize, f: &SampleFeature) -> Vec<TableRow> {
    let sizes: Vec<(&str, &SampleRow)> = f
        .entries
        .iter()
        .filter_map(|e| if let Cell::Row(row) = &e.cell { Some((e.key.as_str(), row)) } else { None })
        .collect();
    if sizes.is_empty() {
        return Vec::new();
    }
    let of_part = s.feature(id);
    let letter = of_part.map_or("", |f| f.letter.as_str());
    let name = of_part.and_then(|f| f.name.as_ref()).map(|n| words::name(&n.text)).unwrap_or_default();
    let place = of_part.map_or_else(String::new, |f| placed(s, f));
    let mut text = Rich::new().strong(format!("{}{place}", words::sample_feature(f.word(), &name)));
    let look = where_to_look(s, id);
    if !look.is_empty() {
        text = text.plain(format!(": {look}."));
    }
    let mut rows = vec![table::table_across(letter, text)];
    for (key, row) in sizes {
        rows.push(to_fill(&words::sample_row(f.word(), key, &words::from_file(&row.counted)), row));
    }
    // The sizes of one feature stay on its page.
    let last = rows.len() - 1;
    rows.iter_mut().take(last).for_each(|r| r.leads = true);
    rows
}

/// Where something without a letter lies.
fn placed(s: &Sources, f: &Feature) -> String {
    use crate::model::feature::{EdgeAt, Ends};
    let end = |e| format!(", {}", words::end(e));
    let at = |place| s.chain.station(place).map_or_else(String::new, |p| format!(" {}", words::at(&s.length(p.0))));
    match &f.kind {
        Kind::Chamfer { at: EdgeAt::End(e), .. } | Kind::CenterHole { ends: Ends::One(e), .. } => end(*e),
        Kind::Chamfer { at: EdgeAt::Face(place), .. } | Kind::Fillet { at: place, .. } => at(place),
        _ => String::new(),
    }
}

fn to_fill(what: &str, row: &SampleRow) -> TableRow {
    let blank = |value: &str, label: &str| TableCell {
        cell: CellKind::Blank,
        lines: Vec::new(),
        value: words::from_file(value),
        label: format!("{what}: {label}"),
    };
    let mut lines = vec![Rich::from(what)];
    if !row.sketch.is_empty() {
        lines.push(Rich::new().grey(words::cut_to(&words::from_file(&row.sketch), 43.0)));
    }
    let heads = words::sample_heads();
    let cells = vec![
        TableCell { cell: CellKind::Text, lines, value: String::new(), label: String::new() },
        blank(&row.worn, &heads[1]),
        blank(&row.unworn, &heads[2]),
        blank(&row.taken, &heads[3]),
        blank(&row.why, &heads[4]),
    ];
    table::table_row(cells, &COLUMNS)
}
