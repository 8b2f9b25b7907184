//! What begins on a page that something else has begun: a short mounting behind another, a bench behind the last cut.

use super::blocks;
use super::draft::Section;
use super::paginate::{Breaker, FEW, used};
use super::view::{Block, Body, Head, Page};

/// A page filled less than this may take on what begins a page of its own elsewhere and goes on overleaf.
const NEARLY_EMPTY: f64 = 90.0;

/// The pages of a section that begins behind what stands on `last`, where that turns no page more than beginning anew: it has room
/// there whole, or `last` is nearly empty. The first of them holds what is added to `last`, its head as a block.
pub(super) fn behind(last: &Page, section: &Section, apart: &[Page], room: f64) -> Option<Vec<Page>> {
    if !section.joins || !last.go_on.is_empty() || matches!(last.head, Head::None) {
        return None;
    }
    let begin = blocks::begin(&section.id, &section.bookmark, section.head.clone());
    let taken = used(last) + begin.height.0 - section.head.height();
    let is_reading = section.scene.is_none() && apart.first().is_some_and(|p| !p.id.starts_with("setup"));
    let enough = used(last) < NEARLY_EMPTY || (is_reading && room - taken - section.head.height() > FEW);
    let as_high = Breaker::behind(taken, section.clone(), room).pages();
    let fits = |pages: &[Page]| pages.len() == 1 && pages.iter().all(|p| taken + used(p) <= room + 1e-6);
    // A lower picture lets a short mounting stand behind another whole.
    let lower = || {
        let all = Breaker::low(section.clone(), room)?.taking(taken).pages();
        (section.scene.is_some() && fits(&all)).then_some(all)
    };
    let pages = if fits(&as_high) { as_high } else { lower().unwrap_or(as_high) };
    let first = pages.first()?;
    let whole = fits(&pages);
    // Where no operation has room beside how the work is held, that stands well at the foot of the page before.
    let alone = section.scene.is_some() && !apart.first().is_some_and(cuts);
    let begun = cuts(first) || first.blocks.iter().any(|b| matches!(b.body, Body::List { .. }));
    let opens = (alone || (enough && begun)) && pages.len() <= apart.len() && taken + used(first) <= room + 1e-6;
    let mut pages = pages;
    (whole || opens).then(|| {
        if let Some(first) = pages.first_mut() {
            first.blocks.insert(0, begin);
        }
        pages
    })
}

/// A page that carries on, without the picture that the page before it has too: a few lines of what follows then need no page of
/// their own.
pub(super) fn bare(last: &Page) -> Option<Page> {
    let picture = last.blocks.iter().position(|b| matches!(b.body, Body::Picture { .. }));
    let mut last = last.clone();
    last.blocks.remove(picture.filter(|at| last.continued && *at == 0)?);
    Some(last)
}

/// Whether an operation stands on a page.
pub(super) fn cuts(page: &Page) -> bool {
    page.blocks.iter().any(|b| matches!(b.body, Body::Operations { .. }))
}

/// Puts the first of some pages behind what stands on the last, and the others after it.
pub(super) fn append(pages: &mut Vec<Page>, together: Vec<Page>) {
    let mut together = together.into_iter();
    if let (Some(last), Some(first)) = (pages.last_mut(), together.next()) {
        last.blocks.extend(first.blocks);
        last.go_on = first.go_on;
    }
    pages.extend(together);
}

/// Anchors and the pages they are on.
pub(super) fn starts(pages: &[Page]) -> Vec<(String, usize)> {
    let begun = |b: &Block| match &b.body {
        Body::Begin { id, .. } => Some(id.clone()),
        _ => None,
    };
    let on = |(i, p): (usize, &Page)| {
        let ids = std::iter::once(p.id.clone()).chain(p.blocks.iter().filter_map(begun));
        ids.map(|id| (id, i + 1)).collect::<Vec<_>>()
    };
    pages.iter().enumerate().flat_map(on).collect()
}
