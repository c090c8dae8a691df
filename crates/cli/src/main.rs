//! The program: reads arguments, files and the clock, runs one command, prints what it has to say, and ends with a code
//! that a script can act on. It computes nothing itself.

#![allow(clippy::print_stdout, clippy::print_stderr, reason = "this is the one crate that prints")]

mod args;
mod commands;
mod failure;
mod lookup;
mod print;

use clap::Parser;
use std::process::ExitCode;

#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

/// Everything holds or is thin, or a command without a verdict did its work.
pub(crate) const HOLDS: u8 = 0;
/// Something is short.
pub(crate) const SHORT: u8 = 1;
/// The input is wrong.
pub(crate) const WRONG_INPUT: u8 = 2;
/// Nothing is short but something that matters is unknown.
pub(crate) const UNKNOWN: u8 = 3;

fn main() -> ExitCode {
    let args = args::Args::parse();
    let json = args.command.wants_json();
    let ended = commands::run(args.command).unwrap_or_else(|failure| failure.tell(json));
    match ended {
        Ok(code) => ExitCode::from(code),
        // Whoever reads has seen enough.
        Err(error) if error.kind() == std::io::ErrorKind::BrokenPipe => ExitCode::from(HOLDS),
        Err(error) => {
            eprintln!("error: the result cannot be written: {error}");
            ExitCode::from(WRONG_INPUT)
        }
    }
}
