//! Generated pages: written, or compared with what lies in the tree. And the little Markdown that they need.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// Text of each page by its path from the top of the project. A folder that ends in `/` with empty text
/// is owned as a whole: pages in it that are not listed are stale.
pub(crate) struct Pages {
    /// The command that writes them.
    pub(crate) command: &'static str,
    /// Folder of which every page is generated, if there is one.
    pub(crate) folder: Option<&'static str>,
    /// The pages.
    pub(crate) pages: BTreeMap<String, String>,
}

/// The top of the project.
pub(crate) fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// Where cargo builds.
pub(crate) fn target() -> PathBuf {
    std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| root().join("target"), Into::into)
}

/// Writes the pages and removes stale ones.
pub(crate) fn write(pages: &Pages) -> Result<(), String> {
    for stale in stale(pages) {
        let path = root().join(&stale);
        fs::remove_file(&path).map_err(|error| format!("{stale}: {error}"))?;
    }
    for (name, text) in &pages.pages {
        let path = root().join(name);
        let folder = path.parent().unwrap_or(&path);
        fs::create_dir_all(folder).and_then(|()| fs::write(&path, text)).map_err(|error| format!("{name}: {error}"))?;
        println!("{name}: {} lines", text.lines().count());
    }
    Ok(())
}

/// Says which pages are not as they would be written.
pub(crate) fn check(pages: &Pages) -> Result<(), String> {
    let mut wrong: Vec<String> = stale(pages).into_iter().map(|name| format!("{name} belongs to nothing")).collect();
    for (name, text) in &pages.pages {
        match fs::read_to_string(root().join(name)) {
            Ok(present) if present == *text => {}
            Ok(present) => {
                let differs = |(old, new): &(&str, &str)| old != new;
                let line = present.lines().zip(text.lines()).take_while(|pair| !differs(pair)).count() + 1;
                wrong.push(format!("{name} is out of date from line {line}"));
            }
            Err(error) => wrong.push(format!("{name}: {error}")),
        }
    }
    if wrong.is_empty() { Ok(()) } else { Err(format!("{}\nrun `{}`", wrong.join("\n"), pages.command)) }
}

/// Pages in the owned folder that would not be written.
fn stale(pages: &Pages) -> Vec<String> {
    let Some(folder) = pages.folder else { return Vec::new() };
    let present = fs::read_dir(root().join(folder)).into_iter().flatten().flatten();
    let names = present.map(|entry| format!("{folder}/{}", entry.file_name().to_string_lossy()));
    let mut stale: Vec<String> = names.filter(|name| name.ends_with(".md") && !pages.pages.contains_key(name)).collect();
    stale.sort();
    stale
}

/// Text for a cell of a table.
pub(crate) fn cell(text: &str) -> String {
    text.replace('|', "\\|").replace('*', "\\*").replace('\n', " ").replace('<', "&lt;").trim().to_owned()
}

/// A row of a table.
pub(crate) fn row<'a>(cells: impl IntoIterator<Item = &'a str>) -> String {
    let cells: Vec<String> = cells.into_iter().map(cell).collect();
    format!("| {} |\n", cells.join(" | "))
}

/// The head of a table.
pub(crate) fn head(titles: &[&str]) -> String {
    format!("{}|{}\n", row(titles.iter().copied()), " --- |".repeat(titles.len()))
}

/// A word with a capital.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
