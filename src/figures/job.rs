//! What some operations need besides size and place: tapers, chamfers, center holes.

use super::given::{Given, at_tailstock};
use super::positions::point;
use super::second_center;
use super::{Figure, FlatsCut, KeyseatCut, KnurlCut, OnScale, Position, ThreadCut, UndercutCut, scale};
use crate::handbook::center::CenterHole;
use crate::model::plan::{Operation, Setup};
use crate::model::{End, Kind};
use crate::unit::{Length, Station, Unit, show};
use crate::{tell, told};

/// A center hole.
#[derive(Debug, Clone, PartialEq)]
pub struct CenterCut {
    /// As written: `A 1/8`.
    pub size: String,
    /// Diameter of the pilot.
    pub drill: Figure,
    /// Mouth of the 60° cone: drill until it measures this.
    pub mouth: Figure,
    /// The mouth on a caliper in the other unit.
    pub mouth_on_scale: Option<OnScale>,
    /// Depth from the face.
    pub depth: Figure,
    /// The drawing says no size: the usual one for this diameter, the shop's nearest.
    pub usual_for: Option<Figure>,
    /// A rough center in the sawn end: half of the bar's diameter, to which odd-leg calipers are set for its crossing lines.
    pub odd_legs: Option<Figure>,
    /// A second hole, off the part's axis: how it is laid out.
    pub second: Option<super::SecondLayout>,
}

/// A chamfer.
#[derive(Debug, Clone, PartialEq)]
pub struct ChamferCut {
    /// Leg along the axis.
    pub leg: Figure,
    /// Angle to the axis, degrees.
    pub angle_deg: f64,
    /// Diameter at the mouth, where it was given by that.
    pub mouth: Option<Figure>,
    /// Of one inside: how it is measured and set.
    pub opening: Option<super::Opening>,
    /// `.045 × 45°`; `Ø .500 × 82°` by its mouth.
    pub says: String,
}

/// Which way a slide or the tailstock is moved, seen by the operator with the tool on his side of the work.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Swing {
    /// Toward the operator.
    TowardYou,
    /// Away from the operator.
    AwayFromYou,
}

impl Swing {
    /// `toward you`, `away from you`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::TowardYou => "toward you",
            Self::AwayFromYou => "away from you",
        }
    }
}

/// A taper.
#[derive(Debug, Clone, PartialEq)]
pub struct TaperCut {
    /// As written: `1:10`.
    pub rate: String,
    /// Compound from the axis, degrees.
    pub half_angle_deg: f64,
    /// In degrees and minutes.
    pub half_angle: String,
    /// Which way the compound's tailstock end is swung.
    pub swing: Swing,
    /// Set-over of the tailstock over the whole length between centers.
    pub setover: Figure,
    /// Which way the tailstock is set over; none inside, where nothing runs between centers.
    pub tailstock: Option<Swing>,
    /// On the diameter, a foot of length (inches) or 100 mm.
    pub per_length: Figure,
    /// What an indicator against the taper moves over one inch or 25 mm along the axis.
    pub drop: Figure,
    /// Diameters to check, each with its place, and as an instrument in the other unit shows it.
    pub checks: Vec<(Position, Figure, Option<OnScale>)>,
    /// Ways to cut it, the one to take first.
    pub ways: Vec<TaperWay>,
    /// Cuts along it before the last; none where the last cut takes all.
    pub cuts: Option<TaperCuts>,
}

/// Roughing cuts along a taper, the slide already set to its angle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TaperCuts {
    /// How many.
    pub count: u32,
    /// Depth of each, a side.
    pub depth: Figure,
    /// The same on the cross dial, where the shop file says what it reads.
    pub on_dial: Option<super::DialReading>,
    /// What is left for the last cut, a side.
    pub left: Figure,
}

/// A way to cut a taper.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TaperWay {
    /// `compound`, `tailstock set over`, `taper attachment`.
    pub way: &'static str,
    /// Whether it can be done here.
    pub fits: bool,
    /// Why, or why not.
    pub because: String,
}

