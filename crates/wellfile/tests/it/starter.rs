//! The starter files read as they stand.

use crate::Shelf;
use rigwright_wellfile::{ENTRIES, Form, read, starter};

#[test]
fn law_the_starter_reads_without_a_finding() {
    for name in ["Ostrick 2", "A \"quoted\" \\ name", "Brønn 7/12-ü", "  spaced  "] {
        let files = starter(name, "new-rig.toml");
        let shelf = Shelf::new(&[("new/well.toml", &files.well), ("new/new-rig.toml", &files.rig)]);
        let loaded = read("new/well.toml", None, &shelf).unwrap_or_else(|findings| panic!("{name}: {:#?}", findings.list));
        assert!(loaded.cautions.is_empty(), "{:#?}", loaded.cautions);
        assert_eq!(loaded.fit.well.name, name.trim());
    }
}

#[test]
fn law_the_starter_shows_every_entry() {
    let files = starter("New well", "rig.toml");
    for entry in ENTRIES {
        let text = if entry.path.starts_with("rig.") { &files.rig } else { &files.well };
        let wanted = match entry.form {
            Form::Table => format!("[{}]", entry.path.trim_start_matches("rig.").replace("[]", "")),
            Form::Tables => format!("[[{}]]", entry.path.trim_start_matches("rig.").replace("[]", "")),
            _ => format!("{} = ", entry.key()),
        };
        // Parts of a string show only what they need.
        let shown = text.contains(&wanted) || entry.path.starts_with("section[].string[].");
        assert!(shown, "{}", entry.path);
    }
}

/// Kept to be read: no outside word says how a starter file should look.
#[test]
fn regress_the_starter() {
    let files = starter("New well", "new-rig.toml");
    insta::with_settings!({ prepend_module_to_snapshot => false, omit_expression => true }, {
        insta::assert_snapshot!("starter-well", files.well);
        insta::assert_snapshot!("starter-rig", files.rig);
    });
}
