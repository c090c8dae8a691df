//! Programs from outside that tests use: Chromium with its driver for tests in a browser, axe-core, which looks for what
//! shuts readers out, and poppler, which reads PDFs back. None becomes part of the program.

use crate::pages::root;
use std::process::{Command, Stdio};

const AXE: &str = "axe-core@4.11";

/// Each program, what it is asked to tell its version, and the package that brings it.
const PROGRAMS: [(&str, &str, &str); 4] = [
    ("chromium", "--version", "chromium"),
    ("chromedriver", "--version", "chromium-driver"),
    ("npm", "--version", "npm"),
    ("pdftotext", "-v", "poppler-utils"),
];

/// Installs what is missing.
pub(crate) fn install() -> Result<(), String> {
    for (program, version, package) in PROGRAMS {
        if !there(program, version) {
            system(package)?;
        }
    }
    let folder = root().join("target/axe");
    if folder.join("node_modules/axe-core/axe.min.js").exists() {
        return Ok(());
    }
    std::fs::create_dir_all(&folder).map_err(|error| error.to_string())?;
    let arguments = ["install", "--no-save", "--ignore-scripts", "--no-audit", "--no-fund", "--prefix", ".", AXE];
    run(Command::new("npm").args(arguments).current_dir(&folder))
}

fn there(program: &str, version: &str) -> bool {
    let status = Command::new(program).arg(version).stdout(Stdio::null()).stderr(Stdio::null()).status();
    status.is_ok_and(|status| status.success())
}

/// Installs a package of the system, as root or by asking for root's rights.
fn system(package: &str) -> Result<(), String> {
    let root = Command::new("id").arg("-u").output().is_ok_and(|output| output.stdout.trim_ascii() == b"0");
    let apt = |arguments: &[&str]| {
        let mut command = if root { Command::new("apt-get") } else { Command::new("sudo") };
        if !root {
            command.arg("apt-get");
        }
        run(command.args(arguments).env("DEBIAN_FRONTEND", "noninteractive"))
    };
    apt(&["update", "-q"])?;
    apt(&["install", "-y", "-q", "--no-install-recommends", package])
}

fn run(command: &mut Command) -> Result<(), String> {
    match command.status() {
        Ok(status) if status.success() => Ok(()),
        Ok(status) => Err(format!("{command:?} ends with {status}")),
        Err(error) => Err(format!("{command:?} does not start: {error}")),
    }
}
