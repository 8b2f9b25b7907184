//! What grips the work, and how true it runs.

use crate::language::Message;
use crate::model::Workholder;
use crate::model::part::Holding;
use crate::unit::Unit;
use crate::{tell, told};

/// What grips the work, to begin a sentence.
pub fn gripped(by: Workholder, size: &str) -> String {
    match by {
        Workholder::FourJaw | Workholder::Thrown(_) => told!("4-jaw chuck", "Vierbackenfutter").to_owned(),
        Workholder::Collet(_) => tell!("Collet {size}", "Spannzange {size}"),
        Workholder::SoftJaws => told!("Soft jaws", "Weiche Backen").to_owned(),
        _ => told!("Chuck", "Futter").to_owned(),
    }
}

/// How the work is held, to begin a sentence, with what grips it.
pub fn held(by: Workholder, holding: Holding) -> String {
    let chuck = match by {
        Workholder::Usual | Workholder::Mandrel(..) => return super::holding(holding).to_owned(),
        Workholder::DividingHead => {
            return told!("Dividing head on the mill", "Teilkopf auf der Fräsmaschine").to_owned();
        }
        Workholder::SetOver(_) => {
            return told!("Between centers, tailstock set over", "Zwischen Spitzen, Reitstock verstellt").to_owned();
        }
        Workholder::VBlocks => {
            return told!("V-blocks and drill press", "Prismen und Ständerbohrmaschine").to_owned();
        }
        Workholder::SecondCenters(_) => {
            return told!("Between second centers", "Zwischen zweiten Zentrierungen").to_owned();
        }
        Workholder::FourJaw => told!("4-jaw chuck", "Vierbackenfutter"),
        Workholder::Collet(_) => told!("Collet", "Spannzange"),
        Workholder::SoftJaws => told!("Soft jaws", "Weiche Backen"),
        Workholder::Thrown(_) => told!("4-jaw chuck, thrown over", "Vierbackenfutter, außermittig"),
        Workholder::Packed(_) => told!("Chuck, packed under one jaw", "Futter, eine Backe unterlegt"),
    };
    match holding {
        Holding::ChuckAndCenter => tell!("{chuck} and tailstock center", "{chuck} und Reitstockspitze"),
        Holding::ChuckAndRest => tell!("{chuck} and steady rest", "{chuck} und Lünette"),
        Holding::Chuck => chuck.to_owned(),
        other => super::holding(other).to_owned(),
    }
}

/// What is done about running true before the first cut.
pub fn runs_true(by: Workholder, letter: &str, within: &str) -> Option<String> {
    Some(match by {
        Workholder::FourJaw => {
            tell!(
                "Indicate {letter} beside the jaws and again where it is bare farthest out: within {within} TIR before the first cut.",
                "{letter} neben den Backen und so weit außen wie möglich ausrichten: Ausschlag höchstens {within} vor dem ersten Schnitt."
            )
        }
        Workholder::Collet(_) => tell!(
            "Collet and spindle wiped clean; prove {letter}: within {within} TIR.",
            "Zange und Spindel sauber wischen; {letter} prüfen: Ausschlag höchstens {within}."
        ),
        Workholder::SoftJaws => {
            tell!(
                "Bore the jaws to the measured size of {letter}, a little clear at the back; prove within {within} TIR.",
                "Backen auf das gemessene Maß von {letter} ausdrehen, hinten etwas frei; Ausschlag höchstens {within}."
            )
        }
        _ => return None,
    })
}

/// Where soft jaws end before a cut.
pub fn soft_jaws_end(gap: &str) -> String {
    tell!("The jaws end {gap} short of the nearest cut.", "Die Backen enden {gap} vor dem nächsten Schnitt.")
}

/// What stands in the spindle behind the jaws.
pub fn in_spindle(diameter: &str, known: bool) -> String {
    let bore = if known {
        told!("its bore lets that through", "ihre Bohrung lässt das durch")
    } else {
        told!("measure its bore first", "erst ihre Bohrung messen")
    };
    tell!(
        "Behind the jaws the work stands in the spindle, up to Ø {diameter}: {bore}.",
        "Hinter den Backen steckt das Werkstück in der Spindel, bis Ø {diameter}: {bore}."
    )
}

