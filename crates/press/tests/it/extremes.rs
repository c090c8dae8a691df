//! Papers of wells at the ends of what there is: many sections, many strings, long names, nothing given that may be left out.
//! And the numbers of ordinary ones, read back from the PDF.

use crate::paper::{no_word_leaves_its_sheet, set_pdf, text_of, words};
use crate::{demo, with_desk};
use rigwright_margins::limits_card::{Order, limits_card};
use rigwright_margins::trip_sheet::trip_sheet;
use rigwright_papers::paper::{Desk, PAPERS, Paper, PaperKind, blank_kill_sheet, set, trip_order};
use rigwright_physics::Off;
use rigwright_press::{PressError, Size, Templates, pdfs};
use rigwright_units::{Kind, System, show, show_down, show_up};
use rigwright_wellfile::{Files, Loaded, read, starter};
use std::io;

/// Every paper of the job, those of one section for these sections only.
fn stay_on_their_sheets(name: &str, desk: &Desk, sections: &[usize]) {
    for kind in PAPERS.iter().filter(|kind| !kind.of_section) {
        no_word_leaves_its_sheet(&format!("{name}-{}", kind.slug), &kind.make(desk));
    }
    for section in sections {
        let desk = Desk { section: Some(*section), ..*desk };
        for kind in PAPERS.iter().filter(|kind| kind.of_section) {
            no_word_leaves_its_sheet(&format!("{name}-{}-{section}", kind.slug), &kind.make(&desk));
        }
        if let Some(kill) = blank_kill_sheet(&desk) {
            no_word_leaves_its_sheet(&format!("{name}-kill-{section}"), &kill);
        }
    }
}

#[test]
fn long_names_and_many_sections_stay_on_their_sheets() {
    let mut loaded = demo("ostrick.toml");
    let long = "Øst-Rïck-".repeat(12);
    loaded.fit.well.name = long.clone();
    loaded.fit.rig.name = format!("{long} {long}");
    loaded.fit.well.datum = long.clone();
    // Sixty sections, one below the other, with a string of twelve parts in each.
    let last = loaded.fit.well.sections.last().expect("it has sections").clone();
    let depth = loaded.fit.well.total_depth();
    loaded.fit.well.sections.pop();
    let step = (last.bottom - last.top) / 58.0;
    for index in 0..58 {
        let mut section = last.clone();
        section.name = format!("{long} {index}");
        section.top = last.top + step * f64::from(index);
        section.bottom = if index == 57 { depth } else { section.top + step };
        *section.casing = None;
        let part = section.string.get(1).expect("a part above the bit").clone();
        while section.string.len() < 12 {
            let mut another = part.clone();
            another.length = 9.0;
            another.name.clone_from(&long);
            section.string.insert(1, another);
        }
        loaded.fit.well.sections.push(section);
    }
    assert_eq!(loaded.fit.well.sections.len(), 60);
    with_desk(&loaded, System::Field, Some(System::Metric), |desk| {
        stay_on_their_sheets("sixty", desk, &[59]);
    });
}

#[test]
fn a_well_of_twelve_casings_stays_on_its_sheets() {
    let mut loaded = demo("ostrick.toml");
    let depth = loaded.fit.well.total_depth();
    let mut one = loaded.fit.well.sections.pop().expect("it has sections");
    let casing = one.casing.take().expect("it is cased");
    loaded.fit.well.sections.clear();
    for index in 0..12 {
        let (top, bottom) = (depth * f64::from(index) / 12.0, depth * f64::from(index + 1) / 12.0);
        let hole = 0.9 - 0.05 * f64::from(index);
        let mut section = one.clone();
        section.name = format!("section {index} of the well of twelve casings");
        (section.top, section.bottom, section.hole_diameter) = (top, bottom, hole);
        let mut own = casing.clone();
        own.name = format!("casing {index} of the well of twelve casings");
        (own.top, own.shoe) = (0.0, bottom - 1.0);
        (own.outer_diameter, own.inner_diameter) = (hole - 0.03, hole - 0.045);
        *section.casing = Some(own);
        loaded.fit.well.sections.push(section);
    }
    with_desk(&loaded, System::Metric, None, |desk| stay_on_their_sheets("twelve", desk, &[0, 11]));
}

/// The files of an empty start, in memory.
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

/// The starter well, with all gone that may be absent.
fn bare() -> Loaded {
    let starter = starter("Invented 1", "rig.toml");
    let mut loaded = read("well.toml", None, &Shelf([("well.toml", starter.well), ("rig.toml", starter.rig)])).expect("it reads");
    let (well, rig) = (&mut loaded.fit.well, &mut loaded.fit.rig);
    well.jurisdiction = None;
    (well.kick.volume, well.kick.intensity) = (None, None);
    well.last_done.clear();
    for section in &mut well.sections {
        section.slow_rates.clear();
        section.tripping.slug = None;
        section.mud.rheogram.date = None;
        if let Some(casing) = &mut *section.casing {
            casing.leak_off = None;
        }
    }
    rig.stack.clear();
    (rig.wellhead_rating, rig.manifold_rating, rig.pits.trip_tank) = (None, None, None);
    loaded
}

