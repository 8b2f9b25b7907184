//! Everything used that nobody stated, and which keys would say it.

use super::given::Given;
use super::speed::{overhangs, turning_speed};
use super::{Figure, Job, OperationFigures};
use crate::handbook::eccentric;
use crate::handbook::material::Tool;
use crate::model::plan::{Assumed, Operation, Setup, Verb};
use crate::model::{Kind, Plan};
use crate::plan::cutting::{SpeedFrom, named_material, share_of_own, speed_from, usual_feed};
use crate::plan::{DepthBy, rough_depth};
use crate::unit::{Length, Unit};
use crate::{tell, told};

fn practice() -> &'static str {
    told!("common practice", "Werkstattbrauch")
}

/// The plan's assumptions, then those of the figures.
pub(super) fn assumed(given: &Given, plan: &Plan, done: &[(&Setup, &Operation, &OperationFigures)]) -> Vec<Assumed> {
    let mut list: Vec<Assumed> = given
        .part
        .on_trust
        .iter()
        .map(|t| entry(told!("Taken on trust", "Ungeprüft übernommen"), t.text.clone(), ""))
        .collect();
    list.extend(plan.assumed.iter().cloned());
    list.extend(dials(given));
    list.extend(speeds(given, plan));
    list.extend(feeds(given));
    let (depth, by) = rough_depth(given.part, given.shop);
    let depth = Figure::usual(depth, given.unit).text(given.unit);
    match by {
        DepthBy::Hand | DepthBy::Stiffness => {}
        DepthBy::Practice => list.push(entry(
            told!("Rough cut", "Schruppschnitt"),
            tell!("at most {depth} a side", "höchstens {depth} je Seite"),
            practice(),
        )),
        DepthBy::Power => {
            let what = tell!(
                "at most {depth} a side: what 0.7 of the lathe's power drives",
                "höchstens {depth} je Seite: was 0,7 der Leistung der Maschine zieht"
            );
            list.push(entry(
                told!("Rough cut", "Schruppschnitt"),
                what,
                told!(
                    "specific cutting force of a tool maker's table",
                    "spezifische Schnittkraft nach der Tabelle eines Werkzeugherstellers"
                ),
            ));
        }
    }
    list.push(entry(
        told!("Aims", "Zielmaße"),
        told!("the middle of the limits", "die Mitte der Grenzmaße").to_owned(),
        practice(),
    ));
    list.extend(threads(given, done));
    list.extend(centers(given, done));
    list.extend(super::bar::assumed(given));
    list.extend(super::between_lines::between_lines(given, done));
    list.extend(out_of_balance(plan));
    list.extend(second_centers(plan));
    list.extend(super::bar::behind(given, plan));
    list.extend(overhung(given, plan));
    if mixed_units(given) {
        let other = if given.unit == Unit::Inch { "mm" } else { told!("inches", "Zoll") };
        list.push(entry(
            &tell!("Limits from {other}", "Grenzmaße aus {other}"),
            told!("rounded inward, never wider than asked", "nach innen gerundet, nie weiter als verlangt").to_owned(),
            "",
        ));
    }
    list
}

/// Center holes nobody gave a size.
fn centers(given: &Given, done: &[(&Setup, &Operation, &OperationFigures)]) -> Option<Assumed> {
    let mut sizes: Vec<String> = Vec::new();
    for (_, _, f) in done {
        if let Job::Center(c) = &f.job
            && let Some(across) = c.usual_for
        {
            let text = tell!("{} for Ø {}", "{} für Ø {}", c.size, across.text(given.unit));
            if !sizes.contains(&text) {
                sizes.push(text);
            }
        }
    }
    (!sizes.is_empty()).then(|| {
        let value = tell!(
            "{}, as the description has no `center hole`",
            "{}, da die Beschreibung kein `center hole` hat",
            sizes.join(", ")
        );
        entry(
            told!("Center holes", "Zentrierungen"),
            value,
            told!(
                "common practice, no source: the mouth about a quarter of the diameter",
                "Werkstattbrauch, ohne Quelle: die Mündung etwa ein Viertel des Durchmessers"
            ),
        )
    })
}

