//! A thread's pitch or lead, kept as the exact fraction it was given as.

use std::cmp::Ordering;

use crate::unit::{Length, Unit, show};

/// A pitch or a lead: `inches / threads` of an inch, or a length.
///
/// 1/13 in is not a whole number of picometres, so a pitch turns into a [`Length`] only by a named rounding.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Pitch {
    /// `inches / threads` inch, in lowest terms: 4 1/2 threads per inch is 2/9 in.
    Inch {
        /// Numerator: so many inches …
        inches: u32,
        /// … to so many threads.
        threads: u32,
    },
    /// A length, as metric threads give it.
    Metric(Length),
}

fn gcd(a: u32, b: u32) -> u32 {
    if b == 0 { a } else { gcd(b, a % b) }
}

impl Pitch {
    /// `inches / threads` inch; `None` when either is zero.
    pub fn inch(inches: u32, threads: u32) -> Option<Self> {
        let g = gcd(inches, threads);
        (inches > 0 && threads > 0).then(|| Self::Inch { inches: inches / g, threads: threads / g })
    }

    /// So many whole threads per inch; zero counts as one.
    pub const fn tpi(threads: u32) -> Self {
        Self::Inch { inches: 1, threads: if threads == 0 { 1 } else { threads } }
    }

    /// The unit it is given in.
    pub const fn unit(self) -> Unit {
        match self {
            Self::Inch { .. } => Unit::Inch,
            Self::Metric(_) => Unit::Millimetre,
        }
    }

    /// Exactly, in picometres: numerator and denominator.
    pub const fn exact(self) -> (i128, i128) {
        match self {
            Self::Inch { inches, threads } => (Length::PER_INCH.pm() as i128 * inches as i128, threads as i128),
            Self::Metric(l) => (l.pm() as i128, 1),
        }
    }

    /// In `unit`, for formulas.
    pub fn to_f64(self, unit: Unit) -> f64 {
        let (n, d) = self.exact();
        n as f64 / d as f64 / unit.one().pm() as f64
    }

    /// To the nearest picometre.
    pub fn nearest(self) -> Length {
        let (n, d) = self.exact();
        Length::from_pm(i64::try_from((2 * n + d) / (2 * d)).unwrap_or(i64::MAX))
    }

    /// `num / den` times as long, rounded up to the next picometre: room that something of this pitch needs.
    pub fn times_up(self, num: u32, den: u32) -> Length {
        let (n, d) = self.exact();
        let (n, d) = (n * i128::from(num), d * i128::from(den.max(1)));
        Length::from_pm(i64::try_from((n + d - 1) / d).unwrap_or(i64::MAX))
    }

    /// `n` times it: the lead of `n` starts.
    #[must_use]
    pub fn times(self, n: u32) -> Self {
        match self {
            Self::Inch { inches, threads } => {
                Self::inch(inches.saturating_mul(n.max(1)), threads).unwrap_or(Self::Inch { inches, threads })
            }
            Self::Metric(l) => Self::Metric(l.times(i64::from(n.max(1)))),
        }
    }

    /// Threads per inch as numerator and denominator, for an inch pitch.
    pub const fn threads_per_inch(self) -> Option<(u32, u32)> {
        match self {
            Self::Inch { inches, threads } => Some((threads, inches)),
            Self::Metric(_) => None,
        }
    }

    /// How often `self` goes into `lead`, if a whole number.
    pub fn starts_in(self, lead: Self) -> Option<u8> {
        let ((pn, pd), (ln, ld)) = (self.exact(), lead.exact());
        let (top, bottom) = (ln * pd, ld * pn);
        if bottom <= 0 || top % bottom != 0 {
            return None;
        }
        u8::try_from(top / bottom).ok().filter(|n| *n > 0)
    }

    /// As written in a designation: `11`, `4.5` (threads per inch), `1.5` (mm).
    pub fn show(self) -> String {
        match self {
            Self::Inch { inches, threads } if threads % inches == 0 => (threads / inches).to_string(),
            Self::Inch { inches, threads } => {
                let micro = (u64::from(threads) * 1_000_000 + u64::from(inches) / 2) / u64::from(inches);
                trimmed(&format!("{}.{:06}", micro / 1_000_000, micro % 1_000_000))
            }
            Self::Metric(l) => trimmed(&show::plain(l, Unit::Millimetre, 6)),
        }
    }

    /// An inch pitch or lead as a decimal of an inch: `0.2`; `None` when it does not come out in six places.
    pub fn decimal_inch(self) -> Option<String> {
        let Self::Inch { inches, threads } = self else { return None };
        let scaled = u64::from(inches) * 1_000_000;
        let t = u64::from(threads);
        (scaled % t == 0).then(|| trimmed(&format!("{}.{:06}", scaled / t / 1_000_000, scaled / t % 1_000_000)))
    }
}

fn trimmed(text: &str) -> String {
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text.to_owned() }
}

impl PartialOrd for Pitch {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Pitch {
    fn cmp(&self, other: &Self) -> Ordering {
        let ((an, ad), (bn, bd)) = (self.exact(), other.exact());
        (an * bd).cmp(&(bn * ad)).then_with(|| (self.unit() as u8).cmp(&(other.unit() as u8)))
    }
}
