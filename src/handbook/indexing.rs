//! Plain indexing on a dividing head: turns of the crank from one part of a turn to the next (US Army Ordnance, milling course
//! OD1644: turns = ratio / divisions; the rest of a turn on a circle whose holes its denominator divides).

/// Turns of the crank from one division to the next.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Indexing {
    /// Whole turns.
    pub turns: u32,
    /// Further spaces between holes, and the circle they are counted on; none where whole turns do.
    pub spaces: Option<(u32, u32)>,
}

/// Turns for so many equal divisions on a head of this ratio with these hole circles; the smallest circle that does. None where
/// no circle does, or for no divisions.
pub fn plain(ratio: u32, circles: &[u32], divisions: u32) -> Option<Indexing> {
    parts(u64::from(ratio), u64::from(divisions), circles)
}

/// Turns for an angle in thousandths of a degree.
pub fn angle(ratio: u32, circles: &[u32], mdeg: u32) -> Option<Indexing> {
    parts(u64::from(ratio) * u64::from(mdeg), 360_000, circles)
}

fn parts(over: u64, under: u64, circles: &[u32]) -> Option<Indexing> {
    let turns = u32::try_from(over.checked_div(under)?).ok()?;
    let rest = over % under;
    if rest == 0 {
        return Some(Indexing { turns, spaces: None });
    }
    let does = |circle: &&u32| **circle > 0 && (rest * u64::from(**circle)).is_multiple_of(under);
    let circle = circles.iter().filter(does).min()?;
    let spaces = u32::try_from(rest * u64::from(*circle) / under).ok()?;
    Some(Indexing { turns, spaces: Some((spaces, *circle)) })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn as_the_army_course_works_it() {
        // 40 / 6 = 6 2/3: 12 spaces on 18, or 26 on 39. 40 / 42: 40 on 42, or 20 on 21.
        let turns = |n, circles: &[u32]| plain(40, circles, n).map(|i| (i.turns, i.spaces));
        assert_eq!(turns(6, &[18, 19, 20]), Some((6, Some((12, 18)))));
        assert_eq!(turns(6, &[37, 38, 39, 41]), Some((6, Some((26, 39)))));
        assert_eq!(turns(42, &[42]), Some((0, Some((40, 42)))));
        assert_eq!(turns(42, &[21]), Some((0, Some((20, 21)))));
        assert_eq!(turns(4, &[]), Some((10, None)));
        assert_eq!(turns(6, &[20]), None);
        assert_eq!(turns(0, &[20]), None);
    }

    #[test]
    fn angles_as_a_handbook_works_them() {
        // Machinery's Handbook, 1916: one turn is 9 degrees, two holes on 18 are one degree; 35 degrees is 3 turns and 16 holes.
        let turns = |mdeg| angle(40, &[18, 27], mdeg).map(|i| (i.turns, i.spaces));
        assert_eq!(turns(9_000), Some((1, None)));
        assert_eq!(turns(35_000), Some((3, Some((16, 18)))));
        assert_eq!(turns(11_500), Some((1, Some((5, 18)))));
        assert_eq!(turns(90_000), Some((10, None)));
    }
}
