//! Commands, options and their help.

use std::path::PathBuf;

pub(super) use super::args_sheet::{Pages, Paper, SheetArgs, SheetFormat, SheetLanguage};
use clap::{Parser, Subcommand, ValueEnum};

pub(super) use super::diff::args::DiffArgs;

/// From a part description, every length measured from one datum end, to the setup sheet you cut metal by.
#[derive(Debug, Parser)]
#[command(name = "turnwright", version, arg_required_else_help = true, subcommand_required = true)]
#[command(
    after_help = "Start with:\n  turnwright start -o part.yaml\n  turnwright check part.yaml\n  turnwright sheet part.yaml"
)]
pub struct Args {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Look the description over as a foreman would: do the lengths close, can it be made, held, assembled?
    #[command(
        after_help = "Example:\n  turnwright check samples/pulley-stub.yaml\n  turnwright check parts/ --format sarif\n\nExit: 0 fine, 1 errors that nobody accepted (with --strict also warnings), 2 could not run."
    )]
    Check(CheckArgs),
    /// Work out setups, order of operations and the numbers for the dials; say why.
    #[command(after_help = "Example:\n  turnwright plan samples/pulley-stub.yaml --format json")]
    Plan(PlanArgs),
    /// List the layout lines worth scribing: on the blank, and after roughing.
    #[command(after_help = "Example:\n  turnwright marks samples/pulley-stub.yaml")]
    Marks(MarksArgs),
    /// Make the setup sheet: HTML, PDF, Typst, Markdown or the drawing alone, by the ending of OUT.
    #[command(
        after_help = "Examples:\n  turnwright sheet samples/pulley-stub.yaml\n  turnwright sheet samples/pulley-stub.yaml -o stub.pdf --paper a4\n  turnwright sheet samples/pulley-stub.yaml samples/idler-shaft.yaml --out-dir sheets"
    )]
    Sheet(SheetArgs),
    /// Find or audit a tolerance chart: mean working dimensions, what comes off, what the finished faces keep.
    #[command(
        after_help = "Example:\n  turnwright chart samples/charts/spacer.yaml\n\nExit: 0 fine, 1 a limit is missed, too little comes off, or a face is out of reach, 2 could not run."
    )]
    Chart(ChartArgs),
    /// Compare two descriptions in the trade's terms: what changed on the part, which pages of the sheet to replace.
    #[command(
        after_help = "Example:\n  turnwright diff stub-rev-A.yaml stub-rev-B.yaml\n\nExit: 0 compared (changed or not), 1 the new one has errors or no sheet, 2 could not run."
    )]
    Diff(DiffArgs),
    /// From readings of a worn sample to what it was made as: threads, keys, bearings, seats; the likeliest first, and how to tell.
    #[command(
        after_help = "Examples:\n  turnwright identify --units in --major 0.613 --span \"0.456 over 5\"\n  turnwright identify --major \"13.8 mm\" --pitch \"1.5 mm\" --tpi 16\n  turnwright identify --units in --key-width 0.188 --key-arc 0.75 --shaft 0.874\n  turnwright identify --ring 6204-2RS --seat \"0.7865 in\" --carries bearing\n\nExit: 0 found, 1 nothing that was read is near a standard, 2 could not run."
    )]
    Identify(Box<super::identify::IdentifyArgs>),
    /// Judge the measured sizes of a part: what passes, what another cut can still save, what is scrap.
    #[command(
        after_help = "Examples:\n  turnwright inspect stub-measured.yaml\n  turnwright inspect stub-measured.yaml --rule guard-bands -o record.pdf\n\nExit: 0 nothing is wrong with what was measured, 1 recut, scrap or a reading that does not fit, 2 could not run."
    )]
    Inspect(InspectArgs),
    /// Say what a check looks for, why, and where its numbers come from.
    #[command(
        override_usage = "turnwright explain <CHECK | GROUP | RULE> [--format text|json]\n       turnwright explain --all",
        after_help = "Examples:\n  turnwright explain relief-width\n  turnwright explain threads\n  turnwright explain R9\n  turnwright explain --all"
    )]
    Explain(ExplainArgs),
    /// Look up threads, fits, keys, center holes, drills, tapers, reliefs, materials, speeds and the rest of the sleeve.
    Handbook(super::handbook::HandbookArgs),
    /// Look again whenever a part or its shop file is saved, and make the sheet anew.
    #[command(
        after_help = "Examples:\n  turnwright watch part.yaml\n  turnwright watch part.yaml -o part.html\n  turnwright watch parts/ --out-dir sheets\n\nCtrl-C stops it."
    )]
    Watch(WatchArgs),
    /// Print the JSON Schema of a part description or shop file, for editors.
    #[command(
        after_help = "Example:\n  turnwright schema part > part.schema.json\n\nThen the line\n  # yaml-language-server: $schema=part.schema.json\nin a description beside it gives completion and explanations in any editor with a YAML language server."
    )]
    Schema(SchemaArgs),
    /// Serve an editor over standard input and output (Language Server Protocol).
    #[command(
        after_help = "Example:\n  turnwright language-server\n\nAn editor starts it; it tells findings while you type, explains sizes and threads, completes and mends."
    )]
    LanguageServer,
    /// Print completions for a shell.
    #[command(
        after_help = "Example:\n  turnwright completions bash > ~/.local/share/bash-completion/completions/turnwright"
    )]
    Completions(CompletionsArgs),
    /// Print the man page, or write one for every command.
    #[command(after_help = "Example:\n  turnwright man --out-dir ~/.local/share/man/man1")]
    Man(ManArgs),
    /// Print a commented description to begin from.
    #[command(
        after_help = "Examples:\n  turnwright start -o part.yaml\n  turnwright start --units in --overall 7 --stock 1.25 --datum \"pulley end\" -o part.yaml\n  turnwright start --units mm --from lengths.csv --stock 40 --datum \"thick end\" -o part.yaml\n  turnwright sheet rough.yaml --measure -o form.yaml\n  turnwright start --from-sample form.yaml -o part.yaml"
    )]
    Start(StartArgs),
    /// Rewrite descriptions in place: canonical words, one space behind each colon and comma; nothing else changes.
    #[command(after_help = "Examples:\n  turnwright tidy part.yaml\n  turnwright tidy - < part.yaml > tidy.yaml")]
    Tidy(TidyArgs),
}

