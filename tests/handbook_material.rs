//! Materials: names, conditions, bar tolerances, speeds.

use turnwright::handbook::material::{self, Carbon, Caution, Condition, Tool};
use turnwright::handbook::speed::{self, SurfaceSpeed};
use turnwright::unit::{Length, Unit};

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
        include_str!("../src/handbook/data/material.csv").lines().filter(|l| !l.starts_with('#')).count() - 1
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
