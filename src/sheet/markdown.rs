//! Markdown, for a terminal or a chat.

use tera::{Context, Tera};

use super::decimal;
use super::measure::FIGURE_SPACE;
use super::templates::{BadTemplate, Templates};
use super::view::View;

/// Renders the sheet. Names and notes are escaped: none of them can become markup.
///
/// # Errors
/// When the template does not fit the view.
pub fn markdown(view: &View) -> Result<String, BadTemplate> {
    markdown_with(view, &Templates::default())
}

/// The same with other templates.
///
/// # Errors
/// As [`markdown`].
pub fn markdown_with(view: &View, templates: &Templates) -> Result<String, BadTemplate> {
    let bad = |e: tera::Error| templates.bad("sheet.md", &e);
    let mut tera = Tera::default();
    tera.autoescape_on(vec![".md"]);
    tera.set_escape_fn(escaped);
    tera.add_raw_template("sheet.md", templates.markdown()).map_err(bad)?;
    let mut context = Context::new();
    context.insert("view", &decimal::shown(view));
    let text = tera.render("sheet.md", &context).map_err(bad)?;
    Ok(one_blank_line_at_most(&text))
}

/// `CommonMark` 0.31, section 2.4: a backslash before punctuation takes its meaning away.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 8);
    let list_mark = text.split_once(' ').map_or(text, |(first, _)| first);
    let number = list_mark.trim_end_matches(['.', ')']);
    let looks_like_a_list = matches!(list_mark, "-" | "+" | "=")
        || (number.len() < list_mark.len() && !number.is_empty() && number.chars().all(|c| c.is_ascii_digit()));
    for (i, c) in text.char_indices() {
        match c {
            FIGURE_SPACE => {}
            '\n' | '\r' => out.push(' '),
            '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '|' | '#' | '~' | '$' | '&' | '!' => {
                out.push('\\');
                out.push(c);
            }
            '-' | '+' | '=' | '.' | ')' if looks_like_a_list && i < list_mark.len() => {
                out.push('\\');
                out.push(c);
            }
            c => out.push(c),
        }
    }
    out
}

fn one_blank_line_at_most(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut blank = 0;
    for line in text.lines() {
        let hard_break = line.ends_with("  ") && !line.trim().is_empty();
        let line = line.trim_end();
        blank = if line.is_empty() { blank + 1 } else { 0 };
        if blank < 2 {
            out.push_str(line);
            out.push_str(if hard_break { "  \n" } else { "\n" });
        }
    }
    out.trim_start().to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_keeps_no_meaning_in_markdown() {
        assert_eq!(escaped("a*b_c|<i>#"), "a\\*b\\_c\\|\\<i\\>\\#");
        assert_eq!(escaped("1. one"), "1\\. one");
        assert_eq!(escaped("3.230 from datum"), "3.230 from datum");
        assert_eq!(escaped("- x"), "\\- x");
        let text = escaped("1) *x* <b>");
        let parsed: Vec<_> = pulldown_cmark::Parser::new(&text).collect();
        assert!(parsed.iter().all(|e| !matches!(e, pulldown_cmark::Event::Start(pulldown_cmark::Tag::List(_)))));
    }
}
