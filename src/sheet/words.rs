//! The words of the pages, in one place.

use super::measure;
use super::view::{Line, Mm, Piece, PieceKind, Rich};
use crate::figures::{Edge, Inspected};
use crate::finding::Severity;
use crate::model::End;
use crate::model::part::Holding;
use crate::model::plan::DatumEnd;
use crate::model::shop::Reads;
use crate::unit::Unit;

macro_rules! say {
    ($($(#[$doc:meta])* $name:ident = $text:expr;)*) => { $($(#[$doc])* #[allow(missing_docs, reason = "the word is its own description")] pub const $name: &str = $text;)* };
}

say! {
    /// Over the number of a setup.
    SETUP = "SETUP";
    /// On the flag and in the box of the datum end.
    DATUM_END = "DATUM END";
    /// Before going on.
    STOP = "STOP";
    SETUPS = "Setups";
    NOTES = "Notes";
    MATERIAL = "Material";
    BAR = "Bar";
    SAW_TO = "Saw to";
    FACE_OFF = "Face off";
    LATHE = "Lathe";
    KEPT = "keep the bar’s skin";
    COVER_CONTINUED = "Cover, continued";
    BEFORE = "Before the first chip";
    TOOLS = "Tools to lay out";
    INSTRUMENTS = "Instruments and mates";
    NOT_WORKED = "Not worked on this sheet";
    ASSUMED = "ASSUMED: change what is not true of your shop";
    CAUTIONS = "Cautions this part earns";
    CONTINUED_MOUNTING = "Continued. Same mounting: nothing is moved.";
    AT_TAILSTOCK = "at TAILSTOCK";
    AT_HEADSTOCK = "at HEADSTOCK";
    AT_LEFT = "at the LEFT";
    DATUM_AT_TAILSTOCK = "datum end at TAILSTOCK";
    DATUM_AT_HEADSTOCK = "datum end at HEADSTOCK";
    FROM_ABOVE = "SEEN FROM ABOVE";
    ON_BAR = "on the bar";
    BENCH = "Bench. Clean, deburred, cold.";
    MILL = "In the mill's vise or V-blocks.";
    OVERALL_MEASURED = "Overall measured";
    MINUS_MEASURED = "\u{2212} measured =";
    SET_INSTEAD_OF_ZERO = "set instead of 0";
    DATUM_FACE = "datum face";
    FAR_FACE = "far face";
    CARRIAGE = "CARRIAGE";
    LENGTH = "LENGTH";
    CROSS = "CROSS";
    CROSS_DIRECTION = "Up going in; come to it going in.";
    CROSS_SHORT = ", 0 at the touch";
    CROSS_UNKNOWN = "not told here: work to the sizes";
    TOOLS_SHORT = "Tools";
    FEED = "Feed";
    ROUGH = "rough";
    FINISH = "finish";
    TRUST = "When dial and micrometer differ, trust the micrometer.";
    MAKE_TURN = "turn";
    MAKE_ROUGH = "rough";
    MAKE_TAPER = "taper";
    MAKE_GROOVE = "groove";
    MAKE_KNURL = "knurl";
    MAKE_THREAD = "thread";
    MAKE_MILL = "mill keyseat";
    MAKE_DRILL = "drill";
    TRY_MATES = "try the mates";
    OPERATION = "operation";
    MEASURE = "MEASURE Ø";
    MEASURE_SUB = "aim, limits";
    FROM_DATUM = "from datum";
    FROM_FAR_FACE = "from far face";
    FROM_DATUM_FACE = "from the datum face";
    MEASURED = "measured";
    BLANK = "blank";
    RELIEF = "relief";
    SEAT = "seat";
    INSPECT = "every size of the inspection page, cold";
    SHOULD_READ = "should read";
    IT_READS = "it reads";
    TO_COME_OFF = "to come off";
    HALF = "half";
    ALL_OF_IT = "all";
    HALF_A_SIDE = "half of it a side";
    COMPOUND = "Compound";
    SETOVER = "Set-over";
    READS = "reads";
    BLANK_DIAMETER = "Blank Ø";
    SPEED = "Speed";
    STARTS = "Starts";
    STRAIGHT_IN = "Straight in";
    GEARBOX = "Gearbox";
    THREAD_DIAL = "Thread dial";
    THREAD_DIAL_BESIDE = "  thread dial";
    DEPTH = "Depth";
    FROM_TOP = "from the top of the round";
    ACROSS_BOTTOM = "Across bottom";
    SLOT = "Slot";
    CLOCKED = "Clocked";
    TOUCH_OFF = "Touch off";
    MARKS = "Marks";
    DOWN = "DOWN on the plate";
    INSPECTION = "Inspection";
    COLD = "Cold, deburred, clean. Lengths count from the datum face; A–C from face to face.";
    DIAMETERS = "Diameters";
    LENGTHS = "Lengths";
    MADE_BY = "Made by";
    INSPECTED = "Inspected";
    DATE = "date";
    ALL = "all";
    WHY = "Why in this order";
    WHY_ONCE = "Each rule once, where it first counts. The command “plan” tells every reason.";
    /// On the button that empties a sheet on a screen.
    CLEAR = "Clear ticks and blanks";
}

/// Longest a text from the description may be on the sheet, in characters.
const LONGEST: usize = 2000;

/// A text from the description or a finding, as a page can hold it; words in backticks come in quotation marks.
pub fn from_file(text: &str) -> String {
    let cut: String = text.chars().take(LONGEST).collect();
    let mut quoted = String::with_capacity(cut.len());
    for (i, part) in cut.split('`').enumerate() {
        if i > 0 {
            quoted.push(if i % 2 == 1 { '“' } else { '”' });
        }
        quoted.push_str(part);
    }
    measure::breakable(&quoted.split_whitespace().collect::<Vec<_>>().join(" "))
}

/// A name from the description: as [`from_file`], and short enough for a head.
pub fn name(text: &str) -> String {
    /// Three lines of the cover's title.
    const MOST: usize = 80;
    let text = from_file(text);
    if text.chars().count() <= MOST {
        return text;
    }
    let cut: String = text.chars().take(MOST).collect();
    format!("{}…", cut.trim_end())
}

/// The first letter a capital.
pub fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or(String::new(), |c| c.to_uppercase().chain(chars).collect())
}

/// With a full stop.
pub fn sentence_end(text: &str) -> String {
    let text = capital(text.trim());
    if text.ends_with(['.', '!', '?', ':']) || text.is_empty() { text } else { format!("{text}.") }
}

/// Cut with an ellipsis where it is wider than `room` millimetres at 12 pt.
pub fn cut_to(text: &str, room: f64) -> String {
    if measure::width(text, 12.0, false) <= room {
        return text.to_owned();
    }
    let mut cut = String::new();
    for c in text.chars() {
        if measure::width(&format!("{cut}{c}…"), 12.0, false) > room {
            break;
        }
        cut.push(c);
    }
    format!("{}…", cut.trim_end())
}

/// Lines of a block whose text is broken into several.
pub fn wrapped(label: &str, label_width: f64, text: &str, room: f64) -> Vec<Line> {
    lines_of(label, label_width, text, room, PieceKind::Plain)
}

/// The same with a text that counts.
pub fn wrapped_strong(label: &str, label_width: f64, text: &str, room: f64) -> Vec<Line> {
    lines_of(label, label_width, text, room, PieceKind::Strong)
}

fn lines_of(label: &str, label_width: f64, text: &str, room: f64, kind: PieceKind) -> Vec<Line> {
    let (size, bold) = if kind == PieceKind::Strong { (14.0, true) } else { (12.0, false) };
    let pieces = measure::broken(text, size, bold, room);
    let label = |i: usize| if i == 0 { Rich::from(label) } else { Rich::new() };
    let line = |(i, t): (usize, String)| {
        super::blocks::line(label(i), label_width, vec![Piece { kind, text: t, width: Mm(0.0) }])
    };
    let mut out: Vec<Line> = pieces.into_iter().enumerate().map(line).collect();
    for line in &mut out {
        line.height = Mm(if kind == PieceKind::Strong { 6.4 } else { 5.6 });
    }
    if let Some(last) = out.last_mut() {
        last.height.0 += 1.0;
    }
    out
}

/// `page 3`.
pub fn page(number: usize) -> String {
    format!("page {number}")
}

/// A tool's name as the trade writes it.
pub fn tool(word: &str) -> String {
    word.replace("woodruff", "Woodruff").replace("acme", "Acme")
}

/// In the running foot.
pub fn description(hash: &str) -> String {
    format!("description {hash}")
}

/// Where a mounting goes on.
pub fn go_on(next: usize) -> Rich {
    Rich::from("Not done: go on at ").strong(page(next)).plain(". Nothing is moved.")
}

/// Title of the document.
pub fn document_title(name: &str, drawing: &str) -> String {
    if drawing.is_empty() { format!("{name}: setup sheet") } else { format!("{name}, {drawing}: setup sheet") }
}

/// Drawing and revision, as far as they are told.
pub fn drawing(drawing: &str, revision: &str) -> String {
    match (drawing, revision) {
        ("", "") => String::new(),
        (d, "") => d.to_owned(),
        ("", r) => format!("rev {r}"),
        (d, r) => format!("{d} rev {r}"),
    }
}

/// The bar over every page of a part that must not be cut.
pub fn do_not_cut(open: usize) -> String {
    match open {
        1 => "DO NOT CUT: 1 error is open. See the cover.".to_owned(),
        n => format!("DO NOT CUT: {n} errors are open. See the cover."),
    }
}

/// Bookmark of the cover.
pub fn cover(name: &str) -> String {
    format!("Cover: {name}")
}

/// `Drawing LS-104, revision B. All sizes in inches.`
pub fn drawing_sentence(drawing: &str, revision: &str, unit: Unit) -> String {
    let mut said = String::new();
    if !drawing.is_empty() {
        said = format!("Drawing {drawing}");
    }
    if !revision.is_empty() {
        said = if said.is_empty() { format!("Revision {revision}") } else { format!("{said}, revision {revision}") };
    }
    if !said.is_empty() {
        said.push_str(". ");
    }
    let units = match unit {
        Unit::Inch => "inches",
        Unit::Millimetre => "millimetres",
    };
    format!("{said}All sizes in {units}.")
}

/// Which end it is, and how it is told at the machine.
pub fn datum_sentence(datum: &str, letter: &str) -> Rich {
    let face = if letter.is_empty() { String::new() } else { format!(", face of {letter}") };
    Rich::from("Datum end: ").strong(format!("{datum}{face}")).plain(", one punch dot.")
}

/// `.063 each end`.
pub fn each_end(length: &str) -> String {
    format!("{length} each end")
}

/// Different at both ends.
pub fn both_ends(datum: &str, far: &str) -> String {
    format!("{datum} datum, {far} far")
}

/// `to 1.000`.
pub fn to(place: &str) -> String {
    if place.is_empty() { String::new() } else { format!("to {place}") }
}

/// `Setup 3`.
pub fn setup_word(number: u32) -> String {
    format!("Setup {number}")
}

/// `90 finish C`.
pub fn operation_word(number: u32, verb: &str, letter: &str) -> String {
    format!("{number} {verb} {letter}").trim_end().to_owned()
}

/// A reason with its source.
pub fn why(place: &str, reason: &str, source: &str) -> Rich {
    let said = Rich::new().strong(format!("{place}: ")).plain(reason);
    if source.is_empty() { said.plain(".") } else { said.grey(format!(" ({source}).")) }
}

/// Where no finding is to be shown.
pub const NO_FINDINGS: &str = "Findings: none.";

/// `at 2.125`.
pub fn at(place: &str) -> String {
    if place.is_empty() { String::new() } else { format!("at {place}") }
}

/// An inside corner.
pub fn corner(radius: &str) -> String {
    format!("corner {radius} max")
}

/// A kind that is not worked.
pub fn not_worked(word: &str) -> String {
    format!("{word}: not worked yet")
}

/// Heading of the findings.
pub fn findings(errors: usize, warnings: usize, notes: usize, accepted: usize) -> String {
    let many = |n: usize, one: &str| if n == 1 { format!("1 {one}") } else { format!("{n} {one}s") };
    let mut parts = Vec::new();
    for (n, word) in [(errors, "error"), (warnings, "warning"), (notes, "note")] {
        if n > 0 {
            parts.push(many(n, word));
        }
    }
    if parts.is_empty() {
        parts.push("none open".to_owned());
    }
    if accepted > 0 {
        parts.push(format!("{accepted} accepted"));
    }
    format!("Findings: {}", parts.join(", "))
}

/// Before a finding that is not accepted.
pub fn severity(severity: Severity) -> String {
    format!("{}: ", capital(severity.word()))
}

/// The letters of a size to inspect; a distance between two faces has a dash.
pub fn inspected(letters: &str, kind: Inspected) -> String {
    let mut chars = letters.chars();
    match (kind, chars.next(), chars.next(), chars.next()) {
        (_, None, ..) => ALL.to_owned(),
        (Inspected::Distance, Some(a), Some(b), None) => format!("{a}–{b}"),
        _ => from_file(letters),
    }
}

/// A finding somebody takes responsibility for.
pub fn accepted(message: &str, reason: &str) -> Rich {
    Rich::from(format!("{message} ")).strong("Accepted: ").plain(format!("“{reason}”."))
}

/// A title carried on.
pub fn continued(title: &str) -> String {
    format!("{title}, continued")
}

/// An assumption with its source.
pub fn assumed(value: &str, source: &str) -> Rich {
    let value = Rich::from(value);
    if source.is_empty() { value } else { value.grey(format!(" ({source})")) }
}

/// `Setup 3: Turn C; thread A`.
pub fn setup_bookmark(number: &str, title: &str) -> String {
    format!("Setup {number}: {title}")
}

/// How the work is held, to begin a sentence.
pub const fn holding(holding: Holding) -> &'static str {
    match holding {
        Holding::Chuck => "Chuck",
        Holding::ChuckAndCenter => "Chuck and tailstock center",
        Holding::BetweenCenters => "Between centers",
        Holding::Mill => "Mill",
        Holding::Bench => "Bench",
    }
}

/// What jaws or dog hold, and what lies under them.
pub fn grip_on(letter: &str, protect: bool) -> String {
    let on = if letter.is_empty() { ON_BAR.to_owned() } else { format!("on {letter}") };
    if protect { format!("{on} over copper") } else { on }
}

/// How far jaws or dog may reach.
pub fn beyond_mark(mark: &str) -> String {
    format!(", beyond mark {mark}")
}

/// How far the work stands out of the jaws.
pub fn stands_out(length: &str) -> String {
    format!(", {length} out of the jaws")
}

/// Before the first finish cut between centers.
pub fn test_cut(letter: &str) -> String {
    if letter.is_empty() {
        "Test cut first: the same Ø at both ends.".to_owned()
    } else {
        format!("Test cut first: same Ø at both ends of {letter}.")
    }
}

/// A runout to prove.
pub fn true_to(letter: &str, other: &str, within: &str) -> String {
    format!("{letter} true to {other} within {within} TIR.")
}

/// What to do with the correction.
pub fn correction(dial: bool, measured: &str, set: &str) -> Rich {
    let how = if dial { "Touch the far face and set the carriage dial to " } else { "Touch the far face and call it " };
    Rich::from(how)
        .strong("this")
        .plain(format!(" instead of 0: every length below then holds. ({measured} measured gives {set}.)"))
}

/// How the carriage's zero is set.
pub fn carriage_zero(face: &str, corrected: bool) -> Rich {
    if corrected {
        Rich::new().strong("Zero as corrected.").plain(" Up toward the headstock; come to it that way.")
    } else {
        Rich::new().strong(format!("0 on the {face}.")).plain(" Up toward the headstock; come to it that way.")
    }
}

/// The same in short.
pub fn carriage_short(face: &str, corrected: bool) -> String {
    if corrected { format!("{face}, zero corrected") } else { format!("from the {face}") }
}

/// What the cross dial counts, with an example.
pub fn cross_reads(reads: Reads, unit: Unit) -> String {
    let (half, whole) = match unit {
        Unit::Inch => (".005", ".010"),
        Unit::Millimetre => ("0.10", "0.20"),
    };
    match reads {
        Reads::Radius => format!("RADIUS: {half} takes {whole} off Ø."),
        Reads::Diameter => format!("DIAMETER: {whole} takes {whole} off Ø."),
    }
}

/// `RADIUS` or `DIAMETER`.
pub const fn reads_word(reads: Reads) -> &'static str {
    match reads {
        Reads::Radius => "RADIUS",
        Reads::Diameter => "DIAMETER",
    }
}

