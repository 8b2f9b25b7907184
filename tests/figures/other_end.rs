//! The same part measured from its other end is the same part: sizes, lengths, the least minutes, and what the dials count.

use std::collections::BTreeMap;

use crate::figures::hand::shop;
use crate::figures::planned::{Worked, everything, worked};
use crate::figures::written::Written;
use crate::planning::generated::believable;
use turnwright::chain;
use turnwright::figures::{OperationFigures, SpeedLimit};
use turnwright::model::part::Holding;
use turnwright::model::plan::Verb;
use turnwright::model::shop::Reads;
use turnwright::model::{End, Kind, Part, Plan, Shop};
use turnwright::unit::{Length, Limits, show};

/// `+0.002/-0.004` counted the other way is `+0.004/-0.002`.
fn deviations_swapped(tolerance: &str) -> String {
    match tolerance.split_once('/') {
        Some((plus, minus)) if plus.starts_with('+') => {
            format!("+{}/-{}", minus.trim_start_matches('-'), &plus[1..])
        }
        _ => tolerance.to_owned(),
    }
}

/// A signed distance counted the other way.
fn counted_back(size: &str) -> String {
    let (number, tolerance) = size.split_once(' ').unwrap_or((size, ""));
    let number = match number.strip_prefix('-') {
        Some(inward) => inward.to_owned(),
        None => format!("-{number}"),
    };
    format!("{number} {}", deviations_swapped(tolerance)).trim_end().to_owned()
}

/// A place as it is written when the far end is the datum.
fn place(text: &str) -> String {
    if let Some((size, of)) = text.split_once(" from ") {
        let inward = size.strip_prefix('-').unwrap_or(size);
        return match of {
            "end" | "far" | "far end" => inward.to_owned(),
            of => format!("{} from {}", counted_back(size), place(of)),
        };
    }
    let names_a_face = |from: &str, to: &str| text.strip_suffix(from).map(|name| format!("{name}{to}"));
    match text {
        "end" | "far" | "far end" => "datum".to_owned(),
        _ if text.starts_with(|c: char| c.is_ascii_digit() || c == '.') => {
            let nothing = text.chars().all(|c| "0.".contains(c));
            if nothing { "end".to_owned() } else { format!("{text} from end") }
        }
        _ => names_a_face(" start", " end").or_else(|| names_a_face(" end", " start")).expect("a face"),
    }
}

fn end_word(word: &str) -> String {
    match word {
        "datum" => "far",
        "far" => "datum",
        other => other,
    }
    .to_owned()
}

/// One entry, section or not, seen from the other end. Its `to` is left to the section before it.
fn entry(e: &Written, kind: &Kind, unit: turnwright::unit::Unit) -> Written {
    let mut out = e.clone();
    let long = |length: Length| show::exact(length, unit, 0, 9);
    for key in ["end", "enters", "tapers to", "open"] {
        if let Some(word) = e.word(key) {
            out.put(key, end_word(word));
        }
    }
    if let Some(at) = e.word("at") {
        out.put("at", place(at));
    }
    let back_by = |wide: Length| format!("-{} from {}", long(wide), place(e.word("from").expect("a place")));
    match kind {
        Kind::Groove { wide, .. } => out.put("from", back_by(wide.nominal)),
        Kind::ParallelKeyseat { length, .. } => out.put("from", back_by(length.nominal)),
        Kind::Flats { .. } => {
            out.put("from", place(e.word("to").expect("a place")));
            out.put("to", place(e.word("from").expect("a place")));
        }
        Kind::Taper { start, end, .. } => {
            // Seen from the other end it gets smaller the other way.
            out.put("tapers to", if start.nominal > end.nominal { "datum" } else { "far" });
        }
        Kind::Inside(_) => assert!(e.word("to").is_none() && e.word("from").is_none(), "depths alone: {e:?}"),
        Kind::NotYet { .. } => panic!("not turned round yet: {e:?}"),
        _ => {}
    }
    if let Some(angle) = e.word("angle").filter(|a| *a != "0") {
        out.put("angle", format!("{}", 360.0 - angle.trim_end_matches('°').parse::<f64>().expect("degrees")));
    }
    if let Written::Keys(keys) = &mut out {
        for (_, value) in keys.iter_mut().filter(|(key, _)| key == "carries") {
            let turned = |carried: &Written| {
                let mut carried = carried.clone();
                if let Some(word) = carried.word("enters").map(end_word) {
                    carried.put("enters", word);
                }
                carried
            };
            *value = match &*value {
                Written::List(list) => Written::List(list.iter().map(turned).collect()),
                one => turned(one),
            };
        }
    }
    out
}

