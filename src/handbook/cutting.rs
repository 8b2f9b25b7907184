//! The force and power of turning: specific cutting force times the chip's section, times the surface speed.
//!
//! `F = kc · depth · feed`, `P = F · v`. A thinner chip is harder to cut: kc falls with the feed, and lies on a straight line of
//! logarithms between two printed feeds (Kienzle). Physics, in floating point; good for choosing a depth of cut, not more.

use std::sync::LazyLock;

use super::material::Material;
use super::speed::SurfaceSpeed;
use super::{Source, Table};
use crate::unit::{Length, Unit};

static TABLE: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("data/specific_force.csv")));

/// Feeds of the table's columns, millimetres a revolution.
const FEEDS: [(&str, f64); 5] = [("0.1", 0.1), ("0.2", 0.2), ("0.3", 0.3), ("0.4", 0.4), ("0.6", 0.6)];

/// Metals the table lacks: N/mm² at a feed of .2 mm and by how much it falls (Kienzle's exponent).
const BESIDE: [(&str, f64, f64); 7] = [
    ("stainless steel", 3300.0, 0.21),
    ("titanium", 2200.0, 0.23),
    ("bronze", 1100.0, 0.18),
    ("brass", 1050.0, 0.18),
    ("copper", 1400.0, 0.2),
    ("aluminum", 950.0, 0.25),
    ("magnesium", 400.0, 0.2),
];
/// Free-cutting steel beside the plain carbon steel that the table has, which names none. Machinery's Handbook (31st ed., p. 1147, table 1b, power constants) has .59 to .64
/// of plain carbon steel of the same hardness; the smaller saving is on the safe side, as makers who print one value for both have it (VDI 3323 groups 1 to 5).
const FREE_CUTTING: f64 = 0.8;
const FROM_MEMORY: Source = Source::from_memory("specific cutting force of metals other than steel and iron");

/// Specific cutting force of a class of the table at a feed, N/mm²; none for a class it has not.
pub fn of_class(class: &str, feed_mm: f64) -> Option<f64> {
    let cell = |head: &str| TABLE.find("class", class)?.number(head);
    let i = FEEDS.iter().rposition(|(_, f)| *f <= feed_mm).unwrap_or(0).min(FEEDS.len() - 2);
    let ((name_a, a), (name_b, b)) = (FEEDS[i], FEEDS[i + 1]);
    let (ka, kb) = (cell(name_a)?, cell(name_b)?);
    let exponent = (kb / ka).ln() / (b / a).ln();
    Some(ka * (feed_mm.max(0.02) / a).powf(exponent))
}

/// What a material counts as: its class of the table, else its family; a material nobody stated is hard steel.
pub fn counts_as(material: Option<&Material>) -> &'static str {
    let Some(material) = material else { return "hard steel" };
    if let Some((family, ..)) = BESIDE.iter().find(|(family, ..)| *family == material.family) {
        return family;
    }
    match (material.family, material.carbon_percent) {
        ("cast iron", _) => "grey cast iron",
        ("alloy steel", _) => "chrome molybdenum steel",
        ("tool steel" | "bearing steel", _) => "tool steel hard",
        ("carbon steel" | "free-cutting steel", carbon) if carbon <= 0.25 => "mild steel",
        ("carbon steel" | "free-cutting steel", carbon) if carbon <= 0.45 => "medium steel",
        _ => "hard steel",
    }
}

/// Specific cutting force of a material at a feed, N/mm²; a material nobody stated counts as hard steel.
pub fn specific(material: Option<&Material>, feed_mm: f64) -> (f64, Source) {
    let class = counts_as(material);
    if let Some((_, at_two_tenths, exponent)) = BESIDE.iter().find(|(family, ..)| *family == class) {
        return (at_two_tenths * (feed_mm.max(0.02) / 0.2).powf(-exponent), FROM_MEMORY);
    }
    let easier = if material.is_some_and(|m| m.family == "free-cutting steel") { FREE_CUTTING } else { 1.0 };
    (easier * of_class(class, feed_mm).unwrap_or(3000.0), TABLE.source())
}

/// Power at the edge, watts.
pub fn power(specific: f64, depth: Length, feed_mm: f64, speed: SurfaceSpeed) -> f64 {
    specific * depth.mm() * feed_mm * speed.metres_per_minute / 60.0
}

