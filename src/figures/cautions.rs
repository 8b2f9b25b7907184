//! The cautions a part earns: those of its own work first, about six in all.
//!
//! Own wording of usual rules: US Navy shop rules, school lathe rules, machine-guarding law (29 CFR 1910.212), the Ontario labour
//! ministry's alert on polishing entanglement. They defer to the shop's rules, local law and training.

use super::given::{Given, at_tailstock};
use super::speed::material;
use super::{Figure, Job, OperationFigures};
use crate::check::holding::bar_whip;
use crate::handbook::eccentric;
use crate::handbook::material::Caution;
use crate::model::Workholder;
use crate::model::part::Holding;
use crate::model::plan::{Operation, Setup, Verb};
use crate::{tell, told};

/// Printed under the cautions.
pub fn defer() -> &'static str {
    told!(
        "Follow your shop’s rules and local law; this sheet does not replace training.",
        "Werkstattregeln und örtliches Recht befolgen; dieses Blatt ersetzt keine Ausbildung."
    )
}

/// How many are printed.
const MOST: usize = 8;

/// Faster than any spindle that no shop file tells of (common practice, no source).
const UNGEARED_RPM: f64 = 5_000.0;

/// The cautions of a plan.
pub(super) fn cautions(given: &Given, done: &[(&Setup, &Operation, &OperationFigures)]) -> Vec<String> {
    let mut list = Vec::new();
    list.extend(super::bar::heavy(given));
    let throws = done.iter().filter_map(|(s, _, _)| s.by.throw()).filter_map(eccentric::most_rpm);
    list.extend(throws.reduce(f64::min).map(super::thrown::caution));
    list.extend(bar_behind(given, done));
    list.extend(fast_rim(given, done));
    list.extend(of_material(given));
    list.extend(corners(given, done));
    list.extend(threading(given, done));
    list.extend(of_verbs(done));
    list.extend(of_holdings(done));
    let always: Vec<&str> = chuck_key(done)
        .into_iter()
        .chain([
            told!(
                "Spindle stopped and still before you measure, wipe or change gears.",
                "Spindel steht still, bevor gemessen, gewischt oder geschaltet wird."
            ),
            told!(
                "No gloves, rings or loose sleeves. Eye cover. Hook or brush for swarf.",
                "Keine Handschuhe, Ringe, losen Ärmel. Schutzbrille. Späne mit Haken oder Pinsel."
            ),
        ])
        .collect();
    list.truncate(MOST - always.len());
    list.extend(always.into_iter().map(str::to_owned));
    list
}

/// Of whatever is held in a chuck.
fn chuck_key(done: &[(&Setup, &Operation, &OperationFigures)]) -> Option<&'static str> {
    let chucks = [Holding::Chuck, Holding::ChuckAndCenter, Holding::ChuckAndRest];
    let keyed = |s: &Setup| chucks.contains(&s.holding) && !matches!(s.by, Workholder::Collet(_));
    done.iter().any(|(s, _, _)| keyed(s)).then_some(told!(
        "Chuck key never left in the chuck. One turn by hand before power.",
        "Futterschlüssel nie im Futter stecken lassen. Erst eine Umdrehung von Hand."
    ))
}

/// Rim of the bar from which its speed is warned of: 15 m/s, some half of what is marked on chucks of that size (common practice, no source).
const FAST_RIM: f64 = 15.0;

/// A large bar that goes round fast, whatever small thing is cut at it.
fn fast_rim(given: &Given, done: &[(&Setup, &Operation, &OperationFigures)]) -> Option<String> {
    let bar = given.part.stock.as_ref()?.size.nominal;
    let told = |(_, op, of): &(&Setup, &Operation, &OperationFigures)| {
        let speed = of.speed.as_ref().filter(|_| !matches!(op.verb, Verb::Mill))?;
        Some(speed.gear.map_or(speed.wanted, f64::from))
    };
    let turned = done.iter().filter(|(s, _, _)| at_tailstock(s).is_some());
    let rpm = turned.filter_map(told).reduce(f64::max)?;
    let rim = std::f64::consts::PI * bar.mm() / 1000.0 * rpm / 60.0;
    (rim >= FAST_RIM).then(|| {
        tell!(
            "Ø {} at {rpm:.0} rpm: never above the speed marked on the chuck; jaws on their full length, guard down, stand out of its plane.",
            "Ø {} bei {rpm:.0} U/min: nie über die Drehzahl, die auf dem Futter steht; Backen auf ganzer Länge, Schutz unten, nicht in der Drehebene stehen.",
            Figure::usual(bar, given.unit).text(given.unit)
        )
    })
}

