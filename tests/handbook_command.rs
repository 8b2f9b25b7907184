//! The handbook command: what scripts read, and what people see, asked as from the command line.
//!
//! Field names are those of the design; values are checked against the published sources named beside them.

use clap::Parser;
use proptest::prelude::*;
use serde_json::{Value, json};
use turnwright::cli::handbook::{HandbookArgs, run};

fn ask(args: &[&str]) -> Result<String, String> {
    let args = std::iter::once("handbook").chain(args.iter().copied());
    let parsed = HandbookArgs::try_parse_from(args).map_err(|e| e.to_string())?;
    run(&parsed)
}

fn reply(args: &[&str]) -> Value {
    let mut all = args.to_vec();
    all.extend(["--format", "json"]);
    let text = ask(&all).unwrap_or_else(|e| panic!("{args:?}: {e}"));
    let value: Value = serde_json::from_str(&text).unwrap_or_else(|e| panic!("{args:?}: {e}\n{text}"));
    assert_eq!(value["format"], "turnwright/handbook/1", "{args:?}");
    assert!(value["units"] == "in" || value["units"] == "mm", "{args:?}");
    value
}

/// The fields of a reply that are asked about.
fn holds(args: &[&str], wanted: &Value) {
    let got = reply(args);
    for (name, value) in wanted.as_object().expect("fields") {
        assert_eq!(&got[name], value, "{args:?}: {name}\n{got:#}");
    }
}

fn near(value: &Value, wanted: f64, within: f64) -> bool {
    value.as_f64().is_some_and(|v| (v - wanted).abs() <= within)
}

/// A bar under a force, without what holds it.
const BEAM: [&str; 9] = ["deflection", "--bar", "30x150", "--force", "200", "--at", "150", "--units", "mm"];

#[test]
fn fits_as_scripts_read_them() {
    // k6 over 18 to 30 mm: +15 +2 µm (GB/T 1800.2-2020 table 24).
    holds(
        &["fit", "25 k6", "--units", "mm"],
        &json!({"size": 25.0, "code": "k6", "hole": null, "shaft": {"upper": 0.015, "lower": 0.002}, "max": 25.015, "min": 25.002, "clearance": null, "units": "mm"}),
    );
    // RC3 over .71 to 1.19 in: hole +.8 0, shaft -.8 -1.3 thousandths (ANSI B4.1 table 8a).
    holds(
        &["fit", "1.000 RC3", "--units", "in"],
        &json!({"size": 1.0, "code": "RC3", "hole": {"upper": 0.0008, "lower": 0.0}, "shaft": {"upper": -0.0008, "lower": -0.0013}, "max": 0.9992, "min": 0.9987, "clearance": {"min": 0.0008, "max": 0.0021}, "units": "in"}),
    );
    // A size with its own unit is answered in it, whatever --units says.
    holds(&["fit", "25 mm k6", "--units", "in"], &json!({"units": "mm", "max": 25.015}));
    assert!(ask(&["fit", "25 k6"]).is_err_and(|e| e.contains("--units")));
    assert!(ask(&["fit", "25 mm H20"]).is_err());
}

