//! The rig-fit sheet: one page on whether this rig and this well suit each other.

use super::rows::{judged, to_change, told};
use super::{Desk, Fact, Part, Table};
use crate::sheet::{link, tally};
use rigwright_margins::{Asked, SYSTEMS, Verdict};
use rigwright_units::Kind;

/// How many answers stand for a system.
const MOST: usize = 4;

pub(super) fn parts(desk: &Desk) -> Vec<Part> {
    let subject = desk.subject;
    let weakest = subject.review.weakest().map_or_else(|| "no question could be judged".to_owned(), |asked| link(subject, asked));
    let mut parts = vec![
        Part::below("weakest link"),
        Part::strong(weakest),
        Part::text(tally(subject)),
        to_change(desk, false),
        Part::below("the five systems, each with its weakest answers"),
    ];
    let ranked = subject.review.ranked();
    for system in SYSTEMS {
        let of_system = |asked: &&&Asked| asked.question.system() == system.name && asked.answer.judged().is_some();
        let mut seen: Vec<&str> = Vec::new();
        let mut worst: Vec<&Asked> = Vec::new();
        // Each question once, in the section where it is worst.
        for asked in ranked.iter().filter(of_system) {
            if worst.len() < MOST && !seen.contains(&asked.question.slug) {
                seen.push(asked.question.slug);
                worst.push(asked);
            }
        }
        if !worst.is_empty() {
            parts.push(judged(desk, system.name, worst.into_iter()));
        }
    }
    parts.push(Part::below("as rigged up"));
    parts.push(Part::Facts { facts: rigged(desk) });
    parts.extend(told(desk, "hoisting/line-work"));
    parts.extend(loads(desk));
    parts
}

fn rigged(desk: &Desk) -> Vec<Fact> {
    let (rig, pen) = (&desk.subject.fit.rig, desk.pen());
    let fact = |label: &str, value: String, note: String| Fact { label: label.to_owned(), value, note };
    let lines = rig.line.strung;
    vec![
        fact("lines strung", lines.to_string(), format!("mast rated {}", pen.maybe(rig.mast.rating(lines), Kind::Force))),
        fact("pumps", rig.pump.number.to_string(), format!("of {}", pen.show(rig.pump.power, Kind::Power))),
        fact("generator sets", rig.sets.number.to_string(), format!("{} on line", rig.sets.on_line)),
    ]
}

/// Power by section: what the sets carry and what they carry with one lost.
fn loads(desk: &Desk) -> Option<Part> {
    let mut table = Table::new("power", &["section", ">load", ">sets on line bear", ">with one lost", "verdict"]);
    for (index, section) in desk.subject.fit.well.sections.iter().enumerate() {
        let find = |slug: &str| desk.subject.review.find(slug, Some(index));
        let Some(on_line) = find("power/sets-on-line") else { continue };
        let lost = find("power/one-set-lost");
        let Some(judged) = on_line.answer.judged() else { continue };
        let limit = |asked: Option<&Asked>| {
            asked
                .and_then(|asked| asked.answer.judged())
                .map_or_else(String::new, |judged| desk.pen().down(judged.limit.capacity, Kind::Power))
        };
        let worst: Verdict = lost.map_or(on_line.verdict(), |lost| lost.verdict().min(on_line.verdict()));
        table.row([
            section.name.as_str().into(),
            desk.pen().up(judged.demand, Kind::Power).into(),
            limit(Some(on_line)).into(),
            limit(lost).into(),
            super::rows::word(worst),
        ]);
    }
    (!table.rows.is_empty()).then_some(Part::Table(table))
}
