//! Paths as `file:` URIs and back (RFC 3986, RFC 8089).

use std::fmt::Write;
use std::path::{Path, PathBuf};

/// A path as a URI reference: what is no unreserved character is percent-encoded, `/` stays, `\` becomes `/` on Windows.
pub fn encoded(path: &str) -> String {
    let mut out = String::with_capacity(path.len());
    for byte in path.bytes() {
        match byte {
            b'A'..=b'Z' | b'a'..=b'z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' | b'/' => out.push(char::from(byte)),
            b'\\' if cfg!(windows) => out.push('/'),
            _ => {
                let _ = write!(out, "%{byte:02X}");
            }
        }
    }
    out
}

/// An absolute path as a `file:` URI; a relative one as a reference.
pub fn file_uri(path: &Path) -> String {
    let text = path.to_string_lossy();
    let text = encoded(&text);
    match (path.is_absolute(), text.starts_with('/')) {
        (true, true) => format!("file://{text}"),
        (true, false) => format!("file:///{}", text.replacen("%3A", ":", 1)),
        (false, _) => text,
    }
}

/// The path that a `file:` URI names; nothing for other URIs.
pub fn path_of(uri: &str) -> Option<PathBuf> {
    let rest = uri.strip_prefix("file://")?;
    let path = rest.strip_prefix("localhost").unwrap_or(rest);
    let path = decoded(path)?;
    // `/C:/part.yaml` names `C:/part.yaml`.
    let drive = path.as_bytes().get(2) == Some(&b':') && path.starts_with('/') && cfg!(windows);
    Some(PathBuf::from(if drive { &path[1..] } else { path.as_str() }))
}

fn decoded(text: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(text.len());
    let mut from = text.bytes();
    while let Some(byte) = from.next() {
        if byte == b'%' {
            let high = char::from(from.next()?).to_digit(16)?;
            let low = char::from(from.next()?).to_digit(16)?;
            bytes.push(u8::try_from(high * 16 + low).ok()?);
        } else {
            bytes.push(byte);
        }
    }
    String::from_utf8(bytes).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[cfg(unix)]
    #[test]
    fn there_and_back() {
        for path in ["/parts/stub.yaml", "/parts of 1926/ø 20 #2 (50%).yaml"] {
            let uri = file_uri(Path::new(path));
            assert!(uri.starts_with("file:///parts") && !uri.contains([' ', '#', 'ø']), "{uri}");
            assert_eq!(path_of(&uri).as_deref(), Some(Path::new(path)));
        }
        assert_eq!(encoded("a b/µ.yaml"), "a%20b/%C2%B5.yaml");
    }

    #[test]
    fn what_is_no_file_names_no_path() {
        assert_eq!(path_of("untitled:Untitled-1"), None);
        assert_eq!(path_of("file:///a%2"), None);
        assert_eq!(path_of("file:///a%FF"), None);
    }
}
