//! The form for measuring a worn sample. Where unworn metal is found is common practice, no source.

use crate::language::Message;
use crate::model::{Feature, InsideCut, Kind};
use crate::sheet::view::Rich;
use crate::{tell, told};

/// Title of the form.
pub const MEASURE_SAMPLE: Message = Message { english: "Measuring the sample", german: "Muster messen" };

/// Heads of its columns.
pub fn sample_heads() -> Vec<String> {
    [
        told!("size", "Maß"),
        told!("worn reads", "verschlissen"),
        told!("unworn reads", "unbenutzt"),
        told!("taken as", "angenommen"),
        told!("why", "warum"),
    ]
    .map(str::to_owned)
    .to_vec()
}

/// How it is filled in.
pub fn sample_how() -> Vec<Rich> {
    let lines = [
        told!(
            "Clean the sample, take off burrs with a stone, let it and the instruments come to one temperature. Read the worn place and, where there is one, the place nothing ran on.",
            "Muster reinigen, Grate mit dem Stein abziehen, Muster und Messzeug auf eine Temperatur kommen lassen. Die verschlissene Stelle messen und, wo es sie gibt, die Stelle, auf der nichts lief."
        ),
        told!(
            "Taken as: what it was made to, never the worn size. What no unworn metal shows is taken on trust: say why, and try the mate.",
            "Angenommen als: das Maß, nach dem es gefertigt wurde, nie das verschlissene. Was kein unverschlissenes Metall zeigt, wird auf Treu und Glauben angenommen: warum, und das Gegenstück probieren."
        ),
        told!(
            "Grey: the rough description. The rows are those of the YAML form (--format yaml); “start --from-sample” makes the description from it.",
            "Grau: die grobe Beschreibung. Die Zeilen sind die der YAML-Form (--format yaml); „start --from-sample“ macht daraus die Beschreibung."
        ),
    ];
    lines.into_iter().map(Rich::from).collect()
}

/// Row of the whole length, of the material.
pub fn sample_head_row(key: &str) -> String {
    match key {
        "overall" => told!("overall", "Gesamtlänge").to_owned(),
        "material" => told!("material", "Werkstoff").to_owned(),
        other => other.to_owned(),
    }
}

/// Where to look for the whole.
pub fn look_whole() -> String {
    told!(
        "The whole: ends that were hammered are longer at the rim; measure beside the center holes. Material: a fresh file stroke, a spark, a magnet.",
        "Das Ganze: gestauchte Enden sind am Rand länger; neben den Zentrierbohrungen messen. Werkstoff: frischer Feilstrich, Funkenprobe, Magnet."
    )
    .to_owned()
}

/// A row's size, by the kind of its feature and its key.
pub fn sample_row(kind: &str, key: &str, counted: &str) -> String {
    let main = key == kind || key.is_empty();
    let said = match (kind, key) {
        ("thread", _) if main => told!("Ø over the crests", "Ø über die Spitzen"),
        ("thread" | "knurl", "pitch") => told!("pitch, over several", "Steigung, über mehrere"),
        ("thread", "starts") => told!("starts, at the end", "Gänge, am Ende"),
        ("keyseat", _) if main => told!("width, at the bottom", "Breite, am Grund"),
        ("keyseat", "slot") => told!("length on top", "Länge oben"),
        ("keyseat", "bottom") => told!("bottom to far side", "Grund zur Gegenseite"),
        ("chamfer", _) if main => told!("leg × angle", "Schenkel × Winkel"),
        ("fillet", _) if main => told!("radius", "Halbmesser"),
        ("crown", _) if main => told!("radius or height", "Halbmesser oder Höhe"),
        ("taper", _) if main => told!("taper", "Kegel"),
        ("knurl", _) if main => told!("pattern", "Muster"),
        ("square" | "hexagon" | "flat", _) if main => told!("across flats", "Schlüsselweite"),
        ("center hole", _) if main => told!("form, mouth Ø", "Form, Senkung Ø"),
        ("undercut", _) if main => told!("form, depth × width", "Form, Tiefe × Breite"),
        ("tapped hole", _) if main => told!("thread: bore, pitch", "Gewinde: Kern, Steigung"),
        ("groove" | "ring groove" | "o ring groove", _) if main => told!("Ø at the bottom", "Ø am Grund"),
        (_, _) if main => "Ø",
        (_, "to") => told!("ends at", "endet bei"),
        (_, "from") => told!("begins at", "beginnt bei"),
        (_, "at") => told!("center at", "Mitte bei"),
        (_, "long") => told!("long", "Länge"),
        (_, "wide") => told!("wide", "Breite"),
        (_, "deep") => told!("deep", "Tiefe"),
        (_, "corner") => told!("corner radius", "Eckenradius"),
        (_, "large") => told!("Ø large end", "Ø großes Ende"),
        (_, "small") => told!("Ø small end", "Ø kleines Ende"),
        (_, "full") => told!("full thread", "volles Gewinde"),
        (_, "run out") => told!("run-out", "Auslauf"),
        (_, "diameter") => told!("Ø over the teeth", "Ø über die Zähne"),
        (_, other) => other,
    };
    if counted.is_empty() { said.to_owned() } else { format!("{said}, {counted}") }
}

