//! What lies on the sections: necks, grooves, chamfers, threads, polish, slots and holes.

use super::draft::{dashed, named, on};
use super::layout::{Layout, Section, Shape};
use crate::chain::Chain;
use crate::handbook::material::hardens;
use crate::model::feature::{Crown, EdgeAt, Knurl, Thread, ThreadForm};
use crate::model::plan::{Operation, Verb};
use crate::model::shop::ToolKind;
use crate::model::{End, Feature, Kind, Part};
use crate::plan::rules::because;
use crate::plan::wishes::names_heat_treatment;
use crate::tell;
use crate::unit::{Length, Limits, Station};

/// A finish of 32 µin / 0.8 µm or finer is polished (32 µin is 812.8 nm).
pub(in crate::plan) const POLISHED_NM: u32 = 813;

/// Whether a section is polished after its last cut.
pub(super) fn is_polished(part: &Part, feature: usize) -> bool {
    part.features.get(feature).is_some_and(|f| {
        let round = matches!(f.kind, Kind::Turn { .. } | Kind::Taper { .. });
        round && f.finish.as_ref().is_some_and(|r| r.ra_nm <= POLISHED_NM)
    })
}

/// Reliefs, plunged by the grooving tool.
pub(super) fn necks(part: &Part, layout: &Layout) -> Vec<Operation> {
    layout.sections.iter().filter(|s| s.shape == Shape::Neck).map(|s| neck(part, s, s.end)).collect()
}

fn neck(part: &Part, section: &Section, end: Option<End>) -> Operation {
    let direction = end.unwrap_or(End::Datum);
    let mut operation = on(part, Verb::Groove, section.feature, end, ToolKind::Grooving);
    operation.to_diameter = Some(section.aim);
    operation.limits = Some(section.limits).filter(|l| l.band().is_positive());
    operation.from = Some(section.outer(direction));
    operation.to = Some(section.inner(direction));
    operation
}

/// Grooves, chamfers, threads and polishing of everything, each with the end it is worked from.
pub(super) fn on_sections(part: &Part, chain: &Chain, layout: &Layout) -> Vec<Operation> {
    let mut operations = Vec::new();
    for feature in &part.features {
        match &feature.kind {
            Kind::Groove { diameter, .. } => {
                let limits = diameter.limits_or_nominal();
                operations.extend(groove(part, chain, layout, feature.id, limits));
            }
            Kind::Undercut { undercut, .. } => {
                operations.extend(under_cut(part, chain, layout, feature.id, undercut.depth));
            }
            Kind::Knurl { knurl, .. } => operations.extend(roll_knurl(part, layout, feature, knurl)),
            Kind::Chamfer { leg, at, .. } => operations.extend(chamfer(part, chain, layout, feature, leg.nominal, at)),
            Kind::Crown { crown } => operations.push(file_crown(part, layout, feature.id, crown)),
            Kind::Thread { thread, .. } => operations.extend(cut_thread(part, layout, feature, thread)),
            // A taper is proved in blue as it was cut: a strip after that spoils the fit.
            Kind::Turn { .. } if is_polished(part, feature.id) => {
                operations.extend(polish(part, layout, feature.id));
            }
            _ => {}
        }
    }
    operations
}

fn groove(part: &Part, chain: &Chain, layout: &Layout, feature: usize, limits: Limits) -> Option<Operation> {
    let (a, b) = chain.span(feature)?;
    let (from, to) = (a.min(b), a.max(b));
    let host = layout.under(from, to)?;
    let middle = from + (to - from).half();
    let near_datum = layout.depth(End::Datum, middle) < layout.overall.half();
    let bite = if near_datum { End::Datum } else { End::Far };
    let end = if host.whole && layout.parted.is_none() { Some(bite) } else { lies_on(host) };
    let mut operation = on(part, Verb::Groove, feature, end, ToolKind::Grooving);
    operation.to_diameter = Some(layout.allow.aim(limits));
    operation.limits = Some(limits).filter(|l| l.band().is_positive());
    let turned_round = end == Some(End::Far);
    (operation.from, operation.to) = if turned_round { (Some(to), Some(from)) } else { (Some(from), Some(to)) };
    Some(operation)
}