#[test]
fn keys_as_scripts_read_them() {
    // ASME B17.1 table 2: 1 1/4 shaft, 1/4 square key: S 1.112, T 1.367.
    let key = reply(&["key", "1.250", "--units", "in"]);
    assert_eq!(key["kind"], "parallel");
    assert!(key["number"].is_null() && key["cutter_diameter"].is_null() && key["slot_length"].is_null());
    assert_eq!((&key["width"], &key["height"]), (&json!(0.25), &json!(0.25)));
    assert!(near(&key["S"], 1.112, 0.0005) && near(&key["T"], 1.367, 0.0005));
    assert_eq!(key["seat_depth"]["min"], 0.125);
    assert!(near(&key["across_bottom"], 1.25 - key["depth_from_top"].as_f64().expect("a depth"), 1e-7));
    // DIN 6885-1: 25 mm shaft, key 8 x 7, t1 4.0, t2 3.3; the depth counts from the top.
    holds(
        &["key", "25", "--units", "mm"],
        &json!({"width": 8.0, "height": 7.0, "hub_depth": 3.3, "depth_from_top": 4.0, "across_bottom": 21.0, "S": null, "T": null}),
    );
    assert_eq!(reply(&["key", "25 mm"])["seat_depth"]["min"], 4.0);
    holds(
        &["key", "30", "--units", "mm", "--width", "8", "--height", "7"],
        &json!({"width": 8.0, "depth_from_top": 4.0, "across_bottom": 26.0}),
    );
    // B17.2 and Shigley table 7-7: 606 is 3/16 wide, cutter 3/4, B .2143, hub .0997; T and L in .875 worked.
    let wood = reply(&["key", "Woodruff 606", "--shaft", "0.875"]);
    for (name, value) in [
        ("width", json!(0.1875)),
        ("height", json!(0.313)),
        ("cutter_diameter", json!(0.75)),
        ("hub_depth", json!(0.0997)),
        ("number", json!("606")),
        ("kind", json!("woodruff")),
    ] {
        assert_eq!(wood[name], value, "{name}");
    }
    assert_eq!(wood["seat_depth"], json!({"min": 0.2143, "max": 0.2193}));
    assert!(near(&wood["arc_height"], 0.0102, 0.00005) && near(&wood["depth_from_top"], 0.2245, 0.00005));
    assert!(near(&wood["across_bottom"], 0.6505, 0.0001) && near(&wood["slot_length"], 0.687, 0.0005));
    assert!(ask(&["key", "Woodruff 613"]).is_err_and(|e| e.contains("610")));
    assert!(ask(&["key", "1.250"]).is_err() && ask(&["key", "Woodruff 606", "--shaft", "0.1"]).is_err());
}

#[test]
fn center_holes_drills_and_reliefs_as_scripts_read_them() {
    // DIN 332-1 form A 2.5: mouth 5.3, t 4.6; form B 2.5: guard 8 by .8; DIN 332-2 D M8: 6.8, 12.2 (public CAD script).
    holds(
        &["center", "A 2.5"],
        &json!({"drill_diameter": 2.5, "mouth_diameter": 5.3, "depth": 4.6, "protecting_diameter": null, "protecting_depth": null, "units": "mm"}),
    );
    holds(&["center", "B 2.5"], &json!({"protecting_diameter": 8.0, "protecting_depth": 0.8, "depth": 5.4}));
    holds(&["center", "D M8"], &json!({"drill_diameter": 6.8, "mouth_diameter": 12.2}));
    holds(&["center", "A 1/8"], &json!({"drill_diameter": 0.125, "units": "in"}));
    // Tap drill of the Unified thread chart: 1/2-13 UNC 27/64.
    holds(&["drill", "27/64"], &json!({"name": "27/64", "diameter": 0.421_875, "units": "in"}));
    holds(&["drill", "1/2-13 UNC"], &json!({"name": "27/64", "diameter": 0.421_875}));
    holds(&["drill", "8.5 mm"], &json!({"name": "8.5 mm", "diameter": 8.5, "units": "mm"}));
    // DIN 76-1:2004 table 1, P 1.5: d - 2.3, 3.2 to 5.2, r .8. DIN 509 F 0.6x0.3 for 18 to 80 mm: f 2.5, t2 .2 (IS 3428:2009).
    holds(&["relief", "M16x1.5"], &json!({"diameter": 13.7, "width_min": 3.2, "width_max": 5.2, "radius": 0.8}));
    holds(
        &["relief", "DIN 509 F", "--shaft", "25"],
        &json!({"depth": 0.3, "diameter": 24.4, "width_min": 2.5, "radius": 0.6, "t2": 0.2, "units": "mm"}),
    );
    holds(&["relief", "DIN 509 E", "--shaft", "40", "--fatigue"], &json!({"radius": 1.0, "t2": null}));
    for miss in [
        vec!["center", "A 2.6"],
        vec!["drill", "27/65"],
        vec!["drill", "8.33 mm"],
        vec!["relief", "DIN 509 F"],
        vec!["relief", "DIN 509 K", "--shaft", "25"],
        vec!["relief", "brass"],
    ] {
        assert!(ask(&miss).is_err_and(|e| e.len() > 20), "{miss:?}");
    }
}