/// The lathe's top speed.
pub(super) fn fastest(given: &Given) -> f64 {
    given.shop.and_then(|s| s.speeds.iter().max()).map_or(UNGEARED_RPM, |g| f64::from(*g))
}

/// A bar that hangs out behind the spindle.
fn bar_behind(given: &Given, done: &[(&Setup, &Operation, &OperationFigures)]) -> Option<String> {
    let facts = given.facts();
    let allowed =
        done.iter().filter_map(|(s, _, _)| bar_whip::behind(&facts, s)).map(|w| w.allowed).reduce(f64::min)?;
    // A stub that no gear could whip needs no word.
    if allowed > fastest(given) {
        return None;
    }
    let rpm = format!("{:.0}", allowed.floor());
    Some(tell!(
        "Bar out of the spindle’s rear: never above {rpm} rpm, its end carried and fenced, nobody in line with its sweep.",
        "Stange steht hinten aus der Spindel: nie über {rpm} U/min, Ende gestützt und abgesperrt, niemand in ihrem Schwenkbereich."
    ))
}

/// A bar with corners is cut into by blows until it is round.
fn corners(given: &Given, done: &[(&Setup, &Operation, &OperationFigures)]) -> Option<String> {
    let stock = given.part.stock.as_ref().filter(|s| s.shape.has_corners())?;
    let cut = done.iter().any(|(_, o, _)| !o.inside && matches!(o.verb, Verb::Rough | Verb::Turn | Verb::Face));
    let shown = |l| super::Figure::usual(l, given.unit).text(given.unit);
    cut.then(|| {
        tell!("Interrupted cut down to {}: corners swing {}; slow, tough tool, locked tool post, shield down, stand clear of its plane.", "Unterbrochener Schnitt bis {}: Kanten schlagen {}; langsam, zäher Stahl, Halter fest, Schutz unten, nicht in der Drehebene stehen.",
            shown(stock.size.nominal),
            shown(stock.across_corners())
        )
    })
}

fn of_material(given: &Given) -> Vec<String> {
    let found = material(given).map(|m| m.material.cautions).unwrap_or_default();
    found.into_iter().map(|c: Caution| c.sentence().to_owned()).collect()
}

fn threading(given: &Given, done: &[(&Setup, &Operation, &OperationFigures)]) -> Vec<String> {
    let threads: Vec<(&OperationFigures, &super::ThreadCut)> = done
        .iter()
        .filter_map(|(_, _, f)| match &f.job {
            Job::Thread(thread) => Some((*f, thread.as_ref())),
            _ => None,
        })
        .collect();
    let mut list = Vec::new();
    if let Some((figures, thread)) = threads.iter().find(|(_, t)| t.relief.is_some() && t.right_hand) {
        let speed = figures.speed.as_ref().and_then(|s| s.gear);
        let speed = speed.map_or(String::new(), |rpm| tell!("{rpm} rpm, ", "{rpm} U/min, "));
        let into = thread.relief_feature.map_or(told!("a run-out", "einen Auslauf").to_owned(), |f| given.spoken(f));
        list.push(tell!(
            "Thread to {into}: {speed}stop marked, rehearse once with the tool backed out.",
            "Gewinde bis {into}: {speed}Ende markiert, einmal mit zurückgezogenem Stahl üben."
        ));
    }
    if threads.iter().any(|(_, t)| t.dial.as_ref().is_some_and(|d| d.never_open)) {
        list.push(
            told!(
                "Half-nuts stay closed through the whole thread: back the tool out, stop, reverse.",
                "Schlossmutter bleibt das ganze Gewinde zu: Stahl zurück, halt, rückwärts."
            )
            .to_owned(),
        );
    }
    list
}

