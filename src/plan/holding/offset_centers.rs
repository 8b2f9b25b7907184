//! Between second center holes, as far off the first as the eccentric: long shafts, which no chuck holds thrown over so far out.

use super::decide::is_forbidden;
use super::grip::{Lengths, held_on};
use super::mountings::{Candidate, Candidates};
use super::surfaces::demerits;
use super::thrown::{Throw, Way};
use crate::check::shape::nominal_at;
use crate::handbook::center::{self, CenterHole, Form};
use crate::handbook::eccentric;
use crate::model::feature::EdgeAt;
use crate::model::part::Holding;
use crate::model::plan::{DatumEnd, Operation, Setup, Verb, Zero};
use crate::model::shop::ToolKind;
use crate::model::{End, Kind, Part, Shop, Workholder};
use crate::plan::derive::{Layout, Shape, is_open};
use crate::plan::rules::because;
use crate::unit::{Length, Unit, show};
use crate::{tell, told};

/// Diameters of the bar from which a shaft is turned between second centers rather than thrown over in a chuck (common practice, no source).
const LONG: i64 = 4;

/// Whether a part is long enough for second centers to be the trade's way.
pub(super) fn is_long(layout: &Layout) -> bool {
    layout.overall > layout.bar.times(LONG)
}

/// Why a second center hole has no room in an end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoRoom {
    /// The drawing forbids a center hole there.
    Forbidden,
    /// The end is bored.
    Bored,
    /// The two holes would run into each other: the throw is less than this.
    Apart(Length),
    /// It would break out of the face, which is so large and had to be this.
    Face(Length, Length),
}

impl NoRoom {
    /// In words, of an end.
    pub fn says(self, end: End, unit: Unit) -> String {
        let shown = |l| show::exact(l, unit, show::usual_decimals(unit), 4);
        let end = end.said();
        match self {
            Self::Forbidden => tell!(
                "the drawing forbids a center hole in the {end} end",
                "die Zeichnung verbietet eine Zentrierung im {end}ende"
            ),
            Self::Bored => tell!(
                "the {end} end is bored, with nothing for a second center to bear on",
                "das {end}ende ist ausgebohrt, eine zweite Spitze hätte nichts zum Tragen"
            ),
            Self::Apart(least) => tell!(
                "two center holes in the {end} end would run into each other: the smallest drill for this work wants them {} apart",
                "zwei Zentrierungen im {end}ende liefen ineinander: der kleinste Bohrer für diese Arbeit will sie {} auseinander",
                shown(least)
            ),
            Self::Face(face, least) => tell!(
                "the {end} end's face of {} is too small for a second center hole: it wants {}, or an end piece that large left on the bar and cut off afterwards",
                "die Planfläche am {end}ende mit {} ist für eine zweite Zentrierung zu klein: sie braucht {}, oder ein so großes Endstück, das an der Stange bleibt und danach abgeschnitten wird",
                shown(face),
                shown(least)
            ),
        }
    }
}

/// A second center hole, and the metal around it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SecondCenter {
    /// The hole.
    pub hole: CenterHole,
    /// Between its mouth and the first hole's.
    pub between: Length,
    /// Between its mouth and the edge of the face.
    pub outside: Length,
}

/// The second center hole of an end, `throw` off the first: the largest drill that leaves metal between the holes and to the edge, no larger
/// than is usual for the end and no smaller than half of that; of the shop's center drills, where it lists any.
///
/// # Errors
/// [`NoRoom`], with the sizes of the smallest of those drills.
pub fn second_center(part: &Part, shop: Option<&Shop>, end: End, throw: Length) -> Result<SecondCenter, NoRoom> {
    if is_forbidden(part, end) {
        return Err(NoRoom::Forbidden);
    }
    let across = across(part, end).unwrap_or_default();
    let face = across - chamfer(part, end).times(2);
    let Some((usual, own)) = center::usual(across, part.units).zip(usual_center(part, shop, end)) else {
        return Err(NoRoom::Face(face, across));
    };
    let first = stated_mouth(part, end).unwrap_or(own.1.mouth_diameter);
    let mut drills = drills(part, shop);
    drills.retain(|c| c.drill_diameter <= usual.drill_diameter && c.drill_diameter.times(2) >= usual.drill_diameter);
    drills.sort_by_key(|c| -c.drill_diameter.pm());
    let room = |c: &CenterHole| {
        let (apart, least) =
            (eccentric::least_apart(first, c.mouth_diameter), eccentric::least_face(throw, c.mouth_diameter));
        if throw < apart {
            Err(NoRoom::Apart(apart))
        } else if face < least {
            Err(NoRoom::Face(face, least))
        } else {
            Ok(())
        }
    };
    match drills.iter().find(|c| room(c).is_ok()) {
        Some(hole) => Ok(SecondCenter {
            between: throw - (first + hole.mouth_diameter).half(),
            outside: (face - hole.mouth_diameter).half() - throw,
            hole: hole.clone(),
        }),
        None => Err(drills.last().map_or(NoRoom::Face(face, across), |c| room(c).err().unwrap_or(NoRoom::Bored))),
    }
}

