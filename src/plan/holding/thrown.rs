//! Thrown over for an eccentric: held on a finished section beside it, so far off the spindle's axis that the eccentric runs true.

use super::decide::OVERHANG_DIAMETERS;
use super::grip::{Held, Lengths, held_on, in_spindle};
use super::mountings::{Candidate, out_of_jaws};
use super::offset_centers;
use super::surfaces::demerits;
use crate::model::part::Holding;
use crate::model::plan::{DatumEnd, Setup, Zero};
use crate::model::{End, Part, Shop, Workholder};
use crate::plan::derive::{Layout, Shape};
use crate::plan::rules::because;
use crate::unit::{Length, show};
use crate::{tell, told};

/// An eccentric and the mounting it is turned in.
#[derive(Debug, Clone)]
pub(in crate::plan) struct Throw {
    /// The eccentric.
    pub(in crate::plan) feature: usize,
    /// How far its axis lies from the part's.
    pub(in crate::plan) off: Length,
    /// The end it is turned from.
    pub(in crate::plan) end: End,
    /// Where around the part it lies, thousandths of a degree.
    angle: Option<i64>,
    pub(super) held: Held,
    pub(in crate::plan) by: Workholder,
    /// Why it is not turned between second centers, where it is long enough for that.
    against: Option<String>,
}

impl Throw {
    /// Where around the part it lies, for the name of its mounting.
    pub(super) fn at(&self) -> String {
        self.angle.map_or(String::new(), |a| format!(" at {}\u{b0}", a as f64 / 1000.0))
    }

    /// Eccentrics of one throw at one place around the part are turned in one mounting.
    pub(in crate::plan) fn like(&self, other: &Self) -> bool {
        let key = |t: &Self| (t.off, t.angle, t.end, t.held.section, t.by);
        key(self) == key(other)
    }
}

/// Every eccentric that can be thrown over, with the best way to hold it.
pub(in crate::plan) fn throws(part: &Part, layout: &Layout, shop: Option<&Shop>) -> Vec<Throw> {
    let lengths = Lengths::of(layout, shop);
    let eccentrics = || part.features.iter().filter(|f| f.throw().is_some() && layout.section(f.id).is_some());
    let mut found: Vec<Throw> = Vec::new();
    for feature in eccentrics() {
        let Some(throw) = feature.throw() else { continue };
        let fellows = eccentrics().filter(|f| f.throw() == Some(throw) && f.angle_mdeg == feature.angle_mdeg);
        let fellows: Vec<usize> = fellows.map(|f| f.id).collect();
        let mut ways = ways(part, layout, &lengths, feature.id, throw);
        let mut by = workholder(part, shop, throw);
        let held_well = ways.iter().any(|w| !w.rank.0 && !w.rank.1);
        let mut against = None;
        if wants_centers(part, layout, held_well) {
            match offset_centers::have_room(part, layout, shop, throw) {
                Ok(()) => {
                    let between = offset_centers::ways(part, layout, &lengths, feature.id);
                    if !between.is_empty() {
                        (ways, by) = (between, Workholder::SecondCenters(throw));
                    }
                }
                Err(why) => against = Some(why),
            }
        }
        let serves = |w: &Way| fellows.iter().filter(|f| w.frees(layout, **f)).count();
        let best = ways.into_iter().min_by_key(|w| (w.rank.0, usize::MAX - serves(w), w.rank));
        found.extend(best.map(|way| Throw {
            feature: feature.id,
            off: throw,
            end: way.end,
            angle: feature.angle_mdeg,
            held: way.held,
            by,
            against: against.clone(),
        }));
    }
    found
}

/// Whether an eccentric is turned between second centers, where there is room for them: as the person asks, else where the part is long or
/// no chuck holds it well.
fn wants_centers(part: &Part, layout: &Layout, held_well: bool) -> bool {
    let wishes = &part.wishes;
    match wishes.holding {
        _ if wishes.by.is_some() || wishes.part_off => false,
        Some(holding) => holding == Holding::BetweenCenters,
        None => offset_centers::is_long(layout) || !held_well,
    }
}

/// A section that can be held while an eccentric is turned.
pub(super) struct Way {
    pub(super) end: End,
    pub(super) held: Held,
    /// Overhangs, poor, unwelcome on this surface, how far the work stands out.
    pub(super) rank: (bool, bool, u32, Length),
}

impl Way {
    /// Whether an eccentric lies between the jaws and the tailstock.
    pub(super) fn frees(&self, layout: &Layout, feature: usize) -> bool {
        let out = out_of_jaws(layout, self.end, &self.held);
        layout.section(feature).is_some_and(|s| layout.depth(self.end, s.inner(self.end)) <= out)
    }
}

