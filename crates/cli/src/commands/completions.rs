//! `completions`: a script with which a shell completes what is typed.

use crate::args::{self, Args};
use crate::failure::Failure;
use crate::{HOLDS, print};
use clap::CommandFactory;

pub(super) fn run(args: &args::Completions) -> Result<u8, Failure> {
    let mut script = Vec::new();
    clap_complete::generate(args.shell, &mut Args::command(), "rigwright", &mut script);
    print::raw(&script)?;
    Ok(HOLDS)
}
