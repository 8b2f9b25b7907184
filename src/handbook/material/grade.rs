//! The grades.

use std::collections::BTreeMap;
use std::ops::Range;
use std::sync::LazyLock;

use super::{Carbon, Condition};
use crate::handbook::speed::SurfaceSpeed;
use crate::handbook::{Row, Source, Table};
use crate::told;

static GRADES: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("../data/material.csv")));

/// What a material's swarf or dust may do, or what it does under the tool.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Caution {
    /// Lead in the alloy.
    Leaded,
    /// Hardens under a rubbing tool.
    WorkHardens,
    /// Swarf burns.
    Magnesium,
    /// Fine swarf burns.
    Titanium,
    /// Dust is poison to the lungs.
    Beryllium,
    /// Abrasive, graphitic dust.
    IronDust,
}

impl Caution {
    fn read(word: &str) -> Option<Self> {
        Some(match word {
            "leaded" => Self::Leaded,
            "work hardens" => Self::WorkHardens,
            "magnesium" => Self::Magnesium,
            "titanium" => Self::Titanium,
            "beryllium" => Self::Beryllium,
            "iron dust" => Self::IronDust,
            _ => return None,
        })
    }

    /// The caution in a sentence of the language spoken. Defers to the shop's rules and the supplier's safety data sheet.
    pub fn sentence(self) -> &'static str {
        match self {
            Self::Leaded => told!(
                "Contains lead: wash hands before eating, no food at the machine, do not blow chips with air; follow the material's safety data sheet.",
                "Enthält Blei: vor dem Essen Hände waschen, kein Essen an der Maschine, Späne nicht mit Druckluft abblasen; Sicherheitsdatenblatt des Werkstoffs beachten."
            ),
            Self::WorkHardens => told!(
                "Hardens where the tool rubs: keep it cutting, no dwelling, no light spring passes.",
                "Verfestigt sich, wo der Stahl reibt: immer schneiden, nie verweilen, keine dünnen Leerschnitte."
            ),
            Self::Magnesium => told!(
                "Chips burn: sharp tool, small heaps, no water on a fire, class D extinguisher at hand; follow the shop's rules and the material's safety data sheet.",
                "Späne brennen: scharfer Stahl, kleine Haufen, kein Wasser ins Feuer, Löscher der Klasse D zur Hand; Werkstattregeln und Sicherheitsdatenblatt des Werkstoffs beachten."
            ),
            Self::Titanium => told!(
                "Fine chips burn: keep heaps small, no sparks, no water on a fire; follow the shop's rules and the material's safety data sheet.",
                "Feine Späne brennen: kleine Haufen, keine Funken, kein Wasser ins Feuer; Werkstattregeln und Sicherheitsdatenblatt des Werkstoffs beachten."
            ),
            Self::Beryllium => told!(
                "Beryllium: no dry dust, no grinding, polishing or emery without the extraction the law asks for; follow the material's safety data sheet.",
                "Beryllium: kein trockener Staub, kein Schleifen, Polieren oder Schmirgeln ohne die vorgeschriebene Absaugung; Sicherheitsdatenblatt des Werkstoffs beachten."
            ),
            Self::IronDust => told!(
                "Cast iron dust: cut dry, cover the ways, brush or vacuum and do not blow, mask against dust.",
                "Gussstaub: trocken drehen, Führungsbahnen abdecken, abfegen oder absaugen, nicht blasen, Staubmaske."
            ),
        }
    }
}

/// Material of the cutting tool.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Tool {
    /// High-speed steel.
    Hss,
    /// Cemented carbide.
    Carbide,
}

/// Turning speeds of a material.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CuttingSpeeds {
    /// Roughing.
    pub rough: SurfaceSpeed,
    /// Finishing; a quarter faster (practice).
    pub finish: SurfaceSpeed,
    /// Where the roughing speed comes from.
    pub source: Source,
    /// Taken because the material is not known.
    pub assumed: bool,
}

/// A material in the handbook.
#[derive(Debug, Clone, PartialEq)]
pub struct Material {
    /// Name it is listed under.
    pub name: &'static str,
    /// Its names in other standards and in the shop. Equivalents are near, not the same.
    pub also: Vec<&'static str>,
    /// Kind of metal.
    pub family: &'static str,
    /// kg/m³.
    pub density: f64,
    /// Modulus of elasticity in `GPa`.
    pub modulus: f64,
    /// Linear expansion, 1e-6 per kelvin.
    pub expansion: f64,
    /// Hardness in the usual condition.
    pub hardness: &'static str,
    /// Carbon, percent; zero where it does not matter.
    pub carbon_percent: f64,
    /// What to beware of.
    pub cautions: Vec<Caution>,
    /// Where density, modulus and hardness come from.
    pub source: Source,
    /// Where the expansion comes from.
    pub expansion_source: Source,
    hss: f64,
}

