//! The tolerance chart of the plan, and a loop of dimensions that contradict each other.

use super::{Sources, outline};
use crate::chain::chart::Charted;
use crate::model::End;
use crate::model::chart::MeasuredBy;
use crate::sheet::draft::{Item, Section};
use crate::sheet::draw::{self, ChartRow, ChartRows};
use crate::sheet::view::{Block, Line, Mm, Piece, PieceKind, Rich};
use crate::sheet::{blocks, words};
use crate::unit::{Length, show};

/// Width of a label and of a blank, mm.
const LABEL: f64 = 21.0;
const BLANK: f64 = 24.0;

/// Rows of one picture, so that it goes on a page.
const MOST_ROWS: usize = 36;

/// The chart's page; none without one.
pub(super) fn section(s: &Sources) -> Option<Section> {
    let charted = s.figures.chart.as_ref()?;
    let page = Page { s, charted };
    let body = outline::finished(s);
    let rows: Vec<ChartRows> = page.cuts().into_iter().chain(page.results()).collect();
    let mut items: Vec<Item> = Vec::new();
    if !body.stretches.is_empty() {
        items.extend(draw::charts(&body, &rows).into_iter().map(|p| Item::Block(blocks::picture(p))));
    }
    let mut said: Vec<Rich> = page.sentences().into_iter().map(Rich::from).collect();
    if !said.is_empty() {
        items.push(Item::Block(blocks::list("", std::mem::take(&mut said))));
    }
    Some(Section {
        id: "chart".to_owned(),
        bookmark: words::CHART.say().to_owned(),
        head: blocks::title_head(words::CHART.say(), words::CHART_SAYS.say().into(), None),
        again: blocks::title_head(&words::continued(words::CHART.say()), Rich::new(), None),
        opening: Vec::new(),
        reopening: Vec::new(),
        items,
        joins: true,
        scene: None,
    })
}

/// What of the chart belongs on the cover: cuts that must be held closer than can be held, distances it does not promise, and how
/// measuring before the last cut gets there. Empty where every cut and distance is easy.
pub(super) fn warnings(s: &Sources) -> Vec<Rich> {
    let Some(charted) = s.figures.chart.as_ref() else { return Vec::new() };
    let page = Page { s, charted };
    let hard = charted.worked.factor.is_some_and(|f| f < 1.0);
    let mut said: Vec<String> = page.factor().filter(|_| hard).into_iter().collect();
    for r in charted.worked.results.iter().filter(|r| !r.guaranteed) {
        let dim = &charted.plan.chart.dims[r.dim];
        if let (Some(limits), Some(half)) = (dim.limits, r.plus_minus) {
            let wanted = words::one_to_other(&s.length(limits.min), &s.length(limits.max));
            let (from, to) = (words::chart_face(charted.face(dim.from)), words::chart_face(charted.face(dim.to)));
            said.push(words::not_promised(from, to, &s.length(half), &wanted));
        }
    }
    if !said.is_empty() || s.plan.chart_answers.iter().any(|a| !a.holds) {
        said.extend(page.aims());
    }
    said.into_iter().map(|text| Rich::new().strong(words::CHART_ON_COVER.say()).plain(text)).collect()
}