/// Where the cross dial is set to 0.
pub fn cross_zero(letter: &str, diameter: &str) -> String {
    let on = if letter.is_empty() { "the bar".to_owned() } else { letter.to_owned() };
    format!("0 touching {on}, Ø {diameter}. ")
}

/// How far roughed faces stand proud.
pub fn proud(length: &str) -> String {
    format!("Rough faces stand {length} proud. ")
}

/// Words at the feet of a lathe picture.
pub fn feet() -> (String, String) {
    ("HEADSTOCK".to_owned(), "TAILSTOCK".to_owned())
}

/// Facing, in a title.
pub fn face(end: Option<End>, to_length: bool, overall: &str) -> String {
    match end {
        Some(End::Far) if to_length => format!("face far end to {overall}"),
        Some(End::Far) => "face far end".to_owned(),
        _ => "face datum end".to_owned(),
    }
}

/// Facing to length.
pub fn face_to(limits: &str) -> String {
    format!("the far end: {limits} overall")
}

/// Facing clean.
pub fn face_clean(end: Option<End>) -> String {
    match end {
        Some(End::Far) => "the far end clean".to_owned(),
        _ => "the datum end clean".to_owned(),
    }
}

/// Under a verb.
pub fn with(letters: &str) -> String {
    format!("with {letters}")
}

