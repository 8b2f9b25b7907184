//! A good order quickly: at each number of blocks done only the most promising states are kept.

use rustc_hash::FxHashSet;

use super::bound::Bound;
use super::core::Core;
use super::found::Found;
use super::meter::Meter;
use super::moves::State;

struct Lead<const W: usize> {
    least: u64,
    paid: u64,
    state: State<W>,
    step: Step,
}

#[derive(Clone, Copy)]
struct Step {
    parent: usize,
    block: usize,
    setup: usize,
}

/// The best order that a beam of this width meets; `None` when all its states come to a dead end or time is out.
pub(super) fn beam<const W: usize>(core: &Core<W>, bound: &mut Bound<W>, width: usize, meter: &Meter) -> Option<Found> {
    let n = core.all.len();
    let mut layers: Vec<Vec<Lead<W>>> = (0..=n).map(|_| Vec::new()).collect();
    let mut steps = Vec::new();
    let mut moves = Vec::new();
    let root = Step { parent: usize::MAX, block: 0, setup: 0 };
    layers[0].push(Lead { least: 0, paid: 0, state: State::START, step: root });
    for done in 0..n {
        let mut layer = std::mem::take(&mut layers[done]);
        thin(&mut layer, width);
        for lead in layer {
            if meter.out_of_time() {
                return None;
            }
            steps.push(lead.step);
            core.moves(&lead.state, &mut moves);
            for m in &moves {
                let state = core.close(m.next, |_| ());
                let paid = lead.paid + m.cost;
                let Some(rest) = bound.rest(&state) else { continue };
                let step = Step { parent: steps.len() - 1, block: m.block, setup: m.setup };
                let to = &mut layers[state.done.len()];
                to.push(Lead { least: paid + rest, paid, state, step });
                if to.len() >= 16 * width {
                    thin(to, width);
                }
            }
        }
    }
    let last = layers[n].iter().min_by_key(|lead| lead.paid)?;
    let mut moves = Vec::new();
    let mut step = last.step;
    while step.parent != usize::MAX {
        moves.push((step.block, step.setup));
        step = steps[step.parent];
    }
    moves.reverse();
    Some(Found::unfold(core, &moves))
}

/// Keeps the best of each state, and of those the best `width`.
fn thin<const W: usize>(layer: &mut Vec<Lead<W>>, width: usize) {
    layer.sort_by_key(|lead| lead.least);
    let mut seen = FxHashSet::default();
    layer.retain(|lead| seen.len() < width && seen.insert(lead.state));
}
