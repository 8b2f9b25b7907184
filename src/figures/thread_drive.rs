//! What drives a thread: gearbox or wheels, thread dial, and how further starts are found. Exact fractions throughout.

use super::given::Given;
use super::{DialReading, Figure, dial, wheels};
use crate::handbook::thread_dial::{self, Lead};
use crate::model::Shop;
use crate::model::feature::Thread;
use crate::model::shop::StartIndex;
use crate::plan::run_out;
use crate::unit::{Length, Unit, show};
use crate::{tell, told};

/// Where the half-nuts may be closed again.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Engage {
    /// At every thread of the leadscrew.
    pub anywhere: bool,
    /// Lines, counted 1 to the number of marks around the dial; empty when the half-nuts stay closed.
    pub lines: Vec<u32>,
    /// What is engraved at those lines.
    pub labels: Vec<String>,
    /// The half-nuts are never opened: reverse the lathe.
    pub never_open: bool,
    /// In words: `anywhere`, `any mark`, `marks 1, 2, 3, 4`, `never open the half-nuts: reverse the spindle`.
    pub says: String,
}

/// Whether the gearbox or the wheels give the lead.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Gearbox {
    /// The gearbox has it; how it is set (`18 tpi`, `1.5 mm`).
    Listed(String),
    /// Change gears give it exactly, from the spindle to the leadscrew.
    Wheels(String),
    /// Change gears give it nearly; the train, and by how much the lead is off over the length of a nut.
    Nearly {
        /// The train.
        train: String,
        /// Error over one diameter of thread, positive when the thread comes out long.
        error: Figure,
    },
    /// Neither the gearbox nor the wheels give it; what is wanted.
    NotListed(String),
    /// The shop file lists neither; what is wanted.
    Unknown(String),
}

impl Gearbox {
    /// As the sheet prints it.
    pub fn says(&self, unit: Unit) -> String {
        match self {
            Self::Listed(set) => set.clone(),
            Self::Wheels(train) => tell!("wheels {train}", "Wechselräder {train}"),
            Self::Nearly { train, error } => {
                tell!(
                    "wheels {train}, not exact: {} over the length of a nut",
                    "Wechselräder {train}, nicht genau: {} auf die Länge einer Mutter",
                    error.text(unit)
                )
            }
            Self::NotListed(wanted) => tell!("{wanted} is not in the gearbox", "{wanted} hat das Getriebe nicht"),
            Self::Unknown(wanted) => tell!("set {wanted}", "{wanted} einstellen"),
        }
    }
}

/// How further starts are found.
#[derive(Debug, Clone, PartialEq)]
pub struct Indexing {
    /// Starts.
    pub starts: u8,
    /// Axial distance from one start to the next.
    pub shift: Figure,
    /// The same on the compound's dial, set along the axis.
    pub dial: Option<DialReading>,
    /// Where the change wheels are known and the first divides: teeth it goes on from start to start, of so many.
    pub teeth: Option<(u32, u32)>,
    /// For each further start the dial lines that begin it, where the thread dial is used.
    pub lines: Vec<Vec<u32>>,
    /// What to do.
    pub says: String,
}

/// The exact lead of a thread.
fn lead(thread: &Thread) -> Lead {
    run_out::exact_lead(thread.tpi, thread.starts, thread.lead)
}

/// Where the half-nuts may be closed; none where the shop file does not tell of a leadscrew.
pub(super) fn engage(given: &Given, thread: &Thread) -> Option<Engage> {
    let shop = given.shop?;
    let found = run_out::engagement(shop, lead(thread))?;
    let Some(own) = &shop.thread_dial else {
        let anywhere = found.anywhere;
        let says = if anywhere {
            told!("anywhere", "an jeder Stelle einrücken").to_owned()
        } else {
            told!(
                "no thread dial: never open the half-nuts, reverse the spindle",
                "keine Gewindeuhr: Schlossmutter nie öffnen, Spindel umkehren"
            )
            .to_owned()
        };
        return Some(Engage { anywhere, lines: Vec::new(), labels: Vec::new(), never_open: !anywhere, says });
    };
    let labels = thread_dial::labels(&own.engraved.join(" "), own.marks, &found.lines);
    let says = if found.anywhere {
        told!("anywhere", "an jeder Stelle einrücken").to_owned()
    } else if found.never_open {
        told!("never open the half-nuts: reverse the spindle", "Schlossmutter nie öffnen: Spindel umkehren").to_owned()
    } else if found.lines.len() as u32 == own.marks {
        told!("any mark", "jeder Strich").to_owned()
    } else {
        in_words(&found.lines, &own.engraved, own.marks)
    };
    Some(Engage { anywhere: found.anywhere, lines: found.lines, labels, never_open: found.never_open, says })
}

