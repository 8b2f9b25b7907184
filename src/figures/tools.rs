//! What to lay out before the first chip.

use std::collections::{BTreeMap, BTreeSet};

use super::given::Given;
use super::{Figure, InspectionRow, Job, Marks, OperationFigures, job};
use crate::model::Workholder;
use crate::model::part::Holding;
use crate::model::plan::{Operation, Setup, Verb};
use crate::model::shop::{Tool, ToolKind};
use crate::model::{Kind, Plan};
use crate::unit::Length;

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
    for (_, op, figures) in done {
        add(tool(given, op, figures));
    }
    for setup in &plan.setups {
        for thing in holding(given, setup) {
            add(thing);
        }
    }
    if plan.setups.iter().any(|s| s.grip.as_ref().is_some_and(|g| g.protect)) {
        add("copper or brass for the grip".to_owned());
    }
    if !marks.lists.is_empty() {
        add("dye, scriber, height gauge, V-block".to_owned());
    }
    layout.instruments = instruments(given, done, rows);
    layout
}

fn tool(given: &Given, op: &Operation, figures: &OperationFigures) -> String {
    let own = |kind| given.shop.and_then(|s| s.tools_of(kind).next());
    let nose = |word: &str, tool: Option<&Tool>| match tool.and_then(|t| t.nose) {
        Some(nose) => format!("{word} tool, nose {}", given.in_shop(nose)),
        None => format!("{word} tool"),
    };
    match op.tool {
        ToolKind::Facing => nose("facing", own(ToolKind::Facing)),
        ToolKind::Roughing => nose("roughing", own(ToolKind::Roughing)),
        ToolKind::Finishing => nose("finishing", own(ToolKind::Finishing)),
        ToolKind::Grooving if matches!(figures.job, Job::Undercut(_)) => match &figures.job {
            Job::Undercut(u) => format!("undercut tool, nose radius {}", u.radius.text(given.unit)),
            _ => String::new(),
        },
        ToolKind::Grooving => figures
            .tool_width
            .map_or_else(|| "grooving tool".to_owned(), |w| format!("grooving tool {} wide", given.in_shop(w.value))),
        ToolKind::Parting => "parting tool".to_owned(),
        ToolKind::Chamfer => "chamfer tool".to_owned(),
        ToolKind::CenterDrill => match &figures.job {
            Job::Center(center) => format!("center drill {}", center.size),
            _ => "center drill".to_owned(),
        },
        ToolKind::WoodruffCutter | ToolKind::EndMill => match &figures.job {
            Job::Keyseat(key) if op.tool == ToolKind::WoodruffCutter => format!("cutter for {}", key.key),
            Job::Keyseat(key) => format!("end mill {}", key.width.text(given.unit)),
            Job::Flats(_) if given.shop.is_some_and(|s| s.dividing_head.is_some()) => {
                "end mill for the flats".to_owned()
            }
            Job::Flats(_) => "end mill for the flats; dividing head or a block to turn the work by".to_owned(),
            _ => op.tool.word().to_owned(),
        },
        ToolKind::Drill if matches!(&figures.job, Job::Hole(h) if !h.steps.is_empty()) => match &figures.job {
            Job::Hole(hole) => {
                let sizes: Vec<String> = hole.steps.iter().map(|s| s.text(given.unit)).collect();
                format!("drill {}", sizes.join(", "))
            }
            _ => String::new(),
        },
        ToolKind::Tap => {
            super::inside::tapped_of(given, op).map_or_else(|| "tap".to_owned(), |t| format!("tap {}", t.designation))
        }
        ToolKind::Reamer => {
            figures.aim.map_or_else(|| "reamer".to_owned(), |d| format!("reamer {}", d.text(given.unit)))
        }
        ToolKind::Boring => match op.verb {
            Verb::Groove => "boring bar with a grooving bit".to_owned(),
            Verb::Thread => "boring bar with a 60° threading bit".to_owned(),
            _ => "boring bar".to_owned(),
        },
        ToolKind::Drill => figures.aim.map_or_else(|| "drill".to_owned(), |d| format!("drill {}", d.text(given.unit))),
        ToolKind::Knurl => match &figures.job {
            Job::Knurl(k) => format!("knurling tool, {}", k.says),
            _ => op.tool.word().to_owned(),
        },
        ToolKind::File if matches!(figures.job, Job::Crown(_)) => match &figures.job {
            Job::Crown(c) => format!("file with a handle, template of radius {}", c.radius.text(given.unit)),
            _ => String::new(),
        },
        ToolKind::File | ToolKind::AbrasiveStrip => op.tool.word().to_owned(),
        ToolKind::None if op.verb == Verb::Deburr => "deburring tool".to_owned(),
        ToolKind::None => String::new(),
        _ => match &figures.job {
            Job::Thread(thread) => {
                let flat: Figure = thread.tool_flat;
                let form = if op.tool == ToolKind::Acme29 || op.tool == ToolKind::Threading60 {
                    format!("{} tool and its gauge", op.tool.word())
                } else {
                    format!("threading tool ground to {}", thread.designation)
                };
                if op.tool == ToolKind::Threading60 { form } else { format!("{form}, flat {}", flat.text(given.unit)) }
            }
            _ => format!("{} tool", op.tool.word()),
        },
    }
}