/// How a result is printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// For people.
    Text,
    /// For scripts.
    Json,
}

/// How the results of many parts are printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum BatchFormat {
    /// For people.
    Text,
    /// For scripts: an object for one part, an array for several.
    Json,
    /// For scripts: one object a line, as each part is done.
    Jsonl,
}

/// How findings are printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum CheckFormat {
    /// For people.
    Text,
    /// For scripts: an object for one part, an array for several.
    Json,
    /// For scripts: one object a line, as each part is done.
    Jsonl,
    /// For editors and continuous integration: SARIF 2.1.0.
    Sarif,
}

/// `check`.
#[derive(Debug, clap::Args)]
pub struct CheckArgs {
    /// Part descriptions, folders of them, patterns; - is standard input.
    #[arg(required_unless_present = "list")]
    pub parts: Vec<PathBuf>,
    /// How the result is printed.
    #[arg(long, value_enum, default_value = "text")]
    pub format: CheckFormat,
    /// Count warnings as errors in the exit code.
    #[arg(long)]
    pub strict: bool,
    /// Shop file that counts, whatever the descriptions name under `lathe`; it may lie anywhere.
    #[arg(long, value_name = "FILE")]
    pub shop: Option<PathBuf>,
    /// Only the check with this id; may be given several times.
    #[arg(long, value_name = "ID")]
    pub check: Vec<String>,
    /// Compare baseline, chain and direct dimensions for a pair of faces, such as "3.750 to 6.000" or "A end to far".
    #[arg(long, value_name = "A to B")]
    pub pair: Vec<String>,
    /// List the checks and leave.
    #[arg(long)]
    pub list: bool,
}

/// `plan`.
#[derive(Debug, clap::Args)]
pub struct PlanArgs {
    /// Part descriptions, folders of them, patterns; - is standard input.
    #[arg(required = true)]
    pub parts: Vec<PathBuf>,
    /// How the result is printed.
    #[arg(long, value_enum, default_value = "text")]
    pub format: BatchFormat,
    /// Longest search for the best order, in seconds.
    #[arg(long, default_value_t = 10.0, value_parser = seconds)]
    pub seconds: f64,
    /// Count warnings as errors in the exit code.
    #[arg(long)]
    pub strict: bool,
    /// Shop file that counts, whatever the descriptions name under `lathe`; it may lie anywhere.
    #[arg(long, value_name = "FILE")]
    pub shop: Option<PathBuf>,
    /// The files are replies of `plan --format json`: look at their orders again, without a search.
    #[arg(long)]
    pub verify: bool,
}

/// `marks`.
#[derive(Debug, clap::Args)]
pub struct MarksArgs {
    /// Part descriptions, folders of them, patterns; - is standard input.
    #[arg(required = true)]
    pub parts: Vec<PathBuf>,
    /// Shop file that counts, whatever the descriptions name under `lathe`; it may lie anywhere.
    #[arg(long, value_name = "FILE")]
    pub shop: Option<PathBuf>,
    /// How the result is printed.
    #[arg(long, value_enum, default_value = "text")]
    pub format: BatchFormat,
}

/// `chart`.
#[derive(Debug, clap::Args)]
pub struct ChartArgs {
    /// Charts; - is standard input.
    #[arg(required = true)]
    pub charts: Vec<PathBuf>,
    /// How the result is printed.
    #[arg(long, value_enum, default_value = "text")]
    pub format: Format,
    /// Count warnings as errors in the exit code.
    #[arg(long)]
    pub strict: bool,
}

