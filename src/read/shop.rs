//! The shop file. Whatever it does not say stays unsaid.

use std::collections::BTreeMap;

use super::forms::Wants;
use super::keys::Scope;
use super::reader::{Field, Fields, Reader, items};
use super::shop_lists as lists;
use super::size::Role;
use super::tree::{Body, Node, Written};
use crate::finding::{FileId, Source};
use crate::model::Shop;
use crate::model::shop::{Dial, LimitValue, Minutes, Reads, StartIndex, ThreadDial};
use crate::model::slip::{BadSize, Slip};
use crate::unit::{Length, Unit, Why, read_number};

/// Reads a shop file from its tree.
pub(super) fn read(source: &Source, tree: &Node, before: &[Slip]) -> (Option<Shop>, Vec<Slip>) {
    let mut r = Reader::new(source, FileId::Shop);
    let Some(f) = r.fields("the shop file", tree, Scope::Shop) else { return (None, r.slips) };
    let units = super::part::units(&mut r, &f, super::reader::broken_text(before));
    r.unit = units.unwrap_or(Unit::Inch);
    let mut shop = Shop { units, ..Shop::default() };
    words(&mut r, &f, &mut shop);
    dials(&mut r, &f, &mut shop);
    screw(&mut r, &f, &mut shop);
    sizes(&mut r, &f, &mut shop);
    abilities(&mut r, &f, &mut shop);
    lists::read(&mut r, &f, &mut shop);
    shop.limits = limits(&mut r, f.get("limits"));
    (units.map(|_| shop), r.slips)
}

fn words(r: &mut Reader<'_>, f: &Fields<'_>, shop: &mut Shop) {
    shop.name = r.text(f.get("shop")).map(|t| t.text);
    shop.company = r.text(f.get("company")).map(|t| t.text);
    shop.logo = r.text(f.get("logo"));
    shop.taper_attachment = r.yes_no(f.get("taper attachment"));
    shop.grinding = r.yes_no(f.get("grinding"));
    shop.soft_jaws = r.yes_no(f.get("soft jaws"));
    if let Some(field) = f.get("start index") {
        let known = ["compound", "dial", "gear", "none"];
        let word = r.value(&field, Wants::Words).and_then(|w| r.word(w, &known, "start index"));
        shop.start_index = word.map(|w| match w {
            "compound" => StartIndex::Compound,
            "dial" => StartIndex::Dial,
            "gear" => StartIndex::Gear,
            _ => StartIndex::None,
        });
    }
}

fn dials(r: &mut Reader<'_>, f: &Fields<'_>, shop: &mut Shop) {
    if let Some(fields) = f.get("cross dial").and_then(|d| r.fields("cross dial", d.value, Scope::CrossDial)) {
        if let Some(field) = fields.get("reads") {
            let word = r.value(&field, Wants::Words).and_then(|w| r.word(w, &["radius", "diameter"], "reads"));
            shop.cross_reads = word.map(|w| if w == "radius" { Reads::Radius } else { Reads::Diameter });
        } else {
            r.missing(fields.place, "reads", "cross dial", "reads: radius");
        }
        shop.cross_dial = dial(r, &fields);
    }
    shop.carriage_dial = dial_or_none(r, f.get("carriage dial"));
    shop.compound_dial = dial_or_none(r, f.get("compound dial"));
    shop.tailstock_dial = dial_or_none(r, f.get("tailstock dial"));
    if let Some(fields) = f.get("thread dial").and_then(|d| r.fields("thread dial", d.value, Scope::ThreadDial)) {
        shop.thread_dial = thread_dial(r, &fields);
    }
}

/// A dial, or `none`.
fn dial_or_none(r: &mut Reader<'_>, field: Option<Field<'_>>) -> Option<Dial> {
    let field = field?;
    if field.value.written().is_some_and(|w| matches!(w.text, "none" | "no")) {
        return None;
    }
    let fields = r.fields(field.word, field.value, Scope::Dial)?;
    dial(r, &fields)
}

fn dial(r: &mut Reader<'_>, fields: &Fields<'_>) -> Option<Dial> {
    for (key, example) in [("division", "division: 0.001"), ("turn", "turn: 0.100")] {
        if !fields.has(key) {
            r.missing(fields.place, key, fields.scope.called(), example);
        }
    }
    let division = graduated(r, fields.get("division"));
    let turn = graduated(r, fields.get("turn"));
    Some(Dial { division: division?, turn: turn? })
}

