//! The mud window of a well by depth: rock against mud, all as equivalent mud weights.

use super::{Axis, Band, Figure, Fill, Lie, Mark, Role, Series};
use rigwright_margins::WindowRow;
use rigwright_units::{Kind, System, unit};
use rigwright_well::Fit;

type Read = fn(&WindowRow) -> Option<f64>;

/// What is drawn, in the order of the legend: name, role and where it stands in a row.
const LINES: [(&str, Role, Read); 6] = [
    ("pore or collapse", Role::LowerLimit, |row| Some(row.collapse.map_or(row.pore, |collapse| collapse.max(row.pore)))),
    ("fracture", Role::UpperLimit, |row| row.fracture),
    ("mud, pumps off", Role::Still, |row| row.still),
    ("mud, drilling", Role::Flowing, |row| row.flowing),
    ("mud, pulling out", Role::Pulling, |row| row.pulling),
    ("mud, running in", Role::Running, |row| row.running),
];

/// The window of these sections, each at its end with the bit on bottom. Rows come from
/// [`rigwright_margins::window`].
pub fn window(fit: &Fit, sections: &[(usize, Vec<WindowRow>)], units: System) -> Figure {
    let of = |row: &WindowRow, read: Read| {
        Some((unit(Kind::Density, units).from_si(read(row)?), unit(Kind::Depth, units).from_si(row.vertical_depth)))
    };
    let run = |rows: &[WindowRow], read: Read| rows.iter().filter_map(|row| of(row, read)).collect::<Vec<_>>();
    let series = LINES
        .iter()
        .map(|(name, role, read)| Series {
            name: (*name).to_owned(),
            role: *role,
            runs: sections.iter().map(|(_, rows)| run(rows, *read)).filter(|run| !run.is_empty()).collect(),
        })
        .filter(|series| !series.runs.is_empty())
        .collect();
    let band = |(index, rows): &(usize, Vec<WindowRow>)| {
        let known: Vec<WindowRow> = rows.iter().filter(|row| row.fracture.is_some()).copied().collect();
        let name = fit.well.sections.get(*index).map_or("window", |section| &section.name);
        Band { name: name.to_owned(), fill: Fill::Window, low: run(&known, LINES[0].2), high: run(&known, LINES[1].2) }
    };
    let depth = |measured: f64| unit(Kind::Depth, units).from_si(fit.well.path.vertical_depth_at(measured));
    let mut marks: Vec<Mark> = Vec::new();
    for (index, _) in sections {
        let shoe = fit.well.casing_above(*index).map(|casing| (format!("shoe of {}", casing.name), casing.shoe));
        marks.extend(shoe.map(|(label, measured)| Mark { label, at: depth(measured) }));
    }
    let end = sections.last().and_then(|(index, _)| fit.well.sections.get(*index));
    marks.extend(end.map(|section| Mark { label: format!("end of {}", section.name), at: depth(section.bottom) }));
    let names: Vec<&str> =
        sections.iter().filter_map(|(index, _)| fit.well.sections.get(*index)).map(|section| section.name.as_str()).collect();
    Figure {
        title: format!("{}: mud window", fit.well.name),
        note: format!("open hole of {}, each at its end with the bit on bottom", names.join(", ")),
        values: Axis { label: "equivalent mud weight".to_owned(), unit: unit(Kind::Density, units).symbol.to_owned() },
        along: Axis {
            label: format!("vertical depth below {}", fit.well.datum),
            unit: unit(Kind::Depth, units).symbol.to_owned(),
        },
        bands: sections.iter().map(band).collect(),
        series,
        marks,
        lie: Lie::Downward,
        from_zero: true,
    }
}
