//! Bar, inspection, tapers, knurls, flats and undercuts in `turnwright/plan/1`.

use serde_json::{Value, json};

use super::json::{self, number};
use crate::figures::{
    Bar, CenterCut, ChamferCut, Clocked, CrossTouch, CrownCut, FlatsCut, InspectionRow, KeyseatCut, KnurlCut, Lying,
    LyingMark, Mate, OnIndicator, Remains, SawTo, StillIn, TaperCut, Thrown, UndercutCut,
};
use crate::model::part::{Stock, StockShape};
use crate::unit::{Limits, Unit};

pub(super) fn chamfer(c: &ChamferCut, unit: Unit) -> Value {
    let mut out = json!({"leg": number(c.leg.value, unit), "angle_deg": c.angle_deg});
    if let Some(mouth) = c.mouth {
        out["mouth"] = json!(number(mouth.value, unit));
    }
    if let Some(o) = c.opening {
        out["opens_to"] = number(o.across.value, unit);
        out["opens_to_on_instrument"] = json::on_scale(o.on_scale);
        out["opens_a_side"] = number(o.a_side.value, unit);
        out["out_on_dial"] = json!(o.on_dial.map(|d| super::plan_json::reading(&d, unit)));
    }
    out
}

/// A length on an indicator on the bed.
pub(super) fn on_indicator(i: &OnIndicator, unit: Unit) -> Value {
    json!({"travel": number(i.travel.value, unit), "blocks": i.blocks, "reading": number(i.reading.value, unit)})
}

/// What stays in the chuck when the part is off its bar.
pub(super) fn remains(r: &Remains, unit: Unit) -> Value {
    json!({
        "length": number(r.length.value, unit), "grip": number(r.grip.value, unit), "each": number(r.each.value, unit), "more": r.more,
    })
}

/// How long to saw the bar, and why.
pub(super) fn saw_to(w: &SawTo, unit: Unit) -> Value {
    let sum = w.sum.iter().map(|(what, l)| json!({"what": what, "length": number(l.value, unit)}));
    json!({"length": number(w.length.value, unit), "sum": sum.collect::<Vec<_>>()})
}

/// What the bar weighs, and what its length is the sum of.
pub(super) fn bar(b: &Bar, unit: Unit) -> Value {
    let wants = b.wants.iter().map(|(what, l)| json!({"what": what, "length": number(l.value, unit)}));
    let (mass, word) = b.mass(unit);
    let (other, other_word) = b.mass(if unit == Unit::Inch { Unit::Millimetre } else { Unit::Inch });
    json!({
        "mass": mass, "mass_unit": word, "mass_other": other, "mass_other_unit": other_word, "heavy": b.is_heavy(),
        "density_kg_m3": b.density, "density_by": b.by, "wants": wants.collect::<Vec<_>>(), "saw_least": number(b.least.value, unit),
    })
}

/// How a hole across is found.
pub(super) fn cross_touch(t: &CrossTouch, unit: Unit) -> Value {
    json!({
        "half_round": number(t.half_round.value, unit), "with_drill": number(t.with_drill.value, unit),
        "along": number(t.along.value, unit), "from_far_face": number(t.from_far.value, unit),
    })
}

/// Turned on from what was cut before.
pub(super) fn clocked(c: &Clocked) -> Value {
    json!({
        "from": c.from, "turn_deg": c.turn_deg,
        "crank": c.crank.map(|i| json!({"turns": i.turns, "spaces": i.spaces.map(|s| s.0), "circle": i.spaces.map(|s| s.1)})),
    })
}

/// Lines scribed lying in V-blocks.
pub(super) fn lying(l: &Lying, unit: Unit) -> Value {
    let mark = |m: &LyingMark| {
        json!({
            "label": m.label, "feature": m.letter, "below_top": number(m.below_top.value, unit), "on_instrument": json::on_scale(m.on_scale),
            "above_axis": number(m.above_axis.value, unit), "on_diameter": number(m.on_diameter.value, unit),
            "from": number(m.from.value, unit), "to": number(m.to.value, unit), "means": m.means, "prick": m.prick, "angle_deg": m.angle_deg,
        })
    };
    json!({"when": l.when, "lies_in": "V-blocks", "marks": l.marks.iter().map(mark).collect::<Vec<_>>()})
}

