//! Thread designations: the forms that standards and shop drawings use, what cannot be read, and that showing reads back.

use proptest::prelude::*;
use turnwright::handbook::thread::{
    ALL, Asked, BadThreadWhy, Designation, EngagementGroup, Family, Hand, Pitch, TaperPipe, UnifiedSeries, Unknown,
    WhitworthSeries, is_standard, limits, nearest, read, series,
};
use turnwright::unit::{Length, Unit};

fn name(text: &str) -> Designation {
    read(text).unwrap_or_else(|e| panic!("{text}: {e:?}"))
}

const fn unified(series: UnifiedSeries) -> Family {
    Family::UnifiedInch { series, rounded_root: false }
}

#[test]
fn the_same_thread_written_differently() {
    for (first, others) in [
        (
            "5/8-18 UNF-2A",
            vec!["5/8 - 18 UNF - 2A", "0.625-18 UNF-2A", ".625-18UNF-2a", "5/8\u{2033}-18 UNF-2A", "5/8 in-18 UNF-2A"],
        ),
        ("No. 10-32 UNF", vec!["10-32", "#10-32", "No 10-32 UNF", "0.190-32 UNF", "no. 10-32"]),
        ("No. 8-32 UNC", vec!["8-32", "#8-32 UNC"]),
        ("No. 0-80 UNF", vec!["0-80", "0-80 UNF"]),
        ("1-8 UNC", vec!["1-8", "1.000-8 UNC"]),
        ("1 1/8-5 ACME-2G LH", vec!["1-1/8-5 ACME-2G-LH", "1.125-5 Acme-2G left hand", "1 1/8-0.2P ACME-2G L.H."]),
        (
            "1 1/8-0.2P-0.4L ACME-2G",
            vec!["1 1/8-5 ACME-2G 2 starts", "1.125-.2P-.4L-ACME-2G", "1 1/8-5 (2 starts) ACME-2G"],
        ),
        ("2-4.5 UNC-3A", vec!["2-4 1/2 UNC-3A", "2 UNC 3A"]),
        ("M16x2", vec!["M16", "M16×2", "M 16 x 2.0", "m16X2"]),
        ("M16x1.5-6g LH", vec!["M16×1.5 - 6g - LH", "M16x1.5-6g left-hand", "M16x1.5-LH-6g"]),
        ("M14xPh6P2-7H", vec!["M14x6(P2)-7H", "M14 x Ph 6 P 2 - 7H"]),
        ("Tr 40x14(P7)-7e", vec!["Tr40x14(P7)-7e", "TR 40 × 14 P7 - 7e", "Tr40x14(P7)-7e RH"]),
        ("Tr 40x7-7H LH", vec!["Tr40x7LH-7H"]),
        ("G 1/2 A", vec!["G1/2A", "1/2 BSPP A", "1/2-14 BSP-A"]),
        ("1/2-14 NPT", vec!["1/2 NPT", "1/2\"-14NPT"]),
        ("R 3/4", vec!["R3/4", "3/4 BSPT", "3/4-14 BSPT"]),
        ("1/2-12 BSW", vec!["1/2 BSW", "0.5-12 BSW"]),
        ("1-4 SQUARE", vec!["Square 1-4", "1-4 sq"]),
        ("2 1/2-8 PUSH-BUTT-2A", vec!["2.5-8 Push-Buttress-2A"]),
        ("1/2-20 STUB ACME-2G", vec!["0.500-20 Stub Acme-2G"]),
    ] {
        for other in others {
            assert_eq!(name(first), name(other), "{first} and {other}");
        }
    }
}

#[test]
fn what_a_designation_says() {
    let d = name("1 1/8-0.2P-0.4L ACME-2G LH");
    assert_eq!(d.family, Family::Acme { stub: false });
    assert_eq!(d.nominal, Length::micro_inches(1_125_000));
    assert_eq!((d.pitch, d.starts, d.hand), (Pitch::tpi(5), 2, Hand::Left));
    assert_eq!(d.lead(), Pitch::inch(2, 5).expect("two fifths"));
    assert_eq!(d.class.as_deref(), Some("2G"));
    assert_eq!(name("10-32").family, unified(UnifiedSeries::Unf));
    assert_eq!(name("1 1/2-8").family, unified(UnifiedSeries::Un));
    assert_eq!(name("1-14").family, unified(UnifiedSeries::Uns));
    assert_eq!(name("Tr 40x14(P7)-7e").starts, 2);
    assert_eq!(name("G 1/2").pitch, Pitch::tpi(14));
    assert_eq!(name("Rc 1/2").family, Family::PipeTaperR { kind: TaperPipe::Rc });
    assert_eq!(name("5/8-11 UNRC-2A").family, Family::UnifiedInch { series: UnifiedSeries::Unc, rounded_root: true });
    assert_eq!(name("M6-5H6H").class.as_deref(), Some("5H6H"));
    assert_eq!(name("1/2-12 BSW medium fit").class.as_deref(), Some("medium"));
    assert_eq!(name("M16x1.5-6g").external(), Some(true));
    assert_eq!(name("M16x1.5-6H").external(), Some(false));
    assert_eq!(name("5/8-11 UNC-2B").external(), Some(false));
    assert_eq!(name("5/8-11 UNC").external(), None);
}

