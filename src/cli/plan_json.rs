//! `turnwright/plan/1` and `turnwright/marks/1`.

use std::collections::BTreeMap;

use serde_json::{Value, json};

use super::job::{Job, Planned, Tally};
use super::json::{self, number};
use super::outside_json;
use crate::figures::{
    CrossDial, Cut, DialReading, Engage, Figure, Gearbox, Job as Work, MarkList, OperationFigures, Position,
    SetupFigures, ThreadCut, rest_words,
};
use crate::finding::Finding;
use crate::model::Rest;
use crate::model::plan::{Alternative, Compared, Grip, Operation, Setup, Why};
use crate::plan::{self, Bounds};
use crate::unit::{Limits, Unit};

/// The whole reply of `plan`.
pub(super) fn plan(job: &Job, planned: &Planned, findings: &[Finding]) -> Value {
    let unit = job.unit();
    let tally = Tally::of(findings);
    let setups = planned.plan.setups.iter().zip(&planned.figures.setups);
    let bounds = plan::bounds(&planned.derived, &planned.plan);
    let mut out = json!({
        "format": "turnwright/plan/1",
        "part": job.part().map(|p| p.name.text.clone()),
        "units": unit.word(),
        "hash": job.part().map(|p| p.hash.clone()),
        "file": job.read.source.name,
        "errors": tally.errors,
        "warnings": tally.warnings,
        "findings": findings.iter().map(|f| json::finding(f, job.texts(), unit)).collect::<Vec<_>>(),
        "cost": planned.plan.cost,
        "lower_bound": planned.plan.lower_bound,
        "proven_optimal": planned.plan.proven_optimal,
        "floor": planned.plan.floor,
        "done": planned.plan.done.iter().map(|(n, verb)| json!({"number": n, "verb": verb})).collect::<Vec<_>>(),
        "remarks": planned.plan.remarks,
        "given_way": planned.plan.given_way.iter().map(why).collect::<Vec<_>>(),
        "compared": planned.plan.compared.iter().map(compared).collect::<Vec<_>>(),
        "too_soft": planned.derived.too_soft.iter().map(|s| json!({
            "operation": s.operation, "setup": s.mounting, "gives": number(s.gives, unit), "band": number(s.band, unit),
        })).collect::<Vec<_>>(),
        "without_a_holding": planned.plan.others.iter().map(other).collect::<Vec<_>>(),
        "setups": setups.map(|(s, f)| setup(job, s, f, &bounds)).collect::<Vec<_>>(),
        "assumed": planned.assumed().map(|a| json!({"what": a.what, "value": a.value, "source": a.source})).collect::<Vec<_>>(),
        "fits": planned.figures.mates.iter().map(|m| outside_json::fit(m, unit)).collect::<Vec<_>>(),
        "stock": job.part().and_then(|p| p.stock.as_ref()).map(|s| outside_json::stock(s, unit)),
        "inspection": planned.figures.inspection.iter().map(|r| outside_json::inspected(r, unit)).collect::<Vec<_>>(),
        "remains": planned.figures.remains.map(|r| outside_json::remains(&r, unit)),
        "saw_to": planned.figures.saw_to.as_ref().map(|w| outside_json::saw_to(w, unit)),
        "bar": planned.figures.bar.as_ref().map(|b| outside_json::bar(b, unit)),
        "bar_kg": planned.figures.bar_kg.map(|kg| (kg * 1000.0).round() / 1000.0),
        "not_supported_yet": planned.figures.not_supported,
        "chart": super::plan_chart::json(job, planned),
    });
    out["no_second_plan"] = planned.plan.no_second.map(crate::sheet::words::no_second).into();
    out["rest"] = planned.plan.rest.as_ref().map_or(Value::Null, |r| rest(r, unit));
    out["chart_answers"] = planned.plan.chart_answers.iter().map(|a| chart_answer(a, unit)).collect();
    if let Some(fewest) = &planned.fewest_setups {
        out["fewest_setups_certificate"] = serde_json::to_value(fewest).unwrap_or(Value::Null);
    }
    out["certificate"] = serde_json::to_value(&planned.certificate).unwrap_or(Value::Null);
    // Without one of its holdings, another way round may be the cheapest: so that each price can be worked again, its problem is told too.
    if !planned.plan.others.is_empty() && !planned.beside.is_empty() {
        out["certificates_beside"] = serde_json::to_value(&planned.beside).unwrap_or(Value::Null);
    }
    out
}

