//! The relief a thread runs out into: DIN 76-1 for metric, by rule for inch threads.

use std::sync::LazyLock;

use super::limits::single_point_root;
use super::{Family, Form, Hand, Pitch, Relief, ThreadData};
use crate::handbook::{Row, Source, Table};
use crate::unit::{Length, Unit};

static DIN_76: LazyLock<Table> = LazyLock::new(|| Table::read(include_str!("din76.csv")));

/// Where the relief's figures come from: DIN 76-1 where its table has the pitch, else practice.
pub fn relief_source(data: &ThreadData) -> Source {
    match din_76(data) {
        Some(_) => DIN_76.source(),
        None => {
            Source::printed("common practice, no source: relief 2.5 to 3.5 pitches wide, just below the thread's root")
        }
    }
}

fn din_76_row(data: &ThreadData) -> Option<Row<'static>> {
    let (Family::IsoMetric, Pitch::Metric(p)) = (data.designation.family, data.pitch) else { return None };
    DIN_76.rows().find(|r| data.starts == 1 && r.length("pitch", Unit::Millimetre) == Some(p))
}

fn din_76(data: &ThreadData) -> Option<Relief> {
    let (mm, row) = (Unit::Millimetre, din_76_row(data)?);
    let (least, width_max) = (row.length("g1_min", mm)?, row.length("g2_max", mm)?);
    // A left-hand thread is started in the relief: three pitches for the tool to come to rest in, as far as the standard goes.
    let start = if data.hand == Hand::Left { data.pitch.times_up(3, 1) } else { least };
    Some(Relief {
        width_min: least.max(start).min(width_max),
        width_max,
        diameter: data.nominal - row.length("below_d", mm)?,
        radius: row.length("radius", mm),
    })
}

/// DIN 76-1 external, regular, where it has the pitch; else 2.5 to 3.5 pitches wide (not under one lead; 3 pitches for a
/// left-hand start in it) and .005 in or 0.1 mm below the root a single-point tool leaves. `None` for taper threads.
pub(super) fn relief(data: &ThreadData) -> Option<Relief> {
    if matches!(data.form, Form::TaperSixty | Form::TaperWhitworth) {
        return None;
    }
    if let Some(relief) = din_76(data) {
        return Some(relief);
    }
    let (gap, step) = match data.unit {
        Unit::Inch => (Length::inch_tenths(50), Length::inch_tenths(10)),
        Unit::Millimetre => (Length::micrometres(100), Length::micrometres(100)),
    };
    let least = if data.hand == Hand::Left { (3, 1) } else { (5, 2) };
    let width_min = data.pitch.times_up(least.0, least.1).max(data.lead.times_up(1, 1));
    let width_max = data.pitch.times_up(7, 2).max(width_min + data.pitch.nearest());
    Some(Relief {
        width_min: width_min.ceil_to(step),
        width_max: width_max.ceil_to(step),
        diameter: (single_point_root(data)? - gap).floor_to(step),
        radius: None,
    })
}
