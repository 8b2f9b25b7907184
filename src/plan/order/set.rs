//! A set of operations as a fixed number of machine words.

use std::hash::{Hash, Hasher};

/// A set of the numbers below `64 * W`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Set<const W: usize>([u64; W]);

impl<const W: usize> Hash for Set<W> {
    fn hash<H: Hasher>(&self, state: &mut H) {
        // Word by word: the derived form would add a length and copy bytes.
        for word in self.0 {
            state.write_u64(word);
        }
    }
}

impl<const W: usize> Set<W> {
    pub(super) const EMPTY: Self = Self([0; W]);

    pub(super) fn first(n: usize) -> Self {
        let mut set = Self::EMPTY;
        (0..n).for_each(|i| set.insert(i));
        set
    }

    pub(super) fn of(members: impl IntoIterator<Item = usize>) -> Self {
        let mut set = Self::EMPTY;
        members.into_iter().for_each(|i| set.insert(i));
        set
    }

    #[inline]
    pub(super) fn insert(&mut self, i: usize) {
        self.0[i / 64] |= 1 << (i % 64);
    }

    #[inline]
    pub(super) fn with(mut self, i: usize) -> Self {
        self.insert(i);
        self
    }

    #[inline]
    pub(super) fn remove(&mut self, i: usize) {
        self.0[i / 64] &= !(1 << (i % 64));
    }

    #[inline]
    pub(super) fn contains(&self, i: usize) -> bool {
        self.0[i / 64] >> (i % 64) & 1 == 1
    }

    #[inline]
    pub(super) fn is_empty(&self) -> bool {
        self.0.iter().all(|&w| w == 0)
    }

    #[inline]
    pub(super) fn len(&self) -> usize {
        self.0.iter().map(|w| w.count_ones() as usize).sum()
    }

    #[inline]
    pub(super) fn is_subset(&self, other: &Self) -> bool {
        self.0.iter().zip(other.0).all(|(&a, b)| a & !b == 0)
    }

    #[inline]
    pub(super) fn meets(&self, other: &Self) -> bool {
        self.0.iter().zip(other.0).any(|(&a, b)| a & b != 0)
    }

    #[inline]
    pub(super) fn and(mut self, other: &Self) -> Self {
        self.0.iter_mut().zip(other.0).for_each(|(a, b)| *a &= b);
        self
    }

    #[inline]
    pub(super) fn or(mut self, other: &Self) -> Self {
        self.0.iter_mut().zip(other.0).for_each(|(a, b)| *a |= b);
        self
    }

    #[inline]
    pub(super) fn minus(mut self, other: &Self) -> Self {
        self.0.iter_mut().zip(other.0).for_each(|(a, b)| *a &= !b);
        self
    }

    /// The members, smallest first.
    #[inline]
    pub(super) fn iter(self) -> impl Iterator<Item = usize> {
        self.0.into_iter().enumerate().flat_map(|(word, bits)| Bits(bits).map(move |b| word * 64 + b))
    }
}

/// The set bits of a word or setup mask, smallest first.
pub(super) struct Bits<T>(pub(super) T);

impl Iterator for Bits<u64> {
    type Item = usize;
    #[inline]
    fn next(&mut self) -> Option<usize> {
        (self.0 != 0).then(|| {
            let bit = self.0.trailing_zeros() as usize;
            self.0 &= self.0 - 1;
            bit
        })
    }
}

impl Iterator for Bits<u128> {
    type Item = usize;
    #[inline]
    fn next(&mut self) -> Option<usize> {
        (self.0 != 0).then(|| {
            let bit = self.0.trailing_zeros() as usize;
            self.0 &= self.0 - 1;
            bit
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_join_into_one_set() {
        let set = Set::<2>::of([3, 64, 127]);
        assert_eq!(set.iter().collect::<Vec<_>>(), [3, 64, 127]);
        assert_eq!(set.len(), 3);
        assert!(set.contains(64) && !set.contains(65));
        assert!(Set::of([3]).is_subset(&set) && !set.is_subset(&Set::first(127)));
        assert_eq!(set.minus(&Set::of([3, 127])), Set::of([64]));
        assert!(!set.meets(&Set::of([4, 5])));
        assert_eq!(Bits(0b1010_u128).collect::<Vec<_>>(), [1, 3]);
    }
}