#[test]
fn tapers_speeds_and_materials_as_scripts_read_them() {
    // TRADE P6: 1:10, half angle 2.8624°, set-over over 196 is 9.8.
    let taper = reply(&["taper", "1:10", "--length", "30", "--whole", "196", "--units", "mm"]);
    assert!(near(&taper["half_angle_deg"], 2.862_405, 1e-6) && near(&taper["included_angle_deg"], 5.724_81, 1e-5));
    assert!(near(&taper["per_foot"], 1.2, 1e-12) && taper["setover"] == 9.8 && taper["change_of_diameter"] == 3.0);
    assert!(ask(&["taper", "1:10", "--whole", "196"]).is_err(), "a bare length needs a unit");
    assert!(near(&reply(&["taper", "MT3"])["per_foot"], 0.60235, 1e-9));
    // 12 x 90 / (π 1.25) = 275.02.
    let speed = reply(&["speed", "--surface-speed", "90", "--diameter", "1.25", "--units", "in"]);
    assert!(near(&speed["rpm"], 275.02, 0.01) && speed["surface_speed"] == 90.0);
    let metric = reply(&["speed", "--surface-speed", "30", "--diameter", "50", "--units", "mm"]);
    assert!(near(&metric["rpm"], 1000.0 * 30.0 / (std::f64::consts::PI * 50.0), 1e-6));
    let steel = reply(&["speed", "--material", "1045", "--tool", "hss", "--diameter", "1.25 in"]);
    let groove = reply(&["speed", "--material", "1045", "--tool", "hss", "--diameter", "1.25 in", "--cut", "groove"]);
    assert!(near(&groove["rpm"], steel["rpm"].as_f64().expect("rpm") / 4.0, 1e-6));
    assert_eq!(reply(&["speed", "--diameter", "1 in"])["assumed"], true);
    let material = reply(&["material", "4140"]);
    assert_eq!((&material["name"], &material["density_kg_m3"]), (&json!("4140"), &json!(7850.0)));
    assert!(near(&material["expansion_per_k"], 12.3e-6, 1e-12), "Callister table B.6");
    assert!(ask(&["material", "41400"]).is_err_and(|e| e.contains("4140")));
    assert_eq!(
        reply(&["material", "12L14 cold drawn", "--bar", "1 in"])["bar"],
        json!({"upper": 0.0, "lower": -0.002})
    );
}

