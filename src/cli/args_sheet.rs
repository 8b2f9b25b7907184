//! Arguments of `sheet`.

use std::path::PathBuf;

use clap::ValueEnum;

use super::args::seconds;

/// `sheet`.
#[expect(clippy::struct_excessive_bools, reason = "each is a switch of the command line")]
#[derive(Debug, Clone, clap::Args)]
pub struct SheetArgs {
    /// Part descriptions, folders of them, patterns; - is standard input.
    #[arg(required = true)]
    pub parts: Vec<PathBuf>,
    /// File to write (.html .pdf .typ .md .svg); - is standard output, then --format decides.
    #[arg(short, long, value_name = "OUT")]
    pub output: Option<PathBuf>,
    /// Folder to write one file a part into.
    #[arg(long, value_name = "DIR", conflicts_with = "output")]
    pub out_dir: Option<PathBuf>,
    /// Leave the sheets alone whose part, shop file and options are those they were made from (a record in DIR tells).
    #[arg(long, requires = "out_dir")]
    pub changed: bool,
    /// Write which files each sheet is made from, as rules for make or ninja.
    #[arg(long, value_name = "FILE")]
    pub depfile: Option<PathBuf>,
    /// Shop file that counts, whatever the descriptions name under `lathe`; it may lie anywhere.
    #[arg(long, value_name = "FILE")]
    pub shop: Option<PathBuf>,
    /// Kind of output where no ending says it.
    #[arg(long, value_enum)]
    pub format: Option<SheetFormat>,
    /// Paper.
    #[arg(long, value_enum, default_value = "letter")]
    pub paper: Paper,
    /// A page a setup; everything one below the other on as few pages as it takes; or bench cards.
    #[arg(long, value_enum, default_value = "full")]
    pub pages: Pages,
    /// Add the story strip: every face at full size along an edge.
    #[arg(long)]
    pub strip: bool,
    /// The form for measuring a worn sample instead, from a rough description or a filled form: for each size what the worn and the
    /// unworn place reads, what it is taken as and why; with --format yaml (or -o FORM.yaml) the form that `start --from-sample` reads.
    #[arg(long, conflicts_with_all = ["strip", "changed", "depfile"])]
    pub measure: bool,
    /// Language of the sheet; without it what the description says under `language:`, or English.
    #[arg(long, value_enum)]
    pub language: Option<SheetLanguage>,
    /// Folder whose sheet.html, .css, .js, .typ or .md stand in for the built-in ones (see templates/README.md).
    #[arg(long, value_name = "DIR")]
    pub templates: Option<PathBuf>,
    /// Longest search for the best order, in seconds.
    #[arg(long, default_value_t = 10.0, value_parser = seconds)]
    pub seconds: f64,
    /// Count warnings as errors in the exit code.
    #[arg(long)]
    pub strict: bool,
}

/// Languages of a sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum SheetLanguage {
    /// English.
    En,
    /// German: all that is printed on every sheet; findings, reasons and what was assumed stay English.
    De,
}

/// How a sheet is spread over pages.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Pages {
    /// A page a setup.
    Full,
    /// As few pages as it takes: for a simple part.
    Compact,
    /// A bench card a setup, half a sheet lying: for the rail of the lathe, beside the full sheet.
    Cards,
}

/// Kinds of sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum SheetFormat {
    /// One self-contained page for a browser or printer.
    Html,
    /// Through the `typst` program.
    Pdf,
    /// Typst source.
    Typ,
    /// Markdown.
    Md,
    /// The drawing of the part.
    Svg,
    /// The form for measuring a sample, to fill in (with --measure).
    Yaml,
}

/// Paper of a PDF or printed page.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Paper {
    /// 8.5 by 11 in.
    Letter,
    /// 210 by 297 mm.
    A4,
}
