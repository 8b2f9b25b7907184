//! What the rules that the person switched off would cost: the same part planned with them.

use crate::chain::{Chain, Profile};
use crate::model::{Part, Shop};
use crate::plan::rules::rule;
use crate::{tell, told};

use super::{Planned, plan_whole};

/// Operations beyond which the part is not planned a second time for it.
const MOST_OPS: usize = 64;

/// In words, where rules are off and both plans are proved.
pub(super) fn switched_off(
    part: &Part,
    chain: &Chain,
    profile: &Profile,
    shop: Option<&Shop>,
    without: &Planned,
    seconds: u64,
) -> Option<String> {
    let off: Vec<&str> =
        part.wishes.off.iter().filter_map(|t| rule(&t.text)).filter(|r| !r.hard).map(|r| r.id).collect();
    if off.is_empty() || seconds == 0 || !without.plan.proven_optimal || without.certificate.order.len() > MOST_OPS {
        return None;
    }
    let mut kept = part.clone();
    kept.wishes.off.clear();
    let ids = off.join(", ");
    let Ok(with) = plan_whole(&kept, chain, profile, shop, seconds) else {
        return Some(tell!("{ids} off: with it kept there is no plan", "{ids} aus: mit der Regel gibt es keinen Plan"));
    };
    let more = with.plan.cost - without.plan.cost;
    let is = if off.len() == 1 { told!("is", "ist") } else { told!("are", "sind") };
    with.plan.proven_optimal.then(|| {
        if more > 0.005 {
            tell!(
                "{ids} {is} off: kept, the plan costs {more:.2} minutes more",
                "{ids} {is} aus: beachtet kostet der Plan {more:.2} Minuten mehr"
            )
        } else if more < -0.005 {
            tell!(
                "{ids} {is} off: kept, the plan costs {:.2} minutes less",
                "{ids} {is} aus: beachtet kostet der Plan {:.2} Minuten weniger",
                -more
            )
        } else {
            tell!(
                "{ids} {is} off: kept, the plan costs not a minute more",
                "{ids} {is} aus: beachtet kostet der Plan keine Minute mehr"
            )
        }
    })
}