/// What the readings of begun work come to.
fn rest(r: &Rest, unit: Unit) -> Value {
    let limits = |l: Limits| json!({"min": number(l.min, unit), "max": number(l.max, unit)});
    json!({
        "outlook": r.outlook.word(),
        "says": rest_words(r, unit),
        "again": r.again.iter().map(|a| json!({
            "number": a.number, "what": a.what, "measured": number(a.from, unit), "to": number(a.to, unit),
            "diameter": a.diameter,
        })).collect::<Vec<_>>(),
        "fewest": r.fewest,
        "aims": r.aims.iter().map(|a| json!({
            "face": a.face, "drawn": number(a.drawn, unit), "to": number(a.to, unit), "window": a.window.map(limits),
        })).collect::<Vec<_>>(),
        "gives": r.gives.iter().map(|g| json!({
            "what": g.what, "drawn": limits(g.drawn), "to": limits(g.to),
        })).collect::<Vec<_>>(),
        "clash": r.clash, "doubtful": r.doubtful,
        "misses": number(r.misses, unit),
        "unsure": r.unsure.iter().map(|u| json!({
            "what": u.what, "limits": limits(u.limits), "misses": number(u.by, unit),
        })).collect::<Vec<_>>(),
        "void": r.void,
    })
}

fn chart_answer(a: &crate::model::plan::ChartAnswer, unit: Unit) -> Value {
    json!({
        "from": a.from, "to": a.to, "asked": a.asked, "cheapest_gives": number(a.cheapest_gives, unit), "holds": a.holds,
        "more_minutes": a.more_minutes, "fewest_setups": a.fewest_setups, "says": a.says,
    })
}

fn compared(way: &Compared) -> Value {
    json!({"says": way.says, "cost": way.cost, "lower_bound": way.lower_bound})
}

fn other(a: &Alternative) -> Value {
    let instead: Vec<Value> =
        a.instead.iter().map(|i| json!({"setup": i.setup.name, "operations": i.operations})).collect();
    let first = a.first_end.map(crate::model::End::word);
    json!({"without": a.without, "cost": a.cost, "lower_bound": a.lower_bound, "setups": a.setups, "instead": instead, "first_end": first})
}

/// The operation it must follow or precede, and the rule it would break there.
fn bound(b: Option<&(u32, Why)>) -> Value {
    b.map_or(Value::Null, |(number, w)| json!({"number": number, "why": why(w)}))
}

fn setup(job: &Job, s: &Setup, f: &SetupFigures, bounds: &BTreeMap<String, Bounds>) -> Value {
    let unit = job.unit();
    let grip = |g: &Grip| {
        json!({
            "from": number(g.from.0, unit), "to": number(g.to.0, unit), "diameter": number(g.diameter, unit),
            "letter": g.letter, "protect": g.protect, "roughed": g.roughed,
        })
    };
    let operations = s.operations.iter().zip(&f.operations);
    json!({
        "number": s.number,
        "setup": s.name,
        "holding": s.held(),
        "runs_true": s.runs_true.map(|t| number(t, unit)), "indicated": f.indicated,
        "datum_end": s.datum_end.word(),
        "works": s.works.map(crate::model::End::word),
        "grip": s.grip.as_ref().map(grip),
        "also": s.also.as_ref().map(grip),
        "packing": f.packing.map(|p| number(p.value, unit)),
        "rest": s.rest.as_ref().map(|r| json!({
            "rest": if r.follows { "follow" } else { "steady" },
            "from": number(r.from.0, unit), "to": number(r.to.0, unit), "diameter": number(r.diameter, unit), "letter": r.letter,
        })),
        "behind_jaws": f.behind_jaws.map(|l| number(l.value, unit)),
        "stick_out": f.stick_out.map(|l| number(l.value, unit)),
        "thrown": f.thrown.as_ref().map(|t| outside_json::thrown(t, unit)),
        "zero": zero_words(f),
        "correction": f.correction.as_ref().map(|c| c.says.clone()),
        "why": s.why.iter().map(why).collect::<Vec<_>>(),
        "operations": operations.map(|(o, g)| operation(job, o, g, bounds.get(&o.id))).collect::<Vec<_>>(),
    })
}