/// The description of the same part with the far end as its datum, and the new index of each of its features.
pub(crate) fn turned_round(text: &str, part: &Part, first: End) -> (String, Vec<usize>) {
    let tree = Written::of(text);
    let Some(Written::List(entries)) = tree.get("features") else { panic!("features") };
    let inside: &[Written] = match tree.get("inside") {
        Some(Written::List(list)) => list,
        _ => &[],
    };
    let kinds: Vec<&Kind> = part.features.iter().map(|f| &f.kind).collect();
    // A chamfer of both ends is two features, the second of them behind all that is written.
    let written: Vec<&Written> = entries.iter().chain(inside).collect();
    let twice: Vec<usize> = (0..entries.len())
        .filter(|i| matches!(kinds[*i], Kind::Chamfer { .. }) && entries[*i].word("end") == Some("both"))
        .collect();
    assert_eq!(written.len() + twice.len(), kinds.len(), "every feature is written");
    let new = |i: usize| {
        let mut out = match written.get(i) {
            Some(e) => entry(e, kinds[i], part.units),
            None => entries[twice[i - written.len()]].clone(),
        };
        if i >= written.len() || twice.contains(&i) {
            out.put("end", if i < written.len() { "far" } else { "datum" });
        }
        out
    };
    let is_section: Vec<bool> = kinds.iter().take(entries.len()).map(|k| k.is_section()).collect();
    let sections: Vec<usize> = (0..entries.len()).filter(|i| is_section[*i]).collect();
    let mut order: Vec<usize> = sections.iter().rev().copied().collect();
    let mut list: Vec<Written> = Vec::new();
    for (i, section) in sections.iter().enumerate().rev() {
        let mut section = new(*section);
        section.drop_key("long");
        let before = i.checked_sub(1).map(|b| entries[sections[b]].word("to").expect("where it ends"));
        section.put("to", before.map_or_else(|| "end".to_owned(), place));
        list.push(section);
    }
    for i in (0..entries.len()).filter(|i| !is_section[*i]) {
        order.push(i);
        list.push(new(i));
    }
    for i in written.len()..kinds.len() {
        order.push(i);
        list.push(new(i));
    }
    order.extend(entries.len()..written.len());
    let mut whole = tree.clone();
    for key in ["accept", "notes"] {
        whole.drop_key(key);
    }
    whole.put("datum", "the other end");
    let first = end_word(first.word());
    let mut wishes = match whole.get("plan") {
        Some(wishes) => wishes.clone(),
        None => Written::Keys(Vec::new()),
    };
    wishes.put("first end", first);
    whole.drop_key("plan");
    if let Written::Keys(keys) = &mut whole {
        keys.push(("plan".to_owned(), wishes));
    }
    for d in whole.entries("dims") {
        let (from, to) = (place(d.word("from").expect("from")), place(d.word("to").expect("to")));
        d.put("from", to);
        d.put("to", from);
    }
    if let Written::Keys(keys) = &mut whole {
        for (key, value) in keys {
            match key.as_str() {
                "features" => *value = Written::List(list.clone()),
                "inside" => *value = Written::List((entries.len()..written.len()).map(new).collect()),
                _ => {}
            }
        }
    }
    let mut index = vec![0; order.len()];
    for (now, old) in order.iter().enumerate() {
        index[*old] = now;
    }
    (whole.text(), index)
}

