//! Text that breaks the rules of the file format: which rule, in the person's words, and reading on without the entry it is in.

use super::keys;
use super::limits;
use super::places::{self, Broken, Bytes};
use super::reader::clipped;
use super::text::Decoded;
use super::tree::Node;
use super::yaml::{self, Disagreement};
use crate::finding::{FileId, Place};
use crate::model::slip::{Fault, Slip, Unreadable};

/// Entries that are left out before reading is given up, in a file of usual size and in a huge one.
const MOST_BREAKS: [usize; 2] = [24, 3];

/// Bytes of a file of usual size.
const USUAL_SIZE: usize = 256 << 10;

/// Reads the tree of a decoded file; what breaks the rules is told and left out.
pub(super) fn tree(file: FileId, decoded: &mut Decoded) -> Option<Node> {
    let text = decoded.source.text.as_str();
    let mut lines: Vec<String> = decoded.clean.as_deref()?.split('\n').map(str::to_owned).collect();
    for _ in 0..MOST_BREAKS[usize::from(text.len() > USUAL_SIZE)] {
        let clean = lines.join("\n");
        let mut seen = places::look(file, text, &clean);
        if let Some(broken) = &seen.broken {
            let already = decoded.slips.iter().any(|s| matches!(s.fault, Fault::Unreadable(Unreadable::Tab)));
            let page = Page { file, text, lines: &lines };
            let (slip, range) = page.name(broken);
            if !already {
                decoded.slips.push(slip);
            }
            if already || !blank(&mut lines, range) {
                return None;
            }
            continue;
        }
        if seen.tree.is_none() && seen.slips.is_empty() && decoded.slips.is_empty() {
            seen.slips.push(slip(Place::new(file, 0, 1.min(text.len())), Unreadable::Empty, None));
        }
        decoded.slips.append(&mut seen.slips);
        let mut tree = seen.tree?;
        for difference in yaml::fill(&clean, &mut tree) {
            decoded.slips.push(disagreement(file, text, difference));
        }
        decoded.slips.extend(limits::keep(file, &mut tree));
        return Some(tree);
    }
    None
}

fn slip(place: Place, why: Unreadable, entry: Option<Place>) -> Slip {
    Slip { place, fault: Fault::Unreadable(why), entry }
}

fn disagreement(file: FileId, text: &str, difference: Disagreement) -> Slip {
    match difference {
        Disagreement::Value { place, events, serde } => {
            slip(place, Unreadable::ReadersDisagree { one: clipped(&events), other: clipped(&serde) }, None)
        }
        Disagreement::Stop { at, said } => {
            let (line, column) = at.unwrap_or((1, 1));
            let start: usize = text.split_inclusive('\n').take(line.saturating_sub(1)).map(str::len).sum();
            let at = start + Bytes::of(&text[start..]).at(column.saturating_sub(1));
            slip(Place::new(file, at, (at + 1).min(text.len())), Unreadable::Syntax { said }, None)
        }
    }
}

/// Replaces lines by spaces, so that all other characters keep their places; false when nothing was there.
fn blank(lines: &mut [String], range: std::ops::Range<usize>) -> bool {
    let mut any = false;
    for line in lines.iter_mut().take(range.end).skip(range.start) {
        any |= !line.trim().is_empty();
        *line = line.chars().map(|c| if c == '\r' { c } else { ' ' }).collect();
    }
    any
}

/// The lines of a file, while one of them is found out.
struct Page<'a> {
    file: FileId,
    text: &'a str,
    lines: &'a [String],
}

