//! Lists the pages of the manual, so that they go into the program as they are.

use std::fmt::Write;
use std::path::Path;
use std::{env, fs, io};

fn main() -> io::Result<()> {
    let folder = env::var("CARGO_MANIFEST_DIR").map_err(io::Error::other)?;
    let docs = Path::new(&folder).join("../../docs").canonicalize()?;
    let mut pages = vec![docs.join("validation.md")];
    for entry in fs::read_dir(docs.join("manual"))? {
        pages.push(entry?.path());
    }
    pages.retain(|page| page.extension().is_some_and(|extension| extension == "md"));
    pages.sort();
    let mut list = String::from("/// Name and text of every page.\nstatic PAGES: &[(&str, &str)] = &[\n");
    for page in &pages {
        let name = page.file_stem().and_then(|stem| stem.to_str()).unwrap_or_default();
        writeln!(list, "    ({name:?}, include_str!({:?})),", page.display().to_string()).map_err(io::Error::other)?;
        println!("cargo::rerun-if-changed={}", page.display());
    }
    list.push_str("];\n");
    println!("cargo::rerun-if-changed={}", docs.join("manual").display());
    fs::write(Path::new(&env::var("OUT_DIR").map_err(io::Error::other)?).join("manual.rs"), list)
}
