//! The mud programme: section by section, what the mud is, what it must do and what it takes.

use super::rows::{judged, told_all};
use super::{Desk, Part, Table};
use rigwright_margins::Asked;
use rigwright_units::Kind;
use rigwright_well::MudKind;

pub(super) fn parts(desk: &Desk) -> Vec<Part> {
    let (subject, pen) = (desk.subject, desk.pen());
    let mut table =
        Table::new("mud by section", &["section", ">from", ">to", "base", ">mud weight", ">gel, 10 s", ">gel, 10 min"]);
    for section in &subject.fit.well.sections {
        let gel = |index: usize| section.mud.gels.map_or_else(String::new, |gels| pen.show(gels[index], Kind::ShearStress));
        table.row([
            section.name.as_str().into(),
            pen.show(section.top, Kind::Depth).into(),
            pen.show(section.bottom, Kind::Depth).into(),
            base(section.mud.kind).into(),
            pen.show(section.mud.weight, Kind::Density).into(),
            gel(0).into(),
            gel(1).into(),
        ]);
    }
    let mut parts = vec![Part::Table(table), readings(desk), Part::below("what the mud must do")];
    let of_mud = |asked: &&Asked| asked.question.system() == "circulating" && asked.question.kind == Kind::Density;
    parts.push(judged(desk, "mud weight against the rock", subject.review.answers.iter().filter(of_mud)));
    parts.extend(told_all(
        desk,
        &["circulating/mud-window", "circulating/volumes", "circulating/weighting-up", "circulating/total-losses"],
    ));
    let stocks = ["circulating/weight-up", "circulating/pit-room", "circulating/waste", "circulating/return-line"];
    let of_stock = |asked: &&Asked| stocks.contains(&asked.question.slug);
    parts.push(Part::below("what the rig must hold"));
    parts.push(judged(desk, "stocks, pits and returns", subject.review.answers.iter().filter(of_stock)));
    parts.push(Part::Signatures { lines: vec!["mud engineer".into(), "drilling engineer".into()] });
    parts
}

/// What the viscometer read, a row a section.
fn readings(desk: &Desk) -> Part {
    let sections = &desk.subject.fit.well.sections;
    let mut speeds: Vec<f64> = Vec::new();
    for reading in sections.iter().flat_map(|section| &section.mud.rheogram.readings) {
        if !speeds.iter().any(|speed| (speed - reading.speed_rpm).abs() < 1e-6) {
            speeds.push(reading.speed_rpm);
        }
    }
    speeds.sort_by(|a, b| b.total_cmp(a));
    let heads: Vec<String> = speeds.iter().map(|speed| format!(">{speed:.0} rpm")).collect();
    let mut all = vec!["section", ">at"];
    all.extend(heads.iter().map(String::as_str));
    let mut table = Table::new("viscometer, dial readings", &all);
    for section in sections {
        let rheogram = &section.mud.rheogram;
        let temperature =
            rheogram.temperature.map_or_else(String::new, |temperature| desk.pen().show(temperature, Kind::Temperature));
        let mut row = vec![section.name.as_str().into(), temperature.into()];
        row.extend(speeds.iter().map(|speed| rheogram.dial(*speed).map_or_else(String::new, |dial| dial.to_string()).into()));
        table.rows.push(row);
    }
    Part::Table(table)
}

pub(super) const fn base(kind: MudKind) -> &'static str {
    match kind {
        MudKind::Water => "water",
        MudKind::Oil => "oil",
        MudKind::Synthetic => "synthetic",
    }
}
