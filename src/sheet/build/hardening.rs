//! What is asked of those who harden the part, and how it goes to them.

use super::Sources;
use crate::model::plan::{Operation, Verb};
use crate::sheet::words;

/// The treatment, and the sizes that still stand larger than they will be.
pub(super) fn asked(s: &Sources, heat: &Operation) -> String {
    let treatment = s.part.heat_treatment.as_ref().map_or("", |t| t.text.as_str());
    let after = s.plan.operations().map(|(_, o)| o).skip_while(|o| o.number != heat.number);
    let last = after.filter(|o| matches!(o.verb, Verb::Finish | Verb::Turn | Verb::Taper) && !o.inside);
    let left: Vec<String> = last
        .filter_map(|o| Some((s.letter(o.feature?), o.from_diameter?, o.to_diameter?)))
        .map(|(letter, from, to)| words::stands_for(letter, &s.length(from), &s.length(to)))
        .collect();
    words::heat_treatment(treatment, &left)
}
