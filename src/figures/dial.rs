//! What a dial is turned to, in the lathe's own reading.

use super::Figure;
use crate::model::shop::{Dial, Reads};
use crate::model::{Shop, plan::Operation};
use crate::told;
use crate::unit::{Diameter, Length, Unit, show};

/// A travel on one dial.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DialReading {
    /// What the dial counts, exact.
    pub exact: Length,
    /// The same rounded once, to the dial's division (a carriage dial: to the usual decimals): what is printed.
    pub shown: Figure,
    /// Whole turns in `shown`; negative only behind the zero.
    pub turns: i64,
    /// Divisions beyond the whole turns, to the nearest.
    pub divisions: i64,
    /// What is beyond the whole turns, as a length.
    pub rest: Figure,
    /// Unit the dial is graduated in, which may not be the part's.
    pub unit: Unit,
}

impl DialReading {
    /// What is printed: in the dial's unit, which is named where the part has the other one.
    pub fn text(&self, part: Unit) -> String {
        self.worded(self.shown, part)
    }

    /// What is left over beyond the whole turns, likewise.
    pub fn rest_text(&self, part: Unit) -> String {
        self.worded(self.rest, part)
    }

    fn worded(&self, figure: Figure, part: Unit) -> String {
        let text = figure.text(self.unit);
        if self.unit == part { text } else { format!("{text} {}", self.unit.word()) }
    }

    /// `counted` (in what the dial counts) on `dial`, to its division. `unit` is the dial's.
    pub fn of(counted: Length, dial: Dial, unit: Unit) -> Self {
        Self::to(counted, counted.round_to(dial.division), dial, unit)
    }

    /// The same between divisions, to the usual decimals: a carriage dial is read by eye between its lines.
    pub fn between_lines(counted: Length, dial: Dial, unit: Unit) -> Self {
        Self::to(counted, Figure::usual(counted, unit).rounded(unit).value, dial, unit)
    }

    fn to(counted: Length, shown: Length, dial: Dial, unit: Unit) -> Self {
        let division = if dial.division.is_positive() { dial.division } else { Length::from_pm(1) };
        let turn = dial.turn.pm().max(1);
        let turns = shown.pm() / turn;
        let rest = Length::from_pm(shown.pm() % turn);
        let least = show::usual_decimals(unit);
        let decimals = show::decimals_needed(division, unit, least, least + 2);
        Self {
            exact: counted,
            shown: Figure::new(shown, decimals),
            turns,
            divisions: rest.round_to(division).pm() / division.pm(),
            rest: Figure::new(rest, decimals),
            unit,
        }
    }
}

/// Where a tool was touched to set the cross dial to 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Touch {
    /// Diameter it touches.
    pub diameter: Figure,
    /// Section whose surface that is; none for bare bar.
    pub feature: Option<usize>,
    /// Whether this operation is the first with this zero, so that the tool is touched now.
    pub now: bool,
}

/// The cross dial of one operation. Only where the shop file says what the dial reads.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CrossDial {
    /// What it reads.
    pub reads: Reads,
    /// From the diameter before to the size to aim at.
    pub infeed: DialReading,
    /// The same place counted from where this tool was touched in this mounting.
    pub from_zero: DialReading,
    /// Where that was.
    pub zero: Touch,
}

impl CrossDial {
    /// Whether metal is to come off, but less than the dial can set.
    pub fn below_a_division(&self) -> bool {
        self.infeed.exact.is_positive() && !self.infeed.shown.value.is_positive()
    }

    /// The infeed as it is told in a line: never a reading of nothing where there is something to cut.
    pub fn infeed_text(&self, part: Unit) -> String {
        if self.below_a_division() {
            return told!("less than a division", "weniger als ein Teilstrich").to_owned();
        }
        self.infeed.text(part)
    }
}

/// What the cross dial of a shop counts for a cut `a_side` deep.
pub fn counted(a_side: Length, reads: Reads) -> Length {
    match reads {
        Reads::Radius => a_side,
        Reads::Diameter => a_side.times(2),
    }
}

/// What it counts between two diameters.
pub fn between(from: Length, to: Length, reads: Reads) -> Length {
    match reads {
        Reads::Radius => Diameter(from).a_side_to(Diameter(to)),
        Reads::Diameter => from - to,
    }
}

/// A travel `a_side` on the shop's cross dial, if the shop file says what it reads.
pub fn cross(a_side: Length, shop: Option<&Shop>, unit: Unit) -> Option<DialReading> {
    let shop = shop?;
    Some(DialReading::of(counted(a_side, shop.cross_reads?), shop.cross_dial?, shop.units.unwrap_or(unit)))
}

/// A travel on the compound's dial, if the shop has told of one.
pub fn compound(travel: Length, shop: Option<&Shop>, unit: Unit) -> Option<DialReading> {
    let shop = shop?;
    Some(DialReading::of(travel, shop.compound_dial?, shop.units.unwrap_or(unit)))
}

/// A length on the carriage's dial, if it has one.
pub fn carriage(length: Length, shop: Option<&Shop>, unit: Unit) -> Option<DialReading> {
    let shop = shop?;
    Some(DialReading::between_lines(length, shop.carriage_dial?, shop.units.unwrap_or(unit)))
}

