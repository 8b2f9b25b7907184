//! A logo: what kind of picture a file holds, and its shape. Only its head is read; the outputs show the rest.

use crate::model::shop::{Logo, NoLogo, PictureKind};

/// Largest logo file, in bytes: the sheet carries it in every copy.
pub const MOST_LOGO_BYTES: usize = 200_000;

/// Portable Network Graphics (W3C recommendation), 5.2: the signature.
const PNG: &[u8] = &[137, 80, 78, 71, 13, 10, 26, 10];

/// A logo from the bytes of its file.
///
/// # Errors
/// [`NoLogo`] says why it cannot be shown.
pub fn logo(bytes: &[u8]) -> Result<Logo, NoLogo> {
    if bytes.len() > MOST_LOGO_BYTES {
        return Err(NoLogo::TooLarge);
    }
    if bytes.starts_with(PNG) {
        let aspect = png_aspect(bytes).ok_or(NoLogo::Broken)?;
        return Ok(Logo { kind: PictureKind::Png, bytes: bytes.to_vec(), aspect });
    }
    let text = std::str::from_utf8(bytes).map_err(|_| NoLogo::Unknown)?;
    let tree = text.find("<svg").ok_or(NoLogo::Unknown)?;
    if !text.trim_end().ends_with("</svg>") {
        return Err(NoLogo::Broken);
    }
    let tag = text[tree..].split('>').next().unwrap_or_default();
    Ok(Logo { kind: PictureKind::Svg, bytes: bytes.to_vec(), aspect: svg_aspect(tag).ok_or(NoLogo::Broken)? })
}

/// The header chunk comes first and holds width and height (5.6, 11.2.1); a whole file ends with an empty `IEND` (11.2.4).
fn png_aspect(bytes: &[u8]) -> Option<f64> {
    let size = |at: usize| Some(u32::from_be_bytes(bytes.get(at..at + 4)?.try_into().ok()?));
    let whole = bytes.get(12..16) == Some(b"IHDR") && bytes.get(bytes.len().checked_sub(8)?..)?.starts_with(b"IEND");
    sensible(f64::from(size(16)?), f64::from(size(20)?)).filter(|_| whole)
}

/// By the view box, or by width and height in one unit.
fn svg_aspect(tag: &str) -> Option<f64> {
    let number = |text: &str| text.trim().trim_end_matches(|c: char| c.is_ascii_alphabetic() || c == '%').parse().ok();
    if let Some(view_box) = attribute(tag, "viewBox") {
        let sides: Vec<f64> = view_box.split([' ', ',']).filter(|s| !s.is_empty()).filter_map(number).collect();
        return sensible(*sides.get(2)?, *sides.get(3)?);
    }
    sensible(number(attribute(tag, "width")?)?, number(attribute(tag, "height")?)?)
}

fn attribute<'a>(tag: &'a str, name: &str) -> Option<&'a str> {
    tag.match_indices(name).find_map(|(at, _)| {
        let rest = tag[at + name.len()..].trim_start().strip_prefix('=')?.trim_start();
        let quote = rest.chars().next().filter(|q| matches!(q, '"' | '\''))?;
        let own = tag[..at].ends_with(|c: char| c.is_ascii_whitespace());
        own.then(|| rest[1..].split(quote).next()).flatten()
    })
}

fn sensible(width: f64, height: f64) -> Option<f64> {
    let aspect = width / height;
    (width > 0.0 && height > 0.0 && (0.05..=20.0).contains(&aspect)).then_some(aspect)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// One black dot, written by hand from the recommendation; the check sums are those of its annex D.
    const DOT: &[u8] =
        b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\0\x01\0\0\0\x01\x08\0\0\0\0\x3a\x7e\x9b\x55\0\0\0\0IEND\xae\x42\x60\x82";

    #[test]
    fn pictures_are_told_by_their_contents() {
        assert_eq!(logo(DOT).map(|l| (l.kind, l.aspect)), Ok((PictureKind::Png, 1.0)));
        assert_eq!(logo(&DOT[..40]), Err(NoLogo::Broken));
        let svg = |tag: &str| logo(format!("<?xml version='1.0'?><svg {tag}></svg>\n").as_bytes()).map(|l| l.aspect);
        assert_eq!(svg("viewBox='0 0 40 10'"), Ok(4.0));
        assert_eq!(svg("stroke-width=\"2\" width=\"30mm\" height=\"20mm\""), Ok(1.5));
        assert_eq!(svg("width='0' height='4'"), Err(NoLogo::Broken));
        assert_eq!(svg("height='4'"), Err(NoLogo::Broken));
        assert_eq!(logo(b"GIF89a"), Err(NoLogo::Unknown));
        assert_eq!(logo(&[0xff; 40]), Err(NoLogo::Unknown));
        assert_eq!(logo(&vec![b' '; MOST_LOGO_BYTES + 1]), Err(NoLogo::TooLarge));
    }
}
