//! External threads: the designation, with the limits its standard gives.

use super::features::Item;
use super::forms::Wants;
use super::reader::Reader;
use super::sections::extent;
use super::size::Role;
use super::tree::Written;
use crate::handbook::thread::{self as book, BadThreadWhy, Designation, Family, TaperPipe, ThreadData, Unknown};
use crate::model::feature::{Hand, Kind, PipeTaper, Thread, ThreadForm};
use crate::model::slip::{BadSize, Fault};
use crate::unit::{Unit, Why};

/// `thread: 5/8-18 UNF-2A`.
pub(super) fn read(r: &mut Reader<'_>, item: &Item<'_>) -> Option<Kind> {
    let full = r.size(item.fields.get("full"), Role::Length);
    let run_out = r.size(item.fields.get("run out"), Role::Bare);
    let blank = r.size(item.fields.get("blank"), Role::Diameter);
    let rotation = r.rotation(item.fields.get("rotation"));
    let written = r.value(&item.main, Wants::Thread)?;
    let designation = designation(r, written)?;
    if let (Some(false), Some(class)) = (designation.external(), &designation.class) {
        let at = written.text.rfind(class.as_str()).map_or(written.place, |i| written.at(i..i + class.len()));
        r.slip(at, Fault::FitWrongSide { code: class.clone(), hole_on_shaft: true });
        return None;
    }
    if let Family::PipeTaperR { kind } = designation.family
        && kind != TaperPipe::R
    {
        let code = if kind == TaperPipe::Rc { "Rc" } else { "Rp" };
        r.slip(written.place, Fault::FitWrongSide { code: code.to_owned(), hole_on_shaft: true });
        return None;
    }
    let data = data(r, written, &designation)?;
    let thread = Thread { full, run_out, blank, rotation, ..plain(&data, written)? };
    Some(Kind::Thread { thread: Box::new(thread), to: extent(item) })
}

/// Reads the name of a thread.
pub(super) fn designation(r: &mut Reader<'_>, written: Written<'_>) -> Option<Designation> {
    let bad = match book::read(written.text) {
        Ok(found) => return Some(found),
        Err(bad) => bad,
    };
    let at = written.at(bad.at.clone());
    let why = match bad.why {
        BadThreadWhy::NotSupported(word) => {
            r.not_supported(written.place, word);
            return None;
        }
        BadThreadWhy::Empty => BadSize::Number(Why::Empty),
        BadThreadWhy::Comma => BadSize::Number(Why::Comma),
        BadThreadWhy::Number | BadThreadWhy::Character => BadSize::Number(Why::Character),
        BadThreadWhy::Missing => BadSize::Designation("a number is missing behind this".to_owned()),
        BadThreadWhy::NoPitch => BadSize::Designation("the pitch is missing, and no usual one is known".to_owned()),
        BadThreadWhy::NoSeries => {
            BadSize::Designation("the pitch and the letters of its series are missing".to_owned())
        }
        BadThreadWhy::Lead => BadSize::Designation("the lead is no whole multiple of the pitch".to_owned()),
        BadThreadWhy::Letters => BadSize::Designation("no thread known here has these letters".to_owned()),
        BadThreadWhy::Class => BadSize::Designation("this kind of thread has no such class".to_owned()),
        BadThreadWhy::Twice => BadSize::Designation("this is said twice".to_owned()),
    };
    r.bad(written, at, why, Wants::Thread);
    None
}

/// The thread's limits; those of a pair in no series by the formulas for special threads.
pub(super) fn data(r: &mut Reader<'_>, written: Written<'_>, designation: &Designation) -> Option<ThreadData> {
    let why = match book::limits(designation, &book::Asked::special()) {
        Ok(data) => return Some(data),
        Err(Unknown::Pair { nearest }) => {
            let names: Vec<String> = nearest.iter().take(3).map(Designation::show).collect();
            BadSize::Designation(format!("the standard has no limits for this pair; near it are {}", names.join(", ")))
        }
        Err(Unknown::Class { known }) => {
            BadSize::Designation(format!("the classes of this thread are {}", known.join(", ")))
        }
        Err(Unknown::Range(has)) => BadSize::Designation(format!("the standard covers {has}")),
        Err(Unknown::NotSupported(word)) => {
            r.not_supported(written.place, word);
            return None;
        }
    };
    r.bad(written, written.place, why, Wants::Thread);
    None
}

/// The handbook's answer in plain numbers.
fn plain(data: &ThreadData, written: Written<'_>) -> Option<Thread> {
    let external = data.external.as_ref()?;
    let nearest = if data.standard { Vec::new() } else { book::nearest(&data.designation, 3) };
    Some(Thread {
        designation: data.designation.show(),
        place: written.place,
        form: form(data.form),
        inch: data.pitch.unit() == Unit::Inch,
        tpi: data.pitch.threads_per_inch().map(|(n, d)| (i64::from(n), i64::from(d))),
        pitch: data.pitch.nearest(),
        lead: data.lead.nearest(),
        starts: data.starts,
        hand: hand(data.hand),
        nominal: data.nominal,
        major: external.major,
        pitch_diameter: external.pitch_diameter,
        minor_max: external.minor.max,
        root: book::single_point_root(data).unwrap_or(external.minor.min),
        depth: data.depth,
        standard: data.standard,
        nearest: nearest.iter().map(Designation::show).collect(),
        taper: pipe_taper(data),
        full: None,
        run_out: None,
        blank: None,
        rotation: None,
    })
}

/// The form as later stages need it.
pub(super) const fn form(form: book::Form) -> ThreadForm {
    match form {
        book::Form::Sixty | book::Form::TaperSixty => ThreadForm::V60,
        book::Form::Whitworth | book::Form::TaperWhitworth => ThreadForm::V55,
        book::Form::Acme | book::Form::StubAcme => ThreadForm::Acme,
        book::Form::Trapezoidal => ThreadForm::Trapezoidal,
        book::Form::Square => ThreadForm::Square,
        book::Form::Buttress => ThreadForm::Buttress,
    }
}

/// The hand.
pub(super) const fn hand(hand: book::Hand) -> Hand {
    match hand {
        book::Hand::Right => Hand::Right,
        book::Hand::Left => Hand::Left,
    }
}

/// The designation, with the class that was assumed where none was written.
pub(super) fn with_class(data: &ThreadData, class: &str) -> String {
    let mut whole = data.designation.clone();
    if whole.class.is_none() && !class.is_empty() {
        whole.class = Some(class.to_owned());
    }
    whole.show()
}

/// What a taper pipe thread has besides, from its standard's table; none for any other thread.
pub(super) fn pipe_taper(data: &ThreadData) -> Option<PipeTaper> {
    data.taper.map(|t| PipeTaper {
        one_in: t.one_in,
        gauge_length: t.gauge_length,
        gauge_tolerance: t.gauge_tolerance,
        useful_length: t.useful_length,
        gauge_plane: t.gauge_plane,
    })
}
