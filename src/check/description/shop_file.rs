#![doc = include_str!("shop_file.md")]

use crate::check::{Check, Facts};
use crate::finding::{Finding, Severity};
use crate::model::slip::{Fault, Stray};

use super::of_slip;

/// The check.
pub const CHECK: Check = Check {
    id: "shop-file",
    severity: Severity::Error,
    group: "description",
    source: "common practice, no source",
    page: include_str!("shop_file.md"),
    look,
};

fn look(facts: &Facts<'_>, out: &mut Vec<Finding>) {
    for slip in facts.slips {
        let Fault::Stray { name, why } = &slip.fault else { continue };
        let message = format!("`{name}` is not read as the shop file: {}", reason(*why));
        out.push(
            of_slip::finding(facts, &CHECK, slip, message)
                .help(
                    "Name a .yaml file in the part's folder or beneath (`shop.yaml`), beside that folder (`../lathes/shop.yaml`) \
                     or in one above (`../../shop.yaml`)",
                )
                .help("Or say `--shop FILE` on the command line: what you name there may lie anywhere, and goes before `lathe`"),
        );
    }
}

const fn reason(why: Stray) -> &'static str {
    match why {
        Stray::Root => "its name begins at the root of the machine, not at the part's folder",
        Stray::Home => "its name begins at somebody's home, not at the part's folder",
        Stray::Drive => "its name has a drive or a backslash; folders are parted by `/` on every system",
        Stray::Away => "its name leads away from the part's folder",
        Stray::Link => "a link in that place leads away from the part's folder",
        Stray::Ending => "it does not end in .yaml",
        Stray::NoShop => "at most a few of its keys are those of a shop file, and nothing of it is shown",
    }
}
