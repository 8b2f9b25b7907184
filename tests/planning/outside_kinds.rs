//! Domed ends and eccentrics in the plan.

use turnwright::model::plan::Verb;

use crate::planning::believable::judged;

const PIN: &str = "part: pin\nunits: in\nmaterial: 1018\nstock: 1.000 x 3.125\ndatum: plain end\noverall: 3.000 ±0.010\n\
tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 0.875\n    to: 1.000\n  - turn: 0.750 +0/-0.001\n    \
to: end\n";

#[test]
fn a_crown_is_cut_over_a_finished_end_and_before_deburring() {
    let (p, _) = judged(&format!("{PIN}  - crown: 0.750 radius\n    end: far\n"), None).expect("a plan");
    let at = |wanted: &dyn Fn(&turnwright::model::Operation) -> bool| {
        p.plan.operations().position(|(_, o)| wanted(o)).expect("there")
    };
    let crown = at(&|o| o.verb == Verb::File);
    assert!(at(&|o| o.verb == Verb::Finish && o.id.ends_with('B')) < crown);
    assert!(at(&|o| o.id == "face-far") < crown);
    assert!(crown < at(&|o| o.verb == Verb::Deburr));
}

#[test]
fn both_ends_may_be_domed() {
    let (p, _) = judged(&format!("{PIN}  - crown: 0.100 high\n    end: both\n"), None).expect("a plan");
    assert_eq!(p.plan.operations().filter(|(_, o)| o.verb == Verb::File).count(), 2);
}
