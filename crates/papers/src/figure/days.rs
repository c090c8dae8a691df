//! Depth against days: how the hole gets deeper over the programme, and where the bit is meanwhile.

use super::{Axis, Figure, Lie, Mark, Role, Series};
use rigwright_margins::programme::{Programme, Step};
use rigwright_units::{Kind, System, unit};
use rigwright_well::Fit;

/// Seconds of a day.
const DAY: f64 = 86_400.0;

/// The programme as lines of depth against days.
pub fn days(fit: &Fit, programme: &Programme, units: System) -> Figure {
    let depth = |measured: f64| unit(Kind::Depth, units).from_si(measured);
    let line = |from: fn(&Step, f64) -> f64, to: fn(&Step) -> f64| {
        let mut run: Vec<(f64, f64)> = Vec::with_capacity(2 * programme.steps.len());
        let mut hole = 0.0;
        for step in &programme.steps {
            run.push((step.start / DAY, depth(from(step, hole))));
            run.push((step.end() / DAY, depth(to(step))));
            hole = step.hole;
        }
        vec![run]
    };
    let casing = |step: &Step| {
        let casing = fit.well.sections.get(step.section)?.casing.as_ref()?;
        Some(Mark { label: format!("shoe of {}", casing.name), at: depth(casing.shoe) })
    };
    let marks = (0..fit.well.sections.len()).filter_map(|index| casing(programme.section(index).next()?)).collect();
    Figure {
        title: format!("{}: depth against days", fit.well.name),
        note: format!("{:.1} days; logging, waiting and moves are left out", programme.duration() / DAY),
        values: Axis { label: "time since the well was begun".to_owned(), unit: "d".to_owned() },
        along: Axis {
            label: format!("measured depth below {}", fit.well.datum),
            unit: unit(Kind::Depth, units).symbol.to_owned(),
        },
        bands: Vec::new(),
        series: vec![
            Series { name: "bit or shoe".to_owned(), role: Role::Bit, runs: line(|step, _| step.from, |step| step.to) },
            Series { name: "hole".to_owned(), role: Role::Hole, runs: line(|_, hole| hole, |step| step.hole) },
        ],
        marks,
        lie: Lie::Downward,
        from_zero: true,
    }
}
