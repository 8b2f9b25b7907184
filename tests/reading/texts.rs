//! What the text says is what the model has: raw text, limits, places, letters.
//!
//! ISO 286-2 k5, h6 and f7, ASTM A108 and the thread limits of ASME B1.1 were typed from the handbook, whose own tests walk the published rows,
//! and from TRADE §10 (the project's own facts): they test the reading, not the tables. The taper is the worked one of TRADE P6.

use std::path::Path;

use turnwright::model::feature::{EdgeAt, Extent, Hand};
use turnwright::model::part::{AcceptAt, Holding};
use turnwright::model::shop::{Reads, ToolKind};
use turnwright::model::{End, FaceSide, Feature, Kind, LimitsFrom, Part, PlaceRef};
use turnwright::read;
use turnwright::unit::{Length, Limits, NumberForm, Unit};

fn file(name: &str) -> Part {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reading/files").join(name);
    read::part(name, &std::fs::read(path).expect(name)).part.expect(name)
}

fn mil(thousandths: i64) -> Length {
    Length::micro_inches(thousandths * 1000)
}

fn um(n: i64) -> Length {
    Length::micrometres(n)
}

fn diameter(feature: &Feature) -> Limits {
    match &feature.kind {
        Kind::Turn { diameter, .. } | Kind::Relief { diameter, .. } => diameter.limits.expect("limits"),
        other => panic!("{other:?}"),
    }
}

#[test]
fn raw_text_is_kept() {
    let part = file("line-shaft.yaml");
    let overall = part.overall.as_ref().expect("overall");
    assert_eq!((overall.text.as_str(), overall.form), ("7.000 ±0.010", NumberForm::Decimal(3)));
    for (text, form) in
        [("7", NumberForm::Decimal(0)), ("7.00", NumberForm::Decimal(2)), ("6 1/2", NumberForm::Fraction)]
    {
        let yaml = format!("part: NO\nunits: in\ndatum: on\noverall: {text} ±0.01\nrevision: 1.10\ndrawing: 0x10\n");
        let part = read::part("x", yaml.as_bytes()).part.expect("a part");
        assert_eq!(part.overall.expect("overall").form, form, "{text}");
        let words = [Some(part.name), part.datum, part.revision, part.drawing].map(|t| t.expect("a text").text);
        assert_eq!(words, ["NO", "on", "1.10", "0x10"]);
    }
}

#[test]
fn the_line_shaft_has_its_letters_and_limits() {
    let part = file("line-shaft.yaml");
    let letters: String =
        part.features.iter().map(|f| if f.letter.is_empty() { "." } else { f.letter.as_str() }).collect();
    assert_eq!(letters, "ABCDEFGHJKL.....", "sections, the keyseat, then what has none");
    assert!(part.features.iter().enumerate().all(|(i, f)| f.id == i));
    let f = &part.features;
    assert_eq!(diameter(&f[2]), Limits::new(mil(874), mil(874) + Length::micro_inches(500)));
    assert_eq!(diameter(&f[1]), Limits::new(mil(535), mil(545)));
    // 1045 cold drawn to 1 1/2 in, over 0.28 % carbon: +0/-.003 (ASTM A108).
    assert_eq!(diameter(&f[3]), Limits::new(mil(1247), mil(1250)));
    assert!(matches!(&f[3].kind, Kind::Turn { kept: true, diameter, .. } if diameter.from == LimitsFrom::Standard));
    // 20 k5 is +11/+2 µm, 17 k5 +9/+1 µm (ISO 286-2).
    assert_eq!(diameter(&f[5]), Limits::new(um(20_002), um(20_011)));
    assert_eq!(diameter(&f[7]), Limits::new(um(17_001), um(17_009)));
    // Without limits of its own: diameters ±.002, lengths ±.005.
    assert_eq!(diameter(&f[4]), Limits::new(mil(1058), mil(1062)));
    let Some(Extent::To(PlaceRef::FromDatum(to))) = f[4].kind.extent() else { panic!("{:?}", f[4].kind) };
    assert_eq!((to.limits, to.from), (Some(Limits::new(mil(3745), mil(3755))), LimitsFrom::General));
}

