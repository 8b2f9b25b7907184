//! A setup's pages: its head, how the zeros are set, its picture, its steps.

use super::milled::{in_the_dividing_head, on_the_mill};
use super::true_here::{test_cut, true_here};
use super::{Sources, outline, steps, title};
use crate::figures::{CarriageZero, CrossDial, Figure, OperationFigures, SetupFigures, Thrown};
use crate::model::Workholder;
use crate::model::part::Holding;
use crate::model::plan::{DatumEnd, Operation, Setup, Verb};
use crate::model::shop::ToolKind;
use crate::sheet::draft::{Item, Section};
use crate::sheet::draw::{self, Gripper, Held, Scene};
use crate::sheet::view::{Block, DatumBox, Frame, Piece, PieceKind, Rich, Works, Zero};
use crate::sheet::{blocks, words};
use crate::tell;
use crate::unit::{Length, show};

/// Width of a blank in the box of the correction.
const BLANK: f64 = 28.0;

/// A setup as a section of the sheet.
pub(super) fn section(s: &Sources, setup: &Setup, figures: &SetupFigures) -> Section {
    let title = title::title(s, setup);
    let number = setup.number.to_string();
    let head = |lines, low| blocks::setup_head(words::SETUP.say(), &number, &title, lines, datum_box(setup), low);
    let (first, across) = head(holding_lines(s, setup, figures), false);
    let mut continued = words::continued_mounting(zero_face(s, figures));
    if is_bored(setup, figures) {
        continued.push_str(words::CROSS_INSIDE_SHORT.say());
    }
    let (again, _) = head(vec![Rich::from(continued)], true);
    let scene = scene(s, setup, figures);
    let mut opening = Vec::new();
    opening.extend(across.into_iter().reduce(|all, line| all.plain(" ").and(line)).map(blocks::text));
    let mut reopening = Vec::new();
    if scene.is_some() {
        let [first, later] = draw::setup::HEIGHTS;
        opening.push(blocks::picture_room(first));
        reopening.push(blocks::picture_room(later));
    }
    opening.extend(correction(s, figures));
    opening.extend(zeros(s, setup, figures));
    let tools = tools(s, setup, figures);
    if !tools.is_empty() {
        opening.push(blocks::text(tools));
    }
    Section {
        id: format!("setup-{number}"),
        bookmark: words::setup_bookmark(&number, &title),
        head: first,
        again,
        opening,
        reopening,
        items: steps::steps(s, setup, figures).into_iter().collect::<Vec<Item>>(),
        joins: true,
        scene,
    }
}

fn datum_box(setup: &Setup) -> Option<DatumBox> {
    let place = match (setup.holding, setup.datum_end) {
        (Holding::Bench, _) => return None,
        (_, DatumEnd::Tailstock) => words::AT_TAILSTOCK.say(),
        (_, DatumEnd::Headstock) => words::AT_HEADSTOCK.say(),
        (_, DatumEnd::Left) => words::AT_LEFT.say(),
    };
    Some(DatumBox { what: words::DATUM_END.say().to_owned(), place: place.to_owned() })
}

