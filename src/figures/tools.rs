//! What to lay out before the first chip.

use std::collections::{BTreeMap, BTreeSet};

use super::given::Given;
use super::{Figure, InspectionRow, Job, Marks, OperationFigures, instrument, job, mate_word};
use crate::chain::Mouth;
use crate::handbook::eccentric;
use crate::model::Workholder;
use crate::model::part::Holding;
use crate::model::plan::{Operation, Setup, Verb};
use crate::model::shop::{Tool, ToolKind};
use crate::model::{End, Kind, Plan};
use crate::unit::Length;
use crate::{tell, told};

/// Two lists to tick off.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Layout {
    /// Tools and what holds the work.
    pub tools: Vec<String>,
    /// Instruments, wires and mating parts.
    pub instruments: Vec<String>,
}

/// Both lists, in the order things are taken up.
pub(super) fn layout(
    given: &Given,
    plan: &Plan,
    done: &[(&Setup, &Operation, &OperationFigures)],
    rows: &[InspectionRow],
    marks: &Marks,
) -> Layout {
    let mut layout = Layout::default();
    let mut add = |text: String| {
        if !text.is_empty() && !layout.tools.contains(&text) {
            layout.tools.push(text);
        }
    };
    // What spots a hole is laid out too, where no center is drilled with one.
    let mut spotter = done.iter().any(|(_, op, _)| op.tool == ToolKind::CenterDrill);
    for (_, op, figures) in done {
        if op.verb == Verb::Drill && op.from_diameter.is_none() && !spotter {
            add(told!("center drill to spot with", "Zentrierbohrer zum Anbohren").to_owned());
            spotter = true;
        }
        add(tool(given, op, figures));
    }
    for setup in &plan.setups {
        for thing in holding(given, setup) {
            add(thing);
        }
    }
    if plan.setups.iter().any(|s| s.grip.as_ref().is_some_and(|g| g.protect)) {
        add(told!("copper or brass for the grip", "Kupfer oder Messing zum Spannen").to_owned());
    }
    if !marks.lists.is_empty() || marks.lying.is_some() {
        add(told!("dye, scriber, height gauge, V-block", "Anreißfarbe, Nadel, Höhenreißer, Prisma").to_owned());
    }
    layout.instruments = instruments(given, done, rows);
    layout
}

