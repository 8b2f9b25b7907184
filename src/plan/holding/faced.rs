//! What may be worked from either end waits, in a mounting, for the face of the end that stands out there.

use crate::model::End;
use crate::model::plan::{Operation, Setup, Verb, Why};
use crate::plan::precede::is_cut;
use crate::plan::rules::because;
use crate::tell;

/// Mounting, operation, face: for the cuts that belong to no end, whose stops are counted from the face of whichever end they are made from.
/// Those that belong to an end come behind its face anyway.
pub(in crate::plan) fn faced_first(
    operations: &[Operation],
    allowed: &[Vec<usize>],
    mountings: &[Setup],
    needs: &[(usize, usize, Why)],
    before: &[(usize, usize, Why)],
) -> Vec<(usize, usize, usize, Why)> {
    let of_either = |o: &Operation| o.end.is_none() && is_cut(o) && !o.inside && o.throw.is_none() && !o.for_rest;
    let faces: Vec<(usize, End)> =
        operations.iter().enumerate().filter_map(|(i, o)| faced(o).map(|e| (i, e))).collect();
    let mut gates = Vec::new();
    for (i, _) in operations.iter().enumerate().filter(|(_, o)| of_either(o)) {
        for (face, end) in &faces {
            if before.iter().any(|(a, b, _)| (a, b) == (face, &i)) {
                continue;
            }
            for m in allowed[i].iter().copied().filter(|m| mountings[*m].works == Some(*end)) {
                if !needs.iter().any(|(x, o, _)| (*x, o) == (m, face)) {
                    gates.push((m, i, *face, because("R1", reason(*end))));
                }
            }
        }
    }
    gates
}

/// The end that an operation faces.
fn faced(operation: &Operation) -> Option<End> {
    operation.end.filter(|_| operation.verb == Verb::Face && operation.throw.is_none())
}

fn reason(end: End) -> String {
    let word = end.said();
    tell!(
        "the {word} end is faced before anything is cut where it stands out of the holding",
        "das {word}ende wird plangedreht, bevor gedreht wird, wo es aus der Spannung ragt"
    )
}
