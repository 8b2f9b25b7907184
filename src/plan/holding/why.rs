//! Why a mounting holds the work as it does: the holding itself, what lies under jaws or dog, what is poor about the place.

use super::decide::{EndHolding, NO_CENTER, OVERHANG_DIAMETERS};
use super::grip::Held;
use super::mountings::out_of_jaws;
use crate::language::Message;
use crate::model::part::Holding;
use crate::model::plan::{Setup, Why};
use crate::plan::derive::{Layout, Shape};
use crate::plan::rules::because;
use crate::unit::Unit;
use crate::{tell, told};

/// The reasons of a mounting that holds a place.
pub(super) fn reasons(layout: &Layout, holding: &EndHolding, how: Holding, held: &Held, turns: bool) -> Vec<Why> {
    let mut why = Vec::new();
    if turns {
        why.push(own(layout, holding, how, held));
    }
    let dog = how == Holding::BetweenCenters;
    if matches!(how, Holding::Chuck | Holding::ChuckAndRest) && !turns {
        why.push(because(
            "R1",
            tell!(
                "the {} end must stand free to be faced and centered",
                "das {}ende muss zum Plandrehen und Zentrieren frei stehen",
                holding.end.said()
            ),
        ));
    }
    if matches!(how, Holding::Chuck | Holding::ChuckAndCenter)
        && layout.is_short()
        && layout.parted != Some(holding.end)
    {
        let reason = told!(
            "no longer than it is wide: its face lies against the steps of the jaws, turned round where the rim asks for it, and so a short grip holds it, with light cuts",
            "nicht länger als breit: die Planfläche liegt an den Stufen der Backen an, die umgedreht werden, wo der Rand es verlangt; so reicht kurzes Fassen, mit leichten Schnitten"
        );
        why.push(because("short-work", reason));
    }
    why.push(under(layout, held, if dog { told!("dog", "Drehherz") } else { told!("jaws", "Backen") }));
    if held.poor && dog {
        why.push(because(
            "grip-short",
            told!(
                "a poor place for a dog: a split nut or bush under its screw, and light cuts",
                "hier sitzt ein Drehherz schlecht: geschlitzte Mutter oder Buchse unter die Schraube, leichte Schnitte"
            ),
        ));
    } else if held.poor && !held.grip.roughed && on_a_blank(layout, held) {
        why.push(because(
            "grip-short",
            told!(
                "nothing plain is long enough to hold by: a thread is screwed into a threaded bush or split nut, a knurl goes into soft jaws or under copper; light cuts",
                "nichts Glattes ist lang genug zum Spannen: ein Gewinde in Gewindebuchse oder geschlitzte Mutter schrauben, ein Rändel in weiche Backen oder unter Kupfer; leichte Schnitte"
            ),
        ));
    } else if held.poor {
        why.push(because(
            "grip-short",
            told!(
                "a poor place to hold: a split bush or soft jaws, and light cuts",
                "hier lässt sich schlecht spannen: geschlitzte Buchse oder weiche Backen, leichte Schnitte"
            ),
        ));
    }
    why
}

/// Why the end is held so; on a center where the chuck alone would do, that the plan takes no longer by it.
fn own(layout: &Layout, holding: &EndHolding, how: Holding, held: &Held) -> Why {
    let centered = matches!(how, Holding::ChuckAndCenter | Holding::BetweenCenters);
    if !centered || !holding.why.reason.ends_with(NO_CENTER.say()) {
        return holding.why.clone();
    }
    // What is held may be thinner, or farther away, than the bar that the chuck alone would carry.
    let out = out_of_jaws(layout, holding.end, held);
    if how == Holding::ChuckAndCenter && held.section.is_some() && out > held.grip.diameter.times(OVERHANG_DIAMETERS) {
        let diameters = out.to_f64(Unit::Millimetre) / held.grip.diameter.to_f64(Unit::Millimetre);
        return because("overhang", wants_a_center(diameters));
    }
    because(
        "overhang",
        told!(
            "the chuck alone would carry it too: held so, the whole plan takes no longer",
            "das Futter allein trüge es auch: so gespannt dauert der ganze Plan nicht länger"
        ),
    )
}

