//! What the description asks of the plan: followed, or refused by name.

use turnwright::model::part::Holding;
use turnwright::plan::{NoPlan, Planned};

use crate::planning::parts::{IDLER, STUB, STUD, part, with};
use crate::planning::{derived, found, number, plan_of, planned, try_plan};

fn holding_of(p: &Planned, id: &str) -> Holding {
    found(p, id).0.holding
}

#[test]
fn a_wish_outweighs_a_soft_rule() {
    let p = planned(&with(STUB, "before: [[thread A, finish pulley seat]]"));
    assert!(p.derived.refused.is_empty() && p.derived.unheeded.is_empty());
    assert!(number(&p, "thread-A") < number(&p, "finish-C"));
    assert!(found(&p, "finish-C").1.why.iter().any(|w| w.rule == "wish"));
    assert_eq!(p.certificate.verify(), Ok(()));
}

/// The soft rules that a wish outweighs are told, each with what it says; without the wish none gives way.
#[test]
fn what_a_wish_outweighs_is_told() {
    let p = planned(&with(STUB, "before: [[finish E, rough F]]"));
    let told: Vec<(&str, bool)> =
        p.plan.given_way.iter().map(|w| (w.rule, w.reason.contains("`finish E before rough F`"))).collect();
    assert_eq!(told, [("R3", true), ("R20", true)]);
    assert!(plan_of(STUB).plan.given_way.is_empty());
    // Both are still kept for every other pair.
    for rule in ["R3", "R20"] {
        assert!(p.derived.before.iter().any(|(_, _, w)| w.rule == rule), "{rule}");
    }
}

#[test]
fn a_wish_against_a_hard_rule_is_refused_by_name() {
    for (first, then, rule) in [
        ("thread A", "groove B", "R9"),
        ("keyseat", "polish pulley seat", "order-polish-keyseat"),
        ("finish C", "rough C", "R2"),
        ("polish C", "finish C", "R2"),
        ("keyseat", "finish pulley seat", "R12"),
        ("inspect", "deburr", "order-bench"),
    ] {
        let part = with(STUB, &format!("before: [[{first}, {then}]]"));
        let d = derived(&part);
        let rules: Vec<&str> = d.refused.iter().map(|r| r.why.rule).collect();
        assert_eq!(rules, [rule], "{first} before {then}");
        assert!(d.refused[0].wish.contains(first));
        assert!(planned(&part).plan.proven_optimal, "the plan stands without the wish");
    }
}

#[test]
fn a_wish_for_an_operation_not_planned_is_judged_as_if_it_were() {
    // H has no finish, so no polish is planned for it.
    let d = derived(&with(STUB, "before: [[mill keyseat, polish H]]"));
    assert_eq!(d.refused.iter().map(|r| r.why.rule).collect::<Vec<_>>(), ["order-polish-keyseat"]);
}

#[test]
fn unknown_names_and_hard_rules_off_are_told() {
    let text = format!("{STUB}\nplan: {{before: [[nose, thread A]], off: [R9, R99, R20]}}\n");
    let read = turnwright::read::part("test.yaml", text.as_bytes());
    let d = derived(&read.part.expect("a part"));
    let told: Vec<&str> = d.unheeded.iter().map(|u| u.wish.as_str()).collect();
    assert_eq!(told, ["off: R9", "off: R99", "nose before thread A"]);
    assert!(d.before.iter().all(|(_, _, w)| w.rule != "R20"), "R20 is off");
    assert!(d.before.iter().any(|(_, _, w)| w.rule == "R9"), "R9 stays");
}

#[test]
fn two_wishes_against_each_other() {
    let d = derived(&with(STUB, "before: [[finish E, finish G], [finish G, finish E]]"));
    assert_eq!(d.refused.len(), 1);
    assert_eq!(d.refused[0].wish, "finish G before finish E");
}

#[test]
fn the_first_end_is_turned_first() {
    let p = planned(&with(STUB, "first end: far"));
    assert!(p.derived.refused.is_empty(), "{:?}", p.derived.refused);
    assert!(number(&p, "face-far") < number(&p, "face-datum"));
    assert!(number(&p, "thread-K") < number(&p, "rough-C"));
    assert!(p.plan.proven_optimal);
    // The dog then goes on G, loosely toleranced, rather than on a bearing seat.
    assert_eq!(found(&p, "thread-A").0.grip.as_ref().map(|g| g.letter.clone()), Some("G".to_owned()));
}

#[test]
fn the_wished_holding_is_taken_where_it_reaches() {
    let p = planned(&with(STUB, "holding: {datum: chuck and center}"));
    assert_eq!(holding_of(&p, "finish-C"), Holding::ChuckAndCenter);
    assert_eq!(holding_of(&p, "finish-F"), Holding::BetweenCenters);

    // The stud's far end would stand 3.6 in out of a 1 in bar.
    let rules: Vec<&str> = derived(&with(STUD, "holding: chuck")).unheeded.iter().map(|u| u.why.rule).collect();
    assert_eq!(rules, ["overhang"]);
}

