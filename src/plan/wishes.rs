//! The person's own wishes: what goes before what, what stays together. A wish outweighs soft rules; one that a hard rule
//! forbids is not followed, and is told with the rule.

use crate::model::plan::{Derived, OUTWEIGHED, Operation, Refused, Unheeded, Verb, Why};
use crate::model::{End, Kind, Part, Text};

use super::derive::Layout;
use super::precede::{Pairs, Switches, covers, is_cut, is_slot_kind, pairs};
use super::rules::{Use, asked, because, rule};
use super::wish_words::{Named, instead, read};
use crate::{tell, told};

/// Adds what the description asks to the pairs of a derivation.
pub(super) fn apply(part: &Part, layout: &Layout, switches: &Switches, derived: &mut Derived) {
    for text in &switches.refused {
        let why = match rule(&text.text) {
            Some(r) => because(r.id, tell!("a hard rule stays on: {}", "eine harte Regel bleibt: {}", r.text)),
            None => because("wish", told!("there is no such rule", "diese Regel gibt es nicht")),
        };
        derived.unheeded.push(Unheeded { place: Some(text.place), wish: format!("off: {}", text.text), why });
    }
    let metal = part.wishes.off.iter().filter(|t| rule(&t.text).is_some_and(|r| r.used == Use::Allowance && !r.hard));
    for text in metal {
        let why = because(
            "R4",
            told!(
                "some metal must be left for the finish cuts: say how much with `finish allowance:`",
                "etwas Metall muss für das Schlichten bleiben: mit `finish allowance:` sagen, wie viel"
            ),
        );
        derived.unheeded.push(Unheeded { place: Some(text.place), wish: format!("off: {}", text.text), why });
    }
    for (first, then) in &part.wishes.before {
        before(part, layout, switches, derived, first, then);
    }
    for (one, other) in &part.wishes.together {
        together(part, derived, one, other);
    }
    if let Some(end) = part.wishes.first_end {
        first_end(derived, end, part);
    }
}

/// The planned operations a wish speaks of.
fn planned(operations: &[(Operation, Vec<usize>)], named: &Named) -> Vec<usize> {
    (0..operations.len()).filter(|i| speaks_of(named, &operations[*i].0)).collect()
}

fn speaks_of(named: &Named, o: &Operation) -> bool {
    let works = named.feature.is_none_or(|f| covers(o, f)) && named.end.is_none_or(|e| o.end == Some(e));
    match &named.verbs[..] {
        [] => works && (is_cut(o) || matches!(o.verb, Verb::Mill | Verb::Drill)),
        verbs => works && verbs.contains(&o.verb),
    }
}

/// Whether a wish has one operation done before another.
pub(super) fn asked_before(part: &Part, first: &Operation, then: &Operation) -> bool {
    part.wishes.before.iter().any(|(a, b)| {
        let named = read(part, &a.text).zip(read(part, &b.text));
        named.is_some_and(|(a, b)| speaks_of(&a, first) && speaks_of(&b, then))
    })
}

fn is_heat_treatment(named: &Named) -> bool {
    named.verbs[..] == [Verb::HeatTreat]
}

/// Whether a wish about order names the heat treatment.
pub(super) fn names_heat_treatment(part: &Part) -> bool {
    let heat = |t: &Text| read(part, &t.text).is_some_and(|n| is_heat_treatment(&n));
    part.wishes.before.iter().any(|(a, b)| heat(a) || heat(b))
}

/// Which words of a pair name nothing, and what to write.
fn says_nothing(part: &Part, one: &Text, other: &Text) -> String {
    let unread = [one, other].into_iter().filter(|t| read(part, &t.text).is_none());
    unread.map(|t| instead(part, &t.text)).collect::<Vec<_>>().join("; ")
}

fn before(part: &Part, layout: &Layout, switches: &Switches, derived: &mut Derived, first: &Text, then: &Text) {
    let wish = format!("{} before {}", first.text, then.text);
    let (Some(a), Some(b)) = (read(part, &first.text), read(part, &then.text)) else {
        let why = because("wish", says_nothing(part, first, then));
        derived.unheeded.push(Unheeded { place: Some(first.place), wish, why });
        return;
    };
    let (mut firsts, mut thens) = (planned(&derived.operations, &a), planned(&derived.operations, &b));
    if is_heat_treatment(&a) && b.verbs.is_empty() {
        // A thread after hardening is its cutting, with what one holding asks for; it is roughed soft.
        thens.retain(|y| derived.operations[*y].0.verb != Verb::Rough);
    } else if is_heat_treatment(&b) && a.verbs.is_empty() {
        firsts.retain(|x| derived.operations[*x].0.verb != Verb::Polish);
    }
    if firsts.is_empty() || thens.is_empty() {
        unplanned(part, layout, switches, derived, (&a, &b), first, wish);
        return;
    }
    for x in &firsts {
        for y in thens.iter().filter(|y| *y != x) {
            let place = first.place;
            let request = Request { place, wish: &wish, x: *x, y: *y };
            ask(derived, &request);
        }
    }
}

