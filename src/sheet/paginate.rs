//! Where each page ends. An operation is never split; a STOP stays with its operation; lists break between rows.

use super::draft::{Draft, Item, Section};
use super::draw::Focus;
use super::join::{append, bare, behind, cuts, starts};
use super::layout::{BANNER, GO_ON};
use super::split::split;
use super::view::{Block, Body, Columns, Foot, Mm, Page, Rich, Step, View};
use super::words;
use super::{blocks, small};

/// A heading needs so much of what follows on its page.
const WITH_HEADING: f64 = 24.0;

/// Breaks a draft into pages and numbers them.
pub fn paginate(draft: Draft) -> View {
    let body = draft.paper.body();
    let room = if draft.do_not_cut.is_empty() { body } else { body - BANNER };
    let mut pages: Vec<Page> = Vec::new();
    for section in draft.sections {
        let apart = balanced(section.clone(), room);
        let as_it_is = || pages.last().and_then(|last| behind(last, &section, &apart, room)).map(|t| (None, t));
        let without_picture = || {
            let last = pages.last().and_then(bare).filter(|_| section.scene.is_none())?;
            let together = behind(&last, &section, &apart, room)?;
            (together.len() == 1).then_some((Some(last), together))
        };
        match as_it_is().or_else(without_picture) {
            Some((last, together)) => {
                if let (Some(page), Some(last)) = (pages.last_mut(), last) {
                    *page = last;
                }
                append(&mut pages, together);
            }
            None => pages.extend(apart),
        }
    }
    let of = pages.len();
    let starts = starts(&pages);
    for (i, page) in pages.iter_mut().enumerate() {
        page.number = i + 1;
        page.of = of;
        page.foot = Foot {
            part: draft.part.clone(),
            drawing: draft.drawing.clone(),
            description: words::description(&draft.hash),
            page: if is_card(&page.id) { words::card(i + 1) } else { (i + 1).to_string() } + &format!(" / {of}"),
        };
        if !page.go_on.is_empty() {
            page.go_on = if is_card(&page.id) { words::go_on_card(i + 2) } else { words::go_on(i + 2) };
        }
        for block in &mut page.blocks {
            name_pages(block, &starts);
        }
    }
    View {
        lang: crate::language::now().code().to_owned(),
        units: draft.units,
        decimal: draft.decimal,
        title: draft.title,
        paper: draft.paper,
        body: Mm(body),
        edge: Mm(draft.paper.edge()),
        hash: draft.hash,
        do_not_cut: draft.do_not_cut,
        pages,
    }
}

/// Less on the last page of a list, about ten lines with their heading, looks forgotten.
pub(super) const FEW: f64 = 62.0;

/// The pages of a section. Where a page of reading would end with a few lines on a page of their own, the pages before give it some.
fn balanced(section: Section, room: f64) -> Vec<Page> {
    const STEP: f64 = 6.0;
    const MOST_STEPS: u8 = 12;
    let few = |pages: &[Page]| pages.last().is_some_and(|p| used(p) - p.head.height() < FEW);
    if section.scene.is_some() || section.id.starts_with("card") {
        let pages = Breaker::new(section.clone(), room).pages();
        // A lower picture lets the first operation stand beside how the work is held.
        let low = || Breaker::low(section, room).map(Breaker::pages).filter(|low| low.first().is_some_and(cuts));
        return if pages.first().is_some_and(cuts) { pages } else { low().unwrap_or(pages) };
    }
    let pages = Breaker::new(section.clone(), room).pages();
    if pages.len() < 2 || !few(&pages) {
        return pages;
    }
    // The first page stays as it is: what belongs together there was laid out for it.
    let shorter = |n| Breaker { later: STEP * f64::from(n), ..Breaker::new(section.clone(), room) };
    let tried = (1..=MOST_STEPS).map(|n| shorter(n).pages());
    let mut as_many = tried.take_while(|t| t.len() == pages.len());
    as_many.find(|t| !few(t)).unwrap_or(pages)
}

/// Fills in the pages of the list of setups.
fn name_pages(block: &mut Block, starts: &[(String, usize)]) {
    if let Body::Setups { rows, .. } = &mut block.body {
        for row in rows {
            if let Some((_, page)) = starts.iter().find(|(id, _)| *id == row.id) {
                row.page = words::page(*page);
            }
        }
    }
}

/// Breaks one section.
pub(super) struct Breaker {
    section: Section,
    height: f64,
    /// By how much the pages behind the first are shorter.
    later: f64,
    /// Height that something else takes of the first.
    taken: f64,
    /// Whether the first has the lower picture of those behind it.
    low: bool,
    done: Vec<Page>,
    blocks: Vec<Block>,
    focus: Focus,
    /// Whether anything but the opening stands on the page.
    begun: bool,
}

