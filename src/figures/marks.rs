//! Lines to scribe: warnings, never sizes.

use super::given::Given;

use super::lying::{self, Lying};
use super::mark_lines::{Blank, after_roughing, blank};
use super::{Figure, OnScale};
use crate::model::plan::Verb;
use crate::model::{End, Kind, Plan};
use crate::unit::Length;
use crate::{tell, told};

/// Which side of the line is cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Leave {
    /// The cut stops short of it.
    Line,
    /// The cut takes half of it.
    Split,
}

impl Leave {
    /// As the sheet says it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Line => "leave line",
            Self::Split => "split line",
        }
    }
}

/// One line around the bar.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// `M1`, counted through both lists from the datum end.
    pub label: String,
    /// From the datum face.
    pub from_datum: Figure,
    /// Setting of the height gauge, for the face the bar stands on.
    pub height_gauge: Figure,
    /// The same on a gauge in the other unit.
    pub on_scale: Option<OnScale>,
    /// Where the work stays in the chuck: carriage reading at which a pointed tool scribes it, spindle off.
    pub carriage: Option<Figure>,
    /// Diameter it is scribed on.
    pub on_diameter: Figure,
    /// Surface: `bar, collar D`, `C at .904`.
    pub on: String,
    /// Section it is scribed on; none for bare bar.
    pub feature: Option<usize>,
    /// Number of the operation after which it is scribed; 0 where the list says when.
    pub after: u32,
    /// What it means: `seat C starts`.
    pub means: String,
    /// Which side is cut.
    pub leave: Leave,
    /// Whether it may be pricked: only where the metal is cut away.
    pub prick: bool,
    /// Number of the setup whose jaws or dog it limits.
    pub grip_of: Option<u32>,
}

/// Lines scribed in one go.
#[derive(Debug, Clone, PartialEq)]
pub struct MarkList {
    /// `blank`, `after roughing`.
    pub name: String,
    /// When: `after setup 2`.
    pub when: String,
    /// What the bar stands on.
    pub standing_on: String,
    /// From the datum end outward.
    pub marks: Vec<Mark>,
}

/// All lists, with what is to be said about them.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Marks {
    /// Lists in the order they are scribed; an empty one is left out.
    pub lists: Vec<MarkList>,
    /// Lines scribed with the work lying in V-blocks.
    pub lying: Option<Lying>,
    /// Sentences: what a line is for, what gets none and why.
    pub notes: Vec<String>,
}

/// Most lines of the first and of the second list: more are not read.
const MOST: [usize; 2] = [6, 10];

/// Both lists of a plan.
pub(super) fn marks(given: &Given, plan: &Plan) -> Marks {
    let mut lists = Vec::new();
    let mut left_out = 0;
    let mut count = 0;
    let Blank { when, standing, lines } = blank(given, plan);
    let roughed = after_roughing(given, plan);
    let face = |end: End| format!("{} face", end.word());
    let raw = [
        ("blank", when, standing, lines),
        ("after roughing", told!("dye again", "neu einfärben").to_owned(), End::Datum, roughed),
    ];
    for ((name, when, standing, mut lines), most) in raw.into_iter().zip(MOST) {
        lines.sort_by_key(|l| l.worth);
        left_out += lines.len().saturating_sub(most);
        lines.truncate(most);
        lines.sort_by_key(|l| l.at);
        let marks: Vec<Mark> = lines
            .into_iter()
            .map(|line| {
                count += 1;
                line.mark(given, format!("M{count}"), standing)
            })
            .collect();
        if !marks.is_empty() {
            lists.push(MarkList { name: name.to_owned(), when, standing_on: face(standing), marks });
        }
    }
    let lying = lying::lying(given, plan);
    let lined = lying.as_ref().map_or(&[][..], |l| &l.features);
    let mut notes = notes(given, !lists.is_empty() || lying.is_some(), left_out, lined);
    notes.extend(lying.iter().flat_map(lying::notes));
    notes.extend(beyond_the_gauge(given, plan, &lists));
    notes.extend(in_the_lathe(given, &lists));
    Marks { lists, lying, notes }
}

