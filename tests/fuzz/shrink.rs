//! Cuts a failing text down while it still fails: lines first, then characters.

/// Most tries.
const TRIES: usize = 3000;

/// The smallest text found that `fails` still holds for.
pub(crate) fn shrunk(text: &[u8], fails: impl Fn(&[u8]) -> bool) -> Vec<u8> {
    let mut left = TRIES;
    let by_lines = pieces(text.split_inclusive(|b| *b == b'\n').map(<[u8]>::to_vec).collect(), &fails, &mut left);
    pieces(by_lines.iter().map(|b| vec![*b]).collect(), &fails, &mut left)
}

fn pieces(mut pieces: Vec<Vec<u8>>, fails: &impl Fn(&[u8]) -> bool, left: &mut usize) -> Vec<u8> {
    let mut size = pieces.len().div_ceil(2).max(1);
    loop {
        let mut at = 0;
        while at < pieces.len() && *left > 0 {
            *left -= 1;
            let rest: Vec<Vec<u8>> =
                pieces[..at].iter().chain(&pieces[(at + size).min(pieces.len())..]).cloned().collect();
            if fails(&rest.concat()) {
                pieces = rest;
            } else {
                at += size;
            }
        }
        if size == 1 || *left == 0 {
            return pieces.concat();
        }
        size = size.div_ceil(2);
    }
}
