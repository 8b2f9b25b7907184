//! What the sheet says where a hand could be hurt or a part spoiled: the half-nuts that stay closed, a center in a left-hand thread's
//! way, walls on both sides of an eccentric, mates that are not tried. The parts are our own; each test names its source.

use turnwright::chain::{self, Profile};
use turnwright::figures::{self, Figures, Job, TaperCut, ThreadCut};
use turnwright::model::shop::Reads;
use turnwright::model::{Part, Shop};
use turnwright::plan;
use turnwright::sheet::build::{self, Pages, Sources};
use turnwright::sheet::view::Paper;
use turnwright::sheet::{self};
use turnwright::unit::Length;

use crate::figures::hand::{part, shop};

/// Figures, and the sheet in Markdown, spaces joined.
fn made(text: &str, shop: Option<&Shop>) -> (Part, Figures, String) {
    let part = part(text.as_bytes());
    let chain = chain::locate(&part);
    let profile = Profile::of(&part, &chain);
    let planned = plan::plan(&part, &chain, &profile, shop, 10).expect("a plan");
    let figures = figures::work(&part, &chain, &profile, &planned.plan, shop);
    let sources = Sources { part: &part, chain: &chain, plan: &planned.plan, figures: &figures, findings: &[], shop };
    let view = build::view_of(&sources, Paper::LETTER, Pages::default());
    let text = sheet::markdown::markdown(&view).expect("the template fits");
    let text = text.replace("<br>", " ").split_whitespace().collect::<Vec<_>>().join(" ");
    (part, figures, text)
}

fn thread(figures: &Figures) -> &ThreadCut {
    let mut all = figures.setups.iter().flat_map(|s| &s.operations);
    all.find_map(|o| if let Job::Thread(t) = &o.job { Some(&**t) } else { None }).expect("a thread")
}

fn taper(figures: &Figures) -> &TaperCut {
    let mut all = figures.setups.iter().flat_map(|s| &s.operations);
    all.find_map(|o| if let Job::Taper(t) = &o.job { Some(&**t) } else { None }).expect("a taper")
}

const LEFT: &str = "part: left screw\nunits: in\nmaterial: 12L14\nstock: 1.000 x 8.250\ndatum: plain end\noverall: 8.000 ±0.010\n\
tolerances: {lengths: ±0.010, diameters: ±0.005}\nfeatures:\n  - turn: 0.875\n    to: 2.000\n  - relief: 0.470 +0/-0.010\n    to: 2.400\n  \
- thread: 5/8-10 ACME-2G LH\n    to: end\n  - center hole: A 1/8\n    end: both\n";

/// A 60° center fills a hole of mouth .265 and meets a tool at a root of r past the face by (r − .265) / (2 tan 30°): plane geometry.
/// Its time is that way over the lead, times 60 over the turns a minute. Common practice, no source: that it must be told.
#[test]
fn a_left_hand_thread_is_out_before_the_center() {
    let own = shop(Reads::Radius);
    let (part, figures, sheet) = made(LEFT, Some(&own));
    let cut = thread(&figures);
    let off = cut.runs_off.expect("a center stands there");
    let root = part.features.iter().find_map(|f| match &f.kind {
        turnwright::model::Kind::Thread { thread, .. } => Some(thread.root.mm() / 25.4),
        _ => None,
    });
    let room = (root.expect("a thread") - 0.265) / (2.0 * 30.0_f64.to_radians().tan());
    assert!((off.past_face.value.mm() / 25.4 - room).abs() < 0.0005, "{:?} against {room}", off.past_face);
    let speed = figures.setups.iter().flat_map(|s| &s.operations).find(|o| matches!(o.job, Job::Thread(_)));
    let rpm = speed.and_then(|o| o.speed.as_ref()).expect("a speed").rpm();
    let seconds = off.seconds.expect("room enough to count");
    assert!((seconds - room / 0.1 * 60.0 / rpm).abs() < 0.002, "{seconds} s at {rpm} rpm");
    // Slowed by it to 1.5 s, or to the slowest gear.
    let slowest = own.speeds.iter().min().map_or(0.0, |s| f64::from(*s));
    assert!(seconds >= 1.5 || (rpm - slowest).abs() < 0.5, "{seconds} s at {rpm} rpm");
    assert!(cut.relief_time.is_none() && sheet.contains("CENTER IN THE WAY"), "{sheet}");
    // A right-hand one goes the other way.
    let (_, figures, sheet) = made(&LEFT.replace(" LH", ""), Some(&own));
    assert!(thread(&figures).runs_off.is_none() && !sheet.contains("CENTER IN THE WAY"));
}