impl Breaker {
    fn new(section: Section, height: f64) -> Self {
        let blocks = section.opening.clone();
        Self {
            section,
            height,
            later: 0.0,
            taken: 0.0,
            low: false,
            done: Vec::new(),
            blocks,
            focus: Focus::default(),
            begun: false,
        }
    }

    /// Behind something that takes so much of its first page.
    pub(super) fn behind(taken: f64, section: Section, height: f64) -> Self {
        Self::new(section, height).taking(taken)
    }

    /// With so much of its first page taken by something else.
    pub(super) fn taking(self, taken: f64) -> Self {
        Self { taken, ..self }
    }

    /// With the lower picture on the first page too; none where there is no picture.
    pub(super) fn low(mut section: Section, height: f64) -> Option<Self> {
        let is_picture = |b: &Block| matches!(b.body, Body::Picture { .. });
        let lower = section.reopening.iter().find(|b| is_picture(b))?.clone();
        *section.opening.iter_mut().find(|b| is_picture(b))? = lower;
        Some(Self { low: true, ..Self::new(section, height) })
    }

    pub(super) fn pages(mut self) -> Vec<Page> {
        let mut items = std::mem::take(&mut self.section.items);
        items.reverse();
        while let Some(item) = items.pop() {
            // The box that says where to go on needs its room unless all that is left fits without it.
            let left: f64 = items.iter().map(height).sum::<f64>();
            let is_setup = self.is_mounting();
            let last = height(&item) + left <= self.room();
            let room = if is_setup && !last { self.room() - GO_ON } else { self.room() };
            match item {
                Item::NewPage if self.begun => self.turn(),
                Item::NewPage => {}
                Item::Step { mut step, columns } => {
                    let needed = self.needed(&step, columns.as_ref());
                    if needed > room && (self.begun || self.done.is_empty()) {
                        self.turn();
                    }
                    let go_on = if is_setup && !items.is_empty() { GO_ON } else { 0.0 };
                    if needed > self.room() - go_on {
                        self.without_picture();
                        let over = self.needed(&step, columns.as_ref()) - (self.room() - go_on);
                        if over > 0.0 && !step.small {
                            step.row = blocks::with_fewer_findings(step.row, over);
                        }
                    }
                    self.place(step, columns);
                }
                // A heading goes over with what it is the heading of.
                Item::Block(Block { body: Body::Heading { .. }, height, .. })
                    if self.begun && height.0 + headed(&items) > room =>
                {
                    self.turn();
                    items.push(item);
                }
                Item::Block(block) if block.height.0 <= room => self.push(block),
                Item::Block(block) => match split(block, room) {
                    (Some(first), Some(rest)) => {
                        self.push(first);
                        self.turn();
                        items.push(Item::Block(rest));
                    }
                    // Room for notes has shrunk to what is left.
                    (Some(whole), None) if whole.height.0 <= room => self.push(whole),
                    (Some(whole), None) | (None, Some(whole)) if !self.begun => self.push(whole),
                    (Some(whole), None) | (None, Some(whole)) => {
                        self.turn();
                        items.push(Item::Block(whole));
                    }
                    (None, None) => {}
                },
            }
        }
        self.close(true);
        self.done
    }

    /// Whether a page that is not the last says where to go on.
    fn is_mounting(&self) -> bool {
        self.section.scene.is_some() || is_card(&self.section.id)
    }

    fn room(&self) -> f64 {
        let (head, less) =
            if self.done.is_empty() { (&self.section.head, self.taken) } else { (&self.section.again, self.later) };
        self.height - less - head.height() - self.blocks.iter().map(|b| b.height.0).sum::<f64>()
    }

    fn push(&mut self, block: Block) {
        self.blocks.push(block);
        self.begun = true;
    }

    /// Height that a step would add to the page.
    fn needed(&self, step: &Step, columns: Option<&Columns>) -> f64 {
        let head_stands = self.heads_stand();
        let around: f64 = step.before.iter().chain(&step.after).map(|b| b.height.0).sum();
        let head = if columns.is_some() && !head_stands { heads(step) } else { 0.0 };
        around + step.row.height.0 + head
    }

    /// Whether the heads of the columns stand on the page already.
    fn heads_stand(&self) -> bool {
        self.blocks.iter().any(|b| matches!(b.body, Body::Operations { columns: Some(_), .. }))
    }

