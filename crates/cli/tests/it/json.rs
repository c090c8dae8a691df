//! The JSON has exactly the keys that `docs/json.md` tells.

use crate::{AS_OF, changed, code, out, root, run};
use serde_json::Value;
use std::collections::BTreeSet;

const OSTRICK: &str = "examples/ostrick.toml";

fn document(arguments: &[&str]) -> Value {
    let text = out(&run(arguments));
    serde_json::from_str(&text).unwrap_or_else(|error| panic!("{arguments:?}: {error}\n{text}"))
}

/// Every path of keys in a value, with `[]` for the items of a list.
fn paths(value: &Value, path: &str, found: &mut BTreeSet<String>) {
    match value {
        Value::Object(keys) => {
            for (key, value) in keys {
                let path = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
                paths(value, &path, found);
            }
        }
        Value::Array(items) => {
            found.insert(format!("{path}[]"));
            items.iter().for_each(|item| paths(item, &format!("{path}[]"), found));
        }
        _ => {
            found.insert(path.to_owned());
        }
    }
}

/// The paths in the first columns of the tables of one part of the page.
fn documented(heading: &str) -> BTreeSet<String> {
    let page = std::fs::read_to_string(root().join("docs/json.md")).expect("the page is there");
    let part = page.split_once(heading).unwrap_or_else(|| panic!("no {heading}")).1;
    let part = part.split("\n## ").next().unwrap_or(part).split("\n### ").next().unwrap_or(part);
    let cells = part.lines().filter_map(|line| line.strip_prefix("| ")).filter_map(|row| row.split(" | ").next());
    cells.flat_map(|cell| cell.split('`').skip(1).step_by(2)).map(str::to_owned).collect()
}

/// Drops paths of objects and lists whose items have paths of their own.
fn leaves(mut paths: BTreeSet<String>) -> BTreeSet<String> {
    let all = paths.clone();
    paths.retain(|path| !all.iter().any(|other| other.starts_with(&format!("{path}."))));
    paths
}

/// Every key of a review stands on the page and every key on the page in a review, taken over wells in which answers of
/// every verdict occur.
#[test]
fn law_a_review_has_exactly_the_documented_keys() {
    let unknown = changed(
        "json-unknown",
        "ostrick",
        &[("intensity = \"0.5 ppg\"\n", ""), ("elevation = \"28 ft\"", "elevation = \"0 ft\"")],
    );
    let harrow = "examples/rigs/harrow-3.toml";
    let mut found = BTreeSet::new();
    for arguments in [
        &["review", OSTRICK, "--rig", harrow, "--json", "--as-of", AS_OF][..],
        &["review", "examples/tolvane.toml", "--json", "--as-of", AS_OF],
        &["review", &unknown, "--json", "--as-of", AS_OF],
    ] {
        paths(&document(arguments), "", &mut found);
    }
    // Where a list is empty or a value is null in one review, another has the keys below it.
    let found = leaves(found.into_iter().map(|path| path.replace("reviews[].weakest", "reviews[].answers[]")).collect());
    let mut wanted = documented("## `review --json`");
    let answer = documented("### An answer");
    wanted.remove("reviews[].weakest");
    wanted.extend(answer.iter().map(|path| format!("reviews[].answers[].{path}")));
    let wanted = leaves(wanted);
    let missing: Vec<_> = wanted.difference(&found).collect();
    let unsaid: Vec<_> = found.difference(&wanted).collect();
    assert!(missing.is_empty() && unsaid.is_empty(), "on the page only: {missing:#?}\nin the review only: {unsaid:#?}");
}

/// The same of proposals: over wells in which something is mended, something is spoilt, pipe is changed and nothing holds.
#[test]
fn law_a_proposal_has_exactly_the_documented_keys() {
    let broken = changed(
        "json-propose",
        "ostrick",
        &[
            ("fracture = [\"15.2 ppg\", \"16.3 ppg\"]", "fracture = [\"9.65 ppg\", \"10.85 ppg\"]"),
            ("grade = \"S-135\"", "grade = \"E-75\""),
            ("nozzles = \"5x13\"", "flow_area = \"0.6 in2\""),
        ],
    );
    let unknown = changed("json-propose-unknown", "ostrick", &[("fracture = [\"15.2 ppg\", \"16.3 ppg\"]\n", "")]);
    let mut found = BTreeSet::new();
    let harrow = "examples/rigs/harrow-3.toml";
    for arguments in [
        &["propose", OSTRICK, "--rig", harrow, "--json"][..],
        &["propose", "examples/tolvane.toml", "--json"],
        &["propose", &broken, "--json"],
        &["propose", &unknown, "--json"],
    ] {
        paths(&document(arguments), "", &mut found);
    }
    // A change has the same keys wherever it stands.
    let as_mended = |path: String| {
        let change = ["mends[]", "spoils[]", "steps[].spoils[]"].into_iter().find(|list| path.starts_with(list));
        change.map_or(path.clone(), |list| format!("steps[].mends[]{}", &path[list.len()..]))
    };
    let found = leaves(found.into_iter().map(as_mended).collect());
    let wanted = leaves(documented("## `propose --json`").into_iter().map(as_mended).collect());
    let missing: Vec<_> = wanted.difference(&found).collect();
    let unsaid: Vec<_> = found.difference(&wanted).collect();
    assert!(missing.is_empty() && unsaid.is_empty(), "on the page only: {missing:#?}\nin the proposal only: {unsaid:#?}");
}

