//! Thread limits against published tables: every row of `tests/reference/`, each with its source in the row.
//!
//! A cell that does not agree must stand in `tests/reference/threads_disagree.csv` with the reason; a cell listed there that
//! does agree fails too, so the list only holds what is true.

use std::collections::BTreeMap;

use turnwright::handbook::drill;
use turnwright::handbook::thread::{Asked, Family, ThreadData, WhitworthSeries, limits, read, series};
use turnwright::unit::{Length, Unit, read_number};

/// Rows of a reference table, by column name. Cells may be quoted.
fn rows(text: &str) -> Vec<BTreeMap<String, String>> {
    let mut lines = text.lines().filter(|l| !l.starts_with('#') && !l.trim().is_empty());
    let head = cells(lines.next().expect("a head line"));
    lines.map(|l| head.iter().cloned().zip(cells(l)).collect()).collect()
}

fn cells(line: &str) -> Vec<String> {
    let (mut out, mut cell, mut quoted) = (Vec::new(), String::new(), false);
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ',' if !quoted => out.push(std::mem::take(&mut cell)),
            c => cell.push(c),
        }
    }
    out.push(cell);
    out
}

fn data(designation: &str) -> ThreadData {
    let d = read(designation).unwrap_or_else(|e| panic!("{designation}: {e:?}"));
    limits(&d, &Asked::special()).unwrap_or_else(|e| panic!("{designation}: {e:?}"))
}

/// Compares cells and collects what disagrees.
struct Walk {
    table: &'static str,
    asked: usize,
    differ: Vec<(String, String, String, String)>,
}

impl Walk {
    fn new(table: &'static str) -> Self {
        Self { table, asked: 0, differ: Vec::new() }
    }

    /// Agrees when ours lies within half a unit of the cell's last place.
    fn cell(&mut self, row: &str, name: &str, printed: &str, unit: Unit, ours: Length) {
        let printed = printed.trim();
        if printed.is_empty() {
            return;
        }
        self.asked += 1;
        let value = read_number(printed, unit).unwrap_or_else(|e| panic!("{row} {name} {printed}: {e:?}")).value;
        let places = printed.split_once('.').map_or(0, |(_, p)| p.len());
        let step = Length::from_pm(unit.one().pm() / 10_i64.pow(u32::try_from(places).expect("few places")));
        // Exactly half a step away agrees too: printers round 17/32 = .53125 to .5312 as well as to .5313.
        if (ours - value).abs().times(2) > step {
            let shown = turnwright::unit::show::plain(ours, unit, 4);
            self.differ.push((row.to_owned(), name.to_owned(), printed.to_owned(), shown));
        }
    }

    fn text(&mut self, row: &str, name: &str, printed: &str, ours: &str) {
        self.asked += 1;
        if printed != ours {
            self.differ.push((row.to_owned(), name.to_owned(), printed.to_owned(), ours.to_owned()));
        }
    }

    /// Fails unless exactly the listed cells disagree.
    fn finish(self) {
        let listed: Vec<(String, String, String)> = rows(include_str!("reference/threads_disagree.csv"))
            .into_iter()
            .filter(|r| r["table"] == self.table)
            .map(|r| {
                assert!(r["reason"].len() > 10, "{} {}: give the reason", r["row"], r["cell"]);
                (r["row"].clone(), r["cell"].clone(), r["printed"].clone())
            })
            .collect();
        let key = |d: &(String, String, String, String)| (d.0.clone(), d.1.clone(), d.2.clone());
        let unlisted: Vec<_> = self.differ.iter().filter(|d| !listed.contains(&key(d))).collect();
        let stale: Vec<_> = listed.iter().filter(|l| !self.differ.iter().any(|d| key(d) == **l)).collect();
        println!(
            "{}: {} of {} cells agree, {} explained",
            self.table,
            self.asked - self.differ.len(),
            self.asked,
            listed.len()
        );
        for d in &unlisted {
            println!("differs: {},{},{},{},", self.table, d.0, d.1, d.2);
            println!("    ours {}", d.3);
        }
        assert!(unlisted.is_empty(), "{}: {} cells differ from print without a reason", self.table, unlisted.len());
        assert!(stale.is_empty(), "{}: listed as differing, but agree: {stale:?}", self.table);
        assert!(self.asked > 0, "{}: nothing was asked", self.table);
    }
}

