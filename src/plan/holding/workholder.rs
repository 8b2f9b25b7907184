//! What grips the work where a chuck holds it: the three jaws, four jaws indicated, a collet of its size, soft jaws bored to it.

use super::decide::EndHolding;
use super::mountings::Candidate;
use super::need::{Need, need, room_for_the_indicator};
use super::thin_wall::thin_wall;
use crate::model::part::{Holding, StockShape};
use crate::model::plan::Unheeded;
use crate::model::{Kind, Part, Shop, Workholder};
use crate::plan::derive::{Layout, Shape};
use crate::plan::rules::because;
use crate::unit::{Length, Unit, show};
use crate::{tell, told};

/// Gives each candidate what grips it, and tells wishes that cannot be followed.
pub(super) fn equip(
    part: &Part,
    layout: &Layout,
    shop: Option<&Shop>,
    holdings: &[EndHolding; 2],
    candidates: &mut [Candidate],
) -> Vec<Unheeded> {
    let hands = Hands { part, layout, shop };
    let mut unheeded: Vec<Unheeded> = Vec::new();
    for holding in holdings {
        let wish = part.wishes.by_end.get(&holding.end).copied().or(part.wishes.by);
        let (mut heeded, mut refused) = (false, None);
        for candidate in candidates.iter_mut().filter(|c| c.end == holding.end && is_chuck(c.setup.holding)) {
            let wished = wish.map(|by| hands.wished(by, candidate));
            let (by, why) = match wished {
                Some(Ok(by)) => (by, tell!("asked for: {}", "verlangt: {}", by.chuck())),
                Some(Err(against)) => {
                    refused = refused.or(Some(against));
                    hands.usual(candidate)
                }
                None => hands.usual(candidate),
            };
            heeded |= wish.is_some_and(|w| w.is_like(by));
            hands.put(candidate, by, &why);
        }
        // Where it grips one surface and not the other, the wish is followed as far as it goes.
        if let (false, Some(against), Some(by)) = (heeded, refused, wish) {
            let told = Unheeded {
                place: part.wishes.place,
                wish: format!("holding: {}", by.chuck()),
                why: because("wish", against),
            };
            if !unheeded.contains(&told) {
                unheeded.push(told);
            }
        }
    }
    unheeded
}

const fn is_chuck(holding: Holding) -> bool {
    matches!(holding, Holding::Chuck | Holding::ChuckAndCenter | Holding::ChuckAndRest)
}

struct Hands<'a> {
    part: &'a Part,
    layout: &'a Layout,
    shop: Option<&'a Shop>,
}