#[test]
fn the_line_shaft_has_what_lies_on_it() {
    let part = file("line-shaft.yaml");
    let f = &part.features;
    let Kind::Thread { thread, .. } = &f[0].kind else { panic!("{:?}", f[0].kind) };
    // 5/8-18 UNF-2A: major .6236/.6149, pitch diameter .5875/.5828 (TRADE P1, ASME B1.1).
    let tenths = Length::inch_tenths;
    assert_eq!(thread.major, Limits::new(tenths(6149), tenths(6236)));
    assert_eq!(thread.pitch_diameter, Limits::new(tenths(5828), tenths(5875)));
    // What the relief must clear: PD min - .64952 P = .5467.
    assert!((thread.root.inches() - 0.5467).abs() < 0.00005);
    assert_eq!((thread.tpi, thread.starts, thread.hand, thread.standard), (Some((18, 1)), 1, Hand::Right, true));
    assert!(matches!(&f[10].kind, Kind::Woodruff { number, .. } if number == "606"));
    assert!(matches!(&f[11].kind, Kind::Chamfer { angle_mdeg: 45_000, at: EdgeAt::End(End::Datum), .. }));
    let Kind::Fillet { radius, .. } = &f[13].kind else { panic!("{:?}", f[13].kind) };
    assert_eq!(radius.limits, Some(Limits::new(Length::ZERO, mil(20))));
    let Kind::CenterHole { size: Some(size), .. } = &f[15].kind else { panic!("{:?}", f[15].kind) };
    assert_eq!((size.form.as_str(), size.drill), ("A", mil(125)));
    assert_eq!(f[2].finish.as_ref().map(|f| f.ra_nm), Some(813), "32 µin");
    let bearing = &f[5].carries[0];
    assert_eq!(bearing.bore.as_ref().map(|b| (b.nominal, b.limits)), Some((um(20_000), None)));
    assert_eq!(bearing.enters, Some(End::Far));
    assert_eq!(part.dims.len(), 1);
    assert!(matches!(&part.accept[0].at, Some(AcceptAt::Place(PlaceRef::FromDatum(at))) if at.nominal == mil(6620)));
    assert_eq!(part.notes.as_ref().map(|n| n.text.as_str()), Some("Markdown, printed on the sheet."));
    assert_eq!(part.lathe.as_ref().map(|l| l.text.as_str()), Some("shop.yaml"));
}

#[test]
fn the_pump_shaft_in_millimetres() {
    let part = file("pump-shaft.yaml");
    let f = &part.features;
    let Kind::Thread { thread, .. } = &f[0].kind else { panic!("{:?}", f[0].kind) };
    assert_eq!((thread.hand, thread.pitch, thread.inch), (Hand::Left, um(1500), false));
    assert_eq!(diameter(&f[2]), Limits::new(um(17_989), um(18_000)), "18 h6 is 0/-11 µm (ISO 286-2)");
    assert_eq!(diameter(&f[4]), Limits::new(um(25_002), um(25_015)), "25 k6 is +15/+2 µm");
    let Some(Extent::To(PlaceRef::FromDatum(to))) = f[2].kind.extent() else { panic!("{:?}", f[2].kind) };
    assert_eq!(to.limits, Some(Limits::new(um(62_700), um(63_300))), "ISO 2768-m, over 30 to 120 mm: ±0.3");
    assert!(matches!(f[7].kind.extent(), Some(Extent::To(PlaceRef::FarEnd(_)))));
    let Kind::Groove { from: PlaceRef::Relative { size, of }, wide, .. } = &f[8].kind else {
        panic!("{:?}", f[8].kind)
    };
    assert_eq!(size.limits, Some(Limits::new(um(16_900), um(17_000))));
    assert!(matches!(**of, PlaceRef::Face { feature: 6, side: FaceSide::Start, .. }));
    assert_eq!(wide.limits, Some(Limits::new(um(1300), um(1440))), "1.3 H13 is +0.14/0");
    assert_eq!(f[6].true_to.as_ref().map(|t| (t.feature, t.within.nominal)), Some((4, um(20))));
    assert_eq!(f[10].angle_mdeg, Some(90_000));
    assert!(matches!(&f[11].kind, Kind::Chamfer { leg, angle_mdeg: 20_000, .. } if leg.nominal == um(1500)));
    assert_eq!(part.wishes.first_end, Some(End::Far));
    assert_eq!(part.wishes.holding_by_end.get(&End::Datum), Some(&Holding::BetweenCenters));
    assert_eq!(part.wishes.before.len(), 1);
    let letters: String = f.iter().map(|f| if f.letter.is_empty() { "." } else { f.letter.as_str() }).collect();
    assert_eq!(letters, "ABCDEFGHJKL..M");
}

#[test]
fn the_winch_axle_in_other_words() {
    let part = file("winch-axle.yaml");
    assert_eq!(part.name.text, "Boat-winch axle");
    assert_eq!(part.coating.as_ref().map(|c| c.nominal), Some(um(10)));
    let f = &part.features;
    assert_eq!(diameter(&f[1]), Limits::new(um(24_959), um(24_980)), "25 f7 is -20/-41 µm (ISO 286-2)");
    let Kind::Taper { start, end, half_angle_deg, .. } = &f[4].kind else { panic!("{:?}", f[4].kind) };
    assert_eq!((start.nominal, end.nominal), (um(24_000), um(21_000)), "1:10 over 30 mm, small toward the neck");
    assert!((half_angle_deg - 2.8624).abs() < 5e-5);
    assert!(matches!(f[7].kind.extent(), Some(Extent::Long(long)) if long.nominal == um(16_000)));
    assert!(matches!(&f[11].kind, Kind::CrossHole { meets: Some(0), .. }));
    let chamfers: Vec<&Feature> = f.iter().filter(|f| matches!(f.kind, Kind::Chamfer { .. })).collect();
    assert_eq!(chamfers.len(), 2, "both ends are two chamfers");
    let Kind::Chamfer { leg, at, .. } = &chamfers[1].kind else { panic!() };
    assert!(leg.nominal == Length::PER_INCH.times_ratio(1, 32) && matches!(at, EdgeAt::End(End::Far)));
}