/// What some operations need besides.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum Job {
    /// Nothing.
    #[default]
    Plain,
    /// A thread.
    Thread(Box<ThreadCut>),
    /// A keyseat.
    Keyseat(Box<KeyseatCut>),
    /// A taper.
    Taper(Box<TaperCut>),
    /// A knurl.
    Knurl(Box<KnurlCut>),
    /// Flats.
    Flats(Box<FlatsCut>),
    /// An undercut.
    Undercut(Box<UndercutCut>),
    /// A domed end.
    Crown(Box<super::CrownCut>),
    /// A chamfer.
    Chamfer(Box<ChamferCut>),
    /// A center hole.
    Center(Box<CenterCut>),
    /// A cut inside the part, or a tapped hole across it.
    Hole(Box<super::HoleCut>),
}

/// A center hole's sizes.
pub(super) fn center(given: &Given, op: &Operation) -> Option<CenterCut> {
    let shown = |l| Figure::usual(l, given.unit);
    if op.is_second_center() {
        return second_center::cut(given, op);
    }
    if op.is_rough_center() {
        return rough_center(given, op);
    }
    let Some(feature) = op.feature else { return usual_center(given, op.end?) };
    let Kind::CenterHole { size: Some(size), .. } = &given.feature(feature)?.kind else { return None };
    Some(CenterCut {
        usual_for: None,
        second: None,
        odd_legs: None,
        size: size.text.clone(),
        drill: shown(size.drill),
        mouth: shown(size.mouth),
        mouth_on_scale: mouth_on_scale(given, shown(size.mouth)),
        depth: shown(size.depth),
    })
}

/// A rough center, laid out from the bar's own outside.
fn rough_center(given: &Given, op: &Operation) -> Option<CenterCut> {
    let hole = crate::plan::rough_center(given.part, given.shop, op)?;
    let odd_legs = given.part.stock.as_ref().map(|s| Figure::usual(s.size.nominal.half(), given.unit));
    Some(CenterCut { odd_legs, ..by_the_book(given, &hole) })
}

/// The mouth of a center hole is measured across with a caliper.
pub(super) fn mouth_on_scale(given: &Given, mouth: Figure) -> Option<OnScale> {
    scale::on_scale(given, "caliper", Some(mouth), None)
}

/// The size usual for the diameter at an end where the drawing says none: of the shop's center drills the nearest to it whose mouth
/// is no more than half of the diameter, else the usual itself.
pub(super) fn usual_center(given: &Given, end: End) -> Option<CenterCut> {
    let (across, hole) = crate::plan::usual_center(given.part, given.shop, end)?;
    Some(CenterCut { usual_for: Some(Figure::usual(across, given.unit)), ..by_the_book(given, &hole) })
}

/// A center hole as the standard has it.
fn by_the_book(given: &Given, hole: &CenterHole) -> CenterCut {
    let shown = |l| Figure::usual(l, given.unit);
    CenterCut {
        size: hole.designation.clone(),
        drill: shown(hole.drill_diameter),
        mouth: shown(hole.mouth_diameter),
        mouth_on_scale: mouth_on_scale(given, shown(hole.mouth_diameter)),
        depth: shown(hole.depth),
        usual_for: None,
        second: None,
        odd_legs: None,
    }
}

/// A chamfer's sizes.
pub(super) fn chamfer(given: &Given, op: &Operation) -> Option<ChamferCut> {
    let (leg, angle_mdeg, mouth) = match &given.feature(op.feature?)?.kind {
        Kind::Chamfer { leg, angle_mdeg, .. } => (leg, angle_mdeg, None),
        Kind::Inside(inside) => match &inside.cut {
            crate::model::InsideCut::Chamfer { leg, angle_mdeg, mouth } => (leg, angle_mdeg, mouth.as_ref()),
            _ => return None,
        },
        _ => return None,
    };
    let leg = Figure::usual(leg.nominal, given.unit);
    let angle_deg = *angle_mdeg as f64 / 1000.0;
    let mouth = mouth.map(|m| Figure::usual(m.nominal, given.unit));
    let says = match mouth {
        Some(mouth) => format!("\u{d8} {} \u{d7} {}\u{b0}", mouth.text(given.unit), angle_deg * 2.0),
        None => format!("{} \u{d7} {angle_deg}\u{b0}", leg.text(given.unit)),
    };
    let opening = super::opening::of(given, op, leg, angle_deg);
    Some(ChamferCut { leg, angle_deg, mouth, opening, says })
}

