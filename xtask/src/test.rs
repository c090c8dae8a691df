//! The whole test run. One failure does not stop it, so that one run shows all.

use std::io::{BufRead, BufReader};
use std::process::{Command, ExitCode, Stdio};
use std::time::Instant;

use crate::{manual, outside, pages, validation};

/// Everything is tested: the page in a browser, and papers with the typesetter.
const FEATURES: &str = "--features=rigwright-web/browser,rigwright-cli/pdf";

/// How many checks came out how.
#[derive(Clone, Copy, Default)]
struct Count {
    passed: usize,
    failed: usize,
}

/// One part of the run.
struct Step {
    name: &'static str,
    count: Count,
    seconds: f64,
}

/// Runs every step and ends with the sums.
pub(crate) fn run() -> ExitCode {
    let steps = [
        step("tools", || held(install())),
        step("format", || one(cargo(&["fmt", "--all", "--check"]))),
        step("lints", || one(cargo(&["clippy", "--quiet", "--workspace", "--all-targets", FEATURES, "--", "-D", "warnings"]))),
        step("tests", || counted(cargo(&["test", "--workspace", FEATURES, "--no-fail-fast"]))),
        step("documentation", || {
            let mut command = cargo(&["doc", "--quiet", "--workspace", "--no-deps", FEATURES]);
            command.env("RUSTDOCFLAGS", "-D warnings");
            one(command)
        }),
        step("validation report", || held(validation::pages().and_then(|pages| pages::check(&pages)))),
        step("manual", || held(manual::pages().and_then(|pages| pages::check(&pages)))),
        step("first command of the README", first_command),
    ];
    println!();
    for step in &steps {
        println!("{:<28} {:>5} passed {:>3} failed {:>7.1} s", step.name, step.count.passed, step.count.failed, step.seconds);
    }
    let sum = |of: fn(&Count) -> usize| steps.iter().map(|step| of(&step.count)).sum::<usize>();
    let (passed, failed) = (sum(|count| count.passed), sum(|count| count.failed));
    println!("{passed} passed, {failed} failed");
    if failed == 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

/// What a bare Rust may lack.
fn install() -> Result<(), String> {
    for (tool, component) in [("fmt", "rustfmt"), ("clippy", "clippy")] {
        let present = cargo(&[tool, "--version"]).stdout(Stdio::null()).stderr(Stdio::null()).status();
        if !present.is_ok_and(|status| status.success()) {
            let added = Command::new("rustup").args(["component", "add", component]).status();
            if !added.is_ok_and(|status| status.success()) {
                return Err(format!("{component} is missing, and `rustup component add {component}` does not bring it"));
            }
        }
    }
    outside::install()
}

fn step(name: &'static str, check: impl FnOnce() -> Count) -> Step {
    println!("\n=== {name}");
    let start = Instant::now();
    let count = check();
    Step { name, count, seconds: start.elapsed().as_secs_f64() }
}

fn cargo(arguments: &[&str]) -> Command {
    let mut command = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    command.args(arguments).current_dir(pages::root());
    command
}

/// A command that is one check: its exit code says how it went.
fn one(mut command: Command) -> Count {
    let status = command.status().map_err(|error| error.to_string());
    held(status.and_then(|status| if status.success() { Ok(()) } else { Err(format!("{status}")) }))
}

fn held(result: Result<(), String>) -> Count {
    match result {
        Ok(()) => Count { passed: 1, failed: 0 },
        Err(why) => {
            println!("{why}");
            Count { passed: 0, failed: 1 }
        }
    }
}

/// A test run: shows its output and adds up the closing lines of all test binaries.
fn counted(mut command: Command) -> Count {
    let mut count = Count::default();
    let Ok(mut child) = command.env("RUST_BACKTRACE", "0").stdout(Stdio::piped()).spawn() else {
        return held(Err("cargo does not start".into()));
    };
    if let Some(output) = child.stdout.take() {
        for line in BufReader::new(output).lines().map_while(Result::ok) {
            if let Some((passed, failed)) = closing_line(&line) {
                count.passed += passed;
                count.failed += failed;
            }
            // The hundreds of single passes say nothing that the sum does not.
            if !line.ends_with(" ... ok") {
                println!("{line}");
            }
        }
    }
    let well = child.wait().is_ok_and(|status| status.success());
    if !well && count.failed == 0 {
        // It did not build, or a test binary ended without a closing line.
        count.failed = 1;
    }
    count
}

/// The numbers of "test result: ok. 12 passed; 0 failed; ...".
fn closing_line(line: &str) -> Option<(usize, usize)> {
    let rest = line.strip_prefix("test result: ")?;
    let number = |word: &str| {
        let before = rest.split(word).next()?;
        before.rsplit([' ', '.']).find(|part| !part.is_empty())?.parse().ok()
    };
    Some((number(" passed")?, number(" failed")?))
}

/// What a newcomer types first must work: the first `cargo run` of the README, with its own words.
fn first_command() -> Count {
    let readme = match std::fs::read_to_string(pages::root().join("README.md")) {
        Ok(readme) => readme,
        Err(error) => return held(Err(format!("README.md: {error}"))),
    };
    let Some(line) = readme.lines().find(|line| line.starts_with("cargo run ")) else {
        return held(Err("README.md has no line that begins with `cargo run`".into()));
    };
    println!("{line}");
    let arguments: Vec<&str> = line.split_whitespace().skip(1).collect();
    let output = match cargo(&arguments).stderr(Stdio::inherit()).output() {
        Ok(output) => output,
        Err(error) => return held(Err(error.to_string())),
    };
    let shown = String::from_utf8_lossy(&output.stdout);
    println!("{shown}");
    // 0: all holds; 3: nothing is short, and something in pressure control is unknown.
    let ended = matches!(output.status.code(), Some(0 | 3));
    if ended && !shown.trim().is_empty() { held(Ok(())) } else { held(Err(format!("it ends with {}", output.status))) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_closing_lines_are_read() {
        let line = "test result: ok. 12 passed; 0 failed; 0 ignored; 0 measured; 0 filtered out; finished in 0.18s";
        assert_eq!(closing_line(line), Some((12, 0)));
        let line = "test result: FAILED. 4 passed; 13 failed; 0 ignored; 0 measured; 0 filtered out; finished in 0.11s";
        assert_eq!(closing_line(line), Some((4, 13)));
        assert_eq!(closing_line("test result of a sort"), None);
        assert_eq!(closing_line("running 3 tests"), None);
    }
}