/// How the work is held, and what is proved before the first cut.
pub(super) fn holding_lines(s: &Sources, setup: &Setup, figures: &SetupFigures) -> Vec<Rich> {
    let grip = setup.grip.as_ref();
    let on = grip.map_or(words::ON_BAR.say().to_owned(), |g| {
        words::grip_on(&g.letter, g.protect, g.roughed.then(|| s.length(g.diameter)).as_deref())
    });
    let mark = figures.grip_mark.as_deref().map(words::beyond_mark).unwrap_or_default();
    let chuck = match setup.by {
        Workholder::Collet(size) => words::gripped(setup.by, &s.length(size)),
        by => words::gripped(by, ""),
    };
    let stands_out = figures
        .stick_out
        .map(|f| words::stands_out(&f.text(s.unit()), matches!(setup.by, Workholder::Collet(_))))
        .unwrap_or_default();
    let first = match setup.holding {
        Holding::Chuck | Holding::ChuckAndRest => format!("{chuck} {on}{mark}{stands_out}."),
        Holding::ChuckAndCenter => tell!(
            "{chuck} {on}{mark}, tailstock center{stands_out}.",
            "{chuck} {on}{mark}, Reitstockspitze{stands_out}."
        ),
        Holding::Mandrel => match setup.by {
            Workholder::Mandrel(size, bore) => words::on_mandrel(&s.length(size), s.letter(bore)),
            _ => words::on_mandrel("", ""),
        },
        Holding::Mill if setup.by == Workholder::DividingHead => in_the_dividing_head(s, setup),
        Holding::Mill if setup.by == Workholder::VBlocks => words::V_BLOCKS.say().to_owned(),
        Holding::BetweenCenters if matches!(setup.by, Workholder::SecondCenters(_)) => tell!(
            "Between the second centers, dog {on}{mark}.",
            "Zwischen Spitzen in den zweiten Zentrierungen, Drehherz {on}{mark}."
        ),
        Holding::BetweenCenters => tell!("Between centers, dog {on}{mark}.", "Zwischen Spitzen, Drehherz {on}{mark}."),
        Holding::Mill => on_the_mill(s, setup, figures),
        Holding::Bench if setup.drills_rough_centers() => words::ROUGH_BENCH.say().to_owned(),
        Holding::Bench if setup.is_sent_out() => words::SENT_OUT.say().to_owned(),
        Holding::Bench => words::BENCH.say().to_owned(),
    };
    let mut lines = vec![Rich::from(first)];
    let letter = figures.indicated.as_deref().unwrap_or(grip.map_or("", |g| g.letter.as_str()));
    let within = setup.runs_true.map(|t| s.length(t));
    lines.extend(within.and_then(|w| words::runs_true(setup.by, letter, &w)).map(Rich::from));
    let known = s.shop.is_some_and(|shop| shop.spindle_bore.is_some());
    lines.extend(figures.in_spindle.map(|f| Rich::from(words::in_spindle(&f.text(s.unit()), known))));
    if setup.why.iter().any(|w| w.rule == "short-work") {
        lines.push(Rich::from(words::seated(setup.by)));
    }
    lines.extend(setup.why.iter().filter(|w| w.rule == "thin-wall").map(|w| words::thin_wall(&w.reason)));
    if let Some(thrown) = &figures.thrown {
        lines.extend(thrown_lines(s, setup, thrown));
    }
    if let Workholder::SetOver(by) = setup.by {
        lines.push(Rich::from(words::set_over(&s.length(by), small_end_at_tailstock(s, setup))));
    }
    if let Some(rest) = &setup.rest {
        let spot = Some(s.length(rest.diameter)).filter(|_| s.plan.operations().any(|(_, o)| o.carries(rest)));
        let at = [rest.from, rest.to].map(|at| s.length(at.0));
        lines.push(words::rest(&rest.letter, spot.as_deref(), &at, rest.follows).into());
    }
    let centered = matches!(setup.holding, Holding::ChuckAndCenter | Holding::BetweenCenters);
    if let Some(op) = test_cut(s, setup)
        && centered
        && !s.part.wishes.is_off("R19")
    {
        lines.push(Rich::from(words::test_cut(op.feature.map_or("", |f| s.letter(f)))));
    }
    lines.extend(true_here(s, setup));
    lines
}

/// How the work is thrown over for an eccentric.
fn thrown_lines(s: &Sources, setup: &Setup, t: &Thrown) -> Vec<Rich> {
    let letter = setup.grip.as_ref().map_or("", |g| g.letter.as_str());
    let text = |f: Figure| f.text(s.unit());
    let limits = t.reading_limits.map(|l| (text(l.min), text(l.max)));
    let limits = limits.as_ref().map(|(min, max)| (min.as_str(), max.as_str()));
    let (throw, reading) = (text(t.throw), text(t.reading));
    let mut lines = vec![Rich::from(match setup.by {
        Workholder::SecondCenters(_) => words::on_second_centers(&throw, &reading, limits),
        _ => words::thrown_over(letter, t.also_on.map(|f| s.letter(f)), &throw, &reading, limits),
    })];
    if let Some(flat) = t.packing_flat {
        lines.push(Rich::from(words::packing(&text(flat), t.packing_narrow.map(text).as_deref())));
    }
    lines.extend(t.clock_deg.map(|d| Rich::from(words::clocked(&format!("{d}°")))));
    lines.push(Rich::from(words::sweeps(&text(t.sweeps), &format!("{:.0}", t.most_rpm))));
    lines
}

