//! What lies on the sections and ends.

use turnwright::model::feature::{EdgeAt, End};
use turnwright::model::{Kind, PlaceRef};
use turnwright::unit::{Length, Station};

use super::Mutant;
use crate::mutations::sample::Sample;
use crate::mutations::shape::{sections, share};

fn overall(s: &Sample) -> Length {
    s.part.overall.as_ref().map_or(Length::ZERO, |o| o.nominal)
}

/// Each keyseat moved so that half of it lies outside its seat.
pub(crate) fn keyseat_moved(s: &Sample) -> Vec<Mutant> {
    let row = sections(s);
    let mut out = Vec::new();
    for key in &s.part.features {
        let (place, half) = match &key.kind {
            Kind::Woodruff { at: PlaceRef::FromDatum(size), .. } => (size, Length::ZERO),
            Kind::ParallelKeyseat { from: PlaceRef::FromDatum(size), length, open: None, through: None, .. } => {
                (size, length.nominal.half())
            }
            _ => continue,
        };
        let middle = Station(place.nominal + half);
        let Some(i) = row.iter().position(|x| x.from <= middle && middle <= x.to) else { continue };
        let seat = &row[i];
        for end in [End::Datum, End::Far] {
            let edge = if end == End::Datum { seat.from } else { seat.to };
            for middle in [edge, edge + share(seat.to - seat.from, if end == End::Datum { 10 } else { -10 })] {
                let at = middle.0 - half;
                if !at.is_positive() {
                    continue;
                }
                let text = s.with(&[(place.place, s.moved(place, at))]);
                let why = format!("its seat is {} to {}", s.written(seat.from.0), s.written(seat.to.0));
                out.push(Mutant::new(text, format!("{} at {}", key.called(), s.written(at)), why));
            }
        }
    }
    out
}

/// Each groove with a bottom at and above the surface it lies on.
pub(crate) fn groove_up(s: &Sample) -> Vec<Mutant> {
    let row = sections(s);
    let mut out = Vec::new();
    for groove in &s.part.features {
        let (Kind::Groove { diameter, .. }, Some((a, b))) = (&groove.kind, s.chain.span(groove.id)) else { continue };
        if !s.is_plain(diameter) {
            continue;
        }
        let on = row.iter().filter(|x| x.from < a.max(b) && a.min(b) < x.to).map(|x| x.start.min(x.end)).min();
        let Some(around) = on else { continue };
        for thousandths in [1000, 1010, 1200] {
            let new = share(around, thousandths);
            let text = s.with(&[(diameter.place, s.moved(diameter, new))]);
            out.push(Mutant::new(
                text,
                format!("{} is {}", groove.called(), s.written(new)),
                format!("on {}", s.written(around)),
            ));
        }
    }
    out
}

/// Grooves, keyseats and holes counted from the wrong end, or past it.
pub(crate) fn off_the_part(s: &Sample) -> Vec<Mutant> {
    let mut out = Vec::new();
    for feature in &s.part.features {
        let (Kind::Groove { from: PlaceRef::FromDatum(place), .. }
        | Kind::Woodruff { at: PlaceRef::FromDatum(place), .. }
        | Kind::ParallelKeyseat { from: PlaceRef::FromDatum(place), .. }
        | Kind::CrossHole { at: PlaceRef::FromDatum(place), .. }) = &feature.kind
        else {
            continue;
        };
        for at in [overall(s), share(overall(s), 1200), -share(overall(s), 50)] {
            let text = s.with(&[(place.place, s.moved(place, at))]);
            out.push(Mutant::new(text, format!("{} at {}", feature.called(), s.written(at)), "it lies off the part"));
        }
    }
    out
}

