//! The pictures: no word or letter covers another or leaves the picture, for shapes of 3 to 40 sections.

use crate::stub::{scenes, stub};
use turnwright::sheet::draw::{self, OnIt, OnShape, Outline, Reading, Stretch, Surface};

/// Where pictures are put to be looked at: `TURNWRIGHT_PICTURES=dir cargo test sheet_draw::`.
fn keep(name: &str, picture: &draw::Picture) {
    if let Some(dir) = std::env::var_os("TURNWRIGHT_PICTURES") {
        let file = std::path::Path::new(&dir).join(format!("{name}.svg"));
        std::fs::write(file, &picture.svg).expect("a folder to write pictures to");
    }
}

fn assert_clear(name: &str, picture: &draw::Picture) {
    for (i, (word, area)) in picture.words.iter().enumerate() {
        assert!(
            area.left >= -0.01
                && area.top >= -0.01
                && area.right <= picture.width + 0.01
                && area.bottom <= picture.height + 0.01,
            "{name}: {word:?} leaves the picture: {area:?}"
        );
        for (other, there) in &picture.words[i + 1..] {
            let both_circles = word == draw::canvas::CLEAR && other == draw::canvas::CLEAR;
            assert!(both_circles || !area.meets(there), "{name}: {word:?} {area:?} covers {other:?} {there:?}");
        }
    }
}

#[test]
fn the_stub_is_drawn_with_every_letter_and_length() {
    let (body, readings) = stub();
    let picture = draw::part(&body, &readings, "DATUM END", "the stub".into());
    keep("stub", &picture);
    assert_clear("stub", &picture);
    let words: Vec<&str> = picture.words.iter().map(|(w, _)| w.as_str()).collect();
    for letter in "ABCDEFGHJKL".chars() {
        assert!(words.contains(&letter.to_string().as_str()), "{letter}");
    }
    for r in &readings {
        assert!(words.contains(&r.text.as_str()), "{}", r.text);
    }
}

#[test]
fn every_holding_is_drawn_without_a_word_on_another() {
    for (i, (scene, focus)) in scenes().into_iter().enumerate() {
        let picture = scene.draw(&focus, true, false, &format!("setup-{i}"));
        keep(&format!("setup-{i}"), &picture);
        assert_clear(&format!("setup {i}"), &picture);
        assert!(picture.words.iter().any(|(w, _)| w == "DATUM END"));
    }
}

#[test]
fn marks_and_keyseat_are_drawn() {
    let (body, _) = stub();
    let lines: Vec<draw::MarkLine> = [6.62, 6.5, 6.0, 4.35, 3.75, 1.0, 0.85]
        .iter()
        .enumerate()
        .map(|(i, at)| draw::MarkLine { at: at * 25.4, row: 12.0 + 14.0 * (i as f64 + 0.5) })
        .collect();
    let picture = draw::marks(&body, &lines, 112.0, "marks", "seven lines".into());
    keep("y-marks", &picture);
    assert_eq!(picture.svg.matches("stroke-width=\"1\"").count(), lines.len() + 1, "a bold line each, and the plate");
    let section = draw::KeyseatSection {
        shaft: 0.8745 * 25.4,
        width: 0.1875 * 25.4,
        depth_from_top: 0.2245 * 25.4,
        from_top: ".2245 from the top".into(),
        at_side: ".2143 at the side".into(),
        across: ".6500 across the bottom".into(),
        wide: ".1875 wide".into(),
    };
    let picture = draw::keyseat(&section, "keyseat", "section".into());
    keep("z-keyseat", &picture);
    assert_clear("keyseat", &picture);
    for (width, depth) in [(0.01, 0.01), (0.25, 0.0784), (0.25, 0.2), (0.05, 0.6)] {
        let other =
            draw::KeyseatSection { shaft: 25.4, width: width * 25.4, depth_from_top: depth * 25.4, ..section.clone() };
        assert_clear(
            &format!("keyseat {width} wide, {depth} deep"),
            &draw::keyseat(&other, "keyseat", "section".into()),
        );
    }
}

/// A pseudo-random number from 0 to 1 that is the same everywhere (xorshift, Marsaglia 2003).
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }
}

fn letter(i: usize) -> String {
    let alphabet = "ABCDEFGHJKLMNPQRSTUVWXYZ";
    let n = alphabet.len();
    let one = alphabet.chars().nth(i % n).map(String::from).unwrap_or_default();
    if i < n { one } else { format!("{}{one}", alphabet.chars().nth(i / n - 1).unwrap_or('Z')) }
}

