//! `man`: the manual page, the commands after the program.

use crate::args::Args;
use crate::failure::Failure;
use crate::{HOLDS, print};
use clap::CommandFactory;
use clap_mangen::Man;

pub(super) fn run() -> Result<u8, Failure> {
    let mut command = Args::command();
    command.build();
    let mut page = Vec::new();
    Man::new(command.clone()).render(&mut page)?;
    for sub in command.get_subcommands().filter(|sub| sub.get_name() != "help") {
        Man::new(sub.clone()).render(&mut page)?;
    }
    print::raw(&page)?;
    Ok(HOLDS)
}
