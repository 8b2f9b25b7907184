//! The `turnwright` program: hand the arguments to the library and pass its exit code on.

use clap::Parser;

fn main() -> std::process::ExitCode {
    std::process::ExitCode::from(turnwright::cli::run(&turnwright::cli::Args::parse()))
}
