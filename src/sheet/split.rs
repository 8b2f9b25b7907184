//! Splitting a list that does not fit on its page.

use super::view::{Block, Body, InspectionList, LegendRow, Mm, TickList};
use super::{blocks, small, table};

/// The part of a block that fits into `room` millimetres, and the rest. A block that cannot be split, or of which not even
/// two rows fit, comes back whole as the rest.
pub(super) fn split(block: Block, room: f64) -> (Option<Block>, Option<Block>) {
    match block.body {
        // A short list goes over whole: it is read in one go.
        Body::List { .. } | Body::Setups { .. } if block.height.0 < 120.0 => (None, Some(block)),
        Body::Legend { columns } => {
            let rows: Vec<LegendRow> = columns.into_iter().flatten().collect();
            let fits = (0..=rows.len()).rev().find(|n| blocks::legend(rows[..*n].to_vec()).height.0 <= room);
            cut(rows, fits.unwrap_or(0), blocks::legend)
        }
        Body::Setups { heading, rows } => {
            let top = block.height.0 - rows.iter().map(|r| r.height.0).sum::<f64>();
            let n = count(rows.iter().map(|r| r.height), room - top);
            cut(rows, n, |rows| {
                let height = Mm(top + rows.iter().map(|r| r.height.0).sum::<f64>());
                Block { height, small: false, body: Body::Setups { heading: heading.clone(), rows } }
            })
        }
        Body::Boxed { heading, paragraphs } => {
            let n = count(paragraphs.iter().map(|p| p.1), room - blocks::boxed_height(&[]));
            cut(paragraphs, n, |paragraphs| {
                let height = Mm(blocks::boxed_height(&paragraphs));
                Block { height, small: false, body: Body::Boxed { heading: heading.clone(), paragraphs } }
            })
        }
        Body::Assumed { heading, rows } => {
            let n = count(rows.iter().map(|r| r.height), room - blocks::assumed_height(&[]));
            cut(rows, n, |rows| {
                let height = Mm(blocks::assumed_height(&rows));
                Block { height, small: false, body: Body::Assumed { heading: heading.clone(), rows } }
            })
        }
        Body::List { heading, items } => {
            let n = count(items.iter().map(|i| i.1), room - blocks::list_height(&heading, &[]));
            cut(items, n, |items| {
                let height = Mm(blocks::list_height(&heading, &items));
                Block { height, small: false, body: Body::List { heading: heading.clone(), items } }
            })
        }
        // Fewer than four to tick at the foot of a page are overlooked.
        Body::Ticks { columns } if room < blocks::ticks_height(&[]) + 4.0 * 7.6 => {
            let height = block.height;
            (None, Some(Block { height, small: false, body: Body::Ticks { columns } }))
        }
        Body::Ticks { columns } => {
            let room = room - blocks::ticks_height(&[]);
            let mut first = columns.clone();
            let mut rest = columns;
            for (a, b) in first.iter_mut().zip(&mut rest) {
                let n = count(a.items.iter().map(|i| i.height), room);
                a.items.truncate(n);
                b.items.drain(..n);
            }
            // A list that ended on the page before has no heading here.
            let some = |mut columns: Vec<TickList>| {
                columns.retain(|c| !c.items.is_empty());
                (!columns.is_empty()).then(|| blocks::ticks(columns))
            };
            (some(first), some(rest))
        }
        Body::Inspection { columns } => {
            let full = ((room - blocks::INSPECTION_HEADS - 3.0) / blocks::INSPECTION_ROW).max(0.0) as usize;
            let (n, make): (usize, fn(Vec<InspectionList>) -> Block) = if block.small {
                (small::inspection_rows(room), small::inspection)
            } else {
                (full, blocks::inspection)
            };
            let mut first = columns.clone();
            let mut rest = columns;
            for (a, b) in first.iter_mut().zip(&mut rest) {
                let n = n.min(a.rows.len());
                a.rows.truncate(n);
                b.rows.drain(..n);
            }
            let some = |columns: Vec<InspectionList>| columns.iter().any(|c| !c.rows.is_empty()).then(|| make(columns));
            (some(first), some(rest))
        }
        Body::Table { heads, widths, rows } => {
            let widths: Vec<f64> = widths.iter().map(|w| w.0).collect();
            let mut n = count(rows.iter().map(|r| r.height), room - table::TABLE_HEADS - 2.0);
            while n > 0 && n < rows.len() && rows[n - 1].leads {
                n -= 1;
            }
            cut(rows, n, |rows| table::table(heads.clone(), &widths, rows))
        }
        // Room for notes shrinks to what is left.
        Body::Lines { heading, .. } if room >= blocks::lines("", 2).height.0 => {
            let most = (2..=8).take_while(|n| blocks::lines("", *n).height.0 <= room).last();
            (most.map(|n| blocks::lines(&heading, n)), None)
        }
        body => (None, Some(Block { height: block.height, small: block.small, body })),
    }
}

/// How many rows fit.
fn count(heights: impl Iterator<Item = Mm>, room: f64) -> usize {
    let mut used = 0.0;
    heights
        .take_while(|h| {
            used += h.0;
            used <= room
        })
        .count()
}

fn cut<T>(mut rows: Vec<T>, fits: usize, make: impl Fn(Vec<T>) -> Block) -> (Option<Block>, Option<Block>) {
    if rows.is_empty() {
        return (None, Some(make(rows)));
    }
    let rest = rows.split_off(fits.min(rows.len()));
    let make_if = |rows: Vec<T>| (!rows.is_empty()).then(|| make(rows));
    (make_if(rows), make_if(rest))
}
