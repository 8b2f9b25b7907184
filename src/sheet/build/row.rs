//! An operation as a row.

use super::last_cuts::last_cuts;
use super::steps::Places;
use super::{Sources, far_face, keyseat, outside, size, taper, thread, title};
use crate::figures::{CountsFrom, Edge, Figure, Job, OperationFigures, Passes, Position, SetupFigures, mate_word};
use crate::model::Kind;
use crate::model::part::Holding;
use crate::model::plan::{Operation, Setup, Verb};
use crate::sheet::layout::COLUMNS;
use crate::sheet::measure::{self, padded};
use crate::sheet::view::{Aim, Cell, Line, Mm, OperationRow, Piece, PieceKind, Rich, Shape};
use crate::sheet::{blocks, words};

/// Width of a blank among other pieces.
pub(super) const BLANK: f64 = 26.0;

/// The row of an operation.
pub(super) fn row(
    s: &Sources,
    (setup, figures): (&Setup, &SetupFigures),
    op: &Operation,
    of: &OperationFigures,
    places: Places,
) -> OperationRow {
    let in_columns =
        matches!(op.verb, Verb::Rough | Verb::Finish | Verb::Turn | Verb::Groove | Verb::Taper | Verb::Knurl)
            || op.verb == Verb::Bore
            || (op.verb == Verb::PartOff && !of.positions.is_empty());
    let in_columns = in_columns && !(op.inside && matches!(of.job, Job::Hole(ref h) if !h.infeed.is_empty()));
    let shape =
        if in_columns { columns(s, figures, op, of, places) } else { Shape::Wide { text: wide(s, setup, op, of) } };
    let letter = if op.verb == Verb::FitTest {
        match tried(s).as_slice() {
            [(one, _)] => s.letter(*one).to_owned(),
            _ => String::new(),
        }
    } else {
        op.feature.map_or(String::new(), |f| s.letter(f).to_owned())
    };
    let mut below =
        if in_columns { with_remarks(detail(s, setup, op, of), &of.remarks) } else { detail(s, setup, op, of) };
    below.splice(0..0, super::blanks::bar_measured(s, of));
    let changed = of.changed.iter().map(|c| words::changed(&c.what, &c.was, &c.now));
    let mut flags: Vec<Line> = changed.flat_map(|c| words::wrapped("", 0.0, &c, blocks::DETAIL_ROOM)).collect();
    flags.append(&mut below);
    below = flags;
    let mut told = Vec::new();
    for finding in s.findings_at(op) {
        let said = words::severity(finding.severity) + &words::sentence_end(&words::from_file(&finding.message));
        // The cover has all of it; an error is said in full here too.
        let said = if finding.is_open_error() { said } else { words::in_one_line(&said, blocks::DETAIL_ROOM) };
        let lines = words::wrapped("", 0.0, &said, blocks::DETAIL_ROOM);
        told.push(lines.len());
        below.extend(lines);
    }
    blocks::sized(OperationRow {
        number: op.number.to_string(),
        letter,
        verb: words::capital(words::verb(op.verb)),
        what: if in_columns { what(s, op) } else { String::new() },
        second: second(s, op, of),
        shape,
        detail: below,
        told,
        done: false,
        top: Mm::default(),
        height: Mm::default(),
    })
}

/// What stands behind the verb: `blank`, `relief`, `with B`.
fn what(s: &Sources, op: &Operation) -> String {
    let with: Vec<&str> = op.with.iter().map(|f| s.letter(*f)).filter(|l| !l.is_empty()).collect();
    if !with.is_empty() {
        return words::with(&with.join(", "));
    }
    if op.is_spot() {
        return words::SPOT.say().to_owned();
    }
    let Some(feature) = op.feature.and_then(|f| s.feature(f)) else { return String::new() };
    match (&feature.kind, op.verb) {
        (Kind::Thread { .. } | Kind::Knurl { .. }, Verb::Finish | Verb::Turn) => words::BLANK.say().to_owned(),
        (Kind::Relief { .. }, Verb::Groove) => words::RELIEF.say().to_owned(),
        (Kind::Undercut { .. }, Verb::Groove) => words::UNDERCUT.say().to_owned(),
        _ if op.close => words::SEAT.say().to_owned(),
        _ => String::new(),
    }
}