fn thread_dial(r: &mut Reader<'_>, fields: &Fields<'_>) -> Option<ThreadDial> {
    for (key, example) in [("teeth", "teeth: 32"), ("marks", "marks: 8")] {
        if !fields.has(key) {
            r.missing(fields.place, key, "thread dial", example);
        }
    }
    let teeth = fields.get("teeth").and_then(|f| r.value(&f, Wants::Number)).and_then(|w| r.count_of(w));
    let marks = fields.get("marks").and_then(|f| r.value(&f, Wants::Number)).and_then(|w| r.count_of(w));
    let mut engraved: Vec<String> = Vec::new();
    for item in items(fields.get("engraved")) {
        engraved.extend(r.text(Some(item)).iter().flat_map(|t| t.text.split_whitespace()).map(str::to_owned));
    }
    if let (Some(marks), Some(field)) = (marks.filter(|m| *m as usize != engraved.len()), fields.get("engraved"))
        && !engraved.is_empty()
    {
        let written = field.value.written().unwrap_or(Written { text: "", place: field.value.place, exact: false });
        let why = format!("it has {} words for {marks} marks, and a mark without a word is `-`", engraved.len());
        r.bad(written, field.value.place, BadSize::Designation(why), Wants::Engraving);
    }
    Some(ThreadDial { teeth: teeth?, marks: marks?, engraved })
}

fn screw(r: &mut Reader<'_>, f: &Fields<'_>, shop: &mut Shop) {
    if let Some(written) = f.get("leadscrew").and_then(|field| r.value(&field, Wants::Pitch)) {
        let lower = written.text.to_ascii_lowercase();
        if let Some(threads) = lower.strip_suffix("tpi") {
            shop.leadscrew_tpi = lists::threads_per_inch(threads.trim());
            shop.leadscrew_pitch = shop.leadscrew_tpi.map(|(n, d)| Length::PER_INCH.times_ratio(d, n));
        } else {
            let number = read_number(lower.trim_end_matches("pitch").trim(), r.unit).ok();
            let sure = number.filter(|n| n.own_unit || r.unit == Unit::Millimetre);
            shop.leadscrew_pitch = sure.map(|n| n.value).filter(|v| v.is_positive());
        }
        if shop.leadscrew_pitch.is_none() {
            r.bad(written, written.place, BadSize::Form, Wants::Pitch);
        }
    }
    if let Some(written) = f.get("power").and_then(|field| r.value(&field, Wants::Power)) {
        shop.power_w = with_unit(written.text, &[("kw", 1000.0), ("hp", 745.7), ("w", 1.0)]);
        if shop.power_w.is_none() {
            r.bad(written, written.place, BadSize::Unit, Wants::Power);
        }
    }
}

fn sizes(r: &mut Reader<'_>, f: &Fields<'_>, shop: &mut Shop) {
    shop.tailstock_travel = positive(r, f.get("tailstock travel"));
    shop.swing = positive(r, f.get("swing"));
    shop.collet_runout = positive(r, f.get("collet runout"));
    shop.swing_over_cross_slide = positive(r, f.get("swing over cross slide"));
    shop.between_centers = positive(r, f.get("between centers"));
    shop.spindle_bore = positive(r, f.get("spindle bore"));
}

fn abilities(r: &mut Reader<'_>, f: &Fields<'_>, shop: &mut Shop) {
    if let Some(fields) = f.get("surface speed").and_then(|s| r.fields("surface speed", s.value, Scope::SurfaceSpeed)) {
        shop.surface_speed_hss = surface_speed(r, fields.get("hss"));
        shop.surface_speed_carbide = surface_speed(r, fields.get("carbide"));
    }
    if let Some(fields) = f.get("depth of cut").and_then(|s| r.fields("depth of cut", s.value, Scope::DepthOfCut)) {
        shop.depth_rough = positive(r, fields.get("rough"));
        shop.depth_finish = positive(r, fields.get("finish"));
    }
    if let Some(fields) = f.get("can hold").and_then(|s| r.fields("can hold", s.value, Scope::CanHold)) {
        let mut half = |key| fields.get(key).and_then(|field| half_width(r, field));
        shop.can_hold_length = half("length");
        shop.can_hold_diameter = half("diameter");
        shop.can_hold_turned_round = half("turned end for end");
    }
    if let Some(fields) = f.get("minutes").and_then(|s| r.fields("minutes", s.value, Scope::Minutes)) {
        for (key, example) in [("setup", "setup: 8"), ("tool", "tool: 1"), ("measure", "measure: 0.5")] {
            if !fields.has(key) {
                r.missing(fields.place, key, "minutes", example);
            }
        }
        let (setup, tool) = (minutes(r, fields.get("setup")), minutes(r, fields.get("tool")));
        let measure = minutes(r, fields.get("measure"));
        shop.minutes = (|| Some(Minutes { setup: setup?, tool: tool?, measure: measure? }))();
    }
    if let Some(fields) = f.get("stiffness").and_then(|s| r.fields("stiffness", s.value, Scope::Stiffness)) {
        shop.chuck_stiffness = stiffness(r, fields.get("chuck"));
        shop.center_stiffness = stiffness(r, fields.get("center"));
    }
}

fn minutes(r: &mut Reader<'_>, field: Option<Field<'_>>) -> Option<f64> {
    let value = r.number(field)?;
    if value > 0.0 {
        return Some(value);
    }
    let written = field?.value.written()?;
    r.bad(written, written.place, BadSize::Form, Wants::Number);
    None
}

