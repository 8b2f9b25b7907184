//! Labels along a line: as near to their places as they can stand without touching.

/// Moves labels apart. `wanted` are their places in rising order, `widths` what each needs, `gap` what lies between two.
/// The sum of the squared moves is the least possible with the order kept; all stay within `room`, if they fit at all.
///
/// With the room each needs taken off, the places must not fall: that is isotonic regression, which pooling adjacent
/// violators solves exactly.
pub fn spread(wanted: &[f64], widths: &[f64], gap: f64, room: (f64, f64)) -> Vec<f64> {
    let mut offsets = Vec::with_capacity(wanted.len());
    let mut at = 0.0;
    for (i, w) in widths.iter().enumerate() {
        if i > 0 {
            at += widths[i - 1] / 2.0 + gap + w / 2.0;
        }
        offsets.push(at);
    }
    let pooled = pool(&wanted.iter().zip(&offsets).map(|(t, o)| t - o).collect::<Vec<_>>());
    let first = widths.first().copied().unwrap_or(0.0) / 2.0;
    let last = widths.last().copied().unwrap_or(0.0) / 2.0;
    let low = room.0 + first;
    let high = (room.1 - last - at).max(low);
    pooled.iter().zip(&offsets).map(|(y, o)| y.clamp(low, high) + o).collect()
}

/// Whether labels of these widths fit into the room at all.
pub fn fits(widths: &[f64], gap: f64, room: (f64, f64)) -> bool {
    let needed: f64 = widths.iter().sum::<f64>() + gap * widths.len().saturating_sub(1) as f64;
    needed <= room.1 - room.0
}

fn pool(values: &[f64]) -> Vec<f64> {
    let mut blocks: Vec<(f64, usize)> = Vec::new();
    for v in values {
        blocks.push((*v, 1));
        while let [.., (a, n), (b, m)] = blocks[..] {
            if a <= b {
                break;
            }
            let joined = ((a * n as f64 + b * m as f64) / (n + m) as f64, n + m);
            blocks.truncate(blocks.len() - 2);
            blocks.push(joined);
        }
    }
    blocks.into_iter().flat_map(|(v, n)| std::iter::repeat_n(v, n)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn labels_that_do_not_touch_stay() {
        assert_eq!(spread(&[10.0, 30.0], &[4.0, 4.0], 1.0, (0.0, 100.0)), vec![10.0, 30.0]);
    }

    #[test]
    fn crowded_labels_part_evenly_and_stay_inside() {
        let at = spread(&[50.0, 50.0, 50.0], &[10.0, 10.0, 10.0], 2.0, (0.0, 100.0));
        assert_eq!(at, vec![38.0, 50.0, 62.0]);
        let at = spread(&[1.0, 2.0], &[10.0, 10.0], 2.0, (0.0, 100.0));
        assert_eq!(at, vec![5.0, 17.0]);
    }
}
