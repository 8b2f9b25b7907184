//! Shop files that were read already: the parts of one shop read theirs once.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

use super::load::look_for_logo;
use super::which::may_be_shop;
use super::{NotLoaded, ReadShop, file, shop, shop_near, shop_path};
use crate::model::slip::Stray;

/// Shop files kept at a time; a run over parts of more shops reads some of them again.
const MOST_KEPT: usize = 32;

/// A shop file as it was read, or why it could not be; or why it is not shown to the part that names it.
type Kept = Result<Result<ReadShop, NotLoaded>, Stray>;

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
    kept: Mutex<BTreeMap<PathBuf, Arc<Kept>>>,
    own: Option<PathBuf>,
}

impl Shops {
    /// For a run whose user says which shop file counts, whatever the descriptions name.
    pub fn of(own: Option<PathBuf>) -> Self {
        Self { own, ..Self::default() }
    }

    /// The shop file the user named, read now or before.
    pub(super) fn own(&self) -> Option<Result<ReadShop, NotLoaded>> {
        let own = self.own.as_deref()?;
        (*self.known(own, || Ok(read(own)))).clone().ok()
    }

    /// The shop file a part names, read now or before.
    ///
    /// # Errors
    /// [`Stray`] when its place or what is in it refuses it.
    pub(super) fn named(&self, part: &str, lathe: &str) -> Kept {
        let at = shop_path(part, lathe);
        let found = self.known(&at, || {
            shop_near(part, lathe)?;
            match read(&at) {
                Ok(read) if !may_be_shop(&read.source.text) => Err(Stray::NoShop),
                read => Ok(read),
            }
        });
        (*found).clone()
    }

    fn known(&self, at: &Path, now: impl FnOnce() -> Kept) -> Arc<Kept> {
        if let Some(known) = self.kept().get(at) {
            return Arc::clone(known);
        }
        let found = Arc::new(now());
        let mut kept = self.kept();
        if kept.len() >= MOST_KEPT {
            kept.clear();
        }
        kept.insert(at.to_owned(), Arc::clone(&found));
        found
    }

    fn kept(&self) -> std::sync::MutexGuard<'_, BTreeMap<PathBuf, Arc<Kept>>> {
        self.kept.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

fn read(path: &Path) -> Result<ReadShop, NotLoaded> {
    let name = path.to_string_lossy().into_owned();
    let bytes = plain_file(path, &name).and_then(|()| file(&name))?;
    let mut read = shop(&name, &bytes);
    if let Some(shop) = &mut read.shop {
        shop.logo_file = look_for_logo(&name, shop);
    }
    Ok(read)
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
