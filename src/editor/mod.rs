//! For editors and whoever else reads a description by machine: the schema of the two files, places in UTF-16, and the language
//! server. It knows the keys from the tables that reading uses, so what it offers is what will be read.
//!
//! ```
//! use turnwright::editor::{Which, schema, which};
//! assert_eq!(which("part: pin\nunits: in\n"), Some(Which::Part));
//! assert!(schema(Which::Part)["properties"]["features"].is_object());
//! ```

mod complete;
mod cursor;
mod diagnostics;
mod document;
mod flow;
mod hover;
mod names;
mod position;
mod rows;
mod schema;
mod schema_words;
mod server;
mod session;
mod symbols;
mod uri;
mod wire;

pub use crate::read::{Which, which};
pub use cursor::{Cursor, On, Word};
pub use document::{Analysis, Document};
pub use position::{Lines, Position};
pub use schema::schema;
pub use server::serve;
pub use uri::{encoded, file_uri, path_of};
