//! What lies inside: the list `inside:`, and holes and tapped holes among the features.

use super::features::{Header, Item};
use super::forms::Wants;
use super::keys::{self, Scope};
use super::reader::{Field, Fields, Reader};
use super::size::Role;
use super::tree::Written;
use super::{countersink, taper, thread};
use crate::handbook::center::CenterHole;
use crate::handbook::drill;
use crate::handbook::thread::{self as book, Family, TaperPipe, ThreadData};
use crate::model::feature::Kind;
use crate::model::inside::{Inside, InsideCut, Reach, Tapped};
use crate::model::part::StockShape;
use crate::model::slip::{BadSize, Fault};
use crate::model::{End, LimitsFrom, Size, Text};
use crate::unit::{Length, Limits, NumberForm, ToleranceText, Unit, show};

/// An entry of `inside:`: where it is cut from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Opening {
    /// One end.
    End(End),
    /// From end to end.
    Through,
}

/// What the word of an entry says besides its kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Named {
    /// Nothing.
    Plain,
    /// A hole stays as drilled.
    Hole,
    /// A countersink is given by its mouth, when its angle is an included one.
    Countersink,
}

/// The word as it is written.
pub(super) fn named(word: &str) -> Named {
    match keys::fold(word).as_str() {
        _ if is_hole(word) => Named::Hole,
        "countersink" | "csk" => Named::Countersink,
        _ => Named::Plain,
    }
}

/// `end: datum | far | through`; an entry without one goes on where the one before it stopped.
pub(super) fn opening(r: &mut Reader<'_>, item: &Item<'_>, before: Option<Opening>) -> Option<Opening> {
    let Some(field) = item.fields.get("end") else {
        let goes_on = before.filter(|o| *o != Opening::Through);
        if goes_on.is_none() {
            r.missing(item.main.key_place, "end", "an entry of inside", "end: datum");
        }
        return goes_on;
    };
    let written = r.value(&field, Wants::Words)?;
    Some(match r.word(written, &["datum", "far", "through"], field.word)? {
        "datum" => Opening::End(End::Datum),
        "far" => Opening::End(End::Far),
        _ => Opening::Through,
    })
}

/// One entry of `inside:`.
pub(super) fn entry(
    r: &mut Reader<'_>,
    item: &Item<'_>,
    opening: Opening,
    named: Named,
    header: &Header,
    id: usize,
    later: &mut Vec<countersink::Raw>,
) -> Option<Kind> {
    let scope = item.fields.scope;
    let own = matches!(scope, Scope::InsideGroove | Scope::InsideChamfer);
    let reach = match opening {
        Opening::Through if matches!(scope, Scope::InsideBore | Scope::InsideThread) => Some(Reach::Through),
        Opening::Through => {
            r.missing(item.main.key_place, "end", scope.called(), "end: datum");
            None
        }
        Opening::End(_) if own => Some(Reach::Own),
        Opening::End(_) => reach(r, &item.fields, item.main),
    };
    let end = match opening {
        Opening::End(end) => end,
        Opening::Through => End::Datum,
    };
    let cut = match scope {
        Scope::InsideBore => bore(r, item, named == Named::Hole, header),
        Scope::InsideThread => threaded(r, item, false),
        Scope::InsideRelief => {
            let corner = r.size(item.fields.get("corner"), Role::Corner);
            r.size(Some(item.main), Role::Inner).map(|diameter| InsideCut::Relief { diameter, corner })
        }
        Scope::InsideTaper => tapered(r, item, end, reach.as_ref(), header),
        Scope::InsideGroove => groove(r, item),
        Scope::InsideChamfer => {
            let written = r.value(&item.main, Wants::Chamfer)?;
            countersink::read(r, written, named == Named::Countersink, opening, id, later)
        }
        _ => None,
    };
    Some(Kind::Inside(Box::new(Inside { end, reach: reach?, cut: cut? })))
}