fn zero_words(f: &SetupFigures) -> &'static str {
    use crate::figures::CarriageZero as Z;
    match f.zero {
        Z::DatumFace => "datum face",
        Z::FarFace if f.correction.is_none() => "far face",
        Z::FarFace => "far face, corrected by the measured overall",
        Z::FacedToOverall => "faced to the overall, measured from the datum face",
        Z::SawnEnd => "sawn end of the bar",
        Z::OffLathe => "datum face, off the lathe",
    }
}

fn why(w: &Why) -> Value {
    json!({"rule": w.rule, "reason": w.reason, "source": w.source})
}

fn operation(job: &Job, o: &Operation, f: &OperationFigures, bounds: Option<&Bounds>) -> Value {
    let unit = job.unit();
    let letter = |id: &usize| job.part().and_then(|p| p.features.get(*id)).map(|f| f.letter.clone());
    let limits = f.limits.map(|l| json!({"min": number(l.exact.min, unit), "max": number(l.exact.max, unit)}));
    let mut out = json!({
        "number": o.number, "id": o.id,
        "verb": o.verb.word(),
        "feature": o.feature.as_ref().and_then(letter),
        "name": o.feature.and_then(|id| job.part()?.features.get(id)?.name.as_ref().map(|n| n.text.clone())),
        "with": o.with.iter().filter_map(letter).collect::<Vec<_>>(),
        "end": o.end.map(crate::model::End::word),
        "tool": o.tool.word(),
        "tool_width": f.tool_width.map(|w| number(w.value, unit)),
        "from_diameter": f.from.map(|d| number(d.value, unit)),
        "to_diameter": f.aim.map(|d| number(d.value, unit)),
        "limits": limits,
        "on_instrument": json::on_scale(f.on_scale),
        "close": o.close, "again": o.again,
        "changed": f.changed.iter().map(|c| json!({"what": c.what, "was": c.was, "now": c.now})).collect::<Vec<_>>(),
        "inside": o.inside,
        "throw": o.throw.map(|t| number(t, unit)), "follow_rest": o.followed, "for_rest": o.for_rest,
        "rpm": f.speed.as_ref().and_then(|s| s.gear),
        "wanted_rpm": f.speed.as_ref().map(|s| tenth(s.wanted)),
        "speed_limit": f.speed.as_ref().map(|s| s.by.word()),
        "surface_speed": f.speed.as_ref().map(|s| tenth(s.surface_in(unit))),
        "feed": f.feed.map(|l| number(l.value, unit)),
        "passes": f.passes.as_ref().map(|p| p.count),
        "depth_of_cut": f.passes.as_ref().map(|p| number(p.depth.value, unit)),
        "cut_on_dial": f.passes.as_ref().and_then(|p| p.on_dial.as_ref()).map(|d| reading(d, unit)),
        "cuts": f.passes.as_ref().map_or_else(Vec::new, |p| p.cuts.iter().map(|c| cut(c, unit)).collect()),
        "cross_dial": f.cross_dial.as_ref().map(|d| cross_dial(d, unit)),
        "span": o.from.zip(o.to).map(|(a, b)| json!({"from": number(a.0, unit), "to": number(b.0, unit)})),
        "clocked": f.clocked.as_ref().map(outside_json::clocked),
        "positions": f.positions.iter().map(|p| position(p, unit)).collect::<Vec<_>>(),
        "travel": o.travel.map(|t| number(t, unit)), "minutes": o.minutes,
        "why": o.why.iter().map(why).collect::<Vec<_>>(),
        "not_before": bound(bounds.and_then(|b| b.not_before.as_ref())),
        "not_after": bound(bounds.and_then(|b| b.not_after.as_ref())),
        "stop_before": f.stop_before, "stop_after": f.stop_after,
        "remarks": f.remarks,
    });
    out["lighter"] = o.lighter.map_or(Value::Null, |l| number(l, unit));
    out["without_infeed"] = o.spring.into();
    out["barrel"] =
        o.barrel.map_or(Value::Null, |(gives, left)| json!({"gives": number(gives, unit), "left": number(left, unit)}));
    match &f.job {
        Work::Thread(t) => out["thread"] = thread(t, unit),
        Work::Keyseat(k) => out["keyseat"] = outside_json::keyseat(k, unit),
        Work::Taper(t) => {
            out["taper"] = outside_json::taper(t, unit);
        }
        Work::Knurl(k) => out["knurl"] = outside_json::knurl(k, unit),
        Work::Flats(f) => out["flats"] = outside_json::flats(f, unit),
        Work::Undercut(u) => out["undercut"] = outside_json::undercut(u, unit),
        Work::Crown(c) => out["crown"] = outside_json::crown(c, unit),
        Work::Chamfer(c) => out["chamfer"] = outside_json::chamfer(c, unit),
        Work::Center(c) => out["center"] = outside_json::center(c, unit),
        Work::Hole(h) => out["hole"] = hole(h, unit),
        Work::Plain => {}
    }
    out
}

