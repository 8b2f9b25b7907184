//! Text to model: everything that can be read is read, and everything that cannot is told, all at once.
//!
//! [`part`] and [`shop`] take a name and bytes and touch no file; [`load`] is the one place that does.
//!
//! ```
//! use turnwright::read;
//! let text = "part: pin\nunits: in\ndatum: head\noverall: 1\nfeatures:\n  - turn: 0.500\n    to: end\n";
//! let read = read::part("pin.yaml", text.as_bytes());
//! assert!(read.slips.is_empty());
//! assert_eq!(read.part.expect("a part").sections().count(), 1);
//! ```

mod angle;
mod carried;
mod chart;
pub mod compare;
mod corner;
mod countersink;
mod crown;
mod features;
mod forms;
mod grooves;
mod inside;
pub mod keys;
mod keyseat;
mod limits;
mod load;
mod logo;
mod lying;
mod measured;
mod named;
mod outside;
mod part;
mod place;
mod places;
mod reader;
pub mod sample;
mod sections;
mod shop;
mod shop_lists;
mod shops;
mod size;
mod start;
mod start_table;
mod stock;
mod syntax;
mod taper;
mod text;
mod thread;
mod tidy;
mod tolerances;
mod tree;
mod unknown;
mod warm;
mod which;
mod wishes;
mod yaml;

pub use chart::{ReadChart, chart};
pub use load::{Loaded, NotLoaded, file, load, load_bytes, load_chart, load_in, logo_path, shop_path};
pub use logo::{MOST_LOGO_BYTES, logo};
pub use named::{shop_near, stray};
pub use shops::Shops;
pub use start::{Answers, BadAnswer, START_INCH, START_MM, from_answers, from_rows};
pub use start_table::{Row, TableSlip, table};
pub use text::MOST_BYTES;
pub use tidy::tidy;
pub use which::{Which, may_be_shop, which};

use crate::finding::{FileId, Place, Source};
use crate::model::slip::{Fault, Unreadable};
use crate::model::{Part, Shop, Slip};

/// Faults that are told of one file; a file with more is no description.
const MOST_FAULTS: usize = 1_000;

/// A part description after reading.
#[derive(Debug, Clone)]
pub struct ReadPart {
    /// Its text.
    pub source: Source,
    /// The part; none when the text cannot be read at all, or states no units.
    pub part: Option<Part>,
    /// What could not be taken, in the order of the text.
    pub slips: Vec<Slip>,
}

/// A shop file after reading.
#[derive(Debug, Clone)]
pub struct ReadShop {
    /// Its text.
    pub source: Source,
    /// The shop; none when the text cannot be read at all.
    pub shop: Option<Shop>,
    /// What could not be taken, in the order of the text.
    pub slips: Vec<Slip>,
}

/// Reads a part description. `name` is what messages call the file.
pub fn part(name: &str, bytes: &[u8]) -> ReadPart {
    let mut decoded = text::decode(name, FileId::Part, bytes);
    let tree = syntax::tree(FileId::Part, &mut decoded);
    let (part, more) = tree.map_or((None, Vec::new()), |t| part::read(&decoded.source, &t, &decoded.slips));
    ReadPart { slips: in_order(&decoded.source, decoded.slips, more), source: decoded.source, part }
}

/// Reads a shop file. `name` is what messages call the file.
pub fn shop(name: &str, bytes: &[u8]) -> ReadShop {
    let mut decoded = text::decode(name, FileId::Shop, bytes);
    let tree = syntax::tree(FileId::Shop, &mut decoded);
    let (shop, more) = tree.map_or((None, Vec::new()), |t| shop::read(&decoded.source, &t, &decoded.slips));
    ReadShop { slips: in_order(&decoded.source, decoded.slips, more), source: decoded.source, shop }
}

/// The text of a file as [`part`] and [`shop`] take it: without a byte order mark, every line ended alike.
pub fn decoded(bytes: &[u8]) -> String {
    text::decode("", FileId::Part, bytes).source.text
}

/// The hash printed on the sheet: the first 8 hexadecimal digits of the SHA-256 of the text, `7C41-09AE`.
fn hash(text: &str) -> String {
    use sha2::{Digest, Sha256};
    let digest = Sha256::digest(text.as_bytes());
    format!("{:02X}{:02X}-{:02X}{:02X}", digest[0], digest[1], digest[2], digest[3])
}

/// In the order of the text, each once, none cutting a character in two, and not too many.
fn in_order(source: &Source, mut slips: Vec<Slip>, more: Vec<Slip>) -> Vec<Slip> {
    slips.extend(more);
    for slip in &mut slips {
        slip.place = on_characters(&source.text, slip.place);
    }
    slips.sort_by_key(|s| (s.place.start, s.place.end));
    slips.dedup();
    if let Some(next) = slips.get(MOST_FAULTS) {
        let why = Unreadable::TooMany { what: "faults", most: MOST_FAULTS };
        let rest = Slip { place: next.place, fault: Fault::Unreadable(why), entry: None };
        slips.truncate(MOST_FAULTS);
        slips.push(rest);
    }
    slips
}

/// The place, widened to whole characters and held inside the text.
fn on_characters(text: &str, place: Place) -> Place {
    let (mut start, mut end) = ((place.start as usize).min(text.len()), (place.end as usize).min(text.len()));
    while !text.is_char_boundary(start) {
        start -= 1;
    }
    while !text.is_char_boundary(end) {
        end += 1;
    }
    Place::new(place.file, start, end)
}
