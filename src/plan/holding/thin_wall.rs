//! Jaws over a bore with little metal around it: how far they press it out of round, and what is done about that.

use super::mountings::Candidate;
use crate::handbook::material;
use crate::handbook::ring::{LIGHT_PULL, pressed_in};
use crate::model::inside::InsideCut;
use crate::model::plan::Why;
use crate::model::{Kind, Part};
use crate::plan::derive::Layout;
use crate::plan::rules::because;
use crate::unit::{Length, Unit, show};
use crate::{tell, told};

/// Modulus of steel in gigapascals, where the material is not known.
const STEEL: f64 = 207.0;
/// Share of a bore's band from which it is told that the jaws take it (common practice, no source).
const SHARE: f64 = 0.25;

/// A close bore under the jaws, and what they do to it.
pub(super) struct Thin {
    letter: String,
    wall: Length,
    /// How far each of three jaws moves the wall in, at a light pull.
    moved: Length,
    band: Length,
}

/// The bore that three jaws on a mounting's place would press out of round by a good part of its band; the worst of them.
pub(super) fn thin_wall(part: &Part, layout: &Layout, candidate: &Candidate) -> Option<Thin> {
    let grip = &candidate.held.grip;
    let modulus = part.material.as_ref().and_then(|m| material::find(&m.text)).map_or(STEEL, |m| m.material.modulus);
    let close = |f: usize| match part.features.get(f).map(|f| &f.kind) {
        Some(Kind::Inside(inside)) => match &inside.cut {
            InsideCut::Bore { diameter, kept: false, .. } => layout.allow.is_close(diameter),
            _ => false,
        },
        _ => false,
    };
    let pressed = layout.hollows.iter().filter(|h| close(h.feature)).filter_map(|h| {
        let (from, to) = (h.from.max(grip.from), h.to.min(grip.to));
        let bore = h.start.max.max(h.stop.max);
        let wall = (grip.diameter - bore).half();
        let band = h.start.band();
        let middle = (grip.diameter + bore).mm() / 4.0;
        let moved = pressed_in(3, LIGHT_PULL, middle, (wall.mm(), (to - from).mm()), modulus * 1000.0)?;
        let much = band.is_positive() && moved > SHARE * band.mm();
        let letter = part.features.get(h.feature).map_or_else(String::new, |f| f.letter.clone());
        much.then(|| Thin { letter, wall, moved: Length::from_f64(moved, Unit::Millimetre), band })
    });
    pressed.max_by_key(|t| t.moved)
}

impl Thin {
    /// In words, and what is done about it.
    pub(super) fn tells(&self, part: &Part, held_all_round: bool) -> Why {
        let shown = |l: Length| show::exact(l, part.units, show::usual_decimals(part.units), 4);
        let fine =
            |l: Length| show::exact(l.round_to(step(part.units)), part.units, show::usual_decimals(part.units), 4);
        let press = match part.units {
            Unit::Inch => "450 lb",
            Unit::Millimetre => "2 kN",
        };
        let done = self.done(held_all_round);
        because(
            "thin-wall",
            tell!(
                "only {} of wall under the jaws around {}, whose limits are {} apart: three jaws that press {press} each move it in by about {}: {done}",
                "nur {} Wand unter den Backen um {}, deren Grenzen {} auseinander liegen: drei Backen, die mit je {press} drücken, drücken sie um etwa {} ein: {done}",
                shown(self.wall),
                self.letter,
                shown(self.band),
                fine(self.moved)
            ),
        )
    }

    fn done(&self, held_all_round: bool) -> String {
        if held_all_round {
            told!(
                "what grips it all round spreads that; draw up no harder than the cut asks",
                "was rundum fasst, verteilt das; nicht fester spannen, als der Schnitt verlangt"
            )
            .to_owned()
        } else {
            tell!(
                "close lightly, slack off before the last cut, and gauge {} again out of the jaws",
                "leicht spannen, vor dem letzten Schnitt lösen und wieder leicht anziehen, und {} außerhalb der Backen nachmessen",
                self.letter
            )
        }
    }
}

/// No finer than a tenth, a micrometre.
const fn step(unit: Unit) -> Length {
    match unit {
        Unit::Inch => Length::inch_tenths(1),
        Unit::Millimetre => Length::micrometres(1),
    }
}
