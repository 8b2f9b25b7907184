//! Heads, zeros and pictures of the setups.

use super::fixed::ON_BAR;
use crate::model::End;
use crate::model::Workholder;
use crate::model::part::Holding;
use crate::model::plan::DatumEnd;
use crate::model::shop::Reads;
use crate::sheet::view::Rich;
use crate::unit::Unit;
use crate::{tell, told};

/// A setup of the short sheet.
pub fn short_setup(number: u32, held: &str, datum: &str) -> String {
    let place = if datum.is_empty() { String::new() } else { format!(", {datum}") };
    tell!("Setup {number}: {held}{place}", "Spannlage {number}: {held}{place}")
}

/// A line to scribe, on the short sheet.
pub fn short_mark(label: &str, gauge: &str, means: &str, leave: &str) -> String {
    tell!("{label} at {gauge}, {means}, {leave}", "{label} bei {gauge}, {means}, {leave}")
}

/// A list of lines to scribe, on the short sheet.
pub fn short_marks(name: &str, when: &str, standing_on: &str, lines: &[String]) -> Rich {
    let (name, standing_on) = (super::trade::list_name(name), super::trade::standing_on(standing_on));
    Rich::new().strong(super::capital(name)).plain(tell!(
        ", {when}, standing on the {standing_on}: {}.",
        ", {when}, stehend auf: {standing_on}: {}.",
        lines.join("; ")
    ))
}

/// `Setup 3`.
pub fn setup_word(number: u32) -> String {
    tell!("Setup {number}", "Spannlage {number}")
}

/// `90 finish C`.
pub fn operation_word(number: u32, verb: &str, letter: &str) -> String {
    format!("{number} {verb} {letter}").trim_end().to_owned()
}

/// A reason with its source.
pub fn why(place: &str, rule: &str, reason: &str, source: &str) -> Rich {
    let said = Rich::new().strong(format!("{place}: ")).plain(reason);
    let said = if rule.is_empty() { said } else { said.grey(format!(" [{rule}]")) };
    if source.is_empty() { said.plain(".") } else { said.grey(format!(" ({source}).")) }
}

/// An operation and the rule that binds to it: `110 [R9]`.
pub fn at_rule(number: u32, rule: &str) -> String {
    if rule.is_empty() { number.to_string() } else { format!("{number} [{rule}]") }
}

/// Between which others an operation may stand.
pub fn room(after: Option<String>, before: Option<String>) -> String {
    match (after, before) {
        (Some(after), Some(before)) => tell!("after {after}, before {before}", "nach {after}, vor {before}"),
        (Some(after), None) => tell!("after {after}", "nach {after}"),
        (None, Some(before)) => tell!("before {before}", "vor {before}"),
        (None, None) => told!("anywhere", "irgendwo").to_owned(),
    }
}

/// How the work is held, to begin a sentence.
pub fn holding(holding: Holding) -> &'static str {
    match holding {
        Holding::Chuck => told!("Chuck", "Futter"),
        Holding::ChuckAndCenter => told!("Chuck and tailstock center", "Futter und Reitstockspitze"),
        Holding::BetweenCenters => told!("Between centers", "Zwischen Spitzen"),
        Holding::ChuckAndRest => told!("Chuck and steady rest", "Futter und Lünette"),
        Holding::Mandrel => told!("On a mandrel", "Auf dem Drehdorn"),
        Holding::Mill => told!("Mill", "Fräsmaschine"),
        Holding::Bench => told!("Bench", "Werkbank"),
    }
}

/// What jaws or dog hold, and what lies under them; of a section that is only roughed its size at that moment.
pub fn grip_on(letter: &str, protect: bool, roughed: Option<&str>) -> String {
    if let Some(size) = roughed {
        return tell!("on the roughed {letter}, Ø {size}", "auf {letter}, geschruppt, Ø {size}");
    }
    let on = if letter.is_empty() { ON_BAR.say().to_owned() } else { tell!("on {letter}", "auf {letter}") };
    if protect { tell!("{on} over copper", "{on}, Kupfer dazwischen") } else { on }
}

