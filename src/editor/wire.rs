//! Messages on standard input and output: a header that says how long, then JSON (Language Server Protocol 3.17, "Base Protocol").
//! What is no message is told, and reading goes on behind it.

use std::io::{self, BufRead, Write};

use lsp_server::Message;
use serde_json::{Value, json};

/// Bytes of the longest message; a description is at most 2 MB.
const MOST: usize = 64 << 20;

/// Bytes of the longest line in a header.
const LONGEST_LINE: u64 = 4096;

/// One step of reading.
pub(super) enum Read {
    /// A message.
    Message(Message),
    /// Something else; the error code of JSON-RPC 2.0 and why.
    Malformed(i32, String),
    /// The end of the input.
    End,
}

/// Reads a message.
pub(super) fn read(from: &mut impl BufRead) -> io::Result<Read> {
    let mut length: Option<usize> = None;
    let mut wrong = None;
    loop {
        let mut line = Vec::new();
        if io::Read::take(&mut *from, LONGEST_LINE).read_until(b'\n', &mut line)? == 0 {
            return Ok(Read::End);
        }
        let line = String::from_utf8_lossy(&line);
        let line = line.trim_end_matches(['\r', '\n']);
        if line.is_empty() {
            break;
        }
        match line.split_once(':') {
            Some((name, value)) if name.eq_ignore_ascii_case("content-length") => match value.trim().parse() {
                Ok(n) if n <= MOST => length = Some(n),
                _ => wrong = Some(format!("a length that cannot be: {}", value.trim())),
            },
            Some(_) => {}
            None => wrong = Some("a header without a colon".to_owned()),
        }
    }
    if let Some(why) = wrong {
        return Ok(Read::Malformed(-32700, why));
    }
    let Some(length) = length else { return Ok(Read::Malformed(-32700, "a header without Content-Length".to_owned())) };
    let mut body = vec![0; length];
    if let Err(error) = io::Read::read_exact(from, &mut body) {
        return if error.kind() == io::ErrorKind::UnexpectedEof { Ok(Read::End) } else { Err(error) };
    }
    let value: Value = match serde_json::from_slice(&body) {
        Ok(value) => value,
        Err(error) => return Ok(Read::Malformed(-32700, format!("no JSON: {error}"))),
    };
    Ok(match serde_json::from_value(value) {
        Ok(message) => Read::Message(message),
        Err(_) => Read::Malformed(-32600, "JSON, and no request, response or notification".to_owned()),
    })
}

/// Writes a message.
pub(super) fn write(to: &mut impl Write, message: &Message) -> io::Result<()> {
    let mut body = serde_json::to_value(message).map_err(io::Error::other)?;
    body["jsonrpc"] = json!("2.0");
    put(to, &body)
}

/// Writes an answer to something that was no message: its id is not known.
pub(super) fn write_malformed(to: &mut impl Write, code: i32, why: &str) -> io::Result<()> {
    put(to, &json!({"jsonrpc": "2.0", "id": null, "error": {"code": code, "message": why}}))
}

fn put(to: &mut impl Write, body: &Value) -> io::Result<()> {
    let body = body.to_string();
    write!(to, "Content-Length: {}\r\n\r\n{body}", body.len())?;
    to.flush()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_message_does_not_hide_the_next() {
        let good = r#"{"jsonrpc":"2.0","method":"exit"}"#;
        let text = format!(
            "Content-Length: 99999999999999999\r\n\r\nContent-Length: 5\r\n\r\n{{\"a\":Content-Length: {}\r\n\r\n{good}",
            good.len()
        );
        let mut from = text.as_bytes();
        assert!(matches!(read(&mut from), Ok(Read::Malformed(-32700, _))));
        assert!(matches!(read(&mut from), Ok(Read::Malformed(-32700, _))));
        assert!(matches!(read(&mut from), Ok(Read::Message(Message::Notification(n))) if n.method == "exit"));
        assert!(matches!(read(&mut from), Ok(Read::End)));
    }
}
