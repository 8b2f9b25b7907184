//! Trade words that come from a description or name a kind of feature, in the language spoken.

use super::End;
use crate::language::{self, Language};
use crate::told;

/// What sits on parts, by its usual name: English, German.
const MATES: [(&str, &str); 46] = [
    ("arm", "Arm"),
    ("ball bearing", "Kugellager"),
    ("bearing", "Lager"),
    ("bush", "Buchse"),
    ("bushing", "Buchse"),
    ("cam", "Nocken"),
    ("chuck", "Futter"),
    ("collar", "Stellring"),
    ("coupling", "Kupplung"),
    ("cover", "Deckel"),
    ("crank", "Kurbel"),
    ("drum", "Trommel"),
    ("fan", "Lüfterrad"),
    ("flange", "Flansch"),
    ("flywheel", "Schwungrad"),
    ("gear", "Zahnrad"),
    ("handle", "Griff"),
    ("handwheel", "Handrad"),
    ("housing", "Gehäuse"),
    ("hub", "Nabe"),
    ("impeller", "Laufrad"),
    ("key", "Passfeder"),
    ("knob", "Knopf"),
    ("lever", "Hebel"),
    ("nut", "Mutter"),
    ("o ring", "O-Ring"),
    ("o-ring", "O-Ring"),
    ("packing", "Packung"),
    ("pin", "Bolzen"),
    ("pinion", "Ritzel"),
    ("pulley", "Riemenscheibe"),
    ("retaining ring", "Sicherungsring"),
    ("ring", "Ring"),
    ("roller", "Rolle"),
    ("rotor", "Läufer"),
    ("seal", "Dichtung"),
    ("sheave", "Seilscheibe"),
    ("sleeve", "Hülse"),
    ("snap ring", "Sprengring"),
    ("spacer", "Distanzring"),
    ("sprocket", "Kettenrad"),
    ("thrust washer", "Anlaufscheibe"),
    ("washer", "Scheibe"),
    ("wheel", "Rad"),
    ("worm", "Schnecke"),
    ("yoke", "Joch"),
];

/// Kinds of features, as sentences name them: English, German.
const KINDS: [(&str, &str); 25] = [
    ("bore", "Bohrung"),
    ("center hole", "Zentrierung"),
    ("chamfer", "Fase"),
    ("coarse", "grob"),
    ("collar", "Bund"),
    ("cross hole", "Querbohrung"),
    ("crown", "Wölbung"),
    ("eccentric", "Exzenter"),
    ("fillet", "Hohlkehle"),
    ("fine", "fein"),
    ("flat", "Fläche"),
    ("flats", "Flächen"),
    ("groove", "Einstich"),
    ("hexagon", "Sechskant"),
    ("hole", "Bohrung"),
    ("keyseat", "Nut"),
    ("knurl", "Rändel"),
    ("medium", "mittel"),
    ("relief", "Freistich"),
    ("seat", "Sitz"),
    ("square", "Vierkant"),
    ("tapped hole", "Gewindebohrung"),
    ("taper", "Kegel"),
    ("turn", "Absatz"),
    ("undercut", "Freistich"),
];

fn german(table: &[(&str, &str)], word: &str) -> Option<String> {
    table.iter().find(|(english, _)| english.eq_ignore_ascii_case(word)).map(|(_, german)| (*german).to_owned())
}

/// What sits on the part, as the description names it. Usual names are said in German; a nut of any kind is called one, because the
/// same word means a keyway there; all other names stay as they are written.
pub fn mate_word(name: &str) -> String {
    if language::now() == Language::English {
        return name.to_owned();
    }
    german(&MATES, name).unwrap_or_else(|| match name.rsplit([' ', '-']).next() {
        Some(last) if last.eq_ignore_ascii_case("nut") => format!("Mutter ({name})"),
        _ => name.replacen("O-ring", "O-Ring", 1),
    })
}

impl End {
    /// The same in the language spoken, to stand before `end` or `ende`.
    pub fn said(self) -> &'static str {
        match self {
            Self::Datum => told!("datum", "Bezugs"),
            Self::Far => told!("far", "Gegen"),
        }
    }
}

/// A kind of feature, in a sentence.
pub fn kind_word(word: &str) -> String {
    match language::now() {
        Language::English => word.to_owned(),
        Language::German if word == "thread" => "Gewinde".to_owned(),
        Language::German => german(&KINDS, word).unwrap_or_else(|| word.to_owned()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_nut_is_never_a_groove() {
        language::speaking(Language::German, || {
            assert_eq!(mate_word("nut"), "Mutter");
            assert_eq!(mate_word("yoke nut"), "Mutter (yoke nut)");
            assert_eq!(mate_word("T-nut"), "Mutter (T-nut)");
            assert_eq!(mate_word("Bearing"), "Lager");
            assert_eq!(mate_word("6204-2RS"), "6204-2RS");
            assert_eq!(kind_word("keyseat"), "Nut");
        });
        assert_eq!(mate_word("yoke nut"), "yoke nut");
    }
}
