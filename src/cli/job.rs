//! One description through the stages, as far as it goes.

use std::path::Path;

use super::json::Texts;
use crate::chain::{self, Chain, Profile};
use crate::check::{self, Facts};
use crate::figures::{self, Figures};
use crate::finding::{Finding, Severity};
use crate::model::plan::{Assumed, Derived};
use crate::model::{Part, Plan, Shop, Slip};
use crate::plan::{self, NoPlan};
use crate::read::{self, ReadPart, ReadShop, Shops};
use crate::unit::Unit;

/// A description that was read, and everything that follows without a search.
pub(super) struct Job {
    /// The description.
    pub(super) read: ReadPart,
    /// The shop file, if one is named.
    shop_file: Option<ReadShop>,
    /// What follows from the part, if there is one.
    pub(super) located: Option<Located>,
}

/// Faces, sections and operations of a part.
pub(super) struct Located {
    /// Faces, where they were measured if they were.
    pub(super) chain: Chain,
    /// Sections between them.
    pub(super) profile: Profile,
    /// Faces and sections as drawn, where that is something else: limits are judged by them.
    pub(super) drawn: Option<(Chain, Profile)>,
    /// Operations and mountings.
    pub(super) derived: Derived,
    /// The part and its sections as they are cut, where the description's sizes count after a coating.
    cut: Option<(Part, Profile)>,
}

/// A plan with its numbers and its proof.
pub(super) struct Planned {
    /// Setups and operations.
    pub(super) plan: Plan,
    /// What it follows from.
    pub(super) derived: Derived,
    /// The ordering problem with its answer.
    pub(super) certificate: plan::order::Certificate,
    /// The problems of the other ways round, with their answers.
    pub(super) beside: Vec<plan::order::Certificate>,
    /// The fewest setups, where the tolerance chart asked for them.
    pub(super) fewest_setups: Option<plan::order::Certificate>,
    /// Numbers for the hands.
    pub(super) figures: Figures,
    /// Faces it is worked to, where work has begun and they are not those of the job.
    worked_to: Option<Chain>,
}

impl Planned {
    /// The faces it is worked to.
    pub(super) fn chain<'a>(&'a self, job: &'a Located) -> &'a Chain {
        self.worked_to.as_ref().unwrap_or(&job.chain)
    }

    /// Looks for the plans that do without one of its holdings.
    pub(super) fn look_for_others(&mut self) {
        plan::without_each_holding(&self.certificate, &self.beside, &self.derived.mountings, &mut self.plan);
    }

    /// What nobody stated, for plan and figures together, each once.
    pub(super) fn assumed(&self) -> impl Iterator<Item = &Assumed> {
        let new = |a: &&Assumed| !self.plan.assumed.iter().any(|b| b.what == a.what);
        self.plan.assumed.iter().chain(self.figures.assumed.iter().filter(new))
    }
}

/// How many findings have force, by weight.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Tally {
    /// Errors that nobody accepted.
    pub(super) errors: usize,
    /// Warnings that nobody accepted.
    pub(super) warnings: usize,
    /// Notes.
    pub(super) notes: usize,
    /// Accepted findings.
    pub(super) accepted: usize,
}

impl Job {
    /// Reads the file, and its shop file, and locates the part.
    ///
    /// # Errors
    /// One sentence: the file cannot be read at all.
    pub(super) fn load(path: &Path, shops: &Shops) -> Result<Self, String> {
        Self::of(read::load_in(&path.to_string_lossy(), shops).map_err(|e| e.to_string())?)
    }

    /// The same of a part that was read.
    ///
    /// # Errors
    /// One sentence: its shop file cannot be read.
    pub(super) fn of(loaded: read::Loaded) -> Result<Self, String> {
        let part = loaded.part;
        let shop = loaded.shop.transpose().map_err(|e| e.to_string())?;
        let located = part.part.as_ref().map(|part| {
            let drawn = chain::locate(part);
            let chain = drawn.as_measured(part);
            let profile = Profile::of(part, &chain);
            let drawn = (!chain.moved.is_empty()).then(|| (Profile::of(part, &drawn), drawn));
            let drawn = drawn.map(|(profile, chain)| (chain, profile));
            let shop = shop.as_ref().and_then(|s| s.shop.as_ref());
            let cut = plan::before_coating(part).map(|cut| {
                let profile = Profile::of(&cut, &chain);
                (cut, profile)
            });
            let (to_cut, sections) = cut.as_ref().map_or((part, &profile), |(part, profile)| (part, profile));
            let derived = plan::derive(to_cut, &chain, sections, shop);
            Located { chain, profile, drawn, derived, cut }
        });
        Ok(Self { read: part, shop_file: shop, located })
    }

