//! What the description asks of the plan: followed, or refused by name.

use turnwright::model::part::Holding;
use turnwright::model::{End, Part};
use turnwright::plan::Planned;

use crate::build::{NOWHERE, text};
use crate::{derived, found, number, parts, planned};

fn stub_with(change: impl FnOnce(&mut Part)) -> Part {
    let mut part = parts::stub();
    part.wishes.place = Some(NOWHERE);
    change(&mut part);
    part
}

fn holding_of(p: &Planned, id: &str) -> Holding {
    found(p, id).0.holding
}

#[test]
fn a_wish_outweighs_a_soft_rule() {
    let part = stub_with(|p| p.wishes.before.push((text("thread A"), text("finish pulley seat"))));
    let p = planned(&part);
    assert!(p.derived.refused.is_empty() && p.derived.unheeded.is_empty());
    assert!(number(&p, "thread-A") < number(&p, "finish-C"));
    assert!(found(&p, "finish-C").1.why.iter().any(|w| w.rule == "wish"));
    assert_eq!(p.certificate.verify(), Ok(()));
}

#[test]
fn a_wish_against_a_hard_rule_is_refused_by_name() {
    for (first, then, rule) in [
        ("thread A", "relief B", "R9"),
        ("keyseat", "polish pulley seat", "order-polish-keyseat"),
        ("finish C", "rough C", "R2"),
        ("polish C", "finish C", "R2"),
        ("keyseat", "finish pulley seat", "R12"),
        ("inspect", "deburr", "order-bench"),
    ] {
        let then_word = if then == "relief B" { "groove B" } else { then };
        let part = stub_with(|p| p.wishes.before.push((text(first), text(then_word))));
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
    let part = stub_with(|p| p.wishes.before.push((text("mill keyseat"), text("polish H"))));
    let d = derived(&part);
    assert_eq!(d.refused.iter().map(|r| r.why.rule).collect::<Vec<_>>(), ["order-polish-keyseat"]);
}

#[test]
fn unknown_names_and_hard_rules_off_are_told() {
    let part = stub_with(|p| {
        p.wishes.before.push((text("nose"), text("thread A")));
        p.wishes.off = vec![text("R9"), text("R99"), text("R20")];
    });
    let d = derived(&part);
    let told: Vec<&str> = d.unheeded.iter().map(|u| u.wish.as_str()).collect();
    assert_eq!(told, ["off: R9", "off: R99", "nose before thread A"]);
    assert!(d.before.iter().all(|(_, _, w)| w.rule != "R20"), "R20 is off");
    assert!(d.before.iter().any(|(_, _, w)| w.rule == "R9"), "R9 stays");
}

#[test]
fn two_wishes_against_each_other() {
    let part = stub_with(|p| {
        p.wishes.before.push((text("finish E"), text("finish G")));
        p.wishes.before.push((text("finish G"), text("finish E")));
    });
    let d = derived(&part);
    assert_eq!(d.refused.len(), 1);
    assert_eq!(d.refused[0].wish, "finish G before finish E");
}

#[test]
fn the_first_end_is_turned_first() {
    let part = stub_with(|p| p.wishes.first_end = Some(End::Far));
    let p = planned(&part);
    assert!(p.derived.refused.is_empty(), "{:?}", p.derived.refused);
    assert!(number(&p, "face-far") < number(&p, "face-datum"));
    assert!(number(&p, "thread-J") < number(&p, "rough-C"));
    assert!(p.plan.proven_optimal);
    // The dog then goes on G, loosely toleranced, rather than on a bearing seat.
    assert_eq!(found(&p, "thread-A").0.grip.as_ref().map(|g| g.letter.clone()), Some("G".to_owned()));
}

#[test]
fn the_wished_holding_is_taken_where_it_reaches() {
    let part = stub_with(|p| {
        p.wishes.holding_by_end.insert(End::Datum, Holding::ChuckAndCenter);
    });
    let p = planned(&part);
    assert_eq!(holding_of(&p, "finish-C"), Holding::ChuckAndCenter);
    assert_eq!(holding_of(&p, "finish-F"), Holding::BetweenCenters);

    // The stud's far end would stand 3.6 in out of a 1 in bar.
    let mut part = parts::stud();
    part.wishes.holding = Some(Holding::Chuck);
    let rules: Vec<&str> = derived(&part).unheeded.iter().map(|u| u.why.rule).collect();
    assert_eq!(rules, ["overhang"]);
}

#[test]
fn together_is_one_mounting_or_refused() {
    let part = stub_with(|p| p.wishes.together.push((text("finish E"), text("finish H"))));
    let p = planned(&part);
    assert_eq!(found(&p, "finish-E").0.number, found(&p, "finish-H").0.number);
    let part = stub_with(|p| p.wishes.together.push((text("finish C"), text("finish H"))));
    assert_eq!(derived(&part).refused[0].why.rule, "feature-in-jaws");
}

#[test]
fn without_r18_the_seats_may_be_chucked() {
    let part = stub_with(|p| p.wishes.off.push(text("R18")));
    let p = planned(&part);
    assert!(p.plan.proven_optimal);
    assert!(p.plan.cost <= planned(&parts::stub()).plan.cost, "dropping a rule costs nothing");
}

#[test]
fn parted_off_last_and_never_between_centers() {
    let mut part = parts::idler();
    part.wishes.place = Some(NOWHERE);
    part.wishes.part_off = true;
    part.stock.as_mut().expect("stock").length = crate::build::size("36");
    let p = planned(&part);
    assert_eq!(p.certificate.verify(), Ok(()));
    let (setup, _) = found(&p, "part-off");
    assert_ne!(setup.holding, Holding::BetweenCenters);
    assert!(number(&p, "finish-A") < number(&p, "part-off"));
    assert!(number(&p, "part-off") < number(&p, "face-far"));
    assert_eq!(setup.operations.last().map(|o| o.id.as_str()), Some("part-off"));
}
