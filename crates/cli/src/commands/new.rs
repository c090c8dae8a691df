//! `new`: a commented well and rig to begin with.

use crate::args;
use crate::failure::{Failure, fault};
use crate::{HOLDS, print};
use rigwright_papers::json::Fault;
use rigwright_papers::text::Text;
use rigwright_wellfile::starter;
use std::fs::OpenOptions;
use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};

pub(super) fn run(args: &args::New) -> Result<u8, Failure> {
    let well = PathBuf::from(&args.well);
    let Some(stem) = well.file_stem().and_then(|stem| stem.to_str()).filter(|_| !args.well.ends_with(['/', '\\'])) else {
        return Err(fault(format!("`{}` does not name a file", args.well), "write e.g. `my-well.toml`").into());
    };
    let rig_name = format!("{stem}-rig.toml");
    let rig = well.with_file_name(&rig_name);
    let starter = starter(&name(stem), &rig_name);
    // Both are looked at before either is written, so that nothing is left half done.
    let taken: Vec<Fault> =
        [&well, &rig].into_iter().filter(|path| path.symlink_metadata().is_ok()).map(|path| exists(path)).collect();
    if !taken.is_empty() {
        return Err(Failure::Typed(taken));
    }
    write(&rig, &starter.rig)?;
    write(&well, &starter.well)?;
    let mut text = Text::default();
    text.plain(format!("wrote {} and {}", well.display(), rig.display()));
    text.plain(format!("next: rigwright review {}", well.display()));
    print::text(&text)?;
    Ok(HOLDS)
}

/// A name for people: `my-well` is "My well".
fn name(stem: &str) -> String {
    let plain = stem.replace(['-', '_'], " ");
    let mut letters = plain.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

fn exists(path: &Path) -> Fault {
    fault(format!("`{}` exists and is not overwritten", path.display()), "choose another name, or move that file away")
}

/// Writes a file that must not exist yet, even if it has appeared a moment ago.
fn write(path: &Path, text: &str) -> Result<(), Fault> {
    let written = OpenOptions::new().write(true).create_new(true).open(path).and_then(|mut file| file.write_all(text.as_bytes()));
    written.map_err(|error| match error.kind() {
        ErrorKind::AlreadyExists => exists(path),
        _ => fault(format!("`{}` cannot be written: {error}", path.display()), "does the folder exist, and may you write there?"),
    })
}

#[cfg(test)]
mod tests {
    #[test]
    fn a_file_name_becomes_a_name_for_people() {
        assert_eq!(super::name("my-well"), "My well");
        assert_eq!(super::name("ölfeld_7"), "Ölfeld 7");
    }
}
