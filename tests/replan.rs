//! What becomes of begun work, against an enumeration that shares no line with it: every set of faces cut again and every place of
//! every face on a coarse grid. The data are whole steps of the grid, so the least of the enumeration is the least there is (a
//! system of difference constraints has its extremes at whole numbers when its limits are whole: Ahuja, Magnanti and Orlin,
//! Network Flows, 1993, ch. 11). The laws and the data are our own; no source is needed for a count.

use turnwright::chain::replan::{Now, Replan, Stated, replan};
use turnwright::model::End;
use turnwright::unit::{Length, Limits};

/// Small numbers from a seed.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, n: i64) -> i64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33) % n.unsigned_abs()).cast_signed()
    }
}

/// Places that are tried: farther than any limit or reading reaches.
const GRID: std::ops::Range<i64> = -4..11;

fn um(n: i64) -> Length {
    Length::micrometres(n)
}

/// Three faces besides the datum face, two steps apart or so, with a limit from the datum for each and two between them.
fn random(seed: u64) -> (Vec<Now>, Vec<Stated>) {
    let d = &mut Dice(seed);
    d.roll(9);
    let drawn = [0, 2, 4, 6];
    let mut faces = Vec::new();
    for (f, at) in drawn.iter().enumerate() {
        let known = f == 0 || d.roll(4) > 0;
        let came = if f == 0 { 0 } else { at + d.roll(3) - 1 };
        let open = f > 0 && d.roll(3) == 0;
        faces.push(Now {
            at: known.then_some(um(came)),
            looks: if f == 3 || d.roll(3) == 0 { End::Far } else { End::Datum },
            open,
            again: !open && d.roll(if f == 0 { 6 } else { 3 }) == 0,
            drawn: Some(um(*at)),
            error: Length::ZERO,
        });
    }
    let mut stated = Vec::new();
    for (from, to) in [(0, 1), (0, 2), (0, 3), (1, 2), (2, 3), (1, 3)] {
        if d.roll(4) == 0 {
            continue;
        }
        let nominal = drawn[to] - drawn[from];
        let (below, above) = (d.roll(2), d.roll(2));
        let limits = Limits::new(um(nominal - below), um(nominal + above));
        stated.push(Stated { from, to, limits, fixed: false });
    }
    (faces, stated)
}

/// Where a face may be on the grid: where it is, or where cutting brings it.
fn may_be(face: &Now, free: bool) -> Vec<i64> {
    let all = GRID;
    let whole = |l: Length| l.pm() / um(1).pm();
    // What is done and was not measured is as drawn.
    match (face.at.or(face.drawn.filter(|_| !face.open)), free) {
        (Some(at), false) => vec![whole(at)],
        (None, _) => all.collect(),
        (Some(at), true) => {
            all.filter(|x| if face.looks == End::Datum { *x >= whole(at) } else { *x <= whole(at) }).collect()
        }
    }
}

/// Least sum of what limits must give, over all places, when these faces may be cut again.
fn least(faces: &[Now], stated: &[Stated], again: &[usize]) -> i64 {
    let options: Vec<Vec<i64>> =
        faces.iter().enumerate().map(|(f, n)| may_be(n, n.open || again.contains(&f))).collect();
    let mut best = i64::MAX;
    for a in &options[0] {
        for b in &options[1] {
            for c in &options[2] {
                for d in &options[3] {
                    let at = [*a, *b, *c, *d];
                    let misses = |s: &Stated| {
                        let (is, min, max) = (um(at[s.to] - at[s.from]), s.limits.min, s.limits.max);
                        ((is - max).max(min - is).max(Length::ZERO)).pm() / um(1).pm()
                    };
                    best = best.min(stated.iter().map(misses).sum());
                }
            }
        }
    }
    best
}

/// Every set of faces, smallest first.
fn sets(all: &[usize]) -> Vec<Vec<usize>> {
    let mut list: Vec<Vec<usize>> =
        (0..1_u32 << all.len()).map(|m| (0..all.len()).filter(|i| m >> i & 1 == 1).map(|i| all[i]).collect()).collect();
    list.sort_by_key(Vec::len);
    list
}