/// Lines as they are engraved; one without a figure by its neighbour: `1, 3`, `the line after 2`.
fn in_words(lines: &[u32], engraved: &[String], marks: u32) -> String {
    let figure = |line: u32| engraved.get((line % marks) as usize).filter(|e| e.as_str() != "-");
    let mut words: Vec<String> = lines
        .iter()
        .map(|line| {
            let before = (1..marks).find_map(|back| figure((line + marks - back) % marks).map(|f| (back, f)));
            match (figure(*line), before) {
                (Some(f), _) => f.clone(),
                (None, Some((1, f))) => tell!("the line after {f}", "der Strich nach {f}"),
                (None, Some((n, f))) => tell!("{n} lines after {f}", "{n} Striche nach {f}"),
                (None, None) => tell!("line {line}", "Strich {line}"),
            }
        })
        .collect();
    // The last line is also the first of the dial.
    if lines.last() == Some(&marks) {
        words.rotate_right(1);
    }
    let words_list = words.join(", ");
    if words.len() == 1 {
        tell!("mark {words_list} only", "nur Strich {words_list}")
    } else {
        tell!("marks {words_list} only", "nur Striche {words_list}")
    }
}

/// The lead as a gearbox is set: threads of lead to the inch, or millimetres.
fn wanted(thread: &Thread) -> (Option<(i64, i64)>, String) {
    let starts = i64::from(thread.starts.max(1));
    match thread.tpi {
        Some((over, under)) if thread.inch => {
            let (n, d) = reduced(over, under * starts);
            (Some((n, d)), format!("{} tpi", mixed(n, d)))
        }
        _ => (None, format!("{} mm", show::exact(thread.lead, Unit::Millimetre, 0, 4))),
    }
}

fn reduced(n: i64, d: i64) -> (i64, i64) {
    let (mut a, mut b) = (n.abs(), d.abs());
    while b != 0 {
        (a, b) = (b, a % b);
    }
    let g = a.max(1);
    (n / g, d / g)
}

/// `18`, `11 1/2`, `2 1/2`.
fn mixed(n: i64, d: i64) -> String {
    let d = if d == 0 { 1 } else { d };
    match (n / d, n % d) {
        (whole, 0) => whole.to_string(),
        (0, rest) => format!("{rest}/{d}"),
        (whole, rest) => format!("{whole} {rest}/{d}"),
    }
}

/// How long the nut is that the part carries on a thread; a diameter where nobody says.
fn nut_length(given: &Given, thread: &Thread) -> Length {
    let own = |f: &&crate::model::Feature| matches!(&f.kind, crate::model::Kind::Thread { thread: t, .. } if std::ptr::eq(t.as_ref(), thread));
    let carried = given.part.features.iter().find(own).into_iter().flat_map(|f| &f.carries);
    let wide = carried.filter_map(|c| c.wide.as_ref()).map(|w| w.nominal).max();
    wide.filter(|w| w.is_positive()).unwrap_or(thread.nominal)
}

/// How the lathe gets the lead; none without a shop file.
pub(super) fn gearbox(given: &Given, thread: &Thread) -> Option<Gearbox> {
    let shop = given.shop?;
    let (tpi, text) = wanted(thread);
    let listed = match tpi {
        Some((n, d)) => shop.tpi.iter().any(|(over, under)| over * d == n * under),
        None => shop.pitches.contains(&thread.lead),
    };
    if listed {
        return Some(Gearbox::Listed(text));
    }
    if let Some(screw) = run_out::leadscrew(shop).filter(|_| !shop.change_gears.is_empty()) {
        let nut = nut_length(given, thread);
        return Some(match own_train(shop, screw, thread) {
            Some(found) if found.exact => Gearbox::Wheels(found.text()),
            Some(found) => {
                let off = Length::from_f64(nut.mm() * found.relative_error, Unit::Millimetre);
                Gearbox::Nearly { train: found.text(), error: Figure::fine(off, given.unit) }
            }
            None => Gearbox::NotListed(text),
        });
    }
    let nothing = shop.tpi.is_empty() && shop.pitches.is_empty();
    Some(if nothing { Gearbox::Unknown(text) } else { Gearbox::NotListed(text) })
}

