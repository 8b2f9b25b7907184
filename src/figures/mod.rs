//! Every number the hands need for a fixed plan, in its own frame, worked out and labelled.
//!
//! JSON and sheet are both filled from [`Figures`], and neither computes. Lengths are exact with the digits they are shown with ([`Figure`]); speeds, angles and times are
//! floating point. Without a shop file there is no cross-dial, thread-dial or gearbox number, only sizes.

pub mod dial;
mod figure;
mod flip;
mod inspection;
mod keyseat_cut;
mod marks;
mod operation;
mod passes;
mod positions;
mod setup;
mod speed;
mod thread_cut;
mod tools;

pub use dial::{CrossDial, DialReading, Touch};
pub use figure::{Figure, SizeLimits, aim};
pub use flip::Correction;
pub use inspection::{Inspected, InspectionRow};
pub use keyseat_cut::{KeyseatCut, Reach};
pub use marks::{Leave, Mark, MarkList, Marks};
pub use operation::{CenterCut, ChamferCut, Job, OperationFigures, TaperCut};
pub use passes::{Cut, Passes, default_rough_depth};
pub use positions::{Edge, Position};
pub use setup::{CarriageZero, SetupFigures};
pub use speed::{Speed, SpeedLimit};
pub use thread_cut::{Compound, Engage, Gearbox, Indexing, ThreadCut, Wires};
pub use tools::Layout;

use crate::model::plan::Assumed;

/// All numbers of a plan.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Figures {
    /// One for each of the plan's setups, in its order.
    pub setups: Vec<SetupFigures>,
    /// Lines to scribe.
    pub marks: Marks,
    /// Every toleranced size, with what measures it.
    pub inspection: Vec<InspectionRow>,
    /// What to lay out before the first chip.
    pub layout: Layout,
    /// The cautions this part earns, about six.
    pub cautions: Vec<String>,
    /// Everything used that nobody stated, the plan's assumptions first.
    pub assumed: Vec<Assumed>,
    /// What is known to the trade and not worked yet, by name.
    pub not_supported: Vec<String>,
}
