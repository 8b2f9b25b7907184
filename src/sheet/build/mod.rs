//! From the plan and its figures to the draft of a sheet. Numbers come from [`Figures`] as they are; here they get their words
//! and their place on the page.

mod before;
mod blanks;
mod cards;
mod chart;
mod compact;
mod cover;
mod far_face;
mod hardening;
mod inside;
mod inspection;
mod keyseat;
mod last_cuts;
mod legend;
mod marks;
mod milled;
mod outline;
mod outside;
mod record;
mod row;
pub mod sample;
mod setup;
mod size;
mod steps;
mod strip;
mod taper;
mod thread;
mod title;
mod true_here;
mod why;

pub use record::record_view;

use super::draft::{Draft, Item, Section};
use super::paginate::{self, paginate};
use super::view::{Block, Body, Paper, View};
use super::{blocks, layout, words};
use crate::chain::Chain;
use crate::figures::{Figures, OperationFigures, SetupFigures};
use crate::finding::{Finding, Severity};
use crate::model::plan::{Operation, Setup, Verb};
use crate::model::{Feature, Part, Plan, Shop};
use crate::unit::{Length, Unit, show};

/// Everything the sheet is made of.
#[derive(Debug, Clone, Copy)]
pub struct Sources<'a> {
    /// The part.
    pub part: &'a Part,
    /// Its located faces.
    pub chain: &'a Chain,
    /// The plan.
    pub plan: &'a Plan,
    /// Its figures.
    pub figures: &'a Figures,
    /// What the checks found.
    pub findings: &'a [Finding],
    /// The shop file, if there is one.
    pub shop: Option<&'a Shop>,
}

/// Which pages a sheet has.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Pages {
    /// One thing below the other on as few pages as they take, instead of a page a setup.
    pub compact: bool,
    /// A bench card a mounting on half sheets, and nothing else.
    pub cards: bool,
    /// The story strip at full size behind them.
    pub strip: bool,
}

/// The whole sheet on this paper.
pub fn view(sources: &Sources, paper: Paper) -> View {
    view_of(sources, paper, Pages::default())
}

/// The sheet with these pages.
pub fn view_of(sources: &Sources, paper: Paper, pages: Pages) -> View {
    paginate(draft(sources, paper, pages))
}

/// The sheet before it is broken into pages.
pub fn draft(s: &Sources, paper: Paper, pages: Pages) -> Draft {
    let open = s.findings.iter().filter(|f| f.is_open_error()).count();
    let mut sections = match pages {
        Pages { cards: true, .. } => cards::sections(s, &paginate(draft(s, paper, Pages::default()))),
        Pages { compact: true, .. } => vec![compact::section(s)],
        _ => full(s),
    };
    if pages.strip {
        sections.extend(strip::section(s));
    }
    let paper = if pages.cards { paper.half() } else { paper };
    let do_not_cut = if open == 0 { String::new() } else { words::do_not_cut(open) };
    Draft { do_not_cut, ..document(s, words::document_title(&s.name(), &s.drawing()), paper, sections) }
}

/// A document about the part: its unit, its running foot, its hash. It may be cut by.
fn document(s: &Sources, title: String, paper: Paper, sections: Vec<Section>) -> Draft {
    Draft {
        title,
        units: s.unit().word(),
        decimal: s.decimal(),
        paper,
        hash: s.part.hash.clone(),
        do_not_cut: String::new(),
        part: words::cut_to(&s.name(), 66.0),
        drawing: words::cut_to(&s.drawing(), 40.0),
        sections,
    }
}

/// A page a setup, with all that goes with it.
fn full(s: &Sources) -> Vec<Section> {
    let mut sections = vec![cover::section(s)];
    sections.extend(s.mounted().map(|(setup, figures)| setup::section(s, setup, figures)));
    sections.extend(marks::section(s));
    let mut chart = chart::section(s);
    let mut inspection = inspection::section(s);
    let mut why = why::section(s);
    let marked = s.findings.iter().any(Finding::is_open_error);
    let room = layout::HEIGHT - if marked { layout::BANNER } else { 0.0 };
    if let Some(why) = &mut why {
        let left = chart.as_mut().and_then(|c| overhang(c, room)).map(|i| (words::CHART.say(), i));
        why.items.extend(left.into_iter().flat_map(|(heading, i)| [Item::Block(blocks::heading(heading)), i]));
        why.items.extend(overhang(&mut inspection, room));
    }
    sections.extend(chart);
    sections.push(inspection);
    sections.extend(why);
    sections
}

