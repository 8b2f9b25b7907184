//! Lengths, and the bar.

use turnwright::model::PlaceRef;
use turnwright::unit::{Length, Station};

use super::Mutant;
use crate::mutations::sample::Sample;
use crate::mutations::shape::{bar, ends_at, sections, share};

/// Each face moved past the next one, and to or before the one before it.
pub(crate) fn past_a_neighbour(s: &Sample) -> Vec<Mutant> {
    let row = sections(s);
    let mut out = Vec::new();
    let least =
        if s.part.units == turnwright::unit::Unit::Inch { Length::inch_tenths(10) } else { Length::micrometres(20) };
    for (i, section) in row.iter().enumerate() {
        let Some(size) = ends_at(section) else { continue };
        let mut places = vec![section.from, section.from - least];
        if let Some(next) = row.get(i + 1) {
            places.extend([next.to, next.to + least, next.to + share(next.to - next.from, 300)]);
        }
        for at in places {
            if at == section.to || at <= Station::DATUM {
                continue;
            }
            let text = s.with(&[(size.place, s.moved(size, at.0))]);
            let why = format!(
                "its neighbours end at {} and {}",
                s.written(section.from.0),
                row.get(i + 1).map_or("the end".into(), |n| s.written(n.to.0))
            );
            out.push(Mutant::new(text, format!("{} ends at {}", section.feature.called(), s.written(at.0)), why));
        }
    }
    out
}

/// Two neighbouring sections written in the other order: their ends then go back.
pub(crate) fn swapped(s: &Sample) -> Vec<Mutant> {
    let row = sections(s);
    let mut out = Vec::new();
    for pair in row.windows(2) {
        let (a, b) = (&pair[0], &pair[1]);
        if ends_at(a).is_none() || ends_at(b).is_none() {
            continue;
        }
        let (first, second) = (a.feature.place, b.feature.place);
        let text = s.with(&[(first, s.at(second).to_owned()), (second, s.at(first).to_owned())]);
        let said = format!("{} before {}", b.feature.called(), a.feature.called());
        out.push(Mutant::new(text, said, "the second would end before it begins"));
    }
    out
}

/// The overall, where the last section states its own end, and where it would leave the last section no length.
pub(crate) fn overall_changed(s: &Sample) -> Vec<Mutant> {
    let (Some(overall), Some(last)) = (&s.part.overall, sections(s).pop()) else { return Vec::new() };
    let mut out = Vec::new();
    for thousandths in [500, 900, 990, 1010, 1100, 2000] {
        let new = share(overall.nominal, thousandths);
        let beyond = (new - overall.nominal).abs() > overall.limits_or_nominal().band();
        let wrong = (ends_at(&last).is_some() && beyond) || new <= last.from.0;
        if wrong {
            let text = s.with(&[(overall.place, s.moved(overall, new))]);
            out.push(Mutant::new(text, format!("overall {}", s.written(new)), "the sections end elsewhere"));
        }
    }
    out
}

/// Each required distance changed by more than its own limits.
pub(crate) fn requirement_changed(s: &Sample) -> Vec<Mutant> {
    let mut out = Vec::new();
    for dim in s.part.dims.iter().filter(|d| !d.is.reference) {
        let band = dim.is.limits_or_nominal().band().max(Length::micrometres(20));
        for times in [-10, -2, 2, 10] {
            let new = dim.is.nominal + band.times(times);
            let text = s.with(&[(dim.is.place, s.moved(&dim.is, new))]);
            out.push(Mutant::new(text, format!("dims: {}", s.written(new)), "the lengths give another distance"));
        }
    }
    out
}

/// Each stated face of a required distance moved by more than the distance allows.
pub(crate) fn required_face_moved(s: &Sample) -> Vec<Mutant> {
    let row = sections(s);
    let mut out = Vec::new();
    for dim in s.part.dims.iter().filter(|d| !d.is.reference) {
        let band = dim.is.limits_or_nominal().band().max(Length::micrometres(20));
        let places: Vec<Station> = [&dim.from, &dim.to].into_iter().filter_map(|p| s.chain.station(p)).collect();
        // A place that is written as a number would then name no face at all, which is another matter.
        if matches!(dim.from, PlaceRef::FromDatum(_)) || matches!(dim.to, PlaceRef::FromDatum(_)) {
            continue;
        }
        for (i, section) in row.iter().enumerate().filter(|(_, x)| places.contains(&x.to)) {
            let (Some(size), Some(next)) = (ends_at(section), row.get(i + 1)) else { continue };
            for times in [-3, 2, 3] {
                let at = section.to + band.times(times);
                if at <= section.from || next.to <= at {
                    continue;
                }
                let text = s.with(&[(size.place, s.moved(size, at.0))]);
                let said = format!("{} ends at {}", section.feature.called(), s.written(at.0));
                out.push(Mutant::new(text, said, format!("{} is asked", s.at(dim.is.place))));
            }
        }
    }
    out
}

/// The bar thinner than the largest that is turned.
pub(crate) fn thin_bar(s: &Sample) -> Vec<Mutant> {
    let (Some(bar), row) = (bar(s), sections(s)) else { return Vec::new() };
    let turned = row.iter().filter(|x| x.size().is_some() || x.thread().is_some());
    let Some(largest) = turned.map(|x| x.start.max(x.end)).max() else { return Vec::new() };
    let sizes = [share(largest, 999), share(largest, 950), share(largest, 700), share(largest, 1001)];
    let made = sizes.into_iter().map(|new| {
        let text = s.with(&[(bar.place, s.written(new))]);
        Mutant::new(text, format!("bar {}", s.written(new)), format!("{} is turned", s.written(largest)))
    });
    made.collect()
}

/// The saw length down to the overall and below it.
pub(crate) fn short_bar(s: &Sample) -> Vec<Mutant> {
    let (Some(stock), Some(overall)) = (&s.part.stock, &s.part.overall) else { return Vec::new() };
    let lengths = [overall.max(), overall.nominal, share(overall.nominal, 990), share(overall.nominal, 700)];
    let made = lengths.into_iter().map(|new| {
        let text = s.with(&[(stock.length.place, s.written(new))]);
        Mutant::new(text, format!("sawn {}", s.written(new)), format!("the part is {}", s.written(overall.max())))
    });
    made.collect()
}
