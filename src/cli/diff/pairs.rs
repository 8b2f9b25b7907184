//! Which entry of the new list is which of the old: by name, by kind and size, by place.

use crate::read::compare::{Entry, same};
use crate::unit::Unit;

/// Keys that place an entry.
const PLACES: [&str; 5] = ["to", "from", "at", "end", "long"];

/// How alike two entries are; 0 where they can be no such thing.
fn alike(old: &Entry, new: &Entry, unit: Unit) -> u32 {
    let first = |e: &Entry| e.says.first().cloned();
    let (Some((kind, size)), Some((new_kind, new_size))) = (first(old), first(new)) else { return 0 };
    let equal = |key: &str| old.get(key).zip(new.get(key)).is_some_and(|(a, b)| same(a, b, unit));
    let named = old.get("name").is_some() || new.get("name").is_some();
    let mut score = 0;
    if equal("name") {
        score += 40;
    } else if named && old.get("name").is_some() && new.get("name").is_some() {
        // Two names: a renamed feature must be alike in everything else that counts.
        score += 1;
    }
    if kind == new_kind {
        score += 16;
        if same(&size, &new_size, unit) {
            score += 12;
        }
    }
    let stands = PLACES.iter().filter(|p| equal(p)).count() as u32;
    if stands > 0 {
        score += 10 + stands;
    }
    score
}

/// Least likeness of one thing that was changed.
const LEAST: u32 = 26;

/// Pairs (old, new), the surest first taken; then what was taken away and what was added.
pub(super) fn pairs(old: &[Entry], new: &[Entry], unit: Unit) -> Vec<(Option<usize>, Option<usize>)> {
    let mut all: Vec<(u32, usize, usize, usize)> = Vec::new();
    for (i, a) in old.iter().enumerate() {
        for (j, b) in new.iter().enumerate() {
            let score = alike(a, b, unit);
            if score >= LEAST {
                all.push((score, i.abs_diff(j), i, j));
            }
        }
    }
    all.sort_by_key(|(score, apart, i, j)| (std::cmp::Reverse(*score), *apart, *i, *j));
    let mut of_old: Vec<Option<usize>> = vec![None; old.len()];
    let mut taken = vec![false; new.len()];
    for (_, _, i, j) in all {
        if of_old[i].is_none() && !taken[j] {
            of_old[i] = Some(j);
            taken[j] = true;
        }
    }
    // What is left of one kind, in its order: of the same number in both lists, they are the same ones changed.
    let mut left_over = |kind: &str| {
        let is = |e: &Entry| e.says.first().is_some_and(|(k, _)| k == kind);
        let a: Vec<usize> = (0..old.len()).filter(|i| of_old[*i].is_none() && is(&old[*i])).collect();
        let b: Vec<usize> = (0..new.len()).filter(|j| !taken[*j] && is(&new[*j])).collect();
        if a.len() == b.len() {
            for (i, j) in a.into_iter().zip(b) {
                of_old[i] = Some(j);
                taken[j] = true;
            }
        }
    };
    let kinds: Vec<String> = old.iter().filter_map(|e| e.says.first().map(|(k, _)| k.clone())).collect();
    for kind in kinds {
        left_over(&kind);
    }
    let mut out: Vec<_> = of_old.iter().enumerate().map(|(i, j)| (Some(i), *j)).collect();
    out.extend((0..new.len()).filter(|j| !taken[*j]).map(|j| (None, Some(j))));
    out
}
