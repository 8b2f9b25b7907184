//! What each letter of the part picture is.

use super::Sources;
use super::size::{both_ends, with_limits};
use crate::figures::{kind_word, mate_word};
use crate::handbook::iso_2768;
use crate::model::feature::{FlatMeasure, Hand};
use crate::model::{Feature, Kind, LimitsFrom, Size};
use crate::sheet::blocks;
use crate::sheet::view::LegendRow;
use crate::sheet::words;
use crate::unit::{Length, show};
use crate::{tell, told};

/// One row a letter, then what the lengths without limits mean.
pub(super) fn rows(s: &Sources) -> Vec<LegendRow> {
    let lettered = s.part.features.iter().filter(|f| !f.letter.is_empty());
    let mut rows: Vec<LegendRow> = lettered
        .map(|f| {
            let (size, what) = described(s, f);
            blocks::legend_row(&f.letter, &words::name(&size), &words::name(&what))
        })
        .collect();
    rows.extend(edges(s));
    rows.extend(general(s));
    rows
}

fn described(s: &Sources, f: &Feature) -> (String, String) {
    let place = |id: usize| s.chain.span(id).map_or(String::new(), |(_, to)| s.length(to.0));
    let name = f.name.as_ref().map(|n| n.text.clone());
    let finish = f.finish.as_ref().map(|f| f.text.clone());
    let or = |name: Option<String>, other: String| name.unwrap_or(other);
    let (size, what) = match &f.kind {
        Kind::Turn { diameter, kept, .. } => {
            let kind = if *kept { words::KEPT.say().to_owned() } else { words::to(&place(f.id)) };
            let what = match (&name, diameter.from) {
                (Some(n), LimitsFrom::Fit) => format!("{}, {n}", diameter.text),
                (None, LimitsFrom::Fit) => format!("{}, {kind}", diameter.text),
                _ => or(name, kind),
            };
            let shape = s.part.stock.as_ref().filter(|_| *kept).map_or("", |s| words::shape(s.shape));
            let mark = if shape.is_empty() { "Ø" } else { shape };
            (format!("{mark} {}", if *kept { kept_size(s, diameter) } else { with_limits(s, diameter) }), what)
        }
        Kind::Relief { diameter, .. } => (
            format!("Ø {}", with_limits(s, diameter)),
            or(name, tell!("relief {}", "Freistich {}", words::to(&place(f.id)))),
        ),
        Kind::Thread { thread, .. } => {
            let hand = if thread.hand == Hand::Left && !thread.designation.ends_with("LH") { " LH" } else { "" };
            (format!("{}{hand}", thread.designation), or(name, words::to(&place(f.id))))
        }
        Kind::Taper { start, end, rate, .. } => (
            tell!("Ø {} to {}", "Ø {} auf {}", s.length(start.nominal), s.length(end.nominal)),
            or(name, tell!("taper {}", "Kegel {}", rate.text)),
        ),
        Kind::Knurl { knurl, .. } => (
            tell!("knurl {}, {}", "Rändel {}, {}", words::pattern(knurl.pattern), kind_word(&knurl.pitch_text)),
            or(name, words::to(&place(f.id))),
        ),
        Kind::Undercut { undercut, .. } => {
            let plain = || {
                tell!(
                    "undercut {} × {}",
                    "Freistich {} × {}",
                    s.length(undercut.depth.middle()),
                    s.length(undercut.width)
                )
            };
            let size = if undercut.designation.is_empty() { plain() } else { undercut.designation.clone() };
            (size, or(name, told!("undercut", "Freistich").to_owned()))
        }
        Kind::Flats { size, measure, .. } => {
            let how = match measure {
                FlatMeasure::Across => told!("across", "Schlüsselweite"),
                FlatMeasure::ToFarSide => told!("to the far side", "zur Gegenseite"),
                FlatMeasure::Deep => told!("deep", "tief"),
            };
            (format!("{} {} {how}", kind_word(f.kind.word()), with_limits(s, size)), or(name, words::to(&place(f.id))))
        }
        Kind::Groove { diameter, wide, fits, .. } => (
            format!("Ø {}", with_limits(s, diameter)),
            tell!(
                "{}, {} wide",
                "{}, {} breit",
                or(name, fits.as_ref().map_or(told!("groove", "Einstich").to_owned(), |f| mate_word(&f.text))),
                s.length(wide.nominal)
            ),
        ),
        Kind::Woodruff { number, .. } => (format!("Woodruff {number}"), or(name, words::at(&center(s, f)))),
        Kind::ParallelKeyseat { width, height, length, .. } => {
            let own = |x: &Size| show::exact(x.nominal, x.unit, 0, 4);
            (
                tell!("key {} × {} × {}", "Passfeder {} × {} × {}", own(width), own(height), own(length)),
                or(name, told!("keyseat", "Nut").to_owned()),
            )
        }
        Kind::CrossHole { tapped: Some(thread), .. } => {
            (thread.designation.clone(), or(name, words::at(&center(s, f))))
        }
        Kind::CrossHole { diameter, .. } => {
            (tell!("hole Ø {}", "Loch Ø {}", with_limits(s, diameter)), or(name, words::at(&center(s, f))))
        }
        Kind::Inside(inside) => super::inside::described(s, f, inside),
        Kind::Chamfer { .. } | Kind::Crown { .. } | Kind::Fillet { .. } | Kind::CenterHole { .. } => {
            (String::new(), String::new())
        }
        Kind::Eccentric { diameter, .. } => {
            let off = f.offset.as_ref().map_or(String::new(), |o| with_limits(s, o));
            let off = tell!("eccentric, {off} off the axis", "Exzenter, {off} außermittig");
            let what = name.map_or(off.clone(), |n| format!("{n}: {off}"));
            (format!("Ø {}", with_limits(s, diameter)), what)
        }
        Kind::NotYet { word, .. } => (words::not_worked(word), or(name, String::new())),
    };
    (size, finish.map_or(what.clone(), |f| format!("{what}, {f}")))
}

