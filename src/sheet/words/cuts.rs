//! How single cuts are made and proved: tapers, the end of a thread, an overall out of the chuck.

use crate::language::Message;
use crate::unit::Unit;
use crate::{tell, told};

/// What the time in a relief is for: where the half-nuts stay closed, the tool comes out and the spindle stops.
fn to_do(never_open: bool) -> &'static str {
    if never_open {
        told!("to draw the tool out and stop the spindle", "zum Zurückziehen und Anhalten der Spindel")
    } else {
        told!("to open the half-nuts", "zum Öffnen der Schlossmutter")
    }
}

/// Where that time is short for two acts.
pub fn short_to_reverse() -> &'static str {
    told!(
        "Short for that: switch off ahead of it, pull the last turns round by hand.",
        "Dafür knapp: vorher abschalten, die letzten Umdrehungen von Hand ziehen."
    )
}

/// A left-hand thread runs off the end, where a center stands.
pub fn out_before_center(past_face: &str, seconds: Option<f64>, never_open: bool) -> String {
    let Some(seconds) = seconds else {
        return told!(
            "CENTER IN THE WAY: it is wider than the root. Draw the tool out before the face.",
            "SPITZE IM WEG: sie ist dicker als der Kern. Stahl vor der Stirnfläche herausziehen."
        )
        .to_owned();
    };
    tell!(
        "CENTER IN THE WAY: tool out before its corner is {past_face} past the face. From the thread’s end {seconds:.1} s {}.",
        "SPITZE IM WEG: Stahl heraus, ehe seine Ecke {past_face} hinter der Stirnfläche ist. Ab Gewindeende {seconds:.1} s {}.",
        to_do(never_open)
    )
}

/// The time a relief gives.
pub fn relief_gives(letter: &str, seconds: f64, never_open: bool) -> String {
    let relief = if letter.is_empty() {
        told!("the run-out", "der Auslauf").to_owned()
    } else {
        tell!("relief {letter}", "Freistich {letter}")
    };
    let todo = to_do(never_open);
    tell!("{relief} gives {seconds:.1} s {todo}", "{relief} lässt {seconds:.1} s {todo}")
}

/// The cuts that bring a cylinder to its taper.
pub fn taper_cuts(count: u32, depth: &str, left: &str) -> String {
    if count == 1 {
        return tell!(
            "rough along it once, set in by {depth} at the small end; {left} a side is left for the last cut",
            "einmal daran entlang schruppen, am dünnen Ende {depth} zustellen; {left} je Seite bleiben für den letzten Schnitt"
        );
    }
    tell!(
        "rough along it {count} times, set in by {depth} each; {left} a side is left for the last cut",
        "{count}-mal daran entlang schruppen, je {depth} zustellen; {left} je Seite bleiben für den letzten Schnitt"
    )
}

/// The trial of a taper, before it is to size.
pub fn taper_trial() -> &'static str {
    told!(
        "Before the last cuts prove the angle: three lines of blue along it, turned a quarter turn in its socket or gauge: wiped all along, or correct it.",
        "Vor den letzten Schnitten den Winkel prüfen: drei Striche Tuschierfarbe längs, eine Vierteldrehung in Hülse oder Lehre: auf ganzer Länge verwischt, sonst berichtigen."
    )
}

/// Cuts along an inside taper, from the straight hole out to its mouth.
pub fn socket_cuts(count: u32, depth: &str, left: &str) -> String {
    let times = if count == 1 { told!("once", "einmal").to_owned() } else { tell!("{count} times", "{count}-mal") };
    tell!(
        "bore along it {times}, set out toward you by {depth} each; the first cuts reach in from the mouth only; {left} a side is left for the last cut",
        "{times} daran entlang ausdrehen, je {depth} zu dir hin zustellen; die ersten reichen nur vom Mund hinein; {left} je Seite bleiben für den letzten Schnitt"
    )
}

