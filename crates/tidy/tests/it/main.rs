//! The rules of the house. Each test names all that breaks its rule at once.

mod crates;
mod files;
mod formulas;
mod map;

use std::fs;
use std::path::{Path, PathBuf};

/// The top of the project.
fn root() -> &'static Path {
    Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../.."))
}

/// The text of a file, by its path from the top.
fn read(path: impl AsRef<Path>) -> String {
    let path = root().join(path);
    fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// The folders that hold a crate, by their path from the top: `crates/units`, `cases`.
fn crate_folders() -> Vec<String> {
    let mut folders = vec!["cases".to_owned(), "xtask".to_owned()];
    let entries = fs::read_dir(root().join("crates")).expect("there is a folder of crates");
    for entry in entries {
        let entry = entry.expect("the folder can be read");
        if entry.path().join("Cargo.toml").is_file() {
            folders.push(format!("crates/{}", entry.file_name().to_string_lossy()));
        }
    }
    folders.sort();
    folders
}

/// Every file of this ending below a folder, by its path from the top.
fn files(folder: &str, ending: &str) -> Vec<String> {
    fn walk(folder: &Path, ending: &str, found: &mut Vec<PathBuf>) {
        for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
            let path = entry.path();
            if path.is_dir() {
                if path.file_name().is_some_and(|name| name != "target") {
                    walk(&path, ending, found);
                }
            } else if path.extension().is_some_and(|its| its == ending) {
                found.push(path);
            }
        }
    }
    let mut found = Vec::new();
    walk(&root().join(folder), ending, &mut found);
    let mut paths: Vec<String> =
        found.iter().map(|path| path.strip_prefix(root()).unwrap_or(path).to_string_lossy().replace('\\', "/")).collect();
    paths.sort();
    paths
}

/// Every source file of every crate.
fn sources() -> Vec<String> {
    ["crates", "cases", "xtask"].into_iter().flat_map(|folder| files(folder, "rs")).collect()
}

/// Fails with all breaches of a rule.
fn report(rule: &str, breaches: &[String]) {
    assert!(breaches.is_empty(), "{rule}:\n{}", breaches.join("\n"));
}

/// Lower case words with hyphens.
fn is_kebab(text: &str) -> bool {
    is_words(text, '-')
}

/// Lower case words with underscores.
fn is_snake(text: &str) -> bool {
    is_words(text, '_')
}

fn is_words(text: &str, joint: char) -> bool {
    let word = |word: &str| !word.is_empty() && word.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit());
    text.split(joint).all(word)
}
