//! Papers from the command line.

use crate::{AS_OF, changed, code, err, folder, out, run};

#[test]
fn the_papers_are_listed_and_one_is_printed_here() {
    let listed = out(&run(&["papers"]));
    for paper in ["programme", "rig-fit", "mud-programme", "bit-sheet", "power-sheet", "preventer-test", "handover", "kill-sheet"]
        .into_iter()
        .chain(["line-record", "running-sheet", "leak-off-report"])
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
}

#[test]
fn rejects_every_paper_and_workbook_from_a_file_with_findings() {
    let faulty = changed("papers-faulty", "ostrick", &[("weight = \"11.5 ppg\"", "weight = \"11.5 ppx\"")]);
    let out = folder("papers-faulty-out");
    let file = |name: &str| out.join(name).to_str().expect("a path").to_owned();
    let listed = crate::out(&run(&["papers"]));
    let papers: Vec<&str> =
        listed.lines().filter_map(|line| line.split_whitespace().next()).filter(|word| *word != "`all`").collect();
    assert!(papers.contains(&"limits-card") && papers.contains(&"kill-sheet"), "{papers:?}");
    let (pdf, book) = (file("paper.pdf"), file("paper.xlsx"));
    let mut asked: Vec<Vec<&str>> = Vec::new();
    // A report is made of its record, by its own command.
    asked.push(vec!["leak-off", &faulty, "examples/shoe-test.csv", "--pdf", &pdf]);
    for paper in papers.into_iter().filter(|paper| *paper != "leak-off-report") {
        asked.push(vec!["papers", paper, &faulty, "--pdf", &pdf]);
        asked.push(vec!["papers", paper, &faulty, "--xlsx", &book]);
    }
    asked.push(vec!["trip-sheet", &faulty, "--xlsx", &book]);
    let kill = ["kill-sheet", &faulty, "--sidpp", "280 psi", "--sicp", "560 psi", "--gain", "20 bbl", "--pdf", &pdf];
    asked.push(kill.to_vec());
    let folder = file("all");
    asked.push(vec!["papers", "all", &faulty, "-o", &folder]);
    for arguments in asked {
        let output = run(&arguments);
        assert_eq!(code(&output), Some(2), "{arguments:?}: {}", crate::out(&output));
        assert!(err(&output).contains("11.5 ppx"), "{arguments:?}: {}", err(&output));
    }
    let left =
        std::fs::read_dir(&out).expect("the folder is there").filter_map(Result::ok).filter(|found| found.path().is_file());
    assert_eq!(left.count(), 0);
}

#[test]
fn a_tally_makes_its_running_sheet() {
    let plan = out(&run(&["papers", "running-sheet", "examples/ostrick.toml", "--section", "2", "--as-of", AS_OF]));
    assert!(plan.contains("PLAN, no tally") && plan.contains("joint 40.00 ft"), "{plan}");
    let tally = ["--section", "2", "--tally", "examples/casing-tally.csv", "--as-of", AS_OF];
    let made = run(&[&["papers", "running-sheet", "examples/ostrick.toml"][..], &tally].concat());
    let text = out(&made);
    assert_eq!(code(&made), Some(0), "{}", err(&made));
    // Reckoned apart from the file: its lengths less 4.81 in a thread, up to the first joint that passes 7190 ft.
    assert!(text.contains("7192.76 ft") && text.contains("2.76 ft") && text.contains("6 pieces left on the racks"), "{text}");
    let print = text.split("fingerprint of the tally ").nth(1).expect("it is printed").split('.').next().expect("it ends");
    let verify = |file: &str| run(&["papers", "verify", "examples/ostrick.toml", print, "--tally", file]);
    assert_eq!(code(&verify("examples/casing-tally.csv")), Some(0), "{print}");
    assert_eq!(code(&verify("examples/shoe-test.csv")), Some(1));
    // A tally that cannot be right makes no paper, and says all that is wrong with its lines.
    let wrong = folder("papers-tally").join("wrong.csv");
    std::fs::write(&wrong, "joint, made-up length [ft]\n1, 40\n1, 41\n2, x\n").expect("it is written");
    let refused = run(&["papers", "running-sheet", "examples/ostrick.toml", "--tally", wrong.to_str().expect("a path")]);
    assert_eq!(code(&refused), Some(2));
    assert!(err(&refused).contains("counted twice") && err(&refused).contains("is no number"), "{}", err(&refused));
    let other = run(&["papers", "handover", "examples/ostrick.toml", "--tally", "examples/casing-tally.csv"]);
    assert_eq!((code(&other), err(&other).contains("running sheet")), (Some(2), true));
    let record = run(&["papers", "leak-off-report", "examples/ostrick.toml"]);
    assert_eq!((code(&record), err(&record).contains("leak-off")), (Some(2), true));
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
        (&["leak-off", "examples/ostrick.toml", "examples/shoe-test.csv", "--xlsx"][..], "leak-off.xlsx"),
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