/// A taper's settings. Set-over = whole length × (large − small) / (2 × length of the taper), exact.
pub(super) fn taper(given: &Given, setup: &Setup, op: &Operation) -> Option<TaperCut> {
    let (start, end, half_angle_deg, rate) = match &given.feature(op.feature?)?.kind {
        Kind::Taper { start, end, half_angle_deg, rate, .. } => {
            (start.nominal, end.nominal, *half_angle_deg, rate.text.clone())
        }
        Kind::Inside(inside) => match &inside.cut {
            crate::model::InsideCut::Taper { start, end, half_angle_deg, rate } => {
                (start.nominal, end.nominal, *half_angle_deg, rate.text.clone())
            }
            _ => return None,
        },
        Kind::Thread { thread, .. } => {
            let one_in = thread.taper?.one_in;
            let long = given.profile.piece(op.feature?)?.long();
            let (start, end) = given.part.pipe_ends(op.feature?, long)?;
            let half = (0.5 / f64::from(one_in)).atan().to_degrees();
            (start.middle(), end.middle(), half, format!("1:{one_in}"))
        }
        _ => return None,
    };
    let threaded = given.part.pipe_small_end(op.feature?).is_some();
    let piece = given.profile.piece(op.feature?);
    let hollow = given.profile.hollow(op.feature?);
    let (from, to) = piece.map(|p| (p.from, p.to)).or_else(|| hollow.map(|h| (h.from, h.to)))?;
    let (step, long) = ((start - end).abs(), to - from);
    let unit = given.unit;
    let (per, inch_or_25) = match unit {
        Unit::Inch => (Length::PER_INCH.times(12), Length::PER_INCH),
        Unit::Millimetre => (Length::PER_MM.times(100), Length::PER_MM.times(25)),
    };
    let over = |length: Length, share: i64| {
        let drop = i128::from(length.pm()) * i128::from(step.pm()) / (i128::from(long.pm().max(1)) * i128::from(share));
        Figure::fine(Length::from_pm(i64::try_from(drop).unwrap_or(i64::MAX)), unit)
    };
    let read_by = if piece.is_some() { "micrometer" } else { "caliper" };
    let check = |what: &str, at: Station, size: Length| {
        let size = Figure::fine(size, unit);
        (point(given, setup, what, at), size, scale::on_scale(given, read_by, Some(size), None))
    };
    let (at_tail, at_head) = match at_tailstock(setup)? {
        End::Datum => (start, end),
        End::Far => (end, start),
    };
    // Outside and inside the tool cuts on the operator's side: the compound follows the wall there, which comes toward him where the
    // diameter grows. The tailstock brings that wall parallel to the bed, so it goes the other way.
    let grows = at_tail > at_head;
    Some(TaperCut {
        swing: if grows { Swing::TowardYou } else { Swing::AwayFromYou },
        tailstock: piece.is_some().then_some(if grows { Swing::AwayFromYou } else { Swing::TowardYou }),
        rate,
        half_angle_deg,
        half_angle: degrees_minutes(half_angle_deg),
        setover: over(given.overall, 2),
        per_length: over(per, 1),
        drop: over(inch_or_25, 2),
        checks: vec![check("start", from, start), check("end", to, end)],
        ways: ways(given, setup, long, over(given.overall, 2), threaded),
        cuts: op.from_diameter.and_then(|found| match piece {
            Some(_) => taper_cuts(given, found, start.min(end), 1),
            // A boring bar springs: half as deep, out to the mouth.
            None => taper_cuts(given, op.to_diameter?, found, 2),
        }),
    })
}

/// Equal cuts from a cylinder to the small end of its taper, no deeper than a share of roughing, the shop's last cut left on it.
fn taper_cuts(given: &Given, from: Length, small: Length, share: i64) -> Option<TaperCuts> {
    let most = crate::plan::rough_depth(given.part, given.shop).0.times_ratio(1, share);
    let (count, rough, left) = crate::plan::cutting::taper_cuts(from, small, most, given.unit, given.shop)?;
    let depth = Figure::usual(rough.times_ratio(1, i64::from(count)), given.unit);
    let on_dial = super::dial::cross(depth.value, given.shop, given.unit);
    Some(TaperCuts { count, depth, on_dial, left: Figure::usual(left, given.unit) })
}

