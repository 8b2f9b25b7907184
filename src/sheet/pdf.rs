//! PDF through the `typst` program.

use std::fmt;
use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use super::packed::packed;
use super::templates::Templates;
use super::typst::{typst, typst_with};
use super::view::View;

/// Environment variable that names the program.
pub const PROGRAM_VARIABLE: &str = "TURNWRIGHT_TYPST";
/// How to get the program.
pub const HOW_TO_GET: &str = "cargo install --locked typst-cli@0.15.1 --root target/tools";
/// How long the program may take; a sheet takes well under a second.
const TIME_LIMIT: Duration = Duration::from_secs(60);
/// The discard port of this machine (RFC 863): nothing listens there.
const NOWHERE: &str = "http://127.0.0.1:9";
/// Longest message of the program that is passed on.
const MESSAGE: usize = 2000;

/// Why there is no PDF.
#[derive(Debug)]
pub enum NoPdf {
    /// The program is not there.
    NoProgram {
        /// Where it was looked for.
        looked_in: Vec<String>,
    },
    /// It could not be run, or a file could not be written.
    Io {
        /// What was tried.
        doing: String,
        /// What the system says.
        error: io::Error,
    },
    /// It refused the source.
    Refused {
        /// Program.
        program: PathBuf,
        /// Its message.
        message: String,
    },
    /// It took too long and was ended.
    TooLong {
        /// Program.
        program: PathBuf,
        /// How long it might take.
        limit: Duration,
    },
}

impl fmt::Display for NoPdf {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoProgram { looked_in } => write!(
                f,
                "the program typst, which sets PDFs, is not here (looked in {}).\n\
                 Get it with `{HOW_TO_GET}`, or name it in {PROGRAM_VARIABLE}.\n\
                 HTML needs nothing: write to a name that ends in .html and print that",
                looked_in.join(", ")
            ),
            Self::Io { doing, error } => write!(f, "{doing}: {error}"),
            Self::Refused { program, message } => {
                write!(f, "{} did not set the sheet: {message}", program.display())
            }
            Self::TooLong { program, limit } => {
                write!(f, "{} took more than {} s and was ended", program.display(), limit.as_secs_f64())
            }
        }
    }
}

impl std::error::Error for NoPdf {}

fn io_error(doing: impl Into<String>) -> impl FnOnce(io::Error) -> NoPdf {
    let doing = doing.into();
    move |error| NoPdf::Io { doing, error }
}

/// The `typst` program: named in `TURNWRIGHT_TYPST`, on the path, or in `tools/bin` beside the folder this program was built in.
///
/// # Errors
/// [`NoPdf::NoProgram`] says where it was looked for and how to get it.
pub fn program() -> Result<PathBuf, NoPdf> {
    if let Some(named) = std::env::var_os(PROGRAM_VARIABLE) {
        let path = PathBuf::from(&named);
        let missing = || NoPdf::NoProgram { looked_in: vec![format!("{PROGRAM_VARIABLE}={}", path.display())] };
        return if path.is_file() { Ok(path) } else { Err(missing()) };
    }
    let name = format!("typst{}", std::env::consts::EXE_SUFFIX);
    let on_path = std::env::var_os("PATH").map(|p| std::env::split_paths(&p).collect::<Vec<_>>()).unwrap_or_default();
    let own = std::env::current_exe().ok();
    let beside = own.iter().flat_map(|exe| exe.ancestors().skip(1).take(3).map(|d| d.join("tools/bin")));
    let tools = beside.chain([PathBuf::from("target/tools/bin")]);
    on_path
        .into_iter()
        .chain(tools)
        .map(|dir| dir.join(&name))
        .find(|p| p.is_file())
        .ok_or_else(|| NoPdf::NoProgram { looked_in: vec!["the path".to_owned(), "target/tools/bin".to_owned()] })
}

/// Sets the sheet as a tagged PDF (PDF/UA-1): the same bytes for the same view.
///
/// # Errors
/// When the program is missing, cannot run, refuses the source or takes too long.
pub fn pdf(view: &View) -> Result<Vec<u8>, NoPdf> {
    pdf_of(view, &Templates::default())
}

