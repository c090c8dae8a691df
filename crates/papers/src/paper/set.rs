//! The papers of a well as a set, and the one paper that is not of a kind: the kill sheet, here blank, for drills.

use super::{Desk, PAPERS, Paper, PaperKind, kill};
use rigwright_margins::kill_sheet::{Order, kill_sheet};
use rigwright_physics::Off;

/// Name of the one paper that takes readings.
pub const KILL_SHEET: &str = "kill-sheet";

/// A kill sheet for drills: volumes and slow rates of the section of the desk, without readings. `None` where there is no
/// casing to shut in on, or the volumes cannot be worked out.
pub fn blank_kill_sheet(desk: &Desk) -> Option<Paper> {
    let (fit, section) = (desk.subject.fit, desk.section());
    let order = Order::without_readings(section, fit.well.sections.get(section)?.bottom);
    Some(kill::blank(desk, &kill_sheet(fit, &order, &mut Off).ok()?))
}

/// The papers that make a set, each with the name of its file: each kind, those of one section for every section unless the
/// desk is of one, and a blank kill sheet where there is a casing to shut in on.
pub fn set(desk: &Desk) -> Vec<(String, Paper)> {
    let sections = desk.subject.fit.well.sections.len();
    let of_kind = |kind: &PaperKind| -> Vec<(String, Paper)> {
        if !kind.of_section || sections < 2 || desk.section.is_some() {
            return vec![(kind.slug.to_owned(), kind.make(desk))];
        }
        let of =
            |section: usize| (format!("{}-{}", kind.slug, section + 1), kind.make(&Desk { section: Some(section), ..*desk }));
        (0..sections).map(of).collect()
    };
    let blank = blank_kill_sheet(desk).map(|paper| (KILL_SHEET.to_owned(), paper));
    PAPERS.iter().flat_map(of_kind).chain(blank).collect()
}