/// The ways a taper can be cut here, those that fit first; of a pipe thread's taper only those that the thread can follow. A compound is taken to travel 3 in / 75 mm (common practice, no source).
fn ways(given: &Given, setup: &Setup, long: Length, setover: Figure, threaded: bool) -> Vec<TaperWay> {
    let unit = given.unit;
    let stroke = given.pick(3_000_000, 75_000);
    let text = |l: Length| Figure::usual(l, unit).text(unit);
    let attachment = given.shop.and_then(|s| s.taper_attachment);
    let travel = given.shop.and_then(|s| s.tailstock_travel);
    let between = setup.holding == crate::model::part::Holding::BetweenCenters;
    let mut list = vec![
        TaperWay {
            way: "taper attachment",
            fits: attachment == Some(true),
            because: match attachment {
                Some(true) => told!("power feed over the whole taper", "Vorschub über den ganzen Kegel").to_owned(),
                Some(false) => told!("the lathe has none", "die Maschine hat keines").to_owned(),
                None => told!("none is listed in a shop file", "in keiner Werkstattdatei genannt").to_owned(),
            },
        },
        TaperWay {
            way: "compound",
            fits: long <= stroke && !threaded,
            because: if threaded {
                told!(
                    "it turns the taper, and no leadscrew follows it: then the thread wants a pipe die",
                    "er dreht den Kegel, doch keine Leitspindel folgt ihm: das Gewinde braucht dann ein Schneideisen"
                )
                .to_owned()
            } else if long <= stroke {
                tell!(
                    "{} long, within the {} a compound usually travels; fed by hand",
                    "{} lang, im üblichen Weg von {}; Vorschub von Hand",
                    text(long),
                    text(stroke)
                )
            } else {
                tell!(
                    "{} long, more than the {} a compound usually travels",
                    "{} lang, mehr als der übliche Weg von {}",
                    text(long),
                    text(stroke)
                )
            },
        },
        TaperWay {
            way: "tailstock set over",
            fits: between && travel.is_some_and(|t| setover.value <= t),
            because: match (between, travel) {
                (false, _) => told!(
                    "only between centers, and the work is held in the chuck",
                    "nur zwischen Spitzen, und das Werkstück sitzt im Futter"
                )
                .to_owned(),
                (true, Some(t)) if setover.value > t => {
                    tell!(
                        "{} is more than the tailstock travels, {}",
                        "{} ist mehr, als sich der Reitstock verstellt: {}",
                        setover.text(unit),
                        text(t)
                    )
                }
                (true, Some(_)) => told!(
                    "the tailstock must be proved true again before any cylinder is cut",
                    "der Reitstock ist wieder auszurichten und zu prüfen, bevor ein Zylinder gedreht wird"
                )
                .to_owned(),
                (true, None) => told!(
                    "how far the tailstock travels is not listed in a shop file",
                    "wie weit sich der Reitstock verstellt, steht in keiner Werkstattdatei"
                )
                .to_owned(),
            },
        },
    ];
    let set_over = matches!(setup.by, crate::model::Workholder::SetOver(_));
    list.sort_by_key(|w| (set_over && w.way != "tailstock set over", !w.fits));
    list
}

/// `2° 52′`.
fn degrees_minutes(degrees: f64) -> String {
    let minutes = (degrees * 60.0).round() as i64;
    format!("{}\u{b0} {:02}\u{2032}", minutes / 60, minutes % 60)
}

/// Decimals a length needs beyond the usual, for words.
pub(super) fn plain(length: Length, unit: Unit) -> String {
    show::exact(length, unit, show::usual_decimals(unit), show::usual_decimals(unit) + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_angles_in_minutes() {
        assert_eq!(degrees_minutes(2.862_405), "2\u{b0} 52\u{2032}");
        assert_eq!(degrees_minutes(7.0), "7\u{b0} 00\u{2032}");
    }
}
