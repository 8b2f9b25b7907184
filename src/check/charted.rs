//! What a tolerance chart shows: a limit missed, too little stock, a face out of reach, a cut measured twice. The ids are those of
//! the dimension chain, since a chart is one.

use super::chain::{disagrees, loose, not_guaranteed, redundant};
use super::description::of_slip::one_of;
use crate::chain::chart::{Misplaced, Resultant, StockRow, Worked};
use crate::finding::{Compared, Finding, Place, Severity};
use crate::model::chart::{Chart, MeasuredBy};
use crate::unit::{Length, show};

/// Source of the chart's rules.
const SOURCE: &str = "tolerance chart: worked dimensions as a tree (Xue and Ji, J. Mater. Process. Technol. 123, 2002)";

/// The findings of a worked chart, in the order of its text.
pub fn charted(chart: &Chart, worked: &Worked) -> Vec<Finding> {
    let judge = Judge { chart, worked };
    let mut out = Vec::new();
    worked.misplaced.iter().for_each(|m| out.push(judge.misplaced(m)));
    worked.results.iter().for_each(|r| out.extend(judge.result(r)));
    worked.stock.iter().for_each(|s| out.extend(judge.stock(s)));
    out.extend(judge.open_means());
    out.extend(judge.too_hard());
    out.sort_by_key(|f| f.place.map_or((1, 0), |p| (0, p.start)));
    for finding in &mut out {
        SOURCE.clone_into(&mut finding.source);
    }
    out
}

/// An error at a place, if it has one.
fn error(id: &'static str, message: String, place: Option<Place>) -> Finding {
    let finding = Finding::new(id, Severity::Error, message);
    match place {
        Some(place) => finding.at(place),
        None => finding,
    }
}

struct Judge<'a> {
    chart: &'a Chart,
    worked: &'a Worked,
}

