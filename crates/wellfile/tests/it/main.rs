//! Tests of reading well and rig files.

#![allow(clippy::unwrap_used, reason = "a helper of a test that cannot read its files should stop the test")]

mod entries;
mod examples;
mod faults;
mod knobs;
mod metric;
mod robust;
mod starter;
mod values;

use rigwright_wellfile::{Disk, Files};
use std::io;
use std::path::PathBuf;

/// A path from the root of the repository.
fn root(path: &str) -> String {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../..").join(path).to_string_lossy().into_owned()
}

/// Files in memory, with the files of the repository behind them.
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
            None => Disk.read(&root(name)),
        }
    }

    fn len(&self, name: &str) -> io::Result<u64> {
        match self.0.iter().find(|(stored, _)| stored == name) {
            Some((_, bytes)) => Ok(bytes.len() as u64),
            None => Disk.len(&root(name)),
        }
    }
}