/// One pair of operations a wish puts in order.
struct Request<'a> {
    place: crate::finding::Place,
    wish: &'a str,
    x: usize,
    y: usize,
}

/// Follows a wish: against hard rules it is refused; soft rules in its way give way.
fn ask(derived: &mut Derived, request: &Request) {
    let Request { place, wish, x, y } = *request;
    let hard = |w: &Why| w.rule == "wish" || rule(w.rule).is_none_or(|r| r.hard);
    if let Some(path) = fewest_rules(&derived.before, y, x, hard) {
        let why = all_of(&derived.before, &path);
        let word = |i: usize| {
            let o = &derived.operations[i].0;
            (o.verb, o.feature)
        };
        if !derived.refused.iter().any(|r| r.place == place && r.wish == wish) {
            let refused = Refused { place, wish: wish.to_owned(), first: word(x), then: word(y), why };
            derived.refused.push(refused);
        }
        return;
    }
    while let Some(found) = path(&derived.before, y, x, |_| true) {
        let Some(soft) = found.into_iter().find(|e| !hard(&derived.before[*e].2)) else { break };
        let (_, _, why) = derived.before.remove(soft);
        let why = Why { reason: format!("{OUTWEIGHED}`{wish}`: {}", why.reason), ..why };
        if !derived.outweighed.contains(&why) {
            derived.outweighed.push(why);
        }
    }
    derived.before.push((x, y, because("wish", tell!("asked for: {wish}", "verlangt: {wish}"))));
}

/// A way on which no rule and no wish can be done without: the shortest, then without each of them where the others make one.
fn fewest_rules(
    pairs: &[(usize, usize, Why)],
    from: usize,
    to: usize,
    counts: impl Fn(&Why) -> bool,
) -> Option<Vec<usize>> {
    let mut way = path(pairs, from, to, &counts)?;
    let mut on_it: Vec<_> = way.iter().map(|e| asked(&pairs[*e].2)).collect();
    on_it.sort();
    on_it.dedup();
    for out in on_it.clone() {
        let others = |w: &Why| counts(w) && asked(w) != out && on_it.contains(&asked(w));
        if let Some(fewer) = path(pairs, from, to, others) {
            way = fewer;
            on_it.retain(|one| *one != out);
        }
    }
    Some(way)
}

/// The rules of a way as one reason: each of them is needed to forbid the wish.
fn all_of(pairs: &[(usize, usize, Why)], way: &[usize]) -> Why {
    let mut rules: Vec<&Why> = way.iter().map(|e| &pairs[*e].2).collect();
    rules.dedup_by(|a, b| a.rule == b.rule && a.reason == b.reason);
    let Some(first) = rules.first() else {
        return because("wish", told!("it contradicts itself", "das widerspricht sich selbst"));
    };
    if rules.len() == 1 {
        return (*first).clone();
    }
    let each: Vec<String> = rules.iter().map(|w| format!("{} ({})", w.reason, w.rule)).collect();
    Why {
        reason: tell!(
            "{}: together they forbid it",
            "{}: zusammen schließen sie es aus",
            each.join(told!("; then ", "; dann "))
        ),
        ..(*first).clone()
    }
}

/// Edges of a way from one operation to another over the pairs that count.
fn path(pairs: &[(usize, usize, Why)], from: usize, to: usize, counts: impl Fn(&Why) -> bool) -> Option<Vec<usize>> {
    let mut reached: std::collections::BTreeMap<usize, Option<usize>> =
        std::collections::BTreeMap::from([(from, None)]);
    let mut queue = std::collections::VecDeque::from([from]);
    while let Some(here) = queue.pop_front() {
        for (e, (a, b, why)) in pairs.iter().enumerate() {
            if *a == here && counts(why) && !reached.contains_key(b) {
                reached.insert(*b, Some(e));
                queue.push_back(*b);
            }
        }
    }
    let mut edges = Vec::new();
    let mut at = to;
    while let Some(e) = *reached.get(&at)? {
        edges.push(e);
        at = pairs[e].0;
    }
    edges.reverse();
    (from != to).then_some(edges)
}

/// A wish about an operation that is not planned is judged as if it were.
fn unplanned(
    part: &Part,
    layout: &Layout,
    switches: &Switches,
    derived: &mut Derived,
    (a, b): (&Named, &Named),
    first: &Text,
    wish: String,
) {
    let mut operations: Vec<Operation> = derived.operations.iter().map(|(o, _)| o.clone()).collect();
    let mut phantom = |named: &Named| -> Vec<usize> {
        let found = planned(&derived.operations, named);
        if !found.is_empty() {
            return found;
        }
        let Some(operation) = imagined(part, layout, named) else { return Vec::new() };
        operations.push(operation);
        vec![operations.len() - 1]
    };
    let (firsts, thens) = (phantom(a), phantom(b));
    let Pairs { before, .. } = pairs(part, layout, &operations, switches);
    let hard = |w: &Why| rule(w.rule).is_none_or(|r| r.hard);
    for x in &firsts {
        for y in &thens {
            let Some(edges) = fewest_rules(&before, *y, *x, hard) else { continue };
            let why = all_of(&before, &edges);
            let word = |i: usize| (operations[i].verb, operations[i].feature);
            derived.refused.push(Refused { place: first.place, wish, first: word(*x), then: word(*y), why });
            return;
        }
    }
    let why = because("wish", told!("the plan has no such operation", "der Plan hat keinen solchen Arbeitsgang"));
    derived.unheeded.push(Unheeded { place: Some(first.place), wish, why });
}

