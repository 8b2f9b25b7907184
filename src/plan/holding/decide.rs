//! Which holdings may turn an end, and whether it gets a center hole.

use crate::language::Message;
use crate::model::feature::Kind;
use crate::model::part::Holding;
use crate::model::plan::{Operation, Unheeded, Verb, Why};
use crate::model::{End, Feature, Part, Shop};
use crate::plan::derive::{Layout, is_open};
use crate::plan::precede::Switches;
use crate::plan::rules::because;
use crate::unit::{Length, Unit};

use super::grip::{Lengths, wanted_out};
use super::mandrel::bored;
use super::set_over::over;
use super::why::{OUT_OF_JAWS, wants_a_center};
use crate::{tell, told};

/// Diameters that may stand out of the jaws without a center.
pub(in crate::plan) const OVERHANG_DIAMETERS: i64 = 3;

/// What may hold an end by itself, without a center.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::plan) enum Alone {
    /// The chuck, where it reaches.
    Chuck,
    /// Nothing: it was tried and something could not be reached.
    Nothing,
}

/// What one end may be held by.
#[derive(Debug, Clone)]
pub(in crate::plan) struct EndHolding {
    /// The end at the tailstock.
    pub(in crate::plan) end: End,
    /// Holdings that may turn it, preferred first.
    pub(in crate::plan) turning: Vec<Holding>,
    /// Whether it gets a center hole.
    pub(in crate::plan) centered: bool,
    /// How deep its turning reaches from the face.
    pub(in crate::plan) depth: Length,
    /// Whether a steady rest is at hand for the bar, and may carry it while it is turned.
    pub(in crate::plan) steady: bool,
    /// Whether one is at hand at all.
    pub(in crate::plan) has_steady: bool,
    /// How far the bar stands out when the chuck alone turns it: so deep, with what either end may take where that fits.
    pub(in crate::plan) reach: Length,
    /// Why these holdings.
    pub(in crate::plan) why: Why,
}

/// Decides for both ends; the datum end first.
pub(in crate::plan) fn decide(
    part: &Part,
    layout: &Layout,
    operations: &[Operation],
    shop: Option<&Shop>,
    switches: &Switches,
    alone: Alone,
) -> ([EndHolding; 2], Vec<Unheeded>) {
    let mut unheeded = Vec::new();
    let lengths = Lengths::of(layout, shop);
    let across = switches.on("R18").then(|| true_across(part, layout)).flatten();
    let free = |end| !is_forbidden(part, end) && !is_bare_tube(layout, end);
    let both_free = free(End::Datum) && free(End::Far) && layout.parted.is_none();
    let fits = |end: End, depth: Length| {
        let lengths = lengths.at_end(layout, Some(end));
        let out = wanted_out(&lengths, depth);
        out <= layout.bar.times(OVERHANG_DIAMETERS) && out + lengths.least_grip(layout.bar) <= layout.sawn
    };
    let depths = [End::Datum, End::Far].map(|end| depth(layout, operations, end, lengths.parted_at(layout)));
    let takes = takes_the_middle(depths, fits);
    let bored = bored(part, layout, shop).is_some();
    // A taper that only the tailstock set over can cut wants a center in both ends.
    let set_over = both_free
        && operations
            .iter()
            .any(|o| o.verb == Verb::Taper && !o.inside && over(part, layout, shop, o).is_some_and(|(_, only)| only));
    let mut decided = [End::Datum, End::Far].map(|end| {
        let (own, all) = depths[usize::from(end == End::Far)];
        let depth = if takes == Some(end) { all } else { own };
        let in_chuck = alone == Alone::Chuck && fits(end, depth);
        let has_steady = has_steady(shop, layout.bar);
        let steady = has_steady && layout.parted.is_none();
        let question = Question { part, end, in_chuck, alone, center: free(end), both: both_free, steady, bored };
        let turning = match question.wished(&mut unheeded) {
            Some(wished) => (vec![wished], because("wish", tell!("asked for: {}", "verlangt: {}", wished.word()))),
            None => question.usual(layout, depth, across.as_ref()),
        };
        let reach = if fits(end, all) { all } else { depth };
        let steady = steady && (switches.on("R17") || turning.0 == [Holding::ChuckAndRest]);
        EndHolding { end, turning: turning.0, centered: false, depth, steady, has_steady, reach, why: turning.1 }
    });
    settle_centers(part, layout, &mut decided, set_over);
    (decided, unheeded)
}

/// What is known of an end when its holding is asked.
#[expect(clippy::struct_excessive_bools, reason = "each is a plain fact about one end")]
struct Question<'a> {
    part: &'a Part,
    end: End,
    in_chuck: bool,
    alone: Alone,
    center: bool,
    both: bool,
    steady: bool,
    bored: bool,
}