/// How far jaws or dog may reach.
pub fn beyond_mark(mark: &str) -> String {
    tell!(", beyond mark {mark}", ", jenseits von Riss {mark}")
}

/// How far the work stands out of the jaws.
pub fn stands_out(length: &str, collet: bool) -> String {
    tell!(
        ", {length} out of the {}",
        ", {length} aus {}",
        if collet { told!("collet", "der Zange") } else { told!("jaws", "den Backen") }
    )
}

/// How work no longer than it is wide lies in the jaws.
pub fn seated(by: Workholder) -> &'static str {
    match by {
        Workholder::SoftJaws => told!(
            "Bore them with a step: the face seated on it; light cuts.",
            "Mit Absatz ausdrehen: Planfläche liegt an; leichte Schnitte."
        ),
        Workholder::Collet(_) => told!("Face against a stop; light cuts.", "Planfläche am Anschlag; leichte Schnitte."),
        _ => told!(
            "Its face tapped back on the steps of the jaws (reversed or outside ones); light cuts.",
            "Planfläche an die Stufen der Backen geklopft (umgekehrte oder Außenbacken); leichte Schnitte."
        ),
    }
}

/// A thin wall under the jaws: the plan's reason, as a sentence of its own.
pub fn thin_wall(reason: &str) -> Rich {
    let mut letters = reason.chars();
    let first: String = letters.next().into_iter().flat_map(char::to_uppercase).collect();
    Rich::from(format!("{first}{}.", letters.as_str()))
}

/// Where a rest carries the work.
pub fn rest(letter: &str, spot: Option<&str>, [from, to]: &[String; 2], follows: bool) -> String {
    let on = if letter.is_empty() { told!("the bar", "dem Rohteil").to_owned() } else { letter.to_owned() };
    if follows {
        return tell!(
            "Follow rest on {on}: turn a start, its jaws on that behind the tool; back for other cuts.",
            "Mitlaufende Lünette auf {on}: Anfang drehen, Backen dahinter anstellen; sonst zurück."
        );
    }
    let on = spot.map_or(on, |size| tell!("the spot of Ø {size}", "der Laufstelle von Ø {size}"));
    tell!(
        "Steady rest on {on}, {from} to {to} from the datum: jaws just touching, oiled, felt again as it warms.",
        "Lünette auf {on}, {from} bis {to} ab Bezug: Backen eben anliegend, geölt, beim Warmwerden nachfühlen."
    )
}

/// Before the first finish cut between centers.
pub fn test_cut(letter: &str) -> String {
    if letter.is_empty() {
        told!("Test cut first: the same Ø at both ends.", "Erst Probeschnitt: gleicher Ø an beiden Enden.").to_owned()
    } else {
        tell!(
            "Test cut first: same Ø at both ends of {letter}.",
            "Erst Probeschnitt: gleicher Ø an beiden Enden von {letter}."
        )
    }
}

/// A runout to prove.
pub fn true_to(letter: &str, other: &str, within: &str) -> String {
    tell!("{letter} true to {other} within {within} TIR.", "{letter} rund zu {other}, Ausschlag höchstens {within}.")
}

/// A runout that is measured while its centers stand.
pub fn measured_before_the_center_goes(setup: u32) -> String {
    tell!(
        "Indicate it here and write it down: setup {setup} takes a center away.",
        "Hier mit der Messuhr messen und aufschreiben: Spannlage {setup} nimmt eine Zentrierung weg."
    )
}