fn tool(given: &Given, op: &Operation, figures: &OperationFigures) -> String {
    let own = |kind| given.shop.and_then(|s| s.tools_of(kind).next());
    let nose = |word: &str, tool: Option<&Tool>| match tool.and_then(|t| t.nose) {
        Some(nose) => tell!("{word} tool, nose {}", "{word}, Radius {}", given.in_shop(nose)),
        None => tell!("{word} tool", "{word}"),
    };
    match op.tool {
        ToolKind::Facing => nose(told!("facing", "Planstahl"), own(ToolKind::Facing)),
        ToolKind::Roughing => nose(told!("roughing", "Schruppstahl"), own(ToolKind::Roughing)),
        ToolKind::Finishing => nose(told!("finishing", "Schlichtstahl"), own(ToolKind::Finishing)),
        ToolKind::Grooving if matches!(figures.job, Job::Undercut(_)) => match &figures.job {
            Job::Undercut(u) => {
                tell!("undercut tool, nose radius {}", "Freistichstahl, Spitzenradius {}", u.radius.text(given.unit))
            }
            _ => String::new(),
        },
        ToolKind::Grooving => figures.tool_width.map_or_else(
            || told!("grooving tool", "Stechstahl").to_owned(),
            |w| tell!("grooving tool {} wide", "Stechstahl {} breit", given.in_shop(w.value)),
        ),
        ToolKind::Parting => told!("parting tool", "Abstechstahl").to_owned(),
        ToolKind::Chamfer => told!("chamfer tool", "Fasenstahl").to_owned(),
        ToolKind::CenterDrill => match &figures.job {
            Job::Center(center) => tell!("center drill {}", "Zentrierbohrer {}", center.size),
            _ => told!("center drill", "Zentrierbohrer").to_owned(),
        },
        ToolKind::WoodruffCutter | ToolKind::EndMill => match &figures.job {
            Job::Keyseat(key) if op.tool == ToolKind::WoodruffCutter => {
                tell!("cutter for {}", "Fräser für {}", key.key)
            }
            Job::Keyseat(key) => tell!("end mill {}", "Schaftfräser {}", key.width.text(given.unit)),
            Job::Flats(flats) if flats.count == 1 => {
                told!("end mill for the flat", "Schaftfräser für die Fläche").to_owned()
            }
            Job::Flats(_) if given.shop.is_some_and(|s| s.dividing_head.is_some()) => {
                told!("end mill for the flats", "Schaftfräser für die Flächen").to_owned()
            }
            Job::Flats(_) => told!(
                "end mill for the flats; dividing head or a block to turn the work by",
                "Schaftfräser für die Flächen; Teilkopf oder Klotz zum Weiterdrehen"
            )
            .to_owned(),
            _ => tool_word(op.tool).to_owned(),
        },
        ToolKind::Drill if matches!(&figures.job, Job::Hole(h) if !h.steps.is_empty()) => match &figures.job {
            Job::Hole(hole) => {
                let sizes: Vec<String> = hole.steps.iter().map(|s| s.text(given.unit)).collect();
                tell!("drill {}", "Bohrer {}", sizes.join(", "))
            }
            _ => String::new(),
        },
        ToolKind::Tap => super::inside::tapped_of(given, op).map_or_else(
            || told!("tap", "Gewindebohrer").to_owned(),
            |t| tell!("tap {}", "Gewindebohrer {}", t.designation),
        ),
        ToolKind::Reamer => figures.aim.map_or_else(
            || told!("reamer", "Reibahle").to_owned(),
            |d| tell!("reamer {}", "Reibahle {}", d.text(given.unit)),
        ),
        ToolKind::Boring => match op.verb {
            Verb::Groove => told!("boring bar with a grooving bit", "Bohrstange mit Stecheinsatz").to_owned(),
            Verb::Thread => {
                told!("boring bar with a 60° threading bit", "Bohrstange mit 60°-Gewindeeinsatz").to_owned()
            }
            _ => told!("boring bar", "Bohrstange").to_owned(),
        },
        ToolKind::Drill => figures.aim.map_or_else(
            || told!("drill", "Bohrer").to_owned(),
            |d| tell!("drill {}", "Bohrer {}", d.text(given.unit)),
        ),
        ToolKind::Knurl => match &figures.job {
            Job::Knurl(k) => tell!("knurling tool, {}", "Rändelwerkzeug, {}", k.says),
            _ => tool_word(op.tool).to_owned(),
        },
        ToolKind::File if matches!(figures.job, Job::Crown(_)) => match &figures.job {
            Job::Crown(c) => tell!(
                "file with a handle, template of radius {}",
                "Feile mit Heft, Schablone Radius {}",
                c.radius.text(given.unit)
            ),
            _ => String::new(),
        },
        ToolKind::File | ToolKind::AbrasiveStrip => tool_word(op.tool).to_owned(),
        ToolKind::None if op.verb == Verb::Deburr => told!("deburring tool", "Entgrater").to_owned(),
        ToolKind::None => String::new(),
        _ => match &figures.job {
            Job::Thread(thread) => {
                let flat: Figure = thread.tool_flat;
                let form = if op.tool == ToolKind::Acme29 || op.tool == ToolKind::Threading60 {
                    tell!("{} tool and its gauge", "{} und seine Lehre", tool_word(op.tool))
                } else {
                    tell!("threading tool ground to {}", "Gewindestahl, geschliffen auf {}", thread.designation)
                };
                if op.tool == ToolKind::Threading60 {
                    form
                } else {
                    tell!("{form}, flat {}", "{form}, Spitze {}", flat.text(given.unit))
                }
            }
            _ => tell!("{} tool", "{}", tool_word(op.tool)),
        },
    }
}

