//! Checks that judge a plan: the planner keeps their rules by itself, so each test makes a plan, changes it by hand as a person
//! at the machine might, and sees the check fire; unchanged, none of them may.
//!
//! The rules judged are those of the checks' own pages; nothing here is a published value.

use turnwright::chain::{self, Chain, Profile};
use turnwright::check::{self, Facts};
use turnwright::finding::{Finding, Severity};
use turnwright::model::plan::{Derived, State, Verb, Zero};
use turnwright::model::{End, Kind, Part, Plan};
use turnwright::unit::Length;
use turnwright::{plan, read};

const PART: &str = "\
part: stub
units: in
material: 1045 cold drawn
stock: 1.250 x 7.125
datum: pulley end
overall: 7.000 ±0.010
tolerances: {lengths: ±0.005, diameters: ±0.002}
features:
  - thread: 5/8-18 UNF-2A
    to: 0.850
  - relief: 0.545 +0/-0.010
    to: 1.000
  - turn: 0.8745 +0/-0.0005
    to: 3.250
    name: pulley seat
    finish: 32 µin
    carries: {part: pulley, bore: 0.8750, enters: datum}
  - turn: stock
    to: 3.650
  - turn: 0.770
    to: 7.000
    name: tail
  - keyseat: Woodruff 606
    at: 2.125
  - center hole: A 1/8
    end: both
plan: {holding: between centers}
";

struct Job {
    part: Part,
    chain: Chain,
    profile: Profile,
    derived: Derived,
    plan: Plan,
}

impl Job {
    fn new() -> Self {
        let part = read::part("part.yaml", PART.as_bytes()).part.expect("a part");
        let chain = chain::locate(&part);
        let profile = Profile::of(&part, &chain);
        let planned = plan::plan(&part, &chain, &profile, None, 10).expect("a plan");
        Self { part, chain, profile, derived: planned.derived, plan: planned.plan }
    }

    fn findings(&self) -> Vec<Finding> {
        check::check(&Facts {
            part: &self.part,
            slips: &[],
            chain: &self.chain,
            profile: &self.profile,
            shop: None,
            derived: Some(&self.derived),
            plan: Some(&self.plan),
        })
    }

    fn fires(&self, id: &str) -> bool {
        self.findings().iter().any(|f| f.check == id)
    }

    /// Puts the first operation of one verb behind the last of another, in that one's setup.
    fn put_behind(&mut self, verb: Verb, behind: Verb) {
        let taken = self.plan.setups.iter_mut().find_map(|s| {
            let i = s.operations.iter().position(|o| o.verb == verb)?;
            Some(s.operations.remove(i))
        });
        let taken = taken.unwrap_or_else(|| panic!("the plan has no {}", verb.word()));
        let setups = &mut self.plan.setups;
        let last = setups.iter().rposition(|s| s.operations.iter().any(|o| o.verb == behind)).expect("its setup");
        let at = setups[last].operations.iter().rposition(|o| o.verb == behind).expect("its place");
        setups[last].operations.insert(at + 1, taken);
    }
}

const JUDGED: [&str; 8] = [
    "order-polish-keyseat",
    "order-relief-thread",
    "order-thread-seat",
    "order-center-lost",
    "grip-on-finished",
    "no-zero",
    "thread-two-setups",
    "center-missing",
];

#[test]
fn the_planners_own_plan_breaks_none_of_these_rules() {
    let job = Job::new();
    for id in JUDGED {
        assert!(!job.fires(id), "{id} on the plan as made");
    }
}

#[test]
fn polishing_after_the_keyseat() {
    let mut job = Job::new();
    job.put_behind(Verb::Polish, Verb::Mill);
    assert!(job.fires("order-polish-keyseat"));
}

#[test]
fn the_relief_after_its_thread() {
    let mut job = Job::new();
    job.put_behind(Verb::Groove, Verb::Thread);
    assert!(job.fires("order-relief-thread"));
}

#[test]
fn the_seat_after_the_thread_beside_it() {
    let mut job = Job::new();
    let seat = job.part.named("pulley seat").expect("named").id;
    let finish = job.plan.setups.iter_mut().find_map(|s| {
        let i =
            s.operations.iter().position(|o| o.feature == Some(seat) && matches!(o.verb, Verb::Finish | Verb::Turn))?;
        Some(s.operations.remove(i))
    });
    let setup =
        job.plan.setups.iter_mut().find(|s| s.operations.iter().any(|o| o.verb == Verb::Thread)).expect("a setup");
    setup.operations.push(finish.expect("the seat's last cut"));
    assert!(job.fires("order-thread-seat"));
}