#[test]
fn places_of_every_form() {
    let yaml = "part: p\nunits: in\ndatum: d\noverall: 4\nfeatures:\n  - {turn: 1, to: 1, name: Left End}\n  - {turn: 2, to: 3}\n  \
                - {turn: 1, to: end}\ndims:\n  - {from: datum, to: end, is: (4)}\n  - {from: left-end end, to: -0.5 from end, is: 2.5}\n  \
                - {from: 0.5 from end, to: 0.25 ±0.01 from left end start, is: 1}\n";
    let read = read::part("p", yaml.as_bytes());
    assert_eq!(read.slips, []);
    let dims = read.part.expect("a part").dims;
    assert!(matches!(&dims[0].from, PlaceRef::FromDatum(s) if s.nominal == Length::ZERO));
    assert!(matches!(&dims[0].to, PlaceRef::FarEnd(_)) && dims[0].is.reference && dims[0].is.limits.is_none());
    assert!(matches!(&dims[1].from, PlaceRef::Face { feature: 0, side: FaceSide::End, .. }));
    for place in [&dims[1].to, &dims[2].from] {
        let PlaceRef::Relative { size, of } = place else { panic!("{place:?}") };
        assert!(size.nominal == -mil(500) && matches!(**of, PlaceRef::FarEnd(_)), "inward either way");
    }
}

/// The first 8 hexadecimal digits of SHA-256; the digest is the one printed by coreutils' `sha256sum` for this text.
#[test]
fn the_hash_is_of_the_text() {
    let text = "part: p\nunits: in\ndatum: d\noverall: 4\n";
    let plain = read::part("p", text.as_bytes()).part.expect("a part").hash;
    assert_eq!(plain, "4913-D06E");
    let marked = read::part("p", format!("\u{feff}{text}").as_bytes()).part.expect("a part").hash;
    assert_eq!(plain, marked, "a byte order mark is no text");
}

#[test]
fn the_shop_file() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples/shop.yaml");
    let shop = read::shop("shop.yaml", &std::fs::read(path).expect("shop")).shop.expect("shop");
    assert_eq!(shop.speeds, [60, 90, 140, 215, 330, 500, 780]);
    assert_eq!((shop.units, shop.cross_reads), (Some(Unit::Inch), Some(Reads::Radius)));
    assert_eq!(shop.leadscrew_pitch, Some(mil(125)));
    assert!(shop.tpi.contains(&(9, 2)) && shop.tpi.contains(&(23, 2)));
    let dial = shop.thread_dial.as_ref().expect("dial");
    assert_eq!((dial.teeth, dial.marks, dial.engraved.join(" ").as_str()), (32, 8, "1 - 2 - 3 - 4 -"));
    assert_eq!(shop.can_hold_turned_round, Some(mil(3)));
    assert!((shop.surface_speed_hss.expect("hss") - 27.432).abs() < 1e-9, "90 ft/min");
    assert!((shop.power_w.expect("power") - 1118.55).abs() < 0.01, "1.5 hp");
    assert_eq!(shop.tools_of(ToolKind::Grooving).count(), 2);
    assert_eq!(shop.instruments[0].range, Some((Length::ZERO, Length::PER_INCH)));
    assert_eq!(shop.chucks[0].jaw_length, Some(Length::PER_INCH));
    assert_eq!(shop.taper_attachment, Some(false));
    let text = "units: mm\nlimits: {relief-width: {pitches: 3}, overhang: 4, grip-short: {long: 1/2 in}}\nstiffness: {chuck: 20 N/µm, center: 9000}\n";
    let shop = read::shop("s", text.as_bytes()).shop.expect("shop");
    assert!((shop.limits["relief-width"]["pitches"].number - 3.0).abs() < 1e-12);
    assert_eq!(shop.limits["grip-short"]["long"].length, Some(um(12_700)));
    assert_eq!((shop.chuck_stiffness, shop.center_stiffness), (Some(20_000.0), Some(9_000.0)));
    // One of the two is not dropped with the other.
    let alone = |text: &[u8]| read::shop("s", text).shop.expect("shop");
    let shop = alone(b"units: mm\nstiffness: {center: 9000 N/mm}\n");
    assert_eq!((shop.chuck_stiffness, shop.center_stiffness), (None, Some(9_000.0)));
    let shop = alone(b"units: mm\nstiffness: {chuck: 100000 lb/in}\n");
    assert!((shop.chuck_stiffness.expect("a chuck") - 17_512.7).abs() < 0.1 && shop.center_stiffness.is_none());
}
