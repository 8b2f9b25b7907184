//! Files are written whole or not at all: to a temporary neighbour, then renamed.

use std::io::{ErrorKind, Write};
use std::path::Path;

/// Writes `bytes` to `path`, replacing what is there.
///
/// # Errors
/// One sentence for the person: what could not be written, and why.
pub(super) fn whole(path: &Path, bytes: &[u8]) -> Result<(), String> {
    put(path, bytes, true).map_err(|e| told(path, &e))
}

/// Writes `bytes` to a file that must not exist yet.
pub(super) fn new_file(path: &Path, bytes: &[u8]) -> Result<(), String> {
    if path.exists() {
        return Err(format!("{} exists already; choose another name, or remove it first", path.display()));
    }
    put(path, bytes, false).map_err(|e| told(path, &e))
}

/// Why a file cannot be written, without the name of the temporary neighbour that failed.
fn told(path: &Path, error: &std::io::Error) -> String {
    let folder = folder_of(path).display();
    let why = match error.kind() {
        ErrorKind::PermissionDenied => format!("the folder {folder} may not be written"),
        ErrorKind::NotFound => format!("there is no folder {folder}"),
        ErrorKind::ReadOnlyFilesystem => "its disk may only be read".to_owned(),
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded => "the disk is full".to_owned(),
        ErrorKind::IsADirectory => "this is a folder".to_owned(),
        ErrorKind::AlreadyExists => "it exists already".to_owned(),
        _ => error.to_string().split(" at path ").next().unwrap_or_default().to_owned(),
    };
    format!("cannot write {}: {why}", path.display())
}

fn folder_of(path: &Path) -> &Path {
    path.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

fn put(path: &Path, bytes: &[u8], replace: bool) -> std::io::Result<()> {
    let mut file = tempfile::Builder::new().prefix(".turnwright-").tempfile_in(folder_of(path))?;
    file.write_all(bytes)?;
    file.as_file().sync_all()?;
    readable_by_all(file.as_file())?;
    if replace {
        file.persist(path).map_err(|e| e.error)?;
    } else {
        file.persist_noclobber(path).map_err(|e| e.error)?;
    }
    Ok(())
}

/// Temporary files are private; a sheet is for the whole shop.
#[cfg(unix)]
fn readable_by_all(file: &std::fs::File) -> std::io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    file.set_permissions(std::fs::Permissions::from_mode(0o644))
}

#[cfg(not(unix))]
fn readable_by_all(_: &std::fs::File) -> std::io::Result<()> {
    Ok(())
}
