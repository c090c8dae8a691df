//! The bit and hydraulics sheet: what is planned, with room for what was run.

use super::rows::{judged, told_all};
use super::{Cell, Desk, Part, Table};
use rigwright_margins::Asked;
use rigwright_units::Kind;
use rigwright_well::PartKind;
use rigwright_wellfile::nozzles_text;

/// Questions about the flow path that limit it.
const LIMITS: [&str; 5] = [
    "circulating/standpipe-pressure",
    "circulating/pump-power",
    "circulating/pump-speed",
    "circulating/cleaning",
    "circulating/washout",
];

pub(super) fn parts(desk: &Desk) -> Vec<Part> {
    let pen = desk.pen();
    let mut planned = Table::new(
        "planned",
        &["*section", "nozzles", ">flow area", ">flow", ">pumps", ">liner", ">weight on bit", ">rotary speed"],
    );
    let mut run = Table::form(
        "as run (fill in by hand)",
        &["**section", "bit number", "**make and type", "nozzles", "depth in", "depth out", "hours", "flow", "standpipe", "wear"],
    );
    for section in &desk.subject.fit.well.sections {
        let bit = section.string.iter().find(|part| part.kind == PartKind::Bit);
        let area = bit.and_then(|bit| bit.flow_area);
        let nozzles = bit.and_then(|bit| nozzles_text(bit.nozzles?, bit.flow_area?)).unwrap_or_else(|| "not given".to_owned());
        let drilling = &section.drilling;
        planned.row([
            section.name.as_str().into(),
            nozzles.into(),
            pen.maybe(area, Kind::Area).into(),
            pen.show(drilling.flow_rate, Kind::FlowRate).into(),
            drilling.pumps_on.to_string().into(),
            pen.show(drilling.liner, Kind::Diameter).into(),
            pen.show(drilling.weight_on_bit, Kind::Force).into(),
            pen.show(drilling.rotary_speed, Kind::RotarySpeed).into(),
        ]);
        let mut row: Vec<Cell> = vec![section.name.as_str().into()];
        row.resize(run.columns.len(), Cell::default());
        run.rows.push(row);
    }
    let of_limits = |asked: &&Asked| LIMITS.contains(&asked.question.slug);
    let mut parts = vec![Part::Table(planned)];
    parts.extend(told_all(desk, &["circulating/bit"]));
    parts.push(judged(desk, "what limits the flow", desk.subject.review.answers.iter().filter(of_limits)));
    parts.extend(told_all(desk, &["circulating/lag"]));
    parts.push(Part::Table(run));
    parts
}