/// The change wheels of a thread: where its starts are found by gear, a train whose first wheel divides by them, if there is one as good.
fn own_train(shop: &Shop, screw: Lead, thread: &Thread) -> Option<wheels::Train> {
    let (lead, screw, starts) = (lead(thread).length(), screw.length(), u32::from(thread.starts.max(1)));
    let any = wheels::train(lead, screw, &shop.change_gears)?;
    let by_gear = starts > 1 && (shop.start_index == Some(StartIndex::Gear) || dial_fails(shop, thread));
    let divided = wheels::divided(lead, screw, &shop.change_gears, starts).filter(|t| by_gear && t.exact == any.exact);
    Some(divided.unwrap_or(any))
}

/// The first wheel of the train that cuts a thread, where wheels cut it and not the gearbox.
fn first_wheel(given: &Given, thread: &Thread) -> Option<u32> {
    let shop = given.shop.filter(|s| !s.change_gears.is_empty())?;
    let by_wheels = matches!(gearbox(given, thread)?, Gearbox::Wheels(_) | Gearbox::Nearly { .. });
    own_train(shop, run_out::leadscrew(shop)?, thread).filter(|_| by_wheels)?.drivers.first().copied()
}

/// How further starts are found, for a thread that has them.
pub(super) fn indexing(given: &Given, thread: &Thread) -> Option<Indexing> {
    if thread.starts < 2 {
        return None;
    }
    let way = given.shop.and_then(|s| s.start_index);
    let shift = Figure::fine(thread.pitch, given.unit);
    let step = shift.text(given.unit);
    let fails = given.shop.is_some_and(|s| dial_fails(s, thread));
    let on_dial = given.shop.filter(|_| way == Some(StartIndex::Dial) && !fails);
    let mut lines = on_dial.map(|s| start_lines(s, thread)).unwrap_or_default();
    let by_gear = first_wheel(given, thread).filter(|_| fails || way == Some(StartIndex::Gear));
    let starts = u32::from(thread.starts);
    let teeth = by_gear.filter(|wheel| wheel.is_multiple_of(starts)).map(|wheel| (wheel / starts, wheel));
    let by_compound = way == Some(StartIndex::Compound) || (fails && teeth.is_none());
    let dial = dial::compound(thread.pitch, given.shop, given.unit).filter(|_| by_compound);
    let first = if lines.is_empty() { Vec::new() } else { lines.remove(0) };
    let says = match way {
        Some(StartIndex::Compound) => {
            let by = dial.map_or(step, |d| on_its_dial(given, &d));
            tell!(
                "set the compound along the axis; after each start advance it {by}, always the same way, and cut the next to the same depth",
                "den Oberschlitten längs zur Achse stellen; nach jedem Gang {by} weiterdrehen, immer im gleichen Sinn, und den nächsten gleich tief schneiden"
            )
        }
        Some(StartIndex::Dial) if fails => {
            let instead = teeth.map_or_else(|| straight_in(&dial.map_or(step, |d| on_its_dial(given, &d))), by_teeth);
            tell!(
                "no line of the thread dial finds the others; {instead}",
                "kein Strich der Gewindeuhr trifft die anderen Gänge; {instead}"
            )
        }
        Some(StartIndex::Dial) => {
            let own = given.shop.and_then(|s| s.thread_dial.as_ref());
            let at = |l: &[u32]| own.map(|d| in_words(l, &d.engraved, d.marks)).unwrap_or_default();
            let each = lines.iter().zip(2..).map(|(l, start)| tell!("start {start} at {}", "Gang {start}: {}", at(l)));
            let each = each.collect::<Vec<_>>().join("; ");
            tell!("start 1 at {}; {each}", "Gang 1: {}; {each}", at(&first))
        }
        Some(StartIndex::Gear) if teeth.is_some() => by_teeth(teeth.unwrap_or_default()),
        Some(StartIndex::Gear) => tell!(
            "with the half-nuts closed, open the train at the spindle gear and turn the spindle 1/{} of a turn: its teeth must divide by {}",
            "Schlossmutter zu, am Spindelrad ausrücken und die Spindel um 1/{} Umdrehung weiterdrehen: seine Zähnezahl muss durch {} teilbar sein",
            thread.starts,
            thread.starts
        ),
        Some(StartIndex::None) | None => {
            tell!(
                "the next start lies {step} along: say in the shop file how starts are indexed",
                "der nächste Gang liegt {step} weiter: in der Werkstattdatei angeben, wie geteilt wird"
            )
        }
    };
    Some(Indexing { starts: thread.starts, shift, dial, teeth, lines, says })
}

