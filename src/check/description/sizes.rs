//! Every size of a part with what it is: one walk for all the checks that judge single sizes.

use crate::model::feature::{EdgeAt, Extent, Feature, Kind};
use crate::model::inside::{Inside, InsideCut, Reach};
use crate::model::{Part, PlaceRef, Size};

/// What a size is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Is {
    /// A diameter that is cut.
    Diameter,
    /// A length that must be above zero.
    Length,
    /// A distance from a face: it may have a sign.
    Place,
    /// A place that only names a face others locate.
    FaceNamed,
    /// A corner radius or a chamfer's leg.
    Edge,
    /// Width or height of a key, size of the bar, sizes of what is carried: no limits are looked for.
    Other,
}

/// A size of the part.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sized<'p> {
    /// The size.
    pub size: &'p Size,
    /// What it is.
    pub is: Is,
    /// In the trade's words: `diameter`, `width`.
    pub called: &'static str,
    /// The feature it belongs to.
    pub feature: Option<&'p Feature>,
}

/// Every size, in the order of the text as far as entries go.
pub(super) fn all(part: &Part) -> Vec<Sized<'_>> {
    let mut out = Vec::new();
    let head = [
        (part.stock.as_ref().map(|s| &s.size), Is::Other, "bar"),
        (part.stock.as_ref().map(|s| &s.length), Is::Other, "saw length"),
        (part.overall.as_ref(), Is::Length, "overall length"),
        (part.coating.as_ref(), Is::Other, "coating"),
    ];
    for (size, is, called) in head {
        out.extend(size.map(|size| Sized { size, is, called, feature: None }));
    }
    for feature in &part.features {
        of_feature(feature, &mut out);
    }
    for dim in &part.dims {
        place(&dim.from, Is::FaceNamed, None, &mut out);
        place(&dim.to, Is::FaceNamed, None, &mut out);
        out.push(Sized { size: &dim.is, is: Is::Length, called: "distance", feature: None });
    }
    out
}

fn of_feature<'p>(feature: &'p Feature, out: &mut Vec<Sized<'p>>) {
    if let Some(extent) = feature.kind.extent() {
        let (to, long) = match extent {
            Extent::To(to) => (Some(to), None),
            Extent::Long(long) => (None, Some(long)),
            Extent::Both(to, long) => (Some(to), Some(long)),
            Extent::Open => (None, None),
        };
        if let Some(to) = to {
            place(to, Is::Place, Some(feature), out);
        }
        add(feature, out, long, Is::Length, "length");
    }
    if let Some(starts) = &feature.starts {
        place(starts, Is::FaceNamed, Some(feature), out);
    }
    match &feature.kind {
        Kind::Turn { diameter, kept, .. } => {
            add(feature, out, Some(diameter), if *kept { Is::Other } else { Is::Diameter }, "diameter");
        }
        Kind::Eccentric { diameter, .. } => {
            add(feature, out, Some(diameter), Is::Diameter, "diameter");
            add(feature, out, feature.offset.as_ref(), Is::Length, "throw");
        }
        Kind::Relief { diameter, corner, .. } => {
            add(feature, out, Some(diameter), Is::Diameter, "diameter");
            add(feature, out, corner.as_ref(), Is::Edge, "corner radius");
        }
        Kind::Thread { thread, .. } => {
            add(feature, out, thread.full.as_ref(), Is::Other, "full thread");
            add(feature, out, thread.run_out.as_ref(), Is::Other, "run-out");
            add(feature, out, thread.blank.as_ref(), Is::Other, "blank diameter");
        }
        Kind::Taper { start, end, .. } => {
            add(feature, out, Some(start), Is::Diameter, "diameter");
            add(feature, out, Some(end), Is::Diameter, "diameter");
        }
        Kind::Groove { diameter, from, wide, ring, .. } => {
            add(feature, out, Some(diameter), Is::Diameter, "diameter");
            place(from, Is::Place, Some(feature), out);
            add(feature, out, Some(wide), Is::Length, "width");
            add(feature, out, ring.as_ref(), Is::Other, "ring");
        }
        Kind::Chamfer { leg, at, .. } => {
            add(feature, out, Some(leg), Is::Edge, "leg");
            if let EdgeAt::Face(at) = at {
                place(at, Is::FaceNamed, Some(feature), out);
            }
        }
        Kind::Crown { crown } => {
            add(feature, out, Some(&crown.size), Is::Edge, if crown.high { "height" } else { "radius" });
        }
        Kind::Fillet { radius, at } => {
            add(feature, out, Some(radius), Is::Edge, "radius");
            place(at, Is::FaceNamed, Some(feature), out);
        }
        Kind::Woodruff { at, .. } => place(at, Is::Place, Some(feature), out),
        Kind::ParallelKeyseat { width, height, length, from, .. } => {
            add(feature, out, Some(width), Is::Other, "width");
            add(feature, out, Some(height), Is::Other, "height");
            add(feature, out, Some(length), Is::Length, "length");
            place(from, Is::Place, Some(feature), out);
        }
        Kind::CrossHole { diameter, at, deep, .. } => {
            add(feature, out, Some(diameter), Is::Diameter, "diameter");
            add(feature, out, deep.as_ref(), Is::Length, "depth");
            place(at, Is::Place, Some(feature), out);
        }
        Kind::Knurl { knurl, .. } => {
            add(feature, out, Some(&knurl.diameter), Is::Other, "diameter");
            add(feature, out, knurl.blank.as_ref(), Is::Other, "blank diameter");
        }
        Kind::Undercut { at, .. } => place(at, Is::FaceNamed, Some(feature), out),
        Kind::Flats { size, from, to, .. } => {
            add(feature, out, Some(size), Is::Diameter, "size");
            place(from, Is::Place, Some(feature), out);
            if let Extent::To(to) | Extent::Both(to, _) = to {
                place(to, Is::Place, Some(feature), out);
            }
            if let Extent::Long(long) | Extent::Both(_, long) = to {
                add(feature, out, Some(long), Is::Length, "length");
            }
        }
        Kind::Inside(inside) => of_inside(feature, inside, out),
        Kind::CenterHole { .. } | Kind::NotYet { .. } => {}
    }
    for carried in &feature.carries {
        for (size, called) in [(&carried.bore, "bore"), (&carried.wide, "width"), (&carried.land, "land")] {
            add(feature, out, size.as_ref(), Is::Other, called);
        }
    }
}