#[test]
fn unified_external() {
    let mut walk = Walk::new("unified");
    for r in rows(include_str!("reference/unified.csv")) {
        let name = format!("{}-{}", r["designation"], r["class"]);
        let e = data(&name).external.expect("external");
        let inch = Unit::Inch;
        walk.cell(&name, "allowance", &r["allowance"], inch, e.allowance);
        walk.cell(&name, "major_max", &r["major_max"], inch, e.major.max);
        walk.cell(&name, "major_min", &r["major_min"], inch, e.major.min);
        walk.cell(&name, "pd_max", &r["pd_max"], inch, e.pitch_diameter.max);
        walk.cell(&name, "pd_min", &r["pd_min"], inch, e.pitch_diameter.min);
        walk.cell(&name, "unr_minor_max", &r["unr_minor_max"], inch, e.minor.max);
    }
    walk.finish();
}

#[test]
fn unified_external_and_internal_of_further_printings() {
    let mut walk = Walk::new("unified_found");
    for r in rows(include_str!("reference/unified_found.csv")) {
        let name = format!("{}-{}", r["designation"], r["class"]);
        let d = data(&name);
        let (e, i) = (d.external.expect("external"), d.internal.expect("internal"));
        for (cell, ours) in [
            ("allowance", e.allowance),
            ("major_max", e.major.max),
            ("major_min", e.major.min),
            ("pd_max", e.pitch_diameter.max),
            ("pd_min", e.pitch_diameter.min),
            ("unr_minor_max", e.minor.max),
            ("int_minor_min", i.minor.min),
            ("int_minor_max", i.minor.max),
            ("int_pd_min", i.pitch_diameter.min),
            ("int_pd_max", i.pitch_diameter.max),
            ("int_major_min", i.major_min),
        ] {
            walk.cell(&name, cell, &r[cell], Unit::Inch, ours);
        }
    }
    walk.finish();
}

#[test]
fn acme_general_purpose() {
    let mut walk = Walk::new("acme");
    for r in rows(include_str!("reference/acme.csv")) {
        let size = r["designation"].replace("(stub as printed)", "STUB").replace("ACME STUB", "STUB ACME");
        let name = format!("{size}-{}", r["class"]).replace(" -", "-");
        let e = data(&name).external.expect("external");
        let inch = Unit::Inch;
        walk.cell(&name, "major_max", &r["major_max"], inch, e.major.max);
        walk.cell(&name, "major_min", &r["major_min"], inch, e.major.min);
        walk.cell(&name, "pd_max", &r["pd_max"], inch, e.pitch_diameter.max);
        walk.cell(&name, "pd_min", &r["pd_min"], inch, e.pitch_diameter.min);
        walk.cell(&name, "minor_max", &r["minor_max"], inch, e.minor.max);
        walk.cell(&name, "minor_min", &r["minor_min"], inch, e.minor.min);
    }
    walk.finish();
}

#[test]
fn acme_allowances() {
    let mut walk = Walk::new("acme_allowance");
    for r in rows(include_str!("reference/acme_allowance.csv")) {
        for class in ["2G", "3G", "4G"] {
            // Asked at the upper end of the range, where a formula in the diameter would go wrong.
            let to = &r["to"];
            let name = format!("{to}-16 ACME-{class}");
            if to.starts_with("0.1875") {
                // Below the smallest Acme thread worked here: 3/16 is the least.
                let e = data(&name).external.expect("external");
                walk.cell(&name, "allowance", &r[&format!("allow_{class}")], Unit::Inch, e.allowance);
                continue;
            }
            let e = data(&format!("{to}-8 ACME-{class}")).external.expect("external");
            walk.cell(&name, "allowance", &r[&format!("allow_{class}")], Unit::Inch, e.allowance);
        }
    }
    walk.finish();
}