fn of_verbs(done: &[(&Setup, &Operation, &OperationFigures)]) -> Vec<String> {
    let any = |verb| done.iter().any(|(_, o, _)| o.verb == verb && !o.inside);
    let mut list = Vec::new();
    if done.iter().any(|(_, o, _)| o.inside && matches!(o.verb, Verb::Bore | Verb::Thread)) {
        list.push(
            told!(
                "Never a finger in a bore that turns: stop the spindle to feel or measure it.",
                "Nie ein Finger in die drehende Bohrung: zum Fühlen und Messen Spindel stillsetzen."
            )
            .to_owned(),
        );
    }
    if any(Verb::Polish) && (any(Verb::Mill) || any(Verb::Drill)) {
        list.push(
            told!(
                "Polish before the keyseat or hole is cut. Strip held at both ends, never wrapped.",
                "Polieren, bevor Nut oder Loch da ist. Band an beiden Enden halten, nie umwickeln."
            )
            .to_owned(),
        );
    } else if any(Verb::Polish) {
        list.push(
            told!(
                "Polishing strip held at both ends, fingers clear, never wrapped.",
                "Polierband an beiden Enden halten, Finger weg, nie umwickeln."
            )
            .to_owned(),
        );
    }
    if any(Verb::File) {
        list.push(
            told!(
                "File with a handle on it, left elbow high and clear of the chuck, slow speed.",
                "Feile mit Heft, linker Ellbogen hoch und weg vom Futter, langsam."
            )
            .to_owned(),
        );
    }
    if any(Verb::PartOff) {
        list.push(
            told!(
                "Parting off: carriage locked, nobody in line with the piece, no hand to catch it.",
                "Abstechen: Schlitten geklemmt, niemand in der Flugbahn, keine Hand zum Auffangen."
            )
            .to_owned(),
        );
    }
    let with_center = |(s, o): &(&Setup, &Operation)| o.verb == Verb::PartOff && s.holding == Holding::ChuckAndCenter;
    if done.iter().map(|(s, o, _)| (*s, *o)).any(|d| with_center(&d)) {
        list.push(
            told!(
                "Never part off with a center in the piece: it drops onto the tool. Draw the center back first.",
                "Nie abstechen, solange eine Spitze im Stück steckt: es fällt auf den Stahl. Erst die Spitze zurückziehen."
            )
            .to_owned(),
        );
    }
    if any(Verb::Mill) || any(Verb::Drill) {
        list.push(
            told!(
                "On the mill: work clamped, never held by hand; cutter stopped before you reach in.",
                "Beim Fräsen: gespannt, nie von Hand gehalten; Fräser steht, bevor du hingreifst."
            )
            .to_owned(),
        );
    }
    list
}

fn of_holdings(done: &[(&Setup, &Operation, &OperationFigures)]) -> Vec<String> {
    let any = |holding| done.iter().any(|(s, _, _)| s.holding == holding);
    let by = |wanted: fn(Workholder) -> bool| done.iter().any(|(s, _, _)| wanted(s.by));
    let mut list = Vec::new();
    if any(Holding::Mandrel) {
        list.push(told!("Mandrel: oiled, pressed in at its small end, cut toward its large end; light cuts, it only grips by taper.", "Drehdorn: geölt, am dünnen Ende eingedrückt, zum dicken hin drehen; leichte Schnitte, er hält nur durch Kegel.").to_owned());
    }
    if by(|w| matches!(w, Workholder::FourJaw | Workholder::Thrown(_))) {
        list.push(
            told!(
                "4-jaw chuck: no jaw stands out past its body; indicator off the work before the spindle turns.",
                "Vierbackenfutter: keine Backe steht über; Messuhr weg, bevor die Spindel läuft."
            )
            .to_owned(),
        );
    }
    if by(|w| w == Workholder::SoftJaws) {
        list.push(
            told!(
                "Soft jaws: close them on a ring to bore them, low speed; note their places for the next time.",
                "Weiche Backen: zum Ausdrehen auf einen Ring spannen, langsam; Plätze für das nächste Mal merken."
            )
            .to_owned(),
        );
    }
    if by(|w| matches!(w, Workholder::Collet(_))) {
        list.push(
            told!(
                "Collet: only its own size, clean, never closed empty; draw it up before the spindle turns.",
                "Spannzange: nur ihr Maß, sauber, nie leer spannen; anziehen, bevor die Spindel läuft."
            )
            .to_owned(),
        );
    }
    if by(|w| matches!(w, Workholder::SetOver(_))) {
        list.push(
            told!(
                "Tailstock set over: centers bear on their edge; oil, light cuts; prove it true again afterwards.",
                "Reitstock verstellt: Spitzen tragen an der Kante; ölen, leichte Schnitte; danach wieder ausrichten."
            )
            .to_owned(),
        );
    }
    if any(Holding::BetweenCenters) || any(Holding::Mandrel) {
        list.push(
            told!(
                "Dog: tail tied into the plate, screw head guarded. One turn by hand before power.",
                "Drehherz: Arm in der Scheibe gesichert, Schraubenkopf verdeckt. Erst eine Umdrehung von Hand."
            )
            .to_owned(),
        );
    }
    if any(Holding::ChuckAndRest) {
        list.push(
            told!(
                "Steady rest: bolted down, jaws locked, its top closed before the spindle turns.",
                "Lünette: festgeschraubt, Backen geklemmt, zugeklappt, bevor die Spindel läuft."
            )
            .to_owned(),
        );
    }
    if any(Holding::BetweenCenters) || any(Holding::ChuckAndCenter) {
        list.push(
            told!(
                "Oil a plain tailstock center; feel it again as the work warms.",
                "Feste Reitstockspitze ölen; nachfühlen, wenn das Werkstück warm wird."
            )
            .to_owned(),
        );
    }
    list
}