#[test]
fn what_cannot_be_read_says_where_and_why() {
    for (text, why, at) in [
        ("", BadThreadWhy::Empty, 0..0),
        ("M", BadThreadWhy::Missing, 1..1),
        ("M16,5", BadThreadWhy::Comma, 3..4),
        ("M16x", BadThreadWhy::Missing, 4..4),
        ("M16x1.5-6z", BadThreadWhy::Class, 8..10),
        ("M16x1.5-2A", BadThreadWhy::Class, 8..10),
        ("M16.3", BadThreadWhy::NoPitch, 1..5),
        ("5/8-11 UNC-4A", BadThreadWhy::Class, 11..13),
        ("5/8-11 UNX-2A", BadThreadWhy::Letters, 7..10),
        ("5/8-11 UNC UNF", BadThreadWhy::Twice, 11..14),
        ("5/8-11 UNC-2A-3A", BadThreadWhy::Twice, 14..16),
        ("5/8-13", BadThreadWhy::NoSeries, 0..6),
        ("5/8", BadThreadWhy::NoPitch, 0..3),
        ("1-14 UNC+2A", BadThreadWhy::Character, 8..9),
        ("Tr 40x15(P7)", BadThreadWhy::Lead, 6..11),
        ("Tr 40", BadThreadWhy::NoPitch, 3..5),
        ("1 1/8-0.2P-0.5L ACME", BadThreadWhy::Lead, 11..15),
        ("1/0-20 UNC", BadThreadWhy::Number, 0..3),
        ("Q 1/2", BadThreadWhy::Letters, 0..1),
        ("1/2-14 NPTF", BadThreadWhy::NotSupported("NPTF"), 7..11),
        ("MJ6x1", BadThreadWhy::NotSupported("MJ"), 0..2),
        ("No. 13-24", BadThreadWhy::Number, 4..9),
        ("G 1/3", BadThreadWhy::Number, 2..5),
        ("G 7/16", BadThreadWhy::NoPitch, 2..6),
    ] {
        let bad = read(text).expect_err(text);
        assert_eq!((bad.why, bad.at), (why, at), "{text}");
    }
}

#[test]
fn every_standard_thread_reads_back_and_has_limits() {
    for family in ALL {
        let all = series(family);
        assert!(!all.is_empty(), "{family:?}");
        assert!(all.windows(2).all(|w| w[0].nominal <= w[1].nominal), "{family:?} in order of size");
        for d in all {
            assert_eq!(name(&d.show()), d, "{}", d.show());
            assert!(is_standard(&d), "{}", d.show());
            let data = limits(&d, &Asked::default()).unwrap_or_else(|e| panic!("{}: {e:?}", d.show()));
            assert!(data.standard && !data.source.is_empty(), "{}", d.show());
        }
    }
}

#[test]
fn a_pair_in_no_series_names_its_neighbours() {
    let odd = name("5/8-12 UNC-2A");
    let Err(Unknown::Pair { nearest: found }) = limits(&odd, &Asked::default()) else { panic!("5/8-12 UNC is none") };
    let shown: Vec<String> = found.iter().map(Designation::show).collect();
    assert!(shown.contains(&"5/8-12 UN".to_owned()) && shown.contains(&"5/8-11 UNC".to_owned()), "{shown:?}");
    assert!(limits(&odd, &Asked::special()).is_ok_and(|d| !d.standard && !d.notes.is_empty()));
    let odd = name("M16x1.75");
    let Err(Unknown::Pair { nearest: found }) = limits(&odd, &Asked::default()) else { panic!("M16x1.75 is none") };
    assert!(found[0].show() == "M16x2" || found[0].show() == "M16x1.5", "{found:?}");
    assert_eq!(nearest(&name("M11.2x1.5"), 1)[0].show(), "M11x1.5");
    assert!(matches!(limits(&name("M16x1.5-9e"), &Asked::default()), Err(Unknown::Class { .. })));
    assert!(matches!(limits(&name("1 1/8-5 ACME-3C"), &Asked::default()), Err(Unknown::NotSupported(_))));
}

