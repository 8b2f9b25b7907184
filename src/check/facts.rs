//! Everything a check may look at.

use super::limits::{LIMITS, LimitDefault};
use crate::chain::{Chain, Profile};
use crate::model::plan::{Derived, Operation, Verb};
use crate::model::{End, Feature, Part, Plan, Shop};
use crate::unit::{Length, Unit, show};

/// What is known when the checks run. Later stages may be missing: a check that needs them then stays silent.
#[derive(Debug, Clone, Copy)]
pub struct Facts<'a> {
    /// The part.
    pub part: &'a Part,
    /// What reading could not take.
    pub slips: &'a [crate::model::Slip],
    /// Located faces.
    pub chain: &'a Chain,
    /// Located sections.
    pub profile: &'a Profile,
    /// The shop file, if one is named.
    pub shop: Option<&'a Shop>,
    /// Operations and candidate mountings, derived without a search.
    pub derived: Option<&'a Derived>,
    /// The chosen plan, when there is one.
    pub plan: Option<&'a Plan>,
}

impl Facts<'_> {
    /// Whether the part is cut off the bar: wished, planned, or the only way that holds it well.
    pub fn is_parted_off(&self) -> bool {
        self.part.wishes.part_off || self.parting().is_some()
    }

    /// The end that is in the bar until the part is cut off.
    pub fn parting(&self) -> Option<End> {
        let parts = |o: &Operation| o.verb == Verb::PartOff;
        let planned = self.plan.and_then(|p| p.operations().map(|(_, o)| o).find(|o| parts(o)));
        let derived = || self.derived.and_then(|d| d.operations.iter().map(|(o, _)| o).find(|o| parts(o)));
        let operation = if self.plan.is_some() { planned } else { derived() };
        operation.and_then(|o| o.end)
    }

    /// A limit of a check that is a length: the shop file's, else the default in the part's unit system.
    pub fn limit(&self, check: &str, name: &str) -> Length {
        if let Some(value) = self.shop_limit(check, name)
            && let Some(length) = value.length
        {
            return length;
        }
        match default(check, name) {
            Some(LimitDefault::Length { inch, mm }) => match self.part.units {
                Unit::Inch => inch,
                Unit::Millimetre => mm,
            },
            _ => Length::ZERO,
        }
    }

    /// A limit of a check that is a pure number.
    pub fn limit_number(&self, check: &str, name: &str) -> f64 {
        if let Some(value) = self.shop_limit(check, name) {
            return value.number;
        }
        match default(check, name) {
            Some(LimitDefault::Number(n)) => n,
            _ => 0.0,
        }
    }

    /// What a limit is that decided a finding, whether anybody stated it, and how to change it. `name` is a limit of this check, or
    /// `check/name`.
    pub fn assumed(&self, check: &str, name: &str) -> Option<String> {
        let (check, name) = name.split_once('/').unwrap_or((check, name));
        let limit = LIMITS.iter().find(|l| l.check == check && l.name == name)?;
        let (value, unit) = match limit.value {
            LimitDefault::Length { .. } => (self.show(self.limit(check, name)), format!(" {}", self.part.units.word())),
            LimitDefault::Number(_) => (self.limit_number(check, name).to_string(), String::new()),
        };
        let key = if first_of(check) == Some(name) {
            format!("`limits: {{{check}: {value}}}`")
        } else {
            format!("`limits: {{{check}: {{{name}: {value}}}}}`")
        };
        Some(if self.shop_limit(check, name).is_some() {
            format!("limit of the shop file, {key}: {value}{unit}, {}", limit.what)
        } else {
            format!("ASSUMED {value}{unit}: {} ({}). The shop file changes it: {key}", limit.what, limit.source)
        })
    }

    /// Whether the shop file states a limit.
    pub(super) fn is_stated(&self, check: &str, name: &str) -> bool {
        self.shop_limit(check, name).is_some()
    }

    fn shop_limit(&self, check: &str, name: &str) -> Option<crate::model::shop::LimitValue> {
        let values = self.shop?.limits.get(check)?;
        // A value without a name is the check's first.
        let first = first_of(check) == Some(name);
        values.get(name).or_else(|| values.get("").filter(|_| first)).copied()
    }

    /// A length as a message shows it: in the part's unit, with as many decimals as it needs (at least the usual, at most two more).
    pub fn show(&self, value: Length) -> String {
        let least = show::usual_decimals(self.part.units);
        show::exact(value, self.part.units, least, least + 2)
    }

    /// A remedy that must be at least so large: rounded up to what the file's usual decimals show.
    pub fn at_least(&self, value: Length) -> String {
        let decimals = show::usual_decimals(self.part.units);
        show::length(value.ceil_to(show::step(self.part.units, decimals)), self.part.units, decimals)
    }

    /// A remedy that must be at most so large: rounded down.
    pub fn at_most(&self, value: Length) -> String {
        let decimals = show::usual_decimals(self.part.units);
        show::length(value.floor_to(show::step(self.part.units, decimals)), self.part.units, decimals)
    }

    /// Largest diameter the bar may have, where it is known.
    pub fn bar(&self) -> Option<Length> {
        self.part.stock.as_ref().map(|s| s.size.nominal)
    }

    /// The section just before (toward the datum end) and just behind a section.
    pub fn neighbours(&self, feature: &Feature) -> (Option<&Feature>, Option<&Feature>) {
        let sections: Vec<&Feature> = self.part.sections().collect();
        let Some(i) = sections.iter().position(|f| f.id == feature.id) else { return (None, None) };
        (i.checked_sub(1).and_then(|i| sections.get(i).copied()), sections.get(i + 1).copied())
    }
}

/// The limit of a check that may be written without its name.
fn first_of(check: &str) -> Option<&'static str> {
    LIMITS.iter().find(|l| l.check == check).map(|l| l.name)
}

fn default(check: &str, name: &str) -> Option<LimitDefault> {
    LIMITS.iter().find(|l| l.check == check && l.name == name).map(|l| l.value)
}