#[test]
fn together_is_one_mounting_or_refused() {
    let p = planned(&with(STUB, "together: [[finish E, finish H]]"));
    assert_eq!(found(&p, "finish-E").0.number, found(&p, "finish-H").0.number);
    let d = derived(&with(STUB, "together: [[finish C, finish H]]"));
    assert_eq!(d.refused[0].why.rule, "feature-in-jaws");
}

#[test]
fn without_r18_the_seats_may_be_chucked() {
    let p = planned(&with(STUB, "off: [R18]"));
    assert!(p.plan.proven_optimal);
    assert!(p.plan.cost <= plan_of(STUB).plan.cost, "dropping a rule costs nothing");
}

#[test]
fn parted_off_last_and_never_between_centers() {
    let long = IDLER.replace("stock: 1.250 x 12.375", "stock: 1.250 x 36");
    let p = planned(&with(&long, "part off: true"));
    assert_eq!(p.certificate.verify(), Ok(()));
    let (setup, _) = found(&p, "part-off");
    assert_ne!(setup.holding, Holding::BetweenCenters);
    assert!(number(&p, "finish-A") < number(&p, "part-off"));
    assert!(number(&p, "part-off") < number(&p, "face-far"));
    assert_eq!(setup.operations.last().map(|o| o.id.as_str()), Some("part-off"));
}

#[test]
fn allowances_asked_for_are_left() {
    let p = planned(&with(STUB, "finish allowance: 0.020, face allowance: 0.010, polish allowance: 0.0004"));
    let seat = found(&p, "rough-C").1;
    let inches = |l: Option<turnwright::unit::Length>| l.map(|l| (l.inches() * 1e4).round() / 1e4);
    assert_eq!(inches(seat.to_diameter), Some(0.894));
    assert_eq!(inches(seat.to.map(|s| s.0)), Some(3.240));
    assert_eq!(inches(found(&p, "finish-C").1.to_diameter), Some(0.8747), "what the strip takes is left on");
    assert_eq!(inches(found(&p, "polish-C").1.to_diameter), Some(0.8743));
    assert!(part(STUB).wishes.finish_allowance.is_none());
}

