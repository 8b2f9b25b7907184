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
        assert_eq!(linear('v', Length::PER_MM.times(2)), None);
        assert_eq!(linear('m', Length::micrometres(400)), None);
        assert_eq!(linear('x', Length::PER_MM.times(2)), None);
    }
}
