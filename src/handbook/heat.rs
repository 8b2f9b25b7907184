//! How much a piece grows when it warms.

use super::material;
use super::{Source, material::Material};
use crate::unit::{Length, Unit};

/// A coefficient of linear expansion.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Expansion {
    /// 1e-6 per kelvin.
    pub per_kelvin: f64,
    /// 1e-6 per degree Fahrenheit.
    pub per_fahrenheit: f64,
    /// Where it was printed.
    pub source: Source,
}

/// Steel of no stated grade: 11.5e-6 per kelvin, 6.4e-6 per degree Fahrenheit.
pub const STEEL: Expansion = Expansion {
    per_kelvin: 11.5,
    per_fahrenheit: 6.4,
    source: Source::printed("steel, usual figure of engineering tables: 11.5e-6 per K, 6.4e-6 per F"),
};

/// The expansion of a material by name: `steel`, or any name the handbook's materials know.
pub fn expansion(name: &str) -> Option<Expansion> {
    if name.trim().eq_ignore_ascii_case("steel") {
        return Some(STEEL);
    }
    material::find(name).map(|found| of(&found.material))
}

/// The expansion of a material.
pub fn of(material: &Material) -> Expansion {
    Expansion {
        per_kelvin: material.expansion,
        per_fahrenheit: material.expansion / 1.8,
        source: material.expansion_source,
    }
}

/// How much `size` grows; `rise` in kelvin for millimetres, in degrees Fahrenheit for inches.
pub fn growth(size: Length, rise: f64, expansion: Expansion, unit: Unit) -> Length {
    let per_degree = match unit {
        Unit::Inch => expansion.per_fahrenheit,
        Unit::Millimetre => expansion.per_kelvin,
    };
    Length::from_f64(size.to_f64(unit) * per_degree * 1e-6 * rise, unit)
}