impl Hands<'_> {
    /// What the person asked for, or why it cannot be had here.
    fn wished(&self, by: Workholder, candidate: &Candidate) -> Result<Workholder, String> {
        let diameter = candidate.held.grip.diameter;
        let flats = self.flats(candidate);
        match by {
            Workholder::Collet(_) | Workholder::SoftJaws if candidate.held.grip.roughed => Err(told!(
                "a collet and soft jaws close on what is to size, and here a roughed surface is held",
                "Spannzange und weiche Backen schließen auf Fertigem, und hier wird an Geschrupptem gespannt"
            )
            .to_owned()),
            Workholder::Collet(_) if flats.is_some() => {
                Err(told!("a round collet does not close on flats", "eine runde Spannzange schließt nicht auf Flächen")
                    .to_owned())
            }
            Workholder::SoftJaws if flats.is_some() => Err(told!(
                "soft jaws are bored round, and here flats are held",
                "weiche Backen sind rund ausgedreht, und hier wird an Flächen gespannt"
            )
            .to_owned()),
            Workholder::Collet(_) => self.collet(diameter).ok_or_else(|| {
                tell!(
                    "the shop file lists no collet for {}",
                    "die Werkstattdatei hat keine Spannzange für {}",
                    self.shown(diameter)
                )
            }),
            Workholder::FourJaw if self.shop.is_some_and(|s| !s.chucks.iter().any(|c| c.jaws == 4)) => {
                Err(told!("the shop file lists no 4-jaw chuck", "die Werkstattdatei hat kein Vierbackenfutter")
                    .to_owned())
            }
            Workholder::SoftJaws if self.shop.is_some_and(|s| s.soft_jaws != Some(true)) => {
                Err(told!("the shop file lists no soft jaws", "die Werkstattdatei hat keine weichen Backen").to_owned())
            }
            Workholder::SoftJaws if candidate.held.section.is_none() => Err(told!(
                "soft jaws are bored to a finished surface, and here the bar is held",
                "weiche Backen werden auf eine fertige Fläche ausgedreht, und hier wird an der Stange gespannt"
            )
            .to_owned()),
            by => Ok(by),
        }
    }

    /// What the trade takes, and why.
    fn usual(&self, candidate: &Candidate) -> (Workholder, String) {
        let (usual, grip) = ((Workholder::Usual, String::new()), &candidate.held.grip);
        let on_bar = candidate.held.section.is_none() || grip.roughed;
        let flats = self.flats(candidate);
        if flats == Some(StockShape::Square) {
            return (
                Workholder::FourJaw,
                told!(
                    "three jaws do not close on square bar: four, each brought up by itself",
                    "drei Backen schließen nicht auf Vierkant: vier, jede für sich angestellt"
                )
                .to_owned(),
            );
        }
        if let Some(why) = self.too_large_for_three(grip.diameter) {
            return (Workholder::FourJaw, why);
        }
        if flats.is_none() && !on_bar {
            let need = need(self.part, self.layout, candidate);
            let collet = self.collet(grip.diameter).filter(|_| !candidate.held.poor);
            if let Some(by) = self.all_round(candidate, collet, need.as_ref()) {
                return by;
            }
            if let Some(need) = &need {
                return self.truest(candidate, collet, need);
            }
            if let Some(collet) = collet
                && self.marks_matter(candidate)
            {
                return (
                    collet,
                    tell!(
                        "the collet closes on {} all round and leaves no mark on it",
                        "die Spannzange schließt rundum auf {} und lässt keine Spuren",
                        grip.letter
                    ),
                );
            }
        }
        usual
    }

    /// What grips a thin wall, or short work, all round: of what is true enough a collet, else soft jaws.
    fn all_round(
        &self,
        candidate: &Candidate,
        collet: Option<Workholder>,
        need: Option<&Need>,
    ) -> Option<(Workholder, String)> {
        let letter = &candidate.held.grip.letter;
        let soft = self.shop.is_some_and(|s| s.soft_jaws == Some(true)).then_some(Workholder::SoftJaws);
        let holds = |by: &Workholder| need.is_none_or(|n| self.truth(*by, n.within).is_some_and(|t| t <= n.within));
        if thin_wall(self.part, self.layout, candidate).is_some() {
            let by = collet.filter(holds).or(soft.filter(holds))?;
            return Some((by, format!("{letter} has a thin wall around a close bore: held all round")));
        }
        let seat =
            soft.filter(|_| self.layout.is_short() && need.is_none() && candidate.setup.holding == Holding::Chuck)?;
        Some((seat, format!("soft jaws bored to {letter}, with a step for its face, seat short work square")))
    }

    /// The shape of the bar where its flats are held.
    fn flats(&self, candidate: &Candidate) -> Option<StockShape> {
        let kept = |f: usize| self.layout.section(f).is_some_and(|s| s.shape == Shape::Kept);
        let shape = self.part.stock.as_ref()?.shape;
        (shape.has_corners() && candidate.held.section.is_none_or(kept)).then_some(shape)
    }

    /// What holds a finished surface true enough for what is cut next.
    fn truest(&self, candidate: &Candidate, collet: Option<Workholder>, need: &Need) -> (Workholder, String) {
        let letter = &candidate.held.grip.letter;
        let asked = tell!(
            "{} must run true to {} within {}",
            "{} muss zu {} auf {} laufen",
            need.one,
            need.other,
            self.shown(need.within)
        );
        if let Some(collet) = collet.filter(|c| self.truth(*c, need.within).is_some_and(|t| t <= need.within)) {
            return (
                collet,
                tell!(
                    "{asked}: the collet closes on {letter} true",
                    "{asked}: die Spannzange spannt {letter} rund laufend"
                ),
            );
        }
        let jaws = self.three_jaw_runout();
        if jaws.is_some_and(|r| r <= need.within) {
            return (Workholder::Usual, String::new());
        }
        if self.shop.is_some_and(|s| s.soft_jaws == Some(true)) && need.within >= self.pick(500, 10) {
            return (
                Workholder::SoftJaws,
                tell!(
                    "{asked}: soft jaws bored in place to the size of {letter}",
                    "{asked}: weiche Backen, an Ort und Stelle auf das Maß von {letter} ausgedreht"
                ),
            );
        }
        if self.shop.is_some_and(|s| s.chucks.iter().any(|c| c.jaws == 4)) {
            return (
                Workholder::FourJaw,
                tell!(
                    "{asked}: a scroll chuck does not repeat, so {} is indicated",
                    "{asked}: ein Planspiralfutter wiederholt das nicht, darum wird {} ausgerichtet",
                    need.indicated(self.layout, candidate)
                ),
            );
        }
        (Workholder::Usual, String::new())
    }

    /// A finished seat, a close size or a stated finish is not to be marked.
    fn marks_matter(&self, candidate: &Candidate) -> bool {
        let section = candidate.held.section.and_then(|f| self.layout.section(f));
        section.is_some_and(|s| {
            let feature = self.part.features.get(s.feature);
            s.close
                || s.seat
                || feature.is_some_and(|f| f.finish.is_some())
                || matches!(feature.map(|f| &f.kind), Some(Kind::Turn { kept: true, .. }))
        })
    }

    fn too_large_for_three(&self, diameter: Length) -> Option<String> {
        let chucks = &self.shop?.chucks;
        let takes = |jaws: u32| {
            let mut those = chucks.iter().filter(|c| c.jaws == jaws).peekable();
            those.peek()?;
            Some(those.any(|c| c.largest.is_none_or(|most| diameter <= most)))
        };
        match (takes(3), takes(4)) {
            (None, Some(true)) => {
                Some(told!("the shop has no 3-jaw chuck", "die Werkstatt hat kein Dreibackenfutter").to_owned())
            }
            (Some(false), Some(true)) => Some(tell!(
                "{} is more than the 3-jaw chuck takes",
                "{} ist mehr, als das Dreibackenfutter fasst",
                self.shown(diameter)
            )),
            _ => None,
        }
    }

    /// The collet that closes on a diameter: its own size, or a little less (5C practice, no source: .005 in under, .001 over).
    fn collet(&self, diameter: Length) -> Option<Workholder> {
        let (under, over) = (self.pick(5_000, 100), self.pick(1_000, 20));
        let fits = |size: &&Length| diameter <= **size + over && diameter >= **size - under;
        self.shop?.collets.iter().filter(fits).min_by_key(|s| (**s - diameter).abs()).map(|s| Workholder::Collet(*s))
    }

    fn three_jaw_runout(&self) -> Option<Length> {
        self.shop?.chucks.iter().find(|c| c.jaws != 4).and_then(|c| c.runout)
    }

    /// Runout against the surface held. Collet and soft jaws: common practice; soft jaws measured under .01 mm by a model engineer
    /// (homews.co.uk, soft jaws). Four jaws: as they are indicated, half of what is asked.
    fn truth(&self, by: Workholder, within: Length) -> Option<Length> {
        match by {
            Workholder::Usual => self.three_jaw_runout(),
            Workholder::Collet(_) => Some(self.shop.and_then(|s| s.collet_runout).unwrap_or(self.pick(1_000, 20))),
            Workholder::SoftJaws => Some(self.pick(500, 10)),
            Workholder::FourJaw => Some(within.half().max(self.pick(500, 10)).min(within)),
            _ => None,
        }
    }

    /// Puts it into the mounting: name, reason, what lies under the jaws.
    fn put(&self, candidate: &mut Candidate, by: Workholder, why: &str) {
        let finished = candidate.held.section.filter(|_| !candidate.held.grip.roughed);
        let need = finished.and_then(|_| need(self.part, self.layout, candidate));
        candidate.setup.runs_true = need.as_ref().and_then(|n| self.truth(by, n.within));
        if need.is_some_and(|n| n.inside) && by == Workholder::FourJaw {
            room_for_the_indicator(self.part, self.layout, candidate);
        }
        let thin = thin_wall(self.part, self.layout, candidate);
        candidate.setup.why.extend(thin.map(|t| t.tells(self.part, by.spares())));
        if by == Workholder::Usual {
            return;
        }
        let setup = &mut candidate.setup;
        setup.by = by;
        setup.name = setup.name.replacen("chuck", by.chuck(), 1);
        setup.why.insert(0, because("workholder", why));
        if by.spares() {
            candidate.held.grip.protect = false;
            if let Some(grip) = &mut setup.grip {
                grip.protect = false;
            }
            // No copper: the reason says so already.
            setup.why.retain(|w| w.rule != "R25");
        }
        if candidate.held.poor && by == Workholder::SoftJaws {
            setup.why.retain(|w| w.rule != "grip-short");
        }
    }

    fn pick(&self, micro_inches: i64, micrometres: i64) -> Length {
        match self.part.units {
            Unit::Inch => Length::micro_inches(micro_inches),
            Unit::Millimetre => Length::micrometres(micrometres),
        }
    }

    fn shown(&self, length: Length) -> String {
        show::exact(length, self.part.units, show::usual_decimals(self.part.units), 4)
    }
}