fn center(s: &Sources, f: &Feature) -> String {
    s.chain.center(f.id).map_or(String::new(), |c| s.length(c.0))
}

fn kept_size(s: &Sources, diameter: &Size) -> String {
    if diameter.from == LimitsFrom::Written { with_limits(s, diameter) } else { s.length(diameter.nominal) }
}

/// Inside corners, which no letter names.
fn edges(s: &Sources) -> Vec<LegendRow> {
    let fillets = s.part.features.iter().filter_map(|f| match &f.kind {
        Kind::Fillet { radius, at } => {
            let place = s.chain.station(at).map_or(String::new(), |p| s.length(p.0));
            Some(blocks::legend_row("", &words::corner(&s.length(radius.max())), &words::at(&place)))
        }
        Kind::Crown { crown } => {
            let (asked, follows) = if crown.high {
                (
                    tell!("crown {} high", "Wölbung {} hoch", with_limits(s, &crown.size)),
                    tell!("radius {}", "Radius {}", s.length(crown.radius)),
                )
            } else {
                (
                    tell!("crown radius {}", "Wölbung Radius {}", with_limits(s, &crown.size)),
                    tell!("{} high", "{} hoch", s.length(crown.height)),
                )
            };
            Some(blocks::legend_row("", &asked, &words::at_end(&follows, crown.end)))
        }
        _ => None,
    });
    fillets.collect()
}

/// What sizes without limits mean, and the overall.
fn general(s: &Sources) -> Vec<LegendRow> {
    let general = &s.part.general;
    let limits = |(up, down): (Length, Length)| {
        if up == -down { format!("±{}", s.length(up)) } else { both_ends(s, crate::unit::Limits::new(down, up)) }
    };
    let mut rows: Vec<LegendRow> = Vec::new();
    let mut said: Vec<String> = Vec::new();
    said.extend(general.lengths.map(|l| tell!("lengths {}", "Längen {}", limits(l))));
    said.extend(general.diameters.map(|l| tell!("diameters {}", "Durchmesser {}", limits(l))));
    said.extend(general.by_places.iter().map(|(n, half)| {
        if *n == 1 {
            tell!("1 decimal ±{}", "1 Stelle ±{}", s.length(*half))
        } else {
            tell!("{n} decimals ±{}", "{n} Stellen ±{}", s.length(*half))
        }
    }));
    rows.extend(general.iso_2768.map(|class| {
        let minutes = |mm: i64| iso_2768::angle_minutes(class, Length::PER_MM.times(mm)).unwrap_or_default();
        let angle = |m: i64| if m % 60 == 0 { format!("{}°", m / 60) } else { format!("{m}′") };
        let angles = tell!(
            "angles ±{} to a 10 mm side, ±{} to 50 mm",
            "Winkel ±{} bis 10 mm Schenkel, ±{} bis 50 mm",
            angle(minutes(10)),
            angle(minutes(50))
        );
        blocks::legend_row("", &format!("ISO 2768-{class}"), &angles)
    }));
    said.extend(s.part.overall.as_ref().map(|o| tell!("overall {}", "gesamt {}", with_limits(s, o))));
    let pairs = said.chunks(2);
    rows.extend(pairs.map(|pair| blocks::legend_row("", &pair[0], pair.get(1).map_or("", String::as_str))));
    rows
}
