//! Every plan of a random part (`generated.rs`) is free of errors on holding, or nothing else could hold it.

use turnwright::chain::{self, Profile};
use turnwright::check::{self, Facts};
use turnwright::finding::{Finding, Severity};
use turnwright::model::Shop;
use turnwright::plan::{self, NoPlan, Planned};

use crate::planning::generated::{Generated, believable};
use crate::planning::parts;

/// Plans a description and judges the plan.
pub(crate) fn judged(text: &str, shop: Option<&Shop>) -> Result<(Planned, Vec<Finding>), NoPlan> {
    let part = parts::part(text);
    let chain = chain::locate(&part);
    let profile = Profile::of(&part, &chain);
    let planned = plan::plan(&part, &chain, &profile, shop, 10)?;
    let facts = Facts {
        part: &part,
        slips: &[],
        chain: &chain,
        profile: &profile,
        shop,
        derived: Some(&planned.derived),
        plan: Some(&planned.plan),
    };
    let findings = check::check(&facts);
    Ok((planned, findings))
}

pub(crate) fn is_holding_error(finding: &Finding) -> bool {
    finding.severity == Severity::Error && check::find(finding.check).is_some_and(|c| c.group == "holding")
}

/// What could still hold it is not at hand: the drawing forbids a center that it would want, or the bar is too thick for the
/// spindle and the steady rest would stand too far from the end.
pub(crate) fn nothing_else_could(g: &Generated, finding: &Finding) -> bool {
    match finding.check {
        "overhang" | "feature-in-jaws" | "center-not-on-drawing" => g.forbidden.contains(&true),
        // What gives way under the tool and what is too short to hold is the part's own shape.
        "deflection" | "grip-short" => true,
        _ => false,
    }
}

#[test]
fn what_can_be_held_is_held_without_an_error() {
    let shop = parts::shop();
    let number = std::env::var("TURNWRIGHT_BELIEVABLE").ok().and_then(|n| n.parse().ok()).unwrap_or(120);
    let (mut forbidden, mut told) = (0, 0);
    for seed in 0..number {
        let g = believable(seed);
        let (p, findings) =
            judged(&g.text, g.with_shop.then_some(&shop)).unwrap_or_else(|e| panic!("seed {seed}: {e:?}\n{}", g.text));
        assert_eq!(p.certificate.verify(), Ok(()), "seed {seed}");
        let errors: Vec<&Finding> = findings.iter().filter(|f| is_holding_error(f)).collect();
        forbidden += u32::from(g.forbidden.contains(&true));
        told += u32::from(!errors.is_empty());
        if std::env::var_os("TURNWRIGHT_SHOW").is_some() {
            for f in &errors {
                eprintln!("seed {seed} {:?} shop {}: {}: {}", g.forbidden, g.with_shop, f.check, f.message);
            }
        }
        for finding in errors {
            assert!(nothing_else_could(&g, finding), "seed {seed}: {}: {}\n{}", finding.check, finding.message, g.text);
        }
        // Jaws, dog and rest hold what is there at that moment.
        for setup in &p.plan.setups {
            let ends = setup.before.first().map(|s| s.from).zip(setup.before.last().map(|s| s.to));
            if let (Some(grip), Some((from, to))) = (&setup.grip, ends) {
                assert!(from <= grip.from && grip.to <= to, "seed {seed}: {} holds air", setup.name);
            }
            let rest = setup.rest.as_ref().filter(|r| !r.follows);
            if let (Some(rest), Some(grip)) = (rest, &setup.grip) {
                assert!(rest.to <= grip.from || grip.to <= rest.from, "seed {seed}: {}", setup.name);
                let at = setup.before.iter().filter(|s| s.from < rest.to && rest.from < s.to);
                assert!(
                    at.clone().count() > 0 && at.clone().all(|s| s.diameter == rest.diameter),
                    "seed {seed}: {}",
                    setup.name
                );
            }
        }
    }
    assert!(forbidden > number as u32 / 5 && told > 0, "the generator reaches both: {forbidden}, {told}");
}