/// That second center holes may stay.
fn second_centers(plan: &Plan) -> Option<Assumed> {
    let drilled = plan.operations().any(|(_, o)| o.is_second_center());
    let value = told!(
        "stay in both ends of the finished part: ask whoever made the drawing, else leave end pieces on and cut them off last",
        "bleiben in beiden Enden des fertigen Teils: den Zeichner fragen, sonst Endstücke stehen lassen und zuletzt abschneiden"
    );
    drilled.then(|| {
        entry(
            told!("Second center holes", "Zweite Zentrierungen"),
            value.to_owned(),
            told!("common practice, no source", "Werkstattbrauch, ohne Quelle"),
        )
    })
}

/// Work that stands too far out of the jaws turns slower.
fn overhung(given: &Given, plan: &Plan) -> Option<Assumed> {
    let names: Vec<String> = plan.setups.iter().filter(|s| overhangs(given, s)).map(|s| s.number.to_string()).collect();
    let value = format!("half of the speed in setup {}: too far out of the jaws without a center", names.join(", "));
    (!names.is_empty()).then(|| entry("Overhang", value, "slower: US Army OD1645, p. 52; the half: common practice"))
}

/// How fast work that is thrown over may turn.
fn out_of_balance(plan: &Plan) -> Option<Assumed> {
    let slowest = plan.setups.iter().filter_map(|s| s.by.throw()).filter_map(eccentric::most_rpm).reduce(f64::min)?;
    let value = tell!(
        "no faster than {slowest:.0} rpm: its pull is then a quarter of its weight, e ω² = g / 4",
        "höchstens {slowest:.0} U/min: dann zieht es mit einem Viertel seines Gewichts, e ω² = g / 4"
    );
    Some(entry(
        told!("Out of balance", "Unwucht"),
        value,
        told!("the quarter: common practice, no source", "das Viertel: Werkstattbrauch, ohne Quelle"),
    ))
}

fn entry(what: &str, value: String, source: &str) -> Assumed {
    Assumed { what: what.to_owned(), value, source: source.to_owned() }
}

/// Dials that are not told: their numbers are left out, and these keys would bring them.
fn dials(given: &Given) -> Vec<Assumed> {
    let Some(shop) = given.shop else {
        return vec![entry(
            "Lathe",
            told!("no shop file: no cross-dial, thread-dial or gearbox number is printed, only sizes. The keys `cross dial`, `compound dial`, \
             `leadscrew`, `thread dial`, `threads` and `speeds` of a shop file bring them", "keine Werkstattdatei: keine Zahl für Planskale, Gewindeuhr oder Vorschubgetriebe wird gedruckt, nur Maße. Die Schlüssel `cross dial`, `compound dial`, `leadscrew`, `thread dial`, `threads` und `speeds` einer Werkstattdatei bringen sie")
                .to_owned(),
            "",
        )];
    };
    let mut list = Vec::new();
    if shop.cross_reads.is_none() || shop.cross_dial.is_none() {
        list.push(entry(
            told!("Cross dial", "Planskale"),
            told!(
                "not told, so no reading is printed: `cross dial` with `reads`, `division` and `turn`",
                "nicht angegeben, also wird kein Skalenwert gedruckt: `cross dial` mit `reads`, `division` und `turn`"
            )
            .to_owned(),
            "",
        ));
    }
    if shop.carriage_dial.is_none() {
        let shown = super::dial::indicator(Length::ZERO, given.shop, given.unit).map(|i| i.travel.text(given.unit));
        let value = match shown {
            Some(travel) => format!(
                "not told: lengths are read on the indicator on the bed, beyond {travel} on blocks of {travel}; else `carriage dial` with `division` and `turn`"
            ),
            None => "not told, and no indicator that goes far enough: lengths by a stop on the bed or the rule: `carriage dial`, or a \
                     `dial indicator` among the instruments"
                .to_owned(),
        };
        list.push(entry("Carriage dial", value, "a stop on the bed: US Army, OD1645"));
    }
    let threads = given.part.features.iter().any(|f| matches!(f.kind, Kind::Thread { .. }));
    if threads && shop.leadscrew_tpi.is_none() && shop.leadscrew_pitch.is_none() {
        list.push(entry(
            told!("Leadscrew", "Leitspindel"),
            told!(
                "not told, so no thread-dial line is printed: `leadscrew` and `thread dial`",
                "nicht angegeben, also wird kein Strich der Gewindeuhr gedruckt: `leadscrew` und `thread dial`"
            )
            .to_owned(),
            "",
        ));
    }
    if shop.speeds.is_empty() {
        list.push(entry(
            told!("Speeds", "Drehzahlen"),
            told!(
                "the lathe's gears are not told, so the wanted speed is printed: `speeds`",
                "die Gänge der Maschine sind nicht angegeben, also wird die gewünschte Drehzahl gedruckt: `speeds`"
            )
            .to_owned(),
            "",
        ));
    }
    list
}

