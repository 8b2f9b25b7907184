//! Minutes of cuts as textbooks and manuals work them. Unless another stands there: P. C. Sharma, A Textbook of Production Engineering, chapter 4, cost
//! estimating (inputs and results of its worked examples by the Python Textbook Companions of FOSSEE, IIT Bombay). Two parts of which one is longer by
//! the printed length leave handling and measuring out. The book's speeds are not those of a gearbox: the shop has no list of gears, and its surface speed is the book's.

use turnwright::figures::Job;
use turnwright::model::Shop;
use turnwright::model::plan::{Operation, Verb};
use turnwright::model::shop::Reads;
use turnwright::plan::cutting::plunges;
use turnwright::unit::{Length, Unit};

use crate::figures::hand::{operation_of, shop};
use crate::figures::planned::{Worked, worked};
use crate::figures::published_more::holds;

const HANDLING: f64 = 0.3;

fn mm(value: f64) -> Length {
    Length::from_f64(value, Unit::Millimetre)
}

/// A shop of one surface speed in metres a minute and one feed in millimetres a turn; its gears, none for any speed.
fn of(speed: f64, feed: f64, gears: &[u32]) -> Shop {
    Shop {
        surface_speed_hss: Some(speed),
        surface_speed_carbide: None,
        speeds: gears.to_vec(),
        feeds: vec![mm(feed)],
        depth_rough: Some(mm(20.0)),
        ..shop(Reads::Radius)
    }
}

/// The one operation of this kind.
fn only(w: &Worked, verb: Verb, inside: bool) -> Operation {
    let all: Vec<&Operation> =
        w.plan.operations().map(|(_, o)| o).filter(|o| o.verb == verb && o.inside == inside).collect();
    assert_eq!(all.len(), 1, "{verb:?}: {all:?}");
    all[0].clone()
}

/// Minutes of one roughing cut over so many millimetres of a bar.
fn turned(units: &str, (bar, to): (f64, f64), long: f64, own: &Shop) -> f64 {
    let part = |first: f64| {
        let whole = first + 60.0;
        let text = format!(
            "part: roller\nunits: {units}\nmaterial: 1018 cold drawn\nstock: {bar} x {:.3}\ndatum: left\noverall: {whole:.3}\nfeatures:\n  - turn: {to}\n    to: {first:.3}\n  - turn: stock\n    to: {whole:.3}\n",
            whole + 2.0
        );
        let w = worked(text.as_bytes(), Some(own));
        let rough = only(&w, Verb::Rough, false);
        let cuts = operation_of(&w.figures, rough.number).passes.as_ref().expect("cuts").count;
        (rough.minutes, f64::from(cuts))
    };
    let ((short, cuts), (longer, as_many)) = (part(20.0), part(20.0 + long));
    assert_eq!((cuts, as_many), (1.0, 1.0));
    longer - short
}

/// Example 4.11: 100 m/min and .75 mm, 76 mm of 50 mm and 38 mm of 38: .22 min. 4.12: 60 m/min and .375 mm, 32 mm of 38: .17. S. Kalpakjian and S. R. Schmid, Manufacturing
/// Engineering and Technology, example 22.1: 6 in of a half-inch rod at 400 rpm and 8 in a minute: .75.
#[test]
fn turning() {
    let first = of(100.0, 0.75, &[]);
    let both = turned("mm", (50.0, 38.0), 76.0, &first) + turned("mm", (38.0, 25.0), 38.0, &first);
    holds("Sharma 4.11", 0.22, both, 0.02);
    holds("and without its rounding", 76.0 / (0.75 * 636.62) + 38.0 / (0.75 * 837.66), both, 0.011);
    holds("Sharma 4.12", 0.17, turned("mm", (38.0, 30.0), 32.0, &of(60.0, 0.375, &[])), 0.011);
    let rod = of(100.0, 8.0 / 400.0 * 25.4, &[400]);
    holds("Kalpakjian 22.1", 0.75, turned("in", (0.5, 0.4), 6.0, &rod), 0.011);
}

