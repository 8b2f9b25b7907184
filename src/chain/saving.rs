//! What saves a part whose lengths came out wrong, and the least that its drawing would have to give. The one answer that the checks
//! `measured-out` and `measured-clash`, the plan of the rest and the inspection print.

use super::replan::{Now, Replan, Stated, replan, stated};
use super::standing::{Standing, looks};
use super::{Chain, Profile};
use crate::model::{Kind, Part, Shop};
use crate::unit::{Length, Limits, show};

/// Faces cut again at most; beyond, the part is as good as made anew.
const MOST_AGAIN: usize = 3;

/// What the lengths come to.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Saving {
    /// Where everything goes, what is cut again, what the drawing gives.
    pub found: Replan,
    /// The faces as they are.
    pub nows: Vec<Now>,
    /// Stated lengths between them.
    pub stated: Vec<Stated>,
    /// The link of the chain that states each; none where two names are one face.
    pub links: Vec<Option<usize>>,
    /// Faces to measure first: were they as drawn, the datum face cut again would save everything.
    pub measure: Vec<usize>,
    /// So many faces that are done, all cut again, would meet the drawing; that many are not proposed.
    pub instead: Option<usize>,
}

/// A limit of a length that has to give.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Concession {
    /// The stated length, a link of the chain.
    pub link: usize,
    /// Limits as drawn.
    pub drawn: Limits,
    /// Limits it would have to have.
    pub to: Limits,
}

impl Saving {
    /// Of faces as they are now; none when the question makes no sense. `from_far` was read from a far face that was not itself read:
    /// such a face is counted from the drawing's overall, and where that clashes it is asked whether another overall clashes less.
    ///
    /// The datum face moves every length: it is cut again only where all faces that stand were read.
    pub fn of(part: &Part, drawn: &Chain, mut nows: Vec<Now>, from_far: &[(usize, Length)]) -> Option<Self> {
        let milled = not_recut(part, drawn);
        let unread = |f: &usize| {
            let now = &nows[*f];
            now.at.is_none() && !now.open && now.drawn.is_some() && !milled.contains(f)
        };
        let measure: Vec<usize> = (1..nows.len()).filter(unread).collect();
        if measure.is_empty() || !nows[0].again {
            return Self::as_given(part, drawn, nows, from_far);
        }
        let recut = Self::as_given(part, drawn, nows.clone(), from_far);
        nows[0].again = false;
        let found = Self::as_given(part, drawn, nows, from_far)?;
        let helps = !found.found.gives.is_empty() && recut.is_some_and(|r| r.found.gives.is_empty());
        Some(Self { measure: if helps { measure } else { Vec::new() }, ..found })
    }

    fn as_given(part: &Part, drawn: &Chain, nows: Vec<Now>, from_far: &[(usize, Length)]) -> Option<Self> {
        let (stated, links) = stated(drawn);
        let counted = Self::among(part, nows, (stated, links))?;
        let tied: Vec<_> = from_far.iter().filter(|(f, _)| !counted.nows[*f].open).collect();
        if counted.found.gives.is_empty() || tied.is_empty() || counted.nows[drawn.far].open {
            return Some(counted);
        }
        let (mut stated, mut links, mut free) = (counted.stated.clone(), counted.links.clone(), counted.nows.clone());
        for face in (0..free.len()).filter(|f| drawn.at[*f] == drawn.at[drawn.far]) {
            (free[face].at, free[face].open) = (None, true);
        }
        for (face, length) in tied {
            stated.push(Stated { from: *face, to: drawn.far, limits: Limits::exactly(*length), fixed: true });
            links.push(None);
            for same in (0..free.len()).filter(|f| drawn.at[*f] == drawn.at[*face]) {
                (free[same].at, free[same].open) = (None, true);
            }
        }
        let nows = counted.nows.clone();
        let another = Self::among(part, free, (stated, links)).map(|s| Self { nows, ..s });
        let less = another.filter(|s| s.sum() < counted.sum());
        Some(less.unwrap_or(counted))
    }