/// The small end of the taper looks to the tailstock: it is set over toward the operator.
fn small_end_at_tailstock(s: &Sources, setup: &Setup) -> bool {
    let taper = setup.operations.iter().find(|o| o.verb == Verb::Taper).and_then(|o| s.feature(o.feature?));
    match taper.map(|f| &f.kind) {
        Some(crate::model::Kind::Taper { start, end, .. }) => {
            (start.nominal < end.nominal) == (setup.works == Some(crate::model::End::Datum))
        }
        _ => true,
    }
}

pub(super) fn correction(s: &Sources, figures: &SetupFigures) -> Option<Block> {
    let c = figures.correction.as_ref()?;
    let text = |f: crate::figures::Figure| f.text(s.unit());
    let piece = |kind, text: String, width| Piece { kind, text, width: crate::sheet::view::Mm(width) };
    let dial = s.shop.is_some_and(|shop| shop.carriage_dial.is_some());
    let unit = c.on_scale.map_or(s.unit(), |(all, _)| all.unit);
    let overall = c.on_scale.map_or_else(|| text(c.overall), |(all, _)| all.size_text());
    let measured = c.on_scale.map_or_else(|| text(c.example_measured), |(_, one)| one.size_text());
    let step = s.dial_step(unit).filter(|_| dial);
    let (minus, set) = (words::MINUS_MEASURED.say(), words::SET_INSTEAD_OF_ZERO.say());
    let pieces = vec![
        piece(PieceKind::Blank, words::OVERALL_MEASURED.say().to_owned(), BLANK),
        piece(PieceKind::Strong, overall.clone(), 0.0),
        piece(PieceKind::Plain, step.map_or(minus.to_owned(), |by| minus.replace('=', &format!("{by} ="))), 0.0),
        piece(PieceKind::CarriageBlank, step.map_or(set.to_owned(), |_| s.on_dial(set)), BLANK),
    ];
    let mut line = blocks::line(Rich::new().strong(words::OVERALL_MEASURED.say()), 47.0, pieces);
    (line.works, line.value, line.units) = (Works::GivenMinusMeasured, overall, unit.word());
    let foreign = step.is_some() || c.on_scale.is_some();
    let example = if foreign { c.example_on_dial.clone() } else { text(c.example_set) };
    let how = words::correction(dial, &measured, &example, c.by_face);
    let how = c.coarse.as_ref().map_or(how.clone(), |c| how.plain(format!(" {}", words::from_file(c))));
    Some(blocks::correction(line, how))
}

/// The first reading of the cross dial outside, and the first of all.
fn cross_dials<'a>(setup: &Setup, figures: &'a SetupFigures) -> (Option<&'a CrossDial>, Option<&'a CrossDial>) {
    let outside = |n: u32| setup.operations.iter().any(|o| o.number == n && !o.inside);
    let turned = figures.operations.iter().filter(|o| outside(o.number)).find_map(|o| o.cross_dial.as_ref());
    (turned, figures.operations.iter().find_map(|o| o.cross_dial.as_ref()))
}

/// Whether the cross dial reads bores alone.
fn is_bored(setup: &Setup, figures: &SetupFigures) -> bool {
    matches!(cross_dials(setup, figures), (None, Some(_)))
}

/// The face that lengths count from, for the head of a page that carries on.
fn zero_face(s: &Sources, figures: &SetupFigures) -> Option<String> {
    let face = steps::counts_from(figures)?;
    let dial = s.shop.is_some_and(|shop| shop.carriage_dial.is_some());
    Some(words::carriage_short(face, figures.correction.is_some() && dial))
}

