//! The kill sheet as its users meet it.

use crate::{changed, code, err, out, run};

const ASKED: [&str; 8] = ["--sidpp", "286 psi", "--sicp", "560 psi", "--gain", "20 +/- 2 bbl", "--float", "none"];

fn asked(well: &str, more: &[&str]) -> std::process::Output {
    let mut arguments = vec!["kill-sheet", well, "--as-of", "2026-11-11"];
    arguments.extend(ASKED);
    arguments.extend(more);
    run(&arguments)
}

/// By hand: 11.5 + 286/(0.0519481 x 11,000) = 12.0005 ppg, rounded up to 12.1; 286 + 350 = 636 psi; 350 x 12.1/11.5 = 368 psi.
#[test]
fn published_arithmetic_of_a_sheet() {
    let output = asked("examples/ostrick.toml", &[]);
    assert_eq!(code(&output), Some(0), "{}", err(&output));
    let sheet = out(&output);
    for words in ["12.10 ppg, unrounded 12.0005 ppg", "636 psi", "368 psi", "shut in first, compute after", "as stated"] {
        assert!(sheet.contains(words), "{words}\n{sheet}");
    }
    assert!(!sheet.contains("STALE") && !sheet.contains("NaN"), "{sheet}");
    assert!(sheet.lines().all(|line| line.chars().count() <= 100), "{sheet}");
}

#[test]
fn a_stale_or_missing_slow_rate_is_told_on_the_face() {
    let face = |output: &std::process::Output| out(output).lines().take(6).collect::<Vec<_>>().join("\n");
    let old = changed(
        "sheet-stale",
        "ostrick",
        &[(
            "depth = \"10950 ft\"\nliner = \"6 1/2 in\"\ndate = 2026-11-10",
            "depth = \"10950 ft\"\nliner = \"6 1/2 in\"\ndate = 2026-10-20",
        )],
    );
    assert!(face(&asked(&old, &[])).contains("STALE"));
    let slow_rate = "[[section.slow_rate]]\npump_speed = \"30 spm\"\npressure = \"350 psi\"\nweight = \"11.5 ppg\"\ndepth = \"10950 ft\"\nliner = \"6 1/2 in\"\ndate = 2026-11-10\n";
    let none = changed("sheet-missing", "ostrick", &[(slow_rate, "")]);
    let output = asked(&none, &[]);
    assert!(face(&output).contains("STALE"), "{}", out(&output));
    assert!(out(&output).contains("unknown: no slow rate was read"));
}

#[test]
fn rejects_readings_that_cannot_be_all_at_once() {
    let output =
        run(&["kill-sheet", "examples/ostrick.toml", "--sidpp", "-3 psi", "--sicp", "much", "--gain", "20 psi", "--hole", "9 m"]);
    assert_eq!(code(&output), Some(2));
    for words in ["--sidpp", "--sicp", "--gain", "--hole"] {
        assert!(err(&output).contains(words), "{}", err(&output));
    }
    let output = run(&["kill-sheet", "examples/ostrick.toml", "--sidpp", "286 psi", "--sicp", "560 psi", "--gain", "9000 bbl"]);
    assert_eq!(code(&output), Some(2));
    assert!(err(&output).contains("larger than the annulus"), "{}", err(&output));
}

#[test]
fn the_same_in_json_with_every_system_of_units() {
    for units in ["field", "metric", "canadian"] {
        let output = asked("examples/ostrick.toml", &["--json", "--units", units]);
        let sheet: serde_json::Value = serde_json::from_str(&out(&output)).expect("JSON");
        assert_eq!(sheet["stale"].as_array().map(Vec::len), Some(0));
        let schedule = sheet["schedule"].as_array().expect("a schedule");
        let last = |key: &str| schedule.last().and_then(|step| step[key]["value"].as_f64()).expect("a figure");
        assert!((last("hold") - sheet["final_circulating_pressure"]["value"].as_f64().expect("a figure")).abs() < 1e-6);
    }
}

#[test]
fn the_working_opens_every_figure() {
    let output = asked("examples/ostrick.toml", &["--working", "--rounded"]);
    let sheet = out(&output);
    for words in ["KMW = MW + SIDPP / (g D)", "the trade's rounded", "schedule-pressure", "pump output"] {
        assert!(sheet.contains(words), "{words}");
    }
}