/// Below an operation: its length aimed by a reading, with blanks, where the chart asks for that.
pub(super) fn aimed(s: &Sources, operation: u32) -> Vec<Line> {
    let Some(charted) = s.figures.chart.as_ref() else { return Vec::new() };
    let cuts = &charted.plan.chart.cuts;
    let face = |f| words::chart_face(charted.face(f));
    let piece = |kind, text: &str, width| Piece { kind, text: text.to_owned(), width: Mm(width) };
    let mut lines = Vec::new();
    for aim in charted.aims.iter().filter(|a| cuts[a.cut].op == operation) {
        let (first, second) = if aim.sign > 0 { ("+", "\u{2212}") } else { ("\u{2212}", "+") };
        let measured = words::measured_between(face(aim.measure.0), face(aim.measure.1));
        let pieces = vec![
            piece(PieceKind::Strong, &s.length(aim.aim), 0.0),
            piece(PieceKind::Plain, first, 0.0),
            piece(PieceKind::Blank, &measured, BLANK),
            piece(PieceKind::Plain, second, 0.0),
            piece(PieceKind::Strong, &s.length(aim.reading), 0.0),
            piece(PieceKind::Plain, "=", 0.0),
            piece(PieceKind::Blank, words::CUT_TO.say(), BLANK),
        ];
        let dim = &charted.plan.chart.dims[aim.dim];
        let gain = words::aimed(
            (face(aim.measure.0), face(aim.measure.1)),
            (face(dim.from), face(dim.to)),
            &s.length(aim.after),
            &s.length(aim.before),
        );
        lines.push(blocks::line(Rich::new().strong(words::CUT_TO.say()), LABEL, pieces));
        lines.extend(words::wrapped("", 0.0, &gain, blocks::DETAIL_ROOM));
    }
    lines
}

/// The dimensions of a contradiction under the outline; none where nothing contradicts.
pub(super) fn contradiction(s: &Sources) -> Option<Block> {
    let found = s.chain.contradiction.as_ref()?;
    let body = outline::finished(s);
    let mut links: Vec<usize> = found.links.clone();
    links.sort_unstable();
    links.dedup();
    let rows: Vec<ChartRow> = links
        .iter()
        .filter_map(|i| {
            let link = &s.chain.graph.links[*i];
            let (a, b) = (s.chain.at[link.from]?, s.chain.at[link.to]?);
            Some(ChartRow {
                number: String::new(),
                from: Some(outline::mm(a)),
                to: outline::mm(b),
                stock: None,
                both: true,
                heavy: true,
                texts: vec![s.length(link.limits.min), s.length(link.limits.max)],
            })
        })
        .collect();
    if rows.is_empty() || body.stretches.is_empty() {
        return None;
    }
    let heads = words::loop_heads().map(str::to_owned).to_vec();
    let alt = words::loop_alt(rows.len());
    let rows = ChartRows { id: "loop".to_owned(), heads, rows, outline: true, alt };
    draw::charts(&body, &[rows]).into_iter().next().map(blocks::picture)
}

struct Page<'a> {
    s: &'a Sources<'a>,
    charted: &'a Charted,
}