/// The same without the wish which end is turned first.
fn as_it_comes(text: &str) -> String {
    let mut tree = Written::of(text);
    let wishes = tree.get("plan").map(|w| {
        let mut wishes = w.clone();
        wishes.drop_key("first end");
        wishes
    });
    tree.drop_key("plan");
    if let (Written::Keys(keys), Some(Written::Keys(left))) = (&mut tree, wishes)
        && !left.is_empty()
    {
        keys.push(("plan".to_owned(), Written::Keys(left)));
    }
    tree.text()
}

/// What an operation is, whichever end is the datum: verb, feature, diameters, limits.
type What = (Verb, Option<usize>, Option<Length>, Option<Length>, Option<Limits>, bool);

/// The figures of each kind of operation; the features of the second reading are told by those of the first.
fn by_what<'w>(w: &'w Worked, index: &[usize]) -> BTreeMap<String, Vec<&'w OperationFigures>> {
    let mut out: BTreeMap<String, Vec<&OperationFigures>> = BTreeMap::new();
    let figures = w.figures.setups.iter().flat_map(|s| &s.operations);
    for ((_, op), f) in w.plan.operations().zip(figures) {
        let feature = op.feature.map(|f| index.iter().position(|new| *new == f).expect("a feature"));
        let what: What = (op.verb, feature, op.from_diameter, op.to_diameter, op.limits, op.inside);
        out.entry(format!("{what:?}")).or_default().push(f);
    }
    // Two center holes are told apart by their drills, whichever is drilled first.
    for list in out.values_mut() {
        list.sort_by_key(|f| f.speed.as_ref().map(|s| s.diameter.value));
    }
    out
}

fn is_turning(verb: Verb) -> bool {
    matches!(verb, Verb::Rough | Verb::Finish | Verb::Turn)
}

/// Whether both faces are cut before anything is turned, which then is between centers, and nothing is bored.
fn faces_first(plan: &Plan) -> bool {
    let turned = plan.operations().position(|(_, o)| is_turning(o.verb)).unwrap_or(0);
    let count = |n: usize| plan.operations().take(n).filter(|(_, o)| o.verb == Verb::Face).count();
    (count(turned), count(usize::MAX)) == (2, 2)
        && plan.operations().nth(turned).is_some_and(|(s, _)| s.holding == Holding::BetweenCenters)
        && !plan.operations().any(|(_, o)| o.verb == Verb::Bore)
}

/// What was compared: plans whose minutes must agree, operations of the first, of them those the second has too, dial readings.
#[derive(Default, Debug)]
pub(crate) struct Seen {
    plans: usize,
    unasked: usize,
    operations: usize,
    alike: usize,
    dials: usize,
    limits: usize,
}

