//! What lies inside, in words.

use super::Sources;
use super::size::with_limits;
use crate::figures::{CenterCut, ChamferCut, Figure, HoleCut, OperationFigures};
use crate::model::End;
use crate::model::inside::{InsideCut, Reach};
use crate::model::plan::Operation;
use crate::model::{Feature, Inside};
use crate::sheet::view::{Line, Mm, Piece, PieceKind, Rich};
use crate::sheet::{blocks, measure, words};
use crate::{tell, told};

/// Size, and how deep from which end.
pub(super) fn described(s: &Sources, f: &Feature, inside: &Inside) -> (String, String) {
    let name = f.name.as_ref().map(|n| n.text.clone());
    let size = match &inside.cut {
        InsideCut::Bore { diameter, kept: true, .. } => tell!("bore Ø {}", "Bohrung Ø {}", s.length(diameter.nominal)),
        InsideCut::Bore { diameter, hole, .. } => {
            format!(
                "{} Ø {}",
                if *hole { told!("hole", "Bohrung") } else { told!("bore", "Bohrung") },
                with_limits(s, diameter)
            )
        }
        InsideCut::Thread { thread, .. } => tell!("inside {}", "innen {}", thread.designation),
        InsideCut::Relief { diameter, .. } => {
            tell!("inside relief Ø {}", "Freistich innen Ø {}", with_limits(s, diameter))
        }
        InsideCut::Taper { rate, .. } => tell!("inside taper {}", "Innenkegel {}", rate.text),
        InsideCut::Groove { diameter, wide, .. } => {
            tell!(
                "inside groove Ø {}, {} wide",
                "Einstich innen Ø {}, {} breit",
                with_limits(s, diameter),
                s.length(wide.nominal)
            )
        }
        InsideCut::Chamfer { .. } => String::new(),
    };
    let reach = match &inside.reach {
        Reach::Through => words::THROUGH.say().to_owned(),
        Reach::Deep(deep) => words::deep_from(&with_limits(s, deep), inside.end),
        Reach::To(_) | Reach::Own => {
            let (from, to) = s.chain.span(f.id).unwrap_or_default();
            let bottom = if inside.end == crate::model::End::Datum { to } else { from };
            words::to(&s.length(bottom.0))
        }
    };
    let what = match name {
        Some(name) => format!("{name}, {reach}"),
        None => reach,
    };
    (size, what)
}

/// The lines below a cut inside; the first stands in the row itself where `first_above`.
pub(super) fn lines(hole: &HoleCut, first_above: bool) -> Vec<Line> {
    const LABEL: f64 = 24.0;
    const BESIDE: f64 = 30.0;
    let mut out = Vec::new();
    for line in hole.lines.iter().skip(usize::from(first_above)) {
        let value = Piece { kind: PieceKind::Strong, text: line.value.clone(), width: Mm(0.0) };
        let room = blocks::DETAIL_ROOM - LABEL - measure::width(&line.value, 14.0, true) - 4.0;
        // Beside a long value there is no room for words: they go below it.
        let beside = room >= BESIDE;
        let room = if beside { room } else { blocks::DETAIL_ROOM - LABEL };
        let mut notes = measure::broken(&line.note, 12.0, false, room).into_iter();
        let mut pieces = vec![value];
        let first = if beside { notes.next() } else { None };
        pieces.extend(first.map(|text| Piece { kind: PieceKind::Plain, text, width: Mm(0.0) }));
        out.push(blocks::line(Rich::from(line.label.as_str()), LABEL, pieces));
        for text in notes {
            let mut more =
                blocks::line(Rich::new(), LABEL, vec![Piece { kind: PieceKind::Plain, text, width: Mm(0.0) }]);
            more.height = Mm(5.6);
            out.push(more);
        }
    }
    out
}

/// The chamfer of a hole's mouth: what it measures when it is to size, and how far the tool goes from where it touches the edge.
pub(super) fn mouth_of_hole(s: &Sources, c: &ChamferCut, of: &OperationFigures) -> String {
    let says = words::mouth(&c.says, c.angle_deg, c.mouth.is_some());
    let Some(o) = c.opening.as_ref() else { return says };
    let measures = words::read_as(&o.across.text(s.unit()), o.on_scale.and_then(|r| r.one()));
    let out = o.on_dial.map(|d| d.text(s.unit()));
    let along = of.positions.iter().find(|p| p.carriage.is_some()).map(|p| super::row::reading(s, p));
    words::opened(&says, &measures, out.as_deref(), along.as_deref())
}

/// The mouth of a center hole, and what a caliper in the other unit reads for it.
pub(super) fn mouth(s: &Sources, c: &CenterCut) -> String {
    words::read_as(&c.mouth.text(s.unit()), c.mouth_on_scale.and_then(|r| r.one()))
}

/// A second center hole: its drill, and how it is laid out.
pub(super) fn second_center(s: &Sources, op: &Operation, c: &CenterCut) -> String {
    let text = |f: Figure| f.text(s.unit());
    c.second.as_ref().map_or_else(String::new, |l| {
        let lines = (text(l.axis_below), text(l.line_below));
        let hole = (op.end == Some(End::Far), c.size.as_str(), mouth(s, c));
        let says =
            words::second_center((hole.0, hole.1, &hole.2), s.letter(l.on), &text(l.throw), (&lines.0, &lines.1));
        let clocked = l.clock_deg.map_or(String::new(), |d| format!(". {}", words::clocked(&format!("{d}°"))));
        format!("{says}{clocked}")
    })
}

/// A rough center: its drill, and how it is laid out on the sawn end.
pub(super) fn rough_center(s: &Sources, op: &Operation, c: &CenterCut) -> String {
    let half = c.odd_legs.map_or(String::new(), |f| f.text(s.unit()));
    words::rough_center((op.end == Some(End::Far), &c.size, &mouth(s, c)), &half, &c.depth.text(s.unit()))
}