#[test]
fn dials_and_physics_as_scripts_read_them() {
    holds(
        &["dial", "13 tpi", "--leadscrew", "8 tpi", "--teeth", "32", "--marks", "8", "--engraved", "1 - 2 - 3 - 4 -"],
        &json!({"anywhere": false, "lines": [2, 4, 6, 8], "labels": ["2", "3", "4", "1"], "never_open": false}),
    );
    holds(
        &["dial", "16 tpi", "--leadscrew", "8 tpi", "--teeth", "32", "--marks", "8"],
        &json!({"anywhere": true, "never_open": false}),
    );
    holds(
        &["dial", "1.5 mm", "--leadscrew", "8 tpi", "--teeth", "32", "--marks", "8"],
        &json!({"lines": [], "never_open": true}),
    );
    holds(&["dial", "11 1/2 tpi", "--leadscrew", "8 tpi", "--teeth", "32", "--marks", "8"], &json!({"lines": [4, 8]}));
    // F a³/(3 E I) of a uniform bar, 200 N at the end of 30 x 150.
    let bar =
        reply(&["deflection", "--hold", "chuck", "--bar", "30x150", "--force", "200", "--at", "150", "--units", "mm"]);
    let inertia = std::f64::consts::PI * 30.0_f64.powi(4) / 64.0;
    let end = 200.0 * 150.0_f64.powi(3) / (3.0 * 207_000.0 * inertia);
    assert!(near(&bar["deflection"], end, 1e-9) && near(&bar["diameter_error"], 2.0 * end, 1e-9));
    assert!(bar["tail_reaction"] == 0.0 && bar["greatest"]["at"] == 150.0);
    // In a chuck and a steady rest: 200 N at the end of 60 behind a rest 300 from the jaws, F a²(3L + 4a)/(12EI), F (1 + 3a/2L) on the rest.
    let mut asked =
        vec!["deflection", "--hold", "chuck-rest", "--bar", "30x360", "--force", "200", "--at", "360", "--units", "mm"];
    asked.extend(["--rest", "300"]);
    let bar = reply(&asked);
    let end = 200.0 * 60.0_f64.powi(2) * (3.0 * 300.0 + 4.0 * 60.0) / (12.0 * 207_000.0 * inertia);
    assert!(near(&bar["deflection"], end, 1e-9) && near(&bar["rest_reaction"], 260.0, 1e-6), "{bar}");
    assert!(bar["tail_reaction"] == 0.0, "{bar}");
    // The same in inches and pounds: 45 lbf at the end of 1 x 6, E 30 million psi.
    let inch = reply(&[
        "deflection",
        "--hold",
        "chuck",
        "--bar",
        "1x6",
        "--force",
        "45",
        "--at",
        "6",
        "--units",
        "in",
        "--modulus",
        "30e6",
    ]);
    let end = 45.0 * 6.0_f64.powi(3) / (3.0 * 30e6 * std::f64::consts::PI / 64.0);
    assert!(near(&inch["deflection"], end, 1e-9) && inch["units"] == "in");
    assert!(near(&reply(&["whip", "25", "--length", "1000", "--units", "mm"])["rpm"], 1077.6, 0.5));
    holds(&["heat", "50", "--rise", "30", "--material", "steel", "--units", "mm"], &json!({"growth": 0.01725}));
    // R. Thibault, Turning an eccentric hole in a 3-jaw chuck (2000): radius 1.6875, throw .313, block .448.
    let eccentric = reply(&["eccentric", "0.313 in", "--diameter", "3.375"]);
    assert!(near(&eccentric["packing_narrow"], 0.448, 5e-4), "{eccentric:#}");
    holds(
        &["eccentric", "5 mm", "--diameter", "40"],
        &json!({"packing_flat": 7.5, "reading": 10.0, "swings": 50.0, "units": "mm"}),
    );
    holds(&["heat", "10", "--rise", "30", "--units", "in"], &json!({"growth": 0.00192}));
    for miss in [
        vec!["deflection", "--hold", "chuck", "--bar", "30x150", "--force", "200", "--at", "150"],
        // A rest beyond the bar, one where no rest is, none where one is.
        [&BEAM[..], &["--hold", "chuck-rest", "--rest", "200"]].concat(),
        [&BEAM[..], &["--hold", "centers", "--rest", "20"]].concat(),
        [&BEAM[..], &["--hold", "chuck-rest"]].concat(),
        vec!["deflection", "--hold", "chuck", "--bar", "30", "--force", "200", "--at", "150", "--units", "mm"],
        vec!["deflection", "--hold", "chuck", "--bar", "30x150", "--force", "200", "--at", "151", "--units", "mm"],
        vec!["whip", "25", "--length", "1000"],
        vec!["eccentric", "5", "--diameter", "40"],
        vec!["eccentric", "20 mm", "--diameter", "40"],
        vec!["heat", "50", "--rise", "30"],
        vec!["heat", "50 mm", "--rise", "hot"],
        vec!["dial", "13", "--leadscrew", "8 tpi", "--teeth", "32", "--marks", "8"],
        vec!["dial", "13 tpi", "--leadscrew", "8 tpi", "--teeth", "0", "--marks", "8"],
    ] {
        assert!(ask(&miss).is_err(), "{miss:?}");
    }
}