/// Spindle speed.
pub fn rpm(number: &str) -> String {
    format!("{number} rpm")
}

/// Spindle speed where the gears are not told.
pub fn rpm_at_most(number: &str) -> String {
    format!("up to {number} rpm")
}

/// Width of a tool.
pub fn tool_wide(width: &str) -> String {
    format!("{width} tool")
}

/// `3 passes of .058`.
pub fn passes(count: u32, depth: &str) -> String {
    if count == 1 { format!("1 pass of {depth}") } else { format!("{count} passes of {depth}") }
}

/// Which edge of the tool stands at the reading.
pub fn edge(edge: Edge) -> String {
    match edge {
        Edge::Left => "LEFT edge".to_owned(),
        Edge::Right => "RIGHT edge".to_owned(),
        Edge::None => String::new(),
    }
}

/// The same length from the datum.
pub fn datum(length: &str) -> String {
    format!("datum {length}")
}

/// Turns of a dial and what is left.
pub fn turns(turns: i64, rest: &str) -> String {
    let turned = if turns == 1 { "1 turn".to_owned() } else { format!("{turns} turns") };
    // The plus stays with what is added, wherever the line breaks.
    if rest.is_empty() { turned } else { format!("{turned} +\u{a0}{rest}") }
}

/// Where a tool was touched.
pub fn zero_on(letter: &str, diameter: &str) -> String {
    if letter.is_empty() { format!("0 at Ø {diameter}") } else { format!("0 on {letter} at {diameter}") }
}

