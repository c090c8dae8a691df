//! Tables that several papers share: judged answers, told figures of a question, the string, the casings.

use super::{Cell, Column, Desk, Part, Table};
use crate::sheet::{remedy, unknown_entries};
use rigwright_margins::{Answer, Asked, Figure, Place, Verdict, question};
use rigwright_units::Kind;
use rigwright_well::Part as StringPart;
use rigwright_wellfile::entry;

/// Sections whose told figures stand side by side.
const SIDE_BY_SIDE: usize = 4;

/// The word of a verdict, standing out where something must be done.
pub(super) fn word(verdict: Verdict) -> Cell {
    Cell { text: verdict.word().to_owned(), strong: matches!(verdict, Verdict::Short | Verdict::Unknown | Verdict::Thin) }
}

/// Share of the limit that is used, rounded up.
pub(super) fn share(asked: &Asked) -> Cell {
    let share = asked.answer.judged().map(|judged| judged.share() * 100.0);
    // Rounded up, but not for what a computer's last digit adds; nought has no sign.
    share.map_or_else(String::new, |share| format!("{:.0} %", (share - 1e-9).ceil() + 0.0)).into()
}

/// Demand and limit of judged answers, a row each; what is unknown names the entries that it misses.
pub(super) fn judged<'a>(desk: &Desk, caption: &str, answers: impl Iterator<Item = &'a Asked>) -> Part {
    let pen = desk.pen();
    let mut table = Table::new(caption, &["**question", "***where", ">demand", ">limit", "***what sets it", ">used", "verdict"]);
    for asked in answers {
        let kind = asked.question.kind;
        let Some(judged) = asked.answer.judged() else {
            // What is told has a table of its own, and what does not arise takes no room.
            let Answer::Missing(paths) = &asked.answer else { continue };
            let missing = paths.join(", ");
            table.row([
                asked.question.title.into(),
                missing.into(),
                "".into(),
                "".into(),
                "".into(),
                "".into(),
                word(asked.verdict()),
            ]);
            continue;
        };
        let place = match judged.place {
            // What bites at the bit or at bottom has its depth in the situation.
            Place::Depth(depth) if ![asked.situation.bit_depth, asked.situation.hole_depth].contains(&depth) => {
                format!(", at {}", pen.show(depth, Kind::Depth))
            }
            Place::Depth(_) | Place::Surface => String::new(),
        };
        let place = format!("{}{place}", desk.where_asked(asked));
        table.row([
            asked.question.title.into(),
            place.into(),
            pen.up(judged.demand, kind).into(),
            pen.down(judged.limit.capacity, kind).into(),
            judged.limit.name.into(),
            share(asked),
            word(asked.verdict()),
        ]);
    }
    Part::Table(table)
}

/// The told figures of a question, a column for each section.
pub(super) fn told(desk: &Desk, slug: &str) -> Vec<Part> {
    let told: Vec<(&Asked, &[Figure])> = desk
        .subject
        .review
        .answers
        .iter()
        .filter(|asked| asked.question.slug == slug)
        .filter_map(|asked| if let Answer::Told(figures) = &asked.answer { Some((asked, figures.as_slice())) } else { None })
        .collect();
    // A well of many sections takes several tables: columns too narrow to read help nobody.
    told.chunks(SIDE_BY_SIDE).map(|told| told_side_by_side(desk, slug, told)).collect()
}

fn told_side_by_side(desk: &Desk, slug: &str, told: &[(&Asked, &[Figure])]) -> Part {
    let title = question(slug).map_or(slug, |question| question.title);
    let mut table = Table::new(title, &["*figure"]);
    table.columns.extend(told.iter().map(|(asked, _)| Column {
        head: desk.subject.section(asked.section).to_owned(),
        number: true,
        share: 0,
    }));
    let mut names: Vec<&str> = Vec::new();
    for figure in told.iter().flat_map(|(_, figures)| figures.iter()) {
        if !names.contains(&figure.name) {
            names.push(figure.name);
        }
    }
    for name in names {
        let mut row: Vec<Cell> = vec![name.into()];
        row.extend(told.iter().map(|(_, figures)| {
            let figure = figures.iter().find(|figure| figure.name == name);
            figure.map_or_else(|| "—".to_owned(), |figure| desk.pen().show(figure.value, figure.kind)).into()
        }));
        table.rows.push(row);
    }
    Part::Table(table)
}

/// Told tables of these questions, those that arise.
pub(super) fn told_all(desk: &Desk, slugs: &[&str]) -> Vec<Part> {
    slugs.iter().flat_map(|slug| told(desk, slug)).collect()
}

/// What must change: every answer that is short, with what mends it; then what is unknown and what is thin.
pub(super) fn to_change(desk: &Desk, with_thin: bool) -> Part {
    let mut table = Table::new("what must change", &["verdict", "*question", "**where", "***what mends it"]);
    let subject = desk.subject;
    let verdicts: &[Verdict] = if with_thin { &[Verdict::Short, Verdict::Thin] } else { &[Verdict::Short] };
    for asked in verdicts.iter().flat_map(|verdict| subject.review.of(*verdict)) {
        let place = desk.where_asked(asked);
        table.row([word(asked.verdict()), asked.question.title.into(), place.into(), remedy(subject, asked).into()]);
    }
    for (path, needing) in unknown_entries(subject) {
        let mut titles: Vec<&str> = needing.iter().map(|asked| asked.question.title).collect();
        titles.dedup();
        let help = entry(path).map_or_else(String::new, |entry| format!("give {path}: {}", entry.help));
        table.row([word(Verdict::Unknown), titles.join(", ").into(), "".into(), help.into()]);
    }
    if table.rows.is_empty() {
        return Part::text("Nothing is short and nothing is unknown under these inputs and assumptions.");
    }
    Part::Table(table)
}

/// The string of a section, from the bit up.
pub(super) fn string(desk: &Desk, section: usize) -> Option<Part> {
    let section = desk.subject.fit.well.sections.get(section)?;
    let pen = desk.pen();
    let mut table = Table::new("string, from the bit up", &["*part", ">length", ">outside", ">inside", ">weight", "class"]);
    for part in &section.string {
        table.row([
            part.name.as_str().into(),
            length(&pen, part).into(),
            pen.show(part.outer_diameter, Kind::Diameter).into(),
            if part.inner_diameter > 0.0 { pen.show(part.inner_diameter, Kind::Diameter).into() } else { "".into() },
            pen.show(part.linear_mass, Kind::LinearMass).into(),
            crate::proposal::class_word(part.class).into(),
        ]);
    }
    Some(Part::Table(table))
}

fn length(pen: &super::Pen, part: &StringPart) -> String {
    if part.length.is_finite() { pen.show(part.length, Kind::Depth) } else { "to surface".to_owned() }
}
