//! Materials: names, conditions, bar tolerances, speeds.

use turnwright::handbook::material::{self, Carbon, Caution, Condition, Tool};
use turnwright::handbook::speed::{self, SurfaceSpeed};
use turnwright::unit::{Length, Unit};

use crate::handbook_tables::walk::{Walk, number, rows};

#[test]
fn a_material_is_found_by_what_people_write() {
    // Equivalent names as lists of steel designations give them (EN 10027 numbers; from memory where no list was seen).
    for (text, name, condition) in [
        ("1045 cold drawn", "1045", Some(Condition::ColdDrawn)),
        ("C45", "1045", None),
        ("AISI 4140 PH", "4140", Some(Condition::PreHardened)),
        ("4140 pre-hardened", "4140", Some(Condition::PreHardened)),
        ("42CrMo4 +QT", "4140", Some(Condition::HeatTreated)),
        ("1018 CD", "1018", Some(Condition::ColdDrawn)),
        ("A36 hot rolled", "A36", Some(Condition::HotRolled)),
        ("12L14", "12L14", None),
        ("1.4404", "316L", None),
        ("stainless 303", "303", None),
        ("17-4 PH", "17-4PH", None),
        ("aluminum 6061-T6", "6061", None),
        ("7075-T651", "7075", None),
        ("aluminum", "6061", None),
        ("bearing bronze", "C93200", None),
        ("gray cast iron", "gray iron", None),
        ("drill rod, annealed", "W1", Some(Condition::Annealed)),
        ("bright mild steel", "A36", Some(Condition::ColdDrawn)),
        ("1144 stress relieved", "1144", Some(Condition::StressRelieved)),
    ] {
        let found = material::find(text).unwrap_or_else(|| panic!("{text} is not found"));
        assert_eq!((found.material.name, found.condition), (name, condition), "{text}");
    }
    for text in ["", "unobtainium", "10455", "steel"] {
        assert!(material::find(text).is_none(), "{text} should not be found");
    }
}

#[test]
fn every_row_of_the_table_reads_and_no_name_is_used_twice() {
    let all: Vec<_> = material::all().collect();
    assert_eq!(
        all.len(),
        include_str!("../../src/handbook/data/material.csv").lines().filter(|l| !l.starts_with('#')).count() - 1
    );
    assert!(all.len() >= 40);
    let mut names: Vec<String> = material::names().map(str::to_lowercase).collect();
    names.sort();
    let count = names.len();
    names.dedup();
    assert_eq!(names.len(), count, "a name stands for two materials");
}

#[test]
fn cautions_follow_the_metal() {
    for (text, caution) in [
        ("12L14", Caution::Leaded),
        ("C36000", Caution::Leaded),
        ("304", Caution::WorkHardens),
        ("AZ31B", Caution::Magnesium),
        ("titanium", Caution::Titanium),
        ("beryllium copper", Caution::Beryllium),
        ("cast iron", Caution::IronDust),
    ] {
        assert!(material::find(text).is_some_and(|m| m.material.cautions.contains(&caution)), "{text}");
    }
    assert!(material::find("1045").is_some_and(|m| m.material.cautions.is_empty()));
}

/// TRADE worked example 16; ASTM A108-03 tolerances copy: cold-drawn rounds to 1.5 in, to 0.28 % carbon +0/-.002;
/// over 1.5 to 2.5 -.003; over 0.28 to 0.55 % carbon -.003 and -.004.
#[test]
fn cold_drawn_bars_keep_the_size_of_a108() {
    let inch = |n, d| Length::PER_INCH.times_ratio(n, d);
    for (carbon, size, under) in [
        (Carbon::Low, inch(5, 4), 2),
        (Carbon::Low, inch(3, 2), 2),
        (Carbon::Low, inch(2, 1), 3),
        (Carbon::Medium, inch(5, 4), 3),
        (Carbon::Medium, inch(2, 1), 4),
    ] {
        let (d, source) =
            material::bar_tolerance(carbon, Condition::ColdDrawn, size, Unit::Inch).expect("in the table");
        assert_eq!((d.upper, d.lower), (Length::ZERO, Length::micro_inches(-under * 1000)));
        assert!(source.confirmed);
    }
    assert!(material::bar_tolerance(Carbon::Low, Condition::HotRolled, inch(1, 1), Unit::Inch).is_none());
}

/// A steel maker's reprint of ASTM A108-03 table A1.1 (lucefin.com, tables): hexagons and squares, all under size.
#[test]
fn cold_drawn_hexagons_and_squares_keep_the_size_of_a108() {
    let inch = |n, d| Length::PER_INCH.times_ratio(n, d);
    for (hexagon, carbon, size, under) in [
        (true, Carbon::Low, inch(3, 4), 2),
        (true, Carbon::Low, inch(1, 1), 3),
        (true, Carbon::Low, inch(2, 1), 4),
        (true, Carbon::Low, inch(3, 1), 5),
        (true, Carbon::Medium, inch(3, 4), 3),
        (true, Carbon::Medium, inch(1, 1), 4),
        (true, Carbon::Medium, inch(4, 1), 6),
        (false, Carbon::Low, inch(3, 4), 2),
        (false, Carbon::Low, inch(3, 1), 6),
        (false, Carbon::Medium, inch(3, 4), 4),
        (false, Carbon::Medium, inch(1, 1), 5),
        (false, Carbon::Medium, inch(2, 1), 6),
        (false, Carbon::Medium, inch(3, 1), 8),
    ] {
        let (d, _) =
            material::flats_tolerance(carbon, Condition::ColdDrawn, hexagon, size, Unit::Inch).expect("listed");
        assert_eq!((d.upper, d.lower), (Length::ZERO, Length::micro_inches(-under * 1000)), "{hexagon} {size:?}");
    }
    let hot = material::flats_tolerance(Carbon::Low, Condition::HotRolled, true, inch(1, 1), Unit::Inch);
    assert!(hot.is_none());
}