#[test]
fn threads_as_scripts_read_them() {
    // 5/8-18 UNF-2A: major .6236/.6149, pitch diameter .5875/.5828 (ASME B1.1 table).
    let stud = reply(&["thread", "5/8-18 UNF-2A"]);
    assert_eq!(stud["external"]["major"], json!({"max": 0.6236, "min": 0.6149}));
    assert_eq!(stud["external"]["pitch_diameter"], json!({"max": 0.5875, "min": 0.5828}));
    assert!(near(&stud["pitch"], 1.0 / 18.0, 1e-9) && stud["starts"] == 1 && stud["hand"] == "right");
    for name in [
        "designation",
        "form",
        "nominal",
        "lead",
        "internal",
        "depth",
        "compound",
        "wire",
        "over_wires",
        "lead_angle_deg",
        "blank",
        "tap_drill",
        "relief",
        "tool_flat",
        "source",
    ] {
        assert!(!stud[name].is_null(), "{name}");
    }
    let feeds = stud["compound"].as_array().expect("feeds");
    for angle in [29.0, 29.5, 30.0] {
        assert_eq!(feeds.iter().filter(|f| f["angle"] == angle).count(), 2, "both heights at {angle}");
    }
    // M16x1.5: d3 14.160, over .866 wires basic 16.325 (TRADE P4).
    let metric = reply(&["thread", "M16x1.5-6g LH"]);
    assert!(metric["hand"] == "left" && near(&metric["over_wires"]["basic"], 16.325, 0.001));
    assert_eq!(reply(&["thread", "5/8-18 UNF-2A", "--units", "mm"])["nominal"], 15.875);
    let wire = reply(&["thread", "5/8-18 UNF-2A", "--wire", "0.033"]);
    assert_eq!(wire["over_wires"]["wire"], 0.033);
    assert!(ask(&["thread", "5/8-17 UNF-2A"]).is_err_and(|e| e.contains("5/8-18")));
    assert!(ask(&["thread", "nonsense"]).is_err_and(|e| e.contains("cannot be read")));
    assert!(reply(&["thread"])["series"].as_array().is_some_and(|s| s.len() > 5));
}

/// What people write in a hurry: each is answered or told what is near.
#[test]
fn usual_slips_with_threads() {
    for (slip, thread) in [
        ("3/4-16", "3/4-16 UNF"),
        ("m16", "M16x2"),
        ("5/8 18 unf", "5/8-18 UNF"),
        ("3/4-16unf-2a", "3/4-16 UNF-2A"),
        ("m16X1,5", ""),
        ("M16 x 1.5 - 7g6g - L", "M16x1.5-7g6g-L"),
        ("tr40x7", "Tr 40x7"),
    ] {
        match ask(&["thread", slip]) {
            Ok(text) => assert!(!thread.is_empty() && text.starts_with(&format!("{thread}: ")), "{slip}: {text}"),
            Err(why) => assert!(thread.is_empty() && why.contains("decimal comma"), "{slip}: {why}"),
        }
    }
    for (slip, near) in [
        ("5/8", "5/8-18 UNF"),
        ("16", "M16x1.5"),
        ("M17", "M17x1"),
        ("5/8-17", "5/8-18 UNF"),
        ("3/4-16 unf-4a", "3A"),
        ("M16x1.5-6z", "7g6g"),
        ("M16x1.75", "M16x2"),
    ] {
        assert!(ask(&["thread", slip]).is_err_and(|e| e.contains(near)), "{slip}");
    }
    assert_eq!(reply(&["thread", "M16x1.5", "--engagement", "20"])["external"]["class"], "7g6g");
    assert!(ask(&["key", "606"]).is_ok_and(|t| t.starts_with("Woodruff key 606")));
    assert!(ask(&["fit", "25 mm K66"]).is_err_and(|e| e.contains("\"K66\" is no fit")));
    assert!(ask(&["oring", ".139 in"]).is_ok());
}