const STUD: &str = "part: stud\nunits: mm\nmaterial: C45\nstock: 25 x 82\ndatum: thread end\noverall: 80 ±0.3\ntolerances: ISO 2768-m\n\
features:\n  - thread: M20x2.5-6g\n    to: 30\n  - relief: 16.4 +0/-0.2\n    to: 37\n  - turn: 22\n    to: end\n";

/// Where the half-nuts stay closed nobody opens them: the tool comes out and the spindle stops, and it is given longer for two acts
/// (common practice, no source).
#[test]
fn half_nuts_that_stay_closed_are_never_opened() {
    let mut own = shop(Reads::Radius);
    own.speeds = vec![20, 30, 45, 60, 90, 140, 215, 330];
    let (_, figures, sheet) = made(STUD, Some(&own));
    let cut = thread(&figures);
    assert!(cut.dial.as_ref().is_some_and(|d| d.never_open), "a metric lead on an inch leadscrew");
    assert!(cut.relief_time.is_some_and(|s| s >= 3.0), "{:?}", cut.relief_time);
    assert!(sheet.contains("to draw the tool out and stop the spindle"), "{sheet}");
    assert!(!sheet.contains("to open the half-nuts") && !sheet.contains("Short for that"), "{sheet}");
    own.speeds = vec![60, 90, 140];
    let (_, _, sheet) = made(STUD, Some(&own));
    assert!(sheet.contains("Short for that: switch off ahead of it"), "{sheet}");
    // An inch thread of the leadscrew's own family is opened, and has 1.5 s.
    let inch = STUD.replace("M20x2.5-6g", "3/4-16 UNF-2A").replace("16.4", "16.5");
    let (_, figures, sheet) = made(&inch, Some(&own));
    assert!(!thread(&figures).dial.as_ref().is_some_and(|d| d.never_open));
    assert!(sheet.contains("to open the half-nuts"), "{sheet}");
}

const CAM: &str = "part: cam pin\nunits: mm\nmaterial: 16MnCr5\nstock: 36 x 113\ndatum: handle end\noverall: 110 ±0.3\n\
tolerances: ISO 2768-m\nfeatures:\n  - turn: 16 h8\n    to: 30\n  - turn: 20 f7\n    to: 60\n    name: journal\n  - turn: 18 f7\n    to: 85\n    \
offset: 2.5 ±0.05\n    name: cam\n  - turn: 32\n    to: 92\n  - turn: 20 f7\n    to: end\n    name: other journal\n";

/// Both walls of an eccentric between two larger ones stand on the sheet, each with its edge of the tool; the indicator goes where no
/// jaw is; what sweeps is what is there (common practice, no source).
#[test]
fn an_eccentric_between_two_walls() {
    let (_, figures, sheet) = made(CAM, Some(&shop(Reads::Diameter)));
    // By hand: the walls stand 85 and 60 from the datum face, 25 and 50 from the far one.
    let thrown = figures.setups.iter().find(|s| s.thrown.is_some()).expect("thrown over");
    let walls: Vec<f64> =
        thrown.operations.last().expect("a last cut").positions.iter().map(|p| p.from_far_end.value.mm()).collect();
    assert_eq!(walls, [25.0, 50.0]);
    assert!(sheet.contains("first RIGHT edge, second LEFT edge") && sheet.contains("wall on either side"), "{sheet}");
    assert!(sheet.contains("beside the jaws") && !sheet.contains("at both ends of the grip"), "{sheet}");
    let thrown = figures.setups.iter().find_map(|s| s.thrown.as_ref()).expect("thrown over");
    // Ø 32 in its limits, and the throw on either side: 36.7 to 37.3; where it and its neighbour were roughed from two ends, a ring of the bar, Ø 36,
    // may still stand half a millimetre wide at its wall: 41.
    let sweeps = thrown.sweeps.value.mm();
    assert!((36.7..=41.0).contains(&sweeps), "{sweeps}");
}

