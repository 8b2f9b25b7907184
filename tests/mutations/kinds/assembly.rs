//! What is carried, and what must pass.

use turnwright::model::feature::End;
use turnwright::model::{Carried, Kind};
use turnwright::unit::Length;

use super::Mutant;
use crate::mutations::sample::Sample;
use crate::mutations::shape::{Section, bar, beside, sections, share, way};

/// Each turned diameter made larger than the bar.
pub(crate) fn over_the_bar(s: &Sample) -> Vec<Mutant> {
    let Some(bar) = bar(s) else { return Vec::new() };
    let mut out = Vec::new();
    for section in sections(s) {
        let Some(size) = section.size() else { continue };
        for thousandths in [1004, 1050, 1250] {
            let new = share(bar.nominal, thousandths);
            let text = s.with(&[(size.place, s.moved(size, new))]);
            let why = format!("{} on a bar of {}", s.written(new), s.written(bar.nominal));
            out.push(Mutant::new(text, format!("{} is {}", section.feature.called(), s.written(new)), why));
        }
    }
    out
}

/// What is carried with a known bore, its seat's index, and the end it comes on from.
fn carried<'a>(s: &'a Sample, row: &[Section<'a>]) -> Vec<(usize, &'a Carried, Length, End)> {
    let mut out = Vec::new();
    for (i, section) in row.iter().enumerate() {
        let feature = &s.part.features[section.feature.id];
        for one in &feature.carries {
            if let (Some(bore), Some(from)) = (&one.bore, one.enters) {
                out.push((i, one, bore.max().max(bore.nominal), from));
            }
        }
    }
    out
}

/// Each diameter on the way of something carried made larger than its bore by one, five and twenty percent.
pub(crate) fn over_a_bore(s: &Sample) -> Vec<Mutant> {
    let row = sections(s);
    let mut out = Vec::new();
    for (seat, what, bore, from) in carried(s, &row) {
        for section in way(&row, seat, from) {
            let Some(size) = section.size() else { continue };
            for thousandths in [1010, 1050, 1200] {
                let new = share(bore, thousandths);
                if bar(s).is_none_or(|b| new >= b.nominal) || new <= size.nominal {
                    continue;
                }
                let text = s.with(&[(size.place, s.moved(size, new))]);
                let why = format!("the {} of {} must pass", what.part.text, s.written(bore));
                out.push(Mutant::new(text, format!("{} is {}", section.feature.called(), s.written(new)), why));
            }
        }
    }
    out
}

/// Each thing carried put on from the other end, where something larger stands.
pub(crate) fn wrong_end(s: &Sample) -> Vec<Mutant> {
    let row = sections(s);
    let mut out = Vec::new();
    for (seat, what, bore, from) in carried(s, &row) {
        let blocked = way(&row, seat, from.other()).iter().any(|x| x.start.max(x.end) > share(bore, 1010));
        let (old, new) = (format!("enters: {}", from.word()), format!("enters: {}", from.other().word()));
        let entry = s.at(what.place);
        if !blocked || !entry.contains(&old) {
            continue;
        }
        let text = s.with(&[(what.place, entry.replace(&old, &new))]);
        out.push(Mutant::new(text, format!("{} {new}", what.part.text), "something larger stands on that side"));
    }
    out
}

/// Each seat made larger and smaller than its bore, beyond every fit.
pub(crate) fn no_fit(s: &Sample) -> Vec<Mutant> {
    let row = sections(s);
    let mut out = Vec::new();
    for (seat, what, bore, _) in carried(s, &row) {
        let Some(size) = row[seat].size() else { continue };
        for thousandths in [900, 960, 980, 1010, 1030, 1100] {
            let new = share(bore, thousandths);
            let apart = (new - bore).abs();
            // The loosest running fits of small bores leave about .1 mm and more (ISO 286-2, c11, from memory).
            if bar(s).is_none_or(|b| new >= b.nominal) || apart < Length::micrometres(200) {
                continue;
            }
            let text = s.with(&[(size.place, s.moved(size, new))]);
            let why = format!("the bore of the {} is {}", what.part.text, s.written(bore));
            out.push(Mutant::new(text, format!("{} is {}", row[seat].feature.called(), s.written(new)), why));
        }
    }
    out
}

