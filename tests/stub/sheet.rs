//! A sheet of the pulley stub, its numbers worked by hand (the worked example of the trade notes, section 11).

use turnwright::sheet::draft::{Draft, Item, Section};
use turnwright::sheet::view::{
    Aim, Cell, Columns, DatumBox, Frame, Head, InspectionList, InspectionRow, Line, MarkRow, Mm, NoteKind,
    OperationRow, Paper, Piece, PieceKind, Rich, Shape, SignRow, Step, Zero,
};
use turnwright::sheet::{blocks, draw};

use super::{scenes, stub};

fn columns(length_sub: &str) -> Columns {
    Columns {
        again: false,
        operation: "operation".into(),
        measure: "MEASURE Ø".into(),
        measure_sub: "aim, limits".into(),
        length: "CARRIAGE".into(),
        length_sub: length_sub.into(),
        length_frame: Frame::Carriage,
        cross: "CROSS".into(),
        cross_sub: "RADIUS".into(),
        measured: "measured".into(),
    }
}

#[derive(Clone, Copy)]
struct Op<'a> {
    number: u32,
    letter: &'a str,
    verb: &'a str,
    what: &'a str,
    rpm: (&'a str, &'a str),
    aim: (&'a str, &'a str, &'a str),
    under_aim: &'a str,
    length: &'a [&'a str],
    under_length: &'a str,
    cross: &'a [&'a str],
    under_cross: &'a str,
}

fn under_lines(text: &str) -> Vec<String> {
    text.split('|').filter(|t| !t.is_empty()).map(String::from).collect()
}

fn row(op: &Op) -> OperationRow {
    let cell = |r: &[&str], under: &str| Cell {
        readings: r.iter().map(|t| turnwright::sheet::measure::padded(t, 1)).collect(),
        under: under_lines(under),
    };
    blocks::sized(OperationRow {
        number: op.number.to_string(),
        letter: op.letter.into(),
        verb: op.verb.into(),
        what: op.what.into(),
        second: vec![Rich::from(format!("{} rpm ", op.rpm.0)).grey(format!("({})", op.rpm.1))],
        shape: Shape::Columns {
            aim: Some(Aim {
                size: turnwright::sheet::measure::padded(op.aim.0, 1),
                upper: op.aim.1.into(),
                lower: op.aim.2.into(),
            }),
            under_aim: Some(op.under_aim.to_owned()).filter(|u: &String| !u.is_empty()).into_iter().collect(),
            length: cell(op.length, op.under_length),
            cross: Cell {
                readings: op.cross.iter().map(|s| (*s).to_owned()).collect(),
                under: under_lines(op.under_cross),
            },
            blank: true,
        },
        detail: vec![],
        told: vec![],
        done: false,
        top: Mm::default(),
        height: Mm::default(),
    })
}

fn piece(kind: PieceKind, text: &str, width: f64) -> Piece {
    Piece { kind, text: text.into(), width: Mm(width) }
}

fn wide(number: u32, letter: &str, verb: &str, text: &str, detail: Vec<Line>) -> OperationRow {
    blocks::sized(OperationRow {
        number: number.to_string(),
        letter: letter.into(),
        verb: verb.into(),
        what: String::new(),
        second: vec![],
        shape: Shape::Wide { text: text.into() },
        detail,
        told: vec![],
        done: false,
        top: Mm::default(),
        height: Mm::default(),
    })
}

fn step(row: OperationRow, cut: (f64, f64)) -> Step {
    let focus = draw::Focus {
        cuts: vec![(cut.0 * 25.4, cut.1 * 25.4)],
        readings: vec![
            draw::Reading { at: 0.0, text: "0".into() },
            draw::Reading { at: cut.1 * 25.4, text: format!("{:.3}", cut.1).trim_start_matches('0').to_owned() },
        ],
        words: vec![row.letter.clone()],
        ..draw::Focus::default()
    };
    Step { before: vec![], row, after: vec![], focus, small: false }
}

