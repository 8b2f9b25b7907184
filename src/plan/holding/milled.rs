//! Off the lathe: the mill, with vise and V-blocks or with a dividing head, and the bench.

use super::mountings::Candidates;
use crate::model::part::Holding;
use crate::model::plan::{DatumEnd, Operation, Setup, Verb, Why, Zero};
use crate::model::{End, Kind, Part, Shop, Workholder};
use crate::plan::derive::Layout;
use crate::plan::rules::because;
use crate::{tell, told};

/// The mill and the bench, where something is done there.
pub(super) fn off_the_lathe(
    part: &Part,
    layout: &Layout,
    shop: Option<&Shop>,
    operations: &[Operation],
    result: &mut Candidates,
) {
    let mut mill = bare(
        Holding::Mill,
        because(
            "R14",
            told!(
                "slots and holes are cut in one setup, the part lying in V-blocks",
                "Nuten und Bohrungen in einer Aufspannung, das Teil in Prismen"
            ),
        ),
    );
    if let Some((why, end)) =
        divided(part, layout, operations).filter(|_| shop.is_some_and(|s| s.dividing_head.is_some()))
    {
        mill.by = Workholder::DividingHead;
        mill.name = mill.held();
        mill.why = vec![why];
        // What is divided stands toward the footstock.
        mill.datum_end = if end == End::Datum { DatumEnd::Tailstock } else { DatumEnd::Headstock };
    }
    add(mill, &[Verb::Mill, Verb::Drill, Verb::Tap], operations, result);
    let why = because(
        "R27",
        told!(
            "sent out to be hardened: nothing is held, and what comes back has scale on it and has moved",
            "zum Härten außer Haus: nichts ist gespannt; was zurückkommt, hat Zunder und ist verzogen"
        ),
    );
    let sent = Setup { name: HEAT.to_owned(), ..bare(Holding::Bench, why) };
    add(sent, &[Verb::HeatTreat], operations, result);
    let why = because(
        "order-bench",
        told!(
            "deburred, tried and measured cold, off the machines",
            "entgratet, probiert und kalt gemessen, abseits der Maschinen"
        ),
    );
    add(bare(Holding::Bench, why), &[Verb::Deburr, Verb::FitTest, Verb::Inspect], operations, result);
}

/// Name of the setup that is none of the shop's.
const HEAT: &str = "heat treatment";

pub(super) fn bare(holding: Holding, why: Why) -> Setup {
    Setup {
        number: 0,
        name: holding.word().to_owned(),
        holding,
        by: Workholder::Usual,
        runs_true: None,
        datum_end: DatumEnd::Left,
        works: None,
        grip: None,
        also: None,
        rest: None,
        stick_out: None,
        zero: Zero::None,
        operations: Vec::new(),
        why: vec![why],
        before: Vec::new(),
        slow: None,
        after: Vec::new(),
    }
}

fn add(setup: Setup, verbs: &[Verb], operations: &[Operation], result: &mut Candidates) {
    let here = |o: &Operation| !o.inside && verbs.contains(&o.verb);
    if !operations.iter().any(here) {
        return;
    }
    let m = result.mountings.len();
    result.mountings.push(setup);
    for (i, operation) in operations.iter().enumerate() {
        if here(operation) {
            result.allowed[i].push(m);
        }
    }
}

/// Why the work must be turned by exact parts of a turn, if it must, and the end that what is divided lies nearer to.
fn divided(part: &Part, layout: &Layout, operations: &[Operation]) -> Option<(Why, End)> {
    let milled = || operations.iter().filter(|o| matches!(o.verb, Verb::Mill | Verb::Drill) && !o.inside);
    let flats = milled().find_map(|o| {
        let feature = part.features.get(o.feature?)?;
        matches!(feature.kind, Kind::Flats { count: 2.., .. }).then_some((o, feature))
    });
    let middle = |o: &Operation| Some(o.from? + (o.to? - o.from?).half());
    let end = |o: &Operation| {
        let near = middle(o).is_some_and(|at| layout.depth(End::Datum, at) <= layout.overall.half());
        if near { End::Datum } else { End::Far }
    };
    if let Some((o, feature)) = flats {
        let Kind::Flats { count, .. } = feature.kind else { return None };
        let reason = tell!(
            "the {count} flats of {} are parts of one turn: the dividing head turns the work by them",
            "die {count} Flächen von {} sind Teile einer Umdrehung: der Teilkopf dreht das Teil danach",
            feature.letter
        );
        return Some((because("dividing", reason), end(o)));
    }
    let mut angles = milled().filter_map(|o| Some((o, part.features.get(o.feature?)?.angle_mdeg?)));
    let (first, angle) = angles.next()?;
    angles.find(|(_, a)| *a != angle)?;
    Some((
        because(
            "dividing",
            told!(
                "what is clocked at different angles is cut in one mounting, turned from one to the next",
                "was unter verschiedenen Winkeln liegt, wird in einer Aufspannung gefräst und weitergedreht"
            ),
        ),
        end(first),
    ))
}