fn speeds(given: &Given, plan: &Plan) -> Vec<Assumed> {
    let shown = |v: crate::handbook::speed::SurfaceSpeed| match given.unit {
        Unit::Inch => format!("{:.0} ft/min", v.in_unit(Unit::Inch)),
        Unit::Millimetre => format!("{:.0} m/min", v.in_unit(Unit::Millimetre)),
    };
    let rough = shown(turning_speed(given, false));
    let (value, source) = match speed_from(given.part, given.shop) {
        SpeedFrom::Hand(tool) => {
            let tool = if tool == Tool::Hss {
                told!("high-speed steel", "Schnellarbeitsstahl")
            } else {
                told!("carbide", "Hartmetall")
            };
            let share = share_of_own(given.part);
            let metal = if named_material(given.part).is_some() {
                told!("this metal", "dieses Metall")
            } else {
                told!("a metal that is not known", "ein unbekanntes Metall")
            };
            let percent = format!("{:.0} %", 100.0 * share);
            let slower = match share {
                s if s < 1.0 => tell!(
                    ": its own, slowed to {percent} for {metal}",
                    ": seine eigene, auf {percent} gebremst für {metal}"
                ),
                s if s > 1.0 => tell!(
                    ": its own for mild steel, raised to {percent} for {metal}",
                    ": seine eigene für Baustahl, auf {percent} erhöht für {metal}"
                ),
                _ => String::new(),
            };
            let source = if slower.is_empty() {
                ""
            } else {
                told!(
                    "in proportion to the listed speeds: practice",
                    "im Verhältnis der Tabellengeschwindigkeiten: Brauch"
                )
            };
            (
                tell!(
                    "every tool is {tool}, at the shop file's {rough}{slower}",
                    "jedes Werkzeug ist {tool}, mit {rough} aus der Werkstattdatei{slower}"
                ),
                source.to_owned(),
            )
        }
        SpeedFrom::Handbook(named) => {
            let finish = shown(turning_speed(given, true));
            let speeds = named.material.speeds(Tool::Hss, named.condition);
            (
                tell!(
                    "HSS in {} at {rough}, finishing {finish}",
                    "HSS in {} mit {rough}, Schlichten {finish}",
                    named.material.name
                ),
                speeds.source.line(),
            )
        }
        SpeedFrom::Slow => (
            tell!("HSS at {rough}: the material is not known", "HSS mit {rough}: der Werkstoff ist nicht bekannt"),
            crate::handbook::material::assumed_speeds(Tool::Hss).source.line(),
        ),
    };
    std::iter::once(entry(told!("Surface speed", "Geschwindigkeit"), value, &source))
        .chain(slower(given, plan))
        .collect()
}