fn thread_detail() -> Vec<Line> {
    use PieceKind::{Blank, Dial, Plain, Strong};
    let label = |t: &str| Rich::from(t);
    let passes = [".014", ".020", ".024", ".028", ".031", ".034", ".037", ".039"];
    vec![
        blocks::line(label("Compound, 29½°"), 38.0, passes.iter().map(|p| piece(Dial, p, 0.0)).collect()),
        blocks::line(
            label(""),
            38.0,
            vec![piece(Plain, "Then once more at .039. Straight in by the cross dial: .034.", 0.0)],
        ),
        blocks::line(
            label("Over wires .0321"),
            38.0,
            vec![piece(Strong, ".6357 / .6310", 0.0), piece(Plain, "reads", 0.0), piece(Blank, "over wires", 27.0)],
        ),
        blocks::line(label("Blank Ø"), 38.0, vec![piece(Strong, ".6236 / .6149", 0.0)]),
        blocks::line(
            label("Gearbox"),
            38.0,
            vec![piece(Strong, "18 tpi", 0.0), piece(Plain, "  thread dial", 0.0), piece(Strong, "any mark", 0.0)],
        ),
        blocks::line(
            label("Speed"),
            38.0,
            vec![piece(Strong, "90 rpm", 0.0), piece(Plain, "relief B gives 1.8 s to open the half-nuts", 0.0)],
        ),
    ]
}

fn cuts(aim: &str) -> Vec<Line> {
    use PieceKind::{Blank, Dial, DialBlank, Plain, Strong};
    let cut = |n: &str, reads: &str| {
        blocks::line(
            Rich::new().strong(format!("cut {n}")),
            21.0,
            vec![
                piece(Dial, ".005", 26.0),
                piece(Plain, "should read", 34.0),
                piece(Strong, reads, 0.0),
                piece(Blank, &format!("after cut {n}"), 26.0),
            ],
        )
    };
    vec![
        cut("1", ".894"),
        cut("2", ".884"),
        blocks::line(
            Rich::new().strong("it reads"),
            21.0,
            vec![
                piece(Blank, "it reads", 26.0),
                piece(Plain, "−", 0.0),
                piece(Strong, aim, 0.0),
                piece(Plain, "=", 0.0),
                piece(Blank, "to come off", 26.0),
                piece(Strong, "cut 3", 0.0),
                piece(Plain, "half", 0.0),
                piece(DialBlank, "cut 3", 26.0),
            ],
        ),
    ]
}