const SPEED_SOURCE: Source = Source::printed(
    "a bench lathe maker's owner manual: HSS by kind of metal, carbide twice that; grades within a kind from memory",
);

impl Material {
    fn of(row: Row<'_>) -> Option<Self> {
        let list = |column| row.text(column).split(';').filter(|word| !word.is_empty());
        let expansion_source = if row.text("expansion_confirmed") == "yes" {
            Source::printed("Callister, Materials Science and Engineering, Appendix B table B.6")
        } else {
            Source::from_memory("linear expansion")
        };
        Some(Self {
            name: row.text("name"),
            also: list("aliases").collect(),
            family: row.text("family"),
            density: row.number("density")?,
            modulus: row.number("modulus")?,
            expansion: row.number("expansion")?,
            hardness: row.text("hardness"),
            carbon_percent: row.number("carbon")?,
            cautions: list("cautions").filter_map(Caution::read).collect(),
            source: Source::from_memory("Callister Appendix B for the grades it lists; other grades"),
            expansion_source,
            hss: row.number("hss")?,
        })
    }

    /// Turning speeds for a tool; a condition that is hard halves them (practice).
    pub fn speeds(&self, tool: Tool, condition: Option<Condition>) -> CuttingSpeeds {
        let hard = if condition.is_some_and(Condition::is_hard) { 0.6 } else { 1.0 };
        let tool = if tool == Tool::Carbide { 2.0 } else { 1.0 };
        let rough = SurfaceSpeed::feet(self.hss * hard * tool);
        CuttingSpeeds { rough, finish: rough.times(1.25), source: SPEED_SOURCE, assumed: false }
    }

    /// Share of a shop's own speed that this metal takes: 1 for mild steel and what cuts more easily, less for tougher and
    /// harder, in proportion to the listed speeds. A shop states one speed, for the steel it cuts every day (practice).
    pub fn share_of_own(&self, condition: Option<Condition>) -> f64 {
        let rough = self.speeds(Tool::Hss, condition).rough.metres_per_minute;
        (rough / SurfaceSpeed::feet(MILD_STEEL).metres_per_minute).min(1.0)
    }

    /// Steel, of any kind.
    pub fn is_steel(&self) -> bool {
        self.family.ends_with("steel")
    }

    /// Carbon class of a steel, for bar tolerances; `None` for what is no carbon or alloy steel.
    pub fn carbon(&self) -> Option<Carbon> {
        (self.is_steel() && self.family != "stainless steel").then(|| Carbon::of_percent(self.carbon_percent))
    }
}

/// Listed roughing speed of mild steel, ft/min.
const MILD_STEEL: f64 = 90.0;

/// The speeds taken when the material is not known: 60 ft/min with HSS, twice that with carbide.
pub fn assumed_speeds(tool: Tool) -> CuttingSpeeds {
    let rough = SurfaceSpeed::feet(if tool == Tool::Carbide { 120.0 } else { 60.0 });
    CuttingSpeeds {
        rough,
        finish: rough,
        source: Source::from_memory("material not known: ASSUMED slow, as for stainless steel"),
        assumed: true,
    }
}

/// Share of a shop's own speed that a metal takes, by [`Material::share_of_own`]. One that is stated and not known is taken for a
/// tough one; where none is stated, the shop's speed stands.
pub fn share_of_own(stated: bool, named: Option<&Named>, condition: Option<Condition>) -> f64 {
    match named {
        Some(named) => named.material.share_of_own(condition),
        None if stated => {
            let slow = assumed_speeds(Tool::Hss).rough.metres_per_minute;
            slow / SurfaceSpeed::feet(MILD_STEEL).metres_per_minute
        }
        None => 1.0,
    }
}

/// The names most like a text, the likest first.
pub fn nearest(text: &str, most: usize) -> Vec<&'static str> {
    let wanted = text.to_lowercase();
    let like = |name: &str| strsim::jaro_winkler(&name.to_lowercase(), &wanted);
    let mut names: Vec<&str> = names().collect();
    names.sort_by(|a, b| like(b).total_cmp(&like(a)));
    names.truncate(most);
    names
}