/// Diameter of an end, as drawn.
fn across(part: &Part, end: End) -> Option<Length> {
    let section = match end {
        End::Datum => part.sections().next(),
        End::Far => part.sections().next_back(),
    }?;
    Some(nominal_at(section, end))
}

/// The center hole of an end where the drawing says no size, and the diameter it is usual for: of the shop's center drills the nearest to the
/// usual whose mouth is no more than half of the diameter, else the usual itself.
pub fn usual_center(part: &Part, shop: Option<&Shop>, end: End) -> Option<(Length, CenterHole)> {
    let across = across(part, end)?;
    let usual = center::usual(across, part.units)?;
    let fits = of_shop(shop).filter(|c| c.thread.is_none() && c.mouth_diameter.times(2) <= across);
    let hole = fits.min_by_key(|c| (c.drill_diameter - usual.drill_diameter).abs()).unwrap_or(usual);
    Some((across, hole))
}

/// The shop's center drills.
fn of_shop(shop: Option<&Shop>) -> impl Iterator<Item = CenterHole> {
    let tools = shop.into_iter().flat_map(|s| s.tools_of(ToolKind::CenterDrill));
    let sizes = tools.filter_map(|t| t.size.clone().or_else(|| t.number.as_ref().map(|n| format!("No. {n}"))));
    sizes.filter_map(|s| center::find(&s).ok())
}

/// Center drills to choose from.
pub(super) fn drills(part: &Part, shop: Option<&Shop>) -> Vec<CenterHole> {
    let plain = |c: &CenterHole| matches!(c.form, Form::A | Form::Plain) && c.thread.is_none();
    let own: Vec<CenterHole> = of_shop(shop).filter(plain).collect();
    if !own.is_empty() {
        return own;
    }
    let listed = center::designations().into_iter().filter_map(|d| center::find(&d).ok());
    let ours = |c: &CenterHole| (c.form == Form::Plain) == (part.units == Unit::Inch);
    listed.filter(|c| plain(c) && ours(c)).collect()
}

/// Mouth of the first center hole, where the drawing sizes it.
fn stated_mouth(part: &Part, end: End) -> Option<Length> {
    part.features.iter().find_map(|f| match &f.kind {
        Kind::CenterHole { size: Some(size), ends } if ends.at(end) => Some(size.mouth),
        _ => None,
    })
}

/// What a chamfer takes off the radius of an end's face.
fn chamfer(part: &Part, end: End) -> Length {
    let legs = part.features.iter().filter_map(|f| match &f.kind {
        Kind::Chamfer { leg, angle_mdeg, at: EdgeAt::End(at) } if *at == end => {
            let slope = (*angle_mdeg as f64 / 1000.0).to_radians().tan();
            Some(Length::from_f64(leg.nominal.mm() * slope, Unit::Millimetre))
        }
        _ => None,
    });
    legs.max().unwrap_or_default()
}

/// Whether both ends have room for second centers.
pub(super) fn have_room(part: &Part, layout: &Layout, shop: Option<&Shop>, throw: Length) -> Result<(), String> {
    for end in [End::Datum, End::Far] {
        if is_open(layout, end) || layout.tube.is_some() {
            return Err(NoRoom::Bored.says(end, part.units));
        }
        second_center(part, shop, end, throw).map_err(|no| no.says(end, part.units))?;
    }
    Ok(())
}

/// Ways to drive the work while an eccentric is turned: a dog on a finished section, either end at the tailstock.
pub(super) fn ways(part: &Part, layout: &Layout, lengths: &Lengths, feature: usize) -> Vec<Way> {
    let mut list = Vec::new();
    for end in [End::Datum, End::Far] {
        let sound = layout.sections.iter().filter(|s| {
            matches!(s.shape, Shape::Cylinder | Shape::Kept) && !s.thrown && !s.whole && s.feature != feature
        });
        for section in sound {
            let Some(held) = held_on(lengths, end, Holding::BetweenCenters, section) else { continue };
            let far = layout.depth(end, section.inner(end));
            let beyond = layout.overall - far;
            let rank = (beyond > lengths.tail, held.poor, demerits(part, layout, end, section), beyond);
            let way = Way { end, held, rank };
            if way.frees(layout, feature) {
                list.push(way);
            }
        }
    }
    list
}