/// What to do with the correction.
pub fn correction(dial: bool, measured: &str, set: &str, by_face: bool) -> Rich {
    let how = if dial {
        told!("Touch the far face and set the carriage dial to ", "Gegenfläche berühren, Längsskale auf ")
    } else {
        told!("Touch the far face and call it ", "Gegenfläche berühren, dort gilt ")
    };
    let holds = Rich::from(how).strong(told!("this", "dieses Maß")).plain(tell!(
        " instead of 0: every length below then holds. ({measured} measured gives {set}.)",
        " statt 0: dann gelten alle Längen unten. ({measured} gemessen gibt {set}.)"
    ));
    if !by_face {
        return holds;
    }
    holds.strong(told!(" Not FAR FACE ITSELF:", " Nicht AB GEGENFLÄCHE SELBST:")).plain(told!(
        " such a length is drawn from that face, what was set is added to it.",
        " solche Maße gelten ab dieser Fläche, das Eingestellte kommt dazu."
    ))
}

/// How the carriage's zero is set; from one side, where the person keeps to that.
pub fn carriage_zero(face: &str, corrected: bool, from_one_side: bool) -> Rich {
    let zero = if corrected {
        Rich::new().strong(told!("Zero as corrected.", "Null wie berichtigt."))
    } else {
        Rich::new().strong(tell!("0 on the {face}.", "0 auf der {face}."))
    };
    zero.plain(if from_one_side {
        told!(" Up toward the headstock; come to it that way.", " Zum Spindelstock zählt sie auf; von dort anfahren.")
    } else {
        told!(" Up toward the headstock.", " Zum Spindelstock zählt sie auf.")
    })
}

/// Feeds of a setup, and which way they go.
pub fn feeds(list: &str, toward_headstock: bool) -> String {
    if toward_headstock {
        tell!(" {list} a turn, toward the headstock. ", " {list} je Umdrehung, zum Spindelstock. ")
    } else {
        tell!(" {list} a turn. ", " {list} je Umdrehung. ")
    }
}

/// The same in short.
pub fn continued_mounting(zero: Option<String>) -> String {
    match zero {
        Some(zero) => tell!("Continued. Lengths {zero}.", "Weiter. Längen {zero}."),
        None => told!("Continued, nothing is moved.", "Weiter, nichts wird bewegt.").to_owned(),
    }
}

/// The face that lengths count from.
pub fn carriage_short(face: &str, corrected: bool) -> String {
    if corrected {
        tell!("from the {face}, zero corrected", "ab {face}, Null berichtigt")
    } else {
        tell!("from the {face}", "ab {face}")
    }
}

/// An example of a dial: half of what it does to the diameter, the whole as it counts it, and as the part is measured.
const fn counts(part: Unit, dial: Unit) -> (&'static str, &'static str, &'static str) {
    match (part, dial) {
        (Unit::Inch, Unit::Inch) => (".005", ".010", ".010"),
        (Unit::Millimetre, Unit::Millimetre) => ("0.10", "0.20", "0.20"),
        (Unit::Millimetre, Unit::Inch) => (".005 in", ".010 in", "0.254 mm"),
        (Unit::Inch, Unit::Millimetre) => ("0.10 mm", "0.20 mm", ".0079 in"),
    }
}

/// What a dial in the other unit does to the diameter, in short.
fn foreign(reads: Reads, half: &str, read: &str, whole: &str) -> String {
    match reads {
        Reads::Radius => tell!("RADIUS: {half} is Ø {whole}.", "RADIUS: {half} ist Ø {whole}."),
        Reads::Diameter => tell!("DIAMETER: {read} is Ø {whole}.", "Ø-SKALE: {read} ist Ø {whole}."),
    }
}

/// What the cross dial counts, with an example.
pub fn cross_reads(reads: Reads, unit: Unit, dial: Unit) -> String {
    let (half, read, whole) = counts(unit, dial);
    if unit != dial {
        return foreign(reads, half, read, whole);
    }
    match reads {
        Reads::Radius => tell!("RADIUS: {half} takes {whole} off Ø.", "RADIUS: {half} nimmt {whole} vom Ø."),
        Reads::Diameter => tell!("DIAMETER: {read} takes {whole} off Ø.", "Ø-SKALE: {read} nimmt {whole} vom Ø."),
    }
}

