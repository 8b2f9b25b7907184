//! The pulley stub of the worked example as pictures and pages, numbers worked by hand.

pub(crate) mod sheet;

use turnwright::sheet::draw::{self, OnIt, OnShape, Outline, Reading, Stretch, Surface};

/// The pulley stub of the samples, in millimetres of the part.
pub(crate) fn stub() -> (Outline, Vec<Reading>) {
    let inch = 25.4;
    let rows: [(f64, f64, &str); 10] = [
        (0.850, 0.625, "A"),
        (1.000, 0.545, "B"),
        (3.250, 0.8745, "C"),
        (3.650, 1.250, "D"),
        (3.750, 1.060, "E"),
        (4.350, 0.7878, "F"),
        (6.000, 0.770, "G"),
        (6.500, 0.6696, "H"),
        (6.620, 0.425, "J"),
        (7.000, 0.500, "K"),
    ];
    let mut from = 0.0;
    let mut stretches = Vec::new();
    let mut readings = vec![Reading { at: 0.0, text: "0".into() }];
    for (i, (to, d, letter)) in rows.into_iter().enumerate() {
        let mut s = Stretch::cylinder(from * inch, to * inch, d * inch, letter).of(i);
        if letter == "A" {
            s = s.surface(Surface::Thread(0.034 * inch));
            s.bevel_from = (0.045 * inch, 0.045 * inch);
        }
        if letter == "K" {
            s = s.surface(Surface::Thread(0.031 * inch));
            s.bevel_to = (0.040 * inch, 0.040 * inch);
        }
        stretches.push(s);
        readings.push(Reading { at: to * inch, text: format!("{to:.3}").trim_start_matches('0').to_owned() });
        from = to;
    }
    let on = vec![OnIt {
        shape: OnShape::Slot { from: 1.782 * inch, to: 2.468 * inch, width: 0.1875 * inch, round: false },
        feature: Some(10),
        letter: "L".into(),
    }];
    readings.push(Reading { at: 2.125 * inch, text: "2.125".into() });
    (Outline { stretches, on }, readings)
}

/// The stub between centers, turned from the datum end (setup 3 of the worked example), then from the far end (setup 4).
pub(crate) fn scenes() -> Vec<(draw::Scene, draw::Focus)> {
    use draw::{Focus, Gripper, Held, Scene};
    let inch = 25.4;
    let (whole, _) = stub();
    let bar = |from: f64, to: f64| Stretch::cylinder(from * inch, to * inch, 1.25 * inch, "").surface(Surface::Bar);
    let mut near = Outline { stretches: whole.stretches[..3].to_vec(), on: vec![] };
    near.stretches.push(bar(3.25, 7.0));
    let reading = |at: f64, text: &str| Reading { at: at * inch, text: text.into() };
    let scene = Scene {
        gripper: Gripper::Jaws,
        held: Held::Centers,
        datum_right: true,
        before: Outline { stretches: vec![bar(0.0, 7.0)], on: vec![] },
        after: near.clone(),
        grip: Some((6.3 * inch, 6.9 * inch)),
        protect: false,
        rest: None,
        follow: None,
        thrown: 0.0,
        zero: 0.0,
        flag: "DATUM END".into(),
        feet: ("HEADSTOCK".into(), "TAILSTOCK".into()),
        carriage: true,
        alt: "Between centers, datum end at the tailstock.".into(),
    };
    let focus = Focus {
        cuts: vec![(0.0, 3.25 * inch)],
        readings: vec![reading(0.0, "0"), reading(0.85, ".850"), reading(1.0, "1.000"), reading(3.25, "3.250")],
        words: vec!["A".into(), "B".into(), "C".into()],
        ..Focus::default()
    };
    let far = Scene {
        datum_right: false,
        before: near,
        after: Outline { stretches: whole.stretches.clone(), on: vec![] },
        grip: Some((1.4 * inch, 1.9 * inch)),
        protect: true,
        rest: None,
        follow: None,
        thrown: 0.0,
        zero: 7.0 * inch,
        ..scene.clone()
    };
    let far_focus = Focus {
        cuts: vec![(3.65 * inch, 7.0 * inch)],
        readings: [
            (7.0, "0"),
            (6.62, ".380"),
            (6.5, ".500"),
            (6.0, "1.000"),
            (4.35, "2.650"),
            (3.75, "3.250"),
            (3.65, "3.350"),
        ]
        .iter()
        .map(|(at, t)| reading(*at, t))
        .collect(),
        ..Focus::default()
    };
    let chuck = Scene {
        held: Held::Chuck,
        before: Outline { stretches: vec![bar(-0.0625, 7.0625)], on: vec![] },
        after: Outline { stretches: vec![bar(0.0, 7.0625)], on: vec![] },
        grip: Some((1.2 * inch, 2.4 * inch)),
        ..scene.clone()
    };
    let chuck_focus = Focus { faces: vec![0.0], readings: vec![reading(0.0, "0")], ..Focus::default() };
    let turned = Scene {
        held: Held::Chuck,
        datum_right: false,
        before: Outline { stretches: vec![bar(0.0, 7.0625)], on: vec![] },
        after: Outline { stretches: vec![bar(0.0, 7.0)], on: vec![] },
        grip: Some((4.0 * inch, 5.2 * inch)),
        zero: 7.0 * inch,
        ..scene.clone()
    };
    let turned_focus = Focus { faces: vec![7.0 * inch], readings: vec![reading(7.0, "0")], ..Focus::default() };
    let supported = Scene { held: Held::ChuckAndCenter, grip: Some((5.8 * inch, 6.9 * inch)), ..scene.clone() };
    let mill = Scene {
        held: Held::Mill,
        datum_right: false,
        before: whole.clone(),
        after: whole,
        grip: Some((1.2 * inch, 3.1 * inch)),
        feet: (String::new(), "SEEN FROM ABOVE".into()),
        carriage: false,
        ..scene.clone()
    };
    let mill_focus =
        Focus { on: vec![10], readings: vec![reading(0.0, "0"), reading(2.125, "2.125")], ..Focus::default() };
    vec![
        (chuck, chuck_focus),
        (turned, turned_focus),
        (scene, focus.clone()),
        (supported, focus),
        (far, far_focus),
        (mill, mill_focus),
    ]
}
