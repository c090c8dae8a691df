//! The report of a shoe test: what was tested, what the record tells, its plot and its numbers.

use super::{Cell, Desk, Fact, Fingerprint, Paper, Part, Pen, Table};
use crate::figure;
use crate::sheet;
use crate::steps::sentence;
use rigwright_margins::steps::{Block, ShoeTested};
use rigwright_units::Kind;

/// Name of the report in commands and file names.
pub const LEAK_OFF_REPORT: &str = "leak-off-report";

/// The record that a report was made from.
#[derive(Clone, Copy, Debug)]
pub struct Record<'a> {
    /// Name of its file.
    pub file: &'a str,
    /// Fingerprint of what it says.
    pub print: &'a Fingerprint,
}

/// The report of a shoe test.
pub fn leak_off_report(desk: &Desk, tested: &ShoeTested, record: &Record) -> Paper {
    let pen = desk.pen();
    let mut parts = vec![Part::strong(verdict(tested)), Part::Facts { facts: result(&pen, tested) }];
    parts.push(Part::Facts { facts: ground(desk, &pen, tested) });
    parts.push(Part::text(told(&pen, tested)));
    parts.extend(warnings(tested).map(Part::strong));
    parts.push(Part::Figure { caption: caption(desk, tested), figure: Box::new(figure::leak_off(tested, desk.subject.units)) });
    parts.push(points(&pen, tested));
    parts.push(Part::Table(by_hand()));
    let cautions: Vec<String> = tested.procedure.cautions.iter().map(|caution| sentence(caution)).collect();
    parts.push(Part::text(cautions.join(" ")));
    parts.push(Part::text(format!("Made from {}, fingerprint of the record {}.", record.file, record.print)));
    parts.push(Part::Signatures { lines: vec!["pumped and read by".into(), "supervisor".into(), "witness".into()] });
    Paper {
        slug: LEAK_OFF_REPORT,
        title: if tested.integrity_only() { "Integrity test report" } else { "Leak-off report" },
        one_page: false,
        control: true,
        head: desk.head_of(LEAK_OFF_REPORT, Some(desk.section())),
        stale: Vec::new(),
        parts,
        cautions: sheet::CAUTIONS.to_vec(),
    }
}

fn verdict(tested: &ShoeTested) -> &'static str {
    if tested.integrity_only() {
        "FIT: the record never leaves its line. The shoe bore this much; it is no fracture pressure and must not be used as one."
    } else {
        "LOT: the record leaves its line. Leak-off is the last point on the line."
    }
}

fn fact(label: &str, value: String, note: String) -> Fact {
    Fact { label: label.to_owned(), value, note }
}

/// The result as pressure and as mud weight, rounded to the safe side, with the unrounded beside it.
fn result(pen: &Pen, tested: &ShoeTested) -> Vec<Fact> {
    let weight = pen.show(tested.weight, Kind::Density);
    let (pressure, at_most) = match (tested.test.pick, tested.at_most) {
        (Some(pick), Some(at_most)) => (
            format!("leak-off lies below {}", pen.up(pick.at_most, Kind::Pressure)),
            format!("below {}", pen.up(at_most, Kind::Density)),
        ),
        _ => ("the highest reached".to_owned(), "how much more it bears is unknown".to_owned()),
    };
    vec![
        fact(
            if tested.integrity_only() { "integrity shown to" } else { "leak-off pressure" },
            pen.down(tested.pressure, Kind::Pressure),
            format!("at surface; {pressure}"),
        ),
        fact(
            "as mud weight at the shoe",
            pen.down(tested.rounded, Kind::Density),
            format!("rounded down; unrounded {weight}; {at_most}"),
        ),
    ]
}