impl Page<'_> {
    /// The slip for a break, and the lines of the entry it spoils.
    fn name(&self, broken: &Broken) -> (Slip, std::ops::Range<usize>) {
        let (line, columns, why) = self.diagnose(broken);
        let range = self.entry(line);
        let entry = Place::new(self.file, self.byte(range.start, 0), self.byte(range.end, 0));
        let place = Place::new(self.file, self.byte(line, columns.start), self.byte(line, columns.end));
        (slip(place, why, Some(entry)), range)
    }

    fn line(&self, n: usize) -> &str {
        self.lines.get(n).map_or("", |l| l.trim_end())
    }

    /// Byte of the text at a byte of a line of the clean copy; the two have the same characters.
    fn byte(&self, line: usize, at: usize) -> usize {
        let start: usize = self.text.split_inclusive('\n').take(line).map(str::len).sum();
        let characters = self.lines.get(line).map_or(0, |l| l.get(..at).map_or(0, |s| s.chars().count()));
        (start + Bytes::of(self.text.get(start..).unwrap_or_default()).at(characters)).min(self.text.len())
    }

    /// Line, bytes in it, and the rule it breaks.
    fn diagnose(&self, broken: &Broken) -> (usize, std::ops::Range<usize>, Unreadable) {
        let at_line = broken.line.min(self.lines.len().saturating_sub(1));
        let said = broken.said.as_str();
        let near = self.nearest_line(at_line);
        if let Some((n, columns, rest)) = [Some(near), self.line_above(near)].into_iter().flatten().find_map(|n| {
            let columns = content(self.line(n));
            let rest = self.line(n)[columns.clone()].strip_prefix('-')?;
            let key = rest.split(':').next().filter(|k| keys::known_anywhere(k) && !k.starts_with(' '))?;
            (rest.len() > key.len()).then(|| (n, columns, clipped(rest)))
        }) {
            return (n, columns, Unreadable::NoSpaceAfterDash { rest });
        }
        if let Some(found) = self.unclosed(at_line, said) {
            return found;
        }
        if said.contains("mapping values") || said.contains("simple key") {
            for n in [Some(near), self.line_above(near)].into_iter().flatten() {
                if let Some((columns, why)) = glued(self.line(n)) {
                    return (n, columns, why);
                }
            }
            if let Some((columns, why)) = colon_in_value(self.line(near)) {
                return (near, columns, why);
            }
            let above = self.line_above(near).unwrap_or(near);
            for n in [near, above] {
                if !self.line(n).contains(':') {
                    return (n, content(self.line(n)), Unreadable::NoColon { text: clipped(self.line(n).trim()) });
                }
            }
            return (near, content(self.line(near)), Unreadable::Indent);
        }
        let structure = said.contains("block") && !said.contains("block scalar");
        if said.contains("did not find expected") && (structure || said.contains("document start")) {
            return (near, content(self.line(near)), Unreadable::Indent);
        }
        let column = self.column_of(broken.byte, near);
        if let Some(sign) = self.line(near).get(column..).and_then(|s| s.chars().next())
            && (sign.is_ascii_punctuation() && sign != '#')
        {
            return (near, column..column + 1, Unreadable::StartsWith { sign });
        }
        (near, content(self.line(near)), Unreadable::Syntax { said: said.to_owned() })
    }

    /// The line itself, or the next above it that is not blank.
    fn nearest_line(&self, n: usize) -> usize {
        if self.line(n).trim().is_empty() { self.line_above(n).unwrap_or(n) } else { n }
    }

    fn line_above(&self, n: usize) -> Option<usize> {
        (0..n).rev().find(|k| {
            let line = self.line(*k).trim();
            !line.is_empty() && !line.starts_with('#')
        })
    }

    /// Byte column of a byte of the text in a line.
    fn column_of(&self, byte: usize, line: usize) -> usize {
        let start: usize = self.text.split_inclusive('\n').take(line).map(str::len).sum();
        let characters = self.text.get(start..byte).map_or(0, |s| s.chars().count());
        Bytes::of(self.line(line)).at(characters)
    }

    /// A bracket or quote that is not closed on its line.
    fn unclosed(&self, at_line: usize, said: &str) -> Option<(usize, std::ops::Range<usize>, Unreadable)> {
        let flow = said.contains("flow") || said.contains("illegal placement") || said.contains("bracket");
        let (wanted, lines): (&[char], usize) = match (said.contains("quoted scalar"), flow) {
            (true, _) => (&['"', '\''], 12),
            (false, true) => (&['{', '['], 12),
            (false, false) => (&['{', '['], 3),
        };
        for n in (0..=at_line).rev().take(lines) {
            let Some((column, sign)) = open_at_end(self.line(n)) else { continue };
            if !wanted.contains(&sign) {
                return None;
            }
            if let Some((columns, fault)) = comment_in_brackets(&self.line(n)[column..]) {
                return Some((n, columns.start + column..columns.end + column, fault));
            }
            return Some((n, column..column + 1, Unreadable::NotClosed { sign }));
        }
        None
    }

    /// The lines of the list entry or header key that line `n` belongs to.
    fn entry(&self, n: usize) -> std::ops::Range<usize> {
        let indent = |k: usize| self.line(k).len() - self.line(k).trim_start().len();
        let blank = |k: usize| self.line(k).trim().is_empty();
        let mut start = n;
        if !self.line(n).trim_start().starts_with("- ") {
            for k in (0..n).rev().filter(|k| !blank(*k)) {
                if indent(k) < indent(n) {
                    if self.line(k).trim_start().starts_with("- ") {
                        start = k;
                    }
                    break;
                }
            }
        }
        let end = (start + 1..self.lines.len()).find(|k| *k > n && !blank(*k) && indent(*k) <= indent(start));
        start..end.unwrap_or(self.lines.len())
    }
}