/// The same for a bore, which grows.
pub fn bore_reads(reads: Reads, unit: Unit, dial: Unit) -> String {
    let (half, read, whole) = counts(unit, dial);
    if unit != dial {
        return foreign(reads, half, read, whole);
    }
    match reads {
        Reads::Radius => tell!("RADIUS: {half} opens Ø by {whole}.", "RADIUS: {half} weitet den Ø um {whole}."),
        Reads::Diameter => tell!("DIAMETER: {read} opens Ø by {whole}.", "Ø-SKALE: {read} weitet den Ø um {whole}."),
    }
}

/// `RADIUS` or `DIAMETER`.
pub fn reads_word(reads: Reads) -> &'static str {
    match reads {
        Reads::Radius => told!("RADIUS", "RADIUS"),
        Reads::Diameter => told!("DIAMETER", "Ø-SKALE"),
    }
}

/// The same with the dial's unit, no wider than its column.
pub fn reads_in(reads: Reads, unit: &str) -> String {
    match reads {
        Reads::Radius => tell!("RADIUS, {unit}", "RADIUS, {unit}"),
        Reads::Diameter => tell!("DIAM., {unit}", "Ø-SKALE, {unit}"),
    }
}

/// Where the cross dial is set to 0.
pub fn cross_zero(letter: &str, diameter: &str) -> String {
    let on = if letter.is_empty() { told!("the bar", "dem Rohteil").to_owned() } else { letter.to_owned() };
    tell!("0 touching {on}, Ø {diameter}. ", "0 beim Berühren von {on}, Ø {diameter}. ")
}

/// A seat is finished over the keyseat in it.
pub fn over_keyseat(letter: &str) -> String {
    tell!(
        "The keyseat in {letter} strikes the tool: interrupted cut, light and slow. ",
        "Die Nut in {letter} schlägt auf den Stahl: unterbrochener Schnitt, leicht und langsam. "
    )
}

/// A bar with corners is struck until it is round.
pub fn interrupted(flats: &str) -> String {
    tell!(
        "Corners strike the tool down to Ø {flats}: interrupted cut. ",
        "Kanten schlagen auf den Stahl bis Ø {flats}: unterbrochener Schnitt. "
    )
}

/// How far roughed faces stand proud.
pub fn proud(length: &str) -> String {
    tell!("Rough faces stand {length} proud. ", "Geschruppte Flächen stehen {length} vor. ")
}

/// Words at the feet of a lathe picture.
pub fn feet() -> (String, String) {
    (told!("HEADSTOCK", "SPINDELSTOCK").to_owned(), told!("TAILSTOCK", "REITSTOCK").to_owned())
}

/// Facing, in a title.
pub fn face(end: Option<End>, to_length: bool, overall: &str) -> String {
    match end {
        Some(End::Far) if to_length => tell!("face far end to {overall}", "Gegenende auf {overall} plandrehen"),
        Some(End::Far) => told!("face far end", "Gegenende plandrehen").to_owned(),
        _ => told!("face datum end", "Bezugsende plandrehen").to_owned(),
    }
}

/// Text alternative of a setup picture.
pub fn setup_alt(number: u32, held: &str, datum: DatumEnd) -> String {
    let place = match datum {
        DatumEnd::Tailstock => told!("at the tailstock, right", "am Reitstock, rechts"),
        DatumEnd::Headstock => told!("at the headstock, left", "am Spindelstock, links"),
        DatumEnd::Left => told!("at the left", "links"),
    };
    tell!("Setup {number}: {held}, datum end {place}.", "Spannlage {number}: {held}, Bezugsende {place}.")
}

/// Behind it: what is cut on this page.
pub fn cut_here(letters: &str) -> String {
    tell!(" Cut here: {letters}.", " Hier bearbeitet: {letters}.")
}

/// Text alternative of a keyseat's section.
pub fn keyseat_alt(key: &str, depths: &[&str]) -> String {
    tell!("Section through the keyseat for {key}: {}.", "Schnitt durch die Nut für {key}: {}.", depths.join(", "))
}
