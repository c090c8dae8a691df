//! The heads of papers: what each kind rests on, and nothing else.

use jiff::Timestamp;
use rigwright_margins::Review;
use rigwright_papers::Subject;
use rigwright_papers::paper::{Desk, Head, PAPERS, PaperKind, blank_kill_sheet, fingerprint};
use rigwright_units::System;
use rigwright_wellfile::{Disk, Files, Loaded, read};
use std::io;

const EXAMPLES: [&str; 3] = ["ostrick", "tolvane", "quellmere"];

/// The examples, with every shoe test that they plan made on a day.
struct Tested;

impl Files for Tested {
    fn read(&self, name: &str) -> io::Result<Vec<u8>> {
        let text = String::from_utf8(Disk.read(name)?).map_err(io::Error::other)?;
        let line = |line: &str| {
            let test = if line.starts_with("leak_off ") { "leak_off_date = 2026-09-01\n" } else { "" };
            format!("{line}\n{test}")
        };
        Ok(text.lines().map(line).collect::<String>().into_bytes())
    }

    fn len(&self, name: &str) -> io::Result<u64> {
        Disk.len(name).map(|len| 2 * len)
    }
}

fn example(name: &str, files: &dyn Files) -> Loaded {
    read(&format!("{}/../../examples/{name}.toml", env!("CARGO_MANIFEST_DIR")), None, files).expect("a demo reads")
}

fn with_desk(loaded: &Loaded, work: impl FnOnce(&Desk)) {
    let review = Review::new(&loaded.fit);
    let subject = Subject {
        file: "well.toml",
        rig_file: None,
        fit: &loaded.fit,
        provenance: &loaded.provenance,
        cautions: &loaded.cautions,
        review: &review,
        as_of: "2026-12-01T06:00:00Z".parse::<Timestamp>().expect("a moment"),
        units: System::Field,
    };
    let print = fingerprint(&loaded.sources);
    work(&Desk { subject: &subject, beside: None, fingerprint: &print, version: "0.0.0", section: None });
}

fn kill_head(desk: &Desk, section: usize) -> Option<Head> {
    Some(blank_kill_sheet(&Desk { section: Some(section), ..*desk })?.head)
}

#[test]
fn law_a_paper_of_one_section_lists_no_reading_of_another() {
    for name in EXAMPLES {
        with_desk(&example(name, &Tested), |desk| {
            let well = &desk.subject.fit.well;
            let mut seen = 0;
            for section in 0..well.sections.len() {
                let desk = Desk { section: Some(section), ..*desk };
                let kinds = PAPERS.iter().filter(|kind| kind.of_section).map(|kind| kind.make(&desk).head);
                let shoe = well.casing_above(section).map(|casing| format!("shoe test of {}", casing.name));
                for head in kinds.chain(kill_head(&desk, section)) {
                    for rest in &head.rests_on {
                        let own = rest.what.ends_with(&format!(" of {}", well.sections[section].name));
                        assert!(own || Some(&rest.what) == shoe.as_ref(), "{name} {section}: {}", rest.what);
                        seen += 1;
                    }
                }
            }
            assert!(seen > 2 * well.sections.len(), "{name}: {seen}");
        });
    }
}

#[test]
fn law_the_kill_sheet_lists_every_dated_slow_rate_of_its_section() {
    for name in EXAMPLES {
        with_desk(&example(name, &Disk), |desk| {
            let sections = &desk.subject.fit.well.sections;
            let mut listed = 0;
            for (index, section) in sections.iter().enumerate() {
                let Some(head) = kill_head(desk, index) else { continue };
                for rate in section.slow_rates.iter().filter_map(|rate| rate.date) {
                    let rests = |rest: &&rigwright_papers::paper::Rest| rest.what.starts_with("slow rate");
                    let dates: Vec<&str> = head.rests_on.iter().filter(rests).map(|rest| rest.date.as_str()).collect();
                    assert!(dates.contains(&rate.to_string().as_str()), "{name} {index}: {dates:?}");
                    listed += 1;
                }
            }
            assert!(listed > 0, "{name} has slow rates");
        });
    }
}

#[test]
fn a_head_names_what_its_paper_uses() {
    with_desk(&example("tolvane", &Tested), |desk| {
        let rests = |slug: &str| -> Vec<String> {
            let head = PaperKind::find(slug).expect("it is a paper").make(desk).head;
            head.rests_on.into_iter().map(|rest| rest.what).collect()
        };
        let any = |rests: &[String], word: &str| rests.iter().any(|what| what.starts_with(word));
        assert!(rests("power-sheet").is_empty());
        let due = rests("tests-due");
        assert!(any(&due, "last preventer") && due.iter().all(|what| what.starts_with("last ")), "{due:?}");
        let bit = rests("bit-sheet");
        assert!(
            any(&bit, "mud")
                && any(&bit, "slow rate")
                && !bit.iter().any(|what| what.contains("hook load"))
                && !any(&bit, "shoe"),
            "{bit:?}"
        );
        let card = rests("limits-card");
        assert!(any(&card, "mud") && any(&card, "slow rate") && any(&card, "shoe test of"), "{card:?}");
        assert!(!any(&rests("trip-sheet"), "slow rate") && any(&rests("trip-sheet"), "mud"));
        // The programme prints the whole review: it rests on all of it.
        let all = rests("programme");
        for word in ["mud", "slow rate", "shoe test of", "10 hook loads of 8 1/2 in", "last "] {
            assert!(any(&all, word), "{word}: {all:?}");
        }
        let head = PaperKind::find("handover").expect("it is a paper").make(desk).head;
        let loads = head.rests_on.iter().find(|rest| rest.what.contains("hook loads")).expect("it rests on them");
        // Read between these days in the file, the first 44 days before the day of the paper.
        assert_eq!((loads.date.as_str(), loads.age.as_str()), ("2026-10-18 to 2026-10-31", "the oldest 44 days old"));
    });
}
