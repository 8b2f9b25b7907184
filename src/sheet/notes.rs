//! The description's notes: `CommonMark` as blocks, alike in every output. Raw HTML is text like any other.

use pulldown_cmark::{CodeBlockKind, Event, HeadingLevel, Parser, Tag, TagEnd};

use super::blocks;
use super::measure;
use super::view::{Block, NoteKind, Rich, Style};

/// Lines of one paragraph that stay together on a page.
const TOGETHER: usize = 24;
/// Width of the page's body without a list's indent.
const ROOM: f64 = 168.0;

/// Blocks of the notes.
pub fn blocks_of(markdown: &str) -> Vec<Block> {
    let mut reader = Reader::default();
    for event in Parser::new(markdown) {
        reader.take(event);
    }
    reader.flush();
    reader.out
}

#[derive(Default)]
struct Reader {
    out: Vec<Block>,
    lines: Vec<Rich>,
    current: Rich,
    /// Strong or emphasised, so deep.
    strong: usize,
    /// The next number of each list we are in; none for a list of points.
    lists: Vec<Option<u64>>,
    marker: String,
    quotes: usize,
    heading: u8,
    code: bool,
    /// Where the links we are in lead.
    links: Vec<String>,
}

impl Reader {
    fn take(&mut self, event: Event) {
        match event {
            Event::Start(tag) => self.start(tag),
            Event::End(tag) => self.end(tag),
            Event::Text(t) if self.code => self.code_lines(&t),
            Event::Text(t) | Event::Html(t) | Event::InlineHtml(t) | Event::FootnoteReference(t) => {
                self.text(&t, Style::Plain);
            }
            Event::Code(t) | Event::InlineMath(t) | Event::DisplayMath(t) => self.text(&t, Style::Code),
            Event::SoftBreak => self.text(" ", Style::Plain),
            Event::HardBreak => self.break_line(),
            Event::Rule => {
                self.flush();
                self.out.push(blocks::note(NoteKind::Rule, 0, "", vec![]));
            }
            Event::TaskListMarker(done) => self.text(if done { "[x] " } else { "[ ] " }, Style::Plain),
        }
    }

    fn start(&mut self, tag: Tag) {
        match tag {
            Tag::Paragraph | Tag::HtmlBlock => {}
            Tag::Heading { level, .. } => {
                self.flush();
                self.heading = depth(level);
            }
            Tag::BlockQuote(_) => {
                self.flush();
                self.quotes += 1;
            }
            Tag::CodeBlock(kind) => {
                self.flush();
                self.code = true;
                if let CodeBlockKind::Fenced(word) = kind
                    && !word.is_empty()
                {
                    self.text(&word, Style::Strong);
                    self.break_line();
                }
            }
            Tag::List(first) => {
                self.flush();
                self.lists.push(first);
            }
            Tag::Item => {
                self.flush();
                self.marker = match self.lists.last_mut() {
                    Some(Some(n)) => {
                        let marker = format!("{n}.");
                        *n = n.saturating_add(1);
                        marker
                    }
                    _ => "•".to_owned(),
                };
            }
            Tag::Strong | Tag::Emphasis => self.strong += 1,
            Tag::Link { dest_url, .. } | Tag::Image { dest_url, .. } => self.links.push(dest_url.into_string()),
            _ => self.flush(),
        }
    }

    fn end(&mut self, tag: TagEnd) {
        match tag {
            TagEnd::Strong | TagEnd::Emphasis => self.strong = self.strong.saturating_sub(1),
            TagEnd::Link | TagEnd::Image => {
                let to = self.links.pop().unwrap_or_default();
                // On paper a link is its address.
                if !to.is_empty() && !self.current.text().ends_with(&to) {
                    self.text(&format!(" ({to})"), Style::Plain);
                }
            }
            TagEnd::List(_) => {
                self.flush();
                self.lists.pop();
            }
            TagEnd::BlockQuote(_) => {
                self.flush();
                self.quotes = self.quotes.saturating_sub(1);
            }
            TagEnd::Heading(_) => {
                self.flush();
                self.heading = 0;
            }
            TagEnd::CodeBlock => {
                self.flush();
                self.code = false;
            }
            _ => self.flush(),
        }
    }