/// The trial of an inside taper, and how much is still to come off by how far its gauge stands out.
pub fn socket_trial(unit: Unit, drop: &str) -> String {
    let long = match unit {
        Unit::Inch => told!("1 inch", "1 Zoll"),
        Unit::Millimetre => "25 mm",
    };
    tell!(
        "Measure between, with a plug gauge or the arbor it is for: what it stands out too far is still to be bored, {drop} a side for {long} of it, less in proportion. Before the last cut three lines of blue along the gauge, turned a quarter turn: wiped all along, or correct the angle.",
        "Dazwischen messen, mit Lehrdorn oder dem Dorn, der hineinsoll: was er zu weit heraussteht, fehlt noch, {drop} je Seite auf {long}, weniger im Verhältnis. Vor dem letzten Schnitt drei Striche Tuschierfarbe längs am Dorn, eine Vierteldrehung: auf ganzer Länge verwischt, sonst Winkel berichtigen."
    )
}

/// How an overall is measured whose other face stands in the chuck.
pub fn measured_out_of_chuck() -> &'static str {
    told!(
        "The datum face is inside the chuck: take the work out to measure it; put it back against a spindle stop and indicate it again.",
        "Die Bezugsfläche steckt im Futter: zum Messen ausspannen; gegen einen Spindelanschlag wieder einsetzen und neu ausrichten."
    )
}

/// What a reading over wires is less: the size aimed at.
pub fn reading_less(aim: &str) -> String {
    tell!("reading \u{2212} {aim} =", "Anzeige \u{2212} {aim} =")
}

/// By what the difference is multiplied.
pub fn times(factor: &str) -> String {
    format!("\u{d7} {factor} =")
}

/// The dial the rest goes in by; its unit where the micrometer reads in the other.
pub fn on_this_dial(compound: bool, unit: Option<Unit>) -> String {
    let unit = unit.map_or(String::new(), |u| format!("{} ", u.word()));
    if compound {
        tell!("{unit}on the compound", "{unit}am Oberschlitten")
    } else {
        tell!("{unit}on the cross dial", "{unit}am Planschlitten")
    }
}

/// What the saw length is the sum of: the part, its faces, where it is parted off the tool and what holds it, and what a saw is good to.
pub fn saw_length(least: &str, terms: &[String], parted: bool) -> String {
    let mut names = vec![told!("overall", "Teil"), told!("facing", "plan")];
    if parted {
        names.extend([told!("parting", "abstechen"), told!("grip", "spannen")]);
    }
    names.push(told!("the saw", "Säge"));
    let sum: Vec<String> = terms.iter().zip(names).map(|(length, name)| format!("{length} {name}")).collect();
    tell!("Saw at least {least}: {}.", "Mindestens {least} sägen: {}.", sum.join(" + "))
}

/// A saw length that nobody stated.
pub fn or_longer(length: &str) -> String {
    tell!("{length} or longer", "{length} oder länger")
}

/// What the bar left in the chuck is good for.
pub fn good_for(length: &str, more: u32) -> String {
    match more {
        0 => tell!("{length}, too short for another part", "{length}, zu kurz für ein weiteres Teil"),
        1 => tell!("{length}, good for another part", "{length}, reicht für ein weiteres Teil"),
        n => tell!("{length}, good for {n} more parts", "{length}, reicht für {n} weitere Teile"),
    }
}

/// How lengths are set where the carriage has no dial: by an indicator on the bed, with examples of this mounting.
pub fn by_indicator(face: &str, travel: &str, examples: &str) -> String {
    let more = if examples.is_empty() { String::new() } else { format!(": {examples}") };
    tell!(
        "from the {face}. Indicator on the bed, 0 there; beyond {travel} on blocks of {travel}{more}",
        "ab {face}. Messuhr am Bett, dort 0; über {travel} hinaus auf Endmaßen von {travel}{more}"
    )
}