fn widened(stated: &[Stated], found: &Replan) -> Vec<Stated> {
    let mut wider = stated.to_vec();
    for (i, by) in &found.gives {
        let l = &mut wider[*i].limits;
        *l = if by.is_positive() { Limits::new(l.min, l.max + *by) } else { Limits::new(l.min + *by, l.max) };
    }
    wider
}

#[test]
fn fewest_recuts_and_least_concession_equal_an_enumeration() {
    let (mut as_is, mut recut, mut scrap) = (0, 0, 0);
    for seed in 0..600 {
        let (faces, stated) = random(seed);
        let found = replan(&faces, &stated, Length::ZERO).unwrap_or_else(|| panic!("seed {seed}"));
        let all: Vec<usize> = (0..faces.len()).filter(|f| faces[*f].again && !faces[*f].open).collect();
        let sum: i64 = found.gives.iter().map(|(_, by)| by.abs().pm() / um(1).pm()).sum();
        assert_eq!(sum, least(&faces, &stated, &all), "seed {seed}: least concession");
        assert_eq!(found.clash.is_empty(), sum == 0, "seed {seed}");
        let wider = widened(&stated, &found);
        let fewest = sets(&all).into_iter().find(|s| least(&faces, &wider, s) == 0).expect("some set does").len();
        assert_eq!(found.again.len(), fewest, "seed {seed}: {found:?}");
        assert!(found.fewest && least(&faces, &wider, &found.again) == 0, "seed {seed}");
        keeps(seed, &faces, &wider, &found);
        proof(seed, &faces, &stated, &found, &all);
        as_is += u32::from(sum == 0 && fewest == 0);
        recut += u32::from(sum == 0 && fewest > 0);
        scrap += u32::from(sum > 0);
    }
    assert!(as_is > 60 && recut > 40 && scrap > 60, "{as_is} {recut} {scrap}");
}

/// Readings that may be off, against the same enumeration with every face anywhere within its error.
#[test]
fn errors_of_readings_equal_an_enumeration() {
    let (mut assured, mut not, mut doubts) = (0, 0, 0);
    for seed in 0..2_400 {
        let (mut faces, stated) = random(seed);
        let d = &mut Dice(seed + 7_000);
        d.roll(9);
        for face in faces.iter_mut().skip(1).filter(|f| f.at.is_some()) {
            face.error = um(d.roll(2));
        }
        let found = replan(&faces, &stated, Length::ZERO).unwrap_or_else(|| panic!("seed {seed}"));
        let all: Vec<usize> = (0..faces.len()).filter(|f| faces[*f].again && !faces[*f].open).collect();
        if !found.gives.is_empty() {
            let could = anywhere(&faces).iter().any(|true_ones| least(true_ones, &stated, &all) == 0);
            assert_eq!(found.doubtful, could, "seed {seed}");
            doubts += u32::from(could);
            continue;
        }
        let cut = |f: usize| faces[f].open || found.again.contains(&f);
        let off = |f: usize| if cut(f) || faces[f].at.is_none() { 0 } else { faces[f].error.pm() / um(1).pm() };
        // What is aimed keeps every length it is not told unsure of, whatever the faces that stand are.
        for (i, s) in stated.iter().enumerate() {
            let (Some(a), Some(b)) = (found.at[s.from], found.at[s.to]) else { continue };
            let by = um(off(s.from) + off(s.to));
            let worst = (b - a + by - s.limits.max).max(s.limits.min - (b - a - by));
            let told = found.unsure.iter().find(|(u, _)| *u == i).map(|(_, by)| *by);
            assert_eq!(told, (by.is_positive() && worst.is_positive()).then_some(worst), "seed {seed}: length {i}");
        }
        // Where some places keep everything that is cut, whatever the errors, nothing that is cut is left unsure.
        let mixed = |s: &Stated| cut(s.from) || cut(s.to);
        let narrow: Vec<Stated> = stated
            .iter()
            .map(|s| {
                let by = if mixed(s) { um(off(s.from) + off(s.to)) } else { Length::ZERO };
                Stated { limits: Limits { min: s.limits.min + by, max: s.limits.max - by }, ..*s }
            })
            .collect();
        let possible = narrow.iter().all(|s| s.limits.min <= s.limits.max) && least(&faces, &narrow, &found.again) == 0;
        let open: Vec<usize> = found.unsure.iter().map(|(i, _)| *i).filter(|i| mixed(&stated[*i])).collect();
        assert_eq!(open.is_empty(), possible, "seed {seed}: {open:?}");
        assured += u32::from(possible && narrow != stated);
        not += u32::from(!possible);
    }
    assert!(assured > 20 && not > 20 && doubts > 20, "{assured} {not} {doubts}");
}

