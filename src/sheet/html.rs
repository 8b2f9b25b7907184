//! One self-contained HTML file.

use sha2::{Digest, Sha256};
use tera::{Context, Tera};

use super::templates::{BadTemplate, Templates};
use super::view::View;
use super::{decimal, words};

/// Renders the sheet. The file asks for nothing outside itself and says so (`Content-Security-Policy`).
///
/// # Errors
/// When the template does not fit the view.
pub fn html(view: &View) -> Result<String, BadTemplate> {
    html_with(view, &Templates::default())
}

/// The same with other templates.
///
/// # Errors
/// As [`html`].
pub fn html_with(view: &View, templates: &Templates) -> Result<String, BadTemplate> {
    let bad = |e: tera::Error| templates.bad("sheet.html", &e);
    let mut tera = Tera::default();
    tera.add_raw_template("sheet.html", templates.html()).map_err(bad)?;
    let mut context = Context::new();
    context.insert("view", &decimal::shown(view));
    context.insert("css", templates.style());
    context.insert("script", templates.script());
    // Only this script may run, and only unchanged.
    context.insert("script_hash", &base64(&Sha256::digest(templates.script().as_bytes())));
    context.insert("clear", words::CLEAR.say());
    context.insert("regular", &base64(notosans::REGULAR_TTF));
    context.insert("bold", &base64(notosans::BOLD_TTF));
    tera.render("sheet.html", &context).map(|s| s.trim_start().to_owned()).map_err(bad)
}

/// RFC 4648, section 4.
pub(super) fn base64(bytes: &[u8]) -> String {
    const ALPHABET: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let mut out = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for chunk in bytes.chunks(3) {
        let n = chunk.iter().fold(0_u32, |n, b| n << 8 | u32::from(*b)) << (8 * (3 - chunk.len()));
        for i in 0..4 {
            if i <= chunk.len() {
                out.push(char::from(ALPHABET[(n >> (18 - 6 * i) & 63) as usize]));
            } else {
                out.push('=');
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::base64;

    #[test]
    fn base64_has_the_vectors_of_rfc_4648() {
        // RFC 4648, section 10.
        for (plain, coded) in
            [("", ""), ("f", "Zg=="), ("fo", "Zm8="), ("foo", "Zm9v"), ("foob", "Zm9vYg=="), ("foobar", "Zm9vYmFy")]
        {
            assert_eq!(base64(plain.as_bytes()), coded);
        }
    }
}
