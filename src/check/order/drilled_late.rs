#![doc = include_str!("drilled_late.md")]

use crate::chain::Mouth;
use crate::check::shape::{number, times};
use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::End;
use crate::model::plan::{Operation, Setup, Verb};
use crate::unit::Length;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "order-drilled-late",
    severity: Severity::Warning,
    group: "order",
    source: "drilling heats and pushes the work: it comes before the close sizes (common practice, no source)",
    page: include_str!("drilled_late.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(plan) = facts.plan else { return };
    let row: Vec<(&Setup, &Operation)> = plan.operations().collect();
    let most = facts.limit_number(CHECK.id, "diameters");
    for (at, (setup, drill)) in row.iter().enumerate() {
        let Some(deep) = heavy(drill, most) else { continue };
        let Some(feature) = drill.feature.and_then(|f| facts.feature(f)) else { continue };
        let is_seat = |s: &Setup, o: &Operation| o.close && !o.inside && s.number < setup.number && o.feature.is_some();
        let Some((_, seat)) = row[..at].iter().find(|(s, o)| is_seat(s, o)) else { continue };
        let Some(seat) = seat.feature.and_then(|f| facts.feature(f)) else { continue };
        let open = [End::Datum, End::Far].into_iter().filter(|e| matches!(facts.profile.mouth(*e), Mouth::Open { .. }));
        let open: Vec<&str> = open.map(End::word).collect();
        let help = match open[..] {
            [] => told!("Drill it before the close sizes are finished", "Vor dem Schlichten der engen Maße bohren").to_owned(),
            [one] => tell!(
                "A 60° chamfer in its mouth lets the shaft run on that: `inside:` `- chamfer: LEG x 30°`, `end: {one}`; then it is drilled first",
                "Eine 60°-Fase in der Mündung trägt die Spitze: `inside:` `- chamfer: LÄNGE x 30°`, `end: {one}`; dann wird zuerst gebohrt"
            ),
            _ => told!(
                "A 60° chamfer in both mouths lets the shaft run on them: `inside:` `- chamfer: LEG x 30°`, `end: datum`, and again `end: far`; then it is drilled first",
                "Eine 60°-Fase in beiden Mündungen trägt die Spitzen: `inside:` `- chamfer: LÄNGE x 30°`, `end: datum`, und noch einmal `end: far`; dann wird zuerst gebohrt"
            )
            .to_owned(),
        };
        let message = tell!(
            "{} is drilled {} deep, more than {} diameters, after {} is finished close: drilling heats and pushes the work",
            "{} wird {} tief gebohrt, mehr als {} Durchmesser, nachdem {} eng geschlichtet ist: Bohren erwärmt und schiebt das Werkstück",
            feature.called(),
            facts.show(deep),
            number(most),
            seat.called()
        );
        out.push(
            Finding::new(CHECK.id, Severity::Warning, message)
                .by_limit("diameters")
                .at(feature.head)
                .also(seat.head, "finished before it")
                .of(feature.letter.clone())
                .of(seat.letter.clone())
                .length("deep", deep)
                .help(help),
        );
    }
}

/// How deep a hole in an end is drilled into the solid, where that is heavy work.
fn heavy(drill: &Operation, most: f64) -> Option<Length> {
    let solid = drill.verb == Verb::Drill && drill.inside && drill.from_diameter.is_none();
    let deep = (drill.to? - drill.from?).abs();
    (solid && deep > times(drill.to_diameter?, most)).then_some(deep)
}