/// The faces with every reading anywhere within its error, in whole steps.
fn anywhere(faces: &[Now]) -> Vec<Vec<Now>> {
    let mut list = vec![faces.to_vec()];
    for f in 0..faces.len() {
        let (Some(at), error) = (faces[f].at, faces[f].error) else { continue };
        if error.is_positive() {
            let moved = |by: Length| {
                move |faces: &Vec<Now>| {
                    let mut faces = faces.clone();
                    faces[f].at = Some(at + by);
                    faces
                }
            };
            list = [Length::ZERO, error, -error]
                .iter()
                .flat_map(|by| list.iter().map(moved(*by)).collect::<Vec<_>>())
                .collect();
        }
    }
    list
}

/// The places told keep every limit, and nothing moves against its metal or without being cut.
fn keeps(seed: u64, faces: &[Now], stated: &[Stated], found: &Replan) {
    for (f, face) in faces.iter().enumerate() {
        let Some(at) = found.at[f] else { continue };
        let cut = face.open || found.again.contains(&f);
        match (face.at, cut) {
            (Some(was), false) => assert_eq!(at, was, "seed {seed}"),
            (Some(was), true) if face.looks == End::Datum => assert!(at >= was, "seed {seed}"),
            (Some(was), true) => assert!(at <= was, "seed {seed}"),
            _ => {}
        }
        if let (true, Some(window)) = (cut, found.windows[f]) {
            assert!(window.holds(at), "seed {seed}: {at:?} {window:?}");
        }
    }
    for s in stated {
        if let (Some(a), Some(b)) = (found.at[s.from], found.at[s.to]) {
            assert!(s.limits.holds(b - a), "seed {seed}: {s:?}");
        }
    }
}

/// The limits named clash by themselves, and without any one of them there is a way.
fn proof(seed: u64, faces: &[Now], stated: &[Stated], found: &Replan, all: &[usize]) {
    if found.clash.is_empty() {
        return;
    }
    let named: Vec<Stated> = found.clash.iter().map(|i| stated[*i]).collect();
    assert!(least(faces, &named, all) > 0, "seed {seed}: they clash");
    for i in 0..named.len() {
        let mut fewer = named.clone();
        fewer.remove(i);
        assert_eq!(least(faces, &fewer, all), 0, "seed {seed}: each is needed");
    }
}