/// A material and what was said of its condition.
#[derive(Debug, Clone, PartialEq)]
pub struct Named {
    /// The grade.
    pub material: Material,
    /// Its condition, where the text names one.
    pub condition: Option<Condition>,
}

/// Every material, in the table's order.
pub fn all() -> impl Iterator<Item = Material> {
    GRADES.rows().filter_map(Material::of)
}

/// Every name a material can be asked by.
pub fn names() -> impl Iterator<Item = &'static str> {
    GRADES.rows().flat_map(|row| {
        std::iter::once(row.text("name")).chain(row.text("aliases").split(';')).filter(|n| !n.is_empty())
    })
}

/// The material listed under this very name.
pub fn by_name(name: &str) -> Option<Material> {
    all().find(|m| m.name == name)
}

/// One name of a grade, cut into words once.
struct Name {
    row: usize,
    words: Vec<String>,
    specific: bool,
    long: usize,
}

static NAMES: LazyLock<Vec<Name>> = LazyLock::new(|| {
    let rows = GRADES.rows().enumerate();
    rows.flat_map(|(row, cells)| {
        let list = std::iter::once(cells.text("name")).chain(cells.text("aliases").split(';'));
        list.filter(|name| !name.is_empty()).map(move |name| Name {
            row,
            words: words(name),
            specific: specific(name),
            long: name.len(),
        })
    })
    .collect()
});

/// The names that begin with a word.
static BY_FIRST: LazyLock<BTreeMap<&'static str, Vec<usize>>> = LazyLock::new(|| {
    let mut names: BTreeMap<&'static str, Vec<usize>> = BTreeMap::new();
    for (n, name) in NAMES.iter().enumerate() {
        if let Some(first) = name.words.first() {
            names.entry(first).or_default().push(n);
        }
    }
    names
});

fn begin(word: &str) -> impl Iterator<Item = usize> {
    BY_FIRST.get(word).into_iter().flatten().copied()
}

/// A figure without the temper behind its dash: `6061` of `6061-t6`.
fn untempered(word: &str) -> Option<&str> {
    word.split_once("-t").map(|(plain, _)| plain)
}

/// Finds the grade and the condition in what people write: `1045 cold drawn`, `AISI 4140 PH`, `C45`, `1.4404`, `6061-T6 aluminum`.
///
/// The longest name found as whole words wins; the condition is looked for in the words that are left.
pub fn find(text: &str) -> Option<Named> {
    let said = words(text);
    let mut best: Option<(bool, usize, Range<usize>, usize)> = None;
    let mut may_be: Vec<usize> =
        said.iter().flat_map(|w| [Some(w.as_str()), untempered(w)]).flatten().flat_map(begin).collect();
    may_be.sort_unstable();
    for name in may_be.into_iter().filter_map(|n| NAMES.get(n)) {
        let Some(at) = place(&said, &name.words) else { continue };
        if best.as_ref().is_none_or(|(figure, long, ..)| (name.specific, name.long) > (*figure, *long)) {
            best = Some((name.specific, name.long, at, name.row));
        }
    }
    let (.., at, row) = best?;
    let material = GRADES.rows().nth(row).and_then(Material::of)?;
    let rest = [&said[..at.start], &said[at.end..]].concat().join(" ");
    Some(Named { material, condition: Condition::find(&rest) })
}

/// A name with a figure in it says more than a word such as "aluminum".
fn specific(name: &str) -> bool {
    name.chars().any(|c| c.is_ascii_digit())
}

/// Lower-case words.
fn words(text: &str) -> Vec<String> {
    text.to_lowercase()
        .split(|c: char| c.is_whitespace() || matches!(c, ',' | ';' | '(' | ')' | '/'))
        .filter(|w| !w.is_empty())
        .map(str::to_owned)
        .collect()
}

/// Where the words of a name stand among the words said; a temper behind a dash (`6061-T6`) may be said with a shorter name.
fn place(said: &[String], name: &[String]) -> Option<Range<usize>> {
    let fits = |a: &String, b: &String| a == b || untempered(a) == Some(b.as_str());
    let at = said.windows(name.len().max(1)).position(|w| w.iter().zip(name).all(|(a, b)| fits(a, b)))?;
    Some(at..at + name.len())
}