    /// The part, as far as it could be read.
    pub(super) fn part(&self) -> Option<&Part> {
        self.read.part.as_ref()
    }

    /// The part as it is cut: before a coating, where the description's sizes count after it.
    pub(super) fn to_cut(&self) -> Option<&Part> {
        let cut = self.located.as_ref().and_then(|l| l.cut.as_ref());
        cut.map(|(part, _)| part).or(self.part())
    }

    /// The shop file, if one was named and read.
    pub(super) fn shop(&self) -> Option<&Shop> {
        self.shop_file.as_ref().and_then(|s| s.shop.as_ref())
    }

    /// Unit of the description; inches where it says none.
    pub(super) fn unit(&self) -> Unit {
        self.part().map_or(Unit::Inch, |p| p.units)
    }

    /// The texts that findings point into.
    pub(super) fn texts(&self) -> Texts<'_> {
        Texts { part: &self.read.source, shop: self.shop_file.as_ref().map(|s| &s.source) }
    }

    /// All slips, of the part and of the shop file.
    pub(super) fn slips(&self) -> Vec<Slip> {
        let shop = self.shop_file.iter().flat_map(|s| &s.slips);
        self.read.slips.iter().chain(shop).cloned().collect()
    }

    /// Plans the part, if it could be read and located; or says why not.
    pub(super) fn plan(&self, seconds: f64) -> Option<Result<Planned, NoPlan>> {
        let (part, located) = (self.to_cut()?, self.located.as_ref()?);
        let profile = located.cut.as_ref().map_or(&located.profile, |(_, profile)| profile);
        let (chain, shop) = (&located.chain, self.shop());
        let planned = plan::plan(part, chain, profile, shop, seconds.ceil() as u64).map(|p| {
            let plan = p.plan;
            let (figures, worked_to) = match p.begun {
                None => (figures::work(part, chain, profile, &plan, shop), None),
                Some(begun) => {
                    let plan::Started { whole, drawn, now } = *begun;
                    let was = figures::work(part, &drawn.0, &drawn.1, &whole, shop);
                    let mut figures = figures::work(part, &now.0, &now.1, &plan, shop);
                    figures::tell_changes(&mut figures, &was, part.units);
                    (figures, Some(now.0))
                }
            };
            Planned {
                plan,
                worked_to,
                derived: p.derived,
                certificate: p.certificate,
                beside: p.beside,
                fewest_setups: p.fewest_setups,
                figures,
            }
        });
        Some(planned)
    }

    /// Every finding, with the setups of a plan when there is one.
    pub(super) fn findings(&self, plan: Option<&Plan>) -> Vec<Finding> {
        let slips = self.slips();
        match (self.part(), &self.located) {
            (Some(part), Some(located)) => check::check(&Facts {
                part,
                slips: &slips,
                chain: located.drawn.as_ref().map_or(&located.chain, |(chain, _)| chain),
                profile: located.drawn.as_ref().map_or(&located.profile, |(_, profile)| profile),
                shop: self.shop(),
                derived: Some(&located.derived),
                plan,
            }),
            _ => check::slips_alone(&slips),
        }
    }
}

impl Tally {
    /// Counts.
    pub(super) fn of(findings: &[Finding]) -> Self {
        let mut tally = Self::default();
        for finding in findings {
            match (finding.accepted.is_some(), finding.severity) {
                (true, _) => tally.accepted += 1,
                (false, Severity::Error) => tally.errors += 1,
                (false, Severity::Warning) => tally.warnings += 1,
                (false, Severity::Note) => tally.notes += 1,
            }
        }
        tally
    }

    /// The exit code these findings ask for.
    pub(super) fn code(self, strict: bool) -> u8 {
        u8::from(self.errors > 0 || (strict && self.warnings > 0))
    }
}