/// What a reading over wires means for the dial that feeds the tool. `aim` is in `aim_units`, the micrometer's.
pub(super) fn still_in(i: &StillIn) -> Value {
    json!({
        "by": if i.compound { "compound" } else { "cross dial" }, "factor": (i.factor * 1e6).round() / 1e6,
        "aim": number(i.aim.value, i.unit), "aim_units": i.unit.word(),
        "factor_shown": (i.shown * 1e6).round() / 1e6, "dial_units": i.dial_unit.word(),
    })
}

pub(super) fn center(c: &CenterCut, unit: Unit) -> Value {
    json!({
        "size": c.size, "drill_diameter": number(c.drill.value, unit), "mouth_diameter": number(c.mouth.value, unit),
        "mouth_on_instrument": json::on_scale(c.mouth_on_scale),
        "depth": number(c.depth.value, unit), "usual_for": c.usual_for.map(|d| number(d.value, unit)),
        "odd_legs": c.odd_legs.map(|l| number(l.value, unit)),
        "second": c.second.as_ref().map(|s| json!({
            "throw": number(s.throw.value, unit), "on_diameter": number(s.on_diameter.value, unit),
            "axis_below_top": number(s.axis_below.value, unit), "line_below_top": number(s.line_below.value, unit),
            "between_mouths": number(s.between.value, unit), "to_edge": number(s.outside.value, unit),
            "clock_deg": s.clock_deg,
        })),
    })
}

pub(super) fn knurl(k: &KnurlCut, unit: Unit) -> Value {
    json!({
        "says": k.says,
        "pitch": number(k.pitch.value, unit),
        "blank": number(k.blank.value, unit),
        "teeth": k.teeth,
        "growth": number(k.growth.value, unit),
        "expected": number(k.expected.value, unit),
        "recipe": k.recipe,
        "source": k.source,
    })
}

pub(super) fn flats(f: &FlatsCut, unit: Unit) -> Value {
    json!({
        "says": f.says,
        "count": f.count,
        "round": number(f.round.value, unit),
        "across": number(f.across.value, unit),
        "across_limits": json::limits(f.across_limits.map(|l| l.exact), unit),
        "depth": number(f.depth.value, unit),
        "across_on_instrument": json::on_scale(f.across_on_scale),
        "after_first": number(f.after_first.value, unit),
        "after_first_on_instrument": json::on_scale(f.after_first_on_scale),
        "width": number(f.width.value, unit),
        "corners": number(f.corners.value, unit),
        "truncated": f.truncated,
        "divide_deg": f.divide_deg,
        "angle_deg": f.angle_deg,
        "along": {"from": number(f.along.from.value, unit), "to": number(f.along.to.value, unit)},
        "recipe": f.recipe,
    })
}

pub(super) fn undercut(u: &UndercutCut, unit: Unit) -> Value {
    json!({
        "says": u.says,
        "radius": number(u.radius.value, unit),
        "depth_a_side": json::limits(Some(u.depth.exact), unit),
        "width": number(u.width.value, unit),
        "face_depth": u.face_depth.map(|l| number(l.value, unit)),
        "face_height": u.face_height.map(|l| number(l.value, unit)),
        "recipe": u.recipe,
        "source": u.source,
    })
}

pub(super) fn taper(t: &TaperCut, unit: Unit) -> Value {
    let checks = t.checks.iter().map(|(at, d, read)| {
        json!({
            "what": at.what, "from_datum": number(at.from_datum.value, unit), "diameter": number(d.value, unit),
            "on_instrument": json::on_scale(*read),
        })
    });
    let ways = t.ways.iter().map(|w| json!({"way": w.way, "fits": w.fits, "because": w.because}));
    json!({
        "rate": t.rate,
        "half_angle_deg": t.half_angle_deg,
        "half_angle": t.half_angle,
        "swing": t.swing.word(),
        "setover": t.tailstock.map(|_| number(t.setover.value, unit)),
        "tailstock": t.tailstock.map(crate::figures::Swing::word),
        "drop": number(t.drop.value, unit),
        "per_length": number(t.per_length.value, unit),
        "rough_cuts": t.cuts.as_ref().map(|c| c.count),
        "checks": checks.collect::<Vec<_>>(),
        "ways": ways.collect::<Vec<_>>(),
    })
}