impl Question<'_> {
    /// The holding the person wants, where it can be had.
    fn wished(&self, unheeded: &mut Vec<Unheeded>) -> Option<Holding> {
        let wishes = &self.part.wishes;
        let wish = wishes.holding_by_end.get(&self.end).copied().or(wishes.holding)?;
        let against = match wish {
            Holding::Chuck if !self.in_chuck => Some(because(
                "overhang",
                tell!(
                    "the {} end would stand more than three diameters out of the jaws",
                    "das {}ende stünde mehr als drei Durchmesser aus den Backen",
                    self.end.said()
                ),
            )),
            Holding::ChuckAndCenter if !self.center => Some(because(
                "center-missing",
                tell!(
                    "the drawing forbids a center hole in the {} end",
                    "die Zeichnung verbietet eine Zentrierung im {}ende",
                    self.end.said()
                ),
            )),
            Holding::ChuckAndRest if !self.steady => Some(because(
                "R15",
                told!("there is no steady rest for this bar", "es gibt keine Lünette für diese Stange"),
            )),
            Holding::BetweenCenters if self.part.wishes.part_off => Some(because(
                "R23",
                told!(
                    "what is parted off is not between centers",
                    "was abgestochen wird, steht nicht zwischen Spitzen"
                ),
            )),
            Holding::BetweenCenters if !self.both => Some(because(
                "center-missing",
                told!(
                    "the drawing forbids a center hole in one of the ends",
                    "die Zeichnung verbietet eine Zentrierung in einem der Enden"
                ),
            )),
            Holding::Mandrel if !self.bored => Some(because(
                "mandrel",
                told!(
                    "no bore runs through that a mandrel of the shop file goes into",
                    "keine Bohrung geht durch, in die ein Drehdorn der Werkstattdatei passt"
                ),
            )),
            Holding::Mill | Holding::Bench => {
                Some(because("wish", told!("turning is done on the lathe", "gedreht wird auf der Drehmaschine")))
            }
            _ => None,
        };
        match against {
            None => Some(wish),
            Some(why) => {
                let wish = format!("holding: {}", wish.word());
                let told = Unheeded { place: wishes.place, wish, why };
                if !unheeded.contains(&told) {
                    unheeded.push(told);
                }
                None
            }
        }
    }

    /// What the trade would take, preferred first.
    fn usual(&self, layout: &Layout, depth: Length, across: Option<&(String, String)>) -> (Vec<Holding>, Why) {
        if !depth.is_positive() {
            return (
                vec![Holding::Chuck],
                because(
                    "R1",
                    told!("this end is only faced and centered", "dieses Ende wird nur plangedreht und zentriert"),
                ),
            );
        }
        if let Some((one, other)) = across
            && self.both
        {
            let reason = tell!(
                "{one} and {other} must run true to each other and lie on both sides of the largest section",
                "{one} und {other} müssen zueinander laufen und liegen zu beiden Seiten des größten Durchmessers"
            );
            return (vec![Holding::BetweenCenters], because("R18", reason));
        }
        let rests = self.steady && !self.center && !self.part.wishes.is_off("R17");
        let mut list = Vec::new();
        if self.in_chuck {
            list.push(Holding::Chuck);
        }
        if self.center {
            list.push(Holding::ChuckAndCenter);
        }
        if self.both {
            list.push(Holding::BetweenCenters);
        }
        if rests {
            list.push(Holding::ChuckAndRest);
        }
        if !list.contains(&Holding::Chuck) && (list.is_empty() || !self.center) {
            // Where nothing else reaches, the checks say what is wrong with it.
            list.push(Holding::Chuck);
        }
        let diameters = depth.to_f64(Unit::Millimetre) / layout.bar.to_f64(Unit::Millimetre).max(f64::MIN_POSITIVE);
        if self.alone == Alone::Nothing && self.center {
            let reason = told!(
                "the chuck alone would cut under its jaws or too far from them: a center carries the end",
                "das Futter allein schnitte unter den Backen oder zu weit davon: eine Spitze trägt das Ende"
            );
            return (list, because("overhang", reason));
        }
        let out = OUT_OF_JAWS.say();
        let reason = if self.in_chuck {
            format!("{diameters:.1}{out}: {}", NO_CENTER.say())
        } else if rests {
            tell!(
                "{diameters:.1}{out}, and the drawing allows no center: a steady rest carries it",
                "{diameters:.1}{out}, und die Zeichnung erlaubt keine Zentrierung: eine Lünette trägt es"
            )
        } else if !self.center {
            tell!(
                "{diameters:.1}{out}, and neither a center nor a steady rest carries it",
                "{diameters:.1}{out}, und weder Spitze noch Lünette trägt es"
            )
        } else if diameters <= OVERHANG_DIAMETERS as f64 {
            told!("the bar is too short to stand out so far and be gripped behind: a center carries the end", "die Stange ist zu kurz, um so weit herauszustehen und dahinter gespannt zu werden: eine Spitze trägt das Ende").to_owned()
        } else {
            wants_a_center(diameters)
        };
        (list, because("overhang", reason))
    }
}

