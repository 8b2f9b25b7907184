//! A cursor over the text of a thread designation, and the numbers in it.

use std::ops::Range;

use crate::unit::{Length, Unit};

use super::{BadThread, BadThreadWhy};

/// A ratio of whole numbers, as a decimal, fraction or mixed number was written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Ratio {
    pub(super) top: u32,
    pub(super) bottom: u32,
    /// Whether only digits were written.
    pub(super) whole: bool,
}

impl Ratio {
    /// The exact length in `unit`, when it is a whole number of picometres.
    pub(super) fn length(self, unit: Unit) -> Option<Length> {
        let pm = i128::from(unit.one().pm()) * i128::from(self.top);
        let bottom = i128::from(self.bottom);
        (pm % bottom == 0).then(|| pm / bottom).and_then(|pm| i64::try_from(pm).ok()).map(Length::from_pm)
    }

    pub(super) fn to_f64(self) -> f64 {
        f64::from(self.top) / f64::from(self.bottom)
    }
}

pub(super) struct Scan<'a> {
    pub(super) text: &'a str,
    pub(super) at: usize,
}

impl<'a> Scan<'a> {
    pub(super) const fn new(text: &'a str) -> Self {
        Self { text, at: 0 }
    }

    pub(super) fn rest(&self) -> &'a str {
        &self.text[self.at..]
    }

    pub(super) fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    pub(super) fn take(&mut self) {
        self.at += self.peek().map_or(0, char::len_utf8);
    }

    pub(super) fn spaces(&mut self) {
        while self.peek().is_some_and(char::is_whitespace) {
            self.take();
        }
    }

    /// Skips spaces and one of `signs`; whether one stood there. Without one nothing is skipped but spaces.
    pub(super) fn sign(&mut self, signs: &[char]) -> bool {
        self.spaces();
        let there = self.peek().is_some_and(|c| signs.contains(&c));
        if there {
            self.take();
            self.spaces();
        }
        there
    }

    /// The letters that stand here.
    pub(super) fn word(&mut self) -> &'a str {
        let from = self.at;
        while self.peek().is_some_and(char::is_alphabetic) {
            self.take();
        }
        &self.text[from..self.at]
    }

    fn digits(&mut self) -> &'a str {
        let from = self.at;
        while self.peek().is_some_and(|c| c.is_ascii_digit()) {
            self.take();
        }
        &self.text[from..self.at]
    }

    pub(super) fn digit_here(&self) -> bool {
        let mut chars = self.rest().chars();
        match chars.next() {
            Some(c) if c.is_ascii_digit() => true,
            Some('.') => chars.next().is_some_and(|c| c.is_ascii_digit()),
            _ => false,
        }
    }

    /// What stands here, to mark it.
    pub(super) fn here(&self) -> Range<usize> {
        let len = self.rest().find(char::is_whitespace).unwrap_or(self.rest().len());
        self.at..self.at + len
    }

    pub(super) fn bad(&self, why: BadThreadWhy) -> BadThread {
        BadThread { at: self.here(), why }
    }

    /// `5`, `4.5`, `7/16`, `1 1/8`, `1-1/8`.
    pub(super) fn number(&mut self) -> Result<Ratio, BadThread> {
        let start = self.at;
        let too_long = |s: &Self| BadThread { at: start..s.at, why: BadThreadWhy::Number };
        if !self.digit_here() {
            return Err(self.bad(if self.rest().is_empty() { BadThreadWhy::Missing } else { BadThreadWhy::Number }));
        }
        let whole = self.digits();
        let n: u32 = if whole.is_empty() { 0 } else { whole.parse().map_err(|_| too_long(self))? };
        if self.peek() == Some('.') {
            self.take();
            let places = self.digits().trim_end_matches('0');
            if places.len() > 7 || n > 400 {
                return Err(too_long(self));
            }
            let scale = 10_u32.pow(u32::try_from(places.len()).unwrap_or(7));
            let tail: u32 = if places.is_empty() { 0 } else { places.parse().map_err(|_| too_long(self))? };
            return Ok(Ratio { top: n * scale + tail, bottom: scale, whole: false });
        }
        if self.peek() == Some(',') && self.rest()[1..].starts_with(|c: char| c.is_ascii_digit()) {
            return Err(BadThread { at: self.at..self.at + 1, why: BadThreadWhy::Comma });
        }
        if self.peek() == Some('/') {
            return self.fraction(start, 0, n);
        }
        if n > 40_000 {
            return Err(too_long(self));
        }
        let after_whole = self.at;
        if matches!(self.peek(), Some(' ' | '-')) {
            self.take();
            self.spaces();
            if let Ok(top) = self.digits().parse::<u32>()
                && self.peek() == Some('/')
            {
                return self.fraction(start, n, top);
            }
        }
        self.at = after_whole;
        Ok(Ratio { top: n, bottom: 1, whole: true })
    }

    fn fraction(&mut self, start: usize, whole: u32, top: u32) -> Result<Ratio, BadThread> {
        self.take();
        let bottom: u32 = self.digits().parse().unwrap_or(0);
        if !(1..=1000).contains(&bottom) || top > 10_000 || whole > 10_000 {
            return Err(BadThread { at: start..self.at, why: BadThreadWhy::Number });
        }
        Ok(Ratio { top: whole * bottom + top, bottom, whole: false })
    }
}