/// What a feature is, before where to look.
pub fn sample_feature(word: &str, name: &str) -> String {
    let word = match word {
        "turn" => told!("diameter", "Durchmesser"),
        "thread" => told!("thread", "Gewinde"),
        "relief" => told!("relief", "Freistich"),
        "taper" => told!("taper", "Kegel"),
        "knurl" => told!("knurl", "Rändel"),
        "groove" => told!("groove", "Nut"),
        "ring groove" => told!("ring groove", "Ringnut"),
        "o ring groove" => told!("O-ring groove", "O-Ring-Nut"),
        "undercut" => told!("undercut", "Freistich"),
        "chamfer" => told!("chamfer", "Fase"),
        "crown" => told!("domed end", "Linsenkuppe"),
        "fillet" => told!("inside corner", "Hohlkehle"),
        "keyseat" => told!("keyseat", "Passfedernut"),
        "flat" => told!("flat", "Fläche"),
        "square" => told!("square", "Vierkant"),
        "hexagon" => told!("hexagon", "Sechskant"),
        "cross hole" => told!("cross hole", "Querbohrung"),
        "tapped hole" => told!("tapped hole", "Gewindebohrung"),
        "center hole" => told!("center hole", "Zentrierbohrung"),
        "hole" | "bore" => told!("bore", "Bohrung"),
        other => other,
    };
    if name.is_empty() { word.to_owned() } else { format!("{name} ({word})") }
}