    fn among(part: &Part, mut nows: Vec<Now>, (stated, links): (Vec<Stated>, Vec<Option<usize>>)) -> Option<Self> {
        let step = show::step(part.units, show::usual_decimals(part.units));
        let mut found = replan(&nows, &stated, step)?;
        let mut instead = None;
        if found.again.len() > MOST_AGAIN {
            // Half the part made again is no saving: the faces that are done stay, and what they ask of the drawing is told.
            instead = Some(found.again.len());
            for now in &mut nows {
                now.again = false;
            }
            found = replan(&nows, &stated, step)?;
        }
        Some(Self { found, nows, stated, links, measure: Vec::new(), instead })
    }

    /// What the drawing must give in sum.
    pub fn sum(&self) -> Length {
        self.found.gives.iter().map(|(_, by)| by.abs()).fold(Length::ZERO, |a, b| a + b)
    }

    /// The least the drawing must give in sum, for lengths.
    pub fn concession(&self) -> Vec<Concession> {
        let each = self.found.gives.iter().filter_map(|(i, by)| {
            let drawn = self.stated[*i].limits;
            let to = if by.is_positive() {
                Limits::new(drawn.min, drawn.max + *by)
            } else {
                Limits::new(drawn.min + *by, drawn.max)
            };
            Some(Concession { link: self.links[*i]?, drawn, to })
        });
        each.collect()
    }

    /// Whether a stated length between two faces that were read is missed as they stand, or a face that was read is not where the
    /// drawing guarantees it to be, counted from an end.
    pub fn is_out(&self, drawn: &Chain) -> bool {
        let place = |f: usize| self.nows[f].at;
        let missed = |s: &Stated| place(s.from).zip(place(s.to)).is_some_and(|(from, to)| !s.limits.holds(to - from));
        let far = place(drawn.far).or(self.nows[drawn.far].drawn);
        let astray = |f: usize| {
            let Some(at) = place(f) else { return false };
            let near = drawn.guaranteed(0, f).is_some_and(|l| !l.holds(at));
            near || far.is_some_and(|far| drawn.guaranteed(f, drawn.far).is_some_and(|l| !l.holds(far - at)))
        };
        self.stated.iter().filter(|s| !s.fixed).any(missed) || (1..self.nows.len()).any(astray)
    }
}

/// What saves a part that is finished: nothing of it is still to be cut. None where no length was read.
pub fn finished(part: &Part, drawn: &Chain, profile: &Profile, shop: Option<&Shop>) -> Option<Saving> {
    let standing = Standing::of(part, drawn, shop, &|_, _| true);
    let at = standing.counted(drawn);
    if at.iter().skip(1).all(Option::is_none) {
        return None;
    }
    let fixed = not_recut(part, drawn);
    let now = |face: usize| Now {
        at: if face == 0 { Some(Length::ZERO) } else { at[face] },
        looks: looks(drawn, profile, face),
        open: false,
        again: (face == 0 || at[face].is_some()) && !fixed.contains(&face),
        drawn: drawn.at[face].map(|s| s.0),
        error: standing.error(drawn, face),
    };
    Saving::of(part, drawn, (0..drawn.at.len()).map(now).collect(), &standing.from_far(drawn))
}

/// The limits of a diameter once they give so that a size which has no metal left is within them; none where it is within, or a cut
/// brings it there.
pub fn diameter_gives(limits: Limits, inside: bool, size: Length) -> Option<Limits> {
    let left = if inside { size < limits.min } else { size > limits.max };
    (!limits.holds(size) && !left).then(|| Limits::new(limits.min.min(size), limits.max.max(size)))
}

/// Nodes that no facing moves: centres of keyseats and holes, the ends of milled slots.
fn not_recut(part: &Part, drawn: &Chain) -> Vec<usize> {
    let milled = |kind: &Kind| {
        matches!(
            kind,
            Kind::Woodruff { .. } | Kind::ParallelKeyseat { .. } | Kind::CrossHole { .. } | Kind::Flats { .. }
        )
    };
    let nodes =
        part.features.iter().filter(|f| milled(&f.kind)).filter_map(|f| drawn.ends.get(f.id).copied().flatten());
    nodes.flat_map(|(a, b)| [a, b]).filter(|n| *n > 0 && *n != drawn.far).collect()
}
