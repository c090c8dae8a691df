//! Hook load by bit depth for the motions of the string, over a band of friction, with what was read.

use super::{Axis, Band, Figure, Fill, Lie, Mark, Role, Series};
use rigwright_margins::Basis;
use rigwright_margins::rotating::motions::{MoveRow, StringMove, move_depths, moves};
use rigwright_units::{Kind, System, unit};
use rigwright_well::Fit;

const LINES: [(StringMove, Role); 3] =
    [(StringMove::PullingOut, Role::Pulling), (StringMove::Turning, Role::Circulating), (StringMove::RunningIn, Role::Running)];

/// The hook loads of one section; `None` for a section that the well does not have.
pub fn hook_load(basis: &Basis, section: usize, units: System) -> Option<Figure> {
    let fit: &Fit = basis.fit;
    let this = fit.well.sections.get(section)?;
    let depth = |measured: f64| unit(Kind::Depth, units).from_si(measured);
    let force = |force: f64| unit(Kind::Force, units).from_si(force);
    let line = |rows: &[MoveRow], share: usize| -> Vec<(f64, f64)> {
        rows.iter().map(|row| (force(row.hook_load[share]), depth(row.bit_depth))).collect()
    };
    let (mut series, mut bands) = (Vec::new(), Vec::new());
    for (motion, role) in LINES {
        let rows = moves(basis, section, motion, &move_depths(fit, section, motion));
        if motion != StringMove::Turning {
            let name = format!("{}, half to one and a half times the friction", motion.name());
            bands.push(Band { name, fill: Fill::Window, low: line(&rows, 0), high: line(&rows, 2) });
        }
        series.push(Series { name: motion.name().to_owned(), role, runs: vec![line(&rows, 1)] });
    }
    if let Some(rating) = fit.rig.mast.rating(fit.rig.line.strung) {
        let run = vec![(force(rating), 0.0), (force(rating), depth(this.bottom))];
        series.push(Series { name: "mast".to_owned(), role: Role::UpperLimit, runs: vec![run] });
    }
    // A reading is a short bar at its depth.
    let half = force(0.01 * fit.rig.mast.rating(fit.rig.line.strung).unwrap_or(0.0)).max(0.5);
    let read = this.hook_loads.iter().filter(|reading| reading.corrected);
    let bars: Vec<Vec<(f64, f64)>> = read
        .map(|reading| {
            let (load, at) = (force(reading.load), depth(reading.depth));
            vec![(load - half, at), (load + half, at)]
        })
        .collect();
    if !bars.is_empty() {
        series.push(Series { name: "read".to_owned(), role: Role::Hole, runs: bars });
    }
    let shoe = fit.well.casing_above(section);
    let marks = shoe.map(|casing| Mark { label: format!("shoe of {}", casing.name), at: depth(casing.shoe) });
    let friction = fit.well.friction;
    Some(Figure {
        title: format!("{}: hook load in {}", fit.well.name, this.name),
        note: format!(
            "with block and top drive; friction {} cased, {} open; bands: half to one and a half times that",
            friction.cased, friction.open
        ),
        values: Axis { label: "hook load".to_owned(), unit: unit(Kind::Force, units).symbol.to_owned() },
        along: Axis {
            label: format!("measured depth of the bit below {}", fit.well.datum),
            unit: unit(Kind::Depth, units).symbol.to_owned(),
        },
        bands,
        series,
        marks: marks.into_iter().collect(),
        lie: Lie::Downward,
        from_zero: true,
    })
}