/// `inspect`.
#[derive(Debug, clap::Args)]
pub struct InspectArgs {
    /// Part descriptions with `measured:`; - is standard input.
    #[arg(required = true)]
    pub parts: Vec<PathBuf>,
    /// How the result is printed.
    #[arg(long, value_enum, default_value = "text")]
    pub format: Format,
    /// File to write the inspection record into (.html .pdf .csv .json).
    #[arg(short, long, value_name = "OUT")]
    pub output: Option<PathBuf>,
    /// Paper of the record.
    #[arg(long, value_enum, default_value = "letter")]
    pub paper: super::args_sheet::Paper,
    /// Shop file that counts, whatever the descriptions name under `lathe`; it may lie anywhere.
    #[arg(long, value_name = "FILE")]
    pub shop: Option<PathBuf>,
    /// How the uncertainty of a reading counts.
    #[arg(long, value_enum, default_value = "simple")]
    pub rule: DecisionRule,
    /// Longest search for the best order, in seconds.
    #[arg(long, default_value_t = 10.0, value_parser = seconds)]
    pub seconds: f64,
}

/// Decision rules.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum DecisionRule {
    /// Simple acceptance: within the limits is accepted.
    Simple,
    /// Guard bands of 0.825 of the expanded uncertainty (ISO 14253-1:2017, probability of conformity 95 %).
    GuardBands,
    /// Guard bands as wide as the expanded uncertainty (ISO 14253-1:2013).
    FullGuardBands,
}

/// `explain`.
#[derive(Debug, clap::Args)]
pub struct ExplainArgs {
    /// Id of a check, a group of checks, or a rule of the plan (`R9`).
    #[arg(value_name = "CHECK | GROUP | RULE", required_unless_present = "all")]
    pub id: Option<String>,
    /// Every check.
    #[arg(long)]
    pub all: bool,
    /// How the result is printed.
    #[arg(long, value_enum, default_value = "text")]
    pub format: Format,
}

/// `watch`.
#[derive(Debug, clap::Args)]
pub struct WatchArgs {
    /// What to make after every save; without a file or folder to write, findings alone are shown.
    #[command(flatten)]
    pub sheet: SheetArgs,
}

/// `schema`.
#[derive(Debug, clap::Args)]
pub struct SchemaArgs {
    /// Which file.
    #[arg(value_enum)]
    pub of: SchemaOf,
}

/// The two files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum SchemaOf {
    /// A part description.
    Part,
    /// A shop file.
    Shop,
}

/// `completions`.
#[derive(Debug, clap::Args)]
pub struct CompletionsArgs {
    /// The shell.
    #[arg(value_enum)]
    pub shell: clap_complete::Shell,
}

/// `man`.
#[derive(Debug, clap::Args)]
pub struct ManArgs {
    /// Folder to write a page for every command into.
    #[arg(long, value_name = "DIR")]
    pub out_dir: Option<PathBuf>,
}

/// `start`.
#[derive(Debug, clap::Args)]
pub struct StartArgs {
    /// Units; inches for the bare example, to be said with answers.
    #[arg(long, value_enum)]
    pub units: Option<StartUnits>,
    /// File to write; an existing one is refused.
    #[arg(short, long, value_name = "OUT")]
    pub output: Option<PathBuf>,
    /// Name of the part.
    #[arg(long, value_name = "NAME")]
    pub part: Option<String>,
    /// Overall length, with limits if it has any.
    #[arg(long, value_name = "SIZE")]
    pub overall: Option<String>,
    /// Diameter of the bar, or diameter x saw length.
    #[arg(long, value_name = "SIZE")]
    pub stock: Option<String>,
    /// Name of the end every length is measured from.
    #[arg(long, value_name = "NAME")]
    pub datum: Option<String>,
    /// Grade and condition.
    #[arg(long, value_name = "WORDS")]
    pub material: Option<String>,
    /// A plain table from a spreadsheet, one row a feature: kind, size, to, and what else they need; - is standard input.
    #[arg(long, value_name = "CSV")]
    pub from: Option<PathBuf>,
    /// A filled form for measuring a worn sample (`sheet --measure --format yaml` writes the empty one); - is standard input.
    #[arg(long, value_name = "FORM", conflicts_with_all = ["from", "units", "part", "overall", "stock", "datum", "material"])]
    pub from_sample: Option<PathBuf>,
}

/// `tidy`.
#[derive(Debug, clap::Args)]
pub struct TidyArgs {
    /// Part descriptions; - reads standard input and prints the result.
    #[arg(required = true)]
    pub parts: Vec<PathBuf>,
    /// Print the result instead of rewriting the file.
    #[arg(long, visible_alias = "format")]
    pub print: bool,
    /// Change nothing; exit 1 where something would change.
    #[arg(long, conflicts_with = "print")]
    pub check: bool,
}

/// Units of the example that `start` prints.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum StartUnits {
    /// Inches.
    In,
    /// Millimetres.
    Mm,
}

pub(super) fn seconds(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(s) if s.is_finite() && (0.0..=86_400.0).contains(&s) => Ok(s),
        _ => Err("say a number of seconds from 0 to 86400".to_owned()),
    }
}
