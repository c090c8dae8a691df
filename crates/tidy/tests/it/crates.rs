//! A crate may use only crates above it, and what is pure stays pure.

use toml::{Table, Value};

use crate::{crate_folders, files, read, report};

/// The crates from the top down. Data runs down this list.
const ORDER: &[&str] =
    &["units", "physics", "well", "wellfile", "simulate", "margins", "book", "watch", "papers", "press", "web", "cli"];

/// Crates that know no file, no clock, no environment and no screen.
const PURE: &[&str] = &["units", "physics", "well", "simulate", "margins"];

/// Text that a pure crate has no use for.
const IMPURE: &[&str] = &["std::fs", "std::env", "std::io", "std::net", "std::process", "std::time::Instant", "SystemTime"];

/// Which crates alone may use a package, and why.
const RESERVED: &[(&str, &[&str], &str)] = &[
    ("toml", &["wellfile", "cases", "tidy"], "only wellfile knows the form of files"),
    ("toml_edit", &["wellfile"], "only wellfile knows the form of files"),
    ("serde", &["book", "watch", "papers", "web", "cli", "cases"], "what is stored or sent is made from papers up"),
    ("serde_json", &["book", "watch", "papers", "press", "web", "cli"], "what is stored or sent is made from papers up"),
    ("clap", &["cli"], "only the program has arguments"),
];

fn manifest(folder: &str) -> Table {
    read(format!("{folder}/Cargo.toml")).parse().unwrap_or_else(|error| panic!("{folder}/Cargo.toml: {error}"))
}

/// Names of the packages that a manifest uses, with whether only its tests do.
fn dependencies(manifest: &Table) -> Vec<(String, bool)> {
    let tables = [("dependencies", false), ("build-dependencies", false), ("dev-dependencies", true)];
    let named = tables.into_iter().filter_map(|(table, tests)| Some((manifest.get(table)?.as_table()?, tests)));
    named.flat_map(|(table, tests)| table.keys().map(move |name| (name.clone(), tests))).collect()
}

fn name_of(folder: &str) -> &str {
    folder.rsplit('/').next().unwrap_or(folder)
}

#[test]
fn law_a_crate_uses_only_crates_above_it() {
    let place = |name: &str| ORDER.iter().position(|listed| *listed == name);
    let mut breaches = Vec::new();
    for folder in crate_folders().iter().filter(|folder| folder.starts_with("crates/")) {
        let name = name_of(folder);
        if name == "tidy" {
            continue;
        }
        let Some(own) = place(name) else {
            breaches.push(format!("{name} has no place in the order"));
            continue;
        };
        for (package, tests) in dependencies(&manifest(folder)) {
            let Some(used) = package.strip_prefix("rigwright-") else { continue };
            let above = place(used).is_some_and(|used| used < own);
            if !(above || (tests && used == "cases")) {
                breaches.push(format!("{name} uses {used}"));
            }
        }
    }
    report("A crate may use only crates above it (its tests may use the cases)", &breaches);
}

#[test]
fn law_packages_are_named_after_their_folder_and_share_the_lints() {
    let mut breaches = Vec::new();
    for folder in crate_folders() {
        let manifest = manifest(&folder);
        let name = name_of(&folder);
        let package = manifest.get("package").and_then(Value::as_table).cloned().unwrap_or_default();
        let called = package.get("name").and_then(Value::as_str).unwrap_or_default().to_owned();
        let fits = match name {
            "xtask" => called == "xtask",
            "cli" => called == "rigwright" || called == "rigwright-cli",
            _ => called == format!("rigwright-{name}"),
        };
        if !fits {
            breaches.push(format!("{folder} is called {called}"));
        }
        if package.get("description").and_then(Value::as_str).is_none_or(str::is_empty) {
            breaches.push(format!("{folder} has no description"));
        }
        if manifest.get("lints").and_then(|lints| lints.get("workspace")).and_then(Value::as_bool) != Some(true) {
            breaches.push(format!("{folder} does not use the lints of the workspace"));
        }
    }
    report("A package is named after its folder, described, and under the common lints", &breaches);
}

#[test]
fn law_every_crate_is_a_member() {
    let workspace: Table = read("Cargo.toml").parse().expect("the manifest of the workspace reads");
    let members = workspace["workspace"]["members"].as_array().expect("members are a list");
    let members: Vec<&str> = members.iter().filter_map(Value::as_str).collect();
    let listed = |folder: &str| members.contains(&folder) || (folder.starts_with("crates/") && members.contains(&"crates/*"));
    let breaches: Vec<String> = crate_folders().into_iter().filter(|folder| !listed(folder)).collect();
    report("Every folder with a crate is a member of the workspace", &breaches);
}

#[test]
fn law_some_packages_are_for_some_crates_only() {
    let mut breaches = Vec::new();
    for folder in crate_folders() {
        let name = name_of(&folder);
        for (package, tests) in dependencies(&manifest(&folder)) {
            let reserved = RESERVED.iter().find(|(reserved, ..)| *reserved == package);
            if let Some((_, allowed, why)) = reserved
                && !tests
                && !allowed.contains(&name)
            {
                breaches.push(format!("{name} uses {package}: {why}"));
            }
        }
    }
    report("Some packages are for some crates only", &breaches);
}

#[test]
fn law_pure_crates_touch_nothing_outside() {
    let mut breaches = Vec::new();
    for name in PURE {
        for path in files(&format!("crates/{name}/src"), "rs") {
            let text = read(&path);
            for (at, line) in text.lines().enumerate() {
                let found = IMPURE.iter().find(|impure| line.contains(**impure) && !line.trim_start().starts_with("//"));
                breaches.extend(found.map(|impure| format!("{path}:{}: {impure}", at + 1)));
            }
        }
    }
    report("units, physics, well, simulate and margins know no file, clock, environment or screen", &breaches);
}

/// What is worked out once and read by many must be kept with the parts of the fit that it stands on, or a what-if would take over an
/// answer that is out of date: `Kept` does, a bare cell does not.
#[test]
fn law_what_margins_keep_is_kept_with_what_it_stands_on() {
    let mut breaches = Vec::new();
    for path in files("crates/margins/src", "rs") {
        for (at, line) in read(&path).lines().enumerate() {
            let found = ["OnceCell", "OnceLock", "LazyCell", "LazyLock"].iter().find(|cell| line.contains(**cell));
            breaches.extend(found.map(|cell| format!("{path}:{}: {cell}", at + 1)));
        }
    }
    report("margins keep what they work out once in `Kept`", &breaches);
}
