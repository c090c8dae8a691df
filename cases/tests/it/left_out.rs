//! The list of worked examples that do not run.

use std::collections::BTreeSet;

use rigwright_cases::{data_folder, left_out, load, parse_left_out};

#[test]
fn law_no_case_both_runs_and_is_left_out() {
    let run: BTreeSet<String> = load(&data_folder())
        .unwrap_or_else(|error| panic!("{error}"))
        .into_iter()
        .flat_map(|file| file.cases.into_iter().map(|case| case.id))
        .collect();
    let (mut seen, mut breaches) = (BTreeSet::new(), Vec::new());
    for case in left_out().unwrap_or_else(|error| panic!("{error}")) {
        if run.contains(&case.id) {
            breaches.push(format!("{} runs: take it out of left-out.toml", case.id));
        }
        for name in case.runs_as.iter().filter(|name| !run.contains(*name)) {
            breaches.push(format!("{} is said to run as {name}, which no data file has", case.id));
        }
        for (what, text) in [("id", &case.id), ("subject", &case.subject), ("what", &case.what), ("reason", &case.reason)] {
            if text.trim().is_empty() {
                breaches.push(format!("`{}` has an empty {what}", case.id));
            }
        }
        if !seen.insert(case.id.clone()) {
            breaches.push(format!("{} stands twice", case.id));
        }
    }
    assert!(!seen.is_empty(), "the list is empty");
    assert!(breaches.is_empty(), "{}", breaches.join("\n"));
}

#[test]
fn rejects_a_case_without_reason_or_with_an_unknown_key() {
    let known = "[[case]]\nid = \"one\"\nsubject = \"gas\"\nwhat = \"a column\"\n";
    assert!(parse_left_out(known).is_err_and(|error| error.contains("reason")));
    assert!(parse_left_out(&format!("{known}reason = \"none\"\ncolour = \"red\"\n")).is_err());
    let whole = parse_left_out(&format!("{known}reason = \"not built\"\n"));
    assert_eq!(whole.map(|cases| cases.len()), Ok(1));
}
