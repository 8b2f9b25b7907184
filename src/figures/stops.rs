//! Where to stop: to let the work cool, and to try the mates before it leaves its mounting.

use super::OperationFigures;
use super::given::Given;
use crate::handbook::heat;
use crate::language::{self, Language};
use crate::model::part::Holding;
use crate::model::plan::{Operation, Setup, Verb};
use crate::model::{End, Kind};
use crate::unit::{Length, Unit, show};
use crate::{tell, told};

/// Adds the stops of a mounting.
pub(super) fn add(given: &Given, setup: &Setup, operations: &mut [OperationFigures]) {
    let heats = |o: &Operation| matches!(o.verb, Verb::Rough | Verb::Finish | Verb::Turn | Verb::Thread | Verb::Groove);
    let first_close = setup.operations.iter().position(|o| o.close);
    if let Some(i) = first_close.filter(|i| setup.operations[..*i].iter().any(heats))
        && let Some(figures) = operations.get_mut(i)
    {
        let hot = hot(given, figures.aim.map(|a| a.value)).unwrap_or_default();
        let cool = told!("Let it cool until it feels cold.", "Abkühlen lassen, bis es sich kalt anfühlt.");
        figures.stop_before = Some(format!("{cool}{hot}"));
    }
    super::indicated::stops(setup, operations);
    let (mates, tight) = mates(given, setup);
    // A mate is tried when its edge is broken too: after the last cut of the mounting.
    let cuts = |o: &Operation| heats(o) || matches!(o.verb, Verb::Polish | Verb::Taper | Verb::Chamfer | Verb::File);
    let last = setup.operations.iter().rposition(cuts);
    if let Some(figures) = last.and_then(|i| operations.get_mut(i)).filter(|_| !mates.is_empty() || !tight.is_empty()) {
        let tried = listed(&mates);
        let not = not_tried(&tight);
        if mates.is_empty() {
            figures.stop_after = Some(not);
            return;
        }
        let says = match setup.holding {
            Holding::BetweenCenters => tell!(
                "Leave the dog on. Lift out, try {tried}, put back.",
                "Drehherz bleibt dran. Herausheben, {tried} probieren, wieder einlegen."
            ),
            Holding::ChuckAndCenter => tell!(
                "Do not unchuck yet: draw the center back, try {tried}.",
                "Noch nicht ausspannen: Spitze zurück, {tried} probieren."
            ),
            _ => tell!("Do not unchuck yet: try {tried} first.", "Noch nicht ausspannen: erst {tried} probieren."),
        };
        figures.stop_after = Some(format!("{says} {not}").trim_end().to_owned());
    }
}

/// Cool before the finish cut of an extremely close size: NAVEDTRA 14345, US Army OD1645 p. 62. Neither prints degrees.
/// Degrees above the gauge that a hand hardly feels: 17 K, 30 °F (the check heat-growth's limit; common practice, no source).
const WARM: (f64, f64) = (17.0, 30.0);

/// How much larger it reads while it is still warm, where that shows on a micrometer.
fn hot(given: &Given, size: Option<Length>) -> Option<String> {
    let material = super::speed::material(given);
    let expansion = material.map_or(heat::STEEL, |m| heat::of(&m.material));
    let (rise, scale) = if given.unit == Unit::Inch { (WARM.1, "F") } else { (WARM.0, "C") };
    let grows = heat::growth(size?, rise, expansion, given.unit);
    let decimals = show::usual_decimals(given.unit) + 1;
    let step = show::step(given.unit, decimals);
    (grows >= step.half()).then(|| {
        let text = show::length(grows.max(step), given.unit, decimals);
        tell!(" {rise:.0} °{scale} warm it reads {text} large.", " {rise:.0} °{scale} warm zeigt es {text} zu viel.")
    })
}

/// What is tight on its seat is measured and not tried: it goes on by press or heat, and does not come off unharmed.
fn not_tried(tight: &[String]) -> String {
    if tight.is_empty() {
        return String::new();
    }
    tell!(
        "Measure only, do not try: {}, an interference fit.",
        "Nur messen, nicht probieren: {}, Übermaß.",
        listed(tight)
    )
}

/// What goes on from the end at the tailstock over the sections finished here: what is tried, and what is too tight for that.
fn mates(given: &Given, setup: &Setup) -> (Vec<String>, Vec<String>) {
    let tight: Vec<_> = super::mates::mates(given).into_iter().filter(|m| !m.is_tried()).collect();
    let mut measured: Vec<String> = Vec::new();
    let finished = |id: usize| {
        setup.operations.iter().any(|o| {
            matches!(o.verb, Verb::Finish | Verb::Turn | Verb::Thread | Verb::Taper)
                && (o.feature == Some(id) || o.with.contains(&id))
        })
    };
    let mut list: Vec<(String, u32)> = Vec::new();
    for feature in given.part.features.iter().filter(|f| finished(f.id)) {
        let enters = |end: Option<End>| end.is_none() || end == setup.works;
        let is_tight = |part: &str| tight.iter().any(|m| m.feature == feature.id && m.part == part);
        let mut names: Vec<String> = Vec::new();
        for carried in feature.carries.iter().filter(|c| enters(c.enters)) {
            let name = tell!("the {}", "{}", super::mate_word(&carried.part.text));
            if !is_tight(&carried.part.text) {
                names.push(name);
            } else if !measured.contains(&name) {
                measured.push(name);
            }
        }
        let cut = setup.operations.iter().any(|o| o.verb == Verb::Thread && o.feature == Some(feature.id));
        if let (true, true, Kind::Thread { thread, .. }) =
            (feature.carries.is_empty() || names.is_empty(), cut, &feature.kind)
        {
            // A taper pipe thread is judged by how far a ring gauge goes on, or by a fitting it is to screw into.
            names.push(match thread.taper {
                Some(_) => told!("the ring gauge or the fitting", "Ringlehre oder Fitting").to_owned(),
                None => told!("the nut", "die Mutter").to_owned(),
            });
        }
        for name in names {
            match list.iter_mut().find(|(known, _)| *known == name) {
                Some((_, count)) => *count += 1,
                None => list.push((name, 1)),
            }
        }
    }
    let tried = list.into_iter().map(|(name, count)| if count > 1 { plural(&name, count) } else { name }).collect();
    (tried, measured)
}

/// `the bearings`, `the bushes`; German counts them: `2 × Lager`.
fn plural(name: &str, count: u32) -> String {
    match language::now() {
        Language::German => format!("{count} \u{d7} {name}"),
        Language::English if name.ends_with(['s', 'x', 'z', 'h']) => format!("{name}es"),
        Language::English => format!("{name}s"),
    }
}

/// `the pulley and the nut`.
fn listed(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [head @ .., last] => tell!("{} and {last}", "{} und {last}", head.join(", ")),
    }
}
