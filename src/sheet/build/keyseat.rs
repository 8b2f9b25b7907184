//! The keyseat block and its section.

use super::Sources;
use crate::figures::{Figure, KeyseatCut, OnRoughed};
use crate::model::plan::{Operation, Verb};
use crate::sheet::draw::{self, KeyseatSection};
use crate::sheet::view::{Block, Line, Mm, Piece, PieceKind, Rich};
use crate::sheet::{blocks, words};
use crate::tell;

/// Width of the labels.
const LABEL: f64 = 34.0;
/// Width beside them.
const ROOM: f64 = 121.0;

/// Depth, across the bottom, touch-off.
pub(super) fn lines(s: &Sources, k: &KeyseatCut) -> Vec<Line> {
    use PieceKind::{Blank, Plain, Strong};
    let text = |f: Figure| f.text(s.unit());
    let piece = |kind, text: &str, width| Piece { kind, text: text.to_owned(), width: Mm(width) };
    let deep = k.roughed.map_or_else(
        || (k.depth_from_top, words::FROM_TOP.say().to_owned()),
        |r| (r.depth_from_top, words::from_roughed_top(&text(r.diameter))),
    );
    let across = k.across_on_scale.and_then(|read| read.both());
    let across = across.unwrap_or_else(|| format!("{} / {}", text(k.across_limits.max), text(k.across_limits.min)));
    let rough = |r: OnRoughed| format!("{} / {}", text(r.across_limits.max), text(r.across_limits.min));
    let across = k.roughed.map_or(across, rough);
    let mut out = vec![
        blocks::line(
            Rich::from(words::DEPTH.say()),
            LABEL,
            vec![piece(Strong, &text(deep.0), 0.0), piece(Plain, &deep.1, 0.0)],
        ),
        blocks::line(
            Rich::from(words::ACROSS_BOTTOM.say()),
            LABEL,
            vec![
                piece(Strong, &across, 0.0),
                piece(Plain, words::READS.say(), 0.0),
                piece(Blank, words::ACROSS_BOTTOM.say(), 27.0),
            ],
        ),
        blocks::line(
            Rich::from(words::SLOT.say()),
            LABEL,
            vec![
                piece(Strong, &tell!("{} to {}", "{} bis {}", text(k.slot.from), text(k.slot.to)), 0.0),
                piece(Plain, words::FROM_DATUM_FACE.say(), 0.0),
            ],
        ),
    ];
    // On an eccentric the first step of the touch-off has it.
    if let Some(angle) = k.angle_deg.filter(|_| !k.thrown) {
        let thrown = s.part.features.iter().find(|f| f.throw().is_some());
        let says = thrown.map_or_else(
            || words::clocking(angle),
            |f| words::clocking_from_throw(angle, &f.letter, f.angle_mdeg.map_or(0.0, |a| a as f64 / 1000.0)),
        );
        out.extend(words::wrapped(words::CLOCKED.say(), LABEL, &says, ROOM));
    }
    for (i, step) in k.recipe.iter().enumerate() {
        let label = if i == 0 { words::TOUCH_OFF.say() } else { "" };
        out.extend(words::wrapped(label, LABEL, &format!("{}. {}", i + 1, words::from_file(step)), ROOM));
    }
    out
}

/// Its section with the three depths.
pub(super) fn picture(s: &Sources, k: &KeyseatCut, id: &str) -> Block {
    let text = |f: Figure| f.text(s.unit());
    let section = KeyseatSection {
        shaft: k.seat.value.mm(),
        width: k.width.value.mm(),
        depth_from_top: k.depth_from_top.value.mm(),
        from_top: if k.roughed.is_some() {
            words::from_finished_top(&text(k.depth_from_top))
        } else {
            words::from_the_top(&text(k.depth_from_top))
        },
        at_side: words::at_the_side(&text(k.at_side)),
        across: words::across_the_bottom(&text(k.across_bottom)),
        wide: words::wide(&text(k.width)),
    };
    let alt = words::keyseat_alt(&k.key, &[&section.wide, &section.at_side, &section.from_top, &section.across]);
    blocks::picture(draw::keyseat(&section, id, alt))
}

/// Whether a last cut runs over a keyseat that was milled in the roughed seat.
pub(super) fn finished_over(s: &Sources, last: &Operation) -> bool {
    let Some((from, to)) = last.from.zip(last.to).filter(|_| matches!(last.verb, Verb::Finish | Verb::Turn)) else {
        return false;
    };
    let over = |o: &Operation| o.from.is_some_and(|at| from.min(to) <= at && at < from.max(to));
    let mut before = s.plan.operations().take_while(|(_, o)| o.number != last.number);
    before.any(|(_, o)| o.verb == Verb::Mill && o.from_diameter.is_some() && over(o))
}
