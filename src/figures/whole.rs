//! The figures of a whole plan.

use super::given::Given;
use super::setup::mounting;
use super::{
    InspectionRow, Layout, Marks, Mate, OperationFigures, SetupFigures, assumed, cautions, inspection, marks, mates,
    thread_cut, tools,
};
use crate::chain::chart::{Charted, charted};
use crate::chain::{Chain, Profile};
use crate::check::description::not_supported::by_hand;
use crate::model::plan::{Assumed, Operation, Setup};
use crate::model::{Kind, Part, Plan, Shop};

/// All numbers of a plan.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Figures {
    /// One for each of the plan's setups, in its order.
    pub setups: Vec<SetupFigures>,
    /// Lines to scribe.
    pub marks: Marks,
    /// Every toleranced size, with what measures it.
    pub inspection: Vec<InspectionRow>,
    /// How what sits on the part will fit it.
    pub mates: Vec<Mate>,
    /// What to lay out before the first chip.
    pub layout: Layout,
    /// Mass of the bar as sawn, kilograms; none without a stock line.
    pub bar_kg: Option<f64>,
    /// The bar as sawn; none without a stock line.
    pub bar: Option<super::Bar>,
    /// What stays in the chuck when the part is off its bar.
    pub remains: Option<super::Remains>,
    /// How long to saw the bar, where none is stated.
    pub saw_to: Option<super::SawTo>,
    /// The cautions this part earns, about six. [`super::defer`] stands under them.
    pub cautions: Vec<String>,
    /// The tolerance chart of the plan; none where the part has no located length.
    pub chart: Option<Charted>,
    /// Everything used that nobody stated, the plan's assumptions first.
    pub assumed: Vec<Assumed>,
    /// What is known to the trade and not worked yet, by name.
    pub not_supported: Vec<String>,
}

/// Works out every number of a plan.
pub fn work(part: &Part, chain: &Chain, profile: &Profile, plan: &Plan, shop: Option<&Shop>) -> Figures {
    let given = &Given::new(part, chain, profile, shop);
    let marks = marks::marks(given, plan);
    let mut setups: Vec<SetupFigures> = plan.setups.iter().map(|setup| mounting(given, setup)).collect();
    for (figures, setup) in setups.iter_mut().zip(&plan.setups) {
        let mut lines = marks.lists.iter().flat_map(|l| &l.marks);
        figures.grip_mark = lines.find(|m| m.grip_of == Some(setup.number)).map(|m| m.label.clone());
    }
    let done: Vec<(&Setup, &Operation, &OperationFigures)> = plan
        .setups
        .iter()
        .zip(&setups)
        .flat_map(|(setup, figures)| setup.operations.iter().zip(&figures.operations).map(move |(o, f)| (setup, o, f)))
        .collect();
    let by_feature: Vec<(usize, &OperationFigures)> =
        done.iter().filter_map(|(_, o, f)| Some((o.feature?, *f))).collect();
    let inspection = inspection::inspection(given, &by_feature);
    let mates = mates::mates(given);
    let layout = tools::layout(given, plan, &done, &inspection, &marks);
    let cautions = cautions::cautions(given, &done);
    let assumed = assumed::assumed(given, plan, &done);
    let not_supported = not_supported(given, plan);
    let bar = super::bar::bar(given);
    let chart = charted(part, chain, profile, plan, shop);
    Figures {
        setups,
        marks,
        inspection,
        mates,
        layout,
        bar_kg: bar.as_ref().map(|b| b.kg),
        bar,
        remains: super::remains::remains(given, plan),
        saw_to: super::remains::saw_to(given),
        cautions,
        chart,
        assumed,
        not_supported,
    }
}

/// What is known by name and not worked yet.
fn not_supported(given: &Given, plan: &Plan) -> Vec<String> {
    let mut list: Vec<String> = Vec::new();
    for feature in &given.part.features {
        let word = match &feature.kind {
            Kind::NotYet { word, .. } => word.clone(),
            Kind::Eccentric { .. } => {
                let planned = |o: &Operation| o.throw.is_some() && o.feature == Some(feature.id);
                if plan.operations().any(|(_, o)| planned(o)) {
                    continue;
                }
                let [what, left, held, set, mind] = by_hand(given.part, feature);
                format!("{what}. {left}. {held}. {set}. {mind}")
            }
            Kind::Thread { thread, .. } if thread_cut::data(thread).is_none() => {
                format!("cutting figures for {}", thread.designation)
            }
            _ => continue,
        };
        let says = format!("not supported yet: {word}");
        if !list.contains(&says) {
            list.push(says);
        }
    }
    list
}