/// Example 4.13: 7.5 cm faced at 49.1 rpm and .8 mm: 1.91 min. (The book takes the speed at the middle of the face; ours is slower, at the bar's own diameter.)
#[test]
fn facing() {
    let text = b"part: disk\nunits: mm\nmaterial: 1018 cold drawn\nstock: 150 x 122\ndatum: left\noverall: 120\nfeatures:\n  - turn: stock\n    to: 120\n";
    let own = of(200.0, 0.8, &[49]);
    let w = worked(text, Some(&own));
    let measure = own.minutes.map_or(0.5, |m| m.measure);
    let faces: Vec<f64> = w.plan.operations().filter(|(_, o)| o.verb == Verb::Face).map(|(_, o)| o.minutes).collect();
    assert!(!faces.is_empty());
    for minutes in faces {
        holds("Sharma 4.13", 1.91, (minutes - measure) / 2.0 - HANDLING, 0.01);
    }
    let slower = worked(text, Some(&of(27.0, 0.8, &[])));
    assert!(slower.plan.operations().filter(|(_, o)| o.verb == Verb::Face).all(|(_, o)| o.minutes > 2.0 * 1.91));
}

/// Example 4.21: five cuts of 89 mm with a lead of 5 mm at 6 m/min on 44 mm: 2.05 min. Threads are cut at a quarter of the turning speed, so that is 24 m/min; the book's
/// revolutions belong to 44 mm, ours to what is turned for the thread.
#[test]
fn threading() {
    let part = |long: f64| {
        let whole = long + 60.0;
        let text = format!(
            "part: screw\nunits: mm\nmaterial: 1018 cold drawn\nstock: 60 x {}\ndatum: left\noverall: {whole}\nfeatures:\n  - thread: M44x5-6g\n    to: {long}\n  - relief: 36\n    to: {}\n  - turn: stock\n    to: {whole}\n",
            whole + 3.0,
            long + 15.0
        );
        // On a screw of the same pitch the half-nuts are opened: the book counts no way back under power.
        let own = Shop { leadscrew_tpi: None, leadscrew_pitch: Some(mm(5.0)), thread_dial: None, ..of(24.0, 0.2, &[]) };
        let measure = own.minutes.map_or(0.5, |m| m.measure);
        let w = worked(text.as_bytes(), Some(&own));
        let thread = only(&w, Verb::Thread, false);
        let Job::Thread(cut) = &operation_of(&w.figures, thread.number).job else { panic!("a thread") };
        let passes = cut.passes.len() + cut.spring_passes as usize;
        ((thread.minutes - 2.0 * measure) / passes as f64, cut.passes.len(), thread.from_diameter.expect("a size").mm())
    };
    let ((short, cuts, size), (longer, as_many, _)) = (part(40.0), part(129.0));
    assert_eq!(cuts, as_many);
    // Each pass, those without infeed too.
    let each = longer - short;
    holds("Sharma 4.21", 2.05 / 5.0 * size / 44.0, each, 0.001_5);
}

/// Example 4.14: a hole of 12.7 mm, 57.37 mm of travel at 75 m/min and .175 mm: .174 min. From the tailstock it is fed by hand, .1 mm a turn, and drawn out twice (common practice, no
/// source): as many revolutions a minute, so .175/.1 x 1.5 as long. Drills run at four fifths of the turning speed.
#[test]
fn drilling() {
    let part = |deep: f64| {
        let text = format!(
            "part: block\nunits: mm\nmaterial: 1018 cold drawn\nstock: 50 x 122\ndatum: left\noverall: 120\ntolerances: ISO 2768-m\nfeatures:\n  - turn: stock\n    to: 120\ninside:\n  - {{hole: 12.7, end: far, depth: {deep}}}\n"
        );
        let w = worked(text.as_bytes(), Some(&of(75.0 / 0.8, 0.2, &[])));
        let drill = only(&w, Verb::Drill, true);
        let Job::Hole(hole) = &operation_of(&w.figures, drill.number).job else { panic!("a hole") };
        // A smaller drill goes before one of 12.7, at the speed that is told: twice as long.
        assert_eq!(hole.steps.len(), 2);
        drill.minutes / 2.0
    };
    holds("Sharma 4.14", 0.174 * (0.175 / 0.1) * 1.5, part(77.37) - part(20.0), 0.011);
}

