//! The lines of a taper: compound, set-over, attachment, the ways to cut it, and what to measure.

use super::Sources;
use super::row::piece;
use crate::figures::{Figure, TaperCut};
use crate::sheet::blocks;
use crate::sheet::view::{Line, PieceKind, Rich};
use crate::sheet::words;
use crate::tell;

pub(super) fn lines(s: &Sources, t: &TaperCut) -> Vec<Line> {
    use PieceKind::{Plain, Strong};
    let text = |f: Figure| f.text(s.unit());
    let label = |t: &str| Rich::from(t);
    // Only the way that is taken stands out: a tired hand sets what is bold.
    let way = t.ways.first().filter(|w| w.fits).map(|w| w.way);
    let kind = |of: &str| if way == Some(of) { Strong } else { Plain };
    let mut lines = vec![
        blocks::line(
            label(words::COMPOUND.say()),
            38.0,
            vec![
                piece(kind("compound"), &t.half_angle, 0.0),
                piece(Plain, &words::from_the_axis(t.half_angle_deg, &t.rate), 0.0),
            ],
        ),
        blocks::line(label(""), 38.0, vec![piece(Plain, &words::swung(t.swing), 0.0)]),
        // A set-over that the tailstock cannot travel is not offered.
        match t
            .tailstock
            .filter(|_| s.shop.and_then(|shop| shop.tailstock_travel).is_none_or(|most| t.setover.value <= most))
        {
            Some(swing) => blocks::line(
                label(words::SETOVER.say()),
                38.0,
                vec![
                    piece(kind("tailstock set over"), &text(t.setover), 0.0),
                    piece(Plain, &words::tailstock_moved(swing), 0.0),
                ],
            ),
            None => blocks::line(label(""), 38.0, Vec::new()),
        },
        blocks::line(label(""), 38.0, vec![piece(Plain, &words::indicator(s.unit(), &text(t.drop)), 0.0)]),
    ];
    if t.ways.iter().any(|w| w.way == "taper attachment" && w.fits) {
        let per = piece(kind("taper attachment"), &text(t.per_length), 0.0);
        lines.push(blocks::line(label(words::ATTACHMENT.say()), 38.0, vec![per]));
        lines.extend(words::wrapped("", 38.0, words::attachment(s.unit()), 117.0));
    }
    lines.retain(|l| !l.pieces.is_empty());
    // What the lathe cannot do is told by the plan's reasons, where it can do anything.
    for (i, way) in t.ways.iter().enumerate().filter(|(_, w)| w.fits || way.is_none()) {
        let (name, because) = (words::capital(words::taper_way(way.way)), words::from_file(&way.because));
        let says = if i == 0 && way.fits {
            tell!("Take: {name}. {}", "Nimm: {name}. {}", words::capital(&because))
        } else {
            format!("{name}: {because}")
        };
        lines.extend(words::wrapped(if i == 0 { words::WAY.say() } else { "" }, 38.0, &says, 117.0));
    }
    lines.extend(cuts(s, t));
    for (place, size, read) in &t.checks {
        let blank = piece(PieceKind::Blank, &words::diameter_at(words::taper_end(&place.what)), super::row::BLANK);
        let at = words::at(&text(place.from_datum));
        lines.push(blocks::line(
            label(&words::capital(words::taper_end(&place.what))),
            38.0,
            vec![
                piece(Strong, &format!("Ø {}", words::read_as(&text(*size), read.and_then(|r| r.one()))), 0.0),
                piece(Plain, &at, 0.0),
                blank,
            ],
        ));
    }
    lines
}

/// The cuts along the taper, and its trial in blue half way.
fn cuts(s: &Sources, t: &TaperCut) -> Vec<Line> {
    let Some(cuts) = &t.cuts else { return Vec::new() };
    let depth = cuts.on_dial.map_or_else(|| cuts.depth.text(s.unit()), |d| d.text(s.unit()));
    let left = cuts.left.text(s.unit());
    // Only inside there is no tailstock to set over.
    let (says, trial) = if t.tailstock.is_some() {
        (words::taper_cuts(cuts.count, &depth, &left), words::taper_trial().to_owned())
    } else {
        let trial = words::socket_trial(s.unit(), &t.drop.text(s.unit()));
        (words::socket_cuts(cuts.count, &depth, &left), trial)
    };
    let mut lines = words::wrapped(words::CUTS.say(), 38.0, &says, 117.0);
    lines.extend(words::wrapped("", 38.0, &trial, 117.0));
    lines
}