/// Deepest cut a side that so many watts at the edge drive.
pub fn deepest(specific: f64, feed_mm: f64, speed: SurfaceSpeed, watts: f64) -> Length {
    let by_one = power(specific, Length::from_f64(1.0, Unit::Millimetre), feed_mm, speed);
    Length::from_f64(watts / by_one.max(f64::MIN_POSITIVE), Unit::Millimetre)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The tool maker's own problem: mild steel, 120 m/min, 3 mm deep, .2 mm a revolution, machine coefficient 80 %: 4.65 kW.
    #[test]
    fn the_tool_makers_problem() {
        let kc = of_class("mild steel", 0.2).expect("in the table");
        let depth = Length::micrometres(3_000);
        let kilowatts = power(kc, depth, 0.2, SurfaceSpeed::metres(120.0)) / 0.8 / 1000.0;
        assert!((kilowatts - 4.65).abs() < 1e-9, "{kilowatts}");
        let back = deepest(kc, 0.2, SurfaceSpeed::metres(120.0), 4650.0 * 0.8);
        assert!((back - depth).abs() < Length::from_pm(1_000), "{back:?}");
    }

    /// A chuck maker's manual (reference speed and clamping force) prints kc by grade and feed, worked for another tool angle:
    /// C 45 3.05 kN/mm² at .16 and 2.60 at .4; St 50 and 42CrMo4 above it, grey iron of 2 to 2.5 HB kN about 1.6 to 2.05. Ours must
    /// stand in the same order and within a fifth of it.
    #[test]
    fn another_makers_table_is_near() {
        for (class, feed, printed) in [
            ("medium steel", 0.16, 3050.0),
            ("medium steel", 0.4, 2600.0),
            ("chrome molybdenum steel strong", 0.16, 4350.0),
            ("chrome molybdenum steel strong", 0.4, 3450.0),
            ("grey cast iron", 0.16, 2050.0),
            ("grey cast iron", 0.4, 1600.0),
        ] {
            let ours = of_class(class, feed).expect("in the table");
            assert!((ours / printed - 1.0).abs() < 0.2, "{class} at {feed}: {ours}, printed {printed}");
        }
    }

    /// An insert maker's list of kc1 and mc by the groups of VDI 3323 (its turning catalogue of 2017 and boring catalogue of 2022 agree in these rows): the force of
    /// 1 mm² of chip 1 mm thick, and how it falls. Makers lie as far apart as their tools do: the list is for a rake of zero with chip formers, our table
    /// for plain edges. No family may be off by more than that, as one number for all metals was (aluminum by 2.2).
    #[test]
    fn a_third_makers_list_is_in_the_same_order() {
        for (class, kc1, mc) in [
            ("mild steel", 1350.0, 0.21),
            ("medium steel", 1500.0, 0.22),
            ("hard steel", 1700.0, 0.24),
            ("chrome molybdenum steel", 1775.0, 0.24),
            ("tool steel hard", 2450.0, 0.23),
            ("stainless steel", 2150.0, 0.20),
            ("grey cast iron", 1150.0, 0.20),
            ("aluminum", 800.0, 0.25),
            ("brass", 700.0, 0.27),
            ("titanium", 2110.0, 0.22),
        ] {
            let at = |feed: f64| match BESIDE.iter().find(|(family, ..)| *family == class) {
                Some((_, k, m)) => k * (feed / 0.2).powf(-m),
                None => of_class(class, feed).expect("in the table"),
            };
            for feed in [0.1_f64, 0.2] {
                let (ours, printed) = (at(feed), kc1 * feed.powf(-mc));
                assert!((0.7..1.7).contains(&(ours / printed)), "{class} at {feed}: {ours}, printed {printed}");
            }
        }
    }

    /// Machinery's Handbook, 31st ed., p. 1147, table 1b "Power constants using sharp cutting tools", SI (kW s/cm³, which is kN/mm²): plain carbon steels 1.88 / 2.02 / 2.13 /
    /// 2.24 at 120-140 / 140-160 / 160-180 / 180-200 HB; free machining AISI 1108 to 1132 1.15 / 1.20 / 1.31 / 1.36 there, AISI 1137 to 1151 1.39 at 180-200. A tool maker's
    /// catalogue of 2017 (VDI 3323) has kc1 1350 N/mm², exponent .21, for both under .25 % carbon, 1500 and .22 above. Ours is lower than for
    /// plain steel, by no more than the handbook has it, and under neither.
    #[test]
    fn free_cutting_steel_cuts_easier_and_stays_on_the_safe_side() {
        let plain = |grade: &str| crate::handbook::material::find(grade).expect("a grade").material;
        for (free, like, handbook, kc1, mc) in [
            ("12L14", "1018", [1.15, 1.36], 1350.0, 0.21),
            ("1215", "1018", [1.15, 1.36], 1350.0, 0.21),
            ("1144", "1045", [1.36, 1.39], 1500.0, 0.22),
        ] {
            for feed in [0.1, 0.2, 0.3, 0.4] {
                let (ours, _) = specific(Some(&plain(free)), feed);
                let (beside, _) = specific(Some(&plain(like)), feed);
                assert!(
                    (ours / beside - 0.8).abs() < 1e-9 && 1.36 / 2.24 < 0.8,
                    "{free} at {feed}: {ours} beside {beside}"
                );
                // The table's medium steel rises less than others toward fine feeds, where it stands 1 % under that maker's.
                assert!(feed < 0.2 || ours >= kc1 * f64::powf(feed, -mc), "{free} at {feed}: {ours}");
            }
            // The handbook's constants hold at .3 mm a revolution (its feed factor is 1 at .012 in).
            let (ours, _) = specific(Some(&plain(free)), 0.3);
            assert!(handbook.iter().all(|k| ours >= k * 1000.0), "{free}: {ours}");
        }
    }

    #[test]
    fn a_thinner_chip_is_harder_to_cut() {
        for row in TABLE.rows() {
            let class = row.text("class");
            let at = |feed| of_class(class, feed).expect("in the table");
            assert!(at(0.05) > at(0.1) && at(0.1) > at(0.15) && at(0.5) > at(0.6) && at(0.6) > at(0.8), "{class}");
        }
    }
}