/// US Army Air Corps, TM 1-420 Lathes (1940), parting (page 55 of the scan at digital.library.unt.edu): about .002 in a turn. A groove plunged 2 mm deeper at 100 rpm takes .394 min longer by that, and ours is fed by
/// .05 mm, a sixtieth less.
#[test]
fn plunging() {
    let part = |bottom: f64| {
        let text = format!(
            "part: roller\nunits: mm\nmaterial: 1018 cold drawn\nstock: 50 x 122\ndatum: left\noverall: 120\nfeatures:\n  - turn: stock\n    to: 120\n  - groove: {bottom}\n    from: 50\n    wide: 3\n"
        );
        let w = worked(text.as_bytes(), Some(&of(200.0, 0.2, &[100])));
        let groove = only(&w, Verb::Groove, false);
        let plunges = operation_of(&w.figures, groove.number).positions.len();
        (groove.minutes, plunges)
    };
    let ((shallow, one), (deep, other)) = (part(44.0), part(40.0));
    assert_eq!(one, other);
    let printed = 2.0 / (0.002 * 25.4 * 100.0);
    let each = (deep - shallow) / one as f64;
    assert!((each / printed - 0.0508 / 0.05).abs() < 0.02, "{each} {printed}, {one} plunges");
}

/// An insert maker's catalogue (2020, p. F226) has one way for grooves of up to two widths of the insert, and another for wider ones: two plunges cover the first, never the second.
#[test]
fn plunges_of_wide_grooves() {
    for tool in [1.5, 2.0, 3.0, 6.0] {
        for widths in [1.01, 1.5, 2.0, 2.01, 3.0, 5.0] {
            let count = plunges(mm(tool * widths), Some(mm(tool)));
            assert_eq!(count == 2, widths <= 2.0, "{tool} x {widths}: {count}");
        }
    }
}

/// Metal ends at the bore: a bush of 48 with a hole of 30 is parted by 9 mm, a pin of 48 by 24 (arithmetic by hand). At .002 in a turn (TM 1-420, as
/// above) and 100 rpm the 15 mm between take 2.953 min; ours is fed by .05 mm, a sixtieth less.
#[test]
fn parting_ends_at_the_bore() {
    let part = |inside: &str| {
        let text = format!(
            "part: bush\nunits: mm\nmaterial: 1018 cold drawn\nstock: 50 x 1000\ndatum: head\noverall: 60 ±0.2\n\
             tolerances: {{lengths: ±0.1, diameters: ±0.05}}\nfeatures:\n  - turn: 48\n    to: end\n{inside}plan: {{part off: true}}\n"
        );
        let w = worked(text.as_bytes(), Some(&of(200.0, 0.2, &[100])));
        let parted = only(&w, Verb::PartOff, false);
        // The cross dial reads as far, from where the tool touches.
        let figures = operation_of(&w.figures, parted.number);
        let dial = figures.cross_dial.as_ref().expect("a dial").from_zero.shown.value;
        let off = (dial - parted.travel.expect("how far")).abs();
        assert!(off <= turnwright::unit::Length::micro_inches(500), "{dial:?} of {:?}", parted.travel);
        assert_eq!(parted.parts_into_a_hole(), inside.contains("through"));
        (parted.minutes, parted.travel.expect("how far").mm())
    };
    let (solid, whole) = part("");
    let (bored, into) = part("inside:\n  - bore: 30\n    depth: through\n    end: datum\n");
    let (blind, deep) = part("inside:\n  - bore: 30\n    depth: 40\n    end: datum\n");
    // Parted where the finish cut of the section has been: the limits' middle or the bar itself.
    assert!((whole - 24.0).abs() < 1.01 && (whole - into - 15.0).abs() < 0.06, "{whole} {into}");
    assert!((deep - whole).abs() < 1e-9 && (blind - solid).abs() < 1e-9, "a hole that ends before it leaves the metal");
    let printed = (whole - into) / (0.002 * 25.4 * 100.0);
    assert!(((solid - bored) / printed - 0.0508 / 0.05).abs() < 0.02, "{solid} {bored} {printed}");
}
