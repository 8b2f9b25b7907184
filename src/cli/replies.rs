//! The replies of a run, written one by one: text as it is, JSON as one object or a growing array, JSON a line each.

use std::io::Write;

use serde_json::Value;

use super::args::BatchFormat;
use super::run::tell_unwritten;

/// Where the results of a run go.
pub(super) struct Replies {
    format: BatchFormat,
    many: bool,
    written: usize,
    broken: bool,
}

impl Replies {
    /// For one part or many.
    pub(super) const fn new(format: BatchFormat, many: bool) -> Self {
        Self { format, many, written: 0, broken: false }
    }

    /// Writes text as it is; false once nobody reads any more.
    pub(super) fn text(&mut self, text: &str) -> bool {
        let mut out = std::io::stdout().lock();
        if !self.broken
            && let Err(why) = out.write_all(text.as_bytes()).and_then(|()| out.flush())
        {
            self.broken = true;
            tell_unwritten(&why);
        }
        !self.broken
    }

    /// Writes one reply; false once nobody reads any more.
    pub(super) fn json(&mut self, reply: &Value) -> bool {
        let text = match (self.format, self.many) {
            (BatchFormat::Jsonl, _) => format!("{reply}\n"),
            (_, false) => pretty(reply) + "\n",
            (_, true) => {
                let before = if self.written == 0 { "[\n  " } else { ",\n  " };
                // A string in JSON has no line end of its own, so every line here is one of the layout.
                before.to_owned() + &pretty(reply).replace('\n', "\n  ")
            }
        };
        self.written += 1;
        self.text(&text)
    }

    /// Closes what is open; the exit code so far, or 2 when the results could not be written.
    pub(super) fn end(mut self, code: u8) -> u8 {
        if self.format == BatchFormat::Json {
            let end = match (self.many, self.written) {
                (_, 0) => "[]\n",
                (true, _) => "\n]\n",
                (false, _) => "",
            };
            self.text(end);
        }
        if self.broken { code.max(2) } else { code }
    }
}

fn pretty(reply: &Value) -> String {
    serde_json::to_string_pretty(reply).unwrap_or_else(|e| format!("{{\"error\": \"{e}\"}}"))
}
