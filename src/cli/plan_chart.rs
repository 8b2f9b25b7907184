//! The chart of a plan as JSON: the same fields as `chart`, and what measuring gains.

use serde_json::{Value, json};

use super::chart;
use super::job::{Job, Planned};
use super::json::number;
use crate::chain::chart::Charted;
use crate::unit::Unit;

/// `plan.chart`; with empty lists where the part has no located length.
pub(super) fn json(job: &Job, planned: &Planned) -> Value {
    let empty = json!({"factor": null, "cuts": [], "results": [], "stock": [], "binding": []});
    planned.figures.chart.as_ref().map_or(empty, |charted| body(charted, job.unit()))
}

fn body(charted: &Charted, unit: Unit) -> Value {
    let plan = &charted.plan;
    let whole = chart::body(&plan.chart, &charted.worked);
    let mut out = whole.clone();
    let at = |face: usize| number(plan.at[face].0, unit);
    let rows = |key: &str, out: &mut Value, keep: &dyn Fn(usize) -> bool, add: &dyn Fn(usize, &mut Value)| {
        let Some(Value::Array(list)) = out.get_mut(key) else { return };
        let mut i = 0;
        list.retain_mut(|row| {
            add(i, row);
            i += 1;
            keep(i - 1)
        });
    };
    rows("cuts", &mut out, &|i| !charted.is_reading(i), &|i, row| {
        let cut = &plan.chart.cuts[i];
        row["cut_at"] = at(cut.face);
        if let crate::model::chart::MeasuredBy::From(from) = cut.by {
            row["from_at"] = at(from);
            if plan.zeros.contains_key(&from) {
                row["from"] = json!("far face");
                row["zero"] = json!("corrected by the measured overall");
            }
        }
        if plan.before_plan.contains(&i) {
            row["verb"] = json!("saw");
        }
    });
    rows("results", &mut out, &|_| true, &|i, row| {
        let dim = &plan.chart.dims[i];
        row["from_at"] = at(dim.from);
        row["to_at"] = at(dim.to);
    });
    rows("stock", &mut out, &|i| charted.is_removal(i), &|_, _| {});
    rows("faces", &mut out, &|i| !plan.zeros.contains_key(&i), &|_, _| {});
    out["measuring_error"] = number(plan.error, unit);
    out["retarget"] = charted.aims.iter().map(|a| {
        json!({
            "op": plan.chart.cuts[a.cut].op, "cut": charted.face(plan.chart.cuts[a.cut].face),
            "for": {"from": charted.face(plan.chart.dims[a.dim].from), "to": charted.face(plan.chart.dims[a.dim].to)},
            "measure": {"from": charted.face(a.measure.0), "to": charted.face(a.measure.1)},
            "reading": number(a.reading, unit), "aim": number(a.aim, unit), "sign": a.sign,
            "says": charted.formula(a),
            "before": number(a.before, unit), "after": number(a.after, unit),
        })
    }).collect::<Vec<_>>().into();
    out["zeros"] = charted
        .zeros()
        .map(|z| {
            json!({
                "setup": z.setup, "before": number(z.before, unit), "after": number(z.after, unit),
            })
        })
        .collect::<Vec<_>>()
        .into();
    // With the readings and corrected zeros as cuts and faces of their own: what a second program can work again.
    out["whole"] = whole;
    out["not_cut"] = json!(plan.not_cut);
    out["assumed"] =
        plan.assumed.iter().map(|a| json!({"what": a.what, "value": a.value, "source": a.source})).collect();
    out
}