/// The end that what lies on a section is worked from. Bar that stays as it is belongs to neither: whichever holding leaves the place free will do.
fn lies_on(host: &Section) -> Option<End> {
    host.end.filter(|_| host.whole || host.shape != Shape::Kept)
}

/// An undercut: a groove in the corner, by its depth below the seat.
fn under_cut(part: &Part, chain: &Chain, layout: &Layout, feature: usize, depth: Limits) -> Option<Operation> {
    let (a, b) = chain.span(feature)?;
    let seat = layout.under(a.min(b), a.max(b))?;
    let below = |deep: Length| seat.aim - deep.times(2);
    groove(part, chain, layout, feature, Limits::new(below(depth.max), below(depth.min)))
}

/// A knurl is rolled over its whole blank.
fn roll_knurl(part: &Part, layout: &Layout, feature: &Feature, knurl: &Knurl) -> Option<Operation> {
    let section = layout.section(feature.id)?;
    let mut operation = on(part, Verb::Knurl, feature.id, section.end, ToolKind::Knurl);
    let direction = section.end.unwrap_or(End::Datum);
    operation.from = Some(section.outer(direction));
    operation.to = Some(section.inner(direction));
    operation.to_diameter = Some(knurl.expected);
    operation.limits = knurl.diameter.limits.filter(|l| l.band().is_positive());
    Some(operation)
}

fn chamfer(
    part: &Part,
    chain: &Chain,
    layout: &Layout,
    feature: &Feature,
    leg: Length,
    at: &EdgeAt,
) -> Option<Operation> {
    let (edge, end, inward) = match at {
        EdgeAt::End(end) => (layout.face(*end), Some(*end), *end),
        EdgeAt::Face(place) => {
            let edge = chain.station(place)?;
            let host = layout.largest_at(edge)?;
            (edge, lies_on(host), if host.from == edge { End::Datum } else { End::Far })
        }
    };
    let mut operation = on(part, Verb::Chamfer, feature.id, end, ToolKind::Chamfer);
    operation.from = Some(edge);
    operation.to = Some(Layout::toward(inward.other(), edge, leg));
    Some(operation)
}

/// A domed end: stepped off with the tool, then filed to its template.
fn file_crown(part: &Part, layout: &Layout, feature: usize, crown: &Crown) -> Operation {
    let mut operation = on(part, Verb::File, feature, Some(crown.end), ToolKind::File);
    let face = layout.face(crown.end);
    (operation.from, operation.to) = (Some(face), Some(Layout::toward(crown.end.other(), face, crown.height)));
    operation
}

fn cut_thread(part: &Part, layout: &Layout, feature: &Feature, thread: &Thread) -> Option<Operation> {
    let section = layout.section(feature.id)?;
    let tool = match thread.form {
        ThreadForm::V60 => ToolKind::Threading60,
        ThreadForm::Acme => ToolKind::Acme29,
        _ => ToolKind::ThreadingForm,
    };
    let mut operation = on(part, Verb::Thread, feature.id, section.end, tool);
    let direction = section.end.unwrap_or(End::Datum);
    operation.from = Some(section.outer(direction));
    operation.to = Some(section.inner(direction));
    Some(operation)
}

fn polish(part: &Part, layout: &Layout, feature: usize) -> Vec<Operation> {
    let Some(section) = layout.section(feature) else { return Vec::new() };
    let strip = |end: Option<End>, from: Station, to: Station| {
        let mut operation = on(part, Verb::Polish, feature, end, ToolKind::AbrasiveStrip);
        operation.to_diameter = Some(section.aim);
        operation.limits = Some(section.limits).filter(|l| l.band().is_positive());
        (operation.from, operation.to) = (Some(from), Some(to));
        operation
    };
    if section.whole && layout.parted.is_none() {
        let middle = section.from + section.long().half();
        return vec![strip(Some(End::Datum), section.from, middle), strip(Some(End::Far), section.to, middle)];
    }
    let direction = section.end.unwrap_or(End::Datum);
    vec![strip(section.end, section.outer(direction), section.inner(direction))]
}