/// A tool in a list, without its size.
fn tool_word(kind: ToolKind) -> &'static str {
    match kind {
        ToolKind::Threading60 => told!("threading 60°", "Gewindestahl 60°"),
        ToolKind::Acme29 => told!("acme 29°", "Acme-Stahl 29°"),
        ToolKind::WoodruffCutter => told!("Woodruff cutter", "Scheibenfräser"),
        ToolKind::EndMill => told!("end mill", "Schaftfräser"),
        ToolKind::File => told!("file", "Feile"),
        ToolKind::AbrasiveStrip => told!("abrasive strip", "Schleifband"),
        ToolKind::Knurl => told!("knurl", "Rändelwerkzeug"),
        other => other.word(),
    }
}

/// Where a center bears on the mouth of a hole so wide that a usual cone goes into it (about 3/4 in, 19 mm; common practice, no source).
fn pipe_center(given: &Given, setup: &Setup) -> Option<String> {
    let bears = [End::Datum, End::Far].into_iter().filter(|e| setup.runs_on_center(*e));
    let widest = bears.filter_map(|e| match given.profile.mouth(e) {
        Mouth::Seat { mouth, .. } => Some(mouth),
        _ => None,
    });
    let mouth = widest.max().filter(|m| *m > given.pick(750_000, 19_000))?;
    let shown = Figure::usual(mouth, given.unit).text(given.unit);
    Some(tell!(
        "large (pipe) center, 60°, its cone wider than the mouth Ø {shown}",
        "große Zentrierspitze (Rohrspitze) 60°, Kegel weiter als die Mündung Ø {shown}"
    ))
}

fn holding(given: &Given, setup: &Setup) -> Vec<String> {
    let chuck = || match setup.by {
        Workholder::FourJaw | Workholder::Thrown(_) => {
            told!("4-jaw chuck and its key, dial indicator", "Vierbackenfutter und Schlüssel, Messuhr").to_owned()
        }
        Workholder::Packed(throw) => tell!(
            "chuck and its key, packing {} for one jaw, dial indicator",
            "Futter und Schlüssel, Unterlage {} für eine Backe, Messuhr",
            Figure::usual(eccentric::packing_flat(throw), given.unit).text(given.unit)
        ),
        Workholder::Collet(size) => tell!("collet {} and its closer", "Spannzange {} und Anzug", given.in_shop(size)),
        Workholder::SoftJaws => {
            told!("soft jaws, a ring to close them on, boring tool", "weiche Backen, Ring zum Spannen, Ausdrehstahl")
                .to_owned()
        }
        _ => told!("chuck and its key", "Futter und Schlüssel").to_owned(),
    };
    let and = |other: &str| vec![chuck(), other.to_owned()];
    let follows = setup.rest.as_ref().is_some_and(|r| r.follows);
    let follow =
        follows.then(|| told!("follow rest, oil for its jaws", "mitlaufende Lünette, Öl für die Backen").to_owned());
    let pipe = pipe_center(given, setup);
    let mut list = match setup.holding {
        Holding::Chuck => vec![chuck()],
        Holding::ChuckAndCenter => and(told!("tailstock center", "Reitstockspitze")),
        Holding::BetweenCenters if matches!(setup.by, Workholder::SecondCenters(_)) => vec![
            told!(
                "dog, drive plate, two centers, dial indicator, counterweight",
                "Drehherz, Mitnehmerscheibe, zwei Spitzen, Messuhr, Gegengewicht"
            )
            .to_owned(),
        ],
        Holding::BetweenCenters => {
            vec![told!("dog, drive plate, two centers", "Drehherz, Mitnehmerscheibe, zwei Spitzen").to_owned()]
        }
        Holding::ChuckAndRest => and(told!("steady rest, oil for its jaws", "Lünette, Öl für die Backen")),
        Holding::Mandrel => vec![
            told!(
                "mandrel, oil, soft hammer or press; dog, drive plate, two centers",
                "Drehdorn, Öl, Schonhammer oder Presse; Drehherz, Scheibe, zwei Spitzen"
            )
            .to_owned(),
        ],
        Holding::Mill if setup.by == Workholder::VBlocks => vec![
            told!(
                "V-blocks, surface plate, height gauge, square, dye, center punch; vise on the drill press",
                "Prismen, Anreißplatte, Höhenreißer, Winkel, Anreißfarbe, Körner; Schraubstock auf der Bohrmaschine"
            )
            .to_owned(),
        ],
        Holding::Mill if setup.by == Workholder::DividingHead => {
            vec![
                told!(
                    "dividing head, its chuck and footstock, paper for touching off",
                    "Teilkopf, Futter und Gegenspitze, Papier zum Ankratzen"
                )
                .to_owned(),
            ]
        }
        Holding::Mill => vec![
            told!(
                "vise or V-blocks, clamps, paper for touching off",
                "Schraubstock oder Prismen, Spannpratzen, Papier zum Ankratzen"
            )
            .to_owned(),
        ],
        Holding::Bench => Vec::new(),
    };
    list.extend(follow);
    list.extend(pipe);
    list
}