/// Two neighbouring digits of each diameter changed places, where that leaves the bar, the fit, or the way.
pub(crate) fn digits_swapped(s: &Sample) -> Vec<Mutant> {
    let row = sections(s);
    let mut out = Vec::new();
    for (i, section) in row.iter().enumerate() {
        let Some(size) = section.size() else { continue };
        for (written, new) in swaps(s, size) {
            let blocks = carried(s, &row).into_iter().find(|(seat, _, bore, from)| {
                let on_way = way(&row, *seat, *from).iter().any(|x| x.feature.id == section.feature.id);
                on_way && new > share(*bore, 1010)
            });
            let fits_not = carried(s, &row).into_iter().find(|(seat, _, bore, _)| {
                *seat == i && ((new - *bore).abs() > share(*bore, 20) && (new - *bore).abs() > Length::micrometres(250))
            });
            let over = bar(s).filter(|b| new > b.nominal);
            let why = match (blocks, fits_not, over) {
                (_, _, Some(b)) => format!("over the bar, {}", s.written(b.nominal)),
                (Some((_, what, bore, _)), ..) => format!("the {} of {} must pass", what.part.text, s.written(bore)),
                (_, Some((_, what, bore, _)), _) => {
                    format!("the bore of the {} is {}", what.part.text, s.written(bore))
                }
                _ => continue,
            };
            let text = s.with(&[(size.place, written.clone())]);
            out.push(Mutant::new(text, format!("{} is {written}", section.feature.called()), why));
        }
    }
    out
}

/// The size as written with two neighbouring digits of its nominal swapped, and what it then is.
fn swaps(s: &Sample, size: &turnwright::model::Size) -> Vec<(String, Length)> {
    use turnwright::model::LimitsFrom;
    let text = s.at(size.place);
    let number = text.split([' ', '+']).next().unwrap_or("");
    let plain = number.chars().all(|c| c.is_ascii_digit() || c == '.') && number.contains('.');
    if !plain || size.from == LimitsFrom::Written && text.contains("..") {
        return Vec::new();
    }
    let digits: Vec<char> = number.chars().collect();
    let mut out = Vec::new();
    for i in 1..digits.len() {
        let (a, b) = (digits[i - 1], digits[i]);
        if a == '.' || b == '.' || a == b {
            continue;
        }
        let mut swapped = digits.clone();
        swapped.swap(i - 1, i);
        let swapped: String = swapped.into_iter().collect();
        let Ok(value) = swapped.parse::<f64>() else { continue };
        out.push((format!("{swapped}{}", &text[number.len()..]), Length::from_f64(value, size.unit)));
    }
    out
}

/// Each relief and groove between two larger diameters made to less than 0.6 of the smaller one (the check's own limit, practice).
pub(crate) fn thin_neck(s: &Sample) -> Vec<Mutant> {
    let row = sections(s);
    let mut out = Vec::new();
    for (i, section) in row.iter().enumerate() {
        let (Kind::Relief { diameter, .. }, (Some(near), Some(far))) = (&section.feature.kind, beside(&row, i)) else {
            continue;
        };
        let smaller = near.working(End::Far).min(far.working(End::Datum));
        for thousandths in [590, 500, 400] {
            let new = share(smaller, thousandths);
            let text = s.with(&[(diameter.place, s.moved(diameter, new))]);
            let why = format!("beside it stands {}", s.written(smaller));
            out.push(Mutant::new(text, format!("{} is {}", section.feature.called(), s.written(new)), why));
        }
    }
    for groove in &s.part.features {
        let (Kind::Groove { diameter, .. }, Some((from, to))) = (&groove.kind, s.chain.span(groove.id)) else {
            continue;
        };
        if !s.is_plain(diameter) {
            continue;
        }
        let Some(on) = row.iter().find(|x| x.from <= from && to <= x.to && x.start == x.end) else { continue };
        for thousandths in [590, 450] {
            let new = share(on.working(End::Datum), thousandths);
            let text = s.with(&[(diameter.place, s.moved(diameter, new))]);
            out.push(Mutant::new(
                text,
                format!("{} is {}", groove.called(), s.written(new)),
                "much thinner than its section",
            ));
        }
    }
    out
}

