//! What a lathe's methods are good for, as the shop file says or as is usual.

use crate::model::Shop;
use crate::model::plan::Assumed;
use crate::told;
use crate::unit::{Length, Unit, show};

/// What the methods at hand are good for.
pub(super) struct Good {
    /// A length on the carriage, ±.
    pub(super) length: Length,
    /// A reading of the overall, ±.
    pub(super) reading: Length,
    /// A saw cut, ±.
    pub(super) saw: Length,
    /// A face cut until it is clean, ±.
    pub(super) clean: Length,
    /// The width of a groove, one wall from the other by the compound slide, ±.
    pub(super) width: Length,
}

/// What the shop file says the methods are good for; what it leaves out is common practice, and ASSUMED.
pub(super) fn good(unit: Unit, shop: Option<&Shop>, overall: Length) -> (Good, Vec<Assumed>) {
    let pick = |thou: i64, um: i64| match unit {
        Unit::Inch => Length::micro_inches(thou * 1_000),
        Unit::Millimetre => Length::micrometres(um),
    };
    let mut assumed = Vec::new();
    let mut assume = |what: &str, value: Length| {
        let shown = show::exact(value, unit, show::usual_decimals(unit), 5);
        assumed.push(Assumed {
            what: what.to_owned(),
            value: format!("±{shown}"),
            source: "common practice, no source".to_owned(),
        });
        value
    };
    let length = shop.and_then(|s| s.can_hold_length).filter(|l| l.is_positive()).unwrap_or_else(|| {
        assume(told!("A length cut by the carriage", "Eine Länge nach dem Längsschlitten"), pick(2, 50))
    });
    let turned = shop.and_then(|s| s.can_hold_turned_round).map(|t| t - length).filter(|t| t.is_positive());
    let measures = ["caliper", "micrometer", "height gauge", "depth micrometer"];
    let finest = shop.and_then(|s| {
        let fit = s.instruments.iter().filter(|i| measures.contains(&i.kind.as_str()));
        let fit = fit.filter(|i| i.range.is_none_or(|(least, most)| least <= overall && overall <= most));
        fit.filter_map(|i| i.error).min()
    });
    let reading = turned
        .or(finest)
        .unwrap_or_else(|| assume(told!("A reading of the overall", "Ein Messwert der Gesamtlänge"), pick(1, 20)));
    let (saw, clean, width) = (pick(31, 800), pick(10, 250), length.min(pick(1, 20)));
    (Good { length, reading, saw, clean, width }, assumed)
}
