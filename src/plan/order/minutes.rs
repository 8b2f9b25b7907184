//! A time in minutes as an exact whole number of thousandths.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer, de, ser};

/// A duration in minutes, kept as whole thousandths of a minute so that sums and comparisons are exact.
///
/// JSON shows it as a plain number (`12.5`). Reading refuses what is negative, finer than a thousandth,
/// or more than [`Minutes::MOST`].
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Minutes(u64);

impl Minutes {
    /// No time at all.
    pub const ZERO: Self = Self(0);
    /// The largest single cost the search takes: a million minutes. Sums stay exact in JSON far beyond it.
    pub const MOST: Self = Self(1_000_000_000);

    /// `n` thousandths of a minute.
    pub const fn from_thousandths(n: u64) -> Self {
        Self(n)
    }

    /// `n` whole minutes; stops at the largest value instead of overflowing.
    pub const fn whole(n: u64) -> Self {
        Self(n.saturating_mul(1000))
    }

    /// The same time in thousandths of a minute.
    pub const fn thousandths(self) -> u64 {
        self.0
    }
}

impl fmt::Display for Minutes {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (whole, part) = (self.0 / 1000, self.0 % 1000);
        if part == 0 {
            return write!(f, "{whole}");
        }
        let digits = format!("{part:03}");
        write!(f, "{whole}.{}", digits.trim_end_matches('0'))
    }
}

/// The text is not a time in minutes: not a plain decimal, negative, or finer than a thousandth.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NotMinutes(pub String);

impl FromStr for Minutes {
    type Err = NotMinutes;

    fn from_str(text: &str) -> Result<Self, NotMinutes> {
        let refuse = || NotMinutes(text.to_owned());
        let (whole, part) = text.split_once('.').unwrap_or((text, ""));
        let all_digits = |s: &str| s.bytes().all(|b| b.is_ascii_digit());
        let part = part.trim_end_matches('0');
        if whole.is_empty() || part.len() > 3 || !all_digits(whole) || !all_digits(part) {
            return Err(refuse());
        }
        let whole: u64 = whole.parse().map_err(|_| refuse())?;
        let part: u64 = format!("{part:0<3}").parse().map_err(|_| refuse())?;
        whole.checked_mul(1000).and_then(|w| w.checked_add(part)).map(Self).ok_or_else(refuse)
    }
}

impl Serialize for Minutes {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let number: serde_json::Number = self.to_string().parse().map_err(ser::Error::custom)?;
        number.serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for Minutes {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let number = serde_json::Number::deserialize(deserializer)?;
        number
            .to_string()
            .parse()
            .map_err(|NotMinutes(text)| de::Error::custom(format!("{text} is not a time in minutes to a thousandth")))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_and_json_keep_the_thousandth() {
        for (text, thousandths, shown) in
            [("0", 0, "0"), ("12.5", 12_500, "12.5"), ("0.001", 1, "0.001"), ("64.0", 64_000, "64")]
        {
            let time: Minutes = text.parse().expect(text);
            assert_eq!(time.thousandths(), thousandths);
            assert_eq!(time.to_string(), shown);
            assert_eq!(serde_json::to_string(&time).expect("json"), shown);
            assert_eq!(serde_json::from_str::<Minutes>(text).expect("json"), time);
        }
        for bad in ["", "-1", "1.0005", "1e3", ".5", "one", "99999999999999999999"] {
            assert!(bad.parse::<Minutes>().is_err(), "{bad}");
        }
        assert!(serde_json::from_str::<Minutes>("-2").is_err());
        assert!(serde_json::from_str::<Minutes>("0.0001").is_err());
    }
}
