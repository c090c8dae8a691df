//! Nothing that stands in a file makes the reader stop, hang or show a place outside the file.
//!
//! These are the fuzz tests of this crate; they run on stable. `PROPTEST_CASES=100000` runs them as long as
//! one likes, and what they find is kept in `proptest-regressions`.

use crate::{Shelf, root};
use miette::NarratableReportHandler;
use proptest::prelude::*;
use rigwright_wellfile::{Disk, Files, LARGEST_FILE, Severity, read};
use std::io;

/// Reads files of any content, draws whatever is found, and looks at what the model promises.
fn survive(well: &[u8], rig: &[u8], survey: &[u8]) {
    let shelf = Shelf(vec![
        ("w/well.toml".to_owned(), well.to_vec()),
        ("w/rig.toml".to_owned(), rig.to_vec()),
        ("w/survey.csv".to_owned(), survey.to_vec()),
    ]);
    match read("w/well.toml", Some("w/rig.toml"), &shelf) {
        Ok(loaded) => {
            assert!(loaded.cautions.iter().all(|finding| finding.severity == Severity::Caution));
            let well = &loaded.fit.well;
            assert!(!well.sections.is_empty() && !well.formations.is_empty());
            assert!(well.sections.windows(2).all(|pair| pair[0].bottom < pair[1].bottom));
            assert!(well.formations.iter().all(|layer| layer.top < layer.base && layer.pore.iter().all(|end| end.is_finite())));
            let ends = |section: &rigwright_well::Section| section.string.last().is_some_and(|part| part.length.is_infinite());
            assert!(well.sections.iter().all(ends));
            assert!(!format!("{:?}", loaded.fit).contains("NaN"));
        }
        Err(findings) => {
            assert!(findings.errors() > 0);
            for finding in &findings.list {
                for label in &finding.labels {
                    assert!(label.place.span.end <= label.place.source.text.len(), "{finding}");
                }
                assert!(finding.code != "well::program-fault", "{finding}");
            }
            let mut text = String::new();
            NarratableReportHandler::new().render_report(&mut text, &findings).unwrap();
        }
    }
}

fn valid(path: &str) -> String {
    std::fs::read_to_string(root(path)).unwrap()
}

/// Words that mean something to the reader.
fn word() -> impl Strategy<Value = String> {
    prop_oneof![
        prop::sample::select(
            &[
                "\"",
                "[",
                "]",
                "[[section]]\n",
                "[[section.string]]\n",
                "[section.mud]\n",
                "\n",
                "=",
                "0",
                "-1",
                "1e400",
                "nan",
                "inf",
                "\"0 ft\"",
                "\"-5 ft\"",
                "\"1e300 ft\"",
                "\"9.2 +/- 900 ppg\"",
                "\"..ppg\"",
                "\"1..2 ppg\"",
                "{}",
                "{ 1 = 2 }",
                "[]",
                "\"\"",
                "part = \"bit\"\n",
                "string = \"8 1/2 in\"\n",
                "top = \"0 ft\"\n",
                "file = \"survey.csv\"\n",
                "[survey]\n",
                "'''",
                "\"\"\"",
                "#",
                ".",
                "1979-05-27",
                "true",
                "é",
                "\u{feff}",
                "\u{1F6E2}",
                "\0",
                "\r",
            ][..]
        )
        .prop_map(str::to_owned),
        "[ -~]{0,6}",
    ]
}

/// A file with a few pieces cut out, doubled, swapped for a word, or filled in.
fn mutated(text: String) -> impl Strategy<Value = Vec<u8>> {
    let edit = (0.0..1.0f64, 0usize..40, 0..4u8, word());
    prop::collection::vec(edit, 1..6).prop_map(move |edits| {
        let mut text = text.clone().into_bytes();
        for (at, length, how, word) in edits {
            let start = ((text.len() as f64) * at) as usize;
            let end = (start + length).min(text.len());
            let piece = match how {
                0 => Vec::new(),
                1 => text[start..end].repeat(2),
                2 => word.into_bytes(),
                _ => [word.as_bytes(), &text[start..end]].concat(),
            };
            text.splice(start..end, piece);
        }
        text
    })
}

proptest! {
    #[test]
    fn law_any_bytes_are_survived(
        well in prop::collection::vec(any::<u8>(), 0..400),
        rig in prop::collection::vec(any::<u8>(), 0..400),
    ) {
        survive(&well, &rig, &rig);
    }

    #[test]
    fn law_any_text_is_survived(well in "(\\PC|\n){0,200}", survey in "([0-9a-z.,; \"\\[\\]-]|\n){0,200}") {
        let rig = valid("tests/valid/rig.toml");
        survive(well.as_bytes(), rig.as_bytes(), b"");
        let with = valid("tests/valid/well.toml").replacen("[[formation]]", "[survey]\nfile = \"survey.csv\"\n\n[[formation]]", 1);
        survive(with.as_bytes(), rig.as_bytes(), survey.as_bytes());
    }

    #[test]
    fn law_mutated_wells_are_survived(well in mutated(valid("examples/ostrick.toml"))) {
        survive(&well, valid("tests/valid/rig.toml").as_bytes(), b"md [ft],inc [deg],azi [deg]\n0,0,0\n9000,3,0\n");
    }

    #[test]
    fn law_mutated_small_wells_are_survived(well in mutated(valid("tests/valid/well.toml")), rig in mutated(valid("tests/valid/rig.toml"))) {
        survive(&well, &rig, b"");
    }

    #[test]
    fn law_mutated_surveys_are_survived(survey in mutated("md [ft],inc [deg],azi [deg]\n0,0,0\n3000,3,0\n6000,5,40\n".to_owned())) {
        let well = valid("tests/valid/well.toml").replacen("[[formation]]", "[survey]\nfile = \"survey.csv\"\n\n[[formation]]", 1);
        survive(well.as_bytes(), valid("tests/valid/rig.toml").as_bytes(), &survey);
    }
}

