//! Places: a distance from the datum end, a face of a named feature, a distance from another place.

use super::forms::Wants;
use super::keys;
use super::reader::{Field, Reader, clipped};
use super::size::Role;
use super::tree::Written;
use crate::finding::Place;
use crate::model::slip::{BadSize, Fault, WordOf};
use crate::model::{FaceSide, LimitsFrom, PlaceRef, Size, Text};
use crate::unit::{Length, Limits, NumberForm, ToleranceText};

impl Reader<'_> {
    /// The place under a key.
    pub(super) fn place(&mut self, field: Option<Field<'_>>) -> Option<PlaceRef> {
        let written = self.value(&field?, Wants::Place)?;
        self.place_of(written)
    }

    /// A place from its text.
    pub(super) fn place_of(&mut self, written: Written<'_>) -> Option<PlaceRef> {
        if let Some((size, of)) = written.split_at_mark(" from ") {
            let size = self.size_of(size, Role::Length, Wants::Place)?;
            let of = self.place_of(of)?;
            let inward = matches!(of, PlaceRef::FarEnd(_)) && size.nominal.is_positive();
            let size = if inward { turned_round(size) } else { size };
            return Some(PlaceRef::Relative { size, of: Box::new(of) });
        }
        match keys::fold(written.text).as_str() {
            "end" | "far" | "far end" => return Some(PlaceRef::FarEnd(written.place)),
            "datum" | "datum end" => return Some(PlaceRef::FromDatum(self.datum_face(written.place))),
            _ => {}
        }
        if begins_as_number(written.text) {
            return self.size_of(written, Role::Length, Wants::Place).map(|size| self.counted_from_datum(size));
        }
        self.face(written)
    }

    /// A place counted from what the description calls its datum: the end, or an inner face.
    fn counted_from_datum(&self, size: Size) -> PlaceRef {
        match &self.datum_face {
            None => PlaceRef::FromDatum(size),
            Some(datum) => {
                let place = if size.nominal == Length::ZERO { size.place } else { datum.text.place };
                let of = PlaceRef::Face { feature: datum.feature, side: datum.side, place };
                // The datum face itself: it is at no distance from itself, whatever a general tolerance says.
                let no_band = size.from == LimitsFrom::General || size.limits_or_nominal().band() == Length::ZERO;
                if size.nominal == Length::ZERO && no_band {
                    return of;
                }
                PlaceRef::Relative { size, of: Box::new(of) }
            }
        }
    }

    /// `pulley seat end`.
    fn face(&mut self, written: Written<'_>) -> Option<PlaceRef> {
        let text = written.text;
        let (name, side) = match text.rsplit_once([' ', '-', '_']) {
            Some((name, "end")) => (name, Some(FaceSide::End)),
            Some((name, "start")) => (name, Some(FaceSide::Start)),
            _ => (text, None),
        };
        let whole = self.feature_called(text);
        match (side, self.feature_called(name), whole) {
            (Some(side), Some(feature), _) => {
                return Some(PlaceRef::Face { feature, side, place: written.place });
            }
            (None, Some(_), _) | (_, None, Some(_)) => {
                let why = BadSize::TwoFaces { name: text.to_owned() };
                self.bad(written, written.place, why, Wants::Place);
            }
            (Some(_), None, None) => self.unknown_name(written.cut(0..name.len())),
            (None, None, None) if looks_like_size(text) => {
                self.size_of(written, Role::Length, Wants::Place);
            }
            (None, None, None) => self.unknown_name(written),
        }
        None
    }

    /// The feature with this name.
    pub(super) fn feature_called(&self, name: &str) -> Option<usize> {
        self.names.get(&keys::fold(name)).map(|(i, _)| *i)
    }

    /// The feature whose name stands under a key.
    pub(super) fn feature(&mut self, field: Option<Field<'_>>) -> Option<usize> {
        let written = self.value(&field?, Wants::Name)?;
        self.feature_of(written)
    }

    /// The feature whose name this is; a name nobody has is told.
    pub(super) fn feature_of(&mut self, written: Written<'_>) -> Option<usize> {
        let found = self.feature_called(written.text);
        if found.is_none() {
            self.unknown_name(written);
        }
        found
    }

    fn unknown_name(&mut self, written: Written<'_>) {
        let nearest = keys::nearest_of(written.text, self.names.keys().map(|n| (n.as_str(), n.as_str())));
        let few = self.names.len() <= 24;
        let known = self.names.keys().filter(|_| few).map(|n| clipped(n)).collect();
        self.slip(
            written.place,
            Fault::UnknownWord {
                word: clipped(written.text),
                of: WordOf::Name,
                within: "this description".to_owned(),
                nearest,
                belongs: Vec::new(),
                known,
            },
        );
    }

    /// The datum face itself: nothing from nothing, exactly.
    fn datum_face(&self, place: Place) -> Size {
        Size {
            nominal: Length::ZERO,
            limits: Some(Limits::exactly(Length::ZERO)),
            from: LimitsFrom::Standard,
            tolerance: ToleranceText::None,
            unit: self.unit,
            form: NumberForm::Decimal(0),
            reference: false,
            place,
            text: "datum".to_owned(),
        }
    }

    /// What an `accept` points at.
    pub(super) fn accept_at(&mut self, field: Option<Field<'_>>) -> Option<crate::model::part::AcceptAt> {
        use crate::model::part::AcceptAt;
        let written = self.value(&field?, Wants::Place)?;
        let text = written.text;
        if text.eq_ignore_ascii_case("part") {
            return Some(AcceptAt::Part);
        }
        let letter = text.len() <= 2 && text.chars().all(|c| c.is_ascii_alphabetic());
        if letter || self.feature_called(text).is_some() {
            return Some(AcceptAt::Feature(Text { text: text.to_owned(), place: written.place }));
        }
        self.place_of(written).map(AcceptAt::Place)
    }
}

/// A distance inward from the far end, as it counts outward from the datum end.
fn turned_round(size: Size) -> Size {
    let limits = size.limits.map(|l| Limits::new(-l.max, -l.min));
    Size { nominal: -size.nominal, limits, ..size }
}

fn begins_as_number(text: &str) -> bool {
    let signs = ['+', '-', '\u{2212}', '\u{2013}', '.', ',', '(', '[', ' '];
    text.trim_start_matches(signs).starts_with(|c: char| c.is_ascii_digit())
}

/// `l.250`, `O.5`: letters where digits belong, rather than a name.
fn looks_like_size(text: &str) -> bool {
    text.contains(|c: char| c.is_ascii_digit()) && !text.contains(' ')
}