#[test]
fn no_word_covers_another_for_3_to_40_sections() {
    let mut dice = Dice(0x9e37_79b9_7f4a_7c15);
    let (mut most, mut details) = (0, 0);
    for round in 0..300 {
        let n = 3 + round % 38;
        most = most.max(n);
        let mut at = 0.0;
        let mut body = Outline::default();
        let mut readings = vec![Reading { at: 0.0, text: "0".into() }];
        for i in 0..n {
            let long = if dice.roll() < 0.3 { 0.8 + dice.roll() * 2.0 } else { 3.0 + dice.roll() * 120.0 };
            let d = 8.0 + dice.roll() * 60.0;
            let mut s = Stretch::cylinder(at, at + long, d, &letter(i)).of(i);
            if dice.roll() < 0.2 {
                s = s.surface(Surface::Thread(1.0));
            }
            if dice.roll() < 0.1 {
                s.diameter_to = d * 0.8;
            }
            at += long;
            body.stretches.push(s);
            readings.push(Reading { at, text: format!("{at:.2}") });
        }
        if round % 3 == 0 {
            let here = at * dice.roll();
            let shape = OnShape::Slot { from: here, to: here + 8.0, width: 5.0, round: true };
            body.on.push(OnIt { shape, feature: Some(n), letter: letter(n) });
            readings.push(Reading { at: here + 4.0, text: format!("{:.2}", here + 4.0) });
        }
        let picture = draw::part(&body, &readings, "DATUM END", String::new());
        let name = format!("part {round} of {n} sections");
        assert_clear(&name, &picture);
        if let Some(enlarged) = draw::details(&body, &readings, |says| says.join(", ")) {
            assert_clear(&format!("{name}, enlarged"), &enlarged);
            details += 1;
        }
        let letters =
            picture.words.iter().filter(|(w, _)| w.len() <= 2 && w.chars().all(|c| c.is_ascii_uppercase())).count();
        assert!(letters >= n, "{name}: {letters} letters");
        assert!(picture.words.len() > letters + readings.len() - 1, "{name}: a length is missing");
        assert!(picture.words.len() < 200 && picture.height < 110.0, "{name}: {} high", picture.height);
        if [2, 23, 37].contains(&round) {
            keep(&format!("random-{round:03}"), &picture);
        }
        scene_is_clear(&name, &body, at, &mut dice);
    }
    assert_eq!(most, 40, "the generator reaches 40 sections");
    assert!(details > 100, "{details} parts have a groove to enlarge");
}

/// The follow rest stands where what it carries is cut on the page, and on no other page.
#[test]
fn the_follow_rest_is_drawn_where_it_is_set() {
    let (scenes, end) = (scenes(), 100.0);
    let (scene, _) = scenes.into_iter().find(|(s, _)| s.held == draw::Held::Centers).expect("between centers");
    let drawn = |scene: &draw::Scene, cuts: Vec<(f64, f64)>| {
        scene.draw(&draw::Focus { cuts, ..draw::Focus::default() }, false, false, "s").svg
    };
    let with = draw::Scene { follow: Some((10.0, end / 2.0)), ..scene.clone() };
    for (cuts, there) in [(vec![(20.0, 40.0)], true), (vec![(60.0, 80.0)], false), (vec![], false)] {
        assert_eq!(drawn(&with, cuts.clone()) != drawn(&scene, cuts), there);
    }
}

/// A mounting of the same body with up to eight operations on the page.
fn scene_is_clear(name: &str, body: &Outline, end: f64, dice: &mut Dice) {
    let holds = [draw::Held::Chuck, draw::Held::ChuckAndCenter, draw::Held::Centers, draw::Held::Mill];
    let held = holds[(dice.roll() * 4.0) as usize % 4];
    let right = dice.roll() < 0.5;
    let (near, far) = if right { (0.75, 0.9) } else { (0.1, 0.25) };
    let scene = draw::Scene {
        gripper: draw::Gripper::Jaws,
        held,
        datum_right: right,
        before: Outline {
            stretches: vec![Stretch::cylinder(-2.0, end + 2.0, 70.0, "").surface(Surface::Bar)],
            on: vec![],
        },
        after: body.clone(),
        grip: Some((end * near, end * far)),
        protect: dice.roll() < 0.5,
        rest: None,
        follow: None,
        thrown: 0.0,
        zero: if right { 0.0 } else { end },
        flag: "DATUM END".into(),
        feet: ("HEADSTOCK".into(), "TAILSTOCK".into()),
        carriage: dice.roll() < 0.5,
        alt: String::new(),
    };
    let mut focus = draw::Focus::default();
    for s in body.stretches.iter().take(7) {
        focus.cuts.push((s.from, s.to));
        focus.readings.push(Reading { at: s.to, text: format!("{:.2}", s.to) });
    }
    for low in [false, true] {
        assert_clear(&format!("{name}, {held:?}, low: {low}"), &scene.draw(&focus, true, low, "s"));
    }
}

/// A relief of 1.2 mm on a shaft of 300: seen on no drawing of that shaft, so it stands enlarged, its width and depth to scale.
#[test]
fn a_relief_too_small_to_see_is_enlarged() {
    let letters = ["A", "B", "C"];
    let body = |wide: f64, deep: f64| {
        let faces = [0.0, 100.0, 100.0 + wide, 300.0];
        let sizes = [20.0, 20.0 - 2.0 * deep, 20.0];
        let stretch = |i: usize| Stretch::cylinder(faces[i], faces[i + 1], sizes[i], letters[i]).of(i);
        Outline { stretches: (0..3).map(stretch).collect(), on: vec![] }
    };
    let says = |wide, deep| {
        let picture = draw::details(&body(wide, deep), &[], |says| says.join(", "));
        picture.map(|p| {
            assert_clear("detail", &p);
            keep("detail", &p);
            p.alt
        })
    };
    // ISO 5455 has 2:1, 5:1, 10:1, 20:1, 50:1. At 10:1 a groove of 1.2 mm fills half the circle.
    assert_eq!(says(1.2, 0.3).as_deref(), Some("B  10:1"));
    assert_eq!(says(2.4, 0.3).as_deref(), Some("B  5:1"));
    assert_eq!(says(30.0, 5.0), None, "this one can be seen");
    let picture = draw::part(&body(1.2, 0.3), &[], "DATUM END", String::new());
    assert_clear("with its circle", &picture);
    assert!(picture.words.iter().any(|(w, _)| w == draw::canvas::CLEAR), "the place is ringed");
}
