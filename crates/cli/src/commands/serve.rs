//! `serve`: the local page.

use crate::args;
use crate::failure::{Failure, fault};
use crate::{HOLDS, print};
use jiff::Timestamp;
use rigwright_papers::text::Text;
use rigwright_web::{Server, new_phrase, serve};
use std::net::SocketAddr;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// Names the variable that holds the access phrase: an argument would stand in the list of processes.
const PHRASE: &str = "RIGWRIGHT_PHRASE";

pub(super) fn run(args: &args::Serve) -> Result<u8, Failure> {
    let (folder, well) = place(&args.path)?;
    let phrase = match std::env::var(PHRASE) {
        Ok(phrase) if !phrase.is_empty() => Some((phrase, false)),
        _ if args.listen.ip().is_loopback() => None,
        _ => Some((new_phrase().map_err(|error| fault(error.to_string(), "set RIGWRIGHT_PHRASE"))?, true)),
    };
    let words = phrase.as_ref().map(|(phrase, _)| phrase.clone());
    let make = |address: SocketAddr| Server::new(&folder, well, address, words.as_deref(), Timestamp::now);
    let served = serve(make, args.listen, |address| {
        let mut text = Text::default();
        text.plain(format!("the page is at http://{address}/"));
        if let Some((phrase, true)) = &phrase {
            text.plain(format!("access phrase: {phrase}"));
        }
        text.plain("stop it with Ctrl-C");
        // Without a terminal the page is served all the same.
        let _ = print::text(&text);
        if args.open {
            open(&format!("http://{address}/"));
        }
    });
    let help = "another program may use that address; `--listen 127.0.0.1:0` takes a free one";
    served.map_err(|error| fault(format!("cannot serve at {}: {error}", args.listen), help))?;
    Ok(HOLDS)
}

/// The folder that is served, and the well in it if one is named.
fn place(path: &str) -> Result<(PathBuf, Option<String>), Failure> {
    let path = Path::new(path);
    if path.is_dir() {
        return Ok((path.to_owned(), None));
    }
    let name = path.file_name().and_then(|name| name.to_str()).filter(|_| path.is_file());
    let Some(name) = name else {
        return Err(
            fault(format!("`{}` is no well and no folder", path.display()), "give a well file, or a folder of them").into()
        );
    };
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    Ok((folder.to_owned(), Some(name.to_owned())))
}

/// Asks the system to show the page; where it cannot, the address stands in the terminal.
fn open(address: &str) {
    let program = if cfg!(target_os = "macos") { "open" } else { "xdg-open" };
    let _ = Command::new(program).arg(address).stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null()).spawn();
}