/// Where the dial fails and no wheel divides. The compound then lies along the axis, so it cannot feed at half of the thread's angle.
fn straight_in(by: &str) -> String {
    tell!(
        "set the compound along the axis and feed straight in by the cross dial; after each start advance the compound {by}, always the same way, and cut the next to the same depth",
        "den Oberschlitten längs zur Achse stellen und mit dem Planschlitten gerade zustellen; nach jedem Gang den Oberschlitten {by} weiterdrehen, immer im gleichen Sinn, und den nächsten gleich tief schneiden"
    )
}

/// Whether the shop finds its starts by the thread dial and one of this thread's has no line there.
fn dial_fails(shop: &Shop, thread: &Thread) -> bool {
    let lines = || start_lines(shop, thread);
    shop.start_index == Some(StartIndex::Dial) && !(lines().len() > 1 && lines().iter().all(|l| !l.is_empty()))
}

/// F. D. Jones, Turning and Boring (1914), multiple threads: a stud gear of 96 teeth goes on by 48 for a double thread.
fn by_teeth((on, of): (u32, u32)) -> String {
    tell!(
        "half-nuts closed: chalk the tooth in mesh of the first wheel, {of} teeth, and its gap; out of mesh, spindle on by {on} of its {of} teeth, in again. It must turn as often as the spindle",
        "Schlossmutter zu: am ersten Rad, {of} Zähne, den Zahn im Eingriff und seine Lücke ankreiden; ausrücken, Spindel um {on} seiner {of} Zähne weiter, einrücken. Es muss sich so oft drehen wie die Spindel"
    )
}

/// `.200 on its dial: 2 turns`, `5.00, 1 turn and 20 divisions`.
fn on_its_dial(given: &Given, dial: &DialReading) -> String {
    let (turns, divisions) = (dial.turns, dial.divisions);
    let count = |n: i64, one: &str, many: &str| format!("{n} {}", if n == 1 { one } else { many });
    let whole = count(turns, told!("turn", "Umdrehung"), told!("turns", "Umdrehungen"));
    let rest = count(divisions, told!("division", "Teilstrich"), told!("divisions", "Teilstriche"));
    let said = match (turns, divisions) {
        (0, _) => rest,
        (_, 0) => whole,
        _ => tell!("{whole} and {rest}", "{whole} und {rest}"),
    };
    tell!("{} on its dial ({said})", "{} auf seiner Skale ({said})", dial.text(given.unit))
}

/// For the first and each further start the lines at which the half-nuts close a whole number of pitches, and that many starts, further on.
fn start_lines(shop: &Shop, thread: &Thread) -> Vec<Vec<u32>> {
    let (Some(screw), Some(own)) = (run_out::leadscrew(shop), &shop.thread_dial) else { return Vec::new() };
    let screw = i128::from(screw.length().pm());
    let (pitch_n, pitch_d) = match thread.tpi {
        Some((over, under)) if over > 0 => (i128::from(Length::PER_INCH.pm()) * i128::from(under), i128::from(over)),
        _ => (i128::from(thread.pitch.pm()), 1),
    };
    let (teeth, marks, starts) = (i128::from(own.teeth), i128::from(own.marks), i128::from(thread.starts));
    let lies_on = |line: i128, start: i128| {
        let threads = teeth * line;
        let travel = threads / marks.max(1) * screw * pitch_d;
        threads % marks.max(1) == 0 && travel % pitch_n == 0 && (travel / pitch_n) % starts == start
    };
    (0..starts).map(|start| (1..=own.marks).filter(|line| lies_on(i128::from(*line), start)).collect()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_named_as_they_are_engraved() {
        let engraved: Vec<String> = "1 - 2 - 3 - 4 -".split(' ').map(str::to_owned).collect();
        assert_eq!(in_words(&[2, 4, 6, 8], &engraved, 8), "marks 1, 2, 3, 4 only");
        assert_eq!(in_words(&[4, 8], &engraved, 8), "marks 1, 3 only");
        assert_eq!(in_words(&[8], &engraved, 8), "mark 1 only");
        assert_eq!(in_words(&[3], &engraved, 8), "mark the line after 2 only");
    }

    #[test]
    fn threads_to_the_inch_of_a_lead() {
        assert_eq!(reduced(23, 2), (23, 2));
        assert_eq!(mixed(23, 2), "11 1/2");
        assert_eq!(reduced(5, 2), (5, 2));
        assert_eq!(mixed(5, 2), "2 1/2");
        assert_eq!(mixed(18, 1), "18");
    }
}
