//! A size with the limits it means: written, from a fit code, or from the general tolerances.

use super::forms::Wants;
use super::reader::{Field, Reader};
use super::tree::Written;
use crate::handbook::fit::{self, NoFit};
use crate::handbook::iso_2768;
use crate::model::slip::{BadSize, Fault};
use crate::model::{LimitsFrom, Size};
use crate::unit::{Length, Limits, NumberForm, SizeText, ToleranceText, Unit, read_size};

/// What a size is: which general tolerance is its own, and whose fit codes it takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Role {
    /// A length or place.
    Length,
    /// The width of a groove or seat.
    Width,
    /// A diameter of the part.
    Diameter,
    /// The bore of something that goes on.
    Bore,
    /// A diameter inside the part.
    Inner,
    /// An inside corner radius: zero to the size, unless more is said.
    Corner,
    /// A chamfer's leg or an outside radius.
    Edge,
    /// A length that no general tolerance speaks of.
    Bare,
}

impl Role {
    fn wants(self) -> Wants {
        match self {
            Self::Length | Self::Width | Self::Bare | Self::Edge => Wants::Size,
            Self::Diameter | Self::Bore | Self::Inner => Wants::Diameter,
            Self::Corner => Wants::Radius,
        }
    }
}

impl Reader<'_> {
    /// The size under a key.
    pub(super) fn size(&mut self, field: Option<Field<'_>>, role: Role) -> Option<Size> {
        let written = self.value(&field?, role.wants())?;
        self.size_of(written, role, role.wants())
    }

    /// A size from its text.
    pub(super) fn size_of(&mut self, written: Written<'_>, role: Role, wants: Wants) -> Option<Size> {
        match read_size(written.text, self.unit) {
            Ok(text) => Some(self.resolve(text, written, role)),
            Err(bad) => {
                self.bad(written, written.at(bad.at), BadSize::Number(bad.why), wants);
                None
            }
        }
    }

    /// Works the limits out.
    pub(super) fn resolve(&mut self, text: SizeText, written: Written<'_>, role: Role) -> Size {
        let nominal = text.nominal;
        let (limits, from) = if text.reference {
            (None, LimitsFrom::Nothing)
        } else {
            match &text.tolerance {
                ToleranceText::Deviations { .. } | ToleranceText::Ends(_) => (text.limits(), LimitsFrom::Written),
                ToleranceText::Fit(code) => (self.fit(code, nominal.value, written, role), LimitsFrom::Fit),
                ToleranceText::Max | ToleranceText::None if role == Role::Corner => {
                    (Some(Limits::new(Length::ZERO, nominal.value)), LimitsFrom::OneEnd)
                }
                ToleranceText::Max | ToleranceText::Min => (None, LimitsFrom::OneEnd),
                ToleranceText::None => match self.general_limits(nominal.value, nominal.form, nominal.unit, role) {
                    Some(limits) => (Some(limits), LimitsFrom::General),
                    None => (None, LimitsFrom::Nothing),
                },
            }
        };
        let from = if limits.is_none() && from == LimitsFrom::Fit { LimitsFrom::Nothing } else { from };
        Size {
            nominal: nominal.value,
            limits,
            from,
            tolerance: text.tolerance,
            unit: nominal.unit,
            form: nominal.form,
            reference: text.reference,
            place: written.place,
            text: written.text.to_owned(),
        }
    }

    fn fit(&mut self, code: &str, nominal: Length, written: Written<'_>, role: Role) -> Option<Limits> {
        let hole = match role {
            Role::Bore | Role::Inner => true,
            Role::Width | Role::Length | Role::Bare | Role::Edge => fit::is_hole_code(code),
            Role::Diameter | Role::Corner => false,
        };
        let found = if hole { fit::hole(code, nominal) } else { fit::shaft(code, nominal) };
        let at = written.text.rfind(code).map_or(written.place, |i| written.at(i..i + code.len()));
        match found {
            Ok(deviations) => Some(deviations.limits(nominal)),
            Err(NoFit::WrongSide { code, .. }) => {
                self.slip(at, Fault::FitWrongSide { code, hole_on_shaft: !hole });
                None
            }
            Err(_) => {
                self.bad(written, at, BadSize::FitUnknown { code: code.to_owned() }, role.wants());
                None
            }
        }
    }

    /// Limits of a size that has none of its own.
    fn general_limits(&self, nominal: Length, form: NumberForm, unit: Unit, role: Role) -> Option<Limits> {
        if matches!(role, Role::Bare | Role::Bore | Role::Corner) {
            return None;
        }
        let own =
            if matches!(role, Role::Diameter | Role::Inner) { self.general.diameters } else { self.general.lengths };
        let by_places = match form {
            NumberForm::Decimal(places) if unit == self.unit => self.general.by_places.get(&places).copied(),
            _ => None,
        };
        if let Some(half) = by_places {
            return Some(Limits::around(nominal, half, -half));
        }
        if let Some((upper, lower)) = own {
            return Some(Limits::around(nominal, upper, lower));
        }
        let class = self.general.iso_2768?;
        let half = match role {
            Role::Edge => iso_2768::edge(class, nominal.abs())?,
            _ => iso_2768::linear(class, nominal.abs())?,
        };
        Some(Limits::around(nominal, half, -half))
    }

    /// Limits alone: `±0.005`, `+0.002/-0`; signed upper and lower.
    pub(super) fn limits_alone(&mut self, field: Option<Field<'_>>) -> Option<(Length, Length)> {
        let written = self.value(&field?, Wants::Limits)?;
        self.limits_of(written)
    }

    /// Limits alone from their text. A size without a sign is not taken for limits.
    pub(super) fn limits_of(&mut self, written: Written<'_>) -> Option<(Length, Length)> {
        if !written.text.starts_with(['+', '-', '±', '\u{2212}', '\u{2013}']) {
            self.bad(written, written.place, BadSize::Form, Wants::Limits);
            return None;
        }
        match read_size(&format!("0 {}", written.text), self.unit) {
            Ok(SizeText { tolerance: ToleranceText::Deviations { upper, lower, .. }, .. }) => Some((upper, lower)),
            Ok(_) => {
                self.bad(written, written.place, BadSize::Form, Wants::Limits);
                None
            }
            Err(bad) => {
                let at = bad.at.start.saturating_sub(2)..bad.at.end.saturating_sub(2);
                self.bad(written, written.at(at), BadSize::Number(bad.why), Wants::Limits);
                None
            }
        }
    }
}