    fn place(&mut self, step: Step, columns: Option<Columns>) {
        self.focus.add(&step.focus);
        let again = self.heads_stand();
        let heads = if again { 0.0 } else { heads(&step) };
        let columns = columns.map(|c| Columns { again, ..c });
        self.blocks.extend(step.before);
        match self.blocks.last_mut() {
            Some(Block { height, body: Body::Operations { columns: have, rows }, .. }) => {
                if have.is_none() && columns.is_some() {
                    *have = columns;
                    height.0 += heads;
                }
                height.0 += step.row.height.0;
                rows.push(step.row);
            }
            _ if step.small => self.blocks.push(small::operations(columns, vec![step.row])),
            _ => self.blocks.push(blocks::operations(columns, vec![step.row])),
        }
        self.blocks.extend(step.after);
        self.begun = true;
    }

    /// An operation that fills its page stands there without the setup's picture, which the page before it has.
    fn without_picture(&mut self) {
        if !self.begun && !self.done.is_empty() {
            self.blocks.retain(|b| !matches!(b.body, Body::Picture { .. }));
        }
    }

    /// Ends the page and begins the next.
    fn turn(&mut self) {
        self.close(false);
        self.blocks = self.section.reopening.clone();
        self.focus = Focus::default();
        self.begun = false;
    }

    fn close(&mut self, last: bool) {
        let nth = self.done.len() + 1;
        let id = if nth == 1 { self.section.id.clone() } else { format!("{}-{nth}", self.section.id) };
        let mut blocks = std::mem::take(&mut self.blocks);
        if let Some(scene) = &self.section.scene {
            let drawn = scene.draw(&self.focus, nth == 1, nth > 1 || self.low, &id);
            if let Some(Block { body: Body::Picture { svg, alt, .. }, .. }) =
                blocks.iter_mut().find(|b| matches!(&b.body, Body::Picture { svg, .. } if svg.is_empty()))
            {
                *svg = drawn.svg;
                *alt = drawn.alt;
            }
        }
        let head = if nth == 1 { self.section.head.clone() } else { self.section.again.clone() };
        let go_on = if last || !self.is_mounting() { Rich::new() } else { words::go_on(0) };
        let foot =
            Foot { part: String::new(), drawing: String::new(), description: String::new(), page: String::new() };
        let bookmark = self.section.bookmark.clone();
        let page = Page { number: 0, of: 0, id, bookmark, continued: nth > 1, head, blocks, go_on, foot };
        self.done.push(page);
    }
}

/// A bench card, by the name of its section or page.
fn is_card(id: &str) -> bool {
    id.starts_with("card")
}

/// Up to this height, what stands under a heading is not broken over two pages: a hole is drilled and tapped on one.
const TOGETHER: f64 = 70.0;

/// How much of what follows must stand on a heading's page: all of it where it is little, else a few lines, or all that leads to the first operation of a mounting, and
/// that. What follows next is last.
fn headed(items: &[Item]) -> f64 {
    /// A mounting has no more before its first operation: how it is held, the correction, the zeros.
    const BEFORE: usize = 6;
    let under = items.iter().rev().take_while(|i| !matches!(i, Item::Block(Block { body: Body::Heading { .. }, .. })));
    let all: f64 = under.map(height).sum();
    if all <= TOGETHER {
        return all;
    }
    let next = || items.iter().rev().take(BEFORE);
    let leads = next().position(|i| {
        !matches!(i, Item::Block(Block { body: Body::Text { .. } | Body::Correction { .. } | Body::Zeros { .. }, .. }))
    });
    match leads.map(|n| (n, next().nth(n))) {
        Some((n, Some(step @ Item::Step { .. }))) => next().take(n).chain([step]).map(height).sum(),
        _ => items.last().map_or(0.0, |i| height(i).min(WITH_HEADING)),
    }
}

/// Height of the heads of the columns over a step.
const fn heads(step: &Step) -> f64 {
    if step.small { small::COLUMN_HEADS } else { blocks::COLUMN_HEADS }
}

/// Height of an item with what goes with it.
pub(super) fn height(item: &Item) -> f64 {
    match item {
        Item::Block(block) => block.height.0,
        Item::Step { step, columns } => {
            let around: f64 = step.before.iter().chain(&step.after).map(|b| b.height.0).sum();
            let head = if columns.is_some() && !step.before.is_empty() { heads(step) } else { 0.0 };
            around + head + step.row.height.0
        }
        Item::NewPage => f64::INFINITY,
    }
}

/// Height used on a page, its head included.
pub fn used(page: &Page) -> f64 {
    let go_on = if page.go_on.is_empty() { 0.0 } else { GO_ON };
    page.head.height() + page.blocks.iter().map(|b| b.height.0).sum::<f64>() + go_on
}
