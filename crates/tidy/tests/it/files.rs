//! How every source file looks: it says what it is for, it is short, it is part of its crate.

use std::path::Path;

use crate::{read, report, root, sources};

/// No file is longer than this.
const LINES: usize = 500;

#[test]
fn law_every_file_says_what_it_is_for() {
    let opens = |path: &String| read(path).starts_with("//! ");
    let breaches: Vec<String> = sources().into_iter().filter(|path| !opens(path)).collect();
    report("A file opens with `//!` and what it is for", &breaches);
}

#[test]
fn law_no_file_is_long() {
    let long = |path: String| {
        let lines = read(&path).lines().count();
        (lines >= LINES).then(|| format!("{path}: {lines} lines"))
    };
    let breaches: Vec<String> = sources().into_iter().filter_map(long).collect();
    report("A file has fewer than 500 lines: split it by what it holds", &breaches);
}

/// A file that no `mod` names is not compiled, and its tests never run.
#[test]
fn law_every_file_is_part_of_its_crate() {
    let mut breaches = Vec::new();
    for path in sources() {
        let file = Path::new(&path);
        let stem = file.file_stem().unwrap_or_default().to_string_lossy();
        let folder = file.parent().unwrap_or(Path::new(""));
        let is_root = matches!(&*stem, "lib" | "main" | "build");
        if is_root || ["benches", "examples", "bin"].iter().any(|name| folder.ends_with(name)) {
            continue;
        }
        // `a/b.rs` and `a/b/mod.rs` are named in a's own file.
        let (name, above) = if stem == "mod" {
            let name = folder.file_name().unwrap_or_default().to_string_lossy().into_owned();
            (name, folder.parent().unwrap_or(Path::new("")))
        } else {
            (stem.into_owned(), folder)
        };
        let parents = ["lib.rs", "main.rs", "mod.rs"].map(|parent| above.join(parent));
        let beside = above.with_extension("rs");
        let named = parents.iter().chain([&beside]).filter(|parent| root().join(parent).is_file()).any(|parent| {
            let text = read(parent);
            text.lines().any(|line| {
                let line =
                    line.trim().trim_start_matches("pub(crate) ").trim_start_matches("pub(super) ").trim_start_matches("pub ");
                line == format!("mod {name};")
            })
        });
        if !named {
            breaches.push(path);
        }
    }
    report("Every file is named by a `mod` line", &breaches);
}

/// What is unfinished, switched off or left from looking for a fault; and places on one machine only.
#[test]
fn law_nothing_is_unfinished_or_of_one_machine() {
    let unfinished = ["todo", "unimplemented", "dbg"].map(|name| format!("{name}!("));
    let places = ["work", "tmp", "root", "home", "Users"].map(|name| format!("/{name}/"));
    let ignored = format!("#[{}", "ignore");
    let mut words: Vec<String> = unfinished.into_iter().chain(places).collect();
    words.push(ignored);
    let texts =
        crate::files("cases", "toml").into_iter().chain(crate::files("docs", "md")).chain(crate::files("examples", "toml"));
    let tops = ["README.md", "ARCHITECTURE.md", "STYLE.md", "CHANGELOG.md", "Cargo.toml", ".ci/run"].map(str::to_owned);
    let mut breaches = Vec::new();
    for path in sources().into_iter().chain(texts).chain(tops) {
        for (at, line) in read(&path).lines().enumerate() {
            let found = words.iter().find(|word| line.contains(word.as_str()));
            breaches.extend(found.map(|word| format!("{path}:{}: {word}", at + 1)));
        }
    }
    report("Nothing is unfinished, switched off or bound to one machine", &breaches);
}