#[test]
fn an_end_faced_again_after_its_center() {
    let mut job = Job::new();
    let face = job.plan.operations().map(|(_, o)| o).find(|o| o.verb == Verb::Face).expect("a face").clone();
    let end = face.end;
    let setups = &mut job.plan.setups;
    let last = setups.iter().rposition(|s| s.operations.iter().any(|o| o.verb == Verb::Center)).expect("centered");
    setups[last].operations.push(face);
    assert!(end.is_some() && job.fires("order-center-lost"));
}

#[test]
fn a_bare_dog_on_a_finished_seat() {
    let mut job = Job::new();
    let setup = job.plan.setups.iter_mut().find(|s| {
        let grip = s.grip.as_ref();
        grip.is_some_and(|g| {
            s.before.iter().any(|p| p.state == State::Finished && p.from < g.to && g.from < p.to && p.feature.is_some())
        })
    });
    setup.expect("a setup on a finished surface").grip.as_mut().expect("its grip").protect = false;
    assert!(job.fires("grip-on-finished"));
}

#[test]
fn bare_jaws_over_the_keyseat() {
    let mut job = Job::new();
    let slot = job.part.features.iter().find(|f| matches!(f.kind, Kind::Woodruff { .. })).expect("a keyseat").id;
    let (from, to) = job.chain.span(slot).expect("its place");
    let milled =
        job.plan.setups.iter().position(|s| s.operations.iter().any(|o| o.verb == Verb::Mill)).expect("a mill setup");
    let mut turned = job.plan.setups.iter().find(|s| s.grip.is_some()).expect("a setup with a grip").clone();
    turned.number = job.plan.setups[milled].number + 1;
    let grip = turned.grip.as_mut().expect("its grip");
    assert_eq!(from, to, "a Woodruff keyseat is placed by its center");
    // The jaws end .100 before that center: well over the slot of a 3/4 cutter.
    let reach = Length::inch_tenths(1_000);
    (grip.from, grip.to, grip.protect) = (from - reach.times(5), from - reach, true);
    job.plan.setups.insert(milled + 1, turned);
    assert!(job.fires("grip-on-finished"), "copper does not mend jaws over a slot");
}

#[test]
fn a_datum_end_without_a_zero() {
    let mut job = Job::new();
    let setup = job.plan.setups.iter_mut().find(|s| s.works == Some(End::Datum) && !s.operations.is_empty());
    setup.expect("a setup of the datum end").zero = Zero::None;
    assert!(job.fires("no-zero"));
}

#[test]
fn the_relief_in_a_chuck_and_its_thread_between_centers() {
    let mut job = Job::new();
    let relief = job.plan.setups.iter_mut().find_map(|s| {
        let i = s.operations.iter().position(|o| o.verb == Verb::Groove)?;
        Some(s.operations.remove(i))
    });
    let chucking = job.plan.setups.iter_mut().find(|s| s.holding == turnwright::model::part::Holding::Chuck);
    chucking.expect("a chucking").operations.push(relief.expect("a relief"));
    assert!(job.fires("thread-two-setups"));
}

#[test]
fn a_setup_without_a_zero() {
    let mut job = Job::new();
    let setup = job.plan.setups.iter_mut().find(|s| s.works == Some(End::Far) && !s.operations.is_empty());
    setup.expect("a setup of the far end").zero = Zero::None;
    assert!(job.fires("no-zero"));
}

#[test]
fn a_far_end_worked_from_the_datum_face_without_a_correction() {
    let mut job = Job::new();
    let noted = |job: &Job| job.findings().iter().find(|f| f.check == "frame-change").map(|f| f.severity);
    assert_eq!(noted(&job), Some(Severity::Note), "the plan as made corrects its zero");
    let setup = job.plan.setups.iter_mut().find(|s| s.works == Some(End::Far) && s.zero == Zero::FarFace);
    setup.expect("a setup of the far end").zero = Zero::DatumFace;
    assert_eq!(noted(&job), Some(Severity::Warning));
}

#[test]
fn the_thread_in_another_holding_than_its_face() {
    let mut job = Job::new();
    let thread = job.plan.setups.iter_mut().find_map(|s| {
        let i = s.operations.iter().position(|o| o.verb == Verb::Thread)?;
        Some(s.operations.remove(i))
    });
    let chucking = job.plan.setups.iter_mut().find(|s| s.holding == turnwright::model::part::Holding::Chuck);
    chucking.expect("a chucking").operations.push(thread.expect("a thread"));
    assert!(job.fires("thread-two-setups"));
}

#[test]
fn centers_before_the_ends_are_centered() {
    let mut job = Job::new();
    for setup in &mut job.plan.setups {
        setup.operations.retain(|o| o.verb != Verb::Center);
    }
    assert!(job.fires("center-missing"));
}