/// Speed and tool.
fn second(s: &Sources, op: &Operation, of: &OperationFigures) -> Vec<Rich> {
    let mut out = Vec::new();
    // A thread's speed has a line of its own.
    if let Some(speed) = of.speed.as_ref().filter(|_| !matches!(of.job, Job::Thread(_))) {
        let wanted = format!("{:.0}", speed.wanted);
        out.push(match speed.gear {
            Some(gear) if speed.above_wanted => {
                Rich::from(words::rpm(&gear.to_string())).plain(words::no_gear_so_slow(&wanted))
            }
            Some(gear) => Rich::from(words::rpm(&gear.to_string())).grey(format!(" ({wanted})")),
            None => Rich::from(words::rpm_at_most(&wanted)),
        });
    }
    if let Job::Thread(t) = &of.job {
        let way = t.direction.split_once(": ").map_or(t.direction.as_str(), |(_, way)| way);
        out.push(Rich::from(words::from_file(way)));
    }
    if let Some(width) = of.tool_width.filter(|_| op.verb == Verb::Groove) {
        out.push(Rich::from(words::tool_wide(&width.text(s.unit()))));
    }
    out
}

/// What a position's reading is. It is not rounded to the carriage dial's division: a hand reads between the lines, and the wall of
/// a groove would move by half a division.
pub(super) fn reading(s: &Sources, position: &Position) -> String {
    position
        .dial
        .map_or_else(|| words::with_blocks(length_of(s, position), blocks_of(s, position)), |d| d.text(s.unit()))
}

/// From the face the carriage counts from, as drawn.
fn length_of(s: &Sources, position: &Position) -> String {
    position.carriage.unwrap_or(position.from_datum).text(s.unit())
}

/// The same on the indicator on the bed, where it takes blocks: so many, and the rest.
fn blocks_of(s: &Sources, position: &Position) -> Option<String> {
    let on = position.indicator.filter(|on| on.blocks > 0 && position.dial.is_none())?;
    Some(words::blocks_and(on.blocks, &on.reading.text(s.unit())))
}

/// The same in a column, whose head names the dial's unit.
pub(super) fn reading_in_column(s: &Sources, position: &Position) -> String {
    position.dial.map_or_else(|| length_of(s, position), |d| d.shown.text(d.unit))
}

fn columns(s: &Sources, figures: &SetupFigures, op: &Operation, of: &OperationFigures, places: Places) -> Shape {
    let text = |f: Figure| f.text(s.unit());
    let told = passes(op, of).map(|p| match p.on_dial.filter(|_| of.cross_dial.is_some()) {
        Some(_) => words::passes(p.count),
        None => words::passes_a_side(p.count, &text(p.depth)),
    });
    let told_nothing = told.is_none();
    let mut under_aim: Vec<String> = told.into_iter().collect();
    let last = of.passes.as_ref().filter(|p| p.cuts.is_empty() && p.spring > 0);
    under_aim.extend(last.map(|p| words::without_infeed(p.spring)));
    under_aim.extend(size::parted(s, op, of));
    let aim = of.aim.map(|a| {
        let size = padded(&aimed(s, figures, of), places.size);
        let (mut upper, mut lower) =
            of.limits.as_ref().map_or((String::new(), String::new()), |l| (text(l.max), text(l.min)));
        if let Some(read) = of.on_scale {
            (upper, lower) = read.limits_text().unwrap_or_default();
            under_aim.push(words::drawn(&text(a), s.unit()));
        }
        // Where both limits do not fit beside the size they go under it.
        let beside = measure::width(&upper, 12.0, false).max(measure::width(&lower, 12.0, false));
        if measure::width(&size, 18.0, true) + 1.6 + beside > COLUMNS[4] - 0.8 && told_nothing {
            under_aim.insert(0, format!("{upper} / {lower}"));
            (upper, lower) = (String::new(), String::new());
        }
        Aim { size, upper, lower }
    });
    Shape::Columns {
        aim,
        under_aim,
        length: length(s, figures, op, of, places.length),
        cross: cross(s, figures, op, of),
        blank: of.aim.is_some(),
    }
}

