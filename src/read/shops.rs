//! Shop files that were read already: the parts of one shop read theirs once.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use super::load::look_for_logo;
use super::{NotLoaded, ReadShop, file, shop};

/// Shop files kept at a time; a run over parts of more shops reads some of them again.
const MOST_KEPT: usize = 32;

/// What was read of each shop file. One run over many parts shares it; whoever must see a later change takes a new one.
///
/// ```
/// let shops = turnwright::read::Shops::default();
/// let once = turnwright::read::load_in("samples/pulley-stub.yaml", &shops).expect("a sample");
/// let again = turnwright::read::load_in("samples/idler-shaft.yaml", &shops).expect("a sample");
/// assert!(once.shop.is_some() && again.shop.is_some());
/// ```
#[derive(Debug, Default)]
pub struct Shops {
    kept: Mutex<BTreeMap<PathBuf, Arc<Result<ReadShop, NotLoaded>>>>,
    own: Option<PathBuf>,
}

impl Shops {
    /// For a run whose user says which shop file counts, whatever the descriptions name.
    pub fn of(own: Option<PathBuf>) -> Self {
        Self { own, ..Self::default() }
    }

    /// The shop file the user named.
    pub(super) fn own(&self) -> Option<&Path> {
        self.own.as_deref()
    }

    /// The shop file at a path, read now or before.
    pub(super) fn at(&self, path: &Path) -> Result<ReadShop, NotLoaded> {
        if let Some(known) = self.kept().get(path).cloned() {
            return (*known).clone();
        }
        let name = path.to_string_lossy().into_owned();
        let read = plain_file(path, &name).and_then(|()| file(&name)).map(|bytes| {
            let mut read = shop(&name, &bytes);
            if let Some(shop) = &mut read.shop {
                shop.logo_file = look_for_logo(&name, shop);
            }
            read
        });
        let mut kept = self.kept();
        if kept.len() >= MOST_KEPT {
            kept.clear();
        }
        kept.insert(path.to_owned(), Arc::new(read.clone()));
        read
    }

    fn kept(&self) -> std::sync::MutexGuard<'_, BTreeMap<PathBuf, Arc<Result<ReadShop, NotLoaded>>>> {
        self.kept.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// A description names its shop file, and must not make us wait for a pipe or read a device.
fn plain_file(path: &Path, name: &str) -> Result<(), NotLoaded> {
    match std::fs::metadata(path) {
        Ok(about) if !about.is_file() && !about.is_dir() => Err(NotLoaded {
            name: name.to_owned(),
            why: "this is a device or a pipe".to_owned(),
            remedy: "name a file of the shop under `lathe:`",
        }),
        _ => Ok(()),
    }
}