/// Says how large it is, and must not be read.
struct Huge;

impl Files for Huge {
    fn read(&self, name: &str) -> io::Result<Vec<u8>> {
        panic!("{name} was read")
    }

    fn len(&self, _name: &str) -> io::Result<u64> {
        Ok(LARGEST_FILE + 1)
    }
}

#[test]
fn rejects_a_file_that_is_too_large_without_reading_it() {
    let findings = read("well.toml", None, &Huge).unwrap_err();
    assert_eq!(findings.list.len(), 1);
    assert_eq!(findings.list[0].code, "well::too-large-file");
    let path = std::env::temp_dir().join(format!("rigwright-{}.toml", std::process::id()));
    std::fs::File::create(&path).unwrap().set_len(100 << 20).unwrap();
    let findings = read(path.to_str().unwrap(), None, &Disk);
    std::fs::remove_file(&path).unwrap();
    assert_eq!(findings.unwrap_err().list[0].code, "well::too-large-file");
}

#[test]
fn rejects_what_is_not_text() {
    let codes = |bytes: &[u8]| {
        let shelf = Shelf(vec![("w.toml".to_owned(), bytes.to_vec())]);
        read("w.toml", Some("tests/valid/rig.toml"), &shelf)
            .unwrap_err()
            .list
            .iter()
            .map(|finding| finding.code)
            .collect::<Vec<_>>()
    };
    assert_eq!(codes(b"name = \"\xff\xfe\""), ["well::not-text"]);
    assert_eq!(codes(b"PK\x03\x04\x14\x00\x06\x00\x08\x00\x00\x00!\x00"), ["well::not-text"]);
    assert_eq!(codes(&[0; 4000]), ["well::not-text"]);
    // UTF-16, as some editors save it.
    assert_eq!(codes(b"n\0a\0m\0e\0"), ["well::not-text"]);
}

#[test]
fn rejects_a_folder_and_a_file_that_is_not_there() {
    for name in [root("tests"), root("tests/no-such-file.toml")] {
        let findings = read(&name, None, &Disk).unwrap_err();
        assert_eq!(findings.list[0].code, "well::no-file");
    }
}

#[test]
fn law_a_message_does_not_repeat_a_whole_page() {
    let text = format!("elevation = \"{} ft\"\n", "9".repeat(100_000));
    let shelf = Shelf::new(&[("w.toml", &text)]);
    let findings = read("w.toml", Some("tests/valid/rig.toml"), &shelf).unwrap_err();
    assert!(findings.list.iter().all(|finding| finding.message.len() < 1_100));
}

/// A file from elsewhere must not clear the screen, colour it or turn the writing round.
#[test]
fn law_nothing_in_a_file_steers_the_terminal() {
    let texts = [
        "\"a\\u001b[31mb\" = 1\n",
        "name = \"\\u001b]0;x\\u0007\"\nkind = \"\\u202e\"\n",
        "name = \"\u{1b}[2J\"\n",
        "# \u{202e}\nname = 3 \u{9b}\n",
        "elevation = \"5 \\u001b[31m\"\n",
        "rig = \"\\u001b[31m\"\nsurvey = { file = \"\\u0007\" }\n",
    ];
    for text in texts {
        let shelf = Shelf::new(&[("w.toml", text)]);
        let findings = read("w.toml", None, &shelf).unwrap_err();
        let mut shown = String::new();
        NarratableReportHandler::new().render_report(&mut shown, &findings).unwrap();
        let bad: Vec<char> = shown.chars().filter(|c| (c.is_control() && *c != '\n') || *c == '\u{202e}').collect();
        assert!(bad.is_empty(), "{bad:?} in {shown}");
    }
}

/// Findings are capped, so that a page of nonsense does not become a thousand pages of findings.
#[test]
fn law_the_list_of_findings_ends() {
    let text: String = (0..50_000).map(|line| format!("key{line} = {line}\n")).collect();
    let shelf = Shelf::new(&[("w.toml", &text)]);
    let findings = read("w.toml", Some("tests/valid/rig.toml"), &shelf).unwrap_err();
    assert!(findings.list.len() <= 250 && findings.more > 49_000, "{} {}", findings.list.len(), findings.more);
    assert!(findings.to_string().contains("more are not shown"));
}