/// A mandrel in a bore.
pub fn on_mandrel(size: &str, letter: &str) -> String {
    tell!(
        "On the {size} mandrel in {letter}, between centers, dog on the mandrel: oil it, press it in, prove it on its centers.",
        "Auf Drehdorn {size} in {letter}, zwischen Spitzen, Drehherz auf dem Dorn: ölen, eindrücken, zwischen Spitzen prüfen."
    )
}

/// A dividing head.
pub const DIVIDING_HEAD: Message = Message {
    english: "Dividing head on the mill, footstock brought up, spindle level with the table.",
    german: "Teilkopf auf der Fräsmaschine, Gegenspitze angestellt, Achse parallel zum Tisch.",
};

/// A place the work is held by on the mill.
pub fn lies_on(letter: &str, diameter: &str, protect: bool) -> String {
    let on = if letter.is_empty() {
        tell!("the bar (Ø {diameter})", "der Stange (Ø {diameter})")
    } else {
        format!("{letter} (Ø {diameter})")
    };
    if protect { tell!("{on} over copper", "{on}, Kupfer dazwischen") } else { on }
}

/// In the vise or V-blocks of a mill.
pub fn on_the_mill(one: &str, other: Option<&str>, packing: Option<&str>, slot: bool) -> String {
    let mut text = match other {
        Some(other) => tell!(
            "On the mill, lying in V-blocks on {one} and {other}.",
            "Auf der Fräsmaschine, in Prismen auf {one} und {other}."
        ),
        None if slot => tell!(
            "On the mill, lying in the vise or V-blocks on {one}, what is cut facing up.",
            "Auf der Fräsmaschine, im Schraubstock oder in Prismen auf {one}, der Schnitt oben."
        ),
        None => tell!(
            "On the mill, in the vise or a V-block on {one}.",
            "Auf der Fräsmaschine, im Schraubstock oder Prisma auf {one}."
        ),
    };
    text += &match packing {
        Some(packing) => tell!(
            " Pack the smaller's block up {packing} (V of 90°), until the indicator reads level along both.",
            " Das Prisma des kleineren um {packing} unterlegen (V von 90°), bis die Messuhr entlang beider gleich zeigt."
        ),
        None => tell!(" Level along the top by indicator.", " Oben entlang mit der Messuhr ausrichten."),
    };
    text += told!(
        " A stop against the datum face: lengths count from it.",
        " Anschlag an der Bezugsfläche: von ihr zählen die Längen."
    );
    text
}

/// A cut beyond both V-blocks.
pub fn hangs_outside() -> &'static str {
    told!(
        " What is cut hangs outside the blocks: clamp the work down on both and set a jack under the cut, or it tips.",
        " Der Schnitt liegt außerhalb der Prismen: auf beiden niederspannen und darunter abstützen, sonst kippt das Werkstück."
    )
}

/// In V-blocks on one section, on both sides of the cut.
pub fn on_both_sides(one: &str) -> String {
    tell!(
        "On the mill, lying in V-blocks on {one}, on both sides of the cut. Level along the top by indicator. A stop against the datum face: lengths count from it.",
        "Auf der Fräsmaschine, in Prismen auf {one}, beiderseits des Schnitts. Oben entlang mit der Messuhr ausrichten. Anschlag an der Bezugsfläche: von ihr zählen die Längen."
    )
}

/// Where threads, knurls or tapers are all that is left beside the cut.
pub fn nothing_to_lie_on() -> &'static str {
    told!(
        "Nothing plain is left to hold beside the cut: on a thread a split nut or threaded bush in the vise, elsewhere a split bush bored to it; or mill before that is cut.",
        "Neben dem Schnitt bleibt nichts Glattes zum Spannen: auf Gewinde eine geschlitzte Mutter oder Gewindebuchse im Schraubstock, sonst eine passend ausgedrehte geschlitzte Buchse; oder vorher fräsen."
    )
}

