//! Tests of reading well and rig files.

mod examples;

use rigwright_wellfile::{Disk, Files};
use std::io;
use std::path::PathBuf;

/// A path from the root of the repository.
fn root(path: &str) -> String {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../..").join(path).to_string_lossy().into_owned()
}

/// Files in memory, with the files on disk behind them.
struct Shelf(Vec<(String, Vec<u8>)>);

impl Shelf {
    fn new(files: &[(&str, &str)]) -> Shelf {
        Shelf(files.iter().map(|(name, text)| ((*name).to_owned(), text.as_bytes().to_vec())).collect())
    }
}

impl Files for Shelf {
    fn read(&self, name: &str) -> io::Result<Vec<u8>> {
        match self.0.iter().find(|(stored, _)| stored == name) {
            Some((_, bytes)) => Ok(bytes.clone()),
            None => Disk.read(name),
        }
    }

    fn len(&self, name: &str) -> io::Result<u64> {
        match self.0.iter().find(|(stored, _)| stored == name) {
            Some((_, bytes)) => Ok(bytes.len() as u64),
            None => Disk.len(name),
        }
    }
}
