//! Faulty files. Each is named after its fault, says in its first line which findings it must raise, and has a
//! snapshot of how they are shown: that a message is clear can only be seen by reading it.

use crate::{Shelf, root};
use miette::{GraphicalReportHandler, GraphicalTheme, Report};
use rigwright_wellfile::{Finding, Findings, Severity, read};

/// Names of the files of a folder of tests, without ending.
fn names(folder: &str) -> Vec<String> {
    let entries = std::fs::read_dir(root(folder)).unwrap();
    let mut names: Vec<String> = entries
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .filter_map(|name| name.strip_suffix(".toml").map(str::to_owned))
        .collect();
    names.sort();
    names
}

/// What a file raises; a rig is held against the small valid well.
fn findings(folder: &str, name: &str) -> Result<Vec<Finding>, Findings> {
    let file = format!("{folder}/{name}.toml");
    let shelf = Shelf::new(&[]);
    let read =
        if name.starts_with("rig-") { read("tests/valid/well.toml", Some(&file), &shelf) } else { read(&file, None, &shelf) };
    read.map(|loaded| loaded.cautions)
}

/// The codes that the first line of a file asks for.
fn wanted(folder: &str, name: &str) -> Vec<String> {
    let text = std::fs::read_to_string(root(&format!("{folder}/{name}.toml"))).unwrap();
    let line = text.lines().next().unwrap_or("# well::empty-file");
    line.trim_start_matches("# ").split_whitespace().map(str::to_owned).collect()
}

fn codes(list: &[Finding]) -> Vec<String> {
    let mut codes: Vec<String> = list.iter().map(|finding| finding.code.to_owned()).collect();
    codes.sort();
    codes.dedup();
    codes
}

fn show(list: Vec<Finding>) -> String {
    let handler = GraphicalReportHandler::new_themed(GraphicalTheme::unicode_nocolor()).with_width(110).with_links(false);
    let mut text = String::new();
    for finding in list {
        handler.render_report(&mut text, Report::new(finding).as_ref()).unwrap();
    }
    text
}

fn check(folder: &str, prefix: &str, fails: bool) -> usize {
    let mut wrong = Vec::new();
    let names = names(folder);
    for name in &names {
        let (failed, list) = match findings(folder, name) {
            Ok(cautions) => (false, cautions),
            Err(findings) => (true, findings.list),
        };
        assert_eq!(failed, list.iter().any(|finding| finding.severity == Severity::Error), "{name}");
        let mut wanted = wanted(folder, name);
        wanted.sort();
        if failed != fails || codes(&list) != wanted {
            wrong.push(format!("{name}: wanted {wanted:?}, found {:?}", codes(&list)));
        }
        assert!(list.iter().all(|finding| finding.code != "well::program-fault"), "{name}");
        insta::with_settings!({ snapshot_suffix => "", prepend_module_to_snapshot => false, omit_expression => true }, {
            insta::assert_snapshot!(format!("{prefix}-{name}"), show(list));
        });
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    names.len()
}

#[test]
fn rejects_every_faulty_file() {
    assert!(check("tests/invalid", "invalid", true) >= 100);
}

#[test]
fn law_cautions_do_not_stop_a_file() {
    assert!(check("tests/doubtful", "doubtful", false) >= 10);
}

#[test]
fn law_the_valid_files_raise_nothing() {
    let loaded = read("tests/valid/well.toml", None, &Shelf::new(&[])).unwrap();
    assert!(loaded.cautions.is_empty());
}

/// All findings of a file in one report, as the program prints it: how clear it is shows only in reading it.
#[test]
fn regress_the_whole_report() {
    let mut report = String::new();
    for name in ["several-faults-at-once", "more-pumps-than-the-rig-has"] {
        let findings = read(&format!("tests/invalid/{name}.toml"), None, &Shelf::new(&[])).unwrap_err();
        let handler = GraphicalReportHandler::new_themed(GraphicalTheme::unicode_nocolor()).with_width(110).with_links(false);
        handler.render_report(&mut report, &findings).unwrap();
    }
    insta::with_settings!({ prepend_module_to_snapshot => false, omit_expression => true }, {
        insta::assert_snapshot!("report", report);
    });
}
