//! What is wrong is said once, all at once, with what to write instead.

use crate::{changed, code, err, out, root, run};
use insta::assert_snapshot;

const OSTRICK: &str = "examples/ostrick.toml";

#[test]
fn rejects_a_file_that_is_not_there() {
    assert_snapshot!("no-file", err(&run(&["review", "examples/ostrik.toml"])));
}

#[test]
fn rejects_every_wrong_word_of_explain_at_once() {
    let arguments = [
        "explain",
        OSTRICK,
        "hoisting/hok-load",
        "--section",
        "9 5/8",
        "--hole",
        "5 psi",
        "--at",
        "20000 ft",
        "--during",
        "drillin",
    ];
    assert_snapshot!("explain-words", err(&run(&arguments)));
}

#[test]
fn rejects_every_wrong_word_of_calc_at_once() {
    let arguments = ["calc", "hydrostatic-pressure", "denity=10 ppg", "vertical_depth=7000 psi", "gravity=-9.8 m/s2", "depth"];
    assert_snapshot!("calc-words", err(&run(&arguments)));
    assert_snapshot!("calc-name", err(&run(&["calc", "hydrostatic-presure"])));
    assert_snapshot!("calc-twice", err(&run(&["calc", "hydrostatic-pressure", "density=10 ppg", "density=11 ppg"])));
}

#[test]
fn rejects_a_depth_for_a_question_that_is_not_asked_along_the_hole() {
    assert_snapshot!("not-along-the-hole", err(&run(&["explain", OSTRICK, "hook-load", "--at", "5000 ft"])));
}

#[test]
fn rejects_an_operation_that_the_section_has_not() {
    let text = std::fs::read_to_string(root().join(OSTRICK)).expect("the example is there");
    let casing = text.split("\n\n").find(|block| block.contains("7 in production casing")).expect("its casing");
    let uncased = changed("uncased", "ostrick", &[(casing, "")]);
    assert_snapshot!("no-casing", err(&run(&["explain", &uncased, "hook-load", "--section", "3", "--during", "running casing"])));
}

#[test]
fn rejects_a_figure_that_nobody_draws() {
    assert_snapshot!("no-figure", err(&run(&["figure", OSTRICK, "windows", "--section", "12"])));
}

/// What is wrong with a well that several rigs share is told once.
#[test]
fn rejects_a_faulty_well_once_for_all_rigs() {
    let faulty = changed("faulty-for-two", "ostrick", &[("kind = \"land\"", "kind = \"lnd\"")]);
    let rigs = ["examples/rigs/anvil-12.toml", "examples/rigs/harrow-3.toml"];
    let output = run(&["review", &faulty, "--rig", rigs[0], "--rig", rigs[1]]);
    assert_eq!(code(&output), Some(2));
    assert_eq!(err(&output).matches("`lnd`").count(), 1, "{}", err(&output));
}

/// The findings of `check` are its result, so they go where results go.
#[test]
fn rejects_all_faults_of_a_file_at_once() {
    let changes =
        [("weight = \"10.2 ppg\"\nreadings", "wieght = \"10.2 ppg\"\nreadings"), ("flow = \"450 gpm\"", "flow = \"450 psi\"")];
    let faulty = changed("two-faults", "ostrick", &changes);
    let output = run(&["check", &faulty]);
    assert_eq!(code(&output), Some(2));
    assert_eq!(err(&output), "");
    let told = out(&output);
    for wanted in ["wieght", "did you mean `weight`", "450 psi", "ostrick.toml:"] {
        assert!(told.contains(wanted), "no `{wanted}` in\n{told}");
    }
}