#[test]
fn acme_form() {
    let mut walk = Walk::new("acme_form");
    for r in rows(include_str!("reference/acme_form.csv")) {
        let tpi = if r["tpi"] == "1.3333" { "1 1/3" } else { &r["tpi"] };
        let name = format!("5-{tpi} ACME-2G");
        let d = data(&name);
        walk.cell(&name, "total_height", &r["total_height"], Unit::Inch, d.depth);
        walk.cell(&name, "root_flat_Frn", &r["root_flat_Frn"], Unit::Inch, d.tool_flat);
    }
    walk.finish();
}

#[test]
fn iso_metric() {
    let mut walk = Walk::new("metric");
    for r in rows(include_str!("reference/metric.csv")) {
        let mm = Unit::Millimetre;
        let name = format!("{}-{}", r["designation"], r["class_ext"]);
        let e = data(&name).external.expect("external");
        walk.cell(&name, "major_max", &r["major_max"], mm, e.major.max);
        walk.cell(&name, "major_min", &r["major_min"], mm, e.major.min);
        walk.cell(&name, "pd_max", &r["pd_max"], mm, e.pitch_diameter.max);
        walk.cell(&name, "pd_min", &r["pd_min"], mm, e.pitch_diameter.min);
        walk.cell(&name, "minor_d1_max", &r["minor_d1_max"], mm, e.minor.max);
        walk.cell(&name, "minor_d3_min", &r["minor_d3_min"], mm, e.minor.min);
        if r["class_int"].is_empty() {
            continue;
        }
        let name = format!("{}-{}", r["designation"], r["class_int"]);
        let i = data(&name).internal.expect("internal");
        walk.cell(&name, "int_minor_min", &r["int_minor_min"], mm, i.minor.min);
        walk.cell(&name, "int_minor_max", &r["int_minor_max"], mm, i.minor.max);
        walk.cell(&name, "int_pd_min", &r["int_pd_min"], mm, i.pitch_diameter.min);
        walk.cell(&name, "int_pd_max", &r["int_pd_max"], mm, i.pitch_diameter.max);
        walk.cell(&name, "int_major_min", &r["int_major_min"], mm, i.major_min);
    }
    walk.finish();
}

#[test]
fn trapezoidal() {
    let mut walk = Walk::new("trapezoidal");
    for r in rows(include_str!("reference/trapezoidal.csv")) {
        let mm = Unit::Millimetre;
        let name = format!("{}-{}", r["designation"], r["class_ext"]);
        let d = data(&name);
        let (e, i) = (d.external.expect("external"), d.internal.expect("internal"));
        walk.cell(&name, "major_max_d", &r["major_max_d"], mm, e.major.max);
        walk.cell(&name, "major_min", &r["major_min"], mm, e.major.min);
        walk.cell(&name, "pd_max", &r["pd_max"], mm, e.pitch_diameter.max);
        walk.cell(&name, "pd_min", &r["pd_min"], mm, e.pitch_diameter.min);
        walk.cell(&name, "minor_max_d3", &r["minor_max_d3"], mm, e.minor.max);
        walk.cell(&name, "minor_min", &r["minor_min"], mm, e.minor.min);
        walk.cell(&name, "int_minor_min_D1", &r["int_minor_min_D1"], mm, i.minor.min);
        walk.cell(&name, "int_minor_max", &r["int_minor_max"], mm, i.minor.max);
        walk.cell(&name, "int_pd_min_D2", &r["int_pd_min_D2"], mm, i.pitch_diameter.min);
        walk.cell(&name, "int_pd_max", &r["int_pd_max"], mm, i.pitch_diameter.max);
        walk.cell(&name, "int_major_min_D4", &r["int_major_min_D4"], mm, i.major_min);
    }
    walk.finish();
}

