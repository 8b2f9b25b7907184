//! `handbook`: one file a topic. Looks up, shows; works nothing out that the library does not.

mod answer;
mod args;
mod bearing;
mod center;
mod deflection;
mod dial;
mod drill;
mod eccentric;
mod fit;
mod heat;
mod key;
mod knurl;
mod material;
mod o_ring;
mod relief;
mod ring;
mod size;
mod speed;
mod taper;
mod thread;
mod thread_near;
mod whip;
mod wrench;

pub use args::HandbookArgs;

use args::Topic;

/// What the topic answers, ready to print.
///
/// # Errors
/// One sentence for the person: what could not be read or found, and what is near.
pub fn run(args: &HandbookArgs) -> Result<String, String> {
    let Some(topic) = &args.topic else {
        return Ok(topics());
    };
    let answer = match topic {
        Topic::Thread(a) => thread::answer(a),
        Topic::Fit(a) => fit::answer(a),
        Topic::Key(a) => key::answer(a),
        Topic::Center(a) => center::answer(a),
        Topic::Drill(a) => drill::answer(a),
        Topic::Taper(a) => taper::answer(a),
        Topic::Relief(a) => relief::answer(a),
        Topic::Ring(a) => ring::answer(a),
        Topic::ORing(a) => o_ring::answer(a),
        Topic::Bearing(a) => bearing::answer(a),
        Topic::Wrench(a) => wrench::answer(a),
        Topic::Knurl(a) => knurl::answer(a),
        Topic::Material(a) => material::answer(a),
        Topic::Speed(a) => speed::answer(a),
        Topic::Dial(a) => dial::answer(a),
        Topic::Deflection(a) => deflection::answer(a),
        Topic::Whip(a) => whip::answer(a),
        Topic::Heat(a) => heat::answer(a),
        Topic::Eccentric(a) => eccentric::answer(a),
    }?;
    Ok(answer.show(topic.show()))
}

/// The list that `handbook` alone prints.
fn topics() -> String {
    use std::fmt::Write;

    use clap::CommandFactory;
    let command = HandbookArgs::command();
    let mut text = String::from("Topics (turnwright handbook TOPIC --help says more):\n");
    for topic in command.get_subcommands().filter(|t| t.get_name() != "help") {
        let about = topic.get_about().map(ToString::to_string).unwrap_or_default();
        let _ = writeln!(text, "  {:<12}{about}", topic.get_name());
    }
    text
}
