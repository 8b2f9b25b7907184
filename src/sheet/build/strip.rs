//! The story strip's pages: on request only, since they are worth nothing when the printer scales.

use super::{Sources, cover};
use crate::sheet::draft::{Item, Section};
use crate::sheet::draw::strip::{Gauge, in_pieces, strips};
use crate::sheet::view::Rich;
use crate::sheet::{blocks, words};
use crate::unit::Unit;

/// The pages; none where no length is known.
pub(super) fn section(s: &Sources) -> Option<Section> {
    let overall = s.overall().mm();
    if overall <= 0.0 {
        return None;
    }
    let (long, text) = match s.unit() {
        Unit::Inch => (4.0 * 25.4, words::STRIP_GAUGE_INCH.say()),
        Unit::Millimetre => (100.0, words::STRIP_GAUGE_MM.say()),
    };
    let gauge = Gauge { long, text: text.to_owned() };
    let pictures = strips(overall, &cover::readings(s), &gauge, &words::strip_piece, &words::strip_alt(&s.name()));
    let mut items = Vec::new();
    for (i, picture) in pictures.into_iter().enumerate() {
        if i > 0 {
            items.push(Item::NewPage);
        }
        items.push(Item::Block(blocks::picture(picture)));
    }
    let mut how = words::STRIP_HOW.say().to_owned();
    if in_pieces(overall) {
        how = format!("{how} {}", words::STRIP_JOIN.say());
    }
    Some(Section {
        id: "strip".to_owned(),
        bookmark: words::STRIP.say().to_owned(),
        head: blocks::title_head(words::STRIP.say(), Rich::from(how), None),
        again: blocks::title_head(&words::continued(words::STRIP.say()), Rich::new(), None),
        opening: Vec::new(),
        reopening: Vec::new(),
        items,
        joins: false,
        scene: None,
    })
}