/// What the chuck alone carries.
pub(super) const NO_CENTER: Message = Message { english: "no center is needed", german: "es braucht keine Spitze" };

/// Which ends get a center hole: those that ask for one, and those that a holding needs.
fn settle_centers(part: &Part, layout: &Layout, decided: &mut [EndHolding; 2], set_over: bool) {
    let chuck = |h: &EndHolding| !set_over && (h.turning.contains(&Holding::Chuck) || h.turning == [Holding::Mandrel]);
    let only_between = |h: &EndHolding| h.turning == [Holding::BetweenCenters];
    let needed = [!chuck(&decided[0]) || only_between(&decided[1]), !chuck(&decided[1]) || only_between(&decided[0])];
    for (holding, needed) in decided.iter_mut().zip(needed) {
        let can = !is_forbidden(part, holding.end) && !is_bare_tube(layout, holding.end);
        holding.centered = can && (needed || is_asked(part, holding.end));
    }
    let centered = [decided[0].centered, decided[1].centered];
    for (holding, mine) in decided.iter_mut().zip(centered) {
        holding.turning.retain(|h| match h {
            Holding::ChuckAndCenter => mine,
            Holding::BetweenCenters => centered[0] && centered[1],
            _ => true,
        });
        if holding.turning.is_empty() {
            holding.turning.push(Holding::Chuck);
        }
    }
}

/// A tube without a seat in its mouth has nothing a center could bear on.
fn is_bare_tube(layout: &Layout, end: End) -> bool {
    layout.tube.is_some() && is_open(layout, end)
}

fn is_asked(part: &Part, end: End) -> bool {
    part.features.iter().any(|f| matches!(&f.kind, Kind::CenterHole { size: Some(_), ends } if ends.at(end)))
}

/// Whether the shop has a steady rest that takes the bar; without a shop file one is taken to be there.
fn has_steady(shop: Option<&Shop>, bar: Length) -> bool {
    let takes = |range: &Option<(Length, Length)>| range.is_none_or(|(least, most)| least <= bar && bar <= most);
    shop.is_none_or(|s| s.rests.iter().any(|(kind, range)| kind == "steady" && takes(range)))
}

/// Whether the drawing forbids a center hole in an end.
pub(super) fn is_forbidden(part: &Part, end: End) -> bool {
    part.features.iter().any(|f| matches!(&f.kind, Kind::CenterHole { size: None, ends } if ends.at(end)))
}

/// Two sections on different sides that must run true to each other, by how a sentence speaks of them.
fn true_across(part: &Part, layout: &Layout) -> Option<(String, String)> {
    let called = |feature: usize| part.features.get(feature).map_or_else(String::new, Feature::called);
    let stated = part.features.iter().find_map(|f| {
        let other = f.true_to.as_ref()?.feature;
        let (a, b) = (layout.section(f.id)?, layout.section(other)?);
        (a.end != b.end && a.is_turned() && b.is_turned()).then(|| (called(f.id), called(other)))
    });
    stated.or_else(|| {
        let seat = |end| layout.sections.iter().find(|s| s.seat && s.is_turned() && s.end == Some(end));
        Some((called(seat(End::Datum)?.feature), called(seat(End::Far)?.feature)))
    })
}

/// Where neither end has turning of its own but something between them has, the end it is turned from: the one the chuck
/// alone reaches from.
fn takes_the_middle(depths: [(Length, Length); 2], fits: impl Fn(End, Length) -> bool) -> Option<End> {
    let [(datum, datum_all), (far, far_all)] = depths;
    if datum.is_positive() || far.is_positive() || !datum_all.is_positive() {
        return None;
    }
    Some(if !fits(End::Datum, datum_all) && fits(End::Far, far_all) { End::Far } else { End::Datum })
}

/// How deep the turning of an end reaches from its face, parting off counted: its own, and with what either end may take.
fn depth(layout: &Layout, operations: &[Operation], end: End, parted_at: Length) -> (Length, Length) {
    let deepest = |wanted: &dyn Fn(Option<End>) -> bool| {
        let places = operations.iter().filter(|o| wanted(o.end)).flat_map(|o| [o.from, o.to]).flatten();
        places.map(|at| layout.depth(end, at)).max().unwrap_or(Length::ZERO)
    };
    let parted = if layout.parted == Some(end) { parted_at } else { Length::ZERO };
    let own = deepest(&|e| e == Some(end)).max(parted);
    (own, deepest(&|e| e.is_none()).max(own))
}