/// A length on a dial indicator that stands on the bed, zeroed where the carriage is: so many blocks as long as it travels, and the rest on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OnIndicator {
    /// How far the indicator travels, and how long a block is: whole inches or tens of millimetres where it goes that far.
    pub travel: Figure,
    /// Blocks between it and its stop.
    pub blocks: i64,
    /// What it then reads.
    pub reading: Figure,
}

/// Least travel of an indicator that lengths are read on: .250 in, 5 mm (common practice, no source).
const LEAST_TRAVEL: [Length; 2] = [Length::micro_inches(250_000), Length::micrometres(5_000)];

/// A length where the carriage has no dial and the shop has an indicator that goes far enough.
pub fn indicator(length: Length, shop: Option<&Shop>, unit: Unit) -> Option<OnIndicator> {
    let shop = shop.filter(|s| s.carriage_dial.is_none())?;
    let [inch, metric] = LEAST_TRAVEL;
    let (least, whole) = match unit {
        Unit::Inch => (inch, Length::PER_INCH),
        Unit::Millimetre => (metric, Length::PER_MM.times(10)),
    };
    let ranges = shop.instruments.iter().filter(|i| i.kind == "dial indicator" && i.unit == unit);
    let range = ranges.filter_map(|i| i.range).map(|(from, to)| to - from).max().filter(|r| *r >= least)?;
    let travel = if range >= whole { range.floor_to(whole) } else { range };
    let blocks = length.pm().checked_div(travel.pm()).filter(|_| length >= Length::ZERO)?;
    let shown = |l| Figure::usual(l, unit);
    Some(OnIndicator { travel: shown(travel), blocks, reading: shown(length - travel.times(blocks)) })
}

/// The zero of the cross dial through one mounting. A dial has one ring: a tool keeps its zero only until the next one is touched, so
/// that what a tool that comes back counts from is on the work before it. Grooving and threading tools are touched anew every time, on
/// the surface beside them.
#[derive(Debug, Default)]
pub(super) struct Zeros {
    set: Option<(crate::model::shop::ToolKind, Figure, Option<usize>)>,
}

impl Zeros {
    /// The ring is turned by what a cut is set with: a thread, a bore, a taper.
    pub(super) const fn lost(&mut self) {
        self.set = None;
    }

    /// The zero for an operation that begins at `from`.
    pub(super) fn touch(&mut self, op: &Operation, from: Figure, on: Option<usize>) -> Touch {
        use crate::model::shop::ToolKind;
        let keeps = matches!(op.tool, ToolKind::Roughing | ToolKind::Finishing | ToolKind::Facing) && !op.close;
        // A dial counts down from its zero only: on a larger surface the tool is touched anew.
        if let Some((_, diameter, feature)) = self.set.filter(|z| keeps && z.0 == op.tool && z.1.value >= from.value) {
            return Touch { diameter, feature, now: false };
        }
        self.set = keeps.then_some((op.tool, from, on));
        Touch { diameter: from, feature: on, now: true }
    }
}

/// The cross dial of an operation from one diameter to another.
pub(super) fn cross_dial(from: Figure, to: Figure, zero: Touch, shop: Option<&Shop>, unit: Unit) -> Option<CrossDial> {
    let shop = shop?;
    let (reads, dial) = (shop.cross_reads?, shop.cross_dial?);
    let reading = |a: Length| DialReading::of(between(a, to.value, reads), dial, shop.units.unwrap_or(unit));
    Some(CrossDial { reads, infeed: reading(from.value), from_zero: reading(zero.diameter.value), zero })
}

#[cfg(test)]
mod tests {
    use super::*;

    const THOU: Dial = Dial { division: Length::micro_inches(1_000), turn: Length::micro_inches(100_000) };

    #[test]
    fn turns_and_divisions() {
        let reading = DialReading::of(Length::inch_tenths(1730), THOU, Unit::Inch);
        assert_eq!((reading.turns, reading.divisions, reading.rest.text(Unit::Inch).as_str()), (1, 73, ".073"));
        let rounded = DialReading::of(Length::micro_inches(14_850), THOU, Unit::Inch);
        assert_eq!((rounded.shown.text(Unit::Inch).as_str(), rounded.turns, rounded.divisions), (".015", 0, 15));
        let full = DialReading::of(Length::micro_inches(299_600), THOU, Unit::Inch);
        assert_eq!((full.turns, full.divisions), (3, 0));
        let behind = DialReading::of(Length::micro_inches(-3_000), THOU, Unit::Inch);
        let carriage = Dial { division: Length::micro_inches(5_000), turn: Length::PER_INCH };
        let wall = DialReading::between_lines(Length::micro_inches(1_943_000), carriage, Unit::Inch);
        assert_eq!((wall.turns, wall.divisions, wall.rest.text(Unit::Inch).as_str()), (1, 189, ".943"));
        assert_eq!((behind.turns, behind.divisions, behind.shown.text(Unit::Inch).as_str()), (0, -3, "\u{2212}.003"));
    }

    #[test]
    fn a_diameter_dial_counts_exactly_twice() {
        for (from, to) in [(12_500, 9_040), (9_040, 8_743), (6_200, 5_400), (12_500, 12_499)] {
            let (from, to) = (Length::inch_tenths(from), Length::inch_tenths(to));
            assert_eq!(between(from, to, Reads::Diameter), between(from, to, Reads::Radius).times(2));
        }
    }
}