/// Short remarks as sentences.
pub fn remarks(remarks: &[String]) -> String {
    remarks.iter().map(|r| sentence_end(&from_file(r))).collect::<Vec<_>>().join(" ")
}

/// A thread and its hand.
pub fn thread(designation: &str, right_hand: bool) -> String {
    format!("{designation}, {}", if right_hand { "right hand" } else { "LEFT HAND" })
}

/// A keyseat.
pub fn keyseat(key: &str, width: &str) -> String {
    format!("keyseat for {key}, {width} wide")
}

/// A center hole.
pub fn center(size: &str, mouth: &str) -> String {
    format!("{size}, until the mouth measures Ø {mouth}")
}

/// Polishing.
pub fn polish(finish: Option<&str>) -> String {
    finish.map_or(String::new(), |f| format!("to {}", from_file(f)))
}

/// A cross hole.
pub fn cross_hole(size: &str, at: &str) -> String {
    if at.is_empty() { format!("Ø {size} through") } else { format!("Ø {size} through, {at} from the datum face") }
}

/// Parting off.
pub fn part_off(overall: &str) -> String {
    format!("at {overall} and what the face needs")
}

/// Trying the mates.
pub fn fit_test(mates: &[String]) -> String {
    if mates.is_empty() { "try what goes on the part".to_owned() } else { format!("try {}", mates.join(", ")) }
}