fn holding(given: &Given, setup: &Setup) -> Vec<String> {
    let chuck = || match setup.by {
        Workholder::FourJaw => "4-jaw chuck and its key, dial indicator".to_owned(),
        Workholder::Collet(size) => format!("collet {} and its closer", given.in_shop(size)),
        Workholder::SoftJaws => "soft jaws, a ring to close them on, boring tool".to_owned(),
        _ => "chuck and its key".to_owned(),
    };
    let and = |other: &str| vec![chuck(), other.to_owned()];
    match setup.holding {
        Holding::Chuck => vec![chuck()],
        Holding::ChuckAndCenter => and("tailstock center"),
        Holding::BetweenCenters => vec!["dog, drive plate, two centers".to_owned()],
        Holding::ChuckAndRest => and("steady rest, oil for its jaws"),
        Holding::Mandrel => vec!["mandrel, oil, soft hammer or press; dog, drive plate, two centers".to_owned()],
        Holding::Mill if setup.by == Workholder::DividingHead => {
            vec!["dividing head, its chuck and footstock, paper for touching off".to_owned()]
        }
        Holding::Mill => vec!["vise or V-blocks, clamps, paper for touching off".to_owned()],
        Holding::Bench => Vec::new(),
    }
}

fn instruments(given: &Given, done: &[(&Setup, &Operation, &OperationFigures)], rows: &[InspectionRow]) -> Vec<String> {
    let mut list: Vec<String> = Vec::new();
    list.extend(gauges(rows));
    for (_, _, figures) in done {
        if let Job::Thread(thread) = &figures.job
            && let Some(wires) = thread.wires
        {
            let text = if wires.at_hand {
                format!("wires {}", given.in_shop(wires.wire.value))
            } else {
                format!("wires {}", wires.wire.text(given.unit))
            };
            let text =
                if wires.at_hand || given.shop.is_none() { text } else { format!("{text} (not in the shop file)") };
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
    let mut at_hand: BTreeSet<&str> = BTreeSet::new();
    let mut reach: BTreeMap<&str, (Length, &str)> = BTreeMap::new();
    for row in rows.iter().filter(|r| !r.with.starts_with("gauge blocks")) {
        let with = row.with.split(',').next().unwrap_or_default();
        if let Some((kind, _)) = with.split_once(" that reaches ") {
            let known = reach.entry(kind).or_insert((row.limits.exact.max, with));
            *known = (*known).max((row.limits.exact.max, with));
        } else {
            at_hand.insert(with);
        }
    }
    let far = reach.into_values().map(|(_, with)| with);
    at_hand.into_iter().chain(far).map(str::to_owned).collect()
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
            add(format!("nut for {}", thread.designation));
        }
        for carried in &feature.carries {
            match (&carried.bore, &feature.kind) {
                (Some(bore), _) => add(format!("{}, bore {}", carried.part.text, bore.text)),
                (None, Kind::Thread { thread, .. }) => add(format!("{} for {}", carried.part.text, thread.designation)),
                (None, _) => add(carried.part.text.clone()),
            }
        }
        if let Kind::Groove { ring: Some(ring), fits: None, .. } = &feature.kind {
            add(format!("ring {} thick", job::plain(ring.nominal, given.unit)));
        }
        if let Kind::Groove { fits: Some(fits), .. } = &feature.kind {
            add(fits.text.clone());
        }
        match &feature.kind {
            Kind::Woodruff { number, .. } => add(format!("key Woodruff {number}")),
            Kind::ParallelKeyseat { width, height, .. } => {
                add(format!(
                    "key {} \u{d7} {}",
                    job::plain(width.nominal, given.unit),
                    job::plain(height.nominal, given.unit)
                ));
            }
            _ => {}
        }
    }
    list
}
