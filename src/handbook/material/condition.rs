//! The state a bar is bought in.

/// Condition of a bar.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Condition {
    /// Cold drawn or cold rolled; bright.
    ColdDrawn,
    /// Hot rolled; black.
    HotRolled,
    /// Turned, ground and polished, or ground.
    Ground,
    /// Hardened and tempered at the mill.
    PreHardened,
    /// Hardened and tempered.
    HeatTreated,
    /// Annealed, soft.
    Annealed,
    /// Normalized.
    Normalized,
    /// Stress relieved.
    StressRelieved,
    /// Cast.
    Cast,
    /// Extruded.
    Extruded,
}

/// Words for each condition, longest first within a condition; matched as whole words.
const WORDS: [(&str, Condition); 48] = [
    ("cold drawn", Condition::ColdDrawn),
    ("cold-drawn", Condition::ColdDrawn),
    ("cold rolled", Condition::ColdDrawn),
    ("cold-rolled", Condition::ColdDrawn),
    ("cold finished", Condition::ColdDrawn),
    ("bright", Condition::ColdDrawn),
    ("cd", Condition::ColdDrawn),
    ("crs", Condition::ColdDrawn),
    ("cf", Condition::ColdDrawn),
    ("+c", Condition::ColdDrawn),
    ("hot rolled", Condition::HotRolled),
    ("hot-rolled", Condition::HotRolled),
    ("black", Condition::HotRolled),
    ("hr", Condition::HotRolled),
    ("hrs", Condition::HotRolled),
    ("+ar", Condition::HotRolled),
    ("turned ground polished", Condition::Ground),
    ("turned ground and polished", Condition::Ground),
    ("precision ground", Condition::Ground),
    ("ground", Condition::Ground),
    ("tgp", Condition::Ground),
    ("+sl", Condition::Ground),
    ("pre-hardened", Condition::PreHardened),
    ("prehardened", Condition::PreHardened),
    ("pre hardened", Condition::PreHardened),
    ("ph", Condition::PreHardened),
    ("pre-hard", Condition::PreHardened),
    ("prehard", Condition::PreHardened),
    ("pre hard", Condition::PreHardened),
    ("pre-hardened and tempered", Condition::PreHardened),
    ("pht", Condition::PreHardened),
    ("heat-treated", Condition::HeatTreated),
    ("heat treat", Condition::HeatTreated),
    ("htd", Condition::HeatTreated),
    ("h&t", Condition::HeatTreated),
    ("q&t", Condition::HeatTreated),
    ("qt", Condition::HeatTreated),
    ("heat treated", Condition::HeatTreated),
    ("ht", Condition::HeatTreated),
    ("hardened and tempered", Condition::HeatTreated),
    ("quenched and tempered", Condition::HeatTreated),
    ("+qt", Condition::HeatTreated),
    ("annealed", Condition::Annealed),
    ("normalized", Condition::Normalized),
    ("normalised", Condition::Normalized),
    ("stress relieved", Condition::StressRelieved),
    ("cast", Condition::Cast),
    ("extruded", Condition::Extruded),
];

/// Whether words begin with these.
fn begins(said: &[&str], words: &str) -> bool {
    let mut said = said.iter();
    words.split(' ').all(|word| said.next().is_some_and(|s| *s == word))
}

/// Words of steel hardened for use, at its skin or right through: `case hardened` and its like end in the first.
const HARD_WORDS: [&str; 5] = ["hardened", "nitrided", "carburized", "carburised", "carbonitrided"];
/// Words with one of them in it that say something softer.
const SOFTER_WORDS: [&str; 3] = ["hardened and tempered", "pre hardened", "not hardened"];

/// From this hardness, HRC, high-speed steel does not cut (common practice, no source).
const BEYOND_STEEL: u32 = 45;

/// Whether a text says that the steel, or its skin, is harder than a steel tool can cut: `induction hardened`, `58-62 HRC`. What is
/// hardened and tempered at the mill, or pre-hardened, is not.
pub fn is_beyond_steel(text: &str) -> bool {
    let lower = text.to_lowercase();
    if let Some(hrc) = rockwell_c(&lower) {
        return hrc >= BEYOND_STEEL;
    }
    let words = lower.replace([',', ';', '(', ')', '/', '-'], " ");
    let words = format!(" {} ", words.split_whitespace().collect::<Vec<_>>().join(" "));
    let says = |list: &[&str]| list.iter().any(|w| words.contains(&format!(" {w} ")));
    says(&HARD_WORDS) && !says(&SOFTER_WORDS)
}