/// `cut 1`.
pub fn cut(number: usize) -> String {
    format!("cut {number}")
}

/// Reading after a cut.
pub fn after(cut: &str) -> String {
    format!("after {cut}")
}

/// A depth a side, where no dial is told.
pub fn a_side(depth: &str) -> String {
    format!("{depth} a side")
}

/// A taper's angle.
pub fn from_the_axis(degrees: f64, rate: &str) -> String {
    format!("from the axis ({degrees:.3}°), {rate}")
}

/// What an indicator moves along a taper.
pub fn indicator(unit: Unit, drop: &str) -> String {
    let travel = match unit {
        Unit::Inch => "1 inch",
        Unit::Millimetre => "25 mm",
    };
    format!("or an indicator moves {drop} in {travel}")
}

/// A diameter to measure.
pub fn diameter_at(place: &str) -> String {
    format!("Ø at {place}")
}

/// The compound set over.
pub fn compound(angle: &str) -> String {
    format!("Compound, {angle}")
}

/// Passes without infeed.
pub fn spring_passes(count: u32, at: &str) -> String {
    match count {
        1 => format!("Then once more at {at}."),
        2 => format!("Then twice more at {at}."),
        n => format!("Then {n} times more at {at}."),
    }
}

/// The whole depth straight in.
pub fn straight(dial: bool, depth: &str, which: &str) -> String {
    if dial { format!("Straight in by the cross dial: {depth}.") } else { format!("Depth a side {depth} ({which}).") }
}

