//! Sizes to aim at, and what is left for the finish cuts.

use crate::model::plan::Assumed;
use crate::model::{Part, Size};
use crate::unit::{Length, Limits, ToleranceText, Unit, show};
use crate::{tell, told};

/// What is left on the work, and the steps to which sizes are rounded, in the part's unit system.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::plan) struct Allowances {
    /// Unit of the description.
    pub(in crate::plan) unit: Unit,
    /// Left on the diameter after roughing.
    pub(in crate::plan) finish: Length,
    /// Left on a shoulder after roughing.
    pub(in crate::plan) face: Length,
    /// Left on the diameter for polishing; nothing unless it is wished.
    pub(in crate::plan) polish: Length,
    /// Last digit of an aimed size.
    aim_step: Length,
    /// Step of a rough diameter.
    rough_step: Length,
    /// Diameters nearer than this are turned as one.
    pub(in crate::plan) same: Length,
    /// Shortest length a turning tool works between shoulders; a grooving tool takes what is shorter.
    pub(in crate::plan) between: Length,
    /// A band that is no wider makes a size close.
    narrow: Length,
}

impl Allowances {
    /// The description's wishes, else the usual.
    pub(in crate::plan) fn of(part: &Part) -> Self {
        let unit = part.units;
        let pick = |micro_inches: i64, micrometres: i64| match unit {
            Unit::Inch => Length::micro_inches(micro_inches),
            Unit::Millimetre => Length::micrometres(micrometres),
        };
        let wish = |size: &Option<Size>, usual: Length| {
            size.as_ref().map(|s| s.nominal).filter(|l| *l >= Length::ZERO).unwrap_or(usual)
        };
        Self {
            unit,
            finish: wish(&part.wishes.finish_allowance, pick(30_000, 800)),
            face: wish(&part.wishes.face_allowance, pick(20_000, 500)),
            polish: wish(&part.wishes.polish_allowance, Length::ZERO),
            aim_step: pick(100, 1),
            rough_step: pick(2_000, 50),
            same: pick(4_000, 100),
            between: pick(250_000, 6_000),
            // .0254 mm: the same size is as close however it is written, and no band in whole micrometres lies between that and 0.025 mm.
            narrow: Length::micro_inches(1_000),
        }
    }

    /// The middle of the limits in full display digits (`.87425` is `.8743`); the exact middle where rounding would leave them or bring it to
    /// one of their ends.
    pub(in crate::plan) fn aim(&self, limits: Limits) -> Length {
        let middle = limits.middle();
        let shown = middle.round_to(self.aim_step);
        if limits.tells(middle, shown) { shown } else { middle }
    }

    /// What a section is turned to before its thread is cut: a little under the largest major diameter, on a round number
    /// (`.6236` gives `.620`), so that the crest is never proud. Common practice, no source.
    pub(in crate::plan) fn blank(&self, major: Limits) -> Length {
        let under = self.rough_step.min(major.band().times_ratio(1, 4));
        [self.rough_step, self.rough_step.half(), self.aim_step]
            .into_iter()
            .map(|step| (major.max - under).floor_to(step))
            .find(|d| major.holds(*d))
            .unwrap_or(major.middle())
    }

    /// How near a knurl's blank is turned so that its teeth come out whole (common practice, no source).
    pub(in crate::plan) fn knurl_blank(&self) -> Length {
        self.rough_step.half()
    }

    /// The rough diameter over an aim: the allowance more, on a round number.
    pub(in crate::plan) fn rough(&self, aim: Length) -> Length {
        (aim + self.finish).round_to(self.rough_step).max(aim)
    }

    /// Less than this on the diameter is no work for a roughing tool.
    pub(in crate::plan) fn worth_roughing(&self) -> Length {
        self.finish.times_ratio(1, 3).max(self.aim_step)
    }

