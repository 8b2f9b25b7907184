//! An open text, and everything that follows from it without a search.

use std::path::{Path, PathBuf};

use super::position::Lines;
use crate::chain::{self, Chain, Profile};
use crate::check::{self, Facts};
use crate::finding::{FileId, Finding, Place, Severity, Source};
use crate::model::slip::Stray;
use crate::model::{Part, Shop, Slip};
use crate::plan;
use crate::read::{self, ReadPart, ReadShop, Which, which};

/// A text in an editor.
#[derive(Debug, Clone)]
pub struct Document {
    /// Its file, where it has one.
    pub path: Option<PathBuf>,
    /// The text as it stands now, without a byte order mark.
    pub text: String,
}

/// A text with what was found in it.
pub struct Analysis {
    /// Which file it is.
    pub which: Which,
    /// The text.
    pub source: Source,
    /// Its lines.
    pub lines: Lines,
    /// The part and its faces, as far as they could be read.
    pub part: Option<(Part, Chain)>,
    /// The text of the shop file that the part names, with its path.
    pub shop: Option<(PathBuf, Source)>,
    /// What there is to say.
    pub findings: Vec<Finding>,
}

impl Document {
    /// Reads the text and checks it. `open` gives the text of a file as it stands in the editor, if it is open there.
    pub fn analyse(&self, open: &dyn Fn(&Path) -> Option<String>) -> Analysis {
        match which(&self.text) {
            Some(Which::Part) => self.part(open),
            Some(Which::Shop) => self.shop(),
            // Something else, or nothing yet: nothing is found in it, and a part may be begun.
            None => Analysis { findings: Vec::new(), ..self.part(open) },
        }
    }

    fn name(&self) -> String {
        self.path.as_ref().map_or_else(|| "untitled.yaml".to_owned(), |p| p.to_string_lossy().into_owned())
    }

    fn shop(&self) -> Analysis {
        let ReadShop { source, slips, .. } = read::shop(&self.name(), self.text.as_bytes());
        let findings = check::slips_alone(&slips);
        Analysis { which: Which::Shop, lines: Lines::of(&source.text), source, part: None, shop: None, findings }
    }

    fn part(&self, open: &dyn Fn(&Path) -> Option<String>) -> Analysis {
        let ReadPart { source, part, mut slips } = read::part(&self.name(), self.text.as_bytes());
        let mut said = Vec::new();
        let shop = part
            .as_ref()
            .and_then(|part| self.shop_of(part, open, &mut slips))
            .and_then(|read| read.map_err(|finding| said.push(finding)).ok());
        if let Some((_, shop)) = &shop {
            slips.extend(shop.slips.iter().cloned());
        }
        let mut findings = match &part {
            None => check::slips_alone(&slips),
            Some(part) => checked(part, shop.as_ref().and_then(|(_, s)| s.shop.as_ref()), &slips),
        };
        findings.extend(said);
        let part = part.map(|part| {
            let chain = chain::locate(&part);
            (part, chain)
        });
        let shop = shop.map(|(path, read)| (path, read.source));
        Analysis { which: Which::Part, lines: Lines::of(&source.text), source, part, shop, findings }
    }

    /// The shop file a part names; a finding where it cannot be read.
    fn shop_of(
        &self,
        part: &Part,
        open: &dyn Fn(&Path) -> Option<String>,
        slips: &mut Vec<Slip>,
    ) -> Option<Result<(PathBuf, ReadShop), Finding>> {
        let lathe = part.lathe.as_ref()?;
        let mut refuse = |why| slips.push(read::stray(lathe, why));
        let path = read::shop_near(&self.path.as_ref()?.to_string_lossy(), &lathe.text).map_err(&mut refuse).ok()?;
        let bytes = match open(&path) {
            Some(text) => Ok(text.into_bytes()),
            None => read::file(&path.to_string_lossy()),
        };
        Some(match bytes {
            Ok(bytes) if !read::may_be_shop(&read::decoded(&bytes)) => {
                refuse(Stray::NoShop);
                return None;
            }
            Ok(bytes) => {
                let mut read = read::shop(&path.to_string_lossy(), &bytes);
                if let Some(shop) = &mut read.shop {
                    shop.path = Some(lathe.clone());
                }
                Ok((path, read))
            }
            Err(not) => Err(Finding::new("unreadable", Severity::Error, not.to_string()).at(lathe.place)),
        })
    }
}

fn checked(part: &Part, shop: Option<&Shop>, slips: &[crate::model::Slip]) -> Vec<Finding> {
    let chain = chain::locate(part);
    let profile = Profile::of(part, &chain);
    let derived = plan::derive(part, &chain, &profile, shop);
    check::check(&Facts { part, slips, chain: &chain, profile: &profile, shop, derived: Some(&derived), plan: None })
}

impl Analysis {
    /// The part, as far as it could be read.
    pub fn part(&self) -> Option<&Part> {
        self.part.as_ref().map(|(part, _)| part)
    }

    /// The text and lines a place lies in, and the path of its file where that is not this one.
    pub fn file(&self, place: Place) -> Option<(&Source, Option<&Path>)> {
        let own = match self.which {
            Which::Part => FileId::Part,
            Which::Shop => FileId::Shop,
        };
        if place.file == own {
            return Some((&self.source, None));
        }
        self.shop.as_ref().map(|(path, source)| (source, Some(path.as_path())))
    }
}
