//! The thread dial (chasing dial): at which of its lines the half-nuts may be closed again.
//!
//! One turn of the dial is the carriage's travel over as many leadscrew threads as its worm gear has teeth. Closing again after
//! any travel is right when that travel holds a whole number of leadscrew threads and a whole number of the work's leads.
//! Published practice (F. D. Jones 1914; lathe makers' charts); here in whole-number arithmetic, so fractional and metric leads are covered.

use super::Source;
use crate::unit::Length;

/// The dial of a lathe.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ThreadDial {
    /// Lead of the leadscrew.
    pub leadscrew: Length,
    /// Teeth of the dial's worm gear.
    pub teeth: u32,
    /// Lines around the dial.
    pub marks: u32,
}

/// Where the half-nuts may be closed for one lead.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Engagement {
    /// At every leadscrew thread: no dial is needed.
    pub anywhere: bool,
    /// Lines, counted 1 to `marks` around the dial, at which closing is right when the first cut was begun at line `marks` (which
    /// is also 0). All lines when `anywhere`.
    pub lines: Vec<u32>,
    /// A turn of the dial is no whole number of leads, so no line comes right again: keep the half-nuts closed and reverse the lathe.
    pub never_open: bool,
}

/// Greatest common divisor.
fn gcd(a: i128, b: i128) -> i128 {
    let (mut a, mut b) = (a.abs(), b.abs());
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

/// A lead as an exact fraction of a length: `numerator / denominator` picometres, since 1/13 in is no whole number of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Lead {
    numerator: i128,
    denominator: i128,
}

impl Lead {
    /// A lead that is a length (metric leads, decimal inch leads).
    pub fn of(lead: Length) -> Self {
        Self { numerator: i128::from(lead.pm()), denominator: 1 }
    }

    /// `starts` over `threads_per_inch`, threads given as a fraction `over / under` (11 1/2 is 23 / 2).
    pub fn threads_per_inch(over: i64, under: i64, starts: u32) -> Self {
        let inch = i128::from(Length::PER_INCH.pm());
        Self { numerator: inch * i128::from(under) * i128::from(starts), denominator: i128::from(over) }
    }

    /// In picometres, rounded.
    pub fn length(self) -> Length {
        let d = self.denominator.max(1);
        Length::from_pm(i64::try_from((self.numerator + d / 2) / d).unwrap_or(i64::MAX))
    }

    /// Whether it is a lead at all.
    pub fn is_positive(self) -> bool {
        self.numerator > 0 && self.denominator > 0
    }
}

/// Where the half-nuts may be closed for a work `lead`, on `dial` whose leadscrew has the exact lead `screw`.
///
/// `None` for a dial or lead of zero.
pub fn engage(dial: ThreadDial, screw: Lead, lead: Lead) -> Option<Engagement> {
    if dial.teeth == 0 || dial.marks == 0 || !screw.is_positive() || !lead.is_positive() {
        return None;
    }
    // Leadscrew threads that must pass until a whole number of work leads has passed: lead / screw = p / q in lowest terms,
    // so after n screw threads n q / p leads have passed, and n must be a multiple of p.
    let p = lead.numerator * screw.denominator;
    let q = screw.numerator * lead.denominator;
    let every = p / gcd(p, q);
    let (teeth, marks) = (i128::from(dial.teeth), i128::from(dial.marks));
    // Line j stands teeth x j / marks screw threads from line 0; it is right when that is a whole multiple of `every`.
    // The hand does not count the dial's turns: a line is the same place again only if a whole turn is such a multiple too.
    let right = |j: i128| teeth % every == 0 && (teeth * j) % marks == 0 && (teeth * j / marks) % every == 0;
    let lines: Vec<u32> = (1..=dial.marks).filter(|j| right(i128::from(*j))).collect();
    let anywhere = every == 1;
    let never_open = lines.is_empty() && !anywhere;
    let lines = if anywhere { (1..=dial.marks).collect() } else { lines };
    Some(Engagement { anywhere, lines, never_open })
}

/// What is engraved at each line, `marks` of them beginning with line 0: `1 - 2 - 3 - 4 -` has a figure at every second line.
///
/// A dash stands for a line without a figure. With fewer entries than lines the figures repeat nowhere and the rest are dashes.
pub fn labels(engraved: &str, marks: u32, lines: &[u32]) -> Vec<String> {
    let entries: Vec<&str> = engraved.split_whitespace().collect();
    let at = |line: u32| entries.get((line % marks.max(1)) as usize).copied().unwrap_or("-");
    lines.iter().map(|line| at(*line).to_owned()).collect()
}

/// Where the rule was printed.
pub const fn source() -> Source {
    Source::printed(
        "F. D. Jones, Turning and Boring (1914), thread dial; the whole-number rule worked out for every lead",
    )
}