/// Words of a heat treatment that hardens, and so moves the work and leaves it hard; stress relief, annealing and normalizing are none.
const HARDENING: [&str; 6] = ["harden", "quench", "nitrid", "nitrocarb", "carburi", "carbonitrid"];

/// Whether a heat treatment hardens: `case harden`, `quench and temper`, `nitrided .3 deep`. Words from memory of the trade.
pub fn hardens(treatment: &str) -> bool {
    let lower = treatment.to_lowercase();
    HARDENING.iter().any(|word| lower.contains(word)) || rockwell_c(&lower).is_some()
}

/// Words of a treatment that leaves a hard skin.
const HARD_SKIN: [&str; 6] = ["case", "induction", "flame", "nitrid", "nitrocarb", "carburi"];

/// Whether a heat treatment leaves the steel, or its skin, harder than a steel tool can cut: by its HRC where that is told, else by its words.
pub fn left_hard(treatment: &str) -> bool {
    let lower = treatment.to_lowercase();
    let skin = || hardens(treatment) && HARD_SKIN.iter().any(|word| lower.contains(word));
    rockwell_c(&lower).map_or_else(skin, |hrc| hrc >= BEYOND_STEEL)
}

/// The first number beside `HRC`, before or after it.
fn rockwell_c(lower: &str) -> Option<u32> {
    let (before, after) = lower.split_once("hrc")?;
    let number = |text: &str| text.split(|c: char| !c.is_ascii_digit()).find(|t| !t.is_empty())?.parse().ok();
    let range = |t: &&str| t.chars().all(|c| c.is_ascii_digit() || matches!(c, '-' | '–' | '.'));
    let first = before.split_whitespace().next_back().filter(range).and_then(number);
    first.or_else(|| after.split_whitespace().next().and_then(number))
}

impl Condition {
    /// The condition a text names, by the longest words that fit.
    pub fn find(text: &str) -> Option<Self> {
        let lower = text.to_lowercase();
        let said = lower.split(|c: char| c.is_whitespace() || matches!(c, ',' | ';' | '(' | ')' | '/'));
        let said: Vec<&str> = said.filter(|w| !w.is_empty()).collect();
        let stands = |words: &str| (0..said.len()).any(|at| begins(&said[at..], words));
        let found = WORDS.iter().filter(|(words, _)| stands(words));
        found.max_by_key(|(words, _)| words.len()).map(|(_, condition)| *condition)
    }

    /// In the words of the sheet.
    pub const fn words(self) -> &'static str {
        match self {
            Self::ColdDrawn => "cold drawn",
            Self::HotRolled => "hot rolled",
            Self::Ground => "turned, ground and polished",
            Self::PreHardened => "pre-hardened",
            Self::HeatTreated => "hardened and tempered",
            Self::Annealed => "annealed",
            Self::Normalized => "normalized",
            Self::StressRelieved => "stress relieved",
            Self::Cast => "cast",
            Self::Extruded => "extruded",
        }
    }

    /// Hard enough that tools and speeds must follow.
    pub const fn is_hard(self) -> bool {
        matches!(self, Self::PreHardened | Self::HeatTreated)
    }

    /// Covered with rolling scale or a casting skin: the first cut goes under it.
    pub const fn has_scale(self) -> bool {
        matches!(self, Self::HotRolled | Self::Cast)
    }

    /// Full of drawing stresses: a cut on one side lets it bow.
    pub const fn bows(self) -> bool {
        matches!(self, Self::ColdDrawn)
    }
}

#[cfg(test)]
mod tests {
    use super::is_beyond_steel;

    #[test]
    fn hard_skins_and_soft_ones() {
        for hard in ["Cf53 induction hardened", "O1, hardened", "case-hardened 8620", "52100 58-62 HRC", "D2 HRC 60"] {
            assert!(is_beyond_steel(hard), "{hard}");
        }
        for soft in [
            "4140 PH",
            "4140 pre-hardened, about 28 HRC",
            "C45 hardened and tempered",
            "4140 prehardened",
            "O1 unhardened",
            "1045 28-32 HRC",
            "1018",
        ] {
            assert!(!is_beyond_steel(soft), "{soft}");
        }
    }
}
