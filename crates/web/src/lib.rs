//! The local page: the sheet of a well, what-if, workings, pictures and forms, served from Rust on this machine.
//!
//! Each page is a pure function from what is asked to markup. Nothing here computes: figures come from `margins`, words
//! and drawings from `papers`. No script or style comes from elsewhere, and none stands inside a page.

mod access;
mod ask;
mod change;
mod folder;
mod frame;
mod guard;
mod pages;
mod router;
mod serve;
mod shelf;

pub use access::{SHORTEST_PHRASE, new_phrase};
pub use router::router;
pub use serve::serve;

use access::{Access, Secret};
use folder::{Folder, Mark};
use jiff::Timestamp;
use std::io;
use std::net::SocketAddr;
use std::path::Path;
use std::sync::Mutex;

/// What the server holds.
pub struct Server {
    folder: Folder,
    /// The one well that was asked for.
    home: Option<String>,
    access: Option<Access>,
    /// Stands in every form: what is sent without it comes from elsewhere.
    form_secret: Secret,
    shelf: shelf::Shelf,
    undo: Mutex<Vec<Undo>>,
    port: u16,
    loopback: bool,
    clock: fn() -> Timestamp,
    /// Answers that are being made at once.
    desks: tokio::sync::Semaphore,
}

/// What a write can be taken back to.
struct Undo {
    well: String,
    /// Name of each file, its text before, and what it held after.
    files: Vec<(String, String, Mark)>,
}

impl Server {
    /// A server of a folder, or of one well in it, at an address. An address other than this machine's own needs a
    /// phrase.
    ///
    /// # Errors
    /// When the folder cannot be read, or when a phrase is missing or too short.
    pub fn new(
        folder: &Path,
        home: Option<String>,
        address: SocketAddr,
        phrase: Option<&str>,
        clock: fn() -> Timestamp,
    ) -> io::Result<Server> {
        let loopback = address.ip().is_loopback();
        if phrase.is_none() && !loopback {
            return Err(io::Error::other("an address that others can reach needs an access phrase"));
        }
        let threads = std::thread::available_parallelism().map_or(2, usize::from);
        Ok(Server {
            folder: Folder::new(folder)?,
            home,
            access: phrase.map(Access::new).transpose()?,
            form_secret: Secret::new()?,
            shelf: shelf::Shelf::default(),
            undo: Mutex::default(),
            port: address.port(),
            loopback,
            clock,
            // One more than there are cores: none is idle while an answer is handed out and the next is called.
            desks: tokio::sync::Semaphore::new(threads + 1),
        })
    }
}