#[test]
fn tap_drills() {
    let mut walk = Walk::new("drills_tap");
    for r in rows(include_str!("reference/drills_tap.csv")) {
        let d = data(&r["thread"]);
        let unit = if r["units"] == "in" { Unit::Inch } else { Unit::Millimetre };
        let drill = d.tap_drill.expect("a drill");
        let printed = if unit == Unit::Millimetre { format!("{} mm", r["tap_drill"]) } else { r["tap_drill"].clone() };
        walk.text(&r["thread"], "tap_drill", &printed, &drill.name);
        walk.cell(&r["thread"], "drill_dia", &r["drill_dia"], unit, drill.diameter);
    }
    walk.finish();
}

#[test]
fn iso_metric_whole_list() {
    let mut walk = Walk::new("metric_threadlib");
    for r in rows(include_str!("reference/metric_threadlib.csv")) {
        let name = r["designation"].clone();
        let e = data(&format!("{name}-6g")).external.expect("external");
        let i = data(&format!("{name}-6H")).internal.expect("internal");
        for (cell, ours) in [
            ("major_max", e.major.max),
            ("major_min", e.major.min),
            ("pd_max", e.pitch_diameter.max),
            ("pd_min", e.pitch_diameter.min),
            ("minor_max", e.minor.max),
            ("minor_min", e.minor.min),
            ("int_minor_min", i.minor.min),
            ("int_minor_max", i.minor.max),
            ("int_pd_min", i.pitch_diameter.min),
            ("int_pd_max", i.pitch_diameter.max),
        ] {
            walk.cell(&name, cell, &r[cell], Unit::Millimetre, ours);
        }
    }
    walk.finish();
}

#[test]
fn iso_metric_internal_grades() {
    let mut walk = Walk::new("metric_internal_grades");
    for r in rows(include_str!("reference/metric_internal_grades.csv")) {
        for class in ["4H", "5H", "6H"] {
            let name = format!("{}-{class}", r["designation"]);
            let i = data(&name).internal.expect("internal");
            let micrometres = i.pitch_diameter.band().times(1000);
            walk.cell(&name, "pd_tolerance", &r[class], Unit::Millimetre, micrometres);
        }
    }
    walk.finish();
}

#[test]
fn trapezoidal_further_rows() {
    let mut walk = Walk::new("trapezoidal_more");
    for r in rows(include_str!("reference/trapezoidal_more.csv")) {
        let name = format!("Tr {}x{}-7e", r["nominal"], r["pitch"]);
        let d = data(&name);
        let (e, i) = (d.external.expect("external"), d.internal.expect("internal"));
        for (cell, ours) in [
            ("major_max", e.major.max),
            ("major_min", e.major.min),
            ("pd_max", e.pitch_diameter.max),
            ("pd_min", e.pitch_diameter.min),
            ("minor_max", e.minor.max),
            ("minor_min", e.minor.min),
            ("int_minor_min", i.minor.min),
            ("int_minor_max", i.minor.max),
            ("int_pd_min", i.pitch_diameter.min),
            ("int_pd_max", i.pitch_diameter.max),
            ("int_major_min", i.major_min),
        ] {
            walk.cell(&name, cell, &r[cell], Unit::Millimetre, ours);
        }
    }
    walk.finish();
}

#[test]
fn stub_acme_basic_dimensions() {
    let mut walk = Walk::new("stub_acme");
    for r in rows(include_str!("reference/stub_acme.csv")) {
        let name = format!("{}-{} STUB ACME-2G", r["size"], r["tpi"]);
        let d = data(&name);
        let inch = Unit::Inch;
        let internal = d.internal.as_ref().expect("internal");
        walk.cell(&name, "pitch_diameter", &r["pitch_diameter"], inch, internal.pitch_diameter.min);
        walk.cell(&name, "minor_diameter", &r["minor_diameter"], inch, internal.minor.min);
        // The printed flat is the crest's, .4224 P; the root's is smaller by .0052 or .0026 for the clearance.
        let clearance = if d.pitch.to_f64(inch) < 0.0999 { 26 } else { 52 };
        walk.cell(&name, "flat", &r["flat"], inch, d.tool_flat + Length::inch_tenths(clearance));
        let degrees: f64 = r["lead_degrees"].parse().expect("degrees");
        let minutes: f64 = r["lead_minutes"].parse().expect("minutes");
        walk.asked += 1;
        if (d.lead_angle - degrees - minutes / 60.0).abs() > 0.51 / 60.0 {
            walk.differ.push((name, "lead".into(), format!("{degrees} {minutes}"), d.lead_angle.to_string()));
        }
    }
    walk.finish();
}