/// By hand: a collar 20 thick ±0.05 between two shoulders; both came out toward each other.
#[test]
fn a_collar_too_thin_is_scrap_by_just_so_much() {
    let error = Length::ZERO;
    let made = |at, looks| Now { at: Some(um(at)), looks, open: false, again: true, drawn: Some(um(at)), error };
    let faces = [made(0, End::Datum), made(30_040, End::Datum), made(49_960, End::Far)];
    let limit = |from, to, min, max| Stated { from, to, limits: Limits::new(um(min), um(max)), fixed: false };
    let stated = [limit(0, 1, 29_900, 30_100), limit(0, 2, 49_900, 50_100), limit(1, 2, 19_950, 20_050)];
    let found = replan(&faces, &stated, um(1)).expect("a question");
    // 49.96 − 30.04 = 19.92, which is 0.03 under 19.95; neither face can move outward.
    assert_eq!(found.gives, [(2, um(-30))]);
    assert_eq!((found.clash.clone(), found.misses), (vec![2], um(30)));
    assert!(found.again.is_empty());
    // The other way round it is 0.03 too thick: one face is cut again, to the middle of what then holds everything.
    let faces = [made(0, End::Datum), made(29_960, End::Datum), made(50_040, End::Far)];
    let found = replan(&faces, &stated, um(1)).expect("a question");
    assert!(found.gives.is_empty() && found.again.len() == 1);
    let thick = found.at[2].expect("placed") - found.at[1].expect("placed");
    assert!(Limits::new(um(19_950), um(20_050)).holds(thick));
}

/// By hand: the bearing face came out 0.004 in deep, within its own ±.005; the face still to be cut follows it to keep 2.250 ±.003.
#[test]
fn what_is_still_to_be_cut_follows_what_came_out() {
    let thou = |n: i64| Length::micro_inches(n * 1000);
    let made = |at: i64, drawn: i64| Now {
        at: Some(thou(at)),
        looks: End::Datum,
        open: false,
        again: true,
        drawn: Some(thou(drawn)),
        error: Length::ZERO,
    };
    let error = Length::ZERO;
    let open = Now { at: None, looks: End::Far, open: true, again: false, drawn: Some(thou(6_000)), error };
    let limit = |from, to, min, max| Stated { from, to, limits: Limits::new(thou(min), thou(max)), fixed: false };
    let stated = [limit(0, 1, 3_745, 3_755), limit(0, 2, 5_995, 6_005), limit(1, 2, 2_247, 2_253)];
    let found = replan(&[made(0, 0), made(3_754, 3_750), open], &stated, thou(1)).expect("a question");
    // 3.754 + 2.247 = 6.001 at least, and 6.005 at most by its own limit.
    assert_eq!(found.windows[2], Some(Limits::new(thou(6_001), thou(6_005))));
    assert_eq!(found.at[2], Some(thou(6_003)));
    // The reading of the bearing face is good to ±.0005: what is aimed from it is narrower by that, at the one end that it decides.
    let read = Now { error: Length::micro_inches(500), ..made(3_754, 3_750) };
    let found = replan(&[made(0, 0), read, open], &stated, thou(1)).expect("a question");
    assert_eq!(found.windows[2], Some(Limits::new(Length::micro_inches(6_001_500), thou(6_005))));
    assert!(found.unsure.is_empty(), "3.750 ±.005 holds with .0005 to spare: {:?}", found.unsure);
    // With .005 of error nothing is left of 2.250 ±.003, and the face itself may be past 3.755: both are told.
    let read = Now { error: thou(5), ..made(3_754, 3_750) };
    let found = replan(&[made(0, 0), read, open], &stated, thou(1)).expect("a question");
    assert_eq!(found.windows[2], Some(Limits::new(thou(6_001), thou(6_005))));
    assert_eq!(found.unsure, [(0, thou(4)), (2, thou(3))], "3.759 − 3.755; 2.247 − (6.003 − 3.759)");
    // As drawn, it stays as drawn.
    let found = replan(&[made(0, 0), made(3_750, 3_750), open], &stated, thou(1)).expect("a question");
    assert_eq!(found.at[2], Some(thou(6_000)));
    assert!(found.again.is_empty() && found.gives.is_empty());
}

#[test]
fn nonsense_is_no_question() {
    let error = Length::ZERO;
    let face = Now { at: Some(um(0)), looks: End::Datum, open: false, again: false, drawn: Some(um(0)), error };
    let stated = Stated { from: 0, to: 7, limits: Limits::new(um(0), um(1)), fixed: false };
    assert_eq!(replan(&[face], &[stated], um(1)), None);
}
