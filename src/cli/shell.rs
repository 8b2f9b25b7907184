//! Completions for shells, and man pages: both made from the arguments themselves.

use std::fmt::Write;

use clap::{Command, CommandFactory};

use super::args::{Args, CompletionsArgs, ManArgs, SchemaArgs, SchemaOf};
use super::write;
use crate::editor::{Which, schema};

/// The name of the program.
const NAME: &str = "turnwright";

/// The completions of a shell.
pub(super) fn completions(args: &CompletionsArgs) -> String {
    let mut out = Vec::new();
    clap_complete::generate(args.shell, &mut Args::command(), NAME, &mut out);
    String::from_utf8_lossy(&out).into_owned()
}

/// The program's page, or a page for every command into a folder.
pub(super) fn man(args: &ManArgs) -> Result<String, String> {
    let mut command = Args::command();
    command.build();
    let Some(folder) = &args.out_dir else { return page(&command, NAME) };
    std::fs::create_dir_all(folder).map_err(|e| format!("cannot make the folder {}: {e}", folder.display()))?;
    let mut pages = vec![(NAME.to_owned(), page(&command, NAME)?)];
    for sub in command.get_subcommands().filter(|c| !c.is_hide_set() && c.get_name() != "help") {
        let name = format!("{NAME}-{}", sub.get_name());
        let page = page(sub, &name)?;
        pages.push((name, page));
    }
    let mut said = String::new();
    for (name, page) in pages {
        let path = folder.join(format!("{name}.1"));
        write::whole(&path, page.as_bytes())?;
        let _ = writeln!(said, "wrote {}", path.display());
    }
    Ok(said)
}

fn page(command: &Command, name: &str) -> Result<String, String> {
    let mut out = Vec::new();
    clap_mangen::Man::new(command.clone())
        .title(name.to_owned())
        .render(&mut out)
        .map_err(|e| format!("cannot make the page: {e}"))?;
    Ok(String::from_utf8_lossy(&out).into_owned())
}

/// The JSON Schema of a file.
pub(super) fn schema_of(args: &SchemaArgs) -> String {
    let which = match args.of {
        SchemaOf::Part => Which::Part,
        SchemaOf::Shop => Which::Shop,
    };
    let text = serde_json::to_string_pretty(&schema(which));
    text.unwrap_or_else(|e| format!("{{\"error\": \"{e}\"}}")) + "\n"
}