#[test]
fn taper_pipe_threads() {
    let mut walk = Walk::new("npt");
    for r in rows(include_str!("reference/npt.csv")) {
        let name = format!("{}-{} NPT", r["size"], r["tpi"]);
        let taper = data(&name).taper.expect("taper");
        walk.cell(&name, "e1", &r["e1"], Unit::Inch, taper.gauge_plane);
        walk.cell(&name, "l1", &r["l1"], Unit::Inch, taper.gauge_length);
        walk.cell(&name, "l2", &r["l2"], Unit::Inch, taper.useful_length);
    }
    walk.finish();
}

#[test]
fn parallel_pipe_threads() {
    let mut walk = Walk::new("pipe_parallel");
    for r in rows(include_str!("reference/pipe_parallel.csv")) {
        let name = format!("G {}", r["size"]);
        let (a, b) = (data(&format!("{name} A")), data(&format!("{name} B")));
        let (e, i) = (a.external.as_ref().expect("external"), a.internal.as_ref().expect("internal"));
        let b = b.external.expect("external");
        for (cell, ours) in [
            ("d", e.major.max),
            ("d2", e.pitch_diameter.max),
            ("d1", i.minor.min),
            ("int_pd_tol", i.pitch_diameter.band()),
            ("ext_pd_tol_a", e.pitch_diameter.band()),
            ("ext_pd_tol_b", b.pitch_diameter.band()),
            ("int_minor_tol", i.minor.band()),
            ("ext_major_tol", e.major.band()),
            ("tap_drill", a.tap_drill.as_ref().expect("a drill").diameter),
        ] {
            walk.cell(&name, cell, &r[cell], Unit::Millimetre, ours);
        }
        assert_eq!(a.pitch.show(), r["tpi"], "{name}");
    }
    walk.finish();
}

#[test]
fn whitworth_series() {
    let mut walk = Walk::new("whitworth_series");
    let listed = rows(include_str!("reference/whitworth_series.csv"));
    for r in &listed {
        let name = format!("{} {}", r["size"], r["series"]);
        let pitch = data(&name).pitch.nearest();
        walk.cell(&name, "pitch", &r["pitch"], Unit::Millimetre, pitch);
    }
    walk.finish();
    for (word, series_of) in [("BSW", WhitworthSeries::Bsw), ("BSF", WhitworthSeries::Bsf)] {
        let printed = listed.iter().filter(|r| r["series"] == word).count();
        assert_eq!(series(Family::Whitworth { series: series_of }).len(), printed, "{word}");
    }
}

#[test]
fn reliefs_of_din_76() {
    let mut walk = Walk::new("din76");
    for r in rows(include_str!("reference/din76.csv")) {
        let name = format!("M20x{}", r["pitch"]);
        let relief = data(&name).relief.expect("relief");
        let mm = Unit::Millimetre;
        walk.cell(&name, "below_d", &r["below_d"], mm, Length::PER_MM.times(20) - relief.diameter);
        walk.cell(&name, "g1", &r["g1"], mm, relief.width_min);
        walk.cell(&name, "g2", &r["g2"], mm, relief.width_max);
        walk.cell(&name, "radius", &r["radius"], mm, relief.radius.expect("radius"));
    }
    walk.finish();
}

#[test]
fn number_and_letter_drills() {
    let mut walk = Walk::new("drills_series");
    for r in rows(include_str!("reference/drills_series.csv")) {
        let found = drill::find(&r["name"]).unwrap_or_else(|| panic!("drill {}", r["name"]));
        assert_eq!(found.name, r["name"].trim_start_matches('#'));
        walk.cell(&r["name"], "diameter", &r["diameter"], Unit::Inch, found.diameter);
    }
    walk.finish();
}