/// Speeds: TRADE 11, HSS 90 ft/min at 1.25 in is 275 rpm; the shorthand 4 V / D would say 288.
#[test]
fn speed_of_rotation_from_surface_speed() {
    let d = Length::PER_INCH.times_ratio(5, 4);
    let rpm = speed::rpm(SurfaceSpeed::feet(90.0), d).expect("a diameter");
    assert!((rpm - 275.02).abs() < 0.01, "{rpm}");
    assert_eq!(speed::gear(rpm, &[60.0, 90.0, 140.0, 215.0, 330.0, 500.0, 780.0]), Some(215.0));
    assert!((speed::surface_speed(rpm, d).in_unit(Unit::Inch) - 90.0).abs() < 1e-9);
    assert!(speed::rpm(SurfaceSpeed::feet(90.0), Length::ZERO).is_none());
    let mild = material::find("A36").expect("mild steel").material.speeds(Tool::Hss, None);
    assert!((mild.rough.in_unit(Unit::Inch) - 90.0).abs() < 1e-9 && !mild.assumed);
    assert!(material::assumed_speeds(Tool::Hss).assumed);
}

/// Linear expansion, density and modulus printed in textbooks; a range is met by lying in it, a rounded value by half of its last digit.
#[test]
fn expansion_density_and_stiffness_of_the_reference_rows() {
    let mut walk = Walk::new("expansion.csv");
    for (n, row) in rows("expansion.csv").into_iter().enumerate() {
        let listed = match row["material"].as_str() {
            "Steel A36" => "A36",
            "Steel 1020" => "1020",
            "Steel 1040" => "1040",
            "Steel 4140" | "AISI 4140 (32-212 F)" => "4140",
            "Steel 4340" => "4340",
            "Stainless 304" | "Stainless AISI 300 series" => "304",
            "Stainless 316" => "316",
            "Stainless 440A" => "440C",
            "Gray iron G3000" | "Gray cast iron" => "gray iron",
            "Gray iron G4000" => "gray iron G4000",
            "Ductile iron 60-40-18" => "ductile iron",
            "Aluminum 2024" => "2024",
            "Aluminum 6061" | "Aluminum 6061-T6" | "Aluminum alloys, wrought" => "6061",
            "Aluminum 7075" | "Aluminum 7075-T6" => "7075",
            "Copper C11000" | "Copper" | "Copper, wrought" => "C11000",
            "Brass C26000" => "C26000",
            "Brass C36000 free-cutting" | "Brass" => "C36000",
            "Bronze C93200 bearing" => "C93200",
            "Ti-6Al-4V" | "Titanium 6Al-4V" => "Ti-6Al-4V",
            "Steel" | "Plain carbon steel (68-1000 F)" => "1045",
            _ => continue,
        };
        let material = material::by_name(listed).expect("listed");
        let key = format!("{n} {}", row["material"]);
        let mut ask = |column: &str, ours: f64, within: f64| {
            if let Some(printed) = number(&row, column) {
                walk.cell(&format!("{key} {column}"), printed, Some(ours), within);
            }
        };
        ask("alpha_per_C_1e-6", material.expansion, 0.05);
        ask("alpha_per_F_1e-6", material.expansion / 1.8, 0.06);
        ask("density_kg_m3", material.density, 50.0);
        ask("density_lb_in3", material.density / 27_679.9, 0.0025);
        ask("youngs_Mpsi", material.modulus / 6.894_757, 0.55);
    }
    walk.finish(50);
}

/// HSS speeds by kind of metal of a bench lathe maker's manual, and its rule that carbide runs twice as fast.
#[test]
fn turning_speeds_of_the_reference_rows() {
    let mut walk = Walk::new("speeds.csv");
    for row in rows("speeds.csv") {
        let (kind, what) = (row["kind"].as_str(), row["material"].as_str());
        let unit = Unit::Inch;
        if kind == "rpm_example" {
            let (cs, d) = (number(&row, "speed").expect("speed"), number(&row, "diameter").expect("diameter"));
            let rpm = speed::rpm(SurfaceSpeed::feet(cs), Length::from_f64(d, unit)).expect("a diameter");
            // Printed with the shorthand 4 CS / D, 4.7 % over 12 CS / (pi D).
            walk.cell(
                &format!("{what} rpm"),
                number(&row, "rpm").expect("rpm"),
                Some(rpm * std::f64::consts::PI / 3.0),
                0.01,
            );
        }
        if kind != "turning" || row["tool"] != "HSS" || !row["feed"].is_empty() {
            continue;
        }
        let listed = match what {
            "Aluminum and alloys" => "6061",
            "Brass and bronze" => "C36000",
            "Copper" => "C11000",
            "Cast iron, soft" => "gray iron",
            "Mild steel" => "A36",
            "Tool steel" => "O1",
            "Stainless steel" => "304",
            "Titanium" => "Ti-6Al-4V",
            _ => continue,
        };
        let found = material::by_name(listed).expect("listed");
        let printed = number(&row, "speed").expect("speed");
        walk.cell(what, printed, Some(found.speeds(Tool::Hss, None).rough.in_unit(unit)), 0.01);
        walk.cell(
            &format!("{what} carbide"),
            2.0 * printed,
            Some(found.speeds(Tool::Carbide, None).rough.in_unit(unit)),
            0.01,
        );
    }
    walk.finish(19);
}
