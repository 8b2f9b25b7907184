//! Random descriptions from a seed: whole ones, and the same with something spoiled.

use std::fmt::Write as _;

/// A small generator of random numbers (Knuth's constants), so that a failure can be had again from its seed.
pub(crate) struct Dice(pub(crate) u64);

impl Dice {
    pub(crate) fn below(&mut self, n: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % n.max(1)
    }

    pub(crate) fn of<'a>(&mut self, words: &[&'a str]) -> &'a str {
        words[self.below(words.len())]
    }
}

/// A whole description: inch, decimals, sections of every kind that is worked, and what lies on them.
pub(crate) struct Whole {
    pub(crate) text: String,
    pub(crate) sections: usize,
    pub(crate) others: usize,
}

fn decimal(thousandths: usize) -> String {
    format!("{}.{:03}", thousandths / 1000, thousandths % 1000)
}

/// One description.
pub(crate) fn whole(dice: &mut Dice) -> Whole {
    let sections = 1 + dice.below(9);
    let (mut at, mut list) = (0, String::new());
    let flow = dice.below(4) == 0;
    for n in 0..sections {
        at += 200 + dice.below(1500);
        let end = if n + 1 == sections { dice.of(&["end", ""]).to_owned() } else { decimal(at) };
        let d = decimal(400 + dice.below(800));
        let (kind, more) = match dice.below(6) {
            0 => (
                format!(
                    "thread: {}",
                    dice.of(&["5/8-18 UNF-2A", "M16x1.5-6g LH", "1/2-20 UNF-2A", "No. 10-32 UNF-2A"])
                ),
                "",
            ),
            1 => (format!("relief: {d} +0/-0.010"), "corner: 0.010"),
            2 => ("turn: stock".to_owned(), "finish: 125 µin"),
            3 => (format!("turn: {} mm k6", 10 + dice.below(20)), "carries: {part: bearing, bore: 20 mm, enters: far}"),
            _ => (format!("turn: {d}{}", dice.of(&["", " ±0.001", " +0.002/-0", " # free"])), ""),
        };
        let to = if end.is_empty() { String::new() } else { format!("to: {end}") };
        let name = format!("name: part {}", char::from(b'a' + u8::try_from(n).unwrap_or(0)));
        let keys: Vec<String> = [to, name, more.to_owned()].into_iter().filter(|k| !k.is_empty()).collect();
        if flow && !kind.contains('#') {
            let _ = writeln!(list, "  - {{{kind}, {}}}", keys.join(", "));
        } else {
            let _ = writeln!(list, "  - {kind}");
            for key in &keys {
                let _ = writeln!(list, "    {key}");
            }
        }
    }
    let mut others = 0;
    for _ in 0..dice.below(5) {
        others += 1;
        list.push_str(dice.of(&[
            "  - chamfer: 0.030 x 45°\n    end: datum\n",
            "  - chamfer: 20° × 1/16\n    at: part a end\n",
            "  - fillet: 0.015 max\n    at: part a end\n",
            "  - center hole: A 1/8\n    end: far\n",
            "  - keyseat: Woodruff 606\n    at: 0.100\n",
            "  - keyseat: 1/8 x 1/8 x 1/2\n    from: 0.050 from part a start\n    angle: 90°\n",
            "  - groove: 0.300 +0/-0.004\n    from: 0.050\n    wide: 0.046..0.049\n",
            "  - cross hole: 1/8\n    at: 0.1 ±0.01 from part a start\n",
        ]));
    }
    let text = format!(
        "part: Test of reading\nunits: in\nmaterial: {}\nstock: 1.250 x {}\ndatum: near end\noverall: {} ±0.010\n\
         tolerances: {{lengths: ±0.005, diameters: ±0.002}}\nfeatures:\n{list}dims:\n  - {{from: datum, to: part a end, is: ({})}}\n\
         notes: |\n  ± and µ, {{brackets}}: and a # sign\n",
        dice.of(&["1018 cold drawn", "1045", "\"LS: 104\"", "C45 µ"]),
        decimal(at + 125),
        decimal(at),
        decimal(at),
    );
    Whole { text, sections, others }
}

const ODD: [&str; 40] = [
    "\t",
    "#",
    "#10-32",
    ":",
    ": ",
    "- ",
    "{",
    "}",
    "[",
    "]",
    "\"",
    "'",
    "µ",
    "±",
    "Ø",
    "\u{2028}",
    "\u{0}",
    "\u{85}",
    "\u{feff}",
    "é",
    "½",
    "|",
    ">",
    "&a ",
    "*a",
    "!t ",
    "<<: ",
    "---\n",
    "...\n",
    "\n",
    "\r",
    "  ",
    "1e9",
    "99999999999",
    "-",
    "NaN",
    ", ",
    "%",
    "@",
    "from part a end",
];

/// The same text with something spoiled, character by character or line by line.
pub(crate) fn spoiled(dice: &mut Dice, text: &str) -> String {
    let mut text = text.to_owned();
    for _ in 0..=dice.below(4) {
        let characters: Vec<usize> = text.char_indices().map(|(i, _)| i).chain([text.len()]).collect();
        let at = characters[dice.below(characters.len())];
        let to = characters[dice.below(characters.len())].max(at);
        match dice.below(9) {
            0 => text.insert_str(at, dice.of(&ODD)),
            1 => text.replace_range(at..text[at..].char_indices().nth(dice.below(6)).map_or(at, |(i, _)| at + i), ""),
            2 => text.replace_range(at..to, ""),
            3 => text.truncate(at),
            4 => {
                let piece = text[at..to].to_owned();
                text.insert_str(characters[dice.below(characters.len())], &piece);
            }
            _ => {
                let mut lines: Vec<String> = text.split('\n').map(str::to_owned).collect();
                let (a, b) = (dice.below(lines.len()), dice.below(lines.len()));
                match dice.below(5) {
                    0 => lines.swap(a, b),
                    1 => lines.insert(a, lines[b].clone()),
                    2 => drop(lines.remove(a)),
                    3 => lines[a] = format!("{}{}", " ".repeat(dice.below(6)), lines[a].trim_start()),
                    _ => lines[a] = lines[a].replace(dice.of(&[":", " ", ".", "-", "±", "to", "1"]), dice.of(&ODD)),
                }
                text = lines.join("\n");
            }
        }
    }
    text
}
