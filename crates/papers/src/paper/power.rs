//! The power sheet: what the engines carry in each section, and what is left when one is lost.

use super::rows::{judged, told_all};
use super::{Desk, Fact, Part};
use rigwright_margins::Asked;
use rigwright_units::Kind;

pub(super) fn parts(desk: &Desk) -> Vec<Part> {
    let (sets, pen) = (&desk.subject.fit.rig.sets, desk.pen());
    let fact = |label: &str, value: String, note: &str| Fact { label: label.to_owned(), value, note: note.to_owned() };
    let facts = vec![
        fact("sets", sets.number.to_string(), "installed"),
        fact("on line", sets.on_line.to_string(), "as planned"),
        fact("each", pen.show(sets.rating, Kind::Power), "as rated"),
    ];
    let of_power = |asked: &&Asked| asked.question.system() == "power" && asked.answer.judged().is_some();
    let mut parts = vec![
        Part::Facts { facts },
        judged(desk, "sets, peaks, starting, emergency, fuel", desk.subject.review.answers.iter().filter(of_power)),
    ];
    parts.extend(told_all(desk, &["power/best-sets", "power/programme"]));
    parts.push(Part::Signatures { lines: vec!["rig electrician or mechanic".into(), "toolpusher".into()] });
    parts
}
