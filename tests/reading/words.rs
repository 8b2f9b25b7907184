//! The words of both countries' shops, and what is wanted where a word is wrong. The words are those of the trade (project facts,
//! TRADE §9); no other source.

use turnwright::model::Kind;
use turnwright::read;

use super::found::in_part;

fn one(entry: &str) -> String {
    format!(
        "part: p\nunits: in\nmaterial: 1018\nstock: 1 1/4 x 4 1/8\ndatum: near end\noverall: 4 ±0.01\n\
         tolerances: {{lengths: ±0.005, diameters: ±0.002}}\nfeatures:\n  - {{turn: 1, to: 2, name: seat}}\n  - {{turn: 7/8, to: 4}}\n{entry}"
    )
}

#[test]
fn both_countries_words_name_the_same_thing() {
    for (entry, word) in [
        ("keyway: Woodruff 606\n    at: 1", "keyseat"),
        ("key seat: No. 606\n    at: 1", "keyseat"),
        ("circlip groove: 0.900\n    from: 1\n    width: 0.05", "groove"),
        ("circlip groove: DIN 471 25\n    from: 1", "groove"),
        ("o-ring groove: 2-214\n    from: 1", "groove"),
        ("undercut: DIN 509 F\n    at: 2", "undercut"),
        ("hex: 3/4\n    on: seat", "hexagon"),
        ("flats: 3/4 a/f\n    from: 2\n    long: 1/2", "flats"),
        ("snap-ring_groove: 0.900\n    from: 1\n    wide: 0.05", "groove"),
        ("bevel: 0.03 x 45 deg\n    end: far", "chamfer"),
        ("lead in: 0.03 x 20°\n    at: seat end", "chamfer"),
        ("centre drill: A 1/8\n    end: datum", "center hole"),
        ("Center-Hole: none\n    end: datum", "center hole"),
        ("cotter hole: 1/8\n    at: 1", "cross hole"),
        ("corner radius: 1/64\n    at: seat end", "fillet"),
    ] {
        let text = one(&format!("  - {entry}\n"));
        let read = read::part("p", text.as_bytes());
        assert_eq!(read.slips, [], "{entry}");
        assert_eq!(read.part.expect("a part").features[2].kind.word(), word, "{entry}");
    }
}

#[test]
fn what_is_not_worked_is_named_and_keeps_its_length() {
    {
        let (entry, word) = ("turn: 0.5\n    offset: 0.1", "eccentric");
        let text = one("").replace("  - {turn: 7/8, to: 4}", &format!("  - {entry}\n    to: 4"));
        let found = in_part(text.as_bytes());
        assert!(found.contains(&format!("error not-supported: not supported yet: {word}")), "{entry}: {found}");
        assert!(!found.contains("no-overall") && !found.contains("outside-part"), "{found}");
        let part = read::part("p", text.as_bytes()).part.expect("a part");
        assert_eq!(part.sections().count(), 2, "{entry}");
        assert!(matches!(part.features[1].kind, Kind::Eccentric { .. }));
        // Packing 1.5 e under flat tips and an indicator's reading of 2 e: plain geometry.
        let hand = [".100 off the part's axis", ".150 under flat tips", "reads .200 in all", ".700 (its diameter"];
        for says in hand {
            assert!(found.contains(says), "{says}: {found}");
        }
    }
    let found = in_part(format!("{}cuts: []\n", one("")).as_bytes());
    assert!(found.contains("not supported yet: a tolerance chart"), "{found}");
}

/// An eccentric has the part's axis in it, and is turned: the rest is refused with a reason.
#[test]
fn what_is_no_eccentric_is_refused() {
    for (entry, wanted) in [
        ("turn: 0.5\n    offset: 0.25", "which is a crank"),
        ("turn: stock\n    offset: 0.1", "lies on the part's axis"),
        ("turn: 0.5\n    offset: 0", "not-positive"),
        ("turn: 0.5\n    offset: -0.1", "not-positive"),
        ("relief: 0.5\n    offset: 0.1", "`offset`"),
        ("thread: 1/2-13 UNC-2A\n    offset: 0.1", "`offset`"),
        ("taper: 1:10\n    large: 0.5\n    offset: 0.1", "`offset`"),
        ("knurl: diamond 1 mm\n    offset: 0.1", "`offset`"),
    ] {
        let text = one("").replace("  - {turn: 7/8, to: 4}", &format!("  - {entry}\n    to: 4"));
        let found = in_part(text.as_bytes());
        assert!(found.contains(wanted), "{entry}: {found}");
    }
}

#[test]
fn a_thread_in_no_series_is_read_with_the_nearest_that_are() {
    let text = one("").replace("{turn: 7/8, to: 4}", "{thread: 7/8-13 UNS-2A, to: 4}");
    let read = read::part("p", text.as_bytes());
    assert_eq!(read.slips, []);
    let part = read.part.expect("a part");
    let Kind::Thread { thread, .. } = &part.features[1].kind else { panic!("{:?}", part.features[1].kind) };
    assert!(!thread.standard && !thread.nearest.is_empty(), "{thread:?}");
    assert!(thread.pitch_diameter.max < thread.nominal && thread.root < thread.pitch_diameter.min);
}

/// The remedies name the word that was meant, where it belongs, or what is known.
#[test]
fn wrong_words_have_remedies() {
    for (entry, wanted) in [
        ("  - chamfr: 0.03 x 45°\n    end: far\n", "Write `chamfer`"),
        ("  - chamfer: 0.03 x 45°\n    endd: far\n    end: far\n", "Write `end`"),
        ("  - chamfer: 0.03 x 45°\n    end: fra\n", "Write `far`"),
        ("  - fillet: 0.03\n    at: seet end\n", "Write `seat`"),
        ("  - groove: 0.9\n    from: 1\n    wide: 0.05\n    meets: seat\n", "`meets` belongs to a cross hole"),
        (
            "  - fillet: 0.03\n    at: seat end\n    chamfer: 0.03 x 45°\n",
            "`chamfer` is an entry of its own: begin it with a dash",
        ),
    ] {
        let found = in_part(one(entry).as_bytes());
        assert!(found.contains(wanted), "{entry}: {found}");
    }
}