/// A domed end.
pub(super) fn crown(c: &CrownCut, unit: Unit) -> Value {
    let step = |(behind, across): &(crate::figures::Figure, crate::figures::Figure)| json!({"behind_summit": number(behind.value, unit), "diameter": number(across.value, unit)});
    json!({
        "radius": number(c.radius.value, unit),
        "height": number(c.height.value, unit),
        "diameter": number(c.over.value, unit),
        "steps": c.steps.iter().map(step).collect::<Vec<_>>(),
        "ridge": number(c.ridge.value, unit),
    })
}

/// The bar as it is sawn.
pub(super) fn stock(s: &Stock, unit: Unit) -> Value {
    let (shape, bore) = match s.shape {
        StockShape::Round => ("round", None),
        StockShape::Hexagon => ("hexagon", None),
        StockShape::Square => ("square", None),
        StockShape::Tube { bore } => ("tube", Some(number(bore, unit))),
    };
    json!({"shape": shape, "across": number(s.size.nominal, unit), "bore": bore, "length": number(s.length.nominal, unit)})
}

/// A size of the inspection page.
pub(super) fn inspected(r: &InspectionRow, unit: Unit) -> Value {
    json!({"letters": r.letters, "limits": json::limits(Some(r.limits.exact), unit), "with": r.with, "on_instrument": json::on_scale(r.on_scale)})
}

/// Thrown over for an eccentric.
pub(super) fn thrown(t: &Thrown, unit: Unit) -> Value {
    json!({
        "throw": number(t.throw.value, unit), "reading": number(t.reading.value, unit),
        "reading_limits": t.reading_limits.map(|l| json!({"min": number(l.exact.min, unit), "max": number(l.exact.max, unit)})),
        "packing_flat": t.packing_flat.map(|f| number(f.value, unit)),
        "packing_narrow": t.packing_narrow.map(|f| number(f.value, unit)),
        "sweeps": number(t.sweeps.value, unit), "most_rpm": super::plan_json::tenth(t.most_rpm), "clock_deg": t.clock_deg,
    })
}

/// A keyseat.
pub(super) fn keyseat(k: &KeyseatCut, unit: Unit) -> Value {
    let mut out = json!({
        "key": k.key,
        "cutter_diameter": number(k.cutter.value, unit),
        "width": number(k.width.value, unit),
        "depth_at_side": number(k.at_side.value, unit),
        "depth_from_top": number(k.depth_from_top.value, unit),
        "depth_limits": json::limits(Some(k.depth_limits.exact), unit),
        "across_bottom": number(k.across_bottom.value, unit),
        "across_bottom_limits": json::limits(Some(k.across_limits.exact), unit),
        "across_on_instrument": json::on_scale(k.across_on_scale),
        "side_touch": number(k.side_touch.value, unit),
        "slot": {"from": number(k.slot.from.value, unit), "to": number(k.slot.to.value, unit)},
        "recipe": k.recipe,
        "source": k.source,
    });
    if let Some(r) = k.roughed {
        out["roughed"] = json!({
            "diameter": number(r.diameter.value, unit),
            "still": number(r.still.value, unit),
            "depth_from_top": number(r.depth_from_top.value, unit),
            "across_bottom_limits": json::limits(Some(r.across_limits.exact), unit),
            "side_touch": number(r.side_touch.value, unit),
        });
    }
    if let Some(center) = k.center {
        out["center"] = number(center.value, unit);
    }
    if let Some(c) = k.cutter_center {
        out["cutter_center"] = json!({"from": number(c.from.value, unit), "to": number(c.to.value, unit)});
    }
    out
}

/// How a mate fits, and how it goes on.
pub(super) fn fit(m: &Mate, unit: Unit) -> Value {
    let limits = |l: Limits| json!({"min": number(l.min, unit), "max": number(l.max, unit)});
    json!({
        "feature": m.letter, "part": m.part, "seat": limits(m.seat.exact), "bore": limits(m.bore.exact), "bore_by": m.bore_by,
        "in_bore": m.within, "bore_measured": m.bore_measured, "seat_measured": m.seat_measured,
        "clearance": limits(m.clearance),
        "warm": m.warm.map(|w| json!({"rise": w.rise, "most": w.most, "enough": w.enough, "room": number(w.room, unit)})),
    })
}
