//! The letters behind a thread's size and pitch: series, class, hand, starts.

use std::ops::Range;

use super::scan::Scan;
use super::{BadThread, BadThreadWhy, EngagementGroup, Family, Hand, TaperPipe, UnifiedSeries, WhitworthSeries};

#[derive(Debug, Default)]
pub(super) struct Words {
    pub(super) family: Option<Family>,
    pub(super) family_at: Option<Range<usize>>,
    pub(super) class: Option<(String, Range<usize>)>,
    pub(super) hand: Option<Hand>,
    pub(super) starts: Option<u8>,
    pub(super) engagement: Option<(EngagementGroup, Range<usize>)>,
}

/// Reads everything that is left of a designation.
pub(super) fn tail(s: &mut Scan<'_>) -> Result<Words, BadThread> {
    let mut words = Words::default();
    loop {
        while s.peek().is_some_and(|c| c.is_whitespace() || "-\u{2013}\u{2212},()/".contains(c)) {
            s.take();
        }
        let start = s.at;
        match s.peek() {
            None => return Ok(words),
            Some(c) if c.is_ascii_digit() => class_or_starts(s, &mut words)?,
            Some(c) if c.is_alphabetic() => word(s, &mut words)?,
            Some(c) => return Err(BadThread { at: start..start + c.len_utf8(), why: BadThreadWhy::Character }),
        }
    }
}

/// `2A`, `6g`, `4g6g`, `2 starts`.
fn class_or_starts(s: &mut Scan<'_>, words: &mut Words) -> Result<(), BadThread> {
    let start = s.at;
    while s.peek().is_some_and(char::is_alphanumeric) {
        s.take();
    }
    let token = &s.text[start..s.at];
    let twice = |at: Range<usize>| BadThread { at, why: BadThreadWhy::Twice };
    if token.chars().all(|c| c.is_ascii_digit()) {
        let behind = s.at;
        s.spaces();
        if s.peek() == Some('-') {
            s.take();
        }
        let next = s.word().to_ascii_uppercase();
        if matches!(next.as_str(), "START" | "STARTS") {
            let n: u8 = token.parse().unwrap_or(0);
            if !(1..=12).contains(&n) {
                return Err(BadThread { at: start..behind, why: BadThreadWhy::Lead });
            }
            return if words.starts.replace(n).is_some() { Err(twice(start..s.at)) } else { Ok(()) };
        }
        s.at = behind;
    }
    if words.class.replace((token.to_owned(), start..s.at)).is_some() {
        return Err(twice(start..s.at));
    }
    Ok(())
}

fn word(s: &mut Scan<'_>, words: &mut Words) -> Result<(), BadThread> {
    let start = s.at;
    let mut upper = s.word().to_ascii_uppercase();
    while upper.len() == 1 && s.peek() == Some('.') {
        // L.H. and R.H.
        s.take();
        upper.push_str(&s.word().to_ascii_uppercase());
        if s.peek() == Some('.') {
            s.take();
        }
    }
    let at = start..s.at;
    let unified = |series, rounded_root| Family::UnifiedInch { series, rounded_root };
    let family = match upper.as_str() {
        "UNC" => unified(UnifiedSeries::Unc, false),
        "UNF" => unified(UnifiedSeries::Unf, false),
        "UNEF" => unified(UnifiedSeries::Unef, false),
        "UN" => unified(UnifiedSeries::Un, false),
        "UNS" => unified(UnifiedSeries::Uns, false),
        "UNRC" => unified(UnifiedSeries::Unc, true),
        "UNRF" => unified(UnifiedSeries::Unf, true),
        "UNREF" => unified(UnifiedSeries::Unef, true),
        "UNR" => unified(UnifiedSeries::Un, true),
        "UNRS" => unified(UnifiedSeries::Uns, true),
        "ACME" => Family::Acme { stub: words.family == Some(Family::Acme { stub: true }) },
        "STUB" => Family::Acme { stub: true },
        "BSW" => Family::Whitworth { series: WhitworthSeries::Bsw },
        "BSF" => Family::Whitworth { series: WhitworthSeries::Bsf },
        "BSP" | "BSPP" => Family::PipeParallel,
        "BSPT" => Family::PipeTaperR { kind: TaperPipe::R },
        "NPT" => Family::PipeTaperNpt,
        "SQ" | "SQUARE" => Family::Square,
        "BUTT" | "BUTTRESS" => Family::Buttress { push: words.family == Some(Family::Buttress { push: true }) },
        "PUSH" => Family::Buttress { push: true },
        "NPTF" | "NPS" | "NPSM" | "NPSL" | "NPSF" | "NPTR" | "UNJ" | "UNJC" | "UNJF" | "UNM" | "NC" | "NF" | "NEF"
        | "BA" | "BSC" => return Err(BadThread { at, why: not_supported(&upper) }),
        _ => return other_word(s, words, &upper, at),
    };
    let stays = matches!(upper.as_str(), "ACME") && words.family == Some(Family::Acme { stub: true })
        || matches!(upper.as_str(), "BUTT" | "BUTTRESS") && words.family == Some(Family::Buttress { push: true });
    if words.family.is_some() && !stays {
        return Err(BadThread { at, why: BadThreadWhy::Twice });
    }
    words.family = Some(family);
    words.family_at = Some(at);
    Ok(())
}