/// What the dials read, and how their zeros are set.
pub(super) fn zeros(s: &Sources, setup: &Setup, figures: &SetupFigures) -> Option<Block> {
    let mut dials = Vec::new();
    let one_side = !s.part.wishes.is_off("R22");
    let from = steps::counts_from(figures)?;
    let dial = s.shop.and_then(|shop| shop.carriage_dial);
    let corrected = figures.correction.is_some();
    let (name, frame) =
        if dial.is_some() { (words::CARRIAGE.say(), Frame::Carriage) } else { (words::LENGTH.say(), Frame::None) };
    let lines = if dial.is_some() {
        words::carriage_zero(from, corrected, one_side)
    } else if indicated(figures).is_some() {
        Rich::from(by_indicator(s, figures, from))
    } else {
        Rich::from(tell!("from the {from}", "ab {from}"))
    };
    dials.push(Zero { name: name.to_owned(), frame, lines: vec![lines] });
    let (turned, any) = cross_dials(setup, figures);
    let cross = turned.or(any);
    let bored = is_bored(setup, figures);
    let reads = s.shop.and_then(|shop| shop.cross_reads);
    if let (Some(reads), true) = (reads, cross.is_some()) {
        let mut lines = vec![Rich::new().strong(if bored {
            words::bore_reads(reads, s.unit(), s.dial_unit())
        } else {
            words::cross_reads(reads, s.unit(), s.dial_unit())
        })];
        let touch = cross.filter(|c| c.zero.now && turned == any).map(|c| {
            let letter = c.zero.feature.map_or("", |f| s.letter(f));
            words::cross_zero(letter, &c.zero.diameter.text(s.unit()))
        });
        if bored {
            lines.push(Rich::from(words::CROSS_INSIDE.say()));
        } else {
            let way = if one_side { words::CROSS_DIRECTION.say() } else { words::CROSS_COUNTS.say() };
            lines.push(Rich::from(format!("{}{way}", touch.unwrap_or_default())));
        }
        dials.push(Zero { name: words::CROSS.say().to_owned(), frame: Frame::Dial, lines });
    } else if setup.operations.iter().any(|o| o.to_diameter.is_some()) {
        dials.push(Zero {
            name: words::CROSS.say().to_owned(),
            frame: Frame::None,
            lines: vec![Rich::from(words::CROSS_UNKNOWN.say())],
        });
    }
    Some(blocks::zeros(dials))
}

/// Travel of the indicator that lengths of this mounting are read on.
fn indicated(figures: &SetupFigures) -> Option<crate::figures::Figure> {
    figures.operations.iter().flat_map(|o| &o.positions).find_map(|p| p.indicator).map(|i| i.travel)
}

/// Lengths that are told as blocks and a rest where the zero is set; each operation has its own.
const EXAMPLES: usize = 1;

/// How lengths are read without a dial: one beyond the indicator's travel as blocks and a rest.
fn by_indicator(s: &Sources, figures: &SetupFigures, from: &str) -> String {
    let travel = indicated(figures).map_or(String::new(), |t| t.text(s.unit()));
    let mut told: Vec<String> = Vec::new();
    for p in figures.operations.iter().flat_map(|o| &o.positions) {
        let (Some(length), Some(on)) = (p.carriage, p.indicator.filter(|i| i.blocks > 0)) else { continue };
        let says = words::on_blocks(&length.text(s.unit()), on.blocks, &on.reading.text(s.unit()));
        if !told.contains(&says) && told.len() < EXAMPLES {
            told.push(says);
        }
    }
    words::by_indicator(from, &travel, &told.join(", "))
}

/// Tools, feeds, and how far rough faces stand proud.
fn tools(s: &Sources, setup: &Setup, figures: &SetupFigures) -> Rich {
    let mut names: Vec<String> = Vec::new();
    for op in &setup.operations {
        let name = tool_name(s, op.tool);
        if op.tool != ToolKind::None && !names.contains(&name) {
            names.push(name);
        }
    }
    if names.is_empty() {
        return Rich::new();
    }
    let mut text = Rich::new().strong(words::TOOLS_SHORT.say()).plain(format!(" {}. ", names.join(", ")));
    let feed = |verbs: &[Verb]| {
        let pairs = setup.operations.iter().zip(&figures.operations);
        pairs.filter(|(o, _)| verbs.contains(&o.verb)).find_map(|(_, f): (&Operation, &OperationFigures)| f.feed)
    };
    let feeds: Vec<String> =
        [(words::ROUGH.say(), feed(&[Verb::Rough])), (words::FINISH.say(), feed(&[Verb::Finish, Verb::Turn]))]
            .into_iter()
            .filter_map(|(word, f)| Some(format!("{word} {}", on_the_plate(s, f?.value))))
            .collect();
    if !feeds.is_empty() {
        let toward_headstock = !s.part.wishes.is_off("R8");
        text = text.strong(words::FEED.say()).plain(words::feeds(&feeds.join(", "), toward_headstock));
    }
    if let Some(proud) = figures.proud {
        text = text.plain(words::proud(&proud.text(s.unit())));
    }
    if setup.operations.iter().any(|o| o.why.iter().any(|w| w.rule == "interrupted"))
        && let Some(stock) = &s.part.stock
    {
        text = text.plain(words::interrupted(&s.length(stock.size.nominal)));
    }
    for seat in setup.operations.iter().filter(|o| super::keyseat::finished_over(s, o)) {
        text = text.plain(words::over_keyseat(seat.feature.map_or("", |f| s.letter(f))));
    }
    let has_dial = |f: &SetupFigures| f.operations.iter().any(|o| o.cross_dial.is_some());
    if s.figures.setups.iter().find(|f| has_dial(f)).is_some_and(|f| f.number == setup.number) {
        text = text.plain(words::TRUST.say());
    }
    text
}

