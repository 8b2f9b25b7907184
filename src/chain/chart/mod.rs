//! The tolerance chart: faces and cuts, mean working dimensions, what each cut takes off, what the finished faces keep.
//!
//! [`work`] takes a chart as it is written, or as [`of_plan`] makes it of a plan, and finds or audits it. Means, closures and
//! verdicts are exact integers; only the sharing of tolerances runs through a linear program, and what it says is judged again.
//!
//! Sources: states and cuts as a rooted tree (Whybrew and Britton; Xue and Ji, J. Mater. Process. Technol. 123, 2002, 93-99),
//! tolerances by linear programming (Irani, Mittal and Lehtihet, Int. J. Prod. Res. 27, 1989, 1531). Max-min for one part, and
//! measuring to retarget, are our own.
//!
//! | file | |
//! |---|---|
//! | `tree` | states of faces, joined by cuts; paths |
//! | `means` | mean working dimensions |
//! | `allot` | tolerances by linear programs, and their dual |
//! | `proof` | the greatest factor, proven in exact fractions |
//! | `work` | the chart found or audited |
//! | `retarget` | one part: measure, and correct the last cut |
//! | `of_plan` | the chart of a plan |

mod allot;
mod charted;
mod good;
mod means;
mod of_plan;
mod proof;
mod retarget;
mod tree;
mod work;
mod zero;

pub use charted::{Charted, ZeroGain, charted};
pub use of_plan::{PlanChart, of_plan};
pub use proof::Proof;
pub use retarget::{Retarget, Retargeted, retarget};
pub use tree::Misplaced;
pub use work::{Made, Resultant, StockRow, Worked, work};