/// Hand, class words, and what has no place.
fn other_word(s: &mut Scan<'_>, words: &mut Words, upper: &str, at: Range<usize>) -> Result<(), BadThread> {
    let hand = match upper {
        "LH" | "LEFT" => Some(Hand::Left),
        "RH" | "RIGHT" => Some(Hand::Right),
        _ => None,
    };
    if let Some(hand) = hand {
        let behind = s.at;
        s.sign(&['-']);
        if !s.word().eq_ignore_ascii_case("HAND") {
            s.at = behind;
        }
        return match words.hand.replace(hand) {
            Some(before) if before != hand => Err(BadThread { at, why: BadThreadWhy::Twice }),
            _ => Ok(()),
        };
    }
    let group = match upper {
        "S" => Some(EngagementGroup::Short),
        "N" => Some(EngagementGroup::Normal),
        "L" => Some(EngagementGroup::Long),
        _ => None,
    };
    if let Some(group) = group {
        return match words.engagement.replace((group, at.clone())) {
            Some((before, _)) if before != group => Err(BadThread { at, why: BadThreadWhy::Twice }),
            _ => Ok(()),
        };
    }
    match upper {
        "A" | "B" | "CLOSE" | "MEDIUM" | "FREE" | "NORMAL" => {
            if words.class.replace((upper.to_owned(), at.clone())).is_some() {
                return Err(BadThread { at, why: BadThreadWhy::Twice });
            }
            Ok(())
        }
        "FIT" | "THREAD" => Ok(()),
        _ => Err(BadThread { at, why: BadThreadWhy::Letters }),
    }
}

fn not_supported(upper: &str) -> BadThreadWhy {
    BadThreadWhy::NotSupported(match upper {
        "NPTF" => "NPTF",
        "NPS" | "NPSM" | "NPSL" | "NPSF" => "straight American pipe threads",
        "NPTR" => "NPTR",
        "UNJ" | "UNJC" | "UNJF" => "UNJ",
        "UNM" => "UNM",
        "BA" => "BA",
        "BSC" => "BSC",
        _ => "the American National form before 1949",
    })
}

/// The class as the standard writes it, if `family` has such classes at all.
pub(super) fn class_for(family: Family, class: &str) -> Option<String> {
    let upper = class.to_ascii_uppercase();
    let bytes = upper.as_bytes();
    let pair = |digits: &str, letters: &str| {
        bytes.len() == 2 && digits.as_bytes().contains(&bytes[0]) && letters.as_bytes().contains(&bytes[1])
    };
    match family {
        Family::UnifiedInch { .. } => pair("123", "AB").then_some(upper),
        Family::Acme { .. } => pair("23456", "GC").then_some(upper),
        Family::Buttress { .. } => (pair("123", "AB") || matches!(upper.as_str(), "2" | "3")).then_some(upper),
        Family::IsoMetric | Family::IsoTrapezoidal => metric_class(class).then(|| class.to_owned()),
        Family::PipeParallel => matches!(upper.as_str(), "A" | "B").then_some(upper),
        Family::Whitworth { .. } => {
            matches!(upper.as_str(), "CLOSE" | "MEDIUM" | "FREE" | "NORMAL").then(|| upper.to_ascii_lowercase())
        }
        Family::PipeTaperNpt | Family::PipeTaperR { .. } | Family::Square => None,
    }
}

/// One or two pairs of a digit 3 to 9 and a letter, all of one case: `6g`, `4g6g`, `5H6H`.
fn metric_class(class: &str) -> bool {
    let bytes = class.as_bytes();
    matches!(bytes.len(), 2 | 4)
        && bytes.chunks(2).all(|p| (b'3'..=b'9').contains(&p[0]) && b"cdefghCDEFGH".contains(&p[1]))
        && (bytes.iter().skip(1).step_by(2).all(u8::is_ascii_lowercase)
            || bytes.iter().skip(1).step_by(2).all(u8::is_ascii_uppercase))
}