/// Over wires.
pub fn over_wires(wire: &str) -> String {
    format!("Over wires {wire}")
}

/// The time a relief gives.
pub fn relief_gives(letter: &str, seconds: f64) -> String {
    let relief = if letter.is_empty() { "the run-out".to_owned() } else { format!("relief {letter}") };
    format!("{relief} gives {seconds:.1} s to open the half-nuts")
}

/// A clocked keyseat.
pub fn clocking(degrees: f64) -> String {
    format!("{degrees}°, counter-clockwise seen from the datum end")
}

/// On the keyseat's section.
pub fn from_the_top(depth: &str) -> String {
    format!("{depth} from the top")
}

/// On the keyseat's section.
pub fn at_the_side(depth: &str) -> String {
    format!("{depth} at the side")
}

/// On the keyseat's section.
pub fn across_the_bottom(size: &str) -> String {
    format!("{size} across the bottom")
}

/// On the keyseat's section.
pub fn wide(width: &str) -> String {
    format!("{width} wide")
}

/// When a line can be scribed.
pub fn after_operation(number: u32) -> String {
    format!("after {number}")
}

/// Heading of a list of marks.
pub fn mark_list(number: usize, name: &str, when: &str, standing_on: Option<&str>) -> String {
    let standing = standing_on.map_or(String::new(), |s| format!("; stands on the {}", s.to_uppercase()));
    format!("{number}  {}: {when}{standing}", capital(name))
}

/// Heads of a list of marks.
pub fn mark_heads() -> Vec<String> {
    ["mark", "HEIGHT\nGAUGE", "scribe on", "means,\nand the line"].map(String::from).to_vec()
}

/// Heads of a list to inspect.
pub fn inspection_heads() -> Vec<String> {
    ["", "limits", "with", "measured", "ok"].map(String::from).to_vec()
}

/// An instrument in the width of its column, at most two lines.
pub fn instrument(with: &str, kind: Inspected, room: f64) -> Vec<String> {
    let short = match kind {
        Inspected::AcrossBottom => "mic, bottom".to_owned(),
        Inspected::Width => "ring or block".to_owned(),
        _ => from_file(&with.replace("micrometer", "mic")),
    };
    let parts = short.split(", ").flat_map(|part| measure::broken(part, 12.0, false, room));
    parts.take(2).collect()
}

/// Text alternative of the part picture.
pub fn part_alt<'a>(name: &str, sections: usize, lengths: impl Iterator<Item = &'a str>) -> String {
    let lengths = lengths.collect::<Vec<_>>().join(", ");
    format!(
        "{name} from the side, datum end at the left, {sections} sections with their letters. Lengths from the datum end: {lengths}."
    )
}

/// Text alternative of a setup picture.
pub fn setup_alt(number: u32, held: &str, datum: DatumEnd) -> String {
    let place = match datum {
        DatumEnd::Tailstock => "at the tailstock, right",
        DatumEnd::Headstock => "at the headstock, left",
        DatumEnd::Left => "at the left",
    };
    format!("Setup {number}: {held}, datum end {place}.")
}

/// Text alternative of a keyseat's section.
pub fn keyseat_alt(key: &str, depths: &[&str]) -> String {
    format!("Section through the keyseat for {key}: {}.", depths.join(", "))
}

/// Text alternative of the marks' picture.
pub fn marks_alt<'a>(standing_on: &str, name: &str, marks: impl Iterator<Item = (&'a str, &'a str)>) -> String {
    let marks = marks.map(|(label, at)| format!("{label} at {at}")).collect::<Vec<_>>().join(", ");
    format!("The work standing on its {standing_on}, lines {name}: {marks}.")
}
