//! The kill sheet of a stack on the sea bed: what the screen says of the choke line stands on the paper too.

use rigwright_margins::Review;
use rigwright_margins::kill_sheet::{Float, KillSheet, Order, Readings, kill_sheet};
use rigwright_papers::paper::{self, Desk, Paper, Part, fingerprint};
use rigwright_papers::{Leaf, Subject};
use rigwright_physics::Off;
use rigwright_units::System;
use rigwright_wellfile::{Disk, read};

/// The sheet as lines of the screen and as a paper.
fn both(well: &str, section: usize) -> (KillSheet, String, Paper) {
    let file = format!("{}/../../examples/{well}.toml", env!("CARGO_MANIFEST_DIR"));
    let loaded = read(&file, None, &Disk).expect("a demo reads");
    let readings =
        Readings { drill_pipe_pressure: 20e5, casing_pressure: 32e5, gain: 3.0, gain_error: None, float: Float::Bumped };
    let hole_depth = loaded.fit.well.sections[section].bottom;
    let order = Order { readings, ..Order::without_readings(section, hole_depth) };
    let kill = kill_sheet(&loaded.fit, &order, &mut Off).expect("the readings can be");
    let (review, units) = (Review::new(&loaded.fit), System::Metric);
    let as_of = "2026-12-01T06:00:00Z".parse().expect("a moment");
    let subject = Subject {
        file: "well.toml",
        rig_file: None,
        fit: &loaded.fit,
        provenance: &loaded.provenance,
        cautions: &[],
        review: &review,
        as_of,
        units,
    };
    let print = fingerprint(&loaded.sources);
    let desk = Desk { subject: &subject, beside: None, fingerprint: &print, version: "0.0.0", section: None };
    let screen = rigwright_papers::kill_sheet(&Leaf { fit: &loaded.fit, as_of, units }, &kill);
    let lines = screen.lines.iter().map(|line| line.iter().map(|span| span.text.as_str()).collect::<String>());
    (kill.clone(), lines.collect::<Vec<_>>().join(" "), paper::kill_sheet(&desk, &kill))
}

/// The rows of the table of a caption, a text for each cell.
fn rows(paper: &Paper, caption: &str) -> Option<Vec<Vec<String>>> {
    paper.parts.iter().find_map(|part| match part {
        Part::Table(table) if table.caption.starts_with(caption) => {
            Some(table.rows.iter().map(|row| row.iter().map(|cell| cell.text.clone()).collect()).collect())
        }
        _ => None,
    })
}

fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn law_the_paper_says_of_the_choke_line_what_the_screen_says() {
    let (kill, screen, paper) = both("quellmere", 2);
    let rows_of_line = rows(&paper, "choke line").expect("it is a stack on the sea bed");
    assert!(kill.choke_line.is_some_and(|line| line.both.is_some()) && rows_of_line.len() >= 5);
    let screen = words(&screen);
    for row in &rows_of_line {
        assert!(screen.contains(&words(&row.join(" "))), "{row:?} is not on the screen");
    }
    let start_up = rows(&paper, "bringing the pump to rate").expect("a slow rate was read");
    assert!(start_up.iter().all(|row| row.len() == kill.start_up.len() + 1));
}

#[test]
fn law_with_preventers_at_surface_there_is_no_choke_line() {
    let (.., paper) = both("ostrick", 2);
    assert!(rows(&paper, "choke line").is_none() && rows(&paper, "bringing the pump").is_none());
}