/// The same with other templates.
///
/// # Errors
/// As [`pdf`]; what is refused is told by the template's file and line.
pub fn pdf_of(view: &View, templates: &Templates) -> Result<Vec<u8>, NoPdf> {
    run(&program()?, &typst_with(view, templates), templates, TIME_LIMIT)
}

/// The same with this program.
///
/// # Errors
/// As [`pdf`].
pub fn pdf_with(program: &Path, view: &View) -> Result<Vec<u8>, NoPdf> {
    run(program, &typst(view), &Templates::default(), TIME_LIMIT)
}

/// Sets any Typst source within a time limit. The program sees a folder of its own and no other (`--root`), finds no packages there,
/// and no way to the network: what it is told of proxies leads nowhere.
///
/// # Errors
/// As [`pdf`].
pub fn pdf_of_source(program: &Path, source: &str, limit: Duration) -> Result<Vec<u8>, NoPdf> {
    run(program, source, &Templates::default(), limit)
}

fn run(program: &Path, text: &str, templates: &Templates, limit: Duration) -> Result<Vec<u8>, NoPdf> {
    let folder =
        tempfile::Builder::new().prefix("turnwright-").tempdir().map_err(io_error("a folder for the PDF's source"))?;
    let (source, target, log) =
        (folder.path().join("sheet.typ"), folder.path().join("sheet.pdf"), folder.path().join("log"));
    let (fonts, packages) = (folder.path().join("fonts"), folder.path().join("packages"));
    let write = |path: &Path, bytes: &[u8]| fs::write(path, bytes).map_err(io_error(path.display().to_string()));
    fs::create_dir(&fonts).map_err(io_error(fonts.display().to_string()))?;
    write(&fonts.join("NotoSans-Regular.ttf"), notosans::REGULAR_TTF)?;
    write(&fonts.join("NotoSans-Bold.ttf"), notosans::BOLD_TTF)?;
    write(&source, text.as_bytes())?;
    let errors = File::create(&log).map_err(io_error(log.display().to_string()))?;
    let mut command = Command::new(program);
    command
        .args(["compile", "--pdf-standard", "ua-1", "--creation-timestamp", "0"])
        .args(["--ignore-system-fonts", "--ignore-embedded-fonts", "--diagnostic-format", "short", "--font-path"])
        .arg(&fonts)
        .arg("--root")
        .arg(folder.path())
        // No package is read from this machine or fetched from another.
        .arg("--package-path")
        .arg(&packages)
        .arg("--package-cache-path")
        .arg(&packages)
        .arg(&source)
        .arg(&target)
        .current_dir(folder.path())
        .env_remove("TYPST_FONT_PATHS")
        .env_remove("TYPST_ROOT")
        .env_remove("NO_PROXY")
        .env_remove("no_proxy")
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(errors);
    for way in ["HTTP_PROXY", "HTTPS_PROXY", "ALL_PROXY", "http_proxy", "https_proxy", "all_proxy"] {
        command.env(way, NOWHERE);
    }
    if !finished(program, &mut command, limit)? {
        let said = fs::read(&log).unwrap_or_default();
        // The program names the copy it was given; the reader wants the file to mend.
        let said = String::from_utf8_lossy(&said).replace("sheet.typ:", &format!("{}:", templates.called("sheet.typ")));
        let message: String = said.trim().chars().take(MESSAGE).collect();
        return Err(NoPdf::Refused { program: program.to_path_buf(), message });
    }
    fs::read(&target).map(packed).map_err(io_error(target.display().to_string()))
}

/// Whether the program ended well within the time limit.
fn finished(program: &Path, command: &mut Command, limit: Duration) -> Result<bool, NoPdf> {
    let running = || format!("running {}", program.display());
    let mut child = command.spawn().map_err(io_error(running()))?;
    let begun = Instant::now();
    loop {
        if let Some(status) = child.try_wait().map_err(io_error(running()))? {
            return Ok(status.success());
        }
        if begun.elapsed() > limit {
            let _ = child.kill();
            let _ = child.wait();
            return Err(NoPdf::TooLong { program: program.to_path_buf(), limit });
        }
        std::thread::sleep(Duration::from_millis(2));
    }
}
