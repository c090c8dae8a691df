//! One file a command.

mod calc;
mod check;
mod completions;
mod due;
mod explain;
mod figure;
mod kill_sheet;
mod leak_off;
mod limits_card;
mod man;
mod new;
mod papers;
mod propose;
mod review;
mod serve;
mod steps;
mod trip_sheet;

use crate::args::Command;
use crate::failure::{Failure, fault};
use rigwright_wellfile::{Disk, Loaded, read};
use std::io;
use std::path::Path;

/// Runs a command: its code, or why it has none.
pub(crate) fn run(command: Command) -> Result<io::Result<u8>, Failure> {
    let code = match command {
        Command::Review(args) => review::run(&args),
        Command::Explain(args) => explain::run(&args),
        Command::Propose(args) => propose::run(&args),
        Command::Check(args) => check::run(&args),
        Command::Calc(args) => calc::run(&args),
        Command::Figure(args) => figure::run(&args),
        Command::KillSheet(args) => kill_sheet::run(&args),
        Command::Due(args) => due::run(&args),
        Command::LeakOff(args) => leak_off::run(&args),
        Command::Steps(args) => steps::run(&args),
        Command::LimitsCard(args) => limits_card::run(&args),
        Command::TripSheet(args) => trip_sheet::run(&args),
        Command::Papers(args) => papers::run(&args),
        Command::New(args) => new::run(&args),
        Command::Serve(args) => serve::run(&args),
        Command::Completions(args) => completions::run(&args),
        Command::Man(_) => man::run(),
    }?;
    Ok(Ok(code))
}

impl Command {
    /// Whether what goes wrong should be told as JSON too.
    pub(crate) fn wants_json(&self) -> bool {
        match self {
            Command::Review(args) => args.form.json,
            Command::Explain(args) => args.form.json,
            Command::Propose(args) => args.form.json,
            Command::Check(args) => args.json,
            Command::Calc(args) => args.form.json,
            Command::KillSheet(args) => args.form.json,
            Command::Due(args) => args.json,
            Command::LeakOff(args) => args.form.json,
            Command::Steps(args) => args.form.json,
            Command::LimitsCard(args) => args.form.json,
            Command::TripSheet(args) => args.form.json,
            Command::Figure(_)
            | Command::Papers(_)
            | Command::New(_)
            | Command::Serve(_)
            | Command::Completions(_)
            | Command::Man(_) => false,
        }
    }
}

/// Reads a well with the rig that it names, or with another.
fn load(well: &str, rig: Option<&str>) -> Result<Loaded, Failure> {
    read(well, rig, &Disk).map_err(Failure::from)
}

/// Writes what a command made into a file.
fn write_file(file: impl AsRef<Path>, bytes: &[u8]) -> Result<(), Failure> {
    std::fs::write(&file, bytes).map_err(|error| {
        let message = format!("`{}` cannot be written: {error}", file.as_ref().display());
        fault(message, "does the folder exist, and may you write there?").into()
    })
}
