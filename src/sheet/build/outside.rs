//! The blocks of knurls, flats and undercuts.

use super::Sources;
use crate::figures::{CrownCut, Figure, FlatsCut, KnurlCut, SizeLimits, UndercutCut};
use crate::sheet::draw::{self, CrownEnd, FlatsSection};
use crate::sheet::view::{Block, Line, Mm, Piece, PieceKind, Rich};
use crate::sheet::{blocks, words};
use crate::tell;

/// Width of the labels.
const LABEL: f64 = 34.0;
/// Width beside them.
const ROOM: f64 = 121.0;
/// Width of a blank.
const BLANK: f64 = 27.0;

fn piece(kind: PieceKind, text: &str, width: f64) -> Piece {
    Piece { kind, text: text.to_owned(), width: Mm(width) }
}

fn said(label: &str, strong: &str, plain: &str) -> Line {
    let pieces = vec![piece(PieceKind::Strong, strong, 0.0), piece(PieceKind::Plain, plain, 0.0)];
    blocks::line(Rich::from(label), LABEL, pieces)
}

fn measured(label: &str, strong: &str) -> Line {
    let pieces = vec![
        piece(PieceKind::Strong, strong, 0.0),
        piece(PieceKind::Plain, words::READS.say(), 0.0),
        piece(PieceKind::Blank, label, BLANK),
    ];
    blocks::line(Rich::from(label), LABEL, pieces)
}

fn steps(label: &str, recipe: &[String]) -> Vec<Line> {
    let numbered = recipe.iter().enumerate().map(|(i, step)| (i, format!("{}. {}", i + 1, words::from_file(step))));
    numbered.flat_map(|(i, text)| words::wrapped(if i == 0 { label } else { "" }, LABEL, &text, ROOM)).collect()
}

fn both(s: &Sources, limits: SizeLimits) -> String {
    format!("{} / {}", limits.max.text(s.unit()), limits.min.text(s.unit()))
}

/// Blank, growth, over the points.
pub(super) fn knurl(s: &Sources, k: &KnurlCut) -> Vec<Line> {
    let text = |f: Figure| f.text(s.unit());
    let mut out = vec![said(
        words::KNURL_BLANK.say(),
        &format!("Ø {}", text(k.blank)),
        &words::knurl_teeth(k.teeth, &text(k.pitch)),
    )];
    let over = k.over.map_or_else(|| tell!("about {}", "etwa {}", text(k.expected)), |l| both(s, l));
    out.push(measured(words::OVER_POINTS.say(), &over));
    out.extend(steps(words::HOW.say(), &k.recipe));
    out
}

/// Depth, first reading, across, dividing.
pub(super) fn flats(s: &Sources, f: &FlatsCut) -> Vec<Line> {
    let text = |f: Figure| f.text(s.unit());
    let read = f.across_on_scale.and_then(|read| read.both());
    let across = read.unwrap_or_else(|| f.across_limits.map_or_else(|| text(f.across), |l| both(s, l)));
    let first = f.after_first_on_scale.map(|read| format!("{} {}", read.size_text(), read.unit.word()));
    let first = first.unwrap_or_else(|| text(f.after_first));
    let mut out = vec![
        said(words::DEPTH_EACH.say(), &text(f.depth), words::BELOW_ROUND.say()),
        said(words::ALONG.say(), &words::from_to(&text(f.along.from), &text(f.along.to)), words::FROM_DATUM_FACE.say()),
    ];
    if f.count > 1 {
        out.push(said(words::FIRST_FLAT.say(), &first, words::TO_FAR_SIDE.say()));
        out.push(measured(words::ACROSS_FLATS.say(), &across));
    } else {
        out.push(measured(words::FLAT_TO_FAR_SIDE.say(), &across));
    }
    out.push(said(words::FLAT_WIDE.say(), &text(f.width), &words::corners(&text(f.corners), f.truncated, f.count)));
    if let Some(angle) = f.angle_deg.filter(|_| !f.thrown) {
        out.push(blocks::line(
            Rich::from(words::CLOCKED.say()),
            LABEL,
            vec![piece(PieceKind::Plain, &words::clocking(angle), 0.0)],
        ));
    }
    out.extend(steps(words::TOUCH_OFF.say(), &f.recipe));
    out
}

/// Radius, depth, width.
pub(super) fn undercut(s: &Sources, u: &UndercutCut) -> Vec<Line> {
    let text = |f: Figure| f.text(s.unit());
    let mut out = vec![said(words::DEPTH_A_SIDE.say(), &both(s, u.depth), &words::undercut_form(&text(u.width)))];
    out.extend(steps(words::HOW.say(), &u.recipe));
    out
}

/// The section through flats.
pub(super) fn picture(s: &Sources, f: &FlatsCut, id: &str) -> Block {
    let text = |f: Figure| f.text(s.unit());
    let section = FlatsSection {
        round: f.round.value.mm(),
        depth: f.depth.value.mm(),
        count: f.count,
        across: if f.count > 1 { words::across_flats(&text(f.across)) } else { words::to_far_side(&text(f.across)) },
        deep: words::deep(&text(f.depth)),
        wide: words::flat_is_wide(&text(f.width)),
        around: format!("Ø {}", text(f.round)),
    };
    let alt = words::flats_alt(&f.says, &[&section.around, &section.across, &section.deep, &section.wide]);
    blocks::picture(draw::flats(&section, id, alt))
}

/// Radius, height, steps of a domed end.
pub(super) fn crown(s: &Sources, c: &CrownCut) -> Vec<Line> {
    let text = |f: Figure| f.text(s.unit());
    let mut out = vec![said(words::CROWN_EDGE.say(), &text(c.height), &words::crown_edge(&text(c.over)))];
    for (i, some) in c.steps.chunks(3).enumerate() {
        let mut pieces = Vec::new();
        for (behind, across) in some {
            pieces.push(piece(PieceKind::Strong, &text(*behind), 13.5));
            pieces.push(piece(PieceKind::Plain, &words::to_diameter(&text(*across)), 26.5));
        }
        out.push(blocks::line(Rich::from(if i == 0 { words::CROWN_STEPS.say() } else { "" }), LABEL, pieces));
    }
    out.push(said(words::CROWN_LEFT.say(), &text(c.ridge), words::CROWN_RIDGE.say()));
    out.extend(steps(words::HOW.say(), &c.recipe));
    out
}

/// The domed end with its steps.
pub(super) fn crown_picture(s: &Sources, c: &CrownCut, id: &str) -> Block {
    let text = |f: Figure| f.text(s.unit());
    let end = CrownEnd {
        over: c.over.value.mm(),
        height: c.height.value.mm(),
        steps: c.steps.iter().map(|(z, d)| (z.value.mm(), d.value.mm())).collect(),
        radius_says: words::crown_radius(&text(c.radius)),
        height_says: text(c.height),
        over_says: format!("\u{d8} {}", text(c.over)),
    };
    let alt = words::crown_alt(&end.radius_says, &end.height_says, &end.over_says);
    blocks::picture(draw::crown(&end, id, alt))
}
