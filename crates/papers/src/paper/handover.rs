//! The handover sheet: what the next tour takes over, with what is off normal.

use super::rows::{judged, to_change};
use super::{Cell, Desk, Part, Table};
use rigwright_margins::{Asked, Verdict};
use rigwright_units::Kind;

/// What the crew writes down at handover.
const STATE: [&str; 10] = [
    "depth of hole and of bit",
    "mud weight in and out",
    "pit volumes; gain or loss on tour",
    "trip tank level",
    "pump speed and pressure",
    "slow rates taken: depth, mud, pressures",
    "drag up and down, torque off bottom",
    "gas: background, connection, trip",
    "stack lined up; last function test",
    "crew changes, permits open",
];

/// What may be off its normal state.
const OFF_NORMAL: usize = 6;

pub(super) fn parts(desk: &Desk) -> Vec<Part> {
    let (well, pen) = (&desk.subject.fit.well, desk.pen());
    let mut state = Table::form("state now", &["*what", "*value", "taken at"]);
    for what in STATE {
        state.row([what.into(), Cell::default(), Cell::default()]);
    }
    let mut off =
        Table::form("off normal: bypassed, locked out, leaking, out of service", &["*what", "since", "*why", "who knows"]);
    off.rows = vec![vec![Cell::default(); 4]; OFF_NORMAL];
    let mut plan = Table::new("plan", &["section", ">to", ">mud weight", ">shoe above", ">shoe test"]);
    for (index, section) in well.sections.iter().enumerate() {
        let above = well.casing_above(index);
        let test = above.and_then(|casing| casing.leak_off).map_or_else(
            || "none".to_owned(),
            |test| {
                let kind = match (test.measured, test.integrity_only) {
                    (false, _) => "planned",
                    (true, true) => "integrity only",
                    (true, false) => "measured",
                };
                format!("{}, {kind}", pen.down(test.weight, Kind::Density))
            },
        );
        plan.row([
            section.name.as_str().into(),
            pen.show(section.bottom, Kind::Depth).into(),
            pen.show(section.mud.weight, Kind::Density).into(),
            above.map_or_else(String::new, |casing| pen.show(casing.shoe, Kind::Depth)).into(),
            test.into(),
        ]);
    }
    let watched = |asked: &&Asked| matches!(asked.verdict(), Verdict::Short | Verdict::Thin);
    vec![
        Part::Table(plan),
        Part::Table(state),
        Part::Table(off),
        judged(desk, "limits to watch", desk.subject.review.answers.iter().filter(watched)),
        to_change(desk, false),
        Part::Signatures { lines: vec!["handed over by".into(), "taken over by".into()] },
    ]
}