fn any_family() -> impl Strategy<Value = Family> {
    let mut all: Vec<Family> = ALL.to_vec();
    all.extend([Family::Square, Family::Buttress { push: false }, Family::Buttress { push: true }]);
    proptest::sample::select(all)
}

/// Any thread of a family, standard or not: the size from thousandths or micrometres, the pitch from a list in use.
fn any_thread() -> impl Strategy<Value = Designation> {
    (any_family(), 100_i64..6_000, 0_usize..8, 1_u8..5, any::<bool>(), 0_usize..4, 0_usize..200).prop_map(
        |(family, size, pitch, starts, left, class, pick)| {
            let listed = series(family);
            let pipe = matches!(family, Family::PipeParallel | Family::PipeTaperNpt | Family::PipeTaperR { .. });
            let metric = matches!(family, Family::IsoMetric | Family::IsoTrapezoidal);
            let (nominal, pitch) = if pipe {
                let d = &listed[pick % listed.len()];
                (d.nominal, d.pitch)
            } else if metric {
                let pitches = [500, 750, 1_000, 1_250, 1_500, 2_000, 3_000, 7_000];
                (Length::micrometres(size * 25), Pitch::Metric(Length::micrometres(pitches[pitch])))
            } else {
                let (threads, inches) = [(4, 1), (9, 2), (5, 1), (10, 1), (23, 2), (16, 1), (20, 1), (32, 1)][pitch];
                (Length::micro_inches(size * 1_000), Pitch::inch(inches, threads).expect("not zero"))
            };
            let classes: &[&str] = match family {
                Family::UnifiedInch { .. } => &["1A", "2A", "3B"],
                Family::Acme { .. } => &["2G", "3G", "4G"],
                Family::IsoMetric => &["6g", "4g6g", "6H"],
                Family::IsoTrapezoidal => &["7e", "8c", "7H"],
                Family::Whitworth { .. } => &["close", "medium", "free"],
                Family::PipeParallel => &["A", "B"],
                Family::Buttress { .. } => &["2A", "3B", "2"],
                _ => &[],
            };
            let class = classes.get(class).map(|c| (*c).to_owned());
            let (starts, hand) = (if pipe { 1 } else { starts }, if left { Hand::Left } else { Hand::Right });
            let engagement = match family {
                Family::IsoMetric => [EngagementGroup::Normal, EngagementGroup::Short, EngagementGroup::Long][pick % 3],
                Family::IsoTrapezoidal if pick % 2 == 1 => EngagementGroup::Long,
                _ => EngagementGroup::Normal,
            };
            Designation { family, nominal, pitch, starts, hand, class, engagement, text: String::new() }
        },
    )
}

proptest! {
    #[test]
    fn showing_reads_back(d in any_thread()) {
        let shown = d.show();
        let again = read(&shown);
        prop_assert_eq!(again.as_ref(), Ok(&d), "{}", shown);
        prop_assert_eq!(&again.expect("just compared").text, &shown);
    }

    #[test]
    fn no_text_panics_and_places_lie_inside(text in "\\PC{0,24}") {
        if let Err(bad) = read(&text) {
            prop_assert!(bad.at.start <= bad.at.end && text.get(bad.at.clone()).is_some(), "{:?} in {:?}", bad, text);
        }
    }

    #[test]
    fn mangled_designations_do_not_panic(d in any_thread(), cut in 0_usize..40, put in "[0-9a-zA-Z./() -]{0,3}") {
        let shown = d.show();
        let at = shown.char_indices().map(|(i, _)| i).nth(cut).unwrap_or(shown.len());
        let text = format!("{}{put}{}", &shown[..at], shown[at..].chars().skip(1).collect::<String>());
        if let Ok(d) = read(&text) {
            let _ = limits(&d, &Asked::special());
            prop_assert!(d.nominal.is_positive() && d.pitch.to_f64(Unit::Inch) > 0.0 && d.starts > 0);
        }
    }
}

#[test]
fn the_generator_reaches_every_family_and_several_starts() {
    use proptest::strategy::ValueTree;
    use proptest::test_runner::TestRunner;
    let mut runner = TestRunner::deterministic();
    let found: Vec<Designation> =
        (0..400).map(|_| any_thread().new_tree(&mut runner).expect("a thread").current()).collect();
    assert!(ALL.iter().all(|f| found.iter().any(|d| d.family == *f)));
    assert!(found.iter().any(|d| d.family == Family::Whitworth { series: WhitworthSeries::Bsf } && d.starts > 1));
    assert!(found.iter().any(|d| d.hand == Hand::Left && d.class.is_none()));
}