fn hole(h: &crate::figures::HoleCut, unit: Unit) -> Value {
    json!({
        "drills": figures(&h.steps, unit),
        "touch": h.touch.map(|t| outside_json::cross_touch(&t, unit)),
        "depth": h.depth.map(|d| number(d.value, unit)),
        "to_point": h.to_point.map(|d| number(d.value, unit)),
        "tailstock": h.tailstock.as_ref().map(|d| reading(d, unit)),
        "thread": h.thread.map(|t| json!({
            "nominal": number(t.nominal.value, unit), "pitch": number(t.pitch.value, unit), "lead": number(t.lead.value, unit),
            "relief": t.relief.map(|l| number(l.value, unit)),
        })),
        "percent_of_thread": h.percent.map(tenth),
        "tap_turns": h.turns,
        "infeed": figures(&h.infeed, unit),
        "on_dial": h.on_dial.iter().map(|d| reading(d, unit)).collect::<Vec<_>>(),
        "gearbox": h.gearbox.as_ref().map(|g| g.says(unit)),
        "dial": h.half_nuts.as_ref().map(engaged),
        "relief_time": h.relief_time.map(tenth),
        "direction": h.direction,
    })
}

/// A reading of a dial, told in the part's unit as every length is.
pub(super) fn reading(d: &DialReading, unit: Unit) -> Value {
    json!({"reading": number(d.shown.value, unit), "turns": d.turns, "divisions": d.divisions})
}

/// Where the half-nuts may be closed.
fn engaged(d: &Engage) -> Value {
    json!({"anywhere": d.anywhere, "lines": d.lines, "labels": d.labels, "never_open": d.never_open, "says": d.says})
}

/// One decimal is all a speed deserves.
pub(super) fn tenth(n: f64) -> f64 {
    (n * 10.0).round() / 10.0
}

/// One of the equal last cuts; of the last only that it is one.
fn cut(c: &Cut, unit: Unit) -> Value {
    json!({
        "depth": c.depth.map(|d| number(d.value, unit)),
        "dial": c.dial.as_ref().map(|d| reading(d, unit)),
        "should_read": c.should_read.map(|d| number(d.value, unit)),
        "on_instrument": json::on_scale(c.on_scale),
    })
}

fn cross_dial(d: &CrossDial, unit: Unit) -> Value {
    json!({
        "reads": d.reads.word(),
        "infeed": number(d.infeed.exact, unit),
        "turns": d.infeed.turns,
        "divisions": d.infeed.divisions,
        "from_zero": {
            "reading": number(d.from_zero.shown.value, unit), "turns": d.from_zero.turns, "divisions": d.from_zero.divisions,
            "zero_on_diameter": number(d.zero.diameter.value, unit),
        },
    })
}

fn position(p: &Position, unit: Unit) -> Value {
    json!({
        "what": p.what,
        "from_datum": number(p.from_datum.value, unit),
        "from_far_end": number(p.from_far_end.value, unit),
        "carriage": p.carriage.map(|c| number(c.value, unit)),
        "zero": p.zero.map(crate::figures::CountsFrom::word),
        "tool_edge": p.edge.word(),
        "dial": p.dial.as_ref().map(|d| reading(d, unit)),
        "indicator": p.indicator.map(|i| outside_json::on_indicator(&i, unit)),
    })
}

fn figures(list: &[Figure], unit: Unit) -> Vec<Value> {
    list.iter().map(|f| number(f.value, unit)).collect()
}

