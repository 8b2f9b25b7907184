//! From a path to a part and its shop: the only file access below the command line.

use std::fmt;
use std::io::Read as _;
use std::path::{Path, PathBuf};

use super::{MOST_BYTES, ReadPart, ReadShop, Shops, named, part};
use crate::model::shop::{Logo, NoLogo};
use crate::model::slip::Fault;

/// A part with the shop file it names.
#[derive(Debug, Clone)]
pub struct Loaded {
    /// The part.
    pub part: ReadPart,
    /// The shop file named under `lathe:`, or the reason it cannot be read; none when none is named, or its name is refused (a slip).
    pub shop: Option<Result<ReadShop, NotLoaded>>,
}

/// A file that cannot be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NotLoaded {
    /// The file as it was named.
    pub name: String,
    /// Why, in a few words.
    pub why: String,
    /// What to do.
    pub remedy: &'static str,
}

impl fmt::Display for NotLoaded {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}; {}", self.name, self.why, self.remedy)
    }
}

impl std::error::Error for NotLoaded {}

/// Reads a part from a file, or from standard input for `-`, then the shop file it names, relative to the part's folder.
///
/// # Errors
/// [`NotLoaded`] when the part's file is missing, a folder, or cannot be read. What is wrong inside it is in its slips.
pub fn load(path: &str) -> Result<Loaded, NotLoaded> {
    load_in(path, &Shops::default())
}

/// The same for one of many parts: a shop file that was read for another is not read again.
///
/// # Errors
/// As [`load`].
pub fn load_in(path: &str, shops: &Shops) -> Result<Loaded, NotLoaded> {
    Ok(load_bytes(path, &file(path)?, shops))
}

/// The same of a text that was read already; `path` names it, and is where its shop file is sought from.
pub fn load_bytes(path: &str, bytes: &[u8], shops: &Shops) -> Loaded {
    let mut part = part(path, bytes);
    let lathe = part.part.as_ref().and_then(|p| p.lathe.clone());
    let shop = if let Some(own) = shops.own() {
        part.slips.retain(|s| !matches!(s.fault, Fault::Stray { .. }));
        Some(own)
    } else {
        lathe.as_ref().and_then(|lathe| {
            let named = shops.named(path, &lathe.text);
            named.map_err(|why| part.slips.push(named::stray(lathe, why))).ok()
        })
    };
    let shop = shop.map(|read| {
        read.map(|mut read| {
            if let Some(shop) = &mut read.shop {
                shop.path = lathe;
            }
            read
        })
    });
    Loaded { part, shop }
}

/// Reads a tolerance chart from a file, or from standard input for `-`.
///
/// # Errors
/// [`NotLoaded`] when the file is missing, a folder, or cannot be read. What is wrong inside it is in its slips.
pub fn load_chart(path: &str) -> Result<super::ReadChart, NotLoaded> {
    Ok(super::chart(path, &file(path)?))
}

/// Where the shop file of a part lies: relative to the part's folder; for standard input, to the current one.
pub fn shop_path(part: &str, lathe: &str) -> PathBuf {
    match Path::new(part).parent() {
        Some(folder) if part != "-" => folder.join(lathe),
        _ => PathBuf::from(lathe),
    }
}

/// Where the logo of a shop lies: relative to the shop file's folder. None for a shop without one.
pub fn logo_path(shop_file: &str, shop: &crate::model::Shop) -> Option<PathBuf> {
    let logo = shop.logo.as_ref()?;
    Some(Path::new(shop_file).parent().map_or_else(|| PathBuf::from(&logo.text), |folder| folder.join(&logo.text)))
}

/// The logo of a shop, as a sheet carries it.
pub(super) fn look_for_logo(shop_file: &str, shop: &crate::model::Shop) -> Option<Result<Logo, NoLogo>> {
    let at = logo_path(shop_file, shop)?;
    let near =
        named::by_name(&shop.logo.as_ref()?.text).and_then(|()| named::real_place(Path::new(shop_file).parent(), &at));
    Some(if near.is_ok() { read_logo(&at) } else { Err(NoLogo::Elsewhere) })
}

fn read_logo(at: &Path) -> Result<Logo, NoLogo> {
    let mut bytes = Vec::new();
    let most = super::MOST_LOGO_BYTES as u64 + 1;
    // A pipe or a terminal would keep the sheet waiting: only a file is read.
    if !at.is_file() {
        return Err(NoLogo::Missing);
    }
    let read = std::fs::File::open(at).and_then(|file| file.take(most).read_to_end(&mut bytes));
    read.map_err(|_| NoLogo::Missing)?;
    super::logo(&bytes)
}

/// The bytes of a file, or of standard input for `-`; at most one more than are read.
///
/// # Errors
/// [`NotLoaded`] when the file is missing, a folder, or cannot be read.
pub fn file(path: &str) -> Result<Vec<u8>, NotLoaded> {
    let refuse = |why: String, remedy| NotLoaded { name: path.to_owned(), why, remedy };
    let most = MOST_BYTES as u64 + 1;
    let mut bytes = Vec::new();
    let done = if path == "-" {
        std::io::stdin().lock().take(most).read_to_end(&mut bytes)
    } else {
        if Path::new(path).is_dir() {
            return Err(refuse("this is a folder".to_owned(), "name a file in it"));
        }
        std::fs::File::open(path).and_then(|file| file.take(most).read_to_end(&mut bytes))
    };
    match done {
        Ok(_) => Ok(bytes),
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => {
            Err(refuse("there is no such file".to_owned(), "check the name and the folder"))
        }
        Err(error) if error.kind() == std::io::ErrorKind::PermissionDenied => {
            Err(refuse("it may not be read".to_owned(), "ask for leave to read it"))
        }
        Err(error) => Err(refuse(error.to_string(), "try again, or copy it elsewhere")),
    }
}