#[test]
fn the_rest_of_the_sleeve() {
    holds(&["ring", "25 mm"], &json!({"depth_a_side": 0.55, "ring": 1.2, "edge": 1.7}));
    holds(&["bearing", "6204"], &json!({"bore": 20.0, "outside": 47.0, "width": 14.0, "corner": 1.0}));
    assert_eq!(reply(&["bearing", "--bore", "20"])["bearings"].as_array().map(Vec::len), Some(3));
    assert_eq!(
        reply(&["o-ring", ".139", "--units", "in", "--bore", "1.5"])["groove_diameter"],
        json!({"min": 1.274, "max": 1.278})
    );
    assert!(near(&reply(&["wrench", "14 mm", "--round", "18 mm"])["flat_width"], 11.313_708, 1e-5));
    holds(
        &["knurl", "RAA", "--pitch", "0.8 mm", "--blank", "20 mm"],
        &json!({"growth": 0.4, "finished": 20.4, "teeth": 79}),
    );
    // A 96 DP knurl has 48 teeth on 1/2 in; class I of B94.6 is +.004 -.010 (a knurl maker's page; Machinery's Handbook 31st ed.).
    holds(&["knurl", "96 DP", "--blank", ".5"], &json!({"teeth": 48, "tracks": true, "blank_for_whole_teeth": 0.5}));
    assert_eq!(reply(&["knurl", "96"])["knurled"]["I"], json!({"upper": 0.004, "lower": -0.01}));
    assert!(ask(&["knurl", "100"]).is_err_and(|e| e.contains("64, 96, 128, 160")));
    for topic in [
        "fit", "center", "taper", "material", "thread", "key", "ring", "drill", "relief", "bearing", "wrench",
        "o-ring", "knurl",
    ] {
        assert!(ask(&[topic]).is_ok_and(|t| t.lines().count() > 2), "{topic} alone lists what there is");
    }
}

#[test]
fn topics_are_listed_and_every_answer_names_its_source() {
    let list = ask(&[]).expect("a list");
    for topic in [
        "thread",
        "fit",
        "key",
        "center",
        "drill",
        "taper",
        "relief",
        "material",
        "speed",
        "dial",
        "deflection",
        "whip",
        "heat",
        "eccentric",
    ] {
        assert!(list.contains(&format!("  {topic} ")), "{topic}");
    }
    for args in [
        vec!["fit", "25 mm k6"],
        vec!["key", "Woodruff 606"],
        vec!["center", "No. 3"],
        vec!["material", "303"],
        vec!["taper", "MT3"],
    ] {
        let text = ask(&args).expect("an answer");
        assert!(text.contains("Source: "), "{args:?}");
        let reply = reply(&args);
        assert!(reply["source"].as_array().is_some_and(|s| !s.is_empty()), "{args:?}");
        assert_eq!(reply["confirmed"], !text.contains("(from memory)"), "{args:?}");
    }
    assert!(ask(&["fit", "25 mm k6", "--both"]).is_ok_and(|t| t.contains(" in)")));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1_500))]

    /// Whatever is asked, there is an answer or a sentence: no panic.
    #[test]
    fn any_words_are_answered_or_refused(
        topic in prop::sample::select(vec!["thread", "fit", "key", "center", "drill", "taper", "relief", "material", "ring", "o-ring", "bearing", "wrench"]),
        text in "[ -~°×½]{0,18}|(M|Tr |No\\. |A |DIN 509 |Woodruff |MT|1:)?[0-9./ x-]{1,12}( ?(mm|in|k6|H7|RC3|UNC|UNF-2A|NPT|tpi|°))?",
        units in prop::sample::select(vec!["in", "mm"]), json in any::<bool>(),
    ) {
        prop_assume!(!text.starts_with('-'));
        let mut args = vec![topic, text.as_str(), "--units", units];
        if json {
            args.extend(["--format", "json"]);
        }
        match ask(&args) {
            Ok(answer) => prop_assert!(!answer.is_empty() && !answer.contains("NaN") && !answer.contains("inf ")),
            Err(why) => prop_assert!(!why.is_empty()),
        }
    }
}
