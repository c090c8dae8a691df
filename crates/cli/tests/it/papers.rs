//! Papers from the command line.

use crate::{AS_OF, changed, code, err, folder, out, run};

#[test]
fn the_papers_are_listed_and_one_is_printed_here() {
    let listed = out(&run(&["papers"]));
    for paper in ["programme", "rig-fit", "mud-programme", "bit-sheet", "power-sheet", "preventer-test", "handover", "kill-sheet"]
    {
        assert!(listed.contains(paper), "{listed}");
    }
    let fit = run(&["papers", "rig-fit", "examples/ostrick.toml", "--as-of", AS_OF, "--units", "metric", "--beside", "field"]);
    assert_eq!(code(&fit), Some(0));
    insta::assert_snapshot!(out(&fit));
    let blank = run(&["papers", "kill-sheet", "examples/ostrick.toml", "--as-of", AS_OF]);
    assert!(out(&blank).contains("For a drill: no readings are in it."));
}

#[test]
fn a_fingerprint_belongs_to_its_files_only() {
    let printed = out(&run(&["papers", "handover", "examples/ostrick.toml", "--as-of", AS_OF]));
    let print = printed.split("inputs ").nth(1).expect("it is printed").split_whitespace().next().expect("it is a word");
    let same = run(&["papers", "verify", "examples/ostrick.toml", print]);
    assert_eq!((code(&same), out(&same).contains("made from these files")), (Some(0), true));
    let heavier = changed("papers-verify", "ostrick", &[("weight = \"11.5 ppg\"", "weight = \"11.6 ppg\"")]);
    let other = run(&["papers", "verify", &heavier, print]);
    assert_eq!((code(&other), out(&other).contains("have changed since")), (Some(1), true));
    let none = run(&["papers", "verify", "examples/ostrick.toml", "made-up"]);
    assert_eq!((code(&none), err(&none).contains("twelve signs")), (Some(2), true));
}

#[test]
fn what_cannot_be_made_says_why() {
    let said = |arguments: &[&str]| {
        let output = run(arguments);
        assert_eq!(code(&output), Some(2), "{arguments:?}: {}", out(&output));
        err(&output)
    };
    assert!(said(&["papers", "rigfit", "examples/ostrick.toml"]).contains("did you mean `rig-fit`?"));
    assert!(said(&["papers", "rig-fit"]).contains("of which well?"));
    assert!(said(&["papers", "all", "examples/ostrick.toml"]).contains("-o DIR"));
    assert!(said(&["papers", "rig-fit", "examples/ostrick.toml", "--size", "a5", "--pdf", "x.pdf"]).contains("a4"));
    assert!(said(&["papers", "handover", "examples/ostrick.toml", "--xlsx", "x.xlsx"]).contains("has no workbook"));
    // No paper from a file with findings.
    let faulty = changed("papers-faulty", "ostrick", &[("weight = \"11.5 ppg\"", "weight = \"11.5 ppx\"")]);
    let pdf = folder("papers-faulty-out").join("fit.pdf");
    said(&["papers", "rig-fit", &faulty, "--pdf", pdf.to_str().expect("a path")]);
    assert!(!pdf.exists());
}

#[test]
fn a_workbook_is_written_for_papers_and_workings() {
    let folder = folder("papers-xlsx");
    let file = |name: &str| folder.join(name).to_str().expect("a path").to_owned();
    let kill = ["kill-sheet", "examples/ostrick.toml", "--sidpp", "280 psi", "--sicp", "560 psi", "--gain", "20 bbl", "--xlsx"];
    for (arguments, name) in [
        (&["papers", "rig-fit", "examples/ostrick.toml", "--xlsx"][..], "fit.xlsx"),
        (&["explain", "examples/ostrick.toml", "control/kill-weight", "--xlsx"][..], "explain.xlsx"),
        (&kill[..], "kill.xlsx"),
    ] {
        let written = file(name);
        let output = run(&[arguments, &[written.as_str()][..]].concat());
        assert_eq!(code(&output), Some(0), "{name}: {}", err(&output));
        let bytes = std::fs::read(&written).expect("it is written");
        // A workbook is a zip archive.
        assert!(bytes.starts_with(b"PK") && bytes.len() > 4000, "{name}: {} bytes", bytes.len());
    }
}

#[cfg(not(feature = "pdf"))]
#[test]
fn without_the_typesetter_a_pdf_says_how_to_get_it() {
    let output = run(&["papers", "rig-fit", "examples/ostrick.toml", "--pdf", "never.pdf"]);
    assert_eq!(code(&output), Some(2));
    assert!(err(&output).contains("--features pdf"), "{}", err(&output));
}

#[cfg(feature = "pdf")]
#[test]
fn the_whole_set_is_made_with_its_progress() {
    let folder = folder("papers-all");
    let output = run(&["papers", "all", "examples/ostrick.toml", "-o", folder.to_str().expect("a path"), "--as-of", AS_OF]);
    assert_eq!(code(&output), Some(0), "{}", err(&output));
    let listed = std::fs::read_dir(&folder).expect("the folder is there").count();
    assert_eq!(out(&output).lines().count(), listed);
    assert!(out(&output).contains(&format!("1 of {listed}")));
    for file in std::fs::read_dir(&folder).expect("the folder is there") {
        let bytes = std::fs::read(file.expect("a file").path()).expect("it reads");
        assert!(bytes.starts_with(b"%PDF-"));
    }
}
