//! Descriptions that mean harm, or come from a broken disk: each made by code, in a size to choose.
//!
//! `code` is what `check` must answer: 1 for what is told as a finding of error weight, 0 for what is odd and yet sound, 2 for a file that
//! cannot be opened. No command may answer anything else, end by a signal, or take more than the stated time and memory.

use std::fmt::Write as _;

/// One hostile input.
pub(crate) struct Hostile {
    /// Short name; the file is called so.
    pub(crate) name: &'static str,
    /// The description.
    pub(crate) text: Vec<u8>,
    /// Files beside it.
    pub(crate) beside: Vec<(&'static str, Vec<u8>)>,
    /// Exit code of `check`.
    pub(crate) code: i32,
    /// Words that the report must hold, so that a refusal explains itself.
    pub(crate) says: &'static str,
}

/// How large the inputs are.
#[derive(Clone, Copy)]
pub(crate) struct Scale {
    /// Bytes of the large ones.
    pub(crate) bytes: usize,
    /// Entries of the long ones.
    pub(crate) entries: usize,
}

impl Scale {
    /// Bytes as many as are read, entries many more.
    pub(crate) const FULL: Self = Self { bytes: 2_000_000, entries: 100_000 };
    /// For a build without optimisation.
    pub(crate) const SMALL: Self = Self { bytes: 60_000, entries: 60 };
}

/// Sound or not is not the point here.
pub(crate) const EITHER: i32 = -1;

const HEAD: &str = "part: pin\nunits: in\nmaterial: 1018 cold drawn\nstock: 1 1/8 x 3.2\ndatum: head\noverall: 3.000 ±0.010\n\
                    tolerances: {lengths: ±0.005, diameters: ±0.002}\n";
const FEATURES: &str = "features:\n  - turn: 0.750\n    to: 1.000\n    name: seat\n  - turn: 1.000\n    to: end\n";

/// A sound pin with this in front of its features and this behind them.
fn pin(before: &str, after: &str) -> String {
    format!("{HEAD}{before}{FEATURES}{after}")
}

/// `piece`, again and again, to about `bytes`.
fn filled(piece: &str, bytes: usize) -> String {
    piece.repeat(bytes / piece.len().max(1))
}

fn one(name: &'static str, text: impl Into<Vec<u8>>, code: i32, says: &'static str) -> Hostile {
    Hostile { name, text: text.into(), beside: Vec::new(), code, says }
}

/// Notes as a block of text.
fn noted(text: &str) -> String {
    let mut notes = String::from("notes: |\n");
    for line in text.split('\n') {
        let _ = writeln!(notes, "  {line}");
    }
    pin("", &notes)
}

/// A shaft of steps, each of its own diameter and named.
fn shaft(sections: usize, on_each: &str) -> String {
    let mut text = format!(
        "part: shaft\nunits: mm\nmaterial: C45 cold drawn\nstock: 90 x {}\ndatum: left end\noverall: {sections} ±0.5\n\
         tolerances: ISO 2768-m\nfeatures:\n",
        sections + 5
    );
    for i in 1..=sections {
        let _ = write!(text, "  - turn: {}\n    to: {i}\n    name: step number {i}\n{on_each}", 40 + (i * 7) % 40);
    }
    text
}

/// `entry` many times under a key, each with its number in place of `N`.
fn many(key: &str, entry: &str, count: usize) -> String {
    let mut text = format!("{key}:\n");
    for i in 0..count {
        let _ = writeln!(text, "  - {}", entry.replace('N', &i.to_string()));
    }
    text
}

/// Ten names, each ten times the one before.
fn bomb(open: &str, close: &str, first: &str) -> String {
    let mut text = format!("a0: &a0 {first}\n");
    for level in 1..10 {
        let again = vec![format!("*a{}", level - 1); 10].join(", ");
        let _ = writeln!(text, "a{level}: &a{level} {open}{again}{close}");
    }
    text
}

/// All of them.
pub(crate) fn all(s: Scale) -> Vec<Hostile> {
    let mut all = no_text(s);
    all.extend(shapes(s));
    all.extend(long(s));
    all.extend(notes(s));
    all.extend(beside(s));
    all
}

/// What is hardly text at all.
fn no_text(s: Scale) -> Vec<Hostile> {
    let mut noise = 0x2545_F491_4F6C_DD1D_u64;
    let noise: Vec<u8> = std::iter::repeat_with(|| {
        noise ^= noise << 13;
        noise ^= noise >> 7;
        noise ^= noise << 17;
        noise as u8
    })
    .take(s.bytes)
    .collect();
    let utf16: Vec<u8> = pin("", "").encode_utf16().flat_map(u16::to_le_bytes).collect();
    let mut cut = pin("", "notes: ü").into_bytes();
    cut.pop();
    vec![
        one("empty", "", 1, "empty"),
        one("line-end", "\n", 1, "empty"),
        one("mark-alone", "\u{FEFF}", 1, "empty"),
        one("two-marks", format!("\u{FEFF}\u{FEFF}{}", pin("", "")), 1, ""),
        one("utf-16", utf16, 1, "UTF-8"),
        one("cut-character", cut, 1, "UTF-8"),
        one("noise", noise, 1, "UTF-8"),
        one("noughts", vec![0_u8; s.bytes], 1, ""),
        one("spaces", filled(" ", s.bytes), 1, "empty"),
        one("line-ends", filled("\n", s.bytes), 1, "empty"),
        one("carriage-returns", filled("\r", s.bytes), 1, "empty"),
        one("too-large", vec![b'#'; 24 << 20], 1, "MB"),
        one("ten-megabytes", filled("part: x\n", 10 << 20), 1, "MB"),
        one("one-word", filled("a", s.bytes), 1, ""),
        one("one-sign", filled("ß", s.bytes), 1, ""),
        one("remarks", filled("# remark\n", s.bytes), 1, ""),
        one("remarks-and-a-pin", filled("# remark\n", s.bytes.min(1_900_000)) + &pin("", ""), 0, ""),
        one("unseen-signs", filled("\u{200B}\u{202E}", s.bytes), 1, ""),
        one("accents", pin("", &format!("notes: a{}\n", filled("\u{301}", 30_000))), 0, ""),
        one("old-line-ends", pin("", "").replace('\n', "\r"), 0, ""),
    ]
}

/// What breaks the format's rules, or nearly.
fn shapes(s: Scale) -> Vec<Hostile> {
    let nested = |open: &str, levels: usize| format!("part: {}\n", open.repeat(levels));
    let mut stairs = String::from("part:\n");
    for level in 0..s.entries.clamp(100, 2_000) {
        let _ = writeln!(stairs, "{}k:", " ".repeat(level + 1));
    }
    let mut anchors = String::new();
    for i in 0..s.entries {
        let _ = writeln!(anchors, "k{i}: &n{i} v");
    }
    let levels = (0..60).fold(String::new(), |t, n| t + &format!("&n{n} ["));
    let deep = format!("part: {levels}{}{}\n", filled("x, ", s.bytes), "]".repeat(60));
    let text = "y".repeat(s.bytes / 2);
    let copies = vec!["*t"; s.entries / 2].join(", ");
    vec![
        one("open-brackets", filled("[", s.bytes), 1, ""),
        one("open-braces", filled("{", s.bytes), 1, ""),
        one("dashes", filled("- ", s.bytes), 1, ""),
        one("question-marks", filled("? ", s.bytes), 1, ""),
        one("colons", filled(": ", s.bytes), 1, ""),
        one("quotes", filled("\"", s.bytes), 1, ""),
        one("open-quote", pin("drawing: \"LS", &filled("x\n", s.bytes)), 1, ""),
        one("backslashes", format!("part: \"{}\n", filled("\\", s.bytes)), 1, ""),
        one("tabs", filled("\t", s.bytes), 1, ""),
        one("tab-lines", format!("part: x\n{}", filled("\ta: b\n", s.bytes)), 1, ""),
        one("deep-brackets", nested("[", s.entries) + &"]".repeat(s.entries), 1, ""),
        one("deep-keys", nested("{a: ", s.entries), 1, ""),
        one("deep-dashes", nested("\n- ", 63), 1, ""),
        one("stairs", stairs, 1, "nested"),
        one("documents", filled("---\npart: x\n", s.bytes / 4), 1, "second"),
        one("pin-twice", format!("{0}---\n{0}", pin("", "")), 1, "second"),
        one("ends", filled("...\n", s.bytes / 4), 1, ""),
        one("directives", filled("%YAML 1.2\n", s.bytes / 4), 1, ""),
        one("tags", pin("", &many("dims", "!t N", s.entries)), 1, "tag"),
        one("merge-keys", pin("", &filled("<<: {a: b}\n", s.bytes / 4)), 1, "merge"),
        one("bomb-of-lists", bomb("[", "]", "x") + &pin("", ""), 1, "aliases"),
        one("bomb-of-keys", bomb("{a: [", "]}", "x") + &pin("", ""), 1, "aliases"),
        one(
            "bomb-of-features",
            pin("", "").replace("features:", &format!("{}features: *a9\nmore:", bomb("[", "]", "{turn: 1}"))),
            1,
            "aliases",
        ),
        one("anchors", anchors + &pin("", ""), 1, ""),
        one("anchors-in-anchors", deep, 1, ""),
        one("long-text-copied", format!("t: &t {text}\nu: [{copies}]\n{}", pin("", "")), 1, "aliases"),
        one("alias-of-itself", pin("dims: &d [*d]\n", ""), 1, ""),
    ]
}

/// What goes on and on.
fn long(s: Scale) -> Vec<Hostile> {
    // Lines as long as are read.
    let s = Scale { bytes: s.bytes.min(190_000), ..s };
    let over = if s.entries > 2_000 { (1, "2000") } else { (EITHER, "") };
    let flow = |n: usize| {
        let entries: Vec<String> = (1..=n).map(|i| format!("{{turn: 1, to: {i}}}")).collect();
        format!("{HEAD}features: [{}]\n", entries.join(", "))
    };
    let long_line =
        format!("{HEAD}features: [{{turn: 1.000, to: 1.000}}, {}{{turn: 1,5, to: end}}]\n", filled(" ", s.bytes));
    let digits = filled("9", s.bytes / 8);
    let most = s.entries.min(2_000);
    let on_one = |entry: &str, n: usize| pin("", &many("", entry, n).replacen(":\n", "", 1));
    vec![
        one("long-name", pin("", "").replacen("pin", &filled("pin ", s.bytes / 2), 1), 1, "1000"),
        one("long-word-for-name", pin("", "").replacen("pin", &filled("p", s.bytes / 2), 1), 1, "1000"),
        one("long-key", pin("", &format!("{}: x\n", filled("k", 900))), 1, ""),
        one("endless-key", pin("", &format!("{}: x\n", filled("k", s.bytes))), 1, ""),
        one("long-line", long_line, 1, "the key `5`"),
        one("long-value", pin(&format!("drawing: {}\n", filled("x y ", s.bytes)), ""), 1, "1000"),
        one("long-number", pin("", "").replacen("0.750", &digits, 1), 1, ""),
        one("long-fraction", pin("", "").replacen("0.750", &format!("1/{digits}"), 1), 1, ""),
        one("small-number", pin("", "").replacen("0.750", &format!("0.{}1", filled("0", s.bytes / 8)), 1), 1, ""),
        one("long-thread", pin("", "").replacen("turn: 0.750", &format!("thread: {digits}-18 UNF-2A"), 1), 1, ""),
        one(
            "many-limits",
            pin("", "").replacen("0.750", &format!("0.750 {}", filled("±0.001 ", s.bytes / 8)), 1),
            1,
            "",
        ),
        one("unknown-keys", pin("", &(0..s.entries).fold(String::new(), |t, i| t + &format!("key{i}: x\n"))), 1, ""),
        one("one-key-often", pin("", &filled("drawing: x\n", s.bytes / 4)), 1, ""),
        one("faults", many("features", "{turn: a, to: N}", s.entries), 1, "faults"),
        one(
            "faults-in-the-head",
            pin("", &(0..s.entries).fold(String::new(), |t, i| t + &format!("k{i}: 1,{i}\n"))),
            1,
            "",
        ),
        one("unknown-kinds", pin("", "") + &many("dims", "{from: x, to: y, is: z}", s.entries), 1, ""),
        one("entries-of-one-line", flow(s.entries), 1, if s.entries > 2_000 { "features" } else { "overall" }),
        one("sections", shaft(s.entries.min(19_000), ""), over.0, if s.entries > 2_000 { "features" } else { "" }),
        one("most-sections", shaft(most, ""), EITHER, ""),
        one("half-the-sections", shaft(most / 2, "  - fillet: 0.2 max\n    at: 1\n"), EITHER, ""),
        one("sections-of-one-name", shaft(most, "").replace("step number", "step # "), EITHER, ""),
        one("chamfers", on_one("{chamfer: 0.030 x 45°, at: 1.000}", most - 2), EITHER, ""),
        one("grooves", on_one("{groove: 0.5, wide: 0.010, at: 0.N}", most - 2), EITHER, ""),
        one("keyseats", on_one("{keyseat: Woodruff 606, at: 0.500, angle: N°}", most - 2), EITHER, ""),
        one("cross-holes", on_one("{cross hole: 1/16, at: 0.N}", most - 2), EITHER, ""),
        one(
            "dims",
            pin("", &many("dims", "{from: 0, to: seat end, is: 1.000}", s.entries)),
            over.0,
            if over.0 == 1 { "dims" } else { "" },
        ),
        one("dims-that-clash", pin("", &many("dims", "{from: 0, to: seat end, is: 1.N}", most)), EITHER, ""),
        one(
            "accepted",
            pin("", &many("accept", "{check: thin-wall, where: part, because: N}", s.entries)),
            over.0,
            over.1,
        ),
        one("measured", pin("", &many("measured", "{feature: seat, diameter: 0.75N}", s.entries)), over.0, over.1),
        one("wishes", pin("", &format!("plan:\n  before: [{}]\n", vec!["[seat, head]"; most].join(", "))), EITHER, ""),
        one("done", pin("", &format!("done: [{}]\n", vec!["10"; s.entries].join(", "))), over.0, over.1),
        one(
            "threads",
            (1..=most / 4)
                .fold(shaft(0, ""), |t, i| t + &format!("  - thread: M30x1.5-6g\n    to: {i}\n"))
                .replace("overall: 0", &format!("overall: {}", most / 4)),
            EITHER,
            "",
        ),
    ]
}

/// Notes that a reader of marks may choke on, or that a sheet may take for its own.
fn notes(s: Scale) -> Vec<Hostile> {
    // As much as is read of notes: the sheet must bear the worst of it.
    let s = Scale { bytes: 19_900.min(s.bytes), ..s };
    let note = |name, text: String| {
        let long = text.chars().count() > 19_900;
        one(name, noted(&text), i32::from(long), if long { "20000" } else { "" })
    };
    let quotes: String = (1..190).map(|n| ">".repeat(n) + " x\n").collect();
    let lists: String = (0..130).map(|n| "  ".repeat(n) + "- x\n").collect();
    let ticks: String = (1..190).map(|n| "`".repeat(n) + " ").collect();
    let names = (0..s.entries.min(900)).fold(String::new(), |t, n| t + &format!("[a{n}]: http://b\n\n"));
    vec![
        one("notes-too-long", noted(&filled("[", 190_000)), 1, "20000"),
        note("note-of-words", filled("word ", s.bytes)),
        note("note-of-lines", filled("word\n", s.bytes)),
        note("note-of-brackets", filled("[", s.bytes)),
        note("note-of-closed-brackets", filled("[]()", s.bytes)),
        note("note-of-pictures", filled("![](", s.bytes)),
        note("note-of-stars", filled("*a **b ", s.bytes)),
        note("note-of-strokes", filled("_a __b ", s.bytes)),
        note("note-of-less-than", filled("<", s.bytes)),
        note("note-of-tags", filled("<b x=\"", s.bytes)),
        note("note-of-remarks", filled("<!-- ", s.bytes)),
        note("note-of-ampersands", filled("&a", s.bytes)),
        note("note-of-ticks", ticks),
        note("note-of-quotes", quotes),
        note("note-of-lists", lists),
        note("note-of-names", names),
        note("note-of-one-word", filled("w", s.bytes)),
        note("note-of-rules", filled("---\n\n", s.bytes)),
        note("note-of-heads", filled("# h\n", s.bytes)),
        note("note-of-signs", filled("#set page(width: 1pt)\n$ x $ \\ @a <b> {{ x }} {% raw %}\n", s.bytes / 8)),
    ]
}

/// What a description names.
fn beside(s: Scale) -> Vec<Hostile> {
    let with = |name, lathe: &str, beside: Vec<(&'static str, Vec<u8>)>, code| Hostile {
        name,
        text: pin(&format!("lathe: {lathe}\n"), "").into_bytes(),
        beside,
        code,
        says: "",
    };
    let gears = many("change gears", "N", s.entries).replace("  - ", "  - 1");
    let tools = many("tools", "{tool: t N, reaches: N}", s.entries);
    vec![
        with("shop-of-brackets", "shop.yaml", vec![("shop.yaml", filled("[", s.bytes).into_bytes())], 1),
        with("shop-of-noise", "shop.yaml", vec![("shop.yaml", vec![0xFF; s.bytes])], 1),
        with("shop-too-large", "shop.yaml", vec![("shop.yaml", vec![b'#'; 24 << 20])], 1),
        with("shop-of-gears", "shop.yaml", vec![("shop.yaml", format!("lathe: x\n{gears}").into_bytes())], 1),
        with("shop-of-tools", "shop.yaml", vec![("shop.yaml", format!("lathe: x\n{tools}").into_bytes())], 1),
        with("shop-is-the-part", "shop-is-the-part.yaml", vec![], 1),
        // Places where no shop file of a part may lie: refused at their line, and never opened.
        Hostile { says: "shop-file", ..with("shop-is-endless", "/dev/zero", vec![], 1) },
        Hostile { says: "shop-file", ..with("shop-is-a-folder", "..", vec![], 1) },
        Hostile { says: "shop-file", ..with("shop-name-of-signs", "\"\\0\\x01*?\"", vec![], 1) },
    ]
}
