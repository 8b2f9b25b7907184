//! Every entry of the trade's vocabulary (project facts, TRADE §9, both countries' words; no other source): understood as a word
//! of this description, refused with two readings, answered with where it is said, or a word of the shop file.

use turnwright::model::slip::Fault;
use turnwright::read;

/// What becomes of a word.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Becomes {
    /// A kind of feature, by our word.
    Kind(&'static str),
    /// A key of the head, by our word.
    Head(&'static str),
    /// Refused with two readings where it stands as a key.
    Two,
    /// Refused with two readings where it stands behind a size.
    TwoInSize,
    /// Answered with one sentence, as a key.
    Said,
    /// Answered with one sentence, behind a size.
    SaidInSize,
    /// A value of `end:` with two readings.
    TwoAsEnd,
    /// Read as part of a value: a line that reads without a slip.
    Reads(&'static str),
    /// A key of the shop file.
    Shop(&'static str),
}

use Becomes::{Head, Kind, Reads, Said, SaidInSize, Shop, Two, TwoAsEnd, TwoInSize};

const WORDS: &[(&str, Becomes)] = &[
    // Stock and work.
    ("bar", Head("stock")),
    ("blank", Head("stock")),
    ("billet", Head("stock")),
    ("slug", Head("stock")),
    ("workpiece", Head("part")),
    ("job", Two),
    // Datum end.
    ("datum end", Head("datum")),
    ("zero end", Head("datum")),
    ("reference face", Head("datum")),
    ("datum face", Head("datum")),
    ("front", TwoAsEnd),
    ("back", TwoAsEnd),
    ("left", TwoAsEnd),
    ("right", TwoAsEnd),
    ("headstock end", TwoAsEnd),
    ("tailstock end", TwoAsEnd),
    // Shoulders.
    ("collar", Kind("turn")),
    ("flange", Kind("turn")),
    ("boss", Kind("turn")),
    ("spigot", Kind("turn")),
    ("pilot", Kind("turn")),
    ("journal", Kind("turn")),
    ("seat", Kind("turn")),
    ("stub", Kind("turn")),
    ("step", Kind("turn")),
    ("tang", Kind("turn")),
    ("shoulder", Two),
    ("shank", Kind("turn")),
    ("land", Two),
    // Undercuts and reliefs.
    ("relief", Kind("relief")),
    ("gorge", Kind("relief")),
    ("run-out groove", Kind("relief")),
    ("thread relief", Kind("relief")),
    ("thread run-out", Kind("relief")),
    ("waist", Kind("relief")),
    ("undercut", Kind("undercut")),
    ("groove", Kind("groove")),
    ("neck", Two),
    ("recess", Two),
    // Grooves.
    ("snap ring groove", Kind("ring groove")),
    ("circlip groove", Kind("ring groove")),
    ("retaining ring groove", Kind("ring groove")),
    ("O-ring groove", Kind("o ring groove")),
    ("gland", Two),
    ("snap ring", Said),
    ("circlip", Said),
    ("retaining ring", Said),
    // Edges.
    ("chamfer", Kind("chamfer")),
    ("bevel", Kind("chamfer")),
    ("break edge", Kind("chamfer")),
    ("lead-in", Kind("chamfer")),
    ("fillet", Kind("fillet")),
    ("inside corner", Kind("fillet")),
    ("corner radius", Kind("fillet")),
    ("inside corner radius", Kind("fillet")),
    ("radius", Two),
    ("sharp", SaidInSize),
    // Threads.
    ("major diameter", Said),
    ("minor diameter", Said),
    ("pitch diameter", Said),
    ("outside diameter", Said),
    ("root diameter", Said),
    ("core diameter", Said),
    ("effective diameter", Said),
    ("tpi", Said),
    ("lead", Said),
    ("starts", Said),
    ("double start", Said),
    ("two-start", Said),
    ("single start", Said),
    ("depth of thread", Two),
    ("double depth", Two),
    ("pitch", Reads("features: [{knurl: 0.8 mm diamond, diameter: 0.875 ±0.01, to: 2}]")),
    ("clearance", Two),
    ("right hand", Said),
    ("left hand", Said),
    ("class", Said),
    ("chase", Said),
    ("single point", Said),
    ("screw-cut", Said),
    ("screw thread", Kind("thread")),
    // Keyseats.
    ("keyseat", Kind("keyseat")),
    ("keyway", Kind("keyseat")),
    ("key slot", Kind("keyseat")),
    ("feather key", Said),
    ("sunk key", Said),
    ("sliding key", Said),
    ("Woodruff", Reads("features: [{turn: 0.875, to: 2}, {keyway: Woodruff 606, at: 1}]")),
    ("gib-head key", Said),
    ("half moon key", Said),
    ("disc key", Said),
    // Fits.
    ("slip fit", SaidInSize),
    ("sliding fit", SaidInSize),
    ("press fit", SaidInSize),
    ("shrink fit", SaidInSize),
    ("transition fit", SaidInSize),
    ("interference fit", SaidInSize),
    ("push fit", TwoInSize),
    ("tap fit", TwoInSize),
    ("snug", TwoInSize),
    ("light press", TwoInSize),
    ("transition", SaidInSize),
    ("H7/k6", Reads("features: [{turn: 20 mm k6, to: 2, carries: {part: gear, bore: 20 mm H7}}]")),
    // Operations.
    ("face", Said),
    ("facing", Said),
    ("square the end", Said),
    ("plunge", Said),
    ("ream", Said),
    ("spot", Two),
    ("counterbore", Said),
    ("c'bore", Said),
    ("countersink", Said),
    ("csk", Said),
    ("centre drill", Kind("center hole")),
    ("file", Said),
    ("polish", Said),
    ("indicate", Said),
    ("clock", Said),
    ("true up", Said),
    ("pick up", Said),
    ("touch off", Said),
    ("scratch pass", Said),
    ("spring pass", Said),
    ("rough", Said),
    ("semi-finish", Said),
    ("deburr", Said),
    ("knurl", Kind("knurl")),
    ("bore", Kind("hole")),
    ("finish cut", Said),
    ("part off", Reads("plan: {part off: yes}")),
    ("cut-off", Reads("plan: {cut-off: yes}")),
    // Holding.
    ("chuck", Reads("plan: {holding: chuck}")),
    ("between centres", Reads("plan: {holding: between centres}")),
    ("collet", Shop("collets: [1/2]")),
    ("dog", Shop("dogs: [{largest: 1.5}]")),
    ("carrier", Shop("carriers: [{largest: 1.5}]")),
    ("live center", Two),
    ("dead centre", Said),
    ("rotating centre", Said),
    ("three-jaw chuck", Said),
    ("four-jaw chuck", Said),
    ("4-jaw chuck", Reads("plan: {holding: 4-jaw chuck}")),
    ("soft jaws", Reads("plan: {holding: soft jaws}")),
    ("arbor", Two),
    ("mandrel", Said),
    ("steady rest", Said),
    ("fixed steady", Said),
    ("follow rest", Said),
    ("travelling steady", Said),
    ("faceplate", Said),
    ("angle plate", Said),
    ("V-block", Said),
    ("cathead", Said),
    ("spider", Said),
    ("drive plate", Said),
    ("catch plate", Said),
    // The machine.
    ("compound rest", Said),
    ("top slide", Said),
    ("cross slide", Said),
    ("carriage", Said),
    ("saddle", Said),
    ("apron", Said),
    ("half-nut", Said),
    ("tailstock", Said),
    ("poppet", Said),
    ("ways", Said),
    ("bed", Said),
    ("change wheels", Shop("change wheels: [20, 40]")),
    ("leadscrew", Shop("leadscrew: 8 tpi")),
    ("thread dial", Shop("thread dial: {teeth: 32, marks: 8}")),
    ("chasing dial", Shop("chasing dial: {teeth: 32, marks: 8}")),
    ("thread indicator", Shop("thread indicator: {teeth: 32, marks: 8}")),
    ("quick-change gearbox", Shop("quick-change gearbox: {tpi: [8, 10]}")),
    ("swing", Shop("swing: 10")),
    ("centre height", Said),
    // Measuring.
    ("height gage", Shop("instruments: [{instrument: height gage}]")),
    ("caliper", Shop("instruments: [{instrument: caliper}]")),
    ("depth micrometer", Shop("instruments: [{instrument: depth micrometer}]")),
    ("mic", Said),
    ("surface plate", Said),
    ("DTI", Said),
    ("over wires", Said),
    ("three wires", Said),
    ("go/no-go", Said),
    ("runout", Two),
    ("eccentricity", Two),
    ("TIR", Reads("features: [{turn: 1, to: 1, name: a}, {turn: 7/8, to: 2, true to: a within 0.001 TIR}]")),
    ("FIM", Reads("features: [{turn: 1, to: 1, name: a}, {turn: 7/8, to: 2, true to: a within 0.001 FIM}]")),
    // Figures.
    ("tenths", TwoInSize),
    ("mil", TwoInSize),
    ("off the diameter", TwoInSize),
    ("a side", TwoInSize),
    // The bar's state.
    ("CRS", Reads("material: 1018 CRS")),
    ("CD", Reads("material: 1018 CD")),
    ("PH", Reads("material: 4140 PH")),
    ("annealed", Reads("material: 4140 annealed")),
    ("HRS", Reads("material: 1018 HRS")),
    ("TGP", Reads("material: 1045 TGP")),
    ("bright mild", Reads("material: bright mild steel")),
    ("silver steel", Reads("material: silver steel")),
    ("drill rod", Reads("material: drill rod")),
];

const HEAD: [(&str, &str); 4] = [("part", "p"), ("units", "in"), ("datum", "one end"), ("overall", "2 ±0.01")];

fn description(own: &str) -> String {
    let own_key = own.split(':').next().unwrap_or_default();
    let lines: Vec<String> = HEAD.iter().filter(|(k, _)| *k != own_key).map(|(k, v)| format!("{k}: {v}\n")).collect();
    let mut text = lines.concat();
    text.push_str(own);
    text.push('\n');
    if own_key != "features" {
        text.push_str("features: [{turn: 1, to: 2}]\n");
    }
    text
}

fn readings(text: &str) -> Vec<usize> {
    let read = read::part("p", text.as_bytes());
    let count = |s: &turnwright::model::Slip| match &s.fault {
        Fault::TradeWord { readings, .. } => Some(readings.len()),
        _ => None,
    };
    read.slips.iter().filter_map(count).collect()
}

#[test]
fn every_word_of_the_trade_is_understood_or_answered() {
    assert!(WORDS.len() > 165, "{}", WORDS.len());
    for (word, becomes) in WORDS {
        let entry = |line: &str| {
            format!("{}  - {{{line}}}\n", description("features:").trim_end_matches("features: [{turn: 1, to: 2}]\n"))
        };
        match *becomes {
            Kind(ours) => {
                let found = read::keys::KINDS.iter().find(|k| {
                    let folded = read::keys::fold(word);
                    k.word == folded || k.also.contains(&folded.as_str())
                });
                assert_eq!(found.map(|k| k.word), Some(ours), "{word}");
            }
            Head(ours) => {
                let folded = read::keys::fold(word);
                let found = read::keys::all().find(|k| {
                    k.scopes.contains(&read::keys::Scope::Header)
                        && (k.word == folded || k.also.contains(&folded.as_str()))
                });
                assert_eq!(found.map(|k| k.word), Some(ours), "{word}");
            }
            Two => assert_eq!(readings(&entry(&format!("\"{word}\": 1, to: 2"))), [2], "{word}"),
            Said => assert_eq!(readings(&entry(&format!("\"{word}\": 1, to: 2"))), [1], "{word}"),
            TwoInSize => assert_eq!(readings(&entry(&format!("turn: 1 {word}, to: 2"))), [2], "{word}"),
            SaidInSize => assert_eq!(readings(&entry(&format!("turn: 1 {word}, to: 2"))), [1], "{word}"),
            TwoAsEnd => {
                let text = entry("turn: 1, to: 2") + &format!("  - {{chamfer: 0.03 x 45°, end: {word}}}\n");
                assert_eq!(readings(&text), [2], "{word}");
            }
            Reads(line) => {
                let text = description(line);
                assert_eq!(read::part("p", text.as_bytes()).slips, [], "{word}: {text}");
            }
            Shop(line) => {
                let text = format!("shop: s\nunits: in\n{line}\n");
                assert_eq!(read::shop("s", text.as_bytes()).slips, [], "{word}");
            }
        }
    }
}

/// The depth of a thread has two readings; a thou has one, and is written out; a near miss gets the nearest word.
#[test]
fn depths_thous_and_near_misses() {
    let thread = description("features: [{thread: 5/8-11 UNC-2A, depth: 0.05, to: 2}]");
    assert_eq!(readings(&thread), [2]);
    for (size, meant) in [("1.000 ±2 thou", "1.000 ±0.002 in"), ("1 ±0.5 thou", "1 ±0.0005 in"), ("1½", "1 1/2")] {
        let read = read::part("p", description(&format!("features: [{{turn: {size}, to: 2}}]")).as_bytes());
        let found = read.slips.iter().find_map(|s| match &s.fault {
            Fault::BadSize { meant, .. } => meant.clone(),
            _ => None,
        });
        assert_eq!(found.as_deref(), Some(meant), "{size}: {:?}", read.slips);
    }
    for (wrong, right) in [("keywya", "keyseat"), ("journl", "turn"), ("chamfr", "chamfer"), ("filet", "fillet")] {
        let read =
            read::part("p", description(&format!("features: [{{turn: 1, to: 2}}, {{{wrong}: 1, at: 1}}]")).as_bytes());
        let found = read.slips.iter().find_map(|s| match &s.fault {
            Fault::UnknownWord { nearest, .. } => nearest.clone(),
            _ => None,
        });
        assert_eq!(found.as_deref(), Some(right), "{wrong}");
    }
}
