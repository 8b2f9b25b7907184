//! What a part is, whatever it was written like.

use turnwright::chain::{self, Chain, Profile};
use turnwright::model::feature::{EdgeAt, Ends, Extent, Feature, Kind, PlaceRef};
use turnwright::model::inside::InsideCut;
use turnwright::model::{End, Part, Size, Text};

/// Faces with their limits, the outline, what is hollow, and each feature's kind, place and sizes, as lines of text.
pub(crate) fn meaning(part: &Part) -> String {
    let chain = chain::locate(part);
    let mut out: Vec<String> = Vec::new();
    for (i, face) in chain.graph.faces.iter().enumerate() {
        // Letters go by the order of the text, too: `end of relief B`.
        let name = face.name.trim_end_matches(|c: char| c.is_ascii_uppercase());
        out.push(format!("{name} {:?} {:?}", chain.at[i], chain.guaranteed(0, i)));
    }
    // Faces are found in the order in which the text names them.
    out.sort();
    let profile = Profile::of(part, &chain);
    out.extend(profile.pieces.iter().map(|p| format!("{:?} {:?} {:?} {:?}", p.from, p.to, p.start, p.end)));
    let sections = part.sections().map(|f| section(part, f));
    out.extend(sections);
    let mut lying: Vec<String> = Vec::new();
    for f in part.features.iter().filter(|f| !f.kind.is_section()) {
        let named = text(f.name.as_ref());
        lying.extend(lies(&chain, &profile, f).into_iter().map(|l| format!("{} {named} {l}", f.kind.word())));
    }
    lying.sort();
    out.extend(lying);
    // What stands in brackets counts for nothing.
    let dims = part.dims.iter().filter(|d| !d.is.reference).map(|d| {
        format!("{:?} {:?} {} {}", chain.station(&d.from), chain.station(&d.to), size(&d.is), text(d.because.as_ref()))
    });
    out.extend(dims);
    out.push(format!("{:?} {:?}", part.units, part.overall.as_ref().map(|o| (o.nominal, o.limits))));
    let stock = part.stock.as_ref().map(|s| (s.shape, s.size.nominal, s.length.nominal));
    out.push(format!("{stock:?}"));
    out.push(format!("{} {} {}", part.name.text, text(part.datum.as_ref()), text(part.material.as_ref())));
    out.join("\n")
}

fn text(text: Option<&Text>) -> String {
    text.map_or_else(|| "-".to_owned(), |t| t.text.clone())
}

fn size(size: &Size) -> String {
    format!("{:?} {}", size.limits_or_nominal(), size.reference)
}

fn maybe(given: Option<&Size>) -> String {
    given.map_or_else(|| "-".to_owned(), size)
}

/// What a section is besides its diameters.
fn section(part: &Part, f: &Feature) -> String {
    let own = match &f.kind {
        Kind::Turn { kept, .. } => format!("kept {kept}"),
        Kind::Relief { corner, .. } => maybe(corner.as_ref()),
        Kind::Thread { thread, .. } => {
            format!("{} {} {}", thread.designation, maybe(thread.full.as_ref()), maybe(thread.run_out.as_ref()))
        }
        Kind::Taper { half_angle_deg, .. } => format!("{half_angle_deg}"),
        Kind::Knurl { knurl, .. } => format!("{:?} {:?} {}", knurl.pitch, knurl.pattern, size(&knurl.diameter)),
        _ => String::new(),
    };
    let carried = f
        .carries
        .iter()
        .map(|c| format!("{} {} {} {:?}", c.part.text, maybe(c.bore.as_ref()), maybe(c.wide.as_ref()), c.enters));
    let carried: Vec<String> = carried.collect();
    let true_to = f.true_to.as_ref().map(|t| (part.features[t.feature].called(), t.within.nominal));
    let finish = f.finish.as_ref().map(|f| f.ra_nm);
    format!("{} {} {own} {finish:?} {carried:?} {true_to:?} {:?}", f.kind.word(), text(f.name.as_ref()), f.angle_mdeg)
}

/// A feature that lies on sections, on an end or inside; at both ends it is two.
fn lies(chain: &Chain, profile: &Profile, f: &Feature) -> Vec<String> {
    let at = |place: &PlaceRef| format!("{:?}", chain.station(place));
    vec![match &f.kind {
        Kind::Chamfer { leg, angle_mdeg, at: EdgeAt::End(end) } => format!("{:?} {angle_mdeg} {end:?}", leg.limits),
        Kind::Chamfer { leg, angle_mdeg, at: EdgeAt::Face(place) } => {
            format!("{:?} {angle_mdeg} {}", leg.limits, at(place))
        }
        Kind::Fillet { radius, at: place } => format!("{:?} {}", radius.limits, at(place)),
        Kind::Groove { diameter, from, wide, ring, .. } => {
            format!("{} {} {} {}", size(diameter), at(from), size(wide), maybe(ring.as_ref()))
        }
        Kind::Undercut { undercut, at: place, seat, .. } => format!("{undercut:?} {} {seat:?}", at(place)),
        Kind::Flats { size: s, measure, count, from, to } => {
            let start = chain.station(from);
            let end = match to {
                Extent::To(place) | Extent::Both(place, _) => chain.station(place),
                Extent::Long(long) => start.map(|s| s + long.nominal),
                Extent::Open => None,
            };
            format!("{} {measure:?} {count} {start:?} {end:?}", size(s))
        }
        Kind::Crown { crown } => format!("{:?} {:?} {:?}", crown.radius, crown.height, crown.end),
        Kind::Woodruff { number, at: place } => format!("{number} {}", at(place)),
        Kind::ParallelKeyseat { width, height, length, from, open, through } => {
            let [width, height, length] = [width, height, length].map(|s| s.nominal);
            format!("{width:?} {height:?} {length:?} {} {open:?} {through:?}", at(from))
        }
        Kind::CrossHole { diameter, at: place, meets, deep, tapped } => {
            let tapped = tapped.as_ref().map(|t| t.designation.clone());
            format!("{} {} {meets:?} {} {tapped:?}", size(diameter), at(place), maybe(deep.as_ref()))
        }
        Kind::CenterHole { size, ends } => {
            let size = size.as_ref().map(|s| (s.form.clone(), s.drill, s.mouth));
            let ends = [End::Datum, End::Far].into_iter().filter(|e| *ends == Ends::Both || ends.at(*e));
            return ends.map(|end| format!("{size:?} {end:?}")).collect();
        }
        Kind::Inside(inside) => {
            let hollow = profile.hollow(f.id).map(|h| (h.from, h.to, h.start, h.stop, h.through));
            let own = match &inside.cut {
                InsideCut::Thread { thread, tap, .. } => format!("{} {tap}", thread.designation),
                InsideCut::Bore { kept, hole, .. } => format!("{kept} {hole}"),
                InsideCut::Chamfer { leg, angle_mdeg, .. } => format!("{} {angle_mdeg}", size(leg)),
                _ => String::new(),
            };
            format!("{:?} {own} {hollow:?}", inside.end)
        }
        other => panic!("a kind that has no meaning here yet: {}", other.word()),
    }]
}
