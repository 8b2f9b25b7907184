//! A tolerance chart on the screen: faces across, a row a cut, what comes off, and the table of results.

use std::fmt::Write;

use crate::chain::chart::{Resultant, StockRow, Worked};
use crate::model::End;
use crate::model::chart::{Chart, MeasuredBy};
use crate::unit::{Length, show};

/// Columns between two faces.
const PITCH: usize = 6;
/// Faces that still fit across.
const MOST_ACROSS: usize = 14;

/// The whole chart.
pub(super) fn chart(chart: &Chart, worked: &Worked) -> String {
    let page = Page { chart, worked };
    let mut out = format!("{} ({}): tolerance chart\n\n", chart.name.text, chart.units.word());
    page.cuts(&mut out);
    page.results(&mut out);
    if let Some(factor) = worked.factor {
        let _ = writeln!(out, "\nthe hardest cut is held to {factor:.3} of what can be held{}", page.binding());
        for (dim, worth) in &worked.worth {
            let step = Length::from_f64(0.01, chart.units);
            let _ = writeln!(
                out,
                "±{} more on {} would make it {:.3} more",
                page.show(step),
                page.faces(*dim),
                worth * 0.01
            );
        }
    }
    out
}

struct Page<'a> {
    chart: &'a Chart,
    worked: &'a Worked,
}

impl Page<'_> {
    fn show(&self, value: Length) -> String {
        let least = show::usual_decimals(self.chart.units);
        show::exact(value, self.chart.units, least, least + 2)
    }

    fn some(&self, value: Option<Length>) -> String {
        value.map_or("?".to_owned(), |v| self.show(v))
    }

    /// A tolerance rounded down, so that what is shown never allows more.
    fn tolerance(&self, value: Option<Length>) -> String {
        let decimals = show::usual_decimals(self.chart.units) + 2;
        let Some(value) = value else { return "?".to_owned() };
        let step = show::step(self.chart.units, decimals);
        format!("±{}", self.show(if value.pm() >= step.pm() { value.floor_to(step) } else { value }))
    }

    fn faces(&self, dim: usize) -> String {
        let d = &self.chart.dims[dim];
        format!("{} to {}", self.chart.faces[d.from].name, self.chart.faces[d.to].name)
    }

    fn binding(&self) -> String {
        let names: Vec<String> = self.worked.binding.iter().map(|d| self.faces(*d)).collect();
        if names.is_empty() { String::new() } else { format!("; {} binds it", names.join(" and ")) }
    }

    fn wide(&self) -> usize {
        self.chart.faces.iter().map(|f| f.name.chars().count() + 2).max().unwrap_or(PITCH).max(PITCH)
    }

    /// Heads and rows of the cuts.
    fn cuts(&self, out: &mut String) {
        let across = self.chart.faces.len() <= MOST_ACROSS && self.wide() <= 12;
        let head = if across { self.head() } else { String::new() };
        let _ = writeln!(out, "  op  cut   from  {head}{:>11}{:>12}   stock", "mean", "tolerance");
        for &i in &self.worked.order {
            let (cut, made) = (&self.chart.cuts[i], &self.worked.cuts[i]);
            let face = &self.chart.faces[cut.face].name;
            let from = match cut.by {
                MeasuredBy::From(face) => self.chart.faces[face].name.as_str(),
                MeasuredBy::Stock => "stock",
            };
            let arrow = if across { self.arrow(i) } else { String::new() };
            let stock = self.worked.stock.iter().find(|s| s.cut == i).map(|s| self.stock(s)).unwrap_or_default();
            let (mean, tolerance) = (self.some(made.mean), self.tolerance(made.tolerance));
            let line = format!("{:>4}  {face:<5} {from:<5} {arrow}{mean:>11}{tolerance:>12}   {stock}", cut.op);
            let _ = writeln!(out, "{}", line.trim_end());
        }
    }

    /// Names over their columns, each with the end its face looks to.
    fn head(&self) -> String {
        let wide = self.wide();
        let face = |f: &crate::model::chart::Face| match f.looks {
            End::Datum => format!("◁{}", f.name),
            End::Far => format!("{}▷", f.name),
        };
        let mut head = String::new();
        for f in &self.chart.faces {
            let _ = write!(head, "{:^wide$}", face(f));
        }
        head
    }

    /// `o---->|`: from the measuring face to the cut face.
    fn arrow(&self, cut: usize) -> String {
        let wide = self.wide();
        let at = |face: usize| face * wide + wide / 2;
        let mut line = vec![' '; self.chart.faces.len() * wide];
        (0..self.chart.faces.len()).for_each(|f| line[at(f)] = '.');
        let c = &self.chart.cuts[cut];
        let to = at(c.face);
        match c.by {
            MeasuredBy::From(face) => {
                let from = at(face);
                (from.min(to)..=from.max(to)).for_each(|x| line[x] = '-');
                line[from] = 'o';
                line[to] = if to > from { '>' } else { '<' };
            }
            MeasuredBy::Stock => line[to] = '=',
        }
        line.into_iter().collect()
    }

    fn stock(&self, row: &StockRow) -> String {
        let Some(limits) = row.limits() else { return "?".to_owned() };
        let least = row.least.map(|l| format!(", at least {}", self.show(l))).unwrap_or_default();
        let short = if row.enough { "" } else { "  TOO LITTLE" };
        format!("{} ({} to {}{least}){short}", self.some(row.mean), self.show(limits.min), self.show(limits.max))
    }

    fn results(&self, out: &mut String) {
        if self.worked.results.is_empty() {
            return;
        }
        let _ = writeln!(out, "\n  result          mean        ±      wanted");
        for result in &self.worked.results {
            let _ = writeln!(out, "  {}", self.result(result).trim_end());
        }
    }

    fn result(&self, r: &Resultant) -> String {
        let dim = &self.chart.dims[r.dim];
        let wanted =
            dim.limits.map_or("for reference".to_owned(), |l| format!("{} to {}", self.show(l.min), self.show(l.max)));
        let verdict = match (dim.limits, r.guaranteed) {
            (None, _) => "",
            (_, true) => "guaranteed",
            (_, false) => "NOT guaranteed",
        };
        let path: Vec<String> = r
            .path
            .iter()
            .map(|(cut, sign)| format!("{}{}", if *sign < 0 { "−" } else { "+" }, self.chart.called(*cut)))
            .collect();
        format!(
            "{:<10}{:>10}{:>9}   {wanted}  {verdict}  {}",
            self.faces(r.dim),
            self.some(r.mean),
            self.some(r.plus_minus),
            path.join(" ")
        )
    }
}