impl Page<'_> {
    /// A tolerance rounded down, so that what is printed never allows more.
    fn hold(&self, value: Option<Length>) -> String {
        let Some(value) = value else { return String::new() };
        let decimals = show::usual_decimals(self.s.unit()) + 1;
        let step = show::step(self.s.unit(), decimals);
        let down = if value >= step { value.floor_to(step) } else { value };
        format!("±{}", show::exact(down, self.s.unit(), decimals - 1, decimals + 1))
    }

    fn text(&self, value: Option<Length>) -> String {
        value.map(|v| self.s.length(v)).unwrap_or_default()
    }

    fn mm(&self, face: usize) -> f64 {
        outline::mm(self.charted.plan.at[face])
    }

    fn pictures(id: &str, heads: &[&str], rows: &[ChartRow], alt: &str) -> Vec<ChartRows> {
        let each = rows.chunks(MOST_ROWS).enumerate().map(|(i, rows)| ChartRows {
            id: if i == 0 { id.to_owned() } else { format!("{id}-{}", i + 1) },
            heads: heads.iter().map(|h| (*h).to_owned()).collect(),
            rows: rows.to_vec(),
            outline: id == "chart" || i > 0,
            alt: alt.to_owned(),
        });
        each.collect()
    }

    /// Rows of the cuts: the readings that correct a zero are told in words.
    fn cuts(&self) -> Vec<ChartRows> {
        let (plan, worked) = (&self.charted.plan, &self.charted.worked);
        let rows: Vec<ChartRow> = worked
            .order
            .iter()
            .filter(|i| !self.charted.is_reading(**i))
            .map(|&i| {
                let cut = &plan.chart.cuts[i];
                let made = &worked.cuts[i];
                let row = worked.stock.iter().position(|r| r.cut == i).filter(|r| self.charted.is_removal(*r));
                let side = match plan.chart.faces[cut.face].looks {
                    End::Datum => -1.0,
                    End::Far => 1.0,
                };
                let comes_off = row.and_then(|r| worked.stock[r].limits());
                let comes_off = comes_off.map(|l| words::one_to_other(&self.s.length(l.min), &self.s.length(l.max)));
                ChartRow {
                    number: if cut.op == 0 { words::SAW.say().to_owned() } else { cut.op.to_string() },
                    from: match cut.by {
                        MeasuredBy::From(face) => Some(self.mm(face)),
                        MeasuredBy::Stock => None,
                    },
                    to: self.mm(cut.face),
                    stock: row.map(|_| side),
                    both: false,
                    heavy: false,
                    texts: vec![self.text(made.mean), self.hold(made.tolerance), comes_off.unwrap_or_default()],
                }
            })
            .collect();
        let alt = words::chart_alt(&self.s.name(), rows.len());
        Self::pictures("chart", &words::chart_heads(), &rows, &alt)
    }

    fn results(&self) -> Vec<ChartRows> {
        let (plan, worked) = (&self.charted.plan, &self.charted.worked);
        let rows: Vec<ChartRow> = worked
            .results
            .iter()
            .map(|r| {
                let dim = &plan.chart.dims[r.dim];
                let wanted = dim.limits.map(|l| words::one_to_other(&self.s.length(l.min), &self.s.length(l.max)));
                let verdict = match (dim.limits, r.guaranteed) {
                    (None, _) => "",
                    (_, true) => words::HOLDS.say(),
                    (_, false) => words::FAILS.say(),
                };
                ChartRow {
                    number: String::new(),
                    from: Some(self.mm(dim.from)),
                    to: self.mm(dim.to),
                    stock: None,
                    both: true,
                    heavy: !r.guaranteed,
                    texts: vec![
                        self.text(r.mean),
                        r.plus_minus.map(|h| self.s.length(h)).unwrap_or_default(),
                        wanted.unwrap_or_else(|| words::FOR_REFERENCE.say().to_owned()),
                        verdict.to_owned(),
                    ],
                }
            })
            .collect();
        let alt = words::results_alt(&self.s.name(), rows.len());
        Self::pictures("results", &words::result_heads(), &rows, &alt)
    }

    /// How hard the hardest cut is.
    fn factor(&self) -> Option<String> {
        let (plan, worked) = (&self.charted.plan, &self.charted.worked);
        let name = |d: &usize| {
            let d = &plan.chart.dims[*d];
            words::one_to_other(
                words::chart_face(self.charted.face(d.from)),
                words::chart_face(self.charted.face(d.to)),
            )
        };
        let few = worked.binding.iter().filter(|_| worked.binding.len() <= 3);
        worked.factor.map(|factor| words::factor(factor, &few.map(name).collect::<Vec<_>>()))
    }

    /// What measuring before a last cut gains.
    fn aims(&self) -> Vec<String> {
        let said = self.charted.aims.iter().map(|aim| {
            let face = |f| words::chart_face(self.charted.face(f));
            let measured = (face(aim.measure.0), face(aim.measure.1));
            let cut = face(self.charted.plan.chart.cuts[aim.cut].face);
            let (to, reading) = (self.s.length(aim.aim), self.s.length(aim.reading));
            let formula = words::aim_formula(measured, cut, aim.sign > 0, (&to, &reading));
            let formula = words::sentence_end(&words::from_file(&formula));
            let op = self.charted.plan.chart.cuts[aim.cut].op;
            words::measuring_gains(op, &formula, &self.s.length(aim.after), &self.s.length(aim.before))
        });
        said.collect()
    }

    fn sentences(&self) -> Vec<String> {
        let mut said: Vec<String> = self.factor().into_iter().collect();
        for z in self.charted.zeros() {
            said.push(words::zero_gain(z.setup, &self.s.length(z.before), &self.s.length(z.after)));
        }
        said.extend(self.aims());
        said.extend(self.charted.plan.assumed.iter().map(|a| words::chart_assumed(&a.what, &a.value)));
        said
    }
}
