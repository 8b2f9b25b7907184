//! General tolerances of linear sizes: ISO 2768-1:1989 table 1.

use super::Source;
use crate::unit::Length;

/// Upper end of each range in millimetres, then the permissible ± deviations in micrometres for f, m, c, v; 0 where none is given.
///
/// Classes f, m and v seen in a web copy of DIN ISO 2768-1 table 1; its column c is that of the older DIN 7168 (0.15 and 0.2 for
/// the two smallest ranges), so column c is from memory.
const LINEAR: [(i64, [i64; 4]); 8] = [
    (3, [50, 100, 200, 0]),
    (6, [50, 100, 300, 500]),
    (30, [100, 200, 500, 1000]),
    (120, [150, 300, 800, 1500]),
    (400, [200, 500, 1200, 2500]),
    (1000, [300, 800, 2000, 4000]),
    (2000, [500, 1200, 3000, 6000]),
    (4000, [0, 2000, 4000, 8000]),
];

/// Where the figures come from.
pub const SOURCE: Source = Source::from_memory("ISO 2768-1:1989 table 1");

/// External radii and chamfer heights: upper end of each range in millimetres, then ± micrometres for f and m, for c and v.
const EDGE: [(i64, [i64; 2]); 3] = [(3, [200, 400]), (6, [500, 1000]), (i64::MAX, [1000, 2000])];

/// Angles: upper end of each range of the shorter side in millimetres, then ± minutes of arc for f and m, c, v.
const ANGLE: [(i64, [i64; 3]); 5] =
    [(10, [60, 90, 180]), (50, [30, 60, 120]), (120, [20, 30, 60]), (400, [10, 15, 30]), (i64::MAX, [5, 10, 20])];

/// Where the figures for edges and angles come from.
pub const SOURCE_EDGES: Source = Source::from_memory("ISO 2768-1:1989 tables 2 and 3");

/// The ± deviation of an external radius or a chamfer's height in class `f`, `m`, `c` or `v` (table 2). `None` below 0.5 mm.
pub fn edge(class: char, size: Length) -> Option<Length> {
    let column = match class.to_ascii_lowercase() {
        'f' | 'm' => 0,
        'c' | 'v' => 1,
        _ => return None,
    };
    if size < Length::micrometres(500) {
        return None;
    }
    let (_, row) = EDGE.iter().find(|(to, _)| *to == i64::MAX || size <= Length::PER_MM.times(*to))?;
    Some(Length::micrometres(row[column]))
}

/// The ± deviation of an angle in minutes of arc, by the length of its shorter side, in class `f`, `m`, `c` or `v` (table 3).
pub fn angle_minutes(class: char, shorter_side: Length) -> Option<i64> {
    let column = match class.to_ascii_lowercase() {
        'f' | 'm' => 0,
        'c' => 1,
        'v' => 2,
        _ => return None,
    };
    let row = ANGLE.iter().find(|(to, _)| *to == i64::MAX || shorter_side <= Length::PER_MM.times(*to))?;
    Some(row.1[column])
}

/// The ± deviation of a linear size in class `f`, `m`, `c` or `v`. `None` below 0.5 mm, above 4 m, and where the class has none.
pub fn linear(class: char, size: Length) -> Option<Length> {
    let column = ['f', 'm', 'c', 'v'].iter().position(|c| *c == class.to_ascii_lowercase())?;
    if size < Length::micrometres(500) {
        return None;
    }
    let (_, row) = LINEAR.iter().find(|(to, _)| size <= Length::PER_MM.times(*to))?;
    (row[column] > 0).then(|| Length::micrometres(row[column]))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Class m as a web page on ISO 2768-mK prints it.
    #[test]
    fn class_m() {
        for (size, half) in
            [(1, 100), (3, 100), (5, 100), (6, 100), (20, 200), (100, 300), (287, 500), (1000, 800), (1500, 1200)]
        {
            assert_eq!(linear('m', Length::PER_MM.times(size)), Some(Length::micrometres(half)), "{size} mm");
        }
        // Tables 2 and 3 from memory.
        assert_eq!(edge('m', Length::PER_MM), Some(Length::micrometres(200)));
        assert_eq!(edge('c', Length::PER_MM.times(4)), Some(Length::micrometres(1000)));
        assert_eq!(edge('v', Length::PER_MM.times(8)), Some(Length::micrometres(2000)));
        assert_eq!(edge('f', Length::micrometres(400)), None);
        assert_eq!(angle_minutes('m', Length::PER_MM.times(10)), Some(60));
        assert_eq!(angle_minutes('c', Length::PER_MM.times(60)), Some(30));
        assert_eq!(angle_minutes('v', Length::PER_MM.times(500)), Some(20));
        assert_eq!(linear('v', Length::PER_MM.times(2)), None);
        assert_eq!(linear('m', Length::micrometres(400)), None);
        assert_eq!(linear('x', Length::PER_MM.times(2)), None);
    }
}