/// Cuts of the plan that run slower than turning.
fn slower(given: &Given, plan: &Plan) -> Option<Assumed> {
    let does = |verb| plan.operations().any(|(_, o)| o.verb == verb);
    let quarter: Vec<&str> = [
        (Verb::Groove, told!("grooving", "Einstechen")),
        (Verb::Chamfer, told!("chamfering", "Fasen")),
        (Verb::Thread, told!("threading", "Gewinde")),
    ]
    .into_iter()
    .filter(|(verb, _)| does(*verb) && (*verb != Verb::Groove || !given.part.wishes.is_off("R26")))
    .map(|(_, word)| word)
    .collect();
    let quarter = (!quarter.is_empty()).then(|| tell!("{} at 1/4", "{} mit 1/4", quarter.join(", ")));
    let parting = does(Verb::PartOff).then(|| told!("parting at 1/2", "Abstechen mit 1/2").to_owned());
    let drilling = does(Verb::Drill).then(|| told!("drilling at 4/5", "Bohren mit 4/5").to_owned());
    let all: Vec<String> = quarter.into_iter().chain(parting).chain(drilling).collect();
    let told = (!all.is_empty()).then(|| tell!("{} of it", "{} davon", all.join(", ")))?;
    Some(entry(told!("Slower cuts", "Langsamere Schnitte"), told, practice()))
}

fn feeds(given: &Given) -> Option<Assumed> {
    if given.shop.is_some_and(|s| !s.feeds.is_empty()) {
        return None;
    }
    let shown =
        |verb| usual_feed(given.unit, verb).map_or(String::new(), |f| Figure::usual(f, given.unit).text(given.unit));
    let value = tell!(
        "rough {}, finish {} a turn",
        "Schruppen {}, Schlichten {} je Umdrehung",
        shown(Verb::Rough),
        shown(Verb::Finish)
    );
    Some(entry(told!("Feeds", "Vorschübe"), value, practice()))
}

fn threads(given: &Given, done: &[(&Setup, &Operation, &OperationFigures)]) -> Vec<Assumed> {
    let mut list = Vec::new();
    let mut add = |a: Assumed| {
        if !list.contains(&a) {
            list.push(a);
        }
    };
    for (_, _, figures) in done {
        let Job::Thread(thread) = &figures.job else { continue };
        let how = thread.compound.as_ref().map_or(told!("straight in", "gerade zugestellt").to_owned(), |c| {
            tell!("compound at {}", "Oberschlitten auf {}", c.angle)
        });
        let decides = if thread.pipe.is_some() {
            told!("the ring gauge or the fitting decides", "Ringlehre oder Fitting entscheiden")
        } else {
            told!("the wires decide", "die Drähte entscheiden")
        };
        add(entry(
            told!("Thread depth", "Gewindetiefe"),
            format!("{}, {how}; {decides}", thread.depth_is),
            &thread.infeed_why,
        ));
        if let Some(wires) = thread.wires.filter(|w| !w.at_hand) {
            add(entry(
                told!("Wires", "Drähte"),
                tell!("{} for {}", "{} für {}", wires.wire.text(given.unit), thread.designation),
                told!("best wire by the form", "bester Draht nach der Form"),
            ));
        }
    }
    let blanks: Vec<String> = done
        .iter()
        .filter(|(_, o, _)| matches!(o.verb, Verb::Finish | Verb::Turn))
        .filter_map(|(_, o, f)| {
            let feature = given.feature(o.feature?)?;
            let Kind::Thread { thread, .. } = &feature.kind else { return None };
            let unstated = thread.blank.is_none();
            unstated.then(|| format!("{} {}", feature.letter, f.aim.map_or(String::new(), |a| a.text(given.unit))))
        })
        .collect();
    if !blanks.is_empty() {
        list.push(entry(
            told!("Thread blanks", "Gewinde-Ø"),
            tell!(
                "{}, a little under the largest major \u{d8}",
                "{}, etwas unter dem größten Außen-\u{d8}",
                blanks.join(", ")
            ),
            practice(),
        ));
    }
    list
}

/// Whether a size with limits is written in the other unit.
fn mixed_units(given: &Given) -> bool {
    given.part.features.iter().any(|f| match &f.kind {
        Kind::Turn { diameter, .. } | Kind::Relief { diameter, .. } | Kind::Groove { diameter, .. } => {
            diameter.unit != given.unit && diameter.limits.is_some()
        }
        _ => false,
    })
}
