//! Brackets, quotes and comments of a line, as far as an unfinished one has them.

use super::cursor::{Level, On};

/// What lies around a place inside brackets.
pub(super) struct Flow {
    /// Mappings in brackets, outermost first.
    pub levels: Vec<Level>,
    /// What is under the cursor; a value with an empty key stands in a list right under the key before the bracket.
    pub on: On,
}

/// A line without its comment.
pub(super) fn without_comment(line: &str) -> &str {
    let mut before = ' ';
    let mut quote = None;
    for (i, c) in line.char_indices() {
        match (quote, c) {
            (None, '"' | '\'') if !before.is_alphanumeric() => quote = Some(c),
            (Some(q), c) if c == q => quote = None,
            (None, '#') if before.is_whitespace() => return &line[..i],
            _ => {}
        }
        before = c;
    }
    line
}

/// The byte of the colon behind a key at the start of `body`.
pub(super) fn colon(body: &str) -> Option<usize> {
    if body.starts_with(['{', '[']) {
        return None;
    }
    let mut quote = None;
    let mut characters = body.char_indices().peekable();
    while let Some((i, c)) = characters.next() {
        match (quote, c) {
            (None, '"' | '\'') if i == 0 => quote = Some(c),
            (Some(q), c) if c == q => quote = None,
            (None, ':') if characters.peek().is_none_or(|(_, next)| next.is_whitespace()) => return Some(i),
            _ => {}
        }
    }
    None
}

/// Whether the bracket at `from` is still open at `at`.
pub(super) fn is_open(text: &str, from: usize, at: usize) -> bool {
    let mut depth = 0_usize;
    for (_, token) in tokens(&text[from..at.max(from)]) {
        match token {
            '{' | '[' => depth += 1,
            '}' | ']' => depth = depth.saturating_sub(1),
            _ => {}
        }
        if depth == 0 {
            return false;
        }
    }
    depth > 0
}

/// The signs of a piece of flow text that are neither quoted nor in a comment: brackets, commas, colons behind a key.
fn tokens(text: &str) -> Vec<(usize, char)> {
    let mut out = Vec::new();
    let mut quote = None;
    let mut comment = false;
    let mut before = ' ';
    let mut characters = text.char_indices().peekable();
    while let Some((i, c)) = characters.next() {
        match (quote, c) {
            _ if comment => comment = c != '\n',
            (None, '"' | '\'') if matches!(before, ' ' | '{' | '[' | ',' | ':' | '\n') => quote = Some(c),
            (Some(q), c) if c == q => quote = None,
            (None, '#') if before.is_whitespace() => comment = true,
            (None, '{' | '}' | '[' | ']' | ',') => out.push((i, c)),
            (None, ':') if characters.peek().is_none_or(|(_, n)| n.is_whitespace() || *n == ',' || *n == '}') => {
                out.push((i, c));
            }
            _ => {}
        }
        before = c;
    }
    out
}

/// An open bracket on the way to the cursor.
struct Frame {
    mapping: bool,
    keys: Vec<String>,
    key: Option<String>,
    from: usize,
}

/// Looks around byte `at` inside the bracket that opens at `open`.
pub(super) fn look(text: &str, open: usize, at: usize) -> Option<Flow> {
    let mut stack: Vec<Frame> = Vec::new();
    for (i, token) in tokens(&text[open..at]) {
        let i = open + i;
        match token {
            '{' | '[' => stack.push(Frame { mapping: token == '{', keys: Vec::new(), key: None, from: i + 1 }),
            '}' | ']' => {
                stack.pop();
            }
            ',' => {
                let frame = stack.last_mut()?;
                (frame.key, frame.from) = (None, i + 1);
            }
            _ => {
                let frame = stack.last_mut()?;
                let key = text[frame.from..i].trim().trim_matches(['"', '\'']).to_owned();
                frame.keys.push(key.clone());
                (frame.key, frame.from) = (Some(key), i + 1);
            }
        }
    }
    let top = stack.last()?;
    let (from, mapping) = (top.from, top.mapping);
    let rest = &text[at..];
    let end = at + rest.find([',', '}', ']', '\n', '\r']).unwrap_or(rest.len());
    let (on, mapping) = match (&top.key, mapping) {
        (Some(key), true) => (On::Value { key: key.clone(), range: trimmed(text, from, end, at) }, true),
        (_, true) => {
            let stop = colon(text[from..end].trim_start()).map(|c| end - text[from..end].trim_start().len() + c);
            (On::Key { range: trimmed(text, from, stop.unwrap_or(end), at), colon: stop.is_some() }, true)
        }
        (_, false) => (On::Value { key: String::new(), range: trimmed(text, from, end, at) }, false),
    };
    let mut levels = Vec::new();
    let mut under = None;
    for frame in &stack {
        if frame.mapping {
            levels.push(Level { under: under.take(), keys: frame.keys.clone() });
            under.clone_from(&frame.key);
        }
    }
    let on = match on {
        On::Value { key, range } if key.is_empty() && !mapping => {
            On::Value { key: under.clone().unwrap_or_default(), range }
        }
        other => other,
    };
    if let (Some(last), On::Key { .. }) = (levels.last_mut(), &on) {
        // Keys behind the cursor count too: they are there already.
        let close = rest.find(['}', '\n']).unwrap_or(rest.len());
        last.keys.extend(rest[..close].split(',').skip(1).filter_map(|p| Some(p.split_once(':')?.0.trim().to_owned())));
    }
    Some(Flow { levels, on })
}

/// Bytes from `from` to `end` without spaces around them; the cursor's own place where only spaces are there.
fn trimmed(text: &str, from: usize, end: usize, at: usize) -> std::ops::Range<usize> {
    let piece = &text[from..end.max(from)];
    if piece.trim().is_empty() {
        return at..at;
    }
    let lead = piece.len() - piece.trim_start().len();
    let start = from + lead;
    start..start + piece.trim().len()
}
