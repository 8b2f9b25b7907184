#![doc = include_str!("taper_setover.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::handbook::taper::Rate;
use crate::model::Kind;
use crate::{tell, told};

/// The check.
pub const CHECK: Check = Check {
    id: "taper-setover",
    severity: Severity::Warning,
    group: "process",
    source: "set-over = whole length · (D − d) / (2 · length of the taper) (lathe texts)",
    page: include_str!("taper_setover.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    let Some(shop) = facts.shop.filter(|s| s.taper_attachment != Some(true)) else { return };
    let (Some(travel), Some(whole)) = (shop.tailstock_travel, facts.chain.overall(facts.part)) else { return };
    for section in facts.part.sections() {
        let Kind::Taper { start, end, rate, .. } = &section.kind else { continue };
        let Some(piece) = facts.profile.piece(section.id) else { continue };
        let (large, small) = (start.nominal.max(end.nominal), start.nominal.min(end.nominal));
        let Some(set_over) = Rate::between(large, small, piece.long()).map(|r| r.setover(whole)) else { continue };
        if set_over <= travel {
            continue;
        }
        let message = tell!(
            "turning {} by setting the tailstock over takes {} over the whole {}, more than its travel, {}",
            "{} mit verstelltem Reitstock zu drehen braucht {} auf die ganze Länge {}, mehr als sein Weg, {}",
            section.called(),
            facts.show(set_over),
            facts.show(whole),
            facts.show(travel)
        );
        out.push(
            Finding::new(CHECK.id, Severity::Warning, message)
                .at(rate.place)
                .of(section.letter.clone())
                .length("set_over", set_over)
                .length("travel", travel)
                .help(told!(
                    "Cut it with the compound set to the half angle, if its travel is long enough for the taper",
                    "Mit dem auf den halben Winkel gestellten Oberschlitten drehen, wenn sein Weg für den Kegel reicht"
                )),
        );
    }
}