pub(super) fn wants_a_center(diameters: f64) -> String {
    let out = OUT_OF_JAWS.say();
    tell!(
        "{diameters:.1}{out}: more than three want a center",
        "{diameters:.1}{out}: mehr als drei brauchen eine Spitze"
    )
}

fn on_a_blank(layout: &Layout, held: &Held) -> bool {
    held.section.and_then(|f| layout.section(f)).is_some_and(|s| s.shape == Shape::Blank)
}

/// What lies under jaws or dog.
fn under(layout: &Layout, held: &Held, tool: &str) -> Why {
    match (held.section, held.grip.protect) {
        (Some(_), false) if held.grip.roughed => because(
            "R25",
            tell!(
                "{tool} on {} as it is roughed: the finish takes the marks away",
                "{tool} auf {}, wie es geschruppt ist: das Schlichten nimmt die Druckstellen mit",
                held.grip.letter
            ),
        ),
        (Some(_), _) => {
            let turned = layout.sections.iter().any(|s| s.letter == held.grip.letter && s.is_turned());
            let surface = if turned { told!("finished", "fertig") } else { told!("kept", "die der Stange") };
            because(
                "R25",
                tell!(
                    "{tool} on {}, over copper: its surface is {surface}",
                    "{tool} auf {}, über Kupfer: die Oberfläche ist {surface}",
                    held.grip.letter
                ),
            )
        }
        (None, true) => because(
            "R25",
            tell!(
                "{tool} on the bar, over copper where its own surface stays",
                "{tool} auf der Stange, über Kupfer, wo ihre Oberfläche bleibt"
            ),
        ),
        (None, false) => because(
            "R25",
            tell!(
                "{tool} on bar that is still to be turned, so no mark matters",
                "{tool} auf Stange, die noch gedreht wird: Druckstellen schaden nicht"
            ),
        ),
    }
}

/// A slot or hole is no place for jaws.
pub(super) fn not_over_a_slot(letter: &str) -> String {
    tell!("{letter} is not gripped over a slot or hole", "{letter} wird nicht über einer Nut oder Bohrung gespannt")
}

/// What is held must be to size.
pub(super) fn once_to_size(letter: &str) -> String {
    tell!("{letter} is held once it is to size", "an {letter} wird erst gespannt, wenn es auf Maß ist")
}

/// An end that is still bar.
pub(super) fn off_the_bar() -> &'static str {
    told!(
        "this end is reached once the part is off the bar",
        "dieses Ende ist erst frei, wenn das Teil von der Stange ist"
    )
}

/// Nothing is held after it.
pub(super) fn part_off_last() -> &'static str {
    told!("part off last in this holding", "zuletzt in dieser Aufspannung abgestochen")
}

/// A center wants its hole, and faces to stand between.
pub(super) fn centered_first(end: &str) -> String {
    tell!(
        "the {end} end is faced and centered before it runs on a center",
        "das {end}ende wird plangedreht und zentriert, bevor es auf einer Spitze läuft"
    )
}

/// The reason of a holding counts what stands out of these jaws, on what they hold: the stick-out that the sheet tells.
pub(in crate::plan) fn tell_stick_out(setup: &mut Setup) {
    let Some((out, grip)) = setup.stick_out.zip(setup.grip.as_ref()) else { return };
    let diameters = out.mm() / grip.diameter.mm().max(f64::MIN_POSITIVE);
    for why in setup.why.iter_mut().filter(|w| w.rule == "overhang") {
        if let Some((_, rest)) = why.reason.split_once(OUT_OF_JAWS.say()) {
            why.reason = format!("{diameters:.1}{}{rest}", OUT_OF_JAWS.say());
        }
    }
}

/// What follows the number of diameters in a holding's reason.
pub(super) const OUT_OF_JAWS: Message =
    Message { english: " diameters out of the jaws", german: " Durchmesser aus den Backen" };