    /// A size held to IT7 or finer, or to a band of .001 in / 0.025 mm: finished by equal cuts, cold.
    pub(in crate::plan) fn is_close(&self, size: &Size) -> bool {
        let band = size.limits.is_some_and(|l| l.band() <= self.narrow);
        let fit = match &size.tolerance {
            ToleranceText::Fit(code) => grade(code).is_some_and(|g| g <= 7),
            _ => false,
        };
        band || fit
    }

    /// For the box of assumptions.
    pub(in crate::plan) fn assumed(&self, part: &Part) -> Vec<Assumed> {
        let mut list = Vec::new();
        let shown = |l: Length| show::exact(l, self.unit, show::usual_decimals(self.unit), 4);
        if part.wishes.finish_allowance.is_none() {
            list.push(Assumed {
                what: told!("Finish allowance", "Schlichtzugabe").to_owned(),
                value: tell!(
                    "{} on the diameter after roughing",
                    "{} im Durchmesser nach dem Schruppen",
                    shown(self.finish)
                ),
                source: "1/32 in: US Navy, NAVEDTRA 14345".to_owned(),
            });
        }
        if part.wishes.face_allowance.is_none() {
            list.push(Assumed {
                what: told!("Face allowance", "Planzugabe").to_owned(),
                value: tell!(
                    "{} left on shoulders after roughing",
                    "{} an den Schultern nach dem Schruppen",
                    shown(self.face)
                ),
                source: "common practice".to_owned(),
            });
        }
        let polished = |f: &crate::model::Feature| super::lying::is_polished(part, f.id);
        if part.wishes.polish_allowance.is_none() && part.sections().any(polished) {
            list.push(Assumed {
                what: told!("Polish allowance", "Polierzugabe").to_owned(),
                value: tell!(
                    "{} on the diameter: the tool turns to size, the strip takes what lies over the lower limit",
                    "{} im Durchmesser: der Stahl dreht auf Maß, das Band nimmt, was über dem Kleinstmaß liegt",
                    shown(self.polish)
                ),
                source: told!(
                    "common practice; `polish allowance` under `plan` leaves some",
                    "Werkstattbrauch; `polish allowance` unter `plan` lässt etwas stehen"
                )
                .to_owned(),
            });
        }
        list
    }
}

/// The IT grade in an ISO code for a shaft: `k5` is 5.
fn grade(code: &str) -> Option<u32> {
    let digits = code.trim_start_matches(|c: char| c.is_ascii_lowercase());
    if digits.len() == code.len() { None } else { digits.parse().ok() }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inch() -> Allowances {
        Allowances {
            unit: Unit::Inch,
            finish: Length::micro_inches(30_000),
            face: Length::micro_inches(20_000),
            polish: Length::ZERO,
            aim_step: Length::micro_inches(100),
            rough_step: Length::micro_inches(2_000),
            same: Length::micro_inches(4_000),
            between: Length::micro_inches(250_000),
            narrow: Length::micro_inches(1_000),
        }
    }

    /// Numbers of the hand-worked part (TRADE 11 and its sheet): aim .8743, rough .904 and .650, blanks .620 and .496.
    #[test]
    fn hand_worked_diameters() {
        let a = inch();
        let u = Length::micro_inches;
        assert_eq!(a.aim(Limits::new(u(874_000), u(874_500))), u(874_300));
        assert_eq!(a.rough(u(874_300)), u(904_000));
        assert_eq!(a.rough(u(620_000)), u(650_000));
        assert_eq!(a.blank(Limits::new(u(614_900), u(623_600))), u(620_000));
        assert_eq!(a.blank(Limits::new(u(490_600), u(498_700))), u(496_000));
    }

    #[test]
    fn grades_are_read_off_the_code() {
        assert_eq!(grade("k5"), Some(5));
        assert_eq!(grade("js11"), Some(11));
        assert_eq!(grade("RC3"), None);
        assert_eq!(grade("7"), None);
    }
}
