//! `identify`: worn samples made by simulation, and readings that people published with their answers.

use turnwright::handbook::identify::{Candidate, Pitched, ThreadReadings, candidates, threads};
use turnwright::unit::{Length, Unit};

fn mm(x: f64) -> Length {
    Length::from_f64(x, Unit::Millimetre)
}

/// A normal deviate from uniform ones (sum of twelve), independent of the model under test.
fn normal(rng: &mut fastrand::Rng, sigma: f64) -> f64 {
    ((0..12).map(|_| rng.f64()).sum::<f64>() - 6.0) * sigma
}

/// A worn sample of `c`, read by caliper: made anywhere in its class, worn evenly between nothing and twice the usual wear (not
/// the exponential of the model), diameter to 0.02 mm, crest to crest over 4 to 12 pitches to 0.08 mm.
fn worn(c: &Candidate, rng: &mut fastrand::Rng, angle: bool) -> ThreadReadings {
    let made = c.major.min.mm() + rng.f64() * (c.major.max - c.major.min).mm();
    let wear = rng.f64() * 2.0 * (0.04 * c.pitch_mm()).max(0.015);
    let over = rng.u32(4..=12);
    ThreadReadings {
        major: Some(mm(made - wear + normal(rng, 0.02))),
        pitch: vec![Pitched::Span(mm(c.pitch_mm() * f64::from(over) + normal(rng, 0.08)), over)],
        angle: angle.then(|| c.angle + normal(rng, 2.0)),
        taper: angle.then_some(c.taper),
        ..ThreadReadings::default()
    }
}

/// Draws of every thread; how often it is among the first three, and first, and with what it is confused.
fn confusion(draws: u32, angle: bool) -> (f64, f64, Vec<(String, u32)>) {
    let mut rng = fastrand::Rng::with_seed(11);
    let (mut first, mut three, mut all) = (0_u32, 0_u32, 0_u32);
    let mut pairs = std::collections::BTreeMap::new();
    for c in candidates() {
        for _ in 0..draws {
            let found = threads(&worn(c, &mut rng, angle));
            let place = found.ranked.iter().position(|r| r.candidate.name == c.name);
            all += 1;
            first += u32::from(place == Some(0));
            three += u32::from(place.is_some_and(|p| p < 3));
            if place != Some(0) {
                let taken = found.ranked.first().map_or("nothing", |r| &r.candidate.name);
                *pairs.entry(format!("{} taken for {taken}", c.name)).or_insert(0_u32) += 1;
            }
        }
    }
    let mut pairs: Vec<_> = pairs.into_iter().collect();
    pairs.sort_by_key(|p| std::cmp::Reverse(p.1));
    (f64::from(three) / f64::from(all), f64::from(first) / f64::from(all), pairs)
}

/// The measure: every standard thread of the tables among the first three in at least 95 % of draws.
#[test]
fn worn_samples_of_every_thread_are_found() {
    assert!(candidates().len() > 700, "{}", candidates().len());
    for angle in [true, false] {
        // `TURNWRIGHT_DRAWS=20` for the long run.
        let draws = std::env::var("TURNWRIGHT_DRAWS").ok().and_then(|d| d.parse().ok()).unwrap_or(1);
        let (three, first, pairs) = confusion(draws, angle);
        println!("flank angle and taper read: {angle}; first three {three:.4}, first {first:.4}");
        for (pair, n) in pairs.iter().take(25) {
            println!("  {n} {pair}");
        }
        assert!(three >= 0.95 && first > 0.85, "{three} {first} {pairs:?}");
    }
}

fn first(read: &ThreadReadings) -> String {
    threads(read).ranked[0].candidate.name.clone()
}

fn names(read: &ThreadReadings) -> Vec<String> {
    threads(read).ranked.iter().map(|r| r.candidate.name.clone()).collect()
}

