//! The sheet of invented reviews: what stands first, what stands out, and that nothing is left out.

use rigwright_margins::programme::Programme;
use rigwright_margins::{Answer, Asked, Judged, Limit, Place, Remedy, Review, Spoilt, Verdict, question, sweep};
use rigwright_papers::text::{Style, Text};
use rigwright_papers::{Subject, sheet, side_by_side};
use rigwright_units::System;
use rigwright_well::Parts;
use rigwright_wellfile::{Files, Loaded, knob, read, starter};
use std::io;

/// Two files in memory.
struct Shelf([(&'static str, String); 2]);

impl Files for Shelf {
    fn read(&self, name: &str) -> io::Result<Vec<u8>> {
        let found = self.0.iter().find(|(stored, _)| *stored == name);
        found.map(|(_, text)| text.clone().into_bytes()).ok_or_else(|| io::ErrorKind::NotFound.into())
    }

    fn len(&self, name: &str) -> io::Result<u64> {
        self.read(name).map(|bytes| bytes.len() as u64)
    }
}

/// The starter well with as many sections of these names.
fn well(sections: &[&str]) -> Loaded {
    let starter = starter("Invented 1", "rig.toml");
    let mut loaded = read("well.toml", None, &Shelf([("well.toml", starter.well), ("rig.toml", starter.rig)])).expect("it reads");
    let one = loaded.fit.well.sections[0].clone();
    loaded.fit.well.sections =
        sections.iter().map(|name| rigwright_well::Section { name: (*name).to_owned(), ..one.clone() }).collect();
    loaded
}

fn asked(loaded: &Loaded, slug: &str, section: Option<usize>, answer: Answer) -> Asked {
    let situation = sweep::section_end(&loaded.fit, section.unwrap_or(0));
    Asked {
        question: question(slug).expect("the question exists"),
        section,
        situation,
        answer,
        remedy: None,
        stands_on: Parts::NONE,
    }
}

/// A load against 100 kN with a wanted reserve of 10 kN.
fn load(demand: f64) -> Answer {
    let limit = Limit { capacity: 100e3, reserve: 10e3, name: "a limit", source: "its nameplate" };
    Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
}

fn subject<'a>(loaded: &'a Loaded, review: &'a Review) -> Subject<'a> {
    Subject {
        file: "wells/invented 1.toml",
        rig_file: None,
        fit: &loaded.fit,
        provenance: &loaded.provenance,
        cautions: &[],
        review,
        as_of: "2026-12-01T06:00:00Z".parse().expect("a moment"),
        units: System::Metric,
    }
}

fn strong(text: &Text) -> Vec<String> {
    let spans = text.lines.iter().flatten().filter(|span| span.style == Style::Strong);
    spans.map(|span| span.text.trim().to_owned()).collect()
}

#[test]
fn the_first_thing_on_the_sheet_is_the_weakest_link() {
    let loaded = well(&["upper", "lower"]);
    let answers = vec![
        asked(&loaded, "hoisting/hook-load", Some(0), load(50e3)),
        asked(&loaded, "hoisting/hook-load", Some(1), load(120e3)),
        asked(&loaded, "control/kill-weight", Some(1), Answer::Missing(vec!["kick.intensity"])),
    ];
    let review = Review { situations: 2, answers, programme: Programme::default() };
    let page = sheet(&subject(&loaded, &review));
    let printed = page.to_string();
    let lines: Vec<&str> = printed.lines().collect();
    assert!(lines[0].starts_with("Invented 1 on ") && lines[0].ends_with("as of 2026-12-01 06:00 UTC"), "{}", lines[0]);
    assert!(lines[2].starts_with("weakest link  hook load (hoisting), lower"), "{}", lines[2]);
    let head = lines[2..8].join(" ").split_whitespace().collect::<Vec<_>>().join(" ");
    // 120 kN is 12.24 t and 100 kN 10.19 t of 9.80665 kN: up for the demand, down for the limit.
    assert!(head.contains("12.3 t of 10.1 t (a limit): short by 2.1 t, 1.1 t wanted"), "{head}");
    assert!(head.contains("1 answer, for want of kick.intensity"), "{head}");
    assert!(head.contains("1 short, 1 unknown, 1 hold; from 2 situations in 2 hole sections"), "{head}");
    assert_eq!(strong(&page), ["weakest link", "120 %", "short"]);
    assert!(printed.contains("rigwright explain \"wells/invented 1.toml\" hoisting/hook-load --section lower"));
}

#[test]
fn nothing_judged_is_said_and_not_passed_over() {
    let loaded = well(&["only"]);
    let review = Review { situations: 0, answers: Vec::new(), programme: Programme::default() };
    let printed = sheet(&subject(&loaded, &review)).to_string();
    assert!(printed.contains("no question could be judged") && printed.contains("answers       none;"), "{printed}");
}

#[test]
fn a_remedy_says_what_it_makes_and_what_it_spoils() {
    let loaded = well(&["upper", "lower"]);
    let spoilt = |section| Spoilt { slug: "circulating/overbalance", section, before: Verdict::Holds, after: Verdict::Short };
    let mut short = asked(&loaded, "circulating/fracture", Some(1), load(120e3));
    short.remedy = Some(Remedy {
        knob: knob("mud weight").expect("the knob exists"),
        section: Some(1),
        from: 1500.0,
        to: 1450.0,
        steps: 4,
        mended: Verdict::Thin,
        spoils: vec![spoilt(Some(0)), spoilt(Some(1)), spoilt(Some(0)), spoilt(Some(1)), spoilt(Some(0))],
    });
    let hopeless = asked(&loaded, "hoisting/hook-load", Some(0), load(99e3));
    let review = Review { situations: 2, answers: vec![short, hopeless], programme: Programme::default() };
    let printed = sheet(&subject(&loaded, &review)).to_string();
    let printed = printed.split_whitespace().collect::<Vec<_>>().join(" ");
    let wanted = "mud weight from 1.50 sg to 1.45 sg (today): then thin; would spoil overbalance in upper (holds to short), \
                  overbalance in lower (holds to short), overbalance in upper (holds to short), 2 more";
    assert!(printed.contains(wanted), "{printed}");
    assert!(printed.contains("no turn of one thing alone mends it; tried "), "{printed}");
}

/// A well of more sections than stand side by side goes on below, every answer printed once.
#[test]
fn law_every_section_has_its_column() {
    let names = ["first", "second", "third", "fourth", "a fifth section with a long name"];
    let loaded = well(&names);
    let demands = [11e3, 22e3, 33e3, 44e3, 55e3];
    let answers = (0..5).map(|index| asked(&loaded, "hoisting/hook-load", Some(index), load(demands[index]))).collect();
    let review = Review { situations: 5, answers, programme: Programme::default() };
    let page = sheet(&subject(&loaded, &review)).to_string();
    for (name, demand) in names.iter().zip(demands) {
        let head: String = name.chars().take(20).collect();
        assert!(page.contains(&head), "no {head}");
        assert_eq!(page.matches(&format!("{:.0} % holds", demand / 1e3)).count(), 1, "{demand}");
    }
    assert!(page.lines().all(|line| rigwright_papers::text::width(line) <= 100), "{page}");
}

#[test]
fn of_rigs_side_by_side_the_worst_answer_of_all_sections_counts() {
    let loaded = well(&["upper", "lower"]);
    let review = |demands: [f64; 2]| Review {
        programme: Programme::default(),
        situations: 2,
        answers: (0..2).map(|index| asked(&loaded, "hoisting/hook-load", Some(index), load(demands[index]))).collect(),
    };
    let (strong_rig, weak_rig) = (review([10e3, 20e3]), review([130e3, 20e3]));
    let page = side_by_side(&[subject(&loaded, &strong_rig), subject(&loaded, &weak_rig)]).to_string();
    assert!(page.contains(": fits\n") && page.contains(": falls short in 1 answer\n"), "{page}");
    let row = page.lines().find(|line| line.starts_with("hook load")).expect("the question has a row");
    assert!(row.contains("20 % holds") && row.contains("130 % short"), "{row}");
    assert_eq!(side_by_side(&[]).to_string(), "");
}
