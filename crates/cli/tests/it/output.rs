//! Whole outputs as a reader sees them, at a fixed moment and without colour. The figures in them are held to print by
//! the cases of the formulas; here the layout is looked at, and that nothing changes unseen. A wanted change is taken over by
//! `INSTA_UPDATE=always cargo test -p rigwright-cli` and looked at in the difference.

use crate::{AS_OF, code, out, program, root, run};
use insta::assert_snapshot;
use std::process::Stdio;

const OSTRICK: &str = "examples/ostrick.toml";

#[test]
fn regress_the_sheet_of_a_review() {
    assert_snapshot!("sheet-ostrick", out(&run(&["review", OSTRICK, "--as-of", AS_OF])));
    assert_snapshot!(
        "sheet-tolvane-metric",
        out(&run(&["review", "examples/tolvane.toml", "--units", "metric", "--as-of", AS_OF]))
    );
    assert_snapshot!(
        "sheet-quellmere-metric",
        out(&run(&["review", "examples/quellmere.toml", "--units", "metric", "--as-of", AS_OF]))
    );
}

#[test]
fn regress_rigs_side_by_side() {
    let rigs = ["examples/rigs/anvil-12.toml", "examples/rigs/harrow-3.toml"];
    assert_snapshot!("rigs-ostrick", out(&run(&["review", OSTRICK, "--rig", rigs[0], "--rig", rigs[1], "--as-of", AS_OF])));
}

#[test]
fn regress_proposals() {
    assert_snapshot!("propose-tolvane", out(&run(&["propose", "examples/tolvane.toml"])));
    assert_snapshot!("propose-harrow", out(&run(&["propose", OSTRICK, "--rig", "examples/rigs/harrow-3.toml"])));
}

#[test]
fn regress_a_working() {
    assert_snapshot!("explain-setback", out(&run(&["explain", OSTRICK, "hoisting/setback", "--section", "12 1/4 in"])));
}

#[test]
fn regress_a_formula() {
    assert_snapshot!("calc", out(&run(&["calc", "hydrostatic-pressure", "density=10 ppg", "vertical_depth=7000 ft"])));
    assert_snapshot!("calc-needs", out(&run(&["calc", "hydrostatic-pressure"])));
}

#[test]
fn regress_a_check() {
    assert_snapshot!("check", out(&run(&["check", OSTRICK])));
}

/// Wide enough for a terminal of 100 columns, in every system of units and on every page.
#[test]
fn law_no_line_is_wider_than_a_hundred_columns() {
    for units in ["field", "metric", "canadian"] {
        for arguments in [
            &["review", OSTRICK][..],
            &["review", "examples/tolvane.toml"],
            &["review", OSTRICK, "--rig", "examples/rigs/anvil-12.toml", "--rig", "examples/rigs/harrow-3.toml"],
            &["explain", OSTRICK, "circulating/fracture"],
            &["explain", "examples/tolvane.toml", "hoisting/hook-load"],
            &["explain", OSTRICK, "control/kill"],
            &["propose", OSTRICK],
            &["propose", "examples/tolvane.toml"],
            &["calc"],
            &["calc", "hydrostatic-pressure"],
        ] {
            let text = out(&run(&[arguments, &["--units", units]].concat()));
            assert!(text.lines().count() > 5, "{arguments:?}");
            for line in text.lines() {
                assert!(line.chars().count() <= 100, "{arguments:?} in {units}: {} columns\n{line}", line.chars().count());
            }
        }
    }
}

/// Every question opens into its working, which ends with its answer, in every well.
#[test]
fn law_every_question_opens() {
    let list = out(&run(&["explain", OSTRICK]));
    let slugs: Vec<&str> =
        list.lines().filter_map(|line| line.split_whitespace().next()).filter(|word| word.contains('/')).collect();
    assert!(slugs.len() > 30, "{list}");
    for well in [OSTRICK, "examples/tolvane.toml", "examples/quellmere.toml"] {
        for slug in &slugs {
            let output = run(&["explain", well, slug]);
            let text = out(&output);
            assert_eq!(code(&output), Some(0), "{well} {slug}");
            assert!(text.contains("\nso\n"), "{well} {slug} ends without a conclusion:\n{text}");
            for line in text.lines() {
                assert!(line.chars().count() <= 100, "{well} {slug}: {} columns\n{line}", line.chars().count());
            }
        }
    }
}

/// A pipe has no colour, whatever the terminal; a forced one has, unless NO_COLOR says otherwise.
#[test]
fn colour_only_where_it_is_wanted() {
    let escapes = |text: &[u8]| text.contains(&0x1b);
    assert!(!escapes(&run(&["review", OSTRICK]).stdout));
    assert!(!escapes(&run(&["review", "no-such.toml"]).stderr));
    assert!(!escapes(&run(&["--help"]).stdout));
    let forced = program(&["review", OSTRICK]).env("CLICOLOR_FORCE", "1").output().expect("the program runs");
    assert!(escapes(&forced.stdout));
    let refused = program(&["review", OSTRICK]).env("CLICOLOR_FORCE", "1").env("NO_COLOR", "1").output().expect("it runs");
    assert!(!escapes(&refused.stdout));
}

/// Same input, same bytes out.
#[test]
fn law_a_review_is_the_same_each_time() {
    let arguments = ["review", OSTRICK, "--json", "--as-of", AS_OF];
    assert_eq!(run(&arguments).stdout, run(&arguments).stdout);
}

/// A well may be named from anywhere; its rig is looked for beside it.
#[test]
fn a_rig_is_found_from_the_folder_of_its_well() {
    let elsewhere = std::env::temp_dir();
    let well = root().join(OSTRICK);
    let output = program(&["check"]).arg(&well).current_dir(elsewhere).stdin(Stdio::null()).output().expect("the program runs");
    assert_eq!(code(&output), Some(0), "{}", out(&output));
}

#[test]
fn a_figure_is_a_whole_drawing() {
    let drawn = out(&run(&["figure", "examples/tolvane.toml", "window", "--units", "metric"]));
    assert!(drawn.starts_with("<svg ") && drawn.trim_end().ends_with("</svg>"));
    for class in ["lower-limit", "upper-limit", "still", "flowing", "pulling", "running", "band", "mark"] {
        assert!(drawn.contains(&format!("{class}\"")), "no {class}");
    }
    assert!(drawn.contains("[sg]") && drawn.contains("[m]"));
}