/// Where a feature's unworn metal is. `beyond`: how much of the seat lies beyond what sits on it.
pub fn look(f: &Feature, beyond: Option<&str>) -> String {
    match &f.kind {
        Kind::Turn { kept: true, .. } => {
            told!("the bar’s own skin: where no jaw or dog gripped it", "Walzhaut: wo keine Backe und kein Herz griff")
                .to_owned()
        }
        Kind::Turn { .. } if f.carries.iter().any(|c| says(&c.part.text, &["seal", "lip", "packing"])) => told!(
            "beside the groove the lip wore: close to the shoulder and at the lead-in; under the sleeve’s other end",
            "neben der Spur der Dichtlippe: nahe der Schulter und an der Anfasung"
        )
        .to_owned(),
        Kind::Turn { .. } if !f.carries.is_empty() => {
            let bearing = f.carries.iter().any(|c| says(&c.part.text, &["bearing"]));
            let first = match beyond {
                Some(by) => tell!(
                    "the last {by} past the mate, beside the shoulder or the end",
                    "die letzten {by} jenseits des Gegenstücks, an der Schulter oder am Ende"
                ),
                None => told!(
                    "in the strip the mate does not reach, beside the shoulder",
                    "im Streifen, den das Gegenstück nicht erreicht: an der Schulter"
                )
                .to_owned(),
            };
            let more = if bearing {
                told!(
                    "; bright or brown bands are creep: measure both ways across, the loaded side is low",
                    "; blanke oder braune Bänder sind Wandern: kreuzweise messen, die Lastseite ist tief"
                )
            } else {
                told!("; under the key’s far end; both ways across", "; neben der Passfeder; kreuzweise")
            };
            format!("{first}{more}")
        }
        Kind::Turn { .. } => told!(
            "nothing runs on it: anywhere free of jaw marks, rust and paint",
            "nichts läuft darauf: wo keine Backenspuren, kein Rost, keine Farbe sind"
        )
        .to_owned(),
        Kind::Thread { .. } => told!(
            "the threads the nut never reached: the last before the relief or shoulder; not the first two at the end",
            "die Gänge, die die Mutter nie erreichte: die letzten vor Freistich oder Schulter; nicht die ersten zwei"
        )
        .to_owned(),
        Kind::Relief { .. } => told!(
            "nothing touches it: the caliper’s thin jaws at its bottom, beside the corner radius",
            "nichts berührt ihn: schmale Schneiden am Grund, neben dem Eckenradius"
        )
        .to_owned(),
        Kind::Taper { .. } => told!(
            "past the hub at both ends; the rate over the longest length, with a sine bar or two wires",
            "jenseits der Nabe an beiden Enden; die Steigung über die größte Länge"
        )
        .to_owned(),
        Kind::Knurl { .. } => told!(
            "where the hand does not reach: beside the shoulder; count the teeth",
            "wo die Hand nicht hinkommt: neben der Schulter; Zähne zählen"
        )
        .to_owned(),
        Kind::Groove { .. } | Kind::Undercut { .. } => told!(
            "the bottom, and the wall that carries no load; the other wall is beaten out: its foot",
            "der Grund und die unbelastete Wand; die andere ist ausgeschlagen: an ihrem Fuß"
        )
        .to_owned(),
        Kind::Woodruff { .. } | Kind::ParallelKeyseat { .. } => told!(
            "at the bottom and past the key’s ends: the top edges and the loaded side are beaten wide",
            "am Grund und jenseits der Passfederenden: Kanten und Lastseite sind ausgeschlagen"
        )
        .to_owned(),
        Kind::Flats { .. } => told!(
            "beside the shoulder, past where the handle or wrench reaches; mid-flat, not at the corners",
            "an der Schulter, jenseits von Griff oder Schlüssel; Flächenmitte, nicht an den Ecken"
        )
        .to_owned(),
        Kind::CrossHole { .. } => told!(
            "in the middle of its length and on the side away from the load; a pin gauge, or a drill’s shank",
            "in der Mitte seiner Länge und auf der unbelasteten Seite; Prüfdorn oder Bohrerschaft"
        )
        .to_owned(),
        Kind::CenterHole { .. } => {
            told!("the pilot; the mouth may be bruised", "die Führungsbohrung; die Senkung kann beschädigt sein")
                .to_owned()
        }
        Kind::Chamfer { .. } | Kind::Crown { .. } => {
            told!("where it was hit least; the other end of the same sort", "wo am wenigsten anschlug").to_owned()
        }
        Kind::Fillet { .. } => {
            told!("a radius gauge against the light; or a wax cast", "Radienlehre gegen das Licht; oder Wachsabdruck")
                .to_owned()
        }
        Kind::Inside(inside) => match inside.cut {
            InsideCut::Thread { .. } => told!(
                "the last threads before the bottom; the bore at the mouth is worn bell-shaped",
                "die letzten Gänge vor dem Grund; die Mündung ist trichterförmig verschlissen"
            ),
            _ => told!(
                "past the mate, near the bottom; the mouth is worn bell-shaped: both ways across",
                "jenseits des Gegenstücks, nahe dem Grund; die Mündung ist trichterförmig: kreuzweise"
            ),
        }
        .to_owned(),
        _ => String::new(),
    }
}

fn says(text: &str, words: &[&str]) -> bool {
    let text = text.to_ascii_lowercase();
    words.iter().any(|w| text.contains(w))
}

/// Title of the form's document.
pub fn sample_title(name: &str) -> String {
    tell!("{name}: measuring the sample", "{name}: Muster messen")
}

/// Who measured.
pub const MEASURED_BY: Message = Message { english: "Measured by", german: "Gemessen" };
/// Lines for what the rows do not hold.
pub const SEEN: Message = Message { english: "What else was seen", german: "Was sonst zu sehen war" };
