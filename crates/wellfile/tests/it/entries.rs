//! The entry table itself: every row can be written as its example says.

use crate::{Shelf, root};
use rigwright_units::{Kind, parse};
use rigwright_wellfile::{ENTRIES, Entry, Form, Presence, entry, read};
use std::collections::BTreeSet;

#[test]
fn law_every_row_has_its_own_path_and_help() {
    let mut paths = BTreeSet::new();
    for row in ENTRIES {
        assert!(paths.insert(row.path), "{} stands twice", row.path);
        assert!(row.help.len() > 3 && !row.help.ends_with('.'), "{}", row.path);
        assert!(row.path.chars().all(|c| c.is_ascii_lowercase() || "_.[]".contains(c)), "{}", row.path);
    }
}

#[test]
fn law_every_table_has_a_row() {
    let path = |entry: &Entry| entry.path.to_owned();
    let tables: BTreeSet<String> =
        ENTRIES.iter().filter(|row| matches!(row.form, Form::Table | Form::Tables)).map(path).collect();
    for row in ENTRIES {
        if let Some((parent, _)) = row.path.rsplit_once('.') {
            assert!(parent == "rig" || tables.contains(parent), "{} stands in a table without a row", row.path);
        }
    }
}

/// Example and default lie where they must.
#[test]
fn law_examples_and_defaults_are_allowed() {
    for row in ENTRIES {
        let texts = match row.presence {
            Presence::Default { text, source } => {
                assert!(!source.is_empty(), "{}", row.path);
                vec![row.example, text]
            }
            _ => vec![row.example],
        };
        for text in texts {
            match row.form {
                Form::Quantity(kind) | Form::Number(kind) => {
                    let value = parse(text, kind).unwrap_or_else(|error| panic!("{}: {error}", row.path));
                    assert!(row.must.contains(value), "{}: `{text}` is out of its range", row.path);
                }
                Form::Whole => assert!(row.must.contains(text.parse().unwrap()), "{}", row.path),
                Form::Choice(words) => assert!(words.contains(&text), "{}", row.path),
                Form::Table | Form::Tables => assert!(text.is_empty(), "{}", row.path),
                _ => assert!(!text.is_empty(), "{}", row.path),
            }
        }
    }
}

/// Each example of a value is accepted where it belongs: written into a file that holds nothing else, it
/// raises no finding on its own line.
#[test]
fn law_every_example_is_accepted_in_its_place() {
    for row in ENTRIES.iter().filter(|row| !matches!(row.form, Form::Table | Form::Tables)) {
        let (path, in_rig) = match row.path.strip_prefix("rig.") {
            Some(path) => (path, true),
            None => (row.path, false),
        };
        let mut text = String::new();
        let words: Vec<&str> = path.split('.').collect();
        for depth in 1..words.len() {
            let heading = words[..depth].join(".").replace("[]", "");
            let is_list = words[depth - 1].ends_with("[]");
            text.push_str(&if is_list { format!("[[{heading}]]\n") } else { format!("[{heading}]\n") });
        }
        let line = format!("{} = {}", row.key(), row.written_example());
        text.push_str(&line);
        let shelf = Shelf::new(&[("it.toml", &text)]);
        let findings = match in_rig {
            true => read("tests/valid/well.toml", Some("it.toml"), &shelf),
            false => read("it.toml", Some("tests/valid/rig.toml"), &shelf),
        };
        let at = text.len() - line.len();
        for finding in findings.expect_err("such a file lacks much").list {
            let here = finding.labels.iter().any(|label| label.place.source.name == "it.toml" && label.place.span.start >= at);
            let single = matches!(
                finding.code,
                "well::missing"
                    | "well::foreign-entry"
                    | "well::no-file"
                    | "well::unknown-section"
                    | "well::leak-off"
                    | "well::first-part"
            );
            assert!(!here || single, "{}: {finding}", row.path);
        }
    }
}

#[test]
fn law_what_must_never_have_a_default_has_none() {
    // From the rules of the house: absent means unknown.
    let never = [
        "section[].casing.burst_fraction",
        "section[].casing.connection_tension",
        "section[].casing.connection_burst",
        "section[].casing.test_pressure",
        "rig.accumulator.design_factor",
        "kick.volume",
        "kick.intensity",
        "jurisdiction",
        "formation[].fracture",
    ];
    for path in never {
        assert_eq!(entry(path).unwrap().presence, Presence::Unknown, "{path}");
    }
}

#[test]
fn law_a_concrete_path_finds_its_row() {
    assert_eq!(entry("section[2].mud.weight").unwrap().path, "section[].mud.weight");
    assert_eq!(entry("rig.line.strung").unwrap().form, Form::Whole);
    assert_eq!(entry("section[0].string[11].outside").unwrap().kind(), Some(Kind::Diameter));
    assert!(entry("section[0].mud.wieght").is_none());
    assert!(std::fs::exists(root("tests/valid/well.toml")).unwrap());
}