fn ground(desk: &Desk, pen: &Pen, tested: &ShoeTested) -> Vec<Fact> {
    let fit = desk.subject.fit;
    let section = &fit.well.sections[tested.section];
    let casing = section.casing.as_ref().map_or("", |casing| casing.name.as_str());
    let (measured, vertical) = tested.shoe;
    let given = if (tested.mud_weight - section.mud.weight).abs() < 1e-9 { "that of the section" } else { "as typed" };
    vec![
        fact("shoe", pen.show(measured, Kind::Depth), format!("{} vertical; {casing}", pen.show(vertical, Kind::Depth))),
        fact("mud weight of the test", pen.show(tested.mud_weight, Kind::Density), given.to_owned()),
        fact(
            "readings",
            tested.record.len().to_string(),
            format!("{} on the line, scattered by {}", tested.test.on_line, pen.show(tested.test.line.deviation, Kind::Pressure)),
        ),
        fact(
            "volume for the highest pressure",
            pen.show(tested.taken, Kind::Volume),
            format!("by the line; by mud alone {}", pen.show(tested.mud_alone, Kind::Volume)),
        ),
    ]
}

/// How the figures came about, in a sentence.
fn told(pen: &Pen, tested: &ShoeTested) -> String {
    let (_, vertical) = tested.shoe;
    format!(
        "Mud weight at the shoe: {} at surface over {} of vertical depth, added to {} of mud. Mud alone, squeezed in the casing, \
         gives way least: a record that is stiffer has a fault, one that is much softer has gas, a channel or a leak in it.",
        pen.show(tested.pressure, Kind::Pressure),
        pen.show(vertical, Kind::Depth),
        pen.show(tested.mud_weight, Kind::Density)
    )
}

/// What must not be overlooked; that it is a FIT stands at the head already.
fn warnings(tested: &ShoeTested) -> impl Iterator<Item = &str> {
    tested.procedure.blocks.iter().filter_map(|block| match block {
        Block::Warn(words) if !words.starts_with("FIT") => Some(words.as_str()),
        _ => None,
    })
}

fn caption(desk: &Desk, tested: &ShoeTested) -> String {
    let kind = if tested.integrity_only() { "integrity test (FIT, no fracture pressure)" } else { "leak-off test" };
    let pick = tested.test.pick.map_or_else(String::new, |pick| {
        let pen = desk.pen();
        format!("; picked at {}, below {}", pen.down(pick.pressure, Kind::Pressure), pen.up(pick.at_most, Kind::Pressure))
    });
    format!(
        "{kind}: pressure against volume pumped; crosses are readings, the dashed line is laid through those before the bend{pick}"
    )
}

/// The plot in numbers.
fn points(pen: &Pen, tested: &ShoeTested) -> Part {
    let heads = [">no", ">volume", ">pressure", ">line", ">off the line", ">mud alone", "*what"];
    let mut table = Table::new("the plot in numbers", &heads);
    for (index, point) in tested.record.iter().enumerate() {
        let line = tested.test.line.at(point.volume);
        let picked = tested.test.pick.is_some() && index + 1 == tested.test.on_line;
        let what = match (picked, index < tested.test.on_line) {
            (true, _) => "picked",
            (false, true) => "on the line",
            (false, false) => "off the line",
        };
        table.row([
            (index + 1).to_string().into(),
            fine(pen, point.volume).into(),
            Cell { text: pen.show(point.pressure, Kind::Pressure), strong: picked },
            pen.show(line, Kind::Pressure).into(),
            pen.show(point.pressure - line, Kind::Pressure).into(),
            tested.alone(point.volume).map_or_else(|| "—".to_owned(), |alone| pen.show(alone, Kind::Pressure)).into(),
            Cell { text: what.to_owned(), strong: picked },
        ]);
    }
    Part::Table(table)
}

/// A volume as finely as it is pumped: a quarter of a barrel is a reading.
fn fine(pen: &Pen, volume: f64) -> String {
    pen.places(volume, Kind::Volume, 3)
}

/// What the record does not hold.
fn by_hand() -> Table {
    let mut table = Table::form("after pumping (fill in by hand)", &["**what", "*read", "**what", "*read"]);
    let rows = [
        ["pressure, pump stopped", "after 5 minutes"],
        ["after 10 minutes", "volume bled back"],
        ["pump rate", "gauge, its number and range"],
        ["new hole below the shoe", "mud weight in and out"],
    ];
    for [left, right] in rows {
        table.row([left.into(), Cell::default(), right.into(), Cell::default()]);
    }
    table
}
