//! How the program ends.

use crate::{AS_OF, changed, code, folder, out, program, run};
use std::io::Read;
use std::process::Stdio;

const OSTRICK: &str = "examples/ostrick.toml";

#[test]
fn nothing_short_ends_with_nought() {
    let output = run(&["review", OSTRICK, "--as-of", AS_OF]);
    assert_eq!(code(&output), Some(0), "{}", out(&output));
}

#[test]
fn something_short_ends_with_one() {
    let output = run(&["review", OSTRICK, "--rig", "examples/rigs/harrow-3.toml", "--as-of", AS_OF]);
    assert_eq!(code(&output), Some(1));
    assert!(out(&output).contains("short"));
}

#[test]
fn of_several_rigs_the_worst_sets_the_code() {
    let rigs = ["examples/rigs/anvil-12.toml", "examples/rigs/harrow-3.toml"];
    let output = run(&["review", OSTRICK, "--rig", rigs[0], "--rig", rigs[1], "--as-of", AS_OF]);
    assert_eq!(code(&output), Some(1));
}

#[test]
fn wrong_input_ends_with_two() {
    for arguments in [
        &["review", "no-such.toml"][..],
        &["check", "no-such.toml"],
        &["explain", OSTRICK, "hoisting/no-such"],
        &["calc", "no-such"],
        &["figure", OSTRICK, "no-such"],
        &["review", OSTRICK, "--units", "furlongs"],
        &["review", OSTRICK, "--as-of", "yesterday"],
        &["review"],
        &["no-such-command"],
        &[],
    ] {
        assert_eq!(code(&run(arguments)), Some(2), "{arguments:?}");
    }
}

/// A missing design kick is unknown in `control`; a missing rating of the elevators only elsewhere.
#[test]
fn something_unknown_in_control_ends_with_three() {
    let kick = changed("unknown-in-control", "ostrick", &[("intensity = \"0.5 ppg\"\n", "")]);
    let output = run(&["review", &kick, "--as-of", AS_OF]);
    assert_eq!(code(&output), Some(3), "{}", out(&output));
    assert!(out(&output).contains("kick.intensity"));

    let rating = changed("unknown-elsewhere", "ostrick", &[("[elevators]\nrating = \"700 klbf\"\n", "[elevators]\n")]);
    assert_eq!(code(&run(&["review", &rating, "--as-of", AS_OF])), Some(0));
    assert_eq!(code(&run(&["review", &rating, "--strict", "--as-of", AS_OF])), Some(3));
}

#[test]
fn help_and_version_are_no_errors() {
    for arguments in [&["--help"][..], &["--version"], &["review", "--help"], &["help", "calc"]] {
        assert_eq!(code(&run(arguments)), Some(0), "{arguments:?}");
    }
    let help = out(&run(&["review", "--help"]));
    for line in ["0  everything", "1  something is short", "2  the input is wrong", "3  nothing is short", "worst of them"] {
        assert!(help.contains(line), "no `{line}` in\n{help}");
    }
}

/// Whoever reads may stop reading.
#[test]
fn a_closed_pipe_is_success() {
    let mut child = program(&["calc"]).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().expect("the program runs");
    drop(child.stdout.take());
    let mut said = String::new();
    child.stderr.take().expect("errors are read").read_to_string(&mut said).expect("errors are text");
    assert_eq!(child.wait().expect("the program ends").code(), Some(0), "{said}");
    assert_eq!(said, "");
}

#[test]
fn a_starter_reviews_as_it_stands_and_is_never_overwritten() {
    let folder = folder("starter");
    let file = folder.join("my-well.toml").to_string_lossy().into_owned();
    assert_eq!(code(&run(&["new", &file])), Some(0));
    assert!(folder.join("my-well-rig.toml").is_file());
    let review = run(&["review", &file, "--as-of", AS_OF]);
    assert!(matches!(code(&review), Some(0 | 3)), "{}", out(&review));
    assert!(out(&review).starts_with("My well on "));
    assert_eq!(code(&run(&["check", &file])), Some(0));

    let before = std::fs::read_to_string(&file).expect("the well is there");
    std::fs::remove_file(folder.join("my-well-rig.toml")).expect("the rig can be removed");
    assert_eq!(code(&run(&["new", &file])), Some(2));
    assert_eq!(std::fs::read_to_string(&file).expect("the well is there"), before);
    assert!(!folder.join("my-well-rig.toml").exists(), "a refused command writes nothing");
}

#[test]
fn scripts_and_pages_are_made() {
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let output = run(&["completions", shell]);
        assert_eq!(code(&output), Some(0));
        assert!(out(&output).contains("explain"), "{shell}");
    }
    let page = out(&run(&["man"]));
    assert!(page.contains(".TH") && page.contains("rigwright") && page.contains("Exit codes"));
}
