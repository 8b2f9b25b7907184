//! One random text from a seed: a believable part, a mixture of pieces, a spoiled one, or noise.

use std::fmt::Write as _;

use fastrand::Rng;

use crate::corpus::Corpus;
use crate::generate::{Dice, spoiled};
use crate::stages::Stage;

/// The text of a seed.
pub(crate) fn text(corpus: &Corpus, seed: u64, stage: Stage) -> Vec<u8> {
    let mut rng = Rng::with_seed(seed);
    // What must be planned is spoiled less often: a refused text proves nothing there.
    let kind = if stage == Stage::Check { rng.u8(0..100) } else { rng.u8(0..60) };
    match kind {
        0..20 => believable(&mut rng, corpus).into_bytes(),
        20..35 => sound(&mut rng).into_bytes(),
        35..50 => mixture(&mut rng, corpus).into_bytes(),
        50..60 => {
            let sample = pick(&mut rng, &corpus.whole).clone();
            numbers_changed(&mut rng, &sample).into_bytes()
        }
        60..85 => {
            let text = if rng.bool() { believable(&mut rng, corpus) } else { pick(&mut rng, &corpus.whole).clone() };
            spoiled(&mut Dice(rng.u64(..)), &text).into_bytes()
        }
        85..97 => {
            let mut bytes = believable(&mut rng, corpus).into_bytes();
            for _ in 0..rng.usize(1..20) {
                let at = rng.usize(0..bytes.len());
                bytes[at] = rng.u8(..);
            }
            bytes
        }
        _ => (0..rng.usize(0..400)).map(|_| rng.u8(..)).collect(),
    }
}

fn pick<'a, T>(rng: &mut Rng, from: &'a [T]) -> &'a T {
    &from[rng.usize(0..from.len())]
}

fn word(rng: &mut Rng, from: &[&'static str]) -> &'static str {
    from[rng.usize(0..from.len())]
}

/// A size in one of the ways people write it, near `thousandths` of an inch.
fn size(rng: &mut Rng, thousandths: u32) -> String {
    match rng.u8(0..8) {
        0 => format!("{} {}/16", thousandths / 1000, rng.u8(1..16)),
        1 => format!("{}/{}", rng.u8(1..64), [8, 16, 32, 64][rng.usize(0..4)]),
        2 => format!("{}.{} mm", thousandths * 254 / 10_000, rng.u8(0..10)),
        _ => format!("{}.{:03}", thousandths / 1000, thousandths % 1000),
    }
}

fn limits(rng: &mut Rng) -> &'static str {
    word(
        rng,
        &["", "", "", " ±0.002", " ±.0005", " +0/-0.001", " +0.002 -0.001", " k6", " h7", " +0.0002/-0.0001", " max"],
    )
}

/// Sections that meet end to end with sizes of their own, and pieces of the corpus lying on them.
fn believable(rng: &mut Rng, corpus: &Corpus) -> String {
    let count = if rng.u8(0..30) == 0 { rng.u32(12..40) } else { rng.u32(1..9) };
    let (mut at, mut largest, mut list) = (0, 300, String::new());
    for n in 0..count {
        at += rng.u32(40..1800);
        let diameter = rng.u32(200..1400);
        largest = largest.max(diameter);
        let d = size(rng, diameter);
        let kind = match rng.u8(0..12) {
            0 => format!(
                "thread: {}",
                word(
                    rng,
                    &[
                        "5/8-18 UNF-2A",
                        "1/2-20 UNF-2A",
                        "M16x1.5-6g LH",
                        "1-8 UNC-2A",
                        "1 1/8-5 ACME-2G",
                        "Tr 40x14(P7)-7e",
                        "G 1/2",
                        "No. 10-32 UNF-2A"
                    ]
                )
            ),
            1 => format!("relief: {d} +0/-0.010"),
            2 => "turn: stock".to_owned(),
            3 => format!("taper: 1:{}\n    large: {d}", rng.u8(4..40)),
            _ => format!("turn: {d}{}", limits(rng)),
        };
        let to =
            if n + 1 == count && rng.bool() { "end".to_owned() } else { format!("{}.{:03}", at / 1000, at % 1000) };
        let how = if rng.u8(0..12) == 0 { format!("long: {}", size(rng, 400)) } else { format!("to: {to}") };
        let _ = writeln!(list, "  - {kind}\n    {how}");
        if rng.u8(0..4) == 0 {
            let _ = writeln!(list, "    name: part {}", char::from(b'a' + (n % 26) as u8));
        }
        if rng.u8(0..8) == 0 {
            list.push_str("    carries: {part: bearing, bore: 1.000, wide: 0.500, corner: 0.030, enters: far}\n");
        }
    }
    for _ in 0..rng.usize(0..5) {
        let entry = pick(rng, &corpus.lying).clone();
        list.push_str(&moved(rng, &entry, at));
    }
    let whole = |t: u32| format!("{}.{:03}", t / 1000, t % 1000);
    let mut text = format!(
        "part: case\nunits: {}\nmaterial: {}\nstock: {} x {}\ndatum: near end\noverall: {} ±0.010\n",
        if rng.u8(0..8) == 0 { "mm" } else { "in" },
        word(rng, &["1018 cold drawn", "1045 hot rolled", "4140", "303", "12L14"]),
        whole(largest + rng.u32(0..300)),
        whole(at + rng.u32(0..1500)),
        whole(at)
    );
    if rng.u8(0..5) > 0 {
        text.push_str("tolerances: {lengths: ±0.005, diameters: ±0.002}\n");
    }
    text.push_str("features:\n");
    text.push_str(&list);
    for key in ["dims", "plan", "accept", "notes", "inside", "measured", "done", "coating", "heat treatment"] {
        if rng.u8(0..10) == 0
            && let Some(blocks) = corpus.header.get(key)
        {
            text.push_str(pick::<String>(rng, blocks));
        }
    }
    text
}

/// A shaft that a shop would make: largest in the middle, threads at the ends with their reliefs, no piece of the corpus.
fn sound(rng: &mut Rng) -> String {
    let middle = rng.u32(1000..1500);
    let (mut at, mut list) = (0, String::new());
    let mut section = |head: &str, long: u32| {
        at += long;
        let _ = writeln!(list, "  - {head}\n    to: {}.{:03}", at / 1000, at % 1000);
    };
    if rng.bool() {
        section("thread: 5/8-18 UNF-2A", rng.u32(600..1200));
        section("relief: 0.545 +0/-0.010", rng.u32(150..220));
    }
    for share in [75, 88].iter().skip(rng.usize(0..3)) {
        section(&format!("turn: 0.{:03}{}", middle.min(1100) * share / 110, limits_of_a_seat(rng)), rng.u32(300..1500));
    }
    section(&format!("turn: {}.{:03}", middle / 1000, middle % 1000), rng.u32(300..2500));
    for share in [88, 75].iter().take(rng.usize(0..3)) {
        section(&format!("turn: 0.{:03}{}", middle.min(1100) * share / 110, limits_of_a_seat(rng)), rng.u32(300..1500));
    }
    let overall = format!("{}.{:03}", at / 1000, at % 1000);
    let saw = at + 125;
    format!(
        "part: shaft\nunits: in\nmaterial: 1045 cold drawn\nstock: {}.{:03} x {}.{:03}\ndatum: near end\noverall: {overall} ±0.010\n\
         tolerances: {{lengths: ±0.005, diameters: ±0.002}}\nfeatures:\n{list}",
        (middle + 63) / 1000,
        (middle + 63) % 1000,
        saw / 1000,
        saw % 1000
    )
}

fn limits_of_a_seat(rng: &mut Rng) -> &'static str {
    word(rng, &["", " ±0.001", " +0/-0.001", " +0/-0.0005"])
}

