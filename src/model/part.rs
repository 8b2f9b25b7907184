//! The part description after reading.

use crate::language::Language;
use std::collections::BTreeMap;

use super::feature::{Feature, PlaceRef};
use super::measured::{Done, Measured, MeasuredWhat};
use super::{Size, Text};
use crate::finding::Place;
use crate::unit::{Length, Unit};

/// A whole description. Everything that could be read is here, even when other things could not.
#[derive(Debug, Clone)]
pub struct Part {
    /// `part:` its name.
    pub name: Text,
    /// `drawing:`.
    pub drawing: Option<Text>,
    /// `revision:`.
    pub revision: Option<Text>,
    /// `units:`; a description without them is not read further.
    pub units: Unit,
    /// `material:` as written.
    pub material: Option<Text>,
    /// `stock:`.
    pub stock: Option<Stock>,
    /// `datum:` the end every length is measured from.
    pub datum: Option<Text>,
    /// The inner face that `datum:` names, where the places of the description are counted from it and not from the datum end.
    pub datum_face: Option<DatumFace>,
    /// `overall:`.
    pub overall: Option<Size>,
    /// `tolerances:`.
    pub general: GeneralTolerances,
    /// `lathe:` path of the shop file, as written.
    pub lathe: Option<Text>,
    /// All features in the order of the file; `features[i].id == i`.
    pub features: Vec<Feature>,
    /// `dims:`.
    pub dims: Vec<Dim>,
    /// `accept:`.
    pub accept: Vec<Accept>,
    /// `plan:` wishes.
    pub wishes: Wishes,
    /// `measured:` sizes as they came out, in the order taken.
    pub measured: Vec<Measured>,
    /// `done:` operations already done.
    pub done: Vec<Done>,
    /// `taken on trust:` what a worn sample does not prove.
    pub on_trust: Vec<Text>,
    /// `notes:` Markdown.
    pub notes: Option<Text>,
    /// `heat treatment:`.
    pub heat_treatment: Option<Text>,
    /// `coating:` thickness a side.
    pub coating: Option<Size>,
    /// Whether the sizes count after the coating (`sizes after`) or before it (`sizes before`); none where it is not said.
    pub sizes_after_coating: Option<bool>,
    /// `rotation:` of the part in service.
    pub rotation: Option<Text>,
    /// `language:` of the sheet.
    pub language: Option<Language>,
    /// `decimal sign: comma`: how the sheet writes its numbers.
    pub decimal_comma: bool,
    /// Place of the whole description.
    pub place: Place,
    /// First 8 hexadecimal digits of the SHA-256 of the text, in two groups of four.
    pub hash: String,
}

impl Part {
    /// A part of which nothing is known: for a text that could not be read.
    pub fn nothing() -> Self {
        let place = Place::new(crate::finding::FileId::Part, 0, 0);
        Self {
            name: Text { text: String::new(), place },
            drawing: None,
            revision: None,
            units: Unit::Inch,
            material: None,
            stock: None,
            datum: None,
            datum_face: None,
            overall: None,
            general: GeneralTolerances::default(),
            lathe: None,
            features: Vec::new(),
            dims: Vec::new(),
            accept: Vec::new(),
            wishes: Wishes::default(),
            measured: Vec::new(),
            done: Vec::new(),
            on_trust: Vec::new(),
            notes: None,
            heat_treatment: None,
            coating: None,
            sizes_after_coating: None,
            rotation: None,
            language: None,
            decimal_comma: false,
            place,
            hash: String::new(),
        }
    }

    /// The sections, in the order from the datum end outward.
    pub fn sections(&self) -> impl DoubleEndedIterator<Item = &Feature> {
        self.features.iter().filter(|f| f.kind.is_section())
    }

    /// The overall as it was measured last.
    pub fn measured_overall(&self) -> Option<&Size> {
        self.measured
            .iter()
            .rev()
            .find_map(|m| if let MeasuredWhat::Overall(size) = &m.what { Some(size) } else { None })
    }

    /// The diameter of a feature as it was measured last.
    pub fn measured_diameter(&self, id: usize) -> Option<&Size> {
        self.measured.iter().rev().find_map(|m| match &m.what {
            MeasuredWhat::Diameter { feature, size } if *feature == id => Some(size),
            _ => None,
        })
    }

    /// The bore of what a feature carries, as it was measured last.
    pub fn measured_mate(&self, id: usize, of: usize) -> Option<&Size> {
        self.measured.iter().rev().find_map(|m| match &m.what {
            MeasuredWhat::Mate { feature, carried, size } if (*feature, *carried) == (id, of) => Some(size),
            _ => None,
        })
    }

    /// The feature with this name, if one has it.
    pub fn named(&self, name: &str) -> Option<&Feature> {
        self.features.iter().find(|f| f.name.as_ref().is_some_and(|n| n.text.eq_ignore_ascii_case(name)))
    }
}

/// A face between the ends that places are counted from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DatumFace {
    /// Feature whose face it is.
    pub feature: usize,
    /// Which face.
    pub side: super::FaceSide,
    /// As written.
    pub text: Text,
}

/// Cross-section of the bar.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StockShape {
    /// Round bar.
    Round,
    /// Hexagon bar, size across flats.
    Hexagon,
    /// Square bar, size across flats.
    Square,
    /// Tube with this bore.
    Tube {
        /// Inner diameter.
        bore: Length,
    },
}

impl StockShape {
    /// Largest distance across a section of this size: over the corners of a hexagon or square, sharp as drawn, rounded up to a
    /// micrometre. A hexagon is 2/√3 of its size across corners, a square √2 (plain geometry).
    pub fn across_corners(self, size: Length) -> Length {
        let up = |numerator: i64| {
            let exact = size.times_ratio(numerator, 1_000_000_000_000);
            exact.ceil_to(Length::micrometres(1))
        };
        match self {
            Self::Round | Self::Tube { .. } => size,
            Self::Hexagon => up(1_154_700_538_380),
            Self::Square => up(1_414_213_562_374),
        }
    }

