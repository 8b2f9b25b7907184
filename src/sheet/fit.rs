//! Lines below an operation, none wider than the page: what has no room goes into a line of its own.

use super::layout;
use super::measure;
use super::view::{Line, Mm, Piece, PieceKind, Rich, Works};

/// Space behind each piece, and behind the label.
const GAP: f64 = 1.6;

/// The same lines, the long ones broken between their pieces, or within a text that is too long alone.
pub(super) fn fitted(lines: Vec<Line>, room: f64) -> Vec<Line> {
    lines.into_iter().flat_map(|line| broken(line, room)).collect()
}

/// Whether a line has room as it is.
pub(super) fn fits(line: &Line, room: f64) -> bool {
    broken(line.clone(), room).len() == 1
}

fn broken(line: Line, room: f64) -> Vec<Line> {
    let label = if line.label_width.0 > 0.0 {
        line.label_width.0 + GAP
    } else {
        measure::rich_width(&line.label, layout::BODY)
    };
    let whole: f64 = line.pieces.iter().map(width).sum();
    // Outputs round differently; what was laid out to the full width stays.
    if label + whole <= room + GAP {
        return vec![line];
    }
    let room = room - label;
    let mut rows: Vec<Vec<Piece>> = vec![Vec::new()];
    let mut used = 0.0;
    for piece in line.pieces.iter().flat_map(|p| cut(p, room)) {
        let wide = width(&piece);
        if used > 0.0 && used + wide > room + GAP {
            rows.push(Vec::new());
            used = 0.0;
        }
        used += wide;
        rows.last_mut().into_iter().for_each(|row| row.push(piece.clone()));
    }
    let mut first = true;
    rows.into_iter()
        .map(|pieces| {
            let own = std::mem::take(&mut first);
            Line {
                label: if own { line.label.clone() } else { Rich::new() },
                pieces,
                works: if own { line.works } else { Works::Nothing },
                ..line.clone()
            }
        })
        .collect()
}

/// A text longer than a line, in pieces that are not.
fn cut(piece: &Piece, room: f64) -> Vec<Piece> {
    let (points, bold) = match piece.kind {
        PieceKind::Plain => (layout::BODY, false),
        PieceKind::Strong => (layout::LARGE, true),
        _ => return vec![piece.clone()],
    };
    if width(piece) <= room + GAP {
        return vec![piece.clone()];
    }
    let texts = measure::broken(&piece.text, points, bold, room);
    texts.into_iter().map(|text| Piece { kind: piece.kind, text, width: Mm(0.0) }).collect()
}

fn width(piece: &Piece) -> f64 {
    let text = |points, bold| measure::width(&piece.text, points, bold);
    let own = match piece.kind {
        _ if piece.width.0 > 0.0 => piece.width.0,
        PieceKind::Plain => text(layout::BODY, false),
        PieceKind::Strong => text(layout::LARGE, true),
        PieceKind::Dial | PieceKind::Carriage => text(13.0, true) + 3.6,
        PieceKind::Blank | PieceKind::OwnBlank | PieceKind::DialBlank | PieceKind::CarriageBlank => 0.0,
    };
    own + GAP
}