fn thread(t: &ThreadCut, unit: Unit) -> Value {
    let listed = match &t.gearbox {
        Some(Gearbox::Listed(_) | Gearbox::Wheels(_)) => Some(true),
        Some(Gearbox::NotListed(_) | Gearbox::Nearly { .. }) => Some(false),
        Some(Gearbox::Unknown(_)) | None => None,
    };
    json!({
        "designation": t.designation,
        "hand": if t.right_hand { "right" } else { "left" },
        "blank": {"max": number(t.blank.exact.max, unit), "min": number(t.blank.exact.min, unit)},
        "blank_on_instrument": json::on_scale(t.blank_on_scale),
        "over_on_instrument": json::on_scale(t.wires.and_then(|w| w.on_scale)),
        "pitch": number(t.pitch, unit),
        "lead": number(t.lead, unit),
        "pitch_diameter": json::limits(Some(t.pitch_diameter), unit),
        "depth": number(t.depth.value, unit),
        "depth_is": t.depth_is,
        "straight": t.straight.map(|d| number(d.shown.value, unit)),
        "compound": t.compound.as_ref().map(|c| json!({"angle": c.angle_deg, "handle": c.handle.word(), "travel": number(c.travel.value, unit)})),
        "passes": figures(&t.passes, unit),
        "on_dial": t.on_dial.iter().map(|d| reading(d, unit)).collect::<Vec<_>>(),
        "spring_passes": t.spring_passes,
        "tool_flat": t.nose_radius.is_none().then(|| number(t.tool_flat.value, unit)),
        "nose_radius": t.nose_radius.map(|l| number(l.value, unit)),
        "wire": t.wires.as_ref().map(|w| number(w.wire.value, unit)),
        "best_wire": t.wires.as_ref().map(|w| number(w.best.value, unit)),
        "over_wires": t.wires.as_ref().map(|w| json!({"max": number(w.over.max.value, unit), "min": number(w.over.min.value, unit)})),
        "still_in": t.still_in.map(|i| outside_json::still_in(&i)),
        "dial": t.dial.as_ref().map(engaged),
        "gearbox": t.gearbox.as_ref().map(|g| g.says(unit)),
        "gearbox_listed": listed,
        "relief": t.relief.map(|l| number(l.value, unit)),
        "relief_time": t.relief_time.map(tenth),
        "runs_off": t.runs_off.map(|o| json!({"past_face": number(o.past_face.value, unit), "seconds": o.seconds.map(tenth)})),
        "lead_angle_deg": t.lead_angle_deg,
        "direction": t.direction,
        "pipe": t.pipe.as_ref().map(|p| json!({
            "small_end": {"min": number(p.small_end.exact.min, unit), "max": number(p.small_end.exact.max, unit)},
            "gauge_plane": number(p.gauge_plane.value, unit),
            "gauge_length": {"min": number(p.gauge_length.exact.min, unit), "max": number(p.gauge_length.exact.max, unit)},
            "turn": number(p.turn.value, unit), "turns": p.turns, "useful_length": number(p.useful_length.value, unit),
            "recipe": p.recipe,
        })),
        "indexing": t.indexing.as_ref().map(|i| json!({"starts": i.starts, "shift": number(i.shift.value, unit), "teeth": i.teeth.map(|(on, of)| json!({"on": on, "of": of})), "says": i.says})),
    })
}

/// The whole reply of `marks`.
pub(super) fn marks(job: &Job, planned: &Planned) -> Value {
    let unit = job.unit();
    json!({
        "format": "turnwright/marks/1",
        "part": job.part().map(|p| p.name.text.clone()),
        "units": unit.word(),
        "hash": job.part().map(|p| p.hash.clone()),
        "lists": planned.figures.marks.lists.iter().map(|l| mark_list(l, unit)).collect::<Vec<_>>(),
        "lying": planned.figures.marks.lying.as_ref().map(|l| outside_json::lying(l, unit)),
        "notes": planned.figures.marks.notes,
    })
}

fn mark_list(list: &MarkList, unit: Unit) -> Value {
    let marks: Vec<Value> = list
        .marks
        .iter()
        .map(|m| {
            json!({
                "label": m.label,
                "from_datum": number(m.from_datum.value, unit),
                "height_gauge": number(m.height_gauge.value, unit),
                "on_instrument": json::on_scale(m.on_scale),
                "carriage": m.carriage.map(|c| number(c.value, unit)),
                "on_diameter": number(m.on_diameter.value, unit),
                "on": m.on, "after": m.after,
                "means": m.means,
                "leave": m.leave.word(), "prick": m.prick,
            })
        })
        .collect();
    json!({"name": list.name, "when": list.when, "standing_on": list.standing_on, "marks": marks})
}
