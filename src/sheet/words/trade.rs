//! Trade words that stand alone: what an operation does, what cuts, which end.

use crate::figures::Leave;
use crate::finding::Severity;
use crate::model::End;
use crate::model::outside::KnurlPattern;
use crate::model::part::StockShape;
use crate::model::plan::Verb;
use crate::model::shop::ToolKind;
use crate::told;

/// What an operation does.
pub fn verb(verb: Verb) -> &'static str {
    match verb {
        Verb::Face => told!("face", "plandrehen"),
        Verb::Center => told!("center", "zentrieren"),
        Verb::Rough => told!("rough", "schruppen"),
        Verb::Finish => told!("finish", "schlichten"),
        Verb::Turn => told!("turn", "drehen"),
        Verb::Groove => told!("groove", "einstechen"),
        Verb::Chamfer => told!("chamfer", "fasen"),
        Verb::Thread => told!("thread", "Gewinde drehen"),
        Verb::Taper => told!("taper", "Kegel drehen"),
        Verb::Knurl => told!("knurl", "rändeln"),
        Verb::Drill => told!("drill", "bohren"),
        Verb::Bore => told!("bore", "ausdrehen"),
        Verb::Ream => told!("ream", "reiben"),
        Verb::Tap => told!("tap", "Gewinde bohren"),
        Verb::Mill => told!("mill", "fräsen"),
        Verb::Polish => told!("polish", "polieren"),
        Verb::File => told!("file", "feilen"),
        Verb::Deburr => told!("deburr", "entgraten"),
        Verb::PartOff => told!("part off", "abstechen"),
        Verb::Inspect => told!("inspect", "prüfen"),
        Verb::FitTest => told!("fit test", "Passprobe"),
        Verb::HeatTreat => told!("heat treatment", "Wärmebehandlung"),
    }
}

/// An end of the part, as in `far end`.
pub fn end(end: End) -> &'static str {
    match end {
        End::Datum => told!("datum end", "Bezugsende"),
        End::Far => told!("far end", "Gegenende"),
    }
}

/// What becomes of a scribed line.
pub fn leave(leave: Leave) -> &'static str {
    match leave {
        Leave::Line => told!("leave line", "Riss bleibt"),
        Leave::Split => told!("split line", "Riss halbieren"),
    }
}

/// How grave a finding is, to begin a sentence.
pub fn grave(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => told!("Error", "Fehler"),
        Severity::Warning => told!("Warning", "Warnung"),
        Severity::Note => told!("Note", "Hinweis"),
    }
}

/// Shape of the bar.
pub fn shape(shape: StockShape) -> &'static str {
    match shape {
        StockShape::Round => told!("round", "rund"),
        StockShape::Hexagon => told!("hexagon", "Sechskant"),
        StockShape::Square => told!("square", "Vierkant"),
        StockShape::Tube { .. } => told!("tube", "Rohr"),
    }
}

/// A tool, as the trade writes it.
pub fn tool(kind: ToolKind) -> String {
    match kind {
        ToolKind::Facing => told!("facing", "Planstahl"),
        ToolKind::Roughing => told!("roughing", "Schruppstahl"),
        ToolKind::Finishing => told!("finishing", "Schlichtstahl"),
        ToolKind::Grooving => told!("grooving", "Stechstahl"),
        ToolKind::Parting => told!("parting", "Abstechstahl"),
        ToolKind::Threading60 => told!("threading 60°", "Gewindestahl 60°"),
        ToolKind::Acme29 => told!("Acme 29°", "Acme-Stahl 29°"),
        ToolKind::ThreadingForm => told!("threading, to the form", "Gewindestahl nach Form"),
        ToolKind::Chamfer => told!("chamfer", "Fasenstahl"),
        ToolKind::CenterDrill => told!("center drill", "Zentrierbohrer"),
        ToolKind::Drill => told!("drill", "Bohrer"),
        ToolKind::Reamer => told!("reamer", "Reibahle"),
        ToolKind::Tap => told!("tap", "Gewindebohrer"),
        ToolKind::Boring => told!("boring", "Ausdrehstahl"),
        ToolKind::Knurl => told!("knurl", "Rändelwerkzeug"),
        ToolKind::WoodruffCutter => told!("Woodruff cutter", "Scheibenfräser"),
        ToolKind::EndMill => told!("end mill", "Schaftfräser"),
        ToolKind::File => told!("file", "Feile"),
        ToolKind::AbrasiveStrip => told!("abrasive strip", "Schleifband"),
        ToolKind::None => "",
    }
    .to_owned()
}

/// An instrument or mate, as the figures name it.
pub fn measuring(name: &str) -> String {
    let words: [(&str, &str); 12] = [
        ("depth micrometer", told!("depth micrometer", "Tiefenmessschraube")),
        ("micrometer", told!("micrometer", "Messschraube")),
        ("caliper", told!("caliper", "Messschieber")),
        ("dial indicator", told!("dial indicator", "Messuhr")),
        ("height gauge", told!("height gauge", "Höhenreißer")),
        ("thread ring", told!("thread ring", "Gewindering")),
        ("plug gauge ", told!("plug gauge ", "Lehrdorn ")),
        ("ring gauge ", told!("ring gauge ", "Ringlehre ")),
        ("template", told!("template", "Schablone")),
        ("gauge blocks", told!("gauge blocks", "Endmaße")),
        ("nut for ", told!("nut for ", "Mutter zu ")),
        ("fitting for ", told!("fitting for ", "Fitting zu ")),
    ];
    let known = words.iter().find_map(|(known, said)| Some((said, name.strip_prefix(known)?)));
    let Some((said, rest)) = known else { return name.to_owned() };
    // What follows an instrument's name: how far it must reach, what it is used with.
    let behind = [
        (" that reaches ", told!(" that reaches ", " bis ")),
        (" or its screw", told!(" or its screw", " oder Gegenschraube")),
        (", by hand", told!(", by hand", ", von Hand")),
        (", notch flush with the face", told!(", notch flush with the face", ", Kerbe bündig mit der Planfläche")),
    ];
    format!("{said}{}", behind.iter().fold(rest.to_owned(), |rest, (english, said)| rest.replace(english, said)))
}

/// A way to cut a taper, by its name in the JSON.
pub fn taper_way(way: &str) -> &str {
    match way {
        "taper attachment" => told!("taper attachment", "Leitlineal"),
        "compound" => told!("compound", "Oberschlitten"),
        "tailstock set over" => told!("tailstock set over", "Reitstock verstellt"),
        other => other,
    }
}

/// An end of a taper, by its name in the JSON.
pub fn taper_end(what: &str) -> &str {
    match what {
        "start" => told!("start", "Anfang"),
        "end" => told!("end", "Ende"),
        other => other,
    }
}

/// A knurl's pattern.
pub fn pattern(pattern: KnurlPattern) -> &'static str {
    match pattern {
        KnurlPattern::Straight => told!("straight", "gerade"),
        KnurlPattern::Diagonal => told!("diagonal", "schräg"),
        KnurlPattern::Diamond => told!("diamond", "kreuz"),
    }
}

/// A list of lines to scribe, by its name in the JSON.
pub fn list_name(name: &str) -> &str {
    match name {
        "blank" => told!("blank", "Rohteil"),
        "after roughing" => told!("after roughing", "nach dem Schruppen"),
        other => other,
    }
}

/// The face the work stands on, by its name in the JSON.
pub fn standing_on(name: &str) -> &str {
    match name {
        "datum face" => told!("datum face", "Bezugsfläche"),
        "far face" => told!("far face", "Gegenfläche"),
        other => other,
    }
}