fn setup3() -> Section {
    let (scene, _) = scenes().swap_remove(2);
    let datum = || Some(DatumBox { what: "DATUM END".into(), place: "at TAILSTOCK".into() });
    let op = |number, letter, verb, what, rpm, aim, under_aim, length, cross, under_cross| {
        row(&Op { number, letter, verb, what, rpm, aim, under_aim, length, under_length: "", cross, under_cross })
    };
    let mut seat = op(110, "C", "Finish", "seat", ("330", "380"), (".8743", ".8745", ".8740"), "", &["3.250"], &[], "");
    seat.detail = cuts(".8743");
    let seat = blocks::sized(seat);
    let mut finish = step(seat, (1.0, 3.25));
    finish.before = vec![blocks::stop("STOP", "Let it cool until it feels cold. The seat comes last.".into())];
    finish.after = vec![
        blocks::text("Three equal cuts; face collar D on the last. Polish to 32 µin now, before any keyseat.".into()),
        blocks::stop("STOP", "Leave the dog on. Lift out, try pulley and nut, put back.".into()),
    ];
    let groove = row(&Op {
        number: 80,
        letter: "B",
        verb: "Groove",
        what: "relief",
        rpm: ("90", "139"),
        aim: (".540", ".545", ".535"),
        under_aim: "",
        length: &[".943", "1.000"],
        under_length: "LEFT edge",
        cross: &[".040"],
        under_cross: "0 on A at .620",
    });
    let col = |row: OperationRow, cut| Item::Step { step: step(row, cut), columns: Some(columns("from datum")) };
    Section {
        id: "setup-3".into(),
        bookmark: "Setup 3: Relief, thread, pulley seat".into(),
        head: blocks::setup_head(
            "SETUP",
            "3",
            "Relief, thread, pulley seat",
            vec!["Between centers, dog beyond mark M3.".into(), "Test cut first: same Ø at both ends of C.".into()],
            datum(),
            false,
        )
        .0,
        again: blocks::setup_head(
            "SETUP",
            "3",
            "Relief, thread, pulley seat",
            vec!["Continued. Lengths from the datum face.".into()],
            datum(),
            true,
        )
        .0,
        opening: vec![
            blocks::picture_room(draw::setup::HEIGHTS[0]),
            blocks::zeros(vec![
                Zero {
                    name: "CARRIAGE".into(),
                    frame: Frame::Carriage,
                    lines: vec!["0 on the datum face. Counts up toward the headstock; come to it that way.".into()],
                },
                Zero {
                    name: "CROSS".into(),
                    frame: Frame::Dial,
                    lines: vec![
                        Rich::new().strong("RADIUS: .005 takes .010 off Ø."),
                        "0 on the skin of C, Ø 1.250. Counts up going in; come to it going in.".into(),
                    ],
                },
            ]),
            blocks::text(Rich::new().strong("Tool").plain(" right-hand, nose .015. ").strong("Feed").plain(
                " rough .008, finish .003. Rough faces stand .020 proud. When dial and micrometer differ, trust the micrometer.",
            )),
        ],
        reopening: vec![
            blocks::picture_room(draw::setup::HEIGHTS[1]),
            blocks::zeros(vec![
                Zero { name: "CARRIAGE".into(), frame: Frame::Carriage, lines: vec!["from the datum face".into()] },
                Zero { name: "CROSS".into(), frame: Frame::Dial, lines: vec![Rich::new().strong("RADIUS").plain(", 0 at the touch")] },
            ]),
        ],
        items: vec![
            col(op(50, "C", "Rough", "seat", ("215", "275"), (".904", "", ""), "3 passes of .058", &["3.230"], &[".173"], "1 turn + .073"), (1.0, 3.25)),
            col(op(60, "A", "Rough", "with B", ("330", "380"), (".650", "", ""), "3 passes of .042", &[".980"], &[".300"], "3 turns"), (0.0, 1.0)),
            col(op(70, "A", "Finish", "blank", ("500", "529"), (".620", ".6236", ".6149"), "", &["1.000"], &[".315"], "3 turns + .015"), (0.0, 1.0)),
            col(groove, (0.85, 1.0)),
            Item::Step { step: step(wide(90, "A", "Chamfer", ".045 × 45°", vec![]), (0.0, 0.85)), columns: None },
            Item::Step { step: step(wide(100, "A", "Thread", "5/8-18 UNF-2A, right hand", thread_detail()), (0.0, 0.85)), columns: None },
            Item::Step { step: finish, columns: Some(columns("from datum")) },
        ],
        joins: true,
        scene: Some(scene),
    }
}

fn plain(id: &str, title: &str, text: &str, datum: Option<DatumBox>, items: Vec<Item>) -> Section {
    let head = blocks::title_head(title, text.into(), datum);
    Section {
        id: id.into(),
        bookmark: title.into(),
        head: head.clone(),
        again: head,
        opening: vec![],
        reopening: vec![],
        items,
        joins: false,
        scene: None,
    }
}