/// A set that is told has nothing idle in it: with any wish of it taken back there is a plan, and a wish that is not told can stay.
#[test]
fn of_a_clash_every_wish_told_is_needed_and_no_other() {
    // `before`, `together` and what else stands in `plan:`, and how many of them clash; the rest are followed.
    type Clash<'a> = (&'a [&'a str], &'a [&'a str], &'a [&'a str], usize);
    let clashes: [Clash; 6] = [
        (&["finish E, finish C", "thread A, thread K"], &["finish E, thread K", "finish C, thread A"], &[], 3),
        (
            &["finish G, finish C", "thread A, thread K", "rough C, rough A"],
            &["finish G, thread K", "finish C, thread A"],
            &[],
            3,
        ),
        (&["finish E, thread A", "thread A, thread K"], &["finish E, thread K"], &[], 3),
        (&["finish C, rough E"], &[], &["first end: far"], 2),
        (&["finish C, face far"], &["finish E, finish G"], &[], 1),
        (&["rough K, center datum"], &["finish E, finish G"], &[], 1),
    ];
    for (before, together, more, clash) in clashes {
        let part_with = |without: Option<usize>| {
            let all = before.len() + together.len() + more.len();
            let kept: Vec<usize> = (0..all).filter(|i| Some(*i) != without).collect();
            let list = |from: usize, of: &[&str]| {
                let kept = kept.iter().filter_map(|i| of.get(i.checked_sub(from)?)).map(|w| format!("[{w}]"));
                kept.collect::<Vec<_>>().join(", ")
            };
            let rest = before.len() + together.len();
            let more: Vec<&str> = kept.iter().filter_map(|i| more.get(i.checked_sub(rest)?).copied()).collect();
            let lists = format!("before: [{}], together: [{}]", list(0, before), list(before.len(), together));
            with(STUB, &std::iter::once(lists.as_str()).chain(more).collect::<Vec<_>>().join(", "))
        };
        let Err(NoPlan::Clash(reasons)) = try_plan(&part_with(None)) else { panic!("{before:?} cannot be kept") };
        let mut told: Vec<&str> = reasons.iter().filter(|w| w.rule == "wish").map(|w| w.reason.as_str()).collect();
        told.dedup();
        assert_eq!(told.len(), clash, "{told:?}");
        for (i, wish) in before.iter().chain(together).chain(more).enumerate() {
            let halves: Vec<&str> = wish.split(", ").collect();
            let is_told = told.iter().any(|t| halves.iter().all(|h| t.contains(h)));
            assert_eq!(try_plan(&part_with(Some(i))).is_ok(), is_told, "{wish} of {told:?}");
        }
    }
}

/// Turning begins at the wished end with its roughing; its finish waits where another wish says so, held as it is roughed meanwhile (OD1645, p. 60).
#[test]
fn the_first_end_may_be_left_roughed() {
    let p = planned(&with(STUB, "first end: far, before: [[finish C, finish E]]"));
    assert!(p.derived.refused.is_empty() && p.plan.proven_optimal, "{:?}", p.derived.refused);
    assert!(p.plan.given_way.is_empty(), "{:?}", p.plan.given_way);
    let order = ["rough-E", "rough-C", "finish-C", "finish-E"].map(|id| number(&p, id));
    assert!(order.is_sorted(), "{order:?}");
    assert!(found(&p, "finish-C").0.grip.as_ref().is_some_and(|g| g.roughed && !g.protect));
}

/// A refusal by rules names no rule that the others do without.
#[test]
fn a_refusal_names_no_idle_rule() {
    for (before, rules, wishes) in [
        ("[thread A, groove B]", &["R9"][..], 0),
        ("[keyseat, finish E], [finish E, polish C]", &["order-polish-keyseat"], 1),
        ("[finish E, finish G], [finish G, thread K], [thread K, finish E]", &[], 2),
        ("[deburr, keyseat]", &["order-bench"], 0),
        ("[inspect, keyseat]", &["order-bench"], 0),
        ("[thread A, rough A]", &["R2"], 0),
    ] {
        let d = derived(&with(STUB, &format!("before: [{before}]")));
        assert_eq!(d.refused.len(), 1, "{before}: {:?}", d.refused);
        let reason = &d.refused[0].why.reason;
        let named = |id: &str| d.refused[0].why.rule == id || reason.contains(&format!("({id})"));
        assert!(rules.iter().all(|id| named(id)), "{before}: {reason}");
        let others = turnwright::plan::rules::RULES.iter().filter(|r| r.id != "wish" && !rules.contains(&r.id));
        assert_eq!(others.filter(|r| named(r.id)).count(), 0, "{before}: {reason}");
        assert_eq!(reason.matches("asked for").count(), wishes, "{before}: {reason}");
    }
}

/// A wish against rules: those that cannot be switched off are named before soft ones that ask for the same.
#[test]
fn a_clash_with_rules_names_the_wishes_and_the_hard_rules() {
    let part = with(STUB, "first end: far, before: [[finish C, rough E]]");
    let Err(NoPlan::Clash(reasons)) = try_plan(&part) else { panic!("they cannot be kept") };
    let told: Vec<&str> = reasons.iter().map(|w| w.reason.as_str()).collect();
    assert!(told.iter().any(|t| t.contains("first end: far")), "{told:?}");
    assert!(told.iter().any(|t| t.contains("finish C before rough E")), "{told:?}");
    for wishes in ["first end: far", "before: [[finish C, rough E]]"] {
        assert!(try_plan(&with(STUB, wishes)).is_ok(), "{wishes}");
    }
}

/// The words a person would use: operations as verbs and as nouns, a letter beside its kind or its name. Each pair asks the same as the
/// plain one beside it.
#[test]
fn wishes_are_read_as_they_are_spoken() {
    let asks = |pair: &str| {
        let d = derived(&with(STUB, &format!("before: [[{pair}]]")));
        assert!(d.unheeded.is_empty(), "{pair}: {:?}", d.unheeded);
        let mut pairs: Vec<(usize, usize)> =
            d.before.iter().filter(|(_, _, w)| w.rule == "wish").map(|(a, b, _)| (*a, *b)).collect();
        pairs.sort_unstable();
        (pairs, d.refused.iter().map(|r| r.why.rule).collect::<Vec<_>>())
    };
    for (spoken, plain) in [
        ("finish turn E, finish turning G", "finish E, finish G"),
        ("threading the thread A, finish pulley seat", "thread A, finish pulley seat"),
        ("mill keyseat L, polish pulley seat C", "mill L, polish pulley seat"),
        ("milling the keyseat, polishing C", "mill keyseat, polish C"),
        ("Finish E, Rough turn F", "finish E, rough F"),
        ("deburring, facing far", "deburr, face far"),
    ] {
        assert_eq!(asks(spoken), asks(plain), "{spoken}");
    }
    // `turn E` is all its turning: rough and finish.
    let (turn, _) = asks("turn E, finish G");
    let (finish, _) = asks("finish E, finish G");
    assert!(turn.len() > finish.len() && finish.iter().all(|p| turn.contains(p)), "{turn:?} {finish:?}");
}

#[test]
fn words_that_name_nothing_are_told_what_to_write() {
    let told = |pair: &str| -> String {
        let d = derived(&with(STUB, &format!("before: [[{pair}]]")));
        assert_eq!(d.unheeded.len(), 1, "{pair}");
        d.unheeded[0].why.reason.clone()
    };
    let nose = told("nose, thread A");
    assert!(
        nose.contains("`nose` names no feature") && nose.contains("pulley seat") && nose.contains("polish"),
        "{nose}"
    );
    let q = told("finish pully seat, thread A");
    assert!(q.contains("`pully seat` is no feature") && q.contains("`finish pulley seat`"), "{q}");
    let wrong = told("burnish C, thread A");
    assert!(wrong.contains("nearest is"), "{wrong}");
    let many = told("chamfer chamfer, thread A");
    assert!(many.contains("could be any of") && many.contains(" or "), "{many}");
}