fn instruments(given: &Given, done: &[(&Setup, &Operation, &OperationFigures)], rows: &[InspectionRow]) -> Vec<String> {
    let mut list: Vec<String> = Vec::new();
    list.extend(gauges(rows));
    for (_, _, figures) in done {
        if let Job::Thread(thread) = &figures.job
            && let Some(wires) = thread.wires
        {
            let text = if wires.at_hand {
                tell!("wires {}", "Drähte {}", given.in_shop(wires.wire.value))
            } else {
                tell!("wires {}", "Drähte {}", wires.wire.text(given.unit))
            };
            let text = if wires.at_hand || given.shop.is_none() {
                text
            } else {
                tell!("{text} (not in the shop file)", "{text} (nicht in der Werkstattdatei)")
            };
            if !list.contains(&text) {
                list.push(text);
            }
        }
    }
    list.extend(mates(given));
    list
}

/// Instruments of the inspection rows. Of those the shop lacks, the one that reaches farthest will do.
fn gauges(rows: &[InspectionRow]) -> Vec<String> {
    let mut at_hand: BTreeSet<String> = BTreeSet::new();
    let mut reach: BTreeMap<&str, (Length, &str)> = BTreeMap::new();
    for row in rows.iter().filter(|r| !r.with.starts_with("gauge blocks")) {
        let with = row.with.split(',').next().unwrap_or_default();
        if let Some((kind, _)) = with.split_once(" that reaches ") {
            let known = reach.entry(kind).or_insert((row.limits.exact.max, with));
            *known = (*known).max((row.limits.exact.max, with));
        } else {
            at_hand.extend(instrument::each(with));
        }
    }
    at_hand.into_iter().chain(reach.into_values().map(|(_, with)| with.to_owned())).collect()
}

/// The parts that go on it: the best gauges there are.
fn mates(given: &Given) -> Vec<String> {
    let mut list = Vec::new();
    let mut add = |text: String| {
        if !list.contains(&text) {
            list.push(text);
        }
    };
    for feature in &given.part.features {
        if let Kind::Thread { thread, .. } = &feature.kind
            && feature.carries.is_empty()
        {
            // Named in English here: `words::measuring` says them.
            let gauge = if thread.taper.is_some() { "fitting" } else { "nut" };
            add(format!("{gauge} for {}", thread.designation));
        }
        for carried in &feature.carries {
            match (&carried.bore, &feature.kind) {
                (Some(bore), _) => {
                    add(tell!("{}, bore {}", "{}, Bohrung {}", mate_word(&carried.part.text), bore.text));
                }
                (None, Kind::Thread { thread, .. }) => {
                    add(tell!("{} for {}", "{} zu {}", mate_word(&carried.part.text), thread.designation));
                }
                (None, _) => add(mate_word(&carried.part.text)),
            }
        }
        if let Kind::Groove { ring: Some(ring), fits: None, .. } = &feature.kind {
            add(tell!("ring {} thick", "Ring {} dick", job::plain(ring.nominal, given.unit)));
        }
        if let Kind::Groove { fits: Some(fits), .. } = &feature.kind {
            add(mate_word(&fits.text));
        }
        match &feature.kind {
            Kind::Woodruff { number, .. } => add(tell!("key Woodruff {number}", "Scheibenfeder Woodruff {number}")),
            Kind::ParallelKeyseat { width, height, .. } => {
                add(tell!(
                    "key {} \u{d7} {}",
                    "Passfeder {} \u{d7} {}",
                    job::plain(width.nominal, given.unit),
                    job::plain(height.nominal, given.unit)
                ));
            }
            _ => {}
        }
    }
    list
}