/// What the chuck of a dividing head holds.
pub fn chuck_of_the_head(place: &str) -> String {
    tell!("Its chuck on {place}.", "Sein Futter auf {place}.")
}

/// A tailstock set over.
pub fn set_over(by: &str, toward: bool) -> String {
    let way = if toward { told!("toward you", "zu dir hin") } else { told!("away from you", "von dir weg") };
    tell!(
        "Tailstock set over {by} {way}, by indicator on its quill. Set back and proved by test cuts afterwards.",
        "Reitstock um {by} {way} verstellen, Messuhr an der Pinole. Danach zurückstellen und mit Probeschnitten prüfen."
    )
}

/// How far the work is thrown over, and how the indicator proves it.
pub fn thrown_over(
    letter: &str,
    also: Option<&str>,
    throw: &str,
    reading: &str,
    limits: Option<(&str, &str)>,
) -> String {
    let within = limits.map_or(String::new(), |(min, max)| tell!(" ({min} to {max})", " ({min} bis {max})"));
    let on = if letter.is_empty() { super::fixed::BAR.say() } else { letter };
    let also = match also {
        Some(other) => tell!(
            ", and the same on {other}: else the axes are not parallel",
            ", auf {other} ebenso: sonst liegen die Achsen schief"
        ),
        None => told!(", and the same as far out as it goes", ", ganz außen ebenso").to_owned(),
    };
    tell!(
        "Thrown over {throw}: the indicator on {on} beside the jaws reads {reading}{within} in all over one turn{also}.",
        "Um {throw} außermittig: Messuhr auf {on} neben den Backen zeigt {reading}{within} Ausschlag je Umdrehung{also}."
    )
}

/// Between second centers, and how the indicator proves them.
pub fn on_second_centers(throw: &str, reading: &str, limits: Option<(&str, &str)>) -> String {
    let within = limits.map_or(String::new(), |(min, max)| tell!(" ({min} to {max})", " ({min} bis {max})"));
    tell!(
        "In the second centers, {throw} off the first: the indicator on a finished seat near each end reads {reading}{within} in all over one turn.",
        "In den zweiten Zentrierungen, {throw} neben den ersten: Messuhr auf einem fertigen Sitz nahe jedem Ende zeigt {reading}{within} Ausschlag je Umdrehung."
    )
}

/// In V-blocks on the surface plate, then on the drill press.
pub const V_BLOCKS: Message = Message {
    english: "In V-blocks on the surface plate, clamped: an upright line by the square and both level lines on both ends, the part not moved between. Then on end in a vise on the drill press.",
    german: "In Prismen auf der Anreißplatte, gespannt: senkrechte Linie am Winkel und beide waagrechten auf beiden Stirnen, Teil dazwischen nicht bewegen. Dann senkrecht im Schraubstock der Bohrmaschine.",
};

/// Packing under one jaw of three.
pub fn packing(flat: &str, narrow: Option<&str>) -> String {
    let narrow = narrow.map_or(String::new(), |n| tell!(", {n} under narrow ones", ", {n} unter schmalen"));
    tell!(
        "Packing under one jaw: {flat} under flat jaw tips{narrow}. It brings it near; the indicator sets it.",
        "Unterlage unter einer Backe: {flat} unter flachen Backen{narrow}. Sie bringt es in die Nähe; die Messuhr stellt es ein."
    )
}

/// Where around the part the throw lies.
pub fn clocked(degrees: &str) -> String {
    tell!(
        "High side at {degrees}, counter-clockwise seen from the datum end: scribe it on the end face.",
        "Hohe Seite bei {degrees}, gegen den Uhrzeigersinn vom Bezugsende gesehen: auf der Stirnfläche anreißen."
    )
}

