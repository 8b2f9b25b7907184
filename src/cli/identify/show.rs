//! What `identify` found, for people.

use std::fmt::Write;

use super::Answer;
use crate::handbook::identify::{BearingFound, Found, KeyFound, RoundFound};
use crate::unit::{Length, Unit, show};

/// The whole answer.
pub(super) fn text(a: &Answer, width: usize) -> String {
    let mut out = String::new();
    let mut p = Page { out: &mut out, width, unit: a.unit };
    if let Some(found) = &a.thread {
        p.thread(found);
    }
    if let Some(found) = &a.keys {
        p.keys(found);
    }
    if let Some(found) = &a.bearings {
        p.bearings(found);
    }
    for (read, found) in &a.seats {
        p.seat(*read, found);
    }
    for marks in &a.unknown {
        p.head(&format!("Ring marked {marks}"));
        p.line(2, "these marks tell no size here: read bore, outside diameter and width");
    }
    out
}

struct Page<'a> {
    out: &'a mut String,
    width: usize,
    unit: Unit,
}

/// A share of the belief in per cent.
fn percent(score: f64) -> String {
    if score > 0.995 { ">99 %".to_owned() } else { format!("{:.0} %", (score * 100.0).max(1.0)) }
}

impl Page<'_> {
    fn head(&mut self, text: &str) {
        let gap = if self.out.is_empty() { "" } else { "\n" };
        let _ = writeln!(self.out, "{gap}{text}");
    }

    /// A line, broken at the width of the screen.
    fn line(&mut self, indent: usize, text: &str) {
        let mut line = " ".repeat(indent);
        let mut empty = true;
        for word in text.split(' ') {
            if !empty && line.chars().count() + 1 + word.chars().count() > self.width {
                let _ = writeln!(self.out, "{line}");
                line = " ".repeat(indent + 2);
                empty = true;
            }
            if !empty {
                line.push(' ');
            }
            line.push_str(word);
            empty = false;
        }
        let _ = writeln!(self.out, "{line}");
    }

    fn thread(&mut self, found: &Found) {
        self.head("Thread");
        if let Some(doubt) = &found.doubt {
            self.line(2, &format!("DOUBTFUL: {doubt}"));
        }
        for (i, r) in found.ranked.iter().enumerate() {
            let starts = if r.starts > 1 { format!(", {} starts", r.starts) } else { String::new() };
            self.line(2, &format!("{}. {}{starts}  ({})", i + 1, r.candidate.name, percent(r.score)));
            // The first three in full, the rest by name with how to tell them.
            if i < 3 {
                for why in &r.why {
                    self.line(5, why);
                }
            }
            for tell in &r.tells {
                self.line(5, &format!("to tell: {tell}"));
            }
            if i < 3 {
                for restore in &r.restore {
                    self.line(5, restore);
                }
            }
        }
        for note in &found.notes {
            self.line(2, &format!("note: {note}"));
        }
    }

    fn keys(&mut self, found: &[KeyFound]) {
        self.head("Key");
        if found.is_empty() {
            self.line(2, "no standard key is near");
        }
        for (i, k) in found.iter().enumerate() {
            self.line(2, &format!("{}. {}  ({}): {}", i + 1, k.name, percent(k.score), k.why.join("; ")));
        }
        if let [first, second, ..] = found {
            let by = if first.width == second.width { "height or arc" } else { "width at the bottom of the seat" };
            let note = format!(
                "to tell: {by} of {} from {}; its sides are worn, the bottom is not; the mate's keyway decides",
                first.name, second.name
            );
            self.line(2, &note);
        }
    }

    fn bearings(&mut self, found: &[BearingFound]) {
        self.head("Bearing");
        if found.is_empty() {
            self.line(
                2,
                "no deep-groove ball bearing of series 60, 62 or 63 is near; other kinds are not in this table",
            );
        }
        for (i, b) in found.iter().enumerate() {
            self.line(2, &format!("{}. {}  ({}): {}", i + 1, b.number, percent(b.score), b.why));
            for (class, limits, words) in &b.seats {
                let of = |l: Length| show::length(l, self.unit, if self.unit == Unit::Inch { 4 } else { 3 });
                let line =
                    format!("seat {class}, {} to {} {}: {words}", of(limits.min), of(limits.max), self.unit.word());
                self.line(5, &line);
            }
        }
    }

    fn seat(&mut self, read: Length, found: &[RoundFound]) {
        self.head(&format!("Seat read {} {}", show::exact(read, self.unit, 3, 5), self.unit.word()));
        if found.is_empty() {
            self.line(2, "no whole millimetre or fraction of an inch is near: a special, or worn more than is usual");
        }
        for (i, s) in found.iter().enumerate() {
            self.line(2, &format!("{}. {} {}  ({}): {}", i + 1, s.name, s.class, percent(s.score), s.why.join("; ")));
        }
    }
}
