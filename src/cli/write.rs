//! Files are written whole or not at all: to a temporary neighbour, then renamed.

use std::io::Write;
use std::path::Path;

/// Writes `bytes` to `path`, replacing what is there.
///
/// # Errors
/// One sentence for the person: what could not be written, and why.
pub(super) fn whole(path: &Path, bytes: &[u8]) -> Result<(), String> {
    put(path, bytes, true).map_err(|e| format!("cannot write {}: {e}", path.display()))
}

/// Writes `bytes` to a file that must not exist yet.
pub(super) fn new_file(path: &Path, bytes: &[u8]) -> Result<(), String> {
    if path.exists() {
        return Err(format!("{} exists already; choose another name, or remove it first", path.display()));
    }
    put(path, bytes, false).map_err(|e| format!("cannot write {}: {e}", path.display()))
}

fn put(path: &Path, bytes: &[u8], replace: bool) -> std::io::Result<()> {
    let folder = path.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut file = tempfile::Builder::new().prefix(".turnwright-").tempfile_in(folder)?;
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