fn ways(part: &Part, layout: &Layout, lengths: &Lengths, feature: usize, throw: Length) -> Vec<Way> {
    let mut list = Vec::new();
    for end in [End::Datum, End::Far] {
        let sound = layout.sections.iter().filter(|s| {
            matches!(s.shape, Shape::Cylinder | Shape::Kept) && !s.thrown && !s.whole && s.feature != feature
        });
        for section in sound {
            let held = held_on(lengths, end, Holding::Chuck, section)
                .and_then(|held| in_spindle(layout, lengths, end, section, held, throw.times(2)));
            let Some(held) = held else { continue };
            let out = out_of_jaws(layout, end, &held);
            let overhangs = out > held.grip.diameter.times(OVERHANG_DIAMETERS);
            let rank = (overhangs, held.poor, demerits(part, layout, end, section), out);
            let way = Way { end, held, rank };
            if way.frees(layout, feature) {
                list.push(way);
            }
        }
    }
    list
}

/// Four jaws, each brought up by itself; packing under one of three where the shop has no such chuck or the person asks for the usual.
fn workholder(part: &Part, shop: Option<&Shop>, throw: Length) -> Workholder {
    let chucks = shop.map(|s| s.chucks.as_slice()).filter(|c| !c.is_empty());
    let none = chucks.is_some_and(|c| !c.iter().any(|c| c.jaws == 4));
    let asked = part.wishes.holding == Some(Holding::Chuck) && part.wishes.by.is_none();
    if none || asked { Workholder::Packed(throw) } else { Workholder::Thrown(throw) }
}

/// The mountings of the eccentrics, one for all that it serves.
pub(super) fn mountings(part: &Part, layout: &Layout, throws: &[Throw]) -> Vec<Candidate> {
    let mut list: Vec<Candidate> = Vec::new();
    for (i, throw) in throws.iter().enumerate() {
        if !throws[..i].iter().any(|t| t.like(throw)) {
            list.push(mounting(part, layout, throw, i));
        }
    }
    list
}

/// Whether a mounting was made for an eccentric.
pub(super) fn serves(throws: &[Throw], candidate: &Candidate, feature: usize) -> bool {
    let own = throws.iter().find(|t| t.feature == feature);
    candidate.throws.and_then(|t| throws.get(t)).zip(own).is_some_and(|(one, own)| one.like(own))
}

fn mounting(part: &Part, layout: &Layout, throw: &Throw, index: usize) -> Candidate {
    if matches!(throw.by, Workholder::SecondCenters(_)) {
        return offset_centers::mounting(part, layout, throw, index);
    }
    let (end, held) = (throw.end, throw.held.clone());
    let out = out_of_jaws(layout, end, &held);
    let off = show::exact(throw.off, part.units, show::usual_decimals(part.units), 4);
    let at = throw.at();
    let letter = held.grip.letter.clone();
    let name = format!("{} {off}{at}, {} end out, on {letter}", throw.by.chuck(), end.word());
    let called = part.features.get(throw.feature).map_or_else(String::new, |f| f.letter.clone());
    let mut why = vec![
        because(
            "eccentric",
            tell!(
                "the axis of {called} lies {off} off the part's: the work is thrown over by as much",
                "die Achse von {called} liegt {off} neben der des Teils: um so viel wird außermittig gespannt"
            ),
        ),
        because(
            "R25",
            tell!(
                "jaws on {letter}, over copper: its surface is finished",
                "Backen auf {letter}, über Kupfer: die Oberfläche ist fertig"
            ),
        ),
    ];
    why.extend(throw.against.as_ref().map(|no| {
        because(
            "offset-centers",
            tell!("not between second centers: {no}", "nicht zwischen zweiten Zentrierungen: {no}"),
        )
    }));
    if held.poor {
        why.push(because(
            "grip-short",
            told!(
                "a poor place to hold what runs out of balance: light cuts, slow",
                "hier lässt sich schlecht spannen, was unwuchtig läuft: leichte Schnitte, langsam"
            ),
        ));
    }
    let setup = Setup {
        number: 0,
        name,
        holding: Holding::Chuck,
        by: throw.by,
        runs_true: None,
        datum_end: if end == End::Datum { DatumEnd::Tailstock } else { DatumEnd::Headstock },
        works: Some(end),
        grip: Some(held.grip.clone()),
        also: None,
        rest: None,
        stick_out: Some(out),
        zero: if end == End::Datum { Zero::DatumFace } else { Zero::FarFace },
        operations: Vec::new(),
        why,
        before: Vec::new(),
        slow: None,
        after: Vec::new(),
    };
    let overhangs = out > held.grip.diameter.times(OVERHANG_DIAMETERS);
    Candidate {
        setup,
        end,
        held,
        track: None,
        turns: true,
        overhangs,
        drills: false,
        parts: false,
        tapers: false,
        throws: Some(index),
    }
}
