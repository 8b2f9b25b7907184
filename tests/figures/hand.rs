//! The pulley stub of the samples with the plan worked by hand for it, so that the figures are tested apart from the planner.

use std::path::Path;

use turnwright::chain::{self, Profile};
use turnwright::figures::{self, Figures, OperationFigures, SetupFigures};
use turnwright::model::part::Holding;
use turnwright::model::plan::{DatumEnd, Grip, Operation, Plan, Setup, Verb, Zero};
use turnwright::model::shop::{Reads, ToolKind};
use turnwright::model::{End, Kind, Part, Shop};
use turnwright::read;
use turnwright::unit::{Length, Limits, Station};

/// A length in ten-thousandths of an inch.
pub(crate) fn tenths(n: i64) -> Length {
    Length::inch_tenths(n)
}

/// A place in thousandths of an inch from the datum face.
pub(crate) fn thou(n: i64) -> Station {
    Station(Length::micro_inches(n * 1000))
}

fn sample(name: &str) -> Vec<u8> {
    std::fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join("samples").join(name)).expect("a sample")
}

/// A description that reads without a slip.
pub(crate) fn part(text: &[u8]) -> Part {
    let read = read::part("part.yaml", text);
    assert!(read.slips.is_empty(), "{:?}", read.slips);
    read.part.expect("a part")
}

/// The sample stub.
pub(crate) fn stub() -> Part {
    part(&sample("pulley-stub.yaml"))
}

/// The sample shop, with its cross dial reading as asked.
pub(crate) fn shop(reads: Reads) -> Shop {
    let read = read::shop("shop.yaml", &sample("shop.yaml"));
    assert!(read.slips.is_empty(), "{:?}", read.slips);
    Shop { cross_reads: Some(reads), ..read.shop.expect("a shop") }
}

/// The feature with this letter.
pub(crate) fn lettered(part: &Part, letter: &str) -> usize {
    part.features.iter().find(|f| f.letter == letter).expect("a letter").id
}

struct Draft<'a> {
    part: &'a Part,
    number: u32,
    operations: Vec<Operation>,
}

impl Draft<'_> {
    fn op(
        &mut self,
        verb: Verb,
        tool: ToolKind,
        letter: &str,
        sizes: Option<(i64, i64)>,
        span: (i64, i64),
    ) -> &mut Operation {
        self.number += 10;
        let feature = (!letter.is_empty()).then(|| lettered(self.part, letter));
        self.operations.push(Operation {
            id: format!("{}-{letter}-{}", verb.word(), self.number),
            number: self.number,
            feature,
            from_diameter: sizes.map(|s| tenths(s.0)),
            to_diameter: sizes.map(|s| tenths(s.1)),
            from: Some(thou(span.0)),
            to: Some(thou(span.1)),
            ..bare(verb, tool)
        });
        self.operations.last_mut().expect("just pushed")
    }

    fn rough(&mut self, letter: &str, with: &[&str], sizes: (i64, i64), end: i64, stop: i64, face: i64) {
        let with = with.iter().map(|l| lettered(self.part, l)).collect();
        let op = self.op(Verb::Rough, ToolKind::Roughing, letter, Some(sizes), (end, stop));
        (op.with, op.face) = (with, Some(thou(face)));
    }

    fn finish(&mut self, letter: &str, sizes: (i64, i64), limits: Limits, span: (i64, i64), close: bool) {
        let op = self.op(Verb::Finish, ToolKind::Finishing, letter, Some(sizes), span);
        (op.limits, op.close) = (Some(limits), close);
    }

    fn groove(&mut self, letter: &str, sizes: (i64, i64), limits: Limits, span: (i64, i64)) {
        self.op(Verb::Groove, ToolKind::Grooving, letter, Some(sizes), span).limits = Some(limits);
    }

    fn face_and_center(&mut self, end: End) {
        let (at, saw) = if end == End::Datum { (0, -62) } else { (7000, 7062) };
        self.op(Verb::Face, ToolKind::Facing, "", None, (saw, at)).end = Some(end);
        let hole = self.part.features.iter().find(|f| matches!(f.kind, Kind::CenterHole { .. })).map(|f| f.id);
        let op = self.op(Verb::Center, ToolKind::CenterDrill, "", None, (at, at));
        (op.feature, op.end) = (hole, Some(end));
    }

    fn take(&mut self) -> Vec<Operation> {
        std::mem::take(&mut self.operations)
    }
}

fn limits(low: i64, high: i64) -> Limits {
    Limits::new(tenths(low), tenths(high))
}

fn seat(part: &Part, letter: &str) -> Limits {
    match &part.features[lettered(part, letter)].kind {
        Kind::Turn { diameter, .. } => diameter.limits_or_nominal(),
        kind => panic!("{letter} is a {}", kind.word()),
    }
}

