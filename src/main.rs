//! The `turnwright` program: hand the arguments to the library and pass its exit code on.

fn main() -> std::process::ExitCode {
    println!("nothing yet");
    std::process::ExitCode::from(2)
}
