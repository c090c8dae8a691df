//! The form for a test of preventers, manifold and valves.

use super::{Cell, Desk, Part, Table};
use rigwright_units::Kind;

/// What else is tested than the preventers themselves; common practice.
const VALVES: [&str; 9] = [
    "kill line valves, inner and outer",
    "choke line valves, inner and outer",
    "choke manifold, upstream valves",
    "choke manifold, downstream valves",
    "standpipe manifold and kelly hose",
    "upper safety valve",
    "lower safety valve",
    "drill pipe safety valve on the floor",
    "inside preventer on the floor",
];

pub(super) fn parts(desk: &Desk) -> Vec<Part> {
    let (rig, pen) = (&desk.subject.fit.rig, desk.pen());
    let heads = [
        "***what is tested",
        ">rated",
        "low pressure",
        "high pressure",
        "time begun",
        "minutes held",
        "at the end",
        "**good, or what was mended",
    ];
    let mut table = Table::form("pressures and times; low pressure first", &heads);
    let mut row = |what: &str, rated: String| {
        let mut cells: Vec<Cell> = vec![what.into(), rated.into()];
        cells.resize(heads.len(), Cell::default());
        table.rows.push(cells);
    };
    for preventer in &rig.stack {
        row(&preventer.name, pen.show(preventer.rating, Kind::Pressure));
    }
    row("wellhead and casing connection", pen.maybe(rig.wellhead_rating, Kind::Pressure));
    for valve in VALVES {
        let manifold = valve.starts_with("choke manifold, upstream");
        row(valve, if manifold { pen.maybe(rig.manifold_rating, Kind::Pressure) } else { String::new() });
    }
    let mut closing = Table::form(
        "closing of each preventer",
        &["**preventer", ">volume to close", "seconds to close", "accumulator before", "accumulator after", "by which station"],
    );
    for preventer in &rig.stack {
        let mut cells: Vec<Cell> = vec![preventer.name.as_str().into(), pen.maybe(preventer.closing_volume, Kind::Volume).into()];
        cells.resize(closing.columns.len(), Cell::default());
        closing.rows.push(cells);
    }
    vec![
        Part::text(
            "Test pressures, holding times and intervals are those of the local code and the approved well-control manual; this form \
             prescribes none. Never test above the lowest rating in the line of pressure, and never against a closed string that may \
             carry the pressure below.",
        ),
        Part::Table(blank(&[
            "*tested with (fluid)",
            "depth of the test plug or tool",
            "recorder or chart number",
            "date of the last test",
        ])),
        Part::Table(table),
        Part::Table(closing),
        Part::Signatures {
            lines: vec![
                "tester".into(),
                "toolpusher".into(),
                "operator's representative".into(),
                "witness of the authority".into(),
            ],
        },
    ]
}

/// One row to fill in.
fn blank(heads: &[&str]) -> Table {
    let mut table = Table::form("", heads);
    table.rows.push(vec![Cell::default(); heads.len()]);
    table
}
