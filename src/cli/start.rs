//! `start`: a commented description to begin from.

use super::args::{StartArgs, StartUnits};
use super::write;
use crate::read::{START_INCH, START_MM};

/// Prints the example, or writes it to a file that does not exist yet.
pub(super) fn run(args: &StartArgs) -> Result<String, String> {
    let text = match args.units {
        StartUnits::In => START_INCH,
        StartUnits::Mm => START_MM,
    };
    match &args.output {
        Some(path) if path.as_os_str() != "-" => {
            write::new_file(path, text.as_bytes())?;
            let path = path.display();
            Ok(format!("wrote {path}; edit it, then: turnwright check {path}\n"))
        }
        _ => Ok(text.to_owned()),
    }
}
