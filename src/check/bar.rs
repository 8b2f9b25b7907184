//! What is known of the bar: its grade, its condition, its own size.

use std::cell::RefCell;

use super::Facts;
use super::shape::says_any;
use crate::handbook::material::{self, Carbon, Condition, Material, Named};
use crate::model::part::StockShape;
use crate::model::{Feature, Kind, LimitsFrom};
use crate::told;
use crate::unit::{Length, Limits};

thread_local! {
    /// The last material asked for: the checks of one part all ask for the same.
    static GRADE: RefCell<Option<(String, Option<Named>)>> = const { RefCell::new(None) };
}

/// The state of the bar, and whether anybody said it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct State {
    /// The condition.
    pub(super) condition: Condition,
    /// Nobody said it: cold drawn is taken.
    pub(super) assumed: bool,
}

impl State {
    /// What a message says of an assumed condition.
    pub(super) fn words(self) -> String {
        let assumed = if self.assumed { ", ASSUMED" } else { "" };
        format!("{}{assumed}", self.condition.words())
    }
}

impl<'a> Facts<'a> {
    /// The material line as written.
    pub(super) fn material(&self) -> Option<&'a crate::model::Text> {
        self.part.material.as_ref()
    }

    /// Grade and condition, where the handbook knows the grade.
    pub(super) fn grade(&self) -> Option<Named> {
        let text = &self.material()?.text;
        GRADE.with_borrow_mut(|last| match last {
            Some((asked, found)) if asked == text => found.clone(),
            _ => {
                let found = material::find(text);
                *last = Some((text.clone(), found.clone()));
                found
            }
        })
    }

    /// The condition of the bar; cold drawn, ASSUMED, where it is not stated.
    pub(super) fn bar_state(&self) -> State {
        let said = self.material().and_then(|m| Condition::find(&m.text)).or_else(|| self.grade()?.condition);
        State { condition: said.unwrap_or(Condition::ColdDrawn), assumed: said.is_none() }
    }

    /// Whether the material is this grade's kind, by the handbook, or by these words where it does not know it.
    pub(super) fn material_is(&self, grade: impl Fn(&Material) -> bool, words: &[&str]) -> bool {
        match self.grade() {
            Some(named) => grade(&named.material),
            None => self.material().is_some_and(|m| says_any(&m.text, words)),
        }
    }

    /// Limits of the bar's own diameter: as stated with the stock, else by the bar standard.
    pub(super) fn bar_limits(&self) -> Option<(Limits, String)> {
        let stock = self.part.stock.as_ref()?;
        let size = &stock.size;
        if size.from == LimitsFrom::Written {
            return Some((size.limits_or_nominal(), "the stock line".to_owned()));
        }
        let carbon = self.grade().and_then(|g| g.material.carbon()).unwrap_or(Carbon::Low);
        let condition = self.bar_state().condition;
        let (deviations, source) = if stock.shape.has_corners() {
            let hexagon = stock.shape == StockShape::Hexagon;
            material::flats_tolerance(carbon, condition, hexagon, size.nominal, self.part.units)?
        } else {
            material::bar_tolerance(carbon, condition, size.nominal, self.part.units)?
        };
        Some((Limits::around(size.nominal, deviations.upper, deviations.lower), source.line()))
    }

    /// The bar as a message says it where its corners count: `1.000`, `1.155 across corners`.
    pub(super) fn bar_over_corners(&self, bar: Length) -> String {
        let cornered = self.part.stock.as_ref().is_some_and(|s| s.shape.has_corners());
        format!("{}{}", self.show(bar), if cornered { told!(" across corners", " über Eck") } else { "" })
    }

    /// The largest section that is cut at all, with its nominal diameter.
    pub(super) fn largest_turned(&self) -> Option<(&'a Feature, Length)> {
        let turned = self.part.sections().filter_map(|f| match &f.kind {
            Kind::Turn { kept: true, .. } => None,
            Kind::Turn { diameter, .. } | Kind::Relief { diameter, .. } => Some((f, diameter.nominal)),
            Kind::Eccentric { diameter, .. } => Some((f, diameter.nominal + f.sweeps())),
            Kind::Thread { thread, .. } => Some((f, thread.nominal)),
            Kind::Knurl { knurl, .. } => Some((f, knurl.turn_to)),
            Kind::Taper { start, end, .. } => Some((f, start.nominal.max(end.nominal))),
            _ => None,
        });
        turned.max_by_key(|(f, d)| (*d, std::cmp::Reverse(f.id)))
    }

    /// Sections that keep the bar's own surface.
    pub(super) fn kept(&self) -> impl Iterator<Item = (&'a Feature, &'a crate::model::Size)> {
        self.part.sections().filter_map(|f| match &f.kind {
            Kind::Turn { kept: true, diameter, .. } => Some((f, diameter)),
            _ => None,
        })
    }
}