/// Reads the part turned round, plans it, and holds it against the first.
pub(crate) fn the_same_from_the_other_end(text: &str, w: &Worked, shop: Option<&Shop>, seen: &mut Seen) {
    let first = w.plan.operations().find(|(_, o)| is_turning(o.verb)).and_then(|(s, _)| s.works).unwrap_or(End::Datum);
    let (other, index) = turned_round(text, &w.part, first);
    let back = worked(other.as_bytes(), shop);
    let name = &w.part.name.text;
    let (one, two) = (chain::locate(&w.part), chain::locate(&back.part));
    let overall = w.part.overall.as_ref().expect("an overall").nominal;
    for (old, new) in index.iter().enumerate() {
        let (a, b) = (one.span(old), two.span(*new));
        let turned = b.map(|(from, to)| (to.from_far_end(overall), from.from_far_end(overall)));
        assert_eq!(a.map(|(f, t)| (f.0, t.0)), turned, "{name}: {:?}", w.part.features[old].kind);
    }
    assert!(w.plan.proven_optimal && back.plan.proven_optimal, "{name}: {text}");
    // The datum face is cut before the other (R21). Where an end is turned before the other is faced, or stays in the chuck after its face, the order and
    // with it the minutes differ, and a bore from end to end goes with the datum end. Between centers nothing of the minutes may differ.
    if faces_first(&w.plan) && faces_first(&back.plan) {
        seen.plans += 1;
        assert!((w.plan.cost - back.plan.cost).abs() < 1e-6, "{name}: {} and {} minutes", w.plan.cost, back.plan.cost);
        // Nor where nobody says which end comes first: whichever is listed first, both ways round are searched.
        let unasked = w.part.wishes.first_end.is_none().then(|| worked(as_it_comes(&other).as_bytes(), shop));
        if let Some(free) = unasked.filter(|free| faces_first(&free.plan)) {
            seen.unasked += 1;
            let (one, other) = (w.plan.cost, free.plan.cost);
            assert!((one - other).abs() < 1e-6, "{name}: {one} and, with no first end asked, {other} minutes");
        }
    }
    let (first, second) = (by_what(w, &(0..index.len()).collect::<Vec<_>>()), by_what(&back, &index));
    // Slender work gives way by how it is held, and it is held otherwise: where cuts are eased for that, there are as many as the holding wants.
    let eased = [w, &back].iter().any(|w| w.plan.operations().any(|(_, o)| o.lighter.is_some()));
    for (what, list) in &first {
        seen.operations += list.len();
        for (x, y) in list.iter().zip(second.get(what).into_iter().flatten()) {
            seen.alike += 1;
            assert_eq!((x.aim, &x.limits, &x.feed), (y.aim, &y.limits, &y.feed), "{name}: {what}");
            assert!(eased || x.passes == y.passes, "{name}: {what}: {:?}, {:?}", x.passes, y.passes);
            // From the other end it may stand out of the jaws farther, or less far.
            let far_out = |f: &OperationFigures| f.speed.as_ref().is_some_and(|s| s.by == SpeedLimit::Overhang);
            assert!(x.speed == y.speed || far_out(x) != far_out(y), "{name}: {what}: {:?}, {:?}", x.speed, y.speed);
            if let (Some(x), Some(y)) = (x.cross_dial, y.cross_dial) {
                assert_eq!(x.infeed, y.infeed, "{name}: {what}");
                seen.dials += 1;
            }
        }
    }
    // What is inspected: each of the first; a groove and a keyseat written from their other wall add the distance between the two.
    let limits = |w: &Worked| w.figures.inspection.iter().map(|r| r.limits.exact).collect::<Vec<_>>();
    let mut rest = limits(&back);
    for wanted in limits(w) {
        let at = rest.iter().position(|l| *l == wanted);
        rest.swap_remove(at.unwrap_or_else(|| panic!("{name}: {wanted:?} is not inspected from the other end")));
    }
    let rewritten =
        w.part.features.iter().filter(|f| matches!(f.kind, Kind::Groove { .. } | Kind::ParallelKeyseat { .. })).count();
    assert!(rest.len() <= rewritten, "{name}: {rest:?}");
    seen.limits += limits(w).len();
}

#[test]
fn every_part_may_be_measured_from_its_other_end() {
    let mut seen = Seen::default();
    for (text, w, shop) in everything() {
        the_same_from_the_other_end(&text, &w, shop.as_ref(), &mut seen);
    }
    eprintln!("{seen:?}");
    assert!(seen.operations > 200 && seen.alike * 10 > seen.operations * 9 && seen.dials > 60, "{seen:?}");
}

#[test]
fn a_random_part_may_be_measured_from_its_other_end() {
    let (own, mut seen) = (shop(Reads::Radius), Seen::default());
    for seed in 0..40 {
        let text = believable(seed).text;
        the_same_from_the_other_end(&text, &worked(text.as_bytes(), Some(&own)), Some(&own), &mut seen);
    }
    eprintln!("{seen:?}");
    assert!(
        seen.plans > 5 && seen.unasked > 5 && seen.operations > 500 && seen.alike * 10 > seen.operations * 8,
        "{seen:?}"
    );
}
