//! The geometry by which a change is called wrong: its own few sums on the unchanged sample, no check asked.

use turnwright::finding::Place;
use turnwright::model::feature::{Extent, Thread, ThreadForm};
use turnwright::model::{End, Feature, Kind, PlaceRef, Size};
use turnwright::unit::{Length, Station};

use crate::mutations::sample::Sample;

/// A section with its nominal sizes.
pub(crate) struct Section<'a> {
    /// The feature.
    pub(crate) feature: &'a Feature,
    /// Where it begins.
    pub(crate) from: Station,
    /// Where it ends.
    pub(crate) to: Station,
    /// Nominal diameter toward the datum end.
    pub(crate) start: Length,
    /// Nominal diameter toward the far end.
    pub(crate) end: Length,
}

impl Section<'_> {
    /// Nominal diameter at the face toward an end.
    pub(crate) fn face(&self, end: End) -> Length {
        if end == End::Datum { self.start } else { self.end }
    }

    /// Its own main size, where that is one diameter.
    pub(crate) fn size(&self) -> Option<&Size> {
        match &self.feature.kind {
            Kind::Turn { diameter, kept: false, .. } | Kind::Relief { diameter, .. } => Some(diameter),
            _ => None,
        }
    }

    /// Its thread.
    pub(crate) fn thread(&self) -> Option<&Thread> {
        if let Kind::Thread { thread, .. } = &self.feature.kind { Some(thread) } else { None }
    }

    /// The diameter that carries: of a thread its root.
    pub(crate) fn working(&self, end: End) -> Length {
        self.thread().map_or_else(|| self.face(end), root)
    }
}

/// The root a single-point tool leaves: PD min − 0.64952 P for 60 degrees (ASME B1.1 geometry); the standard's minor for others.
pub(crate) fn root(thread: &Thread) -> Length {
    if thread.form == ThreadForm::V60 {
        return thread.pitch_diameter.min - thread.pitch.times_ratio(64_952, 100_000);
    }
    thread.root
}

/// Sections in order, with both faces known.
pub(crate) fn sections(s: &Sample) -> Vec<Section<'_>> {
    let row = s.part.features.iter().filter_map(|feature| {
        let (start, end) = match &feature.kind {
            Kind::Turn { diameter, .. } | Kind::Relief { diameter, .. } => (diameter.nominal, diameter.nominal),
            Kind::Thread { thread, .. } => (thread.nominal, thread.nominal),
            Kind::Taper { start, end, .. } => (start.nominal, end.nominal),
            _ => return None,
        };
        let (from, to) = s.chain.span(feature.id)?;
        Some(Section { feature, from, to, start, end })
    });
    row.collect()
}

/// Nominal diameter of a round bar.
pub(crate) fn bar(s: &Sample) -> Option<&Size> {
    use turnwright::model::part::StockShape;
    s.part.stock.as_ref().filter(|b| b.shape == StockShape::Round).map(|b| &b.size)
}

/// The stated place a section ends at, counted from the datum.
pub(crate) fn ends_at<'a>(section: &Section<'a>) -> Option<&'a Size> {
    match section.feature.kind.extent()? {
        Extent::To(PlaceRef::FromDatum(size)) => Some(size),
        _ => None,
    }
}

/// The place a section ends at, however it is written, if it is written.
pub(crate) fn end_place(section: &Section<'_>) -> Option<Place> {
    match section.feature.kind.extent()? {
        Extent::To(place) => Some(place.place()),
        _ => None,
    }
}

/// Sections between one and an end, not counting itself.
pub(crate) fn way<'a, 'b>(row: &'b [Section<'a>], seat: usize, from: End) -> &'b [Section<'a>] {
    if from == End::Datum { &row[..seat] } else { &row[seat + 1..] }
}

/// The sections beside one.
pub(crate) fn beside<'a, 'b>(row: &'b [Section<'a>], i: usize) -> (Option<&'b Section<'a>>, Option<&'b Section<'a>>) {
    (i.checked_sub(1).and_then(|i| row.get(i)), row.get(i + 1))
}

/// A number times a length, to a picometre.
pub(crate) fn share(length: Length, thousandths: i64) -> Length {
    length.times_ratio(thousandths, 1000)
}