fn cover() -> Section {
    let (body, readings) = stub();
    let legend = [
        ("A", "5/8-18 UNF-2A", "0 to .850"),
        ("B", "Ø .545 +0/−.010", "relief to 1.000"),
        ("C", "Ø .8745/.8740", "pulley seat"),
        ("D", "Ø 1.250", "keep the bar’s skin"),
        ("E", "Ø 1.060 ±.002", "abutment"),
        ("F", "Ø .7878/.7875", "20 mm k5 seat"),
        ("G", "Ø .770 ±.002", "body"),
        ("H", "Ø .6696/.6694", "17 mm k5 seat"),
        ("J", "Ø .425 +0/−.010", "relief to 6.620"),
        ("K", "1/2-20 UNF-2A", "6.620 to end"),
        ("L", "Woodruff 606", "after polishing"),
        ("", "lengths ±.005", "overall ±.010"),
    ];
    Section {
        id: "cover".into(),
        bookmark: "Cover".into(),
        head: Head::None,
        again: blocks::title_head("Cover, continued", Rich::new(), None),
        opening: vec![],
        reopening: vec![],
        items: vec![
            Item::Block(blocks::cover(
                "",
                None,
                "Pulley stub for a line shaft",
                vec!["Drawing LS-104, revision B. All sizes in inches.".into(), "Datum end: pulley end, face of A.".into()],
                [("Material", "1045 cold drawn"), ("Bar", "Ø 1.250"), ("Saw to", "7.125"), ("Face off", ".06 each end")]
                    .map(|(k, v)| (k.to_owned(), v.to_owned()))
                    .to_vec(),
            )),
            Item::Block(blocks::picture(draw::part(&body, &readings, "DATUM END", "The part to scale.".into()))),
            Item::Block(blocks::legend(legend.iter().map(|(l, s, w)| blocks::legend_row(l, s, w)).collect())),
            Item::Block(blocks::setups(
                "Setups",
                vec![
                    ("1".into(), "Chuck. Face and center the datum end.".into(), String::new()),
                    ("3".into(), "Between centers, datum end at TAILSTOCK. Relief, thread 5/8-18, seat C.".into(), "setup-3".into()),
                    ("6".into(), "Bench. Fit bearings, pulley and nuts; inspect.".into(), "inspection".into()),
                ],
            )),
            Item::Block(blocks::boxed(
                "Findings: none open, 1 accepted",
                vec!["Relief J is .120 wide, 2.4 pitches; the check asks 2.5 (.125). Accepted: “short nut; two leads of clearance are enough”.".into()],
            )),
            Item::Block(blocks::heading("Notes")),
            Item::Block(blocks::note(
                NoteKind::Paragraph,
                0,
                "",
                vec![Rich::from("Try the pulley and both nuts ").strong("before").plain(" the dog comes off. <script>alert(1)</script> #import \"x\" $a$ *b* _c_")],
            )),
        ],
        joins: false,
        scene: None,
    }
}

fn before() -> Section {
    let items = |t: &[&str]| t.iter().map(|i| Rich::from(*i)).collect::<Vec<_>>();
    let pair = |k: &str, v: &str| (k.to_owned(), Rich::from(v));
    plain(
        "before",
        "Before the first chip",
        "",
        None,
        vec![
            Item::Block(blocks::ticks(vec![
                blocks::tick_list(
                    "Tools to lay out",
                    items(&[
                        "right-hand turning tool, nose .015",
                        "grooving tool .093 wide",
                        "45° chamfer tool",
                        "60° threading tool and its gauge",
                        "center drill 1/8",
                        "dog, drive plate, 2 centers, copper",
                        "dye, scriber, height gauge, V-block",
                    ]),
                ),
                blocks::tick_list(
                    "Instruments and mates",
                    items(&[
                        "micrometer 0–1 and 1–2",
                        "depth micrometer 0–4",
                        "caliper 0–8, for overall and grooves",
                        "wires .0321 (A) and .0289 (K)",
                        "nuts 5/8-18 and 1/2-20",
                        "bearings 6204 and 6203",
                        "the pulley",
                    ]),
                ),
            ])),
            Item::Block(blocks::assumed(
                "ASSUMED: change what is not true of your shop",
                vec![
                    ("Cross dial".into(), Rich::new().strong("RADIUS").plain(", .001 a division, .100 a turn")),
                    pair(
                        "Carriage dial",
                        ".005 a division, 1.000 a turn: the figure before the point is full turns. It holds ±.005.",
                    ),
                    pair("Speeds", "60 90 140 215 330 500 780; HSS at 90 ft/min; grooving at 1/4"),
                    pair("Rough cut", "at most .060 a side; leave .030 on Ø, .020 on faces"),
                    pair("Limits from mm", "rounded inward, never wider than k5"),
                ],
            )),
            Item::Block(blocks::list(
                "Cautions this part earns",
                items(&[
                    "Dog: tail tied into the plate, screw head guarded. One turn by hand before power.",
                    "Oil the tailstock center; feel it again as the work warms.",
                    "Thread to a relief: 90 rpm, stop marked, rehearse once with the tool backed out.",
                    "Spindle stopped and still before you measure, wipe or change gears.",
                    "Polish before the keyseat is milled. Emery held at both ends, never wrapped.",
                    "No gloves, rings or loose sleeves. Eye cover. Hook or brush for swarf.",
                ]),
            )),
            Item::Block(blocks::text(
                "Follow your shop’s rules and local law; this sheet does not replace training.".into(),
            )),
        ],
    )
}

