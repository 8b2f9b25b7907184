//! Which of the two files a text is, told from its outermost keys; a half-written one too.

use super::keys::{self, Scope};

/// One of the two files.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Which {
    /// A part description.
    Part,
    /// A shop file.
    Shop,
}

impl Which {
    /// Where its outermost keys belong.
    pub const fn scope(self) -> Scope {
        match self {
            Self::Part => Scope::Header,
            Self::Shop => Scope::Shop,
        }
    }
}

/// Which file a text is; none when most of its outermost keys belong to neither, and for a tolerance chart (`cuts`).
pub fn which(text: &str) -> Option<Which> {
    let (part, shop, all) = counted(text)?;
    match part.max(shop) {
        0 => None,
        most if most * 2 < all => None,
        _ if shop > part => Some(Which::Shop),
        _ => Some(Which::Part),
    }
}

/// Whether a text that a description calls its shop file can be one: at least half of its outermost keys are a shop's.
pub fn may_be_shop(text: &str) -> bool {
    counted(text).is_some_and(|(_, shop, all)| shop > 0 && shop * 2 >= all)
}

/// Outermost keys: a part's, a shop's, all. None for a tolerance chart.
fn counted(text: &str) -> Option<(usize, usize, usize)> {
    let (mut part, mut shop, mut all) = (0_usize, 0_usize, 0_usize);
    for line in text.trim_start_matches('\u{FEFF}').lines() {
        let starts = line.starts_with(|c: char| c.is_alphabetic() || c == '"' || c == '\'');
        let Some((key, _)) = line.split_once(':').filter(|_| starts) else { continue };
        let key = key.trim().trim_matches(['"', '\'']);
        if keys::fold(key) == "cuts" {
            return None;
        }
        all += 1;
        part += usize::from(keys::find(Scope::Header, key).is_some());
        shop += usize::from(keys::find(Scope::Shop, key).is_some());
    }
    Some((part, shop, all))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn told_from_the_outermost_keys() {
        assert_eq!(which(include_str!("../../samples/pulley-stub.yaml")), Some(Which::Part));
        assert_eq!(which(include_str!("../../samples/shop.yaml")), Some(Which::Shop));
        assert_eq!(which("part: x\nfeatures:\n  - tu"), Some(Which::Part));
        assert_eq!(which("name: ci\non: push\njobs:\n  a: 1\n"), None);
        assert_eq!(which("part: x\nunits: mm\ncuts:\n  - {op: 1}\n"), None);
        assert_eq!(which("- a\n- b\n"), None);
        assert!(may_be_shop("units: mm\n") && may_be_shop(include_str!("../../samples/shop.yaml")));
        assert!(!may_be_shop(include_str!("../../samples/pulley-stub.yaml")));
        assert!(!may_be_shop("root:x:0:0:root:/root:/bin/sh\n") && !may_be_shop("") && !may_be_shop("password: x\n"));
    }
}