#[test]
fn a_review_tells_as_much_as_the_sheet() {
    let document = document(&["review", OSTRICK, "--json", "--as-of", AS_OF]);
    let review = &document["reviews"][0];
    assert_eq!(review["well"], "Ostrick 1");
    assert_eq!(review["rig"], "Anvil 12");
    assert_eq!(review["as_of"], "2026-12-01T06:00:00Z");
    let answers = review["answers"].as_array().expect("there are answers");
    let asked: BTreeSet<&str> = answers.iter().filter_map(|answer| answer["question"].as_str()).collect();
    for question in ["hoisting/hook-load", "rotating/pipe-strength", "circulating/fracture", "power/fuel", "control/kill-weight"]
    {
        assert!(asked.contains(question), "no {question}");
    }
    let weakest = review["weakest"].as_object().expect("something is weakest");
    let judged = answers.iter().filter(|answer| answer["room"].is_number());
    let least = judged.filter_map(|answer| answer["room"].as_f64()).fold(f64::INFINITY, f64::min);
    assert!(weakest["room"].as_f64().is_some_and(|room| room <= least));
    assert!(review["formulas"].as_array().is_some_and(|formulas| formulas.len() > 20));
}

#[test]
fn several_rigs_are_several_reviews() {
    let rigs = ["examples/rigs/anvil-12.toml", "examples/rigs/harrow-3.toml"];
    let document = document(&["review", OSTRICK, "--rig", rigs[0], "--rig", rigs[1], "--json", "--as-of", AS_OF]);
    let names: Vec<_> = document["reviews"].as_array().expect("reviews").iter().map(|review| review["rig"].clone()).collect();
    assert_eq!(names, ["Anvil 12", "Harrow 3"]);
}

/// 3000 ft of 10 ppg: 10 x 3000 x 12/231 = 1558.44 psi, from the definitions of inch, gallon and pound.
#[test]
fn published_a_formula_tells_its_numbers_in_the_wanted_units() {
    let inputs = ["calc", "hydrostatic-pressure", "density=10 ppg", "vertical_depth=3000 ft", "--json"];
    let field = document(&inputs);
    let value = |document: &Value| document["step"]["result"]["value"].as_f64().expect("a number");
    assert!((value(&field) - 1558.4416).abs() < 1e-3);
    assert_eq!(field["step"]["result"]["unit"], "psi");
    let metric = document(&[&inputs[..], &["--units", "metric"]].concat());
    assert_eq!(metric["step"]["result"]["unit"], "bar");
    assert!((value(&metric) - 107.4508).abs() < 1e-3);
}

#[test]
fn a_working_is_told_line_by_line() {
    let document = document(&["explain", OSTRICK, "hook-load", "--json"]);
    assert_eq!(document["answer"]["question"], "hoisting/hook-load");
    let lines = document["working"].as_array().expect("there is a working");
    let steps = lines.iter().filter(|line| line["line"] == "step");
    let keys = documented("### A step");
    for step in steps {
        for key in keys.iter().filter(|key| !key.contains(['.', '[']) && !["key", "sign"].contains(&key.as_str())) {
            let known =
                step.get(key).is_some() || step["inputs"][0].get(key).is_some() || step["inputs"][0]["valid"].get(key).is_some();
            assert!(known, "no {key} in {step}");
        }
    }
}

#[test]
fn what_is_wrong_is_json_too() {
    let files = run(&["review", "no-such.toml", "--json"]);
    assert_eq!(code(&files), Some(2));
    let files: Value = serde_json::from_str(&out(&files)).expect("JSON");
    assert_eq!(files["usable"], false);
    assert_eq!(files["findings"][0]["severity"], "error");
    let typed = run(&["calc", "no-such", "--json"]);
    let typed: Value = serde_json::from_str(&out(&typed)).expect("JSON");
    assert_eq!(typed["errors"][0]["message"], "there is no formula `no-such`");
    let checked = document(&["check", OSTRICK, "--json"]);
    assert_eq!((&checked["usable"], &checked["sections"]), (&Value::Bool(true), &Value::from(3)));
}