/// What the work sweeps, and how fast it may turn.
pub fn sweeps(diameter: &str, rpm: &str) -> String {
    tell!(
        "It sweeps Ø {diameter}: turn it once by hand past bed, slide and tool. No faster than {rpm} rpm.",
        "Es braucht Ø {diameter}: einmal von Hand an Bett, Schlitten und Stahl vorbeidrehen. Höchstens {rpm} U/min."
    )
}

/// Where the limits of a taper pipe thread hold.
pub fn at_small_end(max: &str, min: &str) -> String {
    tell!("at the small end; pitch diameter {max} / {min}", "am dünnen Ende; Flankendurchmesser {max} / {min}")
}

/// Label of a taper pipe thread's steps.
pub const PIPE: Message = Message { english: "taper 1:16", german: "Kegel 1:16" };

/// A clocked keyseat.
pub fn clocking(degrees: f64) -> String {
    tell!("{degrees}°, counter-clockwise seen from the datum end", "{degrees}°, gegen die Uhr, vom Bezugsende gesehen")
}

/// A keyseat clocked from an eccentric's high side, which lies at some degrees itself.
pub fn clocking_from_throw(degrees: f64, letter: &str, high: f64) -> String {
    tell!(
        "{degrees}° where the high side of {letter} is {high}°, counter-clockwise seen from the datum end: turn the high side up by indicator, then on from it",
        "{degrees}°, wo die hohe Seite von {letter} bei {high}° liegt, gegen die Uhr, vom Bezugsende gesehen: hohe Seite mit der Messuhr nach oben, von da weiter"
    )
}

/// Parting off.
pub fn part_off(overall: &str, center: bool) -> String {
    let drawn_back = if center {
        told!(
            ". Center drawn back first: never part with it in the piece. Far from the jaws the piece then hangs free: slow, or saw it off and face it",
            ". Erst Spitze zurückziehen: nie abstechen, solange sie im Stück steckt. Weit vor den Backen hängt es dann frei: langsam, oder absägen und plandrehen"
        )
    } else {
        ""
    };
    tell!("at {overall} and what the face needs{drawn_back}", "bei {overall} und dem Aufmaß der Planfläche{drawn_back}")
}

/// A rough center: end, drill and mouth, what odd-leg calipers are set to, and its depth.
pub fn rough_center((far, size, mouth): (bool, &str, &str), half: &str, depth: &str) -> String {
    let end = if far { told!("far end", "Gegenende") } else { told!("datum end", "Bezugsende") };
    tell!(
        "{end}, as sawn: odd-leg calipers set to {half}, crossing lines from four sides, punch the middle. Center drill {size} by hand, square to the end, {depth} deep, mouth Ø {mouth}, oiled",
        "{end}, wie gesägt: Zirkel mit Tastfuß auf {half}, von vier Seiten anreißen, Mitte körnen. Zentrierbohrer {size} von Hand, rechtwinklig, {depth} tief, Mündung Ø {mouth}, mit Öl"
    )
}

/// Head of the column of lengths that count from the sawn end of the bar, on a dial in this unit.
pub fn from_sawn_in(dial: Unit) -> String {
    tell!("sawn end, {}", "Sägefl., {}", dial.word())
}

/// A second center hole: end, drill and mouth, and the two lines below the top of a section in its V-blocks.
pub fn second_center(
    (far, size, mouth): (bool, &str, &str),
    letter: &str,
    throw: &str,
    (axis, line): (&str, &str),
) -> String {
    let end = if far { told!("far end", "Gegenende") } else { told!("datum end", "Bezugsende") };
    tell!(
        "{end}: second center {size}, {throw} off the first, until its mouth measures Ø {mouth}. Height gauge on top of {letter}: {axis} down the axis, {line} down the second line; punched where that crosses the upright line",
        "{end}: zweite Zentrierung {size}, {throw} neben der ersten, bis die Mündung Ø {mouth} misst. Höhenreißer oben auf {letter}: {axis} tiefer die Achse, {line} tiefer die zweite Linie; körnen, wo sie die senkrechte kreuzt"
    )
}
