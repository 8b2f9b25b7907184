//! The last cuts of a close size: equal, with blanks to measure between them.

use super::Sources;
use super::row::{BLANK, piece};
use crate::figures::{OperationFigures, Passes};
use crate::model::shop::Reads;
use crate::sheet::blocks;
use crate::sheet::view::{Line, PieceKind, Rich, Works};
use crate::sheet::words;

/// Equal last cuts, measured between; the last is what is still to come off.
pub(super) fn last_cuts(s: &Sources, of: &OperationFigures, passes: &Passes, inside: bool) -> Vec<Line> {
    use PieceKind::{Blank, Dial, DialBlank, Plain, Strong};
    let mut lines = Vec::new();
    for (i, cut) in passes.cuts.iter().enumerate() {
        let name = words::cut(i + 1);
        let label = Rich::new().strong(name.clone());
        if let Some(reads) = cut.should_read {
            let depth = match (&cut.dial, cut.depth) {
                (Some(dial), _) => piece(Dial, &dial.text(s.unit()), BLANK),
                (None, Some(depth)) => piece(Plain, &words::a_side(&depth.text(s.unit())), BLANK),
                (None, None) => continue,
            };
            let reads = cut
                .on_scale
                .map_or_else(|| reads.text(s.unit()), |on| format!("{} {}", on.size_text(), on.unit.word()));
            let reads = piece(Strong, &reads, 0.0);
            let blank = piece(Blank, &words::after(&name), BLANK);
            lines.push(blocks::line(
                label,
                21.0,
                vec![depth, piece(Plain, words::SHOULD_READ.say(), 32.0), reads, blank],
            ));
        } else {
            let aim = of
                .on_scale
                .map_or_else(|| of.aim.map(|a| a.text(s.unit())).unwrap_or_default(), |read| read.size_text());
            let unit = of.on_scale.map_or(s.unit(), |read| read.unit);
            let (first, second) = (piece(Blank, words::IT_READS.say(), BLANK), piece(Strong, &aim, 0.0));
            // A bore grows toward its size.
            let (first, second) = if inside { (second, first) } else { (first, second) };
            let mut pieces = vec![
                first,
                piece(Plain, "\u{2212}", 0.0),
                second,
                piece(Plain, "=", 0.0),
                piece(Blank, words::TO_COME_OFF.say(), BLANK),
                piece(Strong, &name, 0.0),
            ];
            let reads = s.shop.filter(|shop| shop.cross_dial.is_some()).and_then(|shop| shop.cross_reads);
            match reads {
                Some(reads) => {
                    let half = reads == Reads::Radius;
                    let share = if half { words::HALF.say() } else { words::ALL_OF_IT.say() };
                    let foreign = s.dial_step(unit);
                    // In short: the line is as wide as the page.
                    let step = foreign.map(|by| if half { format!("½ {by}") } else { by.to_owned() });
                    pieces.push(piece(Plain, &step.unwrap_or(share.to_owned()), 0.0));
                    pieces.push(piece(DialBlank, &foreign.map_or(name.clone(), |_| s.on_dial(&name)), BLANK));
                }
                None => pieces.push(piece(Plain, words::HALF_A_SIDE.say(), 0.0)),
            }
            let mut line = blocks::line(Rich::new().strong(words::IT_READS.say()), 21.0, pieces);
            (line.value, line.units) = (aim, unit.word());
            line.works = match reads {
                _ if inside => Works::Nothing,
                Some(Reads::Radius) => Works::MeasuredMinusGivenHalf,
                Some(Reads::Diameter) | None => Works::MeasuredMinusGiven,
            };
            lines.push(line);
        }
    }
    if passes.spring > 0 {
        let left = passes.barrel.map(|b| words::barrel(&b.text(s.unit())));
        let says =
            [Some(words::without_infeed(passes.spring)), left].into_iter().flatten().collect::<Vec<_>>().join("; ");
        lines.push(blocks::line(Rich::new().strong(words::THEN.say()), 21.0, vec![piece(Plain, &says, 0.0)]));
    }
    lines
}