/// The operation a wish speaks of, as it would be.
fn imagined(part: &Part, layout: &Layout, named: &Named) -> Option<Operation> {
    let feature = part.features.get(named.feature?)?;
    let section = layout.section(feature.id);
    let verb = match (named.verbs.first().copied(), is_slot_kind(&feature.kind)) {
        (Some(verb), _) => verb,
        (None, true) if matches!(feature.kind, Kind::CrossHole { .. }) => Verb::Drill,
        (None, true) => Verb::Mill,
        (None, false) => Verb::Finish,
    };
    let end = section.and_then(|s| s.end);
    let mut operation = super::derive::fresh(part, verb, feature.id, end);
    operation.from = section.map(|s| s.from);
    operation.to = section.map(|s| s.to);
    Some(operation)
}

fn together(part: &Part, derived: &mut Derived, one: &Text, other: &Text) {
    let wish = format!("{} together with {}", one.text, other.text);
    let mut refuse = |why: Why| {
        derived.unheeded.push(Unheeded { place: Some(one.place), wish: wish.clone(), why });
    };
    let (Some(a), Some(b)) = (read(part, &one.text), read(part, &other.text)) else {
        refuse(because("wish", says_nothing(part, one, other)));
        return;
    };
    let (firsts, thens) = (planned(&derived.operations, &a), planned(&derived.operations, &b));
    if firsts.is_empty() || thens.is_empty() {
        refuse(because("wish", told!("the plan has no such operation", "der Plan hat keinen solchen Arbeitsgang")));
        return;
    }
    let shared = |x: usize, y: usize| derived.operations[x].1.iter().any(|m| derived.operations[y].1.contains(m));
    let apart = firsts.iter().flat_map(|x| thens.iter().map(move |y| (*x, *y))).find(|(x, y)| !shared(*x, *y));
    if let Some((x, y)) = apart {
        let word = |i: usize| {
            let o = &derived.operations[i].0;
            (o.verb, o.feature)
        };
        let why = because(
            "feature-in-jaws",
            told!(
                "no one mounting leaves both free: one of them lies in the jaws, under the dog or behind the largest section",
                "keine Aufspannung lässt beides frei: eines davon liegt in den Backen, unter dem Drehherz oder hinter dem größten Durchmesser"
            ),
        );
        derived.refused.push(Refused { place: one.place, wish, first: word(x), then: word(y), why });
        return;
    }
    for x in &firsts {
        for y in thens.iter().filter(|y| *y != x) {
            derived.together.push((*x, *y, because("wish", tell!("asked for: {wish}", "verlangt: {wish}"))));
        }
    }
}

/// Turning begins at the wished end.
fn first_end(derived: &mut Derived, end: End, part: &Part) {
    let Some(place) = part.wishes.place else { return };
    let wish = format!("first end: {}", end.word());
    let works = |o: &Operation, e: End| o.end == Some(e) && (is_cut(o) || o.verb == Verb::Face);
    let of = |e: End| -> Vec<usize> {
        (0..derived.operations.len()).filter(|i| works(&derived.operations[*i].0, e)).collect()
    };
    let (firsts, thens) = (of(end), of(end.other()));
    let is_face = |i: &usize| derived.operations[*i].0.verb == Verb::Face;
    let mut wanted = Vec::new();
    for x in &firsts {
        // Both faces may be cut before either end is turned: centers want both.
        for y in thens.iter().filter(|y| is_face(x) == is_face(y)) {
            wanted.push((*x, *y));
        }
    }
    let roughs = |i: usize| derived.operations[i].0.verb == Verb::Rough;
    let begins = |x: usize| roughs(x) || is_face(&x);
    let waits = |x: usize| !begins(x) && thens.iter().any(|y| is_wished_first(derived, *y, x, &wish));
    // It begins there with roughing; where another wish has a later cut of it wait for the other end, only that.
    let left_rough = firsts.iter().any(|x| roughs(*x)) && firsts.iter().any(|x| waits(*x));
    wanted.retain(|(x, _)| !left_rough || begins(*x));
    for (x, y) in wanted {
        ask(derived, &Request { place, wish: &wish, x, y });
    }
}

/// Whether another wish has something of the other end done before something of this.
fn is_wished_first(derived: &Derived, y: usize, x: usize, own: &str) -> bool {
    let counts = |w: &Why| w.rule == "wish" && !w.reason.ends_with(own) || rule(w.rule).is_none_or(|r| r.hard);
    let way = path(&derived.before, y, x, counts).unwrap_or_default();
    way.iter().any(|e| derived.before[*e].2.rule == "wish")
}
