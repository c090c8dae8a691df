//! Automation: `cargo xtask test` is the whole test run; `validation` and `docs` write the generated pages.
#![allow(clippy::print_stdout, clippy::print_stderr, reason = "a program for the terminal")]

mod growth;
mod manual;
mod outside;
mod pages;
mod test;
mod validation;

use std::process::ExitCode;

const USAGE: &str = "\
cargo xtask test                  the whole test run, as .ci/run does it
cargo xtask validation [--check]  writes docs/validation.md, or checks that it is current
cargo xtask docs [--check]        writes docs/manual, or checks that it is current
cargo xtask screenshots           puts the screenshots of the README, made by the last test run, into docs/screenshots
cargo xtask growth                instructions a situation as their number grows (needs valgrind)";

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let result = match words[..] {
        // Its last line is the sum of all tests, failed or not.
        ["screenshots"] => screenshots(),
        ["growth"] => growth::table().map(|table| println!("{table}")),
        ["test"] => return test::run(),
        ["validation"] => validation::pages().and_then(|pages| pages::write(&pages)),
        ["validation", "--check"] => validation::pages().and_then(|pages| pages::check(&pages)),
        ["docs"] => manual::pages().and_then(|pages| pages::write(&pages)),
        ["docs", "--check"] => manual::pages().and_then(|pages| pages::check(&pages)),
        _ => Err(USAGE.to_owned()),
    };
    match result {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("{why}");
            ExitCode::FAILURE
        }
    }
}

/// Screenshots that the README shows, by the name that the browser tests give them.
const SHOWN: [(&str, &str); 2] = [("sheet-paper-1440.png", "sheet.png"), ("kill-night-1440.png", "kill-desk.png")];

/// Copies the screenshots of the README from where the browser tests put them.
fn screenshots() -> Result<(), String> {
    let (from, to) = (pages::target().join("tmp/screenshots"), pages::root().join("docs/screenshots"));
    std::fs::create_dir_all(&to).map_err(|error| format!("docs/screenshots: {error}"))?;
    for (made, name) in SHOWN {
        let place = from.join(made);
        std::fs::copy(&place, to.join(name))
            .map_err(|error| format!("{}: {error}; `cargo xtask test` makes it", place.display()))?;
    }
    Ok(())
}