impl Judge<'_> {
    fn show(&self, value: Length) -> String {
        let least = show::usual_decimals(self.chart.units);
        show::exact(value, self.chart.units, least, least + 3)
    }

    fn face(&self, face: usize) -> &str {
        &self.chart.faces[face].name
    }

    /// The cuts of a path, each with its place, as what makes the distance or loop.
    fn with_path(&self, mut finding: Finding, path: &[(usize, i64)]) -> Finding {
        for (cut, _) in path {
            let c = &self.chart.cuts[*cut];
            let Some(place) = c.place else { continue };
            let tolerance = self.worked.cuts[*cut].tolerance.map_or("unknown".to_owned(), |t| self.show(t));
            finding = finding.also(place, format!("takes ±{tolerance}"));
            finding.chain_loop.push(place);
        }
        finding.chain_loop.sort_by_key(|p| p.start);
        finding.compared.push(("cuts", Compared::Text(self.named(path))));
        finding
    }

    /// `10 A, 20 B`.
    fn named(&self, path: &[(usize, i64)]) -> String {
        path.iter().map(|(cut, _)| self.chart.called(*cut)).collect::<Vec<_>>().join(", ")
    }

    fn misplaced(&self, misplaced: &Misplaced) -> Finding {
        match misplaced {
            Misplaced::FromItself(cut) => error(
                loose::CHECK.id,
                format!("cut {} is measured from the face that it cuts", self.chart.called(*cut)),
                self.chart.cuts[*cut].place,
            )
            .help("Name another face under `from`, or say `stock:` if it is measured by what comes off"),
            Misplaced::Twice(cut, first, between) => {
                let face = self.face(self.chart.cuts[*cut].face);
                let message = format!(
                    "face {face} is cut twice in operation {}: its place is over-determined",
                    self.chart.cuts[*cut].op
                );
                let mut finding = error(redundant::CHECK.id, message, self.chart.cuts[*cut].place).help(
                    "Measure the face from one other face in one operation; give the second cut a number of its own if it is one",
                );
                if let Some(place) = self.chart.cuts[*first].place {
                    finding = finding.also(place, "cut here first");
                }
                let names: Vec<String> =
                    between.iter().chain(std::iter::once(cut)).map(|c| self.chart.called(*c)).collect();
                finding.chain_loop =
                    between.iter().chain(std::iter::once(cut)).filter_map(|c| self.chart.cuts[*c].place).collect();
                finding.compared.push(("cuts", Compared::Text(names.join(", "))));
                finding
            }
        }
    }

    fn result(&self, result: &Resultant) -> Option<Finding> {
        let dim = &self.chart.dims[result.dim];
        let (from, to) = (self.face(dim.from), self.face(dim.to));
        let Some(half) = result.plus_minus else {
            let out_of_reach: Vec<String> =
                [dim.from, dim.to].into_iter().filter(|f| !self.is_cut(*f)).map(|f| self.face(f).to_owned()).collect();
            let why = if out_of_reach.is_empty() {
                "no row of cuts joins them".to_owned()
            } else {
                format!("no cut reaches {}", one_of(&out_of_reach))
            };
            return Some(
                error(loose::CHECK.id, format!("{from} to {to} is asked, and {why}"), dim.place)
                    .help("Measure one of the cuts from a face that hangs together with the others"),
            );
        };
        let limits = dim.limits?;
        if result.guaranteed {
            return None;
        }
        let Some(mean) = result.mean else {
            return Some(
                error(loose::CHECK.id, format!("nothing gives the mean of {from} to {to}"), dim.place)
                    .help("State the mean of a cut that makes it"),
            );
        };
        let worst = crate::unit::Limits::new(mean - half, mean + half);
        let (id, what) = if limits.holds(mean) {
            (not_guaranteed::CHECK.id, "keep it between")
        } else {
            (disagrees::CHECK.id, "aim past it, and give between")
        };
        let message = format!(
            "{from} to {to}: asked {} to {}, but its cuts ({}) {what} {} and {}",
            self.show(limits.min),
            self.show(limits.max),
            self.named(&result.path),
            self.show(worst.min),
            self.show(worst.max)
        );
        let finding = error(id, message, dim.place)
            .length("stated_min", limits.min)
            .length("stated_max", limits.max)
            .length("worst_case_min", worst.min)
            .length("worst_case_max", worst.max)
            .length("mean", mean);
        let finding = self.with_path(finding, &result.path);
        Some(self.remedies(finding, result, mean, half))
    }

    /// Shift the means, hold all closer, hold one closer, or measure directly.
    fn remedies(&self, mut finding: Finding, result: &Resultant, mean: Length, half: Length) -> Finding {
        let dim = &self.chart.dims[result.dim];
        let Some(limits) = dim.limits else { return finding };
        let room = limits.band().half();
        let aim = limits.middle();
        if mean != aim && half <= room {
            let by = aim - mean;
            return finding.help(format!(
                "Shift the means of its cuts so that they give {}: {} {}",
                self.show(aim),
                self.show(by.abs()),
                if by.is_positive() { "more" } else { "less" }
            ));
        }
        let side = (limits.max - mean).min(mean - limits.min);
        let side = if mean == aim || !side.is_positive() { room } else { side };
        let links = i64::try_from(result.path.len().max(1)).unwrap_or(1);
        finding = finding
            .help(format!("Hold each of its {links} cuts to ±{}", self.show(Length::from_pm(side.pm() / links))));
        if let Some((cut, to)) = one_that_suffices(self.worked, result, half - side) {
            finding = finding.help(format!("Or hold cut {} alone to ±{}", self.chart.called(cut), self.show(to)));
        }
        if links > 1 {
            finding = finding.help(format!(
                "Or measure the last cut of {} from {} directly",
                self.face(dim.to),
                self.face(dim.from)
            ));
        }
        finding
    }

    fn is_cut(&self, face: usize) -> bool {
        let touched = |c: &crate::model::chart::Cut| c.face == face || c.by == MeasuredBy::From(face);
        self.chart.cuts.iter().any(touched)
    }

    fn stock(&self, row: &StockRow) -> Option<Finding> {
        let cut = &self.chart.cuts[row.cut];
        let limits = row.limits();
        let too_little = !row.enough;
        let in_air = row.least.is_none() && limits.is_some_and(|l| l.min < Length::ZERO);
        if !too_little && !in_air {
            return None;
        }
        let called = self.chart.called(row.cut);
        let Some(limits) = limits else {
            return Some(
                error(
                    loose::CHECK.id,
                    format!(
                        "what cut {called} takes off cannot be told: no row of cuts joins the face before and after"
                    ),
                    cut.place,
                )
                .help("Measure the cut, or the one before it, from a face that hangs together with the others"),
            );
        };
        let least = row.least.unwrap_or(Length::ZERO);
        let message = format!(
            "cut {called} may take off only {}, and at least {} is wanted",
            self.show(limits.min),
            self.show(least)
        );
        let mut finding = error(not_guaranteed::CHECK.id, message, cut.place)
            .length("stock_min", limits.min)
            .length("stock_max", limits.max)
            .length("least", least)
            .help(format!(
                "Leave {} more before it, or hold the cuts that make it closer",
                self.show(least - limits.min)
            ));
        if in_air {
            finding.severity = Severity::Warning;
        }
        Some(self.with_path(finding, &row.path))
    }

    /// Cuts whose mean follows from nothing.
    fn open_means(&self) -> Vec<Finding> {
        let open = (0..self.chart.cuts.len())
            .filter(|i| self.worked.cuts[*i].mean.is_none() && self.worked.cuts[*i].tolerance.is_some());
        open.map(|i| {
            error(
                loose::CHECK.id,
                format!("nothing gives the mean of cut {}", self.chart.called(i)),
                self.chart.cuts[i].place,
            )
            .help("State its `mean`, or what the drawing asks of the face in `dims`")
        })
        .collect()
    }

    /// Tolerances that meet the drawing, but are closer than what can be held.
    fn too_hard(&self) -> Option<Finding> {
        let factor = self.worked.factor.filter(|f| *f < 1.0 - 1e-9)?;
        let binding: Vec<String> = self
            .worked
            .binding
            .iter()
            .map(|d| format!("{} to {}", self.face(self.chart.dims[*d].from), self.face(self.chart.dims[*d].to)))
            .collect();
        let first = self.worked.binding.first().copied();
        let message = format!(
            "the cuts would have to be held to {factor:.3} of what can be held, for the sake of {}",
            if binding.is_empty() { "the least stock".to_owned() } else { binding.join(" and ") }
        );
        let place = first.and_then(|d| self.chart.dims[d].place).or(self.chart.cuts.first()?.place);
        let mut finding = error(not_guaranteed::CHECK.id, message, place).number("factor", factor).number("least", 1.0);
        for (dim, worth) in &self.worked.worth {
            let wanted = (1.0 - factor) / worth;
            // What a solver adds in the tenth digit is not asked for.
            let wanted = (Length::from_f64(wanted, self.chart.units) - Length::from_pm(1_000))
                .ceil_to(show::step(self.chart.units, show::usual_decimals(self.chart.units) + 1));
            let d = &self.chart.dims[*dim];
            finding = finding.help(format!(
                "Open {} to {} by ±{}, or measure its last cut more directly",
                self.face(d.from),
                self.face(d.to),
                self.show(wanted)
            ));
        }
        if let Some(dim) = first {
            finding = self.with_path(finding, &self.worked.results[dim].path);
        }
        Some(finding)
    }
}

/// The widest cut of a path that, held closer alone, would be enough.
fn one_that_suffices(worked: &Worked, result: &Resultant, over: Length) -> Option<(usize, Length)> {
    let widest = result.path.iter().filter_map(|(c, _)| Some((*c, worked.cuts[*c].tolerance?)));
    widest.max_by_key(|(_, t)| *t).map(|(c, t)| (c, t - over)).filter(|(_, t)| t.is_positive() && result.path.len() > 1)
}