/// `hole: 14` and `tapped hole: M8` among the features: in an end, or across the part with `at`.
pub(super) fn in_features(r: &mut Reader<'_>, item: &Item<'_>) -> Option<Kind> {
    let tapped = item.fields.scope == Scope::TappedHole;
    if item.fields.has("at") {
        return across(r, item, tapped);
    }
    let Some(end) = item.fields.get("end") else {
        let within = item.fields.scope.called();
        r.missing(item.main.key_place, "end", within, "end: far");
        return None;
    };
    let end = r.end(Some(end));
    let reach = reach(r, &item.fields, item.main);
    let cut = if tapped {
        threaded(r, item, true)
    } else {
        let drill_depth = r.size(item.fields.get("drill depth"), Role::Bare);
        r.size(Some(item.main), Role::Inner).map(|diameter| InsideCut::Bore {
            diameter,
            kept: false,
            hole: true,
            drill_depth,
        })
    };
    Some(Kind::Inside(Box::new(Inside { end: end?, reach: reach?, cut: cut? })))
}

/// A hole or tapped hole across the part.
fn across(r: &mut Reader<'_>, item: &Item<'_>, tapped: bool) -> Option<Kind> {
    let at = r.place(item.fields.get("at"));
    let deep = r.size(item.fields.get("deep"), Role::Length);
    if !tapped {
        let diameter = r.size(Some(item.main), Role::Inner);
        return Some(Kind::CrossHole { diameter: diameter?, at: at?, meets: None, deep, tapped: None });
    }
    let InsideCut::Thread { thread, drill, .. } = threaded(r, item, true)? else { return None };
    let diameter = drill.or_else(|| usual_drill(r, &thread))?;
    Some(Kind::CrossHole { diameter, at: at?, meets: None, deep, tapped: Some(thread) })
}

/// The handbook's drill for a thread, as a size with the limits of the minor diameter.
fn usual_drill(r: &Reader<'_>, thread: &Tapped) -> Option<Size> {
    let (name, diameter, _) = thread.usual_drill.as_ref()?;
    Some(Size {
        nominal: *diameter,
        limits: Some(thread.minor),
        from: LimitsFrom::Standard,
        tolerance: ToleranceText::None,
        unit: r.unit,
        form: NumberForm::Decimal(show::decimals_needed(*diameter, r.unit, 0, 6)),
        reference: false,
        place: thread.place,
        text: name.clone(),
    })
}

/// `depth: 20`, `to: 30`.
fn reach(r: &mut Reader<'_>, fields: &Fields<'_>, main: Field<'_>) -> Option<Reach> {
    if let Some(field) = fields.get("deep") {
        // `depth: through`, as a drawing has it, is `end: through`.
        let through = field.value.written().is_some_and(|w| matches!(w.text, "through" | "thru"));
        let may = matches!(fields.scope, Scope::InsideBore | Scope::InsideThread | Scope::Hole | Scope::TappedHole);
        if through && may {
            return Some(Reach::Through);
        }
        return r.size(Some(field), Role::Length).map(Reach::Deep);
    }
    if let Some(field) = fields.get("to") {
        return r.place(Some(field)).map(Reach::To);
    }
    let (key, example) = if matches!(fields.scope, Scope::Hole | Scope::TappedHole) {
        ("deep", "deep: 0.750")
    } else {
        ("depth", "depth: 0.750")
    };
    r.missing(main.key_place, key, fields.scope.called(), example);
    None
}

fn bore(r: &mut Reader<'_>, item: &Item<'_>, hole: bool, header: &Header) -> Option<InsideCut> {
    let drill_depth = r.size(item.fields.get("drill depth"), Role::Bare);
    let written = r.value(&item.main, Wants::Diameter)?;
    if written.text.eq_ignore_ascii_case("stock") {
        let Some((StockShape::Tube { bore }, bar)) = header.shape.zip(header.bar.as_ref()) else {
            r.missing(item.main.key_place, "stock", "the head of a description", "stock: tube 1.500/0.750 x 3.000");
            return None;
        };
        let diameter = Size {
            nominal: bore,
            limits: None,
            from: LimitsFrom::Nothing,
            tolerance: ToleranceText::None,
            place: written.place,
            text: written.text.to_owned(),
            ..bar.clone()
        };
        return Some(InsideCut::Bore { diameter, kept: true, hole: false, drill_depth: None });
    }
    let diameter = r.size_of(written, Role::Inner, Wants::Diameter)?;
    Some(InsideCut::Bore { diameter, kept: false, hole, drill_depth })
}