/// Each ring groove moved along the part, where the ring then does not go in or leaves too much.
pub(crate) fn ring_moved(s: &Sample) -> Vec<Mutant> {
    let row = sections(s);
    let mut out = Vec::new();
    for groove in &s.part.features {
        let Kind::Groove { from: place, ring: Some(ring), .. } = &groove.kind else { continue };
        let Some((a, b)) = s.chain.span(groove.id) else { continue };
        let (low, high) = (a.min(b), a.max(b));
        let Some(i) = row.iter().position(|x| x.from <= low && high <= x.to) else { continue };
        let seat = &row[i];
        let held = s.part.features[seat.feature.id].carries.iter().find_map(|c| Some((c.wide.as_ref()?, c.enters?)));
        let Some((wide, enters)) = held else { continue };
        let turnwright::model::PlaceRef::Relative { size, .. } = place else { continue };
        for (toward, by) in [(true, 8), (true, 120), (true, 600), (false, 30), (false, 150)] {
            let by = Length::inch_tenths(i64::from(by) * 10);
            // A shoulder at the datum side lies at lower places.
            let up = (enters == End::Datum) == toward;
            let shift = if up { by } else { -by };
            let room = if enters == End::Datum { seat.to - (low + shift) } else { (high + shift) - seat.from };
            let needed = wide.nominal + ring.nominal;
            let play = room - needed;
            // Nominal play below zero cannot go in; over the limit of the check's page (.010 in, .25 mm; practice) it knocks.
            if play >= Length::ZERO && play <= Length::micrometres(260) {
                continue;
            }
            let text = s.with(&[(size.place, s.moved(size, size.nominal + shift))]);
            let why = format!("room {} for {}", s.written(room), s.written(needed));
            out.push(Mutant::new(text, format!("{} moved by {}", groove.called(), s.written(shift)), why));
        }
    }
    out
}

/// Each ring made thicker than its groove.
pub(crate) fn ring_thick(s: &Sample) -> Vec<Mutant> {
    let mut out = Vec::new();
    for groove in &s.part.features {
        let Kind::Groove { wide, ring: Some(ring), .. } = &groove.kind else { continue };
        for thousandths in [1050, 1300] {
            let new = share(wide.max(), thousandths);
            let text = s.with(&[(ring.place, s.moved(ring, new))]);
            out.push(Mutant::new(
                text,
                format!("ring of {}", s.written(new)),
                format!("groove of {}", s.written(wide.max())),
            ));
        }
    }
    out
}

/// Each fillet at the shoulder of something with a corner made as large as that corner and larger.
pub(crate) fn fillet_large(s: &Sample) -> Vec<Mutant> {
    let row = sections(s);
    let mut out = Vec::new();
    for section in &row {
        for one in &s.part.features[section.feature.id].carries {
            let (Some(corner), Some(enters)) = (&one.corner, one.enters) else { continue };
            let shoulder = if enters == End::Datum { section.to } else { section.from };
            let fillet = s.part.features.iter().find_map(|f| match &f.kind {
                Kind::Fillet { radius, at } => s.chain.station(at).filter(|p| *p == shoulder).map(|_| radius),
                _ => None,
            });
            let Some(radius) = fillet else { continue };
            for thousandths in [1010, 1100, 1500] {
                let new = share(corner.nominal, thousandths);
                let tail = if s.at(radius.place).contains("max") { " max" } else { "" };
                let text = s.with(&[(radius.place, format!("{}{tail}", s.written(new)))]);
                out.push(Mutant::new(
                    text,
                    format!("fillet {}", s.written(new)),
                    format!("the corner is {}", s.written(corner.nominal)),
                ));
            }
        }
    }
    out
}