/// The size to aim at as its instrument shows it, with a unit where that is not what the head of the column names.
pub(super) fn aimed(s: &Sources, figures: &SetupFigures, of: &OperationFigures) -> String {
    let head = super::steps::read_in(s, figures);
    let (text, unit) = match of.on_scale {
        Some(read) => (read.size_text(), read.unit),
        None => (of.aim.map(|a| a.text(s.unit())).unwrap_or_default(), s.unit()),
    };
    if unit == head || text.is_empty() { text } else { format!("{text} {}", unit.word()) }
}

/// The passes a row tells: of roughing, and of whatever else takes more than one; last cuts of a close size are told one by one.
fn passes<'a>(op: &Operation, of: &'a OperationFigures) -> Option<&'a Passes> {
    of.passes.as_ref().filter(|p| p.cuts.is_empty() && (op.verb == Verb::Rough || p.count > 1))
}

fn length(s: &Sources, figures: &SetupFigures, op: &Operation, of: &OperationFigures, places: usize) -> Cell {
    let plunges: Vec<&Position> = of.positions.iter().filter(|p| p.edge != Edge::None).collect();
    let shown: Vec<&Position> = if plunges.is_empty() {
        of.positions.iter().filter(|p| matches!(p.what.as_str(), "start" | "spot starts") || stop(p, op)).collect()
    } else {
        plunges
    };
    let by_face = |p: &&&Position| figures.correction.is_some() && p.zero == Some(CountsFrom::FarFace);
    let (face, shown): (Vec<&Position>, Vec<&Position>) = shown.iter().partition(by_face);
    if !face.is_empty() {
        let mut cell = far_face::places(s, &face);
        cell.readings.extend(shown.iter().map(|p| padded(&reading_in_column(s, p), places)));
        return cell;
    }
    let mut under = Vec::new();
    if let [a, b] = shown[..]
        && between_walls(a, b)
    {
        under.push(words::edges(Edge::Right, Edge::Left));
    }
    match shown[..] {
        [a, b] if a.edge != b.edge => under.push(words::edges(a.edge, b.edge)),
        [a, ..] if a.edge != Edge::None => under.push(words::edge(a.edge)),
        _ => {}
    }
    let on_blocks: Vec<String> = shown.iter().filter_map(|p| blocks_of(s, p)).collect();
    if !on_blocks.is_empty() {
        under.push(on_blocks.join("; "));
    }
    if let [one] = shown[..] {
        if let Some(dial) = one.dial.filter(|_| !whole_turns_show(s)) {
            under.extend(turns(s, dial.turns, &dial.rest.text(dial.unit)));
        }
        let datum = one.from_datum.text(s.unit());
        if one.edge == Edge::None && one.carriage.is_some_and(|c| c.value != one.from_datum.value) {
            under.push(words::datum(&datum));
        }
    }
    Cell {
        readings: shown.iter().map(|p| padded(&reading_in_column(s, p), places)).collect(),
        under: in_column(&under, 5),
    }
}

/// Whether a cut begins at one wall and ends at another.
fn between_walls(a: &Position, b: &Position) -> bool {
    a.what == "start" && b.edge == Edge::None
}

/// Lines broken to the width of their column.
pub(super) fn in_column(lines: &[String], column: usize) -> Vec<String> {
    lines.iter().flat_map(|l| measure::broken(l, 12.0, false, COLUMNS[column])).collect()
}

/// The place an operation runs to, past the face in bar; where it begins is the face it has touched.
fn stop(position: &Position, op: &Operation) -> bool {
    op.to.is_none_or(|to| position.from_datum.value == to.0) || position.what == "past the face"
}

/// Whether the figure before the point is full turns: one turn is one inch or one millimetre.
fn whole_turns_show(s: &Sources) -> bool {
    s.shop.and_then(|shop| shop.carriage_dial).is_some_and(|d| d.turn == s.unit().one())
}