fn groove(r: &mut Reader<'_>, item: &Item<'_>) -> Option<InsideCut> {
    let diameter = r.size(Some(item.main), Role::Inner);
    let from = r.place(item.fields.get("from"));
    let wide = r.size(item.fields.get("wide"), Role::Width);
    for (key, example) in [("from", "from: 0.254"), ("wide", "wide: 0.046 +0.003/-0")] {
        if !item.fields.has(key) {
            r.missing(item.main.key_place, key, "an inside groove", example);
        }
    }
    Some(InsideCut::Groove { diameter: diameter?, from: from?, wide: wide? })
}

/// `taper: 1:10` with `large` and/or `small`: it gets smaller inward.
fn tapered(r: &mut Reader<'_>, item: &Item<'_>, end: End, reach: Option<&Reach>, header: &Header) -> Option<InsideCut> {
    let mut large = r.size(item.fields.get("large"), Role::Inner);
    let mut small = r.size(item.fields.get("small"), Role::Inner);
    let written = r.value(&item.main, Wants::Taper)?;
    let both = written.split_at_mark(" to ");
    if let Some((one, other)) = both {
        let one = r.size_of(one, Role::Inner, Wants::Diameter)?;
        let other = r.size_of(other, Role::Inner, Wants::Diameter)?;
        let (more, less) = if one.nominal > other.nominal { (one, other) } else { (other, one) };
        (large, small) = (Some(more), Some(less));
    }
    let named = taper::named(r, written).ok()?;
    if let (Some(found), None, None) = (&named, &large, &small) {
        // A socket known by its number has its gauge line at the mouth unless more is said.
        large = found.large.map(|d| super::outside::follows(r.unit, written.place, d, None));
    }
    // A taper behind another bore begins where that ends; its length is only known from its own two diameters or its depth.
    let long = match reach {
        Some(Reach::Deep(size)) => Some(size.nominal),
        Some(Reach::To(crate::model::PlaceRef::FromDatum(size))) if end == End::Datum => Some(size.nominal),
        Some(Reach::To(crate::model::PlaceRef::FromDatum(size))) => header.overall.map(|o| o - size.nominal),
        _ => None,
    };
    let rate = match (&named, &large, &small) {
        (Some(found), ..) => taper::Rate::Named(found.rate),
        (None, Some(large), Some(small)) if both.is_some() => {
            taper::Rate::Ratio(large.nominal - small.nominal, long.filter(|l| l.is_positive())?)
        }
        _ => taper::rate_of(r, written)?,
    };
    let (large, small) = match (large, small) {
        (Some(large), Some(small)) => (large, small),
        (Some(large), None) => {
            let nominal = large.nominal - rate.over(long?);
            (large, taper::worked(r, nominal, written.place))
        }
        (None, Some(small)) => {
            let nominal = small.nominal + rate.over(long?);
            (taper::worked(r, nominal, written.place), small)
        }
        (None, None) => {
            r.missing(item.main.key_place, "large", "an inside taper", "large: 0.750");
            return None;
        }
    };
    let (start, stop) = if end == End::Datum { (large, small) } else { (small, large) };
    let text = Text { text: written.text.to_owned(), place: written.place };
    Some(InsideCut::Taper { start, end: stop, half_angle_deg: rate.half_angle(), rate: text })
}

/// An internal thread by its designation.
fn threaded(r: &mut Reader<'_>, item: &Item<'_>, tap: bool) -> Option<InsideCut> {
    let drill_depth = r.size(item.fields.get("drill depth"), Role::Bare);
    let drill = item.fields.get("drill").and_then(|f| r.value(&f, Wants::Size)).and_then(|w| drill_size(r, w));
    let written = r.value(&item.main, Wants::Thread)?;
    let designation = thread::designation(r, written)?;
    if let (Some(true), Some(class)) = (designation.external(), &designation.class) {
        let at = written.text.rfind(class.as_str()).map_or(written.place, |i| written.at(i..i + class.len()));
        r.slip(at, Fault::FitWrongSide { code: class.clone(), hole_on_shaft: false });
        return None;
    }
    if let Family::PipeTaperR { kind: TaperPipe::R } = designation.family {
        r.slip(written.place, Fault::FitWrongSide { code: "R".to_owned(), hole_on_shaft: false });
        return None;
    }
    let tapering = matches!(designation.family, Family::PipeTaperNpt | Family::PipeTaperR { kind: TaperPipe::Rc });
    if tapering && !tap {
        r.not_supported(written.place, "taper pipe thread cut inside by the tool (a `tapped hole` of it is)");
        return None;
    }
    let data = thread::data(r, written, &designation)?;
    let Some(thread) = tapped(&data, written) else {
        r.not_supported(written.place, "internal thread of this form");
        return None;
    };
    Some(InsideCut::Thread { thread: Box::new(thread), drill, drill_depth, tap })
}