/// A feed as the lathe's plate has it: in the lathe's own unit, which is named where the part has the other one.
fn on_the_plate(s: &Sources, feed: Length) -> String {
    let lathe = s.shop.filter(|shop| !shop.feeds.is_empty()).and_then(|shop| shop.units).unwrap_or(s.unit());
    let text = show::exact(feed, lathe, 2, 4);
    if lathe == s.unit() { text } else { format!("{text} {}", lathe.word()) }
}

fn tool_name(s: &Sources, kind: ToolKind) -> String {
    let own = s.shop.and_then(|shop| shop.tools_of(kind).next());
    let name = words::tool(kind);
    own.and_then(|t| t.nose)
        .map_or(name.clone(), |nose| tell!("{name} (nose {})", "{name} (Radius {})", s.length(nose)))
}

/// How far the eccentric of a mounting lies over the part's axis on the picture.
fn thrown_on_picture(s: &Sources, setup: &Setup) -> f64 {
    if setup.by.throw().is_none() {
        return 0.0;
    }
    let mut eccentrics = setup.operations.iter().filter_map(|o| s.feature(o.feature?)).filter(|f| f.throw().is_some());
    eccentrics.next().map_or(0.0, |f| outline::off_axis(s, f))
}

fn scene(s: &Sources, setup: &Setup, figures: &SetupFigures) -> Option<Scene> {
    let held = match setup.holding {
        Holding::Chuck | Holding::ChuckAndRest => Held::Chuck,
        Holding::ChuckAndCenter => Held::ChuckAndCenter,
        Holding::BetweenCenters | Holding::Mandrel => Held::Centers,
        Holding::Mill => Held::Mill,
        Holding::Bench => return None,
    };
    let (before, after) = outline::work(s, setup);
    if after.stretches.is_empty() {
        return None;
    }
    let far = matches!(figures.zero, CarriageZero::FarFace | CarriageZero::FacedToOverall);
    let feet = if setup.by == Workholder::VBlocks {
        (String::new(), words::FROM_THE_FRONT.say().to_owned())
    } else if held == Held::Mill {
        (String::new(), words::FROM_ABOVE.say().to_owned())
    } else {
        words::feet()
    };
    let rest = setup.rest.as_ref().filter(|r| !r.follows).map(|r| (outline::mm(r.from), outline::mm(r.to)));
    Some(Scene {
        held,
        datum_right: setup.datum_end == DatumEnd::Tailstock,
        before,
        after,
        grip: setup.grip.as_ref().map(|g| (outline::mm(g.from.min(g.to)), outline::mm(g.to.max(g.from)))),
        protect: setup.grip.as_ref().is_some_and(|g| g.protect),
        rest: rest.or_else(|| setup.also.as_ref().map(|g| (outline::mm(g.from), outline::mm(g.to)))),
        follow: setup.rest.as_ref().filter(|r| r.follows).map(|r| (outline::mm(r.from), outline::mm(r.to))),
        thrown: thrown_on_picture(s, setup),
        zero: steps::sawn_end(setup, figures).unwrap_or(if far { s.overall().mm() } else { 0.0 }),
        flag: words::DATUM_END.say().to_owned(),
        feet,
        carriage: s.shop.is_some_and(|shop| shop.carriage_dial.is_some()) && held != Held::Mill,
        gripper: match setup.by {
            Workholder::Mandrel(size, _) => Gripper::Mandrel(size.mm()),
            Workholder::Collet(_) => Gripper::Collet,
            Workholder::SoftJaws => Gripper::SoftJaws,
            Workholder::DividingHead => Gripper::DividingHead,
            Workholder::VBlocks => Gripper::VBlocks,
            _ => Gripper::Jaws,
        },
        alt: words::setup_alt(setup.number, &words::held(setup.by, setup.holding), setup.datum_end),
    })
}