const ARBOR: &str = "part: arbor\nunits: in\nmaterial: 1045\nstock: 1.125 x 5.250\ndatum: tang end\noverall: 5.000 ±0.010\n\
tolerances: {lengths: ±0.005, diameters: ±0.002}\nfeatures:\n  - turn: 0.720\n    to: 0.250\n  - taper: MT3\n    to: 3.4375\n  \
- turn: 1.000\n    to: end\n  - center hole: A 1/8\n    end: both\n";

/// By hand: from .968 to .778 is .095 a side; the shop's last cut of .005 left, .090 in cuts of no more than .060 are two of .045. The
/// trial in blue and the one way in bold are common practice, no source.
#[test]
fn a_taper_is_roughed_along_itself_and_proved_in_blue() {
    let (_, figures, sheet) = made(ARBOR, Some(&shop(Reads::Radius)));
    let cut = taper(&figures);
    let cuts = cut.cuts.expect("more than one last cut takes");
    let left = Length::inch_tenths(50);
    let a_side = cuts.depth.value.times(i64::from(cuts.count)) + left;
    assert_eq!(cuts.left.value, left);
    assert!(cuts.count >= 2 && a_side > Length::inch_tenths(900), "{cuts:?}");
    assert!(sheet.contains("rough along it 2 times") && sheet.contains("three lines of blue"), "{sheet}");
    assert!(sheet.contains("blue: bears all along"), "{sheet}");
    let bold = |n: String| sheet.contains(&format!("**{n}**"));
    let (setover, angle) = (cut.setover.text(turnwright::unit::Unit::Inch), cut.half_angle.clone());
    assert!(bold(setover.clone()) != bold(angle.clone()), "one of {setover} and {angle} is bold: {sheet}");
}

const SPINDLE: &str = "part: spindle\nunits: mm\nmaterial: C45\nstock: 40 x 122\ndatum: drive end\noverall: 120 ±0.3\ntolerances: ISO 2768-m\n\
features:\n  - turn: 20 h7\n    to: 30\n    carries: {part: coupling, bore: 20 H7, enters: datum}\n  - turn: 25 k6\n    to: 50\n    \
carries: {part: bearing, bore: 25 mm, wide: 15 mm, corner: 1 mm, enters: datum}\n  - turn: 36\n    to: end\n";

/// ISO 286: 25 k6 on a bearing's bore (ISO 492, nothing to minus) is never loose; a sliding H7/h6 or h7 is. Only the loose one is tried
/// (common practice, no source).
#[test]
fn a_bearing_on_a_tight_seat_is_measured_and_not_tried() {
    let (_, _, sheet) = made(SPINDLE, Some(&shop(Reads::Diameter)));
    assert!(sheet.contains("Measure only, do not try: the bearing"), "{sheet}");
    assert!(sheet.contains("try the coupling") && !sheet.contains("try the coupling and the bearing"), "{sheet}");
    let (_, _, sheet) = made(&SPINDLE.replace("25 k6", "25 f7"), Some(&shop(Reads::Diameter)));
    assert!(sheet.contains("the coupling and the bearing") && !sheet.contains("Measure only"), "{sheet}");
}

