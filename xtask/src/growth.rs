//! How the cost of a review grows with the number of situations, in instructions, which no other job on the machine changes.
//!
//! The same well is reviewed against the same rig with longer and shorter stands: the sweep steps by stands, so the number
//! of situations changes and nothing else does.

use std::fs;
use std::path::Path;
use std::process::Command;

use crate::pages::{root, target};

/// Lengths of a stand, long to short. [ft]
const STANDS: [f64; 4] = [186.0, 93.0, 46.5, 23.25];

/// Runs the reviews under callgrind and returns the table.
pub(crate) fn table() -> Result<String, String> {
    let built = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()))
        .args(["build", "--quiet", "--release", "--package", "rigwright-cli"])
        .current_dir(root())
        .status();
    if !built.is_ok_and(|status| status.success()) {
        return Err("the program does not build".into());
    }
    let folder = std::env::temp_dir().join(format!("rigwright-growth-{}", std::process::id()));
    fs::create_dir_all(folder.join("rigs")).map_err(|error| format!("{}: {error}", folder.display()))?;
    let rows = STANDS.iter().map(|stand| row(&folder, *stand)).collect::<Result<Vec<_>, _>>();
    // What cannot be removed is left to the system's own cleaning of its temporary folder.
    let _ = fs::remove_dir_all(&folder);
    let head = "| stand | situations | instructions | a situation |\n| ---: | ---: | ---: | ---: |\n";
    Ok(head.to_owned() + &rows?.concat())
}

fn row(folder: &Path, stand: f64) -> Result<String, String> {
    let read = |name: &str| fs::read_to_string(root().join("examples").join(name)).map_err(|error| format!("{name}: {error}"));
    let write = |name: &str, text: String| fs::write(folder.join(name), text).map_err(|error| format!("{name}: {error}"));
    write("ostrick.toml", read("ostrick.toml")?)?;
    write("rigs/anvil-12.toml", read("rigs/anvil-12.toml")?.replace("stand = \"93 ft\"", &format!("stand = \"{stand} ft\"")))?;
    let run = Command::new("valgrind")
        .args(["--tool=callgrind", "--callgrind-out-file=/dev/null"])
        .arg(target().join("release/rigwright"))
        .args(["review", "ostrick.toml", "--json", "--as-of", "2026-01-01T00:00:00Z"])
        .current_dir(folder)
        .output()
        .map_err(|error| format!("valgrind is needed for instruction counts: {error}"))?;
    let said = String::from_utf8_lossy(&run.stderr);
    let instructions = said.lines().find_map(|line| line.split("Collected :").nth(1)?.trim().parse::<u64>().ok());
    let json = String::from_utf8_lossy(&run.stdout);
    let situations = json
        .split("\"situations\":")
        .nth(1)
        .and_then(|rest| rest.trim_start().split(|sign: char| !sign.is_ascii_digit()).next()?.parse::<u64>().ok());
    let (Some(instructions), Some(situations)) = (instructions, situations) else {
        return Err(format!("no counts in what valgrind and the program said:\n{said}"));
    };
    Ok(format!("| {stand} ft | {situations} | {} M | {} |\n", instructions / 1_000_000, instructions / situations))
}
