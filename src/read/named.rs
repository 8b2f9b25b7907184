//! Files that a description names: a text that came from somewhere must not have us open, and quote, whatever lies on the machine.
//!
//! A named file lies in the folder of the file that names it or beneath, beside that folder (`../lathes/shop.yaml`), or in a folder above
//! (`../../shop.yaml`). A link must lead to such a place too.

use std::path::{Path, PathBuf};

use super::reader::{Field, Reader};
use crate::model::Text;
use crate::model::slip::{Fault, Slip, Stray};

/// The value of `lathe:`; none where its name alone refuses it.
pub(super) fn lathe(r: &mut Reader<'_>, field: Option<Field<'_>>) -> Option<Text> {
    let text = r.text(field)?;
    match by_name(&text.text).and_then(|()| ending(Path::new(&text.text))) {
        Ok(()) => Some(text),
        Err(why) => {
            r.slip(text.place, fault(&text, why));
            None
        }
    }
}

/// A refused name, to be told at its place.
pub fn stray(lathe: &Text, why: Stray) -> Slip {
    Slip { place: lathe.place, fault: fault(lathe, why), entry: None }
}

fn fault(lathe: &Text, why: Stray) -> Fault {
    Fault::Stray { name: lathe.text.clone(), why }
}

/// Whether a name stays near the file it stands in; what is on the disk is not asked.
///
/// # Errors
/// [`Stray`] says why not.
pub(super) fn by_name(name: &str) -> Result<(), Stray> {
    let drive = |n: &str| n.as_bytes().get(1) == Some(&b':');
    if name.starts_with('/') {
        return Err(Stray::Root);
    }
    if name.starts_with('~') {
        return Err(Stray::Home);
    }
    if name.contains('\\') || drive(name) {
        return Err(Stray::Drive);
    }
    let (mut up, mut down) = (0, 0);
    for step in name.split('/').filter(|s| !matches!(*s, "" | ".")) {
        match step {
            // Back out of a folder that may be a link.
            ".." if down > 0 => return Err(Stray::Away),
            ".." => up += 1,
            _ => down += 1,
        }
    }
    if near(up, down) { Ok(()) } else { Err(Stray::Away) }
}

/// The shop file a part names, where it may be opened; a file that is missing is left to the opening.
///
/// # Errors
/// [`Stray`] when the name, or a link in its place, leads away.
pub fn shop_near(part: &str, lathe: &str) -> Result<PathBuf, Stray> {
    by_name(lathe)?;
    ending(Path::new(lathe))?;
    let at = super::shop_path(part, lathe);
    let folder = Path::new(part).parent().filter(|_| part != "-");
    if let Some(real) = real_place(folder, &at)? {
        ending(&real).map_err(|_| Stray::Link)?;
    }
    Ok(at)
}

/// Where a file really lies; none when it is not there.
///
/// # Errors
/// [`Stray::Link`] when that is not near the folder.
pub(super) fn real_place(folder: Option<&Path>, at: &Path) -> Result<Option<PathBuf>, Stray> {
    let folder = folder.filter(|f| !f.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let (Ok(folder), Ok(real)) = (folder.canonicalize(), at.canonicalize()) else { return Ok(None) };
    let (from, to): (Vec<_>, Vec<_>) = (folder.components().collect(), real.components().collect());
    let alike = from.iter().zip(&to).take_while(|(a, b)| a == b).count();
    if near(from.len() - alike, to.len() - alike) { Ok(Some(real)) } else { Err(Stray::Link) }
}

/// Folders up, then names down, the file's own included.
const fn near(up: usize, down: usize) -> bool {
    down > 0 && (up <= 1 || down == 1)
}

fn ending(path: &Path) -> Result<(), Stray> {
    let yaml = |e: &std::ffi::OsStr| e.eq_ignore_ascii_case("yaml") || e.eq_ignore_ascii_case("yml");
    if path.extension().is_some_and(yaml) { Ok(()) } else { Err(Stray::Ending) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_that_stay_near_and_names_that_lead_away() {
        for name in
            ["shop.yaml", "./shop.yaml", "lathes/big.yaml", "../shop.yaml", "../lathes/a/big.yml", "../../../shop.yaml"]
        {
            assert_eq!(by_name(name), Ok(()), "{name}");
        }
        for (name, why) in [
            ("/etc/passwd", Stray::Root),
            ("//server/share/shop.yaml", Stray::Root),
            ("~/shop.yaml", Stray::Home),
            ("C:shop.yaml", Stray::Drive),
            ("C:\\shop.yaml", Stray::Drive),
            ("\\\\server\\shop.yaml", Stray::Drive),
            ("..\\shop.yaml", Stray::Drive),
            ("../../../etc/passwd", Stray::Away),
            ("lathes/../../../../shop.yaml", Stray::Away),
            ("..", Stray::Away),
            (".", Stray::Away),
        ] {
            assert_eq!(by_name(name), Err(why), "{name}");
        }
        assert_eq!(shop_near("parts/a.yaml", "-"), Err(Stray::Ending));
        assert_eq!(shop_near("-", "shop.txt"), Err(Stray::Ending));
        assert_eq!(shop_near("parts/a.yaml", "../shop.yaml"), Ok(PathBuf::from("parts/../shop.yaml")));
    }
}
