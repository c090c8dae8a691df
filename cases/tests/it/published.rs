//! Every printed figure against the program, and the order of the data.

use std::collections::BTreeSet;

use rigwright_cases::procedures::procedures;
use rigwright_cases::{CaseFile, Row, check_all, data_folder, load};

fn files() -> Vec<CaseFile> {
    load(&data_folder()).unwrap_or_else(|error| panic!("{error}"))
}

#[test]
fn published_cases() {
    let rows = check_all(&files());
    let failures: Vec<String> = rows.iter().filter_map(Row::failure).collect();
    assert!(!rows.is_empty(), "no checks were found");
    assert!(failures.is_empty(), "{} of {} checks fail:\n{}", failures.len(), rows.len(), failures.join("\n"));
}

#[test]
fn law_ids_are_unique_and_kebab_case() {
    let mut seen = BTreeSet::new();
    for file in files() {
        for case in file.cases {
            assert!(kebab(&case.id), "{}.toml: `{}` is not kebab case", file.name, case.id);
            assert!(!case.checks.is_empty(), "{}.toml: {} has no check", file.name, case.id);
            for (what, text) in [("what", &case.what), ("source", &case.source)] {
                assert!(!text.trim().is_empty(), "{}.toml: {} has an empty {what}", file.name, case.id);
            }
            assert!(seen.insert(case.id.clone()), "{}.toml: {} stands twice", file.name, case.id);
        }
    }
}

#[test]
fn law_every_procedure_is_unique_and_used() {
    let files = files();
    let checks = files.iter().flat_map(|file| &file.cases).flat_map(|case| &case.checks);
    let used: BTreeSet<&str> = checks.filter_map(|check| check.procedure.as_deref()).collect();
    let mut seen = BTreeSet::new();
    for procedure in procedures() {
        assert!(kebab(procedure.name), "`{}` is not kebab case", procedure.name);
        assert!(seen.insert(procedure.name), "{} is registered twice", procedure.name);
        assert!(used.contains(procedure.name), "no case uses the procedure {}", procedure.name);
    }
}

fn kebab(text: &str) -> bool {
    let allowed = text.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-');
    allowed && !text.is_empty() && !text.starts_with('-') && !text.ends_with('-')
}
