//! `steps` as a user types it.

use crate::{code, err, out, run};
use serde_json::Value;

const OSTRICK: &str = "examples/ostrick.toml";

#[test]
fn law_steps_come_as_text_and_as_the_same_json() {
    let typed = ["steps", OSTRICK, "volumetric", "sidpp=286 psi", "sicp=634 psi", "gain=25 bbl", "--as-of", "2026-11-11"];
    let text = out(&run(&typed));
    assert!(text.contains("volumetric steps") && text.contains("shut in first") && !text.contains("PLAN"), "{text}");
    let json: Value = serde_json::from_str(&out(&run(&[&typed[..], &["--json"]].concat()))).unwrap();
    assert_eq!(json["method"], "volumetric");
    assert_eq!(json["short"], false);
    assert!(json["blocks"].as_array().unwrap().iter().any(|block| block["block"] == "table"));
    assert!(json["working"].as_array().unwrap().len() > 3);
    // Untyped readings are those of the design kick, and the paper says so on its face.
    assert!(out(&run(&["steps", OSTRICK, "bullhead"])).contains("PLAN"));
}

#[test]
fn rejects_words_that_mean_nothing_all_at_once() {
    let output = run(&["steps", OSTRICK, "volumetric", "sik=3 psi", "gain=3 ft", "words", "--bit", "90000 ft"]);
    assert_eq!(code(&output), Some(2));
    let told = err(&output);
    for part in ["`sik`", "`gain`", "`words`", "--bit"] {
        assert!(told.contains(part), "{part}: {told}");
    }
    assert_eq!(code(&run(&["steps", OSTRICK, "strip"])), Some(2));
    assert_eq!(code(&run(&["steps", OSTRICK, "volumetrc"])), Some(2));
}

#[test]
fn law_methods_tell_what_they_take() {
    assert!(out(&run(&["steps", OSTRICK])).contains("lubricate"));
    assert!(out(&run(&["steps", OSTRICK, "strip", "--needs"])).contains("seal_friction"));
}

#[test]
fn law_a_shoe_test_is_read_from_its_record() {
    let text = out(&run(&["leak-off", OSTRICK, "examples/shoe-test.csv", "--as-of", "2026-11-11"]));
    assert!(text.contains("LOT") && text.contains("1255 psi") && text.contains("<- pick"), "{text}");
    let missing = run(&["leak-off", OSTRICK, "examples/no-such-file.csv", "--section", "1"]);
    assert_eq!(code(&missing), Some(2));
    let wrong = run(&["leak-off", OSTRICK, OSTRICK]);
    assert_eq!(code(&wrong), Some(2));
}

#[test]
fn law_an_unknown_jurisdiction_shows_nothing_as_met() {
    let output = run(&["due", OSTRICK, "--as-of", "2026-11-11"]);
    assert_eq!(code(&output), Some(3));
    let text = out(&output);
    assert!(text.contains("nothing is shown as met") && text.contains("preventer-pressure-test"), "{text}");
}