/// Setups 1 to 5 of the stub in the order of the sheet drawn by hand: rough, necks, thread, seats last.
pub(crate) fn plan(part: &Part) -> Plan {
    let mut d = Draft { part, number: 0, operations: Vec::new() };
    d.face_and_center(End::Datum);
    let first = d.take();
    d.face_and_center(End::Far);
    let second = d.take();
    d.rough("C", &[], (12_500, 9_040), 0, 3_230, 3_250);
    d.rough("A", &["B"], (9_040, 6_500), 0, 980, 1_000);
    d.finish("A", (6_500, 6_200), limits(6_149, 6_236), (0, 1_000), false);
    d.groove("B", (6_200, 5_400), limits(5_350, 5_450), (850, 1_000));
    d.op(Verb::Thread, ToolKind::Threading60, "A", None, (0, 850));
    d.finish("C", (9_040, 8_743), seat(part, "C"), (1_000, 3_250), true);
    let third = d.take();
    d.rough("E", &[], (12_500, 10_900), 7_000, 3_670, 3_650);
    d.rough("F", &["G"], (10_900, 8_180), 7_000, 3_770, 3_750);
    d.rough("H", &["J", "K"], (8_180, 7_000), 7_000, 6_020, 6_000);
    d.rough("K", &["J"], (7_000, 5_260), 7_000, 6_520, 6_500);
    d.finish("E", (10_900, 10_600), limits(10_580, 10_620), (3_750, 3_650), false);
    d.finish("G", (8_180, 7_700), limits(7_680, 7_720), (6_000, 4_350), false);
    d.finish("K", (5_260, 4_960), limits(4_906, 4_987), (7_000, 6_500), false);
    d.groove("J", (4_960, 4_200), limits(4_150, 4_250), (6_620, 6_500));
    d.op(Verb::Thread, ToolKind::Threading60, "K", None, (7_000, 6_620));
    d.finish("F", (8_180, 7_877), seat(part, "F"), (4_350, 3_750), true);
    d.finish("H", (7_000, 6_695), seat(part, "H"), (6_500, 6_000), true);
    let fourth = d.take();
    d.op(Verb::Mill, ToolKind::WoodruffCutter, "L", None, (2_125, 2_125));
    let fifth = d.take();
    let grip = |from, to, diameter, letter: &str, protect| {
        Some(Grip {
            from: thou(from),
            to: thou(to),
            diameter: tenths(diameter),
            letter: letter.to_owned(),
            protect,
            roughed: false,
        })
    };
    Plan {
        setups: vec![
            setup(1, Holding::Chuck, Some(End::Datum), Zero::DatumFace, grip(5_000, 7_000, 12_500, "", false), first),
            setup(2, Holding::Chuck, Some(End::Far), Zero::FacedToOverall, grip(0, 2_000, 12_500, "", false), second),
            setup(
                3,
                Holding::BetweenCenters,
                Some(End::Datum),
                Zero::DatumFace,
                grip(6_250, 7_000, 12_500, "", false),
                third,
            ),
            setup(
                4,
                Holding::BetweenCenters,
                Some(End::Far),
                Zero::FarFace,
                grip(1_300, 1_900, 8_743, "C", true),
                fourth,
            ),
            setup(5, Holding::Mill, None, Zero::None, None, fifth),
        ],
        ..Plan::default()
    }
}

fn setup(
    number: u32,
    holding: Holding,
    works: Option<End>,
    zero: Zero,
    grip: Option<Grip>,
    operations: Vec<Operation>,
) -> Setup {
    Setup {
        number,
        name: format!("setup {number}"),
        holding,
        by: turnwright::model::Workholder::Usual,
        runs_true: None,
        datum_end: match works {
            Some(End::Datum) => DatumEnd::Tailstock,
            Some(End::Far) => DatumEnd::Headstock,
            None => DatumEnd::Left,
        },
        works,
        grip,
        also: None,
        rest: None,
        stick_out: None,
        zero,
        operations,
        why: Vec::new(),
        before: Vec::new(),
        slow: None,
        after: Vec::new(),
    }
}

/// The figures of a part and a plan.
pub(crate) fn figures_of(part: &Part, plan: &Plan, shop: Option<&Shop>) -> Figures {
    let chain = chain::locate(part);
    let profile = Profile::of(part, &chain);
    figures::work(part, &chain, &profile, plan, shop)
}

/// The figures of the stub on a shop's lathe.
pub(crate) fn stub_figures(shop: Option<&Shop>) -> Figures {
    let part = stub();
    figures_of(&part, &plan(&part), shop)
}

/// A setup by its number.
pub(crate) fn setup_of(figures: &Figures, number: u32) -> &SetupFigures {
    figures.setups.iter().find(|s| s.number == number).expect("a setup")
}

/// An operation by its number.
pub(crate) fn operation_of(figures: &Figures, number: u32) -> &OperationFigures {
    figures.setups.iter().flat_map(|s| &s.operations).find(|o| o.number == number).expect("an operation")
}

/// An operation of nothing yet.
pub(crate) fn bare(verb: Verb, tool: ToolKind) -> Operation {
    Operation {
        id: verb.word().to_owned(),
        number: 0,
        verb,
        feature: None,
        with: Vec::new(),
        end: None,
        tool,
        from_diameter: None,
        to_diameter: None,
        limits: None,
        from: None,
        to: None,
        face: None,
        close: false,
        inside: false,
        throw: None,
        followed: false,
        lighter: None,
        spring: 0,
        barrel: None,
        for_rest: false,
        travel: None,
        minutes: 1.0,
        again: None,
        not_before: None,
        not_after: None,
        why: Vec::new(),
    }
}

/// A plan of one mounting between centers with an end at the tailstock; operations are numbered 10, 20 …
pub(crate) fn one_setup(end: End, mut operations: Vec<Operation>) -> Plan {
    for (i, op) in (1..).zip(&mut operations) {
        op.number = 10 * i;
    }
    let zero = if end == End::Datum { Zero::DatumFace } else { Zero::FarFace };
    Plan { setups: vec![setup(1, Holding::BetweenCenters, Some(end), zero, None, operations)], ..Plan::default() }
}