/// A size on a dial. Dials are read in the unit of the shop file: what is written in the other would be set in a unit that is not
/// engraved on it.
fn graduated(r: &mut Reader<'_>, field: Option<Field<'_>>) -> Option<Length> {
    let size = r.size(field, Role::Bare)?;
    if size.unit == r.unit {
        return positive(r, field);
    }
    let written = field?.value.written()?;
    let (own, other) = (r.unit.word(), size.unit.word());
    let why = format!(
        "a dial is read in the unit of the shop file, {own}: for dials in {other} write `units: {other}` at the top of it, and `{own}` behind the sizes in {own}"
    );
    r.bad(written, written.place, BadSize::Designation(why), Wants::Division);
    None
}

/// A length above zero, without limits.
pub(super) fn positive(r: &mut Reader<'_>, field: Option<Field<'_>>) -> Option<Length> {
    let size = r.size(field, Role::Bare)?;
    if size.nominal.is_positive() {
        return Some(size.nominal);
    }
    let written = field?.value.written()?;
    r.bad(written, written.place, BadSize::Form, Wants::Size);
    None
}

/// A half-width, with or without its ±.
pub(super) fn half_width(r: &mut Reader<'_>, field: Field<'_>) -> Option<Length> {
    let written = r.value(&field, Wants::Limits)?;
    if written.text.starts_with(|c: char| c.is_ascii_digit() || c == '.') {
        return match read_number(written.text, r.unit) {
            Ok(number) => Some(number.value),
            Err(bad) => {
                r.bad(written, written.at(bad.at), BadSize::Number(bad.why), Wants::Limits);
                None
            }
        };
    }
    r.limits_of(written).map(|(upper, _)| upper)
}

/// Metres a minute.
fn surface_speed(r: &mut Reader<'_>, field: Option<Field<'_>>) -> Option<f64> {
    let written = r.value(&field?, Wants::SurfaceSpeed)?;
    let bare = if r.unit == Unit::Inch { 0.3048 } else { 1.0 };
    let units = [("ft/min", 0.3048), ("sfm", 0.3048), ("fpm", 0.3048), ("m/min", 1.0), ("", bare)];
    let found = with_unit(written.text, &units).filter(|v| *v > 0.0);
    if found.is_none() {
        r.bad(written, written.place, BadSize::Unit, Wants::SurfaceSpeed);
    }
    found
}

/// Newtons a millimetre.
fn stiffness(r: &mut Reader<'_>, field: Option<Field<'_>>) -> Option<f64> {
    let written = r.value(&field?, Wants::Stiffness)?;
    let bare = if r.unit == Unit::Inch { 0.175_127 } else { 1.0 };
    let units = [("n/mm", 1.0), ("n/µm", 1000.0), ("n/um", 1000.0), ("lb/in", 0.175_127), ("", bare)];
    let found = with_unit(&written.text.replace('\u{3bc}', "µ"), &units).filter(|v| *v > 0.0);
    if found.is_none() {
        r.bad(written, written.place, BadSize::Unit, Wants::Stiffness);
    }
    found
}

/// A number with one of these units, times the unit's factor.
fn with_unit(text: &str, units: &[(&str, f64)]) -> Option<f64> {
    let lower = text.to_lowercase();
    units.iter().find_map(|(unit, factor)| {
        let number = lower.strip_suffix(unit)?;
        super::angle::plain_number(number.trim()).map(|n| n * factor)
    })
}

/// `limits: {check id: value, or {name: value}}`.
fn limits(r: &mut Reader<'_>, field: Option<Field<'_>>) -> BTreeMap<String, BTreeMap<String, LimitValue>> {
    let mut all = BTreeMap::new();
    let Some(field) = field else { return all };
    let Body::Keys(entries) = &field.value.body else {
        if !matches!(field.value.body, Body::Broken) {
            r.wrong_shape("limits", field.value, Scope::Shop);
        }
        return all;
    };
    for entry in entries.iter().filter(|e| e.usable) {
        let values: &mut BTreeMap<String, LimitValue> = all.entry(entry.key.trim().to_owned()).or_default();
        match &entry.value.body {
            Body::Keys(named) => {
                for one in named.iter().filter(|e| e.usable) {
                    if let Some(value) = limit(r, &one.value, one.key_place) {
                        values.insert(super::keys::fold(&one.key), value);
                    }
                }
            }
            _ => {
                if let Some(value) = limit(r, &entry.value, entry.key_place) {
                    values.insert(String::new(), value);
                }
            }
        }
    }
    all
}

fn limit(r: &mut Reader<'_>, value: &Node, key_place: crate::finding::Place) -> Option<LimitValue> {
    let written = r.value(&Field { word: "limits", key_place, value }, Wants::Number)?;
    let length = read_number(written.text, r.unit);
    let number = super::angle::plain_number(written.text);
    match (&length, number) {
        (Err(bad), None) => {
            r.bad(written, written.at(bad.at.clone()), BadSize::Number(bad.why), Wants::Number);
            None
        }
        (Ok(n), _) => Some(LimitValue {
            number: number.unwrap_or(n.value.to_f64(n.unit)),
            length: Some(n.value),
            place: written.place,
        }),
        (Err(bad), Some(number)) => {
            (bad.why != Why::TooLarge).then_some(LimitValue { number, length: None, place: written.place })
        }
    }
}