/// Laying out and drilling both second centers of an eccentric.
pub(in crate::plan) fn drilled(part: &Part, layout: &Layout, throw: &Throw) -> Vec<Operation> {
    [End::Datum, End::Far]
        .into_iter()
        .map(|end| {
            let mut center =
                crate::plan::derive::fresh_with(part, Verb::Center, throw.feature, Some(end), ToolKind::CenterDrill);
            center.id = format!("{}-{}-second", center.id, end.word());
            center.throw = Some(throw.off);
            center.from = Some(layout.face(end));
            center
        })
        .collect()
}

/// The mounting between second centers.
pub(super) fn mounting(part: &Part, layout: &Layout, throw: &Throw, index: usize) -> Candidate {
    let (end, held) = (throw.end, throw.held.clone());
    let shown = |l| show::exact(l, part.units, show::usual_decimals(part.units), 4);
    let letter = held.grip.letter.clone();
    let called = part.features.get(throw.feature).map_or_else(String::new, |f| f.letter.clone());
    let datum_end = if end == End::Datum { DatumEnd::Tailstock } else { DatumEnd::Headstock };
    let name = format!(
        "between second centers {}{}, datum end at {}, dog on {letter}",
        shown(throw.off),
        throw.at(),
        datum_end.word()
    );
    let why = vec![
        because(
            "offset-centers",
            tell!(
                "the axis of {called} lies {} off the part's, and the part is {:.1} diameters long: second centers carry both its ends on that axis",
                "die Achse von {called} liegt {} neben der des Teils, und das Teil ist {:.1} Durchmesser lang: zweite Zentrierungen tragen beide Enden auf dieser Achse",
                shown(throw.off),
                layout.overall.mm() / layout.bar.mm().max(f64::MIN_POSITIVE)
            ),
        ),
        because(
            "R25",
            tell!(
                "dog on {letter}, over copper: its surface is finished",
                "Drehherz auf {letter}, über Kupfer: die Oberfläche ist fertig"
            ),
        ),
    ];
    let setup = Setup {
        number: 0,
        name,
        holding: Holding::BetweenCenters,
        by: throw.by,
        runs_true: None,
        datum_end,
        works: Some(end),
        grip: Some(held.grip.clone()),
        also: None,
        rest: None,
        stick_out: None,
        zero: if end == End::Datum { Zero::DatumFace } else { Zero::FarFace },
        operations: Vec::new(),
        why,
        before: Vec::new(),
        slow: None,
        after: Vec::new(),
    };
    Candidate {
        setup,
        end,
        held,
        track: None,
        turns: true,
        overhangs: false,
        drills: false,
        parts: false,
        tapers: false,
        throws: Some(index),
    }
}

/// The surface plate and the drill press, where second centers are laid out; and what is turned between them waits for them.
pub(super) fn laid_out(operations: &[Operation], throws: &[Throw], on_lathe: &[Candidate], result: &mut Candidates) {
    let seconds: Vec<usize> = (0..operations.len()).filter(|i| operations[*i].is_second_center()).collect();
    if seconds.is_empty() {
        return;
    }
    for (m, candidate) in on_lathe.iter().enumerate() {
        for i in &seconds {
            if operations[*i].feature.is_some_and(|f| super::thrown::serves(throws, candidate, f)) {
                let reason = "both second centers are drilled before the work runs on them";
                result.needs.push((m, *i, because("offset-centers", reason)));
            }
        }
    }
    let why = because(
        "offset-centers",
        told!(
            "laid out from the finished seats in V-blocks, both ends without moving the part: the second centers lie in one line",
            "von den fertigen Sitzen in Prismen angerissen, beide Enden ohne das Teil zu bewegen: die zweiten Zentrierungen liegen in einer Linie"
        ),
    );
    let m = result.mountings.len();
    let mut setup = super::milled::bare(Holding::Mill, why);
    setup.by = Workholder::VBlocks;
    setup.name = setup.held();
    result.mountings.push(setup);
    for i in seconds {
        result.allowed[i].push(m);
    }
}