/// The line without its indentation and comment.
fn content(line: &str) -> std::ops::Range<usize> {
    let start = line.len() - line.trim_start().len();
    let end = line.find(" #").map_or(line.len(), |c| line[..c].trim_end().len());
    start..end.max(start)
}

/// `turn:1.060`: a known key with its value glued on.
pub(super) fn glued(line: &str) -> Option<(std::ops::Range<usize>, Unreadable)> {
    let start = line.len() - line.trim_start_matches([' ', '-', '{', ',']).len();
    let colon = start + line.get(start..)?.find(':')?;
    let (key, value) = (line[start..colon].trim(), &line[colon + 1..]);
    let value = value.split(" #").next().unwrap_or_default().trim_end();
    let plain = !value.is_empty() && !value.starts_with(' ');
    (plain && keys::known_anywhere(key)).then(|| {
        (start..colon + 1 + value.len(), Unreadable::NoSpaceAfterColon { key: key.into(), value: clipped(value) })
    })
}

/// `part: stud: short`.
fn colon_in_value(line: &str) -> Option<(std::ops::Range<usize>, Unreadable)> {
    let first = line.find(": ")? + 2;
    let value = first + (line[first..].len() - line[first..].trim_start().len());
    let rest = line[value..].split(" #").next().unwrap_or_default().trim_end();
    (rest.contains(": ") || rest.ends_with(':'))
        .then(|| (value..value + rest.len(), Unreadable::ColonInValue { value: clipped(rest) }))
}

/// A comment that swallowed the end of a value inside brackets: `{size: #7}`.
fn comment_in_brackets(rest: &str) -> Option<(std::ops::Range<usize>, Unreadable)> {
    let at = rest.find(" #")? + 1;
    let comment = &rest[at..];
    comment[1..]
        .starts_with(|c: char| c.is_ascii_digit())
        .then(|| (at..rest.len(), Unreadable::CommentInBrackets { comment: clipped(comment) }))
}

/// The last bracket or quote that a line opens and does not close, outside comments.
fn open_at_end(line: &str) -> Option<(usize, char)> {
    let mut open: Vec<(usize, char)> = Vec::new();
    let mut before = ' ';
    for (i, c) in line.char_indices() {
        let quote = open.last().filter(|(_, q)| *q == '"' || *q == '\'').map(|(_, q)| *q);
        match (quote, c) {
            (Some(q), c) if q == c => {
                open.pop();
            }
            (None, '#') if before == ' ' => break,
            (None, '"' | '\'') if matches!(before, ' ' | '[' | '{' | ',' | ':') => open.push((i, c)),
            (None, '{' | '[') => open.push((i, c)),
            (None, '}' | ']') => {
                open.pop();
            }
            _ => {}
        }
        before = c;
    }
    open.first().copied()
}