    /// Whether it has flats and corners.
    pub const fn has_corners(self) -> bool {
        matches!(self, Self::Hexagon | Self::Square)
    }

    /// As the trade calls the bar: `hexagon`, `square`, or nothing for a round one.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Hexagon => "hexagon",
            Self::Square => "square",
            Self::Round | Self::Tube { .. } => "",
        }
    }
}

/// The bar it is cut from.
#[derive(Debug, Clone)]
pub struct Stock {
    /// Shape.
    pub shape: StockShape,
    /// Diameter, or size across flats.
    pub size: Size,
    /// Saw length.
    pub length: Size,
    /// The whole value.
    pub place: Place,
}

impl Stock {
    /// What swings, and what the tool meets first: the diameter, or the distance across corners.
    pub fn across_corners(&self) -> Length {
        self.shape.across_corners(self.size.nominal)
    }
}

/// What a size without limits means.
#[derive(Debug, Clone, Default)]
pub struct GeneralTolerances {
    /// For lengths: signed upper and lower deviation.
    pub lengths: Option<(Length, Length)>,
    /// For diameters.
    pub diameters: Option<(Length, Length)>,
    /// By the number of decimals written: half band.
    pub by_places: BTreeMap<u8, Length>,
    /// ISO 2768 class letter (`f`, `m`, `c`, `v`).
    pub iso_2768: Option<char>,
    /// Where they stand.
    pub place: Option<Place>,
}

/// A distance the drawing also asks; it must follow from the lengths.
#[derive(Debug, Clone)]
pub struct Dim {
    /// From here.
    pub from: PlaceRef,
    /// To here.
    pub to: PlaceRef,
    /// Required size.
    pub is: Size,
    /// Why it matters.
    pub because: Option<Text>,
    /// Whole entry.
    pub place: Place,
}

/// A finding that the person takes responsibility for.
#[derive(Debug, Clone)]
pub struct Accept {
    /// Id of the check.
    pub check: Text,
    /// A place, a name, or `part`.
    pub at: Option<AcceptAt>,
    /// The reason.
    pub because: Option<Text>,
    /// Whole entry.
    pub place: Place,
}

/// What an `accept` points at.
#[derive(Debug, Clone)]
pub enum AcceptAt {
    /// The part as a whole.
    Part,
    /// A face or centre.
    Place(PlaceRef),
    /// A feature by its name or letter.
    Feature(Text),
}

/// Which holdings the person wants.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Holding {
    /// Three- or four-jaw chuck alone.
    Chuck,
    /// Chuck and tailstock center.
    ChuckAndCenter,
    /// Between centers with a dog.
    BetweenCenters,
    /// Chuck at the headstock, the end at the tailstock carried by a steady rest.
    ChuckAndRest,
    /// On a mandrel pressed into the bore, between centers.
    Mandrel,
    /// On the mill, in a vise or V-blocks.
    Mill,
    /// At the bench.
    Bench,
}

impl Holding {
    /// As the trade says it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Chuck => "chuck",
            Self::ChuckAndCenter => "chuck and center",
            Self::BetweenCenters => "between centers",
            Self::ChuckAndRest => "chuck and steady rest",
            Self::Mandrel => "mandrel between centers",
            Self::Mill => "mill vise or V-blocks",
            Self::Bench => "bench",
        }
    }
}

/// `plan:` the person overrules.
#[derive(Debug, Clone, Default)]
pub struct Wishes {
    /// `first end:` the end to begin with.
    pub first_end: Option<super::End>,
    /// `holding:` for turning both ends.
    pub holding: Option<Holding>,
    /// `holding:` for one end only.
    pub holding_by_end: BTreeMap<super::End, Holding>,
    /// `holding:` what is to grip the work wherever a chuck does.
    pub by: Option<super::Workholder>,
    /// The same for one end only.
    pub by_end: BTreeMap<super::End, super::Workholder>,
    /// `before: [[X, Y]]`: X before Y.
    pub before: Vec<(Text, Text)>,
    /// `together: [[X, Y]]`: in one mounting.
    pub together: Vec<(Text, Text)>,
    /// `part off: true`.
    pub part_off: bool,
    /// `off: [rule ids]` soft rules switched off.
    pub off: Vec<Text>,
    /// `finish allowance:` left on the diameter after roughing.
    pub finish_allowance: Option<Size>,
    /// `face allowance:` left on a shoulder after roughing.
    pub face_allowance: Option<Size>,
    /// `polish allowance:` left on the diameter for polishing.
    pub polish_allowance: Option<Size>,
    /// Place of the whole mapping.
    pub place: Option<Place>,
}

impl Wishes {
    /// Whether the person switches a rule off. Only a soft one can be: whoever asks about another is refused by the plan.
    pub fn is_off(&self, rule: &str) -> bool {
        self.off.iter().any(|t| t.text.trim().eq_ignore_ascii_case(rule))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Wrench tables print 1.155 across corners for a hexagon of 1 in and 1.414 for a square (plain geometry).
    #[test]
    fn across_corners_of_bars() {
        let inch = Length::PER_INCH;
        let thou = |shape: StockShape| (shape.across_corners(inch).inches() * 1000.0).round() as i64;
        assert_eq!([StockShape::Round, StockShape::Hexagon, StockShape::Square].map(thou), [1000, 1155, 1414]);
        assert!(StockShape::Square.across_corners(inch).inches() >= 2f64.sqrt());
    }
}