/// Lines higher than the shop's height gauge reaches: from the far face, once that is faced; else by the carriage.
fn beyond_the_gauge(given: &Given, plan: &Plan, lists: &[MarkList]) -> Option<String> {
    let gauges = given.shop?.instruments.iter().filter(|i| i.kind == "height gauge");
    let reach = gauges.map(|i| i.range.map_or(Length::GREATEST, |(_, most)| most)).max()?;
    let far_faced = plan.operations().find(|(_, o)| o.verb == Verb::Face && o.end == Some(End::Far));
    let far_faced = far_faced.map(|(_, o)| o.number);
    let (mut turned, mut left) = (Vec::new(), Vec::new());
    for mark in lists.iter().flat_map(|l| &l.marks).filter(|m| m.carriage.is_none() && m.height_gauge.value > reach) {
        let from_far = given.overall - mark.from_datum.value;
        let faced = far_faced.is_some_and(|n| mark.after == 0 && n <= first_cut(plan) || n <= mark.after);
        if from_far <= reach && faced {
            turned.push(format!("{} {}", mark.label, Figure::usual(from_far, given.unit).text(given.unit)));
        } else {
            left.push(mark.label.clone());
        }
    }
    let reach = Figure::usual(reach, given.unit).text(given.unit);
    let mut says = Vec::new();
    if !turned.is_empty() {
        says.push(tell!(
            "Higher than the height gauge reaches, {reach}: stand it on the far face for {}.",
            "Höher, als der Höhenreißer reicht, {reach}: auf das Gegenende stellen für {}.",
            turned.join(", ")
        ));
    }
    if !left.is_empty() {
        says.push(tell!(
            "Beyond the height gauge's {reach}: {} by rule, or in the lathe by the carriage dial, spindle off.",
            "Jenseits des Höhenreißers, {reach}: {} mit dem Stahlmaß, oder in der Drehmaschine nach der Längsskale, Spindel aus.",
            left.join(", ")
        ));
    }
    (!says.is_empty()).then(|| says.join(" "))
}

/// Number of the operation that first cuts metal from the bar's own surface.
fn first_cut(plan: &Plan) -> u32 {
    let turns = |v| {
        matches!(v, Verb::Rough | Verb::Finish | Verb::Turn | Verb::Groove | Verb::Taper | Verb::Thread | Verb::Knurl)
    };
    plan.operations().find(|(_, o)| turns(o.verb)).map_or(u32::MAX, |(_, o)| o.number)
}

/// Lines on work that stays in the lathe.
fn in_the_lathe(given: &Given, lists: &[MarkList]) -> Option<String> {
    let has_dial = given.shop.is_some_and(|s| s.carriage_dial.is_some());
    let dials = given.shop.and_then(|s| s.units).filter(|u| has_dial && *u != given.unit);
    let at: Vec<String> = lists
        .iter()
        .flat_map(|l| &l.marks)
        .filter_map(|m| {
            let at = match dials {
                Some(own) => format!("{} {}", m.carriage?.on_dials(given.unit, own).text(own), own.word()),
                None => m.carriage?.text(given.unit),
            };
            Some(if has_dial {
                tell!("{} at carriage {at}", "{} am Schlitten bei {at}", m.label)
            } else {
                tell!("{} {at} from the face", "{} {at} von der Planfläche", m.label)
            })
        })
        .collect();
    (!at.is_empty()).then(|| {
        tell!(
            "The work stays in the lathe, so these go on with a pointed tool, spindle off: {}.",
            "Das Werkstück bleibt in der Maschine, darum mit dem Spitzstahl, Spindel aus: {}.",
            at.join(", ")
        )
    })
}

/// `lined` are features that have a line of their own.
fn notes(given: &Given, any: bool, left_out: usize, lined: &[usize]) -> Vec<String> {
    let mut notes = Vec::new();
    if any {
        notes.push(
            told!(
                "A line is a warning, never the size: the size is the dial and the micrometer.",
                "Ein Riss warnt nur, er ist nie das Maß: das Maß sind Skale und Messschraube."
            )
            .to_owned(),
        );
    }
    for feature in given.part.features.iter().filter(|f| !lined.contains(&f.id)) {
        let what = match feature.kind {
            Kind::Woodruff { .. } | Kind::ParallelKeyseat { .. } => told!("keyseat", "Nut"),
            Kind::CrossHole { .. } => told!("hole", "Bohrung"),
            Kind::Flats { .. } => told!("flat", "Fläche"),
            _ => continue,
        };
        let Some(center) = given.chain.center(feature.id) else { continue };
        let at = Figure::usual(center.0, given.unit).text(given.unit);
        let name = format!("{what} {}", feature.letter);
        let mut chars = name.trim().chars();
        let name: String = chars.next().map(|c| c.to_ascii_uppercase()).into_iter().chain(chars).collect();
        notes.push(tell!(
            "{name} gets no line: it would stay on finished work. The mill finds its centre {at} from the datum face.",
            "{name} bekommt keinen Riss: er bliebe auf der fertigen Fläche. Beim Fräsen liegt die Mitte {at} ab Bezugsfläche."
        ));
    }
    if any {
        notes.push(
            told!(
                "No line stays on a finished seat, fillet or neck: the finish cuts take those of the second list.",
                "Kein Riss bleibt auf fertigem Sitz, Hohlkehle oder Hals: die Schlichtschnitte nehmen die der zweiten Liste weg."
            )
            .to_owned(),
        );
        notes.push(
            told!("No prick marks but where the metal is cut away.", "Körnerpunkte nur, wo das Metall wegfällt.")
                .to_owned(),
        );
    }
    if left_out > 0 {
        notes.push(tell!(
            "{left_out} further faces get no line: more lines than these are not read.",
            "{left_out} weitere Flächen bekommen keinen Riss: mehr Risse liest niemand."
        ));
    }
    notes
}