/// A piece with its places brought inside a part of this length.
fn moved(rng: &mut Rng, entry: &str, overall: u32) -> String {
    let mut out = String::new();
    for line in entry.lines() {
        let line = line.trim_end();
        match line.trim_start().split_once(": ") {
            Some((key @ ("at" | "from"), value))
                if value.starts_with(|c: char| c.is_ascii_digit()) && rng.u8(0..5) > 0 =>
            {
                let at = rng.u32(0..overall.max(2));
                let _ = writeln!(out, "    {key}: {}.{:03}", at / 1000, at % 1000);
            }
            _ => {
                let body = line.trim_start();
                let _ = writeln!(out, "{}{body}", if body.starts_with("- ") { "  " } else { "    " });
            }
        }
    }
    out
}

/// Pieces of the corpus as they come.
fn mixture(rng: &mut Rng, corpus: &Corpus) -> String {
    let mut text = String::from("part: case\nunits: in\ndatum: left end\n");
    for (key, blocks) in &corpus.header {
        let odds = if matches!(key.as_str(), "overall" | "stock" | "material" | "tolerances") { 8 } else { 1 };
        if !matches!(key.as_str(), "part" | "units" | "datum") && rng.u8(0..10) < odds {
            text.push_str(pick::<String>(rng, blocks));
        }
    }
    text.push_str("features:\n");
    for _ in 0..rng.usize(1..8) {
        text.push_str(&indented(pick::<String>(rng, &corpus.sections)));
    }
    for _ in 0..rng.usize(0..6) {
        text.push_str(&indented(pick::<String>(rng, &corpus.lying)));
    }
    text
}

fn indented(entry: &str) -> String {
    let lines = entry.lines().map(|l| {
        let body = l.trim_start();
        format!("{}{body}", if body.starts_with("- ") { "  " } else { "    " })
    });
    lines.collect()
}

/// Numbers pushed about: zero, huge, negative, one digit off.
fn numbers_changed(rng: &mut Rng, text: &str) -> String {
    let mut out = String::new();
    let mut number = String::new();
    for c in text.chars().chain(['\n']) {
        if c.is_ascii_digit() || (c == '.' && !number.is_empty()) {
            number.push(c);
            continue;
        }
        if !number.is_empty() {
            let changed = match rng.u8(0..60) {
                0 => "0".to_owned(),
                1 => format!("{number}9"),
                2 => format!("-{number}"),
                3 => "99999999999999999999".to_owned(),
                4 => number.chars().rev().collect(),
                5 => "0.0000001".to_owned(),
                _ => number.clone(),
            };
            out.push_str(&changed);
            number.clear();
        }
        out.push(c);
    }
    out
}