/// What is cut inside.
fn of_inside<'p>(feature: &'p Feature, inside: &'p Inside, out: &mut Vec<Sized<'p>>) {
    match &inside.reach {
        Reach::Deep(size) => add(feature, out, Some(size), Is::Length, "depth"),
        Reach::To(to) => place(to, Is::Place, Some(feature), out),
        Reach::Through | Reach::Own => {}
    }
    match &inside.cut {
        InsideCut::Bore { diameter, kept, drill_depth, .. } => {
            add(feature, out, Some(diameter), if *kept { Is::Other } else { Is::Diameter }, "diameter");
            add(feature, out, drill_depth.as_ref(), Is::Other, "drill depth");
        }
        InsideCut::Thread { drill, drill_depth, .. } => {
            add(feature, out, drill.as_ref(), Is::Other, "drill");
            add(feature, out, drill_depth.as_ref(), Is::Other, "drill depth");
        }
        InsideCut::Relief { diameter, corner } => {
            add(feature, out, Some(diameter), Is::Diameter, "diameter");
            add(feature, out, corner.as_ref(), Is::Edge, "corner radius");
        }
        InsideCut::Taper { start, end, .. } => {
            add(feature, out, Some(start), Is::Diameter, "diameter");
            add(feature, out, Some(end), Is::Diameter, "diameter");
        }
        InsideCut::Groove { diameter, from, wide } => {
            add(feature, out, Some(diameter), Is::Diameter, "diameter");
            place(from, Is::Place, Some(feature), out);
            add(feature, out, Some(wide), Is::Length, "width");
        }
        InsideCut::Chamfer { mouth: Some(mouth), .. } => add(feature, out, Some(mouth), Is::Diameter, "mouth"),
        InsideCut::Chamfer { leg, .. } => add(feature, out, Some(leg), Is::Edge, "leg"),
    }
}

fn add<'p>(feature: &'p Feature, out: &mut Vec<Sized<'p>>, size: Option<&'p Size>, is: Is, called: &'static str) {
    if let Some(size) = size {
        out.push(Sized { size, is, called, feature: Some(feature) });
    }
}

fn place<'p>(place: &'p PlaceRef, is: Is, feature: Option<&'p Feature>, out: &mut Vec<Sized<'p>>) {
    match place {
        PlaceRef::FromDatum(size) | PlaceRef::Relative { size, .. } => {
            out.push(Sized { size, is, called: "place", feature });
        }
        PlaceRef::FarEnd(_) | PlaceRef::Face { .. } => {}
    }
}
