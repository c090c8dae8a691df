//! The map in `ARCHITECTURE.md` shows the house as it stands.

use std::collections::BTreeSet;

use crate::{crate_folders, files, read, report, root};

#[test]
fn law_the_map_lists_exactly_the_crates() {
    let text = read("ARCHITECTURE.md");
    let heading = |line: &str| Some(line.strip_prefix("### `")?.strip_suffix('`')?.to_owned());
    let listed: BTreeSet<String> = text.lines().filter_map(heading).collect();
    let present: BTreeSet<String> = crate_folders().into_iter().collect();
    let gone = listed.difference(&present).map(|folder| format!("{folder} is on the map and not in the tree"));
    let missing = present.difference(&listed).map(|folder| format!("{folder} is in the tree and not on the map"));
    report("ARCHITECTURE.md has one heading for each crate", &gone.chain(missing).collect::<Vec<_>>());
}

/// Every path in backticks or in a link of the pages at the top exists.
#[test]
fn law_the_pages_name_only_what_exists() {
    let pages = ["README.md", "ARCHITECTURE.md", "STYLE.md"].map(str::to_owned);
    let mut breaches = Vec::new();
    for page in pages.into_iter().chain(files("docs", "md")) {
        let text = read(&page);
        let folder = root().join(&page).parent().map(ToOwned::to_owned).unwrap_or_default();
        for target in text.split("](").skip(1).filter_map(|rest| rest.split(')').next()) {
            let target = target.split('#').next().unwrap_or_default();
            let outside = target.contains("://") || target.is_empty();
            if !outside && !folder.join(target).exists() {
                breaches.push(format!("{page}: {target}"));
            }
        }
        let quoted = text.split('`').skip(1).step_by(2).filter(|quoted| !quoted.contains(char::is_whitespace));
        for path in quoted {
            let is_path = ["crates/", "cases/", "xtask/", "examples/", "docs/"].iter().any(|top| path.starts_with(top));
            let pattern = path.contains(['*', '<', '{']);
            if is_path && !pattern && !root().join(path).exists() {
                breaches.push(format!("{page}: `{path}`"));
            }
        }
    }
    report("The pages name only files that exist", &breaches);
}