/// A length on the bed: so many blocks between indicator and stop, and what it then reads.
pub fn blocks_and(blocks: i64, rest: &str) -> String {
    match blocks {
        1 => tell!("1 block + {rest}", "1 Endmaß + {rest}"),
        n => tell!("{n} blocks + {rest}", "{n} Endmaße + {rest}"),
    }
}

/// The same behind the length itself.
pub fn with_blocks(length: String, on_blocks: Option<String>) -> String {
    match on_blocks {
        Some(on) => format!("{length} ({on})"),
        None => length,
    }
}

/// A length as so many blocks and the rest on the indicator.
pub fn on_blocks(length: &str, blocks: i64, rest: &str) -> String {
    format!("{length} = {blocks} + {rest}")
}

/// Over a length from the far face itself on a corrected dial.
pub const FAR_FACE_ITSELF: Message = Message { english: "FAR FACE ITSELF:", german: "AB GEGENFLÄCHE SELBST:" };

/// What the corrected dial shows at a length from the far face itself.
pub fn plus_what_was_set(reading: &str) -> String {
    tell!("= {reading} + what was set", "= {reading} + eingestelltes Maß")
}

/// The edge of a chamfer drawn from the far face: on it, or so far from it.
pub fn edge_from_face(says: &str, reading: Option<&str>) -> String {
    match reading {
        None => tell!("{says}, from the far face as it is touched", "{says}, ab der Gegenfläche, wie sie berührt wird"),
        Some(reading) => tell!(
            "{says}, edge {reading} from the far face as it is touched",
            "{says}, Kante {reading} ab der Gegenfläche, wie sie berührt wird"
        ),
    }
}

/// Where a chamfer's edge is: on the carriage's dial, else from the face.
pub fn edge_at(says: &str, carriage: &str, dial: bool) -> String {
    if !dial {
        return tell!("{says}, edge {carriage} from the face", "{says}, Kante {carriage} ab Planfläche");
    }
    tell!("{says}, edge at {carriage} on the carriage", "{says}, Kante bei {carriage} am Schlitten")
}

/// What a chamfered mouth measures when it is to size, and how far the tool goes from where it touches the edge.
pub fn opened(says: &str, measures: &str, out: Option<&str>, along: Option<&str>) -> String {
    let until = tell!("{says}, until it measures Ø {measures}", "{says}, bis sie Ø {measures} misst");
    let out = out.map(|d| tell!("{d} out on the cross dial", "{d} nach außen am Planschlitten"));
    let along = along.map(|d| tell!("in to {d} on the carriage", "am Schlitten hinein bis {d}"));
    match (out, along) {
        (Some(out), Some(along)) => {
            tell!("{until}: from its edge {out}, or {along}", "{until}: ab Berührung der Kante {out}, oder {along}")
        }
        (Some(one), None) | (None, Some(one)) => {
            tell!("{until}: from its edge {one}", "{until}: ab Berührung der Kante {one}")
        }
        (None, None) => until,
    }
}

/// Passes without infeed behind the last cut.
pub fn without_infeed(count: u32) -> String {
    if count == 1 {
        told!("1 pass without infeed", "1 Zug ohne Zustellung").to_owned()
    } else {
        tell!("{count} passes without infeed", "{count} Züge ohne Zustellung")
    }
}

/// What the work, having given way, is thicker by somewhere.
pub fn barrel(left: &str) -> String {
    tell!("barrel to expect: about {left}", "zu erwartende Balligkeit: etwa {left}")
}

/// Passes without infeed.
pub fn spring_passes(count: u32, at: &str) -> String {
    match count {
        1 => tell!("Then once more at {at}.", "Dann noch einmal bei {at}."),
        2 => tell!("Then twice more at {at}.", "Dann noch zweimal bei {at}."),
        n => tell!("Then {n} times more at {at}.", "Dann noch {n}-mal bei {at}."),
    }
}