/// Slots and holes: work for the mill or the drill press.
pub(super) fn off_the_lathe(part: &Part, chain: &Chain) -> Vec<Operation> {
    let mut operations = Vec::new();
    for feature in &part.features {
        let (verb, tool) = match feature.kind {
            Kind::Woodruff { .. } => (Verb::Mill, ToolKind::WoodruffCutter),
            Kind::ParallelKeyseat { .. } | Kind::Flats { .. } => (Verb::Mill, ToolKind::EndMill),
            Kind::CrossHole { .. } => (Verb::Drill, ToolKind::Drill),
            _ => continue,
        };
        let mut operation = on(part, verb, feature.id, None, tool);
        if let Some((from, to)) = chain.span(feature.id) {
            (operation.from, operation.to) = (Some(from), Some(to));
        }
        if let Kind::CrossHole { diameter, tapped, .. } = &feature.kind {
            // A tap drill is a drill there is; the middle of the minor diameter's limits need not be one.
            operation.to_diameter = Some(if tapped.is_some() { diameter.nominal } else { diameter.aim() });
            operation.limits = diameter.limits;
        }
        let tapped = matches!(&feature.kind, Kind::CrossHole { tapped: Some(_), .. });
        let (from, to) = (operation.from, operation.to);
        operations.push(operation);
        if tapped {
            let mut tap = on(part, Verb::Tap, feature.id, None, ToolKind::Tap);
            (tap.from, tap.to) = (from, to);
            operations.push(tap);
        }
    }
    operations
}

/// Deburring, trying the mates, inspecting.
pub(super) fn at_the_bench(part: &Part) -> Vec<Operation> {
    let mut operations = vec![named(&dashed(Verb::Deburr), Verb::Deburr, None, ToolKind::None)];
    let mut carrying = part.features.iter().filter(|f| !f.carries.is_empty()).map(|f| f.id);
    if let Some(first) = carrying.next() {
        let mut fit = named(&dashed(Verb::FitTest), Verb::FitTest, None, ToolKind::None);
        fit.feature = Some(first);
        fit.with = carrying.collect();
        operations.push(fit);
    }
    operations.push(named(&dashed(Verb::Inspect), Verb::Inspect, None, ToolKind::None));
    operations
}

/// Sent out to be hardened, where the description asks for it and a wish says what comes before it or after.
pub(super) fn heat_treatment(part: &Part) -> Option<Operation> {
    let treatment = part.heat_treatment.as_ref().filter(|t| hardens(&t.text) && names_heat_treatment(part))?;
    let mut heat = named(&dashed(Verb::HeatTreat), Verb::HeatTreat, None, ToolKind::None);
    let reason = tell!(
        "{}: cut before it what wants soft steel, after it what it would spoil",
        "{}: davor, was weichen Stahl braucht, danach, was es verdürbe",
        treatment.text
    );
    heat.why.push(because("R27", reason));
    Some(heat)
}

/// Facing and centering of one end.
pub(super) fn end_work(part: &Part, layout: &Layout, end: End, centered: bool) -> Vec<Operation> {
    let mut face = named(&format!("face-{}", end.word()), Verb::Face, Some(end), ToolKind::Facing);
    face.to = Some(layout.face(end));
    face.from = Some(Layout::toward(end, layout.face(end), layout.faced(end)));
    let mut operations = vec![face];
    if centered && !matches!(layout.mouth(end), crate::chain::Mouth::Seat { .. }) {
        let mut center = named(&format!("center-{}", end.word()), Verb::Center, Some(end), ToolKind::CenterDrill);
        center.feature = part.features.iter().find_map(|f| match &f.kind {
            Kind::CenterHole { size: Some(_), ends } if ends.at(end) => Some(f.id),
            _ => None,
        });
        center.from = Some(layout.face(end));
        operations.push(center);
    }
    operations
}

/// Parting off behind the end that is still in the bar, with a little left on it to face.
pub(super) fn part_off(layout: &Layout, out: End) -> Operation {
    let behind = out.other();
    let mut operation = named(&dashed(Verb::PartOff), Verb::PartOff, Some(behind), ToolKind::Parting);
    let at: Station = Layout::toward(behind, layout.face(behind), layout.allow.face);
    (operation.from, operation.to) = (Some(at), Some(at));
    operation
}
