//! What grips the work in a mounting: the jaws, the collet, the mandrel.

use super::part::Holding;
use crate::unit::Length;

/// What grips the work, where the trade has several for one kind of holding.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub enum Workholder {
    /// What the holding has by itself: the jaws of a three-jaw chuck, the dog, the vise.
    #[default]
    Usual,
    /// A four-jaw independent chuck, indicated.
    FourJaw,
    /// A collet of this size.
    Collet(Length),
    /// Soft jaws, bored in place to the surface they hold.
    SoftJaws,
    /// A mandrel of this size in the bore that is this feature.
    Mandrel(Length, usize),
    /// A dividing head on the mill.
    DividingHead,
    /// Dog and centers, with the tailstock set over by so much.
    SetOver(Length),
    /// A four-jaw independent chuck, the work set so far off its axis by the indicator.
    Thrown(Length),
    /// A three-jaw chuck with packing under one jaw, which brings the work so far off its axis.
    Packed(Length),
    /// Dog and centers, in second center holes so far off the part's axis.
    SecondCenters(Length),
    /// V-blocks on the surface plate, for layout, and the drill press after it.
    VBlocks,
}

impl Workholder {
    /// As the description's `holding` names it; none for what cannot be asked for.
    pub fn named(word: &str) -> Option<Self> {
        Some(match word {
            "4-jaw chuck" => Self::FourJaw,
            "collet" => Self::Collet(Length::ZERO),
            "soft jaws" => Self::SoftJaws,
            _ => return None,
        })
    }

    /// Whether it is of the same kind as another, whatever its size.
    pub fn is_like(self, other: Self) -> bool {
        std::mem::discriminant(&self) == std::mem::discriminant(&other)
    }

    /// Whether a finished surface may be held in it without copper.
    pub const fn spares(self) -> bool {
        matches!(self, Self::Collet(_) | Self::SoftJaws)
    }

    /// How far the work's axis lies off the spindle's.
    pub const fn throw(self) -> Option<Length> {
        match self {
            Self::Thrown(throw) | Self::Packed(throw) | Self::SecondCenters(throw) => Some(throw),
            _ => None,
        }
    }

    /// What stands in the place of "chuck" for it.
    pub const fn chuck(self) -> &'static str {
        match self {
            Self::FourJaw => "4-jaw chuck",
            Self::Collet(_) => "collet",
            Self::SoftJaws => "soft jaws",
            Self::Thrown(_) => "4-jaw chuck, thrown over",
            Self::Packed(_) => "chuck, packed under one jaw",
            _ => "chuck",
        }
    }

    /// How the work is held, as the trade says it: `collet and center`.
    pub fn word(self, holding: Holding) -> String {
        match (self, holding) {
            (Self::DividingHead, _) => "dividing head on the mill".to_owned(),
            (Self::VBlocks, _) => "V-blocks and drill press".to_owned(),
            (Self::SecondCenters(_), _) => "between second centers".to_owned(),
            (Self::SetOver(_), _) => "between centers, tailstock set over".to_owned(),
            (_, Holding::Chuck | Holding::ChuckAndCenter | Holding::ChuckAndRest) => {
                holding.word().replace("chuck", self.chuck())
            }
            _ => holding.word().to_owned(),
        }
    }
}