fn turns(s: &Sources, turns: i64, rest: &str) -> Option<String> {
    let _ = s;
    (turns != 0).then(|| words::turns(turns, rest))
}

fn cross(s: &Sources, figures: &SetupFigures, op: &Operation, of: &OperationFigures) -> Cell {
    // A close size is told cut by cut below.
    let Some(dial) = of.cross_dial.as_ref().filter(|_| !op.close) else { return Cell::default() };
    let text = |f: Figure| f.text(s.unit());
    let mut under = Vec::new();
    // The reading above names the dial's unit.
    let rest = dial.from_zero.rest.text(dial.from_zero.unit);
    under.extend(turns(s, dial.from_zero.turns, if dial.from_zero.divisions == 0 { "" } else { &rest }));
    let each = passes(op, of).filter(|p| p.count > 1).and_then(|p| p.on_dial);
    under.extend(each.map(|d| words::each(&d.shown.text(d.unit))));
    // The head tells the zero of the first cut, where that is outside.
    let first = figures.operations.iter().find(|o| o.cross_dial.is_some()).is_some_and(|o| o.number == of.number);
    if dial.zero.now && (op.inside || !first) {
        let letter = dial.zero.feature.map_or("", |f| s.letter(f));
        under.push(words::zero_on(letter, &text(dial.zero.diameter)));
    }
    // A parting tool's zero stands beside it, where the row has room.
    under.retain(|_| op.verb != Verb::PartOff);
    Cell { readings: vec![dial.from_zero.shown.text(dial.from_zero.unit)], under: in_column(&under, 6) }
}

/// The text of a row that runs across the columns.
fn wide(s: &Sources, setup: &Setup, op: &Operation, of: &OperationFigures) -> Rich {
    let feature = op.feature.and_then(|f| s.feature(f));
    let remarks = words::remarks(&of.remarks);
    let text = match (&of.job, op.verb) {
        (Job::Thread(t), _) => words::thread(&t.designation, t.right_hand),
        (Job::Keyseat(k), _) => words::keyseat(&k.key, &k.width.text(s.unit())),
        (Job::Flats(f), _) => f.says.clone(),
        (Job::Crown(c), _) => c.says.clone(),
        (Job::Center(c), _) if c.second.is_some() => super::inside::second_center(s, op, c),
        (Job::Center(c), _) if c.odd_legs.is_some() => super::inside::rough_center(s, op, c),
        (Job::Center(c), _) => {
            words::center(&c.size, &super::inside::mouth(s, c), c.usual_for.map(|d| d.text(s.unit())).as_deref())
        }
        (Job::Chamfer(c), _) if op.inside => super::inside::mouth_of_hole(s, c, of),
        (Job::Chamfer(c), _) => far_face::edge(s, &c.says, of),
        (Job::Hole(_), Verb::Drill) if feature.is_some_and(is_plain_across) => across(s, feature),
        (Job::Hole(h), _) => words::hole(h.lines.first().map(|l| (l.value.as_str(), l.note.as_str()))),
        (_, Verb::Face) => {
            let end = op.end.or(title::worked_end(setup));
            if s.plan.faces_to_overall(op) {
                let limits = s.part.overall.as_ref().map_or(s.length(s.overall()), |o| size::with_limits(s, o));
                let all = s.figures.inspection.iter().find(|r| r.is_overall());
                words::face_to(end, &words::read_as(&limits, all.and_then(|r| r.on_scale?.both())))
            } else {
                words::face_clean(end)
            }
        }
        (_, Verb::Polish) => size::polished(s, feature, of),
        (_, Verb::Drill) => across(s, feature),
        (_, Verb::PartOff) => words::part_off(&s.length(s.overall()), setup.holding == Holding::ChuckAndCenter),
        (_, Verb::Inspect) => words::INSPECT.say().to_owned(),
        (_, Verb::FitTest) => words::fit_test(&mates(s)),
        (_, Verb::HeatTreat) => super::hardening::asked(s, op),
        _ => String::new(),
    };
    let gap = if text.is_empty() || remarks.is_empty() { "" } else { ". " };
    Rich::from(format!("{text}{gap}{remarks}"))
}