/// The last item of a section when everything before it fits its page and that item alone would begin another: a few
/// sentences or lines to write on have room behind the reasons.
fn overhang(section: &mut Section, height: f64) -> Option<Item> {
    let least = |item: &Item| match item {
        Item::Block(Block { body: Body::Lines { .. }, .. }) => blocks::lines("", 2).height.0,
        item => paginate::height(item),
    };
    let room = height - section.head.height();
    let last = section.items.last().map_or(0.0, least);
    let before: f64 = section.items.iter().rev().skip(1).map(least).sum();
    (before <= room && before + last > room).then(|| section.items.pop()).flatten()
}

impl<'a> Sources<'a> {
    fn unit(&self) -> Unit {
        self.part.units
    }

    /// Unit of the lathe's dials, which may not be the part's.
    fn dial_unit(&self) -> Unit {
        self.shop.and_then(|shop| shop.units).unwrap_or(self.unit())
    }

    /// A word for a blank that takes a reading of the dial, with the dial's unit.
    fn on_dial(&self, what: &str) -> String {
        format!("{what}, {}", self.dial_unit().word())
    }

    /// The step from an instrument's unit to the dial's, where they differ.
    fn dial_step(&self, read: Unit) -> Option<&'static str> {
        crate::figures::to_the_dial(read, self.dial_unit())
    }

    /// The sign before the decimals.
    const fn decimal(&self) -> &'static str {
        if self.part.decimal_comma { "," } else { "." }
    }

    fn name(&self) -> String {
        words::name(&self.part.name.text)
    }

    /// `LS-104 rev B`, or what there is of it.
    fn drawing(&self) -> String {
        let text = |t: &Option<crate::model::Text>| t.as_ref().map(|t| words::name(&t.text)).unwrap_or_default();
        words::drawing(&text(&self.part.drawing), &text(&self.part.revision))
    }

    fn feature(&self, id: usize) -> Option<&'a Feature> {
        self.part.features.get(id)
    }

    fn letter(&self, id: usize) -> &'a str {
        self.feature(id).map_or("", |f| f.letter.as_str())
    }

    fn overall(&self) -> Length {
        self.chain.overall(self.part).unwrap_or_default()
    }

    /// A length as the drawing has it: the usual decimals, one more where it needs them.
    fn length(&self, value: Length) -> String {
        let usual = show::usual_decimals(self.unit());
        show::exact(value, self.unit(), usual, usual + 1)
    }

    fn mounted(&self) -> impl Iterator<Item = (&'a Setup, &'a SetupFigures)> {
        self.plan.setups.iter().zip(&self.figures.setups)
    }

    fn operations(&self) -> impl Iterator<Item = (&'a Setup, &'a Operation, &'a OperationFigures)> {
        self.mounted().flat_map(|(s, f)| s.operations.iter().zip(&f.operations).map(move |(o, of)| (s, o, of)))
    }

    /// Letters that errors and warnings nobody accepted are about; the first of each, which is where it must be mended.
    fn flagged(&self) -> Vec<&'a str> {
        let loud = self.open(Severity::Error).chain(self.open(Severity::Warning));
        let mut letters: Vec<&str> = loud.filter_map(|f| f.features.first()).map(String::as_str).collect();
        letters.sort_unstable();
        letters.dedup();
        letters
    }

    /// Errors and warnings that stand at this operation: where the feature they are about gets its size, or its thread.
    fn findings_at(&self, operation: &Operation) -> impl Iterator<Item = &'a Finding> {
        let sizes = |o: &Operation| {
            !matches!(o.verb, Verb::Rough | Verb::Inspect | Verb::FitTest | Verb::Deburr | Verb::Chamfer | Verb::Center)
        };
        let here = operation.feature.filter(|f| {
            let on: Vec<&Operation> =
                self.operations().map(|(_, o, _)| o).filter(|o| o.feature == Some(*f) && sizes(o)).collect();
            let thread = on.iter().find(|o| o.verb == Verb::Thread);
            thread.or(on.first()).is_some_and(|o| o.number == operation.number)
        });
        let letter = here.map(|f| self.letter(f)).filter(|l| !l.is_empty());
        let loud = self.open(Severity::Error).chain(self.open(Severity::Warning));
        loud.filter(move |f| letter.is_some() && f.features.first().map(String::as_str) == letter)
    }

    /// Findings of a severity that nobody accepted.
    fn open(&self, severity: Severity) -> impl Iterator<Item = &'a Finding> {
        self.findings.iter().filter(move |f| f.severity == severity && f.accepted.is_none())
    }
}