/// Each chamfer longer than its section or deeper than its radius; each fillet taller than its step.
pub(crate) fn edge_too_large(s: &Sample) -> Vec<Mutant> {
    let row = sections(s);
    let mut out = Vec::new();
    for feature in &s.part.features {
        match &feature.kind {
            Kind::Chamfer { leg, at: EdgeAt::End(end), .. } => {
                let Some(section) = (if *end == End::Datum { row.first() } else { row.last() }) else { continue };
                let has = section.to - section.from;
                for new in [has + Length::micrometres(100), has.times(2)] {
                    let text = s.with(&[(leg.place, s.written(new))]);
                    out.push(Mutant::new(
                        text,
                        format!("chamfer {}", s.written(new)),
                        format!("section {}", s.written(has)),
                    ));
                }
            }
            Kind::Fillet { radius, at } => {
                let Some(at) = s.chain.station(at) else { continue };
                let (near, far) = (row.iter().find(|x| x.to == at), row.iter().find(|x| x.from == at));
                let (Some(near), Some(far)) = (near, far) else { continue };
                let step = (near.end - far.start).abs().half();
                for new in [share(step, 1050), step.times(2)] {
                    let text = s.with(&[(radius.place, s.written(new))]);
                    out.push(Mutant::new(
                        text,
                        format!("fillet {}", s.written(new)),
                        format!("step {}", s.written(step)),
                    ));
                }
            }
            _ => {}
        }
    }
    out
}

/// Each cross hole as large as its section and larger.
pub(crate) fn hole_too_large(s: &Sample) -> Vec<Mutant> {
    let row = sections(s);
    let mut out = Vec::new();
    for feature in &s.part.features {
        let (Kind::CrossHole { diameter, .. }, Some(at)) = (&feature.kind, s.chain.center(feature.id)) else {
            continue;
        };
        let Some(on) = row.iter().find(|x| x.from <= at && at < x.to) else { continue };
        for thousandths in [1000, 1200] {
            let new = share(on.start, thousandths);
            let text = s.with(&[(diameter.place, s.moved(diameter, new))]);
            out.push(Mutant::new(text, format!("hole {}", s.written(new)), format!("in {}", s.written(on.start))));
        }
    }
    out
}

/// Each center hole with a drill whose mouth is larger than the end it goes into.
pub(crate) fn center_too_large(s: &Sample) -> Vec<Mutant> {
    let row = sections(s);
    let mut out = Vec::new();
    for feature in &s.part.features {
        let Kind::CenterHole { size: Some(size), ends } = &feature.kind else { continue };
        // The drills of ASME B94.11M and ISO 866 with their body or mouth diameters (from memory).
        for (name, mouth) in [
            ("A 3/16", 7_900),
            ("A 1/4", 12_700),
            ("A 5", 10_600),
            ("A 6.3", 13_200),
            ("A 8", 17_000),
            ("A 10", 21_200),
        ] {
            let mouth = Length::micrometres(mouth);
            let end = [(End::Datum, row.first()), (End::Far, row.last())];
            let small = end.into_iter().filter(|(e, _)| ends.at(*e)).filter_map(|(e, x)| Some(x?.face(e))).min();
            let Some(small) = small.filter(|d| mouth > *d) else { continue };
            let at = s.at(feature.value).replace(&size.text, name);
            let text = s.with(&[(feature.value, at)]);
            out.push(Mutant::new(text, format!("center hole {name}"), format!("in {}", s.written(small))));
        }
    }
    out
}

/// Each stated diameter of a taper with both diameters and a rate changed; the diameter left out of one with a rate, stated wrong.
pub(crate) fn taper_changed(s: &Sample) -> Vec<Mutant> {
    let mut out = Vec::new();
    for feature in &s.part.features {
        let Kind::Taper { start, end, rate, .. } = &feature.kind else { continue };
        let entry = s.at(feature.place);
        let stated = |word: &str| entry.contains(word);
        if rate.text.contains("MT") || !(stated("large:") || stated("small:")) {
            continue;
        }
        if !(stated("large:") && stated("small:")) {
            let (word, size) = if stated("large:") { ("small", end) } else { ("large", start) };
            for thousandths in [980, 1020] {
                let new = s.written(share(size.nominal, thousandths));
                let text = s.with(&[(feature.place, format!("{}\n    {word}: {new}", entry.trim_end()))]);
                out.push(Mutant::new(text, format!("{word} {new}"), format!("the rate is {}", rate.text)));
            }
            continue;
        }
        for size in [start, end] {
            for thousandths in [980, 1020] {
                let new = share(size.nominal, thousandths);
                let text = s.with(&[(size.place, s.moved(size, new))]);
                out.push(Mutant::new(text, format!("taper {}", s.written(new)), format!("the rate is {}", rate.text)));
            }
        }
    }
    out
}