#[test]
fn what_is_not_given_is_said_to_be_unknown_and_leaves_no_sheet_empty() {
    with_desk(&bare(), System::Metric, None, |desk| {
        let last = desk.subject.fit.well.sections.len() - 1;
        stay_on_their_sheets("bare", desk, &[0, last]);
        let of = |slug: &str| text(slug, &PaperKind::find(slug).expect("it is a paper").make(desk));
        for (slug, said) in [
            ("limits-card", "unknown"),
            ("trip-sheet", "trip tank is unknown"),
            ("programme", "not given"),
            ("tests-due", "none is named"),
            ("preventer-test", "not given"),
        ] {
            let text = of(slug);
            assert!(text.contains(said), "{slug}: no `{said}` in {text}");
        }
    });
}

fn text(name: &str, paper: &Paper) -> String {
    words(&text_of(&format!("numbers-{name}"), &set_pdf(paper, Size::A4), "-layout"))
}

#[test]
fn the_programme_prints_the_demand_and_limit_of_every_judged_answer() {
    with_desk(&demo("ostrick.toml"), System::Field, None, |desk| {
        let text = text("programme", &PaperKind::find("programme").expect("it is a paper").make(desk));
        let mut seen = 0;
        for asked in desk.subject.review.answers.iter().filter(|asked| asked.section.is_some()) {
            let Some(judged) = asked.answer.judged() else { continue };
            let kind = asked.question.kind;
            let (demand, limit) =
                (show_up(judged.demand, kind, System::Field), show_down(judged.limit.capacity, kind, System::Field));
            assert!(text.contains(&format!("{demand} {limit}")), "{}: no `{demand} {limit}`", asked.question.slug);
            seen += 1;
        }
        assert!(seen > 100, "{seen}");
        for casing in desk.subject.fit.well.sections.iter().filter_map(|section| section.casing.as_ref()) {
            assert!(text.contains(&show(casing.shoe, Kind::Depth, System::Field)), "{}", casing.name);
        }
    });
}

#[test]
fn limits_cards_and_trip_sheets_print_the_figures_of_every_section() {
    with_desk(&demo("tolvane.toml"), System::Metric, None, |desk| {
        for (name, paper) in
            set(desk).into_iter().filter(|(name, _)| name.starts_with("limits-card") || name.starts_with("trip-sheet"))
        {
            let text = text(&name, &paper);
            let section = name.rsplit('-').next().and_then(|number| number.parse::<usize>().ok()).expect("a number") - 1;
            let desk = Desk { section: Some(section), ..*desk };
            let fit = desk.subject.fit;
            let shown: Vec<String> = if name.starts_with("limits-card") {
                let order = Order { section, hole_depth: fit.well.sections[section].bottom, as_of: None };
                let card = limits_card(fit, &order, &mut Off);
                let still = card.bounds.iter().filter_map(|bound| bound.still);
                let fills = card.fills.iter().flat_map(|fill| [fill.dry.volume, fill.wet.volume]);
                let still = still.map(|still| show_down(still, Kind::Pressure, System::Metric));
                still.chain(fills.map(|volume| show(volume, Kind::Volume, System::Metric))).collect()
            } else {
                let sheet = trip_sheet(fit, &trip_order(&desk), &mut Off).expect("there is a trip sheet");
                let of = |row: &rigwright_margins::trip_sheet::Row| {
                    format!(
                        "{} {}",
                        show(row.volume, Kind::Volume, System::Metric),
                        show(row.total, Kind::Volume, System::Metric)
                    )
                };
                sheet.rows.iter().map(of).collect()
            };
            assert!(shown.len() > 3, "{name}");
            for figure in shown {
                assert!(text.contains(&figure), "{name}: no `{figure}` in {text}");
            }
        }
    });
}

/// As many at once as there are cores: the same sheets in the same order as one by one, and no more after one is refused.
#[test]
fn law_many_at_once_are_the_same_in_the_same_order() {
    let loaded = demo("ostrick.toml");
    with_desk(&loaded, System::Field, None, |desk| {
        let kinds = ["handover", "power-sheet", "bit-sheet", "preventer-test", "rig-fit", "tests-due"];
        let papers: Vec<Paper> = kinds.iter().map(|slug| PaperKind::find(slug).expect("a kind").make(desk)).collect();
        let sheets: Vec<&Paper> = papers.iter().collect();
        let mut order = Vec::new();
        let all = pdfs(&sheets, Size::Letter, &Templates::default(), |index, made| -> Result<(), PressError> {
            assert_eq!(made?, set_pdf(&papers[index], Size::Letter), "{}", kinds[index]);
            order.push(index);
            Ok(())
        });
        assert_eq!((all, order), (Ok(()), (0..kinds.len()).collect()));
        let mut taken = 0;
        let refused = pdfs(&sheets, Size::A4, &Templates::default(), |index, _| {
            taken += 1;
            if index == 2 { Err("the disk is full") } else { Ok(()) }
        });
        assert_eq!((refused, taken), (Err("the disk is full"), 3));
    });
}