/// Two lengths of a keyseat, each by its name; a drill deeper than three diameters is drawn back; a center hole that is usual has its
/// speed (common practice, no source).
#[test]
fn keyseats_deep_holes_and_center_drills() {
    let text = "part: pin\nunits: mm\nmaterial: C45\nstock: 36 x 103\ndatum: key end\noverall: 100 ±0.3\ntolerances: ISO 2768-m\nfeatures:\n  \
- turn: 20 h6\n    to: 50\n  - turn: 30\n    to: end\n  - keyseat: 6 x 6 x 25\n    from: 5\n  - hole: 6\n    deep: 40\n    end: far\n";
    let (_, figures, sheet) = made(text, Some(&shop(Reads::Diameter)));
    assert!(sheet.contains("C long") && sheet.contains("“long” is a feature’s own length"), "{sheet}");
    assert!(sheet.contains("past 18.00 deep: out of the hole every 6.00"), "{sheet}");
    let mut all = figures.setups.iter().flat_map(|s| &s.operations);
    let usual = all.find(|o| matches!(&o.job, Job::Center(c) if c.usual_for.is_some()));
    assert!(usual.is_none_or(|o| o.speed.is_some()), "a center drill turns at some speed");
}

/// What is set on a machine is told in the unit of its dials: a 6 mm seat in a shaft of 20 is touched at the side and moved across 10 + 3 = 13 mm, .5118 in; the cutter goes from
/// 8 to 27 mm, .315 to 1.063 in; 3.5 deep (ISO 773, t1) is .1378 in (1 in = 25.4 mm, 1959).
#[test]
fn a_keyseat_is_touched_off_in_the_unit_of_the_dials() {
    let text = "part: pin\nunits: mm\nmaterial: C45\nstock: 36 x 103\ndatum: key end\noverall: 100 ±0.3\ntolerances: ISO 2768-m\nfeatures:\n  \
- turn: 20 h6\n    to: 50\n  - turn: 30\n    to: end\n  - keyseat: 6 x 6 x 25\n    from: 5\n";
    let (_, _, sheet) = made(text, Some(&shop(Reads::Diameter)));
    for told in [
        "across by .5118 in and the paper",
        "from .315 in to 1.063 in from",
        "then .1378 in deep from the top",
        "half of 20.000 mm and half of 6.000 mm",
    ] {
        assert!(sheet.contains(told), "{told}: {sheet}");
    }
    let (_, _, drawn) = made(text, None);
    assert!(drawn.contains("across by 13.000 and the paper"), "{drawn}");
}

/// Before the last cut a length is measured, what it is too long is worked out and dialed in; a bar that is not as stated is told to the dial by what it differs, on a radius
/// dial by half of it. Common practice, no source: that there are blanks for it.
#[test]
fn what_is_to_come_off_stands_before_the_cut() {
    let (_, _, sheet) = made(LEFT, Some(&shop(Reads::Radius)));
    assert!(sheet.contains("**it reads**"), "{sheet}");
    assert!(sheet.contains("**8.000**") && sheet.contains("last cut; overall"), "{sheet}");
    assert_eq!(sheet.matches("half instead of 0").count(), 1, "{sheet}");
}

/// A disk of 12 in at 1000 rpm has a rim of 12 x 25.4 x pi x 1000 / 60 = 15 960 mm/s, 16 m/s: warned of; at 500 rpm half of that: not (circumference by turns; 15 m/s is
/// common practice, no source).
#[test]
fn a_large_bar_that_goes_round_fast_is_warned_of() {
    let text = "part: disk\nunits: in\nmaterial: 12L14\nstock: 12.000 x 2.125\ndatum: face\noverall: 2.000 ±0.010\n\
tolerances: {lengths: ±0.010, diameters: ±0.005}\nfeatures:\n  - turn: 11.500\n    to: end\n";
    for (gear, warned) in [(1_000, true), (500, false)] {
        let shop = Shop { speeds: vec![gear], swing: None, ..shop(Reads::Radius) };
        let (_, figures, _) = made(text, Some(&shop));
        assert_eq!(
            figures.cautions.iter().any(|c| c.contains("marked on the chuck")),
            warned,
            "{gear}: {:?}",
            figures.cautions
        );
    }
}