/// A hole across that gets no thread: its size and place stand in the row.
const fn is_plain_across(feature: &crate::model::Feature) -> bool {
    matches!(feature.kind, Kind::CrossHole { tapped: None, .. })
}

fn across(s: &Sources, feature: Option<&crate::model::Feature>) -> String {
    let Some(Kind::CrossHole { diameter, .. }) = feature.map(|f| &f.kind) else { return String::new() };
    let at = feature.and_then(|f| s.chain.center(f.id)).map_or(String::new(), |c| s.length(c.0));
    words::cross_hole(&size::with_limits(s, diameter), &at)
}

/// The lines, and what to mind below them.
fn with_remarks(mut lines: Vec<Line>, remarks: &[String]) -> Vec<Line> {
    lines.extend(words::wrapped("", 0.0, &words::remarks(remarks), blocks::DETAIL_ROOM));
    lines
}

/// Everything that is tried on the part, and the nuts: not what is pressed or shrunk on.
fn mates(s: &Sources) -> Vec<String> {
    let mut list: Vec<String> = Vec::new();
    for (_, name) in tried(s) {
        if !list.contains(&name) {
            list.push(name);
        }
    }
    list
}

/// What goes on by hand: the section it goes on, and its word. What is tight is measured and not tried.
fn tried(s: &Sources) -> Vec<(usize, String)> {
    let tight =
        |id: usize, part: &str| s.figures.mates.iter().any(|m| m.feature == id && m.part == part && !m.is_tried());
    let carried = s.part.features.iter().flat_map(|f| f.carries.iter().map(move |c| (f, c)));
    carried
        .filter(|(f, c)| !tight(f.id, &c.part.text))
        .map(|(f, c)| (f.id, mate_word(&words::from_file(&c.part.text))))
        .collect()
}

pub(super) fn piece(kind: PieceKind, text: &str, width: f64) -> Piece {
    Piece { kind, text: text.to_owned(), width: Mm(width) }
}

/// Lines below a row.
fn detail(s: &Sources, setup: &Setup, op: &Operation, of: &OperationFigures) -> Vec<Line> {
    let mut lines = own_detail(s, setup, op, of);
    lines.extend(super::chart::aimed(s, op.number));
    lines
}

fn own_detail(s: &Sources, setup: &Setup, op: &Operation, of: &OperationFigures) -> Vec<Line> {
    let mut lines = Vec::new();
    match &of.job {
        Job::Thread(t) => return thread::lines(s, t, of),
        Job::Keyseat(k) => return keyseat::lines(s, k),
        Job::Taper(t) => return taper::lines(s, t),
        Job::Knurl(k) => return outside::knurl(s, k),
        Job::Flats(f) => return outside::flats(s, f),
        Job::Crown(c) => return outside::crown(s, c),
        Job::Undercut(u) => return outside::undercut(s, u),
        Job::Hole(h) => {
            let plain = op.feature.and_then(|id| s.part.features.get(id)).is_some_and(is_plain_across);
            lines.extend(super::inside::lines(h, op.verb != Verb::Bore && !plain));
        }
        _ => {}
    }
    if let Some(passes) = of.passes.as_ref().filter(|p| !p.cuts.is_empty()) {
        lines.extend(last_cuts(s, of, passes, op.inside));
        return lines;
    }
    if s.plan.faces_to_overall(op) {
        let mut lines = super::blanks::to_length(s);
        // Its other face stands in the chuck, and it is cut on in the same place.
        let chuck = matches!(setup.holding, Holding::Chuck | Holding::ChuckAndCenter | Holding::ChuckAndRest);
        if chuck && setup.operations.iter().any(|o| o.to_diameter.is_some() && !o.inside) {
            lines.extend(words::wrapped("", 0.0, words::measured_out_of_chuck(), blocks::DETAIL_ROOM));
        }
        return lines;
    }
    lines
}
