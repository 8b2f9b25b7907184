//! The language server: one text after another, one request after another; findings are told when the typing pauses.

use std::collections::BTreeMap;
use std::io::{self, BufReader, Write};
use std::path::Path;
use std::sync::mpsc::{self, Receiver, RecvTimeoutError};
use std::time::{Duration, Instant};

use lsp_server::{ErrorCode, Message, Notification, Request, Response};
use serde_json::Value;

use super::session::{Session, capabilities};
use super::wire::{self, Read};

/// How long after the last key the findings are worked again.
const PAUSE: Duration = Duration::from_millis(120);

/// The longest that typing without a pause puts them off.
const LONGEST: Duration = Duration::from_millis(800);

/// Where the exchange with the editor stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Stage {
    New,
    Running,
    ShutDown,
}

/// Serves standard input and output until `exit`. The exit code is 0 after `shutdown`, else 1 (as the protocol has it).
///
/// # Errors
/// The output cannot be written.
pub fn serve() -> io::Result<u8> {
    let (send, receive) = mpsc::channel();
    std::thread::spawn(move || {
        let mut input = BufReader::new(io::stdin());
        loop {
            let read = wire::read(&mut input).unwrap_or(Read::End);
            let end = matches!(read, Read::End);
            if send.send(read).is_err() || end {
                break;
            }
        }
    });
    let mut server =
        Server { session: Session::default(), stage: Stage::New, waiting: BTreeMap::new(), out: io::stdout() };
    server.run(&receive)
}

/// When a text was first and last changed since its findings were told.
struct Changed {
    first: Instant,
    last: Instant,
}

impl Changed {
    fn due(&self) -> Instant {
        (self.last + PAUSE).min(self.first + LONGEST)
    }
}

struct Server<W> {
    session: Session,
    stage: Stage,
    waiting: BTreeMap<String, Changed>,
    out: W,
}

impl<W: Write> Server<W> {
    fn run(&mut self, receive: &Receiver<Read>) -> io::Result<u8> {
        loop {
            let next = match self.waiting.values().map(Changed::due).min() {
                None => receive.recv().map_err(|_| RecvTimeoutError::Disconnected),
                Some(due) => receive.recv_timeout(due.saturating_duration_since(Instant::now())),
            };
            match next {
                Ok(Read::Message(Message::Notification(n))) if n.method == "exit" => {
                    return Ok(u8::from(self.stage != Stage::ShutDown));
                }
                Ok(Read::Message(message)) => self.message(message)?,
                Ok(Read::Malformed(code, why)) => wire::write_malformed(&mut self.out, code, &why)?,
                // The editor is gone: nothing is lost, yet nobody said goodbye.
                Ok(Read::End) | Err(RecvTimeoutError::Disconnected) => return Ok(1),
                Err(RecvTimeoutError::Timeout) => self.tell_due()?,
            }
        }
    }

    fn message(&mut self, message: Message) -> io::Result<()> {
        match message {
            Message::Request(request) => {
                let response = self.request(request);
                wire::write(&mut self.out, &Message::Response(response))
            }
            Message::Notification(notification) if self.stage == Stage::Running => self.notification(notification),
            Message::Notification(_) | Message::Response(_) => Ok(()),
        }
    }

    fn request(&mut self, request: Request) -> Response {
        let refuse = |code: ErrorCode, why: &str| Response::new_err(request.id.clone(), code as i32, why.to_owned());
        match (self.stage, request.method.as_str()) {
            (Stage::New, "initialize") => {
                self.stage = Stage::Running;
                Response::new_ok(request.id, capabilities())
            }
            (Stage::New, _) => refuse(ErrorCode::ServerNotInitialized, "the first request is initialize"),
            (Stage::Running, "shutdown") => {
                self.stage = Stage::ShutDown;
                Response::new_ok(request.id, Value::Null)
            }
            (Stage::Running, "initialize") => refuse(ErrorCode::InvalidRequest, "initialized already"),
            (Stage::ShutDown, _) => refuse(ErrorCode::InvalidRequest, "shut down already"),
            (Stage::Running, method) => match self.session.answer(method, &request.params) {
                None => refuse(ErrorCode::MethodNotFound, &format!("no such request here: {method}")),
                Some(Ok(value)) => Response::new_ok(request.id, value),
                Some(Err(why)) => refuse(ErrorCode::InvalidParams, &why),
            },
        }
    }

    fn notification(&mut self, notification: Notification) -> io::Result<()> {
        let now = Instant::now();
        match self.session.heard(&notification.method, notification.params) {
            Some(touched) if touched.gone => {
                self.waiting.remove(&touched.uri);
                let empty = Session::nothing(&touched.uri);
                wire::write(&mut self.out, &Message::Notification(empty))
            }
            Some(touched) => {
                let changed = |uri: String, waiting: &mut BTreeMap<String, Changed>| {
                    waiting.entry(uri).or_insert(Changed { first: now, last: now }).last = now;
                };
                for other in self.session.users_of(touched.path.as_deref().unwrap_or(Path::new(""))) {
                    changed(other, &mut self.waiting);
                }
                if touched.at_once {
                    self.waiting.remove(&touched.uri);
                    return self.tell(&touched.uri);
                }
                changed(touched.uri, &mut self.waiting);
                Ok(())
            }
            None => Ok(()),
        }
    }

    /// Tells the findings of texts that have been left alone long enough.
    fn tell_due(&mut self) -> io::Result<()> {
        let now = Instant::now();
        let due: Vec<String> =
            self.waiting.iter().filter(|(_, c)| c.due() <= now).map(|(uri, _)| uri.clone()).collect();
        for uri in due {
            self.waiting.remove(&uri);
            self.tell(&uri)?;
        }
        Ok(())
    }

    fn tell(&mut self, uri: &str) -> io::Result<()> {
        match self.session.diagnostics(uri) {
            Some(notification) => wire::write(&mut self.out, &Message::Notification(notification)),
            None => Ok(()),
        }
    }
}