/// Old tools list, 2017-12-12 (swingleydev.com/ot/get/264211): five pitches of .180 in: 28 threads per inch the likeliest, 27
/// unheard of, 26 and 30 unlikely. With the diameter that message leaves open, a quarter inch.
#[test]
fn five_pitches_in_180_thousandths() {
    let read = ThreadReadings {
        major: Some(Length::inch_tenths(2_460)),
        pitch: vec![Pitched::Span(Length::inch_tenths(1_800), 5)],
        ..ThreadReadings::default()
    };
    assert_eq!(first(&read), "1/4-28 UNF");
}

/// uk.d-i-y, post 7 of thread 2236924 (diybanter.com): outside 13.8 mm (.54 in), leaves 1.5 mm and 16 tpi both seem to fit; answer M14 x 1.5,
/// "apparently not a BSP or NPT thread".
#[test]
fn an_air_temperature_sensor() {
    let leaf = |mm: i64| Pitched::Leaf(Length::micrometres(mm));
    let read =
        ThreadReadings { major: Some(mm(13.8)), pitch: vec![leaf(1_500), leaf(1_588)], ..ThreadReadings::default() };
    assert_eq!(first(&read), "M14x1.5");
}

/// British motorcycle threads (jrcengineering.com, thread pitch and screw types): .185 in with 31.4 tpi is 2 BA, .190 with 32 is
/// 10-32, .196 with 31.75 is M5 x 0.8: only the diameter tells them. Those are nominal; a screw reads a little less, as it says
/// there: two thousandths here.
#[test]
fn two_ba_or_ten_thirty_two_or_five_millimetres() {
    for (tenths, tpi, name) in [(1_830, 31.4, "2 BA"), (1_880, 32.0, "No. 10-32 UNF"), (1_940, 31.75, "M5x0.8")] {
        let read = ThreadReadings {
            major: Some(Length::inch_tenths(tenths)),
            pitch: vec![Pitched::Leaf(mm(25.4 / tpi))],
            ..ThreadReadings::default()
        };
        assert_eq!(first(&read), name);
    }
}

/// Pipe threads from printed tables (ISO 228-1, ASME B1.20.1): 20.9 mm with 14 tpi at 55° parallel is G 1/2; .84 in on a taper is 1/2 NPT.
#[test]
fn pipe_threads() {
    let read = |major: f64, angle: f64, taper: bool| ThreadReadings {
        major: Some(mm(major)),
        pitch: vec![Pitched::Leaf(mm(25.4 / 14.0))],
        angle: Some(angle),
        taper: Some(taper),
        ..ThreadReadings::default()
    };
    assert_eq!(first(&read(20.85, 55.0, false)), "G 1/2");
    assert_eq!(first(&read(20.95, 55.0, true)), "R 1/2");
    assert_eq!(first(&read(21.2, 60.0, true)), "1/2-14 NPT");
}

/// 55° against 60°, 29° against 30°: the same size and pitch stand side by side (BS 84 and ASME B1.1: 1/4-20 in both), and the
/// words say how to tell them.
#[test]
fn rivals_stand_beside_each_other() {
    let quarter = ThreadReadings {
        major: Some(Length::inch_tenths(2_450)),
        pitch: vec![Pitched::Span(Length::inch_tenths(5_000), 10)],
        ..ThreadReadings::default()
    };
    let found = names(&quarter);
    assert_eq!(found[..2], ["1/4-20 UNC", "1/4-20 BSW"]);
    let tells = &threads(&quarter).ranked[1].tells;
    assert!(tells.iter().any(|t| t.contains("leaves against the light")), "{tells:?}");
    assert_eq!(first(&ThreadReadings { angle: Some(55.0), ..quarter }), "1/4-20 BSW");
    // 1 in Acme has 5 threads per inch; Tr 26 x 5 is near in both sizes.
    let screw = ThreadReadings {
        major: Some(Length::inch_tenths(9_940)),
        pitch: vec![Pitched::Span(Length::inch_tenths(20_010), 10)],
        angle: Some(29.5),
        ..ThreadReadings::default()
    };
    assert_eq!(first(&screw), "1-5 ACME");
}