    fn text(&mut self, text: &str, style: Style) {
        let style = if style == Style::Plain && self.strong > 0 { Style::Strong } else { style };
        let text = measure::breakable(text.trim_end_matches('\n'));
        self.current = std::mem::take(&mut self.current).with(text, style);
    }

    fn code_lines(&mut self, text: &str) {
        for line in text.lines() {
            self.text(line, Style::Code);
            self.break_line();
        }
    }

    fn break_line(&mut self) {
        self.lines.push(std::mem::take(&mut self.current));
    }

    /// Ends the block that is being read.
    fn flush(&mut self) {
        if !self.current.is_empty() {
            self.break_line();
        }
        let lines = std::mem::take(&mut self.lines);
        if lines.iter().all(Rich::is_empty) {
            return;
        }
        let (kind, level) = match () {
            () if self.code => (NoteKind::Code, 0),
            () if self.heading > 0 => (NoteKind::Heading, self.heading),
            () if !self.lists.is_empty() => (NoteKind::Item, u8::try_from(self.lists.len()).unwrap_or(9).min(9)),
            () if self.quotes > 0 => (NoteKind::Quote, 0),
            () => (NoteKind::Paragraph, 0),
        };
        let mut marker = std::mem::take(&mut self.marker);
        let indent = if kind == NoteKind::Item { 6.0 * f64::from(level) } else { 0.0 };
        let pieces: Vec<Rich> =
            lines.into_iter().flat_map(|l| measure::chunks(&l, super::layout::BODY, ROOM - indent, TOGETHER)).collect();
        for group in pieces.chunks(TOGETHER) {
            let tall = group.iter().map(|l| measure::lines(l, super::layout::BODY, ROOM - indent)).sum::<usize>();
            if tall <= TOGETHER {
                self.out.push(blocks::note(kind, level, &std::mem::take(&mut marker), group.to_vec()));
            } else {
                for line in group {
                    self.out.push(blocks::note(kind, level, &std::mem::take(&mut marker), vec![line.clone()]));
                }
            }
        }
    }
}

const fn depth(level: HeadingLevel) -> u8 {
    level as u8
}

#[cfg(test)]
mod tests {
    use super::super::view::Body;
    use super::*;

    fn shown(markdown: &str) -> Vec<(NoteKind, u8, String, String)> {
        blocks_of(markdown)
            .into_iter()
            .filter_map(|b| match b.body {
                Body::Note { note, level, marker, lines } => {
                    Some((note, level, marker, lines.iter().map(Rich::text).collect::<Vec<_>>().join("|")))
                }
                _ => None,
            })
            .collect()
    }

    #[test]
    fn commonmark_becomes_blocks() {
        let out =
            shown("# Care\n\nTry *both* nuts  \nfirst.\n\n1. one\n2. two\n   - deep\n\n> said\n\n    code\n\n---\n");
        let row = |k, l, m: &str, t: &str| (k, l, m.to_owned(), t.to_owned());
        assert_eq!(
            out,
            vec![
                row(NoteKind::Heading, 1, "", "Care"),
                row(NoteKind::Paragraph, 0, "", "Try both nuts|first."),
                row(NoteKind::Item, 1, "1.", "one"),
                row(NoteKind::Item, 1, "2.", "two"),
                row(NoteKind::Item, 2, "•", "deep"),
                row(NoteKind::Quote, 0, "", "said"),
                row(NoteKind::Code, 0, "", "code"),
                row(NoteKind::Rule, 0, "", ""),
            ]
        );
    }

    #[test]
    fn raw_html_is_text_and_a_link_shows_its_address() {
        assert_eq!(
            shown("<b onclick=x>hi</b> [there](https://example.org)")[0].3,
            "<b onclick=x>hi</b> there (https://example.org)"
        );
        assert_eq!(shown("<script>\nalert(1)\n</script>")[0].3, "<script>alert(1)</script>");
    }

    #[test]
    fn an_endless_paragraph_is_cut_into_pieces_that_fit_a_page() {
        let out = blocks_of(&"word ".repeat(5000));
        assert!(out.len() > 5);
        assert!(out.iter().all(|b| b.height.0 < 240.0));
    }
}