/// A drill by its size or its name: `6.8`, `27/64`, `No. 7`, `F`.
fn drill_size(r: &mut Reader<'_>, written: Written<'_>) -> Option<Size> {
    let text = written.text;
    let name = text.starts_with(|c: char| c.is_ascii_alphabetic());
    let whole = r.unit == Unit::Inch && text.chars().all(|c| c.is_ascii_digit());
    if !name && !whole {
        return r.size_of(written, Role::Bare, Wants::Size);
    }
    let Some(found) = drill::find(text) else {
        r.bad(written, written.place, BadSize::Designation("no drill has this name".to_owned()), Wants::Size);
        return None;
    };
    Some(Size {
        nominal: found.diameter,
        limits: Some(Limits::exactly(found.diameter)),
        from: LimitsFrom::Standard,
        tolerance: ToleranceText::None,
        unit: r.unit,
        form: NumberForm::Decimal(show::decimals_needed(found.diameter, r.unit, 0, 6)),
        reference: false,
        place: written.place,
        text: text.to_owned(),
    })
}

/// The handbook's answer in plain numbers.
fn tapped(data: &ThreadData, written: Written<'_>) -> Option<Tapped> {
    let internal = data.internal.as_ref()?;
    Some(Tapped {
        designation: thread::with_class(data, &internal.class),
        place: written.place,
        form: thread::form(data.form),
        inch: data.pitch.unit() == Unit::Inch,
        tpi: data.pitch.threads_per_inch().map(|(n, d)| (i64::from(n), i64::from(d))),
        pitch: data.pitch.nearest(),
        lead: data.lead.nearest(),
        starts: data.starts,
        hand: thread::hand(data.hand),
        nominal: data.nominal,
        minor: internal.minor,
        pitch_diameter: internal.pitch_diameter,
        major_min: internal.major_min,
        usual_drill: data.tap_drill.as_ref().map(|d| (d.name.clone(), d.diameter, d.percent)),
        standard: data.standard,
        taper: thread::pipe_taper(data),
    })
}

/// The thread of a tapped center hole, with its depth.
pub(super) fn center_thread(hole: &CenterHole, written: Written<'_>) -> Option<(Tapped, Length)> {
    let designation = book::read(hole.thread.as_deref()?).ok()?;
    let data = book::limits(&designation, &book::Asked::default()).ok()?;
    Some((tapped(&data, written)?, hole.thread_depth?))
}

/// A tube's bore stays unless something larger is cut all the way through: it must be said.
pub(super) fn tube_has_bore(r: &mut Reader<'_>, stock: Option<Field<'_>>, header: &Header, any_through: bool) {
    let Some(field) = stock else { return };
    if matches!(header.shape, Some(StockShape::Tube { .. })) && !any_through {
        r.missing(field.key_place, "inside", "a description with tube stock", "inside: [{bore: stock, end: through}]");
    }
}

/// Whether a word of the list means a hole left as drilled.
pub(super) fn is_hole(word: &str) -> bool {
    keys::fold(word) == "hole"
}

/// Whether a bore goes from end to end.
pub(super) fn is_through(kind: &Kind) -> bool {
    matches!(kind, Kind::Inside(inside) if matches!(inside.reach, Reach::Through))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_word_hole() {
        assert!(is_hole("Hole") && !is_hole("bore"));
        assert_eq!(keys::inside_kind("C-bore").map(|k| k.word), Some("bore"));
    }
}
