//! Tests of the program as its users meet it: arguments in, text and codes out.

mod codes;
mod faults;
mod json;
mod kill_sheet;
mod output;
mod papers;
mod steps;
mod trips;

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// The moment for which all tests ask, so that ages stand still.
const AS_OF: &str = "2026-12-01T06:00Z";

/// The program, at the root of the repository, without the caller's wishes for colour.
fn program(arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_rigwright"));
    command.args(arguments).current_dir(root());
    for wish in ["NO_COLOR", "CLICOLOR", "CLICOLOR_FORCE", "COLUMNS", "TERM"] {
        command.env_remove(wish);
    }
    command
}

/// What it says and how it ends.
fn run(arguments: &[&str]) -> Output {
    program(arguments).output().expect("the program runs")
}

fn code(output: &Output) -> Option<i32> {
    output.status.code()
}

fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).expect("the output is text")
}

fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).expect("the errors are text")
}

fn root() -> &'static Path {
    Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../.."))
}

/// An empty folder of one test's own.
fn folder(name: &str) -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).expect("a folder for the test");
    folder
}

/// A copy of an example well with its rigs in a folder, changed by replacing texts that must be there.
fn changed(name: &str, well: &str, changes: &[(&str, &str)]) -> String {
    let folder = folder(name);
    std::fs::create_dir_all(folder.join("rigs")).expect("a folder for rigs");
    for rig in ["anvil-12.toml", "harrow-3.toml"] {
        let text = std::fs::read_to_string(root().join("examples/rigs").join(rig)).expect("the rig is there");
        std::fs::write(folder.join("rigs").join(rig), change(text, changes)).expect("the rig is written");
    }
    let text = std::fs::read_to_string(root().join("examples").join(format!("{well}.toml"))).expect("the well is there");
    let before = text.clone();
    let text = change(text, changes);
    let rig = std::fs::read_to_string(root().join("examples/rigs/anvil-12.toml")).expect("the rig is there");
    for (from, _) in changes {
        assert!(before.contains(from) || rig.contains(from), "nothing to change: {from}");
    }
    let file = folder.join(format!("{well}.toml"));
    std::fs::write(&file, text).expect("the well is written");
    file.to_string_lossy().into_owned()
}

fn change(mut text: String, changes: &[(&str, &str)]) -> String {
    for (from, to) in changes {
        text = text.replace(from, to);
    }
    text
}