/// 1.25 mm or 20 tpi: over five pitches they part by 0.1 mm only; over twenty the span decides (25.4 / 20 = 1.27).
#[test]
fn a_longer_span_decides() {
    let read = |span: f64, n: u32| ThreadReadings {
        major: Some(mm(7.85)),
        pitch: vec![Pitched::Span(mm(span), n)],
        ..ThreadReadings::default()
    };
    assert_eq!(first(&read(25.0, 20)), "M8x1.25");
    let found = threads(&read(6.3, 5));
    assert!(
        found.ranked[0].tells.iter().any(|t| t.contains("over") && t.contains("pitches")),
        "{:?}",
        found.ranked[0].tells
    );
}

/// A lead twice the pitch is two starts; its designation carries them (ISO 2902 writes Tr 40x14(P7)).
#[test]
fn two_starts() {
    let read = ThreadReadings {
        major: Some(mm(39.7)),
        pitch: vec![Pitched::Span(mm(28.02), 4)],
        lead: Some(mm(14.0)),
        angle: Some(30.0),
        ..ThreadReadings::default()
    };
    assert_eq!(first(&read), "Tr 40x14(P7)");
    // Following one groove instead of crest to crest reads the lead: the pitch of 14 exists for no Tr 40.
    let slip = ThreadReadings { pitch: vec![Pitched::Span(mm(42.0), 3)], lead: None, ..read };
    let found = threads(&slip);
    assert!(found.ranked.iter().any(|r| r.candidate.name == "Tr 40x14(P7)" && r.starts == 2), "{:?}", names(&slip));
}

/// A crest cannot read much above its limits, and a pitch that no series has is said to be none.
#[test]
fn what_fits_nothing_is_doubted() {
    let read =
        ThreadReadings { major: Some(mm(12.0)), pitch: vec![Pitched::Span(mm(32.3), 10)], ..ThreadReadings::default() };
    assert!(threads(&read).doubt.is_some());
}

mod command {
    use std::process::Command;

    fn run(args: &[&str]) -> (i32, String, String) {
        let out = Command::new(env!("CARGO_BIN_EXE_turnwright")).arg("identify").args(args).output().unwrap();
        let text = |b: &[u8]| String::from_utf8_lossy(b).into_owned();
        (out.status.code().unwrap(), text(&out.stdout), text(&out.stderr))
    }

    #[test]
    fn text_and_json() {
        let (code, out, _) = run(&["--units", "in", "--major", "0.613", "--span", "0.456 over 5"]);
        assert_eq!(code, 0, "{out}");
        assert!(
            out.contains("1. 5/8-11 UNC") && out.contains("restore to 5/8-11 UNC-2A") && out.contains("2.3165 mm"),
            "{out}"
        );
        let (code, out, _) =
            run(&["--ring", "6204-2RS", "--seat", "0.7865 in", "--carries", "bearing", "--format", "json"]);
        assert_eq!(code, 0);
        let json: serde_json::Value = serde_json::from_str(&out).unwrap();
        assert_eq!(json["format"], "turnwright/identify/1");
        assert_eq!(json["bearings"][0]["bore"], 20.0);
        assert_eq!(json["seats"][0]["candidates"][0]["nominal"], "20 mm");
    }

    #[test]
    fn what_cannot_be_taken_is_said() {
        for (args, words) in [
            (&["--major", "0.613"][..], "in which unit"),
            (&["--units", "in"][..], "nothing was read"),
            (&["--units", "in", "--span", "0.5"][..], "over a number of pitches"),
            (&["--units", "in", "--major", "x"][..], "not a size"),
            (&["--units", "in", "--tpi", "nan"][..], "threads per inch"),
        ] {
            let (code, _, err) = run(args);
            assert_eq!(code, 2, "{args:?}");
            assert!(err.contains(words), "{err}");
        }
    }

    #[test]
    fn nothing_near_is_exit_one() {
        assert_eq!(run(&["--units", "mm", "--major", "12", "--span", "32.3 over 10"]).0, 1);
        assert_eq!(run(&["--ring", "worn away"]).0, 1);
    }
}
