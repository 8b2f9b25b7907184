//! An editor as the server sees one.

use std::collections::VecDeque;
use std::io::{BufRead, BufReader, Read, Write};
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};

use serde_json::{Value, json};

/// A server with an editor at its other end.
pub(crate) struct Editor {
    child: Child,
    input: Option<ChildStdin>,
    output: BufReader<ChildStdout>,
    next: i64,
    /// Findings that came while something else was waited for.
    published: VecDeque<Value>,
}

impl Editor {
    /// Starts a server; nothing has been said yet.
    pub(crate) fn new() -> Self {
        let mut child = Command::new(env!("CARGO_BIN_EXE_turnwright"))
            .arg("language-server")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .expect("the program starts");
        let output = BufReader::new(child.stdout.take().expect("its output"));
        Self { input: child.stdin.take(), child, output, next: 1, published: VecDeque::new() }
    }

    /// Starts a server and greets it.
    pub(crate) fn started() -> Self {
        let mut editor = Self::new();
        editor.request("initialize", json!({"capabilities": {}}));
        editor.notify("initialized", json!({}));
        editor
    }

    pub(crate) fn raw(&mut self, bytes: &[u8]) {
        let input = self.input.as_mut().expect("still open");
        input.write_all(bytes).and_then(|()| input.flush()).expect("the server reads");
    }

    fn send(&mut self, message: &Value) {
        let body = message.to_string();
        self.raw(format!("Content-Length: {}\r\n\r\n{body}", body.len()).as_bytes());
    }

    /// The next message.
    pub(crate) fn receive(&mut self) -> Value {
        let mut length = 0;
        loop {
            let mut line = String::new();
            assert!(self.output.read_line(&mut line).expect("the server writes") > 0, "the server is gone");
            match line.trim_end() {
                "" => break,
                line => {
                    if let Some(n) = line.strip_prefix("Content-Length: ") {
                        length = n.parse().expect("a length");
                    }
                }
            }
        }
        let mut body = vec![0; length];
        self.output.read_exact(&mut body).expect("the body");
        let message: Value = serde_json::from_slice(&body).expect("JSON");
        assert_eq!(message["jsonrpc"], "2.0");
        message
    }

    fn answer(&mut self, method: &str, params: Value) -> Value {
        let id = self.next;
        self.next += 1;
        let mut message = json!({"jsonrpc": "2.0", "id": id, "method": method});
        if !params.is_null() {
            message["params"] = params;
        }
        self.send(&message);
        loop {
            let message = self.receive();
            if message["method"] == "textDocument/publishDiagnostics" {
                self.published.push_back(message["params"].clone());
            } else {
                assert_eq!(message["id"], id);
                return message;
            }
        }
    }

    /// Asks, and is answered.
    pub(crate) fn request(&mut self, method: &str, params: Value) -> Value {
        let answer = self.answer(method, params);
        assert!(answer.get("error").is_none(), "{method}: {answer}");
        answer["result"].clone()
    }

    /// Asks, and is refused: the code.
    pub(crate) fn fails(&mut self, method: &str, params: Value) -> i64 {
        let answer = self.answer(method, params);
        answer["error"]["code"].as_i64().unwrap_or_else(|| panic!("{method}: {answer}"))
    }

    pub(crate) fn notify(&mut self, method: &str, params: impl Into<Value>) {
        self.send(&json!({"jsonrpc": "2.0", "method": method, "params": params.into()}));
    }

    /// The next findings of a text.
    pub(crate) fn published(&mut self, uri: &str) -> Value {
        self.published_of(uri, None)
    }

    fn published_of(&mut self, uri: &str, version: Option<i64>) -> Value {
        loop {
            let next = self.published.pop_front().unwrap_or_else(|| {
                let message = self.receive();
                assert_eq!(message["method"], "textDocument/publishDiagnostics", "{message}");
                message["params"].clone()
            });
            if next["uri"] == uri && version.is_none_or(|v| next["version"] == v) {
                return next["diagnostics"].clone();
            }
        }
    }

    /// Opens a text: its findings.
    pub(crate) fn open(&mut self, uri: &str, text: &str) -> Value {
        let item = json!({"uri": uri, "languageId": "yaml", "version": 1, "text": text});
        self.notify("textDocument/didOpen", json!({"textDocument": item}));
        self.published_of(uri, Some(1))
    }

    /// Changes a text: its findings when they come.
    pub(crate) fn change(&mut self, uri: &str, version: i64, changes: impl Into<Value>) -> Value {
        let document = json!({"uri": uri, "version": version});
        self.notify("textDocument/didChange", json!({"textDocument": document, "contentChanges": changes.into()}));
        self.published_of(uri, Some(version))
    }

    pub(crate) fn hang_up(&mut self) {
        self.input = None;
    }

    /// The exit code.
    pub(crate) fn ends(&mut self) -> Option<i32> {
        self.child.wait().expect("the server ends").code()
    }

    /// Shuts down as the protocol has it.
    pub(crate) fn goodbye(mut self) {
        self.request("shutdown", Value::Null);
        self.notify("exit", Value::Null);
        assert_eq!(self.ends(), Some(0));
    }
}

impl Drop for Editor {
    fn drop(&mut self) {
        let _ = self.child.kill();
    }
}