fn marks() -> Section {
    let (body, _) = stub();
    let rows = [
        ("M5", 6.0, "H at .700", "seat H starts"),
        ("M4", 3.75, "E at 1.090", "seat F starts"),
        ("M3", 1.0, "C at .904", "seat C starts"),
    ];
    let list: Vec<MarkRow> = rows
        .iter()
        .map(|r| blocks::mark_row(r.0, &format!("{:.3}", r.1), &format!("{}, after 150", r.2), r.3, "split line"))
        .collect();
    let middles = blocks::mark_middles(&list);
    let lines: Vec<draw::MarkLine> =
        rows.iter().zip(middles).map(|(r, row)| draw::MarkLine { at: r.1 * 25.4, row }).collect();
    let height = blocks::marks_picture_height(&list);
    let picture = draw::marks(&body, &lines, height, "marks-1", "The bar on its datum end.".into());
    let head = ["mark", "HEIGHT\nGAUGE", "scribe on", "means,\nand the line"].map(String::from).to_vec();
    let note = Rich::from("A line is a warning, never the size: the size is the dial and the micrometer.");
    plain(
        "marks",
        "Marks",
        "",
        Some(DatumBox { what: "DATUM END".into(), place: "DOWN on the plate".into() }),
        vec![Item::Block(blocks::marks("After roughing: dye again", picture, head, list, note))],
    )
}

fn inspection() -> Section {
    let list = |heading: &str, rows: Vec<(&str, &str, &str, &str)>| InspectionList {
        heading: heading.into(),
        head: ["", "limits", "with", "measured", "ok"].map(String::from).to_vec(),
        rows: rows
            .into_iter()
            .map(|(what, upper, lower, with)| InspectionRow {
                what: what.into(),
                upper: turnwright::sheet::measure::padded(upper, 1),
                lower: turnwright::sheet::measure::padded(lower, 1),
                read: Vec::new(),
                with: with.split('|').map(String::from).collect(),
                measured: String::new(),
            })
            .collect(),
    };
    plain(
        "inspection",
        "Inspection",
        "Cold, deburred, clean. All lengths from the datum face.",
        None,
        vec![
            Item::Block(blocks::inspection(vec![
                list(
                    "Diameters",
                    vec![
                        ("A", ".6236", ".6149", "mic"),
                        ("A", ".6357", ".6310", "mic, wires|.0321"),
                        ("E", "1.062", "1.058", "mic 1–2"),
                    ],
                ),
                list(
                    "Lengths",
                    vec![
                        ("AB", ".855", ".845", "caliper"),
                        ("BC", "1.005", ".995", "caliper"),
                        ("FH", "2.260", "2.240", "seat face to|seat face"),
                    ],
                ),
            ])),
            Item::Block(blocks::sign_off(vec![
                SignRow { who: "Made by".into(), date: "date".into() },
                SignRow { who: "Inspected".into(), date: "date".into() },
            ])),
            Item::Block(blocks::lines("Notes", 4)),
        ],
    )
}

/// The draft of the sheet.
pub(crate) fn draft() -> Draft {
    Draft {
        title: "Pulley stub for a line shaft, LS-104 B: setup sheet".into(),
        units: "in",
        decimal: ".",
        paper: Paper::LETTER,
        hash: "7C41-09AE".into(),
        do_not_cut: String::new(),
        part: "Pulley stub for a line shaft".into(),
        drawing: "LS-104 rev B".into(),
        sections: vec![cover(), before(), setup3(), marks(), inspection()],
    }
}
